/* test_heat.c - published figures on heat: radiation, properties of air, convection, the loss of
 * an envelope, propane. */
#include "rows.h"

#include "flight/heat.h"
#include "flight/propane.h"
#include "gorewright/flight.h"

/* CODATA 2018, exact. */
static void radiation_has_the_constant_of_codata(void **state) {
    (void)state;
    assert_close(STEFAN_BOLTZMANN_W_m2_K4, 5.670374419e-8, 1e-18, 0);
}

/* US Standard Atmosphere 1976, at 288.15 K: to the last printed digit. */
static void viscosity_and_conductivity_are_those_of_the_standard_atmosphere(void **state) {
    (void)state;
    assert_close(air_viscosity_Pa_s(288.15), 1.7894e-5, 0.5e-9, 0);
    assert_close(air_conductivity_W_m_K(288.15), 0.025326, 0.5e-6, 0);
}

static void spheres_in_still_air_meet_the_printed_numbers(void **state) {
    (void)state;
    struct rows rows = rows_open("convection.txt");
    struct row row;
    size_t seen = 0;
    for (; rows_next(&rows, &row); seen++) {
        double prandtl = row_number(&row, 1), number = row_number(&row, 2);
        bool laminar = strcmp(row.word[0], "laminar") == 0;
        assert_true(laminar || strcmp(row.word[0], "full") == 0);
        double nusselt =
            laminar ? nusselt_sphere_laminar(number, prandtl) : nusselt_sphere(number, prandtl);
        check_column(&rows, &row, 3, nusselt, "Nusselt number");
    }
    rows_close(&rows, seen, 3);
}

/* Cengel, Heat Transfer, example 7-40: a sphere of 0.15 m in a stream of 6 m/s, air of 30 C;
 * Nu 145.6, to the last printed digit (Whitaker 1972), for the Reynolds number printed. */
static void a_sphere_in_a_stream_meets_the_worked_example(void **state) {
    (void)state;
    const double reynolds = 5.597e4; /* 6 m/s, 0.15 m, 1.608e-5 m2/s */
    assert_close(nusselt_stream(reynolds, 0.7282, 1.872e-5 / 2.934e-5), 145.6, 0.05, 0);
    assert_true(reynolds < REYNOLDS_MOST);
}

/* ---- a sphere of 30 m3, 100 C inside, 15 C outside, emissivity 0.9, still air -------------- */

static const struct {
    nusselt_inside *inside;
    double loss_kW, cloth_C, fuel_kg_h;
} sphere_of_30_m3[] = {
    {nusselt_inside_strong, 22.2, 60.0, 1.72},
    {nusselt_inside_weak, 13.7, 45.3, 1.06}, /* the correlation is from memory */
};

/* Computed independently, no printed source: to the last digit given.  They hold with all
 * properties at the film temperatures, the area that of the sphere, all heat of the fuel used,
 * and either published heating value. */
static void the_loss_of_30_cubic_metres_is_the_one_computed_elsewhere(void **state) {
    (void)state;
    double diameter_m = cbrt(6 * 30 / PI), area_m2 = PI * diameter_m * diameter_m;
    struct warm_sphere sphere = {diameter_m, 0.9, 15 + ZERO_C_K, 101325, 0};
    for (size_t i = 0; i < COUNT_OF(sphere_of_30_m3); i++) {
        struct heat_balance balance =
            heat_balance(&sphere, 100 + ZERO_C_K, sphere_of_30_m3[i].inside);
        double loss_W = balance.flux_W_m2 * area_m2;
        assert_close(loss_W / 1000, sphere_of_30_m3[i].loss_kW, 0.05, 0);
        assert_close(balance.cloth_K - ZERO_C_K, sphere_of_30_m3[i].cloth_C, 0.05, 0);
        double fuel_kg_h = fuel_rate_kg_h(loss_W, PROPANE_HEAT_J_kg);
        assert_close(fuel_kg_h, sphere_of_30_m3[i].fuel_kg_h, 0.005, 0);
    }
}

/* The same through the estimate for an envelope of 30 m3 that floats at 100 C: its flux is that
 * of the sphere; its cloth and crown have 3 % more area at the most.  That flux, 22.2 and 13.7 kW
 * over the 46.7 m2 of a sphere, lies within the 200 to 800 W/m2 measured on an envelope of 30 m3,
 * as published: too wide a range to prove more than the order of size. */
static void the_estimate_for_30_cubic_metres_loses_what_the_sphere_does(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    struct design design;
    design_starter(&design);
    design.size.volume_m3 = 30;
    design.cloth.width_m = 5;
    struct envelope *envelope = envelope_build(&design, &messages);
    assert_non_null(envelope);
    struct air outside = air_of_day(&design, 0);
    double all_kg = lift_kg(outside, envelope->built.volume_m3, 100 + ZERO_C_K);
    design.rig.basket_kg += all_kg - masses_of(&design, envelope).all_kg;
    design.heat.burner_efficiency = 1;
    struct masses masses = masses_of(&design, envelope);
    struct lift lift = lift_of(&design, envelope, &masses);
    struct heat heat = heat_of(&design, envelope, &lift);
    assert_close(heat.at_K, 373.15, 1e-6, 0);
    assert_close(heat.cloth_K.high - ZERO_C_K, 60.0, 0.05, 0);
    assert_close(heat.cloth_K.low - ZERO_C_K, 45.3, 0.05, 0);
    assert_close(heat.hold_W.high, 22.2e3, 0, 0.03);
    assert_close(heat.hold_W.low, 13.7e3, 0, 0.03);
    assert_close(heat.fuel_kg_h.high, 1.72, 0, 0.03);
    double sphere_m2 = PI * pow(6 * 30 / PI, 2.0 / 3);
    assert_close(heat.flux_W_m2.high, 22.2e3 / sphere_m2, 0, 0.003);
    assert_close(heat.flux_W_m2.low, 13.7e3 / sphere_m2, 0, 0.004);
    envelope_free(envelope);
    diagnostics_free(&messages);
}

/* ---- propane --------------------------------------------------------------------------------- */

/* Moran and Shapiro, table A-25: 46.36 MJ/kg; NIST WebBook 2219.2 kJ/mol less 4 x 44.0 kJ/mol of
 * water (from memory), over 44.0956 g/mol.  They differ by 0.05 %. */
static void propane_has_its_published_heat(void **state) {
    (void)state;
    assert_close(PROPANE_HEAT_J_kg, 46.36e6, 0, 5e-4);
    assert_close(PROPANE_HEAT_J_kg, (2219.2 - 4 * 44.0) / 44.0956e-6, 0, 2e-4);
}

/* A sphere of 15 m that loses 110 W/m2 for an hour, at 46 MJ/kg: 77.754 kW, 6.085 kg.  Computed
 * independently, no printed source: to the last digit. */
static void an_hour_of_a_large_sphere_takes_the_fuel_computed_elsewhere(void **state) {
    (void)state;
    assert_close(fuel_rate_kg_h(77754, 46e6), 6.085, 0.0005, 0);
}

static void propane_has_its_published_vapour_pressure(void **state) {
    (void)state;
    struct rows rows = rows_open("propane.txt");
    struct row row;
    size_t seen = 0;
    for (; rows_next(&rows, &row); seen++)
        check_close(propane_pressure_Pa(row_number(&row, 1)) / 1000, row_number(&row, 2),
                    row_number(&row, 3), 0, row.word[0], rows.path, row.line);
    rows_close(&rows, seen, 5);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(radiation_has_the_constant_of_codata),
        cmocka_unit_test(viscosity_and_conductivity_are_those_of_the_standard_atmosphere),
        cmocka_unit_test(spheres_in_still_air_meet_the_printed_numbers),
        cmocka_unit_test(a_sphere_in_a_stream_meets_the_worked_example),
        cmocka_unit_test(the_loss_of_30_cubic_metres_is_the_one_computed_elsewhere),
        cmocka_unit_test(the_estimate_for_30_cubic_metres_loses_what_the_sphere_does),
        cmocka_unit_test(propane_has_its_published_heat),
        cmocka_unit_test(an_hour_of_a_large_sphere_takes_the_fuel_computed_elsewhere),
        cmocka_unit_test(propane_has_its_published_vapour_pressure),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
