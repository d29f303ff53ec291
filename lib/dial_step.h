/* SPDX-License-Identifier: MIT */
/* What the dial can show: wanted by the first setting and by every later one. */
#ifndef FER_DIAL_STEP_H
#define FER_DIAL_STEP_H

#include <ferrule/press.h>

#include "numeric/check.h"

/* Whole steps of the dial. A setting halfway between two goes up; a billionth of a step decides nothing, so that
 * halves which no double can hold (0.15 in steps of 0.1) go up, too. */
static inline double fer_round_to_graduation(double setting, double graduation)
{
    if (graduation == 0.0) {
        return setting;
    }
    return floor(setting / graduation + 0.5 + 1e-9) * graduation;
}

static inline fer_status fer_check_setting(const fer_press *press, double setting)
{
    FER_REQUIRE(setting >= 0.0, FER_DIAL_SETTING_BELOW_ZERO);
    FER_REQUIRE(press->dial_maximum.mm == 0.0 || setting <= press->dial_maximum.mm,
                FER_DIAL_SETTING_ABOVE_RANGE);
    return FER_OK;
}

#endif
