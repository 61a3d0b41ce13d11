/* Overlaps are made to vanish, and a strip is shortened. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "shop/shorten.h"

enum { PIECES = 12 };

static const struct flat_point square[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};

struct sample {
    struct layout_outline outline;
    struct layout_bolt bolt;
    struct layout_task task;
    struct supply supply;
    struct strip strip;
    struct separation separation;
};

/* Twelve squares on a strip 3.1 wide, all at one place. */
static void set_up(struct sample *sample, double length_m) {
    static const size_t outline[PIECES];
    size_t bad;
    *sample =
        (struct sample){.outline = {"S", square, 4, PIECES, ONLY_TURN_0}, .bolt = {3.1, HUGE_VAL}};
    sample->task = (struct layout_task){
        .outline = &sample->outline, .outlines = 1, .bolt = &sample->bolt, .bolts = 1};
    const struct stretch stretch = {0, 0, length_m, 3.1};
    assert_int_equal(supply_make(&sample->task, &sample->supply, &bad), 0);
    assert_int_equal(strip_make(&sample->supply, outline, PIECES, &stretch, 1, &sample->strip), 0);
    assert_int_equal(separation_make(&sample->strip, &sample->separation), 0);
    for (size_t i = 0; i < PIECES; i++)
        strip_put(&sample->strip, i, 0, 1, 1);
}

static void tear_down(struct sample *sample) {
    separation_free(&sample->separation);
    strip_free(&sample->strip);
    supply_free(&sample->supply);
}

static size_t overlaps(struct sample *sample) {
    size_t count = 0;
    for (size_t i = 0; i < PIECES; i++)
        for (size_t j = 0; j < i; j++)
            count += overlap_cost(&sample->strip, i, j) > 0;
    return count;
}

static void heap_of_pieces_is_spread_out(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample, 4.1);
    assert_int_equal(overlaps(&sample), PIECES * (PIECES - 1) / 2);
    assert_true(separate(&sample.separation, 200, UINT64_MAX));
    assert_int_equal(overlaps(&sample), 0);
    assert_true(strip_used_m(&sample.strip, 0) <= 4.1 + 1e-9);
    tear_down(&sample);
}

static void what_cannot_be_parted_is_said_and_left_at_its_best(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample, 3.5);
    assert_false(separate(&sample.separation, 20, UINT64_MAX));
    size_t left = overlaps(&sample);
    assert_true(left > 0 && left < PIECES);
    tear_down(&sample);
}

static void separation_ends_when_its_looks_are_spent(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample, 3.5);
    assert_false(separate(&sample.separation, 1000000, 20000));
    assert_true(sample.strip.looks < 40000);
    tear_down(&sample);
}

static void long_layout_is_shortened_to_its_best(void **state) {
    (void)state;
    struct sample sample;
    struct spot spot[PIECES];
    set_up(&sample, 30);
    for (size_t i = 0; i < PIECES; i++) {
        strip_take(&sample.strip, i);
        strip_put(&sample.strip, i, 0, 2.0 * (double)i, 1);
    }
    struct found found = {spot, 1, HUGE_VAL};
    assert_true(found_keep(&found, &sample.strip));
    assert_false(found_keep(&found, &sample.strip));
    assert_close(found.used_m, 23, 1e-9, 0);
    found_shorten(&sample.separation, &found, 20000000, NULL, NULL);
    assert_true(found.used_m < 4.1);
    strip_set(&sample.strip, found.spot);
    assert_int_equal(overlaps(&sample), 0);
    tear_down(&sample);
}

static void numbers_drawn_lie_where_they_should(void **state) {
    (void)state;
    struct random random = {5};
    size_t seen[7] = {0};
    for (int k = 0; k < 7000; k++) {
        seen[random_below(&random, 7)]++;
        double share = random_share(&random);
        assert_true(share >= 0 && share < 1);
    }
    for (size_t k = 0; k < 7; k++)
        assert_in_range(seen[k], 850, 1150);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(heap_of_pieces_is_spread_out),
        cmocka_unit_test(what_cannot_be_parted_is_said_and_left_at_its_best),
        cmocka_unit_test(separation_ends_when_its_looks_are_spent),
        cmocka_unit_test(long_layout_is_shortened_to_its_best),
        cmocka_unit_test(numbers_drawn_lie_where_they_should),
    };
    return cmocka_run_group_tests_name("overlap", tests, NULL, NULL);
}
