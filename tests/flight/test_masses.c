/* test_masses.c - what it weighs, item by item, and that the items add up. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "gorewright/flight.h"

#include "flight/rigging.h"

static struct envelope *built(const struct design *design) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(design, &messages);
    assert_non_null(envelope);
    diagnostics_free(&messages);
    return envelope;
}

static const struct mass_item *item_named(const struct masses *masses, const char *name) {
    for (size_t i = 0; i < masses->count; i++)
        if (strcmp(masses->item[i].name, name) == 0)
            return &masses->item[i];
    return NULL;
}

static double kg_of(const struct design *design, const char *name) {
    struct envelope *envelope = built(design);
    struct masses masses = masses_of(design, envelope);
    const struct mass_item *item = item_named(&masses, name);
    assert_non_null(item);
    double kg = item->kg;
    envelope_free(envelope);
    return kg;
}

static void each_part_is_weighed_from_its_geometry(void **state) {
    (void)state;
    struct design d;
    design_starter(&d);
    d.tape.mass_kg_m = 0.005;
    d.tape.turn_back_m = 0.2;
    struct envelope *e = built(&d);
    double gore_m = e->built.gore_length_m, area_m2 = e->built.cut_area_m2;
    envelope_free(e);
    assert_close(kg_of(&d, "cloth"), area_m2 * 0.0397, 0, 1e-12);
    assert_close(kg_of(&d, "load tapes"), 16 * (gore_m + 0.4) * 0.005, 0, 1e-12);
    /* The vent is 0.5 m wide and 15 % more. */
    assert_close(kg_of(&d, "crown and vent"), PI / 4 * 0.575 * 0.575 * 0.0397 + 0.05, 0, 1e-12);
    /* Sixteen chords of a circle 0.6 m across. */
    assert_close(kg_of(&d, "mouth band"), 16 * 0.6 * sin(PI / 16) * 0.005, 0, 1e-9);
    assert_close(kg_of(&d, "flying wires"), 16 * hypot(0.15, 0.6) * 0.004, 0, 1e-9);
}

/* Rows of stitches besides those of the seam in question: told apart by their difference. */
static void thread_goes_by_the_rows_of_stitches_in_each_seam(void **state) {
    (void)state;
    static const double rows[] = {[SEAM_PLAIN] = 1, [SEAM_LAPPED] = 2, [SEAM_FELLED] = 2};
    struct design plain, d;
    design_starter(&plain);
    plain.gores.style = HALF_GORE;
    plain.seams.tape = plain.seams.row = plain.seams.ridge = SEAM_PLAIN;
    struct envelope *e = built(&plain);
    struct built b = e->built;
    double kg_m = 2.5 * 40e-6, mouth_m = girth_m(e, 0), base_kg = kg_of(&plain, "thread");
    envelope_free(e);
    double all_m = b.tape_seam_m * 3 + b.row_seam_m + b.ridge_seam_m + b.mouth_hem_m +
                   b.crown_hem_m + 2 * mouth_m;
    assert_close(base_kg, all_m * kg_m, 0, 1e-12);
    for (int seam = SEAM_PLAIN; seam <= SEAM_FELLED; seam++) {
        double more = rows[seam] - 1;
        d = plain, d.seams.tape = seam;
        assert_close(kg_of(&d, "thread"), base_kg + more * b.tape_seam_m * kg_m, 0, 1e-12);
        d = plain, d.seams.row = seam;
        assert_close(kg_of(&d, "thread"), base_kg + more * b.row_seam_m * kg_m, 0, 1e-12);
        d = plain, d.seams.ridge = seam;
        assert_close(kg_of(&d, "thread"), base_kg + more * b.ridge_seam_m * kg_m, 0, 1e-12);
    }
    d = plain, d.thread.waste = 0.9;
    assert_close(kg_of(&d, "thread"), base_kg, 0, 0); /* waste does not fly */
}

static void a_wire_runs_from_the_mouth_to_the_frame(void **state) {
    (void)state;
    struct design d;
    design_starter(&d);
    struct envelope *e = built(&d);
    d.rigging.frame_diameter_m = 1.4; /* wider than the mouth: the wires spread */
    d.rigging.drop_m = 0.3;
    struct wire wire = wire_of(&d, e);
    assert_close(wire.length_m, 0.5, 0, 1e-12);
    assert_close(tan(wire.angle_rad), 4.0 / 3.0, 0, 1e-12);
    d.rigging.frame_diameter_m = 0.6;
    wire = wire_of(&d, e);
    assert_close(wire.length_m, 0.3, 0, 1e-12);
    assert_close(wire.angle_rad, 0, 1e-12, 0);
    envelope_free(e);
}

static void what_was_weighed_counts_instead_of_what_was_worked_out(void **state) {
    (void)state;
    struct design d;
    design_starter(&d);
    struct envelope *e = built(&d);
    struct masses paper = masses_of(&d, e);
    d.weighed.cloth_kg = 1.3;
    d.weighed.lines_kg = 0.07;
    struct masses part = masses_of(&d, e);
    const struct mass_item *cloth = item_named(&part, "cloth");
    assert_true(cloth->weighed && !cloth->carried);
    assert_close(cloth->kg, 1.3, 0, 0);
    assert_close(cloth->computed_kg, e->built.cloth_mass_kg, 0, 0);
    assert_false(item_named(&part, "thread")->weighed);
    assert_close(part.envelope_kg,
                 paper.envelope_kg + 1.3 - item_named(&paper, "cloth")->kg + 0.07 -
                     item_named(&paper, "flying wires")->kg,
                 1e-12, 0);
    d.weighed.envelope_kg = 1.9;
    struct masses whole = masses_of(&d, e);
    assert_null(item_named(&whole, "cloth"));
    assert_close(item_named(&whole, "envelope")->computed_kg, paper.envelope_kg, 1e-12, 0);
    assert_close(whole.envelope_kg, 1.9, 0, 0);
    assert_close(whole.all_kg, 1.9 + 1.3, 1e-12, 0);
    envelope_free(e);
}

static void the_rig_is_what_the_builder_says(void **state) {
    (void)state;
    struct design d;
    design_starter(&d);
    d.rig.others = (struct item_list){2, {{"camera", 0.12}, {"flag", 0.05}}};
    struct envelope *e = built(&d);
    struct masses masses = masses_of(&d, e);
    assert_close(masses.rig_kg, 1.3 + 0.17, 1e-12, 0);
    assert_true(item_named(&masses, "camera")->carried);
    assert_close(item_named(&masses, "flag")->kg, 0.05, 0, 0);
    d.rig.others.count = ITEMS_MOST;
    for (size_t i = 0; i < ITEMS_MOST; i++)
        d.rig.others.value[i].mass_kg = 1;
    masses = masses_of(&d, e);
    assert_true(masses.count <= MASS_ITEMS_MOST);
    assert_close(masses.rig_kg, 1.3 + ITEMS_MOST, 1e-12, 0);
    envelope_free(e);
}

static void random_masses(struct dice *dice, struct design *d) {
    d->cloth.mass_kg_m2 = dice_between(dice, 0.01, 0.2);
    d->tape.mass_kg_m = dice_between(dice, 0, 0.02);
    d->thread.tex = dice_between(dice, 5, 300);
    d->rig.burner_kg = dice_between(dice, 0, 2);
    d->rig.others.count = (size_t)dice_whole(dice, 0, ITEMS_MOST);
    for (size_t i = 0; i < d->rig.others.count; i++) {
        strcpy(d->rig.others.value[i].name, "thing");
        d->rig.others.value[i].mass_kg = dice_between(dice, 0, 0.003);
    }
    d->weighed.cloth_kg = dice_whole(dice, 0, 2) == 0 ? dice_between(dice, 0, 3) : 0;
    d->weighed.envelope_kg = dice_whole(dice, 0, 4) == 0 ? dice_between(dice, 0, 3) : 0;
}

static void every_mass_is_counted_once_and_the_sums_close(void **state) {
    (void)state;
    struct dice dice = {11};
    for (int i = 0; i < 60; i++) {
        struct design d;
        struct envelope *e = random_envelope(&dice, &d);
        random_masses(&dice, &d);
        struct masses masses = masses_of(&d, e);
        double envelope_kg = 0, rig_kg = 0;
        for (size_t j = 0; j < masses.count; j++) {
            const struct mass_item *item = &masses.item[j];
            assert_true(item->kg >= 0 && isfinite(item->kg) && isfinite(item->computed_kg));
            assert_true(item->weighed || fabs(item->kg - item->computed_kg) <= 0);
            *(item->carried ? &rig_kg : &envelope_kg) += item->kg;
        }
        assert_int_equal(masses.count, (d.weighed.envelope_kg > 0 ? 6u : 11u) + d.rig.others.count);
        assert_close(masses.envelope_kg, envelope_kg, 0, 1e-12);
        assert_close(masses.rig_kg, rig_kg, 1e-15, 1e-12);
        assert_close(masses.all_kg, envelope_kg + rig_kg, 0, 1e-12);
        envelope_free(e);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_part_is_weighed_from_its_geometry),
        cmocka_unit_test(thread_goes_by_the_rows_of_stitches_in_each_seam),
        cmocka_unit_test(a_wire_runs_from_the_mouth_to_the_frame),
        cmocka_unit_test(what_was_weighed_counts_instead_of_what_was_worked_out),
        cmocka_unit_test(the_rig_is_what_the_builder_says),
        cmocka_unit_test(every_mass_is_counted_once_and_the_sums_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
