/* test_bench_lists.c - the overview of the bench, what is left to do, and cut pieces that no longer
 * fit. */
#include "at_bench.h"

/* ---- how many are left, and which ------------------------------------------------------------ */

static void it_says_how_many_are_to_be_marked_and_which_one_first(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    assert_true(shows(&shop, 80, 24, "128 of 128 still to mark: this one, then F01 gore 2."));
    act(&shop, BENCH_SHOW_OVERVIEW);
    assert_true(shows(&shop, 80, 24, "\nto mark  128 of 128, next F01 gore 1\n"));
    act(&shop, BENCH_TICK_MARKED);
    assert_true(shows(&shop, 80, 24, "\nto mark  127 of 128, next F01 gore 2\n"));
    act(&shop, BENCH_OPEN);
    assert_true(shows(&shop, 80, 24, "127 of 128 still to mark: next F01 gore 2."));
    end(&shop);
}

static void the_last_piece_to_mark_is_named_as_the_last(void **state) {
    (void)state;
    struct design design;
    struct shop shop;
    design_starter(&design);
    design.gores.count = 3;
    design.rows.count = 2;
    design.cloth.width_m = 5;
    begin_design(&shop, &design);
    for (int i = 0; i < 5; i++) {
        act(&shop, BENCH_TICK_MARKED);
        act(&shop, BENCH_NEXT_TO_DO);
    }
    act(&shop, BENCH_FIRST);
    assert_true(shows(&shop, 80, 24, "1 of 6 still to mark: this one."));
    act(&shop, BENCH_TICK_MARKED);
    act(&shop, BENCH_FIRST);
    assert_true(shows(&shop, 80, 24, "Every piece is marked."));
    end(&shop);
}

/* ---- the overview -------------------------------------------------------------------------- */

static void the_overview_shows_a_letter_for_each_piece(void **state) {
    (void)state;
    struct shop shop;
    begin_mixed(&shop);
    bench_jump(&shop.bench, "F08 1");
    act(&shop, BENCH_TICK_MARKED);
    bench_jump(&shop.bench, "H08L 2");
    act(&shop, BENCH_TICK_CUT);
    bench_jump(&shop.bench, "H08R 2");
    act(&shop, BENCH_TICK_SEWN);
    bench_jump(&shop.bench, "F01 1");
    act(&shop, BENCH_SHOW_OVERVIEW);
    assert_true(shows(&shop, 80, 24, "\n  8   m   cs  .   .   .   ..  ."));
    assert_true(shows(&shop, 80, 24, "\n  1  >.   ..  .   .   .   ..  ."));
    assert_true(shows(&shop, 80, 24, "\nto mark  157 of 160, next F01 gore 1\n"));
    assert_true(shows(&shop, 80, 24, "\nto cut   158 of 160, next "));
    assert_true(shows(&shop, 80, 24, "\nto sew   159 of 160, next F01 gore 1\n"));
    assert_true(shows(&shop, 80, 24, "\nwhite: 3 marked, 2 cut, 1 sewn of 160\n"));
    end(&shop);
}

static void in_the_overview_keys_move_as_the_eye_does(void **state) {
    (void)state;
    struct shop shop;
    begin_mixed(&shop);
    act(&shop, BENCH_SHOW_OVERVIEW);
    act(&shop, BENCH_PREVIOUS_PIECE); /* up, towards the crown */
    assert_at(&shop, "F02", 1);
    static const struct {
        const char *piece;
        size_t gore;
    } right[] = {{"H02L", 2}, {"H02R", 2}, {"F02", 3}, {"B02", 4}, {"F02", 5}};
    for (size_t i = 0; i < COUNT_OF(right); i++) {
        act(&shop, BENCH_NEXT);
        assert_at(&shop, right[i].piece, right[i].gore);
    }
    for (size_t i = COUNT_OF(right) - 1; i-- > 0;) {
        act(&shop, BENCH_BACK);
        assert_at(&shop, right[i].piece, right[i].gore);
    }
    act(&shop, BENCH_NEXT_PIECE);
    assert_at(&shop, "H01L", 2);
    act(&shop, BENCH_NEXT_PIECE); /* the mouth is the end */
    assert_at(&shop, "H01L", 2);
    act(&shop, BENCH_LAST);
    assert_at(&shop, "B01", 16);
    act(&shop, BENCH_FIRST);
    assert_at(&shop, "F01", 1);
    act(&shop, BENCH_NEXT_GORE); /* the next that has this piece, as beside its dimensions */
    assert_at(&shop, "F01", 3);
    act(&shop, BENCH_PREVIOUS_GORE);
    assert_at(&shop, "F01", 1);
    act(&shop, BENCH_OPEN);
    assert_int_equal(shop.bench.view, BENCH_MEASURE);
    assert_at(&shop, "F01", 1);
    end(&shop);
}

static void the_first_and_the_last_dimension_are_one_key_away(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, BILLOWED);
    act(&shop, BENCH_LAST);
    assert_int_equal(shop.bench.step, shop.bench.marking.count - 1);
    act(&shop, BENCH_FIRST);
    assert_int_equal(shop.bench.step, 0);
    end(&shop);
}

/* ---- a changed design ------------------------------------------------------------------------ */

static void it_stays_at_its_piece_when_the_design_changes(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    bench_jump(&shop.bench, "F07 9");
    act(&shop, BENCH_NEXT);
    struct design design = shop.design;
    design.size.volume_m3 = 11;
    change(&shop, &design);
    assert_at(&shop, "F07", 9);
    assert_int_equal(shop.bench.step, 1);
    assert_string_equal(shop.bench.notice, "");
    design.rows.count = 6;
    design.cloth.width_m = 5;
    change(&shop, &design);
    assert_at(&shop, "F01", 1);
    assert_int_equal(shop.bench.step, 0);
    end(&shop);
}

static void cut_pieces_that_no_longer_fit_are_told_of_marked_and_listed(void **state) {
    (void)state;
    struct shop shop;
    begin(&shop, FACETED);
    bench_jump(&shop.bench, "F03 2");
    act(&shop, BENCH_TICK_CUT);
    struct design design = shop.design;
    design.seams.row_width_m = 0.012;
    change(&shop, &design);
    assert_string_equal(shop.bench.notice,
                        "1 cut piece no longer fits this design: f shows which.");
    assert_true(shop.bench.notice_is_error);
    act(&shop, BENCH_NEXT);
    assert_true(
        shows(&shop, 80, 24, "cut before the design changed: its bottom allowance was 10.0 mm"));
    act(&shop, BENCH_SHOW_OVERVIEW);
    assert_true(shows(&shop, 80, 24, "\n  3   . >!  .  ."));
    assert_true(shows(&shop, 80, 24, "! cut, no longer fits: 1"));
    act(&shop, BENCH_SHOW_MISFITS);
    assert_true(shows(&shop, 80, 24, "1 cut piece no longer fits this design."));
    assert_true(shows(&shop, 80, 24,
                      "F03 gore 2    bottom allowance  was       10.0  is       12.0 mm  +2.0"));
    assert_true(shows(&shop, 80, 24, "top allowance"));
    act(&shop, BENCH_SHOW_MISFITS);
    act(&shop, BENCH_TICK_CUT);
    act(&shop, BENCH_TICK_CUT);
    act(&shop, BENCH_SHOW_MISFITS);
    assert_true(shows(&shop, 80, 24, "Every cut piece fits this design."));
    end(&shop);
}

/* One misfit in each of 16 gores, and the list of them shown. */
static void begin_with_misfits(struct shop *shop) {
    begin(shop, FACETED);
    for (int gore = 0; gore < 16; gore++) {
        act(shop, BENCH_TICK_CUT);
        act(shop, BENCH_NEXT_GORE);
    }
    struct design design = shop->design;
    design.seams.row_width_m = 0.012;
    change(shop, &design);
    act(shop, BENCH_SHOW_MISFITS);
}

static void the_list_of_misfits_is_gone_through(void **state) {
    (void)state;
    struct shop shop;
    begin_with_misfits(&shop);
    assert_int_equal(shop.bench.misfits.count, 16);
    assert_false(act(&shop, BENCH_BACK));
    assert_true(shows(&shop, 80, 10, "F01 gore 1 "));
    assert_false(shows(&shop, 80, 10, "F01 gore 16 "));
    assert_true(shows(&shop, 80, 10, "0 more above, "));
    for (int i = 0; i < 15; i++)
        assert_true(act(&shop, BENCH_NEXT));
    assert_false(act(&shop, BENCH_NEXT));
    assert_true(shows(&shop, 80, 10, "F01 gore 16 "));
    assert_true(shows(&shop, 80, 10, ", 0 more below"));
    end(&shop);
}

static void a_piece_in_the_list_of_misfits_is_gone_to(void **state) {
    (void)state;
    struct shop shop;
    begin_with_misfits(&shop);
    act(&shop, BENCH_NEXT_PIECE);
    assert_true(shows(&shop, 80, 24, "\n>F01 gore 2 "));
    act(&shop, BENCH_OPEN);
    assert_int_equal(shop.bench.view, BENCH_MEASURE);
    assert_at(&shop, "F01", 2);
    act(&shop, BENCH_SHOW_MISFITS);
    act(&shop, BENCH_LAST);
    assert_true(shows(&shop, 80, 10, "\n>F01 gore 16 "));
    act(&shop, BENCH_SHOW_DIMENSIONS);
    assert_at(&shop, "F01", 2);
    struct design design = shop.design;
    design.gores.style = BILLOWED;
    change(&shop, &design);
    act(&shop, BENCH_SHOW_MISFITS);
    assert_false(act(&shop, BENCH_OPEN));
    assert_true(shows(&shop, 80, 24, "This design has no F01 in gore 1 any more"));
    end(&shop);
}

/* The third figure of a line is the second less the first, in the unit and the steps shown. */
static void a_difference_is_that_of_the_two_figures_shown(void **state) {
    (void)state;
    static const enum units units[] = {UNITS_MM, UNITS_INCH};
    for (size_t u = 0; u < COUNT_OF(units); u++) {
        struct shop shop;
        begin(&shop, BILLOWED);
        shop.design.paper.units = (int)units[u];
        for (int template = 0; template <8; template ++) {
            act(&shop, BENCH_TICK_CUT);
            act(&shop, BENCH_NEXT_PIECE);
        }
        struct design design = shop.design;
        design.size.volume_m3 *= 1.0037;
        change(&shop, &design);
        act(&shop, BENCH_SHOW_MISFITS);
        size_t compared = 0, hidden = 0;
        for (size_t i = 0; i < shop.bench.misfits.count; i++) {
            const struct misfit *misfit = &shop.bench.misfits.item[i];
            double step_m = length_step_m(&shop.design), was_m, is_m;
            char line[160], was[32], is[32], differs[32];
            format_length(&shop.design, misfit->was_m, was);
            format_length(&shop.design, misfit->is_m, is);
            was_m = printed_length_m(&shop.design, misfit->was_m);
            is_m = printed_length_m(&shop.design, misfit->is_m);
            bool same = fabs(is_m - was_m) < step_m / 2;
            format_length(&shop.design, same ? step_m : fabs(is_m - was_m), differs);
            snprintf(line, sizeof line, "was %10s  is %10s %s  %s%s\n", was, is,
                     length_unit(&shop.design),
                     same           ? "< "
                     : is_m > was_m ? "+"
                                    : "-",
                     differs);
            if (!shows(&shop, 80, 200, line))
                fail_msg("not listed: %s", line);
            compared += !same;
            hidden += same;
        }
        assert_true(compared > 10 && compared + hidden == shop.bench.misfits.count);
        end(&shop);
    }
}

static void a_list_of_misfits_that_fits_is_shown_whole_and_begins_at_its_top(void **state) {
    (void)state;
    struct shop shop;
    begin_with_misfits(&shop);
    for (int i = 0; i < 15; i++)
        act(&shop, BENCH_NEXT);
    assert_true(shows(&shop, 80, 30, "F01 gore 1 "));
    assert_true(shows(&shop, 80, 30, "F01 gore 16 "));
    assert_false(shows(&shop, 80, 30, "more below"));
    assert_false(shows(&shop, 80, 10, "F01 gore 1 "));
    act(&shop, BENCH_SHOW_MISFITS);
    act(&shop, BENCH_SHOW_MISFITS);
    assert_true(shows(&shop, 80, 10, "F01 gore 1 "));
    end(&shop);
}

/* ---- golden screens ---------------------------------------------------------------------------
 */

static void lists_look_as_they_did_when_they_were_looked_at(void **state) {
    (void)state;
    struct shop shop;
    begin_mixed(&shop);
    static const char *const cut[] = {"F03 1", "H03L 2", "H03R 2", "B05 4"};
    for (size_t i = 0; i < COUNT_OF(cut); i++) {
        bench_jump(&shop.bench, cut[i]);
        act(&shop, i == 0 ? BENCH_TICK_SEWN : BENCH_TICK_CUT);
    }
    bench_jump(&shop.bench, "H07L 6");
    act(&shop, BENCH_TICK_MARKED);
    act(&shop, BENCH_SHOW_OVERVIEW);
    check_golden(&shop, "overview", 80, 24);
    check_golden(&shop, "overview", 132, 43);
    struct design design = shop.design;
    design.seams.row_width_m = 0.012;
    design.gores.mix.value[3] = FACETED;
    change(&shop, &design);
    act(&shop, BENCH_OPEN); /* and what it says of the change is read */
    act(&shop, BENCH_SHOW_OVERVIEW);
    check_golden(&shop, "overview-misfits", 80, 24);
    act(&shop, BENCH_SHOW_MISFITS);
    check_golden(&shop, "misfits", 80, 24);
    check_golden(&shop, "misfits", 132, 43);
    end(&shop);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_says_how_many_are_to_be_marked_and_which_one_first),
        cmocka_unit_test(the_last_piece_to_mark_is_named_as_the_last),
        cmocka_unit_test(the_overview_shows_a_letter_for_each_piece),
        cmocka_unit_test(in_the_overview_keys_move_as_the_eye_does),
        cmocka_unit_test(the_first_and_the_last_dimension_are_one_key_away),
        cmocka_unit_test(it_stays_at_its_piece_when_the_design_changes),
        cmocka_unit_test(cut_pieces_that_no_longer_fit_are_told_of_marked_and_listed),
        cmocka_unit_test(the_list_of_misfits_is_gone_through),
        cmocka_unit_test(a_piece_in_the_list_of_misfits_is_gone_to),
        cmocka_unit_test(a_difference_is_that_of_the_two_figures_shown),
        cmocka_unit_test(a_list_of_misfits_that_fits_is_shown_whole_and_begins_at_its_top),
        cmocka_unit_test(lists_look_as_they_did_when_they_were_looked_at),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
