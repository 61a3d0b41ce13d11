/* Numbers and units on the pages about flight. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "support.h"

#include "paper/quantities.h"

static void a_number_is_shown_in_three_figures_or_whole(void **state) {
    (void)state;
    static const struct {
        double value;
        const char *words;
    } cases[] = {{0, "0"},         {1, "1.00"},          {0.5, "0.500"},    {0.012345, "0.0123"},
                 {9.994, "9.99"},  {9.996, "10.0"},      {99.96, "100"},    {123.4, "123"},
                 {1234.4, "1234"}, {0.9996, "1.00"},     {-2.345, "-2.35"}, {1e-9, "0"},
                 {-1e-9, "0"},     {HUGE_VAL, "-"},      {-HUGE_VAL, "-"},  {(double)NAN, "-"},
                 {1e20, "-"},      {0.00012, "0.000120"}};
    char number[SHOWN_MOST];
    for (size_t i = 0; i < COUNT_OF(cases); i++)
        assert_string_equal(three_figures(cases[i].value, number), cases[i].words);
}

static void an_estimate_is_shown_in_two_figures_at_any_size(void **state) {
    (void)state;
    static const struct {
        double value;
        const char *words;
    } cases[] = {{0.516, "0.52"}, {6.54, "6.5"},   {9.96, "10"},       {38.7, "39"},
                 {99.4, "99"},    {99.6, "100"},   {341.2, "340"},     {136486, "140000"},
                 {0, "0"},        {HUGE_VAL, "-"}, {(double)NAN, "-"}, {0.0451, "0.045"}};
    char number[SHOWN_MOST];
    for (size_t i = 0; i < COUNT_OF(cases); i++)
        assert_string_equal(two_figures(cases[i].value, number), cases[i].words);
}

/* Exact by definition: a pound 0.45359237 kg, an inch 0.0254 m; 0 C is 32 F, 100 C 212 F. */
static void units_are_those_of_the_page(void **state) {
    (void)state;
    struct design design;
    char words[SHOWN_MOST];
    design_starter(&design);
    assert_string_equal(show_with_unit(&design, MASS, 1.2345, words), "1235 g");
    assert_string_equal(show_with_unit(&design, TEMPERATURE, 373.15, words), "100 C");
    assert_string_equal(show_with_unit(&design, HEIGHT, 2.5, words), "2.50 m");
    assert_string_equal(show_with_unit(&design, POWER, 40e3, words), "40.0 kW");
    assert_string_equal(show_with_unit(&design, GAS_PRESSURE, 836e3, words), "836 kPa");
    design.paper.units = UNITS_INCH;
    assert_string_equal(show_with_unit(&design, MASS, 0.45359237, words), "1.00 lb");
    assert_string_equal(show_with_unit(&design, TEMPERATURE, 373.15, words), "212 F");
    assert_string_equal(show_with_unit(&design, TEMPERATURE, 273.15, words), "32 F");
    assert_string_equal(show_with_unit(&design, WARMTH, 10, words), "18 F");
    assert_string_equal(show_with_unit(&design, HEIGHT, 3.048, words), "10.0 ft");
    assert_string_equal(show_with_unit(&design, GAS_PRESSURE, 101325, words), "14.7 psi");
    assert_string_equal(show_with_unit(&design, SPEED, 4.4704, words), "10.0 mph");
    assert_string_equal(show_with_unit(&design, FORCE, 4.4482216152605, words), "1.00 lbf");
    assert_string_equal(show_with_unit(&design, FLUX, 3.15459, words), "1.00 BTU/h ft2");
    assert_string_equal(show_with_unit(&design, POWER, 293.07107, words), "1000 BTU/h");
}

static void a_spread_says_both_ends_or_the_one_there_is(void **state) {
    (void)state;
    struct design design;
    char words[SPREAD_MOST];
    design_starter(&design);
    assert_string_equal(show_spread(&design, POWER, (struct spread){6540, 10660}, words),
                        "6.5 to 11 kW");
    assert_string_equal(show_spread(&design, POWER, (struct spread){6540, 6541}, words), "6.5 kW");
    assert_string_equal(show_spread(&design, POWER, (struct spread){6540, HUGE_VAL}, words),
                        "at least 6.5 kW");
    assert_string_equal(show_spread(&design, POWER, (struct spread){HUGE_VAL, HUGE_VAL}, words),
                        "-");
    assert_string_equal(show_spread(&design, TEMPERATURE, (struct spread){313.2, 325.4}, words),
                        "40 to 52 C");
}

/* The printed total of one side, what its printed items add up to, and the items at most one
 * step from themselves. */
static void check_side(const struct design *design, const struct masses *masses,
                       const struct masses *printed, bool carried) {
    char number[SHOWN_MOST];
    double step = design->paper.units == UNITS_INCH ? 0.01 : 1, all_kg = 0, sum = 0;
    for (size_t i = 0; i < masses->count; i++)
        if (masses->item[i].carried == carried) {
            double shown = strtod(show(design, MASS, printed->item[i].kg, number), NULL);
            assert_close(shown, in_page_units(design, MASS, masses->item[i].kg), step, 0);
            all_kg += masses->item[i].kg;
            sum += shown;
        }
    double total =
        strtod(show(design, MASS, carried ? printed->rig_kg : printed->envelope_kg, number), NULL);
    assert_close(total, sum, 1e-9, 0);
    assert_close(total, in_page_units(design, MASS, all_kg), 0.5 * step + 1e-9, 0);
}

static void printed_masses_add_up_to_the_printed_totals_of_the_true_ones(void **state) {
    (void)state;
    struct dice dice = {61};
    for (int round = 0; round < 200; round++) {
        struct design design;
        struct masses masses = {.count = (size_t)dice_whole(&dice, 0, MASS_ITEMS_MOST)};
        char number[SHOWN_MOST];
        design_starter(&design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        for (size_t i = 0; i < masses.count; i++) {
            masses.item[i].carried = dice_whole(&dice, 0, 1) == 1;
            masses.item[i].kg = dice_between(&dice, 0, 2);
        }
        struct masses printed = printed_masses(&design, &masses);
        check_side(&design, &masses, &printed, true);
        check_side(&design, &masses, &printed, false);
        assert_close(strtod(show(&design, MASS, printed.all_kg, number), NULL),
                     in_page_units(&design, MASS, printed.envelope_kg) +
                         in_page_units(&design, MASS, printed.rig_kg),
                     1e-9, 0);
    }
}

/* Four of 1.4 g are 5.6 g: two of them, and none that is whole, are printed a gram up. */
static void only_what_was_rounded_most_takes_a_further_step(void **state) {
    (void)state;
    struct design design;
    struct masses masses = {
        .count = 5,
        .item = {{.kg = 0.0014}, {.kg = 0.0014}, {.kg = 0.005}, {.kg = 0.0014}, {.kg = 0.0014}}};
    design_starter(&design);
    struct masses printed = printed_masses(&design, &masses);
    assert_close(printed.envelope_kg, 0.011, 1e-12, 0);
    assert_close(printed.item[2].kg, 0.005, 1e-12, 0);
    assert_close(printed.item[0].kg, 0.002, 1e-12, 0);
    assert_close(printed.item[4].kg, 0.001, 1e-12, 0);
}

/* Three of 1.4 g are 4.2 g, and 4.4 g of typed ones: what was not typed takes the step. */
static void what_was_weighed_takes_a_step_only_after_all_else(void **state) {
    (void)state;
    struct design design;
    struct masses masses = {.count = 4,
                            .item = {{.kg = 0.0014, .weighed = true},
                                     {.kg = 0.0013},
                                     {.kg = 0.0014, .weighed = true},
                                     {.kg = 0.0014, .weighed = true}}};
    design_starter(&design);
    struct masses printed = printed_masses(&design, &masses); /* 5.5 g */
    assert_close(printed.envelope_kg, 0.006, 1e-12, 0);
    assert_close(printed.item[1].kg, 0.002, 1e-12, 0);
    assert_close(printed.item[0].kg, 0.002, 1e-12, 0); /* the one computed was not enough */
    assert_close(printed.item[2].kg, 0.001, 1e-12, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_number_is_shown_in_three_figures_or_whole),
        cmocka_unit_test(an_estimate_is_shown_in_two_figures_at_any_size),
        cmocka_unit_test(units_are_those_of_the_page),
        cmocka_unit_test(a_spread_says_both_ends_or_the_one_there_is),
        cmocka_unit_test(printed_masses_add_up_to_the_printed_totals_of_the_true_ones),
        cmocka_unit_test(only_what_was_rounded_most_takes_a_further_step),
        cmocka_unit_test(what_was_weighed_takes_a_step_only_after_all_else),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
