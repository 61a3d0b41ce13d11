/* scan.h - a first look at a design file: is it well formed, and what does it state? */
#ifndef DESIGN_SCAN_H
#define DESIGN_SCAN_H

#include "gorewright/base.h"

enum {
    STATEMENTS_MOST = 500, /* settings and groups in one file; a design has under a hundred */
    NESTING_MOST = 8       /* brackets within brackets; a design needs three */
};

/* One setting or group. */
struct statement {
    const char *name; /* in the text, not NUL-ended */
    size_t length;
    int parent; /* index of the group it stands in, -1 at the top */
    int line;
    bool too_large; /* a whole number in it does not fit an int: libconfig would wrap it */
};

struct scan {
    struct statement statement[STATEMENTS_MOST];
    size_t count;
};

/* Look through the text.
 * Given: text, which must live as long as the scan; its name, for messages.
 * Returns: 0 when libconfig can read it, -1 with errors: a fault of form (the first one), or
 * every name stated twice. */
int scan_text(const char *text, size_t length, const char *file, struct scan *scan,
              struct diagnostics *messages);

/* Index of the setting `name` in the group with index `parent` (-1: the top), or -1. */
int scan_find(const struct scan *scan, int parent, const char *name, size_t length);

#endif
