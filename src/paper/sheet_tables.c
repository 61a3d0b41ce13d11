/* sheet_tables.c - the steps of a dimension sheet: corners, curves, edges, marks. */
#include <stdio.h>
#include <string.h>

#include "paper/lengths.h"
#include "paper/marking.h"
#include "paper/plain.h"
#include "paper/sheets.h"

/* ---- columns ----------------------------------------------------------------- */

static void length_column(const struct sheet *sheet, double length_m, int columns,
                          struct text *into) {
    char length[32];
    text_add(into, "%*s", columns, format_length(sheet->design, length_m, length));
}

static void pair_columns(const struct sheet *sheet, struct flat_point point, struct text *into) {
    length_column(sheet, point.x_m, 14, into);
    length_column(sheet, point.y_m, 11, into);
}

/* ---- 1 corners ------------------------------------------------------------------ */

static void corner_lines(const struct sheet *sheet, enum edge e, struct text *into) {
    static const char *const where[EDGE_COUNT] = {"lower left", "lower right", "upper right",
                                                  "upper left"};
    struct flat_point cut[2];
    size_t cuts = piece_cut_corner(sheet->piece, e, cut);
    text_add(into, "   %c  %-12s", corner_letter(e), where[e]);
    pair_columns(sheet, piece_corner(sheet->piece, e), into);
    pair_columns(sheet, cut[0], into);
    text_add(into, "\n");
    if (cuts == 2) {
        text_add(into, "%43s", "then on to");
        pair_columns(sheet, cut[1], into);
        text_add(into, "\n");
    }
}

/* On one line where it fits; a length is never broken in two. */
static void check_line(const struct sheet *sheet, struct text *into) {
    const struct piece *piece = sheet->piece;
    const struct design *design = sheet->design;
    char a[32], b[32], c[32], diagonals[96], sides[128];
    snprintf(diagonals, sizeof diagonals, "   Check: A-C %s, B-D %s (diagonals);",
             format_length(design, piece->diagonal_rising_m, a),
             format_length(design, piece->diagonal_falling_m, b));
    snprintf(sides, sizeof sides, "A-D %s, B-C %s, D-C %s.",
             format_length(design, piece_chord_m(piece, EDGE_LEFT), a),
             format_length(design, piece_chord_m(piece, EDGE_RIGHT), b),
             format_length(design, piece_chord_m(piece, EDGE_TOP), c));
    bool fits = strlen(diagonals) + 1 + strlen(sides) <= SHEET_COLUMNS;
    text_add(into, "%s%s%s\n", diagonals, fits ? " " : "\n          ", sides);
}

static void corner_table(const struct sheet *sheet, struct text *into) {
    char tolerance[48];
    text_add(into,
             "1 CORNERS.  Mark A on a base line.  Measure along the line from A, then square\n"
             "   up from it.  Minus: left of A, or below the line.  Checks hold to %s.\n"
             "%18s%14s%11s%14s%11s\n",
             format_tolerance(sheet->design, tolerance), "", "SEW along", "SEW up", "CUT along",
             "CUT up");
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++)
        corner_lines(sheet, e, into);
    check_line(sheet, into);
    text_add(into, "\n");
}

/* ---- 2 curves ------------------------------------------------------------------- */

/* Both numbers of one edge, and the first of them. */
enum { OFFSET_COLUMNS = 33, ALONG_COLUMNS = 19 };

static void station_columns(const struct sheet *sheet, const struct batten *batten, size_t i,
                            struct text *into) {
    if (i + 1 == batten->count)
        text_add(into, "%*s", ALONG_COLUMNS, "middle");
    else
        length_column(sheet, batten_along_m(sheet, batten, i), ALONG_COLUMNS, into);
    length_column(sheet, batten_offset_m(sheet, batten, i), OFFSET_COLUMNS - ALONG_COLUMNS, into);
}

static void curve_heading(const struct batten *curve, size_t curves, struct text *into) {
    static const char *const from[EDGE_COUNT] = {
        [EDGE_BOTTOM] = "BOTTOM from A, B", [EDGE_TOP] = "TOP from D, C"};
    static const char *const away[EDGE_COUNT] = {
        [EDGE_BOTTOM] = "below A-B", [EDGE_TOP] = "above D-C"};
    for (size_t i = 0; i < curves; i++)
        text_add(into, "%*s%*s", ALONG_COLUMNS, from[curve[i].edge], OFFSET_COLUMNS - ALONG_COLUMNS,
                 away[curve[i].edge]);
    text_add(into, "\n");
}

/* Returns: whether there was any curve to set out.  Sides are straight in every style. */
static bool curve_table(const struct sheet *sheet, struct text *into) {
    static const enum edge across[] = {EDGE_BOTTOM, EDGE_TOP};
    struct batten curve[COUNT_OF(across)];
    size_t curves = 0, lines = 0;
    for (size_t i = 0; i < COUNT_OF(across); i++) {
        if (!reads_curved(sheet, across[i]))
            continue;
        curve[curves] = batten_of(sheet, across[i]);
        lines = curve[curves].count > lines ? curve[curves].count : lines;
        curves++;
    }
    if (curves == 0)
        return false;
    text_add(into,
             "2 CURVES.  From each end along the straight line corner to corner, then square\n"
             "   to it.  Minus: into the piece.  Bend a batten through the points.\n");
    curve_heading(curve, curves, into);
    for (size_t line = 0; line < lines; line++) {
        bool skipped = false;
        for (size_t i = 0; i < curves; i++) {
            if (line < curve[i].count) {
                text_add(into, "%*s", skipped ? OFFSET_COLUMNS : 0, "");
                station_columns(sheet, &curve[i], line, into);
            }
            skipped = line >= curve[i].count;
        }
        text_add(into, "\n");
    }
    text_add(into, "\n");
    return true;
}

/* ---- 3 edges -------------------------------------------------------------------- */

static void edge_line(const struct sheet *sheet, enum edge e, struct text *into) {
    const struct piece *piece = sheet->piece, *other = piece_across(sheet, e);
    char sewn_to[48];
    snprintf(sewn_to, sizeof sewn_to, "%s%s%s", join_kind_name(piece->join[e]),
             other != NULL                 ? " to "
             : piece->join[e] == JOIN_TAPE ? ", next gore"
                                           : "",
             other != NULL ? other->name : "");
    text_add(into, "   %s  %-7s%-21s", edge_corners(e), edge_name(e), sewn_to);
    length_column(sheet, piece->allowance_m[e], 10, into);
    length_column(sheet, piece->length_m[e], 12, into);
    length_column(sheet, piece_chord_m(piece, e), 12, into);
    text_add(into, "%9s\n", reads_curved(sheet, e) ? "curve" : "straight");
}

static void edge_table(const struct sheet *sheet, int step, struct text *into) {
    text_add(into,
             "%d CUT LINE.  The allowance stands square to the sew line, all along, outwards.\n"
             "%36s%10s%12s%12s\n",
             step, "", "allowance", "sew line", "end to end");
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++)
        edge_line(sheet, e, into);
    text_add(into, "\n");
}

/* ---- 4 match marks ---------------------------------------------------------------- */

/* Differences of the running distances as printed, so that they add up to the edge. */
static void step_line(const struct sheet *sheet, const double *along_m, size_t count,
                      struct text *into) {
    double before_m = 0;
    text_add(into, "   %-16s", "  step");
    for (size_t i = 0; i <= count; i++) {
        double at_m = printed_length_m(sheet->design, along_m[i]);
        length_column(sheet, at_m - before_m, 12, into);
        before_m = at_m;
    }
    text_add(into, "\n");
}

static void mark_lines(const struct sheet *sheet, enum edge e, const char *name, const char *from,
                       const char *to, struct text *into) {
    double along_m[MARKS_MOST + 1];
    size_t count = mark_distances(sheet->piece, e, along_m);
    if (count == 0)
        return;
    along_m[count] = sheet->piece->length_m[e];
    text_add(into, "   %-7sfrom %-4s", name, from);
    for (size_t i = 0; i <= count; i++)
        length_column(sheet, along_m[i], 12, into);
    text_add(into, " %s\n", to);
    if (count > 1)
        step_line(sheet, along_m, count, into);
}

static void mark_table(const struct sheet *sheet, int step, struct text *into) {
    text_add(into,
             "%d MATCH MARKS.  Measured along the sew line; tick from there to the cut line.\n",
             step);
    mark_lines(sheet, EDGE_BOTTOM, "bottom", "A", "B", into);
    mark_lines(sheet, EDGE_TOP, "top", "D", "C", into);
    if (sides_read_alike(sheet)) {
        mark_lines(sheet, EDGE_LEFT, "sides", "A, B", "D, C", into);
        return;
    }
    mark_lines(sheet, EDGE_LEFT, "left", "A", "D", into);
    mark_lines(sheet, EDGE_RIGHT, "right", "B", "C", into);
}

void sheet_tables(const struct sheet *sheet, struct text *into) {
    corner_table(sheet, into);
    int step = curve_table(sheet, into) ? 3 : 2;
    edge_table(sheet, step, into);
    mark_table(sheet, step + 1, into);
}
