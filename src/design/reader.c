/* reader.c - from the text of a design file to a design.
 *
 * The only file that knows libconfig.  libconfig wraps whole numbers that do not fit, so
 * scan.c tells which do not; unknown names it never mentions, so the whole tree is walked
 * against the parameter table here.
 */
#include <libconfig.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/design.h"

#include "design/load.h"
#include "design/suggest.h"
#include "design/scan.h"
#include "design/values.h"

struct reading {
    struct design *design;
    struct design_source *source;
    struct diagnostics *messages;
    struct scan *scan;
};

/* ---- one value ----------------------------------------------------------- */

static bool is_whole(const config_setting_t *setting) {
    int type = config_setting_type(setting);
    return type == CONFIG_TYPE_INT || type == CONFIG_TYPE_INT64;
}

static bool is_list(const config_setting_t *setting) {
    return config_setting_is_list(setting) || config_setting_is_array(setting);
}

static bool is_text(const config_setting_t *setting) {
    return config_setting_type(setting) == CONFIG_TYPE_STRING;
}

/* Also a whole number serves where a real one is wanted. */
static double number_in(const config_setting_t *setting) {
    if (is_whole(setting))
        return (double)config_setting_get_int64(setting);
    return config_setting_get_float(setting);
}

/* What the builder wrote, in words. */
static const char *found_words(const config_setting_t *setting, char into[80]) {
    char shown[48];
    switch (config_setting_type(setting)) {
    case CONFIG_TYPE_INT:
    case CONFIG_TYPE_INT64:
    case CONFIG_TYPE_FLOAT: /* not its digits: it may have been wrapped */
        snprintf(into, 80, "a number");
        break;
    case CONFIG_TYPE_STRING:
        snprintf(into, 80, "the text \"%s\"",
                 shown_text(config_setting_get_string(setting), shown));
        break;
    case CONFIG_TYPE_BOOL:
        snprintf(into, 80, "%s", config_setting_get_bool(setting) ? "true" : "false");
        break;
    case CONFIG_TYPE_GROUP:
        snprintf(into, 80, "a group { }");
        break;
    default:
        snprintf(into, 80, "a list");
        break;
    }
    return into;
}

/* Each of these takes the value of `setting` into the member of p, or says why not.  Ranges
 * are left to design_check, but what the member cannot hold is refused here. */
typedef void taking(struct reading *reading, const struct parameter *p,
                    const config_setting_t *setting);

static void refuse_type(struct reading *reading, const struct parameter *p, size_t entry,
                        const config_setting_t *setting) {
    char found[80], wanted[WORDS_MOST], which[32] = "";
    if (entry > 0)
        snprintf(which, sizeof which, "entry %zu: ", entry);
    diagnose(reading->messages, SEVERITY_ERROR, "type", p->key, "%s%s does not fit here; %s", which,
             found_words(setting, found), writing_words(p, wanted));
}

static void take_whole(struct reading *reading, const struct parameter *p,
                       const config_setting_t *setting) {
    char range[WORDS_MOST];
    if (config_setting_type(setting) == CONFIG_TYPE_FLOAT) {
        diagnose(reading->messages, SEVERITY_ERROR, "type", p->key,
                 "a number with a decimal point or an exponent does not fit here; write a whole "
                 "number without them, %s",
                 range_words(p, range));
        return;
    }
    if (!is_whole(setting)) {
        refuse_type(reading, p, 0, setting);
        return;
    }
    *(int *)member_of(reading->design, p) = (int)config_setting_get_int64(setting);
}

static void take_real(struct reading *reading, const struct parameter *p,
                      const config_setting_t *setting) {
    if (config_setting_is_number(setting))
        *(double *)member_of(reading->design, p) = number_in(setting);
    else
        refuse_type(reading, p, 0, setting);
}

static void take_text(struct reading *reading, const struct parameter *p,
                      const config_setting_t *setting) {
    if (!is_text(setting)) {
        refuse_type(reading, p, 0, setting);
        return;
    }
    const char *text = config_setting_get_string(setting);
    size_t length = strlen(text);
    if (length >= TEXT_MOST) {
        diagnose(reading->messages, SEVERITY_ERROR, "text", p->key,
                 "this text has %zu bytes; at most %d can be printed, so shorten it (a letter "
                 "with an accent counts as two or more)",
                 length, TEXT_MOST - 1);
        return;
    }
    char *member = member_of(reading->design, p);
    memset(member, 0, TEXT_MOST);
    memcpy(member, text, length);
}

/* Index of a choice, or -1. */
static int choice_of(const struct parameter *p, const char *word) {
    for (int i = 0; p->choices[i] != NULL; i++)
        if (strcmp(p->choices[i], word) == 0)
            return i;
    return -1;
}

static bool take_word(struct reading *reading, const struct parameter *p, size_t entry,
                      const config_setting_t *setting, int *into) {
    if (!is_text(setting)) {
        refuse_type(reading, p, entry, setting);
        return false;
    }
    const char *word = config_setting_get_string(setting);
    int choice = choice_of(p, word);
    if (choice < 0)
        diagnose_word(reading->messages, p, entry, word);
    else
        *into = choice;
    return choice >= 0;
}

static void take_choice(struct reading *reading, const struct parameter *p,
                        const config_setting_t *setting) {
    take_word(reading, p, 0, setting, member_of(reading->design, p));
}

/* ---- lists --------------------------------------------------------------- */

/* Length of a list that fits its member; 0 with an error otherwise. */
static size_t list_length(struct reading *reading, const struct parameter *p,
                          const config_setting_t *setting) {
    if (!is_list(setting)) {
        refuse_type(reading, p, 0, setting);
        return 0;
    }
    size_t length = (size_t)config_setting_length(setting), room = list_room(p);
    if (length > room) {
        diagnose(reading->messages, SEVERITY_ERROR, "count", p->key,
                 "this list has %zu entries; at most %zu can be used, so shorten it", length, room);
        return 0;
    }
    return length;
}

static const config_setting_t *entry_of(const config_setting_t *setting, size_t i) {
    return config_setting_get_elem(setting, (unsigned)i);
}

static void take_reals(struct reading *reading, const struct parameter *p,
                       const config_setting_t *setting) {
    struct real_list *list = member_of(reading->design, p);
    size_t length = list_length(reading, p, setting);
    for (size_t i = 0; i < length; i++) {
        if (!config_setting_is_number(entry_of(setting, i))) {
            refuse_type(reading, p, i + 1, entry_of(setting, i));
            return; /* one is enough: the rest of the list is likely the same */
        }
        list->value[i] = number_in(entry_of(setting, i));
    }
    list->count = length;
}

static void take_styles(struct reading *reading, const struct parameter *p,
                        const config_setting_t *setting) {
    struct style_list *list = member_of(reading->design, p);
    size_t length = list_length(reading, p, setting);
    for (size_t i = 0; i < length; i++)
        if (!take_word(reading, p, i + 1, entry_of(setting, i), &list->value[i]))
            return;
    list->count = length;
}

/* A list (or array) of two numbers. */
static bool is_point(const config_setting_t *setting) {
    return is_list(setting) && config_setting_length(setting) == 2 &&
           config_setting_is_number(entry_of(setting, 0)) &&
           config_setting_is_number(entry_of(setting, 1));
}

static void take_points(struct reading *reading, const struct parameter *p,
                        const config_setting_t *setting) {
    struct point_list *list = member_of(reading->design, p);
    size_t length = list_length(reading, p, setting);
    for (size_t i = 0; i < length; i++) {
        if (!is_point(entry_of(setting, i))) {
            diagnose(reading->messages, SEVERITY_ERROR, "type", p->key,
                     "entry %zu is no station; write two numbers in brackets for each, (radius, "
                     "height) in metres, such as ((0.3, 0), (0.9, 1.2))",
                     i + 1);
            return;
        }
        list->value[i].r_m = number_in(entry_of(entry_of(setting, i), 0));
        list->value[i].z_m = number_in(entry_of(entry_of(setting, i), 1));
    }
    list->count = length;
}

static void refuse_item(struct reading *reading, const struct parameter *p, size_t i) {
    diagnose(reading->messages, SEVERITY_ERROR, "type", p->key,
             "entry %zu is not a name with a mass; write both in brackets for each thing, (name, "
             "kilograms), such as ((\"camera\", 0.12), (\"flag\", 0.05))",
             i + 1);
}

/* A list of a text and a number. */
static bool is_item(const config_setting_t *setting) {
    return is_list(setting) && config_setting_length(setting) == 2 &&
           is_text(entry_of(setting, 0)) && config_setting_is_number(entry_of(setting, 1));
}

static void take_items(struct reading *reading, const struct parameter *p,
                       const config_setting_t *setting) {
    struct item_list *list = member_of(reading->design, p);
    size_t length = list_length(reading, p, setting);
    for (size_t i = 0; i < length; i++) {
        if (!is_item(entry_of(setting, i))) {
            refuse_item(reading, p, i);
            return;
        }
        const char *name = config_setting_get_string(entry_of(entry_of(setting, i), 0));
        if (strlen(name) >= TEXT_MOST) {
            diagnose(reading->messages, SEVERITY_ERROR, "text", p->key,
                     "entry %zu: this name has %zu bytes; at most %d can be printed, so shorten it",
                     i + 1, strlen(name), TEXT_MOST - 1);
            return;
        }
        memset(list->value[i].name, 0, TEXT_MOST);
        memcpy(list->value[i].name, name, strlen(name));
        list->value[i].mass_kg = number_in(entry_of(entry_of(setting, i), 1));
    }
    list->count = length;
}

static void refuse_cloth(struct reading *reading, const struct parameter *p, size_t i) {
    diagnose(reading->messages, SEVERITY_ERROR, "type", p->key,
             "entry %zu is not a letter with a name; write (letter, name) for each cloth, then its "
             "width in m, mass in kg/m2 and price of a metre where they differ, such as "
             "((\"W\", \"white\"), (\"R\", \"red\", 1.2, 0.045))",
             i + 1);
}

/* A list of two texts and up to three numbers. */
static bool is_cloth(const config_setting_t *setting) {
    int length = is_list(setting) ? config_setting_length(setting) : 0;
    if (length < 2 || length > 5 || !is_text(entry_of(setting, 0)) ||
        !is_text(entry_of(setting, 1)))
        return false;
    for (int i = 2; i < length; i++)
        if (!config_setting_is_number(entry_of(setting, (size_t)i)))
            return false;
    return true;
}

static bool take_cloth(struct reading *reading, const struct parameter *p, size_t i,
                       const config_setting_t *setting, struct cloth_colour *cloth) {
    int length = is_cloth(setting) ? config_setting_length(setting) : 0;
    if (length == 0) {
        refuse_cloth(reading, p, i);
        return false;
    }
    const char *letter = config_setting_get_string(entry_of(setting, 0));
    const char *name = config_setting_get_string(entry_of(setting, 1));
    if (strlen(letter) != 1) {
        char shown[48];
        diagnose(reading->messages, SEVERITY_ERROR, "text", p->key,
                 "entry %zu: \"%s\" is no single letter; write one letter or digit, A to Z, a to z "
                 "or 0 to 9",
                 i + 1, shown_text(letter, shown));
        return false;
    }
    if (strlen(name) >= TEXT_MOST) {
        diagnose(reading->messages, SEVERITY_ERROR, "text", p->key,
                 "entry %zu: this name has %zu bytes; at most %d can be printed, so shorten it",
                 i + 1, strlen(name), TEXT_MOST - 1);
        return false;
    }
    *cloth = (struct cloth_colour){.letter = letter[0]};
    memcpy(cloth->name, name, strlen(name));
    double *const number[] = {&cloth->width_m, &cloth->mass_kg_m2, &cloth->price_m};
    for (size_t n = 0; n < COUNT_OF(number) && n + 2 < (size_t)length; n++)
        *number[n] = number_in(entry_of(setting, n + 2));
    return true;
}

static void take_cloths(struct reading *reading, const struct parameter *p,
                        const config_setting_t *setting) {
    struct cloth_list *list = member_of(reading->design, p);
    size_t length = list_length(reading, p, setting);
    for (size_t i = 0; i < length; i++)
        if (!take_cloth(reading, p, i, entry_of(setting, i), &list->value[i]))
            return;
    list->count = length;
}

static void take_lines(struct reading *reading, const struct parameter *p,
                       const config_setting_t *setting) {
    struct line_list *list = member_of(reading->design, p);
    size_t length = list_length(reading, p, setting);
    for (size_t i = 0; i < length; i++) {
        if (!is_text(entry_of(setting, i))) {
            refuse_type(reading, p, i + 1, entry_of(setting, i));
            return;
        }
        const char *line = config_setting_get_string(entry_of(setting, i));
        if (strlen(line) > GORES_MOST) {
            diagnose(reading->messages, SEVERITY_ERROR, "text", p->key,
                     "entry %zu: here are %zu letters; at most %d can be used, one for each gore",
                     i + 1, strlen(line), GORES_MOST);
            return;
        }
        memset(list->value[i], 0, sizeof list->value[i]);
        memcpy(list->value[i], line, strlen(line));
    }
    list->count = length;
}

static void refuse_stock(struct reading *reading, const struct parameter *p, size_t i) {
    diagnose(
        reading->messages, SEVERITY_ERROR, "type", p->key,
        "entry %zu is not a letter with a length; write (letter, length, width) for each, both "
        "in metres, the width only where it is not that of the cloth, such as ((\"W\", 2.4, "
        "1.1), (\"R\", 0.8))",
        i + 1);
}

/* A list of a text of one letter and one or two numbers. */
static bool is_stock(const config_setting_t *setting) {
    int length = is_list(setting) ? config_setting_length(setting) : 0;
    return (length == 2 || length == 3) && is_text(entry_of(setting, 0)) &&
           strlen(config_setting_get_string(entry_of(setting, 0))) == 1 &&
           config_setting_is_number(entry_of(setting, 1)) &&
           (length == 2 || config_setting_is_number(entry_of(setting, 2)));
}

static void take_stock(struct reading *reading, const struct parameter *p,
                       const config_setting_t *setting) {
    struct stock_list *list = member_of(reading->design, p);
    size_t length = list_length(reading, p, setting);
    for (size_t i = 0; i < length; i++) {
        const config_setting_t *entry = entry_of(setting, i);
        if (!is_stock(entry)) {
            refuse_stock(reading, p, i);
            return;
        }
        bool wide = config_setting_length(entry) == 3;
        list->value[i] = (struct stock){
            .letter = config_setting_get_string(entry_of(entry, 0))[0],
            .length_m = number_in(entry_of(entry, 1)),
            .width_m = wide ? number_in(entry_of(entry, 2)) : 0,
        };
    }
    list->count = length;
}

static taking *const take[] = {
    [PARAMETER_WHOLE] = take_whole,   [PARAMETER_REAL] = take_real,
    [PARAMETER_TEXT] = take_text,     [PARAMETER_CHOICE] = take_choice,
    [PARAMETER_REALS] = take_reals,   [PARAMETER_STYLES] = take_styles,
    [PARAMETER_POINTS] = take_points, [PARAMETER_ITEMS] = take_items,
    [PARAMETER_CLOTHS] = take_cloths, [PARAMETER_LINES] = take_lines,
    [PARAMETER_STOCK] = take_stock,
};

/* ---- the tree ------------------------------------------------------------ */

static void take_setting(struct reading *reading, int index, const config_setting_t *setting,
                         const struct statement *statement) {
    size_t count;
    const struct parameter *p = &parameters(&count)[index];
    reading->source->line[index] = statement->line;
    bool of_numbers = p->type == PARAMETER_WHOLE || p->type == PARAMETER_REAL ||
                      p->type == PARAMETER_REALS || p->type == PARAMETER_POINTS ||
                      p->type == PARAMETER_ITEMS || p->type == PARAMETER_CLOTHS ||
                      p->type == PARAMETER_STOCK;
    if (statement->too_large && of_numbers)
        diagnose_range(reading->messages, p, 0, HUGE_VAL);
    else
        take[p->type](reading, p, setting);
}

static void refuse_key(struct reading *reading, const char *key, int line) {
    const char *nearest = nearest_key(key);
    const char *dot = nearest == NULL ? NULL : strchr(nearest, '.');
    char guess[160] = "";
    if (dot != NULL)
        snprintf(guess, sizeof guess, "did you mean %s?  It is written  %.*s: { %s = ...; };",
                 nearest, (int)(dot - nearest), nearest, dot + 1);
    else if (nearest != NULL)
        snprintf(guess, sizeof guess, "did you mean %s?  It stands outside of all groups", nearest);
    diagnose_at(reading->messages, SEVERITY_ERROR, "unknown-key", reading->source->file, line, key,
                "there is no such setting; %s",
                nearest == NULL ? "gorewright-design(5) lists all there are" : guess);
}

static void refuse_group(struct reading *reading, const char *name, int line) {
    char group[GROUP_NAME_MOST];
    if (nearest_group(name, group) != NULL)
        diagnose_at(reading->messages, SEVERITY_ERROR, "unknown-group", reading->source->file, line,
                    name, "there is no such group; did you mean %s?", group);
    else
        diagnose_at(reading->messages, SEVERITY_ERROR, "unknown-group", reading->source->file, line,
                    name, "there is no such group; gorewright-design(5) lists all there are");
}

static bool is_group_name(const char *name) {
    size_t count, length = strlen(name);
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++)
        if (strncmp(p[i].key, name, length) == 0 && p[i].key[length] == '.')
            return true;
    return false;
}

/* In the scan every setting of the tree is found: both read the same text. */
static int statement_of(const struct reading *reading, int parent, const char *name) {
    return scan_find(reading->scan, parent, name, strlen(name));
}

static void take_group(struct reading *reading, const char *group, const config_setting_t *setting,
                       int parent) {
    for (int i = 0; i < config_setting_length(setting); i++) {
        const config_setting_t *member = config_setting_get_elem(setting, (unsigned)i);
        const char *name = config_setting_name(member);
        int found = statement_of(reading, parent, name);
        char key[80];
        snprintf(key, sizeof key, "%s.%.40s", group, name);
        int index = parameter_find(key);
        if (found < 0)
            continue;
        if (index < 0)
            refuse_key(reading, key, reading->scan->statement[found].line);
        else
            take_setting(reading, index, member, &reading->scan->statement[found]);
    }
}

static void take_top(struct reading *reading, const config_setting_t *setting) {
    const char *name = config_setting_name(setting);
    int found = statement_of(reading, -1, name), index = parameter_find(name);
    if (found < 0)
        return;
    const struct statement *statement = &reading->scan->statement[found];
    bool group = config_setting_is_group(setting);
    if (is_group_name(name) && group)
        take_group(reading, name, setting, found);
    else if (is_group_name(name))
        diagnose_at(reading->messages, SEVERITY_ERROR, "type", reading->source->file,
                    statement->line, name,
                    "this is a group of settings; write  %s: { name = value; };", name);
    else if (index >= 0)
        take_setting(reading, index, setting, statement);
    else if (group)
        refuse_group(reading, name, statement->line);
    else
        refuse_key(reading, name, statement->line);
}

static void take_tree(struct reading *reading, const config_setting_t *root) {
    for (int i = 0; i < config_setting_length(root); i++)
        take_top(reading, config_setting_get_elem(root, (unsigned)i));
}

/* ---- a whole text -------------------------------------------------------- */

static const char *const sizes[] = {"size.volume", "size.height", "size.diameter",
                                    "size.gore_length", "size.cloth_area"};

static bool stated(const struct design_source *source, const char *key) {
    return source->line[parameter_find(key)] > 0;
}

/* A size stated alone governs; a table with no size stated is built as measured. */
static void settle_size(struct reading *reading) {
    if (stated(reading->source, "size.by"))
        return;
    bool any = false;
    for (size_t i = COUNT_OF(sizes); i-- > 0;) {
        if (!stated(reading->source, sizes[i]))
            continue;
        reading->design->size.by = (int)i;
        any = true;
    }
    if (!any && reading->design->outline.kind == OUTLINE_TABLE)
        reading->design->size.by = SIZE_TABLE;
}

static void require_format(struct reading *reading) {
    if (stated(reading->source, "format"))
        return;
    diagnose_at(reading->messages, SEVERITY_ERROR, "format", reading->source->file, 0, "format",
                "not stated; write  format = %d;  as the first line, so that this and later "
                "programs know how to read the file",
                DESIGN_FORMAT);
}

static void walk(struct reading *reading, const char *text) {
    config_t config;
    config_init(&config);
    if (config_read_string(&config, text)) {
        take_tree(reading, config_root_setting(&config));
        settle_size(reading);
        require_format(reading);
        design_check(reading->design, reading->source, reading->messages);
    } else {
        const char *fault = config_error_text(&config);
        diagnose_at(reading->messages, SEVERITY_ERROR, "syntax", reading->source->file,
                    config_error_line(&config), "",
                    "this line cannot be read (%s); look for a missing sign on it or above it",
                    fault == NULL ? "unknown fault" : fault);
    }
    config_destroy(&config);
}

static void refuse_text(struct reading *reading, int line, const char *text) {
    diagnose_at(reading->messages, SEVERITY_ERROR, "file", reading->source->file, line, "", "%s",
                text);
}

/* Old line ends would make the whole file one comment. */
static bool has_lone_return(const char *text, size_t length) {
    for (size_t i = 0; i < length; i++)
        if (text[i] == '\r' && (i + 1 == length || text[i + 1] != '\n'))
            return true;
    return false;
}

static bool is_plain_text(struct reading *reading, const char *text, size_t length) {
    if (length == 0)
        refuse_text(reading, 0, "this file is empty; begin it with  format = 1;");
    else if (length > DESIGN_BYTES_MOST)
        refuse_text(reading, 0, "this is longer than a megabyte, so it is no design");
    else if (memchr(text, '\0', length) != NULL)
        refuse_text(reading, 0,
                    "this is not plain text, for it holds zero bytes; save it as plain text in "
                    "UTF-8");
    else if (has_lone_return(text, length))
        refuse_text(reading, 0,
                    "a line ends in a carriage return alone; save the file with the line ends of "
                    "Unix or DOS");
    else
        return true;
    return false;
}

/* libconfig wants a NUL at the end, and a line end after a last comment. */
static char *ended_copy(const char *text, size_t length) {
    char *copy = malloc(length + 2);
    if (copy == NULL)
        return NULL;
    memcpy(copy, text, length);
    copy[length] = '\n';
    copy[length + 1] = '\0';
    return copy;
}

static void read_plain(struct reading *reading, const char *text, size_t length) {
    char *copy = ended_copy(text, length);
    reading->scan = malloc(sizeof *reading->scan);
    if (copy == NULL || reading->scan == NULL)
        refuse_text(reading, 0, "there is not enough memory to read it");
    else if (scan_text(copy, length + 1, reading->source->file, reading->scan, reading->messages) ==
             0)
        walk(reading, copy);
    free(reading->scan);
    free(copy);
}

/* By line, those of one line in the order found. */
static void sort_by_line(struct diagnostics *messages, size_t from) {
    for (size_t i = from + 1; i < messages->count; i++) {
        struct diagnostic moved = messages->item[i];
        size_t to = i;
        for (; to > from && messages->item[to - 1].line > moved.line; to--)
            messages->item[to] = messages->item[to - 1];
        messages->item[to] = moved;
    }
}

int design_read_text(const char *text, size_t length, const char *name, struct design *design,
                     struct design_source *source, struct diagnostics *messages) {
    struct design_source own = {0};
    struct reading reading = {design, source == NULL ? &own : source, messages, NULL};
    size_t errors = messages->errors, count = messages->count;
    *reading.source = (struct design_source){0};
    reading.source->file = strdup(name);
    design_starter(design);
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) { /* a byte order mark */
        text += 3;
        length -= 3;
    }
    if (is_plain_text(&reading, text, length))
        read_plain(&reading, text, length);
    design_locate(messages, reading.source);
    sort_by_line(messages, count);
    design_source_free(&own);
    return messages->errors == errors ? 0 : -1;
}

/* From what was loaded, unless loading it went wrong. */
static int read_loaded(int loaded, const struct text *content, const char *name,
                       struct design *design, struct design_source *source,
                       struct diagnostics *messages) {
    if (source != NULL)
        *source = (struct design_source){0};
    design_starter(design);
    if (loaded != 0)
        return -1;
    return design_read_text(content->bytes == NULL ? "" : content->bytes, content->length, name,
                            design, source, messages);
}

int design_read(const char *path, struct design *design, struct design_source *source,
                struct diagnostics *messages) {
    struct text content = {0};
    int loaded = load_file(path, &content, messages);
    int result = read_loaded(loaded, &content, path, design, source, messages);
    text_free(&content);
    return result;
}

int design_read_descriptor(int file, const char *name, struct design *design,
                           struct design_source *source, struct diagnostics *messages) {
    struct text content = {0};
    int loaded = load_descriptor(file, name, &content, messages);
    int result = read_loaded(loaded, &content, name, design, source, messages);
    text_free(&content);
    return result;
}

/* ---- where values stand -------------------------------------------------- */

void design_locate(struct diagnostics *messages, const struct design_source *source) {
    for (size_t i = 0; i < messages->count; i++) {
        struct diagnostic *item = &messages->item[i];
        if (item->file != NULL || source->file == NULL)
            continue;
        int index = parameter_find(item->key);
        item->file = strdup(source->file);
        if (item->line == 0 && index >= 0)
            item->line = source->line[index];
        /* What is not stated would stand anywhere below the format. */
        if (item->line == 0 && index >= 0)
            item->line = source->line[parameter_find("format")];
    }
}

void design_source_free(struct design_source *source) {
    free(source->file);
    *source = (struct design_source){0};
}
