/* waiting.c - how far the sheets are, while someone waits at a terminal. */
#include <unistd.h>

#include "command/output.h"
#include "command/waiting.h"

enum {
    SHEETS_LEAST = 200, /* fewer are done before the line is read */
    LINES_MOST = 40     /* written one after the other: by counting, not by the clock */
};

/* Blanks over the line, for a terminal that knows nothing but the carriage return. */
static void wipe(struct waiting *waiting, struct text *into) {
    if (waiting->width > 0)
        text_add(into, "\r%*s\r", (int)waiting->width, "");
    waiting->width = 0;
}

static void tell(void *context, size_t done, size_t of) {
    struct waiting *waiting = context;
    struct text line = {0};
    if (!waiting->seen || of < SHEETS_LEAST)
        return;
    if (done == of) {
        wipe(waiting, &line);
    } else if (done % (of / LINES_MOST) == 0) {
        text_add(&line, "\rsheet %zu of %zu", done, of);
        waiting->width = line.length > 0 ? line.length - 1 : 0;
    }
    output_messages(&line);
    text_free(&line);
}

struct progress show_progress(struct waiting *waiting) {
    *waiting = (struct waiting){.seen = isatty(STDERR_FILENO) == 1};
    return (struct progress){.tell = tell, .context = waiting};
}

bool show_layout_progress(void *context, const struct layout_progress *progress) {
    struct waiting *waiting = context;
    struct text line = {0};
    double step = 1.0 / LINES_MOST;
    if (!waiting->seen || progress->done < waiting->shown + step)
        return true;
    waiting->shown = progress->done;
    text_add(&line, "\rlayout %.0f %%: %.2f m so far   ", 100 * progress->done, progress->length_m);
    waiting->width = line.length > waiting->width ? line.length - 1 : waiting->width;
    output_messages(&line);
    text_free(&line);
    return true;
}

void show_layout_end(struct waiting *waiting) {
    struct text line = {0};
    wipe(waiting, &line);
    output_messages(&line);
    text_free(&line);
}
