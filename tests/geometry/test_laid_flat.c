/* What drawings need of the geometry: the silhouette, the widest station, a gore laid flat. */
#include "support.h"

#include <math.h>

/* ---- from the side ------------------------------------------------------------------ */

static void the_silhouette_is_the_outermost_cloth_of_any_gore(void **state) {
    (void)state;
    struct dice dice = {31};
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        for (size_t j = 0; j <= envelope->rows; j++) {
            double left_m = 0, right_m = 0;
            for (size_t gore = 0; gore < envelope->gores; gore++)
                for (int step = -8; step <= 8; step++) {
                    double x_m = side_view_cloth(envelope, gore, j, step / 8.0).x_m;
                    left_m = fmin(left_m, x_m);
                    right_m = fmax(right_m, x_m);
                }
            /* The silhouette is taken at eighths of a gore. */
            double off_m = 0.01 * envelope->station[j].r_m;
            assert_close(side_view_silhouette(envelope, false, j).x_m, left_m, off_m, 0);
            assert_close(side_view_silhouette(envelope, true, j).x_m, right_m, off_m, 0);
        }
        envelope_free(envelope);
    }
}

static void cloth_meets_the_tapes_at_its_ends(void **state) {
    (void)state;
    struct dice dice = {32};
    for (int i = 0; i < 40; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        size_t gore = (size_t)dice_whole(&dice, 0, (int)envelope->gores - 1);
        size_t before = (gore + envelope->gores - 1) % envelope->gores;
        for (size_t j = 0; j <= envelope->rows; j++) {
            double off_m = 1e-9 * envelope->built.max_diameter_m;
            struct flat_point left = side_view_cloth(envelope, gore, j, -1);
            struct flat_point right = side_view_cloth(envelope, gore, j, 1);
            assert_close(left.x_m, side_view_corner(envelope, before, j).x_m, off_m, 0);
            assert_close(right.x_m, side_view_corner(envelope, gore, j).x_m, off_m, 0);
            assert_close(left.y_m, envelope->station[j].z_m, off_m, 0);
        }
        envelope_free(envelope);
    }
}

static void a_gore_in_profile_stands_out_by_its_depth_at_the_equator(void **state) {
    (void)state;
    struct design design;
    struct diagnostics messages = {0};
    design_starter(&design); /* 16 gores: gore 5 is seen in profile on the right */
    design.gores.style = HALF_GORE;
    struct envelope *envelope = envelope_build(&design, &messages);
    assert_non_null(envelope);
    const struct station *station = &envelope->station[widest_station(envelope)];
    double want_m =
        station->r_m * cos(PI / 16) + station->bulge * station->chord_m * cos(station->slope_rad);
    assert_close(side_view_silhouette(envelope, true, widest_station(envelope)).x_m, want_m, 0,
                 1e-12);
    assert_close(2 * station->r_m, envelope->built.max_diameter_m, 0, 1e-12);
    envelope_free(envelope);
    diagnostics_free(&messages);
}

/* ---- laid flat ---------------------------------------------------------------------- */

/* Height of an edge of a piece over x, by its points; NAN beside it. */
static double edge_height_m(const struct piece *piece, enum edge e, double x_m) {
    const struct ring *sew = &piece->sew;
    size_t last = e + 1 < EDGE_COUNT ? sew->first[e + 1] : sew->count;
    for (size_t i = sew->first[e]; i < last; i++) {
        struct flat_point a = sew->point[i], b = sew->point[(i + 1) % sew->count];
        if ((a.x_m - x_m) * (b.x_m - x_m) <= 0 && a.x_m != b.x_m)
            return a.y_m + (b.y_m - a.y_m) * (x_m - a.x_m) / (b.x_m - a.x_m);
    }
    return (double)NAN;
}

static void check_stack(const struct envelope *envelope, enum style style, enum side side) {
    struct flat_point place[ROWS_MOST];
    size_t rows = gore_laid_flat(envelope, style, side, place);
    assert_int_equal(rows, envelope->rows);
    for (size_t row = 2; row <= rows; row++) {
        const struct piece *below = envelope_piece(envelope, style, side, row - 1);
        const struct piece *above = envelope_piece(envelope, style, side, row);
        double width_m = below->length_m[EDGE_TOP], least_m = HUGE_VAL;
        for (int i = -20; i <= 40; i++) {
            double x_m = piece_corner(below, EDGE_LEFT).x_m + width_m * i / 20;
            double top_m = edge_height_m(below, EDGE_TOP, x_m) + place[row - 2].y_m;
            double bottom_m =
                edge_height_m(above, EDGE_BOTTOM, x_m + place[row - 2].x_m - place[row - 1].x_m) +
                place[row - 1].y_m;
            if (!isnan(top_m) && !isnan(bottom_m))
                least_m = fmin(least_m, bottom_m - top_m);
        }
        assert_true(least_m >= -1e-3 * width_m);
        assert_true(least_m <= 0.02 * width_m); /* and no farther apart than they must be */
    }
}

static void pieces_of_a_gore_laid_flat_touch_and_do_not_overlap(void **state) {
    (void)state;
    struct dice dice = {33};
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        for (enum style style = FACETED; style < STYLE_COUNT; style++) {
            if (envelope->style_count[style] == 0)
                continue;
            check_stack(envelope, style, style == HALF_GORE ? SIDE_LEFT : SIDE_WHOLE);
            if (style == HALF_GORE)
                check_stack(envelope, style, SIDE_RIGHT);
        }
        envelope_free(envelope);
    }
}

static void a_faceted_gore_stacks_without_a_gap(void **state) {
    (void)state;
    struct design design;
    struct diagnostics messages = {0};
    struct flat_point place[ROWS_MOST];
    design_starter(&design);
    struct envelope *envelope = envelope_build(&design, &messages);
    assert_non_null(envelope);
    size_t rows = gore_laid_flat(envelope, FACETED, SIDE_WHOLE, place);
    double height_m = 0, half_m = envelope->station[0].chord_m / 2;
    for (size_t row = 1; row <= rows; row++) {
        const struct piece *piece = envelope_piece(envelope, FACETED, SIDE_WHOLE, row);
        assert_close(place[row - 1].y_m, height_m, 1e-12, 0);
        /* Every trapezoid stands on the same middle line. */
        assert_close(place[row - 1].x_m + piece->length_m[EDGE_BOTTOM] / 2, half_m, 1e-9, 0);
        height_m += sqrt(pow(piece->length_m[EDGE_LEFT], 2) -
                         pow((piece->length_m[EDGE_TOP] - piece->length_m[EDGE_BOTTOM]) / 2, 2));
    }
    assert_int_equal(gore_laid_flat(envelope, BILLOWED, SIDE_WHOLE, place), 0);
    assert_null(envelope_piece(envelope, FACETED, SIDE_LEFT, 1));
    envelope_free(envelope);
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_silhouette_is_the_outermost_cloth_of_any_gore),
        cmocka_unit_test(cloth_meets_the_tapes_at_its_ends),
        cmocka_unit_test(a_gore_in_profile_stands_out_by_its_depth_at_the_equator),
        cmocka_unit_test(pieces_of_a_gore_laid_flat_touch_and_do_not_overlap),
        cmocka_unit_test(a_faceted_gore_stacks_without_a_gap),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
