/* test_layout_command.c - the layout by the command: kept, shown again, never lost. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char small[] = "format = 1;\nname = \"Small\";\nsize: { volume = 2.0; };\n"
                            "gores: { count = 8; };\nrows: { count = 6; };\n";

/* A fresh design, and nothing kept beside it. */
static void set_up(void) {
    struct outcome cleaned = run("cd %s; rm -rf *", scratch_folder());
    outcome_free(&cleaned);
    scratch_file("small.cfg", small);
}

/* Run in the scratch folder. */
static struct outcome here(const char *command) {
    return run("cd %s; %s", scratch_folder(), command);
}

static void expect(const char *command, int status, const char *out, const char *err) {
    struct outcome outcome = here(command);
    if (outcome.status != status || strstr(outcome.out, out) == NULL ||
        strstr(outcome.err, err) == NULL)
        fail_msg("%s\nstatus %d\n%s\n%s", command, outcome.status, outcome.out, outcome.err);
    outcome_free(&outcome);
}

static void a_layout_is_shown_again_byte_for_byte(void **state) {
    (void)state;
    set_up();
    expect("$GW layout --effort 1 small.cfg >one; $GW layout small.cfg >two; cmp one two && "
           "test -s one && $GW layout --effort 1 --anew small.cfg >three; cmp one three && ls",
           0, "one\nsmall.cfg\nsmall.cfg.cutting\nthree\ntwo\n", "");
    expect("$GW layout small.cfg", 0, "This layout is kept", "");
    expect("$GW materials small.cfg", 0, "that is kept beside the design", "");
}

static void what_does_not_touch_the_pieces_leaves_the_layout(void **state) {
    (void)state;
    set_up();
    expect("$GW layout --effort 1 small.cfg >one; echo \"rig: { fuel = 0.5; };\" >>small.cfg;"
           "$GW layout small.cfg >two; cmp one two",
           0, "", "");
    expect("echo \"cutting: { gap = 0.001; };\" >>small.cfg; $GW layout small.cfg", 0,
           "1.0 mm apart", "small.cfg.cutting: warning: pieces or cloth have changed");
}

static void a_layout_that_no_longer_holds_is_an_error_and_stays(void **state) {
    (void)state;
    set_up();
    expect("$GW layout --effort 1 small.cfg >one; cp small.cfg.cutting before;"
           "sed -i s/2.0/2.5/ small.cfg; $GW layout small.cfg -o new",
           1, "", "small.cfg.cutting: error: the design has changed");
    expect("cmp before small.cfg.cutting; test ! -e new && echo none", 0, "none", "");
    expect("$GW materials small.cfg", 1, "", "make a new one with --anew");
    expect("$GW layout --anew --effort 1 small.cfg >two; cmp before small.cfg.cutting", 1, "differ",
           "");
    expect("$GW layout small.cfg >three; cmp two three", 0, "", "");
}

static void a_broken_file_is_named_with_its_line_and_left_alone(void **state) {
    (void)state;
    set_up();
    expect("$GW layout --effort 1 small.cfg >one; sed -i \"12s/ / x /\" small.cfg.cutting;"
           "cp small.cfg.cutting before; $GW layout small.cfg",
           1, "", "small.cfg.cutting:12: error: this line is not understood");
    expect("cmp before small.cfg.cutting", 0, "", "");
    expect("echo mine >small.cfg.cutting; $GW layout --anew small.cfg", 1, "",
           "is not a cutting layout; move it away");
    expect("cat small.cfg.cutting", 0, "mine\n", "");
}

static void the_kept_file_is_no_place_for_a_page(void **state) {
    (void)state;
    set_up();
    expect("$GW layout --effort 1 small.cfg >one; $GW layout small.cfg -o small.cfg.cutting", 1, "",
           "small.cfg.cutting: keeps the layout of this design; choose another name");
    expect("$GW layout small.cfg >two; cmp one two", 0, "", "");
}

static void a_design_from_standard_input_keeps_nothing(void **state) {
    (void)state;
    set_up();
    expect("$GW layout --effort 1 - <small.cfg >one; test -s one && ls", 0, "one\nsmall.cfg\n", "");
}

static void the_layout_of_a_linked_design_is_kept_beside_the_file_itself(void **state) {
    (void)state;
    set_up();
    expect("mkdir a; ln -s ../small.cfg a/link.cfg; $GW layout --effort 1 a/link.cfg >one; ls . a",
           0, "small.cfg.cutting", "");
    expect("ls a", 0, "link.cfg\n", "");
}

static void a_folder_that_takes_no_file_brings_a_warning_and_the_page(void **state) {
    (void)state;
    set_up();
    expect("(ulimit -f 0; $GW layout --effort 1 small.cfg 2>&1) | cat", 0,
           "warning: this layout is not kept: ", "");
    expect("(ulimit -f 0; $GW layout --effort 1 small.cfg 2>&1) | cat", 0, "WHAT TO BUY", "");
    expect("ls", 0, "small.cfg\n", "");
}

static void wrong_values_of_its_options_are_refused(void **state) {
    (void)state;
    set_up();
    expect("$GW layout --effort 0 small.cfg", 2, "", "--effort: '0' is not a whole number from 1");
    expect("$GW layout --effort 9 small.cfg", 2, "", "from 1 to 8");
    expect("$GW layout --effort 4.5 small.cfg", 2, "", "--effort: '4.5'");
    expect("$GW layout --form drawing small.cfg", 2, "", "use text or postscript");
    expect("$GW cutlist --anew small.cfg", 2, "", "cutlist does not take --anew; layout does");
    expect("ls", 0, "small.cfg\n", "");
}

static void the_map_on_paper_goes_to_a_file(void **state) {
    (void)state;
    set_up();
    expect("$GW layout --effort 1 --form postscript small.cfg | head -1", 0, "%!PS-Adobe-3.0", "");
    expect("$GW layout --form ps --paper 90x90mm small.cfg -o new", 1, "",
           "command line: error: --paper: 90x90mm is too small");
    struct outcome shown = run_on_terminal("$GW layout --form postscript small.cfg");
    assert_int_equal(shown.status, 2);
    assert_non_null(strstr(shown.out, "no use on a terminal"));
    outcome_free(&shown);
}

static void a_long_search_says_how_far_it_is_on_a_terminal_alone(void **state) {
    (void)state;
    set_up();
    struct outcome shown = run_on_terminal("$GW layout --effort 4 --anew small.cfg -o page");
    assert_int_equal(shown.status, 0);
    assert_non_null(strstr(shown.out, "\rlayout "));
    assert_non_null(strstr(shown.out, " m so far"));
    outcome_free(&shown);
    expect("$GW layout --effort 1 --anew small.cfg -o page; ls", 0, "page", "");
    struct outcome silent = here("$GW layout --effort 1 --anew small.cfg -o page");
    assert_string_equal(silent.err, "");
    outcome_free(&silent);
}

static void a_piece_too_wide_for_its_colour_is_named_with_it(void **state) {
    (void)state;
    set_up();
    scratch_file("colours.cfg", "format = 1;\nsize: { volume = 2.0; };\ngores: { count = 8; };\n"
                                "rows: { count = 3; };\ncolours: { cloths = ((\"W\", \"white\"), "
                                "(\"R\", \"red\", 0.5)); fill = \"bands\"; };\n");
    expect("$GW layout colours.cfg", 1, "",
           "piece F02 with its allowances takes 0.680 m of the cloth's width, and cloth R, red, "
           "has 0.480 m between its selvedges");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_layout_is_shown_again_byte_for_byte),
        cmocka_unit_test(what_does_not_touch_the_pieces_leaves_the_layout),
        cmocka_unit_test(a_layout_that_no_longer_holds_is_an_error_and_stays),
        cmocka_unit_test(a_broken_file_is_named_with_its_line_and_left_alone),
        cmocka_unit_test(the_kept_file_is_no_place_for_a_page),
        cmocka_unit_test(a_design_from_standard_input_keeps_nothing),
        cmocka_unit_test(the_layout_of_a_linked_design_is_kept_beside_the_file_itself),
        cmocka_unit_test(a_folder_that_takes_no_file_brings_a_warning_and_the_page),
        cmocka_unit_test(wrong_values_of_its_options_are_refused),
        cmocka_unit_test(the_map_on_paper_goes_to_a_file),
        cmocka_unit_test(a_long_search_says_how_far_it_is_on_a_terminal_alone),
        cmocka_unit_test(a_piece_too_wide_for_its_colour_is_named_with_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
