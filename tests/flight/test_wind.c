/* test_wind.c - what the wind sees, drag, and the line that holds. */
#include "support.h"

#include <math.h>

#include "corners.h"
#include "flight/wind.h"

/* ---- the envelope as seen from the side -------------------------------------------- */

/* An envelope of stations alone. */
static struct envelope skeleton(size_t gores, enum style style, double bulge, size_t stations,
                                const double *r_m, const double *z_m) {
    struct envelope envelope = {.gores = gores, .rows = stations - 1};
    envelope.style_count[style] = gores;
    for (size_t i = 0; i < gores; i++)
        envelope.gore_style[i] = (int)style;
    for (size_t j = 0; j < stations; j++)
        envelope.station[j] = (struct station){
            .r_m = r_m[j],
            .z_m = z_m[j],
            .chord_m = 2 * r_m[j] * sin(PI / (double)gores),
            .bulge = bulge,
        };
    return envelope;
}

static const double barrel_r_m[] = {0.5, 1, 0.5}, barrel_z_m[] = {0, 1, 2};

/* How wide a section is seen from one direction, from its own points. */
static double shadow_m(size_t gores, enum style style, double bulge, double r_m, double towards) {
    double least = 0, most = 0, n = (double)gores, chord_m = 2 * r_m * sin(PI / n);
    for (size_t gore = 0; gore < gores; gore++)
        for (int i = 0; i <= 20; i++) {
            struct section_point at = section_at(style, chord_m, bulge, -1 + i / 10.0);
            double out_m = r_m * cos(PI / n) + at.h_m, angle = 2 * PI * (double)gore / n - towards;
            double across_m = out_m * cos(angle) - at.x_m * sin(angle);
            least = fmin(least, across_m);
            most = fmax(most, across_m);
        }
    return most - least;
}

static double mean_shadow_m(size_t gores, enum style style, double bulge, double r_m) {
    enum { DIRECTIONS = 720 };
    double sum = 0;
    for (int i = 0; i < DIRECTIONS; i++)
        sum += shadow_m(gores, style, bulge, r_m, 2 * PI * i / DIRECTIONS) / DIRECTIONS;
    return sum;
}

static void faceted_gores_are_seen_as_the_mean_of_all_directions(void **state) {
    (void)state;
    for (size_t gores = 3; gores <= 24; gores += 3) {
        struct envelope envelope = skeleton(gores, FACETED, 0.3, 3, barrel_r_m, barrel_z_m);
        double one_m = mean_shadow_m(gores, FACETED, 0, 1);
        assert_close(frontal_area_m2(&envelope), 1.5 * one_m, 0, 1e-3);
    }
}

static void bulging_gores_are_seen_a_little_too_wide_at_the_most(void **state) {
    (void)state;
    for (double bulge = 0; bulge <= 0.5; bulge += 0.05)
        for (int style = HALF_GORE; style <= BILLOWED; style++) {
            struct envelope envelope =
                skeleton(16, (enum style)style, bulge, 3, barrel_r_m, barrel_z_m);
            double mean_m2 = 1.5 * mean_shadow_m(16, (enum style)style, bulge, 1);
            assert_true(frontal_area_m2(&envelope) > mean_m2 * 0.9999);
            assert_true(frontal_area_m2(&envelope) < mean_m2 * 1.02);
        }
}

static void a_fine_sphere_is_seen_as_its_disc(void **state) {
    (void)state;
    double r_m[ROWS_MOST + 1], z_m[ROWS_MOST + 1];
    for (size_t j = 0; j <= ROWS_MOST; j++) {
        r_m[j] = 2 * sin(PI * (double)j / ROWS_MOST);
        z_m[j] = -2 * cos(PI * (double)j / ROWS_MOST);
    }
    struct envelope envelope = skeleton(64, FACETED, 0, ROWS_MOST + 1, r_m, z_m);
    assert_close(frontal_area_m2(&envelope), PI * 4, 0, 2e-3);
}

static void what_is_hidden_behind_wider_cloth_counts_once(void **state) {
    (void)state;
    const double r_m[] = {0.5, 1, 0.5, 0.3}, z_m[] = {0, 1, 2, 1.4};         /* sunk crown */
    const double out_r_m[] = {0.4, 1, 0.6, 0.3}, out_z_m[] = {0, 1, 0.8, 2}; /* overhang */
    struct envelope plain = skeleton(16, FACETED, 0, 3, barrel_r_m, barrel_z_m);
    struct envelope sunk = skeleton(16, FACETED, 0, 4, r_m, z_m);
    assert_close(frontal_area_m2(&sunk), frontal_area_m2(&plain), 0, 1e-12);
    struct envelope overhang = skeleton(16, FACETED, 0, 4, out_r_m, out_z_m);
    double half_m2 = 0.5 * 1.4 * 1;                        /* below the height of 1 */
    double at_one_m = 0.6 + (0.3 - 0.6) * (1 - 0.8) / 1.2; /* the last row there */
    half_m2 += 0.5 * (at_one_m + 0.3) * 1;                 /* and above it */
    assert_close(frontal_area_m2(&overhang), 2 * half_m2 * 16 / PI * sin(PI / 16), 0, 1e-12);
}

/* ---- drag and line -------------------------------------------------------------------- */

static struct lift lift_on(const struct design *design, const struct envelope *envelope) {
    struct masses masses = masses_of(design, envelope);
    return lift_of(design, envelope, &masses);
}

/* F = rho / 2 v^2 Cd A, from 0.4 to 1.5 times the usual 0.5. */
static void drag_is_that_of_the_frontal_area(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = sized_envelope(1, &design);
    double area_m2 = frontal_area_m2(envelope);
    struct spread drag = drag_N(&design, envelope, 3);
    assert_close(drag.low, 0.5 * 1.225 * 9 * 0.2 * area_m2, 0, 1e-5);
    assert_close(drag.high, 0.5 * 1.225 * 9 * 0.75 * area_m2, 0, 1e-5);
    assert_close(drag_N(&design, envelope, 6).high, 4 * drag.high, 0, 1e-12);
    assert_close(drag_N(&design, envelope, 0).high, 0, 0, 0);
    double disc_m2 = PI / 4 * pow(envelope->built.max_diameter_m, 2);
    assert_true(area_m2 > 0.8 * disc_m2 && area_m2 < 1.3 * disc_m2);
    envelope_free(envelope);
}

static void the_line_carries_drag_and_lift_together(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = sized_envelope(1, &design);
    struct lift lift = lift_on(&design, envelope);
    double up_N = lift.free_kg * GRAVITY_m_s2;
    assert_true(up_N > 1);
    struct tether calm = tether_of(&design, envelope, &lift, 0);
    assert_close(calm.line_N.high, up_N, 0, 1e-12);
    assert_close(calm.lean_rad.high, 0, 0, 0);
    struct tether windy = tether_of(&design, envelope, &lift, 4);
    assert_close(windy.line_N.low * cos(windy.lean_rad.low), up_N, 0, 1e-12);
    assert_close(windy.line_N.high * cos(windy.lean_rad.high), up_N, 0, 1e-12);
    assert_close(windy.line_N.high * sin(windy.lean_rad.high), windy.drag_N.high, 0, 1e-12);
    lift.free_kg = -1;
    struct tether heavy = tether_of(&design, envelope, &lift, 4);
    assert_close(heavy.line_N.high, heavy.drag_N.high, 0, 1e-12);
    assert_close(heavy.lean_rad.low, PI / 2, 1e-12, 0);
    assert_close(tether_of(&design, envelope, &lift, 0).lean_rad.high, 0, 0, 0);
    envelope_free(envelope);
}

static void the_wind_to_hold_pulls_just_what_can_be_held(void **state) {
    (void)state;
    struct dice dice = {21};
    for (int i = 0; i < 40; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        struct lift lift = lift_on(&design, envelope);
        double up_N = fmax(0, lift.free_kg) * GRAVITY_m_s2;
        design.wind.hold_N = up_N * dice_between(&dice, 1.001, 3) + 1;
        struct spread wind = wind_to_hold_m_s(&design, envelope, &lift);
        assert_true(wind.low > 0 && wind.low < wind.high);
        double hold_N = design.wind.hold_N;
        assert_close(tether_of(&design, envelope, &lift, wind.low).line_N.high, hold_N, 0, 1e-9);
        assert_close(tether_of(&design, envelope, &lift, wind.high).line_N.low, hold_N, 0, 1e-9);
        design.wind.hold_N = 0.99 * up_N;
        if (up_N > 0)
            assert_close(wind_to_hold_m_s(&design, envelope, &lift).high, 0, 0, 0);
        envelope_free(envelope);
    }
}

static void every_corner_of_the_settings_gives_numbers(void **state) {
    (void)state;
    static const char *const keys[] = {"air.ground", "air.altitude", "air.inside",   "rig.basket",
                                       "wind.drag",  "wind.hold",    "wind.expected"};
    for (int which = 0; which < SIZED_ENVELOPES; which++) {
        struct design design;
        struct envelope *envelope = sized_envelope(which, &design);
        for (size_t corner = 0; corner < (size_t)1 << COUNT_OF(keys); corner++) {
            set_corner(&design, keys, COUNT_OF(keys), corner);
            struct lift lift = lift_on(&design, envelope);
            struct tether tether = tether_of(&design, envelope, &lift, design.wind.expected_m_s);
            assert_spread(tether.drag_N, false);
            assert_spread(tether.line_N, false);
            assert_spread(tether.lean_rad, false);
            assert_true(tether.lean_rad.high <= PI / 2);
            assert_spread(wind_to_hold_m_s(&design, envelope, &lift), false);
        }
        envelope_free(envelope);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(faceted_gores_are_seen_as_the_mean_of_all_directions),
        cmocka_unit_test(bulging_gores_are_seen_a_little_too_wide_at_the_most),
        cmocka_unit_test(a_fine_sphere_is_seen_as_its_disc),
        cmocka_unit_test(what_is_hidden_behind_wider_cloth_counts_once),
        cmocka_unit_test(drag_is_that_of_the_frontal_area),
        cmocka_unit_test(the_line_carries_drag_and_lift_together),
        cmocka_unit_test(the_wind_to_hold_pulls_just_what_can_be_held),
        cmocka_unit_test(every_corner_of_the_settings_gives_numbers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
