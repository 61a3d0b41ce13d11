/* Loads: the balance of heights, the natural outline's own tension, what cloth cannot do. */
#include <math.h>

#include "support.h"

#include "flight/loads.h"
#include "flight/rigging.h"
#include "geometry/outline.h"
#include "gorewright/flight.h"

/* ---- the balance of heights against the outline -------------------------------- */

/* Everything in units of lambda, b and P = 1, as in geometry/natural.h. */
static struct cut cut_at(const struct meridian *meridian, double s, double w) {
    struct meridian_state here = meridian_at(meridian, s);
    struct meridian_state end = meridian_at(meridian, meridian->length);
    return (struct cut){here.z, PI * here.r * here.r, end.volume - here.volume,
                        w * (end.area - here.area), here.slope};
}

static void the_balance_of_heights_is_the_natural_outlines_own_tension(void **state) {
    (void)state;
    static const double omegas[] = {0, 0.05, 0.1, 0.2}, mouths[] = {0, 0.06, 0.13, 0.19};
    size_t compared = 0;
    for (size_t i = 0; i < COUNT_OF(omegas); i++) {
        struct meridian meridian;
        double theta_0;
        assert_int_equal(natural_solve(mouths[i], omegas[i], 0, &meridian, &theta_0), NATURAL_FINE);
        for (int k = 0; k <= 100; k++) {
            double s = meridian.length * k / 100;
            struct cut cut = cut_at(&meridian, s, omegas[i]);
            if (fabs(cut.slope_rad) > LEVEL_rad)
                continue;
            assert_close(balanced_tension_N(&cut), meridian_at(&meridian, s).tension, 0, 1e-9);
            compared++;
        }
    }
    assert_true(compared > 300);
}

/* The same from below: T cos(slope) = P + weight below + p A - b V below, with P = 1. */
static void the_balance_of_what_is_below_a_cut_says_the_same(void **state) {
    (void)state;
    struct meridian meridian;
    double theta_0, w = 0.1;
    assert_int_equal(natural_solve(0.1, w, 0, &meridian, &theta_0), NATURAL_FINE);
    for (int k = 0; k < 85; k++) {
        double s = meridian.length * k / 100;
        struct cut cut = cut_at(&meridian, s, w);
        struct meridian_state here = meridian_at(&meridian, s);
        double below = 1 + w * here.area + cut.pressure_Pa * cut.area_m2 - here.volume;
        assert_close(balanced_tension_N(&cut) * cos(cut.slope_rad), below, 0, 1e-9);
    }
}

/* Towards the crown both the upward force and the cosine go to nothing: a slope a thousandth
 * of a radian off, as straight rows easily make it, is then everything. */
static void near_the_crown_the_balance_of_heights_is_worth_nothing(void **state) {
    (void)state;
    struct meridian meridian;
    double theta_0;
    assert_int_equal(natural_solve(0.1, 0.05, 0, &meridian, &theta_0), NATURAL_FINE);
    double s = 0.985 * meridian.length, own = meridian_at(&meridian, s).tension;
    struct cut cut = cut_at(&meridian, s, 0.05);
    assert_true(cut.slope_rad < -LEVEL_rad);
    cut.slope_rad += 1e-3;
    assert_true(fabs(balanced_tension_N(&cut) / own - 1) > 0.2);
}

/* ---- of a built envelope ---------------------------------------------------------- */

static struct lift lift_for(const struct design *design, const struct envelope *envelope) {
    struct masses masses = masses_of(design, envelope);
    return lift_of(design, envelope, &masses);
}

static struct envelope *built(const struct design *design) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(design, &messages);
    assert_non_null(envelope);
    diagnostics_free(&messages);
    return envelope;
}

/* A natural design whose weight is that of its cloth alone, shaped for the lift it has. */
static void natural_design(struct design *design, int gores, int rows) {
    design_starter(design);
    design->gores.count = gores;
    design->rows.count = rows;
    design->outline.crown_diameter_m = 0.3;
    struct envelope *envelope = built(design);
    design->outline.lift_per_volume_N_m3 = lift_for(design, envelope).per_volume_N_m3;
    envelope_free(envelope);
    envelope = built(design);
    design->weighed.envelope_kg = envelope->built.sewn_area_m2 * design->cloth.mass_kg_m2;
    envelope_free(envelope);
}

static void check_natural(int gores, int rows, double tolerance) {
    struct design design;
    natural_design(&design, gores, rows);
    struct envelope *envelope = built(&design);
    struct lift lift = lift_for(&design, envelope);
    struct loads loads = loads_of(&design, envelope, &lift);
    const struct outline *outline = envelope->outline;
    double scale_N = lift.per_volume_N_m3 * pow(outline->unit_m, 3);
    assert_true(loads.natural);
    assert_close(loads.held_N, scale_N, 0, tolerance);
    for (size_t j = 0; j <= envelope->rows; j++) {
        struct meridian_state here =
            meridian_at(&outline->as.natural, envelope->station[j].s_m / outline->unit_m);
        assert_close(loads.station[j].tension_N, scale_N * here.tension, 0, tolerance);
    }
    assert_true(cos(envelope->station[envelope->rows].slope_rad) < 0.03);
    assert_true(loads.station[envelope->rows].level);
    envelope_free(envelope);
}

static void a_fine_natural_envelope_carries_its_outlines_own_tension_up_to_the_crown(void **state) {
    (void)state;
    check_natural(64, 60, 0.005);
    check_natural(32, 20, 0.015);
}

/* ---- against the balance of all below a cut ------------------------------------- */

/* Faceted gores: regular polygons between level cuts. */
static double polygon_m2(const struct envelope *envelope, size_t j) {
    double n = (double)envelope->gores, r = envelope->station[j].r_m;
    return n / 2 * r * r * sin(2 * PI / n);
}

/* What is held, the cloth below, and the air that presses on the cut, less the lift below. */
static double from_below_N(const struct envelope *envelope, const struct loads *loads,
                           double b_N_m3, double weight_N_m2, size_t j) {
    double up_N = loads->held_N;
    for (size_t k = 0; k < j; k++) {
        const struct station *low = &envelope->station[k], *high = low + 1;
        double side_m = hypot(high->r_m - low->r_m, high->z_m - low->z_m);
        double across_m = cos(PI / (double)envelope->gores); /* to the middle of a chord */
        double slant_m = hypot((high->r_m - low->r_m) * across_m, high->z_m - low->z_m);
        double a = polygon_m2(envelope, k), b = polygon_m2(envelope, k + 1);
        assert_close(side_m, low->side_m, 1e-9, 0);
        up_N +=
            weight_N_m2 * (double)envelope->gores * (low->chord_m + high->chord_m) / 2 * slant_m;
        up_N -= b_N_m3 * (high->z_m - low->z_m) / 3 * (a + sqrt(a * b) + b);
    }
    return up_N + b_N_m3 * envelope->station[j].z_m * polygon_m2(envelope, j);
}

/* The balance is asked up to 60 degrees of slope; and up to 85, from a row that begins while the
 * outline leans the other way. */
static bool is_balanced(const struct envelope *envelope, size_t j) {
    double slope_rad = envelope->station[j].slope_rad;
    bool turns = j > 0 && slope_rad * envelope->station[j - 1].slope_rad < 0;
    return fabs(slope_rad) <= (turns ? 85 : 60) * PI / 180;
}

/* Where it is steep enough for that balance to say something: all its masses, as designed. */
static size_t check_from_below(struct design *design) {
    struct envelope *envelope = built(design);
    struct lift lift = lift_for(design, envelope);
    struct loads loads = loads_of(design, envelope, &lift);
    double kg_m2 = masses_of(design, envelope).envelope_kg / envelope->built.sewn_area_m2;
    size_t compared = 0;
    for (size_t j = 0; j <= envelope->rows; j++) {
        double slope_rad = envelope->station[j].slope_rad;
        if (!is_balanced(envelope, j))
            continue;
        double up_N = from_below_N(envelope, &loads, lift.per_volume_N_m3, kg_m2 * GRAVITY_m_s2, j);
        assert_close(loads.station[j].tension_N, up_N / cos(slope_rad), 0, 0.01);
        compared++;
    }
    envelope_free(envelope);
    return compared;
}

static void a_natural_envelope_as_sewn_carries_what_the_balance_from_below_asks(void **state) {
    (void)state;
    for (int gores = 14; gores <= 16; gores++)
        for (int rows = 7; rows <= 8; rows++) {
            struct design design;
            design_starter(&design);
            design.gores.count = gores;
            design.rows.count = rows;
            assert_true(check_from_below(&design) >= (size_t)rows - 2);
        }
}

/* Beyond 60 degrees the tension grows by the weight that each row lifts, and by nothing else. */
static size_t check_carried_on(const struct design *design) {
    struct envelope *envelope = built(design);
    struct lift lift = lift_for(design, envelope);
    struct loads loads = loads_of(design, envelope, &lift);
    double kg_m2 = masses_of(design, envelope).envelope_kg / envelope->built.sewn_area_m2;
    size_t seen = 0;
    for (size_t j = 1; j <= envelope->rows; j++) {
        const struct station *low = &envelope->station[j - 1], *high = low + 1;
        double rise_m = high->z_m - low->z_m;
        double across_m = (high->r_m - low->r_m) * cos(PI / (double)envelope->gores);
        double area_m2 =
            (double)envelope->gores * (low->chord_m + high->chord_m) / 2 * hypot(across_m, rise_m);
        double lifted_N = area_m2 * kg_m2 * GRAVITY_m_s2 * rise_m / low->side_m;
        if (fabs(high->slope_rad) <= PI / 3)
            continue;
        assert_close(loads.station[j].tension_N, loads.station[j - 1].tension_N + lifted_N, 0,
                     1e-6);
        seen += fabs(high->slope_rad) < 75 * PI / 180;
    }
    envelope_free(envelope);
    return seen;
}

static void a_natural_envelope_carries_its_tension_on_to_the_level_crown(void **state) {
    (void)state;
    size_t seen = 0; /* between 60 and 75 degrees */
    for (int rows = 6; rows <= 14; rows++) {
        struct design design;
        design_starter(&design);
        design.rows.count = rows;
        seen += check_carried_on(&design);
    }
    assert_true(seen >= 5);
}

/* A row that begins while the outline still widens and ends while it narrows: neither the more
 * nor the less of what came from below, but the balance itself. */
static void a_row_across_the_widest_place_carries_what_the_balance_asks(void **state) {
    (void)state;
    size_t across = 0;
    for (int rows = 2; rows <= 12; rows++) {
        struct design design;
        design_starter(&design);
        design.outline.kind = OUTLINE_BALL_AND_CONE;
        design.cloth.width_m = 5;
        design.rows.count = rows;
        struct envelope *envelope = built(&design);
        for (size_t j = 0; j < envelope->rows; j++)
            across += envelope->station[j].slope_rad > 0 && envelope->station[j + 1].slope_rad < 0;
        envelope_free(envelope);
        check_from_below(&design);
    }
    assert_int_equal(across, 11);
}

/* From 15 degrees outwards to 66 inwards in one row, below a wide crown: held to what came from
 * below, the top would carry half as much as it does. */
static void a_row_that_turns_steeply_inwards_is_not_held_to_what_came_from_below(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.outline.kind = OUTLINE_TABLE;
    design.outline.table = (struct point_list){3, {{0.37, 0}, {1.64, 1.45}, {1.1, 1.62}}};
    design.size.by = SIZE_TABLE;
    design.rows.count = 6;
    design.cloth.width_m = 5;
    design.weighed.envelope_kg = 0.64;
    struct envelope *envelope = built(&design);
    assert_true(envelope->station[4].slope_rad > 0);
    assert_true(envelope->station[5].slope_rad < -PI / 3 && is_balanced(envelope, 5));
    envelope_free(envelope);
    assert_true(check_from_below(&design) >= 5);
}

/* Sphere and cone, summed from below along the smooth outline: the lift beyond the weight at
 * the mouth, and all heights up to the cut. */
static void a_ball_and_cone_carries_what_the_balance_from_below_asks(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.outline.kind = OUTLINE_BALL_AND_CONE;
    design.gores.count = 64;
    design.rows.count = 60;
    struct envelope *envelope = built(&design);
    struct lift lift = lift_for(&design, envelope);
    struct loads loads = loads_of(&design, envelope, &lift);
    double b = lift.per_volume_N_m3, w = 0, volume = 0, area = 0, s = 0;
    w = masses_of(&design, envelope).envelope_kg * GRAVITY_m_s2 / envelope->built.sewn_area_m2;
    assert_false(loads.natural);
    for (size_t j = 0; j <= envelope->rows; j++) {
        const struct station *here = &envelope->station[j];
        double step = (here->s_m - s) / 50;
        for (int i = 0; j > 0 && i < 50; i++, s += step) {
            struct meridian_point at = envelope_outline_at(envelope, s + step / 2);
            volume += PI * at.r_m * at.r_m * cos(at.slope_rad) * step;
            area += 2 * PI * at.r_m * step;
        }
        double up_N =
            loads.held_N + w * area + b * here->z_m * PI * here->r_m * here->r_m - b * volume;
        assert_close(loads.station[j].tension_N * cos(here->slope_rad), up_N,
                     0.002 * b * envelope->built.volume_m3, 0);
    }
    envelope_free(envelope);
}

static void where_the_outline_is_level_the_load_is_carried_on_from_below(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.outline.kind = OUTLINE_TABLE;
    design.outline.join = JOIN_STRAIGHT;
    design.size.by = SIZE_TABLE;
    design.outline.table = (struct point_list){4, {{0.3, 0}, {1.3, 1.5}, {1.3, 2.5}, {0.25, 2.5}}};
    struct envelope *envelope = built(&design);
    struct lift lift = lift_for(&design, envelope);
    struct loads loads = loads_of(&design, envelope, &lift);
    size_t top = envelope->rows;
    assert_false(loads.station[0].level);
    assert_true(loads.station[top].level && loads.station[top - 1].level);
    assert_close(loads.station[top].tension_N, loads.station[top - 1].tension_N, 0, 1e-9);
    assert_true(loads.station[top].tension_N > 0);
    envelope_free(envelope);
}

/* ---- whatever the design ----------------------------------------------------------- */

static void check_shares(const struct design *design, const struct envelope *envelope) {
    struct lift lift = lift_for(design, envelope);
    struct loads loads = loads_of(design, envelope, &lift);
    double least_tape = HUGE_VAL, least_cloth = HUGE_VAL;
    for (size_t j = 0; j <= envelope->rows; j++) {
        const struct station_load *load = &loads.station[j];
        assert_true(isfinite(load->tension_N) && load->tension_N >= 0);
        assert_close(load->per_tape_N * (double)envelope->gores, load->tension_N, 0, 1e-12);
        assert_close(load->cloth_alone_N_m * 2 * PI * envelope->station[j].r_m, load->tension_N, 0,
                     1e-12);
        assert_close(load->pressure_Pa, fmax(0, lift.per_volume_N_m3) * envelope->station[j].z_m,
                     1e-12, 1e-12);
        if (load->tension_N > 0) {
            assert_close(load->tape_factor * load->per_tape_N, design->tape.strength_N, 0, 1e-12);
            assert_close(load->cloth_factor * load->cloth_alone_N_m,
                         design->cloth.strength_N_m * design->cloth.seam_efficiency, 0, 1e-12);
        }
        least_tape = fmin(least_tape, load->tape_factor);
        least_cloth = fmin(least_cloth, load->cloth_factor);
    }
    assert_true(loads.station[loads.weakest_tape].tape_factor <= least_tape);
    assert_true(loads.station[loads.weakest_cloth].cloth_factor <= least_cloth);
    assert_close(loads.wire_N * cos(loads.wire_angle_rad) * (double)envelope->gores, loads.held_N,
                 0, 1e-12);
}

static void loads_are_finite_and_share_out_for_any_design(void **state) {
    (void)state;
    struct dice dice = {41};
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.air.inside_C = dice_between(&dice, 20, 120);
        check_shares(&design, envelope);
        envelope_free(envelope);
    }
}

static void without_lift_beyond_its_own_weight_nothing_is_held(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct envelope *envelope = built(&design);
    for (int colder = 0; colder < 2; colder++) {
        design.air.inside_C = colder ? -20 : 20;
        struct lift lift = lift_for(&design, envelope);
        struct loads loads = loads_of(&design, envelope, &lift);
        assert_true(loads.held_N == 0 && loads.wire_N == 0);
        assert_true(isinf(loads.wire_factor) && isinf(loads.station[0].tape_factor));
    }
    envelope_free(envelope);
}

static void hotter_air_loads_every_station_more(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct envelope *envelope = built(&design);
    struct lift lift = lift_for(&design, envelope);
    struct loads cool = loads_of(&design, envelope, &lift);
    design.air.inside_C = 115;
    lift = lift_for(&design, envelope);
    struct loads hot = loads_of(&design, envelope, &lift);
    for (size_t j = 0; j <= envelope->rows; j++)
        assert_true(hot.station[j].tension_N > 1.1 * cool.station[j].tension_N);
    envelope_free(envelope);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_balance_of_heights_is_the_natural_outlines_own_tension),
        cmocka_unit_test(the_balance_of_what_is_below_a_cut_says_the_same),
        cmocka_unit_test(near_the_crown_the_balance_of_heights_is_worth_nothing),
        cmocka_unit_test(a_fine_natural_envelope_carries_its_outlines_own_tension_up_to_the_crown),
        cmocka_unit_test(a_natural_envelope_as_sewn_carries_what_the_balance_from_below_asks),
        cmocka_unit_test(a_natural_envelope_carries_its_tension_on_to_the_level_crown),
        cmocka_unit_test(a_row_across_the_widest_place_carries_what_the_balance_asks),
        cmocka_unit_test(a_row_that_turns_steeply_inwards_is_not_held_to_what_came_from_below),
        cmocka_unit_test(a_ball_and_cone_carries_what_the_balance_from_below_asks),
        cmocka_unit_test(where_the_outline_is_level_the_load_is_carried_on_from_below),
        cmocka_unit_test(loads_are_finite_and_share_out_for_any_design),
        cmocka_unit_test(without_lift_beyond_its_own_weight_nothing_is_held),
        cmocka_unit_test(hotter_air_loads_every_station_more),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
