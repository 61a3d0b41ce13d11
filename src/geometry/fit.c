/* fit.c - does every piece fit the cloth, and if not, what would. */
#include <math.h>
#include <stdio.h>

#include "gorewright/geometry.h"

#include "geometry/build.h"

static double takes_width_m(const struct design *design, const struct piece *piece) {
    return design->cloth.warp == WARP_UP ? piece->cut_most.x_m - piece->cut_least.x_m
                                         : piece->cut_most.y_m - piece->cut_least.y_m;
}

/* Between the selvedges of the narrowest cloth that a template is cut from.
 * Returns: width [m]; *narrowest is that cloth. */
static double usable_width_m(const struct design *design, const struct envelope *envelope,
                             const struct piece *piece, struct cloth_colour *narrowest) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths = design_cloths(design, cloth);
    double width_m = HUGE_VAL;
    *narrowest = cloth[0];
    for (size_t i = 0; i < cloths; i++)
        if (piece_count_of(design, envelope, piece, i) > 0 &&
            design_widest_m(design, &cloth[i]) < width_m) {
            width_m = design_widest_m(design, &cloth[i]);
            *narrowest = cloth[i];
        }
    return width_m - 2 * design->cloth.selvedge_m;
}

/* The piece that wants most of what its cloth has.  Returns: how much too wide it is [m], 0 or
 * less when it fits. */
static double widest_piece(const struct design *design, const struct envelope *envelope,
                           const struct piece **widest) {
    double most = -HUGE_VAL;
    *widest = envelope->piece;
    struct cloth_colour cloth;
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        double over_m =
            takes_width_m(design, piece) - usable_width_m(design, envelope, piece, &cloth);
        if (over_m > most) {
            most = over_m;
            *widest = piece;
        }
    }
    return most;
}

static bool fits(const struct design *design, size_t rows) {
    const struct piece *piece;
    struct diagnostics silent = {0};
    struct envelope *envelope = build_rows(design, rows, &silent);
    bool good = envelope != NULL && widest_piece(design, envelope, &piece) <= 0;
    envelope_free(envelope);
    diagnostics_free(&silent);
    return good;
}

/* With the same shares for all rows: a list made for another number says nothing. */
static struct design with_equal_rows(const struct design *design) {
    struct design plain = *design;
    if (plain.rows.spacing == ROWS_GIVEN)
        plain.rows.spacing = ROWS_EQUAL;
    return plain;
}

size_t fewest_rows(const struct design *design) {
    struct design plain = with_equal_rows(design);
    for (size_t rows = 1; rows <= ROWS_MOST; rows++)
        if (fits(&plain, rows))
            return rows;
    return 0;
}

static size_t fewest_gores(const struct design *design) {
    struct design plain = *design;
    plain.gores.mix.count = 0; /* a mix need not divide another number of gores */
    for (plain.gores.count = design->gores.count; plain.gores.count <= GORES_MOST;
         plain.gores.count++)
        if (fits(&plain, (size_t)design->rows.count))
            return (size_t)plain.gores.count;
    return 0;
}

/* What would make every piece fit.  Rows of given lengths may be more than would do if equal. */
static void advise(const struct design *design, struct text *into) {
    bool up = design->cloth.warp == WARP_UP;
    size_t least = up ? fewest_gores(design) : fewest_rows(design);
    const char *what = up                                   ? "gores"
                       : least == 1                         ? "row"
                       : design->rows.spacing == ROWS_GIVEN ? "rows of equal length"
                                                            : "rows";
    if (least == 0)
        text_add(into,
                 "no number of %s up to %d will do: take a wider cloth (cloth.width), or a smaller "
                 "envelope, seams and hems",
                 up ? "gores" : "rows", up ? (int)GORES_MOST : (int)ROWS_MOST);
    else
        text_add(into, "at least %zu %s %s needed, or a wider cloth (cloth.width)", least, what,
                 least == 1 ? "is" : "are");
}

static void complain(const struct design *design, const struct envelope *envelope,
                     const struct piece *piece, struct diagnostics *messages) {
    struct text advice = {0};
    struct cloth_colour cloth;
    double usable_m = usable_width_m(design, envelope, piece, &cloth);
    char name[TEXT_MOST + 16] = "the cloth";
    if (design->colours.cloths.count > 1)
        snprintf(name, sizeof name, "cloth %c, %s,", cloth.letter, cloth.name);
    advise(design, &advice);
    diagnose(messages, SEVERITY_ERROR, "cloth-too-narrow",
             design->cloth.warp == WARP_UP ? "gores.count" : "rows.count",
             "piece %s with its allowances takes %.3f m of the cloth's width, and %s has %.3f m "
             "between its selvedges: %s",
             piece->name, takes_width_m(design, piece), name, usable_m,
             advice.failed ? "take a wider cloth (cloth.width)" : advice.bytes);
    text_free(&advice);
}

bool cloth_fits(const struct design *design, const struct envelope *envelope,
                struct diagnostics *messages) {
    const struct piece *widest = envelope->piece;
    if (widest_piece(design, envelope, &widest) <= 0)
        return true;
    complain(design, envelope, widest, messages);
    return false;
}
