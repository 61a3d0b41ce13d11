/* bench_measure.c - one dimension of one piece, to be read from across the room. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "screen/bench_parts.h"
#include "screen/big_digits.h"
#include "screen/previews.h"

_Static_assert((int)LIT_RISING == (int)MARKING_RISING && (int)LIT_FALLING == (int)MARKING_FALLING,
               "a line of a marking step is what the drawing lights");

/* Where everything stands; a pane without rows is left out. */
struct plan {
    struct pane title, ticks, heading, figure, words, list, drawing;
    struct big_size size;
};

enum {
    WORDS_LEAST = 34, /* columns in which a sentence reads well */
    LARGE_DRAWING_ROWS = 12,
    LARGE_DRAWING_COLUMNS = 30,
    DRAWING_COLUMNS_LEAST = 10,
    DRAWING_ROWS_LEAST = 4,
    LIST_ROWS_LEAST = 3,
    MARGIN = 1
};

static bool at_end(const struct bench *bench) {
    return bench->step >= bench->marking.count;
}

/* ---- the plan ------------------------------------------------------------------------ */

/* The widest figure of the piece: all of them are shown in one size, in one place. */
static long widest_columns(const struct bench *bench, struct big_size size) {
    long widest = 0;
    for (size_t i = 0; i < bench->marking.count; i++) {
        char figure[32];
        format_length(bench->design, bench->marking.step[i].value_m, figure);
        long columns = big_columns(figure, size);
        widest = columns > widest ? columns : widest;
    }
    return widest;
}

static bool leaves_large_drawing(struct big_size size, long columns, struct pane rest) {
    long below = rest.rows - BIG_DOTS_TALL * size.dot_rows - 3;
    long beside = rest.columns - columns - 2 * MARGIN;
    return below >= LARGE_DRAWING_ROWS || beside >= LARGE_DRAWING_COLUMNS;
}

/* The columns of the figure in one size, or 0 when it finds no room. */
static long fitting_columns(const struct bench *bench, struct big_size size, struct pane rest) {
    long columns = widest_columns(bench, size);
    bool fits = columns + MARGIN <= rest.columns && BIG_DOTS_TALL * size.dot_rows + 2 <= rest.rows;
    return fits ? columns : 0;
}

/* The largest that leaves a large drawing; else the largest with dots one row tall: dots two
 * columns wide go before the drawing, for they can be read from farther off.
 * Returns: the columns of the figure, 0 when there is no room for one. */
static long choose_size(const struct bench *bench, struct pane rest, struct big_size *size) {
    const struct big_size *sizes;
    size_t count = big_sizes(&sizes);
    for (int large = 1; large >= 0; large--)
        for (size_t i = 0; i < count; i++) {
            if (large ? sizes[i].dot_columns < 2 : sizes[i].dot_rows > 1)
                continue;
            long columns = fitting_columns(bench, sizes[i], rest);
            *size = sizes[i];
            if (columns > 0 && (!large || leaves_large_drawing(sizes[i], columns, rest)))
                return columns;
        }
    return 0;
}

/* Columns that the piece fills in a pane. */
static double drawn_columns(const struct bench *bench, struct pane pane) {
    const struct piece *piece = bench_piece(bench);
    double wide_m = piece->cut_most.x_m - piece->cut_least.x_m;
    double tall_m = piece->cut_most.y_m - piece->cut_least.y_m;
    return fmin((double)pane.columns, 2 * (double)pane.rows * wide_m / fmax(tall_m, 1e-9));
}

static bool worth_drawing(struct pane pane) {
    return pane.columns >= DRAWING_COLUMNS_LEAST && pane.rows >= DRAWING_ROWS_LEAST;
}

/* The drawing stands beside the figure or below the words: where it is larger. */
static void share_out(const struct bench *bench, struct pane rest, long figure_columns,
                      struct plan *plan) {
    long left = figure_columns + MARGIN;
    left = left > WORDS_LEAST ? left : WORDS_LEAST;
    struct pane beside = {rest.column + left + 1, rest.row, rest.columns - left - 1, rest.rows};
    long words_rows = rest.columns >= 60 ? 2 : 3;
    struct pane below = {rest.column, rest.row + words_rows, rest.columns, rest.rows - words_rows};
    plan->words = rest;
    plan->words.rows = words_rows < rest.rows ? words_rows : rest.rows;
    if (figure_columns > 0) {
        plan->figure = rest;
        plan->figure.rows = BIG_DOTS_TALL * plan->size.dot_rows;
        long used = plan->figure.rows + (rest.rows > plan->figure.rows + 2 ? 1 : 0);
        plan->words.row += used;
        plan->words.rows = rest.rows - used;
        below.row += used;
        below.rows -= used;
    }
    bool side = worth_drawing(beside) && (!worth_drawing(below) || drawn_columns(bench, beside) >=
                                                                       drawn_columns(bench, below));
    if (side) {
        plan->drawing = beside;
        plan->figure.columns = plan->words.columns = left;
    } else if (worth_drawing(below)) {
        plan->drawing = below;
        plan->words.rows = words_rows;
    }
}

/* The steps before and after this one, where there is room under the words. */
static void leave_list(struct plan *plan) {
    enum { WORDS_ROWS = 4 };
    long rows = plan->words.rows - WORDS_ROWS - 1;
    if (rows < LIST_ROWS_LEAST)
        return;
    plan->list = plan->words;
    plan->list.row += WORDS_ROWS + 1;
    plan->list.rows = rows;
    plan->words.rows = WORDS_ROWS;
}

static struct plan plan_for(const struct bench *bench, struct pane pane) {
    struct plan plan = {.title = pane, .ticks = pane, .heading = pane};
    long row = 0;
    plan.title.rows = pane.rows >= 2;
    row += plan.title.rows;
    plan.ticks.row += row;
    plan.ticks.rows = pane.rows >= 4;
    row += plan.ticks.rows;
    plan.heading.row += row;
    plan.heading.rows = pane.rows >= 5;
    row += plan.heading.rows + (pane.rows >= 16);
    struct pane rest = {pane.column, pane.row + row, pane.columns, pane.rows - row};
    share_out(bench, rest, choose_size(bench, rest, &plan.size), &plan);
    leave_list(&plan);
    return plan;
}

/* ---- its parts --------------------------------------------------------------------------- */

/* Where all of it finds no room, "from the mouth" goes first, then the end of the colour. */
static void draw_title(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    static const char *const shape[] = {"whole panel", "LEFT half", "RIGHT half"};
    static const char *const upward[] = {" from the mouth", ""};
    const struct piece *piece = bench_piece(bench);
    char colour[TEXT_MOST], words[256];
    plain_text(piece_colour(bench->design, piece, bench->at.gore), colour);
    long column = 2 + pane_put(canvas, pane, 0, 0, CELL_TITLE, "%s  gore %zu of %zu", piece->name,
                               bench->at.gore, bench->envelope->gores);
    for (size_t i = 0; i < COUNT_OF(upward); i++) {
        snprintf(words, sizeof words, "%s, %s, row %zu of %zu%s, %s", style_name(piece->style),
                 shape[piece->side], piece->row, bench->envelope->rows, upward[i], colour);
        if (column + (long)strlen(words) <= pane.columns)
            break;
    }
    pane_put_short(canvas, pane, column, 0, CELL_LABEL, words);
}

static struct record_count count_template(const struct bench *bench) {
    return record_count(bench->record, bench->design, bench->envelope,
                        (struct record_choice){.piece = bench->piece});
}

static void draw_ticks(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    struct record_count count = count_template(bench);
    long column = 0;
    for (enum tick tick = TICK_MARKED; tick < TICK_COUNT; tick++) {
        bool on = record_has(bench->record, bench->piece, bench->at.gore, tick);
        column = 2 + pane_put(canvas, pane, column, 0, on ? CELL_VALUE : CELL_LABEL, "[%c] %s",
                              on ? 'x' : ' ', tick_name(tick));
    }
    pane_put(canvas, pane, column + 2, 0, CELL_LABEL, "%s: %zu marked, %zu cut, %zu sewn of %zu",
             bench->piece, count.done[TICK_MARKED], count.done[TICK_CUT], count.done[TICK_SEWN],
             count.pieces);
}

static void draw_heading(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    if (at_end(bench)) {
        pane_put(canvas, pane, 0, 0, CELL_LABEL, "All %zu dimensions shown", bench->marking.count);
        return;
    }
    const struct marking_step *step = &bench->marking.step[bench->step];
    long column = pane_put(canvas, pane, 0, 0, CELL_LABEL, "%zu of %zu  %s:", bench->step + 1,
                           bench->marking.count, marking_part_name(step->part));
    pane_put(canvas, pane, column + 1, 0, CELL_LIT, "%s", step->name);
}

/* What stands in big digits: the dimension, or how many of this template are marked. */
static void figure_of(const struct bench *bench, char into[48]) {
    char length[32];
    if (at_end(bench)) {
        struct record_count count = count_template(bench);
        snprintf(into, 48, "%zu/%zu", count.done[TICK_MARKED], count.pieces);
        return;
    }
    format_length(bench->design, bench->marking.step[bench->step].value_m, length);
    snprintf(into, 48, "%s", length);
}

/* The unit stands big beside the figure where it finds room, else small. */
static void draw_figure(const struct bench *bench, struct canvas *canvas, const struct plan *plan) {
    char figure[48];
    struct pane pane = plan->figure;
    figure_of(bench, figure);
    big_draw(canvas, pane.column + MARGIN, pane.row, plan->size, CELL_LIT, figure);
    if (at_end(bench))
        return;
    const char *unit = length_unit(bench->design);
    long end = MARGIN + big_columns(figure, plan->size) + 2 * plan->size.dot_columns;
    if (end + big_columns(unit, plan->size) < pane.columns)
        big_draw(canvas, pane.column + end, pane.row, plan->size, CELL_LABEL, unit);
    else if (end + (long)strlen(unit) <= pane.columns)
        pane_put(canvas, pane, end, pane.rows - 1, CELL_LABEL, "%s", unit);
}

static void draw_end_words(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    struct record_count count = count_template(bench);
    char words[160];
    struct single_piece next;
    bool marked = record_has(bench->record, bench->piece, bench->at.gore, TICK_MARKED);
    int length = snprintf(words, sizeof words,
                          marked ? "That is all of %s, and gore %zu is marked."
                                 : "That is all of %s: m ticks gore %zu as marked.",
                          bench->piece, bench->at.gore);
    if (bench_to_do(bench, TICK_MARKED, &next))
        snprintf(words + length, sizeof words - (size_t)length, "  Enter goes on to %s gore %zu.",
                 bench->envelope->piece[next.piece].name, next.gore);
    long column = pane_put(canvas, pane, 0, 0, CELL_VALUE, "%zu of %zu marked.",
                           count.done[TICK_MARKED], count.pieces);
    pane_flow(canvas, pane, column + 1, CELL_TEXT, words);
}

static void draw_words(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    if (at_end(bench)) {
        draw_end_words(bench, canvas, pane);
        return;
    }
    const struct marking_step *step = &bench->marking.step[bench->step];
    char length[32];
    long column =
        pane_put(canvas, pane, 0, 0, CELL_VALUE, "%s %s.",
                 format_length(bench->design, step->value_m, length), length_unit(bench->design));
    pane_flow(canvas, pane, column + 1, CELL_TEXT, step->words);
}

static void draw_list(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    size_t count = bench->marking.count, rows = (size_t)pane.rows;
    size_t first = bench->step > rows / 2 ? bench->step - rows / 2 : 0;
    first = first + rows > count ? (count > rows ? count - rows : 0) : first;
    for (size_t i = first; i < count && i < first + rows; i++) {
        const struct marking_step *step = &bench->marking.step[i];
        char length[32];
        bool here = i == bench->step;
        enum cell_kind kind = here ? CELL_CURSOR : CELL_LABEL;
        pane_put(canvas, pane, 0, (long)(i - first), kind, "%s%2zu  %-18s %10s", here ? ">" : " ",
                 i + 1, step->name, format_length(bench->design, step->value_m, length));
    }
}

static void small_line(const struct piece *piece, const struct canvas_view *view, int line,
                       struct canvas *canvas) {
    const struct ring *sew = &piece->sew;
    for (size_t i = 0; i < sew->count; i++)
        canvas_line(canvas, canvas_place(view, sew->point[i]),
                    canvas_place(view, sew->point[(i + 1) % sew->count]),
                    (int)ring_edge(sew, i) == line ? CELL_LIT : CELL_SOLID);
    if (line == LIT_RISING || line == LIT_FALLING)
        canvas_line(
            canvas,
            canvas_place(view, piece_corner(piece, line == LIT_RISING ? EDGE_BOTTOM : EDGE_LEFT)),
            canvas_place(view, piece_corner(piece, line == LIT_RISING ? EDGE_TOP : EDGE_RIGHT)),
            CELL_LIT);
}

static void small_letters(const struct piece *piece, const struct canvas_view *view,
                          struct canvas *canvas) {
    double middle_column = view->column + view->shown_columns / 2;
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        struct canvas_place at = canvas_place(view, piece_corner(piece, e));
        char letter[2] = {(char)('A' + e), 0};
        at.column += at.column < middle_column ? -2 : 2;
        at.row += e == EDGE_BOTTOM || e == EDGE_RIGHT ? -0.5 : 0.5;
        canvas_label_as(canvas, CELL_LABEL, at, letter, 6, ROOM_BLANK);
    }
}

/* In little room: the sew line, the letters of its corners, and nothing else. */
static void draw_small_piece(const struct bench *bench, struct canvas *canvas,
                             struct canvas_box box, int line) {
    const struct piece *piece = bench_piece(bench);
    struct flat_point least = piece->sew.point[0], most = least;
    for (size_t i = 1; i < piece->sew.count; i++) {
        struct flat_point p = piece->sew.point[i];
        least = (struct flat_point){fmin(least.x_m, p.x_m), fmin(least.y_m, p.y_m)};
        most = (struct flat_point){fmax(most.x_m, p.x_m), fmax(most.y_m, p.y_m)};
    }
    box.column += 3;
    box.columns -= 6;
    box.row++;
    box.rows--;
    struct canvas_view view = canvas_fit(box, least, most, 3, 2);
    small_line(piece, &view, line, canvas);
    small_letters(piece, &view, canvas);
}

static void draw_piece(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    const struct piece *piece = bench_piece(bench);
    int line = at_end(bench) ? LIT_NOTHING : bench->marking.step[bench->step].line;
    const struct preview_job job = {
        .design = bench->design,
        .envelope = bench->envelope,
        .style = piece->style,
        .row = piece->row,
        .side = piece->side,
        .lit_edge = line,
    };
    struct canvas_box box = {(double)pane.column, (double)pane.row, (double)pane.columns,
                             (double)pane.rows};
    if (pane.columns < PREVIEW_COLUMNS_LEAST || pane.rows < PREVIEW_ROWS_LEAST)
        draw_small_piece(bench, canvas, box, line);
    else
        preview_draw(PREVIEW_PANEL, &job, canvas, box);
}

void bench_draw_measure(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    struct plan plan = plan_for(bench, pane);
    draw_title(bench, canvas, plan.title);
    draw_ticks(bench, canvas, plan.ticks);
    draw_heading(bench, canvas, plan.heading);
    if (plan.figure.rows > 0)
        draw_figure(bench, canvas, &plan);
    draw_words(bench, canvas, plan.words);
    if (plan.list.rows > 0)
        draw_list(bench, canvas, plan.list);
    if (plan.drawing.rows > 0)
        draw_piece(bench, canvas, plan.drawing);
}
