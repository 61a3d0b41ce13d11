/* test_bad_files.c - tests/golden/bad: a bad design file, and what is said about it.
 *
 * To add a case: put NAME.cfg and NAME.txt (the messages, the file by its base name) there.
 */
#include "support.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "gorewright/design.h"

static int by_name(const void *one, const void *other) {
    return strcmp(one, other);
}

enum { CASES_MOST = 300, NAME_MOST = 64 };

/* Names without their ending, sorted. */
static size_t list_cases(const char *ending, char name[CASES_MOST][NAME_MOST]) {
    DIR *folder = opendir(".");
    assert_non_null(folder);
    size_t count = 0;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        size_t length = strlen(entry->d_name), tail = strlen(ending);
        if (length <= tail || strcmp(entry->d_name + length - tail, ending) != 0)
            continue;
        assert_true(count < CASES_MOST && length < NAME_MOST);
        snprintf(name[count++], NAME_MOST, "%.*s", (int)(length - tail), entry->d_name);
    }
    closedir(folder);
    qsort(name, count, NAME_MOST, by_name);
    return count;
}

static void read_file(const char *name, struct text *into) {
    FILE *file = fopen(name, "rb");
    assert_non_null(file);
    char bytes[4096];
    for (size_t got; (got = fread(bytes, 1, sizeof bytes, file)) > 0;)
        text_add_bytes(into, bytes, got);
    fclose(file);
    text_add(into, "%s", "");
}

static bool case_agrees(const char *name) {
    char config[NAME_MOST + 8], expected[NAME_MOST + 8];
    snprintf(config, sizeof config, "%s.cfg", name);
    snprintf(expected, sizeof expected, "%s.txt", name);
    struct design design;
    struct diagnostics messages = {0};
    struct text got = {0}, want = {0};
    int result = design_read(config, &design, NULL, &messages);
    diagnostics_write(&messages, &got);
    read_file(expected, &want);
    bool agrees = messages.count > 0 && result == (messages.errors > 0 ? -1 : 0) &&
                  got.bytes != NULL && strcmp(got.bytes, want.bytes) == 0;
    if (!agrees)
        print_error("%s: got\n%swant\n%s", name, got.bytes == NULL ? "nothing\n" : got.bytes,
                    want.bytes);
    text_free(&got);
    text_free(&want);
    diagnostics_free(&messages);
    return agrees;
}

static void each_bad_file_brings_exactly_its_messages(void **state) {
    (void)state;
    static char config[CASES_MOST][NAME_MOST];
    size_t count = list_cases(".cfg", config), wrong = 0;
    assert_true(count >= 70);
    for (size_t i = 0; i < count; i++)
        wrong += !case_agrees(config[i]);
    assert_int_equal(wrong, 0);
}

static void every_list_of_messages_has_its_file(void **state) {
    (void)state;
    static char config[CASES_MOST][NAME_MOST], expected[CASES_MOST][NAME_MOST];
    size_t count = list_cases(".cfg", config);
    assert_int_equal(list_cases(".txt", expected), count);
    for (size_t i = 0; i < count; i++)
        assert_string_equal(config[i], expected[i]);
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
