/* sheet_sewing.c - the page that names the seams of a set and says how each is sewn. */
#include <stdio.h>

#include "paper/lengths.h"
#include "paper/plain.h"
#include "paper/sheets.h"

/* ---- which seams ----------------------------------------------------------------- */

/* The two edges that meet in a join; a felled seam has its wide side on the second. */
static const struct {
    enum edge narrow, wide;
    const char *title, *narrow_name, *wide_name;
} joins[] = {
    [JOIN_TAPE] = {EDGE_LEFT, EDGE_RIGHT, "Tape side", "the left edge (A-D)",
                   "the right edge (B-C)"},
    [JOIN_ROW] = {EDGE_BOTTOM, EDGE_TOP, "Row seam", "the bottom edge (A-B)", "the top edge (D-C)"},
    [JOIN_RIDGE] = {EDGE_LEFT, EDGE_RIGHT, "Ridge seam", "the left edge (A-D) of RIGHT halves",
                    "the right edge (B-C) of LEFT halves"},
};

static enum seam_type type_of(const struct design *design, enum join_kind join) {
    int type = join == JOIN_TAPE  ? design->seams.tape
               : join == JOIN_ROW ? design->seams.row
                                  : design->seams.ridge;
    return (enum seam_type)type;
}

/* Cloth beyond the sew line on the edges `e` joined in this way.  Returns: whether there are any.
 */
static bool allowance_of(const struct envelope *envelope, enum join_kind join, enum edge e,
                         double *allowance_m) {
    for (size_t i = 0; i < envelope->templates; i++) {
        if (envelope->piece[i].join[e] != join)
            continue;
        *allowance_m = envelope->piece[i].allowance_m[e];
        return true;
    }
    return false;
}

static void write_item(const char *words, struct text *into) {
    text_add(into, "  - ");
    flow_text(into, words, 4, 4);
}

/* Returns: whether the set has such a seam. */
static bool write_join(const struct design *design, const struct envelope *envelope,
                       enum join_kind join, struct text *into) {
    double narrow_m, wide_m;
    char narrow[32], wide[32], lap[32], words[320];
    if (!allowance_of(envelope, join, joins[join].narrow, &narrow_m) ||
        !allowance_of(envelope, join, joins[join].wide, &wide_m))
        return false;
    format_length(design, narrow_m, narrow);
    format_length(design, wide_m, wide);
    if (narrow_m <= 0)
        snprintf(words, sizeof words, "%s: no allowance; the cut line is the sew line.",
                 joins[join].title);
    else if (type_of(design, join) == SEAM_FELLED)
        snprintf(words, sizeof words,
                 "%s: felled, %s when finished. The wide side, %s, is %s; the narrow side, %s, "
                 "is %s.",
                 joins[join].title, narrow, wide, joins[join].wide_name, narrow,
                 joins[join].narrow_name);
    else if (type_of(design, join) == SEAM_LAPPED)
        snprintf(words, sizeof words, "%s: lapped, a lap of %s; half of it, %s, on each edge.",
                 joins[join].title, format_length(design, narrow_m + wide_m, lap), narrow);
    else
        snprintf(words, sizeof words, "%s: plain, an allowance of %s on each edge.",
                 joins[join].title, narrow);
    write_item(words, into);
    return true;
}

static void write_hem(const struct design *design, const struct envelope *envelope,
                      enum join_kind hem, struct text *into) {
    double depth_m = 0;
    char depth[32], words[128];
    const char *title = hem == HEM_MOUTH ? "Mouth hem" : "Crown hem";
    allowance_of(envelope, hem, hem == HEM_MOUTH ? EDGE_BOTTOM : EDGE_TOP, &depth_m);
    if (depth_m > 0)
        snprintf(words, sizeof words, "%s: %s beyond the sew line, turned in.", title,
                 format_length(design, depth_m, depth));
    else
        snprintf(words, sizeof words, "%s: none; the cut line is the sew line.", title);
    write_item(words, into);
}

/* ---- how ------------------------------------------------------------------------- */

/* Common practice, no source. */
static const char *const how_seam[] = {
    [SEAM_PLAIN] = "Plain: lay the two pieces right sides together, outer face on outer face, and "
                   "stitch on the sew lines. Lay both allowances to one side, the same all along.",
    [SEAM_LAPPED] = "Lapped: lay one edge over the other, outer faces up, until the two sew lines "
                    "lie on each other. Stitch along both edges of the lap.",
    [SEAM_FELLED] =
        "Felled: lay the two pieces right sides together, sew line on sew line, and stitch there. "
        "Fold the wide side round the edge of the narrow one, open the pieces and lay the fold "
        "flat over the piece with the narrow side, so that no raw edge shows. Stitch a second row "
        "along the fold, at the finished width from the first.",
};

/* Common practice, no source. */
static const char how_hem[] =
    "Hems: sew the tape sides on through the hem to its cut edge, still at their allowance from "
    "the cut line. Then fold the hem to the inside on the sew line, turn its raw edge under, and "
    "stitch along it.";

/* Common practice, no source. */
static const char order[] = "Usual order: as they are listed above. Pin corners and match marks "
                            "first; try every seam on scraps of the same cloth.";

void sheet_sewing(const struct design *design, const struct envelope *envelope, struct text *into) {
    static const enum join_kind seams[] = {JOIN_ROW, JOIN_RIDGE, JOIN_TAPE};
    bool used[COUNT_OF(how_seam)] = {false};
    sheet_begin(design, false, into);
    text_add(into, "\nTHE SEAMS OF THIS SET, in %s\n", unit_in_words(design));
    for (size_t i = 0; i < COUNT_OF(seams); i++)
        if (write_join(design, envelope, seams[i], into))
            used[type_of(design, seams[i])] = true;
    write_hem(design, envelope, HEM_MOUTH, into);
    write_hem(design, envelope, HEM_CROWN, into);
    text_add(into, "\nHOW TO SEW THEM\n");
    for (size_t type = 0; type < COUNT_OF(how_seam); type++)
        if (used[type])
            write_item(how_seam[type], into);
    if (design->seams.mouth_hem_m > 0 || design->seams.crown_hem_m > 0)
        write_item(how_hem, into);
    write_item(order, into);
}
