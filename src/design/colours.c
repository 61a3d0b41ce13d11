/* colours.c - which cloth each panel is cut from. */
#include <string.h>

#include "gorewright/design.h"

size_t design_cloths(const struct design *design, struct cloth_colour cloth[CLOTHS_MOST]) {
    size_t count = design->colours.cloths.count;
    for (size_t i = 0; i < count; i++)
        cloth[i] = design->colours.cloths.value[i];
    if (count == 0) {
        char first = design->cloth.colour[0];
        cloth[count++] = (struct cloth_colour){.letter = 'A'};
        memcpy(cloth[0].name, design->cloth.colour, TEXT_MOST);
        if (first >= 'a' && first <= 'z')
            cloth[0].letter = (char)(first - 'a' + 'A');
        else if ((first >= 'A' && first <= 'Z') || (first >= '0' && first <= '9'))
            cloth[0].letter = first;
    }
    for (size_t i = 0; i < count; i++) {
        if (!(cloth[i].width_m > 0))
            cloth[i].width_m = design->cloth.width_m;
        if (!(cloth[i].mass_kg_m2 > 0))
            cloth[i].mass_kg_m2 = design->cloth.mass_kg_m2;
        if (!(cloth[i].price_m > 0))
            cloth[i].price_m = design->cloth.price_m;
    }
    return count;
}

double design_widest_m(const struct design *design, const struct cloth_colour *cloth) {
    const struct stock_list *bolts = &design->cutting.bolts;
    double widest_m = 0;
    for (size_t i = 0; i < bolts->count; i++) {
        double width_m = bolts->value[i].width_m > 0 ? bolts->value[i].width_m : cloth->width_m;
        if (bolts->value[i].letter == cloth->letter && width_m > widest_m)
            widest_m = width_m;
    }
    return widest_m > 0 ? widest_m : cloth->width_m;
}

/* A panel as the fills count them: the colours not turned, and none in the second half around
 * when that mirrors the first. */
struct place {
    size_t gore, row; /* both from 0 */
    bool right;
};

static struct place place_of(const struct design *design, size_t gore, size_t row, bool right) {
    size_t gores = (size_t)design->gores.count, turn = (size_t)design->colours.turn % gores;
    struct place at = {(gore + gores - turn) % gores, row - 1, right};
    size_t opposite = gores - 1 - at.gore;
    if (design->colours.mirror == MIRROR_YES && opposite < at.gore) {
        at.gore = opposite;
        at.right = !right;
    }
    return at;
}

/* The rows shared out from mouth to crown; the first and the last colour always come. */
static size_t gradient(size_t row, size_t rows, size_t cloths) {
    return cloths <= rows ? row * cloths / rows : rows > 1 ? row * (cloths - 1) / (rows - 1) : 0;
}

/* Another number of rows may be tried than the scheme was made for: its last line goes on. */
static size_t by_scheme(const struct design *design, struct place at) {
    const struct line_list *scheme = at.right && design->colours.scheme_right.count > 0
                                         ? &design->colours.scheme_right
                                         : &design->colours.scheme;
    const struct cloth_list *cloths = &design->colours.cloths;
    const char *line = scheme->value[at.row < scheme->count ? at.row : scheme->count - 1];
    char letter = line[at.gore % strlen(line)];
    size_t i = 0;
    while (i + 1 < cloths->count && cloths->value[i].letter != letter)
        i++;
    return i;
}

size_t design_colour_of(const struct design *design, size_t gore, size_t row, bool right) {
    size_t cloths = design->colours.cloths.count, span = (size_t)design->colours.span;
    if (cloths < 2)
        return 0;
    struct place at = place_of(design, gore, row, right);
    switch (design->colours.fill) {
    case FILL_STRIPES:
        return at.gore / span % cloths;
    case FILL_BANDS:
        return at.row / span % cloths;
    case FILL_SPIRAL:
        return (at.gore + at.row) / span % cloths;
    case FILL_CHEQUER:
        return (at.gore / span + at.row / span) % cloths;
    case FILL_GRADIENT:
        return gradient(at.row, (size_t)design->rows.count, cloths) % cloths;
    case FILL_SCHEME:
        return by_scheme(design, at);
    default:
        return 0;
    }
}
