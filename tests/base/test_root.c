/* test_root.c - the one root finder. */
#include "support.h"

#include <math.h>

#include "gorewright/base.h"

/* A function under test, with what it was asked. */
struct asked {
    double zero;
    int kind;
    size_t calls;
    double least_seen, most_seen;
};

enum { LINE, BENT, STEEP, LATE, STEP_UP, KINDS };

static double answer(double x, void *context) {
    struct asked *asked = context;
    double beyond = x - asked->zero;
    asked->calls++;
    asked->least_seen = fmin(asked->least_seen, x);
    asked->most_seen = fmax(asked->most_seen, x);
    switch (asked->kind) {
    case BENT:
        return atan(5 * beyond) + 0.1 * beyond;
    case STEEP:
        return expm1(60 * beyond);
    case LATE: /* no value yet below a place short of the zero */
        return x < asked->zero - 0.05 ? -HUGE_VAL : beyond * (1 + beyond * beyond);
    case STEP_UP: /* jumps past zero */
        return beyond < 0 ? -1 : 1;
    default:
        return 3 * beyond;
    }
}

static struct asked ask(int kind, double zero) {
    return (struct asked){zero, kind, 0, HUGE_VAL, -HUGE_VAL};
}

static void the_zero_is_found_within_the_tolerance(void **state) {
    (void)state;
    struct dice dice = {1};
    for (int n = 0; n < 500; n++) {
        double zero = dice_between(&dice, 0.01, 9.99), guess = dice_between(&dice, -1, 11), root;
        struct asked asked = ask(dice_whole(&dice, LINE, LATE), zero);
        assert_true(rising_root(answer, &asked, 0, 10, guess, 0.1, 1e-11, &root));
        assert_close(root, zero, 2e-11, 0);
        assert_true(asked.calls < 80);
    }
}

/* Worst for a secant: e-folds by the hundred between one end and the other. */
static void a_function_steep_on_one_side_is_not_crept_along(void **state) {
    (void)state;
    struct dice dice = {4};
    for (int n = 0; n < 500; n++) {
        double zero = dice_between(&dice, 0.1, 9.9), guess = dice_between(&dice, 0, 10), root;
        struct asked asked = ask(STEEP, zero);
        assert_true(rising_root(answer, &asked, 0, 10, guess, 0.1, 1e-11, &root));
        assert_close(root, zero, 2e-11, 0);
        assert_true(asked.calls < 70);
    }
}

static void it_never_asks_outside_the_open_interval(void **state) {
    (void)state;
    struct dice dice = {2};
    for (int n = 0; n < 500; n++) {
        double root, zero = dice_between(&dice, -2, 4), guess = dice_between(&dice, -5, 5);
        struct asked asked = ask(dice_whole(&dice, LINE, STEP_UP), zero);
        rising_root(answer, &asked, 1, 2, guess, 3, 1e-10, &root);
        assert_true(asked.least_seen > 1 && asked.most_seen < 2);
        assert_true(root >= 1 && root <= 2);
    }
}

static void a_zero_beyond_an_end_is_refused_at_that_end(void **state) {
    (void)state;
    for (int kind = LINE; kind < KINDS; kind++) {
        double root;
        struct asked above = ask(kind, 5), below = ask(kind, -5);
        if (kind == LATE) /* has no value anywhere in the interval */
            above.zero = 1.5;
        assert_false(rising_root(answer, &above, 0, 1, 0.3, 0.1, 1e-10, &root));
        assert_close(root, 1, 1e-8, 0);
        assert_false(rising_root(answer, &below, 0, 1, 0.3, 0.1, 1e-10, &root));
        assert_close(root, 0, 1e-8, 0);
    }
}

static void a_function_with_no_value_anywhere_is_refused(void **state) {
    (void)state;
    double root;
    struct asked asked = ask(LATE, HUGE_VAL);
    assert_false(rising_root(answer, &asked, 0, 1, 0.5, 0.1, 1e-10, &root));
    assert_close(root, 1, 1e-8, 0);
}

static void smooth_functions_take_few_calls(void **state) {
    (void)state;
    double root;
    struct asked line = ask(LINE, 0.7), bent = ask(BENT, 0.7);
    assert_true(rising_root(answer, &line, 0, 1, 0.5, 0.1, 1e-12, &root));
    assert_true(line.calls <= 4);
    assert_true(rising_root(answer, &bent, 0, 1, 0.5, 0.1, 1e-12, &root));
    assert_true(bent.calls <= 10);
}

static void an_exact_zero_at_the_guess_is_taken(void **state) {
    (void)state;
    double root;
    struct asked asked = ask(LINE, 0.25);
    assert_true(rising_root(answer, &asked, 0, 1, 0.25, 0.1, 1e-12, &root));
    assert_close(root, 0.25, 0, 0);
    assert_int_equal(asked.calls, 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_zero_is_found_within_the_tolerance),
        cmocka_unit_test(a_function_steep_on_one_side_is_not_crept_along),
        cmocka_unit_test(it_never_asks_outside_the_open_interval),
        cmocka_unit_test(a_zero_beyond_an_end_is_refused_at_that_end),
        cmocka_unit_test(a_function_with_no_value_anywhere_is_refused),
        cmocka_unit_test(smooth_functions_take_few_calls),
        cmocka_unit_test(an_exact_zero_at_the_guess_is_taken),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
