/* test_warn.c - what a builder is warned of before flying, and when there is no need. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gorewright/flight.h"

/* The warnings for a design, as "code key\n" each. */
static char *warned(const struct design *design) {
    static char found[2000];
    struct design sized;
    struct diagnostics messages = {0};
    struct envelope *envelope = flight_build(design, &sized, &messages);
    assert_non_null(envelope);
    size_t before = messages.count, used = 0;
    flight_warn(&sized, envelope, &messages);
    assert_int_equal(messages.errors, 0);
    found[0] = '\0';
    for (size_t i = before; i < messages.count; i++) {
        const struct diagnostic *item = &messages.item[i];
        assert_true(parameter_find(item->key) >= 0);
        assert_null(strstr(item->text, "nan"));
        assert_null(strstr(item->text, "inf "));
        used +=
            (size_t)snprintf(found + used, sizeof found - used, "%s %s\n", item->code, item->key);
        assert_true(used < sizeof found);
    }
    envelope_free(envelope);
    diagnostics_free(&messages);
    return found;
}

static struct design starter(void) {
    struct design design;
    design_starter(&design);
    return design;
}

static void assert_warned(const struct design *design, const char *warning) {
    char *found = warned(design);
    if (strstr(found, warning) == NULL)
        fail_msg("no \"%s\" in:\n%s", warning, found);
}

static void the_starter_brings_no_warning(void **state) {
    (void)state;
    struct design d = starter();
    assert_string_equal(warned(&d), "");
    d.size.by = SIZE_LOAD;
    assert_string_equal(warned(&d), "");
}

static void air_no_warmer_than_outside_is_said_once(void **state) {
    (void)state;
    struct design d = starter();
    d.air.inside_C = 15;
    assert_warned(&d, "colder-inside air.inside\n");
    assert_null(strstr(warned(&d), "too-")); /* and nothing that follows from it */
    d.air.inside_C = -50;
    d.air.ground_C = 60;
    assert_warned(&d, "colder-inside air.inside\n");
    d.air.inside_C = 60.1;
    assert_null(strstr(warned(&d), "colder-inside"));
}

static void air_hotter_than_the_cloth_may_become_is_warned_of(void **state) {
    (void)state;
    struct design d = starter();
    d.air.inside_C = 121;
    assert_warned(&d, "too-hot air.inside\n");
    d.air.inside_C = 120;
    assert_null(strstr(warned(&d), "too-hot"));
}

static void a_rig_without_weight_is_warned_of(void **state) {
    (void)state;
    struct design d = starter();
    d.rig.burner_kg = d.rig.cylinder_kg = d.rig.fuel_kg = d.rig.basket_kg = d.rig.radio_kg = 0;
    assert_warned(&d, "no-rig rig.burner\n");
    d.rig.others = (struct item_list){1, {{"camera", 0.01}}};
    assert_null(strstr(warned(&d), "no-rig"));
}

static void weight_against_lift(void **state) {
    (void)state;
    struct design d = starter();
    d.air.inside_C = 80; /* it needs 84 C */
    assert_warned(&d, "too-cool air.inside\n");
    d.rig.basket_kg += 2; /* more than 120 C carries */
    assert_warned(&d, "too-heavy air.inside\n");
    d.rig.basket_kg += 100; /* more than any heat carries */
    assert_warned(&d, "too-heavy air.inside\n");
}

static void cold_propane_is_warned_of_while_there_is_any(void **state) {
    (void)state;
    struct design d = starter();
    d.air.ground_C = -25;
    assert_warned(&d, "low-pressure air.ground\n");
    d.rig.fuel_kg = 0;
    assert_null(strstr(warned(&d), "low-pressure"));
}

static void a_burner_that_cannot_hold_it_is_warned_of(void **state) {
    (void)state;
    struct design d = starter();
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(&d, &messages);
    struct masses masses = masses_of(&d, envelope);
    struct lift lift = lift_of(&d, envelope, &masses);
    struct spread hold_W = heat_of(&d, envelope, &lift).hold_W;
    envelope_free(envelope);
    d.heat.burner_W = 0.99 * hold_W.high; /* it may do, and may not */
    assert_warned(&d, "weak-burner heat.burner_power\n");
    d.heat.burner_W = 1.01 * hold_W.high;
    assert_null(strstr(warned(&d), "weak-burner"));
}

static void fuel_that_does_not_outlast_the_start_is_warned_of(void **state) {
    (void)state;
    struct design d = starter();
    d.rig.fuel_kg = 0.005;
    assert_warned(&d, "little-fuel rig.fuel\n");
}

static void parts_below_both_codes_are_warned_of(void **state) {
    (void)state;
    struct design d = starter();
    d.tape.strength_N = 10;
    assert_null(strstr(warned(&d), "weak-envelope")); /* the cloth alone would do */
    d.cloth.strength_N_m = 100;
    d.size.by = SIZE_HEIGHT;
    d.size.height_m = 12;
    d.rows.count = 20;
    assert_warned(&d, "weak-envelope tape.strength\n");
    d.rigging.wire_strength_N = 10;
    assert_warned(&d, "weak-wires rigging.wire_strength\n");
}

static void more_wind_than_can_be_held_is_warned_of(void **state) {
    (void)state;
    struct design d = starter();
    d.wind.expected_m_s = 15;
    assert_warned(&d, "too-windy wind.expected\n");
}

static void no_design_is_warned_of_in_what_is_no_number(void **state) {
    (void)state;
    struct dice dice = {5};
    for (int i = 0; i < 60; i++) {
        struct design d;
        envelope_free(random_envelope(&dice, &d));
        d.air.ground_C = dice_between(&dice, -60, 60);
        d.air.inside_C = dice_between(&dice, -50, 250);
        d.air.altitude_m = dice_between(&dice, -500, 6000);
        d.rig.fuel_kg = dice_whole(&dice, 0, 1) * dice_between(&dice, 0, 5);
        d.rig.basket_kg = dice_between(&dice, 0, 300);
        d.heat.burner_W = exp(dice_between(&dice, log(100), log(5e6)));
        d.wind.hold_N = exp(dice_between(&dice, log(1), log(20000)));
        warned(&d); /* looks for nan, for errors, and for keys that are none */
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_starter_brings_no_warning),
        cmocka_unit_test(air_no_warmer_than_outside_is_said_once),
        cmocka_unit_test(air_hotter_than_the_cloth_may_become_is_warned_of),
        cmocka_unit_test(a_rig_without_weight_is_warned_of),
        cmocka_unit_test(weight_against_lift),
        cmocka_unit_test(cold_propane_is_warned_of_while_there_is_any),
        cmocka_unit_test(a_burner_that_cannot_hold_it_is_warned_of),
        cmocka_unit_test(fuel_that_does_not_outlast_the_start_is_warned_of),
        cmocka_unit_test(parts_below_both_codes_are_warned_of),
        cmocka_unit_test(more_wind_than_can_be_held_is_warned_of),
        cmocka_unit_test(no_design_is_warned_of_in_what_is_no_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
