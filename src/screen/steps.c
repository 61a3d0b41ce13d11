/* steps.c - what is asked where. */
#include "gorewright/paper.h"
#include "screen/steps.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

const struct step_entry *step_entry(enum step step) {
    static const struct step_entry table[STEP_COUNT] = {
        {"Size", "How big is it to be?"},
        {"Shape", "What outline are the load tapes to follow?"},
        {"Gores", "How many gores and rows, and how are they built?"},
        {"Cloth", "What is it sewn from, and how wide are the seams?"},
        {"Colours", "Which colour is each panel?"},
        {"Flight", "Will it fly: what does it carry, and in what air?"},
        {"Paper", "What are the templates printed on?"},
    };
    return &table[step];
}

/* ---- when a choice is asked for ------------------------------------------ */

#define BY(name, what)                                                                             \
    static bool by_##name(const struct design *design) {                                           \
        return design->size.by == (what);                                                          \
    }
BY(volume, SIZE_VOLUME)
BY(height, SIZE_HEIGHT)
BY(diameter, SIZE_DIAMETER)
BY(gore_length, SIZE_GORE_LENGTH)
BY(cloth_area, SIZE_CLOTH_AREA)
BY(load, SIZE_LOAD)

static bool is_natural(const struct design *design) {
    return design->outline.kind == OUTLINE_NATURAL;
}

static bool has_ratio(const struct design *design) {
    return is_natural(design) && design->outline.weight_from == WEIGHT_RATIO;
}

static bool has_cloth_weight(const struct design *design) {
    return is_natural(design) && design->outline.weight_from == WEIGHT_CLOTH && !by_load(design);
}

static bool is_cone(const struct design *design) {
    return design->outline.kind == OUTLINE_BALL_AND_CONE;
}

static bool is_table(const struct design *design) {
    return design->outline.kind == OUTLINE_TABLE;
}

static bool is_not_table(const struct design *design) {
    return !is_table(design);
}

static bool has_style(const struct design *design, int style) {
    if (design->gores.mix.count == 0)
        return design->gores.style == style;
    for (size_t i = 0; i < design->gores.mix.count; i++)
        if (design->gores.mix.value[i] == style)
            return true;
    return false;
}

static bool has_halves(const struct design *design) {
    return has_style(design, HALF_GORE);
}

static bool is_bulging(const struct design *design) {
    return has_halves(design) || has_style(design, BILLOWED);
}

static bool is_eased(const struct design *design) {
    return is_bulging(design) && design->bulge.stations.count == 0;
}

static bool is_unmixed(const struct design *design) {
    return design->gores.mix.count == 0;
}

static bool has_shares(const struct design *design) {
    return design->rows.spacing == ROWS_GIVEN;
}

static bool in_mm(const struct design *design) {
    return design->paper.units == UNITS_MM;
}

static bool in_inches(const struct design *design) {
    return design->paper.units == UNITS_INCH;
}

static bool has_one_cloth(const struct design *design) {
    return design->colours.cloths.count == 0;
}

static bool has_fill(const struct design *design) {
    return design->colours.cloths.count > 1 || design->colours.fill == FILL_SCHEME;
}

static bool has_scheme(const struct design *design) {
    return design->colours.fill == FILL_SCHEME || design->colours.scheme.count > 0;
}

static bool has_right_scheme(const struct design *design) {
    return (has_scheme(design) && has_halves(design)) || design->colours.scheme_right.count > 0;
}

static bool has_span(const struct design *design) {
    int fill = design->colours.fill;
    return has_fill(design) && (fill == FILL_STRIPES || fill == FILL_BANDS || fill == FILL_SPIRAL ||
                                fill == FILL_CHEQUER);
}

/* Gores of one row differ. */
static bool has_turn(const struct design *design) {
    int fill = design->colours.fill;
    return has_fill(design) && (fill == FILL_STRIPES || fill == FILL_SPIRAL ||
                                fill == FILL_CHEQUER || fill == FILL_SCHEME);
}

/* ---- the table ------------------------------------------------------------ */

static const struct step_choice table[] = {
    {STEP_SIZE, "size.by", "Size is fixed by", NULL, "Fix one measure; the others follow from it."},
    {STEP_SIZE, "size.volume", "Volume", by_volume, NULL},
    {STEP_SIZE, "size.height", "Height", by_height, NULL},
    {STEP_SIZE, "size.diameter", "Diameter", by_diameter, NULL},
    {STEP_SIZE, "size.gore_length", "Gore length", by_gore_length, NULL},
    {STEP_SIZE, "size.cloth_area", "Cloth area", by_cloth_area, NULL},
    {STEP_SIZE, "name", "Name", NULL, NULL},
    {STEP_SIZE, "paper.units", "Units", NULL, NULL},

    {STEP_SHAPE, "outline.kind", "Outline", NULL, NULL},
    {STEP_SHAPE, "outline.mouth_diameter", "Mouth diameter", is_not_table, NULL},
    {STEP_SHAPE, "outline.crown_diameter", "Crown diameter", is_not_table, NULL},
    {STEP_SHAPE, "outline.cone_angle", "Cone angle", is_cone, NULL},
    {STEP_SHAPE, "outline.weight_from", "Cloth weight from", is_natural,
     "Where a natural outline takes the weight of its cloth from."},
    {STEP_SHAPE, "outline.weight_ratio", "Weight over lift", has_ratio, NULL},
    {STEP_SHAPE, "outline.lift_per_volume", "Lift of hot air", has_cloth_weight, NULL},
    {STEP_SHAPE, "outline.table", "Stations", is_table, NULL},
    {STEP_SHAPE, "outline.join", "Stations joined", is_table, NULL},

    {STEP_GORES, "gores.count", "Gores", NULL, NULL},
    {STEP_GORES, "gores.style", "Style", is_unmixed, NULL},
    {STEP_GORES, "gores.mix", "Styles in turn", NULL,
     "To mix styles on one envelope: a style for each gore in turn, repeated around it; none: all "
     "alike."},
    {STEP_GORES, "rows.count", "Rows", NULL, NULL},
    {STEP_GORES, "rows.spacing", "Row lengths", NULL,
     "Equal lengths; given as shares; or the same departure from the outline in each."},
    {STEP_GORES, "rows.shares", "Shares of the rows", has_shares,
     "Length of each row from the mouth up; only their ratios count."},
    {STEP_GORES, "bulge.depth", "Bulge over chord", is_eased, NULL},
    {STEP_GORES, "bulge.ease_rows", "Bulge eased over", is_eased, NULL},
    {STEP_GORES, "bulge.stations", "Bulge by station", is_bulging,
     "Instead of the two above: the bulge at each station from the mouth up, one more than rows."},

    {STEP_CLOTH, "cloth.width", "Width of the roll", NULL, NULL},
    {STEP_CLOTH, "cloth.mass", "Mass of the cloth", NULL, NULL},
    {STEP_CLOTH, "seams.tape", "Seam at the tapes", NULL, NULL},
    {STEP_CLOTH, "seams.tape_width", "  its width", NULL, NULL},
    {STEP_CLOTH, "seams.row", "Seam between rows", NULL, NULL},
    {STEP_CLOTH, "seams.row_width", "  its width", NULL, NULL},
    {STEP_CLOTH, "seams.ridge", "Seam at the ridge", has_halves, NULL},
    {STEP_CLOTH, "seams.ridge_width", "  its width", has_halves, NULL},
    {STEP_CLOTH, "seams.mouth_hem", "Hem at the mouth", NULL, NULL},
    {STEP_CLOTH, "seams.crown_hem", "Hem at the crown", NULL, NULL},
    {STEP_CLOTH, "cloth.warp", "Lengthwise grain", NULL, NULL},
    {STEP_CLOTH, "cloth.selvedge", "Selvedge, each side", NULL, NULL},
    {STEP_CLOTH, "cloth.strength", "Strength of cloth", NULL, NULL},
    {STEP_CLOTH, "cloth.seam_efficiency", "  share at a seam", NULL, NULL},
    {STEP_CLOTH, "cloth.hottest", "Hottest it may be", NULL, NULL},
    {STEP_CLOTH, "cloth.emissivity", "Heat it radiates", NULL, NULL},
    {STEP_CLOTH, "tape.mass", "Mass of load tape", NULL, NULL},
    {STEP_CLOTH, "tape.strength", "  its strength", NULL, NULL},
    {STEP_CLOTH, "tape.turn_back", "  turned back by", NULL, NULL},
    {STEP_CLOTH, "thread.tex", "Thread", NULL, NULL},
    {STEP_CLOTH, "thread.waste", "  bought beyond", NULL, NULL},
    {STEP_CLOTH, "vent.oversize", "Vent over opening", NULL, NULL},
    {STEP_CLOTH, "vent.ring", "Ring and its lines", NULL, NULL},
    {STEP_CLOTH, "rigging.frame", "Burner frame", NULL, NULL},
    {STEP_CLOTH, "rigging.drop", "  below the mouth", NULL, NULL},
    {STEP_CLOTH, "rigging.wire_mass", "Mass of flying wire", NULL, NULL},
    {STEP_CLOTH, "rigging.wire_strength", "  its strength", NULL, NULL},
    {STEP_CLOTH, "cutting.gap", "Gap between pieces", NULL, NULL},
    {STEP_CLOTH, "cutting.lay", "Pieces may lie", NULL, NULL},
    {STEP_CLOTH, "cutting.offcuts", "Offcuts there are", NULL, NULL},
    {STEP_CLOTH, "cutting.bolts", "Bolts to cut from", NULL, NULL},
    {STEP_CLOTH, "cloth.price", "Price of cloth, 1 m", NULL, NULL},
    {STEP_CLOTH, "buying.cloth_step", "  sold in steps of", NULL, NULL},
    {STEP_CLOTH, "buying.tape_price", "Price of tape, 1 m", NULL, NULL},
    {STEP_CLOTH, "buying.tape_step", "  sold in steps of", NULL, NULL},
    {STEP_CLOTH, "buying.wire_price", "Price of wire, 1 m", NULL, NULL},
    {STEP_CLOTH, "buying.wire_step", "  sold in steps of", NULL, NULL},
    {STEP_CLOTH, "buying.reel", "Thread on a reel", NULL, NULL},
    {STEP_CLOTH, "buying.reel_price", "  price of a reel", NULL, NULL},

    {STEP_COLOURS, "colours.fill", "Pattern", NULL,
     "How the colours go over gores and rows; with one there is nothing to mix up at the bench."},
    {STEP_COLOURS, "colours.span", "  gores or rows each", has_span,
     "That a stripe, band or square takes; 1 is the finest pattern, wider ones show from farther "
     "away."},
    {STEP_COLOURS, "colours.turn", "  turned by gores", has_turn,
     "Turns the colours around the envelope; at 0 they begin at gore 1, which faces you when drawn "
     "from the side."},
    {STEP_COLOURS, "colours.mirror", "  mirrored", has_turn,
     "Whether the second half around mirrors the first; with no the pattern goes on around."},
    {STEP_COLOURS, "cloth.colour", "Colour", has_one_cloth, NULL},
    {STEP_COLOURS, "colours.cloths", "Colours", NULL,
     "Names of your colours of cloth, commas between; none: all of one, the least to buy and to "
     "mix up."},
    {STEP_COLOURS, "colours.scheme", "Scheme", has_scheme,
     "A line of letters for each row, from the mouth up. It begins as the pattern before it: "
     "change "
     "the letters you like."},
    {STEP_COLOURS, "colours.scheme_right", "  right halves", has_right_scheme,
     "The same for right halves of half-gores; none: both halves alike, fewer to tell apart."},

    {STEP_FLIGHT, "air.inside", "Air inside", NULL, NULL},
    {STEP_FLIGHT, "air.ground", "Air at the field", NULL, NULL},
    {STEP_FLIGHT, "air.altitude", "Field above the sea", NULL, NULL},
    {STEP_FLIGHT, "air.free_lift", "Free lift wanted", by_load,
     "Lift wanted beyond the whole weight, as a share of it: it climbs, and a gust does not push "
     "it "
     "down at once."},
    {STEP_FLIGHT, "rig.burner", "Burner", NULL, NULL},
    {STEP_FLIGHT, "rig.cylinder", "Cylinder", NULL, NULL},
    {STEP_FLIGHT, "rig.fuel", "Fuel", NULL, NULL},
    {STEP_FLIGHT, "rig.basket", "Basket", NULL, NULL},
    {STEP_FLIGHT, "rig.radio", "Radio", NULL, NULL},
    {STEP_FLIGHT, "rig.others", "Other things", NULL,
     "Anything more that is carried, each with its mass."},
    {STEP_FLIGHT, "heat.burner_power", "Power of the burner", NULL, NULL},
    {STEP_FLIGHT, "wind.expected", "Wind expected", NULL, NULL},
    {STEP_FLIGHT, "wind.hold", "Pull you can hold", NULL, NULL},
    {STEP_FLIGHT, "weighed.envelope", "Envelope as weighed", NULL, NULL},
    {STEP_FLIGHT, "weighed.cloth", "  its cloth", NULL, NULL},
    {STEP_FLIGHT, "weighed.tapes", "  its tapes", NULL, NULL},
    {STEP_FLIGHT, "weighed.thread", "  its thread", NULL, NULL},
    {STEP_FLIGHT, "weighed.crown", "  its crown", NULL, NULL},
    {STEP_FLIGHT, "weighed.mouth", "  its mouth", NULL, NULL},
    {STEP_FLIGHT, "weighed.lines", "  its lines", NULL, NULL},
    {STEP_FLIGHT, "heat.burner_efficiency", "Heat that stays in", NULL, NULL},
    {STEP_FLIGHT, "heat.loss_factor", "Loss as you found it", NULL, NULL},
    {STEP_FLIGHT, "heat.wind", "Wind past it aloft", NULL, NULL},
    {STEP_FLIGHT, "wind.drag", "Drag coefficient", NULL, NULL},
    {STEP_FLIGHT, "pace.piece", "Time for a piece", NULL, NULL},
    {STEP_FLIGHT, "pace.straight", "Straight seam", NULL, NULL},
    {STEP_FLIGHT, "pace.curved", "Curved seam", NULL, NULL},
    {STEP_FLIGHT, "pace.tape", "Tape sewn on", NULL, NULL},
    {STEP_FLIGHT, "pace.finish", "Time to finish", NULL, NULL},

    {STEP_PAPER, "paper.sheet", "Sheet or roll", NULL, NULL},
    {STEP_PAPER, "paper.margin", "White border", NULL, NULL},
    {STEP_PAPER, "paper.overlap", "Overlap for glue", NULL, NULL},
    {STEP_PAPER, "paper.measured_across", "Cross read across", NULL,
     "What the cross on page 1 measures across on your print; 0: not measured yet."},
    {STEP_PAPER, "paper.measured_up", "Cross read up", NULL,
     "What the cross on page 1 measures up the page on your print; 0: not measured yet."},
    {STEP_PAPER, "paper.rounding", "Sheets rounded to", in_mm, NULL},
    {STEP_PAPER, "paper.inch_fraction", "Sheets rounded to", in_inches, NULL},
};

const struct step_choice *step_choices(size_t *count) {
    *count = COUNT_OF(table);
    return table;
}

bool choice_asked(const struct step_choice *choice, const struct design *design) {
    return choice->asked == NULL || choice->asked(design);
}

const char *choice_help(const struct step_choice *choice) {
    size_t count;
    return choice->help != NULL ? choice->help
                                : parameters(&count)[parameter_find(choice->key)].help;
}

size_t choices_of(enum step step, const struct design *design, size_t choice[CHOICES_MOST]) {
    size_t count = 0;
    for (size_t i = 0; i < COUNT_OF(table) && count < CHOICES_MOST; i++)
        if (table[i].step == step && choice_asked(&table[i], design))
            choice[count++] = i;
    return count;
}

/* ---- words that can be chosen ----------------------------------------------- */

static const struct {
    const char *key;
    const char *meaning[8]; /* in the order of its words */
} meanings[] = {
    {"size.by",
     {"The size is sought until the sewn envelope holds the volume below.",
      "The size is sought until it stands as high as below.",
      "The size is sought until the tapes are as far apart as below.",
      "The size is sought until a gore is as long as below.",
      "The size is sought until it takes as much cloth as below.",
      "The stations of the outline are taken as they are measured.",
      "As large as it must be to carry what stands under Flight, with the air stated there."}},
    {"outline.kind",
     {"The tapes carry everything, the cloth across them nothing: the usual shape.",
      "A ball above, a straight cone below: simple to draw.",
      "Your own stations: to rebuild an envelope from its measures."}},
    {"outline.weight_from",
     {"As if the cloth weighed nothing.", "From the ratio below.",
      "From the mass of the cloth and the lift below: the honest choice."}},
    {"outline.join",
     {"A smooth curve through all of them.", "Straight lines from one to the next."}},
    {"gores.style",
     {"Every edge straight: simplest to sew.", "Two straight-edged halves: stands out.",
      "Curved row edges: the hardest to sew."}},
    {"rows.spacing",
     {"All rows alike in length.", "As the shares below say.",
      "Short rows where the outline bends, long ones where not."}},
    {"seams.tape",
     {"Edges laid together and sewn once.", "One edge over the other, sewn flat.",
      "Each edge folded into the other: strongest and flat."}},
    {"seams.row",
     {"Edges laid together and sewn once.", "One edge over the other, sewn flat.",
      "Each edge folded into the other: strongest and flat."}},
    {"seams.ridge",
     {"Edges laid together and sewn once.", "One edge over the other, sewn flat.",
      "Each edge folded into the other: strongest and flat."}},
    {"colours.fill",
     {"All of the first colour.", "Each gore of one colour, in turn around.",
      "Each row of one colour, in turn from the mouth up.",
      "Stripes that wind up around: each row one gore further.",
      "Squares: neighbours differ, across and up.",
      "From the first colour at the mouth to the last at the crown.",
      "Each panel as you write it below."}},
    {"colours.mirror",
     {"The pattern goes on all the way around.",
      "The second half around is the mirror image of the first."}},
    {"cloth.warp",
     {"Across the gore: the roll's width limits the height of a row.",
      "Up the gore: the roll's width limits the width of a panel."}},
    {"cutting.lay",
     {"Any piece may be turned end for end: takes the least cloth.",
      "All crowns the same way: for cloth with a shine or a print."}},
};

const char *word_meaning(const char *key, int word) {
    for (size_t i = 0; i < COUNT_OF(meanings); i++)
        if (strcmp(meanings[i].key, key) == 0 && word >= 0 &&
            (size_t)word < COUNT_OF(meanings[i].meaning))
            return meanings[i].meaning[word];
    return NULL;
}

/* ---- values that are stepped ------------------------------------------------ */

static const char sheet_key[] = "paper.sheet";

/* Paper that is usual at home and in a print shop; any other can be typed. */
static const char *const sheets[] = {
    "A4",     "A3",     "A2",     "A1",         "A0",         "Letter",    "Legal",    "Tabloid",
    "ANSI C", "ANSI D", "ANSI E", "roll 610mm", "roll 914mm", "roll 24in", "roll 36in"};

bool choice_is_stepped(const char *key) {
    size_t count;
    enum parameter_type type = parameters(&count)[parameter_find(key)].type;
    return type == PARAMETER_WHOLE || type == PARAMETER_REAL || type == PARAMETER_CHOICE ||
           strcmp(key, sheet_key) == 0;
}

static void step_sheet(char sheet[TEXT_MOST], int direction) {
    size_t at = 0, count = COUNT_OF(sheets);
    while (at < count && !same_in_any_case(sheets[at], sheet))
        at++;
    if (at == count)
        at = direction > 0 ? count - 1 : 0; /* one of the builder's own: from the beginning */
    at = (at + (direction > 0 ? 1 : count - 1)) % count;
    memset(sheet, 0, TEXT_MOST);
    strcpy(sheet, sheets[at]);
}

/* Where the cross read from the print stands in a design, or NULL for another key. */
static double *cross_read(struct design *design, const char *key) {
    if (strcmp(key, "paper.measured_across") == 0)
        return &design->paper.measured_across_m;
    return strcmp(key, "paper.measured_up") == 0 ? &design->paper.measured_up_m : NULL;
}

/* By what a rule shows; from "not measured" to the length that the cross should have. */
static void step_cross(struct design *design, double *read_m, int direction) {
    bool up = read_m == &design->paper.measured_up_m;
    double step_m = design->paper.units == UNITS_INCH ? METRES_PER_INCH / 64 : 0.0005;
    struct paper_cross cross;
    if (*read_m > 0)
        *read_m = fmax(round(*read_m / step_m + direction) * step_m, 0);
    else if (direction > 0 && paper_cross(design, &cross) == 0)
        *read_m = up ? cross.up_m : cross.across_m;
}

void choice_step(struct design *design, size_t parameter, int direction) {
    size_t count;
    const char *key = parameters(&count)[parameter].key;
    double *read_m = cross_read(design, key);
    if (strcmp(key, sheet_key) == 0)
        step_sheet(design->paper.sheet, direction);
    else if (read_m != NULL)
        step_cross(design, read_m, direction);
    else
        parameter_step(design, parameter, direction);
}

/* ---- finding ---------------------------------------------------------------- */

/* Whether `text` holds the `count` letters of `word`, in any case. */
static bool holds(const char *text, const char *word, size_t count) {
    for (; *text != '\0'; text++) {
        size_t i = 0;
        while (i < count && tolower((unsigned char)text[i]) == tolower((unsigned char)word[i]))
            i++;
        if (i == count)
            return true;
    }
    return count == 0;
}

static bool holds_all(const char *text, const char *letters) {
    while (*letters != '\0') {
        size_t count = strcspn(letters, " ");
        if (!holds(text, letters, count))
            return false;
        letters += count;
        letters += strspn(letters, " ");
    }
    return true;
}

static int rank(const struct step_choice *choice, const char *letters) {
    if (holds_all(choice->label, letters))
        return 0;
    if (holds_all(choice->key, letters))
        return 1;
    return holds_all(choice_help(choice), letters) ? 2 : 3;
}

size_t choices_found(const char *letters, size_t *found, size_t most) {
    size_t count = 0;
    for (int wanted = 0; wanted < 3; wanted++)
        for (size_t i = 0; i < COUNT_OF(table) && count < most; i++)
            if (rank(&table[i], letters) == wanted)
                found[count++] = i;
    return count;
}
