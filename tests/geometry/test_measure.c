/* test_measure.c - area and volume of what will be sewn, against fine triangulations. */
#include "support.h"

#include <math.h>

#include "geometry/allowances.h"
#include "geometry/develop.h"
#include "geometry/measure.h"

/* An envelope of `gores` on a sphere that is cut off below and above, bulge eased at both ends
 * or as the dice fall. */
static struct skeleton rolled(struct dice *dice) {
    struct skeleton skeleton = {.gores = (size_t)dice_whole(dice, 3, 24),
                                .rows = (size_t)dice_whole(dice, 1, 12)};
    double radius = dice_between(dice, 0.5, 3), bulge = dice_between(dice, 0.02, 0.5);
    double from = dice_between(dice, -1.3, -0.6), to = dice_between(dice, 0.6, 1.3);
    for (size_t j = 0; j <= skeleton.rows; j++) {
        double latitude = from + (to - from) * (double)j / (double)skeleton.rows;
        struct station *station = &skeleton.station[j];
        bool end = j == 0 || j == skeleton.rows;
        station->r_m = radius * cos(latitude);
        station->z_m = radius * (sin(latitude) - sin(from));
        station->slope_rad = -latitude;
        station->chord_m = 2 * station->r_m * sin(PI / (double)skeleton.gores);
        station->bulge = end && skeleton.rows > 2 ? 0 : bulge * dice_between(dice, 0.5, 1);
    }
    for (size_t j = 0; j < skeleton.rows; j++) {
        struct station *low = &skeleton.station[j], *high = low + 1;
        low->side_m = hypot(high->r_m - low->r_m, high->z_m - low->z_m);
    }
    return skeleton;
}

static struct measure measure_as(struct skeleton skeleton, enum style style) {
    for (int s = 0; s < STYLE_COUNT; s++)
        skeleton.style_count[s] = s == (int)style ? skeleton.gores : 0;
    return skeleton_measure(&skeleton);
}

/* ---- a fine triangulation ---------------------------------------------- */

struct triangulated {
    double area, volume;
};

static void add_triangle(struct triangulated *sum, struct vector a, struct vector b,
                         struct vector c) {
    struct vector twice = vector_cross(vector_between(a, b), vector_between(a, c));
    sum->area += vector_length(twice) / 2;
    sum->volume += vector_dot(a, twice) / 6;
}

/* The strip between two sections in 2 x `cells` cells from tape to tape, split so that the
 * left half mirrors the right; a straight half needs no more than one. */
static void add_strip(struct triangulated *sum, const struct section *low,
                      const struct section *high, int cells) {
    for (int i = -cells; i < cells; i++) {
        double left = (double)i / cells, right = (double)(i + 1) / cells;
        struct vector a = section_point_at(low, left), b = section_point_at(low, right);
        struct vector c = section_point_at(high, right), d = section_point_at(high, left);
        bool rising = i < 0; /* from the lower outer to the upper inner corner */
        add_triangle(sum, a, b, rising ? c : d);
        add_triangle(sum, rising ? a : b, c, d);
    }
}

/* Close the crown by a fan from the axis. */
static void add_fan(struct triangulated *sum, const struct section *crown, int cells) {
    struct vector axis = {0, 0, crown->z_m};
    struct triangulated fan = {0, 0};
    for (int i = -cells; i < cells; i++)
        add_triangle(&fan, section_point_at(crown, (double)i / cells),
                     section_point_at(crown, (double)(i + 1) / cells), axis);
    sum->volume += fan.volume;
}

static struct triangulated triangulate(const struct skeleton *skeleton, enum style style,
                                       int cells) {
    struct triangulated sum = {0, 0};
    struct section low = section_of(style, &skeleton->station[0], skeleton->gores);
    for (size_t j = 1; j <= skeleton->rows; j++) {
        struct section high = section_of(style, &skeleton->station[j], skeleton->gores);
        add_strip(&sum, &low, &high, style == BILLOWED ? cells : 1);
        low = high;
    }
    add_fan(&sum, &low, cells);
    sum.area *= (double)skeleton->gores;
    sum.volume *= (double)skeleton->gores;
    return sum;
}

/* The limit of errors with the first, second and third power of the width of a cell. */
static double limit_of(double coarse, double middle, double fine, double finest) {
    double a = 2 * middle - coarse, b = 2 * fine - middle, c = 2 * finest - fine;
    double d = (4 * b - a) / 3, e = (4 * c - b) / 3;
    return (8 * e - d) / 7;
}

static struct triangulated triangulated_limit(const struct skeleton *skeleton, enum style style) {
    struct triangulated t[4];
    for (int i = 0; i < 4; i++)
        t[i] = triangulate(skeleton, style, 64 << i);
    return (struct triangulated){limit_of(t[0].area, t[1].area, t[2].area, t[3].area),
                                 limit_of(t[0].volume, t[1].volume, t[2].volume, t[3].volume)};
}

static void volume_and_area_are_the_limit_of_many_triangles(void **state) {
    (void)state;
    struct dice dice = {1};
    for (int n = 0; n < 40; n++) {
        struct skeleton skeleton = rolled(&dice);
        for (int style = FACETED; style < STYLE_COUNT; style++) {
            struct measure got = measure_as(skeleton, (enum style)style);
            struct triangulated want = triangulated_limit(&skeleton, (enum style)style);
            assert_close(got.volume_m3, want.volume, 0, 1e-9);
            assert_close(got.cloth_area_m2, want.area, 0, 1e-9);
        }
    }
}

/* Cloth laid flat is the same cloth: the flat pieces have the sewn area. */
static void the_sewn_area_is_that_of_the_flat_pieces(void **state) {
    (void)state;
    static struct flat_point point[4 * 512 + 2];
    struct dice dice = {2};
    for (int n = 0; n < 40; n++) {
        struct skeleton skeleton = rolled(&dice);
        for (int style = FACETED; style < STYLE_COUNT; style++) {
            double flat[2] = {0, 0};
            struct section low =
                section_of((enum style)style, &skeleton.station[0], skeleton.gores);
            struct section high =
                section_of((enum style)style, &skeleton.station[1], skeleton.gores);
            for (size_t i = 0; i < 2; i++) {
                struct ring ring = {.point = point};
                enum side side = style == HALF_GORE ? SIDE_RIGHT : SIDE_WHOLE;
                develop_panel(&low, &high, side, (size_t)256 << i, &ring);
                flat[i] = ring_area_m2(&ring) * (side == SIDE_WHOLE ? 1 : 2);
            }
            assert_close(panel_area_m2(&low, &high), (4 * flat[1] - flat[0]) / 3, 0, 1e-8);
        }
    }
}

/* ---- what must hold ---------------------------------------------------- */

static void without_bulge_all_styles_measure_the_same(void **state) {
    (void)state;
    struct dice dice = {3};
    struct skeleton skeleton = rolled(&dice);
    for (size_t j = 0; j <= skeleton.rows; j++)
        skeleton.station[j].bulge = 0;
    struct measure want = measure_as(skeleton, FACETED);
    for (int style = HALF_GORE; style < STYLE_COUNT; style++) {
        struct measure got = measure_as(skeleton, (enum style)style);
        assert_close(got.volume_m3, want.volume_m3, 0, 1e-14);
        assert_close(got.cloth_area_m2, want.cloth_area_m2, 0, 1e-14);
    }
}

/* Faceted, half-gore, billowed: the fuller the gore, the more it holds and takes. */
static void fuller_gores_hold_more_on_the_same_tapes(void **state) {
    (void)state;
    struct dice dice = {4};
    for (int n = 0; n < 40; n++) {
        struct skeleton skeleton = rolled(&dice);
        struct measure faceted = measure_as(skeleton, FACETED);
        struct measure half = measure_as(skeleton, HALF_GORE);
        struct measure billowed = measure_as(skeleton, BILLOWED);
        assert_true(faceted.volume_m3 < half.volume_m3);
        assert_true(half.volume_m3 < billowed.volume_m3);
        assert_true(faceted.cloth_area_m2 < half.cloth_area_m2);
        assert_true(half.cloth_area_m2 < billowed.cloth_area_m2);
        assert_close(half.gore_length_m, faceted.gore_length_m, 0, 0);
        assert_close(billowed.diameter_m, faceted.diameter_m, 0, 0);
        assert_close(billowed.height_m, faceted.height_m, 0, 0);
    }
}

static void a_mixed_envelope_is_the_sum_of_its_gores(void **state) {
    (void)state;
    struct dice dice = {5};
    struct skeleton skeleton = rolled(&dice);
    double volume = 0, area = 0, each = 1 / 12.0;
    skeleton.gores = 12;
    for (int style = FACETED; style < STYLE_COUNT; style++) {
        size_t count = (size_t)style + 3; /* 3, 4 and 5 of the twelve */
        struct measure pure = measure_as(skeleton, (enum style)style);
        volume += (double)count * each * pure.volume_m3;
        area += (double)count * each * pure.cloth_area_m2;
        skeleton.style_count[style] = count;
    }
    struct measure mixed = skeleton_measure(&skeleton);
    assert_close(mixed.volume_m3, volume, 0, 1e-14);
    assert_close(mixed.cloth_area_m2, area, 0, 1e-14);
}

static void figures_grow_with_the_powers_of_the_size(void **state) {
    (void)state;
    struct dice dice = {6};
    for (int style = FACETED; style < STYLE_COUNT; style++) {
        struct skeleton skeleton = rolled(&dice);
        struct measure one = measure_as(skeleton, (enum style)style);
        for (size_t j = 0; j <= skeleton.rows; j++) {
            skeleton.station[j].r_m *= 2;
            skeleton.station[j].z_m *= 2;
            skeleton.station[j].chord_m *= 2;
            skeleton.station[j].side_m *= 2;
        }
        struct measure two = measure_as(skeleton, (enum style)style);
        assert_close(two.volume_m3, 8 * one.volume_m3, 0, 1e-13);
        assert_close(two.cloth_area_m2, 4 * one.cloth_area_m2, 0, 1e-13);
        assert_close(two.gore_length_m, 2 * one.gore_length_m, 0, 1e-13);
        assert_close(two.height_m, 2 * one.height_m, 0, 1e-13);
        assert_close(two.diameter_m, 2 * one.diameter_m, 0, 1e-13);
    }
}

/* ---- mid-gore ---------------------------------------------------------- */

static void the_diameter_at_mid_gore_follows_the_fullest_style_present(void **state) {
    (void)state;
    struct skeleton skeleton = {.gores = 12, .rows = 1};
    double chord = 2 * sin(PI / 12), flat = 2 * cos(PI / 12), bulge = 0.2, lean = 0.3;
    for (size_t j = 0; j < 2; j++)
        skeleton.station[j] = (struct station){
            .r_m = 1, .z_m = (double)j, .slope_rad = lean, .chord_m = chord, .bulge = bulge};
    skeleton.style_count[FACETED] = 12;
    assert_close(skeleton_mid_diameter_m(&skeleton), flat, 1e-15, 0);
    skeleton.style_count[FACETED] = 11;
    skeleton.style_count[BILLOWED] = 1;
    double out = 2 * bulge * chord * cos(lean); /* the bulge leans with the slope */
    assert_close(skeleton_mid_diameter_m(&skeleton), flat + out, 1e-15, 0);
}

/* ---- sections ---------------------------------------------------------- */

static void the_rate_of_a_section_is_its_derivative(void **state) {
    (void)state;
    struct dice dice = {7};
    for (int n = 0; n < 60; n++) {
        struct skeleton skeleton = rolled(&dice);
        enum style style = (enum style)dice_whole(&dice, FACETED, BILLOWED);
        struct section section = section_of(style, &skeleton.station[0], skeleton.gores);
        double u = dice_between(&dice, 0.01, 0.99), h = 1e-5;
        struct vector a = section_point_at(&section, u - h), b = section_point_at(&section, u + h);
        struct vector rate = section_rate_at(&section, u);
        assert_close(rate.x, (b.x - a.x) / (2 * h), 1e-8, 0);
        assert_close(rate.y, (b.y - a.y) / (2 * h), 1e-8, 0);
        assert_close(rate.z, (b.z - a.z) / (2 * h), 1e-8, 0);
        double half = section_length_m(style, section.chord_m, section.bulge) / 2;
        assert_close(vector_length(rate), half, 0, 1e-12); /* equal steps of length */
    }
}

/* ---- twist ------------------------------------------------------------- */

/* Unit normal of the strip at one end of a ruling. */
static struct vector normal_at(const struct section *section, struct vector along, double u) {
    struct vector normal = vector_cross(section_rate_at(section, u), along);
    double length = vector_length(normal);
    return (struct vector){normal.x / length, normal.y / length, normal.z / length};
}

static void the_twist_is_that_of_the_worst_ruling(void **state) {
    (void)state;
    enum { SAMPLES = 400 };
    struct dice dice = {8};
    for (int n = 0; n < 60; n++) {
        struct skeleton skeleton = rolled(&dice);
        struct section low = section_of(BILLOWED, &skeleton.station[0], skeleton.gores);
        struct section high = section_of(BILLOWED, &skeleton.station[1], skeleton.gores);
        double worst = 1;
        for (int i = 0; i <= SAMPLES; i++) {
            double u = (double)i / SAMPLES;
            struct vector along =
                vector_between(section_point_at(&low, u), section_point_at(&high, u));
            double cosine = vector_dot(normal_at(&low, along, u), normal_at(&high, along, u));
            worst = fmin(worst, cosine);
        }
        /* 1/cos(tau/2) - 1 from cos(tau); 16 rulings find the worst to a few per cent. */
        assert_close(panel_twist(&low, &high), sqrt(2 / (1 + worst)) - 1, 1e-9, 0.05);
    }
}

static void flat_facets_and_cones_have_no_twist(void **state) {
    (void)state;
    struct dice dice = {9};
    struct skeleton skeleton = rolled(&dice);
    for (int style = FACETED; style < BILLOWED; style++) {
        struct section low = section_of((enum style)style, &skeleton.station[0], skeleton.gores);
        struct section high = section_of((enum style)style, &skeleton.station[1], skeleton.gores);
        assert_close(panel_twist(&low, &high), 0, 0, 0);
    }
    struct station station = {.r_m = 1, .chord_m = 0.5, .bulge = 0.2};
    struct section low = section_of(BILLOWED, &station, 12), high = low;
    high.z_m = 1; /* a prism of arcs */
    assert_close(panel_twist(&low, &high), 0, 1e-15, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(volume_and_area_are_the_limit_of_many_triangles),
        cmocka_unit_test(the_sewn_area_is_that_of_the_flat_pieces),
        cmocka_unit_test(without_bulge_all_styles_measure_the_same),
        cmocka_unit_test(fuller_gores_hold_more_on_the_same_tapes),
        cmocka_unit_test(a_mixed_envelope_is_the_sum_of_its_gores),
        cmocka_unit_test(figures_grow_with_the_powers_of_the_size),
        cmocka_unit_test(the_diameter_at_mid_gore_follows_the_fullest_style_present),
        cmocka_unit_test(the_rate_of_a_section_is_its_derivative),
        cmocka_unit_test(the_twist_is_that_of_the_worst_ruling),
        cmocka_unit_test(flat_facets_and_cones_have_no_twist),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
