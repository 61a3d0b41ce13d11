/* lengths.h - rounding shared by every sheet. */
#ifndef PAPER_LENGTHS_H
#define PAPER_LENGTHS_H

#include "gorewright/paper.h"

/* The length that format_length prints, as a number: a whole count of steps.
 * Differences of two such lengths are whole counts too, so that printed parts
 * add up to the printed whole. */
double printed_length_m(const struct design *design, double length_m);

#endif
