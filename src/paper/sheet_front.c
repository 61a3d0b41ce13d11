/* sheet_front.c - the first page of a set: what is in it, how to mark, cautions. */
#include <stdio.h>

#include "gorewright/flight.h"
#include "paper/lengths.h"
#include "paper/plain.h"
#include "paper/colour_words.h"
#include "paper/sheets.h"

static void write_steps(const struct design *design, struct text *into) {
    const char *const grain = design->cloth.warp == WARP_UP
                                  ? "the base line runs square across the roll"
                                  : "the base line runs lengthwise, along the selvedge";
    char lay[256], corners[256], tolerance[48];
    snprintf(
        lay, sizeof lay,
        "Lay the cloth flat and unstretched, its outer face up, for every page shows the piece "
        "from outside. Turn the piece so that its grain arrow lies lengthwise on the roll: %s.",
        grain);
    snprintf(corners, sizeof corners,
             "Draw the base line. Mark corner A on it. Set out B, C and D from the table of "
             "corners with a rule and a square. The two diagonals must agree with the sheet to "
             "within %s before you go on.",
             format_tolerance(design, tolerance));
    const char *const step[] = {
        "Mark one piece of each kind on stiff paper or card first, cut it out, and try it against "
        "its neighbours. Then use it as the pattern for the rest.",
        lay,
        corners,
        "Join the corners for the sew line. Where an edge is a curve, set out its points from the "
        "straight line between the two corners and draw along a batten bent through them.",
        "Set out the corners of the cut line from the same base line and join them. Along a curve, "
        "measure the allowance outwards from the sew line at each point and use the batten again.",
        "Tick the match marks from the sew line to the cut line. Write the name and an arrow to "
        "the crown on every piece.",
        "Cut on the cut line, sew on the sew line. Marks and corners of two mating edges meet when "
        "they are pinned.",
    };
    text_add(into, "TO MARK A PIECE BY HAND you need a long rule, a square, a batten and chalk.\n");
    for (size_t i = 0; i < COUNT_OF(step); i++) {
        text_add(into, "  %zu ", i + 1);
        flow_text(into, step[i], 4, 4);
    }
    text_add(into, "\n");
}

static void write_cautions(struct text *into) {
    text_add(into, "CAUTIONS\n");
    for (const char *const *caution = flight_cautions(); *caution != NULL; caution++) {
        text_add(into, "  - ");
        flow_text(into, *caution, 4, 4);
    }
}

static const char set_heading[] =
    "  piece   style       row  side   cut    box to cut it from (wide x tall)\n";

static void write_set_line(const struct design *design, const struct envelope *envelope,
                           const struct piece *piece, struct text *into) {
    char wide[32], tall[32], colours[COLOUR_WORDS_MOST];
    double wide_m = piece->cut_most.x_m - piece->cut_least.x_m;
    double tall_m = piece->cut_most.y_m - piece->cut_least.y_m;
    text_add(into, "  %-6s  %-10s  %3zu  %-5s  %3zu  %12s x %s %s\n", piece->name,
             style_name(piece->style), piece->row, side_name(piece->side), piece->count,
             format_length(design, wide_m, wide), format_length(design, tall_m, tall),
             length_unit(design));
    if (design->colours.cloths.count < 2)
        return;
    text_add(into, "          ");
    flow_text(into, colour_words(design, envelope, piece, true, colours), 10, 10);
}

/* The list goes on over as many pages as it needs. */
static void write_set(const struct design *design, const struct envelope *envelope,
                      struct text *into) {
    text_add(into, "IN THIS SET: %zu templates, %zu pieces to cut\n%s", envelope->templates,
             envelope->built.pieces, set_heading);
    for (size_t i = 0; i < envelope->templates; i++) {
        if (page_is_full(into)) {
            text_add(into, "\f");
            sheet_begin(design, true, into);
            text_add(into, "\n%s", set_heading);
        }
        write_set_line(design, envelope, &envelope->piece[i], into);
    }
}

void sheet_front(const struct design *design, const struct envelope *envelope, struct text *into) {
    char cloths[COLOUR_WORDS_MOST];
    sheet_begin(design, false, into);
    text_add(into, "Cloth: ");
    flow_text(into, cloth_words(design, true, cloths), 7, 7);
    text_add(into, "\n");
    write_steps(design, into);
    write_cautions(into);
    text_add(into, "\n");
    write_set(design, envelope, into);
}
