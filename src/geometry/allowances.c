/* allowances.c - joins, the cut line, match marks. */
#include "geometry/allowances.h"

#include <math.h>

#include "geometry/plane.h"

/* ---- joins ------------------------------------------------------------- */

/* Cloth beyond the sew line over the seam's width: left and bottom, right and top. */
static const double factors[][2] = {
    [SEAM_PLAIN] = {1, 1},
    [SEAM_LAPPED] = {0.5, 0.5},
    [SEAM_FELLED] = {1, 2},
};

static double allowance_of(const struct design *design, enum join_kind join, bool wide) {
    switch (join) {
    case JOIN_TAPE:
        return factors[design->seams.tape][wide] * design->seams.tape_width_m;
    case JOIN_ROW:
        return factors[design->seams.row][wide] * design->seams.row_width_m;
    case JOIN_RIDGE:
        return factors[design->seams.ridge][wide] * design->seams.ridge_width_m;
    case HEM_MOUTH:
        return design->seams.mouth_hem_m;
    default:
        return design->seams.crown_hem_m;
    }
}

void piece_joins(const struct design *design, size_t rows, struct piece *piece) {
    piece->join[EDGE_BOTTOM] = piece->row == 1 ? HEM_MOUTH : JOIN_ROW;
    piece->join[EDGE_TOP] = piece->row == rows ? HEM_CROWN : JOIN_ROW;
    piece->join[EDGE_LEFT] = piece->side == SIDE_RIGHT ? JOIN_RIDGE : JOIN_TAPE;
    piece->join[EDGE_RIGHT] = piece->side == SIDE_LEFT ? JOIN_RIDGE : JOIN_TAPE;
    for (int e = 0; e < EDGE_COUNT; e++)
        piece->allowance_m[e] =
            allowance_of(design, piece->join[e], e == EDGE_RIGHT || e == EDGE_TOP);
}

/* ---- one edge, offset -------------------------------------------------- */

/* The offset of one edge: every bit of it moved out by its allowance.
 * Returns: number of points written, as many as the edge has corners and bends. */
static size_t offset_edge(const struct ring *ring, int e, double by_m, struct flat_point *out) {
    size_t begin = ring->first[e], end = ring_edge_end(ring, (enum edge)e);
    for (size_t i = begin; i <= end; i++) {
        size_t back = i > begin ? i - 1 : i, forth = i < end ? i : end - 1;
        struct flat_point before =
            flat_direction(ring_point(ring, back), ring_point(ring, back + 1));
        struct flat_point after =
            flat_direction(ring_point(ring, forth), ring_point(ring, forth + 1));
        struct flat_point outward = flat_plus(flat_right_of(before), flat_right_of(after), 1);
        *out++ = flat_plus(ring_point(ring, i), outward, 2 * by_m / flat_dot(outward, outward));
    }
    return end - begin + 1;
}

/* Where two stretches cross: true with the point. */
static bool crossing(struct flat_point a, struct flat_point b, struct flat_point c,
                     struct flat_point d, struct flat_point *at) {
    struct flat_point ab = flat_minus(b, a), cd = flat_minus(d, c), ac = flat_minus(c, a);
    double turn = flat_cross(ab, cd);
    if (fabs(turn) < 1e-300)
        return false;
    double along = flat_cross(ac, cd) / turn, across = flat_cross(ac, ab) / turn;
    if (along < 0 || along > 1 || across < 0 || across > 1)
        return false;
    *at = flat_plus(a, ab, along);
    return true;
}

static bool runs_back(const struct ring *ring, int e, const struct flat_point *p, size_t count) {
    for (size_t i = 0; i + 1 < count; i++) {
        struct flat_point sew = flat_minus(ring_point(ring, ring->first[e] + i + 1),
                                           ring_point(ring, ring->first[e] + i));
        if (flat_dot(flat_minus(p[i + 1], p[i]), sew) <= 0)
            return true;
    }
    return false;
}

/* One edge, moved out: its points, the two feet at the corners included, which of the
 * inner ones are kept, and how it leaves and reaches the corners. */
struct offset {
    struct flat_point *point;
    size_t count, from, to;         /* kept: from .. to - 1 */
    struct flat_point begins, ends; /* directions */
    double by_m;
};

/* How far the sew line of an edge stands out beyond its chord [m]. */
static double stands_out_m(const struct ring *ring, int e, struct flat_point along) {
    double most = 0;
    for (size_t i = ring->first[e]; i <= ring_edge_end(ring, (enum edge)e); i++) {
        struct flat_point from = flat_minus(ring_point(ring, i), ring_point(ring, ring->first[e]));
        most = fmax(most, flat_dot(from, flat_right_of(along)));
    }
    return most;
}

/* An edge hollowed more sharply than its allowance would loop when it is offset.  It is
 * cut straight from corner to corner instead: some cloth more, never less. */
static struct offset straight_offset(const struct ring *ring, int e, double by_m,
                                     struct flat_point *room) {
    struct flat_point first = ring_point(ring, ring->first[e]);
    struct flat_point last = ring_point(ring, ring_edge_end(ring, (enum edge)e));
    struct flat_point along = flat_direction(first, last);
    double out_m = by_m + stands_out_m(ring, e, along);
    room[0] = flat_plus(first, flat_right_of(along), out_m);
    room[1] = flat_plus(last, flat_right_of(along), out_m);
    return (struct offset){room, 2, 1, 1, along, along, out_m};
}

static struct offset offset_of(const struct ring *ring, int e, double by_m,
                               struct flat_point *room) {
    size_t begin = ring->first[e], end = ring_edge_end(ring, (enum edge)e);
    size_t count = offset_edge(ring, e, by_m, room);
    if (runs_back(ring, e, room, count))
        return straight_offset(ring, e, by_m, room);
    return (struct offset){room,
                           count,
                           1,
                           count - 1,
                           flat_direction(ring_point(ring, begin), ring_point(ring, begin + 1)),
                           flat_direction(ring_point(ring, end - 1), ring_point(ring, end)),
                           by_m};
}

/* ---- corners ----------------------------------------------------------- */

struct corner {
    struct flat_point point[2];
    size_t count;
};

/* Trim two offset edges at a corner that points inwards: to where they cross. */
static bool trim(struct offset *a, struct offset *b, struct corner *corner) {
    for (size_t i = a->count - 1; i-- > 0;)
        for (size_t j = 0; j + 1 < b->count; j++)
            if (crossing(a->point[i], a->point[i + 1], b->point[j], b->point[j + 1],
                         &corner->point[0])) {
                corner->count = 1;
                a->to = i + 1 < a->to ? i + 1 : a->to;
                b->from = j + 1 > b->from ? j + 1 : b->from;
                return true;
            }
    return false;
}

/* Straight across from the end of one allowance to the start of the next. */
static struct corner step(struct flat_point foot1, struct flat_point foot2) {
    bool same = flat_distance_m(foot2, foot1) < 1e-12;
    return (struct corner){{foot1, foot2}, same ? 1 : 2};
}

/* A mitre at the corner `at` of the sew line, between the directions d1 and d2.  Where
 * a mitre would take allowance away from either edge, a step. */
static struct corner mitre(struct flat_point at, struct flat_point d1, double by1_m,
                           struct flat_point d2, double by2_m) {
    struct flat_point foot1 = flat_plus(at, flat_right_of(d1), by1_m),
                      foot2 = flat_plus(at, flat_right_of(d2), by2_m);
    double turn = flat_cross(d1, d2), most = MITRE_MOST * fmax(by1_m, by2_m);
    if (fabs(turn) < 1e-9)
        return step(foot1, foot2);
    double along1 = flat_cross(flat_minus(foot2, foot1), d2) / turn;
    double along2 = flat_cross(flat_minus(foot2, foot1), d1) / turn;
    if (along1 < 0 || along2 > 0)
        return step(foot1, foot2);
    struct flat_point tip = flat_plus(foot1, d1, along1);
    double reach = flat_distance_m(tip, at), back = reach - most;
    if (back <= 0)
        return (struct corner){{tip, tip}, 1};
    struct flat_point spike = flat_direction(at, tip);
    return (struct corner){{flat_plus(tip, d1, -back / flat_dot(d1, spike)),
                            flat_plus(tip, d2, -back / flat_dot(d2, spike))},
                           2};
}

/* Beyond a hem's fold the side runs on as in a mirror, so that the hem, turned in, lies
 * flat on the cloth beside it (common practice, no source).
 * Given: the corner, the fold's direction, the hem's depth, the side's direction away
 * from the fold into the piece, and a point of its cut line.
 * Returns: false where the side runs too nearly along the fold for that. */
static bool flare(struct flat_point at, struct flat_point fold, double depth_m,
                  struct flat_point inwards, struct flat_point foot, struct flat_point *on_fold,
                  struct flat_point *tip) {
    struct flat_point outward = flat_right_of(fold);
    double steep = -flat_dot(inwards, outward);
    if (steep < 0.5 || depth_m <= 0)
        return false;
    *on_fold = flat_plus(foot, inwards, flat_dot(flat_minus(foot, at), outward) / steep);
    struct flat_point mirrored = flat_plus(inwards, outward, 2 * steep);
    *tip = flat_plus(*on_fold, mirrored, depth_m / steep);
    return true;
}

static bool is_hem(enum join_kind join) {
    return join == HEM_MOUTH || join == HEM_CROWN;
}

/* The corner that ends edge `e`, between offset edges a and b. */
static struct corner corner_between(const struct piece *piece, int e, struct offset *a,
                                    struct offset *b) {
    struct corner corner = {.count = 2};
    struct flat_point at = ring_point(&piece->sew, ring_edge_end(&piece->sew, (enum edge)e));
    struct flat_point *point = corner.point, back = {-a->ends.x_m, -a->ends.y_m};
    if (is_hem(piece->join[(e + 1) % EDGE_COUNT]) &&
        flare(at, b->begins, b->by_m, back, flat_plus(at, flat_right_of(a->ends), a->by_m),
              &point[0], &point[1]))
        return corner;
    if (is_hem(piece->join[e]) &&
        flare(at, a->ends, a->by_m, b->begins, flat_plus(at, flat_right_of(b->begins), b->by_m),
              &point[1], &point[0]))
        return corner;
    if (flat_cross(a->ends, b->begins) < 0 && trim(a, b, &corner))
        return corner;
    return mitre(at, a->ends, a->by_m, b->begins, b->by_m);
}

/* ---- the cut ring ------------------------------------------------------ */

size_t cut_points_most(size_t count) {
    return 2 * count + 16;
}

static void add_point(struct ring *ring, struct flat_point point) {
    ring->point[ring->count++] = point;
}

/* The offset edges stand in the second half of the cut ring's room while the ring
 * itself grows in the first. */
void piece_cut_line(struct piece *piece) {
    struct ring *cut = &piece->cut;
    struct offset edge[EDGE_COUNT];
    struct corner corner[EDGE_COUNT]; /* corner[e] ends edge e */
    struct flat_point *room = cut->point + piece->sew.count + 12;
    for (int e = 0; e < EDGE_COUNT; e++) {
        edge[e] = offset_of(&piece->sew, e, piece->allowance_m[e], room);
        room += edge[e].count;
    }
    for (int e = 0; e < EDGE_COUNT; e++)
        corner[e] = corner_between(piece, e, &edge[e], &edge[(e + 1) % EDGE_COUNT]);
    cut->count = 0;
    for (int e = 0; e < EDGE_COUNT; e++) {
        const struct corner *before = &corner[(e + EDGE_COUNT - 1) % EDGE_COUNT];
        cut->first[e] = cut->count;
        add_point(cut, before->point[before->count - 1]);
        for (size_t i = edge[e].from; i < edge[e].to; i++)
            add_point(cut, edge[e].point[i]);
        piece->two_points[(e + 1) % EDGE_COUNT] = corner[e].count == 2;
        if (corner[e].count == 2)
            add_point(cut, corner[e].point[0]);
    }
}

double ring_area_m2(const struct ring *ring) {
    double sum = 0;
    for (size_t i = 0; i < ring->count; i++)
        sum += flat_cross(ring->point[i], ring_point(ring, i + 1));
    return 0.5 * sum;
}

/* ---- match marks ------------------------------------------------------- */

/* Mark on edge e at a fraction of its length along the sew line. */
static void add_mark(struct piece *piece, int e, double fraction) {
    const struct ring *sew = &piece->sew;
    size_t i = sew->first[e], end = ring_edge_end(sew, (enum edge)e);
    double whole = 0, step = 0;
    for (size_t j = i; j < end; j++)
        whole += flat_distance_m(ring_point(sew, j + 1), ring_point(sew, j));
    double left = fraction * whole;
    for (; i < end; i++) {
        step = flat_distance_m(ring_point(sew, i + 1), ring_point(sew, i));
        if (left <= step || i + 1 == end)
            break;
        left -= step;
    }
    struct flat_point from = ring_point(sew, i),
                      along = flat_direction(from, ring_point(sew, i + 1));
    piece->mark[piece->marks++] = (struct match_mark){
        .edge = (enum edge)e,
        .fraction = fraction,
        .along_m = fraction * piece->length_m[e],
        .at = flat_plus(from, along, left),
        .outward = flat_right_of(along),
    };
}

void piece_match_marks(struct piece *piece) {
    static const double quarters[] = {0.25, 0.5, 0.75}, middle[] = {0.5};
    piece->marks = 0;
    for (int e = 0; e < EDGE_COUNT; e++) {
        bool row_edge = e == EDGE_BOTTOM || e == EDGE_TOP;
        const double *fraction = row_edge ? quarters : middle;
        size_t count = row_edge ? COUNT_OF(quarters) : COUNT_OF(middle);
        for (size_t i = 0; i < count; i++)
            add_mark(piece, e, fraction[i]);
    }
}
