/* quadrature.h - Gauss-Legendre on 0 .. 1. */
#ifndef GEOMETRY_QUADRATURE_H
#define GEOMETRY_QUADRATURE_H

enum { GAUSS_POINTS = 12 };

/* Nodes on 0 .. 1 and their weights (sum 1); exact for polynomials of degree 23.
 * Source: the roots of the Legendre polynomial, checked against a general
 * library in the tests. */
extern const double gauss_node[GAUSS_POINTS];
extern const double gauss_weight[GAUSS_POINTS];

#endif
