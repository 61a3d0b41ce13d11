/* shorten.h - a layout made shorter, step by step. */
#ifndef SHOP_SHORTEN_H
#define SHOP_SHORTEN_H

#include "shop/overlap.h"

/* A layout without overlaps, the best so far. */
struct found {
    struct spot *spot; /* owned by whoever made it, one for each piece */
    size_t open;       /* the last stretch that holds a piece */
    double used_m;     /* of that stretch */
};

/* Whether one is better: fewer stretches, or less of the last one. */
bool found_better(const struct found *one, const struct found *other);

/* Note where the pieces of a strip lie, if that is better.  Returns whether it was. */
bool found_keep(struct found *found, const struct strip *strip);

/* Shorten the last stretch in use, again and again, until the strip's looks reach `until` or
 * `carry_on` says to stop.  What it does up to any count of looks does not depend on `until`.
 * Given: a layout without overlaps.  It is only ever replaced by a better one. */
void found_shorten(struct separation *separation, struct found *found, uint64_t until,
                   bool (*carry_on)(void *context, double used_m, uint64_t looks), void *context);

#endif
