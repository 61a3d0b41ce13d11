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
    answer(answers, false, "Weighs", "%s, %s of it envelope",
           show_with_unit(flight->design, MASS, flight->printed.all_kg, all),
           show(flight->design, MASS, flight->printed.envelope_kg, envelope));
}

static void answer_lift(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct design *design = flight->design;
    double gross_kg = printed_mass_kg(design, flight->lift.gross_kg);
    double left_kg = gross_kg - flight->printed.all_kg;
    char gross[SHOWN_MOST], inside[SHOWN_MOST], left[SHOWN_MOST];
    answer(answers, false, "Lifts", "%s with %s inside",
           show_with_unit(design, MASS, gross_kg, gross),
           show_with_unit(design, TEMPERATURE, flight->lift.inside_K, inside));
    show_with_unit(design, MASS, fabs(left_kg), left);
    if (left_kg < 0)
        answer(answers, true, "Free lift", "none: TOO HEAVY by %s", left);
    else
        answer(answers, false, "Free lift", "%s, %.0f %% of its weight", left,
               100 * left_kg / flight->printed.all_kg);
}

static void answer_floating(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct lift *lift = &flight->lift;
    char at[SHOWN_MOST], margin[SHOWN_MOST];
    if (!lift->floats) {
        answer(answers, true, "Floats at", "no temperature: TOO HEAVY");
        return;
    }
    show_with_unit(flight->design, TEMPERATURE, lift->needed_K, at);
    show_with_unit(flight->design, WARMTH, fabs(lift->margin_K), margin);
    answer(answers, lift->margin_K < 0, "Floats at", "%s; cloth: %s %s", at, margin,
           lift->margin_K < 0 ? "TOO HOT" : "to spare");
}

static void answer_burner(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct design *design = flight->design;
    const struct heat *heat = &flight->heat;
    const struct spread full = {design->heat.burner_W, design->heat.burner_W};
    char hold[SPREAD_MOST], burner[SPREAD_MOST];
    answer(answers, heat->hold_W.high > design->heat.burner_W, "Burner", "%s of %s, to hold",
           show_range(design, POWER, heat->hold_W, hold), show_spread(design, POWER, full, burner));
}

static void answer_fuel(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct design *design = flight->design;
    const struct spread *minutes = &flight->heat.minutes;
    char low[SHOWN_MOST], high[SHOWN_MOST], fuel[SHOWN_MOST];
    show_with_unit(design, MASS, design->rig.fuel_kg, fuel);
    two_figures(minutes->low, low);
    two_figures(minutes->high, high);
    if (!(design->rig.fuel_kg > 0))
        answer(answers, false, "Fuel", "none is carried");
    else if (!flight->lift.floats || !(minutes->high > 0))
        answer(answers, true, "Fuel", "%s does not bring it up", fuel);
    else if (!isfinite(minutes->high))
        answer(answers, false, "Fuel", "%s min or more on %s", low, fuel);
    else
        answer(answers, false, "Fuel", "%s to %s min on %s", low, high, fuel);
}

/* The least that any of the codes asks for. */
static double least_code_factor(void) {
    size_t count;
    const struct safety_code *code = safety_codes(&count);
    double least = HUGE_VAL;
    for (size_t i = 0; i < count; i++)
        least = fmin(least, code[i].envelope);
    return least;
}

static void answer_loads(struct answers *answers) {
    const struct flight *flight = answers->flight;
    const struct station_load *weakest = &flight->loads.station[flight->loads.weakest];
    double factor = fmax(weakest->tape_factor, weakest->cloth_factor);
    char name[STATION_NAME_MOST], number[SHOWN_MOST];
    if (!isfinite(factor))
        answer(answers, false, "Weakest", "nothing: it carries no load");
    else
        answer(answers, factor < least_code_factor(), "Weakest", "factor %s: %s",
               two_figures(factor, number),
               station_name(flight->envelope, flight->loads.weakest, name));
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
        answer(answers, wind.low < design->wind.expected_m_s, "Wind", "you can hold %s",
               show_spread(design, SPEED, wind, speed));
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
