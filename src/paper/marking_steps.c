/* marking_steps.c - a dimension sheet as single steps, for one who measures and marks. */
#include <stdarg.h>
#include <stdio.h>

#include "paper/lengths.h"
#include "paper/marking.h"

const char *marking_part_name(enum marking_part part) {
    static const char *const names[MARKING_PART_COUNT] = {"corners", "check", "curves", "cut line",
                                                          "match marks"};
    return names[part];
}

struct writing {
    const struct sheet *sheet;
    struct marking *into;
};

static void add(const struct writing *writing, enum marking_part part, int line, double value_m,
                const char *words, ...) FORMATTED(5, 6);

/* The step's name is set by `name` afterwards: most names are put together, too. */
static void add(const struct writing *writing, enum marking_part part, int line, double value_m,
                const char *words, ...) {
    struct marking *into = writing->into;
    if (into->count == MARKING_MOST)
        return;
    struct marking_step *step = &into->step[into->count++];
    *step = (struct marking_step){.part = part, .line = line, .value_m = value_m};
    va_list list;
    va_start(list, words);
    vsnprintf(step->words, sizeof step->words, words, list);
    va_end(list);
}

static void name(const struct writing *writing, const char *format, ...) FORMATTED(2, 3);

static void name(const struct writing *writing, const char *format, ...) {
    struct marking_step *step = &writing->into->step[writing->into->count - 1];
    va_list list;
    va_start(list, format);
    vsnprintf(step->name, sizeof step->name, format, list);
    va_end(list);
}

static bool reads_zero(const struct writing *writing, double length_m) {
    return printed_alike(writing->sheet, length_m, 0);
}

/* ---- corners ------------------------------------------------------------------- */

/* The side that ends in an upper corner; the base line for a lower one. */
static int line_to(enum edge corner) {
    static const int line[EDGE_COUNT] = {EDGE_BOTTOM, EDGE_BOTTOM, EDGE_RIGHT, EDGE_LEFT};
    return line[corner];
}

static void corner_steps(const struct writing *writing, enum edge corner) {
    struct flat_point at = piece_corner(writing->sheet->piece, corner);
    char letter = corner_letter(corner);
    bool on_line = reads_zero(writing, at.y_m);
    add(writing, MARKING_CORNERS, EDGE_BOTTOM, at.x_m, "From A along the base line%s: %s %c.",
        reads_zero(writing, at.x_m) ? ""
        : at.x_m < 0                ? " to the left"
                                    : " to the right",
        on_line ? "mark" : "the foot of", letter);
    name(writing, on_line ? "%c" : "%c, along", letter);
    if (on_line)
        return;
    add(writing, MARKING_CORNERS, line_to(corner), at.y_m,
        "From there square %s from the base line: mark %c.", at.y_m < 0 ? "down" : "up", letter);
    name(writing, "%c, up", letter);
}

static void all_corners(const struct writing *writing) {
    add(writing, MARKING_CORNERS, EDGE_BOTTOM, 0,
        "Draw a straight base line, and mark A on it near its left end.");
    name(writing, "A");
    for (enum edge corner = EDGE_RIGHT; corner < EDGE_COUNT; corner++)
        corner_steps(writing, corner);
}

static void checks(const struct writing *writing) {
    const struct piece *piece = writing->sheet->piece;
    const struct {
        const char *corners;
        int line;
        double length_m;
    } check[] = {
        {"A-C", MARKING_RISING, piece->diagonal_rising_m},
        {"B-D", MARKING_FALLING, piece->diagonal_falling_m},
        {"A-D", EDGE_LEFT, piece_chord_m(piece, EDGE_LEFT)},
        {"B-C", EDGE_RIGHT, piece_chord_m(piece, EDGE_RIGHT)},
        {"D-C", EDGE_TOP, piece_chord_m(piece, EDGE_TOP)},
    };
    char tolerance[48];
    for (size_t i = 0; i < COUNT_OF(check); i++) {
        add(writing, MARKING_CHECK, check[i].line, check[i].length_m,
            "Check to %s: straight from %c to %c.  If it is out, go over the corners.",
            format_tolerance(writing->sheet->design, tolerance), check[i].corners[0],
            check[i].corners[2]);
        name(writing, "%s", check[i].corners);
    }
}

/* ---- curves ---------------------------------------------------------------------- */

static void offset_step(const struct writing *writing, const struct batten *batten, size_t i) {
    const struct design *design = writing->sheet->design;
    const char *corners = edge_corners(batten->edge);
    double offset_m = batten_offset_m(writing->sheet, batten, i);
    const char *way = reads_zero(writing, offset_m) ? "the curve is on the line"
                      : offset_m < 0                ? "square to it, into the piece"
                                                    : "square to it, out of the piece";
    char along[32];
    if (i + 1 == batten->count) {
        add(writing, MARKING_CURVES, (int)batten->edge, offset_m,
            "In the middle of %s: %s.  Then bend a batten through the points.", corners, way);
        name(writing, "%s curve, middle", edge_name(batten->edge));
        return;
    }
    format_length(design, batten_along_m(writing->sheet, batten, i), along);
    add(writing, MARKING_CURVES, (int)batten->edge, offset_m,
        "On the line %s, %s %s from %c and the same from %c: %s.", corners, along,
        length_unit(design), corners[0], corners[2], way);
    name(writing, "%s curve at %s", edge_name(batten->edge), along);
}

static void curves(const struct writing *writing) {
    static const enum edge across[] = {EDGE_BOTTOM, EDGE_TOP};
    for (size_t e = 0; e < COUNT_OF(across); e++) {
        if (!reads_curved(writing->sheet, across[e]))
            continue;
        struct batten batten = batten_of(writing->sheet, across[e]);
        for (size_t i = 1; i < batten.count; i++)
            offset_step(writing, &batten, i);
    }
}

/* ---- the cut line ---------------------------------------------------------------- */

static void allowances(const struct writing *writing) {
    const struct piece *piece = writing->sheet->piece;
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        add(writing, MARKING_CUT, (int)e, piece->allowance_m[e],
            "Allowance for the %s: square to %s, outwards, all along.",
            join_kind_name(piece->join[e]), edge_corners(e));
        name(writing, "%s allowance", edge_name(e));
    }
}

static void cut_point(const struct writing *writing, enum edge corner, const char *which,
                      struct flat_point at) {
    char letter = corner_letter(corner);
    add(writing, MARKING_CUT, line_to(corner), at.x_m,
        "Cut line at corner %c%s: from A along the base line to the %s.", letter, which,
        at.x_m < 0 ? "left" : "right");
    name(writing, "cut %c%s, along", letter, which);
    add(writing, MARKING_CUT, line_to(corner), at.y_m,
        "Cut line at corner %c%s: from there square %s from the base line.", letter, which,
        at.y_m < 0 ? "down" : "up");
    name(writing, "cut %c%s, up", letter, which);
}

static void cut_corners(const struct writing *writing) {
    for (enum edge corner = EDGE_BOTTOM; corner < EDGE_COUNT; corner++) {
        struct flat_point cut[2];
        size_t count = piece_cut_corner(writing->sheet->piece, corner, cut);
        for (size_t i = 0; i < count; i++)
            cut_point(writing, corner, i == 0 ? "" : ", 2nd point", cut[i]);
    }
}

/* ---- match marks -------------------------------------------------------------------- */

/* Where an edge is measured: from which corner to which, and how it is called. */
struct run {
    enum edge edge;
    const char *called, *from, *to;
};

static void mark_steps(const struct writing *writing, const struct run *run) {
    const struct sheet *sheet = writing->sheet;
    double along_m[MARKS_MOST], before_m = 0, length_m = sheet->piece->length_m[run->edge];
    size_t count = mark_distances(sheet->piece, run->edge, along_m);
    for (size_t i = 0; i <= count; i++) {
        double at_m = i < count ? along_m[i] : length_m;
        char on[32], rest[64] = "";
        if (i > 0 && count > 1)
            snprintf(
                rest, sizeof rest, ", %s %s on from mark %zu",
                format_length(sheet->design, printed_length_m(sheet->design, at_m) - before_m, on),
                length_unit(sheet->design), i);
        before_m = printed_length_m(sheet->design, at_m);
        if (i < count)
            add(writing, MARKING_MATCHES, (int)run->edge, at_m,
                "From %s along the sew line: mark %zu of %zu%s.", run->from, i + 1, count, rest);
        else
            add(writing, MARKING_MATCHES, (int)run->edge, at_m,
                "Check: from %s along the sew line to %s%s.", run->from, run->to, rest);
        if (i < count)
            name(writing, "%s, mark %zu", run->called, i + 1);
        else
            name(writing, "%s, whole", run->called);
    }
}

static void match_marks(const struct writing *writing) {
    static const struct run bottom = {EDGE_BOTTOM, "bottom", "A", "B"},
                            top = {EDGE_TOP, "top", "D", "C"}, left = {EDGE_LEFT, "left", "A", "D"},
                            right = {EDGE_RIGHT, "right", "B", "C"},
                            sides = {EDGE_LEFT, "sides", "A, and from B,", "D, and to C"};
    mark_steps(writing, &bottom);
    mark_steps(writing, &top);
    if (sides_read_alike(writing->sheet)) {
        mark_steps(writing, &sides);
        return;
    }
    mark_steps(writing, &left);
    mark_steps(writing, &right);
}

void marking_steps(const struct design *design, const struct envelope *envelope,
                   const struct piece *piece, struct marking *into) {
    const struct sheet sheet = {design, envelope, piece};
    const struct writing writing = {&sheet, into};
    into->count = 0;
    all_corners(&writing);
    checks(&writing);
    curves(&writing);
    allowances(&writing);
    cut_corners(&writing);
    match_marks(&writing);
}
