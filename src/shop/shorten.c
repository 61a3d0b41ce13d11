/* shorten.c - the last stretch in use cut shorter, and the pieces brought to fit again. */
#include "shop/shorten.h"

#include <math.h>
#include <string.h>

bool found_better(const struct found *one, const struct found *other) {
    return one->open < other->open || (one->open == other->open && one->used_m < other->used_m);
}

bool found_keep(struct found *found, const struct strip *strip) {
    struct found now = {.spot = found->spot};
    for (size_t k = strip->stretches; k-- > 0;) {
        now.open = k;
        now.used_m = strip_used_m(strip, k);
        if (now.used_m > 0)
            break;
    }
    if (!found_better(&now, found))
        return false;
    *found = now;
    memcpy(found->spot, strip->spot, strip->pieces * sizeof *strip->spot);
    return true;
}

/* ---- making it too short ---------------------------------------------------------------- */

static void shift(struct strip *strip, size_t piece, double by_m) {
    struct spot spot = strip->spot[piece];
    strip_take(strip, piece);
    strip_put(strip, piece, spot.shape, spot.x_m + by_m, spot.y_m);
}

/* Take a slice out of the open stretch: what begins beyond it moves back, and nothing may
 * stand out at either end. */
static void take_slice_out(struct strip *strip, size_t open, double at_m, double slice_m) {
    const struct stretch *stretch = &strip->stretch[open];
    for (size_t i = 0; i < strip->pieces; i++) {
        const struct shape *shape = &strip->supply->shape[strip->spot[i].shape];
        double begin = strip->spot[i].x_m + shape->least.x_m - stretch->start_m,
               end = begin + shape_length_m(shape), by = 0;
        if (begin < -strip->supply->touch_m || end <= 0)
            continue; /* it lies on an earlier stretch */
        if (begin > at_m)
            by = -slice_m;
        by = fmin(by, stretch->length_m - end);
        by = fmax(by, -begin);
        if (by != 0)
            shift(strip, i, by);
    }
}

/* Pieces longer than the stretch has become must go elsewhere: they are laid at the start of
 * the first stretch that can take them, overlaps and all. */
static bool move_too_long(struct strip *strip, size_t open) {
    for (size_t i = 0; i < strip->pieces; i++) {
        const struct supply *supply = strip->supply;
        const struct shape *shape = &supply->shape[strip->spot[i].shape];
        if (strip_stretch_at(strip, shape, strip->spot[i].x_m) != NULL)
            continue;
        size_t k = 0;
        for (; k <= open; k++)
            if (shape_length_m(shape) <= strip->stretch[k].length_m &&
                shape_width_m(shape) <= strip->stretch[k].width_m + supply->touch_m)
                break;
        if (k > open)
            return false;
        size_t s = strip->spot[i].shape;
        strip_take(strip, i);
        strip_put(strip, i, s, strip->stretch[k].start_m - shape->least.x_m, -shape->least.y_m);
    }
    return true;
}

/* ---- stirring ----------------------------------------------------------------------------- */

static double box_area_m2(const struct strip *strip, size_t piece) {
    const struct shape *shape = &strip->supply->shape[strip->spot[piece].shape];
    return shape_length_m(shape) * shape_width_m(shape);
}

static void put_within(struct strip *strip, size_t piece, size_t s, double middle_x,
                       double middle_y) {
    const struct shape *shape = &strip->supply->shape[s];
    double x = middle_x - (shape->least.x_m + shape->most.x_m) / 2,
           y = middle_y - (shape->least.y_m + shape->most.y_m) / 2;
    for (size_t k = strip->stretches; k-- > 0;) {
        const struct stretch *stretch = &strip->stretch[k];
        if (middle_x < stretch->start_m && k > 0)
            continue;
        x = fmin(x, stretch->start_m + stretch->length_m - shape->most.x_m);
        x = fmax(x, stretch->start_m - shape->least.x_m);
        y = fmin(y, stretch->width_m - shape->most.y_m);
        break;
    }
    strip_put(strip, piece, s, x, fmax(y, -shape->least.y_m));
}

/* Two larger pieces of different outlines change places. */
static void swap_two(struct separation *separation) {
    struct strip *strip = separation->strip;
    struct random *random = &separation->random;
    size_t best[2] = {0, 0};
    double most = -1;
    for (int tries = 0; tries < 6; tries++) {
        size_t a = random_below(random, strip->pieces), b = random_below(random, strip->pieces);
        double size = fmin(box_area_m2(strip, a), box_area_m2(strip, b));
        if (strip->outline[a] != strip->outline[b] && size > most) {
            most = size;
            best[0] = a;
            best[1] = b;
        }
    }
    if (most < 0)
        return;
    struct spot a = strip->spot[best[0]], b = strip->spot[best[1]];
    const struct shape *sa = &strip->supply->shape[a.shape], *sb = &strip->supply->shape[b.shape];
    strip_take(strip, best[0]);
    strip_take(strip, best[1]);
    put_within(strip, best[0], a.shape, b.x_m + (sb->least.x_m + sb->most.x_m) / 2,
               b.y_m + (sb->least.y_m + sb->most.y_m) / 2);
    put_within(strip, best[1], b.shape, a.x_m + (sa->least.x_m + sa->most.x_m) / 2,
               a.y_m + (sa->least.y_m + sa->most.y_m) / 2);
}

/* ---- steps ------------------------------------------------------------------------------- */

static const double STEP_FIRST = 0.01, STEP_LEAST = 0.0005, STEP_SMALL = 0.002;
enum { PATIENCE = 200, STIRS = 4, CLOSE_TRIES = 6 };

/* Lay the best layout on a stretch shorter by the share `step` and part the pieces. */
static bool try_step(struct separation *separation, struct found *found, double step, size_t stirs,
                     uint64_t until) {
    struct strip *strip = separation->strip;
    double target = found->used_m * (1 - step);
    strip->stretches = found->open + 1;
    strip->stretch[found->open].length_m = target;
    strip_set(strip, found->spot);
    take_slice_out(strip, found->open, found->used_m * random_share(&separation->random),
                   found->used_m - target);
    if (!move_too_long(strip, found->open))
        return false;
    bool parted = separate(separation, PATIENCE, until);
    for (size_t k = 0; k < stirs && !parted && strip->looks < until; k++) {
        swap_two(separation);
        parted = separate(separation, PATIENCE, until);
    }
    return parted && found_keep(found, strip);
}

/* A hundredth, and on a long strip no more than half a piece. */
static double first_step(const struct strip *strip, const struct found *found) {
    double sum = 0;
    for (size_t i = 0; i < strip->pieces; i++)
        sum += shape_length_m(&strip->supply->shape[found->spot[i].shape]);
    return fmin(STEP_FIRST, sum / (double)strip->pieces / 2 / found->used_m);
}

void found_shorten(struct separation *separation, struct found *found, uint64_t until,
                   bool (*carry_on)(void *context, double used_m, uint64_t looks), void *context) {
    struct strip *strip = separation->strip;
    double first = first_step(strip, found), step = first;
    size_t failures = 0;
    while (strip->looks < until && !strip->supply->out_of_memory) {
        if (carry_on != NULL && !carry_on(context, found->used_m, strip->looks))
            return;
        uint64_t before = strip->looks;
        bool shorter = try_step(separation, found, step,
                                step > STEP_SMALL * first / STEP_FIRST ? STIRS : 0, until);
        if (strip->looks == before)
            strip->looks += 1000; /* nothing could be tried: even so it must end */
        failures = shorter ? 0 : failures + 1;
        if (failures >= (step > STEP_SMALL * first / STEP_FIRST ? 1 : CLOSE_TRIES)) {
            step /= 2;
            failures = 0;
        }
        if (step < STEP_LEAST * first / STEP_FIRST)
            step = first;
    }
}
