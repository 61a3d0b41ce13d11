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
