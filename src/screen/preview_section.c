/* preview_section.c - the cloth from tape to tape, so that its bulge can be seen. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gorewright/paper.h"
#include "screen/preview_parts.h"

enum {
    HEAD_ROWS = 1,    /* where the section stands */
    WORD_ROWS = 2,    /* of each section: its name over it, the chord under it */
    SECTION_ROWS = 4, /* least for one of several */
    DEPTH_ROWS = 4,   /* least for the depth to stand inside */
    TAPE_COLUMNS = 2  /* free at either end */
};

static const double CLEAR_ROWS = 0.6; /* between a name and the highest point under it */

struct sections {
    const struct preview_job *job;
    struct canvas *canvas;
    double chord_m, bulge;
    enum style style[STYLE_COUNT]; /* from the top down */
    size_t count;
    bool words;
};

static const struct station *station_of(const struct preview_job *job) {
    return &job->envelope->station[job->at_mouth ? 0 : preview_row(job)];
}

static bool is_built(const struct preview_job *job, enum style style) {
    return job->envelope->style_count[style] > 0;
}

/* ---- which, and where ----------------------------------------------------------- */

/* The part of the canvas for one of `count` sections. */
static struct canvas_box box_of(const struct sections *sections, size_t count, size_t i) {
    double head = sections->words ? HEAD_ROWS : 0;
    double rows = floor(((double)sections->canvas->rows - head) / (double)count);
    double top = head + rows * (double)i;
    return (struct canvas_box){0, top, (double)sections->canvas->columns, rows};
}

/* Where its lines go: all sections to one scale, the deepest filling its part. */
static struct canvas_view view_in(const struct sections *sections, struct canvas_box box) {
    double half_m = sections->chord_m / 2;
    if (sections->words) {
        box =
            (struct canvas_box){box.column + TAPE_COLUMNS, box.row + 1 + CLEAR_ROWS,
                                box.columns - 2 * TAPE_COLUMNS, box.rows - WORD_ROWS - CLEAR_ROWS};
    }
    box.columns = fmax(box.columns - 0.02, 0.5);
    box.column += 0.01;
    return canvas_fit(box, (struct flat_point){-half_m, 0},
                      (struct flat_point){half_m, sections->bulge * sections->chord_m}, 0.1, 0);
}

/* All three styles to compare where there is room, or those that are built, or the one asked
 * for: as many as can stand without being drawn much smaller. */
static void choose(struct sections *sections) {
    enum style asked = preview_style(sections->job);
    double alone = view_in(sections, box_of(sections, 1, 0)).shown_columns;
    for (int wanted = 0; wanted < 2; wanted++) {
        sections->count = 0;
        for (int style = 0; style < STYLE_COUNT; style++)
            if (wanted == 0 || is_built(sections->job, (enum style)style))
                sections->style[sections->count++] = (enum style)style;
        struct canvas_box box = box_of(sections, sections->count, 0);
        if (sections->words && box.rows >= SECTION_ROWS &&
            view_in(sections, box).shown_columns >= 0.7 * alone)
            return;
    }
    sections->style[0] = asked;
    sections->count = 1;
}

/* ---- one of them ----------------------------------------------------------------- */

static struct canvas_place place_at(const struct sections *sections, const struct canvas_view *view,
                                    enum style style, double u) {
    struct section_point at = section_at(style, sections->chord_m, sections->bulge, u);
    return canvas_place(view, (struct flat_point){at.x_m, at.h_m});
}

static bool is_straight(const struct sections *sections, enum style style) {
    return style == FACETED || sections->bulge <= 0;
}

/* The cloth, over the chord where it leaves it. */
static void draw_lines(const struct sections *sections, const struct canvas_view *view,
                       enum style style) {
    enum { STEPS = 32 };
    bool lit = sections->count > 1 && style == preview_style(sections->job);
    struct canvas_place left = place_at(sections, view, style, -1);
    struct canvas_place right = place_at(sections, view, style, 1);
    size_t steps = style == BILLOWED ? STEPS : 1;
    if (!is_straight(sections, style))
        canvas_line(sections->canvas, left, right, CELL_DOTTED);
    for (double end = -1; end <= 1; end += 2) { /* from either tape, so that both come out alike */
        struct canvas_place place[STEPS + 1];
        for (size_t i = 0; i <= steps; i++)
            place[i] = place_at(sections, view, style, end * (1 - (double)i / (double)steps));
        canvas_polyline(sections->canvas, place, steps + 1, false, lit ? CELL_LIT : CELL_SOLID);
    }
    canvas_point(sections->canvas, left, 'o', CELL_LIT);
    canvas_point(sections->canvas, right, 'o', CELL_LIT);
}

static void put_centred(const struct sections *sections, enum cell_kind kind, long row,
                        const char *words) {
    long columns = (long)sections->canvas->columns - (long)strlen(words);
    canvas_text_as(sections->canvas, kind, columns / 2, row, words, ROOM_BLANK);
}

/* Its name and length over it. */
static void label_name(const struct sections *sections, long row, enum style style) {
    char words[128], length[32];
    bool built = is_built(sections->job, style);
    double length_m = section_length_m(style, sections->chord_m, sections->bulge);
    snprintf(words, sizeof words, "%s%s %s across", style_name(style), built ? "" : " would be",
             format_length(sections->job->design, length_m, length));
    put_centred(sections, built ? CELL_DIMENSION : CELL_HELP, row, words);
}

/* The chord under the section; the depth inside it where there is room, else beside the chord. */
static void label_chord(const struct sections *sections, const struct canvas_view *view,
                        enum style style) {
    char chord[64], depth[64], length[32];
    double middle = view->column + view->shown_columns / 2;
    snprintf(chord, sizeof chord, "chord %s",
             format_length(sections->job->design, sections->chord_m, length));
    snprintf(depth, sizeof depth, "depth %s",
             format_length(sections->job->design, sections->bulge * sections->chord_m, length));
    bool inside = is_straight(sections, style);
    if (!inside && view->shown_rows >= DEPTH_ROWS) {
        canvas_line(sections->canvas,
                    (struct canvas_place){middle, view->row - view->shown_rows + 1},
                    (struct canvas_place){middle, view->row - 1}, CELL_DOTTED);
        inside = canvas_text_as(sections->canvas, CELL_DIMENSION, (long)middle + 2,
                                (long)(view->row - view->shown_rows / 2), depth, ROOM_BLANK);
    }
    char words[160];
    snprintf(words, sizeof words, "%s%s%s", chord, inside ? "" : ", ", inside ? "" : depth);
    put_centred(sections, CELL_DIMENSION, canvas_level_row(view->row) + 1, words);
}

static void draw_section(const struct sections *sections, size_t i) {
    enum style style = sections->style[i];
    struct canvas_box box = box_of(sections, sections->count, i);
    struct canvas_view view = view_in(sections, box);
    double most = sections->words ? box.rows - WORD_ROWS - CLEAR_ROWS : box.rows;
    double shown = is_straight(sections, style) ? 0 : view.shown_rows;
    view.row += fmax(floor((most - view.shown_rows) / 2), 0);
    view.row = ceil(view.row - 1e-6) - 0.01; /* chord, tapes and straight cloth in one row */
    draw_lines(sections, &view, style);
    if (!sections->words)
        return;
    label_name(sections, canvas_level_row(view.row - shown) - 1, style);
    label_chord(sections, &view, style);
}

/* ---- the whole -------------------------------------------------------------------- */

static void label_station(const struct sections *sections) {
    const struct preview_job *job = sections->job;
    size_t row = preview_row(job);
    char words[96], name[48];
    if (job->at_mouth)
        snprintf(name, sizeof name, "at the mouth");
    else if (row == job->envelope->rows)
        snprintf(name, sizeof name, "at the crown");
    else
        snprintf(name, sizeof name, "top of row %zu", row);
    if (sections->bulge > 0)
        snprintf(words, sizeof words, "%s, bulge %.3g", name, sections->bulge);
    else
        snprintf(words, sizeof words, "%s, no bulge", name);
    canvas_text_as(sections->canvas, CELL_LABEL, 0, 0, words, ROOM_BLANK);
    canvas_text_as(sections->canvas, CELL_LABEL, (long)strlen(words) + 3, 0, "o: load tape",
                   ROOM_BLANK);
}

bool preview_section(const struct preview_job *job, struct canvas *canvas) {
    struct sections sections = {
        .job = job,
        .canvas = canvas,
        .chord_m = station_of(job)->chord_m,
        .bulge = station_of(job)->bulge,
        .words = preview_has_words(canvas),
    };
    choose(&sections);
    if (sections.words)
        label_station(&sections);
    for (size_t i = 0; i < sections.count; i++)
        draw_section(&sections, i);
    return true;
}
