/* sheet_seams.h - where sheets are glued together. */
#ifndef PAPER_SHEET_SEAMS_H
#define PAPER_SHEET_SEAMS_H

#include "paper/template_plan.h"

/* The seams of a tile: a dash-dotted line to trim along or a dotted one to glue up to,
 * two crosses with the letters of the pair, and what to do there. */
void sheet_seams_write(const struct template_plan *plan, const struct planned_sheet *sheet,
                       struct text *into);

#endif
