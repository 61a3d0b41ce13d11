/* Layouts: complete, on the cloth, apart by the gap; the same on every run. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/layout.h"

static const struct flat_point square[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
static const struct flat_point trapezoid[] = {{0, 0}, {0.6, 0}, {0.4, 0.5}, {0.2, 0.5}};

/* Make, with the least effort unless one is stated, and check; print what is wrong. */
static void lay_out(const struct layout_task *asked, struct cloth_layout *layout) {
    struct layout_task quick = *asked;
    const struct layout_task *task = &quick;
    quick.effort = asked->effort > 0 ? asked->effort : EFFORT_LEAST;
    struct diagnostics messages = {0};
    struct text text = {0};
    int made = layout_make(task, layout, &messages);
    int good = made == 0 ? layout_check(task, layout, &messages) : -1;
    diagnostics_write(&messages, &text);
    if (good != 0)
        print_error("%s", text.bytes == NULL ? "no message\n" : text.bytes);
    assert_int_equal(made, 0);
    assert_int_equal(good, 0);
    text_free(&text);
    diagnostics_free(&messages);
}

/* The code of the only error a task gives, with its text in `words`. */
static const char *refusal(const struct layout_task *task, char words[400]) {
    static char code[32];
    struct cloth_layout layout;
    struct diagnostics messages = {0};
    assert_int_equal(layout_make(task, &layout, &messages), -1);
    assert_int_equal(messages.errors, 1);
    assert_null(layout.place);
    strcpy(code, messages.item[0].code);
    snprintf(words, 400, "%s", messages.item[0].text);
    diagnostics_free(&messages);
    return code;
}

/* ---- small tasks whose best layout is known ---------------------------------------- */

static void squares_fill_the_cloth_without_waste(void **state) {
    (void)state;
    struct layout_outline outline = {"S", square, 4, 12, ONLY_TURN_0};
    struct layout_bolt bolt = {3, HUGE_VAL};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = &bolt, .bolts = 1};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    assert_close(layout.used_m[0], 4, 1e-6, 0);
    assert_close(layout.use, 1, 1e-6, 0);
    assert_close(layout.area_bound_m, 4, 1e-12, 0);
    assert_close(layout.lower_bound_m, 4, 1e-9, 0);
    layout_free(&layout);
}

static void trapezoids_lie_head_to_tail(void **state) {
    (void)state;
    struct layout_outline outline = {"T", trapezoid, 4, 30, TURNS_0_180};
    struct layout_bolt bolt = {0.5, HUGE_VAL};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = &bolt, .bolts = 1};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    /* thirty mean widths of 0.4 and half a slope at either end */
    assert_close(layout.used_m[0], 30 * 0.4 + 0.2, 1e-6, 0);
    layout_free(&layout);
    outline.turns = ONLY_TURN_0;
    lay_out(&task, &layout);
    assert_close(layout.used_m[0], 30 * 0.6, 1e-6, 0);
    layout_free(&layout);
}

static void gap_stands_between_pieces_but_not_at_the_edges(void **state) {
    (void)state;
    struct layout_outline outline = {"S", square, 4, 6, ONLY_TURN_0};
    struct layout_bolt bolt = {2.01, HUGE_VAL};
    struct layout_task task = {
        .outline = &outline, .outlines = 1, .bolt = &bolt, .bolts = 1, .gap_m = 0.01};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    assert_close(layout.used_m[0], 3.02, 1e-6, 0);
    layout_free(&layout);
    bolt.width_m = 2.009;
    lay_out(&task, &layout);
    assert_close(layout.used_m[0], 6.05, 1e-6, 0);
    layout_free(&layout);
}

static void clockwise_outline_is_laid_out_all_the_same(void **state) {
    (void)state;
    static const struct flat_point clockwise[] = {{0, 1}, {1, 1}, {1, 0}, {0, 0}};
    struct layout_outline outline = {"S", clockwise, 4, 4, ONLY_TURN_0};
    struct layout_bolt bolt = {2, HUGE_VAL};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = &bolt, .bolts = 1};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    assert_close(layout.used_m[0], 2, 1e-6, 0);
    layout_free(&layout);
}

static void grain_along_the_roll_lays_pieces_on_their_side(void **state) {
    (void)state;
    static const struct flat_point tall[] = {{0, 0}, {1, 0}, {1, 3}, {0, 3}};
    struct layout_outline outline = {"P", tall, 4, 2, TURNS_90_270};
    struct layout_bolt bolt = {2, HUGE_VAL};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = &bolt, .bolts = 1};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    assert_close(layout.used_m[0], 3, 1e-6, 0);
    layout_free(&layout);
}

static void nothing_to_lay_out_takes_no_cloth(void **state) {
    (void)state;
    struct layout_outline outline = {"S", square, 4, 0, ONLY_TURN_0};
    struct layout_bolt bolt = {2, HUGE_VAL};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = &bolt, .bolts = 1};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    assert_int_equal(layout.places, 0);
    assert_close(layout.used_m[0], 0, 0, 0);
    layout_free(&layout);
}

/* ---- several bolts -------------------------------------------------------------------- */

static void offcuts_are_filled_before_the_roll_is_cut(void **state) {
    (void)state;
    struct layout_outline outline = {"S", square, 4, 10, ONLY_TURN_0};
    const struct layout_bolt bolt[] = {{2, 2}, {1.5, 3}, {3, HUGE_VAL}};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = bolt, .bolts = 3};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    size_t on[3] = {0};
    for (size_t i = 0; i < layout.places; i++)
        on[layout.place[i].bolt]++;
    assert_int_equal(on[0], 4);
    assert_int_equal(on[1], 3);
    assert_int_equal(on[2], 3);
    assert_close(layout.used_m[2], 1, 1e-6, 0);
    assert_close(layout.area_bound_m, (10 - 4 - 4.5) / 3, 1e-12, 0);
    layout_free(&layout);
}

static void piece_too_wide_for_the_first_roll_goes_on_the_next(void **state) {
    (void)state;
    static const struct flat_point tall[] = {{0, 0}, {1, 0}, {1, 3}, {0, 3}};
    struct layout_outline outline[] = {{"S", square, 4, 4, ONLY_TURN_0},
                                       {"P", tall, 4, 2, ONLY_TURN_0}};
    const struct layout_bolt bolt[] = {{2, HUGE_VAL}, {3, HUGE_VAL}};
    struct layout_task task = {.outline = outline, .outlines = 2, .bolt = bolt, .bolts = 2};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    assert_close(layout.used_m[0], 2, 1e-6, 0);
    assert_close(layout.used_m[1], 2, 1e-6, 0);
    layout_free(&layout);
}

static void cloth_of_limited_length_is_used_to_its_end(void **state) {
    (void)state;
    struct layout_outline outline = {"T", trapezoid, 4, 30, TURNS_0_180};
    const struct layout_bolt bolt[] = {{0.5, 6.2}, {0.5, 6.2}};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = bolt, .bolts = 2};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    assert_close(layout.used_m[0], 6.2, 1e-6, 0);
    assert_close(layout.used_m[1], 6.2, 1e-6, 0);
    layout_free(&layout);
}

/* ---- refusals -------------------------------------------------------------------------- */

static void piece_wider_than_every_cloth_is_named(void **state) {
    (void)state;
    char words[400];
    struct layout_outline outline[] = {{"F01", trapezoid, 4, 1, TURNS_0_180},
                                       {"F02", square, 4, 1, TURNS_0_180}};
    const struct layout_bolt bolt[] = {{0.5, 1}, {0.9, HUGE_VAL}};
    struct layout_task task = {.outline = outline, .outlines = 2, .bolt = bolt, .bolts = 2};
    assert_string_equal(refusal(&task, words), "piece-too-wide");
    assert_non_null(strstr(words, "F02"));
    assert_non_null(strstr(words, "1.000 m"));
    assert_non_null(strstr(words, "0.900 m"));
}

static void piece_longer_than_every_offcut_is_named(void **state) {
    (void)state;
    char words[400];
    struct layout_outline outline = {"F02", square, 4, 1, ONLY_TURN_0};
    const struct layout_bolt bolt = {2, 0.9};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = &bolt, .bolts = 1};
    assert_string_equal(refusal(&task, words), "piece-too-long");
    assert_non_null(strstr(words, "F02"));
}

static void too_little_cloth_is_said_with_a_piece_that_finds_no_room(void **state) {
    (void)state;
    char words[400];
    struct layout_outline outline = {"F02", square, 4, 7, ONLY_TURN_0};
    const struct layout_bolt bolt[] = {{2, 2}, {1, 2}};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = bolt, .bolts = 2};
    assert_string_equal(refusal(&task, words), "no-room");
    assert_non_null(strstr(words, "F02"));
}

static void what_is_no_outline_and_no_cloth_is_refused(void **state) {
    (void)state;
    char words[400];
    static const struct flat_point line[] = {{0, 0}, {1, 1}, {2, 2}};
    struct layout_outline outline = {"F02", line, 3, 1, ONLY_TURN_0};
    struct layout_bolt bolt = {2, HUGE_VAL};
    struct layout_task task = {.outline = &outline, .outlines = 1, .bolt = &bolt, .bolts = 1};
    assert_string_equal(refusal(&task, words), "outline");
    assert_non_null(strstr(words, "F02"));
    outline.point = square;
    bolt.width_m = (double)NAN;
    assert_string_equal(refusal(&task, words), "bolt");
    bolt.width_m = 2;
    task.gap_m = -0.001;
    assert_string_equal(refusal(&task, words), "gap");
    task.gap_m = 0;
    task.bolts = 0;
    assert_string_equal(refusal(&task, words), "bolt");
}

/* ---- random designs ------------------------------------------------------------------------ */

struct laid_design {
    struct design design;
    struct envelope *envelope;
    struct layout_outline *outline;
    struct layout_bolt bolt;
    struct layout_task task;
};

/* Every piece of a random design on a cloth that just takes the widest, or a wider one. */
static void random_task(struct dice *dice, struct laid_design *laid) {
    laid->envelope = random_envelope(dice, &laid->design);
    bool up = dice_whole(dice, 0, 1) == 1, one_way = dice_whole(dice, 0, 3) == 0;
    unsigned turns =
        up ? (one_way ? ONLY_TURN_90 : TURNS_90_270) : (one_way ? ONLY_TURN_0 : TURNS_0_180);
    size_t templates = laid->envelope->templates;
    laid->outline = calloc(templates, sizeof *laid->outline);
    double widest = 0;
    for (size_t i = 0; i < templates; i++) {
        const struct piece *piece = &laid->envelope->piece[i];
        laid->outline[i] = (struct layout_outline){piece->name, piece->cut.point, piece->cut.count,
                                                   piece->count, turns};
        widest = fmax(widest, up ? piece->cut_most.x_m - piece->cut_least.x_m
                                 : piece->cut_most.y_m - piece->cut_least.y_m);
    }
    laid->bolt = (struct layout_bolt){widest * dice_between(dice, 1, 4), HUGE_VAL};
    laid->task = (struct layout_task){.outline = laid->outline,
                                      .outlines = templates,
                                      .bolt = &laid->bolt,
                                      .bolts = 1,
                                      .gap_m = dice_between(dice, 0, 0.01),
                                      .effort = EFFORT_LEAST};
}

static void free_task(struct laid_design *laid) {
    free(laid->outline);
    envelope_free(laid->envelope);
}

/* The same with at most so many pieces. */
static void random_task_up_to(struct dice *dice, size_t most, struct laid_design *laid) {
    random_task(dice, laid);
    while (laid->envelope->built.pieces > most) {
        free_task(laid);
        random_task(dice, laid);
    }
}

static void pieces_of_200_random_designs_lie_on_the_cloth_a_gap_apart(void **state) {
    (void)state;
    struct dice dice = {31};
    for (int run = 0; run < 200; run++) {
        struct laid_design laid;
        struct cloth_layout layout;
        random_task_up_to(&dice, run % 40 == 0 ? 1500 : 150, &laid);
        lay_out(&laid.task, &layout);
        assert_int_equal(layout.places, laid.envelope->built.pieces);
        assert_close(layout.area_m2, laid.envelope->built.cut_area_m2, 0, 1e-9);
        assert_true(layout.used_m[0] >= layout.lower_bound_m * (1 - 1e-9));
        assert_true(layout.lower_bound_m >= layout.area_bound_m);
        layout_free(&layout);
        free_task(&laid);
    }
}

/* Star-shaped, with corners at even angles and radii drawn at random: as hollow as may be. */
static void random_outline(struct dice *dice, struct flat_point *point,
                           struct layout_outline *outline) {
    static const unsigned turns[] = {ONLY_TURN_0, TURNS_0_180, TURNS_90_270, TURNS_ANY};
    size_t points = (size_t)dice_whole(dice, 3, 40);
    double size = dice_between(dice, 0.05, 0.5);
    for (size_t i = 0; i < points; i++) {
        double angle = 2 * PI * (double)i / (double)points, r = size * dice_between(dice, 0.2, 1);
        point[i] = (struct flat_point){r * cos(angle), r * sin(angle)};
    }
    *outline = (struct layout_outline){"R", point, points, (size_t)dice_whole(dice, 0, 6),
                                       turns[dice_whole(dice, 0, 3)]};
}

static void hollow_outlines_lie_apart_on_offcuts_and_roll(void **state) {
    (void)state;
    struct dice dice = {34};
    for (int run = 0; run < 60; run++) {
        struct flat_point point[8][40];
        struct layout_outline outline[8];
        size_t outlines = (size_t)dice_whole(&dice, 1, 8);
        for (size_t i = 0; i < outlines; i++)
            random_outline(&dice, point[i], &outline[i]);
        const struct layout_bolt bolt[] = {
            {dice_between(&dice, 0.2, 1), dice_between(&dice, 0.2, 2)},
            {dice_between(&dice, 0.2, 1), dice_between(&dice, 0.2, 2)},
            {1 + dice_between(&dice, 0, 1), HUGE_VAL}};
        struct layout_task task = {.outline = outline,
                                   .outlines = outlines,
                                   .bolt = bolt,
                                   .bolts = 3,
                                   .gap_m = dice_whole(&dice, 0, 1) * dice_between(&dice, 0, 0.02),
                                   .effort = EFFORT_LEAST + run % 2};
        struct cloth_layout layout;
        lay_out(&task, &layout);
        assert_true(layout.used_m[2] >= layout.lower_bound_m * (1 - 1e-9));
        layout_free(&layout);
    }
}

static bool same_layout(const struct cloth_layout *a, const struct cloth_layout *b) {
    for (size_t i = 0; i < a->places; i++)
        if (a->place[i].x_m != b->place[i].x_m || a->place[i].y_m != b->place[i].y_m ||
            a->place[i].turn != b->place[i].turn || a->place[i].outline != b->place[i].outline)
            return false;
    return a->places == b->places;
}

static void same_task_gives_the_same_layout(void **state) {
    (void)state;
    struct dice dice = {32};
    for (int run = 0; run < 3; run++) {
        struct laid_design laid;
        struct cloth_layout once, again;
        random_task_up_to(&dice, 400, &laid);
        laid.task.effort = 2;
        lay_out(&laid.task, &once);
        lay_out(&laid.task, &again);
        assert_true(same_layout(&once, &again));
        layout_free(&once);
        layout_free(&again);
        free_task(&laid);
    }
}

static void more_effort_never_takes_more_cloth(void **state) {
    (void)state;
    struct dice dice = {33};
    for (int run = 0; run < 3; run++) {
        struct laid_design laid;
        double shortest = HUGE_VAL;
        random_task_up_to(&dice, 100, &laid);
        for (laid.task.effort = EFFORT_LEAST; laid.task.effort <= EFFORT_USUAL;
             laid.task.effort++) {
            struct cloth_layout layout;
            lay_out(&laid.task, &layout);
            assert_true(layout.used_m[0] <= shortest);
            shortest = layout.used_m[0];
            layout_free(&layout);
        }
        free_task(&laid);
    }
}

/* ---- progress ---------------------------------------------------------------------------------
 */

struct watch {
    size_t calls, stop_after;
    double done, length_m;
};

static bool watch(void *context, const struct layout_progress *progress) {
    struct watch *seen = context;
    assert_true(progress->done >= seen->done && progress->done <= 1);
    assert_true(progress->length_m <= seen->length_m);
    seen->done = progress->done;
    seen->length_m = progress->length_m;
    return ++seen->calls < seen->stop_after;
}

static void search_can_be_watched_and_stopped(void **state) {
    (void)state;
    struct layout_outline outline = {"T", trapezoid, 4, 30, TURNS_0_180};
    struct layout_bolt bolt = {0.8, HUGE_VAL};
    struct watch seen = {.stop_after = 3, .length_m = HUGE_VAL};
    struct layout_task task = {.outline = &outline,
                               .outlines = 1,
                               .bolt = &bolt,
                               .bolts = 1,
                               .effort = EFFORT_MOST,
                               .carry_on = watch,
                               .context = &seen};
    struct cloth_layout layout;
    lay_out(&task, &layout);
    assert_int_equal(seen.calls, 3);
    assert_close(seen.length_m, layout.used_m[0], 1e-9, 0);
    layout_free(&layout);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(squares_fill_the_cloth_without_waste),
        cmocka_unit_test(trapezoids_lie_head_to_tail),
        cmocka_unit_test(gap_stands_between_pieces_but_not_at_the_edges),
        cmocka_unit_test(clockwise_outline_is_laid_out_all_the_same),
        cmocka_unit_test(grain_along_the_roll_lays_pieces_on_their_side),
        cmocka_unit_test(nothing_to_lay_out_takes_no_cloth),
        cmocka_unit_test(offcuts_are_filled_before_the_roll_is_cut),
        cmocka_unit_test(piece_too_wide_for_the_first_roll_goes_on_the_next),
        cmocka_unit_test(cloth_of_limited_length_is_used_to_its_end),
        cmocka_unit_test(piece_wider_than_every_cloth_is_named),
        cmocka_unit_test(piece_longer_than_every_offcut_is_named),
        cmocka_unit_test(too_little_cloth_is_said_with_a_piece_that_finds_no_room),
        cmocka_unit_test(what_is_no_outline_and_no_cloth_is_refused),
        cmocka_unit_test(pieces_of_200_random_designs_lie_on_the_cloth_a_gap_apart),
        cmocka_unit_test(hollow_outlines_lie_apart_on_offcuts_and_roll),
        cmocka_unit_test(same_task_gives_the_same_layout),
        cmocka_unit_test(more_effort_never_takes_more_cloth),
        cmocka_unit_test(search_can_be_watched_and_stopped),
    };
    return cmocka_run_group_tests_name("layout", tests, NULL, NULL);
}
