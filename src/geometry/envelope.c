/* envelope.c - the whole envelope, and what it comes to. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "geometry/build.h"
#include "geometry/pieces.h"
#include "geometry/sizing.h"

/* ---- what it comes to -------------------------------------------------- */

/* Each seam is counted once: a piece brings its top and right edges, the lowest row
 * its mouth hem as well; tapes are counted by the gore. */
static void add_piece(const struct piece *piece, struct built *built) {
    double count = (double)piece->count, top_m = count * piece->length_m[EDGE_TOP];
    built->pieces += piece->count;
    built->sewn_area_m2 += count * piece->sewn_area_m2;
    built->cut_area_m2 += count * piece->cut_area_m2;
    built->twist = fmax(built->twist, piece->twist);
    if (piece->join[EDGE_BOTTOM] == HEM_MOUTH)
        built->mouth_hem_m += count * piece->length_m[EDGE_BOTTOM];
    if (piece->join[EDGE_TOP] == HEM_CROWN)
        built->crown_hem_m += top_m;
    else
        built->row_seam_m += top_m;
    if (piece->join[EDGE_TOP] == JOIN_ROW && piece->curved[EDGE_TOP])
        built->curved_seam_m += top_m;
    if (piece->join[EDGE_RIGHT] == JOIN_RIDGE)
        built->ridge_seam_m += count * piece->length_m[EDGE_RIGHT];
}

static double cloth_mass_kg(const struct design *design, const struct envelope *envelope) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths = design_cloths(design, cloth);
    double sum_kg = 0;
    if (cloths == 1)
        return envelope->built.cut_area_m2 * cloth[0].mass_kg_m2;
    for (size_t i = 0; i < cloths; i++)
        sum_kg += cloth_cut(design, envelope, i).area_m2 * cloth[i].mass_kg_m2;
    return sum_kg;
}

static void sum_up(const struct design *design, const struct skeleton *skeleton,
                   const struct measure *measure, struct envelope *envelope) {
    struct built *built = &envelope->built;
    built->gore_length_m = measure->gore_length_m;
    built->smooth_length_m = envelope->outline->length * envelope->outline->unit_m;
    built->max_diameter_m = measure->diameter_m;
    built->mid_diameter_m = skeleton_mid_diameter_m(skeleton);
    built->height_m = measure->height_m;
    built->mouth_diameter_m = 2 * skeleton->station[0].r_m;
    built->crown_diameter_m = 2 * skeleton->station[skeleton->rows].r_m;
    built->volume_m3 = measure->volume_m3;
    built->tape_seam_m = measure->gore_length_m * (double)skeleton->gores;
    built->weight_ratio = envelope->outline->weight_ratio;
    for (size_t j = 0; j < skeleton->rows; j++)
        built->departure_m = fmax(built->departure_m, skeleton->station[j].departure_m);
    for (size_t i = 0; i < envelope->templates; i++)
        add_piece(&envelope->piece[i], built);
    built->cloth_mass_kg = cloth_mass_kg(design, envelope);
}

/* ---- does it make sense ------------------------------------------------ */

struct opening {
    const char *code, *key, *name;
};

/* One opening against the widest station between mouth and crown. */
static void check_opening(const struct design *design, const struct opening *opening,
                          double radius_m, double widest_m, struct diagnostics *messages) {
    bool table = design->outline.kind == OUTLINE_TABLE;
    if (radius_m < widest_m)
        return;
    diagnose(messages, SEVERITY_ERROR, opening->code, table ? "outline.table" : opening->key,
             "the %s, %.4g m, must be narrower than the body, %.4g m at its widest row seam: make "
             "the %s smaller, %s, or take more rows (rows.count)",
             opening->name, 2 * radius_m, 2 * widest_m, opening->name,
             table ? "give the stations between them larger radii" : "or the envelope larger");
}

static void check_openings(const struct design *design, const struct skeleton *skeleton,
                           struct diagnostics *messages) {
    static const struct opening mouth = {"mouth-too-wide", "outline.mouth_diameter", "mouth"};
    static const struct opening crown = {"crown-too-wide", "outline.crown_diameter",
                                         "crown opening"};
    double widest_m = 0;
    if (skeleton->rows == 1)
        return; /* no station between; the outline itself was checked already */
    for (size_t j = 1; j < skeleton->rows; j++)
        widest_m = fmax(widest_m, skeleton->station[j].r_m);
    check_opening(design, &mouth, skeleton->station[0].r_m, widest_m, messages);
    check_opening(design, &crown, skeleton->station[skeleton->rows].r_m, widest_m, messages);
}

/* ---- building ---------------------------------------------------------- */

static void keep_skeleton(const struct design *design, const struct skeleton *skeleton,
                          struct envelope *envelope) {
    envelope->gores = skeleton->gores;
    envelope->rows = skeleton->rows;
    memcpy(envelope->station, skeleton->station, sizeof envelope->station);
    memcpy(envelope->style_count, skeleton->style_count, sizeof envelope->style_count);
    for (size_t i = 0; i < skeleton->gores; i++)
        envelope->gore_style[i] = (int)gore_style_of(design, i);
}

struct envelope *build_rows(const struct design *design, size_t rows,
                            struct diagnostics *messages) {
    struct skeleton skeleton = {0};
    struct measure measure;
    size_t errors = messages->errors;
    struct envelope *envelope = calloc(1, sizeof *envelope);
    if (envelope == NULL || (envelope->outline = calloc(1, sizeof *envelope->outline)) == NULL)
        goto no_memory;
    if (!size_envelope(design, rows, envelope->outline, &skeleton, &measure, messages))
        goto fail;
    stations_depart(envelope->outline, &skeleton);
    check_openings(design, &skeleton, messages);
    if (messages->errors > errors)
        goto fail;
    keep_skeleton(design, &skeleton, envelope);
    if (!make_pieces(design, &skeleton, envelope))
        goto no_memory;
    sum_up(design, &skeleton, &measure, envelope);
    return envelope;
no_memory:
    diagnose(messages, SEVERITY_ERROR, "memory", "", "out of memory");
fail:
    envelope_free(envelope);
    return NULL;
}

static void warn_of_bulge(const struct envelope *envelope, struct diagnostics *messages) {
    double deepest = 0;
    for (size_t j = 0; j <= envelope->rows; j++)
        deepest = fmax(deepest, envelope->station[j].bulge);
    if (envelope->style_count[FACETED] < envelope->gores && deepest <= 0)
        diagnose(messages, SEVERITY_WARNING, "no-bulge", "bulge.depth",
                 "no station has any bulge, so half-gore and billowed gores come out flat like "
                 "faceted ones: raise bulge.depth, or use more rows or fewer bulge.ease_rows");
}

static void warn_of_rows(const struct design *design, const struct envelope *envelope,
                         struct diagnostics *messages) {
    double least_m = envelope->built.departure_m, most_m = envelope->built.departure_m;
    for (size_t j = 0; j < envelope->rows; j++)
        least_m = fmin(least_m, envelope->station[j].departure_m);
    if (design->rows.spacing == ROWS_EVEN_DEPARTURE && least_m < 0.99 * most_m)
        diagnose(messages, SEVERITY_WARNING, "uneven-rows", "rows.spacing",
                 "no division of this outline departs evenly in every row (it is wavy, or partly "
                 "straight), so rows of equal length are taken: departures run from %.4f to %.4f m",
                 least_m, most_m);
    if (most_m > 0.05 * envelope->built.height_m)
        diagnose(messages, SEVERITY_WARNING, "few-rows", "rows.count",
                 "the straight tape sides depart %.3f m from the smooth outline; more rows follow "
                 "it better: twice as many, about a quarter of the departure",
                 most_m);
}

/* Half and a fifth: common practice, no source. */
static void warn_of_sizes(const struct design *design, const struct envelope *envelope,
                          struct diagnostics *messages) {
    const struct built *built = &envelope->built;
    bool table = design->outline.kind == OUTLINE_TABLE;
    if (built->mouth_diameter_m > 0.5 * built->max_diameter_m)
        diagnose(messages, SEVERITY_WARNING, "wide-mouth",
                 table ? "outline.table" : "outline.mouth_diameter",
                 "the mouth, %.3f m, is more than half as wide as the body, %.3f m: hot air spills "
                 "from so wide a mouth; a fifth of the body is usual",
                 built->mouth_diameter_m, built->max_diameter_m);
    if (built->crown_diameter_m > 0.5 * built->max_diameter_m)
        diagnose(messages, SEVERITY_WARNING, "wide-crown",
                 table ? "outline.table" : "outline.crown_diameter",
                 "the crown opening, %.3f m, is more than half as wide as the body, %.3f m: little "
                 "crown is left to hold the air; a fifth of the body is usual",
                 built->crown_diameter_m, built->max_diameter_m);
    if (built->cut_area_m2 > 2 * built->sewn_area_m2)
        diagnose(messages, SEVERITY_WARNING, "wide-allowances", "seams.tape_width",
                 "the pieces with their allowances take %.2f m2 of cloth for %.2f m2 as sewn: look "
                 "at the widths of seams and hems, or take fewer gores and rows",
                 built->cut_area_m2, built->sewn_area_m2);
}

struct envelope *envelope_build(const struct design *design, struct diagnostics *messages) {
    if (design->outline.kind == OUTLINE_TABLE && !table_check(design, messages))
        return NULL;
    struct envelope *envelope = build_rows(design, (size_t)design->rows.count, messages);
    if (envelope == NULL)
        return NULL;
    if (!cloth_fits(design, envelope, messages)) {
        envelope_free(envelope);
        return NULL;
    }
    warn_of_bulge(envelope, messages);
    warn_of_rows(design, envelope, messages);
    warn_of_sizes(design, envelope, messages);
    return envelope;
}

void envelope_free(struct envelope *envelope) {
    if (envelope == NULL)
        return;
    for (size_t i = 0; i < envelope->templates; i++) {
        free(envelope->piece[i].sew.point);
        free(envelope->piece[i].cut.point);
    }
    free(envelope->piece);
    free(envelope->outline);
    free(envelope);
}

struct meridian_point envelope_outline_at(const struct envelope *envelope, double s_m) {
    return outline_at(envelope->outline, s_m);
}
