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
static void bar(struct text *into, double x0_m, double y0_m, double x1_m, double y1_m) {
    double tick_x_m = x0_m < x1_m ? 0 : -1.5 * MM, tick_y_m = x0_m < x1_m ? 1.5 * MM : 0;
    ps_line(into, x0_m, y0_m, x1_m, y1_m);
    ps_line(into, x0_m + tick_x_m, y0_m + tick_y_m, x0_m, y0_m);
    ps_line(into, x1_m + tick_x_m, y1_m + tick_y_m, x1_m, y1_m);
}

static void write_bars(const struct template_plan *plan, const struct frame *frame,
                       const struct footer *footer, struct text *into) {
    double right_m = frame->width_m - BAR_EDGE_M, y_m = BAR_FOOT_M;
    char words[96], length[64];
    ps_pen(into, PEN_FINE);
    bar(into, right_m - PROOF_BAR_M, y_m, right_m, y_m);
    bar(into, footer->bar_up_x_m, footer->bar_up_y_m, footer->bar_up_x_m,
        footer->bar_up_y_m + PROOF_BAR_M);
    snprintf(words, sizeof words, "bars: %s, across and up",
             length_in_mm(plan->design, PROOF_BAR_M, length));
    ps_text(into, FACE_PLAIN, TYPE_NOTE_M, ANCHOR_CENTRE, right_m - PROOF_BAR_M / 2, y_m + 1.2 * MM,
            words);
}

static void fitted(struct text *into, enum face face, double size_m, double x_m, double y_m,
                   double width_m, const char *words) {
    size_m = ps_fitting_size_m(face, size_m, width_m, words);
    ps_text(into, face, size_m, ANCHOR_LEFT, x_m, y_m, words);
}

void page_footer(const struct template_plan *plan, const struct frame *frame,
                 const struct footer *footer, struct text *into) {
    bool narrow = frame->footer_m > 0.015;
    double foot_m = narrow ? 7.5 * MM : 1 * MM, right_m = frame->width_m - BAR_EDGE_M - 3 * MM;
    double from_m = narrow ? 0 : footer->text_from_m;
    double width_m = (narrow ? right_m : right_m - PROOF_BAR_M) - from_m;
    char number[64], scale[96 + 2 * TEXT_MOST];
    snprintf(number, sizeof number, "sheet %zu of %zu", footer->number, plan->sheets);
    double number_m = ps_text_width_m(FACE_BOLD, TYPE_TITLE_M, number);
    fitted(into, FACE_BOLD, TYPE_TITLE_M, from_m, foot_m + 8 * MM, width_m - number_m - 4 * MM,
           footer->title);
    ps_text(into, FACE_BOLD, TYPE_TITLE_M, ANCHOR_RIGHT, from_m + width_m, foot_m + 8 * MM, number);
    fitted(into, FACE_PLAIN, TYPE_NOTE_M, from_m, foot_m + 4 * MM, width_m, footer->detail);
    snprintf(scale, sizeof scale, "%s; %s; drawn at %.4f across, %.4f up", plan->design->name,
             plan->paper.name, plan->correction.across, plan->correction.up);
    fitted(into, FACE_PLAIN, TYPE_NOTE_M, from_m, foot_m + 0.5 * MM, width_m, scale);
    write_bars(plan, frame, footer, into);
}

char *length_in_mm(const struct design *design, double length_m, char into[64]) {
    char inches[32];
    if (design->paper.units == UNITS_INCH)
        snprintf(into, 64, "%.0f mm (%s in)", length_m * 1000,
                 format_length(design, length_m, inches));
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
