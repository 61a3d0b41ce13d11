/* previews.c - which drawing, in which part of the canvas. */
#include "screen/previews.h"

#include <stdlib.h>

#include "screen/preview_parts.h"

static const struct {
    const char *name;
    bool (*draw)(const struct preview_job *job, struct canvas *canvas);
} previews[PREVIEW_COUNT] = {
    [PREVIEW_SIDE] = {"from the side", preview_side},
    [PREVIEW_GORE] = {"one gore laid flat", preview_gore},
    [PREVIEW_PANEL] = {"one piece", preview_panel},
    [PREVIEW_SECTION] = {"from tape to tape", preview_section},
    [PREVIEW_PLAN] = {"all panels, unrolled", preview_plan},
    [PREVIEW_COLOURS] = {"colours: gores across, rows up", preview_colours},
};

const char *preview_name(enum preview preview) {
    return previews[preview].name;
}

size_t preview_widest_row(const struct envelope *envelope) {
    size_t widest = widest_station(envelope);
    return widest > 0 ? widest : 1;
}

/* ---- what is asked for -------------------------------------------------------- */

size_t preview_row(const struct preview_job *job) {
    size_t rows = job->envelope->rows;
    if (job->row == 0)
        return preview_widest_row(job->envelope);
    return job->row < rows ? job->row : rows;
}

enum style preview_style(const struct preview_job *job) {
    if (job->envelope->style_count[job->style] > 0)
        return job->style;
    for (int style = 0; style < STYLE_COUNT; style++)
        if (job->envelope->style_count[style] > 0)
            return (enum style)style;
    return job->style;
}

const struct piece *preview_piece(const struct preview_job *job) {
    enum style style = preview_style(job);
    enum side side = style != HALF_GORE        ? SIDE_WHOLE
                     : job->side == SIDE_RIGHT ? SIDE_RIGHT
                                               : SIDE_LEFT;
    return envelope_piece(job->envelope, style, side, preview_row(job));
}

bool preview_has_words(const struct canvas *canvas) {
    return canvas->columns >= PREVIEW_COLUMNS_LEAST && canvas->rows >= PREVIEW_ROWS_LEAST;
}

/* ---- the part of the canvas ----------------------------------------------------- */

bool preview_draw(enum preview preview, const struct preview_job *job, struct canvas *canvas,
                  struct canvas_box box) {
    if (!(box.columns >= 1 && box.rows >= 1 && box.columns <= PREVIEW_CELLS_MOST &&
          box.rows <= PREVIEW_CELLS_MOST))
        return true;
    struct canvas drawing = {(size_t)box.columns, (size_t)box.rows, NULL};
    drawing.cell = malloc(drawing.columns * drawing.rows * sizeof *drawing.cell);
    if (drawing.cell == NULL)
        return false;
    canvas_clear(&drawing);
    bool done = job->envelope == NULL || previews[preview].draw(job, &drawing);
    if (!done)
        canvas_clear(&drawing);
    canvas_paste(&drawing, canvas, (long)box.column, (long)box.row);
    free(drawing.cell);
    return done;
}
