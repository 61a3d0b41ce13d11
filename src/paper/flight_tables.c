/* flight_tables.c - lift and load as tables. */
#include <math.h>
#include <stdio.h>

#include "paper/flight_page.h"
#include "paper/plain.h"

enum { LIFT_COLUMNS = 6, FIRST_COLUMN = 17, COLUMN = 10 };

/* The air of a day `steps` times 10 C, or 20 F, warmer at the field. */
static struct air warmer_air(const struct flight *flight, int steps, double *ground_K) {
    struct design day = *flight->design;
    day.air.ground_C += steps * (day.paper.units == UNITS_INCH ? 20 / 1.8 : 10.0);
    *ground_K = day.air.ground_C + ZERO_C_K;
    return air_of_day(&day, 0);
}

/* Inside temperatures of the columns, 10 C or 20 F apart: round the one meant, or the hottest
 * that the cloth stands when that is lower. */
static double column_inside_K(const struct flight *flight, int column) {
    double step_K = flight->design->paper.units == UNITS_INCH ? 20 / 1.8 : 10;
    double middle_K = fmin(flight->lift.inside_K, flight->design->cloth.hottest_C + ZERO_C_K);
    return middle_K + (column - 3) * step_K;
}

/* By the degrees that are printed. */
static bool is_too_hot(const struct flight *flight, double inside_K) {
    double hottest_K = flight->design->cloth.hottest_C + ZERO_C_K;
    return printed_warmth_K(flight->design, hottest_K - inside_K) < 0;
}

typedef double column_figure(const struct flight *flight, int column);
typedef void cell_writer(const struct flight *flight, struct air outside, double figure,
                         struct text *into);

/* A line for each of five days, a cell for the figure of each column. */
static void write_days(const struct flight *flight, cell_writer *write_cell,
                       column_figure *figure_of, struct text *into) {
    char number[SHOWN_MOST];
    for (int row = -2; row <= 2; row++) {
        double ground_K;
        struct air air = warmer_air(flight, row, &ground_K);
        text_add(into, "  %-*s", FIRST_COLUMN - 2,
                 show_with_unit(flight->design, TEMPERATURE, ground_K, number));
        for (int i = 0; i < LIFT_COLUMNS; i++)
            write_cell(flight, air, figure_of(flight, i), into);
        text_add(into, "\n");
    }
}

static void write_lift_cell(const struct flight *flight, struct air outside, double inside_K,
                            struct text *into) {
    char number[SHOWN_MOST];
    double kg = lift_kg(outside, flight->envelope->built.volume_m3, inside_K);
    if (is_too_hot(flight, inside_K))
        snprintf(number, sizeof number, "too hot");
    else if (!(kg > 0))
        snprintf(number, sizeof number, "none");
    else
        show(flight->design, MASS, kg, number);
    text_add(into, "%*s", COLUMN, number);
}

static void write_lift_table(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    char number[SHOWN_MOST];
    text_add(into, "\n  Lifts in all, in %s, with this inside, in %s:\n  %-*s",
             page_unit(design, MASS), page_unit(design, TEMPERATURE), FIRST_COLUMN - 2, "outside");
    for (int i = 0; i < LIFT_COLUMNS; i++)
        text_add(into, "%*s", COLUMN,
                 show(design, TEMPERATURE, column_inside_K(flight, i), number));
    text_add(into, "\n");
    write_days(flight, write_lift_cell, column_inside_K, into);
}

/* ---- temperature needed ---------------------------------------------------------- */

/* What else might be hung below: the rig, more and less of it. */
static double column_rig_kg(const struct flight *flight, int column) {
    static const double share[LIFT_COLUMNS] = {0.5, 0.75, 1, 1.25, 1.5, 2};
    return share[column] * flight->masses.rig_kg;
}

static void write_needed_cell(const struct flight *flight, struct air outside, double rig_kg,
                              struct text *into) {
    char number[SHOWN_MOST];
    double mass_kg = flight->masses.envelope_kg + rig_kg;
    double needed_K = floating_temperature_K(outside, flight->envelope->built.volume_m3, mass_kg);
    if (!isfinite(needed_K))
        snprintf(number, sizeof number, "never");
    else if (is_too_hot(flight, needed_K))
        snprintf(number, sizeof number, "too hot");
    else
        show(flight->design, TEMPERATURE, needed_K, number);
    text_add(into, "%*s", COLUMN, number);
}

static void write_needed_table(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    char number[SHOWN_MOST];
    text_add(into, "\n  Must be this hot inside, in %s, to float with a rig of so many %s:\n  %-*s",
             page_unit(design, TEMPERATURE), page_unit(design, MASS), FIRST_COLUMN - 2, "outside");
    for (int i = 0; i < LIFT_COLUMNS; i++)
        text_add(into, "%*s", COLUMN, show(design, MASS, column_rig_kg(flight, i), number));
    text_add(into, "\n");
    write_days(flight, write_needed_cell, column_rig_kg, into);
}

void flight_lift_tables(const struct flight *flight, struct text *into) {
    write_lift_table(flight, into);
    if (flight->printed.rig_kg > 0)
        write_needed_table(flight, into);
}

/* ---- loads ------------------------------------------------------------------------ */

static void write_load_headings(const struct design *design, struct text *into) {
    static const char *const top[] = {"height",   "pressure", "whole",   "one tape",
                                      "strength", "cloth",    "strength"};
    static const char *const middle[] = {"",        "inside", "envelope", "alone",
                                         "of tape", "alone",  "of seam"};
    const char *const unit[] = {page_unit(design, HEIGHT),
                                page_unit(design, LIGHT_PRESSURE),
                                page_unit(design, FORCE),
                                page_unit(design, FORCE),
                                "over it",
                                page_unit(design, RUNNING_FORCE),
                                "over it"};
    const char *const *const line[] = {top, middle, unit};
    for (size_t i = 0; i < COUNT_OF(line); i++) {
        text_add(into, "  %-14s", "");
        for (size_t j = 0; j < COUNT_OF(top); j++)
            text_add(into, "%9s", line[i][j]);
        text_add(into, "\n");
    }
}

/* A factor, marked where it is the least of its column. */
static char *show_factor(double factor, bool weakest, char into[SHOWN_MOST]) {
    char number[SHOWN_MOST];
    snprintf(into, SHOWN_MOST, "%s%.28s", weakest ? "->" : "", two_figures(factor, number));
    return into;
}

static void write_load_line(const struct flight *flight, size_t j, struct text *into) {
    const struct design *design = flight->design;
    const struct station_load *load = &flight->loads.station[j];
    char name[STATION_NAME_MOST], a[SHOWN_MOST], b[SHOWN_MOST], c[SHOWN_MOST], d[SHOWN_MOST];
    char e[SHOWN_MOST], f[SHOWN_MOST], g[SHOWN_MOST];
    text_add(into, "  %-14s%9s%9s%9s%9s%9s%9s%9s\n", station_name(flight->envelope, j, name),
             show(design, HEIGHT, flight->envelope->station[j].z_m, a),
             show(design, LIGHT_PRESSURE, load->pressure_Pa, b),
             show(design, FORCE, load->tension_N, c), show(design, FORCE, load->per_tape_N, d),
             show_factor(load->tape_factor, j == flight->loads.weakest_tape, e),
             show(design, RUNNING_FORCE, load->cloth_alone_N_m, f),
             show_factor(load->cloth_factor, j == flight->loads.weakest_cloth, g));
}

/* "5", "5 (recalled, look it up; 2 under conditions)". */
static char *envelope_asked(const struct safety_code *code, char into[96]) {
    char eased[32] = "";
    if (code->envelope_eased > 0)
        snprintf(eased, sizeof eased, "%g under conditions", code->envelope_eased);
    bool recalled = code->envelope_recalled, any = recalled || eased[0] != '\0';
    snprintf(into, 96, "%g%s%s%s%s%s", code->envelope, any ? " (" : "",
             recalled ? "recalled, look it up" : "", recalled && eased[0] != '\0' ? "; " : "",
             eased, any ? ")" : "");
    return into;
}

static void write_codes(struct text *into) {
    size_t count;
    const struct safety_code *code = safety_codes(&count);
    text_add(into,
             "  The rules for manned balloons ask for factors of at least (guidance only):\n");
    for (size_t i = 0; i < count; i++) {
        char limit[64] = "", metal[32] = "", asked[96];
        if (code[i].metal_wires > 0)
            snprintf(metal, sizeof metal, " (metal %g)", code[i].metal_wires);
        if (code[i].limit_load > 0)
            snprintf(limit, sizeof limit, "; loads counted %g times (%s)", code[i].limit_load,
                     code[i].limit_clause);
        flight_line(into, code[i].name, "envelope %s, wires of fibre %g%s (%s)%s",
                    envelope_asked(&code[i], asked), code[i].wires, metal, code[i].clause, limit);
    }
}

static void write_weakest(const struct flight *flight, struct text *into) {
    const struct loads *loads = &flight->loads;
    size_t tape = loads->weakest_tape, cloth = loads->weakest_cloth;
    char tape_place[STATION_NAME_MOST], cloth_place[STATION_NAME_MOST];
    char tape_factor[SHOWN_MOST], cloth_factor[SHOWN_MOST];
    flight_line(into, "Weakest (->)",
                "tapes alone would be %s times as strong as their load (%s); cloth alone, at its "
                "seams, %s times (%s)",
                two_figures(loads->station[tape].tape_factor, tape_factor),
                station_name(flight->envelope, tape, tape_place),
                two_figures(loads->station[cloth].cloth_factor, cloth_factor),
                station_name(flight->envelope, cloth, cloth_place));
}

static void write_wires(const struct flight *flight, struct text *into) {
    const struct design *design = flight->design;
    const struct loads *loads = &flight->loads;
    char load[SHOWN_MOST], factor[SHOWN_MOST], length[SHOWN_MOST];
    flight_line(
        into, "Flying wires",
        "%zu of %s, %.0f deg from the vertical: %s on each, which is "
        "%s times as strong",
        flight->envelope->gores, show_with_unit(design, HEIGHT, loads->wire_length_m, length),
        loads->wire_angle_rad * 180 / PI, show_with_unit(design, FORCE, loads->wire_N, load),
        two_figures(loads->wire_factor, factor));
}

static void write_frame(const struct flight *flight, struct text *into) {
    char drop[SHOWN_MOST];
    flight_line(
        into, "Burner frame",
        "%s below the mouth: aim the flame up the middle, and see that its tip stays clear of "
        "mouth and wires, also when the envelope leans",
        show_with_unit(flight->design, HEIGHT, flight->design->rigging.drop_m, drop));
}

/* What the figures are not. */
static const char shared[] =
    "How tape and cloth share the load along the gore, and the tension across it, need the "
    "inflation on paper, which is not worked out here. Between them they carry this much; in "
    "places "
    "the cloth takes more than its mean, and a tape sewn on slack carries little. Strengths are "
    "those of new and cold material.";
static const char level_words[] =
    "The table keeps the slopes of the smooth outline; where that lies within 5 degrees of level "
    "the load is that of the station below.";
static const char around[] =
    "This outline is not a natural one: the cloth carries tension around the envelope as well. The "
    "load along it is what the balance of heights asks for.";

static bool any_level(const struct flight *flight) {
    for (size_t j = 0; j <= flight->envelope->rows; j++)
        if (flight->loads.station[j].level)
            return true;
    return false;
}

void flight_loads(const struct flight *flight, struct text *into) {
    char held[SHOWN_MOST], inside[SHOWN_MOST], words[280];
    if (flight->loads.held_N <= 0) {
        snprintf(words, sizeof words, "None: with %s inside it does not lift its own cloth.",
                 show_with_unit(flight->design, TEMPERATURE, flight->lift.inside_K, inside));
        flight_note(words, into);
        write_frame(flight, into);
        write_codes(into);
        return;
    }
    snprintf(words, sizeof words,
             "With %s inside and all the lift beyond the envelope's own weight, %s, held down at "
             "the mouth, in still air; in wind the pull of section 5 comes on top, and few wires "
             "take most of it.",
             show_with_unit(flight->design, TEMPERATURE, flight->lift.inside_K, inside),
             show_with_unit(flight->design, FORCE, flight->loads.held_N, held));
    flight_note(words, into);
    write_load_headings(flight->design, into);
    for (size_t j = flight->envelope->rows + 1; j-- > 0;)
        write_load_line(flight, j, into);
    write_weakest(flight, into);
    write_wires(flight, into);
    write_frame(flight, into);
    write_codes(into);
    flight_note(shared, into);
    if (!flight->loads.natural)
        flight_note(around, into);
    if (!flight->loads.natural && any_level(flight))
        flight_note(level_words, into);
}
