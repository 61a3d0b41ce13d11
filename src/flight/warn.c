/* warn.c - what a builder should know before flying, and what does not stand in the way of
 * cutting.
 */
#include <math.h>
#include <stdio.h>

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
        diagnose_cold_air(o->messages, SEVERITY_WARNING, "colder-inside", o->design);
}

/* MIL-T-8363B, 3.1.1. */
static const double nylon_keeps_C = 121, nylon_melts_C = 244;

static void warn_of_hot_air(const struct outlook *o) {
    const struct design *d = o->design;
    if (d->air.inside_C > d->cloth.hottest_C)
        WARN(o, "too-hot", "air.inside",
             "%g C is more than the cloth may become, %g C (cloth.hottest), and the crown is "
             "hotter than the mean: it would lose its strength or melt",
             d->air.inside_C, d->cloth.hottest_C);
    if (d->cloth.hottest_C > nylon_keeps_C)
        WARN(o, "hot-cloth", "cloth.hottest",
             "%g C is hotter than nylon stands: it keeps most of its strength to %g C and melts "
             "from %g C (MIL-T-8363B, 3.1.1), and the crown is hotter than the mean; is your cloth "
             "made for this?",
             d->cloth.hottest_C, nylon_keeps_C, nylon_melts_C);
}

static void warn_of_rig(const struct outlook *o) {
    if (o->masses.rig_kg <= 0)
        WARN(o, "no-rig", "rig.burner",
             "nothing is carried, not even a burner: state what the rig weighs, or take the "
             "figures of flight for those of the bare envelope");
}

/* Half of the least step in which a mass is shown. */
static const double no_mass_kg = 0.0005;

/* What it weighs against what this air lifts. */
static void warn_of_weight(const struct outlook *o) {
    const struct lift *lift = &o->lift;
    if (is_cold(o) || lift->free_kg >= -no_mass_kg)
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
static const double low_pressure_Pa = 450e3, hot_cylinder_C = 40;

static void warn_of_cylinder(const struct outlook *o) {
    double pressure_Pa = o->heat.vapour_pressure_Pa, ground_C = o->design->air.ground_C;
    if (!(o->design->rig.fuel_kg > 0))
        return;
    if (o->heat.no_gas)
        WARN(o, "no-gas", "air.ground",
             "at %g C propane has %.0f kPa in its cylinder and the air around it %.0f kPa: no gas "
             "comes out; wait for a warmer day, and never warm a cylinder with a flame",
             ground_C, pressure_Pa / 1000, o->lift.outside.pressure_Pa / 1000);
    else if (pressure_Pa < low_pressure_Pa)
        WARN(o, "low-pressure", "air.ground",
             "at %g C propane has %.0f kPa in its cylinder, less still while it is drawn off: the "
             "burner gives less than it does on a warm day; try it, and never warm a cylinder with "
             "a flame",
             ground_C, pressure_Pa / 1000);
    if (ground_C > hot_cylinder_C)
        WARN(o, "hot-cylinder", "air.ground",
             "at %g C propane has %.0f kPa in its cylinder, far more with the sun on it, and a "
             "relief valve may open: keep it in the shade, no more than 80 %% full, away from any "
             "flame",
             ground_C, pressure_Pa / 1000);
}

static void warn_of_burner(const struct outlook *o) {
    const struct spread *hold_W = &o->heat.hold_W;
    double burner_W = o->design->heat.burner_W;
    if (is_cold(o) || !o->lift.floats || !(hold_W->high > burner_W))
        return;
    WARN(o, "weak-burner", "heat.burner_power",
         "to hold level takes %.1f to %.1f kW, and the burner gives %.1f kW: it %s",
         hold_W->low / 1000, hold_W->high / 1000, burner_W / 1000,
         hold_W->low > burner_W ? "cannot hold it up" : "may not hold it up");
}

/* Asked of each end of the estimate at which the burner heats it up at all. */
static void warn_of_fuel(const struct outlook *o) {
    const struct spread *up_min = &o->heat.heat_up_min, *left_min = &o->heat.minutes;
    if (is_cold(o) || !o->lift.floats || !(o->design->rig.fuel_kg > 0))
        return;
    bool at_best = isfinite(up_min->low) && !(left_min->high > 0);
    bool at_worst = isfinite(up_min->high) && !(left_min->low > 0);
    if (at_best || at_worst)
        WARN(o, "little-fuel", "rig.fuel",
             "%.3f kg of propane %s used up by heating the air: carry more", o->design->rig.fuel_kg,
             at_best ? "is" : "may be");
}

/* ---- loads ----------------------------------------------------------------------- */

enum { WORDS = 128 };

/* "14 CFR part 31 asks for 5, EASA CS-31HB for 2.25". */
static char *codes_missed(enum rated part, double factor, char into[WORDS]) {
    size_t count, used = 0;
    const struct safety_code *code = safety_codes(&count);
    into[0] = '\0';
    for (size_t i = 0; i < count && used < WORDS; i++)
        if (factor < code_factor(&code[i], part))
            used += (size_t)snprintf(into + used, WORDS - used, "%s%s %sfor %g",
                                     used > 0 ? ", " : "", code[i].name, used > 0 ? "" : "asks ",
                                     code_factor(&code[i], part));
    return into;
}

/* Never better than it is. */
static char *strength_words(double factor, char into[WORDS]) {
    if (factor >= 1)
        snprintf(into, WORDS, "%.1f times as strong as its load", floor(10 * factor) / 10);
    else
        snprintf(into, WORDS, "loaded to %.1f times its strength, and would BREAK,",
                 ceil(10 / factor) / 10);
    return into;
}

/* Given: `when` it carries that load, and where, "" for everywhere. */
static void warn_of_factor(const struct outlook *o, const char *code, const char *key,
                           enum rated part, double factor, const char *when, const char *where) {
    char strength[WORDS], missed[WORDS];
    if (!(factor < greatest_code_factor(part)))
        return;
    WARN(o, code, key, "%s %s%s%s; of the rules for manned balloons, guidance only for a model, %s",
         when, strength_words(factor, strength), where[0] != '\0' ? " at the " : "", where,
         codes_missed(part, factor, missed));
}

static void warn_of_strength(const struct outlook *o) {
    const struct loads *loads = &o->loads;
    char tape[STATION_NAME_MOST], cloth[STATION_NAME_MOST];
    warn_of_factor(o, "weak-cloth", "cloth.strength", RATED_ENVELOPE,
                   loads->station[loads->weakest_cloth].cloth_factor,
                   "if the tapes are sewn on slack the cloth carries all: it is",
                   station_name(o->envelope, loads->weakest_cloth, cloth));
    warn_of_factor(o, "weak-tapes", "tape.strength", RATED_ENVELOPE,
                   loads->station[loads->weakest_tape].tape_factor,
                   "if the tapes carry all that runs along the gores, each is",
                   station_name(o->envelope, loads->weakest_tape, tape));
    warn_of_factor(o, "weak-wires", "rigging.wire_strength", RATED_WIRES, loads->wire_factor,
                   "in still air a flying wire is", "");
}

/* There a wire carries twice its share of the lift. */
static const double flat_wire_rad = PI / 3;

static void warn_of_flat_wires(const struct outlook *o) {
    double angle_rad = o->loads.wire_angle_rad;
    if (angle_rad > flat_wire_rad)
        WARN(
            o, "flat-wires", "rigging.drop",
            "the flying wires stand %.0f deg from the vertical: each pulls %.1f times its share of "
            "the lift, sideways at mouth and frame; hang the frame lower, or bring its size "
            "(rigging.frame) nearer to that of the mouth",
            angle_rad * 180 / PI, 1 / cos(angle_rad));
}

/* ---- weighed --------------------------------------------------------------------- */

static void warn_of_weighed(const struct outlook *o) {
    for (size_t i = 0; i < o->masses.count; i++) {
        const struct mass_item *item = &o->masses.item[i];
        double share = item->kg / item->computed_kg;
        if (item->weighed && !(share >= 0.5 && share <= 2))
            WARN(
                o, "far-off", item->key,
                "%.3f kg were weighed, and the design works out %.3f kg, %s: was it kilograms, and "
                "this part alone?",
                item->kg, item->computed_kg, share < 1 ? "more than twice" : "less than half");
    }
}

/* ---- wind ------------------------------------------------------------------------ */

static void warn_of_wind(const struct outlook *o) {
    const struct design *d = o->design;
    struct spread limit = wind_to_hold_m_s(d, o->envelope, &o->lift);
    if (limit.high <= 0)
        WARN(
            o, "cannot-hold", "wind.hold",
            "in still air already it pulls with %.0f N at %g C inside, more than the %g N that can "
            "be held: more hands, or a heavier anchor",
            o->lift.free_kg * GRAVITY_m_s2, d->air.inside_C, d->wind.hold_N);
    else if (d->wind.expected_m_s > limit.low)
        WARN(o, "too-windy", "wind.expected",
             "in %g m/s of wind it %s harder than the %g N that can be held (wind.hold); "
             "that begins somewhere from %.1f to %.1f m/s, and gusts pull harder",
             d->wind.expected_m_s, d->wind.expected_m_s > limit.high ? "pulls" : "may pull",
             d->wind.hold_N, limit.low, limit.high);
}

/* ---- all of them ----------------------------------------------------------------- */

static void (*const warnings[])(const struct outlook *) = {
    warn_of_cold_air, warn_of_hot_air,    warn_of_rig,    warn_of_weighed,
    warn_of_weight,   warn_of_cylinder,   warn_of_burner, warn_of_fuel,
    warn_of_strength, warn_of_flat_wires, warn_of_wind,
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
