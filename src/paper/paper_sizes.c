/* paper_sizes.c - from the builder's word for a paper to its size. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gorewright/paper.h"

#define KEY "paper.sheet"

enum { LEAST_MM = 90, MOST_MM = 5000 };

/* ISO 216; ANSI Y14.1 (A to E) and the office names of the same sheets. */
static const struct named_sheet {
    const char *name;
    double width, height, unit_m;
} named_sheets[] = {
    {"A0", 841, 1189, 0.001},
    {"A1", 594, 841, 0.001},
    {"A2", 420, 594, 0.001},
    {"A3", 297, 420, 0.001},
    {"A4", 210, 297, 0.001},
    {"A5", 148, 210, 0.001},
    {"A6", 105, 148, 0.001},
    {"B0", 1000, 1414, 0.001},
    {"B1", 707, 1000, 0.001},
    {"B2", 500, 707, 0.001},
    {"B3", 353, 500, 0.001},
    {"B4", 250, 353, 0.001},
    {"B5", 176, 250, 0.001},
    {"Letter", 8.5, 11, METRES_PER_INCH},
    {"Legal", 8.5, 14, METRES_PER_INCH},
    {"Tabloid", 11, 17, METRES_PER_INCH},
    {"Ledger", 17, 11, METRES_PER_INCH},
    {"ANSI A", 8.5, 11, METRES_PER_INCH},
    {"ANSI B", 11, 17, METRES_PER_INCH},
    {"ANSI C", 17, 22, METRES_PER_INCH},
    {"ANSI D", 22, 34, METRES_PER_INCH},
    {"ANSI E", 34, 44, METRES_PER_INCH},
};

static const struct length_unit_word {
    const char *word;
    double unit_m;
} unit_words[] = {{"mm", 0.001}, {"cm", 0.01}, {"in", METRES_PER_INCH}};

static const char *past_blanks(const char *at) {
    while (*at == ' ' || *at == '\t')
        at++;
    return at;
}

/* Whether two names are the same but for case and blanks. */
static bool same_sheet(const char *a, const char *b) {
    for (;;) {
        a = past_blanks(a);
        b = past_blanks(b);
        if (ascii_lower(*a) != ascii_lower(*b))
            return false;
        if (*a == '\0')
            return true;
        a++, b++;
    }
}

/* The text after `word` and any blanks when it begins with it, in any case; else NULL. */
static const char *after_word(const char *at, const char *word) {
    at = past_blanks(at);
    for (; *word != '\0'; word++, at++)
        if (ascii_lower(*at) != *word)
            return NULL;
    return past_blanks(at);
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/* A plain decimal: digits, with a point and more digits or without.  Returns
 * the text after it, or NULL.  No exponents, signs or locale. */
static const char *read_decimal(const char *at, double *value) {
    at = past_blanks(at);
    long long digits = 0;
    double scale = 1;
    int count = 0;
    for (bool point = false; is_digit(*at) || (*at == '.' && !point); at++) {
        if (*at == '.') {
            point = true;
            continue;
        }
        if (++count > 12)
            return NULL;
        digits = 10 * digits + (*at - '0');
        scale *= point ? 10 : 1;
    }
    *value = (double)digits / scale;
    return count > 0 ? past_blanks(at) : NULL;
}

/* A unit that ends the text.  Returns: metres, or 0. */
static double read_last_unit(const char *at) {
    for (size_t i = 0; i < COUNT_OF(unit_words); i++) {
        const char *rest = after_word(at, unit_words[i].word);
        if (rest != NULL && *rest == '\0')
            return unit_words[i].unit_m;
    }
    return 0;
}

/* A plain x, or the multiplication sign that phones and word processors put in its place. */
static const char *after_times(const char *at) {
    const char *rest = after_word(at, "x");
    return rest != NULL ? rest : after_word(at, "\xC3\x97");
}

static bool read_roll(const char *text, struct paper *paper) {
    double width, unit_m;
    const char *at = after_word(text, "roll");
    if (at == NULL || (at = read_decimal(at, &width)) == NULL || (unit_m = read_last_unit(at)) <= 0)
        return false;
    *paper = (struct paper){.width_m = width * unit_m};
    snprintf(paper->name, sizeof paper->name, "roll %.10g%s", width, at);
    return true;
}

static bool read_custom(const char *text, struct paper *paper) {
    double width, height, unit_m;
    const char *at = read_decimal(text, &width);
    if (at == NULL || (at = after_times(at)) == NULL || (at = read_decimal(at, &height)) == NULL ||
        (unit_m = read_last_unit(at)) <= 0)
        return false;
    *paper = (struct paper){.width_m = width * unit_m, .height_m = height * unit_m};
    snprintf(paper->name, sizeof paper->name, "%.10gx%.10g%s", width, height, at);
    return true;
}

static bool find_named(const char *text, struct paper *paper) {
    for (size_t i = 0; i < COUNT_OF(named_sheets); i++) {
        const struct named_sheet *sheet = &named_sheets[i];
        if (!same_sheet(text, sheet->name))
            continue;
        *paper = (struct paper){.width_m = sheet->width * sheet->unit_m,
                                .height_m = sheet->height * sheet->unit_m};
        snprintf(paper->name, sizeof paper->name, "%s", sheet->name);
        return true;
    }
    return false;
}

static bool in_range(double side_m) {
    long long tenths = llround(side_m * 10000); /* of a millimetre */
    return tenths >= LEAST_MM * 10 && tenths <= MOST_MM * 10;
}

/* Whether a size or a roll is told without its unit. */
static bool lacks_unit(const char *text) {
    struct paper paper;
    char with_unit[TEXT_MOST + 2];
    if (strlen(text) >= TEXT_MOST)
        return false;
    snprintf(with_unit, sizeof with_unit, "%smm", text);
    return read_roll(with_unit, &paper) || read_custom(with_unit, &paper);
}

int paper_find(const char *text, struct paper *paper, struct diagnostics *messages) {
    *paper = (struct paper){0};
    if (!find_named(text, paper) && !read_roll(text, paper) && !read_custom(text, paper)) {
        if (lacks_unit(text)) {
            diagnose(messages, SEVERITY_ERROR, "paper-unknown", KEY,
                     "\"%s\" does not say its unit; add mm, cm or in, as in \"%smm\"", text, text);
            return -1;
        }
        diagnose(messages, SEVERITY_ERROR, "paper-unknown", KEY,
                 "no paper is called \"%s\"; write A0 to A6, B0 to B5, Letter, Legal, Tabloid, "
                 "Ledger, ANSI A to ANSI E, a size such as 500x700mm or 20x30in, or a roll such "
                 "as \"roll 914mm\" or \"roll 36in\"",
                 text);
        return -1;
    }
    if (!in_range(paper->width_m) || (paper->height_m > 0 && !in_range(paper->height_m)) ||
        (paper->height_m <= 0 && after_word(text, "roll") == NULL)) {
        diagnose(messages, SEVERITY_ERROR, "paper-size", KEY,
                 "a paper must be %d mm to %d mm along each side, and \"%s\" is not; "
                 "state the size of the sheet you will print on",
                 LEAST_MM, MOST_MM, text);
        return -1;
    }
    return 0;
}
