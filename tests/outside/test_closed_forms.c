/* test_closed_forms.c - sections, gores and development against closed forms. */
#include "rows.h"

#include "geometry/develop.h"
#include "geometry/measure.h"

/* A faceted skeleton with no stations set yet. */
static struct skeleton skeleton_of(size_t gores, size_t rows, enum style style) {
    struct skeleton skeleton = {.gores = gores, .rows = rows};
    skeleton.style_count[style] = gores;
    return skeleton;
}

static struct station station_of(double r_m, double z_m, size_t gores) {
    return (struct station){.r_m = r_m, .z_m = z_m, .chord_m = 2 * r_m * sin(PI / (double)gores)};
}

/* The limit of a figure whose error falls with the square and the fourth power of the number
 * of parts, from three of its values, each with twice the parts of the one before. */
static double limit_of(const double value[3]) {
    double first = (4 * value[1] - value[0]) / 3, second = (4 * value[2] - value[1]) / 3;
    return (16 * second - first) / 15;
}

/* ---- globes ------------------------------------------------------------ */

static struct measure globe(double tape_over_middle, size_t gores, size_t rows) {
    struct skeleton skeleton = skeleton_of(gores, rows, FACETED);
    for (size_t j = 0; j <= rows; j++) {
        double latitude = PI * ((double)j / (double)rows - 0.5);
        double r = fmax(0, cos(latitude)) * tape_over_middle;
        skeleton.station[j] = station_of(r, 1 + sin(latitude), gores);
    }
    return skeleton_measure(&skeleton);
}

static void globes_of_flat_gores_tend_to_their_closed_forms(void **state) {
    (void)state;
    struct rows rows = rows_open("globes.txt");
    struct row row;
    size_t seen = 0;
    for (; rows_next(&rows, &row); seen++) {
        bool outside = strcmp(row.word[0], "outside") == 0;
        size_t gores = (size_t)row_number(&row, 1);
        double n = (double)gores, tape = outside ? 1 / cos(PI / n) : 1, area[3], volume[3];
        for (size_t i = 0; i < 3; i++) {
            struct measure measure = globe(tape, gores, (size_t)15 << i);
            area[i] = measure.cloth_area_m2;
            volume[i] = measure.volume_m3;
        }
        double exact_area = 4 * n * tan(PI / n);
        double exact = outside ? exact_area / 3 : 2 * n * sin(2 * PI / n) / 3;
        assert_close(limit_of(volume), exact, 0, 2e-9);
        check_column(&rows, &row, 3, limit_of(volume), "volume");
        check_column(&rows, &row, 2, limit_of(area), "area");
        if (outside)
            assert_close(limit_of(area), exact_area, 0, 2e-9);
    }
    rows_close(&rows, seen, 4);
}

/* Half as long rows, a quarter of the error: the rows behave as they should. */
static void faceted_rows_converge_with_the_square_of_their_number(void **state) {
    (void)state;
    double coarse = 4 - globe(1, 12, 30).volume_m3, fine = 4 - globe(1, 12, 60).volume_m3;
    assert_close(coarse / fine, 4, 0.01, 0);
}

/* ---- prisms ------------------------------------------------------------ */

static struct measure prism(enum style style, size_t gores, double low_r, double high_r,
                            double bulge) {
    struct skeleton skeleton = skeleton_of(gores, 1, style);
    skeleton.station[0] = station_of(low_r, 0, gores);
    skeleton.station[1] = station_of(high_r, 1, gores);
    skeleton.station[0].bulge = skeleton.station[1].bulge = bulge;
    return skeleton_measure(&skeleton);
}

static void faceted_gores_enclose_a_polygon(void **state) {
    (void)state;
    struct rows rows = rows_open("polygons.txt");
    struct row row;
    size_t seen = 0;
    for (; rows_next(&rows, &row); seen++) {
        struct measure measure = prism(FACETED, (size_t)row_number(&row, 0), 1, 1, 0);
        check_column(&rows, &row, 1, measure.volume_m3 / PI, "polygon over circle");
    }
    rows_close(&rows, seen, 4);
}

/* Source: closed form; 12 sides, circumradii 1 and 0.5, height 1. */
static void twelve_sided_frustum_holds_exactly_seven_quarters(void **state) {
    (void)state;
    assert_close(prism(FACETED, 12, 1, 0.5, 0).volume_m3, 1.75, 1e-14, 0);
}

/* Source: closed form; r = 2, angle pi/3: area 0.3623442948, chord 2, sagitta 0.2679491924.
 * Six such arcs make up the circle that the tapes stand on. */
static void billowed_section_is_the_circle_segment(void **state) {
    (void)state;
    double bulge = 0.2679491924311227 / 2;
    assert_close(section_at(BILLOWED, 2, bulge, 0).h_m, 0.2679491924, 1e-10, 0);
    assert_close(section_at(BILLOWED, 2, bulge, 1).x_m, 1, 1e-14, 0);
    assert_close(section_length_m(BILLOWED, 2, bulge), 2 * PI / 3, 1e-14, 0);
    double billowed = prism(BILLOWED, 6, 2, 2, bulge).volume_m3;
    double faceted = prism(FACETED, 6, 2, 2, 0).volume_m3;
    assert_close((billowed - faceted) / 6, 0.3623442948, 1e-10, 0);
    assert_close(billowed, PI * 4, 1e-13, 0);
}

/* ---- the round cone ---------------------------------------------------- */

/* A level arc of radius r about the axis, one of 12. */
static struct section level_arc(double r, double z) {
    double half_turn = PI / 12;
    return (struct section){
        .style = BILLOWED,
        .chord_m = 2 * r * sin(half_turn),
        .bulge = tan(half_turn / 2) / 2,
        .middle_x_m = r * cos(half_turn),
        .z_m = z,
        .out_x = 1,
        .arc = arc_of(tan(half_turn / 2) / 2),
    };
}

/* Farthest that a row edge strays from the circle of radius `want` about the apex. */
static double stray(const struct ring *ring, size_t first, size_t last, struct flat_point apex,
                    double want) {
    double largest = 0;
    for (size_t i = first; i <= last; i++) {
        double distance = hypot(ring->point[i].x_m - apex.x_m, ring->point[i].y_m - apex.y_m);
        largest = fmax(largest, fabs(distance - want));
    }
    return largest;
}

/* Lay one of twelve panels flat.  Returns: the sector of all twelve [deg]. */
static double frustum_sector(const struct section *low, const struct section *high, size_t cells,
                             double slant) {
    static struct flat_point point[4 * 512 + 2];
    struct ring ring = {.point = point};
    develop_panel(low, high, SIDE_WHOLE, cells, &ring);
    struct flat_point middle = point[cells], right = point[2 * cells];
    double ratio = high->chord_m / low->chord_m, reach = slant / (1 - ratio);
    struct flat_point apex = {middle.x_m, middle.y_m + reach};
    double coarse = 0.02 / (double)(cells * cells); /* triangles, not yet a cone */
    assert_true(stray(&ring, 0, 2 * cells, apex, reach) < coarse);
    assert_true(stray(&ring, 2 * cells + 1, ring.count - 1, apex, reach - slant) < coarse);
    return 12 * 2 * atan2(right.x_m - apex.x_m, apex.y_m - right.y_m) * 180 / PI;
}

static void check_frustum(const struct rows *rows, const struct row *row) {
    double R = row_number(row, 1), r = row_number(row, 2), h = row_number(row, 3), sector[3];
    struct section low = level_arc(R, 0), high = level_arc(r, h);
    struct vector foot = section_point_at(&low, 0.3), head = section_point_at(&high, 0.3);
    double slant = vector_length(vector_between(foot, head));
    for (size_t i = 0; i < 3; i++)
        sector[i] = frustum_sector(&low, &high, (size_t)128 << i, slant);
    check_column(rows, row, 4, slant, "slant");
    check_column(rows, row, 5, 12 * panel_area_m2(&low, &high), "lateral area");
    check_column(rows, row, 6, limit_of(sector), "sector");
    assert_close(panel_twist(&low, &high), 0, 1e-15, 0);
    double without_top_fan = PI * h * R * (R + r) / 3;
    assert_close(12 * panel_volume_m3(&low, &high), without_top_fan, 1e-13, 0);
}

/* ---- the oblique cone -------------------------------------------------- */

struct unrolled {
    double area, sector_deg;
};

/* Lay the fan of `cells` triangles about the apex flat, one after another. */
static struct unrolled unroll(double R, double x, double h, size_t cells) {
    struct unrolled sum = {0, 0};
    struct vector apex = {x, 0, h}, foot = {R, 0, 0};
    struct flat_point flat_apex = {0, 0}, flat = {0, vector_length(vector_between(apex, foot))};
    for (size_t i = 1; i <= cells; i++) {
        double turn = 2 * PI * (double)i / (double)cells;
        struct vector next = {R * cos(turn), R * sin(turn), 0};
        struct flat_point laid = lay_triangle(flat_apex, flat, apex, foot, next);
        double twice = flat.y_m * laid.x_m - flat.x_m * laid.y_m;
        sum.area += twice / 2;
        sum.sector_deg += atan2(twice, flat.x_m * laid.x_m + flat.y_m * laid.y_m) * 180 / PI;
        foot = next;
        flat = laid;
    }
    return sum;
}

static void check_oblique(const struct rows *rows, const struct row *row) {
    double area[3], sector[3];
    for (size_t i = 0; i < 3; i++) {
        struct unrolled unrolled =
            unroll(row_number(row, 1), row_number(row, 2), row_number(row, 3), (size_t)512 << i);
        area[i] = unrolled.area;
        sector[i] = unrolled.sector_deg;
    }
    check_column(rows, row, 4, limit_of(area), "lateral area");
    check_column(rows, row, 5, limit_of(sector), "sector");
}

static void cones_unroll_to_their_exact_sectors(void **state) {
    (void)state;
    struct rows rows = rows_open("cones.txt");
    struct row row;
    size_t seen = 0;
    for (; rows_next(&rows, &row); seen++) {
        bool oblique = strcmp(row.word[0], "oblique") == 0;
        assert_true(oblique || strcmp(row.word[0], "frustum") == 0);
        (oblique ? check_oblique : check_frustum)(&rows, &row);
    }
    rows_close(&rows, seen, 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(globes_of_flat_gores_tend_to_their_closed_forms),
        cmocka_unit_test(faceted_rows_converge_with_the_square_of_their_number),
        cmocka_unit_test(faceted_gores_enclose_a_polygon),
        cmocka_unit_test(twelve_sided_frustum_holds_exactly_seven_quarters),
        cmocka_unit_test(billowed_section_is_the_circle_segment),
        cmocka_unit_test(cones_unroll_to_their_exact_sectors),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
