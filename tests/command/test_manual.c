/* test_manual.c - the manual page and the help texts against the tables, both ways. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/command.h"
#include "command/help.h"

static char manual[65536];

static int read_manual(void **state) {
    (void)state;
    FILE *file = fopen("man/gorewright.1", "r"); /* the tests run in the top folder */
    if (file == NULL)
        return -1;
    size_t length = fread(manual, 1, sizeof manual - 1, file);
    fclose(file);
    manual[length] = '\0';
    return length > 1000 && length < sizeof manual - 1 ? 0 : -1;
}

/* The text between the heading `name` and the next one. */
static struct text section(const char *name) {
    struct text text = {0};
    char heading[64];
    snprintf(heading, sizeof heading, "\n.Sh %s\n", name);
    const char *start = strstr(manual, heading);
    if (start == NULL)
        fail_msg("the manual page has no section %s", name);
    start += strlen(heading);
    const char *end = strstr(start, "\n.Sh ");
    text_add_bytes(&text, start, end == NULL ? strlen(start) : (size_t)(end - start) + 1);
    return text;
}

static size_t lines_beginning(const char *text, const char *beginning) {
    size_t count = strncmp(text, beginning, strlen(beginning)) == 0;
    char pattern[64];
    snprintf(pattern, sizeof pattern, "\n%s", beginning);
    while ((text = strstr(text, pattern)) != NULL) {
        count++;
        text++;
    }
    return count;
}

static void add_flag(const struct option_entry *option, struct text *into) {
    if (option->letter != 0)
        text_add(into, "Fl %c", option->letter);
    else
        text_add(into, "Fl -%s", option->name);
    if (option->argument != NULL)
        text_add(into, " Ar %s", option->argument);
}

static void synopsis_is_that_of_the_tables(void **state) {
    (void)state;
    struct text want = {0}, got = section("SYNOPSIS");
    size_t count, options;
    const struct command_entry *command = commands(&count);
    const struct option_entry *option = option_entries(&options);
    text_add(&want, ".Nm\n");
    for (size_t j = 0; j < options; j++)
        if ((SCREEN_OPTIONS & TAKES(j)) != 0) {
            text_add(&want, ".Op ");
            add_flag(&option[j], &want);
            text_add(&want, "\n");
        }
    text_add(&want, ".Op Ar FILE\n");
    for (size_t i = 0; i < count; i++) {
        text_add(&want, ".Nm\n.Cm %s\n", command[i].name);
        for (size_t j = 0; j < options; j++) {
            if ((command[i].options & TAKES(j)) == 0)
                continue;
            text_add(&want, ".Op ");
            add_flag(&option[j], &want);
            text_add(&want, "\n");
        }
        if (command[i].arguments[0] != '\0')
            text_add(&want, ".Ar %s\n", command[i].arguments);
    }
    text_add(&want, ".Nm\n.Op Cm COMMAND\n.Fl -help\n.Nm\n.Fl -version\n");
    assert_string_equal(got.bytes, want.bytes);
    text_free(&want);
    text_free(&got);
}

static void every_command_is_described_and_no_other(void **state) {
    (void)state;
    struct text text = section("COMMANDS");
    size_t count;
    const struct command_entry *command = commands(&count);
    for (size_t i = 0; i < count; i++) {
        char item[64];
        snprintf(item, sizeof item, ".It Cm %s\n", command[i].name);
        if (strstr(text.bytes, item) == NULL)
            fail_msg("the manual page does not describe the command %s", command[i].name);
    }
    assert_int_equal(lines_beginning(text.bytes, ".It "), count);
    text_free(&text);
}

static void every_option_is_described_and_no_other(void **state) {
    (void)state;
    struct text text = section("OPTIONS");
    size_t count;
    const struct option_entry *option = option_entries(&count);
    for (size_t i = 0; i < count; i++) {
        struct text item = {0};
        text_add(&item, "\n.It ");
        if (option[i].letter != 0) {
            add_flag(&option[i], &item);
            text_add(&item, " , ");
        }
        text_add(&item, "Fl -%s%s%s\n", option[i].name, option[i].argument != NULL ? " Ar " : "",
                 option[i].argument != NULL ? option[i].argument : "");
        if (strstr(text.bytes, item.bytes) == NULL)
            fail_msg("the manual page lacks the line:%s", item.bytes);
        text_free(&item);
    }
    assert_int_equal(lines_beginning(text.bytes, ".It "), count);
    text_free(&text);
}

static void exit_statuses_are_those_of_the_program(void **state) {
    (void)state;
    struct text text = section("EXIT STATUS");
    assert_non_null(strstr(text.bytes, ".It 0\nFine"));
    assert_non_null(strstr(text.bytes, ".It 1\n"));
    assert_non_null(strstr(text.bytes, ".It 2\n"));
    assert_int_equal(lines_beginning(text.bytes, ".It "), 3);
    assert_true(EXIT_FINE == 0 && EXIT_ERRORS == 1 && EXIT_USAGE == 2);
    text_free(&text);
}

/* ---- what the page says of the program's output ------------------------------- */

/* The keys after ".It Va", one a line, in the order of the page. */
static struct text keys_of_figures(void) {
    struct text keys = {0}, tables = section("TABLES");
    char *end = strstr(tables.bytes, "\n.Ss stations\n");
    assert_non_null(end);
    *end = '\0';
    for (const char *at = tables.bytes; (at = strstr(at, "\n.It Va ")) != NULL;) {
        at += 8;
        while (*at != '\n') {
            size_t length = strcspn(at, " \n");
            if (at[0] != ',')
                text_add(&keys, "%.*s\n", (int)length, at);
            at += length;
            at += *at == ' ';
        }
    }
    text_free(&tables);
    return keys;
}

static void every_figure_is_explained_in_the_order_it_is_printed(void **state) {
    (void)state;
    struct text keys = keys_of_figures();
    struct outcome outcome = run("$GW figures samples/bittern.cfg | tail -n +2 | cut -f 1 | "
                                 "grep -v '_[A-Z]$'"); /* those of colours stand in the text */
    assert_int_equal(outcome.status, 0);
    assert_string_equal(keys.bytes, outcome.out);
    outcome_free(&outcome);
    text_free(&keys);
}

/* Every value of --measured in a text, tried on the starter design as it comes, or printed in
 * inches where those were measured. */
static size_t try_measured(const char *text, const char *marker) {
    size_t tried = 0;
    for (const char *at = text; (at = strstr(at, marker)) != NULL; tried++) {
        at += strlen(marker);
        int length = (int)strcspn(at, " ,;\n");
        const char *inch = strstr(at, "in");
        bool inches = inch != NULL && inch < at + length;
        struct outcome outcome =
            run("$GW starter | $GW templates --units %s --measured %.*s - >/dev/null",
                inches ? "inch" : "mm", length, at);
        if (outcome.status != 0)
            fail_msg("the example --measured %.20s: %s", at, outcome.err);
        outcome_free(&outcome);
    }
    return tried;
}

static void what_the_page_and_the_program_give_as_measured_is_possible(void **state) {
    (void)state;
    const struct {
        const char *wrong, *marker;
        size_t examples;
    } hints[] = {
        {"1,5x2", "as in ", 1}, {"7x9", "as in ", 1}, {"7", "write it as ", 1}, {"7", "or as ", 1}};
    struct text options = section("OPTIONS"), examples = section("EXAMPLES");
    assert_int_equal(try_measured(options.bytes, ".Pq Cm "), 2);
    assert_int_equal(try_measured(examples.bytes, "--measured "), 2);
    for (size_t i = 0; i < COUNT_OF(hints); i++) {
        struct outcome outcome = run("$GW templates --measured %s x", hints[i].wrong);
        assert_int_equal(outcome.status, 2);
        assert_int_equal(try_measured(outcome.err, hints[i].marker), hints[i].examples);
        outcome_free(&outcome);
    }
    text_free(&options);
    text_free(&examples);
}

/* A sheet printed again must be corrected as the print it belongs to. */
static void every_example_of_one_sheet_repeats_what_was_measured(void **state) {
    (void)state;
    struct text examples = section("EXAMPLES");
    const char *line = strstr(examples.bytes, "\ngorewright templates --sheet ");
    assert_non_null(line);
    const char *end = strchr(line + 1, '\n'), *measured = strstr(line, "--measured 179.5x239 ");
    assert_true(measured != NULL && measured < end);
    text_free(&examples);
}

/* ---- help --------------------------------------------------------------- */

static void assert_fits(const char *text, size_t columns, size_t lines) {
    size_t count = 0;
    for (const char *line = text; *line != '\0'; count++) {
        size_t length = strcspn(line, "\n");
        if (length > columns)
            fail_msg("%zu columns: %.*s", length, (int)length, line);
        line += length + (line[length] == '\n');
    }
    assert_in_range(count, 1, lines);
}

static void help_fits_the_screen_and_names_everything(void **state) {
    (void)state;
    struct text text = {0};
    size_t count;
    help_all(&text);
    assert_fits(text.bytes, 79, 42);
    const struct command_entry *command = commands(&count);
    for (size_t i = 0; i < count; i++)
        assert_non_null(strstr(text.bytes, command[i].help));
    const struct option_entry *option = option_entries(&count);
    for (size_t i = 0; i < count; i++)
        assert_non_null(strstr(text.bytes, option[i].help));
    text_free(&text);
}

static void help_on_a_command_names_just_the_options_it_takes(void **state) {
    (void)state;
    size_t count, options;
    const struct command_entry *command = commands(&count);
    const struct option_entry *option = option_entries(&options);
    for (size_t i = 0; i < count; i++) {
        struct text text = {0};
        help_command(&command[i], &text);
        assert_fits(text.bytes, 79, 24);
        for (size_t j = 0; j < options; j++) {
            bool takes = (command[i].options & TAKES(j)) != 0 || j == OPTION_HELP;
            assert_int_equal(strstr(text.bytes, option[j].help) != NULL, takes);
        }
        text_free(&text);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(synopsis_is_that_of_the_tables),
        cmocka_unit_test(every_command_is_described_and_no_other),
        cmocka_unit_test(every_option_is_described_and_no_other),
        cmocka_unit_test(exit_statuses_are_those_of_the_program),
        cmocka_unit_test(every_figure_is_explained_in_the_order_it_is_printed),
        cmocka_unit_test(what_the_page_and_the_program_give_as_measured_is_possible),
        cmocka_unit_test(every_example_of_one_sheet_repeats_what_was_measured),
        cmocka_unit_test(help_fits_the_screen_and_names_everything),
        cmocka_unit_test(help_on_a_command_names_just_the_options_it_takes),
    };
    return cmocka_run_group_tests(tests, read_manual, NULL) == 0 ? 0 : 1;
}
