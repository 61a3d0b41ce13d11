/* colour_words.h - the colours a template is cut in, in words. */
#ifndef PAPER_COLOUR_WORDS_H
#define PAPER_COLOUR_WORDS_H

#include "gorewright/paper.h"

enum { COLOUR_WORDS_MOST = 2048 };

/* The colours of a template and how many of each: "white" when there is one colour in the whole
 * design, "W white 8, R red 8" otherwise; on a dimension sheet in plain letters and with their
 * gores, "W white 8 (gores 1 3 5)".
 * Returns: `into`; what does not fit (no design that can be written is so long) ends in "...". */
char *colour_words(const struct design *design, const struct envelope *envelope,
                   const struct piece *piece, bool on_sheet, char into[COLOUR_WORDS_MOST]);

/* All cloths of the design: "white", or "W white, R red". */
char *cloth_words(const struct design *design, bool on_sheet, char into[COLOUR_WORDS_MOST]);

#endif
