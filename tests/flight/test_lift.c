/* test_lift.c - what hot air carries, and how hot it must be. */
#include "support.h"

#include <math.h>

#include "gorewright/flight.h"

static struct design random_air(struct dice *dice) {
    struct design d;
    design_starter(&d);
    d.air.ground_C = dice_between(dice, -60, 60);
    d.air.altitude_m = dice_between(dice, -500, 6000);
    d.air.inside_C = dice_between(dice, 61, 250);
    d.cloth.hottest_C = dice_between(dice, 40, 250);
    return d;
}

static double lift_on(struct design d, double ground_C, double inside_C) {
    d.air.ground_C = ground_C;
    return lift_kg(air_of_day(&d, 0), 10, inside_C + ZERO_C_K);
}

static void lift_rises_with_heat_inside_and_falls_with_heat_outside(void **state) {
    (void)state;
    struct dice dice = {1};
    for (int i = 0; i < 500; i++) {
        struct design d = random_air(&dice);
        double step = dice_between(&dice, 0.01, 20);
        assert_true(lift_on(d, d.air.ground_C, d.air.inside_C + step) >
                    lift_on(d, d.air.ground_C, d.air.inside_C));
        assert_true(lift_on(d, d.air.ground_C + step, d.air.inside_C) <
                    lift_on(d, d.air.ground_C, d.air.inside_C));
    }
}

static void the_same_air_inside_and_outside_lifts_nothing(void **state) {
    (void)state;
    struct design d;
    design_starter(&d);
    assert_close(lift_on(d, 20, 20), 0, 1e-14, 0);
    assert_true(lift_on(d, 20, 19) < 0);
}

static void the_temperature_needed_floats_the_mass_exactly(void **state) {
    (void)state;
    struct dice dice = {2};
    for (int i = 0; i < 500; i++) {
        struct design d = random_air(&dice);
        struct air outside = air_of_day(&d, 0);
        double volume_m3 = dice_between(&dice, 1, 200);
        double mass_kg = volume_m3 * outside.density_kg_m3 * dice_between(&dice, 0, 0.6);
        double needed_K = floating_temperature_K(outside, volume_m3, mass_kg);
        assert_close(lift_kg(outside, volume_m3, needed_K), mass_kg, 1e-12, 1e-12);
    }
}

static void no_heat_floats_more_than_the_air_displaced(void **state) {
    (void)state;
    struct air outside = air_standard(0);
    assert_true(isfinite(floating_temperature_K(outside, 10, 12.24)));
    assert_true(isinf(floating_temperature_K(outside, 10, 12.26)));
}

static struct lift lift_with(const struct design *d, double mass_kg) {
    struct envelope envelope = {.built = {.volume_m3 = 12}};
    struct masses masses = {.all_kg = mass_kg};
    return lift_of(d, &envelope, &masses);
}

static void the_report_agrees_with_itself(void **state) {
    (void)state;
    struct dice dice = {3};
    for (int i = 0; i < 300; i++) {
        struct design d = random_air(&dice);
        struct lift lift = lift_with(&d, dice_between(&dice, 0.1, 5));
        assert_close(lift.per_volume_N_m3 * 12, lift.gross_kg * GRAVITY_m_s2, 0, 1e-12);
        assert_true(lift.floats == isfinite(lift.needed_K));
        if (lift.floats)
            assert_close(lift.margin_K, d.cloth.hottest_C + ZERO_C_K - lift.needed_K, 1e-9, 0);
        /* It lifts more than it weighs just when it is hotter than it need be. */
        assert_true((lift.free_kg > 0) == (lift.inside_K > lift.needed_K));
    }
}

static void at_the_ceiling_the_hottest_air_just_carries_the_weight(void **state) {
    (void)state;
    struct dice dice = {4};
    size_t between = 0;
    for (int i = 0; i < 500; i++) {
        struct design d = random_air(&dice);
        double mass_kg = dice_between(&dice, 0.1, 5);
        struct lift lift = lift_with(&d, mass_kg);
        double top_m = 11000 - d.air.altitude_m, hottest_K = d.cloth.hottest_C + ZERO_C_K;
        assert_true(lift.ceiling_m >= 0 && lift.ceiling_m <= top_m);
        double here_kg = lift_kg(air_of_day(&d, lift.ceiling_m), 12, hottest_K);
        if (lift.ceiling_m <= 0)
            assert_true(lift_kg(air_of_day(&d, 0), 12, hottest_K) <= mass_kg);
        else if (lift.ceiling_m >= top_m)
            assert_true(here_kg >= mass_kg);
        else {
            assert_close(here_kg, mass_kg, 0, 1e-8);
            assert_true(lift_kg(air_of_day(&d, lift.ceiling_m + 50), 12, hottest_K) < mass_kg);
            between++;
        }
    }
    assert_true(between > 100);
}

/* With cool cloth the air outside cools faster than it thins: it lifts more higher up. */
static void the_ceiling_lies_past_the_height_of_most_lift(void **state) {
    (void)state;
    struct design d;
    design_starter(&d);
    d.air.ground_C = 30;
    d.cloth.hottest_C = 80;
    double hottest_K = 80 + ZERO_C_K;
    double field_kg = lift_kg(air_of_day(&d, 0), 12, hottest_K);
    double higher_kg = lift_kg(air_of_day(&d, 2000), 12, hottest_K);
    assert_true(higher_kg > 1.04 * field_kg);
    struct lift lift = lift_with(&d, 0.99 * field_kg);
    assert_true(lift.ceiling_m > 4000);
    assert_close(lift_kg(air_of_day(&d, lift.ceiling_m), 12, hottest_K), 0.99 * field_kg, 0, 1e-8);
    /* What the field air does not carry never gets there. */
    assert_close(lift_with(&d, 0.5 * (field_kg + higher_kg)).ceiling_m, 0, 0, 0);
}

static void nothing_is_ever_not_a_number(void **state) {
    (void)state;
    static const double ground_C[] = {-60, 15, 60}, inside_C[] = {-50, 15, 250},
                        hottest_C[] = {40, 250}, mass_kg[] = {0, 1e-9, 3, 14, 1e5};
    for (size_t i = 0; i < 3 * 3 * 2 * 5; i++) {
        struct design d;
        design_starter(&d);
        d.air.ground_C = ground_C[i % 3];
        d.air.inside_C = inside_C[i / 3 % 3];
        d.cloth.hottest_C = hottest_C[i / 9 % 2];
        struct lift lift = lift_with(&d, mass_kg[i / 18]);
        assert_true(isfinite(lift.gross_kg) && isfinite(lift.free_kg));
        assert_true(isfinite(lift.per_volume_N_m3) && isfinite(lift.ceiling_m));
        assert_false(isnan(lift.needed_K) || isnan(lift.margin_K));
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lift_rises_with_heat_inside_and_falls_with_heat_outside),
        cmocka_unit_test(the_same_air_inside_and_outside_lifts_nothing),
        cmocka_unit_test(the_temperature_needed_floats_the_mass_exactly),
        cmocka_unit_test(no_heat_floats_more_than_the_air_displaced),
        cmocka_unit_test(the_report_agrees_with_itself),
        cmocka_unit_test(at_the_ceiling_the_hottest_air_just_carries_the_weight),
        cmocka_unit_test(the_ceiling_lies_past_the_height_of_most_lift),
        cmocka_unit_test(nothing_is_ever_not_a_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
