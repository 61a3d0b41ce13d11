/* page_parts.h - what every sheet of the templates carries. */
#ifndef PAPER_PAGE_PARTS_H
#define PAPER_PAGE_PARTS_H

#include "paper/postscript.h"
#include "paper/template_plan.h"

#define MM 0.001

/* Small type [m]. */
#define TYPE_TITLE_M 0.0035
#define TYPE_NOTE_M 0.0023

/* Begin page `ordinal` of the file; drawing is then in frame coordinates, origin
 * at the lower left corner of the frame.  Given: label without blanks. */
void page_open(const struct template_plan *plan, const struct frame *frame, const char *label,
               size_t ordinal, struct text *into);
void page_close(struct text *into);

struct footer {
    const char *title;             /* what is on the sheet */
    const char *detail;            /* more of it */
    size_t number;                 /* of the sheet */
    double text_from_m;            /* where the text begins, left of it something else stands */
    double bar_up_x_m, bar_up_y_m; /* foot of the 50 mm bar that stands upright */
};

/* Where the upright bar stands unless there is a reason. */
#define BAR_EDGE_M 0.0015
#define BAR_FOOT_M 0.0025

/* Title, sheet i of n, what was drawn at which scale, and the 50 mm bars. */
void page_footer(const struct template_plan *plan, const struct frame *frame,
                 const struct footer *footer, struct text *into);

/* "180 mm", and in inches as well when the design speaks inches.  Returns: `into`. */
char *length_in_mm(const struct design *design, double length_m, char into[64]);

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

#endif
