/* piece_measures.c - figures read off a flat piece. */
#include <math.h>

#include "geometry/plane.h"

enum edge ring_edge(const struct ring *ring, size_t point) {
    enum edge e = EDGE_LEFT;
    while (e > EDGE_BOTTOM && point < ring->first[e])
        e--;
    return e;
}

struct flat_point piece_corner(const struct piece *piece, enum edge e) {
    return piece->sew.point[piece->sew.first[e]];
}

/* Left and right end of the bottom and top edges, lower and upper end of the sides. */
static void edge_ends(const struct piece *piece, enum edge e, struct flat_point end[2]) {
    struct flat_point begin = piece_corner(piece, e);
    struct flat_point finish = piece_corner(piece, (enum edge)((e + 1) % EDGE_COUNT));
    bool forward = e == EDGE_BOTTOM || e == EDGE_RIGHT;
    end[0] = forward ? begin : finish;
    end[1] = forward ? finish : begin;
}

double piece_chord_m(const struct piece *piece, enum edge e) {
    struct flat_point end[2];
    edge_ends(piece, e, end);
    return flat_distance_m(end[0], end[1]);
}

/* A point of the sew line in the coordinates of an edge: along its chord, and away
 * from the piece. */
static struct flat_point on_chord(struct flat_point p, const struct flat_point end[2],
                                  double outward) {
    double chord = flat_distance_m(end[0], end[1]);
    double x = (end[1].x_m - end[0].x_m) / chord, y = (end[1].y_m - end[0].y_m) / chord;
    double dx = p.x_m - end[0].x_m, dy = p.y_m - end[0].y_m;
    return (struct flat_point){dx * x + dy * y, outward * (dx * y - dy * x)};
}

double piece_offset_m(const struct piece *piece, enum edge e, double along_m) {
    struct flat_point end[2];
    edge_ends(piece, e, end);
    /* Right of the chord is outwards on the bottom and the right edge. */
    double outward = e == EDGE_BOTTOM || e == EDGE_RIGHT ? 1 : -1;
    const struct ring *sew = &piece->sew;
    for (size_t i = sew->first[e]; i < ring_edge_end(sew, e); i++) {
        struct flat_point a = on_chord(sew->point[i], end, outward);
        struct flat_point b = on_chord(ring_point(sew, i + 1), end, outward);
        if ((a.x_m - along_m) * (b.x_m - along_m) <= 0 && a.x_m != b.x_m)
            return a.y_m + (b.y_m - a.y_m) * (along_m - a.x_m) / (b.x_m - a.x_m);
    }
    return 0;
}

size_t piece_cut_corner(const struct piece *piece, enum edge e, struct flat_point point[2]) {
    const struct ring *cut = &piece->cut;
    size_t count = 0;
    if (piece->two_points[e])
        point[count++] = cut->point[(cut->first[e] + cut->count - 1) % cut->count];
    point[count++] = cut->point[cut->first[e]];
    return count;
}

double girth_m(const struct envelope *envelope, size_t station) {
    const struct station *at = &envelope->station[station];
    double sum_m = 0;
    for (enum style style = FACETED; style < STYLE_COUNT; style++)
        sum_m +=
            (double)envelope->style_count[style] * section_length_m(style, at->chord_m, at->bulge);
    return sum_m;
}

/* ---- pieces laid out one above the other ---------------------------------- */

/* The upper or lower corner on the tape from which a stack is built. */
static struct flat_point tape_corner(const struct piece *piece, bool upper) {
    if (piece->side == SIDE_RIGHT)
        return piece_corner(piece, upper ? EDGE_TOP : EDGE_RIGHT);
    return piece_corner(piece, upper ? EDGE_LEFT : EDGE_BOTTOM);
}

double piece_gap_m(const struct piece *lower, const struct piece *upper) {
    enum { STEPS = 16 };
    struct flat_point from = tape_corner(lower, true);
    struct flat_point to = piece_corner(lower, lower->side == SIDE_RIGHT ? EDGE_LEFT : EDGE_TOP);
    double top_m = piece_chord_m(lower, EDGE_TOP), bottom_m = piece_chord_m(upper, EDGE_BOTTOM);
    double gap_m = 0;
    for (int i = 0; i <= STEPS; i++) {
        double part = (double)i / STEPS;
        gap_m =
            fmax(gap_m, part * (to.y_m - from.y_m) + piece_offset_m(lower, EDGE_TOP, part * top_m) +
                            piece_offset_m(upper, EDGE_BOTTOM, part * bottom_m));
    }
    return gap_m;
}

const struct piece *envelope_piece(const struct envelope *envelope, enum style style,
                                   enum side side, size_t row) {
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        if (piece->style == style && piece->side == side && piece->row == row)
            return piece;
    }
    return NULL;
}

size_t gore_laid_flat(const struct envelope *envelope, enum style style, enum side side,
                      struct flat_point place[ROWS_MOST]) {
    const struct piece *below = NULL;
    for (size_t row = 1; row <= envelope->rows; row++) {
        const struct piece *piece = envelope_piece(envelope, style, side, row);
        if (piece == NULL)
            return 0;
        struct flat_point at = {0, 0};
        if (below != NULL) {
            struct flat_point corner = tape_corner(below, true), own = tape_corner(piece, false);
            at.x_m = place[row - 2].x_m + corner.x_m - own.x_m;
            at.y_m = place[row - 2].y_m + corner.y_m - own.y_m + piece_gap_m(below, piece);
        }
        place[row - 1] = at;
        below = piece;
    }
    return envelope->rows;
}
