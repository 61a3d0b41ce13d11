/* page_parts.c - what every sheet of the templates carries. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/page_parts.h"

/* ---- the page ---------------------------------------------------------- */

void page_open(const struct template_plan *plan, const struct frame *frame, const char *label,
               size_t ordinal, struct text *into) {
    ps_page_begin(into, label, ordinal);
    text_add(into, "%%%%BeginPageSetup\n");
    if (plan->paper.height_m <= 0) /* pages of a roll differ */
        ps_page_size(into, frame->page_width_m, frame->page_height_m);
    text_add(into, "gsave ");
    /* About the middle of the page, so that margins stay even. */
    ps_point(into, frame->page_width_m / 2, frame->page_height_m / 2);
    text_add(into, "translate ");
    ps_ratio(into, plan->correction.across);
    ps_ratio(into, plan->correction.up);
    text_add(into, "scale%s ", frame->landscape ? " 90 rotate" : "");
    ps_point(into, -frame->width_m / 2, -frame->height_m / 2);
    text_add(into, "translate\n%%%%EndPageSetup\n");
}

void page_close(struct text *into) {
    text_add(into, "endpage\n");
}

/* ---- the footer -------------------------------------------------------- */

/* A bar with ticks at both ends, on its left or upper side: the two bars may share a corner. */
static void tick(struct text *into, double x_m, double y_m, bool upright) {
    ps_line(into, upright ? x_m - 1.5 * MM : x_m, upright ? y_m : y_m + 1.5 * MM, x_m, y_m);
}

/* The upright bar in the runs that its gaps leave. */
static void write_upright_bar(const struct upright_bar *bar, struct text *into) {
    enum { BAR_MM = 50 };
    for (int from = 0, to; from < BAR_MM; from = to + 1) {
        for (to = from; to < BAR_MM && (bar->gaps >> to & 1) == 0;)
            to++;
        if (to > from)
            ps_line(into, bar->x_m, bar->y_m + from * MM, bar->x_m, bar->y_m + to * MM);
    }
    tick(into, bar->x_m, bar->y_m, true);
    tick(into, bar->x_m, bar->y_m + PROOF_BAR_M, true);
    ps_text(into, FACE_PLAIN, TYPE_NOTE_M, ANCHOR_UP, bar->x_m - 0.6 * MM,
            bar->y_m + PROOF_BAR_M / 2, bar->gaps == 0 ? "50 mm" : "");
}

static void write_bars(const struct template_plan *plan, const struct frame *frame,
                       const struct footer *footer, struct text *into) {
    double right_m = frame->width_m - BAR_EDGE_M, left_m = right_m - PROOF_BAR_M, y_m = BAR_FOOT_M;
    const char *words = plan->design->paper.units == UNITS_INCH ? "bars: 50 mm (about 1 31/32 in)"
                                                                : "bars: 50 mm, across and up";
    double size_m =
        ps_fitting_size_m(FACE_PLAIN, frame->type * TYPE_NOTE_M, PROOF_BAR_M - 3 * MM, words);
    ps_pen(into, PEN_FINE);
    ps_line(into, left_m, y_m, right_m, y_m);
    tick(into, left_m, y_m, false);
    tick(into, right_m, y_m, false);
    write_upright_bar(&footer->bar, into);
    ps_text(into, FACE_PLAIN, size_m, ANCHOR_CENTRE, (left_m + right_m) / 2, y_m + 1.2 * MM, words);
}

/* Text between two places, cut when it is longer. */
static void cut_text(struct text *into, enum face face, double size_m, double x_m, double y_m,
                     double width_m, const char *words) {
    char cut[LATIN_MOST];
    ps_text(into, face, size_m, ANCHOR_LEFT, x_m, y_m, ps_cut(face, size_m, width_m, words, cut));
}

/* Name of the design and paper, behind the title as far as there is room. */
static void write_title(const struct template_plan *plan, const struct frame *frame,
                        const struct footer *footer, struct rect row, struct text *into) {
    double title_size_m = frame->type * TYPE_TITLE_M, size_m = frame->type * TYPE_NOTE_M;
    double width_m = row.x1_m - row.x0_m;
    char number[64], whose[2 * TEXT_MOST + 4];
    snprintf(number, sizeof number, "sheet %zu of %zu", footer->number, plan->sheets);
    ps_text(into, FACE_BOLD, title_size_m, ANCHOR_RIGHT, row.x1_m, row.y0_m, number);
    width_m -= ps_text_width_m(FACE_BOLD, title_size_m, number) + 4 * MM;
    cut_text(into, FACE_BOLD, title_size_m, row.x0_m, row.y0_m, width_m, footer->title);
    double used_m = ps_text_width_m(FACE_BOLD, title_size_m, footer->title) + 4 * MM;
    snprintf(whose, sizeof whose, "%s; %s", plan->paper.name, plan->design->name);
    if (width_m - used_m >= 12 * MM)
        cut_text(into, FACE_PLAIN, size_m, row.x0_m + used_m, row.y0_m, width_m - used_m, whose);
}

/* Three rows for what is on the sheet and how it was drawn.  A narrow footer may use
 * smaller type before it leaves words out. */
static void write_rows(const struct frame *frame, const struct footer *footer, const char *scale,
                       struct rect rows, struct text *into) {
    static const double smaller[] = {1, 0.9, 0.8};
    enum { ROWS = 3 };
    double width_m = rows.x1_m - rows.x0_m, step_m = (rows.y1_m - rows.y0_m) / ROWS, size_m = 0;
    char line[ROWS][LATIN_MOST];
    size_t sizes = frame->narrow ? COUNT_OF(smaller) : 1, scale_rows = ROWS, rows_wanted = ROWS;
    for (size_t i = 0; i < sizes && (i == 0 || scale_rows + rows_wanted > ROWS); i++) {
        size_m = smaller[i] * frame->type * TYPE_NOTE_M;
        scale_rows = break_lines(FACE_PLAIN, size_m, width_m, scale, ROWS, line);
        rows_wanted = break_lines(FACE_PLAIN, size_m, width_m, footer->detail, ROWS, line);
    }
    scale_rows = scale_rows < ROWS ? scale_rows : ROWS - 1;
    size_t detail_rows = ROWS - scale_rows;
    if (rows_wanted < detail_rows)
        detail_rows = rows_wanted;
    break_lines(FACE_PLAIN, size_m, width_m, footer->detail, detail_rows, line);
    break_lines(FACE_PLAIN, size_m, width_m, scale, scale_rows, line + detail_rows);
    for (size_t i = 0; i < detail_rows + scale_rows; i++)
        ps_text(into, FACE_PLAIN, size_m, ANCHOR_LEFT, rows.x0_m,
                rows.y1_m - (double)(i + 1) * step_m, line[i]);
}

void page_footer(const struct template_plan *plan, const struct frame *frame,
                 const struct footer *footer, struct text *into) {
    double unit_m = frame->type * MM, foot_m = frame->narrow ? 7 * unit_m : 0.8 * unit_m;
    double left_m = frame->narrow ? 0 : footer->text_from_m;
    double right_m = frame->width_m - BAR_EDGE_M - 4.5 * MM;
    double rows_right_m = frame->narrow ? right_m : right_m - PROOF_BAR_M + 0.5 * MM;
    double title_m = foot_m + 9.7 * unit_m, step_m = 3.2 * unit_m;
    char scale[160];
    snprintf(scale, sizeof scale, "drawn at %.4f across, %.4f up%s", plan->correction.across,
             plan->correction.up,
             is_corrected(plan) ? "; give --measured again when you print a sheet again" : "");
    write_title(plan, frame, footer, (struct rect){left_m, title_m, right_m, title_m}, into);
    write_rows(frame, footer, scale,
               (struct rect){left_m, foot_m, rows_right_m, foot_m + 3 * step_m}, into);
    write_bars(plan, frame, footer, into);
}

bool is_corrected(const struct template_plan *plan) {
    return plan->design->paper.measured_across_m > 0 || plan->design->paper.measured_up_m > 0;
}

char *nominal_words(const struct design *design, double length_m, char into[64]) {
    if (design->paper.units == UNITS_INCH)
        snprintf(into, 64, "%.0f in", length_m / METRES_PER_INCH);
    else
        snprintf(into, 64, "%.0f mm", length_m * 1000);
    return into;
}

/* ---- running text ------------------------------------------------------ */

struct flow {
    const struct text_box *box;
    size_t boxes, at;
    double used_m; /* of the box at hand */
    struct text *into;
};

/* The words of one line: as many as fit.  Returns: bytes, blank after it included. */
static size_t line_of(const char *words, enum face face, double size_m, double width_m,
                      char line[LATIN_MOST]) {
    size_t taken = 0, length = 0;
    double used_m = 0;
    for (size_t at = 0; words[at] != '\0';) {
        size_t end = at + strcspn(words + at, " ");
        size_t from = at > 0 ? at - 1 : 0; /* the blank before the word counts */
        char word[LATIN_MOST];
        snprintf(word, sizeof word, "%.*s", (int)(end - from), words + from);
        used_m += ps_text_width_m(face, size_m, word);
        if (at > 0 && used_m > width_m)
            break;
        length = end;
        at = taken = words[end] == ' ' ? end + 1 : end;
    }
    snprintf(line, LATIN_MOST, "%.*s", (int)length, words);
    return taken;
}

size_t break_lines(enum face face, double size_m, double width_m, const char *words, size_t most,
                   char line[][LATIN_MOST]) {
    size_t lines = 0;
    for (char rest[LATIN_MOST]; *words != '\0'; lines++) {
        const char *from = words;
        words += line_of(words, face, size_m, width_m, rest);
        if (lines < most)
            ps_cut(face, size_m, width_m, lines + 1 == most ? from : rest, line[lines]);
    }
    return lines;
}

#define LINE_STEP 1.25
#define PARAGRAPH_STEP 0.45

static double height_in(const struct paragraph *paragraph, const struct text_box *box,
                        double size_m) {
    char line[LATIN_MOST];
    size_t lines = 0;
    for (const char *words = paragraph->words; *words != '\0'; lines++)
        words += line_of(words, paragraph->face, size_m, box->width_m, line);
    return (double)lines * LINE_STEP * size_m;
}

/* Go to the first box with room for the whole paragraph; a heading also wants
 * a few lines below it.  Returns: false when there is none. */
static bool find_room(struct flow *flow, const struct paragraph *paragraph, double size_m) {
    double below_m = paragraph->face == FACE_BOLD ? 3 * LINE_STEP * size_m : 0;
    for (; flow->at < flow->boxes; flow->at++, flow->used_m = 0) {
        const struct text_box *box = &flow->box[flow->at];
        if (flow->used_m + height_in(paragraph, box, size_m) + below_m <= box->height_m)
            return true;
    }
    return false;
}

/* Set one paragraph.  Returns: false when it did not fit; the flow is then spent. */
static bool set_paragraph(struct flow *flow, const struct paragraph *paragraph, double size_m) {
    char line[LATIN_MOST];
    size_m *= paragraph->larger;
    if (!find_room(flow, paragraph, size_m))
        return false;
    const struct text_box *box = &flow->box[flow->at];
    if (flow->into == NULL) {
        flow->used_m += height_in(paragraph, box, size_m);
    } else {
        for (const char *words = paragraph->words; *words != '\0';) {
            words += line_of(words, paragraph->face, size_m, box->width_m, line);
            flow->used_m += LINE_STEP * size_m;
            ps_text(flow->into, paragraph->face, size_m, ANCHOR_LEFT, box->x_m,
                    box->top_m - flow->used_m + 0.3 * size_m, line);
        }
    }
    flow->used_m += PARAGRAPH_STEP * size_m;
    return true;
}

size_t flow_paragraphs(const struct paragraph *paragraph, size_t paragraphs,
                       const struct text_box *box, size_t boxes, double size_m, struct text *into) {
    struct flow flow = {.box = box, .boxes = boxes};
    size_t fitting = 0;
    while (fitting < paragraphs && set_paragraph(&flow, &paragraph[fitting], size_m))
        fitting++;
    if (into == NULL)
        return fitting;
    flow = (struct flow){.box = box, .boxes = boxes, .into = into};
    for (size_t i = 0; i < fitting; i++)
        set_paragraph(&flow, &paragraph[i], size_m);
    return fitting;
}
