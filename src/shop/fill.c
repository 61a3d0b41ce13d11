/* fill.c - a first layout: one piece after another, each where it ends soonest. */
#include "shop/fill.h"

#include <math.h>
#include <stdlib.h>

int filler_make(const struct strip *strip, struct filler *filler) {
    *filler = (struct filler){.capacity = 4 * strip->pieces + 64};
    filler->frontier = malloc(strip->supply->shapes * strip->stretches * sizeof(double));
    filler->used = malloc(strip->stretches * sizeof(double));
    filler->height = malloc(filler->capacity * sizeof(double));
    if (filler->frontier != NULL && filler->used != NULL && filler->height != NULL)
        return 0;
    filler_free(filler);
    return -1;
}

void filler_free(struct filler *filler) {
    free(filler->frontier);
    free(filler->used);
    free(filler->height);
    *filler = (struct filler){0};
}

/* ---- where across the strip ------------------------------------------------------------ */

enum { EVEN_HEIGHTS = 6 };

static int by_size(const void *one, const void *other) {
    double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

static void add_height(struct filler *filler, double y, double least, double most) {
    if (y >= least && y <= most && filler->heights < filler->capacity)
        filler->height[filler->heights++] = y;
}

/* Both edges of the cloth, touching what lies there from above and from below, and a few
 * positions spread evenly. */
static void list_heights(struct strip *strip, struct filler *filler, const struct line *line,
                         double least, double most) {
    const struct supply *supply = strip->supply;
    double gap = supply->task->gap_m;
    const uint32_t *near;
    filler->heights = 0;
    add_height(filler, least, least, most);
    add_height(filler, most, least, most);
    for (int k = 1; k < EVEN_HEIGHTS; k++)
        add_height(filler, least + (most - least) * k / EVEN_HEIGHTS, least, most);
    size_t count =
        strip_between(strip, line->piece, line->from + supply->shape[line->shape].least.x_m,
                      line->to + supply->shape[line->shape].most.x_m, &near);
    for (size_t i = 0; i < count; i++) {
        const struct spot *spot = &strip->spot[near[i]];
        const struct shape *there = &supply->shape[spot->shape],
                           *mine = &supply->shape[line->shape];
        if (spot->x_m + there->most.x_m + gap <= line->from + mine->least.x_m)
            continue;
        add_height(filler, spot->y_m + there->most.y_m + gap - mine->least.y_m, least, most);
        add_height(filler, spot->y_m + there->least.y_m - gap - mine->most.y_m, least, most);
    }
    qsort(filler->height, filler->heights, sizeof(double), by_size);
    size_t kept = 0;
    for (size_t i = 0; i < filler->heights; i++)
        if (kept == 0 || filler->height[i] > filler->height[kept - 1] + supply->touch_m)
            filler->height[kept++] = filler->height[i];
    filler->heights = kept;
}

/* ---- one piece --------------------------------------------------------------------------- */

struct choice {
    size_t shape, stretch;
    double x_m, y_m, end_m;
};

/* Towards the edge and the beginning of the cloth in turn, as long as the way is free. */
static void settle(struct strip *strip, const struct line *along, double least_y, double *x,
                   double *y) {
    for (int turn = 0; turn < 3; turn++) {
        struct line down = {along->piece, along->shape, ACROSS, *x, least_y, *y};
        struct line back = {along->piece, along->shape, ALONG, 0, along->from, *x};
        double was_x = *x, was_y = *y;
        *y = line_slide_back(strip, &down, *y);
        back.other = *y;
        *x = line_slide_back(strip, &back, *x);
        if (was_x - *x <= strip->supply->touch_m && was_y - *y <= strip->supply->touch_m)
            return;
    }
}

static void try_shape(struct strip *strip, struct filler *filler, size_t piece, size_t shape_at,
                      size_t stretch_at, struct choice *best) {
    const struct shape *shape = &strip->supply->shape[shape_at];
    const struct stretch *stretch = &strip->stretch[stretch_at];
    double *frontier = &filler->frontier[shape_at * strip->stretches + stretch_at];
    double least = -shape->least.y_m, most = stretch->width_m - shape->most.y_m;
    double end = stretch->start_m + stretch->length_m - shape->most.x_m;
    if (most < least - strip->supply->touch_m || *frontier > end + strip->supply->touch_m)
        return;
    most = fmax(most, least);
    /* loosened outlines stand out a little, so not quite at once after all that lies there */
    double beyond = stretch->start_m + filler->used[stretch_at] + 2 * strip->supply->task->gap_m +
                    shape_length_m(shape) / 4 - shape->least.x_m;
    struct line line = {piece, shape_at, ALONG, 0, *frontier, fmin(end, beyond)};
    list_heights(strip, filler, &line, least, most);
    double soonest = HUGE_VAL;
    for (size_t i = 0; i < filler->heights; i++) {
        double x, y = line.other = filler->height[i];
        line.to = fmin(line.to, best->end_m - shape->most.x_m + 0.1 * shape_length_m(shape));
        bool found = line_first_free(strip, &line, &x);
        soonest = fmin(soonest, found ? x : line.to);
        if (!found)
            continue;
        settle(strip, &line, least, &x, &y);
        if (x + shape->most.x_m < best->end_m - strip->supply->touch_m)
            *best = (struct choice){shape_at, stretch_at, x, y, x + shape->most.x_m};
    }
    *frontier = fmax(*frontier, soonest - shape_length_m(shape) / 4);
}

static bool lay_piece(struct strip *strip, struct filler *filler, size_t piece) {
    const struct supply *supply = strip->supply;
    size_t outline = strip->outline[piece];
    for (size_t k = 0; k < strip->stretches; k++) {
        struct choice best = {.end_m = HUGE_VAL};
        for (size_t s = supply->first[outline]; s < supply->first[outline + 1]; s++)
            try_shape(strip, filler, piece, s, k, &best);
        if (best.end_m == HUGE_VAL)
            continue;
        strip_put(strip, piece, best.shape, best.x_m, best.y_m);
        filler->used[k] = fmax(filler->used[k], best.end_m - strip->stretch[k].start_m);
        return true;
    }
    return false;
}

bool fill_strip(struct strip *strip, struct filler *filler, const size_t *order) {
    for (size_t i = 0; i < strip->pieces; i++)
        strip_take(strip, i);
    for (size_t k = 0; k < strip->stretches; k++) {
        filler->used[k] = 0;
        for (size_t s = 0; s < strip->supply->shapes; s++)
            filler->frontier[s * strip->stretches + k] =
                strip->stretch[k].start_m - strip->supply->shape[s].least.x_m;
    }
    for (size_t i = 0; i < strip->pieces; i++)
        if (!lay_piece(strip, filler, order[i]))
            return false;
    return true;
}
