/* The styles side by side. */
#include <math.h>
#include <string.h>

#include "support.h"

#include "gorewright/flight.h"

static void the_three_styles_stand_at_the_size_asked_for(void **state) {
    (void)state;
    struct design design, compared;
    struct style_figures style[COMPARED_MOST];
    design_starter(&design);
    design.gores.style = BILLOWED; /* whatever the design is, all three are shown */
    assert_int_equal(styles_compare(&design, &compared, style), 3);
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
    struct design design, sized, compared;
    struct style_figures style[COMPARED_MOST];
    struct diagnostics messages = {0};
    design_starter(&design);
    styles_compare(&design, &compared, style);
    design.gores.style = HALF_GORE;
    struct envelope *envelope = flight_build(&design, &sized, &messages);
    assert_non_null(envelope);
    struct masses masses = masses_of(&sized, envelope);
    struct lift lift = lift_of(&sized, envelope, &masses);
    assert_close(style[HALF_GORE].mass_kg, masses.envelope_kg, 0, 1e-12);
    assert_close(style[HALF_GORE].needed_C, lift.needed_K - 273.15, 0, 1e-12);
    assert_close(style[HALF_GORE].hours, build_hours(&sized, envelope), 0, 1e-12);
    assert_close(style[HALF_GORE].figures.cut_area_m2, envelope->built.cut_area_m2, 0, 1e-12);
    diagnostics_free(&messages);
    envelope_free(envelope);
}

static void a_mix_stands_beside_the_three_between_the_least_and_the_most(void **state) {
    (void)state;
    struct design design, compared;
    struct style_figures style[COMPARED_MOST];
    design_starter(&design);
    design.gores.mix = (struct style_list){2, {BILLOWED, HALF_GORE}};
    assert_int_equal(styles_compare(&design, &compared, style), 4);
    assert_string_equal(style[3].name, "as designed");
    assert_string_equal(style[3].skill, style[BILLOWED].skill); /* the hardest of them */
    assert_true(style[3].figures.pieces > style[BILLOWED].figures.pieces &&
                style[3].figures.pieces < style[HALF_GORE].figures.pieces);
    assert_int_equal(style[0].figures.pieces, 128); /* the mix is not in the way of the three */
    design.gores.mix = (struct style_list){2, {HALF_GORE, HALF_GORE}};
    assert_int_equal(styles_compare(&design, &compared, style), 3);
}

/* The middle of a bulging panel is longer than its sides: a roll may be just too narrow. */
static void a_style_that_cannot_be_built_says_why_and_leaves_the_others(void **state) {
    (void)state;
    struct design design, compared;
    struct style_figures style[COMPARED_MOST];
    bool found = false;
    design_starter(&design);
    design.bulge.depth = 0.3;
    for (double width_m = 0.4; width_m < 1.2 && !found; width_m += 0.005) {
        design.cloth.width_m = width_m;
        styles_compare(&design, &compared, style);
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
    struct design design, compared, sized;
    struct style_figures style[COMPARED_MOST];
    struct diagnostics messages = {0};
    design_starter(&design);
    design.size.by = SIZE_LOAD;
    design.gores.style = HALF_GORE;
    struct envelope *own = flight_build(&design, &sized, &messages);
    assert_non_null(own);
    assert_int_equal(styles_compare(&design, &compared, style), 3);
    assert_int_equal(compared.size.by, SIZE_VOLUME);
    for (size_t i = 0; i < 3; i++)
        assert_close(style[i].figures.volume_m3, own->built.volume_m3, 0, 1e-6);
    assert_close(style[HALF_GORE].figures.cut_area_m2, own->built.cut_area_m2, 0, 1e-6);
    assert_true(style[HALF_GORE].mass_kg > style[FACETED].mass_kg);
    assert_true(style[HALF_GORE].needed_C > style[FACETED].needed_C);
    envelope_free(own);
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_three_styles_stand_at_the_size_asked_for),
        cmocka_unit_test(a_style_shows_what_the_design_alone_would_give),
        cmocka_unit_test(a_mix_stands_beside_the_three_between_the_least_and_the_most),
        cmocka_unit_test(a_style_that_cannot_be_built_says_why_and_leaves_the_others),
        cmocka_unit_test(sized_by_load_all_are_of_the_one_volume_the_design_asks_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
