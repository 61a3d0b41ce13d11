/* parameters.c - the one table of everything a builder may decide. */
#include <string.h>

#include "gorewright/design.h"

static const char *const size_words[] = {"volume",     "height", "diameter", "gore-length",
                                         "cloth-area", "table",  "load",     NULL};
static const char *const outline_words[] = {"natural", "ball-and-cone", "table", NULL};
static const char *const weight_words[] = {"none", "ratio", "cloth", NULL};
static const char *const join_words[] = {"smooth", "straight", NULL};
static const char *const spacing_words[] = {"equal", "given", "even-departure", NULL};
static const char *const style_words[] = {"faceted", "half-gore", "billowed", NULL};
static const char *const seam_words[] = {"plain", "lapped", "felled", NULL};
static const char *const warp_words[] = {"across", "up", NULL};
static const char *const units_words[] = {"mm", "inch", NULL};
static const char *const fill_words[] = {"one",     "stripes",  "bands",  "spiral",
                                         "chequer", "gradient", "scheme", NULL};
static const char *const mirror_words[] = {"no", "yes", NULL};
static const char *const lay_words[] = {"both-ways", "one-way", NULL};
static const char *const fraction_words[] = {"1/16", "1/32", "1/64", NULL};

#define AT(member) offsetof(struct design, member)
#define WHOLE(key, member, least, most, usual, help)                                               \
    { key, PARAMETER_WHOLE, "", least, most, usual, NULL, NULL, AT(member), help }
#define REAL(key, member, unit, least, most, usual, help)                                          \
    { key, PARAMETER_REAL, unit, least, most, usual, NULL, NULL, AT(member), help }
#define TEXT(key, member, usual, help)                                                             \
    { key, PARAMETER_TEXT, "", 1, TEXT_MOST - 1, 0, usual, NULL, AT(member), help }
#define CHOICE(key, member, words, usual, help)                                                    \
    { key, PARAMETER_CHOICE, "", 0, COUNT_OF(words) - 2, usual, NULL, words, AT(member), help }

static const struct parameter table[] = {
    WHOLE("format", format, DESIGN_FORMAT, DESIGN_FORMAT, DESIGN_FORMAT,
          "Number of this file format; it must be stated."),
    TEXT("name", name, "Starter", "What you call this envelope; it is printed on every page."),

    CHOICE("size.by", size.by, size_words, SIZE_VOLUME,
           "What fixes the size; not needed when one of the five below is stated alone; load: what "
           "is carried."),
    REAL("size.volume", size.volume_m3, "m3", 0.001, 15000, 12,
         "Volume as sewn; 12 m3 lifts about 3.3 kg in all at 100 C inside and 15 C outside."),
    REAL("size.height", size.height_m, "m", 0.2, 30, 3,
         "Height from the mouth to the highest tape corner."),
    REAL("size.diameter", size.diameter_m, "m", 0.1, 30, 2.8,
         "Greatest diameter at the load tapes, as sewn."),
    REAL("size.gore_length", size.gore_length_m, "m", 0.2, 60, 4.2,
         "Sum of the straight tape sides of one gore, as sewn."),
    REAL("size.cloth_area", size.cloth_area_m2, "m2", 0.05, 3000, 27,
         "Area of all pieces between their sew lines."),

    CHOICE("outline.kind", outline.kind, outline_words, OUTLINE_NATURAL,
           "The meridian the load tapes follow; natural asks for no tension across the cloth."),
    REAL("outline.mouth_diameter", outline.mouth_diameter_m, "m", 0.02, 20, 0.6,
         "Mouth, from tape corner to tape corner; wide enough to keep the flame off the cloth."),
    REAL("outline.crown_diameter", outline.crown_diameter_m, "m", 0.02, 20, 0.5,
         "Crown opening, from tape corner to tape corner; what a parachute vent will close."),
    CHOICE("outline.weight_from", outline.weight_from, weight_words, WEIGHT_CLOTH,
           "Where a natural outline takes the weight of its cloth from: cloth is cloth.mass."),
    REAL("outline.weight_ratio", outline.weight_ratio, "", 0, 0.6, 0,
         "Sigma, cloth weight over lift, for weight_from \"ratio\"."),
    REAL("outline.lift_per_volume", outline.lift_per_volume_N_m3, "N/m3", 0.1, 12, 2.74,
         "Lift of a cubic metre of hot air, for weight_from \"cloth\"; 2.74 is 100 C in 15 C at "
         "sea level."),
    REAL("outline.cone_angle", outline.cone_angle_deg, "deg", 1, 80, 38,
         "Slope of the cone from the vertical, for kind \"ball-and-cone\"."),
    {"outline.table", PARAMETER_POINTS, "m", 0, 30, 0, NULL, NULL, AT(outline.table),
     "Stations (radius, height) from the mouth up, for kind \"table\"; 2 to 200 of them."},
    CHOICE("outline.join", outline.join, join_words, JOIN_SMOOTH,
           "How the stations of a table are joined: by a smooth curve, or by straight lines."),

    WHOLE("gores.count", gores.count, GORES_LEAST, GORES_MOST, 16,
          "Gores around the envelope; 16 is usual for this class."),
    CHOICE("gores.style", gores.style, style_words, FACETED,
           "How gores are built; faceted is the simplest to cut and to sew."),
    {"gores.mix", PARAMETER_STYLES, "", 0, STYLE_COUNT - 1, 0, NULL, style_words, AT(gores.mix),
     "A style for each gore in turn, repeated around the envelope; its length divides "
     "gores.count."},

    WHOLE(
        "rows.count", rows.count, 1, ROWS_MOST, 8,
        "Rows of panels from mouth to crown; more follow the outline better and cost more seams."),
    CHOICE("rows.spacing", rows.spacing, spacing_words, ROWS_EQUAL,
           "Equal lengths; given by rows.shares; or the same departure from the outline in each."),
    {"rows.shares", PARAMETER_REALS, "", 0.001, 1000, 0, NULL, NULL, AT(rows.shares),
     "Length of each row from the mouth up, for spacing \"given\"; only their ratios count."},

    REAL("bulge.depth", bulge.depth, "", 0, 0.5, 0.1,
         "How far a gore stands out between its tapes, over the chord; of no effect on faceted "
         "gores."),
    WHOLE("bulge.ease_rows", bulge.ease_rows, 0, 30, 1,
          "Rows in which the bulge grows from nothing at mouth and crown, so that hem and ring are "
          "straight."),
    {"bulge.stations", PARAMETER_REALS, "", 0, 0.5, 0, NULL, NULL, AT(bulge.stations),
     "The bulge at each station from the mouth up, rows + 1 of them, instead of depth and "
     "ease_rows."},

    CHOICE("seams.tape", seams.tape, seam_words, SEAM_FELLED,
           "Seam from gore to gore; felled makes a strong flat bed for the load tape."),
    REAL("seams.tape_width", seams.tape_width_m, "m", 0, 0.1, 0.010,
         "Finished width of the seam from gore to gore."),
    CHOICE("seams.row", seams.row, seam_words, SEAM_PLAIN, "Seam from panel to panel up a gore."),
    REAL("seams.row_width", seams.row_width_m, "m", 0, 0.1, 0.010,
         "Finished width of the seam from panel to panel."),
    CHOICE("seams.ridge", seams.ridge, seam_words, SEAM_PLAIN,
           "Seam between the two halves of a half-gore."),
    REAL("seams.ridge_width", seams.ridge_width_m, "m", 0, 0.1, 0.010,
         "Finished width of the seam between half-gores."),
    REAL("seams.mouth_hem", seams.mouth_hem_m, "m", 0, 0.3, 0.025,
         "Cloth beyond the sew line at the mouth, turned in for the hem."),
    REAL("seams.crown_hem", seams.crown_hem_m, "m", 0, 0.3, 0.025,
         "Cloth beyond the sew line at the crown opening."),

    TEXT("cloth.colour", cloth.colour, "white", "Colour of the cloth, printed on every piece."),
    REAL("cloth.width", cloth.width_m, "m", 0.1, 5, 1.5, "Width of the cloth on the roll."),
    REAL("cloth.selvedge", cloth.selvedge_m, "m", 0, 0.1, 0.010,
         "Strip along each edge of the roll that is not used."),
    REAL("cloth.mass", cloth.mass_kg_m2, "kg/m2", 0.005, 0.5, 0.0397,
         "Mass of the cloth; 0.0397 is PIA-C-44378 type I ripstop nylon."),
    CHOICE("cloth.warp", cloth.warp, warp_words, WARP_ACROSS,
           "Lengthwise grain of the roll: across the gore (the roll's width limits rows), or up "
           "the gore."),
    REAL("cloth.strength", cloth.strength_N_m, "N/m", 100, 100000, 7881,
         "Breaking strength of a strip of cloth; 7881 is PIA-C-44378 type I."),
    REAL("cloth.seam_efficiency", cloth.seam_efficiency, "", 0.1, 1, 0.8,
         "Strength of the cloth across a seam over that of the cloth; test your own seam, 0.8 is "
         "common practice."),
    REAL("cloth.hottest", cloth.hottest_C, "C", 40, 250, 120,
         "Hottest the cloth may become; nylon keeps most of its strength to 121 C."),
    REAL("cloth.emissivity", cloth.emissivity, "", 0.02, 1, 0.9,
         "Share of black-body radiation that the cloth gives off; 0.9 is that of textiles."),
    REAL("cloth.price", cloth.price_m, "", 0, 10000, 0,
         "Price of a metre off the roll, in your own money; 0 when not known."),

    {"colours.cloths", PARAMETER_CLOTHS, "", 0, 10000, 0, NULL, NULL, AT(colours.cloths),
     "The colours: (letter, name, width in m, mass in kg/m2, price of a metre); the last three may "
     "be "
     "left out."},
    CHOICE("colours.fill", colours.fill, fill_words, FILL_ONE,
           "How the colours go over gores and rows; one is the first colour alone."),
    WHOLE("colours.span", colours.span, 1, GORES_MOST, 1,
          "Gores or rows that one stripe, band or square takes."),
    WHOLE("colours.turn", colours.turn, 0, GORES_MOST, 0,
          "Gores by which the colours are turned around the envelope."),
    CHOICE("colours.mirror", colours.mirror, mirror_words, MIRROR_NO,
           "Whether the second half around is the mirror image of the first."),
    {"colours.scheme", PARAMETER_LINES, "", 0, 0, 0, NULL, NULL, AT(colours.scheme),
     "Letters of colours, one for each gore, repeated around; a text for each row from the mouth "
     "up, or one."},
    {"colours.scheme_right", PARAMETER_LINES, "", 0, 0, 0, NULL, NULL, AT(colours.scheme_right),
     "The same for the right halves of half-gores, where they differ from the left."},

    REAL("cutting.gap", cutting.gap_m, "m", 0, 0.1, 0.002,
         "Cloth left between two pieces; 2 mm let a blade or a hot knife pass."),
    CHOICE("cutting.lay", cutting.lay, lay_words, LAY_BOTH_WAYS,
           "Whether a piece may be turned end for end; one-way for cloth with a shine or print."),
    {"cutting.offcuts", PARAMETER_STOCK, "m", 0.05, 500, 0, NULL, NULL, AT(cutting.offcuts),
     "Cloth in the cupboard, used first: (letter, length along the warp, width), all of it good."},
    {"cutting.bolts", PARAMETER_STOCK, "m", 0.05, 500, 0, NULL, NULL, AT(cutting.bolts),
     "Bolts to cut from, in turn: (letter, length, width); a colour without any has one without "
     "end."},

    REAL("tape.mass", tape.mass_kg_m, "kg/m", 0, 0.2, 0.004,
         "Mass of a metre of load tape; weigh a known length of yours."),
    REAL("tape.strength", tape.strength_N, "N", 10, 50000, 1290,
         "Breaking strength of the load tape; 1290 is MIL-T-8363 type II."),
    REAL("tape.turn_back", tape.turn_back_m, "m", 0, 1, 0.15,
         "Length of tape turned back and sewn down at each end."),

    REAL("thread.tex", thread.tex, "g/km", 5, 300, 40,
         "Fineness of the sewing thread, tex: grams in a thousand metres."),
    REAL("thread.waste", thread.waste, "", 0, 1, 0.15,
         "Thread bought beyond what is in the seams; 10 to 15 % is usual."),

    REAL("vent.oversize", vent.oversize, "", 0, 0.5, 0.15,
         "How much wider than the crown opening the vent is, as a share of the opening."),
    REAL("vent.ring", vent.ring_kg, "kg", 0, 5, 0.05,
         "Mass of the crown ring with the centring and pull lines of the vent."),

    REAL("rigging.frame", rigging.frame_diameter_m, "m", 0.02, 5, 0.3,
         "Diameter of the circle on which the flying wires meet the burner frame."),
    REAL("rigging.drop", rigging.drop_m, "m", 0.05, 10, 0.6,
         "Height of the mouth above the burner frame."),
    REAL("rigging.wire_mass", rigging.wire_kg_m, "kg/m", 0, 0.2, 0.004,
         "Mass of a metre of flying wire; one wire runs from each load tape."),
    REAL("rigging.wire_strength", rigging.wire_strength_N, "N", 10, 50000, 500,
         "Breaking strength of a flying wire with its ends made up."),

    REAL("rig.burner", rig.burner_kg, "kg", 0, 200, 0.35, "Burner with its valve and hose."),
    REAL("rig.cylinder", rig.cylinder_kg, "kg", 0, 200, 0.35, "Cylinder, empty."),
    REAL("rig.fuel", rig.fuel_kg, "kg", 0, 200, 0.2, "Propane at the start."),
    REAL("rig.basket", rig.basket_kg, "kg", 0, 500, 0.2, "Basket with the burner frame."),
    REAL("rig.radio", rig.radio_kg, "kg", 0, 100, 0.2, "Receiver, servos and battery."),
    {"rig.others", PARAMETER_ITEMS, "kg", 0, 500, 0, NULL, NULL, AT(rig.others),
     "Anything more that is carried, each with its mass: ((\"camera\", 0.12), ...)."},

    REAL("weighed.envelope", weighed.envelope_kg, "kg", 0, 500, 0,
         "The whole envelope as weighed, instead of all computed masses; 0 when not weighed."),
    REAL("weighed.cloth", weighed.cloth_kg, "kg", 0, 500, 0,
         "The cut cloth as weighed, instead of the computed mass; 0 when not weighed."),
    REAL("weighed.tapes", weighed.tapes_kg, "kg", 0, 500, 0,
         "The load tapes as weighed; 0 when not weighed."),
    REAL("weighed.thread", weighed.thread_kg, "kg", 0, 500, 0,
         "The thread used as weighed; 0 when not weighed."),
    REAL("weighed.crown", weighed.crown_kg, "kg", 0, 500, 0,
         "Vent, ring and their lines as weighed; 0 when not weighed."),
    REAL("weighed.mouth", weighed.mouth_kg, "kg", 0, 500, 0,
         "The band around the mouth as weighed; 0 when not weighed."),
    REAL("weighed.lines", weighed.lines_kg, "kg", 0, 500, 0,
         "The flying wires as weighed; 0 when not weighed."),

    REAL("air.ground", air.ground_C, "C", -60, 60, 15, "Temperature of the air at the field."),
    REAL("air.altitude", air.altitude_m, "m", -500, 6000, 0, "Height of the field above the sea."),
    REAL("air.inside", air.inside_C, "C", -50, 250, 100,
         "Mean temperature inside that you mean to fly with; builders of small models stay at or "
         "below 100 C."),
    REAL("air.free_lift", air.free_lift, "", 0, 2, 0.1,
         "Lift wanted beyond the whole weight, as a share of the weight, for size.by \"load\"."),

    REAL("heat.wind", heat.relative_wind_m_s, "m/s", 0, 20, 0,
         "Wind past the envelope when the heat loss is worked out; in free flight there is next to "
         "none."),
    REAL("heat.loss_factor", heat.loss_factor, "", 0.2, 5, 1,
         "Your measured heat loss over the computed one, from a flight you have logged."),
    REAL("heat.burner_efficiency", heat.burner_efficiency, "", 0.1, 1, 0.9,
         "Share of the fuel's heat that stays in the envelope; common practice, no source."),
    REAL("heat.burner_power", heat.burner_W, "W", 100, 5e6, 40000,
         "What your burner gives at full flame."),

    REAL("wind.drag", wind.drag, "", 0.05, 2, 0.5,
         "Drag coefficient on the frontal area; that of a sphere is 0.2 to 0.5."),
    REAL("wind.hold", wind.hold_N, "N", 1, 20000, 150,
         "Pull that you and your helpers can hold with ease."),
    REAL("wind.expected", wind.expected_m_s, "m/s", 0, 20, 2,
         "Wind in which the envelope is to be inflated or tethered."),

    REAL("pace.piece", pace.mark_and_cut_min, "min", 0, 120, 6,
         "Minutes to mark and cut one piece."),
    REAL("pace.straight", pace.straight_m_h, "m/h", 0.5, 500, 15,
         "Metres of straight seam you pin and sew in an hour."),
    REAL("pace.curved", pace.curved_m_h, "m/h", 0.5, 500, 7,
         "Metres of curved seam you pin and sew in an hour."),
    REAL("pace.tape", pace.tape_m_h, "m/h", 0.5, 500, 15,
         "Metres of load tape you sew on in an hour."),
    REAL("pace.finish", pace.finish_h, "h", 0, 500, 8, "Hours for crown, mouth, vent and rigging."),

    REAL("buying.cloth_step", buying.cloth_step_m, "m", 0.001, 100, 0.1,
         "Cloth is sold in steps of this length; what to buy is rounded up to it."),
    REAL("buying.tape_step", buying.tape_step_m, "m", 0.001, 1000, 1,
         "Load tape is sold in steps of this length."),
    REAL("buying.tape_price", buying.tape_price_m, "", 0, 10000, 0,
         "Price of a metre of load tape; 0 when not known."),
    REAL("buying.wire_step", buying.wire_step_m, "m", 0.001, 1000, 1,
         "Flying wire is sold in steps of this length."),
    REAL("buying.wire_price", buying.wire_price_m, "", 0, 10000, 0,
         "Price of a metre of flying wire; 0 when not known."),
    REAL("buying.reel", buying.reel_m, "m", 10, 100000, 1000, "Thread on a reel."),
    REAL("buying.reel_price", buying.reel_price, "", 0, 10000, 0,
         "Price of a reel of thread; 0 when not known."),

    TEXT("paper.sheet", paper.sheet, "A4",
         "A4, A3, Letter, Tabloid or another ISO or ANSI size; 500x700mm; roll 914mm; roll 36in."),
    REAL("paper.margin", paper.margin_m, "m", 0, 0.05, 0.010, "Border the printer leaves white."),
    REAL("paper.overlap", paper.overlap_m, "m", 0, 0.05, 0.010,
         "Width by which sheets overlap for gluing."),
    REAL("paper.measured_across", paper.measured_across_m, "m", 0, 20, 0,
         "What the cross on page 1 really measures across; 0 when not measured."),
    REAL("paper.measured_up", paper.measured_up_m, "m", 0, 20, 0,
         "What the cross on page 1 really measures up the page; 0 when not measured."),
    CHOICE("paper.units", paper.units, units_words, UNITS_MM, "Units on sheets and templates."),
    REAL("paper.rounding", paper.rounding_m, "m", 0.0001, 0.001, 0.0005,
         "Sheets in mm are rounded to this; half a millimetre is what a rule can show."),
    CHOICE("paper.inch_fraction", paper.inch_fraction, fraction_words, INCH_32,
           "Sheets in inches are rounded to this part of an inch."),
};

_Static_assert(COUNT_OF(table) <= PARAMETERS_MOST, "design_source has a line for each parameter");

const struct parameter *parameters(size_t *count) {
    *count = COUNT_OF(table);
    return table;
}

int parameter_find(const char *key) {
    for (size_t i = 0; i < COUNT_OF(table); i++)
        if (strcmp(table[i].key, key) == 0)
            return (int)i;
    return -1;
}

const char *parameter_word(const char *key, int value) {
    int i = parameter_find(key);
    if (i < 0 || table[i].choices == NULL || value < 0 || value > (int)table[i].most)
        return "";
    return table[i].choices[value];
}

static void set_default(const struct parameter *p, struct design *design) {
    void *member = (char *)design + p->offset;
    switch (p->type) {
    case PARAMETER_WHOLE:
    case PARAMETER_CHOICE:
        *(int *)member = (int)p->usual;
        break;
    case PARAMETER_REAL:
        *(double *)member = p->usual;
        break;
    case PARAMETER_TEXT:
        strncpy(member, p->usual_text, TEXT_MOST - 1);
        break;
    case PARAMETER_REALS:
    case PARAMETER_STYLES:
    case PARAMETER_POINTS:
    case PARAMETER_ITEMS:
    case PARAMETER_CLOTHS:
    case PARAMETER_LINES:
    case PARAMETER_STOCK:
        break; /* lists start empty */
    }
}

void design_starter(struct design *design) {
    memset(design, 0, sizeof *design);
    for (size_t i = 0; i < COUNT_OF(table); i++)
        set_default(&table[i], design);
}
