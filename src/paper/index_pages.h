/* index_pages.h - every template small, with the sheets it comes on. */
#ifndef PAPER_INDEX_PAGES_H
#define PAPER_INDEX_PAGES_H

#include "paper/template_plan.h"

/* How large an entry must be, and how many go on a page.  Given: a plan whose
 * pieces are laid already. */
struct index_grid index_grid_of(const struct template_plan *plan);

/* Height of window that `count` entries take. */
double index_window_m(const struct index_grid *grid, size_t count);

/* The page itself, between page_open and page_close. */
void index_page_write(const struct template_plan *plan, size_t number, struct text *into);

#endif
