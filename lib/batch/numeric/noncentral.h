/* SPDX-License-Identifier: MIT */
/* Noncentral t distribution. Arguments have been checked: degrees v at least 1, at most 1e6; shift delta up to 1000 either way; t finite. */
#ifndef FER_BATCH_NONCENTRAL_H
#define FER_BATCH_NONCENTRAL_H

/* P(T <= t), 1e-12 absolute. */
double fer_noncentral_cdf(double t, double v, double delta);

/* t with P(T <= t) = p, 0 < p < 1. */
double fer_noncentral_quantile(double p, double v, double delta);

/* delta with P(T <= t) = p, 0 < p < 1. */
double fer_noncentral_shift(double p, double t, double v);

#endif
