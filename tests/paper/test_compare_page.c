/* The styles side by side on one page. */
#include <math.h>

#include "flight_pages.h"

static struct text comparison_of(const struct design *design, size_t styles) {
    struct text page = {0};
    assert_int_equal(write_comparison(design, &page), styles);
    return page;
}

/* Number `column` behind a label, as printed. */
static double cell(const struct text *page, const char *label, size_t column) {
    const char *line = strstr(page->bytes, label);
    if (line == NULL)
        fail_msg("no line \"%s\"", label);
    return strtod(line + 1 + 26 + 13 * column, NULL);
}

static void the_starters_comparison_is_the_one_kept(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct text page = comparison_of(&design, 3);
    check_golden("tests/golden/flight/starter-compare.txt", &page);
    check_page(&page, 45);
    text_free(&page);
}

static void its_figures_are_those_of_each_style(void **state) {
    (void)state;
    struct design design;
    struct comparison compared;
    const struct style_figures *style = compared.style;
    design_starter(&design);
    design.gores.mix = (struct style_list){2, {FACETED, BILLOWED}};
    styles_compare(&design, &compared);
    assert_int_equal(compared.count, 4);
    struct text page = comparison_of(&design, 4);
    assert_says(&page, "faceted    half-gore     billowed  as designed\n");
    for (size_t i = 0; i < 4; i++) {
        const struct built *built = &style[i].figures;
        double seams_m = built->tape_seam_m + built->row_seam_m + built->ridge_seam_m;
        assert_close(cell(&page, "\npieces to cut", i), (double)built->pieces, 0, 0);
        assert_close(cell(&page, "\ntemplates", i), (double)style[i].templates, 0, 0);
        assert_close(cell(&page, "\nstraight seams, m", i), seams_m - built->curved_seam_m, 0.5,
                     0.005);
        assert_close(cell(&page, "\ncurved seams, m", i), built->curved_seam_m, 0.05, 0.005);
        assert_close(cell(&page, "\ncloth, cut, m2", i), built->cut_area_m2, 0, 0.005);
        assert_close(cell(&page, "\nenvelope weighs, g", i), style[i].mass_kg * 1000, 0.5, 0);
        assert_close(cell(&page, "\nvolume as sewn, m3", i), built->volume_m3, 0, 0.005);
        assert_close(cell(&page, "\nmust be inside to float, C", i), style[i].needed_C, 0.5, 0);
        assert_close(cell(&page, "\nlifts beyond its weight, g", i), style[i].free_kg * 1000, 0.5,
                     0);
        assert_close(cell(&page, "\nhours to build", i), style[i].hours, 0.5, 0.05);
    }
    check_page(&page, 48);
    text_free(&page);
}

static void sized_by_load_it_names_the_volume_that_the_load_asks_for(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.size.by = SIZE_LOAD;
    design.gores.style = HALF_GORE;
    struct text page = comparison_of(&design, 3);
    assert_says(&page, "by the same volume, 11.2 m3, which the load asks of the\ndesign as it is;");
    assert_says(&page, "\nvolume for load alone, m3          10.9         11.2         10.9\n");
    text_free(&page);
    design.size.by = SIZE_VOLUME;
    page = comparison_of(&design, 3);
    assert_silent(&page, "volume for load");
    text_free(&page);
}

/* The volume is then not of the design's own style, and the page says whose it is. */
static void where_the_design_cannot_be_built_for_its_load_it_says_whose_volume_it_is(void **state) {
    (void)state;
    struct design design;
    struct comparison compared = {0};
    design_starter(&design);
    design.size.by = SIZE_LOAD;
    design.gores.style = BILLOWED;
    design.bulge.depth = 0.3;
    for (design.cloth.width_m = 0.4; design.cloth.width_m < 1.2; design.cloth.width_m += 0.005) {
        styles_compare(&design, &compared);
        if (compared.volume_m3 > 0 && compared.sized != compared.own)
            break;
    }
    struct text page = {0};
    assert_true(write_comparison(&design, &page) > 0);
    assert_says(
        &page, "which the load asks of\nfaceted gores; your billowed ones cannot be built for it.");
    text_free(&page);
}

static void what_the_cloth_cannot_stand_is_marked(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct text page = comparison_of(&design, 3);
    assert_silent(&page, "TOO HOT");
    assert_silent(&page, "!");
    text_free(&page);
    design.cloth.hottest_C = 85; /* half-gores need 86 C, the others 84 C */
    page = comparison_of(&design, 3);
    assert_says(&page, "\nmust be inside to float, C           84          !86           84\n");
    assert_says(&page, "\n  ! TOO HOT: the cloth stands 85 C on the mean, and the crown is hotter");
    text_free(&page);
}

static void a_faceted_design_is_told_what_bulge_the_others_have(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct text page = comparison_of(&design, 3);
    assert_says(&page, "stand out by 0.1 of their width (bulge.depth)");
    text_free(&page);
    design.gores.style = BILLOWED;
    page = comparison_of(&design, 3);
    assert_silent(&page, "bulge.depth");
    text_free(&page);
}

/* The warnings for the design as it is. */
static void what_is_warned_of_stands_before_the_table(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct text page = comparison_of(&design, 3);
    assert_silent(&page, "TAKE NOTE");
    text_free(&page);
    design.air.inside_C = 130;
    page = comparison_of(&design, 3);
    assert_says(&page, "\nTAKE NOTE\n  - air.inside: 130 C is more than the cloth may become");
    text_free(&page);
}

static void it_says_what_waits_for_the_inflation_on_paper(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct text page = comparison_of(&design, 3);
    assert_says(&page, "Loads in cloth and tape need the inflation on paper");
    assert_says(&page, "by the same volume");
    assert_says(&page, "first inflation");
    text_free(&page);
}

static void a_style_that_cannot_be_built_has_no_figures_and_a_reason(void **state) {
    (void)state;
    struct design design;
    struct comparison compared;
    const struct style_figures *style = compared.style;
    design_starter(&design);
    design.bulge.depth = 0.3;
    for (design.cloth.width_m = 0.4; design.cloth.width_m < 1.2; design.cloth.width_m += 0.005) {
        styles_compare(&design, &compared);
        if (style[FACETED].built && !style[BILLOWED].built)
            break;
    }
    struct text page = {0};
    size_t built = write_comparison(&design, &page);
    assert_true(built == 1 || built == 2);
    assert_says(&page, "billowed CANNOT BE BUILT LIKE THIS: ");
    assert_close(cell(&page, "\npieces to cut", 0), 128, 0, 0);
    assert_true(page.bytes[strcspn(page.bytes, "~")] == '\0');
    check_page(&page, 48);
    text_free(&page);
    design.cloth.width_m = 0.15;
    page = (struct text){0};
    assert_int_equal(write_comparison(&design, &page), 0);
    assert_int_equal(page.length, 0);
}

static void in_inches_it_is_in_feet_and_pounds(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.paper.units = UNITS_INCH;
    struct text page = comparison_of(&design, 3);
    assert_says(&page, "\nstraight seams, ft ");
    assert_says(&page, "\nenvelope weighs, lb ");
    assert_says(&page, "\nmust be inside to float, F");
    assert_silent(&page, ", m ");
    check_page(&page, 45);
    text_free(&page);
}

/* Too heavy for any heat, in every style. */
static void what_no_heat_floats_has_a_dash(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.rig.basket_kg = 400;
    struct text page = comparison_of(&design, 3);
    assert_says(&page, "float, C            -            -            -\n");
    check_page(&page, 45);
    text_free(&page);
}

static void any_design_gives_one_page(void **state) {
    (void)state;
    struct dice dice = {81};
    for (int i = 0; i < 30; i++) {
        struct design design;
        envelope_free(random_envelope(&dice, &design));
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        struct text page = {0};
        assert_true(write_comparison(&design, &page) > 0);
        check_page(&page, 56);
        text_free(&page);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_starters_comparison_is_the_one_kept),
        cmocka_unit_test(its_figures_are_those_of_each_style),
        cmocka_unit_test(sized_by_load_it_names_the_volume_that_the_load_asks_for),
        cmocka_unit_test(where_the_design_cannot_be_built_for_its_load_it_says_whose_volume_it_is),
        cmocka_unit_test(what_the_cloth_cannot_stand_is_marked),
        cmocka_unit_test(a_faceted_design_is_told_what_bulge_the_others_have),
        cmocka_unit_test(what_is_warned_of_stands_before_the_table),
        cmocka_unit_test(it_says_what_waits_for_the_inflation_on_paper),
        cmocka_unit_test(a_style_that_cannot_be_built_has_no_figures_and_a_reason),
        cmocka_unit_test(in_inches_it_is_in_feet_and_pounds),
        cmocka_unit_test(what_no_heat_floats_has_a_dash),
        cmocka_unit_test(any_design_gives_one_page),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
