/* tiling.h - one piece over several sheets, and several pieces on one sheet.
 *
 * A piece is laid on its sheets as it is, or turned by a quarter to the left.
 * "Laid" coordinates have their origin at the lower left corner of the box
 * around the cut line as it then lies.  Tiles are counted from the top left:
 * row 0 is a, column 0 is 01.
 */
#ifndef PAPER_TILING_H
#define PAPER_TILING_H

#include "gorewright/geometry.h"

struct rect {
    double x0_m, y0_m, x1_m, y1_m;
};

/* ---- how a piece lies -------------------------------------------------- */

/* Size of the piece's box as it lies. */
struct flat_point laid_size(const struct piece *piece, bool turned);

/* Where the origin of the piece comes to stand, in laid coordinates. */
struct flat_point laid_origin(const struct piece *piece, bool turned);

/* A rectangle in laid coordinates, seen from the piece. */
struct rect rect_on_piece(const struct piece *piece, bool turned, struct rect laid);

/* Whether a straight line from a to b passes through a rectangle. */
bool segment_meets(struct flat_point a, struct flat_point b, struct rect rect);

/* Whether a rectangle touches the inside of a closed line or the line itself. */
bool ring_touches(const struct ring *ring, struct rect rect);

/* Whether a rectangle lies wholly inside a closed line. */
bool ring_holds(const struct ring *ring, struct rect rect);

/* Whether the line itself passes through a rectangle. */
bool ring_meets(const struct ring *ring, struct rect rect);

/* ---- tiles ------------------------------------------------------------- */

/* What a sheet can show of a piece.  The height of a roll's window is the most
 * it may be; tiles then share what they need evenly. */
struct window {
    double width_m, height_m;
    double overlap_m;
    bool landscape, roll;
};

struct tiling {
    struct window window; /* each tile shows this much */
    bool turned;
    size_t columns, rows;
    double left_m, bottom_m; /* laid coordinates of the lower left tile's corner */
};

enum { TILES_MOST = 5000 };

/* Lay a piece on windows of one kind.  Returns: the tiling; its rows are 0
 * when it would take more than TILES_MOST tiles. */
struct tiling tiling_of(const struct piece *piece, struct window window, bool turned);

/* The part of the piece a tile shows, overlaps included, and the part that
 * remains once sheets are trimmed and glued, both in laid coordinates. */
struct rect tile_window(const struct tiling *tiling, size_t row, size_t column);
struct rect tile_cell(const struct tiling *tiling, size_t row, size_t column);

/* Whether any of the piece lies in the tile's cell. */
bool tile_wanted(const struct tiling *tiling, const struct piece *piece, size_t row, size_t column);

size_t tiles_wanted(const struct tiling *tiling, const struct piece *piece);

/* Of the windows, as is and turned, the tiling with the fewest sheets; on a
 * roll the shortest of those; the first of equals.  Given: at least one window. */
struct tiling tiling_choose(const struct piece *piece, const struct window *windows, size_t count);

/* "b-02": small and with a dash, since "B02" is the name of a piece; no i, l, o, which read
 * as figures.  Returns: `into`. */
char *tile_name(const struct tiling *tiling, size_t row, size_t column, char into[16]);

/* The letters beside the crosses where this tile meets the next one to the
 * right (`below` false) or the next one below. */
char *pair_letters(const struct tiling *tiling, size_t row, size_t column, bool below,
                   char into[8]);

/* ---- shelves ----------------------------------------------------------- */

/* Where a piece that fits on one sheet lies: the lower left corner of its box. */
struct placement {
    size_t piece; /* index among the pieces given */
    size_t sheet; /* from 0 */
    bool turned;
    double x_m, y_m;
};

/* Put pieces on shelves, tallest first, `gap_m` apart.
 * Given: pieces, of which those with wanted[i] are taken, each fitting the
 * window in one way at least; upright, whether a new shelf takes a piece as it
 * is when both ways fit.  Returns: the sheets used; placement[0 .. *placed - 1]
 * in order of sheet; used_m[0 .. sheets - 1], the height taken on each.
 * Both arrays have room for every piece.  (size_t)-1 when memory is short. */
size_t shelves_fill(const struct piece *piece, const bool *wanted, size_t pieces,
                    struct window window, double gap_m, bool upright, struct placement *placement,
                    size_t *placed, double *used_m);

/* Whether a piece fits the window as it is, or turned. */
bool piece_fits(const struct piece *piece, struct window window, bool turned);

#endif
