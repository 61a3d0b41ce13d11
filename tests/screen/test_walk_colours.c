/* test_walk_colours.c - the step where the colours are chosen. */
#include "screen/walking.h"

static const struct design *design_of(const struct walk *walk) {
    return &walk->session->design;
}

static void a_striped_balloon_takes_two_names_and_a_key(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "colours.cloths");
    press(walk, ' ');
    type(walk, "white, red");
    press(walk, PRESS_ENTER);
    assert_int_equal(design_of(walk)->colours.fill, FILL_STRIPES);
    assert_shown(walk, "1 W R W R W R W R W R W R W R W R");
    assert_shown(walk, "W white   64 pieces  14.29 m2");
    assert_shown(walk, "R red     64 pieces  14.29 m2");
    press(walk, PRESS_RIGHT); /* on the pattern by itself */
    assert_int_equal(design_of(walk)->colours.fill, FILL_BANDS);
    assert_shown(walk, "2 R R R R R R R R R R R R R R R R");
    press_times(walk, 'u', 2);
    assert_int_equal(design_of(walk)->colours.cloths.count, 0);
    assert_int_equal(design_of(walk)->colours.fill, FILL_ONE);
    walk_free(walk);
}

static void a_pattern_brings_a_second_colour_that_goes_with_it(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "cloth.colour", "orange");
    go_to(walk, "colours.fill");
    press(walk, PRESS_RIGHT);
    assert_int_equal(design_of(walk)->colours.fill, FILL_STRIPES);
    assert_shown(walk, "O orange   64 pieces  14.29 m2");
    assert_shown(walk, "R red      64 pieces  14.29 m2");
    press(walk, PRESS_LEFT);
    assert_int_equal(design_of(walk)->colours.cloths.count, 0);
    assert_string_equal(design_of(walk)->cloth.colour, "orange");
    set_value(walk, "colours.cloths", "orange, red, blue");
    go_to(walk, "colours.fill");
    press(walk, PRESS_LEFT);
    assert_int_equal(design_of(walk)->colours.fill, FILL_ONE);
    assert_int_equal(design_of(walk)->colours.cloths.count, 3); /* typed, so kept */
    walk_free(walk);
    walk = begin(NULL);
    set_value(walk, "cloth.colour", "red");
    go_to(walk, "colours.fill");
    press(walk, PRESS_RIGHT);
    assert_shown(walk, "W white   64 pieces");
    walk_free(walk);
}

static void colours_made_here_are_saved_without_a_warning(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "cloth.colour", "orange");
    set_value(walk, "colours.cloths", "orange, black");
    set_value(walk, "colours.span", "2");
    press(walk, 's');
    press(walk, PRESS_ENTER);
    assert_false(walk->session->changed);
    walk_free(walk);
    struct outcome outcome = run("cd %s && $GW check *.cfg 2>&1", scratch_folder());
    assert_int_equal(outcome.status, 0);
    assert_null(strstr(outcome.out, "warning"));
    assert_non_null(strstr(outcome.out, "O orange: 64 pieces"));
    outcome_free(&outcome);
}

static void without_a_list_the_first_colour_stays(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "colours.cloths", "orange, black");
    assert_string_equal(design_of(walk)->cloth.colour, "white");
    set_value(walk, "colours.cloths", "");
    assert_string_equal(design_of(walk)->cloth.colour, "orange");
    assert_int_equal(design_of(walk)->colours.fill, FILL_ONE);
    walk_free(walk);
}

static void bad_colours_are_explained_at_the_field_and_lose_nothing(void **state) {
    (void)state;
    static const char *const cases[][3] = {
        {"colours.cloths", "W white, W red", "have the same letter"},
        {"colours.cloths", "white, white", "have the same name"},
        {"colours.cloths", "W", "a letter without a name"},
        {"colours.cloths", "W white / 20", "out of range"},
        {"colours.cloths", "# white", "its letter is none"},
        {"colours.cloths", "W white, B blue", "no cloth has the letter R"},
        {"colours.cloths", "", "no cloth has the letter R"},
        {"colours.scheme", "WX", "no cloth has the letter X"},
        {"colours.scheme", "WR WR WR", "here are 3 lines"},
        {"colours.scheme", "WRW", "here are 3 letters"},
        {"colours.scheme", "W-R", "is not 1 to 64 letters"},
        {"colours.scheme", "", "needs the colours in"},
        {"colours.span", "0", "out of range"},
        {"colours.turn", "65", "out of range"},
        {"colours.fill", "dots", "dots"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct walk *walk = begin(NULL);
        set_value(walk, "colours.cloths", "W white, R red");
        if (strcmp(cases[i][0], "colours.span") != 0)
            set_value(walk, "colours.fill", "scheme");
        const struct design before = *design_of(walk);
        set_value(walk, cases[i][0], cases[i][1]);
        if (walk->over != OVER_TYPING)
            fail_msg("%s is taken for %s", cases[i][1], cases[i][0]);
        char *words = strdup(walk->fault.bytes);
        if (strstr(words, cases[i][2]) == NULL)
            fail_msg("%s: %s", cases[i][1], words);
        free(words);
        assert_string_equal(walk->field.bytes, cases[i][1]);
        assert_true(design_same(&before, design_of(walk)));
        press(walk, PRESS_ESCAPE);
        assert_true(design_same(&before, design_of(walk)));
        walk_free(walk);
    }
}

static void a_scheme_begins_as_the_pattern_before_it(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "colours.cloths", "W white, R red, B blue");
    set_value(walk, "colours.fill", "spiral");
    set_value(walk, "colours.turn", "3");
    set_value(walk, "colours.mirror", "yes");
    const struct design before = *design_of(walk);
    set_value(walk, "colours.fill", "scheme");
    assert_int_equal(design_of(walk)->colours.scheme.count, 8);
    for (size_t gore = 0; gore < 16; gore++)
        for (size_t row = 1; row <= 8; row++)
            assert_int_equal(design_colour_of(design_of(walk), gore, row, false),
                             design_colour_of(&before, gore, row, false));
    /* One that is a pattern goes when it is left, a changed one stays. */
    set_value(walk, "colours.fill", "bands");
    assert_int_equal(design_of(walk)->colours.scheme.count, 0);
    set_value(walk, "colours.fill", "scheme");
    set_value(walk, "colours.scheme", "WWWWRRRRWWWWBBBB");
    set_value(walk, "colours.fill", "bands");
    assert_int_equal(design_of(walk)->colours.scheme.count, 1);
    set_value(walk, "colours.fill", "scheme");
    assert_string_equal(design_of(walk)->colours.scheme.value[0], "WWWWRRRRWWWWBBBB");
    walk_free(walk);
}

static void a_scheme_follows_the_numbers_of_gores_and_rows(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "colours.cloths", "W white, R red");
    set_value(walk, "colours.fill", "chequer");
    set_value(walk, "colours.fill", "scheme");
    set_value(walk, "rows.count", "9");
    set_value(walk, "gores.count", "18");
    assert_false(walk->session->stale);
    assert_int_equal(design_of(walk)->colours.scheme.count, 9);
    assert_string_equal(design_of(walk)->colours.scheme.value[0], "WRWRWRWRWRWRWRWRWR");
    assert_string_equal(design_of(walk)->colours.scheme.value[8],
                        design_of(walk)->colours.scheme.value[7]);
    set_value(walk, "rows.count", "7");
    set_value(walk, "gores.count", "11");
    assert_false(walk->session->stale);
    assert_int_equal(design_of(walk)->colours.scheme.count, 7);
    assert_string_equal(design_of(walk)->colours.scheme.value[0], "WRWRWRWRWRW");
    press_times(walk, 'u', 4);
    assert_string_equal(design_of(walk)->colours.scheme.value[7], "RWRWRWRWRWRWRWRW");
    walk_free(walk);
}

static void a_name_with_a_comma_survives_saving_opening_and_another_edit(void **state) {
    (void)state;
    static const char typed[] =
        "R \"deep, red / dark (new)\" / 1.2, W \"so \"\"white\"\", really\"";
    struct walk *walk = begin(NULL);
    set_value(walk, "colours.cloths", typed);
    assert_int_equal(walk->over, OVER_NOTHING);
    press(walk, 's');
    press(walk, PRESS_ENTER);
    walk_free(walk);
    walk = begin("starter.cfg");
    go_to(walk, "colours.cloths");
    press(walk, ' ');
    assert_string_equal(walk->field.bytes, typed);
    press(walk, PRESS_END);
    type(walk, ", blue");
    press(walk, PRESS_ENTER);
    const struct cloth_list *cloths = &design_of(walk)->colours.cloths;
    assert_int_equal(cloths->count, 3);
    assert_string_equal(cloths->value[0].name, "deep, red / dark (new)");
    assert_close(cloths->value[0].width_m, 1.2, 0, 0);
    assert_string_equal(cloths->value[1].name, "so \"white\", really");
    assert_string_equal(cloths->value[2].name, "blue");
    assert_int_equal(cloths->value[2].letter, 'B');
    walk_free(walk);
}

static void gores_without_room_are_reached(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "gores.count", "64");
    set_value(walk, "colours.cloths", "white, red");
    assert_shown(walk, "gores 1-35 of 64: < > move");
    press_times(walk, '>', 20);
    assert_shown(walk, "gores 30-64 of 64: < > move");
    press_times(walk, '<', 20);
    assert_shown(walk, "gores 1-35 of 64: < > move");
    set_value(walk, "rows.count", "20");
    press(walk, PRESS_PAGE_DOWN);
    press(walk, PRESS_PAGE_UP);
    assert_not_shown(walk, "rows 1-20");
    walk_free(walk);
}

/* A file that cannot be built yet is mended on the screens; no step of them may end the program. */
static void wrong_colours_of_a_file_can_be_mended(void **state) {
    (void)state;
    scratch_file("odd.cfg", "format = 1;\ncolours: { cloths = ((\"W\", \"white\"), (\"R\", "
                            "\"red\")); fill = \"stripes\"; span = 0; turn = 70; };\n");
    struct walk *walk = begin("odd.cfg");
    assert_null(walk->session->envelope);
    set_value(walk, "colours.fill", "scheme");
    press(walk, PRESS_ESCAPE);
    set_value(walk, "colours.fill", "stripes");
    press(walk, PRESS_ESCAPE);
    set_value(walk, "colours.span", "1");
    press(walk, PRESS_ESCAPE);
    set_value(walk, "colours.turn", "7");
    assert_non_null(walk->session->envelope);
    assert_false(walk->session->stale);
    assert_shown(walk, "R red     64 pieces");
    walk_free(walk);
}

int main(void) {
    if (!keep_apart())
        return 1;
    const struct CMUnitTest tests[] = {
        IN_FOLDER(a_striped_balloon_takes_two_names_and_a_key),
        IN_FOLDER(a_pattern_brings_a_second_colour_that_goes_with_it),
        IN_FOLDER(colours_made_here_are_saved_without_a_warning),
        IN_FOLDER(without_a_list_the_first_colour_stays),
        IN_FOLDER(bad_colours_are_explained_at_the_field_and_lose_nothing),
        IN_FOLDER(a_scheme_begins_as_the_pattern_before_it),
        IN_FOLDER(a_scheme_follows_the_numbers_of_gores_and_rows),
        IN_FOLDER(a_name_with_a_comma_survives_saving_opening_and_another_edit),
        IN_FOLDER(gores_without_room_are_reached),
        IN_FOLDER(wrong_colours_of_a_file_can_be_mended),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
