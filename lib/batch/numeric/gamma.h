/* SPDX-License-Identifier: MIT */
/* Incomplete gamma function, chi-square distribution, and the front factors that other distributions share. Arguments have
 * been checked: a, b, v above 0, x not negative. */
#ifndef FER_BATCH_GAMMA_H
#define FER_BATCH_GAMMA_H

/* x^a e^-x/Gamma(a + 1), a >= 0, x > 0: the Poisson weight of a where a is whole. */
double fer_gamma_front(double a, double x);

/* x^a y^b/(a B(a, b)) for y = 1 - x, both above 0: what I_x(a, b) is above I_x(a + 1, b). */
double fer_beta_step(double a, double b, double x, double y);

/* Regularised incomplete gamma functions P(a, x) and Q(a, x), x above 0. */
double fer_gamma_below(double a, double x);
double fer_gamma_above(double a, double x);

/* Chi-square's upper tail at many places with the same degrees of freedom: a closed form where they are a whole number, and few. */
typedef struct {
    double a;    /* half of them */
    int degrees; /* of the closed form; 0: there is none */
} fer_tail_form;

fer_tail_form fer_tail_form_of(double v);

/* Q(a, x), 1e-14 absolute, x >= 0; writes how fast it falls with the logarithm of x. */
double fer_tail_above(const fer_tail_form *form, double x, double *fall);

/* P(X > x) of chi-square with v degrees of freedom; 1e-13 relative where it is the smaller tail. */
double fer_chi_square_above(double x, double v);

/* x with P(X <= x) = p, 0 < p < 1. */
double fer_chi_square_quantile(double p, double v);

/* Means over chi-square: the sum of f(x) times weight over the grid, x = exp(start + step i), i from 0 to below count. Finer grids for
 * functions that are steeper than the distribution. */
typedef struct {
    double start, step, half_degrees;
    int count;
} fer_chi_square_grid;

fer_chi_square_grid fer_grid_of_chi_square(double v, double finer);
/* Steps no longer than this. */
void fer_refine_grid(fer_chi_square_grid *grid, double longest);

double fer_grid_point(const fer_chi_square_grid *grid, int i, double *weight);

#endif
