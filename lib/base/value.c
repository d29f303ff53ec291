/* SPDX-License-Identifier: MIT */
/* Fills a result that is not there with NaN.
 * Method: a copy of one NaN into each double.
 * Formulas: none; the macros that call it are in base/value_private.h. */
#include "base/value_private.h"

void fer_fill_nan(void *numbers, size_t bytes)
{
    const double nan = NAN;
    for (char *at = (char *)numbers, *end = at + bytes; at < end; at += sizeof nan) {
        memcpy(at, &nan, sizeof nan);
    }
}
