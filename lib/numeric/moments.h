/* SPDX-License-Identifier: MIT */
/* Mean and standard deviation that keep their last digits: sums in double-double, two passes.
 *
 * First pass: fer_sum_add() for every number, then fer_sum_mean(). Second pass: fer_square_add() for every number.
 */
#ifndef FER_NUMERIC_MOMENTS_H
#define FER_NUMERIC_MOMENTS_H

#include <stddef.h>

#include "numeric/pair.h"

typedef struct {
    fer_pair total;
    size_t count;
} fer_sum;

static inline void fer_sum_add(fer_sum *sum, double x)
{
    sum->total = fer_pair_add(sum->total, fer_pair_of(x));
    sum->count++;
}

static inline fer_pair fer_sum_mean(const fer_sum *sum)
{
    return fer_pair_divide(sum->total, fer_pair_of((double)sum->count));
}

/* Adds the square of a number's distance from the mean. */
static inline void fer_square_add(fer_sum *squares, double x, fer_pair mean)
{
    const fer_pair away = fer_pair_subtract(fer_pair_of(x), mean);
    squares->total = fer_pair_add(squares->total, fer_pair_multiply(away, away));
    squares->count++;
}

/* Standard deviation from the sum of squares, one degree of freedom lost to the mean. */
static inline double fer_square_deviation(const fer_sum *squares)
{
    return sqrt(fer_pair_value(squares->total) / (double)(squares->count - 1));
}

#endif
