/* SPDX-License-Identifier: MIT */
/* Mean and standard deviation that keep their last digits: sums in double-double, two passes.
 *
 * First pass: fer_sum_add() for every number, then fer_sum_mean(). Second pass: fer_square_add() for every number.
 */
#ifndef FER_NUMERIC_MOMENTS_H
#define FER_NUMERIC_MOMENTS_H

#include <stddef.h>

#include "base/numeric/pair.h"

typedef struct {
    fer_pair total;
    size_t count;
} fer_sum;

void fer_sum_add(fer_sum *sum, double x);
fer_pair fer_sum_mean(const fer_sum *sum);
/* Adds the square of a number's distance from the mean. */
void fer_square_add(fer_sum *squares, double x, fer_pair mean);
/* Standard deviation from the sum of squares, one degree of freedom lost to the mean. */
double fer_square_deviation(const fer_sum *squares);

#endif
