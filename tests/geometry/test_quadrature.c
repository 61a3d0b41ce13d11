/* test_quadrature.c - Gauss-Legendre nodes and weights. */
#include "support.h"

#include <math.h>

#include "geometry/quadrature.h"

static double power_sum(int power) {
    double sum = 0;
    for (int i = 0; i < GAUSS_POINTS; i++)
        sum += gauss_weight[i] * pow(gauss_node[i], power);
    return sum;
}

static void polynomials_up_to_degree_23_are_exact(void **state) {
    (void)state;
    for (int power = 0; power < 2 * GAUSS_POINTS; power++)
        assert_close(power_sum(power), 1.0 / (power + 1), 1e-15, 0);
}

/* The first degree that the rule misses is missed by the known amount,
 * (n!)^4 / ((2n + 1) ((2n)!)^2) on 0 .. 1: no node too many or too few. */
static void degree_24_is_missed_by_the_known_amount(void **state) {
    (void)state;
    double n = GAUSS_POINTS;
    double miss = exp(4 * lgamma(n + 1) - 2 * lgamma(2 * n + 1)) / (2 * n + 1);
    assert_close(1.0 / (2 * n + 1) - power_sum(2 * GAUSS_POINTS), miss, 5e-17, 0);
    assert_true(miss > 1e-16);
}

static void nodes_rise_and_mirror_about_the_middle(void **state) {
    (void)state;
    for (int i = 0; i < GAUSS_POINTS; i++) {
        int mirror = GAUSS_POINTS - 1 - i;
        assert_true(gauss_weight[i] > 0);
        assert_true(gauss_node[i] > (i > 0 ? gauss_node[i - 1] : 0) && gauss_node[i] < 1);
        assert_close(gauss_node[i] + gauss_node[mirror], 1, 2e-16, 0);
        assert_close(gauss_weight[i], gauss_weight[mirror], 2e-17, 0);
    }
}

static void smooth_functions_come_out_to_rounding(void **state) {
    (void)state;
    double sine = 0, root = 0;
    for (int i = 0; i < GAUSS_POINTS; i++) {
        sine += gauss_weight[i] * PI / 2 * sin(PI / 2 * gauss_node[i]);
        root += gauss_weight[i] * sqrt(1 + gauss_node[i]);
    }
    assert_close(sine, 1, 1e-15, 0);
    assert_close(root, (pow(2, 1.5) - 1) * 2 / 3, 1e-14, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(polynomials_up_to_degree_23_are_exact),
        cmocka_unit_test(degree_24_is_missed_by_the_known_amount),
        cmocka_unit_test(nodes_rise_and_mirror_about_the_middle),
        cmocka_unit_test(smooth_functions_come_out_to_rounding),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
