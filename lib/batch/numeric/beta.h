/* SPDX-License-Identifier: MIT */
/* Quantile of the beta distribution, and the F distribution. Arguments have been checked: all above 0. */
#ifndef FER_BATCH_BETA_H
#define FER_BATCH_BETA_H

/* x with I_x(a, b) = p, 0 < p < 1. */
double fer_beta_quantile(double p, double a, double b);

/* P(F > f) with v and w degrees of freedom, f not negative. */
double fer_f_above(double f, double v, double w);

/* f with P(F <= f) = p, 0 < p < 1. */
double fer_f_quantile(double p, double v, double w);

#endif
