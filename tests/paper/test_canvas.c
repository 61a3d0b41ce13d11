/* Drawings made of characters. */
#include <math.h>
#include <string.h>

#include "gorewright/drawing.h"
#include "support.h"

enum { COLUMNS = 40, ROWS = 12 };
static struct cell cells[COLUMNS * ROWS];

static struct canvas fresh(size_t columns, size_t rows) {
    struct canvas canvas = {columns, rows, cells};
    canvas_clear(&canvas);
    return canvas;
}

static void expect(const struct canvas *canvas, const char *want) {
    struct text text = {0};
    canvas_write(canvas, &text);
    assert_string_equal(text.bytes, want);
    text_free(&text);
}

static size_t cells_of(const struct canvas *canvas, enum cell_kind kind) {
    size_t count = 0;
    for (size_t i = 0; i < canvas->columns * canvas->rows; i++)
        count += canvas->cell[i].kind == (unsigned char)kind;
    return count;
}

/* ---- lines --------------------------------------------------------------- */

static struct canvas_place at(double column, double row) {
    return (struct canvas_place){column, row};
}

static void a_box_of_solid_lines_is_closed(void **state) {
    (void)state;
    struct canvas canvas = fresh(6, 4);
    const struct canvas_place box[] = {{0.5, 3.5}, {5.5, 3.5}, {5.5, 0.5}, {0.5, 0.5}};
    canvas_polyline(&canvas, box, 4, true, CELL_SOLID);
    expect(&canvas, "|-----\n|    |\n|    |\n|----|\n");
}

static void a_line_of_slight_slope_climbs_by_half_rows(void **state) {
    (void)state;
    struct canvas canvas = fresh(8, 2);
    canvas_line(&canvas, at(0, 1.9), at(8, 0.6), CELL_SOLID);
    expect(&canvas, "    ___-\n_---\n");
}

static void a_dotted_line_shows_the_half_of_the_cell_it_runs_in(void **state) {
    (void)state;
    struct canvas canvas = fresh(4, 2);
    canvas_line(&canvas, at(0, 0.2), at(4, 0.2), CELL_DOTTED);
    canvas_line(&canvas, at(0, 1.8), at(4, 1.8), CELL_DOTTED);
    expect(&canvas, "''''\n....\n");
}

static void a_steep_line_leans_the_way_it_goes(void **state) {
    (void)state;
    struct canvas canvas = fresh(4, 4);
    canvas_line(&canvas, at(0.5, 0), at(3.5, 4), CELL_SOLID);
    expect(&canvas, "\\\n \\\n  |\n   \\\n");
    canvas_clear(&canvas);
    canvas_line(&canvas, at(0.5, 4), at(3.5, 0), CELL_SOLID);
    expect(&canvas, "   /\n  |\n /\n/\n");
}

static void a_line_looks_the_same_from_either_end(void **state) {
    (void)state;
    struct dice dice = {3};
    static struct cell other[COLUMNS * ROWS];
    for (int i = 0; i < 500; i++) {
        struct canvas canvas = fresh(COLUMNS, ROWS), back = {COLUMNS, ROWS, other};
        struct canvas_place a = at(dice_between(&dice, 0, COLUMNS), dice_between(&dice, 0, ROWS));
        struct canvas_place b = at(dice_between(&dice, 0, COLUMNS), dice_between(&dice, 0, ROWS));
        canvas_clear(&back);
        canvas_line(&canvas, a, b, CELL_SOLID);
        canvas_line(&back, b, a, CELL_SOLID);
        assert_memory_equal(cells, other, sizeof cells);
    }
}

static void a_line_has_no_gap(void **state) {
    (void)state;
    struct dice dice = {4};
    for (int i = 0; i < 500; i++) {
        struct canvas canvas = fresh(COLUMNS, ROWS);
        struct canvas_place a =
            at(dice_between(&dice, 1, COLUMNS - 1), dice_between(&dice, 1, ROWS));
        struct canvas_place b =
            at(dice_between(&dice, 1, COLUMNS - 1), dice_between(&dice, 1, ROWS));
        canvas_line(&canvas, a, b, CELL_DOTTED);
        size_t least = (size_t)fmax(fabs(floor(a.column) - floor(b.column)),
                                    fabs(floor(a.row) - floor(b.row)));
        assert_true(cells_of(&canvas, CELL_DOTTED) >= least);
    }
}

static void lines_are_clipped_however_far_they_reach(void **state) {
    (void)state;
    struct canvas canvas = fresh(5, 3);
    canvas_line(&canvas, at(-1e9, 1.5), at(1e9, 1.5), CELL_SOLID);
    expect(&canvas, "\n-----\n\n");
    canvas_line(&canvas, at(2.5, -1e12), at(2.5, 1e12), CELL_SOLID);
    expect(&canvas, "  |\n--|--\n  |\n");
    canvas_clear(&canvas);
    canvas_line(&canvas, at((double)NAN, 0), at(3, 3), CELL_SOLID);
    canvas_line(&canvas, at(-9, -9), at(-3, -3), CELL_SOLID);
    expect(&canvas, "\n\n\n");
}

static void a_canvas_of_one_cell_takes_everything(void **state) {
    (void)state;
    struct canvas canvas = fresh(1, 1);
    canvas_line(&canvas, at(-3, -3), at(3, 3), CELL_SOLID);
    assert_false(canvas_text(&canvas, 0, 0, "ab", ROOM_OVER_LINES));
    assert_true(canvas_text(&canvas, 0, 0, "a", ROOM_OVER_LINES));
    assert_false(canvas_label(&canvas, at(0, 0), "b", 10, ROOM_OVER_LINES));
    expect(&canvas, "a\n");
}

static void a_solid_line_covers_a_dotted_one_and_no_line_covers_text(void **state) {
    (void)state;
    struct canvas canvas = fresh(7, 1);
    canvas_line(&canvas, at(0, 0.5), at(7, 0.5), CELL_SOLID);
    canvas_line(&canvas, at(0, 0.7), at(7, 0.7), CELL_DOTTED);
    expect(&canvas, "-------\n");
    assert_true(canvas_text(&canvas, 2, 0, "abc", ROOM_OVER_LINES));
    canvas_line(&canvas, at(0, 0.5), at(7, 0.5), CELL_SOLID);
    expect(&canvas, "--abc--\n");
}

/* ---- text ---------------------------------------------------------------- */

static void text_never_touches_other_text(void **state) {
    (void)state;
    struct canvas canvas = fresh(12, 1);
    assert_true(canvas_text(&canvas, 4, 0, "mid", ROOM_BLANK));
    assert_false(canvas_text(&canvas, 1, 0, "abc", ROOM_OVER_LINES)); /* would join it */
    assert_false(canvas_text(&canvas, 6, 0, "x", ROOM_OVER_LINES));
    assert_true(canvas_text(&canvas, 0, 0, "abc", ROOM_BLANK));
    assert_true(canvas_text(&canvas, 8, 0, "z", ROOM_BLANK));
    expect(&canvas, "abc mid z\n");
}

static void text_that_leaves_the_canvas_is_not_written_at_all(void **state) {
    (void)state;
    struct canvas canvas = fresh(5, 2);
    assert_false(canvas_text(&canvas, 3, 0, "abc", ROOM_BLANK));
    assert_false(canvas_text(&canvas, -1, 0, "abc", ROOM_BLANK));
    assert_false(canvas_text(&canvas, 0, 1, "a\nb", ROOM_BLANK));
    assert_false(canvas_text(&canvas, 0, -1, "a", ROOM_BLANK));
    assert_int_equal(cells_of(&canvas, CELL_TEXT), 0);
}

static void a_label_goes_to_the_nearest_free_place(void **state) {
    (void)state;
    struct canvas canvas = fresh(9, 3);
    canvas_line(&canvas, at(0, 1.5), at(9, 1.5), CELL_SOLID);
    assert_true(canvas_label(&canvas, at(4.5, 1.6), "abc", 20, ROOM_BLANK));
    expect(&canvas, "\n---------\n   abc\n");
    assert_false(canvas_label(&canvas, at(4.5, 2.5), "de", 1, ROOM_BLANK));
    assert_true(canvas_label(&canvas, at(4.5, 2.5), "de", 20, ROOM_BLANK));
    assert_int_equal(cells_of(&canvas, CELL_TEXT), 5);
}

static void lines_of_one_label_stand_under_one_another(void **state) {
    (void)state;
    struct canvas canvas = fresh(9, 3);
    assert_true(canvas_label(&canvas, at(4.5, 1), "ab\ncdef", 20, ROOM_BLANK));
    expect(&canvas, "  ab\n  cdef\n\n");
}

static void any_number_of_labels_never_overlap(void **state) {
    (void)state;
    static const char *const word[] = {"1234.5", "a", "24 3/32", "up\ngrain"};
    static const size_t size[] = {6, 1, 7, 7};
    struct dice dice = {5};
    for (int i = 0; i < 200; i++) {
        struct canvas canvas =
            fresh((size_t)dice_whole(&dice, 1, COLUMNS), (size_t)dice_whole(&dice, 1, ROWS));
        size_t written = 0;
        for (int j = 0; j < 30; j++) {
            int w = dice_whole(&dice, 0, 3);
            struct canvas_place wanted =
                at(dice_between(&dice, -5, COLUMNS + 5), dice_between(&dice, -5, ROWS + 5));
            if (canvas_label(&canvas, wanted, word[w], 50, ROOM_OVER_LINES))
                written += size[w];
            canvas_line(&canvas, wanted, at(0, 0), CELL_SOLID);
        }
        assert_int_equal(cells_of(&canvas, CELL_TEXT), written);
    }
}

/* ---- scale ---------------------------------------------------------------- */

static const struct flat_point nothing = {0, 0};

static void a_view_keeps_true_proportions_of_cells_twice_as_tall_as_wide(void **state) {
    (void)state;
    struct canvas_box box = {2, 1, 30, 10};
    struct dice dice = {6};
    for (int i = 0; i < 200; i++) {
        struct flat_point most = {dice_between(&dice, 0.1, 3), dice_between(&dice, 0.1, 3)};
        struct canvas_view view = canvas_fit(box, nothing, most, 0, 0);
        assert_close(view.row_m, 2 * view.column_m, 0, 1e-12);
        assert_close(canvas_stretch(&view), 1, 1e-12, 0);
        assert_true(view.shown_columns <= 30 + 1e-9 && view.shown_rows <= 10 + 1e-9);
        assert_true(view.shown_columns > 30 - 1e-9 || view.shown_rows > 10 - 1e-9);
    }
}

static void the_corners_of_what_is_shown_fall_on_the_view_edges(void **state) {
    (void)state;
    struct canvas_view view =
        canvas_fit((struct canvas_box){5, 1, 20, 10}, (struct flat_point){-1, 2},
                   (struct flat_point){0, 3}, 0, 0);
    struct canvas_place low = canvas_place(&view, (struct flat_point){-1, 2});
    struct canvas_place high = canvas_place(&view, (struct flat_point){0, 3});
    assert_close(low.column, 5, 1e-9, 0);
    assert_close(low.row, 11, 1e-9, 0);
    assert_close(high.column, 25, 1e-9, 0);
    assert_close(high.row, 1, 1e-9, 0);
}

static void a_slender_thing_is_stretched_to_the_least_size_and_says_so(void **state) {
    (void)state;
    struct canvas_box box = {0, 0, 40, 12};
    struct canvas_view flat = canvas_fit(box, nothing, (struct flat_point){10, 0.1}, 10, 6);
    assert_close(flat.shown_rows, 6, 1e-9, 0);
    assert_close(canvas_stretch(&flat), 6 / (40 * 0.01 / 2), 0, 1e-9);
    struct canvas_view tall = canvas_fit(box, nothing, (struct flat_point){0.1, 10}, 10, 6);
    assert_close(tall.shown_columns, 10, 1e-9, 0);
    assert_true(canvas_stretch(&tall) < 1);
}

/* Blanks are pasted too: the drawing takes the place of what was there. */
static void a_drawing_is_pasted_whole_and_clipped_at_the_edges(void **state) {
    (void)state;
    static struct cell small[6];
    static const struct {
        long column, row;
        const char *want;
    } places[] = {
        {1, 1, "xxxx\nxabx\nx  x\nxefx\n"},  {0, 0, "abxx\n  xx\nefxx\nxxxx\n"},
        {-1, 2, "xxxx\nxxxx\nbxxx\n xxx\n"}, {3, -1, "xxx\nxxxe\nxxxx\nxxxx\n"},
        {9, 0, "xxxx\nxxxx\nxxxx\nxxxx\n"},
    };
    struct canvas drawing = {2, 3, small};
    canvas_clear(&drawing);
    canvas_put(&drawing, 0, 0, CELL_TEXT, "ab");
    canvas_put(&drawing, 0, 2, CELL_LIT, "ef");
    for (size_t i = 0; i < COUNT_OF(places); i++) {
        struct canvas canvas = fresh(4, 4);
        for (long row = 0; row < 4; row++)
            canvas_put(&canvas, 0, row, CELL_TEXT, "xxxx");
        canvas_paste(&drawing, &canvas, places[i].column, places[i].row);
        expect(&canvas, places[i].want);
    }
    struct canvas canvas = fresh(4, 4);
    canvas_paste(&drawing, &canvas, 0, 0);
    assert_int_equal(cells_of(&canvas, CELL_LIT), 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_box_of_solid_lines_is_closed),
        cmocka_unit_test(a_line_of_slight_slope_climbs_by_half_rows),
        cmocka_unit_test(a_dotted_line_shows_the_half_of_the_cell_it_runs_in),
        cmocka_unit_test(a_steep_line_leans_the_way_it_goes),
        cmocka_unit_test(a_line_looks_the_same_from_either_end),
        cmocka_unit_test(a_line_has_no_gap),
        cmocka_unit_test(lines_are_clipped_however_far_they_reach),
        cmocka_unit_test(a_canvas_of_one_cell_takes_everything),
        cmocka_unit_test(a_solid_line_covers_a_dotted_one_and_no_line_covers_text),
        cmocka_unit_test(text_never_touches_other_text),
        cmocka_unit_test(text_that_leaves_the_canvas_is_not_written_at_all),
        cmocka_unit_test(a_label_goes_to_the_nearest_free_place),
        cmocka_unit_test(lines_of_one_label_stand_under_one_another),
        cmocka_unit_test(any_number_of_labels_never_overlap),
        cmocka_unit_test(a_view_keeps_true_proportions_of_cells_twice_as_tall_as_wide),
        cmocka_unit_test(the_corners_of_what_is_shown_fall_on_the_view_edges),
        cmocka_unit_test(a_slender_thing_is_stretched_to_the_least_size_and_says_so),
        cmocka_unit_test(a_drawing_is_pasted_whole_and_clipped_at_the_edges),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
