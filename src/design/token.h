/* token.h - a design file cut into words, numbers and signs, as libconfig cuts it. */
#ifndef DESIGN_TOKEN_H
#define DESIGN_TOKEN_H

#include "gorewright/base.h"

enum token_kind {
    TOKEN_END,
    TOKEN_NAME,
    TOKEN_TRUTH, /* true, false */
    TOKEN_WHOLE,
    TOKEN_REAL,
    TOKEN_TEXT, /* quotes included */
    TOKEN_SIGN  /* one of = : ; , { } ( ) [ ] */
};

struct token {
    enum token_kind kind;
    const char *start; /* in the text that is being read */
    size_t length;
    int line;
};

/* Where a reading of the text stands.  Set all but `now` before the first step. */
struct token_reader {
    const char *at, *end; /* what is still to be read */
    int line;             /* of `at`, from 1 */
    const char *file;     /* its name, for messages */
    struct diagnostics *messages;
    struct token now;
};

/* Step to the next token, over blanks and comments.
 * Returns: false, with an error, when the text cannot be cut: an open comment or text, a sign
 * that has no meaning here, @include. */
bool token_step(struct token_reader *reader);

/* True when the token is this sign. */
bool token_is(const struct token *token, char sign);

/* A whole number that fits an int.  Given: a token of kind TOKEN_WHOLE. */
bool token_fits_int(const struct token *token);

/* The token as a message shows it. */
char *token_words(const struct token *token, char into[48]);

#endif
