/* SPDX-License-Identifier: MIT */
/* Mean and standard deviation that keep their last digits.
 * Method: sums in double-double arithmetic, in two passes.
 * Formulas: base/numeric/moments.h. */
#include "base/numeric/moments.h"

void fer_sum_add(fer_sum *sum, double x)
{
    sum->total = fer_pair_add(sum->total, fer_pair_of(x));
    sum->count++;
}

fer_pair fer_sum_mean(const fer_sum *sum)
{
    return fer_pair_divide(sum->total, fer_pair_of((double)sum->count));
}

void fer_square_add(fer_sum *squares, double x, fer_pair mean)
{
    const fer_pair away = fer_pair_subtract(fer_pair_of(x), mean);
    squares->total = fer_pair_add(squares->total, fer_pair_multiply(away, away));
    squares->count++;
}

double fer_square_deviation(const fer_sum *squares)
{
    return sqrt(fer_pair_value(squares->total) / (double)(squares->count - 1));
}
