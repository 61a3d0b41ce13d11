/* loads.c - how hard the tapes, the cloth and the flying wires are pulled. */
#include "flight/loads.h"

#include <math.h>
#include <stdio.h>

#include "flight/rigging.h"
#include "gorewright/flight.h"

double balanced_tension_N(const struct cut *cut) {
    double upward_N = cut->pressure_Pa * cut->area_m2 + cut->lift_above_N - cut->weight_above_N;
    return upward_N / cos(cut->slope_rad);
}

static double frustum_m3(const struct station *bottom, const struct station *top) {
    double a = bottom->r_m, b = top->r_m;
    return PI / 3 * (top->z_m - bottom->z_m) * (a * a + a * b + b * b);
}

/* What the round body on the stations is to be multiplied by to hold what is sewn. */
static double sewn_over_round(const struct envelope *envelope) {
    double round_m3 = 0;
    for (size_t j = 0; j < envelope->rows; j++)
        round_m3 += frustum_m3(&envelope->station[j], &envelope->station[j + 1]);
    return round_m3 > 0 ? envelope->built.volume_m3 / round_m3 : 1;
}

/* The weight of the envelope by row, spread evenly over its cloth. */
static void spread_weight(const struct envelope *envelope, double weight_N,
                          double row_N[ROWS_MOST]) {
    double all_m2 = 0;
    for (size_t j = 0; j < envelope->rows; j++)
        row_N[j] = 0;
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        double area_m2 = piece->sewn_area_m2 * (double)piece->count;
        row_N[piece->row - 1] += area_m2;
        all_m2 += area_m2;
    }
    for (size_t j = 0; j < envelope->rows && all_m2 > 0; j++)
        row_N[j] *= weight_N / all_m2;
}

static void make_cuts(const struct envelope *envelope, double b_N_m3, const double row_N[],
                      struct cut cut[ROWS_MOST + 1]) {
    double sewn = sewn_over_round(envelope), lift_N = 0, weight_N = 0;
    for (size_t j = envelope->rows + 1; j-- > 0;) {
        const struct station *station = &envelope->station[j];
        if (j < envelope->rows) {
            lift_N += b_N_m3 * sewn * frustum_m3(station, station + 1);
            weight_N += row_N[j];
        }
        cut[j] = (struct cut){b_N_m3 * station->z_m, sewn * PI * station->r_m * station->r_m,
                              lift_N, weight_N, station->slope_rad};
    }
}

/* What the tension becomes at the next cut, `above`, where carried_N is that of the cut below it
 * and the weight between them.  Up to STEEP_rad the balance of heights says it outright, for every
 * outline as it is sewn.  Beyond, straight rows spoil the quotient.  A natural outline asks for no
 * tension around, so that its tension grows by the weight it lifts and by nothing else, at any
 * slope.  On others the cloth pulls around but never pushes, which makes the tension more while
 * the outline widens and less while it narrows: the balance counts within that, unless the
 * outline is too level for it. */
static double tension_above_N(double carried_N, const struct cut *below, const struct cut *above,
                              bool natural) {
    double slope_rad = above->slope_rad;
    if (fabs(slope_rad) > STEEP_rad && (natural || fabs(slope_rad) > LEVEL_rad))
        return carried_N;
    double balanced_N = fmax(0, balanced_tension_N(above));
    if (fabs(slope_rad) <= STEEP_rad || slope_rad * below->slope_rad < 0)
        return balanced_N;
    return slope_rad > 0 ? fmax(carried_N, balanced_N) : fmin(carried_N, balanced_N);
}

static double factor_of(double strength, double load) {
    return load > 0 ? strength / load : HUGE_VAL;
}

static struct station_load station_load(const struct design *sized, const struct envelope *envelope,
                                        const struct cut *cut, size_t j, double tension_N) {
    struct station_load load = {.pressure_Pa = cut->pressure_Pa, .tension_N = tension_N};
    load.per_tape_N = tension_N / (double)envelope->gores;
    load.cloth_alone_N_m = tension_N / (2 * PI * envelope->station[j].r_m);
    load.tape_factor = factor_of(sized->tape.strength_N, load.per_tape_N);
    load.cloth_factor =
        factor_of(sized->cloth.strength_N_m * sized->cloth.seam_efficiency, load.cloth_alone_N_m);
    load.level = fabs(cut->slope_rad) > LEVEL_rad;
    return load;
}

static void find_weakest(struct loads *loads, size_t stations) {
    for (size_t j = 1; j < stations; j++) {
        if (loads->station[j].tape_factor < loads->station[loads->weakest_tape].tape_factor)
            loads->weakest_tape = j;
        if (loads->station[j].cloth_factor < loads->station[loads->weakest_cloth].cloth_factor)
            loads->weakest_cloth = j;
    }
}

static void load_wires(const struct design *sized, const struct envelope *envelope,
                       struct loads *loads) {
    struct wire wire = wire_of(sized, envelope);
    loads->wire_length_m = wire.length_m;
    loads->wire_angle_rad = wire.angle_rad;
    loads->wire_N = loads->held_N / (double)envelope->gores / cos(wire.angle_rad);
    loads->wire_factor = factor_of(sized->rigging.wire_strength_N, loads->wire_N);
}

struct loads loads_of(const struct design *sized, const struct envelope *envelope,
                      const struct lift *lift) {
    struct loads loads = {0};
    struct cut cut[ROWS_MOST + 1] = {{0}};
    double row_N[ROWS_MOST];
    double b_N_m3 = fmax(0, lift->per_volume_N_m3);
    double weight_N = masses_of(sized, envelope).envelope_kg * GRAVITY_m_s2;
    loads.natural = sized->outline.kind == OUTLINE_NATURAL;
    loads.held_N = fmax(0, b_N_m3 * envelope->built.volume_m3 - weight_N);
    spread_weight(envelope, weight_N, row_N);
    make_cuts(envelope, b_N_m3, row_N, cut);
    double tension_N = loads.held_N / fmax(cos(envelope->station[0].slope_rad), cos(LEVEL_rad));
    for (size_t j = 0;; j++) {
        loads.station[j] = station_load(sized, envelope, &cut[j], j, tension_N);
        if (j == envelope->rows)
            break;
        if (loads.held_N <= 0)
            continue; /* it lies on the ground, or some of it does */
        const struct station *bottom = &envelope->station[j];
        double rise = (bottom[1].z_m - bottom->z_m) / bottom->side_m;
        double carried_N = fmax(0, tension_N + row_N[j] * rise);
        tension_N = tension_above_N(carried_N, &cut[j], &cut[j + 1], loads.natural);
    }
    find_weakest(&loads, envelope->rows + 1);
    load_wires(sized, envelope, &loads);
    return loads;
}

char *station_name(const struct envelope *envelope, size_t station, char into[STATION_NAME_MOST]) {
    if (station == 0)
        snprintf(into, STATION_NAME_MOST, "mouth");
    else
        snprintf(into, STATION_NAME_MOST,
                 station < envelope->rows ? "top of row %zu" : "crown, row %zu", station);
    return into;
}

/* Read in the published rules, but for what is marked as recalled. */
static const struct safety_code codes[] = {
    {.name = "14 CFR part 31",
     .clause = "31.25",
     .envelope = 5,
     .envelope_recalled = true,
     .envelope_eased = 2,
     .wires = 5,
     .limit_load = 1.4,
     .limit_clause = "31.23"},
    {.name = "EASA CS-31HB", .clause = "31HB.25", .envelope = 5, .wires = 2.25, .metal_wires = 1.5},
};

const struct safety_code *safety_codes(size_t *count) {
    *count = COUNT_OF(codes);
    return codes;
}

double code_factor(const struct safety_code *code, enum rated part) {
    return part == RATED_WIRES ? code->wires : code->envelope;
}

double greatest_code_factor(enum rated part) {
    double greatest = 0;
    for (size_t i = 0; i < COUNT_OF(codes); i++)
        greatest = fmax(greatest, code_factor(&codes[i], part));
    return greatest;
}
