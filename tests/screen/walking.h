/* walking.h - the walk-through in tests: keys pressed, and what the screen shows. */
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

#define UNUSED __attribute__((unused)) /* in some of the drivers */

UNUSED static void press(struct walk *walk, int key) {
    walk_key(walk, key);
    if (walk->finished)
        return;
    walk_settle(walk);
    while (walk_work(walk))
        walk_settle(walk);
}

UNUSED static void type(struct walk *walk, const char *letters) {
    for (; *letters != '\0'; letters++)
        press(walk, (unsigned char)*letters);
}

UNUSED static void press_times(struct walk *walk, int key, int times) {
    for (int i = 0; i < times; i++)
        press(walk, key);
}

/* A canvas of a size, in rows of glyphs, each row ended by a line feed. */
UNUSED static struct text picture(const struct walk *walk, size_t columns, size_t rows) {
    struct canvas canvas = {columns, rows, malloc(columns * rows * sizeof(struct cell))};
    struct text text = {0};
    assert_non_null(canvas.cell);
    walk_draw(walk, &canvas);
    canvas_write(&canvas, &text);
    free(canvas.cell);
    return text;
}

/* Every cell a letter, and none outside the canvas; the cursor is on it or hidden. */
UNUSED static void draw_guarded(const struct walk *walk, size_t columns, size_t rows) {
    enum { GUARD = 300 };
    size_t cells = columns * rows;
    struct cell *cell = malloc((cells + 2 * GUARD) * sizeof *cell);
    assert_non_null(cell);
    memset(cell, 0x5A, (cells + 2 * GUARD) * sizeof *cell);
    struct canvas canvas = {columns, rows, cell + GUARD};
    struct canvas_place cursor = walk_draw(walk, &canvas);
    bool hidden = cursor.column < 0 && cursor.row < 0;
    if (!hidden && !(cursor.column >= 0 && cursor.column < (double)columns && cursor.row >= 0 &&
                     cursor.row < (double)rows))
        fail_msg("the cursor is outside a canvas of %zux%zu", columns, rows);
    for (size_t i = 0; i < GUARD; i++)
        if (cell[i].glyph != 0x5A || cell[GUARD + cells + i].glyph != 0x5A)
            fail_msg("drew outside a canvas of %zux%zu", columns, rows);
    for (size_t i = 0; i < cells; i++)
        if (cell[GUARD + i].glyph < ' ' || cell[GUARD + i].glyph > '~' ||
            cell[GUARD + i].kind >= CELL_KIND_COUNT)
            fail_msg("not a letter on a canvas of %zux%zu", columns, rows);
    free(cell);
}

UNUSED static void assert_shown(const struct walk *walk, const char *words) {
    struct text text = picture(walk, 80, 24);
    if (strstr(text.bytes, words) == NULL)
        fail_msg("'%s' is not on the screen:\n%s", words, text.bytes);
    text_free(&text);
}

UNUSED static void assert_not_shown(const struct walk *walk, const char *words) {
    struct text text = picture(walk, 80, 24);
    if (strstr(text.bytes, words) != NULL)
        fail_msg("'%s' is on the screen:\n%s", words, text.bytes);
    text_free(&text);
}

UNUSED static struct walk *begin(const char *path) {
    struct diagnostics messages = {0};
    struct walk *walk = walk_new(path, &messages);
    if (walk == NULL)
        fail_msg("no walk: %s", messages.count > 0 ? messages.item[0].text : "no message");
    diagnostics_free(&messages);
    walk_settle(walk);
    return walk;
}

/* Put the cursor on a parameter, by the way a builder would find it. */
UNUSED static void go_to(struct walk *walk, const char *key) {
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

UNUSED static void set_value(struct walk *walk, const char *key, const char *typed) {
    go_to(walk, key);
    press(walk, ' ');
    press(walk, PRESS_ERASE_LINE);
    type(walk, typed);
    press(walk, PRESS_ENTER);
}

UNUSED static int in_scratch_folder(void **state) {
    char command[256];
    (void)state;
    snprintf(command, sizeof command, "rm -rf '%s'/* '%s'/.[a-z]*", scratch_folder(),
             scratch_folder());
    /* Work that is kept for whoever runs the tests is none of theirs. */
    if (setenv("XDG_STATE_HOME", scratch_folder(), 1) != 0)
        return -1;
    return system(command) == 0 && chdir(scratch_folder()) == 0 ? 0 : -1;
}

UNUSED static void save_as(struct walk *walk, const char *name) {
    press(walk, 'a');
    press(walk, PRESS_ERASE_LINE);
    type(walk, name);
    press(walk, PRESS_ENTER);
    if (access(name, F_OK) != 0)
        fail_msg("%s was not saved", name);
}

#define IN_FOLDER(test) cmocka_unit_test_setup(test, in_scratch_folder)

#endif

/* Where the tests were started, and nothing of theirs in the builder's own folders. */
static char top_folder[1024];
UNUSED static bool keep_apart(void) {
    return getcwd(top_folder, sizeof top_folder) != NULL &&
           setenv("XDG_STATE_HOME", scratch_folder(), 1) == 0;
}
