/* template_pages.c - the pieces themselves, on sheets. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/colour_words.h"
#include "paper/page_parts.h"
#include "paper/piece_label.h"
#include "paper/sheet_seams.h"
#include "paper/template_pages.h"

#define MARK_LEAST_M 0.003
#define MAP_WIDTH_M 0.014
#define MAP_HEIGHT_M 0.0115
#define MAP_LINES_MOST 24

/* ---- a piece, defined once --------------------------------------------- */

/* Ticks across the allowance; into the piece where there is none to speak of. */
void match_mark_ends(const struct piece *piece, size_t mark, struct flat_point end[2]) {
    const struct match_mark *m = &piece->mark[mark];
    double allowance_m = piece->allowance_m[m->edge];
    double length_m = allowance_m >= MARK_LEAST_M ? allowance_m : -MARK_LEAST_M;
    end[0] = m->at;
    end[1] = (struct flat_point){m->at.x_m + m->outward.x_m * length_m,
                                 m->at.y_m + m->outward.y_m * length_m};
}

static void match_marks(const struct piece *piece, struct text *into) {
    ps_pen(into, PEN_MARK);
    for (size_t i = 0; i < piece->marks; i++) {
        struct flat_point end[2];
        match_mark_ends(piece, i, end);
        ps_line(into, end[0].x_m, end[0].y_m, end[1].x_m, end[1].y_m);
    }
}

void template_define(const struct template_plan *plan, size_t piece, struct text *into) {
    const struct piece *p = &plan->envelope->piece[piece];
    struct piece_label label;
    piece_label_make(plan, piece, &label);
    text_add(into, "/C%zu {\n", piece + 1);
    ps_ring(into, &p->cut);
    text_add(into, "} bind def\n/P%zu {\ncutline C%zu\n", piece + 1, piece + 1);
    ps_pen(into, PEN_SEW);
    ps_ring(into, &p->sew);
    match_marks(p, into);
    piece_label_write(&label, (enum warp)plan->design->cloth.warp, into);
    text_add(into, "} bind def\n");
}

/* Call a piece with its laid origin at a point of the frame. */
static void show_piece(const struct template_plan *plan, size_t piece, bool turned, double x_m,
                       double y_m, struct text *into) {
    struct flat_point origin = laid_origin(&plan->envelope->piece[piece], turned);
    text_add(into, "gsave ");
    ps_point(into, x_m + origin.x_m, y_m + origin.y_m);
    text_add(into, "translate%s P%zu grestore\n", turned ? " 90 rotate" : "", piece + 1);
}

static void clip_to_window(const struct frame *frame, struct text *into) {
    ps_point(into, 0, frame->footer_m);
    ps_point(into, frame->width_m, frame_window_m(frame));
    text_add(into, "rectclip\n");
}

/* ---- the footer -------------------------------------------------------- */

/* An arrow towards the crown as the piece lies on this sheet. */
static void draw_way_up(double x_m, bool turned, struct text *into) {
    text_add(into, "gsave ");
    ps_point(into, x_m, MAP_HEIGHT_M / 2 + 0.5 * MM);
    text_add(into, "translate%s mark ", turned ? " 90 rotate" : "");
    ps_line(into, 0, -2.5 * MM, 0, 2.5 * MM);
    ps_point(into, 0, 2.5 * MM);
    text_add(into, "90 head grestore\n");
}

/* The piece small, with the place of this sheet crossed.  Returns: width taken. */
static double draw_map(const struct template_plan *plan, const struct planned_sheet *sheet,
                       struct text *into) {
    const struct tiling *tiling = &plan->laying[sheet->piece].tiling;
    if (sheet->frame.narrow || tiling->columns + tiling->rows > MAP_LINES_MOST)
        return 0;
    struct rect first = tile_cell(tiling, tiling->rows - 1, 0);
    struct rect last = tile_cell(tiling, 0, tiling->columns - 1);
    struct rect here = tile_cell(tiling, sheet->row, sheet->column);
    double scale =
        fmin(MAP_WIDTH_M / (last.x1_m - first.x0_m), MAP_HEIGHT_M / (last.y1_m - first.y0_m));
    text_add(into, "gsave ");
    ps_point(into, 0.5 * MM - first.x0_m * scale, 0.5 * MM - first.y0_m * scale);
    text_add(into, "translate fine\n");
    for (size_t column = 0; column < tiling->columns; column++) {
        struct rect cell = tile_cell(tiling, 0, column);
        ps_line(into, cell.x0_m * scale, first.y0_m * scale, cell.x0_m * scale, last.y1_m * scale);
    }
    for (size_t row = 0; row < tiling->rows; row++) {
        struct rect cell = tile_cell(tiling, row, 0);
        ps_line(into, first.x0_m * scale, cell.y1_m * scale, last.x1_m * scale, cell.y1_m * scale);
    }
    ps_box(into, first.x0_m * scale, first.y0_m * scale, (last.x1_m - first.x0_m) * scale,
           (last.y1_m - first.y0_m) * scale);
    ps_pen(into, PEN_MARK);
    ps_line(into, here.x0_m * scale, here.y0_m * scale, here.x1_m * scale, here.y1_m * scale);
    ps_line(into, here.x0_m * scale, here.y1_m * scale, here.x1_m * scale, here.y0_m * scale);
    struct flat_point origin = laid_origin(&plan->envelope->piece[sheet->piece], tiling->turned);
    ps_point(into, origin.x_m * scale, origin.y_m * scale);
    text_add(into, "translate%s ", tiling->turned ? " 90 rotate" : "");
    ps_ratio(into, scale);
    text_add(into, "dup scale ");
    ps_ratio(into, 0.5 / scale);
    text_add(into, "setlinewidth C%zu grestore\n", sheet->piece + 1);
    double right_m = (last.x1_m - first.x0_m) * scale + 3 * MM;
    right_m += tiling->turned ? 1 * MM : 0;
    draw_way_up(right_m, tiling->turned, into);
    return right_m + 4 * MM;
}

static void piece_words(const struct template_plan *plan, const struct piece *piece, char *into,
                        size_t size) {
    char half[64], colours[COLOUR_WORDS_MOST];
    half_words(plan->envelope, piece, half);
    snprintf(into, size, "%s%s%s, row %zu of %zu from the mouth, cut %zu, %s", half,
             half[0] != '\0' ? "; " : "", style_name(piece->style), piece->row,
             plan->envelope->rows, piece->count,
             colour_words(plan->design, plan->envelope, piece, false, colours));
}

static struct footer footer_of(const struct template_plan *plan, size_t number, const char *title,
                               const char *detail) {
    return (struct footer){.title = title,
                           .detail = detail,
                           .number = number,
                           .bar = upright_bar_on(plan, &plan->sheet[number - 1])};
}

/* ---- the pages --------------------------------------------------------- */

void tile_page_write(const struct template_plan *plan, size_t number, struct text *into) {
    const struct planned_sheet *sheet = &plan->sheet[number - 1];
    const struct piece *piece = &plan->envelope->piece[sheet->piece];
    const struct tiling *tiling = &plan->laying[sheet->piece].tiling;
    struct rect window = tile_window(tiling, sheet->row, sheet->column);
    char title[64], detail[320], name[16];
    text_add(into, "gsave ");
    clip_to_window(&sheet->frame, into);
    show_piece(plan, sheet->piece, tiling->turned, -window.x0_m,
               sheet->frame.footer_m - window.y0_m, into);
    sheet_seams_write(plan, sheet, into);
    text_add(into, "grestore\n");
    snprintf(title, sizeof title, "%s   tile %s", piece->name,
             tile_name(tiling, sheet->row, sheet->column, name));
    piece_words(plan, piece, detail, sizeof detail);
    struct footer footer = footer_of(plan, number, title, detail);
    footer.text_from_m = draw_map(plan, sheet, into);
    page_footer(plan, &sheet->frame, &footer, into);
}

void shared_page_write(const struct template_plan *plan, size_t number, struct text *into) {
    const struct planned_sheet *sheet = &plan->sheet[number - 1];
    const struct placement *placement = &plan->placement[sheet->first];
    char title[256] = "", detail[320], colours[COLOUR_WORDS_MOST];
    text_add(into, "gsave ");
    clip_to_window(&sheet->frame, into);
    for (size_t i = 0; i < sheet->count; i++)
        show_piece(plan, placement[i].piece, placement[i].turned, placement[i].x_m,
                   sheet->frame.footer_m + placement[i].y_m, into);
    text_add(into, "grestore\n");
    for (size_t i = 0, used = 0; i < sheet->count && used + 16 < sizeof title; i++)
        used += (size_t)snprintf(title + used, sizeof title - used, "%s%s", i > 0 ? ", " : "",
                                 plan->envelope->piece[placement[i].piece].name);
    if (sheet->count == 1)
        piece_words(plan, &plan->envelope->piece[placement[0].piece], detail, sizeof detail);
    else
        snprintf(detail, sizeof detail,
                 "whole pieces; what to cut of each stands on it and in the index; colour: %s",
                 cloth_words(plan->design, false, colours));
    struct footer footer = footer_of(plan, number, title, detail);
    page_footer(plan, &sheet->frame, &footer, into);
}
