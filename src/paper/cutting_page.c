/* cutting_page.c - what to buy, and where on the cloth each piece is marked. */
#include "paper/cutting_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/lengths.h"
#include "paper/plain.h"

/* ---- words ---------------------------------------------------------------------- */

char *cloth_length(const struct design *design, double length_m, char into[32]) {
    bool inches = design->paper.units == UNITS_INCH;
    snprintf(into, 32, "%.2f %s", inches ? length_m / (12 * METRES_PER_INCH) : length_m,
             inches ? "ft" : "m");
    return into;
}

char *strip_name(const struct strip_view *view, char into[32]) {
    const struct cutting_strip *strip = &view->cloth->strip[view->strip];
    size_t alike = 0;
    for (size_t k = 0; k < view->cloth->strips; k++)
        alike += view->cloth->strip[k].offcut == strip->offcut;
    const char *kind = strip->offcut ? "offcut" : "bolt";
    if (alike > 1 || strip->number > 1)
        snprintf(into, 32, "%s %zu", kind, strip->number);
    else
        snprintf(into, 32, "%s", kind);
    return into;
}

char *cloth_name(const struct cutting_cloth *cloth, char into[CLOTH_NAME_MOST]) {
    char name[TEXT_MOST];
    snprintf(into, CLOTH_NAME_MOST, "%c %.61s", cloth->colour.letter,
             plain_text(cloth->colour.name, name));
    return into;
}

/* ---- what to buy ------------------------------------------------------------------ */

static void write_buy_line(const struct design *design, const struct cutting_cloth *cloth,
                           struct text *into) {
    char name[CLOTH_NAME_MOST], used[32], buy[32], bound[32];
    text_add(into, "  %-22.22s %6zu %12s %12s %6.1f %% %11s\n", cloth_name(cloth, name),
             cloth->pieces, cloth_length(design, cutting_used_m(cloth), used),
             cloth_length(design, cutting_bought_m(design, cloth), buy), 100 * cloth->layout.use,
             cloth_length(design, cutting_bound_m(cloth), bound));
}

static void write_buy(const struct design *design, const struct cutting *cutting,
                      struct text *into) {
    text_add(into,
             "\nWHAT TO BUY\n"
             "  cloth                  pieces      used up       to buy      use    at least\n");
    for (size_t i = 0; i < cutting->cloths; i++)
        write_buy_line(design, &cutting->cloth[i], into);
    flow_text(into,
              "Used up is what the pieces take off the bolts; to buy, the same in the steps that "
              "cloth is sold in. Use is the share of all cloth used, offcuts as well, that ends in "
              "pieces. At least: no layout can do with less. The vent and what else is cut "
              "without a template come on top.",
              0, 2);
}

/* ---- a strip -------------------------------------------------------------------------- */

static void write_strip_title(const struct strip_view *view, struct text *into) {
    const struct design *design = view->design;
    const struct cutting_strip *strip = &view->cloth->strip[view->strip];
    char cloth[CLOTH_NAME_MOST], name[32], number[32], words[TEXT_MOST + 300];
    size_t used = (size_t)snprintf(
        words, sizeof words, "%s, %s: %s %s wide", cloth_name(view->cloth, cloth),
        strip_name(view, name), format_length(design, strip->width_m, number), length_unit(design));
    if (isfinite(strip->length_m))
        used += (size_t)snprintf(words + used, sizeof words - used, ", %s long",
                                 format_length(design, strip->length_m, number));
    if (strip->edge_m > 0)
        used += (size_t)snprintf(words + used, sizeof words - used,
                                 ", of that %s along each edge not used",
                                 format_length(design, strip->edge_m, number));
    snprintf(words + used, sizeof words - used, "; used up to %s",
             format_length(design, view->cloth->layout.used_m[view->strip], number));
    flow_text(into, words, 0, 0);
}

static void write_positions(const struct strip_view *view, struct text *into) {
    const struct design *design = view->design;
    char from[32], to[32], near[32], far[32];
    text_add(into,
             "\n            along the roll           across it       crown\n"
             "         begins        ends       begins        ends  points to  piece  gore\n");
    for (size_t i = 0; i < view->cloth->pieces; i++) {
        const struct cutting_piece *piece = &view->cloth->piece[i];
        if (piece->place.bolt != view->strip)
            continue;
        text_add(into, "[ ] %11s %11s  %11s %11s  %-9s  %-6s %4zu\n",
                 format_length(design, piece->from_m, from), format_length(design, piece->to_m, to),
                 format_length(design, piece->near_m, near),
                 format_length(design, piece->far_m, far), cutting_crown(piece),
                 view->envelope->piece[piece->piece].name, piece->gore);
    }
}

static void write_strip(const struct strip_view *view, struct text *into) {
    text_add(into, "\f");
    write_strip_title(view, into);
    if (!(view->cloth->layout.used_m[view->strip] > 0)) {
        text_add(into, "Nothing is cut from it.\n");
        return;
    }
    if (!cutting_map(view, into))
        into->failed = true;
    write_positions(view, into);
}

/* ---- the page -------------------------------------------------------------------------- */

static void write_head(const struct design *design, const struct cutting *cutting,
                       struct text *into) {
    char name[TEXT_MOST], words[700], gap[32];
    snprintf(words, sizeof words, "CUTTING LAYOUT FOR %s", plain_text(design->name, name));
    flow_text(into, words, 0, 0);
    snprintf(words, sizeof words,
             "Every piece on its cloth, with its allowances, %s %s apart. Lay the cloth flat and "
             "unstretched, its outer face up; stretch a tape along it from the start of the roll. "
             "Along the roll is measured from its start, across it from the near edge, selvedge "
             "included, to where the cut line of a piece begins and ends; all in %s. Put the "
             "template there with its crown to the far or near edge of the cloth, or to the "
             "start or end of the roll. Tick off what is marked. Check the first row against "
             "the map before you cut.%s",
             format_length(design, design->cutting.gap_m, gap), length_unit(design),
             unit_in_words(design), cutting->kept ? " This layout is kept beside the design." : "");
    flow_text(into, words, 0, 0);
}

void write_cutting(const struct design *design, const struct envelope *envelope,
                   const struct cutting *cutting, struct text *into) {
    write_head(design, cutting, into);
    write_buy(design, cutting, into);
    for (size_t i = 0; i < cutting->cloths; i++)
        for (size_t k = 0; k < cutting->cloth[i].strips; k++)
            write_strip(&(struct strip_view){design, envelope, &cutting->cloth[i], k}, into);
}
