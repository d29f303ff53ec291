/* SPDX-License-Identifier: MIT */
#include "base/value_private.h"

void fer_fill_nan(void *numbers, size_t bytes)
{
    const double nan = NAN;
    for (char *at = (char *)numbers, *end = at + bytes; at < end; at += sizeof nan) {
        memcpy(at, &nan, sizeof nan);
    }
}
