/* SPDX-License-Identifier: MIT */
#include "worked.h"

#include <stdio.h>

int main(void)
{
    const fer_press press = {.graduation = {0.05}, .correction = {-0.15}, .dial_maximum = {20}};
    const fer_die rack[] = {{.size = {19}}, {.size = {22}}, {.size = {25}}};
    const fer_order order = {.joint = worked, .published = {23.5}, .tolerance = {0.12}};
    const fer_diagnosing known = {.dial_turn = {2}, .uncrimped = worked.ferrule.outside};
    const fer_piece pieces[] = {{.diameter = {22.19}}, {.diameter = {22.22}}};
    fer_setup setup;
    fer_suspect suspects[FER_CAUSE_COUNT];
    fer_diagnosis said;
    size_t found;
    if (fer_plan_setup(&order, &press, rack, 3, &setup) != FER_OK ||
        fer_diagnose_diameter(&setup, &press, rack, 3, pieces, 2, NULL, 0, known, suspects, FER_CAUSE_COUNT,
                              &found, &said) != FER_OK) {
        return 1;
    }
    printf("%+.3f mm off the target\n", said.deviation.mm);
    for (size_t i = 0; i < 3; i++) {
        printf("%5.1f %%  %s\n", fer_to_percent(suspects[i].probability),
               fer_cause_sentence(suspects[i].cause));
    }
    printf("check next: %s\n", fer_check_sentence(said.next_check));
    return 0;
}
