/* README.md shows what the program prints, to the byte, and its commands work. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char *readme(void) {
    struct outcome read = run("cat README.md");
    char *text = strdup(read.out);
    assert_int_equal(read.status, 0);
    assert_non_null(text);
    outcome_free(&read);
    return text;
}

/* The sheet of the piece stands in the page, with its blanks and all. */
static void the_sheet_shown_is_the_sheet_printed(void **state) {
    (void)state;
    char *page = readme();
    struct outcome sheet = run("$GW sheets samples/lapwing.cfg --piece F03");
    assert_int_equal(sheet.status, 0);
    assert_non_null(strstr(sheet.out, "F03   CUT 12"));
    assert_non_null(strstr(page, sheet.out));
    outcome_free(&sheet);
    free(page);
}

/* The side view, from its line with the crown to its line with the mouth. */
static void the_envelope_shown_is_the_envelope_drawn(void **state) {
    (void)state;
    char *page = readme();
    struct outcome sheets = run("$GW sheets samples/lapwing.cfg");
    char *from = strstr(sheets.out, "The whole envelope\n");
    assert_non_null(from);
    from = strstr(from, "\n\n");
    assert_non_null(from);
    char *end = strstr(from + 2, "\nSeen from the side");
    assert_non_null(end);
    *end = '\0';
    assert_non_null(strstr(page, from + 2));
    outcome_free(&sheets);
    free(page);
}

/* From the line that names the styles to the hours. */
static void the_comparison_shown_is_the_one_printed(void **state) {
    (void)state;
    char *page = readme();
    struct outcome compare = run("$GW compare samples/bittern.cfg");
    char *from = strstr(compare.out, "\n\n");
    assert_non_null(from);
    char *end = strstr(from + 2, "\n\n");
    assert_non_null(end);
    end[1] = '\0';
    assert_non_null(strstr(from, "\nhours to build "));
    assert_non_null(strstr(page, from + 2));
    outcome_free(&compare);
    free(page);
}

/* The first step of the screens, as tests/screen/test_walk_pictures.c holds it: the picture comes before
 * its kinds of cells. */
static void the_screen_shown_is_the_screen_drawn(void **state) {
    (void)state;
    char *page = readme();
    struct outcome screen = run("head -24 tests/golden/screens/size-80x24.txt");
    assert_int_equal(screen.status, 0);
    assert_non_null(strstr(screen.out, "[Size]"));
    assert_non_null(strstr(screen.out, " q quit\n"));
    assert_non_null(strstr(page, screen.out));
    outcome_free(&screen);
    free(page);
}

static void every_sample_it_names_is_there_and_works(void **state) {
    (void)state;
    char *page = readme();
    size_t named = 0;
    for (char *at = page; (at = strstr(at, "| `samples/")) != NULL; named++) {
        char path[64] = "";
        assert_int_equal(sscanf(at, "| `%63[^`]`", path), 1);
        struct outcome check = run("$GW check %s", path);
        assert_int_equal(check.status, 0);
        assert_string_equal(check.err, "");
        outcome_free(&check);
        at++;
    }
    struct outcome count = run("ls samples/*.cfg | wc -l");
    assert_int_equal(named, atoi(count.out));
    outcome_free(&count);
    free(page);
}

static void the_short_design_it_shows_is_a_whole_one(void **state) {
    (void)state;
    char *page = readme(), *begin = strstr(page, "```\nformat = 1;");
    assert_non_null(begin);
    begin += 4;
    *strstr(begin, "```") = '\0';
    const char *path = scratch_file("heron.cfg", begin);
    struct outcome check = run("$GW check %s", path);
    assert_int_equal(check.status, 0);
    assert_string_equal(check.err, "");
    assert_non_null(strstr(check.out, "Heron"));
    outcome_free(&check);
    free(page);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_sheet_shown_is_the_sheet_printed),
        cmocka_unit_test(the_envelope_shown_is_the_envelope_drawn),
        cmocka_unit_test(the_comparison_shown_is_the_one_printed),
        cmocka_unit_test(the_screen_shown_is_the_screen_drawn),
        cmocka_unit_test(every_sample_it_names_is_there_and_works),
        cmocka_unit_test(the_short_design_it_shows_is_a_whole_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
