/* batch.h - pieces that share some bolts, laid out with a given effort. */
#ifndef SHOP_BATCH_H
#define SHOP_BATCH_H

#include "shop/shorten.h"

/* Bolts up to one without end, and the pieces that go on them. */
struct batch {
    struct supply *supply;
    size_t first_bolt, bolts;
    size_t *outline; /* owned by the caller: of each piece */
    size_t pieces;
    double bound_m;     /* a length of the last bolt that no layout can undercut; 0: not known */
    struct found found; /* spot is owned; positions along the strip of all its stretches */
    double *start_m;    /* owned: where each bolt begins on the strip */
};

/* Lay out a batch.  The last of its bolts is taken to be as long as is needed.
 * Returns 0; 1 when pieces that go on an earlier bolt alone find no room there; -1 without
 * memory.  In any case batch_free it. */
int batch_lay(struct batch *batch);
void batch_free(struct batch *batch);

#endif
