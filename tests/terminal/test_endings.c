/* test_endings.c - the screens on every kind of terminal, and every way they can end: signals,
 * a closed window, suspension, a crash; and what they cost. */
#include "tmux.h"

static void begin_design(void) {
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    program_begins(80, 24, "screen-256color", "avocet.cfg");
    wait_for("How big is it to be?");
}

static void change_it(void) {
    send("Down");
    type("15");
    send("Enter");
    wait_for("Volume 15.00 m3*");
}

static void wait_for_recovery_file(void) {
    for (int waited = 0; waited < PATIENCE_ms; waited += LOOK_EVERY_ms) {
        if (there_is(".avocet.cfg.recovery"))
            return;
        pause_a_little();
    }
    fail_msg("no unsaved work was kept");
}

/* Start again: the kept work is offered and taken up. */
static void assert_work_is_offered(void) {
    program_begins(80, 24, "screen-256color", "avocet.cfg");
    wait_for("Work on this design was cut short");
    send("t");
    wait_for("Here it is again");
    wait_for("Volume 15.00 m3");
    wait_for("not saved");
    send("s");
    wait_for("Saved in avocet.cfg");
    assert_false(there_is(".avocet.cfg.recovery"));
}

/* ---- signals ------------------------------------------------------------------------- */

static void check_signal(int number) {
    begin_design();
    change_it();
    send_signal(number);
    wait_for("your unsaved work is kept");
    wait_for("ended with 1");
    assert_work_is_offered();
}

static void sigterm_keeps_unsaved_work(void **state) {
    (void)state;
    check_signal(SIGTERM);
}

static void sighup_keeps_unsaved_work(void **state) {
    (void)state;
    check_signal(SIGHUP);
}

static void sigquit_keeps_unsaved_work(void **state) {
    (void)state;
    check_signal(SIGQUIT);
}

static void a_signal_with_nothing_unsaved_leaves_nothing(void **state) {
    (void)state;
    begin_design();
    send_signal(SIGTERM);
    wait_for("ended with 1");
    assert_false(there_is(".avocet.cfg.recovery"));
}

static void a_signal_while_typing_keeps_what_was_taken(void **state) {
    (void)state;
    begin_design();
    change_it();
    type("16");
    wait_for("leave it as it was");
    send_signal(SIGTERM);
    wait_for("ended with 1");
    assert_work_is_offered();
}

static void a_closed_terminal_keeps_unsaved_work(void **state) {
    (void)state;
    begin_design();
    change_it();
    pid_t pid = program_pid();
    terminal_end();
    wait_for_end(pid);
    wait_for_recovery_file();
    assert_work_is_offered();
}

static void work_without_a_name_is_kept_too(void **state) {
    (void)state;
    program_begins(80, 24, "screen-256color", "");
    wait_for("How big is it to be?");
    change_it();
    send_signal(SIGTERM);
    wait_for("ended with 1");
    program_begins(80, 24, "screen-256color", "");
    wait_for("Work on this design was cut short");
    send("f");
    wait_for("Volume 12.00 m3");
    send("q");
    wait_for("ended with 0");
    program_begins(80, 24, "screen-256color", "");
    wait_for("Enter go on");
}

static void an_interrupt_asks_before_anything_is_lost(void **state) {
    (void)state;
    begin_design();
    change_it();
    send("C-c");
    wait_for("There are changes that are not saved");
    send("Escape");
    wait_for("Enter go on");
    send("u");
    wait_for("Volume 12.00 m3*");
    send("C-c");
    wait_for("ended with 0");
}

static void an_interrupt_leaves_a_field_and_types_nothing(void **state) {
    (void)state;
    begin_design();
    send("Down Down Space End");
    wait_for("leave it as it was");
    type("uail");
    wait_for("Avocetuail");
    send("C-c");
    wait_for("Enter go on");
    wait_without("Avocetuail");
    wait_for(">Name                  Avocet  ");
    send("C-c"); /* nothing was changed */
    wait_for("ended with 0");
}

static void suspended_and_resumed_it_goes_on(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    terminal_begin(80, 24,
                   "PS1='ready: '; export PS1; TERM=screen-256color; export TERM\n"
                   "exec sh -i");
    wait_for("ready:");
    type("$GW avocet.cfg");
    send("Enter");
    wait_for("How big is it to be?");
    change_it();
    send("C-z");
    wait_for("ready:");
    wait_without("How big is it to be?");
    resize(100, 30);
    type("fg");
    send("Enter");
    wait_for("How big is it to be?");
    wait_for("Volume 15.00 m3*");
    send("u");
    wait_for("Volume 12.00 m3*");
    send("q");
    wait_for("ready:");
}

/* ---- the terminal is given back ---------------------------------------------------------- */

static void check_terminal_is_given_back(const char *how) {
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    terminal_begin(80, 24,
                   "TERM=screen-256color; export TERM; stty -a >before\n"
                   "sh -c 'echo $$ >pid; exec \"$GW\" avocet.cfg'\n"
                   "stty -a >after; cmp before after && echo \"as it was\"\nexec sleep 1000");
    wait_for("How big is it to be?");
    if (how[0] == 'q')
        send(how);
    else
        send_signal(atoi(how));
    wait_for("as it was");
    wait_without("How big is it to be?");
    char command[512];
    snprintf(command, sizeof command,
             TMUX "display-message -p 'cursor #{cursor_flag} alternate #{alternate_on}'",
             socket_path());
    char *state = output_of(command);
    assert_non_null(strstr(state, "cursor 1 alternate 0"));
}

static void leaving_gives_the_terminal_back(void **state) {
    (void)state;
    check_terminal_is_given_back("q");
}

static void a_crash_gives_the_terminal_back(void **state) {
    (void)state;
    check_terminal_is_given_back("11"); /* SIGSEGV */
}

static void an_abort_gives_the_terminal_back(void **state) {
    (void)state;
    check_terminal_is_given_back("6"); /* SIGABRT */
}

/* ---- kinds of terminal -------------------------------------------------------------------- */

static bool has_colours(void) {
    for (const char *at = screen_now("-e"); (at = strstr(at, "3")) != NULL; at++)
        if ((at[-1] == '[' || at[-1] == ';') && at[1] >= '0' && at[1] <= '7' &&
            (at[2] == 'm' || at[2] == ';'))
            return true; /* one of the eight, not the terminal's own */
    return false;
}

static void check_kind(const char *terminal, const char *arguments, bool colours) {
    program_begins(80, 24, terminal, arguments);
    wait_for("How big is it to be?");
    wait_for("q quit");
    assert_int_equal(has_colours(), colours);
    send("Right Down u Enter");
    wait_for("What outline");
    send("BSpace q");
    wait_for("ended with 0");
}

static void a_vt100_shows_all_of_it_without_colours(void **state) {
    (void)state;
    check_kind("vt100", "", false);
}

static void a_linux_console_shows_colours(void **state) {
    (void)state;
    check_kind("linux", "", true);
}

static void an_xterm_shows_colours(void **state) {
    (void)state;
    check_kind("xterm-256color", "", true);
}

static void mono_shows_no_colours(void **state) {
    (void)state;
    check_kind("xterm-256color", "--mono", false);
}

static void no_color_shows_no_colours(void **state) {
    (void)state;
    terminal_begin(80, 24,
                   "TERM=xterm-256color; NO_COLOR=1; export TERM NO_COLOR; \"$GW\"\nsleep 1000");
    wait_for("How big is it to be?");
    wait_for("q quit");
    assert_false(has_colours());
}

static void no_locale_and_a_name_with_accents_do_no_harm(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"H\xC3\xA9ron\";\n");
    terminal_begin(80, 24,
                   "TERM=linux; LC_ALL=C; export TERM LC_ALL; \"$GW\" avocet.cfg\nsleep 1000");
    wait_for("H?ron");
    send("s");
    wait_for("Saved in avocet.cfg");
    struct outcome outcome = run("grep -c H\xC3\xA9ron %s/avocet.cfg", scratch_folder());
    assert_string_equal(outcome.out, "1\n");
    outcome_free(&outcome);
}

static void a_dumb_terminal_is_refused_politely(void **state) {
    (void)state;
    program_begins(80, 24, "dumb", "");
    wait_for("cannot be shown on a terminal of the kind");
    wait_for("gorewright --help");
    wait_for("ended with 1");
}

static void an_unknown_terminal_is_refused_politely(void **state) {
    (void)state;
    program_begins(80, 24, "no-such-terminal", "");
    wait_for("do not know how to use this kind of terminal");
    wait_for("ended with 1");
}

static void no_terminal_is_refused_politely(void **state) {
    (void)state;
    struct outcome outcome = run("TERM=vt100 $GW");
    assert_int_equal(outcome.status, 2);
    assert_string_equal(outcome.out, "");
    assert_non_null(strstr(outcome.err, "the screens need a terminal"));
    outcome_free(&outcome);
}

static void a_file_that_is_no_design_is_refused_before_the_screens(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = ;\n");
    program_begins(80, 24, "screen-256color", "avocet.cfg");
    wait_for("avocet.cfg:2: error:");
    wait_for("ended with 1");
}

/* ---- what it costs --------------------------------------------------------------------------- */

/* With sanitizers inside, a program costs what they cost. */
#if defined(__SANITIZE_ADDRESS__)
#define MEASURED false
#else
#define MEASURED true
#endif

static void it_sleeps_while_nobody_types(void **state) {
    (void)state;
    if (!has_tool("strace"))
        return;
    begin_design();
    send("Right");
    wait_for("Height");
    struct outcome outcome = run("timeout 1 strace -f -o %s/calls -p %ld 2>/dev/null; cat %s/calls",
                                 scratch_folder(), (long)program_pid(), scratch_folder());
    /* Only the call it sleeps in, which ends when strace leaves. */
    size_t calls = 0;
    for (const char *c = outcome.out; *c != '\0'; c++)
        calls += *c == '\n';
    if (calls > 2 || strstr(outcome.out, "pselect6(") == NULL)
        fail_msg("while idle:\n%s", outcome.out);
    outcome_free(&outcome);
    send("q");
}

static void it_takes_no_more_memory_than_an_old_laptop_has(void **state) {
    char path[1024], line[128];
    long peak_kB = 0;
    (void)state;
    assert_non_null(realpath("samples/godwit.cfg", path));
    do_shell("cp %s %s/avocet.cfg", path, scratch_folder());
    program_begins(80, 24, "screen-256color", "avocet.cfg");
    wait_for("How big is it to be?");
    send("v v v Enter Enter Down Right Enter Enter");
    wait_for("Which colour");
    send("Home");
    for (int i = 0; i < 125; i++) /* each key alone, so that every change is kept for undo */
        send("Left Home Right Home Left Home Right Home");
    wait_for("< gradient >");
    send("Enter Enter");
    wait_for("Enter writes");
    resize(200, 60);
    wait_for("Down choose");
    send("Enter");
    wait_for("Written");
    snprintf(path, sizeof path, "/proc/%ld/status", (long)program_pid());
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    while (fgets(line, sizeof line, file) != NULL)
        sscanf(line, "VmHWM: %ld", &peak_kB);
    fclose(file);
    print_message("peak memory: %ld kB\n", peak_kB);
    assert_true(peak_kB > 1000);
    assert_true(peak_kB <= 10240 || !MEASURED);
}

/* Instructions from start to end with some keys pressed, each once the screen shows what is
 * waited for. */
static double instructions(const char *const (*steps)[2], size_t count) {
    terminal_begin(80, 24,
                   "TERM=screen-256color; export TERM\n"
                   "valgrind --tool=callgrind --callgrind-out-file=/dev/null --log-file=log "
                   "\"$GW\"\necho ended\nexec sleep 1000");
    wait_for("How big is it to be?");
    wait_for("q quit");
    for (size_t i = 0; i < count; i++) {
        send(steps[i][0]);
        wait_for(steps[i][1]);
    }
    send("q l");
    wait_for("ended");
    char command[256];
    snprintf(command, sizeof command, "awk '/Collected/ { print $4 }' %s/log", scratch_folder());
    return atof(output_of(command));
}

static void the_first_screen_and_a_change_take_few_instructions(void **state) {
    static const char *const change[][2] = {{"Down Right", "m3*"}};
    static const char *const style[][2] = {{"Enter Enter Down Down Down", ">Rows"},
                                           {"Right", "Pieces 144*"}};
    static const char *const there[][2] = {{"Enter Enter Down Down Down", ">Rows"}};
    (void)state;
    if (!MEASURED || !has_tool("valgrind"))
        return;
    double first = instructions(NULL, 0), changed = instructions(change, COUNT_OF(change));
    double rows = instructions(style, COUNT_OF(style)), at = instructions(there, COUNT_OF(there));
    print_message("million instructions: first screen %.1f, a changed size %.1f, one row more "
                  "%.1f\n",
                  first / 1e6, (changed - first) / 1e6, (rows - at) / 1e6);
    assert_true(first > 1e6 && first < 40e6);
    /* An envelope is built for each: less would mean that the key did nothing. */
    assert_true(changed - first > 1e6 && changed - first < 20e6);
    assert_true(rows - at > 1e6 && rows - at < 20e6);
}

int main(void) {
    if (!has_tool("tmux")) {
        puts("no tmux here: the screens were not tried in a terminal");
        return 0;
    }
    const struct CMUnitTest tests[] = {
        IN_TERMINAL(sigterm_keeps_unsaved_work),
        IN_TERMINAL(sighup_keeps_unsaved_work),
        IN_TERMINAL(sigquit_keeps_unsaved_work),
        IN_TERMINAL(a_signal_with_nothing_unsaved_leaves_nothing),
        IN_TERMINAL(a_signal_while_typing_keeps_what_was_taken),
        IN_TERMINAL(a_closed_terminal_keeps_unsaved_work),
        IN_TERMINAL(work_without_a_name_is_kept_too),
        IN_TERMINAL(an_interrupt_asks_before_anything_is_lost),
        IN_TERMINAL(an_interrupt_leaves_a_field_and_types_nothing),
        IN_TERMINAL(suspended_and_resumed_it_goes_on),
        IN_TERMINAL(leaving_gives_the_terminal_back),
        IN_TERMINAL(a_crash_gives_the_terminal_back),
        IN_TERMINAL(an_abort_gives_the_terminal_back),
        IN_TERMINAL(a_vt100_shows_all_of_it_without_colours),
        IN_TERMINAL(a_linux_console_shows_colours),
        IN_TERMINAL(an_xterm_shows_colours),
        IN_TERMINAL(mono_shows_no_colours),
        IN_TERMINAL(no_color_shows_no_colours),
        IN_TERMINAL(no_locale_and_a_name_with_accents_do_no_harm),
        IN_TERMINAL(a_dumb_terminal_is_refused_politely),
        IN_TERMINAL(an_unknown_terminal_is_refused_politely),
        IN_TERMINAL(no_terminal_is_refused_politely),
        IN_TERMINAL(a_file_that_is_no_design_is_refused_before_the_screens),
        IN_TERMINAL(it_sleeps_while_nobody_types),
        IN_TERMINAL(it_takes_no_more_memory_than_an_old_laptop_has),
        IN_TERMINAL(the_first_screen_and_a_change_take_few_instructions),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
