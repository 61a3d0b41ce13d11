/* Which outlines share the width of the cloth. */
#include "support.h"

#include "shop/lanes.h"

static void order_takes_every_piece_once(void **state) {
    (void)state;
    struct dice dice = {21};
    for (int run = 0; run < 200; run++) {
        struct lane_stock stock[20];
        size_t kinds = (size_t)dice_whole(&dice, 1, 20), want[20], got[20] = {0}, total = 0;
        for (size_t k = 0; k < kinds; k++) {
            want[k] = (size_t)dice_whole(&dice, 0, 12);
            total += want[k];
            stock[k] = (struct lane_stock){dice_between(&dice, 0.1, 1.3),
                                           dice_between(&dice, 0.1, 1), want[k]};
        }
        size_t order[240];
        struct random random = {(uint64_t)run};
        lanes_order(stock, kinds, 1, 0.05, &random, order);
        for (size_t i = 0; i < total; i++)
            got[order[i]]++;
        for (size_t k = 0; k < kinds; k++)
            assert_int_equal(got[k], want[k]);
    }
}

static void widths_that_fill_the_cloth_go_together(void **state) {
    (void)state;
    struct lane_stock stock[] = {{0.5, 1, 2}, {0.7, 1, 2}, {0.3, 1, 2}, {0.45, 1, 2}};
    struct random random = {1};
    size_t order[8];
    lanes_order(stock, COUNT_OF(stock), 1, 0, &random, order);
    /* 0.7 and 0.3, or 0.5 twice, fill the cloth; 0.45 is in neither */
    for (size_t i = 0; i < 6; i++)
        assert_int_not_equal(order[i], 3);
}

static void piece_too_wide_is_still_in_the_order(void **state) {
    (void)state;
    struct lane_stock stock[] = {{2, 1, 3}};
    struct random random = {1};
    size_t order[3] = {9, 9, 9};
    lanes_order(stock, 1, 1, 0, &random, order);
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(order[i], 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(order_takes_every_piece_once),
        cmocka_unit_test(widths_that_fill_the_cloth_go_together),
        cmocka_unit_test(piece_too_wide_is_still_in_the_order),
    };
    return cmocka_run_group_tests_name("lanes", tests, NULL, NULL);
}
