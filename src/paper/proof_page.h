/* proof_page.h - page 1: is the printer true to scale, and what to do about it. */
#ifndef PAPER_PROOF_PAGE_H
#define PAPER_PROOF_PAGE_H

#include "paper/template_plan.h"

/* How many more sheets the notes of page 1 need; none but on small paper. */
size_t proof_notes_needed(const struct template_plan *plan);

/* The page itself, between page_open and page_close. */
void proof_page_write(const struct template_plan *plan, struct text *into);

/* A sheet of notes; `which` from 0. */
void notes_page_write(const struct template_plan *plan, size_t number, size_t which,
                      struct text *into);

#endif
