/* side_view.h - the envelope seen from the side, in characters. */
#ifndef PAPER_SIDE_VIEW_H
#define PAPER_SIDE_VIEW_H

#include "paper/canvas.h"

/* Draw the envelope to scale, its tapes and row seams, with its dimensions beside it:
 * height, greatest diameter, mouth and crown.  The drawing fills `box` as well as true
 * proportion allows; in a box under about 30 x 10 cells the dimensions are left out.
 * Given: canvas, blank there. */
void draw_side_view(const struct design *design, const struct envelope *envelope,
                    struct canvas *canvas, struct canvas_box box);

#endif
