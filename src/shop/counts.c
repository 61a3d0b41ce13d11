/* counts.c - single pieces counted, and the next one to do. */
#include <string.h>

#include "shop/record.h"

bool piece_in_gore(const struct envelope *envelope, const struct piece *piece, size_t gore) {
    return gore >= 1 && gore <= envelope->gores &&
           envelope->gore_style[gore - 1] == (int)piece->style;
}

const char *piece_colour(const struct design *design, const struct piece *piece, size_t gore) {
    (void)piece, (void)gore;
    return design->cloth.colour;
}

/* ---- counts -------------------------------------------------------------------- */

static bool chosen(const struct design *design, const struct envelope *envelope,
                   const struct piece *piece, size_t gore, const struct record_choice *choice) {
    return piece_in_gore(envelope, piece, gore) && (choice->gore == 0 || choice->gore == gore) &&
           (choice->colour == NULL ||
            strcmp(choice->colour, piece_colour(design, piece, gore)) == 0);
}

struct record_count record_count(const struct record *record, const struct design *design,
                                 const struct envelope *envelope, struct record_choice choice) {
    struct record_count count = {0};
    for (size_t t = 0; t < envelope->templates; t++) {
        const struct piece *piece = &envelope->piece[t];
        if (choice.piece != NULL && strcmp(choice.piece, piece->name) != 0)
            continue;
        for (size_t gore = 1; gore <= envelope->gores; gore++) {
            if (!chosen(design, envelope, piece, gore, &choice))
                continue;
            int progress = record_progress(record, piece->name, gore);
            count.pieces++;
            for (int tick = 0; tick < progress; tick++)
                count.done[tick]++;
        }
    }
    return count;
}

size_t record_left(struct record_count count, enum tick tick) {
    return count.pieces - count.done[tick];
}

/* ---- one after the other ----------------------------------------------------------- */

/* Every template in every gore, in line: template by template, or gore by gore. */
static size_t place_of(const struct envelope *envelope, struct single_piece single, bool by_gore) {
    size_t piece = single.piece < envelope->templates ? single.piece : 0;
    size_t gore = single.gore >= 1 && single.gore <= envelope->gores ? single.gore - 1 : 0;
    return by_gore ? gore * envelope->templates + piece : piece * envelope->gores + gore;
}

static struct single_piece single_at(const struct envelope *envelope, size_t place, bool by_gore) {
    size_t per = by_gore ? envelope->templates : envelope->gores;
    size_t one = place / per, other = place % per;
    return by_gore ? (struct single_piece){other, one + 1} : (struct single_piece){one, other + 1};
}

static bool exists(const struct envelope *envelope, struct single_piece single) {
    return piece_in_gore(envelope, &envelope->piece[single.piece], single.gore);
}

struct single_piece single_piece_step(const struct envelope *envelope, struct single_piece from,
                                      int direction) {
    size_t places = envelope->templates * envelope->gores;
    size_t place = place_of(envelope, from, false);
    for (size_t tried = 0; tried < places; tried++) {
        place = (place + (direction < 0 ? places - 1 : 1)) % places;
        if (exists(envelope, single_at(envelope, place, false)))
            break;
    }
    return single_at(envelope, place, false);
}

bool record_next(const struct record *record, const struct envelope *envelope, enum tick tick,
                 struct single_piece from, struct single_piece *next) {
    bool by_gore = tick == TICK_SEWN;
    size_t places = envelope->templates * envelope->gores;
    size_t place = place_of(envelope, from, by_gore);
    for (size_t tried = 0; tried < places; tried++, place = (place + 1) % places) {
        struct single_piece single = single_at(envelope, place, by_gore);
        if (!exists(envelope, single) ||
            record_has(record, envelope->piece[single.piece].name, single.gore, tick))
            continue;
        *next = single;
        return true;
    }
    return false;
}
