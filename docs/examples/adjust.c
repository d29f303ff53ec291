/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

static void show(const fer_trial *trials, size_t count)
{
    const fer_press press = {.graduation = {0.01}};
    fer_adjustment adjustment;
    if (fer_correct_dial(&press, trials, count, fer_mm(23.51), (fer_length_range){{0}, {0}},
                         (fer_adjusting){.gain = {1}}, &adjustment) == FER_OK) {
        printf("after trial %zu: move by %+.2f mm to %.2f mm\n", count, adjustment.move.mm,
               adjustment.setting.mm);
    }
}

int main(void)
{
    const fer_trial trials[] = {{.setting = {1.50}, .diameter = {23.81}},
                                {.setting = {1.20}, .diameter = {23.45}}};
    show(trials, 1);
    show(trials, 2);
    return 0;
}
