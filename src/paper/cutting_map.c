/* cutting_map.c - a strip of cloth with its pieces, drawn in characters. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "gorewright/drawing.h"
#include "paper/cutting_page.h"

enum { COLUMNS = 79, EDGE_COLUMNS = 2, BAND_ROWS_MOST = 20 };

/* What a band of the drawing shows. */
struct band {
    const struct strip_view *strip;
    struct canvas canvas;
    struct canvas_view view;
    double from_m, to_m;
    struct canvas_place *place; /* room for the longest outline */
};

/* ---- scale ------------------------------------------------------------------ */

/* Round scales, so that a place can be read off by counting columns. */
static double column_m(const struct strip_view *strip) {
    static const double mm[] = {5, 8, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100};
    static const double inch[] = {0.25, 0.5, 1, 1.5, 2, 2.5, 3, 4};
    bool inches = strip->design->paper.units == UNITS_INCH;
    size_t count = inches ? COUNT_OF(inch) : COUNT_OF(mm), i = 0;
    double width_m = strip->cloth->strip[strip->strip].width_m, size_m;
    do
        size_m = inches ? inch[i] * METRES_PER_INCH : mm[i] * 1e-3;
    while (width_m / (2 * size_m) > BAND_ROWS_MOST - 2 && ++i < count);
    return size_m;
}

static size_t band_columns(const struct strip_view *strip) {
    return strip->design->paper.units == UNITS_INCH ? 72 : 75;
}

/* ---- pieces ------------------------------------------------------------------- */

static const struct cutting_strip *strip_of(const struct band *band) {
    return &band->strip->cloth->strip[band->strip->strip];
}

static void draw_outline(struct band *band, const struct cutting_piece *piece) {
    const struct layout_outline *outline = &band->strip->cloth->outline[piece->place.outline];
    double edge_m = strip_of(band)->edge_m;
    for (size_t i = 0; i < outline->points; i++) {
        struct flat_point at = layout_point(outline->point[i], &piece->place);
        at.y_m += edge_m;
        band->place[i] = canvas_place(&band->view, at);
    }
    canvas_polyline(&band->canvas, band->place, outline->points, true, CELL_SOLID);
}

static struct flat_point point_at(const struct band *band, double column, double row) {
    const struct canvas_view *view = &band->view;
    return (struct flat_point){view->x_m + (column - view->column) * view->column_m,
                               view->y_m + (view->row - row) * view->row_m};
}

/* Whether a point of the strip lies on a piece: a line from it to the right crosses the outline
 * an odd number of times. */
static bool is_on(const struct band *band, const struct cutting_piece *piece,
                  struct flat_point point) {
    const struct layout_outline *outline = &band->strip->cloth->outline[piece->place.outline];
    double y = point.y_m - strip_of(band)->edge_m;
    bool inside = false;
    for (size_t i = 0; i < outline->points; i++) {
        struct flat_point a = layout_point(outline->point[i], &piece->place);
        struct flat_point b =
            layout_point(outline->point[(i + 1) % outline->points], &piece->place);
        if ((a.y_m > y) != (b.y_m > y) &&
            point.x_m < a.x_m + (b.x_m - a.x_m) * (y - a.y_m) / (b.y_m - a.y_m))
            inside = !inside;
    }
    return inside;
}

/* The words at the free place nearest to the middle of the part that is seen, if it is on the
 * piece from end to end. */
static bool write_words(struct band *band, const struct cutting_piece *piece, const char *words) {
    const double farthest = 12;
    double middle_m = (fmax(piece->from_m, band->from_m) + fmin(piece->to_m, band->to_m)) / 2;
    struct flat_point middle = {middle_m, (piece->near_m + piece->far_m) / 2};
    struct canvas_place wanted = canvas_place(&band->view, middle);
    long column, row, length = 0;
    while (words[length] != '\0')
        length++;
    if (!canvas_room_near(&band->canvas, wanted, words, farthest, ROOM_BLANK, &column, &row))
        return false;
    double middle_row = (double)row + 0.5;
    return is_on(band, piece, point_at(band, (double)column, middle_row)) &&
           is_on(band, piece, point_at(band, (double)(column + length), middle_row)) &&
           canvas_text_as(&band->canvas, CELL_LABEL, column, row, words, ROOM_BLANK);
}

/* Template and gore, or the template alone, on the part of a piece where its middle is. */
static void label(struct band *band, const struct cutting_piece *piece) {
    const char *name = band->strip->envelope->piece[piece->piece].name;
    double middle_m = (piece->from_m + piece->to_m) / 2;
    char words[24];
    if (middle_m < band->from_m || middle_m >= band->to_m)
        return;
    snprintf(words, sizeof words, "%.7s %zu", name, piece->gore);
    if (!write_words(band, piece, words))
        write_words(band, piece, name);
}

/* ---- a band --------------------------------------------------------------------- */

/* Both edges of the cloth, its start, and where its used part ends. */
static void draw_cloth(struct band *band, double used_m) {
    double width_m = strip_of(band)->width_m, to_m = fmin(used_m, band->to_m);
    const struct flat_point corner[] = {
        {band->from_m, 0}, {to_m, 0}, {to_m, width_m}, {band->from_m, width_m}};
    struct canvas_place place[COUNT_OF(corner)];
    for (size_t i = 0; i < COUNT_OF(corner); i++)
        place[i] = canvas_place(&band->view, corner[i]);
    canvas_line(&band->canvas, place[0], place[1], CELL_DOTTED);
    canvas_line(&band->canvas, place[3], place[2], CELL_DOTTED);
    if (band->from_m <= 0)
        canvas_line(&band->canvas, place[0], place[3], CELL_DOTTED);
    if (used_m <= band->to_m)
        canvas_line(&band->canvas, place[1], place[2], CELL_DOTTED);
}

/* A rule below: a stroke and a figure every half metre, or every foot. */
static void draw_rule(struct band *band) {
    bool inches = band->strip->design->paper.units == UNITS_INCH;
    double step_m = inches ? 12 * METRES_PER_INCH : 0.5;
    long row = (long)band->canvas.rows - 1;
    char words[32];
    for (double n = ceil(band->from_m / step_m - 1e-9) + 0.0; n * step_m <= band->to_m + 1e-9;
         n++) {
        struct canvas_place at = canvas_place(&band->view, (struct flat_point){n * step_m, 0});
        snprintf(words, sizeof words, inches ? "|%.0f ft" : "|%.1f m", n * (inches ? 1 : step_m));
        canvas_text_as(&band->canvas, CELL_DIMENSION, (long)floor(at.column + 1e-6), row, words,
                       ROOM_BLANK);
    }
}

static void draw_band(struct band *band, double used_m) {
    const struct cutting_cloth *cloth = band->strip->cloth;
    canvas_clear(&band->canvas);
    draw_cloth(band, used_m);
    for (size_t i = 0; i < cloth->pieces; i++) {
        const struct cutting_piece *piece = &cloth->piece[i];
        if (piece->place.bolt == band->strip->strip && piece->from_m < band->to_m &&
            piece->to_m > band->from_m)
            draw_outline(band, piece);
    }
    for (size_t i = 0; i < cloth->pieces; i++)
        if (cloth->piece[i].place.bolt == band->strip->strip)
            label(band, &cloth->piece[i]);
    draw_rule(band);
}

static size_t most_points(const struct cutting_cloth *cloth) {
    size_t most = 0;
    for (size_t i = 0; i < cloth->outlines; i++)
        most = cloth->outline[i].points > most ? cloth->outline[i].points : most;
    return most;
}

static void say_scale(const struct strip_view *strip, double size_m, struct text *into) {
    if (strip->design->paper.units == UNITS_INCH)
        text_add(into,
                 "Start of the roll at the left, near edge below. Column %g in, line %g in.\n",
                 size_m / METRES_PER_INCH, 2 * size_m / METRES_PER_INCH);
    else
        text_add(into,
                 "Start of the roll at the left, near edge below. Column %g mm, line %g mm.\n",
                 size_m * 1e3, 2 * size_m * 1e3);
}

bool cutting_map(const struct strip_view *strip, struct text *into) {
    struct cell cell[COLUMNS * (BAND_ROWS_MOST + 8)];
    const struct cutting_cloth *cloth = strip->cloth;
    double used_m = cloth->layout.used_m[strip->strip], size_m = column_m(strip);
    double width_m = cloth->strip[strip->strip].width_m, rows = ceil(width_m / (2 * size_m));
    size_t columns = band_columns(strip);
    struct band band = {.strip = strip, .canvas = {columns + EDGE_COLUMNS, 0, cell}};
    band.place = malloc((most_points(cloth) + 1) * sizeof *band.place);
    if (band.place == NULL)
        return false;
    band.canvas.rows = (size_t)fmin(rows + 2, BAND_ROWS_MOST + 8);
    say_scale(strip, size_m, into);
    for (size_t i = 0; (double)(i * columns) * size_m < used_m; i++) {
        band.from_m = (double)(i * columns) * size_m;
        band.to_m = band.from_m + (double)columns * size_m;
        band.view = (struct canvas_view){.column = 1,
                                         .row = (double)band.canvas.rows - 1.01,
                                         .x_m = band.from_m,
                                         .column_m = size_m,
                                         .row_m = 2 * size_m};
        draw_band(&band, used_m);
        text_add(into, "\n");
        canvas_write(&band.canvas, into);
    }
    free(band.place);
    return true;
}
