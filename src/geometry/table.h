/* table.h - an outline through the builder's own stations. */
#ifndef GEOMETRY_TABLE_H
#define GEOMETRY_TABLE_H

#include <stddef.h>

#include "gorewright/design.h"

/* A curve through points (r, z), by pieces: cubic in t, the running chord length.
 * r = r[0] + r[1] x + r[2] x^2 + r[3] x^3 with x = t - t of the piece's start. */
struct spline_piece {
    double t, s; /* chord length and arc length at its start */
    double r[4], z[4];
};

struct spline {
    size_t pieces;
    bool straight;
    double t_end, s_end;
    struct spline_piece piece[TABLE_MOST];
};

struct spline_point {
    double r, z, slope;
};

/* Join the stations smoothly: a cubic spline over chord length with not-a-knot
 * ends; three stations a parabola, two a line.  Or by straight lines.
 * Given: 2 .. TABLE_MOST stations, no two neighbours equal; heights are kept
 * relative to the first station. */
void spline_through(const struct point_list *stations, enum join join, struct spline *spline);

/* A point at arc length s, 0 .. s_end; at a kink of straight lines the slope is
 * that of the bisector. */
struct spline_point spline_at(const struct spline *spline, double s);

/* A point of one piece, `part` from 0 to 1 along it. */
struct spline_point spline_piece_at(const struct spline *spline, size_t piece, double part);

#endif
