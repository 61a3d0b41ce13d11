/* plane.h - points, directions and rings in the plane of the cloth. */
#ifndef GEOMETRY_PLANE_H
#define GEOMETRY_PLANE_H

#include "gorewright/geometry.h"

struct flat_point flat_minus(struct flat_point a, struct flat_point b);
struct flat_point flat_plus(struct flat_point a, struct flat_point b, double times);
double flat_cross(struct flat_point a, struct flat_point b);
double flat_dot(struct flat_point a, struct flat_point b);
double flat_distance_m(struct flat_point a, struct flat_point b);

/* Unit vector from one point towards another, which must differ. */
struct flat_point flat_direction(struct flat_point from, struct flat_point to);

/* To the right of a direction: outwards, since rings run counter-clockwise. */
struct flat_point flat_right_of(struct flat_point direction);

/* One past the last point that begins or lies on edge e: the index, in a ring that closes on
 * itself, of the corner where the edge ends. */
size_t ring_edge_end(const struct ring *ring, enum edge e);

/* Point i of the ring, which closes on itself. */
struct flat_point ring_point(const struct ring *ring, size_t i);

#endif
