/* test_heat.c - the balance of heat, heating up, and the fuel. */
#include "support.h"

#include <math.h>

#include "corners.h"
#include "flight/heat.h"
#include "flight/propane.h"

static struct warm_sphere random_sphere(struct dice *dice) {
    return (struct warm_sphere){
        .diameter_m = exp(dice_between(dice, log(0.15), log(30))),
        .emissivity = dice_between(dice, 0.02, 1),
        .outside_K = dice_between(dice, 213, 333),
        .pressure_Pa = dice_between(dice, 47000, 107500),
        .wind_m_s = dice_whole(dice, 0, 2) == 0 ? 0 : dice_between(dice, 0, 20),
    };
}

static nusselt_inside *random_inside(struct dice *dice) {
    return dice_whole(dice, 0, 1) ? nusselt_inside_strong : nusselt_inside_weak;
}

static double loss(struct warm_sphere sphere, double inside_K, nusselt_inside *inside) {
    struct heat_balance balance = heat_balance(&sphere, inside_K, inside);
    assert_true(balance.flux_W_m2 >= 0);
    return balance.flux_W_m2;
}

/* ---- the balance ---------------------------------------------------------------- */

/* What leaves a sphere, worked out here from the correlations. */
static double leaving(const struct warm_sphere *s, double cloth_K) {
    struct film film = film_of(s->pressure_Pa, (s->outside_K + cloth_K) / 2);
    struct film stream = film_of(s->pressure_Pa, s->outside_K);
    double warmer_K = cloth_K - s->outside_K;
    double still = nusselt_sphere(rayleigh(&film, warmer_K, s->diameter_m), film.prandtl) *
                   film.conductivity_W_m_K / s->diameter_m;
    double reynolds = s->wind_m_s * s->diameter_m * stream.density_kg_m3 / stream.viscosity_Pa_s;
    double ratio = stream.viscosity_Pa_s / air_viscosity_Pa_s(cloth_K);
    double wind = (nusselt_stream(reynolds, stream.prandtl, ratio) - 2) *
                  stream.conductivity_W_m_K / s->diameter_m;
    return pow(pow(still, 4) + pow(wind, 4), 0.25) * warmer_K +
           s->emissivity * 5.670374419e-8 * (pow(cloth_K, 4) - pow(s->outside_K, 4));
}

static void what_reaches_the_cloth_leaves_it(void **state) {
    (void)state;
    struct dice dice = {11};
    for (int i = 0; i < 500; i++) {
        struct warm_sphere s = random_sphere(&dice);
        double inside_K = s.outside_K + dice_between(&dice, 1, 150);
        struct heat_balance b = heat_balance(&s, inside_K, nusselt_inside_strong);
        assert_true(b.cloth_K > s.outside_K && b.cloth_K < inside_K);
        struct film in = film_of(s.pressure_Pa, (inside_K + b.cloth_K) / 2);
        double reaches = nusselt_inside_strong(rayleigh(&in, inside_K - b.cloth_K, s.diameter_m)) *
                         in.conductivity_W_m_K / s.diameter_m * (inside_K - b.cloth_K);
        assert_close(leaving(&s, b.cloth_K), reaches, 0, 1e-7);
        assert_close(b.flux_W_m2, reaches, 0, 1e-7);
    }
}

static void loss_rises_with_heat_inside_and_with_wind_and_falls_with_heat_outside(void **state) {
    (void)state;
    struct dice dice = {12};
    for (int i = 0; i < 2000; i++) {
        struct warm_sphere sphere = random_sphere(&dice), other = sphere;
        nusselt_inside *inside = random_inside(&dice);
        double inside_K = sphere.outside_K + dice_between(&dice, 0.5, 250);
        double step = dice_between(&dice, 0.01, 5), one = loss(sphere, inside_K, inside);
        assert_true(loss(sphere, inside_K + step, inside) > one);
        other.wind_m_s += step;
        assert_true(loss(other, inside_K, inside) > one);
        other = sphere;
        other.outside_K += step;
        assert_true(loss(other, inside_K, inside) < one);
        other = sphere;
        other.emissivity += 0.1;
        assert_true(loss(other, inside_K, inside) > one);
    }
}

static void the_strong_form_loses_more_through_warmer_cloth(void **state) {
    (void)state;
    struct dice dice = {13};
    for (int i = 0; i < 1000; i++) {
        struct warm_sphere sphere = random_sphere(&dice);
        double inside_K = sphere.outside_K + exp(dice_between(&dice, log(1e-6), log(1e5)));
        struct heat_balance weak = heat_balance(&sphere, inside_K, nusselt_inside_weak);
        struct heat_balance strong = heat_balance(&sphere, inside_K, nusselt_inside_strong);
        assert_true(strong.flux_W_m2 > weak.flux_W_m2);
        assert_true(strong.cloth_K >= weak.cloth_K);
    }
}

static void a_light_air_changes_little_and_a_strong_wind_counts_alone(void **state) {
    (void)state;
    struct warm_sphere sphere = {3, 0.02, 288.15, 101325, 0};
    double still = loss(sphere, 373.15, nusselt_inside_strong);
    sphere.wind_m_s = 0.1;
    assert_close(loss(sphere, 373.15, nusselt_inside_strong), still, 0, 0.01);
    sphere.wind_m_s = 20;
    struct heat_balance b = heat_balance(&sphere, 373.15, nusselt_inside_strong);
    struct film stream = film_of(101325, 288.15);
    double reynolds = 20 * 3 * stream.density_kg_m3 / stream.viscosity_Pa_s;
    double ratio = stream.viscosity_Pa_s / air_viscosity_Pa_s(b.cloth_K);
    double wind = nusselt_stream(reynolds, stream.prandtl, ratio) * stream.conductivity_W_m_K / 3 *
                  (b.cloth_K - 288.15);
    assert_close(b.flux_W_m2, wind, 0, 0.03); /* radiation at 0.02 is some 1 % of it */
}

static void no_heat_is_lost_when_it_is_not_warmer_inside(void **state) {
    (void)state;
    struct warm_sphere sphere = {3, 0.9, 288.15, 101325, 5};
    const double inside_K[] = {288.15, 288, 200};
    for (size_t i = 0; i < COUNT_OF(inside_K); i++) {
        struct heat_balance b = heat_balance(&sphere, inside_K[i], nusselt_inside_weak);
        assert_close(b.flux_W_m2, 0, 0, 0);
        assert_close(b.cloth_K, 288.15, 0, 0);
    }
}

static void a_correlation_beyond_its_range_is_said(void **state) {
    (void)state;
    struct warm_sphere sphere = {3, 0.9, 288.15, 101325, 0};
    assert_false(heat_balance(&sphere, 373.15, nusselt_inside_weak).beyond);
    sphere.wind_m_s = 0.3; /* Re 6e4 */
    assert_false(heat_balance(&sphere, 373.15, nusselt_inside_weak).beyond);
    sphere.wind_m_s = 0.5; /* Re 1e5 */
    assert_true(heat_balance(&sphere, 373.15, nusselt_inside_weak).beyond);
    sphere = (struct warm_sphere){30, 0.9, 288.15, 101325, 0}; /* Ra 1e14 */
    assert_true(heat_balance(&sphere, 373.15, nusselt_inside_weak).beyond);
}

/* ---- heating up ------------------------------------------------------------------- */

/* The air as it is heated in small steps: what it holds, and what spills from the mouth as warm
 * as it is; heat is what both grow by. */
static void heating_up_takes_what_stays_and_what_spills(void **state) {
    (void)state;
    const double gas = 287.05287, cp = 3.5 * gas, cv = 2.5 * gas, p = 95000, v = 20;
    double from = 280, to = 380, heat = 0;
    enum { STEPS = 20000 };
    for (int i = 0; i < STEPS; i++) {
        double t = from + (to - from) * i / STEPS, next = from + (to - from) * (i + 1) / STEPS;
        double mass = p * v / (gas * t), left = p * v / (gas * next);
        heat += left * cv * next - mass * cv * t + (mass - left) * cp * (t + next) / 2;
    }
    struct spread energy = heat_up_energy_J(p, v, from, to);
    assert_close(energy.high, heat, 0, 1e-6);
    assert_true(heat < cp * p * v / gas * (to / from - 1)); /* were none to spill */
    /* Where what spills is as cold as on the first day, all the heat is in what is left. */
    assert_close(energy.low, p * v / (gas * to) * cp * (to - from), 0, 1e-12);
    energy = heat_up_energy_J(p, v, to, from);
    assert_close(energy.low, 0, 0, 0);
    assert_close(energy.high, 0, 0, 0);
}

static void heating_up_takes_energy_over_what_is_left_of_the_burner(void **state) {
    (void)state;
    const double even[] = {500, 500, 500}, falling[] = {900, 500, 100}, none[] = {900, 400, 0};
    const double spent[] = {0, 1500, 3000}, late[] = {0, 0, 3000};
    assert_close(heat_up_time_s(spent, even, 2), 6, 1e-12, 0);
    /* All of it in the second step, where 500 falls to 100. */
    assert_close(heat_up_time_s(late, falling, 2), 3000 * log(5) / 400, 0, 1e-12);
    /* A straight fall from 900 to 100, in closed form: mean of the reciprocal ln(9) / 800. */
    assert_close(heat_up_time_s(spent, falling, 2), 3000 * log(9) / 800, 0, 1e-12);
    assert_true(isinf(heat_up_time_s(spent, none, 2)));
}

/* ---- the whole estimate --------------------------------------------------------------- */

static struct heat estimate(const struct design *design, const struct envelope *envelope) {
    struct masses masses = masses_of(design, envelope);
    struct lift lift = lift_of(design, envelope, &masses);
    return heat_of(design, envelope, &lift);
}

/* Small steps of the middle-point rule against the program's few: with the weaker correlation
 * the air alone, cold as it spills, with the stronger one the cloth as well, 1.7 kJ/(kg K). */
static double fine_heat_up_s(const struct design *design, const struct envelope *envelope,
                             double to_K, bool hard) {
    double volume_m3 = envelope->built.volume_m3, outside_K = 288.15, seconds = 0;
    double crown_m = envelope->built.crown_diameter_m, before_K = outside_K;
    double area_m2 = envelope->built.sewn_area_m2 + PI / 4 * crown_m * crown_m;
    struct warm_sphere sphere = {cbrt(6 * volume_m3 / PI), design->cloth.emissivity, outside_K,
                                 101325, 0};
    nusselt_inside *inside = hard ? nusselt_inside_strong : nusselt_inside_weak;
    enum { STEPS = 3000 };
    double step_K = (to_K - outside_K) / STEPS;
    for (int i = 0; i < STEPS; i++) {
        double inside_K = outside_K + (i + 0.5) * step_K;
        double left_W =
            12000 * design->heat.burner_efficiency - area_m2 * loss(sphere, inside_K, inside);
        double air_J_K = 3.5 * 101325 * volume_m3 / inside_K * (hard ? 1 : outside_K / inside_K);
        double cloth_K = heat_balance(&sphere, outside_K + (i + 1) * step_K, inside).cloth_K;
        double cloth_J = envelope->built.cloth_mass_kg * 1700 * (cloth_K - before_K);
        before_K = cloth_K;
        seconds += (air_J_K * step_K + (hard ? cloth_J : 0)) / left_W;
    }
    return seconds;
}

static void the_time_to_heat_up_agrees_with_a_fine_integration(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = sized_envelope(1, &design);
    design.heat.burner_W = 12000;
    struct heat heat = estimate(&design, envelope);
    assert_close(60 * heat.heat_up_min.low, fine_heat_up_s(&design, envelope, heat.at_K, false), 0,
                 5e-4);
    assert_close(60 * heat.heat_up_min.high, fine_heat_up_s(&design, envelope, heat.at_K, true), 0,
                 5e-4);
    envelope_free(envelope);
}

/* Propane boils at -42 C under the air of sea level (NIST: 231.1 K), lower where that is thinner.
 */
static void cold_propane_gives_no_gas_no_heat_and_no_flight(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = sized_envelope(1, &design);
    design.rig.fuel_kg = 0.5;
    design.air.ground_C = -41.5;
    assert_false(estimate(&design, envelope).no_gas);
    assert_true(isfinite(estimate(&design, envelope).heat_up_min.high));
    design.air.ground_C = -42.5;
    struct heat heat = estimate(&design, envelope);
    assert_true(heat.no_gas && isinf(heat.heat_up_min.low) && heat.minutes.high <= 0);
    assert_true(heat.hold_W.low > 0);
    design.air.altitude_m = 3000;
    assert_false(estimate(&design, envelope).no_gas);
    envelope_free(envelope);
}

static void figures_of_one_estimate_agree_with_each_other(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = sized_envelope(1, &design);
    struct heat heat = estimate(&design, envelope);
    const struct built *built = &envelope->built;
    double area_m2 =
        built->sewn_area_m2 + PI / 4 * built->crown_diameter_m * built->crown_diameter_m;
    assert_close(heat.hold_W.low * 0.9, heat.flux_W_m2.low * area_m2, 0, 1e-12);
    assert_close(heat.hold_W.high * 0.9, heat.flux_W_m2.high * area_m2, 0, 1e-12);
    assert_close(heat.fuel_kg_h.high, heat.hold_W.high / 46.34e6 * 3600, 0, 1e-12);
    double heating_kg = 40000 * 60 * heat.heat_up_min.high / 46.34e6;
    assert_close(heat.minutes.low, 60 * (0.2 - heating_kg) / heat.fuel_kg_h.high, 0, 1e-12);
    assert_close(heat.vapour_pressure_Pa, propane_pressure_Pa(288.15), 0, 1e-15);
    envelope_free(envelope);
}

static void the_loss_factor_scales_the_loss_and_shortens_the_flight(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = sized_envelope(1, &design);
    struct heat before = estimate(&design, envelope);
    for (double factor = 1.1; factor < 2; factor += 0.1) {
        design.heat.loss_factor = factor;
        struct heat now = estimate(&design, envelope);
        assert_true(now.flux_W_m2.low > before.flux_W_m2.low);
        assert_true(now.minutes.low < before.minutes.low && now.minutes.high < before.minutes.high);
        assert_true(now.heat_up_min.high > before.heat_up_min.high);
        before = now;
    }
    design.heat.loss_factor = 1;
    struct heat one = estimate(&design, envelope);
    design.heat.loss_factor = 2;
    struct heat two = estimate(&design, envelope);
    assert_close(two.flux_W_m2.high, 2 * one.flux_W_m2.high, 0, 1e-14);
    assert_close(two.hold_W.low, 2 * one.hold_W.low, 0, 1e-14);
    assert_close(two.cloth_K.low, one.cloth_K.low, 0, 1e-14);
    envelope_free(envelope);
}

static void a_burner_that_cannot_hold_never_heats_up_and_never_flies(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = sized_envelope(1, &design);
    struct heat heat = estimate(&design, envelope);
    design.heat.burner_W = 0.5 * (heat.hold_W.low + heat.hold_W.high);
    heat = estimate(&design, envelope);
    assert_true(isfinite(heat.heat_up_min.low) && isinf(heat.heat_up_min.high));
    assert_true(heat.minutes.low <= 0);
    design.heat.burner_W = heat.hold_W.low * 0.999;
    heat = estimate(&design, envelope);
    assert_true(isinf(heat.heat_up_min.low) && heat.minutes.high <= 0);
    design.heat.burner_W = heat.hold_W.low * 1.001;
    assert_true(isfinite(estimate(&design, envelope).heat_up_min.low));
    envelope_free(envelope);
}

static void without_fuel_or_without_lift_there_is_no_flight(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = sized_envelope(1, &design);
    assert_true(estimate(&design, envelope).minutes.low > 0);
    design.rig.fuel_kg = 0;
    assert_true(estimate(&design, envelope).minutes.high <= 0);
    design.rig.fuel_kg = 20;
    struct heat heat = estimate(&design, envelope);
    assert_true(heat.minutes.high <= 0);
    assert_close(heat.at_K, 373.15, 1e-9, 0);
    assert_true(heat.hold_W.low > 0);
    design.air.inside_C = -20; /* and colder inside */
    heat = estimate(&design, envelope);
    assert_close(heat.hold_W.high + heat.heat_up_J.high + heat.heat_up_min.high, 0, 0, 0);
    envelope_free(envelope);
}

/* ---- never nan -------------------------------------------------------------------------- */

static void check_numbers(const struct heat *heat) {
    assert_close(heat->at_K, heat->at_K, 0, 0);
    assert_true(heat->at_K > 0);
    assert_spread(heat->heat_up_J, false);
    assert_spread(heat->cloth_K, false);
    assert_spread(heat->flux_W_m2, false);
    assert_spread(heat->hold_W, false);
    assert_spread(heat->fuel_kg_h, false);
    assert_spread(heat->minutes, false);
    assert_spread(heat->heat_up_min, true);
    assert_true(heat->vapour_pressure_Pa > 40e3 && heat->vapour_pressure_Pa < 2.2e6);
}

static void every_corner_of_the_settings_gives_numbers(void **state) {
    (void)state;
    static const char *const keys[] = {
        "air.ground",        "air.altitude",     "air.inside",
        "heat.wind",         "heat.loss_factor", "heat.burner_efficiency",
        "heat.burner_power", "cloth.emissivity", "rig.fuel",
        "rig.basket",
    };
    for (int which = 0; which < SIZED_ENVELOPES; which++) {
        struct design design;
        struct envelope *envelope = sized_envelope(which, &design);
        design.rig.burner_kg = design.rig.cylinder_kg = design.rig.radio_kg = 0;
        for (size_t corner = 0; corner < (size_t)1 << COUNT_OF(keys); corner++) {
            set_corner(&design, keys, COUNT_OF(keys), corner);
            struct heat heat = estimate(&design, envelope);
            check_numbers(&heat);
        }
        envelope_free(envelope);
    }
}

static void random_designs_give_numbers(void **state) {
    (void)state;
    struct dice dice = {14};
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.air.ground_C = dice_between(&dice, -60, 60);
        design.air.altitude_m = dice_between(&dice, -500, 6000);
        design.air.inside_C = dice_between(&dice, -50, 250);
        design.heat.relative_wind_m_s = dice_between(&dice, 0, 20);
        design.heat.burner_W = exp(dice_between(&dice, log(100), log(5e6)));
        struct heat heat = estimate(&design, envelope);
        check_numbers(&heat);
        envelope_free(envelope);
    }
}

/* Just short of what no heat would float, it must be hotter than the sun; still numbers. */
static void an_absurd_heat_gives_numbers(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = sized_envelope(1, &design);
    double air_kg = envelope->built.volume_m3 * air_of_day(&design, 0).density_kg_m3;
    double bare_kg = masses_of(&design, envelope).all_kg - design.rig.basket_kg;
    for (double short_of = 1e-2; short_of > 1e-16; short_of /= 10) {
        design.rig.basket_kg = air_kg * (1 - short_of) - bare_kg;
        struct heat heat = estimate(&design, envelope);
        check_numbers(&heat);
    }
    envelope_free(envelope);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_reaches_the_cloth_leaves_it),
        cmocka_unit_test(loss_rises_with_heat_inside_and_with_wind_and_falls_with_heat_outside),
        cmocka_unit_test(the_strong_form_loses_more_through_warmer_cloth),
        cmocka_unit_test(a_light_air_changes_little_and_a_strong_wind_counts_alone),
        cmocka_unit_test(no_heat_is_lost_when_it_is_not_warmer_inside),
        cmocka_unit_test(a_correlation_beyond_its_range_is_said),
        cmocka_unit_test(heating_up_takes_what_stays_and_what_spills),
        cmocka_unit_test(heating_up_takes_energy_over_what_is_left_of_the_burner),
        cmocka_unit_test(the_time_to_heat_up_agrees_with_a_fine_integration),
        cmocka_unit_test(cold_propane_gives_no_gas_no_heat_and_no_flight),
        cmocka_unit_test(figures_of_one_estimate_agree_with_each_other),
        cmocka_unit_test(the_loss_factor_scales_the_loss_and_shortens_the_flight),
        cmocka_unit_test(a_burner_that_cannot_hold_never_heats_up_and_never_flies),
        cmocka_unit_test(without_fuel_or_without_lift_there_is_no_flight),
        cmocka_unit_test(every_corner_of_the_settings_gives_numbers),
        cmocka_unit_test(random_designs_give_numbers),
        cmocka_unit_test(an_absurd_heat_gives_numbers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
