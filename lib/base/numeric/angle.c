/* SPDX-License-Identifier: MIT */
/* Half the angle of a segment and its sine, with more digits than a double has.
 * Method: double-double arithmetic; the sine is the angle minus the rest of its series, a sixth of the cube by a double.
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

/* The angle and its cube with all digits; the rest of the series, which the cube is multiplied by, in doubles. */
fer_pair fer_sine_pair(fer_pair angle)
{
    static const fer_pair sixth = {1.0 / 6.0, 9.25185853854297e-18};
    const fer_pair square = fer_pair_multiply(angle, angle);
    const fer_pair part = fer_pair_multiply(fer_pair_multiply(square, angle), sixth);
    double rest = 1.0;
    for (int n = 18; n >= 4; n -= 2) {
        rest = 1.0 - square.high / (n * (n + 1)) * rest;
    }
    return fer_pair_subtract(angle, fer_pair_multiply(part, fer_pair_of(rest)));
}
