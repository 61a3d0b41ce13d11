/* sheet_drawing.c - one piece to scale, its dimensions standing on it. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "paper/canvas.h"
#include "paper/sheets.h"

enum {
    SIDE_LABEL_COLUMNS = 12,
    CUT_COLUMNS = 3, /* room for a cut line moved out to be seen */
    CUT_ROWS = 2,
    ROWS_STRAIGHT = 20, /* of the piece itself; a curved piece needs its lines for offsets */
    ROWS_CURVED = 14,
    ROWS_LEAST = 9,
    COLUMNS_LEAST = 18,
    COLUMNS_STRETCHED = 26 /* of a piece too slender for its true proportions */
};

/* ---- the two lines ---------------------------------------------------------- */

struct drawing {
    const struct sheet *sheet;
    struct canvas canvas;
    struct canvas_view view;
};

static bool any_curve(const struct sheet *sheet) {
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++)
        if (reads_curved(sheet, e))
            return true;
    return false;
}

static bool runs_across(enum edge e) {
    return e == EDGE_BOTTOM || e == EDGE_TOP;
}

/* How far the cut line of an edge must move out, in cells, to stand clear of
 * the sew line where the allowance is thinner than a character. */
static struct canvas_place moved_out(const struct drawing *drawing, enum edge e) {
    const struct piece *piece = drawing->sheet->piece;
    struct flat_point from = piece_corner(piece, e);
    struct flat_point to = piece_corner(piece, (enum edge)((e + 1) % EDGE_COUNT));
    double along_x = fabs(to.x_m - from.x_m), along_y = fabs(to.y_m - from.y_m);
    double slant = hypot(along_x, along_y), allowance_m = piece->allowance_m[e];
    if (allowance_m <= 0 || slant <= 0)
        return (struct canvas_place){0, 0};
    double rows = allowance_m / fmax(along_x / slant, 0.1) / drawing->view.row_m;
    double columns = allowance_m / fmax(along_y / slant, 0.1) / drawing->view.column_m;
    double direction = e == EDGE_BOTTOM || e == EDGE_RIGHT ? 1 : -1;
    if (runs_across(e))
        return (struct canvas_place){0, direction * fmax(0, 1.6 - rows)};
    return (struct canvas_place){direction * fmax(0, 2.6 - columns), 0};
}

static struct canvas_place sum(struct canvas_place a, struct canvas_place b) {
    return (struct canvas_place){a.column + b.column, a.row + b.row};
}

static bool draw_ring(struct drawing *drawing, const struct ring *ring, enum cell_kind kind) {
    struct canvas_place out[EDGE_COUNT] = {{0, 0}};
    struct canvas_place *place = malloc((ring->count + 1) * sizeof *place);
    if (place == NULL)
        return false;
    for (enum edge e = EDGE_BOTTOM; kind == CELL_DOTTED && e < EDGE_COUNT; e++)
        out[e] = moved_out(drawing, e);
    for (size_t i = 0; i < ring->count; i++) {
        enum edge e = ring_edge(ring, i);
        place[i] = sum(canvas_place(&drawing->view, ring->point[i]), out[e]);
        if (i == ring->first[e])
            place[i] = sum(place[i], out[(e + EDGE_COUNT - 1) % EDGE_COUNT]);
    }
    canvas_polyline(&drawing->canvas, place, ring->count, true, kind);
    free(place);
    return true;
}

/* ---- words on it -------------------------------------------------------------- */

/* At the free place nearest to where it is wanted: inside where it fits, else beside. */
static void put(struct drawing *drawing, struct canvas_place wanted, const char *string) {
    canvas_label(&drawing->canvas, wanted, string, HUGE_VAL, ROOM_BLANK);
}

static struct canvas_place middle_of_edge(const struct drawing *drawing, enum edge e) {
    const struct piece *piece = drawing->sheet->piece;
    struct canvas_place from = canvas_place(&drawing->view, piece_corner(piece, e));
    struct canvas_place to =
        canvas_place(&drawing->view, piece_corner(piece, (enum edge)((e + 1) % EDGE_COUNT)));
    return (struct canvas_place){(from.column + to.column) / 2, (from.row + to.row) / 2};
}

static struct canvas_place middle_of_piece(const struct drawing *drawing) {
    struct canvas_place bottom = middle_of_edge(drawing, EDGE_BOTTOM);
    struct canvas_place top = middle_of_edge(drawing, EDGE_TOP);
    return (struct canvas_place){(bottom.column + top.column) / 2, (bottom.row + top.row) / 2};
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

/* A side's length and its seam, outside the lines at the height of its middle. */
static void label_side(struct drawing *drawing, enum edge e) {
    const struct piece *piece = drawing->sheet->piece;
    char length[32];
    const char *line[2] = {format_length(drawing->sheet->design, piece->length_m[e], length),
                           join_kind_name(piece->join[e])};
    long row = (long)floor(middle_of_edge(drawing, e).row), first, last;
    for (long i = 0; i < 2; i++) {
        if (!inked_span(&drawing->canvas, true, row + i, &first, &last))
            continue;
        long column = e == EDGE_LEFT ? first - 1 - (long)strlen(line[i]) : last + 2;
        if (!canvas_text(&drawing->canvas, column, row + i, line[i], ROOM_BLANK))
            put(drawing, (struct canvas_place){(double)column, (double)(row + i)}, line[i]);
    }
}

/* Length and seam of the bottom or the top, beyond the lines under or over it. */
static void label_across(struct drawing *drawing, enum edge e) {
    const struct piece *piece = drawing->sheet->piece;
    char length[32], words[64];
    snprintf(words, sizeof words, "%s%s  %s",
             format_length(drawing->sheet->design, piece->length_m[e], length),
             reads_curved(drawing->sheet, e) ? " on the curve" : "",
             join_kind_name(piece->join[e]));
    long from = (long)(middle_of_edge(drawing, e).column - (double)strlen(words) / 2);
    long row = e == EDGE_TOP ? (long)drawing->canvas.rows : 0, first, last;
    for (long c = from; c < from + (long)strlen(words); c++)
        if (inked_span(&drawing->canvas, false, c, &first, &last))
            row = e == EDGE_TOP ? (first < row ? first : row) : (last > row ? last : row);
    row += e == EDGE_TOP ? -1 : 1;
    if (!canvas_text(&drawing->canvas, from, row, words, ROOM_BLANK))
        put(drawing, (struct canvas_place){(double)from, (double)row}, words);
}

static void cross_corners(struct drawing *drawing) {
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        struct canvas_place corner =
            canvas_place(&drawing->view, piece_corner(drawing->sheet->piece, e));
        canvas_point(&drawing->canvas, corner, '+');
    }
}

/* The letter of each corner, a little inside. */
static void label_corners(struct drawing *drawing) {
    struct canvas_place middle = middle_of_piece(drawing);
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        struct canvas_place corner =
            canvas_place(&drawing->view, piece_corner(drawing->sheet->piece, e));
        char letter[2] = {corner_letter(e), '\0'};
        double across = middle.column - corner.column, down = middle.row - corner.row;
        double reach = fmin(1, 3.6 / fmax(hypot(across, 2 * down), 1e-9));
        put(drawing,
            (struct canvas_place){corner.column + reach * across, corner.row + reach * down},
            letter);
    }
}

static void label_grain(struct drawing *drawing, struct canvas_place wanted) {
    bool up = drawing->sheet->design->cloth.warp == WARP_UP;
    double near = 0.45 * drawing->view.shown_columns;
    if (!canvas_label(&drawing->canvas, wanted, up ? "^\n| grain\nv" : "<-- grain -->", near,
                      ROOM_BLANK))
        put(drawing, wanted, up ? "^ grain" : "<grain>");
}

static void label_inside(struct drawing *drawing) {
    const struct sheet *sheet = drawing->sheet;
    const struct piece *piece = sheet->piece;
    char rising[32], falling[32], diagonals[80];
    snprintf(diagonals, sizeof diagonals, "A-C %s\nB-D %s",
             format_length(sheet->design, piece->diagonal_rising_m, rising),
             format_length(sheet->design, piece->diagonal_falling_m, falling));
    struct canvas_place middle = middle_of_piece(drawing);
    double quarter = drawing->view.shown_rows * 0.27;
    put(drawing, middle, diagonals);
    put(drawing, (struct canvas_place){middle.column, middle.row - quarter}, "^ UP ^");
    label_grain(drawing, (struct canvas_place){middle.column, middle.row + quarter});
}

/* ---- the whole ------------------------------------------------------------------ */

static void caption(const struct drawing *drawing, struct text *into) {
    double stretch = canvas_stretch(&drawing->view);
    text_add(into, "Seen from outside, crown up.  Solid: sew line.  Dotted: cut line, drawn clear\n"
                   "of the sew line.  ");
    if (fabs(stretch - 1) < 0.01)
        text_add(into, "In true proportion.\n");
    else if (stretch > 1)
        text_add(into, "NOT TO SCALE: drawn %.1f times too tall.\n", stretch);
    else
        text_add(into, "NOT TO SCALE: drawn %.1f times too wide.\n", 1 / stretch);
}

static struct canvas_view view_of(const struct sheet *sheet) {
    const struct piece *piece = sheet->piece;
    double margin = SIDE_LABEL_COLUMNS + CUT_COLUMNS;
    struct canvas_box box = {margin, CUT_ROWS + 1, SHEET_COLUMNS - 2 * margin,
                             any_curve(sheet) ? ROWS_CURVED : ROWS_STRAIGHT};
    struct canvas_view view =
        canvas_fit(box, piece->cut_least, piece->cut_most, COLUMNS_LEAST, ROWS_LEAST);
    if (canvas_stretch(&view) < 0.99)
        view = canvas_fit(box, piece->cut_least, piece->cut_most, COLUMNS_STRETCHED, ROWS_LEAST);
    return view;
}

static void label(struct drawing *drawing) {
    label_side(drawing, EDGE_LEFT);
    label_side(drawing, EDGE_RIGHT);
    label_across(drawing, EDGE_BOTTOM);
    label_across(drawing, EDGE_TOP);
    label_corners(drawing);
    label_inside(drawing);
}

/* Blank rows above and below are left off. */
static struct canvas cropped(const struct canvas *canvas) {
    size_t first = canvas->rows, last = 0;
    for (size_t i = 0; i < canvas->rows * canvas->columns; i++) {
        if (canvas->cell[i].kind == CELL_BLANK)
            continue;
        last = i / canvas->columns;
        first = first < last ? first : last;
    }
    first = first < last ? first : last;
    return (struct canvas){canvas->columns, last - first + 1,
                           canvas->cell + first * canvas->columns};
}

void sheet_drawing(const struct sheet *sheet, struct text *into) {
    struct cell cell[SHEET_COLUMNS * (ROWS_STRAIGHT + 2 * (CUT_ROWS + 1))];
    struct drawing drawing = {.sheet = sheet, .view = view_of(sheet)};
    drawing.canvas = (struct canvas){
        .columns = SHEET_COLUMNS,
        .rows = (size_t)ceil(drawing.view.shown_rows) + 2 * (CUT_ROWS + 1),
        .cell = cell,
    };
    canvas_clear(&drawing.canvas);
    if (!draw_ring(&drawing, &sheet->piece->cut, CELL_DOTTED) ||
        !draw_ring(&drawing, &sheet->piece->sew, CELL_SOLID)) {
        into->failed = true;
        return;
    }
    cross_corners(&drawing);
    label(&drawing);
    struct canvas shown = cropped(&drawing.canvas);
    canvas_write(&shown, into);
    caption(&drawing, into);
    text_add(into, "\n");
}
