/* SPDX-License-Identifier: MIT */
#include "worked.h"

#include <stdio.h>

int main(void)
{
    const fer_order order = {.joint = worked, .widest = {38}};
    const fer_press press = {.graduation = {0.05}, .opening = {25}};
    const fer_die rack[] = {{.size = {16}}, {.size = {19}}, {.size = {22}, .adapter = 1}, {.size = {25}}};
    fer_setup setup;
    const fer_status status = fer_plan_setup(&order, &press, rack, 4, &setup);
    if (status != FER_OK) {
        printf("%s\n", fer_status_sentence(status));
        return 1;
    }
    printf("target %.2f mm, from %.2f to %.2f mm\n", setup.target.mm, setup.limits.value.lower.mm,
           setup.limits.value.upper.mm);
    printf("compression %.1f %% plain, %.1f %% ends free, %.1f %% ends fixed\n",
           fer_to_percent(setup.plain.value), fer_to_percent(setup.ends_free.value),
           fer_to_percent(setup.ends_fixed.value));
    printf("die %g mm, dial %.2f mm, expect %.2f mm\n", setup.die.die.size.mm, setup.dial.value.setting.mm,
           setup.dial.value.expected.mm);
    for (int i = 0; i < FER_REMARK_COUNT; i++) {
        if (setup.remarks.bits >> i & 1u) {
            printf("- %s\n", fer_remark_sentence((fer_remark)i));
        }
    }
    return 0;
}
