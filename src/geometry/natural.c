/* natural.c - power series along the meridian, and the shot for its first slope.
 *
 * The right-hand side is made of sums, products, one quotient and sin and cos
 * of the slope.  Each has a simple rule for the coefficients of its power
 * series, so every step yields the solution to a high order at once: few steps, no
 * table of constants, and a polynomial to evaluate anywhere between.
 */
#include "geometry/natural.h"

#include <math.h>

#include "gorewright/base.h"

enum { ORDER = SERIES_ORDER };

static const double theta_most = 85.0 * PI / 180.0;

/* Coefficient k of the product of two series. */
static double product(const double *a, const double *b, int k) {
    double sum = 0;
    for (int j = 0; j <= k; j++)
        sum += a[j] * b[k - j];
    return sum;
}

/* Sum of j a_j b_(k-j), j = 1 .. k: the rule for sin and cos of a series. */
static double derived_product(const double *a, const double *b, int k) {
    double sum = 0;
    for (int j = 1; j <= k; j++)
        sum += j * a[j] * b[k - j];
    return sum;
}

static void expand(struct meridian_step *step, const struct meridian_load *load) {
    double sine[ORDER], cosine[ORDER], press[ORDER], turn[ORDER], r_cosine[ORDER];
    double *r = step->r, *z = step->z, *slope = step->slope, *tension = step->tension;
    for (int k = 0; k < ORDER; k++) {
        sine[k] = k == 0 ? sin(slope[0]) : derived_product(slope, cosine, k) / k;
        cosine[k] = k == 0 ? cos(slope[0]) : -derived_product(slope, sine, k) / k;
        press[k] = (k == 0 ? load->p0 : 0) + load->b * z[k] + load->w * sine[k];
        r_cosine[k] = product(r, cosine, k);
        double moment = -2 * PI * product(r, press, k);
        for (int j = 1; j <= k; j++)
            moment -= tension[j] * turn[k - j];
        turn[k] = moment / tension[0];
        r[k + 1] = sine[k] / (k + 1);
        z[k + 1] = cosine[k] / (k + 1);
        slope[k + 1] = turn[k] / (k + 1);
        tension[k + 1] = 2 * PI * load->w * r_cosine[k] / (k + 1);
        step->area[k + 1] = 2 * PI * r[k] / (k + 1);
        step->volume[k + 1] = PI * product(r, r_cosine, k) / (k + 1);
    }
}

double series_at(const double coefficient[SERIES_ORDER + 1], double x) {
    double sum = coefficient[ORDER];
    for (int k = ORDER - 1; k >= 0; k--)
        sum = sum * x + coefficient[k];
    return sum;
}

/* The step for which the last two terms of each series stay under the tolerance. */
static double safe_length(const struct meridian_step *step, double tolerance) {
    const double *series[] = {step->r, step->z, step->slope, step->tension, step->volume};
    double length = HUGE_VAL;
    for (size_t i = 0; i < COUNT_OF(series); i++) {
        double scale = fmax(1, fabs(series[i][0]));
        for (int k = ORDER - 1; k <= ORDER; k++) {
            double size = fabs(series[i][k]) / (tolerance * scale);
            if (size > 0)
                length = fmin(length, pow(size, -1.0 / k));
        }
    }
    return length;
}

static struct meridian_state step_at(const struct meridian_step *step, double x) {
    return (struct meridian_state){
        .r = series_at(step->r, x),
        .z = series_at(step->z, x),
        .slope = series_at(step->slope, x),
        .tension = series_at(step->tension, x),
        .area = series_at(step->area, x),
        .volume = series_at(step->volume, x),
    };
}

static void step_begin(struct meridian_step *step, const struct meridian_state *state, double s) {
    step->start = s;
    step->r[0] = state->r;
    step->z[0] = state->z;
    step->slope[0] = state->slope;
    step->tension[0] = state->tension;
    step->area[0] = state->area;
    step->volume[0] = state->volume;
}

static double inward(double x, void *context) {
    const struct meridian_step *step = context;
    return -series_at(step->r, x);
}

bool meridian_follow(struct meridian *meridian, const struct meridian_load *load,
                     const struct meridian_state *start, double tolerance) {
    struct meridian_state state = *start;
    meridian->length = 0;
    meridian->evaluations = 0;
    for (meridian->steps = 1;; meridian->steps++) {
        struct meridian_step *step = &meridian->step[meridian->steps - 1];
        step_begin(step, &state, meridian->length);
        expand(step, load);
        meridian->evaluations += ORDER;
        step->length = safe_length(step, tolerance);
        if (!(step->length > 0 && isfinite(step->length)))
            return false;
        state = step_at(step, step->length);
        if (state.r <= 0) {
            double guess = step->length + state.r; /* near the axis r falls at about 1:1 */
            if (!rising_root(inward, step, 0, step->length * (1 + 1e-12) + 1e-300, guess, 1e-3,
                             1e-14 * step->length, &step->length) &&
                state.r < 0)
                return false;
            meridian->length = step->start + step->length;
            return true;
        }
        meridian->length += step->length;
        if (state.slope < -PI || meridian->steps == SERIES_STEPS_MOST)
            return false;
    }
}

const struct meridian_step *meridian_step_at(const struct meridian *meridian, double s) {
    size_t i = meridian->steps - 1;
    while (i > 0 && meridian->step[i].start > s)
        i--;
    return &meridian->step[i];
}

struct meridian_state meridian_at(const struct meridian *meridian, double s) {
    const struct meridian_step *step = meridian_step_at(meridian, s);
    return step_at(step, s - step->start);
}

struct shot {
    double mouth, omega;
    struct meridian *meridian;
};

/* How far the slope has gone past level on its way to the axis: rises with theta_0.  The
 * least slope counts, for a meridian that leaves a wide mouth inwards falls below it and
 * comes up again. */
static double crown_excess(double theta_0, void *context) {
    struct shot *shot = context;
    struct meridian_load load = {.b = 1, .w = shot->omega};
    struct meridian_state start = {.r = shot->mouth, .slope = theta_0, .tension = 1 / cos(theta_0)};
    bool closed = meridian_follow(shot->meridian, &load, &start, 1e-12);
    double least = meridian_at(shot->meridian, shot->meridian->length).slope;
    for (size_t i = 0; i < shot->meridian->steps; i++)
        least = fmin(least, shot->meridian->step[i].slope[0]);
    if (!closed)
        least = fmin(least, -PI); /* turned over, or lost: far past level */
    return -PI / 2 - least;
}

enum natural_status natural_solve(double mouth, double omega, double guess,
                                  struct meridian *meridian, double *theta_0) {
    struct shot shot = {mouth, omega, meridian};
    if (!(guess > 0 && guess < theta_most))
        guess = 0.87;
    bool found = rising_root(crown_excess, &shot, 0, theta_most, guess, 0.01, 1e-13, theta_0);
    if (found) {
        crown_excess(*theta_0, &shot);
        return NATURAL_FINE;
    }
    return *theta_0 > 0.5 * theta_most ? NATURAL_TOO_HEAVY : NATURAL_MOUTH_TOO_WIDE;
}
