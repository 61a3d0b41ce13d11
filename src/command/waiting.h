/* waiting.h - a line on the terminal for whoever waits, and nothing anywhere else. */
#ifndef COMMAND_WAITING_H
#define COMMAND_WAITING_H

#include "gorewright/paper.h"

/* One piece of long work. */
struct waiting {
    bool seen;    /* standard error is a terminal */
    size_t width; /* of the line that stands there */
    double shown; /* the share that it says */
};

/* Given: waiting, to be kept as long as the progress is used.  Returns: what to hand to the
 * work.  A line such as "sheet 120 of 812" is written over itself and gone at the end; short
 * work brings none. */
struct progress show_progress(struct waiting *waiting);

/* The same for a layout: a `carry_on` that takes the waiting as its context, and never ends the
 * search.  A line such as "layout 40 %: 12.45 m so far"; at the end show_layout_end wipes it. */
bool show_layout_progress(void *context, const struct layout_progress *progress);
void show_layout_end(struct waiting *waiting);

#endif
