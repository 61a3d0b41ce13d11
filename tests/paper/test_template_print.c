/* test_template_print.c - what comes out of the printer, measured on the picture. */
#include <math.h>

#include "paper/template_pages.h"
#include "paper/template_plan.h"
#include "paper/ghostscript.h"

#define MM 0.001

struct job {
    struct design design;
    struct envelope *envelope;
    struct template_plan plan;
    struct text ps;
    struct template_report report;
    struct diagnostics messages;
};

static void print_design(struct job *job, const char *text, const char *sheet, size_t only) {
    *job = (struct job){0};
    assert_int_equal(
        design_read_text(text, strlen(text), "test", &job->design, NULL, &job->messages), 0);
    if (sheet != NULL)
        snprintf(job->design.paper.sheet, TEXT_MOST, "%s", sheet);
    job->envelope = envelope_build(&job->design, &job->messages);
    assert_non_null(job->envelope);
    assert_int_equal(template_plan_make(&job->design, job->envelope, &job->plan, &job->messages),
                     0);
    assert_int_equal(write_templates(&job->design, job->envelope,
                                     &(struct template_job){.sheet = only}, &job->ps, &job->report,
                                     &job->messages),
                     0);
}

static void tear_down(struct job *job) {
    template_plan_free(&job->plan);
    text_free(&job->ps);
    diagnostics_free(&job->messages);
    envelope_free(job->envelope);
}

/* ---- straight lines on a picture -------------------------------------------- */

/* Lying lines of a length, in dots: rows and left ends, one entry for each line. */
struct lines {
    size_t count;
    double row[64]; /* middle of the line's width */
    double from[64], to[64], thick[64];
};

static void add_run(struct lines *lines, long x, long y, long length) {
    for (size_t i = 0; i < lines->count; i++)
        if (fabs(lines->from[i] - (double)x) < 3 && (double)y - lines->row[i] <= 3) {
            lines->row[i] = (double)y; /* for now the last row; halved below */
            return;
        }
    if (lines->count < COUNT_OF(lines->row)) {
        lines->row[lines->count] = (double)y;
        lines->from[lines->count] = (double)x;
        lines->to[lines->count++] = (double)(x + length - 1);
    }
}

static struct lines lying_lines(const struct picture *p, long least, long most) {
    struct lines lines = {0};
    for (long y = 0; y < (long)p->height; y++)
        for (long x = next_ink(p, 0, y); x < (long)p->width; x = next_ink(p, x, y)) {
            long length = run_across(p, x, y);
            if (length >= least && length <= most)
                add_run(&lines, x, y, length);
            x += length;
        }
    for (size_t i = 0; i < lines.count; i++) {
        long thick = 0;
        while (is_ink(p, (long)lines.from[i] + (long)(least / 3), (long)lines.row[i] - thick))
            thick++;
        lines.row[i] -= (double)(thick - 1) / 2;
        lines.thick[i] = (double)thick;
    }
    return lines;
}

/* The picture turned by a quarter, so that columns can be looked at as rows. */
static struct picture turned(const struct picture *p) {
    struct picture t = {.width = p->height, .height = p->width, .per_mm = p->per_mm};
    t.bits = calloc(t.height, row_bytes(&t));
    assert_non_null(t.bits);
    for (long y = 0; y < (long)p->height; y++)
        for (long x = next_ink(p, 0, y); x < (long)p->width; x = next_ink(p, x + 1, y))
            t.bits[(size_t)x * row_bytes(&t) + (size_t)y / 8] |= (unsigned char)(0x80 >> y % 8);
    return t;
}

/* ---- page 1 -------------------------------------------------------------------- */

/* Whether two of the lines are the opposite sides of a square of that size [mm]; then it
 * must be true to 0.1 mm both ways. */
static bool square_measures(const struct picture *p, double side_mm) {
    double side = side_mm * DOTS_PER_MM;
    struct lines lines = lying_lines(p, (long)side - 5, (long)side + 5);
    for (size_t i = 0; i < lines.count; i++)
        for (size_t j = 0; j < i; j++) {
            double up = lines.row[i] - lines.row[j];
            if (fabs(lines.from[i] - lines.from[j]) > 2 || fabs(up - side) > 30)
                continue;
            assert_close(up, side, 1, 0);
            /* From the middle of the left side to the middle of the right one. */
            assert_close(lines.to[i] - lines.from[i] + 1 - lines.thick[i], side, 1, 0);
            return true;
        }
    return false;
}

static const char small[] = "format = 1; size: { volume = 1.2; }; rows: { count = 3; };";

static void the_squares_measure_right_on_every_paper_size(void **state) {
    (void)state;
    static const struct {
        const char *sheet;
        bool metric, inch; /* which squares there is room for */
    } sheets[] = {
        {"A5", true, false},       {"A4", true, true},         {"A3", true, true},
        {"A2", true, true},        {"A1", true, true},         {"A0", true, true},
        {"B5", true, false},       {"B4", true, true},         {"B3", true, true},
        {"Letter", true, true},    {"Legal", true, true},      {"Tabloid", true, true},
        {"Ledger", true, true},    {"ANSI C", true, true},     {"ANSI D", true, true},
        {"roll 24in", true, true}, {"roll 914mm", true, true}, {"A6", false, false},
        {"500x700mm", true, true},
    };
    for (size_t i = 0; i < COUNT_OF(sheets); i++) {
        struct job job;
        print_design(&job, small, sheets[i].sheet, 1);
        struct picture p = print_page(keep(&job.ps), 1, DOTS_PER_MM);
        bool metric = square_measures(&p, 100), inch = square_measures(&p, 101.6);
        if (metric != sheets[i].metric || inch != sheets[i].inch)
            print_error("%s: 100 mm square %d, 4 in square %d\n", sheets[i].sheet, metric, inch);
        assert_int_equal(metric, sheets[i].metric);
        assert_int_equal(inch, sheets[i].inch);
        free(p.bits);
        tear_down(&job);
    }
}

/* Length of the longest lying line, from the middle of one end tick to that of the other [mm]. */
static double longest_line_mm(const struct picture *p) {
    long longest = 0, at_x = 0, at_y = 0;
    for (long y = 0; y < (long)p->height; y++)
        for (long x = next_ink(p, 0, y); x < (long)p->width; x = next_ink(p, x, y)) {
            long length = run_across(p, x, y);
            if (length > longest)
                longest = length, at_x = x, at_y = y;
            x += length;
        }
    long tick = run_across(p, at_x, at_y - 15);
    assert_in_range(tick, 1, 4);
    return (double)(longest - tick) / DOTS_PER_MM;
}

static void expect_cross(const char *sheet, const char *units, double read_across_mm,
                         double read_up_mm, double want_across_mm, double want_up_mm) {
    struct job job;
    char design[256];
    snprintf(design, sizeof design,
             "%s paper: { units = \"%s\"; measured_across = %.5f; measured_up = %.5f; };", small,
             units, read_across_mm * MM, read_up_mm * MM);
    print_design(&job, design, sheet, 1);
    struct picture p = print_page(keep(&job.ps), 1, DOTS_PER_MM), t = turned(&p);
    assert_close(longest_line_mm(&p), want_across_mm, 0.15, 0);
    assert_close(longest_line_mm(&t), want_up_mm, 0.15, 0);
    free(p.bits);
    free(t.bits);
    tear_down(&job);
}

/* A printer at 97 % across and 102 % up: what the file draws is larger and smaller by that
 * much, so that on its paper the cross measures what is printed beside it. */
static void a_corrected_cross_measures_its_nominal_length_on_that_printer(void **state) {
    (void)state;
    expect_cross("A4", "mm", 0, 0, 180, 240);
    expect_cross("A4", "mm", 180 * 0.97, 240 * 1.02, 180 / 0.97, 240 / 1.02);
    expect_cross("A4", "mm", 180 * 1.05, 240 * 0.955, 180 / 1.05, 240 / 0.955);
    expect_cross("Letter", "mm", 180 * 0.98, 0, 180 / 0.98, 230);
    expect_cross("Letter", "inch", 0, 0, 7 * 25.4, 9 * 25.4);
    expect_cross("A4", "inch", 0, 9 * 25.4 * 1.02, 7 * 25.4, 9 * 25.4 / 1.02);
}

/* ---- tiles ---------------------------------------------------------------------- */

static void tiles_carry_a_50_mm_bar_across_and_up(void **state) {
    (void)state;
    static const char *const sheets[] = {"A4", "A6", "Letter", "90x95mm", "roll 24in"};
    for (size_t i = 0; i < COUNT_OF(sheets); i++) {
        struct job job;
        print_design(&job, small, sheets[i], 0);
        const char *path = keep(&job.ps);
        for (size_t page = 1; page <= job.report.sheets; page += job.report.sheets / 2 + 1) {
            struct picture p = print_page(path, page, DOTS_PER_MM), t = turned(&p);
            struct lines across = lying_lines(&p, 498, 505), up = lying_lines(&t, 498, 505);
            if (across.count == 0 || up.count == 0)
                print_error("%s sheet %zu: %zu bars across, %zu up\n", sheets[i], page,
                            across.count, up.count);
            assert_true(across.count > 0 && up.count > 0);
            free(p.bits);
            free(t.bits);
        }
        tear_down(&job);
    }
}

/* ---- the assembled piece ---------------------------------------------------------- */

enum { FINE_PER_MM = 20 };

#define PROBE_MM 0.5      /* ink is looked for this far to both sides of where the line should be */
#define LINE_MOST_MM 0.45 /* 0.6 pt, and a dot and a half on each side when it runs aslant */
#define CORNER_MM 1.0     /* left out: so near a corner of the sew line, */
#define MARK_MM 0.5       /* a match mark, */
#define SEAM_MM 0.8       /* the line that a sheet is trimmed or glued to */
#define LEFT_OUT_MOST 0.03 /* of all that is looked at */

/* A printed tile, its crosses in millimetres of its own frame, and where its frame's
 * corner comes to lie on the assembled piece. */
struct tile {
    struct picture picture;
    const struct planned_sheet *sheet;
    struct flat_point cross[16];
    size_t crosses;
    struct flat_point at; /* [mm] */
    bool placed;
};

/* What the page leaves beside the frame [mm]. */
static struct flat_point page_border(const struct frame *f) {
    return (struct flat_point){
        (f->page_width_m - (f->landscape ? f->height_m : f->width_m)) / 2 / MM,
        (f->page_height_m - (f->landscape ? f->width_m : f->height_m)) / 2 / MM};
}

static struct flat_point dot_to_frame(const struct tile *tile, double column, double row) {
    const struct frame *f = &tile->sheet->frame;
    struct flat_point border = page_border(f);
    double x = (column + 0.5) / FINE_PER_MM;
    double y = f->page_height_m / MM - (row + 0.5) / FINE_PER_MM;
    if (f->landscape)
        return (struct flat_point){y - border.y_m, f->page_width_m / MM - border.x_m - x};
    return (struct flat_point){x - border.x_m, y - border.y_m};
}

static void frame_to_dot(const struct tile *tile, struct flat_point p, double *column,
                         double *row) {
    const struct frame *f = &tile->sheet->frame;
    struct flat_point border = page_border(f);
    double x = f->landscape ? f->page_width_m / MM - border.x_m - p.y_m : p.x_m + border.x_m;
    double y = (f->landscape ? p.x_m : p.y_m) + border.y_m;
    *column = x * FINE_PER_MM - 0.5;
    *row = (f->page_height_m / MM - y) * FINE_PER_MM - 0.5;
}

static long fine(double mm) {
    return lround(mm * FINE_PER_MM);
}

/* A cross is two strokes of 22 pt, 7.76 mm.  Along a seam dots may join on to one. */
static bool is_arm(long length) {
    return length >= fine(7.6) && length <= fine(8);
}

/* First column near `middle` where an upright stroke goes through row y; -1 for none. */
static long upright_stroke(const struct picture *p, long middle, long y) {
    for (long x = middle - fine(1.1); x <= middle + fine(1.1); x++)
        if (is_ink(p, x, y - fine(2)) && is_ink(p, x, y + fine(2.2)))
            return x;
    return -1;
}

/* Whether a cross lies with the top row of its lying stroke from x to x + length at y. */
static bool is_cross(struct tile *tile, long x, long y, long length) {
    const struct picture *p = &tile->picture;
    long left = upright_stroke(p, x + length / 2, y), top = y;
    if (left < 0 || is_ink(p, left - fine(2), y - 1))
        return false;
    while (is_ink(p, left, top - 1))
        top--;
    long down = run_down(p, left, top);
    if (down < fine(7.6) || down > fine(9.6) || (!is_arm(length) && !is_arm(down)))
        return false;
    long wide = run_across(p, left, y - fine(2)), thick = run_down(p, left - fine(2), y);
    if (wide > fine(0.4) || thick > fine(0.4))
        return false;
    tile->cross[tile->crosses++] = dot_to_frame(tile, (double)left + (double)(wide - 1) / 2,
                                                (double)y + (double)(thick - 1) / 2);
    return true;
}

static void find_crosses(struct tile *tile) {
    const struct picture *p = &tile->picture;
    for (long y = 0; y < (long)p->height; y++)
        for (long x = next_ink(p, 0, y); x < (long)p->width; x = next_ink(p, x, y)) {
            long length = run_across(p, x, y);
            if (length >= fine(7.6) && length <= fine(9.6) && tile->crosses < COUNT_OF(tile->cross))
                is_cross(tile, x, y, length);
            x += length;
        }
}

/* Lay one sheet on its neighbour to the right, or below, by their crosses: those nearest to
 * the common seam, in pairs at the same place along it.  Where the piece runs through a
 * cross it is not seen; one pair is enough. */
static void join(const struct tile *lying, struct tile *next, bool upright) {
    const struct frame *f = &lying->sheet->frame;
    double near_a = (upright ? f->width_m : f->footer_m) / MM;
    double near_b = upright ? 0 : f->height_m / MM;
    struct flat_point sum = {0, 0};
    int pairs = 0;
    for (size_t i = 0; i < lying->crosses; i++) {
        for (size_t j = 0; j < next->crosses; j++) {
            struct flat_point a = lying->cross[i], b = next->cross[j];
            double along = upright ? a.y_m - b.y_m : a.x_m - b.x_m;
            if (fabs((upright ? a.x_m : a.y_m) - near_a) > 7 ||
                fabs((upright ? b.x_m : b.y_m) - near_b) > 7 || fabs(along) > 3)
                continue;
            sum.x_m += a.x_m - b.x_m;
            sum.y_m += a.y_m - b.y_m;
            pairs++;
        }
    }
    assert_in_range(pairs, 1, 2);
    next->at.x_m = lying->at.x_m + sum.x_m / pairs;
    next->at.y_m = lying->at.y_m + sum.y_m / pairs;
    next->placed = true;
}

struct assembly {
    struct tile tile[32];
    size_t tiles;
};

static struct tile *tile_at(struct assembly *assembly, size_t row, size_t column) {
    for (size_t i = 0; i < assembly->tiles; i++)
        if (assembly->tile[i].sheet->row == row && assembly->tile[i].sheet->column == column)
            return &assembly->tile[i];
    return NULL;
}

/* Print the sheets of a piece and glue them, first to last. */
static void assemble(struct job *job, size_t piece, struct assembly *assembly) {
    const struct laying *laying = &job->plan.laying[piece];
    print_pages(keep(&job->ps), laying->first_sheet, laying->last_sheet, FINE_PER_MM);
    assert_in_range(laying->count, 1, COUNT_OF(assembly->tile));
    assert_int_equal(laying->count, laying->last_sheet - laying->first_sheet + 1);
    for (assembly->tiles = 0; assembly->tiles < laying->count; assembly->tiles++) {
        struct tile *tile = &assembly->tile[assembly->tiles];
        *tile = (struct tile){.sheet = &job->plan.sheet[laying->first_sheet - 1 + assembly->tiles],
                              .picture = picture_taken(assembly->tiles + 1, FINE_PER_MM)};
        assert_true(tile->sheet->kind == SHEET_TILE && tile->sheet->piece == piece);
        find_crosses(tile);
    }
    assembly->tile[0].placed = true;
    for (size_t round = 0; round < assembly->tiles; round++) {
        for (size_t i = 0; i < assembly->tiles; i++) {
            struct tile *tile = &assembly->tile[i];
            struct tile *right = tile_at(assembly, tile->sheet->row, tile->sheet->column + 1);
            struct tile *below = tile_at(assembly, tile->sheet->row + 1, tile->sheet->column);
            if (tile->placed && right != NULL && !right->placed)
                join(tile, right, true);
            if (tile->placed && below != NULL && !below->placed)
                join(tile, below, false);
        }
    }
    for (size_t i = 0; i < assembly->tiles; i++)
        assert_true(assembly->tile[i].placed);
}

/* Ink across the sew line at a point: distance of its middle from the point [mm], along the
 * normal.  Returns: the width of the ink [mm], 0 where there is none. */
static double ink_width(const struct tile *tile, struct flat_point at, struct flat_point normal,
                        double *offset) {
    const double step = 0.025;
    double sum = 0, column, row;
    int inked = 0;
    for (double d = -PROBE_MM; d <= PROBE_MM + step / 2; d += step) {
        struct flat_point p = {at.x_m + d * normal.x_m, at.y_m + d * normal.y_m};
        frame_to_dot(tile, p, &column, &row);
        if (is_ink(&tile->picture, lround(column), lround(row))) {
            sum += d;
            inked++;
        }
    }
    *offset = inked > 0 ? sum / inked : 0;
    return inked * step;
}

/* How far inside the window of a tile a point of its frame lies [mm]. */
static double depth_in(const struct tile *tile, struct flat_point p) {
    const struct frame *f = &tile->sheet->frame;
    return fmin(fmin(p.x_m, f->width_m / MM - p.x_m),
                fmin(p.y_m - f->footer_m / MM, f->height_m / MM - p.y_m));
}

/* The tile that shows most around a point of the assembled piece. */
static const struct tile *deepest_tile(const struct assembly *assembly, struct flat_point at,
                                       double *depth) {
    const struct tile *best = NULL;
    for (size_t i = 0; i < assembly->tiles; i++) {
        const struct tile *tile = &assembly->tile[i];
        double deep =
            depth_in(tile, (struct flat_point){at.x_m - tile->at.x_m, at.y_m - tile->at.y_m});
        if (best == NULL || deep > *depth) {
            best = tile;
            *depth = deep;
        }
    }
    return best;
}

static struct flat_point laid_mm(const struct piece *piece, bool is_turned, struct flat_point p) {
    struct flat_point origin = laid_origin(piece, is_turned);
    if (is_turned)
        return (struct flat_point){(origin.x_m - p.y_m) / MM, (origin.y_m + p.x_m) / MM};
    return (struct flat_point){(origin.x_m + p.x_m) / MM, (origin.y_m + p.y_m) / MM};
}

static double distance_mm(struct flat_point p, struct flat_point from, struct flat_point to) {
    double x = to.x_m - from.x_m, y = to.y_m - from.y_m, square = x * x + y * y;
    double along = square > 0 ? ((p.x_m - from.x_m) * x + (p.y_m - from.y_m) * y) / square : 0;
    along = fmin(1, fmax(0, along));
    return hypot(p.x_m - from.x_m - along * x, p.y_m - from.y_m - along * y);
}

/* One piece on its sheets, and what was seen along its sew line. */
struct search {
    const struct piece *piece;
    const struct tiling *tiling;
    const struct assembly *assembly;
    struct flat_point shift; /* from laid to assembled [mm] */
    size_t looked, left_out, inked, off;
    double worst_mm, blank_mm, longest_blank_mm;
};

/* Other lines of the piece run here: a corner, or the foot of a match mark. */
static bool is_crossed(const struct search *search, struct flat_point laid) {
    const struct piece *piece = search->piece;
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        struct flat_point corner = laid_mm(piece, search->tiling->turned, piece_corner(piece, e));
        if (hypot(laid.x_m - corner.x_m, laid.y_m - corner.y_m) < CORNER_MM)
            return true;
    }
    for (size_t i = 0; i < piece->marks; i++) {
        struct flat_point end[2];
        match_mark_ends(piece, i, end);
        if (distance_mm(laid, laid_mm(piece, search->tiling->turned, end[0]),
                        laid_mm(piece, search->tiling->turned, end[1])) < MARK_MM)
            return true;
    }
    return false;
}

/* Look for the sew line at a laid point [mm]; the next is `step` further on. */
static void look(struct search *search, struct flat_point laid, struct flat_point normal,
                 double step) {
    struct flat_point at = {laid.x_m + search->shift.x_m, laid.y_m + search->shift.y_m};
    double depth = 0, offset, seam = search->tiling->window.overlap_m / 2 / MM;
    const struct tile *tile = deepest_tile(search->assembly, at, &depth);
    assert_true(depth > 1); /* every point is on some sheet */
    search->looked++;
    if (fabs(depth - seam) < SEAM_MM || is_crossed(search, laid)) {
        search->left_out++;
        search->blank_mm = 0;
        return;
    }
    double width = ink_width(
        tile, (struct flat_point){at.x_m - tile->at.x_m, at.y_m - tile->at.y_m}, normal, &offset);
    search->blank_mm = width > 0 ? 0 : search->blank_mm + step;
    search->longest_blank_mm = fmax(search->longest_blank_mm, search->blank_mm);
    if (width <= 0)
        return;
    search->inked++;
    search->worst_mm = fmax(search->worst_mm, fabs(offset));
    if (fabs(offset) <= 0.2 && width <= LINE_MOST_MM)
        return;
    search->off++;
    print_error("%s: laid at %.1f, %.1f mm, on sheet row %zu column %zu, %.1f mm deep: ink %.3f mm "
                "wide, %.3f mm off\n",
                search->piece->name, laid.x_m, laid.y_m, tile->sheet->row, tile->sheet->column,
                depth, width, offset);
}

static void look_all_along(struct search *search) {
    const struct piece *piece = search->piece;
    double next = 0, step = 0.25;
    for (size_t i = 0; i < piece->sew.count; i++) {
        struct flat_point a = laid_mm(piece, search->tiling->turned, piece->sew.point[i]);
        struct flat_point b =
            laid_mm(piece, search->tiling->turned, piece->sew.point[(i + 1) % piece->sew.count]);
        double length = hypot(b.x_m - a.x_m, b.y_m - a.y_m);
        struct flat_point along = {(b.x_m - a.x_m) / length, (b.y_m - a.y_m) / length};
        for (; next < length; next += step)
            look(search, (struct flat_point){a.x_m + next * along.x_m, a.y_m + next * along.y_m},
                 (struct flat_point){along.y_m, -along.x_m}, step);
        next -= length;
    }
}

static void check_sew_line(struct job *job, const char *name, size_t tiles_least) {
    static struct assembly assembly;
    size_t index = 0;
    while (strcmp(job->envelope->piece[index].name, name) != 0)
        index++;
    struct search search = {.piece = &job->envelope->piece[index],
                            .tiling = &job->plan.laying[index].tiling,
                            .assembly = &assembly};
    assemble(job, index, &assembly);
    assert_true(assembly.tiles >= tiles_least);
    /* Where the first sheet lies is taken from the plan, all others from their crosses. */
    const struct planned_sheet *first = assembly.tile[0].sheet;
    struct rect window = tile_window(search.tiling, first->row, first->column);
    search.shift =
        (struct flat_point){-window.x0_m / MM, (first->frame.footer_m - window.y0_m) / MM};
    look_all_along(&search);
    double left_out = (double)search.left_out / (double)search.looked;
    double inked = (double)search.inked / (double)(search.looked - search.left_out);
    print_message("%s on %zu sheets of %s: %zu looked at, %.4f left out, %.3f with ink, longest "
                  "blank %.2f mm, worst %.3f mm\n",
                  name, assembly.tiles, job->plan.paper.name, search.looked, left_out, inked,
                  search.longest_blank_mm, search.worst_mm);
    assert_true(search.looked > 3000);
    assert_int_equal(search.off, 0);
    assert_true(left_out <= LEFT_OUT_MOST);
    /* Dashes of 6 pt, 3 pt apart: 2.12 and 1.06 mm. */
    assert_true(inked >= 0.6 && inked <= 0.8);
    assert_true(search.longest_blank_mm <= 1.5);
    for (size_t i = 0; i < assembly.tiles; i++)
        free(assembly.tile[i].picture.bits);
}

static void every_piece_glued_from_its_sheets_is_true_to_its_sew_line(void **state) {
    (void)state;
    static const char mixed[] =
        "format = 1; size: { volume = 6; }; rows: { count = 6; }; bulge: { depth = 0.3; };"
        "gores: { count = 12; mix = (\"faceted\", \"half-gore\", \"billowed\"); };";
    static const struct {
        const char *sheet, *design, *pieces[4];
        size_t tiles_least;
    } cases[] = {
        {"A4", mixed, {"F04", "H04L", "B04"}, 4},
        {"Letter", mixed, {"F04", "H04R", "B04"}, 4},
        {"roll 200mm", mixed, {"F04", "H04L", "B04"}, 2},
        {"A4", "format = 1;", {"F01"}, 4}, /* lies turned, on sheets in landscape */
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct job job;
        print_design(&job, cases[i].design, cases[i].sheet, 0);
        for (size_t j = 0; cases[i].pieces[j] != NULL; j++)
            check_sew_line(&job, cases[i].pieces[j], cases[i].tiles_least);
        tear_down(&job);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_squares_measure_right_on_every_paper_size),
        cmocka_unit_test(a_corrected_cross_measures_its_nominal_length_on_that_printer),
        cmocka_unit_test(tiles_carry_a_50_mm_bar_across_and_up),
        cmocka_unit_test(every_piece_glued_from_its_sheets_is_true_to_its_sew_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
