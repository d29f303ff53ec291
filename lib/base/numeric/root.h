/* SPDX-License-Identifier: MIT */
/* The root of a rising function between two ends: Newton's step where it stays inside and becomes
 * shorter, halving otherwise. */
#ifndef FER_NUMERIC_ROOT_H
#define FER_NUMERIC_ROOT_H

#include "base/numeric/strict.h"

#include <float.h>
#include <math.h>

/* Value of the function at x; writes its slope. */
typedef double fer_root_function(double x, const void *context, double *slope);

/* The function is not above zero at low, above zero at high, and rises between them; the start may be one of them. Ends
 * when a step changes x by no more than `tolerance` of it (DBL_EPSILON: its last place), and that always comes: a turn halves the distance between the ends,
 * or its step is at most half as long as the one before, and no run of such steps is longer than a double has places. */
static inline double fer_rising_root(fer_root_function *function, const void *context, double low,
                                     double high, double start, double tolerance)
{
    double x = start >= low && start <= high ? start : 0.5 * (low + high);
    double before = high - low, change, minimum_change;
    do {
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
        /* a step that is rounded to nothing stays where it is, which is an end by now; an infinite slope is no such step */
        if (!(next >= low && next <= high && fabs(next - x) <= 0.5 * before && slope < INFINITY)) {
            next = 0.5 * (low + high);
        }
        change = fabs(next - x);
        minimum_change = tolerance * fabs(x);
        before = change;
        x = next;
    } while (change > minimum_change);
    return x;
}

#endif
