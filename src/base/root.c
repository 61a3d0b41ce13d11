/* root.c - the secant rule in a shrinking bracket. */
#include "gorewright/base.h"

#include <math.h>

struct bracket {
    double low, high; /* the zero lies between them */
};

static double middle(const struct bracket *bracket) {
    return 0.5 * (bracket->low + bracket->high);
}

static double inside(const struct bracket *bracket, double x) {
    if (x > bracket->low && x < bracket->high)
        return x;
    return middle(bracket);
}

/* Two points that a secant can go through; the value before the first is not finite. */
struct secant {
    double x, value, x_before, value_before;
};

/* The secant's move; one step towards the zero when there is no secant yet; towards the far
 * end of the bracket where the function has no value. */
static double secant_move(const struct secant *secant, const struct bracket *bracket, double step) {
    double rise = secant->value - secant->value_before;
    if (!isfinite(secant->value))
        return 0.5 * (bracket->high - secant->x);
    if (!isfinite(rise) || rise == 0)
        return secant->value < 0 ? step : -step;
    return -secant->value * (secant->x - secant->x_before) / rise;
}

/* The secant creeps where the function is far steeper on one side than on the other. */
struct progress {
    int calls;
    double width, size, smallest; /* at the last look: bracket, value; value since then */
};

/* Three calls have neither halved the bracket nor brought the value down a hundredfold. */
static bool creeps(struct progress *progress, const struct bracket *bracket, double value) {
    progress->smallest = fmin(progress->smallest, fabs(value));
    if (++progress->calls < 3)
        return false;
    double width = bracket->high - bracket->low;
    bool slow = width > 0.5 * progress->width && progress->smallest > 0.01 * progress->size;
    *progress = (struct progress){0, width, progress->smallest, progress->smallest};
    return slow;
}

bool rising_root(rising_function *f, void *context, double least, double most, double guess,
                 double step, double tolerance, double *root) {
    struct bracket bracket = {least, most};
    struct progress progress = {0, most - least, HUGE_VAL, HUGE_VAL};
    struct secant secant = {inside(&bracket, guess), 0, 0, HUGE_VAL};
    double approach = HUGE_VAL; /* the secant's last own move */
    for (int i = 0; i < 200; i++) {
        double value = secant.value = f(secant.x, context);
        *root = secant.x;
        if (value == 0)
            return true;
        if (value < 0)
            bracket.low = secant.x;
        else
            bracket.high = secant.x;
        double move = secant_move(&secant, &bracket, step);
        /* A small move proves the zero near only when small moves led up to it.  Otherwise
         * step by the tolerance, and let the sign decide. */
        bool small = fabs(move) <= tolerance, settled = small && approach <= 1e5 * tolerance;
        if (small && !settled)
            move = value < 0 ? tolerance : -tolerance;
        bool halve = creeps(&progress, &bracket, value);
        double next = halve ? middle(&bracket) : inside(&bracket, secant.x + move);
        if (settled || bracket.high - bracket.low <= tolerance) {
            double at = *root = settled ? secant.x + move : middle(&bracket);
            return isfinite(value) && at - least > 4 * tolerance && most - at > 4 * tolerance;
        }
        approach = halve || small ? HUGE_VAL : fabs(move);
        secant = (struct secant){next, 0, secant.x, value};
    }
    return false;
}
