/* corners.h - designs whose values stand at the ends of their ranges. */
#ifndef TESTS_CORNERS_H
#define TESTS_CORNERS_H

#include "support.h"

#include "gorewright/flight.h"

/* Set each of `keys` to the least or the most that the table allows, by the bits of `corner`. */
static inline void set_corner(struct design *design, const char *const *keys, size_t count,
                              size_t corner) {
    size_t parameters_count;
    const struct parameter *table = parameters(&parameters_count);
    for (size_t i = 0; i < count; i++) {
        int index = parameter_find(keys[i]);
        assert_true(index >= 0);
        const struct parameter *p = &table[index];
        assert_int_equal(p->type, PARAMETER_REAL);
        *(double *)((char *)design + p->offset) = corner >> i & 1 ? p->most : p->least;
    }
}

/* The smallest and the largest size that can be asked for, and the starter's. */
static inline struct envelope *sized_envelope(int which, struct design *design) {
    static const double volume_m3[] = {0.001, 12, 15000};
    static const double opening_m[] = {0.02, 0.5, 3};
    struct diagnostics messages = {0};
    design_starter(design);
    design->cloth.width_m = 200;
    design->outline.weight_from = WEIGHT_NONE;
    design->size.volume_m3 = volume_m3[which];
    design->outline.mouth_diameter_m = design->outline.crown_diameter_m = opening_m[which];
    struct envelope *envelope = envelope_build(design, &messages);
    assert_non_null(envelope);
    diagnostics_free(&messages);
    return envelope;
}
enum { SIZED_ENVELOPES = 3 };

/* All numbers, the lesser first; infinity only where it may be. */
static inline void assert_spread(struct spread spread, bool may_be_infinite) {
    assert_true(spread.low >= 0 && spread.low <= spread.high);
    if (!may_be_infinite)
        assert_close(spread.high, spread.high, 0, 0);
}

#endif
