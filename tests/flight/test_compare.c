/* The styles side by side. */
#include <math.h>
#include <string.h>

#include "support.h"

#include "gorewright/flight.h"

static void the_three_styles_stand_at_the_size_asked_for(void **state) {
    (void)state;
    struct design design;
    struct comparison compared;
    const struct style_figures *style = compared.style;
    design_starter(&design);
    design.gores.style = BILLOWED; /* whatever the design is, all three are shown */
    styles_compare(&design, &compared);
    assert_int_equal(compared.count, 3);
    for (int i = 0; i < 3; i++) {
        assert_string_equal(style[i].name, style_name((enum style)i));
        assert_true(style[i].built);
        assert_close(style[i].figures.volume_m3, 12, 0, 1e-9);
        assert_true(strlen(style[i].skill) > 10);
    }
    assert_int_equal(style[HALF_GORE].figures.pieces, 2 * style[FACETED].figures.pieces);
    assert_int_equal(style[HALF_GORE].templates, 2 * style[FACETED].templates);
    assert_true(style[FACETED].figures.curved_seam_m <= 0);
    assert_true(style[BILLOWED].figures.curved_seam_m > 10);
    assert_true(style[HALF_GORE].hours > style[FACETED].hours);
}

static void a_style_shows_what_the_design_alone_would_give(void **state) {
    (void)state;
    struct design design, sized;
    struct comparison compared;
    const struct style_figures *style = compared.style;
    struct diagnostics messages = {0};
    design_starter(&design);
    styles_compare(&design, &compared);
    design.gores.style = HALF_GORE;
    struct envelope *envelope = flight_build(&design, &sized, &messages);
    assert_non_null(envelope);
    struct masses masses = masses_of(&sized, envelope);
    struct lift lift = lift_of(&sized, envelope, &masses);
    assert_close(style[HALF_GORE].mass_kg, masses.envelope_kg, 0, 1e-12);
    assert_close(style[HALF_GORE].needed_C, lift.needed_K - 273.15, 0, 1e-12);
    assert_close(style[HALF_GORE].free_kg, lift.free_kg, 0, 1e-12);
    assert_close(style[HALF_GORE].margin_K, lift.margin_K, 0, 1e-12);
    assert_true(style[HALF_GORE].load_volume_m3 <= 0); /* not sized by load */
    assert_close(style[HALF_GORE].hours, build_hours(&sized, envelope), 0, 1e-12);
    assert_close(style[HALF_GORE].figures.cut_area_m2, envelope->built.cut_area_m2, 0, 1e-12);
    diagnostics_free(&messages);
    envelope_free(envelope);
}

static void a_mix_stands_beside_the_three_between_the_least_and_the_most(void **state) {
    (void)state;
    struct design design;
    struct comparison compared;
    const struct style_figures *style = compared.style;
    design_starter(&design);
    design.gores.mix = (struct style_list){2, {BILLOWED, HALF_GORE}};
    styles_compare(&design, &compared);
    assert_int_equal(compared.count, 4);
    assert_string_equal(style[3].name, "as designed");
    assert_string_equal(style[3].skill, style[BILLOWED].skill); /* the hardest of them */
    assert_true(style[3].figures.pieces > style[BILLOWED].figures.pieces &&
                style[3].figures.pieces < style[HALF_GORE].figures.pieces);
    assert_int_equal(style[0].figures.pieces, 128); /* the mix is not in the way of the three */
    design.gores.mix = (struct style_list){2, {HALF_GORE, HALF_GORE}};
    styles_compare(&design, &compared);
    assert_int_equal(compared.count, 3);
}

/* The middle of a bulging panel is longer than its sides: a roll may be just too narrow. */
static void a_style_that_cannot_be_built_says_why_and_leaves_the_others(void **state) {
    (void)state;
    struct design design;
    struct comparison compared;
    const struct style_figures *style = compared.style;
    bool found = false;
    design_starter(&design);
    design.bulge.depth = 0.3;
    for (double width_m = 0.4; width_m < 1.2 && !found; width_m += 0.005) {
        design.cloth.width_m = width_m;
        styles_compare(&design, &compared);
        found = style[FACETED].built && !style[BILLOWED].built;
    }
    assert_true(found);
    assert_non_null(strstr(style[BILLOWED].why, "cloth"));
    assert_int_not_equal(style[BILLOWED].why[strlen(style[BILLOWED].why) - 1], ' ');
    assert_int_equal(style[FACETED].why[0], '\0');
    assert_int_equal(style[FACETED].figures.pieces, 128);
}

/* What is asked of the design as it stands, not of each style by itself. */
static void sized_by_load_all_are_of_the_one_volume_the_design_asks_for(void **state) {
    (void)state;
    struct design design, sized;
    struct comparison compared;
    const struct style_figures *style = compared.style;
    struct diagnostics messages = {0};
    design_starter(&design);
    design.size.by = SIZE_LOAD;
    design.gores.style = HALF_GORE;
    struct envelope *own = flight_build(&design, &sized, &messages);
    assert_non_null(own);
    styles_compare(&design, &compared);
    assert_int_equal(compared.count, 3);
    assert_int_equal(compared.own, HALF_GORE);
    assert_int_equal(compared.sized, HALF_GORE);
    assert_close(compared.volume_m3, own->built.volume_m3, 0, 1e-9);
    for (size_t i = 0; i < 3; i++)
        assert_close(style[i].figures.volume_m3, own->built.volume_m3, 0, 1e-6);
    assert_close(style[HALF_GORE].figures.cut_area_m2, own->built.cut_area_m2, 0, 1e-6);
    assert_true(style[HALF_GORE].mass_kg > style[FACETED].mass_kg);
    assert_true(style[HALF_GORE].needed_C > style[FACETED].needed_C);
    envelope_free(own);
    diagnostics_free(&messages);
}

/* The smallest that each style could be for the load, by itself. */
static void sized_by_load_each_style_says_what_it_would_ask_for_alone(void **state) {
    (void)state;
    struct design design;
    struct comparison compared;
    design_starter(&design);
    design.size.by = SIZE_LOAD;
    styles_compare(&design, &compared);
    for (int i = 0; i < STYLE_COUNT; i++) {
        struct design one = design, sized;
        struct diagnostics messages = {0};
        one.gores.style = i;
        struct envelope *envelope = flight_build(&one, &sized, &messages);
        assert_non_null(envelope);
        assert_close(compared.style[i].load_volume_m3, envelope->built.volume_m3, 0, 1e-12);
        envelope_free(envelope);
        diagnostics_free(&messages);
    }
    assert_true(compared.style[HALF_GORE].load_volume_m3 >
                1.01 * compared.style[FACETED].load_volume_m3);
}

/* Billowed gores too wide for the roll: the volume is then that of the faceted ones. */
static void
where_the_design_cannot_be_built_for_its_load_another_style_gives_the_size(void **state) {
    (void)state;
    struct design design;
    struct comparison compared;
    bool found = false;
    design_starter(&design);
    design.size.by = SIZE_LOAD;
    design.gores.style = BILLOWED;
    design.bulge.depth = 0.3;
    for (double width_m = 0.4; width_m < 1.2 && !found; width_m += 0.005) {
        design.cloth.width_m = width_m;
        styles_compare(&design, &compared);
        found = compared.volume_m3 > 0 && compared.sized != compared.own;
    }
    assert_true(found);
    assert_int_equal(compared.own, BILLOWED);
    assert_int_equal(compared.sized, FACETED);
    assert_true(compared.style[BILLOWED].load_volume_m3 <= 0);
    assert_close(compared.style[FACETED].figures.volume_m3, compared.style[FACETED].load_volume_m3,
                 0, 1e-8);
}

/* A reason is of use to its end, where it says what to do. */
static void the_reason_comes_with_its_remedy(void **state) {
    (void)state;
    struct design design, sized;
    struct comparison compared;
    struct diagnostics messages = {0};
    design_starter(&design);
    design.cloth.width_m = 0.15;
    styles_compare(&design, &compared);
    assert_null(flight_build(&design, &sized, &messages));
    assert_string_equal(compared.style[FACETED].why, messages.item[0].text);
    assert_true(strlen(compared.style[FACETED].why) > 96);
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_three_styles_stand_at_the_size_asked_for),
        cmocka_unit_test(a_style_shows_what_the_design_alone_would_give),
        cmocka_unit_test(a_mix_stands_beside_the_three_between_the_least_and_the_most),
        cmocka_unit_test(a_style_that_cannot_be_built_says_why_and_leaves_the_others),
        cmocka_unit_test(sized_by_load_each_style_says_what_it_would_ask_for_alone),
        cmocka_unit_test(
            where_the_design_cannot_be_built_for_its_load_another_style_gives_the_size),
        cmocka_unit_test(the_reason_comes_with_its_remedy),
        cmocka_unit_test(sized_by_load_all_are_of_the_one_volume_the_design_asks_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
