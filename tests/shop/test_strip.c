/* Pieces on a strip, and lines run through them. */
#include "support.h"

#include <math.h>

#include "shop/strip.h"

static const struct flat_point square[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};

struct sample {
    struct layout_outline outline;
    struct layout_bolt bolt;
    struct layout_task task;
    struct supply supply;
    struct strip strip;
};

/* A strip 3 wide and 10 long for three squares, the first two of which lie on it. */
static void set_up(struct sample *sample) {
    *sample = (struct sample){.outline = {"S", square, 4, 3, ONLY_TURN_0}, .bolt = {3, HUGE_VAL}};
    sample->task = (struct layout_task){
        .outline = &sample->outline, .outlines = 1, .bolt = &sample->bolt, .bolts = 1};
    size_t bad;
    const size_t outline[] = {0, 0, 0};
    const struct stretch stretch = {0, 0, 10, 3};
    assert_int_equal(supply_make(&sample->task, &sample->supply, &bad), 0);
    assert_int_equal(strip_make(&sample->supply, outline, 3, &stretch, 1, &sample->strip), 0);
    strip_put(&sample->strip, 0, 0, 0, 0);
    strip_put(&sample->strip, 1, 0, 4, 0.5);
}

static void tear_down(struct sample *sample) {
    strip_free(&sample->strip);
    supply_free(&sample->supply);
}

static void first_free_position_is_where_the_piece_touches(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    struct line line = {2, 0, ALONG, 0, 0, 9};
    double at;
    assert_true(line_first_free(&sample.strip, &line, &at));
    assert_close(at, 1, 1e-9, 0);
    line.from = 3.2; /* in the way of the second piece */
    assert_true(line_first_free(&sample.strip, &line, &at));
    assert_close(at, 5, 1e-9, 0);
    line.to = 4.9;
    assert_false(line_first_free(&sample.strip, &line, &at));
    line = (struct line){2, 0, ACROSS, 0.5, 0, 2};
    assert_true(line_first_free(&sample.strip, &line, &at));
    assert_close(at, 1, 1e-9, 0);
    tear_down(&sample);
}

static void piece_slides_back_until_it_touches_or_to_the_end(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    struct line line = {2, 0, ALONG, 0, 0, 9};
    assert_close(line_slide_back(&sample.strip, &line, 8), 5, 1e-9, 0);
    assert_close(line_slide_back(&sample.strip, &line, 2.5), 1, 1e-9, 0);
    line.other = 1.8;
    assert_close(line_slide_back(&sample.strip, &line, 8), 0, 1e-9, 0);
    tear_down(&sample);
}

static void best_position_is_free_or_overlaps_least(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    double at = -1, cost = HUGE_VAL;
    struct line line = {2, 0, ALONG, 0, 3.5, 4.6};
    assert_true(line_best(&sample.strip, &line, &at, &cost));
    assert_close(at, 4.6, 1e-9, 0); /* 0.4 deep; 0.5 at the other end */
    double there = cost;
    assert_false(line_best(&sample.strip, &line, &at, &cost));
    assert_close(cost, there, 0, 0);
    line.to = 9;
    assert_true(line_best(&sample.strip, &line, &at, &cost));
    assert_close(at, 5, 1e-9, 0);
    assert_close(cost, 0, 0, 0);
    tear_down(&sample);
}

static void weight_of_a_piece_decides_which_overlap_is_chosen(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    strip_take(&sample.strip, 1);
    strip_put(&sample.strip, 1, 0, 1.8, 0);
    for (int heavy = 0; heavy < 2; heavy++) {
        double at = -1, cost = HUGE_VAL;
        struct line line = {2, 0, ALONG, 0, 0.8, 1};
        sample.strip.weight[heavy] = 10;
        sample.strip.weight[1 - heavy] = 1;
        assert_true(line_best(&sample.strip, &line, &at, &cost));
        assert_close(at, heavy == 0 ? 1 : 0.8, 1e-9, 0);
    }
    tear_down(&sample);
}

static void overlap_costs_more_the_deeper_it_is_and_nothing_where_pieces_touch(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    double before = HUGE_VAL;
    for (double x = 4; x < 5.05; x += 0.1) {
        strip_take(&sample.strip, 2);
        strip_put(&sample.strip, 2, 0, x, 0.5);
        double cost = overlap_cost(&sample.strip, 2, 1);
        assert_true(cost < before);
        before = cost;
    }
    assert_close(before, 0, 0, 0);
    tear_down(&sample);
}

static void neighbours_are_those_within_reach(void **state) {
    (void)state;
    struct sample sample;
    const uint32_t *list;
    set_up(&sample);
    strip_put(&sample.strip, 2, 0, 4.5, 1.2);
    assert_int_equal(strip_neighbours(&sample.strip, 2, &list), 1);
    assert_int_equal(list[0], 1);
    strip_take(&sample.strip, 2);
    strip_put(&sample.strip, 2, 0, 5, 0.5);
    assert_int_equal(strip_neighbours(&sample.strip, 2, &list), 0);
    tear_down(&sample);
}

static void used_length_ends_with_the_last_piece(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    assert_close(strip_used_m(&sample.strip, 0), 5, 1e-12, 0);
    strip_take(&sample.strip, 1);
    assert_close(strip_used_m(&sample.strip, 0), 1, 1e-12, 0);
    strip_take(&sample.strip, 0);
    assert_close(strip_used_m(&sample.strip, 0), 0, 0, 0);
    tear_down(&sample);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(first_free_position_is_where_the_piece_touches),
        cmocka_unit_test(piece_slides_back_until_it_touches_or_to_the_end),
        cmocka_unit_test(best_position_is_free_or_overlaps_least),
        cmocka_unit_test(weight_of_a_piece_decides_which_overlap_is_chosen),
        cmocka_unit_test(overlap_costs_more_the_deeper_it_is_and_nothing_where_pieces_touch),
        cmocka_unit_test(neighbours_are_those_within_reach),
        cmocka_unit_test(used_length_ends_with_the_last_piece),
    };
    return cmocka_run_group_tests_name("strip", tests, NULL, NULL);
}
