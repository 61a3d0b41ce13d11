/* figures.c - the few figures that decide. */
#include "screen/figures.h"

#include <stdio.h>
#include <string.h>

#include "screen/words.h"

/* What the figures are of. */
struct shown {
    const struct built *built;
    double mass_kg; /* of the whole envelope */
};

static int decimals(double value) {
    return value < 100 ? 2 : value < 1000 ? 1 : 0;
}

static void volume(const struct shown *shown, bool inches, char into[32]) {
    double value =
        inches ? shown->built->volume_m3 / (FOOT_m * FOOT_m * FOOT_m) : shown->built->volume_m3;
    snprintf(into, 32, "%.*f %s", decimals(value), value, inches ? "ft3" : "m3");
}

static void cloth(const struct shown *shown, bool inches, char into[32]) {
    double value =
        inches ? shown->built->cut_area_m2 / (FOOT_m * FOOT_m) : shown->built->cut_area_m2;
    snprintf(into, 32, "%.*f %s", decimals(value), value, inches ? "ft2" : "m2");
}

static void mass(const struct shown *shown, bool inches, char into[32]) {
    double value = inches ? shown->mass_kg / POUND_kg : shown->mass_kg;
    snprintf(into, 32, "%.*f %s", decimals(value) + (value < 10), value, inches ? "lb" : "kg");
}

static void pieces(const struct shown *shown, bool inches, char into[32]) {
    (void)inches;
    snprintf(into, 32, "%zu", shown->built->pieces);
}

static const struct {
    const char *label;
    void (*show)(const struct shown *shown, bool inches, char into[32]);
    long column; /* of 80 */
} table[] = {
    {"Volume", volume, 1}, {"Cloth", cloth, 20}, {"Mass", mass, 38}, {"Pieces", pieces, 54}};

static const char *state_of(const struct session *session, enum cell_kind *kind) {
    *kind = CELL_VALUE;
    if (session->reads_only)
        return "reads only";
    if (session->changed || session->path == NULL) {
        *kind = CELL_WARNING;
        return "not saved";
    }
    return "saved";
}

static void draw_figure(const struct walk *walk, struct canvas *canvas, long column, long row,
                        size_t i) {
    const struct session *session = walk->session;
    const struct shown now_shown = {&session->envelope->built, session->masses.envelope_kg};
    const struct shown before = {session_before(session), session_mass_before_kg(session)};
    bool inches = session->design.paper.units == UNITS_INCH;
    char now[32], was[32] = "";
    table[i].show(&now_shown, inches, now);
    long value = canvas_put(canvas, column, row, CELL_LABEL, table[i].label) + 1;
    if (before.built != NULL)
        table[i].show(&before, inches, was);
    bool moved = before.built != NULL && strcmp(now, was) != 0;
    long after = canvas_put(canvas, value, row, moved ? CELL_CHANGED : CELL_VALUE, now);
    if (moved) {
        canvas_put(canvas, after, row, CELL_CHANGED, "*");
        canvas_put(canvas, value - 4, row + 1, CELL_LABEL, "was");
        canvas_put(canvas, value, row + 1, CELL_LABEL, was);
    }
}

void draw_figures(const struct walk *walk, struct canvas *canvas, struct area_box box) {
    enum cell_kind kind;
    const char *state = state_of(walk->session, &kind);
    canvas_put(canvas, box.column + box.columns - (long)strlen(state), box.row, kind, state);
    if (walk->session->envelope == NULL)
        return;
    for (size_t i = 0; i < COUNT_OF(table); i++)
        draw_figure(walk, canvas, box.column + table[i].column, box.row, i);
    if (walk->session->stale)
        canvas_put(canvas, box.column + 1, box.row + 1, CELL_ERROR,
                   "These figures are of the last design that could be built.");
}
