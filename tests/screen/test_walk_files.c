/* test_walk_files.c - saving, opening, starters, leaving, and work that was cut short. */
#include "walking.h"

/* ---- files --------------------------------------------------------------------------------- */

static void leaving_asks_only_when_something_would_be_lost(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press(walk, 'q');
    assert_true(walk->finished);
    walk_free(walk);
    walk = begin(NULL);
    set_value(walk, "gores.count", "14");
    press(walk, 'q');
    assert_false(walk->finished);
    assert_int_equal(walk->over, OVER_QUESTION);
    press(walk, PRESS_ESCAPE);
    assert_int_equal(walk->over, OVER_NOTHING);
    press(walk, 'q');
    press(walk, 'l');
    assert_true(walk->finished);
    walk_free(walk);
    assert_int_not_equal(access("starter.cfg", F_OK), 0);
}

static void leaving_can_save_first(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "gores.count", "14");
    press(walk, 'q');
    press(walk, 's');
    assert_int_equal(walk->over, OVER_TYPING);
    press(walk, PRESS_ENTER); /* the name that is offered */
    assert_true(walk->finished);
    walk_free(walk);
    walk = begin("starter.cfg");
    assert_int_equal(walk->session->design.gores.count, 14);
    walk_free(walk);
}

static void a_design_is_saved_and_saved_under_another_name(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    assert_shown(walk, "not saved");
    press(walk, 's');
    press(walk, PRESS_ERASE_LINE);
    type(walk, "heron.cfg");
    press(walk, PRESS_ENTER);
    assert_int_equal(access("heron.cfg", F_OK), 0);
    assert_shown(walk, "heron.cfg");
    assert_not_shown(walk, "not saved");
    set_value(walk, "gores.count", "14");
    assert_shown(walk, "not saved");
    press(walk, 'a');
    press(walk, PRESS_ERASE_LINE);
    type(walk, "egret.cfg");
    press(walk, PRESS_ENTER);
    assert_string_equal(walk->session->path, "egret.cfg");
    walk_free(walk);
    walk = begin("heron.cfg");
    assert_int_equal(walk->session->design.gores.count, 16);
    walk_free(walk);
}

static void a_file_of_the_same_name_is_asked_about(void **state) {
    (void)state;
    scratch_file("heron.cfg", "format = 1;\n# by hand\n");
    struct walk *walk = begin(NULL);
    press(walk, 'a');
    press(walk, PRESS_ERASE_LINE);
    type(walk, "heron.cfg");
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->over, OVER_QUESTION);
    press(walk, 'w');
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_string_equal(walk->session->path, "heron.cfg");
    assert_int_equal(access("heron.cfg.before", F_OK), 0);
    walk_free(walk);
}

static void a_design_is_opened_from_the_list(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    scratch_file("zebra.txt", "no design");
    struct walk *walk = begin(NULL);
    press(walk, 'o');
    assert_shown(walk, ">avocet.cfg");
    assert_not_shown(walk, "zebra");
    press(walk, PRESS_ENTER);
    assert_string_equal(walk->session->design.name, "Avocet");
    press(walk, 'o');
    press(walk, PRESS_DOWN);
    press(walk, PRESS_ENTER);
    type(walk, "zebra.txt");
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->notice_kind, CELL_ERROR);
    assert_string_equal(walk->session->design.name, "Avocet");
    walk_free(walk);
}

static void a_starter_is_chosen_by_what_it_is_good_for(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press(walk, 'n');
    assert_shown(walk, "First envelope");
    press(walk, PRESS_ENTER);
    assert_string_equal(walk->session->design.name, "First envelope");
    press(walk, 'q');
    assert_true(walk->finished); /* nothing of one's own is lost */
    walk_free(walk);
}

static void the_second_instance_reads_only_and_says_so(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *first = begin("avocet.cfg"), *second = begin("avocet.cfg");
    assert_shown(second, "reads only");
    assert_not_shown(first, "reads only");
    press(second, 's');
    assert_int_equal(second->over, OVER_TYPING); /* another name */
    walk_free(second);
    walk_free(first);
}

/* The first one has not been at the bench: nothing holds the record, and yet. */
static void the_second_instance_makes_no_ticks(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *first = begin("avocet.cfg"), *second = begin("avocet.cfg");
    press(second, 'b');
    assert_true(second->at_bench);
    press(second, 'm');
    assert_shown(second, "0 marked");
    assert_int_equal(access("avocet.cfg.bench", F_OK), -1);
    press(first, 'b');
    press(first, 'm');
    assert_shown(first, "1 marked");
    press(second, 'm');
    walk_free(second);
    walk_free(first);
}

static void work_cut_short_is_offered_again(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    set_value(walk, "gores.count", "14");
    assert_int_equal(session_write_recovery(walk->session, &messages), 0);
    walk_free(walk);
    walk = begin("avocet.cfg");
    assert_int_equal(walk->over, OVER_QUESTION);
    assert_shown(walk, "was cut short");
    press(walk, 't');
    assert_int_equal(walk->session->design.gores.count, 14);
    assert_shown(walk, "not saved");
    press(walk, 's');
    walk_free(walk);
    walk = begin("avocet.cfg");
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_int_equal(walk->session->design.gores.count, 14);
    walk_free(walk);
    diagnostics_free(&messages);
}

static void work_cut_short_can_be_forgotten(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    set_value(walk, "gores.count", "14");
    assert_int_equal(session_write_recovery(walk->session, &messages), 0);
    walk_free(walk);
    walk = begin("avocet.cfg");
    press(walk, 'f');
    assert_int_equal(walk->session->design.gores.count, 16);
    walk_free(walk);
    walk = begin("avocet.cfg");
    assert_int_equal(walk->over, OVER_NOTHING);
    walk_free(walk);
    diagnostics_free(&messages);
}

int main(void) {
    if (!keep_apart())
        return 1;
    const struct CMUnitTest tests[] = {
        IN_FOLDER(leaving_asks_only_when_something_would_be_lost),
        IN_FOLDER(leaving_can_save_first),
        IN_FOLDER(a_design_is_saved_and_saved_under_another_name),
        IN_FOLDER(a_file_of_the_same_name_is_asked_about),
        IN_FOLDER(a_design_is_opened_from_the_list),
        IN_FOLDER(a_starter_is_chosen_by_what_it_is_good_for),
        IN_FOLDER(the_second_instance_reads_only_and_says_so),
        IN_FOLDER(the_second_instance_makes_no_ticks),
        IN_FOLDER(work_cut_short_is_offered_again),
        IN_FOLDER(work_cut_short_can_be_forgotten),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
