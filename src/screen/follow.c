/* follow.c - what one choice brings with it, so that the next drawing is not an error. */
#include <math.h>
#include <string.h>

#include "screen/steps.h"

struct change {
    const struct design *before;
    const struct envelope *envelope; /* of `before`; never NULL here */
    struct design *after;
};

/* A figure as somebody would write it down: four digits. */
static double rounded(double value) {
    double step = pow(10, floor(log10(value)) - 3);
    return round(value / step) * step;
}

/* The size stays as it is, whatever fixes it from now on. */
static void follow_size(const struct change *change) {
    const struct built *built = &change->envelope->built;
    struct design *after = change->after;
    switch ((enum size_by)after->size.by) {
    case SIZE_VOLUME:
        after->size.volume_m3 = rounded(built->volume_m3);
        break;
    case SIZE_HEIGHT:
        after->size.height_m = rounded(built->height_m);
        break;
    case SIZE_DIAMETER:
        after->size.diameter_m = rounded(built->max_diameter_m);
        break;
    case SIZE_GORE_LENGTH:
        after->size.gore_length_m = rounded(built->gore_length_m);
        break;
    case SIZE_CLOTH_AREA:
        after->size.cloth_area_m2 = rounded(built->sewn_area_m2);
        break;
    case SIZE_TABLE:
        break;
    }
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

void choice_follow(const char *key, const struct design *before, const struct envelope *envelope,
                   struct design *after) {
    static const struct {
        const char *key;
        void (*follow)(const struct change *change);
    } table[] = {
        {"size.by", follow_size},
        {"outline.kind", follow_outline},
        {"rows.spacing", follow_rows},
        {"rows.count", follow_row_count},
    };
    struct change change = {before, envelope, after};
    for (size_t i = 0; i < COUNT_OF(table) && envelope != NULL; i++)
        if (strcmp(table[i].key, key) == 0)
            table[i].follow(&change);
}
