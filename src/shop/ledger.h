/* ledger.h - what the lines of a bench record add up to. */
#ifndef SHOP_LEDGER_H
#define SHOP_LEDGER_H

#include "gorewright/shop.h"

enum { PIECE_NAME_SIZE = sizeof((struct piece *)0)->name, TALLIES_MOST = 4 * ROWS_MOST };

/* The dimensions that pieces of a name were cut to, from here on. */
struct shape {
    char piece[PIECE_NAME_SIZE];
    long long measure[MEASURE_COUNT]; /* in steps of 0.0001 mm */
};

/* All single pieces of one name, by gore - 1. */
struct tally {
    char piece[PIECE_NAME_SIZE];
    unsigned char progress[GORES_MOST];
    unsigned shape[GORES_MOST]; /* it was last cut to: its number from 1; 0 never */
    unsigned latest;            /* the latest shape of this name */
};

struct ledger {
    struct tally *tally; /* owned; by name */
    size_t tallies, tally_capacity;
    struct shape *shape; /* owned; in the order noted */
    size_t shapes, shape_capacity;
    char design[TEXT_MOST]; /* the design's name, "" when none is stated */
};

void ledger_free(struct ledger *ledger);

/* The pieces of a name, or NULL. */
const struct tally *ledger_find(const struct ledger *ledger, const char *piece);

/* Read one line, without its end.  Returns: whether it was understood. */
bool ledger_read(struct ledger *ledger, const char *line, size_t length);

/* The lines that bring a piece to a progress; none when it is there. */
void ledger_write(const struct ledger *ledger, const struct piece *piece, size_t gore, int progress,
                  struct text *into);

struct piece_state ledger_state(const struct ledger *ledger, const char *piece, size_t gore);

/* The lines that bring a piece back to what it was, the dimensions it was cut to as well. */
void ledger_restore(const struct ledger *ledger, const char *piece, size_t gore,
                    struct piece_state before, struct text *into);

struct shape shape_of(const struct piece *piece);

#endif
