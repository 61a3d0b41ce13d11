/* test_tiling.c - pieces over sheets, and sheets shared by pieces. */
#include <math.h>
#include <string.h>

#include "paper/tiling.h"
#include "support.h"

#define MM 0.001

/* A faceted panel without allowances: bottom, top and height, symmetric. */
struct panel {
    struct flat_point corner[4];
    struct piece piece;
};

static void make_panel(struct panel *panel, double bottom_m, double top_m, double height_m) {
    double middle_m = bottom_m / 2;
    *panel = (struct panel){.corner = {{0, 0},
                                       {bottom_m, 0},
                                       {middle_m + top_m / 2, height_m},
                                       {middle_m - top_m / 2, height_m}}};
    struct ring ring = {panel->corner, 4, {0, 1, 2, 3}};
    panel->piece.cut = panel->piece.sew = ring;
    panel->piece.cut_least = (struct flat_point){fmin(0, middle_m - top_m / 2), 0};
    panel->piece.cut_most = (struct flat_point){fmax(bottom_m, middle_m + top_m / 2), height_m};
}

static const struct window a4 = {.width_m = 0.19, .height_m = 0.2645, .overlap_m = 0.01};

/* ---- how a piece lies --------------------------------------------------- */

static void a_rectangle_is_the_same_place_on_sheet_and_piece(void **state) {
    (void)state;
    struct panel panel;
    make_panel(&panel, 0.3, 0.5, 0.4); /* its box begins left of its origin */
    for (int turned = 0; turned <= 1; turned++) {
        struct flat_point size = laid_size(&panel.piece, turned);
        struct rect all =
            rect_on_piece(&panel.piece, turned, (struct rect){0, 0, size.x_m, size.y_m});
        assert_close(all.x0_m, panel.piece.cut_least.x_m, 1e-12, 0);
        assert_close(all.y0_m, panel.piece.cut_least.y_m, 1e-12, 0);
        assert_close(all.x1_m, panel.piece.cut_most.x_m, 1e-12, 0);
        assert_close(all.y1_m, panel.piece.cut_most.y_m, 1e-12, 0);
    }
    /* Turned to the left: what was lower right comes to lie upper right. */
    struct rect corner = rect_on_piece(&panel.piece, true, (struct rect){0.35, 0.45, 0.4, 0.5});
    assert_close(corner.x1_m, panel.piece.cut_most.x_m, 1e-12, 0);
    assert_close(corner.y0_m, panel.piece.cut_least.y_m, 1e-12, 0);
}

static void a_closed_line_knows_what_it_touches_and_holds(void **state) {
    (void)state;
    struct panel panel;
    make_panel(&panel, 0.2, 0.1, 0.3);
    const struct ring *ring = &panel.piece.cut;
    struct rect inside = {0.08, 0.1, 0.12, 0.14}, across = {-0.01, 0.1, 0.12, 0.14};
    struct rect outside = {-0.01, 0.2, 0.01, 0.25}, around = {-1, -1, 1, 1};
    assert_true(ring_touches(ring, inside) && ring_holds(ring, inside) &&
                !ring_meets(ring, inside));
    assert_true(ring_touches(ring, across) && !ring_holds(ring, across));
    assert_false(ring_touches(ring, outside) || ring_holds(ring, outside));
    assert_true(ring_touches(ring, around) && !ring_holds(ring, around));
}

/* ---- tiles --------------------------------------------------------------- */

static void neighbouring_windows_overlap_by_the_overlap_and_cover_the_piece(void **state) {
    (void)state;
    struct dice dice = {1};
    for (int i = 0; i < 200; i++) {
        struct panel panel;
        make_panel(&panel, dice_between(&dice, 0.05, 1.5), dice_between(&dice, 0.05, 1.5),
                   dice_between(&dice, 0.05, 1.5));
        struct window window = a4;
        window.overlap_m = dice_between(&dice, 0, 0.05);
        bool turned = dice_whole(&dice, 0, 1) == 1;
        struct tiling t = tiling_of(&panel.piece, window, turned);
        struct flat_point size = laid_size(&panel.piece, turned);
        struct rect first = tile_window(&t, t.rows - 1, 0),
                    last = tile_window(&t, 0, t.columns - 1);
        /* All of the cut line's width is printed: a millimetre of air around. */
        assert_true(first.x0_m <= -0.001 + 1e-9 && first.y0_m <= -0.001 + 1e-9);
        assert_true(last.x1_m >= size.x_m + 0.001 - 1e-9 && last.y1_m >= size.y_m + 0.001 - 1e-9);
        /* One column or row fewer would not do. */
        assert_true(t.columns == 1 || last.x1_m - first.x0_m - (window.width_m - window.overlap_m) <
                                          size.x_m + 0.002);
        if (t.columns > 1)
            assert_close(tile_window(&t, 0, 0).x1_m - tile_window(&t, 0, 1).x0_m, window.overlap_m,
                         1e-12, 0);
        if (t.rows > 1)
            assert_close(tile_window(&t, 1, 0).y1_m - tile_window(&t, 0, 0).y0_m, window.overlap_m,
                         1e-12, 0);
    }
}

static void cells_meet_in_the_middle_of_the_overlap(void **state) {
    (void)state;
    struct panel panel;
    make_panel(&panel, 0.5, 0.5, 0.5);
    struct tiling t = tiling_of(&panel.piece, a4, false);
    assert_int_equal(t.columns, 3);
    assert_int_equal(t.rows, 2);
    struct rect left = tile_cell(&t, 0, 0), right = tile_cell(&t, 0, 1),
                below = tile_cell(&t, 1, 0);
    assert_close(left.x1_m, right.x0_m, 1e-12, 0);
    assert_close(left.y0_m, below.y1_m, 1e-12, 0);
    assert_close(left.x1_m, tile_window(&t, 0, 0).x1_m - 0.005, 1e-12, 0);
    assert_close(left.x0_m, tile_window(&t, 0, 0).x0_m, 1e-12, 0);
    assert_close(left.y1_m, tile_window(&t, 0, 0).y1_m, 1e-12, 0);
}

static void tiles_with_nothing_on_them_are_left_out(void **state) {
    (void)state;
    struct panel panel;
    make_panel(&panel, 1.4, 0.02, 1.4); /* nearly a triangle: upper corners are empty */
    struct tiling t = tiling_of(&panel.piece, a4, false);
    size_t wanted = tiles_wanted(&t, &panel.piece);
    assert_true(wanted < t.rows * t.columns);
    assert_false(tile_wanted(&t, &panel.piece, 0, 0));
    assert_true(tile_wanted(&t, &panel.piece, t.rows - 1, 0));
    /* No point of the piece lies in a cell left out. */
    for (int i = 0; i <= 100; i++) {
        for (int j = 0; j <= 100; j++) {
            double y_m = 1.4 * i / 100, half_m = 0.7 - 0.69 * i / 100;
            double x_m = 0.7 + half_m * (2 * j / 100.0 - 1);
            for (size_t row = 0; row < t.rows; row++)
                for (size_t column = 0; column < t.columns; column++) {
                    struct rect c = tile_cell(&t, row, column);
                    if (x_m >= c.x0_m && x_m <= c.x1_m && y_m >= c.y0_m && y_m <= c.y1_m)
                        assert_true(tile_wanted(&t, &panel.piece, row, column));
                }
        }
    }
}

static void the_way_with_fewest_sheets_is_chosen_and_no_turn_among_equals(void **state) {
    (void)state;
    struct window windows[2] = {
        a4, {.width_m = 0.277, .height_m = 0.1775, .overlap_m = 0.01, .landscape = true}};
    struct panel panel;
    make_panel(&panel, 0.55, 0.55, 0.18); /* three upright; landscape two across and two up */
    struct tiling t = tiling_choose(&panel.piece, windows, 2);
    assert_int_equal(tiles_wanted(&t, &panel.piece), 3);
    make_panel(&panel, 0.5, 0.5, 0.15); /* landscape: two across, one up */
    t = tiling_choose(&panel.piece, windows, 2);
    assert_int_equal(tiles_wanted(&t, &panel.piece), 2);
    assert_true(t.window.landscape && !t.turned);
    make_panel(&panel, 0.18, 0.18, 0.5); /* as it is: one across, two up; as good as turned */
    t = tiling_choose(&panel.piece, windows, 2);
    assert_int_equal(tiles_wanted(&t, &panel.piece), 2);
    assert_false(t.turned || t.window.landscape);
    make_panel(&panel, 0.25, 0.25, 0.18); /* fits one sheet only turned, or landscape one */
    t = tiling_choose(&panel.piece, windows, 1);
    assert_true(t.turned);
    assert_int_equal(t.rows * t.columns, 1);
}

static void a_roll_shares_its_length_evenly(void **state) {
    (void)state;
    struct window roll = {.width_m = 0.6, .height_m = 4.9, .overlap_m = 0.01, .roll = true};
    struct panel panel;
    make_panel(&panel, 0.5, 0.5, 12);
    struct tiling t = tiling_choose(&panel.piece, &roll, 1);
    assert_int_equal(t.rows, 3);
    assert_int_equal(t.columns, 1);
    assert_close(3 * t.window.height_m - 2 * 0.01, 12 + 2 * MM, 1e-9, 0);
    make_panel(&panel, 1.1, 1.1, 0.55); /* turned it is one strip, not two */
    t = tiling_choose(&panel.piece, &roll, 1);
    assert_true(t.turned);
    assert_int_equal(t.rows * t.columns, 1);
}

static void more_tiles_than_anyone_would_glue_are_refused(void **state) {
    (void)state;
    struct panel panel;
    make_panel(&panel, 30, 30, 30);
    struct tiling t = tiling_choose(&panel.piece, &a4, 1);
    assert_int_equal(t.rows, 0);
}

static void tiles_are_named_by_row_letter_and_padded_column_and_not_as_pieces_are(void **state) {
    (void)state;
    char name[16];
    struct tiling t = {.columns = 12, .rows = 30};
    assert_string_equal(tile_name(&t, 0, 0, name), "a-01");
    assert_string_equal(tile_name(&t, 1, 11, name), "b-12");
    assert_string_equal(tile_name(&t, 23, 0, name), "aa-01");
    assert_string_equal(tile_name(&t, 8, 0, name), "j-01");
    t.columns = 100;
    assert_string_equal(tile_name(&t, 2, 7, name), "c-008");
}

static void every_seam_has_letters_of_its_own(void **state) {
    (void)state;
    struct tiling t = {.columns = 7, .rows = 6};
    char seen[128][8];
    size_t count = 0;
    for (size_t row = 0; row < t.rows; row++)
        for (size_t column = 0; column < t.columns; column++)
            for (int below = 0; below <= 1; below++) {
                if ((below && row + 1 == t.rows) || (!below && column + 1 == t.columns))
                    continue;
                pair_letters(&t, row, column, below, seen[count]);
                for (size_t i = 0; i < count; i++)
                    assert_string_not_equal(seen[i], seen[count]);
                assert_null(strpbrk(seen[count], "ilo"));
                count++;
            }
    assert_int_equal(count, 6 * 6 + 5 * 7);
}

/* ---- shelves ------------------------------------------------------------- */

enum { PANELS = 24 };

static void shelved_pieces_lie_in_the_window_apart_from_each_other(void **state) {
    (void)state;
    struct dice dice = {7};
    const struct window window = {.width_m = 0.8, .height_m = 1.1};
    for (int round = 0; round < 50; round++) {
        static struct panel panel[PANELS];
        static struct piece piece[PANELS];
        bool wanted[PANELS];
        size_t asked = 0, placed = 0;
        for (size_t i = 0; i < PANELS; i++) {
            make_panel(&panel[i], dice_between(&dice, 0.05, 0.79), dice_between(&dice, 0.05, 0.79),
                       dice_between(&dice, 0.05, 1.09));
            piece[i] = panel[i].piece;
            wanted[i] = dice_whole(&dice, 0, 3) > 0;
            asked += wanted[i];
        }
        struct placement put[PANELS];
        double used_m[PANELS];
        size_t sheets = shelves_fill(piece, wanted, PANELS, window, 0.006, round % 2 == 0, put,
                                     &placed, used_m);
        assert_int_equal(placed, asked);
        for (size_t i = 0; i < placed; i++) {
            struct flat_point a = laid_size(&piece[put[i].piece], put[i].turned);
            assert_true(wanted[put[i].piece] && put[i].sheet < sheets);
            assert_true(put[i].x_m >= -1e-9 && put[i].x_m + a.x_m <= window.width_m + 1e-9);
            assert_true(put[i].y_m >= -1e-9 && put[i].y_m + a.y_m <= used_m[put[i].sheet] + 1e-9 &&
                        used_m[put[i].sheet] <= window.height_m + 1e-9);
            for (size_t j = 0; j < i; j++) {
                struct flat_point b = laid_size(&piece[put[j].piece], put[j].turned);
                assert_int_not_equal(put[j].piece, put[i].piece);
                bool apart = put[i].sheet != put[j].sheet || put[i].x_m + a.x_m < put[j].x_m ||
                             put[j].x_m + b.x_m < put[i].x_m || put[i].y_m + a.y_m < put[j].y_m ||
                             put[j].y_m + b.y_m < put[i].y_m;
                assert_true(apart);
            }
        }
    }
}

static void small_pieces_share_a_sheet(void **state) {
    (void)state;
    static struct panel panel[6];
    static struct piece piece[6];
    const bool wanted[6] = {true, true, true, true, true, true};
    for (size_t i = 0; i < 6; i++) {
        make_panel(&panel[i], 0.2, 0.2, 0.3);
        piece[i] = panel[i].piece;
    }
    struct window window = {.width_m = 0.65, .height_m = 0.65};
    struct placement put[6];
    double used_m[6];
    size_t placed;
    assert_int_equal(shelves_fill(piece, wanted, 6, window, 0.006, true, put, &placed, used_m), 1);
    assert_close(used_m[0], 2 * 0.306, 1e-9, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_rectangle_is_the_same_place_on_sheet_and_piece),
        cmocka_unit_test(a_closed_line_knows_what_it_touches_and_holds),
        cmocka_unit_test(neighbouring_windows_overlap_by_the_overlap_and_cover_the_piece),
        cmocka_unit_test(cells_meet_in_the_middle_of_the_overlap),
        cmocka_unit_test(tiles_with_nothing_on_them_are_left_out),
        cmocka_unit_test(the_way_with_fewest_sheets_is_chosen_and_no_turn_among_equals),
        cmocka_unit_test(a_roll_shares_its_length_evenly),
        cmocka_unit_test(more_tiles_than_anyone_would_glue_are_refused),
        cmocka_unit_test(tiles_are_named_by_row_letter_and_padded_column_and_not_as_pieces_are),
        cmocka_unit_test(every_seam_has_letters_of_its_own),
        cmocka_unit_test(shelved_pieces_lie_in_the_window_apart_from_each_other),
        cmocka_unit_test(small_pieces_share_a_sheet),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
