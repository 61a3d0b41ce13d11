/* sheet_seams.c - where sheets are glued together. */
#include <math.h>
#include <stdio.h>

#include "paper/page_parts.h"
#include "paper/sheet_seams.h"

#define CROSS_ARM_M 0.0045 /* and a little air */
#define LETTER_M 0.0032
#define ROOM_FOR_WORDS_M 0.003

/* A side of a tile where another sheet joins, in coordinates of the frame. */
struct seam {
    const struct piece *piece;
    bool turned;
    struct flat_point laid; /* laid coordinates of the frame's corner */
    bool upright;           /* the seam's line */
    bool over;              /* this sheet is trimmed and lies on the other */
    double outward;         /* +1 or -1: which way the other sheet lies */
    double at_m;            /* x of an upright seam, y of a lying one */
    double from_m, to_m;    /* along the seam, within the window */
    double cross_m[2];      /* along the seam */
    double overlap_m, type;
    char letters[8];
    char other[16]; /* name of the other sheet */
    size_t number;  /* of the other sheet */
};

/* ---- finding room ------------------------------------------------------ */

/* Whether cut line and sew line stay away from a rectangle about the seam:
 * `along_m` +- half_m, and from `inner_m` to `outer_m` across it. */
static bool is_clear(const struct seam *seam, double along_m, double half_m, double inner_m,
                     double outer_m) {
    double low_m = seam->at_m + fmin(inner_m, outer_m),
           high_m = seam->at_m + fmax(inner_m, outer_m);
    struct rect rect = seam->upright
                           ? (struct rect){low_m, along_m - half_m, high_m, along_m + half_m}
                           : (struct rect){along_m - half_m, low_m, along_m + half_m, high_m};
    rect = (struct rect){rect.x0_m + seam->laid.x_m, rect.y0_m + seam->laid.y_m,
                         rect.x1_m + seam->laid.x_m, rect.y1_m + seam->laid.y_m};
    rect = rect_on_piece(seam->piece, seam->turned, rect);
    return !ring_meets(&seam->piece->cut, rect) && !ring_meets(&seam->piece->sew, rect);
}

/* The place nearest to `wanted_m`, between least and most, that is clear; else
 * the one wanted.  Both sheets of a seam ask the same, so they agree on it. */
static double clear_place_m(const struct seam *seam, double wanted_m, double least_m, double most_m,
                            double half_m, double inner_m, double outer_m) {
    const double step_m = 0.004;
    for (int i = 0; i <= 20; i++) {
        double up_m = wanted_m + i * step_m, down_m = wanted_m - i * step_m;
        if (up_m <= most_m && is_clear(seam, up_m, half_m, inner_m, outer_m))
            return up_m;
        if (down_m >= least_m && is_clear(seam, down_m, half_m, inner_m, outer_m))
            return down_m;
    }
    return wanted_m;
}

static void place_crosses(struct seam *seam) {
    double length_m = seam->to_m - seam->from_m;
    for (int i = 0; i < 2; i++) {
        double wanted_m = seam->from_m + length_m * (i == 0 ? 0.22 : 0.78);
        double spread_m = fmin(0.15 * length_m, 0.04);
        seam->cross_m[i] = clear_place_m(seam, wanted_m, wanted_m - spread_m, wanted_m + spread_m,
                                         CROSS_ARM_M, -CROSS_ARM_M, CROSS_ARM_M);
    }
}

/* ---- the seams of a tile ----------------------------------------------- */

/* The side of a tile towards the tile `down` rows below and `right` columns to
 * the right.  Returns: false when no sheet joins there. */
static bool find_seam(const struct template_plan *plan, const struct planned_sheet *sheet, int down,
                      int right, struct seam *seam) {
    const struct tiling *tiling = &plan->laying[sheet->piece].tiling;
    size_t row = sheet->row + (size_t)down, column = sheet->column + (size_t)right;
    size_t number = tile_sheet_number(plan, sheet->piece, row, column);
    if (number == 0)
        return false;
    struct rect window = tile_window(tiling, sheet->row, sheet->column);
    double overlap_m = tiling->window.overlap_m, foot_m = sheet->frame.footer_m;
    double high_m = tiling->window.height_m, wide_m = tiling->window.width_m;
    bool far_side = down < 0 || right == 1; /* the top, the right */
    *seam = (struct seam){.piece = &plan->envelope->piece[sheet->piece],
                          .turned = tiling->turned,
                          .laid = {window.x0_m, window.y0_m - foot_m},
                          .upright = right != 0,
                          .over = down + right < 0,
                          .outward = far_side ? 1 : -1,
                          .overlap_m = overlap_m,
                          .type = sheet->frame.type,
                          .number = number};
    double near_m = seam->upright ? 0 : foot_m, far_m = seam->upright ? wide_m : foot_m + high_m;
    seam->at_m = far_side ? far_m - overlap_m / 2 : near_m + overlap_m / 2;
    seam->from_m = seam->upright ? foot_m : 0;
    seam->to_m = seam->upright ? foot_m + high_m : wide_m;
    place_crosses(seam);
    pair_letters(tiling, down < 0 ? row : sheet->row, right < 0 ? column : sheet->column, down != 0,
                 seam->letters);
    tile_name(tiling, row, column, seam->other);
    return true;
}

/* The letters stand on this sheet's own side, so that both can be read once glued. */
static void write_crosses(const struct seam *seam, struct text *into) {
    for (int i = 0; i < 2; i++) {
        double x_m = seam->upright ? seam->at_m : seam->cross_m[i];
        double y_m = seam->upright ? seam->cross_m[i] : seam->at_m;
        bool left = seam->upright && seam->outward > 0, below = !seam->upright && seam->outward > 0;
        ps_point(into, x_m, y_m);
        text_add(into, "cross\n");
        ps_text(into, FACE_BOLD, LETTER_M, left ? ANCHOR_RIGHT : ANCHOR_LEFT,
                left ? x_m - 1 * MM : x_m + 1 * MM, below ? y_m - LETTER_M : y_m + 1 * MM,
                seam->letters);
    }
}

static void words_of(const struct seam *seam, bool brief, char words[96]) {
    if (seam->over)
        snprintf(words, 96,
                 brief ? "trim here, on tile %s (%zu)" : "trim here, lay on tile %s (sheet %zu)",
                 seam->other, seam->number);
    else
        snprintf(words, 96,
                 brief ? "glue here: tile %s (%zu)"
                       : "glue here: tile %s (sheet %zu) goes up to the dots",
                 seam->other, seam->number);
}

/* Where the words of a seam stand. */
struct seam_words {
    char words[96];
    double size_m, way, near_m, middle_m;
    bool clear; /* of the piece's lines */
};

/* Between the crosses, on the part that is cut off or covered if it is wide enough. */
static void place_words(const struct seam *seam, bool brief, struct seam_words *at) {
    double from_m = seam->cross_m[0] + CROSS_ARM_M, to_m = seam->cross_m[1] - CROSS_ARM_M;
    if (to_m - from_m < 0.02)
        to_m = seam->to_m;
    words_of(seam, brief || to_m - from_m < 0.07, at->words);
    bool outside = seam->overlap_m / 2 >= ROOM_FOR_WORDS_M;
    double most_m = seam->type * TYPE_NOTE_M;
    if (outside) /* capitals are three quarters of the size high */
        most_m = fmin(most_m, (seam->overlap_m / 2 - 1 * MM) / 0.75);
    at->size_m = ps_fitting_size_m(FACE_PLAIN, most_m, to_m - from_m, at->words);
    double half_m = ps_text_width_m(FACE_PLAIN, at->size_m, at->words) / 2;
    at->way = outside ? seam->outward : -seam->outward;
    at->near_m = at->way * 1 * MM;
    double far_m = at->near_m + at->way * at->size_m;
    at->middle_m = clear_place_m(seam, (from_m + to_m) / 2, from_m + half_m, to_m - half_m, half_m,
                                 at->near_m, far_m);
    at->clear = is_clear(seam, at->middle_m, half_m, at->near_m, far_m);
}

/* What to do at the seam, in few words where more would lie across the piece's lines. */
static void write_words(const struct seam *seam, struct text *into) {
    struct seam_words at, brief;
    place_words(seam, false, &at);
    if (!at.clear) {
        place_words(seam, true, &brief);
        at = brief.clear ? brief : at;
    }
    double base_m = seam->at_m + at.near_m, below_m = 0.75 * at.size_m;
    if (seam->upright) /* reads upwards: letters stand to the left of their baseline */
        ps_text(into, FACE_PLAIN, at.size_m, ANCHOR_UP, at.way > 0 ? base_m + below_m : base_m,
                at.middle_m, at.words);
    else
        ps_text(into, FACE_PLAIN, at.size_m, ANCHOR_CENTRE, at.middle_m,
                at.way > 0 ? base_m : base_m - below_m, at.words);
}

/* The line stops at the crosses, whose arms lie along it. */
static void write_seam(const struct seam *seam, struct text *into) {
    double from_m[] = {seam->from_m, seam->cross_m[0] + CROSS_ARM_M,
                       seam->cross_m[1] + CROSS_ARM_M};
    double to_m[] = {seam->cross_m[0] - CROSS_ARM_M, seam->cross_m[1] - CROSS_ARM_M, seam->to_m};
    ps_pen(into, seam->over ? PEN_TRIM : PEN_GLUE);
    for (size_t i = 0; i < COUNT_OF(from_m); i++) {
        if (to_m[i] <= from_m[i])
            continue;
        if (seam->upright)
            ps_line(into, seam->at_m, from_m[i], seam->at_m, to_m[i]);
        else
            ps_line(into, from_m[i], seam->at_m, to_m[i], seam->at_m);
    }
    write_crosses(seam, into);
    write_words(seam, into);
}

void sheet_seams_write(const struct template_plan *plan, const struct planned_sheet *sheet,
                       struct text *into) {
    static const int way[][2] = {{0, -1}, {0, 1}, {-1, 0}, {1, 0}}; /* left, right, above, below */
    for (size_t i = 0; i < COUNT_OF(way); i++) {
        struct seam seam;
        if (find_seam(plan, sheet, way[i][0], way[i][1], &seam))
            write_seam(&seam, into);
    }
}
