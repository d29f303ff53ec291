/* SPDX-License-Identifier: MIT */
/* The root of a rising function between two ends: Newton's step where it stays inside, halving otherwise. */
#ifndef FER_NUMERIC_ROOT_H
#define FER_NUMERIC_ROOT_H

#include "base/numeric/strict.h"

#include <float.h>
#include <math.h>

/* Value of the function at x; writes its slope. */
typedef double fer_root_function(double x, const void *context, double *slope);

/* The function is not above zero at low, above zero at high, and rises between them; the start may be one of them. Ends
 * when a step changes x by no more than its last place; a hundred steps are enough for halving alone. */
static inline double fer_rising_root(fer_root_function *function, const void *context, double low,
                                     double high, double start)
{
    double x = start >= low && start <= high ? start : 0.5 * (low + high);
    for (int i = 0; i < 100; i++) {
        double slope = 0.0;
        const double value = function(x, context, &slope);
        if (value == 0.0) {
            return x;
        }
        if (value < 0.0) {
            low = x;
        } else {
            high = x;
        }
        double next = x - value / slope;
        if (!(next > low && next < high)) {
            next = 0.5 * (low + high);
        }
        const double change = fabs(next - x), least_change = DBL_EPSILON * fabs(x);
        x = next;
        if (change <= least_change) {
            break;
        }
    }
    return x;
}

#endif
