/* starters.h - designs to begin from, by what they are good for. */
#ifndef SCREEN_STARTERS_H
#define SCREEN_STARTERS_H

#include "gorewright/design.h"

struct starter {
    const char *name;                    /* at most 30 letters */
    const char *words;                   /* what it is good for */
    void (*make)(struct design *design); /* changes the built-in starter */
};

/* Returns: the first of them; *count how many. */
const struct starter *starters(size_t *count);

/* The whole design of a starter. */
void starter_make(const struct starter *starter, struct design *design);

#endif
