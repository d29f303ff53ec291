/* SPDX-License-Identifier: MIT */
/* Checks that every module makes, all written so that NaN fails them; results that are not there;
 * severities; what a dial can show. */
#ifndef FER_VALUE_PRIVATE_H
#define FER_VALUE_PRIVATE_H

#include <ferrule/value.h>
#include <math.h>
#include <string.h>

#include "base/numeric/strict.h"

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

/* ---- results that are not there ------------------------------------------------------------------------- */

/* Bytes that hold doubles and nothing else. */
void fer_fill_nan(void *numbers, size_t bytes);

static inline void fer_set_nan(void *numbers, size_t bytes)
{
    const double nan = NAN;
    if (bytes == sizeof nan) {
        memcpy(numbers, &nan, sizeof nan);
    } else {
        fer_fill_nan(numbers, bytes);
    }
}

/* The one way to write a result that is not there: NaN into a quantity or a struct that has quantities only, and into
 * neighbours from the first to the last in a struct that has other members, too; those are 0. */
#define FER_LEAVE_OUT(result) fer_set_nan(&(result), sizeof(result))
#define FER_LEAVE_OUT_FROM(type, result, first, last)                                                        \
    fer_set_nan((char *)&(result) + offsetof(type, first),                                                   \
                offsetof(type, last) + sizeof(result).last - offsetof(type, first))
#define FER_EMPTY(result) memset(&(result), 0, sizeof(result))

/* A value that was not found, and why. */
#define FER_NOT_FOUND(found, why)                                                                            \
    do {                                                                                                     \
        FER_LEAVE_OUT((found).value);                                                                        \
        (found).status = (why);                                                                              \
    } while (0)

/* ---- checks -------------------------------------------------------------------------------------------- */

static inline int fer_is_finite(double x)
{
    return x - x == 0.0;
}

static inline int fer_is_length(fer_length x)
{
    return x.mm >= FER_LENGTH_MINIMUM_MM && x.mm <= FER_LENGTH_MAXIMUM_MM;
}

/* Of a length that is needed: 0 was not given, and what is no length is out of range. */
static inline fer_status fer_check_length(fer_length x, fer_status missing, fer_status out_of_range)
{
    FER_REQUIRE(x.mm != 0.0, missing);
    FER_REQUIRE(fer_is_length(x), out_of_range);
    return FER_OK;
}

/* A length that may be left out as 0. */
static inline int fer_is_length_or_none(fer_length x)
{
    return x.mm == 0.0 || fer_is_length(x);
}

static inline int fer_is_segments(int segments)
{
    return segments >= 3 && segments <= 64;
}

/* ---- sets of numbers below 64, as bits ------------------------------------------------------------------- */

static inline int fer_set_has(uint64_t bits, int number)
{
    return (int)(bits >> number & 1u);
}

static inline void fer_set_add(uint64_t *bits, int number)
{
    *bits |= UINT64_C(1) << number;
}

/* ---- severities: the column of a list X(name, number, severity, sentence) -------------------------------- */

/* Numbers of each severity, as sets of bits. */
typedef struct {
    uint64_t of[FER_SEVERITY_KNOW + 1];
} fer_severities;

#define FER_IS_STOP(name, number, severity, sentence)                                                        \
    | (FER_SEVERITY_##severity == FER_SEVERITY_STOP ? UINT64_C(1) << (number) : 0)
#define FER_IS_CONFIRM(name, number, severity, sentence)                                                     \
    | (FER_SEVERITY_##severity == FER_SEVERITY_CONFIRM ? UINT64_C(1) << (number) : 0)
#define FER_IS_DO(name, number, severity, sentence)                                                          \
    | (FER_SEVERITY_##severity == FER_SEVERITY_DO_FIRST ? UINT64_C(1) << (number) : 0)
#define FER_IS_KNOW(name, number, severity, sentence)                                                        \
    | (FER_SEVERITY_##severity == FER_SEVERITY_KNOW ? UINT64_C(1) << (number) : 0)
#define FER_SEVERITIES_OF(list)                                                                              \
    {                                                                                                        \
        {                                                                                                    \
            0 list(FER_IS_STOP), 0 list(FER_IS_CONFIRM), 0 list(FER_IS_DO), 0 list(FER_IS_KNOW)              \
        }                                                                                                    \
    }

/* Severity of a number; the gravest for one that is not in the list. */
fer_severity fer_severity_among(const fer_severities *severities, int number);

/* ---- dials -------------------------------------------------------------------------------------------- */

static inline int fer_is_graduation(fer_length x)
{
    return x.mm >= 0.0001 && x.mm <= 10.0;
}

static inline int fer_is_graduation_or_none(fer_length x)
{
    return x.mm == 0.0 || fer_is_graduation(x);
}

static inline int fer_is_dial_end_or_none(fer_length x)
{
    return x.mm >= 0.0 && x.mm <= FER_LENGTH_MAXIMUM_MM;
}

/* Whole steps of the dial. A setting halfway between two goes up; a billionth of a step decides nothing, so that
 * halves which no double can hold (0.15 in steps of 0.1) go up, too. */
static inline double fer_round_to_graduation(double setting, double graduation)
{
    if (graduation == 0.0) {
        return setting;
    }
    return floor(setting / graduation + 0.5 + 1e-9) * graduation;
}

static inline fer_status fer_check_setting(const fer_dial_scale *scale, double setting)
{
    FER_REQUIRE(setting >= 0.0, FER_DIAL_SETTING_BELOW_ZERO);
    FER_REQUIRE(scale->maximum.mm == 0.0 || setting <= scale->maximum.mm, FER_DIAL_SETTING_ABOVE_RANGE);
    return FER_OK;
}

#endif
