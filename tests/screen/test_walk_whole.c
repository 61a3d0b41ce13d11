/* test_walk_whole.c - nothing that is said is cut short in silence, on the smallest screen: every
 * step, choice, drawing and message of every sample, and its bench. */
#include "screen/walking.h"

#include <dirent.h>

#include "screen/plainly.h"
#include "screen/words.h"

enum { COLUMNS = LAYOUT_COLUMNS_LEAST, ROWS = LAYOUT_ROWS_LEAST };

/* ---- looking at a part of the screen ---------------------------------------------------- */

struct screen {
    struct cell cell[COLUMNS * ROWS];
    char left[COLUMNS * ROWS + 1], right[COLUMNS * ROWS + 1], all[COLUMNS * ROWS + 1];
};

/* Glyphs of some columns without blanks: words broken over rows read on. */
static void read_columns(const struct screen *screen, long from, long to, char *into) {
    for (long row = 0; row < ROWS; row++)
        for (long column = from; column < to; column++) {
            char glyph = screen->cell[row * COLUMNS + column].glyph;
            if (glyph != ' ')
                *into++ = glyph;
        }
    *into = '\0';
}

static const struct screen *look(const struct walk *walk) {
    static struct screen screen;
    struct canvas canvas = {COLUMNS, ROWS, screen.cell};
    struct layout layout = layout_for(COLUMNS, ROWS);
    walk_draw(walk, &canvas);
    read_columns(&screen, 0, layout.area[AREA_CHOICES].columns, screen.left);
    read_columns(&screen, layout.area[AREA_PREVIEW].column, COLUMNS, screen.right);
    read_columns(&screen, 0, COLUMNS, screen.all);
    return &screen;
}

static bool stands(const char *part, const char *words) {
    char wanted[4096];
    size_t length = 0;
    for (; *words != '\0' && length + 1 < sizeof wanted; words++)
        if (*words != ' ' && *words != '\n')
            wanted[length++] = *words;
    wanted[length] = '\0';
    return strstr(part, wanted) != NULL;
}

static void assert_whole(const struct walk *walk, const char *part, const char *words,
                         const char *what) {
    if (words == NULL || stands(part, words))
        return;
    struct text text = picture(walk, COLUMNS, ROWS);
    fail_msg("%s is cut: '%s'\n%s", what, words, text.bytes);
}

/* ---- every choice ------------------------------------------------------------------------ */

static void check_message(const struct walk *walk) {
    struct text message = {0};
    walk_message(walk, &message);
    assert_whole(walk, look(walk)->all, message.bytes, "a message");
    text_free(&message);
}

static void check_choice(const struct walk *walk) {
    size_t count;
    const struct step_choice *choice = &step_choices(&count)[walk_choice(walk)];
    const struct parameter *p = &parameters(&count)[walk_parameter(walk)];
    struct text value = {0}, allowed = {0};
    whole_value(&walk->session->design, choice->key, &value);
    allowed_words(&walk->session->design, p, &allowed);
    const struct screen *screen = look(walk);
    assert_whole(walk, screen->left, choice->label, "a label");
    if (strcmp(choice->key, "gores.style") != 0) { /* there the styles are priced instead */
        assert_whole(walk, screen->left, value.bytes, "a value");
        assert_whole(walk, screen->left, choice_help(choice), "help");
        assert_whole(walk, screen->left, allowed.bytes, "what is allowed");
    }
    text_free(&value);
    text_free(&allowed);
}

/* The legend of the plan names every style that is built, and each gore has its number. */
static void check_plan(struct walk *walk) {
    const struct envelope *envelope = walk->session->envelope;
    press(walk, PRESS_HOME); /* where letters are keys */
    while (walk->view[walk->step] != PREVIEW_PLAN)
        press(walk, 'v');
    const struct screen *screen = look(walk);
    for (int style = 0; style < STYLE_COUNT; style++)
        if (envelope->style_count[style] > 0)
            assert_whole(walk, screen->right, style_name((enum style)style), "the legend");
    assert_whole(walk, screen->right, "gores across, rows up", "the legend");
}

static void check_right(const struct walk *walk) {
    const struct screen *screen = look(walk);
    if (walk->step == STEP_FLIGHT)
        for (size_t i = 0; i < walk->outlook.answers; i++)
            assert_whole(walk, screen->right, walk->outlook.answer[i].words, "an answer");
    if (walk->step == STEP_FLIGHT)
        assert_whole(walk, screen->right, "w: which style", "the last line of Flight");
    if (walk->step == STEP_PAPER)
        assert_whole(walk, screen->right, "glue by the letters.", "advice");
}

static void check_steps(struct walk *walk) {
    for (int step = 0; step < STEP_COUNT; step++) {
        size_t choice[CHOICES_MOST];
        size_t count = choices_of(walk->step, &walk->session->design, choice);
        press(walk, PRESS_HOME);
        for (size_t i = 0; i < count; i++) {
            check_choice(walk);
            check_message(walk);
            press(walk, PRESS_DOWN);
        }
        check_right(walk);
        if (walk->step != STEP_FLIGHT && walk->step != STEP_PAPER)
            check_plan(walk);
        press(walk, PRESS_PAGE_DOWN);
    }
}

/* ---- the bench --------------------------------------------------------------------------- */

/* A drawing stands beside the words: their end shows that they are all there. */
static void assert_ended(const struct walk *walk, const char *words, const char *what) {
    const char *blank = strrchr(words, ' ');
    assert_whole(walk, look(walk)->all, blank != NULL ? blank : words, what);
}

static void check_bench(struct walk *walk) {
    press(walk, 'b');
    assert_true(walk->at_bench);
    const struct bench *bench = &walk->bench;
    for (size_t t = 0; t < bench->envelope->templates; t++) {
        for (size_t s = 0; s < bench->marking.count; s++) {
            assert_ended(walk, bench->marking.step[s].words, "what to do");
            assert_whole(walk, look(walk)->all, bench->marking.step[s].name, "a name");
            press(walk, PRESS_RIGHT);
        }
        const char *colour =
            piece_colour(bench->design, &bench->envelope->piece[t], bench->at.gore);
        assert_whole(walk, look(walk)->all, colour, "the colour");
        press(walk, PRESS_DOWN);
    }
    press(walk, 'c');
    check_message(walk);
    press(walk, 'o');
    assert_whole(walk, look(walk)->all, ".nothingmmarkedccutssewn", "the letters");
    press(walk, PRESS_ESCAPE);
    press(walk, PRESS_ESCAPE);
}

/* ---- every sample ------------------------------------------------------------------------ */

static bool is_sample(const struct dirent *entry) {
    const char *dot = strrchr(entry->d_name, '.');
    return dot != NULL && strcmp(dot, ".cfg") == 0;
}

static void each_sample(void (*check)(struct walk *walk)) {
    char folder[1200], path[2000];
    size_t samples = 0;
    snprintf(folder, sizeof folder, "%s/samples", top_folder);
    DIR *all = opendir(folder);
    assert_non_null(all);
    for (struct dirent *entry; (entry = readdir(all)) != NULL;) {
        struct text file = {0};
        if (!is_sample(entry))
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        assert_int_equal(file_read(path, 1 << 20, &file), 0);
        scratch_file(entry->d_name, file.bytes);
        struct walk *walk = begin(entry->d_name);
        check(walk);
        walk_free(walk);
        text_free(&file);
        samples++;
    }
    closedir(all);
    assert_true(samples >= 5);
}

static void nothing_is_cut_on_the_steps_of_any_sample(void **state) {
    (void)state;
    each_sample(check_steps);
}

static void check_in_other_units(struct walk *walk) {
    set_value(walk, "paper.units", walk->session->design.paper.units == UNITS_MM ? "in" : "mm");
    press_times(walk, PRESS_PAGE_UP, STEP_COUNT);
    check_steps(walk);
}

static void nothing_is_cut_in_the_other_units_either(void **state) {
    (void)state;
    each_sample(check_in_other_units);
}

static void nothing_is_cut_at_the_bench_of_any_sample(void **state) {
    (void)state;
    each_sample(check_bench);
}

/* ---- the longest that can come ------------------------------------------------------------ */

static void the_longest_warning_about_flight_stands_to_its_end(void **state) {
    (void)state;
    static const struct {
        const char *key, *typed;
    } wrong[] = {{"air.ground", "-20"},
                 {"air.inside", "130"},
                 {"rig.basket", "5 kg"},
                 {"wind.expected", "15"},
                 {"heat.burner_power", "2 kW"},
                 {"tape.strength", "10 N"},
                 {"rigging.wire_strength", "10 N"}};
    for (size_t i = 0; i < COUNT_OF(wrong); i++) {
        in_scratch_folder(state);
        struct walk *walk = begin(NULL);
        set_value(walk, wrong[i].key, wrong[i].typed);
        assert_int_equal(walk->over, OVER_NOTHING);
        go_to(walk, "air.inside");
        press(walk, PRESS_DOWN);
        check_message(walk);
        for (size_t w = 0; w < walk->outlook.warnings.count; w++) {
            struct text words = {0};
            say_message(&walk->outlook.warnings.item[w], NULL, &words);
            walk_say(walk, CELL_WARNING, "%s", words.bytes);
            check_message(walk);
            text_free(&words);
        }
        walk_free(walk);
    }
}

static void the_longest_refusal_stands_at_the_field_to_its_end(void **state) {
    (void)state;
    static const struct {
        const char *key, *typed;
    } wrong[] = {{"rows.count", "2"},         {"gores.mix", "fhbfh"},
                 {"paper.sheet", "napkin"},   {"cloth.width", "twelve and a half"},
                 {"rig.others", "camera"},    {"outline.mouth_diameter", "3 m"},
                 {"gores.mix", "flat round"}, {"paper.measured_across", "1 m"},
                 {"cloth.selvedge", "95 mm"}, {"rows.shares", "1 2 x"}};
    for (size_t i = 0; i < COUNT_OF(wrong); i++) {
        in_scratch_folder(state);
        struct walk *walk = begin(NULL);
        if (strcmp(wrong[i].key, "rows.shares") == 0)
            set_value(walk, "rows.spacing", "given");
        set_value(walk, wrong[i].key, wrong[i].typed);
        if (walk->over == OVER_TYPING)
            assert_whole(walk, look(walk)->left, walk->fault.bytes, "a refusal");
        else
            check_message(walk);
        walk_free(walk);
    }
}

static void a_long_list_stands_whole_where_it_is_chosen(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    set_value(walk, "gores.count", "16");
    set_value(walk, "gores.mix", "fhbhfhbhfhbhfhbh");
    assert_shown(walk, " Styles in turn        16 styles ");
    check_choice(walk);
    set_value(walk, "gores.mix", "fhbh");
    assert_shown(walk, " Styles in turn        fhbh ");
    check_choice(walk);
    set_value(walk, "name", "A name of fifty letters that no narrow column can hold");
    check_choice(walk);
    walk_free(walk);
}

static void a_long_name_of_a_file_stands_whole_where_it_is_chosen(void **state) {
    static const char name[] = "the-second-envelope-of-the-evening-class-with-billowed-gores.cfg";
    (void)state;
    scratch_file(name, "format = 1;\nname = \"Long\";\n");
    struct walk *walk = begin(NULL);
    press(walk, 'o');
    assert_whole(walk, look(walk)->left, name, "a name in the list");
    press(walk, PRESS_ENTER);
    press_times(walk, PRESS_PAGE_DOWN, STEP_COUNT);
    assert_whole(walk, look(walk)->right,
                 "the-second-envelope-of-the-evening-class-with-billowed-gores-templates.ps",
                 "the name of the templates");
    walk_free(walk);
}

static void every_gore_has_its_number_on_the_plan(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    go_to(walk, "gores.count");
    press_times(walk, 'v', 3);
    assert_shown(walk, " 1 1 1 1 1 1 1\n");
    assert_shown(walk, " 1 2 3 4 5 6 7 8 9 0 1 2 3 4 5 6\n");
    walk_free(walk);
}

int main(void) {
    if (!keep_apart())
        return 1;
    const struct CMUnitTest tests[] = {
        IN_FOLDER(nothing_is_cut_on_the_steps_of_any_sample),
        IN_FOLDER(nothing_is_cut_in_the_other_units_either),
        IN_FOLDER(nothing_is_cut_at_the_bench_of_any_sample),
        IN_FOLDER(the_longest_warning_about_flight_stands_to_its_end),
        IN_FOLDER(the_longest_refusal_stands_at_the_field_to_its_end),
        IN_FOLDER(a_long_list_stands_whole_where_it_is_chosen),
        IN_FOLDER(a_long_name_of_a_file_stands_whole_where_it_is_chosen),
        IN_FOLDER(every_gore_has_its_number_on_the_plan),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
