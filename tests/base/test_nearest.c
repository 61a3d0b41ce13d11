/* test_nearest.c - guesses at mistyped words. */
#include "support.h"

#include <string.h>

static void distance_counts_letters_added_dropped_changed_and_swapped(void **state) {
    (void)state;
    assert_int_equal(edit_distance("", ""), 0);
    assert_int_equal(edit_distance("", "gore"), 4);
    assert_int_equal(edit_distance("gore", ""), 4);
    assert_int_equal(edit_distance("gore", "gore"), 0);
    assert_int_equal(edit_distance("gore", "gores"), 1);
    assert_int_equal(edit_distance("gores", "gore"), 1);
    assert_int_equal(edit_distance("gore", "bore"), 1);
    assert_int_equal(edit_distance("heigth", "height"), 1);
    assert_int_equal(edit_distance("kitten", "sitting"), 3);
    assert_int_equal(edit_distance("felled", "plain"), edit_distance("plain", "felled"));
}

static void words_longer_than_the_table_do_no_harm(void **state) {
    (void)state;
    char one[300], other[300];
    memset(one, 'a', sizeof one - 1);
    one[sizeof one - 1] = '\0';
    memset(other, 'b', sizeof other - 1);
    other[sizeof other - 1] = '\0';
    assert_int_equal(edit_distance(one, one), 0);
    assert_int_equal(edit_distance(one, other), 63);
}

static void the_nearest_word_is_found_or_none(void **state) {
    (void)state;
    static const char *const words[] = {"plain", "lapped", "felled", NULL};
    assert_string_equal(nearest_word("feled", words), "felled");
    assert_string_equal(nearest_word("Plain", words), "plain");
    assert_string_equal(nearest_word("plain", words), "plain");
    assert_null(nearest_word("zigzag", words));
    assert_null(nearest_word("", words));
}

static void a_guess_may_lie_further_off_in_a_longer_word(void **state) {
    (void)state;
    assert_int_equal(guessing_reach("by"), 1);
    assert_int_equal(guessing_reach("mass"), 1);
    assert_int_equal(guessing_reach("height"), 2);
    assert_int_equal(guessing_reach("gore_length"), 4);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(distance_counts_letters_added_dropped_changed_and_swapped),
        cmocka_unit_test(words_longer_than_the_table_do_no_harm),
        cmocka_unit_test(the_nearest_word_is_found_or_none),
        cmocka_unit_test(a_guess_may_lie_further_off_in_a_longer_word),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
