/* overrides.c - the options that set a parameter of the design for one run. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"
#include "command/overrides.h"

static const struct parameter *parameter(const char *key) {
    size_t count;
    return &parameters(&count)[parameter_find(key)];
}

/* ---- paper and units ------------------------------------------------------- */

static int read_paper(const char *value, struct overrides *into, struct text *complaint) {
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
        into->paper = value;
    diagnostics_free(&messages);
    return wrong;
}

static int read_units(const char *value, struct overrides *into, struct text *complaint) {
    static const struct {
        const char *word;
        enum units units;
    } known[] = {
        {"mm", UNITS_MM}, {"inch", UNITS_INCH}, {"inches", UNITS_INCH}, {"in", UNITS_INCH}};
    for (size_t i = 0; i < COUNT_OF(known); i++)
        if (same_in_any_case(known[i].word, value)) {
            into->units = known[i].units;
            return 0;
        }
    text_add(complaint, "--units: '%s' is not a unit for sheets; use mm or inch", value);
    return -1;
}

/* ---- what was measured ----------------------------------------------------- */

/* One length as it was typed. */
struct typed_length {
    double number;
    bool fraction; /* with a stroke: 7-1/2 */
    double unit_m; /* 0 when none was typed */
};

static const char *past_blanks(const char *at) {
    return at + strspn(at, " \t");
}

static bool scan_digits(const char **at, double *value) {
    size_t count = strspn(*at, "0123456789");
    if (count == 0 || count > 6)
        return false;
    *value = (double)strtol(*at, NULL, 10);
    *at += count;
    return true;
}

/* The fraction after a whole number: a blank or '-', then 1/2. */
static bool scan_part(const char **at, double *value) {
    double part, of;
    const char *next = **at == '-' ? *at + 1 : past_blanks(*at);
    if (next == *at || !scan_digits(&next, &part) || *next++ != '/' || !scan_digits(&next, &of) ||
        of <= 0)
        return false;
    *value = part / of;
    *at = next;
    return true;
}

/* The places behind a point, read without the locale. */
static double scan_places(const char **at) {
    double value = 0, unit = 1;
    for (; **at >= '0' && **at <= '9'; (*at)++)
        value += (**at - '0') * (unit /= 10);
    return value;
}

/* 196, 196.5, 3/4, 7-3/4 or "7 3/4", with nothing a measure would not have. */
static bool scan_number(const char **at, struct typed_length *length) {
    double part;
    if (!scan_digits(at, &length->number))
        return false;
    if (**at == '.') {
        (*at)++;
        length->number += scan_places(at);
    } else if (**at == '/') {
        (*at)++;
        if (!scan_digits(at, &part) || part <= 0)
            return false;
        length->number /= part;
        length->fraction = true;
    } else if (scan_part(at, &part)) {
        length->number += part;
        length->fraction = true;
    }
    return true;
}

static void scan_unit(const char **at, struct typed_length *length) {
    static const struct {
        char word[3];
        double unit_m;
    } known[] = {{"mm", 0.001}, {"in", METRES_PER_INCH}};
    const char *word = past_blanks(*at);
    for (size_t i = 0; i < COUNT_OF(known); i++)
        if (ascii_lower(word[0]) == known[i].word[0] && ascii_lower(word[1]) == known[i].word[1]) {
            length->unit_m = known[i].unit_m;
            *at = word + 2;
        }
    *at = past_blanks(*at);
}

static bool scan_length(const char **at, struct typed_length *length) {
    *length = (struct typed_length){0};
    *at = past_blanks(*at);
    if (!scan_number(at, length))
        return false;
    scan_unit(at, length);
    return true;
}

static bool scan_measured(const char *at, struct typed_length *across, struct typed_length *up) {
    if (!scan_length(&at, across))
        return false;
    if (ascii_lower(*at) == 'x')
        at++;
    else if (strncmp(at, "\xC3\x97", 2) == 0) /* the sign itself */
        at += 2;
    else
        return false;
    if (!scan_length(&at, up))
        return false;
    if (up->unit_m <= 0)
        up->unit_m = across->unit_m;
    if (across->unit_m <= 0)
        across->unit_m = up->unit_m;
    return *at == '\0';
}

static void refuse_measured(const char *value, const char *hint, struct text *complaint) {
    text_add(complaint, "--measured: '%s' %s", value, hint);
}

static int read_measured(const char *value, struct overrides *into, struct text *complaint) {
    enum { SMALLEST_CROSS_mm = 25 };
    double most_m = parameter("paper.measured_across")->most;
    struct typed_length across, up;
    if (!scan_measured(value, &across, &up)) {
        refuse_measured(value,
                        strchr(value, ',') != NULL
                            ? "has a comma; write a decimal point, as in 179.5x239"
                            : "is not ACROSSxUP; write it as 179.5x239 for mm, or as "
                              "6-15/16inx8-15/16in",
                        complaint);
        return -1;
    }
    bool bare = across.unit_m <= 0;
    double across_m = across.number * (bare ? 0.001 : across.unit_m);
    double up_m = up.number * (bare ? 0.001 : up.unit_m);
    if (across_m <= 0 || across_m > most_m || up_m <= 0 || up_m > most_m) {
        text_add(complaint, "--measured: '%s' is out of range; more than 0 and at most %g mm",
                 value, most_m * 1000);
        return -1;
    }
    if (bare && (across.fraction || up.fraction ||
                 (across.number < SMALLEST_CROSS_mm && up.number < SMALLEST_CROSS_mm))) {
        refuse_measured(value,
                        "has no unit, and mm cannot be meant; for inches write in behind "
                        "each, as in 6-15/16inx8-15/16in",
                        complaint);
        return -1;
    }
    into->measured_across_m = across_m;
    into->measured_up_m = up_m;
    return 0;
}

/* ---- one sheet ------------------------------------------------------------- */

static int read_sheet(const char *value, struct overrides *into, struct text *complaint) {
    size_t digits = strspn(value, "0123456789");
    if (value[digits] == '\0' && digits > 0 && digits <= 6)
        into->sheet = (size_t)strtoul(value, NULL, 10);
    if (into->sheet > 0)
        return 0;
    text_add(complaint, "--sheet: '%s' is not the number of a sheet; they count from 1", value);
    return -1;
}

/* ---- the layout on cloth -------------------------------------------------------- */

static int read_form(const char *value, struct overrides *into, struct text *complaint) {
    into->postscript = same_in_any_case(value, "postscript") || same_in_any_case(value, "ps");
    if (into->postscript || same_in_any_case(value, "text"))
        return 0;
    text_add(complaint, "--form: '%s' is no form; use text or postscript", value);
    return -1;
}

static int read_effort(const char *value, struct overrides *into, struct text *complaint) {
    if (strspn(value, "0123456789") == strlen(value) && strlen(value) <= 2)
        into->effort = (int)strtol(value, NULL, 10);
    if (into->effort >= EFFORT_LEAST && into->effort <= EFFORT_MOST)
        return 0;
    text_add(complaint, "--effort: '%s' is not a whole number from %d to %d", value, EFFORT_LEAST,
             EFFORT_MOST);
    return -1;
}

/* ---- all of them ----------------------------------------------------------- */

/* Each option with what reads its value, and the keys or codes of messages that speak of it. */
static const struct override {
    enum option option;
    int (*read)(const char *value, struct overrides *into, struct text *complaint);
    const char *about[3];
} override_table[] = {
    {OPTION_PAPER, read_paper, {"paper.sheet", NULL}},
    {OPTION_UNITS, read_units, {"paper.units", NULL}},
    {OPTION_MEASURED, read_measured, {"paper.measured_across", "paper.measured_up", NULL}},
    {OPTION_PIECE, NULL, {"no-such-piece", NULL}},
    {OPTION_SHEET, read_sheet, {"no-such-sheet", NULL}},
    {OPTION_FORM, read_form, {NULL}},
    {OPTION_EFFORT, read_effort, {NULL}},
};

int overrides_read(struct request *request, struct text *complaint) {
    for (size_t i = 0; i < COUNT_OF(override_table); i++) {
        const struct override *override = &override_table[i];
        const char *value = request->value[override->option];
        if (value != NULL && override->read != NULL &&
            override->read(value, &request->overrides, complaint) != 0)
            return -1;
    }
    return 0;
}

void overrides_apply(const struct request *request, struct design *design) {
    const struct overrides *overrides = &request->overrides;
    if (overrides->paper != NULL)
        snprintf(design->paper.sheet, sizeof design->paper.sheet, "%s", overrides->paper);
    if (request->value[OPTION_UNITS] != NULL)
        design->paper.units = (int)overrides->units;
    if (overrides->measured_across_m > 0) {
        design->paper.measured_across_m = overrides->measured_across_m;
        design->paper.measured_up_m = overrides->measured_up_m;
    }
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
