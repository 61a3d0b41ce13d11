/* screen.h - the workshop screens: the whole program with a terminal and a keyboard. */
#ifndef GOREWRIGHT_SCREEN_H
#define GOREWRIGHT_SCREEN_H

#include "gorewright/base.h"

struct screen_wishes {
    const char *path; /* the design to open; NULL: begin with the starter design */
    bool mono;        /* no colours */
};

/* Run the screens until the builder leaves, or a signal or a lost terminal ends them; then
 * unsaved work is kept and offered at the next start.
 * Returns: 0, or -1; `farewell` is what is to be told on standard error once the terminal is
 * given back, "" when there is nothing. */
int screen_run(const struct screen_wishes *wishes, struct text *farewell);

/* Whether standard input and output are a terminal. */
bool screen_has_terminal(void);

#endif
