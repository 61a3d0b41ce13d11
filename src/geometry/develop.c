/* develop.c - development by triangles. */
#include "geometry/develop.h"

#include <math.h>

#include "geometry/plane.h"

/* ---- one triangle ------------------------------------------------------ */

struct flat_point lay_triangle(struct flat_point p, struct flat_point q, struct vector p_space,
                               struct vector q_space, struct vector corner) {
    struct vector base = vector_between(p_space, q_space);
    struct vector side = vector_between(p_space, corner);
    double length = vector_length(base);
    double along = vector_dot(side, base) / length;
    double away = vector_length(vector_cross(side, base)) / length;
    double x = (q.x_m - p.x_m) / length, y = (q.y_m - p.y_m) / length;
    return (struct flat_point){p.x_m + along * x + away * y, p.y_m + along * y - away * x};
}

/* ---- half a strip ------------------------------------------------------ */

/* A ruling of the right half, in space and flat. */
struct laid_ruling {
    struct vector low_space, high_space;
    struct flat_point low, high;
};

static struct laid_ruling middle_ruling(const struct section *low, const struct section *high) {
    struct laid_ruling ruling = {
        section_point_at(low, 0), section_point_at(high, 0), {0, 0}, {0, 0}};
    ruling.high.y_m = vector_length(vector_between(ruling.low_space, ruling.high_space));
    return ruling;
}

/* Ruling number `i` of `cells`, to the right of the one before.  Odd cells are split from the
 * lower outer to the upper inner corner, even cells the other way: split all one way, a strip
 * whose bulge changes from edge to edge would converge by the first power only. */
static struct laid_ruling next_ruling(const struct laid_ruling *before, const struct section *low,
                                      const struct section *high, size_t i, size_t cells) {
    double u = (double)i / (double)cells;
    struct laid_ruling next = {section_point_at(low, u), section_point_at(high, u), {0, 0}, {0, 0}};
    if (i % 2 == 1) {
        next.low = lay_triangle(before->low, before->high, before->low_space, before->high_space,
                                next.low_space);
        next.high = lay_triangle(next.low, before->high, next.low_space, before->high_space,
                                 next.high_space);
    } else {
        next.high = lay_triangle(before->low, before->high, before->low_space, before->high_space,
                                 next.high_space);
        next.low = lay_triangle(before->low, next.high, before->low_space, next.high_space,
                                next.low_space);
    }
    return next;
}

/* ---- rings ------------------------------------------------------------- */

size_t sew_points(enum style style, bool straight, size_t cells) {
    return style == BILLOWED && !straight ? 4 * cells + 2 : 4;
}

bool panel_is_flat(const struct section *low, const struct section *high) {
    return low->bulge <= 0 && high->bulge <= 0;
}

static struct flat_point moved(struct flat_point p, double x_m, double y_m) {
    return (struct flat_point){p.x_m + x_m, p.y_m + y_m};
}

static struct flat_point mirrored(struct flat_point p) {
    return (struct flat_point){-p.x_m, p.y_m};
}

static void four_corners(struct ring *ring, struct flat_point lower_left,
                         struct flat_point lower_right, struct flat_point upper_right,
                         struct flat_point upper_left) {
    struct flat_point corner[] = {lower_left, lower_right, upper_right, upper_left};
    ring->count = 4;
    for (size_t e = 0; e < EDGE_COUNT; e++) {
        ring->point[e] = corner[e];
        ring->first[e] = e;
    }
}

/* A billowed strip, symmetric about its middle ruling: the right half is laid, the left
 * half mirrored. */
static void develop_billowed(const struct section *low, const struct section *high, size_t cells,
                             struct ring *ring) {
    struct laid_ruling ruling = middle_ruling(low, high);
    struct flat_point *bottom = ring->point, *top = ring->point + 2 * cells + 1;
    for (size_t i = 0; i <= cells; i++) {
        if (i > 0)
            ruling = next_ruling(&ruling, low, high, i, cells);
        bottom[cells + i] = ruling.low;
        bottom[cells - i] = mirrored(ruling.low);
        top[cells - i] = ruling.high; /* the ring runs back along the top */
        top[cells + i] = mirrored(ruling.high);
    }
    ring->count = 4 * cells + 2;
    ring->first[EDGE_BOTTOM] = 0;
    ring->first[EDGE_RIGHT] = 2 * cells;
    ring->first[EDGE_TOP] = 2 * cells + 1;
    ring->first[EDGE_LEFT] = 4 * cells + 1;
}

/* One half of a faceted or half-gore panel: two triangles, the bottom edge level. */
static void develop_half(const struct section *low, const struct section *high,
                         struct flat_point corner[EDGE_COUNT]) {
    struct vector middle_low = section_point_at(low, 0), middle_high = section_point_at(high, 0);
    struct vector tape_low = section_point_at(low, 1), tape_high = section_point_at(high, 1);
    struct flat_point origin = {0, 0};
    struct flat_point right = {vector_length(vector_between(middle_low, tape_low)), 0};
    struct flat_point upper = lay_triangle(right, origin, tape_low, middle_low, middle_high);
    corner[0] = origin;
    corner[1] = right;
    corner[2] = lay_triangle(right, upper, tape_low, middle_high, tape_high);
    corner[3] = upper;
}

static void to_origin(struct ring *ring) {
    struct flat_point first = ring->point[0];
    for (size_t i = 0; i < ring->count; i++)
        ring->point[i] = moved(ring->point[i], -first.x_m, -first.y_m);
}

void develop_panel(const struct section *low, const struct section *high, enum side side,
                   size_t cells, struct ring *ring) {
    struct flat_point c[EDGE_COUNT];
    if (low->style == BILLOWED && !panel_is_flat(low, high)) {
        develop_billowed(low, high, cells, ring);
    } else {
        develop_half(low, high, c);
        if (side == SIDE_RIGHT)
            four_corners(ring, c[0], c[1], c[2], c[3]);
        else if (side == SIDE_LEFT)
            four_corners(ring, mirrored(c[1]), mirrored(c[0]), mirrored(c[3]), mirrored(c[2]));
        else
            four_corners(ring, mirrored(c[1]), c[1], c[2], mirrored(c[2]));
    }
    to_origin(ring);
}

/* ---- how fine ---------------------------------------------------------- */

/* Distance of p from the line through a and b. */
static double off_line(struct flat_point p, struct flat_point a, struct flat_point b) {
    double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m;
    return fabs((p.x_m - a.x_m) * dy - (p.y_m - a.y_m) * dx) / hypot(dx, dy);
}

/* Largest move of the flat outline when each cell is halved: of its points, and of the
 * straight bits between them, which the new points bow out.  Both strips lie with their
 * middle ruling on the y axis. */
static double doubling_moves_m(const struct section *low, const struct section *high,
                               size_t cells) {
    struct laid_ruling coarse = middle_ruling(low, high), fine = coarse;
    double largest = 0, at_low = 0;
    for (size_t i = 1; i <= cells; i++) {
        struct laid_ruling before = coarse, new_one;
        coarse = next_ruling(&coarse, low, high, i, cells);
        new_one = next_ruling(&fine, low, high, 2 * i - 1, 2 * cells);
        fine = next_ruling(&new_one, low, high, 2 * i, 2 * cells);
        at_low = flat_distance_m(fine.low, coarse.low);
        largest = fmax(largest, fmax(at_low, flat_distance_m(fine.high, coarse.high)));
        largest = fmax(largest, off_line(new_one.low, before.low, coarse.low));
        largest = fmax(largest, off_line(new_one.high, before.high, coarse.high));
    }
    return largest + at_low; /* the ring's origin, its lower corner, moves as well */
}

size_t cells_needed(const struct section *low, const struct section *high) {
    size_t cells = CELLS_LEAST;
    if (low->style != BILLOWED || panel_is_flat(low, high))
        return cells;
    while (cells < CELLS_MOST && doubling_moves_m(low, high, cells) > DEVELOPMENT_TOLERANCE_M)
        cells *= 2;
    return cells;
}
