/* arguments.h - what the builder asked for on the command line. */
#ifndef COMMAND_ARGUMENTS_H
#define COMMAND_ARGUMENTS_H

#include "gorewright/base.h"
#include "gorewright/command.h"

/* The strings belong to argv. */
struct request {
    const struct command_entry *command; /* NULL: the screens, for file[0] if there is one */
    const char *value[OPTION_COUNT];     /* as given; NULL when the option was not */
    const char **file;                   /* owned array */
    size_t files;
};

/* Read the arguments.  Given: those of main; a zeroed request.
 * Returns: 0, or -1 with `complaint` saying what is wrong.  Whether the command
 * takes these options and files is checked unless help or the version is asked for. */
int arguments_read(int argc, char *const argv[], struct request *request, struct text *complaint);

void request_free(struct request *request);

#endif
