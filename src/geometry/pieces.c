/* pieces.c - every distinct piece of an envelope. */
#include "geometry/pieces.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "geometry/allowances.h"
#include "geometry/develop.h"
#include "geometry/measure.h"
#include "geometry/plane.h"

/* ---- names ------------------------------------------------------------- */

const char *style_name(enum style style) {
    static const char *const names[] = {"faceted", "half-gore", "billowed"};
    return names[style];
}

const char *side_name(enum side side) {
    static const char *const names[] = {"-", "left", "right"};
    return names[side];
}

const char *edge_name(enum edge edge) {
    static const char *const names[] = {"bottom", "right", "top", "left"};
    return names[edge];
}

const char *join_kind_name(enum join_kind kind) {
    static const char *const names[] = {"tape side", "row seam", "ridge seam", "mouth hem",
                                        "crown hem"};
    return names[kind];
}

static void name_piece(struct piece *piece) {
    static const char style_letter[] = "FHB";
    static const char *const side_letter[] = {"", "L", "R"};
    snprintf(piece->name, sizeof piece->name, "%c%02u%s", style_letter[piece->style],
             (unsigned)piece->row % 100, side_letter[piece->side]);
}

/* ---- one piece --------------------------------------------------------- */

/* The panel a piece is cut for: its two sections, and how finely it is developed. */
struct panel {
    struct section low, high;
    double side_m;
    size_t cells;
};

/* Length of each edge along the sew line, from the sections themselves. */
static void edge_lengths(const struct panel *panel, struct piece *piece) {
    double share = piece->side == SIDE_WHOLE ? 1 : 0.5;
    struct vector middle_low = section_point_at(&panel->low, 0);
    struct vector middle_high = section_point_at(&panel->high, 0);
    double ridge_m = vector_length(vector_between(middle_low, middle_high));
    piece->length_m[EDGE_BOTTOM] =
        share * section_length_m(piece->style, panel->low.chord_m, panel->low.bulge);
    piece->length_m[EDGE_TOP] =
        share * section_length_m(piece->style, panel->high.chord_m, panel->high.bulge);
    piece->length_m[EDGE_LEFT] = piece->side == SIDE_RIGHT ? ridge_m : panel->side_m;
    piece->length_m[EDGE_RIGHT] = piece->side == SIDE_LEFT ? ridge_m : panel->side_m;
}

static void measure_piece(struct piece *piece) {
    struct flat_point corner[EDGE_COUNT];
    for (int e = 0; e < EDGE_COUNT; e++) {
        corner[e] = piece_corner(piece, (enum edge)e);
        size_t points = ring_edge_end(&piece->sew, (enum edge)e) - piece->sew.first[e];
        piece->curved[e] = points > 1;
    }
    piece->diagonal_rising_m = flat_distance_m(corner[0], corner[2]);
    piece->diagonal_falling_m = flat_distance_m(corner[3], corner[1]);
    piece->cut_area_m2 = ring_area_m2(&piece->cut);
    piece->cut_least = piece->cut_most = piece->cut.point[0];
    for (size_t i = 1; i < piece->cut.count; i++) {
        struct flat_point p = piece->cut.point[i];
        piece->cut_least.x_m = fmin(piece->cut_least.x_m, p.x_m);
        piece->cut_least.y_m = fmin(piece->cut_least.y_m, p.y_m);
        piece->cut_most.x_m = fmax(piece->cut_most.x_m, p.x_m);
        piece->cut_most.y_m = fmax(piece->cut_most.y_m, p.y_m);
    }
}

static bool make_rings(struct piece *piece, size_t points) {
    piece->sew.point = malloc(points * sizeof *piece->sew.point);
    piece->cut.point = malloc(cut_points_most(points) * sizeof *piece->cut.point);
    return piece->sew.point != NULL && piece->cut.point != NULL;
}

/* Given: piece with style, side, row and count set.  Returns: false out of memory. */
static bool make_piece(const struct design *design, size_t rows, const struct panel *panel,
                       struct piece *piece) {
    bool flat = panel_is_flat(&panel->low, &panel->high);
    name_piece(piece);
    if (!make_rings(piece, sew_points(piece->style, flat, panel->cells)))
        return false;
    develop_panel(&panel->low, &panel->high, piece->side, panel->cells, &piece->sew);
    edge_lengths(panel, piece);
    piece_joins(design, rows, piece);
    piece_cut_line(piece);
    piece_match_marks(piece);
    measure_piece(piece);
    double share = piece->side == SIDE_WHOLE ? 1 : 0.5;
    piece->sewn_area_m2 = share * panel_area_m2(&panel->low, &panel->high);
    piece->twist = panel_twist(&panel->low, &panel->high);
    return true;
}

/* ---- all pieces -------------------------------------------------------- */

static void sections_of(const struct skeleton *skeleton, enum style style, size_t row,
                        struct panel *panel) {
    panel->low = section_of(style, &skeleton->station[row - 1], skeleton->gores);
    panel->high = section_of(style, &skeleton->station[row], skeleton->gores);
    panel->side_m = skeleton->station[row - 1].side_m;
}

/* One number of cells for all rows of a style, so that mating edges have the same points. */
static size_t cells_of_style(const struct skeleton *skeleton, enum style style) {
    size_t cells = CELLS_LEAST;
    for (size_t row = 1; row <= skeleton->rows; row++) {
        struct panel panel;
        sections_of(skeleton, style, row, &panel);
        size_t needed = cells_needed(&panel.low, &panel.high);
        cells = needed > cells ? needed : cells;
    }
    return cells;
}

static bool pieces_of_style(const struct design *design, const struct skeleton *skeleton,
                            enum style style, struct envelope *envelope) {
    struct panel panel = {.cells = cells_of_style(skeleton, style)};
    enum side first = style == HALF_GORE ? SIDE_LEFT : SIDE_WHOLE;
    enum side last = style == HALF_GORE ? SIDE_RIGHT : SIDE_WHOLE;
    for (size_t row = 1; row <= skeleton->rows; row++) {
        sections_of(skeleton, style, row, &panel);
        for (enum side side = first; side <= last; side++) {
            struct piece *piece = &envelope->piece[envelope->templates++];
            *piece = (struct piece){
                .style = style, .side = side, .row = row, .count = skeleton->style_count[style]};
            if (!make_piece(design, skeleton->rows, &panel, piece))
                return false;
        }
    }
    return true;
}

bool make_pieces(const struct design *design, const struct skeleton *skeleton,
                 struct envelope *envelope) {
    size_t most = 0;
    for (int style = 0; style < STYLE_COUNT; style++)
        if (skeleton->style_count[style] > 0)
            most += skeleton->rows * (style == HALF_GORE ? 2 : 1);
    envelope->piece = calloc(most, sizeof *envelope->piece);
    if (envelope->piece == NULL)
        return false;
    for (int style = 0; style < STYLE_COUNT; style++)
        if (skeleton->style_count[style] > 0 &&
            !pieces_of_style(design, skeleton, (enum style)style, envelope))
            return false;
    return true;
}
