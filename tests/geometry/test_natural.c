/* test_natural.c - the meridian by power series: what it keeps, and how it refuses. */
#include "support.h"

#include <math.h>

#include "geometry/natural.h"

static struct meridian meridian; /* too large for a small stack */

static bool finite_state(struct meridian_state at) {
    return isfinite(at.r) && isfinite(at.z) && isfinite(at.slope) && isfinite(at.tension) &&
           isfinite(at.area) && isfinite(at.volume);
}

/* Follow from a mouth at a first slope.  Returns: the least slope at the ends of all steps, or
 * less than -pi when the meridian does not come back to the axis. */
static double least_slope(double mouth, double omega, double theta_0) {
    struct meridian_load load = {.b = 1, .w = omega};
    struct meridian_state start = {.r = mouth, .slope = theta_0, .tension = 1 / cos(theta_0)};
    if (!meridian_follow(&meridian, &load, &start, 1e-12))
        return -4;
    double least = meridian_at(&meridian, meridian.length).slope;
    for (size_t i = 0; i < meridian.steps; i++)
        least = fmin(least, meridian.step[i].slope[0]);
    return least;
}

/* ---- what a solution is ------------------------------------------------ */

static void check_solution(double mouth, double omega, double theta_0) {
    enum { SAMPLES = 50 };
    assert_true(theta_0 > 0 && theta_0 < 85 * PI / 180);
    struct meridian_state at = meridian_at(&meridian, 0);
    assert_close(at.r, mouth, 0, 0);
    assert_close(at.slope, theta_0, 0, 0);
    double before = theta_0;
    for (int i = 0; i <= SAMPLES; i++) {
        at = meridian_at(&meridian, meridian.length * i / SAMPLES);
        assert_true(finite_state(at));
        assert_true(at.slope <= before + 1e-12);
        before = at.slope;
    }
    assert_close(at.r, 0, 1e-12, 0);
    assert_close(at.slope, -PI / 2, 1e-12, 0);
    assert_close(at.volume, 1 + omega * at.area, 0, 1e-11);
}

/* Every mouth up to 3 and every weight up to 2, in lambda: a solution that is one, or a
 * refusal that is right. */
static void every_mouth_and_weight_is_solved_or_rightly_refused(void **state) {
    (void)state;
    size_t count[3] = {0};
    for (int i = 0; i <= 20; i++)
        for (int j = 0; j <= 30; j++) {
            double omega = 0.1 * i, mouth = 0.1 * j, theta_0 = -1;
            enum natural_status status = natural_solve(mouth, omega, 0, &meridian, &theta_0);
            count[status]++;
            assert_true(isfinite(theta_0) && isfinite(meridian.length));
            if (status == NATURAL_FINE)
                check_solution(mouth, omega, theta_0);
            else if (status == NATURAL_MOUTH_TOO_WIDE) /* past level even when it starts upright */
                assert_true(least_slope(mouth, omega, 1e-6) < -PI / 2);
            else /* not yet level even when it starts as flat as is allowed */
                assert_true(least_slope(mouth, omega, 84.9999 * PI / 180) > -PI / 2);
        }
    assert_true(count[NATURAL_FINE] > 100);
    assert_true(count[NATURAL_MOUTH_TOO_WIDE] > 100);
    assert_true(count[NATURAL_TOO_HEAVY] > 100);
}

static void a_mouth_wider_than_the_body_is_refused(void **state) {
    (void)state;
    static const double mouth[] = {0.85, 1, 1.4, 1.6, 2, 3, 10};
    for (size_t i = 0; i < COUNT_OF(mouth); i++) {
        double theta_0;
        assert_int_equal(natural_solve(mouth[i], 0, 0, &meridian, &theta_0),
                         NATURAL_MOUTH_TOO_WIDE);
    }
}

static void cloth_too_heavy_to_lift_is_refused(void **state) {
    (void)state;
    static const double omega[] = {0.6, 1, 2, 10, 1000};
    for (size_t i = 0; i < COUNT_OF(omega); i++) {
        double theta_0;
        assert_int_equal(natural_solve(0, omega[i], 0, &meridian, &theta_0), NATURAL_TOO_HEAVY);
    }
}

/* ---- accuracy ---------------------------------------------------------- */

static void the_state_is_continuous_across_steps(void **state) {
    (void)state;
    for (int i = 0; i <= 4; i++) {
        double theta_0;
        assert_int_equal(natural_solve(0.1 * i, 0.05 * i, 0, &meridian, &theta_0), NATURAL_FINE);
        assert_true(meridian.steps > 2);
        for (size_t k = 1; k < meridian.steps; k++) {
            double s = meridian.step[k].start;
            assert_close(s, meridian.step[k - 1].start + meridian.step[k - 1].length, 1e-14, 0);
            struct meridian_state below = meridian_at(&meridian, s - 1e-13);
            struct meridian_state above = meridian_at(&meridian, s);
            assert_close(below.r, above.r, 1e-11, 0);
            assert_close(below.z, above.z, 1e-11, 0);
            assert_close(below.slope, above.slope, 1e-11, 0);
            assert_close(below.tension, above.tension, 1e-11, 0);
            assert_close(below.area, above.area, 1e-11, 0);
            assert_close(below.volume, above.volume, 1e-11, 0);
        }
    }
}

/* Largest distance between two meridians of the same start, over their length. */
static double apart(const struct meridian *one, const struct meridian *other) {
    enum { SAMPLES = 100 };
    double largest = fabs(one->length - other->length);
    for (int i = 0; i <= SAMPLES; i++) {
        double s = other->length * i / SAMPLES;
        struct meridian_state a = meridian_at(one, s), b = meridian_at(other, s);
        largest = fmax(largest, hypot(a.r - b.r, a.z - b.z));
    }
    return largest / other->length;
}

static void halving_the_tolerance_moves_nothing(void **state) {
    (void)state;
    static struct meridian usual, half;
    for (int i = 0; i <= 8; i++) {
        double mouth = 0.05 * i, omega = 0.025 * i, theta_0;
        struct meridian_load load = {.b = 1, .w = omega};
        assert_int_equal(natural_solve(mouth, omega, 0, &meridian, &theta_0), NATURAL_FINE);
        struct meridian_state start = {.r = mouth, .slope = theta_0, .tension = 1 / cos(theta_0)};
        assert_true(meridian_follow(&usual, &load, &start, 1e-12));
        assert_true(meridian_follow(&half, &load, &start, 5e-13));
        assert_true(apart(&usual, &half) < 1e-12);
        assert_true(meridian_follow(&half, &load, &start, 1e-15));
        assert_true(apart(&usual, &half) < 1e-12);
    }
}

static void the_tolerance_is_kept_at_every_size(void **state) {
    (void)state;
    static struct meridian exact;
    double theta_0, omega = 0.1;
    assert_int_equal(natural_solve(0.1, omega, 0, &meridian, &theta_0), NATURAL_FINE);
    struct meridian_load load = {.b = 1, .w = omega};
    struct meridian_state start = {.r = 0.1, .slope = theta_0, .tension = 1 / cos(theta_0)};
    assert_true(meridian_follow(&exact, &load, &start, 1e-16));
    size_t evaluations = 0;
    for (double tolerance = 1e-4; tolerance > 5e-14; tolerance /= 10) {
        assert_true(meridian_follow(&meridian, &load, &start, tolerance));
        assert_true(apart(&meridian, &exact) < 2 * tolerance + 1e-14);
        assert_true(meridian.evaluations >= evaluations); /* and more care costs no less */
        evaluations = meridian.evaluations;
    }
}

static void the_guess_changes_the_work_not_the_answer(void **state) {
    (void)state;
    static const double guess[] = {-1, 1e-9, 0.3, 0.9, 1.4, 5};
    double want, got;
    assert_int_equal(natural_solve(0.15, 0.1, 0, &meridian, &want), NATURAL_FINE);
    for (size_t i = 0; i < COUNT_OF(guess); i++) {
        assert_int_equal(natural_solve(0.15, 0.1, guess[i], &meridian, &got), NATURAL_FINE);
        assert_close(got, want, 1e-12, 0);
    }
}

/* ---- meridians that do not close --------------------------------------- */

static void a_meridian_that_turns_over_is_reported(void **state) {
    (void)state;
    struct meridian_load load = {.p0 = 10};
    struct meridian_state start = {.r = 1, .slope = 1, .tension = 5};
    assert_false(meridian_follow(&meridian, &load, &start, 1e-12));
    assert_true(finite_state(meridian_at(&meridian, meridian.length)));
}

static void a_meridian_that_never_comes_back_is_reported(void **state) {
    (void)state;
    struct meridian_load load = {0};
    struct meridian_state start = {.r = 1, .slope = 0.5, .tension = 1};
    assert_false(meridian_follow(&meridian, &load, &start, 1e-12));
}

/* No load and no pressure: a straight cone, whose figures are known. */
static void a_slack_cone_comes_straight_back_to_the_axis(void **state) {
    (void)state;
    struct meridian_load load = {.p0 = 1e-12};
    struct meridian_state start = {.r = 1, .slope = -PI / 6, .tension = 1};
    assert_true(meridian_follow(&meridian, &load, &start, 1e-12));
    struct meridian_state end = meridian_at(&meridian, meridian.length);
    assert_close(meridian.length, 2, 1e-10, 0);
    assert_close(end.z, sqrt(3), 1e-10, 0);
    assert_close(end.area, PI * 2, 1e-10, 0);
    assert_close(end.volume, PI * sqrt(3) / 3, 1e-10, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_mouth_and_weight_is_solved_or_rightly_refused),
        cmocka_unit_test(a_mouth_wider_than_the_body_is_refused),
        cmocka_unit_test(cloth_too_heavy_to_lift_is_refused),
        cmocka_unit_test(the_state_is_continuous_across_steps),
        cmocka_unit_test(halving_the_tolerance_moves_nothing),
        cmocka_unit_test(the_tolerance_is_kept_at_every_size),
        cmocka_unit_test(the_guess_changes_the_work_not_the_answer),
        cmocka_unit_test(a_meridian_that_turns_over_is_reported),
        cmocka_unit_test(a_meridian_that_never_comes_back_is_reported),
        cmocka_unit_test(a_slack_cone_comes_straight_back_to_the_axis),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
