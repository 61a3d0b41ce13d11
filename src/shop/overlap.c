/* overlap.c - overlaps made to vanish by moving pieces while weights grow. */
#include "shop/overlap.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* SplitMix64: public-domain arithmetic. */
static uint64_t random_bits(struct random *random) {
    uint64_t z = (random->state += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

size_t random_below(struct random *random, size_t count) {
    return (size_t)(random_bits(random) % count);
}

double random_share(struct random *random) {
    return (double)(random_bits(random) >> 11) / 9007199254740992.0;
}

/* ---- making --------------------------------------------------------------------------- */

int separation_make(struct strip *strip, struct separation *separation) {
    size_t pieces = strip->pieces;
    *separation = (struct separation){.strip = strip, .random = {1}};
    separation->partners = calloc(pieces, sizeof *separation->partners);
    separation->troubled = malloc(pieces * sizeof *separation->troubled);
    separation->moved = calloc(pieces, sizeof *separation->moved);
    separation->least = malloc(pieces * sizeof *separation->least);
    if (separation->partners != NULL && separation->troubled != NULL && separation->moved != NULL &&
        separation->least != NULL)
        return 0;
    separation_free(separation);
    return -1;
}

void separation_free(struct separation *separation) {
    if (separation->partners != NULL)
        for (size_t i = 0; i < separation->strip->pieces; i++)
            free(separation->partners[i].item);
    free(separation->partners);
    free(separation->troubled);
    free(separation->moved);
    free(separation->least);
    free(separation->clash);
    *separation = (struct separation){0};
}

/* ---- clashes ---------------------------------------------------------------------------- */

static void add_clash(struct separation *separation, size_t one, size_t other, double depth_m) {
    if (separation->clashes == separation->capacity) {
        size_t capacity = separation->capacity == 0 ? 64 : 2 * separation->capacity;
        struct clash *clash = realloc(separation->clash, capacity * sizeof *clash);
        if (clash == NULL) {
            separation->strip->supply->out_of_memory = true;
            return;
        }
        separation->clash = clash;
        separation->capacity = capacity;
    }
    separation->clash[separation->clashes++] =
        (struct clash){(uint32_t)one, (uint32_t)other, depth_m};
}

/* Clashes of one piece with those that have not moved, and of two that moved, once. */
static void find_clashes_of(struct separation *separation, size_t piece) {
    const uint32_t *near;
    size_t count = strip_neighbours(separation->strip, piece, &near);
    for (size_t i = 0; i < count; i++) {
        if (separation->moved[near[i]] && near[i] < piece)
            continue;
        double depth = overlap_cost(separation->strip, piece, near[i]);
        if (depth > 0)
            add_clash(separation, piece, near[i], depth);
    }
}

/* Bring the list up to date after the marked pieces were moved. */
static void renew_clashes(struct separation *separation) {
    size_t kept = 0;
    for (size_t i = 0; i < separation->clashes; i++) {
        const struct clash *clash = &separation->clash[i];
        if (!separation->moved[clash->one] && !separation->moved[clash->other])
            separation->clash[kept++] = *clash;
    }
    separation->clashes = kept;
    for (size_t i = 0; i < separation->strip->pieces; i++)
        if (separation->moved[i])
            find_clashes_of(separation, i);
    memset(separation->moved, 0, separation->strip->pieces * sizeof *separation->moved);
    separation->overlap_m = 0;
    for (size_t i = 0; i < separation->clashes; i++)
        separation->overlap_m += separation->clash[i].depth_m;
}

/* ---- weights ------------------------------------------------------------------------------ */

static const double GROWTH_LEAST = 1.2, GROWTH_MOST = 2.0, DECAY = 0.95;

static struct partner *partner_of(struct separation *separation, size_t piece, size_t other) {
    struct partners *partners = &separation->partners[piece];
    for (size_t i = 0; i < partners->count; i++)
        if (partners->item[i].piece == other)
            return &partners->item[i];
    if (partners->count == partners->capacity) {
        size_t capacity = partners->capacity == 0 ? 8 : 2 * partners->capacity;
        struct partner *item = realloc(partners->item, capacity * sizeof *item);
        if (item == NULL) {
            separation->strip->supply->out_of_memory = true;
            return NULL;
        }
        partners->item = item;
        partners->capacity = capacity;
    }
    partners->item[partners->count] = (struct partner){(uint32_t)other, 1};
    return &partners->item[partners->count++];
}

static void decay_weights(struct separation *separation) {
    for (size_t p = 0; p < separation->strip->pieces; p++) {
        struct partners *partners = &separation->partners[p];
        size_t kept = 0;
        for (size_t i = 0; i < partners->count; i++) {
            partners->item[i].weight *= DECAY;
            if (partners->item[i].weight > 1)
                partners->item[kept++] = partners->item[i];
        }
        partners->count = kept;
    }
}

static void grow_weight(struct separation *separation, size_t piece, size_t other, double by) {
    struct partner *partner = partner_of(separation, piece, other);
    if (partner != NULL)
        partner->weight *= by / DECAY;
}

static void renew_weights(struct separation *separation) {
    double deepest = 0;
    for (size_t i = 0; i < separation->clashes; i++)
        deepest = fmax(deepest, separation->clash[i].depth_m);
    for (size_t i = 0; i < separation->clashes; i++) {
        const struct clash *clash = &separation->clash[i];
        double by = GROWTH_LEAST + (GROWTH_MOST - GROWTH_LEAST) * clash->depth_m / deepest;
        grow_weight(separation, clash->one, clash->other, by);
        grow_weight(separation, clash->other, clash->one, by);
    }
    decay_weights(separation);
}

static void forget_weights(struct separation *separation) {
    for (size_t p = 0; p < separation->strip->pieces; p++)
        separation->partners[p].count = 0;
}

static void show_weights(struct separation *separation, size_t piece, bool show) {
    const struct partners *partners = &separation->partners[piece];
    for (size_t i = 0; i < partners->count; i++)
        separation->strip->weight[partners->item[i].piece] = show ? partners->item[i].weight : 1;
}

/* ---- moving one piece ------------------------------------------------------------------------ */

/* A position on the way down. */
struct position {
    size_t shape;
    double x_m, y_m, cost;
};

/* A line from a new start is followed only while it costs less than so many times the best. */
static const double PROMISING = 4;

enum { WINDOW_LENGTHS = 3, LINES_MOST = 8, RANDOM_STARTS = 2 };

/* Best position along the strip, within some piece lengths of x, on every stretch there. */
static bool run_along(struct strip *strip, size_t piece, struct position *at) {
    const struct shape *shape = &strip->supply->shape[at->shape];
    double reach = WINDOW_LENGTHS * shape_length_m(shape), x = at->x_m;
    bool better = false;
    for (size_t k = 0; k < strip->stretches; k++) {
        const struct stretch *stretch = &strip->stretch[k];
        if (at->y_m + shape->least.y_m < -strip->supply->touch_m ||
            at->y_m + shape->most.y_m > stretch->width_m + strip->supply->touch_m)
            continue;
        double from = stretch->start_m - shape->least.x_m,
               to = stretch->start_m + stretch->length_m - shape->most.x_m;
        struct line line = {
            piece, at->shape, ALONG, at->y_m, fmax(from, x - reach), fmin(to, x + reach)};
        better |= line_best(strip, &line, &at->x_m, &at->cost);
    }
    return better;
}

/* Across the cloth as far as the edges of the stretch around x allow. */
static void bring_onto_cloth(const struct strip *strip, struct position *at) {
    const struct shape *shape = &strip->supply->shape[at->shape];
    double middle = at->x_m + (shape->least.x_m + shape->most.x_m) / 2;
    size_t k = strip->stretches - 1;
    while (k > 0 && middle < strip->stretch[k].start_m)
        k--;
    at->y_m = fmin(at->y_m, strip->stretch[k].width_m - shape->most.y_m);
    at->y_m = fmax(at->y_m, -shape->least.y_m);
}

static bool run_across(struct strip *strip, size_t piece, struct position *at) {
    const struct shape *shape = &strip->supply->shape[at->shape];
    const struct stretch *stretch = strip_stretch_at(strip, shape, at->x_m);
    if (stretch == NULL)
        return false;
    struct line line = {piece,   at->shape,         ACROSS,
                        at->x_m, -shape->least.y_m, stretch->width_m - shape->most.y_m};
    return line_best(strip, &line, &at->y_m, &at->cost);
}

/* Down along lines of both axes in turn.  `cost` of at is that where it stands, or HUGE_VAL. */
static void descend(struct strip *strip, size_t piece, enum axis first, struct position *at) {
    enum axis axis = first;
    for (int lines = 0, idle = 0; lines < LINES_MOST && idle < 2 && at->cost > 0; lines++) {
        bool better = axis == ALONG ? run_along(strip, piece, at) : run_across(strip, piece, at);
        idle = better ? 0 : idle + 1;
        axis = axis == ALONG ? ACROSS : ALONG;
    }
}

/* A place anywhere on the strip where the shape lies on the cloth; false when the stretch
 * drawn has no room for it. */
static bool random_position(struct separation *separation, size_t shape_at, struct position *at) {
    struct strip *strip = separation->strip;
    const struct shape *shape = &strip->supply->shape[shape_at];
    double total = 0;
    for (size_t k = 0; k < strip->stretches; k++)
        total += strip->stretch[k].length_m;
    double along = total * random_share(&separation->random);
    size_t k = 0;
    while (k + 1 < strip->stretches && along >= strip->stretch[k].length_m)
        along -= strip->stretch[k++].length_m;
    const struct stretch *stretch = &strip->stretch[k];
    double free_x = stretch->length_m - shape_length_m(shape),
           free_y = stretch->width_m - shape_width_m(shape);
    if (free_x < 0 || free_y < -strip->supply->touch_m)
        return false;
    *at = (struct position){
        shape_at, stretch->start_m - shape->least.x_m + free_x * random_share(&separation->random),
        -shape->least.y_m + fmax(free_y, 0) * random_share(&separation->random), HUGE_VAL};
    return true;
}

static double cost_where_it_lies(struct separation *separation, size_t piece) {
    const uint32_t *near;
    double cost = 0;
    size_t count = strip_neighbours(separation->strip, piece, &near);
    for (size_t i = 0; i < count; i++)
        cost +=
            separation->strip->weight[near[i]] * overlap_cost(separation->strip, piece, near[i]);
    return cost;
}

static size_t random_shape(struct separation *separation, size_t piece) {
    const struct supply *supply = separation->strip->supply;
    size_t outline = separation->strip->outline[piece], first = supply->first[outline];
    return first + random_below(&separation->random, supply->first[outline + 1] - first);
}

static void try_positions(struct separation *separation, size_t piece, struct position *best) {
    struct strip *strip = separation->strip;
    const struct supply *supply = strip->supply;
    size_t outline = strip->outline[piece];
    struct position here = *best, at;
    for (size_t s = supply->first[outline]; s < supply->first[outline + 1]; s++) {
        at = here;
        at.shape = s;
        if (s != here.shape) { /* turned about the middle of its box */
            const struct shape *was = &supply->shape[here.shape], *is = &supply->shape[s];
            at.x_m += (was->least.x_m + was->most.x_m - is->least.x_m - is->most.x_m) / 2;
            at.y_m += (was->least.y_m + was->most.y_m - is->least.y_m - is->most.y_m) / 2;
            bring_onto_cloth(strip, &at);
        }
        if (s != here.shape)
            at.cost = PROMISING * best->cost;
        descend(strip, piece, ALONG, &at);
        if (at.cost < best->cost)
            *best = at;
    }
    for (int k = 0; k < RANDOM_STARTS && best->cost > 0; k++) {
        if (!random_position(separation, random_shape(separation, piece), &at))
            continue;
        at.cost = PROMISING * best->cost;
        descend(strip, piece, k % 2 == 0 ? ACROSS : ALONG, &at);
        if (at.cost < best->cost)
            *best = at;
    }
}

static void move_piece(struct separation *separation, size_t piece) {
    struct strip *strip = separation->strip;
    show_weights(separation, piece, true);
    struct position best = {strip->spot[piece].shape, strip->spot[piece].x_m,
                            strip->spot[piece].y_m, cost_where_it_lies(separation, piece)};
    double before = best.cost;
    if (before > 0)
        try_positions(separation, piece, &best);
    show_weights(separation, piece, false);
    if (best.cost < before) {
        strip_take(strip, piece);
        strip_put(strip, piece, best.shape, best.x_m, best.y_m);
        separation->moved[piece] = true;
    }
}

/* ---- rounds -------------------------------------------------------------------------------- */

static size_t list_troubled(struct separation *separation) {
    size_t count = 0;
    bool *listed = separation->moved; /* all false between rounds */
    for (size_t i = 0; i < separation->clashes; i++) {
        const size_t pair[] = {separation->clash[i].one, separation->clash[i].other};
        for (int k = 0; k < 2; k++)
            if (!listed[pair[k]]) {
                listed[pair[k]] = true;
                separation->troubled[count++] = (uint32_t)pair[k];
            }
    }
    for (size_t i = 0; i < count; i++)
        listed[separation->troubled[i]] = false;
    for (size_t i = count; i > 1; i--) {
        size_t j = random_below(&separation->random, i);
        uint32_t swap = separation->troubled[i - 1];
        separation->troubled[i - 1] = separation->troubled[j];
        separation->troubled[j] = swap;
    }
    return count;
}

static void keep_least(struct separation *separation) {
    separation->least_overlap_m = separation->overlap_m;
    memcpy(separation->least, separation->strip->spot,
           separation->strip->pieces * sizeof *separation->least);
}

bool separate(struct separation *separation, size_t patience, uint64_t until) {
    struct strip *strip = separation->strip;
    forget_weights(separation);
    for (size_t i = 0; i < strip->pieces; i++)
        separation->moved[i] = true;
    separation->clashes = 0;
    renew_clashes(separation);
    keep_least(separation);
    for (size_t idle = 0; separation->overlap_m > 0 && idle < patience;) {
        if (strip->looks >= until || strip->supply->out_of_memory)
            break;
        size_t count = list_troubled(separation);
        for (size_t i = 0; i < count; i++)
            move_piece(separation, separation->troubled[i]);
        renew_clashes(separation);
        renew_weights(separation);
        idle++;
        if (separation->overlap_m < separation->least_overlap_m) {
            if (separation->overlap_m < 0.98 * separation->least_overlap_m)
                idle = 0;
            keep_least(separation);
        }
    }
    if (separation->least_overlap_m > 0)
        strip_set(strip, separation->least);
    return separation->least_overlap_m <= 0;
}
