/* previews.h - what a choice looks like, to scale, in any part of a canvas.
 *
 * Pure functions of an envelope: no terminal, nothing kept.  A drawing fills its box as well
 * as true proportion allows, never touches a cell outside it, and clears it first.  From
 * PREVIEW_COLUMNS_LEAST x PREVIEW_ROWS_LEAST cells on it carries its dimensions in the design's
 * units; in less room only the lines, in almost none nothing.
 */
#ifndef SCREEN_PREVIEWS_H
#define SCREEN_PREVIEWS_H

#include "gorewright/drawing.h"
#include "gorewright/geometry.h"

enum { PREVIEW_COLUMNS_LEAST = 30, PREVIEW_ROWS_LEAST = 12 };

enum preview {
    PREVIEW_SIDE,    /* the envelope from the side */
    PREVIEW_GORE,    /* one gore laid flat: its stack of panels, of half-panels two stacks */
    PREVIEW_PANEL,   /* one piece, large */
    PREVIEW_SECTION, /* from tape to tape, so that the bulge can be seen */
    PREVIEW_PLAN,    /* gores across, rows up, a letter for each panel */
    PREVIEW_COLOURS, /* the same by colour, a letter for each half where they differ */
    PREVIEW_COUNT
};

/* What is drawn lit on a panel; an enum edge also serves. */
enum preview_lit {
    LIT_NOTHING = -1,
    LIT_EDGE = 0, /* + enum edge */
    LIT_RISING = EDGE_COUNT,
    LIT_FALLING /* diagonals */
};

/* The letter of a panel in the plan.  Given: gore and row from 1. */
typedef char preview_letter(const void *context, size_t gore, size_t row);

/* `design` and `envelope` are needed, the rest may be zero (but lit_edge = LIT_NOTHING). */
struct preview_job {
    const struct design *design;
    const struct envelope *envelope;
    enum style style; /* of gore, panel and section; one that is not built: the first that is */
    size_t row;       /* of the panel, from 1; the section stands at its top; 0: see
                         preview_widest_row.  Where not all rows or gores of the colours have room, this
                         row and       gore are among those shown */
    size_t gore;      /* from 1; 0: the first */
    enum side side;   /* of a half-gore panel; SIDE_WHOLE: the left half */
    int lit_edge;     /* enum edge or enum preview_lit */
    bool at_mouth;    /* the section stands at the mouth */

    preview_letter *letter;     /* NULL: F, H or B for the style */
    const void *letter_context; /* for `letter` */
    const char *letter_key;     /* what the letters mean; NULL: the styles that are built */
    size_t lit_gore;            /* drawn lit in the plan, from 1; 0: none */
};

/* Draw.  Given: box, whole cells; what of it lies off the canvas is left out.
 * A job without an envelope draws nothing.  Returns: false when memory was short (then the box
 * is blank). */
bool preview_draw(enum preview preview, const struct preview_job *job, struct canvas *canvas,
                  struct canvas_box box);

/* "from the side", "one gore laid flat", ...: a title. */
const char *preview_name(enum preview preview);

/* The row whose top is the widest station. */
size_t preview_widest_row(const struct envelope *envelope);

/* The piece that PREVIEW_PANEL shows; NULL when the envelope has none. */
const struct piece *preview_piece(const struct preview_job *job);

#endif
