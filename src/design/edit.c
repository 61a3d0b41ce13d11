/* edit.c - one parameter of a design at a time: shown, typed, stepped, compared. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/design.h"

#include "design/edit.h"
#include "design/quantity.h"
#include "design/values.h"

static const struct parameter *parameter_at(size_t index) {
    size_t count;
    return &parameters(&count)[index];
}

static enum units units_of(const struct design *design) {
    return design->paper.units == UNITS_INCH ? UNITS_INCH : UNITS_MM;
}

/* ---- shown ------------------------------------------------------------- */

static void show_points(const struct point_list *list, struct text *into) {
    char r[32], z[32];
    for (size_t i = 0; i < list->count && i < TABLE_MOST; i++)
        text_add(into, "%s%s %s", i == 0 ? "" : ", ", plain_number(list->value[i].r_m, r),
                 plain_number(list->value[i].z_m, z));
}

static void show_items(const struct parameter *p, enum units units, const struct item_list *list,
                       struct text *into) {
    char mass[48];
    for (size_t i = 0; i < list->count && i < ITEMS_MOST; i++) {
        text_add(into, "%s", i == 0 ? "" : ", ");
        show_name(list->value[i].name, ",", into);
        text_add(into, " %s", quantity_show(p, units, list->value[i].mass_kg, mass));
    }
}

static void show_stock(const struct stock_list *list, struct text *into) {
    char length[32], width[32];
    for (size_t i = 0; i < list->count && i < STOCK_MOST; i++) {
        const struct stock *stock = &list->value[i];
        text_add(into, "%s%c %s%s%s", i == 0 ? "" : ", ", stock->letter,
                 plain_number(stock->length_m, length), stock->width_m > 0 ? " " : "",
                 stock->width_m > 0 ? plain_number(stock->width_m, width) : "");
    }
}

static void show_list(const struct parameter *p, const void *value, struct text *into) {
    char number[32];
    size_t count = *(const size_t *)value; /* each list begins with its count */
    for (size_t i = 0; i < count && i < list_room(p); i++) {
        const char *blank = i == 0 ? "" : " ";
        if (p->type == PARAMETER_REALS)
            text_add(into, "%s%s", blank,
                     plain_number(((const struct real_list *)value)->value[i], number));
        else if (p->type == PARAMETER_STYLES)
            text_add(into, "%s%s", blank,
                     parameter_word(p->key, ((const struct style_list *)value)->value[i]));
        else if (p->type == PARAMETER_LINES)
            text_add(into, "%s%.*s", blank, GORES_MOST,
                     ((const struct line_list *)value)->value[i]);
        else {
            text_add(into, "%s", i == 0 ? "" : ", ");
            show_cloth(&((const struct cloth_list *)value)->value[i], into);
        }
    }
}

void parameter_show(const struct design *design, size_t parameter, struct text *into) {
    const struct parameter *p = parameter_at(parameter);
    const void *value = value_of(design, p);
    char quantity[48];
    switch (p->type) {
    case PARAMETER_WHOLE:
        text_add(into, "%d", *(const int *)value);
        break;
    case PARAMETER_REAL:
        text_add(into, "%s", quantity_show(p, units_of(design), *(const double *)value, quantity));
        break;
    case PARAMETER_TEXT:
        text_add(into, "%.*s", TEXT_MOST - 1, (const char *)value);
        break;
    case PARAMETER_CHOICE:
        text_add(into, "%s", parameter_word(p->key, *(const int *)value));
        break;
    default:
        text_add(into, "%s", ""); /* so that an empty list is a text too */
        if (p->type == PARAMETER_POINTS)
            show_points(value, into);
        else if (p->type == PARAMETER_ITEMS)
            show_items(p, units_of(design), value, into);
        else if (p->type == PARAMETER_STOCK)
            show_stock(value, into);
        else
            show_list(p, value, into);
        break;
    }
}

/* ---- typed ------------------------------------------------------------- */

static int take_whole(const struct typing *t, const struct parameter *p) {
    char range[WORDS_MOST], wanted[WORDS_MOST + 40];
    const char *digits = t->typed + (t->typed[0] == '-' || t->typed[0] == '+');
    size_t length = strspn(digits, "0123456789");
    if (length == 0 || digits[length] != '\0') {
        snprintf(wanted, sizeof wanted, "write a whole number, %s", range_words(p, range));
        return refuse_words(t, p, wanted);
    }
    double number = strtod(t->typed, NULL);
    if (number < p->least || number > p->most) {
        diagnose_range(t->messages, p, 0, number);
        return -1;
    }
    *(int *)member_of(t->design, p) = (int)number;
    return 0;
}

static int take_real(const struct typing *t, const struct parameter *p) {
    return quantity_read(p, units_of(t->design), t->typed, member_of(t->design, p), t->messages);
}

static int take_text(const struct typing *t, const struct parameter *p) {
    size_t length = strlen(t->typed);
    const char *fault = text_fault(t->typed);
    if (fault[0] != '\0') {
        diagnose(t->messages, SEVERITY_ERROR, "text", p->key, "this text %s", fault);
        return -1;
    }
    if (length >= TEXT_MOST) {
        diagnose(t->messages, SEVERITY_ERROR, "text", p->key,
                 "this text has %zu bytes; at most %d can be printed, so shorten it (a letter "
                 "with an accent counts as two or more)",
                 length, TEXT_MOST - 1);
        return -1;
    }
    char *member = member_of(t->design, p);
    memset(member, 0, TEXT_MOST);
    memcpy(member, t->typed, length);
    return 0;
}

static bool begins(const char *whole, const char *word) {
    while (*word != '\0' && ascii_lower(*word) == *whole) {
        word++;
        whole++;
    }
    return *word == '\0';
}

/* The one choice that is `word` or begins with it; -1 when none or several do. */
static int choice_of(const struct parameter *p, const char *word) {
    int found = -1;
    for (int i = 0; p->choices[i] != NULL; i++) {
        if (!begins(p->choices[i], word))
            continue;
        if (strlen(p->choices[i]) == strlen(word))
            return i;
        if (found >= 0 || word[0] == '\0')
            return -1;
        found = i;
    }
    return found;
}

static int take_choice(const struct typing *t, const struct parameter *p) {
    int choice = choice_of(p, t->typed);
    if (choice < 0) {
        diagnose_word(t->messages, p, 0, t->typed);
        return -1;
    }
    *(int *)member_of(t->design, p) = choice;
    return 0;
}

/* ---- lists ------------------------------------------------------------- */

/* A number, and what follows it in *at: a blank, a comma or the end. */
static bool list_number(const char **at, double *number) {
    enum { LENGTH_MOST = 40 };
    char word[LENGTH_MOST + 1], *end;
    size_t length = strcspn(*at, " \t,");
    if (length == 0 || length > LENGTH_MOST || strspn(*at, "+-.0123456789eE") < length)
        return false;
    memcpy(word, *at, length);
    word[length] = '\0';
    *number = strtod(word, &end);
    *at += length;
    return *end == '\0';
}

static bool list_number_in_range(const struct typing *t, const struct parameter *p, size_t entry,
                                 double number) {
    if (isfinite(number) && number >= p->least && number <= p->most)
        return true;
    diagnose_range(t->messages, p, entry, number);
    return false;
}

static int take_reals(const struct typing *t, const struct parameter *p) {
    struct real_list *list = member_of(t->design, p);
    const char *at = t->typed;
    *list = (struct real_list){0};
    for (; *at != '\0'; at = past_blanks(at)) {
        double number;
        if (!list_number(&at, &number) || *at == ',')
            return refuse_words(t, p,
                                "write numbers with blanks between them, such as 4 3 2.5 1, and "
                                "a point where decimals begin");
        if (!list_number_in_range(t, p, list->count + 1, number))
            return -1;
        if (list->count == list_room(p))
            return refuse_count(t, p);
        list->value[list->count++] = number;
    }
    return 0;
}

static int take_points(const struct typing *t, const struct parameter *p) {
    struct point_list *list = member_of(t->design, p);
    const char *at = t->typed;
    *list = (struct point_list){0};
    for (; *at != '\0'; at = past_separator(at)) {
        double r, z;
        bool whole = list_number(&at, &r);
        at = past_blanks(at);
        whole = whole && list_number(&at, &z);
        if (!whole || (*past_blanks(at) != ',' && *past_blanks(at) != '\0'))
            return refuse_words(t, p,
                                "write radius and height of each station in metres, a comma "
                                "after each but the last, such as 0.3 0, 1.1 1.6, 0.25 2.9");
        if (!list_number_in_range(t, p, list->count + 1, r) ||
            !list_number_in_range(t, p, list->count + 1, z))
            return -1;
        if (list->count == list_room(p))
            return refuse_count(t, p);
        list->value[list->count].r_m = r;
        list->value[list->count++].z_m = z;
    }
    return 0;
}

/* Returns: 0, or -1 after a message. */
static int add_style(const struct typing *t, const struct parameter *p, const char *word) {
    struct style_list *list = member_of(t->design, p);
    int style = choice_of(p, word);
    if (style < 0) {
        diagnose_word(t->messages, p, list->count + 1, word);
        return -1;
    }
    if (list->count == list_room(p))
        return refuse_count(t, p);
    list->value[list->count++] = style;
    return 0;
}

/* A word, or (when it is none) a letter for each gore. */
static int add_styles(const struct typing *t, const struct parameter *p, const char *word) {
    bool letters = choice_of(p, word) < 0 && word[0] != '\0';
    for (const char *at = word; *at != '\0'; at++) {
        const char letter[] = {*at, '\0'};
        letters = letters && choice_of(p, letter) >= 0;
    }
    if (!letters)
        return add_style(t, p, word);
    for (const char *at = word; *at != '\0'; at++) {
        const char letter[] = {*at, '\0'};
        if (add_style(t, p, letter) != 0)
            return -1;
    }
    return 0;
}

static int take_styles(const struct typing *t, const struct parameter *p) {
    const char *at = t->typed;
    *(struct style_list *)member_of(t->design, p) = (struct style_list){0};
    for (; *at != '\0'; at = past_separator(at)) {
        char word[80];
        size_t length = strcspn(at, " \t,");
        snprintf(word, sizeof word, "%.*s", (int)(length < 79 ? length : 79), at);
        if (add_styles(t, p, word) != 0)
            return -1;
        at += length;
    }
    return 0;
}

/* ---- items ------------------------------------------------------------- */

/* The mass at the end of an entry: the longest end that reads as one.
 * Returns: where it begins, or NULL after a message. */
static const char *find_mass(const struct typing *t, const struct parameter *p, const char *entry,
                             double *mass_kg) {
    for (const char *at = entry + quoted_length(entry); *at != '\0'; at++) {
        struct diagnostics own = {0};
        bool begins_word = at == entry || strchr(" \t\"", at[-1]) != NULL;
        if (!begins_word || strchr("-+.0123456789", *at) == NULL)
            continue;
        int wrong = quantity_read(p, units_of(t->design), at, mass_kg, &own);
        bool ranged = wrong != 0 && strcmp(own.item[0].code, "range") == 0;
        if (ranged)
            diagnose(t->messages, SEVERITY_ERROR, "range", p->key, "%s", own.item[0].text);
        diagnostics_free(&own);
        if (wrong == 0 || ranged)
            return wrong == 0 ? at : NULL;
    }
    refuse_words(t, p,
                 "write a name and a mass for each, a comma between them, such as camera 120 g, "
                 "flag 0.05 kg");
    return NULL;
}

/* Up to the next comma that is not between quotes. */
static size_t entry_length(const char *at) {
    size_t length = quoted_length(at);
    return length + strcspn(at + length, ",");
}

static int take_item(const struct typing *t, const struct parameter *p, const char *entry) {
    struct item_list *list = member_of(t->design, p);
    double mass_kg;
    const char *mass = find_mass(t, p, entry, &mass_kg);
    if (mass == NULL)
        return -1;
    if (list->count == list_room(p))
        return refuse_count(t, p);
    if (!take_name(t, p, entry, (size_t)(mass - entry), list->value[list->count].name))
        return -1;
    list->value[list->count++].mass_kg = mass_kg;
    return 0;
}

static int take_items(const struct typing *t, const struct parameter *p) {
    const char *at = t->typed;
    *(struct item_list *)member_of(t->design, p) = (struct item_list){0};
    for (; *at != '\0'; at = past_separator(at)) {
        char entry[2 * TEXT_MOST + 48];
        size_t length = entry_length(at);
        snprintf(entry, sizeof entry, "%.*s", (int)length, at);
        if (take_item(t, p, entry) != 0)
            return -1;
        at += length;
    }
    return 0;
}

/* "W 2.4 1.1" or "W 2.4" up to a comma.  Returns: what follows it, or NULL. */
static const char *stock_of(const char *at, struct stock *stock) {
    *stock = (struct stock){.letter = at[0]};
    if (at[0] == '\0' || past_blanks(at + 1) == at + 1)
        return NULL;
    at = past_blanks(at + 1);
    if (!list_number(&at, &stock->length_m))
        return NULL;
    at = past_blanks(at);
    if (*at != ',' && *at != '\0' && !list_number(&at, &stock->width_m))
        return NULL;
    at = past_blanks(at);
    return *at == ',' || *at == '\0' ? at : NULL;
}

static int take_stock(const struct typing *t, const struct parameter *p) {
    struct stock_list *list = member_of(t->design, p);
    *list = (struct stock_list){0};
    for (const char *at = t->typed; *at != '\0'; at = past_separator(at)) {
        if (list->count == list_room(p))
            return refuse_count(t, p);
        struct stock *stock = &list->value[list->count++];
        at = stock_of(at, stock);
        if (at == NULL)
            return refuse_words(
                t, p,
                "write the letter of the cloth, length and width of each in "
                "metres, a comma after each but the last, such as W 2.4 1.1, R 3 1.5");
        if (!list_number_in_range(t, p, list->count, stock->length_m) ||
            (stock->width_m > 0 && !list_number_in_range(t, p, list->count, stock->width_m)))
            return -1;
    }
    return 0;
}

static taking *const take[] = {
    [PARAMETER_WHOLE] = take_whole,   [PARAMETER_REAL] = take_real,
    [PARAMETER_TEXT] = take_text,     [PARAMETER_CHOICE] = take_choice,
    [PARAMETER_REALS] = take_reals,   [PARAMETER_STYLES] = take_styles,
    [PARAMETER_POINTS] = take_points, [PARAMETER_ITEMS] = take_items,
    [PARAMETER_CLOTHS] = take_cloths, [PARAMETER_LINES] = take_lines,
    [PARAMETER_STOCK] = take_stock,
};

/* What was typed, without blanks around it; NULL when memory is short. */
static char *trimmed(const char *typed) {
    char *copy = strdup(past_blanks(typed));
    size_t length = copy == NULL ? 0 : strlen(copy);
    while (length > 0 && *past_blanks(copy + length - 1) == '\0')
        copy[--length] = '\0';
    return copy;
}

int parameter_set(struct design *design, size_t parameter, const char *typed,
                  struct diagnostics *messages) {
    const struct parameter *p = parameter_at(parameter);
    struct design changed = *design;
    struct text shown = {0};
    char *words = trimmed(typed);
    int wrong = 0;
    parameter_show(design, parameter, &shown);
    if (words == NULL || shown.failed) {
        diagnose(messages, SEVERITY_ERROR, "memory", p->key, "there is not enough memory");
        wrong = -1;
    } else if (strcmp(words, shown.bytes) != 0) {
        const struct typing typing = {&changed, words, messages};
        wrong = take[p->type](&typing, p);
        if (wrong == 0)
            *design = changed;
    }
    free(words);
    text_free(&shown);
    return wrong;
}

/* ---- stepped ----------------------------------------------------------- */

/* The largest of 1, 2, 5 times a power of ten that is not above `size`. */
static double round_below(double size) {
    double power = pow(10, floor(log10(size) + 1e-9)), first = size / power;
    return power * (first >= 5 - 1e-9 ? 5 : first >= 2 - 1e-9 ? 2 : 1);
}

/* The same in inches: a fraction that halving gives, or whole inches to the foot. */
static double inches_below(double size) {
    static const double step[] = {12, 6, 2, 1, 1. / 2, 1. / 4, 1. / 8, 1. / 16, 1. / 32};
    for (size_t i = 0; i < COUNT_OF(step); i++)
        if (size >= step[i])
            return step[i];
    return 1. / 64;
}

/* What a step is at least, in units shown.  Masses go by tens of grams, for most models carry
 * little of what an item may weigh; temperatures by whole degrees. */
static double least_step(const struct parameter *p, enum units units) {
    double zero = quantity_shown(p, units, 0);
    if (strcmp(p->unit, "C") == 0)
        return 1;
    if (strcmp(p->unit, "kg") == 0)
        return quantity_shown(p, units, 0.01) - zero;
    if (strcmp(p->unit, "kg/m") == 0)
        return quantity_shown(p, units, 0.0001) - zero;
    return p->least > 0 ? 0 : (quantity_shown(p, units, p->most) - zero) / 200;
}

/* The next multiple of the step, in units shown. */
static double stepped(const struct parameter *p, enum units units, double value, int direction) {
    double shown = quantity_shown(p, units, value);
    double size = fmax(fabs(shown) / 20, least_step(p, units));
    if (!(size > 0))
        return value;
    bool inches = strcmp(quantity_unit(p, units), "in") == 0;
    double step = inches ? inches_below(size) : round_below(size);
    double count = shown / step;
    count = direction > 0 ? floor(count + 1e-6) + 1 : ceil(count - 1e-6) - 1;
    return quantity_meant(p, units, count * step);
}

static double clipped(const struct parameter *p, double value) {
    return value < p->least ? p->least : value > p->most ? p->most : value;
}

/* Read back from its short form, so that no noise of the arithmetic stays. */
static void step_real(struct design *design, const struct parameter *p, int direction) {
    struct diagnostics messages = {0};
    double *value = member_of(design, p), next;
    enum units units = units_of(design);
    char shown[48];
    if (!isfinite(*value))
        return;
    next = clipped(p, stepped(p, units, *value, direction));
    *value = next;
    bool limit = next <= p->least || next >= p->most;
    if (!limit &&
        quantity_read(p, units, quantity_show(p, units, next, shown), &next, &messages) == 0)
        *value = next;
    diagnostics_free(&messages);
}

void parameter_step(struct design *design, size_t parameter, int direction) {
    const struct parameter *p = parameter_at(parameter);
    if (p->type == PARAMETER_REAL) {
        step_real(design, p, direction);
        return;
    }
    if (p->type != PARAMETER_WHOLE && p->type != PARAMETER_CHOICE)
        return;
    int *value = member_of(design, p);
    double next = (double)*value + (direction > 0 ? 1 : -1);
    if (p->type == PARAMETER_CHOICE && (next < p->least || next > p->most))
        next = next < p->least ? p->most : p->least;
    *value = (int)clipped(p, next);
}

/* ---- compared ---------------------------------------------------------- */

static bool same_items(const struct item_list *one, const struct item_list *other) {
    for (size_t i = 0; i < one->count && i < ITEMS_MOST; i++)
        if (strncmp(one->value[i].name, other->value[i].name, TEXT_MOST) != 0 ||
            one->value[i].mass_kg != other->value[i].mass_kg)
            return false;
    return true;
}

static bool same_cloths(const struct cloth_list *one, const struct cloth_list *other) {
    bool same = one->count == other->count;
    for (size_t i = 0; same && i < one->count && i < CLOTHS_MOST; i++) {
        const struct cloth_colour *a = &one->value[i], *b = &other->value[i];
        same = a->letter == b->letter && strncmp(a->name, b->name, TEXT_MOST) == 0 &&
               a->width_m == b->width_m && a->mass_kg_m2 == b->mass_kg_m2 &&
               a->price_m == b->price_m;
    }
    return same;
}

static bool same_lines(const struct line_list *one, const struct line_list *other) {
    bool same = one->count == other->count;
    for (size_t i = 0; same && i < one->count && i < ROWS_MOST; i++)
        same = strncmp(one->value[i], other->value[i], GORES_MOST + 1) == 0;
    return same;
}

static bool same_stock(const struct stock_list *one, const struct stock_list *other) {
    bool same = one->count == other->count;
    for (size_t i = 0; same && i < one->count && i < STOCK_MOST; i++) {
        const struct stock *a = &one->value[i], *b = &other->value[i];
        same = a->letter == b->letter && a->length_m == b->length_m && a->width_m == b->width_m;
    }
    return same;
}

static bool same_list(const struct parameter *p, const char *one, const char *other) {
    static const size_t entry[] = {
        [PARAMETER_REALS] = sizeof(double),
        [PARAMETER_STYLES] = sizeof(int),
        [PARAMETER_POINTS] = 2 * sizeof(double),
    };
    static const size_t first[] = {
        [PARAMETER_REALS] = offsetof(struct real_list, value),
        [PARAMETER_STYLES] = offsetof(struct style_list, value),
        [PARAMETER_POINTS] = offsetof(struct point_list, value),
    };
    size_t count = *(const size_t *)(const void *)one;
    if (count != *(const size_t *)(const void *)other)
        return false;
    if (p->type == PARAMETER_ITEMS)
        return same_items((const void *)one, (const void *)other);
    if (count > list_room(p))
        count = list_room(p);
    return memcmp(one + first[p->type], other + first[p->type], count * entry[p->type]) == 0;
}

bool design_same(const struct design *one, const struct design *other) {
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++) {
        const void *a = value_of(one, &p[i]), *b = value_of(other, &p[i]);
        bool same;
        if (p[i].type == PARAMETER_TEXT)
            same = strncmp(a, b, TEXT_MOST) == 0;
        else if (p[i].type == PARAMETER_CLOTHS)
            same = same_cloths(a, b);
        else if (p[i].type == PARAMETER_LINES)
            same = same_lines(a, b);
        else if (p[i].type == PARAMETER_STOCK)
            same = same_stock(a, b);
        else if (list_room(&p[i]) > 0)
            same = same_list(&p[i], a, b);
        else
            same = memcmp(a, b, p[i].type == PARAMETER_REAL ? sizeof(double) : sizeof(int)) == 0;
        if (!same)
            return false;
    }
    return true;
}
