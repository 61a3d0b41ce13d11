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
    bool upright; /* gore numbers: tens over units, where they stand too close */
    char legend[320];
    size_t legend_rows;
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

/* ---- the legend ------------------------------------------------------------------- */

static void say_letters(const struct preview_job *job, char *into, size_t size) {
    if (job->letter_key != NULL) {
        snprintf(into, size, "%s", job->letter_key);
        return;
    }
    size_t length = 0;
    into[0] = '\0';
    for (int style = 0; style < STYLE_COUNT; style++)
        if (job->envelope->style_count[style] > 0)
            length +=
                (size_t)snprintf(into + length, size - length, "%s%c %s", length > 0 ? "  " : "",
                                 "FHB"[style], style_name((enum style)style));
}

static void say_legend(struct plan *plan) {
    char letters[200], skipped[96] = "";
    say_letters(plan->job, letters, sizeof letters);
    if (plan->gore_step > 1 || plan->row_step > 1)
        snprintf(skipped, sizeof skipped, " (1 gore in %zu, 1 row in %zu)", plan->gore_step,
                 plan->row_step);
    snprintf(plan->legend, sizeof plan->legend, "gores across, rows up%s  %s", skipped, letters);
}

/* Bytes of `words` for a row of `most`: up to the last two blanks, which part what belongs
 * together, or the last one. */
static size_t row_length(const char *words, size_t most) {
    size_t length = strlen(words), one = 0, two = 0;
    if (length <= most)
        return length;
    for (size_t i = 1; i <= most; i++)
        if (words[i] == ' ') {
            one = i;
            two = words[i + 1] == ' ' ? i : two;
        }
    return two > 0 ? two : one > 0 ? one : most;
}

/* Write the legend over whole rows.  Returns: how many it takes. */
static size_t flow_legend(const struct plan *plan, struct canvas *canvas, size_t from) {
    size_t row = 0;
    for (const char *at = plan->legend; *at != '\0'; row++) {
        char line[sizeof plan->legend];
        size_t length = row_length(at, plan->canvas->columns);
        snprintf(line, sizeof line, "%.*s", (int)length, at);
        if (canvas != NULL)
            canvas_put(canvas, 0, (long)(from + row), CELL_LABEL, line);
        at += length;
        at += strspn(at, " ");
    }
    return row;
}

/* ---- layout ----------------------------------------------------------------------- */

static void lay_rows(struct plan *plan) {
    const struct preview_job *job = plan->job;
    size_t rows = plan->canvas->rows, foot = 0;
    if (plan->words) {
        plan->upright = plan->gores * plan->gore_step >= 10 && plan->wide < NUMBER_COLUMNS;
        foot = 1 + plan->upright + plan->legend_rows;
    }
    share(rows > foot ? rows - foot : 1, job->envelope->rows, CELL_ROWS_MOST, &plan->row_step,
          &plan->rows, &plan->tall);
}

/* The legend says which rows are left out, which depends on the room it leaves: once more. */
static struct plan lay_out(const struct preview_job *job, struct canvas *canvas) {
    struct plan plan = {.job = job, .canvas = canvas, .words = preview_has_words(canvas)};
    size_t left = plan.words ? NUMBER_COLUMNS : 0;
    share(canvas->columns - left, job->envelope->gores, CELL_COLUMNS_MOST, &plan.gore_step,
          &plan.gores, &plan.wide);
    plan.column = left + (canvas->columns - left - plan.gores * plan.wide) / 2;
    for (int pass = 0; pass < 2; pass++) {
        lay_rows(&plan);
        say_legend(&plan);
        plan.legend_rows = flow_legend(&plan, NULL, 0);
    }
    lay_rows(&plan);
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

/* The row below the cells. */
static size_t foot_row(const struct plan *plan) {
    return plan->row + plan->rows * plan->tall - (plan->tall > 2);
}

static void number_gores(const struct plan *plan) {
    size_t row = foot_row(plan);
    for (size_t across = 0; across < plan->gores; across++) {
        char number[32];
        size_t gore = across * plan->gore_step + 1;
        long column =
            (long)(plan->column + across * plan->wide + (plan->wide - (plan->wide > 2) - 1) / 2);
        enum cell_kind kind = gore == plan->job->lit_gore ? CELL_LIT : CELL_LABEL;
        if (plan->upright && gore >= 10) {
            snprintf(number, sizeof number, "%zu", gore / 10);
            canvas_put(plan->canvas, column, (long)row, kind, number);
        }
        snprintf(number, sizeof number, "%zu", plan->upright ? gore % 10 : gore);
        canvas_put(plan->canvas, column, (long)row + plan->upright, kind, number);
    }
}

bool preview_plan(const struct preview_job *job, struct canvas *canvas) {
    struct plan plan = lay_out(job, canvas);
    for (size_t across = 0; across < plan.gores; across++)
        for (size_t up = 0; up < plan.rows; up++)
            fill_cell(&plan, across, up);
    if (plan.words) {
        number_rows(&plan);
        number_gores(&plan);
        flow_legend(&plan, plan.canvas, foot_row(&plan) + 1 + plan.upright);
    }
    return true;
}
