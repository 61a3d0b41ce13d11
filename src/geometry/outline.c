/* outline.c - one door to the three kinds of outline. */
#include "geometry/outline.h"

#include <math.h>

static const double degree = PI / 180;

/* ---- natural ----------------------------------------------------------- */

/* omega = w / (b lambda) from whatever the design says of the cloth's weight;
 * Sigma = (2 pi)^(1/3) omega. */
static double natural_omega(const struct design *design, double lambda_m) {
    switch (design->outline.weight_from) {
    case WEIGHT_RATIO:
        return design->outline.weight_ratio / cbrt(2 * PI);
    case WEIGHT_CLOTH:
        return design->cloth.mass_kg_m2 * GRAVITY_m_s2 /
               (design->outline.lift_per_volume_N_m3 * lambda_m);
    default:
        return 0;
    }
}

struct sought {
    const struct meridian *meridian;
    double r;
};

static double past_equator(double s, void *context) {
    const struct sought *sought = context;
    return -meridian_at(sought->meridian, s).slope;
}

static double inside_radius(double s, void *context) {
    const struct sought *sought = context;
    return sought->r - meridian_at(sought->meridian, s).r;
}

/* Arc length, above the equator, at which the outline comes in to `radius`; 0 when it
 * is never that wide. */
static double crown_length(const struct meridian *meridian, double radius) {
    struct sought sought = {meridian, radius};
    double end = meridian->length, equator, s;
    if (!rising_root(past_equator, &sought, 0, end, 0.45 * end, 0.05 * end, 1e-13 * end, &equator))
        return 0;
    if (meridian_at(meridian, equator).r <= radius * (1 + 1e-9))
        return 0;
    if (!rising_root(inside_radius, &sought, equator, end, end - radius, 0.01 * end, 1e-14 * end,
                     &s))
        return 0;
    return s;
}

static enum outline_status solve_natural(const struct design *design, struct outline *outline) {
    double unit = outline->unit_m, omega = natural_omega(design, unit);
    double mouth = 0.5 * design->outline.mouth_diameter_m / unit;
    double crown = 0.5 * design->outline.crown_diameter_m / unit;
    enum natural_status status =
        natural_solve(mouth, omega, outline->theta_0, &outline->as.natural, &outline->theta_0);
    if (status == NATURAL_MOUTH_TOO_WIDE)
        return OUTLINE_MOUTH_TOO_WIDE;
    if (status == NATURAL_TOO_HEAVY)
        return OUTLINE_TOO_HEAVY;
    double length = crown_length(&outline->as.natural, crown);
    if (length <= 0)
        return OUTLINE_CROWN_TOO_WIDE;
    outline->length = length;
    outline->weight_ratio = cbrt(2 * PI) * omega;
    return OUTLINE_FINE;
}

static struct meridian_point natural_at(const struct outline *outline, double s) {
    const struct meridian_step *step = meridian_step_at(&outline->as.natural, s);
    double x = s - step->start;
    return (struct meridian_point){series_at(step->r, x), series_at(step->z, x),
                                   series_at(step->slope, x)};
}

static double natural_slope_at(const struct outline *outline, double s) {
    const struct meridian_step *step = meridian_step_at(&outline->as.natural, s);
    return series_at(step->slope, s - step->start);
}

/* ---- ball and cone ----------------------------------------------------- */

static enum outline_status solve_ball(const struct design *design, struct outline *outline) {
    struct ball_and_cone *ball = &outline->as.ball;
    ball->slope = design->outline.cone_angle_deg * degree;
    ball->mouth = 0.5 * design->outline.mouth_diameter_m / outline->unit_m;
    double crown = 0.5 * design->outline.crown_diameter_m / outline->unit_m;
    double tangent = cos(ball->slope); /* radius of the circle where cone and sphere meet */
    if (ball->mouth >= tangent)
        return OUTLINE_MOUTH_TOO_WIDE;
    if (crown >= 1)
        return OUTLINE_CROWN_TOO_WIDE;
    ball->cone = (tangent - ball->mouth) / sin(ball->slope);
    ball->centre = ball->cone * cos(ball->slope) + sin(ball->slope);
    outline->length = ball->cone + ball->slope + acos(crown);
    return OUTLINE_FINE;
}

static struct meridian_point ball_at(const struct outline *outline, double s) {
    const struct ball_and_cone *ball = &outline->as.ball;
    if (s < ball->cone)
        return (struct meridian_point){ball->mouth + s * sin(ball->slope), s * cos(ball->slope),
                                       ball->slope};
    double slope = ball->slope - (s - ball->cone);
    return (struct meridian_point){cos(slope), ball->centre - sin(slope), slope};
}

static double ball_slope_at(const struct outline *outline, double s) {
    return ball_at(outline, s).slope_rad;
}

/* ---- table ------------------------------------------------------------- */

static enum outline_status solve_table(const struct design *design, struct outline *outline) {
    struct spline *spline = &outline->as.table;
    if (spline->pieces == 0)
        spline_through(&design->outline.table, (enum join)design->outline.join, spline);
    outline->length = spline->s_end;
    return OUTLINE_FINE;
}

static struct meridian_point table_at(const struct outline *outline, double s) {
    struct spline_point point = spline_at(&outline->as.table, s);
    return (struct meridian_point){point.r, point.z, point.slope};
}

static double table_slope_at(const struct outline *outline, double s) {
    return table_at(outline, s).slope_rad;
}

/* ---- any kind ---------------------------------------------------------- */

struct kind {
    enum outline_status (*solve)(const struct design *, struct outline *);
    struct meridian_point (*at)(const struct outline *, double s);
    double (*slope_at)(const struct outline *, double s);
};

static const struct kind kinds[] = {
    [OUTLINE_NATURAL] = {solve_natural, natural_at, natural_slope_at},
    [OUTLINE_BALL_AND_CONE] = {solve_ball, ball_at, ball_slope_at},
    [OUTLINE_TABLE] = {solve_table, table_at, table_slope_at},
};

enum outline_status outline_solve(const struct design *design, double unit_m,
                                  struct outline *outline) {
    outline->kind = (enum outline_kind)design->outline.kind;
    outline->unit_m = unit_m;
    return kinds[outline->kind].solve(design, outline);
}

struct meridian_point outline_unit_at(const struct outline *outline, double s) {
    return kinds[outline->kind].at(outline, s);
}

double outline_unit_slope_at(const struct outline *outline, double s) {
    return kinds[outline->kind].slope_at(outline, s);
}

struct meridian_point outline_at(const struct outline *outline, double s_m) {
    struct meridian_point point = outline_unit_at(outline, s_m / outline->unit_m);
    point.r_m *= outline->unit_m;
    point.z_m *= outline->unit_m;
    return point;
}

size_t outline_pieces(const struct outline *outline) {
    return outline->kind == OUTLINE_TABLE ? outline->as.table.pieces : 1;
}

double outline_piece_start(const struct outline *outline, size_t piece) {
    return outline->kind == OUTLINE_TABLE ? outline->as.table.piece[piece].s : 0;
}
