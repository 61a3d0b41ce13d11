/* golden_cases.h - folders of inputs, NAME.cfg, each beside NAME.txt: what is to be said of it. */
#ifndef TESTS_GOLDEN_CASES_H
#define TESTS_GOLDEN_CASES_H

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/base.h"
#include "support.h"

enum { CASES_MOST = 300, NAME_MOST = 64 };

static inline int by_name(const void *one, const void *other) {
    return strcmp(one, other);
}

/* The names in a folder with that ending, without it, sorted. */
static inline size_t list_cases(const char *folder, const char *ending,
                                char name[CASES_MOST][NAME_MOST]) {
    DIR *open_folder = opendir(folder);
    assert_non_null(open_folder);
    size_t count = 0;
    for (struct dirent *entry; (entry = readdir(open_folder)) != NULL;) {
        size_t length = strlen(entry->d_name), tail = strlen(ending);
        if (length <= tail || strcmp(entry->d_name + length - tail, ending) != 0)
            continue;
        assert_true(count < CASES_MOST && length < NAME_MOST);
        snprintf(name[count++], NAME_MOST, "%.*s", (int)(length - tail), entry->d_name);
    }
    closedir(open_folder);
    qsort(name, count, NAME_MOST, by_name);
    return count;
}

/* The text NAME.txt; with GOLDEN=write it is first made what is said now. */
static inline void expected_of(const char *folder, const char *name, const char *now,
                               struct text *into) {
    char path[256], bytes[4096];
    const char *golden = getenv("GOLDEN");
    bool writes = now != NULL && golden != NULL && strcmp(golden, "write") == 0;
    snprintf(path, sizeof path, "%s/%s.txt", folder, name);
    FILE *file = fopen(path, writes ? "w+b" : "rb");
    assert_non_null(file);
    if (writes) {
        fputs(now, file);
        rewind(file);
    }
    for (size_t got; (got = fread(bytes, 1, sizeof bytes, file)) > 0;)
        text_add_bytes(into, bytes, got);
    fclose(file);
    text_add(into, "%s", "");
}

/* Adds to `said` what is said of NAME.cfg.  Returns: false when it went wrong otherwise. */
typedef bool saying(const char *config, struct text *said);

/* Compare what is said with what is to be.  Returns: how many cases differ, each shown. */
static inline size_t differing_cases(const char *folder, saying *say, size_t at_least) {
    static char name[CASES_MOST][NAME_MOST];
    size_t count = list_cases(folder, ".cfg", name), wrong = 0;
    assert_true(count >= at_least);
    for (size_t i = 0; i < count; i++) {
        char config[NAME_MOST + 8];
        struct text got = {0}, want = {0};
        snprintf(config, sizeof config, "%s.cfg", name[i]);
        bool agrees = say(config, &got);
        text_add(&got, "%s", "");
        expected_of(folder, name[i], got.bytes, &want);
        agrees = agrees && strcmp(got.bytes, want.bytes) == 0;
        if (!agrees)
            print_error("%s: got\n%swant\n%s", name[i], got.bytes, want.bytes);
        wrong += !agrees;
        text_free(&got);
        text_free(&want);
    }
    return wrong;
}

/* Neither an input without its text nor a text without its input. */
static inline void assert_in_pairs(const char *folder) {
    static char config[CASES_MOST][NAME_MOST], expected[CASES_MOST][NAME_MOST];
    size_t count = list_cases(folder, ".cfg", config);
    assert_int_equal(list_cases(folder, ".txt", expected), count);
    for (size_t i = 0; i < count; i++)
        assert_string_equal(config[i], expected[i]);
}

#endif
