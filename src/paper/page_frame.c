/* page_frame.c - what a page leaves to draw on, and the correction for the printer. */
#include <math.h>

#include "paper/template_plan.h"

/* Least window, so that bars, crosses and their letters have room. */
#define LEAST_WIDTH_M 0.062
#define LEAST_HEIGHT_M 0.051
#define LEAST_STRIDE_M 0.035

/* Four rows of small type; where the bar leaves no room beside it, another row for the bar. */
#define FOOTER_WIDE_M 0.0135
#define FOOTER_NARROW_M 0.020
#define WIDE_FROM_M 0.145

/* A length that will still fit when everything has to be drawn larger. */
static double reserved_m(double page_side_m, double margin_m) {
    return (page_side_m - 2 * margin_m) / CORRECTION_MOST;
}

/* Type grows with the root of what a sheet leaves to draw on: once on A4 and below, twice
 * on A0. */
static double type_scale(const struct paper *paper, double margin_m) {
    const double a4_m = 0.19;
    double side_m = paper->height_m > 0 ? fmin(paper->width_m, paper->height_m) : paper->width_m;
    return fmin(2, fmax(1, floor(10 * sqrt((side_m - 2 * margin_m) / a4_m) + 1e-6) / 10));
}

static bool is_narrow(double reserved_width_m, double type) {
    return reserved_width_m < WIDE_FROM_M * type;
}

static double footer_height_m(double reserved_width_m, double type) {
    return (is_narrow(reserved_width_m, type) ? FOOTER_NARROW_M : FOOTER_WIDE_M) * type;
}

double frame_window_m(const struct frame *frame) {
    return frame->height_m - frame->footer_m;
}

/* ---- the correction ---------------------------------------------------- */

/* A whole number of centimetres, or of inches, so that a rule of that kind can check it. */
static double whole_units_m(const struct design *design, double length_m) {
    if (design->paper.units == UNITS_INCH)
        return floor(length_m / METRES_PER_INCH + 1e-9) * METRES_PER_INCH;
    return floor(length_m * 100 + 1e-9) / 100;
}

static double least_side_m(double least_m, double margin_m) {
    return least_m * CORRECTION_MOST + 2 * margin_m;
}

static int check_paper(const struct design *design, const struct paper *paper,
                       struct diagnostics *messages) {
    double margin_m = design->paper.margin_m, overlap_m = design->paper.overlap_m;
    double width_m = least_side_m(fmax(LEAST_WIDTH_M, overlap_m + LEAST_STRIDE_M), margin_m);
    double window_m = fmax(LEAST_HEIGHT_M, overlap_m + LEAST_STRIDE_M);
    double height_m = least_side_m(window_m + FOOTER_NARROW_M, margin_m);
    if (paper->width_m >= width_m && (paper->height_m <= 0 || paper->height_m >= height_m))
        return 0;
    diagnose(messages, SEVERITY_ERROR, "paper-small", "paper.sheet",
             "%s is too small for a template: with margins of %.1f mm and an overlap of %.1f mm a "
             "sheet must be at least %.0f mm across and %.0f mm up; choose a larger paper, or "
             "make paper.margin or paper.overlap smaller",
             paper->name, margin_m * 1000, overlap_m * 1000, ceil(width_m * 1000),
             ceil(height_m * 1000));
    return -1;
}

/* Limits are rounded inwards and the reading has a digit more, so that what is
 * refused never reads as if it were allowed. */
static void refuse_measure(const struct design *design, double nominal_m, double measured_m,
                           const char *key, const char *way, struct diagnostics *messages) {
    bool inches = design->paper.units == UNITS_INCH;
    double unit_m = inches ? METRES_PER_INCH : 0.001, steps = inches ? 100 : 10;
    double least = ceil(nominal_m / CORRECTION_MOST / unit_m * steps - 1e-9) / steps;
    double most = floor(nominal_m / CORRECTION_LEAST / unit_m * steps + 1e-9) / steps;
    const char *unit = inches ? "in" : "mm";
    int digits = inches ? 2 : 1;
    diagnose(messages, SEVERITY_ERROR, "measured-far", key,
             "the cross on page 1 is %.0f %s %s on this paper, and %.*f %s was read from the "
             "print; only %.*f %s to %.*f %s can be corrected (factor %.2f to %.2f); set the "
             "printer to actual size, print page 1 without --measured (or with this key at 0), and "
             "measure again",
             nominal_m / unit_m, unit, way, digits + 1, measured_m / unit_m, unit, digits, least,
             unit, digits, most, unit, CORRECTION_LEAST, CORRECTION_MOST);
}

/* The factor for one direction; 1 when nothing was measured. */
static double factor_of(const struct design *design, double nominal_m, double measured_m,
                        const char *key, const char *way, struct diagnostics *messages) {
    if (measured_m <= 0)
        return 1;
    double factor = nominal_m / measured_m;
    if (factor >= CORRECTION_LEAST && factor <= CORRECTION_MOST)
        return factor;
    refuse_measure(design, nominal_m, measured_m, key, way, messages);
    return 1;
}

int correction_find(const struct design *design, const struct paper *paper,
                    struct correction *correction, struct diagnostics *messages) {
    if (check_paper(design, paper, messages) != 0)
        return -1;
    size_t errors_before = messages->errors;
    double width_m = reserved_m(paper->width_m, design->paper.margin_m);
    double height_m = reserved_m(paper->height_m, design->paper.margin_m);
    double type = type_scale(paper, design->paper.margin_m);
    double foot_room_m = footer_height_m(width_m, type) + 0.003;
    double up_m = paper->height_m > 0 ? height_m - foot_room_m : ROLL_CROSS_UP_M;
    correction->nominal_across_m = whole_units_m(design, width_m);
    correction->nominal_up_m = whole_units_m(design, up_m);
    correction->across =
        factor_of(design, correction->nominal_across_m, design->paper.measured_across_m,
                  "paper.measured_across", "across", messages);
    correction->up = factor_of(design, correction->nominal_up_m, design->paper.measured_up_m,
                               "paper.measured_up", "up the page", messages);
    return messages->errors == errors_before ? 0 : -1;
}

/* ---- frames ------------------------------------------------------------ */

/* What may be drawn along a side of the page: it must fit the page as the file
 * has it, and the paper as it comes out. */
static double drawable_m(double page_side_m, double margin_m, double factor) {
    return (page_side_m - 2 * margin_m) / fmax(1, factor);
}

static void set_footer(struct frame *frame, const struct template_plan *plan, double width_m) {
    double margin_m = plan->design->paper.margin_m,
           reserved_width_m = reserved_m(width_m, margin_m);
    frame->type = type_scale(&plan->paper, margin_m);
    frame->narrow = is_narrow(reserved_width_m, frame->type);
    frame->footer_m = footer_height_m(reserved_width_m, frame->type);
}

static struct frame roll_frame(const struct template_plan *plan, double window_m, double up) {
    double margin_m = plan->design->paper.margin_m;
    double least_m = LEAST_HEIGHT_M; /* the upright bar */
    struct frame frame = {.page_width_m = plan->paper.width_m};
    frame.width_m = drawable_m(plan->paper.width_m, margin_m, plan->correction.across);
    set_footer(&frame, plan, plan->paper.width_m);
    frame.height_m = fmax(window_m, least_m) + frame.footer_m;
    frame.page_height_m = frame.height_m * fmax(1, up) + 2 * margin_m;
    return frame;
}

struct frame sheet_frame(const struct template_plan *plan, bool landscape, double roll_window_m) {
    if (plan->paper.height_m <= 0)
        return roll_frame(plan, roll_window_m, plan->correction.up);
    double margin_m = plan->design->paper.margin_m;
    const struct paper *paper = &plan->paper;
    double across_m = drawable_m(paper->width_m, margin_m, plan->correction.across);
    double up_m = drawable_m(paper->height_m, margin_m, plan->correction.up);
    struct frame frame = {.page_width_m = paper->width_m,
                          .page_height_m = paper->height_m,
                          .width_m = landscape ? up_m : across_m,
                          .height_m = landscape ? across_m : up_m,
                          .landscape = landscape};
    set_footer(&frame, plan, landscape ? paper->height_m : paper->width_m);
    return frame;
}

struct frame proof_frame(const struct template_plan *plan) {
    double margin_m = plan->design->paper.margin_m;
    struct frame frame;
    if (plan->paper.height_m <= 0) {
        frame = roll_frame(plan, plan->correction.nominal_up_m + 0.003, CORRECTION_MOST);
    } else {
        frame = sheet_frame(plan, false, 0);
        frame.height_m = reserved_m(plan->paper.height_m, margin_m);
    }
    frame.width_m = reserved_m(plan->paper.width_m, margin_m);
    return frame;
}

size_t tile_windows(const struct template_plan *plan, struct window windows[2]) {
    double overlap_m = plan->design->paper.overlap_m, margin_m = plan->design->paper.margin_m;
    struct frame frame = sheet_frame(plan, false, 0);
    if (plan->paper.height_m <= 0) {
        double most_m = drawable_m(ROLL_PAGE_MOST_M, margin_m, plan->correction.up);
        windows[0] = (struct window){.width_m = frame.width_m,
                                     .height_m = most_m - frame.footer_m,
                                     .overlap_m = overlap_m,
                                     .roll = true};
        return 1;
    }
    windows[0] = (struct window){
        .width_m = frame.width_m, .height_m = frame_window_m(&frame), .overlap_m = overlap_m};
    frame = sheet_frame(plan, true, 0);
    windows[1] = (struct window){.width_m = frame.width_m,
                                 .height_m = frame_window_m(&frame),
                                 .overlap_m = overlap_m,
                                 .landscape = true};
    bool low = windows[1].height_m < fmax(LEAST_HEIGHT_M, overlap_m + LEAST_STRIDE_M) ||
               windows[1].width_m < LEAST_WIDTH_M;
    return low ? 1 : 2;
}

int paper_check(const struct design *design, struct diagnostics *messages) {
    struct paper paper;
    struct correction correction;
    if (paper_find(design->paper.sheet, &paper, messages) != 0)
        return -1;
    return correction_find(design, &paper, &correction, messages);
}

int paper_cross(const struct design *design, struct paper_cross *cross) {
    struct design unmeasured = *design;
    struct diagnostics messages = {0};
    struct correction correction;
    struct paper paper;
    unmeasured.paper.measured_across_m = unmeasured.paper.measured_up_m = 0;
    bool known = paper_find(design->paper.sheet, &paper, &messages) == 0 &&
                 correction_find(&unmeasured, &paper, &correction, &messages) == 0;
    diagnostics_free(&messages);
    if (!known)
        return -1;
    *cross = (struct paper_cross){correction.nominal_across_m, correction.nominal_up_m,
                                  1 / CORRECTION_MOST, 1 / CORRECTION_LEAST};
    return 0;
}
