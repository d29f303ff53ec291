/* SPDX-License-Identifier: MIT */
/* Half the angle of a segment and its sine, with more digits than a double has.
 * Method: double-double arithmetic; the sine is the angle minus the rest of its series.
 * Formulas: base/numeric/angle.h. */
#include "base/numeric/angle.h"

#include "base/numeric/strict.h"
#include "base/numeric/pi.h"

fer_pair fer_pi_pair(void)
{
    const fer_pair exact = {pi, 1.2246467991473532e-16};
    return exact;
}

fer_pair fer_half_angle_pair(int segments)
{
    return fer_pair_divide(fer_pi_pair(), fer_pair_of(segments));
}

/* The angle itself with all digits, and what is to be taken off, which is small, by its series in doubles. */
fer_pair fer_sine_pair(fer_pair angle)
{
    const double square = angle.high * angle.high;
    double rest = 1.0;
    for (int n = 18; n >= 4; n -= 2) {
        rest = 1.0 - square / (n * (n + 1)) * rest;
    }
    return fer_pair_quick_sum(angle.high, angle.low - angle.high * (square / 6.0) * rest);
}
