/* test_diagnostics.c - messages: collected, counted, written one line each. */
#include "support.h"

#include <string.h>

static void messages_are_counted_by_severity_in_the_order_found(void **state) {
    (void)state;
    struct diagnostics list = {0};
    diagnose(&list, SEVERITY_WARNING, "not-used", "rows.shares", "not used");
    diagnose_at(&list, SEVERITY_ERROR, "range", "evening.cfg", 7, "gores.count", "%d is wrong", 65);
    assert_int_equal(list.count, 2);
    assert_int_equal(list.errors, 1);
    assert_int_equal(list.warnings, 1);
    assert_string_equal(list.item[0].code, "not-used");
    assert_null(list.item[0].file);
    assert_string_equal(list.item[1].text, "65 is wrong");
    assert_int_equal(list.item[1].line, 7);
    diagnostics_free(&list);
    assert_int_equal(list.count, 0);
}

static void what_is_not_known_is_left_out_of_a_written_line(void **state) {
    (void)state;
    struct diagnostics list = {0};
    struct text text = {0};
    diagnose_at(&list, SEVERITY_ERROR, "range", "evening.cfg", 7, "gores.count", "too many");
    diagnose_at(&list, SEVERITY_ERROR, "file", "evening.cfg", 0, "", "is empty");
    diagnose(&list, SEVERITY_WARNING, "not-used", "rows.shares", "not used");
    diagnose(&list, SEVERITY_ERROR, "any", "", "something");
    diagnostics_write(&list, &text);
    assert_string_equal(text.bytes, "evening.cfg:7: error: gores.count: too many\n"
                                    "evening.cfg: error: is empty\n"
                                    "design: warning: rows.shares: not used\n"
                                    "design: error: something\n");
    text_free(&text);
    diagnostics_free(&list);
}

static void a_long_key_is_clipped_and_a_long_text_is_not(void **state) {
    (void)state;
    struct diagnostics list = {0};
    char key[100], words[5001];
    memset(key, 'k', sizeof key - 1);
    key[sizeof key - 1] = '\0';
    memset(words, 'w', sizeof words - 1);
    words[sizeof words - 1] = '\0';
    diagnose(&list, SEVERITY_ERROR, "any", key, "%s", words);
    assert_int_equal(strlen(list.item[0].key), sizeof list.item[0].key - 1);
    assert_string_equal(list.item[0].text, words);
    diagnostics_free(&list);
}

static void many_messages_are_all_kept(void **state) {
    (void)state;
    struct diagnostics list = {0};
    for (int i = 0; i < 1000; i++)
        diagnose(&list, SEVERITY_ERROR, "any", "", "%d", i);
    assert_int_equal(list.count, 1000);
    assert_string_equal(list.item[999].text, "999");
    assert_string_equal(list.item[0].text, "0");
    diagnostics_free(&list);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(messages_are_counted_by_severity_in_the_order_found),
        cmocka_unit_test(what_is_not_known_is_left_out_of_a_written_line),
        cmocka_unit_test(a_long_key_is_clipped_and_a_long_text_is_not),
        cmocka_unit_test(many_messages_are_all_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
