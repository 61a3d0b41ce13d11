/* wind.c - what a steady wind does to an envelope that is held. */
#include "flight/wind.h"

#include <math.h>
#include <stdlib.h>

#include "gorewright/flight.h"

/* ---- the envelope as seen from the side -------------------------------------- */

/* Half as wide as the envelope is seen at a station, the mean over all directions.  A closed
 * line that bulges everywhere is seen girth / pi wide in the mean (Cauchy), and no wider than
 * the circle around it. */
static double half_width_m(const struct envelope *envelope, size_t j) {
    const struct station *station = &envelope->station[j];
    double middle_m = station->r_m * cos(PI / (double)envelope->gores) +
                      station->bulge * station->chord_m * cos(station->slope_rad);
    double circle_m = envelope->style_count[FACETED] == envelope->gores
                          ? station->r_m
                          : fmax(station->r_m, middle_m);
    return fmin(circle_m, girth_m(envelope, j) / (2 * PI));
}

struct silhouette {
    size_t points;
    double z_m[ROWS_MOST + 1], half_m[ROWS_MOST + 1];
};

static double half_between(const struct silhouette *s, size_t j, double z_m) {
    double part = (z_m - s->z_m[j]) / (s->z_m[j + 1] - s->z_m[j]);
    return s->half_m[j] + part * (s->half_m[j + 1] - s->half_m[j]);
}

/* Area between two heights with no station between them: the widest row there is what is
 * seen, for the outline does not cross itself. */
static double band_m2(const struct silhouette *s, double low_m, double high_m) {
    double widest_m2 = 0;
    for (size_t j = 0; j + 1 < s->points; j++) {
        double least_m = fmin(s->z_m[j], s->z_m[j + 1]), most_m = fmax(s->z_m[j], s->z_m[j + 1]);
        if (least_m > low_m || most_m < high_m || most_m <= least_m)
            continue;
        double halves_m = half_between(s, j, low_m) + half_between(s, j, high_m);
        widest_m2 = fmax(widest_m2, halves_m * (high_m - low_m));
    }
    return widest_m2;
}

static int by_size(const void *one, const void *other) {
    double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

double frontal_area_m2(const struct envelope *envelope) {
    struct silhouette s = {.points = envelope->rows + 1};
    double level_m[ROWS_MOST + 1], area_m2 = 0;
    for (size_t j = 0; j < s.points; j++) {
        level_m[j] = s.z_m[j] = envelope->station[j].z_m;
        s.half_m[j] = half_width_m(envelope, j);
    }
    qsort(level_m, s.points, sizeof level_m[0], by_size);
    for (size_t i = 0; i + 1 < s.points; i++)
        area_m2 += band_m2(&s, level_m[i], level_m[i + 1]);
    return area_m2;
}

/* ---- drag, and the line that holds it ---------------------------------------- */

/* Drag for a wind of 1 m/s [N s2/m2]. */
static struct spread drag_factor(const struct design *sized, const struct envelope *envelope) {
    double density_kg_m3 = air_of_day(sized, 0).density_kg_m3;
    double factor = 0.5 * density_kg_m3 * frontal_area_m2(envelope) * sized->wind.drag;
    return (struct spread){DRAG_LOW * factor, DRAG_HIGH * factor};
}

struct spread drag_N(const struct design *sized, const struct envelope *envelope, double wind_m_s) {
    struct spread factor = drag_factor(sized, envelope);
    double square = wind_m_s * wind_m_s;
    return (struct spread){factor.low * square, factor.high * square};
}

static double upward_N(const struct lift *lift) {
    return fmax(0, lift->free_kg) * GRAVITY_m_s2;
}

struct tether tether_of(const struct design *sized, const struct envelope *envelope,
                        const struct lift *lift, double wind_m_s) {
    struct spread drag = drag_N(sized, envelope, wind_m_s);
    double up_N = upward_N(lift);
    return (struct tether){
        .drag_N = drag,
        .line_N = {hypot(up_N, drag.low), hypot(up_N, drag.high)},
        .lean_rad = {atan2(drag.low, up_N), atan2(drag.high, up_N)},
    };
}

struct spread wind_to_hold_m_s(const struct design *sized, const struct envelope *envelope,
                               const struct lift *lift) {
    struct spread factor = drag_factor(sized, envelope);
    double hold_N = sized->wind.hold_N, up_N = upward_N(lift);
    if (up_N >= hold_N)
        return (struct spread){0, 0};
    double across_N = sqrt((hold_N - up_N) * (hold_N + up_N));
    return (struct spread){sqrt(across_N / factor.high), sqrt(across_N / factor.low)};
}
