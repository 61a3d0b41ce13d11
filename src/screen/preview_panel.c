/* preview_panel.c - one piece, as large as its room allows; and the envelope from the side. */
#include "gorewright/drawing.h"
#include "screen/preview_parts.h"

enum {
    ALLOWANCE_COLUMNS = 36, /* least for the words on allowances */
    SPARE_ROWS = 3          /* given up at most, that all lengths may stand */
};

bool preview_side(const struct preview_job *job, struct canvas *canvas) {
    struct canvas_box box = {0, 0, (double)canvas->columns, (double)canvas->rows};
    draw_side_view(job->design, job->envelope, canvas, box);
    return true;
}

bool preview_panel(const struct preview_job *job, struct canvas *canvas) {
    const struct sheet sheet = {job->design, job->envelope, preview_piece(job)};
    bool words = preview_has_words(canvas);
    const struct piece_look look = {
        .marks = words,
        .allowances = canvas->columns >= ALLOWANCE_COLUMNS,
        .lit = job->lit_edge,
        .words = CELL_LABEL,
        .lengths = CELL_DIMENSION,
    };
    if (sheet.piece == NULL)
        return true;
    for (int spare = 0; spare <= SPARE_ROWS; spare++) {
        struct canvas_box box = {0, 0, (double)canvas->columns, (double)canvas->rows - spare};
        struct canvas_view view = piece_view(&sheet, box, 0, 1, 1);
        canvas_clear(canvas);
        if (!draw_piece_lines(&sheet, &look, &view, canvas))
            return false;
        if (!words || draw_piece_words(&sheet, &look, &view, canvas))
            break;
    }
    return true;
}
