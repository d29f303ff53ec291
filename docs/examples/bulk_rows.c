/* SPDX-License-Identifier: MIT */
/* Four invented joints of a catalogue, one of them impossible. */
#include <ferrule/ferrule.h>
#include <stdio.h>

int main(void)
{
    const fer_joint catalogue[4] = {{{{12.7}, {19.9}, {0}}, {{12.95}, {0}}, {{2.4}, {25.6}, {0}}},
                                    {{{9.5}, {16.2}, {0}}, {{9.8}, {0}}, {{2.0}, {0}, {0}}},
                                    {{{19.0}, {16.2}, {0}}, {{9.8}, {0}}, {{2.0}, {0}, {0}}},
                                    {{{25.4}, {35.1}, {0}}, {{25.9}, {0}}, {{3.0}, {0}, {0}}}};
    const fer_ratio compression = fer_percent(20);
    const fer_model plain = {0};
    const fer_joint_columns joints = fer_columns_of_joints(catalogue);
    fer_length diameter[4];
    fer_row_status status[4];
    const size_t failed =
        fer_crimp_diameters(4, &joints, fer_same_ratio(&compression), plain, diameter, status);
    for (int i = 0; i < 4; i++) {
        printf("%d: %6.2f mm  %s\n", i, diameter[i].mm, fer_status_sentence((fer_status)status[i]));
    }
    printf("failed: %zu\n", failed);
    return 0;
}
