/* Where one shape may not stand beside another. */
#include "support.h"

#include <math.h>

#include "shop/nofit.h"

static struct flat_point square[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
static struct flat_point triangle[] = {{0, 0}, {2, 0}, {0, 1}};
static size_t one_part_of_4[] = {0, 4}, one_part_of_3[] = {0, 3};

static struct shape shape_of(struct flat_point *point, size_t *first) {
    return (struct shape){.parts = {point, first, 1}};
}

/* Depth in the deepest part; negative outside all. */
static double depth(const struct nofit *nofit, double x, double y) {
    double most = -1;
    for (size_t i = 0; i < nofit->parts; i++)
        most = fmax(most, nofit_depth(&nofit->part[i], x, y));
    return most;
}

static void two_squares_keep_apart_by_their_width_and_the_gap(void **state) {
    (void)state;
    struct shape a = shape_of(square, one_part_of_4);
    struct nofit nofit;
    assert_int_equal(nofit_make(&a, &a, 0.1, &nofit), 0);
    assert_int_equal(nofit.parts, 1);
    assert_int_equal(nofit.part[0].edges, 4);
    assert_close(nofit.least[ALONG], -1.1, 1e-12, 0);
    assert_close(nofit.most[ACROSS], 1.1, 1e-12, 0);
    assert_close(depth(&nofit, 0, 0), 1.1, 1e-12, 0);
    assert_close(depth(&nofit, 1.0, 0.3), 0.1, 1e-12, 0);
    assert_true(depth(&nofit, 1.1 + 1e-9, 0) <= 0);
    nofit_free(&nofit);
}

static void touching_position_of_a_triangle_lies_on_the_border(void **state) {
    (void)state;
    struct shape a = shape_of(triangle, one_part_of_3), b = shape_of(square, one_part_of_4);
    struct nofit nofit;
    assert_int_equal(nofit_make(&a, &b, 0, &nofit), 0);
    /* the square's lower left corner in the middle of the slope */
    assert_close(depth(&nofit, 1, 0.5), 0, 1e-12, 0);
    assert_true(depth(&nofit, 0.9, 0.4) > 0.05);
    assert_true(depth(&nofit, 1.1, 0.6) <= 0);
    nofit_free(&nofit);
}

/* Whether a line parallel to an axis, at `c` on the other, enters and leaves a part where the
 * chains say. */
static void line_meets_border(const struct nofit_part *part, enum axis axis, double c) {
    double near = -HUGE_VAL, far = HUGE_VAL;
    for (size_t i = 0; i < part->near[axis].count; i++)
        near = fmax(near, part->near[axis].a[i] + part->near[axis].b[i] * c);
    for (size_t i = 0; i < part->far[axis].count; i++)
        far = fmin(far, part->far[axis].a[i] + part->far[axis].b[i] * c);
    assert_true(near < far);
    for (int side = 0; side < 2; side++) {
        double at = side == 0 ? near : far;
        double x = axis == ALONG ? at : c, y = axis == ALONG ? c : at;
        assert_close(nofit_depth(part, x, y), 0, 1e-9, 0);
    }
    double middle = (near + far) / 2;
    assert_true(nofit_depth(part, axis == ALONG ? middle : c, axis == ALONG ? c : middle) > 0);
}

static void lines_enter_and_leave_where_the_chains_say(void **state) {
    (void)state;
    struct shape a = shape_of(triangle, one_part_of_3), b = shape_of(square, one_part_of_4);
    struct nofit nofit;
    assert_int_equal(nofit_make(&a, &b, 0.05, &nofit), 0);
    for (double share = 0.02; share < 1; share += 0.05)
        for (int axis = ALONG; axis <= ACROSS; axis++)
            line_meets_border(&nofit.part[0], (enum axis)axis,
                              nofit.least[!axis] +
                                  share * (nofit.most[!axis] - nofit.least[!axis]));
    nofit_free(&nofit);
}

static void sharp_corner_keeps_the_gap_and_little_more(void **state) {
    (void)state;
    static struct flat_point needle[] = {{0, 0}, {1, -0.01}, {1, 0.01}};
    struct shape a = shape_of(needle, one_part_of_3);
    static struct flat_point speck[] = {{0, 0}, {1e-6, 0}, {0, 1e-6}};
    struct shape b = shape_of(speck, one_part_of_3);
    struct nofit nofit;
    assert_int_equal(nofit_make(&a, &b, 0.1, &nofit), 0);
    assert_true(depth(&nofit, -0.0999, 0) > 0);
    assert_true(nofit.least[ALONG] > -0.17);
    nofit_free(&nofit);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_squares_keep_apart_by_their_width_and_the_gap),
        cmocka_unit_test(touching_position_of_a_triangle_lies_on_the_border),
        cmocka_unit_test(lines_enter_and_leave_where_the_chains_say),
        cmocka_unit_test(sharp_corner_keeps_the_gap_and_little_more),
    };
    return cmocka_run_group_tests_name("nofit", tests, NULL, NULL);
}
