/* bench.h - the bench: one dimension at a time in big digits, and what is left to do.
 *
 * A model, actions on it, and a drawing: no terminal, no keys.  The caller maps keys to
 * actions and shows the canvas.
 */
#ifndef SCREEN_BENCH_H
#define SCREEN_BENCH_H

#include "gorewright/drawing.h"
#include "gorewright/paper.h"
#include "gorewright/shop.h"

enum bench_view {
    BENCH_MEASURE,  /* one dimension of one piece */
    BENCH_OVERVIEW, /* rows by gores: how far each piece is */
    BENCH_MISFITS   /* cut pieces that the design no longer fits */
};

enum bench_action {
    BENCH_NEXT,  /* dimension; after the last, the next piece not yet marked */
    BENCH_BACK,  /* dimension; before the first, the last one of the same piece */
    BENCH_FIRST, /* dimension of the piece, and its last */
    BENCH_LAST,
    BENCH_OPEN,        /* in the overview and the list: the dimensions of the piece there */
    BENCH_TICK_MARKED, /* put it, or take it back where it stands */
    BENCH_TICK_CUT,
    BENCH_TICK_SEWN,
    BENCH_UNDO,       /* the last tick made here */
    BENCH_NEXT_PIECE, /* next template, same gore where it has one */
    BENCH_PREVIOUS_PIECE,
    BENCH_NEXT_GORE, /* same template, next gore that has it */
    BENCH_PREVIOUS_GORE,
    BENCH_NEXT_TO_DO,    /* next piece that wants the tick made last */
    BENCH_SHOW_OVERVIEW, /* and back */
    BENCH_SHOW_MISFITS,  /* and back */
    BENCH_SHOW_DIMENSIONS,
    BENCH_ACTION_COUNT
};
/* In the overview the mark moves over the grid: next and back along its row, first and last to the
 * ends of it, next and previous piece down and up, next and previous gore as elsewhere.  In the
 * list of misfits next and back and the two for pieces go line by line, the two for gores page
 * by page, first and last to its ends. */

struct bench_undo { /* one tick to take back */
    char piece[8];
    size_t gore;
    struct piece_state before;
};

struct bench {
    const struct design *design;
    const struct envelope *envelope;
    struct record *record; /* the caller's; NULL while the design has no file */
    enum bench_view view;
    struct single_piece at;
    char piece[8];           /* its name, which outlives an envelope */
    size_t step;             /* of `marking`; marking.count: all shown, time to tick */
    struct marking marking;  /* the dimensions of the present piece */
    enum tick tick;          /* the tick made last: what "next to do" looks for */
    struct misfits misfits;  /* owned */
    size_t at_misfit;        /* the line that is chosen */
    struct bench_undo *undo; /* owned */
    size_t undos, undo_capacity;
    char notice[256]; /* what the last action did or could not do; "" */
    bool notice_is_error;
};

/* Begin at the first piece not yet marked.
 * Given: an envelope with at least one piece; record may be NULL.  All three stay the
 * caller's and outlive the bench, or are replaced through bench_change. */
void bench_begin(struct bench *bench, const struct design *design, const struct envelope *envelope,
                 struct record *record);
void bench_end(struct bench *bench);

/* The design, its envelope or its record is another one (the old ones may be gone): stay at
 * the same piece where there still is one, and find out anew which cut pieces no longer fit.
 * Ticks made in another record can no longer be undone. */
void bench_change(struct bench *bench, const struct design *design, const struct envelope *envelope,
                  struct record *record);

/* Returns: whether anything was done; the notice says what, or why not. */
bool bench_act(struct bench *bench, enum bench_action action);

/* Go to a typed piece: "B05", "b5 7", "H03L gore 12", "7" (the same template in gore 7), and
 * behind the gore the number of a dimension: "F03 7 5".  In the overview the mark goes there,
 * but a dimension is shown.  Returns: false, with what is allowed as the notice. */
bool bench_jump(struct bench *bench, const char *typed);

/* The whole canvas, of any size from 1 x 1; useful from 80 x 20. */
void bench_draw(const struct bench *bench, struct canvas *canvas);

/* The same in a part of a canvas, whole cells; the rest is left as it is. */
void bench_draw_in(const struct bench *bench, struct canvas *canvas, struct canvas_box box);

#endif
