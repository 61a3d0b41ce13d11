/* side_view.c - the envelope as somebody standing beside it sees it. */
#include <math.h>

#include "geometry/space.h"

/* Gore 1 faces the viewer; each next one stands to the right of the one before. */
static double gore_angle(const struct envelope *envelope, size_t gore) {
    return 2 * (double)gore * PI / (double)envelope->gores;
}

static double tape_angle(const struct envelope *envelope, size_t tape) {
    return gore_angle(envelope, tape) + PI / (double)envelope->gores;
}

struct flat_point side_view_corner(const struct envelope *envelope, size_t tape, size_t station) {
    const struct station *at = &envelope->station[station];
    return (struct flat_point){at->r_m * sin(tape_angle(envelope, tape)), at->z_m};
}

bool side_view_faces(const struct envelope *envelope, size_t tape) {
    return cos(tape_angle(envelope, tape)) > -1e-9;
}

/* The cloth of one gore at one station, and where the gore stands. */
struct cloth {
    struct section section;
    double sine, cosine;
};

static struct cloth cloth_of(const struct envelope *envelope, size_t gore, size_t station) {
    double angle = gore_angle(envelope, gore);
    return (struct cloth){section_of((enum style)envelope->gore_style[gore],
                                     &envelope->station[station], envelope->gores),
                          sin(angle), cos(angle)};
}

static struct flat_point point_of(const struct cloth *cloth, double u) {
    struct vector at = section_point_at(&cloth->section, u);
    return (struct flat_point){at.x * cloth->sine + at.y * cloth->cosine, at.z};
}

struct flat_point side_view_cloth(const struct envelope *envelope, size_t gore, size_t station,
                                  double u) {
    struct cloth cloth = cloth_of(envelope, gore, station);
    return point_of(&cloth, u);
}

/* The outermost point of one gore on the side where `direction` is +1 (right) or -1. */
static struct flat_point outermost_of(const struct envelope *envelope, size_t gore, size_t station,
                                      double direction) {
    enum { STEPS = 8 };
    struct cloth cloth = cloth_of(envelope, gore, station);
    struct flat_point best = point_of(&cloth, -1);
    bool faceted = envelope->gore_style[gore] == FACETED;
    for (int i = faceted ? STEPS : 1; i <= STEPS; i++) {
        struct flat_point at = point_of(&cloth, 2.0 * i / STEPS - 1);
        if (direction * at.x_m > direction * best.x_m)
            best = at;
    }
    return best;
}

/* Only gores near a quarter turn from the viewer can be outermost. */
struct flat_point side_view_silhouette(const struct envelope *envelope, bool right,
                                       size_t station) {
    size_t gores = envelope->gores, middle = right ? gores / 4 : gores - gores / 4;
    double direction = right ? 1 : -1;
    struct flat_point best = {0, envelope->station[station].z_m};
    for (size_t i = 0; i < 5; i++) {
        size_t gore = (middle + gores - 2 + i) % gores;
        struct flat_point at = outermost_of(envelope, gore, station, direction);
        if (i == 0 || direction * at.x_m > direction * best.x_m)
            best = at;
    }
    return best;
}

size_t widest_station(const struct envelope *envelope) {
    size_t widest = 0;
    for (size_t j = 1; j <= envelope->rows; j++)
        if (envelope->station[j].r_m > envelope->station[widest].r_m)
            widest = j;
    return widest;
}
