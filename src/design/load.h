/* load.h - the bytes of a design file. */
#ifndef DESIGN_LOAD_H
#define DESIGN_LOAD_H

#include "gorewright/base.h"

enum { DESIGN_BYTES_MOST = 1000000 };

/* Read a whole design file.
 * Returns: 0 with `content` filled, to be freed; or -1 with an error: missing, a folder, no
 * regular file, not to be read, too long. */
int load_file(const char *path, struct text *content, struct diagnostics *messages);

/* Read an open descriptor to its end; `name` stands for it in messages.
 * Returns: as above; -1 too when memory is short. */
int load_descriptor(int file, const char *name, struct text *content, struct diagnostics *messages);

#endif
