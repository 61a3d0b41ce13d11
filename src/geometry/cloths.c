/* cloths.c - the pieces counted by the cloth they are cut from. */
#include "gorewright/geometry.h"

bool piece_stands_in(const struct envelope *envelope, const struct piece *piece, size_t gore) {
    return gore < envelope->gores && envelope->gore_style[gore] == (int)piece->style;
}

size_t piece_count_of(const struct design *design, const struct envelope *envelope,
                      const struct piece *piece, size_t cloth) {
    size_t count = 0;
    for (size_t gore = 0; gore < envelope->gores; gore++)
        count += piece_stands_in(envelope, piece, gore) &&
                 design_colour_of(design, gore, piece->row, piece->side == SIDE_RIGHT) == cloth;
    return count;
}

struct cloth_cut cloth_cut(const struct design *design, const struct envelope *envelope,
                           size_t cloth) {
    struct cloth_cut cut = {0, 0};
    for (size_t i = 0; i < envelope->templates; i++) {
        size_t count = piece_count_of(design, envelope, &envelope->piece[i], cloth);
        cut.pieces += count;
        cut.area_m2 += (double)count * envelope->piece[i].cut_area_m2;
    }
    return cut;
}
