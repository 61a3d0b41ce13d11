/* page_parts.h - what every sheet of the templates carries. */
#ifndef PAPER_PAGE_PARTS_H
#define PAPER_PAGE_PARTS_H

#include "paper/postscript.h"
#include "paper/template_plan.h"
#include "paper/upright_bar.h"

#define MM 0.001

/* Small type on A4 and below; larger sheets have it larger by frame.type. */
#define TYPE_TITLE_M (10 * POINT_M)
#define TYPE_NOTE_M (8 * POINT_M)

/* Begin page `ordinal` of the file; drawing is then in frame coordinates, origin
 * at the lower left corner of the frame.  Given: label without blanks. */
void page_open(const struct template_plan *plan, const struct frame *frame, const char *label,
               size_t ordinal, struct text *into);
void page_close(struct text *into);

struct footer {
    const char *title;  /* what is on the sheet */
    const char *detail; /* more of it, the least important last */
    size_t number;      /* of the sheet */
    double text_from_m; /* where the text begins, left of it something else stands */
    struct upright_bar bar;
};

/* Title, sheet i of n, what was drawn at which scale, and the 50 mm bars. */
void page_footer(const struct template_plan *plan, const struct frame *frame,
                 const struct footer *footer, struct text *into);

/* A whole length of the scale check: "180 mm", or "7 in" when the design speaks inches.
 * Returns: `into`. */
char *nominal_words(const struct design *design, double length_m, char into[64]);

/* Whether anything was measured, so that every print needs it again. */
bool is_corrected(const struct template_plan *plan);

/* ---- running text ------------------------------------------------------ */

struct paragraph {
    enum face face;
    double larger; /* than the running size */
    char words[400];
};

struct text_box {
    double x_m, top_m, width_m, height_m;
};

/* Fill boxes in turn with paragraphs, each whole.  Given: into, or NULL to measure only.
 * Returns: how many paragraphs fit whole. */
size_t flow_paragraphs(const struct paragraph *paragraph, size_t paragraphs,
                       const struct text_box *box, size_t boxes, double size_m, struct text *into);

/* Words in lines no wider than a width.  Returns: how many lines they take; the first
 * `most` of them in `line`, the last ending in "..." when there are more. */
size_t break_lines(enum face face, double size_m, double width_m, const char *words, size_t most,
                   char line[][LATIN_MOST]);

#endif
