/* test_walk.c - the walk-through: the table of steps, the way of a beginner, finding a choice, will
 * it fly. */
#include "screen/walking.h"

/* ---- the table of steps ------------------------------------------------------------- */

static void every_parameter_is_asked_for_once(void **state) {
    (void)state;
    size_t count, choices;
    const struct parameter *p = parameters(&count);
    const struct step_choice *choice = step_choices(&choices);
    for (size_t i = 0; i < count; i++) {
        size_t times = 0;
        for (size_t j = 0; j < choices; j++)
            times += strcmp(choice[j].key, p[i].key) == 0;
        if (times != (strcmp(p[i].key, "format") == 0 ? 0 : 1))
            fail_msg("%s is asked for %zu times", p[i].key, times);
    }
    for (size_t j = 0; j < choices; j++) {
        assert_true(parameter_find(choice[j].key) >= 0);
        assert_in_range(strlen(choice[j].label), 3, 20);
    }
}

static void every_word_of_a_style_and_a_seam_is_explained(void **state) {
    (void)state;
    const char *const keys[] = {"size.by",      "outline.kind", "outline.weight_from",
                                "outline.join", "gores.style",  "rows.spacing",
                                "seams.tape",   "seams.row",    "seams.ridge",
                                "cloth.warp",   "colours.fill", "colours.mirror"};
    size_t count;
    for (size_t i = 0; i < COUNT_OF(keys); i++) {
        const struct parameter *p = &parameters(&count)[parameter_find(keys[i])];
        for (int word = 0; word <= (int)p->most; word++)
            if (word_meaning(keys[i], word) == NULL)
                fail_msg("%s of %s has no line", p->choices[word], keys[i]);
    }
    assert_null(word_meaning("paper.units", 0));
}

static void every_starter_can_be_built_and_printed(void **state) {
    (void)state;
    size_t count;
    const struct starter *starter = starters(&count);
    assert_true(count >= 5);
    for (size_t i = 0; i < count; i++) {
        struct design design;
        struct diagnostics messages = {0};
        struct template_report report;
        starter_make(&starter[i], &design);
        struct envelope *envelope = envelope_build(&design, &messages);
        if (envelope == NULL || messages.count > 0 || design_check(&design, NULL, &messages) != 0 ||
            count_templates(&design, envelope, &report, &messages) != 0)
            fail_msg("%s: %s", starter[i].name,
                     messages.count > 0 ? messages.item[0].text : "no message");
        assert_true(report.sheets > 3);
        envelope_free(envelope);
        diagnostics_free(&messages);
    }
}

/* ---- the way of a beginner ------------------------------------------------------------ */

static void enter_alone_leads_to_the_templates_of_the_command_line(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press_times(walk, PRESS_ENTER, STEP_COUNT);
    assert_true(walk->written);
    assert_false(walk->session->changed);
    walk_free(walk);
    struct outcome outcome = run("cd %s && $GW check starter.cfg >/dev/null && "
                                 "$GW templates starter.cfg | cmp - starter-templates.ps && "
                                 "$GW sheets starter.cfg | cmp - starter-sheets.txt",
                                 scratch_folder());
    if (outcome.status != 0)
        fail_msg("%s%s", outcome.out, outcome.err);
    outcome_free(&outcome);
}

static void each_step_asks_one_question(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    for (int step = 0; step < STEP_COUNT; step++) {
        char here[32];
        snprintf(here, sizeof here, "[%s]", step_entry((enum step)step)->name);
        assert_shown(walk, here);
        assert_shown(walk, step_entry((enum step)step)->question);
        press(walk, PRESS_PAGE_DOWN);
    }
    press_times(walk, PRESS_BACKSPACE, STEP_COUNT);
    assert_int_equal(walk->step, STEP_SIZE);
    walk_free(walk);
}

static void the_cautions_stand_there_until_the_first_key(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    assert_shown(walk, "Fire, gas, height");
    press(walk, PRESS_DOWN);
    assert_not_shown(walk, "Fire, gas, height");
    walk_free(walk);
}

static void sheets_are_counted_before_they_are_written(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press_times(walk, PRESS_PAGE_DOWN, STEP_COUNT - 1);
    assert_shown(walk, "Enter writes 54 sheets of A4");
    assert_shown(walk, "starter-templates.ps");
    assert_int_not_equal(access("starter-templates.ps", F_OK), 0);
    set_value(walk, "paper.sheet", "roll 914mm");
    assert_not_shown(walk, "54 sheets");
    assert_shown(walk, "Enter writes 3 pages on 4.4 m of roll");
    press(walk, PRESS_ENTER);
    assert_int_equal(access("starter-templates.ps", F_OK), 0);
    assert_shown(walk, "Written");
    walk_free(walk);
}

static void the_paper_and_the_design_on_the_disk_belong_together(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press_times(walk, PRESS_ENTER, STEP_COUNT);
    assert_true(walk->written);
    assert_not_shown(walk, "earlier state");
    set_value(walk, "gores.count", "14");
    press_times(walk, PRESS_PAGE_DOWN, STEP_COUNT - 1);
    assert_shown(walk, "The paper is of an earlier state.");
    assert_shown(walk, "and saves the design:");
    assert_true(walk->session->changed);
    press(walk, PRESS_ENTER);
    assert_true(walk->written);
    assert_false(walk->session->changed);
    assert_not_shown(walk, "earlier state");
    walk_free(walk);
    struct outcome outcome =
        run("cd %s && $GW templates starter.cfg | cmp - starter-templates.ps && "
            "$GW sheets starter.cfg | cmp - starter-sheets.txt",
            scratch_folder());
    if (outcome.status != 0)
        fail_msg("%s%s", outcome.out, outcome.err);
    outcome_free(&outcome);
}

static void a_mix_made_here_is_saved_without_a_warning(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "gores.style", "half-gore");
    set_value(walk, "gores.mix", "half-gore faceted");
    assert_int_equal(walk->session->design.gores.mix.count, 2);
    press_times(walk, PRESS_PAGE_DOWN, STEP_COUNT - 1);
    press(walk, PRESS_ENTER);
    walk_free(walk);
    struct outcome outcome = run("cd %s && $GW check starter.cfg 2>&1", scratch_folder());
    assert_int_equal(outcome.status, 0);
    assert_null(strstr(outcome.out, "gores.style"));
    outcome_free(&outcome);
}

static void a_design_in_the_place_of_the_paper_is_left_as_it_is(void **state) {
    (void)state;
    static const char other[] = "format = 1;\nname = \"Other\";\n";
    scratch_file("starter-sheets.txt", other);
    struct walk *walk = begin(NULL);
    press_times(walk, PRESS_ENTER, STEP_COUNT);
    assert_false(walk->written);
    assert_shown(walk, "is a design, and stays as it is");
    struct text text = {0};
    assert_int_equal(file_read("starter-sheets.txt", 1000, &text), 0);
    assert_string_equal(text.bytes, other);
    text_free(&text);
    walk_free(walk);
}

static void a_second_design_of_the_same_name_does_not_touch_the_first(void **state) {
    (void)state;
    scratch_file("starter.cfg", "format = 1;\n# mine\n");
    struct walk *walk = begin(NULL);
    press_times(walk, PRESS_ENTER, STEP_COUNT);
    assert_string_equal(walk->session->path, "starter-2.cfg");
    walk_free(walk);
    struct outcome outcome = run("cat %s/starter.cfg", scratch_folder());
    assert_string_equal(outcome.out, "format = 1;\n# mine\n");
    outcome_free(&outcome);
}

static void the_answers_follow_the_choices_at_once(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "rig.basket");
    assert_shown(walk, "2846 g; envelope 1546");
    assert_shown(walk, "503 g, 18 % of its weight");
    type(walk, "700");
    press(walk, PRESS_ENTER);
    assert_shown(walk, "3346 g");
    assert_shown(walk, "3 g, 0 % of its weight");
    set_value(walk, "air.ground", "77 F");
    assert_close(walk->session->design.air.ground_C, 25, 1e-9, 0);
    assert_shown(walk, "TOO HEAVY");
    walk_free(walk);
}

static void a_warning_about_flight_stands_in_the_step_that_can_mend_it(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "air.inside");
    assert_not_shown(walk, "more than the cloth may become");
    set_value(walk, "air.inside", "130");
    assert_shown(walk, "more than the cloth may become");
    press(walk, PRESS_PAGE_UP);
    assert_not_shown(walk, "more than the cloth may become");
    walk_free(walk);
}

static void the_flight_page_is_that_of_the_command_line_and_scrolls(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    struct text page = {0};
    write_flight(&walk->session->sized, walk->session->envelope, &page);
    press(walk, 'p');
    assert_int_equal(walk->over, OVER_PAGE);
    assert_string_equal(walk->page.bytes, page.bytes);
    assert_shown(walk, "WILL IT FLY: Starter");
    assert_not_shown(walk, "first inflation decides, on a tether");
    press_times(walk, PRESS_PAGE_DOWN, 30);
    assert_shown(walk, "first inflation decides, on a tether");
    press_times(walk, PRESS_PAGE_UP, 30);
    assert_shown(walk, "WILL IT FLY: Starter");
    press_times(walk, PRESS_DOWN, 200); /* line by line */
    assert_shown(walk, "first inflation decides, on a tether");
    press(walk, PRESS_HOME);
    assert_shown(walk, "WILL IT FLY: Starter");
    press(walk, PRESS_END);
    assert_shown(walk, "first inflation decides, on a tether");
    press(walk, PRESS_ENTER); /* goes on, from the end: back */
    assert_int_equal(walk->over, OVER_NOTHING);
    text_free(&page);
    walk_free(walk);
}

/* ---- help ------------------------------------------------------------------------------- */

/* All of the help, read as somebody would: page by page with Enter, which leaves at the end. */
static void read_help(struct walk *walk, struct text *all) {
    press(walk, '?');
    for (int pages = 0; walk->over == OVER_HELP && pages < 50; pages++) {
        struct text page = picture(walk, 80, 24);
        text_add(all, "%s", page.bytes);
        text_free(&page);
        press(walk, PRESS_ENTER);
    }
    assert_int_equal(walk->over, OVER_NOTHING);
}

static void the_help_lists_every_key_those_of_here_first(void **state) {
    (void)state;
    static const int ways[][3] = {{0}, {'b', PRESS_ENTER}, {'b', 'o'}};
    static const enum place here[] = {IN_STEPS, IN_BENCH, IN_OVERVIEW};
    struct walk *walk = begin(NULL);
    for (size_t i = 0; i < COUNT_OF(ways); i++) {
        struct text all = {0};
        for (size_t j = 0; ways[i][j] != 0; j++)
            press(walk, ways[i][j]);
        read_help(walk, &all);
        const char *first = strstr(all.bytes, place_heading(here[i]));
        for (int place = 0; place < PLACE_COUNT; place++) {
            const char *heading = strstr(all.bytes, place_heading((enum place)place));
            if (heading == NULL || heading < first)
                fail_msg("\"%s\" stands in the wrong place", place_heading((enum place)place));
        }
        press(walk, PRESS_ESCAPE);
        text_free(&all);
    }
    walk_free(walk);
}

static void the_styles_are_compared_on_a_page(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press(walk, 'w');
    assert_shown(walk, "half-gore");
    assert_shown(walk, "billowed");
    press(walk, PRESS_ESCAPE);
    assert_int_equal(walk->over, OVER_NOTHING);
    walk_free(walk);
}

/* ---- finding -------------------------------------------------------------------------------- */

static void every_choice_is_found_by_its_name(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    size_t count;
    const struct step_choice *choice = step_choices(&count);
    for (size_t i = 0; i < count; i++) {
        press(walk, '/');
        type(walk, choice[i].key);
        assert_true(walk->founds > 0);
        size_t at = 0;
        while (at < walk->founds && walk->found[at] != i)
            at++;
        assert_true(at < walk->founds);
        press_times(walk, PRESS_DOWN, (int)at);
        press(walk, PRESS_ENTER);
        assert_int_equal(walk->over, OVER_NOTHING);
        assert_int_equal(walk->step, choice[i].step);
        if (choice_asked(&choice[i], &walk->session->design))
            assert_int_equal(walk_choice(walk), i);
    }
    walk_free(walk);
}

static void a_few_letters_are_enough_and_none_found_is_said(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press(walk, '/');
    type(walk, "mou di");
    assert_in_range(walk->founds, 1, 4);
    press(walk, PRESS_ENTER);
    assert_shown(walk, ">Mouth diameter");
    press(walk, '/');
    type(walk, "zzz");
    assert_shown(walk, "No choice has these letters");
    press(walk, PRESS_ENTER);
    press(walk, PRESS_ESCAPE);
    assert_shown(walk, ">Mouth diameter");
    walk_free(walk);
}

int main(void) {
    if (!keep_apart())
        return 1;
    const struct CMUnitTest tests[] = {
        IN_FOLDER(every_parameter_is_asked_for_once),
        IN_FOLDER(every_word_of_a_style_and_a_seam_is_explained),
        IN_FOLDER(every_starter_can_be_built_and_printed),
        IN_FOLDER(enter_alone_leads_to_the_templates_of_the_command_line),
        IN_FOLDER(each_step_asks_one_question),
        IN_FOLDER(the_cautions_stand_there_until_the_first_key),
        IN_FOLDER(sheets_are_counted_before_they_are_written),
        IN_FOLDER(the_paper_and_the_design_on_the_disk_belong_together),
        IN_FOLDER(a_mix_made_here_is_saved_without_a_warning),
        IN_FOLDER(a_design_in_the_place_of_the_paper_is_left_as_it_is),
        IN_FOLDER(a_second_design_of_the_same_name_does_not_touch_the_first),
        IN_FOLDER(the_answers_follow_the_choices_at_once),
        IN_FOLDER(a_warning_about_flight_stands_in_the_step_that_can_mend_it),
        IN_FOLDER(the_flight_page_is_that_of_the_command_line_and_scrolls),
        IN_FOLDER(the_help_lists_every_key_those_of_here_first),
        IN_FOLDER(the_styles_are_compared_on_a_page),
        IN_FOLDER(every_choice_is_found_by_its_name),
        IN_FOLDER(a_few_letters_are_enough_and_none_found_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
