/* build.h - an envelope with any number of rows, to try what would fit. */
#ifndef GEOMETRY_BUILD_H
#define GEOMETRY_BUILD_H

#include "gorewright/geometry.h"

/* envelope_build with `rows` rows, whether or not the pieces fit the cloth. */
struct envelope *build_rows(const struct design *design, size_t rows, struct diagnostics *messages);

#endif
