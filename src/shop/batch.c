/* batch.c - first layouts in several orders, the best of them shortened. */
#include "shop/batch.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "shop/fill.h"
#include "shop/lanes.h"

/* ---- orders --------------------------------------------------------------------------- */

struct ranked {
    double rank;
    size_t piece;
};

static int by_rank(const void *one, const void *other) {
    const struct ranked *a = one, *b = other;
    if (a->rank != b->rank)
        return a->rank > b->rank ? -1 : 1;
    return (a->piece > b->piece) - (a->piece < b->piece);
}

/* What an order goes by. */
enum order { BY_WIDTH, BY_AREA, AS_GIVEN, BY_LENGTH, BY_GIRTH, ORDERS };

static double rank_of(const struct shape *shape, enum order order) {
    double length = shape_length_m(shape), width = shape_width_m(shape);
    switch (order) {
    case BY_WIDTH:
        return width + 1e-3 * length;
    case BY_LENGTH:
        return length + 1e-3 * width;
    case BY_GIRTH:
        return length + width;
    default:
        return length * width;
    }
}

enum { FILLS = 200 };

/* Everything in use while a batch is laid out. */
struct work {
    struct batch *batch;
    struct strip strip;
    struct filler filler;
    struct separation separation;
    struct ranked *ranked;
    size_t *order, *best; /* the best order so far */
    struct lane_stock *stock;
    size_t *next; /* by outline: its next piece */
    uint64_t until;
};

static const struct shape *first_shape(const struct batch *batch, size_t piece) {
    return &batch->supply->shape[batch->supply->first[batch->outline[piece]]];
}

/* By rank, with some noise after the first time round. */
static void order_by_rank(struct work *work, enum order by, double noise, struct random *random) {
    const struct batch *batch = work->batch;
    for (size_t i = 0; i < batch->pieces; i++) {
        double rank =
            by == AS_GIVEN ? (double)(batch->pieces - i) : rank_of(first_shape(batch, i), by);
        work->ranked[i] = (struct ranked){rank * (1 + noise * (random_share(random) - 0.5)), i};
    }
    qsort(work->ranked, batch->pieces, sizeof *work->ranked, by_rank);
    for (size_t i = 0; i < batch->pieces; i++)
        work->order[i] = work->ranked[i].piece;
}

/* In lanes.  Curved edges may reach into each other: the cloth is taken to be `wider` by a
 * share, and the pieces then find out whether they fit. */
static void order_by_lanes(struct work *work, double wider, double stray, struct random *random) {
    const struct batch *batch = work->batch;
    const struct layout_task *task = batch->supply->task;
    for (size_t i = 0; i < task->outlines; i++)
        work->stock[i] = (struct lane_stock){0};
    for (size_t i = batch->pieces; i-- > 0;) {
        const struct shape *shape = first_shape(batch, i);
        struct lane_stock *stock = &work->stock[batch->outline[i]];
        stock->width_m = shape_width_m(shape) + task->gap_m;
        stock->length_m = shape->area_m2 / shape_width_m(shape) + task->gap_m;
        stock->left++;
        work->next[batch->outline[i]] = i;
    }
    double width = task->bolt[batch->first_bolt + batch->bolts - 1].width_m + task->gap_m;
    lanes_order(work->stock, task->outlines, (1 + wider) * width, stray, random, work->order);
    for (size_t i = 0; i < batch->pieces; i++)
        work->order[i] = work->next[work->order[i]]++;
}

/* The best order so far, but for some pieces that change places. */
static void order_by_change(struct work *work, struct random *random) {
    size_t pieces = work->batch->pieces, run = 1 + random_below(random, 1 + pieces / 16);
    memcpy(work->order, work->best, pieces * sizeof *work->order);
    for (size_t times = 1 + random_below(random, 3); times > 0 && pieces > 2 * run; times--) {
        size_t a = random_below(random, pieces - run), b = random_below(random, pieces - run);
        for (size_t k = 0; k < run; k++) {
            size_t swap = work->order[a + k];
            work->order[a + k] = work->order[b + k];
            work->order[b + k] = swap;
        }
    }
}

/* Ranks and lanes in turn, plain at first, then with some noise. */
static void make_order(struct work *work, size_t fill) {
    struct random random = {fill};
    size_t round = fill / 2;
    if (fill > 3 * ORDERS && fill % 4 > 0)
        order_by_change(work, &random);
    else if (fill % 2 == 0)
        order_by_rank(work, (enum order)(round % ORDERS), round < ORDERS ? 0 : 0.15, &random);
    else
        order_by_lanes(work, 0.02 * (double)(round % 4), round < 4 ? 0 : 0.03, &random);
}

/* ---- bolts as stretches of one strip -------------------------------------------------------- */

static double longest_m(const struct batch *batch) {
    double sum = 0;
    for (size_t i = 0; i < batch->pieces; i++) {
        const struct shape *shape = &batch->supply->shape[batch->supply->first[batch->outline[i]]];
        sum += fmax(shape_length_m(shape), shape_width_m(shape)) + 2 * batch->supply->task->gap_m;
    }
    return 1.25 * sum; /* loosened outlines stand out a little */
}

static int lay_stretches(struct work *work) {
    struct batch *batch = work->batch;
    const struct layout_task *task = batch->supply->task;
    struct stretch *stretch = malloc(batch->bolts * sizeof *stretch);
    batch->start_m = malloc(batch->bolts * sizeof *batch->start_m);
    if (stretch == NULL || batch->start_m == NULL) {
        free(stretch);
        return -1;
    }
    double start = 0;
    for (size_t k = 0; k < batch->bolts; k++) {
        const struct layout_bolt *bolt = &task->bolt[batch->first_bolt + k];
        double length = k + 1 == batch->bolts ? longest_m(batch) : bolt->length_m;
        stretch[k] = (struct stretch){batch->first_bolt + k, start, length, bolt->width_m};
        batch->start_m[k] = start;
        start += length + 2 * task->gap_m + 0.01 * bolt->width_m;
    }
    int status = strip_make(batch->supply, batch->outline, batch->pieces, stretch, batch->bolts,
                            &work->strip);
    free(stretch);
    return status;
}

static bool ask_to_carry_on(void *context, double used_m, uint64_t looks) {
    const struct work *work = context;
    const struct layout_task *task = work->batch->supply->task;
    if (task->carry_on == NULL)
        return true;
    struct layout_progress progress = {fmin(1, (double)looks / (double)work->until), used_m};
    return task->carry_on(task->context, &progress);
}

/* Whether no layout can be better than the best so far, but for rounding. */
static bool is_shortest(const struct work *work) {
    const struct batch *batch = work->batch;
    return batch->found.used_m < HUGE_VAL && batch->found.open + 1 == batch->bolts &&
           batch->found.used_m <= batch->bound_m + LAYOUT_SLACK_M;
}

static bool ask_unless_shortest(void *context, double used_m, uint64_t looks) {
    const struct work *work = context;
    return !is_shortest(work) && ask_to_carry_on(context, used_m, looks);
}

/* Work of an effort: between two and three times as much with each step, so that the usual one
 * takes less than a second for 300 pieces on a slow machine, and the most about half a minute. */
static const double EFFORT_RATIO = 2.6;

static uint64_t looks_of(int effort, size_t pieces) {
    double looks = 56000.0 * (double)pieces;
    if (effort >= EFFORT_USUAL)
        looks = fmax(looks, 15e6); /* few pieces: what the time allows; below, what is quick */
    for (int e = EFFORT_USUAL; e < effort; e++)
        looks *= EFFORT_RATIO;
    for (int e = EFFORT_USUAL; e > effort; e--)
        looks /= EFFORT_RATIO;
    return (uint64_t)looks;
}

static bool make_room(struct work *work) {
    struct batch *batch = work->batch;
    work->order = malloc(batch->pieces * sizeof *work->order);
    work->best = malloc(batch->pieces * sizeof *work->best);
    work->ranked = malloc(batch->pieces * sizeof *work->ranked);
    batch->found.spot = malloc(batch->pieces * sizeof *batch->found.spot);
    work->stock = malloc((batch->supply->task->outlines + 1) * sizeof *work->stock);
    work->next = malloc((batch->supply->task->outlines + 1) * sizeof *work->next);
    if (work->stock == NULL || work->next == NULL || work->order == NULL || work->best == NULL ||
        work->ranked == NULL || batch->found.spot == NULL)
        return false;
    for (size_t i = 0; i < batch->pieces; i++)
        work->best[i] = i;
    return lay_stretches(work) == 0 && filler_make(&work->strip, &work->filler) == 0 &&
           separation_make(&work->strip, &work->separation) == 0;
}

static void clear_room(struct work *work) {
    separation_free(&work->separation);
    filler_free(&work->filler);
    strip_free(&work->strip);
    free(work->order);
    free(work->best);
    free(work->ranked);
    free(work->stock);
    free(work->next);
}

static void keep_order(struct work *work) {
    if (found_keep(&work->batch->found, &work->strip))
        memcpy(work->best, work->order, work->batch->pieces * sizeof *work->best);
}

/* The first order is always tried, however small the effort; half of the usual effort goes
 * into others, and no more however great it is. */
static void fill_in_orders(struct work *work) {
    uint64_t until = looks_of(EFFORT_USUAL, work->batch->pieces) / 2;
    until = work->until < until ? work->until : until;
    for (size_t fill = 0;
         fill < FILLS && (fill == 0 || work->strip.looks < until) && !is_shortest(work); fill++) {
        make_order(work, fill);
        if (fill_strip(&work->strip, &work->filler, work->order))
            keep_order(work);
        if (!ask_to_carry_on(work, work->batch->found.used_m, work->strip.looks))
            until = work->until = 0;
    }
}

int batch_lay(struct batch *batch) {
    struct work work = {.batch = batch};
    int effort = batch->supply->task->effort, status = -1;
    batch->found = (struct found){.open = batch->bolts, .used_m = HUGE_VAL};
    work.until = looks_of(effort == 0 ? EFFORT_USUAL : effort, batch->pieces);
    if (make_room(&work)) {
        fill_in_orders(&work);
        status = batch->found.used_m == HUGE_VAL ? 1 : 0;
        if (status == 0)
            found_shorten(&work.separation, &batch->found, work.until, ask_unless_shortest, &work);
        if (batch->supply->out_of_memory)
            status = -1;
    }
    clear_room(&work);
    return status;
}

void batch_free(struct batch *batch) {
    free(batch->found.spot);
    free(batch->start_m);
    batch->found.spot = NULL;
    batch->start_m = NULL;
}
