/* test_session.c - a design being worked on: undo, comparison, what cannot be built. */
#include <math.h>

#include "screen/with_session.h"

/* ---- changes, undo, comparison ----------------------------------------- */

static void a_new_session_is_the_starter_with_nothing_to_lose(void **state) {
    (void)state;
    struct session *session = session_new();
    struct design starter;
    design_starter(&starter);
    assert_true(design_same(&session->design, &starter));
    assert_envelope_is_of_design(session);
    assert_false(session->changed);
    assert_null(session->path);
    assert_null(session_before(session));
    assert_int_equal(session_templates_before(session), 0);
    assert_int_equal(session->messages.count, 0);
    assert_false(session_undo(session));
    assert_false(session_redo(session));
    session_free(session);
    session_free(NULL);
}

static void a_change_is_built_and_compared_with_before(void **state) {
    (void)state;
    struct session *session = session_new();
    double volume = session->envelope->built.volume_m3;
    size_t templates = session->envelope->templates;
    assert_int_equal(change(session, "size.volume", "14", false), 0);
    assert_envelope_is_of_design(session);
    assert_true(session->changed);
    assert_close(session->envelope->built.volume_m3, 14, 0, 1e-6);
    assert_close(session_before(session)->volume_m3, volume, 0, 0);
    assert_int_equal(change(session, "gores.style", "half-gore", false), 0);
    assert_close(session_before(session)->volume_m3, 14, 0, 1e-6);
    assert_int_equal(session_templates_before(session), templates);
    assert_int_equal(session->envelope->templates, 2 * templates);
    assert_true(session_undo(session)); /* is a change too */
    assert_int_equal(session_templates_before(session), 2 * templates);
    session_free(session);
}

/* What does not change the cloth does not cost the time of building it. */
static void an_envelope_stays_while_only_paper_rig_or_pace_change(void **state) {
    (void)state;
    struct session *session = session_new();
    const struct envelope *envelope = session->envelope;
    assert_int_equal(change(session, "paper.sheet", "A3", false), 0);
    assert_int_equal(change(session, "paper.units", "inch", false), 0);
    assert_int_equal(change(session, "name", "Other", false), 0);
    assert_int_equal(change(session, "pace.piece", "8", false), 0);
    assert_int_equal(change(session, "rig.basket", "300 g", false), 0);
    assert_ptr_equal(session->envelope, envelope);
    assert_true(design_same(&session->design, &session->sized));
    assert_true(session_undo(session));
    assert_ptr_equal(session->envelope, envelope);
    assert_close(session_mass_before_kg(session), session->masses.envelope_kg, 0, 0);
    assert_int_equal(change(session, "cloth.mass", "45", false), 0);
    assert_envelope_is_of_design(session);
    assert_true(session_mass_before_kg(session) < session->masses.envelope_kg);
    session_free(session);
}

static void an_envelope_for_a_load_grows_with_it_and_stays_for_paper(void **state) {
    (void)state;
    struct session *session = session_new();
    assert_int_equal(change(session, "size.by", "load", false), 0);
    const struct envelope *envelope = session->envelope;
    double volume_m3 = envelope->built.volume_m3;
    assert_close(session->sized.size.volume_m3, volume_m3, 0, 1e-6);
    assert_int_equal(change(session, "paper.sheet", "A3", false), 0);
    assert_ptr_equal(session->envelope, envelope);
    assert_int_equal(session->sized.size.by, SIZE_VOLUME);
    assert_close(session->sized.size.volume_m3, volume_m3, 0, 1e-6);
    assert_string_equal(session->sized.paper.sheet, "A3");
    assert_int_equal(change(session, "rig.basket", "1 kg", false), 0);
    assert_true(session->envelope->built.volume_m3 > 1.2 * volume_m3);
    session_free(session);
}

static void a_change_to_the_same_is_none(void **state) {
    (void)state;
    struct session *session = session_new();
    assert_int_equal(change(session, "size.volume", "12", false), 0);
    assert_false(session->changed);
    assert_int_equal(session_undo_count(session), 0);
    assert_null(session_before(session));
    session_free(session);
}

static void undo_and_redo_go_through_every_state(void **state) {
    (void)state;
    enum { STEPS = 60 };
    static struct design states[STEPS + 1];
    struct session *session = session_new();
    struct dice dice = {3};
    size_t count;
    parameters(&count);
    states[0] = session->design;
    for (size_t made = 0; made < STEPS;) {
        struct design design = session->design;
        parameter_step(&design, (size_t)dice_whole(&dice, 0, (int)count - 1),
                       dice_whole(&dice, 0, 1) == 0 ? -1 : 1);
        if (design_same(&design, &session->design))
            continue;
        session_change(session, &design, true);
        states[++made] = session->design;
    }
    assert_int_equal(session_undo_count(session), STEPS);
    for (size_t i = STEPS; i-- > 0;) {
        assert_true(session_undo(session));
        assert_memory_equal(&session->design, &states[i], sizeof states[i]);
    }
    assert_false(session_undo(session));
    assert_false(session->changed);
    assert_envelope_is_of_design(session);
    for (size_t i = 1; i <= STEPS; i++) {
        assert_true(session_redo(session));
        assert_memory_equal(&session->design, &states[i], sizeof states[i]);
    }
    assert_false(session_redo(session));
    session_free(session);
}

static void a_change_after_an_undo_forgets_what_was_taken_back(void **state) {
    (void)state;
    struct session *session = session_new();
    change(session, "size.volume", "13", false);
    change(session, "size.volume", "14", false);
    assert_true(session_undo(session));
    assert_int_equal(session_redo_count(session), 1);
    change(session, "size.volume", "15", false);
    assert_int_equal(session_redo_count(session), 0);
    assert_true(session_undo(session));
    assert_close(session->design.size.volume_m3, 13, 0, 0);
    assert_true(session_undo(session));
    assert_close(session->design.size.volume_m3, 12, 0, 0);
    session_free(session);
}

static void long_lists_and_texts_are_undone_to_the_bit(void **state) {
    (void)state;
    struct session *session = session_new();
    struct design before = session->design, after = before;
    memset(after.name, 'n', 30);
    after.outline.kind = OUTLINE_TABLE;
    after.size.by = SIZE_TABLE;
    after.outline.table.count = TABLE_MOST;
    for (size_t i = 0; i < TABLE_MOST; i++) {
        double part = (double)i / (TABLE_MOST - 1);
        after.outline.table.value[i].z_m = 3 * part;
        after.outline.table.value[i].r_m = 0.3 + sin(PI * part);
    }
    assert_int_equal(session_change(session, &after, false), 0);
    assert_true(session_undo(session));
    assert_memory_equal(&session->design, &before, sizeof before);
    assert_true(session_redo(session));
    assert_memory_equal(&session->design, &after, sizeof after);
    session_free(session);
}

/* ---- designs with errors ----------------------------------------------- */

static void a_broken_change_is_refused_and_nothing_moves(void **state) {
    (void)state;
    struct session *session = session_new();
    struct design before = session->design;
    assert_int_equal(change(session, "gores.mix", "fbbbb", false), -1);
    assert_memory_equal(&session->design, &before, sizeof before);
    assert_envelope_is_of_design(session);
    assert_int_equal(session->messages.count, 0);
    assert_int_equal(session->refused.errors, 1);
    assert_string_equal(session->refused.item[0].key, "gores.mix");
    assert_int_equal(session_undo_count(session), 0);
    assert_false(session->changed);
    assert_int_equal(change(session, "gores.mix", "fb", false), 0);
    assert_int_equal(session->refused.count, 0);
    session_free(session);
}

static void a_broken_change_can_be_kept_beside_the_last_good_envelope(void **state) {
    (void)state;
    struct session *session = session_new();
    assert_int_equal(change(session, "gores.mix", "fbbbb", true), -1);
    assert_int_equal(session->design.gores.mix.count, 5);
    assert_true(session->stale);
    assert_non_null(session->envelope);
    assert_close(session->envelope->built.volume_m3, 12, 0, 1e-6);
    assert_int_equal(session->messages.errors, 1);
    assert_string_equal(session->messages.item[0].key, "gores.mix");
    assert_int_equal(change(session, "gores.count", "15", false), 0); /* mended */
    assert_envelope_is_of_design(session);
    assert_int_equal(session->messages.errors, 0);
    assert_true(session_undo(session)); /* back to the broken one */
    assert_true(session->stale);
    assert_true(session_undo(session));
    assert_envelope_is_of_design(session);
    session_free(session);
}

static void what_cannot_be_built_or_printed_is_broken_too(void **state) {
    (void)state;
    struct session *session = session_new();
    assert_int_equal(change(session, "cloth.width", "0.2", true), -1);
    assert_true(session->stale);
    assert_true(session->messages.errors > 0);
    assert_true(session_undo(session));
    assert_int_equal(change(session, "paper.sheet", "napkin", false), -1);
    assert_string_equal(session->refused.item[0].key, "paper.sheet");
    assert_int_equal(change(session, "paper.sheet", "napkin", true), -1);
    assert_envelope_is_of_design(session); /* it can be built, though not printed */
    assert_string_equal(session->messages.item[0].key, "paper.sheet");
    session_free(session);
}

static void a_file_whose_values_contradict_each_other_is_opened_to_be_mended(void **state) {
    (void)state;
    struct session *session = opened(
        scratch_file("mend.cfg", "format = 1;\nsize: { volume = 12; };\ngores: { count = 15;\n"
                                 "mix = (\"faceted\", \"billowed\"); };\n"));
    assert_null(session->envelope);
    assert_true(session->stale);
    assert_int_equal(session->messages.errors, 1);
    assert_string_equal(session->messages.item[0].key, "gores.mix");
    assert_int_equal(session->messages.item[0].line, 4);
    assert_false(session->changed);
    assert_int_equal(change(session, "gores.count", "16", false), 0);
    assert_envelope_is_of_design(session);
    assert_null(session_before(session));
    session_free(session);
}

static void what_cannot_be_built_is_shown_where_the_file_says_it(void **state) {
    (void)state;
    struct session *session = opened(scratch_file(
        "narrow.cfg", "format = 1;\nsize: { volume = 12; };\nrows: {\n  count = 1; };\n"
                      "cloth: {\n  width = 0.2; };\n"));
    assert_true(session->stale);
    assert_null(session->envelope);
    assert_true(session->messages.errors > 0);
    for (size_t i = 0; i < session->messages.count; i++) {
        bool rows = strcmp(session->messages.item[i].key, "rows.count") == 0;
        assert_int_equal(session->messages.item[i].line, rows ? 4 : 6);
        assert_string_equal(session->messages.item[i].file, path_of("narrow.cfg"));
    }
    session_free(session);
}

static void a_file_that_is_no_design_is_not_opened(void **state) {
    (void)state;
    static const struct {
        const char *content, *code;
    } cases[] = {
        {"format = 1; size: { volum = 12; };", "unknown-key"},
        {"format = 1; size: { volume = 12; ", "syntax"},
        {"format = 2;", "range"},
        {"name = \"x\";", "format"},
        {"format = 1; size: { volume = \"big\"; };", "type"},
        {"format = 1; size: { volume = 12; height = 3; };", "sizes"},
        {"format = 1; size: { volum = 12; };\ngores: { count = 2; };", "unknown-key"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct diagnostics messages = {0};
        assert_null(session_open(scratch_file("bad.cfg", cases[i].content), &messages));
        assert_string_equal(messages.item[0].code, cases[i].code);
        assert_non_null(messages.item[0].file);
        assert_false(there("bad.cfg.lock"));
        diagnostics_free(&messages);
    }
    struct diagnostics messages = {0};
    assert_null(session_open(path_of("missing.cfg"), &messages));
    assert_int_equal(messages.errors, 1);
    assert_false(there("missing.cfg.lock"));
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_new_session_is_the_starter_with_nothing_to_lose),
        cmocka_unit_test(a_change_is_built_and_compared_with_before),
        cmocka_unit_test(an_envelope_stays_while_only_paper_rig_or_pace_change),
        cmocka_unit_test(an_envelope_for_a_load_grows_with_it_and_stays_for_paper),
        cmocka_unit_test(a_change_to_the_same_is_none),
        cmocka_unit_test(undo_and_redo_go_through_every_state),
        cmocka_unit_test(a_change_after_an_undo_forgets_what_was_taken_back),
        cmocka_unit_test(long_lists_and_texts_are_undone_to_the_bit),
        cmocka_unit_test(a_broken_change_is_refused_and_nothing_moves),
        cmocka_unit_test(a_broken_change_can_be_kept_beside_the_last_good_envelope),
        cmocka_unit_test(what_cannot_be_built_or_printed_is_broken_too),
        cmocka_unit_test(a_file_whose_values_contradict_each_other_is_opened_to_be_mended),
        cmocka_unit_test(what_cannot_be_built_is_shown_where_the_file_says_it),
        cmocka_unit_test(a_file_that_is_no_design_is_not_opened),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
