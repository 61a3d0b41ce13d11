/* screen.c - the main loop: draw, sleep, take what was typed. */
#include "gorewright/screen.h"

#include <stdlib.h>
#include <unistd.h>

#include "screen/terminal.h"
#include "screen/walk.h"

static bool fit_canvas(struct canvas *canvas) {
    size_t columns, rows;
    terminal_size(&columns, &rows);
    if (canvas->cell != NULL && columns == canvas->columns && rows == canvas->rows)
        return true;
    struct cell *cell = realloc(canvas->cell, columns * rows * sizeof *cell);
    if (cell == NULL)
        return false;
    canvas->cell = cell;
    canvas->columns = columns;
    canvas->rows = rows;
    return true;
}

static bool show(struct walk *walk, struct canvas *canvas) {
    if (!fit_canvas(canvas))
        return false;
    struct canvas_place cursor = walk_draw(walk, canvas);
    terminal_show(canvas, (long)cursor.column, (long)cursor.row);
    return true;
}

/* Everything that waits is taken before anything is worked out anew.
 * Returns: false when the end was asked for from outside. */
static bool take_keys(struct walk *walk) {
    for (int key = terminal_wait(); key != 0 && !walk->finished; key = terminal_next()) {
        if (key == PRESS_END_NOW)
            return false;
        if (key == PRESS_REDRAW || key == PRESS_RESIZE)
            terminal_repaint();
        walk_key(walk, key);
        if (walk->work != WORK_NONE)
            break;
    }
    return true;
}

/* Returns: false when it ended from outside or memory was short. */
static bool converse(struct walk *walk, struct canvas *canvas) {
    while (!walk->finished) {
        walk_settle(walk);
        if (!show(walk, canvas))
            return false;
        if (walk_work(walk))
            continue;
        if (!take_keys(walk))
            return false;
    }
    return true;
}

bool screen_has_terminal(void) {
    return isatty(STDIN_FILENO) && isatty(STDOUT_FILENO);
}

int screen_run(const struct screen_wishes *wishes, struct text *farewell) {
    struct diagnostics messages = {0};
    struct text complaint = {0};
    struct canvas canvas = {0};
    int status = -1;
    struct walk *walk = walk_new(wishes->path, &messages);
    if (walk == NULL) {
        diagnostics_write(&messages, farewell);
        goto out;
    }
    if (terminal_open(wishes->mono, &complaint) != 0) {
        text_add(farewell, "gorewright: %s\n", complaint.bytes);
        goto out;
    }
    bool left = converse(walk, &canvas);
    terminal_close();
    if (left)
        status = 0;
    else
        walk_keep_work(walk, farewell);
out:
    walk_free(walk);
    free(canvas.cell);
    text_free(&complaint);
    diagnostics_free(&messages);
    return status;
}
