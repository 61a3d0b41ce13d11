/* nofit.h - where one shape may not stand beside another.
 *
 * The positions of shape B, relative to shape A, at which the two overlap or come closer than
 * the gap are a region of the plane: its "no-fit" region.  It is kept as convex parts, one for
 * each pair of convex parts of A and B.  On its border the two shapes touch, a gap apart.
 */
#ifndef SHOP_NOFIT_H
#define SHOP_NOFIT_H

#include "gorewright/layout.h"
#include "shop/polygon.h"

/* An outline at one of its turns. */
struct shape {
    size_t outline; /* index in the task */
    enum turn turn;
    struct flat_point least, most; /* box of the true outline */
    double area_m2;                /* of the true outline */
    struct convex_parts parts;     /* of the loosened outline */
};

/* Axes along which a line may run; a point's x and y are its [ALONG] and [ACROSS]. */
enum axis { ALONG, ACROSS };

/* On a line that runs parallel to an axis, at `c` on the other axis, a convex part begins at
 * the largest of a + b c over its near edges and ends at the smallest over its far edges. */
struct chain {
    size_t count;
    const double *a, *b;
};

/* A convex part of a no-fit region: all q with normal . q < reach for each edge. */
struct nofit_part {
    double least[2], most[2]; /* its box */
    size_t edges;
    const double *normal_x, *normal_y, *reach;
    struct chain near[2], far[2]; /* by axis */
};

struct nofit {
    double least[2], most[2];
    struct nofit_part *part;
    size_t parts;
    void *memory; /* owned: part and all its arrays */
};

/* Given: two shapes; gap [m].  Returns 0, or -1 without memory. */
int nofit_make(const struct shape *a, const struct shape *b, double gap_m, struct nofit *nofit);
void nofit_free(struct nofit *nofit);

/* How deep a point is inside a part: the way to its nearest border [m]; <= 0 outside. */
static inline double nofit_depth(const struct nofit_part *part, double x, double y) {
    double depth = part->reach[0] - part->normal_x[0] * x - part->normal_y[0] * y;
    for (size_t e = 1; e < part->edges && depth > 0; e++) {
        double this = part->reach[e] - part->normal_x[e] * x - part->normal_y[e] * y;
        depth = this < depth ? this : depth;
    }
    return depth;
}

#endif
