/* plane.c - small sums with points and rings. */
#include "geometry/plane.h"

#include <math.h>

struct flat_point flat_minus(struct flat_point a, struct flat_point b) {
    return (struct flat_point){a.x_m - b.x_m, a.y_m - b.y_m};
}

struct flat_point flat_plus(struct flat_point a, struct flat_point b, double times) {
    return (struct flat_point){a.x_m + times * b.x_m, a.y_m + times * b.y_m};
}

double flat_cross(struct flat_point a, struct flat_point b) {
    return a.x_m * b.y_m - a.y_m * b.x_m;
}

double flat_dot(struct flat_point a, struct flat_point b) {
    return a.x_m * b.x_m + a.y_m * b.y_m;
}

double flat_distance_m(struct flat_point a, struct flat_point b) {
    return hypot(b.x_m - a.x_m, b.y_m - a.y_m);
}

struct flat_point flat_direction(struct flat_point from, struct flat_point to) {
    double size = flat_distance_m(from, to);
    return (struct flat_point){(to.x_m - from.x_m) / size, (to.y_m - from.y_m) / size};
}

struct flat_point flat_right_of(struct flat_point direction) {
    return (struct flat_point){direction.y_m, -direction.x_m};
}

size_t ring_edge_end(const struct ring *ring, enum edge e) {
    return e < EDGE_LEFT ? ring->first[e + 1] : ring->count;
}

struct flat_point ring_point(const struct ring *ring, size_t i) {
    return ring->point[i % ring->count];
}
