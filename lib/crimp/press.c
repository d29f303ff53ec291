/* SPDX-License-Identifier: MIT */
/* Dial setting, crimp diameter of a setting, clearance, use of the capacity.
 * Method: sums in double-double arithmetic, rounded once.
 * Formulas: include/ferrule/press.h; docs/press.md. */
#include <ferrule/press.h>

#include "crimp/die_private.h"
#include "crimp/press_private.h"
#include "base/value_private.h"
#include "base/numeric/pair.h"

static fer_dial_scale scale_of(const fer_press *press)
{
    const fer_dial_scale scale = {press->graduation, press->dial_maximum};
    return scale;
}

fer_status fer_check_press_rules(const fer_press *press, fer_fault_visitor *faults)
{
    const double capacity = press->capacity.newton;
    FER_RULE(faults, fer_press, graduation,
             fer_unless(fer_is_graduation_or_none(press->graduation), FER_PRESS_GRADUATION_OUT_OF_RANGE));
    FER_RULE(faults, fer_press, correction,
             fer_unless(fabs(press->correction.mm) <= 100.0, FER_PRESS_CORRECTION_OUT_OF_RANGE));
    FER_RULE(faults, fer_press, dial_maximum,
             fer_unless(fer_is_dial_end_or_none(press->dial_maximum), FER_PRESS_DIAL_RANGE_OUT_OF_RANGE));
    FER_RULE(faults, fer_press, opening,
             fer_unless(fer_is_length_or_none(press->opening), FER_PRESS_OPENING_OUT_OF_RANGE));
    FER_RULE(faults, fer_press, capacity,
             fer_unless(capacity >= 0.0 && fer_is_finite(capacity), FER_PRESS_CAPACITY_OUT_OF_RANGE));
    FER_RULE(faults, fer_press, segments,
             fer_unless(press->segments == 0 || fer_is_segments(press->segments),
                        FER_PRESS_SEGMENTS_OUT_OF_RANGE));
    return FER_OK;
}

fer_status fer_check_press(const fer_press *press)
{
    FER_REQUIRE(press, FER_ARGUMENT_MISSING);
    return fer_check_press_rules(press, NULL);
}

static fer_status check_press_and_die(const fer_press *press, const fer_die *die)
{
    FER_REQUIRE(press && die, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_press(press));
    return fer_check_die(die);
}

fer_status fer_dial_setting_checked(const fer_press *press, fer_length die_size, fer_length target,
                                    fer_dial *dial)
{
    const fer_pair exact =
        fer_pair_add(fer_pair_sum(target.mm, -die_size.mm), fer_pair_of(press->correction.mm));
    const double setting = fer_round_to_graduation(fer_pair_value(exact), press->graduation.mm);
    const fer_dial_scale scale = scale_of(press);
    FER_TRY(fer_check_setting(&scale, setting));
    const fer_pair remainder = fer_pair_subtract(fer_pair_of(setting), exact);
    dial->exact.mm = fer_pair_value(exact);
    dial->setting.mm = setting;
    dial->remainder.mm = fer_pair_value(remainder);
    dial->expected.mm = fer_pair_value(fer_pair_add(fer_pair_of(target.mm), remainder));
    return FER_OK;
}

fer_status fer_dial_setting(const fer_press *press, const fer_die *die, fer_length target, fer_dial *dial)
{
    FER_REQUIRE(dial, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*dial);
    FER_TRY(check_press_and_die(press, die));
    FER_TRY(fer_check_length(target, FER_TARGET_MISSING, FER_TARGET_OUT_OF_RANGE));
    FER_REQUIRE(die->size.mm <= target.mm, FER_DIE_ABOVE_DIAMETER);
    return fer_dial_setting_checked(press, die->size, target, dial);
}

static fer_status find_dialled_diameter(const fer_press *press, const fer_die *die, double setting,
                                        fer_length *diameter)
{
    FER_TRY(check_press_and_die(press, die));
    FER_REQUIRE(setting >= 0.0 && setting <= FER_LENGTH_MAXIMUM_MM, FER_DIAL_SETTING_OUT_OF_RANGE);
    const fer_dial_scale scale = scale_of(press);
    FER_TRY(fer_check_setting(&scale, setting));
    diameter->mm =
        fer_pair_value(fer_pair_add(fer_pair_sum(setting, -press->correction.mm), fer_pair_of(die->size.mm)));
    if (!fer_is_length(*diameter)) {
        FER_LEAVE_OUT(*diameter);
        return FER_DIAMETER_OUT_OF_RANGE;
    }
    return FER_OK;
}

fer_status fer_dialled_diameter(const fer_press *press, const fer_die *die, fer_length setting,
                                fer_length *diameter)
{
    FER_REQUIRE(diameter, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*diameter);
    return find_dialled_diameter(press, die, setting.mm, diameter);
}

fer_length fer_opening_clearance_checked(const fer_press *press, fer_length die_size, fer_length widest)
{
    const fer_pair open = fer_pair_sum(die_size.mm, press->opening.mm);
    const fer_length clearance = {fer_pair_value(fer_pair_add(open, fer_pair_of(-widest.mm)))};
    return clearance;
}

fer_status fer_opening_clearance(const fer_press *press, const fer_die *die, fer_length widest,
                                 fer_length *clearance)
{
    FER_REQUIRE(clearance, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*clearance);
    FER_TRY(check_press_and_die(press, die));
    FER_REQUIRE(press->opening.mm > 0.0, FER_PRESS_OPENING_MISSING);
    FER_TRY(fer_check_length(widest, FER_WIDEST_DIAMETER_MISSING, FER_WIDEST_DIAMETER_OUT_OF_RANGE));
    *clearance = fer_opening_clearance_checked(press, die->size, widest);
    return FER_OK;
}

fer_status fer_capacity_use_checked(const fer_press *press, fer_force force, fer_ratio *use)
{
    FER_REQUIRE(press->capacity.newton > 0.0, FER_PRESS_CAPACITY_MISSING);
    const double share = force.newton / press->capacity.newton; /* a tiny capacity makes it infinite */
    FER_REQUIRE(force.newton >= 0.0 && fer_is_finite(share), FER_FORCE_OUT_OF_RANGE);
    use->fraction = share;
    return FER_OK;
}

fer_status fer_capacity_use(const fer_press *press, fer_force force, fer_ratio *use)
{
    FER_REQUIRE(use, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*use);
    FER_TRY(fer_check_press(press));
    return fer_capacity_use_checked(press, force, use);
}
