/* preview_colours.c - the colours of all panels unrolled, and what each colour takes. */
#include <stdio.h>
#include <string.h>

#include "gorewright/paper.h"
#include "screen/preview_parts.h"

enum {
    NUMBER_COLUMNS = 3, /* of the rows */
    NUMBER_ROWS = 1,    /* of the gores */
    CELL_COLUMNS_MOST = 9,
    CELL_ROWS_MOST = 4,
    GRID_ROWS_LEAST = 3,
    LINES_MOST = 40,
    LINE_MOST = 200
};

/* The words below the grid, line by line. */
struct legend {
    size_t lines;
    char line[LINES_MOST][LINE_MOST];
};

/* As many gores, or rows, as there is room for. */
struct window {
    size_t first, shown, all; /* first from 1 */
    size_t each;              /* columns or rows of a cell, with the blank after it */
};

struct colours {
    const struct preview_job *job;
    struct canvas *canvas;
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths;
    size_t letters; /* of a gore: 2 where the halves of one differ */
    struct window gores, rows;
    size_t left, foot; /* column of the first gore, canvas row of the lowest row of cells */
    struct legend legend;
};

static size_t smaller(size_t a, size_t b) {
    return a < b ? a : b;
}

static size_t larger(size_t a, size_t b) {
    return a > b ? a : b;
}

/* ---- the letters -------------------------------------------------------------- */

static bool has_halves(const struct colours *colours, size_t gore) {
    return colours->job->envelope->gore_style[gore - 1] == HALF_GORE;
}

static size_t colour_of(const struct colours *colours, size_t gore, size_t row, bool right) {
    return design_colour_of(colours->job->design, gore - 1, row,
                            right && has_halves(colours, gore));
}

static bool halves_differ(const struct colours *colours) {
    const struct envelope *envelope = colours->job->envelope;
    for (size_t gore = 1; gore <= envelope->gores; gore++)
        for (size_t row = 1; row <= envelope->rows; row++)
            if (colour_of(colours, gore, row, false) != colour_of(colours, gore, row, true))
                return true;
    return false;
}

/* ---- the legend --------------------------------------------------------------- */

static void add_line(struct legend *legend, const char *words, size_t length) {
    if (legend->lines < LINES_MOST)
        snprintf(legend->line[legend->lines++], LINE_MOST, "%.*s", (int)length, words);
}

/* A line, broken at blanks where it is wider than the canvas. */
static void add_flowed(struct legend *legend, const char *words, size_t room) {
    while (strlen(words) > room) {
        size_t end = room;
        while (end > 0 && words[end] != ' ')
            end--;
        add_line(legend, words, end > 0 ? end : room);
        words += end > 0 ? end + 1 : room;
    }
    add_line(legend, words, strlen(words));
}

/* A cloth with what is cut of it: figures under figures. */
static void full_entry(const struct colours *colours, size_t i, size_t name_most, char into[160]) {
    const struct preview_job *job = colours->job;
    struct cloth_cut cut = cloth_cut(job->design, job->envelope, i);
    bool feet = job->design->paper.units == UNITS_INCH;
    char name[TEXT_MOST];
    snprintf(into, 160, "%c %-*s %4zu pieces %6.2f %s", colours->cloth[i].letter, (int)name_most,
             plain_text(colours->cloth[i].name, name), cut.pieces,
             feet ? cut.area_m2 / (FOOT_m * FOOT_m) : cut.area_m2, feet ? "ft2" : "m2");
}

static void brief_entry(const struct colours *colours, size_t i, char into[160]) {
    const struct preview_job *job = colours->job;
    char name[TEXT_MOST];
    snprintf(into, 160, "%c %s %zu", colours->cloth[i].letter,
             plain_text(colours->cloth[i].name, name),
             cloth_cut(job->design, job->envelope, i).pieces);
}

static size_t longest_name(const struct colours *colours) {
    size_t longest = 0;
    for (size_t i = 0; i < colours->cloths; i++) {
        char name[TEXT_MOST];
        longest = larger(longest, strlen(plain_text(colours->cloth[i].name, name)));
    }
    return longest;
}

/* Letter, name, pieces and area of each cloth, side by side where there is room. */
static void full_legend(struct colours *colours) {
    struct legend *legend = &colours->legend;
    size_t room = smaller(colours->canvas->columns, LINE_MOST - 1), used = 0, width = 0;
    size_t name_most = longest_name(colours);
    char entry[CLOTHS_MOST][160], line[LINE_MOST] = "";
    for (size_t i = 0; i < colours->cloths; i++) {
        full_entry(colours, i, name_most, entry[i]);
        width = larger(width, strlen(entry[i]));
    }
    legend->lines = 0;
    for (size_t i = 0; i < colours->cloths && width > room; i++) {
        full_entry(colours, i, 0, entry[i]);
        add_flowed(legend, entry[i], room);
    }
    for (size_t i = 0; i < colours->cloths && width <= room; i++) {
        if (used > 0 && used + 3 + width > room) {
            add_line(legend, line, used);
            used = 0;
        }
        used += (size_t)snprintf(line + used, sizeof line - used, "%s%-*s", used > 0 ? "   " : "",
                                 (int)width, entry[i]);
    }
    if (used > 0)
        add_line(legend, line, used);
}

/* The same without areas, one after the other. */
static void brief_legend(struct colours *colours) {
    struct text words = {0};
    size_t room = smaller(colours->canvas->columns, LINE_MOST - 1);
    colours->legend.lines = 0;
    for (size_t i = 0; i < colours->cloths; i++) {
        char entry[160];
        brief_entry(colours, i, entry);
        text_add(&words, "%s%s", i > 0 ? ", " : "pieces: ", entry);
    }
    if (words.bytes != NULL)
        add_flowed(&colours->legend, words.bytes, room);
    text_free(&words);
}

/* The fullest that leaves half of the room to the grid. */
static void make_legend(struct colours *colours) {
    struct legend *legend = &colours->legend;
    size_t room = colours->canvas->rows - NUMBER_ROWS - 2;
    size_t grid = smaller(colours->job->envelope->rows, larger(room / 2, GRID_ROWS_LEAST));
    size_t most = room - grid;
    full_legend(colours);
    if (legend->lines > most)
        brief_legend(colours);
    if (legend->lines > most) {
        legend->lines = most - 1;
        add_line(legend, "... and more, in a taller window", LINE_MOST);
    }
}

/* ---- where it stands ---------------------------------------------------------- */

/* Given: the letters of a cell; `at`, which is to be seen, from 1; 0: the first. */
static struct window window_of(size_t room, size_t letters, size_t most, size_t all, size_t at) {
    struct window window = {1, 1, all, 1};
    size_t least = larger(letters, 1);
    if (letters > 1 && all * letters > room && room > letters)
        least++; /* halves in part are parted by blanks */
    window.shown = larger(smaller(room / least, all), 1);
    if (window.shown < all && at > window.shown / 2)
        window.first = smaller(larger(at - window.shown / 2, 1), all - window.shown + 1);
    window.each = smaller(larger(room / window.shown, 1), most);
    return window;
}

static bool is_part(const struct window *window) {
    return window->shown < window->all;
}

/* Lines that say what part is shown. */
static size_t notes(const struct colours *colours) {
    return (size_t)is_part(&colours->gores) + (size_t)is_part(&colours->rows);
}

static void lay_out(struct colours *colours, bool words) {
    const struct preview_job *job = colours->job;
    size_t columns = colours->canvas->columns, rows = colours->canvas->rows;
    size_t left = words ? NUMBER_COLUMNS : 0;
    size_t below = words ? NUMBER_ROWS + colours->legend.lines : 0;
    colours->gores = window_of(columns - left, colours->letters, CELL_COLUMNS_MOST,
                               job->envelope->gores, job->gore);
    colours->rows = (struct window){0};
    for (size_t kept = notes(colours);; kept++) { /* what keeps a line may take one from the rows */
        colours->rows = window_of(rows - smaller(below + (words ? kept : 0), rows - 1), 1,
                                  CELL_ROWS_MOST, job->envelope->rows, job->row);
        if (notes(colours) <= kept)
            break;
    }
    colours->left = left + (columns - left - colours->gores.shown * colours->gores.each) / 2;
    colours->foot = colours->rows.shown * colours->rows.each - 1;
}

/* ---- the grid ----------------------------------------------------------------- */

/* Columns of a cell that carry its letters: as many of each half, a blank after them where there
 * is room for one. */
static size_t lettered_columns(const struct colours *colours) {
    size_t wide = colours->gores.each - (colours->gores.each > colours->letters);
    return wide - wide % colours->letters;
}

static size_t lettered_rows(const struct colours *colours) {
    return colours->rows.each - (colours->rows.each > 2);
}

/* The upper row of a row of cells. */
static size_t top_of(const struct colours *colours, size_t row) {
    return colours->foot + 1 - (row - colours->rows.first + 1) * colours->rows.each;
}

static size_t column_of(const struct colours *colours, size_t gore) {
    return colours->left + (gore - colours->gores.first) * colours->gores.each;
}

static void fill_cell(const struct colours *colours, size_t gore, size_t row) {
    size_t wide = lettered_columns(colours), tall = lettered_rows(colours);
    const char letter[2] = {
        colours->cloth[colour_of(colours, gore, row, false)].letter,
        colours->cloth[colour_of(colours, gore, row, true)].letter,
    };
    for (size_t r = 0; r < tall; r++)
        for (size_t c = 0; c < wide; c++) {
            bool right = colours->letters > 1 && c >= wide / 2;
            size_t at = (top_of(colours, row) + r) * colours->canvas->columns +
                        column_of(colours, gore) + c;
            colours->canvas->cell[at] = (struct cell){letter[right], CELL_TEXT};
        }
}

static void draw_grid(const struct colours *colours) {
    for (size_t i = 0; i < colours->gores.shown; i++)
        for (size_t j = 0; j < colours->rows.shown; j++)
            fill_cell(colours, colours->gores.first + i, colours->rows.first + j);
}

/* ---- the words ---------------------------------------------------------------- */

static void number_rows(const struct colours *colours) {
    for (size_t j = 0; j < colours->rows.shown; j++) {
        char number[24];
        size_t row = colours->rows.first + j;
        snprintf(number, sizeof number, "%2zu", row);
        canvas_put(colours->canvas, (long)colours->left - NUMBER_COLUMNS,
                   (long)(top_of(colours, row) + (lettered_rows(colours) - 1) / 2),
                   row == colours->job->row ? CELL_LIT : CELL_LABEL, number);
    }
}

/* Every number, or every second, fifth, tenth where they would run together. */
static size_t number_step(const struct colours *colours) {
    static const size_t steps[] = {1, 2, 5};
    size_t digits = colours->gores.first + colours->gores.shown > 10 ? 2 : 1;
    for (size_t i = 0; i < COUNT_OF(steps); i++)
        if (steps[i] * colours->gores.each > digits)
            return steps[i];
    return 10;
}

static void number_gores(const struct colours *colours) {
    size_t step = number_step(colours);
    long row = (long)colours->foot + 1 - (lettered_rows(colours) < colours->rows.each);
    for (size_t i = 0; i < colours->gores.shown; i++) {
        size_t gore = colours->gores.first + i;
        char number[24];
        snprintf(number, sizeof number, "%zu", gore);
        size_t column = column_of(colours, gore) + (lettered_columns(colours) - 1) / 2;
        if (step == 2 ? gore % 2 == 1 : gore % step == 0 || gore == 1)
            canvas_text_as(colours->canvas, gore == colours->job->gore ? CELL_LIT : CELL_LABEL,
                           (long)column, row, number, ROOM_BLANK);
    }
}

static long say_part(const struct colours *colours, long row, const struct window *window,
                     const char *what, const char *keys) {
    char words[80];
    if (!is_part(window))
        return row;
    snprintf(words, sizeof words, "%s %zu-%zu of %zu: %s", what, window->first,
             window->first + window->shown - 1, window->all, keys);
    canvas_put(colours->canvas, 0, row, CELL_VALUE, words);
    return row + 1;
}

static void draw_words(const struct colours *colours) {
    long row = (long)colours->foot + 1 - (lettered_rows(colours) < colours->rows.each);
    number_rows(colours);
    number_gores(colours);
    row += NUMBER_ROWS;
    row = say_part(colours, row, &colours->gores, "gores", "< > move");
    row = say_part(colours, row, &colours->rows, "rows", "[ ] move");
    for (size_t i = 0; i < colours->legend.lines; i++)
        canvas_put(colours->canvas, 0, row++, CELL_LABEL, colours->legend.line[i]);
}

bool preview_colours(const struct preview_job *job, struct canvas *canvas) {
    struct colours colours = {.job = job, .canvas = canvas};
    bool words = preview_has_words(canvas);
    colours.cloths = design_cloths(job->design, colours.cloth);
    colours.letters = canvas->columns > 1 && halves_differ(&colours) ? 2 : 1;
    if (words)
        make_legend(&colours);
    lay_out(&colours, words);
    draw_grid(&colours);
    if (words)
        draw_words(&colours);
    return true;
}
