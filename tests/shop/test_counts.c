/* test_counts.c - single pieces counted, found one after the other, and those that no longer fit.
 */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/shop.h"

struct bench_of {
    const char *path;
    struct design design;
    struct envelope *envelope;
    struct record *record;
    struct diagnostics messages;
};

static void rebuild(struct bench_of *at) {
    struct diagnostics messages = {0};
    envelope_free(at->envelope);
    at->envelope = envelope_build(&at->design, &messages);
    assert_non_null(at->envelope);
    diagnostics_free(&messages);
}

static void reopen(struct bench_of *at) {
    record_close(at->record);
    at->record = record_open(at->path, &at->design, &at->messages);
    assert_non_null(at->record);
}

/* Three styles side by side, so that no template is in every gore. */
static void begin(struct bench_of *at) {
    static int number;
    static const int mix[] = {FACETED, HALF_GORE, FACETED, BILLOWED};
    char name[32];
    *at = (struct bench_of){0};
    snprintf(name, sizeof name, "design-%d.cfg", ++number);
    at->path = scratch_file(name, "format = 1;\n");
    design_starter(&at->design);
    at->design.gores.mix.count = COUNT_OF(mix);
    memcpy(at->design.gores.mix.value, mix, sizeof mix);
    rebuild(at);
    reopen(at);
}

static void end(struct bench_of *at) {
    record_close(at->record);
    envelope_free(at->envelope);
    diagnostics_free(&at->messages);
}

static size_t template_named(const struct bench_of *at, const char *name) {
    for (size_t t = 0; t < at->envelope->templates; t++)
        if (strcmp(at->envelope->piece[t].name, name) == 0)
            return t;
    fail_msg("no piece %s", name);
    return 0;
}

static void tick(struct bench_of *at, const char *name, size_t gore, enum tick which, bool on) {
    const struct piece *piece = &at->envelope->piece[template_named(at, name)];
    assert_true(record_set(at->record, piece, gore, which, on, &at->messages));
}

/* ---- counts ----------------------------------------------------------------------- */

static void a_piece_is_in_the_gores_of_its_style(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    size_t total = 0;
    for (size_t t = 0; t < at.envelope->templates; t++) {
        size_t in = 0;
        for (size_t gore = 0; gore <= at.envelope->gores + 1; gore++)
            in += piece_stands_in(at.envelope, &at.envelope->piece[t], gore - 1);
        assert_int_equal(in, at.envelope->piece[t].count);
        total += in;
    }
    assert_int_equal(total, at.envelope->built.pieces);
    end(&at);
}

static void counts_are_those_of_template_gore_and_colour(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    tick(&at, "F03", 1, TICK_MARKED, true);
    tick(&at, "F03", 3, TICK_CUT, true);
    tick(&at, "H03L", 2, TICK_SEWN, true);
    const struct {
        struct record_choice choice;
        size_t pieces, done[TICK_COUNT];
    } want[] = {
        {{NULL, 0, NULL}, 160, {3, 2, 1}},    {{"F03", 0, NULL}, 8, {2, 1, 0}},
        {{"H03L", 0, NULL}, 4, {1, 1, 1}},    {{NULL, 2, NULL}, 16, {1, 1, 1}},
        {{NULL, 3, NULL}, 8, {1, 1, 0}},      {{"F03", 2, NULL}, 0, {0, 0, 0}},
        {{NULL, 0, "white"}, 160, {3, 2, 1}}, {{NULL, 0, "black"}, 0, {0, 0, 0}},
    };
    for (size_t i = 0; i < COUNT_OF(want); i++) {
        struct record_count count =
            record_count(at.record, &at.design, at.envelope, want[i].choice);
        assert_int_equal(count.pieces, want[i].pieces);
        for (enum tick which = TICK_MARKED; which < TICK_COUNT; which++) {
            assert_int_equal(count.done[which], want[i].done[which]);
            assert_int_equal(record_left(count, which), want[i].pieces - want[i].done[which]);
        }
    }
    struct record_count none =
        record_count(NULL, &at.design, at.envelope, (struct record_choice){NULL, 0, NULL});
    assert_int_equal(none.pieces, 160);
    assert_int_equal(none.done[TICK_MARKED], 0);
    end(&at);
}

static void ticks_of_pieces_the_design_no_longer_has_are_not_counted_but_kept(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    tick(&at, "F08", 1, TICK_MARKED, true);
    at.design.rows.count = 7;
    rebuild(&at);
    struct record_choice all = {NULL, 0, NULL};
    assert_int_equal(record_count(at.record, &at.design, at.envelope, all).done[TICK_MARKED], 0);
    tick(&at, "F07", 1, TICK_MARKED, true);
    reopen(&at);
    at.design.rows.count = 8;
    rebuild(&at);
    assert_int_equal(record_count(at.record, &at.design, at.envelope, all).done[TICK_MARKED], 2);
    end(&at);
}

/* ---- one after the other ------------------------------------------------------------ */

static void steps_visit_every_single_piece_once_and_back_again(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    struct single_piece first = {0, 1}, now = first;
    bool seen[80][GORES_MOST + 1] = {{false}};
    size_t visited = 0;
    do {
        assert_true(piece_stands_in(at.envelope, &at.envelope->piece[now.piece], now.gore - 1));
        assert_false(seen[now.piece][now.gore]);
        seen[now.piece][now.gore] = true;
        visited++;
        struct single_piece next = single_piece_step(at.envelope, now, 1);
        struct single_piece before = single_piece_step(at.envelope, next, -1);
        assert_true(before.piece == now.piece && before.gore == now.gore);
        now = next;
    } while (now.piece != first.piece || now.gore != first.gore);
    assert_int_equal(visited, at.envelope->built.pieces);
    end(&at);
}

static void the_next_to_mark_goes_by_template_and_the_next_to_sew_by_gore(void **state) {
    (void)state;
    struct bench_of at;
    struct single_piece next, from = {0, 1};
    begin(&at);
    tick(&at, "F01", 1, TICK_SEWN, true);
    assert_true(record_next(at.record, at.envelope, TICK_MARKED, from, &next));
    assert_int_equal(next.piece, template_named(&at, "F01"));
    assert_int_equal(next.gore, 3);
    assert_true(record_next(at.record, at.envelope, TICK_SEWN, from, &next));
    assert_int_equal(next.piece, template_named(&at, "F02"));
    assert_int_equal(next.gore, 1);
    end(&at);
}

static void the_next_is_found_around_the_end_until_none_is_left(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    struct single_piece next = {0, 1}, from = {at.envelope->templates - 1, 16};
    size_t marked = 0;
    for (; record_next(at.record, at.envelope, TICK_MARKED, from, &next); marked++) {
        assert_true(marked < at.envelope->built.pieces);
        assert_true(record_set(at.record, &at.envelope->piece[next.piece], next.gore, TICK_MARKED,
                               true, &at.messages));
        from = next;
    }
    assert_int_equal(marked, at.envelope->built.pieces);
    end(&at);
}

/* ---- misfits --------------------------------------------------------------------------- */

static struct misfits misfits_of(const struct bench_of *at, double allowed_m) {
    struct misfits misfits = {0};
    record_misfits(at->record, at->envelope, allowed_m, &misfits);
    assert_false(misfits.failed);
    return misfits;
}

static size_t misfit_pieces(const struct bench_of *at, double allowed_m) {
    struct misfits misfits = misfits_of(at, allowed_m);
    size_t pieces = misfits.pieces;
    misfits_free(&misfits);
    return pieces;
}

static void an_unchanged_design_has_no_misfits(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    tick(&at, "F03", 1, TICK_CUT, true);
    tick(&at, "B05", 4, TICK_SEWN, true);
    tick(&at, "H02R", 2, TICK_CUT, true);
    assert_int_equal(misfit_pieces(&at, 1e-7), 0);
    reopen(&at);
    assert_int_equal(misfit_pieces(&at, 1e-7), 0);
    end(&at);
}

/* Exactly the pieces cut, exactly the edges that moved, by exactly how much. */
static void a_wider_row_seam_shows_on_the_row_seams_of_what_is_cut_only(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    tick(&at, "F03", 1, TICK_CUT, true);
    tick(&at, "F03", 3, TICK_SEWN, true);
    tick(&at, "F04", 3, TICK_MARKED, true);
    tick(&at, "F01", 5, TICK_CUT, true); /* only its top is a row seam */
    at.design.seams.row_width_m = 0.012;
    rebuild(&at);
    static const struct {
        const char *piece;
        size_t gore;
        const char *measure;
    } want[] = {
        {"F01", 5, "top allowance"},    {"F03", 1, "bottom allowance"}, {"F03", 1, "top allowance"},
        {"F03", 3, "bottom allowance"}, {"F03", 3, "top allowance"},
    };
    for (int opened_again = 0; opened_again < 2; opened_again++) {
        struct misfits misfits = misfits_of(&at, 0.25e-3);
        assert_int_equal(misfits.count, COUNT_OF(want));
        assert_int_equal(misfits.pieces, 3);
        for (size_t i = 0; i < COUNT_OF(want); i++) {
            assert_string_equal(misfits.item[i].piece, want[i].piece);
            assert_int_equal(misfits.item[i].gore, want[i].gore);
            assert_string_equal(measure_name(misfits.item[i].measure), want[i].measure);
            assert_close(misfits.item[i].was_m, 0.010, 1e-7, 0);
            assert_close(misfits.item[i].is_m, 0.012, 1e-7, 0);
        }
        misfits_free(&misfits);
        reopen(&at);
    }
    at.design.seams.row_width_m = 0.010;
    rebuild(&at);
    assert_int_equal(misfit_pieces(&at, 1e-7), 0);
    end(&at);
}

static double measured(const struct piece *piece, enum measure measure) {
    if (measure < MEASURE_ALLOWANCE)
        return piece->length_m[measure - MEASURE_LENGTH];
    if (measure < MEASURE_RISING)
        return piece->allowance_m[measure - MEASURE_ALLOWANCE];
    if (measure == MEASURE_RISING)
        return piece->diagonal_rising_m;
    if (measure == MEASURE_FALLING)
        return piece->diagonal_falling_m;
    enum edge e = measure == MEASURE_BOTTOM_DEPTH ? EDGE_BOTTOM : EDGE_TOP;
    return piece->curved[e] ? piece_offset_m(piece, e, piece_chord_m(piece, e) / 2) : 0;
}

static void any_change_shows_every_measure_that_moved_and_no_other(void **state) {
    (void)state;
    static const double allowed_m = 0.25e-3;
    struct dice dice = {3};
    size_t moved = 0;
    for (int round = 0; round < 12; round++) {
        struct bench_of at;
        begin(&at);
        for (size_t t = 0; t < at.envelope->templates; t++)
            for (size_t gore = 1; gore <= 4; gore++)
                if (piece_stands_in(at.envelope, &at.envelope->piece[t], gore - 1))
                    tick(&at, at.envelope->piece[t].name, gore, TICK_CUT, true);
        struct envelope *before = at.envelope;
        at.envelope = NULL;
        at.design.size.volume_m3 *= dice_between(&dice, 0.995, 1.005);
        at.design.bulge.depth *= dice_whole(&dice, 0, 1) ? 1 : dice_between(&dice, 0.97, 1.03);
        rebuild(&at);
        struct misfits misfits = misfits_of(&at, allowed_m);
        size_t found = 0;
        for (size_t i = 0; i < misfits.count; i++) {
            const struct misfit *misfit = &misfits.item[i];
            size_t t = template_named(&at, misfit->piece);
            assert_close(misfit->was_m, measured(&before->piece[t], misfit->measure), 1e-7, 0);
            assert_close(misfit->is_m, measured(&at.envelope->piece[t], misfit->measure), 1e-7, 0);
            assert_true(fabs(misfit->is_m - misfit->was_m) > allowed_m);
        }
        for (size_t t = 0; t < before->templates; t++)
            for (int m = 0; m < MEASURE_COUNT; m++) {
                double change = measured(&at.envelope->piece[t], (enum measure)m) -
                                measured(&before->piece[t], (enum measure)m);
                if (fabs(change) > allowed_m + 1e-7)
                    found += before->piece[t].count / 4;
            }
        assert_in_range(misfits.count, found, found + 4); /* those within the notes' last digit */
        moved += found;
        misfits_free(&misfits);
        envelope_free(before);
        end(&at);
    }
    assert_true(moved > 100);
}

static void pieces_the_design_no_longer_has_are_misfits_as_a_whole(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    tick(&at, "F08", 1, TICK_CUT, true);  /* its row goes */
    tick(&at, "H01L", 2, TICK_CUT, true); /* its gore changes style */
    tick(&at, "F08", 3, TICK_MARKED, true);
    at.design.rows.count = 7;
    at.design.gores.mix.value[1] = BILLOWED;
    rebuild(&at);
    struct misfits misfits = misfits_of(&at, 0.25e-3);
    assert_int_equal(misfits.count, 2);
    assert_int_equal(misfits.pieces, 2);
    assert_string_equal(misfits.item[0].piece, "F08");
    assert_string_equal(misfits.item[1].piece, "H01L");
    assert_int_equal(misfits.item[0].measure, MEASURE_NONE);
    assert_int_equal(misfits.item[1].measure, MEASURE_NONE);
    misfits_free(&misfits);
    end(&at);
}

static void a_piece_cut_anew_fits_the_new_design(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    tick(&at, "F03", 1, TICK_CUT, true);
    tick(&at, "F03", 3, TICK_CUT, true);
    at.design.seams.row_width_m = 0.012;
    rebuild(&at);
    assert_int_equal(misfit_pieces(&at, 0.25e-3), 2);
    tick(&at, "F03", 1, TICK_CUT, false);
    assert_int_equal(misfit_pieces(&at, 0.25e-3), 1);
    tick(&at, "F03", 1, TICK_CUT, true);
    assert_int_equal(misfit_pieces(&at, 0.25e-3), 1);
    reopen(&at);
    assert_int_equal(misfit_pieces(&at, 0.25e-3), 1);
    at.design.seams.row_width_m = 0.010; /* now the other way round */
    rebuild(&at);
    struct misfits misfits = misfits_of(&at, 0.25e-3);
    assert_int_equal(misfits.pieces, 1);
    assert_int_equal(misfits.item[0].gore, 1);
    misfits_free(&misfits);
    end(&at);
}

/* Unticked by mistake and undone, it is still the piece that was cut back then. */
static void a_tick_restored_keeps_the_dimensions_of_its_first_cut(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    tick(&at, "F03", 1, TICK_SEWN, true);
    at.design.seams.row_width_m = 0.012;
    rebuild(&at);
    tick(&at, "F03", 3, TICK_CUT, true); /* the latest of that name has the new dimensions */
    struct piece_state before = record_state(at.record, "F03", 1);
    assert_int_equal(before.progress, 3);
    tick(&at, "F03", 1, TICK_CUT, false);
    assert_true(record_restore(at.record, "F03", 1, before, &at.messages));
    assert_int_equal(record_progress(at.record, "F03", 1), 3);
    for (int opened_again = 0; opened_again < 2; opened_again++) {
        assert_int_equal(misfit_pieces(&at, 0.25e-3), 1);
        reopen(&at);
    }
    assert_int_equal(record_progress(at.record, "F03", 1), 3);
    end(&at);
}

/* Spoilt, the design changed, cut anew, and all of it undone: it is the first cut again. */
static void undo_of_a_cut_made_anew_knows_the_dimensions_of_the_cut_before(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    tick(&at, "F03", 1, TICK_CUT, true);
    struct piece_state first = record_state(at.record, "F03", 1);
    tick(&at, "F03", 1, TICK_CUT, false);
    struct piece_state spoilt = record_state(at.record, "F03", 1);
    at.design.seams.row_width_m = 0.012;
    rebuild(&at);
    tick(&at, "F03", 1, TICK_CUT, true);
    assert_int_equal(misfit_pieces(&at, 0.25e-3), 0);
    assert_true(record_restore(at.record, "F03", 1, spoilt, &at.messages));
    assert_int_equal(misfit_pieces(&at, 0.25e-3), 0);
    assert_true(record_restore(at.record, "F03", 1, first, &at.messages));
    for (int opened_again = 0; opened_again < 2; opened_again++) {
        assert_int_equal(record_progress(at.record, "F03", 1), 2);
        assert_int_equal(misfit_pieces(&at, 0.25e-3), 1);
        reopen(&at);
    }
    tick(&at, "F03", 3, TICK_CUT, true); /* of the new dimensions, not of those just noted */
    assert_int_equal(misfit_pieces(&at, 0.25e-3), 1);
    end(&at);
}

enum { WIDTHS = 3, UNDONE = 300 };

static void misfits_by_width(struct bench_of *at, size_t found[WIDTHS]) {
    for (int i = 0; i < WIDTHS; i++) {
        at->design.seams.row_width_m = 0.010 + 0.001 * i;
        rebuild(at);
        found[i] = misfit_pieces(at, 0.25e-3);
    }
}

/* Whatever was ticked while the design changed, undoing it all tells the same at each step. */
static void undo_restores_what_the_record_knew_before_at_every_step(void **state) {
    (void)state;
    static struct {
        struct piece_state before;
        size_t gore, misfits[WIDTHS];
    } made[UNDONE];
    struct bench_of at;
    struct dice dice = {31};
    begin(&at);
    for (int i = 0; i < UNDONE; i++) {
        size_t gore = made[i].gore = (size_t)(2 * dice_whole(&dice, 0, 2) + 1);
        enum tick which = (enum tick)dice_whole(&dice, TICK_MARKED, TICK_SEWN);
        made[i].before = record_state(at.record, "F03", gore);
        misfits_by_width(&at, made[i].misfits);
        at.design.seams.row_width_m = 0.010 + 0.001 * dice_whole(&dice, 0, WIDTHS - 1);
        rebuild(&at);
        tick(&at, "F03", gore, which, !record_has(at.record, "F03", gore, which));
    }
    for (int i = UNDONE - 1; i >= 0; i--) {
        size_t misfits[WIDTHS];
        assert_true(record_restore(at.record, "F03", made[i].gore, made[i].before, &at.messages));
        assert_int_equal(record_progress(at.record, "F03", made[i].gore), made[i].before.progress);
        misfits_by_width(&at, misfits);
        assert_memory_equal(misfits, made[i].misfits, sizeof misfits);
    }
    end(&at);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_piece_is_in_the_gores_of_its_style),
        cmocka_unit_test(counts_are_those_of_template_gore_and_colour),
        cmocka_unit_test(ticks_of_pieces_the_design_no_longer_has_are_not_counted_but_kept),
        cmocka_unit_test(steps_visit_every_single_piece_once_and_back_again),
        cmocka_unit_test(the_next_to_mark_goes_by_template_and_the_next_to_sew_by_gore),
        cmocka_unit_test(the_next_is_found_around_the_end_until_none_is_left),
        cmocka_unit_test(an_unchanged_design_has_no_misfits),
        cmocka_unit_test(a_wider_row_seam_shows_on_the_row_seams_of_what_is_cut_only),
        cmocka_unit_test(any_change_shows_every_measure_that_moved_and_no_other),
        cmocka_unit_test(pieces_the_design_no_longer_has_are_misfits_as_a_whole),
        cmocka_unit_test(a_piece_cut_anew_fits_the_new_design),
        cmocka_unit_test(a_tick_restored_keeps_the_dimensions_of_its_first_cut),
        cmocka_unit_test(undo_of_a_cut_made_anew_knows_the_dimensions_of_the_cut_before),
        cmocka_unit_test(undo_restores_what_the_record_knew_before_at_every_step),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
