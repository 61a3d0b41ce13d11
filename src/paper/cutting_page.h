/* cutting_page.h - the parts of the page of a cutting layout. */
#ifndef PAPER_CUTTING_PAGE_H
#define PAPER_CUTTING_PAGE_H

#include "gorewright/paper.h"

/* A strip of one colour's cloth. */
struct strip_view {
    const struct design *design;
    const struct envelope *envelope;
    const struct cutting_cloth *cloth;
    size_t strip;
};

/* The strip to scale in characters, in as many bands as its used length takes.
 * Returns: false out of memory. */
bool cutting_map(const struct strip_view *view, struct text *into);

/* A length of cloth as it is sold: "12.50 m", or "41.01 ft". */
char *cloth_length(const struct design *design, double length_m, char into[32]);

/* "bolt 1", "offcut 2"; without its number where a colour has only one of them. */
char *strip_name(const struct strip_view *view, char into[32]);

/* "R red" on plain paper. */
enum { CLOTH_NAME_MOST = TEXT_MOST + 2 };
char *cloth_name(const struct cutting_cloth *cloth, char into[CLOTH_NAME_MOST]);

#endif
