/* SPDX-License-Identifier: MIT */
/* What happens where the program that calls has changed how its processor calculates: rounding upwards, downwards, towards
 * zero; numbers below the normal ones taken as 0. The library leaves the mode alone and does not ask for it. Every function
 * has to come back, with the same status, no NaN where there was none, and figures that differ by at most a share of
 * MISS_MAXIMUM. The last digits, and so the promise of the same bits everywhere, hold for rounding to nearest only. */
#include "everything.h"

#include <fenv.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#if defined(__x86_64__)
#include <xmmintrin.h>
#endif

static const double miss_maximum = 1e-9;

static double largest_miss(const answers *found, const answers *expected)
{
    double largest = found->count == expected->count ? 0.0 : INFINITY;
    for (size_t i = 0; i < expected->count; i++) {
        const double a = found->values[i], b = expected->values[i];
        const double miss = isnan(a) != isnan(b) ? INFINITY
                            : isnan(b) || a == b ? 0.0
                                                 : fabs(a - b) / fmax(fabs(b), 1e-3);
        if (miss > miss_maximum) {
            fprintf(stderr, "figure %zu: %.17g instead of %.17g\n", i, a, b);
        }
        largest = fmax(largest, miss);
    }
    return largest;
}

static int try_mode(const char *name, const answers *expected)
{
    static answers found;
    static memory_for_rows r;
    call_everything(&found, &r);
    fesetround(FE_TONEAREST);
    const double miss = largest_miss(&found, expected);
    printf("%s: largest difference %.1e of %zu figures\n", name, miss, expected->count);
    return miss <= miss_maximum;
}

int main(void)
{
    static answers expected;
    static memory_for_rows r;
    int good = 1;
    fill_inputs();
    call_everything(&expected, &r);
#ifdef FE_UPWARD
    const struct {
        const char *name;
        int mode;
    } modes[] = {{"upwards", FE_UPWARD}, {"downwards", FE_DOWNWARD}, {"towards zero", FE_TOWARDZERO}};
    for (size_t i = 0; i < sizeof modes / sizeof *modes; i++) {
        if (fesetround(modes[i].mode) == 0) {
            good &= try_mode(modes[i].name, &expected);
        }
    }
#endif
#if defined(__x86_64__)
    const unsigned before = _mm_getcsr();
    _mm_setcsr(before | 0x8040u); /* results and arguments below the normal numbers are 0 */
    good &= try_mode("subnormal numbers as 0", &expected);
    _mm_setcsr(before);
#endif
    return !good;
}
