/* SPDX-License-Identifier: MIT */
/* What every C test needs: cmocka, the library, and comparisons that say what they expected. */
#ifndef FER_TEST_CHECK_H
#define FER_TEST_CHECK_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <ferrule/ferrule.h>

/* A value from a publication, where it is checked: publication, place, and how it came here, with "; " between. The manual's page of
 * outside values is made from these (tests/agree/vectors/outside.py). */
#define PUBLISHED(value, source) (value)

/* Fails unless the numbers differ by at most tolerance; NaN fails. */
#define CHECK_NEAR(actual, expected, tolerance)                                                              \
    do {                                                                                                     \
        const double check_actual = (actual), check_expected = (expected);                                   \
        if (!(fabs(check_actual - check_expected) <= (tolerance))) {                                         \
            fail_msg("%s is %.17g, not %.17g", #actual, check_actual, check_expected);                       \
        }                                                                                                    \
    } while (0)

/* Fails unless the call returns the status. */
#define CHECK_STATUS(call, expected)                                                                         \
    do {                                                                                                     \
        const fer_status check_status = (call);                                                              \
        if (check_status != (expected)) {                                                                    \
            fail_msg("%s gives %s, not %s", #call, fer_status_name(check_status),                            \
                     fer_status_name(expected));                                                             \
        }                                                                                                    \
    } while (0)

#define CHECK_OK(call) CHECK_STATUS(call, FER_OK)

/* Fails unless the number is NaN: what a result is after a failure. */
#define CHECK_NAN(actual)                                                                                    \
    do {                                                                                                     \
        if (!isnan(actual)) {                                                                                \
            fail_msg("%s is %.17g, not NaN", #actual, (double)(actual));                                     \
        }                                                                                                    \
    } while (0)

/* At every save there is no time for long draws: the presets `c` and `unit` set FERRULE_DRAWS to few, all others run them whole. */
static inline int draws_are_few(void)
{
    const char *wanted = getenv("FERRULE_DRAWS");
    return wanted && strcmp(wanted, "few") == 0;
}

/* How often something random is tried. */
static inline int draws(int many)
{
    return draws_are_few() ? many / 20 : many;
}

/* The worked joint: invented, not a real product. */
static inline fer_joint worked_joint(void)
{
    fer_joint joint = {0};
    joint.hose.inside = fer_mm(12.7);
    joint.hose.outside = fer_mm(19.9);
    joint.stem.outside = fer_mm(12.95);
    joint.ferrule.wall = fer_mm(2.4);
    joint.ferrule.outside = fer_mm(25.6);
    return joint;
}

#endif
