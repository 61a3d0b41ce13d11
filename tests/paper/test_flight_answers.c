/* Will it fly: one line for each question, in the builder's units. */
#include "support.h"

#include <string.h>

#include "gorewright/flight.h"
#include "gorewright/paper.h"

struct outlook {
    struct flight_answer answer[FLIGHT_ANSWERS_MOST];
    size_t count;
};

static struct outlook outlook_of(const struct design *design) {
    struct diagnostics messages = {0};
    struct design sized;
    struct outlook outlook;
    struct envelope *envelope = flight_build(design, &sized, &messages);
    if (envelope == NULL)
        fail_msg("not built: %s", messages.count > 0 ? messages.item[0].text : "no message");
    outlook.count = flight_answers(&sized, envelope, outlook.answer);
    envelope_free(envelope);
    diagnostics_free(&messages);
    return outlook;
}

static const struct flight_answer *about(const struct outlook *outlook, const char *label) {
    for (size_t i = 0; i < outlook->count; i++)
        if (strcmp(outlook->answer[i].label, label) == 0)
            return &outlook->answer[i];
    fail_msg("no answer about \"%s\"", label);
    return NULL;
}

static void assert_answer(const struct outlook *outlook, const char *label, bool bad,
                          const char *words) {
    const struct flight_answer *answer = about(outlook, label);
    if (strstr(answer->words, words) == NULL || answer->bad != bad)
        fail_msg("%s: \"%s\", %s", label, answer->words, answer->bad ? "bad" : "fine");
}

static void the_starter_flies_and_every_question_has_its_line(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct outlook outlook = outlook_of(&design);
    for (size_t i = 0; i < outlook.count; i++) {
        assert_in_range(strlen(outlook.answer[i].label), 3, 9);
        assert_in_range(strlen(outlook.answer[i].words), 5, 40);
        assert_false(outlook.answer[i].bad);
    }
    assert_answer(&outlook, "Weighs", false, "2846 g; envelope 1546");
    assert_answer(&outlook, "Lifts", false, "3349 g with 100 C inside");
    assert_answer(&outlook, "Free lift", false, "503 g"); /* 3349 - 2846 */
    assert_answer(&outlook, "Floats at", false, "84 C; 36 C below its limit");
    assert_answer(&outlook, "Weakest", false, "cloth 220 times: crown, row 8; tapes 460");
    assert_answer(&outlook, "Wind", false, "pulls 150 N from 7.3 m/s; gusts sooner");
}

static void in_inches_it_answers_in_pounds_and_fahrenheit(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.paper.units = UNITS_INCH;
    struct outlook outlook = outlook_of(&design);
    assert_answer(&outlook, "Weighs", false, " lb; ");
    assert_answer(&outlook, "Lifts", false, "212 F");
    assert_answer(&outlook, "Burner", false, "BTU/h");
    assert_answer(&outlook, "Wind", false, "mph");
}

static void too_heavy_it_says_by_how_much(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.rig.basket_kg = 1.2; /* a kilogram more */
    struct outlook outlook = outlook_of(&design);
    assert_answer(&outlook, "Free lift", true, "TOO HEAVY by 497 g");
    design.rig.basket_kg = 50;
    outlook = outlook_of(&design);
    assert_answer(&outlook, "Floats at", true, "no temperature");
    assert_answer(&outlook, "Fuel", true, "does not bring it up");
    design.rig.basket_kg = 0.2;
    design.air.inside_C = 10;
    outlook = outlook_of(&design);
    assert_answer(&outlook, "Lifts", true, "nothing: pulled down by 260 g");
    design.size.by = SIZE_LOAD;
    design.air.inside_C = 100;
    design.air.free_lift = 0;
    for (design.gores.count = 6; design.gores.count <= 32; design.gores.count++) {
        outlook = outlook_of(&design);
        assert_answer(&outlook, "Free lift", false, "0 g, 0 % of its weight");
    }
}

static void what_the_cloth_cannot_stand_is_too_hot(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.cloth.hottest_C = 80;
    struct outlook outlook = outlook_of(&design);
    assert_answer(&outlook, "Floats at", true, "4 C ABOVE its limit");
}

static void a_weak_burner_no_fuel_and_much_wind_are_marked(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.heat.burner_W = 5000;
    design.rig.fuel_kg = 0;
    design.wind.expected_m_s = 12;
    struct outlook outlook = outlook_of(&design);
    assert_answer(&outlook, "Burner", true, "TOO WEAK");
    assert_answer(&outlook, "Fuel", false, "none is carried");
    assert_true(about(&outlook, "Wind")->bad);
    design.wind.hold_N = 1;
    outlook = outlook_of(&design);
    assert_answer(&outlook, "Wind", true, "lift alone");
    design.rig.fuel_kg = 0.2;
    outlook = outlook_of(&design);
    assert_answer(&outlook, "Fuel", true, "the burner is TOO WEAK");
    design.air.ground_C = -50;
    outlook = outlook_of(&design);
    assert_answer(&outlook, "Fuel", true, "no gas leaves a cylinder this cold");
}

/* Either by itself may have to carry all of it. */
static void cloth_or_tapes_below_a_code_are_marked(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.cloth.strength_N_m = 100;
    struct outlook outlook = outlook_of(&design);
    assert_answer(&outlook, "Weakest", true, "cloth 2.8 times: crown, row 8; tapes 460");
    design.cloth.strength_N_m = 7000;
    design.tape.strength_N = 10;
    outlook = outlook_of(&design);
    assert_answer(&outlook, "Weakest", true, "tapes 3.6 times: crown, row 8; cloth 2");
}

static void without_lift_nothing_is_loaded(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.air.inside_C = 10;
    struct outlook outlook = outlook_of(&design);
    assert_answer(&outlook, "Weakest", false, "no load");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_starter_flies_and_every_question_has_its_line),
        cmocka_unit_test(in_inches_it_answers_in_pounds_and_fahrenheit),
        cmocka_unit_test(too_heavy_it_says_by_how_much),
        cmocka_unit_test(what_the_cloth_cannot_stand_is_too_hot),
        cmocka_unit_test(a_weak_burner_no_fuel_and_much_wind_are_marked),
        cmocka_unit_test(cloth_or_tapes_below_a_code_are_marked),
        cmocka_unit_test(without_lift_nothing_is_loaded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
