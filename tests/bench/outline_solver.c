/* outline_solver.c - what one meridian costs, against a general solver of the same order of
 * care: evaluations of the right-hand side at the same measured error.
 *
 * Both follow the same meridian once, from the mouth to the axis, and choose their own
 * steps.  Ours takes one pass over the right-hand side for each order of each step.  The
 * other is the Runge-Kutta-Prince-Dormand (8, 9) method of a general library.  For each,
 * tolerances are tried from loose to tight, and the fewest evaluations count from which the
 * error stays within the bound at every tighter tolerance as well: no lucky hits.  The
 * errors are the largest in r, z and slope anywhere along the way, over the gore length.
 *
 * Prints a table; exit status 1 when ours takes more evaluations in any row.
 * To count instructions: `outline_solver series 1e-10` or `outline_solver library 1e-10`
 * follows one meridian 1000 times by one method with that tolerance, and prints what it
 * reached.  Both carry all six quantities, area and volume too.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#include "geometry/natural.h"
#include "gorewright/base.h"

enum { QUANTITIES = 6, TOLERANCES_MOST = 120 };

static const double mouth = 0.1; /* of lambda */

/* ---- the other solver -------------------------------------------------- */

struct counted {
    double w;
    size_t calls;
};

/* The equations of natural.h with b = 1, and the two integrals that the series carry. */
static int right_hand_side(double s, const double y[], double rate[], void *context) {
    struct counted *counted = context;
    double sine = sin(y[2]), cosine = cos(y[2]), around = 2 * PI * y[0];
    (void)s;
    counted->calls++;
    rate[0] = sine;
    rate[1] = cosine;
    rate[2] = -around * (y[1] + counted->w * sine) / y[3];
    rate[3] = around * counted->w * cosine;
    rate[4] = around;
    rate[5] = PI * y[0] * y[0] * cosine;
    return GSL_SUCCESS;
}

static void start_values(double theta_0, double y[QUANTITIES]) {
    double start[] = {mouth, 0, theta_0, 1 / cos(theta_0), 0, 0};
    memcpy(y, start, sizeof start);
}

/* ---- errors ------------------------------------------------------------ */

static double worst(double worst_yet, const double y[], struct meridian_state want) {
    double r = fabs(y[0] - want.r), z = fabs(y[1] - want.z), slope = fabs(y[2] - want.slope);
    return fmax(worst_yet, fmax(slope, fmax(r, z)));
}

/* One meridian, and the solution that all errors are measured against. */
struct track {
    double w, theta_0;
    struct meridian exact;
};

/* What a run cost, and the largest error along it over the gore length. */
struct run {
    size_t evaluations;
    double error;
};

/* Follow the track with the library; `measured`: look at the error after each step. */
static struct run follow_library(const struct track *track, double tolerance, bool measured) {
    struct counted counted = {track->w, 0};
    gsl_odeiv2_system system = {right_hand_side, NULL, QUANTITIES, &counted};
    gsl_odeiv2_step *step = gsl_odeiv2_step_alloc(gsl_odeiv2_step_rk8pd, QUANTITIES);
    gsl_odeiv2_control *control = gsl_odeiv2_control_y_new(tolerance, 0);
    gsl_odeiv2_evolve *evolve = gsl_odeiv2_evolve_alloc(QUANTITIES);
    double length = track->exact.length, s = 0, h = 0.1 * length, error = 0, y[QUANTITIES];
    int status = GSL_SUCCESS;
    start_values(track->theta_0, y);
    while (s < length && status == GSL_SUCCESS) {
        status = gsl_odeiv2_evolve_apply(evolve, control, step, &system, &s, length, &h, y);
        if (measured)
            error = worst(error, y, meridian_at(&track->exact, s));
    }
    gsl_odeiv2_evolve_free(evolve);
    gsl_odeiv2_control_free(control);
    gsl_odeiv2_step_free(step);
    return (struct run){counted.calls, status == GSL_SUCCESS ? error / length : HUGE_VAL};
}

/* The same by our power series. */
static struct run follow_series(const struct track *track, double tolerance, bool measured) {
    enum { SAMPLES = 64 };
    static struct meridian meridian;
    struct meridian_load load = {.b = 1, .w = track->w};
    struct meridian_state start = {
        .r = mouth, .slope = track->theta_0, .tension = 1 / cos(track->theta_0)};
    bool closed = meridian_follow(&meridian, &load, &start, tolerance);
    double error = 0, length = track->exact.length;
    for (int i = 0; measured && i <= SAMPLES; i++) {
        struct meridian_state at = meridian_at(&meridian, length * i / SAMPLES);
        double y[] = {at.r, at.z, at.slope};
        error = worst(error, y, meridian_at(&track->exact, length * i / SAMPLES));
    }
    return (struct run){meridian.evaluations, closed ? error / length : HUGE_VAL};
}

/* ---- fewest evaluations ------------------------------------------------ */

typedef struct run solver(const struct track *, double tolerance, bool measured);

struct trials {
    size_t count;
    struct run run[TOLERANCES_MOST];
};

static void try_tolerances(solver *solve, const struct track *track, struct trials *trials) {
    trials->count = 0;
    for (double digits = 2; digits < 14.6; digits += 0.125)
        trials->run[trials->count++] = solve(track, pow(10, -digits), true);
}

/* The cheapest run from which the bound is always kept; no evaluations when it never is. */
static struct run fewest(const struct trials *trials, double bound) {
    struct run found = {0, HUGE_VAL};
    for (size_t i = trials->count; i-- > 0 && trials->run[i].error <= bound;)
        found = trials->run[i];
    return found;
}

/* Follow the track once more in `steps` equal steps of the library: the largest
 * difference from the exact solution, which is our own at its tightest. */
static double distrust(const struct track *track, size_t steps) {
    struct counted counted = {track->w, 0};
    gsl_odeiv2_system system = {right_hand_side, NULL, QUANTITIES, &counted};
    gsl_odeiv2_step *step = gsl_odeiv2_step_alloc(gsl_odeiv2_step_rk8pd, QUANTITIES);
    double length = track->exact.length, h = length / (double)steps, error = 0;
    double y[QUANTITIES], y_error[QUANTITIES];
    start_values(track->theta_0, y);
    for (size_t i = 0; i < steps; i++) {
        gsl_odeiv2_step_apply(step, (double)i * h, h, y, y_error, NULL, NULL, &system);
        error = worst(error, y, meridian_at(&track->exact, (double)(i + 1) * h));
    }
    gsl_odeiv2_step_free(step);
    return error / length;
}

static bool track_of(double sigma, struct track *track) {
    track->w = sigma / cbrt(2 * PI);
    if (natural_solve(mouth, track->w, 0, &track->exact, &track->theta_0) != NATURAL_FINE)
        return false;
    struct meridian_load load = {.b = 1, .w = track->w};
    struct meridian_state start = {
        .r = mouth, .slope = track->theta_0, .tension = 1 / cos(track->theta_0)};
    return meridian_follow(&track->exact, &load, &start, 1e-16);
}

/* Returns: rows in which ours takes more evaluations, or a solver fails. */
static int compare(double sigma) {
    static const double bounds[] = {1e-6, 1e-8, 1e-10, 1e-12};
    static struct track track;
    static struct trials series, library;
    int lost = 0;
    if (!track_of(sigma, &track)) {
        printf("%5.1f  no outline\n", sigma);
        return 1;
    }
    try_tolerances(follow_series, &track, &series);
    try_tolerances(follow_library, &track, &library);
    for (size_t i = 0; i < COUNT_OF(bounds); i++) {
        struct run ours = fewest(&series, bounds[i]), other = fewest(&library, bounds[i]);
        bool more =
            ours.evaluations == 0 || other.evaluations == 0 || ours.evaluations > other.evaluations;
        lost += more;
        printf("%5.1f  %7.0e  %8zu  %8.1e  %8zu  %8.1e  %s\n", sigma, bounds[i], ours.evaluations,
               ours.error, other.evaluations, other.error, more ? "more" : "");
    }
    printf("%5.1f  both at their tightest differ by %.1e\n", sigma, distrust(&track, 400));
    return lost;
}

/* ---- the program ------------------------------------------------------- */

static int repeat(solver *solve, double tolerance) {
    static struct track track;
    if (!track_of(0.2, &track))
        return 1;
    for (int i = 1; i < 1000; i++)
        solve(&track, tolerance, false);
    struct run run = solve(&track, tolerance, true);
    printf("error %.1e, %zu evaluations\n", run.error, run.evaluations);
    return 0;
}

int main(int argc, char **argv) {
    if (argc == 3 && strcmp(argv[1], "series") == 0)
        return repeat(follow_series, strtod(argv[2], NULL));
    if (argc == 3 && strcmp(argv[1], "library") == 0)
        return repeat(follow_library, strtod(argv[2], NULL));
    int lost = 0;
    printf("One meridian, mouth to axis: evaluations of the right-hand side by error\n");
    printf("Sigma    bound    series   reached   library   reached\n");
    for (int i = 0; i <= 4; i += 2)
        lost += compare(0.1 * i);
    return lost > 0;
}
