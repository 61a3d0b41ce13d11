/* outline.h - the smooth meridian that the load tapes follow, of any kind. */
#ifndef GEOMETRY_OUTLINE_H
#define GEOMETRY_OUTLINE_H

#include "geometry/natural.h"
#include "geometry/table.h"
#include "gorewright/geometry.h"

enum outline_status {
    OUTLINE_FINE,
    OUTLINE_MOUTH_TOO_WIDE,
    OUTLINE_TOO_HEAVY,
    OUTLINE_CROWN_TOO_WIDE
};

/* A sphere of radius 1 above a tangent cone. */
struct ball_and_cone {
    double slope;  /* of the cone, from the vertical */
    double mouth;  /* its radius */
    double cone;   /* length of the cone from the mouth to the tangent circle */
    double centre; /* height of the sphere's centre above the mouth */
};

/* The outline is kept in its own unit and scaled when it is read: lambda for a
 * natural outline, the sphere's radius, or the factor on a table. */
struct outline {
    enum outline_kind kind;
    double unit_m;
    double length;       /* from mouth to crown opening, smooth, in that unit */
    double weight_ratio; /* Sigma of a natural outline, else 0 */
    double theta_0;      /* slope at the mouth; a good guess for the next size */
    union {
        struct meridian natural;
        struct ball_and_cone ball;
        struct spline table;
    } as;
};

/* Solve the outline of a design for one size.
 * Given: the unit [m] > 0; *outline zeroed before the first call, or as left by
 * an earlier one.  Returns: the status; the outline is usable only when fine. */
enum outline_status outline_solve(const struct design *design, double unit_m,
                                  struct outline *outline);

/* A point at s [m], 0 .. length * unit_m. */
struct meridian_point outline_at(const struct outline *outline, double s_m);

/* The same in the outline's own unit: s and the point over unit_m.  A shape divided in
 * this unit is divided alike at every size, to the last bit. */
struct meridian_point outline_unit_at(const struct outline *outline, double s);

/* Its slope alone, for what needs no more [rad]. */
double outline_unit_slope_at(const struct outline *outline, double s);

/* The curve is smooth between the starts of its pieces, and may have a kink there.
 * Returns: number of pieces, at least 1; piece 0 starts at 0. */
size_t outline_pieces(const struct outline *outline);
double outline_piece_start(const struct outline *outline, size_t piece);

/* Complain about a table that no envelope can follow: touches the axis,
 * crosses itself, or is nowhere wider than its mouth.
 * Returns: true when the table is fine. */
bool table_check(const struct design *design, struct diagnostics *messages);

#endif
