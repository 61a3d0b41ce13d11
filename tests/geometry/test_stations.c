/* Rows along the outline: where they stand and how far they depart from it. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "geometry/stations.h"

static struct outline *solved(const struct design *design, double unit_m) {
    struct outline *outline = calloc(1, sizeof *outline);
    assert_non_null(outline);
    assert_int_equal(outline_solve(design, unit_m, outline), OUTLINE_FINE);
    return outline;
}

static void equal_rows_have_equal_arcs(void **state) {
    (void)state;
    struct design design;
    struct skeleton skeleton = {0};
    design_starter(&design);
    struct outline *outline = solved(&design, 2);
    stations_set(&design, outline, 7, &skeleton);
    for (size_t j = 0; j <= 7; j++)
        assert_close(skeleton.station[j].s_m, 2 * outline->length * (double)j / 7, 1e-12, 0);
    free(outline);
}

static void given_rows_keep_their_ratios(void **state) {
    (void)state;
    struct design design;
    struct skeleton skeleton = {0};
    design_starter(&design);
    design.rows.spacing = ROWS_GIVEN;
    design.rows.shares = (struct real_list){4, {4, 3, 2, 1}};
    struct outline *outline = solved(&design, 2);
    stations_set(&design, outline, 4, &skeleton);
    for (size_t j = 0; j < 4; j++) {
        double arc = skeleton.station[j + 1].s_m - skeleton.station[j].s_m;
        assert_close(arc, 2 * outline->length * (double)(4 - j) / 10, 1e-12, 0);
    }
    free(outline);
}

static void even_departure_is_the_same_in_every_row(void **state) {
    (void)state;
    for (int kind = OUTLINE_NATURAL; kind <= OUTLINE_BALL_AND_CONE; kind++)
        for (size_t rows = 2; rows <= ROWS_MOST; rows += 7) {
            struct design design;
            struct skeleton skeleton = {0};
            design_starter(&design);
            design.outline.kind = kind;
            design.rows.spacing = ROWS_EVEN_DEPARTURE;
            struct outline *outline = solved(&design, 2);
            stations_set(&design, outline, rows, &skeleton);
            stations_depart(outline, &skeleton);
            for (size_t j = 1; j < rows; j++)
                assert_close(skeleton.station[j].departure_m, skeleton.station[0].departure_m, 1e-9,
                             1e-5);
            free(outline);
        }
}

/* On a circle the departure of a chord is its sagitta, R (1 - cos(arc / 2R)). */
static void departure_on_the_ball_is_the_sagitta(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.outline.kind = OUTLINE_BALL_AND_CONE;
    struct outline *outline = solved(&design, 1.5);
    double end = outline->length;
    for (double arc = 0.1; arc < 1.5; arc += 0.2)
        assert_close(outline_departure(outline, end - arc, end), 1 - cos(arc / 2), 1e-12, 0);
    assert_close(outline_departure(outline, 0, 0.5 * outline->as.ball.cone), 0, 1e-12, 0);
    free(outline);
}

/* Against two thousand places along each row, on wavy and kinked tables. */
static void departure_misses_no_bend_or_kink(void **state) {
    (void)state;
    struct dice dice = {11};
    for (int trial = 0; trial < 60; trial++) {
        struct design design;
        design_starter(&design);
        design.outline.kind = OUTLINE_TABLE;
        design.outline.join = trial % 2 == 0 ? JOIN_STRAIGHT : JOIN_SMOOTH;
        size_t count = design.outline.table.count = (size_t)dice_whole(&dice, 2, 12);
        for (size_t i = 0; i < count; i++) {
            design.outline.table.value[i].r_m = dice_between(&dice, 0.2, 1.5);
            design.outline.table.value[i].z_m = (double)i * dice_between(&dice, 0.3, 0.35);
        }
        struct outline *outline = solved(&design, 1);
        double from = 0.2 * outline->length, to = dice_between(&dice, 0.5, 1) * outline->length;
        struct meridian_point a = outline_unit_at(outline, from), b = outline_unit_at(outline, to);
        double side = hypot(b.r_m - a.r_m, b.z_m - a.z_m), want = 0;
        for (int i = 1; i < 2000; i++) {
            struct meridian_point at = outline_unit_at(outline, from + (to - from) * i / 2000);
            double d = (b.r_m - a.r_m) * (at.z_m - a.z_m) - (b.z_m - a.z_m) * (at.r_m - a.r_m);
            want = fmax(want, fabs(d) / side);
        }
        double got = outline_departure(outline, from, to);
        assert_true(got >= want - 1e-9);
        assert_close(got, want, 1e-3 * outline->length, 0);
        free(outline);
    }
}

static void bulge_eases_to_nothing_at_mouth_and_crown(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.bulge.depth = 0.12;
    design.bulge.ease_rows = 3;
    static const double want[] = {0, 0.04, 0.08, 0.12, 0.12, 0.12, 0.08, 0.04, 0};
    for (size_t j = 0; j <= 8; j++)
        assert_close(station_bulge(&design, 8, j), want[j], 1e-15, 0);
    design.bulge.ease_rows = 0;
    assert_close(station_bulge(&design, 8, 0), 0.12, 0, 0);
}

static void listed_bulges_stand_at_their_stations(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.bulge.stations = (struct real_list){3, {0.1, 0.3, 0.2}};
    assert_close(station_bulge(&design, 2, 1), 0.3, 0, 0);
    assert_close(station_bulge(&design, 2, 2), 0.2, 0, 0);
    /* Tried with other numbers of rows, the list is read by proportion. */
    assert_close(station_bulge(&design, 4, 1), 0.2, 1e-15, 0);
}

/* The stations of a design stay where they are when its outline is solved more finely. */
static void a_finer_outline_moves_no_station(void **state) {
    (void)state;
    static struct meridian coarse, fine;
    struct meridian_load load = {.b = 1, .w = 0.05};
    struct meridian_state start = {.r = 0.1, .slope = 0.9, .tension = 1 / cos(0.9)};
    for (double tolerance = 1e-5; tolerance > 1e-12; tolerance *= 0.1) {
        assert_true(meridian_follow(&coarse, &load, &start, tolerance));
        assert_true(meridian_follow(&fine, &load, &start, 1e-14));
        double allowed = 20 * tolerance; /* a few steps, each within the tolerance */
        for (int j = 0; j <= 20; j++) {
            double s = fmin(coarse.length, fine.length) * j / 20;
            assert_close(meridian_at(&coarse, s).r, meridian_at(&fine, s).r, allowed, 0);
            assert_close(meridian_at(&coarse, s).z, meridian_at(&fine, s).z, allowed, 0);
        }
    }
}

static void mixed_styles_repeat_around_the_envelope(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.gores.mix = (struct style_list){2, {BILLOWED, FACETED}};
    for (size_t gore = 0; gore < 16; gore++)
        assert_int_equal(gore_style_of(&design, gore), gore % 2 == 0 ? BILLOWED : FACETED);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(equal_rows_have_equal_arcs),
        cmocka_unit_test(given_rows_keep_their_ratios),
        cmocka_unit_test(even_departure_is_the_same_in_every_row),
        cmocka_unit_test(departure_on_the_ball_is_the_sagitta),
        cmocka_unit_test(departure_misses_no_bend_or_kink),
        cmocka_unit_test(bulge_eases_to_nothing_at_mouth_and_crown),
        cmocka_unit_test(listed_bulges_stand_at_their_stations),
        cmocka_unit_test(a_finer_outline_moves_no_station),
        cmocka_unit_test(mixed_styles_repeat_around_the_envelope),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
