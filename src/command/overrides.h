/* overrides.h - values that the command line sets for one run. */
#ifndef COMMAND_OVERRIDES_H
#define COMMAND_OVERRIDES_H

#include "gorewright/design.h"
#include "command/arguments.h"

/* Read the values of the options of a request into its overrides, held to the ranges of the
 * parameter table.  Returns: 0, or -1 with `complaint` naming the option. */
int overrides_read(struct request *request, struct text *complaint);

/* Set in `design` what the options say. */
void overrides_apply(const struct request *request, struct design *design);

/* Let each message about what an option set or asked for name the option, not the file. */
void overrides_locate(const struct request *request, struct diagnostics *messages);

#endif
