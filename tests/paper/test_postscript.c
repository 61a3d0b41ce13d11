/* test_postscript.c - numbers, strings and lines as PostScript. */
#include <math.h>

#include "paper/postscript.h"
#include "paper/page_parts.h"
#include "paper/ghostscript.h"

/* ---- numbers ------------------------------------------------------------- */

static void expect_points(double points, const char *want) {
    struct text text = {0};
    ps_length(&text, points * POINT_M);
    assert_string_equal(text.bytes, want);
    text_free(&text);
}

static void lengths_are_plain_decimals_to_a_thousandth_of_a_point(void **state) {
    (void)state;
    expect_points(0, "0 ");
    expect_points(1, "1 ");
    expect_points(10, "10 ");
    expect_points(-12.5, "-12.5 ");
    expect_points(0.001, "0.001 ");
    expect_points(-0.0004, "0 ");
    expect_points(0.0006, "0.001 ");
    expect_points(14173.2286, "14173.229 ");
    expect_points(1e-12, "0 ");
    expect_points(100.05, "100.05 ");
}

static void ratios_keep_six_decimals(void **state) {
    (void)state;
    struct text text = {0};
    ps_ratio(&text, 180.0 / 174.6);
    ps_ratio(&text, 1);
    ps_ratio(&text, 0.95);
    assert_string_equal(text.bytes, "1.030928 1 0.95 ");
    text_free(&text);
}

/* ---- text ---------------------------------------------------------------- */

static void expect_literal(const char *utf8, const char *want) {
    struct text text = {0};
    ps_string(&text, utf8);
    assert_string_equal(text.bytes, want);
    text_free(&text);
}

static void strings_are_escaped(void **state) {
    (void)state;
    expect_literal("plain", "(plain) ");
    expect_literal("", "() ");
    expect_literal("a(b)c\\d", "(a\\(b\\)c\\\\d) ");
    expect_literal("%!PS", "(%!PS) ");
}

static void accents_become_latin_1_and_the_rest_a_question_mark(void **state) {
    (void)state;
    expect_literal("Gr\xC3\xB6\xC3\x9F"
                   "e",
                   "(Gr\\366\\337e) ");
    expect_literal("\xE2\x82\xAC 5", "(? 5) ");   /* euro */
    expect_literal("\xF0\x9F\x8E\x88!", "(?!) "); /* outside the first plane */
    expect_literal("a\tb\n", "(a?b?) ");          /* control characters */
    expect_literal("\xC2\x85", "(?) ");           /* and those of Latin-1 */
    expect_literal("x\xC3", "(x?) ");             /* cut short */
    expect_literal("\x80\xBF"
                   "x",
                   "(??x) "); /* stray */
    expect_literal("\xE2\x82"
                   "x",
                   "(?x) "); /* broken off */
}

static void long_strings_stay_on_short_lines(void **state) {
    (void)state;
    char utf8[401] = "";
    for (size_t i = 0; i < 200; i++)
        memcpy(utf8 + 2 * i, "\xC3\xA4", 3);
    struct text text = {0};
    ps_string(&text, utf8);
    for (const char *line = text.bytes; line != NULL; line = strchr(line, '\n')) {
        line += *line == '\n';
        assert_true(strcspn(line, "\n") < 250);
    }
    /* Nothing is lost: read back without the joins there are 200 letters. */
    size_t letters = 0;
    for (const char *at = text.bytes; (at = strstr(at, "\\344")) != NULL; at++)
        letters++;
    assert_int_equal(letters, 200);
    text_free(&text);
}

/* Ghostscript's own measure of a text, in the typefaces of our files. */
static double measured_by_ghostscript(enum face face, const char *utf8) {
    struct text ps = {0};
    ps_begin(&ps, &(struct ps_document){.title = "t", .width_m = 0.1, .height_m = 0.1, .pages = 1});
    text_add(&ps, face == FACE_BOLD ? "1000 b " : "1000 f ");
    ps_string(&ps, utf8);
    text_add(&ps, "stringwidth pop ==\n");
    char *out = shell("gs -q -dSAFER -dNODISPLAY -dBATCH -dNOPAUSE %s", keep(&ps));
    double width = strtod(out, NULL);
    free(out);
    text_free(&ps);
    return width;
}

static void text_is_as_wide_as_ghostscript_sets_it(void **state) {
    (void)state;
    static const char *const texts[] = {
        " !\"#$%&'*+,-./0123456789:;<=>?@", "ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_`",
        "abcdefghijklmnopqrstuvwxyz{|}~()\\",
        "\xC3\x84\xC3\x96\xC3\x9C\xC3\xA4\xC3\xB6\xC3\xBC\xC3\x9F\xC3\xA9\xC3\xB1\xC2\xB0\xC2\xBD"};
    for (enum face face = FACE_PLAIN; face <= FACE_BOLD; face++)
        for (size_t i = 0; i < COUNT_OF(texts); i++)
            assert_close(ps_text_width_m(face, 1000, texts[i]),
                         measured_by_ghostscript(face, texts[i]), 0.5, 0.0001);
}

static void type_shrinks_to_fit_but_not_below_half(void **state) {
    (void)state;
    double width_m = ps_text_width_m(FACE_PLAIN, 0.004, "some words");
    assert_close(ps_fitting_size_m(FACE_PLAIN, 0.004, 2 * width_m, "some words"), 0.004, 1e-12, 0);
    double size_m = ps_fitting_size_m(FACE_PLAIN, 0.004, 0.7 * width_m, "some words");
    assert_close(ps_text_width_m(FACE_PLAIN, size_m, "some words"), 0.7 * width_m, 1e-6, 0);
    assert_close(ps_fitting_size_m(FACE_PLAIN, 0.004, 0.1 * width_m, "some words"), 0.002, 1e-12,
                 0);
}

/* ---- lines --------------------------------------------------------------- */

enum { POINTS = 4000 };

/* The corners a ring was written with.  Returns: how many. */
static size_t corners_of(const char *ps, struct flat_point *corner, size_t *strokes) {
    size_t count = 0;
    *strokes = 0;
    for (const char *at = ps; *at != '\0';) {
        double x, y;
        char word[16];
        int used = 0;
        if (sscanf(at, "%lf %lf %15s%n", &x, &y, word, &used) == 3) {
            corner[count++] = (struct flat_point){x * POINT_M, y * POINT_M};
            *strokes += strcmp(word, "again") == 0;
            at += used;
        } else {
            at++;
        }
    }
    return count;
}

static double distance_from(struct flat_point p, struct flat_point a, struct flat_point b) {
    double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m, length2 = dx * dx + dy * dy;
    double t = length2 > 0 ? ((p.x_m - a.x_m) * dx + (p.y_m - a.y_m) * dy) / length2 : 0;
    t = fmax(0, fmin(1, t));
    return hypot(p.x_m - a.x_m - t * dx, p.y_m - a.y_m - t * dy);
}

/* A ring of fine steps about an ellipse. */
static size_t ellipse(struct flat_point *point, double a_m, double b_m, size_t count) {
    for (size_t i = 0; i < count; i++) {
        double angle = 2 * PI * (double)i / (double)count;
        point[i] = (struct flat_point){a_m * cos(angle), b_m * sin(angle)};
    }
    return count;
}

static void thinned_curves_stay_within_a_fiftieth_of_a_millimetre(void **state) {
    (void)state;
    static struct flat_point point[POINTS], corner[POINTS];
    struct text text = {0};
    struct ring ring = {.point = point, .count = ellipse(point, 0.6, 0.3, 1000)};
    ps_ring(&text, &ring);
    size_t strokes, corners = corners_of(text.bytes, corner, &strokes);
    assert_true(corners < 400); /* it was worth it */
    corner[corners] = corner[0];
    for (size_t i = 0; i < ring.count; i++) {
        double nearest_m = HUGE_VAL;
        for (size_t j = 0; j < corners; j++)
            nearest_m = fmin(nearest_m, distance_from(point[i], corner[j], corner[j + 1]));
        assert_true(nearest_m <= 0.0000205); /* and the rounding of the numbers */
    }
    text_free(&text);
}

static void straight_edges_keep_only_their_corners(void **state) {
    (void)state;
    static struct flat_point point[40], corner[40];
    for (size_t i = 0; i < 40; i++) {
        double t = (double)(i % 10) / 10;
        const double x[] = {t, 1, 1 - t, 0}, y[] = {0, t, 1, 1 - t};
        point[i] = (struct flat_point){x[i / 10], y[i / 10]};
    }
    struct text text = {0};
    ps_ring(&text, &(struct ring){.point = point, .count = 40});
    size_t strokes;
    assert_int_equal(corners_of(text.bytes, corner, &strokes), 4);
    text_free(&text);
}

static void a_long_line_is_stroked_every_400_points_and_closed(void **state) {
    (void)state;
    static struct flat_point point[POINTS], corner[POINTS];
    struct text text = {0};
    struct ring ring = {.point = point, .count = ellipse(point, 40, 20, 2000)};
    ps_ring(&text, &ring); /* so large that no point is spared */
    size_t strokes, corners = corners_of(text.bytes, corner, &strokes);
    assert_int_equal(corners, 2001);
    assert_int_equal(strokes, 4);
    assert_close(corner[corners - 1].x_m, corner[0].x_m, 1e-12, 0);
    text_free(&text);
}

static void a_long_text_is_cut_with_dots_to_its_width(void **state) {
    (void)state;
    static const char words[] = "gr\xC3\xBC"
                                "n with a stripe";
    char cut[LATIN_MOST];
    double whole_m = ps_text_width_m(FACE_PLAIN, 0.003, words);
    assert_string_equal(ps_cut(FACE_PLAIN, 0.003, whole_m, words, cut), words);
    for (double width_m = 0.005; width_m < whole_m; width_m += 0.0007) {
        ps_cut(FACE_PLAIN, 0.003, width_m, words, cut);
        size_t length = strlen(cut);
        assert_true(ps_text_width_m(FACE_PLAIN, 0.003, cut) <= width_m + 1e-9);
        assert_string_equal(cut + length - 3, "...");
        assert_memory_equal(cut, words, length - 3);
        assert_true(length < 4 || cut[length - 4] != '\xC3'); /* no half of a letter */
        /* A wide letter and a blank more would not have fitted. */
        assert_true(ps_text_width_m(FACE_PLAIN, 0.003, cut) > width_m - 0.0035);
    }
}

static void words_are_broken_into_lines_and_the_last_is_cut(void **state) {
    (void)state;
    static const char words[] = "signal orange with a pale violet stripe along the grain";
    char line[4][LATIN_MOST];
    size_t lines = break_lines(FACE_PLAIN, 0.003, 0.03, words, 4, line);
    char again[256] = "";
    assert_in_range(lines, 2, 4);
    for (size_t i = 0; i < lines; i++) {
        assert_true(ps_text_width_m(FACE_PLAIN, 0.003, line[i]) <= 0.03);
        strcat(strcat(again, i > 0 ? " " : ""), line[i]);
    }
    assert_string_equal(again, words);
    assert_int_equal(break_lines(FACE_PLAIN, 0.003, 0.03, words, 1, line), lines);
    assert_string_equal(line[0] + strlen(line[0]) - 3, "...");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_long_text_is_cut_with_dots_to_its_width),
        cmocka_unit_test(words_are_broken_into_lines_and_the_last_is_cut),
        cmocka_unit_test(lengths_are_plain_decimals_to_a_thousandth_of_a_point),
        cmocka_unit_test(ratios_keep_six_decimals),
        cmocka_unit_test(strings_are_escaped),
        cmocka_unit_test(accents_become_latin_1_and_the_rest_a_question_mark),
        cmocka_unit_test(long_strings_stay_on_short_lines),
        cmocka_unit_test(text_is_as_wide_as_ghostscript_sets_it),
        cmocka_unit_test(type_shrinks_to_fit_but_not_below_half),
        cmocka_unit_test(thinned_curves_stay_within_a_fiftieth_of_a_millimetre),
        cmocka_unit_test(straight_edges_keep_only_their_corners),
        cmocka_unit_test(a_long_line_is_stroked_every_400_points_and_closed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
