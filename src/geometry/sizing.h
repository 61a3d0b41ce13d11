/* sizing.h - the size at which the built envelope meets its target. */
#ifndef GEOMETRY_SIZING_H
#define GEOMETRY_SIZING_H

#include "geometry/measure.h"

/* Find the size of the design with `rows` rows: solve its outline, set its stations,
 * measure what would be built, and repeat until the figure named by size.by is met
 * to 1e-11 of itself.
 * Given: *outline and *skeleton zeroed.  Returns: true with outline, skeleton and measure of
 * the solution; false with an error in `messages`. */
bool size_envelope(const struct design *design, size_t rows, struct outline *outline,
                   struct skeleton *skeleton, struct measure *measure,
                   struct diagnostics *messages);

#endif
