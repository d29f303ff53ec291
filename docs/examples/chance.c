/* SPDX-License-Identifier: MIT */
#include "worked.h"

#include <stdio.h>

int main(void)
{
    const fer_uncertainties uncertainties = {
        .hose_inside = {.amount = {0.08}},
        .hose_outside = {.amount = {0.10}},
        .stem_outside = {.amount = {0.02}},
        .ferrule_wall = {.amount = {0.03}},
        .diameter = {.amount = {0.05}},
    };
    const fer_ratio_range range = {fer_percent(15), fer_percent(25)};
    const fer_model ends_fixed = {.flow = FER_FLOW_ENDS_FIXED};
    fer_joint joint = worked;
    fer_tally tally;
    fer_simulation found;
    joint.ferrule.outside = fer_mm(25.6);
    if (fer_simulate_to_digits(&joint, &uncertainties, range, fer_mm(23.9), 2, ends_fixed,
                               (fer_trials){.seed = 1}, &tally, &found) != FER_OK) {
        return 1;
    }
    printf("ends fixed: %.1f %%, standard uncertainty %.1f points, 95 %% from %.1f to %.1f %%\n",
           fer_to_percent(found.mean), fer_to_percent(found.standard_uncertainty),
           fer_to_percent(found.interval.lower), fer_to_percent(found.interval.upper));
    printf("%s after %llu trials\n", found.settled ? "settled" : "not settled",
           (unsigned long long)found.trials);
    return 0;
}
