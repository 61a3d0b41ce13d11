/* allowances.h - from the sew line to the cut line, and the marks between. */
#ifndef GEOMETRY_ALLOWANCES_H
#define GEOMETRY_ALLOWANCES_H

#include "gorewright/geometry.h"

/* Points that the cut ring of a sew ring of `count` points may need. */
size_t cut_points_most(size_t count);

/* Which join each edge of a piece is, and the cloth it takes beyond the sew line.
 * Plain: the width on both sides.  Lapped: half the lap on each.  Felled: the width
 * on the left and bottom edges, twice that on the right and top edges, which are
 * folded round their partners (common practice, no source).
 * Given: design; piece with style, side and row set; number of rows. */
void piece_joins(const struct design *design, size_t rows, struct piece *piece);

/* Offset the sew ring outwards by the allowance of each edge into piece->cut (room
 * for cut_points_most).  Corners are mitred; a spike longer than MITRE_MOST times the
 * larger allowance is cut back square to itself.  Beyond the fold of a hem the sides run
 * on as in a mirror, so that the hem lies flat when it is turned in.  An edge hollowed more sharply
 * than its allowance is cut straight from corner to corner. */
#define MITRE_MOST 2.5
void piece_cut_line(struct piece *piece);

/* Match marks: the middle and quarter points of the row edges, the middle of the side
 * edges, by length along the sew line. */
void piece_match_marks(struct piece *piece);

/* Area inside a ring [m2]. */
double ring_area_m2(const struct ring *ring);

#endif
