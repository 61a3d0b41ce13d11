/* piece_measures.c - figures read off a flat piece. */
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
