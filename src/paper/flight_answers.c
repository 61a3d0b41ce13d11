/* flight_answers.c - will it fly, and will it hold: one line for each question. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include "paper/flight_page.h"

struct answers {
    const struct flight *flight;
    struct flight_answer *item;
    size_t count;
};

static void answer(struct answers *answers, bool bad, const char *label, const char *format, ...)
    FORMATTED(4, 5);

static void answer(struct answers *answers, bool bad, const char *label, const char *format, ...) {
    struct flight_answer *item = &answers->item[answers->count++];
    va_list list;
    item->label = label;
    item->bad = bad;
    va_start(list, format);
    vsnprintf(item->words, sizeof item->words, format, list);
    va_end(list);
}

static void answer_weight(struct answers *answers) {
    const struct flight *flight = answers->flight;
    char all[SHOWN_MOST], envelope[SHOWN_MOST];
    answer(answers, false, "Weighs", "%s; envelope %s",
           show_with_unit(flight->design, MASS, flight->printed.all_kg, all),
           show(flight->design, MASS, flight->printed.envelope_kg, envelope));
}

static void answer_lift(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct design *design = flight->design;
    char gross[SHOWN_MOST], inside[SHOWN_MOST], left[SHOWN_MOST];
    show_with_unit(design, MASS, fabs(flight->gross_kg), gross);
    show_with_unit(design, TEMPERATURE, flight->lift.inside_K, inside);
    show_with_unit(design, MASS, fabs(flight->left_kg), left);
    if (flight->gross_kg < 0)
        answer(answers, true, "Lifts", "nothing: pulled down by %s", gross);
    else
        answer(answers, false, "Lifts", "%s with %s inside", gross, inside);
    if (flight->left_kg < 0)
        answer(answers, true, "Free lift", "none: TOO HEAVY by %s", left);
    else
        answer(answers, false, "Free lift", "%s, %.0f %% of its weight", left,
               100 * flight->left_kg / flight->printed.all_kg);
}

static void answer_floating(struct answers *answers) {
    const struct flight *flight = answers->flight;
    char at[SHOWN_MOST], margin[SHOWN_MOST];
    if (!flight->lift.floats) {
        answer(answers, true, "Floats at", "no temperature: TOO HEAVY");
        return;
    }
    bool too_hot = flight->margin_K < 0;
    show_with_unit(flight->design, TEMPERATURE, flight->lift.needed_K, at);
    show_with_unit(flight->design, WARMTH, fabs(flight->margin_K), margin);
    answer(answers, too_hot, "Floats at", "%s; %s %s its limit", at, margin,
           too_hot ? "ABOVE" : "below");
}

static void answer_burner(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct design *design = flight->design;
    const struct heat *heat = &flight->heat;
    const struct spread full = {design->heat.burner_W, design->heat.burner_W};
    bool weak = heat->hold_W.high > design->heat.burner_W;
    char hold[SPREAD_MOST], burner[SPREAD_MOST];
    answer(answers, weak, "Burner", "%s of %s, to hold%s",
           show_range(design, POWER, heat->hold_W, hold), show_spread(design, POWER, full, burner),
           weak ? ": TOO WEAK" : "");
}

static void answer_fuel(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct design *design = flight->design;
    const struct heat *heat = &flight->heat;
    const struct spread *minutes = &heat->minutes;
    char low[SHOWN_MOST], high[SHOWN_MOST], fuel[SHOWN_MOST];
    show_with_unit(design, MASS, design->rig.fuel_kg, fuel);
    two_figures(minutes->low, low);
    two_figures(minutes->high, high);
    if (!(design->rig.fuel_kg > 0))
        answer(answers, false, "Fuel", "none is carried");
    else if (heat->no_gas)
        answer(answers, true, "Fuel", "no gas leaves a cylinder this cold");
    else if (flight->lift.floats && !isfinite(heat->heat_up_min.low))
        answer(answers, true, "Fuel", "none helps: the burner is TOO WEAK");
    else if (!flight->lift.floats || !(minutes->high > 0))
        answer(answers, true, "Fuel", "%s does not bring it up", fuel);
    else if (!isfinite(minutes->high))
        answer(answers, false, "Fuel", "%s min or more on %s", low, fuel);
    else
        answer(answers, !(minutes->low > 0), "Fuel", "%s to %s min, give or take a third", low,
               high);
}

/* The weaker of tapes and cloth with its place, the other behind it. */
static void answer_loads(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct loads *loads = &flight->loads;
    double tape = loads->station[loads->weakest_tape].tape_factor;
    double cloth = loads->station[loads->weakest_cloth].cloth_factor, least = fmin(tape, cloth);
    char name[STATION_NAME_MOST], lesser[SHOWN_MOST], greater[SHOWN_MOST];
    if (!isfinite(least)) {
        answer(answers, false, "Weakest", "nothing: it carries no load");
        return;
    }
    station_name(flight->envelope, tape < cloth ? loads->weakest_tape : loads->weakest_cloth, name);
    answer(answers, least < greatest_code_factor(RATED_ENVELOPE), "Weakest",
           tape < cloth ? "tapes %s times: %s; cloth %s" : "cloth %s times: %s; tapes %s",
           two_figures(least, lesser), name, two_figures(fmax(tape, cloth), greater));
}

static void answer_wind(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct design *design = flight->design;
    struct spread wind = wind_to_hold_m_s(design, flight->envelope, &flight->lift);
    char hold[SHOWN_MOST], speed[SPREAD_MOST];
    show_with_unit(design, FORCE, design->wind.hold_N, hold);
    if (wind.high <= 0)
        answer(answers, true, "Wind", "its lift alone pulls more than %s", hold);
    else
        answer(answers, wind.low < design->wind.expected_m_s, "Wind",
               "pulls %s from %s; gusts sooner", hold,
               show_spread(design, SPEED, (struct spread){wind.low, wind.low}, speed));
}

size_t flight_answers(const struct design *sized, const struct envelope *envelope,
                      struct flight_answer item[FLIGHT_ANSWERS_MOST]) {
    struct flight flight;
    struct answers answers = {&flight, item, 0};
    work_out_flight(sized, envelope, &flight);
    answer_weight(&answers);
    answer_lift(&answers);
    answer_floating(&answers);
    answer_burner(&answers);
    answer_fuel(&answers);
    answer_loads(&answers);
    answer_wind(&answers);
    answer(&answers, false, "Building", "about %.0f h at your pace", build_hours(sized, envelope));
    return answers.count;
}
