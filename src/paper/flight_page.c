/* flight_page.c - will it fly, and will it hold: the builder's questions in their order. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "paper/flight_page.h"
#include "paper/plain.h"

enum { LABEL_COLUMNS = 17 };

void flight_line(struct text *into, const char *label, const char *format, ...) {
    char words[512];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(words, sizeof words, format, arguments);
    va_end(arguments);
    text_add(into, "  %-*s", LABEL_COLUMNS - 2, label);
    flow_text(into, words, LABEL_COLUMNS, LABEL_COLUMNS);
}

void flight_note(const char *words, struct text *into) {
    text_add(into, "  ");
    flow_text(into, words, 2, 2);
}

/* ---- what it weighs --------------------------------------------------------- */

enum { NAME_COLUMNS = 25, GRAMS_COLUMNS = 10 };

/* "  burner                         350", and a star behind what was weighed. */
static void write_item(const struct flight *flight, const struct mass_item *item,
                       struct text *into) {
    char name[TEXT_MOST], number[SHOWN_MOST];
    text_add(into, "  %-*.*s%*s%s", NAME_COLUMNS, NAME_COLUMNS, plain_text(item->name, name),
             GRAMS_COLUMNS, show(flight->design, MASS, item->kg, number), item->weighed ? "*" : "");
}

/* One of the envelope at the left, one of the rig at the right; either may be NULL. */
static void write_two_items(const struct flight *flight, const struct mass_item *left,
                            const struct mass_item *right, struct text *into) {
    if (left != NULL)
        write_item(flight, left, into);
    if (right != NULL) {
        int gap = left == NULL ? 2 + NAME_COLUMNS + GRAMS_COLUMNS + 2 : left->weighed ? 1 : 2;
        text_add(into, "%*s", gap, "");
        write_item(flight, right, into);
    }
    text_add(into, "\n");
}

/* Item number `which` of the envelope, or of the rig; NULL when there are not so many. */
static const struct mass_item *nth_item(const struct masses *masses, bool carried, size_t which) {
    for (size_t i = 0; i < masses->count; i++)
        if (masses->item[i].carried == carried && which-- == 0)
            return &masses->item[i];
    return NULL;
}

static void write_computed(const struct flight *flight, struct text *into) {
    char words[512] = "* as weighed; worked out from the design:", number[SHOWN_MOST];
    size_t used = strlen(words), weighed = 0;
    for (size_t i = 0; i < flight->masses.count; i++) {
        const struct mass_item *item = &flight->masses.item[i];
        if (item->weighed && used + 80 < sizeof words)
            used += (size_t)snprintf(
                words + used, sizeof words - used, "%s %.32s %s", weighed++ > 0 ? "," : "",
                item->name, show_with_unit(flight->design, MASS, item->computed_kg, number));
    }
    if (weighed > 0)
        flight_note(words, into);
}

static void write_weights(const struct flight *flight, struct text *into) {
    const struct masses *masses = &flight->printed;
    const struct mass_item envelope = {.name = "ENVELOPE", .kg = flight->printed.envelope_kg};
    const struct mass_item rig = {.name = "RIG", .carried = true, .kg = flight->printed.rig_kg};
    char number[SHOWN_MOST];
    text_add(into, "\n1 WHAT IT WEIGHS, in %s\n", page_unit(flight->design, MASS));
    for (size_t i = 0;; i++) {
        const struct mass_item *left = nth_item(masses, false, i),
                               *right = nth_item(masses, true, i);
        if (left == NULL && right == NULL)
            break;
        write_two_items(flight, left, right, into);
    }
    write_two_items(flight, &envelope, &rig, into);
    text_add(into, "  All together %s.\n",
             show_with_unit(flight->design, MASS, flight->printed.all_kg, number));
    write_computed(flight, into);
}

/* ---- lift -------------------------------------------------------------------- */

static void write_floating(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    const struct lift *lift = &flight->lift;
    char at[SHOWN_MOST], hottest[SHOWN_MOST], margin[SHOWN_MOST];
    if (!lift->floats) {
        flight_line(into, "Floats",
                    "at no temperature: its weight is more than that of all the "
                    "air it holds. Make it lighter, or larger.");
        return;
    }
    show_with_unit(design, TEMPERATURE, lift->needed_K, at);
    show_with_unit(design, TEMPERATURE, design->cloth.hottest_C + ZERO_C_K, hottest);
    show_with_unit(design, WARMTH, fabs(flight->margin_K), margin);
    if (flight->margin_K >= 0)
        flight_line(into, "Floats",
                    "at %s inside; the cloth stands %s, so there are %s to spare on the mean; the "
                    "crown is hotter",
                    at, hottest, margin);
    else
        flight_line(into, "Floats",
                    "at %s inside, but the cloth stands %s only: %s TOO HOT on the mean, and the "
                    "crown is hotter. Make it lighter, or larger.",
                    at, hottest, margin);
}

static void write_ceiling(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    double ceiling_m = flight->lift.ceiling_m;
    char height[SHOWN_MOST], hottest[SHOWN_MOST];
    show_with_unit(design, TEMPERATURE, design->cloth.hottest_C + ZERO_C_K, hottest);
    two_figures(in_page_units(design, HEIGHT, ceiling_m), height);
    if (ceiling_m <= 0)
        flight_line(into, "Ceiling",
                    "none: with the cloth at its limit it does not leave the "
                    "field");
    else
        flight_line(into, "Ceiling",
                    "%s %s %s above the field with %s inside, the cloth at its limit; what the "
                    "rules allow is far less",
                    flight->lift.ceiling_beyond ? "more than" : "about", height,
                    page_unit(design, HEIGHT), hottest);
}

/* "3349 g with 100 C inside"; "nothing with 0 C inside, and is pulled down by 510 g". */
static void write_balance(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    char lifts[SHOWN_MOST], inside[SHOWN_MOST], weighs[SHOWN_MOST], left[SHOWN_MOST];
    char down[64] = "";
    show_with_unit(design, MASS, fabs(flight->gross_kg), lifts);
    if (flight->gross_kg < 0)
        snprintf(down, sizeof down, ": pulled down by %s", lifts);
    flight_line(into, "Lifts", "%s with %s inside%s; it weighs %s, %s %s",
                flight->gross_kg > 0 ? lifts : "nothing",
                show_with_unit(design, TEMPERATURE, flight->lift.inside_K, inside), down,
                show_with_unit(design, MASS, flight->printed.all_kg, weighs),
                flight->left_kg < 0 ? "TOO HEAVY by" : "so it pulls up with",
                show_with_unit(design, MASS, fabs(flight->left_kg), left));
}

static void write_lift(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    char a[SHOWN_MOST], b[SHOWN_MOST], c[SHOWN_MOST];
    text_add(into, "\n2 WHAT IT LIFTS\n");
    flight_line(into, "Air of the day", "%s at the field, %s above the sea: %s",
                show_with_unit(design, TEMPERATURE, design->air.ground_C + ZERO_C_K, a),
                show_with_unit(design, HEIGHT, design->air.altitude_m, b),
                show_with_unit(design, AIR_DENSITY, flight->lift.outside.density_kg_m3, c));
    write_balance(flight, into);
    write_floating(flight, into);
    write_ceiling(flight, into);
    flight_lift_tables(flight, into);
}

/* ---- heat and fuel ------------------------------------------------------------ */

/* "2.1 to 2.9 min"; below two minutes "28 to 29 s". */
static char *show_minutes(struct spread minutes, char into[SPREAD_MOST]) {
    char low[SHOWN_MOST], high[SHOWN_MOST];
    bool brief = minutes.high < 2;
    const char *unit = brief ? "s" : "min";
    two_figures(minutes.low * (brief ? 60 : 1), low);
    two_figures(minutes.high * (brief ? 60 : 1), high);
    if (!isfinite(minutes.low))
        snprintf(into, SPREAD_MOST, "never");
    else if (!isfinite(minutes.high))
        snprintf(into, SPREAD_MOST, "%.18s min or more, perhaps never", low);
    else if (strcmp(low, high) == 0)
        snprintf(into, SPREAD_MOST, "%.18s %s", low, unit);
    else
        snprintf(into, SPREAD_MOST, "%.18s to %.18s %s", low, high, unit);
    return into;
}

static void write_fuel(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    const struct heat *heat = &flight->heat;
    char a[SPREAD_MOST], b[SPREAD_MOST], c[SHOWN_MOST];
    flight_line(into, "Propane", "%s", show_spread(design, FUEL_RATE, heat->fuel_kg_h, a));
    if (!flight->lift.floats)
        flight_line(into, "Flight", "none: no heat carries its weight");
    else if (!(design->rig.fuel_kg > 0))
        flight_line(into, "Flight", "none: no fuel is carried (rig.fuel)");
    else if (heat->no_gas)
        flight_line(into, "Flight", "none: no gas leaves a cylinder this cold");
    else if (!isfinite(heat->heat_up_min.low))
        flight_line(into, "Flight", "none: the burner cannot hold it up");
    else if (!(heat->minutes.high > 0))
        flight_line(into, "Flight", "none: %s of propane does not even heat it up",
                    show_with_unit(design, MASS, design->rig.fuel_kg, c));
    else
        flight_line(into, "Flight", "%s on %s of propane, after heating up; keep some in hand",
                    show_minutes(heat->minutes, b),
                    show_with_unit(design, MASS, design->rig.fuel_kg, c));
}

static void write_cylinder(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    double at_Pa = flight->heat.vapour_pressure_Pa;
    char inside[SHOWN_MOST], ground[SHOWN_MOST], gauge[SHOWN_MOST];
    show_with_unit(design, GAS_PRESSURE, at_Pa, inside);
    show_with_unit(design, TEMPERATURE, design->air.ground_C + ZERO_C_K, ground);
    if (flight->heat.no_gas)
        flight_line(into, "Cylinder",
                    "%s absolute in propane of %s, no more than in the air at the field: no gas "
                    "leaves it",
                    inside, ground);
    else
        flight_line(
            into, "Cylinder",
            "%s absolute in propane of %s, %s on a gauge at the field; less when it is "
            "cold, and less while it is drawn",
            inside, ground,
            show_with_unit(design, GAS_PRESSURE, at_Pa - flight->lift.outside.pressure_Pa, gauge));
}

static char *show_estimate(const struct design *design, enum quantity quantity, double value,
                           char into[SPREAD_MOST]) {
    return show_spread(design, quantity, (struct spread){value, value}, into);
}

/* "the burner gives 40 kW at full flame", and whether that is enough. */
static void say_burner(const struct flight *flight, char *into, size_t size) {
    double burner_W = flight->design->heat.burner_W;
    const struct spread *hold_W = &flight->heat.hold_W;
    char burner[SPREAD_MOST];
    if (flight->heat.no_gas)
        snprintf(into, size, "no gas comes to the burner");
    else
        snprintf(into, size, "the burner gives %s at full flame%s",
                 show_estimate(flight->design, POWER, burner_W, burner),
                 hold_W->low > burner_W    ? ": TOO WEAK"
                 : hold_W->high > burner_W ? ": perhaps TOO WEAK"
                                           : "");
}

static void write_heat(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    const struct heat *heat = &flight->heat;
    const struct lift *lift = &flight->lift;
    char a[SPREAD_MOST], b[SPREAD_MOST], c[SHOWN_MOST], burner[2 * SPREAD_MOST];
    say_burner(flight, burner, sizeof burner);
    text_add(into, "\n3 HEAT AND FUEL: the spread is that of two published correlations for the\n"
                   "  air inside; each end is uncertain by about a third besides; what leaves by\n"
                   "  the open mouth and a leaking vent is not counted\n");
    flight_line(into, lift->floats ? "Holding level" : "Holding heat", "at %s inside takes %s; %s",
                show_with_unit(design, TEMPERATURE, heat->at_K, c),
                show_spread(design, POWER, heat->hold_W, a), burner);
    flight_line(into, "Cloth", "%s on the mean, the crown hotter; loses %s",
                show_spread(design, TEMPERATURE, heat->cloth_K, b),
                show_spread(design, FLUX, heat->flux_W_m2, a));
    flight_line(into, "Heating up", "%s; at full flame %s",
                show_spread(design, ENERGY, heat->heat_up_J, a),
                show_minutes(heat->heat_up_min, b));
    write_fuel(flight, into);
    write_cylinder(flight, into);
    if (heat->beyond)
        flight_note("Size or wind is beyond the range that the correlations are stated for: take "
                    "the spread as wider still.",
                    into);
}

/* ---- wind --------------------------------------------------------------------- */

static void write_wind_line(const struct flight *flight, const char *name, double wind_m_s,
                            struct text *into) {
    const struct design *design = flight->design;
    struct tether tether = tether_of(design, flight->envelope, &flight->lift, wind_m_s);
    const struct spread lean_deg = {tether.lean_rad.low * 180 / PI,
                                    tether.lean_rad.high * 180 / PI};
    char wind[SHOWN_MOST], drag[SPREAD_MOST], line[SPREAD_MOST], lean[SPREAD_MOST];
    if (lround(lean_deg.low) == lround(lean_deg.high))
        snprintf(lean, sizeof lean, "%.0f", lean_deg.low);
    else
        snprintf(lean, sizeof lean, "%.0f to %.0f", lean_deg.low, lean_deg.high);
    text_add(into, "  %-10s%10s%20s%20s%16s\n", name, show(design, SPEED, wind_m_s, wind),
             show_range(design, FORCE, tether.drag_N, drag),
             show_range(design, FORCE, tether.line_N, line), lean);
}

static void write_holding(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    struct spread wind = wind_to_hold_m_s(design, flight->envelope, &flight->lift);
    char hold[SHOWN_MOST], speed[SPREAD_MOST];
    show_with_unit(design, FORCE, design->wind.hold_N, hold);
    if (wind.high <= 0)
        flight_line(into, "To hold", "its lift alone pulls more than the %s you can hold", hold);
    else
        flight_line(into, "To hold", "it pulls more than the %s you can hold from %s on", hold,
                    show_spread(design, SPEED, wind, speed));
}

static void write_wind(const struct flight *flight, struct text *into) {
    static const double rounds[] = {1, 2, 3, 4, 6};
    double unit_m_s = flight->design->paper.units == UNITS_INCH ? 2 * 0.44704 : 1;
    const char *speed = page_unit(flight->design, SPEED), *force = page_unit(flight->design, FORCE);
    char words[200], drag[32], pull[32];
    snprintf(words, sizeof words, "wind, %s", speed);
    snprintf(drag, sizeof drag, "drag, %s", force);
    snprintf(pull, sizeof pull, "pull of line, %s", force);
    text_add(into,
             "\n5 WIND ON THE TETHERED ENVELOPE: steady wind, a gust pulls harder\n"
             "  %20s%20s%20s%16s\n",
             words, drag, pull, "leaning, deg");
    if (flight->design->wind.expected_m_s > 0)
        write_wind_line(flight, "expected", flight->design->wind.expected_m_s, into);
    for (size_t i = 0; i < COUNT_OF(rounds); i++)
        if (fabs(rounds[i] * unit_m_s - flight->design->wind.expected_m_s) > 1e-9)
            write_wind_line(flight, "", rounds[i] * unit_m_s, into);
    write_holding(flight, into);
    snprintf(words, sizeof words,
             "Drag coefficients %.2g and %.2g, wind.drag times %g and %g; leaning from the "
             "vertical.",
             DRAG_LOW * flight->design->wind.drag, DRAG_HIGH * flight->design->wind.drag, DRAG_LOW,
             DRAG_HIGH);
    flight_note(words, into);
}

/* ---- the page ------------------------------------------------------------------ */

static void write_head(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    const struct built *built = &flight->envelope->built;
    char name[TEXT_MOST], volume[SHOWN_MOST], height[SHOWN_MOST], words[400];
    text_add(into, "WILL IT FLY: %s\n", plain_text(design->name, name));
    snprintf(words, sizeof words,
             "%s as sewn, %s high. Estimates, not a proof of strength or of fitness to fly: a "
             "calculation is never the last word, the first inflation is.",
             show_with_unit(design, VOLUME, built->volume_m3, volume),
             show_with_unit(design, HEIGHT, built->height_m, height));
    flow_text(into, words, 0, 0);
}

static void write_cautions(struct text *into) {
    text_add(into, "\n6 TAKE CARE\n");
    for (const char *const *caution = flight_cautions(); *caution != NULL; caution++) {
        text_add(into, "  - ");
        flow_text(into, *caution, 4, 4);
    }
}

void flight_take_note(const struct design *sized, const struct envelope *envelope,
                      struct text *into) {
    struct diagnostics warnings = {0};
    flight_warn(sized, envelope, &warnings);
    if (warnings.count > 0)
        text_add(into, "\nTAKE NOTE\n");
    for (size_t i = 0; i < warnings.count; i++) {
        struct text words = {0};
        text_add(&words, "%s: %s.", warnings.item[i].key, warnings.item[i].text);
        text_add(into, "  - ");
        if (words.failed)
            into->failed = true;
        else
            flow_text(into, words.bytes, 4, 4);
        text_free(&words);
    }
    diagnostics_free(&warnings);
}

void work_out_flight(const struct design *sized, const struct envelope *envelope,
                     struct flight *flight) {
    *flight = (struct flight){.design = sized, .envelope = envelope};
    flight->masses = masses_of(sized, envelope);
    flight->printed = printed_masses(sized, &flight->masses);
    flight->lift = lift_of(sized, envelope, &flight->masses);
    flight->gross_kg = printed_mass_kg(sized, flight->lift.gross_kg);
    flight->left_kg = printed_mass_kg(sized, flight->gross_kg - flight->printed.all_kg);
    flight->margin_K = printed_warmth_K(sized, flight->lift.margin_K);
    flight->heat = heat_of(sized, envelope, &flight->lift);
    flight->loads = loads_of(sized, envelope, &flight->lift);
}

void write_flight(const struct design *sized, const struct envelope *envelope, struct text *into) {
    struct flight flight;
    work_out_flight(sized, envelope, &flight);
    write_head(&flight, into);
    flight_take_note(sized, envelope, into);
    write_weights(&flight, into);
    write_lift(&flight, into);
    write_heat(&flight, into);
    text_add(into, "\n4 LOADS\n");
    flight_loads(&flight, into);
    write_wind(&flight, into);
    write_cautions(into);
}
