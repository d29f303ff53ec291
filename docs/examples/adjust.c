/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const fer_dial_scale scale = {.graduation = {0.05}};
    const fer_trial trials[] = {{{2.15}, {27.46}}, {{2.00}, {27.27}}, {{2.00}, {27.33}}};
    const fer_adjusting known = {.crimp_spread = {0.03}, .setting_spread = {0.15}};
    const fer_length_range limits = {{27.18}, {27.42}};
    for (size_t n = 1; n <= 3; n++) {
        fer_adjustment next;
        if (fer_correct_dial(&scale, trials, n, fer_mm(27.3), limits, known, &next) != FER_OK) {
            return 1;
        }
        printf("after trial %zu: expect %+.3f mm at %.2f mm, inside with %.1f %%: %s %.2f mm\n", n,
               next.deviation.mm, trials[n - 1].setting.mm, fer_to_percent(next.probability_now.value),
               next.leave ? "leave it at" : "set it to",
               next.leave ? trials[n - 1].setting.mm : next.setting.mm);
    }
    return 0;
}
