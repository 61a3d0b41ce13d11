/* sheet_envelope.c - the page that shows the whole: side view, and measures to check by. */
#include <stdio.h>
#include <stdlib.h>

#include "paper/plain.h"
#include "paper/sheets.h"
#include "paper/side_view.h"

enum { DRAWING_COLUMNS = 72, DRAWING_ROWS = 24, INDENT = 4 };

static void write_drawing(const struct design *design, const struct envelope *envelope,
                          struct text *into) {
    struct canvas canvas = {SHEET_COLUMNS, DRAWING_ROWS, NULL};
    struct canvas_box box = {INDENT, 0, DRAWING_COLUMNS, DRAWING_ROWS};
    canvas.cell = malloc(canvas.columns * canvas.rows * sizeof *canvas.cell);
    if (canvas.cell == NULL) {
        into->failed = true;
        return;
    }
    canvas_clear(&canvas);
    draw_side_view(design, envelope, &canvas, box);
    canvas_write(&canvas, into);
    free(canvas.cell);
}

/* Where row `row` ends, or the mouth: along the tape and up from the mouth, and the girth
 * over the tapes, straight from tape to tape, to check the sewn envelope by. */
static void write_station(const struct design *design, const struct envelope *envelope, size_t row,
                          double along_m, struct text *into) {
    const struct station *top = &envelope->station[row];
    char name[32] = "mouth", along[32], height[32], across[32], girth[32];
    if (row > 0)
        snprintf(name, sizeof name, row < envelope->rows ? "top of row %zu" : "crown, row %zu",
                 row);
    text_add(into, "  %-14s%14s%14s%14s%15s\n", name, format_length(design, along_m, along),
             format_length(design, top->z_m, height), format_length(design, 2 * top->r_m, across),
             format_length(design, top->chord_m * (double)envelope->gores, girth));
}

static void write_stations_table(const struct design *design, const struct envelope *envelope,
                                 struct text *into) {
    double along_m = envelope->built.gore_length_m;
    text_add(into,
             "TO CHECK BY MEASURE, in %s.  Girth: from tape to tape, all the way round.\n"
             "                    along tape        height      diameter          girth\n",
             length_unit(design));
    for (size_t row = envelope->rows; row > 0; row--) {
        write_station(design, envelope, row, along_m, into);
        along_m -= envelope->station[row - 1].side_m;
    }
    write_station(design, envelope, 0, 0, into);
}

void sheet_envelope(const struct design *design, const struct envelope *envelope,
                    struct text *into) {
    char name[TEXT_MOST];
    text_add(into, "SHEETS FOR %s, the whole envelope\n\n", plain_text(design->name, name));
    write_drawing(design, envelope, into);
    text_add(into,
             "Seen from the side, in %s: tapes and row seams, rows numbered from the mouth.\n"
             "Gore 1 in front, gore 2 to its right.\n\n",
             length_unit(design));
    write_stations_table(design, envelope, into);
}
