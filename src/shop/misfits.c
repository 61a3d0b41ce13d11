/* misfits.c - cut pieces that a changed design no longer fits. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "shop/record.h"

static const double STEP_m = 1e-7; /* of what is noted */

static void add(struct misfits *misfits, const struct tally *tally, size_t gore,
                enum measure measure, double was_m, double is_m) {
    if (misfits->count == misfits->capacity) {
        size_t capacity = misfits->capacity == 0 ? 32 : 2 * misfits->capacity;
        struct misfit *item = realloc(misfits->item, capacity * sizeof *item);
        if (item == NULL) {
            misfits->failed = true;
            return;
        }
        misfits->item = item;
        misfits->capacity = capacity;
    }
    struct misfit *misfit = &misfits->item[misfits->count++];
    *misfit = (struct misfit){.gore = gore, .measure = measure, .was_m = was_m, .is_m = is_m};
    memcpy(misfit->piece, tally->piece, sizeof misfit->piece);
}

static const struct piece *piece_named(const struct envelope *envelope, const char *name) {
    for (size_t t = 0; t < envelope->templates; t++)
        if (strcmp(envelope->piece[t].name, name) == 0)
            return &envelope->piece[t];
    return NULL;
}

/* A piece that was ticked by hand in the file, with no dimensions before it, cannot be judged. */
static void compare(struct misfits *misfits, const struct tally *tally, size_t gore,
                    const struct shape *was, const struct shape *is, double allowed_m) {
    for (int m = 0; was != NULL && m < MEASURE_COUNT; m++) {
        double was_m = (double)was->measure[m] * STEP_m, is_m = (double)is->measure[m] * STEP_m;
        if (fabs(is_m - was_m) > allowed_m)
            add(misfits, tally, gore, (enum measure)m, was_m, is_m);
    }
}

void record_misfits(const struct record *record, const struct envelope *envelope, double allowed_m,
                    struct misfits *misfits) {
    for (size_t i = 0; record != NULL && i < record->ledger.tallies; i++) {
        const struct tally *tally = &record->ledger.tally[i];
        const struct piece *piece = piece_named(envelope, tally->piece);
        struct shape is = {0};
        if (piece != NULL)
            is = shape_of(piece);
        for (size_t gore = 1; gore <= GORES_MOST; gore++) {
            if (tally->progress[gore - 1] <= TICK_CUT)
                continue;
            size_t before = misfits->count;
            unsigned number = tally->shape[gore - 1];
            if (piece == NULL || !piece_stands_in(envelope, piece, gore - 1))
                add(misfits, tally, gore, MEASURE_NONE, 0, 0);
            else
                compare(misfits, tally, gore,
                        number == 0 ? NULL : &record->ledger.shape[number - 1], &is, allowed_m);
            misfits->pieces += misfits->count > before;
        }
    }
}

void misfits_free(struct misfits *misfits) {
    free(misfits->item);
    *misfits = (struct misfits){0};
}
