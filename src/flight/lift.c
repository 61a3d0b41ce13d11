/* lift.c - what hot air carries, and how hot it must be. */
#include <math.h>

#include "flight/air.h"

double lift_kg(struct air outside, double volume_m3, double inside_K) {
    return volume_m3 * (outside.density_kg_m3 - air_density_kg_m3(outside.pressure_Pa, inside_K));
}

double floating_temperature_K(struct air outside, double volume_m3, double mass_kg) {
    double inside_kg_m3 = outside.density_kg_m3 - mass_kg / volume_m3;
    if (!(inside_kg_m3 > 0))
        return HUGE_VAL;
    return outside.temperature_K * outside.density_kg_m3 / inside_kg_m3;
}

/* ---- ceiling --------------------------------------------------------------- */

struct climbing {
    const struct design *design;
    double volume_m3, mass_kg, inside_K;
};

/* How much too heavy it is above the field. */
static double overweight_kg(double above_m, void *context) {
    const struct climbing *c = context;
    return c->mass_kg - lift_kg(air_of_day(c->design, above_m), c->volume_m3, c->inside_K);
}

/* At one temperature inside, lift grows with height while the air outside is within a fifth of
 * it or so, for the difference grows; above that it falls.  Where the two meet, from the
 * derivative of p (1/T - 1/T_inside): T = T_inside (1 - R lapse / g). */
static double height_of_most_lift_m(const struct climbing *c) {
    double outside_K = c->inside_K * (1 - GAS_J_kg_K * LAPSE_K_m / GRAVITY_m_s2);
    return fmax(0, (c->design->air.ground_C + ZERO_C_K - outside_K) / LAPSE_K_m);
}

static double ceiling_m(struct climbing *c) {
    double top_m = AIR_TOP_m - c->design->air.altitude_m, ceiling;
    if (overweight_kg(0, c) >= 0)
        return 0;
    double from_m = fmin(height_of_most_lift_m(c), top_m);
    if (overweight_kg(top_m, c) <= 0)
        return top_m;
    rising_root(overweight_kg, c, from_m, top_m, 0.5 * (from_m + top_m), 100, 1e-6, &ceiling);
    return ceiling;
}

/* ---- all of it ------------------------------------------------------------- */

struct lift lift_of(const struct design *sized, const struct envelope *envelope,
                    const struct masses *masses) {
    double volume_m3 = envelope->built.volume_m3, hottest_K = sized->cloth.hottest_C + ZERO_C_K;
    struct lift lift = {.outside = air_of_day(sized, 0),
                        .inside_K = sized->air.inside_C + ZERO_C_K};
    struct climbing climbing = {sized, volume_m3, masses->all_kg, hottest_K};
    lift.per_volume_N_m3 = GRAVITY_m_s2 * lift_kg(lift.outside, 1, lift.inside_K);
    lift.gross_kg = lift_kg(lift.outside, volume_m3, lift.inside_K);
    lift.free_kg = lift.gross_kg - masses->all_kg;
    lift.needed_K = floating_temperature_K(lift.outside, volume_m3, masses->all_kg);
    lift.floats = isfinite(lift.needed_K);
    lift.margin_K = hottest_K - lift.needed_K;
    lift.ceiling_m = ceiling_m(&climbing);
    lift.ceiling_beyond = lift.ceiling_m >= (AIR_TOP_m - sized->air.altitude_m) * (1 - 1e-9);
    return lift;
}
