/* test_bad_files.c - tests/golden/bad: a bad design file, and what is said about it.
 *
 * To add a case: put NAME.cfg and NAME.txt (the messages, the file by its base name) there.
 */
#include "golden_cases.h"

#include <unistd.h>

#include "gorewright/design.h"

static bool reader_says(const char *config, struct text *said) {
    struct design design;
    struct diagnostics messages = {0};
    int result = design_read(config, &design, NULL, &messages);
    diagnostics_write(&messages, said);
    bool agrees = messages.count > 0 && result == (messages.errors > 0 ? -1 : 0);
    diagnostics_free(&messages);
    return agrees;
}

static void each_bad_file_brings_exactly_its_messages(void **state) {
    (void)state;
    assert_int_equal(differing_cases(".", reader_says, 70), 0);
}

static void every_list_of_messages_has_its_file(void **state) {
    (void)state;
    assert_in_pairs(".");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_bad_file_brings_exactly_its_messages),
        cmocka_unit_test(every_list_of_messages_has_its_file),
    };
    if (chdir("tests/golden/bad") != 0) {
        fprintf(stderr, "run this from the top of the source tree\n");
        return 1;
    }
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
