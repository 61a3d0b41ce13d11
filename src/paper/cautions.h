/* cautions.h - what can hurt, said the same on every kind of paper. */
#ifndef PAPER_CAUTIONS_H
#define PAPER_CAUTIONS_H

#include <stddef.h>

/* Returns: the first of them; *count how many. */
const char *const *cautions(size_t *count);

#endif
