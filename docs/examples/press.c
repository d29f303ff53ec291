/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const fer_press press = {.graduation = {0.05}, .correction = {-0.12}, .opening = {25}};
    const fer_die die = {.size = {22}};
    fer_dial dial;
    fer_length clearance;
    if (fer_dial_setting(&press, &die, fer_mm(23.51), &dial) != FER_OK ||
        fer_opening_clearance(&press, &die, fer_mm(38), &clearance) != FER_OK) {
        return 1;
    }
    printf("set %.2f mm (exactly %.2f), expect %.2f mm\n", dial.setting.mm, dial.exact.mm, dial.expected.mm);
    printf("a 38 mm coupling has %.1f mm to spare\n", clearance.mm);
    return 0;
}
