/* bench_overview.c - rows by gores, a letter for each piece, and what is left. */
#include <stdio.h>
#include <string.h>

#include "screen/bench_parts.h"
#include "screen/words.h"

enum { LABEL_COLUMNS = 4, HEADER_ROWS = 2, COUNT_ROWS = 8, COUNT_COLUMNS = 42, GAP_MOST = 2 };

/* The part of the grid that is shown: all of it where it fits. */
struct grid {
    struct pane pane;
    long letters, gap;        /* for each gore */
    size_t first_gore, gores; /* from 1 */
    size_t top_row, rows;
};

/* ---- the plan -------------------------------------------------------------------------- */

/* `count` of `all` so that `at` is among them; all from 1. */
static size_t window(size_t at, size_t count, size_t all) {
    size_t first = at > count / 2 ? at - count / 2 : 1;
    return first + count > all + 1 ? (count < all ? all + 1 - count : 1) : first;
}

static long grid_columns(const struct envelope *envelope, long letters, long gap) {
    return LABEL_COLUMNS + (long)envelope->gores * (letters + gap);
}

static struct grid grid_for(const struct bench *bench, struct pane pane) {
    const struct envelope *envelope = bench->envelope;
    struct grid grid = {.pane = pane, .letters = envelope->style_count[HALF_GORE] > 0 ? 2 : 1};
    if (grid_columns(envelope, grid.letters, 0) > pane.columns)
        grid.letters = 1;
    for (grid.gap = GAP_MOST; grid.gap > 0; grid.gap--)
        if (grid_columns(envelope, grid.letters, grid.gap) <= pane.columns)
            break;
    long room = (pane.columns - LABEL_COLUMNS) / (grid.letters + grid.gap);
    long rows = pane.rows - HEADER_ROWS;
    grid.gores = room < 1 ? 1 : (size_t)room;
    grid.gores = grid.gores < envelope->gores ? grid.gores : envelope->gores;
    grid.first_gore = window(bench->at.gore, grid.gores, envelope->gores);
    grid.rows = rows < 1 ? 1 : (size_t)rows;
    grid.rows = grid.rows < envelope->rows ? grid.rows : envelope->rows;
    size_t lowest = window(bench_piece(bench)->row, grid.rows, envelope->rows);
    grid.top_row = lowest + grid.rows - 1;
    return grid;
}

/* ---- the letters ------------------------------------------------------------------------- */

struct letter {
    char glyph;
    enum cell_kind kind;
};

static struct letter letter_of(const struct bench *bench, const struct piece *piece, size_t gore) {
    static const struct letter letters[TICK_COUNT + 1] = {
        {'.', CELL_LABEL}, {'m', CELL_TEXT}, {'c', CELL_VALUE}, {'s', CELL_TITLE}};
    if (bench_misfit(bench, piece->name, gore) != NULL)
        return (struct letter){'!', CELL_WARNING};
    return letters[record_progress(bench->record, piece->name, gore)];
}

/* Both halves under one letter: that of the half that is less far. */
static struct letter lesser(const struct bench *bench, const struct piece *left,
                            const struct piece *right, size_t gore) {
    struct letter l = letter_of(bench, left, gore), r = letter_of(bench, right, gore);
    if (l.glyph == '!' || r.glyph == '!')
        return l.glyph == '!' ? l : r;
    return record_progress(bench->record, left->name, gore) <=
                   record_progress(bench->record, right->name, gore)
               ? l
               : r;
}

static bool is_here(const struct bench *bench, const struct piece *piece, size_t gore) {
    return piece != NULL && piece == bench_piece(bench) && gore == bench->at.gore;
}

static void put_letter(const struct grid *grid, struct canvas *canvas, long column, long row,
                       struct letter letter, bool here) {
    pane_put(canvas, grid->pane, column, row, here ? CELL_CURSOR : letter.kind, "%c", letter.glyph);
    if (here && grid->gap > 0) /* seen without colour, too */
        pane_put(canvas, grid->pane, column - 1, row, CELL_CURSOR, ">");
}

/* The pieces of one row in each style, by side. */
struct row_pieces {
    const struct piece *piece[STYLE_COUNT][SIDE_RIGHT + 1];
};

static struct row_pieces pieces_of_row(const struct envelope *envelope, size_t row) {
    struct row_pieces pieces = {0};
    for (size_t t = 0; t < envelope->templates; t++) {
        const struct piece *piece = &envelope->piece[t];
        if (piece->row == row)
            pieces.piece[piece->style][piece->side] = piece;
    }
    return pieces;
}

static void draw_cell(const struct bench *bench, const struct grid *grid, struct canvas *canvas,
                      size_t gore, const struct piece *const side[], long column, long row) {
    const struct piece *whole = side[SIDE_WHOLE], *left = side[SIDE_LEFT],
                       *right = side[SIDE_RIGHT];
    if (whole != NULL) {
        put_letter(grid, canvas, column, row, letter_of(bench, whole, gore),
                   is_here(bench, whole, gore));
    } else if (left != NULL && right != NULL && grid->letters == 1) {
        put_letter(grid, canvas, column, row, lesser(bench, left, right, gore),
                   is_here(bench, left, gore) || is_here(bench, right, gore));
    } else if (left != NULL && right != NULL) {
        bool in_right = is_here(bench, right, gore);
        put_letter(grid, canvas, column, row, letter_of(bench, left, gore),
                   is_here(bench, left, gore));
        struct letter letter = letter_of(bench, right, gore);
        pane_put(canvas, grid->pane, column + 1, row, in_right ? CELL_CURSOR : letter.kind, "%c",
                 letter.glyph);
        if (in_right && grid->gap > 0)
            pane_put(canvas, grid->pane, column + 2, row, CELL_CURSOR, "<");
    }
}

/* Gore numbers stand upright: tens over units. */
static void draw_header(const struct grid *grid, struct canvas *canvas) {
    pane_put(canvas, grid->pane, 0, 1, CELL_LABEL, "gore");
    for (size_t i = 0; i < grid->gores; i++) {
        size_t gore = grid->first_gore + i;
        long column = LABEL_COLUMNS + grid->gap + (long)i * (grid->letters + grid->gap);
        if (gore >= 10)
            pane_put(canvas, grid->pane, column, 0, CELL_LABEL, "%zu", gore / 10);
        pane_put(canvas, grid->pane, column, 1, CELL_LABEL, "%zu", gore % 10);
    }
}

static void draw_row(const struct bench *bench, const struct grid *grid, struct canvas *canvas,
                     size_t row, long at) {
    struct row_pieces pieces = pieces_of_row(bench->envelope, row);
    pane_put(canvas, grid->pane, 0, at, CELL_LABEL, "%3zu", row);
    for (size_t i = 0; i < grid->gores; i++) {
        size_t gore = grid->first_gore + i;
        long column = LABEL_COLUMNS + grid->gap + (long)i * (grid->letters + grid->gap);
        draw_cell(bench, grid, canvas, gore, pieces.piece[bench->envelope->gore_style[gore - 1]],
                  column, at);
    }
}

static void draw_grid(const struct bench *bench, const struct grid *grid, struct canvas *canvas) {
    draw_header(grid, canvas);
    for (size_t i = 0; i < grid->rows; i++)
        draw_row(bench, grid, canvas, grid->top_row - i, HEADER_ROWS + (long)i);
}

/* ---- the counts --------------------------------------------------------------------------- */

static struct record_count count(const struct bench *bench, struct record_choice choice) {
    return record_count(bench->record, bench->design, bench->envelope, choice);
}

static void count_line(const struct bench *bench, struct canvas *canvas, struct pane pane, long row,
                       const char *of, struct record_choice choice) {
    struct record_count n = count(bench, choice);
    char counts[128], name[TEXT_MOST];
    snprintf(counts, sizeof counts, ": %zu marked, %zu cut, %zu sewn of %zu", n.done[TICK_MARKED],
             n.done[TICK_CUT], n.done[TICK_SEWN], n.pieces);
    long room = pane.columns - (long)strlen(counts);
    shorten(of, room < 4 ? 4 : (size_t)room < sizeof name ? (size_t)room : sizeof name - 1, name);
    pane_put(canvas, pane, 0, row, CELL_LABEL, "%s%s", name, counts);
}

static void left_line(const struct bench *bench, struct canvas *canvas, struct pane pane,
                      enum tick tick) {
    struct record_count all = count(bench, (struct record_choice){NULL, 0, NULL});
    struct single_piece next;
    long row = (long)tick;
    long column = pane_put(canvas, pane, 0, row, CELL_LABEL, "to %-4s", bench_to_do_word(tick));
    column = pane_put(canvas, pane, column, row, CELL_VALUE, " %4zu", record_left(all, tick));
    column = pane_put(canvas, pane, column, row, CELL_LABEL, " of %zu", all.pieces);
    if (bench_first_to_do(bench, tick, &next))
        pane_put(canvas, pane, column, row, CELL_LABEL, ", next %s gore %zu",
                 bench->envelope->piece[next.piece].name, next.gore);
}

static void draw_counts(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    const char *colour = piece_colour(bench->design, bench_piece(bench), bench->at.gore);
    char plain[TEXT_MOST], gore[32];
    for (enum tick tick = TICK_MARKED; tick < TICK_COUNT; tick++)
        left_line(bench, canvas, pane, tick);
    count_line(bench, canvas, pane, 3, bench->piece, (struct record_choice){.piece = bench->piece});
    snprintf(gore, sizeof gore, "gore %zu", bench->at.gore);
    count_line(bench, canvas, pane, 4, gore, (struct record_choice){.gore = bench->at.gore});
    count_line(bench, canvas, pane, 5, plain_text(colour, plain),
               (struct record_choice){.colour = colour});
    pane_put(canvas, pane, 0, 6, CELL_HELP, ". nothing  m marked  c cut  s sewn");
    if (bench->misfits.pieces > 0)
        pane_put(canvas, pane, 0, 7, CELL_WARNING, "! cut, no longer fits: %zu",
                 bench->misfits.pieces);
}

/* ---- the whole ------------------------------------------------------------------------------ */

static void draw_title(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    long column = pane_put(canvas, pane, 0, 0, CELL_TITLE, "What is left to do");
    pane_put(canvas, pane, column + 2, 0, CELL_LABEL, "here: %s gore %zu, %s", bench->piece,
             bench->at.gore, bench_so_far(bench));
}

/* Counts stand below the grid where all of both fits, else beside it, else one line of them. */
void bench_draw_overview(const struct bench *bench, struct canvas *canvas, struct pane pane) {
    const struct envelope *envelope = bench->envelope;
    long rows = HEADER_ROWS + (long)envelope->rows;
    long letters = envelope->style_count[HALF_GORE] > 0 ? 2 : 1;
    struct pane grid = {pane.column, pane.row + 1, pane.columns, pane.rows - 1}, counts = grid;
    if (pane.rows < 2) {
        left_line(bench, canvas, pane, TICK_MARKED);
        return;
    }
    draw_title(bench, canvas, pane);
    if (rows + 1 + COUNT_ROWS <= grid.rows) {
        grid.rows = rows;
        counts.row += rows + 1;
        counts.rows = COUNT_ROWS;
    } else if (grid_columns(envelope, letters, 0) + 1 + COUNT_COLUMNS <= grid.columns) {
        grid.columns -= COUNT_COLUMNS + 1;
        counts.column += grid.columns + 1;
        counts.columns = COUNT_COLUMNS;
    } else {
        counts.rows = grid.rows > 4 ? 1 : 0;
        grid.rows -= counts.rows;
        counts.row += grid.rows;
    }
    struct grid shown = grid_for(bench, grid);
    draw_grid(bench, &shown, canvas);
    draw_counts(bench, canvas, counts);
}
