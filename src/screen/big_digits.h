/* big_digits.h - a figure in dots, to be read from across the room. */
#ifndef SCREEN_BIG_DIGITS_H
#define SCREEN_BIG_DIGITS_H

#include "gorewright/drawing.h"

enum { BIG_DOTS_TALL = 7 };

/* How large a dot is, and how far signs stand apart, in cells. */
struct big_size {
    long dot_columns, dot_rows, gap_columns;
};

/* The sizes from the largest down to the smallest that is any help.
 * Returns: how many. */
size_t big_sizes(const struct big_size **sizes);

/* Columns that a figure takes.  Given: digits and . / - ? blank m i n; what else there is
 * shows as '?'. */
long big_columns(const char *figure, struct big_size size);

/* Draw a figure with its upper left corner at a place; clipped. */
void big_draw(struct canvas *canvas, long column, long row, struct big_size size,
              enum cell_kind kind, const char *figure);

#endif
