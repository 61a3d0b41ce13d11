/* cutting.h - the inside of a layout of a design. */
#ifndef SHOP_CUTTING_H
#define SHOP_CUTTING_H

#include "gorewright/cutting.h"

/* What is to be cut from which cloth, nothing laid out yet: colours, strips, outlines, and the
 * fingerprint of it all.
 * Returns: 0 with warnings for strips that take no piece; or -1 with an error. */
int cutting_begin(const struct design *design, const struct envelope *envelope,
                  struct cutting *cutting, struct diagnostics *messages);

/* The strips of a colour, offcuts first; those that take none of its pieces are left out, with
 * a warning.  Given: the colour's outlines.  Returns: 0, or -1 with an error. */
int cutting_add_strips(const struct design *design, struct cutting_cloth *cloth,
                       struct diagnostics *messages);

/* The gore of the next single piece of a template in a colour, after `gore` (0: the first).
 * Returns: 0 when there is none. */
size_t cutting_next_gore(const struct design *design, const struct envelope *envelope, size_t piece,
                         size_t cloth, size_t gore);

/* Put the pieces in order along the strips, and all that follows from where they lie.
 * Given: pieces with template, gore and place. */
void cutting_arrange(struct cutting_cloth *cloth);

/* A fingerprint, and what it becomes with more bytes. */
#define FINGERPRINT_BEGIN 14695981039346656037ull
unsigned long long fingerprint_of(unsigned long long before, const void *bytes, size_t count);

#endif
