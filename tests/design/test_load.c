/* test_load.c - the bytes of a design, from a file or a descriptor, and what looks like one. */
#include "support.h"

#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#include "gorewright/design.h"

#include "design/load.h"

static int load_from(const char *path, struct text *content, struct diagnostics *messages) {
    int file = open(path, O_RDONLY);
    assert_true(file >= 0);
    int result = load_descriptor(file, "here", content, messages);
    close(file);
    return result;
}

static void a_descriptor_is_read_to_its_end(void **state) {
    (void)state;
    struct text content = {0};
    struct diagnostics messages = {0};
    assert_int_equal(load_from(scratch_file("some", "format = 1;\n"), &content, &messages), 0);
    assert_string_equal(content.bytes, "format = 1;\n");
    assert_int_equal(messages.count, 0);
    text_free(&content);
}

static void what_has_no_end_is_refused(void **state) {
    (void)state;
    struct text content = {0};
    struct diagnostics messages = {0};
    assert_int_equal(load_from("/dev/zero", &content, &messages), -1);
    assert_true(content.length < 2 * DESIGN_BYTES_MOST);
    assert_int_equal(messages.errors, 1);
    assert_string_equal(messages.item[0].file, "here");
    assert_non_null(strstr(messages.item[0].text, "longer than a megabyte"));
    text_free(&content);
    diagnostics_free(&messages);
}

static void short_memory_ends_the_reading_with_an_error(void **state) {
    (void)state;
    const char *const path[] = {"/dev/zero", scratch_file("short", "format = 1;\n")};
    for (size_t i = 0; i < COUNT_OF(path); i++) {
        struct text content = {.failed = true};
        struct diagnostics messages = {0};
        alarm(20); /* it must not go on for ever */
        assert_int_equal(load_from(path[i], &content, &messages), -1);
        alarm(0);
        assert_int_equal(messages.errors, 1);
        assert_non_null(strstr(messages.item[0].text, "not enough memory"));
        diagnostics_free(&messages);
    }
}

static void a_design_is_known_by_its_format_even_with_mistakes_in_it(void **state) {
    (void)state;
    const struct {
        const char *content;
        bool seems;
    } cases[] = {
        {"format = 1;\n", true},
        {"# mine\n\n\tformat=1;", true},
        {"name = \"a\"; format = 1;", true}, /* read as one */
        {"format : 1\nname = \"no end", true},
        {"", false},
        {"format", false},
        {"formatted = 1;", false},
        {"the format = 1;", false},
        {"%!PS-Adobe-3.0\n", false},
        {"key\tvalue\tunit\n", false},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++)
        if (design_seems(scratch_file("seems", cases[i].content)) != cases[i].seems)
            fail_msg("seems wrong: %s", cases[i].content);
    assert_false(design_seems("no/such/file"));
    assert_false(design_seems("/dev/zero"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_descriptor_is_read_to_its_end),
        cmocka_unit_test(what_has_no_end_is_refused),
        cmocka_unit_test(short_memory_ends_the_reading_with_an_error),
        cmocka_unit_test(a_design_is_known_by_its_format_even_with_mistakes_in_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
