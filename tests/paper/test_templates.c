/* test_templates.c - the file of templates: structure, words, jobs, refusals. */
#include <ctype.h>
#include <math.h>

#include "command/overrides.h"
#include "paper/piece_label.h"
#include "paper/template_plan.h"
#include "paper/ghostscript.h"

/* ---- a job ----------------------------------------------------------------- */

struct job {
    struct design design;
    struct envelope *envelope;
    struct text ps;
    struct template_report report;
    struct diagnostics messages;
    int status;
};

static void set_up(struct job *job, const char *text) {
    *job = (struct job){0};
    assert_int_equal(
        design_read_text(text, strlen(text), "test", &job->design, NULL, &job->messages), 0);
    job->envelope = envelope_build(&job->design, &job->messages);
    assert_non_null(job->envelope);
}

static void print_job(struct job *job, const char *piece, size_t sheet) {
    text_free(&job->ps);
    job->status = write_templates(&job->design, job->envelope,
                                  &(struct template_job){.piece = piece, .sheet = sheet}, &job->ps,
                                  &job->report, &job->messages);
}

static void print_design(struct job *job, const char *text) {
    set_up(job, text);
    print_job(job, NULL, 0);
    assert_int_equal(job->status, 0);
}

static void tear_down(struct job *job) {
    text_free(&job->ps);
    diagnostics_free(&job->messages);
    envelope_free(job->envelope);
}

static const char starter[] = "format = 1;";
static const char mixed[] =
    "format = 1; name = \"Gr\xC3\xB6\xC3\x9F"
    "e (a\\\\b) 5\"; size: { volume = 1.2; };"
    "gores: { count = 12; mix = (\"half-gore\", \"billowed\", \"faceted\"); };"
    "rows: { count = 3; }; bulge: { depth = 0.2; };"
    "cloth: { colour = \"signal blue\"; warp = \"up\"; };"
    "paper: { sheet = \"Letter\"; units = \"inch\"; };";
static const char small[] = "format = 1; size: { volume = 1.2; }; rows: { count = 3; };";
static const char rolled[] =
    "format = 1; size: { volume = 3; }; rows: { count = 5; }; gores: { style = \"half-gore\"; };"
    "paper: { sheet = \"roll 914mm\"; };";

/* The next page of a file at or after `at`: its label and its ordinal; NULL after the last. */
static const char *next_page(const char *at, char label[64], size_t *ordinal) {
    at = strstr(at, "\n%%Page: ");
    if (at == NULL)
        return NULL;
    assert_int_equal(sscanf(at, "\n%%%%Page: %63s %zu\n", label, ordinal), 2);
    return at + 1;
}

/* What stands between a page's own comment and the next page or the trailer, to be freed. */
static char *body_of(const char *page) {
    const char *begin = strchr(page, '\n') + 1, *end = strstr(begin, "\n%%Page: ");
    if (end == NULL)
        end = strstr(begin, "\n%%Trailer");
    assert_non_null(end);
    char *body = calloc((size_t)(end - begin) + 2, 1);
    assert_non_null(body);
    memcpy(body, begin, (size_t)(end - begin) + 1);
    return body;
}

/* ---- structure --------------------------------------------------------------- */

static void check_lines(const char *ps) {
    for (const char *line = ps; *line != '\0';) {
        size_t length = strcspn(line, "\n");
        assert_true(length <= 255);
        for (size_t i = 0; i < length; i++)
            assert_true(line[i] >= 32 && line[i] <= 126);
        line += length;
        assert_int_equal(*line, '\n');
        line++;
    }
}

static void check_structure(const struct job *job) {
    const char *ps = job->ps.bytes, *at = ps;
    const char *const order[] = {
        "\n%%BoundingBox: 0 0 ", "\n%%Pages: ",       "\n%%LanguageLevel: 2\n",
        "\n%%EndComments\n",     "\n%%BeginProlog\n", "\n%%EndProlog\n",
        "\n%%BeginSetup\n",      "\n%%EndSetup\n",    "\n%%Page: ",
        "\n%%Trailer\n",         "\n%%EOF\n"};
    assert_memory_equal(ps, "%!PS-Adobe-3.0\n", 15);
    for (size_t i = 0; i < COUNT_OF(order); i++) {
        at = strstr(at, order[i]);
        assert_non_null(at);
    }
    size_t pages = 0, said = 0, ordinal;
    char label[64];
    assert_int_equal(sscanf(strstr(ps, "\n%%Pages: "), "\n%%%%Pages: %zu\n", &said), 1);
    for (at = ps; (at = next_page(at, label, &ordinal)) != NULL; pages++)
        assert_int_equal(ordinal, pages + 1);
    assert_int_equal(pages, said);
    assert_int_equal(pages, job->report.sheets);
    assert_null(strstr(ps, "Date"));
}

static void files_follow_the_structuring_conventions(void **state) {
    (void)state;
    const char *const designs[] = {starter, mixed, rolled};
    for (size_t i = 0; i < COUNT_OF(designs); i++) {
        struct job job;
        print_design(&job, designs[i]);
        check_lines(job.ps.bytes);
        check_structure(&job);
        tear_down(&job);
    }
}

static void the_same_design_gives_the_same_bytes(void **state) {
    (void)state;
    struct job one, other;
    print_design(&one, mixed);
    print_design(&other, mixed);
    assert_int_equal(one.ps.length, other.ps.length);
    assert_memory_equal(one.ps.bytes, other.ps.bytes, one.ps.length);
    tear_down(&one);
    tear_down(&other);
}

static void the_starter_on_a4_takes_at_most_4_kilobytes_a_page(void **state) {
    (void)state;
    struct job job;
    print_design(&job, starter);
    assert_true(job.ps.length <= 4096 * job.report.sheets);
    tear_down(&job);
}

static void no_name_can_break_out_of_its_string(void **state) {
    (void)state;
    struct job job;
    set_up(&job, starter);
    strcpy(job.design.name, ")) quit ((\\");
    strcpy(job.design.cloth.colour, "%%EOF (\\");
    print_job(&job, NULL, 0);
    assert_int_equal(job.status, 0);
    char *out = shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=bbox %s 2>&1", keep(&job.ps));
    assert_null(strstr(out, "Error"));
    size_t boxes = 0;
    for (const char *at = out; (at = strstr(at, "%%BoundingBox")) != NULL; at++)
        boxes++;
    assert_int_equal(boxes, job.report.sheets);
    free(out);
    tear_down(&job);
}

/* ---- words --------------------------------------------------------------------- */

static void expect_words(const char *text, const char *words) {
    if (strstr(text, words) != NULL)
        return;
    print_error("not found: %s\n", words);
    fail();
}

static const char design_name[] = "Gr\xC3\xB6\xC3\x9F"
                                  "e (a\\b) 5";

static void labels_say_what_to_cut_and_how_edges_join(void **state) {
    (void)state;
    struct job job;
    print_design(&job, mixed);
    char *text = shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=txtwrite -sOutputFile=- %s 2>&1",
                       keep(&job.ps));
    static const char *const words[] = {design_name,
                                        "F03",
                                        "H03L",
                                        "H03R",
                                        "B03",
                                        "faceted, row 3 of 3 from the mouth",
                                        "cut 4, signal blue",
                                        "gores 3, 6, 9, 12",
                                        "LEFT half seen from outside;",
                                        "mirror image of H03R",
                                        "RIGHT half seen from outside;",
                                        "right, ridge seam: 13/32 in",
                                        "left, tape side: 13/32 in",
                                        "bottom, mouth hem: 31/32 in",
                                        "top, crown hem: 31/32 in",
                                        "up, to the crown",
                                        "grain",
                                        "sheet 1 of ",
                                        "7 in between the end ticks",
                                        "9 in between the end ticks",
                                        "100 mm square",
                                        "4 in square",
                                        "--measured",
                                        "Propane",
                                        "Bystanders",
                                        "Local aviation",
                                        "drawn at 1.0000 across, 1.0000 up",
                                        "goes up to the dots",
                                        "trim here, lay on tile b-0",
                                        "mirror image of H03R (sew line only)",
                                        "work row"};
    for (size_t i = 0; i < COUNT_OF(words); i++)
        expect_words(text, words[i]);
    for (size_t i = 0; i < job.envelope->templates; i++)
        expect_words(text, job.envelope->piece[i].name);
    free(text);
    tear_down(&job);
}

/* A label is inside the sew line, and not cut by a seam between sheets. */
static void labels_lie_inside_their_piece_and_on_one_sheet(void **state) {
    (void)state;
    static const char *const sheets[] = {"A4", "A6", "Tabloid", "roll 36in"};
    for (size_t s = 0; s < 2 * COUNT_OF(sheets); s++) {
        struct job job;
        struct template_plan plan;
        set_up(&job, mixed);
        strcpy(job.design.paper.sheet, sheets[s / 2]);
        job.design.cloth.warp = s % 2 == 0 ? WARP_ACROSS : WARP_UP;
        assert_int_equal(template_plan_make(&job.design, job.envelope, &plan, &job.messages), 0);
        for (size_t i = 0; i < job.envelope->templates; i++) {
            const struct piece *piece = &job.envelope->piece[i];
            const struct tiling *tiling = &plan.laying[i].tiling;
            struct piece_label label;
            piece_label_make(&plan, i, &label);
            assert_true(ring_holds(&piece->sew, label.box));
            assert_string_equal(label.line[0], piece->name);
            bool whole = false;
            for (size_t row = 0; row < tiling->rows; row++)
                for (size_t column = 0; column < tiling->columns; column++) {
                    struct rect cell =
                        rect_on_piece(piece, tiling->turned, tile_cell(tiling, row, column));
                    whole = whole || (label.box.x0_m > cell.x0_m && label.box.x1_m < cell.x1_m &&
                                      label.box.y0_m > cell.y0_m && label.box.y1_m < cell.y1_m);
                }
            assert_true(whole);
        }
        template_plan_free(&plan);
        tear_down(&job);
    }
}

static void small_pieces_carry_short_labels(void **state) {
    (void)state;
    struct job job;
    struct template_plan plan;
    struct piece_label label;
    set_up(
        &job,
        "format = 1; size: { volume = 0.03; }; rows: { count = 4; };"
        "outline: { weight_from = \"none\"; mouth_diameter = 0.08; crown_diameter = 0.06; };"
        "seams: { tape_width = 0.004; row_width = 0.004; mouth_hem = 0.01; crown_hem = 0.01; };");
    assert_int_equal(template_plan_make(&job.design, job.envelope, &plan, &job.messages), 0);
    piece_label_make(&plan, 0, &label);
    assert_true(label.lines < 4);
    assert_true(ring_holds(&job.envelope->piece[0].sew, label.box));
    template_plan_free(&plan);
    tear_down(&job);
}

/* Print one sheet; what is written on it, to be freed. */
static char *words_on(struct job *job, size_t number) {
    print_job(job, NULL, number);
    assert_int_equal(job->status, 0);
    return shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=txtwrite -sOutputFile=- %s 2>&1",
                 keep(&job->ps));
}

/* A seam is told on both sheets: the same letters, and each names the other. */
static void check_seam(struct job *job, const struct template_plan *plan, size_t number,
                       bool below) {
    const struct planned_sheet *sheet = &plan->sheet[number - 1];
    size_t other =
        tile_sheet_number(plan, sheet->piece, sheet->row + below, sheet->column + !below);
    assert_true(other > 0);
    char letters[8], quoted[16], here[64], there[64], name[16];
    const struct tiling *tiling = &plan->laying[sheet->piece].tiling;
    pair_letters(&plan->laying[sheet->piece].tiling, sheet->row, sheet->column, below, letters);
    snprintf(quoted, sizeof quoted, "b (%s) ", letters);
    snprintf(here, sizeof here, "glue here: tile %s (",
             tile_name(tiling, sheet->row + below, sheet->column + !below, name));
    snprintf(there, sizeof there, "on tile %s (",
             tile_name(tiling, sheet->row, sheet->column, name));
    char *words = words_on(job, number);
    expect_words(words, here);
    snprintf(here, sizeof here, "%zu)", other);
    expect_words(words, here);
    expect_words(job->ps.bytes, quoted);
    free(words);
    words = words_on(job, other);
    expect_words(words, there);
    snprintf(there, sizeof there, "%zu)", number);
    expect_words(words, there);
    expect_words(job->ps.bytes, quoted);
    free(words);
}

static void both_sheets_at_a_seam_name_each_other(void **state) {
    (void)state;
    struct job job;
    struct template_plan plan;
    set_up(&job, starter);
    assert_int_equal(template_plan_make(&job.design, job.envelope, &plan, &job.messages), 0);
    size_t first = plan.laying[3].first_sheet; /* F04: four across, two up */
    check_seam(&job, &plan, first, false);
    check_seam(&job, &plan, first + 2, false);
    check_seam(&job, &plan, first + 5, false);
    check_seam(&job, &plan, first, true);
    check_seam(&job, &plan, first + 3, true);
    template_plan_free(&plan);
    tear_down(&job);
}

/* ---- pages -------------------------------------------------------------------- */

/* No page is blank, and all ink lies within the margins. */
static void check_ink(const struct job *job, double page_width_m) {
    double margin = job->design.paper.margin_m / POINT_M - 0.5;
    char *out = shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=bbox %s 2>&1", keep(&job->ps));
    size_t pages = 0;
    for (const char *at = out; (at = strstr(at, "%%HiResBoundingBox: ")) != NULL; at++, pages++) {
        double x0, y0, x1, y1;
        assert_int_equal(sscanf(at, "%%%%HiResBoundingBox: %lf %lf %lf %lf", &x0, &y0, &x1, &y1),
                         4);
        assert_true(x1 - x0 > 100 && y1 - y0 > 100);
        assert_true(x0 >= margin && y0 >= margin);
        assert_true(x1 <= page_width_m / POINT_M - margin);
    }
    assert_int_equal(pages, job->report.sheets);
    free(out);
}

static void no_page_is_blank_and_all_ink_is_inside_the_margins(void **state) {
    (void)state;
    static const char *const sheets[] = {"A4", "Letter", "A3", "roll 914mm", "90x120mm"};
    for (size_t i = 0; i < COUNT_OF(sheets); i++) {
        struct job job;
        set_up(&job, i == 0 ? mixed : small);
        strcpy(job.design.paper.sheet, sheets[i]);
        print_job(&job, NULL, 0);
        assert_int_equal(job.status, 0);
        check_ink(&job, job.report.paper.width_m);
        tear_down(&job);
    }
}

static void a_correction_leaves_all_ink_inside_the_margins(void **state) {
    (void)state;
    static const double factor[][2] = {{1.05, 1.05}, {0.95, 0.95}, {1.05, 0.95}, {1.01, 1}};
    for (size_t i = 0; i < COUNT_OF(factor); i++) {
        struct job job;
        set_up(&job, small);
        job.design.paper.measured_across_m = 0.18 / factor[i][0];
        job.design.paper.measured_up_m = 0.24 / factor[i][1];
        print_job(&job, NULL, 0);
        assert_int_equal(job.status, 0);
        check_ink(&job, 0.21);
        tear_down(&job);
    }
}

static void check_pdf(const struct job *job, double width_m, double height_m) {
    char pdf[256];
    snprintf(pdf, sizeof pdf, "%s/t.pdf", scratch_folder());
    free(shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=pdfwrite -sOutputFile=%s %s 2>&1", pdf,
               keep(&job->ps)));
    char *out = shell("pdfinfo -f 1 -l 9999 %s 2>&1", pdf);
    size_t pages = 0, upright = 0;
    for (const char *at = out; (at = strstr(at, "size:")) != NULL; at++) {
        double width, height;
        if (sscanf(at, "size: %lf x %lf pts", &width, &height) != 2)
            continue;
        pages++;
        assert_close(width, width_m / POINT_M, 0.02, 0);
        if (height_m > 0)
            assert_close(height, height_m / POINT_M, 0.02, 0);
        else
            assert_true(height <= 5.0 / POINT_M + 0.02);
    }
    for (const char *at = out; (at = strstr(at, "rot:   0")) != NULL; at++)
        upright++;
    assert_int_equal(pages, job->report.sheets);
    assert_int_equal(upright, pages);
    free(out);
}

static void as_pdf_pages_keep_size_and_are_not_turned(void **state) {
    (void)state;
    static const struct {
        const char *sheet;
        double width_m, height_m;
    } sheets[] = {{"A4", 0.21, 0.297} /* has sheets in landscape */,
                  {"Letter", 0.2159, 0.2794},
                  {"Ledger", 0.4318, 0.2794},
                  {"roll 36in", 0.9144, 0}};
    for (size_t i = 0; i < COUNT_OF(sheets); i++) {
        struct job job;
        set_up(&job, i == 0 ? starter : mixed);
        strcpy(job.design.paper.sheet, sheets[i].sheet);
        print_job(&job, NULL, 0);
        assert_int_equal(job.status, 0);
        check_pdf(&job, sheets[i].width_m, sheets[i].height_m);
        tear_down(&job);
    }
}

static void a_piece_longer_than_a_roll_page_is_split(void **state) {
    (void)state;
    struct job job;
    print_design(&job, "format = 1; size: { volume = 400; }; rows: { count = 2; };"
                       "gores: { count = 12; }; cloth: { width = 5.0; warp = \"up\"; };"
                       "paper: { sheet = \"roll 36in\"; };");
    check_pdf(&job, 0.9144, 0);
    assert_non_null(strstr(job.ps.bytes, "-b-01 ")); /* a second row of sheets */
    tear_down(&job);
}

/* ---- part of a job -------------------------------------------------------------- */

static void a_single_sheet_comes_again_exactly_as_in_the_full_job(void **state) {
    (void)state;
    struct job whole, one;
    print_design(&whole, starter);
    set_up(&one, starter);
    char label[64], again[64];
    size_t ordinal, number = 0;
    for (const char *at = whole.ps.bytes; (at = next_page(at, label, &ordinal)) != NULL;) {
        if (++number % 9 != 1) /* the scale check, and a few tiles */
            continue;
        print_job(&one, NULL, number);
        assert_int_equal(one.status, 0);
        assert_int_equal(one.report.sheets, 1);
        const char *page = next_page(one.ps.bytes, again, &ordinal);
        assert_string_equal(label, again);
        char *want = body_of(at), *got = body_of(page);
        assert_string_equal(got, want);
        free(want);
        free(got);
        free(shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=nullpage %s 2>&1", keep(&one.ps)));
    }
    assert_int_equal(number, whole.report.sheets);
    tear_down(&whole);
    tear_down(&one);
}

static void a_single_piece_brings_its_sheets_and_no_others(void **state) {
    (void)state;
    struct job job;
    set_up(&job, mixed);
    for (size_t i = 0; i < job.envelope->templates; i++) {
        const char *name = job.envelope->piece[i].name;
        print_job(&job, name, 0);
        assert_int_equal(job.status, 0);
        assert_true(job.report.sheets > 0);
        char label[64], part[16];
        size_t ordinal;
        snprintf(part, sizeof part, "-%s-", name);
        for (const char *at = job.ps.bytes; (at = next_page(at, label, &ordinal)) != NULL;)
            assert_non_null(strstr(label, part));
        check_structure(&job);
    }
    tear_down(&job);
}

static void sheets_that_pieces_share_come_with_any_of_them(void **state) {
    (void)state;
    struct job job;
    set_up(&job, rolled);
    print_job(&job, NULL, 0);
    size_t all = job.report.sheets;
    assert_true(all < job.envelope->templates + 2); /* some pieces do share */
    print_job(&job, "h01l", 0);                     /* a name in any case */
    assert_int_equal(job.status, 0);
    assert_int_equal(job.report.sheets, 1);
    assert_non_null(strstr(job.ps.bytes, "H01L, "));
    tear_down(&job);
}

static void expect_refusal(struct job *job, const char *piece, size_t sheet, const char *code,
                           const char *must_say) {
    size_t before = job->messages.count;
    print_job(job, piece, sheet);
    assert_int_equal(job->status, -1);
    assert_int_equal(job->messages.count, before + 1);
    assert_string_equal(job->messages.item[before].code, code);
    expect_words(job->messages.item[before].text, must_say);
}

static void sheets_and_pieces_that_are_not_there_are_refused_with_those_that_are(void **state) {
    (void)state;
    struct job job;
    set_up(&job, starter);
    print_job(&job, NULL, 0);
    char most[64];
    snprintf(most, sizeof most, "sheets 1 to %zu", job.report.sheets);
    expect_refusal(&job, NULL, job.report.sheets + 1, "no-such-sheet", most);
    expect_refusal(&job, "B01", 0, "no-such-piece", "F01 to F08");
    expect_refusal(&job, "F01", 1, "no-such-sheet", "that piece is on sheets 3 to ");
    tear_down(&job);
}

/* ---- paper and correction --------------------------------------------------------- */

static void paper_too_small_is_refused_with_the_least_size(void **state) {
    (void)state;
    struct job job;
    set_up(&job, starter);
    strcpy(job.design.paper.sheet, "A6");
    job.design.paper.margin_m = 0.03;
    expect_refusal(&job, NULL, 0, "paper-small", "at least 126 mm across and 135 mm up");
    assert_string_equal(job.messages.item[0].key, "paper.sheet");
    /* What it asks for is enough. */
    strcpy(job.design.paper.sheet, "126x135mm");
    print_job(&job, NULL, 0);
    assert_int_equal(job.status, 0);
    tear_down(&job);
}

static void papers_that_need_thousands_of_sheets_are_refused(void **state) {
    (void)state;
    struct job job;
    set_up(&job,
           "format = 1; size: { volume = 9000; }; rows: { count = 14; }; gores: { count = 24; "
           "}; cloth: { width = 5; }; paper: { sheet = \"90x95mm\"; };");
    expect_refusal(&job, NULL, 0, "paper-too-many", "more than 5000 sheets");
    tear_down(&job);
}

static void a_measure_beyond_5_per_cent_is_refused_with_what_is_allowed(void **state) {
    (void)state;
    struct job job;
    set_up(&job, starter);
    job.design.paper.measured_across_m = 0.1895; /* of 189.47 mm that are allowed */
    expect_refusal(&job, NULL, 0, "measured-far",
                   "is 180 mm across on this paper, and 189.50 mm was read from the print; only "
                   "171.5 mm to 189.4 mm");
    assert_string_equal(job.messages.item[0].key, "paper.measured_across");
    job.design.paper.measured_across_m = 0.1715;
    job.design.paper.measured_up_m = 0.253;
    expect_refusal(&job, NULL, 0, "measured-far", "only 228.6 mm to 252.6 mm");
    assert_string_equal(job.messages.item[1].key, "paper.measured_up");
    job.design.paper.measured_up_m = 0.2525;
    print_job(&job, NULL, 0);
    assert_int_equal(job.status, 0);
    expect_words(job.ps.bytes, "drawn at 1.0496 across, 0.9505 up");
    job.design.paper.measured_up_m = 0;
    job.design.paper.units = UNITS_INCH;
    job.design.paper.measured_across_m = 7.375 * 0.0254;
    expect_refusal(&job, NULL, 0, "measured-far",
                   "is 7 in across on this paper, and 7.375 in was read from the print; only 6.67 "
                   "in to 7.36 in");
    tear_down(&job);
}

/* The length to compare with must not depend on what was measured before. */
static void the_cross_has_the_same_nominal_length_at_every_correction(void **state) {
    (void)state;
    static const char *const sheets[] = {"A4", "Letter", "A5", "ANSI D", "roll 24in"};
    for (size_t s = 0; s < COUNT_OF(sheets); s++) {
        struct diagnostics messages = {0};
        struct design design;
        struct paper paper;
        struct correction plain, corrected;
        design_starter(&design);
        assert_int_equal(paper_find(sheets[s], &paper, &messages), 0);
        assert_int_equal(correction_find(&design, &paper, &plain, &messages), 0);
        for (int per_cent = -4; per_cent <= 4; per_cent++) {
            design.paper.measured_across_m = plain.nominal_across_m * (1 + per_cent / 100.0);
            design.paper.measured_up_m = plain.nominal_up_m * (1 - per_cent / 100.0);
            assert_int_equal(correction_find(&design, &paper, &corrected, &messages), 0);
            assert_close(corrected.nominal_across_m, plain.nominal_across_m, 1e-12, 0);
            assert_close(corrected.nominal_up_m, plain.nominal_up_m, 1e-12, 0);
            assert_close(corrected.across, 1 / (1 + per_cent / 100.0), 1e-12, 0);
            assert_close(corrected.up, 1 / (1 - per_cent / 100.0), 1e-12, 0);
        }
        assert_close(remainder(plain.nominal_across_m, 0.01), 0, 1e-9, 0);
        assert_close(remainder(plain.nominal_up_m, 0.01), 0, 1e-9, 0);
    }
}

/* An inch rule on a true print must read true. */
static void in_inches_the_cross_is_a_whole_number_of_inches(void **state) {
    (void)state;
    static const struct {
        const char *sheet;
        double across, up;
    } sheets[] = {{"A4", 7, 9}, {"Letter", 7, 9}, {"ANSI D", 20, 30}, {"roll 24in", 22, 20}};
    for (size_t s = 0; s < COUNT_OF(sheets); s++) {
        struct diagnostics messages = {0};
        struct design design;
        struct paper paper;
        struct correction c;
        design_starter(&design);
        design.paper.units = UNITS_INCH;
        assert_int_equal(paper_find(sheets[s].sheet, &paper, &messages), 0);
        for (double factor = 0.96; factor < 1.05; factor += 0.04) {
            design.paper.measured_across_m = sheets[s].across * 0.0254 / factor;
            assert_int_equal(correction_find(&design, &paper, &c, &messages), 0);
            assert_close(c.nominal_across_m, sheets[s].across * 0.0254, 1e-12, 0);
            assert_close(c.nominal_up_m, sheets[s].up * 0.0254, 1e-12, 0);
            assert_close(c.across, factor, 1e-12, 0);
        }
    }
}

/* The example after --measured on page 1, given to the option itself. */
static void check_example(struct job *job, double across_m, double up_m) {
    static const char option[] = "--measured\\240";
    print_job(job, NULL, 1);
    const char *at = strstr(job->ps.bytes, option);
    char value[64] = "";
    assert_non_null(at);
    assert_int_equal(sscanf(at + strlen(option), "%63[^ )]", value), 1);
    struct design design = job->design;
    struct text complaint = {0};
    struct request request = {0};
    char *const given[] = {"gorewright", "templates", "--measured", value, "test.cfg"};
    if (arguments_read(COUNT_OF(given), given, &request, &complaint) != 0)
        fail_msg("%s", complaint.bytes);
    overrides_apply(&request, &design);
    request_free(&request);
    assert_close(design.paper.measured_across_m, 0.98 * across_m, 0.0008, 0);
    assert_close(design.paper.measured_up_m, 0.98 * up_m, 0.0008, 0);
    text_free(&complaint);
}

static void what_page_1_says_to_type_can_be_typed(void **state) {
    (void)state;
    struct job job;
    set_up(&job, mixed);
    check_example(&job, 7 * 0.0254, 9 * 0.0254);
    expect_words(job.ps.bytes, "6-7/8inx8-13/16in");
    job.design.paper.units = UNITS_MM;
    check_example(&job, 0.18, 0.23);
    tear_down(&job);
}

static void gluing_is_spoken_of_only_where_something_is_glued(void **state) {
    (void)state;
    struct job job;
    set_up(&job, rolled);
    char *words = words_on(&job, 1);
    expect_words(words, "Every piece is whole");
    assert_null(strstr(words, "row by row"));
    assert_null(strstr(words, "glue"));
    free(words);
    tear_down(&job);
    set_up(&job, starter);
    words = words_on(&job, 1);
    expect_words(words, "tile a-01");
    assert_null(strstr(words, "Every piece is whole"));
    free(words);
    tear_down(&job);
}

static void the_line_to_trim_along_differs_from_the_line_to_glue_up_to(void **state) {
    (void)state;
    struct job job;
    set_up(&job, starter);
    free(words_on(&job, 3)); /* F01 a-01: others lie on it */
    const char *body = strstr(job.ps.bytes, "%%EndSetup");
    assert_non_null(strstr(body, "glueline\n"));
    assert_null(strstr(body, "trimline\n"));
    expect_words(body, "(glue here: tile a-02 \\(");
    free(words_on(&job, 6)); /* F01 b-02: lies on others */
    body = strstr(job.ps.bytes, "%%EndSetup");
    assert_non_null(strstr(body, "trimline\n"));
    assert_null(strstr(body, "glueline\n"));
    tear_down(&job);
}

/* Smallest type on the pages themselves; what is written on pieces stands before them. */
static double smallest_type(const char *ps) {
    double least = 1000, size;
    char face, after;
    for (const char *line = strstr(ps, "%%EndSetup"); line != NULL && *line != '\0';) {
        if (sscanf(line, "%lf %c %c", &size, &face, &after) == 3 && strchr("fb", face) != NULL &&
            after == '(')
            least = fmin(least, size);
        line = strchr(line, '\n');
        line = line != NULL ? line + 1 : NULL;
    }
    return least;
}

static const char wordy[] =
    "format = 1; size: { volume = 3; }; rows: { count = 5; };"
    "gores: { count = 24; mix = (\"half-gore\", \"billowed\"); }; bulge: { depth = 0.2; };"
    "cloth: { colour = \"signal orange with a pale violet stripe along the grain\"; };";

static void type_is_8_points_on_a4_and_larger_on_larger_sheets(void **state) {
    (void)state;
    static const struct {
        const char *sheet;
        double least;
    } sheets[] = {{"A4", 8}, {"Letter", 8}, {"A2", 8}, {"A0", 8}};
    for (size_t s = 0; s < COUNT_OF(sheets); s++) {
        struct job job;
        set_up(&job, wordy);
        strcpy(job.design.paper.sheet, sheets[s].sheet);
        for (size_t number = 2; number < 12; number++) { /* index, then pieces */
            print_job(&job, NULL, number);
            if (job.status != 0)
                break;
            assert_true(smallest_type(job.ps.bytes) >= sheets[s].least - 0.001);
        }
        tear_down(&job);
    }
    struct job job;
    set_up(&job, wordy);
    strcpy(job.design.paper.sheet, "A0");
    char *words = words_on(&job, 2);
    expect_words(job.ps.bytes, "\n16 f (half-gore, row 1 of 5 from the mouth)");
    expect_words(job.ps.bytes, "\n16 f (drawn at 1.0000 across");
    free(words);
    tear_down(&job);
}

static void long_words_are_cut_with_dots_not_shrunk(void **state) {
    (void)state;
    struct job job;
    set_up(&job, wordy);
    free(words_on(&job, 2));
    expect_words(job.ps.bytes, "...) ");
    tear_down(&job);
}

static void halves_say_whether_more_than_the_sew_line_is_mirrored(void **state) {
    (void)state;
    struct job job;
    char *words;
    set_up(&job, rolled);
    words = words_on(&job, 2); /* the index */
    expect_words(words, "LEFT half, mirror image of H01R");
    expect_words(strstr(job.ps.bytes, "%%EndSetup"), "\\(sew line");
    free(words);
    /* The footer of a tile of its own. */
    strcpy(job.design.paper.sheet, "A4");
    print_job(&job, "H02L", 0);
    expect_words(strstr(job.ps.bytes, "%%EndSetup"), "mirror image of H02R \\(sew line only\\)");
    /* With the same allowance on both sides the cut line is mirrored as well. */
    for (size_t i = 0; i < job.envelope->templates; i++) {
        char half[64];
        for (size_t e = 0; e < EDGE_COUNT; e++)
            job.envelope->piece[i].allowance_m[e] = 0.01;
        if (i % 2 == 1)
            assert_null(strstr(half_words(job.envelope, &job.envelope->piece[i], half), "only"));
    }
    tear_down(&job);
}

static void a_corrected_print_reminds_to_correct_the_next_one(void **state) {
    (void)state;
    static const char reminder[] = "give --measured again when you print a sheet again";
    struct job job;
    set_up(&job, small);
    print_job(&job, NULL, 0);
    assert_null(strstr(job.ps.bytes, reminder));
    job.design.paper.measured_up_m = 0.238;
    print_job(&job, NULL, 0);
    size_t times = 0;
    for (const char *at = job.ps.bytes; (at = strstr(at, reminder)) != NULL; at++)
        times++;
    assert_true(times >= job.report.sheets);
    tear_down(&job);
}

/* The pages' own sizes, added up. */
static void a_roll_job_reports_the_length_it_takes(void **state) {
    (void)state;
    struct job job;
    print_design(&job, rolled);
    double sum = 0, width, height;
    size_t pages = 0;
    for (const char *at = job.ps.bytes; (at = strstr(at, "/PageSize [")) != NULL; at++, pages++) {
        assert_int_equal(sscanf(at, "/PageSize [%lf %lf", &width, &height), 2);
        sum += height;
    }
    assert_int_equal(pages, job.report.sheets);
    assert_close(job.report.length_m, sum * POINT_M, 1e-5, 0);
    assert_true(job.report.length_m > 1.5);
    print_job(&job, NULL, 1);
    assert_true(job.report.length_m < 0.7);
    tear_down(&job);
    print_design(&job, small);
    assert_close(job.report.length_m, 0, 0, 0);
    tear_down(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(files_follow_the_structuring_conventions),
        cmocka_unit_test(the_same_design_gives_the_same_bytes),
        cmocka_unit_test(the_starter_on_a4_takes_at_most_4_kilobytes_a_page),
        cmocka_unit_test(no_name_can_break_out_of_its_string),
        cmocka_unit_test(labels_say_what_to_cut_and_how_edges_join),
        cmocka_unit_test(labels_lie_inside_their_piece_and_on_one_sheet),
        cmocka_unit_test(small_pieces_carry_short_labels),
        cmocka_unit_test(both_sheets_at_a_seam_name_each_other),
        cmocka_unit_test(no_page_is_blank_and_all_ink_is_inside_the_margins),
        cmocka_unit_test(a_correction_leaves_all_ink_inside_the_margins),
        cmocka_unit_test(as_pdf_pages_keep_size_and_are_not_turned),
        cmocka_unit_test(a_piece_longer_than_a_roll_page_is_split),
        cmocka_unit_test(a_single_sheet_comes_again_exactly_as_in_the_full_job),
        cmocka_unit_test(a_single_piece_brings_its_sheets_and_no_others),
        cmocka_unit_test(sheets_that_pieces_share_come_with_any_of_them),
        cmocka_unit_test(sheets_and_pieces_that_are_not_there_are_refused_with_those_that_are),
        cmocka_unit_test(paper_too_small_is_refused_with_the_least_size),
        cmocka_unit_test(papers_that_need_thousands_of_sheets_are_refused),
        cmocka_unit_test(a_measure_beyond_5_per_cent_is_refused_with_what_is_allowed),
        cmocka_unit_test(the_cross_has_the_same_nominal_length_at_every_correction),
        cmocka_unit_test(in_inches_the_cross_is_a_whole_number_of_inches),
        cmocka_unit_test(what_page_1_says_to_type_can_be_typed),
        cmocka_unit_test(gluing_is_spoken_of_only_where_something_is_glued),
        cmocka_unit_test(the_line_to_trim_along_differs_from_the_line_to_glue_up_to),
        cmocka_unit_test(type_is_8_points_on_a4_and_larger_on_larger_sheets),
        cmocka_unit_test(long_words_are_cut_with_dots_not_shrunk),
        cmocka_unit_test(halves_say_whether_more_than_the_sew_line_is_mirrored),
        cmocka_unit_test(a_corrected_print_reminds_to_correct_the_next_one),
        cmocka_unit_test(a_roll_job_reports_the_length_it_takes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
