/* test_propane.c - the fuel between the printed checks of tests/outside. */
#include "support.h"

#include <math.h>

#include "flight/propane.h"

static void pressure_rises_with_temperature_up_to_the_critical_point(void **state) {
    (void)state;
    for (double kelvin = 100; kelvin < 369; kelvin += 0.5)
        assert_true(propane_pressure_Pa(kelvin + 0.5) > propane_pressure_Pa(kelvin));
    assert_close(propane_pressure_Pa(369.89 - 1e-9), propane_pressure_Pa(369.89), 0, 1e-9);
    assert_close(propane_pressure_Pa(400), propane_pressure_Pa(369.89), 0, 1e-15);
}

/* Clapeyron: at 231 K p grows by L p / (Z R T^2) a kelvin, with 425.6 kJ/kg to boil it and
 * Z = 0.963 for its vapour less its liquid (both from memory: 1 %). */
static void the_slope_agrees_with_the_heat_of_boiling(void **state) {
    (void)state;
    double kelvin = 231.04, gas = 8.314462618 / 0.0440956;
    double slope =
        log(propane_pressure_Pa(kelvin + 0.01) / propane_pressure_Pa(kelvin - 0.01)) / 0.02;
    assert_close(slope, 425.6e3 / (0.963 * gas * kelvin * kelvin), 0, 0.01);
}

static void fuel_is_power_over_heating_value(void **state) {
    (void)state;
    assert_close(fuel_rate_kg_h(50e6 / 3600, 50e6), 1, 1e-12, 0);
    assert_close(fuel_rate_kg_h(0, 50e6), 0, 1e-12, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pressure_rises_with_temperature_up_to_the_critical_point),
        cmocka_unit_test(the_slope_agrees_with_the_heat_of_boiling),
        cmocka_unit_test(fuel_is_power_over_heating_value),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
