/* test_waiting.c - long work shows how far it is on a terminal, and nowhere else. */
#include "support.h"

#include <stdlib.h>
#include <string.h>

/* Two designs in the scratch folder, and the templates of the larger one. */
static int set_up(void **state) {
    (void)state;
    scratch_file("small.cfg", "format = 1;\n");
    scratch_file("large.cfg", "format = 1;\nsize: { height = 8.0; };\nrows: { count = 12; };\n");
    struct outcome outcome = run("cd %s; $GW templates large.cfg >want", scratch_folder());
    int wrong = outcome.status != 0 || outcome.err[0] != '\0' || outcome.out_length > 0;
    outcome_free(&outcome);
    return wrong;
}

static size_t count_of(const char *text, const char *part) {
    size_t count = 0;
    for (; (text = strstr(text, part)) != NULL; text += strlen(part))
        count++;
    return count;
}

/* What a terminal shows in the end: each carriage return goes back over the line. */
static void last_seen(const char *shown, char line[128]) {
    size_t at = 0;
    memset(line, 0, 128);
    for (; *shown != '\0'; shown++) {
        if (*shown == '\n')
            break;
        if (*shown == '\r')
            at = 0;
        else if (at < 127)
            line[at++] = *shown;
    }
    for (at = strlen(line); at > 0 && line[at - 1] == ' '; at--)
        line[at - 1] = '\0';
}

static void assert_shown(const char *command) {
    struct outcome outcome = run_on_terminal(command);
    size_t lines = count_of(outcome.out, "\rsheet "), last = 0;
    assert_int_equal(outcome.status, 0);
    assert_in_range(lines, 20, 60);
    for (const char *at = outcome.out; (at = strstr(at, "\rsheet ")) != NULL; at++) {
        char *end;
        size_t done = strtoul(at + strlen("\rsheet "), &end, 10);
        assert_int_equal(strncmp(end, " of ", 4), 0);
        assert_true(done > last && done < strtoul(end + 4, NULL, 10));
        last = done;
    }
    outcome_free(&outcome);
}

static void assert_unseen(struct outcome outcome) {
    assert_int_equal(outcome.status, 0);
    assert_null(strstr(outcome.out, "sheet "));
    assert_null(strchr(outcome.err, '\r'));
    assert_string_equal(outcome.err, "");
    outcome_free(&outcome);
}

static void many_sheets_are_counted_on_a_terminal(void **state) {
    (void)state;
    assert_shown("$GW templates large.cfg -o got.ps && cmp got.ps want");
    assert_shown("$GW templates large.cfg | cmp - want");
}

static void the_line_is_gone_at_the_end(void **state) {
    (void)state;
    char line[128];
    struct outcome outcome = run_on_terminal("$GW templates large.cfg | cmp - want");
    last_seen(outcome.out, line);
    assert_string_equal(line, "");
    outcome_free(&outcome);
    outcome = run_on_terminal("$GW templates large.cfg -o got.ps");
    last_seen(outcome.out, line);
    assert_int_equal(strncmp(line, "wrote got.ps: ", 14), 0);
    outcome_free(&outcome);
}

static void nothing_is_shown_where_no_terminal_is(void **state) {
    (void)state;
    assert_unseen(
        run("cd %s; $GW templates large.cfg -o got.ps && cmp got.ps want", scratch_folder()));
    assert_unseen(run_on_terminal("$GW templates large.cfg -o got.ps 2>said && cmp got.ps want && "
                                  "cmp said /dev/null"));
    assert_unseen(run_on_terminal("$GW templates large.cfg 2>&1 | cmp - want"));
}

static void short_work_and_other_commands_show_nothing(void **state) {
    (void)state;
    assert_unseen(run_on_terminal("$GW templates small.cfg | cat >got.ps"));
    assert_unseen(run_on_terminal("$GW templates --piece F03 large.cfg | cat >got.ps"));
    assert_unseen(run_on_terminal("$GW templates --sheet 100 large.cfg | cat >got.ps"));
    assert_unseen(run_on_terminal("$GW outlines large.cfg | cat >got.ps"));
    assert_unseen(run_on_terminal("$GW check large.cfg | cat >got.ps"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(many_sheets_are_counted_on_a_terminal),
        cmocka_unit_test(the_line_is_gone_at_the_end),
        cmocka_unit_test(nothing_is_shown_where_no_terminal_is),
        cmocka_unit_test(short_work_and_other_commands_show_nothing),
    };
    return cmocka_run_group_tests(tests, set_up, NULL) != 0;
}
