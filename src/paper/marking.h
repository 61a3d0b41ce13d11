/* marking.h - the figures that a piece is marked by, as its sheet prints them. */
#ifndef PAPER_MARKING_H
#define PAPER_MARKING_H

#include "paper/sheets.h"

/* Whether two lengths print as the same figure. */
bool printed_alike(const struct sheet *sheet, double a_m, double b_m);

/* Points that a batten is bent through along one half of a curved edge, the other half being
 * alike: the corner, even steps of a rule, the middle. */
struct batten {
    enum edge edge;
    double step_m, half_m; /* along the chord */
    size_t count;          /* the middle included */
};
struct batten batten_of(const struct sheet *sheet, enum edge e);

/* A point's distance from the corner along the chord [m]. */
double batten_along_m(const struct sheet *sheet, const struct batten *batten, size_t i);

/* Its distance from the chord as printed, + away from the piece [m]. */
double batten_offset_m(const struct sheet *sheet, const struct batten *batten, size_t i);

/* Distances of the match marks on one edge along the sew line from its left or lower corner, in
 * that order [m].  Returns: how many. */
size_t mark_distances(const struct piece *piece, enum edge e, double along_m[MARKS_MOST]);

/* Whether the marks of both sides print as the same figures. */
bool sides_read_alike(const struct sheet *sheet);

#endif
