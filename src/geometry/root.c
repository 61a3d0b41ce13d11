#include "geometry/root.h"

#include <math.h>

struct bracket {
    double low, high; /* the zero lies between them */
};

static double inside(const struct bracket *bracket, double x) {
    if (x > bracket->low && x < bracket->high)
        return x;
    return 0.5 * (bracket->low + bracket->high);
}

bool rising_root(rising_function *f, void *context, double least, double most, double guess,
                 double step, double tolerance, double *root) {
    struct bracket bracket = {least, most};
    double x = inside(&bracket, guess), before = x, f_before = NAN;
    for (int i = 0; i < 200; i++) {
        double value = f(x, context);
        if (value == 0) {
            *root = x;
            return true;
        }
        if (value < 0)
            bracket.low = x;
        else
            bracket.high = x;
        double next = value < 0 ? x + step : x - step;
        if (isfinite(value) && isfinite(f_before) && value != f_before)
            next = x - value * (x - before) / (value - f_before);
        else if (!isfinite(value))
            next = 0.5 * (x + bracket.high);
        next = inside(&bracket, next);
        bool settled = isfinite(value) && isfinite(f_before) && fabs(next - x) <= tolerance;
        if (settled || bracket.high - bracket.low <= tolerance) {
            *root = next;
            return isfinite(value) && next - least > 4 * tolerance && most - next > 4 * tolerance;
        }
        before = x;
        f_before = value;
        x = next;
    }
    *root = x;
    return false;
}
