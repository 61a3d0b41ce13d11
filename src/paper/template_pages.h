/* template_pages.h - the pieces themselves, on sheets. */
#ifndef PAPER_TEMPLATE_PAGES_H
#define PAPER_TEMPLATE_PAGES_H

#include "paper/template_plan.h"

/* Define a template once, for every page that shows it: C<n> its cut line, P<n>
 * all of it; n from 1, in the piece's own coordinates. */
void template_define(const struct template_plan *plan, size_t piece, struct text *into);

/* Both ends of a match mark as it is drawn, in the piece's own coordinates. */
void match_mark_ends(const struct piece *piece, size_t mark, struct flat_point end[2]);

/* The pages themselves, between page_open and page_close. */
void tile_page_write(const struct template_plan *plan, size_t number, struct text *into);
void shared_page_write(const struct template_plan *plan, size_t number, struct text *into);

#endif
