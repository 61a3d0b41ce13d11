/* press.c - open a design in the screens, press keys, draw each picture; no terminal.
 *
 * usage: press DESIGN KEY...
 * Given: KEY a letter, or one of the words below.  Each picture is of 80 columns, 24 rows.
 */
#include <stdio.h>
#include <string.h>

#include "screen/keys.h"
#include "screen/walk.h"

static const struct {
    const char *name;
    int key;
} words[] = {
    {"enter", PRESS_ENTER}, {"down", PRESS_DOWN},          {"up", PRESS_UP},
    {"right", PRESS_RIGHT}, {"page-down", PRESS_PAGE_DOWN}, {"left", PRESS_LEFT}, {"esc", PRESS_ESCAPE}, {"end", PRESS_END},
};

static int key_of(const char *name) {
    for (size_t i = 0; i < COUNT_OF(words); i++)
        if (strcmp(words[i].name, name) == 0)
            return words[i].key;
    return (unsigned char)name[0];
}

int main(int argc, char **argv) {
    static struct cell cell[80 * 24];
    struct canvas canvas = {80, 24, cell};
    struct diagnostics messages = {0};
    struct walk *walk = walk_new(argc > 1 ? argv[1] : NULL, &messages);
    if (walk == NULL)
        return 1;
    walk_settle(walk);
    walk_draw(walk, &canvas);
    for (int i = 2; i < argc && !walk->finished; i++) {
        walk_key(walk, key_of(argv[i]));
        walk_settle(walk);
        walk_draw(walk, &canvas);
    }
    struct text picture = {0};
    canvas_write(&canvas, &picture);
    fputs(picture.bytes, stdout);
    text_free(&picture);
    walk_free(walk);
    return 0;
}
