/* Joins, cut lines and match marks of single pieces. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "geometry/allowances.h"

/* A piece with room for its rings, its allowances set by hand. */
struct sample {
    struct flat_point sew[512], cut[2048];
    struct piece piece;
};

static void four_corners(struct sample *sample, const double xy[8], const double allowance[4]) {
    memset(sample, 0, sizeof *sample);
    struct piece *piece = &sample->piece;
    piece->sew.point = sample->sew;
    piece->cut.point = sample->cut;
    piece->sew.count = 4;
    for (size_t e = 0; e < EDGE_COUNT; e++) {
        sample->sew[e] = (struct flat_point){xy[2 * e], xy[2 * e + 1]};
        piece->sew.first[e] = e;
        piece->allowance_m[e] = allowance[e];
    }
    piece_cut_line(piece);
}

static void rectangle_grows_by_its_allowances(void **state) {
    (void)state;
    static struct sample sample;
    const double corners[] = {0, 0, 1, 0, 1, 0.5, 0, 0.5};
    const double allowance[] = {0.01, 0.02, 0.03, 0.04};
    four_corners(&sample, corners, allowance);
    static const double want[] = {-0.04, -0.01, 1.02, -0.01, 1.02, 0.53, -0.04, 0.53};
    assert_int_equal(sample.piece.cut.count, 4);
    for (size_t k = 0; k < 4; k++) {
        assert_close(sample.cut[k].x_m, want[2 * k], 1e-15, 0);
        assert_close(sample.cut[k].y_m, want[2 * k + 1], 1e-15, 0);
        assert_int_equal(sample.piece.cut.first[k], k);
        assert_false(sample.piece.two_points[k]);
    }
}

static void long_spike_is_cut_back(void **state) {
    (void)state;
    static struct sample sample;
    const double corners[] = {0, 0, 1, 0, 0.9, 0.02, 0.1, 0.3};
    const double allowance[] = {0.01, 0.01, 0.01, 0.01};
    four_corners(&sample, corners, allowance);
    assert_true(sample.piece.two_points[EDGE_RIGHT]);
    double farthest = 0;
    for (size_t k = 0; k < sample.piece.cut.count; k++) {
        struct flat_point p = sample.cut[k];
        double reach = HUGE_VAL;
        for (size_t c = 0; c < 4; c++)
            reach = fmin(reach, hypot(p.x_m - sample.sew[c].x_m, p.y_m - sample.sew[c].y_m));
        farthest = fmax(farthest, reach);
    }
    /* Cut square at 2.5 allowances from the corner: its two points lie a little beyond. */
    assert_true(farthest > MITRE_MOST * 0.01 && farthest < 1.1 * MITRE_MOST * 0.01);
}

static void no_allowance_leaves_the_sew_line(void **state) {
    (void)state;
    static struct sample sample;
    const double corners[] = {0, 0, 1, 0, 0.8, 0.5, 0.2, 0.5};
    const double allowance[] = {0, 0, 0, 0};
    four_corners(&sample, corners, allowance);
    assert_int_equal(sample.piece.cut.count, 4);
    for (size_t k = 0; k < 4; k++)
        assert_close(
            hypot(sample.cut[k].x_m - sample.sew[k].x_m, sample.cut[k].y_m - sample.sew[k].y_m), 0,
            1e-15, 0);
}

/* A top edge hollowed to an arc of radius 4 mm would loop when it is offset by 10 mm. */
static void an_edge_too_hollow_for_its_allowance_is_cut_straight(void **state) {
    (void)state;
    static struct sample sample;
    memset(&sample, 0, sizeof sample);
    struct piece *piece = &sample.piece;
    piece->sew.point = sample.sew;
    piece->cut.point = sample.cut;
    size_t n = 0;
    sample.sew[n++] = (struct flat_point){0, 0};
    sample.sew[n++] = (struct flat_point){0.007, 0};
    for (int i = 0; i <= 16; i++) {
        double turn = PI * (0.15 + 0.7 * i / 16);
        sample.sew[n++] = (struct flat_point){0.0035 + 0.004 * cos(turn), 0.05 - 0.004 * sin(turn)};
    }
    piece->sew.count = n;
    const size_t first[] = {0, 1, 2, n - 1};
    memcpy(piece->sew.first, first, sizeof first);
    for (int e = 0; e < EDGE_COUNT; e++)
        piece->allowance_m[e] = 0.01;
    piece_cut_line(piece);
    assert_int_equal(piece->cut.first[EDGE_LEFT] - piece->cut.first[EDGE_TOP], 1);
    for (size_t k = 0; k < piece->cut.count; k++)
        for (size_t i = 0; i < n; i++)
            assert_true(hypot(sample.cut[k].x_m - sample.sew[i].x_m,
                              sample.cut[k].y_m - sample.sew[i].y_m) > 0.0099);
}

static void wide_sides_of_felled_seams_meet_narrow_ones(void **state) {
    (void)state;
    struct design design;
    struct piece piece = {.style = FACETED, .side = SIDE_WHOLE, .row = 3};
    design_starter(&design);
    design.seams.tape = SEAM_FELLED;
    design.seams.row = SEAM_LAPPED;
    design.seams.tape_width_m = 0.01;
    design.seams.row_width_m = 0.012;
    piece_joins(&design, 8, &piece);
    assert_close(piece.allowance_m[EDGE_LEFT], 0.01, 1e-15, 0);
    assert_close(piece.allowance_m[EDGE_RIGHT], 0.02, 1e-15, 0);
    assert_close(piece.allowance_m[EDGE_BOTTOM], 0.006, 1e-15, 0);
    assert_close(piece.allowance_m[EDGE_TOP], 0.006, 1e-15, 0);
}

static void lowest_and_highest_rows_have_hems(void **state) {
    (void)state;
    struct design design;
    struct piece piece = {.style = HALF_GORE, .side = SIDE_LEFT, .row = 1};
    design_starter(&design);
    piece_joins(&design, 1, &piece);
    assert_int_equal(piece.join[EDGE_BOTTOM], HEM_MOUTH);
    assert_int_equal(piece.join[EDGE_TOP], HEM_CROWN);
    assert_int_equal(piece.join[EDGE_LEFT], JOIN_TAPE);
    assert_int_equal(piece.join[EDGE_RIGHT], JOIN_RIDGE);
    assert_close(piece.allowance_m[EDGE_BOTTOM], design.seams.mouth_hem_m, 0, 0);
    assert_close(piece.allowance_m[EDGE_TOP], design.seams.crown_hem_m, 0, 0);
}

/* Turned in along its fold, the hem covers exactly the cloth beside it. */
static void a_hem_turned_in_lies_on_the_cut_line(void **state) {
    (void)state;
    static struct sample sample;
    memset(&sample, 0, sizeof sample);
    const double corners[] = {0, 0, 1, 0, 1.3, 1, -0.2, 1};
    struct piece *piece = &sample.piece;
    piece->sew.point = sample.sew;
    piece->cut.point = sample.cut;
    piece->sew.count = 4;
    piece->join[EDGE_BOTTOM] = HEM_MOUTH;
    const double allowance[] = {0.05, 0.02, 0.01, 0.03};
    for (size_t e = 0; e < EDGE_COUNT; e++) {
        sample.sew[e] = (struct flat_point){corners[2 * e], corners[2 * e + 1]};
        piece->sew.first[e] = e;
        piece->allowance_m[e] = allowance[e];
    }
    piece_cut_line(piece);
    assert_true(piece->two_points[EDGE_BOTTOM]);
    assert_true(piece->two_points[EDGE_RIGHT]);
    assert_int_equal(piece->cut.count, 6);
    /* The hem's corners, mirrored in the fold y = 0, stand on the cut lines of the sides. */
    struct flat_point left = sample.cut[0], right = sample.cut[1];
    assert_close(left.y_m, -0.05, 1e-15, 0);
    assert_close(right.y_m, -0.05, 1e-15, 0);
    double slant_left = hypot(0.2, 1), slant_right = hypot(0.3, 1);
    assert_close(left.x_m, -0.03 * slant_left - 0.2 * 0.05, 1e-12, 0);
    assert_close(right.x_m, 1 + 0.02 * slant_right + 0.3 * 0.05, 1e-12, 0);
    /* On the fold itself the sides have their plain allowance. */
    assert_close(sample.cut[2].y_m, 0, 1e-15, 0);
    assert_close(sample.cut[2].x_m, 1 + 0.02 * slant_right, 1e-12, 0);
}

static void marks_stand_at_quarters_and_middles(void **state) {
    (void)state;
    static struct sample sample;
    const double corners[] = {0, 0, 1, 0, 1, 0.5, 0, 0.5};
    const double allowance[] = {0.01, 0.01, 0.01, 0.01};
    four_corners(&sample, corners, allowance);
    struct piece *piece = &sample.piece;
    for (int e = 0; e < EDGE_COUNT; e++)
        piece->length_m[e] = e % 2 == 0 ? 1 : 0.5;
    piece_match_marks(piece);
    static const double want[][2] = {{0.25, 0},   {0.5, 0},   {0.75, 0},   {1, 0.25},
                                     {0.75, 0.5}, {0.5, 0.5}, {0.25, 0.5}, {0, 0.25}};
    assert_int_equal(piece->marks, COUNT_OF(want));
    for (size_t k = 0; k < COUNT_OF(want); k++) {
        assert_close(piece->mark[k].at.x_m, want[k][0], 1e-15, 0);
        assert_close(piece->mark[k].at.y_m, want[k][1], 1e-15, 0);
    }
    assert_close(piece->mark[0].outward.y_m, -1, 1e-15, 0);
    assert_close(piece->mark[3].outward.x_m, 1, 1e-15, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rectangle_grows_by_its_allowances),
        cmocka_unit_test(long_spike_is_cut_back),
        cmocka_unit_test(no_allowance_leaves_the_sew_line),
        cmocka_unit_test(an_edge_too_hollow_for_its_allowance_is_cut_straight),
        cmocka_unit_test(wide_sides_of_felled_seams_meet_narrow_ones),
        cmocka_unit_test(lowest_and_highest_rows_have_hems),
        cmocka_unit_test(a_hem_turned_in_lies_on_the_cut_line),
        cmocka_unit_test(marks_stand_at_quarters_and_middles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
