/* drawing.h - drawings to scale made of characters: the cells they stand in, the envelope from
 * the side, and one flat piece.  What the sheets print, the screens show.
 *
 * A canvas is a grid of character cells that belongs to the caller, of any
 * size, 1 x 1 included.  Positions on it are in cells: column to the right, row
 * downwards, (0, 0) the upper left corner of the upper left cell.  A cell is
 * taken to be twice as tall as it is wide.  Everything drawn is clipped.
 */
#ifndef GOREWRIGHT_DRAWING_H
#define GOREWRIGHT_DRAWING_H

#include "gorewright/geometry.h"

/* What a cell means; a screen chooses how each kind looks.  Lines are SOLID, DOTTED or LIT, the
 * rest is words. */
enum cell_kind {
    CELL_BLANK,
    CELL_SOLID,
    CELL_DOTTED,
    CELL_TEXT,
    CELL_TITLE,
    CELL_LABEL,
    CELL_VALUE,
    CELL_CHANGED,
    CELL_CURSOR,
    CELL_HELP,
    CELL_KEY,
    CELL_WARNING,
    CELL_ERROR,
    CELL_LIT,       /* what the eye is led to: an edge and its length */
    CELL_DIMENSION, /* a length on a drawing */
    CELL_KIND_COUNT
};

struct cell {
    char glyph;         /* printable ASCII */
    unsigned char kind; /* enum cell_kind: what a screen may give a colour */
};

struct canvas {
    size_t columns, rows;
    struct cell *cell; /* columns * rows of them, row by row; the caller's */
};

/* Blank every cell. */
void canvas_clear(struct canvas *canvas);

/* The cell at a place, a blank one outside the canvas. */
struct cell canvas_cell(const struct canvas *canvas, long column, long row);

/* Copy a drawing to a place on the canvas, whole; what falls off the canvas is left out. */
void canvas_paste(const struct canvas *drawing, struct canvas *canvas, long column, long row);

/* ---- scale --------------------------------------------------------------- */

struct canvas_box { /* part of a canvas, in cells */
    double column, row, columns, rows;
};

/* How flat points, x to the right and y up, fall on the canvas. */
struct canvas_view {
    double column, row;               /* where the point (x_m, y_m) falls */
    double x_m, y_m;                  /* lower left of what is shown */
    double column_m;                  /* width shown by one cell */
    double row_m;                     /* height shown by one cell; 2 column_m in true proportion */
    double shown_columns, shown_rows; /* what is shown takes this much of the canvas */
};

/* The largest view of the box least .. most inside `box`, centred across it and
 * standing at its top, in true proportion.  When that would be narrower than
 * `least_columns` or lower than `least_rows` it is stretched that way only;
 * canvas_stretch tells. */
struct canvas_view canvas_fit(struct canvas_box box, struct flat_point least,
                              struct flat_point most, double least_columns, double least_rows);

/* How much taller than true the view shows things: 1 in true proportion, above
 * 1 taller, below 1 wider. */
double canvas_stretch(const struct canvas_view *view);

struct canvas_place {
    double column, row;
};
struct canvas_place canvas_place(const struct canvas_view *view, struct flat_point point);

/* ---- lines ----------------------------------------------------------------- */

/* A straight line from place to place; `kind` CELL_SOLID, CELL_DOTTED or CELL_LIT.
 * A solid line covers a dotted one, a lit line both, and no line covers text. */
void canvas_line(struct canvas *canvas, struct canvas_place from, struct canvas_place to,
                 enum cell_kind kind);

/* The row of cells in which a level solid line at `row` is drawn. */
long canvas_level_row(double row);

void canvas_polyline(struct canvas *canvas, const struct canvas_place *place, size_t count,
                     bool closed, enum cell_kind kind);

/* One character at a place, as a part of a solid or lit line. */
void canvas_point(struct canvas *canvas, struct canvas_place place, char glyph,
                  enum cell_kind kind);

/* ---- text ------------------------------------------------------------------ */

enum canvas_room {
    ROOM_BLANK,     /* only where nothing stands yet */
    ROOM_OVER_LINES /* lines may be covered, lit ones and words never */
};

/* Write `string`, of one line or several, with its first character at (column,
 * row), if all of it lies on the canvas, finds room, and leaves a blank cell
 * before and after it on each row.  Returns: whether it was written. */
bool canvas_text_as(struct canvas *canvas, enum cell_kind kind, long column, long row,
                    const char *string, enum canvas_room room);
bool canvas_text(struct canvas *canvas, long column, long row, const char *string,
                 enum canvas_room room); /* as CELL_TEXT */

/* Write `string` on one row from (column, row) on, over whatever stands there; what falls
 * outside the canvas is left out, and what is not printable ASCII shows as '?'.
 * Returns: the column after its last character. */
long canvas_put(struct canvas *canvas, long column, long row, enum cell_kind kind,
                const char *string);

/* Where canvas_label would write.  Returns: whether there is a free place. */
bool canvas_room_near(const struct canvas *canvas, struct canvas_place wanted, const char *string,
                      double farthest, enum canvas_room room, long *at_column, long *at_row);

/* Write `string` centred at the free place nearest to `wanted`, at most
 * `farthest` cells away (a row counts as two).  Returns: whether there was one. */
bool canvas_label_as(struct canvas *canvas, enum cell_kind kind, struct canvas_place wanted,
                     const char *string, double farthest, enum canvas_room room);
bool canvas_label(struct canvas *canvas, struct canvas_place wanted, const char *string,
                  double farthest, enum canvas_room room); /* as CELL_TEXT */

/* ---- canvas to text --------------------------------------------------------- */

/* Every row as a line, blanks at its end left off. */
void canvas_write(const struct canvas *canvas, struct text *into);

/* ---- the envelope ----------------------------------------------------------- */

enum { SIDE_VIEW_COLUMNS_LEAST = 30, SIDE_VIEW_ROWS_LEAST = 10 };

/* Draw the envelope to scale: outline as sewn, tapes and row seams; and on it its dimensions
 * (height, greatest diameter, mouth and crown), the numbers of the rows, and the letters of
 * the styles where they are mixed.  The drawing fills `box` as well as true proportion allows;
 * in a smaller box than the least named above it stands alone.
 * Given: canvas, blank there.  Lines and words stay within `box`, but for words that would find
 * no room in it otherwise. */
void draw_side_view(const struct design *design, const struct envelope *envelope,
                    struct canvas *canvas, struct canvas_box box);

/* ---- one flat piece --------------------------------------------------------- */

/* What is drawn: a piece of this envelope, its lengths as this design prints them. */
struct sheet {
    const struct design *design;
    const struct envelope *envelope;
    const struct piece *piece;
};

enum { PIECE_CUT_COLUMNS = 3, PIECE_CUT_ROWS = 2 }; /* room for a cut line moved out to be seen */

enum { PIECE_LIT_RISING = EDGE_COUNT, PIECE_LIT_FALLING }; /* diagonals, beside enum edge */

struct piece_look {
    bool marks;      /* a tick for each match mark */
    bool allowances; /* say the allowance of each edge */
    int lit;         /* an enum edge, or one of PIECE_LIT_...: drawn CELL_LIT; -1: nothing */
    enum cell_kind words, lengths;
};

/* The largest piece of `sheet` in true proportion that leaves room around it for the cut line
 * and `side_columns` more on either side, inside `box`; stretched to a least size as
 * canvas_fit does.  Given: all sizes in cells; the least ones above 0. */
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
