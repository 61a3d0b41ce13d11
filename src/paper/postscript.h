/* postscript.h - writing PostScript: numbers, strings, lines, and the frame of a file.
 *
 * Everything is printable ASCII, lines stay under 256 characters, and numbers
 * come from whole thousandths of a point, so the bytes depend on nothing but
 * the values given.  Lengths are given in metres.
 */
#ifndef PAPER_POSTSCRIPT_H
#define PAPER_POSTSCRIPT_H

#include "gorewright/geometry.h"

#define POINT_M (METRES_PER_INCH / 72)

enum face { FACE_PLAIN, FACE_BOLD };

/* ---- numbers ----------------------------------------------------------- */

/* Each is followed by a blank.  A length comes out in points to 1/1000, a
 * ratio to six decimals. */
void ps_length(struct text *into, double length_m);
void ps_point(struct text *into, double x_m, double y_m);
void ps_ratio(struct text *into, double ratio);

/* ---- text -------------------------------------------------------------- */

enum { LATIN_MOST = 512 };

/* UTF-8 to ISO Latin-1; what it lacks becomes '?'.  Returns: how many bytes.
 * Text beyond `most` bytes is left out. */
size_t latin_from_utf8(const char *utf8, unsigned char *into, size_t most);

/* The string as a PostScript literal, its special characters escaped, and a blank. */
void ps_string(struct text *into, const char *utf8);

/* Width of a text [m] at a type size [m]. */
double ps_text_width_m(enum face face, double size_m, const char *utf8);

/* The largest type size from `most_m` down to half of it at which the text is
 * no wider than `width_m`. */
double ps_fitting_size_m(enum face face, double most_m, double width_m, const char *utf8);

/* The text, or as much of it as a width has room for with "..." behind.  Returns: `into`. */
char *ps_cut(enum face face, double size_m, double width_m, const char *utf8,
             char into[LATIN_MOST]);

/* Where a text stands about the point it is given. */
enum anchor { ANCHOR_LEFT, ANCHOR_CENTRE, ANCHOR_RIGHT, ANCHOR_UP };

/* One line of text; ANCHOR_UP is centred on the point and reads upwards. */
void ps_text(struct text *into, enum face face, double size_m, enum anchor anchor, double x_m,
             double y_m, const char *utf8);

/* ---- lines ------------------------------------------------------------- */

enum pen { PEN_CUT, PEN_SEW, PEN_MARK, PEN_FINE, PEN_TRIM, PEN_GLUE };

void ps_pen(struct text *into, enum pen pen);
void ps_line(struct text *into, double x0_m, double y0_m, double x1_m, double y1_m);
void ps_box(struct text *into, double x_m, double y_m, double width_m, double height_m);

/* A closed line, thinned so that it departs from the given one by at most
 * 0.02 mm; stroked at least every 400 points. */
void ps_ring(struct text *into, const struct ring *ring);

/* ---- the file ---------------------------------------------------------- */

struct ps_document {
    const char *title;
    double width_m, height_m; /* of the largest page */
    size_t pages;
};

/* Header comments and the definitions that every page may use; then the
 * caller writes its own set-up, ends it with ps_setup_end, and the pages. */
void ps_begin(struct text *into, const struct ps_document *document);
void ps_setup_end(struct text *into);

/* Given: label, without blanks; ordinal from 1. */
void ps_page_begin(struct text *into, const char *label, size_t ordinal);

/* Ask the printer for this page size. */
void ps_page_size(struct text *into, double width_m, double height_m);
void ps_end(struct text *into);

#endif
