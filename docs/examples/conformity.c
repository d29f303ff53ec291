/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

static void show(double value)
{
    static const char *const words[] = {"undecided", "accept", "reject"};
    const fer_length_range limits = {fer_mm(23.41), fer_mm(23.61)};
    fer_verdict verdict;
    if (fer_judge(fer_mm(value), fer_mm(0.02), limits, (fer_guard){0}, (fer_process){0}, &verdict) ==
        FER_OK) {
        printf("%.2f mm: %s; it conforms with %.2f %%\n", value, words[verdict.decision],
               fer_to_percent(verdict.conforming));
    }
}

int main(void)
{
    show(23.57);
    show(23.59);
    show(23.65);
    return 0;
}
