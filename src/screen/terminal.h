/* terminal.h - the terminal itself: the only file that knows curses.
 *
 * There is one terminal, because a process has one; signals that ask for the end are noted
 * here and reported as PRESS_END_NOW.
 */
#ifndef SCREEN_TERMINAL_H
#define SCREEN_TERMINAL_H

#include "gorewright/base.h"
#include "gorewright/drawing.h"

/* Take over the terminal on standard input and output.
 * Given: mono, no colours even where there are some (NO_COLOR does the same).
 * Returns: 0, or -1 with `complaint`: no terminal, or one that cannot do this. */
int terminal_open(bool mono, struct text *complaint);

/* Give it back as it was.  Also done, as well as can be, when the program crashes. */
void terminal_close(void);

void terminal_size(size_t *columns, size_t *rows);

/* Show a canvas of the size of the terminal.  The cursor stands at a cell, or is hidden when
 * `cursor_column` is -1. */
void terminal_show(const struct canvas *canvas, long cursor_column, long cursor_row);

/* Wait for a key, asleep until there is one.  Returns: it, see keys.h. */
int terminal_wait(void);

/* The next key if one waits already; 0 when none does. */
int terminal_next(void);

/* Paint everything anew at the next show. */
void terminal_repaint(void);

/* The signal that asked for the end, or 0 when it was the terminal that went away. */
int terminal_end_signal(void);

#endif
