/* test_manual.c - the manual page of the design file and the table of parameters say the same. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/design.h"

#include "design/values.h"

static const char page_name[] = "man/gorewright-design.5";

/* One entry of the page: its key, and its words with single blanks between them. */
struct entry {
    char key[48];
    char words[1024];
};

enum { ENTRIES_MOST = 200 };
static struct entry entries[ENTRIES_MOST];
static size_t entry_count;

static void add_line(struct entry *entry, const char *line) {
    size_t used = strlen(entry->words);
    snprintf(entry->words + used, sizeof entry->words - used, "%s%s", used == 0 ? "" : " ", line);
}

/* A new entry, "end" of one, or a line of its words. */
static struct entry *read_line(struct entry *now, const char *line) {
    if (strncmp(line, ".It Cm ", 7) == 0) {
        assert_true(entry_count < ENTRIES_MOST);
        now = &entries[entry_count++];
        snprintf(now->key, sizeof now->key, "%.47s", line + 7);
        return now;
    }
    if (line[0] == '.')
        return NULL;
    if (now != NULL)
        add_line(now, line);
    return now;
}

static int read_page(void **state) {
    (void)state;
    char line[512];
    FILE *file = fopen(page_name, "r");
    if (file == NULL)
        return -1;
    struct entry *now = NULL;
    bool settings = false;
    while (fgets(line, sizeof line, file) != NULL) {
        line[strcspn(line, "\n")] = '\0';
        if (strncmp(line, ".Sh ", 4) == 0)
            settings = strcmp(line, ".Sh SETTINGS") == 0;
        if (settings)
            now = read_line(now, line);
    }
    fclose(file);
    return 0;
}

static const struct entry *entry_for(const char *key) {
    for (size_t i = 0; i < entry_count; i++)
        if (strcmp(entries[i].key, key) == 0)
            return &entries[i];
    return NULL;
}

/* What an entry says of type, range and default. */
static void allowed_words(const struct parameter *p, char into[400]) {
    char words[WORDS_MOST], number[32];
    switch (p->type) {
    case PARAMETER_WHOLE:
    case PARAMETER_REAL: {
        const char *type = p->type == PARAMETER_WHOLE ? "Whole number" : "Number";
        if (p->least < p->most)
            snprintf(into, 400, "%s, %s; %s when not stated.", type, range_words(p, words),
                     plain_number(p->usual, number));
        else
            snprintf(into, 400, "%s, always %s.", type, range_words(p, words));
        break;
    }
    case PARAMETER_TEXT:
        snprintf(into, 400, "Text, up to %d bytes; \"%s\" when not stated.", TEXT_MOST - 1,
                 p->usual_text);
        break;
    case PARAMETER_CHOICE:
        snprintf(into, 400, "One of %s; \"%s\" when not stated.", choice_words(p, words),
                 parameter_word(p->key, (int)p->usual));
        break;
    case PARAMETER_REALS:
        snprintf(into, 400, "List of numbers, %s each; empty when not stated.",
                 range_words(p, words));
        break;
    case PARAMETER_STYLES:
        snprintf(into, 400, "List of styles, %s each; empty when not stated.",
                 choice_words(p, words));
        break;
    case PARAMETER_POINTS:
        snprintf(into, 400, "List of points, %s each; empty when not stated.",
                 range_words(p, words));
        break;
    case PARAMETER_ITEMS:
        snprintf(into, 400, "List of names with masses, %s each; empty when not stated.",
                 range_words(p, words));
        break;
    case PARAMETER_CLOTHS:
        snprintf(
            into, 400,
            "List of cloths, at most %d, each a letter or digit and a name; empty when not stated.",
            CLOTHS_MOST);
        break;
    case PARAMETER_LINES:
        snprintf(into, 400, "List of texts, letters of colours.cloths; empty when not stated.");
        break;
    case PARAMETER_STOCK:
        snprintf(into, 400,
                 "List of letters with lengths and widths, %s each; empty when not stated.",
                 range_words(p, words));
        break;
    }
}

static void every_parameter_is_in_the_page_with_help_range_and_default(void **state) {
    (void)state;
    size_t count, wrong = 0;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++) {
        const struct entry *entry = entry_for(p[i].key);
        char allowed[400], wanted[600];
        allowed_words(&p[i], allowed);
        snprintf(wanted, sizeof wanted, "%s %s", p[i].help, allowed);
        if (entry != NULL && strcmp(entry->words, wanted) == 0)
            continue;
        print_error("%s: %s has\n  %s\nwant\n  %s\n", p[i].key, page_name,
                    entry == NULL ? "nothing" : entry->words, wanted);
        wrong++;
    }
    assert_int_equal(wrong, 0);
}

static void every_entry_of_the_page_is_a_parameter_in_the_order_of_the_table(void **state) {
    (void)state;
    size_t count;
    parameters(&count);
    assert_int_equal(entry_count, count);
    for (size_t i = 0; i < entry_count; i++)
        assert_int_equal(parameter_find(entries[i].key), (int)i);
}

/* The design shown in the page as "a whole design". */
static void the_example_of_the_page_is_read_without_a_message(void **state) {
    (void)state;
    char line[512];
    struct text example = {0};
    FILE *file = fopen(page_name, "r");
    assert_non_null(file);
    bool inside = false;
    while (fgets(line, sizeof line, file) != NULL) {
        if (strcmp(line, "format = 1;\n") == 0)
            inside = true;
        if (inside && line[0] == '.')
            break;
        if (inside)
            text_add(&example, "%s", line);
    }
    fclose(file);
    assert_non_null(example.bytes);
    struct design design;
    struct diagnostics messages = {0};
    assert_int_equal(
        design_read_text(example.bytes, example.length, "page", &design, NULL, &messages), 0);
    assert_int_equal(messages.count, 0);
    assert_int_equal(design.gores.count, 12);
    assert_int_equal(design.size.by, SIZE_HEIGHT);
    text_free(&example);
    diagnostics_free(&messages);
}

/* "1/4 in Ta 0.00635": the inch is 0.0254 m by definition. */
static void the_inches_of_the_page_are_exact(void **state) {
    (void)state;
    char line[512];
    int number, of, rows = 0;
    char unit[4], metres[32];
    FILE *file = fopen(page_name, "r");
    assert_non_null(file);
    while (fgets(line, sizeof line, file) != NULL) {
        of = 1;
        if (sscanf(line, ".It %d/%d %3s Ta %31s", &number, &of, unit, metres) != 4 &&
            sscanf(line, ".It %d %3s Ta %31s", &number, unit, metres) != 3)
            continue;
        double inches = strcmp(unit, "yd") == 0 ? 36 : strcmp(unit, "ft") == 0 ? 12 : 1;
        assert_close(strtod(metres, NULL), inches * number / of * 0.0254, 1e-12, 0);
        rows++;
    }
    fclose(file);
    assert_int_equal(rows, 7);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_parameter_is_in_the_page_with_help_range_and_default),
        cmocka_unit_test(every_entry_of_the_page_is_a_parameter_in_the_order_of_the_table),
        cmocka_unit_test(the_example_of_the_page_is_read_without_a_message),
        cmocka_unit_test(the_inches_of_the_page_are_exact),
    };
    return cmocka_run_group_tests(tests, read_page, NULL) != 0;
}
