/* sheets.h - the parts of a dimension sheet. */
#ifndef PAPER_SHEETS_H
#define PAPER_SHEETS_H

#include "gorewright/drawing.h"
#include "gorewright/paper.h"

enum { SHEET_COLUMNS = 79, SHEET_LINES = 60 };

/* Begin a page of the set that belongs to no piece: "SHEETS FOR <name>", and ", continued"
 * on the second and later pages of a list. */
void sheet_begin(const struct design *design, bool continued, struct text *into);

/* Whether the page begun last, after the last form feed, has all the lines it can take. */
bool page_is_full(const struct text *text);

/* The pages before the pieces: what is in the set, how to mark, cautions. */
void sheet_front(const struct design *design, const struct envelope *envelope, struct text *into);

/* A page that names the seams of the set and says how each is sewn. */
void sheet_sewing(const struct design *design, const struct envelope *envelope, struct text *into);

/* Pages that show the whole: side view, and a table to check the sewn envelope by. */
void sheet_envelope(const struct design *design, const struct envelope *envelope,
                    struct text *into);

/* The piece drawn to scale with its dimensions on it. */
void sheet_drawing(const struct sheet *sheet, struct text *into);

/* Numbered steps, each a table: corners, curves, edges, match marks. */
void sheet_tables(const struct sheet *sheet, struct text *into);

/* The two corners of an edge, the left or lower one first: "A-B". */
const char *edge_corners(enum edge e);

/* The letter of the corner where edge `e` begins: A lower left, B, C, D. */
char corner_letter(enum edge e);

/* Whether an edge is to be drawn as a curve: it bends by more than the rounding. */
bool reads_curved(const struct sheet *sheet, enum edge e);

/* The piece of the same gore that shares a seam of the given kind across edge
 * `e`, or NULL when none does. */
const struct piece *piece_across(const struct sheet *sheet, enum edge e);

/* "1-4, 7, 9-16": the gores built in one style, numbered from 1.  `into` holds
 * GORE_LIST_MOST bytes. */
enum { GORE_LIST_MOST = 4 * GORES_MOST };
char *gore_list(const struct envelope *envelope, enum style style, char *into);

#endif
