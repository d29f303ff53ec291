/* SPDX-License-Identifier: MIT */
/* Mean run lengths of weighted means and of cumulative sums of independent normal numbers, and the root that gives a limit. Arguments
 * have been checked: weight 0.05 to 1, limit 0.5 to 6, allowance 0.1 to 3, decision limit up to 20, shift 0 to 6. */
#ifndef FER_BATCH_RUN_LENGTH_H
#define FER_BATCH_RUN_LENGTH_H

/* Widest limit of a weighted mean: its kernel is then resolved by the points that there are. */
double fer_widest_limit(double weight);

/* Numbers up to the first beyond the limit, begun at 0; fixed limits of so many standard deviations of the weighted mean, either side.
 * A run length beyond 1e12 may come out as anything but a number from 1 to 1e9. */
double fer_ewma_run_length(double weight, double limit, double shift);

/* Numbers up to the first sum beyond the decision limit, on either side; the same holds beyond 1e12. */
double fer_cusum_run_length(double allowance, double decision, double shift);

/* Where a function that rises from low to high, both above 0, is 0 to 1e-6 at least, by the secant method between ends that it narrows,
 * from a start between them; NaN where it is 0 nowhere. What is not a number counts as above 0. */
typedef double fer_secant_function(double x, const void *context);
double fer_secant_root(fer_secant_function *function, const void *context, double low, double high,
                       double start);

#endif
