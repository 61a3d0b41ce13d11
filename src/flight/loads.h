/* loads.h - the balance of heights behind the table of loads. */
#ifndef FLIGHT_LOADS_H
#define FLIGHT_LOADS_H

/* A level cut through the envelope, and all that is above it. */
struct cut {
    double pressure_Pa, area_m2; /* inside, at the cut; area that it encloses */
    double lift_above_N, weight_above_N;
    double slope_rad; /* of the outline, from the vertical */
};

/* Beyond this slope either way the balance of heights says nothing of use: the tension is a
 * small vertical force over a small cosine. */
#define LEVEL_rad (85.0 * 3.14159265358979323846 / 180.0)

/* Up to this slope either way the balance of heights counts as it is; its divisor is then at
 * least a half, so that what straight rows do to the slope is not blown up. */
#define STEEP_rad (60.0 * 3.14159265358979323846 / 180.0)

/* Total tension along the outline at a cut, from the balance of heights of all above it:
 *     T cos(slope) = p A + b V_above - weight_above.
 * It holds for any outline, with or without tension around.  With the lift beyond the
 * envelope's weight held at the mouth it is the balance of all below the cut as well.
 * Given: a slope of less than a right angle either way.  Returns: tension [N]. */
double balanced_tension_N(const struct cut *cut);

#endif
