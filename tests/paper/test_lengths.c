/* Lengths as the builder reads them. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"
#include "paper/lengths.h"
#include "support.h"

static const double INCH_m = 0.0254;

static struct design in_mm(double rounding_m) {
    struct design design = {0};
    design.paper.units = UNITS_MM;
    design.paper.rounding_m = rounding_m;
    return design;
}

static struct design in_inches(int fraction) {
    struct design design = {0};
    design.paper.units = UNITS_INCH;
    design.paper.inch_fraction = fraction;
    return design;
}

static void expect(struct design design, double length_m, const char *want) {
    char got[32];
    assert_string_equal(format_length(&design, length_m, got), want);
}

static void millimetres_have_the_decimals_their_rounding_needs(void **state) {
    (void)state;
    expect(in_mm(0.0005), 0.6125, "612.5");
    expect(in_mm(0.0005), 0.6, "600.0");
    expect(in_mm(0.001), 0.61249, "612");
    expect(in_mm(0.0001), 0.61249, "612.5");
    expect(in_mm(0.00025), 0.61249, "612.50");
    expect(in_mm(0.0002), 1.0003, "1000.4");
}

static void millimetres_round_to_the_nearest_step(void **state) {
    (void)state;
    expect(in_mm(0.0005), 0.61224, "612.0");
    expect(in_mm(0.0005), 0.61226, "612.5");
    expect(in_mm(0.0005), -0.00026, "-0.5");
}

static void a_length_midway_ignores_noise_in_its_last_digits(void **state) {
    (void)state;
    expect(in_mm(0.0005), 0.13825 + 1e-13, "138.5");
    expect(in_mm(0.0005), 0.13825 - 1e-13, "138.5");
    expect(in_mm(0.0005), -0.13825 + 1e-13, "-138.5");
}

static void nothing_is_never_minus_nothing(void **state) {
    (void)state;
    expect(in_mm(0.0005), -0.0002, "0.0");
    expect(in_mm(0.0005), -0.0, "0.0");
    expect(in_inches(INCH_16), -0.0001, "0");
}

static void inches_are_whole_numbers_and_reduced_fractions(void **state) {
    (void)state;
    expect(in_inches(INCH_32), (24 + 3 / 32.0) * INCH_m, "24 3/32");
    expect(in_inches(INCH_32), 0.625 * INCH_m, "5/8");
    expect(in_inches(INCH_64), 0.5 * INCH_m, "1/2");
    expect(in_inches(INCH_64), (1 + 1 / 64.0) * INCH_m, "1 1/64");
    expect(in_inches(INCH_16), 3 * INCH_m, "3");
}

static void a_fraction_that_rounds_up_carries_into_the_whole_inch(void **state) {
    (void)state;
    expect(in_inches(INCH_16), 15.99 * INCH_m, "16");
    expect(in_inches(INCH_64), 15.999 * INCH_m, "16");
    expect(in_inches(INCH_32), 0.999 * INCH_m, "1");
    expect(in_inches(INCH_32), -15.999 * INCH_m, "-16");
}

static void negative_inches_carry_one_sign(void **state) {
    (void)state;
    expect(in_inches(INCH_32), -(24 + 3 / 32.0) * INCH_m, "-24 3/32");
    expect(in_inches(INCH_32), -0.625 * INCH_m, "-5/8");
}

static void what_is_no_length_is_a_question_mark(void **state) {
    (void)state;
    expect(in_mm(0.0005), (double)NAN, "?");
    expect(in_inches(INCH_16), (double)INFINITY, "?");
}

static void the_unit_is_named(void **state) {
    (void)state;
    struct design mm = in_mm(0.001), inch = in_inches(INCH_16);
    assert_string_equal(length_unit(&mm), "mm");
    assert_string_equal(length_unit(&inch), "in");
}

/* Reads "-12 3/32", "5/8" or "16" back; fails on anything else. */
static double inches_read(const char *string) {
    int sign = *string == '-' ? -1 : 1, used = 0;
    long whole = 0, over = 0, under = 1;
    string += sign < 0;
    if (sscanf(string, "%ld %ld/%ld%n", &whole, &over, &under, &used) != 3) {
        over = 0, under = 1;
        if (sscanf(string, "%ld/%ld%n", &over, &under, &used) == 2)
            whole = 0;
        else
            over = 0, under = 1, sscanf(string, "%ld%n", &whole, &used);
    }
    assert_int_equal(strlen(string), used);
    assert_true(over < under && (over == 0 || over % 2 == 1));
    return sign * ((double)whole + (double)over / (double)under);
}

static void any_length_in_inches_reads_back_within_half_a_fraction(void **state) {
    (void)state;
    struct dice dice = {7};
    for (int i = 0; i < 20000; i++) {
        int fraction = dice_whole(&dice, INCH_16, INCH_64);
        struct design design = in_inches(fraction);
        double length_m = dice_between(&dice, -60, 60);
        char string[32];
        double back_m = inches_read(format_length(&design, length_m, string)) * INCH_m;
        assert_close(back_m, length_m, 0.5001 * length_step_m(&design), 0);
        assert_close(back_m, printed_length_m(&design, length_m), 1e-12, 0);
    }
}

static void any_length_in_mm_reads_back_within_half_a_step(void **state) {
    (void)state;
    static const double step_mm[] = {0.1, 0.2, 0.25, 0.3, 0.5, 0.75, 1};
    struct dice dice = {8};
    for (int i = 0; i < 20000; i++) {
        double rounding_m = step_mm[dice_whole(&dice, 0, COUNT_OF(step_mm) - 1)] * 1e-3;
        struct design design = in_mm(rounding_m);
        double length_m = dice_between(&dice, -60, 60);
        char string[32], *end;
        double back_m = strtod(format_length(&design, length_m, string), &end) * 1e-3;
        assert_int_equal(*end, '\0');
        assert_close(back_m, length_m, 0.5001 * rounding_m, 0);
        assert_close(back_m, printed_length_m(&design, length_m), 1e-12, 0);
    }
}

static void printed_parts_add_up_to_the_printed_whole(void **state) {
    (void)state;
    struct design design = in_mm(0.0005);
    const double edge_m = 0.55338;
    double sum_mm = 0;
    for (int i = 0; i < 4; i++) {
        char part[32];
        double from = printed_length_m(&design, edge_m * i / 4);
        double to = printed_length_m(&design, edge_m * (i + 1) / 4);
        sum_mm += strtod(format_length(&design, to - from, part), NULL);
    }
    char whole[32];
    assert_close(sum_mm, strtod(format_length(&design, edge_m, whole), NULL), 1e-9, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(millimetres_have_the_decimals_their_rounding_needs),
        cmocka_unit_test(millimetres_round_to_the_nearest_step),
        cmocka_unit_test(a_length_midway_ignores_noise_in_its_last_digits),
        cmocka_unit_test(nothing_is_never_minus_nothing),
        cmocka_unit_test(inches_are_whole_numbers_and_reduced_fractions),
        cmocka_unit_test(a_fraction_that_rounds_up_carries_into_the_whole_inch),
        cmocka_unit_test(negative_inches_carry_one_sign),
        cmocka_unit_test(what_is_no_length_is_a_question_mark),
        cmocka_unit_test(the_unit_is_named),
        cmocka_unit_test(any_length_in_inches_reads_back_within_half_a_fraction),
        cmocka_unit_test(any_length_in_mm_reads_back_within_half_a_step),
        cmocka_unit_test(printed_parts_add_up_to_the_printed_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
