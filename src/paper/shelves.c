/* shelves.c - several pieces on one sheet. */
#include <math.h>
#include <stdlib.h>

#include "paper/tiling.h"

#define SLACK_M 1e-9

/* A strip across a sheet, as high as the piece that opened it. */
struct shelf {
    size_t sheet;
    double bottom_m, height_m, used_m;
};

struct shelving {
    struct window window;
    double gap_m;
    struct shelf *shelf;
    size_t shelves, sheets;
    double *used_m; /* by sheet */
};

bool piece_fits(const struct piece *piece, struct window window, bool turned) {
    struct flat_point size = laid_size(piece, turned);
    double air_m = 0.002;
    return size.x_m + air_m <= window.width_m + SLACK_M &&
           size.y_m + air_m <= window.height_m + SLACK_M;
}

static bool shelf_takes(const struct shelving *s, const struct shelf *shelf,
                        struct flat_point size) {
    return size.y_m <= shelf->height_m + SLACK_M &&
           shelf->used_m + size.x_m <= s->window.width_m + SLACK_M;
}

/* Open a shelf on the first sheet with room for it, or on a new sheet. */
static struct shelf *open_shelf(struct shelving *s, double height_m) {
    size_t sheet = 0;
    while (sheet < s->sheets && s->used_m[sheet] + height_m > s->window.height_m + SLACK_M)
        sheet++;
    if (sheet == s->sheets)
        s->used_m[s->sheets++] = 0;
    struct shelf *shelf = &s->shelf[s->shelves++];
    *shelf = (struct shelf){.sheet = sheet, .bottom_m = s->used_m[sheet], .height_m = height_m};
    s->used_m[sheet] += height_m;
    return shelf;
}

/* The piece's box with half the gap on each side. */
static struct flat_point with_gap(const struct shelving *s, const struct piece *piece,
                                  bool turned) {
    struct flat_point size = laid_size(piece, turned);
    return (struct flat_point){fmin(size.x_m + s->gap_m, s->window.width_m),
                               fmin(size.y_m + s->gap_m, s->window.height_m)};
}

static void put(struct shelving *s, const struct piece *piece, bool upright,
                struct placement *placement) {
    const bool fits[2] = {piece_fits(piece, s->window, false), piece_fits(piece, s->window, true)};
    const struct flat_point size[2] = {with_gap(s, piece, false), with_gap(s, piece, true)};
    bool turned = upright ? !fits[false] : fits[true];
    struct shelf *shelf = NULL;
    for (size_t i = 0; i < s->shelves && shelf == NULL; i++) {
        for (int way = 0; way <= 1 && shelf == NULL; way++) {
            bool try = way == 0 ? turned : !turned;
            if (!fits[try] || !shelf_takes(s, &s->shelf[i], size[try]))
                continue;
            shelf = &s->shelf[i];
            turned = try;
        }
    }
    if (shelf == NULL)
        shelf = open_shelf(s, size[turned].y_m);
    struct flat_point bare = laid_size(piece, turned);
    placement->sheet = shelf->sheet;
    placement->turned = turned;
    placement->x_m = shelf->used_m + (size[turned].x_m - bare.x_m) / 2;
    placement->y_m = shelf->bottom_m + (size[turned].y_m - bare.y_m) / 2;
    shelf->used_m += size[turned].x_m;
}

struct ranked {
    size_t piece;
    double height_m;
};

static int tallest_first(const void *a, const void *b) {
    const struct ranked *left = a, *right = b;
    if (left->height_m != right->height_m)
        return left->height_m > right->height_m ? -1 : 1;
    return left->piece < right->piece ? -1 : 1;
}

static int by_sheet(const void *a, const void *b) {
    const struct placement *left = a, *right = b;
    if (left->sheet != right->sheet)
        return left->sheet < right->sheet ? -1 : 1;
    return left->piece < right->piece ? -1 : left->piece > right->piece;
}

/* The pieces wanted, tallest first as they would open a shelf. */
static size_t rank(const struct piece *piece, const bool *wanted, size_t pieces,
                   struct window window, bool upright, struct ranked *ranked) {
    size_t count = 0;
    for (size_t i = 0; i < pieces; i++) {
        if (!wanted[i])
            continue;
        bool turned =
            upright ? !piece_fits(&piece[i], window, false) : piece_fits(&piece[i], window, true);
        ranked[count++] = (struct ranked){i, laid_size(&piece[i], turned).y_m};
    }
    qsort(ranked, count, sizeof *ranked, tallest_first);
    return count;
}

size_t shelves_fill(const struct piece *piece, const bool *wanted, size_t pieces,
                    struct window window, double gap_m, bool upright, struct placement *placement,
                    size_t *placed, double *used_m) {
    struct shelving s = {.window = window, .gap_m = gap_m, .used_m = used_m};
    struct ranked *ranked = calloc(pieces + 1, sizeof *ranked);
    s.shelf = calloc(pieces + 1, sizeof *s.shelf);
    s.sheets = (size_t)-1;
    if (ranked == NULL || s.shelf == NULL)
        goto out;
    s.sheets = 0;
    *placed = rank(piece, wanted, pieces, window, upright, ranked);
    for (size_t i = 0; i < *placed; i++) {
        placement[i].piece = ranked[i].piece;
        put(&s, &piece[ranked[i].piece], upright, &placement[i]);
    }
    qsort(placement, *placed, sizeof *placement, by_sheet);
out:
    free(ranked);
    free(s.shelf);
    return s.sheets;
}
