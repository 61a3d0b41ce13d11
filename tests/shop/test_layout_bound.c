/* Lengths of cloth that no layout can undercut. */
#include "support.h"

#include <math.h>

#include "gorewright/layout.h"

static const struct flat_point square[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
static const struct flat_point triangle[] = {{0, 0}, {2, 0}, {0, 1}};

static double bound_m(const struct flat_point *point, size_t points, size_t count, unsigned turns,
                      double width_m, double gap_m) {
    struct layout_outline outline = {"S", point, points, count, turns};
    struct layout_bolt bolt = {width_m, HUGE_VAL};
    struct layout_task task = {
        .outline = &outline, .outlines = 1, .bolt = &bolt, .bolts = 1, .gap_m = gap_m};
    double bound = layout_lower_bound_m(&task);
    assert_true(bound >= layout_area_bound_m(&task));
    return bound;
}

static void squares_that_lie_two_abreast_take_half_their_number(void **state) {
    (void)state;
    assert_close(bound_m(square, 4, 10, ONLY_TURN_0, 2.9, 0), 5, 1e-9, 0);
    assert_close(bound_m(square, 4, 10, ONLY_TURN_0, 3, 0), 10.0 / 3, 1e-9, 0);
    assert_close(bound_m(square, 4, 10, ONLY_TURN_0, 1.9, 0), 10, 1e-9, 0);
}

static void gap_can_take_the_room_for_one_more(void **state) {
    (void)state;
    assert_close(bound_m(square, 4, 10, ONLY_TURN_0, 3.01, 0.01), 5, 1e-6, 0);
    assert_close(bound_m(square, 4, 10, ONLY_TURN_0, 3.01, 0.004), 10.0 / 3, 1e-6, 0);
}

static void only_where_a_piece_is_wide_does_it_fill_the_width(void **state) {
    (void)state;
    /* over half of its length of 2 the triangle is wider than half of the cloth of 1 */
    assert_close(bound_m(triangle, 3, 1, ONLY_TURN_0, 1, 0), 1, 1e-6, 0);
    assert_close(bound_m(triangle, 3, 1, ONLY_TURN_90, 2, 0), 0.5, 1e-6, 0);
}

static void pieces_that_may_lie_crosswise_are_bound_by_area_alone(void **state) {
    (void)state;
    assert_close(bound_m(square, 4, 10, TURNS_ANY, 2.9, 0), 10 / 2.9, 1e-9, 0);
}

static void earlier_bolts_take_their_share_of_the_area(void **state) {
    (void)state;
    struct layout_outline outline = {"S", square, 4, 10, ONLY_TURN_0};
    const struct layout_bolt bolt[] = {{2, 2}, {3, HUGE_VAL}};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = bolt, .bolts = 2};
    assert_close(layout_lower_bound_m(&task), 2, 1e-12, 0);
    outline.count = 3;
    assert_close(layout_lower_bound_m(&task), 0, 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(squares_that_lie_two_abreast_take_half_their_number),
        cmocka_unit_test(gap_can_take_the_room_for_one_more),
        cmocka_unit_test(only_where_a_piece_is_wide_does_it_fill_the_width),
        cmocka_unit_test(pieces_that_may_lie_crosswise_are_bound_by_area_alone),
        cmocka_unit_test(earlier_bolts_take_their_share_of_the_area),
    };
    return cmocka_run_group_tests_name("layout_bound", tests, NULL, NULL);
}
