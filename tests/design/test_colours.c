/* test_colours.c - which cloth each panel is cut from. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "gorewright/design.h"

static struct design with(int fill, size_t cloths) {
    struct design d;
    design_starter(&d);
    d.colours.fill = fill;
    d.colours.cloths.count = cloths;
    for (size_t i = 0; i < cloths; i++) {
        d.colours.cloths.value[i].letter = (char)('A' + (int)i);
        strcpy(d.colours.cloths.value[i].name, "cloth ");
        d.colours.cloths.value[i].name[5] = (char)('A' + (int)i);
    }
    return d;
}

/* The letters of one row, gore by gore. */
static const char *row_of(const struct design *d, size_t row, bool right,
                          char into[GORES_MOST + 1]) {
    memset(into, 0, GORES_MOST + 1);
    for (size_t gore = 0; gore < (size_t)d->gores.count; gore++)
        into[gore] = (char)('A' + (int)design_colour_of(d, gore, row, right));
    return into;
}

static void assert_row(const struct design *d, size_t row, const char *wanted) {
    char row_is[GORES_MOST + 1];
    assert_string_equal(row_of(d, row, false, row_is), wanted);
}

static void without_cloths_there_is_the_one_of_the_group_cloth(void **state) {
    (void)state;
    struct design d = with(FILL_STRIPES, 0);
    struct cloth_colour cloth[CLOTHS_MOST];
    assert_int_equal(design_cloths(&d, cloth), 1);
    assert_int_equal(cloth[0].letter, 'W');
    assert_string_equal(cloth[0].name, "white");
    assert_close(cloth[0].width_m, 1.5, 0, 0);
    assert_close(cloth[0].mass_kg_m2, 0.0397, 0, 0);
    assert_row(&d, 1, "AAAAAAAAAAAAAAAA");
}

static void what_a_cloth_leaves_out_comes_from_the_group_cloth(void **state) {
    (void)state;
    struct design d = with(FILL_STRIPES, 2);
    struct cloth_colour cloth[CLOTHS_MOST];
    d.colours.cloths.value[1].width_m = 1.2;
    assert_int_equal(design_cloths(&d, cloth), 2);
    assert_close(cloth[0].width_m, 1.5, 0, 0);
    assert_close(cloth[1].width_m, 1.2, 0, 0);
    assert_close(cloth[1].mass_kg_m2, 0.0397, 0, 0);
}

static void each_fill_is_what_its_name_says(void **state) {
    (void)state;
    struct design d = with(FILL_ONE, 3);
    d.gores.count = 6;
    d.rows.count = 6;
    assert_row(&d, 2, "AAAAAA");
    d.colours.fill = FILL_STRIPES;
    assert_row(&d, 2, "ABCABC");
    d.colours.fill = FILL_BANDS;
    assert_row(&d, 1, "AAAAAA");
    assert_row(&d, 2, "BBBBBB");
    assert_row(&d, 4, "AAAAAA");
    d.colours.fill = FILL_SPIRAL;
    assert_row(&d, 1, "ABCABC");
    assert_row(&d, 2, "BCABCA");
    d.colours.fill = FILL_GRADIENT;
    assert_row(&d, 2, "AAAAAA");
    assert_row(&d, 3, "BBBBBB");
    assert_row(&d, 6, "CCCCCC");
    d.colours.span = 2;
    d.colours.cloths.count = 2;
    d.colours.fill = FILL_CHEQUER;
    assert_row(&d, 2, "AABBAA");
    assert_row(&d, 3, "BBAABB");
    d.colours.fill = FILL_STRIPES;
    assert_row(&d, 3, "AABBAA");
}

static void a_gradient_of_more_colours_than_rows_has_the_first_and_the_last(void **state) {
    (void)state;
    struct design d = with(FILL_GRADIENT, 5);
    d.gores.count = 3;
    d.rows.count = 3;
    assert_row(&d, 1, "AAA");
    assert_row(&d, 2, "CCC");
    assert_row(&d, 3, "EEE");
}

static void a_scheme_is_read_from_the_mouth_up_and_around(void **state) {
    (void)state;
    struct design d = with(FILL_SCHEME, 3);
    char right[GORES_MOST + 1];
    d.gores.count = 6;
    d.rows.count = 2;
    d.colours.scheme.count = 2;
    strcpy(d.colours.scheme.value[0], "CBA");
    strcpy(d.colours.scheme.value[1], "AAABBB");
    assert_row(&d, 1, "CBACBA");
    assert_row(&d, 2, "AAABBB");
    assert_string_equal(row_of(&d, 2, true, right), "AAABBB");
    d.colours.scheme_right.count = 1;
    strcpy(d.colours.scheme_right.value[0], "C");
    assert_string_equal(row_of(&d, 2, true, right), "CCCCCC");
    assert_row(&d, 2, "AAABBB");
    d.colours.mirror = MIRROR_YES; /* the right half there is the left half here */
    assert_row(&d, 2, "AAACCC");
    assert_string_equal(row_of(&d, 2, true, right), "CCCAAA");
}

static void turning_moves_the_colours_to_higher_gores(void **state) {
    (void)state;
    struct design d = with(FILL_STRIPES, 3);
    d.gores.count = 6;
    d.colours.turn = 1;
    assert_row(&d, 1, "CABCAB");
}

static struct design any(struct dice *dice) {
    struct design d = with(dice_whole(dice, 0, FILL_GRADIENT), (size_t)dice_whole(dice, 1, 16));
    d.gores.count = dice_whole(dice, GORES_LEAST, GORES_MOST);
    d.rows.count = dice_whole(dice, 1, ROWS_MOST);
    d.colours.span = dice_whole(dice, 1, 8);
    return d;
}

static void a_turn_by_all_gores_is_none(void **state) {
    (void)state;
    struct dice dice = {5};
    for (int i = 0; i < 200; i++) {
        struct design d = any(&dice), turned = d;
        char one[GORES_MOST + 1], other[GORES_MOST + 1];
        size_t row = (size_t)dice_whole(&dice, 1, d.rows.count);
        turned.colours.turn = d.gores.count;
        assert_string_equal(row_of(&d, row, false, one), row_of(&turned, row, false, other));
    }
}

static void a_mirrored_design_is_symmetric(void **state) {
    (void)state;
    struct dice dice = {6};
    for (int i = 0; i < 200; i++) {
        struct design d = any(&dice);
        char left[GORES_MOST + 1], right[GORES_MOST + 1];
        size_t gores = (size_t)d.gores.count, row = (size_t)dice_whole(&dice, 1, d.rows.count);
        d.colours.mirror = MIRROR_YES;
        row_of(&d, row, false, left);
        row_of(&d, row, true, right);
        for (size_t gore = 0; gore < gores; gore++)
            if (2 * gore + 1 != gores) /* a gore in the middle is its own image */
                assert_int_equal(left[gore], right[gores - 1 - gore]);
    }
}

static void colours_typed_read_back_as_shown(void **state) {
    (void)state;
    struct design d;
    struct diagnostics messages = {0};
    struct text shown = {0};
    size_t cloths = (size_t)parameter_find("colours.cloths");
    design_starter(&d);
    assert_int_equal(parameter_set(&d, cloths, "W white,R dark red / 1.2 / 0.045", &messages), 0);
    assert_int_equal(d.colours.cloths.count, 2);
    assert_string_equal(d.colours.cloths.value[1].name, "dark red");
    assert_close(d.colours.cloths.value[1].mass_kg_m2, 0.045, 0, 0);
    parameter_show(&d, cloths, &shown);
    assert_string_equal(shown.bytes, "W white, R dark red / 1.2 / 0.045");
    struct design again = d;
    assert_true(design_same(&d, &again));
    again.colours.cloths.value[1].letter = 'r';
    assert_false(design_same(&d, &again));
    assert_int_equal(parameter_set(&d, cloths, "W", &messages), -1);
    assert_true(strstr(messages.item[0].text, "a letter without a name") != NULL);
    assert_int_equal(
        parameter_set(&d, (size_t)parameter_find("colours.scheme"), "WR RW", &messages), 0);
    assert_int_equal(d.colours.scheme.count, 2);
    assert_string_equal(d.colours.scheme.value[1], "RW");
    text_free(&shown);
    diagnostics_free(&messages);
}

/* Names a builder might choose to our harm. */
static void random_name(struct dice *dice, char name[TEXT_MOST]) {
    static const char *const parts[] = {"red", ",",   "/",        "\"", "\"\"", " ", "(",    ")",
                                        "'",   "1.2", "\xC3\xA9", "#",  ";",    "W", " / 3", "\\"};
    name[0] = '\0';
    for (int i = dice_whole(dice, 1, 9); i > 0; i--) {
        const char *part = parts[dice_whole(dice, 0, (int)COUNT_OF(parts) - 1)];
        if (strlen(name) + strlen(part) < TEXT_MOST - 4)
            strcat(name, part);
    }
}

static void random_cloths(struct dice *dice, struct cloth_list *cloths) {
    *cloths = (struct cloth_list){.count = (size_t)dice_whole(dice, 1, CLOTHS_MOST)};
    for (size_t i = 0; i < cloths->count; i++) {
        struct cloth_colour *cloth = &cloths->value[i];
        cloth->letter = (char)('A' + (int)i);
        random_name(dice, cloth->name);
        sprintf(cloth->name + strlen(cloth->name), "%zu", i); /* each of its own, and to be seen */
        cloth->width_m = dice_whole(dice, 0, 1) == 0 ? 0 : dice_between(dice, 0.1, 5);
        cloth->mass_kg_m2 = dice_whole(dice, 0, 1) == 0 ? 0 : dice_between(dice, 0.005, 0.5);
        cloth->price_m = dice_whole(dice, 0, 1) == 0 ? 0 : dice_between(dice, 0, 99);
    }
    if (dice_whole(dice, 0, 3) == 0)
        strcat(cloths->value[0].name, " ");
}

static void any_name_of_a_cloth_survives_being_shown_typed_and_saved(void **state) {
    (void)state;
    struct dice dice = {91};
    size_t index = (size_t)parameter_find("colours.cloths"), quoted = 0;
    for (int i = 0; i < 500; i++) {
        struct design d, again, read;
        struct diagnostics messages = {0};
        struct text shown = {0}, file = {0};
        design_starter(&d);
        design_starter(&again);
        random_cloths(&dice, &d.colours.cloths);
        assert_int_equal(design_check(&d, NULL, &messages), 0);
        parameter_show(&d, index, &shown);
        quoted += strchr(shown.bytes, '"') != NULL;
        if (parameter_set(&again, index, shown.bytes, &messages) != 0)
            fail_msg("%s: %s", shown.bytes, messages.item[0].text);
        assert_true(design_same(&d, &again));
        design_write(&d, WRITE_CHANGES, &file);
        if (design_read_text(file.bytes, file.length, "file", &read, NULL, &messages) != 0)
            fail_msg("%s: %s", file.bytes, messages.item[0].text);
        assert_true(design_same(&d, &read));
        text_free(&shown);
        text_free(&file);
        diagnostics_free(&messages);
    }
    assert_true(quoted > 300);
}

static void names_of_things_carried_survive_being_shown_and_typed(void **state) {
    (void)state;
    struct dice dice = {92};
    size_t index = (size_t)parameter_find("rig.others");
    static const char *const name[] = {
        "flag, small",          "\"Kite\"",    "6\" strap", " blank before",
        "comma, and \"quote\"", "blank after "};
    for (size_t i = 0; i < COUNT_OF(name); i++) {
        struct design d, again;
        struct diagnostics messages = {0};
        struct text shown = {0};
        design_starter(&d);
        design_starter(&again);
        d.rig.others.count = 2;
        strcpy(d.rig.others.value[0].name, name[i]);
        strcpy(d.rig.others.value[1].name, "camera");
        d.rig.others.value[0].mass_kg = d.rig.others.value[1].mass_kg =
            0.01 * dice_whole(&dice, 1, 50);
        parameter_show(&d, index, &shown);
        if (parameter_set(&again, index, shown.bytes, &messages) != 0)
            fail_msg("%s: %s", shown.bytes, messages.item[0].text);
        assert_string_equal(again.rig.others.value[0].name, name[i]);
        assert_string_equal(again.rig.others.value[1].name, "camera");
        text_free(&shown);
        diagnostics_free(&messages);
    }
}

static void a_cloth_typed_without_a_letter_gets_a_free_one(void **state) {
    (void)state;
    static const struct {
        const char *typed, *shown;
    } cases[] = {
        {"white, red", "W white, R red"},
        {"  white ,red,", "W white, R red"},
        {"red, rose, Rust", "R red, O rose, U Rust"},
        {"red, R rose", "E red, R rose"},
        {"aa, aaa", "A aa, B aaa"},
        {"\"deep, red\" / 1.2 /, x \"a/b\"", "D \"deep, red\" / 1.2, x \"a/b\""},
        {"R red / / 0.05", "R red / 0 / 0.05"},
        {"red / 120 cm / 45 g/m2 / 8, blue/48 in", "R red / 1.2 / 0.045 / 8, B blue / 1.2192"},
        {"\xC3\xA9t\xC3\xA9", "T \xC3\xA9t\xC3\xA9"},
    };
    size_t index = (size_t)parameter_find("colours.cloths");
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct design d;
        struct diagnostics messages = {0};
        struct text shown = {0};
        design_starter(&d);
        assert_int_equal(parameter_set(&d, index, cases[i].typed, &messages), 0);
        parameter_show(&d, index, &shown);
        assert_string_equal(shown.bytes, cases[i].shown);
        text_free(&shown);
        diagnostics_free(&messages);
    }
}

static void a_cloth_typed_badly_is_refused_with_its_entry_and_changes_nothing(void **state) {
    (void)state;
    static const char *const cases[][2] = {
        {"W", "entry 1 is a letter without a name"},
        {"white, R", "entry 2 is a letter without a name"},
        {"R / 1.2", "entry 1 is a letter without a name"},
        {"R red / 1,2", "entry 2 is a digit without a name"},
        {"white,,red", "entry 2 has no name"},
        {"/ 1.2", "entry 1 has no name"},
        {"R \"red", "entry 1 has a name that begins with a quote"},
        {"R \"\"", "a name is empty"},
        {"R \"red\" deep", "entry 1 goes on behind the quotes"},
        {"R red / wide", "entry 1 has something else than a number"},
        {"R red / 0x10", "entry 1: "},
        {"R red / nan", "entry 1 has something else than a number"},
        {"R red / 1e999", "entry 1: "},
        {"aa, R red / 1.2 kg", "entry 2: "},
        {"R red / 12 m", "entry 1: \"12 m\" is out of range"},
        {"R red / 1 m / 1 m", "entry 1: "},
        {"R red / 1 m / 45 g/m2 / 8 m", "entry 1 has something else than a number"},
        {"R red / 1 / 1 / 1 / 1", "entry 1 has more than three numbers"},
        {"R a name that is so long that nobody would ever print all of it on a piece",
         "at most 63 can be printed"},
        {"a1,a2,a3,a4,a5,a6,a7,a8,a9,b1,b2,b3,b4,b5,b6,b7,b8", "this list is too long"},
    };
    size_t index = (size_t)parameter_find("colours.cloths");
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct design d, before;
        struct diagnostics messages = {0};
        design_starter(&d);
        before = d;
        if (parameter_set(&d, index, cases[i][0], &messages) != -1)
            fail_msg("%s is taken", cases[i][0]);
        assert_int_equal(messages.count, 1);
        if (strstr(messages.item[0].text, cases[i][1]) == NULL)
            fail_msg("%s: %s", cases[i][0], messages.item[0].text);
        assert_true(design_same(&d, &before));
        diagnostics_free(&messages);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_cloths_there_is_the_one_of_the_group_cloth),
        cmocka_unit_test(what_a_cloth_leaves_out_comes_from_the_group_cloth),
        cmocka_unit_test(each_fill_is_what_its_name_says),
        cmocka_unit_test(a_gradient_of_more_colours_than_rows_has_the_first_and_the_last),
        cmocka_unit_test(a_scheme_is_read_from_the_mouth_up_and_around),
        cmocka_unit_test(turning_moves_the_colours_to_higher_gores),
        cmocka_unit_test(a_turn_by_all_gores_is_none),
        cmocka_unit_test(a_mirrored_design_is_symmetric),
        cmocka_unit_test(colours_typed_read_back_as_shown),
        cmocka_unit_test(any_name_of_a_cloth_survives_being_shown_typed_and_saved),
        cmocka_unit_test(names_of_things_carried_survive_being_shown_and_typed),
        cmocka_unit_test(a_cloth_typed_without_a_letter_gets_a_free_one),
        cmocka_unit_test(a_cloth_typed_badly_is_refused_with_its_entry_and_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
