/* field.h - one line being typed. */
#ifndef SCREEN_FIELD_H
#define SCREEN_FIELD_H

#include <stdbool.h>
#include <stddef.h>

enum { FIELD_MOST = 10240 }; /* the longest list, written out: a table of 200 stations */

struct field {
    char bytes[FIELD_MOST]; /* UTF-8, NUL-ended */
    size_t length, cursor;  /* in bytes; the cursor stands at the beginning of a letter */
    bool fresh;             /* as it was begun: the next letter takes the place of all of it */
};

/* Begin with a text, the cursor behind it. */
void field_begin(struct field *field, const char *text);

/* The same, with the text to be typed over: the first letter takes its place, a key that moves
 * the cursor or takes out a letter keeps the rest, and so does a blank, which is not put in. */
void field_begin_over(struct field *field, const char *text);

/* A key at the field.  Returns: false when it is none that edits. */
bool field_key(struct field *field, int key);

/* Letters, not bytes, before byte `at`. */
size_t field_letters(const struct field *field, size_t at);

#endif
