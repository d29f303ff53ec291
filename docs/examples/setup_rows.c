/* SPDX-License-Identifier: MIT */
/* Three orders as columns, planned at one press; all figures are invented. The second has no hose outside diameter. */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const fer_press press = {.graduation = {0.05}, .opening = {20.0}};
    const fer_die dies[] = {{.size = {19.0}}, {.size = {22.0}}};
    const fer_workplace workplace = {&press, dies, 2};
    const fer_whole_column first = {0};
    const fer_length outside[] = {{19.9}, {0.0}, {20.1}}, published[] = {{23.5}, {23.5}, {23.7}},
                     tolerance = {0.2};
    const fer_order common = {.joint = {{{12.7}, {0}, {0}}, {{12.95}, {0}}, {{2.4}, {0}, {0}}}};
    fer_order_columns orders = {.common = &common};
    fer_setup setups[3];
    fer_row_status statuses[3];
    fer_fault faults[3];
    orders.joint.hose_outside = fer_length_rows(outside);
    orders.published = fer_length_rows(published);
    orders.tolerance = fer_same_length(&tolerance);
    printf("%zu row fails\n", fer_plan_setups(3, &orders, &workplace, 1, first, setups, statuses, faults));
    for (size_t i = 0; i < 3; i++) {
        if (statuses[i] != FER_OK) {
            printf("%s: %s\n", fer_field_path(faults[i].field), fer_status_sentence((fer_status)statuses[i]));
        } else {
            printf("die %.0f mm, dial %.2f mm, %s\n", setups[i].die.die.size.mm,
                   setups[i].dial.value.setting.mm, fer_readiness_name(setups[i].readiness));
        }
    }
    return 0;
}
