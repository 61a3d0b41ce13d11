/* side_view.c - tapes, row seams and dimensions of the whole envelope. */
#include "paper/side_view.h"

#include <math.h>
#include <stdio.h>

#include "gorewright/paper.h"

enum { LABEL_COLUMNS = 20, BOX_COLUMNS_LEAST = 30, BOX_ROWS_LEAST = 10, GAP_COLUMNS_LEAST = 3 };

struct side_view {
    const struct envelope *envelope;
    struct canvas *canvas;
    struct canvas_view view;
};

static struct canvas_place corner(const struct side_view *side, size_t tape, size_t station) {
    return canvas_place(&side->view, side_view_corner(side->envelope, tape, station));
}

static void draw_tape(const struct side_view *side, size_t tape, enum cell_kind kind) {
    for (size_t j = 0; j < side->envelope->rows; j++)
        canvas_line(side->canvas, corner(side, tape, j), corner(side, tape, j + 1), kind);
}

/* Every tape of the near half, or every second, third... where they would run together. */
static size_t tape_step(const struct side_view *side) {
    double widest = side->envelope->built.max_diameter_m / side->view.column_m;
    double gap = widest * sin(PI / (double)side->envelope->gores);
    return gap >= GAP_COLUMNS_LEAST ? 1 : (size_t)ceil(GAP_COLUMNS_LEAST / fmax(gap, 0.1));
}

static void draw_lines(const struct side_view *side, size_t left, size_t right) {
    const struct envelope *envelope = side->envelope;
    size_t step = tape_step(side);
    for (size_t j = 0; j <= envelope->rows; j++)
        canvas_line(side->canvas, corner(side, left, j), corner(side, right, j), CELL_DOTTED);
    for (size_t tape = 0; tape < envelope->gores; tape++)
        if (side_view_faces(envelope, tape) && tape % step == 0)
            draw_tape(side, tape, CELL_DOTTED);
    draw_tape(side, left, CELL_SOLID);
    draw_tape(side, right, CELL_SOLID);
    canvas_line(side->canvas, corner(side, left, 0), corner(side, right, 0), CELL_SOLID);
    canvas_line(side->canvas, corner(side, left, envelope->rows),
                corner(side, right, envelope->rows), CELL_SOLID);
}

/* Dimensions stand in one column to the right, each at the height it is measured at. */
static void label(const struct side_view *side, const struct design *design, double row,
                  const char *name, double length_m) {
    char length[32], string[64];
    double half_m = 0.5 * side->envelope->built.max_diameter_m;
    struct canvas_place edge = canvas_place(&side->view, (struct flat_point){half_m, 0});
    snprintf(string, sizeof string, "%-7s%s", name, format_length(design, length_m, length));
    /* The mouth lies on the lower border of its row of cells. */
    canvas_text(side->canvas, (long)edge.column + 3, (long)fmax(row - 0.01, 0), string, ROOM_BLANK);
}

static size_t widest_station(const struct envelope *envelope) {
    size_t widest = 0;
    for (size_t j = 1; j <= envelope->rows; j++)
        if (envelope->station[j].r_m > envelope->station[widest].r_m)
            widest = j;
    return widest;
}

static void draw_labels(const struct side_view *side, const struct design *design, size_t right) {
    const struct built *built = &side->envelope->built;
    double top = corner(side, right, side->envelope->rows).row, foot = corner(side, right, 0).row;
    double widest = corner(side, right, widest_station(side->envelope)).row;
    label(side, design, top, "crown", built->crown_diameter_m);
    label(side, design, widest, "widest", built->max_diameter_m);
    label(side, design, 0.5 * (widest + foot), "height", built->height_m);
    label(side, design, foot, "mouth", built->mouth_diameter_m);
}

void draw_side_view(const struct design *design, const struct envelope *envelope,
                    struct canvas *canvas, struct canvas_box box) {
    bool labels = box.columns >= BOX_COLUMNS_LEAST && box.rows >= BOX_ROWS_LEAST;
    double half_m = 0.5 * envelope->built.max_diameter_m;
    struct flat_point least = {-half_m, 0}, most = {half_m, envelope->built.height_m};
    struct canvas_box drawing = box;
    size_t left, right;
    if (labels)
        drawing.columns -= LABEL_COLUMNS;
    struct side_view side = {envelope, canvas, canvas_fit(drawing, least, most, 1, 1)};
    side_view_edges(envelope, &left, &right);
    draw_lines(&side, left, right);
    if (labels)
        draw_labels(&side, design, right);
}
