/* test_any_keys.c - any keys on any design that can be opened: nothing crashes, the picture keeps
 * its layout, and undo leads back to the design as it was opened. */
#include "screen/walking.h"

#include <dirent.h>

#include "screen/session_file.h"

enum { DESIGNS_MOST = 400, SEEDS = 2, KEYS_EACH_TIME = 120, RANDOM_DESIGNS = 40 };

static struct text design_text[DESIGNS_MOST]; /* read before the folder is left */
static size_t designs;

/* ---- designs ---------------------------------------------------------------------- */

static int by_name(const void *a, const void *b) {
    return strcmp(*(char *const *)a, *(char *const *)b);
}

/* In the order of their names, whatever order the folder is in. */
static void gather(const char *folder) {
    char *name[DESIGNS_MOST], path[512];
    size_t names = 0;
    DIR *list = opendir(folder);
    assert_non_null(list);
    for (struct dirent *entry; (entry = readdir(list)) != NULL && names < DESIGNS_MOST;)
        if (strstr(entry->d_name, ".cfg") != NULL)
            assert_non_null(name[names++] = joined(entry->d_name, "", ""));
    closedir(list);
    qsort(name, names, sizeof name[0], by_name);
    for (size_t i = 0; i < names; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, name[i]);
        if (designs < DESIGNS_MOST && file_read(path, 1000000, &design_text[designs]) == 0 &&
            design_text[designs].length > 0)
            designs++;
        free(name[i]);
    }
}

static const double odd[] = {0, -1, 1, 2, 3, 0.001, 0.5, 17, 90, 64, 1000, 1e9, -1e9, 1e-9, 12.5};

/* One value stated far from what anybody would choose, often beyond its range. */
static void add_odd_value(struct dice *dice, const struct parameter *p, struct text *into) {
    const char *name = strchr(p->key, '.');
    double value = odd[dice_whole(dice, 0, (int)COUNT_OF(odd) - 1)];
    text_add(into, "%.*s: { %s = ", (int)(name - p->key), p->key, name + 1);
    if (p->type == PARAMETER_CHOICE)
        text_add(into, "\"%s\"", p->choices[dice_whole(dice, 0, (int)p->most)]);
    else if (p->type == PARAMETER_WHOLE)
        text_add(into, "%.0f", value);
    else
        text_add(into, "%.9f", value);
    text_add(into, "; };\n");
}

static bool in_same_group(const char *key, const char *other) {
    size_t length = strcspn(key, ".") + 1;
    return strncmp(key, other, length) == 0;
}

static void make_odd_design(struct dice *dice, struct text *into) {
    size_t count, taken[4], values = 0;
    const struct parameter *p = parameters(&count);
    text_add(into, "format = 1;\n");
    for (int tries = 0; tries < 40 && values < COUNT_OF(taken); tries++) {
        size_t i = (size_t)dice_whole(dice, 0, (int)count - 1);
        bool fits = strchr(p[i].key, '.') != NULL &&
                    (p[i].type == PARAMETER_WHOLE || p[i].type == PARAMETER_REAL ||
                     p[i].type == PARAMETER_CHOICE);
        for (size_t j = 0; j < values; j++)
            fits = fits && !in_same_group(p[taken[j]].key, p[i].key);
        if (!fits)
            continue;
        taken[values++] = i;
        add_odd_value(dice, &p[i], into);
    }
}

static int gather_designs(void **state) {
    struct dice dice = {2026};
    (void)state;
    text_add(&design_text[designs++], "format = 1;\n");
    gather("samples");
    gather("tests/golden/bad");
    for (int i = 0; i < RANDOM_DESIGNS && designs < DESIGNS_MOST; i++)
        make_odd_design(&dice, &design_text[designs++]);
    return setenv("XDG_STATE_HOME", scratch_folder(), 1);
}

static int forget_designs(void **state) {
    (void)state;
    while (designs > 0)
        text_free(&design_text[--designs]);
    return 0;
}

/* ---- keys ------------------------------------------------------------------------- */

#define ONE_OF(dice, keys) (keys)[dice_whole((dice), 0, (int)COUNT_OF(keys) - 1)]

/* What is wanted often where, and sometimes anything anywhere. */
static int random_key(const struct walk *walk, struct dice *dice) {
    static const int steps[] = {PRESS_RIGHT, PRESS_RIGHT, PRESS_LEFT, PRESS_DOWN,
                                PRESS_DOWN,  PRESS_UP,    PRESS_TAB,  PRESS_PAGE_DOWN,
                                'u',         'r',         'd',        '7',
                                'v',         '+',         PRESS_ENTER};
    static const int bench[] = {
        PRESS_ENTER, PRESS_DOWN, PRESS_PAGE_DOWN, 'm', 'c', 's', 'c', 'u', 'f', 'o', 't', '3'};
    static const int typing[] = {'0', '1', '2', '5', '.', ' ', 'm', 'f', PRESS_ENTER, PRESS_ENTER};
    static const int seldom[] = {
        PRESS_BACKSPACE,  PRESS_DELETE,    PRESS_HOME,   PRESS_END,   PRESS_PAGE_UP,  PRESS_F1,
        PRESS_ERASE_LINE, PRESS_INTERRUPT, PRESS_RESIZE, PRESS_OTHER, PRESS_BACK_TAB, PRESS_ESCAPE,
        PRESS_ESCAPE,     PRESS_ESCAPE,    0xC3,         0xA9,        0x01,           'b',
        PRESS_ENTER};
    static const char letters[] = "0123456789.,-+ /eabcdfgijklmnoprstuvwxyz?~\"(";
    int kind = dice_whole(dice, 0, 9);
    if (kind == 0)
        return letters[dice_whole(dice, 0, (int)sizeof letters - 2)];
    if (kind < 3)
        return ONE_OF(dice, seldom);
    return walk->over == OVER_TYPING ? ONE_OF(dice, typing)
           : walk->at_bench          ? ONE_OF(dice, bench)
                                     : ONE_OF(dice, steps);
}

/* A name that is typed must not lead out of the folder of the test. */
static bool leads_away(const struct walk *walk, int key) {
    bool name = walk->over == OVER_TYPING &&
                (walk->typing == TYPING_SAVE_AS || walk->typing == TYPING_OPEN);
    return name && (key == '/' || key == '~');
}

/* Writing is tried elsewhere: here it is put off, as by somebody who changes his mind. */
static void press_safely(struct walk *walk, int key) {
    if (leads_away(walk, key))
        return;
    walk_key(walk, key);
    walk->work = WORK_NONE;
    if (!walk->finished)
        walk_settle(walk);
}

/* ---- what holds whatever is pressed ------------------------------------------------ */

static const size_t sizes[][2] = {{80, 24}, {80, 24}, {100, 30}, {132, 43}, {200, 60},
                                  {79, 24}, {40, 12}, {1, 1},    {80, 25},  {81, 50}};

static void check_layout(struct walk *walk, struct dice *dice) {
    const size_t *size = sizes[dice_whole(dice, 0, (int)COUNT_OF(sizes) - 1)];
    draw_guarded(walk, size[0], size[1]);
    if (size[0] < 80 || size[1] < 24)
        return;
    struct text text = picture(walk, size[0], size[1]);
    const char *end_of_first = strchr(text.bytes, '\n'), *last = strrchr(text.bytes, '\n');
    assert_non_null(end_of_first);
    while (last > text.bytes && last[-1] != '\n')
        last--;
    const char *here = strchr(text.bytes, '[');
    if (here == NULL || here > end_of_first)
        fail_msg("no step is marked in the first row:\n%s", text.bytes);
    bool keys = strstr(last, "Esc") != NULL || strstr(last, "quit") != NULL ||
                strstr(last, "steps") != NULL || strstr(last, "? help") != NULL;
    if (!keys)
        fail_msg("the last row names no keys:\n%s", text.bytes);
    text_free(&text);
}

/* A design without changes is one as its file or a starter gave it. */
static void check_session(const struct walk *walk, struct design *opened) {
    const struct session *session = walk->session;
    if (session_undo_count(session) + session_redo_count(session) == 0) {
        assert_true(design_same(&session->design, session_saved(session)));
        *opened = session->design;
    }
    assert_true(session->envelope == NULL || session->envelope->templates > 0);
    assert_true(session->stale || session->envelope != NULL);
    assert_true(!session->stale || session->messages.errors > 0);
}

static void check_undo(struct walk *walk, const struct design *opened) {
    struct session *session = walk->session;
    while (session_redo(session))
        continue;
    const struct design latest = session->design;
    size_t changes = session_undo_count(session);
    for (size_t i = 0; i < changes; i++)
        assert_true(session_undo(session));
    assert_false(session_undo(session));
    assert_true(design_same(&session->design, opened));
    for (size_t i = 0; i < changes; i++)
        assert_true(session_redo(session));
    assert_true(design_same(&session->design, &latest));
}

/* ---- the test --------------------------------------------------------------------- */

struct sum {
    size_t opened, keys, changes, ticks;
};

/* What was saved in the folder before would be found by the next. */
static void begin_afresh(const struct text *content) {
    DIR *list = opendir(".");
    assert_non_null(list);
    for (struct dirent *entry; (entry = readdir(list)) != NULL;)
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0)
            (void)remove(entry->d_name);
    closedir(list);
    scratch_file("design.cfg", content->bytes);
}

static void press_any_keys(const struct text *content, unsigned seed, struct sum *sum) {
    struct dice dice = {seed};
    struct diagnostics messages = {0};
    begin_afresh(content);
    struct walk *walk = walk_new("design.cfg", &messages);
    diagnostics_free(&messages);
    if (walk == NULL)
        return; /* not to be mended here */
    walk_settle(walk);
    struct design opened = walk->session->design;
    for (int i = 0; i < KEYS_EACH_TIME && !walk->finished; i++) {
        const struct design before = walk->session->design;
        press_safely(walk, i == 0 && seed % 2 == 0 ? 'b' : random_key(walk, &dice));
        sum->keys++;
        if (walk->finished)
            break;
        sum->changes += !design_same(&before, &walk->session->design);
        sum->ticks += walk->at_bench && strstr(walk->bench.notice, "left to") != NULL;
        check_layout(walk, &dice);
        check_session(walk, &opened);
    }
    sum->opened++;
    check_undo(walk, &opened);
    walk_free(walk);
}

static void any_keys_on_any_design_that_can_be_opened(void **state) {
    (void)state;
    struct sum sum = {0};
    assert_int_equal(chdir(scratch_folder()), 0);
    for (unsigned seed = 1; seed <= SEEDS; seed++)
        for (size_t i = 0; i < designs; i++)
            press_any_keys(&design_text[i], 1000 * seed + (unsigned)i, &sum);
    print_message("%zu designs, opened %zu times: %zu keys, %zu changes, %zu ticks\n", designs,
                  sum.opened, sum.keys, sum.changes, sum.ticks);
    assert_true(sum.opened >= 100);
    assert_true(sum.keys >= 10000);
    assert_true(sum.changes >= 500);
    assert_true(sum.ticks >= 100);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_keys_on_any_design_that_can_be_opened),
    };
    return cmocka_run_group_tests(tests, gather_designs, forget_designs) == 0 ? 0 : 1;
}
