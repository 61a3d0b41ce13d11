/* pieces.h - every distinct piece of an envelope. */
#ifndef GEOMETRY_PIECES_H
#define GEOMETRY_PIECES_H

#include "geometry/stations.h"

/* Make envelope->piece from a skeleton: by style, row, side; laid flat, with cut line,
 * marks and measures.
 * Returns: false out of memory; what was made is freed with the envelope. */
bool make_pieces(const struct design *design, const struct skeleton *skeleton,
                 struct envelope *envelope);

#endif
