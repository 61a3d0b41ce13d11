/* upright_bar.c - where the 50 mm bar that stands upright can be drawn. */
#include <math.h>

#include "paper/template_pages.h"
#include "paper/upright_bar.h"

#define MM 0.001
#define SEAM_CLEAR_M 0.0065 /* from the seam's line: the crosses and their letters */
#define STEP_ACROSS_M 0.004
#define STEP_UP_M 0.008

enum { BAR_MM = 50, END_MM = 2, STEPS_MOST = 100 };
enum { COARSE = 3 }; /* steps at once, before all are tried */

struct upright_bar upright_bar_at_edge(const struct frame *frame) {
    return (struct upright_bar){.x_m = frame->width_m - BAR_EDGE_M, .y_m = BAR_FOOT_M};
}

/* ---- what stands in the way -------------------------------------------- */

/* A piece on the sheet, and where the frame's corner lies in its laid coordinates. */
struct shown {
    const struct piece *piece;
    bool turned;
    struct flat_point laid;
    struct rect label;
};

struct ground {
    const struct template_plan *plan;
    const struct planned_sheet *sheet;
    size_t pieces;
    struct rect range; /* for the foot of the bar */
    int coarse;        /* steps taken at once */
};

static struct shown shown_piece(const struct ground *ground, size_t i) {
    const struct template_plan *plan = ground->plan;
    const struct planned_sheet *sheet = ground->sheet;
    struct shown shown;
    size_t piece = sheet->piece;
    if (sheet->kind == SHEET_TILE) {
        const struct tiling *tiling = &plan->laying[piece].tiling;
        struct rect window = tile_window(tiling, sheet->row, sheet->column);
        shown.turned = tiling->turned;
        shown.laid = (struct flat_point){window.x0_m, window.y0_m - sheet->frame.footer_m};
    } else {
        const struct placement *placement = &plan->placement[sheet->first + i];
        piece = placement->piece;
        shown.turned = placement->turned;
        shown.laid = (struct flat_point){-placement->x_m, -placement->y_m - sheet->frame.footer_m};
    }
    shown.piece = &plan->envelope->piece[piece];
    shown.label = plan->laying[piece].label;
    return shown;
}

static bool overlap(struct rect a, struct rect b) {
    return a.x0_m < b.x1_m && b.x0_m < a.x1_m && a.y0_m < b.y1_m && b.y0_m < a.y1_m;
}

static struct rect on_piece(const struct shown *shown, struct rect rect) {
    struct rect laid = {rect.x0_m + shown->laid.x_m, rect.y0_m + shown->laid.y_m,
                        rect.x1_m + shown->laid.x_m, rect.y1_m + shown->laid.y_m};
    return rect_on_piece(shown->piece, shown->turned, laid);
}

static bool marks_meet(const struct piece *piece, struct rect rect) {
    for (size_t i = 0; i < piece->marks; i++) {
        struct flat_point mark[2];
        match_mark_ends(piece, i, mark);
        if (segment_meets(mark[0], mark[1], rect))
            return true;
    }
    return false;
}

/* What a rectangle of the frame lies on; the worst counts. */
enum footing { BESIDE_PIECES, ON_A_PIECE, ON_A_LINE };

static enum footing footing_of(const struct ground *ground, struct rect rect) {
    enum footing worst = BESIDE_PIECES;
    for (size_t i = 0; i < ground->pieces; i++) {
        struct shown shown = shown_piece(ground, i);
        const struct piece *piece = shown.piece;
        struct rect on = on_piece(&shown, rect);
        struct rect all = {piece->cut_least.x_m, piece->cut_least.y_m, piece->cut_most.x_m,
                           piece->cut_most.y_m};
        if (!overlap(all, on))
            continue;
        if (overlap(shown.label, on) || ring_meets(&piece->cut, on) ||
            ring_meets(&piece->sew, on) || marks_meet(piece, on))
            return ON_A_LINE;
        if (ring_touches(&piece->cut, on))
            worst = ON_A_PIECE;
    }
    return worst;
}

static struct rect part_of_bar(double x_m, double y_m, int from_mm, int to_mm) {
    return (struct rect){x_m - BAR_LEFT_M, y_m + from_mm * MM - BAR_AROUND_M, x_m + BAR_AROUND_M,
                         y_m + to_mm * MM + BAR_AROUND_M};
}

/* ---- looking for a place ----------------------------------------------- */

static bool joins(const struct ground *ground, int down, int right) {
    const struct planned_sheet *sheet = ground->sheet;
    return sheet->kind == SHEET_TILE &&
           tile_sheet_number(ground->plan, sheet->piece, sheet->row + (size_t)down,
                             sheet->column + (size_t)right) > 0;
}

/* What may be given up where there is no other place, one after the other. */
enum keeping { KEEP_OFF_SEAMS, KEEP_OFF_UPRIGHT_SEAMS, KEEP_IN_WINDOW, KEEPINGS };

/* Where the foot may stand. */
static struct rect range_of(const struct ground *ground, enum keeping keeping) {
    const struct frame *frame = &ground->sheet->frame;
    double strip_m = ground->plan->design->paper.overlap_m / 2 + SEAM_CLEAR_M;
    double across_m = keeping <= KEEP_OFF_UPRIGHT_SEAMS ? strip_m : 0;
    double up_m = keeping == KEEP_OFF_SEAMS ? strip_m : 0;
    double least_y_m = frame->footer_m + BAR_AROUND_M;
    double most_y_m = frame->height_m - PROOF_BAR_M - 0.6 * MM;
    return (struct rect){BAR_LEFT_M + 0.5 * MM + (joins(ground, 0, -1) ? across_m : 0),
                         fmin(least_y_m, most_y_m) + (joins(ground, 1, 0) ? up_m : 0),
                         frame->width_m - BAR_EDGE_M - (joins(ground, 0, 1) ? across_m : 0),
                         most_y_m - (joins(ground, -1, 0) ? up_m : 0)};
}

static int steps_over(double length_m, double step_m) {
    return (int)fmin(STEPS_MOST, ceil(length_m / step_m - 1e-9));
}

/* Where the bar may stand: `at` counts them from the right and from below. */
static bool candidate(const struct ground *ground, int at, struct upright_bar *bar) {
    const struct rect *range = &ground->range;
    if (range->x0_m > range->x1_m || range->y0_m > range->y1_m)
        return false; /* nowhere: the sheet is too small to keep so far from everything */
    int across = steps_over(range->x1_m - range->x0_m, ground->coarse * STEP_ACROSS_M);
    int up = steps_over(range->y1_m - range->y0_m, ground->coarse * STEP_UP_M);
    int column = at / (up + 1), row = at % (up + 1);
    if (column > across)
        return false;
    double left = across > 0 ? (double)column / across : 0, above = up > 0 ? (double)row / up : 0;
    *bar = (struct upright_bar){.x_m = range->x1_m - left * (range->x1_m - range->x0_m),
                                .y_m = range->y0_m + above * (range->y1_m - range->y0_m)};
    return true;
}

/* Leave out the millimetres that meet a line, but never the ends.  Returns: how many meet
 * one, those of the ends counted many times. */
static int find_gaps(const struct ground *ground, struct upright_bar *bar) {
    int gaps = 0;
    bar->gaps = 0;
    for (int i = 0; i < BAR_MM; i++) {
        bool end = i < END_MM || i >= BAR_MM - END_MM;
        if (footing_of(ground, part_of_bar(bar->x_m, bar->y_m, i, i + 1)) != ON_A_LINE)
            continue;
        gaps += end ? BAR_MM : 1;
        bar->gaps |= end ? 0 : (uint64_t)1 << i;
    }
    return gaps;
}

static struct upright_bar least_broken(const struct ground *ground) {
    struct upright_bar best = upright_bar_at_edge(&ground->sheet->frame), bar;
    int fewest = find_gaps(ground, &best);
    for (int at = 0; candidate(ground, at, &bar); at++) {
        int gaps = find_gaps(ground, &bar);
        if (gaps < fewest) {
            best = bar;
            fewest = gaps;
        }
    }
    return best;
}

/* The first place beside the pieces, or else the first on one.  Returns: false for none. */
static bool unbroken(const struct ground *ground, struct upright_bar *found) {
    struct upright_bar bar;
    bool any = false;
    for (int at = 0; candidate(ground, at, &bar); at++) {
        enum footing footing = footing_of(ground, part_of_bar(bar.x_m, bar.y_m, 0, BAR_MM));
        if (footing == BESIDE_PIECES || (footing == ON_A_PIECE && !any))
            *found = bar;
        if (footing == BESIDE_PIECES)
            return true;
        any = any || footing == ON_A_PIECE;
    }
    return any;
}

struct upright_bar upright_bar_on(const struct template_plan *plan,
                                  const struct planned_sheet *sheet) {
    struct ground ground = {
        .plan = plan, .sheet = sheet, .pieces = sheet->kind == SHEET_TILE ? 1 : sheet->count};
    struct upright_bar bar = upright_bar_at_edge(&sheet->frame);
    if (!joins(&ground, 0, 1) &&
        footing_of(&ground, part_of_bar(bar.x_m, bar.y_m, 0, BAR_MM)) == BESIDE_PIECES)
        return bar;
    for (enum keeping keeping = KEEP_OFF_SEAMS; keeping < KEEPINGS; keeping++) {
        ground.range = range_of(&ground, keeping);
        for (ground.coarse = COARSE; ground.coarse >= 1; ground.coarse -= COARSE - 1)
            if (unbroken(&ground, &bar))
                return bar;
    }
    ground.coarse = 1;
    return least_broken(&ground);
}
