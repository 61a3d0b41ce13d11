/* plain.h - the builder's words on plain paper. */
#ifndef PAPER_PLAIN_H
#define PAPER_PLAIN_H

#include "gorewright/design.h"

/* A text of the design in printable ASCII: a letter with an accent becomes the
 * letter, what has no near letter a '?'; blanks at its end are left off.  Never
 * longer in bytes than `utf8`.  Returns: `into`. */
char *plain_text(const char *utf8, char into[TEXT_MOST]);

/* Add `words` as lines of at most 79 columns, each indented by `indent`, broken
 * at blanks; the first line starts after `column` columns already written. */
void flow_text(struct text *into, const char *words, size_t column, size_t indent);

#endif
