/* test_walk_files.c - the files of the walk-through: names as they are typed, what becomes of the
 * ticks, work that was cut short, and leaving. */
#include "screen/walking.h"

#include "screen/session_file.h"

static const char avocet[] = "format = 1;\nname = \"Avocet\";\n";

static bool is_there(const char *path) {
    return access(path, F_OK) == 0;
}

static char *content_of(const char *path) {
    static char bytes[65536];
    struct text text = {0};
    assert_int_equal(file_read(path, sizeof bytes - 1, &text), 0);
    snprintf(bytes, sizeof bytes, "%s", text.bytes == NULL ? "" : text.bytes);
    text_free(&text);
    return bytes;
}

static struct walk *begin_avocet(void) {
    scratch_file("avocet.cfg", avocet);
    return begin("avocet.cfg");
}

/* Type a name where one is asked for. */
static void name_it(struct walk *walk, const char *name) {
    assert_int_equal(walk->over, OVER_TYPING);
    press(walk, PRESS_ERASE_LINE);
    type(walk, name);
    press(walk, PRESS_ENTER);
}

static void open_typed(struct walk *walk, const char *name) {
    press(walk, 'o');
    press_times(walk, PRESS_DOWN, FILES_MOST);
    press(walk, PRESS_ENTER);
    name_it(walk, name);
}

/* ---- opening ---------------------------------------------------------------------- */

static void the_open_design_opened_again_can_still_be_saved(void **state) {
    (void)state;
    struct walk *walk = begin_avocet();
    press(walk, 'b');
    press(walk, 'm');
    press(walk, PRESS_ESCAPE);
    press(walk, 'o');
    assert_shown(walk, ">avocet.cfg");
    press(walk, PRESS_ENTER);
    assert_shown(walk, "avocet.cfg is open.");
    assert_not_shown(walk, "reads only");
    set_value(walk, "gores.count", "14");
    press(walk, 's');
    assert_shown(walk, "Saved in avocet.cfg");
    press(walk, 'b');
    assert_shown(walk, "1 marked");
    press(walk, 'c');
    assert_shown(walk, "1 cut");
    walk_free(walk);
    assert_false(is_there("avocet.cfg.lock"));
}

static void a_design_is_opened_without_its_ending_where_that_alone_is_there(void **state) {
    (void)state;
    scratch_file("heron.cfg", "format = 1;\nname = \"Heron\";\n");
    struct walk *walk = begin_avocet();
    open_typed(walk, "heron");
    assert_string_equal(walk->session->path, "heron.cfg");
    assert_string_equal(walk->session->design.name, "Heron");
    scratch_file("heron", "format = 1;\nname = \"Other\";\n");
    open_typed(walk, "heron");
    assert_string_equal(walk->session->path, "heron");
    open_typed(walk, "stork");
    assert_int_equal(walk->notice_kind, CELL_ERROR);
    assert_string_equal(walk->session->path, "heron");
    walk_free(walk);
}

static void what_stands_in_the_way_of_saving_is_said_when_a_design_is_opened(void **state) {
    (void)state;
    struct walk *first = begin_avocet(), *second = begin("avocet.cfg");
    assert_shown(second, "Fire, gas, height");
    assert_shown(second, "has this design open");
    press(second, PRESS_DOWN);
    open_typed(second, "avocet");
    assert_shown(second, "has this design open");
    walk_free(second);
    walk_free(first);
}

/* ---- saving ----------------------------------------------------------------------- */

static void a_name_without_an_ending_is_saved_as_a_design(void **state) {
    static const char *const names[][2] = {{"heron", "heron.cfg"},
                                           {"heron.txt", "heron.txt"},
                                           {"big heron 2", "big heron 2.cfg"},
                                           {".hidden", ".hidden.cfg"},
                                           {"v1.2/heron", "v1.2/heron.cfg"},
                                           {"heron.", "heron."}};
    (void)state;
    struct walk *walk = begin_avocet();
    assert_int_equal(system("mkdir v1.2"), 0);
    for (size_t i = 0; i < COUNT_OF(names); i++) {
        press(walk, 'a');
        name_it(walk, names[i][0]);
        assert_string_equal(walk->session->path, names[i][1]);
        assert_true(is_there(names[i][1]));
    }
    walk_free(walk);
    scratch_file("plain", avocet); /* a name it has already is its own */
    walk = begin("plain");
    press(walk, 'a');
    press(walk, PRESS_ENTER);
    assert_string_equal(walk->session->path, "plain");
    assert_false(is_there("plain.cfg"));
    walk_free(walk);
}

static void a_tilde_stands_for_the_home_folder(void **state) {
    (void)state;
    char home[256], path[300];
    const char *before = getenv("HOME");
    char kept[256];
    snprintf(kept, sizeof kept, "%s", before == NULL ? "/" : before);
    snprintf(home, sizeof home, "%s/home", scratch_folder());
    snprintf(path, sizeof path, "%s/heron.cfg", home);
    assert_int_equal(setenv("HOME", home, 1), 0);
    struct walk *walk = begin_avocet();
    assert_int_equal(system("mkdir home"), 0);
    press(walk, 'a');
    name_it(walk, "~/heron");
    assert_string_equal(walk->session->path, path);
    open_typed(walk, "avocet.cfg");
    open_typed(walk, "~/heron");
    assert_string_equal(walk->session->path, path);
    press(walk, 'a');
    name_it(walk, "~"); /* is a folder, whatever may stand beside it */
    assert_int_equal(walk->notice_kind, CELL_ERROR);
    assert_string_equal(walk->session->path, path);
    press(walk, 'a');
    name_it(walk, "~heron"); /* no folder of anybody's */
    assert_string_equal(walk->session->path, "~heron.cfg");
    walk_free(walk);
    assert_int_equal(setenv("HOME", kept, 1), 0);
}

/* ---- the ticks -------------------------------------------------------------------- */

static void ticks_come_along_as_a_copy_under_another_name(void **state) {
    (void)state;
    struct walk *walk = begin_avocet();
    press(walk, 'b');
    press(walk, 'c');
    press(walk, PRESS_ESCAPE);
    press(walk, 'a');
    name_it(walk, "heron");
    assert_shown(walk, "Saved in heron.cfg.");
    assert_shown(walk, "a copy of the ticks of avocet.cfg");
    char old[4096];
    snprintf(old, sizeof old, "%s", content_of("avocet.cfg.bench"));
    assert_string_equal(content_of("heron.cfg.bench"), old);
    press(walk, 'b');
    assert_shown(walk, "1 cut");
    press(walk, 's');
    assert_shown(walk, "1 sewn");
    assert_string_equal(content_of("avocet.cfg.bench"), old);
    walk_free(walk);
}

static void without_ticks_nothing_is_said_of_them(void **state) {
    (void)state;
    struct walk *walk = begin_avocet();
    press(walk, 'a');
    name_it(walk, "heron");
    assert_shown(walk, "Saved in heron.cfg.");
    assert_not_shown(walk, "ticks");
    assert_false(is_there("heron.cfg.bench"));
    press(walk, 'a');
    press(walk, PRESS_ENTER); /* under its own name */
    assert_not_shown(walk, "ticks");
    walk_free(walk);
}

static void ticks_that_are_there_already_are_left_as_they_are(void **state) {
    (void)state;
    static const char theirs[] = "gorewright bench record 1\ndesign Stork\nmarked F01 gore 2\n";
    scratch_file("stork.cfg.bench", theirs);
    struct walk *walk = begin_avocet();
    press(walk, 'b');
    press(walk, 'c');
    press(walk, PRESS_ESCAPE);
    press(walk, 'a');
    name_it(walk, "stork");
    assert_shown(walk, "already beside it stay as they are");
    assert_string_equal(content_of("stork.cfg.bench"), theirs);
    press(walk, 'b');
    assert_shown(walk, "made for a design named \"Stork\"");
    walk_free(walk);
}

/* A record is not accused of being another design's while its design is renamed. */
static void the_record_follows_a_new_name_of_the_design(void **state) {
    (void)state;
    struct walk *walk = begin_avocet();
    press(walk, 'b');
    press(walk, 'm');
    press(walk, PRESS_ESCAPE);
    set_value(walk, "name", "Heron");
    press(walk, 'b');
    press(walk, 'c'); /* not saved yet: still the record of Avocet */
    press(walk, PRESS_ESCAPE);
    assert_null(strstr(content_of("avocet.cfg.bench"), "Heron"));
    press(walk, 's');
    assert_non_null(strstr(content_of("avocet.cfg.bench"), "design Heron\n"));
    walk_free(walk);
    walk = begin("avocet.cfg");
    press(walk, 'b');
    assert_not_shown(walk, "were made for");
    assert_shown(walk, "1 cut");
    press(walk, PRESS_ESCAPE);
    set_value(walk, "name", "Stork");
    walk_free(walk); /* without saving */
    walk = begin("avocet.cfg");
    set_value(walk, "name", "Egret");
    press(walk, 'b'); /* opened under a name not saved yet */
    assert_not_shown(walk, "were made for");
    press(walk, PRESS_ESCAPE);
    press(walk, 'a');
    name_it(walk, "egret");
    assert_null(strstr(content_of("avocet.cfg.bench"), "Egret"));
    assert_non_null(strstr(content_of("egret.cfg.bench"), "design Egret\n"));
    press(walk, 'b');
    assert_not_shown(walk, "were made for");
    walk_free(walk);
}

static void a_record_not_opened_here_follows_too(void **state) {
    (void)state;
    scratch_file("avocet.cfg.bench",
                 "gorewright bench record 1\ndesign Avocet\nmarked F01 gore 2\n");
    struct walk *walk = begin_avocet();
    set_value(walk, "name", "Heron");
    press(walk, 's');
    walk_free(walk);
    assert_string_equal(
        content_of("avocet.cfg.bench"),
        "gorewright bench record 1\ndesign Avocet\nmarked F01 gore 2\ndesign Heron\n");
}

/* ---- work that was cut short ------------------------------------------------------ */

/* As a signal would, with a key that was pressed but not worked out yet. */
static void cut_short(struct walk *walk, struct text *farewell) {
    walk_keep_work(walk, farewell);
    walk_free(walk);
}

static void a_step_that_was_only_collected_is_kept(void **state) {
    (void)state;
    struct text farewell = {0};
    struct walk *walk = begin_avocet();
    go_to(walk, "gores.count");
    walk_key(walk, PRESS_RIGHT);
    walk_key(walk, PRESS_RIGHT);
    assert_false(walk->session->changed);
    cut_short(walk, &farewell);
    assert_string_equal(farewell.bytes, "gorewright: your unsaved work is kept; it is offered when "
                                        "you begin again with avocet.cfg.\n");
    text_free(&farewell);
    walk = begin("avocet.cfg");
    press(walk, 't');
    assert_int_equal(walk->session->design.gores.count, 18);
    walk_free(walk);
}

static void nothing_to_keep_is_nothing_to_say(void **state) {
    (void)state;
    struct text farewell = {0};
    cut_short(begin_avocet(), &farewell);
    assert_int_equal(farewell.length, 0);
    assert_false(is_there(".avocet.cfg.recovery"));
}

static void a_file_name_reaches_the_terminal_without_its_control_bytes(void **state) {
    (void)state;
    struct text farewell = {0};
    struct walk *walk = begin(scratch_file("e\033]0;gone\a\n.cfg", avocet));
    set_value(walk, "gores.count", "14");
    cut_short(walk, &farewell);
    assert_non_null(strstr(farewell.bytes, "/e?]0;gone??.cfg.\n"));
    for (const char *c = farewell.bytes; *c != '\0'; c++)
        assert_true((*c >= ' ' && *c <= '~') || (*c == '\n' && c[1] == '\0'));
    text_free(&farewell);
}

static void cut_short_with_gores(const char *gores) {
    struct text farewell = {0};
    struct walk *walk = begin("avocet.cfg");
    if (walk->over == OVER_QUESTION)
        press(walk, PRESS_ESCAPE); /* not answered */
    set_value(walk, "gores.count", gores);
    cut_short(walk, &farewell);
    text_free(&farewell);
}

static void work_that_was_not_answered_for_is_offered_after_the_other(void **state) {
    (void)state;
    scratch_file("avocet.cfg", avocet);
    cut_short_with_gores("12");
    cut_short_with_gores("14");
    cut_short_with_gores("18");
    struct walk *walk = begin("avocet.cfg");
    press(walk, 'f'); /* 12 */
    assert_int_equal(walk->over, OVER_QUESTION);
    press(walk, 't');
    assert_int_equal(walk->session->design.gores.count, 14);
    press(walk, 's');
    walk_free(walk);
    walk = begin("avocet.cfg");
    assert_int_equal(walk->over, OVER_QUESTION);
    press(walk, 't');
    assert_int_equal(walk->session->design.gores.count, 18);
    press(walk, 's');
    assert_int_equal(walk->over, OVER_QUESTION); /* it was made on an older file */
    press(walk, 'w');
    walk_free(walk);
    walk = begin("avocet.cfg");
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_int_equal(walk->session->design.gores.count, 18);
    walk_free(walk);
}

/* ---- leaving ---------------------------------------------------------------------- */

static void an_interrupt_leaves_what_is_open_before_it_quits(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    const struct design before = walk->session->design;
    go_to(walk, "name");
    press(walk, ' ');
    press(walk, PRESS_INTERRUPT);
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_true(design_same(&before, &walk->session->design));
    for (const char *key = "/an?p"; *key != '\0'; key++) {
        press(walk, *key);
        assert_int_not_equal(walk->over, OVER_NOTHING);
        press(walk, PRESS_INTERRUPT);
        assert_int_equal(walk->over, OVER_NOTHING);
    }
    set_value(walk, "gores.count", "14");
    press(walk, PRESS_INTERRUPT);
    assert_int_equal(walk->over, OVER_QUESTION);
    press(walk, PRESS_INTERRUPT);
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_false(walk->finished);
    press(walk, 'u');
    go_to(walk, "name"); /* where q is a letter */
    press(walk, PRESS_INTERRUPT);
    assert_true(walk->finished);
    walk_free(walk);
}

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
    press(walk, PRESS_ENTER); /* is no answer: nobody takes up unread what another left */
    assert_int_equal(walk->over, OVER_QUESTION);
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
        IN_FOLDER(the_open_design_opened_again_can_still_be_saved),
        IN_FOLDER(a_design_is_opened_without_its_ending_where_that_alone_is_there),
        IN_FOLDER(what_stands_in_the_way_of_saving_is_said_when_a_design_is_opened),
        IN_FOLDER(a_name_without_an_ending_is_saved_as_a_design),
        IN_FOLDER(a_tilde_stands_for_the_home_folder),
        IN_FOLDER(ticks_come_along_as_a_copy_under_another_name),
        IN_FOLDER(without_ticks_nothing_is_said_of_them),
        IN_FOLDER(ticks_that_are_there_already_are_left_as_they_are),
        IN_FOLDER(the_record_follows_a_new_name_of_the_design),
        IN_FOLDER(a_record_not_opened_here_follows_too),
        IN_FOLDER(a_step_that_was_only_collected_is_kept),
        IN_FOLDER(nothing_to_keep_is_nothing_to_say),
        IN_FOLDER(a_file_name_reaches_the_terminal_without_its_control_bytes),
        IN_FOLDER(work_that_was_not_answered_for_is_offered_after_the_other),
        IN_FOLDER(an_interrupt_leaves_what_is_open_before_it_quits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
