/* SPDX-License-Identifier: MIT */
/* Integrals by the composite Gauss-Legendre rule. */
#ifndef FER_NUMERIC_QUADRATURE_H
#define FER_NUMERIC_QUADRATURE_H

#include <stddef.h>

typedef double (*fer_integrand)(double x, const void *context);

/* Integral from `from` to `to` with 16 points between neighbouring breaks; 0 where `to` is not above `from`. Breaks may
 * stand in any order and outside; they are sorted in place. Exact to the last digits where the integrand is smooth on
 * the scale of the distance between breaks. */
double fer_integrate_pieces(fer_integrand integrand, const void *context, double from, double to,
                            double *breaks, size_t count);

/* Points and weights of the rule on one piece, in rising order. */
enum { FER_GAUSS_POINTS = 16 };
void fer_gauss_points(double from, double to, double points[FER_GAUSS_POINTS],
                      double point_weights[FER_GAUSS_POINTS]);

#endif
