/* side_view.h - the envelope seen from the side, in characters. */
#ifndef PAPER_SIDE_VIEW_H
#define PAPER_SIDE_VIEW_H

#include "paper/canvas.h"

enum { SIDE_VIEW_COLUMNS_LEAST = 30, SIDE_VIEW_ROWS_LEAST = 10 };

/* Draw the envelope to scale: outline as sewn, tapes and row seams; and on it its dimensions
 * (height, greatest diameter, mouth and crown), the numbers of the rows, and the letters of
 * the styles where they are mixed.  The drawing fills `box` as well as true proportion allows;
 * in a smaller box than the least named above it stands alone.
 * Given: canvas, blank there.  Lines and words stay within `box`, but for words that would find
 * no room in it otherwise. */
void draw_side_view(const struct design *design, const struct envelope *envelope,
                    struct canvas *canvas, struct canvas_box box);

#endif
