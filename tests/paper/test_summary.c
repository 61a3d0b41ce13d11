/* The summary: one screen, every figure in it. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"
#include "support.h"

static struct text summary_of(const struct design *design, const struct envelope *envelope) {
    struct text text = {0};
    write_summary(design, envelope, &text);
    assert_false(text.failed);
    return text;
}

static struct text summary_built(const struct design *design) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(design, &messages);
    assert_non_null(envelope);
    struct text text = summary_of(design, envelope);
    diagnostics_free(&messages);
    envelope_free(envelope);
    return text;
}

static void assert_says(const struct text *text, const char *words) {
    if (strstr(text->bytes, words) == NULL)
        fail_msg("\"%s\" is not in:\n%s", words, text->bytes);
}

static void check_screen(const struct text *text) {
    size_t lines = 0;
    for (const char *line = text->bytes; *line != '\0'; lines++) {
        size_t width = strcspn(line, "\n");
        assert_int_equal(line[width], '\n');
        if (width > 79)
            fail_msg("too wide: %.*s", (int)width, line);
        for (size_t i = 0; i < width; i++)
            assert_true(line[i] >= ' ' && line[i] <= '~');
        line += width + 1;
    }
    assert_true(lines <= 24);
    assert_null(strstr(text->bytes, "nan"));
    assert_null(strstr(text->bytes, "inf "));
    assert_null(strchr(text->bytes, '?'));
}

static void it_fits_one_screen_for_any_design(void **state) {
    (void)state;
    struct dice dice = {21};
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        design.paper.inch_fraction = INCH_64;
        design.paper.rounding_m = 0.0001;
        struct text text = summary_of(&design, envelope);
        check_screen(&text);
        text_free(&text);
        envelope_free(envelope);
    }
}

static void the_largest_envelope_still_fits_one_screen(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.size.volume_m3 = 15000;
    design.gores.count = GORES_MOST;
    design.gores.mix = (struct style_list){4, {FACETED, HALF_GORE, BILLOWED, BILLOWED}};
    design.rows.count = ROWS_MOST;
    design.cloth.width_m = 5;
    design.paper.units = UNITS_INCH;
    design.paper.inch_fraction = INCH_64;
    memset(design.name, 'w', TEXT_MOST - 1);
    struct text text = summary_built(&design);
    check_screen(&text);
    text_free(&text);
    design.air.ground_C = -60; /* the longest figures of flight */
    design.air.inside_C = design.cloth.hottest_C = 250;
    design.rig.others.count = ITEMS_MOST;
    for (size_t i = 0; i < ITEMS_MOST; i++)
        design.rig.others.value[i].mass_kg = 500;
    text = summary_built(&design);
    check_screen(&text);
    text_free(&text);
}

static void it_says_what_the_starter_gives(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(&design, &messages);
    assert_non_null(envelope);
    struct text text = summary_of(&design, envelope);
    char words[96];
    assert_memory_equal(text.bytes, "Starter\n", 8);
    assert_says(&text, "12.000 m3");
    snprintf(words, sizeof words, "Height          %.3f m from the mouth",
             envelope->built.height_m);
    assert_says(&text, words);
    snprintf(words, sizeof words, "%.3f m at the tapes, %.3f m at mid-gore\n",
             envelope->built.max_diameter_m, envelope->built.mid_diameter_m);
    assert_says(&text, words);
    snprintf(words, sizeof words, "%zu rows are the fewest that fit this cloth",
             fewest_rows(&design));
    assert_says(&text, words);
    assert_says(&text, "mouth 600.0 mm, crown 500.0 mm");
    assert_says(&text, "16, all faceted");
    assert_says(&text, "128 to cut, from 8 templates");
    assert_says(&text, "none of it curved");
    text_free(&text);
    diagnostics_free(&messages);
    envelope_free(envelope);
}

/* Then gores, not rows, are what the cloth's width limits. */
static void the_fewest_rows_are_not_told_when_the_warp_runs_up(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.cloth.warp = WARP_UP;
    struct text text = summary_built(&design);
    assert_says(&text, "Rows            8");
    assert_null(strstr(text.bytes, "fewest"));
    text_free(&text);
}

static void lengths_of_a_metre_and_more_are_in_metres(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.outline.crown_diameter_m = 1.0;
    design.outline.mouth_diameter_m = 0.9995;
    struct text text = summary_built(&design);
    assert_says(&text, "mouth 999.5 mm, crown 1.000 m, from");
    text_free(&text);
}

static void the_diameter_at_mid_gore_of_a_mixed_envelope_is_the_most_of_them(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.gores.mix = (struct style_list){2, {FACETED, BILLOWED}};
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(&design, &messages);
    assert_non_null(envelope);
    struct text text = summary_of(&design, envelope);
    char words[64];
    snprintf(words, sizeof words, "at the tapes, at most %.3f m at mid-gore\n",
             envelope->built.mid_diameter_m);
    assert_says(&text, words);
    text_free(&text);
    diagnostics_free(&messages);
    envelope_free(envelope);
    design.gores.mix.count = 0;
    text = summary_built(&design);
    assert_null(strstr(text.bytes, "at most 3"));
    text_free(&text);
}

/* 1.48 m between the selvedges; never less than the pieces themselves cover, and at
 * most a tenth of a metre or of a foot more. */
static void the_roll_to_buy_holds_the_area_of_the_pieces(void **state) {
    (void)state;
    for (int units = UNITS_MM; units <= UNITS_INCH; units++) {
        struct design design;
        design_starter(&design);
        design.paper.units = units;
        struct diagnostics messages = {0};
        struct envelope *envelope = envelope_build(&design, &messages);
        assert_non_null(envelope);
        struct text text = summary_of(&design, envelope);
        const char *line = strstr(text.bytes, "Cloth to buy    at least ");
        assert_non_null(line);
        double roll = 0, unit_m = units == UNITS_INCH ? 0.3048 : 1;
        assert_int_equal(sscanf(line, "Cloth to buy    at least %lf", &roll), 1);
        double spare_m2 = roll * unit_m * 1.48 - envelope->built.cut_area_m2;
        assert_true(spare_m2 > -1e-9 && spare_m2 < 0.1 * unit_m * 1.48);
        assert_says(&text, units == UNITS_INCH ? " ft of a 59 1/16 in roll by area"
                                               : " m of a 1.5 m roll by area");
        text_free(&text);
        diagnostics_free(&messages);
        envelope_free(envelope);
    }
}

static void a_mixed_envelope_counts_its_gores_by_style(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.gores.mix = (struct style_list){4, {FACETED, BILLOWED, BILLOWED, HALF_GORE}};
    struct text text = summary_built(&design);
    assert_says(&text, "16: 4 faceted, 4 half-gore, 8 billowed\n");
    assert_says(&text, " m of it curved; hems: mouth ");
    text_free(&text);
}

static void inches_come_with_feet_and_pounds(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.paper.units = UNITS_INCH;
    struct text text = summary_built(&design);
    assert_says(&text, "12.000 m3 (423.78 cubic feet)"); /* a foot is 0.3048 m exactly */
    assert_says(&text, " in at the tapes");
    assert_says(&text, " ft high, ");
    assert_says(&text, " ft, row ");
    assert_says(&text, " square feet, ");
    assert_null(strstr(text.bytes, " mm"));
    text_free(&text);
}

static void it_claims_no_strength_and_says_what_comes_next(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct text text = summary_built(&design);
    assert_says(&text, "no proof of strength");
    assert_says(&text, "fitness to fly");
    assert_says(&text, "`flight`");
    assert_says(&text, "`sheets`");
    assert_says(&text, "`templates`");
    text_free(&text);
}

static void it_says_whether_it_floats(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct text text = summary_built(&design);
    assert_says(&text,
                "Flight          lifts 3.35 kg at 100 C; 2.85 kg float at 84 C, 36 to spare on\n"
                "                the mean\n");
    text_free(&text);
    design.rig.basket_kg = 3.2;
    text = summary_built(&design);
    assert_says(&text, "; 5.85 kg float at 205 C, TOO HOT\n");
    text_free(&text);
    design.rig.basket_kg = 500;
    text = summary_built(&design);
    assert_says(&text, " float at no heat\n");
    check_screen(&text);
    text_free(&text);
}

/* The three kinds, printed, make up the whole, printed. */
static void seams_add_up_as_they_are_printed(void **state) {
    (void)state;
    struct dice dice = {22};
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        struct text text = summary_of(&design, envelope);
        static const char *const words[] = {"Seams           ", ": tape ", ", row ", ", ridge "};
        double number[COUNT_OF(words)];
        const char *at = text.bytes;
        for (size_t k = 0; k < COUNT_OF(words); k++) {
            at = strstr(at, words[k]);
            assert_non_null(at);
            at += strlen(words[k]);
            number[k] = strtod(at, NULL);
        }
        assert_close(number[1] + number[2] + number[3], number[0], 1e-9, 0);
        text_free(&text);
        envelope_free(envelope);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(seams_add_up_as_they_are_printed),
        cmocka_unit_test(it_fits_one_screen_for_any_design),
        cmocka_unit_test(the_largest_envelope_still_fits_one_screen),
        cmocka_unit_test(it_says_what_the_starter_gives),
        cmocka_unit_test(the_fewest_rows_are_not_told_when_the_warp_runs_up),
        cmocka_unit_test(lengths_of_a_metre_and_more_are_in_metres),
        cmocka_unit_test(the_diameter_at_mid_gore_of_a_mixed_envelope_is_the_most_of_them),
        cmocka_unit_test(the_roll_to_buy_holds_the_area_of_the_pieces),
        cmocka_unit_test(a_mixed_envelope_counts_its_gores_by_style),
        cmocka_unit_test(inches_come_with_feet_and_pounds),
        cmocka_unit_test(it_claims_no_strength_and_says_what_comes_next),
        cmocka_unit_test(it_says_whether_it_floats),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
