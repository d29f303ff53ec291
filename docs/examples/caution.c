/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const fer_cautions cautions = fer_stage_cautions(FER_STAGE_FAILURE);
    for (int i = 0; i < FER_CAUTION_COUNT; i++) {
        if (cautions.bits >> i & 1u) {
            printf("%s\n", fer_caution_text((fer_caution)i));
        }
    }
    return 0;
}
