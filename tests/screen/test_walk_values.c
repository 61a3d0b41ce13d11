/* test_walk_values.c - values typed and stepped, changes undone, and what one choice brings with
 * it. */
#include "screen/walking.h"

#include "screen/plainly.h"

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
    set_value(walk, "cloth.colour", "signal green");
    set_value(walk, "gores.style", "half");
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
static size_t times_in(const char *text, const char *words) {
    size_t times = 0;
    for (const char *at = text; (at = strstr(at, words)) != NULL; at += strlen(words))
        times++;
    return times;
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

/* ---- how typing begins ------------------------------------------------------------------------
 */

/* Choices that nothing but typing changes: a letter begins at once, as a digit does on a number. */
static void a_letter_begins_to_type_a_name_a_colour_or_a_list(void **state) {
    (void)state;
    static const struct {
        const char *key, *typed, *shown;
    } words[] = {{"name", "quiet heron", "quiet heron"},
                 {"cloth.colour", "dark red", "dark red"},
                 {"gores.mix", "fb", "faceted billowed"},
                 {"rig.others", "camera 120 g", "camera 120 g"}};
    for (size_t i = 0; i < COUNT_OF(words); i++) {
        struct walk *walk = begin(NULL);
        struct text text = {0};
        go_to(walk, words[i].key);
        assert_int_equal(walk_place(walk), IN_WORDS);
        assert_shown(walk, "a to z type");
        assert_not_shown(walk, "u undo");
        type(walk, words[i].typed);
        assert_int_equal(walk->over, OVER_TYPING);
        assert_string_equal(walk->field.bytes, words[i].typed);
        press(walk, PRESS_ENTER);
        assert_int_equal(walk_place(walk), IN_STEPS); /* and the next letter is a key */
        parameter_show(&walk->session->design, (size_t)parameter_find(words[i].key), &text);
        assert_string_equal(text.bytes, words[i].shown);
        text_free(&text);
        walk_free(walk);
    }
}

static void a_letter_typed_by_mistake_is_left_and_explained(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    const struct design before = walk->session->design;
    go_to(walk, "cloth.colour");
    press(walk, 'q');
    assert_false(walk->finished);
    assert_shown(walk, "This letter is typed here.");
    press(walk, PRESS_ESCAPE);
    press(walk, PRESS_UP);
    assert_shown(walk, "q quit");
    assert_true(design_same(&before, &walk->session->design));
    walk_free(walk);
}

/* Wherever Left and Right do something letters are keys: no step begins elsewhere. */
static void every_step_begins_where_letters_are_keys(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    for (int step = 0; step < STEP_COUNT; step++) {
        assert_int_equal(walk_place(walk), IN_STEPS);
        press(walk, PRESS_PAGE_DOWN);
    }
    walk_free(walk);
}

static void a_key_that_does_nothing_says_so(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    const struct design before = walk->session->design;
    press(walk, 'k');
    assert_shown(walk, "k does nothing here; ? lists the keys.");
    press(walk, PRESS_ESCAPE);
    assert_shown(walk, "Bksp goes a step back, q leaves.");
    assert_true(design_same(&before, &walk->session->design));
    walk_free(walk);
}

static void space_opens_a_value_to_be_typed_over_or_changed(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "size.volume");
    press(walk, ' ');
    assert_shown(walk, "Type to replace it");
    assert_shown(walk, "Ctrl-U clear");
    type(walk, "15");
    press(walk, PRESS_ENTER);
    assert_close(walk->session->design.size.volume_m3, 15, 1e-12, 0);
    press(walk, ' ');
    press_times(walk, PRESS_LEFT, 3);
    press(walk, PRESS_BACKSPACE);
    type(walk, "4");
    press(walk, PRESS_ENTER);
    assert_close(walk->session->design.size.volume_m3, 14, 1e-12, 0);
    press(walk, ' ');
    press(walk, PRESS_ENTER); /* as it was */
    assert_close(walk->session->design.size.volume_m3, 14, 0, 0);
    press(walk, ' ');
    press(walk, PRESS_ERASE_LINE);
    type(walk, "13");
    press(walk, PRESS_ENTER);
    assert_close(walk->session->design.size.volume_m3, 13, 1e-12, 0);
    walk_free(walk);
}

static void paper_can_be_chosen_without_typing(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "paper.sheet");
    assert_shown(walk, "< A4 >");
    press(walk, PRESS_RIGHT);
    assert_shown(walk, "< A3 >");
    press(walk, PRESS_LEFT);
    assert_string_equal(walk->session->design.paper.sheet, "A4");
    set_value(walk, "paper.sheet", "500x700mm");
    press(walk, PRESS_RIGHT);
    assert_string_equal(walk->session->design.paper.sheet, "A4");
    for (size_t i = 0; i < 20; i++) { /* each of them can be printed on */
        struct template_report report;
        struct diagnostics messages = {0};
        press(walk, PRESS_RIGHT);
        assert_int_equal(
            count_templates(&walk->session->sized, walk->session->envelope, &report, &messages), 0);
        diagnostics_free(&messages);
    }
    walk_free(walk);
}

/* ---- values as they read ----------------------------------------------------------------------
 */

/* No number on the left with more than three decimals, but small ones. */
static void check_decimals(const struct walk *walk) {
    struct text text = picture(walk, 80, 24);
    for (const char *at = text.bytes; (at = strchr(at, '.')) != NULL; at++) {
        size_t digits = strspn(at + 1, "0123456789");
        if (digits > 3 && at > text.bytes && at[-1] != '0')
            fail_msg("too many digits:\n%s", text.bytes);
    }
    text_free(&text);
}

static void inches_have_few_digits_and_are_kept_to_the_last(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "paper.units", "in");
    for (int step = 0; step < STEP_COUNT; step++) {
        size_t choice[CHOICES_MOST];
        size_t count = choices_of(walk->step, &walk->session->design, choice);
        press(walk, PRESS_HOME);
        for (size_t i = 0; i < count; i++) {
            const struct design before = walk->session->design;
            check_decimals(walk);
            press(walk, ' ');
            check_decimals(walk);
            press(walk, PRESS_ENTER);
            assert_int_equal(walk->over, OVER_NOTHING);
            assert_true(design_same(&before, &walk->session->design));
            press(walk, PRESS_DOWN);
        }
        press(walk, PRESS_PAGE_DOWN);
    }
    go_to(walk, "paper.margin");
    assert_shown(walk, ">White border        < 0.394 in >");
    assert_close(walk->session->design.paper.margin_m, 0.01, 0, 0);
    set_value(walk, "paper.margin", "3/8");
    assert_shown(walk, "< 3/8 in >");
    walk_free(walk);
}

static void the_printed_cross_is_asked_for_with_what_it_should_measure(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "paper.measured_across");
    assert_shown(walk, ">Cross read across   < not measured >");
    assert_shown(walk, "It should be 180 mm across; 171.5 to");
    assert_shown(walk, " 189.4 mm can be corrected.");
    press(walk, PRESS_RIGHT); /* begins with what it should measure */
    assert_shown(walk, ">Cross read across   < 180 mm >");
    press_times(walk, PRESS_LEFT, 3); /* by what a rule shows */
    assert_shown(walk, ">Cross read across   < 178.5 mm >");
    assert_close(walk->session->design.paper.measured_across_m, 0.1785, 1e-12, 0);
    press_times(walk, 'u', 3);
    press(walk, 'u');
    go_to(walk, "paper.measured_up");
    assert_shown(walk, "up the page;");
    set_value(walk, "paper.units", "in");
    go_to(walk, "paper.measured_across");
    assert_shown(walk, "It should be 7 in across;");
    walk_free(walk);
}

/* ---- messages by the names of the choices -------------------------------------------------------
 */

static void a_warning_begins_with_the_name_of_what_it_is_about(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "air.inside", "130");
    press(walk, PRESS_DOWN);
    assert_shown(walk, "Air inside: 130 C is more than the cloth may become");
    struct text message = {0};
    walk_message(walk, &message);
    assert_non_null(strstr(message.bytes, "120 C (Hottest it may be), and the crown"));
    text_free(&message);
    walk_free(walk);
}

static void a_list_of_styles_that_does_not_fit_is_told_which_would(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "gores.mix", "fhbfh");
    assert_int_equal(walk->over, OVER_TYPING);
    assert_non_null(strstr(walk->fault.bytes, "here are 5 styles, but Gores is 16"));
    assert_non_null(strstr(walk->fault.bytes, "write 1, 2, 4, 8 or 16 styles"));
    walk_free(walk);
}

static void plain_words_name_no_key_of_a_file(void **state) {
    (void)state;
    static const struct {
        const char *said, *plainly;
    } words[] = {
        {"but rows.count is 8", "but Rows is 8"},
        {"with size.by \"load\" it", "with Size is fixed by \"load\" it"},
        {"(cloth.hottest), and", "(Hottest it may be), and"},
        {"see seams.row_width.", "see Seam between rows, its width."},
        {"all masses of the group rig are 0; state what is carried, or write another word here",
         "nothing is carried; say what is carried"},
        {"3.5 m, heron.cfg and 1.2.3 stay", "3.5 m, heron.cfg and 1.2.3 stay"},
        {"my.rows.count stays", "my.rows.count stays"},
        {"no.such key", "no.such key"},
        {"", ""},
    };
    for (size_t i = 0; i < COUNT_OF(words); i++) {
        struct text text = {0};
        say_plainly(words[i].said, &text);
        assert_string_equal(text.length > 0 ? text.bytes : "", words[i].plainly);
        text_free(&text);
    }
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++) {
        char name[64];
        if (strcmp(p[i].key, "format") != 0)
            assert_null(strchr(plain_name(p[i].key, name), '.'));
    }
    const struct step_choice *choice = step_choices(&count);
    for (size_t i = 0; i < count; i++) {
        struct text text = {0};
        say_plainly(choice_help(&choice[i]), &text);
        assert_string_equal(text.bytes, choice_help(&choice[i]));
        text_free(&text);
    }
}

/* A minus sign is part of the number, not a key of the drawing. */
static void a_number_below_zero_is_typed_at_once(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "air.ground");
    type(walk, "-5");
    press(walk, PRESS_ENTER);
    assert_close(walk->session->design.air.ground_C, -5, 0, 1e-12);
    go_to(walk, "size.volume");
    type(walk, "-3");
    press(walk, PRESS_ENTER);
    assert_int_equal(walk->over, OVER_TYPING);
    assert_shown(walk, "out of range");
    walk_free(walk);
}

int main(void) {
    if (!keep_apart())
        return 1;
    const struct CMUnitTest tests[] = {
        IN_FOLDER(a_number_below_zero_is_typed_at_once),
        IN_FOLDER(a_value_is_taken_with_its_unit),
        IN_FOLDER(a_digit_begins_a_value_at_once),
        IN_FOLDER(a_wrong_value_is_explained_and_can_be_mended_or_left),
        IN_FOLDER(what_cannot_be_built_is_refused_at_the_field),
        IN_FOLDER(a_file_with_values_far_out_of_range_can_be_looked_at_and_mended),
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
        IN_FOLDER(a_size_given_up_is_not_stated_in_the_file),
        IN_FOLDER(a_size_that_a_file_states_in_vain_stays_there),
        IN_FOLDER(a_size_is_given_up_even_when_nothing_can_be_built),
        IN_FOLDER(a_table_begins_with_the_outline_as_it_was_and_can_be_left),
        IN_FOLDER(lists_keep_as_many_entries_as_there_are_rows),
        IN_FOLDER(a_letter_begins_to_type_a_name_a_colour_or_a_list),
        IN_FOLDER(a_letter_typed_by_mistake_is_left_and_explained),
        IN_FOLDER(every_step_begins_where_letters_are_keys),
        IN_FOLDER(a_key_that_does_nothing_says_so),
        IN_FOLDER(space_opens_a_value_to_be_typed_over_or_changed),
        IN_FOLDER(paper_can_be_chosen_without_typing),
        IN_FOLDER(inches_have_few_digits_and_are_kept_to_the_last),
        IN_FOLDER(the_printed_cross_is_asked_for_with_what_it_should_measure),
        IN_FOLDER(a_warning_begins_with_the_name_of_what_it_is_about),
        IN_FOLDER(a_list_of_styles_that_does_not_fit_is_told_which_would),
        IN_FOLDER(plain_words_name_no_key_of_a_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
