/* lanes.c - which outlines share the width of the cloth, and in what order they are laid. */
#include "shop/lanes.h"

enum { LANES_MOST = 4, LOOKS_MOST = 20000 };

struct lane {
    size_t kind;
    double end_m;
};

/* A search for the kinds that fill what is left of the width. */
struct choosing {
    const struct lane_stock *stock;
    size_t kinds;
    double stray_m;
    struct random *random;
    size_t kind[LANES_MOST], best[LANES_MOST], lanes;
    double best_m;
    size_t looks;
};

/* Try all kinds from `from` on in lane `lane`, wider ones first in the stock or not. */
static void choose(struct choosing *choosing, size_t lane, size_t from, double left_m,
                   double filled_m) {
    bool full = true;
    for (size_t k = from; lane < LANES_MOST && k < choosing->kinds; k++) {
        const struct lane_stock *stock = &choosing->stock[k];
        if (stock->left == 0 || stock->width_m > left_m || choosing->looks >= LOOKS_MOST)
            continue;
        full = false;
        choosing->looks++;
        choosing->kind[lane] = k;
        choose(choosing, lane + 1, k, left_m - stock->width_m, filled_m + stock->width_m);
    }
    double score = filled_m + choosing->stray_m * random_share(choosing->random);
    if (!full || lane == 0 || score <= choosing->best_m)
        return;
    choosing->best_m = score;
    choosing->lanes = lane;
    for (size_t i = 0; i < lane; i++)
        choosing->best[i] = choosing->kind[i];
}

static size_t least_end(const struct lane *lane, size_t lanes) {
    size_t best = 0;
    for (size_t i = 1; i < lanes; i++)
        if (lane[i].end_m < lane[best].end_m)
            best = i;
    return best;
}

/* Without those whose pieces have run out. */
static size_t close_lanes(const struct lane_stock *stock, struct lane *lane, size_t lanes) {
    size_t kept = 0;
    for (size_t i = 0; i < lanes; i++)
        if (stock[lane[i].kind].left > 0)
            lane[kept++] = lane[i];
    return kept;
}

/* Fill the lanes that are open beside those that go on.  Returns: how many there are. */
static size_t open_lanes(struct choosing *choosing, struct lane *lane, size_t lanes, double width_m,
                         double end_m) {
    for (size_t i = 0; i < lanes; i++)
        width_m -= choosing->stock[lane[i].kind].width_m;
    choosing->best_m = -1;
    choosing->lanes = choosing->looks = 0;
    choose(choosing, 0, 0, width_m, 0);
    for (size_t i = 0; i < choosing->lanes && lanes < LANES_MOST; i++)
        lane[lanes++] = (struct lane){choosing->best[i], end_m};
    return lanes;
}

static size_t pieces_left(const struct lane_stock *stock, size_t kinds) {
    size_t sum = 0;
    for (size_t i = 0; i < kinds; i++)
        sum += stock[i].left;
    return sum;
}

void lanes_order(struct lane_stock *stock, size_t kinds, double width_m, double stray,
                 struct random *random, size_t *order) {
    struct choosing choosing = {
        .stock = stock, .kinds = kinds, .stray_m = stray * width_m, .random = random};
    struct lane lane[LANES_MOST];
    size_t lanes = 0, count = 0, total = pieces_left(stock, kinds);
    double end_m = 0;
    lanes = open_lanes(&choosing, lane, 0, width_m, 0);
    while (count < total) {
        size_t i = least_end(lane, lanes);
        if (lanes == 0) { /* nothing fits the width: the rest as it comes */
            for (size_t k = 0; k < kinds; k++)
                for (; stock[k].left > 0; stock[k].left--)
                    order[count++] = k;
            return;
        }
        end_m = lane[i].end_m;
        struct lane_stock *from = &stock[lane[i].kind];
        if (from->left > 0) {
            from->left--;
            order[count++] = lane[i].kind;
            lane[i].end_m += from->length_m;
        } else {
            lanes = close_lanes(stock, lane, lanes);
            lanes = open_lanes(&choosing, lane, lanes, width_m, end_m);
        }
    }
}
