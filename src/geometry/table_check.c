/* table_check.c - what is wrong with a table of stations, in the builder's words. */
#include <math.h>
#include <stdlib.h>

#include "geometry/outline.h"

enum { SAMPLES = 16 }; /* straight bits per piece of the curve, to look for crossings */

static const char key[] = "outline.table";

struct samples {
    size_t count;
    struct spline_point point[TABLE_MOST * SAMPLES + 1];
};

static void take_samples(const struct spline *spline, struct samples *samples) {
    samples->count = 0;
    for (size_t i = 0; i < spline->pieces; i++)
        for (int j = 0; j < SAMPLES; j++)
            samples->point[samples->count++] = spline_piece_at(spline, i, (double)j / SAMPLES);
    samples->point[samples->count++] = spline_piece_at(spline, spline->pieces - 1, 1);
}

/* Twice the signed area of a triangle. */
static double turn(const struct spline_point *a, const struct spline_point *b,
                   const struct spline_point *c) {
    return (b->r - a->r) * (c->z - a->z) - (b->z - a->z) * (c->r - a->r);
}

static bool cross(const struct spline_point *a, const struct spline_point *b) {
    return turn(&a[0], &a[1], &b[0]) * turn(&a[0], &a[1], &b[1]) < 0 &&
           turn(&b[0], &b[1], &a[0]) * turn(&b[0], &b[1], &a[1]) < 0;
}

/* Station number (from 1) before the first crossing, or 0. */
static size_t crossing(const struct samples *samples) {
    for (size_t i = 0; i + 1 < samples->count; i++)
        for (size_t j = i + 2; j + 1 < samples->count; j++)
            if (cross(&samples->point[i], &samples->point[j]))
                return i / SAMPLES + 1;
    return 0;
}

static void check_height(const struct samples *samples, struct diagnostics *messages) {
    for (size_t i = 1; i < samples->count; i++) {
        if (samples->point[i].z >= -1e-9)
            continue;
        diagnose(messages, SEVERITY_ERROR, "below-mouth", key,
                 "the outline dips below the mouth after station %zu; the mouth must be the lowest "
                 "place: list stations from the mouth up to the crown",
                 (i - 1) / SAMPLES + 1);
        return;
    }
}

static void check_axis(const struct samples *samples, enum join join,
                       struct diagnostics *messages) {
    for (size_t i = 0; i < samples->count; i++) {
        if (samples->point[i].r > 0)
            continue;
        size_t station = i / SAMPLES + 1;
        diagnose(
            messages, SEVERITY_ERROR, "axis", key,
            "the outline touches the axis after station %zu; every radius must stay above 0: %s",
            station,
            join == JOIN_SMOOTH ? "the smooth curve swings to the axis there, so add a "
                                  "station, or set outline.join = \"straight\""
                                : "give larger radii there");
        return;
    }
}

static void check_width(const struct samples *samples, struct diagnostics *messages) {
    double widest = 0;
    for (size_t i = 0; i < samples->count; i++)
        widest = fmax(widest, samples->point[i].r);
    if (samples->point[0].r >= widest * (1 - 1e-9))
        diagnose(messages, SEVERITY_ERROR, "mouth-too-wide", key,
                 "the mouth (station 1, radius %g m) must be narrower than the body: give some "
                 "station above it a larger radius, and list stations from the mouth up to the "
                 "crown",
                 samples->point[0].r);
    if (samples->point[samples->count - 1].r >= widest * (1 - 1e-9))
        diagnose(messages, SEVERITY_ERROR, "crown-too-wide", key,
                 "the crown opening (last station, radius %g m) must be narrower than the body: "
                 "give some station below it a larger radius, and list stations from the mouth up "
                 "to the crown",
                 samples->point[samples->count - 1].r);
}

bool table_check(const struct design *design, struct diagnostics *messages) {
    size_t errors = messages->errors;
    struct spline *spline = malloc(sizeof *spline);
    struct samples *samples = malloc(sizeof *samples);
    if (spline == NULL || samples == NULL) {
        diagnose(messages, SEVERITY_ERROR, "memory", key, "out of memory");
        goto out;
    }
    spline_through(&design->outline.table, (enum join)design->outline.join, spline);
    take_samples(spline, samples);
    check_axis(samples, (enum join)design->outline.join, messages);
    check_height(samples, messages);
    check_width(samples, messages);
    size_t station = crossing(samples);
    if (station > 0)
        diagnose(messages, SEVERITY_ERROR, "crossing", key,
                 "the outline crosses itself after station %zu; stations must follow the meridian "
                 "from the mouth up to the crown without a loop: check their order",
                 station);
out:
    free(spline);
    free(samples);
    return messages->errors == errors;
}
