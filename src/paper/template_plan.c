/* template_plan.c - which sheet shows what. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "paper/index_pages.h"
#include "paper/piece_label.h"
#include "paper/proof_page.h"
#include "paper/template_plan.h"

#define SHELF_GAP_M 0.006

static const size_t nowhere = (size_t)-1;

size_t tile_sheet_number(const struct template_plan *plan, size_t piece, size_t row,
                         size_t column) {
    const struct laying *laying = &plan->laying[piece];
    if (row >= laying->tiling.rows || column >= laying->tiling.columns)
        return 0;
    return plan->tile_sheet[laying->first_tile + row * laying->tiling.columns + column];
}

bool sheet_shows(const struct template_plan *plan, const struct planned_sheet *sheet,
                 size_t piece) {
    if (sheet->kind == SHEET_TILE)
        return sheet->piece == piece;
    if (sheet->kind == SHEET_SHARED)
        for (size_t i = 0; i < sheet->count; i++)
            if (plan->placement[sheet->first + i].piece == piece)
                return true;
    return false;
}

/* ---- sheets ------------------------------------------------------------ */

/* Returns: the new sheet, its number plan->sheets; NULL when memory is short. */
static struct planned_sheet *new_sheet(struct template_plan *plan, enum sheet_kind kind,
                                       struct frame frame) {
    if (plan->sheets == plan->sheets_capacity) {
        size_t capacity = plan->sheets_capacity == 0 ? 64 : 2 * plan->sheets_capacity;
        struct planned_sheet *sheet = realloc(plan->sheet, capacity * sizeof *sheet);
        if (sheet == NULL)
            return NULL;
        plan->sheet = sheet;
        plan->sheets_capacity = capacity;
    }
    struct planned_sheet *sheet = &plan->sheet[plan->sheets++];
    *sheet = (struct planned_sheet){.kind = kind, .frame = frame};
    return sheet;
}

static bool add_front_sheets(struct template_plan *plan) {
    if (new_sheet(plan, SHEET_PROOF, proof_frame(plan)) == NULL)
        return false;
    size_t notes = proof_notes_needed(plan);
    for (size_t i = 0; i < notes; i++)
        if (new_sheet(plan, SHEET_NOTES, proof_frame(plan)) == NULL)
            return false;
    size_t templates = plan->envelope->templates;
    size_t each = plan->index.columns * plan->index.rows;
    for (size_t first = 0; first < templates; first += each) {
        size_t count = templates - first < each ? templates - first : each;
        struct planned_sheet *sheet = new_sheet(
            plan, SHEET_INDEX, sheet_frame(plan, false, index_window_m(&plan->index, count)));
        if (sheet == NULL)
            return false;
        sheet->first = first;
        sheet->count = count;
    }
    return true;
}

/* ---- tiled pieces ------------------------------------------------------ */

static bool lay_pieces(struct template_plan *plan, struct diagnostics *messages) {
    struct window windows[2];
    size_t kinds = tile_windows(plan, windows), tiles = 0, sheets = 0;
    for (size_t i = 0; i < plan->envelope->templates; i++) {
        struct laying *laying = &plan->laying[i];
        const struct piece *piece = &plan->envelope->piece[i];
        laying->tiling = tiling_choose(piece, windows, kinds);
        laying->shared = laying->tiling.rows * laying->tiling.columns == 1;
        laying->first_tile = tiles;
        tiles += laying->tiling.rows * laying->tiling.columns;
        sheets += laying->tiling.rows == 0 ? TILES_MOST + 1 : tiles_wanted(&laying->tiling, piece);
    }
    plan->tile_sheet = calloc(tiles + 1, sizeof *plan->tile_sheet);
    if (sheets <= TILES_MOST)
        return plan->tile_sheet != NULL;
    diagnose(messages, SEVERITY_ERROR, "paper-too-many", "paper.sheet",
             "the templates would take more than %d sheets of %s; choose a larger paper, or a roll",
             TILES_MOST, plan->paper.name);
    return false;
}

static bool add_tile(struct template_plan *plan, size_t piece, size_t row, size_t column) {
    struct laying *laying = &plan->laying[piece];
    const struct window *window = &laying->tiling.window;
    struct planned_sheet *sheet =
        new_sheet(plan, SHEET_TILE, sheet_frame(plan, window->landscape, window->height_m));
    if (sheet == NULL)
        return false;
    sheet->piece = piece;
    sheet->row = row;
    sheet->column = column;
    plan->tile_sheet[laying->first_tile + row * laying->tiling.columns + column] = plan->sheets;
    if (laying->count++ == 0)
        laying->first_sheet = plan->sheets;
    laying->last_sheet = plan->sheets;
    return true;
}

static bool add_tiles_of(struct template_plan *plan, size_t piece) {
    const struct tiling *tiling = &plan->laying[piece].tiling;
    for (size_t row = 0; row < tiling->rows; row++)
        for (size_t column = 0; column < tiling->columns; column++)
            if (tile_wanted(tiling, &plan->envelope->piece[piece], row, column) &&
                !add_tile(plan, piece, row, column))
                return false;
    return true;
}

static bool add_tiled_pieces(struct template_plan *plan) {
    for (size_t i = 0; i < plan->envelope->templates; i++)
        if (!plan->laying[i].shared && !add_tiles_of(plan, i))
            return false;
    return true;
}

static void place_labels(struct template_plan *plan) {
    for (size_t i = 0; i < plan->envelope->templates; i++) {
        struct piece_label label;
        piece_label_make(plan, i, &label);
        plan->laying[i].label = label.box;
    }
}

/* ---- shared sheets ----------------------------------------------------- */

struct shared {
    struct placement *placement;
    double *used_m;
    size_t placed, sheets;
};

static void shared_free(struct shared *shared) {
    free(shared->placement);
    free(shared->used_m);
    *shared = (struct shared){0};
}

static double total_m(const struct shared *shared) {
    double sum_m = 0;
    for (size_t i = 0; i < shared->sheets; i++)
        sum_m += shared->used_m[i];
    return sum_m;
}

static bool fill(const struct template_plan *plan, const bool *wanted, struct window window,
                 bool upright, struct shared *shared) {
    size_t pieces = plan->envelope->templates;
    *shared = (struct shared){.placement = calloc(pieces + 1, sizeof *shared->placement),
                              .used_m = calloc(pieces + 1, sizeof *shared->used_m)};
    if (shared->placement == NULL || shared->used_m == NULL)
        return false;
    shared->sheets = shelves_fill(plan->envelope->piece, wanted, pieces, window, SHELF_GAP_M,
                                  upright, shared->placement, &shared->placed, shared->used_m);
    return shared->sheets != nowhere;
}

/* Pieces as they are first, or lying first: whichever takes less paper. */
static bool fill_best(const struct template_plan *plan, const bool *wanted, struct window window,
                      struct shared *best) {
    struct shared lying = {0};
    bool fine = fill(plan, wanted, window, true, best) && fill(plan, wanted, window, false, &lying);
    if (fine && (lying.sheets < best->sheets || (window.roll && lying.sheets == best->sheets &&
                                                 total_m(&lying) < total_m(best)))) {
        struct shared upright = *best;
        *best = lying;
        lying = upright;
    }
    shared_free(&lying);
    return fine;
}

/* Put the sheets of one filling behind the others.  Given: `before`, placements already there. */
static bool add_shared_sheets(struct template_plan *plan, const struct shared *shared,
                              struct window window, size_t before) {
    memcpy(plan->placement + before, shared->placement, shared->placed * sizeof *shared->placement);
    for (size_t i = 0, next = 0; i < shared->sheets; i++) {
        double window_m = window.roll ? fmin(shared->used_m[i] + 0.002, window.height_m) : 0;
        struct planned_sheet *sheet =
            new_sheet(plan, SHEET_SHARED, sheet_frame(plan, window.landscape, window_m));
        if (sheet == NULL)
            return false;
        sheet->first = before + next;
        for (; next < shared->placed && shared->placement[next].sheet == i; next++) {
            struct laying *laying = &plan->laying[shared->placement[next].piece];
            laying->first_sheet = laying->last_sheet = plan->sheets;
            laying->count = 1;
            sheet->count++;
        }
    }
    return true;
}

static bool share_sheets(struct template_plan *plan) {
    size_t pieces = plan->envelope->templates, before = 0;
    struct window windows[2];
    size_t kinds = tile_windows(plan, windows);
    bool *wanted = calloc(pieces + 1, sizeof *wanted), fine = wanted != NULL;
    for (size_t kind = 0; kind < kinds && fine; kind++) {
        struct shared shared = {0};
        for (size_t i = 0; i < pieces; i++)
            wanted[i] = plan->laying[i].shared &&
                        plan->laying[i].tiling.window.landscape == windows[kind].landscape;
        fine = fill_best(plan, wanted, windows[kind], &shared) &&
               add_shared_sheets(plan, &shared, windows[kind], before);
        before += shared.placed;
        shared_free(&shared);
    }
    free(wanted);
    return fine;
}

/* ---- the whole --------------------------------------------------------- */

int template_plan_make(const struct design *design, const struct envelope *envelope,
                       struct template_plan *plan, struct diagnostics *messages) {
    size_t errors_before = messages->errors;
    *plan = (struct template_plan){.design = design, .envelope = envelope};
    if (paper_find(design->paper.sheet, &plan->paper, messages) != 0 ||
        correction_find(design, &plan->paper, &plan->correction, messages) != 0)
        return -1;
    plan->laying = calloc(envelope->templates + 1, sizeof *plan->laying);
    plan->placement = calloc(envelope->templates + 1, sizeof *plan->placement);
    if (plan->laying != NULL && plan->placement != NULL && lay_pieces(plan, messages)) {
        place_labels(plan);
        plan->index.type = sheet_frame(plan, false, 0).type;
        plan->index = index_grid_of(plan);
        if (add_front_sheets(plan) && add_tiled_pieces(plan) && share_sheets(plan))
            return 0;
    }
    if (messages->errors == errors_before)
        diagnose(messages, SEVERITY_ERROR, "memory", "", "not enough memory for the templates");
    template_plan_free(plan);
    return -1;
}

void template_plan_free(struct template_plan *plan) {
    free(plan->laying);
    free(plan->tile_sheet);
    free(plan->placement);
    free(plan->sheet);
    *plan = (struct template_plan){0};
}
