/* side_view.c - the tape corners as somebody standing beside the envelope sees them. */
#include <math.h>

#include "gorewright/geometry.h"

/* Gore 1 faces the viewer; each next one stands to the right of the one before. */
static double tape_angle(const struct envelope *envelope, size_t tape) {
    return (2 * (double)tape + 1) * PI / (double)envelope->gores;
}

struct flat_point side_view_corner(const struct envelope *envelope, size_t tape, size_t station) {
    const struct station *at = &envelope->station[station];
    return (struct flat_point){at->r_m * sin(tape_angle(envelope, tape)), at->z_m};
}

bool side_view_faces(const struct envelope *envelope, size_t tape) {
    return cos(tape_angle(envelope, tape)) > -1e-9;
}

void side_view_edges(const struct envelope *envelope, size_t *left, size_t *right) {
    *left = *right = 0;
    for (size_t tape = 1; tape < envelope->gores; tape++) {
        double x = side_view_corner(envelope, tape, 0).x_m;
        if (x < side_view_corner(envelope, *left, 0).x_m)
            *left = tape;
        if (x > side_view_corner(envelope, *right, 0).x_m)
            *right = tape;
    }
}
