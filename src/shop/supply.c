/* supply.c - all outlines at all their turns, and the regions between them. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "shop/strip.h"

/* How much an outline may be enlarged to be laid out faster: a share of its area, and of the
 * root of its area for a single step. */
static const double LOOSER_AREA = 0.0025, LOOSER_DEPTH = 0.01;

static struct flat_point turned(struct flat_point point, enum turn turn) {
    struct layout_place place = {.turn = turn};
    return layout_point(point, &place);
}

static void box_of(const struct layout_outline *outline, struct shape *shape) {
    shape->least = (struct flat_point){HUGE_VAL, HUGE_VAL};
    shape->most = (struct flat_point){-HUGE_VAL, -HUGE_VAL};
    for (size_t i = 0; i < outline->points; i++) {
        struct flat_point p = turned(outline->point[i], shape->turn);
        shape->least.x_m = fmin(shape->least.x_m, p.x_m);
        shape->least.y_m = fmin(shape->least.y_m, p.y_m);
        shape->most.x_m = fmax(shape->most.x_m, p.x_m);
        shape->most.y_m = fmax(shape->most.y_m, p.y_m);
    }
}

static int turned_parts(const struct convex_parts *parts, struct shape *shape) {
    size_t corners = parts->first[parts->parts];
    shape->parts.parts = parts->parts;
    shape->parts.point = malloc(corners * sizeof *shape->parts.point);
    shape->parts.first = malloc((parts->parts + 1) * sizeof *shape->parts.first);
    if (shape->parts.point == NULL || shape->parts.first == NULL)
        return -1;
    memcpy(shape->parts.first, parts->first, (parts->parts + 1) * sizeof *parts->first);
    for (size_t i = 0; i < corners; i++)
        shape->parts.point[i] = turned(parts->point[i], shape->turn);
    return 0;
}

/* Returns 0; 1 when it is no outline; -1 without memory. */
static int loose_parts(const struct layout_outline *outline, struct convex_parts *parts) {
    struct flat_point *corner = malloc((outline->points + 1) * sizeof *corner);
    if (corner == NULL)
        return -1;
    memcpy(corner, outline->point, outline->points * sizeof *corner);
    size_t count = polygon_corners(corner, outline->points);
    double area = polygon_area_m2(corner, count);
    int status = 1;
    if (count >= 3 && isfinite(area) && area > 0) {
        count = polygon_loosened(corner, count, LOOSER_AREA * area, LOOSER_DEPTH * sqrt(area));
        status = convex_parts_of(corner, count, parts);
        if (status == 0 && parts->parts == 0)
            status = 1;
    }
    free(corner);
    return status;
}

static int add_shapes(struct supply *supply, size_t outline) {
    const struct layout_outline *from = &supply->task->outline[outline];
    struct convex_parts parts = {0};
    int status = loose_parts(from, &parts);
    for (int turn = 0; status == 0 && turn < TURN_COUNT; turn++)
        if ((from->turns & 1u << turn) != 0) {
            struct shape *shape = &supply->shape[supply->shapes++];
            *shape = (struct shape){.outline = outline, .turn = (enum turn)turn};
            shape->area_m2 = fabs(polygon_area_m2(from->point, from->points));
            box_of(from, shape);
            status = turned_parts(&parts, shape);
        }
    convex_parts_free(&parts);
    return status;
}

static double widest_bolt_m(const struct layout_task *task) {
    double most = 0;
    for (size_t i = 0; i < task->bolts; i++)
        most = fmax(most, task->bolt[i].width_m);
    return most;
}

/* A seventh of the side of a square of the mean area. */
static double deep_m(const struct supply *supply) {
    double area = 0;
    for (size_t i = 0; i < supply->shapes; i++)
        area += shape_length_m(&supply->shape[i]) * shape_width_m(&supply->shape[i]);
    return sqrt(area / (double)supply->shapes) / 7;
}

int supply_make(const struct layout_task *task, struct supply *supply, size_t *bad) {
    *supply = (struct supply){.task = task, .touch_m = 1e-10 * widest_bolt_m(task)};
    *bad = task->outlines;
    supply->shape = calloc(TURN_COUNT * task->outlines, sizeof *supply->shape);
    supply->first = malloc((task->outlines + 1) * sizeof *supply->first);
    if (supply->shape == NULL || supply->first == NULL)
        goto fail;
    for (size_t i = 0; i < task->outlines; i++) {
        supply->first[i] = supply->shapes;
        int status = add_shapes(supply, i);
        if (status > 0)
            *bad = i;
        if (status != 0)
            goto fail;
    }
    supply->first[task->outlines] = supply->shapes;
    supply->nofits = calloc(supply->shapes * supply->shapes, sizeof *supply->nofits);
    supply->depth_m = deep_m(supply);
    if (supply->nofits != NULL)
        return 0;
fail:
    supply_free(supply);
    return -1;
}

void supply_free(struct supply *supply) {
    for (size_t i = 0; supply->nofits != NULL && i < supply->shapes * supply->shapes; i++)
        nofit_free(&supply->nofits[i]);
    for (size_t i = 0; supply->shape != NULL && i < supply->shapes; i++)
        convex_parts_free(&supply->shape[i].parts);
    free(supply->nofits);
    free(supply->shape);
    free(supply->first);
    *supply = (struct supply){0};
}

const struct nofit *supply_nofit(struct supply *supply, size_t a, size_t b) {
    struct nofit *nofit = &supply->nofits[a * supply->shapes + b];
    if (nofit->memory == NULL &&
        nofit_make(&supply->shape[a], &supply->shape[b], supply->task->gap_m, nofit) != 0) {
        supply->out_of_memory = true;
        return NULL;
    }
    return nofit;
}
