/* The check of a layout finds what is wrong with it, and nothing else. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "gorewright/layout.h"

/* An L, a square that fits its hollow, and a plain bar. */
static const struct flat_point ell[] = {{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}};
static const struct flat_point square[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
static const struct flat_point bar[] = {{0, 0}, {3, 0}, {3, 0.5}, {0, 0.5}};

struct sample {
    struct layout_outline outline[3];
    struct layout_bolt bolt[2];
    struct layout_task task;
    struct layout_place place[3];
    double used[2];
    struct cloth_layout layout;
};

/* L at the origin, the square in its hollow, the bar on the other bolt: all is well. */
static void set_up(struct sample *sample) {
    *sample = (struct sample){
        .outline = {{"L", ell, COUNT_OF(ell), 1, TURNS_0_180},
                    {"S", square, COUNT_OF(square), 1, TURNS_ANY},
                    {"B", bar, COUNT_OF(bar), 1, TURNS_0_180}},
        .bolt = {{2, 4}, {1, HUGE_VAL}},
        .place = {{0, 0, TURN_0, 0, 0}, {1, 0, TURN_0, 1, 1}, {2, 1, TURN_0, 0, 0}},
        .used = {2, 3},
    };
    sample->task = (struct layout_task){
        .outline = sample->outline, .outlines = 3, .bolt = sample->bolt, .bolts = 2};
    sample->layout = (struct cloth_layout){
        .place = sample->place, .places = 3, .used_m = sample->used, .bolts = 2};
}

/* The code of the first fault, or "" when there is none. */
static const char *first_fault(const struct sample *sample) {
    static char code[32];
    struct diagnostics messages = {0};
    int status = layout_check(&sample->task, &sample->layout, &messages);
    assert_int_equal(status == 0, messages.errors == 0);
    strcpy(code, messages.count > 0 ? messages.item[0].code : "");
    diagnostics_free(&messages);
    return code;
}

static void pieces_may_touch_and_fill_a_hollow_when_there_is_no_gap(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    assert_string_equal(first_fault(&sample), "");
}

static void gap_not_kept_is_found_to_a_hundredth_of_a_millimetre(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    sample.task.gap_m = 0.01;
    assert_string_equal(first_fault(&sample), "gap");
    sample.place[1].x_m = sample.place[1].y_m = 1.00999;
    sample.bolt[0].width_m = 3;
    sample.used[0] = 3;
    assert_string_equal(first_fault(&sample), "gap");
    sample.place[1].x_m = sample.place[1].y_m = 1.01;
    assert_string_equal(first_fault(&sample), "");
}

static void overlap_is_found_down_to_a_hundredth_of_a_millimetre(void **state) {
    (void)state;
    struct sample sample;
    for (int k = 0; k < 2; k++) {
        set_up(&sample);
        *(k == 0 ? &sample.place[1].x_m : &sample.place[1].y_m) -= 1e-5;
        assert_string_equal(first_fault(&sample), "overlap");
    }
}

static void same_piece_twice_at_one_place_is_an_overlap(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    sample.outline[0].count = 2;
    sample.outline[1].count = 0;
    sample.place[1] = sample.place[0];
    assert_string_equal(first_fault(&sample), "overlap");
}

static void bars_that_cross_without_corners_inside_are_an_overlap(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    sample.bolt[0].width_m = 4;
    sample.outline[2].turns = TURNS_ANY;
    sample.outline[2].count = 2;
    sample.outline[0].count = sample.outline[1].count = 0;
    sample.layout.places = 2;
    sample.used[0] = 3;
    sample.place[0] = (struct layout_place){2, 0, TURN_0, 0, 1};
    sample.place[1] = (struct layout_place){2, 0, TURN_90, 2, 0};
    assert_string_equal(first_fault(&sample), "overlap");
}

static void small_piece_inside_a_large_one_is_an_overlap(void **state) {
    (void)state;
    static const struct flat_point large[] = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
    struct sample sample;
    set_up(&sample);
    sample.bolt[0].width_m = 4;
    sample.outline[0].point = large;
    sample.outline[0].points = 4;
    sample.used[0] = 4;
    sample.place[1].x_m = sample.place[1].y_m = 1.5;
    assert_string_equal(first_fault(&sample), "overlap");
}

static void piece_off_the_cloth_is_found_on_all_four_sides(void **state) {
    (void)state;
    static const double by[4][2] = {{-1e-5, 0}, {0, -1e-5}, {0.5, 0}, {0, 0.50001}};
    for (size_t k = 0; k < 4; k++) {
        struct sample sample;
        set_up(&sample);
        sample.bolt[1].length_m = 3.4;
        sample.used[1] = 3.6;
        sample.place[2].x_m = by[k][0];
        sample.place[2].y_m = by[k][1];
        assert_string_equal(first_fault(&sample), "off-cloth");
    }
}

static void turn_that_the_grain_forbids_is_found(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    sample.outline[1].turns = TURNS_0_180;
    sample.place[1].turn = TURN_90;
    sample.place[1].x_m = 2;
    assert_string_equal(first_fault(&sample), "turned");
    sample.outline[1].turns = TURNS_ANY;
    assert_string_equal(first_fault(&sample), "");
}

static void missing_and_surplus_pieces_are_found(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    sample.outline[1].count = 2;
    assert_string_equal(first_fault(&sample), "count");
    set_up(&sample);
    sample.outline[2].count = 0;
    assert_string_equal(first_fault(&sample), "count");
}

static void length_said_to_be_used_must_hold_all_pieces(void **state) {
    (void)state;
    struct sample sample;
    set_up(&sample);
    sample.used[1] = 2.9;
    assert_string_equal(first_fault(&sample), "used");
}

static void places_that_are_none_are_refused(void **state) {
    (void)state;
    const struct layout_place bad[] = {{7, 0, TURN_0, 0, 0},
                                       {0, 2, TURN_0, 0, 0},
                                       {0, 0, TURN_COUNT, 0, 0},
                                       {0, 0, TURN_0, (double)NAN, 0},
                                       {0, 0, TURN_0, 0, HUGE_VAL}};
    for (size_t i = 0; i < COUNT_OF(bad); i++) {
        struct sample sample;
        set_up(&sample);
        sample.place[0] = bad[i];
        assert_string_equal(first_fault(&sample), "place");
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_may_touch_and_fill_a_hollow_when_there_is_no_gap),
        cmocka_unit_test(gap_not_kept_is_found_to_a_hundredth_of_a_millimetre),
        cmocka_unit_test(overlap_is_found_down_to_a_hundredth_of_a_millimetre),
        cmocka_unit_test(same_piece_twice_at_one_place_is_an_overlap),
        cmocka_unit_test(bars_that_cross_without_corners_inside_are_an_overlap),
        cmocka_unit_test(small_piece_inside_a_large_one_is_an_overlap),
        cmocka_unit_test(piece_off_the_cloth_is_found_on_all_four_sides),
        cmocka_unit_test(turn_that_the_grain_forbids_is_found),
        cmocka_unit_test(missing_and_surplus_pieces_are_found),
        cmocka_unit_test(length_said_to_be_used_must_hold_all_pieces),
        cmocka_unit_test(places_that_are_none_are_refused),
    };
    return cmocka_run_group_tests_name("layout_check", tests, NULL, NULL);
}
