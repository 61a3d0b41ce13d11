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

static void no_key_needs_a_third_hand(void **state) {
    (void)state;
    size_t count;
    const struct key_entry *entry = key_entries(&count);
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < KEYS_EACH; j++) {
            int key = entry[i].key[j];
            assert_true(key == 0 || key == PRESS_TAB || key == PRESS_ENTER || key == PRESS_ESCAPE ||
                        key >= ' ');
            assert_false(key >= 'A' && key <= 'Z');
        }
}

static void every_place_can_be_left_by_a_key(void **state) {
    (void)state;
    assert_int_equal(key_action(IN_TYPING, PRESS_ESCAPE), ACTION_LEAVE);
    assert_int_equal(key_action(IN_LIST, PRESS_ESCAPE), ACTION_LEAVE);
    assert_int_equal(key_action(IN_HELP, PRESS_ESCAPE), ACTION_LEAVE);
    assert_int_equal(key_action(IN_BENCH, PRESS_ESCAPE), ACTION_LEAVE);
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
    return sign == '-' ? "\\" : strchr("?/+", sign) != NULL ? "\\&" : "";
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
        cmocka_unit_test(every_place_can_be_left_by_a_key),
        cmocka_unit_test(the_manual_page_lists_the_keys_of_the_table),
        cmocka_unit_test(letters_are_typed_and_taken_out_whole),
        cmocka_unit_test(a_line_never_grows_past_its_room),
    };
    return cmocka_run_group_tests(tests, read_manual, NULL) == 0 ? 0 : 1;
}
