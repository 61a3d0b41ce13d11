/* values.c - words about values: what the table allows, said to the builder. */
#include "design/values.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void *member_of(struct design *design, const struct parameter *p) {
    return (char *)design + p->offset;
}

const void *value_of(const struct design *design, const struct parameter *p) {
    return (const char *)design + p->offset;
}

char *plain_number(double value, char into[32]) {
    shortest_real(value, into);
    size_t length = strlen(into);
    if (length > 2 && strcmp(into + length - 2, ".0") == 0)
        into[length - 2] = '\0';
    return into;
}

static const char *space_and(const char *unit, char into[32]) {
    snprintf(into, 32, "%s%s", unit[0] == '\0' ? "" : " ", unit);
    return into;
}

char *range_words(const struct parameter *p, char into[WORDS_MOST]) {
    char least[32], most[32], unit[32];
    plain_number(p->least, least);
    plain_number(p->most, most);
    space_and(p->unit, unit);
    if (p->least == p->most)
        snprintf(into, WORDS_MOST, "%s%s", least, unit);
    else
        snprintf(into, WORDS_MOST, "%s to %s%s", least, most, unit);
    return into;
}

char *choice_words(const struct parameter *p, char into[WORDS_MOST]) {
    size_t length = 0;
    into[0] = '\0';
    for (size_t i = 0; p->choices[i] != NULL && length < WORDS_MOST; i++) {
        const char *between = p->choices[i + 1] == NULL ? " or " : ", ";
        length += (size_t)snprintf(into + length, WORDS_MOST - length, "%s\"%s\"",
                                   i == 0 ? "" : between, p->choices[i]);
    }
    return into;
}

char *writing_words(const struct parameter *p, char into[WORDS_MOST]) {
    char allowed[WORDS_MOST];
    switch (p->type) {
    case PARAMETER_WHOLE:
        snprintf(into, WORDS_MOST, "write a whole number, %.100s", range_words(p, allowed));
        break;
    case PARAMETER_REAL:
        snprintf(into, WORDS_MOST, "write a number, %.100s", range_words(p, allowed));
        break;
    case PARAMETER_TEXT:
        snprintf(into, WORDS_MOST, "write a text in double quotes");
        break;
    case PARAMETER_CHOICE:
        snprintf(into, WORDS_MOST, "write %.140s", choice_words(p, allowed));
        break;
    case PARAMETER_REALS:
        snprintf(into, WORDS_MOST, "write a list of numbers, such as (0.1, 0.2, 0.1)");
        break;
    case PARAMETER_STYLES:
        snprintf(into, WORDS_MOST, "write a list of styles, such as (\"faceted\", \"billowed\")");
        break;
    case PARAMETER_POINTS:
        snprintf(into, WORDS_MOST,
                 "write a list of stations (radius, height), such as ((0.3, 0), (0.9, 1.2))");
        break;
    case PARAMETER_ITEMS:
        snprintf(into, WORDS_MOST,
                 "write a list of names with masses in kilograms, such as ((\"camera\", 0.12))");
        break;
    case PARAMETER_CLOTHS:
        snprintf(
            into, WORDS_MOST,
            "write a list of letters with names, such as ((\"W\", \"white\"), (\"R\", \"red\"))");
        break;
    case PARAMETER_LINES:
        snprintf(into, WORDS_MOST, "write a list of texts, such as (\"WWRR\", \"RRWW\")");
        break;
    case PARAMETER_STOCK:
        snprintf(into, WORDS_MOST,
                 "write a list of letters with lengths and widths in metres, such as ((\"W\", 2.4, "
                 "1.1))");
        break;
    }
    return into;
}

size_t list_room(const struct parameter *p) {
    switch (p->type) {
    case PARAMETER_REALS:
        return ROWS_MOST + 1;
    case PARAMETER_STYLES:
        return GORES_MOST;
    case PARAMETER_POINTS:
        return TABLE_MOST;
    case PARAMETER_ITEMS:
        return ITEMS_MOST;
    case PARAMETER_CLOTHS:
        return CLOTHS_MOST;
    case PARAMETER_LINES:
        return ROWS_MOST;
    case PARAMETER_STOCK:
        return STOCK_MOST;
    default:
        return 0;
    }
}

static const char *entry_words(size_t entry, char into[32]) {
    into[0] = '\0';
    if (entry > 0)
        snprintf(into, 32, "entry %zu: ", entry);
    return into;
}

/* Units that are written for those wanted: millimetres for metres (but not for heights above
 * the sea), grams for kilograms, kelvin for degrees Celsius. */
static const struct {
    const char *unit, *meant;
    double factor, less;
} slips[] = {
    {"m", "millimetres", 0.001, 0}, {"kg", "grams", 0.001, 0},  {"kg/m", "grams", 0.001, 0},
    {"kg/m2", "grams", 0.001, 0},   {"C", "kelvin", 1, 273.15},
};

static const char *unit_hint(const struct parameter *p, double value, char into[96]) {
    into[0] = '\0';
    for (size_t i = 0; i < COUNT_OF(slips); i++) {
        double meant = value * slips[i].factor - slips[i].less;
        if (strcmp(p->unit, slips[i].unit) == 0 && value > p->most && value >= 1 &&
            p->most < 1000 && meant >= p->least && meant <= p->most)
            snprintf(into, 96, "; if you meant %s, write %.6g", slips[i].meant, meant);
    }
    return into;
}

static const char *range_fault(double value) {
    if (isfinite(value))
        return "out of range";
    return isnan(value) ? "no number at all" : value > 0 ? "too large" : "too far below zero";
}

void diagnose_range(struct diagnostics *messages, const struct parameter *p, size_t entry,
                    double value) {
    const char *vague = entry == 0 && list_room(p) > 0 ? "a number in this list" : "this number";
    char number[32], unit[32] = "", range[WORDS_MOST], which[32], hint[96] = "";
    snprintf(number, sizeof number, "%s", vague);
    if (isfinite(value)) {
        plain_number(value, number);
        space_and(p->unit, unit);
        unit_hint(p, value, hint);
    }
    if (p->least == p->most) {
        diagnose(messages, SEVERITY_ERROR, "range", p->key,
                 "%s is not known to this program; write %s, or use a newer program", number,
                 range_words(p, range));
        return;
    }
    diagnose(messages, SEVERITY_ERROR, "range", p->key, "%s%s%s is %s; give %s%s",
             entry_words(entry, which), number, unit, range_fault(value), range_words(p, range),
             hint);
}

void diagnose_word(struct diagnostics *messages, const struct parameter *p, size_t entry,
                   const char *word) {
    char shown[48], which[32], choices[WORDS_MOST], guess[64] = "";
    const char *nearest = nearest_word(word, p->choices);
    if (nearest != NULL)
        snprintf(guess, sizeof guess, " (did you mean \"%s\"?)", nearest);
    diagnose(messages, SEVERITY_ERROR, "word", p->key, "%s\"%s\" is not known here%s; write %s",
             entry_words(entry, which), shown_text(word, shown), guess, choice_words(p, choices));
}

/* ---- text ---------------------------------------------------------------- */

static const char *letter_fault(unsigned long code) {
    static const char *const faults[] = {
        [LETTER_PRINTS] = "",
        [LETTER_CONTROLS] =
            "holds a control character; use only letters, digits and signs that print",
        [LETTER_TURNS] = "holds a mark that turns the direction of writing; take it out",
        [LETTER_UNSEEN] = "holds a character that does not print; take it out",
    };
    return faults[letter_kind(code)];
}

const char *text_fault(const char *text) {
    const char *at = text;
    bool visible = false;
    while (*at != '\0') {
        unsigned long character;
        size_t length = letter_at(at, &character);
        if (length == 0)
            return "is not valid UTF-8; save the file as plain text in UTF-8";
        const char *fault = letter_fault(character);
        if (fault[0] != '\0')
            return fault;
        if (character != ' ' && character != 0xA0)
            visible = true;
        at += length;
    }
    return visible ? "" : "is empty; write at least one letter";
}

char *shown_text(const char *text, char into[48]) {
    enum { ROOM = 44 };
    const char *at = text;
    size_t used = 0;
    while (*at != '\0') {
        unsigned long character;
        size_t length = letter_at(at, &character);
        bool prints = length > 0 && letter_fault(character)[0] == '\0';
        size_t wanted = prints ? length : 1;
        if (used + wanted > ROOM) {
            memcpy(into + used, "...", 3);
            used += 3;
            break;
        }
        if (prints)
            memcpy(into + used, at, length);
        else
            into[used] = '?';
        used += wanted;
        at += length > 0 ? length : 1;
    }
    into[used] = '\0';
    return into;
}
