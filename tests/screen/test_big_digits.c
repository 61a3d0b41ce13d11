/* test_big_digits.c - figures in dots: told apart, and drawn where they say. */
#include "support.h"

#include <stdlib.h>
#include <string.h>

#include "screen/big_digits.h"

static const char letters[] = "0123456789./-?min";

static struct canvas blank(size_t columns, size_t rows) {
    struct canvas canvas = {columns, rows, malloc(columns * rows * sizeof(struct cell))};
    assert_non_null(canvas.cell);
    canvas_clear(&canvas);
    return canvas;
}

static const struct big_size dots = {1, 1, 1};

/* Dots in which two signs differ when laid over each other. */
static int difference(char a, char b) {
    struct canvas one = blank(8, BIG_DOTS_TALL), other = blank(8, BIG_DOTS_TALL);
    char text[2] = {a, '\0'};
    int count = 0;
    big_draw(&one, 0, 0, dots, CELL_LIT, text);
    text[0] = b;
    big_draw(&other, 0, 0, dots, CELL_LIT, text);
    for (size_t i = 0; i < one.columns * one.rows; i++)
        count += one.cell[i].glyph != other.cell[i].glyph;
    free(one.cell);
    free(other.cell);
    return count;
}

static void digits_often_mistaken_differ_in_five_dots_or_more(void **state) {
    (void)state;
    static const char pairs[][2] = {{'1', '7'}, {'6', '8'}, {'0', '8'}, {'5', '6'}, {'3', '8'},
                                    {'9', '8'}, {'0', '6'}, {'0', '9'}, {'1', '/'}, {'7', '/'}};
    for (size_t i = 0; i < COUNT_OF(pairs); i++)
        assert_true(difference(pairs[i][0], pairs[i][1]) >= 5);
}

static void every_two_signs_differ(void **state) {
    (void)state;
    for (const char *a = letters; *a != '\0'; a++)
        for (const char *b = a + 1; *b != '\0'; b++)
            assert_true(difference(*a, *b) >= (strchr("0123456789", *b) != NULL ? 4 : 2));
}

static void what_there_is_no_sign_for_shows_as_a_question(void **state) {
    (void)state;
    assert_int_equal(difference('x', '?'), 0);
    assert_true(difference('5', '?') > 0);
}

/* Columns that hold ink, the last one plus one. */
static long inked_columns(const struct canvas *canvas) {
    long last = 0;
    for (size_t i = 0; i < canvas->columns * canvas->rows; i++)
        if (canvas->cell[i].kind != CELL_BLANK && (long)(i % canvas->columns) >= last)
            last = (long)(i % canvas->columns) + 1;
    return last;
}

static void a_figure_takes_the_columns_it_says_in_every_size(void **state) {
    (void)state;
    static const char *const figures[] = {"0",       "612.5",     "1234.5", "-87.0",
                                          "24 3/32", "124 31/64", "7/16",   "48"};
    const struct big_size *sizes;
    size_t count = big_sizes(&sizes);
    for (size_t i = 0; i < COUNT_OF(figures); i++)
        for (size_t s = 0; s < count; s++) {
            struct canvas canvas = blank(400, 24);
            big_draw(&canvas, 0, 0, sizes[s], CELL_LIT, figures[i]);
            assert_int_equal(inked_columns(&canvas), big_columns(figures[i], sizes[s]));
            free(canvas.cell);
        }
}

static void usual_figures_find_room_in_80_columns_with_dots_two_wide(void **state) {
    (void)state;
    static const char *const figures[] = {"1234.5", "-123.5", "24 31/64", "59 31/32", "144.5"};
    static const struct big_size size = {2, 1, 1};
    for (size_t i = 0; i < COUNT_OF(figures); i++)
        assert_true(big_columns(figures[i], size) <= 79);
}

/* A larger size is the same figure with larger dots, and dots are square to the eye: a cell is
 * twice as tall as wide. */
static void a_larger_size_shows_the_same_dots_larger(void **state) {
    (void)state;
    const struct big_size *sizes;
    size_t count = big_sizes(&sizes);
    struct canvas plain = blank(8, BIG_DOTS_TALL);
    for (size_t s = 0; s < count; s++) {
        assert_true(s == 0 || sizes[s].dot_columns <= sizes[s - 1].dot_columns);
        assert_true(sizes[s].dot_columns == 2 * sizes[s].dot_rows || sizes[s].dot_columns == 1);
        for (const char *c = letters; *c != '\0'; c++) {
            const char text[2] = {*c, '\0'};
            struct canvas large = blank(64, 24);
            canvas_clear(&plain);
            big_draw(&plain, 0, 0, dots, CELL_LIT, text);
            big_draw(&large, 0, 0, sizes[s], CELL_LIT, text);
            for (long y = 0; y < BIG_DOTS_TALL * sizes[s].dot_rows; y++)
                for (long x = 0; x < 5 * sizes[s].dot_columns; x++)
                    assert_int_equal(
                        canvas_cell(&large, x, y).glyph,
                        canvas_cell(&plain, x / sizes[s].dot_columns, y / sizes[s].dot_rows).glyph);
            free(large.cell);
        }
    }
    free(plain.cell);
}

static void a_figure_is_clipped_at_every_edge(void **state) {
    (void)state;
    const struct big_size *sizes;
    big_sizes(&sizes);
    for (long at = -120; at <= 20; at += 7) {
        struct canvas canvas = blank(9, 3);
        big_draw(&canvas, at, at / 3, sizes[0], CELL_LIT, "8.8/8");
        free(canvas.cell);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(digits_often_mistaken_differ_in_five_dots_or_more),
        cmocka_unit_test(every_two_signs_differ),
        cmocka_unit_test(what_there_is_no_sign_for_shows_as_a_question),
        cmocka_unit_test(a_figure_takes_the_columns_it_says_in_every_size),
        cmocka_unit_test(usual_figures_find_room_in_80_columns_with_dots_two_wide),
        cmocka_unit_test(a_larger_size_shows_the_same_dots_larger),
        cmocka_unit_test(a_figure_is_clipped_at_every_edge),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
