/* test_walk.c - the walk-through without a terminal: keys in, pictures out. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "screen/layout.h"
#include "screen/starters.h"
#include "screen/walk.h"

/* ---- pressing and looking --------------------------------------------------------- */

static void press(struct walk *walk, int key) {
    walk_key(walk, key);
    if (walk->finished)
        return;
    walk_settle(walk);
    while (walk_work(walk))
        walk_settle(walk);
}

static void type(struct walk *walk, const char *letters) {
    for (; *letters != '\0'; letters++)
        press(walk, (unsigned char)*letters);
}

static void press_times(struct walk *walk, int key, int times) {
    for (int i = 0; i < times; i++)
        press(walk, key);
}

/* A canvas of a size, in rows of glyphs, each row ended by a line feed. */
static struct text picture(const struct walk *walk, size_t columns, size_t rows) {
    struct canvas canvas = {columns, rows, malloc(columns * rows * sizeof(struct cell))};
    struct text text = {0};
    assert_non_null(canvas.cell);
    walk_draw(walk, &canvas);
    canvas_write(&canvas, &text);
    free(canvas.cell);
    return text;
}

static void assert_shown(const struct walk *walk, const char *words) {
    struct text text = picture(walk, 80, 24);
    if (strstr(text.bytes, words) == NULL)
        fail_msg("'%s' is not on the screen:\n%s", words, text.bytes);
    text_free(&text);
}

static void assert_not_shown(const struct walk *walk, const char *words) {
    struct text text = picture(walk, 80, 24);
    if (strstr(text.bytes, words) != NULL)
        fail_msg("'%s' is on the screen:\n%s", words, text.bytes);
    text_free(&text);
}

static struct walk *begin(const char *path) {
    struct diagnostics messages = {0};
    struct walk *walk = walk_new(path, &messages);
    if (walk == NULL)
        fail_msg("no walk: %s", messages.count > 0 ? messages.item[0].text : "no message");
    diagnostics_free(&messages);
    walk_settle(walk);
    return walk;
}

/* Put the cursor on a parameter, by the way a builder would find it. */
static void go_to(struct walk *walk, const char *key) {
    size_t count;
    const struct step_choice *choice = step_choices(&count);
    size_t wanted = 0;
    while (strcmp(choice[wanted].key, key) != 0)
        wanted++;
    while (walk->step < choice[wanted].step)
        press(walk, PRESS_PAGE_DOWN);
    while (walk->step > choice[wanted].step)
        press(walk, PRESS_PAGE_UP);
    press(walk, PRESS_HOME);
    for (int i = 0; i < CHOICES_MOST && walk_choice(walk) != wanted; i++)
        press(walk, PRESS_DOWN);
    if (walk_choice(walk) != wanted)
        fail_msg("%s is not asked for", key);
}

static void set_value(struct walk *walk, const char *key, const char *typed) {
    go_to(walk, key);
    press(walk, ' ');
    press(walk, PRESS_ERASE_LINE);
    type(walk, typed);
    press(walk, PRESS_ENTER);
}

static int in_scratch_folder(void **state) {
    char command[256];
    (void)state;
    snprintf(command, sizeof command, "rm -rf '%s'/* '%s'/.[a-z]*", scratch_folder(),
             scratch_folder());
    return system(command) == 0 && chdir(scratch_folder()) == 0 ? 0 : -1;
}

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

/* ---- editing ---------------------------------------------------------------------------- */

static void a_value_is_taken_with_its_unit(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "outline.mouth_diameter", "620 mm");
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_close(walk->session->design.outline.mouth_diameter_m, 0.62, 1e-12, 0);
    walk_free(walk);
}

static void a_digit_begins_a_value_at_once(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "size.volume");
    type(walk, "15");
    assert_int_equal(walk->over, OVER_TYPING);
    press(walk, PRESS_ENTER);
    assert_close(walk->session->design.size.volume_m3, 15, 1e-12, 0);
    walk_free(walk);
}

static void a_wrong_value_is_explained_and_can_be_mended_or_left(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    const struct design before = walk->session->design;
    go_to(walk, "size.volume");
    type(walk, "15 kg");
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->over, OVER_TYPING);
    assert_shown(walk, "is not a unit for a volume");
    assert_true(design_same(&before, &walk->session->design));
    press_times(walk, PRESS_BACKSPACE, 2);
    assert_not_shown(walk, "is not a unit for a volume");
    type(walk, "m3");
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_close(walk->session->design.size.volume_m3, 15, 1e-12, 0);
    type(walk, "0");
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->over, OVER_TYPING);
    press(walk, PRESS_ESCAPE);
    assert_close(walk->session->design.size.volume_m3, 15, 1e-12, 0);
    walk_free(walk);
}

static void what_cannot_be_built_is_refused_at_the_field(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "rows.count", "2"); /* panels taller than the cloth is wide */
    assert_int_equal(walk->over, OVER_TYPING);
    assert_true(walk->fault.length > 0);
    assert_int_equal(walk->session->design.rows.count, 8);
    assert_false(walk->session->stale);
    walk_free(walk);
}

/* Counts that no list has room for, in a file that is opened to be mended. */
static void a_file_with_values_far_out_of_range_can_be_looked_at_and_mended(void **state) {
    (void)state;
    static const char *const wrong[] = {"rows: { count = 500; };", "rows: { count = -3; };",
                                        "gores: { count = 500; };", "gores: { count = -1; };"};
    for (size_t i = 0; i < COUNT_OF(wrong); i++) {
        char file[160];
        snprintf(file, sizeof file, "format = 1;\nname = \"Avocet\";\n%s\n", wrong[i]);
        scratch_file("avocet.cfg", file);
        struct walk *walk = begin("avocet.cfg");
        go_to(walk, "gores.style");
        press(walk, 'w');
        press(walk, PRESS_ESCAPE);
        press(walk, 'p');
        press(walk, PRESS_ESCAPE);
        go_to(walk, "rows.spacing");
        press_times(walk, PRESS_RIGHT, 3);
        set_value(walk, "rows.count", "7");
        set_value(walk, "gores.count", "16");
        assert_false(walk->session->stale);
        walk_free(walk);
    }
}

static void steps_taken_in_a_hurry_end_where_single_ones_do(void **state) {
    (void)state;
    const char *const keys[] = {"gores.count", "outline.mouth_diameter", "gores.style",
                                "rows.count"};
    for (size_t i = 0; i < COUNT_OF(keys); i++) {
        struct walk *slow = begin(NULL), *fast = begin(NULL);
        go_to(slow, keys[i]);
        go_to(fast, keys[i]);
        press_times(slow, PRESS_RIGHT, 5);
        for (int j = 0; j < 5; j++)
            walk_key(fast, PRESS_RIGHT);
        walk_settle(fast);
        assert_true(design_same(&slow->session->design, &fast->session->design));
        walk_free(slow);
        walk_free(fast);
    }
}

static void steps_stop_at_the_last_value_that_can_be_built(void **state) {
    (void)state;
    struct walk *slow = begin(NULL), *fast = begin(NULL);
    go_to(slow, "rows.count");
    go_to(fast, "rows.count");
    press_times(slow, PRESS_LEFT, 7);
    for (int j = 0; j < 7; j++)
        walk_key(fast, PRESS_LEFT);
    walk_settle(fast);
    assert_in_range(slow->session->design.rows.count, 2, 7);
    assert_int_equal(slow->session->design.rows.count, fast->session->design.rows.count);
    assert_int_equal(slow->notice_kind, CELL_ERROR);
    assert_true(slow->notice.length > 0);
    walk_free(slow);
    walk_free(fast);
}

static void every_change_is_undone_and_done_again(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    const struct design first = walk->session->design;
    set_value(walk, "gores.count", "14");
    set_value(walk, "gores.style", "half");
    set_value(walk, "cloth.colour", "signal green");
    const struct design last = walk->session->design;
    press_times(walk, 'u', 3);
    assert_true(design_same(&first, &walk->session->design));
    press(walk, 'u');
    assert_shown(walk, "nothing to undo");
    press_times(walk, 'r', 3);
    assert_true(design_same(&last, &walk->session->design));
    walk_free(walk);
}

static void the_usual_value_can_be_put_back(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    const struct design first = walk->session->design;
    set_value(walk, "gores.count", "14");
    press(walk, 'd');
    assert_true(design_same(&first, &walk->session->design));
    walk_free(walk);
}

static void figures_that_moved_are_marked_and_others_are_not(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    assert_not_shown(walk, "*");
    set_value(walk, "gores.count", "14");
    assert_shown(walk, "Pieces 112*");
    assert_shown(walk, "was 128");
    assert_shown(walk, "Volume 12.00 m3 ");
    set_value(walk, "paper.sheet", "A3");
    assert_not_shown(walk, "*");
    walk_free(walk);
}

static void a_style_is_priced_before_it_is_chosen(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "gores.style");
    assert_shown(walk, "faceted    128 pieces");
    assert_shown(walk, "half-gore  256 pieces");
    assert_shown(walk, "billowed   128 pieces");
    press(walk, PRESS_RIGHT);
    assert_int_equal(walk->session->envelope->built.pieces, 256);
    assert_close(walk->costs.cost[HALF_GORE].seam_m,
                 walk->session->envelope->built.tape_seam_m +
                     walk->session->envelope->built.row_seam_m +
                     walk->session->envelope->built.ridge_seam_m,
                 1e-9, 0);
    walk_free(walk);
}

/* ---- what one choice brings with it ------------------------------------------------------ */

static void the_size_stays_when_something_else_fixes_it(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "size.by");
    for (int by = SIZE_HEIGHT; by <= SIZE_CLOTH_AREA; by++) {
        press(walk, PRESS_RIGHT);
        assert_int_equal(walk->session->design.size.by, by);
        assert_close(walk->session->envelope->built.volume_m3, 12, 0, 5e-3);
    }
    /* By table there is nothing to go by: the next word that can be built is taken, and it is
     * said why. */
    press(walk, PRESS_RIGHT);
    assert_int_equal(walk->session->design.size.by, SIZE_LOAD);
    assert_shown(walk, "Not \"table\":");
    press(walk, PRESS_RIGHT);
    assert_int_equal(walk->session->design.size.by, SIZE_VOLUME);
    assert_not_shown(walk, "Not \"table\":");
    walk_free(walk);
}

static void sized_by_its_load_it_is_as_large_as_the_rig_asks(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "size.by");
    press_times(walk, PRESS_LEFT, 1);
    assert_int_equal(walk->session->design.size.by, SIZE_LOAD);
    assert_int_equal(walk->session->sized.size.by, SIZE_VOLUME);
    double small_m3 = walk->session->envelope->built.volume_m3;
    assert_close(walk->session->sized.size.volume_m3, small_m3, 0, 1e-6);
    set_value(walk, "rig.others", "camera 400 g, flag 0.1 kg");
    assert_int_equal(walk->session->design.rig.others.count, 2);
    double large_m3 = walk->session->envelope->built.volume_m3;
    assert_true(large_m3 > 1.2 * small_m3);
    set_value(walk, "air.free_lift", "20 %");
    assert_true(walk->session->envelope->built.volume_m3 > large_m3);
    walk_free(walk);
}

static void a_choice_that_is_passed_over_is_named_with_the_reason(void **state) {
    (void)state;
    static const char *const rig[] = {"rig.burner", "rig.cylinder", "rig.fuel", "rig.basket",
                                      "rig.radio"};
    struct walk *walk = begin(NULL);
    for (size_t i = 0; i < COUNT_OF(rig); i++)
        set_value(walk, rig[i], "0");
    assert_shown(walk, "nothing is carried");
    set_value(walk, "size.by", "load");
    assert_int_equal(walk->over, OVER_TYPING);
    assert_true(walk->fault.length > 0);
    press(walk, PRESS_ESCAPE);
    press(walk, PRESS_LEFT);
    assert_int_equal(walk->session->design.size.by, SIZE_CLOTH_AREA);
    assert_shown(walk, "Not \"load\":");
    walk_free(walk);
}

static void paper_from_the_screens_is_that_of_the_command_line_by_load_too(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "size.by", "load");
    press_times(walk, PRESS_ENTER, STEP_COUNT);
    assert_true(walk->written);
    walk_free(walk);
    struct outcome outcome = run("cd %s && grep -q by.*load starter.cfg && "
                                 "$GW templates starter.cfg | cmp - starter-templates.ps && "
                                 "$GW sheets starter.cfg | cmp - starter-sheets.txt",
                                 scratch_folder());
    if (outcome.status != 0)
        fail_msg("%s%s", outcome.out, outcome.err);
    outcome_free(&outcome);
}

/* ---- will it fly ------------------------------------------------------------------------- */

/* What does not fit in the line being typed would be lost with Enter. */
static void the_longest_lists_can_be_typed_and_looked_at_unharmed(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    struct design design = walk->session->design;
    struct item_list *items = &design.rig.others;
    for (items->count = 0; items->count < ITEMS_MOST; items->count++) {
        memset(items->value[items->count].name, 'a' + (int)items->count, TEXT_MOST - 1);
        items->value[items->count].mass_kg = 0.0123456;
    }
    assert_true(walk_change(walk, &design));
    go_to(walk, "rig.others");
    press(walk, ' ');
    press(walk, PRESS_BACKSPACE);
    press(walk, 'g');
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_true(design_same(&design, &walk->session->design));
    walk_free(walk);
}

static void the_answers_follow_the_choices_at_once(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "rig.basket");
    assert_shown(walk, "2846 g, 1546 of it envelope");
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
    press_times(walk, PRESS_DOWN, 30);
    assert_shown(walk, "first inflation decides, on a tether");
    press_times(walk, PRESS_UP, 30);
    assert_shown(walk, "WILL IT FLY: Starter");
    press(walk, PRESS_ESCAPE);
    assert_int_equal(walk->over, OVER_NOTHING);
    text_free(&page);
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

static size_t times_in(const char *text, const char *words) {
    size_t times = 0;
    for (const char *at = text; (at = strstr(at, words)) != NULL; at += strlen(words))
        times++;
    return times;
}

static void save_as(struct walk *walk, const char *name) {
    press(walk, 'a');
    press(walk, PRESS_ERASE_LINE);
    type(walk, name);
    press(walk, PRESS_ENTER);
    if (access(name, F_OK) != 0)
        fail_msg("%s was not saved", name);
}

/* The warnings that a saved design gives, one on a line. */
static struct text warnings_of(const char *path) {
    struct design design;
    struct diagnostics messages = {0};
    struct text text = {0};
    text_add(&text, "%s", "");
    assert_int_equal(design_read(path, &design, NULL, &messages), 0);
    diagnostics_write(&messages, &text);
    diagnostics_free(&messages);
    return text;
}

static void a_size_given_up_is_not_stated_in_the_file(void **state) {
    (void)state;
    static const char *const by[] = {"height", "diameter", "gore-length", "cloth-area", "volume"};
    struct walk *walk = begin(NULL);
    set_value(walk, "size.volume", "14.5 m3");
    for (size_t i = 0; i < COUNT_OF(by); i++) {
        char name[32];
        snprintf(name, sizeof name, "%s.cfg", by[i]);
        set_value(walk, "size.by", by[i]);
        save_as(walk, name);
        struct text warnings = warnings_of(name);
        assert_string_equal(warnings.bytes, "");
        text_free(&warnings);
        struct text file = {0};
        assert_int_equal(file_read(name, 100000, &file), 0);
        assert_int_equal(times_in(file.bytes, "\n    # height = ") +
                             times_in(file.bytes, "\n    # diameter = ") +
                             times_in(file.bytes, "\n    # volume = ") +
                             times_in(file.bytes, "\n    # gore_length = ") +
                             times_in(file.bytes, "\n    # cloth_area = "),
                         4);
        text_free(&file);
    }
    assert_close(walk->session->design.size.volume_m3, 14.5, 0.02, 0);
    /* Undone, the figure is there again to the last digit. */
    while (walk->session->design.size.by != SIZE_VOLUME ||
           walk->session->design.size.volume_m3 != 14.5)
        press(walk, 'u');
    walk_free(walk);
}

static void a_size_that_a_file_states_in_vain_stays_there(void **state) {
    (void)state;
    scratch_file("two.cfg", "format = 1;\nname = \"Two\";\n"
                            "size: { by = \"volume\"; volume = 13.0; height = 3.3; };\n");
    struct walk *walk = begin("two.cfg");
    set_value(walk, "gores.count", "14");
    press(walk, 's');
    struct text file = {0};
    assert_int_equal(file_read("two.cfg", 100000, &file), 0);
    assert_int_equal(times_in(file.bytes, "\n    volume = 13.0;"), 1);
    assert_int_equal(times_in(file.bytes, "\n    height = 3.3;"), 1);
    text_free(&file);
    walk_free(walk);
}

static void a_size_is_given_up_even_when_nothing_can_be_built(void **state) {
    (void)state;
    struct design before, after;
    design_starter(&before);
    before.size.volume_m3 = 14.5;
    after = before;
    after.size.by = SIZE_HEIGHT;
    choice_follow("size.by", &before, NULL, &after);
    assert_close(after.size.volume_m3, 12, 0, 0);
    assert_close(after.size.height_m, before.size.height_m, 0, 0);
    after = before; /* once round, back to the same word */
    choice_follow("size.by", &before, NULL, &after);
    assert_close(after.size.volume_m3, 14.5, 0, 0);
}

static void a_table_begins_with_the_outline_as_it_was_and_can_be_left(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "outline.kind", "table");
    assert_int_equal(walk->session->design.outline.table.count, 9);
    assert_close(walk->session->envelope->built.height_m, 2.667, 0, 0.01);
    set_value(walk, "size.by", "table");
    assert_int_equal(walk->session->design.size.by, SIZE_TABLE);
    set_value(walk, "outline.kind", "natural");
    assert_int_equal(walk->session->design.outline.kind, OUTLINE_NATURAL);
    assert_int_equal(walk->session->design.size.by, SIZE_HEIGHT);
    assert_false(walk->session->stale);
    walk_free(walk);
}

static void lists_keep_as_many_entries_as_there_are_rows(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "rows.spacing", "given");
    assert_int_equal(walk->session->design.rows.shares.count, 8);
    set_value(walk, "gores.style", "billowed");
    set_value(walk, "bulge.stations", "0 0.05 0.1 0.1 0.1 0.1 0.1 0.05 0");
    assert_int_equal(walk->over, OVER_NOTHING);
    go_to(walk, "rows.count");
    press_times(walk, PRESS_RIGHT, 2);
    assert_int_equal(walk->session->design.rows.count, 10);
    assert_int_equal(walk->session->design.rows.shares.count, 10);
    assert_int_equal(walk->session->design.bulge.stations.count, 11);
    assert_close(walk->session->design.bulge.stations.value[10], 0, 0, 0);
    assert_close(walk->session->design.bulge.stations.value[5], 0.1, 1e-4, 0);
    assert_false(walk->session->stale);
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

/* ---- files
 * --------------------------------------------------------------------------------------- */

static void leaving_asks_only_when_something_would_be_lost(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press(walk, 'q');
    assert_true(walk->finished);
    walk_free(walk);
    walk = begin(NULL);
    set_value(walk, "gores.count", "14");
    press(walk, 'q');
    assert_false(walk->finished);
    assert_int_equal(walk->over, OVER_QUESTION);
    press(walk, PRESS_ESCAPE);
    assert_int_equal(walk->over, OVER_NOTHING);
    press(walk, 'q');
    press(walk, 'l');
    assert_true(walk->finished);
    walk_free(walk);
    assert_int_not_equal(access("starter.cfg", F_OK), 0);
}

static void leaving_can_save_first(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "gores.count", "14");
    press(walk, 'q');
    press(walk, 's');
    assert_int_equal(walk->over, OVER_TYPING);
    press(walk, PRESS_ENTER); /* the name that is offered */
    assert_true(walk->finished);
    walk_free(walk);
    walk = begin("starter.cfg");
    assert_int_equal(walk->session->design.gores.count, 14);
    walk_free(walk);
}

static void a_design_is_saved_and_saved_under_another_name(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    assert_shown(walk, "not saved");
    press(walk, 's');
    press(walk, PRESS_ERASE_LINE);
    type(walk, "heron.cfg");
    press(walk, PRESS_ENTER);
    assert_int_equal(access("heron.cfg", F_OK), 0);
    assert_shown(walk, "heron.cfg");
    assert_not_shown(walk, "not saved");
    set_value(walk, "gores.count", "14");
    assert_shown(walk, "not saved");
    press(walk, 'a');
    press(walk, PRESS_ERASE_LINE);
    type(walk, "egret.cfg");
    press(walk, PRESS_ENTER);
    assert_string_equal(walk->session->path, "egret.cfg");
    walk_free(walk);
    walk = begin("heron.cfg");
    assert_int_equal(walk->session->design.gores.count, 16);
    walk_free(walk);
}

static void a_file_of_the_same_name_is_asked_about(void **state) {
    (void)state;
    scratch_file("heron.cfg", "format = 1;\n# by hand\n");
    struct walk *walk = begin(NULL);
    press(walk, 'a');
    press(walk, PRESS_ERASE_LINE);
    type(walk, "heron.cfg");
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->over, OVER_QUESTION);
    press(walk, 'w');
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_string_equal(walk->session->path, "heron.cfg");
    assert_int_equal(access("heron.cfg.before", F_OK), 0);
    walk_free(walk);
}

static void a_design_is_opened_from_the_list(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    scratch_file("zebra.txt", "no design");
    struct walk *walk = begin(NULL);
    press(walk, 'o');
    assert_shown(walk, ">avocet.cfg");
    assert_not_shown(walk, "zebra");
    press(walk, PRESS_ENTER);
    assert_string_equal(walk->session->design.name, "Avocet");
    press(walk, 'o');
    press(walk, PRESS_DOWN);
    press(walk, PRESS_ENTER);
    type(walk, "zebra.txt");
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->notice_kind, CELL_ERROR);
    assert_string_equal(walk->session->design.name, "Avocet");
    walk_free(walk);
}

static void a_starter_is_chosen_by_what_it_is_good_for(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    press(walk, 'n');
    assert_shown(walk, "First envelope");
    press(walk, PRESS_ENTER);
    assert_string_equal(walk->session->design.name, "First envelope");
    press(walk, 'q');
    assert_true(walk->finished); /* nothing of one's own is lost */
    walk_free(walk);
}

static void the_second_instance_reads_only_and_says_so(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *first = begin("avocet.cfg"), *second = begin("avocet.cfg");
    assert_shown(second, "reads only");
    assert_not_shown(first, "reads only");
    press(second, 's');
    assert_int_equal(second->over, OVER_TYPING); /* another name */
    walk_free(second);
    walk_free(first);
}

/* The first one has not been at the bench: nothing holds the record, and yet. */
static void the_second_instance_makes_no_ticks(void **state) {
    (void)state;
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *first = begin("avocet.cfg"), *second = begin("avocet.cfg");
    press(second, 'b');
    assert_true(second->at_bench);
    press(second, 'm');
    assert_shown(second, "0 marked");
    assert_int_equal(access("avocet.cfg.bench", F_OK), -1);
    press(first, 'b');
    press(first, 'm');
    assert_shown(first, "1 marked");
    press(second, 'm');
    walk_free(second);
    walk_free(first);
}

static void work_cut_short_is_offered_again(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    set_value(walk, "gores.count", "14");
    assert_int_equal(session_write_recovery(walk->session, &messages), 0);
    walk_free(walk);
    walk = begin("avocet.cfg");
    assert_int_equal(walk->over, OVER_QUESTION);
    assert_shown(walk, "was cut short");
    press(walk, 't');
    assert_int_equal(walk->session->design.gores.count, 14);
    assert_shown(walk, "not saved");
    press(walk, 's');
    walk_free(walk);
    walk = begin("avocet.cfg");
    assert_int_equal(walk->over, OVER_NOTHING);
    assert_int_equal(walk->session->design.gores.count, 14);
    walk_free(walk);
    diagnostics_free(&messages);
}

static void work_cut_short_can_be_forgotten(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    scratch_file("avocet.cfg", "format = 1;\nname = \"Avocet\";\n");
    struct walk *walk = begin("avocet.cfg");
    set_value(walk, "gores.count", "14");
    assert_int_equal(session_write_recovery(walk->session, &messages), 0);
    walk_free(walk);
    walk = begin("avocet.cfg");
    press(walk, 'f');
    assert_int_equal(walk->session->design.gores.count, 16);
    walk_free(walk);
    walk = begin("avocet.cfg");
    assert_int_equal(walk->over, OVER_NOTHING);
    walk_free(walk);
    diagnostics_free(&messages);
}

/* ---- the bench
 * -------------------------------------------------------------------------------------- */

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

/* ---- pictures
 * ------------------------------------------------------------------------------------------ */

/* Bring a walk to each kind of picture in turn. */
enum { PICTURES = 23 };

static void to_picture(struct walk *walk, int number) {
    switch (number) {
    case 0:
    case 1:
    case 2:
    case 3:
        press_times(walk, PRESS_PAGE_DOWN, number);
        break;
    case 4:
        press_times(walk, PRESS_PAGE_DOWN, STEP_PAPER);
        break;
    case 5:
        go_to(walk, "gores.style");
        break;
    case 6:
        press(walk, '?');
        break;
    case 7:
        press(walk, '/');
        type(walk, "row");
        break;
    case 8:
        press(walk, 'n');
        break;
    case 9:
        go_to(walk, "size.volume");
        type(walk, "15 kg");
        press(walk, PRESS_ENTER);
        break;
    case 10:
        set_value(walk, "gores.count", "14");
        press(walk, 'q');
        break;
    case 11:
        press(walk, 'b');
        press(walk, PRESS_ENTER);
        break;
    case 12:
        press(walk, 'b');
        press(walk, PRESS_ENTER);
        press(walk, 'o');
        break;
    case 13:
        press(walk, 's');
        break;
    case 14:
        set_value(walk, "size.height", "3 m");
        break;
    case 16:
        go_to(walk, "air.inside");
        break;
    case 17:
        press(walk, 'p');
        break;
    case 18:
        press(walk, 'w');
        break;
    case 19:
        set_value(walk, "colours.cloths", "white, deep red, blue");
        break;
    case 20:
        set_value(walk, "colours.cloths", "white, deep red, blue");
        press(walk, PRESS_DOWN);
        press_times(walk, PRESS_RIGHT, 2);
        press(walk, 'v');
        assert_int_equal(walk->view[STEP_COLOURS], PREVIEW_SIDE);
        break;
    case 21:
        set_value(walk, "gores.count", "64");
        set_value(walk, "gores.style", "half-gore");
        set_value(walk, "colours.cloths", "white, red, blue, black, green, yellow, brown, grey");
        set_value(walk, "colours.fill", "scheme");
        set_value(walk, "colours.scheme_right", "R");
        press(walk, '>');
        break;
    case 22:
        set_value(walk, "colours.cloths", "white, deep red / 1.2 kg");
        break;
    default:
        go_to(walk, "gores.count");
        press_times(walk, 'v', 3);
        break;
    }
}

/* Cells around the canvas must stay as they were. */
static void draw_guarded(const struct walk *walk, size_t columns, size_t rows) {
    enum { GUARD = 300 };
    size_t cells = columns * rows;
    struct cell *cell = malloc((cells + 2 * GUARD) * sizeof *cell);
    assert_non_null(cell);
    memset(cell, 0x5A, (cells + 2 * GUARD) * sizeof *cell);
    struct canvas canvas = {columns, rows, cell + GUARD};
    walk_draw(walk, &canvas);
    for (size_t i = 0; i < GUARD; i++)
        if (cell[i].glyph != 0x5A || cell[GUARD + cells + i].glyph != 0x5A)
            fail_msg("drew outside a canvas of %zux%zu", columns, rows);
    for (size_t i = 0; i < cells; i++)
        if (cell[GUARD + i].glyph < ' ' || cell[GUARD + i].glyph > '~')
            fail_msg("not a letter on a canvas of %zux%zu", columns, rows);
    free(cell);
}

static void every_picture_stays_on_a_canvas_of_any_size(void **state) {
    const size_t columns[] = {1, 2, 7, 40, 79, 80, 81, 100, 132, 200};
    const size_t rows[] = {1, 2, 5, 23, 24, 25, 30, 43, 60};
    for (int number = 0; number < PICTURES; number++) {
        in_scratch_folder(state);
        struct walk *walk = begin(NULL);
        if (number != 14)
            to_picture(walk, number);
        for (size_t i = 0; i < COUNT_OF(columns); i++)
            for (size_t j = 0; j < COUNT_OF(rows); j++)
                draw_guarded(walk, columns[i], rows[j]);
        walk_free(walk);
    }
}

static void a_window_too_small_says_so_and_keys_still_work(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    struct text text = picture(walk, 79, 24);
    assert_non_null(strstr(text.bytes, "make the window larger (80x24)"));
    text_free(&text);
    set_value(walk, "gores.count", "14");
    assert_int_equal(walk->session->design.gores.count, 14);
    walk_free(walk);
}

static void the_line_of_keys_fits_and_names_help_and_quit(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    const char *const wanted[] = {"Enter go on", "Bksp back", "u undo",
                                  "s save",      "? help",    "q quit"};
    for (size_t i = 0; i < COUNT_OF(wanted); i++)
        assert_shown(walk, wanted[i]);
    walk_free(walk);
}

/* ---- colours ------------------------------------------------------------------------------ */

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
    press(walk, PRESS_DOWN);
    press(walk, PRESS_RIGHT);
    assert_int_equal(design_of(walk)->colours.fill, FILL_BANDS);
    assert_shown(walk, "2 R R R R R R R R R R R R R R R R");
    press_times(walk, 'u', 2);
    assert_int_equal(design_of(walk)->colours.cloths.count, 0);
    assert_int_equal(design_of(walk)->colours.fill, FILL_ONE);
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

/* ---- golden pictures
 * -------------------------------------------------------------------------------------- */

static char top_folder[1024];

/* The glyphs, and below them the kind of each cell as a letter: what colours and looks are
 * made from. */
static struct text golden_text(const struct walk *walk, size_t columns, size_t rows) {
    static const char kinds[] = ".sdtTLVC>hkwe!m";
    struct canvas canvas = {columns, rows, malloc(columns * rows * sizeof(struct cell))};
    struct text text = {0};
    assert_non_null(canvas.cell);
    assert_int_equal(sizeof kinds - 1, CELL_KIND_COUNT);
    walk_draw(walk, &canvas);
    canvas_write(&canvas, &text);
    for (size_t i = 0; i < columns * rows; i++) {
        text_add_bytes(&text, &kinds[canvas.cell[i].kind], 1);
        if (i % columns == columns - 1)
            text_add(&text, "\n");
    }
    free(canvas.cell);
    return text;
}

static void compare_golden(const char *name, const struct text *got) {
    char path[1280];
    snprintf(path, sizeof path, "%s/tests/golden/screens/%s", top_folder, name);
    const char *mode = getenv("GOLDEN");
    if (mode != NULL && strcmp(mode, "write") == 0) {
        FILE *file = fopen(path, "w");
        assert_non_null(file);
        fputs(got->bytes, file);
        fclose(file);
        return;
    }
    struct text want = {0};
    assert_int_equal(file_read(path, 1 << 20, &want), 0);
    assert_string_equal(got->bytes, want.bytes);
    text_free(&want);
}

static void screens_look_as_they_did(void **state) {
    static const size_t sizes[][2] = {{80, 24}, {100, 30}, {132, 43}};
    static const struct {
        const char *name;
        int picture;
    } screens[] = {{"size", 0},          {"shape", 1},           {"gores", 2},
                   {"cloth", 3},         {"paper", 4},           {"flight", 16},
                   {"page", 17},         {"style", 5},           {"colours", 19},
                   {"colours-side", 20}, {"colours-window", 21}, {"colours-wrong", 22},
                   {"find", 7},          {"wrong", 9},           {"bench", 11}};
    for (size_t i = 0; i < COUNT_OF(screens); i++) {
        in_scratch_folder(state);
        struct walk *walk = begin(NULL);
        to_picture(walk, screens[i].picture);
        for (size_t j = 0; j < COUNT_OF(sizes); j++) {
            char name[64];
            struct text text = golden_text(walk, sizes[j][0], sizes[j][1]);
            snprintf(name, sizeof name, "%s-%zux%zu.txt", screens[i].name, sizes[j][0],
                     sizes[j][1]);
            compare_golden(name, &text);
            text_free(&text);
        }
        walk_free(walk);
    }
}

#define IN_FOLDER(test) cmocka_unit_test_setup(test, in_scratch_folder)

int main(void) {
    if (getcwd(top_folder, sizeof top_folder) == NULL)
        return 1;
    setenv("XDG_STATE_HOME", scratch_folder(), 1);
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
        IN_FOLDER(a_value_is_taken_with_its_unit),
        IN_FOLDER(a_digit_begins_a_value_at_once),
        IN_FOLDER(a_wrong_value_is_explained_and_can_be_mended_or_left),
        IN_FOLDER(what_cannot_be_built_is_refused_at_the_field),
        IN_FOLDER(steps_taken_in_a_hurry_end_where_single_ones_do),
        IN_FOLDER(steps_stop_at_the_last_value_that_can_be_built),
        IN_FOLDER(every_change_is_undone_and_done_again),
        IN_FOLDER(the_usual_value_can_be_put_back),
        IN_FOLDER(figures_that_moved_are_marked_and_others_are_not),
        IN_FOLDER(a_style_is_priced_before_it_is_chosen),
        IN_FOLDER(the_size_stays_when_something_else_fixes_it),
        IN_FOLDER(sized_by_its_load_it_is_as_large_as_the_rig_asks),
        IN_FOLDER(a_choice_that_is_passed_over_is_named_with_the_reason),
        IN_FOLDER(paper_from_the_screens_is_that_of_the_command_line_by_load_too),
        IN_FOLDER(the_longest_lists_can_be_typed_and_looked_at_unharmed),
        IN_FOLDER(the_answers_follow_the_choices_at_once),
        IN_FOLDER(a_warning_about_flight_stands_in_the_step_that_can_mend_it),
        IN_FOLDER(the_flight_page_is_that_of_the_command_line_and_scrolls),
        IN_FOLDER(the_styles_are_compared_on_a_page),
        IN_FOLDER(a_size_given_up_is_not_stated_in_the_file),
        IN_FOLDER(a_size_that_a_file_states_in_vain_stays_there),
        cmocka_unit_test(a_size_is_given_up_even_when_nothing_can_be_built),
        IN_FOLDER(a_table_begins_with_the_outline_as_it_was_and_can_be_left),
        IN_FOLDER(lists_keep_as_many_entries_as_there_are_rows),
        IN_FOLDER(every_choice_is_found_by_its_name),
        IN_FOLDER(a_few_letters_are_enough_and_none_found_is_said),
        IN_FOLDER(leaving_asks_only_when_something_would_be_lost),
        IN_FOLDER(leaving_can_save_first),
        IN_FOLDER(a_design_is_saved_and_saved_under_another_name),
        IN_FOLDER(a_file_of_the_same_name_is_asked_about),
        IN_FOLDER(a_design_is_opened_from_the_list),
        IN_FOLDER(a_starter_is_chosen_by_what_it_is_good_for),
        IN_FOLDER(the_second_instance_reads_only_and_says_so),
        IN_FOLDER(the_second_instance_makes_no_ticks),
        IN_FOLDER(a_file_with_values_far_out_of_range_can_be_looked_at_and_mended),
        IN_FOLDER(work_cut_short_is_offered_again),
        IN_FOLDER(work_cut_short_can_be_forgotten),
        IN_FOLDER(the_bench_asks_for_a_name_first_and_keeps_its_ticks),
        IN_FOLDER(the_bench_follows_a_changed_design),
        IN_FOLDER(every_picture_stays_on_a_canvas_of_any_size),
        IN_FOLDER(a_window_too_small_says_so_and_keys_still_work),
        IN_FOLDER(the_line_of_keys_fits_and_names_help_and_quit),
        IN_FOLDER(a_striped_balloon_takes_two_names_and_a_key),
        IN_FOLDER(colours_made_here_are_saved_without_a_warning),
        IN_FOLDER(without_a_list_the_first_colour_stays),
        IN_FOLDER(bad_colours_are_explained_at_the_field_and_lose_nothing),
        IN_FOLDER(a_scheme_begins_as_the_pattern_before_it),
        IN_FOLDER(a_scheme_follows_the_numbers_of_gores_and_rows),
        IN_FOLDER(a_name_with_a_comma_survives_saving_opening_and_another_edit),
        IN_FOLDER(gores_without_room_are_reached),
        IN_FOLDER(wrong_colours_of_a_file_can_be_mended),
        IN_FOLDER(screens_look_as_they_did),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
