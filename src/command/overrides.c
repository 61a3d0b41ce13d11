/* overrides.c - the options that set a parameter of the design for one run. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"
#include "command/overrides.h"

#define MM_PER_INCH 25.4

static const struct parameter *parameter(const char *key) {
    size_t count;
    return &parameters(&count)[parameter_find(key)];
}

static int set_paper(const char *value, struct design *design, struct text *complaint) {
    struct diagnostics messages = {0};
    struct paper paper;
    if (strlen(value) >= TEXT_MOST) {
        text_add(complaint, "--paper: at most %d bytes are allowed", TEXT_MOST - 1);
        return -1;
    }
    int wrong = paper_find(value, &paper, &messages);
    if (wrong != 0)
        text_add(complaint, "--paper: %s",
                 messages.count > 0 ? messages.item[0].text : "not a sheet this program knows");
    else
        strcpy(design->paper.sheet, value);
    diagnostics_free(&messages);
    return wrong;
}

static int set_units(const char *value, struct design *design, struct text *complaint) {
    const char *const *word = parameter("paper.units")->choices;
    for (int i = 0; word[i] != NULL; i++)
        if (strcmp(word[i], value) == 0) {
            design->paper.units = i;
            return 0;
        }
    text_add(complaint, "--units: '%s' is not a unit for sheets; use ", value);
    for (int i = 0; word[i] != NULL; i++)
        text_add(complaint, "%s%s", i > 0 ? " or " : "", word[i]);
    return -1;
}

/* A number such as 196, 196.5, 3/4 or 7-3/4, with nothing a measure would not have. */
static bool scan_number(const char **at, double *value) {
    int used = 0;
    long whole = 0, part = 0, of = 0;
    if (**at < '0' || **at > '9' || strspn(*at, "0123456789") > 6)
        return false;
    if (sscanf(*at, "%ld-%3ld/%3ld%n", &whole, &part, &of, &used) == 3 && of > 0)
        *value = (double)whole + (double)part / (double)of;
    else if (sscanf(*at, "%3ld/%3ld%n", &part, &of, &used) == 2 && of > 0)
        *value = (double)part / (double)of;
    else {
        char digits[32], *end; /* alone: "0x4" is two numbers, not one in base 16 */
        used = (int)strspn(*at, "0123456789.");
        snprintf(digits, sizeof digits, "%.*s", used, *at);
        *value = strtod(digits, &end);
        if (end != digits + used)
            return false;
    }
    *at += used;
    return true;
}

/* "mm", "in" or nothing; `scale` is to metres, 0 when no unit stands there. */
static void scan_unit(const char **at, double *scale) {
    *scale = 0;
    if (strncmp(*at, "mm", 2) == 0)
        *scale = 0.001;
    else if (strncmp(*at, "in", 2) == 0)
        *scale = MM_PER_INCH / 1000;
    if (*scale > 0)
        *at += 2;
}

static bool scan_measured(const char *value, double *across_m, double *up_m) {
    double across, up, across_scale, up_scale;
    if (!scan_number(&value, &across))
        return false;
    scan_unit(&value, &across_scale);
    if (*value++ != 'x' || !scan_number(&value, &up))
        return false;
    scan_unit(&value, &up_scale);
    if (*value != '\0')
        return false;
    if (up_scale <= 0)
        up_scale = across_scale > 0 ? across_scale : 0.001;
    if (across_scale <= 0)
        across_scale = up_scale;
    *across_m = across * across_scale;
    *up_m = up * up_scale;
    return true;
}

static int set_measured(const char *value, struct design *design, struct text *complaint) {
    double most_m = parameter("paper.measured_across")->most, across_m, up_m;
    if (!scan_measured(value, &across_m, &up_m)) {
        text_add(complaint,
                 "--measured: '%s' is not ACROSSxUP; write it as 189.5x276 for mm, or as "
                 "7.5inx10-7/8in, with a point and no blanks",
                 value);
        return -1;
    }
    if (across_m <= 0 || across_m > most_m || up_m <= 0 || up_m > most_m) {
        text_add(complaint, "--measured: '%s' is out of range; more than 0 and at most %g mm",
                 value, most_m * 1000);
        return -1;
    }
    design->paper.measured_across_m = across_m;
    design->paper.measured_up_m = up_m;
    return 0;
}

/* Each option with what sets its value, and the keys or codes of messages that speak of it. */
static const struct override {
    enum option option;
    int (*set)(const char *value, struct design *design, struct text *complaint);
    const char *about[3];
} override_table[] = {
    {OPTION_PAPER, set_paper, {"paper.sheet", NULL}},
    {OPTION_UNITS, set_units, {"paper.units", NULL}},
    {OPTION_MEASURED, set_measured, {"paper.measured_across", "paper.measured_up", NULL}},
    {OPTION_PIECE, NULL, {"no-such-piece", NULL}},
    {OPTION_SHEET, NULL, {"no-such-sheet", NULL}},
};

int overrides_apply(const struct request *request, struct design *design, struct text *complaint) {
    for (size_t i = 0; i < COUNT_OF(override_table); i++) {
        const struct override *override = &override_table[i];
        const char *value = request->value[override->option];
        if (value != NULL && override->set != NULL && override->set(value, design, complaint) != 0)
            return -1;
    }
    return 0;
}

static void name_option(enum option option, struct diagnostic *message) {
    static const char where[] = "command line";
    size_t count;
    snprintf(message->key, sizeof message->key, "--%s", option_entries(&count)[option].name);
    message->file = malloc(sizeof where);
    if (message->file != NULL)
        memcpy(message->file, where, sizeof where);
}

static bool speaks_of(const struct diagnostic *message, const struct override *override) {
    for (const char *const *about = override->about; *about != NULL; about++)
        if (strcmp(message->key, *about) == 0 || strcmp(message->code, *about) == 0)
            return true;
    return false;
}

void overrides_locate(const struct request *request, struct diagnostics *messages) {
    for (size_t i = 0; i < messages->count; i++)
        for (size_t j = 0; j < COUNT_OF(override_table); j++) {
            const struct override *override = &override_table[j];
            if (request->value[override->option] != NULL && messages->item[i].file == NULL &&
                speaks_of(&messages->item[i], override))
                name_option(override->option, &messages->item[i]);
        }
}

int sheet_wanted(const struct request *request, size_t *sheet, struct text *complaint) {
    const char *value = request->value[OPTION_SHEET];
    *sheet = 0;
    if (value == NULL)
        return 0;
    size_t digits = strspn(value, "0123456789");
    if (value[digits] == '\0' && digits > 0 && digits <= 6)
        *sheet = (size_t)strtoul(value, NULL, 10);
    if (*sheet > 0)
        return 0;
    text_add(complaint, "--sheet: '%s' is not the number of a sheet; they count from 1", value);
    return -1;
}
