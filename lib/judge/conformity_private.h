/* SPDX-License-Identifier: MIT */
/* What other modules need of verdicts. */
#ifndef FER_CONFORMITY_PRIVATE_H
#define FER_CONFORMITY_PRIVATE_H

#include <ferrule/conformity.h>

#include "base/numeric/zone.h"

/* What a verdict is after a failure. */
void fer_leave_out_verdict(fer_verdict *verdict);

/* Checks what fer_find_risks() takes, and fills the rule that judges. */
fer_status fer_take_risks(const fer_process *process, fer_length standard_uncertainty,
                          fer_length_range limits, fer_guard guard, fer_judging *judging);

/* Consumer's and producer's risk by a rule that was checked. */
void fer_risks_of(const fer_process *process, const fer_judging *judging, fer_risks *risks);

#endif
