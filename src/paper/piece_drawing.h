/* piece_drawing.h - a flat piece to scale in characters, its dimensions standing on it. */
#ifndef PAPER_PIECE_DRAWING_H
#define PAPER_PIECE_DRAWING_H

#include "paper/canvas.h"
#include "paper/sheets.h"

enum { PIECE_CUT_COLUMNS = 3, PIECE_CUT_ROWS = 2 }; /* room for a cut line moved out to be seen */

enum { PIECE_LIT_RISING = EDGE_COUNT, PIECE_LIT_FALLING }; /* beside enum edge */

struct piece_look {
    bool marks;      /* a tick for each match mark */
    bool allowances; /* say the allowance of each edge */
    int lit;         /* an enum edge, or one of PIECE_LIT_...: drawn CELL_LIT; -1: nothing */
    enum cell_kind words, lengths;
};

/* The largest piece of `sheet` in true proportion that leaves room around it for the cut line
 * and `side_columns` more on either side, inside `box`; stretched to a least size as
 * canvas_fit does. */
struct canvas_view piece_view(const struct sheet *sheet, struct canvas_box box, double side_columns,
                              double least_columns, double least_rows);

/* Draw sew line, cut line and corners, and what `look` asks for; no words.
 * Returns: false out of memory. */
bool draw_piece_lines(const struct sheet *sheet, const struct piece_look *look,
                      const struct canvas_view *view, struct canvas *canvas);

/* Write lengths, diagonals, seams, corner letters, grain: each at the free place nearest to
 * where it belongs, lengths first; what finds no room is left out.
 * Returns: whether every length and both diagonals stand. */
bool draw_piece_words(const struct sheet *sheet, const struct piece_look *look,
                      const struct canvas_view *view, struct canvas *canvas);

#endif
