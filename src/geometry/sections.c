/* sections.c - the cloth across one gore: straight, a ridge, or an arc. */
#include <math.h>

#include "geometry/space.h"

struct vector vector_between(struct vector from, struct vector to) {
    return (struct vector){to.x - from.x, to.y - from.y, to.z - from.z};
}

struct vector vector_cross(struct vector a, struct vector b) {
    return (struct vector){a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

double vector_dot(struct vector a, struct vector b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

double vector_length(struct vector a) {
    return sqrt(vector_dot(a, a));
}

/* Half the angle of an arc whose depth is bulge times its chord. */
static double arc_half_turn(double bulge) {
    return 2 * atan(2 * bulge);
}

/* phi / sin(phi), 1 for a flat arc. */
static double arc_over_chord(double half_turn) {
    return half_turn > 0 ? half_turn / sin(half_turn) : 1;
}

double section_length_m(enum style style, double chord_m, double bulge) {
    switch (style) {
    case HALF_GORE:
        return chord_m * sqrt(1 + 4 * bulge * bulge);
    case BILLOWED:
        return chord_m * arc_over_chord(arc_half_turn(bulge));
    default:
        return chord_m;
    }
}

/* Along and above the chord, over the chord's length, and their rates by u. */
struct shape {
    double x, h, x_rate, h_rate;
};

/* With phi half the turn, x = sin(phi u) / (2 sin phi) and h = (cos(phi u) - cos phi) /
 * (2 sin phi), by the half angle so that shallow arcs lose no digits. */
static struct shape arc_shape(const struct arc *arc, double u) {
    double s = sin(0.5 * arc->half_turn * u), c = cos(0.5 * arc->half_turn * u);
    double along = s * c / arc->sine;
    return (struct shape){
        .x = along,
        .h = (arc->high - s * s) / arc->sine,
        .x_rate = arc->half_turn * (0.5 - s * s) / arc->sine,
        .h_rate = -arc->half_turn * along,
    };
}

struct arc arc_of(double bulge) {
    double half_turn = arc_half_turn(bulge), s = sin(0.5 * half_turn);
    return (struct arc){half_turn, sin(half_turn), s * s};
}

static struct shape section_shape(enum style style, double bulge, const struct arc *arc, double u) {
    if (style == BILLOWED && arc->half_turn > 0)
        return arc_shape(arc, u);
    struct shape shape = {.x = u / 2, .x_rate = 0.5};
    if (style == HALF_GORE) {
        shape.h = bulge * (1 - fabs(u));
        shape.h_rate = u < 0 ? bulge : -bulge;
    }
    return shape;
}

struct section_point section_at(enum style style, double chord_m, double bulge, double u) {
    struct arc arc = arc_of(bulge);
    struct shape shape = section_shape(style, bulge, &arc, u);
    return (struct section_point){shape.x * chord_m, shape.h * chord_m};
}

struct section section_of(enum style style, const struct station *station, size_t gores) {
    return (struct section){
        .style = style,
        .chord_m = station->chord_m,
        .bulge = station->bulge,
        .middle_x_m = station->r_m * cos(PI / (double)gores),
        .z_m = station->z_m,
        .out_x = cos(station->slope_rad),
        .out_z = -sin(station->slope_rad),
        .arc = arc_of(station->bulge),
    };
}

struct vector section_point_at(const struct section *section, double u) {
    struct shape shape = section_shape(section->style, section->bulge, &section->arc, u);
    double x = shape.x * section->chord_m, h = shape.h * section->chord_m;
    return (struct vector){section->middle_x_m + h * section->out_x, x,
                           section->z_m + h * section->out_z};
}

struct vector section_rate_at(const struct section *section, double u) {
    struct shape shape = section_shape(section->style, section->bulge, &section->arc, u);
    double h_rate = shape.h_rate * section->chord_m;
    return (struct vector){h_rate * section->out_x, shape.x_rate * section->chord_m,
                           h_rate * section->out_z};
}
