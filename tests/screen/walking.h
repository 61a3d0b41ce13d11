/* walking.h - the walk-through without a terminal: keys in, pictures out. */
#ifndef TESTS_SCREEN_WALKING_H
#define TESTS_SCREEN_WALKING_H

#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "screen/layout.h"
#include "screen/starters.h"
#include "screen/walk.h"

/* ---- pressing and looking --------------------------------------------------------- */

__attribute__((unused)) static void press(struct walk *walk, int key) {
    walk_key(walk, key);
    if (walk->finished)
        return;
    walk_settle(walk);
    while (walk_work(walk))
        walk_settle(walk);
}

__attribute__((unused)) static void type(struct walk *walk, const char *letters) {
    for (; *letters != '\0'; letters++)
        press(walk, (unsigned char)*letters);
}

__attribute__((unused)) static void press_times(struct walk *walk, int key, int times) {
    for (int i = 0; i < times; i++)
        press(walk, key);
}

/* A canvas of a size, in rows of glyphs, each row ended by a line feed. */
__attribute__((unused)) static struct text picture(const struct walk *walk, size_t columns,
                                                   size_t rows) {
    struct canvas canvas = {columns, rows, malloc(columns * rows * sizeof(struct cell))};
    struct text text = {0};
    assert_non_null(canvas.cell);
    walk_draw(walk, &canvas);
    canvas_write(&canvas, &text);
    free(canvas.cell);
    return text;
}

__attribute__((unused)) static void assert_shown(const struct walk *walk, const char *words) {
    struct text text = picture(walk, 80, 24);
    if (strstr(text.bytes, words) == NULL)
        fail_msg("'%s' is not on the screen:\n%s", words, text.bytes);
    text_free(&text);
}

__attribute__((unused)) static void assert_not_shown(const struct walk *walk, const char *words) {
    struct text text = picture(walk, 80, 24);
    if (strstr(text.bytes, words) != NULL)
        fail_msg("'%s' is on the screen:\n%s", words, text.bytes);
    text_free(&text);
}

__attribute__((unused)) static struct walk *begin(const char *path) {
    struct diagnostics messages = {0};
    struct walk *walk = walk_new(path, &messages);
    if (walk == NULL)
        fail_msg("no walk: %s", messages.count > 0 ? messages.item[0].text : "no message");
    diagnostics_free(&messages);
    walk_settle(walk);
    return walk;
}

/* Put the cursor on a parameter, by the way a builder would find it. */
__attribute__((unused)) static void go_to(struct walk *walk, const char *key) {
    size_t count;
    const struct step_choice *choice = step_choices(&count);
    size_t wanted = 0;
    while (strcmp(choice[wanted].key, key) != 0)
        wanted++;
    for (int i = 0; i < STEP_COUNT && walk->step < choice[wanted].step; i++)
        press(walk, PRESS_PAGE_DOWN);
    for (int i = 0; i < STEP_COUNT && walk->step > choice[wanted].step; i++)
        press(walk, PRESS_PAGE_UP);
    press(walk, PRESS_HOME);
    for (int i = 0; i < CHOICES_MOST && walk_choice(walk) != wanted; i++)
        press(walk, PRESS_DOWN);
    if (walk->over != OVER_NOTHING || walk_choice(walk) != wanted)
        fail_msg("%s cannot be gone to", key);
}

__attribute__((unused)) static void set_value(struct walk *walk, const char *key,
                                              const char *typed) {
    go_to(walk, key);
    press(walk, ' ');
    press(walk, PRESS_ERASE_LINE);
    type(walk, typed);
    press(walk, PRESS_ENTER);
}

__attribute__((unused)) static int in_scratch_folder(void **state) {
    char command[256];
    (void)state;
    snprintf(command, sizeof command, "rm -rf '%s'/* '%s'/.[a-z]*", scratch_folder(),
             scratch_folder());
    return system(command) == 0 && chdir(scratch_folder()) == 0 ? 0 : -1;
}

#define IN_FOLDER(test) cmocka_unit_test_setup(test, in_scratch_folder)

/* Where the tests were started, and nothing of theirs in the builder's own folders. */
static char top_folder[1024];
__attribute__((unused)) static bool keep_apart(void) {
    return getcwd(top_folder, sizeof top_folder) != NULL &&
           setenv("XDG_STATE_HOME", scratch_folder(), 1) == 0;
}

#endif
