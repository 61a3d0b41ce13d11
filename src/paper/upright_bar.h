/* upright_bar.h - where the 50 mm bar that stands upright can be drawn. */
#ifndef PAPER_UPRIGHT_BAR_H
#define PAPER_UPRIGHT_BAR_H

#include <stdint.h>

#include "paper/template_plan.h"

/* Room it takes from its own line: its ticks and figure stand on the left. */
#define BAR_LEFT_M 0.0042
#define BAR_AROUND_M 0.0008

/* Where bars stand unless there is a reason: the lying one always. */
#define BAR_EDGE_M 0.0015
#define BAR_FOOT_M 0.0025

struct upright_bar {
    double x_m, y_m; /* of its foot, in coordinates of the frame */
    uint64_t gaps;   /* bit i: the millimetre from i to i + 1 is left out */
};

/* The bar at the right edge, up from the footer. */
struct upright_bar upright_bar_at_edge(const struct frame *frame);

/* On a sheet of pieces: clear of their lines, marks and labels, and of the strips where
 * sheets are glued; beside the pieces rather than on them.  Where there is no such place
 * the bar has gaps for the lines, its ends never. */
struct upright_bar upright_bar_on(const struct template_plan *plan,
                                  const struct planned_sheet *sheet);

#endif
