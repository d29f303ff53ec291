/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    static const char *const words[] = {"undecided", "accept", "reject"};
    const fer_length_range limits = {{23.4}, {23.6}};
    const fer_process process = {.mean = {23.5}, .spread = {0.06}};
    const fer_length u = fer_mm(0.02);
    fer_verdict verdict;
    fer_risks risks;
    for (double measured = 23.55; measured < 23.66; measured += 0.03) {
        if (fer_judge(fer_mm(measured), u, limits, (fer_guard){0}, (fer_process){0}, &verdict) != FER_OK) {
            return 1;
        }
        printf("%.2f mm: %s, conforms with %.1f %%\n", measured, words[verdict.decision],
               fer_to_percent(verdict.conforming));
    }
    if (fer_find_risks(&process, u, limits, (fer_guard){0}, &risks) != FER_OK) {
        return 1;
    }
    printf("user's risk %.2f %%, maker's risk %.1f %%\n", fer_to_percent(risks.user),
           fer_to_percent(risks.maker));
    return 0;
}
