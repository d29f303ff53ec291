/* SPDX-License-Identifier: MIT */
/* Range of n standard normal numbers, and what makes standard deviations of ranges and of samples unbiased. n from 2 to 100. */
#ifndef FER_BATCH_RANGES_H
#define FER_BATCH_RANGES_H

/* P(W <= w), w not negative; 1e-13 absolute. Writes the density where it is wanted. */
double fer_range_cdf(double w, int n, double *density);

/* w with P(W <= w) = p, 0 < p < 1. */
double fer_range_quantile(double p, int n);

/* q with P(W <= q S) = p, S the root of chi-square by its degrees of freedom, at least 1, and independent of W. */
double fer_studentized_range_quantile(double p, int n, double degrees);

/* Mean and standard deviation of W. */
double fer_range_mean(int n);      /* d2 */
double fer_range_deviation(int n); /* d3 */

/* Mean of the standard deviation of n standard normal numbers, n >= 2: c4. */
double fer_deviation_mean(double n);

#endif
