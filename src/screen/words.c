/* words.c - values and figures as short words, and words in a box. */
#include "screen/words.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void plain_letters(const char *utf8, char *into, size_t size) {
    size_t length = 0;
    for (; *utf8 != '\0' && length + 1 < size; utf8++) {
        unsigned char byte = (unsigned char)*utf8;
        if ((byte & 0xC0) == 0x80)
            continue; /* the rest of a letter */
        into[length++] = byte >= ' ' && byte <= '~' ? *utf8 : '?';
    }
    into[length] = '\0';
}

char *shorten(const char *utf8, size_t most, char *into) {
    plain_letters(utf8, into, most + 1);
    size_t letters = 0;
    for (const char *c = utf8; *c != '\0'; c++)
        letters += ((unsigned char)*c & 0xC0) != 0x80;
    if (letters > most && most >= 4)
        memcpy(into + most - 3, "...", 3);
    return into;
}

/* ---- values ------------------------------------------------------------------- */

/* Length of the decimal number at `at`, 0 when none stands there. */
static size_t decimal_length(const char *at) {
    size_t whole = strspn(at, "0123456789");
    return whole > 0 && at[whole] == '.' ? whole + 1 + strspn(at + whole + 1, "0123456789") : 0;
}

/* To three decimals, of a number below 0.1 to three digits that count.
 * Given: direction, towards which it is rounded; 0: to the nearest. */
static void add_rounded(double number, int direction, struct text *into) {
    int decimals = number > 0 && number < 0.1 ? 2 - (int)floor(log10(number)) : 3;
    double step = pow(10, -decimals), steps = number / step;
    char digits[48];
    steps = direction > 0 ? ceil(steps - 1e-6) : direction < 0 ? floor(steps + 1e-6) : round(steps);
    snprintf(digits, sizeof digits, "%.*f", decimals, steps * step);
    size_t length = strlen(digits);
    while (digits[length - 1] == '0')
        length--;
    text_add(into, "%.*s", (int)(digits[length - 1] == '.' ? length - 1 : length), digits);
}

/* Add a value with no more decimals than somebody reads. */
static void add_readable(const char *value, int direction, struct text *into) {
    bool inside = false; /* a word, which is no number */
    while (*value != '\0') {
        size_t length = inside ? 0 : decimal_length(value);
        if (length > 5) {
            add_rounded(strtod(value, NULL), direction, into);
            value += length;
            continue;
        }
        inside = *value != ' ' && *value != '-';
        text_add_bytes(into, value++, 1);
    }
}

/* "4 stations"; how a list is shown that does not fit. */
static void count_entries(const struct design *design, const struct parameter *p,
                          struct text *into) {
    size_t entries = *(const size_t *)(const void *)((const char *)design + p->offset);
    const char *what = p->type == PARAMETER_POINTS   ? "stations"
                       : p->type == PARAMETER_STYLES ? "styles"
                       : p->type == PARAMETER_ITEMS  ? "things"
                                                     : "values";
    text_free(into);
    text_add(into, "%zu %s", entries, what);
}

static bool is_list(const struct parameter *p) {
    return p->type == PARAMETER_POINTS || p->type == PARAMETER_STYLES ||
           p->type == PARAMETER_ITEMS || p->type == PARAMETER_REALS;
}

void value_to_type(const struct design *design, const char *key, struct text *into) {
    struct text exact = {0};
    size_t count, parameter = (size_t)parameter_find(key);
    bool number = parameters(&count)[parameter].type == PARAMETER_REAL;
    parameter_show(design, parameter, &exact);
    if (number && exact.bytes != NULL)
        add_readable(exact.bytes, 0, into);
    else
        text_add(into, "%s", exact.bytes != NULL ? exact.bytes : "");
    text_free(&exact);
}

/* What stands for a 0 that means "not yet"; NULL for any other value. */
static const char *not_yet(const char *key, const char *value) {
    if (strncmp(value, "0 ", 2) != 0)
        return NULL;
    return strncmp(key, "paper.measured", 14) == 0 ? "not measured"
           : strncmp(key, "weighed.", 8) == 0      ? "not weighed"
                                                   : NULL;
}

void whole_value(const struct design *design, const char *key, struct text *into) {
    struct text value = {0};
    size_t count;
    bool text = parameters(&count)[parameter_find(key)].type == PARAMETER_TEXT;
    value_to_type(design, key, &value);
    const char *words = value.bytes != NULL ? value.bytes : "", *not = not_yet(key, words);
    if (not != NULL || words[0] == '\0')
        text_add(into, "%s", not != NULL ? not : "none");
    else if (text)
        text_add(into, "%s", words);
    else
        add_readable(words, 0, into);
    text_free(&value);
}

/* A list in fewer columns: styles by their letters, as they can be typed; else counted. */
static void shorten_list(const struct design *design, const struct parameter *p, size_t most,
                         struct text *into) {
    const struct style_list *styles = &design->gores.mix;
    if (p->type != PARAMETER_STYLES || styles->count > most) {
        count_entries(design, p, into);
        return;
    }
    text_free(into);
    for (size_t i = 0; i < styles->count; i++)
        text_add_bytes(into, &parameter_word(p->key, styles->value[i])[0], 1);
}

bool show_value(const struct design *design, const char *key, size_t most, char into[64]) {
    struct text text = {0};
    size_t count;
    const struct parameter *p = &parameters(&count)[parameter_find(key)];
    whole_value(design, key, &text);
    bool fits = text.length <= most;
    if (!fits && is_list(p))
        shorten_list(design, p, most, &text);
    shorten(text.bytes != NULL ? text.bytes : "", most < 63 ? most : 63, into);
    text_free(&text);
    return fits;
}

/* A limit, or what is usual, as it reads; a limit never rounded out of what is allowed. */
static void add_quantity(const struct design *design, const struct parameter *p, double value,
                         int direction, struct text *into) {
    char exact[48];
    quantity_show(p, (enum units)design->paper.units, value, exact);
    add_readable(exact, direction, into);
}

/* What the cross on page 1 should measure, and what can be corrected. */
static void cross_words(const struct design *design, bool up, struct text *into) {
    bool inches = design->paper.units == UNITS_INCH;
    double unit_m = inches ? METRES_PER_INCH : 1e-3, steps = inches ? 100 : 10;
    struct paper_cross cross;
    if (paper_cross(design, &cross) != 0)
        return;
    double length = (up ? cross.up_m : cross.across_m) / unit_m;
    text_add(into, "It should be %.0f %s %s; %.*f to %.*f %s can be corrected.", length,
             inches ? "in" : "mm", up ? "up the page" : "across", inches ? 2 : 1,
             ceil(length * cross.least * steps - 1e-9) / steps, inches ? 2 : 1,
             floor(length * cross.most * steps + 1e-9) / steps, inches ? "in" : "mm");
}

static void range_words(const struct design *design, const struct parameter *p, struct text *into) {
    add_quantity(design, p, p->least, 1, into);
    text_add(into, " to ");
    add_quantity(design, p, p->most, -1, into);
    text_add(into, "; usual ");
    add_quantity(design, p, p->usual, 0, into);
    text_add(into, ".");
}

void allowed_words(const struct design *design, const struct parameter *p, struct text *into) {
    switch (p->type) {
    case PARAMETER_WHOLE:
        text_add(into, "%g to %g; usual %g.", p->least, p->most, p->usual);
        break;
    case PARAMETER_REAL:
        if (strncmp(p->key, "paper.measured", 14) == 0)
            cross_words(design, strcmp(p->key, "paper.measured_up") == 0, into);
        else
            range_words(design, p, into);
        break;
    case PARAMETER_CHOICE:
        text_add(into, "Usual: %s.", p->choices[(int)p->usual]);
        break;
    case PARAMETER_STYLES:
        text_add(into, "Type f, h, b, one for each gore; nothing for all alike.");
        break;
    case PARAMETER_REALS:
        text_add(into, "Type %g to %g each, blanks between; nothing for none.", p->least, p->most);
        break;
    case PARAMETER_ITEMS:
        text_add(into, "Type camera 120 g, flag 0.05 kg; nothing for none.");
        break;
    case PARAMETER_POINTS:
        text_add(into, "Type radius height, radius height, ... in metres.");
        break;
    case PARAMETER_CLOTHS:
        text_add(into, "Space to type: white, red; in full W white / 1.5 m / 45 g/m2 / 8, the "
                       "price of a metre.");
        break;
    case PARAMETER_LINES:
        text_add(into, "Space to type: letters, one for each gore, a blank between rows.");
        break;
    case PARAMETER_STOCK:
        text_add(into, "Space to type: W 2.4 1.1, R 3 1.5: letter, length, width in m.");
        break;
    case PARAMETER_TEXT:
        text_add(into, "Usual: %s.", p->usual_text);
        break;
    }
}

void cost_words(const struct design *design, const struct style_cost *cost, enum style style,
                char into[96]) {
    bool feet = design->paper.units == UNITS_INCH;
    if (!cost->buildable) {
        snprintf(into, 96, "%-10s cannot be built as it is", style_name(style));
        return;
    }
    snprintf(into, 96, "%-10s %zu pieces, %.0f %s of seam", style_name(style), cost->pieces,
             feet ? cost->seam_m / FOOT_m : cost->seam_m, feet ? "ft" : "m");
}

long put_words(struct canvas *canvas, struct area_box box, enum cell_kind kind, const char *words) {
    return put_words_from(canvas, box, 0, kind, words);
}

long put_words_from(struct canvas *canvas, struct area_box box, long skipped, enum cell_kind kind,
                    const char *words) {
    long row = 0, column = 0, most = box.columns > 2 ? box.columns - 2 : 1;
    if (words == NULL)
        return 0;
    for (words += strspn(words, " \n"); *words != '\0' && row < box.rows;) {
        long length = (long)strcspn(words, " \n");
        char word[160];
        if (column > 0 && column + 1 + length > most) {
            row++;
            column = 0;
            continue;
        }
        length = length < most ? length : most; /* the rest of it goes into the next row */
        snprintf(word, sizeof word, "%.*s", (int)length, words);
        long at = box.column + 1 + column + (column > 0);
        if (row >= skipped)
            canvas_put(canvas, at, box.row + row, kind, word);
        column = at + length - box.column - 1;
        words += length;
        words += strspn(words, " \n");
    }
    return row + (column > 0 && row < box.rows);
}

long words_rows(long columns, const char *words) {
    struct cell cell;
    struct canvas nowhere = {0, 0, &cell};
    return put_words(&nowhere, (struct area_box){0, 0, columns, 1000}, CELL_TEXT, words);
}
