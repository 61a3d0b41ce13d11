/* strip.h - pieces on strips of cloth, and lines run through them. */
#ifndef SHOP_STRIP_H
#define SHOP_STRIP_H

#include <stdint.h>

#include "gorewright/layout.h"
#include "shop/nofit.h"

/* ---- what is constant while a task is worked on ---------------------------------- */

/* All outlines at all their turns, and the regions between them as far as they were needed. */
struct supply {
    const struct layout_task *task;
    struct shape *shape; /* owned: by outline, then turn */
    size_t shapes;
    size_t *first;        /* owned: outlines + 1 indices into shape */
    struct nofit *nofits; /* owned: shapes * shapes, empty where not yet needed */
    double touch_m;       /* overlaps up to this are rounding */
    double depth_m;       /* overlaps much deeper than this cost by the square of their depth */
    bool out_of_memory;
};

/* Returns 0, or -1 without memory or when an outline is none (then *bad is its index). */
int supply_make(const struct layout_task *task, struct supply *supply, size_t *bad);
void supply_free(struct supply *supply);

/* The region for `b` beside `a`; NULL without memory. */
const struct nofit *supply_nofit(struct supply *supply, size_t a, size_t b);

static inline double shape_length_m(const struct shape *shape) {
    return shape->most.x_m - shape->least.x_m;
}
static inline double shape_width_m(const struct shape *shape) {
    return shape->most.y_m - shape->least.y_m;
}

/* ---- a strip ---------------------------------------------------------------------- */

/* A bolt on the strip: all bolts lie in one line, apart from each other. */
struct stretch {
    size_t bolt; /* index in the task */
    double start_m, length_m, width_m;
};

struct spot {
    double x_m, y_m;
    size_t shape;
    bool down; /* lies on the strip */
};

/* What a line meets of one part of a region. */
struct meeting {
    double least, most;
    const struct nofit_part *part;
    double x_m, y_m, weight;
};

struct mark {
    double at;
    uint32_t meeting;
};

/* Pieces, sorted into bins along the strip. */
struct bin {
    uint32_t *piece;
    size_t count, capacity;
};

struct strip {
    struct supply *supply;
    struct stretch *stretch; /* owned */
    size_t stretches;
    struct spot *spot; /* owned */
    size_t *outline;   /* owned: of each piece */
    size_t pieces;
    double *weight; /* owned: of an overlap with each piece, as the piece on the move sees it */
    uint64_t looks; /* work done: parts of regions looked at */
    /* all below belongs to strip.c */
    struct bin *bin;
    size_t bins;
    double bin_m;
    uint32_t *seen, now;
    uint32_t *near;
    struct meeting *met;
    size_t met_count, met_capacity;
    struct mark *begin, *end;
    uint32_t *active;
};

/* An empty strip. Given: the pieces' outlines; stretches in order from x = 0, the last one's
 * length being the most it may get.  Returns 0, or -1 without memory. */
int strip_make(struct supply *supply, const size_t *outline, size_t pieces,
               const struct stretch *stretch, size_t stretches, struct strip *strip);
void strip_free(struct strip *strip);

void strip_put(struct strip *strip, size_t piece, size_t shape, double x_m, double y_m);
void strip_take(struct strip *strip, size_t piece);

/* Take up all pieces and lay them as `spot` says. */
void strip_set(struct strip *strip, const struct spot *spot);

/* The stretch that holds a shape standing at x; NULL when none does. */
const struct stretch *strip_stretch_at(const struct strip *strip, const struct shape *shape,
                                       double x_m);

/* Where the last piece of a stretch ends, from the stretch's start; 0 when it is empty. */
double strip_used_m(const struct strip *strip, size_t stretch);

/* A line of positions for a shape: parallel to `axis`, at `other` on the other axis. */
struct line {
    size_t piece, shape;
    enum axis axis;
    double other, from, to;
};

/* Whether a position on the line costs less than `*cost`: the sum over all overlaps of what
 * overlap_cost says, times weight.  Positions that touch are tried, those between two of them
 * are not: there costs mostly bulge upwards.  Returns true with *at and *cost changed. */
bool line_best(struct strip *strip, const struct line *line, double *at, double *cost);

/* The first position from line->from on without any overlap.  Returns false when none is. */
bool line_first_free(struct strip *strip, const struct line *line, double *at);

/* From a free position back towards line->from as far as the way is free. */
double line_slide_back(struct strip *strip, const struct line *line, double at);

/* What the overlap of a laid piece with another costs before it is weighted. */
double overlap_cost(struct strip *strip, size_t piece, size_t other);

/* The pieces whose boxes come closer than the gap to a piece.  Returns: how many; *list is
 * valid until the next call that asks the strip anything. */
size_t strip_neighbours(struct strip *strip, size_t piece, const uint32_t **list);

/* The laid pieces, other than `piece`, that may have something of themselves between two
 * places along the strip.  Returns: how many; *list as above. */
size_t strip_between(struct strip *strip, size_t piece, double from_m, double to_m,
                     const uint32_t **list);

#endif
