/* piece_measures.c - figures read off a flat piece. */
#include "gorewright/geometry.h"

/* A cut-back corner has one more point, at or beyond the end of the edge that ends there. */
size_t piece_cut_corner(const struct piece *piece, enum edge e, struct flat_point point[2]) {
    const struct ring *sew = &piece->sew, *cut = &piece->cut;
    struct flat_point corner = sew->point[sew->first[e]];
    struct flat_point before = sew->point[(sew->first[e] + sew->count - 1) % sew->count];
    struct flat_point last = cut->point[(cut->first[e] + cut->count - 1) % cut->count];
    double dx = corner.x_m - before.x_m, dy = corner.y_m - before.y_m;
    double beyond = (last.x_m - corner.x_m) * dx + (last.y_m - corner.y_m) * dy;
    size_t count = 0;
    if (beyond >= -1e-9 * (dx * dx + dy * dy))
        point[count++] = last;
    point[count++] = cut->point[cut->first[e]];
    return count;
}
