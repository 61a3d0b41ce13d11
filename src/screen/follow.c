/* follow.c - what one choice brings with it, so that the next drawing is not an error. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "screen/steps.h"

struct change {
    const struct design *before;
    const struct envelope *envelope; /* of `before`, or NULL */
    struct design *after;
};

/* A figure as somebody would write it down: four digits. */
static double rounded(double value) {
    double step = pow(10, floor(log10(value)) - 3);
    return round(value / step) * step;
}

/* The figure that fixes the size in this way, or NULL when a table does. */
static double *size_stated(struct design *design, int by) {
    double *const stated[] = {
        [SIZE_VOLUME] = &design->size.volume_m3,
        [SIZE_HEIGHT] = &design->size.height_m,
        [SIZE_DIAMETER] = &design->size.diameter_m,
        [SIZE_GORE_LENGTH] = &design->size.gore_length_m,
        [SIZE_CLOTH_AREA] = &design->size.cloth_area_m2,
    };
    return by >= 0 && (size_t)by < COUNT_OF(stated) ? stated[by] : NULL;
}

static double size_built(const struct built *built, int by) {
    const double figure[] = {
        [SIZE_VOLUME] = built->volume_m3,        [SIZE_HEIGHT] = built->height_m,
        [SIZE_DIAMETER] = built->max_diameter_m, [SIZE_GORE_LENGTH] = built->gore_length_m,
        [SIZE_CLOTH_AREA] = built->sewn_area_m2,
    };
    return figure[by];
}

/* The size stays as it is, whatever fixes it from now on.  What fixed it before goes back to
 * its usual value, so that no file states it in vain; it is found again on the way back. */
static void follow_size(const struct change *change) {
    int before = change->before->size.by, by = change->after->size.by;
    double *dropped = size_stated(change->after, before), *wanted = size_stated(change->after, by);
    struct design usual;
    if (by == before)
        return;
    design_starter(&usual);
    if (dropped != NULL)
        *dropped = *size_stated(&usual, before);
    if (by == SIZE_LOAD) /* follows from the air, as stated in the group air */
        change->after->outline.lift_per_volume_N_m3 = usual.outline.lift_per_volume_N_m3;
    if (wanted != NULL && change->envelope != NULL)
        *wanted = rounded(size_built(&change->envelope->built, by));
}

/* A table to begin from: the stations of the envelope as it is, to the millimetre. */
static void fill_table(const struct envelope *envelope, struct point_list *table) {
    table->count = envelope->rows + 1;
    for (size_t j = 0; j <= envelope->rows; j++) {
        table->value[j].r_m = round(envelope->station[j].r_m * 1e3) / 1e3;
        table->value[j].z_m = round(envelope->station[j].z_m * 1e3) / 1e3;
    }
}

static void follow_outline(const struct change *change) {
    struct design *after = change->after;
    if (change->envelope == NULL)
        return;
    if (after->outline.kind == OUTLINE_TABLE) {
        if (after->outline.table.count == 0)
            fill_table(change->envelope, &after->outline.table);
        return;
    }
    after->outline.table.count = 0;
    if (after->size.by == SIZE_TABLE) {
        after->size.by = SIZE_HEIGHT;
        follow_size(change);
    }
    if (change->before->outline.kind == OUTLINE_TABLE) {
        after->outline.mouth_diameter_m = rounded(change->envelope->built.mouth_diameter_m);
        after->outline.crown_diameter_m = rounded(change->envelope->built.crown_diameter_m);
    }
}

/* ---- colours -------------------------------------------------------------- */

/* The letters of all panels of the left halves, as the pattern gives them, a line for each row.
 * The scheme is turned and mirrored as the pattern is. */
static void lay_pattern(const struct design *design, int fill, struct line_list *scheme) {
    struct design plain = *design;
    plain.colours.fill = fill;
    plain.colours.turn = 0;
    plain.colours.mirror = MIRROR_NO;
    *scheme = (struct line_list){.count = (size_t)design->rows.count};
    for (size_t row = 1; row <= scheme->count; row++)
        for (size_t gore = 0; gore < (size_t)design->gores.count; gore++)
            scheme->value[row - 1][gore] =
                design->colours.cloths.value[design_colour_of(&plain, gore, row, false)].letter;
}

static bool same_scheme(const struct line_list *one, const struct line_list *other) {
    bool same = one->count == other->count;
    for (size_t i = 0; same && i < one->count; i++)
        same = strcmp(one->value[i], other->value[i]) == 0;
    return same;
}

static bool is_a_pattern(const struct design *design) {
    struct line_list pattern;
    for (int fill = FILL_ONE; fill < FILL_SCHEME; fill++) {
        lay_pattern(design, fill, &pattern);
        if (same_scheme(&pattern, &design->colours.scheme))
            return true;
    }
    return false;
}

/* An opened file may hold values that no pattern can be laid with. */
static bool can_be_coloured(const struct design *design) {
    return design->colours.cloths.count > 0 && design->colours.cloths.count <= CLOTHS_MOST &&
           design->gores.count >= 1 && design->gores.count <= GORES_MOST &&
           design->colours.span >= 1;
}

/* What is not used any more is not stated in the file. */
static void name_usual_cloth(struct design *design) {
    struct design usual;
    design_starter(&usual);
    memcpy(design->cloth.colour, usual.cloth.colour, sizeof usual.cloth.colour);
}

/* The cloth there is, and another. */
static struct cloth_list two_cloths(const struct cloth_colour *own) {
    bool red = own->letter == 'R';
    struct cloth_list two = {.count = 2};
    two.value[0].letter = own->letter;
    memcpy(two.value[0].name, own->name, sizeof own->name);
    two.value[1].letter = red ? 'W' : 'R';
    snprintf(two.value[1].name, sizeof two.value[1].name, "%s", red ? "white" : "red");
    return two;
}

static bool same_cloth(const struct cloth_colour *one, const struct cloth_colour *other) {
    return one->letter == other->letter && strcmp(one->name, other->name) == 0 &&
           one->width_m <= 0 && one->mass_kg_m2 <= 0 && one->price_m <= 0;
}

/* A pattern asked for without colours gets two to begin with; they go when it is given up. */
static void begin_colours(struct design *design) {
    struct cloth_list *cloths = &design->colours.cloths;
    struct cloth_colour own[CLOTHS_MOST];
    design_cloths(design, own);
    struct cloth_list two = two_cloths(&own[0]);
    bool begun = cloths->count == 2 && same_cloth(&cloths->value[0], &two.value[0]) &&
                 same_cloth(&cloths->value[1], &two.value[1]);
    if (design->colours.fill != FILL_ONE && cloths->count == 0) {
        *cloths = two;
        name_usual_cloth(design);
    } else if (design->colours.fill == FILL_ONE && begun) {
        memcpy(design->cloth.colour, own[0].name, sizeof own[0].name);
        cloths->count = 0;
    }
}

/* A scheme begins as the pattern before it; one in which nothing was changed is not kept. */
static void follow_fill(const struct change *change) {
    struct design *after = change->after;
    int before = change->before->colours.fill;
    begin_colours(after);
    if (!can_be_coloured(after))
        return;
    if (after->colours.fill == FILL_SCHEME && after->colours.scheme.count == 0)
        lay_pattern(after, before == FILL_SCHEME ? FILL_ONE : before, &after->colours.scheme);
    else if (before == FILL_SCHEME && after->colours.fill != FILL_SCHEME &&
             after->colours.scheme_right.count == 0 && is_a_pattern(after))
        after->colours.scheme = (struct line_list){0};
}

/* The second colour is there to be seen; of none the first one stays. */
static void follow_cloths(const struct change *change) {
    struct design *after = change->after;
    size_t before = change->before->colours.cloths.count, now = after->colours.cloths.count;
    if (now > 0)
        name_usual_cloth(after);
    else if (before > 0)
        memcpy(after->cloth.colour, change->before->colours.cloths.value[0].name, TEXT_MOST);
    if (before < 2 && now > 1 && after->colours.fill == FILL_ONE)
        after->colours.fill = FILL_STRIPES;
    else if (now < 2 && after->colours.fill != FILL_SCHEME)
        after->colours.fill = FILL_ONE;
}

/* Lines that do not go into the gores any more are carried on, or cut, at their end. */
static void fit_lines(struct line_list *scheme, size_t gores) {
    for (size_t i = 0; i < scheme->count; i++) {
        char *line = scheme->value[i];
        size_t length = strlen(line);
        if (length == 0 || gores % length == 0)
            continue;
        for (size_t at = length; at < gores; at++)
            line[at] = line[at - length];
        memset(line + gores, 0, GORES_MOST + 1 - gores);
    }
}

static void follow_gore_count(const struct change *change) {
    if (!can_be_coloured(change->after))
        return;
    fit_lines(&change->after->colours.scheme, (size_t)change->after->gores.count);
    fit_lines(&change->after->colours.scheme_right, (size_t)change->after->gores.count);
}

/* The uppermost row is repeated, or rows are left out, at the crown. */
static void fit_scheme_rows(struct line_list *scheme, size_t rows) {
    if (scheme->count < 2)
        return;
    for (size_t i = scheme->count; i < rows; i++)
        memcpy(scheme->value[i], scheme->value[scheme->count - 1], GORES_MOST + 1);
    scheme->count = rows;
}

/* ---- rows, and lists ----------------------------------------------------- */

/* A share for every row. */
static void follow_rows(const struct change *change) {
    struct design *after = change->after;
    struct real_list *shares = &after->rows.shares;
    if (after->rows.spacing != ROWS_GIVEN) {
        shares->count = 0;
        return;
    }
    double last = shares->count > 0 ? shares->value[shares->count - 1] : 1;
    while (shares->count < (size_t)after->rows.count)
        shares->value[shares->count++] = last;
    shares->count = (size_t)after->rows.count;
}

/* A bulge at every station, spread over the new rows as it was over the old. */
static void follow_row_count(const struct change *change) {
    const struct real_list *old = &change->before->bulge.stations;
    struct real_list *bulge = &change->after->bulge.stations;
    size_t rows = (size_t)change->after->rows.count;
    follow_rows(change);
    fit_scheme_rows(&change->after->colours.scheme, rows);
    fit_scheme_rows(&change->after->colours.scheme_right, rows);
    if (old->count < 2)
        return;
    bulge->count = rows + 1;
    for (size_t j = 0; j <= rows; j++) {
        double at = (double)j * (double)(old->count - 1) / (double)rows;
        size_t below = (size_t)fmin(floor(at), (double)old->count - 2);
        double part = at - (double)below;
        double value = (1 - part) * old->value[below] + part * old->value[below + 1];
        bulge->value[j] = round(value * 1e4) / 1e4;
    }
}

/* What a list replaces goes back to its usual value, so that no file states it in vain. */
static void follow_mix(const struct change *change) {
    struct design usual;
    design_starter(&usual);
    if (change->after->gores.mix.count > 0)
        change->after->gores.style = usual.gores.style;
}

static void follow_stations(const struct change *change) {
    struct design usual;
    design_starter(&usual);
    if (change->after->bulge.stations.count == 0)
        return;
    change->after->bulge.depth = usual.bulge.depth;
    change->after->bulge.ease_rows = usual.bulge.ease_rows;
}

/* An opened file may count rows that no list holds: such a design is mended before it is
 * followed. */
static bool rows_fit(const struct design *design) {
    return design->rows.count >= 1 && design->rows.count <= ROWS_MOST;
}

void choice_follow(const char *key, const struct design *before, const struct envelope *envelope,
                   struct design *after) {
    static const struct {
        const char *key;
        void (*follow)(const struct change *change);
    } table[] = {
        {"size.by", follow_size},           {"outline.kind", follow_outline},
        {"rows.spacing", follow_rows},      {"rows.count", follow_row_count},
        {"gores.mix", follow_mix},          {"bulge.stations", follow_stations},
        {"gores.count", follow_gore_count}, {"colours.fill", follow_fill},
        {"colours.cloths", follow_cloths},
    };
    struct change change = {before, envelope, after};
    if (!rows_fit(before) || !rows_fit(after))
        return;
    for (size_t i = 0; i < COUNT_OF(table); i++)
        if (strcmp(table[i].key, key) == 0)
            table[i].follow(&change);
}
