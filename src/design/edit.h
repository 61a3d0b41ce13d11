/* edit.h - what the files that take typed values share. */
#ifndef DESIGN_EDIT_H
#define DESIGN_EDIT_H

#include "gorewright/design.h"

/* What was typed, for the member of a parameter in a scratch design. */
struct typing {
    struct design *design;
    const char *typed; /* no blanks before or after it */
    struct diagnostics *messages;
};

/* Takes it into the member of p, or says why not.  Returns: 0, or -1 after a message. */
typedef int taking(const struct typing *t, const struct parameter *p);

taking take_cloths, take_lines;

/* A cloth, or a line of letters, as it is typed. */
void show_cloth(const struct cloth_colour *cloth, struct text *into);

/* ---- parts of lists; each refusal returns -1 --------------------------------- */

int refuse_words(const struct typing *t, const struct parameter *p, const char *wanted);
int refuse_count(const struct typing *t, const struct parameter *p);

const char *past_blanks(const char *at);

/* Behind a comma and the blanks around it. */
const char *past_separator(const char *at);

/* ---- names in lists ---------------------------------------------------------- */

/* Add a name; between quotes, each quote in it written twice, where it holds one of `parting`,
 * begins with a quote, or has blanks at an end. */
void show_name(const char *name, const char *parting, struct text *into);

/* Length of the quoted name at `at`, its quotes included; 0 when none begins or ends there. */
size_t quoted_length(const char *at);

/* The name of an entry, without the blanks and quotes around it.
 * Returns: whether it can be a name; if not, a message says why. */
bool take_name(const struct typing *t, const struct parameter *p, const char *from, size_t length,
               char name[TEXT_MOST]);

#endif
