/* writer.c - from a design to the text of a design file.
 *
 * libconfig's own writer drops comments and digits, so the file is written from the
 * parameter table.
 */
#include <stdio.h>
#include <string.h>

#include "gorewright/design.h"

#include "design/values.h"

enum { COLUMNS = 79, INDENT = 4 };

struct writing {
    const struct design *design;
    const struct design *starter;
    enum design_writing how;
    struct text *into;
};

/* Group and name of a key; an empty group at the top. */
struct key_parts {
    char group[32];
    const char *name;
};

static struct key_parts parts_of(const char *key) {
    struct key_parts parts = {"", key};
    const char *dot = strchr(key, '.');
    if (dot != NULL) {
        snprintf(parts.group, sizeof parts.group, "%.*s", (int)(dot - key), key);
        parts.name = dot + 1;
    }
    return parts;
}

/* ---- values -------------------------------------------------------------- */

static void write_text(const char *text, struct text *into) {
    text_add(into, "\"");
    for (const char *at = text; *at != '\0'; at++) {
        unsigned char c = (unsigned char)*at;
        if (c == '"' || c == '\\')
            text_add(into, "\\%c", c);
        else if (c < 0x20 || c == 0x7F)
            text_add(into, "\\x%02x", c);
        else
            text_add_bytes(into, at, 1);
    }
    text_add(into, "\"");
}

/* Entries of a list go on one line while they fit, aligned under the first. */
struct list_writing {
    struct text *into;
    size_t column, first_column;
};

static void write_entry(struct list_writing *list, bool first, bool last, const char *entry) {
    size_t wanted = strlen(entry) + (last ? 2 : 1);
    if (!first && list->column + 1 + wanted > COLUMNS) {
        text_add(list->into, "\n%*s", (int)list->first_column, "");
        list->column = list->first_column;
    } else if (!first) {
        text_add(list->into, " ");
        list->column++;
    }
    text_add(list->into, "%s%s", entry, last ? "" : ",");
    list->column += wanted;
}

/* Numbers that are not given are left out at the end. */
static void cloth_words(const struct cloth_colour *cloth, struct text *into) {
    const double value[] = {cloth->width_m, cloth->mass_kg_m2, cloth->price_m};
    size_t given = COUNT_OF(value);
    char number[32];
    while (given > 0 && !(value[given - 1] > 0))
        given--;
    text_add(into, "(\"%c\", ", cloth->letter);
    write_text(cloth->name, into);
    for (size_t i = 0; i < given; i++)
        text_add(into, ", %s", shortest_real(value[i], number));
    text_add(into, ")");
}

static void stock_words(const struct stock *stock, struct text *into) {
    char number[32];
    text_add(into, "(\"%c\", %s", stock->letter, shortest_real(stock->length_m, number));
    if (stock->width_m > 0)
        text_add(into, ", %s", shortest_real(stock->width_m, number));
    text_add(into, ")");
}

static void entry_words(const void *list, const struct parameter *p, size_t i, struct text *into) {
    const struct real_list *reals = list;
    const struct style_list *styles = list;
    const struct item_list *items = list;
    const struct line_list *lines = list;
    const struct point_list *points = list;
    char number[32], other[32];
    switch (p->type) {
    case PARAMETER_REALS:
        text_add(into, "%s", shortest_real(reals->value[i], number));
        break;
    case PARAMETER_STYLES:
        text_add(into, "\"%s\"", parameter_word(p->key, styles->value[i]));
        break;
    case PARAMETER_ITEMS:
        text_add(into, "(");
        write_text(items->value[i].name, into);
        text_add(into, ", %s)", shortest_real(items->value[i].mass_kg, number));
        break;
    case PARAMETER_CLOTHS:
        cloth_words(&((const struct cloth_list *)list)->value[i], into);
        break;
    case PARAMETER_LINES:
        write_text(lines->value[i], into);
        break;
    case PARAMETER_STOCK:
        stock_words(&((const struct stock_list *)list)->value[i], into);
        break;
    default:
        text_add(into, "(%s, %s)", shortest_real(points->value[i].r_m, number),
                 shortest_real(points->value[i].z_m, other));
        break;
    }
}

/* A scheme for many gores begins on a line of its own, for it would be too wide behind its key. */
static bool begins_below(const void *value, const struct parameter *p, size_t column) {
    const struct line_list *lines = value;
    if (p->type != PARAMETER_LINES)
        return false;
    for (size_t i = 0; i < lines->count; i++)
        if (column + strlen(lines->value[i]) + 5 > COLUMNS)
            return true;
    return false;
}

static void write_list(const void *value, const struct parameter *p, size_t column,
                       struct text *into) {
    size_t count = *(const size_t *)value; /* each list begins with its count */
    struct list_writing list = {into, column + 1, column + 1};
    struct text entry = {0};
    text_add(into, "(");
    if (begins_below(value, p, column)) {
        list.column = list.first_column = 2 * INDENT;
        text_add(into, "\n%*s", 2 * INDENT, "");
    }
    for (size_t i = 0; i < count; i++) {
        entry.length = 0;
        entry_words(value, p, i, &entry);
        if (entry.failed)
            into->failed = true;
        else
            write_entry(&list, i == 0, i + 1 == count, entry.bytes);
    }
    text_free(&entry);
    text_add(into, ")");
}

static void write_value(const struct parameter *p, const void *value, size_t column,
                        struct text *into) {
    char number[32];
    switch (p->type) {
    case PARAMETER_WHOLE:
        text_add(into, "%d", *(const int *)value);
        break;
    case PARAMETER_REAL:
        text_add(into, "%s", shortest_real(*(const double *)value, number));
        break;
    case PARAMETER_TEXT:
        write_text(value, into);
        break;
    case PARAMETER_CHOICE:
        text_add(into, "\"%s\"", parameter_word(p->key, *(const int *)value));
        break;
    default:
        write_list(value, p, column, into);
        break;
    }
}

/* ---- which ones ---------------------------------------------------------- */

static size_t size_of(const struct parameter *p) {
    static const size_t size[] = {
        [PARAMETER_WHOLE] = sizeof(int),
        [PARAMETER_REAL] = sizeof(double),
        [PARAMETER_CHOICE] = sizeof(int),
        [PARAMETER_REALS] = sizeof(size_t), /* the starter's lists are empty */
        [PARAMETER_STYLES] = sizeof(size_t),
        [PARAMETER_POINTS] = sizeof(size_t),
        [PARAMETER_ITEMS] = sizeof(size_t),
        [PARAMETER_CLOTHS] = sizeof(size_t),
        [PARAMETER_LINES] = sizeof(size_t),
        [PARAMETER_STOCK] = sizeof(size_t),
    };
    return size[p->type];
}

static bool differs(const struct writing *w, const struct parameter *p) {
    const void *value = value_of(w->design, p), *usual = value_of(w->starter, p);
    if (p->type == PARAMETER_TEXT)
        return strcmp(value, usual) != 0;
    return memcmp(value, usual, size_of(p)) != 0;
}

static bool is_empty_list(const struct writing *w, const struct parameter *p) {
    return list_room(p) > 0 && *(const size_t *)value_of(w->design, p) == 0;
}

/* The size that governs is always said: a file should show what it is for. */
static bool governs(const struct writing *w, const struct parameter *p) {
    static const size_t offset[] = {
        [SIZE_VOLUME] = offsetof(struct design, size.volume_m3),
        [SIZE_HEIGHT] = offsetof(struct design, size.height_m),
        [SIZE_DIAMETER] = offsetof(struct design, size.diameter_m),
        [SIZE_GORE_LENGTH] = offsetof(struct design, size.gore_length_m),
        [SIZE_CLOTH_AREA] = offsetof(struct design, size.cloth_area_m2),
    };
    int by = w->design->size.by;
    return by >= 0 && (size_t)by < COUNT_OF(offset) && p->offset == offset[by];
}

static bool is_said(const struct writing *w, const struct parameter *p) {
    return w->how == WRITE_COMMENTED || strcmp(p->key, "format") == 0 ||
           strcmp(p->key, "name") == 0 || strcmp(p->key, "size.by") == 0 || governs(w, p) ||
           differs(w, p);
}

/* ---- comments ------------------------------------------------------------ */

/* Words after "# ", broken before column 79. */
static void write_comment(struct text *into, size_t indent, const char *words) {
    size_t room = COLUMNS - indent - 2;
    while (*words != '\0') {
        size_t length = strlen(words);
        if (length > room) {
            for (length = room; length > 0 && words[length] != ' ';)
                length--;
            if (length == 0) /* one word wider than the page */
                length = strcspn(words, " ");
        }
        size_t shown = length;
        while (shown > 0 && words[shown - 1] == ' ')
            shown--;
        text_add(into, "%*s# %.*s\n", (int)indent, "", (int)shown, words);
        words += length;
        words += strspn(words, " ");
    }
}

static void write_usual(const struct parameter *p, struct text *into) {
    char number[32];
    if (p->type == PARAMETER_TEXT)
        text_add(into, "\"%s\"", p->usual_text);
    else if (p->type == PARAMETER_CHOICE)
        text_add(into, "\"%s\"", parameter_word(p->key, (int)p->usual));
    else
        text_add(into, "%s", plain_number(p->usual, number));
}

/* "0.001 to 15000 m3; 12 when not stated." */
static void write_allowed(const struct parameter *p, struct text *into) {
    char words[WORDS_MOST];
    if (p->type == PARAMETER_TEXT)
        text_add(into, "Up to %d bytes", TEXT_MOST - 1);
    else if (p->choices != NULL)
        text_add(into, "%s", choice_words(p, words));
    else if (p->type == PARAMETER_CLOTHS)
        text_add(into, "Up to %d, a letter or digit and a name", CLOTHS_MOST);
    else if (p->type == PARAMETER_LINES)
        text_add(into, "Letters of colours.cloths");
    else if (p->least < p->most)
        text_add(into, "%s", range_words(p, words));
    else
        text_add(into, "Always %s", range_words(p, words));
    if (list_room(p) > 0)
        text_add(into, " each; empty when not stated.");
    else if (p->least < p->most) {
        text_add(into, "; ");
        write_usual(p, into);
        text_add(into, " when not stated.");
    } else
        text_add(into, ".");
}

static void write_help(const struct writing *w, const struct parameter *p, size_t indent) {
    struct text words = {0};
    write_comment(w->into, indent, p->help);
    write_allowed(p, &words);
    if (words.failed)
        w->into->failed = true;
    else
        write_comment(w->into, indent, words.bytes);
    text_free(&words);
}

/* Line ends taken out: a blank follows each. */
static const char *unbroken(char *words) {
    char *to = words;
    for (const char *from = words; *from != '\0'; from++)
        if (*from != '\n')
            *to++ = *from;
    *to = '\0';
    return words;
}

/* An empty list is shown as a comment: an example that fits this design's counts. */
static void write_example(const struct writing *w, const struct parameter *p, size_t indent) {
    const struct style_list styles = {w->design->gores.count % 2 == 0 ? 2 : 1, {FACETED, BILLOWED}};
    static const struct point_list points = {3, {{0.3, 0.0}, {1.1, 1.6}, {0.25, 2.9}}};
    static const struct item_list items = {2, {{"camera", 0.12}, {"flag", 0.05}}};
    static const struct cloth_list cloths = {
        2, {{'W', "white", 0, 0, 0}, {'R', "red", 1.5, 0.0397, 0}}};
    static const struct line_list lines = {1, {"W"}};
    static const struct stock_list stock = {2, {{'W', 2.4, 1.1}, {'W', 0.8, 0}}};
    size_t rows = (size_t)w->design->rows.count;
    struct real_list reals = {.count = rows <= ROWS_MOST ? rows : ROWS_MOST};
    bool stations = strcmp(p->key, "bulge.stations") == 0;
    for (size_t i = 0; i < reals.count; i++)
        reals.value[i] = stations ? (i == 0 ? 0.0 : 0.1) : 1.0;
    if (stations)
        reals.value[reals.count++] = 0.0;
    const void *value = p->type == PARAMETER_STYLES   ? (const void *)&styles
                        : p->type == PARAMETER_POINTS ? (const void *)&points
                        : p->type == PARAMETER_ITEMS  ? (const void *)&items
                        : p->type == PARAMETER_CLOTHS ? (const void *)&cloths
                        : p->type == PARAMETER_LINES  ? (const void *)&lines
                        : p->type == PARAMETER_STOCK  ? (const void *)&stock
                                                      : (const void *)&reals;
    struct text example = {0};
    text_add(&example, "%s = ", parts_of(p->key).name);
    write_value(p, value, 0, &example);
    text_add(&example, ";");
    if (example.failed)
        w->into->failed = true;
    else
        write_comment(w->into, indent, unbroken(example.bytes));
    text_free(&example);
}

static const char *const head[] = {
    "A design for gorewright.  Change the values behind the = signs, keep the ; at the end of "
    "each line, and save.",
    "Lines that begin with # are notes and are not read.  You may delete any setting but format: "
    "what is not stated takes the value named in its note.  Lengths are in metres, masses in "
    "kilograms, temperatures in degrees Celsius.",
    "A computation is never the last word: the first inflation is.",
};

static void write_head(struct text *into) {
    for (size_t i = 0; i < COUNT_OF(head); i++)
        write_comment(into, 0, head[i]);
    text_add(into, "\n");
}

/* ---- the file ------------------------------------------------------------ */

/* A size that does not govern and was never changed: shown as a note, so that a builder who
 * changes the size does not change one in vain. */
static bool is_idle_size(const struct writing *w, const struct parameter *p) {
    struct key_parts parts = parts_of(p->key);
    const double *value = value_of(w->design, p);
    const char *by = parameter_word("size.by", w->design->size.by);
    char governing[32];
    snprintf(governing, sizeof governing, "%s", by);
    for (char *c = governing; *c != '\0'; c++)
        *c = *c == '-' ? '_' : *c;
    return p->type == PARAMETER_REAL && strcmp(parts.group, "size") == 0 &&
           strcmp(parts.name, governing) != 0 && *value == p->usual;
}

static void write_setting(const struct writing *w, const struct parameter *p, size_t indent) {
    const char *name = parts_of(p->key).name;
    if (w->how == WRITE_COMMENTED)
        write_help(w, p, indent);
    if (is_empty_list(w, p)) {
        write_example(w, p, indent);
        return;
    }
    bool idle = w->how == WRITE_COMMENTED && is_idle_size(w, p);
    text_add(w->into, "%*s%s%s = ", (int)indent, "", idle ? "# " : "", name);
    write_value(p, value_of(w->design, p), indent + strlen(name) + 3, w->into);
    text_add(w->into, ";\n");
}

static void change_group(struct text *into, char open[32], const char *group, bool spaced) {
    if (strcmp(open, group) == 0) {
        if (spaced)
            text_add(into, "\n");
        return;
    }
    if (open[0] != '\0')
        text_add(into, "};\n");
    if (group[0] != '\0')
        text_add(into, "\n%s: {\n", group);
    memmove(open, group, strlen(group) + 1);
}

void design_write(const struct design *design, enum design_writing how, struct text *into) {
    struct design starter;
    design_starter(&starter);
    const struct writing w = {design, &starter, how, into};
    size_t count;
    const struct parameter *p = parameters(&count);
    char open[32] = "";
    if (how == WRITE_COMMENTED)
        write_head(into);
    for (size_t i = 0; i < count; i++) {
        if (!is_said(&w, &p[i]))
            continue;
        struct key_parts parts = parts_of(p[i].key);
        change_group(into, open, parts.group, how == WRITE_COMMENTED && i > 0);
        write_setting(&w, &p[i], open[0] == '\0' ? 0 : INDENT);
    }
    change_group(into, open, "", false);
}
