/* table.c - not-a-knot spline in chord length, and its arc length. */
#include "geometry/table.h"

#include <math.h>

#include "geometry/quadrature.h"

static double value(const double c[4], double x) {
    return c[0] + x * (c[1] + x * (c[2] + x * c[3]));
}

static double rate(const double c[4], double x) {
    return c[1] + x * (2 * c[2] + x * 3 * c[3]);
}

/* Slopes m of a cubic spline through y at t, n >= 4, ends not-a-knot.
 * The end rows are those of de Boor, A Practical Guide to Splines, ch. IV: the
 * third derivative is continuous across the first and last inner station. */
static void spline_slopes(const double *t, const double *y, size_t n, double *m) {
    double diagonal[TABLE_MOST], upper[TABLE_MOST];
    double h0 = t[1] - t[0], h1 = t[2] - t[1];
    double d0 = (y[1] - y[0]) / h0, d1 = (y[2] - y[1]) / h1;
    diagonal[0] = h1;
    upper[0] = h0 + h1;
    m[0] = ((h0 + 2 * upper[0]) * h1 * d0 + h0 * h0 * d1) / upper[0];
    for (size_t i = 1; i + 1 < n; i++) {
        double left = t[i] - t[i - 1], right = t[i + 1] - t[i];
        double factor = right / diagonal[i - 1];
        diagonal[i] = 2 * (left + right) - factor * upper[i - 1];
        upper[i] = left;
        m[i] = 3 * (right * (y[i] - y[i - 1]) / left + left * (y[i + 1] - y[i]) / right) -
               factor * m[i - 1];
    }
    double g0 = t[n - 2] - t[n - 3], g1 = t[n - 1] - t[n - 2], both = g0 + g1;
    double e0 = (y[n - 2] - y[n - 3]) / g0, e1 = (y[n - 1] - y[n - 2]) / g1;
    double end = (g1 * g1 * e0 + (2 * both + g1) * g0 * e1) / both;
    double factor = both / diagonal[n - 2];
    m[n - 1] = (end - factor * m[n - 2]) / (g0 - factor * upper[n - 2]);
    for (size_t i = n - 1; i-- > 0;)
        m[i] = (m[i] - upper[i] * m[i + 1]) / diagonal[i];
}

/* Three stations: the parabola through them. */
static void parabola_slopes(const double *t, const double *y, double *m) {
    double h0 = t[1] - t[0], h1 = t[2] - t[1];
    double d0 = (y[1] - y[0]) / h0, d1 = (y[2] - y[1]) / h1;
    double bend = (d1 - d0) / (h0 + h1);
    m[0] = d0 - bend * h0;
    m[1] = d0 + bend * h0;
    m[2] = d1 + bend * h1;
}

static void cubic(double c[4], double h, double y0, double y1, double m0, double m1) {
    double d = (y1 - y0) / h;
    c[0] = y0;
    c[1] = m0;
    c[2] = (3 * d - 2 * m0 - m1) / h;
    c[3] = (m0 + m1 - 2 * d) / (h * h);
}

/* Coefficients of one coordinate, `member` 0 for r or 1 for z. */
static void join_coordinate(struct spline *spline, const double *t, const double *y, size_t n,
                            int member) {
    double m[TABLE_MOST];
    bool line = spline->straight || n == 2;
    if (!line && n == 3)
        parabola_slopes(t, y, m);
    else if (!line)
        spline_slopes(t, y, n, m);
    for (size_t i = 0; i + 1 < n; i++) {
        double h = t[i + 1] - t[i], d = (y[i + 1] - y[i]) / h;
        double *c = member == 0 ? spline->piece[i].r : spline->piece[i].z;
        cubic(c, h, y[i], y[i + 1], line ? d : m[i], line ? d : m[i + 1]);
    }
}

static double piece_width(const struct spline *spline, size_t i) {
    double end = i + 1 < spline->pieces ? spline->piece[i + 1].t : spline->t_end;
    return end - spline->piece[i].t;
}

/* Arc length gained per chord length. */
static double speed(const struct spline_piece *piece, double x) {
    double r = rate(piece->r, x), z = rate(piece->z, x);
    return sqrt(r * r + z * z);
}

/* Arc length of a piece from its start to x. */
static double arc(const struct spline_piece *piece, double x) {
    double sum = 0;
    for (int i = 0; i < GAUSS_POINTS; i++)
        sum += gauss_weight[i] * speed(piece, x * gauss_node[i]);
    return sum * x;
}

void spline_through(const struct point_list *stations, enum join join, struct spline *spline) {
    size_t n = stations->count;
    double t[TABLE_MOST] = {0}, r[TABLE_MOST] = {0}, z[TABLE_MOST] = {0};
    for (size_t i = 0; i < n; i++) {
        r[i] = stations->value[i].r_m;
        z[i] = stations->value[i].z_m - stations->value[0].z_m;
        t[i] = i == 0 ? 0 : t[i - 1] + hypot(r[i] - r[i - 1], z[i] - z[i - 1]);
    }
    spline->pieces = n - 1;
    spline->straight = join == JOIN_STRAIGHT;
    spline->t_end = t[n - 1];
    join_coordinate(spline, t, r, n, 0);
    join_coordinate(spline, t, z, n, 1);
    spline->s_end = 0;
    for (size_t i = 0; i + 1 < n; i++) {
        spline->piece[i].t = t[i];
        spline->piece[i].s = spline->s_end;
        spline->s_end += arc(&spline->piece[i], t[i + 1] - t[i]);
    }
}

static struct spline_point point_at(const struct spline_piece *piece, double x) {
    return (struct spline_point){value(piece->r, x), value(piece->z, x),
                                 atan2(rate(piece->r, x), rate(piece->z, x))};
}

struct spline_point spline_piece_at(const struct spline *spline, size_t piece, double part) {
    return point_at(&spline->piece[piece], part * piece_width(spline, piece));
}

/* Where along a piece its arc length reaches `s`: Newton from the chord's guess. */
static double along_piece(const struct spline_piece *piece, double width, double length, double s) {
    double x = width * s / length;
    for (int i = 0; i < 30; i++) {
        double change = (s - arc(piece, x)) / speed(piece, x);
        x = fmin(fmax(x + change, 0), width);
        if (fabs(change) <= 1e-14 * width)
            break;
    }
    return x;
}

/* The shorter way round from one slope to the other, halved. */
static double bisector(double a, double b) {
    return a + 0.5 * remainder(b - a, 2 * PI);
}

struct spline_point spline_at(const struct spline *spline, double s) {
    size_t i = spline->pieces - 1;
    while (i > 0 && spline->piece[i].s > s)
        i--;
    const struct spline_piece *piece = &spline->piece[i];
    double end = i + 1 < spline->pieces ? spline->piece[i + 1].s : spline->s_end;
    double x = along_piece(piece, piece_width(spline, i), end - piece->s, s - piece->s);
    struct spline_point point = point_at(piece, x);
    double near = 1e-9 * spline->s_end;
    if (spline->straight && i > 0 && s - piece->s < near)
        point.slope = bisector(spline_piece_at(spline, i - 1, 1).slope, point.slope);
    else if (spline->straight && i + 1 < spline->pieces && end - s < near)
        point.slope = bisector(point.slope, spline_piece_at(spline, i + 1, 0).slope);
    return point;
}
