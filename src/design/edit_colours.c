/* edit_colours.c - cloths and schemes as they are typed and shown. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "design/edit.h"
#include "design/values.h"

/* What ends a name without quotes. */
static const char parting[] = ",/";

/* ---- cloths shown ----------------------------------------------------------- */

void show_cloth(const struct cloth_colour *cloth, struct text *into) {
    const double value[] = {cloth->width_m, cloth->mass_kg_m2, cloth->price_m};
    size_t given = COUNT_OF(value);
    char number[32];
    while (given > 0 && !(value[given - 1] > 0))
        given--;
    text_add(into, "%c ", cloth->letter);
    show_name(cloth->name, parting, into);
    for (size_t i = 0; i < given; i++)
        text_add(into, " / %s", plain_number(value[i], number));
}

/* ---- cloths typed ----------------------------------------------------------- */

/* One entry, "R red / 1.2 / 0.045", being read. */
struct entry {
    const struct typing *typing;
    const struct parameter *parameter;
    size_t number; /* from 1 */
    const char *at;
};

static bool refuse_entry(const struct entry *entry, const char *what) {
    diagnose(entry->typing->messages, SEVERITY_ERROR, "type", entry->parameter->key, "entry %zu %s",
             entry->number, what);
    return false;
}

static bool ends(char c) {
    return c == '\0' || c == ',' || c == '/';
}

/* A single letter before a blank; '\0' when none is given. */
static bool take_letter(struct entry *entry, char *letter) {
    const char *at = entry->at, *next = *at == '\0' ? at : past_blanks(at + 1);
    *letter = '\0';
    if (!ends(at[0]) && at[0] != '"' && ends(*next))
        return refuse_entry(entry, at[0] >= '0' && at[0] <= '9'
                                       ? "is a digit without a name; write both, such as 1 red, "
                                         "and a point where decimals begin"
                                       : "is a letter without a name; write both, such as R red");
    if (!ends(at[0]) && next > at + 1) {
        *letter = *at;
        entry->at = next;
    }
    return true;
}

static bool take_cloth_name(struct entry *entry, char name[TEXT_MOST]) {
    const char *at = entry->at;
    size_t length = strcspn(at, parting);
    if (at[0] == '"') {
        length = quoted_length(at);
        if (length == 0)
            return refuse_entry(entry, "has a name that begins with a quote and does not end with "
                                       "one; write the second, or neither");
        if (!ends(*past_blanks(at + length)))
            return refuse_entry(entry, "goes on behind the quotes of its name; write , or / there");
    }
    if (length == 0)
        return refuse_entry(entry, "has no name; write one, such as R red");
    entry->at = at + length;
    return take_name(entry->typing, entry->parameter, at, length, name);
}

/* Up to the next / or comma; the one in "45 g/m2" goes with it. */
static size_t number_length(const char *at) {
    static const char *const areas[] = {"/m2", "/ft2", "/yd2"};
    size_t length = strcspn(at, parting);
    for (size_t i = 0; i < COUNT_OF(areas); i++) {
        size_t area = strlen(areas[i]);
        if (length > 0 && past_blanks(at + length - 1) == at + length - 1 &&
            strncmp(at + length, areas[i], area) == 0)
            return length + area + strcspn(at + length + area, parting);
    }
    return length;
}

/* A number in the unit of the file. */
static bool plain(const char *word, double *value) {
    char *end;
    *value = strtod(word, &end);
    return strspn(word, "+-.0123456789eE") == strlen(word) && *end == '\0' && isfinite(*value);
}

/* The same with a unit, as for the parameter `like`. */
static bool take_quantity(const struct entry *entry, const char *like, const char *word,
                          double *value) {
    size_t count;
    struct diagnostics own = {0};
    const struct parameter *p = &parameters(&count)[parameter_find(like)];
    enum units units = (enum units)entry->typing->design->paper.units;
    bool taken = quantity_read(p, units, word, value, &own) == 0;
    if (!taken)
        diagnose(entry->typing->messages, SEVERITY_ERROR, own.item[0].code, entry->parameter->key,
                 "entry %zu: %s", entry->number, own.item[0].text);
    diagnostics_free(&own);
    return taken;
}

/* The number behind a /, like that parameter; 0 when nothing stands there. */
static bool take_number(struct entry *entry, const char *like, double *value) {
    enum { LENGTH_MOST = 40 };
    char word[LENGTH_MOST + 1] = "";
    const char *at = past_blanks(entry->at);
    size_t length = number_length(at);
    entry->at = at + length;
    while (length > 0 && past_blanks(at + length - 1) >= at + length)
        length--;
    *value = 0;
    if (length <= LENGTH_MOST)
        memcpy(word, at, length);
    if (length == 0 || (length <= LENGTH_MOST && plain(word, value)))
        return true;
    if (like != NULL && length <= LENGTH_MOST && strpbrk(word, "0123456789") != NULL)
        return take_quantity(entry, like, word, value);
    return refuse_entry(entry, "has something else than a number behind /; write width, mass and "
                               "price of a metre, such as R red / 1.2 m / 45 g/m2 / 8");
}

static bool take_entry(struct entry *entry, struct cloth_colour *cloth) {
    static const char *const like[] = {"cloth.width", "cloth.mass", NULL};
    double *const number[] = {&cloth->width_m, &cloth->mass_kg_m2, &cloth->price_m};
    size_t given = 0;
    if (!take_letter(entry, &cloth->letter) || !take_cloth_name(entry, cloth->name))
        return false;
    for (entry->at = past_blanks(entry->at); *entry->at == '/'; given++) {
        entry->at++;
        if (given == COUNT_OF(number))
            return refuse_entry(entry, "has more than three numbers; write width, mass and price");
        if (!take_number(entry, like[given], number[given]))
            return false;
    }
    return true;
}

static bool is_taken(const struct cloth_list *list, char letter) {
    for (size_t i = 0; i < list->count; i++)
        if (list->value[i].letter == letter)
            return true;
    return false;
}

/* A free letter, out of its name when there is one. */
static char free_letter(const struct cloth_list *list, const char *name) {
    static const char others[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    for (; *name != '\0'; name++) {
        char letter = *name >= 'a' && *name <= 'z' ? (char)(*name - 'a' + 'A') : *name;
        if (strchr(others, letter) != NULL && !is_taken(list, letter))
            return letter;
    }
    const char *letter = others;
    while (is_taken(list, *letter)) /* more letters than cloths */
        letter++;
    return *letter;
}

int take_cloths(const struct typing *t, const struct parameter *p) {
    struct cloth_list *list = member_of(t->design, p);
    struct entry entry = {t, p, 1, t->typed};
    *list = (struct cloth_list){0};
    for (; *entry.at != '\0'; entry.at = past_separator(entry.at)) {
        if (list->count == list_room(p))
            return refuse_count(t, p);
        if (!take_entry(&entry, &list->value[list->count]))
            return -1;
        entry.number = ++list->count + 1;
    }
    for (size_t i = 0; i < list->count; i++)
        if (list->value[i].letter == '\0')
            list->value[i].letter = free_letter(list, list->value[i].name);
    return 0;
}

/* ---- schemes ---------------------------------------------------------------- */

int take_lines(const struct typing *t, const struct parameter *p) {
    struct line_list *list = member_of(t->design, p);
    *list = (struct line_list){0};
    for (const char *at = t->typed; *at != '\0'; at = past_separator(at)) {
        size_t length = strcspn(at, " \t,");
        if (list->count == list_room(p))
            return refuse_count(t, p);
        if (length == 0 || length > GORES_MOST)
            return refuse_words(t, p,
                                "write letters of the cloths, one for each gore, a blank between "
                                "rows, such as WWRR RRWW");
        memcpy(list->value[list->count++], at, length);
        at += length;
    }
    return 0;
}
