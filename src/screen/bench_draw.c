/* bench_draw.c - the bench on a canvas, and what no longer fits. */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "screen/bench_parts.h"

/* ---- panes ------------------------------------------------------------------------- */

long pane_put(struct canvas *canvas, struct pane pane, long column, long row, enum cell_kind kind,
              const char *format, ...) {
    char words[256];
    va_list list;
    va_start(list, format);
    vsnprintf(words, sizeof words, format, list);
    va_end(list);
    if (row < 0 || row >= pane.rows || column >= pane.columns)
        return column;
    if ((long)strlen(words) > pane.columns - column)
        words[pane.columns - column] = '\0';
    return canvas_put(canvas, pane.column + column, pane.row + row, kind, words) - pane.column;
}

long pane_flow(struct canvas *canvas, struct pane pane, long column, enum cell_kind kind,
               const char *words) {
    long row = 0;
    bool begins = column == 0;
    for (const char *word = words + strspn(words, " "); *word != '\0' && row < pane.rows;) {
        long length = (long)strcspn(word, " ");
        if (!begins && column + 1 + length > pane.columns) {
            row++;
            column = 0;
            begins = true;
            continue;
        }
        column = pane_put(canvas, pane, column + !begins, row, kind, "%.*s", (int)length, word);
        begins = false;
        word += length;
        word += strspn(word, " ");
    }
    return row < pane.rows ? row + 1 : pane.rows;
}

/* ---- misfits -------------------------------------------------------------------------- */

static int compare_single(const char *piece, size_t gore, const struct misfit *misfit) {
    int names = strcmp(piece, misfit->piece);
    return names != 0 ? names : gore < misfit->gore ? -1 : gore > misfit->gore;
}

const struct misfit *bench_misfit(const struct bench *bench, const char *piece, size_t gore) {
    size_t low = 0, high = bench->misfits.count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (compare_single(piece, gore, &bench->misfits.item[middle]) > 0)
            low = middle + 1;
        else
            high = middle;
    }
    const struct misfit *found = &bench->misfits.item[low];
    bool there = low < bench->misfits.count && compare_single(piece, gore, found) == 0;
    return there ? found : NULL;
}

static void misfit_line(const struct bench *bench, const struct misfit *misfit,
                        struct canvas *canvas, struct pane pane, long row) {
    const struct design *design = bench->design;
    bool inches = design->paper.units == UNITS_INCH;
    double unit_m = inches ? 0.0254 : 1e-3, differs = (misfit->is_m - misfit->was_m) / unit_m;
    char was[32], is[32];
    pane_put(canvas, pane, 1, row, CELL_VALUE, "%s gore %zu", misfit->piece, misfit->gore);
    if (misfit->measure == MEASURE_NONE) {
        pane_put(canvas, pane, 15, row, CELL_WARNING, "this design has no such piece any more");
        return;
    }
    pane_put(canvas, pane, 15, row, CELL_LABEL, "%-17s was %10s  is %10s %s",
             measure_name(misfit->measure), format_length(design, misfit->was_m, was),
             format_length(design, misfit->is_m, is), length_unit(design));
    pane_put(canvas, pane, 67, row, CELL_WARNING, inches ? "%+.3f" : "%+.2f", differs);
}

/* From the row down: the room is always filled, and what lies beyond it is counted. */
static void list_misfits(const struct bench *bench, struct canvas *canvas, struct pane pane,
                         long row) {
    size_t count = bench->misfits.count, room = (size_t)(pane.rows - row);
    bool all = count <= room;
    size_t shown = all ? count : room - 1, last = bench_last_scroll(count, room);
    size_t first = bench->first_misfit < last ? bench->first_misfit : last;
    for (size_t i = first; i < first + shown; i++)
        misfit_line(bench, &bench->misfits.item[i], canvas, pane, row++);
    if (!all)
        pane_put(canvas, pane, 1, row, CELL_HELP, "%zu more above, %zu more below", first,
                 count - first - shown);
}

/* Returns: the row of the list. */
static long misfits_heading(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    char title[80];
    struct pane words = {pane.column, pane.row + 1, pane.columns, pane.rows - 1};
    bench_misfit_words(bench, title);
    pane_put(canvas, pane, 0, 0, CELL_TITLE, "%s", title);
    return 2 + pane_flow(canvas, words, 0, CELL_HELP,
                         "Cut it anew, or undo the change of the design.  To tick a piece cut "
                         "anew, go to it and take its tick back first.");
}

void bench_draw_misfits(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    if (bench->misfits.count == 0 && bench->misfits.failed) {
        pane_put(canvas, pane, 0, 0, CELL_ERROR, "Not every cut piece could be compared.");
        return;
    }
    if (bench->misfits.count == 0) {
        pane_put(canvas, pane, 0, 0, CELL_TITLE, "Every cut piece fits this design.");
        return;
    }
    long row = misfits_heading(bench, canvas, pane);
    if (row < pane.rows)
        list_misfits(bench, canvas, pane, row);
}

/* The part of the bench above its notice. */
static struct pane above_notice(long columns, long rows) {
    return (struct pane){0, 0, columns, rows - (rows >= 3)};
}

void bench_fit(struct bench *bench, size_t columns, size_t rows) {
    struct canvas nowhere = {0};
    struct pane pane = above_notice((long)columns, (long)rows);
    long row = misfits_heading(bench, &nowhere, pane);
    bench->misfit_room = row < pane.rows ? (size_t)(pane.rows - row) : 0;
}

/* ---- the notice -------------------------------------------------------------------------- */

static void cut_before(const struct bench *bench, const struct misfit *misfit,
                       struct canvas *canvas, struct pane pane) {
    char was[32];
    pane_put(canvas, pane, 0, 0, CELL_WARNING,
             "This one was cut before the design changed: its %s was %s %s.",
             measure_name(misfit->measure), format_length(bench->design, misfit->was_m, was),
             length_unit(bench->design));
}

static void draw_notice(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    const struct misfit *misfit = bench_misfit(bench, bench->piece, bench->at.gore);
    struct single_piece next;
    if (bench->notice[0] != '\0')
        pane_put(canvas, pane, 0, 0, bench->notice_is_error ? CELL_ERROR : CELL_CHANGED, "%s",
                 bench->notice);
    else if (bench->record == NULL)
        pane_put(canvas, pane, 0, 0, CELL_HELP, "Save the design, and ticks can be kept.");
    else if (record_reads_only(bench->record) != NULL)
        pane_put(canvas, pane, 0, 0, CELL_WARNING, "Ticks can be seen but not made: %s.",
                 record_reads_only(bench->record));
    else if (bench->view != BENCH_MISFITS && misfit != NULL)
        cut_before(bench, misfit, canvas, pane);
    else if (bench_to_do(bench, TICK_MARKED, &next))
        pane_put(canvas, pane, 0, 0, CELL_HELP, "Next to mark: %s gore %zu.",
                 bench->envelope->piece[next.piece].name, next.gore);
    else
        pane_put(canvas, pane, 0, 0, CELL_HELP, "Every piece is marked.");
}

/* ---- the whole ---------------------------------------------------------------------------- */

void bench_draw(const struct bench *bench, struct canvas *canvas) {
    static void (*const draw[])(const struct bench *, struct canvas *, struct pane) = {
        [BENCH_MEASURE] = bench_draw_measure,
        [BENCH_OVERVIEW] = bench_draw_overview,
        [BENCH_MISFITS] = bench_draw_misfits,
    };
    long columns = (long)canvas->columns, rows = (long)canvas->rows;
    canvas_clear(canvas);
    draw[bench->view](bench, canvas, above_notice(columns, rows));
    if (rows >= 3)
        draw_notice(bench, canvas, (struct pane){0, rows - 1, columns, 1});
}

void bench_draw_in(const struct bench *bench, struct canvas *canvas, struct canvas_box box) {
    if (!(box.columns >= 1 && box.rows >= 1 && box.columns <= 10000 && box.rows <= 10000))
        return;
    struct canvas part = {(size_t)box.columns, (size_t)box.rows, NULL};
    part.cell = malloc(part.columns * part.rows * sizeof *part.cell);
    if (part.cell == NULL)
        return;
    bench_draw(bench, &part);
    for (size_t row = 0; row < part.rows; row++)
        for (size_t column = 0; column < part.columns; column++) {
            double c = box.column + (double)column, r = box.row + (double)row;
            if (c >= 0 && r >= 0 && c < (double)canvas->columns && r < (double)canvas->rows)
                canvas->cell[(size_t)r * canvas->columns + (size_t)c] =
                    part.cell[row * part.columns + column];
        }
    free(part.cell);
}
