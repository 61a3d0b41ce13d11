/* plain.h - the builder's words on plain paper. */
#ifndef PAPER_PLAIN_H
#define PAPER_PLAIN_H

#include "gorewright/paper.h"

/* Add `words` as lines of at most 79 columns, each indented by `indent`, broken
 * at blanks; the first line starts after `column` columns already written. */
void flow_text(struct text *into, const char *words, size_t column, size_t indent);

#endif
