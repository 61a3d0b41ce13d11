/* history.h - every change of a design, so that it can be taken back and made again. */
#ifndef SCREEN_HISTORY_H
#define SCREEN_HISTORY_H

#include "gorewright/design.h"

/* Only what a change moved is kept, so the number of changes is limited by memory alone. */
struct history;

struct history *history_new(void); /* NULL when memory is short */
void history_free(struct history *history);

/* Remember a change; those that were taken back are forgotten.  Returns: 0, or -1 when memory
 * is short, with nothing remembered or forgotten. */
int history_add(struct history *history, const struct design *before, const struct design *after);

/* Take back the last change, or make it again.
 * Given: design, as it was after, or before, that change.  Returns: false when there is none. */
bool history_back(struct history *history, struct design *design);
bool history_forth(struct history *history, struct design *design);

size_t history_backs(const struct history *history); /* changes that can be taken back */
size_t history_forths(const struct history *history);

#endif
