/* side_view.c - tapes, row seams and dimensions of the whole envelope. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gorewright/drawing.h"
#include "gorewright/paper.h"

enum {
    GAP_COLUMNS_LEAST = 3,
    NUMBER_COLUMNS = 4, /* kept on the left for row numbers */
    HEIGHT_COLUMNS = 4, /* kept on the right for the line of the height */
};

struct side_view {
    const struct design *design;
    const struct envelope *envelope;
    struct canvas *canvas;
    struct canvas_box box;
    struct canvas_view view;
    size_t widest; /* station */
};

static struct canvas_place corner(const struct side_view *side, size_t tape, size_t station) {
    return canvas_place(&side->view, side_view_corner(side->envelope, tape, station));
}

static struct canvas_place silhouette(const struct side_view *side, bool right, size_t station) {
    return canvas_place(&side->view, side_view_silhouette(side->envelope, right, station));
}

/* ---- lines ------------------------------------------------------------------ */

/* Every tape of the near half, or every second, third... where they would run together. */
static size_t tape_step(const struct side_view *side) {
    double widest = side->envelope->built.max_diameter_m / side->view.column_m;
    double gap = widest * sin(PI / (double)side->envelope->gores);
    return gap >= GAP_COLUMNS_LEAST ? 1 : (size_t)ceil(GAP_COLUMNS_LEAST / fmax(gap, 0.1));
}

static void draw_tapes(const struct side_view *side) {
    const struct envelope *envelope = side->envelope;
    size_t step = tape_step(side);
    for (size_t tape = 0; tape < envelope->gores; tape++)
        if (side_view_faces(envelope, tape) && tape % step == 0)
            for (size_t j = 0; j < envelope->rows; j++)
                canvas_line(side->canvas, corner(side, tape, j), corner(side, tape, j + 1),
                            CELL_DOTTED);
}

/* The row seams, as far apart as they can be told from each other. */
static void draw_seams(const struct side_view *side) {
    double last = HUGE_VAL;
    for (size_t j = 1; j < side->envelope->rows; j++) {
        struct canvas_place left = silhouette(side, false, j), right = silhouette(side, true, j);
        if (fabs(last - left.row) < 1)
            continue;
        canvas_line(side->canvas, left, right, CELL_DOTTED);
        last = left.row;
    }
}

static void draw_outline(const struct side_view *side) {
    size_t rows = side->envelope->rows;
    for (int right = 0; right <= 1; right++)
        for (size_t j = 0; j < rows; j++)
            canvas_line(side->canvas, silhouette(side, right, j), silhouette(side, right, j + 1),
                        CELL_SOLID);
    canvas_line(side->canvas, silhouette(side, false, 0), silhouette(side, true, 0), CELL_SOLID);
    canvas_line(side->canvas, silhouette(side, false, rows), silhouette(side, true, rows),
                CELL_SOLID);
}

/* ---- dimensions ------------------------------------------------------------- */

static const char *named_length(const struct side_view *side, const char *name, double length_m,
                                char into[64]) {
    char length[32];
    snprintf(into, 64, "%s%s", name, format_length(side->design, length_m, length));
    return into;
}

/* Centred over the crown opening and under the mouth. */
static void label_ends(const struct side_view *side) {
    const struct built *built = &side->envelope->built;
    char crown[64], mouth[64];
    double middle = side->view.column + side->view.shown_columns / 2;
    named_length(side, "crown ", built->crown_diameter_m, crown);
    named_length(side, "mouth ", built->mouth_diameter_m, mouth);
    canvas_text_as(side->canvas, CELL_DIMENSION, (long)(middle - (double)strlen(crown) / 2),
                   canvas_level_row(side->view.row - side->view.shown_rows) - 1, crown,
                   ROOM_OVER_LINES);
    canvas_text_as(side->canvas, CELL_DIMENSION, (long)(middle - (double)strlen(mouth) / 2),
                   canvas_level_row(side->view.row) + 1, mouth, ROOM_OVER_LINES);
}

/* On the seam at the widest station, from side to side. */
static void label_widest(const struct side_view *side) {
    const struct built *built = &side->envelope->built;
    char words[64];
    struct canvas_place left = silhouette(side, false, side->widest);
    struct canvas_place right = silhouette(side, true, side->widest);
    struct canvas_place middle = {(left.column + right.column) / 2, floor(left.row - 0.01) + 0.5};
    bool stands_out = built->mid_diameter_m > built->max_diameter_m && side->view.shown_rows >= 16;
    named_length(side, stands_out ? "at the tapes " : "widest ", built->max_diameter_m, words);
    canvas_label_as(side->canvas, CELL_DIMENSION, middle, words, HUGE_VAL, ROOM_OVER_LINES);
    middle.row -= 1;
    if (stands_out)
        canvas_label_as(side->canvas, CELL_DIMENSION, middle,
                        named_length(side, "over the bulges ", built->mid_diameter_m, words), 3,
                        ROOM_OVER_LINES);
}

/* An upright line with arrowheads, from the row of the mouth to that of the crown. */
static void draw_height(const struct side_view *side, long column) {
    double middle = (double)column + 0.5;
    double top = (double)canvas_level_row(side->view.row - side->view.shown_rows) + 0.5;
    double foot = (double)canvas_level_row(side->view.row) + 0.5;
    canvas_line(side->canvas, (struct canvas_place){middle, top},
                (struct canvas_place){middle, foot}, CELL_DOTTED);
    canvas_point(side->canvas, (struct canvas_place){middle, top}, '^', CELL_SOLID);
    canvas_point(side->canvas, (struct canvas_place){middle, foot}, 'v', CELL_SOLID);
}

/* Height and its name beside the line, or to the left of it where the envelope leaves room. */
static void label_height(const struct side_view *side) {
    static const char *const form[] = {"height ", "height\n"};
    double top = side->view.row - side->view.shown_rows, foot = side->view.row;
    long column = (long)ceil(side->view.column + side->view.shown_columns) + 2;
    draw_height(side, column);
    for (size_t i = 0; i < COUNT_OF(form); i++) {
        char words[64];
        named_length(side, form[i], side->envelope->built.height_m, words);
        if (canvas_text_as(side->canvas, CELL_DIMENSION, column + 2, (long)((top + foot) / 2),
                           words, ROOM_BLANK))
            return;
        size_t width = strlen(i == 0 ? words : strchr(words, '\n') + 1);
        double left = (double)column - 1 - fmax((double)width, 6);
        for (double part = 0.6; part < 0.95; part += 0.05)
            if (canvas_text_as(side->canvas, CELL_DIMENSION, (long)left,
                               (long)(top + part * (foot - top)), words, ROOM_BLANK))
                return;
    }
    char words[64];
    named_length(side, "height ", side->envelope->built.height_m, words);
    canvas_label_as(side->canvas, CELL_DIMENSION,
                    (struct canvas_place){(double)column, (top + foot) / 2}, words, HUGE_VAL,
                    ROOM_OVER_LINES);
}

/* ---- rows and styles -------------------------------------------------------- */

/* Outside on the left, square to the outline. */
static bool label_row(const struct side_view *side, size_t row, bool named) {
    char number[32];
    snprintf(number, sizeof number, "%s%zu", named ? "row " : "", row);
    struct canvas_place low = silhouette(side, false, row - 1);
    struct canvas_place high = silhouette(side, false, row);
    double across = high.column - low.column, up = 2 * (low.row - high.row);
    double slant = fmax(hypot(across, up), 1e-9);
    double half = (double)strlen(number) / 2;
    struct canvas_place wanted = {
        (low.column + high.column) / 2 - (1.5 + half) * up / slant,
        (low.row + high.row) / 2 - 1.2 * across / slant,
    };
    return canvas_label_as(side->canvas, CELL_LABEL, wanted, number, 1.6, ROOM_BLANK);
}

/* As many numbers as stand clear of each other, the first with the word "row". */
static void label_rows(const struct side_view *side) {
    double rows = (double)side->envelope->rows;
    size_t step = (size_t)ceil(fmax(1, 1.5 * rows / fmax(side->view.shown_rows, 1)));
    bool named = false;
    for (size_t row = 1; row <= side->envelope->rows; row++) {
        if (row > 1 && row % step != 0)
            continue;
        if (!named)
            named = label_row(side, row, true);
        else
            label_row(side, row, false);
    }
}

static bool is_mixed(const struct envelope *envelope) {
    for (int style = 0; style < STYLE_COUNT; style++)
        if (envelope->style_count[style] == envelope->gores)
            return false;
    return true;
}

/* A letter in each gore that is wide enough, under the widest row seam. */
static void label_gores(const struct side_view *side) {
    const struct envelope *envelope = side->envelope;
    struct canvas_place seam = silhouette(side, true, side->widest);
    for (size_t gore = 0; gore < envelope->gores; gore++) {
        size_t before = (gore + envelope->gores - 1) % envelope->gores;
        struct canvas_place left = corner(side, before, side->widest);
        struct canvas_place right = corner(side, gore, side->widest);
        char letter[2] = {"FHB"[envelope->gore_style[gore]], '\0'};
        if (right.column - left.column < GAP_COLUMNS_LEAST)
            continue;
        canvas_text_as(side->canvas, CELL_LABEL, (long)((left.column + right.column) / 2),
                       (long)floor(seam.row - 0.01) + 1, letter, ROOM_OVER_LINES);
    }
}

static void put_key(const struct side_view *side, const char *key) {
    canvas_label_as(side->canvas, CELL_LABEL,
                    (struct canvas_place){side->box.column + 6, side->view.row - 0.5}, key,
                    0.4 * side->box.columns, ROOM_BLANK);
}

static void explain_letters(const struct side_view *side) {
    char key[96] = "";
    for (int style = 0; style < STYLE_COUNT; style++)
        if (side->envelope->style_count[style] > 0)
            snprintf(key + strlen(key), sizeof key - strlen(key), "%s%c %s",
                     key[0] != '\0' ? "\n" : "", "FHB"[style], style_name((enum style)style));
    put_key(side, key);
}

/* ---- colours ---------------------------------------------------------------- */

static double column_at(const struct side_view *side, size_t gore, size_t row, double u) {
    double low =
        canvas_place(&side->view, side_view_cloth(side->envelope, gore, row - 1, u)).column;
    double high = canvas_place(&side->view, side_view_cloth(side->envelope, gore, row, u)).column;
    return (low + high) / 2;
}

/* A letter for a part of a panel, and where it stands. */
struct letter {
    char glyph[2];
    long column, row;
};

/* The letter of what lies between u = left and right; false when it would touch a line. */
static bool find_letter(const struct side_view *side, size_t gore, size_t row, double left,
                        double right, struct letter *letter) {
    struct cloth_colour cloth[CLOTHS_MOST];
    double low = silhouette(side, true, row - 1).row, high = silhouette(side, true, row).row;
    double first = column_at(side, gore, row, left), last = column_at(side, gore, row, right);
    design_cloths(side->design, cloth);
    size_t colour = design_colour_of(side->design, gore, row, left >= 0);
    *letter = (struct letter){{cloth[colour].letter, '\0'},
                              (long)floor((first + last) / 2),
                              (long)floor((low + high) / 2)};
    bool clear = letter->column - 1 >= (long)floor(first) &&
                 letter->column + 1 <= (long)floor(last) && letter->row > canvas_level_row(high) &&
                 letter->row < canvas_level_row(low);
    for (long c = letter->column - 1; c <= letter->column + 1; c++)
        clear = clear && canvas_cell(side->canvas, c, letter->row).kind == CELL_BLANK;
    return clear;
}

static void put_letter(const struct side_view *side, const struct letter *letter) {
    canvas_put(side->canvas, letter->column, letter->row, CELL_TEXT, letter->glyph);
}

/* One letter for a panel, or one for each half where their colours differ: both or none. */
static void letter_panel(const struct side_view *side, size_t gore, size_t row) {
    struct letter left, right;
    bool halves = side->envelope->gore_style[gore] == HALF_GORE &&
                  design_colour_of(side->design, gore, row, false) !=
                      design_colour_of(side->design, gore, row, true);
    if (!find_letter(side, gore, row, -1, halves ? 0 : 1, &left))
        return;
    if (halves && (!find_letter(side, gore, row, 0, 1, &right) || right.column < left.column + 2))
        return;
    put_letter(side, &left);
    if (halves)
        put_letter(side, &right);
}

static bool faces(const struct side_view *side, size_t gore) {
    size_t gores = side->envelope->gores;
    return side_view_faces(side->envelope, gore) &&
           side_view_faces(side->envelope, (gore + gores - 1) % gores);
}

static void letter_panels(const struct side_view *side) {
    if (tape_step(side) > 1) /* not every tape is drawn: it would not be seen whose letter it is */
        return;
    for (size_t gore = 0; gore < side->envelope->gores; gore++)
        for (size_t row = 1; faces(side, gore) && row <= side->envelope->rows; row++)
            letter_panel(side, gore, row);
}

static void explain_colours(const struct side_view *side) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths = design_cloths(side->design, cloth);
    char name[TEXT_MOST], key[CLOTHS_MOST * (TEXT_MOST + 4)] = "";
    for (size_t i = 0; i < cloths; i++)
        snprintf(key + strlen(key), sizeof key - strlen(key), "%s%c %s", i > 0 ? "\n" : "",
                 cloth[i].letter, plain_text(cloth[i].name, name));
    put_key(side, key);
}

/* ---- the whole -------------------------------------------------------------- */

/* The box around all that is drawn. */
static void extent(const struct envelope *envelope, struct flat_point *least,
                   struct flat_point *most) {
    *least = *most = (struct flat_point){0, 0};
    for (size_t j = 0; j <= envelope->rows; j++)
        for (int right = 0; right <= 1; right++) {
            struct flat_point at = side_view_silhouette(envelope, right, j);
            least->x_m = fmin(least->x_m, at.x_m);
            least->y_m = fmin(least->y_m, at.y_m);
            most->x_m = fmax(most->x_m, at.x_m);
            most->y_m = fmax(most->y_m, at.y_m);
        }
}

static struct canvas_box room_for_lines(struct canvas_box box, bool labels) {
    if (!labels)
        return box;
    /* A third of a row keeps the level line at the crown out of the row above it. */
    return (struct canvas_box){box.column + NUMBER_COLUMNS + 0.01, box.row + 1.3,
                               box.columns - NUMBER_COLUMNS - HEIGHT_COLUMNS - 0.02,
                               box.rows - 2.3};
}

void draw_side_view(const struct design *design, const struct envelope *envelope,
                    struct canvas *canvas, struct canvas_box box) {
    bool labels = box.columns >= SIDE_VIEW_COLUMNS_LEAST && box.rows >= SIDE_VIEW_ROWS_LEAST;
    struct flat_point least, most;
    extent(envelope, &least, &most);
    struct side_view side = {
        .design = design,
        .envelope = envelope,
        .canvas = canvas,
        .box = box,
        .view = canvas_fit(room_for_lines(box, labels), least, most, 1, 1),
        .widest = widest_station(envelope),
    };
    side.view.row = ceil(side.view.row - 1e-6) - 0.01; /* all lines end in the same row */
    draw_tapes(&side);
    draw_seams(&side);
    draw_outline(&side);
    if (!labels)
        return;
    label_widest(&side);
    label_ends(&side);
    label_height(&side);
    label_rows(&side);
    if (design->colours.cloths.count > 1) {
        letter_panels(&side); /* letters of styles would be taken for colours */
        explain_colours(&side);
    } else if (is_mixed(envelope)) {
        label_gores(&side);
        explain_letters(&side);
    }
}
