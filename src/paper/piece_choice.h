/* piece_choice.h - the only piece that was asked for. */
#ifndef PAPER_PIECE_CHOICE_H
#define PAPER_PIECE_CHOICE_H

#include "gorewright/paper.h"

/* Say that the envelope has no piece of this name, and which it has.  Returns: -1. */
int refuse_piece(const struct envelope *envelope, const char *name, struct diagnostics *messages);

#endif
