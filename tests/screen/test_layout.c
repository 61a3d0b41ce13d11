/* test_layout.c - where everything stands, at every size. */
#include "support.h"

#include "screen/layout.h"

static bool lies_inside(const struct area_box *box, long columns, long rows) {
    return box->column >= 0 && box->row >= 0 && box->columns >= 0 && box->rows >= 0 &&
           box->column + box->columns <= columns && box->row + box->rows <= rows;
}

static bool is_empty(const struct area_box *box) {
    return box->columns == 0 || box->rows == 0;
}

static bool overlap(const struct area_box *a, const struct area_box *b) {
    if (is_empty(a) || is_empty(b))
        return false;
    return a->column < b->column + b->columns && b->column < a->column + a->columns &&
           a->row < b->row + b->rows && b->row < a->row + a->rows;
}

static void check_size(long columns, long rows) {
    struct layout layout = layout_for(columns, rows);
    for (int i = 0; i < AREA_COUNT; i++) {
        if (!lies_inside(&layout.area[i], columns, rows))
            fail_msg("area %d is not inside %ldx%ld", i, columns, rows);
        for (int j = 0; j < i; j++)
            if (overlap(&layout.area[i], &layout.area[j]))
                fail_msg("areas %d and %d overlap at %ldx%ld", i, j, columns, rows);
    }
}

static void every_area_lies_inside_and_none_overlap_at_every_size(void **state) {
    (void)state;
    for (long columns = 0; columns <= 200; columns++)
        for (long rows = 0; rows <= 60; rows++)
            check_size(columns, rows);
}

static void from_the_least_size_on_every_area_has_room(void **state) {
    (void)state;
    for (long columns = LAYOUT_COLUMNS_LEAST; columns <= 200; columns++)
        for (long rows = LAYOUT_ROWS_LEAST; rows <= 60; rows++) {
            struct layout layout = layout_for(columns, rows);
            assert_false(layout.too_small);
            for (int i = 0; i < AREA_COUNT; i++)
                assert_false(is_empty(&layout.area[i]));
            assert_true(layout.area[AREA_CHOICES].rows >= 10);
            assert_true(layout.area[AREA_PREVIEW].columns >= 38);
        }
}

static void below_the_least_size_there_is_one_line(void **state) {
    (void)state;
    const long sizes[][2] = {{1, 1}, {79, 24}, {80, 23}, {200, 5}, {5, 60}};
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        struct layout layout = layout_for(sizes[i][0], sizes[i][1]);
        assert_true(layout.too_small);
        assert_int_equal(layout.area[AREA_MESSAGE].rows, 1);
        for (int j = 0; j < AREA_COUNT; j++)
            assert_true(j == AREA_MESSAGE || is_empty(&layout.area[j]));
    }
}

static void more_room_goes_to_the_drawing(void **state) {
    (void)state;
    struct layout small = layout_for(80, 24), large = layout_for(200, 60);
    assert_true(large.area[AREA_PREVIEW].columns >= small.area[AREA_PREVIEW].columns + 100);
    assert_true(large.area[AREA_PREVIEW].rows >= small.area[AREA_PREVIEW].rows + 30);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_area_lies_inside_and_none_overlap_at_every_size),
        cmocka_unit_test(from_the_least_size_on_every_area_has_room),
        cmocka_unit_test(below_the_least_size_there_is_one_line),
        cmocka_unit_test(more_room_goes_to_the_drawing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
