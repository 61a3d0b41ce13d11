/* test_screens.c - the screens in a real terminal: the walk from size to paper, editing, files,
 * the bench, any size of window. */
#include "tmux.h"

static void begin_starter(void) {
    program_begins(80, 24, "screen-256color", "");
    wait_for("How big is it to be?");
}

static void begin_design(const char *content) {
    scratch_file("avocet.cfg", content);
    program_begins(80, 24, "screen-256color", "avocet.cfg");
    wait_for("How big is it to be?");
}

/* ---- the walk ------------------------------------------------------------------------ */

static void enter_alone_leads_to_the_templates_of_the_command_line(void **state) {
    (void)state;
    begin_starter();
    send("Enter");
    wait_for("[Shape]");
    send("Enter");
    wait_for("[Gores]");
    send("Enter");
    wait_for("[Cloth]");
    send("Enter");
    wait_for("[Colours]");
    send("Enter");
    wait_for("[Flight]");
    send("Enter");
    wait_for("Enter writes 54 sheets of A4");
    send("Enter");
    wait_for("Written, 54 sheets");
    send("q");
    wait_for("ended with 0");
    struct outcome outcome =
        run("cd %s && $GW templates starter.cfg | cmp - starter-templates.ps && "
            "$GW sheets starter.cfg | cmp - starter-sheets.txt",
            scratch_folder());
    if (outcome.status != 0)
        fail_msg("%s%s", outcome.out, outcome.err);
    outcome_free(&outcome);
}

static void enter_in_a_hurry_does_the_same(void **state) {
    (void)state;
    begin_starter();
    send("Enter Enter Enter Enter Enter Enter Enter");
    wait_for("Written, 54 sheets");
    send("q");
    wait_for("ended with 0");
    assert_true(there_is("starter-templates.ps"));
}

static void steps_go_back_as_they_came(void **state) {
    static const char *const names[] = {"[Size]",    "[Shape]",  "[Gores]", "[Cloth]",
                                        "[Colours]", "[Flight]", "[Paper]"};
    (void)state;
    begin_starter();
    for (size_t i = 1; i < COUNT_OF(names); i++) {
        send("NPage");
        wait_for(names[i]);
    }
    for (size_t i = COUNT_OF(names) - 1; i > 0; i--) {
        send("BSpace");
        wait_for(names[i - 1]);
    }
}

static void the_size_step_shows_the_envelope_and_its_measures(void **state) {
    (void)state;
    begin_starter();
    wait_for("from the side");
    wait_for("2667.0");
    wait_for("Volume 12.00 m3");
}

static void the_shape_step_changes_the_mouth(void **state) {
    (void)state;
    begin_starter();
    send("Enter");
    wait_for("What outline");
    send("Down");
    type("70 cm");
    send("Enter");
    wait_for("mouth 700.0");
}

static void the_gores_step_prices_the_styles(void **state) {
    (void)state;
    begin_starter();
    send("Enter Enter Down");
    wait_for("half-gore  256 pieces");
    send("Right");
    wait_for("Pieces 256*");
    wait_for("was 128");
}

static void the_cloth_step_changes_a_seam(void **state) {
    (void)state;
    begin_starter();
    send("Enter Enter Enter Down Down");
    wait_for("< felled >");
    send("Right");
    wait_for("< plain >");
}

static void the_colours_step_makes_stripes_of_two_names(void **state) {
    (void)state;
    begin_starter();
    send("Enter Enter Enter Enter Down Down Space");
    type("white, red");
    send("Enter");
    wait_for("R red     64 pieces");
    wait_for("1 W R W R W R W R W R W R W R W R");
    send("Right");
    wait_for("2 R R R R R R R R R R R R R R R R");
}

static void the_flight_step_follows_what_is_carried_and_shows_whole_pages(void **state) {
    (void)state;
    begin_starter();
    send("Enter Enter Enter Enter Enter");
    wait_for("Will it fly");
    wait_for("; envelope ");
    send("Down Down Down");
    type("2 kg");
    send("Enter");
    wait_for("TOO HEAVY");
    send("p");
    wait_for("1 WHAT IT WEIGHS");
    send("Escape");
    wait_without("1 WHAT IT WEIGHS");
    wait_for("Will it fly");
    send("w");
    wait_for("WHICH STYLE");
    send("Escape");
    wait_without("WHICH STYLE");
    wait_for("Will it fly");
}

static void the_paper_step_counts_sheets_of_another_paper(void **state) {
    (void)state;
    begin_starter();
    send("Enter Enter Enter Enter Enter Enter Space C-u");
    type("roll 914mm");
    send("Enter");
    wait_for("3 pages on 4.4 m of roll");
    assert_false(there_is("starter-templates.ps"));
}

/* ---- editing ------------------------------------------------------------------------------ */

static void a_wrong_value_is_explained_and_mended(void **state) {
    (void)state;
    begin_starter();
    send("Down");
    type("15 kg");
    send("Enter");
    wait_for("is not a unit for a volume");
    send("BSpace BSpace");
    type("m3");
    send("Enter");
    wait_for("Volume 15.00 m3*");
}

static void a_value_being_typed_can_be_left(void **state) {
    (void)state;
    begin_starter();
    send("Down");
    type("15");
    wait_for("leave it as it was");
    send("Escape");
    wait_for("Enter go on");
    wait_for("Volume 12.00 m3");
}

static void a_change_is_undone_and_done_again(void **state) {
    (void)state;
    begin_starter();
    send("Down");
    type("15");
    send("Enter");
    wait_for("Volume 15.00 m3*");
    send("u");
    wait_for("Volume 12.00 m3*");
    send("r");
    wait_for("Volume 15.00 m3*");
}

static void a_choice_is_found_by_its_letters(void **state) {
    (void)state;
    begin_starter();
    send("/");
    type("selv");
    wait_for("Selvedge");
    send("Enter");
    wait_for("[Cloth]");
    wait_for(">Selvedge, each side");
}

static void help_names_the_keys_and_is_left(void **state) {
    (void)state;
    begin_starter();
    send("?");
    wait_for("Keys of the steps");
    send("End");
    wait_for("Keys among pieces that no longer fit");
    send("Home");
    wait_for("Keys of the steps");
    send("Escape");
    wait_for("How big is it to be?");
}

/* The terminal here is of another kind than it says: it sends "\\033[1~" and "\\033[4~". */
static void home_and_end_are_known_on_a_terminal_that_sends_others(void **state) {
    (void)state;
    program_begins(80, 24, "xterm-256color", "");
    wait_for("How big is it to be?");
    send("End");
    wait_for(">Units");
    send("Home");
    wait_for(">Size is fixed by");
}

static void other_drawings_come_in_turn(void **state) {
    static const char *const names[] = {"one gore laid flat",
                                        "one piece",
                                        "from tape to tape",
                                        "all panels, unrolled",
                                        "colours: gores across, rows up",
                                        "from the side"};
    (void)state;
    begin_starter();
    for (size_t i = 0; i < COUNT_OF(names); i++) {
        send("v");
        wait_for(names[i]);
    }
}

/* ---- files ---------------------------------------------------------------------------------- */

static void a_starter_is_chosen(void **state) {
    (void)state;
    begin_starter();
    send("n");
    wait_for("First envelope, 2 m tall");
    send("Enter");
    wait_for("< height >");
}

static void a_design_is_saved_under_a_name(void **state) {
    (void)state;
    begin_starter();
    send("s");
    wait_for("Save as: starter.cfg");
    send("C-u");
    type("heron.cfg");
    send("Enter");
    wait_for("Saved in heron.cfg");
    assert_true(there_is("heron.cfg"));
    send("q");
    wait_for("ended with 0");
}

static void a_design_is_opened_from_the_list(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\nsize: { height = 4.0; };\n");
    begin_starter();
    send("o");
    wait_for(">avocet.cfg");
    send("Enter");
    wait_for("4000.0");
}

static void leaving_asks_only_when_something_would_be_lost(void **state) {
    (void)state;
    begin_starter();
    send("Down Right q");
    wait_for("There are changes that are not saved");
    send("Escape");
    wait_for("Enter go on");
    send("u q");
    wait_for("ended with 0");
}

static void a_second_instance_reads_only(void **state) {
    (void)state;
    begin_design("format = 1;\nname = \"Avocet\";\n");
    do_shell(TMUX "split-window -h 'sh %s/run.sh'", socket_path(), scratch_folder());
    resize(170, 24);
    wait_for("reads only");
}

/* ---- any window ------------------------------------------------------------------------------ */

static void a_storm_of_sizes_is_survived(void **state) {
    static const int sizes[][2] = {{1, 1},   {200, 60}, {2, 2},   {80, 24}, {79, 24},
                                   {80, 23}, {132, 43}, {10, 60}, {200, 3}, {100, 30}};
    (void)state;
    begin_starter();
    for (int round = 0; round < 4; round++)
        for (size_t i = 0; i < COUNT_OF(sizes); i++)
            resize(sizes[i][0], sizes[i][1]);
    resize(80, 24);
    wait_for("How big is it to be?");
    send("Enter");
    wait_for("What outline");
    send("q");
    wait_for("ended with 0");
}

static void a_small_window_says_so_and_keeps_its_keys(void **state) {
    (void)state;
    begin_starter();
    resize(60, 15);
    wait_for("make the window larger (80x24)");
    send("Enter Enter");
    resize(80, 24);
    wait_for("[Gores]");
}

static void a_larger_window_shows_a_larger_drawing(void **state) {
    (void)state;
    begin_starter();
    resize(132, 43);
    wait_for("b bench  Down choose");
    wait_for("widest 3058.0");
}

/* ---- the bench ---------------------------------------------------------------------------------
 */

static void ticks_survive_a_kill(void **state) {
    (void)state;
    begin_design("format = 1;\nname = \"Avocet\";\n");
    send("b");
    wait_for("0 marked, 0 cut, 0 sewn of 16");
    send("m");
    wait_for("1 marked, 0 cut, 0 sewn of 16");
    send("c");
    wait_for("1 marked, 1 cut, 0 sewn of 16");
    send("PageDown m");
    wait_for("2 marked, 1 cut, 0 sewn of 16");
    pid_t pid = program_pid();
    send_signal(SIGKILL);
    wait_for_end(pid);
    program_begins(80, 24, "screen-256color", "avocet.cfg");
    wait_for("How big is it to be?");
    send("b");
    wait_for("2 marked, 1 cut, 0 sewn of 16");
}

static void the_bench_goes_through_the_dimensions(void **state) {
    (void)state;
    begin_design("format = 1;\nname = \"Avocet\";\n");
    send("b");
    wait_for("corners: A");
    send("Enter");
    wait_for("corners: B");
    wait_without("corners: A");
    send("BSpace");
    wait_for("corners: A");
    send("/");
    type("F03 7");
    send("Enter");
    wait_for("F03  gore 7 of 16");
    send("o");
    wait_for("What is left to do");
    send("Right Up");
    wait_for("here: F04 gore 8");
    send("Escape");
    wait_for("F04  gore 8 of 16");
    send("f");
    wait_for("Every cut piece fits this design.");
    send("Escape");
    wait_for("F04  gore 8 of 16");
    send("Escape");
    wait_for("How big is it to be?");
}

static void a_colour_is_typed_and_taken_back_with_single_keys(void **state) {
    (void)state;
    begin_starter();
    send("NPage NPage NPage NPage Down");
    wait_for("a to z type");
    type("signal red");
    wait_for("signal red");
    send("Enter");
    wait_for("not saved");
    send("u");
    wait_for("Colour                white");
    send("Down Space Left Left");
    wait_for("Ctrl-U clear");
    send("C-u Escape");
    wait_for("a to z type");
}

static void the_bench_of_a_new_design_asks_for_its_name(void **state) {
    (void)state;
    begin_starter();
    send("b");
    wait_for("Save as: starter.cfg");
    send("Enter");
    wait_for("[Bench]");
    send("m");
    wait_for("1 marked");
    assert_true(there_is("starter.cfg.bench"));
}

int main(void) {
    if (!has_tool("tmux")) {
        puts("no tmux here: the screens were not tried in a terminal");
        return 0;
    }
    const struct CMUnitTest tests[] = {
        IN_TERMINAL(enter_alone_leads_to_the_templates_of_the_command_line),
        IN_TERMINAL(enter_in_a_hurry_does_the_same),
        IN_TERMINAL(steps_go_back_as_they_came),
        IN_TERMINAL(the_size_step_shows_the_envelope_and_its_measures),
        IN_TERMINAL(the_shape_step_changes_the_mouth),
        IN_TERMINAL(the_gores_step_prices_the_styles),
        IN_TERMINAL(the_cloth_step_changes_a_seam),
        IN_TERMINAL(the_colours_step_makes_stripes_of_two_names),
        IN_TERMINAL(the_flight_step_follows_what_is_carried_and_shows_whole_pages),
        IN_TERMINAL(the_paper_step_counts_sheets_of_another_paper),
        IN_TERMINAL(a_wrong_value_is_explained_and_mended),
        IN_TERMINAL(a_value_being_typed_can_be_left),
        IN_TERMINAL(a_change_is_undone_and_done_again),
        IN_TERMINAL(a_choice_is_found_by_its_letters),
        IN_TERMINAL(help_names_the_keys_and_is_left),
        IN_TERMINAL(home_and_end_are_known_on_a_terminal_that_sends_others),
        IN_TERMINAL(other_drawings_come_in_turn),
        IN_TERMINAL(a_starter_is_chosen),
        IN_TERMINAL(a_design_is_saved_under_a_name),
        IN_TERMINAL(a_design_is_opened_from_the_list),
        IN_TERMINAL(leaving_asks_only_when_something_would_be_lost),
        IN_TERMINAL(a_second_instance_reads_only),
        IN_TERMINAL(a_storm_of_sizes_is_survived),
        IN_TERMINAL(a_small_window_says_so_and_keeps_its_keys),
        IN_TERMINAL(a_larger_window_shows_a_larger_drawing),
        IN_TERMINAL(ticks_survive_a_kill),
        IN_TERMINAL(the_bench_goes_through_the_dimensions),
        IN_TERMINAL(a_colour_is_typed_and_taken_back_with_single_keys),
        IN_TERMINAL(the_bench_of_a_new_design_asks_for_its_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
