/* Membranes with an answer in closed form, and published strengths of cloth, tape, thread. */
#include <math.h>
#include <string.h>

#include "support.h"

#include "flight/membrane.h"
#include "gorewright/flight.h"
#include "paper/quantities.h"

/* ---- membranes ------------------------------------------------------------------ */

/* Long flat strip held along both edges.  Timoshenko and Woinowsky-Krieger, Theory of Plates
 * and Shells, ch. 1; structural design manuals.  Width 0.5 m, E h 50 kN/m, 20 Pa, Poisson's
 * ratio 0; figures computed independently, no printed source. */
static void a_long_strip_is_pulled_as_a_shallow_arc(void **state) {
    (void)state;
    double tension_N_m = strip_tension_N_m(50e3, 20, 0.5, 0);
    assert_close(tension_N_m, 59.2816, 5e-5, 0);
    assert_close(strip_depth_m(tension_N_m, 20, 0.5), 10.543e-3, 5e-7, 0);
    assert_close(strip_tension_N_m(50e3, 20, 0.5, 0.3), tension_N_m / cbrt(0.91), 0, 1e-14);
}

/* The same strip with the arc taken whole: phi / sin(phi) - 1 = N / (E h). */
static void the_whole_arc_differs_by_a_thousandth(void **state) {
    (void)state;
    double phi = arc_half_angle_rad(50e3, 20, 0.5), tension_N_m = arc_tension_N_m(phi, 20, 0.5);
    assert_close(tension_N_m, 59.3449, 5e-5, 0);
    assert_close(arc_depth_m(phi, 0.5), 10.5504e-3, 5e-8, 0);
    assert_close(phi / sin(phi) - 1, tension_N_m / 50e3, 1e-15, 1e-9);
}

static void an_arc_without_pressure_is_flat_and_one_too_soft_has_no_answer(void **state) {
    (void)state;
    assert_true(arc_half_angle_rad(50e3, 0, 0.5) <= 0);
    assert_true(arc_half_angle_rad(1, 1000, 0.5) < 0);
}

/* Yajima et al.: the cloth between two tapes carries pressure times its bulge radius.  An arc
 * of depth k over its chord stands on phi = 2 atan(2 k), as a billowed section does. */
static void tension_across_a_lobe_is_pressure_times_bulge_radius(void **state) {
    (void)state;
    const double chord_m = 0.55, bulge = 0.1, pressure_Pa = 7;
    double phi = 2 * atan(2 * bulge);
    double radius_m = section_length_m(BILLOWED, chord_m, bulge) / (2 * phi);
    assert_close(arc_tension_N_m(phi, pressure_Pa, chord_m), pressure_Pa * radius_m, 0, 1e-12);
    assert_close(arc_depth_m(phi, chord_m), bulge * chord_m, 0, 1e-12);
}

/* Circular membrane held round its edge, large deflection: 0.662 R (p R / E t)^(1/3) in a
 * structures handbook; 10 psi, 1e7 psi, 15 in across, 0.1 in thick: 0.2094 in.  The factor
 * depends on Poisson's ratio, which the handbook leaves out: 2 %. */
static void a_disc_under_pressure_comes_out_as_the_handbook_says(void **state) {
    (void)state;
    double radius_in = 7.5, shape = cbrt(10 * radius_in / (1e7 * 0.1));
    assert_close(disc_depth_factor(0.25) * radius_in * shape, 0.2094, 0, 0.02);
    assert_close(disc_depth_factor(0.30) * radius_in * shape, 0.2094, 0, 0.02);
}

/* Computed independently, no printed source. */
static void the_factor_of_a_disc_falls_with_poissons_ratio(void **state) {
    (void)state;
    assert_close(disc_depth_factor(0), 0.7183, 5e-5, 0);
    assert_close(disc_depth_factor(0.25), 0.6658, 5e-5, 0);
    assert_close(disc_depth_factor(0.30), 0.6534, 5e-5, 0);
}

/* ---- cloth, tape, thread ----------------------------------------------------------- */

static const struct parameter *parameter_of(const char *key) {
    size_t count;
    int at = parameter_find(key);
    assert_true(at >= 0);
    return &parameters(&count)[at];
}

/* The starter is of published materials: PIA-C-44378 type I, 39.7 g/m2 and 7881 N/m; tape
 * MIL-T-8363B type II, 1290 N; and the help says so. */
static void the_starters_cloth_and_tape_are_those_of_their_specifications(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    assert_close(design.cloth.mass_kg_m2, 0.0397, 0, 1e-12);
    assert_close(design.cloth.strength_N_m, 7881, 0, 1e-12);
    assert_close(design.tape.strength_N, 1290, 0, 1e-12);
    assert_non_null(strstr(parameter_of("cloth.mass")->help, "PIA-C-44378"));
    assert_non_null(strstr(parameter_of("cloth.strength")->help, "PIA-C-44378"));
    assert_non_null(strstr(parameter_of("tape.strength")->help, "MIL-T-8363"));
}

/* Strengths printed in pounds and in newtons: MIL-C-7020H type I, 42 lbf/in, 7355 N/m; 1.6 oz
 * cloth, 50 lbf/in, 8756 N/m; PIA-C-44378 type I, 45 lbf/in, 7881 N/m.  Tapes of MIL-T-8363B,
 * I 350 lbf, 1557 N; II 290 lbf, 1290 N; webbing III 400 lbf, 1779 N.  To the last digit. */
static void published_strengths_read_the_same_in_pounds(void **state) {
    (void)state;
    static const double running[][2] = {{42, 7355}, {50, 8756}, {45, 7881}};
    static const double tape[][2] = {{350, 1557}, {290, 1290}, {400, 1779}};
    struct design design;
    design_starter(&design);
    design.paper.units = UNITS_INCH;
    for (size_t i = 0; i < 3; i++) {
        assert_close(in_page_units(&design, RUNNING_FORCE, running[i][1]), running[i][0], 0.004, 0);
        assert_close(in_page_units(&design, FORCE, tape[i][1]), tape[i][0], 0.12, 0);
    }
}

/* Seams are tested by ASTM D1683; 80 % of the cloth's strength is from memory, no source. */
static void the_starters_seams_bear_four_fifths_of_its_cloth(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    assert_close(design.cloth.seam_efficiency, 0.8, 0, 1e-12);
}

/* 0.9 for textiles: engineering tables. */
static void the_starters_cloth_radiates_as_textiles_do(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    assert_close(design.cloth.emissivity, 0.9, 0, 1e-12);
}

/* Nylon keeps most of its strength to 121 C (MIL-T-8363B, 3.1.1). */
static void the_starters_cloth_is_kept_below_what_nylon_stands(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    assert_true(design.cloth.hottest_C <= 121);
    assert_true(design.air.inside_C < design.cloth.hottest_C);
}

static double thread_kg(const struct design *design, const struct envelope *envelope) {
    struct masses masses = masses_of(design, envelope);
    for (size_t i = 0; i < masses.count; i++)
        if (strcmp(masses.item[i].name, "thread") == 0)
            return masses.item[i].computed_kg;
    fail_msg("no thread among the masses");
    return 0;
}

/* Stitch type 301 (ISO 4915): 2.5 m of thread in a metre of one row of stitches; 10 to 15 %
 * of waste come on top of what is bought. */
static void a_metre_of_a_row_of_stitches_takes_two_and_a_half_of_thread(void **state) {
    (void)state;
    struct design design;
    struct diagnostics messages = {0};
    design_starter(&design);
    design.seams.row = SEAM_PLAIN; /* one row of stitches */
    struct envelope *envelope = envelope_build(&design, &messages);
    assert_non_null(envelope);
    double before_kg = thread_kg(&design, envelope);
    envelope->built.row_seam_m += 1000;
    assert_close(thread_kg(&design, envelope) - before_kg, 2.5 * design.thread.tex * 1e-3, 0, 1e-9);
    assert_true(design.thread.waste >= 0.10 && design.thread.waste <= 0.15);
    diagnostics_free(&messages);
    envelope_free(envelope);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_long_strip_is_pulled_as_a_shallow_arc),
        cmocka_unit_test(the_whole_arc_differs_by_a_thousandth),
        cmocka_unit_test(an_arc_without_pressure_is_flat_and_one_too_soft_has_no_answer),
        cmocka_unit_test(tension_across_a_lobe_is_pressure_times_bulge_radius),
        cmocka_unit_test(a_disc_under_pressure_comes_out_as_the_handbook_says),
        cmocka_unit_test(the_factor_of_a_disc_falls_with_poissons_ratio),
        cmocka_unit_test(the_starters_cloth_and_tape_are_those_of_their_specifications),
        cmocka_unit_test(published_strengths_read_the_same_in_pounds),
        cmocka_unit_test(the_starters_seams_bear_four_fifths_of_its_cloth),
        cmocka_unit_test(the_starters_cloth_radiates_as_textiles_do),
        cmocka_unit_test(the_starters_cloth_is_kept_below_what_nylon_stands),
        cmocka_unit_test(a_metre_of_a_row_of_stitches_takes_two_and_a_half_of_thread),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
