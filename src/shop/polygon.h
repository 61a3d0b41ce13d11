/* polygon.h - outlines made simple enough to lay out quickly. */
#ifndef SHOP_POLYGON_H
#define SHOP_POLYGON_H

#include "gorewright/geometry.h"

/* Twice the area of the triangle a, b, c; + when it turns to the left. */
double turn_at(struct flat_point a, struct flat_point b, struct flat_point c);

/* Area inside a closed line; + when it runs counter-clockwise. */
double polygon_area_m2(const struct flat_point *point, size_t count);

/* The corners of a closed line: repeated points and points on straight edges are left out,
 * and it runs counter-clockwise.
 * Given: point, changed in place.  Returns: how many are left; below 3 it is no outline. */
size_t polygon_corners(struct flat_point *point, size_t count);

/* A slightly larger outline with fewer corners: hollows bridged, short edges between two outer
 * corners left out and their neighbours drawn on until they meet.
 * Given: corners counter-clockwise, changed in place; the area that may be added in all
 * [m2]; the depth that a single step may add [m].  Returns: how many corners are left. */
size_t polygon_loosened(struct flat_point *point, size_t count, double area_m2, double depth_m);

/* Convex hull, counter-clockwise.  Given: hull with room for 2 * count points.
 * Returns: how many it has; 0 without memory. */
size_t convex_hull(const struct flat_point *point, size_t count, struct flat_point *hull);

/* A polygon as convex parts that together cover it, and little or nothing else. */
struct convex_parts {
    struct flat_point *point; /* owned: the corners of all parts, one part after another */
    size_t *first;            /* owned: parts + 1 indices into point */
    size_t parts;
};

/* Cut a polygon into convex parts.
 * Given: corners, counter-clockwise.  Returns 0, or -1 without memory. */
int convex_parts_of(const struct flat_point *point, size_t count, struct convex_parts *parts);
void convex_parts_free(struct convex_parts *parts);

#endif
