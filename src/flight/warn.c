/* warn.c - what a builder should know before flying, and what does not stand in the way of
 * cutting.
 */
#include <math.h>

#include "gorewright/flight.h"

/* Everything worked out once, for all the warnings. */
struct outlook {
    const struct design *design;
    const struct envelope *envelope;
    struct diagnostics *messages;
    struct masses masses;
    struct lift lift;
    struct heat heat;
    struct loads loads;
};

#define WARN(o, code, key, ...) diagnose((o)->messages, SEVERITY_WARNING, code, key, __VA_ARGS__)

/* ---- air and lift ---------------------------------------------------------------- */

static bool is_cold(const struct outlook *o) {
    return o->design->air.inside_C <= o->design->air.ground_C;
}

static void warn_of_cold_air(const struct outlook *o) {
    if (is_cold(o))
        WARN(o, "colder-inside", "air.inside",
             "%g C is no warmer than the air outside, %g C (air.ground), so nothing is lifted",
             o->design->air.inside_C, o->design->air.ground_C);
}

static void warn_of_hot_air(const struct outlook *o) {
    if (o->design->air.inside_C > o->design->cloth.hottest_C)
        WARN(o, "too-hot", "air.inside",
             "%g C is more than the cloth may become, %g C (cloth.hottest), and the crown is "
             "hotter than the mean: it would lose its strength or melt",
             o->design->air.inside_C, o->design->cloth.hottest_C);
}

static void warn_of_rig(const struct outlook *o) {
    if (o->masses.rig_kg <= 0)
        WARN(o, "no-rig", "rig.burner",
             "nothing is carried, not even a burner: state what the rig weighs, or take the "
             "figures of flight for those of the bare envelope");
}

/* What it weighs against what this air lifts. */
static void warn_of_weight(const struct outlook *o) {
    const struct lift *lift = &o->lift;
    if (is_cold(o) || lift->free_kg >= 0)
        return;
    if (!lift->floats || lift->margin_K < 0)
        WARN(o, "too-heavy", "air.inside",
             "it weighs %.3f kg and lifts %.3f kg at %g C; %s: carry less, or make it larger",
             o->masses.all_kg, lift->gross_kg, o->design->air.inside_C,
             lift->floats ? "to float it the air would have to be hotter than the cloth may become"
                          : "no heat would float it");
    else
        WARN(o, "too-cool", "air.inside",
             "it weighs %.3f kg and lifts %.3f kg at %g C; to float it needs %.0f C inside",
             o->masses.all_kg, lift->gross_kg, o->design->air.inside_C, lift->needed_K - ZERO_C_K);
}

/* ---- heat and fuel --------------------------------------------------------------- */

/* Common practice, no source. */
static const double low_pressure_Pa = 450e3;

static void warn_of_pressure(const struct outlook *o) {
    double pressure_Pa = o->heat.vapour_pressure_Pa;
    if (o->design->rig.fuel_kg > 0 && pressure_Pa < low_pressure_Pa)
        WARN(o, "low-pressure", "air.ground",
             "at %g C propane has %.0f kPa in its cylinder, less still while it is drawn off: the "
             "burner gives less than it does on a warm day; try it, and never warm a cylinder with "
             "a flame",
             o->design->air.ground_C, pressure_Pa / 1000);
}

static void warn_of_burner(const struct outlook *o) {
    if (is_cold(o) || !o->lift.floats)
        return;
    if (o->heat.hold_W.high > o->design->heat.burner_W)
        WARN(o, "weak-burner", "heat.burner_power",
             "to hold level takes %.1f to %.1f kW, and the burner gives %.1f kW",
             o->heat.hold_W.low / 1000, o->heat.hold_W.high / 1000,
             o->design->heat.burner_W / 1000);
    else if (o->design->rig.fuel_kg > 0 && !(o->heat.minutes.high > 0))
        WARN(o, "little-fuel", "rig.fuel", "%.3f kg of propane is used up by heating the air",
             o->design->rig.fuel_kg);
}

/* ---- loads ----------------------------------------------------------------------- */

/* The least that any of the codes asks for. */
static double least_envelope_factor(void) {
    size_t count;
    const struct safety_code *code = safety_codes(&count);
    double least = HUGE_VAL;
    for (size_t i = 0; i < count; i++)
        least = fmin(least, code[i].envelope);
    return least;
}

static double least_wire_factor(void) {
    size_t count;
    const struct safety_code *code = safety_codes(&count);
    double least = HUGE_VAL;
    for (size_t i = 0; i < count; i++)
        least = fmin(least, code[i].wires);
    return least;
}

static void warn_of_strength(const struct outlook *o) {
    const struct station_load *weakest = &o->loads.station[o->loads.weakest];
    double factor = fmax(weakest->tape_factor, weakest->cloth_factor);
    if (factor < least_envelope_factor())
        WARN(o, "weak-envelope", "tape.strength",
             "at station %zu the load is within %.1f of what the tapes alone or the cloth alone "
             "would bear; the rules for manned balloons, guidance only for a model, ask for %g",
             o->loads.weakest, factor, least_envelope_factor());
    if (o->loads.wire_factor < least_wire_factor())
        WARN(o, "weak-wires", "rigging.wire_strength",
             "a flying wire is loaded to within %.1f of its strength; the rules for manned "
             "balloons, guidance only for a model, ask for %g or more",
             o->loads.wire_factor, least_wire_factor());
}

/* ---- wind ------------------------------------------------------------------------ */

static void warn_of_wind(const struct outlook *o) {
    const struct design *d = o->design;
    struct spread limit = wind_to_hold_m_s(d, o->envelope, &o->lift);
    if (d->wind.expected_m_s > limit.low)
        WARN(o, "too-windy", "wind.expected",
             "in %g m/s of wind it may pull harder than the %g N that can be held (wind.hold); "
             "that begins somewhere from %.1f to %.1f m/s, and gusts pull harder",
             d->wind.expected_m_s, d->wind.hold_N, limit.low, limit.high);
}

/* ---- all of them ----------------------------------------------------------------- */

static void (*const warnings[])(const struct outlook *) = {
    warn_of_cold_air, warn_of_hot_air, warn_of_rig,      warn_of_weight,
    warn_of_pressure, warn_of_burner,  warn_of_strength, warn_of_wind,
};

void flight_warn(const struct design *sized, const struct envelope *envelope,
                 struct diagnostics *messages) {
    struct outlook o = {.design = sized, .envelope = envelope, .messages = messages};
    o.masses = masses_of(sized, envelope);
    o.lift = lift_of(sized, envelope, &o.masses);
    o.heat = heat_of(sized, envelope, &o.lift);
    o.loads = loads_of(sized, envelope, &o.lift);
    for (size_t i = 0; i < COUNT_OF(warnings); i++)
        warnings[i](&o);
}
