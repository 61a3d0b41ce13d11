/* canvas.c - drawings to scale made of characters. */
#include <math.h>
#include <string.h>

#include "gorewright/drawing.h"

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

void canvas_paste(const struct canvas *drawing, struct canvas *canvas, long column, long row) {
    for (long r = 0; r < (long)drawing->rows; r++)
        for (long c = 0; c < (long)drawing->columns; c++) {
            struct cell *to = cell_at(canvas, column + c, row + r);
            if (to != NULL)
                *to = canvas_cell(drawing, c, r);
        }
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

/* Lines cover lines of their own rank or below; words are above them all. */
static int line_rank(unsigned kind) {
    switch (kind) {
    case CELL_BLANK:
        return 0;
    case CELL_DOTTED:
        return 1;
    case CELL_SOLID:
        return 2;
    case CELL_LIT:
        return 3;
    default:
        return 4;
    }
}

static void ink(struct canvas *canvas, double column, double row, char glyph, enum cell_kind kind) {
    if (!(fabs(column) < 1e6 && fabs(row) < 1e6)) /* beyond any canvas, or not a number */
        return;
    struct cell *cell = cell_at(canvas, (long)floor(column), (long)floor(row));
    if (cell == NULL || line_rank(cell->kind) > line_rank(kind))
        return;
    *cell = (struct cell){glyph, (unsigned char)kind};
}

/* What lies in the first quarter of a row is drawn at the foot of the row above; the ends
 * of steep lines, and points, go with it. */
static const double QUARTER = 0.25;

long canvas_level_row(double row) {
    return (long)floor((floor(2 * row + 0.5) - 1) / 2);
}

/* Shallow lines stand at the middle of a cell or at its foot, to the nearest half row. */
static void ink_across(struct canvas *canvas, double column, double row, enum cell_kind kind) {
    double halves = floor(2 * row + 0.5);
    bool foot = fmod(halves, 2) == 0;
    if (kind != CELL_DOTTED)
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
        if (kind != CELL_DOTTED && fabs(slope) > 0.35)
            ink(canvas, column, row, slope < 0 ? '/' : '\\', kind);
        else
            ink_across(canvas, column, row, kind);
    }
}

static void steep_line(struct canvas *canvas, struct canvas_place upper, struct canvas_place lower,
                       enum cell_kind kind) {
    double slope = lower.row > upper.row ? (lower.column - upper.column) / (lower.row - upper.row)
                                         : 0; /* columns for each row down */
    double foot = kind != CELL_DOTTED ? QUARTER : 0;
    double from = floor(upper.row - foot), to = ceil(lower.row - foot) - 1;
    if (!clip(&from, &to, (double)canvas->rows))
        return;
    for (double row = from; row <= to; row++) {
        double middle = fmin(fmax(row + 0.5, upper.row), lower.row);
        double column = upper.column + slope * (middle - upper.row);
        bool turns = floor(column - slope / 2) != floor(column + slope / 2);
        char solid = !turns ? '|' : slope < 0 ? '/' : '\\';
        ink(canvas, column, row, kind != CELL_DOTTED ? solid : ':', kind);
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

void canvas_point(struct canvas *canvas, struct canvas_place place, char glyph,
                  enum cell_kind kind) {
    ink(canvas, place.column, place.row - QUARTER, glyph, kind);
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
        int rank = line_rank(canvas_cell(canvas, c, row).kind);
        if (rank > (room == ROOM_BLANK ? 0 : 2))
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

bool canvas_text_as(struct canvas *canvas, enum cell_kind kind, long column, long row,
                    const char *string, enum canvas_room room) {
    if (!has_room(canvas, column, row, size_of(string), room))
        return false;
    long c = column;
    for (; *string != '\0'; string++)
        if (*string == '\n') {
            c = column;
            row++;
        } else {
            *cell_at(canvas, c++, row) = (struct cell){*string, (unsigned char)kind};
        }
    return true;
}

bool canvas_text(struct canvas *canvas, long column, long row, const char *string,
                 enum canvas_room room) {
    return canvas_text_as(canvas, CELL_TEXT, column, row, string, room);
}

bool canvas_room_near(const struct canvas *canvas, struct canvas_place wanted, const char *string,
                      double farthest, enum canvas_room room, long *at_column, long *at_row) {
    struct label_size size = size_of(string);
    bool found = false;
    double nearest = farthest < 1e6 ? nextafter(farthest * farthest, HUGE_VAL) : HUGE_VAL;
    for (long row = 0; row < (long)canvas->rows; row++) {
        double down = CELL_TALL * ((double)row + (double)size.rows / 2 - wanted.row);
        if (!(down * down < nearest))
            continue;
        for (long column = 0; column + size.columns <= (long)canvas->columns; column++) {
            double across = (double)column + (double)size.columns / 2 - wanted.column;
            double away = across * across + down * down;
            if (!(away < nearest) || !has_room(canvas, column, row, size, room))
                continue;
            nearest = away;
            *at_column = column;
            *at_row = row;
            found = true;
        }
    }
    return found;
}

bool canvas_label_as(struct canvas *canvas, enum cell_kind kind, struct canvas_place wanted,
                     const char *string, double farthest, enum canvas_room room) {
    long column, row;
    return canvas_room_near(canvas, wanted, string, farthest, room, &column, &row) &&
           canvas_text_as(canvas, kind, column, row, string, room);
}

bool canvas_label(struct canvas *canvas, struct canvas_place wanted, const char *string,
                  double farthest, enum canvas_room room) {
    return canvas_label_as(canvas, CELL_TEXT, wanted, string, farthest, room);
}

long canvas_put(struct canvas *canvas, long column, long row, enum cell_kind kind,
                const char *string) {
    for (; *string != '\0'; string++, column++) {
        struct cell *cell = cell_at(canvas, column, row);
        char glyph = *string >= ' ' && *string <= '~' ? *string : '?';
        if (cell != NULL)
            *cell = (struct cell){glyph, (unsigned char)kind};
    }
    return column;
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
