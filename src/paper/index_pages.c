/* index_pages.c - every template small, with the sheets it comes on. */
#include <math.h>
#include <stdio.h>

#include "paper/index_pages.h"
#include "paper/colour_words.h"
#include "paper/page_parts.h"
#include "paper/piece_label.h"
#include "paper/sheets.h"

#define ENTRY_WIDTH_M 0.060
#define ENTRY_DRAWING_M 0.053
#define BORDER_M 0.004
#define LEAST_CELL_M 0.009
#define ENTRY_MOST_M 0.13

/* ---- captions ---------------------------------------------------------- */

#define TITLE_STEP_M 0.004
#define LINE_STEP_M 0.0034
#define BELOW_CAPTION_M 0.0015
#define ARROW_ROOM_M 0.008

enum { CAPTION_LINES_MOST = 9 };

/* The lines below the title, each no wider than there is room for. */
struct caption {
    char line[CAPTION_LINES_MOST][LATIN_MOST];
    size_t lines;
};

static void caption_add(struct caption *caption, double size_m, double width_m, size_t most,
                        const char *words) {
    size_t lines =
        break_lines(FACE_PLAIN, size_m, width_m, words, most, caption->line + caption->lines);
    caption->lines += lines < most ? lines : most;
}

/* Given: `most`, a number as large as any sheet's while they have none; 0 after. */
static void caption_make(const struct template_plan *plan, size_t piece, double width_m,
                         size_t most, struct caption *caption) {
    const struct piece *p = &plan->envelope->piece[piece];
    const struct laying *laying = &plan->laying[piece];
    double size_m = plan->index.type * TYPE_NOTE_M;
    char words[96 + GORE_LIST_MOST], gores[GORE_LIST_MOST], half[64];
    size_t first = most > 0 ? most : laying->first_sheet;
    size_t last = most > 0 ? most : laying->last_sheet;
    caption->lines = 0;
    snprintf(words, sizeof words, "%s, row %zu of %zu from the mouth", style_name(p->style), p->row,
             plan->envelope->rows);
    caption_add(caption, size_m, width_m, 2, words);
    caption_add(caption, size_m, width_m, 2, half_words(plan->envelope, p, half));
    snprintf(words, sizeof words, "gores %s", gore_list(plan->envelope, p->style, gores));
    caption_add(caption, size_m, width_m, 3, words);
    if (laying->shared)
        snprintf(words, sizeof words, "whole on sheet %zu", first);
    else
        snprintf(words, sizeof words, "sheets %zu to %zu; tiles: %zu across, %zu up", first, last,
                 laying->tiling.columns, laying->tiling.rows);
    caption_add(caption, size_m, width_m, 2, words);
}

static double caption_height_m(const struct template_plan *plan, size_t piece, size_t most,
                               double width_m) {
    struct caption caption;
    caption_make(plan, piece, width_m - ARROW_ROOM_M, most, &caption);
    return (TITLE_STEP_M + (double)caption.lines * LINE_STEP_M + BELOW_CAPTION_M) *
           plan->index.type;
}

/* ---- how many to a page ------------------------------------------------ */

/* Make an entry large enough for a template's sheet numbers to be read. */
static void make_room(const struct template_plan *plan, size_t piece, double caption_m,
                      double *width_m, double *height_m) {
    const struct tiling *tiling = &plan->laying[piece].tiling;
    if (plan->laying[piece].shared)
        return;
    struct flat_point size = laid_size(&plan->envelope->piece[piece], tiling->turned);
    double stride_m =
        fmin(tiling->window.width_m, tiling->window.height_m) - tiling->window.overlap_m;
    double scale = LEAST_CELL_M * plan->index.type / stride_m;
    *width_m = fmax(*width_m, size.x_m * scale + 2 * BORDER_M);
    *height_m = fmax(*height_m, size.y_m * scale + caption_m + 2 * BORDER_M);
}

/* Fewer and larger entries while all templates still go on one page. */
static void enlarge(struct index_grid *grid, const struct window *page, size_t templates,
                    double height_over_width) {
    for (size_t columns = grid->columns - 1; columns > 0; columns--) {
        double width_m = page->width_m / (double)columns;
        size_t rows = (templates + columns - 1) / columns;
        if (width_m > ENTRY_MOST_M * grid->type ||
            (double)rows * width_m * height_over_width > page->height_m)
            return;
        grid->columns = columns;
        grid->rows = (size_t)floor(page->height_m / (width_m * height_over_width));
    }
}

struct index_grid index_grid_of(const struct template_plan *plan) {
    struct window windows[2];
    tile_windows(plan, windows);
    double type = plan->index.type;
    double width_m = fmin(ENTRY_WIDTH_M * type, windows[0].width_m), caption_m = 0;
    size_t most = 16; /* as for notes and index */
    for (size_t i = 0; i < plan->envelope->templates; i++)
        most += plan->laying[i].tiling.rows * plan->laying[i].tiling.columns;
    for (size_t i = 0; i < plan->envelope->templates; i++)
        caption_m = fmax(caption_m, caption_height_m(plan, i, most, width_m - 2 * BORDER_M));
    double height_m = ENTRY_DRAWING_M * type + caption_m + 2 * BORDER_M;
    for (size_t i = 0; i < plan->envelope->templates; i++)
        make_room(plan, i, caption_m, &width_m, &height_m);
    struct index_grid grid = {
        .type = type,
        .columns = (size_t)fmax(1, floor(windows[0].width_m / width_m)),
        .rows = (size_t)fmax(1, floor(windows[0].height_m / height_m)),
    };
    if (!windows[0].roll)
        enlarge(&grid, &windows[0], plan->envelope->templates, height_m / width_m);
    grid.entry_width_m = windows[0].width_m / (double)grid.columns;
    grid.entry_height_m = windows[0].roll ? fmin(height_m, windows[0].height_m)
                                          : windows[0].height_m / (double)grid.rows;
    grid.caption_m = caption_m;
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

static void write_caption(const struct entry *entry, struct text *into) {
    const struct template_plan *plan = entry->plan;
    const struct piece *piece = &plan->envelope->piece[entry->piece];
    double type = plan->index.type, width_m = entry->box.width_m - ARROW_ROOM_M;
    double y_m = entry->box.top_m - TITLE_STEP_M * type;
    char title[32 + COLOUR_WORDS_MOST], cut[LATIN_MOST], colours[COLOUR_WORDS_MOST];
    struct caption caption;
    snprintf(title, sizeof title, "%s   cut %zu %s", piece->name, piece->count,
             colour_words(plan->design, plan->envelope, piece, false, colours));
    ps_text(into, FACE_BOLD, type * TYPE_TITLE_M, ANCHOR_LEFT, entry->box.x_m, y_m,
            ps_cut(FACE_BOLD, type * TYPE_TITLE_M, width_m, title, cut));
    caption_make(plan, entry->piece, width_m, 0, &caption);
    for (size_t i = 0; i < caption.lines; i++) {
        y_m -= LINE_STEP_M * type;
        ps_text(into, FACE_PLAIN, type * TYPE_NOTE_M, ANCHOR_LEFT, entry->box.x_m, y_m,
                caption.line[i]);
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
    double size_m = ps_fitting_size_m(
        FACE_PLAIN, fmin(entry->plan->index.type * TYPE_NOTE_M, height_m / 3), 0.7 * width_m, name);
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
    double caption_m = plan->index.caption_m, room_m = box.height_m - caption_m;
    entry.scale = fmin(box.width_m / wide_m, room_m / high_m);
    entry.x_m = box.x_m + (box.width_m - wide_m * entry.scale) / 2 - all.x0_m * entry.scale;
    entry.y_m = box.top_m - caption_m - high_m * entry.scale - all.y0_m * entry.scale;
    write_caption(&entry, into);
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
    page_footer(plan, &sheet->frame,
                &(struct footer){
                    .title = "Index",
                    .detail = "every piece with its tiles and, bold, the numbers of its sheets; "
                              "the small arrow points to the crown",
                    .number = number,
                    .bar = upright_bar_at_edge(&sheet->frame)},
                into);
}
