/* test_cutting_page.c - the layout as it is read at the table: map, positions, lists. */
#include <math.h>

#include "flight_pages.h"
#include "ghostscript.h"
#include "paper/template_plan.h"

/* ---- a design on its cloth --------------------------------------------------------------- */

struct laid {
    struct design design;
    struct envelope *envelope;
    struct cutting cutting;
};

static void set(struct design *design, const char *key, const char *typed) {
    struct diagnostics messages = {0};
    assert_int_equal(parameter_set(design, (size_t)parameter_find(key), typed, &messages), 0);
    diagnostics_free(&messages);
}

static void lay(struct laid *laid) {
    static const struct cutting_job job = {.effort = EFFORT_LEAST};
    struct diagnostics messages = {0};
    laid->cutting = (struct cutting){0};
    laid->envelope = flight_build(&laid->design, &laid->design, &messages);
    assert_non_null(laid->envelope);
    assert_int_equal(cutting_make(&job, &laid->design, laid->envelope, &laid->cutting, &messages),
                     0);
    diagnostics_free(&messages);
}

/* Half-gores and billowed ones in two colours, one of them with an offcut, all with prices. */
static void set_up(struct laid *laid, const char *units) {
    design_starter(&laid->design);
    set(&laid->design, "name", "Teal");
    set(&laid->design, "size.volume", "4 m3");
    set(&laid->design, "gores.count", "8");
    set(&laid->design, "gores.mix", "hb");
    set(&laid->design, "rows.count", "4");
    set(&laid->design, "colours.cloths", "W white / 0 / 0 / 4.5, R red");
    set(&laid->design, "colours.fill", "bands");
    set(&laid->design, "cutting.offcuts", "W 1.2 1.1");
    set(&laid->design, "buying.tape_price", "0.8");
    set(&laid->design, "paper.units", units);
    lay(laid);
}

static void tear_down(struct laid *laid) {
    cutting_free(&laid->cutting);
    envelope_free(laid->envelope);
}

static struct text page_of(const struct laid *laid) {
    struct text page = {0};
    write_cutting(&laid->design, laid->envelope, &laid->cutting, &page);
    return page;
}

/* Form feeds as line ends, for checks of columns. */
static struct text unfolded(const struct text *page) {
    struct text flat = {0};
    for (size_t i = 0; i < page->length; i++)
        text_add_bytes(&flat, page->bytes[i] == '\f' ? "\n" : page->bytes + i, 1);
    return flat;
}

/* ---- kept pages ---------------------------------------------------------------------------- */

static void pages_are_those_kept(void **state) {
    (void)state;
    static const char *const units[] = {"mm", "inch"};
    for (size_t i = 0; i < COUNT_OF(units); i++) {
        struct laid laid;
        struct text page, list = {0}, shop = {0};
        char path[80];
        set_up(&laid, units[i]);
        page = page_of(&laid);
        write_cut_list(&laid.design, laid.envelope, &list);
        write_materials(&laid.design, laid.envelope, &laid.cutting, &shop);
        snprintf(path, sizeof path, "tests/golden/cutting/layout-%s.txt", units[i]);
        check_golden(path, &page);
        snprintf(path, sizeof path, "tests/golden/cutting/cutlist-%s.txt", units[i]);
        check_golden(path, &list);
        snprintf(path, sizeof path, "tests/golden/cutting/materials-%s.txt", units[i]);
        check_golden(path, &shop);
        struct text flat = unfolded(&page);
        check_page(&flat, 500);
        check_page(&list, 60);
        check_page(&shop, 60);
        text_free(&flat);
        text_free(&page);
        text_free(&list);
        text_free(&shop);
        tear_down(&laid);
    }
}

static void long_names_and_many_colours_stay_in_79_columns(void **state) {
    (void)state;
    struct laid laid;
    struct text list = {0}, shop = {0};
    design_starter(&laid.design);
    set(&laid.design, "size.volume", "4 m3");
    memset(laid.design.name, 'M', TEXT_MOST - 1);
    laid.design.colours.cloths.count = CLOTHS_MOST;
    for (size_t i = 0; i < CLOTHS_MOST; i++) {
        struct cloth_colour *cloth = &laid.design.colours.cloths.value[i];
        *cloth = (struct cloth_colour){.letter = (char)('A' + (int)i), .price_m = 10000};
        memset(cloth->name, 'a' + (int)i, TEXT_MOST - 1);
    }
    set(&laid.design, "colours.fill", "spiral");
    set(&laid.design, "cutting.offcuts", "A 400 5, B 400 5");
    lay(&laid);
    struct text page = page_of(&laid), flat = unfolded(&page);
    write_cut_list(&laid.design, laid.envelope, &list);
    write_materials(&laid.design, laid.envelope, &laid.cutting, &shop);
    check_page(&flat, 2000);
    check_page(&list, 400);
    check_page(&shop, 80);
    text_free(&flat);
    text_free(&page);
    text_free(&list);
    text_free(&shop);
    tear_down(&laid);
}

/* ---- the lines --------------------------------------------------------------------------------
 */

static void each_line_says_where_its_piece_lies(void **state) {
    (void)state;
    struct laid laid;
    set_up(&laid, "mm");
    struct text page = page_of(&laid);
    const char *at = page.bytes;
    for (size_t i = 0; i < laid.cutting.cloths; i++)
        for (size_t k = 0; k < laid.cutting.cloth[i].pieces; k++) {
            const struct cutting_piece *piece = &laid.cutting.cloth[i].piece[k];
            double from, to, near, far;
            char crown[16], name[16];
            unsigned long gore;
            at = strstr(at, "\n[ ] ");
            assert_non_null(at);
            assert_int_equal(sscanf(at + 5, "%lf %lf %lf %lf %15s %15s %lu", &from, &to, &near,
                                    &far, crown, name, &gore),
                             7);
            assert_close(from, piece->from_m * 1e3, 0.251, 0);
            assert_close(to, piece->to_m * 1e3, 0.251, 0);
            assert_close(near, piece->near_m * 1e3, 0.251, 0);
            assert_close(far, piece->far_m * 1e3, 0.251, 0);
            assert_string_equal(crown, cutting_crown(piece));
            assert_string_equal(name, laid.envelope->piece[piece->piece].name);
            assert_int_equal(gore, piece->gore);
            at++;
        }
    assert_null(strstr(at, "\n[ ] "));
    text_free(&page);
    tear_down(&laid);
}

/* ---- the map in characters ----------------------------------------------------------------------
 */

/* The piece that a label stands for, NULL when it is none of the strip. */
static const struct cutting_piece *labelled(const struct laid *laid,
                                            const struct cutting_cloth *cloth, size_t strip,
                                            const char *name, unsigned long gore) {
    for (size_t k = 0; k < cloth->pieces; k++)
        if (cloth->piece[k].place.bolt == strip && cloth->piece[k].gore == gore &&
            strcmp(laid->envelope->piece[cloth->piece[k].piece].name, name) == 0)
            return &cloth->piece[k];
    return NULL;
}

/* Every label of a line of the map, held against where its piece lies.  Returns: how many. */
static size_t check_labels(const struct laid *laid, const struct cutting_cloth *cloth, size_t strip,
                           const char *line, size_t width, double from_m, double column_m) {
    size_t labels = 0;
    for (size_t c = 0; c + 3 < width; c++) {
        char name[8];
        unsigned long gore;
        int used = 0;
        if (strchr("HB", line[c]) == NULL ||
            sscanf(line + c, "%7[HB0-9LR] %lu%n", name, &gore, &used) != 2)
            continue;
        const struct cutting_piece *piece = labelled(laid, cloth, strip, name, gore);
        if (piece == NULL)
            fail_msg("there is no piece %s %lu on this strip", name, gore);
        double left_m = from_m + ((double)c - 1) * column_m;
        assert_true(left_m >= piece->from_m - column_m);
        assert_true(left_m + used * column_m <= piece->to_m + column_m);
        labels++;
        c += (size_t)used;
    }
    return labels;
}

static void labels_on_the_map_stand_on_their_pieces(void **state) {
    (void)state;
    struct laid laid;
    size_t labels = 0, pieces = 0;
    set_up(&laid, "mm");
    struct text page = page_of(&laid);
    const char *at = page.bytes;
    for (size_t i = 0; i < laid.cutting.cloths; i++) {
        const struct cutting_cloth *cloth = &laid.cutting.cloth[i];
        pieces += cloth->pieces;
        for (size_t k = 0; k < cloth->strips; k++) {
            at = strstr(at, "Column ");
            assert_non_null(at);
            double column_m = strtod(at + 7, NULL) * 1e-3, from_m = 0;
            const char *end = strstr(at, "along the roll");
            at += strcspn(at, "\n") + 2;
            for (size_t blank = 0; at < end; at += strcspn(at, "\n") + 1) {
                size_t width = strcspn(at, "\n");
                blank = width == 0 ? blank + 1 : 0;
                if (width == 0)
                    from_m += 75 * column_m; /* a band ends */
                labels += check_labels(&laid, cloth, k, at, width, from_m, column_m);
            }
        }
    }
    assert_true(labels * 10 >= pieces * 6);
    text_free(&page);
    tear_down(&laid);
}

/* ---- the map on paper
 * ------------------------------------------------------------------------------ */

static struct text drawn(struct laid *laid, const char *paper, struct template_report *report) {
    struct text ps = {0};
    struct diagnostics messages = {0};
    set(&laid->design, "paper.sheet", paper);
    assert_int_equal(
        write_cutting_map(&laid->design, laid->envelope, &laid->cutting, &ps, report, &messages),
        0);
    assert_int_equal(messages.count, 0);
    return ps;
}

static void every_page_of_the_map_shows_something_and_stays_on_its_paper(void **state) {
    (void)state;
    static const char *const papers[] = {"A4", "A3", "roll 914mm", "Letter", "120x150mm"};
    for (size_t i = 0; i < COUNT_OF(papers); i++) {
        struct laid laid;
        struct template_report report;
        set_up(&laid, i == 3 ? "inch" : "mm");
        struct text ps = drawn(&laid, papers[i], &report);
        char *out = shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=bbox %s 2>&1", keep(&ps));
        size_t pages = 0;
        for (const char *at = out; (at = strstr(at, "%%BoundingBox: ")) != NULL; at++, pages++) {
            long x0, y0, x1, y1;
            assert_int_equal(sscanf(at + 15, "%ld %ld %ld %ld", &x0, &y0, &x1, &y1), 4);
            assert_true(x0 >= 0 && y0 >= 0 && x1 > x0 + 100 && y1 > y0 + 50);
            assert_true((double)x1 * POINT_M <= report.paper.width_m);
        }
        assert_int_equal(pages, report.sheets);
        assert_int_equal(report.length_m > 0, report.paper.height_m <= 0);
        free(out);
        text_free(&ps);
        tear_down(&laid);
    }
}

/* Whether ink lies within 0.3 mm of a place of the page [m], from its lower left corner. */
static bool is_inked(const struct picture *p, double x_m, double y_m) {
    long x = lround(x_m * 1e3 * (double)p->per_mm),
         y = (long)p->height - lround(y_m * 1e3 * (double)p->per_mm);
    for (long dx = -3; dx <= 3; dx++)
        for (long dy = -3; dy <= 3; dy++)
            if (is_ink(p, x + dx, y + dy))
                return true;
    return false;
}

/* Of the first column of page 1: corners and edges of each piece where the layout puts them. */
static void outlines_on_paper_stand_where_the_layout_says(void **state) {
    (void)state;
    static const double rule_m = 0.013, head_m = 0.010;
    struct laid laid;
    struct template_report report;
    struct diagnostics messages = {0};
    set_up(&laid, "mm");
    set(&laid.design, "cutting.offcuts", "");
    tear_down(&laid);
    lay(&laid);
    struct text ps = drawn(&laid, "A4", &report);
    struct template_plan plan = {.design = &laid.design, .envelope = laid.envelope};
    assert_int_equal(paper_find("A4", &plan.paper, &messages), 0);
    assert_int_equal(correction_find(&laid.design, &plan.paper, &plan.correction, &messages), 0);
    struct frame frame = sheet_frame(&plan, false, 0);
    double x_m = (frame.page_width_m - frame.width_m) / 2 + rule_m;
    double top_m = (frame.page_height_m + frame.height_m) / 2 - head_m;
    double most_m = (frame_window_m(&frame) - head_m) * 10;
    struct picture page = print_page(keep(&ps), 1, DOTS_PER_MM);
    size_t points = 0;
    const struct cutting_cloth *cloth = &laid.cutting.cloth[0];
    for (size_t k = 0; k < cloth->pieces; k++) {
        const struct layout_outline *outline = &cloth->outline[cloth->piece[k].place.outline];
        for (size_t i = 0; i < outline->points; i++) {
            struct flat_point a = layout_point(outline->point[i], &cloth->piece[k].place);
            double along_m = a.x_m, across_m = a.y_m + cloth->strip[0].edge_m;
            if (along_m > most_m - 0.01)
                continue;
            if (!is_inked(&page, x_m + across_m / 10, top_m - along_m / 10))
                fail_msg("piece %zu, point %zu: no ink", k, i);
            points++;
        }
    }
    assert_true(points > 30);
    free(page.bits);
    text_free(&ps);
    tear_down(&laid);
}

static void pieces_on_paper_carry_their_labels(void **state) {
    (void)state;
    struct laid laid;
    struct template_report report;
    set_up(&laid, "mm");
    struct text ps = drawn(&laid, "A4", &report);
    char *text = shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=txtwrite -sOutputFile=- %s 2>&1",
                       keep(&ps));
    size_t found = 0, pieces = 0;
    for (size_t i = 0; i < laid.cutting.cloths; i++)
        for (size_t k = 0; k < laid.cutting.cloth[i].pieces; k++, pieces++) {
            const struct cutting_piece *piece = &laid.cutting.cloth[i].piece[k];
            char words[24];
            snprintf(words, sizeof words, "%s %zu", laid.envelope->piece[piece->piece].name,
                     piece->gore);
            found += strstr(text, words) != NULL;
        }
    assert_true(found * 10 >= pieces * 8);
    assert_non_null(strstr(text, "W white, offcut"));
    assert_non_null(strstr(text, "R red, bolt"));
    assert_non_null(strstr(text, "1 : 10"));
    free(text);
    text_free(&ps);
    tear_down(&laid);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pages_are_those_kept),
        cmocka_unit_test(long_names_and_many_colours_stay_in_79_columns),
        cmocka_unit_test(each_line_says_where_its_piece_lies),
        cmocka_unit_test(labels_on_the_map_stand_on_their_pieces),
        cmocka_unit_test(every_page_of_the_map_shows_something_and_stays_on_its_paper),
        cmocka_unit_test(outlines_on_paper_stand_where_the_layout_says),
        cmocka_unit_test(pieces_on_paper_carry_their_labels),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
