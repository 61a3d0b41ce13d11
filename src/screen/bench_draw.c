/* bench_draw.c - the bench on a canvas, and what no longer fits. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "screen/bench_parts.h"
#include "screen/words.h"

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

long pane_put_short(struct canvas *canvas, struct pane pane, long column, long row,
                    enum cell_kind kind, const char *words) {
    char shown[256];
    long room = pane.columns - column;
    if (room < 1)
        return column;
    shorten(words, (size_t)room < sizeof shown ? (size_t)room : sizeof shown - 1, shown);
    return pane_put(canvas, pane, column, row, kind, "%s", shown);
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

long flow_rows(long columns, const char *words) {
    struct cell cell;
    struct canvas nowhere = {0, 0, &cell};
    return pane_flow(&nowhere, (struct pane){0, 0, columns, 100}, 0, CELL_TEXT, words);
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

/* The difference of the two figures as they are shown: "+2.0"; "< 0.5" when it does not show. */
static char *format_difference(const struct design *design, const struct misfit *misfit,
                               char into[40]) {
    char length[32];
    double differs_m =
        printed_length_m(design, misfit->is_m) - printed_length_m(design, misfit->was_m);
    bool shows = fabs(differs_m) > length_step_m(design) / 2;
    snprintf(into, 40, "%s%s",
             !shows          ? "< "
             : differs_m > 0 ? "+"
                             : "-",
             format_length(design, shows ? fabs(differs_m) : length_step_m(design), length));
    return into;
}

static void misfit_line(const struct bench *bench, size_t i, struct canvas *canvas,
                        struct pane pane, long row) {
    const struct design *design = bench->design;
    const struct misfit *misfit = &bench->misfits.item[i];
    char was[32], is[32], differs[40];
    bool here = i == bench->at_misfit;
    pane_put(canvas, pane, 0, row, here ? CELL_CURSOR : CELL_VALUE, "%s%s gore %zu",
             here ? ">" : " ", misfit->piece, misfit->gore);
    if (misfit->measure == MEASURE_NONE) {
        pane_put(canvas, pane, 15, row, CELL_WARNING, "this design has no such piece any more");
        return;
    }
    pane_put(canvas, pane, 15, row, CELL_LABEL, "%-17s was %10s  is %10s %s",
             measure_name(misfit->measure), format_length(design, misfit->was_m, was),
             format_length(design, misfit->is_m, is), length_unit(design));
    pane_put(canvas, pane, 67, row, CELL_WARNING, "%s", format_difference(design, misfit, differs));
}

/* From the row down: the chosen line in the middle, and what finds no room is counted. */
static void list_misfits(const struct bench *bench, struct canvas *canvas, struct pane pane,
                         long row) {
    size_t count = bench->misfits.count, room = (size_t)(pane.rows - row);
    bool all = count <= room;
    size_t shown = all ? count : room - 1, latest = count - shown;
    size_t first = bench->at_misfit > shown / 2 ? bench->at_misfit - shown / 2 : 0;
    first = first < latest ? first : latest;
    for (size_t i = first; i < first + shown; i++)
        misfit_line(bench, i, canvas, pane, row++);
    if (!all)
        pane_put(canvas, pane, 1, row, CELL_HELP, "%zu more above, %zu more below", first,
                 count - first - shown);
}

/* Returns: the row of the list. */
static long misfits_heading(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    char title[80];
    struct pane words = {pane.column, pane.row + 1, pane.columns, pane.rows - 1};
    bench_misfit_words(bench, title);
    pane_put(canvas, pane, 0, 0, CELL_TITLE, "%s.", title);
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

/* ---- the notice -------------------------------------------------------------------------- */

struct notice {
    enum cell_kind kind;
    char words[280];
};

static void note(struct notice *notice, enum cell_kind kind, const char *format, ...)
    FORMATTED(3, 4);

static void note(struct notice *notice, enum cell_kind kind, const char *format, ...) {
    va_list list;
    va_start(list, format);
    vsnprintf(notice->words, sizeof notice->words, format, list);
    va_end(list);
    notice->kind = kind;
}

static void cut_before(const struct bench *bench, const struct misfit *misfit,
                       struct notice *notice) {
    char was[32], is[32];
    if (misfit->measure == MEASURE_NONE)
        return;
    note(notice, CELL_WARNING,
         "This one was cut before the design changed: its %s was %s %s and is %s now.",
         measure_name(misfit->measure), format_length(bench->design, misfit->was_m, was),
         length_unit(bench->design), format_length(bench->design, misfit->is_m, is));
}

/* How many are to be marked, and which. */
static void note_to_mark(const struct bench *bench, struct notice *notice) {
    struct record_count all = record_count(bench->record, bench->design, bench->envelope,
                                           (struct record_choice){NULL, 0, NULL});
    size_t left = record_left(all, TICK_MARKED);
    bool this_one = !record_has(bench->record, bench->piece, bench->at.gore, TICK_MARKED);
    struct single_piece next;
    if (left == 0 || !bench_to_do(bench, TICK_MARKED, &next)) {
        note(notice, CELL_HELP, "Every piece is marked.");
        return;
    }
    const char *name = bench->envelope->piece[next.piece].name;
    if (this_one && left == 1)
        note(notice, CELL_HELP, "1 of %zu still to mark: this one.", all.pieces);
    else
        note(notice, CELL_HELP, "%zu of %zu still to mark: %s%s gore %zu.", left, all.pieces,
             this_one ? "this one, then " : "next ", name, next.gore);
}

static struct notice notice_of(const struct bench *bench) {
    const struct misfit *misfit = bench_misfit(bench, bench->piece, bench->at.gore);
    struct notice notice = {CELL_HELP, ""};
    if (bench->notice[0] != '\0')
        note(&notice, bench->notice_is_error ? CELL_ERROR : CELL_CHANGED, "%s", bench->notice);
    else if (bench->record == NULL)
        note(&notice, CELL_HELP, "Save the design, and ticks can be kept.");
    else if (record_reads_only(bench->record) != NULL)
        note(&notice, CELL_WARNING, "Ticks can be seen but not made: %s.",
             record_reads_only(bench->record));
    else if (bench->view != BENCH_MISFITS && misfit != NULL)
        cut_before(bench, misfit, &notice);
    else
        note_to_mark(bench, &notice);
    return notice;
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
    struct notice notice = notice_of(bench);
    long most = rows >= 20 ? 3 : rows >= 3, noticed = flow_rows(columns, notice.words);
    noticed = noticed < most ? noticed : most;
    draw[bench->view](bench, canvas, (struct pane){0, 0, columns, rows - noticed});
    pane_flow(canvas, (struct pane){0, rows - noticed, columns, noticed}, 0, notice.kind,
              notice.words);
}

void bench_draw_in(const struct bench *bench, struct canvas *canvas, struct canvas_box box) {
    if (!(box.columns >= 1 && box.rows >= 1 && box.columns <= 10000 && box.rows <= 10000))
        return;
    struct canvas part = {(size_t)box.columns, (size_t)box.rows, NULL};
    part.cell = malloc(part.columns * part.rows * sizeof *part.cell);
    if (part.cell == NULL)
        return;
    bench_draw(bench, &part);
    canvas_paste(&part, canvas, (long)box.column, (long)box.row);
    free(part.cell);
}
