/* Factors of safety against the published rules for manned balloons: guidance only. */
#include <math.h>
#include <string.h>

#include "support.h"

#include "gorewright/flight.h"

static const struct safety_code *code_named(const char *name) {
    size_t count;
    const struct safety_code *code = safety_codes(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(code[i].name, name) == 0)
            return &code[i];
    fail_msg("no code %s", name);
    return NULL;
}

/* 14 CFR 31.23: limit load factor 1.4.  31.25: envelope 5 (from memory), may fall to 2 under
 * conditions, fibrous or non-metallic rigging 5 (both read there). */
static void the_american_rule_is_as_published(void **state) {
    (void)state;
    const struct safety_code *code = code_named("14 CFR part 31");
    assert_string_equal(code->limit_clause, "31.23");
    assert_string_equal(code->clause, "31.25");
    assert_close(code->limit_load, 1.4, 0, 0);
    assert_close(code->envelope, 5, 0, 0);
    assert_true(code->envelope_recalled);
    assert_close(code->envelope_eased, 2, 0, 0);
    assert_close(code->wires, 5, 0, 0);
    assert_true(code->metal_wires <= 0);
}

/* EASA CS-31HB.25: envelope, cloth and load tapes, 5; fibrous suspension 2.25; metallic 1.5. */
static void the_european_rule_is_as_published(void **state) {
    (void)state;
    const struct safety_code *code = code_named("EASA CS-31HB");
    assert_non_null(strstr(code->clause, "31HB.25"));
    assert_close(code->envelope, 5, 0, 0);
    assert_true(!code->envelope_recalled);
    assert_close(code->wires, 2.25, 0, 0);
    assert_close(code->metal_wires, 1.5, 0, 0);
    assert_true(code->limit_load <= 0 && code->envelope_eased <= 0);
}

/* What the factors are compared with: breaking strength over load, a seam weaker than cloth. */
static void a_factor_is_breaking_strength_over_load(void **state) {
    (void)state;
    struct design design;
    struct diagnostics messages = {0};
    design_starter(&design);
    struct envelope *envelope = envelope_build(&design, &messages);
    assert_non_null(envelope);
    struct masses masses = masses_of(&design, envelope);
    struct lift lift = lift_of(&design, envelope, &masses);
    struct loads whole = loads_of(&design, envelope, &lift);
    design.cloth.seam_efficiency /= 2;
    design.tape.strength_N *= 3;
    struct loads changed = loads_of(&design, envelope, &lift);
    for (size_t j = 0; j <= envelope->rows; j++) {
        assert_close(changed.station[j].cloth_factor, whole.station[j].cloth_factor / 2, 0, 1e-12);
        assert_close(changed.station[j].tape_factor, whole.station[j].tape_factor * 3, 0, 1e-12);
    }
    diagnostics_free(&messages);
    envelope_free(envelope);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_american_rule_is_as_published),
        cmocka_unit_test(the_european_rule_is_as_published),
        cmocka_unit_test(a_factor_is_breaking_strength_over_load),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
