/* preview_gore.c - one gore laid flat: its panels as they lie, each above the one before. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"
#include "screen/preview_parts.h"

/* One stack of pieces and where each lies; of half-panels there are two. */
struct stack {
    enum side side;
    struct flat_point place[ROWS_MOST];
    struct flat_point least, most;
    struct canvas_view view;
};

struct gore {
    const struct preview_job *job;
    struct canvas *canvas;
    enum style style;
    size_t rows, stacks;
    struct stack stack[2];
    size_t across, first, between, last; /* columns kept for words: lengths across, rows, between
                                            the stacks, tape sides */
    bool words;
};

static const struct piece *piece_of(const struct gore *gore, const struct stack *stack,
                                    size_t row) {
    return envelope_piece(gore->job->envelope, gore->style, stack->side, row);
}

/* ---- where it lies ------------------------------------------------------------ */

static void measure_stack(const struct gore *gore, struct stack *stack) {
    stack->least = (struct flat_point){HUGE_VAL, HUGE_VAL};
    stack->most = (struct flat_point){-HUGE_VAL, -HUGE_VAL};
    for (size_t row = 1; row <= gore->rows; row++) {
        const struct ring *sew = &piece_of(gore, stack, row)->sew;
        struct flat_point place = stack->place[row - 1];
        for (size_t i = 0; i < sew->count; i++) {
            double x = place.x_m + sew->point[i].x_m, y = place.y_m + sew->point[i].y_m;
            stack->least.x_m = fmin(stack->least.x_m, x);
            stack->least.y_m = fmin(stack->least.y_m, y);
            stack->most.x_m = fmax(stack->most.x_m, x);
            stack->most.y_m = fmax(stack->most.y_m, y);
        }
    }
}

static size_t widest_length(const struct gore *gore, enum edge e) {
    size_t widest = 0;
    for (size_t row = 1; row <= gore->rows; row++) {
        char length[32];
        format_length(gore->job->design, piece_of(gore, &gore->stack[0], row)->length_m[e], length);
        widest = strlen(length) > widest ? strlen(length) : widest;
    }
    return widest;
}

static size_t larger(size_t a, size_t b) {
    return a > b ? a : b;
}

static const char side_heading[] = "tape side", across_heading[] = "across";
static const char ridge_heading[] = "ridge", row_heading[] = "row 00";

/* Lengths across take a column of their own where there is room for it. */
static void keep_columns(struct gore *gore) {
    enum { DRAWING_COLUMNS = 10 };
    if (gore->words) {
        size_t across = larger(widest_length(gore, EDGE_BOTTOM), widest_length(gore, EDGE_TOP));
        gore->across = larger(across, strlen(across_heading)) + 2;
        gore->first = strlen(row_heading) + 1;
        gore->last = larger(widest_length(gore, EDGE_LEFT), strlen(side_heading)) + 2;
    }
    if (gore->stacks > 1)
        gore->between =
            gore->words ? larger(widest_length(gore, EDGE_RIGHT), strlen(ridge_heading)) + 3 : 2;
    if (gore->across + gore->first + gore->between + gore->last + DRAWING_COLUMNS >
        gore->canvas->columns)
        gore->across = 0;
}

/* The nearest place at which left and right come out alike: an edge or a middle of a cell. */
static double even_column(double column, double width) {
    return floor(2 * (column + width / 2) + 0.5) / 2 - width / 2;
}

/* Both stacks to one scale, side by side in the middle of the canvas. */
static void place_stacks(struct gore *gore) {
    double top = gore->words ? 1.3 : 0, foot = gore->words ? 1 : 0;
    double left = (double)(gore->across + gore->first);
    double words = left + (double)(gore->between + gore->last);
    double width_m = 0, low_m = gore->stack[0].least.y_m, high_m = gore->stack[0].most.y_m;
    for (size_t i = 0; i < gore->stacks; i++) {
        width_m += gore->stack[i].most.x_m - gore->stack[i].least.x_m;
        low_m = fmin(low_m, gore->stack[i].least.y_m);
        high_m = fmax(high_m, gore->stack[i].most.y_m);
    }
    struct canvas_box box = {left + 0.01, top, (double)gore->canvas->columns - words - 0.52,
                             (double)gore->canvas->rows - top - foot};
    box.columns = fmax(box.columns, 0.5);
    struct canvas_view view = canvas_fit(box, (struct flat_point){0, low_m},
                                         (struct flat_point){width_m, high_m}, 0.1, 0.1);
    double between = gore->stacks > 1 ? (double)gore->between : 0;
    view.column = even_column(view.column, view.shown_columns + between);
    for (size_t i = 0; i < gore->stacks; i++) {
        struct stack *stack = &gore->stack[i];
        stack->view = view;
        stack->view.x_m = stack->least.x_m;
        stack->view.shown_columns = (stack->most.x_m - stack->least.x_m) / view.column_m;
        view.column += stack->view.shown_columns + between;
    }
}

/* ---- lines -------------------------------------------------------------------- */

static struct canvas_place place_of(const struct stack *stack, size_t row,
                                    struct flat_point point) {
    struct flat_point at = stack->place[row - 1];
    return canvas_place(&stack->view, (struct flat_point){at.x_m + point.x_m, at.y_m + point.y_m});
}

static bool draw_piece(const struct gore *gore, const struct stack *stack, size_t row) {
    const struct ring *sew = &piece_of(gore, stack, row)->sew;
    struct canvas_place *place = malloc(sew->count * sizeof *place);
    if (place == NULL)
        return false;
    for (size_t i = 0; i < sew->count; i++)
        place[i] = place_of(stack, row, sew->point[i]);
    canvas_polyline(gore->canvas, place, sew->count, true,
                    row == gore->job->row ? CELL_LIT : CELL_SOLID);
    free(place);
    return true;
}

/* ---- words -------------------------------------------------------------------- */

/* Rows of cells from the foot of a panel to its top, by its tape side. */
static struct canvas_place corner(const struct gore *gore, const struct stack *stack, size_t row,
                                  enum edge e) {
    return place_of(stack, row, piece_corner(piece_of(gore, stack, row), e));
}

/* Up to `column`, its last character there. */
static void put_before(const struct gore *gore, double column, double row, const char *string) {
    canvas_text_as(gore->canvas, CELL_LABEL, (long)column - (long)strlen(string) + 1,
                   (long)floor(row), string, ROOM_BLANK);
}

static void put_length(const struct gore *gore, double column, double row, double length_m,
                       bool before) {
    char length[32];
    format_length(gore->job->design, length_m, length);
    long at = (long)floor(column) - (before ? (long)strlen(length) - 1 : 0);
    canvas_text_as(gore->canvas, CELL_DIMENSION, at, (long)floor(row), length, ROOM_BLANK);
}

/* Columns in which words beside the stacks begin or end. */
static double left_edge(const struct gore *gore) {
    return floor(gore->stack[0].view.column) - 2;
}

/* Last column of the lengths across. */
static double across_edge(const struct gore *gore) {
    return left_edge(gore) - (gore->across > 0 ? (double)gore->first : 0);
}

static double right_edge(const struct gore *gore) {
    const struct canvas_view *view = &gore->stack[gore->stacks - 1].view;
    return ceil(view->column + view->shown_columns) + 1;
}

static double ridge_edge(const struct gore *gore) {
    const struct canvas_view *view = &gore->stack[0].view;
    return ceil(view->column + view->shown_columns) + 1;
}

/* The row of a panel, its tape side and its ridge side, at the height of its middle. */
static void label_row(const struct gore *gore, size_t row) {
    const struct stack *stack = &gore->stack[0];
    const struct piece *piece = piece_of(gore, stack, row);
    double middle =
        (corner(gore, stack, row, EDGE_BOTTOM).row + corner(gore, stack, row, EDGE_LEFT).row) / 2;
    char name[32];
    snprintf(name, sizeof name, "row %zu", row);
    put_before(gore, left_edge(gore), middle, name);
    put_length(gore, right_edge(gore), middle, piece->length_m[EDGE_LEFT], false);
    if (gore->stacks > 1)
        put_length(gore, ridge_edge(gore), middle, piece->length_m[EDGE_RIGHT], false);
}

/* Lengths across, at the height of the row seams, mouth and crown. */
static void label_seams(const struct gore *gore) {
    const struct stack *stack = &gore->stack[0];
    for (size_t row = 1; row <= gore->rows; row++) {
        const struct piece *piece = piece_of(gore, stack, row);
        if (row == 1)
            put_length(gore, across_edge(gore), corner(gore, stack, row, EDGE_BOTTOM).row - 0.3,
                       piece->length_m[EDGE_BOTTOM], true);
        put_length(gore, across_edge(gore), corner(gore, stack, row, EDGE_LEFT).row - 0.3,
                   piece->length_m[EDGE_TOP], true);
    }
}

static void label_whole(const struct gore *gore) {
    char words[96], length[32];
    const struct built *built = &gore->job->envelope->built;
    long middle = (long)((left_edge(gore) + right_edge(gore)) / 2);
    snprintf(words, sizeof words, "gore length %s",
             format_length(gore->job->design, built->gore_length_m, length));
    long row = (long)gore->canvas->rows - 1;
    double foot = gore->stack[0].view.row;
    row = (long)ceil(foot) < row ? (long)ceil(foot) : row;
    canvas_label_as(gore->canvas, CELL_DIMENSION,
                    (struct canvas_place){(double)middle, (double)row + 0.5}, words, HUGE_VAL,
                    ROOM_BLANK);
    canvas_text_as(gore->canvas, CELL_LABEL, (long)right_edge(gore), 0, side_heading, ROOM_BLANK);
    if (gore->stacks > 1)
        canvas_text_as(gore->canvas, CELL_LABEL, (long)ridge_edge(gore), 0, ridge_heading,
                       ROOM_BLANK);
}

static void label_gore(const struct gore *gore) {
    double rows = gore->stack[0].view.shown_rows / (double)gore->rows;
    size_t step = (size_t)fmax(1, ceil(1 / fmax(rows, 1e-3)));
    label_whole(gore);
    for (size_t row = 1; row <= gore->rows; row++)
        if (row == 1 || row % step == 0)
            label_row(gore, row);
    if (rows < (gore->across > 0 ? 1 : 2))
        return;
    put_before(gore, across_edge(gore), 0, across_heading);
    label_seams(gore);
}

/* ---- the whole ------------------------------------------------------------------ */

bool preview_gore(const struct preview_job *job, struct canvas *canvas) {
    struct gore gore = {
        .job = job,
        .canvas = canvas,
        .style = preview_style(job),
        .words = preview_has_words(canvas),
    };
    gore.stacks = gore.style == HALF_GORE ? 2 : 1;
    gore.stack[0].side = gore.style == HALF_GORE ? SIDE_LEFT : SIDE_WHOLE;
    gore.stack[1].side = SIDE_RIGHT;
    for (size_t i = 0; i < gore.stacks; i++) {
        struct stack *stack = &gore.stack[i];
        gore.rows = gore_laid_flat(job->envelope, gore.style, stack->side, stack->place);
        measure_stack(&gore, stack);
    }
    keep_columns(&gore);
    place_stacks(&gore);
    for (size_t i = 0; i < gore.stacks; i++)
        for (size_t row = 1; row <= gore.rows; row++)
            if (!draw_piece(&gore, &gore.stack[i], row))
                return false;
    if (gore.words)
        label_gore(&gore);
    return true;
}
