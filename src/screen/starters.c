/* starters.c - designs to begin from. */
#include "screen/starters.h"

#include <string.h>

static void set_name(struct design *design, const char *name) {
    strncpy(design->name, name, TEXT_MOST - 1);
}

static void make_usual(struct design *design) {
    set_name(design, "Starter");
}

static void make_first(struct design *design) {
    set_name(design, "First envelope");
    design->size.by = SIZE_HEIGHT;
    design->size.height_m = 2;
    design->outline.mouth_diameter_m = 0.45;
    design->outline.crown_diameter_m = 0.36;
    design->gores.count = 12;
    design->rows.count = 5;
    design->seams.tape = SEAM_PLAIN;
}

static void make_half_gores(struct design *design) {
    set_name(design, "Half-gores");
    design->size.volume_m3 = 14;
    design->gores.style = HALF_GORE;
    design->bulge.depth = 0.12;
    design->bulge.ease_rows = 2;
}

static void make_billowed(struct design *design) {
    set_name(design, "Billowed");
    design->size.by = SIZE_GORE_LENGTH;
    design->size.gore_length_m = 4.4;
    design->gores.style = BILLOWED;
    design->rows.spacing = ROWS_EVEN_DEPARTURE;
    strncpy(design->paper.sheet, "A3", TEXT_MOST - 1);
}

static void make_three_styles(struct design *design) {
    static const int mix[] = {FACETED, HALF_GORE, FACETED, BILLOWED};
    set_name(design, "Three styles");
    design->gores.mix.count = COUNT_OF(mix);
    memcpy(design->gores.mix.value, mix, sizeof mix);
}

static void make_large(struct design *design) {
    set_name(design, "Large");
    design->size.by = SIZE_HEIGHT;
    design->size.height_m = 5;
    design->outline.mouth_diameter_m = 1.1;
    design->outline.crown_diameter_m = 0.9;
    design->gores.count = 20;
    design->rows.count = 13;
    strncpy(design->paper.sheet, "roll 914mm", TEXT_MOST - 1);
}

static void make_inches(struct design *design) {
    set_name(design, "Ball and cone");
    design->outline.kind = OUTLINE_BALL_AND_CONE;
    design->outline.cone_angle_deg = 36;
    design->cloth.width_m = 1.524;
    design->paper.units = UNITS_INCH;
    strncpy(design->paper.sheet, "Letter", TEXT_MOST - 1);
}

static const struct starter table[] = {
    {"First envelope, 2 m tall",
     "Twelve faceted gores of five panels, plain seams: few pieces, little cloth, nothing to fold.",
     make_first},
    {"The usual: 12 m3, 16 gores",
     "Faceted, a little under 3 m tall: the design the program begins with.", make_usual},
    {"Half-gores, 14 m3",
     "Every edge still straight, yet the gores stand out between the tapes; twice the pieces.",
     make_half_gores},
    {"Billowed gores, 4.4 m long", "For hands that have sewn curves before; templates on A3.",
     make_billowed},
    {"Three styles on one envelope",
     "Faceted, half-gore and billowed side by side, to compare them.", make_three_styles},
    {"Large, 5 m tall", "Twenty gores; templates on a roll 914 mm wide, from a print shop.",
     make_large},
    {"Ball and cone, in inches", "A sphere on a cone; sheets in fractions of an inch, on Letter.",
     make_inches},
};

const struct starter *starters(size_t *count) {
    *count = COUNT_OF(table);
    return table;
}

void starter_make(const struct starter *starter, struct design *design) {
    design_starter(design);
    starter->make(design);
}
