/* piece_drawing.c - a flat piece to scale in characters, its dimensions standing on it. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "paper/sheets.h"

static const double LABEL_WANDERS = 30; /* a label with all its words, before it is cut short */

/* What every part of the drawing needs. */
struct drawing {
    const struct sheet *sheet;
    const struct piece *piece;
    const struct piece_look *look;
    const struct canvas_view *view;
    struct canvas *canvas;
};

struct canvas_view piece_view(const struct sheet *sheet, struct canvas_box box, double side_columns,
                              double least_columns, double least_rows) {
    double columns = side_columns + PIECE_CUT_COLUMNS, rows = PIECE_CUT_ROWS + 1;
    box.column += columns;
    box.columns = fmax(box.columns - 2 * columns, 1);
    box.row += rows;
    box.rows = fmax(box.rows - 2 * rows, 1);
    return canvas_fit(box, sheet->piece->cut_least, sheet->piece->cut_most, least_columns,
                      least_rows);
}

/* ---- the lines -------------------------------------------------------------- */

static bool runs_across(enum edge e) {
    return e == EDGE_BOTTOM || e == EDGE_TOP;
}

static enum edge next_edge(enum edge e) {
    return (enum edge)((e + 1) % EDGE_COUNT);
}

static struct canvas_place corner(const struct drawing *drawing, enum edge e) {
    return canvas_place(drawing->view, piece_corner(drawing->piece, e));
}

/* How far the cut line of an edge must move out, in cells, to stand clear of
 * the sew line where the allowance is thinner than a character. */
static struct canvas_place moved_out(const struct drawing *drawing, enum edge e) {
    const struct piece *piece = drawing->piece;
    struct flat_point from = piece_corner(piece, e), to = piece_corner(piece, next_edge(e));
    double along_x = fabs(to.x_m - from.x_m), along_y = fabs(to.y_m - from.y_m);
    double slant = hypot(along_x, along_y), allowance_m = piece->allowance_m[e];
    if (allowance_m <= 0 || slant <= 0)
        return (struct canvas_place){0, 0};
    double rows = allowance_m / fmax(along_x / slant, 0.1) / drawing->view->row_m;
    double columns = allowance_m / fmax(along_y / slant, 0.1) / drawing->view->column_m;
    double direction = e == EDGE_BOTTOM || e == EDGE_RIGHT ? 1 : -1;
    if (runs_across(e))
        return (struct canvas_place){0, direction * fmax(0, 1.6 - rows)};
    return (struct canvas_place){direction * fmax(0, 2.6 - columns), 0};
}

static struct canvas_place sum(struct canvas_place a, struct canvas_place b) {
    return (struct canvas_place){a.column + b.column, a.row + b.row};
}

static struct canvas_place between(struct canvas_place a, struct canvas_place b) {
    return (struct canvas_place){(a.column + b.column) / 2, (a.row + b.row) / 2};
}

/* Draw edge `e` of a ring again, lit. */
static void light_edge(const struct drawing *drawing, const struct ring *ring, enum edge e,
                       const struct canvas_place *place) {
    size_t last = e + 1 < EDGE_COUNT ? ring->first[e + 1] : ring->count;
    for (size_t i = ring->first[e]; i < last; i++)
        canvas_line(drawing->canvas, place[i], place[(i + 1) % ring->count], CELL_LIT);
}

static bool draw_ring(const struct drawing *drawing, const struct ring *ring, enum cell_kind kind) {
    int lit = drawing->look->lit;
    struct canvas_place out[EDGE_COUNT] = {{0, 0}};
    struct canvas_place *place = malloc((ring->count + 1) * sizeof *place);
    if (place == NULL)
        return false;
    for (enum edge e = EDGE_BOTTOM; kind == CELL_DOTTED && e < EDGE_COUNT; e++)
        out[e] = moved_out(drawing, e);
    for (size_t i = 0; i < ring->count; i++) {
        enum edge e = ring_edge(ring, i);
        place[i] = sum(canvas_place(drawing->view, ring->point[i]), out[e]);
        if (i == ring->first[e])
            place[i] = sum(place[i], out[(e + EDGE_COUNT - 1) % EDGE_COUNT]);
    }
    canvas_polyline(drawing->canvas, place, ring->count, true, kind);
    if (kind == CELL_SOLID && lit >= 0 && lit < EDGE_COUNT)
        light_edge(drawing, ring, (enum edge)lit, place);
    free(place);
    return true;
}

static bool is_lit(const struct drawing *drawing, int what) {
    return drawing->look->lit == what;
}

static void light_diagonal(const struct drawing *drawing) {
    if (is_lit(drawing, PIECE_LIT_RISING))
        canvas_line(drawing->canvas, corner(drawing, EDGE_BOTTOM), corner(drawing, EDGE_TOP),
                    CELL_LIT);
    if (is_lit(drawing, PIECE_LIT_FALLING))
        canvas_line(drawing->canvas, corner(drawing, EDGE_LEFT), corner(drawing, EDGE_RIGHT),
                    CELL_LIT);
}

static void cross_corners(const struct drawing *drawing) {
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        enum edge before = (enum edge)((e + EDGE_COUNT - 1) % EDGE_COUNT);
        bool rising = e == EDGE_BOTTOM || e == EDGE_TOP;
        bool lit = is_lit(drawing, (int)e) || is_lit(drawing, (int)before) ||
                   is_lit(drawing, rising ? PIECE_LIT_RISING : PIECE_LIT_FALLING);
        canvas_point(drawing->canvas, corner(drawing, e), '+', lit ? CELL_LIT : CELL_SOLID);
    }
}

/* A tick from the sew line towards the cut line. */
static void tick_marks(const struct drawing *drawing) {
    for (size_t i = 0; i < drawing->piece->marks; i++) {
        const struct match_mark *mark = &drawing->piece->mark[i];
        struct canvas_place at = canvas_place(drawing->view, mark->at);
        bool across = runs_across(mark->edge);
        double out = mark->edge == EDGE_BOTTOM || mark->edge == EDGE_RIGHT ? 1 : -1;
        bool at_corner = mark->fraction < 1e-6 || mark->fraction > 1 - 1e-6;
        if (drawing->piece->allowance_m[mark->edge] <= 0 || at_corner)
            continue;
        if (across)
            at.row += out;
        else
            at.column += out;
        canvas_point(drawing->canvas, at, across ? '|' : '-', CELL_SOLID);
    }
}

bool draw_piece_lines(const struct sheet *sheet, const struct piece_look *look,
                      const struct canvas_view *view, struct canvas *canvas) {
    struct drawing drawing = {sheet, sheet->piece, look, view, canvas};
    if (!draw_ring(&drawing, &sheet->piece->cut, CELL_DOTTED) ||
        !draw_ring(&drawing, &sheet->piece->sew, CELL_SOLID))
        return false;
    light_diagonal(&drawing);
    cross_corners(&drawing);
    if (look->marks)
        tick_marks(&drawing);
    return true;
}

/* ---- words on it -------------------------------------------------------------- */

static enum cell_kind kind_of(const struct drawing *drawing, int what) {
    return is_lit(drawing, what) ? CELL_LIT : drawing->look->lengths;
}

/* Write it at (column, row) if it finds room there. */
static bool put_at(const struct drawing *drawing, long column, long row, const char *string,
                   size_t length, enum cell_kind kind) {
    char first[32];
    if (!canvas_text_as(drawing->canvas, drawing->look->words, column, row, string, ROOM_BLANK))
        return false;
    snprintf(first, sizeof first, "%.*s", (int)length, string);
    canvas_put(drawing->canvas, column, row, kind, first);
    return true;
}

/* At the free place nearest to where it is wanted: inside where it fits, else beside. */
static bool put_near(const struct drawing *drawing, struct canvas_place wanted, const char *string,
                     size_t length, double farthest, enum cell_kind kind) {
    long column, row;
    return canvas_room_near(drawing->canvas, wanted, string, farthest, ROOM_BLANK, &column, &row) &&
           put_at(drawing, column, row, string, length, kind);
}

static void put(const struct drawing *drawing, struct canvas_place wanted, const char *string) {
    canvas_label_as(drawing->canvas, drawing->look->words, wanted, string, HUGE_VAL, ROOM_BLANK);
}

static struct canvas_place middle_of_edge(const struct drawing *drawing, enum edge e) {
    return between(corner(drawing, e), corner(drawing, next_edge(e)));
}

static struct canvas_place middle_of_piece(const struct drawing *drawing) {
    return between(middle_of_edge(drawing, EDGE_BOTTOM), middle_of_edge(drawing, EDGE_TOP));
}

/* First and last cell with anything in it, along a row or a column. */
static bool inked_span(const struct canvas *canvas, bool along_row, long at, long *first,
                       long *last) {
    long most = (long)(along_row ? canvas->columns : canvas->rows);
    *first = *last = -1;
    for (long i = 0; i < most; i++) {
        struct cell cell = along_row ? canvas_cell(canvas, i, at) : canvas_cell(canvas, at, i);
        if (cell.kind == CELL_BLANK)
            continue;
        *last = i;
        if (*first < 0)
            *first = i;
    }
    return *first >= 0;
}

/* One line of a side's label, outside the lines. */
static bool put_beside(const struct drawing *drawing, enum edge e, long row, const char *line,
                       size_t length) {
    long first, last;
    if (!inked_span(drawing->canvas, true, row, &first, &last))
        return true;
    long column = e == EDGE_LEFT ? first - 1 - (long)strlen(line) : last + 2;
    return put_at(drawing, column, row, line, length, kind_of(drawing, (int)e));
}

/* A side's length, its seam and allowance: outside the lines at the height of its middle, or
 * the length alone inside. */
static bool label_side(const struct drawing *drawing, enum edge e) {
    const struct piece *piece = drawing->piece;
    const struct design *design = drawing->sheet->design;
    char length[32], allowance[32], allow[48];
    format_length(design, piece->length_m[e], length);
    struct canvas_place middle = middle_of_edge(drawing, e);
    long row = (long)floor(middle.row);
    if (!put_beside(drawing, e, row, length, strlen(length))) {
        double in = (e == EDGE_LEFT ? 1 : -1) * (2.5 + (double)strlen(length) / 2);
        return put_near(drawing, (struct canvas_place){middle.column + in, (double)row + 0.5},
                        length, strlen(length), HUGE_VAL, kind_of(drawing, (int)e));
    }
    put_beside(drawing, e, row + 1, join_kind_name(piece->join[e]), 0);
    snprintf(allow, sizeof allow, "allow %s",
             format_length(design, piece->allowance_m[e], allowance));
    if (drawing->look->allowances)
        put_beside(drawing, e, row + 2, allow, 0);
    return true;
}

/* The row beyond the lines over or under the columns from .. from + width - 1. */
static long row_beyond(const struct drawing *drawing, enum edge e, long from, long width) {
    long row = e == EDGE_TOP ? (long)drawing->canvas->rows : 0, first, last;
    for (long c = from; c < from + width; c++)
        if (inked_span(drawing->canvas, false, c, &first, &last))
            row = e == EDGE_TOP ? (first < row ? first : row) : (last > row ? last : row);
    return row + (e == EDGE_TOP ? -1 : 1);
}

/* Length, seam and allowance of the bottom or the top, beyond the lines under or over it, as
 * much as finds room. */
static bool label_across(const struct drawing *drawing, enum edge e) {
    const struct piece *piece = drawing->piece;
    const struct design *design = drawing->sheet->design;
    char length[32], allowance[32], allow[48] = "", words[3][128];
    format_length(design, piece->length_m[e], length);
    if (drawing->look->allowances)
        snprintf(allow, sizeof allow, ", allow %s",
                 format_length(design, piece->allowance_m[e], allowance));
    const char *curve = reads_curved(drawing->sheet, e) ? " on the curve" : "";
    const char *join = join_kind_name(piece->join[e]);
    snprintf(words[0], sizeof words[0], "%s%s  %s%s", length, curve, join, allow);
    snprintf(words[1], sizeof words[1], "%s%s  %s", length, curve, join);
    snprintf(words[2], sizeof words[2], "%s", length);
    for (size_t i = 0; i < COUNT_OF(words); i++) {
        long width = (long)strlen(words[i]);
        long from = (long)(middle_of_edge(drawing, e).column - (double)width / 2);
        long row = row_beyond(drawing, e, from, width);
        struct canvas_place wanted = {(double)from + (double)width / 2, (double)row + 0.5};
        double farthest = i + 1 < COUNT_OF(words) ? LABEL_WANDERS : HUGE_VAL;
        if (put_at(drawing, from, row, words[i], strlen(length), kind_of(drawing, (int)e)) ||
            put_near(drawing, wanted, words[i], strlen(length), farthest, kind_of(drawing, (int)e)))
            return true;
    }
    return false;
}

/* The letter of each corner, a little inside. */
static void label_corners(const struct drawing *drawing) {
    struct canvas_place middle = middle_of_piece(drawing);
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        struct canvas_place at = corner(drawing, e);
        char letter[2] = {corner_letter(e), '\0'};
        double across = middle.column - at.column, down = middle.row - at.row;
        double reach = fmin(1, 3.6 / fmax(hypot(across, 2 * down), 1e-9));
        put(drawing, (struct canvas_place){at.column + reach * across, at.row + reach * down},
            letter);
    }
}

/* One under the other, or side by side, as near to the middle as there is room. */
static bool label_diagonals(const struct drawing *drawing) {
    const struct piece *piece = drawing->piece;
    char length[32], line[2][48], both[100];
    snprintf(line[0], sizeof line[0], "A-C %s",
             format_length(drawing->sheet->design, piece->diagonal_rising_m, length));
    snprintf(line[1], sizeof line[1], "B-D %s",
             format_length(drawing->sheet->design, piece->diagonal_falling_m, length));
    for (int i = 0; i < 2; i++) {
        long column, row;
        snprintf(both, sizeof both, i == 0 ? "%s\n%s" : "%s  %s", line[0], line[1]);
        if (!canvas_room_near(drawing->canvas, middle_of_piece(drawing), both, HUGE_VAL, ROOM_BLANK,
                              &column, &row))
            continue;
        put_at(drawing, column, row, line[0], strlen(line[0]), kind_of(drawing, PIECE_LIT_RISING));
        if (i == 0)
            row++;
        else
            column += (long)strlen(line[0]) + 2;
        put_at(drawing, column, row, line[1], strlen(line[1]), kind_of(drawing, PIECE_LIT_FALLING));
        return true;
    }
    return false;
}

static void label_grain(const struct drawing *drawing, struct canvas_place wanted) {
    bool up = drawing->sheet->design->cloth.warp == WARP_UP;
    double near = 0.45 * drawing->view->shown_columns;
    if (!canvas_label_as(drawing->canvas, drawing->look->words, wanted,
                         up ? "^\n| grain\nv" : "<-- grain -->", near, ROOM_BLANK))
        put(drawing, wanted, up ? "^ grain" : "<grain>");
}

bool draw_piece_words(const struct sheet *sheet, const struct piece_look *look,
                      const struct canvas_view *view, struct canvas *canvas) {
    struct drawing drawing = {sheet, sheet->piece, look, view, canvas};
    struct canvas_place middle = middle_of_piece(&drawing);
    double quarter = view->shown_rows * 0.27;
    bool all = label_side(&drawing, EDGE_LEFT);
    all = label_side(&drawing, EDGE_RIGHT) && all;
    all = label_across(&drawing, EDGE_BOTTOM) && all;
    all = label_across(&drawing, EDGE_TOP) && all;
    label_corners(&drawing);
    all = label_diagonals(&drawing) && all;
    put(&drawing, (struct canvas_place){middle.column, middle.row - quarter}, "^ UP ^");
    label_grain(&drawing, (struct canvas_place){middle.column, middle.row + quarter});
    return all;
}
