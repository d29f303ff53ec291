/* SPDX-License-Identifier: MIT */
/* Whether hose, stem and ferrule can be a joint; the hose once it is on the stem.
 * Method: comparisons; constant cross-section in double-double arithmetic (crimp/joint_private.h).
 * Formulas: include/ferrule/joint.h; docs/joint.md. */
#include <ferrule/joint.h>

#include "base/value_private.h"
#include "crimp/joint_private.h"

static fer_status check_hose(const fer_hose *hose)
{
    const double wall = hose->outside.mm - hose->inside.mm;
    const double layer = hose->reinforcement.mm;
    FER_TRY(fer_check_length(hose->inside, FER_HOSE_INSIDE_MISSING, FER_HOSE_INSIDE_OUT_OF_RANGE));
    FER_TRY(fer_check_length(hose->outside, FER_HOSE_OUTSIDE_MISSING, FER_HOSE_OUTSIDE_OUT_OF_RANGE));
    FER_REQUIRE(wall > 0.0, FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE);
    FER_REQUIRE(layer == 0.0 || (layer >= FER_LENGTH_MINIMUM_MM && 2.0 * layer < wall),
                FER_HOSE_REINFORCEMENT_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_stem(const fer_stem *stem, const fer_hose *hose)
{
    FER_TRY(fer_check_length(stem->outside, FER_STEM_OUTSIDE_MISSING, FER_STEM_OUTSIDE_OUT_OF_RANGE));
    FER_REQUIRE(stem->outside.mm < hose->outside.mm, FER_STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE);
    FER_REQUIRE(fer_is_length_or_none(stem->bore) && stem->bore.mm < stem->outside.mm,
                FER_STEM_BORE_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_ferrule(const fer_ferrule *ferrule, const fer_stem *stem)
{
    FER_TRY(fer_check_length(ferrule->wall, FER_FERRULE_WALL_MISSING, FER_FERRULE_WALL_OUT_OF_RANGE));
    FER_REQUIRE(fer_is_length_or_none(ferrule->outside), FER_FERRULE_OUTSIDE_OUT_OF_RANGE);
    FER_REQUIRE(ferrule->outside.mm == 0.0 || ferrule->outside.mm - 2.0 * ferrule->wall.mm > stem->outside.mm,
                FER_FERRULE_BORE_NOT_ABOVE_STEM);
    FER_REQUIRE(fer_is_length_or_none(ferrule->length), FER_FERRULE_LENGTH_OUT_OF_RANGE);
    return FER_OK;
}

fer_status fer_check_joint(const fer_joint *joint)
{
    FER_REQUIRE(joint, FER_ARGUMENT_MISSING);
    FER_TRY(check_hose(&joint->hose));
    FER_TRY(check_stem(&joint->stem, &joint->hose));
    return check_ferrule(&joint->ferrule, &joint->stem);
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
