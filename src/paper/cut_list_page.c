/* cut_list_page.c - how many pieces to cut, by colour, style, row and side. */
#include <stdio.h>
#include <string.h>

#include "paper/colour_words.h"
#include "paper/plain.h"
#include "paper/quantities.h"

/* "1-4, 7": the gores whose piece of this template is cut from a cloth. */
static void gores_of(const struct design *design, const struct envelope *envelope,
                     const struct piece *piece, size_t cloth, struct text *into) {
    bool is[GORES_MOST + 1] = {false};
    size_t said = 0;
    for (size_t g = 0; g < envelope->gores; g++)
        is[g] = piece_stands_in(envelope, piece, g) &&
                design_colour_of(design, g, piece->row, piece->side == SIDE_RIGHT) == cloth;
    for (size_t g = 0; g < envelope->gores; g++) {
        size_t last = g;
        if (!is[g])
            continue;
        while (is[last + 1])
            last++;
        text_add(into, "%s%zu", said++ > 0 ? ", " : "", g + 1);
        if (last > g)
            text_add(into, "-%zu", last + 1);
        g = last;
    }
}

static void write_template(const struct design *design, const struct envelope *envelope,
                           const struct piece *piece, size_t cloth, struct text *into) {
    enum { GORES_COLUMN = 46 };
    struct text gores = {0};
    gores_of(design, envelope, piece, cloth, &gores);
    text_add(into, "  [ ]  %-6s  %-10s  %3zu  %-5s  %5zu  ", piece->name, style_name(piece->style),
             piece->row, side_name(piece->side), piece_count_of(design, envelope, piece, cloth));
    if (gores.failed)
        into->failed = true;
    else
        flow_text(into, gores.bytes, GORES_COLUMN, GORES_COLUMN);
    text_free(&gores);
}

/* Pieces of one style cut from a cloth. */
static size_t count_style(const struct design *design, const struct envelope *envelope,
                          enum style style, size_t cloth) {
    size_t count = 0;
    for (size_t i = 0; i < envelope->templates; i++)
        if (envelope->piece[i].style == style)
            count += piece_count_of(design, envelope, &envelope->piece[i], cloth);
    return count;
}

static void write_style(const struct design *design, const struct envelope *envelope,
                        enum style style, size_t cloth, struct text *into) {
    size_t count = count_style(design, envelope, style, cloth);
    if (count == 0)
        return;
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        if (piece->style == style && piece_count_of(design, envelope, piece, cloth) > 0)
            write_template(design, envelope, piece, cloth, into);
    }
    if (count < cloth_cut(design, envelope, cloth).pieces)
        text_add(into, "       %-9s in all                  %5zu\n", style_name(style), count);
}

static void write_cloth(const struct design *design, const struct envelope *envelope,
                        const struct cloth_colour *colour, size_t cloth, struct text *into) {
    struct cloth_cut cut = cloth_cut(design, envelope, cloth);
    char name[TEXT_MOST], area[SHOWN_MOST], words[TEXT_MOST + SHOWN_MOST + 40];
    if (cut.pieces == 0)
        return;
    snprintf(words, sizeof words, "%c %s: %zu pieces, %s", colour->letter,
             plain_text(colour->name, name), cut.pieces,
             show_with_unit(design, AREA, cut.area_m2, area));
    text_add(into, "\n");
    flow_text(into, words, 0, 0);
    text_add(into, "       piece   style       row  side     cut  gores\n");
    for (int style = 0; style < STYLE_COUNT; style++)
        write_style(design, envelope, (enum style)style, cloth, into);
}

void write_cut_list(const struct design *design, const struct envelope *envelope,
                    struct text *into) {
    struct cloth_colour colour[CLOTHS_MOST];
    size_t cloths = design_cloths(design, colour), all = 0;
    char name[TEXT_MOST], words[200];
    snprintf(words, sizeof words, "CUT LIST FOR %s", plain_text(design->name, name));
    flow_text(into, words, 0, 0);
    for (size_t i = 0; i < cloths; i++)
        all += cloth_cut(design, envelope, i).pieces;
    snprintf(words, sizeof words,
             "%zu pieces from %zu templates, each with its allowances. Count each pile against its "
             "line, and tick it off.",
             all, envelope->templates);
    flow_text(into, words, 0, 0);
    for (size_t i = 0; i < cloths; i++)
        write_cloth(design, envelope, &colour[i], i, into);
}
