/* figures.h - the few figures that decide, always in view. */
#ifndef SCREEN_FIGURES_H
#define SCREEN_FIGURES_H

#include "screen/layout.h"
#include "screen/walk.h"

/* Volume, cloth, mass, pieces, saved or not.  What the last change moved is marked with a star,
 * and what it was stands below. */
void draw_figures(const struct walk *walk, struct canvas *canvas, struct area_box box);

#endif
