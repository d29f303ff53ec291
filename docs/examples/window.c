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
    fer_length_range window;
    fer_length target;
    fer_shares shares;
    if (fer_crimp_window(&worked, range, (fer_model){0}, &window) != FER_OK ||
        fer_best_target(&worked, &uncertainties, range, &target, &shares) != FER_OK) {
        return 1;
    }
    printf("window %.2f to %.2f mm\n", fer_to_mm(window.lower), fer_to_mm(window.upper));
    printf("best target %.5f mm, inside %.4f %%\n", fer_to_mm(target), fer_to_percent(shares.inside));
    return 0;
}
