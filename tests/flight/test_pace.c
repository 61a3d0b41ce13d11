/* Hours to build, from the paces of the design. */
#include "support.h"

#include "gorewright/flight.h"

static void hours_are_pieces_seams_tapes_and_finish_together(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.pace.mark_and_cut_min = 3;
    design.pace.straight_m_h = 10;
    design.pace.curved_m_h = 4;
    design.pace.tape_m_h = 20;
    design.pace.finish_h = 7;
    struct envelope envelope = {.gores = 16};
    envelope.built.pieces = 100;     /* 5 h */
    envelope.built.tape_seam_m = 60; /* 3 h of tape */
    envelope.built.row_seam_m = 50;  /* with 60 and 10, less 20: 100 m straight, 10 h */
    envelope.built.ridge_seam_m = 10;
    envelope.built.curved_seam_m = 20; /* 5 h */
    assert_close(build_hours(&design, &envelope), 5 + 10 + 5 + 3 + 7, 0, 1e-14);
}

static void each_pace_tells_in_its_own_part_alone(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct envelope envelope = {.gores = 16};
    envelope.built.tape_seam_m = 30;
    double before_h = build_hours(&design, &envelope);
    design.pace.curved_m_h /= 2; /* nothing is curved, and there are no pieces */
    design.pace.mark_and_cut_min *= 2;
    assert_close(build_hours(&design, &envelope), before_h, 0, 0);
    design.pace.tape_m_h /= 2;
    assert_close(build_hours(&design, &envelope), before_h + 30 / 15.0, 0, 1e-14);
    design.pace.finish_h += 4;
    assert_close(build_hours(&design, &envelope), before_h + 30 / 15.0 + 4, 0, 1e-14);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hours_are_pieces_seams_tapes_and_finish_together),
        cmocka_unit_test(each_pace_tells_in_its_own_part_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
