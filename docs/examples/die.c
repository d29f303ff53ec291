/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

static const fer_die rack[] = {{.size = {16}}, {.size = {19}}, {.size = {22}}, {.size = {25}}};

static void show(double target)
{
    fer_die_choice choice;
    if (fer_choose_die(rack, 4, fer_mm(target), (fer_die_needs){0}, &choice) != FER_OK) {
        return;
    }
    if (choice.found) {
        printf("%.2f mm: die %g mm, offset %.2f mm\n", target, choice.die.size.mm, choice.offset.mm);
    } else {
        printf("%.2f mm: no die; buy one from %g to %g mm\n", target, choice.buy.lower.mm,
               choice.buy.upper.mm);
    }
}

int main(void)
{
    show(23.51);
    show(22);
    show(32);
    show(33);
    return 0;
}
