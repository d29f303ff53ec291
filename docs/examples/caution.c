/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    printf("%s\n", fer_caution_text(FER_CAUTION_SCRAP_NOT_REPAIR));
    return 0;
}
