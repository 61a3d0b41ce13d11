/* fill.h - a first layout: one piece after another, each where it ends soonest. */
#ifndef SHOP_FILL_H
#define SHOP_FILL_H

#include "shop/strip.h"

/* Room that fill_strip works in; one for any number of fills of the same strip. */
struct filler {
    double *frontier; /* owned: by shape and stretch, nothing fits before it */
    double *used;     /* owned: by stretch */
    double *height;   /* owned: positions across that are tried */
    size_t heights, capacity;
};
int filler_make(const struct strip *strip, struct filler *filler);
void filler_free(struct filler *filler);

/* Take up all pieces and lay them again in the given order, each on the first stretch that has
 * room for it.  Returns false when one finds none; it and those after it are then not laid. */
bool fill_strip(struct strip *strip, struct filler *filler, const size_t *order);

#endif
