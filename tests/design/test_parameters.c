/* test_parameters.c - the table of parameters holds together. */
#include "support.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gorewright/design.h"

#include "design/values.h"

static size_t member_size(const struct parameter *p) {
    static const size_t size[] = {
        [PARAMETER_WHOLE] = sizeof(int),
        [PARAMETER_REAL] = sizeof(double),
        [PARAMETER_TEXT] = TEXT_MOST,
        [PARAMETER_CHOICE] = sizeof(int),
        [PARAMETER_REALS] = sizeof(struct real_list),
        [PARAMETER_STYLES] = sizeof(struct style_list),
        [PARAMETER_POINTS] = sizeof(struct point_list),
        [PARAMETER_ITEMS] = sizeof(struct item_list),
        [PARAMETER_CLOTHS] = sizeof(struct cloth_list),
        [PARAMETER_LINES] = sizeof(struct line_list),
        [PARAMETER_STOCK] = sizeof(struct stock_list),
    };
    return size[p->type];
}

static void keys_are_unique_and_each_group_stands_together(void **state) {
    (void)state;
    size_t count, groups = 0;
    const struct parameter *p = parameters(&count);
    char group[32] = "";
    assert_true(count > 40);
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(parameter_find(p[i].key), (int)i);
        const char *dot = strchr(p[i].key, '.');
        char now[32] = "";
        if (dot != NULL)
            snprintf(now, sizeof now, "%.*s", (int)(dot - p[i].key), p[i].key);
        groups += strcmp(now, group) != 0;
        memcpy(group, now, sizeof group);
    }
    /* size outline gores rows bulge seams cloth colours cutting tape thread vent rigging rig
     * weighed air heat wind pace buying paper */
    assert_int_equal(groups, 21);
    assert_int_equal(parameter_find("size"), -1);
    assert_int_equal(parameter_find(""), -1);
}

static void every_member_of_the_design_has_its_own_place(void **state) {
    (void)state;
    static unsigned char taken[sizeof(struct design)];
    size_t count, covered = 0;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++) {
        assert_true(p[i].offset + member_size(&p[i]) <= sizeof(struct design));
        for (size_t byte = 0; byte < member_size(&p[i]); byte++) {
            if (taken[p[i].offset + byte])
                fail_msg("%s overlaps another parameter", p[i].key);
            taken[p[i].offset + byte] = 1;
            covered++;
        }
    }
    /* Only padding may be left over: less than one double for each group and parameter. */
    assert_true(sizeof(struct design) - covered < 8 * 16);
}

static void defaults_lie_in_their_ranges(void **state) {
    (void)state;
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++) {
        assert_true(isfinite(p[i].least) && isfinite(p[i].most));
        assert_true(p[i].least <= p[i].most);
        bool is_default = p[i].type != PARAMETER_TEXT && list_room(&p[i]) == 0;
        if (is_default && (p[i].usual < p[i].least || p[i].usual > p[i].most))
            fail_msg("%s: default %g outside %g .. %g", p[i].key, p[i].usual, p[i].least,
                     p[i].most);
        assert_int_equal(p[i].usual_text != NULL, p[i].type == PARAMETER_TEXT);
        if (p[i].usual_text != NULL)
            assert_string_equal(text_fault(p[i].usual_text), "");
    }
}

static void choices_end_in_null_where_the_range_ends(void **state) {
    (void)state;
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++) {
        bool wanted = p[i].type == PARAMETER_CHOICE || p[i].type == PARAMETER_STYLES;
        assert_int_equal(p[i].choices != NULL, wanted);
        if (!wanted)
            continue;
        size_t words = 0;
        while (p[i].choices[words] != NULL)
            words++;
        assert_close(p[i].most, (double)words - 1, 0, 0);
        assert_close(p[i].least, 0, 0, 0);
        assert_string_equal(parameter_word(p[i].key, 0), p[i].choices[0]);
        assert_string_equal(parameter_word(p[i].key, (int)words - 1), p[i].choices[words - 1]);
        assert_string_equal(parameter_word(p[i].key, (int)words), "");
        assert_string_equal(parameter_word(p[i].key, -1), "");
    }
}

static void words_stand_in_the_order_of_the_enums(void **state) {
    (void)state;
    assert_string_equal(parameter_word("size.by", SIZE_CLOTH_AREA), "cloth-area");
    assert_string_equal(parameter_word("size.by", SIZE_TABLE), "table");
    assert_string_equal(parameter_word("size.by", SIZE_LOAD), "load");
    assert_string_equal(parameter_word("outline.kind", OUTLINE_BALL_AND_CONE), "ball-and-cone");
    assert_string_equal(parameter_word("outline.weight_from", WEIGHT_RATIO), "ratio");
    assert_string_equal(parameter_word("outline.join", JOIN_STRAIGHT), "straight");
    assert_string_equal(parameter_word("gores.style", HALF_GORE), "half-gore");
    assert_string_equal(parameter_word("gores.mix", BILLOWED), "billowed");
    assert_string_equal(parameter_word("rows.spacing", ROWS_EVEN_DEPARTURE), "even-departure");
    assert_string_equal(parameter_word("seams.row", SEAM_FELLED), "felled");
    assert_string_equal(parameter_word("cloth.warp", WARP_UP), "up");
    assert_string_equal(parameter_word("paper.units", UNITS_INCH), "inch");
    assert_string_equal(parameter_word("paper.inch_fraction", INCH_64), "1/64");
    assert_string_equal(parameter_word("size.volume", 0), "");
    assert_string_equal(parameter_word("no.such", 0), "");
}

static void help_is_one_sentence_for_people(void **state) {
    (void)state;
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++) {
        size_t length = strlen(p[i].help);
        assert_true(length > 15 && length < 110);
        assert_true(isupper((unsigned char)p[i].help[0]));
        assert_int_equal(p[i].help[length - 1], '.');
        for (size_t j = 0; j < length; j++)
            assert_true(p[i].help[j] >= ' ' && p[i].help[j] <= '~');
    }
}

/* What a message says behind a number. */
static void units_read_well_behind_a_number(void **state) {
    (void)state;
    static const char *const known[] = {"",      "m",   "m2",  "m3",   "deg", "kg", "kg/m",
                                        "kg/m2", "N",   "N/m", "N/m3", "C",   "W",  "m/s",
                                        "m/h",   "min", "h",   "g/km", NULL};
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++) {
        size_t k = 0;
        while (known[k] != NULL && strcmp(known[k], p[i].unit) != 0)
            k++;
        if (known[k] == NULL)
            fail_msg("%s: is \"%s\" a unit that a builder knows?", p[i].key, p[i].unit);
    }
    char words[WORDS_MOST];
    assert_string_equal(range_words(&p[parameter_find("air.ground")], words), "-60 to 60 C");
    assert_string_equal(range_words(&p[parameter_find("thread.tex")], words), "5 to 300 g/km");
    assert_string_equal(range_words(&p[parameter_find("tape.mass")], words), "0 to 0.2 kg/m");
    assert_string_equal(range_words(&p[parameter_find("heat.burner_power")], words),
                        "100 to 5000000 W");
}

static void the_starter_is_a_design_without_a_word_to_say(void **state) {
    (void)state;
    struct design design;
    struct diagnostics messages = {0};
    design_starter(&design);
    assert_int_equal(design_check(&design, NULL, &messages), 0);
    assert_int_equal(messages.count, 0);
    assert_int_equal(design.format, DESIGN_FORMAT);
    assert_int_equal(design.gores.count, 16);
    assert_int_equal(design.outline.table.count, 0);
    assert_close(design.size.volume_m3, 12, 0, 0);
    assert_string_equal(design.name, "Starter");
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_are_unique_and_each_group_stands_together),
        cmocka_unit_test(every_member_of_the_design_has_its_own_place),
        cmocka_unit_test(defaults_lie_in_their_ranges),
        cmocka_unit_test(choices_end_in_null_where_the_range_ends),
        cmocka_unit_test(words_stand_in_the_order_of_the_enums),
        cmocka_unit_test(help_is_one_sentence_for_people),
        cmocka_unit_test(units_read_well_behind_a_number),
        cmocka_unit_test(the_starter_is_a_design_without_a_word_to_say),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
