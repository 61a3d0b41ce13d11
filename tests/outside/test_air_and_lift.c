/* test_air_and_lift.c - published worked examples on the standard air and on lift. */
#include "support.h"

#include <math.h>

#include "gorewright/flight.h"

/* ISO 2533:1975 and US Standard Atmosphere 1976, by geopotential height.  Each figure to half a
 * unit of its last printed digit. */
static void the_standard_atmosphere_is_the_printed_one(void **state) {
    (void)state;
    static const struct {
        double altitude_m, temperature_K, pressure_Pa, density_kg_m3, last_kg_m3;
    } rows[] = {
        {0, 288.150, 101325, 1.2250, 5e-5},      {1000, 281.650, 89874.6, 1.11164, 5e-6},
        {2000, 275.150, 79495.2, 1.00649, 5e-6}, {3000, 268.650, 70108.5, 0.90912, 5e-6},
        {5000, 255.650, 54019.9, 0.73612, 5e-6},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct air air = air_standard(rows[i].altitude_m);
        assert_close(air.temperature_K, rows[i].temperature_K, 5e-4, 0);
        assert_close(air.pressure_Pa, rows[i].pressure_Pa, 0.05, 0);
        assert_close(air.density_kg_m3, rows[i].density_kg_m3, rows[i].last_kg_m3, 0);
    }
}

/* FAA-H-8083-11B (2024), Balloon Flying Handbook, figure 3-13: 77,000 cubic feet, outside
 * 60 F, inside 190 F, pressure altitude 1,500 ft: 1,120 lb gross, read off a chart.  One per
 * cent is the width of a line on it. */
static void the_chart_of_the_balloon_handbook_is_met(void **state) {
    (void)state;
    double foot_m = 0.3048, pound_kg = 0.45359237;
    struct design design;
    design_starter(&design);
    design.air.ground_C = (60 - 32) / 1.8;
    design.air.altitude_m = 1500 * foot_m;
    double inside_K = (190 - 32) / 1.8 + ZERO_C_K;
    double kg = lift_kg(air_of_day(&design, 0), 77000 * pow(foot_m, 3), inside_K);
    assert_close(kg / pound_kg, 1120, 0, 0.01);
}

/* The same handbook, chapter 3: a thousand cubic feet of heated air lift about 20 lb, a rule
 * of thumb: to its one and a half digits.  117 C inside and 15 C outside are where it holds
 * (computed, no printed source), 100 C gives 17.4 lb (likewise). */
static void a_thousand_cubic_feet_lift_about_twenty_pounds(void **state) {
    (void)state;
    double volume_m3 = 1000 * pow(0.3048, 3), pound_kg = 0.45359237;
    struct air outside = air_standard(0);
    assert_close(lift_kg(outside, volume_m3, 117 + ZERO_C_K) / pound_kg, 20, 0.5, 0);
    assert_close(lift_kg(outside, volume_m3, 100 + ZERO_C_K) / pound_kg, 17.4, 0.05, 0);
}

/* Engineering tables: air of 20 C 1.205 kg/m3, of 100 C 0.946 kg/m3; 10 cubic metres lift
 * 25.4 N.  Half a unit of the last digit of each density is 0.1 N in all. */
static void ten_cubic_metres_lift_what_the_tables_say(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.air.ground_C = 20;
    struct air outside = air_of_day(&design, 0);
    assert_close(outside.density_kg_m3, 1.205, 1e-3, 0);
    assert_close(air_density_kg_m3(outside.pressure_Pa, 100 + ZERO_C_K), 0.946, 1e-3, 0);
    assert_close(lift_kg(outside, 10, 100 + ZERO_C_K) * GRAVITY_m_s2, 25.4, 0.1, 0);
}

/* Cengel and Boles, Thermodynamics: a sphere of 20 m, 80 kg and three people of 65 kg, at
 * 90 kPa: 306.5 K inside at 15 C outside, 323.6 K at 30 C.  The inputs are as printed; the
 * answers are from memory, so half a kelvin is allowed.  Beside them the answers computed
 * independently with 0 C taken as 273 K and 0.287 kJ/(kg K), to their last digit (no printed
 * source). */
static void the_textbook_balloon_floats_at_the_textbook_temperature(void **state) {
    (void)state;
    static const struct {
        double outside_C, inside_K, computed_K;
    } rows[] = {{15, 306.5, 306.48}, {30, 323.6, 323.52}};
    double volume_m3 = PI / 6 * 20 * 20 * 20, mass_kg = 80 + 3 * 65;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        double outside_K = rows[i].outside_C + 273;
        struct air outside = {outside_K, 90000, air_density_kg_m3(90000, outside_K)};
        double inside_K = floating_temperature_K(outside, volume_m3, mass_kg);
        assert_close(inside_K, rows[i].inside_K, 0.5, 0);
        assert_close(inside_K, rows[i].computed_K, 0.01, 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_standard_atmosphere_is_the_printed_one),
        cmocka_unit_test(the_chart_of_the_balloon_handbook_is_met),
        cmocka_unit_test(a_thousand_cubic_feet_lift_about_twenty_pounds),
        cmocka_unit_test(ten_cubic_metres_lift_what_the_tables_say),
        cmocka_unit_test(the_textbook_balloon_floats_at_the_textbook_temperature),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
