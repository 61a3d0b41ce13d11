/* test_build.c - sizing by load, and every other size as it was. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "gorewright/flight.h"

/* Free lift over weight of an envelope at the temperature wanted. */
static double free_share(const struct design *sized, const struct envelope *envelope) {
    struct masses masses = masses_of(sized, envelope);
    return lift_of(sized, envelope, &masses).free_kg / masses.all_kg;
}

static struct design for_load(double rig_kg) {
    struct design d;
    design_starter(&d);
    d.size.by = SIZE_LOAD;
    d.rig.burner_kg = rig_kg;
    d.rig.cylinder_kg = d.rig.fuel_kg = d.rig.basket_kg = d.rig.radio_kg = 0;
    return d;
}

static double volume_for(const struct design *design) {
    struct design sized;
    struct diagnostics messages = {0};
    struct envelope *envelope = flight_build(design, &sized, &messages);
    assert_non_null(envelope);
    double volume_m3 = envelope->built.volume_m3;
    envelope_free(envelope);
    diagnostics_free(&messages);
    return volume_m3;
}

/* ---- what does not depend on the load ------------------------------------------- */

static void other_sizes_are_built_as_ever(void **state) {
    (void)state;
    struct dice dice = {1};
    for (int i = 0; i < 20; i++) {
        struct design d, sized;
        struct diagnostics messages = {0};
        struct envelope *plain = random_envelope(&dice, &d);
        struct envelope *flown = flight_build(&d, &sized, &messages);
        assert_non_null(flown);
        assert_memory_equal(&plain->built, &flown->built, sizeof plain->built);
        assert_memory_equal(&sized, &d, sizeof d);
        envelope_free(plain);
        envelope_free(flown);
        diagnostics_free(&messages);
    }
}

static void the_sized_design_may_take_the_place_of_the_design(void **state) {
    (void)state;
    struct design d = for_load(1), apart;
    struct diagnostics messages = {0};
    d.colours.cloths = (struct cloth_list){2, {{'W', "white", 1.3, 0, 0}, {'R', "red", 0, 0, 5}}};
    struct envelope *one = flight_build(&d, &apart, &messages);
    struct envelope *other = flight_build(&d, &d, &messages);
    assert_true(one != NULL && other != NULL);
    assert_memory_equal(&apart, &d, sizeof d);
    assert_memory_equal(&one->built, &other->built, sizeof one->built);
    assert_int_equal(d.size.by, SIZE_VOLUME);
    assert_close(d.cloth.width_m, 1.5, 0, 0);
    assert_close(d.colours.cloths.value[0].width_m, 1.3, 0, 0);
    assert_int_equal(design_check(&d, NULL, &messages), 0);
    assert_int_equal(messages.count, 0);
    envelope_free(one);
    envelope_free(other);
}

/* ---- by load ------------------------------------------------------------------------ */

static void random_load(struct dice *dice, struct design *d) {
    random_design(dice, d);
    d->size.by = SIZE_LOAD;
    d->rig.burner_kg = exp(dice_between(dice, log(0.2), log(100)));
    d->air.ground_C = dice_between(dice, -20, 35);
    d->air.inside_C = d->air.ground_C + dice_between(dice, 50, 120);
    d->air.altitude_m = dice_between(dice, 0, 3000);
    d->air.free_lift = dice_between(dice, 0, 0.5);
    d->cloth.mass_kg_m2 = dice_between(dice, 0.02, 0.07);
    d->rig.others = (struct item_list){1, {{"camera", dice_between(dice, 0, 1)}}};
    double about_m = cbrt(5 * (d->rig.burner_kg + 1.9));
    d->outline.mouth_diameter_m = about_m * dice_between(dice, 0.1, 0.3);
    d->outline.crown_diameter_m = about_m * dice_between(dice, 0.1, 0.3);
    if (dice_whole(dice, 0, 4) == 0)
        d->weighed.envelope_kg = dice_between(dice, 0.5, 2);
}

static void sizing_by_load_is_the_inverse_of_the_report_on_lift(void **state) {
    (void)state;
    struct dice dice = {2};
    size_t fine = 0;
    for (int i = 0; i < 80; i++) {
        struct design d, sized;
        struct diagnostics messages = {0};
        random_load(&dice, &d);
        struct envelope *envelope = flight_build(&d, &sized, &messages);
        assert_true(envelope != NULL ? messages.errors == 0 : messages.errors > 0);
        if (envelope != NULL) {
            assert_close(1 + free_share(&sized, envelope), 1 + d.air.free_lift, 0, 1e-8);
            assert_close(sized.size.volume_m3, envelope->built.volume_m3, 0, 1e-10);
            envelope_free(envelope);
            fine++;
        }
        diagnostics_free(&messages);
    }
    assert_true(fine > 60);
}

static void the_sized_design_builds_the_same_envelope(void **state) {
    (void)state;
    struct design d = for_load(2), sized, again;
    struct diagnostics messages = {0};
    struct envelope *one = flight_build(&d, &sized, &messages);
    struct envelope *other = flight_build(&sized, &again, &messages);
    assert_true(one != NULL && other != NULL);
    assert_close(one->built.volume_m3, other->built.volume_m3, 0, 1e-12);
    assert_close(one->built.weight_ratio, other->built.weight_ratio, 0, 1e-12);
    envelope_free(one);
    envelope_free(other);
}

static void a_smaller_envelope_would_not_do(void **state) {
    (void)state;
    struct design d = for_load(1.5), sized;
    struct diagnostics messages = {0};
    envelope_free(flight_build(&d, &sized, &messages));
    for (double share = 0.3; share < 1; share += 0.1) {
        struct design small = sized;
        small.size.volume_m3 *= share;
        struct envelope *envelope = envelope_build(&small, &messages);
        assert_non_null(envelope);
        assert_true(free_share(&small, envelope) < d.air.free_lift);
        envelope_free(envelope);
    }
    diagnostics_free(&messages);
}

static void more_load_cooler_air_and_more_margin_ask_for_more_volume(void **state) {
    (void)state;
    struct design d = for_load(1), more = for_load(1.1);
    double volume_m3 = volume_for(&d);
    assert_true(volume_for(&more) > volume_m3);
    more = d, more.air.inside_C -= 5;
    assert_true(volume_for(&more) > volume_m3);
    more = d, more.air.ground_C += 5;
    assert_true(volume_for(&more) > volume_m3);
    more = d, more.air.altitude_m += 300;
    assert_true(volume_for(&more) > volume_m3);
    more = d, more.air.free_lift += 0.05;
    assert_true(volume_for(&more) > volume_m3);
    more = d, more.cloth.mass_kg_m2 *= 1.1;
    assert_true(volume_for(&more) > volume_m3);
}

static void a_natural_outline_takes_its_lift_from_the_air_of_the_day(void **state) {
    (void)state;
    struct design d = for_load(1), sized;
    struct diagnostics messages = {0};
    d.air.inside_C = 80;
    d.air.ground_C = 5;
    struct envelope *envelope = flight_build(&d, &sized, &messages);
    struct masses masses = masses_of(&sized, envelope);
    struct lift lift = lift_of(&sized, envelope, &masses);
    assert_close(sized.outline.lift_per_volume_N_m3, lift.per_volume_N_m3, 0, 1e-12);
    envelope_free(envelope);
    d.outline.weight_from = WEIGHT_NONE;
    envelope_free(flight_build(&d, &sized, &messages));
    assert_close(sized.outline.lift_per_volume_N_m3, d.outline.lift_per_volume_N_m3, 0, 0);
    assert_int_equal(messages.count, 0);
}

/* ---- what cannot be ----------------------------------------------------------------- */

static void assert_refused(const struct design *d, const char *const keys[]) {
    struct design sized;
    struct diagnostics messages = {0};
    struct text text = {0};
    assert_null(flight_build(d, &sized, &messages));
    diagnostics_write(&messages, &text);
    for (size_t i = 0; keys[i] != NULL; i++) {
        if (i >= messages.count || strcmp(messages.item[i].key, keys[i]) != 0)
            fail_msg("no error about %s in: %s", keys[i], text.bytes);
        assert_int_equal(messages.item[i].severity, SEVERITY_ERROR);
    }
    assert_null(strstr(text.bytes, "nan"));
    text_free(&text);
    diagnostics_free(&messages);
}

static void air_that_lifts_nothing_is_refused(void **state) {
    (void)state;
    struct design d = for_load(1);
    d.air.inside_C = d.air.ground_C;
    assert_refused(&d, (const char *const[]){"air.inside", NULL});
    d.air.inside_C = -30;
    assert_refused(&d, (const char *const[]){"air.inside", NULL});
}

static void sized_for_air_that_its_cloth_cannot_stand_is_said(void **state) {
    (void)state;
    struct design d, sized;
    design_starter(&d);
    d.size.by = SIZE_LOAD;
    for (int over = 0; over < 2; over++) {
        struct diagnostics messages = {0};
        d.air.inside_C = over ? 120.5 : 120;
        struct envelope *envelope = flight_build(&d, &sized, &messages);
        assert_non_null(envelope);
        assert_int_equal(messages.count, over);
        if (over) {
            assert_string_equal(messages.item[0].key, "air.inside");
            assert_non_null(strstr(messages.item[0].text, "sized for air that its cloth cannot"));
        }
        envelope_free(envelope);
        diagnostics_free(&messages);
    }
}

static void a_load_beyond_every_size_is_refused(void **state) {
    (void)state;
    struct design d = for_load(200);
    d.air.inside_C = d.air.ground_C + 1;
    assert_refused(&d, (const char *const[]){"size.by", NULL});
    d.air.inside_C = d.air.ground_C + 1e-9;
    assert_refused(&d, (const char *const[]){"size.by", NULL});
}

static void a_load_too_small_for_the_mouth_says_where_the_size_comes_from(void **state) {
    (void)state;
    struct design d = for_load(0.05);
    d.outline.mouth_diameter_m = 5;
    assert_refused(&d, (const char *const[]){"outline.mouth_diameter", "size.by", NULL});
}

static void cloth_too_narrow_for_the_size_that_comes_out_is_refused(void **state) {
    (void)state;
    struct design d = for_load(3);
    d.cloth.width_m = 0.4;
    assert_refused(&d, (const char *const[]){"rows.count", NULL});
}

static void geometry_alone_refuses_to_size_by_load(void **state) {
    (void)state;
    struct design d = for_load(1);
    struct diagnostics messages = {0};
    assert_null(envelope_build(&d, &messages));
    assert_string_equal(messages.item[0].key, "size.by");
    d.outline.kind = OUTLINE_TABLE;
    d.outline.table = (struct point_list){3, {{0.3, 0}, {1.2, 1.5}, {0.3, 3}}};
    assert_null(envelope_build(&d, &messages));
    assert_int_equal(fewest_rows(&d), 0);
    diagnostics_free(&messages);
}

static void a_table_is_scaled_to_its_load(void **state) {
    (void)state;
    struct design d = for_load(1), sized;
    struct diagnostics messages = {0};
    d.outline.kind = OUTLINE_TABLE;
    d.outline.table = (struct point_list){3, {{0.3, 0}, {1.2, 1.5}, {0.3, 3}}};
    struct envelope *envelope = flight_build(&d, &sized, &messages);
    assert_non_null(envelope);
    assert_close(free_share(&sized, envelope), 0.1, 1e-8, 0);
    envelope_free(envelope);
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(other_sizes_are_built_as_ever),
        cmocka_unit_test(the_sized_design_may_take_the_place_of_the_design),
        cmocka_unit_test(sizing_by_load_is_the_inverse_of_the_report_on_lift),
        cmocka_unit_test(the_sized_design_builds_the_same_envelope),
        cmocka_unit_test(a_smaller_envelope_would_not_do),
        cmocka_unit_test(more_load_cooler_air_and_more_margin_ask_for_more_volume),
        cmocka_unit_test(a_natural_outline_takes_its_lift_from_the_air_of_the_day),
        cmocka_unit_test(air_that_lifts_nothing_is_refused),
        cmocka_unit_test(sized_for_air_that_its_cloth_cannot_stand_is_said),
        cmocka_unit_test(a_load_beyond_every_size_is_refused),
        cmocka_unit_test(a_load_too_small_for_the_mouth_says_where_the_size_comes_from),
        cmocka_unit_test(cloth_too_narrow_for_the_size_that_comes_out_is_refused),
        cmocka_unit_test(geometry_alone_refuses_to_size_by_load),
        cmocka_unit_test(a_table_is_scaled_to_its_load),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
