/* sheet_seams.h - where sheets are glued together. */
#ifndef PAPER_SHEET_SEAMS_H
#define PAPER_SHEET_SEAMS_H

#include "paper/template_plan.h"

/* The seams of a tile: dotted line, two crosses with the pair's letters, and
 * what to do there. */
void sheet_seams_write(const struct template_plan *plan, const struct planned_sheet *sheet,
                       struct text *into);

#endif
