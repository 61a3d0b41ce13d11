/* test_walk_bench.c - the bench as a place of the walk-through. */
#include "walking.h"

/* ---- the bench ----------------------------------------------------------------------------- */

static void the_bench_asks_for_a_name_first_and_keeps_its_ticks(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press(walk, 'b');
    assert_int_equal(walk->over, OVER_TYPING);
    press(walk, PRESS_ENTER);
    assert_true(walk->at_bench);
    assert_shown(walk, "[Bench]");
    press(walk, 'm');
    press(walk, PRESS_ESCAPE);
    assert_false(walk->at_bench);
    walk_free(walk);
    walk = begin("starter.cfg");
    press(walk, 'b');
    struct record_choice all = {0};
    assert_int_equal(
        record_count(walk->record, &walk->session->design, walk->session->envelope, all)
            .done[TICK_MARKED],
        1);
    walk_free(walk);
}

static void the_bench_follows_a_changed_design(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    press(walk, 'b');
    press(walk, 'c');
    press(walk, PRESS_ESCAPE);
    set_value(walk, "size.volume", "14");
    press(walk, 'b');
    assert_int_equal(walk->bench.misfits.pieces, 1);
    assert_ptr_equal(walk->bench.envelope, walk->session->envelope);
    walk_free(walk);
}

int main(void) {
    if (!keep_apart())
        return 1;
    const struct CMUnitTest tests[] = {
        IN_FOLDER(the_bench_asks_for_a_name_first_and_keeps_its_ticks),
        IN_FOLDER(the_bench_follows_a_changed_design),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
