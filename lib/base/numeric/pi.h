/* SPDX-License-Identifier: MIT */
/* The one pi of the library's own formulas. */
#ifndef FER_NUMERIC_PI_H
#define FER_NUMERIC_PI_H

static const double pi = 3.14159265358979323846;

#endif
