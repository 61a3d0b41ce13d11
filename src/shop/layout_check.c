/* layout_check.c - a layout checked on the outlines themselves.
 *
 * This file shares no geometry with what makes layouts: no parts, no regions, no bins.  Two
 * pieces overlap when the area they have in common is more than rounding can make it, or a
 * corner of one lies inside the other; they are too close when two of their edges are.
 */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "gorewright/layout.h"

enum { FAULTS_MOST = 20 };

/* A piece where it lies. */
struct laid {
    const struct layout_outline *outline;
    size_t bolt, number;
    struct flat_point *point; /* owned */
    size_t points;
    struct flat_point least, most;
};

struct checking {
    const struct layout_task *task;
    const struct cloth_layout *layout;
    struct diagnostics *messages;
    struct laid *laid;
    double *room;
    double slack_m;
    size_t faults;
};

static void fault(struct checking *checking, const char *code, const char *format, ...)
    FORMATTED(3, 4);

static void fault(struct checking *checking, const char *code, const char *format, ...) {
    char text[300];
    va_list arguments;
    if (checking->faults++ >= FAULTS_MOST)
        return;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    diagnose(checking->messages, SEVERITY_ERROR, code, "layout", "%s", text);
}

/* ---- single pieces ------------------------------------------------------------------------ */

static bool known_place(struct checking *checking, const struct layout_place *place) {
    const struct layout_task *task = checking->task;
    if (place->outline >= task->outlines || place->bolt >= task->bolts || (int)place->turn < 0 ||
        place->turn >= TURN_COUNT || !isfinite(place->x_m) || !isfinite(place->y_m)) {
        fault(checking, "place", "a place that is none");
        return false;
    }
    if ((task->outline[place->outline].turns & 1u << place->turn) == 0)
        fault(checking, "turned", "piece %s is turned as its cloth does not allow",
              task->outline[place->outline].name);
    return true;
}

static int lay(struct laid *laid, const struct layout_outline *outline,
               const struct layout_place *place, size_t number) {
    *laid = (struct laid){.outline = outline, .bolt = place->bolt, .number = number};
    laid->points = outline->points;
    laid->point = malloc((outline->points + 1) * sizeof *laid->point);
    if (laid->point == NULL)
        return -1;
    laid->least = (struct flat_point){HUGE_VAL, HUGE_VAL};
    laid->most = (struct flat_point){-HUGE_VAL, -HUGE_VAL};
    for (size_t i = 0; i < outline->points; i++) {
        struct flat_point p = laid->point[i] = layout_point(outline->point[i], place);
        laid->least.x_m = fmin(laid->least.x_m, p.x_m);
        laid->least.y_m = fmin(laid->least.y_m, p.y_m);
        laid->most.x_m = fmax(laid->most.x_m, p.x_m);
        laid->most.y_m = fmax(laid->most.y_m, p.y_m);
    }
    return 0;
}

static void check_on_cloth(struct checking *checking, const struct laid *laid) {
    const struct layout_bolt *bolt = &checking->task->bolt[laid->bolt];
    if (laid->least.x_m < -checking->slack_m || laid->least.y_m < -checking->slack_m ||
        laid->most.x_m > bolt->length_m + checking->slack_m ||
        laid->most.y_m > bolt->width_m + checking->slack_m)
        fault(checking, "off-cloth", "piece %s leaves the cloth", laid->outline->name);
    if (laid->most.x_m > checking->layout->used_m[laid->bolt] + checking->slack_m)
        fault(checking, "used", "piece %s lies beyond the length that is said to be used",
              laid->outline->name);
}

static void check_counts(struct checking *checking) {
    for (size_t i = 0; i < checking->task->outlines; i++) {
        size_t count = 0;
        for (size_t k = 0; k < checking->layout->places; k++)
            count += checking->layout->place[k].outline == i;
        if (count != checking->task->outline[i].count)
            fault(checking, "count", "piece %s is laid %zu times, and %zu are to be cut",
                  checking->task->outline[i].name, count, checking->task->outline[i].count);
    }
}

/* ---- common area ---------------------------------------------------------------------------- */

static int by_size(const void *one, const void *other) {
    double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

/* An edge over a slab, by its heights at both ends of it. */
struct height {
    double left, right;
};

static int by_height(const void *one, const void *other) {
    const struct height *a = one, *b = other;
    double x = a->left + a->right, y = b->left + b->right;
    return (x > y) - (x < y);
}

static size_t edges_over(const struct laid *laid, double from, double to, struct height *height) {
    size_t count = 0;
    for (size_t i = 0; i < laid->points; i++) {
        struct flat_point p = laid->point[i], q = laid->point[(i + 1) % laid->points];
        if (p.x_m > q.x_m) {
            struct flat_point swap = p;
            p = q;
            q = swap;
        }
        if (p.x_m > from || q.x_m < to || p.x_m == q.x_m)
            continue;
        double slope = (q.y_m - p.y_m) / (q.x_m - p.x_m);
        height[count++] =
            (struct height){p.y_m + slope * (from - p.x_m), p.y_m + slope * (to - p.x_m)};
    }
    qsort(height, count, sizeof *height, by_height);
    return count;
}

/* Mean over a slab of how far `high` stands above `low`, where it does. */
static double mean_above(struct height high, struct height low) {
    double left = high.left - low.left, right = high.right - low.right;
    if (left >= 0 && right >= 0)
        return (left + right) / 2;
    if (left <= 0 && right <= 0)
        return 0;
    double up = fmax(left, right);
    return up / 2 * up / fabs(right - left);
}

/* Mean over a slab of min(high1, high2) - max(low1, low2), where it is positive, from above:
 * no more than either of the four differences. */
static double mean_common(struct height low1, struct height high1, struct height low2,
                          struct height high2) {
    return fmin(fmin(mean_above(high1, low2), mean_above(high2, low1)),
                fmin(mean_above(high1, low1), mean_above(high2, low2)));
}

static double slab_area(const struct laid *a, const struct laid *b, double from, double to,
                        struct height *room) {
    struct height *ha = room, *hb = room + a->points;
    size_t na = edges_over(a, from, to, ha), nb = edges_over(b, from, to, hb);
    double sum = 0;
    for (size_t i = 0; i + 1 < na; i += 2)
        for (size_t j = 0; j + 1 < nb; j += 2)
            sum += mean_common(ha[i], ha[i + 1], hb[j], hb[j + 1]);
    return sum * (to - from);
}

/* Area that two pieces have in common; at slabs where their edges cross, a little more. */
static double common_area_m2(struct checking *checking, const struct laid *a,
                             const struct laid *b) {
    double from = fmax(a->least.x_m, b->least.x_m), to = fmin(a->most.x_m, b->most.x_m), sum = 0;
    double *x = checking->room;
    size_t count = 0;
    if (to <= from)
        return 0;
    for (size_t i = 0; i < a->points; i++)
        if (a->point[i].x_m > from && a->point[i].x_m < to)
            x[count++] = a->point[i].x_m;
    for (size_t i = 0; i < b->points; i++)
        if (b->point[i].x_m > from && b->point[i].x_m < to)
            x[count++] = b->point[i].x_m;
    x[count++] = from;
    x[count++] = to;
    qsort(x, count, sizeof *x, by_size);
    struct height *room = (struct height *)(void *)(x + count);
    for (size_t i = 0; i + 1 < count; i++)
        if (x[i + 1] > x[i])
            sum += slab_area(a, b, x[i], x[i + 1], room);
    return sum;
}

/* ---- distances --------------------------------------------------------------------------------
 */

static double distance_m(struct flat_point p, struct flat_point a, struct flat_point b) {
    double ux = b.x_m - a.x_m, uy = b.y_m - a.y_m, vx = p.x_m - a.x_m, vy = p.y_m - a.y_m;
    double size = ux * ux + uy * uy, along = size > 0 ? (ux * vx + uy * vy) / size : 0;
    along = fmin(1, fmax(0, along));
    return hypot(vx - along * ux, vy - along * uy);
}

static bool is_inside(const struct laid *laid, struct flat_point p) {
    bool inside = false;
    for (size_t i = 0; i < laid->points; i++) {
        struct flat_point a = laid->point[i], b = laid->point[(i + 1) % laid->points];
        if ((a.y_m > p.y_m) != (b.y_m > p.y_m) &&
            p.x_m < a.x_m + (b.x_m - a.x_m) * (p.y_m - a.y_m) / (b.y_m - a.y_m))
            inside = !inside;
    }
    return inside;
}

/* Distance of a point from an outline, as far as `enough`. */
static double from_outline_m(const struct laid *laid, struct flat_point p, double enough) {
    double least = enough;
    for (size_t i = 0; i < laid->points; i++) {
        struct flat_point a = laid->point[i], b = laid->point[(i + 1) % laid->points];
        if (fmin(a.x_m, b.x_m) - p.x_m >= least || p.x_m - fmax(a.x_m, b.x_m) >= least ||
            fmin(a.y_m, b.y_m) - p.y_m >= least || p.y_m - fmax(a.y_m, b.y_m) >= least)
            continue;
        least = fmin(least, distance_m(p, a, b));
    }
    return least;
}

/* The corners of a that are near b: the deepest inside it, and the nearest outside. */
static void corners_against(const struct laid *a, const struct laid *b, double enough,
                            double *deepest, double *nearest) {
    for (size_t i = 0; i < a->points; i++) {
        struct flat_point p = a->point[i];
        if (p.x_m < b->least.x_m - enough || p.x_m > b->most.x_m + enough ||
            p.y_m < b->least.y_m - enough || p.y_m > b->most.y_m + enough)
            continue;
        if (is_inside(b, p))
            *deepest = fmax(*deepest, from_outline_m(b, p, HUGE_VAL));
        else
            *nearest = fmin(*nearest, from_outline_m(b, p, enough));
    }
}

/* ---- pairs --------------------------------------------------------------------------------------
 */

static double round_m(const struct laid *laid) {
    double sum = 0;
    for (size_t i = 0; i < laid->points; i++) {
        struct flat_point a = laid->point[i], b = laid->point[(i + 1) % laid->points];
        sum += hypot(b.x_m - a.x_m, b.y_m - a.y_m);
    }
    return sum;
}

/* Two outlines that do not overlap are nearest at a corner of one of them. */
static void check_pair(struct checking *checking, const struct laid *a, const struct laid *b) {
    double gap = checking->task->gap_m, enough = gap + checking->slack_m;
    double deepest = 0, nearest = enough;
    if (a->least.y_m > b->most.y_m + gap || b->least.y_m > a->most.y_m + gap)
        return;
    corners_against(a, b, enough, &deepest, &nearest);
    corners_against(b, a, enough, &deepest, &nearest);
    double rounding = 0.01 * checking->slack_m * (round_m(a) + round_m(b));
    if (deepest > checking->slack_m || common_area_m2(checking, a, b) > rounding)
        fault(checking, "overlap", "pieces %s and %s overlap", a->outline->name, b->outline->name);
    else if (nearest < gap - checking->slack_m)
        fault(checking, "gap", "pieces %s and %s lie %.3f mm apart, and the gap is %.3f mm",
              a->outline->name, b->outline->name, nearest * 1e3, gap * 1e3);
}

static int by_place(const void *one, const void *other) {
    const struct laid *a = one, *b = other;
    if (a->bolt != b->bolt)
        return a->bolt < b->bolt ? -1 : 1;
    if (a->least.x_m != b->least.x_m)
        return a->least.x_m < b->least.x_m ? -1 : 1;
    return (a->number > b->number) - (a->number < b->number);
}

static void check_pairs(struct checking *checking, size_t count) {
    qsort(checking->laid, count, sizeof *checking->laid, by_place);
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count; j++) {
            const struct laid *a = &checking->laid[i], *b = &checking->laid[j];
            if (b->bolt != a->bolt || b->least.x_m > a->most.x_m + checking->task->gap_m)
                break;
            check_pair(checking, a, b);
        }
}

/* ---- the door
 * --------------------------------------------------------------------------------------- */

static size_t most_points(const struct layout_task *task) {
    size_t most = 0;
    for (size_t i = 0; i < task->outlines; i++)
        most = task->outline[i].points > most ? task->outline[i].points : most;
    return most;
}

/* Returns: how many pieces lie where pieces can; -1 without memory. */
static int lay_all(struct checking *checking, size_t *count) {
    for (size_t i = 0; i < checking->layout->places; i++) {
        const struct layout_place *place = &checking->layout->place[i];
        if (!known_place(checking, place))
            continue;
        struct laid *laid = &checking->laid[*count];
        if (lay(laid, &checking->task->outline[place->outline], place, i) != 0)
            return -1;
        (*count)++;
        check_on_cloth(checking, laid);
    }
    return 0;
}

int layout_check(const struct layout_task *task, const struct cloth_layout *layout,
                 struct diagnostics *messages) {
    struct checking checking = {.task = task, .layout = layout, .messages = messages};
    checking.slack_m = LAYOUT_SLACK_M;
    size_t count = 0;
    checking.laid = calloc(layout->places + 1, sizeof *checking.laid);
    checking.room = malloc((6 * most_points(task) + 8) * sizeof *checking.room);
    if (checking.laid == NULL || checking.room == NULL || lay_all(&checking, &count) != 0) {
        fault(&checking, "memory", "not enough memory to check the layout");
    } else {
        check_counts(&checking);
        check_pairs(&checking, count);
    }
    for (size_t i = 0; i < count; i++)
        free(checking.laid[i].point);
    free(checking.laid);
    free(checking.room);
    return checking.faults == 0 ? 0 : -1;
}
