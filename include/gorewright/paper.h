/* paper.h - what comes out: figures, dimension sheets, templates.
 *
 * Writers take an envelope and add to a text; none works out geometry, none
 * touches a file.
 */
#ifndef GOREWRIGHT_PAPER_H
#define GOREWRIGHT_PAPER_H

#include "gorewright/cutting.h"
#include "gorewright/flight.h"

/* ---- tables for other programs: tab-separated, header line first ------- */

/* A figure that is not a finite number is left out. */
void write_figures(const struct envelope *envelope, struct text *into);

/* The lines that follow: pieces, cut area and mass of each colour, where there are several. */
void write_colour_figures(const struct design *design, const struct envelope *envelope,
                          struct text *into);

/* The lines after those: weights, lift, heat, loads, wind, time. */
void write_flight_figures(const struct design *sized, const struct envelope *envelope,
                          struct text *into);

void write_stations(const struct envelope *envelope, struct text *into);
void write_outlines(const struct envelope *envelope, struct text *into);

/* One screen (at most 24 lines of 79 columns; more where there are more than two colours) that
 * says what the design gives. */
void write_summary(const struct design *design, const struct envelope *envelope, struct text *into);

/* ---- will it fly, and will it hold: plain text ------------------------------ */

/* Weights, lift, heat and fuel, loads, wind and cautions, in lines of at most 79 columns, in the
 * units of paper.units.  Each part reads by itself; what cannot be worked out is said in words.
 * Given: the design as flight_build left it, and its envelope. */
void write_flight(const struct design *sized, const struct envelope *envelope, struct text *into);

/* The same in a line for each question: weight, lift, floating, burner, fuel, strength, wind,
 * hours. */
struct flight_answer {
    const char *label; /* at most 9 letters */
    bool bad;          /* worth a second look: flight_warn says more */
    char words[64];
};
enum { FLIGHT_ANSWERS_MOST = 12 };

/* Returns: how many there are.  Given: as write_flight. */
size_t flight_answers(const struct design *sized, const struct envelope *envelope,
                      struct flight_answer item[FLIGHT_ANSWERS_MOST]);

/* The styles side by side, at the size that the design asks for: one page of 79 columns.
 * Returns: how many of them can be built; nothing is written when none can. */
size_t write_comparison(const struct design *design, struct text *into);

/* ---- one piece ---------------------------------------------------------- */

/* The piece of this name, in upper or lower case, or NULL. */
const struct piece *piece_named(const struct envelope *envelope, const char *name);

/* ---- lengths for people ------------------------------------------------ */

/* A length as the builder reads it: "612.5" (mm, rounded to design->paper.rounding_m)
 * or "24 3/32" (inches, in the design's fraction).  Every sheet prints a seam
 * through this one door, so that both panels show the same number. */
char *format_length(const struct design *design, double length_m, char into[32]);
const char *length_unit(const struct design *design); /* "mm" or "in" */

/* The length that format_length prints, as a number: a whole count of steps.  Differences of two
 * such lengths are whole counts too, so that printed parts add up to the printed whole. */
double printed_length_m(const struct design *design, double length_m);

/* ---- words for people ---------------------------------------------------- */

/* A text of the design in printable ASCII: a letter with an accent becomes the
 * letter, what has no near letter a '?'; blanks at its end are left off.  Never
 * longer in bytes than `utf8`.  Returns: `into`. */
char *plain_text(const char *utf8, char into[TEXT_MOST]);

/* ---- dimension sheets, plain text -------------------------------------- */

/* A page for each template, at most 79 columns, form feed between pages; before them
 * the list of the set, how to mark by hand, and the cautions.
 * Given: `piece` the name of the only piece wanted (see piece_named), its page alone, or NULL for
 * all. Returns: 0, or -1 with an error when there is no such piece. */
int write_sheets(const struct design *design, const struct envelope *envelope, const char *piece,
                 struct text *into, struct diagnostics *messages);

/* ---- marking one piece by hand, a dimension at a time -------------------- */

/* The parts of a dimension sheet, in its order. */
enum marking_part {
    MARKING_CORNERS, /* along a base line from A, and square up from it */
    MARKING_CHECK,   /* diagonals and sides, corner to corner */
    MARKING_CURVES,  /* offsets for a batten */
    MARKING_CUT,     /* allowances, and corners of the cut line */
    MARKING_MATCHES, /* match marks along the sew line */
    MARKING_PART_COUNT
};

/* A line of the piece: an enum edge, or a diagonal. */
enum { MARKING_RISING = EDGE_COUNT, MARKING_FALLING };

struct marking_step {
    enum marking_part part;
    int line;        /* that it is measured along, from, or towards */
    double value_m;  /* to be shown by format_length */
    char name[32];   /* "B", "D, up", "A-C", "top curve at 150", "cut A, along" */
    char words[128]; /* what to do with that figure, a sentence or two */
};

enum { MARKING_MOST = 160 };
struct marking {
    size_t count;
    struct marking_step step[MARKING_MOST];
};

const char *marking_part_name(enum marking_part part); /* "corners", ... */

/* Every dimension on the sheet of a piece, in its order, as rounded there. */
void marking_steps(const struct design *design, const struct envelope *envelope,
                   const struct piece *piece, struct marking *into);

/* The smallest step that format_length prints for this design [m]. */
double length_step_m(const struct design *design);

/* ---- templates, PostScript --------------------------------------------- */

/* A sheet, or a roll (height_m 0: pages as long as needed, at most 5.0 m). */
struct paper {
    char name[TEXT_MOST];
    double width_m, height_m;
};

/* Given: "A4", "Letter", "ANSI D", "500x700mm", "20x30in", "roll 914mm", "roll 36in".
 * Returns: 0, or -1 with an error under the key `paper.sheet`. */
int paper_find(const char *text, struct paper *paper, struct diagnostics *messages);

/* What the cross on page 1 of the templates is to measure, as long as nothing was measured, and
 * within which limits a reading can be corrected [m]. */
struct paper_cross {
    double across_m, up_m;
    double least, most; /* of a reading: these shares of its length */
};

/* Returns: 0, or -1 when the design's paper cannot be drawn on. */
int paper_cross(const struct design *design, struct paper_cross *cross);

/* Whether templates can be drawn on the design's paper (`paper.*`), as far as can be said
 * without an envelope.  Returns: 0, or -1 with the errors that write_templates would give. */
int paper_check(const struct design *design, struct diagnostics *messages);

/* How far long work is, for whoever waits: told after each sheet, the last one included. */
struct progress {
    void (*tell)(void *context, size_t done, size_t of);
    void *context;
};

struct template_job {
    const char *piece;               /* the only piece wanted (see piece_named), NULL for all */
    size_t sheet;                    /* the only sheet wanted, by its number, 0 for all */
    const struct progress *progress; /* NULL when nobody waits */
};

struct template_report {
    size_t sheets;   /* pages written */
    double length_m; /* of roll that they take, all together; 0 on sheets */
    struct paper paper;
};

/* PostScript templates at full size on the design's paper (`paper.*`).
 * Returns: 0 with *report filled, or -1 with errors and nothing to be used. */
int write_templates(const struct design *design, const struct envelope *envelope,
                    const struct template_job *job, struct text *into,
                    struct template_report *report, struct diagnostics *messages);

/* How many sheets that would be, nothing drawn.  Returns as write_templates. */
int count_templates(const struct design *design, const struct envelope *envelope,
                    struct template_report *report, struct diagnostics *messages);

/* Add the paper they take: "83 sheets of A4", "4 pages on 12.3 m of roll 914mm" (in feet for a
 * design in inches). */
void say_paper_needed(const struct design *design, const struct template_report *report,
                      struct text *into);

/* ---- the cloth ------------------------------------------------------------ */

/* What to buy of each colour, a map of each strip in characters, and a line for each piece in
 * order along the roll; at most 79 columns, a form feed before each strip. */
void write_cutting(const struct design *design, const struct envelope *envelope,
                   const struct cutting *cutting, struct text *into);

/* The same map to scale in PostScript, on the design's paper (`paper.*`).
 * Returns: 0 with *report filled, or -1 with errors and nothing to be used. */
int write_cutting_map(const struct design *design, const struct envelope *envelope,
                      const struct cutting *cutting, struct text *into,
                      struct template_report *report, struct diagnostics *messages);

/* What to buy: cloth, tape, thread, lines, with cost where prices are stated, and what of it is
 * left out; at most 79 columns. */
void write_materials(const struct design *sized, const struct envelope *envelope,
                     const struct cutting *cutting, struct text *into);

/* What to cut, by colour, style, row and side, with counts; at most 79 columns. */
void write_cut_list(const struct design *design, const struct envelope *envelope,
                    struct text *into);

#endif
