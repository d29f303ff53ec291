/* SPDX-License-Identifier: MIT */
/* Fills a result that is not there with NaN; finds the severity of a number of a list.
 * Method: a copy of one NaN into each double; a set of numbers for each severity.
 * Formulas: none; the macros that call it are in base/value_private.h. */
#include "base/value_private.h"

void fer_fill_nan(void *numbers, size_t bytes)
{
    const double nan = NAN;
    for (char *at = (char *)numbers, *end = at + bytes; at < end; at += sizeof nan) {
        memcpy(at, &nan, sizeof nan);
    }
}

fer_severity fer_severity_among(const fer_severities *severities, int number)
{
    const uint64_t bit = number >= 0 && number < 64 ? UINT64_C(1) << number : 0;
    int severity = FER_SEVERITY_KNOW;
    while (severity > FER_SEVERITY_STOP && !(severities->of[severity] & bit)) {
        severity--;
    }
    return (fer_severity)severity;
}
