/* piece_label.h - what is written on a template, and where. */
#ifndef PAPER_PIECE_LABEL_H
#define PAPER_PIECE_LABEL_H

#include "paper/template_plan.h"

/* How much is said: a small piece says less, its sheet's footer and the index the rest. */
enum label_level { LABEL_FULL, LABEL_MEDIUM, LABEL_SHORT, LABEL_NAME, LABEL_LEVELS };

enum { LABEL_LINES_MOST = 64, LABEL_LINE_MOST = 96 };

struct piece_label {
    char line[LABEL_LINES_MOST][LABEL_LINE_MOST]; /* the first is the name */
    size_t lines;
    double size_m;    /* of the type */
    struct rect text; /* the block of lines, arrows not counted */
    struct rect box;  /* all of it */
};

/* The label of a template, placed inside its sew line and clear of the seams between
 * sheets; as large and as complete as there is room for. */
void piece_label_make(const struct template_plan *plan, size_t piece, struct piece_label *label);

void piece_label_write(const struct piece_label *label, enum warp warp, struct text *into);

/* "LEFT half, mirror image of H03R", and whether that holds for the sew line only; "" for
 * a whole piece.  Returns: `into`. */
char *half_words(const struct envelope *envelope, const struct piece *piece, char into[64]);

#endif
