/* natural.h - the meridian of an envelope whose cloth carries no hoop tension. */
#ifndef GEOMETRY_NATURAL_H
#define GEOMETRY_NATURAL_H

#include <stdbool.h>
#include <stddef.h>

enum { SERIES_ORDER = 19, SERIES_STEPS_MOST = 64 };

/* What presses on the cloth, in any consistent units: pressure p0 + b z, cloth
 * weight w per unit area. */
struct meridian_load {
    double p0, b, w;
};

/* Where a meridian stands at one place. */
struct meridian_state {
    double r, z, slope, tension; /* tension: total, all around */
    double area, volume;         /* of the surface of revolution since the start */
};

/* One step of the solution: each quantity as a power series in s - start. */
struct meridian_step {
    double start, length;
    double r[SERIES_ORDER + 1], z[SERIES_ORDER + 1], slope[SERIES_ORDER + 1];
    double tension[SERIES_ORDER + 1], area[SERIES_ORDER + 1], volume[SERIES_ORDER + 1];
};

struct meridian {
    struct meridian_step step[SERIES_STEPS_MOST];
    size_t steps;
    double length;      /* arc length to where r returns to the axis */
    size_t evaluations; /* passes over the right-hand side, one for each order of each step */
};

/* Follow the equilibrium equations
 *     r' = sin(slope), z' = cos(slope), T' = 2 pi r w cos(slope),
 *     slope' = -2 pi r (p0 + b z + w sin(slope)) / T
 * by power series from `start` until r = 0 is reached from outside.
 * Source: equilibrium of the axisymmetric membrane without hoop tension, the
 * equations of F. Baginski, SIAM J. Appl. Math. 65 (2005).
 * Given: tolerance, the error allowed in each step, relative to the size of the
 * figures (1e-13 .. 1e-4).
 * Returns: true, or false when the meridian turns over (slope below -pi) or
 * does not come back to the axis; the last step then ends where it stopped. */
bool meridian_follow(struct meridian *meridian, const struct meridian_load *load,
                     const struct meridian_state *start, double tolerance);

/* The step that holds s, and the value of one of its series at x = s - its start: for
 * callers that need only a few of the quantities. */
const struct meridian_step *meridian_step_at(const struct meridian *meridian, double s);
double series_at(const double coefficient[SERIES_ORDER + 1], double x);

/* State at s, 0 .. length. */
struct meridian_state meridian_at(const struct meridian *meridian, double s);

enum natural_status { NATURAL_FINE, NATURAL_MOUTH_TOO_WIDE, NATURAL_TOO_HEAVY };

/* Solve the closed natural outline in units of lambda = (P/b)^(1/3), where b = 1 and P = 1.
 * Given: r_mouth / lambda >= 0; omega = w / (b lambda) >= 0; guess of theta_0
 * [rad], 0 for none.  Returns: the status; when fine, *meridian and *theta_0 in
 * 0 .. 85 deg, with slope -pi/2 at r = 0 to 1e-12. */
enum natural_status natural_solve(double mouth, double omega, double guess,
                                  struct meridian *meridian, double *theta_0);

#endif
