/* layout.c - the door: what is laid on which bolts, in which orders, with how much effort. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "shop/batch.h"

struct flat_point layout_point(struct flat_point point, const struct layout_place *place) {
    double x = point.x_m, y = point.y_m;
    switch (place->turn) {
    case TURN_90:
        return (struct flat_point){place->x_m - y, place->y_m + x};
    case TURN_180:
        return (struct flat_point){place->x_m - x, place->y_m - y};
    case TURN_270:
        return (struct flat_point){place->x_m + y, place->y_m - x};
    default:
        return (struct flat_point){place->x_m + x, place->y_m + y};
    }
}

struct layout_box layout_box(const struct layout_outline *outline,
                             const struct layout_place *place) {
    struct layout_box box = {{HUGE_VAL, HUGE_VAL}, {-HUGE_VAL, -HUGE_VAL}};
    for (size_t i = 0; i < outline->points; i++) {
        struct flat_point point = layout_point(outline->point[i], place);
        box.least.x_m = fmin(box.least.x_m, point.x_m);
        box.least.y_m = fmin(box.least.y_m, point.y_m);
        box.most.x_m = fmax(box.most.x_m, point.x_m);
        box.most.y_m = fmax(box.most.y_m, point.y_m);
    }
    return box;
}

void layout_free(struct cloth_layout *layout) {
    free(layout->place);
    free(layout->used_m);
    *layout = (struct cloth_layout){0};
}

/* ---- is it a task? --------------------------------------------------------------------- */

static void complain(struct diagnostics *messages, const char *code, const char *format, ...)
    FORMATTED(3, 4);

static void complain(struct diagnostics *messages, const char *code, const char *format, ...) {
    char text[400];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    diagnose(messages, SEVERITY_ERROR, code, "layout", "%s", text);
}

static bool bolts_good(const struct layout_task *task, struct diagnostics *messages) {
    if (task->bolts == 0) {
        complain(messages, "bolt", "there is no cloth to lay the pieces on");
        return false;
    }
    for (size_t i = 0; i < task->bolts; i++)
        if (!(task->bolt[i].width_m > 0 && task->bolt[i].width_m < 1e6 &&
              task->bolt[i].length_m > 0)) {
            complain(messages, "bolt",
                     "bolt %zu has no cloth on it: width and length must be more "
                     "than 0",
                     i + 1);
            return false;
        }
    if (!(task->gap_m >= 0 && task->gap_m < 1)) {
        complain(messages, "gap", "the gap between pieces is to be 0 to 1 m");
        return false;
    }
    return true;
}

static size_t pieces_in(const struct layout_task *task) {
    size_t sum = 0;
    for (size_t i = 0; i < task->outlines; i++)
        sum += task->outline[i].count;
    return sum;
}

/* ---- which piece on which bolts ---------------------------------------------------------- */

/* Whether one of an outline's turns fits the cloth of a bolt. */
static bool fits(const struct supply *supply, size_t outline, const struct layout_bolt *bolt) {
    for (size_t s = supply->first[outline]; s < supply->first[outline + 1]; s++)
        if (shape_width_m(&supply->shape[s]) <= bolt->width_m + supply->touch_m &&
            shape_length_m(&supply->shape[s]) <= bolt->length_m + supply->touch_m)
            return true;
    return false;
}

/* One past the bolts of the batch that begins with bolt `first`: a bolt without end is the
 * last that any piece needs. */
static size_t batch_end(const struct layout_task *task, size_t first) {
    size_t end = first;
    while (end < task->bolts && isfinite(task->bolt[end].length_m))
        end++;
    return end < task->bolts ? end + 1 : end;
}

static bool fits_any(const struct supply *supply, size_t outline, size_t first, size_t end) {
    for (size_t k = first; k < end; k++)
        if (fits(supply, outline, &supply->task->bolt[k]))
            return true;
    return false;
}

static void complain_of_size(const struct supply *supply, size_t outline,
                             struct diagnostics *messages) {
    const struct layout_task *task = supply->task;
    double least = HUGE_VAL, widest = 0;
    for (size_t s = supply->first[outline]; s < supply->first[outline + 1]; s++)
        least = fmin(least, shape_width_m(&supply->shape[s]));
    for (size_t k = 0; k < task->bolts; k++)
        widest = fmax(widest, task->bolt[k].width_m);
    if (least > widest)
        complain(messages, "piece-too-wide",
                 "piece %s takes %.3f m of the cloth's width, and the widest cloth has %.3f m "
                 "between its selvedges: take a wider cloth, or smaller pieces",
                 task->outline[outline].name, least, widest);
    else
        complain(messages, "piece-too-long",
                 "piece %s fits none of the pieces of cloth there are: add a larger one",
                 task->outline[outline].name);
}

static bool all_fit(const struct supply *supply, struct diagnostics *messages) {
    size_t errors = messages->errors;
    for (size_t i = 0; i < supply->task->outlines; i++)
        if (supply->task->outline[i].count > 0 && !fits_any(supply, i, 0, supply->task->bolts))
            complain_of_size(supply, i, messages);
    return messages->errors == errors;
}

/* ---- from batches to a layout ---------------------------------------------------------------- */

struct making {
    struct supply supply;
    struct cloth_layout *layout;
    struct diagnostics *messages;
    size_t *outline, *number; /* of the pieces of one batch */
    bool *laid;               /* by outline */
};

/* The pieces that go on bolts first .. end - 1. */
static size_t choose_pieces(struct making *making, size_t first, size_t end) {
    const struct layout_task *task = making->supply.task;
    size_t count = 0, number = 0;
    for (size_t i = 0; i < task->outlines; i++) {
        bool goes = !making->laid[i] && fits_any(&making->supply, i, first, end);
        for (size_t k = 0; k < task->outline[i].count; k++, number++)
            if (goes) {
                making->outline[count] = i;
                making->number[count++] = number;
            }
        making->laid[i] = making->laid[i] || goes;
    }
    return count;
}

static void note_places(struct making *making, const struct batch *batch) {
    for (size_t i = 0; i < batch->pieces; i++) {
        const struct spot *spot = &batch->found.spot[i];
        const struct shape *shape = &making->supply.shape[spot->shape];
        size_t k = batch->bolts - 1;
        double middle = spot->x_m + (shape->least.x_m + shape->most.x_m) / 2;
        while (k > 0 && middle < batch->start_m[k])
            k--;
        size_t bolt = batch->first_bolt + k;
        double x = spot->x_m - batch->start_m[k];
        making->layout->place[making->number[i]] =
            (struct layout_place){shape->outline, bolt, shape->turn, x, spot->y_m};
        making->layout->used_m[bolt] = fmax(making->layout->used_m[bolt], x + shape->most.x_m);
    }
}

/* The first piece that stands out beyond the end of its bolt. */
static const char *first_beyond(const struct making *making, const struct batch *batch) {
    const struct layout_task *task = making->supply.task;
    for (size_t i = 0; i < batch->pieces; i++) {
        const struct layout_place *place = &making->layout->place[making->number[i]];
        const struct shape *shape = &making->supply.shape[batch->found.spot[i].shape];
        if (place->x_m + shape->most.x_m > task->bolt[place->bolt].length_m + 0.1 * LAYOUT_SLACK_M)
            return task->outline[place->outline].name;
    }
    return NULL;
}

static int lay_batch(struct making *making, size_t first, size_t end) {
    struct batch batch = {.supply = &making->supply, .first_bolt = first, .bolts = end - first};
    batch.outline = making->outline;
    batch.bound_m = first == 0 && end == making->supply.task->bolts
                        ? layout_lower_bound_m(making->supply.task)
                        : 0;
    batch.pieces = choose_pieces(making, first, end);
    if (batch.pieces == 0)
        return 0;
    int status = batch_lay(&batch);
    if (status == 0) {
        note_places(making, &batch);
        const char *beyond = first_beyond(making, &batch);
        if (beyond != NULL) {
            complain(making->messages, "no-room",
                     "the cloth is too short: piece %s would end %.3f m beyond it; add cloth, or "
                     "allow more effort",
                     beyond,
                     making->layout->used_m[end - 1] - making->supply.task->bolt[end - 1].length_m);
            status = -1;
        }
    } else if (status > 0) {
        complain(making->messages, "no-room",
                 "the pieces of cloth there are do not take all that must go on them: add cloth");
    } else {
        complain(making->messages, "memory", "not enough memory for the layout");
    }
    batch_free(&batch);
    return status;
}

void layout_measure(const struct layout_task *task, struct cloth_layout *layout) {
    layout->area_m2 = layout->cloth_m2 = 0;
    for (size_t k = 0; k < task->bolts; k++)
        layout->used_m[k] = 0;
    for (size_t i = 0; i < layout->places; i++) {
        const struct layout_place *place = &layout->place[i];
        struct layout_box box = layout_box(&task->outline[place->outline], place);
        layout->used_m[place->bolt] = fmax(layout->used_m[place->bolt], box.most.x_m);
    }
    for (size_t i = 0; i < task->outlines; i++)
        layout->area_m2 += (double)task->outline[i].count *
                           fabs(polygon_area_m2(task->outline[i].point, task->outline[i].points));
    for (size_t k = 0; k < task->bolts; k++)
        layout->cloth_m2 += layout->used_m[k] * task->bolt[k].width_m;
    layout->use = layout->cloth_m2 > 0 ? layout->area_m2 / layout->cloth_m2 : 0;
    layout->area_bound_m = layout_area_bound_m(task);
    layout->lower_bound_m = layout_lower_bound_m(task);
}

static int make_supply(struct making *making, const struct layout_task *task) {
    size_t bad;
    if (supply_make(task, &making->supply, &bad) == 0)
        return 0;
    if (bad < task->outlines)
        complain(making->messages, "outline", "piece %s has no outline that could be cut",
                 task->outline[bad].name);
    else
        complain(making->messages, "memory", "not enough memory for the layout");
    return -1;
}

static int lay_batches(struct making *making) {
    const struct layout_task *task = making->supply.task;
    int status = 0;
    for (size_t first = 0, end; status == 0 && first < task->bolts; first = end) {
        end = batch_end(task, first);
        status = lay_batch(making, first, end);
    }
    return status;
}

int layout_make(const struct layout_task *task, struct cloth_layout *layout,
                struct diagnostics *messages) {
    struct making making = {.layout = layout, .messages = messages};
    size_t pieces = pieces_in(task);
    int status = -1;
    *layout = (struct cloth_layout){.places = pieces, .bolts = task->bolts};
    if (!bolts_good(task, messages) || make_supply(&making, task) != 0)
        return -1;
    layout->place = calloc(pieces + 1, sizeof *layout->place);
    layout->used_m = calloc(task->bolts + 1, sizeof *layout->used_m);
    making.outline = malloc((pieces + 1) * sizeof *making.outline);
    making.number = malloc((pieces + 1) * sizeof *making.number);
    making.laid = calloc(task->outlines + 1, sizeof *making.laid);
    if (layout->place == NULL || layout->used_m == NULL || making.outline == NULL ||
        making.number == NULL || making.laid == NULL)
        complain(messages, "memory", "not enough memory for the layout");
    else if (all_fit(&making.supply, messages))
        status = lay_batches(&making);
    if (status == 0)
        layout_measure(task, layout);
    else
        layout_free(layout);
    supply_free(&making.supply);
    free(making.outline);
    free(making.number);
    free(making.laid);
    return status == 0 ? 0 : -1;
}
