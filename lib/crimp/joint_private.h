/* SPDX-License-Identifier: MIT */
/* The rules of a joint; the hose once it is on the stem, with the digits that later differences need. */
#ifndef FER_JOINT_PRIVATE_H
#define FER_JOINT_PRIVATE_H

#include <ferrule/joint.h>

#include "base/faults.h"
#include "base/numeric/pair.h"

/* fer_check_joint() of a joint that is there; members are those of fer_joint. */
fer_status fer_check_joint_rules(const fer_joint *joint, fer_fault_visitor *faults);

/* Outside minus inside, squared each: 4/pi times the hose's cross-section. */
static inline fer_pair fer_hose_area_pair(const fer_hose *hose)
{
    return fer_pair_multiply(fer_pair_sum(hose->outside.mm, -hose->inside.mm),
                             fer_pair_sum(hose->outside.mm, hose->inside.mm));
}

/* Outside diameter of the hose on the stem: constant cross-section where the stem widens it. */
static inline fer_pair fer_fitted_outside_pair(const fer_joint *joint)
{
    const double stem = joint->stem.outside.mm;
    if (!(stem > joint->hose.inside.mm)) {
        return fer_pair_of(joint->hose.outside.mm);
    }
    return fer_pair_root(fer_pair_add(fer_hose_area_pair(&joint->hose), fer_pair_product(stem, stem)));
}

#endif
