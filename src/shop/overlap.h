/* overlap.h - overlaps made to vanish, so that a strip may be shortened.
 *
 * Pieces that overlap are moved, one at a time, to where their overlaps weigh least.  The weight
 * of an overlap that stays grows, until the pieces find another way around each other.
 */
#ifndef SHOP_OVERLAP_H
#define SHOP_OVERLAP_H

#include "shop/strip.h"

/* A small repeatable generator: the same numbers on every machine. */
struct random {
    uint64_t state;
};
size_t random_below(struct random *random, size_t count); /* 0 .. count - 1 */
double random_share(struct random *random);               /* 0 .. 1, 1 excluded */

/* The weight of the overlap with one other piece, where it is above 1. */
struct partner {
    uint32_t piece;
    double weight;
};

struct partners {
    struct partner *item; /* owned */
    size_t count, capacity;
};

/* Two pieces that overlap. */
struct clash {
    uint32_t one, other;
    double depth_m;
};

struct separation {
    struct strip *strip;
    struct random random;
    struct partners *partners; /* owned: by piece */
    struct clash *clash;       /* owned */
    size_t clashes, capacity;
    double overlap_m;   /* of all clashes */
    uint32_t *troubled; /* owned: pieces that clash, while they are moved */
    bool *moved;        /* owned */
    struct spot *least; /* owned: the layout with the least overlap */
    double least_overlap_m;
};

int separation_make(struct strip *strip, struct separation *separation);
void separation_free(struct separation *separation);

/* Move pieces until none overlap.  Given: the pieces as they lie; patience, how many rounds
 * may pass without less overlap; until, the strip's looks at which to give up.
 * Returns: whether none overlap.  Otherwise the strip is left at the least overlap found. */
bool separate(struct separation *separation, size_t patience, uint64_t until);

#endif
