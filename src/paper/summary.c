/* summary.c - one screen that says what the design gives. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gorewright/paper.h"
#include "paper/lengths.h"
#include "paper/plain.h"
#include "paper/quantities.h"

static bool in_inches(const struct design *design) {
    return design->paper.units == UNITS_INCH;
}

/* "612.5 mm", and from a metre up "2.667 m": such lengths are read, not marked by. */
static const char *length_of(const struct design *design, double length_m, char into[48]) {
    char length[32];
    if (!in_inches(design) && printed_length_m(design, length_m) > 0.9999999) {
        snprintf(into, 48, "%.3f m", length_m);
        return into;
    }
    snprintf(into, 48, "%s %s", format_length(design, length_m, length), length_unit(design));
    return into;
}

/* Metres of seam, or feet: too long for a rule. */
static const char *run_of(const struct design *design, double length_m, char into[48]) {
    bool feet = in_inches(design);
    snprintf(into, 48, "%.1f %s", feet ? length_m / FOOT_m : length_m, feet ? "ft" : "m");
    return into;
}

/* Styles stand side by side: the diameter at mid-gore is then the largest of them. */
static bool mixed_styles(const struct envelope *envelope) {
    size_t styles = 0;
    for (int s = 0; s < STYLE_COUNT; s++)
        styles += envelope->style_count[s] > 0;
    return styles > 1;
}

static void write_size(const struct design *design, const struct envelope *envelope,
                       struct text *into) {
    const struct built *built = &envelope->built;
    char a[48], b[48];
    text_add(into, "Volume as sewn  %.3f m3", built->volume_m3);
    if (in_inches(design))
        text_add(into, " (%.2f cubic feet)", built->volume_m3 / (FOOT_m * FOOT_m * FOOT_m));
    text_add(into, "\nHeight          %s from the mouth to the highest tape corner\n",
             length_of(design, built->height_m, a));
    text_add(into, "Diameter        %s at the tapes, %s%s at mid-gore\n",
             length_of(design, built->max_diameter_m, a), mixed_styles(envelope) ? "at most " : "",
             length_of(design, built->mid_diameter_m, b));
    text_add(into, "Gore length     %s as sewn, %s along the smooth outline\n",
             length_of(design, built->gore_length_m, a),
             length_of(design, built->smooth_length_m, b));
    if (in_inches(design))
        text_add(into, "                (%.1f ft high, %.1f ft across, %.1f ft along a gore)\n",
                 built->height_m / FOOT_m, built->max_diameter_m / FOOT_m,
                 built->gore_length_m / FOOT_m);
    text_add(into, "Openings        mouth %s, crown %s, from tape to tape\n",
             length_of(design, built->mouth_diameter_m, a),
             length_of(design, built->crown_diameter_m, b));
}

static void write_gores(const struct envelope *envelope, struct text *into) {
    text_add(into, "Gores           %zu", envelope->gores);
    for (int s = 0, before = 0; s < STYLE_COUNT; s++) {
        size_t count = envelope->style_count[s];
        if (count == envelope->gores)
            text_add(into, ", all %s", style_name((enum style)s));
        else if (count > 0)
            text_add(into, "%s%zu %s", before++ > 0 ? ", " : ": ", count,
                     style_name((enum style)s));
    }
    text_add(into, "\n");
}

static void write_rows(const struct design *design, const struct envelope *envelope,
                       struct text *into) {
    char least[48], most[48], departure[48];
    double shortest_m = envelope->station[0].side_m, longest_m = shortest_m;
    for (size_t j = 1; j < envelope->rows; j++) {
        double side_m = envelope->station[j].side_m;
        shortest_m = side_m < shortest_m ? side_m : shortest_m;
        longest_m = side_m > longest_m ? side_m : longest_m;
    }
    length_of(design, shortest_m, least);
    length_of(design, longest_m, most);
    text_add(into, "Rows            %zu, panel sides %s", envelope->rows, least);
    if (strcmp(least, most) != 0)
        text_add(into, " to %s", most);
    text_add(into, "\n                straight sides leave the smooth outline by %s at most\n",
             length_of(design, envelope->built.departure_m, departure));
    /* With the warp up the gore it is gores, not rows, that the cloth's width limits. */
    size_t fewest = design->cloth.warp == WARP_UP ? 0 : fewest_rows(design);
    if (fewest > 0)
        text_add(into, "                %zu row%s the fewest that fit this cloth\n", fewest,
                 fewest == 1 ? " is" : "s are");
}

static void write_work(const struct design *design, const struct envelope *envelope,
                       struct text *into) {
    const struct built *built = &envelope->built;
    const double seam_m[] = {built->tape_seam_m, built->row_seam_m, built->ridge_seam_m};
    double printed_m[COUNT_OF(seam_m)], tenth_m = in_inches(design) ? FOOT_m / 10 : 0.1;
    double all_m = settle_figures(tenth_m, COUNT_OF(seam_m), seam_m, NULL, printed_m);
    char all[48], tape[48], row[48], ridge[48];
    text_add(into, "Pieces          %zu to cut, from %zu templates\n", built->pieces,
             envelope->templates);
    text_add(into, "Seams           %s: tape %s, row %s, ridge %s\n", run_of(design, all_m, all),
             run_of(design, printed_m[0], tape), run_of(design, printed_m[1], row),
             run_of(design, printed_m[2], ridge));
    if (built->curved_seam_m > 0)
        text_add(into, "                %s of it curved",
                 run_of(design, built->curved_seam_m, all));
    else
        text_add(into, "                none of it curved");
    text_add(into, "; hems: mouth %s, crown %s\n", run_of(design, built->mouth_hem_m, all),
             run_of(design, built->crown_hem_m, tape));
}

static void write_cloth(const struct design *design, const struct built *built, struct text *into) {
    text_add(into, "Cloth           %.2f m2 as sewn, %.2f m2 cut; cut pieces weigh %.2f kg\n",
             built->sewn_area_m2, built->cut_area_m2, built->cloth_mass_kg);
    if (in_inches(design))
        text_add(into, "                (%.1f and %.1f square feet, %.2f lb)\n",
                 built->sewn_area_m2 / (FOOT_m * FOOT_m), built->cut_area_m2 / (FOOT_m * FOOT_m),
                 built->cloth_mass_kg / POUND_kg);
}

/* A line for each cloth where there are several: "  W white      64 pieces, 13.52 m2, 0.54 kg". */
static void write_colours(const struct design *design, const struct envelope *envelope,
                          struct text *into) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths = design_cloths(design, cloth);
    for (size_t i = 0; cloths > 1 && i < cloths; i++) {
        struct cloth_cut cut = cloth_cut(design, envelope, i);
        char name[TEXT_MOST], words[TEXT_MOST + 96];
        snprintf(words, sizeof words, "%c %s: %zu pieces, %.2f m2 cut, %.2f kg", cloth[i].letter,
                 plain_text(cloth[i].name, name), cut.pieces, cut.area_m2,
                 cut.area_m2 * cloth[i].mass_kg_m2);
        text_add(into, i == 0 ? "Colours         " : "                ");
        flow_text(into, words, 16, 16);
    }
}

/* The area alone, over what lies between the selvedges, rounded up. */
static void write_roll(const struct design *design, const struct built *built, struct text *into) {
    if (design->colours.cloths.count > 1)
        return;
    double usable_m = design->cloth.width_m - 2 * design->cloth.selvedge_m;
    double tenth_m = in_inches(design) ? FOOT_m / 10 : 0.1;
    double least_m = ceil(built->cut_area_m2 / usable_m / tenth_m) * tenth_m;
    char least[48], width[48], words[192];
    if (in_inches(design))
        length_of(design, design->cloth.width_m, width);
    else
        snprintf(width, sizeof width, "%g m", design->cloth.width_m);
    snprintf(words, sizeof words, "at least %s of a %s roll by area; laid out it takes more",
             run_of(design, least_m, least), width);
    text_add(into, "Cloth to buy    ");
    flow_text(into, words, 16, 16);
}

/* "Flight          lifts 3.35 kg at 100 C; 2.85 kg float at 84 C, 36 to spare on the mean". */
static void write_floating(const struct design *design, const struct envelope *envelope,
                           struct text *into) {
    struct masses masses = masses_of(design, envelope);
    struct lift lift = lift_of(design, envelope, &masses);
    double margin_K = printed_warmth_K(design, lift.margin_K);
    char gross[SHOWN_MOST], inside[SHOWN_MOST], all[SHOWN_MOST], at[SHOWN_MOST];
    char margin[SHOWN_MOST], floats[96] = "no heat", words[256];
    show_with_unit(design, WHOLE_MASS, lift.gross_kg, gross);
    show_with_unit(design, TEMPERATURE, lift.needed_K, at);
    show(design, WARMTH, margin_K, margin);
    if (lift.floats && margin_K < 0)
        snprintf(floats, sizeof floats, "%s, TOO HOT", at);
    else if (lift.floats)
        snprintf(floats, sizeof floats, "%s, %s to spare on the mean", at, margin);
    snprintf(words, sizeof words, "lifts %s at %s; %s float at %s",
             printed_mass_kg(design, lift.gross_kg) > 0 ? gross : "nothing",
             show_with_unit(design, TEMPERATURE, lift.inside_K, inside),
             show_with_unit(design, WHOLE_MASS, masses.all_kg, all), floats);
    text_add(into, "Flight          ");
    flow_text(into, words, 16, 16);
}

void write_summary(const struct design *design, const struct envelope *envelope,
                   struct text *into) {
    char name[TEXT_MOST];
    text_add(into, "%s\n\n", plain_text(design->name, name));
    write_size(design, envelope, into);
    write_gores(envelope, into);
    write_rows(design, envelope, into);
    write_work(design, envelope, into);
    write_cloth(design, &envelope->built, into);
    write_colours(design, envelope, into);
    write_roll(design, &envelope->built, into);
    write_floating(design, envelope, into);
    text_add(into,
             "\nEstimates, no proof of strength or fitness to fly: `flight` says how they came.\n"
             "Next: `sheets` to mark pieces by hand, `templates` to print them full size.\n");
}
