/* SPDX-License-Identifier: MIT */
/* The plain formula on the worked joint (invented): D = s + 2w + W(1 - c) = 12.95 + 4.8 + 7.2 * 0.8 = 23.51. */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const fer_joint joint = {.hose = {.inside = fer_mm(12.7), .outside = fer_mm(19.9)},
                             .stem = {.outside = fer_mm(12.95)},
                             .ferrule = {.wall = fer_mm(2.4)}};
    fer_length diameter;
    const fer_status status = fer_crimp_diameter(&joint, fer_percent(20), (fer_model){0}, &diameter);
    if (status != FER_OK) {
        printf("%s\n", fer_status_sentence(status));
        return 1;
    }
    printf("%.2f mm\n", fer_to_mm(diameter));
    return 0;
}
