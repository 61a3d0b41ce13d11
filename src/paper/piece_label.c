/* piece_label.c - what is written on a template, and where. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/piece_label.h"
#include "paper/colour_words.h"
#include "paper/postscript.h"
#include "paper/sheets.h"

#define SEAM_CLEAR_M 0.007 /* crosses and their letters stand along the seams */
#define CELLS_TRIED 9
#define STEPS_TRIED 5

/* Parts of a label, in type sizes. */
#define NAME_SIZE 2.2
#define NAME_LINE 2.3
#define LINE 1.28
#define PADDING 0.7
#define ARROW_COLUMN 2.6
#define GRAIN_ROW 2.0

/* Type sizes tried for each level, points, largest first. */
static const double sizes[LABEL_LEVELS][7] = {
    [LABEL_FULL] = {16, 14, 12, 10, 9, 8, 7},
    [LABEL_MEDIUM] = {9, 8, 7.5, 7, 6.5, 6, 5.5},
    [LABEL_SHORT] = {9, 8, 7, 6.5, 6, 5.5, 5},
    [LABEL_NAME] = {8, 7, 6, 5, 4.5, 4, 3.5},
};

/* ---- the words --------------------------------------------------------- */

static const struct piece *partner_of(const struct envelope *envelope, const struct piece *piece) {
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *other = &envelope->piece[i];
        if (other->style == piece->style && other->row == piece->row && other->side != piece->side)
            return other;
    }
    return NULL;
}

/* Whether the cut lines are mirror images as well as the sew lines. */
static bool allowances_mirror(const struct piece *a, const struct piece *b) {
    static const enum edge across[] = {[EDGE_BOTTOM] = EDGE_BOTTOM,
                                       [EDGE_RIGHT] = EDGE_LEFT,
                                       [EDGE_TOP] = EDGE_TOP,
                                       [EDGE_LEFT] = EDGE_RIGHT};
    for (size_t i = 0; i < COUNT_OF(across); i++)
        if (fabs(a->allowance_m[i] - b->allowance_m[across[i]]) > 1e-6)
            return false;
    return true;
}

static const char *half_word(const struct piece *piece) {
    return piece->side == SIDE_LEFT ? "LEFT half" : "RIGHT half";
}

char *half_words(const struct envelope *envelope, const struct piece *piece, char into[64]) {
    const struct piece *other = partner_of(envelope, piece);
    into[0] = '\0';
    if (piece->side != SIDE_WHOLE && other == NULL)
        snprintf(into, 64, "%s", half_word(piece));
    else if (piece->side != SIDE_WHOLE)
        snprintf(into, 64, "%s, mirror image of %s%s", half_word(piece), other->name,
                 allowances_mirror(piece, other) ? "" : " (sew line only)");
    return into;
}

static void add_line(struct piece_label *label, const char *words) {
    if (label->lines < LABEL_LINES_MOST)
        snprintf(label->line[label->lines++], LABEL_LINE_MOST, "%.*s", LABEL_LINE_MOST - 1, words);
}

/* A list broken at its blanks, so that no line is much longer than the others. */
static void add_list(struct piece_label *label, const char *heading, const char *list) {
    enum { COLUMNS = 34 };
    char words[LABEL_LINE_MOST];
    snprintf(words, sizeof words, "%s ", heading);
    while (strlen(list) > COLUMNS) {
        size_t end = COLUMNS;
        while (end > 0 && list[end] != ' ')
            end--;
        if (end == 0) /* a long word stands alone */
            end = strcspn(list, " ");
        if (list[end] == '\0')
            break;
        size_t used = strlen(words);
        snprintf(words + used, sizeof words - used, "%.*s", (int)end, list);
        add_line(label, words);
        words[0] = '\0';
        list += end + 1;
    }
    size_t used = strlen(words);
    snprintf(words + used, sizeof words - used, "%s", list);
    add_line(label, words);
}

static void add_half(struct piece_label *label, const struct envelope *envelope,
                     const struct piece *piece, enum label_level level) {
    if (piece->side == SIDE_WHOLE)
        return;
    char words[LABEL_LINE_MOST];
    snprintf(words, sizeof words, "%s%s", half_word(piece),
             level < LABEL_SHORT ? " seen from outside;" : "");
    add_line(label, words);
    const struct piece *other = partner_of(envelope, piece);
    if (level < LABEL_SHORT && other != NULL) {
        snprintf(words, sizeof words, "mirror image of %s%s", other->name,
                 allowances_mirror(piece, other) ? "" : " (sew line only)");
        add_line(label, words);
    }
}

static void add_allowances(struct piece_label *label, const struct design *design,
                           const struct piece *piece) {
    add_line(label, piece->side == SIDE_WHOLE ? "seen from outside, cloth beyond the sew line:"
                                              : "cloth beyond the sew line:");
    for (enum edge e = EDGE_TOP;; e = e == EDGE_TOP    ? EDGE_LEFT
                                      : e == EDGE_LEFT ? EDGE_RIGHT
                                                       : EDGE_BOTTOM) {
        char words[LABEL_LINE_MOST], length[32];
        snprintf(words, sizeof words, "%s, %s: %s %s", edge_name(e), join_kind_name(piece->join[e]),
                 format_length(design, piece->allowance_m[e], length), length_unit(design));
        add_line(label, words);
        if (e == EDGE_BOTTOM)
            break;
    }
}

static void write_words(const struct template_plan *plan, const struct piece *piece,
                        enum label_level level, struct piece_label *label) {
    const struct envelope *envelope = plan->envelope;
    char words[LABEL_LINE_MOST + TEXT_MOST], gores[GORE_LIST_MOST];
    char colours[COLOUR_WORDS_MOST];
    label->lines = 0;
    add_line(label, piece->name);
    if (level == LABEL_NAME)
        return;
    if (level == LABEL_SHORT) {
        snprintf(words, sizeof words, "cut %zu", piece->count);
        add_line(label, words);
        add_half(label, envelope, piece, level);
        return;
    }
    snprintf(words, sizeof words, "%s, row %zu of %zu from the mouth", style_name(piece->style),
             piece->row, envelope->rows);
    add_line(label, words);
    add_half(label, envelope, piece, level);
    colour_words(plan->design, envelope, piece, false, colours);
    if (plan->design->colours.cloths.count > 1) {
        snprintf(words, sizeof words, "cut %zu:", piece->count);
        add_list(label, words, colours);
    } else {
        snprintf(words, sizeof words, "cut %zu, %.63s", piece->count, colours);
        add_line(label, words);
    }
    if (level == LABEL_MEDIUM)
        return;
    add_list(label, "gores", gore_list(envelope, piece->style, gores));
    add_allowances(label, plan->design, piece);
}

/* ---- its size ---------------------------------------------------------- */

/* Text block and whole label, both with their lower left corner at 0, 0, at a type size of 1. */
static void measure(const struct piece_label *label, enum warp warp, struct rect *text,
                    struct rect *box) {
    double width = ps_text_width_m(FACE_BOLD, NAME_SIZE, label->line[0]);
    for (size_t i = 1; i < label->lines; i++)
        width = fmax(width, ps_text_width_m(FACE_PLAIN, 1, label->line[i]));
    double height = NAME_LINE + LINE * (double)(label->lines - 1);
    double below = warp == WARP_ACROSS ? GRAIN_ROW : 0;
    double beside = warp == WARP_ACROSS ? ARROW_COLUMN : 2 * ARROW_COLUMN;
    height = fmax(height, 4.5);
    width = fmax(width, warp == WARP_ACROSS ? 3.5 : 0);
    *text = (struct rect){PADDING, PADDING + below, PADDING + width, PADDING + below + height};
    *box = (struct rect){0, 0, text->x1_m + beside + PADDING, text->y1_m + PADDING};
}

static struct rect scaled_to(struct rect rect, double size_m, double x_m, double y_m) {
    return (struct rect){x_m + rect.x0_m * size_m, y_m + rect.y0_m * size_m,
                         x_m + rect.x1_m * size_m, y_m + rect.y1_m * size_m};
}

/* ---- its place --------------------------------------------------------- */

static struct rect part_in_common(struct rect a, struct rect b) {
    return (struct rect){fmax(a.x0_m, b.x0_m), fmax(a.y0_m, b.y0_m), fmin(a.x1_m, b.x1_m),
                         fmin(a.y1_m, b.y1_m)};
}

static struct rect box_of(const struct piece *piece) {
    return (struct rect){piece->cut_least.x_m, piece->cut_least.y_m, piece->cut_most.x_m,
                         piece->cut_most.y_m};
}

static struct flat_point middle_of(struct rect rect) {
    return (struct flat_point){(rect.x0_m + rect.x1_m) / 2, (rect.y0_m + rect.y1_m) / 2};
}

static double squared_distance(struct flat_point a, struct flat_point b) {
    return (a.x_m - b.x_m) * (a.x_m - b.x_m) + (a.y_m - b.y_m) * (a.y_m - b.y_m);
}

/* Keep the CELLS_TRIED cells whose middles are nearest to the piece's, nearest first. */
static size_t keep_near(struct rect *cell, size_t cells, struct rect one,
                        struct flat_point middle) {
    double far2 = squared_distance(middle_of(one), middle);
    size_t at = cells;
    while (at > 0 && squared_distance(middle_of(cell[at - 1]), middle) > far2)
        at--;
    if (at >= CELLS_TRIED)
        return cells;
    size_t kept = cells < CELLS_TRIED ? cells + 1 : CELLS_TRIED;
    memmove(cell + at + 1, cell + at, (kept - 1 - at) * sizeof *cell);
    cell[at] = one;
    return kept;
}

/* Where a label may lie: the cells of the tiles, seen from the piece. */
static size_t label_cells(const struct tiling *tiling, const struct piece *piece,
                          struct rect cell[CELLS_TRIED]) {
    struct rect box = box_of(piece);
    size_t cells = 0;
    for (size_t row = 0; row < tiling->rows; row++) {
        for (size_t column = 0; column < tiling->columns; column++) {
            struct rect laid = tile_cell(tiling, row, column);
            laid = (struct rect){laid.x0_m + SEAM_CLEAR_M, laid.y0_m + SEAM_CLEAR_M,
                                 laid.x1_m - SEAM_CLEAR_M, laid.y1_m - SEAM_CLEAR_M};
            struct rect one = part_in_common(rect_on_piece(piece, tiling->turned, laid), box);
            if (one.x1_m > one.x0_m && one.y1_m > one.y0_m)
                cells = keep_near(cell, cells, one, middle_of(box));
        }
    }
    return cells;
}

/* Try a box of the given size in steps over a cell; keep the place nearest to the middle. */
static bool try_cell(const struct piece *piece, struct rect cell, struct rect box,
                     struct flat_point *best, double *best2) {
    struct flat_point middle = middle_of(box_of(piece));
    double slack_x_m = cell.x1_m - cell.x0_m - box.x1_m,
           slack_y_m = cell.y1_m - cell.y0_m - box.y1_m;
    bool found = false;
    if (slack_x_m < 0 || slack_y_m < 0)
        return false;
    for (int i = 0; i < STEPS_TRIED * STEPS_TRIED; i++) {
        double x_m = cell.x0_m + slack_x_m * (i % STEPS_TRIED) / (STEPS_TRIED - 1);
        double y_m = cell.y0_m + slack_y_m * (i / STEPS_TRIED) / (STEPS_TRIED - 1);
        struct rect here = scaled_to(box, 1, x_m, y_m);
        double far2 = squared_distance(middle_of(here), middle);
        if (far2 < *best2 && ring_holds(&piece->sew, here)) {
            *best = (struct flat_point){x_m, y_m};
            *best2 = far2;
            found = true;
        }
    }
    return found;
}

static bool place(const struct piece *piece, const struct rect *cell, size_t cells,
                  struct rect text, struct rect box, double size_m, struct piece_label *label) {
    struct flat_point best = {0, 0};
    double best2 = HUGE_VAL;
    bool found = false;
    for (size_t i = 0; i < cells; i++)
        found |= try_cell(piece, cell[i], scaled_to(box, size_m, 0, 0), &best, &best2);
    if (!found)
        return false;
    label->size_m = size_m;
    label->text = scaled_to(text, size_m, best.x_m, best.y_m);
    label->box = scaled_to(box, size_m, best.x_m, best.y_m);
    return true;
}

void piece_label_make(const struct template_plan *plan, size_t piece, struct piece_label *label) {
    const struct piece *p = &plan->envelope->piece[piece];
    enum warp warp = (enum warp)plan->design->cloth.warp;
    struct rect cell[CELLS_TRIED], text, box;
    size_t cells = label_cells(&plan->laying[piece].tiling, p, cell);
    for (enum label_level level = LABEL_FULL; level < LABEL_LEVELS; level++) {
        write_words(plan, p, level, label);
        measure(label, warp, &text, &box);
        for (size_t i = 0; i < COUNT_OF(sizes[level]); i++)
            if (place(p, cell, cells, text, box, sizes[level][i] * POINT_M, label))
                return;
    }
    /* Nothing fits: the name alone, in the middle. */
    struct flat_point middle = middle_of(box_of(p));
    label->size_m = sizes[LABEL_NAME][COUNT_OF(sizes[0]) - 1] * POINT_M;
    middle.x_m -= box.x1_m / 2 * label->size_m;
    middle.y_m -= box.y1_m / 2 * label->size_m;
    label->text = scaled_to(text, label->size_m, middle.x_m, middle.y_m);
    label->box = scaled_to(box, label->size_m, middle.x_m, middle.y_m);
}

/* ---- written ----------------------------------------------------------- */

static void arrow(struct text *into, double x0_m, double y0_m, double x1_m, double y1_m,
                  bool both_ends) {
    int angle = x1_m > x0_m ? 0 : 90;
    ps_line(into, x0_m, y0_m, x1_m, y1_m);
    ps_point(into, x1_m, y1_m);
    text_add(into, "%d head\n", angle);
    if (both_ends) {
        ps_point(into, x0_m, y0_m);
        text_add(into, "%d head\n", angle + 180);
    }
}

static void write_arrows(const struct piece_label *label, enum warp warp, struct text *into) {
    double size_m = label->size_m;
    struct rect text = label->text;
    double up_x_m = text.x1_m + (ARROW_COLUMN - 0.6) * size_m;
    arrow(into, up_x_m, text.y0_m, up_x_m, text.y1_m, false);
    ps_text(into, FACE_PLAIN, 0.9 * size_m, ANCHOR_UP, up_x_m - 0.5 * size_m,
            (text.y0_m + text.y1_m) / 2, label->lines > 3 ? "up, to the crown" : "up");
    if (warp == WARP_UP) {
        double x_m = up_x_m + ARROW_COLUMN * size_m;
        arrow(into, x_m, text.y0_m, x_m, text.y1_m, true);
        ps_text(into, FACE_PLAIN, 0.9 * size_m, ANCHOR_UP, x_m - 0.5 * size_m,
                (text.y0_m + text.y1_m) / 2, "grain");
        return;
    }
    double y_m = text.y0_m - (GRAIN_ROW - 0.5) * size_m, end_m = label->box.x1_m - PADDING * size_m;
    arrow(into, text.x0_m, y_m, end_m, y_m, true);
    ps_text(into, FACE_PLAIN, 0.9 * size_m, ANCHOR_CENTRE, (text.x0_m + end_m) / 2,
            y_m + 0.4 * size_m, "grain");
}

void piece_label_write(const struct piece_label *label, enum warp warp, struct text *into) {
    double size_m = label->size_m, y_m = label->text.y1_m - 1.75 * size_m;
    ps_text(into, FACE_BOLD, NAME_SIZE * size_m, ANCHOR_LEFT, label->text.x0_m, y_m,
            label->line[0]);
    y_m -= (NAME_LINE - 1.75) * size_m;
    for (size_t i = 1; i < label->lines; i++) {
        y_m -= LINE * size_m;
        ps_text(into, FACE_PLAIN, size_m, ANCHOR_LEFT, label->text.x0_m, y_m + 0.3 * size_m,
                label->line[i]);
    }
    ps_pen(into, PEN_MARK);
    write_arrows(label, warp, into);
}
