/* parameters.c - the one table of everything a builder may decide. */
#include <string.h>

#include "gorewright/design.h"

static const char *const size_words[] = {"volume",     "height", "diameter", "gore-length",
                                         "cloth-area", "table",  NULL};
static const char *const outline_words[] = {"natural", "ball-and-cone", "table", NULL};
static const char *const weight_words[] = {"none", "ratio", "cloth", NULL};
static const char *const join_words[] = {"smooth", "straight", NULL};
static const char *const spacing_words[] = {"equal", "given", "even-departure", NULL};
static const char *const style_words[] = {"faceted", "half-gore", "billowed", NULL};
static const char *const seam_words[] = {"plain", "lapped", "felled", NULL};
static const char *const warp_words[] = {"across", "up", NULL};
static const char *const units_words[] = {"mm", "inch", NULL};
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
           "What fixes the size; not needed when one of the five sizes below is stated alone."),
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
        break; /* lists start empty */
    }
}

void design_starter(struct design *design) {
    memset(design, 0, sizeof *design);
    for (size_t i = 0; i < COUNT_OF(table); i++)
        set_default(&table[i], design);
}
