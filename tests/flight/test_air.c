/* test_air.c - the standard air, and the air of the day above the field. */
#include "support.h"

#include <math.h>

#include "gorewright/flight.h"

static struct design at_field(double ground_C, double altitude_m) {
    struct design design;
    design_starter(&design);
    design.air.ground_C = ground_C;
    design.air.altitude_m = altitude_m;
    return design;
}

static void on_a_standard_day_the_air_is_the_standard_air(void **state) {
    (void)state;
    for (double altitude_m = -500; altitude_m <= 6000; altitude_m += 650) {
        struct air standard = air_standard(altitude_m);
        struct design design = at_field(standard.temperature_K - ZERO_C_K, altitude_m);
        struct air above = air_standard(altitude_m + 1234);
        struct air day = air_of_day(&design, 0), day_above = air_of_day(&design, 1234);
        assert_close(day.temperature_K, standard.temperature_K, 1e-9, 0);
        assert_close(day.density_kg_m3, standard.density_kg_m3, 0, 1e-12);
        assert_close(day_above.temperature_K, above.temperature_K, 1e-9, 0);
        assert_close(day_above.pressure_Pa, above.pressure_Pa, 0, 1e-12);
    }
}

static void a_warm_day_keeps_the_pressure_and_thins_the_air(void **state) {
    (void)state;
    struct design cold = at_field(-20, 800), warm = at_field(30, 800);
    struct air in_cold = air_of_day(&cold, 0), in_warm = air_of_day(&warm, 0);
    assert_close(in_cold.pressure_Pa, air_standard(800).pressure_Pa, 0, 1e-14);
    assert_close(in_warm.pressure_Pa, in_cold.pressure_Pa, 0, 0);
    assert_close(in_warm.density_kg_m3 / in_cold.density_kg_m3, 253.15 / 303.15, 0, 1e-14);
}

/* dp/dz = -rho g, whatever the temperature at the ground. */
static void the_air_column_carries_its_own_weight(void **state) {
    (void)state;
    for (double ground_C = -60; ground_C <= 60; ground_C += 20)
        for (double above_m = 100; above_m < 5000; above_m += 700) {
            struct design design = at_field(ground_C, 500);
            double h = 0.5, slope = (air_of_day(&design, above_m + h).pressure_Pa -
                                     air_of_day(&design, above_m - h).pressure_Pa) /
                                    (2 * h);
            struct air air = air_of_day(&design, above_m);
            assert_close(slope, -air.density_kg_m3 * GRAVITY_m_s2, 0, 1e-7);
            assert_close(air.density_kg_m3, air_density_kg_m3(air.pressure_Pa, air.temperature_K),
                         0, 1e-15);
        }
}

static void the_ends_of_every_range_give_air(void **state) {
    (void)state;
    static const double ground_C[] = {-60, 60}, altitude_m[] = {-500, 6000};
    for (size_t i = 0; i < 2; i++)
        for (size_t j = 0; j < 2; j++) {
            struct design design = at_field(ground_C[i], altitude_m[j]);
            struct air top = air_of_day(&design, 11000 - altitude_m[j]);
            assert_true(isfinite(top.density_kg_m3) && top.density_kg_m3 > 0.1 &&
                        top.density_kg_m3 < 1);
            assert_true(top.temperature_K > 130 && top.pressure_Pa < 60000);
        }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(on_a_standard_day_the_air_is_the_standard_air),
        cmocka_unit_test(a_warm_day_keeps_the_pressure_and_thins_the_air),
        cmocka_unit_test(the_air_column_carries_its_own_weight),
        cmocka_unit_test(the_ends_of_every_range_give_air),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
