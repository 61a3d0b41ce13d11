/* counts.c - single pieces counted, and the next one to do. */
#include <string.h>

#include "shop/record.h"

const char *piece_colour(const struct design *design, const struct piece *piece, size_t gore) {
    const struct cloth_list *cloths = &design->colours.cloths;
    if (cloths->count == 0)
        return design->cloth.colour;
    return cloths->value[design_colour_of(design, gore - 1, piece->row, piece->side == SIDE_RIGHT)]
        .name;
}

/* ---- counts -------------------------------------------------------------------- */

static bool chosen(const struct design *design, const struct envelope *envelope,
                   const struct piece *piece, size_t gore, const struct record_choice *choice) {
    return piece_stands_in(envelope, piece, gore - 1) &&
           (choice->gore == 0 || choice->gore == gore) &&
           (choice->colour == NULL ||
            strcmp(choice->colour, piece_colour(design, piece, gore)) == 0);
}

static void count_template(const struct tally *tally, const struct design *design,
                           const struct envelope *envelope, const struct piece *piece,
                           const struct record_choice *choice, struct record_count *count) {
    for (size_t gore = 1; gore <= envelope->gores; gore++) {
        if (!chosen(design, envelope, piece, gore, choice))
            continue;
        int progress = tally == NULL ? 0 : tally->progress[gore - 1];
        count->pieces++;
        for (int tick = 0; tick < progress; tick++)
            count->done[tick]++;
    }
}

struct record_count record_count(const struct record *record, const struct design *design,
                                 const struct envelope *envelope, struct record_choice choice) {
    struct record_count count = {0};
    for (size_t t = 0; t < envelope->templates; t++) {
        const struct piece *piece = &envelope->piece[t];
        if (choice.piece != NULL && strcmp(choice.piece, piece->name) != 0)
            continue;
        const struct tally *tally =
            record == NULL ? NULL : ledger_find(&record->ledger, piece->name);
        count_template(tally, design, envelope, piece, &choice, &count);
    }
    return count;
}

size_t record_left(struct record_count count, enum tick tick) {
    return count.pieces - count.done[tick];
}

/* ---- one after the other ----------------------------------------------------------- */

static struct single_piece within(const struct envelope *envelope, struct single_piece single) {
    if (single.piece >= envelope->templates)
        single.piece = 0;
    if (single.gore < 1 || single.gore > envelope->gores)
        single.gore = 1;
    return single;
}

/* Every template in every gore, in line, around the end to the beginning. */
static struct single_piece after(const struct envelope *envelope, struct single_piece at,
                                 bool by_gore) {
    if (by_gore) {
        bool last = ++at.piece >= envelope->templates;
        return within(envelope, (struct single_piece){at.piece, at.gore + last});
    }
    bool last = ++at.gore > envelope->gores;
    return within(envelope, (struct single_piece){at.piece + last, at.gore});
}

static struct single_piece before(const struct envelope *envelope, struct single_piece at) {
    if (at.gore > 1)
        return (struct single_piece){at.piece, at.gore - 1};
    return (struct single_piece){(at.piece > 0 ? at.piece : envelope->templates) - 1,
                                 envelope->gores};
}

static bool exists(const struct envelope *envelope, struct single_piece single) {
    return piece_stands_in(envelope, &envelope->piece[single.piece], single.gore - 1);
}

struct single_piece single_piece_step(const struct envelope *envelope, struct single_piece from,
                                      int direction) {
    struct single_piece at = within(envelope, from);
    for (size_t left = envelope->templates * envelope->gores; left > 0; left--) {
        at = direction < 0 ? before(envelope, at) : after(envelope, at, false);
        if (exists(envelope, at))
            break;
    }
    return at;
}

/* Looked up once: templates are gone through again and again. */
struct tallies {
    const struct tally *of[TALLIES_MOST];
};

static struct tallies tallies_of(const struct record *record, const struct envelope *envelope) {
    struct tallies tallies = {{NULL}};
    for (size_t t = 0; record != NULL && t < envelope->templates && t < TALLIES_MOST; t++)
        tallies.of[t] = ledger_find(&record->ledger, envelope->piece[t].name);
    return tallies;
}

bool record_next(const struct record *record, const struct envelope *envelope, enum tick tick,
                 struct single_piece from, struct single_piece *next) {
    struct single_piece at = within(envelope, from);
    struct tallies tallies = tallies_of(record, envelope);
    for (size_t left = envelope->templates * envelope->gores; left > 0; left--) {
        const struct tally *tally = tallies.of[at.piece];
        bool done = tally != NULL && tally->progress[at.gore - 1] > (int)tick;
        if (!done && exists(envelope, at)) {
            *next = at;
            return true;
        }
        at = after(envelope, at, tick == TICK_SEWN);
    }
    return false;
}
