/* check_colours.c - the cloths, and the scheme that shares them out. */
#include <stdio.h>
#include <string.h>

#include "design/check.h"
#include "design/values.h"

/* ---- the cloths ----------------------------------------------------------- */

static bool is_letter(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

static void check_name(const struct checking *c, const struct parameter *p, size_t entry,
                       const char *name) {
    const char *fault = memchr(name, '\0', TEXT_MOST) == NULL
                            ? "is longer than can be printed; shorten it"
                            : text_fault(name);
    if (fault[0] != '\0')
        diagnose(c->messages, SEVERITY_ERROR, "text", p->key, "entry %zu: this name %s", entry,
                 fault);
}

void check_given(const struct checking *c, const struct parameter *p, size_t entry,
                 const char *like, double value) {
    size_t count;
    struct parameter range = parameters(&count)[parameter_find(like)];
    range.key = p->key;
    if (!(value >= range.least && value <= range.most) &&
        (value < 0 || value > 0 || value != value))
        diagnose_range(c->messages, &range, entry, value);
}

static void check_cloth(const struct checking *c, const struct parameter *p, size_t i) {
    const struct cloth_colour *cloth = &c->design->colours.cloths.value[i];
    if (!is_letter(cloth->letter))
        diagnose(c->messages, SEVERITY_ERROR, "text", p->key,
                 "entry %zu: its letter is none; write one letter or digit, A to Z, a to z or 0 "
                 "to 9",
                 i + 1);
    check_name(c, p, i + 1, cloth->name);
    check_given(c, p, i + 1, "cloth.width", cloth->width_m);
    check_given(c, p, i + 1, "cloth.mass", cloth->mass_kg_m2);
    if (!(cloth->price_m >= p->least && cloth->price_m <= p->most))
        diagnose_range(c->messages, p, i + 1, cloth->price_m);
}

/* Pieces are told apart by letter on paper and by name in the record. */
static void check_alike(const struct checking *c, const struct parameter *p, size_t i) {
    const struct cloth_colour *cloth = c->design->colours.cloths.value;
    for (size_t j = 0; j < i; j++) {
        if (cloth[j].letter == cloth[i].letter && is_letter(cloth[i].letter))
            diagnose(c->messages, SEVERITY_ERROR, "twice", p->key,
                     "entries %zu and %zu have the same letter, %c; give each cloth a letter of "
                     "its own",
                     j + 1, i + 1, cloth[i].letter);
        if (strncmp(cloth[j].name, cloth[i].name, TEXT_MOST) == 0 && cloth[i].name[0] != '\0')
            diagnose(c->messages, SEVERITY_ERROR, "twice", p->key,
                     "entries %zu and %zu have the same name; give each cloth a name of its own",
                     j + 1, i + 1);
    }
}

static bool count_fits(const struct checking *c, const struct parameter *p, size_t count) {
    if (count > list_room(p))
        diagnose(c->messages, SEVERITY_ERROR, "count", p->key,
                 "this list has %zu entries; at most %zu can be used, so shorten it", count,
                 list_room(p));
    return count <= list_room(p);
}

void check_cloths(const struct checking *c, const struct parameter *p) {
    size_t count = c->design->colours.cloths.count;
    for (size_t i = 0; count_fits(c, p, count) && i < count; i++) {
        check_cloth(c, p, i);
        check_alike(c, p, i);
    }
}

/* ---- the scheme ----------------------------------------------------------- */

void check_lines(const struct checking *c, const struct parameter *p) {
    const struct line_list *list = value_of(c->design, p);
    for (size_t i = 0; count_fits(c, p, list->count) && i < list->count; i++) {
        const char *line = list->value[i];
        size_t length = memchr(line, '\0', GORES_MOST + 1) == NULL ? 0 : strlen(line);
        for (size_t at = 0; at < length; at++)
            if (!is_letter(line[at]))
                length = 0;
        if (length == 0) {
            diagnose(c->messages, SEVERITY_ERROR, "text", p->key,
                     "entry %zu is not 1 to %d letters of colours.cloths; write one letter for "
                     "each gore, without blanks",
                     i + 1, GORES_MOST);
            return;
        }
    }
}

bool cloth_is_defined(const struct design *design, char letter) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t count = design_cloths(design, cloth);
    for (size_t i = 0; i < count; i++)
        if (cloth[i].letter == letter)
            return true;
    return false;
}

void cloth_letters(const struct design *design, char into[LETTERS_MOST]) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t count = design_cloths(design, cloth), used = 0;
    for (size_t i = 0; i < count; i++)
        used += (size_t)snprintf(into + used, LETTERS_MOST - used, "%s%c",
                                 i == 0           ? ""
                                 : i + 1 == count ? " or "
                                                  : ", ",
                                 cloth[i].letter);
}

/* The first letter of a line that no cloth has. */
static bool rule_letters(const struct checking *c, const char *key, size_t entry,
                         const char *line) {
    char letters[LETTERS_MOST];
    for (const char *at = line; *at != '\0'; at++)
        if (!cloth_is_defined(c->design, *at)) {
            cloth_letters(c->design, letters);
            diagnose(c->messages, SEVERITY_ERROR, "colour", key,
                     "entry %zu: no cloth has the letter %c; write %s, or add a cloth to "
                     "colours.cloths",
                     entry, *at, letters);
            return false;
        }
    return true;
}

static bool rule_line_length(const struct checking *c, const char *key, size_t entry,
                             const char *line) {
    size_t gores = (size_t)c->design->gores.count, length = strlen(line), used = 0;
    char words[64], sizes[GORES_MOST * 4] = "";
    if (gores % length == 0)
        return true;
    for (size_t size = 1; size <= gores; size++)
        if (gores % size == 0)
            used += (size_t)snprintf(sizes + used, sizeof sizes - used, "%s%zu",
                                     size == 1       ? ""
                                     : size == gores ? " or "
                                                     : ", ",
                                     size);
    diagnose(c->messages, SEVERITY_ERROR, "count", key,
             "entry %zu: here are %zu letters, but %s; write %s letters", entry, length,
             check_count_words(c, "gores.count", c->design->gores.count, words), sizes);
    return false;
}

static void rule_scheme(const struct checking *c, const char *key, const struct line_list *scheme) {
    size_t rows = (size_t)c->design->rows.count;
    char words[64];
    if (check_is_wrong(c, key) || scheme->count == 0)
        return;
    if (!check_is_wrong(c, "rows.count") && scheme->count != 1 && scheme->count != rows)
        diagnose(c->messages, SEVERITY_ERROR, "count", key,
                 "here are %zu lines, but %s; write one line for each row from the mouth up, or a "
                 "single one for all rows",
                 scheme->count, check_count_words(c, "rows.count", c->design->rows.count, words));
    for (size_t i = 0; i < scheme->count; i++)
        if ((!check_is_wrong(c, "gores.count") &&
             !rule_line_length(c, key, i + 1, scheme->value[i])) ||
            !rule_letters(c, key, i + 1, scheme->value[i]))
            return;
}

static void rule_cloth_widths(const struct checking *c) {
    const struct design *d = c->design;
    char number[32];
    if (check_is_wrong(c, "cloth.selvedge"))
        return;
    for (size_t i = 0; i < d->colours.cloths.count; i++) {
        double width_m = d->colours.cloths.value[i].width_m;
        if (width_m > 0 && width_m <= 2 * d->cloth.selvedge_m)
            diagnose(c->messages, SEVERITY_ERROR, "needs", "cloth.selvedge",
                     "the two selvedges leave nothing of cloth %c, which is %s m wide; give a "
                     "selvedge of less than half the width",
                     d->colours.cloths.value[i].letter, plain_number(width_m, number));
    }
}

void rule_colours(const struct checking *c) {
    const struct design *d = c->design;
    if (check_is_wrong(c, "colours.cloths") || check_is_wrong(c, "colours.fill"))
        return;
    rule_cloth_widths(c);
    if (d->colours.fill == FILL_SCHEME && d->colours.scheme.count == 0 &&
        !check_is_wrong(c, "colours.scheme"))
        diagnose(c->messages, SEVERITY_ERROR, "needs",
                 check_place(c, "colours.scheme", "colours.fill"),
                 "\"scheme\" needs the colours in colours.scheme, and none are stated; write a "
                 "text for each row from the mouth up, or a single one, with a letter for each "
                 "gore");
    rule_scheme(c, "colours.scheme", &d->colours.scheme);
    rule_scheme(c, "colours.scheme_right", &d->colours.scheme_right);
}
