/* quantity.c - numbers with units, as the builder types and reads them. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/design.h"

#include "design/quantity.h"
#include "design/values.h"

/* ---- units ------------------------------------------------------------- */

/* `of` is the unit in the parameter table; one of these is times / over of it. */
struct unit {
    const char *of, *name;
    double times, over;
    bool hinted; /* worth a guess when a bare number is out of range */
    double zero; /* what this unit reads where that of the table reads 0 */
};

/* The international inch is 25.4 mm, the avoirdupois ounce 28.349523125 g, both exactly; the
 * pound of force is that of 9.80665 m/s2, the BTU 1055.05585262 J.  The first name of each size is
 * the one shown. */
static const struct unit unit_table[] = {
    {"m", "mm", 1, 1e3, true, 0},
    {"m", "millimetres", 1, 1e3, false, 0},
    {"m", "cm", 1, 1e2, false, 0},
    {"m", "centimetres", 1, 1e2, false, 0},
    {"m", "m", 1, 1, true, 0},
    {"m", "metres", 1, 1, false, 0},
    {"m", "metre", 1, 1, false, 0},
    {"m", "in", 254, 1e4, false, 0},
    {"m", "inches", 254, 1e4, false, 0},
    {"m", "inch", 254, 1e4, false, 0},
    {"m", "\"", 254, 1e4, false, 0},
    {"m", "''", 254, 1e4, false, 0},
    {"m", "ft", 3048, 1e4, false, 0},
    {"m", "feet", 3048, 1e4, false, 0},
    {"m", "foot", 3048, 1e4, false, 0},
    {"m", "'", 3048, 1e4, false, 0},
    {"m", "yd", 9144, 1e4, false, 0},
    {"m2", "m2", 1, 1, false, 0},
    {"m2", "m^2", 1, 1, false, 0},
    {"m2", "m\xC2\xB2", 1, 1, false, 0},
    {"m2", "sq m", 1, 1, false, 0},
    {"m2", "cm2", 1, 1e4, false, 0},
    {"m2", "ft2", 9290304, 1e8, false, 0},
    {"m2", "ft^2", 9290304, 1e8, false, 0},
    {"m2", "sq ft", 9290304, 1e8, false, 0},
    {"m2", "yd2", 83612736, 1e8, false, 0},
    {"m3", "m3", 1, 1, false, 0},
    {"m3", "m^3", 1, 1, false, 0},
    {"m3", "m\xC2\xB3", 1, 1, false, 0},
    {"m3", "cu m", 1, 1, false, 0},
    {"m3", "litres", 1, 1e3, true, 0},
    {"m3", "litre", 1, 1e3, false, 0},
    {"m3", "l", 1, 1e3, false, 0},
    {"m3", "ft3", 28316846592.0, 1e12, false, 0},
    {"m3", "ft^3", 28316846592.0, 1e12, false, 0},
    {"m3", "cu ft", 28316846592.0, 1e12, false, 0},
    {"kg/m2", "g/m2", 1, 1e3, false, 0},
    {"kg/m2", "kg/m2", 1, 1, true, 0},
    {"kg/m2", "oz/yd2", 28.349523125, 836.12736, false, 0},
    {"N/m3", "N/m3", 1, 1, false, 0},
    {"deg", "deg", 1, 1, false, 0},
    {"deg", "degrees", 1, 1, false, 0},
    {"deg", "\xC2\xB0", 1, 1, false, 0},
    {"kg", "g", 1, 1e3, false, 0},
    {"kg", "grams", 1, 1e3, false, 0},
    {"kg", "gram", 1, 1e3, false, 0},
    {"kg", "kg", 1, 1, true, 0},
    {"kg", "oz", 28.349523125, 1e3, false, 0},
    {"kg", "lb", 453.59237, 1e3, false, 0},
    {"kg", "lbs", 453.59237, 1e3, false, 0},
    {"kg", "pounds", 453.59237, 1e3, false, 0},
    {"kg/m", "g/m", 1, 1e3, false, 0},
    {"kg/m", "kg/m", 1, 1, true, 0},
    {"kg/m", "oz/yd", 28.349523125, 914.4, false, 0},
    {"g/km", "tex", 1, 1, false, 0},
    {"g/km", "g/km", 1, 1, false, 0},
    {"g/km", "denier", 1, 9, false, 0},
    {"C", "C", 1, 1, false, 0},
    {"C", "deg C", 1, 1, false, 0},
    {"C", "\302\260C", 1, 1, false, 0},
    {"C", "F", 5, 9, false, 32},
    {"C", "deg F", 5, 9, false, 32},
    {"C", "\302\260F", 5, 9, false, 32},
    {"C", "K", 1, 1, true, 273.15},
    {"N", "N", 1, 1, false, 0},
    {"N", "kN", 1e3, 1, true, 0},
    {"N", "lbf", 4.4482216152605, 1, false, 0},
    {"N", "kgf", 9.80665, 1, false, 0},
    {"N/m", "N/m", 1, 1, false, 0},
    {"N/m", "kN/m", 1e3, 1, true, 0},
    {"N/m", "N/5cm", 20, 1, true, 0},
    {"N/m", "N/50mm", 20, 1, false, 0},
    {"N/m", "lbf/in", 44482.216152605, 254, false, 0},
    {"W", "kW", 1e3, 1, false, 0},
    {"W", "W", 1, 1, true, 0},
    {"W", "BTU/h", 1055.05585262, 3600, false, 0},
    {"m/s", "m/s", 1, 1, false, 0},
    {"m/s", "km/h", 10, 36, true, 0},
    {"m/s", "mph", 44704, 1e5, false, 0},
    {"m/s", "knots", 1852, 3600, false, 0},
    {"m/s", "kn", 1852, 3600, false, 0},
    {"m/s", "ft/s", 3048, 1e4, false, 0},
    {"min", "min", 1, 1, false, 0},
    {"min", "minutes", 1, 1, false, 0},
    {"min", "s", 1, 60, true, 0},
    {"min", "h", 60, 1, false, 0},
    {"h", "h", 1, 1, false, 0},
    {"h", "hours", 1, 1, false, 0},
    {"h", "hour", 1, 1, false, 0},
    {"h", "min", 1, 60, true, 0},
    {"m/h", "m/h", 1, 1, false, 0},
    {"m/h", "ft/h", 3048, 1e4, false, 0},
    {"", "", 1, 1, false, 0},
    {"", "%", 1, 100, false, 0},
};

static const struct {
    const char *of, *kind;
} kind_table[] = {
    {"m", "a length; the units are mm, cm, m, in and ft"},
    {"m2", "an area; the units are m2, cm2, ft2 and yd2"},
    {"m3", "a volume; the units are m3, litres and ft3"},
    {"kg/m2", "mass of cloth; the units are g/m2, kg/m2 and oz/yd2"},
    {"N/m3", "lift by volume; the unit is N/m3"},
    {"deg", "an angle; the unit is deg"},
    {"kg", "a mass; the units are g, kg, oz and lb"},
    {"kg/m", "mass of a metre; the units are g/m, kg/m and oz/yd"},
    {"g/km", "fineness of thread; the units are tex, g/km and denier"},
    {"C", "a temperature; the units are C, F and K"},
    {"N", "a force; the units are N, kN, lbf and kgf"},
    {"N/m", "strength of cloth; the units are N/m, kN/m, N/5cm and lbf/in"},
    {"W", "power; the units are W, kW and BTU/h"},
    {"m/s", "a speed; the units are m/s, km/h, mph, knots and ft/s"},
    {"min", "a time; the units are min, s and h"},
    {"h", "a time; the units are h and min"},
    {"m/h", "a pace; the units are m/h and ft/h"},
    {"", "a plain number; write it without one, or with %"},
};

static bool reads_in_mm(const struct parameter *p) {
    return p->most < 0.5 || strncmp(p->key, "paper.", 6) == 0;
}

/* Units in which the other kinds are shown: metric, and beside feet and pounds. */
static const struct {
    const char *of, *shown[2];
} shown_table[] = {
    {"m2", {"m2", "ft2"}},  {"m3", {"m3", "ft3"}},    {"kg/m2", {"g/m2", "g/m2"}},
    {"kg", {"g", "lb"}},    {"kg/m", {"g/m", "g/m"}}, {"g/km", {"tex", "tex"}},
    {"C", {"C", "F"}},      {"N", {"N", "lbf"}},      {"N/m", {"N/m", "lbf/in"}},
    {"W", {"kW", "BTU/h"}}, {"m/s", {"m/s", "mph"}},  {"m/h", {"m/h", "ft/h"}},
};

const char *quantity_unit(const struct parameter *p, enum units units) {
    bool inches = units == UNITS_INCH;
    if (strcmp(p->unit, "m") == 0 && inches)
        return p->most < 1000 ? "in" : "ft"; /* heights above the sea */
    if (strcmp(p->unit, "m") == 0)
        return reads_in_mm(p) ? "mm" : "m";
    for (size_t i = 0; i < COUNT_OF(shown_table); i++)
        if (strcmp(p->unit, shown_table[i].of) == 0)
            return shown_table[i].shown[inches];
    return p->unit;
}

static const struct unit *usual_unit(const struct parameter *p, enum units units) {
    static const struct unit itself = {"", "", 1, 1, false, 0};
    const char *name = quantity_unit(p, units);
    for (size_t i = 0; i < COUNT_OF(unit_table); i++)
        if (strcmp(unit_table[i].of, p->unit) == 0 && strcmp(unit_table[i].name, name) == 0)
            return &unit_table[i];
    return &itself;
}

static double in_table_unit(const struct unit *unit, double number) {
    return (number - unit->zero) * unit->times / unit->over;
}

static double in_unit(const struct unit *unit, double value) {
    return value * unit->over / unit->times + unit->zero;
}

double quantity_shown(const struct parameter *p, enum units units, double value) {
    return in_unit(usual_unit(p, units), value);
}

double quantity_meant(const struct parameter *p, enum units units, double shown) {
    return in_table_unit(usual_unit(p, units), shown);
}

/* Without exponent, at most seven digits that count, no needless zeros. */
static char *decimals_of(double number, char into[40]) {
    enum { DIGITS_MOST = 7, DECIMALS_MOST = 15 };
    if (!(fabs(number) < 1e9)) {
        snprintf(into, 40, "%.6g", number);
        return into;
    }
    int before = fabs(number) > 0 ? (int)floor(log10(fabs(number))) + 1 : 1;
    int most = DIGITS_MOST - before;
    most = most < 0 ? 0 : most > DECIMALS_MOST ? DECIMALS_MOST : most;
    for (int decimals = 0; decimals <= most; decimals++) {
        snprintf(into, 40, "%.*f", decimals, number);
        if (fabs(strtod(into, NULL) - number) <= 1e-12 * fabs(number))
            return into;
    }
    if (strchr(into, '.') != NULL) {
        size_t length = strlen(into);
        while (into[length - 1] == '0')
            into[--length] = '\0';
        if (into[length - 1] == '.')
            into[length - 1] = '\0';
    }
    return into;
}

/* ---- reading: the signs ----------------------------------------------------- */

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static const char *past_blanks(const char *at) {
    return at + strspn(at, " \t");
}

/* "15/16".  Returns: what follows, or NULL when there is no fraction. */
static const char *past_fraction(const char *at, double *fraction) {
    unsigned part = 0, of = 0;
    int used = 0;
    if (!is_digit(*at) || sscanf(at, "%4u/%n", &part, &used) != 1 || used == 0 ||
        !is_digit(at[used]))
        return NULL;
    at += used;
    if (sscanf(at, "%4u%n", &of, &used) != 1 || of == 0 || is_digit(at[used]) || at[used] == '.')
        return NULL;
    *fraction = (double)part / (double)of;
    return at + used;
}

/* "3.2", "15/16", "12 15/16", "12-15/16"; no sign, no exponent.
 * Returns: what follows, or NULL when no number stands there. */
static const char *past_number(const char *at, double *number) {
    enum { DIGITS_MOST = 30 };
    char digits[DIGITS_MOST + 1], *end;
    double fraction;
    const char *after = past_fraction(at, number);
    size_t length = strspn(at, "0123456789.");
    if (after != NULL)
        return after;
    if (length == 0 || length > DIGITS_MOST)
        return NULL;
    memcpy(digits, at, length);
    digits[length] = '\0';
    *number = strtod(digits, &end);
    if (end != digits + length)
        return NULL;
    at += length;
    if (strchr(digits, '.') != NULL)
        return at;
    after = past_fraction(*at == '-' ? at + 1 : past_blanks(at), &fraction);
    bool apart = *at == '-' || *at == ' ' || *at == '\t';
    if (!apart || after == NULL)
        return at;
    *number += fraction;
    return after;
}

/* Length of the unit's name when it stands here, whatever its case; 0 otherwise. */
static size_t name_length_at(const char *at, const char *name) {
    size_t length = 0;
    while (name[length] != '\0' && ascii_lower(at[length]) == ascii_lower(name[length]))
        length++;
    bool cut = length > 0 && is_letter(name[length - 1]) && is_letter(at[length]);
    return name[length] == '\0' && !cut ? length : 0;
}

static const struct unit *unit_at(const char *of, const char *at, size_t *length) {
    const struct unit *found = NULL;
    *length = 0;
    for (size_t i = 0; i < COUNT_OF(unit_table); i++) {
        size_t here =
            strcmp(unit_table[i].of, of) == 0 ? name_length_at(at, unit_table[i].name) : 0;
        if (here > *length) {
            *length = here;
            found = &unit_table[i];
        }
    }
    return found;
}

/* ---- reading: the whole ------------------------------------------------------ */

struct quantity {
    const struct parameter *p;
    const char *typed;
    const struct unit *usual; /* of a bare number */
    const struct unit *unit;  /* of the last part */
    size_t parts;             /* numbers read so far */
    bool bare;                /* the first has no unit */
    bool negative;            /* a minus stands before them all */
    double number, value;     /* of the last part in `unit`; the sum in the table's unit */
    struct diagnostics *messages;
};

static int refuse_form(const struct quantity *q) {
    char shown[48];
    diagnose(q->messages, SEVERITY_ERROR, "number", q->p->key,
             "\"%s\" is not a number this program can read; write one such as 3.2%s%s, or with "
             "a fraction, 12 15/16%s",
             shown_text(q->typed, shown), q->usual->name[0] == '\0' ? "" : " ", q->usual->name,
             strcmp(q->p->unit, "m") == 0 ? " in" : "");
    return -1;
}

static int refuse_comma(const struct quantity *q) {
    char shown[48];
    diagnose(q->messages, SEVERITY_ERROR, "comma", q->p->key,
             "\"%s\" has a comma in it; write a point where the decimals begin, such as 3.2, and "
             "nothing between thousands",
             shown_text(q->typed, shown));
    return -1;
}

static int refuse_unit(const struct quantity *q, const char *unit) {
    char shown[48];
    for (size_t i = 0; i < COUNT_OF(kind_table); i++)
        if (strcmp(kind_table[i].of, q->p->unit) == 0)
            diagnose(q->messages, SEVERITY_ERROR, "unit", q->p->key, "\"%s\" is not a unit for %s",
                     shown_text(unit, shown), kind_table[i].kind);
    return -1;
}

/* A unit as typed: up to the next number or the end. */
static int refuse_unit_at(const struct quantity *q, const char *at) {
    char unit[48];
    size_t length = strcspn(at, "0123456789 \t");
    length += strspn(at + length, "0123456789"); /* m2 */
    snprintf(unit, sizeof unit, "%.*s", (int)(length < 47 ? length : 47), at);
    return refuse_unit(q, unit);
}

/* May `next` follow the present unit, as inches follow feet? */
static bool may_follow(const struct unit *before, const struct unit *next) {
    return strcmp(before->of, "m") == 0 &&
           next->times / next->over < 0.99 * before->times / before->over;
}

/* The inches of 10' 6 may stay unnamed, those of 10 ft2 may not: that is an area. */
static bool inches_unnamed(const struct quantity *q, const char *number) {
    return fabs(q->unit->times - 3048) < 0.5 && strchr(" \t'", number[-1]) != NULL;
}

/* Take the unit of a number, also when none is written, into q->unit.
 * Given: at, what follows the number.  Returns: false when it makes no sense there. */
static bool take_unit(struct quantity *q, const char *number, const char *at, size_t *length) {
    static const struct unit inch = {"m", "in", 254, 1e4, false, 0};
    const struct unit *unit = unit_at(q->p->unit, at, length);
    if (q->parts == 0) {
        q->bare = unit == NULL;
        q->unit = q->bare ? q->usual : unit;
        return true;
    }
    if (unit == NULL && inches_unnamed(q, number))
        unit = &inch;
    if (unit == NULL || !may_follow(q->unit, unit))
        return false;
    q->unit = unit;
    return true;
}

/* One number and its unit.  Returns: what follows, or NULL after a message. */
static const char *past_part(struct quantity *q, const char *at) {
    const char *number = at;
    size_t length;
    at = past_number(at, &q->number);
    if (at == NULL) {
        if (q->parts > 0 && !is_digit(*number))
            refuse_unit_at(q, number);
        else
            refuse_form(q);
        return NULL;
    }
    at = past_blanks(at);
    bool fits = take_unit(q, number, at, &length);
    if (length == 0 && *at != '\0') {
        if (strchr("0123456789.-/", *at) != NULL)
            refuse_form(q);
        else
            refuse_unit_at(q, at);
        return NULL;
    }
    if (!fits) {
        refuse_form(q);
        return NULL;
    }
    q->parts++;
    q->number = q->negative ? -q->number : q->number;
    q->value += in_table_unit(q->unit, q->number);
    return past_blanks(at + length);
}

static int read_parts(struct quantity *q) {
    const char *at = past_blanks(q->typed);
    q->negative = *at == '-';
    if (strchr(at, ',') != NULL)
        return refuse_comma(q);
    if (*at == '-' || *at == '+')
        at = past_blanks(at + 1);
    do
        at = past_part(q, at);
    while (at != NULL && *at != '\0');
    return at == NULL ? -1 : 0;
}

/* ---- ranges ------------------------------------------------------------ */

static bool in_range(const struct parameter *p, double value) {
    return isfinite(value) && value >= p->least && value <= p->most;
}

/* A limit in another unit to four digits, rounded so that it is itself allowed. */
static void limit_words(const struct parameter *p, const struct unit *unit, double limit,
                        int direction, char into[40]) {
    double exact = in_unit(unit, limit);
    decimals_of(exact, into);
    if (!in_range(p, in_table_unit(unit, strtod(into, NULL))) || strlen(into) > 6) {
        double step = exact > 0 ? pow(10, floor(log10(exact)) - 3) : 1;
        double number = direction > 0 ? ceil(exact / step) : floor(exact / step);
        for (int tries = 0; tries < 3; tries++, number += direction) {
            decimals_of(number * step, into);
            if (in_range(p, in_table_unit(unit, strtod(into, NULL))))
                break;
        }
    }
}

/* What a bare number may have been meant as. */
static void hint_words(const struct quantity *q, char into[96]) {
    char number[40];
    into[0] = '\0';
    for (size_t i = 0; q->bare && i < COUNT_OF(unit_table); i++) {
        const struct unit *unit = &unit_table[i];
        if (!unit->hinted || strcmp(unit->of, q->p->unit) != 0 ||
            !in_range(q->p, in_table_unit(unit, q->number)))
            continue;
        snprintf(into, 96, ", or did you mean %s %s?", decimals_of(q->number, number), unit->name);
        return;
    }
}

static int check_range(const struct quantity *q) {
    char shown[48], least[40], most[40], hint[96];
    const char *blank = q->unit->name[0] == '\0' ? "" : " ";
    if (in_range(q->p, q->value))
        return 0;
    limit_words(q->p, q->unit, q->p->least, 1, least);
    limit_words(q->p, q->unit, q->p->most, -1, most);
    hint_words(q, hint);
    diagnose(q->messages, SEVERITY_ERROR, "range", q->p->key,
             "\"%s\" is out of range; give %s to %s%s%s%s", shown_text(q->typed, shown), least,
             most, blank, q->unit->name, hint);
    return -1;
}

int quantity_read(const struct parameter *p, enum units units, const char *typed, double *value,
                  struct diagnostics *messages) {
    const struct unit *usual = usual_unit(p, units);
    struct quantity q = {
        .p = p, .typed = typed, .usual = usual, .unit = usual, .messages = messages};
    if (read_parts(&q) != 0 || check_range(&q) != 0)
        return -1;
    *value = q.value + 0.0; /* -0 is 0 */
    return 0;
}

/* ---- showing ----------------------------------------------------------- */

/* A whole number of 64ths of an inch.  Returns: false when it is none. */
static bool show_inch_fraction(double inches, char into[48]) {
    double parts = round(inches * 64);
    if (!(fabs(inches) < 1e6) || fabs(inches * 64 - parts) > 1e-12 * fabs(parts))
        return false;
    int whole = abs((int)parts) / 64, part = abs((int)parts) % 64, of = 64;
    const char *sign = parts < 0 ? "-" : "";
    for (; part > 0 && part % 2 == 0; part /= 2)
        of /= 2;
    if (part == 0)
        snprintf(into, 48, "%s%d in", sign, whole);
    else if (whole == 0)
        snprintf(into, 48, "%s%d/%d in", sign, part, of);
    else
        snprintf(into, 48, "%s%d %d/%d in", sign, whole, part, of);
    return true;
}

char *quantity_show(const struct parameter *p, enum units units, double value, char into[48]) {
    const struct unit *unit = usual_unit(p, units);
    char number[40];
    double shown = in_unit(unit, value);
    decimals_of(shown, number);
    if (strcmp(unit->name, "in") == 0 &&
        (show_inch_fraction(shown, into) || show_inch_fraction(strtod(number, NULL), into)))
        return into;
    snprintf(into, 48, "%s%s%.7s", number, unit->name[0] == '\0' ? "" : " ", unit->name);
    return into;
}
