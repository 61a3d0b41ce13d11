/* Dimension sheets: a piece marked by hand from its page alone is right. */
#include "sheet_reader.h"

#include "gorewright/paper.h"
#include "paper/lengths.h"
#include "paper/plain.h"
#include "paper/sheets.h"

/* ---- designs to write sheets of -------------------------------------------------- */

static struct design starter(enum style style, enum units units) {
    struct design design;
    design_starter(&design);
    design.gores.style = (int)style;
    design.paper.units = (int)units;
    return design;
}

static struct envelope *built(const struct design *design) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(design, &messages);
    for (size_t i = 0; i < messages.count; i++)
        if (messages.item[i].severity == SEVERITY_ERROR)
            print_error("%s: %s\n", messages.item[i].key, messages.item[i].text);
    assert_non_null(envelope);
    diagnostics_free(&messages);
    return envelope;
}

static struct text sheets_of(const struct design *design, const struct envelope *envelope,
                             const char *piece) {
    struct text text = {0};
    struct diagnostics messages = {0};
    assert_int_equal(write_sheets(design, envelope, piece, &text, &messages), 0);
    assert_int_equal(messages.count, 0);
    assert_false(text.failed);
    diagnostics_free(&messages);
    return text;
}

/* ---- a page against the piece ------------------------------------------------------ */

static double apart(struct flat_point a, struct flat_point b) {
    return hypot(a.x_m - b.x_m, a.y_m - b.y_m);
}

static size_t edge_end(const struct ring *ring, enum edge e) {
    return e + 1 < EDGE_COUNT ? ring->first[e + 1] : ring->count;
}

/* Both coordinates are rounded, so that a corner may be off by half a step in each. */
static double corner_error_m(double step_m) {
    return 0.5001 * sqrt(2) * step_m;
}

/* Largest distance of the true sew line from the one set out from the page. */
static double sew_line_error_m(const struct drawn *drawn, const struct piece *piece) {
    double largest = 0;
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++)
        for (size_t i = piece->sew.first[e]; i <= edge_end(&piece->sew, e); i++) {
            struct flat_point point = piece->sew.point[i % piece->sew.count];
            largest = fmax(largest, distance_from(point, drawn->line[e], drawn->count[e]));
        }
    return largest;
}

static void check_corners(const struct read_sheet *sheet, const struct piece *piece,
                          double step_m) {
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        struct flat_point cut[2];
        assert_close(apart(sheet->sew[e], piece_corner(piece, e)), 0, corner_error_m(step_m), 0);
        assert_int_equal(sheet->cut_points[e], piece_cut_corner(piece, e, cut));
        for (size_t i = 0; i < sheet->cut_points[e]; i++)
            assert_close(apart(sheet->cut[e][i], cut[i]), 0, corner_error_m(step_m), 0);
    }
    assert_close(apart(sheet->sew[0], sheet->sew[2]), sheet->rising_m, 1.21 * step_m, 0);
    assert_close(apart(sheet->sew[1], sheet->sew[3]), sheet->falling_m, 1.62 * step_m, 0);
}

/* A straight cut edge runs from printed corner to printed corner, a cut-back one included. */
static void check_straight_cut_line(const struct read_sheet *sheet, const struct piece *piece,
                                    enum edge e, double step_m) {
    enum edge next = (enum edge)((e + 1) % EDGE_COUNT);
    const struct flat_point line[2] = {sheet->cut[e][sheet->cut_points[e] - 1],
                                       sheet->cut[next][0]};
    for (size_t i = piece->cut.first[e]; i < edge_end(&piece->cut, e); i++)
        assert_close(distance_from(piece->cut.point[i], line, 2), 0, corner_error_m(step_m), 0);
}

/* A curved one stands off the sew line by the allowance. */
static void check_curved_cut_line(const struct read_sheet *sheet, const struct drawn *drawn,
                                  const struct piece *piece, enum edge e, double tolerance_m) {
    const struct ring *cut = &piece->cut;
    for (size_t i = cut->first[e] + 1; i + 1 < edge_end(cut, e); i++)
        assert_close(distance_from(cut->point[i], drawn->line[e], drawn->count[e]),
                     sheet->allowance_m[e], tolerance_m, 0);
}

static void check_edges(const struct read_sheet *sheet, const struct drawn *drawn,
                        const struct piece *piece, double step_m, double tolerance_m) {
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        assert_close(sheet->length_m[e], piece->length_m[e], 0.5001 * step_m, 0);
        assert_close(sheet->chord_m[e], piece_chord_m(piece, e), 0.5001 * step_m, 0);
        assert_close(sheet->allowance_m[e], piece->allowance_m[e], 0.5001 * step_m, 0);
        assert_true(sheet->curve[e].count == 0 || piece->curved[e]);
        if (piece->curved[e])
            check_curved_cut_line(sheet, drawn, piece, e, tolerance_m);
        else
            check_straight_cut_line(sheet, piece, e, step_m);
    }
}

/* The point at a distance along a drawn edge from its left or lower corner. */
static struct flat_point along_edge(const struct drawn *drawn, enum edge e, double along_m) {
    const struct flat_point *line = drawn->line[e];
    size_t count = drawn->count[e];
    bool backwards = e == EDGE_TOP || e == EDGE_LEFT;
    for (size_t i = 0; i + 1 < count; i++) {
        struct flat_point a = line[backwards ? count - 1 - i : i];
        struct flat_point b = line[backwards ? count - 2 - i : i + 1];
        double step = apart(a, b);
        if (along_m <= step || i + 2 == count)
            return (struct flat_point){a.x_m + (b.x_m - a.x_m) * along_m / step,
                                       a.y_m + (b.y_m - a.y_m) * along_m / step};
        along_m -= step;
    }
    return line[0];
}

static void check_marks(const struct read_sheet *sheet, const struct drawn *drawn,
                        const struct piece *piece, double tolerance_m) {
    size_t printed = 0;
    for (size_t e = 0; e < EDGE_COUNT; e++)
        printed += sheet->marks[e] - 1; /* the last figure is the edge itself */
    assert_int_equal(printed, piece->marks);
    for (size_t i = 0; i < piece->marks; i++) {
        enum edge e = piece->mark[i].edge;
        double nearest = HUGE_VAL;
        for (size_t j = 0; j + 1 < sheet->marks[e]; j++)
            nearest =
                fmin(nearest, apart(along_edge(drawn, e, sheet->mark_m[e][j]), piece->mark[i].at));
        assert_close(nearest, 0, tolerance_m, 0);
    }
}

static void check_sums(const struct read_sheet *sheet) {
    for (size_t e = 0; e < EDGE_COUNT; e++) {
        double sum = 0;
        for (size_t i = 0; i < sheet->steps[e]; i++) {
            sum += sheet->step_m[e][i];
            assert_close(sum, sheet->mark_m[e][i], 1e-9, 0);
        }
        assert_close(sheet->mark_m[e][sheet->marks[e] - 1], sheet->length_m[e], 1e-9, 0);
    }
    assert_int_equal(sheet->steps[EDGE_BOTTOM], sheet->marks[EDGE_BOTTOM]);
    assert_int_equal(sheet->steps[EDGE_TOP], sheet->marks[EDGE_TOP]);
}

static const char *page_of(const struct text *text, const char *name) {
    const char *page = text->bytes;
    while (strncmp(page, name, strlen(name)) != 0) {
        page = strchr(page, '\f');
        assert_non_null(page);
        page++;
    }
    return page;
}

/* Every page of a set; `tolerance_m` for what is drawn along a batten. */
static void check_set(const struct design *design, const struct envelope *envelope,
                      double tolerance_m) {
    static struct drawn drawn;
    double step_m = length_step_m(design);
    struct text text = sheets_of(design, envelope, NULL);
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        struct read_sheet sheet = read_page(page_of(&text, piece->name));
        bool curved = sheet.curve[EDGE_BOTTOM].count + sheet.curve[EDGE_TOP].count > 0;
        draw_sheet(&sheet, &drawn);
        assert_close(sew_line_error_m(&drawn, piece), 0,
                     curved ? tolerance_m : corner_error_m(step_m), 0);
        check_corners(&sheet, piece, step_m);
        check_edges(&sheet, &drawn, piece, step_m, tolerance_m);
        check_marks(&sheet, &drawn, piece, tolerance_m + step_m);
        check_sums(&sheet);
    }
    text_free(&text);
}

static void marked_by_hand(enum style style, enum units units, double rounding_m, int fraction) {
    struct design design = starter(style, units);
    design.paper.rounding_m = rounding_m;
    design.paper.inch_fraction = fraction;
    struct envelope *envelope = built(&design);
    check_set(&design, envelope, length_step_m(&design));
    envelope_free(envelope);
}

static void a_faceted_piece_marked_from_its_page_is_right_to_the_rounding(void **state) {
    (void)state;
    marked_by_hand(FACETED, UNITS_MM, 0.0005, 0);
    marked_by_hand(FACETED, UNITS_MM, 0.0001, 0);
    marked_by_hand(FACETED, UNITS_INCH, 0.0005, INCH_32);
}

static void a_half_gore_piece_marked_from_its_page_is_right_to_the_rounding(void **state) {
    (void)state;
    marked_by_hand(HALF_GORE, UNITS_MM, 0.0005, 0);
    marked_by_hand(HALF_GORE, UNITS_MM, 0.001, 0);
    marked_by_hand(HALF_GORE, UNITS_INCH, 0.0005, INCH_64);
}

static void a_billowed_piece_marked_from_its_page_is_right_to_the_rounding(void **state) {
    (void)state;
    marked_by_hand(BILLOWED, UNITS_MM, 0.0005, 0);
    marked_by_hand(BILLOWED, UNITS_MM, 0.0001, 0);
    marked_by_hand(BILLOWED, UNITS_INCH, 0.0005, INCH_16);
    marked_by_hand(BILLOWED, UNITS_INCH, 0.0005, INCH_64);
}

/* Cloth is at most 5 m wide, and so is the widest chord. */
static double widest_chord_m(const struct envelope *envelope) {
    double widest_m = 0;
    for (size_t j = 0; j <= envelope->rows; j++)
        widest_m = fmax(widest_m, envelope->station[j].chord_m);
    return widest_m;
}

/* Strong and uneven bulges ask more of a batten than 50 mm steps give: 0.2 mm is allowed. */
static void any_piece_marked_from_its_page_is_right_to_the_rounding(void **state) {
    (void)state;
    struct dice dice = {11};
    size_t sets = 0, cut_back = 0;
    while (sets < 80) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        design.paper.rounding_m = 0.0001 * dice_whole(&dice, 1, 10);
        design.paper.inch_fraction = dice_whole(&dice, INCH_16, INCH_64);
        if (widest_chord_m(envelope) <= 5) {
            check_set(&design, envelope, length_step_m(&design) + 0.0002);
            sets++;
            for (size_t i = 0; i < envelope->templates; i++)
                cut_back += envelope->piece[i].two_points[EDGE_BOTTOM];
        }
        envelope_free(envelope);
    }
    assert_true(cut_back > 0); /* or the second point of a corner was never put to the test */
}

static void offsets_stand_at_even_steps_eight_or_more_across_a_curve(void **state) {
    (void)state;
    struct design design = starter(BILLOWED, UNITS_MM);
    struct envelope *envelope = built(&design);
    struct text text = sheets_of(&design, envelope, NULL);
    size_t curves = 0;
    for (size_t i = 0; i < envelope->templates; i++) {
        struct read_sheet sheet = read_page(page_of(&text, envelope->piece[i].name));
        for (size_t e = 0; e < EDGE_COUNT; e++) {
            const struct read_curve *curve = &sheet.curve[e];
            if (curve->count == 0)
                continue;
            curves++;
            assert_true(2 * (curve->count - 1) >= 8);
            assert_close(curve->along_m[0], 0, 0, 0);
            assert_close(curve->offset_m[0], 0, 0, 0);
            assert_true(curve->along_m[1] <= 0.0501);
            for (size_t j = 1; j + 1 < curve->count; j++)
                assert_close(curve->along_m[j], (double)j * curve->along_m[1], 1e-9, 0);
        }
    }
    assert_true(curves >= 2 * (envelope->templates - 1));
    text_free(&text);
    envelope_free(envelope);
}

/* One table serves both ends of a curved edge only because of this. */
static void curved_edges_are_alike_from_either_end(void **state) {
    (void)state;
    struct dice dice = {12};
    for (int i = 0; i < 40; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        for (size_t j = 0; j < envelope->templates; j++)
            for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
                const struct piece *piece = &envelope->piece[j];
                double chord_m = piece_chord_m(piece, e);
                assert_true(!piece->curved[e] || e == EDGE_BOTTOM || e == EDGE_TOP);
                for (int k = 1; piece->curved[e] && k < 8; k++)
                    assert_close(piece_offset_m(piece, e, chord_m * k / 16),
                                 piece_offset_m(piece, e, chord_m * (16 - k) / 16), 1e-7, 0);
            }
        envelope_free(envelope);
    }
}

/* ---- the page as such -------------------------------------------------------------- */

static void check_lines(const char *text) {
    for (const char *line = text; *line != '\0';) {
        size_t width = strcspn(line, "\n");
        assert_int_equal(line[width], '\n');
        size_t first = *line == '\f';
        assert_true(width - first <= 79);
        for (size_t i = first; i < width; i++)
            assert_true(line[i] >= ' ' && line[i] <= '~');
        if (width > first)
            assert_true(line[width - 1] != ' ');
        line += width + 1;
    }
}

static void check_pages(const struct envelope *envelope, const char *text) {
    const char *page = strchr(text, '\f');
    for (size_t i = 0; i < envelope->templates; i++) {
        const char *name = envelope->piece[i].name;
        assert_non_null(page);
        while (strncmp(page + 1, "SHEETS FOR ", 11) == 0) /* the list of the set goes on */
            page = strchr(page + 1, '\f');
        assert_memory_equal(page + 1, name, strlen(name));
        page = strchr(page + 1, '\f');
    }
    assert_null(page);
}

static void every_page_is_plain_text_that_fits_and_begins_with_its_name(void **state) {
    (void)state;
    struct dice dice = {13};
    for (int i = 0; i < 80; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        design.paper.inch_fraction = INCH_64;
        design.cloth.warp = dice_whole(&dice, WARP_ACROSS, WARP_UP);
        struct text text = sheets_of(&design, envelope, NULL);
        assert_memory_equal(text.bytes, "SHEETS FOR Starter\n", 19);
        check_lines(text.bytes);
        check_pages(envelope, text.bytes);
        text_free(&text);
        envelope_free(envelope);
    }
}

/* The drawing alone: up to its caption. */
static char *drawing_of(const struct text *text, const char *name) {
    const char *page = page_of(text, name);
    const char *from = strstr(page, "\n\n"), *to = strstr(page, "\nSeen from outside");
    assert_true(from != NULL && to != NULL && from < to);
    char *drawing = malloc((size_t)(to - from) + 1);
    assert_non_null(drawing);
    memcpy(drawing, from, (size_t)(to - from));
    drawing[to - from] = '\0';
    return drawing;
}

static void assert_stands_on(const char *drawing, const char *before, double length_m,
                             const struct design *design, const char *after) {
    char length[32], words[96];
    snprintf(words, sizeof words, "%s%s%s", before, format_length(design, length_m, length), after);
    if (strstr(drawing, words) == NULL)
        fail_msg("\"%s\" is not on this drawing:\n%s", words, drawing);
}

static void check_drawing(const struct design *design, const struct piece *piece,
                          const char *drawing) {
    static const enum edge across[] = {EDGE_BOTTOM, EDGE_TOP};
    for (size_t i = 0; i < COUNT_OF(across); i++) {
        enum edge e = across[i];
        char after[48];
        const struct sheet sheet = {design, NULL, piece};
        snprintf(after, sizeof after, "%s  %s", reads_curved(&sheet, e) ? " on the curve" : "",
                 join_kind_name(piece->join[e]));
        assert_stands_on(drawing, " ", piece->length_m[e], design, after);
    }
    assert_stands_on(drawing, " ", piece->length_m[EDGE_LEFT], design, " ");
    assert_stands_on(drawing, " ", piece->length_m[EDGE_RIGHT], design, "\n");
    assert_stands_on(drawing, "A-C ", piece->diagonal_rising_m, design, "");
    assert_stands_on(drawing, "B-D ", piece->diagonal_falling_m, design, "");
    assert_non_null(strstr(drawing, "^ UP ^"));
    assert_non_null(strstr(drawing, "grain"));
    for (const char *letter = "ABCD"; *letter != '\0'; letter++)
        assert_non_null(strchr(drawing, *letter));
}

static void every_dimension_stands_whole_on_the_drawing_of_any_piece(void **state) {
    (void)state;
    struct dice dice = {14};
    for (int i = 0; i < 80; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        design.cloth.warp = dice_whole(&dice, WARP_ACROSS, WARP_UP);
        struct text text = sheets_of(&design, envelope, NULL);
        for (size_t j = 0; j < envelope->templates; j++) {
            char *drawing = drawing_of(&text, envelope->piece[j].name);
            check_drawing(&design, &envelope->piece[j], drawing);
            free(drawing);
        }
        text_free(&text);
        envelope_free(envelope);
    }
}

/* Where the crosses on the four corners of the sew line stand, top row first. */
static size_t crosses(const char *drawing, long column[8], long row[8]) {
    size_t count = 0;
    long c = 0, r = 0;
    for (; *drawing != '\0'; drawing++, c++) {
        if (*drawing == '+' && count < 8) {
            column[count] = c;
            row[count++] = r;
        }
        if (*drawing == '\n') {
            c = -1;
            r++;
        }
    }
    return count;
}

static void a_drawing_that_claims_true_proportions_has_them(void **state) {
    (void)state;
    size_t true_ones = 0;
    for (enum style style = FACETED; style < STYLE_COUNT; style++) {
        struct design design = starter(style, UNITS_MM);
        struct envelope *envelope = built(&design);
        struct text text = sheets_of(&design, envelope, NULL);
        for (size_t i = 0; i < envelope->templates; i++) {
            const struct piece *piece = &envelope->piece[i];
            const char *page = page_of(&text, piece->name);
            if (strncmp(strstr(page, "of the sew line.  "), "of the sew line.  In true", 25) != 0)
                continue;
            char *drawing = drawing_of(&text, piece->name);
            long column[8], row[8];
            assert_int_equal(crosses(drawing, column, row), 4);
            double tall = piece_corner(piece, EDGE_LEFT).y_m;
            double wide = piece_corner(piece, EDGE_RIGHT).x_m;
            double scale = (double)(row[2] - row[0]) * 2 / tall; /* columns for a metre */
            assert_close((double)(column[3] - column[2]) / scale, wide, 3 / scale, 0);
            free(drawing);
            true_ones++;
        }
        text_free(&text);
        envelope_free(envelope);
    }
    assert_true(true_ones > 20);
}

static void usual_pages_fit_a_sheet_of_paper(void **state) {
    (void)state;
    for (enum style style = FACETED; style < STYLE_COUNT; style++) {
        struct design design = starter(style, UNITS_MM);
        struct envelope *envelope = built(&design);
        struct text text = sheets_of(&design, envelope, NULL);
        size_t lines = 0;
        for (size_t i = 0; i < text.length; i++) {
            lines = text.bytes[i] == '\f' ? 0 : lines + (text.bytes[i] == '\n');
            assert_true(lines <= 60);
        }
        text_free(&text);
        envelope_free(envelope);
    }
}

/* A piece made by hand, lopsided and without allowances. */
static void marks_are_measured_from_the_left_or_lower_corner_of_their_edge(void **state) {
    (void)state;
    struct flat_point point[4] = {{0, 0}, {0.5, 0}, {0.6, 0.4}, {-0.2, 0.4}};
    struct ring ring = {.point = point, .count = 4, .first = {0, 1, 2, 3}};
    struct piece piece = {.name = "F01",
                          .row = 1,
                          .count = 3,
                          .sew = ring,
                          .cut = ring,
                          .length_m = {0.5, hypot(0.1, 0.4), 0.8, hypot(0.2, 0.4)},
                          .mark = {{.edge = EDGE_BOTTOM, .fraction = 0.2},
                                   {.edge = EDGE_RIGHT, .fraction = 0.25},
                                   {.edge = EDGE_TOP, .fraction = 0.1},
                                   {.edge = EDGE_TOP, .fraction = 0.5},
                                   {.edge = EDGE_LEFT, .fraction = 0.25}},
                          .marks = 5,
                          .cut_least = {-0.2, 0},
                          .cut_most = {0.6, 0.4}};
    struct envelope envelope = {.gores = 3, .rows = 1, .piece = &piece, .templates = 1};
    struct design design = starter(FACETED, UNITS_MM);
    struct text text = sheets_of(&design, &envelope, "F01");
    struct read_sheet sheet = read_page(text.bytes);
    assert_close(sheet.mark_m[EDGE_BOTTOM][0], 0.1, 1e-9, 0);
    assert_close(sheet.mark_m[EDGE_RIGHT][0], 0.103, 1e-9, 0);
    assert_close(sheet.mark_m[EDGE_TOP][0], 0.4, 1e-9, 0);
    assert_close(sheet.mark_m[EDGE_TOP][1], 0.72, 1e-9, 0);
    assert_close(sheet.step_m[EDGE_TOP][2], 0.08, 1e-9, 0);
    assert_close(sheet.mark_m[EDGE_LEFT][0], 0.3355, 1e-9, 0);
    assert_close(sheet.allowance_m[EDGE_TOP], 0, 0, 0);
    text_free(&text);
}

/* ---- words ------------------------------------------------------------------------- */

static void assert_says(const struct text *text, const char *words) {
    if (strstr(text->bytes, words) == NULL)
        fail_msg("\"%s\" is not in:\n%s", words, text->bytes);
}

/* The same, however the lines are broken. */
static bool reads(const char *text, const char *words) {
    for (; *text != '\0'; text++) {
        const char *at = text, *word = words;
        while (*word != '\0' && (*at == *word || (*at == '\n' && *word == ' '))) {
            at += 1 + (*word == ' ' ? strspn(at + 1, " \n") : 0);
            word++;
        }
        if (*word == '\0')
            return true;
    }
    return false;
}

static void assert_reads(const struct text *text, const char *words) {
    if (!reads(text->bytes, words))
        fail_msg("\"%s\" is not in:\n%s", words, text->bytes);
}

static void one_piece_asked_for_is_the_only_page(void **state) {
    (void)state;
    struct design design = starter(FACETED, UNITS_MM);
    struct envelope *envelope = built(&design);
    struct text all = sheets_of(&design, envelope, NULL), one = sheets_of(&design, envelope, "F03");
    assert_null(strchr(one.bytes, '\f'));
    assert_memory_equal(one.bytes, page_of(&all, "F03"), one.length);
    text_free(&all);
    text_free(&one);
    envelope_free(envelope);
}

static void a_piece_that_does_not_exist_is_refused_with_those_that_do(void **state) {
    (void)state;
    struct design design = starter(HALF_GORE, UNITS_MM);
    struct envelope *envelope = built(&design);
    struct text text = {0};
    struct diagnostics messages = {0};
    assert_int_equal(write_sheets(&design, envelope, "F03", &text, &messages), -1);
    assert_int_equal(messages.errors, 1);
    assert_string_equal(messages.item[0].code, "no-such-piece");
    assert_non_null(strstr(messages.item[0].text, "\"F03\""));
    assert_non_null(strstr(messages.item[0].text, "H01L to H08R"));
    assert_int_equal(text.length, 0);
    diagnostics_free(&messages);
    envelope_free(envelope);
}

static void the_two_halves_name_each_other_and_their_side(void **state) {
    (void)state;
    struct design design = starter(HALF_GORE, UNITS_MM);
    struct envelope *envelope = built(&design);
    struct text left = sheets_of(&design, envelope, "H03L");
    struct text right = sheets_of(&design, envelope, "H03R");
    assert_reads(&left,
                 "LEFT half, seen from outside. The sew line is the mirror image of H03R; the "
                 "cut line is not: do not turn the pattern over.");
    assert_says(&left, "B-C  right  ridge seam to H03R");
    assert_says(&left, "A-B  bottom row seam to H02L");
    assert_reads(&right, "RIGHT half, seen from outside. The sew line is the mirror image of H03L; "
                         "the cut line is not: do not turn the pattern over.");
    assert_says(&right, "A-D  left   ridge seam to H03L");
    text_free(&left);
    text_free(&right);
    envelope_free(envelope);
}

/* The largest distance from the cut line of `other` to that of `piece` turned over. */
static double turned_over_apart_m(const struct piece *piece, const struct piece *other) {
    static struct flat_point line[2 * DRAWN_MOST];
    double width_m = piece_corner(piece, EDGE_RIGHT).x_m, largest = 0;
    assert_true(piece->cut.count < COUNT_OF(line));
    for (size_t i = 0; i <= piece->cut.count; i++) {
        line[i] = piece->cut.point[i % piece->cut.count];
        line[i].x_m = width_m - line[i].x_m;
    }
    for (size_t i = 0; i < other->cut.count; i++)
        largest = fmax(largest, distance_from(other->cut.point[i], line, piece->cut.count + 1));
    return largest;
}

static void only_halves_that_may_be_turned_over_are_called_mirror_images(void **state) {
    (void)state;
    size_t mirrored = 0, others = 0;
    for (int tape = SEAM_PLAIN; tape <= SEAM_FELLED; tape++)
        for (int ridge = SEAM_PLAIN; ridge <= SEAM_FELLED; ridge++)
            for (double ridge_m = 0.010; ridge_m < 0.025; ridge_m += 0.010) {
                struct design design = starter(HALF_GORE, UNITS_MM);
                design.seams.tape = tape;
                design.seams.ridge = ridge;
                design.seams.ridge_width_m = ridge_m;
                struct envelope *envelope = built(&design);
                const struct piece *left = &envelope->piece[4], *right = &envelope->piece[5];
                struct text text = sheets_of(&design, envelope, left->name);
                bool alike = turned_over_apart_m(left, right) < 1e-9 &&
                             turned_over_apart_m(right, left) < 1e-9;
                assert_int_equal(reads(text.bytes, "H03R is its mirror image"), alike);
                assert_int_equal(reads(text.bytes, "do not turn the pattern over"), !alike);
                mirrored += alike;
                others += !alike;
                text_free(&text);
                envelope_free(envelope);
            }
    assert_true(mirrored > 0 && others > 0);
}

/* ---- pages of the whole --------------------------------------------------------------- */

/* The page of the set with the heading, as a text of its own; the front page, too, of
 * which the list of pieces may take several. */
static struct text page_with(const struct text *text, const char *heading) {
    const char *page = text->bytes;
    while (page != NULL) {
        struct text found = {0};
        size_t length = strcspn(page, "\f");
        text_add_bytes(&found, page, length);
        if (strstr(found.bytes, heading) != NULL)
            return found;
        text_free(&found);
        page = page[length] == '\f' ? page + length + 1 : NULL;
    }
    fail_msg("no page with %s", heading);
    return (struct text){0};
}

static void pages_of_the_whole_fit_sixty_lines_and_their_columns(void **state) {
    (void)state;
    struct dice dice = {15};
    size_t split = 0;
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        design.paper.inch_fraction = INCH_64;
        memset(design.name, 'w', TEXT_MOST - 1);
        design.name[TEXT_MOST - 1] = '\0';
        struct text text = sheets_of(&design, envelope, NULL);
        check_lines(text.bytes);
        for (char *page = text.bytes; page != NULL && strncmp(page, "SHEETS FOR w", 12) == 0;) {
            char *end = strchr(page, '\f');
            size_t lines = 0;
            for (const char *c = page; c < end; c++)
                lines += *c == '\n';
            assert_true(lines <= 60);
            page = end + 1;
        }
        for (size_t row = 1; row < envelope->rows; row++) {
            char name[48];
            snprintf(name, sizeof name, "\n  top of row %zu ", row);
            assert_says(&text, name);
        }
        split += strstr(text.bytes, "continued\nThe whole envelope\n") != NULL;
        text_free(&text);
        envelope_free(envelope);
    }
    assert_true(split > 0);
}

static void inches_are_spelled_out_in_sentences(void **state) {
    (void)state;
    struct design design = starter(HALF_GORE, UNITS_INCH);
    struct envelope *envelope = built(&design);
    struct text text = sheets_of(&design, envelope, NULL);
    assert_says(&text, "Seen from the side, in inches:");
    assert_says(&text, "TO CHECK BY MEASURE, in inches.");
    assert_null(strstr(text.bytes, " in in:"));
    assert_null(strstr(text.bytes, " in in."));
    text_free(&text);
    envelope_free(envelope);
}

/* The cloth round a station is that of the row edges that meet there. */
static double row_edges_m(const struct envelope *envelope, size_t station) {
    double sum_m = 0;
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        if (station == 0 && piece->row == 1)
            sum_m += (double)piece->count * edge_length_m(&piece->sew, EDGE_BOTTOM);
        if (piece->row == station)
            sum_m += (double)piece->count * edge_length_m(&piece->sew, EDGE_TOP);
    }
    return sum_m;
}

static void the_girth_round_the_cloth_is_the_sum_of_the_row_edges(void **state) {
    (void)state;
    struct dice dice = {16};
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        for (size_t j = 0; j <= envelope->rows; j++)
            assert_close(girth_m(envelope, j), row_edges_m(envelope, j), 0, 5e-5);
        envelope_free(envelope);
    }
}

/* The figures of one line of the table, in mm.  Returns: how many. */
static size_t station_figures(const struct text *text, const char *name, double mm[5]) {
    struct text page = page_with(text, "TO CHECK BY MEASURE");
    const char *line = strstr(page.bytes, name);
    assert_non_null(line);
    int used = 0;
    size_t count = 0;
    for (line += strlen(name); count < 5 && sscanf(line, " %lf%n", &mm[count], &used) == 1;
         count++) {
        line += used;
        if (*line == '\n') {
            count++;
            break;
        }
    }
    text_free(&page);
    return count;
}

static void the_whole_can_be_checked_by_a_tape_measure(void **state) {
    (void)state;
    for (enum style style = FACETED; style < STYLE_COUNT; style++) {
        struct design design = starter(style, UNITS_MM);
        struct envelope *envelope = built(&design);
        struct text text = sheets_of(&design, envelope, NULL);
        double mm[5];
        size_t count = station_figures(&text, "\n  top of row 4", mm);
        assert_int_equal(count, style == FACETED ? 4 : 5);
        const struct station *at = &envelope->station[4];
        assert_close(mm[1], 1e3 * at->z_m, 0.26, 0);
        assert_close(mm[2], 2e3 * at->r_m, 0.26, 0);
        assert_close(mm[3], 1e3 * 16 * at->chord_m, 0.26, 0);
        if (style != FACETED) {
            assert_close(mm[4], 1e3 * row_edges_m(envelope, 4), 0.5, 0);
            assert_true(mm[4] > 1.01 * mm[3]);
        }
        assert_int_equal(reads(text.bytes, "round the cloth"), style != FACETED);
        text_free(&text);
        envelope_free(envelope);
    }
}

/* What the front page and each page of a piece allow, read back. */
static double printed_tolerance_m(const struct text *text, const char *before) {
    const char *at = strstr(text->bytes, before);
    assert_non_null(at);
    at += strlen(before);
    double value = 0, under = 1;
    char unit[8] = "";
    if (sscanf(at, "%lf/%lf %2[a-z]", &value, &under, unit) != 3) {
        under = 1;
        assert_int_equal(sscanf(at, "%lf %2[a-z]", &value, unit), 2);
    }
    return value / under * (strcmp(unit, "in") == 0 ? 0.0254 : 1e-3);
}

/* Each length that a page gives to check by, against the corners it gives. */
static double largest_mismatch_m(const struct read_sheet *sheet) {
    double largest = fmax(fabs(apart(sheet->sew[0], sheet->sew[2]) - sheet->rising_m),
                          fabs(apart(sheet->sew[1], sheet->sew[3]) - sheet->falling_m));
    for (size_t e = 0; e < EDGE_COUNT; e++)
        largest = fmax(largest, fabs(apart(sheet->sew[e], sheet->sew[(e + 1) % EDGE_COUNT]) -
                                     sheet->chord_m[e]));
    return largest;
}

static void corners_as_printed_meet_their_checks_within_the_tolerance_printed(void **state) {
    (void)state;
    struct dice dice = {17};
    double worst_steps = 0;
    for (int i = 0; i < 80; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        design.paper.rounding_m = 0.0001 * dice_whole(&dice, 1, 10);
        design.paper.inch_fraction = dice_whole(&dice, INCH_16, INCH_64);
        struct text text = sheets_of(&design, envelope, NULL);
        double least_m = design.paper.units == UNITS_INCH ? 0.0254 / 16 : 0.001;
        double tolerance_m = printed_tolerance_m(&text, "Checks hold to ");
        assert_close(tolerance_m, fmax(least_m, 2 * length_step_m(&design)), 1e-9, 0);
        for (size_t j = 0; j < envelope->templates; j++) {
            struct read_sheet sheet = read_page(page_of(&text, envelope->piece[j].name));
            double mismatch_m = largest_mismatch_m(&sheet);
            assert_true(mismatch_m <= tolerance_m);
            worst_steps = fmax(worst_steps, mismatch_m / length_step_m(&design));
        }
        text_free(&text);
        envelope_free(envelope);
    }
    assert_true(worst_steps > 1); /* one step would not have done */
}

static void the_front_page_gives_the_tolerance_of_the_diagonals(void **state) {
    (void)state;
    static const struct {
        enum units units;
        double rounding_m;
        int fraction;
        const char *words;
    } known[] = {{UNITS_MM, 0.0001, 0, "within 1 mm before"},
                 {UNITS_MM, 0.0005, 0, "within 1 mm before"},
                 {UNITS_MM, 0.00075, 0, "within 1.5 mm before"},
                 {UNITS_MM, 0.001, 0, "within 2 mm before"},
                 {UNITS_INCH, 0.0005, INCH_16, "within 1/8 in before"},
                 {UNITS_INCH, 0.0005, INCH_32, "within 1/16 in before"},
                 {UNITS_INCH, 0.0005, INCH_64, "within 1/16 in before"}};
    for (size_t i = 0; i < COUNT_OF(known); i++) {
        struct design design = starter(FACETED, known[i].units);
        design.paper.rounding_m = known[i].rounding_m;
        design.paper.inch_fraction = known[i].fraction;
        struct envelope *envelope = built(&design);
        struct text text = sheets_of(&design, envelope, NULL);
        assert_reads(&text, known[i].words);
        text_free(&text);
        envelope_free(envelope);
    }
}

/* ---- how the seams are sewn ------------------------------------------------------------ */

static struct text sewing_page(const struct design *design) {
    struct envelope *envelope = built(design);
    struct text text = sheets_of(design, envelope, NULL);
    struct text page = page_with(&text, "\nTHE SEAMS OF THIS SET");
    text_free(&text);
    envelope_free(envelope);
    return page;
}

static void every_seam_of_the_set_is_named_with_its_type_and_widths(void **state) {
    (void)state;
    struct design design = starter(HALF_GORE, UNITS_MM);
    design.seams.row = SEAM_LAPPED;
    design.seams.row_width_m = 0.012;
    design.seams.ridge = SEAM_FELLED;
    design.seams.ridge_width_m = 0.008;
    design.seams.tape = SEAM_PLAIN;
    design.seams.tape_width_m = 0.015;
    design.seams.mouth_hem_m = 0.030;
    design.seams.crown_hem_m = 0;
    struct text page = sewing_page(&design);
    assert_reads(&page, "Row seam: lapped, a lap of 12.0; half of it, 6.0, on each edge.");
    assert_reads(&page, "Ridge seam: felled, 8.0 when finished. The wide side, 16.0, is the right "
                        "edge (B-C) of LEFT halves; the narrow side, 8.0, is the left edge (A-D) "
                        "of RIGHT halves.");
    assert_reads(&page, "Tape side: plain, an allowance of 15.0 on each edge.");
    assert_reads(&page, "Mouth hem: 30.0 beyond the sew line");
    assert_reads(&page, "Crown hem: none");
    assert_reads(&page, "Plain: lay the two pieces right sides together");
    assert_reads(&page, "Lapped: lay one edge over the other");
    assert_reads(&page, "Fold the wide side round the edge of the narrow one");
    text_free(&page);
}

static void seams_that_a_set_has_not_are_not_explained(void **state) {
    (void)state;
    struct design design = starter(FACETED, UNITS_MM);
    design.seams.tape = design.seams.row = SEAM_PLAIN;
    design.seams.ridge = SEAM_FELLED;
    struct text page = sewing_page(&design);
    assert_reads(&page, "Row seam: plain, an allowance of 10.0 on each edge.");
    assert_false(reads(page.bytes, "idge"));
    assert_false(reads(page.bytes, "elled"));
    assert_false(reads(page.bytes, "apped"));
    text_free(&page);
    design.rows.count = 1;
    design.cloth.width_m = 200;
    page = sewing_page(&design);
    assert_false(reads(page.bytes, "Row seam"));
    text_free(&page);
}

/* The page is about these pieces: the wide side it names is the wide one on their pages. */
static void the_wide_side_of_a_felled_seam_is_the_wide_one_of_the_pieces(void **state) {
    (void)state;
    struct design design = starter(HALF_GORE, UNITS_MM);
    design.seams.tape = design.seams.row = design.seams.ridge = SEAM_FELLED;
    struct envelope *envelope = built(&design);
    struct text text = sheets_of(&design, envelope, NULL);
    assert_reads(&text, "Tape side: felled, 10.0 when finished. The wide side, 20.0, is the right "
                        "edge (B-C); the narrow side, 10.0, is the left edge (A-D).");
    assert_reads(&text, "Row seam: felled, 10.0 when finished. The wide side, 20.0, is the top "
                        "edge (D-C); the narrow side, 10.0, is the bottom edge (A-B).");
    for (size_t i = 2; i + 2 < envelope->templates; i++) {
        struct read_sheet sheet = read_page(page_of(&text, envelope->piece[i].name));
        assert_close(sheet.allowance_m[EDGE_RIGHT], 0.020, 1e-9, 0);
        assert_close(sheet.allowance_m[EDGE_TOP], 0.020, 1e-9, 0);
        assert_close(sheet.allowance_m[EDGE_LEFT], 0.010, 1e-9, 0);
        assert_close(sheet.allowance_m[EDGE_BOTTOM], 0.010, 1e-9, 0);
    }
    text_free(&text);
    envelope_free(envelope);
}

static void a_mixed_envelope_says_which_gores_a_piece_is_for(void **state) {
    (void)state;
    struct design design = starter(FACETED, UNITS_MM);
    design.gores.mix = (struct style_list){4, {FACETED, BILLOWED, BILLOWED, HALF_GORE}};
    struct envelope *envelope = built(&design);
    struct text billowed = sheets_of(&design, envelope, "B02");
    struct text faceted = sheets_of(&design, envelope, "F02");
    assert_says(&billowed, "For gores 2-3, 6-7, 10-11, 14-15, one in each.");
    assert_says(&billowed, "B02   CUT 8 ");
    assert_says(&faceted, "For gores 1, 5, 9, 13, one in each.");
    text_free(&billowed);
    text_free(&faceted);
    envelope_free(envelope);
}

static void the_front_page_warns_and_defers_to_local_rules(void **state) {
    (void)state;
    struct design design = starter(FACETED, UNITS_MM);
    struct envelope *envelope = built(&design);
    struct text text = sheets_of(&design, envelope, NULL);
    static const char *const words[] = {
        "flame",    "Propane", "Lines snag",         "Bystanders",  "Wind",      "licensed",
        "strength", "crown",   "fire and gas rules", "8 templates", "128 pieces"};
    char *first = strchr(text.bytes, '\f');
    assert_non_null(first);
    *first = '\0';
    for (size_t i = 0; i < COUNT_OF(words); i++)
        assert_says(&text, words[i]);
    for (const char *const *caution = flight_cautions(); *caution != NULL; caution++)
        assert_true(reads(text.bytes, *caution));
    text_free(&text);
    envelope_free(envelope);
}

static void a_long_list_of_pieces_goes_on_over_pages(void **state) {
    (void)state;
    struct design design = starter(FACETED, UNITS_MM);
    design.gores.mix = (struct style_list){2, {FACETED, HALF_GORE}};
    design.rows.count = ROWS_MOST;
    struct envelope *envelope = built(&design);
    struct text text = sheets_of(&design, envelope, NULL);
    assert_says(&text, "\fSHEETS FOR Starter, continued\n");
    const char *piece = page_of(&text, "F01   CUT");
    for (size_t i = 0; i < envelope->templates; i++) {
        char line[16];
        snprintf(line, sizeof line, "\n  %-6s ", envelope->piece[i].name);
        const char *listed = strstr(text.bytes, line);
        assert_true(listed != NULL && listed < piece);
    }
    text_free(&text);
    envelope_free(envelope);
}

static void names_in_any_script_come_out_as_plain_letters(void **state) {
    (void)state;
    char into[TEXT_MOST];
    assert_string_equal(plain_text("Gr\xc3\xbcn & wei\xc3\x9f", into), "Grun & weis");
    assert_string_equal(plain_text("e\xcc\x81t\xc3\xa9", into), "ete");
    assert_string_equal(plain_text("\xe6\xb0\xa3\xe7\x90\x83 1", into), "?? 1");
    assert_string_equal(plain_text("\xf0\x9f\x8e\x88", into), "?");
    assert_string_equal(plain_text("\xc5\xa0\xc4\x8d\xc5\x82", into), "Scl");
    assert_string_equal(plain_text("cut \xc3", into), "cut ?");
    char longest[TEXT_MOST];
    memset(longest, 'x', sizeof longest);
    longest[TEXT_MOST - 1] = '\0';
    assert_string_equal(plain_text(longest, into), longest);
}

static void long_names_of_any_script_keep_the_page_in_its_columns(void **state) {
    (void)state;
    struct design design = starter(BILLOWED, UNITS_INCH);
    for (size_t i = 0; i + 3 < TEXT_MOST; i += 3) {
        memcpy(design.name + i, "\xe6\xb0\xa3", 4);
        memcpy(design.cloth.colour + i, i % 2 == 0 ? "ab " : "\xe2\x82\xac", 4);
    }
    struct envelope *envelope = built(&design);
    struct text text = sheets_of(&design, envelope, NULL);
    check_lines(text.bytes);
    text_free(&text);
    envelope_free(envelope);
}

/* ---- as it looks -------------------------------------------------------------------- */

/* The folder of golden files is found from the root of the source.  To write them anew
 * after a change that was meant: GOLDEN=write, then look at what changed. */
static void check_golden(const char *name, const char *text) {
    char path[128];
    snprintf(path, sizeof path, "tests/golden/sheets/%s.txt", name);
    const char *golden = getenv("GOLDEN");
    FILE *file = fopen(path, golden != NULL && strcmp(golden, "write") == 0 ? "w+" : "r");
    assert_non_null(file);
    if (golden != NULL && strcmp(golden, "write") == 0) {
        fputs(text, file);
        rewind(file);
    }
    static char want[16384];
    want[fread(want, 1, sizeof want - 1, file)] = '\0';
    fclose(file);
    assert_string_equal(text, want);
}

static void pages_look_as_they_did_when_they_were_looked_at(void **state) {
    (void)state;
    static const struct {
        const char *piece;
        enum style style;
        enum units units;
    } page[] = {{"F03", FACETED, UNITS_MM},
                {"H02L", HALF_GORE, UNITS_MM},
                {"H08R", HALF_GORE, UNITS_INCH},
                {"B04", BILLOWED, UNITS_MM},
                {"B08", BILLOWED, UNITS_INCH}};
    for (size_t i = 0; i < COUNT_OF(page); i++) {
        struct design design = starter(page[i].style, page[i].units);
        struct envelope *envelope = built(&design);
        struct text text = sheets_of(&design, envelope, page[i].piece);
        check_golden(page[i].piece, text.bytes);
        text_free(&text);
        envelope_free(envelope);
    }
}

static void the_front_page_looks_as_it_did_when_it_was_looked_at(void **state) {
    (void)state;
    struct design design = starter(FACETED, UNITS_MM);
    struct envelope *envelope = built(&design);
    struct text text = sheets_of(&design, envelope, NULL);
    *strchr(text.bytes, '\f') = '\0';
    check_golden("front", text.bytes);
    text_free(&text);
    envelope_free(envelope);
}

static void pages_of_the_whole_look_as_they_did_when_they_were_looked_at(void **state) {
    (void)state;
    struct design design = starter(HALF_GORE, UNITS_INCH);
    struct envelope *envelope = built(&design);
    struct text text = sheets_of(&design, envelope, NULL);
    char *sewing = strchr(text.bytes, '\f') + 1;
    char *whole = strchr(sewing, '\f') + 1;
    whole[-1] = '\0';
    *strchr(whole, '\f') = '\0';
    check_golden("seams", sewing);
    check_golden("envelope", whole);
    text_free(&text);
    envelope_free(envelope);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_faceted_piece_marked_from_its_page_is_right_to_the_rounding),
        cmocka_unit_test(a_half_gore_piece_marked_from_its_page_is_right_to_the_rounding),
        cmocka_unit_test(a_billowed_piece_marked_from_its_page_is_right_to_the_rounding),
        cmocka_unit_test(any_piece_marked_from_its_page_is_right_to_the_rounding),
        cmocka_unit_test(offsets_stand_at_even_steps_eight_or_more_across_a_curve),
        cmocka_unit_test(curved_edges_are_alike_from_either_end),
        cmocka_unit_test(every_page_is_plain_text_that_fits_and_begins_with_its_name),
        cmocka_unit_test(every_dimension_stands_whole_on_the_drawing_of_any_piece),
        cmocka_unit_test(a_drawing_that_claims_true_proportions_has_them),
        cmocka_unit_test(usual_pages_fit_a_sheet_of_paper),
        cmocka_unit_test(marks_are_measured_from_the_left_or_lower_corner_of_their_edge),
        cmocka_unit_test(one_piece_asked_for_is_the_only_page),
        cmocka_unit_test(a_piece_that_does_not_exist_is_refused_with_those_that_do),
        cmocka_unit_test(the_two_halves_name_each_other_and_their_side),
        cmocka_unit_test(only_halves_that_may_be_turned_over_are_called_mirror_images),
        cmocka_unit_test(pages_of_the_whole_fit_sixty_lines_and_their_columns),
        cmocka_unit_test(inches_are_spelled_out_in_sentences),
        cmocka_unit_test(the_girth_round_the_cloth_is_the_sum_of_the_row_edges),
        cmocka_unit_test(the_whole_can_be_checked_by_a_tape_measure),
        cmocka_unit_test(corners_as_printed_meet_their_checks_within_the_tolerance_printed),
        cmocka_unit_test(the_front_page_gives_the_tolerance_of_the_diagonals),
        cmocka_unit_test(every_seam_of_the_set_is_named_with_its_type_and_widths),
        cmocka_unit_test(seams_that_a_set_has_not_are_not_explained),
        cmocka_unit_test(the_wide_side_of_a_felled_seam_is_the_wide_one_of_the_pieces),
        cmocka_unit_test(a_mixed_envelope_says_which_gores_a_piece_is_for),
        cmocka_unit_test(the_front_page_warns_and_defers_to_local_rules),
        cmocka_unit_test(a_long_list_of_pieces_goes_on_over_pages),
        cmocka_unit_test(names_in_any_script_come_out_as_plain_letters),
        cmocka_unit_test(long_names_of_any_script_keep_the_page_in_its_columns),
        cmocka_unit_test(pages_look_as_they_did_when_they_were_looked_at),
        cmocka_unit_test(the_front_page_looks_as_it_did_when_it_was_looked_at),
        cmocka_unit_test(pages_of_the_whole_look_as_they_did_when_they_were_looked_at),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
