/* canvas.c - drawings to scale made of characters. */
#include <math.h>
#include <string.h>

#include "paper/canvas.h"

static const double CELL_TALL = 2; /* height of a cell over its width */

void canvas_clear(struct canvas *canvas) {
    for (size_t i = 0; i < canvas->columns * canvas->rows; i++)
        canvas->cell[i] = (struct cell){' ', CELL_BLANK};
}

static struct cell *cell_at(const struct canvas *canvas, long column, long row) {
    if (column < 0 || row < 0 || (size_t)column >= canvas->columns || (size_t)row >= canvas->rows)
        return NULL;
    return &canvas->cell[(size_t)row * canvas->columns + (size_t)column];
}

struct cell canvas_cell(const struct canvas *canvas, long column, long row) {
    const struct cell *cell = cell_at(canvas, column, row);
    return cell == NULL ? (struct cell){' ', CELL_BLANK} : *cell;
}

/* ---- scale --------------------------------------------------------------- */

struct canvas_view canvas_fit(struct canvas_box box, struct flat_point least,
                              struct flat_point most, double least_columns, double least_rows) {
    double width_m = fmax(most.x_m - least.x_m, 1e-9);
    double height_m = fmax(most.y_m - least.y_m, 1e-9);
    double columns = fmin(box.columns, CELL_TALL * box.rows * width_m / height_m);
    double rows = columns * height_m / width_m / CELL_TALL;
    columns = fmin(fmax(columns, least_columns), box.columns);
    rows = fmin(fmax(rows, least_rows), box.rows);
    return (struct canvas_view){
        .column = box.column + (box.columns - columns) / 2,
        .row = box.row + rows,
        .x_m = least.x_m,
        .y_m = least.y_m,
        .column_m = width_m / columns,
        .row_m = height_m / rows,
        .shown_columns = columns,
        .shown_rows = rows,
    };
}

double canvas_stretch(const struct canvas_view *view) {
    return CELL_TALL * view->column_m / view->row_m;
}

struct canvas_place canvas_place(const struct canvas_view *view, struct flat_point point) {
    return (struct canvas_place){view->column + (point.x_m - view->x_m) / view->column_m,
                                 view->row - (point.y_m - view->y_m) / view->row_m};
}

/* ---- lines ----------------------------------------------------------------- */

static void ink(struct canvas *canvas, double column, double row, char glyph, enum cell_kind kind) {
    if (!(fabs(column) < 1e6 && fabs(row) < 1e6)) /* beyond any canvas, or not a number */
        return;
    struct cell *cell = cell_at(canvas, (long)floor(column), (long)floor(row));
    if (cell == NULL || cell->kind == CELL_TEXT)
        return;
    if (cell->kind == CELL_SOLID && kind == CELL_DOTTED)
        return;
    *cell = (struct cell){glyph, (unsigned char)kind};
}

/* What lies in the first quarter of a row is drawn at the foot of the row above; the ends
 * of steep lines, and points, go with it. */
static const double QUARTER = 0.25;

/* Shallow lines stand at the middle of a cell or at its foot, to the nearest half row. */
static void ink_across(struct canvas *canvas, double column, double row, enum cell_kind kind) {
    double halves = floor(2 * row + 0.5);
    bool foot = fmod(halves, 2) == 0;
    if (kind == CELL_SOLID)
        ink(canvas, column, foot ? halves / 2 - 1 : (halves - 1) / 2, foot ? '_' : '-', kind);
    else
        ink(canvas, column, row, row - floor(row) < 0.5 ? '\'' : '.', kind);
}

/* The part of a line that can touch the canvas: no endless walk along a line
 * that leaves it far away. */
static bool clip(double *from, double *to, double most) {
    *from = fmax(*from, -1);
    *to = fmin(*to, most + 1);
    return *from <= *to;
}

static void shallow_line(struct canvas *canvas, struct canvas_place left, struct canvas_place right,
                         enum cell_kind kind) {
    double slope =
        right.column > left.column ? (right.row - left.row) / (right.column - left.column) : 0;
    double from = floor(left.column), to = floor(right.column);
    if (!clip(&from, &to, (double)canvas->columns))
        return;
    for (double column = from; column <= to; column++) {
        double middle = fmin(fmax(column + 0.5, left.column), right.column);
        double row = left.row + slope * (middle - left.column);
        if (kind == CELL_SOLID && fabs(slope) > 0.35)
            ink(canvas, column, row, slope < 0 ? '/' : '\\', kind);
        else
            ink_across(canvas, column, row, kind);
    }
}

static void steep_line(struct canvas *canvas, struct canvas_place upper, struct canvas_place lower,
                       enum cell_kind kind) {
    double slope = lower.row > upper.row ? (lower.column - upper.column) / (lower.row - upper.row)
                                         : 0; /* columns for each row down */
    double foot = kind == CELL_SOLID ? QUARTER : 0;
    double from = floor(upper.row - foot), to = ceil(lower.row - foot) - 1;
    if (!clip(&from, &to, (double)canvas->rows))
        return;
    for (double row = from; row <= to; row++) {
        double middle = fmin(fmax(row + 0.5, upper.row), lower.row);
        double column = upper.column + slope * (middle - upper.row);
        bool turns = floor(column - slope / 2) != floor(column + slope / 2);
        char solid = !turns ? '|' : slope < 0 ? '/' : '\\';
        ink(canvas, column, row, kind == CELL_SOLID ? solid : ':', kind);
    }
}

void canvas_line(struct canvas *canvas, struct canvas_place from, struct canvas_place to,
                 enum cell_kind kind) {
    double across = fabs(to.column - from.column), down = fabs(to.row - from.row);
    if (!isfinite(across) || !isfinite(down))
        return;
    if (across >= down && from.column <= to.column)
        shallow_line(canvas, from, to, kind);
    else if (across >= down)
        shallow_line(canvas, to, from, kind);
    else if (from.row <= to.row)
        steep_line(canvas, from, to, kind);
    else
        steep_line(canvas, to, from, kind);
}

void canvas_polyline(struct canvas *canvas, const struct canvas_place *place, size_t count,
                     bool closed, enum cell_kind kind) {
    for (size_t i = 0; i + 1 < count; i++)
        canvas_line(canvas, place[i], place[i + 1], kind);
    if (closed && count > 2)
        canvas_line(canvas, place[count - 1], place[0], kind);
}

void canvas_point(struct canvas *canvas, struct canvas_place place, char glyph) {
    ink(canvas, place.column, place.row - QUARTER, glyph, CELL_SOLID);
}

/* ---- text ------------------------------------------------------------------ */

/* Lines of a label stand under one another, their left ends in line. */
struct label_size {
    long columns, rows;
};

static struct label_size size_of(const char *string) {
    struct label_size size = {0, 1};
    long width = 0;
    for (; *string != '\0'; string++) {
        width = *string == '\n' ? 0 : width + 1;
        size.rows += *string == '\n';
        size.columns = width > size.columns ? width : size.columns;
    }
    return size;
}

/* Whether a row of cells, and one more on either side, is free. */
static bool row_has_room(const struct canvas *canvas, long column, long row, long columns,
                         enum canvas_room room) {
    for (long c = column - 1; c <= column + columns; c++) {
        enum cell_kind kind = (enum cell_kind)canvas_cell(canvas, c, row).kind;
        if (kind == CELL_TEXT || (kind != CELL_BLANK && room == ROOM_BLANK))
            return false;
    }
    return true;
}

static bool has_room(const struct canvas *canvas, long column, long row, struct label_size size,
                     enum canvas_room room) {
    if (column < 0 || row < 0 || column + size.columns > (long)canvas->columns ||
        row + size.rows > (long)canvas->rows)
        return false;
    for (long r = row; r < row + size.rows; r++)
        if (!row_has_room(canvas, column, r, size.columns, room))
            return false;
    return true;
}

bool canvas_text(struct canvas *canvas, long column, long row, const char *string,
                 enum canvas_room room) {
    if (!has_room(canvas, column, row, size_of(string), room))
        return false;
    long c = column;
    for (; *string != '\0'; string++)
        if (*string == '\n') {
            c = column;
            row++;
        } else {
            *cell_at(canvas, c++, row) = (struct cell){*string, CELL_TEXT};
        }
    return true;
}

bool canvas_label(struct canvas *canvas, struct canvas_place wanted, const char *string,
                  double farthest, enum canvas_room room) {
    struct label_size size = size_of(string);
    long best_column = -1, best_row = -1;
    double nearest = HUGE_VAL;
    for (long row = 0; row < (long)canvas->rows; row++)
        for (long column = 0; column + size.columns <= (long)canvas->columns; column++) {
            double away = hypot((double)column + (double)size.columns / 2 - wanted.column,
                                CELL_TALL * ((double)row + (double)size.rows / 2 - wanted.row));
            if (away >= nearest || away > farthest || !has_room(canvas, column, row, size, room))
                continue;
            nearest = away;
            best_column = column;
            best_row = row;
        }
    return canvas_text(canvas, best_column, best_row, string, room);
}

/* ---- the result ------------------------------------------------------------ */

void canvas_write(const struct canvas *canvas, struct text *into) {
    for (long row = 0; row < (long)canvas->rows; row++) {
        long width = (long)canvas->columns;
        while (width > 0 && canvas_cell(canvas, width - 1, row).kind == CELL_BLANK)
            width--;
        for (long column = 0; column < width; column++) {
            char glyph = canvas_cell(canvas, column, row).glyph;
            text_add_bytes(into, &glyph, 1);
        }
        text_add(into, "\n");
    }
}
