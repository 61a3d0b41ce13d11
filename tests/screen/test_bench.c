/* test_bench.c - the bench: every dimension once, ticks and their undoing, and any size. */
#include "at_bench.h"

/* ---- one dimension after the other ----------------------------------------------------- */

/* Walking through a piece with one key shows each figure of its list of steps, once each, in
 * order, with its name; then asks for the tick. */
static void next_shows_every_dimension_once_in_the_order_of_the_sheet(void **state) {
    (void)state;
    static const enum units units[] = {UNITS_MM, UNITS_INCH};
    for (int style = 0; style < STYLE_COUNT; style++)
        for (size_t u = 0; u < COUNT_OF(units); u++) {
            struct design design;
            struct shop shop;
            design_starter(&design);
            design.gores.style = style;
            design.paper.units = (int)units[u];
            begin_design(&shop, &design);
            static struct marking want;
            marking_steps(&shop.design, shop.envelope, &shop.envelope->piece[0], &want);
            for (size_t s = 0; s < want.count; s++) {
                char figure[64], place[64], length[32];
                snprintf(figure, sizeof figure, "\n%s %s. ",
                         format_length(&shop.design, want.step[s].value_m, length),
                         length_unit(&shop.design));
                snprintf(place, sizeof place, "\n%zu of %zu  %s: %s\n", s + 1, want.count,
                         marking_part_name(want.step[s].part), want.step[s].name);
                assert_true(shows(&shop, 80, 24, figure));
                assert_true(shows(&shop, 80, 24, place));
                assert_true(act(&shop, BENCH_NEXT));
            }
            assert_true(shows(&shop, 80, 24, "That is all of"));
            end(&shop);
        }
}

static void after_the_last_dimension_comes_the_next_piece_to_mark(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    shop.bench.step = shop.bench.marking.count - 1;
    assert_true(act(&shop, BENCH_NEXT));
    assert_at(&shop, "F01", 1);
    assert_int_equal(shop.bench.step, shop.bench.marking.count);
    assert_true(shows(&shop, 80, 24, "That is all of F01: m ticks"));
    assert_true(act(&shop, BENCH_TICK_MARKED));
    assert_true(shows(&shop, 80, 24, "That is all of F01, and"));
    assert_true(act(&shop, BENCH_NEXT));
    assert_at(&shop, "F01", 2);
    assert_int_equal(shop.bench.step, 0);
    end(&shop);
}

static void back_goes_to_the_dimension_before_and_round_to_the_last(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, BILLOWED);
    act(&shop, BENCH_NEXT);
    act(&shop, BENCH_NEXT);
    assert_true(act(&shop, BENCH_BACK));
    assert_int_equal(shop.bench.step, 1);
    act(&shop, BENCH_BACK);
    act(&shop, BENCH_BACK);
    assert_int_equal(shop.bench.step, shop.bench.marking.count - 1);
    end(&shop);
}

/* Lit cells below the heading that are no dots of big digits. */
static bool drawing_is_lit(const struct canvas *canvas) {
    for (size_t i = 4 * canvas->columns; i < canvas->rows * canvas->columns; i++)
        if (canvas->cell[i].kind == CELL_LIT && canvas->cell[i].glyph != '#')
            return true;
    return false;
}

static void the_drawing_has_the_line_lit_that_is_measured(void **state) {
    (void)state;
    static const size_t sizes[][2] = {{80, 24}, {132, 43}};
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        struct shop shop;
        begin(&shop, BILLOWED);
        struct canvas canvas = {sizes[i][0], sizes[i][1], NULL};
        canvas.cell = malloc(canvas.columns * canvas.rows * sizeof(struct cell));
        assert_non_null(canvas.cell);
        for (; shop.bench.step < shop.bench.marking.count; act(&shop, BENCH_NEXT)) {
            bench_draw(&shop.bench, &canvas);
            assert_true(drawing_is_lit(&canvas));
        }
        bench_draw(&shop.bench, &canvas);
        assert_false(drawing_is_lit(&canvas));
        free(canvas.cell);
        end(&shop);
    }
}

/* Rows in which a dot of a big digit stands, two columns wide or more. */
static size_t rows_of_dots(const struct shop *shop, size_t columns, size_t rows) {
    struct text text = drawn(shop, columns, rows);
    size_t count = 0;
    for (char *line = strtok(text.bytes, "\n"); line != NULL; line = strtok(NULL, "\n"))
        count += strstr(line, "##") != NULL;
    text_free(&text);
    return count;
}

static void figures_are_big_from_80_by_20_on_and_grow_with_the_window(void **state) {
    (void)state;
    static const size_t sizes[][3] = {
        {80, 20, 7}, {80, 24, 7}, {100, 30, 7}, {132, 43, 14}, {200, 60, 21}};
    static const enum units units[] = {UNITS_MM, UNITS_INCH};
    for (size_t u = 0; u < COUNT_OF(units); u++) {
        struct shop shop;
        struct design design;
        design_starter(&design);
        design.paper.units = (int)units[u];
        begin_design(&shop, &design);
        for (size_t i = 0; i < COUNT_OF(sizes); i++)
            for (shop.bench.step = 0; shop.bench.step < shop.bench.marking.count;
                 shop.bench.step++) {
                size_t dots = rows_of_dots(&shop, sizes[i][0], sizes[i][1]);
                assert_int_equal(dots,
                                 units[u] == UNITS_MM || sizes[i][2] == 7 ? sizes[i][2] : dots);
                assert_true(dots >= 7);
            }
        end(&shop);
    }
}

/* ---- ticks ---------------------------------------------------------------------------------- */

static void a_tick_is_put_and_taken_back_by_the_same_key(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    assert_true(act(&shop, BENCH_TICK_CUT));
    assert_int_equal(progress(&shop, "F01", 1), 2);
    assert_true(shows(&shop, 80, 24, "[x] marked  [x] cut  [ ] sewn"));
    assert_true(shows(&shop, 80, 24, "F01 gore 1: marked and cut. 127 left to cut."));
    assert_true(act(&shop, BENCH_TICK_CUT));
    assert_int_equal(progress(&shop, "F01", 1), 1);
    assert_true(act(&shop, BENCH_TICK_SEWN));
    assert_true(act(&shop, BENCH_TICK_MARKED));
    assert_int_equal(progress(&shop, "F01", 1), 0);
    end(&shop);
}

static void undo_takes_back_tick_after_tick_wherever_they_were_made(void **state) {
    (void)state;
    struct shop shop;
    struct dice dice = {17};
    enum { TICKS = 150 };
    int before[TICKS][8][17];
    begin(&shop, FACETED);
    for (int i = 0; i < TICKS; i++) {
        for (size_t t = 0; t < 8; t++)
            for (size_t gore = 1; gore <= 16; gore++)
                before[i][t][gore] = progress(&shop, shop.envelope->piece[t].name, gore);
        for (int moves = dice_whole(&dice, 0, 3); moves > 0; moves--)
            act(&shop, (enum bench_action)dice_whole(&dice, BENCH_NEXT_PIECE, BENCH_PREVIOUS_GORE));
        assert_true(
            act(&shop, (enum bench_action)dice_whole(&dice, BENCH_TICK_MARKED, BENCH_TICK_SEWN)));
    }
    for (int i = TICKS - 1; i >= 0; i--) {
        assert_true(act(&shop, BENCH_UNDO));
        for (size_t t = 0; t < 8; t++)
            for (size_t gore = 1; gore <= 16; gore++)
                assert_int_equal(progress(&shop, shop.envelope->piece[t].name, gore),
                                 before[i][t][gore]);
    }
    assert_false(act(&shop, BENCH_UNDO));
    assert_true(shop.bench.notice_is_error);
    end(&shop);
}

static void undo_shows_the_piece_whose_tick_it_took_back(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    assert_true(bench_jump(&shop.bench, "F04 9"));
    act(&shop, BENCH_TICK_MARKED);
    assert_true(bench_jump(&shop.bench, "F02 3"));
    assert_true(act(&shop, BENCH_UNDO));
    assert_at(&shop, "F04", 9);
    assert_true(shows(&shop, 80, 24, "Taken back. F04 gore 9: nothing ticked."));
    end(&shop);
}

static void without_a_file_all_is_shown_and_nothing_ticked(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    bench_change(&shop.bench, &shop.design, shop.envelope, NULL);
    assert_true(shows(&shop, 80, 24, "Save the design, and ticks can be kept."));
    assert_false(act(&shop, BENCH_TICK_CUT));
    assert_true(shop.bench.notice_is_error);
    assert_false(act(&shop, BENCH_UNDO));
    shop.bench.step = shop.bench.marking.count;
    assert_true(act(&shop, BENCH_NEXT));
    assert_at(&shop, "F01", 2);
    end(&shop);
}

static void a_record_that_can_only_be_read_says_so_and_why(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    act(&shop, BENCH_TICK_CUT);
    struct record *second = record_open(shop.path, &shop.design, &shop.messages);
    assert_non_null(second);
    struct bench bench;
    bench_begin(&bench, &shop.design, shop.envelope, second);
    assert_int_equal(bench.at.gore, 2);
    assert_false(bench_act(&bench, BENCH_TICK_CUT));
    assert_true(bench.notice_is_error);
    bench_act(&bench, BENCH_NEXT);
    struct canvas canvas = {80, 24, malloc(80 * 24 * sizeof(struct cell))};
    struct text text = {0};
    bench_draw(&bench, &canvas);
    canvas_write(&canvas, &text);
    assert_non_null(strstr(text.bytes, "Ticks can be seen but not made: another window"));
    text_free(&text);
    free(canvas.cell);
    bench_end(&bench);
    record_close(second);
    end(&shop);
}

/* ---- from piece to piece ------------------------------------------------------------------- */

static void it_begins_at_the_first_piece_not_marked(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    assert_at(&shop, "F01", 1);
    for (int gore = 1; gore <= 16; gore++) {
        act(&shop, BENCH_TICK_MARKED);
        act(&shop, BENCH_NEXT_GORE);
    }
    bench_end(&shop.bench);
    bench_begin(&shop.bench, &shop.design, shop.envelope, shop.record);
    assert_at(&shop, "F02", 1);
    end(&shop);
}

static void every_template_and_every_gore_of_it_is_reached(void **state) {
    (void)state;
    struct shop shop;
    begin_mixed(&shop);
    size_t templates = 0, gores = 0;
    char first[8];
    memcpy(first, shop.bench.piece, sizeof first);
    do {
        size_t gore = shop.bench.at.gore;
        do {
            assert_true(piece_stands_in(shop.envelope, &shop.envelope->piece[shop.bench.at.piece],
                                        shop.bench.at.gore - 1));
            gores++;
            act(&shop, BENCH_NEXT_GORE);
        } while (shop.bench.at.gore != gore);
        templates++;
        act(&shop, BENCH_NEXT_PIECE);
    } while (strcmp(first, shop.bench.piece) != 0);
    assert_int_equal(templates, shop.envelope->templates);
    assert_int_equal(gores, shop.envelope->built.pieces);
    act(&shop, BENCH_PREVIOUS_PIECE);
    assert_string_equal(shop.bench.piece, shop.envelope->piece[templates - 1].name);
    end(&shop);
}

static void next_to_do_looks_for_the_tick_made_last(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    act(&shop, BENCH_TICK_MARKED);
    act(&shop, BENCH_NEXT_TO_DO);
    assert_at(&shop, "F01", 2);
    act(&shop, BENCH_TICK_SEWN);
    act(&shop, BENCH_NEXT_TO_DO); /* to sew, gore by gore */
    assert_at(&shop, "F02", 2);
    end(&shop);
}

static void when_all_is_done_it_says_so(void **state) {
    (void)state;
    struct design design;
    struct shop shop;
    design_starter(&design);
    design.gores.count = 3;
    design.rows.count = 2;
    design.cloth.width_m = 5;
    begin_design(&shop, &design);
    for (int i = 0; i < 6; i++) {
        assert_true(act(&shop, BENCH_TICK_MARKED));
        bool more = act(&shop, BENCH_NEXT_TO_DO);
        assert_int_equal(more, i < 5);
    }
    assert_string_equal(shop.bench.notice, "Every piece is marked.");
    end(&shop);
}

static void a_piece_is_found_by_what_is_typed(void **state) {
    (void)state;
    static const struct {
        const char *typed, *piece;
        size_t gore; /* 0: refused */
    } try[] = {
        {"F05 7", "F05", 7},
        {"f5 7", "F05", 7},
        {"f05", "F05", 1},
        {"H03L gore 6", "H03L", 6},
        {"h3r 10", "H03R", 10},
        {"h3", "H03L", 2},
        {"B02gore4", "B02", 4},
        {"  f5   7  ", "F05", 7},
        {"3", "F01", 3},
        {"gore 5", "F01", 5},
        {"F05 2", NULL, 0},
        {"F05 17", NULL, 0},
        {"F05 0", NULL, 0},
        {"F09", NULL, 0},
        {"X", NULL, 0},
        {"", NULL, 0},
        {"F05 7 8 9", NULL, 0},
        {"F05 7 0", NULL, 0},
        {"F05 7 99", NULL, 0},
        {"F05 x", NULL, 0},
        {"2", NULL, 0},
        {"99999999999999999999", NULL, 0},
        {"F99999999999", NULL, 0},
        {"f", NULL, 0},
        {"B05L", NULL, 0},
        {"-3", NULL, 0},
    };
    for (size_t i = 0; i < COUNT_OF(try); i++) {
        struct shop shop;
        begin_mixed(&shop);
        bool found = bench_jump(&shop.bench, try[i].typed);
        if (found != (try[i].gore > 0))
            fail_msg("\"%s\" was %s", try[i].typed, found ? "taken" : "refused");
        if (found) {
            assert_at(&shop, try[i].piece, try[i].gore);
        } else {
            assert_true(shop.bench.notice_is_error && strlen(shop.bench.notice) > 20);
        }
        end(&shop);
    }
}

static void a_dimension_of_a_piece_is_found_by_its_number(void **state) {
    (void)state;
    static const char *const typed[] = {"H03L 6 5", "h3l gore 6 dimension 5", "H03L gore 6 5"};
    for (size_t i = 0; i < COUNT_OF(typed); i++)
        for (int view = BENCH_MEASURE; view <= BENCH_MISFITS; view++) {
            struct shop shop;
            begin_mixed(&shop);
            shop.bench.view = (enum bench_view)view;
            assert_true(bench_jump(&shop.bench, typed[i]));
            assert_at(&shop, "H03L", 6);
            assert_int_equal(shop.bench.step, 4);
            assert_int_equal(shop.bench.view, BENCH_MEASURE);
            end(&shop);
        }
}

static void in_the_overview_a_piece_that_is_typed_is_marked_there(void **state) {
    (void)state;
    struct shop shop;
    begin_mixed(&shop);
    act(&shop, BENCH_SHOW_OVERVIEW);
    assert_true(bench_jump(&shop.bench, "H03L 6"));
    assert_int_equal(shop.bench.view, BENCH_OVERVIEW);
    assert_true(shows(&shop, 80, 24, "here: H03L gore 6"));
    end(&shop);
}

static void a_piece_that_is_not_there_is_answered_with_those_that_are(void **state) {
    (void)state;
    static const struct {
        const char *typed, *words;
    } wrong[] = {
        {"F09 4", "There is no piece F09: there are F01 to F08, H01L to H08R, B01 to B08."},
        {"X3", "There is no piece X3:"},
        {"", "Type a piece and its gore, such as F01 1: there are F01 to F08"},
        {"H03L 4", "H03L is not in gore 4: that one is billowed."},
        {"H03L 40", "There is no gore 40; there are 1 to 16."},
        {"H03L 2 99", "H03L has no dimension 99; it has 1 to "},
        {"F01 1 1 1", "\"1\" is too much"},
    };
    for (size_t i = 0; i < COUNT_OF(wrong); i++) {
        struct shop shop;
        begin_mixed(&shop);
        assert_false(bench_jump(&shop.bench, wrong[i].typed));
        if (strstr(shop.bench.notice, wrong[i].words) == NULL)
            fail_msg("\"%s\": %s", wrong[i].typed, shop.bench.notice);
        act(&shop, BENCH_SHOW_OVERVIEW);
        assert_false(bench_jump(&shop.bench, wrong[i].typed));
        assert_int_equal(shop.bench.view, BENCH_OVERVIEW);
        struct text text = drawn(&shop, 80, 22); /* said to its last word */
        assert_non_null(strstr(text.bytes, strrchr(shop.bench.notice, ' ') + 1));
        text_free(&text);
        end(&shop);
    }
}

/* ---- any size ------------------------------------------------------------------------ */

enum { WIDEST = 200, TALLEST = 60, FRAME = 2 };

static void check_frame(const struct canvas *canvas, size_t columns, size_t rows) {
    for (size_t r = 0; r < canvas->rows; r++)
        for (size_t c = 0; c < canvas->columns; c++) {
            struct cell cell = canvas->cell[r * canvas->columns + c];
            bool inside = r >= FRAME && c >= FRAME && r < FRAME + rows && c < FRAME + columns;
            if (inside ? cell.glyph < ' ' || cell.glyph > '~' || cell.kind >= CELL_KIND_COUNT
                       : cell.glyph != '~')
                fail_msg("%zu x %zu: cell %zu, %zu", columns, rows, c, r);
        }
}

static void it_draws_inside_any_window_from_1_by_1_to_200_by_60(void **state) {
    (void)state;
    struct shop shop[2];
    struct dice dice = {60};
    static struct cell cell[(WIDEST + 2 * FRAME) * (TALLEST + 2 * FRAME)];
    begin_mixed(&shop[0]);
    begin(&shop[1], BILLOWED);
    for (size_t rows = 1; rows <= TALLEST; rows++)
        for (size_t columns = 1; columns <= WIDEST; columns++) {
            struct shop *one = &shop[(rows + columns) % 2];
            struct canvas canvas = {columns + 2 * FRAME, rows + 2 * FRAME, cell};
            for (size_t i = 0; i < canvas.columns * canvas.rows; i++)
                cell[i] = (struct cell){'~', CELL_TEXT};
            if (dice_whole(&dice, 0, 9) == 0)
                act(one, (enum bench_action)dice_whole(&dice, 0, BENCH_ACTION_COUNT - 1));
            one->bench.view = (enum bench_view)(rows * columns % 3);
            one->bench.step = (size_t)dice_whole(&dice, 0, (int)one->bench.marking.count);
            bench_draw_in(&one->bench, &canvas,
                          (struct canvas_box){FRAME, FRAME, (double)columns, (double)rows});
            check_frame(&canvas, columns, rows);
        }
    end(&shop[0]);
    end(&shop[1]);
}

/* Whatever else there is no room for: which piece, which figure, what to do. */
static void the_figure_and_its_name_stand_in_any_window_of_some_size(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    act(&shop, BENCH_NEXT);
    char length[32], figure[64];
    snprintf(figure, sizeof figure, "%s mm.",
             format_length(&shop.design, shop.bench.marking.step[1].value_m, length));
    for (size_t rows = 1; rows <= TALLEST; rows++)
        for (size_t columns = 24; columns <= WIDEST; columns += 11) {
            assert_true(shows(&shop, columns, rows, figure));
            if (rows >= 2)
                assert_true(shows(&shop, columns, rows, "F01  gore 1 of 16"));
        }
    end(&shop);
}

static void every_size_of_envelope_can_be_looked_over(void **state) {
    (void)state;
    struct dice dice = {8};
    for (int i = 0; i < 40; i++) {
        struct shop shop;
        struct design design;
        envelope_free(random_envelope(&dice, &design));
        begin_design(&shop, &design);
        static const size_t sizes[][2] = {{80, 24}, {40, 12}, {132, 43}, {200, 60}};
        for (size_t s = 0; s < COUNT_OF(sizes); s++) {
            shop.bench.view = BENCH_OVERVIEW;
            char first[48];
            snprintf(first, sizeof first, "here: %s gore %zu", shop.bench.piece,
                     shop.bench.at.gore);
            assert_true(shows(&shop, sizes[s][0], sizes[s][1], first));
            assert_true(shows(&shop, sizes[s][0], sizes[s][1], "to mark "));
            shop.bench.view = BENCH_MEASURE;
            for (shop.bench.step = 0; shop.bench.step <= shop.bench.marking.count;
                 shop.bench.step += 7)
                assert_true(shows(&shop, sizes[s][0], sizes[s][1], shop.bench.piece));
            shop.bench.step = 0;
            bench_act(&shop.bench, BENCH_NEXT_PIECE);
        }
        end(&shop);
    }
}

/* ---- golden screens ------------------------------------------------------------------ */

static void screens_look_as_they_did_when_they_were_looked_at(void **state) {
    (void)state;
    static const struct {
        const char *name, *piece;
        enum style style;
        enum units units;
        size_t step;
    } screen[] = {
        {"faceted", "F03 7", FACETED, UNITS_MM, 3},
        {"half-gore", "H04R 2", HALF_GORE, UNITS_INCH, 2},
        {"billowed", "B05 16", BILLOWED, UNITS_MM, 15},
        {"all-shown", "F03 7", FACETED, UNITS_MM, 1000},
    };
    for (size_t i = 0; i < COUNT_OF(screen); i++) {
        struct design design;
        struct shop shop;
        design_starter(&design);
        design.gores.style = (int)screen[i].style;
        design.paper.units = (int)screen[i].units;
        begin_design(&shop, &design);
        assert_true(bench_jump(&shop.bench, screen[i].piece));
        for (size_t s = 0; s < screen[i].step && shop.bench.step < shop.bench.marking.count; s++)
            act(&shop, BENCH_NEXT);
        check_golden(&shop, screen[i].name, 80, 24);
        check_golden(&shop, screen[i].name, 132, 43);
        end(&shop);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(next_shows_every_dimension_once_in_the_order_of_the_sheet),
        cmocka_unit_test(after_the_last_dimension_comes_the_next_piece_to_mark),
        cmocka_unit_test(back_goes_to_the_dimension_before_and_round_to_the_last),
        cmocka_unit_test(the_drawing_has_the_line_lit_that_is_measured),
        cmocka_unit_test(figures_are_big_from_80_by_20_on_and_grow_with_the_window),
        cmocka_unit_test(a_tick_is_put_and_taken_back_by_the_same_key),
        cmocka_unit_test(undo_takes_back_tick_after_tick_wherever_they_were_made),
        cmocka_unit_test(undo_shows_the_piece_whose_tick_it_took_back),
        cmocka_unit_test(without_a_file_all_is_shown_and_nothing_ticked),
        cmocka_unit_test(a_record_that_can_only_be_read_says_so_and_why),
        cmocka_unit_test(it_begins_at_the_first_piece_not_marked),
        cmocka_unit_test(every_template_and_every_gore_of_it_is_reached),
        cmocka_unit_test(next_to_do_looks_for_the_tick_made_last),
        cmocka_unit_test(when_all_is_done_it_says_so),
        cmocka_unit_test(a_piece_is_found_by_what_is_typed),
        cmocka_unit_test(a_dimension_of_a_piece_is_found_by_its_number),
        cmocka_unit_test(in_the_overview_a_piece_that_is_typed_is_marked_there),
        cmocka_unit_test(a_piece_that_is_not_there_is_answered_with_those_that_are),
        cmocka_unit_test(it_draws_inside_any_window_from_1_by_1_to_200_by_60),
        cmocka_unit_test(the_figure_and_its_name_stand_in_any_window_of_some_size),
        cmocka_unit_test(every_size_of_envelope_can_be_looked_over),
        cmocka_unit_test(screens_look_as_they_did_when_they_were_looked_at),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
