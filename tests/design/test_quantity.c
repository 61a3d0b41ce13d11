/* test_quantity.c - numbers as the builder types them, and parameters as text. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "design/values.h"

static const struct parameter *parameter(const char *key) {
    size_t count;
    int index = parameter_find(key);
    assert_true(index >= 0);
    return &parameters(&count)[index];
}

static size_t index_of(const char *key) {
    assert_true(parameter_find(key) >= 0);
    return (size_t)parameter_find(key);
}

/* ---- reading ----------------------------------------------------------- */

static void assert_reads(const char *key, enum units units, const char *typed, double want) {
    struct diagnostics messages = {0};
    double got = -1;
    if (quantity_read(parameter(key), units, typed, &got, &messages) != 0)
        fail_msg("%s: '%s': %s", key, typed, messages.item[0].text);
    if (!(fabs(got - want) <= 1e-15 * fabs(want)))
        fail_msg("%s: '%s': got %.17g, want %.17g", key, typed, got, want);
    assert_int_equal(messages.count, 0);
    diagnostics_free(&messages);
}

static void lengths_are_read_in_any_unit(void **state) {
    (void)state;
    static const struct {
        const char *typed;
        double want_m;
    } cases[] = {
        {"3.2 m", 3.2},
        {"320cm", 3.2},
        {"  320  cm  ", 3.2},
        {"850 mm", 0.85},
        {"850mm", 0.85},
        {"850 MM", 0.85},
        {"+3.2", 3.2},
        {".5 m", 0.5},
        {"3. m", 3},
        {"3 metres", 3},
        {"3 1/2 m", 3.5},
        {"3/4 m", 0.75},
        {"12 15/16 in", 12.9375 * 0.0254},
        {"12-15/16\"", 12.9375 * 0.0254},
        {"12 15/16''", 12.9375 * 0.0254},
        {"12.9375in", 12.9375 * 0.0254},
        {"12.9375 inches", 12.9375 * 0.0254},
        {"10 ft 6 in", 3.2004},
        {"10ft6in", 3.2004},
        {"10' 6\"", 3.2004},
        {"10'6\"", 3.2004},
        {"10' 6", 3.2004},
        {"10'6", 3.2004},
        {"10 ft 6", 3.2004},
        {"10 ft 6 1/2 in", 3.2131},
        {"10 feet", 3.048},
        {"3 m 20 cm", 3.2},
        {"2 yd", 1.8288},
        {"15/16 yd", 0.857250},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++)
        assert_reads("size.height", UNITS_MM, cases[i].typed, cases[i].want_m);
}

static void other_quantities_are_read_in_their_units(void **state) {
    (void)state;
    assert_reads("size.volume", UNITS_MM, "12", 12);
    assert_reads("size.volume", UNITS_MM, "450 litres", 0.45);
    assert_reads("size.volume", UNITS_MM, "450 l", 0.45);
    assert_reads("size.volume", UNITS_MM, "1000 ft3", 28.316846592);
    assert_reads("size.volume", UNITS_MM, "1000 cu ft", 28.316846592);
    assert_reads("size.volume", UNITS_MM, "12 m^3", 12);
    assert_reads("size.volume", UNITS_MM, "12 m\xC2\xB3", 12);
    assert_reads("size.volume", UNITS_INCH, "1000", 28.316846592);
    assert_reads("size.cloth_area", UNITS_MM, "27 m2", 27);
    assert_reads("size.cloth_area", UNITS_MM, "100 sq ft", 9.290304);
    assert_reads("size.cloth_area", UNITS_INCH, "100", 9.290304);
    assert_reads("size.cloth_area", UNITS_MM, "10 yd2", 8.3612736);
    assert_reads("cloth.mass", UNITS_MM, "39.7", 0.0397);
    assert_reads("cloth.mass", UNITS_INCH, "39.7 g/m2", 0.0397);
    assert_reads("cloth.mass", UNITS_MM, "0.0397 kg/m2", 0.0397);
    assert_reads("outline.cone_angle", UNITS_MM, "38 deg", 38);
    assert_reads("outline.cone_angle", UNITS_MM, "38\xC2\xB0", 38);
    assert_reads("outline.cone_angle", UNITS_MM, "38", 38);
    assert_reads("outline.lift_per_volume", UNITS_MM, "2.74 N/m3", 2.74);
    assert_reads("bulge.depth", UNITS_MM, "0.1", 0.1);
    assert_reads("bulge.depth", UNITS_MM, "10 %", 0.1);
    assert_reads("bulge.depth", UNITS_MM, "10%", 0.1);
    assert_reads("outline.weight_ratio", UNITS_MM, "-0", 0);
}

static void ounces_by_the_square_yard_agree_with_the_specification(void **state) {
    (void)state;
    /* MIL-C-7020H type II: 1.6 oz/yd2, 54.2 g/m2 as the specification rounds it. */
    struct diagnostics messages = {0};
    double got = 0;
    assert_int_equal(
        quantity_read(parameter("cloth.mass"), UNITS_MM, "1.6 oz/yd2", &got, &messages), 0);
    assert_close(got, 0.0542, 0.00005, 0);
}

static void a_bare_number_is_in_the_unit_shown(void **state) {
    (void)state;
    static const struct {
        const char *key, *metric, *inch;
    } cases[] = {
        {"size.volume", "m3", "ft3"},
        {"size.height", "m", "in"},
        {"size.cloth_area", "m2", "ft2"},
        {"outline.mouth_diameter", "m", "in"},
        {"cloth.width", "m", "in"},
        {"cloth.selvedge", "mm", "in"},
        {"cloth.mass", "g/m2", "g/m2"},
        {"seams.tape_width", "mm", "in"},
        {"seams.mouth_hem", "mm", "in"},
        {"paper.margin", "mm", "in"},
        {"paper.measured_across", "mm", "in"},
        {"outline.cone_angle", "deg", "deg"},
        {"bulge.depth", "", ""},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        const struct parameter *p = parameter(cases[i].key);
        const enum units both[] = {UNITS_MM, UNITS_INCH};
        for (size_t j = 0; j < 2; j++) {
            const char *unit = quantity_unit(p, both[j]);
            struct diagnostics messages = {0};
            char bare[32], named[48];
            double one = 0, other = 1;
            assert_string_equal(unit, j == 0 ? cases[i].metric : cases[i].inch);
            snprintf(bare, sizeof bare, "%.4f",
                     (p->least + p->most) / 2 /
                         (strcmp(unit, "in") == 0     ? 0.0254
                          : strcmp(unit, "mm") == 0   ? 0.001
                          : strcmp(unit, "g/m2") == 0 ? 0.001
                          : strcmp(unit, "ft2") == 0  ? 0.0929
                          : strcmp(unit, "ft3") == 0  ? 0.0283
                                                      : 1));
            snprintf(named, sizeof named, "%s %s", bare, unit);
            assert_int_equal(quantity_read(p, both[j], bare, &one, &messages), 0);
            assert_int_equal(quantity_read(p, both[j], named, &other, &messages), 0);
            assert_close(one, other, 0, 0);
        }
    }
}

static void assert_refuses(const char *key, enum units units, const char *typed, const char *code,
                           const char *says) {
    struct diagnostics messages = {0};
    double value = 4711;
    if (quantity_read(parameter(key), units, typed, &value, &messages) != -1)
        fail_msg("'%s' was read as %g", typed, value);
    assert_close(value, 4711, 0, 0);
    assert_int_equal(messages.count, 1);
    assert_string_equal(messages.item[0].key, key);
    if (strcmp(messages.item[0].code, code) != 0 || strstr(messages.item[0].text, says) == NULL)
        fail_msg("'%s': %s: %s", typed, messages.item[0].code, messages.item[0].text);
    diagnostics_free(&messages);
}

static void what_is_no_number_is_refused_in_words(void **state) {
    (void)state;
    static const char *const typed[] = {
        "",         "   ",   "-",      "m",      "abc",
        "1.2.3",    ".",     "3 m 2",  "3 4",    "12 in 3 ft",
        "3 m 2 m",  "1/0 m", "1//2 m", "nan",    "inf",
        "3 mm 4",   "3 - 2", "--3 m",  "10 ft2", "1234567890123456789012345678901 mm",
        "12 15/ in"};
    for (size_t i = 0; i < COUNT_OF(typed); i++)
        assert_refuses("size.height", UNITS_MM, typed[i], "number", "write one such as 3.2 m");
    assert_refuses("bulge.depth", UNITS_MM, "x", "number", "write one such as 3.2, or");
}

static void a_decimal_comma_is_refused_by_name(void **state) {
    (void)state;
    assert_refuses("size.height", UNITS_MM, "3,2 m", "comma", "write a point");
    assert_refuses("size.height", UNITS_MM, "1,000 mm", "comma", "nothing between thousands");
}

static void masses_temperatures_forces_and_times_are_read(void **state) {
    (void)state;
    static const struct {
        const char *key, *typed;
        double want;
    } cases[] = {
        {"rig.burner", "350", 0.35},
        {"rig.burner", "0.35 kg", 0.35},
        {"rig.burner", "1 lb", 0.45359237},
        {"rig.burner", "12 oz", 12 * 0.028349523125},
        {"tape.mass", "4 g/m", 0.004},
        {"thread.tex", "40 tex", 40},
        {"thread.tex", "360 denier", 40},
        {"air.ground", "-40 F", -40},
        {"air.ground", "-5", -5},
        {"air.inside", "373.15 K", 100},
        {"air.altitude", "1000 ft", 304.8},
        {"wind.hold", "10 kgf", 98.0665},
        {"cloth.strength", "394 N/5cm", 7880},
        {"cloth.strength", "45 lbf/in", 45 * 4.4482216152605 / 0.0254},
        {"heat.burner_power", "40", 40000},
        {"heat.burner_power", "40000 W", 40000},
        {"wind.expected", "9 km/h", 2.5},
        {"wind.expected", "5 mph", 2.2352},
        {"pace.piece", "90 s", 1.5},
        {"pace.finish", "90 min", 1.5},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct diagnostics messages = {0};
        double got = -1;
        if (quantity_read(parameter(cases[i].key), UNITS_MM, cases[i].typed, &got, &messages) != 0)
            fail_msg("%s: %s", cases[i].typed, messages.item[0].text);
        assert_close(got, cases[i].want, 1e-12, 1e-12);
    }
    assert_reads("air.inside", UNITS_INCH, "212", 100);
    assert_reads("air.inside", UNITS_INCH, "100 C", 100);
}

/* A unit that is not known here would be refused without a word. */
static void every_kind_of_number_is_told_of_a_unit_that_does_not_fit(void **state) {
    (void)state;
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++) {
        struct diagnostics messages = {0};
        double value;
        if (p[i].type != PARAMETER_REAL)
            continue;
        assert_int_not_equal(quantity_read(&p[i], UNITS_MM, "1 furlong", &value, &messages), 0);
        if (messages.count != 1)
            fail_msg("%s, in %s: nothing is said", p[i].key, p[i].unit);
        diagnostics_free(&messages);
    }
}

static void a_unit_of_another_kind_is_refused_with_those_that_fit(void **state) {
    (void)state;
    assert_refuses("size.height", UNITS_MM, "3 kg", "unit", "\"kg\" is not a unit for a length");
    assert_refuses("size.height", UNITS_MM, "3 mx", "unit", "\"mx\" is not a unit for a length");
    assert_refuses("size.height", UNITS_MM, "1e3 mm", "unit", "\"e3\" is not a unit");
    assert_refuses("size.height", UNITS_MM, "0x4 m", "unit", "\"x4\" is not a unit");
    assert_refuses("size.volume", UNITS_MM, "3 m2", "unit", "m3, litres and ft3");
    assert_refuses("size.cloth_area", UNITS_MM, "3 m3", "unit", "m2, cm2, ft2 and yd2");
    assert_refuses("cloth.mass", UNITS_MM, "40 g", "unit", "g/m2, kg/m2 and oz/yd2");
    assert_refuses("outline.cone_angle", UNITS_MM, "1 rad", "unit", "the unit is deg");
    assert_refuses("bulge.depth", UNITS_MM, "3 m", "unit", "write it without one, or with %");
}

static void a_range_is_said_in_the_unit_that_was_typed(void **state) {
    (void)state;
    assert_refuses("size.height", UNITS_MM, "50 m", "range", "give 0.2 to 30 m");
    assert_refuses("size.height", UNITS_MM, "5 cm", "range", "give 20 to 3000 cm");
    assert_refuses("size.height", UNITS_MM, "100 ft", "range", "give 0.6562 to 98.42 ft");
    assert_refuses("size.height", UNITS_MM, "-3 m", "range", "give 0.2 to 30 m");
    assert_refuses("size.height", UNITS_INCH, "1", "range", "give 7.875 to 1181 in");
    assert_refuses("seams.tape_width", UNITS_MM, "200", "range", "give 0 to 100 mm");
    assert_refuses("seams.tape_width", UNITS_MM, "0.2 m", "range", "give 0 to 0.1 m");
    assert_refuses("cloth.mass", UNITS_MM, "3 g/m2", "range", "give 5 to 500 g/m2");
    assert_refuses("bulge.depth", UNITS_MM, "60 %", "range", "give 0 to 50 %");
    assert_refuses("bulge.depth", UNITS_MM, "0.6", "range", "give 0 to 0.5");
}

static void a_bare_number_out_of_range_is_guessed_at(void **state) {
    (void)state;
    assert_refuses("size.height", UNITS_MM, "3200", "range", "did you mean 3200 mm?");
    assert_refuses("cloth.mass", UNITS_MM, "0.0397", "range", "did you mean 0.0397 kg/m2?");
    struct diagnostics messages = {0};
    double value;
    assert_int_equal(quantity_read(parameter("size.height"), UNITS_MM, "3200 m", &value, &messages),
                     -1);
    assert_null(strstr(messages.item[0].text, "did you mean"));
    diagnostics_free(&messages);
}

/* Every limit a message states is itself accepted: checked on all numbers, in all units. */
static void stated_limits_are_themselves_in_range(void **state) {
    (void)state;
    static const char *const names[] = {"mm",  "cm",   "m",   "in",    "ft",     "yd",  "m2",
                                        "cm2", "ft2",  "yd2", "m3",    "litres", "ft3", "g/m2",
                                        "%",   "N/m3", "deg", "kg/m2", "oz/yd2", ""};
    size_t count, tried = 0;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; p[i].type == PARAMETER_REAL && j < COUNT_OF(names); j++) {
            struct diagnostics messages = {0};
            char typed[64], least[40], most[40];
            double value;
            snprintf(typed, sizeof typed, "999999999 %s", names[j]);
            assert_int_equal(quantity_read(&p[i], UNITS_MM, typed, &value, &messages), -1);
            const char *give = strstr(messages.item[0].text, "give ");
            if (strcmp(messages.item[0].code, "range") == 0) {
                assert_non_null(give);
                assert_int_equal(sscanf(give, "give %39s to %39s", least, most), 2);
                most[strcspn(most, ",")] = '\0';
                struct diagnostics none = {0};
                snprintf(typed, sizeof typed, "%s %s", least, names[j]);
                if (quantity_read(&p[i], UNITS_MM, typed, &value, &none) != 0)
                    fail_msg("%s: %s", p[i].key, none.item[0].text);
                snprintf(typed, sizeof typed, "%s %s", most, names[j]);
                if (quantity_read(&p[i], UNITS_MM, typed, &value, &none) != 0)
                    fail_msg("%s: %s", p[i].key, none.item[0].text);
                tried++;
            }
            diagnostics_free(&messages);
        }
    assert_true(tried > 100);
}

/* ---- showing ----------------------------------------------------------- */

static void assert_shows(const char *key, enum units units, double value, const char *want) {
    char got[48];
    assert_string_equal(quantity_show(parameter(key), units, value, got), want);
}

static void numbers_are_shown_short_and_with_their_unit(void **state) {
    (void)state;
    assert_shows("size.height", UNITS_MM, 3.2, "3.2 m");
    assert_shows("size.height", UNITS_MM, 3, "3 m");
    assert_shows("size.height", UNITS_MM, 3.123456789, "3.123457 m");
    assert_shows("size.height", UNITS_MM, 29.9999999999, "30 m");
    assert_shows("seams.tape_width", UNITS_MM, 0.01, "10 mm");
    assert_shows("seams.tape_width", UNITS_MM, 0, "0 mm");
    assert_shows("paper.rounding", UNITS_MM, 0.0005, "0.5 mm");
    assert_shows("size.volume", UNITS_MM, 15000, "15000 m3");
    assert_shows("size.volume", UNITS_INCH, 28.316846592, "1000 ft3");
    assert_shows("cloth.mass", UNITS_MM, 0.0397, "39.7 g/m2");
    assert_shows("outline.lift_per_volume", UNITS_MM, 2.74, "2.74 N/m3");
    assert_shows("outline.cone_angle", UNITS_MM, 38, "38 deg");
    assert_shows("bulge.depth", UNITS_MM, 0.1, "0.1");
    assert_shows("outline.weight_ratio", UNITS_MM, 1e-7, "0.0000001");
}

static void inches_are_shown_as_fractions_where_they_are_exact(void **state) {
    (void)state;
    assert_shows("size.height", UNITS_INCH, 12.9375 * 0.0254, "12 15/16 in");
    assert_shows("size.height", UNITS_INCH, 120 * 0.0254, "120 in");
    assert_shows("seams.tape_width", UNITS_INCH, 0.0254 * 3 / 8, "3/8 in");
    assert_shows("seams.tape_width", UNITS_INCH, 0.0254 / 64, "1/64 in");
    assert_shows("seams.tape_width", UNITS_INCH, 0, "0 in");
    assert_shows("seams.tape_width", UNITS_INCH, 0.01, "0.3937008 in");
    assert_shows("size.height", UNITS_INCH, (16 - 1e-14) * 0.0254, "16 in");
}

static void what_is_shown_reads_back(void **state) {
    (void)state;
    struct dice dice = {7};
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++)
        for (int tries = 0; p[i].type == PARAMETER_REAL && tries < 400; tries++) {
            enum units units = tries % 2 == 0 ? UNITS_MM : UNITS_INCH;
            double most = dice_whole(&dice, 0, 2) == 0 ? p[i].most : p[i].most / 50;
            double value = dice_between(&dice, p[i].least, fmax(most, p[i].least)), got;
            struct diagnostics messages = {0};
            char shown[48], again[48];
            quantity_show(&p[i], units, value, shown);
            if (quantity_read(&p[i], units, shown, &got, &messages) != 0)
                fail_msg("%s %.17g: %s: %s", p[i].key, value, shown, messages.item[0].text);
            /* Of temperatures, the number shown: its zero may be another. */
            double zero = strcmp(p[i].unit, "C") == 0 ? 1e-5 : 1e-12;
            assert_close(got, value, zero, 1e-6);
            assert_string_equal(quantity_show(&p[i], units, got, again), shown);
        }
}

static void a_value_of_few_digits_reads_back_to_the_bit(void **state) {
    (void)state;
    struct dice dice = {8};
    const struct parameter *p = parameter("size.height");
    for (int tries = 0; tries < 3000; tries++) {
        struct diagnostics messages = {0};
        double value = dice_whole(&dice, 2000, 300000) / 1e4, inches, got;
        char shown[48];
        assert_int_equal(
            quantity_read(p, UNITS_MM, quantity_show(p, UNITS_MM, value, shown), &got, &messages),
            0);
        assert_close(got, value, 0, 0);
        inches = dice_whole(&dice, 64 * 8, 64 * 1181) / 64.0 * 254 / 10000;
        assert_int_equal(quantity_read(p, UNITS_INCH, quantity_show(p, UNITS_INCH, inches, shown),
                                       &got, &messages),
                         0);
        assert_close(got, inches, 0, 0);
    }
}

static void values_no_design_may_have_can_still_be_shown(void **state) {
    (void)state;
    char shown[48];
    assert_non_null(quantity_show(parameter("size.height"), UNITS_INCH, HUGE_VAL, shown));
    assert_non_null(quantity_show(parameter("size.height"), UNITS_MM, -1e300, shown));
    assert_string_equal(quantity_show(parameter("size.height"), UNITS_MM, -3, shown), "-3 m");
    assert_non_null(quantity_show(parameter("size.height"), UNITS_MM, (double)NAN, shown));
}

/* ---- parameters as text ------------------------------------------------ */

static void assert_sets(const char *key, const char *typed, const char *shown) {
    struct design design;
    struct diagnostics messages = {0};
    struct text text = {0};
    design_starter(&design);
    if (parameter_set(&design, index_of(key), typed, &messages) != 0)
        fail_msg("%s: '%s': %s", key, typed, messages.item[0].text);
    parameter_show(&design, index_of(key), &text);
    assert_string_equal(text.bytes, shown);
    text_free(&text);
}

static void every_type_of_parameter_is_set_and_shown(void **state) {
    (void)state;
    assert_sets("gores.count", "12", "12");
    assert_sets("gores.count", " 12 ", "12");
    assert_sets("size.height", "85 cm", "0.85 m");
    assert_sets("seams.tape_width", "12", "12 mm");
    assert_sets("name", "  Two of a Kind ", "Two of a Kind");
    assert_sets("paper.sheet", "roll 36in", "roll 36in");
    assert_sets("gores.style", "half-gore", "half-gore");
    assert_sets("gores.style", "H", "half-gore");
    assert_sets("size.by", "gore", "gore-length");
    assert_sets("paper.inch_fraction", "1/6", "1/64");
    assert_sets("rows.shares", "4 3 2.5 1", "4 3 2.5 1");
    assert_sets("rows.shares", "", "");
    assert_sets("gores.mix", "faceted billowed", "faceted billowed");
    assert_sets("gores.mix", "f b", "faceted billowed");
    assert_sets("gores.mix", "f, half", "faceted half-gore");
    assert_sets("gores.mix", "fbH", "faceted billowed half-gore");
    assert_sets("outline.table", "0.3 0, 1.1 1.6,0.25  2.9", "0.3 0, 1.1 1.6, 0.25 2.9");
    assert_sets("rig.others", "camera 120 g, flag 0.05 kg", "camera 120 g, flag 50 g");
    assert_sets("rig.others", "  lamp 2 12 1/2 oz ", "lamp 2 354.369 g");
    assert_sets("rig.others", "\"box, small\" 30,flag 5", "\"box, small\" 30 g, flag 5 g");
    assert_sets("rig.others", "", "");
}

static void assert_set_refused(const char *key, const char *typed, const char *code,
                               const char *says) {
    struct design design, before;
    struct diagnostics messages = {0};
    design_starter(&design);
    before = design;
    if (parameter_set(&design, index_of(key), typed, &messages) != -1)
        fail_msg("%s: '%s' was taken", key, typed);
    assert_memory_equal(&design, &before, sizeof design);
    assert_int_equal(messages.count, 1);
    assert_string_equal(messages.item[0].key, key);
    if (strcmp(messages.item[0].code, code) != 0 || strstr(messages.item[0].text, says) == NULL)
        fail_msg("%s: '%s': %s: %s", key, typed, messages.item[0].code, messages.item[0].text);
    diagnostics_free(&messages);
}

static void what_does_not_fit_is_refused_and_changes_nothing(void **state) {
    (void)state;
    assert_set_refused("rig.others", "camera", "type", "a name and a mass for each");
    assert_set_refused("rig.others", "camera 600 kg", "range", "give 0 to 500 kg");
    assert_set_refused("rig.others", "120 g", "text", "is empty");
    assert_set_refused("rig.others", "camera 3 m", "type", "such as camera 120 g");
    assert_set_refused("gores.count", "2", "range", "3 to 64");
    assert_set_refused("gores.count", "99999999999999999999", "range", "3 to 64");
    assert_set_refused("gores.count", "16.0", "type", "write a whole number, 3 to 64");
    assert_set_refused("gores.count", "sixteen", "type", "write a whole number, 3 to 64");
    assert_set_refused("gores.count", "", "type", "write a whole number, 3 to 64");
    assert_set_refused("format", "2", "range", "not known to this program");
    assert_set_refused("size.height", "50", "range", "0.2 to 30 m");
    assert_set_refused("name", "", "text", "is empty");
    assert_set_refused("name", "tab\there", "text", "control character");
    assert_set_refused("name", "\xFF", "text", "not valid UTF-8");
    assert_set_refused("name", "0123456789012345678901234567890123456789012345678901234567890123",
                       "text", "64 bytes; at most 63");
    assert_set_refused("gores.style", "bellowed", "word", "did you mean \"billowed\"?");
    assert_set_refused("gores.style", "", "word", "or \"billowed\"");
    assert_set_refused("seams.row", "x", "word", "\"plain\", \"lapped\" or \"felled\"");
    assert_set_refused("paper.inch_fraction", "1/", "word", "\"1/16\""); /* which one? */
    assert_set_refused("rows.shares", "4 x", "type", "write numbers with blanks");
    assert_set_refused("rows.shares", "4,5 3", "type", "a point where decimals begin");
    assert_set_refused("rows.shares", "4 -1", "range", "entry 2: -1");
    assert_set_refused("rows.shares", "1e999", "range", "entry 1");
    assert_set_refused("gores.mix", "f q", "word", "entry 2: \"q\"");
    assert_set_refused("gores.mix", "fbq", "word", "\"fbq\"");
    assert_set_refused("outline.table", "0.3 0, 1.1", "type", "radius and height");
    assert_set_refused("outline.table", "0.3 0 1.1 1.6", "type", "a comma after each");
    assert_set_refused("outline.table", "0.3 0, 31 1", "range", "entry 2: 31 m");
}

static void lists_too_long_are_refused(void **state) {
    (void)state;
    static const struct {
        const char *key, *entry;
        size_t most;
    } lists[] = {{"rows.shares", "1 ", ROWS_MOST + 1},
                 {"gores.mix", "f", GORES_MOST},
                 {"outline.table", "1 1,", TABLE_MOST},
                 {"rig.others", "flag 5 g,", ITEMS_MOST}};
    for (size_t i = 0; i < COUNT_OF(lists); i++) {
        struct text text = {0};
        struct design design;
        struct diagnostics messages = {0};
        design_starter(&design);
        for (size_t j = 0; j < lists[i].most; j++)
            text_add(&text, "%s", lists[i].entry);
        assert_int_equal(parameter_set(&design, index_of(lists[i].key), text.bytes, &messages), 0);
        text_add(&text, "%s", lists[i].entry);
        assert_set_refused(lists[i].key, text.bytes, "count", "too long");
        text_free(&text);
    }
}

static void setting_what_is_shown_changes_not_a_bit(void **state) {
    (void)state;
    struct dice dice = {21};
    size_t count;
    parameters(&count);
    for (int tries = 0; tries < 200; tries++) {
        struct design design, before;
        struct diagnostics messages = {0};
        random_design(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        before = design;
        for (size_t i = 0; i < count; i++) {
            struct text text = {0};
            parameter_show(&design, i, &text);
            assert_int_equal(parameter_set(&design, i, text.bytes, &messages), 0);
            text_free(&text);
        }
        assert_memory_equal(&design, &before, sizeof design);
        assert_int_equal(messages.count, 0);
    }
}

/* Lists keep every digit: what is shown for one design gives another design the same. */
static void lists_shown_for_one_design_set_another(void **state) {
    (void)state;
    static const char *const keys[] = {"outline.table", "gores.mix", "rows.shares",
                                       "bulge.stations"};
    struct dice dice = {22};
    for (int tries = 0; tries < 200; tries++) {
        struct design design, copy;
        struct diagnostics messages = {0};
        random_design(&dice, &design);
        copy = design;
        for (size_t i = 0; i < COUNT_OF(keys); i++) {
            struct text text = {0};
            size_t index = index_of(keys[i]);
            parameter_show(&design, index, &text);
            assert_int_equal(parameter_set(&copy, index, "", &messages), 0);
            assert_int_equal(parameter_set(&copy, index, text.bytes, &messages), 0);
            text_free(&text);
        }
        assert_true(design_same(&design, &copy));
    }
}

/* ---- steps ------------------------------------------------------------- */

static double number_of(const struct design *design, const struct parameter *p) {
    const void *value = value_of(design, p);
    return p->type == PARAMETER_REAL ? *(const double *)value : *(const int *)value;
}

static void steps_go_all_the_way_up_and_down_and_stay_in_range(void **state) {
    (void)state;
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++)
        for (int units = UNITS_MM; units <= UNITS_INCH; units++) {
            struct design design;
            design_starter(&design);
            bool number = p[i].type == PARAMETER_REAL || p[i].type == PARAMETER_WHOLE;
            if (!number)
                continue;
            design.paper.units = units;
            for (int direction = 1; direction >= -1; direction -= 2) {
                double limit = direction > 0 ? p[i].most : p[i].least, before;
                int steps = 0;
                do {
                    before = number_of(&design, &p[i]);
                    parameter_step(&design, i, direction);
                    double now = number_of(&design, &p[i]);
                    assert_true(now >= p[i].least && now <= p[i].most);
                    if (before != limit && (now - before) * direction <= 0)
                        fail_msg("%s stays at %.17g", p[i].key, before);
                    steps++;
                } while (before != limit && steps < 1000);
                if (steps >= 1000)
                    fail_msg("%s takes 1000 steps to %g", p[i].key, limit);
            }
        }
}

static void assert_steps(const char *key, const char *from, int direction, const char *to) {
    struct design design;
    struct diagnostics messages = {0};
    struct text text = {0};
    design_starter(&design);
    if (strstr(from, " in") != NULL)
        design.paper.units = UNITS_INCH;
    assert_int_equal(parameter_set(&design, index_of(key), from, &messages), 0);
    parameter_step(&design, index_of(key), direction);
    parameter_show(&design, index_of(key), &text);
    if (strcmp(text.bytes, to) != 0)
        fail_msg("%s: from %s to %s, not %s", key, from, text.bytes, to);
    text_free(&text);
}

static void steps_land_on_round_numbers(void **state) {
    (void)state;
    assert_steps("size.volume", "12", 1, "12.5 m3");
    assert_steps("size.volume", "12.3", 1, "12.5 m3");
    assert_steps("size.volume", "12.3", -1, "12 m3");
    assert_steps("size.height", "3", 1, "3.1 m");
    assert_steps("size.height", "3.1", -1, "3 m");
    assert_steps("size.height", "30", 1, "30 m");
    assert_steps("outline.mouth_diameter", "0.6", 1, "0.62 m");
    assert_steps("seams.tape_width", "10", 1, "10.5 mm");
    assert_steps("seams.tape_width", "0", 1, "0.5 mm");
    assert_steps("seams.tape_width", "0", -1, "0 mm");
    assert_steps("seams.mouth_hem", "25", 1, "26 mm");
    assert_steps("cloth.mass", "39.7", 1, "40 g/m2");
    assert_steps("bulge.depth", "0.1", 1, "0.105");
    assert_steps("size.height", "118 in", 1, "120 in");
    assert_steps("seams.tape_width", "3/8 in", 1, "25/64 in");
    assert_steps("rig.burner", "350", 1, "360 g");
    assert_steps("rig.burner", "0", 1, "10 g");
    assert_steps("weighed.cloth", "1130", 1, "1150 g");
    assert_steps("air.ground", "15", 1, "16 C");
    assert_steps("air.ground", "0", -1, "-1 C");
    assert_steps("air.inside", "100", 1, "105 C");
    assert_steps("tape.mass", "4", 1, "4.2 g/m");
    assert_steps("heat.burner_power", "40", 1, "42 kW");
    assert_steps("gores.count", "16", 1, "17");
    assert_steps("gores.count", "64", 1, "64");
    assert_steps("gores.style", "faceted", 1, "half-gore");
    assert_steps("gores.style", "billowed", 1, "faceted");
    assert_steps("gores.style", "faceted", -1, "billowed");
    assert_steps("format", "1", 1, "1");
    assert_steps("name", "Starter", 1, "Starter");
    assert_steps("rows.shares", "1 2", 1, "1 2");
}

/* ---- comparing --------------------------------------------------------- */

static void designs_are_the_same_only_when_every_value_is(void **state) {
    (void)state;
    struct design one, other;
    size_t count;
    const struct parameter *p = parameters(&count);
    design_starter(&one);
    for (size_t i = 0; i < count; i++) {
        other = one;
        assert_true(design_same(&one, &other));
        unsigned char *member = member_of(&other, &p[i]);
        member[0] ^= 1; /* a letter, a number's last bit, a list's count */
        if (design_same(&one, &other))
            fail_msg("%s is not compared", p[i].key);
    }
}

static void what_stands_behind_the_end_of_a_text_or_list_does_not_count(void **state) {
    (void)state;
    struct design one, other;
    design_starter(&one);
    one.rows.shares = (struct real_list){1, {2}};
    one.rig.others = (struct item_list){1, {{"camera", 0.12}}};
    other = one;
    other.name[TEXT_MOST - 1] = 'x';
    other.rig.others.value[0].name[TEXT_MOST - 1] = 'x';
    other.rig.others.value[1].mass_kg = 1;
    other.rows.shares.value[1] = 3;
    other.gores.mix.value[0] = 1;
    other.outline.table.value[0].r_m = 1;
    assert_true(design_same(&one, &other));
    other.rig.others.value[0].mass_kg = 0.13;
    assert_false(design_same(&one, &other));
    other.rig.others.value[0].mass_kg = 0.12;
    assert_true(design_same(&one, &other));
    other.rows.shares.value[0] = 3;
    assert_false(design_same(&one, &other));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths_are_read_in_any_unit),
        cmocka_unit_test(other_quantities_are_read_in_their_units),
        cmocka_unit_test(ounces_by_the_square_yard_agree_with_the_specification),
        cmocka_unit_test(a_bare_number_is_in_the_unit_shown),
        cmocka_unit_test(what_is_no_number_is_refused_in_words),
        cmocka_unit_test(a_decimal_comma_is_refused_by_name),
        cmocka_unit_test(masses_temperatures_forces_and_times_are_read),
        cmocka_unit_test(every_kind_of_number_is_told_of_a_unit_that_does_not_fit),
        cmocka_unit_test(a_unit_of_another_kind_is_refused_with_those_that_fit),
        cmocka_unit_test(a_range_is_said_in_the_unit_that_was_typed),
        cmocka_unit_test(a_bare_number_out_of_range_is_guessed_at),
        cmocka_unit_test(stated_limits_are_themselves_in_range),
        cmocka_unit_test(numbers_are_shown_short_and_with_their_unit),
        cmocka_unit_test(inches_are_shown_as_fractions_where_they_are_exact),
        cmocka_unit_test(what_is_shown_reads_back),
        cmocka_unit_test(a_value_of_few_digits_reads_back_to_the_bit),
        cmocka_unit_test(values_no_design_may_have_can_still_be_shown),
        cmocka_unit_test(every_type_of_parameter_is_set_and_shown),
        cmocka_unit_test(what_does_not_fit_is_refused_and_changes_nothing),
        cmocka_unit_test(lists_too_long_are_refused),
        cmocka_unit_test(setting_what_is_shown_changes_not_a_bit),
        cmocka_unit_test(lists_shown_for_one_design_set_another),
        cmocka_unit_test(steps_go_all_the_way_up_and_down_and_stay_in_range),
        cmocka_unit_test(steps_land_on_round_numbers),
        cmocka_unit_test(designs_are_the_same_only_when_every_value_is),
        cmocka_unit_test(what_stands_behind_the_end_of_a_text_or_list_does_not_count),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
