/* SPDX-License-Identifier: MIT */
#include "worked.h"

#include <stdio.h>

int main(void)
{
    static const char *const severities[] = {"stop", "confirm", "do first", "know"};
    const fer_order order = {.joint = worked,
                             .widest = {38},
                             .approval = FER_APPROVAL_APPROVED,
                             .insertion = {31},
                             .gauge = {.standard_uncertainty = {0.01}, .resolution = {0.01}}};
    const fer_press press = {.graduation = {0.05}, .opening = {25}};
    const fer_die rack[] = {{.size = {16}}, {.size = {19}}, {.size = {22}, .adapter = 1}, {.size = {25}}};
    fer_setup setup;
    const fer_status status = fer_plan_setup(&order, &press, rack, 4, &setup);
    if (status != FER_OK) {
        printf("%s\n", fer_status_sentence(status));
        return 1;
    }
    printf("%s: %s\n", fer_readiness_name(setup.readiness), fer_readiness_sentence(setup.readiness));
    for (int i = 0; i < FER_REMARK_COUNT; i++) {
        if (setup.remarks.bits >> i & 1u) {
            printf("- %s: %s\n", severities[fer_remark_severity((fer_remark)i)],
                   fer_remark_sentence((fer_remark)i));
        }
    }
    printf("target %.2f mm, from %.2f to %.2f mm\n", setup.target.mm, setup.limits.value.lower.mm,
           setup.limits.value.upper.mm);
    printf("compression %.1f %% plain, %.1f %% ends free, %.1f %% ends fixed\n",
           fer_to_percent(setup.plain.value), fer_to_percent(setup.ends_free.value),
           fer_to_percent(setup.ends_fixed.value));
    if (setup.readiness != FER_READINESS_NOT_READY) {
        printf("die %g mm, dial %.2f mm, expect %.2f mm; accept %.2f to %.2f mm\n", setup.die.die.size.mm,
               setup.dial.value.setting.mm, setup.dial.value.expected.mm, setup.zone.value.accept.lower.mm,
               setup.zone.value.accept.upper.mm);
    }
    return 0;
}
