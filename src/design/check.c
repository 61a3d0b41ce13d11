/* check.c - is this a design?  Each value alone, and the rules between values. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gorewright/design.h"

#include "design/check.h"
#include "design/values.h"

/* A list written in the wrong unit is not to fill the screen. */
enum { LIST_ERRORS_MOST = 3 };

/* ---- each value alone ---------------------------------------------------- */

typedef void checking_value(const struct checking *c, const struct parameter *p);

static bool check_number(const struct checking *c, const struct parameter *p, size_t entry,
                         double value) {
    bool wrong = !isfinite(value) || value < p->least || value > p->most;
    if (wrong)
        diagnose_range(c->messages, p, entry, value);
    return !wrong;
}

static void check_whole(const struct checking *c, const struct parameter *p) {
    check_number(c, p, 0, *(const int *)value_of(c->design, p));
}

static void check_real(const struct checking *c, const struct parameter *p) {
    check_number(c, p, 0, *(const double *)value_of(c->design, p));
}

static void check_text(const struct checking *c, const struct parameter *p) {
    const char *text = value_of(c->design, p);
    const char *fault = memchr(text, '\0', TEXT_MOST) == NULL
                            ? "is longer than can be printed; shorten it"
                            : text_fault(text);
    if (fault[0] != '\0')
        diagnose(c->messages, SEVERITY_ERROR, "text", p->key, "this text %s", fault);
}

static bool check_choice_index(const struct checking *c, const struct parameter *p, size_t entry,
                               int choice) {
    char number[32];
    bool wrong = choice < 0 || choice > (int)p->most;
    snprintf(number, sizeof number, "%d", choice);
    if (wrong)
        diagnose_word(c->messages, p, entry, number);
    return !wrong;
}

static void check_choice(const struct checking *c, const struct parameter *p) {
    check_choice_index(c, p, 0, *(const int *)value_of(c->design, p));
}

/* The count of a list that can be looked at; 0 with an error when it is out of bounds. */
static size_t checked_count(const struct checking *c, const struct parameter *p, size_t count) {
    if (count <= list_room(p))
        return count;
    diagnose(c->messages, SEVERITY_ERROR, "count", p->key,
             "this list has %zu entries; at most %zu can be used, so shorten it", count,
             list_room(p));
    return 0;
}

static void check_reals(const struct checking *c, const struct parameter *p) {
    const struct real_list *list = value_of(c->design, p);
    size_t count = checked_count(c, p, list->count);
    for (size_t i = 0, wrong = 0; i < count && wrong < LIST_ERRORS_MOST; i++)
        wrong += !check_number(c, p, i + 1, list->value[i]);
}

static void check_styles(const struct checking *c, const struct parameter *p) {
    const struct style_list *list = value_of(c->design, p);
    size_t count = checked_count(c, p, list->count);
    for (size_t i = 0, wrong = 0; i < count && wrong < LIST_ERRORS_MOST; i++)
        wrong += !check_choice_index(c, p, i + 1, list->value[i]);
}

static void check_points(const struct checking *c, const struct parameter *p) {
    const struct point_list *list = value_of(c->design, p);
    size_t count = checked_count(c, p, list->count);
    for (size_t i = 0, wrong = 0; i < count && wrong < LIST_ERRORS_MOST; i++) {
        wrong += !check_number(c, p, i + 1, list->value[i].r_m);
        wrong += !check_number(c, p, i + 1, list->value[i].z_m);
    }
}

static bool check_item_name(const struct checking *c, const struct parameter *p, size_t entry,
                            const char *name) {
    const char *fault = memchr(name, '\0', TEXT_MOST) == NULL
                            ? "is longer than can be printed; shorten it"
                            : text_fault(name);
    if (fault[0] != '\0')
        diagnose(c->messages, SEVERITY_ERROR, "text", p->key, "entry %zu: this name %s", entry,
                 fault);
    return fault[0] == '\0';
}

static void check_items(const struct checking *c, const struct parameter *p) {
    const struct item_list *list = value_of(c->design, p);
    size_t count = checked_count(c, p, list->count);
    for (size_t i = 0, wrong = 0; i < count && wrong < LIST_ERRORS_MOST; i++) {
        wrong += !check_item_name(c, p, i + 1, list->value[i].name);
        wrong += !check_number(c, p, i + 1, list->value[i].mass_kg);
    }
}

static checking_value *const check_value[] = {
    [PARAMETER_WHOLE] = check_whole,   [PARAMETER_REAL] = check_real,
    [PARAMETER_TEXT] = check_text,     [PARAMETER_CHOICE] = check_choice,
    [PARAMETER_REALS] = check_reals,   [PARAMETER_STYLES] = check_styles,
    [PARAMETER_POINTS] = check_points, [PARAMETER_ITEMS] = check_items,
    [PARAMETER_CLOTHS] = check_cloths, [PARAMETER_LINES] = check_lines,
    [PARAMETER_STOCK] = check_stock,
};

/* ---- what is known about a key ------------------------------------------- */

bool check_is_wrong(const struct checking *c, const char *key) {
    for (size_t i = 0; i < c->messages->count; i++)
        if (c->messages->item[i].severity == SEVERITY_ERROR &&
            strcmp(c->messages->item[i].key, key) == 0)
            return true;
    return false;
}

static bool is_stated(const struct checking *c, const char *key) {
    return c->source != NULL && c->source->line[parameter_find(key)] > 0;
}

/* Stated, and other than what it would be anyway. */
static bool is_changed(const struct checking *c, const char *key) {
    size_t count;
    const struct parameter *p = &parameters(&count)[parameter_find(key)];
    if (!is_stated(c, key) || check_is_wrong(c, key))
        return false;
    switch (p->type) {
    case PARAMETER_WHOLE:
    case PARAMETER_CHOICE:
        return *(const int *)value_of(c->design, p) != (int)p->usual;
    case PARAMETER_REAL:
        return fabs(*(const double *)value_of(c->design, p) - p->usual) > 0;
    case PARAMETER_TEXT:
        return strcmp(value_of(c->design, p), p->usual_text) != 0;
    default:
        return *(const size_t *)value_of(c->design, p) > 0; /* lists begin with their count */
    }
}

/* ---- size ---------------------------------------------------------------- */

static const char *const size_keys[] = {
    [SIZE_VOLUME] = "size.volume",         [SIZE_HEIGHT] = "size.height",
    [SIZE_DIAMETER] = "size.diameter",     [SIZE_GORE_LENGTH] = "size.gore_length",
    [SIZE_CLOTH_AREA] = "size.cloth_area",
};

/* "size.volume and size.height"; returns how many are stated. */
static size_t stated_sizes(const struct checking *c, char names[128], const char **last) {
    size_t count = 0, length = 0;
    names[0] = '\0';
    for (size_t i = 0; i < COUNT_OF(size_keys); i++) {
        if (!is_stated(c, size_keys[i]))
            continue;
        length += (size_t)snprintf(names + length, 128 - length, "%s%s", count == 0 ? "" : " and ",
                                   size_keys[i]);
        *last = size_keys[i];
        count++;
    }
    return count;
}

static void rule_one_size(const struct checking *c) {
    char names[128], words[WORDS_MOST];
    const char *last = "";
    if (c->source == NULL || stated_sizes(c, names, &last) < 2 || is_stated(c, "size.by"))
        return;
    size_t count;
    const struct parameter *by = &parameters(&count)[parameter_find("size.by")];
    diagnose(c->messages, SEVERITY_ERROR, "sizes", last,
             "%s are stated, and only one can fix the size; take the others out, or add size.by "
             "with %s",
             names, choice_words(by, words));
}

static void rule_size_by(const struct checking *c) {
    const struct design *d = c->design;
    if (check_is_wrong(c, "size.by") || check_is_wrong(c, "outline.kind"))
        return;
    if (d->size.by == SIZE_TABLE && d->outline.kind != OUTLINE_TABLE)
        diagnose(c->messages, SEVERITY_ERROR, "needs", "size.by",
                 "\"table\" keeps the size of measured stations, but outline.kind is \"%s\"; "
                 "write another word here, or outline.kind = \"table\" with outline.table",
                 parameter_word("outline.kind", d->outline.kind));
}

static bool is_of_rig(const struct parameter *p) {
    return strncmp(p->key, "rig.", 4) == 0;
}

double rig_mass_kg(const struct design *design) {
    double sum_kg = 0;
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++)
        if (is_of_rig(&p[i]) && p[i].type == PARAMETER_REAL)
            sum_kg += *(const double *)value_of(design, &p[i]);
    for (size_t i = 0; i < design->rig.others.count; i++)
        sum_kg += design->rig.others.value[i].mass_kg;
    return sum_kg;
}

/* Nothing is carried, as far as each mass by itself can be believed. */
static bool is_empty_handed(const struct checking *c) {
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++)
        if (is_of_rig(&p[i]) && check_is_wrong(c, p[i].key))
            return false;
    return rig_mass_kg(c->design) <= 0;
}

void diagnose_cold_air(struct diagnostics *messages, enum severity severity, const char *code,
                       const struct design *design) {
    char inside[32], ground[32];
    diagnose(
        messages, severity, code, "air.inside",
        "%s C is no warmer than the air outside (air.ground is %s C), so nothing is lifted; it "
        "must be hotter than that",
        plain_number(design->air.inside_C, inside), plain_number(design->air.ground_C, ground));
}

/* The size follows from what is carried and from the air that carries it. */
static void rule_load(const struct checking *c) {
    const struct design *d = c->design;
    if (check_is_wrong(c, "size.by") || d->size.by != SIZE_LOAD)
        return;
    if (is_empty_handed(c))
        diagnose(c->messages, SEVERITY_ERROR, "needs", "size.by",
                 "\"load\" makes the envelope large enough for what it carries, and all masses of "
                 "the group rig are 0; state what is carried, or write another word here");
    if (!check_is_wrong(c, "air.inside") && !check_is_wrong(c, "air.ground") &&
        d->air.inside_C <= d->air.ground_C)
        diagnose_cold_air(c->messages, SEVERITY_ERROR, "needs", d);
}

/* What was weighed does not grow with an envelope whose size is still sought. */
static void rule_weighed(const struct checking *c) {
    size_t count;
    const struct parameter *p = parameters(&count);
    if (check_is_wrong(c, "size.by") || c->design->size.by != SIZE_LOAD)
        return;
    for (size_t i = 0; i < count; i++)
        if (strncmp(p[i].key, "weighed.", 8) == 0 && !check_is_wrong(c, p[i].key) &&
            *(const double *)value_of(c->design, &p[i]) > 0)
            diagnose(c->messages, SEVERITY_WARNING, "weighed", p[i].key,
                     "what was weighed belongs to an envelope of one size, and size.by \"load\" "
                     "still seeks it; state the size that was weighed, or take this out");
}

/* The parts do not count beside the whole, but they cannot weigh more. */
static void rule_weighed_parts(const struct checking *c) {
    size_t count;
    const struct parameter *p = parameters(&count);
    double parts_kg = 0, whole_kg = c->design->weighed.envelope_kg;
    char parts[32], whole[32];
    for (size_t i = 0; i < count; i++) {
        if (strncmp(p[i].key, "weighed.", 8) != 0)
            continue;
        if (check_is_wrong(c, p[i].key))
            return;
        parts_kg += *(const double *)value_of(c->design, &p[i]);
    }
    parts_kg = round((parts_kg - whole_kg) * 1e6) / 1e6; /* to the milligram, as it is said */
    if (whole_kg > 0 && parts_kg > whole_kg + 1e-9)
        diagnose(
            c->messages, SEVERITY_WARNING, "weighed", "weighed.envelope",
            "the parts that were weighed come to %s kg, more than the whole envelope of %s kg; "
            "weigh it again",
            plain_number(parts_kg, parts), plain_number(whole_kg, whole));
}

/* A size that is stated but does not govern: said when the builder changed it, or when the
 * size that governs is not stated at all. */
static void rule_size_stated(const struct checking *c) {
    int by = c->design->size.by;
    if (!is_stated(c, "size.by") || check_is_wrong(c, "size.by"))
        return;
    bool governed = by >= (int)COUNT_OF(size_keys) || is_stated(c, size_keys[by]);
    for (int i = 0; i < (int)COUNT_OF(size_keys); i++)
        if (i != by && (is_changed(c, size_keys[i]) || (!governed && is_stated(c, size_keys[i]))))
            diagnose(c->messages, SEVERITY_WARNING, "not-used", size_keys[i],
                     "not used, for size.by is \"%s\"; write size.by = \"%s\" for this one to "
                     "count, or take it out",
                     parameter_word("size.by", by), parameter_word("size.by", i));
}

/* ---- lists and their counts ---------------------------------------------- */

const char *check_place(const struct checking *c, const char *list, const char *asked_by) {
    return c->source == NULL || is_stated(c, list) ? list : asked_by;
}

#define STATION_LEAST_M 1e-4 /* least radius, and least distance between two stations */

static void rule_station(const struct checking *c, size_t i) {
    const struct point_list *table = &c->design->outline.table;
    double r = table->value[i].r_m, z = table->value[i].z_m;
    if (!(r >= STATION_LEAST_M))
        diagnose(c->messages, SEVERITY_ERROR, "needs", "outline.table",
                 "station %zu has no radius; the outline ends at the mouth and at the crown "
                 "opening, so give every station a radius of at least 0.0001 m",
                 i + 1);
    if (i > 0 &&
        !(hypot(r - table->value[i - 1].r_m, z - table->value[i - 1].z_m) >= STATION_LEAST_M))
        diagnose(c->messages, SEVERITY_ERROR, "needs", "outline.table",
                 "stations %zu and %zu are the same point; take one of them out", i, i + 1);
}

static void rule_table(const struct checking *c) {
    const struct point_list *table = &c->design->outline.table;
    if (c->design->outline.kind != OUTLINE_TABLE || check_is_wrong(c, "outline.table") ||
        check_is_wrong(c, "outline.kind"))
        return;
    if (table->count < 2)
        diagnose(c->messages, SEVERITY_ERROR, "needs",
                 check_place(c, "outline.table", "outline.kind"),
                 "outline.kind \"table\" needs its stations in outline.table, and there %s %zu; "
                 "write 2 to %d of them from the mouth up, ((radius, height), ...) in metres",
                 table->count == 1 ? "is" : "are", table->count, TABLE_MOST);
    else
        for (size_t i = 0; i < table->count; i++)
            rule_station(c, i);
}

const char *check_count_words(const struct checking *c, const char *key, int count, char into[64]) {
    bool known = c->source == NULL || is_stated(c, key);
    snprintf(into, 64, "%s is %s%d", key, known ? "" : "not stated, so it is ", count);
    return into;
}

static void rule_shares(const struct checking *c) {
    const struct design *d = c->design;
    char words[64];
    size_t rows = (size_t)d->rows.count;
    if (d->rows.spacing != ROWS_GIVEN || check_is_wrong(c, "rows.shares") ||
        check_is_wrong(c, "rows.count") || check_is_wrong(c, "rows.spacing") ||
        d->rows.shares.count == rows)
        return;
    check_count_words(c, "rows.count", d->rows.count, words);
    if (d->rows.shares.count == 0)
        diagnose(c->messages, SEVERITY_ERROR, "needs",
                 check_place(c, "rows.shares", "rows.spacing"),
                 "\"given\" needs the length of each row in rows.shares, and none is stated; %s: "
                 "write %d numbers from the mouth up",
                 words, d->rows.count);
    else
        diagnose(c->messages, SEVERITY_ERROR, "count", "rows.shares",
                 "here are %zu lengths, but %s; write %d lengths, or rows.count = %zu",
                 d->rows.shares.count, words, d->rows.count, d->rows.shares.count);
}

static void rule_stations(const struct checking *c) {
    const struct design *d = c->design;
    char words[64];
    size_t wanted = (size_t)d->rows.count + 1;
    if (d->bulge.stations.count == 0 || check_is_wrong(c, "bulge.stations") ||
        check_is_wrong(c, "rows.count") || d->bulge.stations.count == wanted)
        return;
    diagnose(c->messages, SEVERITY_ERROR, "count", "bulge.stations",
             "here are %zu values, but %s, which makes %zu stations; write one value for each, "
             "mouth and crown included",
             d->bulge.stations.count, check_count_words(c, "rows.count", d->rows.count, words),
             wanted);
}

/* "1, 2, 4, 8 or 16": the lengths of a list that fits around this many gores. */
static const char *divisors(int count, char into[128]) {
    size_t length = 0;
    for (int of = 1; of <= count && length < 120; of++)
        if (count % of == 0)
            length += (size_t)snprintf(into + length, 128 - length, "%s%d",
                                       of == 1       ? ""
                                       : of == count ? " or "
                                                     : ", ",
                                       of);
    return into;
}

static void rule_mix(const struct checking *c) {
    const struct design *d = c->design;
    char words[64], fitting[128];
    size_t length = d->gores.mix.count;
    if (length == 0 || check_is_wrong(c, "gores.mix") || check_is_wrong(c, "gores.count") ||
        (size_t)d->gores.count % length == 0)
        return;
    diagnose(c->messages, SEVERITY_ERROR, "count", "gores.mix",
             "here are %zu styles, but %s, which %zu does not divide; write %s styles, repeated "
             "around the envelope",
             length, check_count_words(c, "gores.count", d->gores.count, words), length,
             divisors(d->gores.count, fitting));
}

static void rule_cloth(const struct checking *c) {
    char number[32];
    double left = c->design->cloth.width_m - 2 * c->design->cloth.selvedge_m;
    if (left > 0 || check_is_wrong(c, "cloth.width") || check_is_wrong(c, "cloth.selvedge"))
        return;
    diagnose(c->messages, SEVERITY_ERROR, "needs", "cloth.selvedge",
             "the two selvedges leave no cloth between them, for cloth.width is %s m; give a "
             "selvedge of less than half the width",
             plain_number(c->design->cloth.width_m, number));
}

/* ---- values stated in vain ------------------------------------------------ */

static bool from_table(const struct design *d) {
    return d->outline.kind == OUTLINE_TABLE;
}
static bool not_from_table(const struct design *d) {
    return d->outline.kind != OUTLINE_TABLE;
}
static bool not_natural(const struct design *d) {
    return d->outline.kind != OUTLINE_NATURAL;
}
static bool not_by_ratio(const struct design *d) {
    return not_natural(d) || d->outline.weight_from != WEIGHT_RATIO;
}
static bool not_by_cloth(const struct design *d) {
    return not_natural(d) || d->outline.weight_from != WEIGHT_CLOTH;
}
static bool lift_from_air(const struct design *d) {
    return d->size.by == SIZE_LOAD && !not_by_cloth(d);
}
static bool no_cone(const struct design *d) {
    return d->outline.kind != OUTLINE_BALL_AND_CONE;
}
static bool not_given(const struct design *d) {
    return d->rows.spacing != ROWS_GIVEN;
}
static bool mixed(const struct design *d) {
    return d->gores.mix.count > 0;
}
static bool has_style(const struct design *d, int style) {
    size_t count = d->gores.mix.count < GORES_MOST ? d->gores.mix.count : GORES_MOST;
    for (size_t i = 0; i < count; i++)
        if (d->gores.mix.value[i] == style)
            return true;
    return count == 0 && d->gores.style == style;
}
static bool all_faceted(const struct design *d) {
    return !has_style(d, HALF_GORE) && !has_style(d, BILLOWED);
}
static bool no_half_gore(const struct design *d) {
    return !has_style(d, HALF_GORE);
}
static bool bulge_by_station(const struct design *d) {
    return d->bulge.stations.count > 0;
}

static bool not_by_scheme(const struct design *d) {
    return d->colours.fill != FILL_SCHEME;
}
static bool no_span(const struct design *d) {
    return d->colours.fill == FILL_ONE || d->colours.fill == FILL_GRADIENT || !not_by_scheme(d);
}
static bool alike_around(const struct design *d) {
    return d->colours.fill == FILL_ONE || d->colours.fill == FILL_BANDS ||
           d->colours.fill == FILL_GRADIENT;
}
static bool own_cloths(const struct design *d) {
    return d->colours.cloths.count > 0;
}
static bool no_cloths(const struct design *d) {
    return d->colours.cloths.count < 2 && not_by_scheme(d);
}

static bool weighed_whole(const struct design *d) {
    return d->weighed.envelope_kg > 0;
}

#define WEIGHED_WHOLE                                                                              \
    weighed_whole, "not used, for weighed.envelope counts; take one of the two out"

static const struct {
    const char *key;
    bool (*in_vain)(const struct design *design);
    const char *text;
} unused[] = {
    {"outline.mouth_diameter", from_table,
     "not used, for the first station of outline.table is the mouth; take this out"},
    {"outline.crown_diameter", from_table,
     "not used, for the last station of outline.table is the crown opening; take this out"},
    {"outline.table", not_from_table,
     "not used, for outline.kind is not \"table\"; change that, or take the stations out"},
    {"outline.join", not_from_table,
     "not used, for outline.kind is not \"table\"; change that, or take this out"},
    {"outline.weight_from", not_natural,
     "not used, for outline.kind is not \"natural\"; change that, or take this out"},
    {"outline.weight_ratio", not_by_ratio,
     "not used; it needs outline.kind \"natural\" and outline.weight_from \"ratio\""},
    {"outline.lift_per_volume", not_by_cloth,
     "not used; it needs outline.kind \"natural\" and outline.weight_from \"cloth\""},
    {"outline.lift_per_volume", lift_from_air,
     "not used, for with size.by \"load\" it follows from the group air; take this out"},
    {"outline.cone_angle", no_cone,
     "not used, for outline.kind is not \"ball-and-cone\"; change that, or take this out"},
    {"gores.style", mixed, "not used, for gores.mix gives the styles; take one of the two out"},
    {"rows.shares", not_given,
     "not used, for rows.spacing is not \"given\"; change that, or take the lengths out"},
    {"bulge.depth", bulge_by_station,
     "not used, for bulge.stations gives the bulge; take one of the two out"},
    {"bulge.ease_rows", bulge_by_station,
     "not used, for bulge.stations gives the bulge; take one of the two out"},
    {"bulge.depth", all_faceted,
     "not used, for all gores are faceted; choose another style, or take this out"},
    {"bulge.ease_rows", all_faceted,
     "not used, for all gores are faceted; choose another style, or take this out"},
    {"bulge.stations", all_faceted,
     "not used, for all gores are faceted; choose another style, or take this out"},
    {"seams.ridge", no_half_gore,
     "not used, for no gore is built in halves; choose half-gores, or take this out"},
    {"seams.ridge_width", no_half_gore,
     "not used, for no gore is built in halves; choose half-gores, or take this out"},
    {"cloth.colour", own_cloths,
     "not used, for colours.cloths names the colours; take one of the two out"},
    {"colours.fill", no_cloths,
     "not used, for there is one colour only; name at least two in colours.cloths"},
    {"colours.span", no_span,
     "not used; it needs colours.fill \"stripes\", \"bands\", \"spiral\" or \"chequer\""},
    {"colours.turn", alike_around,
     "not used, for with this colours.fill all gores are alike; take this out"},
    {"colours.mirror", alike_around,
     "not used, for with this colours.fill all gores are alike; take this out"},
    {"colours.scheme", not_by_scheme,
     "not used, for colours.fill is not \"scheme\"; change that, or take the scheme out"},
    {"colours.scheme_right", not_by_scheme,
     "not used, for colours.fill is not \"scheme\"; change that, or take this out"},
    {"colours.scheme_right", no_half_gore,
     "not used, for no gore is built in halves; choose half-gores, or take this out"},
    {"weighed.cloth", WEIGHED_WHOLE},
    {"weighed.tapes", WEIGHED_WHOLE},
    {"weighed.thread", WEIGHED_WHOLE},
    {"weighed.crown", WEIGHED_WHOLE},
    {"weighed.mouth", WEIGHED_WHOLE},
    {"weighed.lines", WEIGHED_WHOLE},
};

static bool of_colours(const char *key) {
    return strncmp(key, "colours.", 8) == 0;
}

static void rule_unused(const struct checking *c) {
    for (size_t i = 0; i < COUNT_OF(unused); i++)
        if (!(of_colours(unused[i].key) && check_is_wrong(c, "colours.cloths")) &&
            is_changed(c, unused[i].key) && unused[i].in_vain(c->design))
            diagnose(c->messages, SEVERITY_WARNING, "not-used", unused[i].key, "%s",
                     unused[i].text);
}

static void (*const rules[])(const struct checking *) = {
    rule_one_size,    rule_size_by, rule_load,    rule_weighed,  rule_weighed_parts,
    rule_size_stated, rule_table,   rule_shares,  rule_stations, rule_mix,
    rule_cloth,       rule_colours, rule_cutting, rule_unused,
};

int design_check(const struct design *design, const struct design_source *source,
                 struct diagnostics *messages) {
    const struct checking checking = {design, source, messages};
    size_t errors = messages->errors, count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++)
        check_value[p[i].type](&checking, &p[i]);
    for (size_t i = 0; i < COUNT_OF(rules); i++)
        rules[i](&checking);
    return messages->errors == errors ? 0 : -1;
}
