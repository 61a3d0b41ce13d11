/* lengths.c - lengths as the builder reads them. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "paper/lengths.h"

static long long parts_of_inch(const struct design *design) {
    return 16LL << design->paper.inch_fraction;
}

double length_step_m(const struct design *design) {
    if (design->paper.units == UNITS_INCH)
        return METRES_PER_INCH / (double)parts_of_inch(design);
    return design->paper.rounding_m;
}

/* A length that falls between two steps but for noise in its last digits goes
 * the same way on both panels of a seam. */
static long long steps_in(const struct design *design, double length_m) {
    double steps = length_m / length_step_m(design);
    return llround(steps + copysign(1e-6, steps));
}

double printed_length_m(const struct design *design, double length_m) {
    return (double)steps_in(design, length_m) * length_step_m(design);
}

static int decimals_needed(double step_mm) {
    int decimals = 0;
    for (double scaled = step_mm; decimals < 4; decimals++, scaled *= 10)
        if (fabs(scaled - round(scaled)) < 1e-6)
            break;
    return decimals;
}

static int format_mm(const struct design *design, long long steps, char into[32]) {
    double step_mm = design->paper.rounding_m * 1e3;
    return snprintf(into, 32, "%.*f", decimals_needed(step_mm), (double)steps * step_mm);
}

static long long greatest_common_divisor(long long a, long long b) {
    while (b != 0) {
        long long rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

static int format_inches(const struct design *design, long long steps, char into[32]) {
    long long parts = parts_of_inch(design), size = llabs(steps);
    long long whole = size / parts, rest = size % parts;
    const char *sign = steps < 0 ? "-" : "";
    if (rest == 0)
        return snprintf(into, 32, "%s%lld", sign, whole);
    long long shared = greatest_common_divisor(rest, parts);
    if (whole == 0)
        return snprintf(into, 32, "%s%lld/%lld", sign, rest / shared, parts / shared);
    return snprintf(into, 32, "%s%lld %lld/%lld", sign, whole, rest / shared, parts / shared);
}

char *format_length(const struct design *design, double length_m, char into[32]) {
    int written = -1;
    if (isfinite(length_m) && fabs(length_m) < 1e6)
        written = design->paper.units == UNITS_INCH
                      ? format_inches(design, steps_in(design, length_m), into)
                      : format_mm(design, steps_in(design, length_m), into);
    if (written < 0 || written >= 32)
        snprintf(into, 32, "?");
    return into;
}

const char *length_unit(const struct design *design) {
    return design->paper.units == UNITS_INCH ? "in" : "mm";
}

const char *unit_in_words(const struct design *design) {
    return design->paper.units == UNITS_INCH ? "inches" : "mm";
}

double check_tolerance_m(const struct design *design) {
    double least_m = design->paper.units == UNITS_INCH ? METRES_PER_INCH / 16 : 1e-3;
    return fmax(least_m, 2 * length_step_m(design));
}

char *format_tolerance(const struct design *design, char into[48]) {
    char length[32];
    double tolerance_m = check_tolerance_m(design);
    if (design->paper.units == UNITS_INCH)
        snprintf(into, 48, "%s in", format_length(design, tolerance_m, length));
    else
        snprintf(into, 48, "%g mm", tolerance_m * 1e3);
    return into;
}
