/* values.h - words about values: what the table allows, said to the builder. */
#ifndef DESIGN_VALUES_H
#define DESIGN_VALUES_H

#include "gorewright/design.h"

enum { WORDS_MOST = 160 };

/* The member of a design that a parameter stands for; its type follows from p->type. */
void *member_of(struct design *design, const struct parameter *p);
const void *value_of(const struct design *design, const struct parameter *p);

/* A number in its shortest form that reads back, without a needless ".0". */
char *plain_number(double value, char into[32]);

/* "0.001 to 15000 m3", "3 to 64"; "1" when only one number is allowed. */
char *range_words(const struct parameter *p, char into[WORDS_MOST]);

/* "\"plain\", \"lapped\" or \"felled\"". */
char *choice_words(const struct parameter *p, char into[WORDS_MOST]);

/* What to write for a parameter: "write a number, 0.001 to 15000 m3". */
char *writing_words(const struct parameter *p, char into[WORDS_MOST]);

/* How many entries a list parameter can hold. */
size_t list_room(const struct parameter *p);

/* Say that a number is out of its range.  Given: entry, from 1 in a list, 0 for a single
 * number; value, infinite or NaN when it is too large to be held at all. */
void diagnose_range(struct diagnostics *messages, const struct parameter *p, size_t entry,
                    double value);

/* Say that a word is none of the choices, and which is nearest.  `entry` as above. */
void diagnose_word(struct diagnostics *messages, const struct parameter *p, size_t entry,
                   const char *word);

/* What is wrong with a text: "" when it is printable UTF-8 with something to see. */
const char *text_fault(const char *text);

/* A builder's text made safe to show in a message: clipped, and '?' for what does not print. */
char *shown_text(const char *text, char into[48]);

#endif
