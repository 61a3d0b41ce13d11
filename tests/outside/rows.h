/* rows.h - text tables of published figures, that anyone can add a row to.
 *
 * One row a line, words apart by blanks; `#` begins a comment; `-` stands for a figure that
 * is not given.  A figure is checked to the last digit that is printed.
 */
#ifndef OUTSIDE_ROWS_H
#define OUTSIDE_ROWS_H

#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROW_WORDS_MOST = 12 };

struct row {
    int line;
    size_t words;
    char *word[ROW_WORDS_MOST];
    char text[400];
};

struct rows {
    FILE *file;
    char path[256];
    int line;
};

/* Open `name` in the folder of the tests: $GW_TESTS, or "tests" when that is not set. */
static inline struct rows rows_open(const char *name) {
    struct rows rows = {0};
    const char *tests = getenv("GW_TESTS");
    snprintf(rows.path, sizeof rows.path, "%s/outside/%s", tests != NULL ? tests : "tests", name);
    rows.file = fopen(rows.path, "r");
    if (rows.file == NULL)
        print_error("%s cannot be read: run the tests at the top of the source tree, or set "
                    "GW_TESTS to its folder of tests\n",
                    rows.path);
    assert_non_null(rows.file);
    return rows;
}

/* The next row, or false at the end. */
static inline bool rows_next(struct rows *rows, struct row *row) {
    while (fgets(row->text, sizeof row->text, rows->file) != NULL) {
        row->line = ++rows->line;
        row->text[strcspn(row->text, "#\n")] = '\0';
        row->words = 0;
        char *rest = row->text;
        for (char *word; (word = strtok_r(rest, " \t", &rest)) != NULL;) {
            assert_true(row->words < ROW_WORDS_MOST);
            row->word[row->words++] = word;
        }
        if (row->words > 0)
            return true;
    }
    return false;
}

/* Close, and see that at least `least` rows were there: a table that lost its rows checks
 * nothing. */
static inline void rows_close(struct rows *rows, size_t seen, size_t least) {
    fclose(rows->file);
    if (seen < least)
        print_error("%s: only %zu rows\n", rows->path, seen);
    assert_true(seen >= least);
}

static inline double row_number(const struct row *row, size_t column) {
    char *end;
    assert_true(column < row->words);
    double number = strtod(row->word[column], &end);
    if (*end != '\0')
        print_error("line %d: \"%s\" is no number\n", row->line, row->word[column]);
    assert_true(*end == '\0');
    return number;
}

/* One unit of the last digit printed: 1e-9 for 1.234567890, 1 for 12. */
static inline double last_digit(const char *word) {
    const char *point = strchr(word, '.');
    return point == NULL ? 1 : pow(10, -(double)strlen(point + 1));
}

/* `got` agrees with a column to the last digit printed there; `-` asks for nothing. */
static inline void check_column(const struct rows *rows, const struct row *row, size_t column,
                                double got, const char *what) {
    assert_true(column < row->words);
    if (strcmp(row->word[column], "-") == 0)
        return;
    check_close(got, row_number(row, column), last_digit(row->word[column]), 0, what, rows->path,
                row->line);
}

#endif
