/* quantities.c - SI inside, the builder's units on the page. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/quantities.h"

/* The BTU is that of the International Table. */
#define POUND_N (POUND_kg * GRAVITY_m_s2)
#define BTU_J 1055.05585262

struct unit {
    const char *name;
    double size;  /* in SI units */
    double above; /* SI value at which it reads 0 */
    double step;  /* shown in whole steps; 0: in three figures */
};

static const struct unit units[QUANTITY_COUNT][2] = {
    [MASS] = {{"g", 1e-3, 0, 1}, {"lb", POUND_kg, 0, 0.01}},
    [WHOLE_MASS] = {{"kg", 1, 0, 0}, {"lb", POUND_kg, 0, 0}},
    [TEMPERATURE] = {{"C", 1, ZERO_C_K, 1}, {"F", 5.0 / 9, ZERO_C_K - 32 * 5.0 / 9, 1}},
    [WARMTH] = {{"C", 1, 0, 1}, {"F", 5.0 / 9, 0, 1}},
    [HEIGHT] = {{"m", 1, 0, 0}, {"ft", FOOT_m, 0, 0}},
    [AREA] = {{"m2", 1, 0, 0}, {"ft2", FOOT_m *FOOT_m, 0, 0}},
    [VOLUME] = {{"m3", 1, 0, 0}, {"ft3", FOOT_m *FOOT_m *FOOT_m, 0, 0}},
    [AIR_DENSITY] = {{"kg/m3", 1, 0, 0}, {"lb/ft3", POUND_kg / (FOOT_m * FOOT_m * FOOT_m), 0, 0}},
    [LIGHT_PRESSURE] = {{"Pa", 1, 0, 0}, {"lb/ft2", POUND_N / (FOOT_m * FOOT_m), 0, 0}},
    [GAS_PRESSURE] = {{"kPa", 1e3, 0, 0},
                      {"psi", POUND_N / (METRES_PER_INCH * METRES_PER_INCH), 0, 0}},
    [FORCE] = {{"N", 1, 0, 0}, {"lbf", POUND_N, 0, 0}},
    [RUNNING_FORCE] = {{"N/m", 1, 0, 0}, {"lbf/in", POUND_N / METRES_PER_INCH, 0, 0}},
    [SPEED] = {{"m/s", 1, 0, 0}, {"mph", 0.44704, 0, 0}},
    [POWER] = {{"kW", 1e3, 0, 0}, {"BTU/h", BTU_J / 3600, 0, 0}},
    [FLUX] = {{"W/m2", 1, 0, 0}, {"BTU/h ft2", BTU_J / 3600 / (FOOT_m * FOOT_m), 0, 0}},
    [ENERGY] = {{"MJ", 1e6, 0, 0}, {"BTU", BTU_J, 0, 0}},
    [FUEL_RATE] = {{"kg/h", 1, 0, 0}, {"lb/h", POUND_kg, 0, 0}},
};

static const struct unit *unit_of(const struct design *design, enum quantity quantity) {
    return &units[quantity][design->paper.units == UNITS_INCH];
}

/* Decimals that leave `figures` of them, none of them before the point. */
static char *in_figures(double value, int figures, char into[SHOWN_MOST]) {
    if (!isfinite(value) || fabs(value) >= 1e15) {
        snprintf(into, SHOWN_MOST, "-");
        return into;
    }
    int decimals = figures - 1;
    double size = fabs(value);
    for (; decimals > 0 && size >= 10 - 5 * pow(10, -figures); decimals--)
        size /= 10;
    if (value != 0)
        for (; decimals < 6 && size < 1 - 5 * pow(10, -figures - 1); decimals++)
            size *= 10;
    if (fabs(value) < 0.5e-6) {
        value = 0;
        decimals = 0;
    }
    snprintf(into, SHOWN_MOST, "%.*f", decimals, value);
    return into;
}

char *three_figures(double value, char into[SHOWN_MOST]) {
    return in_figures(value, 3, into);
}

char *two_figures(double value, char into[SHOWN_MOST]) {
    double step = 1;
    while (fabs(value) >= 99.5 * step && step < 1e15)
        step *= 10;
    return in_figures(step > 1 ? round(value / step) * step : value, 2, into);
}

double in_page_units(const struct design *design, enum quantity quantity, double value) {
    const struct unit *unit = unit_of(design, quantity);
    return (value - unit->above) / unit->size;
}

const char *page_unit(const struct design *design, enum quantity quantity) {
    return unit_of(design, quantity)->name;
}

/* In whole steps, and what rounds to nothing without a sign. */
static char *in_steps(double value, double step, char into[SHOWN_MOST]) {
    double steps = round(value / step);
    if (!isfinite(steps) || fabs(steps) >= 1e15)
        snprintf(into, SHOWN_MOST, "-");
    else
        snprintf(into, SHOWN_MOST, "%.*f", step < 1 ? 2 : 0, steps == 0 ? 0.0 : steps * step);
    return into;
}

char *show(const struct design *design, enum quantity quantity, double value,
           char into[SHOWN_MOST]) {
    double shown = in_page_units(design, quantity, value), step = unit_of(design, quantity)->step;
    return step > 0 ? in_steps(shown, step, into) : three_figures(shown, into);
}

char *show_with_unit(const struct design *design, enum quantity quantity, double value,
                     char into[SHOWN_MOST]) {
    char number[SHOWN_MOST];
    snprintf(into, SHOWN_MOST, "%.20s %s", show(design, quantity, value, number),
             page_unit(design, quantity));
    return into;
}

/* An end of a spread is an estimate: two figures, but degrees and grams whole. */
static char *show_end(const struct design *design, enum quantity quantity, double value,
                      char into[SHOWN_MOST]) {
    double shown = in_page_units(design, quantity, value), step = unit_of(design, quantity)->step;
    return step > 0 ? in_steps(shown, step, into) : two_figures(shown, into);
}

char *show_range(const struct design *design, enum quantity quantity, struct spread spread,
                 char into[SPREAD_MOST]) {
    char low[SHOWN_MOST], high[SHOWN_MOST];
    show_end(design, quantity, spread.low, low);
    show_end(design, quantity, spread.high, high);
    if (!isfinite(spread.low))
        snprintf(into, SPREAD_MOST, "-");
    else if (!isfinite(spread.high))
        snprintf(into, SPREAD_MOST, "at least %.18s", low);
    else if (strcmp(low, high) == 0)
        snprintf(into, SPREAD_MOST, "%.18s", low);
    else
        snprintf(into, SPREAD_MOST, "%.18s to %.18s", low, high);
    return into;
}

char *show_spread(const struct design *design, enum quantity quantity, struct spread spread,
                  char into[SPREAD_MOST]) {
    char range[SPREAD_MOST];
    bool any = isfinite(spread.low);
    snprintf(into, SPREAD_MOST, "%.44s%s%s", show_range(design, quantity, spread, range),
             any ? " " : "", any ? page_unit(design, quantity) : "");
    return into;
}

/* Of a quantity that is shown in whole steps from nothing; nothing has no sign. */
static double in_whole_steps(const struct design *design, enum quantity quantity, double value) {
    const struct unit *unit = unit_of(design, quantity);
    return round(value / unit->size / unit->step) * unit->step * unit->size + 0.0;
}

double printed_mass_kg(const struct design *design, double mass_kg) {
    return in_whole_steps(design, MASS, mass_kg);
}

double printed_warmth_K(const struct design *design, double difference_K) {
    return in_whole_steps(design, WARMTH, difference_K);
}

/* ---- figures that add up --------------------------------------------------- */

struct settling {
    double step;
    size_t count;
    const double *value;
    const bool *kept; /* may be NULL */
    double *printed;
};

/* How far printing moved a figure down (way 1) or up (-1). */
static double moved(const struct settling *s, size_t i, int way) {
    return way * (s->value[i] - s->printed[i]);
}

/* One that is not kept and a further step leaves within a step of its true value comes before
 * any other; of each kind the one that was moved furthest. */
static size_t next_to_move(const struct settling *s, int way) {
    size_t found = 0;
    int found_rank = -1;
    for (size_t i = 0; i < s->count; i++) {
        bool within = moved(s, i, way) > 1e-9 * s->step;
        int rank = (s->kept == NULL || !s->kept[i]) && within;
        if (rank > found_rank || (rank == found_rank && moved(s, i, way) > moved(s, found, way))) {
            found = i;
            found_rank = rank;
        }
    }
    return found;
}

double settle_figures(double step, size_t count, const double value[], const bool kept[],
                      double printed[]) {
    const struct settling s = {step, count, value, kept, printed};
    double sum = 0, shown = 0;
    if (count == 0)
        return 0;
    for (size_t i = 0; i < count; i++) {
        printed[i] = round(value[i] / step) * step;
        sum += value[i];
        shown += printed[i];
    }
    sum = round(sum / step) * step;
    long steps = lround((sum - shown) / step);
    for (int way = steps < 0 ? -1 : 1; steps != 0; steps -= way)
        printed[next_to_move(&s, way)] += way * step;
    return sum;
}

/* Returns: the printed total of one side, its printed items made to add up to it. */
static double settle_side(const struct design *design, struct masses *masses, bool carried) {
    const struct unit *unit = unit_of(design, MASS);
    double value[MASS_ITEMS_MOST] = {0}, printed[MASS_ITEMS_MOST];
    bool kept[MASS_ITEMS_MOST] = {0};
    size_t at[MASS_ITEMS_MOST], count = 0;
    for (size_t i = 0; i < masses->count; i++)
        if (masses->item[i].carried == carried) {
            value[count] = masses->item[i].kg;
            kept[count] = carried || masses->item[i].weighed;
            at[count++] = i;
        }
    double all_kg = settle_figures(unit->step * unit->size, count, value, kept, printed);
    for (size_t i = 0; i < count; i++)
        masses->item[at[i]].kg = printed[i];
    return all_kg;
}

struct masses printed_masses(const struct design *design, const struct masses *masses) {
    struct masses printed = *masses;
    printed.envelope_kg = settle_side(design, &printed, false);
    printed.rig_kg = settle_side(design, &printed, true);
    printed.all_kg = printed.envelope_kg + printed.rig_kg;
    return printed;
}
