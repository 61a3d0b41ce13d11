/* test_convection.c - how air takes heat from a wall: what the correlations do between the
 * printed checks of tests/outside. */
#include "support.h"

#include <math.h>

#include "flight/convection.h"

enum { POINTS = 400 };

/* From one power of ten to another, in equal steps of the exponent. */
static double spaced(int i, double from_power, double to_power) {
    return pow(10, from_power + (to_power - from_power) * i / POINTS);
}

static void every_correlation_rises(void **state) {
    (void)state;
    for (int i = 0; i < POINTS; i++) {
        double low = spaced(i, 0, 16), high = spaced(i + 1, 0, 16);
        assert_true(nusselt_sphere_laminar(high, 0.7) > nusselt_sphere_laminar(low, 0.7));
        assert_true(nusselt_sphere(high, 0.7) > nusselt_sphere(low, 0.7));
        assert_true(nusselt_inside_weak(high) > nusselt_inside_weak(low));
        assert_true(nusselt_inside_strong(high) > nusselt_inside_strong(low));
        assert_true(nusselt_stream(high, 0.7, 1) > nusselt_stream(low, 0.7, 1));
    }
}

static void the_strong_form_lies_well_above_the_weak_one_everywhere(void **state) {
    (void)state;
    for (int i = 0; i <= POINTS; i++) {
        double number = spaced(i, 0, 16);
        assert_true(nusselt_inside_strong(number) > 1.9 * nusselt_inside_weak(number));
    }
    assert_close(nusselt_inside_strong(1e11) / nusselt_inside_weak(1e11), 2.5, 1e-12, 0);
}

/* The two branches of the strong form meet; those of the weak one are 24 % apart. */
static void the_branches_inside_stand_where_they_are_stated(void **state) {
    (void)state;
    assert_close(nusselt_inside_strong(1.35e8 * (1 - 1e-9)), nusselt_inside_strong(1.3500001e8), 0,
                 1e-3);
    assert_close(nusselt_inside_weak(1e9 + 1) / nusselt_inside_weak(1e9), 1.239, 5e-4, 0);
    assert_close(nusselt_inside_weak(1e8), 59, 1e-9, 0);
    assert_close(nusselt_inside_weak(1e12), 1300, 1e-9, 0);
    assert_close(nusselt_inside_strong(1e4), 20, 1e-9, 0);
    assert_close(nusselt_inside_strong(1e12), 3250, 1e-8, 0);
}

static void
the_full_form_outside_is_the_greater_and_next_to_the_laminar_one_when_small(void **state) {
    (void)state;
    for (int i = 0; i <= POINTS; i++) {
        double number = spaced(i, 0, 14);
        assert_true(nusselt_sphere(number, 0.7) >= nusselt_sphere_laminar(number, 0.7));
    }
    assert_close(nusselt_sphere(1e5, 0.7), nusselt_sphere_laminar(1e5, 0.7), 0, 1e-3);
    assert_close(nusselt_sphere(1e11, 0.7) / nusselt_sphere_laminar(1e11, 0.7), 1.9, 0.05, 0);
}

static void a_sphere_without_buoyancy_or_stream_only_conducts(void **state) {
    (void)state;
    assert_close(nusselt_sphere(0, 0.7), 2, 1e-15, 0);
    assert_close(nusselt_sphere_laminar(0, 0.7), 2, 1e-15, 0);
    assert_close(nusselt_stream(0, 0.7, 1), 2, 1e-15, 0);
}

/* Ra = g beta dT L^3 / (nu a), a = k / (rho c), from the properties themselves. */
static void the_rayleigh_number_is_that_of_its_definition(void **state) {
    (void)state;
    double kelvin = 300, pascal = 90000, density = pascal / (287.05287 * kelvin);
    struct film film = film_of(pascal, kelvin);
    double nu = air_viscosity_Pa_s(kelvin) / density;
    double a = air_conductivity_W_m_K(kelvin) / (density * 1004.685);
    assert_close(rayleigh(&film, 25, 3), 9.80665 / kelvin * 25 * 27 / (nu * a), 0, 1e-6);
}

/* Tables of dry air in any book on heat (from memory): to a hundredth. */
static void the_prandtl_number_is_that_of_air(void **state) {
    (void)state;
    assert_close(film_of(101325, 250).prandtl, 0.720, 0.01, 0);
    assert_close(film_of(101325, 300).prandtl, 0.707, 0.01, 0);
    assert_close(film_of(101325, 350).prandtl, 0.700, 0.01, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_correlation_rises),
        cmocka_unit_test(the_strong_form_lies_well_above_the_weak_one_everywhere),
        cmocka_unit_test(the_branches_inside_stand_where_they_are_stated),
        cmocka_unit_test(
            the_full_form_outside_is_the_greater_and_next_to_the_laminar_one_when_small),
        cmocka_unit_test(a_sphere_without_buoyancy_or_stream_only_conducts),
        cmocka_unit_test(the_rayleigh_number_is_that_of_its_definition),
        cmocka_unit_test(the_prandtl_number_is_that_of_air),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
