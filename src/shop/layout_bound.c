/* layout_bound.c - lengths of cloth that no layout can undercut. */
#include <math.h>
#include <stdlib.h>

#include "gorewright/layout.h"

static double area_m2(const struct layout_outline *outline) {
    double twice = 0;
    for (size_t i = 0; i < outline->points; i++) {
        struct flat_point a = outline->point[i], b = outline->point[(i + 1) % outline->points];
        twice += a.x_m * b.y_m - a.y_m * b.x_m;
    }
    return fabs(twice) / 2;
}

double layout_area_bound_m(const struct layout_task *task) {
    double area = 0;
    if (task->bolts == 0)
        return 0;
    for (size_t i = 0; i < task->outlines; i++)
        area += (double)task->outline[i].count * area_m2(&task->outline[i]);
    for (size_t k = 0; k + 1 < task->bolts; k++)
        area -= task->bolt[k].width_m * task->bolt[k].length_m;
    return fmax(0, area / task->bolt[task->bolts - 1].width_m);
}

/* ---- how many find room side by side ---------------------------------------------------------
 *
 * On a line across the cloth each piece takes the share t of the width, gap included, and the
 * shares of all pieces on the line add up to 1 at most.  Then so do, for any whole k, the sums of
 * floor((k + 1) t) / k over pieces whose (k + 1) t is no whole number (a dual feasible
 * function: G. S. Lueker, "Bin packing with items uniformly distributed over intervals [a, b]",
 * 1983; from memory).  Taken over all lines, the sum is a length of cloth that is needed.
 */
enum { SHARES_MOST = 24 };

static int by_size(const void *one, const void *other) {
    double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

/* How much of the line at `along` lies inside the outline, when the line is moved by nothing
 * to its left (side -1) or right (side 1). */
static double inside_m(const struct layout_outline *outline, bool upright, double from, double to,
                       double at, double *crossing) {
    size_t count = 0;
    for (size_t i = 0; i < outline->points; i++) {
        struct flat_point p = outline->point[i], q = outline->point[(i + 1) % outline->points];
        double px = upright ? p.y_m : p.x_m, py = upright ? p.x_m : p.y_m,
               qx = upright ? q.y_m : q.x_m, qy = upright ? q.x_m : q.y_m;
        if (fmin(px, qx) <= from && fmax(px, qx) >= to && px != qx)
            crossing[count++] = py + (qy - py) * (at - px) / (qx - px);
    }
    qsort(crossing, count, sizeof *crossing, by_size);
    double sum = 0;
    for (size_t i = 0; i + 1 < count; i += 2)
        sum += crossing[i + 1] - crossing[i];
    return sum;
}

/* The mean of floor(t) while t goes evenly from a to b. */
static double mean_floor(double a, double b) {
    double low = fmin(a, b), high = fmax(a, b), sum = 0;
    if (high - low < 1e-12)
        return floor(low);
    for (double m = 1; m <= high; m++)
        sum += fmin(1, (high - m) / (high - low));
    return sum;
}

/* Adds to need[k] what one outline takes, for each k. */
static void add_need(const struct layout_outline *outline, double width_m, double gap_m,
                     double *room, double need[SHARES_MOST + 1]) {
    bool upright = (outline->turns & TURNS_90_270) != 0;
    double *station = room, *crossing = room + outline->points;
    for (size_t i = 0; i < outline->points; i++)
        station[i] = upright ? outline->point[i].y_m : outline->point[i].x_m;
    qsort(station, outline->points, sizeof *station, by_size);
    for (size_t i = 0; i + 1 < outline->points; i++) {
        double from = station[i], to = station[i + 1];
        if (to <= from)
            continue;
        double first = inside_m(outline, upright, from, to, from, crossing),
               last = inside_m(outline, upright, from, to, to, crossing);
        double a = (first + gap_m) / (width_m + gap_m), b = (last + gap_m) / (width_m + gap_m);
        for (int k = 1; k <= SHARES_MOST; k++)
            need[k] += (double)outline->count * (to - from) / k *
                       mean_floor((k + 1) * a - 1e-9, (k + 1) * b - 1e-9);
    }
}

static bool lies_one_way(const struct layout_outline *outline) {
    return (outline->turns & TURNS_0_180) == 0 || (outline->turns & TURNS_90_270) == 0;
}

double layout_lower_bound_m(const struct layout_task *task) {
    double bound = layout_area_bound_m(task), need[SHARES_MOST + 1] = {0};
    if (task->bolts != 1)
        return bound;
    for (size_t i = 0; i < task->outlines; i++) {
        const struct layout_outline *outline = &task->outline[i];
        double *room = malloc((2 * outline->points + 2) * sizeof *room);
        if (room == NULL)
            return bound;
        if (lies_one_way(outline))
            add_need(outline, task->bolt[0].width_m, task->gap_m, room, need);
        free(room);
    }
    for (int k = 1; k <= SHARES_MOST; k++)
        bound = fmax(bound, need[k]);
    return bound;
}
