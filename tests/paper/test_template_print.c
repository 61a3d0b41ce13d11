/* test_template_print.c - what comes out of the printer, measured on the picture. */
#include <math.h>

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
        for (long x = 0; x < (long)p->width; x++) {
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
    struct picture t = {.width = p->height, .height = p->width};
    t.grey = malloc(p->width * p->height);
    assert_non_null(t.grey);
    for (size_t y = 0; y < p->height; y++)
        for (size_t x = 0; x < p->width; x++)
            t.grey[x * t.width + y] = p->grey[y * p->width + x];
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
        struct picture p = print_page(keep(&job.ps), 1);
        bool metric = square_measures(&p, 100), inch = square_measures(&p, 101.6);
        if (metric != sheets[i].metric || inch != sheets[i].inch)
            print_error("%s: 100 mm square %d, 4 in square %d\n", sheets[i].sheet, metric, inch);
        assert_int_equal(metric, sheets[i].metric);
        assert_int_equal(inch, sheets[i].inch);
        free(p.grey);
        tear_down(&job);
    }
}

/* Length of the longest lying line, from the middle of one end tick to that of the other [mm]. */
static double longest_line_mm(const struct picture *p) {
    long longest = 0, at_x = 0, at_y = 0;
    for (long y = 0; y < (long)p->height; y++)
        for (long x = 0; x < (long)p->width; x++) {
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
    struct picture p = print_page(keep(&job.ps), 1), t = turned(&p);
    assert_close(longest_line_mm(&p), want_across_mm, 0.15, 0);
    assert_close(longest_line_mm(&t), want_up_mm, 0.15, 0);
    free(p.grey);
    free(t.grey);
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
            struct picture p = print_page(path, page), t = turned(&p);
            struct lines across = lying_lines(&p, 498, 505), up = lying_lines(&t, 498, 505);
            if (across.count == 0 || up.count == 0)
                print_error("%s sheet %zu: %zu bars across, %zu up\n", sheets[i], page,
                            across.count, up.count);
            assert_true(across.count > 0 && up.count > 0);
            free(p.grey);
            free(t.grey);
        }
        tear_down(&job);
    }
}

/* ---- the assembled piece ---------------------------------------------------------- */

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

static struct flat_point dot_to_frame(const struct tile *tile, double column, double row) {
    const struct frame *f = &tile->sheet->frame;
    double x = (column + 0.5) / DOTS_PER_MM;
    double y = ((double)tile->picture.height - row - 0.5) / DOTS_PER_MM;
    double margin_x = (f->page_width_m - (f->landscape ? f->height_m : f->width_m)) / 2 / MM;
    double margin_y = (f->page_height_m - (f->landscape ? f->width_m : f->height_m)) / 2 / MM;
    if (f->landscape)
        return (struct flat_point){y - margin_y, f->page_width_m / MM - margin_x - x};
    return (struct flat_point){x - margin_x, y - margin_y};
}

static void frame_to_dot(const struct tile *tile, struct flat_point p, double *column,
                         double *row) {
    const struct frame *f = &tile->sheet->frame;
    double margin_x = (f->page_width_m - (f->landscape ? f->height_m : f->width_m)) / 2 / MM;
    double margin_y = (f->page_height_m - (f->landscape ? f->width_m : f->height_m)) / 2 / MM;
    double x = f->landscape ? f->page_width_m / MM - margin_x - p.y_m : p.x_m + margin_x;
    double y = (f->landscape ? p.x_m : p.y_m) + margin_y;
    *column = x * DOTS_PER_MM - 0.5;
    *row = (double)tile->picture.height - y * DOTS_PER_MM - 0.5;
}

/* A cross is two strokes of 22 pt, 77.6 dots.  Along a seam dots may join on to one. */
static bool is_arm(long length) {
    return length >= 76 && length <= 80;
}

/* First column near `middle` where an upright stroke goes through row y; -1 for none. */
static long upright_stroke(const struct picture *p, long middle, long y) {
    for (long x = middle - 11; x <= middle + 11; x++)
        if (is_ink(p, x, y - 20) && is_ink(p, x, y + 22))
            return x;
    return -1;
}

/* Whether a cross lies with the top row of its lying stroke from x to x + length at y. */
static bool is_cross(struct tile *tile, long x, long y, long length) {
    const struct picture *p = &tile->picture;
    long left = upright_stroke(p, x + length / 2, y), top = y;
    if (left < 0 || is_ink(p, left - 20, y - 1))
        return false;
    while (is_ink(p, left, top - 1))
        top--;
    long down = run_down(p, left, top);
    if (down < 76 || down > 96 || (!is_arm(length) && !is_arm(down)))
        return false;
    long wide = run_across(p, left, y - 20), thick = run_down(p, left - 20, y);
    if (wide > 4 || thick > 4)
        return false;
    tile->cross[tile->crosses++] = dot_to_frame(tile, (double)left + (double)(wide - 1) / 2,
                                                (double)y + (double)(thick - 1) / 2);
    return true;
}

static void find_crosses(struct tile *tile) {
    const struct picture *p = &tile->picture;
    for (long y = 0; y < (long)p->height; y++)
        for (long x = 0; x < (long)p->width; x++) {
            long length = run_across(p, x, y);
            if (length >= 76 && length <= 96 && tile->crosses < COUNT_OF(tile->cross))
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
    const char *path = keep(&job->ps);
    assembly->tiles = 0;
    for (size_t number = 1; number <= job->plan.sheets; number++) {
        const struct planned_sheet *sheet = &job->plan.sheet[number - 1];
        if (sheet->kind != SHEET_TILE || sheet->piece != piece)
            continue;
        assert_true(assembly->tiles < COUNT_OF(assembly->tile));
        struct tile *tile = &assembly->tile[assembly->tiles++];
        *tile = (struct tile){.sheet = sheet, .picture = print_page(path, number)};
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

/* Ink across the sew line at a point: distance of its middle from the point in
 * dots, along the normal.  Returns: false where there is none, or too much. */
static bool ink_offset(const struct tile *tile, struct flat_point at, struct flat_point normal,
                       double *offset) {
    double sum = 0, column, row;
    int inked = 0;
    for (double d = -0.8; d <= 0.8001; d += 0.05) {
        struct flat_point p = {at.x_m + d * normal.x_m, at.y_m + d * normal.y_m};
        frame_to_dot(tile, p, &column, &row);
        if (is_ink(&tile->picture, lround(column), lround(row))) {
            sum += d;
            inked++;
        }
    }
    *offset = inked > 0 ? sum / inked : 0;
    return inked > 0 && inked <= 10; /* half a millimetre is no longer this line */
}

/* Whether a point of the frame is well inside what the tile shows. */
static bool shows(const struct tile *tile, struct flat_point p) {
    const struct frame *f = &tile->sheet->frame;
    return p.x_m > 1 && p.y_m > f->footer_m / MM + 1 && p.x_m < f->width_m / MM - 1 &&
           p.y_m < f->height_m / MM - 1;
}

struct tally {
    size_t looked, inked, off;
    double worst_mm;
};

/* Look for the sew line at a point given on the assembled piece [mm]. */
static void look(const struct assembly *assembly, struct flat_point at, struct flat_point normal,
                 struct tally *tally) {
    for (size_t i = 0; i < assembly->tiles; i++) {
        const struct tile *tile = &assembly->tile[i];
        struct flat_point p = {at.x_m - tile->at.x_m, at.y_m - tile->at.y_m};
        if (!shows(tile, p))
            continue;
        double offset;
        tally->looked++;
        if (ink_offset(tile, p, normal, &offset)) {
            tally->inked++;
            tally->off += fabs(offset) > 0.2;
            tally->worst_mm = fmax(tally->worst_mm, fabs(offset));
        }
        return;
    }
    fail_msg("a point of the sew line is on no sheet");
}

static struct flat_point laid_mm(const struct piece *piece, bool is_turned, struct flat_point p) {
    struct flat_point origin = laid_origin(piece, is_turned);
    if (is_turned)
        return (struct flat_point){(origin.x_m - p.y_m) / MM, (origin.y_m + p.x_m) / MM};
    return (struct flat_point){(origin.x_m + p.x_m) / MM, (origin.y_m + p.y_m) / MM};
}

static void check_sew_line(struct job *job, const char *name) {
    static struct assembly assembly;
    size_t index = 0;
    while (strcmp(job->envelope->piece[index].name, name) != 0)
        index++;
    const struct piece *piece = &job->envelope->piece[index];
    const struct tiling *tiling = &job->plan.laying[index].tiling;
    assemble(job, index, &assembly);
    assert_true(assembly.tiles >= 4);
    /* Where the first sheet lies is taken from the plan, all others from their crosses. */
    const struct tile *first = &assembly.tile[0];
    struct rect window = tile_window(tiling, first->sheet->row, first->sheet->column);
    struct flat_point shift = {-window.x0_m / MM,
                               first->sheet->frame.footer_m / MM - window.y0_m / MM};
    struct tally tally = {0};
    for (size_t i = 0; i < piece->sew.count; i++) {
        struct flat_point a = laid_mm(piece, tiling->turned, piece->sew.point[i]);
        struct flat_point b =
            laid_mm(piece, tiling->turned, piece->sew.point[(i + 1) % piece->sew.count]);
        double length = hypot(b.x_m - a.x_m, b.y_m - a.y_m);
        struct flat_point along = {(b.x_m - a.x_m) / length, (b.y_m - a.y_m) / length};
        for (double s = 0.4; s < length - 0.4; s += 0.7)
            look(&assembly,
                 (struct flat_point){a.x_m + s * along.x_m + shift.x_m,
                                     a.y_m + s * along.y_m + shift.y_m},
                 (struct flat_point){along.y_m, -along.x_m}, &tally);
    }
    /* Dashes are 6 long, 3 apart; where seams or marks cross, the ink is not the sew line's. */
    assert_true(tally.looked > 1000);
    double inked = (double)tally.inked / (double)tally.looked;
    double off = (double)tally.off / (double)tally.inked;
    print_message("%s: %zu looked at, %.3f with ink, %.5f off, worst %.2f mm\n", name, tally.looked,
                  inked, off, tally.worst_mm);
    assert_true(inked >= 0.6);
    assert_true(off <= 0.002);
    for (size_t i = 0; i < assembly.tiles; i++)
        free(assembly.tile[i].picture.grey);
}

static void a_faceted_piece_glued_from_its_sheets_is_true_to_its_sew_line(void **state) {
    (void)state;
    struct job job;
    print_design(&job, "format = 1;", "A4", 0);
    check_sew_line(&job, "F04");
    check_sew_line(&job, "F01"); /* lies turned, on sheets in landscape */
    tear_down(&job);
}

static void a_billowed_piece_glued_from_its_sheets_is_true_to_its_sew_line(void **state) {
    (void)state;
    struct job job;
    print_design(&job,
                 "format = 1; size: { volume = 6; }; gores: { style = \"billowed\"; };"
                 "bulge: { depth = 0.3; }; rows: { count = 6; };",
                 "Letter", 0);
    check_sew_line(&job, "B04");
    tear_down(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_squares_measure_right_on_every_paper_size),
        cmocka_unit_test(a_corrected_cross_measures_its_nominal_length_on_that_printer),
        cmocka_unit_test(tiles_carry_a_50_mm_bar_across_and_up),
        cmocka_unit_test(a_faceted_piece_glued_from_its_sheets_is_true_to_its_sew_line),
        cmocka_unit_test(a_billowed_piece_glued_from_its_sheets_is_true_to_its_sew_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
