/* root.h - one root finder for everything that is sought. */
#ifndef GEOMETRY_ROOT_H
#define GEOMETRY_ROOT_H

#include <stdbool.h>

/* A function that rises through zero once between `least` and `most`.
 * It may return -HUGE_VAL where it has no value yet (too small to exist). */
typedef double rising_function(double x, void *context);

/* Find that zero by the secant rule, kept inside a shrinking bracket.
 * Given: the open interval least .. most, a first guess inside it, the width of
 * the first secant step, and the tolerance of x.
 * Returns: true with *root within the tolerance, or false when the zero would
 * lie at an end of the interval; *root is then the end it runs towards. */
bool rising_root(rising_function *f, void *context, double least, double most, double guess,
                 double step, double tolerance, double *root);

#endif
