/* test_bench_misfits.c - at the bench with a design that changed after cutting began: the list of
 * what no longer fits, and undo. */
#include "screen/walking.h"

/* Two templates cut in every gore, and every row seam wider since. */
static struct walk *begin_with_misfits(void) {
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    press(walk, 'b');
    for (int piece = 0; piece < 2; piece++) {
        for (int gore = 0; gore < 16; gore++) {
            press(walk, 'c');
            press(walk, PRESS_PAGE_DOWN);
        }
        press(walk, PRESS_DOWN);
    }
    press(walk, PRESS_ESCAPE);
    set_value(walk, "seams.row_width", "12 mm");
    press(walk, 'b');
    assert_int_equal(walk->bench.misfits.pieces, 32);
    assert_true(walk->bench.misfits.count > 32);
    return walk;
}

static void in_the_list_of_misfits_nothing_is_ticked(void **state) {
    (void)state;
    struct walk *walk = begin_with_misfits();
    struct record_choice all = {0};
    const struct design *design = &walk->session->sized;
    struct record_count before = record_count(walk->record, design, walk->session->envelope, all);
    press(walk, 'f');
    for (const char *key = "mcs"; *key != '\0'; key++) {
        press(walk, *key);
        assert_int_equal(walk->bench.view, BENCH_MISFITS);
        struct record_count now = record_count(walk->record, design, walk->session->envelope, all);
        assert_memory_equal(&now, &before, sizeof now);
    }
    press(walk, 'f');
    press(walk, 's');
    assert_shown(walk, "marked, cut and sewn");
    walk_free(walk);
}

/* However often Down was pressed at the end, the first Up is seen. */
static void the_list_of_misfits_is_not_scrolled_past_its_end(void **state) {
    static const size_t sizes[][2] = {{80, 24}, {100, 30}, {132, 43}};
    (void)state;
    struct walk *walk = begin_with_misfits();
    press(walk, 'f');
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        size_t columns = sizes[i][0], rows = sizes[i][1];
        for (size_t down = 0; down < walk->bench.misfits.count + 50; down++)
            press(walk, PRESS_DOWN);
        size_t last = walk->bench.misfits.count - 1;
        struct text end = picture(walk, columns, rows);
        assert_non_null(strstr(end.bytes, ", 0 more below"));
        assert_int_equal(walk->bench.at_misfit, last);
        press(walk, PRESS_UP);
        struct text above = picture(walk, columns, rows);
        assert_int_equal(walk->bench.at_misfit, last - 1);
        assert_string_not_equal(end.bytes, above.bytes);
        text_free(&end);
        text_free(&above);
    }
    walk_free(walk);
}

static void a_list_of_misfits_that_is_not_whole_says_so(void **state) {
    (void)state;
    struct walk *walk = begin_with_misfits();
    press(walk, 'f');
    assert_shown(walk, "32 cut pieces no longer fit this design.");
    walk->bench.misfits.failed = true; /* as when memory was short */
    assert_shown(walk, "At least 32 cut pieces no longer fit this design.");
    walk->bench.misfits.count = walk->bench.misfits.pieces = 0;
    assert_shown(walk, "Not every cut piece could be compared.");
    assert_not_shown(walk, "Every cut piece fits");
    walk_free(walk);
}

static void undo_of_a_cut_made_anew_tells_the_misfit_again(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    press(walk, 'b');
    press(walk, 'c');
    press(walk, PRESS_ESCAPE);
    set_value(walk, "size.volume", "14");
    press(walk, 'b');
    assert_int_equal(walk->bench.misfits.pieces, 1);
    press(walk, 'c');
    press(walk, 'c'); /* cut anew */
    assert_int_equal(walk->bench.misfits.pieces, 0);
    press(walk, 'u');
    assert_int_equal(walk->bench.misfits.pieces, 0);
    press(walk, 'u');
    assert_int_equal(walk->bench.misfits.pieces, 1);
    walk_free(walk);
    walk = begin("avocet.cfg");
    set_value(walk, "size.volume", "14");
    press(walk, 'b');
    assert_int_equal(walk->bench.misfits.pieces, 1);
    walk_free(walk);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_FOLDER(in_the_list_of_misfits_nothing_is_ticked),
        IN_FOLDER(the_list_of_misfits_is_not_scrolled_past_its_end),
        IN_FOLDER(a_list_of_misfits_that_is_not_whole_says_so),
        IN_FOLDER(undo_of_a_cut_made_anew_tells_the_misfit_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
