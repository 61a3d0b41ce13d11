/* bench_parts.h - the inside of the bench. */
#ifndef SCREEN_BENCH_PARTS_H
#define SCREEN_BENCH_PARTS_H

#include "screen/bench.h"

/* The template that is shown. */
const struct piece *bench_piece(const struct bench *bench);

/* The next piece that wants a tick, after the present one; to sew, from it on. */
bool bench_to_do(const struct bench *bench, enum tick tick, struct single_piece *next);

/* The same from the present one on, itself included. */
bool bench_first_to_do(const struct bench *bench, enum tick tick, struct single_piece *first);

/* The first misfit of a single piece, or NULL when it fits or is not cut. */
const struct misfit *bench_misfit(const struct bench *bench, const char *piece, size_t gore);

/* "3 cut pieces no longer fit this design" */
void bench_misfit_words(const struct bench *bench, char into[80]);

/* How far the present piece is: "nothing ticked", "marked and cut", ... */
const char *bench_so_far(const struct bench *bench);

/* "mark", "cut", "sew" */
const char *bench_to_do_word(enum tick tick);

/* Part of a canvas, in cells. */
struct pane {
    long column, row, columns, rows;
};

/* Write on one row of a pane; what falls outside it is left out.
 * Returns: the column after its last character, counted in the pane. */
long pane_put(struct canvas *canvas, struct pane pane, long column, long row, enum cell_kind kind,
              const char *format, ...) FORMATTED(6, 7);

/* The same for words that may be longer than the room: then "..." stands at their end. */
long pane_put_short(struct canvas *canvas, struct pane pane, long column, long row,
                    enum cell_kind kind, const char *words);

/* Rows that pane_flow would use from column 0 of a pane this wide. */
long flow_rows(long columns, const char *words);

/* Write broken at blanks over the rows of a pane, from `column` of its first row on; what finds
 * no room is left out.  Returns: rows used. */
long pane_flow(struct canvas *canvas, struct pane pane, long column, enum cell_kind kind,
               const char *words);

/* One dimension; all that is left; what no longer fits. */
void bench_draw_measure(const struct bench *bench, struct canvas *canvas, struct pane pane);
void bench_draw_overview(const struct bench *bench, struct canvas *canvas, struct pane pane);
void bench_draw_misfits(const struct bench *bench, struct canvas *canvas, struct pane pane);

#endif
