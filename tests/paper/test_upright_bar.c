/* test_upright_bar.c - the bar that stands upright keeps off what is cut and sewn. */
#include <math.h>
#include <string.h>

#include "paper/template_pages.h"
#include "paper/upright_bar.h"
#include "support.h"

#define MM 0.001

struct job {
    struct design design;
    struct envelope *envelope;
    struct template_plan plan;
    struct diagnostics messages;
};

static void plan_design(struct job *job, const char *text, const char *sheet) {
    *job = (struct job){0};
    assert_int_equal(
        design_read_text(text, strlen(text), "test", &job->design, NULL, &job->messages), 0);
    strcpy(job->design.paper.sheet, sheet);
    job->envelope = envelope_build(&job->design, &job->messages);
    assert_non_null(job->envelope);
    assert_int_equal(template_plan_make(&job->design, job->envelope, &job->plan, &job->messages),
                     0);
}

static void tear_down(struct job *job) {
    template_plan_free(&job->plan);
    diagnostics_free(&job->messages);
    envelope_free(job->envelope);
}

#define MIXED                                                                                      \
    "format = 1; size: { volume = 1.2; }; rows: { count = 3; }; bulge: { depth = 0.2; }; "         \
    "gores: { count = 12; mix = (\"half-gore\", \"billowed\", \"faceted\"); };"
#define HALVES                                                                                     \
    "format = 1; size: { volume = 3; }; rows: { count = 5; }; gores: { style = \"half-gore\"; };"
#define TINY                                                                                       \
    "format = 1; size: { volume = 0.05; }; rows: { count = 4; }; outline: { mouth_diameter = "     \
    "0.1; "                                                                                        \
    "crown_diameter = 0.08; weight_from = \"none\"; };"

static const char *const designs[] = {MIXED, HALVES, TINY};
static const char *const sheets[] = {"A4", "Letter", "A0", "A6", "90x95mm", "roll 914mm"};

/* Where a point of the frame lies on a piece of the sheet. */
static struct flat_point on_piece(const struct piece *piece, bool turned, struct flat_point laid) {
    struct rect at =
        rect_on_piece(piece, turned, (struct rect){laid.x_m, laid.y_m, laid.x_m, laid.y_m});
    return (struct flat_point){at.x0_m, at.y0_m};
}

/* No drawn millimetre of the bar crosses a line or mark of a piece, or is written on. */
static size_t crossings(const struct piece *piece, bool turned, struct flat_point frame_in_laid,
                        struct rect label, const struct upright_bar *bar) {
    size_t count = 0;
    for (int i = 0; i < 50; i++) {
        if (bar->gaps >> i & 1)
            continue;
        struct flat_point foot = {bar->x_m + frame_in_laid.x_m,
                                  bar->y_m + i * MM + frame_in_laid.y_m};
        struct flat_point a = on_piece(piece, turned, foot);
        struct flat_point b = on_piece(piece, turned, (struct flat_point){foot.x_m, foot.y_m + MM});
        struct rect part = {fmin(a.x_m, b.x_m), fmin(a.y_m, b.y_m), fmax(a.x_m, b.x_m),
                            fmax(a.y_m, b.y_m)};
        count += ring_meets(&piece->cut, part) || ring_meets(&piece->sew, part);
        for (size_t m = 0; m < piece->marks; m++) {
            struct flat_point end[2];
            match_mark_ends(piece, m, end);
            count += segment_meets(end[0], end[1], part);
        }
        count += part.x0_m < label.x1_m && part.x1_m > label.x0_m && part.y0_m < label.y1_m &&
                 part.y1_m > label.y0_m;
    }
    return count;
}

static size_t crossings_on(const struct template_plan *plan, const struct planned_sheet *sheet,
                           const struct upright_bar *bar) {
    const struct frame *frame = &sheet->frame;
    if (sheet->kind == SHEET_TILE) {
        const struct laying *laying = &plan->laying[sheet->piece];
        struct rect window = tile_window(&laying->tiling, sheet->row, sheet->column);
        return crossings(&plan->envelope->piece[sheet->piece], laying->tiling.turned,
                         (struct flat_point){window.x0_m, window.y0_m - frame->footer_m},
                         laying->label, bar);
    }
    size_t count = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        const struct placement *p = &plan->placement[sheet->first + i];
        count += crossings(&plan->envelope->piece[p->piece], p->turned,
                           (struct flat_point){-p->x_m, -p->y_m - frame->footer_m},
                           plan->laying[p->piece].label, bar);
    }
    return count;
}

static void bars_cross_no_line_mark_or_label_on_any_sheet(void **state) {
    (void)state;
    size_t looked = 0;
    for (size_t d = 0; d < COUNT_OF(designs); d++)
        for (size_t s = 0; s < COUNT_OF(sheets); s++) {
            struct job job;
            plan_design(&job, designs[d], sheets[s]);
            for (size_t i = 0; i < job.plan.sheets; i++) {
                const struct planned_sheet *sheet = &job.plan.sheet[i];
                if (sheet->kind != SHEET_TILE && sheet->kind != SHEET_SHARED)
                    continue;
                struct upright_bar bar = upright_bar_on(&job.plan, sheet);
                if (crossings_on(&job.plan, sheet, &bar) > 0)
                    print_error("design %zu on %s: sheet %zu\n", d, sheets[s], i + 1);
                assert_int_equal(crossings_on(&job.plan, sheet, &bar), 0);
                looked++;
            }
            tear_down(&job);
        }
    assert_true(looked > 200);
}

static void bars_lie_wholly_in_the_frame_and_keep_both_ends(void **state) {
    (void)state;
    for (size_t s = 0; s < COUNT_OF(sheets); s++) {
        struct job job;
        plan_design(&job, designs[0], sheets[s]);
        for (size_t i = 0; i < job.plan.sheets; i++) {
            const struct planned_sheet *sheet = &job.plan.sheet[i];
            if (sheet->kind != SHEET_TILE && sheet->kind != SHEET_SHARED)
                continue;
            struct upright_bar bar = upright_bar_on(&job.plan, sheet);
            assert_true(bar.x_m - BAR_LEFT_M >= 0 && bar.x_m <= sheet->frame.width_m - MM);
            assert_true(bar.y_m >= MM && bar.y_m + PROOF_BAR_M <= sheet->frame.height_m - 0.4 * MM);
            assert_int_equal(bar.gaps & 3, 0);
            assert_int_equal(bar.gaps >> 48, 0);
        }
        tear_down(&job);
    }
}

/* Where the tile is large enough the strips that are trimmed or glued are free of it. */
static void bars_keep_off_the_glued_strips(void **state) {
    (void)state;
    struct job job;
    plan_design(&job, designs[0], "A4");
    double strip_m = job.design.paper.overlap_m;
    size_t looked = 0;
    for (size_t i = 0; i < job.plan.sheets; i++) {
        const struct planned_sheet *sheet = &job.plan.sheet[i];
        if (sheet->kind != SHEET_TILE)
            continue;
        struct upright_bar bar = upright_bar_on(&job.plan, sheet);
        if (tile_sheet_number(&job.plan, sheet->piece, sheet->row, sheet->column + 1) > 0)
            assert_true(bar.x_m < sheet->frame.width_m - strip_m);
        if (tile_sheet_number(&job.plan, sheet->piece, sheet->row, sheet->column - 1) > 0)
            assert_true(bar.x_m - BAR_LEFT_M > strip_m);
        looked++;
    }
    assert_true(looked > 20);
    tear_down(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bars_cross_no_line_mark_or_label_on_any_sheet),
        cmocka_unit_test(bars_lie_wholly_in_the_frame_and_keep_both_ends),
        cmocka_unit_test(bars_keep_off_the_glued_strips),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
