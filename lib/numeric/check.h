/* SPDX-License-Identifier: MIT */
/* Checks that every room makes. All are written so that NaN fails them. */
#ifndef FER_NUMERIC_CHECK_H
#define FER_NUMERIC_CHECK_H

#include <ferrule/joint.h>
#include <math.h>

#include "numeric/strict.h"

/* Ends the calling function with a status where a rule is broken. */
#define FER_REQUIRE(condition, status)                                                                       \
    do {                                                                                                     \
        if (!(condition)) {                                                                                  \
            return (status);                                                                                 \
        }                                                                                                    \
    } while (0)

/* Ends the calling function with the status of a call that failed. */
#define FER_TRY(call)                                                                                        \
    do {                                                                                                     \
        const fer_status fer_try_status = (call);                                                            \
        if (fer_try_status != FER_OK) {                                                                      \
            return fer_try_status;                                                                           \
        }                                                                                                    \
    } while (0)

static inline int fer_is_finite(double x)
{
    return x - x == 0.0;
}

static inline int fer_is_length(fer_length x)
{
    return x.mm >= FER_LENGTH_MINIMUM_MM && x.mm <= FER_LENGTH_MAXIMUM_MM;
}

/* A length that may be left out as 0. */
static inline int fer_is_length_or_none(fer_length x)
{
    return x.mm == 0.0 || fer_is_length(x);
}

#endif
