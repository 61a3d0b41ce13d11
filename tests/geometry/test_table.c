/* test_table.c - the curve through the builder's own stations. */
#include "support.h"

#include <math.h>

#include "geometry/table.h"

static struct spline spline; /* too large for a small stack */

static const struct point_list envelope = {8,
                                           {{0.25, 0.10},
                                            {0.50, 0.50},
                                            {0.86, 1.05},
                                            {1.15, 1.60},
                                            {1.25, 2.20},
                                            {1.02, 2.80},
                                            {0.60, 3.08},
                                            {0.20, 3.15}}};

static double width_of(size_t piece) {
    double end = piece + 1 < spline.pieces ? spline.piece[piece + 1].t : spline.t_end;
    return end - spline.piece[piece].t;
}

static double arc_end(size_t piece) {
    return piece + 1 < spline.pieces ? spline.piece[piece + 1].s : spline.s_end;
}

/* A likely table: rising and bulging, each station off by a builder's error. */
static struct point_list rolled(struct dice *dice) {
    struct point_list list = {.count = (size_t)dice_whole(dice, 2, 30)};
    double height = dice_between(dice, 0.3, 8), girth = height * dice_between(dice, 0.2, 0.7);
    double error = dice_between(dice, 0, 0.1);
    for (size_t i = 0; i < list.count; i++) {
        double part = ((double)i + error * dice_between(dice, -1, 1)) / (double)(list.count - 1);
        list.value[i].z_m = height * part;
        list.value[i].r_m = 0.1 + girth * sin(0.2 + 2.7 * fmin(fmax(part, 0), 1));
    }
    return list;
}

/* ---- through the stations ---------------------------------------------- */

static void check_stations(const struct point_list *list, enum join join) {
    spline_through(list, join, &spline);
    assert_int_equal(spline.pieces, list->count - 1);
    for (size_t i = 0; i < list->count; i++) {
        size_t piece = i < spline.pieces ? i : i - 1;
        double s = i < spline.pieces ? spline.piece[i].s : spline.s_end;
        struct spline_point on_piece = spline_piece_at(&spline, piece, i < spline.pieces ? 0 : 1);
        struct spline_point along = spline_at(&spline, s);
        double z = list->value[i].z_m - list->value[0].z_m;
        assert_close(on_piece.r, list->value[i].r_m, 1e-13, 1e-13);
        assert_close(on_piece.z, z, 1e-13, 1e-13);
        assert_close(along.r, list->value[i].r_m, 1e-12, 1e-12);
        assert_close(along.z, z, 1e-12, 1e-12);
    }
}

static void the_curve_passes_every_station_with_heights_from_the_first(void **state) {
    (void)state;
    struct dice dice = {11};
    check_stations(&envelope, JOIN_SMOOTH);
    check_stations(&envelope, JOIN_STRAIGHT);
    for (int i = 0; i < 100; i++) {
        struct point_list list = rolled(&dice);
        check_stations(&list, i % 2 == 0 ? JOIN_SMOOTH : JOIN_STRAIGHT);
    }
}

/* ---- which curve ------------------------------------------------------- */

static void two_stations_make_a_line(void **state) {
    (void)state;
    static const struct point_list list = {2, {{0.2, 1}, {1.4, 2.6}}};
    spline_through(&list, JOIN_SMOOTH, &spline);
    assert_close(spline.s_end, 2, 1e-14, 0);
    for (int i = 0; i <= 4; i++) {
        struct spline_point at = spline_at(&spline, 0.5 * i);
        assert_close(at.r, 0.2 + 0.3 * i, 1e-14, 0);
        assert_close(at.z, 0.4 * i, 1e-14, 0);
        assert_close(at.slope, atan2(1.2, 1.6), 1e-14, 0);
    }
}

/* Coefficients of one piece, moved so that they count from t = 0. */
static double whole_curve(const double c[4], double start, double t) {
    double x = t - start;
    return c[0] + x * (c[1] + x * (c[2] + x * c[3]));
}

static void three_stations_make_one_parabola(void **state) {
    (void)state;
    static const struct point_list list = {3, {{0.3, 0}, {1.1, 0.9}, {0.4, 2.3}}};
    spline_through(&list, JOIN_SMOOTH, &spline);
    assert_int_equal(spline.pieces, 2);
    for (size_t i = 0; i < 2; i++) {
        assert_close(spline.piece[i].r[3], 0, 1e-14, 0);
        assert_close(spline.piece[i].z[3], 0, 1e-14, 0);
    }
    for (double t = 0; t < spline.t_end; t += 0.1) {
        const struct spline_piece *a = &spline.piece[0], *b = &spline.piece[1];
        assert_close(whole_curve(a->r, a->t, t), whole_curve(b->r, b->t, t), 1e-13, 0);
        assert_close(whole_curve(a->z, a->t, t), whole_curve(b->z, b->t, t), 1e-13, 0);
    }
    assert_true(fabs(spline.piece[0].r[2]) > 0.1);
}

static void four_stations_make_one_cubic(void **state) {
    (void)state;
    static const struct point_list list = {4, {{0.3, 0}, {1.1, 0.9}, {0.9, 2.3}, {0.2, 2.5}}};
    spline_through(&list, JOIN_SMOOTH, &spline);
    for (size_t i = 1; i < 3; i++) {
        const struct spline_piece *a = &spline.piece[0], *b = &spline.piece[i];
        for (double t = 0; t < spline.t_end; t += 0.1) {
            assert_close(whole_curve(a->r, a->t, t), whole_curve(b->r, b->t, t), 1e-12, 0);
            assert_close(whole_curve(a->z, a->t, t), whole_curve(b->z, b->t, t), 1e-12, 0);
        }
    }
    assert_true(fabs(spline.piece[0].r[3]) > 0.01);
}

/* A cubic of the running chord length, less steep than 1 over 0 .. 4. */
static double cubic_radius(double t) {
    return 0.2 + t * (0.7 - t * (0.05 + t * 0.03));
}

/* Any radius that is a cubic of the chord length comes back exactly, at uneven stations. */
static void a_cubic_is_reproduced_exactly(void **state) {
    (void)state;
    static const double t[] = {0, 0.31, 0.5, 1.2, 1.33, 2.0, 2.9, 3.0};
    struct point_list list = {COUNT_OF(t), {{cubic_radius(0), 0}}};
    for (size_t i = 1; i < list.count; i++) {
        double step = t[i] - t[i - 1], widening = cubic_radius(t[i]) - cubic_radius(t[i - 1]);
        list.value[i].r_m = cubic_radius(t[i]);
        list.value[i].z_m = list.value[i - 1].z_m + sqrt(step * step - widening * widening);
    }
    spline_through(&list, JOIN_SMOOTH, &spline);
    for (size_t i = 0; i < spline.pieces; i++)
        for (int part = 0; part <= 10; part++) {
            double at = t[i] + (t[i + 1] - t[i]) * part / 10;
            assert_close(spline_piece_at(&spline, i, part / 10.0).r, cubic_radius(at), 1e-13, 0);
        }
}

static void slope_and_bend_are_continuous(void **state) {
    (void)state;
    struct dice dice = {5};
    for (int n = 0; n < 50; n++) {
        struct point_list list = rolled(&dice);
        spline_through(&list, JOIN_SMOOTH, &spline);
        for (size_t i = 1; i < spline.pieces; i++) {
            const double *below[] = {spline.piece[i - 1].r, spline.piece[i - 1].z};
            const double *above[] = {spline.piece[i].r, spline.piece[i].z};
            double x = width_of(i - 1);
            for (size_t k = 0; k < 2; k++) {
                const double *c = below[k];
                assert_close(c[1] + x * (2 * c[2] + 3 * x * c[3]), above[k][1], 1e-11, 1e-11);
                assert_close(c[2] + 3 * x * c[3], above[k][2], 1e-9, 1e-9);
            }
        }
    }
}

static void a_table_of_twice_the_size_makes_a_curve_of_twice_the_size(void **state) {
    (void)state;
    static struct spline twice;
    struct point_list list = envelope;
    for (size_t i = 0; i < list.count; i++) {
        list.value[i].r_m *= 2;
        list.value[i].z_m *= 2;
    }
    spline_through(&envelope, JOIN_SMOOTH, &spline);
    spline_through(&list, JOIN_SMOOTH, &twice);
    assert_close(twice.s_end, 2 * spline.s_end, 0, 1e-14);
    for (int i = 0; i <= 20; i++) {
        struct spline_point one = spline_at(&spline, spline.s_end * i / 20);
        struct spline_point two = spline_at(&twice, twice.s_end * i / 20);
        assert_close(two.r, 2 * one.r, 1e-12, 0);
        assert_close(two.z, 2 * one.z, 1e-12, 0);
        assert_close(two.slope, one.slope, 1e-12, 0);
    }
}

/* ---- straight lines ---------------------------------------------------- */

static void straight_lines_kink_at_the_bisector(void **state) {
    (void)state;
    static const struct point_list list = {4, {{1, 0}, {2, 1}, {2, 3}, {1, 3}}};
    spline_through(&list, JOIN_STRAIGHT, &spline);
    double first = sqrt(2);
    assert_close(spline.s_end, first + 3, 1e-14, 0);
    assert_close(spline_at(&spline, 0).slope, PI / 4, 1e-14, 0);
    assert_close(spline_at(&spline, first / 2).slope, PI / 4, 1e-14, 0);
    assert_close(spline_at(&spline, first).slope, PI / 8, 1e-14, 0);
    assert_close(spline_at(&spline, first + 1).slope, 0, 1e-14, 0);
    assert_close(spline_at(&spline, first + 2).slope, -PI / 4, 1e-14, 0);
    assert_close(spline_at(&spline, first + 2.5).slope, -PI / 2, 1e-14, 0);
    assert_close(spline_at(&spline, first + 3).slope, -PI / 2, 1e-14, 0);
    struct spline_point middle = spline_at(&spline, first / 2);
    assert_close(middle.r, 1.5, 1e-14, 0);
    assert_close(middle.z, 0.5, 1e-14, 0);
}

/* A kink is the same seen from a hair below and a hair above, as rounding may have it. */
static void a_kink_is_found_from_both_sides(void **state) {
    (void)state;
    spline_through(&envelope, JOIN_STRAIGHT, &spline);
    for (size_t i = 1; i < spline.pieces; i++) {
        double s = spline.piece[i].s;
        double below = spline_piece_at(&spline, i - 1, 0.5).slope;
        double above = spline_piece_at(&spline, i, 0.5).slope;
        assert_close(spline_at(&spline, s - 1e-13).slope, (below + above) / 2, 1e-14, 0);
        assert_close(spline_at(&spline, s + 1e-13).slope, (below + above) / 2, 1e-14, 0);
        assert_close(spline_at(&spline, s - 1e-6).slope, below, 1e-14, 0);
        assert_close(spline_at(&spline, s + 1e-6).slope, above, 1e-14, 0);
    }
}

/* From 135 degrees to 225, which is -135: the bisector points straight down, not up. */
static void the_bisector_goes_the_shorter_way_round(void **state) {
    (void)state;
    static const struct point_list list = {3, {{1, 3}, {2, 2}, {1, 1}}};
    spline_through(&list, JOIN_STRAIGHT, &spline);
    assert_close(fabs(spline_at(&spline, sqrt(2)).slope), PI, 1e-14, 0);
}

/* ---- arc length -------------------------------------------------------- */

/* Length of a piece by ever finer chords, extrapolated. */
static double chords(size_t piece, int parts) {
    double sum = 0;
    for (int i = 0; i < parts; i++) {
        struct spline_point a = spline_piece_at(&spline, piece, (double)i / parts);
        struct spline_point b = spline_piece_at(&spline, piece, (double)(i + 1) / parts);
        sum += hypot(b.r - a.r, b.z - a.z);
    }
    return sum;
}

static void arc_length_is_that_of_the_curve(void **state) {
    (void)state;
    struct dice dice = {7};
    for (int n = 0; n < 40; n++) {
        struct point_list list = rolled(&dice);
        spline_through(&list, JOIN_SMOOTH, &spline);
        for (size_t i = 0; i < spline.pieces; i++) {
            double coarse = (4 * chords(i, 64) - chords(i, 32)) / 3;
            double fine = (4 * chords(i, 128) - chords(i, 64)) / 3;
            double want = (16 * fine - coarse) / 15;
            assert_close(arc_end(i) - spline.piece[i].s, want, 1e-9, 1e-9);
        }
    }
}

/* Equal steps of arc length are equal steps along the curve, always forward. */
static void arc_length_runs_evenly_from_mouth_to_crown(void **state) {
    (void)state;
    enum { STEPS = 400 };
    struct dice dice = {3};
    for (int n = 0; n < 20; n++) {
        struct point_list list = rolled(&dice);
        spline_through(&list, JOIN_SMOOTH, &spline);
        double step = spline.s_end / STEPS;
        struct spline_point before = spline_at(&spline, 0);
        for (int i = 1; i <= STEPS; i++) {
            struct spline_point at = spline_at(&spline, step * i);
            double moved = hypot(at.r - before.r, at.z - before.z);
            double turned = fabs(remainder(at.slope - before.slope, 2 * PI));
            assert_true(moved <= step * (1 + 1e-9));
            assert_true(moved >= step * (1 - 0.25 * turned * turned - 1e-9));
            double ahead = (at.r - before.r) * sin(at.slope) + (at.z - before.z) * cos(at.slope);
            assert_true(ahead > 0);
            before = at;
        }
    }
}

static void the_slope_is_that_of_the_curve(void **state) {
    (void)state;
    spline_through(&envelope, JOIN_SMOOTH, &spline);
    for (int i = 1; i < 50; i++) {
        double s = spline.s_end * (i + 0.37) / 51, h = 1e-5;
        struct spline_point a = spline_at(&spline, s - h), b = spline_at(&spline, s + h);
        assert_close(spline_at(&spline, s).slope, atan2(b.r - a.r, b.z - a.z), 1e-8, 0);
    }
}

static void the_most_stations_are_taken(void **state) {
    (void)state;
    struct point_list list = {.count = TABLE_MOST};
    for (size_t i = 0; i < list.count; i++) {
        double turn = PI * (0.05 + 0.9 * (double)i / (double)(list.count - 1));
        list.value[i].r_m = 2 * sin(turn);
        list.value[i].z_m = -2 * cos(turn);
    }
    spline_through(&list, JOIN_SMOOTH, &spline);
    assert_close(spline.s_end, 2 * 0.9 * PI, 1e-7, 0);
    struct spline_point middle = spline_at(&spline, spline.s_end / 2);
    assert_close(middle.r, 2, 1e-8, 0);
    assert_close(middle.slope, 0, 1e-8, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_curve_passes_every_station_with_heights_from_the_first),
        cmocka_unit_test(two_stations_make_a_line),
        cmocka_unit_test(three_stations_make_one_parabola),
        cmocka_unit_test(four_stations_make_one_cubic),
        cmocka_unit_test(a_cubic_is_reproduced_exactly),
        cmocka_unit_test(slope_and_bend_are_continuous),
        cmocka_unit_test(a_table_of_twice_the_size_makes_a_curve_of_twice_the_size),
        cmocka_unit_test(straight_lines_kink_at_the_bisector),
        cmocka_unit_test(a_kink_is_found_from_both_sides),
        cmocka_unit_test(the_bisector_goes_the_shorter_way_round),
        cmocka_unit_test(arc_length_is_that_of_the_curve),
        cmocka_unit_test(arc_length_runs_evenly_from_mouth_to_crown),
        cmocka_unit_test(the_slope_is_that_of_the_curve),
        cmocka_unit_test(the_most_stations_are_taken),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
