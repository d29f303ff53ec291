/* SPDX-License-Identifier: MIT */
/* Half the angle of a segment, and sines, with all digits. */
#ifndef FER_NUMERIC_ANGLE_H
#define FER_NUMERIC_ANGLE_H

#include "base/numeric/pair.h"

/* pi. */
fer_pair fer_pi_pair(void);
/* pi/N. */
fer_pair fer_half_angle_pair(int segments);
/* Sine of an angle from 0 to pi/3. */
fer_pair fer_sine_pair(fer_pair angle);

#endif
