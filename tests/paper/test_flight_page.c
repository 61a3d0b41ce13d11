/* The page that says whether it will fly, in the builder's order of questions. */
#include <math.h>

#include "flight_pages.h"

static struct text page_of(const struct design *design) {
    struct diagnostics messages = {0};
    struct design sized;
    struct envelope *envelope = flight_build(design, &sized, &messages);
    struct text page = {0};
    assert_non_null(envelope);
    write_flight(&sized, envelope, &page);
    diagnostics_free(&messages);
    envelope_free(envelope);
    return page;
}

static struct text starter_page(struct design *design) {
    design_starter(design);
    return page_of(design);
}

/* ---- what stands on it -------------------------------------------------------- */

static void the_starters_page_is_the_one_kept(void **state) {
    (void)state;
    struct design design;
    struct text page = starter_page(&design);
    check_golden("tests/golden/flight/starter.txt", &page);
    check_page(&page, 115);
    text_free(&page);
}

static void the_questions_come_in_the_builders_order(void **state) {
    (void)state;
    static const char *const parts[] = {
        "WILL IT FLY: Starter", "\n1 WHAT IT WEIGHS", "\n2 WHAT IT LIFTS",
        "\n3 HEAT AND FUEL",    "\n4 LOADS",          "\n5 WIND",
        "\n6 TAKE CARE"};
    struct design design;
    struct text page = starter_page(&design);
    const char *at = page.bytes;
    for (size_t i = 0; i < COUNT_OF(parts); i++) {
        at = strstr(at, parts[i]);
        if (at == NULL)
            fail_msg("%s is not where it should be", parts[i]);
    }
    text_free(&page);
}

/* The numbers in a part of the page, added up: every "name  number" from `from` to `to`. */
static double sum_of_items(const char *page, size_t column) {
    double sum = 0;
    const char *line = strstr(page, "1 WHAT IT WEIGHS");
    for (line = strchr(line, '\n') + 1; strncmp(line, "  All", 5) != 0;
         line = strchr(line, '\n') + 1) {
        size_t width = strcspn(line, "\n");
        if (width > column + 27 && strncmp(line, "  ENVELOPE", 10) != 0)
            sum += strtod(line + column + 27, NULL);
    }
    return sum;
}

static double number_behind(const char *page, const char *words) {
    const char *at = strstr(page, words);
    assert_non_null(at);
    return strtod(at + strlen(words), NULL);
}

static void items_add_up_to_the_gram(void **state) {
    (void)state;
    struct dice dice = {71};
    for (int i = 0; i < 40; i++) {
        struct design design;
        envelope_free(random_envelope(&dice, &design));
        design.rig.burner_kg = dice_between(&dice, 0, 1);
        design.rig.fuel_kg = dice_between(&dice, 0, 1);
        design.weighed.thread_kg = dice_between(&dice, 0, 0.2);
        design.rig.others.count = (size_t)dice_whole(&dice, 0, ITEMS_MOST);
        for (size_t k = 0; k < design.rig.others.count; k++) {
            snprintf(design.rig.others.value[k].name, TEXT_MOST, "thing %zu", k);
            design.rig.others.value[k].mass_kg = dice_between(&dice, 0, 0.5);
        }
        struct text page = page_of(&design);
        double envelope = sum_of_items(page.bytes, 0), rig = sum_of_items(page.bytes, 39);
        const char *totals = strstr(page.bytes, "  ENVELOPE");
        assert_close(number_behind(totals, "  ENVELOPE"), envelope, 1e-9, 0);
        assert_close(number_behind(totals, "  RIG"), rig, 1e-9, 0);
        assert_close(number_behind(page.bytes, "All together"), envelope + rig, 1e-9, 0);
        text_free(&page);
    }
}

static void lift_and_weight_leave_what_is_printed_as_left(void **state) {
    (void)state;
    struct design design;
    struct text page = starter_page(&design);
    double lifts = number_behind(page.bytes, "\n  Lifts          ");
    double weighs = number_behind(page.bytes, "it weighs ");
    double left = number_behind(page.bytes, "so it pulls up\n                 with ");
    assert_close(left, lifts - weighs, 1e-9, 0);
    assert_close(weighs, number_behind(page.bytes, "All together "), 1e-9, 0);
    text_free(&page);
}

static void a_weighed_part_has_a_star_and_what_was_worked_out(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.weighed.thread_kg = 0.055;
    struct text page = page_of(&design);
    assert_says(&page, "\n  thread                           55*   fuel ");
    assert_says(&page, "* as weighed; worked out from the design: thread 31 g\n");
    text_free(&page);
    page = starter_page(&design);
    assert_silent(&page, "*");
    text_free(&page);
}

/* A row of one of the two tables: its numbers, 0 for words. */
static size_t table_row(const char *page, const char *heading, const char *name, double cell[8]) {
    const char *line = strstr(page, heading);
    assert_non_null(line);
    line = strstr(line, name);
    assert_non_null(line);
    line += strlen(name);
    size_t count = 0, width = strcspn(line, "\n");
    for (size_t at = 17 - strlen(name) + 1; at < width; at += 10)
        cell[count++] = strtod(line + at, NULL);
    return count;
}

static void the_tables_rise_and_fall_as_they_must(void **state) {
    (void)state;
    struct design design;
    struct text page = starter_page(&design);
    double cold[8], warm[8], needed_cold[8], needed_warm[8];
    assert_int_equal(table_row(page.bytes, "Lifts in all", "\n  5 C", cold), 6);
    assert_int_equal(table_row(page.bytes, "Lifts in all", "\n  25 C", warm), 6);
    assert_int_equal(table_row(page.bytes, "Must be", "\n  5 C", needed_cold), 6);
    assert_int_equal(table_row(page.bytes, "Must be", "\n  25 C", needed_warm), 6);
    for (int i = 0; i < 6; i++)
        assert_true(cold[i] > warm[i] &&
                    (i == 0 || (cold[i] > cold[i - 1] && warm[i] > warm[i - 1])));
    for (int i = 0; i < 4; i++)
        assert_true(needed_cold[i] < needed_warm[i] &&
                    (i == 0 || needed_cold[i] > needed_cold[i - 1]));
    text_free(&page);
}

static void a_temperature_beyond_the_cloth_is_too_hot_and_lift_that_is_none_is_said(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.cloth.hottest_C = 105;
    design.air.inside_C = 50;
    struct text page = page_of(&design);
    assert_says(&page, "too hot\n");
    assert_says(&page, "      none");
    assert_says(&page, "TOO HEAVY by");
    text_free(&page);
}

static void loads_are_named_from_the_crown_down_with_the_weakest_marked(void **state) {
    (void)state;
    struct design design;
    struct text page = starter_page(&design);
    const char *crown = strstr(page.bytes, "crown, row 8"),
               *mouth = strstr(page.bytes, "\n  mouth     ");
    assert_true(crown != NULL && mouth != NULL && crown < mouth);
    const char *end = strchr(crown, '\n'), *mark = strstr(crown, "->");
    assert_true(mark < end && strstr(mark + 1, "->") < end); /* tapes and cloth */
    assert_says(&page, "Weakest (->)   tapes alone would be ");
    assert_says(&page,
                "14 CFR part 31 envelope 5 (recalled, look it up; 2 under conditions), wires\n"
                "                 of fibre 5 (31.25); loads counted 1.4 times (31.23)\n");
    assert_says(&page, "EASA CS-31HB   envelope 5, wires of fibre 2.25 (metal 1.5)");
    assert_says(&page, "in still air; in wind the pull of section 5 comes on\n  top");
    assert_says(&page, "Burner frame   0.600 m below the mouth: aim the flame");
    assert_says(&page, "need the inflation on paper");
    assert_silent(&page, "not a natural one");
    text_free(&page);
    design.outline.kind = OUTLINE_BALL_AND_CONE;
    page = page_of(&design);
    assert_says(&page, "not a natural one");
    text_free(&page);
}

static void every_caution_is_on_the_page(void **state) {
    (void)state;
    static const char *const words[] = {"Fire:",
                                        "Propane:",
                                        "Hot crown:",
                                        "Lines snag",
                                        "Bystanders:",
                                        "Wind:",
                                        "not a proof of strength",
                                        "licensed",
                                        "Local aviation, fire and gas rules"};
    struct design design;
    struct text page = starter_page(&design);
    const char *care = strstr(page.bytes, "6 TAKE CARE");
    assert_non_null(care);
    for (size_t i = 0; i < COUNT_OF(words); i++)
        if (strstr(care, words[i]) == NULL)
            fail_msg("no caution says \"%s\"", words[i]);
    text_free(&page);
}

static void in_inches_all_of_it_is_in_pounds_and_fahrenheit(void **state) {
    (void)state;
    static const char *const metric[] = {" g\n", " g ", " kg",  " C ",   " N ",      " N,",
                                         " kW",  " Pa", " m/s", " W/m2", " m above", "kPa"};
    struct design design;
    design_starter(&design);
    design.paper.units = UNITS_INCH;
    struct text page = page_of(&design);
    for (size_t i = 0; i < COUNT_OF(metric); i++)
        assert_silent(&page, metric[i]);
    assert_says(&page, "WHAT IT WEIGHS, in lb");
    assert_says(&page, "59 F at the field");
    assert_says(&page, " psi ");
    assert_says(&page, " mph ");
    check_page(&page, 115);
    text_free(&page);
}

/* ---- what cannot be -------------------------------------------------------------- */

static void too_much_is_said_in_words(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.rig.basket_kg = 3;
    struct text page = page_of(&design);
    assert_says(&page, "TOO HEAVY by");
    assert_says(&page, "inside, but the cloth stands 120 C only:");
    assert_says(&page, "Ceiling        none");
    text_free(&page);
    design.rig.basket_kg = 0.2;
    design.cloth.hottest_C = 80;
    page = page_of(&design);
    assert_says(&page, "but the cloth stands 80 C only: 4 C TOO HOT on\n");
    text_free(&page);
    design.rig.basket_kg = 400;
    page = page_of(&design);
    assert_says(&page, "Floats         at no temperature");
    assert_says(&page, "Flight         none: no heat carries its weight");
    assert_says(&page, "Holding heat ");
    assert_says(&page, "never");
    text_free(&page);
}

static void air_colder_inside_carries_and_loads_nothing(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.air.inside_C = -10;
    struct text page = page_of(&design);
    assert_says(&page, "None: with -10 C inside it does not lift its own cloth.");
    check_page(&page, 115);
    text_free(&page);
}

static void an_empty_rig_has_no_table_of_rigs_and_no_flight(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.rig.burner_kg = design.rig.cylinder_kg = design.rig.fuel_kg = 0;
    design.rig.basket_kg = design.rig.radio_kg = 0;
    struct text page = page_of(&design);
    assert_silent(&page, "Must be this hot");
    assert_says(&page, "no fuel is carried (rig.fuel)");
    check_page(&page, 115);
    text_free(&page);
}

static void a_burner_too_weak_for_its_envelope_never_heats_it(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.heat.burner_W = 500;
    struct text page = page_of(&design);
    assert_says(&page, "at full flame never");
    assert_says(&page, "flame: TOO WEAK\n");
    assert_says(&page, "Flight         none: the burner cannot hold it up\n");
    text_free(&page);
    design.heat.burner_W = 8000;
    page = page_of(&design);
    assert_says(&page, "flame: perhaps TOO WEAK\n");
    text_free(&page);
    design.heat.burner_W = 40000;
    design.rig.fuel_kg = 0.005;
    page = page_of(&design);
    assert_says(&page, "none: 5 g of propane does not even heat it up");
    text_free(&page);
}

static void propane_too_cold_to_come_out_gives_no_flight(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.air.ground_C = -60;
    design.air.altitude_m = 6000;
    struct text page = page_of(&design);
    assert_says(&page, "Flight         none: no gas leaves a cylinder this cold\n");
    assert_says(&page, "at full flame never");
    assert_says(&page, "no more than in the air\n                 at the field");
    assert_says(&page, "kW; no gas comes to the burner\n");
    assert_silent(&page, "on a gauge");
    text_free(&page);
    design.air.ground_C = 15;
    design.air.altitude_m = 3000; /* 70.1 kPa by ISO 2533 */
    page = page_of(&design);
    assert_says(&page, "732 kPa absolute in propane of 15 C, 661 kPa on a gauge at the\n");
    text_free(&page);
}

/* The very sentences of the warnings, before anything else. */
static void what_is_warned_of_stands_at_the_top(void **state) {
    (void)state;
    struct design design;
    struct text page = starter_page(&design);
    assert_silent(&page, "TAKE NOTE");
    text_free(&page);
    design.air.inside_C = 200;
    page = page_of(&design);
    const char *note = strstr(page.bytes, "\nTAKE NOTE\n  - air.inside: 200 C is more than the "
                                          "cloth may become, 120 C (cloth.hottest),\n    and");
    assert_true(note != NULL && note < strstr(page.bytes, "1 WHAT IT WEIGHS"));
    check_page(&page, 130);
    text_free(&page);
}

static void air_colder_inside_lifts_nothing_and_pulls_down(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.air.inside_C = 10;
    struct text page = page_of(&design);
    assert_says(&page, "Lifts          nothing with 10 C inside: pulled down by 260 g; it weighs");
    text_free(&page);
}

/* What rounding leaves over is no weight. */
static void sized_for_its_load_and_no_more_it_is_not_too_heavy(void **state) {
    (void)state;
    for (int gores = 6; gores <= 32; gores++) {
        struct design design;
        design_starter(&design);
        design.size.by = SIZE_LOAD;
        design.air.free_lift = 0;
        design.gores.count = gores;
        struct text page = page_of(&design);
        assert_silent(&page, "TOO HEAVY");
        assert_says(&page, "with 0 g\n");
        text_free(&page);
    }
}

/* The columns lie round the limit, which is not beyond itself, when hotter air is asked for. */
static void the_lift_table_is_never_all_too_hot(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.air.inside_C = 250;
    struct text page = page_of(&design);
    assert_says(&page,
                "  outside                90       100       110       120       130       140\n");
    assert_says(&page,
                "  15 C                 3036      3349      3645      3926   too hot   too hot\n");
    text_free(&page);
    design.paper.units = UNITS_INCH;
    design.air.inside_C = 98; /* 208.4 F, and two columns on 248.4 beside 248 F */
    page = page_of(&design);
    assert_says(&page, "       208       228       248\n");
    assert_silent(&page, "too hot\n  19 F");
    double row[8];
    assert_int_equal(table_row(page.bytes, "Lifts in all", "\n  59 F", row), 6);
    assert_true(row[5] > row[4] && row[4] > 0);
    text_free(&page);
}

/* Names of the builder's own, of any length and in any script, keep the columns. */
static void odd_names_keep_the_page_in_order(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    memset(design.name, 'w', TEXT_MOST - 1);
    design.rig.others.count = 2;
    memset(design.rig.others.value[0].name, 'm', TEXT_MOST - 1);
    strcpy(design.rig.others.value[1].name, "\xC3\xA9tendard \xE2\x98\xBA");
    struct text page = page_of(&design);
    assert_says(&page, "etendard ?");
    check_page(&page, 115);
    text_free(&page);
}

static void any_design_gives_a_page_without_a_number_that_is_none(void **state) {
    (void)state;
    struct dice dice = {72};
    for (int i = 0; i < 60; i++) {
        struct design design;
        envelope_free(random_envelope(&dice, &design));
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        struct text page = page_of(&design);
        check_page(&page, 175);
        text_free(&page);
    }
}

/* Each real number about material, rig, air, heat, wind and pace at one of the ends of its
 * range, or as it was. */
static void throw_to_the_corners(struct dice *dice, struct design *design) {
    static const char *const groups[] = {"cloth.m",  "cloth.st", "cloth.se", "cloth.h",  "cloth.e",
                                         "tape.",    "thread.",  "vent.",    "rigging.", "rig.",
                                         "weighed.", "air.",     "heat.",    "wind.",    "pace."};
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++)
        for (size_t g = 0; g < COUNT_OF(groups); g++)
            if (p[i].type == PARAMETER_REAL &&
                strncmp(p[i].key, groups[g], strlen(groups[g])) == 0) {
                int end = dice_whole(dice, 0, 3);
                if (end < 2)
                    *(double *)(void *)((char *)design + p[i].offset) =
                        end == 0 ? p[i].least : p[i].most;
                break;
            }
}

static void the_corners_of_the_parameter_table_give_a_page_as_well(void **state) {
    (void)state;
    struct dice dice = {73};
    for (int i = 0; i < 200; i++) {
        struct design design;
        struct diagnostics messages = {0};
        design_starter(&design);
        design.outline.kind = dice_whole(&dice, OUTLINE_NATURAL, OUTLINE_BALL_AND_CONE);
        design.outline.weight_from = WEIGHT_NONE;
        design.size.volume_m3 = exp(dice_between(&dice, log(2.0), log(15000.0)));
        design.cloth.width_m = 200;
        throw_to_the_corners(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        struct envelope *envelope = envelope_build(&design, &messages);
        assert_non_null(envelope);
        struct text page = {0};
        write_flight(&design, envelope, &page);
        check_page(&page, 160);
        text_free(&page);
        envelope_free(envelope);
        diagnostics_free(&messages);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_starters_page_is_the_one_kept),
        cmocka_unit_test(the_questions_come_in_the_builders_order),
        cmocka_unit_test(items_add_up_to_the_gram),
        cmocka_unit_test(lift_and_weight_leave_what_is_printed_as_left),
        cmocka_unit_test(a_weighed_part_has_a_star_and_what_was_worked_out),
        cmocka_unit_test(the_tables_rise_and_fall_as_they_must),
        cmocka_unit_test(a_temperature_beyond_the_cloth_is_too_hot_and_lift_that_is_none_is_said),
        cmocka_unit_test(loads_are_named_from_the_crown_down_with_the_weakest_marked),
        cmocka_unit_test(every_caution_is_on_the_page),
        cmocka_unit_test(in_inches_all_of_it_is_in_pounds_and_fahrenheit),
        cmocka_unit_test(too_much_is_said_in_words),
        cmocka_unit_test(air_colder_inside_carries_and_loads_nothing),
        cmocka_unit_test(an_empty_rig_has_no_table_of_rigs_and_no_flight),
        cmocka_unit_test(a_burner_too_weak_for_its_envelope_never_heats_it),
        cmocka_unit_test(propane_too_cold_to_come_out_gives_no_flight),
        cmocka_unit_test(what_is_warned_of_stands_at_the_top),
        cmocka_unit_test(air_colder_inside_lifts_nothing_and_pulls_down),
        cmocka_unit_test(sized_for_its_load_and_no_more_it_is_not_too_heavy),
        cmocka_unit_test(the_lift_table_is_never_all_too_hot),
        cmocka_unit_test(odd_names_keep_the_page_in_order),
        cmocka_unit_test(any_design_gives_a_page_without_a_number_that_is_none),
        cmocka_unit_test(the_corners_of_the_parameter_table_give_a_page_as_well),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
