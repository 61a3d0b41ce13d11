/* press.c - open a design on the screens, press keys, draw each picture; no terminal.
 *
 * usage: press DESIGN KEY...
 * Given: KEY a letter, or one of the words below.  Each picture is of 80 columns, 24 rows; the
 * last one is printed.  What a key costs is the difference of two runs. */
#include <stdio.h>
#include <string.h>

#include "screen/keys.h"
#include "screen/walk.h"

enum { COLUMNS = 80, ROWS = 24 };

static const struct {
    const char *name;
    int key;
} words[] = {
    {"enter", PRESS_ENTER},         {"escape", PRESS_ESCAPE}, {"up", PRESS_UP},
    {"down", PRESS_DOWN},           {"left", PRESS_LEFT},     {"right", PRESS_RIGHT},
    {"page-down", PRESS_PAGE_DOWN}, {"end", PRESS_END},
};

/* Returns: 0 when there is no such key. */
static int key_named(const char *name) {
    for (size_t i = 0; i < COUNT_OF(words); i++)
        if (strcmp(words[i].name, name) == 0)
            return words[i].key;
    return strlen(name) == 1 ? (unsigned char)name[0] : 0;
}

static void draw(struct walk *walk, struct canvas *canvas) {
    walk_settle(walk);
    walk_draw(walk, canvas);
}

int main(int argc, char **argv) {
    static struct cell cell[COLUMNS * ROWS];
    struct canvas canvas = {COLUMNS, ROWS, cell};
    struct diagnostics messages = {0};
    struct text picture = {0};
    struct walk *walk = argc > 1 ? walk_new(argv[1], &messages) : NULL;
    if (walk == NULL) {
        fputs(argc > 1 ? "press: this design cannot be opened\n" : "usage: press DESIGN KEY...\n",
              stderr);
        return 2;
    }
    draw(walk, &canvas);
    for (int i = 2; i < argc && !walk->finished; i++) {
        int key = key_named(argv[i]);
        if (key == 0) {
            fprintf(stderr, "press: no such key: %s\n", argv[i]);
            return 2;
        }
        walk_key(walk, key);
        draw(walk, &canvas);
    }
    canvas_write(&canvas, &picture);
    fputs(picture.bytes, stdout);
    text_free(&picture);
    diagnostics_free(&messages);
    walk_free(walk);
    return 0;
}
