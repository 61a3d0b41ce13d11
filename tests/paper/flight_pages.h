/* flight_pages.h - what every page about flight must keep to, and its golden file. */
#ifndef TESTS_FLIGHT_PAGES_H
#define TESTS_FLIGHT_PAGES_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support.h"

#include "gorewright/paper.h"

static inline void assert_says(const struct text *page, const char *words) {
    if (strstr(page->bytes, words) == NULL)
        fail_msg("\"%s\" is not in:\n%s", words, page->bytes);
}

static inline void assert_silent(const struct text *page, const char *words) {
    if (strstr(page->bytes, words) != NULL)
        fail_msg("\"%s\" is in:\n%s", words, page->bytes);
}

/* `word` stands alone: no letter before or behind it. */
static inline bool has_word(const char *text, const char *word) {
    size_t length = strlen(word);
    for (const char *at = text; (at = strstr(at, word)) != NULL; at += length) {
        char before = at == text ? ' ' : at[-1], behind = at[length];
        if ((before < 'a' || before > 'z') && (behind < 'a' || behind > 'z'))
            return true;
    }
    return false;
}

/* Lines of at most 79 columns of printable ASCII, no blank at an end, and no number that is
 * none. */
static inline void check_page(const struct text *page, size_t lines_most) {
    size_t lines = 0;
    assert_false(page->failed);
    for (const char *line = page->bytes; *line != '\0'; lines++) {
        size_t width = strcspn(line, "\n");
        assert_int_equal(line[width], '\n');
        if (width > 79 || (width > 0 && line[width - 1] == ' '))
            fail_msg("%zu columns: \"%.*s\"", width, (int)width, line);
        for (size_t i = 0; i < width; i++)
            assert_true(line[i] >= ' ' && line[i] <= '~');
        line += width + 1;
    }
    if (lines > lines_most)
        fail_msg("%zu lines", lines);
    if (has_word(page->bytes, "nan") || has_word(page->bytes, "inf"))
        fail_msg("no number in:\n%s", page->bytes);
    assert_silent(page, "-0 ");
    assert_silent(page, "(null)");
}

/* A kept page, written anew with GOLDEN=write. */
static inline void check_golden(const char *path, const struct text *page) {
    const char *golden = getenv("GOLDEN");
    FILE *file = fopen(path, golden != NULL && strcmp(golden, "write") == 0 ? "w+" : "r");
    if (file == NULL)
        fail_msg("%s cannot be opened; GOLDEN=write makes it", path);
    if (golden != NULL && strcmp(golden, "write") == 0) {
        assert_int_equal(fwrite(page->bytes, 1, page->length, file), page->length);
        rewind(file);
    }
    char *kept = calloc(1, page->length + 2);
    assert_non_null(kept);
    size_t length = fread(kept, 1, page->length + 1, file);
    fclose(file);
    kept[length] = '\0';
    if (strcmp(kept, page->bytes) != 0)
        fail_msg("%s is not what is printed now:\n%s", path, page->bytes);
    free(kept);
}

#endif
