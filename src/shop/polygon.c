/* polygon.c - outlines with fewer corners, hulls, and cuts into convex parts. */
#include "shop/polygon.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

double turn_at(struct flat_point a, struct flat_point b, struct flat_point c) {
    return (b.x_m - a.x_m) * (c.y_m - a.y_m) - (b.y_m - a.y_m) * (c.x_m - a.x_m);
}

static double distance_m(struct flat_point a, struct flat_point b) {
    return hypot(b.x_m - a.x_m, b.y_m - a.y_m);
}

double polygon_area_m2(const struct flat_point *point, size_t count) {
    double sum = 0;
    for (size_t i = 2; i < count; i++)
        sum += turn_at(point[0], point[i - 1], point[i]);
    return sum / 2;
}

/* ---- corners --------------------------------------------------------------- */

static size_t without(struct flat_point *point, size_t count, size_t i) {
    memmove(&point[i], &point[i + 1], (count - i - 1) * sizeof *point);
    return count - 1;
}

/* The point adds nothing: it repeats its neighbour, lies on a straight edge, or is the tip of
 * a spike without area. */
static bool adds_nothing(struct flat_point before, struct flat_point at, struct flat_point after) {
    double in = distance_m(before, at), out = distance_m(at, after), size = in + out;
    return in <= 1e-12 * size || out <= 1e-12 * size ||
           fabs(turn_at(before, at, after)) <= 1e-12 * size * size;
}

size_t polygon_corners(struct flat_point *point, size_t count) {
    for (size_t i = 0, kept = 0; count >= 3 && kept < count;) {
        if (adds_nothing(point[(i + count - 1) % count], point[i], point[(i + 1) % count])) {
            count = without(point, count, i);
            i = i == 0 ? count - 1 : i - 1; /* its neighbour may now be on a straight edge */
            kept = 0;
        } else {
            i = (i + 1) % count;
            kept++;
        }
    }
    if (count >= 3 && polygon_area_m2(point, count) < 0)
        for (size_t i = 0; i < count / 2; i++) {
            struct flat_point swap = point[i];
            point[i] = point[count - 1 - i];
            point[count - 1 - i] = swap;
        }
    return count;
}

/* ---- loosening ----------------------------------------------------------------- */

/* One way to lose a corner.  A bridge leaves corner `at` out.  A tip puts one corner where
 * the edges before `at` and after its successor meet, in place of both. */
struct step {
    size_t at;
    bool bridge;
    struct flat_point tip;
    double area_m2, depth_m;
};

static bool segments_cross(struct flat_point a, struct flat_point b, struct flat_point c,
                           struct flat_point d) {
    return (turn_at(a, b, c) > 0) != (turn_at(a, b, d) > 0) &&
           (turn_at(c, d, a) > 0) != (turn_at(c, d, b) > 0);
}

static bool in_triangle(struct flat_point p, struct flat_point a, struct flat_point b,
                        struct flat_point c) {
    return turn_at(a, b, p) >= 0 && turn_at(b, c, p) >= 0 && turn_at(c, a, p) >= 0;
}

/* Nothing else of the outline reaches into the triangle a, b, c (counter-clockwise), which
 * stands on the corners from .. to. */
static bool clear_of_rest(const struct flat_point *point, size_t count, size_t from, size_t to,
                          const struct flat_point t[3]) {
    double least_x = fmin(t[0].x_m, fmin(t[1].x_m, t[2].x_m)),
           most_x = fmax(t[0].x_m, fmax(t[1].x_m, t[2].x_m)),
           least_y = fmin(t[0].y_m, fmin(t[1].y_m, t[2].y_m)),
           most_y = fmax(t[0].y_m, fmax(t[1].y_m, t[2].y_m));
    size_t own = (to + count - from) % count;
    for (size_t k = own + 1; k < count; k++) {
        struct flat_point p = point[(from + k) % count], q = point[(from + k + 1) % count];
        if ((p.x_m < least_x && q.x_m < least_x) || (p.x_m > most_x && q.x_m > most_x) ||
            (p.y_m < least_y && q.y_m < least_y) || (p.y_m > most_y && q.y_m > most_y))
            continue;
        if (in_triangle(p, t[0], t[1], t[2]))
            return false;
        for (size_t e = 0; k + 1 < count && e < 3; e++)
            if (segments_cross(p, q, t[e], t[(e + 1) % 3]))
                return false;
    }
    return true;
}

/* Bridge over a corner that points inwards. */
static bool bridge_at(const struct flat_point *point, size_t count, size_t at, struct step *step) {
    struct flat_point before = point[(at + count - 1) % count], corner = point[at],
                      after = point[(at + 1) % count];
    double turn = turn_at(before, corner, after);
    *step = (struct step){at, true, corner, -turn / 2, -turn / distance_m(before, after)};
    return turn < 0;
}

/* Tip over the edge between two corners that both point outwards. */
static bool tip_at(const struct flat_point *point, size_t count, size_t at, struct step *step) {
    struct flat_point p0 = point[(at + count - 1) % count], p1 = point[at],
                      p2 = point[(at + 1) % count], p3 = point[(at + 2) % count];
    if (turn_at(p0, p1, p2) <= 0 || turn_at(p1, p2, p3) <= 0)
        return false;
    double ux = p1.x_m - p0.x_m, uy = p1.y_m - p0.y_m, vx = p2.x_m - p3.x_m, vy = p2.y_m - p3.y_m;
    double across = uy * vx - ux * vy; /* > 0 where the two edges drawn on will meet */
    double along = ((p2.y_m - p1.y_m) * vx - (p2.x_m - p1.x_m) * vy) / across;
    if (across <= 1e-9 * hypot(ux, uy) * hypot(vx, vy) || along <= 0)
        return false;
    struct flat_point tip = {p1.x_m + along * ux, p1.y_m + along * uy};
    double twice = fabs(turn_at(p1, tip, p2));
    *step = (struct step){at, false, tip, twice / 2, twice / distance_m(p1, p2)};
    return true;
}

/* Nothing of the outline is in the way of a step. */
static bool may_step(const struct flat_point *point, size_t count, const struct step *step) {
    size_t before = (step->at + count - 1) % count, after = (step->at + 1) % count;
    if (step->bridge)
        return clear_of_rest(point, count, before, after,
                             (struct flat_point[3]){point[before], point[after], point[step->at]});
    return clear_of_rest(point, count, step->at, after,
                         (struct flat_point[3]){point[after], point[step->at], step->tip});
}

static size_t take_step(struct flat_point *point, size_t count, const struct step *step) {
    if (step->bridge)
        return without(point, count, step->at);
    point[step->at] = step->tip;
    return without(point, count, (step->at + 1) % count);
}

static bool step_at(const struct flat_point *point, size_t count, size_t at, double depth_m,
                    struct step *step) {
    return (bridge_at(point, count, at, step) || tip_at(point, count, at, step)) &&
           step->depth_m <= depth_m;
}

/* The cheapest step after `last`, by area added and then by corner. */
static bool next_step(const struct flat_point *point, size_t count, double depth_m,
                      const struct step *last, struct step *best) {
    struct step step;
    best->area_m2 = HUGE_VAL;
    for (size_t i = 0; i < count; i++)
        if (step_at(point, count, i, depth_m, &step) && step.area_m2 < best->area_m2 &&
            (step.area_m2 > last->area_m2 || (step.area_m2 == last->area_m2 && i > last->at)))
            *best = step;
    return best->area_m2 < HUGE_VAL;
}

/* The cheapest step that nothing is in the way of. */
static bool cheapest_step(const struct flat_point *point, size_t count, double depth_m,
                          double area_m2, struct step *best) {
    struct step last = {.area_m2 = -1};
    while (next_step(point, count, depth_m, &last, best) && best->area_m2 <= area_m2) {
        if (may_step(point, count, best))
            return true;
        last = *best;
    }
    return false;
}

/* Steps so small that their order matters little, once round a finely divided outline. */
static size_t small_steps(struct flat_point *point, size_t count, double *area_m2, double depth_m) {
    double small_m2 = 0.2 * *area_m2 / (double)count;
    struct step step;
    for (size_t i = 0; i < count && count > 16;) {
        if (step_at(point, count, i, depth_m, &step) && step.area_m2 <= small_m2 &&
            may_step(point, count, &step)) {
            *area_m2 -= step.area_m2;
            count = take_step(point, count, &step);
        } else {
            i++;
        }
    }
    return count;
}

size_t polygon_loosened(struct flat_point *point, size_t count, double area_m2, double depth_m) {
    struct step step;
    count = small_steps(point, count, &area_m2, depth_m);
    while (count > 3 && cheapest_step(point, count, depth_m, area_m2, &step)) {
        area_m2 -= step.area_m2;
        count = take_step(point, count, &step);
    }
    return count;
}

/* ---- hull ------------------------------------------------------------------- */

static int by_x_then_y(const void *one, const void *other) {
    const struct flat_point *a = one, *b = other;
    if (a->x_m != b->x_m)
        return a->x_m < b->x_m ? -1 : 1;
    return (a->y_m > b->y_m) - (a->y_m < b->y_m);
}

size_t convex_hull(const struct flat_point *point, size_t count, struct flat_point *hull) {
    struct flat_point *sorted = malloc((count + 1) * sizeof *sorted);
    if (sorted == NULL || count < 3) {
        free(sorted);
        return 0;
    }
    memcpy(sorted, point, count * sizeof *sorted);
    qsort(sorted, count, sizeof *sorted, by_x_then_y);
    size_t k = 0;
    for (size_t i = 0; i < count; i++) {
        while (k >= 2 && turn_at(hull[k - 2], hull[k - 1], sorted[i]) <= 0)
            k--;
        hull[k++] = sorted[i];
    }
    for (size_t i = count - 1, low = k + 1; i-- > 0;) {
        while (k >= low && turn_at(hull[k - 2], hull[k - 1], sorted[i]) <= 0)
            k--;
        if (i > 0)
            hull[k++] = sorted[i];
    }
    free(sorted);
    return k;
}

/* ---- convex parts ------------------------------------------------------------- */

/* Parts while they are cut and joined: lists of corner numbers, `room` for each. */
struct cutting {
    const struct flat_point *point;
    size_t count;
    size_t *corner, *size; /* corner[part * count + k], size[part] */
    size_t parts;
};

static size_t *part_corners(const struct cutting *cut, size_t part) {
    return &cut->corner[part * cut->count];
}

static bool same_point(struct flat_point a, struct flat_point b) {
    return a.x_m == b.x_m && a.y_m == b.y_m;
}

static bool is_ear(const struct cutting *cut, const size_t *left, size_t count, size_t i) {
    struct flat_point a = cut->point[left[(i + count - 1) % count]], b = cut->point[left[i]],
                      c = cut->point[left[(i + 1) % count]];
    if (turn_at(a, b, c) <= 0)
        return false;
    for (size_t k = 2; k + 1 < count; k++) {
        struct flat_point p = cut->point[left[(i + k) % count]];
        if (!same_point(p, a) && !same_point(p, b) && !same_point(p, c) && in_triangle(p, a, b, c))
            return false;
    }
    return true;
}

/* The ear with the shortest cut, so that parts stay compact; count when there is none. */
static size_t next_ear(const struct cutting *cut, const size_t *left, size_t count) {
    size_t best = count;
    double shortest = HUGE_VAL;
    for (size_t i = 0; i < count; i++) {
        double length = distance_m(cut->point[left[(i + count - 1) % count]],
                                   cut->point[left[(i + 1) % count]]);
        if (length < shortest && is_ear(cut, left, count, i)) {
            shortest = length;
            best = i;
        }
    }
    return best;
}

/* What is left when no ear is found (a line that touches itself) becomes one part; its hull
 * stands in for it later. */
static void cut_ears(struct cutting *cut, size_t *left) {
    size_t count = cut->count;
    for (size_t i = 0; i < count; i++)
        left[i] = i;
    while (count >= 3) {
        size_t ear = next_ear(cut, left, count);
        size_t *part = part_corners(cut, cut->parts);
        if (ear == count || count == 3) {
            memcpy(part, left, count * sizeof *left);
            cut->size[cut->parts++] = count;
            return;
        }
        part[0] = left[(ear + count - 1) % count];
        part[1] = left[ear];
        part[2] = left[(ear + 1) % count];
        cut->size[cut->parts++] = 3;
        memmove(&left[ear], &left[ear + 1], (count - ear - 1) * sizeof *left);
        count--;
    }
}

/* Where in part `part` the corner `from` is followed by `to`; size when nowhere. */
static size_t edge_in(const struct cutting *cut, size_t part, size_t from, size_t to) {
    const size_t *corner = part_corners(cut, part);
    size_t size = cut->size[part];
    for (size_t k = 0; k < size; k++)
        if (corner[k] == from && corner[(k + 1) % size] == to)
            return k;
    return size;
}

static bool is_convex(const struct cutting *cut, const size_t *corner, size_t size) {
    for (size_t k = 0; k < size; k++) {
        struct flat_point a = cut->point[corner[k]], b = cut->point[corner[(k + 1) % size]],
                          c = cut->point[corner[(k + 2) % size]];
        if (turn_at(a, b, c) < -1e-12 * distance_m(a, b) * distance_m(b, c))
            return false;
    }
    return true;
}

/* A common edge of two parts: from corner k of part `one`, from corner m of part `other`. */
struct border {
    size_t one, k, other, m;
};

/* The corners of two parts joined over their border.  Returns: how many. */
static size_t joined(const struct cutting *cut, const struct border *at, size_t *corner) {
    size_t size1 = cut->size[at->one], size2 = cut->size[at->other], size = 0;
    for (size_t i = 1; i < size1; i++)
        corner[size++] = part_corners(cut, at->one)[(at->k + i) % size1];
    for (size_t i = 1; i < size2; i++)
        corner[size++] = part_corners(cut, at->other)[(at->m + i) % size2];
    return size;
}

/* The part on the far side of edge k of part `one`, if joining the two leaves a convex one. */
static bool may_join(const struct cutting *cut, size_t one, size_t k, size_t *room,
                     struct border *at) {
    const size_t *corner = part_corners(cut, one);
    size_t from = corner[k], to = corner[(k + 1) % cut->size[one]];
    for (size_t other = one + 1; other < cut->parts; other++) {
        size_t m = edge_in(cut, other, to, from);
        if (m == cut->size[other])
            continue;
        *at = (struct border){one, k, other, m};
        return is_convex(cut, room, joined(cut, at, room));
    }
    return false;
}

static void join(struct cutting *cut, const struct border *at, size_t *room) {
    size_t size = joined(cut, at, room);
    memcpy(part_corners(cut, at->one), room, size * sizeof *room);
    cut->size[at->one] = size;
    cut->parts--;
    memmove(part_corners(cut, at->other), part_corners(cut, cut->parts), cut->count * sizeof *room);
    cut->size[at->other] = cut->size[cut->parts];
}

/* Take out the longest border whose going leaves a convex part. */
static bool join_once(struct cutting *cut, size_t *room) {
    double longest = -1;
    struct border best = {0}, at;
    for (size_t one = 0; one < cut->parts; one++)
        for (size_t k = 0; k < cut->size[one]; k++) {
            const size_t *corner = part_corners(cut, one);
            double length =
                distance_m(cut->point[corner[k]], cut->point[corner[(k + 1) % cut->size[one]]]);
            if (length > longest && may_join(cut, one, k, room, &at)) {
                longest = length;
                best = at;
            }
        }
    if (longest >= 0)
        join(cut, &best, room);
    return longest >= 0;
}

static int keep_parts(const struct cutting *cut, struct convex_parts *parts) {
    size_t corners = 0;
    for (size_t i = 0; i < cut->parts; i++)
        corners += cut->size[i];
    parts->point = malloc((corners + 1) * sizeof *parts->point);
    parts->first = malloc((cut->parts + 1) * sizeof *parts->first);
    struct flat_point *part = malloc(cut->count * sizeof *part),
                      *hull = malloc(2 * cut->count * sizeof *hull);
    if (parts->point == NULL || parts->first == NULL || part == NULL || hull == NULL) {
        free(part);
        free(hull);
        convex_parts_free(parts);
        return -1;
    }
    size_t used = 0;
    for (size_t i = 0; i < cut->parts; i++) {
        for (size_t k = 0; k < cut->size[i]; k++)
            part[k] = cut->point[part_corners(cut, i)[k]];
        size_t size = convex_hull(part, cut->size[i], hull);
        if (size < 3)
            continue; /* a sliver without area covers nothing */
        memcpy(&parts->point[used], hull, size * sizeof *hull);
        parts->first[parts->parts++] = used;
        used += size;
    }
    parts->first[parts->parts] = used;
    free(part);
    free(hull);
    return 0;
}

int convex_parts_of(const struct flat_point *point, size_t count, struct convex_parts *parts) {
    *parts = (struct convex_parts){0};
    struct cutting cut = {.point = point, .count = count};
    cut.corner = calloc(count * count, sizeof *cut.corner);
    cut.size = calloc(count, sizeof *cut.size);
    size_t *room = calloc(2 * count, sizeof *room);
    int status = -1;
    if (cut.corner != NULL && cut.size != NULL && room != NULL) {
        cut_ears(&cut, room);
        while (join_once(&cut, room))
            ;
        status = keep_parts(&cut, parts);
    }
    free(cut.corner);
    free(cut.size);
    free(room);
    return status;
}

void convex_parts_free(struct convex_parts *parts) {
    free(parts->point);
    free(parts->first);
    *parts = (struct convex_parts){0};
}
