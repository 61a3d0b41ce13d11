/* shop.h - at the bench: what is marked, cut and sewn.
 *
 * The bench record is a plain text file beside the design, PATH.bench, one line for each
 * tick as it was made; see gorewright-bench(5).  A single piece is one template in one gore:
 * "F03 gore 7".  What was ticked stays in the record when the design changes under it.
 */
#ifndef GOREWRIGHT_SHOP_H
#define GOREWRIGHT_SHOP_H

#include "gorewright/geometry.h"

/* Each implies those before it, so that how far a piece is ("progress") is a count of ticks:
 * 0 nothing, 1 marked, 2 cut, TICK_COUNT sewn. */
enum tick { TICK_MARKED, TICK_CUT, TICK_SEWN, TICK_COUNT };

const char *tick_name(enum tick tick); /* "marked", "cut", "sewn" */

/* ---- the record ---------------------------------------------------------- */

struct record;

/* Open the record kept beside the design file `design_path` (a link is followed first), and
 * hold it against other instances until it is closed.  A record that is not there yet is
 * begun with the first tick.
 * An unfinished last line is cut off; a line that is not understood is kept and warned
 * of; a record of another design name is used, and warned of.  A record that another
 * instance holds, or that may not be written, can be read only: warned of.
 * Returns: the record, to be closed, or NULL with an error in `messages`: not a plain file,
 * larger than RECORD_BYTES_MOST, a link that leads nowhere, of a newer format, not a bench
 * record at all.  Such a file is left as it is. */
enum { RECORD_BYTES_MOST = 4 << 20 };
struct record *record_open(const char *design_path, const struct design *design,
                           struct diagnostics *messages);

/* The same to look at only, for an instance that reads the design only: not held, and nothing
 * can be ticked. */
struct record *record_look(const char *design_path, const struct design *design,
                           struct diagnostics *messages);
void record_close(struct record *record);

const char *record_path(const struct record *record);

/* Why nothing can be ticked here, in a short sentence, or NULL when ticks can be made. */
const char *record_reads_only(const struct record *record);

/* Tick a single piece (`on`), or take a tick back.  Ticking cut also ticks marked, ticking
 * sewn both; taking marked back takes all back, taking cut back takes sewn back too.  When
 * a piece is cut (or sewn at once) its dimensions are noted with it.
 * Given: piece of `envelope`, gore 1 .. gores.  Returns: true when the line is on the disk
 * (nothing is written when nothing changes); false with one error, and the record as it was. */
bool record_set(struct record *record, const struct piece *piece, size_t gore, enum tick tick,
                bool on, struct diagnostics *messages);

/* All that a record knows of a single piece. */
struct piece_state {
    int progress;
    unsigned cut_to; /* the dimensions it was last cut to: their number in this record; 0 none */
};
struct piece_state record_state(const struct record *record, const char *piece, size_t gore);

/* Put a piece back to what it was, as an undo does, with the dimensions it was cut to then.
 * Given: `before`, from record_state of this record while it has been open.
 * Returns as record_set. */
bool record_restore(struct record *record, const char *piece, size_t gore,
                    struct piece_state before, struct diagnostics *messages);

/* The design is saved under another name from now on: a record that was made for it follows,
 * one made for another design is left as it is.  Returns as record_set. */
bool record_rename(struct record *record, const struct design *design,
                   struct diagnostics *messages);

/* Copy the record kept beside the design file `from` to stand beside `to`, unless one is
 * there already, which is left as it is.  COPY_FAILED: one error says why. */
enum record_copying { COPY_NOTHING, COPY_MADE, COPY_OTHER_THERE, COPY_FAILED };
enum record_copying record_copy(const char *from, const char *to, struct diagnostics *messages);

int record_progress(const struct record *record, const char *piece, size_t gore);
bool record_has(const struct record *record, const char *piece, size_t gore, enum tick tick);

/* ---- counts ---------------------------------------------------------------- */

/* Which single pieces to count: those of a template, a gore, a colour; NULL or 0: any. */
struct record_choice {
    const char *piece;
    size_t gore; /* from 1 */
    const char *colour;
};

struct record_count {
    size_t pieces;
    size_t done[TICK_COUNT];
};

/* Count single pieces of the present envelope.  A NULL record has no ticks. */
struct record_count record_count(const struct record *record, const struct design *design,
                                 const struct envelope *envelope, struct record_choice choice);

/* How many of those counted still want a tick. */
size_t record_left(struct record_count count, enum tick tick);

/* Colour of a single piece. */
const char *piece_colour(const struct design *design, const struct piece *piece, size_t gore);

struct single_piece {
    size_t piece; /* index of its template in the envelope */
    size_t gore;  /* from 1 */
};

/* The single piece after (direction 1) or before (-1) `from`, around the end to the
 * beginning: template by template and gore by gore in each, as pieces are marked and cut. */
struct single_piece single_piece_step(const struct envelope *envelope, struct single_piece from,
                                      int direction);

/* The first single piece from `from` on, itself included, that still wants a tick.  To mark
 * and to cut, template by template; to sew, gore by gore from the mouth up.
 * Returns: false when none is left. */
bool record_next(const struct record *record, const struct envelope *envelope, enum tick tick,
                 struct single_piece from, struct single_piece *next);

/* ---- a design changed after cutting began --------------------------------- */

/* What is noted of a piece when it is cut. */
enum measure {
    MEASURE_LENGTH,                                  /* of each edge of the sew line */
    MEASURE_ALLOWANCE = MEASURE_LENGTH + EDGE_COUNT, /* along each edge */
    MEASURE_RISING = MEASURE_ALLOWANCE + EDGE_COUNT, /* diagonal A-C */
    MEASURE_FALLING,                                 /* diagonal B-D */
    MEASURE_BOTTOM_DEPTH,                            /* of its curve, in the middle */
    MEASURE_TOP_DEPTH,
    MEASURE_COUNT,
    MEASURE_NONE = MEASURE_COUNT /* the design has no such piece any more */
};

/* "bottom", "top allowance", "diagonal A-C", "curve of the top", ...; "piece" for none. */
const char *measure_name(enum measure measure);

struct misfit {
    char piece[8];
    size_t gore;
    enum measure measure;
    double was_m, is_m; /* 0 when the design has no such piece any more */
};

struct misfits {
    struct misfit *item; /* owned; by piece and gore */
    size_t count, capacity;
    size_t pieces; /* single pieces that no longer fit */
    bool failed;   /* out of memory: the list is not whole */
};

/* Every cut piece that differs by more than `allowed_m` from what the present design asks
 * for, one entry for each measure.  Notes are kept to 0.0001 mm.
 * Given: misfits, zeroed; to be freed. */
void record_misfits(const struct record *record, const struct envelope *envelope, double allowed_m,
                    struct misfits *misfits);
void misfits_free(struct misfits *misfits);

#endif
