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
    const fer_length diameter = fer_mm(23.51);
    fer_budget budget;
    fer_shares shares;
    if (fer_uncertainty_budget(&worked, &uncertainties, diameter, fer_percent(95), (fer_model){0}, &budget) !=
            FER_OK ||
        fer_conforming_share(&worked, &uncertainties, range, diameter, &shares) != FER_OK) {
        return 1;
    }
    printf("compression %.1f %%, standard uncertainty %.1f points\n", fer_to_percent(budget.compression),
           fer_to_percent(budget.standard_uncertainty));
    printf("inside %.4f %%, too loose %.4f %%, too tight %.4f %%\n", fer_to_percent(shares.inside),
           fer_to_percent(shares.below), fer_to_percent(shares.above));
    return 0;
}
