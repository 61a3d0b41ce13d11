/* measure.c - closed forms for flat facets, exact quadrature for arcs.
 *
 * A billowed strip cut by ever more rulings tends to the ruled surface
 * X = (1 - v) A(u) + v B(u) in volume.  In area it does not: the two triangles
 * of a cell lie in the tangent planes at the two ends of the ruling, so the
 * limit is the mean of the end values along each ruling, not the integral.
 */
#include "geometry/measure.h"

#include <math.h>

#include "geometry/quadrature.h"

static double triangle_area(struct vector a, struct vector b, struct vector c) {
    return 0.5 * vector_length(vector_cross(vector_between(a, b), vector_between(a, c)));
}

static double triple(struct vector a, struct vector b, struct vector c) {
    return vector_dot(a, vector_cross(b, c));
}

/* ---- flat facets ------------------------------------------------------- */

/* Corners of the right half: on the middle line and at the tape. */
struct half {
    struct vector middle_low, tape_low, tape_high, middle_high;
};

static struct half right_half(const struct section *low, const struct section *high) {
    return (struct half){section_point_at(low, 0), section_point_at(low, 1),
                         section_point_at(high, 1), section_point_at(high, 0)};
}

/* Split from the lower tape corner to the upper middle corner, as the cloth is. */
static double half_area(const struct half *half) {
    return triangle_area(half->middle_low, half->tape_low, half->middle_high) +
           triangle_area(half->tape_low, half->tape_high, half->middle_high);
}

static double half_volume(const struct half *half) {
    return (triple(half->middle_low, half->tape_low, half->middle_high) +
            triple(half->tape_low, half->tape_high, half->middle_high)) /
           6;
}

/* ---- arcs -------------------------------------------------------------- */

struct ruling {
    struct vector low, high, low_rate, high_rate, along;
};

static struct ruling ruling_at(const struct section *low, const struct section *high, double u) {
    struct ruling ruling = {section_point_at(low, u),
                            section_point_at(high, u),
                            section_rate_at(low, u),
                            section_rate_at(high, u),
                            {0, 0, 0}};
    ruling.along = vector_between(ruling.low, ruling.high);
    return ruling;
}

static double ruling_area(const struct ruling *ruling) {
    return 0.5 * (vector_length(vector_cross(ruling->low_rate, ruling->along)) +
                  vector_length(vector_cross(ruling->high_rate, ruling->along)));
}

/* Integral of X . dA / 3 along one ruling of the ruled surface, done exactly in v. */
static double ruling_volume(const struct ruling *ruling) {
    return (triple(ruling->low, ruling->low_rate, ruling->along) +
            triple(ruling->low, ruling->high_rate, ruling->along)) /
           6;
}

static double over_right_half(const struct section *low, const struct section *high,
                              double (*of)(const struct ruling *)) {
    double sum = 0;
    for (int i = 0; i < GAUSS_POINTS; i++) {
        struct ruling ruling = ruling_at(low, high, gauss_node[i]);
        sum += gauss_weight[i] * of(&ruling);
    }
    return sum;
}

/* ---- panels ------------------------------------------------------------ */

double panel_area_m2(const struct section *low, const struct section *high) {
    if (low->style == BILLOWED)
        return 2 * over_right_half(low, high, ruling_area);
    struct half half = right_half(low, high);
    return 2 * half_area(&half);
}

double panel_volume_m3(const struct section *low, const struct section *high) {
    if (low->style == BILLOWED)
        return 2 * over_right_half(low, high, ruling_volume);
    struct half half = right_half(low, high);
    return 2 * half_volume(&half);
}

double panel_twist(const struct section *low, const struct section *high) {
    enum { SAMPLES = 16 };
    double largest = 0;
    if (low->style != BILLOWED)
        return 0;
    for (int i = 0; i <= SAMPLES; i++) {
        struct ruling ruling = ruling_at(low, high, (double)i / SAMPLES);
        struct vector a = vector_cross(ruling.low_rate, ruling.along);
        struct vector b = vector_cross(ruling.high_rate, ruling.along);
        double angle = atan2(vector_length(vector_cross(a, b)), vector_dot(a, b));
        largest = fmax(largest, 1 / cos(angle / 2) - 1);
    }
    return largest;
}

/* The fan that closes the crown: from the axis at the height of the tape corners. */
static double crown_fan_volume(const struct section *crown) {
    double sum = 0;
    if (crown->style != BILLOWED) {
        struct vector middle = section_point_at(crown, 0), tape = section_point_at(crown, 1);
        return 2 * crown->z_m * vector_cross(middle, tape).z / 6;
    }
    for (int i = 0; i < GAUSS_POINTS; i++) {
        double u = gauss_node[i];
        struct vector at = section_point_at(crown, u), rate = section_rate_at(crown, u);
        sum += gauss_weight[i] * vector_cross(at, rate).z;
    }
    return 2 * crown->z_m * sum / 6;
}

/* ---- the whole --------------------------------------------------------- */

static void add_gores(const struct skeleton *skeleton, enum style style, struct measure *measure) {
    double gores = (double)skeleton->style_count[style], area = 0, volume = 0;
    struct section low = section_of(style, &skeleton->station[0], skeleton->gores);
    for (size_t j = 1; j <= skeleton->rows; j++) {
        struct section high = section_of(style, &skeleton->station[j], skeleton->gores);
        area += panel_area_m2(&low, &high);
        volume += panel_volume_m3(&low, &high);
        low = high;
    }
    measure->cloth_area_m2 += gores * area;
    measure->volume_m3 += gores * (volume + crown_fan_volume(&low));
}

struct measure skeleton_measure(const struct skeleton *skeleton) {
    struct measure measure = {0};
    for (size_t j = 0; j <= skeleton->rows; j++) {
        const struct station *station = &skeleton->station[j];
        measure.height_m = fmax(measure.height_m, station->z_m);
        measure.diameter_m = fmax(measure.diameter_m, 2 * station->r_m);
        measure.gore_length_m += station->side_m;
    }
    for (int style = 0; style < STYLE_COUNT; style++)
        if (skeleton->style_count[style] > 0)
            add_gores(skeleton, (enum style)style, &measure);
    return measure;
}

double skeleton_mid_diameter_m(const struct skeleton *skeleton) {
    double largest = 0;
    for (int style = 0; style < STYLE_COUNT; style++)
        for (size_t j = 0; j <= skeleton->rows && skeleton->style_count[style] > 0; j++) {
            struct section section =
                section_of((enum style)style, &skeleton->station[j], skeleton->gores);
            largest = fmax(largest, 2 * section_point_at(&section, 0).x);
        }
    return largest;
}
