/* test_cutting.c - the cloth there is to cut from: typed, shown, and what it is wide. */
#include "support.h"

#include <string.h>

#include "gorewright/design.h"

static struct design with(const char *key, const char *typed) {
    struct design d;
    struct diagnostics messages = {0};
    design_starter(&d);
    assert_int_equal(parameter_set(&d, (size_t)parameter_find(key), typed, &messages), 0);
    assert_int_equal(messages.count, 0);
    return d;
}

static void offcuts_are_typed_and_shown_as_letter_length_and_width(void **state) {
    (void)state;
    struct design d = with("cutting.offcuts", " W 2.4 1.1,R 3 ");
    struct text shown = {0};
    assert_int_equal(d.cutting.offcuts.count, 2);
    assert_int_equal(d.cutting.offcuts.value[0].letter, 'W');
    assert_close(d.cutting.offcuts.value[0].length_m, 2.4, 0, 0);
    assert_close(d.cutting.offcuts.value[0].width_m, 1.1, 0, 0);
    assert_close(d.cutting.offcuts.value[1].width_m, 0, 0, 0);
    parameter_show(&d, (size_t)parameter_find("cutting.offcuts"), &shown);
    assert_string_equal(shown.bytes, "W 2.4 1.1, R 3");
    text_free(&shown);
}

static void what_is_no_offcut_is_refused_and_changes_nothing(void **state) {
    (void)state;
    static const char *const typed[] = {"2.4",    "W",       "W x",      "WW 2",
                                        "W 0.01", "W 2 1 3", "W 2400 1", "W 2,1"};
    for (size_t i = 0; i < COUNT_OF(typed); i++) {
        struct design d = with("cutting.offcuts", "W 2"), before = d;
        struct diagnostics messages = {0};
        assert_int_equal(
            parameter_set(&d, (size_t)parameter_find("cutting.offcuts"), typed[i], &messages), -1);
        assert_int_equal(messages.errors, 1);
        assert_true(design_same(&d, &before));
        diagnostics_free(&messages);
    }
}

static void designs_that_differ_in_their_cloth_are_not_the_same(void **state) {
    (void)state;
    struct design one = with("cutting.bolts", "W 25 1.5"), other = with("cutting.bolts", "W 25");
    assert_false(design_same(&one, &other));
    assert_true(design_same(&one, &one));
    other = with("cutting.bolts", "W 25 1.5, W 25");
    assert_false(design_same(&one, &other));
}

static void a_cloth_is_as_wide_as_the_widest_of_its_bolts(void **state) {
    (void)state;
    struct design d = with("cutting.bolts", "W 25 0.9, R 10 2, W 5 1.2");
    struct cloth_colour cloth[CLOTHS_MOST];
    design_cloths(&d, cloth);
    assert_close(design_widest_m(&d, &cloth[0]), 1.2, 0, 0);
    d.cutting.bolts.value[2].width_m = 0; /* as wide as the cloth */
    assert_close(design_widest_m(&d, &cloth[0]), 1.5, 0, 0);
    d.cutting.bolts.count = 0;
    assert_close(design_widest_m(&d, &cloth[0]), 1.5, 0, 0);
}

static void a_price_left_out_is_that_of_the_group_cloth(void **state) {
    (void)state;
    struct design d = with("colours.cloths", "W white, R red / 1.2 / 0.04 / 7");
    struct cloth_colour cloth[CLOTHS_MOST];
    d.cloth.price_m = 4.5;
    assert_int_equal(design_cloths(&d, cloth), 2);
    assert_close(cloth[0].price_m, 4.5, 0, 0);
    assert_close(cloth[1].price_m, 7, 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(offcuts_are_typed_and_shown_as_letter_length_and_width),
        cmocka_unit_test(what_is_no_offcut_is_refused_and_changes_nothing),
        cmocka_unit_test(designs_that_differ_in_their_cloth_are_not_the_same),
        cmocka_unit_test(a_cloth_is_as_wide_as_the_widest_of_its_bolts),
        cmocka_unit_test(a_price_left_out_is_that_of_the_group_cloth),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
