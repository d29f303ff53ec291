/* SPDX-License-Identifier: MIT */
/* Whether hose, stem and ferrule can be a joint; the hose once it is on the stem.
 * Method: comparisons; constant cross-section in double-double arithmetic (crimp/joint_private.h).
 * Formulas: include/ferrule/joint.h; docs/joint.md. */
#include <ferrule/joint.h>

#include "base/faults.h"
#include "crimp/joint_private.h"

static fer_status check_hose(const fer_hose *hose, fer_fault_visitor *faults)
{
    const double wall = hose->outside.mm - hose->inside.mm;
    FER_RULE(faults, fer_joint, hose.inside,
             fer_check_length(hose->inside, FER_HOSE_INSIDE_MISSING, FER_HOSE_INSIDE_OUT_OF_RANGE));
    FER_RULE(faults, fer_joint, hose.outside,
             fer_check_length(hose->outside, FER_HOSE_OUTSIDE_MISSING, FER_HOSE_OUTSIDE_OUT_OF_RANGE));
    FER_RULE_BETWEEN(faults, fer_joint, hose.outside, hose.inside, hose.inside,
                     fer_unless(wall > 0.0, FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE));
    FER_RULE(faults, fer_joint, hose.reinforcement,
             fer_unless(fer_is_length_or_none(hose->reinforcement), FER_HOSE_REINFORCEMENT_OUT_OF_RANGE));
    FER_RULE_BETWEEN(faults, fer_joint, hose.reinforcement, hose.outside, hose.inside,
                     fer_unless(2.0 * hose->reinforcement.mm < wall, FER_HOSE_REINFORCEMENT_OUT_OF_RANGE));
    return FER_OK;
}

static fer_status check_stem(const fer_stem *stem, const fer_hose *hose, fer_fault_visitor *faults)
{
    FER_RULE(faults, fer_joint, stem.outside,
             fer_check_length(stem->outside, FER_STEM_OUTSIDE_MISSING, FER_STEM_OUTSIDE_OUT_OF_RANGE));
    FER_RULE_BETWEEN(
        faults, fer_joint, stem.outside, hose.outside, hose.outside,
        fer_unless(stem->outside.mm < hose->outside.mm, FER_STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE));
    FER_RULE(faults, fer_joint, stem.bore,
             fer_unless(fer_is_length_or_none(stem->bore), FER_STEM_BORE_OUT_OF_RANGE));
    FER_RULE_BETWEEN(faults, fer_joint, stem.bore, stem.outside, stem.outside,
                     fer_unless(stem->bore.mm < stem->outside.mm, FER_STEM_BORE_OUT_OF_RANGE));
    return FER_OK;
}

static fer_status check_ferrule(const fer_ferrule *ferrule, const fer_stem *stem, fer_fault_visitor *faults)
{
    const double bore = ferrule->outside.mm - 2.0 * ferrule->wall.mm;
    FER_RULE(faults, fer_joint, ferrule.wall,
             fer_check_length(ferrule->wall, FER_FERRULE_WALL_MISSING, FER_FERRULE_WALL_OUT_OF_RANGE));
    FER_RULE(faults, fer_joint, ferrule.outside,
             fer_unless(fer_is_length_or_none(ferrule->outside), FER_FERRULE_OUTSIDE_OUT_OF_RANGE));
    FER_RULE_BETWEEN(
        faults, fer_joint, ferrule.outside, ferrule.wall, stem.outside,
        fer_unless(ferrule->outside.mm == 0.0 || bore > stem->outside.mm, FER_FERRULE_BORE_NOT_ABOVE_STEM));
    FER_RULE(faults, fer_joint, ferrule.length,
             fer_unless(fer_is_length_or_none(ferrule->length), FER_FERRULE_LENGTH_OUT_OF_RANGE));
    return FER_OK;
}

fer_status fer_check_joint_rules(const fer_joint *joint, fer_fault_visitor *faults)
{
    FER_TRY(check_hose(&joint->hose, faults));
    FER_TRY(check_stem(&joint->stem, &joint->hose, faults));
    return check_ferrule(&joint->ferrule, &joint->stem, faults);
}

fer_status fer_check_joint(const fer_joint *joint)
{
    FER_REQUIRE(joint, FER_ARGUMENT_MISSING);
    return fer_check_joint_rules(joint, NULL);
}

static fer_status find_fitted_outside(const fer_joint *joint, fer_length *outside)
{
    FER_TRY(fer_check_joint(joint));
    outside->mm = fer_pair_value(fer_fitted_outside_pair(joint));
    return FER_OK;
}

fer_status fer_fitted_outside(const fer_joint *joint, fer_length *outside)
{
    FER_REQUIRE(outside, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*outside);
    return find_fitted_outside(joint, outside);
}
