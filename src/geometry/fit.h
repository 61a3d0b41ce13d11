/* fit.h - the cloth must take every piece with its allowances. */
#ifndef GEOMETRY_FIT_H
#define GEOMETRY_FIT_H

#include "gorewright/geometry.h"

/* Returns: false with an error that names the least number of rows (or gores, when the
 * warp runs up the gore) that would fit. */
bool cloth_fits(const struct design *design, const struct envelope *envelope,
                struct diagnostics *messages);

#endif
