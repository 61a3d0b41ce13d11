/* support.h - what cmocka lacks: comparisons of doubles, and running the program. */
#ifndef TESTS_SUPPORT_H
#define TESTS_SUPPORT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "gorewright/geometry.h"

/* Both finite, and |got - want| <= absolute + relative * |want|; else fail and print both. */
#define assert_close(got, want, absolute, relative)                                                \
    check_close((got), (want), (absolute), (relative), #got, __FILE__, __LINE__)
void check_close(double got, double want, double absolute, double relative, const char *what,
                 const char *file, int line);

/* What a command left behind. */
struct outcome {
    int status; /* exit status; 128 + n when a signal ended it */
    char *out;  /* owned, NUL-ended */
    char *err;  /* owned, NUL-ended */
    size_t out_length;
};

/* Run `arguments` (a shell string) with the program under test as $GW.
 * A command that does not end within 120 s counts as status 124. */
struct outcome run(const char *format, ...) FORMATTED(1, 2);
/* The same in the scratch folder, with a terminal as standard output and standard error; what
 * it shows is in `out`, each line ending in "\r\n".  No quotes in `command`. */
struct outcome run_on_terminal(const char *command);
void outcome_free(struct outcome *outcome);

/* Run in a child process that may not do as root does.  Returns: its exit status; 99 when it
 * could not give up root's rights, 100 when it did not end by itself. */
int as_nobody(int (*act)(void *given), void *given);

/* A fresh empty folder for this test's files; removed when the driver ends. */
const char *scratch_folder(void);

/* Write `content` to `name` in the scratch folder; returns its path (valid until the next
 * eight calls). */
const char *scratch_file(const char *name, const char *content);

/* A small repeatable generator for property tests: the same numbers on every machine. */
struct dice {
    uint64_t state;
};
double dice_between(struct dice *dice, double least, double most);
int dice_whole(struct dice *dice, int least, int most); /* both included */

/* Draw a design at random: any outline, size, rows, styles, bulges, seams.  Most of them
 * can be built; a cloth wide enough for every piece is given. */
void random_design(struct dice *dice, struct design *design);

/* Draw designs until one can be built.  Returns: its envelope, to be freed. */
struct envelope *random_envelope(struct dice *dice, struct design *design);

/* Length of one edge of a ring along its points [m]. */
double edge_length_m(const struct ring *ring, enum edge e);

#endif
