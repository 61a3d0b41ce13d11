/* sheet_drawing.c - one piece to scale, its dimensions standing on it. */
#include <math.h>

#include "paper/sheets.h"

enum {
    SIDE_LABEL_COLUMNS = 12,
    END_ROWS = PIECE_CUT_ROWS + 1,
    ROWS_STRAIGHT = 20, /* of the piece itself; a curved piece needs its lines for offsets */
    ROWS_CURVED = 14,
    ROWS_LEAST = 9,
    COLUMNS_LEAST = 18,
    COLUMNS_STRETCHED = 26 /* of a piece too slender for its true proportions */
};

static bool any_curve(const struct sheet *sheet) {
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++)
        if (reads_curved(sheet, e))
            return true;
    return false;
}

static void caption(const struct canvas_view *view, struct text *into) {
    double stretch = canvas_stretch(view);
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
    double rows = any_curve(sheet) ? ROWS_CURVED : ROWS_STRAIGHT;
    struct canvas_box box = {0, 0, SHEET_COLUMNS, rows + 2 * END_ROWS};
    struct canvas_view view = piece_view(sheet, box, SIDE_LABEL_COLUMNS, COLUMNS_LEAST, ROWS_LEAST);
    if (canvas_stretch(&view) < 0.99)
        view = piece_view(sheet, box, SIDE_LABEL_COLUMNS, COLUMNS_STRETCHED, ROWS_LEAST);
    return view;
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
    static const struct piece_look look = {.lit = -1, .words = CELL_TEXT, .lengths = CELL_TEXT};
    struct cell cell[SHEET_COLUMNS * (ROWS_STRAIGHT + 2 * END_ROWS)];
    struct canvas_view view = view_of(sheet);
    struct canvas canvas = {
        .columns = SHEET_COLUMNS,
        .rows = (size_t)ceil(view.shown_rows) + 2 * END_ROWS,
        .cell = cell,
    };
    canvas_clear(&canvas);
    if (!draw_piece_lines(sheet, &look, &view, &canvas)) {
        into->failed = true;
        return;
    }
    draw_piece_words(sheet, &look, &view, &canvas);
    struct canvas shown = cropped(&canvas);
    canvas_write(&shown, into);
    caption(&view, into);
    text_add(into, "\n");
}
