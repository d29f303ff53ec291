/* SPDX-License-Identifier: MIT */
#include <ferrule/press.h>

#include "check_die.h"
#include "dial_step.h"
#include "numeric/check.h"
#include "numeric/pair.h"

fer_status fer_check_press(const fer_press *press)
{
    FER_REQUIRE(press, FER_ARGUMENT_MISSING);
    const double graduation = press->graduation.mm, capacity = press->capacity.newton;
    FER_REQUIRE(graduation == 0.0 || (graduation >= 0.0001 && graduation <= 10.0),
                FER_PRESS_GRADUATION_OUT_OF_RANGE);
    FER_REQUIRE(fabs(press->correction.mm) <= 100.0, FER_PRESS_CORRECTION_OUT_OF_RANGE);
    FER_REQUIRE(press->dial_maximum.mm >= 0.0 && press->dial_maximum.mm <= FER_LENGTH_MAXIMUM_MM,
                FER_PRESS_DIAL_RANGE_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_length_or_none(press->opening), FER_PRESS_OPENING_OUT_OF_RANGE);
    FER_REQUIRE(capacity >= 0.0 && fer_is_finite(capacity), FER_PRESS_CAPACITY_OUT_OF_RANGE);
    FER_REQUIRE(press->segments == 0 || (press->segments >= 3 && press->segments <= 64),
                FER_PRESS_SEGMENTS_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_press_and_die(const fer_press *press, const fer_die *die)
{
    FER_REQUIRE(press && die, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_press(press));
    return fer_check_die(die);
}

static fer_status find_setting(const fer_press *press, const fer_die *die, fer_length target, fer_dial *dial)
{
    FER_TRY(check_press_and_die(press, die));
    FER_REQUIRE(fer_is_length(target), FER_TARGET_OUT_OF_RANGE);
    FER_REQUIRE(die->size.mm <= target.mm, FER_DIE_ABOVE_DIAMETER);
    const fer_pair exact =
        fer_pair_add(fer_pair_sum(target.mm, -die->size.mm), fer_pair_of(press->correction.mm));
    const double setting = fer_round_to_graduation(fer_pair_value(exact), press->graduation.mm);
    FER_TRY(fer_check_setting(press, setting));
    const fer_pair remainder = fer_pair_subtract(fer_pair_of(setting), exact);
    dial->exact.mm = fer_pair_value(exact);
    dial->setting.mm = setting;
    dial->remainder.mm = fer_pair_value(remainder);
    dial->expected.mm = fer_pair_value(fer_pair_add(fer_pair_of(target.mm), remainder));
    return FER_OK;
}

fer_status fer_dial_setting(const fer_press *press, const fer_die *die, fer_length target, fer_dial *dial)
{
    const fer_dial none = {{NAN}, {NAN}, {NAN}, {NAN}};
    FER_REQUIRE(dial, FER_ARGUMENT_MISSING);
    *dial = none;
    return find_setting(press, die, target, dial);
}

static fer_status find_dialled_diameter(const fer_press *press, const fer_die *die, double setting,
                                        fer_length *diameter)
{
    FER_TRY(check_press_and_die(press, die));
    FER_REQUIRE(setting >= 0.0 && setting <= FER_LENGTH_MAXIMUM_MM, FER_DIAL_SETTING_OUT_OF_RANGE);
    FER_TRY(fer_check_setting(press, setting));
    diameter->mm =
        fer_pair_value(fer_pair_add(fer_pair_sum(setting, -press->correction.mm), fer_pair_of(die->size.mm)));
    if (!fer_is_length(*diameter)) {
        diameter->mm = NAN;
        return FER_DIAMETER_OUT_OF_RANGE;
    }
    return FER_OK;
}

fer_status fer_dialled_diameter(const fer_press *press, const fer_die *die, fer_length setting,
                                fer_length *diameter)
{
    FER_REQUIRE(diameter, FER_ARGUMENT_MISSING);
    diameter->mm = NAN;
    return find_dialled_diameter(press, die, setting.mm, diameter);
}

static fer_status find_clearance(const fer_press *press, const fer_die *die, fer_length widest,
                                 fer_length *clearance)
{
    FER_TRY(check_press_and_die(press, die));
    FER_REQUIRE(press->opening.mm > 0.0, FER_PRESS_OPENING_MISSING);
    FER_REQUIRE(fer_is_length(widest), FER_WIDEST_DIAMETER_OUT_OF_RANGE);
    clearance->mm =
        fer_pair_value(fer_pair_add(fer_pair_sum(die->size.mm, press->opening.mm), fer_pair_of(-widest.mm)));
    return FER_OK;
}

fer_status fer_opening_clearance(const fer_press *press, const fer_die *die, fer_length widest,
                                 fer_length *clearance)
{
    FER_REQUIRE(clearance, FER_ARGUMENT_MISSING);
    clearance->mm = NAN;
    return find_clearance(press, die, widest, clearance);
}

fer_status fer_capacity_use(const fer_press *press, fer_force force, fer_ratio *use)
{
    FER_REQUIRE(use, FER_ARGUMENT_MISSING);
    use->fraction = NAN;
    FER_TRY(fer_check_press(press));
    FER_REQUIRE(press->capacity.newton > 0.0, FER_PRESS_CAPACITY_MISSING);
    const double share = force.newton / press->capacity.newton; /* a tiny capacity makes it infinite */
    FER_REQUIRE(force.newton >= 0.0 && fer_is_finite(share), FER_FORCE_OUT_OF_RANGE);
    use->fraction = share;
    return FER_OK;
}
