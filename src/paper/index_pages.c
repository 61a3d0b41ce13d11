/* index_pages.c - every template small, with the sheets it comes on. */
#include <math.h>
#include <stdio.h>

#include "paper/index_pages.h"
#include "paper/page_parts.h"
#include "paper/piece_label.h"
#include "paper/sheets.h"

#define ENTRY_WIDTH_M 0.060
#define ENTRY_HEIGHT_M 0.076
#define CAPTION_M 0.0145
#define BORDER_M 0.004
#define LEAST_CELL_M 0.008
#define ENTRY_MOST_M 0.13

/* ---- how many to a page ------------------------------------------------ */

/* Make an entry large enough for a template's sheet numbers to be read. */
static void make_room(const struct template_plan *plan, size_t piece, double *width_m,
                      double *height_m) {
    const struct tiling *tiling = &plan->laying[piece].tiling;
    if (plan->laying[piece].shared)
        return;
    struct flat_point size = laid_size(&plan->envelope->piece[piece], tiling->turned);
    double stride_m =
        fmin(tiling->window.width_m, tiling->window.height_m) - tiling->window.overlap_m;
    double scale = LEAST_CELL_M / stride_m;
    *width_m = fmax(*width_m, size.x_m * scale + 2 * BORDER_M);
    *height_m = fmax(*height_m, size.y_m * scale + CAPTION_M + 2 * BORDER_M);
}

/* Fewer and larger entries while all templates still go on one page. */
static void enlarge(struct index_grid *grid, const struct window *page, size_t templates,
                    double height_over_width) {
    for (size_t columns = grid->columns - 1; columns > 0; columns--) {
        double width_m = page->width_m / (double)columns;
        size_t rows = (templates + columns - 1) / columns;
        if (width_m > ENTRY_MOST_M || (double)rows * width_m * height_over_width > page->height_m)
            return;
        grid->columns = columns;
        grid->rows = (size_t)floor(page->height_m / (width_m * height_over_width));
    }
}

struct index_grid index_grid_of(const struct template_plan *plan) {
    struct window windows[2];
    tile_windows(plan, windows);
    double width_m = ENTRY_WIDTH_M, height_m = ENTRY_HEIGHT_M;
    for (size_t i = 0; i < plan->envelope->templates; i++)
        make_room(plan, i, &width_m, &height_m);
    struct index_grid grid = {
        .columns = (size_t)fmax(1, floor(windows[0].width_m / width_m)),
        .rows = (size_t)fmax(1, floor(windows[0].height_m / height_m)),
    };
    if (!windows[0].roll)
        enlarge(&grid, &windows[0], plan->envelope->templates, height_m / width_m);
    grid.entry_width_m = windows[0].width_m / (double)grid.columns;
    grid.entry_height_m = windows[0].roll ? fmin(height_m, windows[0].height_m)
                                          : windows[0].height_m / (double)grid.rows;
    return grid;
}

double index_window_m(const struct index_grid *grid, size_t count) {
    size_t rows = (count + grid->columns - 1) / grid->columns;
    return (double)(rows > 0 ? rows : 1) * grid->entry_height_m;
}

/* ---- one entry --------------------------------------------------------- */

/* Tiled pieces are shown as they lie on their sheets, the others upright. */
static bool shown_turned(const struct template_plan *plan, size_t piece) {
    return !plan->laying[piece].shared && plan->laying[piece].tiling.turned;
}

struct entry {
    const struct template_plan *plan;
    size_t piece;
    struct text_box box;
    double scale, x_m, y_m; /* where the laid origin comes to stand */
};

static void caption(const struct entry *entry, struct text *into) {
    const struct template_plan *plan = entry->plan;
    const struct piece *piece = &plan->envelope->piece[entry->piece];
    const struct laying *laying = &plan->laying[entry->piece];
    char words[4][320], gores[GORE_LIST_MOST], half[64];
    snprintf(words[0], sizeof words[0], "%s   cut %zu %s", piece->name, piece->count,
             plan->design->cloth.colour);
    snprintf(words[1], sizeof words[1], "%s, row %zu of %zu from the mouth",
             style_name(piece->style), piece->row, plan->envelope->rows);
    half_words(plan->envelope, piece, half);
    snprintf(words[2], sizeof words[2], "gores %s%s%s",
             gore_list(plan->envelope, piece->style, gores), half[0] != '\0' ? "; " : "", half);
    if (laying->shared)
        snprintf(words[3], sizeof words[3], "whole on sheet %zu", laying->first_sheet);
    else
        snprintf(words[3], sizeof words[3], "sheets %zu to %zu: %zu across, %zu up",
                 laying->first_sheet, laying->last_sheet, laying->tiling.columns,
                 laying->tiling.rows);
    double y_m = entry->box.top_m, width_m = entry->box.width_m - 8 * MM;
    for (size_t i = 0; i < COUNT_OF(words); i++) {
        enum face face = i == 0 ? FACE_BOLD : FACE_PLAIN;
        double size_m = i == 0 ? TYPE_TITLE_M : TYPE_NOTE_M;
        y_m -= i == 0 ? 3.6 * MM : 3 * MM;
        ps_text(into, face, ps_fitting_size_m(face, size_m, width_m, words[i]), ANCHOR_LEFT,
                entry->box.x_m, y_m, words[i]);
    }
}

/* The cut line, small. */
static void outline(const struct entry *entry, struct text *into) {
    bool turned = shown_turned(entry->plan, entry->piece);
    struct flat_point origin = laid_origin(&entry->plan->envelope->piece[entry->piece], turned);
    text_add(into, "gsave ");
    ps_point(into, entry->x_m + origin.x_m * entry->scale, entry->y_m + origin.y_m * entry->scale);
    text_add(into, "translate%s ", turned ? " 90 rotate" : "");
    ps_ratio(into, entry->scale);
    text_add(into, "dup scale [] 0 setdash ");
    ps_ratio(into, 0.7 / entry->scale);
    text_add(into, "setlinewidth C%zu grestore\n", entry->piece + 1);
}

/* Where in its cell a sheet is named: the middle, or the first place that no cut line
 * crosses.  Given: half the size of the words.  Returns: their middle, laid. */
static struct flat_point clear_place(const struct entry *entry, struct rect cell,
                                     struct flat_point half) {
    static const double places[][2] = {{0, 0}, {0, 1},  {0, -1},  {1, 0}, {-1, 0},
                                       {1, 1}, {-1, 1}, {-1, -1}, {1, -1}};
    const struct piece *piece = &entry->plan->envelope->piece[entry->piece];
    bool turned = entry->plan->laying[entry->piece].tiling.turned;
    struct flat_point middle = {(cell.x0_m + cell.x1_m) / 2, (cell.y0_m + cell.y1_m) / 2};
    double slack_x_m = (cell.x1_m - cell.x0_m) / 2 - half.x_m;
    double slack_y_m = (cell.y1_m - cell.y0_m) / 2 - half.y_m;
    for (size_t i = 0; i < COUNT_OF(places); i++) {
        struct flat_point at = {middle.x_m + places[i][0] * slack_x_m,
                                middle.y_m + places[i][1] * slack_y_m};
        struct rect words = {at.x_m - half.x_m, at.y_m - half.y_m, at.x_m + half.x_m,
                             at.y_m + half.y_m};
        if (!ring_meets(&piece->cut, rect_on_piece(piece, turned, words)))
            return at;
    }
    return middle;
}

/* One sheet of the grid: its name, and its number below. */
static void grid_cell(const struct entry *entry, size_t row, size_t column, size_t number,
                      struct text *into) {
    const struct tiling *tiling = &entry->plan->laying[entry->piece].tiling;
    struct rect cell = tile_cell(tiling, row, column);
    double scale = entry->scale;
    double width_m = (cell.x1_m - cell.x0_m) * scale, height_m = (cell.y1_m - cell.y0_m) * scale;
    char name[16], words[32];
    ps_box(into, entry->x_m + cell.x0_m * scale, entry->y_m + cell.y0_m * scale, width_m, height_m);
    tile_name(tiling, row, column, name);
    snprintf(words, sizeof words, "%zu", number);
    double size_m = ps_fitting_size_m(FACE_PLAIN, fmin(0.0024, height_m / 3), 0.7 * width_m, name);
    double words_m = fmax(ps_text_width_m(FACE_PLAIN, size_m, name),
                          ps_text_width_m(FACE_BOLD, 1.15 * size_m, words));
    struct flat_point half = {(words_m / 2 + 0.3 * size_m) / scale, 1.3 * size_m / scale};
    struct flat_point at = clear_place(entry, cell, half);
    double x_m = entry->x_m + at.x_m * scale, y_m = entry->y_m + at.y_m * scale;
    ps_text(into, FACE_PLAIN, size_m, ANCHOR_CENTRE, x_m, y_m + 0.25 * size_m, name);
    ps_text(into, FACE_BOLD, 1.15 * size_m, ANCHOR_CENTRE, x_m, y_m - 1.05 * size_m, words);
}

static void sheet_grid(const struct entry *entry, struct text *into) {
    const struct tiling *tiling = &entry->plan->laying[entry->piece].tiling;
    ps_pen(into, PEN_FINE);
    for (size_t row = 0; row < tiling->rows; row++) {
        for (size_t column = 0; column < tiling->columns; column++) {
            size_t number = tile_sheet_number(entry->plan, entry->piece, row, column);
            if (number > 0)
                grid_cell(entry, row, column, number, into);
        }
    }
}

/* An arrow that shows which way the crown is. */
static void way_up(const struct entry *entry, struct text *into) {
    double x_m = entry->box.x_m + entry->box.width_m - 2 * MM;
    double y_m = entry->box.top_m - 9 * MM;
    ps_pen(into, PEN_MARK);
    text_add(into, "gsave ");
    ps_point(into, x_m, y_m);
    text_add(into, "translate%s ", shown_turned(entry->plan, entry->piece) ? " 90 rotate" : "");
    ps_line(into, 0, -2.5 * MM, 0, 2.5 * MM);
    ps_point(into, 0, 2.5 * MM);
    text_add(into, "90 head grestore\n");
}

/* The box that the sheets of a template cover, in laid coordinates. */
static struct rect covered(const struct template_plan *plan, size_t piece) {
    const struct tiling *tiling = &plan->laying[piece].tiling;
    struct flat_point size = laid_size(&plan->envelope->piece[piece], shown_turned(plan, piece));
    if (plan->laying[piece].shared)
        return (struct rect){0, 0, size.x_m, size.y_m};
    struct rect last = tile_cell(tiling, 0, tiling->columns - 1);
    return (struct rect){tiling->left_m, tiling->bottom_m, last.x1_m, last.y1_m};
}

static void write_entry(const struct template_plan *plan, size_t piece, struct text_box box,
                        struct text *into) {
    struct entry entry = {.plan = plan, .piece = piece, .box = box};
    struct rect all = covered(plan, piece);
    double wide_m = all.x1_m - all.x0_m, high_m = all.y1_m - all.y0_m;
    double room_m = box.height_m - CAPTION_M;
    entry.scale = fmin(box.width_m / wide_m, room_m / high_m);
    entry.x_m = box.x_m + (box.width_m - wide_m * entry.scale) / 2 - all.x0_m * entry.scale;
    entry.y_m = box.top_m - CAPTION_M - high_m * entry.scale - all.y0_m * entry.scale;
    caption(&entry, into);
    outline(&entry, into);
    if (!plan->laying[piece].shared)
        sheet_grid(&entry, into);
    way_up(&entry, into);
}

/* ---- the page ---------------------------------------------------------- */

void index_page_write(const struct template_plan *plan, size_t number, struct text *into) {
    const struct planned_sheet *sheet = &plan->sheet[number - 1];
    const struct index_grid *grid = &plan->index;
    for (size_t i = 0; i < sheet->count; i++) {
        double x_m = (double)(i % grid->columns) * grid->entry_width_m;
        double top_m = sheet->frame.height_m - (double)(i / grid->columns) * grid->entry_height_m;
        struct text_box box = {x_m + BORDER_M, top_m - BORDER_M / 2,
                               grid->entry_width_m - 2 * BORDER_M,
                               grid->entry_height_m - 1.5 * BORDER_M};
        write_entry(plan, sheet->first + i, box, into);
    }
    char detail[160];
    snprintf(detail, sizeof detail,
             "every piece, its sheets and their numbers; the small arrow points to the crown");
    page_footer(plan, &sheet->frame,
                &(struct footer){.title = "Index",
                                 .detail = detail,
                                 .number = number,
                                 .bar_up_x_m = sheet->frame.width_m - BAR_EDGE_M,
                                 .bar_up_y_m = BAR_FOOT_M},
                into);
}
