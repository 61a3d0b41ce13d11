/* walk_help.c - help: the keys from their table, and how the screens work. */
#include <stdio.h>
#include <string.h>

#include "screen/layout.h"
#include "screen/words.h"

enum { KEY_COLUMNS = 12 };

static const char *const sentences[] = {
    "Answer what you like, press Enter, and go on: every choice already has a usual value, and "
    "Enter alone leads to templates for a balloon that can be built.",
    "Enter goes on with what is shown, everywhere, and Space does the same; but on the steps Space "
    "opens a value to be typed.  Bksp goes back; Esc leaves what lies on top.  Up and Down go from "
    "one thing to the next, "
    "Left and Right through what it holds.  PgDn and PgUp go by the larger part: a step, a gore, a "
    "page; Home and End to the first and the last.",
    "On the steps letters are keys, wherever Left and Right change the value.  On a name, a colour "
    "or a list they are typed.",
    "Values take units: 3.2 m, 320 cm, 85 mm, 12 15/16 in, 10 ft 6 in, 40 g/m2.",
    "A star marks each figure that the last change moved; what it was stands below it.",
    "A calculation is never the last word: the first inflation is.  Fire, gas, heat, height and "
    "lines can hurt you and bystanders: follow the rules of the place where you fly, and leave "
    "gas fittings to people licensed for them.",
};

struct help_page {
    struct canvas *canvas; /* NULL: only counted */
    struct area_box box;
    long row, top; /* of the whole text, and the first shown */
};

/* Words from the present row on, as far as they are on the page.  Returns: rows they take. */
static long write_line(struct help_page *page, enum cell_kind kind, long indent,
                       const char *words) {
    struct cell cell;
    struct canvas nowhere = {0, 0, &cell};
    struct area_box box = page->box;
    long above = page->top - page->row;
    box.column += indent;
    box.columns -= indent;
    box.row -= above;
    if (page->canvas != NULL && above > -page->box.rows) {
        box.rows += above;
        put_words_from(page->canvas, box, above, kind, words);
    }
    box.rows = 100;
    return put_words(&nowhere, box, kind, words);
}

static void write_words(struct help_page *page, enum cell_kind kind, long indent,
                        const char *words) {
    page->row += write_line(page, kind, indent, words);
}

static void write_keys(struct help_page *page, enum place place) {
    size_t count;
    const struct key_entry *entry = key_entries(&count);
    page->row++;
    write_words(page, CELL_TITLE, 0, place_heading(place));
    for (size_t i = 0; i < count; i++) {
        if (entry[i].place != place)
            continue;
        write_line(page, CELL_KEY, 1, entry[i].shown);
        write_words(page, CELL_TEXT, KEY_COLUMNS, entry[i].words);
    }
}

static long write_help(const struct walk *walk, struct canvas *canvas, struct area_box box) {
    struct help_page page = {canvas, box, 0, walk->help_top};
    enum place here = walk_place_below(walk);
    write_words(&page, CELL_TITLE, 0, "Help");
    for (size_t i = 0; i < COUNT_OF(sentences); i++)
        write_words(&page, CELL_TEXT, 0, sentences[i]);
    write_keys(&page, here);
    for (int place = 0; place < PLACE_COUNT; place++)
        if (place != (int)here)
            write_keys(&page, (enum place)place);
    return page.row;
}

long help_rows(const struct walk *walk, long columns) {
    return write_help(walk, NULL, (struct area_box){0, 0, columns, 0});
}

void draw_help(const struct walk *walk, struct canvas *canvas) {
    struct layout layout = layout_for((long)canvas->columns, (long)canvas->rows);
    struct area_box box = {0, 1, (long)canvas->columns, layout.area[AREA_KEYS].row - 1};
    write_help(walk, canvas, box);
}

/* ---- a page of text ------------------------------------------------------------------ */

long page_rows(const struct walk *walk) {
    long rows = 0;
    for (size_t i = 0; i < walk->page.length; i++)
        rows += walk->page.bytes[i] == '\n';
    return rows;
}

static enum cell_kind kind_of_line(const char *line, long row) {
    bool heading = row == 0 || (line[0] >= '0' && line[0] <= '9');
    return heading ? CELL_TITLE : CELL_TEXT;
}

void draw_page(const struct walk *walk, struct canvas *canvas) {
    struct layout layout = layout_for((long)canvas->columns, (long)canvas->rows);
    const char *at = walk->page.bytes;
    long last = walk->help_top + layout.area[AREA_KEYS].row - 2;
    for (long row = 0; *at != '\0' && row <= last; row++) {
        char line[128];
        size_t length = strcspn(at, "\n");
        snprintf(line, sizeof line, "%.*s", (int)length, at);
        if (row >= walk->help_top)
            canvas_put(canvas, 1, 1 + row - walk->help_top, kind_of_line(line, row), line);
        at += length + (at[length] == '\n');
    }
}
