/* cutting.h - what is cut from which cloth, and where on it.
 *
 * A second door of the shop: the pieces of an envelope laid out on the cloth there is, colour by
 * colour, and the layout kept beside the design file, so that what was chalked stays true.
 */
#ifndef GOREWRIGHT_CUTTING_H
#define GOREWRIGHT_CUTTING_H

#include "gorewright/layout.h"

/* ---- cloth to cut from ------------------------------------------------------ */

/* An offcut or a bolt.  What is measured on it is measured from its start and from its near
 * edge; pieces lie between two margins of `edge_m`. */
struct cutting_strip {
    bool offcut;
    size_t number;                    /* from 1, among those of its kind and colour in the design */
    double width_m, length_m, edge_m; /* length HUGE_VAL: as much as it takes */
};

/* A single piece on its strip.  Its box is measured from the start of the strip and from its
 * near edge. */
struct cutting_piece {
    size_t piece; /* index of its template in the envelope */
    size_t gore;  /* from 1 */
    struct layout_place place;
    double from_m, to_m, near_m, far_m;
};

/* All that is cut from one colour. */
struct cutting_cloth {
    size_t cloth; /* an index into those of design_cloths */
    struct cloth_colour colour;
    struct cutting_strip *strip; /* owned, as all below: offcuts first */
    struct layout_bolt *bolt;    /* the same for the layout */
    size_t strips;
    struct layout_outline *outline; /* one for each template cut from this colour */
    size_t *outline_piece;          /* index of its template in the envelope */
    size_t outlines;
    struct cloth_layout layout;  /* its places by outline, in the order of `piece` */
    struct cutting_piece *piece; /* in order along the strips */
    size_t pieces;
    double gap_m;
};

/* A layout of a whole design.  Zero-initialise, then free. */
struct cutting {
    struct cutting_cloth cloth[CLOTHS_MOST]; /* only colours that have pieces */
    size_t cloths;
    int effort;                 /* that it was made with */
    unsigned long long made_of; /* fingerprint of pieces and cloth it was made from */
    bool kept;                  /* read from, or written to, the file beside the design */
};

void cutting_free(struct cutting *cutting);

/* What of a colour must be bought: used on its bolts, offcuts left out [m]. */
double cutting_used_m(const struct cutting_cloth *cloth);

/* The same as a shop sells it: each bolt's length rounded up to buying.cloth_step [m]. */
double cutting_bought_m(const struct design *design, const struct cutting_cloth *cloth);

/* A length of its bolts that no layout can undercut [m]. */
double cutting_bound_m(const struct cutting_cloth *cloth);

/* Which way the crown of a piece points on its strip: "far" or "near" edge, "start" or "end". */
const char *cutting_crown(const struct cutting_piece *piece);

/* ---- making and keeping -------------------------------------------------------- */

struct cutting_job {
    const char *design_path; /* NULL: nothing is kept, and no kept layout is looked for */
    int effort;              /* EFFORT_LEAST .. EFFORT_MOST; 0: not stated */
    bool anew;               /* make a new one, in place of one that is kept */
    bool keep;               /* write a new one beside the design */
    bool (*carry_on)(void *context, const struct layout_progress *progress); /* or NULL */
    void *context;
};

/* The layout of a design: the kept one if there is one that still holds, else a new one.
 * A kept layout is never replaced but by `anew`.  When the design has changed since and it
 * still holds, a warning says so; when it no longer holds, or cannot be read, that is an error
 * with what to do, and the file is left as it is.  Every layout given passed layout_check.
 * Given: the design as built, and its envelope, which must outlive the layout; cutting, zeroed, to
 * be freed.
 * Returns: 0, or -1 with an error in `messages`.  A new layout that could not be written beside
 * the design is given all the same, with a warning. */
int cutting_open(const struct cutting_job *job, const struct design *design,
                 const struct envelope *envelope, struct cutting *cutting,
                 struct diagnostics *messages);

/* The file that keeps the layout of a design file.  Returns: to be freed; NULL with errno. */
char *cutting_path(const char *design_path);

/* ---- the parts of it --------------------------------------------------------------- */

/* Lay out every colour.  Returns: 0, or -1 with an error; a warning for each offcut and bolt
 * that takes no piece of its colour. */
int cutting_make(const struct cutting_job *job, const struct design *design,
                 const struct envelope *envelope, struct cutting *cutting,
                 struct diagnostics *messages);

/* Whether every colour's layout passes layout_check; else false with its errors. */
bool cutting_check(const struct cutting *cutting, struct diagnostics *messages);

/* The task that a colour's layout answers. */
struct layout_task cutting_task(const struct cutting_cloth *cloth);

/* The layout as the text of a file that keeps it: the same layout, the same bytes. */
void cutting_write(const struct cutting *cutting, const struct design *design, struct text *into);

enum cutting_state {
    CUTTING_SAME,    /* of this design as it is */
    CUTTING_CHANGED, /* pieces or cloth changed since; the layout still holds */
    CUTTING_VOID,    /* it no longer holds: an error says what is in the way */
    CUTTING_BROKEN,  /* the file cannot be understood: an error names its line */
    CUTTING_FOREIGN  /* it keeps no layout at all: an error says so */
};

/* Read such a text.  Given: name of the file for messages; cutting, zeroed, to be freed whatever
 * comes of it. */
enum cutting_state cutting_read(const struct text *text, const char *name,
                                const struct design *design, const struct envelope *envelope,
                                struct cutting *cutting, struct diagnostics *messages);

/* ---- what to buy -------------------------------------------------------------- */

enum material_kind { MATERIAL_CLOTH, MATERIAL_TAPE, MATERIAL_THREAD, MATERIAL_WIRE };

struct material {
    enum material_kind kind;
    size_t cloth;    /* of MATERIAL_CLOTH: its place in the cutting */
    double needed_m; /* tapes with their turn-backs and the band of the mouth; thread with waste */
    double bought;   /* in metres, in whole steps of sale; of thread: reels */
    double price;    /* of a metre, or a reel; 0 when it is not known */
};

enum { MATERIALS_MOST = CLOTHS_MOST + 3 };
struct materials {
    struct material item[MATERIALS_MOST];
    size_t count;
    double cost;   /* of all that has a price */
    size_t priced; /* how many have one */
};

/* Cloth by colour as laid out, tape, thread, flying wires.  What the design says nothing of
 * (webbing, rings, heat-resistant cloth, ...) is not in it. */
struct materials materials_of(const struct design *sized, const struct envelope *envelope,
                              const struct cutting *cutting);

#endif
