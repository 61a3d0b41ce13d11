/* sheet_envelope.c - the page that shows the whole: side view, and measures to check by. */
#include <stdio.h>
#include <stdlib.h>

#include "gorewright/drawing.h"
#include "paper/lengths.h"
#include "paper/plain.h"
#include "paper/sheets.h"

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

/* ---- measures to check by ---------------------------------------------------- */

static bool all_faceted(const struct envelope *envelope) {
    return envelope->style_count[FACETED] == envelope->gores;
}

/* With faceted gores alone the cloth is straight from tape to tape: one girth does. */
static size_t table_columns(const struct envelope *envelope) {
    return all_faceted(envelope) ? 4 : 5;
}

enum { NAME_COLUMNS = 16, FIGURE_COLUMNS = 12 };

static void write_column_headings(const struct envelope *envelope, struct text *into) {
    static const char *const heading[][5] = {
        {"", "", "", "girth", "girth"},
        {"along", "height", "diameter", "from tape", "round the"},
        {"tape", "", "", "to tape", "cloth"}};
    for (size_t line = 0; line < COUNT_OF(heading); line++) {
        size_t last = table_columns(envelope);
        text_add(into, "%*s", NAME_COLUMNS, "");
        for (size_t i = 0; i < last; i++)
            text_add(into, "%*s", FIGURE_COLUMNS, heading[line][i]);
        text_add(into, "\n");
    }
}

/* Where row `row` ends, or the mouth: along the tape and up from the mouth, and the girth. */
static void write_station(const struct design *design, const struct envelope *envelope, size_t row,
                          double along_m, struct text *into) {
    const struct station *top = &envelope->station[row];
    const double length_m[] = {along_m, top->z_m, 2 * top->r_m,
                               top->chord_m * (double)envelope->gores, girth_m(envelope, row)};
    char name[32] = "mouth", length[32];
    if (row > 0)
        snprintf(name, sizeof name, row < envelope->rows ? "top of row %zu" : "crown, row %zu",
                 row);
    text_add(into, "  %-*s", NAME_COLUMNS - 2, name);
    for (size_t i = 0; i < table_columns(envelope); i++)
        text_add(into, "%*s", FIGURE_COLUMNS, format_length(design, length_m[i], length));
    text_add(into, "\n");
}

static void write_table_heading(const struct design *design, const struct envelope *envelope,
                                struct text *into) {
    char words[256];
    snprintf(words, sizeof words,
             "TO CHECK BY MEASURE, in %s. Girth, all the way round: from tape to tape%s",
             unit_in_words(design),
             all_faceted(envelope)
                 ? "."
                 : ", and round the cloth as along the row seam, into the valley at every tape.");
    flow_text(into, words, 0, 0);
    write_column_headings(envelope, into);
}

/* From the crown down, over as many pages as it needs. */
static void write_stations_table(const struct design *design, const struct envelope *envelope,
                                 struct text *into) {
    double along_m = envelope->built.gore_length_m;
    write_table_heading(design, envelope, into);
    for (size_t row = envelope->rows + 1; row-- > 0;) {
        if (page_is_full(into)) {
            text_add(into, "\f");
            sheet_begin(design, true, into);
            text_add(into, "The whole envelope\n\n");
            write_column_headings(envelope, into);
        }
        write_station(design, envelope, row, row > 0 ? along_m : 0, into);
        along_m -= row > 0 ? envelope->station[row - 1].side_m : 0;
    }
}

void sheet_envelope(const struct design *design, const struct envelope *envelope,
                    struct text *into) {
    char words[128];
    sheet_begin(design, false, into);
    text_add(into, "The whole envelope\n\n");
    write_drawing(design, envelope, into);
    text_add(into, "\n");
    snprintf(
        words, sizeof words,
        "Seen from the side, in %s: tapes and row seams; gore 1 in front, gore 2 to its right.",
        unit_in_words(design));
    flow_text(into, words, 0, 0);
    text_add(into, "\n");
    write_stations_table(design, envelope, into);
}
