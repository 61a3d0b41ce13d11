/* test_commands.c - the program as a user meets it: every command, every wrong input. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char *const commands_with_a_file[] = {"check",    "figures",  "flight", "compare",
                                                   "stations", "outlines", "sheets", "templates"};

/* The starter design as a file of this test. */
static const char *starter(void) {
    static char path[256];
    if (path[0] == '\0') {
        struct outcome outcome = run("$GW starter");
        assert_int_equal(outcome.status, 0);
        strcpy(path, scratch_file("starter.design", outcome.out));
        outcome_free(&outcome);
    }
    return path;
}

static bool begins(const char *text, const char *beginning) {
    return strncmp(text, beginning, strlen(beginning)) == 0;
}

static bool ends(const char *text, const char *ending) {
    size_t length = strlen(text), count = strlen(ending);
    return length >= count && strcmp(text + length - count, ending) == 0;
}

static void assert_says(const char *text, const char *part) {
    if (strstr(text, part) == NULL)
        fail_msg("'%s' is not in:\n%.2000s", part, text);
}

static void assert_fine(const struct outcome *outcome) {
    if (outcome->status != 0 || outcome->err[0] != '\0')
        fail_msg("status %d, messages: %s", outcome->status, outcome->err);
}

/* ---- what the commands print -------------------------------------------- */

static void every_command_prints_what_it_promises(void **state) {
    (void)state;
    const struct {
        const char *command, *beginning, *ending;
    } cases[] = {
        {"figures", "key\tvalue\tunit\n", "\n"},
        {"flight", "WILL IT FLY: Starter\n", "\n"},
        {"compare", "WHICH STYLE: Starter\n", "\n"},
        {"stations", "station\t", "\n"},
        {"outlines", "piece\tstyle\trow\tside\tcount\tline\tedge\tpoint\tx_mm\ty_mm\n", "\n"},
        {"check", "", "sheets of A4.\n"},
        {"sheets", "", "\n"},
        {"templates", "%!PS-Adobe-3.0\n", "%%EOF\n"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct outcome outcome = run("$GW %s %s", cases[i].command, starter());
        assert_fine(&outcome);
        assert_true(outcome.out_length > 200);
        assert_true(begins(outcome.out, cases[i].beginning));
        assert_true(ends(outcome.out, cases[i].ending));
        assert_int_equal(strlen(outcome.out), outcome.out_length);
        assert_null(strstr(outcome.out, "nan"));
        assert_null(strstr(outcome.out, "inf\t"));
        outcome_free(&outcome);
    }
}

static void check_fits_one_screen(void **state) {
    (void)state;
    struct outcome outcome = run("$GW check %s", starter());
    size_t lines = 0;
    for (const char *line = outcome.out; *line != '\0'; lines++) {
        size_t length = strcspn(line, "\n");
        assert_true(length <= 79);
        line += length + 1;
    }
    assert_in_range(lines, 8, 24);
    outcome_free(&outcome);
}

static void a_file_with_nothing_but_its_format_is_the_starter(void **state) {
    (void)state;
    const char *path = scratch_file("least.design", "format = 1;\n");
    struct outcome least = run("$GW figures %s", path), full = run("$GW figures %s", starter());
    assert_fine(&least);
    assert_string_equal(least.out, full.out);
    outcome_free(&least);
    outcome_free(&full);
}

static void standard_input_and_a_file_give_the_same_bytes(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(commands_with_a_file); i++) {
        const char *command = commands_with_a_file[i];
        struct outcome file = run("$GW %s %s", command, starter());
        struct outcome input = run("$GW %s - <%s", command, starter());
        assert_fine(&input);
        assert_string_equal(input.out, file.out);
        outcome_free(&file);
        outcome_free(&input);
    }
}

static void the_same_design_gives_the_same_bytes_anywhere_and_to_a_file(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(commands_with_a_file); i++) {
        const char *command = commands_with_a_file[i];
        struct outcome once = run("$GW %s %s", command, starter());
        struct outcome elsewhere = run("cd /; TZ=UTC-9 LC_ALL=C.UTF-8 COLUMNS=40 HOME=/x "
                                       "$GW %s %s",
                                       command, starter());
        assert_string_equal(once.out, elsewhere.out);
        if (i > 0) {
            struct outcome filed = run("$GW %s %s -o %s/same && cat %s/same", command, starter(),
                                       scratch_folder(), scratch_folder());
            assert_fine(&filed);
            assert_string_equal(once.out, filed.out);
            outcome_free(&filed);
        }
        outcome_free(&once);
        outcome_free(&elsewhere);
    }
}

/* A locale whose numbers have a decimal comma, made in the scratch folder. */
static void a_decimal_comma_changes_nothing(void **state) {
    (void)state;
    struct outcome made = run("command -v localedef && localedef -i de_DE -f UTF-8 "
                              "--no-archive %s/de_DE.UTF-8 >/dev/null 2>&1; "
                              "LOCPATH=%s LC_ALL=de_DE.UTF-8 locale decimal_point",
                              scratch_folder(), scratch_folder());
    bool have = strstr(made.out, ",") != NULL;
    outcome_free(&made);
    if (!have) {
        if (getenv("CI") != NULL)
            fail_msg("localedef and its sources (package locales) are missing");
        skip();
    }
    for (size_t i = 0; i < COUNT_OF(commands_with_a_file); i++) {
        const char *command = commands_with_a_file[i];
        struct outcome plain = run("LC_ALL=C $GW %s %s", command, starter());
        struct outcome local =
            run("LOCPATH=%s LC_ALL=de_DE.UTF-8 $GW %s %s", scratch_folder(), command, starter());
        assert_fine(&local);
        assert_string_equal(plain.out, local.out);
        outcome_free(&plain);
        outcome_free(&local);
    }
}

static void every_sample_is_fine(void **state) {
    (void)state;
    struct outcome outcome = run("ls samples | wc -l; for f in samples/*; do "
                                 "$GW check $f >/dev/null && $GW sheets $f >/dev/null && "
                                 "$GW flight $f >/dev/null && $GW compare $f >/dev/null && "
                                 "$GW templates $f >/dev/null || exit 1; done");
    assert_fine(&outcome);
    assert_true(atoi(outcome.out) > 0);
    outcome_free(&outcome);
}

/* ---- options ------------------------------------------------------------- */

static size_t pages_of(const char *arguments) {
    struct outcome outcome = run("$GW templates %s %s", arguments, starter());
    assert_fine(&outcome);
    const char *pages = strstr(outcome.out, "\n%%Pages: ");
    assert_non_null(pages);
    long count = strtol(pages + 10, NULL, 10);
    assert_true(count > 0);
    outcome_free(&outcome);
    return (size_t)count;
}

static void options_change_the_templates(void **state) {
    (void)state;
    size_t all = pages_of("");
    assert_true(pages_of("--paper A3") < all);
    assert_true(pages_of("--paper=Letter") > 0);
    assert_int_equal(pages_of("--sheet 3"), 1);
    assert_true(pages_of("--piece F03") < all);
}

static void options_change_the_sheets(void **state) {
    (void)state;
    struct outcome mm = run("$GW sheets %s", starter());
    struct outcome inch = run("$GW sheets --units inch %s", starter());
    struct outcome one = run("$GW sheets --piece F03 %s", starter());
    assert_fine(&inch);
    assert_fine(&one);
    assert_string_not_equal(mm.out, inch.out);
    assert_true(one.out_length < mm.out_length / 2);
    assert_says(one.out, "F03");
    outcome_free(&mm);
    outcome_free(&inch);
    outcome_free(&one);
}

static void options_change_the_pages_about_flight(void **state) {
    (void)state;
    struct outcome flight = run("$GW flight --units inch %s", starter());
    struct outcome compare = run("$GW compare --units inch %s", starter());
    assert_fine(&flight);
    assert_fine(&compare);
    assert_says(flight.out, "1 WHAT IT WEIGHS, in lb\n");
    assert_says(compare.out, "\nenvelope weighs, lb ");
    outcome_free(&flight);
    outcome_free(&compare);
}

/* What cannot fly can still be cut: a warning beside the page. */
static void what_is_too_heavy_is_a_warning_of_flight_and_check_alone(void **state) {
    (void)state;
    const char *heavy = scratch_file("heavy.cfg", "format = 1;\nrig: { basket = 4.0; };\n");
    for (size_t i = 0; i < COUNT_OF(commands_with_a_file); i++) {
        const char *command = commands_with_a_file[i];
        bool warns = strcmp(command, "flight") == 0 || strcmp(command, "check") == 0;
        struct outcome outcome = run("$GW %s %s", command, heavy);
        assert_int_equal(outcome.status, 0);
        assert_int_equal(strstr(outcome.err, "warning: ") != NULL, warns);
        outcome_free(&outcome);
    }
}

/* The design's own style is too much for its cloth, another is not; or none will do. */
static void compare_shows_the_styles_that_can_be_built(void **state) {
    (void)state;
    const char *some = scratch_file("some.cfg", "format = 1;\ngores: { style = \"billowed\"; };\n"
                                                "bulge: { depth = 0.3; };\n"
                                                "cloth: { width = 0.55; };\n");
    const char *none = scratch_file("none.cfg", "format = 1;\ncloth: { width = 0.2; };\n");
    struct outcome outcome = run("$GW compare %s", some);
    assert_fine(&outcome);
    assert_says(outcome.out, "billowed CANNOT BE BUILT LIKE THIS: ");
    outcome_free(&outcome);
    outcome = run("$GW compare %s", none);
    assert_int_equal(outcome.status, 1);
    assert_int_equal(outcome.out_length, 0);
    assert_says(outcome.err, "none.cfg:1: error: rows.count: ");
    outcome_free(&outcome);
}

static void an_option_the_design_cannot_have_is_an_error_that_names_it(void **state) {
    (void)state;
    const struct {
        const char *arguments, *says;
    } cases[] = {
        {"templates --piece F99", "command line: error: --piece: "},
        {"sheets --piece H03L", "command line: error: --piece: "},
        {"templates --sheet 999999", "command line: error: --sheet: "},
        {"templates --measured 100x100", "command line: error: --measured: "},
        {"templates --measured 100x100", "print page 1 without --measured"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct outcome outcome = run("$GW %s %s", cases[i].arguments, starter());
        assert_int_equal(outcome.status, 1);
        assert_int_equal(outcome.out_length, 0);
        assert_says(outcome.err, cases[i].says);
        outcome_free(&outcome);
    }
}

static void wrong_use_ends_with_status_2_and_points_at_help(void **state) {
    (void)state;
    const char *const cases[] = {
        "",
        "nonsense",
        "check \"\"",
        "figures",
        "figures a b",
        "figures --piece F01 x",
        "figures --nonsense x",
        "templates --units furlong x",
        "templates --paper A99 x",
        "templates --measured 5 x",
        "templates --sheet 0 x",
        "starter x",
        "templates x -o",
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct outcome outcome = run("$GW %s", cases[i]);
        assert_int_equal(outcome.status, 2);
        assert_int_equal(outcome.out_length, 0);
        assert_says(outcome.err, "--help'");
        assert_true(begins(outcome.err, "gorewright: "));
        outcome_free(&outcome);
    }
}

static void help_and_version_go_to_standard_output(void **state) {
    (void)state;
    struct outcome outcome = run("$GW --help");
    assert_fine(&outcome);
    assert_says(outcome.out, "usage: gorewright COMMAND");
    outcome_free(&outcome);
    outcome = run("$GW figures --help");
    assert_fine(&outcome);
    assert_says(outcome.out, "usage: gorewright figures");
    outcome_free(&outcome);
    outcome = run("$GW --version");
    assert_fine(&outcome);
    assert_string_equal(outcome.out, "gorewright " VERSION "\n");
    outcome_free(&outcome);
}

static void postscript_is_not_poured_over_a_terminal(void **state) {
    (void)state;
    starter();
    struct outcome outcome = run_on_terminal("$GW templates starter.design");
    assert_int_equal(outcome.status, 2);
    assert_says(outcome.out, "add -o FILE");
    assert_null(strstr(outcome.out, "%!PS"));
    outcome_free(&outcome);
    outcome = run_on_terminal("$GW templates starter.design | head -c 4");
    assert_says(outcome.out, "%!PS");
    outcome_free(&outcome);
    outcome =
        run_on_terminal("$GW templates starter.design -o terminal.ps && head -c 4 terminal.ps");
    assert_int_equal(outcome.status, 0);
    assert_says(outcome.out, "wrote terminal.ps: ");
    assert_says(outcome.out, "%!PS");
    outcome_free(&outcome);
    outcome = run_on_terminal("$GW figures starter.design");
    assert_int_equal(outcome.status, 0);
    assert_says(outcome.out, "gore_length");
    outcome_free(&outcome);
}

/* The lengths of all pages, from the sizes that the file asks of the printer. */
static double roll_length_in_points(const char *postscript) {
    static const char size[] = "/PageSize [";
    double sum = 0;
    while ((postscript = strstr(postscript, size)) != NULL) {
        char *end;
        strtod(postscript + strlen(size), &end);
        sum += strtod(end, &end);
        postscript = end;
    }
    return sum;
}

static void a_roll_is_told_by_its_length(void **state) {
    (void)state;
    const struct {
        const char *units, *unit;
        double points; /* in one unit */
    } cases[] = {{"mm", "m", 72 / 0.0254}, {"inch", "ft", 72 * 12}};
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        char options[64], want[64];
        snprintf(options, sizeof options, "--paper \"roll 914mm\" --units %s", cases[i].units);
        struct outcome templates = run("$GW templates %s %s", options, starter());
        struct outcome check = run("$GW check %s %s", options, starter());
        snprintf(want, sizeof want, "Templates take %zu pages on %.1f %s of roll 914mm.\n",
                 pages_of(options), roll_length_in_points(templates.out) / cases[i].points,
                 cases[i].unit);
        assert_says(check.out, want);
        outcome_free(&templates);
        outcome_free(&check);
    }
}

static void a_piece_is_found_in_upper_and_lower_case_by_every_writer(void **state) {
    (void)state;
    const char *const writers[] = {"sheets", "templates"};
    struct outcome said[2];
    for (size_t i = 0; i < 2; i++) {
        struct outcome upper = run("$GW %s --piece F03 %s", writers[i], starter());
        struct outcome lower = run("$GW %s --piece f03 %s", writers[i], starter());
        assert_fine(&lower);
        assert_string_equal(lower.out, upper.out);
        outcome_free(&upper);
        outcome_free(&lower);
        said[i] = run("$GW %s --piece F030 %s", writers[i], starter());
    }
    assert_says(said[0].err, "there is no piece \"F030\"; this design has F01 to F08: ");
    assert_string_equal(said[0].err, said[1].err);
    outcome_free(&said[0]);
    outcome_free(&said[1]);
}

/* ---- input that is no design --------------------------------------------- */

/* Each makes the input "$D/bad" in the shell. */
static const struct bad_input {
    const char *made_by, *says;
} bad_inputs[] = {
    {"true", "no such file"},
    {"mkdir $D/bad", "folder"},
    {"mkfifo $D/bad", ""},
    {"ln -s bad $D/bad", ""},
    {"ln -s /dev/zero $D/bad", ""},
    {": >$D/bad", "format"},
    {"head -c 3000 /bin/sh >$D/bad", ""},
    {"head -c 10000000 /dev/zero | tr \"\\000\" \"#\" >$D/bad", ""},
    {"echo \"format = 1; name = \" >$D/bad", "bad:"},
    {"echo \"{{{{((((\" >$D/bad", "bad:1: error: "},
    {"echo \"format = 1; nmae = 3;\" >$D/bad", "bad:1: error: nmae"},
    {"echo \"format = 2;\" >$D/bad", "bad:1: error: format"},
    {"printf \"format = 1;\\ngores: { count = 400; };\\n\" >$D/bad", "bad:2: error: gores.count"},
    {"printf \"format = 1;\\nsize: { height = 1e999; };\\n\" >$D/bad", "bad:2: error: size.height"},
    {"echo \"@include \\\"/etc/passwd\\\"\" >$D/bad", "include"},
    {"printf \"format = 1;\\nname = \\\"a\\033[2Jb\\\";\\n\" >$D/bad", "bad:2: error: "},
};

static void assert_refused(const struct bad_input *bad, const char *command) {
    const char *output = strcmp(command, "check") == 0 ? "" : "-o $D/out";
    struct outcome outcome = run("D=%s/bad-input; rm -rf $D; mkdir $D; cd $D; %s; "
                                 "timeout 20 $GW %s %s bad; status=$?; ls -A $D; exit $status",
                                 scratch_folder(), bad->made_by, command, output);
    if (outcome.status != 1)
        fail_msg("%s on '%s': status %d", command, bad->made_by, outcome.status);
    if (strstr(outcome.err, bad->says) == NULL)
        fail_msg("%s on '%s' says: %s", command, bad->made_by, outcome.err);
    assert_says(outcome.err, ": error: ");
    assert_true(begins(outcome.err, "bad:"));
    assert_true(strlen(outcome.err) < 20000);
    assert_null(strchr(outcome.err, '\033'));
    /* Nothing was written: what is there is the input, or not even that. */
    assert_true(strcmp(outcome.out, "bad\n") == 0 || strcmp(outcome.out, "") == 0);
    outcome_free(&outcome);
}

static void what_is_no_design_is_refused_by_every_command(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(bad_inputs); i++)
        for (size_t j = 0; j < COUNT_OF(commands_with_a_file); j++)
            assert_refused(&bad_inputs[i], commands_with_a_file[j]);
}

static void standard_input_that_is_no_design_is_refused(void **state) {
    (void)state;
    const char *const inputs[] = {"</dev/null", "</bin/sh", "</dev/zero", "<&-", "</"};
    for (size_t i = 0; i < COUNT_OF(inputs); i++) {
        struct outcome outcome = run("$GW figures - %s", inputs[i]);
        assert_int_equal(outcome.status, 1);
        assert_int_equal(outcome.out_length, 0);
        assert_true(begins(outcome.err, "standard input:"));
        outcome_free(&outcome);
    }
}

static void check_reports_all_files_and_sums_up_the_good_ones(void **state) {
    (void)state;
    const char *bad =
        scratch_file("two-errors.design", "format = 1;\ngores: { count = 400; };\nnmae = 3;\n");
    struct outcome outcome =
        run("$GW check %s %s %s/missing %s", starter(), bad, scratch_folder(), starter());
    assert_int_equal(outcome.status, 1);
    assert_says(outcome.err, "two-errors.design:2: error: gores.count: ");
    assert_says(outcome.err, "two-errors.design:3: error: nmae: ");
    assert_says(outcome.err, "missing: error: ");
    const char *first = strstr(outcome.out, "starter.design:\n");
    assert_non_null(first);
    assert_non_null(strstr(first + 1, "starter.design:\n"));
    assert_null(strstr(outcome.out, "two-errors"));
    outcome_free(&outcome);
}

static void warnings_do_not_stop_a_command(void **state) {
    (void)state;
    const char *path = scratch_file("warned.design", "format = 1;\n"
                                                     "gores: { style = \"billowed\"; };\n"
                                                     "bulge: { depth = 0.0; };\n");
    for (size_t i = 0; i < COUNT_OF(commands_with_a_file); i++) {
        struct outcome outcome = run("$GW %s %s", commands_with_a_file[i], path);
        assert_int_equal(outcome.status, 0);
        assert_true(outcome.out_length > 200);
        assert_says(outcome.err, "warned.design:3: warning: bulge.depth: ");
        outcome_free(&outcome);
    }
}

/* ---- standard output that cannot be written ------------------------------- */

static void a_full_or_closed_standard_output_is_an_error(void **state) {
    (void)state;
    const char *const commands[] = {"starter",   "--help",  "--version",
                                    "figures F", "check F", "templates F"};
    for (size_t i = 0; i < COUNT_OF(commands); i++) {
        struct outcome outcome = run("cp %s %s/F; cd %s; $GW %s >/dev/full", starter(),
                                     scratch_folder(), scratch_folder(), commands[i]);
        assert_int_equal(outcome.status, 1);
        assert_says(outcome.err, "standard output: cannot write: No space left on device");
        outcome_free(&outcome);
        outcome = run("cd %s; $GW %s >&-", scratch_folder(), commands[i]);
        assert_int_equal(outcome.status, 1);
        assert_says(outcome.err, "standard output: cannot write: ");
        outcome_free(&outcome);
    }
}

static void a_standard_output_that_fails_on_closing_is_an_error(void **state) {
    (void)state;
    struct outcome outcome = run("cd %s; ASAN_OPTIONS=detect_leaks=0 strace -qq -o /dev/null "
                                 "-P $PWD/closed -e inject=close:error=EIO $GW starter >closed",
                                 scratch_folder());
    assert_int_equal(outcome.status, 1);
    assert_says(outcome.err, "standard output: cannot write: Input/output error");
    outcome_free(&outcome);
}

static void a_reader_that_goes_away_is_no_matter_to_talk_about(void **state) {
    (void)state;
    struct outcome outcome = run("$GW templates %s | head -c 1", starter());
    assert_string_equal(outcome.err, "");
    outcome_free(&outcome);
    outcome = run("trap \"\" PIPE; { $GW templates %s; echo $? >&2; } | head -c 1", starter());
    assert_string_equal(outcome.err, "1\n");
    outcome_free(&outcome);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_command_prints_what_it_promises),
        cmocka_unit_test(check_fits_one_screen),
        cmocka_unit_test(a_file_with_nothing_but_its_format_is_the_starter),
        cmocka_unit_test(standard_input_and_a_file_give_the_same_bytes),
        cmocka_unit_test(the_same_design_gives_the_same_bytes_anywhere_and_to_a_file),
        cmocka_unit_test(a_decimal_comma_changes_nothing),
        cmocka_unit_test(every_sample_is_fine),
        cmocka_unit_test(options_change_the_templates),
        cmocka_unit_test(options_change_the_sheets),
        cmocka_unit_test(options_change_the_pages_about_flight),
        cmocka_unit_test(what_is_too_heavy_is_a_warning_of_flight_and_check_alone),
        cmocka_unit_test(compare_shows_the_styles_that_can_be_built),
        cmocka_unit_test(an_option_the_design_cannot_have_is_an_error_that_names_it),
        cmocka_unit_test(wrong_use_ends_with_status_2_and_points_at_help),
        cmocka_unit_test(help_and_version_go_to_standard_output),
        cmocka_unit_test(postscript_is_not_poured_over_a_terminal),
        cmocka_unit_test(a_roll_is_told_by_its_length),
        cmocka_unit_test(a_piece_is_found_in_upper_and_lower_case_by_every_writer),
        cmocka_unit_test(what_is_no_design_is_refused_by_every_command),
        cmocka_unit_test(standard_input_that_is_no_design_is_refused),
        cmocka_unit_test(check_reports_all_files_and_sums_up_the_good_ones),
        cmocka_unit_test(warnings_do_not_stop_a_command),
        cmocka_unit_test(a_full_or_closed_standard_output_is_an_error),
        cmocka_unit_test(a_standard_output_that_fails_on_closing_is_an_error),
        cmocka_unit_test(a_reader_that_goes_away_is_no_matter_to_talk_about),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
