/* input.h - a design file, or standard input, made into an envelope. */
#ifndef COMMAND_INPUT_H
#define COMMAND_INPUT_H

#include "gorewright/flight.h"
#include "command/arguments.h"

/* One design at work.  Zero-initialise, then free. */
struct job {
    const struct request *request;
    struct design design; /* as asked for */
    struct design sized;  /* as built */
    struct design_source source;
    struct envelope *envelope; /* owned, NULL when the design has errors */
    struct diagnostics messages;
};

/* Read `path` ("-": standard input) and let the options override; no envelope is built.
 * Returns: 0, or -1 with errors among the messages. */
int job_read(struct job *job, const char *path);

/* The same, and build the envelope. */
int job_load(struct job *job, const char *path);

/* Show the messages so far, each with its place, and forget them. */
void job_report(struct job *job);

void job_free(struct job *job);

#endif
