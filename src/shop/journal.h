/* journal.h - a file that only grows, a line at a time, each line on the disk when it counts. */
#ifndef SHOP_JOURNAL_H
#define SHOP_JOURNAL_H

#include <sys/types.h>

#include "gorewright/base.h"

struct journal {
    char *path;             /* owned */
    int fd;                 /* -1: no such file yet */
    off_t size;             /* of the whole lines in it */
    size_t most;            /* bytes it may have */
    const char *reads_only; /* why nothing can be added; NULL when it can */
};

/* Find and open the journal beside a file, and hold it against other instances.
 * Given: journal, zeroed, or with `reads_only` alone, then it is not held; the file beside which it
 * stands, and its ending; most, the bytes it may have.  Returns: 0, with its bytes in `content`
 * (none when it is not there yet), or -1 with an error.  When it can only be read, `reads_only`
 * says why.  To be closed in any case. */
int journal_open(struct journal *journal, const char *beside, const char *ending, size_t most,
                 struct text *content, struct diagnostics *messages);
void journal_close(struct journal *journal);

/* Leave off what stands after the first `size` bytes. */
void journal_keep(struct journal *journal, size_t size);

/* Make the file if it is not there yet.  Returns: 0, or -1 with an error. */
int journal_create(struct journal *journal, struct diagnostics *messages);

/* Add whole lines.  Returns: true when they are on the disk; false with an error, and the
 * file as it was. */
bool journal_add(struct journal *journal, const struct text *lines, struct diagnostics *messages);

#endif
