/* postscript.c - numbers, strings, lines, and the frame of a PostScript file. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/postscript.h"

/* ---- numbers ----------------------------------------------------------- */

/* A whole number of 10^-decimals, without needless zeros. */
static void add_scaled(struct text *into, long long scaled, int decimals) {
    char digits[32];
    size_t at = sizeof digits;
    unsigned long long rest = (unsigned long long)(scaled < 0 ? -scaled : scaled);
    bool kept = false;
    digits[--at] = ' ';
    for (int i = 0; i < decimals; i++, rest /= 10) {
        if (rest % 10 != 0 || kept) {
            digits[--at] = (char)('0' + rest % 10);
            kept = true;
        }
    }
    if (kept)
        digits[--at] = '.';
    do {
        digits[--at] = (char)('0' + rest % 10);
    } while ((rest /= 10) != 0);
    if (scaled < 0)
        digits[--at] = '-';
    text_add_bytes(into, digits + at, sizeof digits - at);
}

void ps_length(struct text *into, double length_m) {
    add_scaled(into, llround(length_m / POINT_M * 1000), 3);
}

void ps_point(struct text *into, double x_m, double y_m) {
    ps_length(into, x_m);
    ps_length(into, y_m);
}

void ps_ratio(struct text *into, double ratio) {
    add_scaled(into, llround(ratio * 1000000), 6);
}

/* ---- text -------------------------------------------------------------- */

static void add(struct text *into, const char *words) {
    text_add_bytes(into, words, strlen(words));
}

/* One character inside a literal.  Returns: the bytes it took. */
static size_t add_character(struct text *into, unsigned char character) {
    char escaped[5] = {(char)character};
    size_t count = 1;
    if (character == '(' || character == ')' || character == '\\') {
        escaped[0] = '\\', escaped[1] = (char)character;
        count = 2;
    } else if (character > 126) {
        snprintf(escaped, sizeof escaped, "\\%03o", character);
        count = 4;
    }
    text_add_bytes(into, escaped, count);
    return count;
}

void ps_string(struct text *into, const char *utf8) {
    enum { LINE_MOST = 160 };
    unsigned char latin[LATIN_MOST];
    size_t count = latin_from_utf8(utf8, latin, sizeof latin), column = 0;
    add(into, "(");
    for (size_t i = 0; i < count; i++) {
        column += add_character(into, latin[i]);
        if (column > LINE_MOST) { /* a backslash at a line's end joins it to the next */
            add(into, "\\\n");
            column = 0;
        }
    }
    add(into, ") ");
}

void ps_text(struct text *into, enum face face, double size_m, enum anchor anchor, double x_m,
             double y_m, const char *utf8) {
    static const char *const show[] = {"t\n", "c\n", "r\n", "u\n"};
    ps_length(into, size_m);
    add(into, face == FACE_BOLD ? "b " : "f ");
    ps_string(into, utf8);
    ps_point(into, x_m, y_m);
    add(into, show[anchor]);
}

/* ---- lines ------------------------------------------------------------- */

void ps_pen(struct text *into, enum pen pen) {
    static const char *const pens[] = {"cutline\n", "sewline\n",  "mark\n",
                                       "fine\n",    "trimline\n", "glueline\n"};
    add(into, pens[pen]);
}

void ps_line(struct text *into, double x0_m, double y0_m, double x1_m, double y1_m) {
    ps_point(into, x0_m, y0_m);
    add(into, "m ");
    ps_point(into, x1_m, y1_m);
    add(into, "l s\n");
}

void ps_box(struct text *into, double x_m, double y_m, double width_m, double height_m) {
    ps_point(into, x_m, y_m);
    ps_point(into, width_m, height_m);
    add(into, "rectstroke\n");
}

/* Square of the distance of p from the straight line a b, or from a when they coincide. */
static double squared_departure(struct flat_point p, struct flat_point a, struct flat_point b) {
    double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m, length2 = dx * dx + dy * dy;
    double px = p.x_m - a.x_m, py = p.y_m - a.y_m, cross = dx * py - dy * px;
    return length2 > 0 ? cross * cross / length2 : px * px + py * py;
}

/* How far a straight line from point `from` may reach with none of the points
 * passed over departing from it.  Returns: an index, `from` + 1 at least. */
static size_t farthest_straight(const struct ring *ring, size_t from) {
    const double tolerance_m = 0.00002;
    size_t reach = from + 1;
    for (size_t to = from + 2; to <= ring->count; to++) {
        struct flat_point end = ring->point[to % ring->count];
        for (size_t i = from + 1; i < to; i++)
            if (squared_departure(ring->point[i], ring->point[from], end) >
                tolerance_m * tolerance_m)
                return reach;
        reach = to;
    }
    return reach;
}

void ps_ring(struct text *into, const struct ring *ring) {
    enum { STROKE_EVERY = 400 };
    ps_point(into, ring->point[0].x_m, ring->point[0].y_m);
    add(into, "m\n");
    size_t drawn = 0;
    for (size_t at = farthest_straight(ring, 0); at < ring->count;
         at = farthest_straight(ring, at)) {
        ps_point(into, ring->point[at].x_m, ring->point[at].y_m);
        add(into, ++drawn % STROKE_EVERY == 0 ? "again\n" : "l\n");
    }
    if (drawn < STROKE_EVERY) {
        add(into, "h\n");
        return;
    }
    ps_point(into, ring->point[0].x_m, ring->point[0].y_m);
    add(into, "l s\n");
}

/* ---- the file ---------------------------------------------------------- */

/* The words the pages are written in.  `t c r u` show a text at a point:
 * standing to its right, centred, to its left, and centred reading upwards. */
static const char prolog[] =
    "%%BeginProlog\n"
    "/gorewright 64 dict def\n"
    "gorewright begin\n"
    "/m {moveto} bind def\n"
    "/l {lineto} bind def\n"
    "/s {stroke} bind def\n"
    "/h {closepath stroke} bind def\n"
    "/again {lineto currentpoint stroke moveto} bind def\n"
    "/latin ISOLatin1Encoding 256 array copy def\n"
    "latin 39 /quotesingle put latin 45 /hyphen put latin 96 /grave put\n"
    "/recode { % name base\n"
    "  findfont dup length dict begin\n"
    "  {1 index /FID ne {def} {pop pop} ifelse} forall\n"
    "  /Encoding latin def currentdict end definefont pop\n"
    "} bind def\n"
    "/f {/gorewright-plain findfont exch scalefont setfont} bind def\n"
    "/b {/gorewright-bold findfont exch scalefont setfont} bind def\n"
    "/t {moveto show} bind def\n"
    "/c {moveto dup stringwidth pop -2 div 0 rmoveto show} bind def\n"
    "/r {moveto dup stringwidth pop neg 0 rmoveto show} bind def\n"
    "/u {gsave translate 90 rotate 0 0 c grestore} bind def\n"
    "/cutline {0.9 setlinewidth [] 0 setdash} bind def\n"
    "/sewline {0.6 setlinewidth [6 3] 0 setdash} bind def\n"
    "/mark {0.7 setlinewidth [] 0 setdash} bind def\n"
    "/fine {0.3 setlinewidth [] 0 setdash} bind def\n"
    "/trimline {0.5 setlinewidth [9 2.5 1.5 2.5] 0 setdash} bind def\n"
    "/glueline {0.5 setlinewidth [1 2.5] 0 setdash} bind def\n"
    "/cross { % x y: where two sheets meet\n"
    "  gsave translate fine -11 0 m 11 0 l 0 -11 m 0 11 l s grestore\n"
    "} bind def\n"
    "/head { % x y angle: an arrow's point\n"
    "  gsave 3 1 roll translate rotate 0 0 m -7 2.4 l -7 -2.4 l h grestore\n"
    "} bind def\n"
    "/endpage {showpage grestore} bind def\n"
    "end\n"
    "%%EndProlog\n"
    "%%BeginSetup\n"
    "gorewright begin\n"
    "/gorewright-plain /Helvetica recode\n"
    "/gorewright-bold /Helvetica-Bold recode\n"
    "/setdistillerparams where {pop << /AutoRotatePages /None >> setdistillerparams} if\n";

/* A comment line's text: ASCII, and short enough for the line. */
static void add_comment_text(struct text *into, const char *utf8) {
    unsigned char latin[120];
    size_t count = latin_from_utf8(utf8, latin, sizeof latin);
    for (size_t i = 0; i < count; i++)
        add_character(into, latin[i] > 126 ? '?' : latin[i]);
}

void ps_begin(struct text *into, const struct ps_document *document) {
    add(into, "%!PS-Adobe-3.0\n%%Title: (");
    add_comment_text(into, document->title);
    text_add(into, ")\n%%%%Creator: gorewright\n%%%%BoundingBox: 0 0 %.0f %.0f\n",
             ceil(document->width_m / POINT_M - 0.001), ceil(document->height_m / POINT_M - 0.001));
    text_add(into, "%%%%Pages: %zu\n", document->pages);
    add(into, "%%PageOrder: Ascend\n%%Orientation: Portrait\n%%LanguageLevel: 2\n"
              "%%DocumentData: Clean7Bit\n"
              "%%DocumentNeededResources: font Helvetica Helvetica-Bold\n%%EndComments\n");
    add(into, prolog);
}

void ps_setup_end(struct text *into) {
    add(into, "%%EndSetup\n");
}

void ps_page_begin(struct text *into, const char *label, size_t ordinal) {
    text_add(into, "%%%%Page: %s %zu\n", label, ordinal);
}

void ps_page_size(struct text *into, double width_m, double height_m) {
    add(into, "<< /PageSize [");
    ps_point(into, width_m, height_m);
    add(into, "] >> setpagedevice\n");
}

void ps_end(struct text *into) {
    add(into, "%%Trailer\nend\n%%EOF\n");
}
