/* arguments.h - what the builder asked for on the command line. */
#ifndef COMMAND_ARGUMENTS_H
#define COMMAND_ARGUMENTS_H

#include "gorewright/base.h"
#include "gorewright/command.h"
#include "gorewright/design.h"

/* What the values of options mean. */
struct overrides {
    const char *paper; /* NULL: not given */
    enum units units;
    double measured_across_m, measured_up_m; /* 0: not given */
    size_t sheet;                            /* 0: all */
    bool postscript;                         /* instead of text */
    int effort;                              /* 0: not given */
};

/* The strings belong to argv, but for the one that was found. */
struct request {
    const struct command_entry *command; /* NULL: the screens, for file[0] if there is one */
    const char *value[OPTION_COUNT];     /* as given; NULL when the option was not */
    struct overrides overrides;
    const char **file; /* owned array */
    size_t files;
    char *found; /* owned: the file for the screens, whose ending may have been left out */
};

/* Read the arguments.  Given: those of main; a zeroed request.
 * Returns: 0, or -1 with `complaint` saying what is wrong.  Whether the command
 * takes these options and files, and what their values mean, is looked at unless help or the
 * version is asked for. */
int arguments_read(int argc, char *const argv[], struct request *request, struct text *complaint);

void request_free(struct request *request);

#endif
