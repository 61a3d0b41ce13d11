/* follow.c - what one choice brings with it, so that the next drawing is not an error. */
#include <math.h>
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
        {"size.by", follow_size},      {"outline.kind", follow_outline},
        {"rows.spacing", follow_rows}, {"rows.count", follow_row_count},
        {"gores.mix", follow_mix},     {"bulge.stations", follow_stations},
    };
    struct change change = {before, envelope, after};
    if (!rows_fit(before) || !rows_fit(after))
        return;
    for (size_t i = 0; i < COUNT_OF(table); i++)
        if (strcmp(table[i].key, key) == 0)
            table[i].follow(&change);
}
