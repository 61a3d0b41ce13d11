/* template_pages.c - the pieces themselves, on sheets. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/page_parts.h"
#include "paper/piece_label.h"
#include "paper/template_pages.h"

#define MARK_LEAST_M 0.003
#define MAP_WIDTH_M 0.014
#define MAP_HEIGHT_M 0.0105
#define MAP_LINES_MOST 24

/* ---- a piece, defined once --------------------------------------------- */

/* Ticks across the allowance; into the piece where there is none to speak of. */
static void match_marks(const struct piece *piece, struct text *into) {
    ps_pen(into, PEN_MARK);
    for (size_t i = 0; i < piece->marks; i++) {
        const struct match_mark *mark = &piece->mark[i];
        double allowance_m = piece->allowance_m[mark->edge];
        double length_m = allowance_m >= MARK_LEAST_M ? allowance_m : -MARK_LEAST_M;
        ps_line(into, mark->at.x_m, mark->at.y_m, mark->at.x_m + mark->outward.x_m * length_m,
                mark->at.y_m + mark->outward.y_m * length_m);
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

/* ---- seams between sheets ---------------------------------------------- */

/* A side of a tile where another sheet joins. */
struct seam {
    bool upright;        /* the seam's line */
    bool over;           /* this sheet is trimmed and lies on the other */
    double at_m;         /* x of an upright seam, y of a lying one, on the frame */
    double from_m, to_m; /* along the seam, within the window */
    double outward;      /* +1 or -1: which way the other sheet lies */
    char letters[8];
    char other[16]; /* name of the other sheet */
    size_t number;  /* of the other sheet */
};

/* Two crosses with the letters beside them on this sheet's side. */
static void crosses(const struct seam *seam, struct text *into) {
    double type_m = 0.0032, clear_m = 2.2 * MM;
    for (int i = 0; i < 2; i++) {
        double along_m = seam->from_m + (seam->to_m - seam->from_m) * (i == 0 ? 0.22 : 0.78);
        double x_m = seam->upright ? seam->at_m : along_m,
               y_m = seam->upright ? along_m : seam->at_m;
        ps_point(into, x_m, y_m);
        text_add(into, "cross\n");
        if (seam->upright)
            ps_text(into, FACE_BOLD, type_m, seam->outward > 0 ? ANCHOR_RIGHT : ANCHOR_LEFT,
                    x_m - seam->outward * 1 * MM, y_m + 1 * MM, seam->letters);
        else
            ps_text(into, FACE_BOLD, type_m, ANCHOR_LEFT, x_m + 1 * MM,
                    seam->outward > 0 ? y_m - clear_m - 1 * MM : y_m + 1 * MM, seam->letters);
    }
}

/* What to do at the seam, on the part that is cut off or covered, if there is room. */
static void seam_words(const struct seam *seam, double overlap_m, struct text *into) {
    char words[96];
    double from_m = seam->from_m, to_m = seam->to_m;
    if (seam->upright && seam->outward > 0) /* above the upright bar */
        from_m = fmin(BAR_FOOT_M + PROOF_BAR_M + 1 * MM, to_m - 15 * MM);
    double middle_m = (from_m + to_m) / 2, length_m = 0.9 * (to_m - from_m);
    bool brief = length_m < 0.07;
    if (seam->over)
        snprintf(words, sizeof words,
                 brief ? "trim, lay on %s (%zu)" : "trim along the dots, lay on %s (sheet %zu)",
                 seam->other, seam->number);
    else
        snprintf(words, sizeof words,
                 brief ? "glue %s (%zu) here"
                       : "glue side: %s (sheet %zu) goes here, up to the dots",
                 seam->other, seam->number);
    double room_m = overlap_m / 2;
    bool outside = room_m >= 3 * MM;
    double size_m = ps_fitting_size_m(FACE_PLAIN, TYPE_NOTE_M, length_m, words);
    /* Baseline of the line of words, away from the seam. */
    double way = outside ? seam->outward : -seam->outward;
    double base_m = seam->at_m + way * 1 * MM;
    if (seam->upright) /* reads upwards: letters stand to the left of their baseline */
        ps_text(into, FACE_PLAIN, size_m, ANCHOR_UP, way > 0 ? base_m + 0.75 * size_m : base_m,
                middle_m, words);
    else
        ps_text(into, FACE_PLAIN, size_m, ANCHOR_CENTRE, middle_m,
                way > 0 ? base_m : base_m - 0.75 * size_m, words);
}

static void draw_seam(const struct seam *seam, double overlap_m, struct text *into) {
    ps_pen(into, PEN_DOTTED);
    if (seam->upright)
        ps_line(into, seam->at_m, seam->from_m, seam->at_m, seam->to_m);
    else
        ps_line(into, seam->from_m, seam->at_m, seam->to_m, seam->at_m);
    crosses(seam, into);
    seam_words(seam, overlap_m, into);
}

/* The side of a tile towards the tile `down` rows below and `right` columns to
 * the right.  Returns: false when no sheet joins there. */
static bool find_seam(const struct template_plan *plan, const struct planned_sheet *sheet, int down,
                      int right, struct seam *seam) {
    const struct tiling *tiling = &plan->laying[sheet->piece].tiling;
    size_t row = sheet->row + (size_t)down, column = sheet->column + (size_t)right;
    size_t number = tile_sheet_number(plan, sheet->piece, row, column);
    if (number == 0)
        return false;
    const struct frame *frame = &sheet->frame;
    double half_m = tiling->window.overlap_m / 2, foot_m = frame->footer_m;
    double high_m = tiling->window.height_m, wide_m = tiling->window.width_m;
    *seam = (struct seam){.upright = right != 0,
                          .over = down < 0 || right<0, .outward = right> 0 || down < 0 ? 1 : -1,
                          .number = number};
    seam->from_m = seam->upright ? foot_m : 0;
    seam->to_m = seam->upright ? foot_m + high_m : wide_m;
    double nearest_m = seam->upright ? 0 : foot_m,
           farthest_m = seam->upright ? wide_m : foot_m + high_m;
    seam->at_m = seam->outward > 0 ? farthest_m - half_m : nearest_m + half_m;
    pair_letters(tiling, down < 0 ? row : sheet->row, right < 0 ? column : sheet->column, down != 0,
                 seam->letters);
    tile_name(tiling, row, column, seam->other);
    return true;
}

static void draw_seams(const struct template_plan *plan, const struct planned_sheet *sheet,
                       struct text *into) {
    static const int way[][2] = {{0, -1}, {0, 1}, {-1, 0}, {1, 0}}; /* left, right, above, below */
    double overlap_m = plan->laying[sheet->piece].tiling.window.overlap_m;
    for (size_t i = 0; i < COUNT_OF(way); i++) {
        struct seam seam;
        if (find_seam(plan, sheet, way[i][0], way[i][1], &seam))
            draw_seam(&seam, overlap_m, into);
    }
}

/* ---- the footer -------------------------------------------------------- */

/* An arrow towards the crown as the piece lies on this sheet. */
static void draw_way_up(double x_m, bool turned, struct text *into) {
    text_add(into, "gsave ");
    ps_point(into, x_m, 5.5 * MM);
    text_add(into, "translate%s mark ", turned ? " 90 rotate" : "");
    ps_line(into, 0, -2.5 * MM, 0, 2.5 * MM);
    ps_point(into, 0, 2.5 * MM);
    text_add(into, "90 head grestore\n");
}

/* The piece small, with the place of this sheet crossed.  Returns: width taken. */
static double draw_map(const struct template_plan *plan, const struct planned_sheet *sheet,
                       struct text *into) {
    const struct tiling *tiling = &plan->laying[sheet->piece].tiling;
    if (sheet->frame.footer_m > 0.015 || tiling->columns + tiling->rows > MAP_LINES_MOST)
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
    char half[64];
    half_words(plan->envelope, piece, half);
    snprintf(into, size, "%s, row %zu of %zu from the mouth, cut %zu, %s%s%s",
             style_name(piece->style), piece->row, plan->envelope->rows, piece->count,
             plan->design->cloth.colour, half[0] != '\0' ? "; " : "", half);
}

static struct footer footer_of(const struct planned_sheet *sheet, size_t number, const char *title,
                               const char *detail) {
    return (struct footer){.title = title,
                           .detail = detail,
                           .number = number,
                           .bar_up_x_m = sheet->frame.width_m - BAR_EDGE_M,
                           .bar_up_y_m = BAR_FOOT_M};
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
    draw_seams(plan, sheet, into);
    text_add(into, "grestore\n");
    snprintf(title, sizeof title, "%s   %s", piece->name,
             tile_name(tiling, sheet->row, sheet->column, name));
    piece_words(plan, piece, detail, sizeof detail);
    struct footer footer = footer_of(sheet, number, title, detail);
    footer.text_from_m = draw_map(plan, sheet, into);
    page_footer(plan, &sheet->frame, &footer, into);
}

void shared_page_write(const struct template_plan *plan, size_t number, struct text *into) {
    const struct planned_sheet *sheet = &plan->sheet[number - 1];
    const struct placement *placement = &plan->placement[sheet->first];
    char title[256] = "", detail[320];
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
                 "whole pieces; what to cut of each stands on it and in the "
                 "index; colour: %s",
                 plan->design->cloth.colour);
    struct footer footer = footer_of(sheet, number, title, detail);
    page_footer(plan, &sheet->frame, &footer, into);
}
