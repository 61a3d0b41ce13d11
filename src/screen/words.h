/* words.h - values and figures as short words, and words in a box. */
#ifndef SCREEN_WORDS_H
#define SCREEN_WORDS_H

#include "screen/layout.h"
#include "screen/walk.h"

/* Letters for a screen that shows printable ASCII: one '?' for any other letter. */
void plain_letters(const char *utf8, char *into, size_t size);

/* A text in at most `most` columns, "..." where it was cut.  Given: into, of most + 1 bytes. */
char *shorten(const char *utf8, size_t most, char *into);

/* Add the value of a parameter, numbers with at most three decimals (below 0.1: three digits that
 * count); "none" for an empty list. */
void whole_value(const struct design *design, const char *key, struct text *into);

/* The same to be typed over or changed: a list to its last digit, an empty one empty. */
void value_to_type(const struct design *design, const char *key, struct text *into);

/* whole_value in at most `most` (< 64) columns, a longer list as letters or the count of its
 * entries.
 * Returns: whether it is the whole value. */
bool show_value(const struct design *design, const char *key, size_t most, char into[64]);

/* What is allowed and what is usual: "1 to 64; usual 16"; of the printed cross, what it should
 * measure. */
void allowed_words(const struct design *design, const struct parameter *p, struct text *into);

/* "faceted    128 pieces, 95.3 m of seam" */
void cost_words(const struct design *design, const struct style_cost *cost, enum style style,
                char into[96]);

/* A sentence flowed into a box, one column in from its left; a word longer than a row is broken,
 * and what does not fit is left out.  Returns: rows used. */
long put_words(struct canvas *canvas, struct area_box box, enum cell_kind kind, const char *words);

/* The same without its first `skipped` rows; the box stands where they would.
 * Returns: rows the whole sentence takes. */
long put_words_from(struct canvas *canvas, struct area_box box, long skipped, enum cell_kind kind,
                    const char *words);

/* Rows that put_words would use in a box this wide. */
long words_rows(long columns, const char *words);

#endif
