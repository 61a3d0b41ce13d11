/* test_paper_sizes.c - the builder's word for a paper, and its size. */
#include <string.h>

#include "gorewright/paper.h"
#include "support.h"

static const struct known_size {
    const char *text;
    double width, height, unit_m;
} known_sizes[] = {
    /* ISO 216 [mm] */
    {"A4", 210, 297, 0.001},
    {"A3", 297, 420, 0.001},
    {"A2", 420, 594, 0.001},
    {"A1", 594, 841, 0.001},
    {"A0", 841, 1189, 0.001},
    /* ISO 216, from memory: checked below by the standard's own rule as well */
    {"A5", 148, 210, 0.001},
    {"A6", 105, 148, 0.001},
    {"B0", 1000, 1414, 0.001},
    {"B1", 707, 1000, 0.001},
    {"B2", 500, 707, 0.001},
    {"B3", 353, 500, 0.001},
    {"B4", 250, 353, 0.001},
    {"B5", 176, 250, 0.001},
    /* ANSI Y14.1 [in] */
    {"Letter", 8.5, 11, 0.0254},
    {"Tabloid", 11, 17, 0.0254},
    {"ANSI A", 8.5, 11, 0.0254},
    {"ANSI B", 11, 17, 0.0254},
    {"ANSI C", 17, 22, 0.0254},
    {"ANSI D", 22, 34, 0.0254},
    {"ANSI E", 34, 44, 0.0254},
    /* office names, common practice, no source */
    {"Legal", 8.5, 14, 0.0254},
    {"Ledger", 17, 11, 0.0254},
    /* as stated */
    {"500x700mm", 500, 700, 0.001},
    {"21.0x29.7cm", 21, 29.7, 0.01},
    {"20x30in", 20, 30, 0.0254},
    {"8.5x11in", 8.5, 11, 0.0254},
    {"700x500mm", 700, 500, 0.001},
    {"roll 914mm", 914, 0, 0.001},
    {"roll 36in", 36, 0, 0.0254},
    {"roll 61cm", 61, 0, 0.01},
};

static void every_named_and_stated_size_is_found(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(known_sizes); i++) {
        struct diagnostics messages = {0};
        struct paper paper;
        assert_int_equal(paper_find(known_sizes[i].text, &paper, &messages), 0);
        assert_close(paper.width_m, known_sizes[i].width * known_sizes[i].unit_m, 1e-9, 0);
        assert_close(paper.height_m, known_sizes[i].height * known_sizes[i].unit_m, 1e-9, 0);
        assert_int_equal(messages.count, 0);
        assert_true(strlen(paper.name) > 0);
        diagnostics_free(&messages);
    }
}

/* ISO 216: each size is the one before it cut in half across, rounded down to a millimetre. */
static void each_iso_size_is_half_the_one_before(void **state) {
    (void)state;
    const char *const series[][7] = {{"A0", "A1", "A2", "A3", "A4", "A5", "A6"},
                                     {"B0", "B1", "B2", "B3", "B4", "B5", NULL}};
    for (size_t s = 0; s < COUNT_OF(series); s++) {
        for (size_t i = 0; i + 1 < 7 && series[s][i + 1] != NULL; i++) {
            struct diagnostics messages = {0};
            struct paper whole, half;
            assert_int_equal(paper_find(series[s][i], &whole, &messages), 0);
            assert_int_equal(paper_find(series[s][i + 1], &half, &messages), 0);
            assert_close(half.height_m, whole.width_m, 1e-9, 0);
            assert_close(half.width_m, whole.height_m / 2, 0.00051, 0);
            assert_true(half.width_m <= whole.height_m / 2 + 1e-9);
        }
    }
}

static void case_and_blanks_do_not_matter(void **state) {
    (void)state;
    static const char *const same[][2] = {
        {"a4", "A4"},
        {" LETTER ", "Letter"},
        {"ansid", "ANSI D"},
        {"Ansi  d", "ANSI D"},
        {"500 X 700 MM", "500x700mm"},
        {"ROLL36in", "roll 36in"},
        {"roll 36 IN", "roll 36in"},
        {"20\xC3\x97"
         "30in",
         "20x30in"},
    };
    for (size_t i = 0; i < COUNT_OF(same); i++) {
        struct diagnostics messages = {0};
        struct paper one, other;
        assert_int_equal(paper_find(same[i][0], &one, &messages), 0);
        assert_int_equal(paper_find(same[i][1], &other, &messages), 0);
        assert_close(one.width_m, other.width_m, 1e-12, 0);
        assert_close(one.height_m, other.height_m, 1e-12, 0);
    }
}

static void expect_refused(const char *text, const char *code, const char *must_say) {
    struct diagnostics messages = {0};
    struct paper paper;
    assert_int_equal(paper_find(text, &paper, &messages), -1);
    assert_int_equal(messages.errors, 1);
    assert_string_equal(messages.item[0].code, code);
    assert_string_equal(messages.item[0].key, "paper.sheet");
    assert_non_null(strstr(messages.item[0].text, must_say));
    diagnostics_free(&messages);
}

static void what_is_no_paper_is_refused_with_the_names_there_are(void **state) {
    (void)state;
    static const char *const wrong[] = {"A7",       "",          "A44",          "sheet",
                                        "x700mm",   "500mm",     "500x700mmm",   "-5x7in",
                                        "roll",     "rolls",     "rolling 36in", "5e2x7e2mm",
                                        "0x10x7in", "nanxinfmm", "1.2.3x5in",    "ANSI"};
    for (size_t i = 0; i < COUNT_OF(wrong); i++)
        expect_refused(wrong[i], "paper-unknown", "roll 914mm");
    expect_refused("500x700", "paper-unknown", "does not say its unit; add mm, cm or in");
    expect_refused("roll 36", "paper-unknown", "does not say its unit; add mm, cm or in");
}

static void sides_outside_90_mm_to_5_m_are_refused(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    struct paper paper;
    assert_int_equal(paper_find("90x5000mm", &paper, &messages), 0);
    assert_int_equal(paper_find("roll 5000mm", &paper, &messages), 0);
    expect_refused("89x200mm", "paper-size", "90 mm to 5000 mm");
    expect_refused("200x89mm", "paper-size", "90 mm to 5000 mm");
    expect_refused("200x5001mm", "paper-size", "90 mm to 5000 mm");
    expect_refused("200x0mm", "paper-size", "90 mm to 5000 mm");
    expect_refused("roll 89mm", "paper-size", "90 mm to 5000 mm");
    expect_refused("999999999999x200mm", "paper-size", "90 mm to 5000 mm");
}

static int checked(const struct design *design) {
    struct diagnostics messages = {0};
    int status = paper_check(design, &messages);
    diagnostics_free(&messages);
    return status;
}

/* What is said beforehand of a reading is what is accepted afterwards. */
static void the_cross_says_which_readings_can_be_corrected(void **state) {
    (void)state;
    static const char *const sheets[] = {"A4", "A3", "Letter", "roll 914mm"};
    for (int units = UNITS_MM; units <= UNITS_INCH; units++)
        for (size_t i = 0; i < COUNT_OF(sheets); i++) {
            struct design design;
            struct paper_cross cross, measured;
            design_starter(&design);
            design.paper.units = units;
            strcpy(design.paper.sheet, sheets[i]);
            assert_int_equal(paper_cross(&design, &cross), 0);
            for (int up = 0; up < 2; up++) {
                double *read_m = up ? &design.paper.measured_up_m : &design.paper.measured_across_m;
                double length_m = up ? cross.up_m : cross.across_m;
                assert_true(length_m > 0.1);
                for (int far = 0; far < 2; far++) {
                    double beyond = far * 1e-6;
                    *read_m = length_m * (cross.least - beyond + 1e-9);
                    assert_int_equal(checked(&design), far ? -1 : 0);
                    *read_m = length_m * (cross.most + beyond - 1e-9);
                    assert_int_equal(checked(&design), far ? -1 : 0);
                }
                assert_int_equal(paper_cross(&design, &measured), 0); /* whatever was read */
                assert_close(up ? measured.up_m : measured.across_m, length_m, 0, 0);
                *read_m = 0;
            }
        }
    struct design design;
    struct paper_cross cross;
    design_starter(&design);
    strcpy(design.paper.sheet, "napkin");
    assert_int_equal(paper_cross(&design, &cross), -1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_named_and_stated_size_is_found),
        cmocka_unit_test(each_iso_size_is_half_the_one_before),
        cmocka_unit_test(case_and_blanks_do_not_matter),
        cmocka_unit_test(what_is_no_paper_is_refused_with_the_names_there_are),
        cmocka_unit_test(sides_outside_90_mm_to_5_m_are_refused),
        cmocka_unit_test(the_cross_says_which_readings_can_be_corrected),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
