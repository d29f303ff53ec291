/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <math.h>
#include <stdio.h>

int main(void)
{
    fer_joint joint = {0};
    joint.hose.inside = fer_mm(19.9); /* swapped */
    joint.hose.outside = fer_mm(12.7);
    fer_length diameter;
    const fer_status status = fer_crimp_diameter(&joint, fer_percent(20), (fer_model){0}, &diameter);
    if (status != FER_OK) {
        printf("%s: %s\n", fer_status_name(status), fer_status_sentence(status));
        printf("the result is %s\n", isnan(diameter.mm) ? "not a number" : "a number");
    }
    return 0;
}
