/* lengths.h - rounding shared by every sheet. */
#ifndef PAPER_LENGTHS_H
#define PAPER_LENGTHS_H

#include "gorewright/paper.h"

/* How far a length measured on a marked piece may be from the printed one [m]: two steps,
 * and no less than rule and chalk can keep, 1 mm or 1/16 in (common practice, no source).
 * Two steps, because a printed coordinate is off by up to half a step: an edge between two
 * such corners by up to sqrt(2) steps along it, and its own printed length by another half. */
double check_tolerance_m(const struct design *design);

/* The same as words: "1 mm", "1/16 in".  Returns: `into`. */
char *format_tolerance(const struct design *design, char into[48]);

/* The unit as it reads in a sentence: "mm" or "inches". */
const char *unit_in_words(const struct design *design);

#endif
