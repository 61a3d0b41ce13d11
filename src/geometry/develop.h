/* develop.h - a panel laid flat, triangle by triangle. */
#ifndef GEOMETRY_DEVELOP_H
#define GEOMETRY_DEVELOP_H

#include "geometry/space.h"

enum { CELLS_LEAST = 8, CELLS_MOST = 2048 }; /* across half a billowed gore */

/* How far an outline point may move when the cells are doubled [m]. */
#define DEVELOPMENT_TOLERANCE_M 7.5e-6

/* Lay the third corner of a triangle flat, to the right of the line from p to q.
 * Given: the flat p and q, as far apart as in space; the three corners in space.
 * Returns: the flat corner; all three lengths of the triangle are kept. */
struct flat_point lay_triangle(struct flat_point p, struct flat_point q, struct vector p_space,
                               struct vector q_space, struct vector corner);

/* Points in the sew ring of a piece: 4 when its edges are straight. */
size_t sew_points(enum style style, bool straight, size_t cells);

/* Lay flat the strip between two sections of one gore and fill in the sew ring: its
 * points (`ring->point`, room for sew_points) and where each edge begins.
 * The strip is cut by rulings between corresponding points, the cells split one way and
 * the other in turn, the same on both sides of the middle; every triangle keeps its three
 * lengths, and the points converge with the square of the number of cells.
 * A half-gore half is two triangles, split from the lower tape to the upper ridge corner.
 * Given: cells across half a billowed gore, ignored for straight edges; side.
 * Returns: the ring with its origin at the lower left corner, x along the bottom chord. */
void develop_panel(const struct section *low, const struct section *high, enum side side,
                   size_t cells, struct ring *ring);

/* The fewest cells, a power of two, that keep DEVELOPMENT_TOLERANCE_M between two sections. */
size_t cells_needed(const struct section *low, const struct section *high);

/* Both sections are flat, so that a billowed panel has straight edges. */
bool panel_is_flat(const struct section *low, const struct section *high);

#endif
