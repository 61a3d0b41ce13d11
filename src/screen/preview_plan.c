/* preview_plan.c - every panel as a cell of letters: gores across, rows up. */
#include <stdio.h>
#include <string.h>

#include "screen/preview_parts.h"

enum { CELL_COLUMNS_MOST = 8, CELL_ROWS_MOST = 4, NUMBER_COLUMNS = 3 };

/* Cells of the plan on the canvas.  Where there are more gores or rows than room, only every
 * second, third... is shown. */
struct plan {
    const struct preview_job *job;
    struct canvas *canvas;
    size_t gores, rows;         /* shown */
    size_t gore_step, row_step; /* between those shown */
    size_t wide, tall;          /* of one cell, with the blank after it */
    size_t column, row;         /* upper left corner of the cells */
    bool words;
};

static size_t smaller(size_t a, size_t b) {
    return a < b ? a : b;
}

/* Shares `room` among `count`, at most `most` each; steps over some where there is no room. */
static void share(size_t room, size_t count, size_t most, size_t *step, size_t *shown,
                  size_t *each) {
    *step = room > 0 ? (count + room - 1) / room : count;
    *shown = (count + *step - 1) / *step;
    *each = smaller(room / *shown, most);
    if (*each == 0)
        *each = 1;
}

static struct plan lay_out(const struct preview_job *job, struct canvas *canvas) {
    struct plan plan = {.job = job, .canvas = canvas, .words = preview_has_words(canvas)};
    size_t left = plan.words ? NUMBER_COLUMNS : 0, foot = plan.words ? 3 : 0;
    share(canvas->columns - left, job->envelope->gores, CELL_COLUMNS_MOST, &plan.gore_step,
          &plan.gores, &plan.wide);
    share(canvas->rows - foot, job->envelope->rows, CELL_ROWS_MOST, &plan.row_step, &plan.rows,
          &plan.tall);
    plan.column = left + (canvas->columns - left - plan.gores * plan.wide) / 2;
    plan.row = 0;
    return plan;
}

/* ---- letters ---------------------------------------------------------------------- */

static char style_letter(const struct preview_job *job, size_t gore) {
    return "FHB"[job->envelope->gore_style[gore - 1]];
}

static char letter_of(const struct preview_job *job, size_t gore, size_t row) {
    if (job->letter == NULL)
        return style_letter(job, gore);
    char letter = job->letter(job->letter_context, gore, row);
    return letter >= ' ' && letter <= '~' ? letter : '?';
}

/* A blank parts cells of three columns or more, and of three rows or more. */
static void fill_cell(const struct plan *plan, size_t across, size_t up) {
    size_t gore = across * plan->gore_step + 1, row = up * plan->row_step + 1;
    size_t wide = plan->wide - (plan->wide > 2), tall = plan->tall - (plan->tall > 2);
    char letter = letter_of(plan->job, gore, row);
    bool lit = gore == plan->job->lit_gore;
    for (size_t r = 0; r < tall; r++)
        for (size_t c = 0; c < wide; c++) {
            size_t at_row = plan->row + (plan->rows - 1 - up) * plan->tall + r;
            size_t at = at_row * plan->canvas->columns + plan->column + across * plan->wide + c;
            plan->canvas->cell[at] =
                (struct cell){letter, (unsigned char)(lit ? CELL_LIT : CELL_TEXT)};
        }
}

/* ---- words ------------------------------------------------------------------------ */

static void number_rows(const struct plan *plan) {
    for (size_t up = 0; up < plan->rows; up++) {
        char number[32];
        snprintf(number, sizeof number, "%2zu", up * plan->row_step + 1);
        size_t row = plan->row + (plan->rows - 1 - up) * plan->tall +
                     (plan->tall - (plan->tall > 2) - 1) / 2;
        canvas_text_as(plan->canvas, CELL_LABEL, (long)plan->column - NUMBER_COLUMNS, (long)row,
                       number, ROOM_BLANK);
    }
}

static void number_gores(const struct plan *plan) {
    size_t row = plan->row + plan->rows * plan->tall - (plan->tall > 2);
    for (size_t across = 0; across < plan->gores; across++) {
        char number[32];
        size_t gore = across * plan->gore_step + 1;
        snprintf(number, sizeof number, "%zu", gore);
        size_t column =
            plan->column + across * plan->wide + (plan->wide - (plan->wide > 2) - 1) / 2;
        enum cell_kind kind = gore == plan->job->lit_gore ? CELL_LIT : CELL_LABEL;
        canvas_text_as(plan->canvas, kind, (long)column, (long)row, number, ROOM_BLANK);
    }
}

static void explain(const struct plan *plan) {
    const struct preview_job *job = plan->job;
    char words[200] = "", skipped[96] = "";
    for (int style = 0; style < STYLE_COUNT && job->letter_key == NULL; style++)
        if (job->envelope->style_count[style] > 0)
            snprintf(words + strlen(words), sizeof words - strlen(words), "%s%c %s",
                     words[0] != '\0' ? "  " : "", "FHB"[style], style_name((enum style)style));
    if (job->letter_key != NULL)
        snprintf(words, sizeof words, "%s", job->letter_key);
    if (plan->gore_step > 1 || plan->row_step > 1)
        snprintf(skipped, sizeof skipped, "  (1 gore in %zu, 1 row in %zu)", plan->gore_step,
                 plan->row_step);
    long row = (long)(plan->row + plan->rows * plan->tall - (plan->tall > 2)) + 1;
    long column = (long)plan->column - NUMBER_COLUMNS;
    column = canvas_put(plan->canvas, column, row, CELL_LABEL, "gores across, rows up");
    canvas_put(plan->canvas, column, row, CELL_LABEL, skipped);
    canvas_put(plan->canvas, (long)plan->column - NUMBER_COLUMNS, row + 1, CELL_LABEL, words);
}

bool preview_plan(const struct preview_job *job, struct canvas *canvas) {
    struct plan plan = lay_out(job, canvas);
    for (size_t across = 0; across < plan.gores; across++)
        for (size_t up = 0; up < plan.rows; up++)
            fill_cell(&plan, across, up);
    if (plan.words) {
        number_rows(&plan);
        number_gores(&plan);
        explain(&plan);
    }
    return true;
}
