/* template_plan.h - which sheet shows what, before anything is drawn.
 *
 * Sheets are numbered from 1: the scale check, its notes, the index, the tiled
 * pieces in the order of the templates, then the sheets that pieces share.
 */
#ifndef PAPER_TEMPLATE_PLAN_H
#define PAPER_TEMPLATE_PLAN_H

#include "gorewright/paper.h"
#include "paper/tiling.h"

#define PROOF_BAR_M 0.05     /* on every sheet, across and up */
#define CORRECTION_MOST 1.05 /* and 0.95 at least */
#define CORRECTION_LEAST 0.95
#define ROLL_PAGE_MOST_M 5.0
#define ROLL_CROSS_UP_M 0.509 /* 50 cm, or 20 in */

/* What the printer did to the cross, and what is done about it. */
struct correction {
    double nominal_across_m, nominal_up_m; /* length of the cross, whatever the factors */
    double across, up;                     /* everything is drawn this much larger */
};

/* The part of a page that is drawn on, in lengths as they will measure on the
 * corrected print.  It lies in the middle of the page.  The footer is the
 * lowest strip of it, the window all above. */
struct frame {
    double page_width_m, page_height_m;
    double width_m, height_m;
    double footer_m;
    double type;    /* small type is this much larger than on A4 */
    bool narrow;    /* the bar across has a row of its own, below the text */
    bool landscape; /* drawn turned by a quarter on the page */
};

enum sheet_kind { SHEET_PROOF, SHEET_NOTES, SHEET_INDEX, SHEET_TILE, SHEET_SHARED };

struct planned_sheet {
    enum sheet_kind kind;
    struct frame frame;
    size_t piece, row, column; /* of a tile */
    size_t first, count;       /* of an index: templates; of a shared sheet: placements */
};

/* How one template lies. */
struct laying {
    bool shared; /* on one sheet, with others or alone; else tiled */
    struct tiling tiling;
    struct rect label; /* around what is written on the piece, in its own coordinates */
    size_t first_tile; /* in tile_sheet */
    size_t first_sheet, last_sheet, count; /* numbers from 1; shared: the one sheet */
};

/* Entries of the index, several to a page. */
struct index_grid {
    size_t columns, rows;
    double entry_width_m, entry_height_m;
    double type;      /* as of its frames */
    double caption_m; /* height of the words above the drawing */
};

struct template_plan {
    const struct design *design;
    const struct envelope *envelope;
    struct paper paper;
    struct correction correction;
    struct index_grid index;
    struct laying *laying; /* by template; owned, as all below */
    size_t *tile_sheet;    /* number of each tile's sheet, row by row; 0: nothing on it */
    struct placement *placement;
    struct planned_sheet *sheet; /* sheet[i] has number i + 1 */
    size_t sheets, sheets_capacity;
};

/* Given: design, envelope, both kept by the plan.  Returns: 0 with the plan to
 * be freed, or -1 with errors. */
int template_plan_make(const struct design *design, const struct envelope *envelope,
                       struct template_plan *plan, struct diagnostics *messages);
void template_plan_free(struct template_plan *plan);

/* Number of the sheet that shows a tile, 0 when the tile is empty or beyond the edge.
 * Rows and columns may be one less than the first: (size_t)-1. */
size_t tile_sheet_number(const struct template_plan *plan, size_t piece, size_t row, size_t column);

/* Height of the window of a frame. */
double frame_window_m(const struct frame *frame);

/* Whether a sheet shows any of a template. */
bool sheet_shows(const struct template_plan *plan, const struct planned_sheet *sheet, size_t piece);

/* ---- frames and corrections: page_frame.c ------------------------------ */

/* Check the paper against margin, footer and overlap, and what was measured
 * against the cross.  Returns: 0, or -1 with errors. */
int correction_find(const struct design *design, const struct paper *paper,
                    struct correction *correction, struct diagnostics *messages);

/* A sheet's frame; for a roll, one with a window of `roll_window_m`. */
struct frame sheet_frame(const struct template_plan *plan, bool landscape, double roll_window_m);

/* The frame of the scale check: the same at every correction. */
struct frame proof_frame(const struct template_plan *plan);

/* What tiles can be cut to on this paper.  Returns: how many kinds of window. */
size_t tile_windows(const struct template_plan *plan, struct window windows[2]);

#endif
