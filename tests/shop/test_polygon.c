/* Outlines with fewer corners, hulls, and cuts into convex parts. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "shop/polygon.h"

enum { MOST = 64 };

/* A star-shaped outline with corners at even angles and radii drawn at random: simple, and as
 * hollow as may be. */
static size_t random_outline(struct dice *dice, struct flat_point *point) {
    size_t count = (size_t)dice_whole(dice, 3, 40);
    for (size_t i = 0; i < count; i++) {
        double angle = 2 * PI * (double)i / (double)count, r = dice_between(dice, 0.2, 1);
        point[i] = (struct flat_point){r * cos(angle), r * sin(angle)};
    }
    return count;
}

static bool is_inside(const struct flat_point *point, size_t count, struct flat_point p) {
    bool inside = false;
    for (size_t i = 0; i < count; i++) {
        struct flat_point a = point[i], b = point[(i + 1) % count];
        if ((a.y_m > p.y_m) != (b.y_m > p.y_m) &&
            p.x_m < a.x_m + (b.x_m - a.x_m) * (p.y_m - a.y_m) / (b.y_m - a.y_m))
            inside = !inside;
    }
    return inside;
}

static void corners_lose_repeats_and_points_on_edges_and_run_counter_clockwise(void **state) {
    (void)state;
    struct flat_point square[] = {{0, 0}, {0, 0.5}, {0, 1}, {1, 1}, {1, 1}, {1, 0}, {0.3, 0}};
    assert_int_equal(polygon_corners(square, COUNT_OF(square)), 4);
    assert_close(polygon_area_m2(square, 4), 1, 1e-15, 0);
}

static void line_without_area_has_no_corners(void **state) {
    (void)state;
    struct flat_point there_and_back[] = {{0, 0}, {1, 1}, {2, 2}, {1, 1}};
    assert_true(polygon_corners(there_and_back, COUNT_OF(there_and_back)) < 3);
}

static void loosened_outline_holds_the_old_one_and_no_more_than_allowed(void **state) {
    (void)state;
    struct dice dice = {11};
    size_t lost = 0;
    for (int run = 0; run < 500; run++) {
        struct flat_point old[MOST], new[MOST];
        size_t count = random_outline(&dice, old);
        memcpy(new, old, sizeof old);
        double area = polygon_area_m2(old, count), more = dice_between(&dice, 0, 0.1);
        size_t left = polygon_loosened(new, count, more * area, 0.2);
        assert_true(left >= 3 && left <= count);
        double now = polygon_area_m2(new, left);
        assert_true(now >= area * (1 - 1e-12) && now <= area * (1 + more) + 1e-12);
        for (int k = 0; k < 50; k++) {
            struct flat_point p = {dice_between(&dice, -1, 1), dice_between(&dice, -1, 1)};
            assert_true(!is_inside(old, count, p) || is_inside(new, left, p));
        }
        lost += count - left;
    }
    assert_true(lost > 500);
}

static void hull_of_a_cross_is_its_eight_outer_corners(void **state) {
    (void)state;
    static const struct flat_point cross[] = {{1, 0}, {2, 0}, {2, 1}, {3, 1}, {3, 2}, {2, 2},
                                              {2, 3}, {1, 3}, {1, 2}, {0, 2}, {0, 1}, {1, 1}};
    struct flat_point hull[2 * COUNT_OF(cross)];
    assert_int_equal(convex_hull(cross, COUNT_OF(cross), hull), 8);
    assert_close(polygon_area_m2(hull, 8), 7, 1e-15, 0);
}

static void convex_parts_cover_the_outline_and_nothing_else(void **state) {
    (void)state;
    struct dice dice = {12};
    for (int run = 0; run < 500; run++) {
        struct flat_point point[MOST];
        struct convex_parts parts;
        size_t count = polygon_corners(point, random_outline(&dice, point));
        assert_int_equal(convex_parts_of(point, count, &parts), 0);
        double sum = 0;
        for (size_t i = 0; i < parts.parts; i++) {
            const struct flat_point *part = &parts.point[parts.first[i]];
            size_t size = parts.first[i + 1] - parts.first[i];
            for (size_t k = 0; k < size; k++)
                assert_true(turn_at(part[k], part[(k + 1) % size], part[(k + 2) % size]) > 0);
            sum += polygon_area_m2(part, size);
        }
        assert_close(sum, polygon_area_m2(point, count), 0, 1e-9);
        for (int k = 0; k < 50; k++) {
            struct flat_point p = {dice_between(&dice, -1, 1), dice_between(&dice, -1, 1)};
            bool covered = false;
            for (size_t i = 0; i < parts.parts; i++)
                covered |=
                    is_inside(&parts.point[parts.first[i]], parts.first[i + 1] - parts.first[i], p);
            assert_int_equal(covered, is_inside(point, count, p));
        }
        convex_parts_free(&parts);
    }
}

static void convex_outline_stays_one_part(void **state) {
    (void)state;
    struct flat_point round[30];
    for (size_t i = 0; i < COUNT_OF(round); i++)
        round[i] = (struct flat_point){cos(0.2 * (double)i), sin(0.2 * (double)i)};
    struct convex_parts parts;
    assert_int_equal(convex_parts_of(round, COUNT_OF(round), &parts), 0);
    assert_int_equal(parts.parts, 1);
    assert_int_equal(parts.first[1], COUNT_OF(round));
    convex_parts_free(&parts);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(corners_lose_repeats_and_points_on_edges_and_run_counter_clockwise),
        cmocka_unit_test(line_without_area_has_no_corners),
        cmocka_unit_test(loosened_outline_holds_the_old_one_and_no_more_than_allowed),
        cmocka_unit_test(hull_of_a_cross_is_its_eight_outer_corners),
        cmocka_unit_test(convex_parts_cover_the_outline_and_nothing_else),
        cmocka_unit_test(convex_outline_stays_one_part),
    };
    return cmocka_run_group_tests_name("polygon", tests, NULL, NULL);
}
