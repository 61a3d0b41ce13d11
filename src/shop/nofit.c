/* nofit.c - sums of convex parts, grown by the gap, ready for lines to run through. */
#include "shop/nofit.h"

#include <math.h>
#include <stdlib.h>

/* A convex polygon that is being made. */
struct outline_of_sum {
    struct flat_point *corner;
    size_t count;
};

/* ---- the sum of two convex polygons ---------------------------------------------- */

static size_t lowest(const struct flat_point *point, size_t count) {
    size_t best = 0;
    for (size_t i = 1; i < count; i++)
        if (point[i].y_m < point[best].y_m ||
            (point[i].y_m == point[best].y_m && point[i].x_m < point[best].x_m))
            best = i;
    return best;
}

static struct flat_point edge_at(const struct flat_point *point, size_t count, size_t i) {
    struct flat_point a = point[i % count], b = point[(i + 1) % count];
    return (struct flat_point){b.x_m - a.x_m, b.y_m - a.y_m};
}

/* Corners of A + (-B): the edges of both in the order of their directions.  Parallel edges
 * come out as one.  Room is for the corners of both. */
static size_t sum_corners(const struct flat_point *a, size_t a_count,
                          const struct flat_point *minus_b, size_t b_count,
                          struct flat_point *sum) {
    size_t a0 = lowest(a, a_count), b0 = lowest(minus_b, b_count), i = 0, j = 0, count = 0;
    struct flat_point at = {a[a0].x_m + minus_b[b0].x_m, a[a0].y_m + minus_b[b0].y_m};
    while (i < a_count || j < b_count) {
        struct flat_point u = edge_at(a, a_count, a0 + i), v = edge_at(minus_b, b_count, b0 + j);
        double turn = u.x_m * v.y_m - u.y_m * v.x_m,
               size = hypot(u.x_m, u.y_m) * hypot(v.x_m, v.y_m);
        bool both = i < a_count && j < b_count && fabs(turn) <= 1e-11 * size &&
                    u.x_m * v.x_m + u.y_m * v.y_m > 0;
        bool from_a = both || j == b_count || (i < a_count && turn > 0);
        bool from_b = both || !from_a;
        sum[count++] = at;
        at.x_m += (from_a ? u.x_m : 0) + (from_b ? v.x_m : 0);
        at.y_m += (from_a ? u.y_m : 0) + (from_b ? v.y_m : 0);
        i += from_a;
        j += from_b;
    }
    return count;
}

/* ---- the gap around it ------------------------------------------------------------ */

struct half_plane {
    double x, y, reach; /* x px + y py <= reach */
};

/* The edges moved out by the gap.  Corners are mitred; at sharp ones an edge square to the
 * corner is put between, so that no mitre stands out by more than six tenths of the gap. */
static size_t grown_edges(const struct flat_point *corner, size_t count, double gap_m,
                          struct half_plane *edge) {
    size_t edges = 0;
    for (size_t i = 0; i < count; i++) {
        struct flat_point u = edge_at(corner, count, i), v = edge_at(corner, count, i + 1);
        double u_size = hypot(u.x_m, u.y_m), v_size = hypot(v.x_m, v.y_m);
        double ux = u.y_m / u_size, uy = -u.x_m / u_size, vx = v.y_m / v_size, vy = -v.x_m / v_size;
        struct flat_point at = corner[i], next = corner[(i + 1) % count];
        edge[edges++] = (struct half_plane){ux, uy, ux * at.x_m + uy * at.y_m + gap_m};
        if (gap_m > 0 && ux * vx + uy * vy < -0.2) {
            double bx = ux + vx, by = uy + vy, size = hypot(bx, by);
            if (size < 1e-6) /* a needle's tip: straight on */
                bx = -uy, by = ux, size = 1;
            bx /= size;
            by /= size;
            edge[edges++] = (struct half_plane){bx, by, bx * next.x_m + by * next.y_m + gap_m};
        }
    }
    return edges;
}

static struct flat_point meeting(struct half_plane a, struct half_plane b) {
    double turn = a.x * b.y - a.y * b.x;
    return (struct flat_point){(a.reach * b.y - b.reach * a.y) / turn,
                               (a.x * b.reach - b.x * a.reach) / turn};
}

/* ---- a part, laid down in the memory of its region ----------------------------------- */

/* Edges that run along a line but for less than this do not say where it begins or ends: the
 * others do, a little too far out. */
static const double STEEP = 1e-7;

static void add_to_chain(struct chain *chain, double *room, size_t most, double a, double b) {
    room[chain->count] = a;
    room[most + chain->count++] = b;
    chain->a = room;
    chain->b = room + most;
}

/* Doubles that a part of so many edges takes. */
static size_t doubles_of(size_t edges) {
    return 11 * edges;
}

static void fill_box(struct nofit_part *part, const struct half_plane *edge, size_t edges) {
    part->least[0] = part->least[1] = HUGE_VAL;
    part->most[0] = part->most[1] = -HUGE_VAL;
    for (size_t i = 0; i < edges; i++) {
        struct flat_point p = meeting(edge[i], edge[(i + 1) % edges]);
        part->least[0] = fmin(part->least[0], p.x_m);
        part->least[1] = fmin(part->least[1], p.y_m);
        part->most[0] = fmax(part->most[0], p.x_m);
        part->most[1] = fmax(part->most[1], p.y_m);
    }
}

static void fill_part(struct nofit_part *part, const struct half_plane *edge, size_t edges,
                      double *room) {
    *part = (struct nofit_part){.edges = edges};
    part->normal_x = room;
    part->normal_y = room + edges;
    part->reach = room + 2 * edges;
    double *along = room + 3 * edges, *far_along = along + 2 * edges,
           *across = far_along + 2 * edges, *far_across = across + 2 * edges;
    for (size_t i = 0; i < edges; i++) {
        double x = edge[i].x, y = edge[i].y, reach = edge[i].reach;
        room[i] = x;
        room[edges + i] = y;
        room[2 * edges + i] = reach;
        if (x < -STEEP)
            add_to_chain(&part->near[ALONG], along, edges, reach / x, -y / x);
        if (x > STEEP)
            add_to_chain(&part->far[ALONG], far_along, edges, reach / x, -y / x);
        if (y < -STEEP)
            add_to_chain(&part->near[ACROSS], across, edges, reach / y, -x / y);
        if (y > STEEP)
            add_to_chain(&part->far[ACROSS], far_across, edges, reach / y, -x / y);
    }
    fill_box(part, edge, edges);
}

/* ---- a region ------------------------------------------------------------------------ */

static size_t part_size(const struct convex_parts *parts, size_t i) {
    return parts->first[i + 1] - parts->first[i];
}

static size_t largest_part(const struct convex_parts *parts) {
    size_t most = 0;
    for (size_t i = 0; i < parts->parts; i++)
        most = part_size(parts, i) > most ? part_size(parts, i) : most;
    return most;
}

/* Room for one part while it is made. */
struct bench_room {
    struct flat_point *minus, *sum;
    struct half_plane *edge;
};

static size_t part_edges(const struct convex_parts *a, size_t i, const struct convex_parts *b,
                         size_t j, double gap_m, struct bench_room *room) {
    const struct flat_point *b_point = &b->point[b->first[j]];
    size_t b_count = part_size(b, j);
    for (size_t k = 0; k < b_count; k++)
        room->minus[k] = (struct flat_point){-b_point[k].x_m, -b_point[k].y_m};
    size_t count =
        sum_corners(&a->point[a->first[i]], part_size(a, i), room->minus, b_count, room->sum);
    return grown_edges(room->sum, count, gap_m, room->edge);
}

static void widen_box(struct nofit *nofit, const struct nofit_part *part) {
    for (int k = 0; k < 2; k++) {
        nofit->least[k] = fmin(nofit->least[k], part->least[k]);
        nofit->most[k] = fmax(nofit->most[k], part->most[k]);
    }
}

static void fill_parts(const struct convex_parts *a, const struct convex_parts *b, double gap_m,
                       struct bench_room *room, struct nofit *nofit) {
    double *next = (double *)(void *)(nofit->part + nofit->parts);
    nofit->least[0] = nofit->least[1] = HUGE_VAL;
    nofit->most[0] = nofit->most[1] = -HUGE_VAL;
    for (size_t i = 0; i < a->parts; i++)
        for (size_t j = 0; j < b->parts; j++) {
            struct nofit_part *part = &nofit->part[i * b->parts + j];
            size_t edges = part_edges(a, i, b, j, gap_m, room);
            fill_part(part, room->edge, edges, next);
            widen_box(nofit, part);
            next += doubles_of(edges);
        }
}

int nofit_make(const struct shape *a, const struct shape *b, double gap_m, struct nofit *nofit) {
    *nofit = (struct nofit){.parts = a->parts.parts * b->parts.parts};
    size_t most = largest_part(&a->parts) + largest_part(&b->parts) + 2, edges = 0;
    struct bench_room room = {malloc(most * sizeof *room.minus), malloc(most * sizeof *room.sum),
                              malloc(2 * most * sizeof *room.edge)};
    int status = -1;
    if (room.minus == NULL || room.sum == NULL || room.edge == NULL)
        goto out;
    for (size_t i = 0; i < a->parts.parts; i++)
        for (size_t j = 0; j < b->parts.parts; j++)
            edges += part_edges(&a->parts, i, &b->parts, j, gap_m, &room);
    nofit->memory = malloc(nofit->parts * sizeof *nofit->part + doubles_of(edges) * sizeof(double));
    nofit->part = nofit->memory;
    if (nofit->memory == NULL)
        goto out;
    fill_parts(&a->parts, &b->parts, gap_m, &room, nofit);
    status = 0;
out:
    free(room.minus);
    free(room.sum);
    free(room.edge);
    return status;
}

void nofit_free(struct nofit *nofit) {
    free(nofit->memory);
    *nofit = (struct nofit){0};
}
