/* space.h - points in space, and a gore's sections placed there. */
#ifndef GEOMETRY_SPACE_H
#define GEOMETRY_SPACE_H

#include "gorewright/geometry.h"

/* x outwards through the middle of the gore, y to the right as seen from outside, z up. */
struct vector {
    double x, y, z;
};

struct vector vector_between(struct vector from, struct vector to);
struct vector vector_cross(struct vector a, struct vector b);
double vector_dot(struct vector a, struct vector b);
double vector_length(struct vector a);

/* A billowed section: half its turn, the sine of that, and the squared sine of half of it. */
struct arc {
    double half_turn, sine, high;
};

struct arc arc_of(double bulge);

/* One gore's section at one station: the chord between the tapes, and the line
 * n = cos(slope) e - sin(slope) up along which the cloth stands out from it. */
struct section {
    enum style style;
    double chord_m, bulge;
    double middle_x_m, z_m; /* middle of the chord */
    double out_x, out_z;    /* n */
    struct arc arc;         /* half_turn 2 atan(2 bulge) */
};

struct section section_of(enum style style, const struct station *station, size_t gores);

/* Point of the section at u, -1 (left tape) .. 1 (right tape), equal steps of length. */
struct vector section_point_at(const struct section *section, double u);

/* The same, differentiated by u; at the ridge of a half-gore, the right half's. */
struct vector section_rate_at(const struct section *section, double u);

#endif
