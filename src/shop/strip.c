/* strip.c - pieces in bins along the strip, and lines run through them. */
#include "shop/strip.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- making ------------------------------------------------------------------------ */

/* Mean length of a piece: bins of that width hold few pieces, and a piece is in few bins. */
static double mean_length_m(const struct supply *supply, const size_t *outline, size_t pieces) {
    double sum = 0;
    for (size_t i = 0; i < pieces; i++)
        sum += shape_length_m(&supply->shape[supply->first[outline[i]]]);
    return sum / (double)pieces;
}

enum { BINS_MOST = 65536 };

int strip_make(struct supply *supply, const size_t *outline, size_t pieces,
               const struct stretch *stretch, size_t stretches, struct strip *strip) {
    *strip = (struct strip){.supply = supply, .pieces = pieces, .stretches = stretches};
    const struct stretch *last = &stretch[stretches - 1];
    double length_m = last->start_m + last->length_m;
    strip->bin_m = fmax(mean_length_m(supply, outline, pieces), length_m / (BINS_MOST - 1));
    strip->bins = (size_t)(length_m / strip->bin_m) + 1;
    strip->stretch = malloc(stretches * sizeof *strip->stretch);
    strip->spot = calloc(pieces, sizeof *strip->spot);
    strip->outline = malloc(pieces * sizeof *strip->outline);
    strip->weight = malloc(pieces * sizeof *strip->weight);
    strip->bin = calloc(strip->bins, sizeof *strip->bin);
    strip->seen = calloc(pieces, sizeof *strip->seen);
    strip->near = malloc(pieces * sizeof *strip->near);
    if (strip->stretch == NULL || strip->spot == NULL || strip->outline == NULL ||
        strip->weight == NULL || strip->bin == NULL || strip->seen == NULL || strip->near == NULL) {
        strip_free(strip);
        return -1;
    }
    memcpy(strip->stretch, stretch, stretches * sizeof *stretch);
    memcpy(strip->outline, outline, pieces * sizeof *outline);
    for (size_t i = 0; i < pieces; i++)
        strip->weight[i] = 1;
    return 0;
}

void strip_free(struct strip *strip) {
    for (size_t i = 0; strip->bin != NULL && i < strip->bins; i++)
        free(strip->bin[i].piece);
    free(strip->stretch);
    free(strip->spot);
    free(strip->outline);
    free(strip->weight);
    free(strip->bin);
    free(strip->seen);
    free(strip->near);
    free(strip->met);
    free(strip->begin);
    free(strip->end);
    free(strip->active);
    *strip = (struct strip){0};
}

/* ---- bins ---------------------------------------------------------------------------- */

static size_t bin_at(const struct strip *strip, double x_m) {
    double bin = x_m / strip->bin_m;
    return bin <= 0 ? 0 : bin >= (double)strip->bins ? strip->bins - 1 : (size_t)bin;
}

static void bin_add(struct strip *strip, struct bin *bin, size_t piece) {
    if (bin->count == bin->capacity) {
        size_t capacity = bin->capacity == 0 ? 8 : 2 * bin->capacity;
        uint32_t *larger = realloc(bin->piece, capacity * sizeof *larger);
        if (larger == NULL) {
            strip->supply->out_of_memory = true;
            return;
        }
        bin->piece = larger;
        bin->capacity = capacity;
    }
    bin->piece[bin->count++] = (uint32_t)piece;
}

static void bin_drop(struct bin *bin, size_t piece) {
    for (size_t i = 0; i < bin->count; i++)
        if (bin->piece[i] == piece) {
            memmove(&bin->piece[i], &bin->piece[i + 1], (bin->count - i - 1) * sizeof *bin->piece);
            bin->count--;
            return;
        }
}

static void bins_of(const struct strip *strip, const struct spot *spot, size_t *from, size_t *to) {
    const struct shape *shape = &strip->supply->shape[spot->shape];
    *from = bin_at(strip, spot->x_m + shape->least.x_m);
    *to = bin_at(strip, spot->x_m + shape->most.x_m);
}

void strip_put(struct strip *strip, size_t piece, size_t shape, double x_m, double y_m) {
    size_t from, to;
    strip->spot[piece] = (struct spot){x_m, y_m, shape, true};
    bins_of(strip, &strip->spot[piece], &from, &to);
    for (size_t b = from; b <= to; b++)
        bin_add(strip, &strip->bin[b], piece);
}

void strip_take(struct strip *strip, size_t piece) {
    size_t from, to;
    if (!strip->spot[piece].down)
        return;
    bins_of(strip, &strip->spot[piece], &from, &to);
    for (size_t b = from; b <= to; b++)
        bin_drop(&strip->bin[b], piece);
    strip->spot[piece].down = false;
}

void strip_set(struct strip *strip, const struct spot *spot) {
    for (size_t i = 0; i < strip->bins; i++)
        strip->bin[i].count = 0;
    for (size_t i = 0; i < strip->pieces; i++) {
        strip->spot[i].down = false;
        if (spot[i].down)
            strip_put(strip, i, spot[i].shape, spot[i].x_m, spot[i].y_m);
    }
}

const struct stretch *strip_stretch_at(const struct strip *strip, const struct shape *shape,
                                       double x_m) {
    double slack = strip->supply->touch_m;
    for (size_t i = 0; i < strip->stretches; i++) {
        const struct stretch *stretch = &strip->stretch[i];
        if (x_m + shape->least.x_m >= stretch->start_m - slack &&
            x_m + shape->most.x_m <= stretch->start_m + stretch->length_m + slack)
            return stretch;
    }
    return NULL;
}

double strip_used_m(const struct strip *strip, size_t stretch) {
    double start = strip->stretch[stretch].start_m, used = 0;
    double next = stretch + 1 < strip->stretches ? strip->stretch[stretch + 1].start_m : HUGE_VAL;
    for (size_t i = 0; i < strip->pieces; i++) {
        const struct spot *spot = &strip->spot[i];
        double end = spot->x_m + strip->supply->shape[spot->shape].most.x_m;
        if (spot->down && end > start && end < next)
            used = fmax(used, end - start);
    }
    return used;
}

/* Deep overlaps count for more, or a piece would settle right on top of another that no
 * weight speaks for yet. */
static double cost_of(const struct supply *supply, double depth_m) {
    return depth_m + depth_m * depth_m / supply->depth_m;
}

/* ---- what is near -------------------------------------------------------------------- */

/* Laid pieces, other than `piece`, with a bin in common with from .. to. */
static size_t pieces_between(struct strip *strip, size_t piece, double from_m, double to_m) {
    size_t count = 0, last = bin_at(strip, to_m);
    strip->now++;
    strip->seen[piece] = strip->now;
    for (size_t b = bin_at(strip, from_m); b <= last; b++) {
        const struct bin *bin = &strip->bin[b];
        for (size_t i = 0; i < bin->count; i++)
            if (strip->seen[bin->piece[i]] != strip->now) {
                strip->seen[bin->piece[i]] = strip->now;
                strip->near[count++] = bin->piece[i];
            }
    }
    return count;
}

size_t strip_between(struct strip *strip, size_t piece, double from_m, double to_m,
                     const uint32_t **list) {
    size_t count = pieces_between(strip, piece, from_m, to_m);
    *list = strip->near;
    return count;
}

size_t strip_neighbours(struct strip *strip, size_t piece, const uint32_t **list) {
    const struct spot *spot = &strip->spot[piece];
    const struct shape *shape = &strip->supply->shape[spot->shape];
    double gap = strip->supply->task->gap_m;
    size_t kept = 0;
    size_t count = pieces_between(strip, piece, spot->x_m + shape->least.x_m - gap,
                                  spot->x_m + shape->most.x_m + gap);
    for (size_t i = 0; i < count; i++) {
        const struct spot *other = &strip->spot[strip->near[i]];
        const struct nofit *nofit = supply_nofit(strip->supply, other->shape, spot->shape);
        double x = spot->x_m - other->x_m, y = spot->y_m - other->y_m;
        if (nofit != NULL && x > nofit->least[0] && x < nofit->most[0] && y > nofit->least[1] &&
            y < nofit->most[1])
            strip->near[kept++] = strip->near[i];
    }
    *list = strip->near;
    return kept;
}

double overlap_cost(struct strip *strip, size_t piece, size_t other) {
    const struct spot *p = &strip->spot[piece], *o = &strip->spot[other];
    const struct nofit *nofit = supply_nofit(strip->supply, o->shape, p->shape);
    double x = p->x_m - o->x_m, y = p->y_m - o->y_m, sum = 0;
    if (nofit == NULL)
        return 0;
    strip->looks += nofit->parts;
    for (size_t i = 0; i < nofit->parts; i++) {
        double depth = nofit_depth(&nofit->part[i], x, y);
        sum += depth > strip->supply->touch_m ? cost_of(strip->supply, depth) : 0;
    }
    return sum;
}

/* ---- a line ---------------------------------------------------------------------------- */

static bool more_meetings(struct strip *strip) {
    size_t capacity = strip->met_capacity == 0 ? 256 : 2 * strip->met_capacity;
    struct meeting *met = realloc(strip->met, capacity * sizeof *met);
    if (met != NULL)
        strip->met = met;
    struct mark *begin = realloc(strip->begin, capacity * sizeof *begin);
    if (begin != NULL)
        strip->begin = begin;
    struct mark *end = realloc(strip->end, capacity * sizeof *end);
    if (end != NULL)
        strip->end = end;
    uint32_t *active = realloc(strip->active, capacity * sizeof *active);
    if (active != NULL)
        strip->active = active;
    if (met == NULL || begin == NULL || end == NULL || active == NULL) {
        strip->supply->out_of_memory = true;
        return false;
    }
    strip->met_capacity = capacity;
    return true;
}

static double chain_most(const struct chain *chain, double at) {
    double most = -HUGE_VAL;
    for (size_t i = 0; i < chain->count; i++) {
        double value = chain->a[i] + chain->b[i] * at;
        most = value > most ? value : most;
    }
    return most;
}

static double chain_least(const struct chain *chain, double at) {
    double least = HUGE_VAL;
    for (size_t i = 0; i < chain->count; i++) {
        double value = chain->a[i] + chain->b[i] * at;
        least = value < least ? value : least;
    }
    return least;
}

/* Where the line meets one region, placed where piece `other` lies. */
static void meet_region(struct strip *strip, const struct line *line, size_t other) {
    const struct spot *spot = &strip->spot[other];
    const struct nofit *nofit = supply_nofit(strip->supply, spot->shape, line->shape);
    enum axis axis = line->axis;
    double slack = strip->supply->touch_m;
    double origin = axis == ALONG ? spot->x_m : spot->y_m;
    double across = line->other - (axis == ALONG ? spot->y_m : spot->x_m);
    if (nofit == NULL || across <= nofit->least[!axis] + slack ||
        across >= nofit->most[!axis] - slack || origin + nofit->most[axis] <= line->from ||
        origin + nofit->least[axis] >= line->to)
        return;
    strip->looks += nofit->parts;
    for (size_t i = 0; i < nofit->parts; i++) {
        const struct nofit_part *part = &nofit->part[i];
        if (across <= part->least[!axis] + slack || across >= part->most[!axis] - slack)
            continue;
        double least = origin + chain_most(&part->near[axis], across);
        double most = origin + chain_least(&part->far[axis], across);
        if (most - least <= slack || most <= line->from || least >= line->to)
            continue;
        if (strip->met_count == strip->met_capacity && !more_meetings(strip))
            return;
        strip->met[strip->met_count++] =
            (struct meeting){least, most, part, spot->x_m, spot->y_m, strip->weight[other]};
    }
}

static void meet_all(struct strip *strip, const struct line *line) {
    const struct shape *shape = &strip->supply->shape[line->shape];
    double gap = strip->supply->task->gap_m;
    double from = line->axis == ALONG ? line->from : line->other,
           to = line->axis == ALONG ? line->to : line->other;
    size_t count = pieces_between(strip, line->piece, from + shape->least.x_m - gap,
                                  to + shape->most.x_m + gap);
    strip->met_count = 0;
    strip->looks += 1 + count / 4;
    for (size_t i = 0; i < count; i++)
        meet_region(strip, line, strip->near[i]);
    if (strip->met_capacity == 0)
        more_meetings(strip);
}

static void sort_marks(struct mark *mark, size_t count) {
    while (count > 16) {
        struct mark a = mark[0], b = mark[count / 2], c = mark[count - 1];
        double pivot = a.at < b.at ? (b.at < c.at   ? b.at
                                      : a.at < c.at ? c.at
                                                    : a.at)
                                   : (a.at < c.at   ? a.at
                                      : b.at < c.at ? c.at
                                                    : b.at);
        size_t i = 0, j = count - 1;
        for (;; i++, j--) {
            while (mark[i].at < pivot)
                i++;
            while (mark[j].at > pivot)
                j--;
            if (i >= j)
                break;
            struct mark swap = mark[i];
            mark[i] = mark[j];
            mark[j] = swap;
        }
        sort_marks(mark, i);
        mark += i;
        count -= i;
        if (i == 0)
            break;
    }
    for (size_t i = 1; i < count; i++) {
        struct mark this = mark[i];
        size_t j = i;
        for (; j > 0 && mark[j - 1].at > this.at; j--)
            mark[j] = mark[j - 1];
        mark[j] = this;
    }
}

/* ---- the least cost on a line ------------------------------------------------------------ */

struct run {
    struct strip *strip;
    const struct line *line;
    size_t active, begun; /* begun: of the sorted beginnings */
};

/* Cost at c; gives up above `most`.  Positions must come in order. */
static double cost_at(struct run *run, double c, double most) {
    struct strip *strip = run->strip;
    double slack = strip->supply->touch_m, cost = 0;
    for (; run->begun < strip->met_count && strip->begin[run->begun].at < c - slack; run->begun++)
        strip->active[run->active++] = strip->begin[run->begun].meeting;
    for (size_t i = 0; i < run->active && cost < most;) {
        const struct meeting *met = &strip->met[strip->active[i]];
        if (met->most <= c + slack) {
            strip->active[i] = strip->active[--run->active];
            continue;
        }
        double x = (run->line->axis == ALONG ? c : run->line->other) - met->x_m,
               y = (run->line->axis == ALONG ? run->line->other : c) - met->y_m;
        double depth = nofit_depth(met->part, x, y);
        cost += depth > slack ? met->weight * cost_of(strip->supply, depth) : 0;
        i++;
    }
    return cost;
}

static void try_at(struct run *run, double c, double *at, double *cost) {
    double this = cost_at(run, c, *cost);
    if (this < *cost) {
        *cost = this;
        *at = c;
    }
}

static void sort_meetings(struct strip *strip, bool ends) {
    for (size_t i = 0; i < strip->met_count; i++) {
        strip->begin[i] = (struct mark){strip->met[i].least, (uint32_t)i};
        strip->end[i] = (struct mark){strip->met[i].most, (uint32_t)i};
    }
    sort_marks(strip->begin, strip->met_count);
    if (ends)
        sort_marks(strip->end, strip->met_count);
}

bool line_best(struct strip *strip, const struct line *line, double *at, double *cost) {
    double before = *cost;
    if (line->to < line->from)
        return false;
    meet_all(strip, line);
    sort_meetings(strip, true);
    strip->looks += 2 * strip->met_count; /* each end of a meeting is tried */
    struct run run = {.strip = strip, .line = line};
    size_t count = strip->met_count, b = 0, e = 0;
    try_at(&run, line->from, at, cost);
    while ((b < count || e < count) && *cost > 0) {
        double next = b < count && (e == count || strip->begin[b].at <= strip->end[e].at)
                          ? strip->begin[b++].at
                          : strip->end[e++].at;
        if (next > line->to)
            break;
        if (next > line->from)
            try_at(&run, next, at, cost);
    }
    if (*cost > 0)
        try_at(&run, line->to, at, cost);
    return *cost < before;
}

bool line_first_free(struct strip *strip, const struct line *line, double *at) {
    double slack = strip->supply->touch_m;
    if (line->to < line->from - slack)
        return false;
    meet_all(strip, line);
    sort_meetings(strip, false);
    *at = line->from;
    for (size_t i = 0; i < strip->met_count && strip->begin[i].at < *at - slack; i++) {
        double most = strip->met[strip->begin[i].meeting].most;
        *at = most > *at + slack ? most : *at;
    }
    return *at <= line->to + slack;
}

double line_slide_back(struct strip *strip, const struct line *line, double at) {
    double reached = line->from, slack = strip->supply->touch_m;
    struct line back = *line;
    back.to = at;
    if (at <= line->from)
        return at;
    meet_all(strip, &back);
    for (size_t i = 0; i < strip->met_count; i++)
        if (strip->met[i].most <= at + slack)
            reached = fmax(reached, strip->met[i].most);
        else if (strip->met[i].least < at - slack)
            return at; /* it lies within: the position was not free */
    return fmin(reached, at);
}
