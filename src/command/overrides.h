/* overrides.h - values that the command line sets for one run. */
#ifndef COMMAND_OVERRIDES_H
#define COMMAND_OVERRIDES_H

#include "gorewright/design.h"
#include "command/arguments.h"

/* Set in `design` what the options say, held to the ranges of the parameter table.
 * Returns: 0, or -1 with `complaint` naming the option. */
int overrides_apply(const struct request *request, struct design *design, struct text *complaint);

/* Let each message about what an option set or asked for name the option, not the file. */
void overrides_locate(const struct request *request, struct diagnostics *messages);

/* The number given with --sheet.  Returns: 0 with *sheet (0: all), or -1. */
int sheet_wanted(const struct request *request, size_t *sheet, struct text *complaint);

#endif
