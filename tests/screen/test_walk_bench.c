/* test_walk_bench.c - the bench as a place of the walk-through. */
#include "screen/walking.h"

/* ---- the bench ----------------------------------------------------------------------------- */

static void the_bench_asks_for_a_name_first_and_keeps_its_ticks(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press(walk, 'b');
    assert_int_equal(walk->over, OVER_TYPING);
    press(walk, PRESS_ENTER);
    assert_true(walk->at_bench);
    assert_shown(walk, "[Bench]");
    press(walk, 'm');
    press(walk, PRESS_ESCAPE);
    assert_false(walk->at_bench);
    walk_free(walk);
    walk = begin("starter.cfg");
    press(walk, 'b');
    struct record_choice all = {0};
    assert_int_equal(
        record_count(walk->record, &walk->session->design, walk->session->envelope, all)
            .done[TICK_MARKED],
        1);
    walk_free(walk);
}

static void the_bench_follows_a_changed_design(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    press(walk, 'b');
    press(walk, 'c');
    press(walk, PRESS_ESCAPE);
    set_value(walk, "size.volume", "14");
    press(walk, 'b');
    assert_int_equal(walk->bench.misfits.pieces, 1);
    assert_ptr_equal(walk->bench.envelope, walk->session->envelope);
    walk_free(walk);
}

/* ---- cut pieces that a change no longer fits ----------------------------------------------------
 */

static void pieces_that_no_longer_fit_are_told_where_the_change_is_made(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    press(walk, 'b');
    press(walk, 'c');
    press(walk, PRESS_ESCAPE);
    assert_not_shown(walk, "no longer fit");
    set_value(walk, "seams.row_width", "12 mm");
    assert_shown(walk, "1 cut piece no longer fits this design: f shows which.");
    press(walk, PRESS_PAGE_DOWN); /* as long as it is so */
    assert_shown(walk, "1 cut piece no longer fits this design: f shows which.");
    press(walk, 'f');
    assert_true(walk->at_bench);
    assert_int_equal(walk->bench.view, BENCH_MISFITS);
    assert_shown(walk, ">F01 gore 1");
    press(walk, PRESS_ESCAPE);
    press(walk, PRESS_ESCAPE);
    assert_false(walk->at_bench);
    press(walk, 'u');
    assert_not_shown(walk, "no longer fit");
    set_value(walk, "gores.mix", "bf"); /* the cursor stays where letters are typed */
    assert_shown(walk, "1 cut piece no longer fits this design: f shows which.");
    walk_free(walk);
}

/* The record is looked at although the bench was not opened, and is not held. */
static void pieces_cut_on_another_day_are_told_of_too(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    press(walk, 'b');
    press(walk, 'c');
    walk_free(walk);
    walk = begin("avocet.cfg");
    set_value(walk, "seams.row_width", "12 mm");
    assert_shown(walk, "1 cut piece no longer fits this design: f shows which.");
    assert_null(walk->record);
    press(walk, 'a'); /* the ticks come along */
    type(walk, "egret.cfg");
    press(walk, PRESS_ENTER);
    press(walk, PRESS_DOWN);
    assert_shown(walk, "1 cut piece no longer fits this design: f shows which.");
    walk_free(walk);
}

static void pieces_cut_for_a_design_behind_a_link_are_found(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    assert_int_equal(symlink("avocet.cfg", "link.cfg"), 0);
    struct walk *walk = begin("link.cfg");
    press(walk, 'b');
    press(walk, 'c');
    walk_free(walk);
    walk = begin("link.cfg");
    set_value(walk, "seams.row_width", "12 mm");
    assert_shown(walk, "1 cut piece no longer fits this design: f shows which.");
    walk_free(walk);
}

static void without_misfits_their_key_says_that_all_fits(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    press(walk, 'f');
    assert_shown(walk, "Every cut piece fits this design.");
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->bench.view, BENCH_MEASURE);
    walk_free(walk);
}

/* ---- the keys of its views
 * ------------------------------------------------------------------------ */

static struct walk *walk_at_bench(void) {
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    press(walk, 'b');
    assert_true(walk->at_bench);
    return walk;
}

static void each_view_of_the_bench_has_a_line_of_keys_and_leads_back(void **state) {
    (void)state;
    static const struct {
        int key;
        enum bench_view view;
        const char *line;
    } views[] = {{'o', BENCH_OVERVIEW, "Enter go on  Right move  m marked"},
                 {'f', BENCH_MISFITS, "Enter go on  Down choose  o overview"}};
    struct walk *walk = walk_at_bench();
    assert_shown(walk, "Enter go on  Bksp back  m marked  c cut  s sewn  o overview");
    assert_shown(walk, "? help  Esc steps");
    for (size_t i = 0; i < COUNT_OF(views); i++) {
        press(walk, views[i].key);
        assert_int_equal(walk->bench.view, views[i].view);
        assert_shown(walk, views[i].line);
        assert_shown(walk, "? help  Esc back");
        press(walk, PRESS_ESCAPE);
        assert_true(walk->at_bench);
        assert_int_equal(walk->bench.view, BENCH_MEASURE);
    }
    press(walk, PRESS_ESCAPE);
    assert_false(walk->at_bench);
    walk_free(walk);
}

static void arrows_move_the_mark_of_the_overview(void **state) {
    (void)state;
    struct walk *walk = walk_at_bench();
    press(walk, 'o');
    press(walk, PRESS_RIGHT);
    assert_shown(walk, "here: F01 gore 2");
    press(walk, PRESS_UP);
    assert_shown(walk, "here: F02 gore 2");
    press(walk, PRESS_LEFT);
    assert_shown(walk, "here: F02 gore 1");
    press(walk, PRESS_PAGE_DOWN);
    assert_shown(walk, "here: F02 gore 2");
    press(walk, PRESS_END);
    assert_shown(walk, "here: F02 gore 16");
    press(walk, PRESS_HOME);
    assert_shown(walk, "here: F02 gore 1");
    press(walk, '/');
    type(walk, "F07 3");
    press(walk, PRESS_ENTER);
    assert_shown(walk, "here: F07 gore 3");
    press(walk, ' ');
    assert_shown(walk, "F07  gore 3 of 16");
    walk_free(walk);
}

static void a_digit_goes_to_the_same_piece_in_another_gore(void **state) {
    (void)state;
    struct walk *walk = walk_at_bench();
    type(walk, "12");
    press(walk, PRESS_ENTER);
    assert_shown(walk, "F01  gore 12 of 16");
    walk_free(walk);
}

/* Left for the steps and entered again it stands where it was left. */
static void the_bench_is_taken_up_where_it_was_left(void **state) {
    (void)state;
    struct walk *walk = walk_at_bench();
    press(walk, '/');
    type(walk, "F05 3 4");
    press(walk, PRESS_ENTER);
    assert_shown(walk, "4 of ");
    press(walk, PRESS_ESCAPE);
    press(walk, 'b');
    assert_shown(walk, "F05  gore 3 of 16");
    assert_shown(walk, "4 of ");
    walk_free(walk);
}

int main(void) {
    if (!keep_apart())
        return 1;
    const struct CMUnitTest tests[] = {
        IN_FOLDER(the_bench_asks_for_a_name_first_and_keeps_its_ticks),
        IN_FOLDER(the_bench_follows_a_changed_design),
        IN_FOLDER(pieces_that_no_longer_fit_are_told_where_the_change_is_made),
        IN_FOLDER(pieces_cut_on_another_day_are_told_of_too),
        IN_FOLDER(pieces_cut_for_a_design_behind_a_link_are_found),
        IN_FOLDER(without_misfits_their_key_says_that_all_fits),
        IN_FOLDER(each_view_of_the_bench_has_a_line_of_keys_and_leads_back),
        IN_FOLDER(arrows_move_the_mark_of_the_overview),
        IN_FOLDER(a_digit_goes_to_the_same_piece_in_another_gore),
        IN_FOLDER(the_bench_is_taken_up_where_it_was_left),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
