/* tables.c - figures, stations and outlines, tab-separated for other programs. */
#include <math.h>
#include <stdio.h>

#include "gorewright/paper.h"

/* ---- figures ------------------------------------------------------------ */

static void real_figure(struct text *into, const char *key, double value, const char *unit) {
    char number[32];
    if (isfinite(value)) /* a figure that does not exist is left out, never written as "nan" */
        text_add(into, "%s\t%s\t%s\n", key, shortest_real(value + 0.0, number), unit);
}

static void count_figure(struct text *into, const char *key, size_t count) {
    text_add(into, "%s\t%zu\t1\n", key, count);
}

static void size_figures(const struct built *built, struct text *into) {
    const struct {
        const char *key;
        double value;
        const char *unit;
    } figure[] = {
        {"gore_length", built->gore_length_m, "m"},
        {"smooth_length", built->smooth_length_m, "m"},
        {"max_diameter", built->max_diameter_m, "m"},
        {"mid_diameter", built->mid_diameter_m, "m"},
        {"height", built->height_m, "m"},
        {"mouth_diameter", built->mouth_diameter_m, "m"},
        {"crown_diameter", built->crown_diameter_m, "m"},
        {"volume", built->volume_m3, "m3"},
        {"sewn_area", built->sewn_area_m2, "m2"},
        {"cut_area", built->cut_area_m2, "m2"},
        {"cloth_mass", built->cloth_mass_kg, "kg"},
        {"seam_length", built->tape_seam_m + built->row_seam_m + built->ridge_seam_m, "m"},
        {"tape_seam_length", built->tape_seam_m, "m"},
        {"row_seam_length", built->row_seam_m, "m"},
        {"ridge_seam_length", built->ridge_seam_m, "m"},
        {"curved_seam_length", built->curved_seam_m, "m"},
        {"mouth_hem_length", built->mouth_hem_m, "m"},
        {"crown_hem_length", built->crown_hem_m, "m"},
        {"departure", built->departure_m, "m"},
        {"twist", built->twist, "1"},
        {"weight_ratio", built->weight_ratio, "1"},
    };
    for (size_t i = 0; i < COUNT_OF(figure); i++)
        real_figure(into, figure[i].key, figure[i].value, figure[i].unit);
}

void write_figures(const struct envelope *envelope, struct text *into) {
    text_add(into, "key\tvalue\tunit\n");
    count_figure(into, "gores", envelope->gores);
    count_figure(into, "rows", envelope->rows);
    count_figure(into, "pieces", envelope->built.pieces);
    count_figure(into, "templates", envelope->templates);
    size_figures(&envelope->built, into);
}

static void colour_figures(const struct cloth_colour *cloth, struct cloth_cut cut,
                           struct text *into) {
    char key[32];
    snprintf(key, sizeof key, "pieces_%c", cloth->letter);
    count_figure(into, key, cut.pieces);
    snprintf(key, sizeof key, "cut_area_%c", cloth->letter);
    real_figure(into, key, cut.area_m2, "m2");
    snprintf(key, sizeof key, "cloth_mass_%c", cloth->letter);
    real_figure(into, key, cut.area_m2 * cloth->mass_kg_m2, "kg");
}

void write_colour_figures(const struct design *design, const struct envelope *envelope,
                          struct text *into) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths = design_cloths(design, cloth);
    for (size_t i = 0; cloths > 1 && i < cloths; i++)
        colour_figures(&cloth[i], cloth_cut(design, envelope, i), into);
}

static void spread_figure(struct text *into, const char *key, struct spread spread,
                          const char *unit) {
    char end[64];
    snprintf(end, sizeof end, "%s_low", key);
    real_figure(into, end, spread.low, unit);
    snprintf(end, sizeof end, "%s_high", key);
    real_figure(into, end, spread.high, unit);
}

static void lift_figures(const struct masses *masses, const struct lift *lift, struct text *into) {
    real_figure(into, "envelope_mass", masses->envelope_kg, "kg");
    real_figure(into, "rig_mass", masses->rig_kg, "kg");
    real_figure(into, "whole_mass", masses->all_kg, "kg");
    real_figure(into, "air_density", lift->outside.density_kg_m3, "kg/m3");
    real_figure(into, "lift_per_volume", lift->per_volume_N_m3, "N/m3");
    real_figure(into, "lift", lift->gross_kg, "kg");
    real_figure(into, "free_lift", lift->free_kg, "kg");
    real_figure(into, "needed_temperature", lift->needed_K - ZERO_C_K, "C");
    real_figure(into, "temperature_margin", lift->margin_K, "C");
    real_figure(into, "ceiling", lift->ceiling_m, "m");
}

static struct spread in_celsius(struct spread kelvin) {
    return (struct spread){kelvin.low - ZERO_C_K, kelvin.high - ZERO_C_K};
}

static void heat_figures(const struct heat *heat, struct text *into) {
    spread_figure(into, "cloth_temperature", in_celsius(heat->cloth_K), "C");
    spread_figure(into, "heat_loss", heat->flux_W_m2, "W/m2");
    spread_figure(into, "holding_power", heat->hold_W, "W");
    spread_figure(into, "fuel_rate", heat->fuel_kg_h, "kg/h");
    spread_figure(into, "flight_time", heat->minutes, "min");
    spread_figure(into, "heat_up_energy", heat->heat_up_J, "J");
    spread_figure(into, "heat_up_time", heat->heat_up_min, "min");
    real_figure(into, "propane_pressure", heat->vapour_pressure_Pa, "Pa");
}

/* The factors of a place without load do not exist, and are left out. */
static void load_figures(const struct loads *loads, struct text *into) {
    const struct station_load *tape = &loads->station[loads->weakest_tape];
    const struct station_load *cloth = &loads->station[loads->weakest_cloth];
    real_figure(into, "held_lift", loads->held_N, "N");
    count_figure(into, "weakest_tape_station", loads->weakest_tape);
    real_figure(into, "tape_load", tape->per_tape_N, "N");
    real_figure(into, "tape_factor", tape->tape_factor, "1");
    count_figure(into, "weakest_cloth_station", loads->weakest_cloth);
    real_figure(into, "cloth_load", cloth->cloth_alone_N_m, "N/m");
    real_figure(into, "cloth_factor", cloth->cloth_factor, "1");
    real_figure(into, "wire_length", loads->wire_length_m, "m");
    real_figure(into, "wire_load", loads->wire_N, "N");
    real_figure(into, "wire_factor", loads->wire_factor, "1");
}

void write_flight_figures(const struct design *sized, const struct envelope *envelope,
                          struct text *into) {
    struct masses masses = masses_of(sized, envelope);
    struct lift lift = lift_of(sized, envelope, &masses);
    struct heat heat = heat_of(sized, envelope, &lift);
    struct loads loads = loads_of(sized, envelope, &lift);
    struct tether tether = tether_of(sized, envelope, &lift, sized->wind.expected_m_s);
    lift_figures(&masses, &lift, into);
    heat_figures(&heat, into);
    load_figures(&loads, into);
    spread_figure(into, "drag", tether.drag_N, "N");
    spread_figure(into, "tether_pull", tether.line_N, "N");
    spread_figure(into, "holding_wind", wind_to_hold_m_s(sized, envelope, &lift), "m/s");
    real_figure(into, "build_time", build_hours(sized, envelope), "h");
}

/* ---- stations ----------------------------------------------------------- */

/* What rounds to nothing is written without a sign. */
static double unsigned_nothing(double value, double smallest_shown) {
    return fabs(value) < smallest_shown / 2 ? 0.0 : value;
}

static void mm_column(struct text *into, double length_m) {
    text_add(into, "\t%.6f", unsigned_nothing(length_m * 1e3, 1e-6));
}

static double section_at_station_m(const struct station *station, int style) {
    return section_length_m((enum style)style, station->chord_m, station->bulge);
}

static size_t styles_present(const struct envelope *envelope, int style[STYLE_COUNT]) {
    size_t count = 0;
    for (int s = 0; s < STYLE_COUNT; s++)
        if (envelope->style_count[s] > 0)
            style[count++] = s;
    return count;
}

static void station_line(const struct envelope *envelope, size_t j, const int style[],
                         size_t styles, struct text *into) {
    const struct station *station = &envelope->station[j];
    text_add(into, "%zu", j);
    mm_column(into, station->s_m);
    mm_column(into, station->r_m);
    mm_column(into, station->z_m);
    text_add(into, "\t%.9f", unsigned_nothing(station->slope_rad * 180 / PI, 1e-9));
    mm_column(into, station->chord_m);
    mm_column(into, section_at_station_m(station, envelope->gore_style[0]));
    for (size_t i = 0; styles > 1 && i < styles; i++)
        mm_column(into, section_at_station_m(station, style[i]));
    text_add(into, "\n");
}

void write_stations(const struct envelope *envelope, struct text *into) {
    int style[STYLE_COUNT];
    size_t styles = styles_present(envelope, style);
    text_add(into, "station\ts_mm\tr_mm\tz_mm\tslope_deg\tchord_mm\tsection_mm");
    for (size_t i = 0; styles > 1 && i < styles; i++)
        text_add(into, "\tsection_%s_mm", style_name((enum style)style[i]));
    text_add(into, "\n");
    for (size_t j = 0; j <= envelope->rows; j++)
        station_line(envelope, j, style, styles, into);
}

/* ---- outlines ----------------------------------------------------------- */

static void outline_lines(const struct piece *piece, const struct ring *ring, const char *line,
                          struct text *into) {
    for (size_t i = 0; i < ring->count; i++) {
        text_add(into, "%s\t%s\t%zu\t%s\t%zu\t%s\t%s\t%zu", piece->name, style_name(piece->style),
                 piece->row, side_name(piece->side), piece->count, line,
                 edge_name(ring_edge(ring, i)), i);
        mm_column(into, ring->point[i].x_m);
        mm_column(into, ring->point[i].y_m);
        text_add(into, "\n");
    }
}

void write_outlines(const struct envelope *envelope, struct text *into) {
    text_add(into, "piece\tstyle\trow\tside\tcount\tline\tedge\tpoint\tx_mm\ty_mm\n");
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        outline_lines(piece, &piece->sew, "sew", into);
        outline_lines(piece, &piece->cut, "cut", into);
    }
}
