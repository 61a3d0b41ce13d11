/* output.h - what was written in memory goes out, the whole of it or nothing. */
#ifndef COMMAND_OUTPUT_H
#define COMMAND_OUTPUT_H

#include "gorewright/base.h"

/* Make sure that descriptors 0, 1 and 2 are taken, so that no file is opened as
 * one of them; and let a limit on file size be an error, not a signal. */
void output_prepare(void);

/* Write to standard output and close it.  Returns: 0, or -1 with `complaint`,
 * which stays empty when only the reader at the other end has gone away. */
int output_standard(const struct text *text, struct text *complaint);

/* Write to standard error, as well as can be. */
void output_messages(const struct text *text);

/* Write "gorewright: " and the complaint to standard error. */
void output_complaint(const struct text *complaint);

/* What a file may not be written over. */
struct output_limits {
    const char *design_path; /* this file, or NULL */
    bool only_new;           /* any file at all */
};

/* Write the file `path`: beside it under another name first, then in its place.
 * A link is followed; an existing file keeps its mode.  Refused: a folder, a device,
 * whatever is a design, and what the limits say.  Leftovers of runs that were killed are
 * removed from the folder.
 * Returns: 0, or -1 with `complaint`: what failed, what is left, what to do.  An
 * interrupt takes effect after the temporary file is gone. */
int output_file(const char *path, const struct output_limits *limits, const struct text *text,
                struct text *complaint);

#endif
