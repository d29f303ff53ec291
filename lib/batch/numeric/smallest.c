/* SPDX-License-Identifier: MIT */
/* The smallest number of pieces that does.
 * Method: steps that double, then halving.
 * Formulas: none. */
#include "batch/numeric/smallest.h"

#include "base/numeric/strict.h"

size_t fer_smallest_number(fer_number_does *does, const void *context, size_t low, size_t greatest)
{
    size_t step = 1, high = low + 1;
    while (!does(high, context)) {
        if (high >= greatest) {
            return 0;
        }
        low = high;
        step *= 2;
        high = step < greatest - low ? low + step : greatest;
    }
    while (high - low > 1) {
        const size_t middle = low + (high - low) / 2;
        if (does(middle, context)) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return high;
}
