/* test_keys.c - the one table of keys: no key means two things, every action has a key, and
 * the manual page says the same. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "screen/field.h"
#include "screen/keys.h"

static void a_key_means_one_thing_in_a_place(void **state) {
    (void)state;
    size_t count;
    const struct key_entry *entry = key_entries(&count);
    for (size_t i = 0; i < count * KEYS_EACH; i++)
        for (size_t j = 0; j < i; j++) {
            const struct key_entry *a = &entry[i / KEYS_EACH], *b = &entry[j / KEYS_EACH];
            int key = a->key[i % KEYS_EACH];
            if (key != 0 && a->place == b->place && b->key[j % KEYS_EACH] == key)
                fail_msg("'%s' and '%s' in %s share a key", a->shown, b->shown,
                         place_heading(a->place));
        }
}

static void every_action_has_a_key(void **state) {
    (void)state;
    bool reached[ACTION_COUNT] = {[ACTION_NONE] = true};
    size_t count;
    const struct key_entry *entry = key_entries(&count);
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(key_action(entry[i].place, entry[i].key[0]), entry[i].action);
        reached[entry[i].action] = true;
    }
    for (int i = 0; i < ACTION_COUNT; i++)
        if (!reached[i])
            fail_msg("action %d has no key", i);
}

static void a_key_without_a_meaning_does_nothing(void **state) {
    (void)state;
    for (int place = 0; place < PLACE_COUNT; place++) {
        assert_int_equal(key_action((enum place)place, 0), ACTION_NONE);
        assert_int_equal(key_action((enum place)place, PRESS_OTHER), ACTION_NONE);
        assert_int_equal(key_action((enum place)place, PRESS_RESIZE), ACTION_NONE);
    }
}

/* All can be done with single keys; clearing a line can too, by typing over it. */
static void no_key_needs_a_third_hand(void **state) {
    (void)state;
    size_t count;
    const struct key_entry *entry = key_entries(&count);
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < KEYS_EACH; j++) {
            int key = entry[i].key[j];
            if (entry[i].action == ACTION_CLEAR)
                continue;
            assert_true(key == 0 || key == PRESS_TAB || key == PRESS_ENTER || key == PRESS_ESCAPE ||
                        key >= ' ');
            assert_false(key >= 'A' && key <= 'Z');
        }
}

static void any_letter_and_any_digit_are_told_apart_from_other_keys(void **state) {
    (void)state;
    static const int letters[] = {'a', 'q', 'z', 'A', 'Z', 0xC3, 0xA9};
    static const int none[] = {'(', '\"', 0x7F, 'U' & 0x1F, PRESS_LEFT, PRESS_OTHER};
    for (size_t i = 0; i < COUNT_OF(letters); i++)
        assert_int_equal(key_action(IN_WORDS, letters[i]), ACTION_TYPE_ANEW);
    for (int digit = '0'; digit <= '9'; digit++) {
        assert_int_equal(key_action(IN_WORDS, digit), ACTION_TYPE_ANEW);
        assert_int_equal(key_action(IN_STEPS, digit), ACTION_TYPE_ANEW);
        assert_int_equal(key_action(IN_BENCH, digit), ACTION_BENCH_JUMP_ANEW);
    }
    for (size_t i = 0; i < COUNT_OF(none); i++)
        assert_int_equal(key_action(IN_WORDS, none[i]), ACTION_NONE);
}

/* The keys that a hand learns once. */
static void the_large_keys_mean_the_same_in_every_place(void **state) {
    (void)state;
    for (int place = 0; place < PLACE_COUNT; place++) {
        if (place == IN_TYPING)
            continue; /* there Home and End go along the line, and Space is a blank */
        if (place != IN_STEPS && place != IN_WORDS)
            assert_true(key_action((enum place)place, ' ') ==
                        key_action((enum place)place, PRESS_ENTER));
        else
            assert_int_equal(key_action((enum place)place, ' '), ACTION_TYPE);
        if (place == IN_WORDS)
            continue; /* the rest as in the steps */
        static const int pairs[] = {PRESS_UP,        PRESS_DOWN, PRESS_PAGE_UP,
                                    PRESS_PAGE_DOWN, PRESS_HOME, PRESS_END};
        for (size_t i = 0; i < COUNT_OF(pairs); i++)
            if (key_action((enum place)place, pairs[i]) == ACTION_NONE)
                fail_msg("key %#x does nothing under \"%s\"", (unsigned)pairs[i],
                         place_heading((enum place)place));
    }
}

/* One word for one key on the line at the bottom; only where to may differ. */
static void a_key_has_one_word_on_every_line_of_keys(void **state) {
    (void)state;
    static const char *const words[][3] = {
        {"Enter", "go on", "take it"}, {"Bksp", "back", "back"}, {"Down", "choose", "a line down"},
        {"Space", "type", "type"},     {"?", "help", "help"},    {"m", "marked", "marked"},
        {"o", "overview", "overview"},
    };
    size_t count;
    const struct key_entry *entry = key_entries(&count);
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < COUNT_OF(words); j++)
            if (entry[i].brief != NULL && strcmp(entry[i].shown, words[j][0]) == 0 &&
                strcmp(entry[i].brief, words[j][1]) != 0 &&
                strcmp(entry[i].brief, words[j][2]) != 0)
                fail_msg("%s is \"%s\" under \"%s\"", entry[i].shown, entry[i].brief,
                         place_heading(entry[i].place));
}

static void every_place_can_be_left_by_a_key(void **state) {
    (void)state;
    assert_int_equal(key_action(IN_TYPING, PRESS_ESCAPE), ACTION_LEAVE);
    assert_int_equal(key_action(IN_LIST, PRESS_ESCAPE), ACTION_LEAVE);
    assert_int_equal(key_action(IN_HELP, PRESS_ESCAPE), ACTION_LEAVE);
    assert_int_equal(key_action(IN_BENCH, PRESS_ESCAPE), ACTION_LEAVE);
    assert_int_equal(key_action(IN_OVERVIEW, PRESS_ESCAPE), ACTION_BENCH_DIMENSIONS);
    assert_int_equal(key_action(IN_MISFITS, PRESS_ESCAPE), ACTION_BENCH_DIMENSIONS);
    assert_int_equal(key_action(IN_STEPS, 'q'), ACTION_QUIT);
}

/* ---- the manual page ----------------------------------------------------------- */

static char manual[65536];

static int read_manual(void **state) {
    (void)state;
    FILE *file = fopen("man/gorewright.1", "r"); /* the tests run in the top folder */
    if (file == NULL)
        return -1;
    size_t length = fread(manual, 1, sizeof manual - 1, file);
    fclose(file);
    manual[length] = '\0';
    return length > 1000 && length < sizeof manual - 1 ? 0 : -1;
}

/* What keeps a sign from being taken for punctuation. */
static const char *escape(char sign) {
    return sign == '-' ? "\\" : strchr("?/+[]", sign) != NULL ? "\\&" : "";
}

/* The whole subsection about a place, from the table. */
static struct text section_of(enum place place) {
    struct text text = {0};
    size_t count;
    const struct key_entry *entry = key_entries(&count);
    text_add(&text, ".Ss %s\n.Bl -tag -width Ds\n", place_heading(place));
    for (size_t i = 0; i < count; i++)
        if (entry[i].place == place)
            text_add(&text, ".It Ic %s%s\n%s\n", escape(entry[i].shown[0]), entry[i].shown,
                     entry[i].words);
    text_add(&text, ".El\n");
    return text;
}

static void the_manual_page_lists_the_keys_of_the_table(void **state) {
    (void)state;
    for (int place = 0; place < PLACE_COUNT; place++) {
        struct text want = section_of((enum place)place);
        if (strstr(manual, want.bytes) == NULL)
            fail_msg("the manual page lacks these lines:\n%s", want.bytes);
        text_free(&want);
    }
}

/* ---- a line being typed ----------------------------------------------------------- */

static void letters_are_typed_and_taken_out_whole(void **state) {
    (void)state;
    struct field field;
    field_begin(&field, "a\xC3\xA9z"); /* a, e with an accent, z */
    assert_int_equal(field_letters(&field, field.length), 3);
    assert_true(field_key(&field, PRESS_LEFT));
    assert_true(field_key(&field, PRESS_BACKSPACE));
    assert_string_equal(field.bytes, "az");
    assert_true(field_key(&field, 'b'));
    assert_string_equal(field.bytes, "abz");
    assert_true(field_key(&field, PRESS_HOME));
    assert_true(field_key(&field, PRESS_DELETE));
    assert_string_equal(field.bytes, "bz");
    assert_true(field_key(&field, PRESS_BACKSPACE)); /* nothing before it */
    assert_string_equal(field.bytes, "bz");
    assert_true(field_key(&field, PRESS_END));
    assert_true(field_key(&field, PRESS_DELETE)); /* nothing behind it */
    assert_string_equal(field.bytes, "bz");
    assert_true(field_key(&field, PRESS_ERASE_LINE));
    assert_string_equal(field.bytes, "");
    assert_false(field_key(&field, PRESS_UP));
    assert_false(field_key(&field, PRESS_ESCAPE));
}

static struct field opened_with(const char *text) {
    struct field field;
    field_begin_over(&field, text);
    return field;
}

static void what_is_typed_first_takes_the_place_of_the_value(void **state) {
    (void)state;
    struct field field = opened_with("12 m3");
    assert_true(field.fresh);
    assert_true(field_key(&field, '1'));
    assert_true(field_key(&field, '5'));
    assert_string_equal(field.bytes, "15");
    assert_false(field.fresh);
    field = opened_with("\xC3\xA9");
    field_key(&field, 0xC3);
    field_key(&field, 0xA8);
    assert_string_equal(field.bytes, "\xC3\xA8");
}

static void a_key_that_edits_changes_a_part_of_the_value(void **state) {
    (void)state;
    static const struct {
        int key;
        const char *then_7;
    } edits[] = {{PRESS_BACKSPACE, "12 m7"}, {PRESS_LEFT, "12 m73"},  {PRESS_RIGHT, "12 m37"},
                 {PRESS_HOME, "712 m3"},     {PRESS_END, "12 m37"},   {' ', "12 m37"},
                 {PRESS_ERASE_LINE, "7"},    {PRESS_DELETE, "12 m37"}};
    for (size_t i = 0; i < COUNT_OF(edits); i++) {
        struct field field = opened_with("12 m3");
        assert_true(field_key(&field, edits[i].key));
        assert_false(field.fresh);
        field_key(&field, '7');
        assert_string_equal(field.bytes, edits[i].then_7);
    }
    struct field field = opened_with("12 m3");
    assert_false(field_key(&field, PRESS_UP));
    assert_true(field.fresh);
    field = opened_with(""); /* nothing to type over */
    assert_false(field.fresh);
}

static void a_line_never_grows_past_its_room(void **state) {
    (void)state;
    struct field field;
    field_begin(&field, "");
    for (int i = 0; i < 2 * FIELD_MOST; i++)
        field_key(&field, 'x');
    assert_int_equal(field.length, FIELD_MOST - 1);
    assert_int_equal(strlen(field.bytes), FIELD_MOST - 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_key_means_one_thing_in_a_place),
        cmocka_unit_test(every_action_has_a_key),
        cmocka_unit_test(a_key_without_a_meaning_does_nothing),
        cmocka_unit_test(no_key_needs_a_third_hand),
        cmocka_unit_test(any_letter_and_any_digit_are_told_apart_from_other_keys),
        cmocka_unit_test(the_large_keys_mean_the_same_in_every_place),
        cmocka_unit_test(a_key_has_one_word_on_every_line_of_keys),
        cmocka_unit_test(every_place_can_be_left_by_a_key),
        cmocka_unit_test(the_manual_page_lists_the_keys_of_the_table),
        cmocka_unit_test(letters_are_typed_and_taken_out_whole),
        cmocka_unit_test(what_is_typed_first_takes_the_place_of_the_value),
        cmocka_unit_test(a_key_that_edits_changes_a_part_of_the_value),
        cmocka_unit_test(a_line_never_grows_past_its_room),
    };
    return cmocka_run_group_tests(tests, read_manual, NULL) == 0 ? 0 : 1;
}
