/* test_refused_designs.c - tests/golden/refused: a design that reads well and cannot be built,
 * or gives cause for a warning, and all that `check` says about it.
 *
 * To add a case: put NAME.cfg and NAME.txt (the messages) there; the names of designs that are
 * warned of and built begin with "warn-".
 */
#include "golden_cases.h"

#include "gorewright/design.h"

#define FOLDER "tests/golden/refused"

static bool is_warning_case(const char *config) {
    return strncmp(config, "warn-", 5) == 0;
}

/* An error ends with status 1 and nothing printed; a warning stops nothing. */
static bool check_says(const char *config, struct text *said) {
    struct outcome outcome = run("cd " FOLDER "; timeout 20 $GW check %s", config);
    text_add(said, "%s", outcome.err);
    bool refused =
        outcome.status == 1 && outcome.out_length == 0 && strstr(outcome.err, ": error: ") != NULL;
    bool built = outcome.status == 0 && outcome.out_length > 200 && outcome.err[0] != '\0' &&
                 strstr(outcome.err, ": error: ") == NULL;
    outcome_free(&outcome);
    return is_warning_case(config) ? built : refused;
}

static void each_design_brings_exactly_its_messages(void **state) {
    (void)state;
    assert_int_equal(differing_cases(FOLDER, check_says, 45), 0);
    assert_in_pairs(FOLDER);
}

/* NAME.cfg:LINE: error: GROUP.KEY: text */
static bool is_whole_message(const char *name, const char *line) {
    char severity[16] = "", key[64] = "", start[NAME_MOST + 8];
    int number = 0, at = 0;
    size_t length = (size_t)snprintf(start, sizeof start, "%s.cfg:", name);
    return strncmp(line, start, length) == 0 &&
           sscanf(line + length, "%d: %15[a-z]: %63[a-z._]: %n", &number, severity, key, &at) ==
               3 &&
           number > 0 && parameter_find(key) >= 0 && strcspn(line + length + at, "\n") > 60;
}

static void every_message_has_file_line_and_key_and_only_numbers_that_are_some(void **state) {
    (void)state;
    static char name[CASES_MOST][NAME_MOST];
    size_t count = list_cases(FOLDER, ".txt", name);
    for (size_t i = 0; i < count; i++) {
        struct text text = {0};
        expected_of(FOLDER, name[i], NULL, &text);
        for (const char *line = text.bytes; *line != '\0'; line = strchr(line, '\n') + 1)
            if (!is_whole_message(name[i], line))
                fail_msg("not a whole message: %s", line);
        assert_null(strstr(text.bytes, "nan "));
        assert_null(strstr(text.bytes, "inf "));
        assert_null(strstr(text.bytes, "e+"));
        text_free(&text);
    }
}

/* No command but `check` writes anything either; those without paper are silent about it. */
static void every_command_refuses_them_and_leaves_no_file(void **state) {
    (void)state;
    static const char *const cases[][2] = {
        {"several-cloth-and-paper", "templates"}, {"table-many-errors", "outlines"},
        {"too-heavy-cloth", "figures"},           {"crown-too-wide-ball", "stations"},
        {"mouth-too-wide-natural", "sheets"},     {"paper-too-many-sheets", "templates"},
        {"measured-too-far-inches", "templates"}, {"few-rows-crown", "templates"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct text want = {0};
        expected_of(FOLDER, cases[i][0], NULL, &want);
        struct outcome outcome = run("F=%s/refused; rm -rf $F; mkdir $F; cd " FOLDER "; "
                                     "$GW %s -o $F/out %s.cfg; status=$?; ls -A $F; exit $status",
                                     scratch_folder(), cases[i][1], cases[i][0]);
        assert_int_equal(outcome.status, 1);
        assert_string_equal(outcome.out, "");
        assert_string_equal(outcome.err, want.bytes);
        outcome_free(&outcome);
        text_free(&want);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_design_brings_exactly_its_messages),
        cmocka_unit_test(every_message_has_file_line_and_key_and_only_numbers_that_are_some),
        cmocka_unit_test(every_command_refuses_them_and_leaves_no_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
