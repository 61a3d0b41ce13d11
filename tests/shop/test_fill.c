/* First layouts: one piece after another. */
#include "support.h"

#include <math.h>

#include "shop/fill.h"

static const struct flat_point square[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
static const struct flat_point wide[] = {{0, 0}, {1, 0}, {1, 2}, {0, 2}};

struct sample {
    struct layout_outline outline[2];
    struct layout_bolt bolt;
    struct layout_task task;
    struct supply supply;
    struct strip strip;
    struct filler filler;
};

/* Two squares and two pieces twice as wide, on an offcut of 1 by 1.5 and a strip 3 wide. */
static void set_up(struct sample *sample, double length_m) {
    static const size_t outline[] = {0, 0, 1, 1};
    size_t bad;
    *sample = (struct sample){
        .outline = {{"S", square, 4, 2, ONLY_TURN_0}, {"W", wide, 4, 2, ONLY_TURN_0}},
        .bolt = {3, HUGE_VAL}};
    sample->task = (struct layout_task){
        .outline = sample->outline, .outlines = 2, .bolt = &sample->bolt, .bolts = 1};
    const struct stretch stretch[] = {{0, 0, 1.5, 1}, {1, 2, length_m, 3}};
    assert_int_equal(supply_make(&sample->task, &sample->supply, &bad), 0);
    assert_int_equal(strip_make(&sample->supply, outline, 4, stretch, 2, &sample->strip), 0);
    assert_int_equal(filler_make(&sample->strip, &sample->filler), 0);
}

static void tear_down(struct sample *sample) {
    filler_free(&sample->filler);
    strip_free(&sample->strip);
    supply_free(&sample->supply);
}

static void each_piece_goes_on_the_first_cloth_that_has_room_for_it(void **state) {
    (void)state;
    static const size_t order[] = {2, 0, 3, 1};
    struct sample sample;
    set_up(&sample, 20);
    assert_true(fill_strip(&sample.strip, &sample.filler, order));
    assert_close(strip_used_m(&sample.strip, 0), 1, 1e-9, 0);
    assert_close(strip_used_m(&sample.strip, 1), 2, 1e-9, 0);
    assert_close(sample.strip.spot[0].x_m, 0, 1e-9, 0);
    assert_close(sample.strip.spot[1].x_m, 2, 1e-9, 0); /* beside a wide piece */
    for (size_t i = 0; i < 4; i++)
        for (size_t j = 0; j < i; j++)
            assert_close(overlap_cost(&sample.strip, i, j), 0, 0, 0);
    tear_down(&sample);
}

static void piece_without_room_is_said_to_have_none(void **state) {
    (void)state;
    static const size_t order[] = {0, 1, 2, 3};
    struct sample sample;
    set_up(&sample, 1.5);
    assert_false(fill_strip(&sample.strip, &sample.filler, order));
    assert_true(sample.strip.spot[2].down);
    assert_false(sample.strip.spot[3].down);
    tear_down(&sample);
}

static void strip_can_be_filled_again_in_another_order(void **state) {
    (void)state;
    static const size_t order[] = {2, 0, 3, 1}, other[] = {3, 1, 0, 2};
    struct sample sample;
    set_up(&sample, 20);
    assert_true(fill_strip(&sample.strip, &sample.filler, order));
    assert_true(fill_strip(&sample.strip, &sample.filler, other));
    assert_close(sample.strip.spot[1].x_m, 0, 1e-9, 0);
    assert_close(sample.strip.spot[3].x_m, 2, 1e-9, 0);
    assert_close(strip_used_m(&sample.strip, 1), 2, 1e-9, 0);
    tear_down(&sample);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_piece_goes_on_the_first_cloth_that_has_room_for_it),
        cmocka_unit_test(piece_without_room_is_said_to_have_none),
        cmocka_unit_test(strip_can_be_filled_again_in_another_order),
    };
    return cmocka_run_group_tests_name("fill", tests, NULL, NULL);
}
