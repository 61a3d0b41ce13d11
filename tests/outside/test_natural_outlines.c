/* test_natural_outlines.c - the outline solver against figures from outside. */
#include "rows.h"

#include "geometry/natural.h"

static struct meridian meridian; /* too large for a small stack */

/* Where the slope passes through level: the widest place, by halving. */
static double widest(void) {
    double low = 0, high = meridian.length;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        *(meridian_at(&meridian, middle).slope > 0 ? &low : &high) = middle;
    }
    return meridian_at(&meridian, low).r;
}

/* Solve for the mouth that is `ratio` of the largest radius.  Returns: theta_0. */
static double solve_ratio(double ratio, double omega) {
    double theta_0 = 0, mouth = 0.6 * ratio;
    for (int i = 0; i < 60; i++) {
        assert_int_equal(natural_solve(mouth, omega, 0, &meridian, &theta_0), NATURAL_FINE);
        double next = ratio * widest();
        if (fabs(next - mouth) < 1e-14)
            break;
        mouth = next; /* r_max hardly depends on the mouth */
    }
    assert_close(meridian_at(&meridian, 0).r, ratio * widest(), 1e-12, 0);
    return theta_0;
}

static void natural_outlines_agree_with_independent_figures(void **state) {
    (void)state;
    struct rows rows = rows_open("natural_outlines.txt");
    struct row row;
    size_t seen = 0;
    for (; rows_next(&rows, &row); seen++) {
        double theta_0 = solve_ratio(row_number(&row, 1), row_number(&row, 0) / cbrt(2 * PI));
        struct meridian_state end = meridian_at(&meridian, meridian.length);
        check_column(&rows, &row, 2, theta_0 * 180 / PI, "theta_0");
        check_column(&rows, &row, 3, meridian.length, "gore length");
        check_column(&rows, &row, 4, widest(), "r max");
        check_column(&rows, &row, 5, end.z, "height");
        check_column(&rows, &row, 6, end.volume, "volume");
        check_column(&rows, &row, 7, end.area, "area");
    }
    rows_close(&rows, seen, 9);
}

/* V / lambda^3 = 1 + (2 pi)^(-1/3) Sigma A / lambda^2: the lift of the whole carries the load
 * and the cloth.  Source: vertical balance of the closed smooth shape, exact at any Sigma and
 * mouth; an open mouth, where the pressure is zero, is closed by a flat disc. */
static void lift_carries_load_and_cloth_at_any_weight_and_mouth(void **state) {
    (void)state;
    size_t solved = 0;
    for (int i = 0; i <= 10; i++)
        for (int j = 0; j <= 10; j++) {
            double sigma = 0.05 * i, theta_0;
            if (natural_solve(0.05 * j, sigma / cbrt(2 * PI), 0, &meridian, &theta_0) !=
                NATURAL_FINE)
                continue;
            struct meridian_state end = meridian_at(&meridian, meridian.length);
            assert_close(end.volume, 1 + sigma * end.area / cbrt(2 * PI), 1e-9, 0);
            solved++;
        }
    assert_true(solved > 100);
}

/* Two flat discs of radius a, sewn together and blown up: uniform pressure, no load, no
 * weight.  Source: W. H. Paulsen, "What is the shape of a Mylar balloon?", Amer. Math. Monthly
 * 101 (1994): r/a 0.7627, thickness/(2r) 0.599, area pi^2 r^2, volume 1.2185 a^3; further
 * digits computed independently, no printed source. */
static void two_inflated_discs_have_the_published_shape(void **state) {
    (void)state;
    struct meridian_load load = {.p0 = 1};
    struct meridian_state start = {.slope = PI / 2, .tension = 1};
    assert_true(meridian_follow(&meridian, &load, &start, 1e-13));
    struct meridian_state end = meridian_at(&meridian, meridian.length);
    double a = meridian.length / 2, r = widest();
    assert_close(end.slope, -PI / 2, 1e-11, 0);
    assert_close(r / a, 0.7627, 1e-4, 0);
    assert_close(end.z / (2 * r), 0.599, 1e-3, 0);
    assert_close(end.volume / (a * a * a), 1.2185, 1e-4, 0);
    assert_close(r / a, 0.7627597635, 1e-10, 0);
    assert_close(end.z / (2 * r), 0.5990701174, 1e-10, 0);
    assert_close(end.area, PI * PI * r * r, 0, 1e-10);
    assert_close(end.volume / (a * a * a), 1.2185242161, 1e-10, 0);
}

/* The shape of the two discs does not depend on how hard they are blown up. */
static void pressure_alone_changes_no_proportion(void **state) {
    (void)state;
    for (int i = -2; i <= 2; i++) {
        struct meridian_load load = {.p0 = pow(10, i)};
        struct meridian_state start = {.slope = PI / 2, .tension = 3};
        assert_true(meridian_follow(&meridian, &load, &start, 1e-13));
        assert_close(widest() / (meridian.length / 2), 0.7627597635, 1e-10, 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(natural_outlines_agree_with_independent_figures),
        cmocka_unit_test(lift_carries_load_and_cloth_at_any_weight_and_mouth),
        cmocka_unit_test(two_inflated_discs_have_the_published_shape),
        cmocka_unit_test(pressure_alone_changes_no_proportion),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
