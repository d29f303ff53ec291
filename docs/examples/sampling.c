/* SPDX-License-Identifier: MIT */
/* How many pieces to look at, and what five bursts show. The bursts are invented. */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const double bar[] = {1180, 1220, 1245, 1262, 1290};
    const char *const names[] = {"Weibull", "normal", "lognormal"};
    const fer_plan_aim aim = {
        .good = fer_percent(5), .bad = fer_percent(15), .consumer_risk = fer_percent(7.5)};
    const fer_burst_aim burst_aim = {.working = fer_bar(275)};
    fer_burst bursts[5] = {0};
    fer_burst_verdict verdict;
    fer_plan_choice choice;
    if (fer_choose_plan(&aim, &choice) != FER_OK) {
        return 1;
    }
    printf("look at %d pieces, accept with up to %d bad ones\n", (int)choice.plan.pieces,
           (int)choice.plan.accept);
    for (int i = 0; i < 5; i++) {
        bursts[i].pressure = fer_bar(bar[i]);
    }
    for (int i = 0; i < 3; i++) {
        if (fer_judge_bursts(bursts, 5, &burst_aim, (fer_strength)i, &verdict) != FER_OK) {
            return 1;
        }
        printf("%s: 95 %% hold %.0f bar with 90 %%; %d more bursts\n", names[i], 10.0 * verdict.bound.mpa,
               (int)verdict.more);
    }
    return 0;
}
