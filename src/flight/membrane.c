/* membrane.c - closed forms for thin sheets under pressure. */
#include "flight/membrane.h"

#include <math.h>

#include "gorewright/base.h"

double strip_tension_N_m(double stiffness_N_m, double pressure_Pa, double width_m, double poisson) {
    double load_N_m = pressure_Pa * width_m;
    return cbrt(stiffness_N_m * load_N_m * load_N_m / (24 * (1 - poisson * poisson)));
}

double strip_depth_m(double tension_N_m, double pressure_Pa, double width_m) {
    return pressure_Pa * width_m * width_m / (8 * tension_N_m);
}

/* Strain of the arc less the strain its own tension gives it; rises with the angle. */
static double strain_excess(double phi, double load_over_stiffness) {
    return phi / sin(phi) - 1 - load_over_stiffness / (2 * sin(phi));
}

double arc_half_angle_rad(double stiffness_N_m, double pressure_Pa, double width_m) {
    double load = pressure_Pa * width_m / stiffness_N_m, low = 0, high = PI / 2;
    if (load <= 0)
        return 0;
    if (strain_excess(high, load) < 0)
        return -1;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        if (strain_excess(middle, load) < 0)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

double arc_tension_N_m(double half_angle_rad, double pressure_Pa, double width_m) {
    return pressure_Pa * width_m / (2 * sin(half_angle_rad));
}

double arc_depth_m(double half_angle_rad, double width_m) {
    return width_m / 2 * tan(half_angle_rad / 2);
}

/* ---- disc ---------------------------------------------------------------- */

enum { TERMS = 60 };

/* Coefficients of f = sum b_n x^(2n) from its first one. */
static void expand_disc(double first, double b[TERMS]) {
    double square[TERMS], bent[TERMS]; /* of f^2, and of f'' + 3 f'/x */
    b[0] = first;
    square[0] = first * first;
    for (int n = 0; n + 1 < TERMS; n++) {
        double sum = n == 0 ? -8 : 0;
        for (int k = 1; k <= n; k++)
            sum -= square[k] * bent[n - k];
        bent[n] = sum / square[0];
        b[n + 1] = bent[n] / (4.0 * (n + 1) * (n + 2));
        square[n + 1] = 0;
        for (int k = 0; k <= n + 1; k++)
            square[n + 1] += b[k] * b[n + 1 - k];
    }
}

/* The rim does not move: (1 - nu) f + f' = 0 at x = 1.  Rises with the first coefficient. */
static double rim_excess(const double b[TERMS], double poisson) {
    double sum = 0;
    for (int n = 0; n < TERMS; n++)
        sum += (1 - poisson + 2 * n) * b[n];
    return sum;
}

/* k = 2 times the integral of x / f from 0 to 1, by Simpson's rule. */
static double disc_integral(const double b[TERMS]) {
    enum { PARTS = 200 };
    double sum = 0;
    for (int i = 0; i <= PARTS; i++) {
        double x = (double)i / PARTS, f = 0;
        for (int n = TERMS; n-- > 0;)
            f = f * x * x + b[n];
        sum += (i == 0 || i == PARTS ? 1 : i % 2 == 1 ? 4 : 2) * x / f;
    }
    return 2 * sum / (3.0 * PARTS);
}

double disc_depth_factor(double poisson) {
    double b[TERMS], low = 1.2, high = 3;
    for (int i = 0; i < 50; i++) {
        double middle = (low + high) / 2;
        expand_disc(middle, b);
        if (rim_excess(b, poisson) < 0)
            low = middle;
        else
            high = middle;
    }
    return disc_integral(b);
}
