/* marking.c - the figures that a piece is marked by, as its sheet prints them. */
#include <math.h>
#include <string.h>

#include "paper/lengths.h"
#include "paper/marking.h"

bool printed_alike(const struct sheet *sheet, double a_m, double b_m) {
    char a[32], b[32];
    return strcmp(format_length(sheet->design, a_m, a), format_length(sheet->design, b_m, b)) == 0;
}

/* ---- curves -------------------------------------------------------------------- */

/* Steps that a rule shows: about 50 mm, coarser where that would fill the page, finer
 * where it would leave fewer than eight. */
static double batten_step_m(const struct sheet *sheet, enum edge e) {
    static const double mm[] = {1000, 500, 200, 100, 50, 25, 20, 10, 5, 2, 1};
    static const double inch[] = {48, 24, 8, 4, 2, 1, 1 / 2.0, 1 / 4.0, 1 / 8.0, 1 / 16.0};
    enum { USUAL = 4, STEPS_LEAST = 8, STEPS_MANY = 24, STEPS_MOST = 50 };
    bool inches = sheet->design->paper.units == UNITS_INCH;
    const double *step = inches ? inch : mm;
    size_t last = (inches ? COUNT_OF(inch) : COUNT_OF(mm)) - 1, i = USUAL;
    double unit_m = inches ? METRES_PER_INCH : 1e-3;
    double chord = piece_chord_m(sheet->piece, e) / unit_m;
    while (i > 0 && chord >= (i == USUAL ? STEPS_MANY : STEPS_MOST) * step[i])
        i--;
    while (i < last && chord < STEPS_LEAST * step[i])
        i++;
    return step[i] * unit_m;
}

struct batten batten_of(const struct sheet *sheet, enum edge e) {
    struct batten batten = {
        .edge = e, .step_m = batten_step_m(sheet, e), .half_m = piece_chord_m(sheet->piece, e) / 2};
    /* A last step close before the middle would only crowd the batten. */
    double clear_m = fmax(batten.step_m / 4, 2 * length_step_m(sheet->design));
    batten.count = 2 + (size_t)fmax(0, floor((batten.half_m - clear_m) / batten.step_m));
    return batten;
}

double batten_along_m(const struct sheet *sheet, const struct batten *batten, size_t i) {
    if (i + 1 >= batten->count)
        return batten->half_m;
    return printed_length_m(sheet->design, (double)i * batten->step_m);
}

/* Offsets are taken from the line through the corners as printed, so that the rounding of
 * a corner does not add to that of an offset.  The line itself begins and ends on them. */
double batten_offset_m(const struct sheet *sheet, const struct batten *batten, size_t i) {
    if (i == 0)
        return 0;
    double y_m = piece_corner(sheet->piece, batten->edge).y_m;
    double raised_m = printed_length_m(sheet->design, y_m) - y_m;
    double offset_m = piece_offset_m(sheet->piece, batten->edge, batten_along_m(sheet, batten, i));
    return batten->edge == EDGE_TOP ? offset_m - raised_m : offset_m + raised_m;
}

bool reads_curved(const struct sheet *sheet, enum edge e) {
    if (!sheet->piece->curved[e])
        return false;
    struct batten batten = batten_of(sheet, e);
    for (size_t i = 1; i < batten.count; i++)
        if (!printed_alike(sheet, batten_offset_m(sheet, &batten, i), 0))
            return true;
    return false;
}

/* ---- match marks ----------------------------------------------------------------- */

size_t mark_distances(const struct piece *piece, enum edge e, double along_m[MARKS_MOST]) {
    bool backwards = e == EDGE_TOP || e == EDGE_LEFT; /* the ring runs the other way */
    size_t count = 0;
    for (size_t i = 0; i < piece->marks; i++) {
        if (piece->mark[i].edge != e)
            continue;
        double fraction = piece->mark[i].fraction;
        double at_m = (backwards ? 1 - fraction : fraction) * piece->length_m[e];
        size_t place = count++;
        for (; place > 0 && along_m[place - 1] > at_m; place--)
            along_m[place] = along_m[place - 1];
        along_m[place] = at_m;
    }
    return count;
}

bool sides_read_alike(const struct sheet *sheet) {
    const struct piece *piece = sheet->piece;
    double left_m[MARKS_MOST], right_m[MARKS_MOST];
    size_t count = mark_distances(piece, EDGE_LEFT, left_m);
    bool alike = count == mark_distances(piece, EDGE_RIGHT, right_m) &&
                 printed_alike(sheet, piece->length_m[EDGE_LEFT], piece->length_m[EDGE_RIGHT]);
    for (size_t i = 0; alike && i < count; i++)
        alike = printed_alike(sheet, left_m[i], right_m[i]);
    return alike;
}
