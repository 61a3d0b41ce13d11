/* test_letters.c - letters of UTF-8, and what of them reaches a terminal. */
#include "support.h"

#include <string.h>

static void every_letter_is_read_back_and_no_other_bytes_are(void **state) {
    (void)state;
    size_t letters = 0;
    for (unsigned long bytes = 0; bytes < 0x10000; bytes++) { /* every pair of bytes */
        char at[3] = {(char)(bytes >> 8), (char)bytes, '\0'};
        unsigned long code = 0;
        size_t length = letter_at(at, &code);
        unsigned first = (unsigned)(bytes >> 8), second = bytes & 0xFF;
        size_t want = first < 0x80 ? 1 : first >= 0xC2 && first <= 0xDF && second >> 6 == 2 ? 2 : 0;
        assert_int_equal(length, want);
        letters += length == 2;
        if (length == 2)
            assert_int_equal(code, (first & 0x1F) << 6 | (second & 0x3F));
    }
    assert_int_equal(letters, 0x800 - 0x80);
}

static void longer_letters_are_read_and_their_forgeries_refused(void **state) {
    (void)state;
    static const struct {
        const char *bytes;
        size_t length;
        unsigned long code;
    } cases[] = {
        {"\xE2\x82\xAC", 3, 0x20AC},
        {"\xF0\x9F\x8E\x88", 4, 0x1F388},
        {"\xF4\x8F\xBF\xBF", 4, 0x10FFFF},
        {"\xF4\x90\x80\x80", 0, 0},
        {"\xE0\x80\xAF", 0, 0},
        {"\xF0\x80\x80\xAF", 0, 0},
        {"\xED\xA0\x80", 0, 0},
        {"\xE2\x82", 0, 0},
        {"\xF8\x88\x80\x80\x80", 0, 0},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        unsigned long code = 0;
        assert_int_equal(letter_at(cases[i].bytes, &code), cases[i].length);
        if (cases[i].length > 0)
            assert_int_equal(code, cases[i].code);
    }
}

static void what_does_not_print_is_shown_as_one_sign(void **state) {
    (void)state;
    static const char *const cases[][2] = {
        {"H\xC3\xA9ron 4 m", "H\xC3\xA9ron 4 m"},
        {"a\033[2Jb\r\nc\td", "a?[2Jb??c?d"},
        {"\x7F\x01", "??"},
        {"\xC2\x9B"
         "31m",
         "?31m"}, /* the same as ESC [ where eight bits count */
        {"\x9B"
         "31m",
         "?31m"},
        {"\xE9ron", "?ron"}, /* Latin-1 */
        {"left \xE2\x80\xAE thgir", "left ? thgir"},
        {"one\xE2\x80\xA8two", "one?two"},
        {"", ""},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct text text = {0};
        text_add(&text, "%s", "");
        text_add_shown(&text, cases[i][0]);
        assert_string_equal(text.bytes, cases[i][1]);
        text_free(&text);
    }
}

static void a_message_stays_on_its_line_whatever_it_is_about(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    struct text text = {0};
    diagnose_at(&messages, SEVERITY_ERROR, "file", "a\033]0;x\a\nb.cfg", 3, "", "no\r\033[2Ksuch");
    diagnostics_write(&messages, &text);
    assert_string_equal(text.bytes, "a?]0;x??b.cfg:3: error: no??[2Ksuch\n");
    text_free(&text);
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_letter_is_read_back_and_no_other_bytes_are),
        cmocka_unit_test(longer_letters_are_read_and_their_forgeries_refused),
        cmocka_unit_test(what_does_not_print_is_shown_as_one_sign),
        cmocka_unit_test(a_message_stays_on_its_line_whatever_it_is_about),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
