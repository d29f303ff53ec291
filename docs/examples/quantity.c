/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const fer_length outside = fer_inch(0.5);
    const fer_pressure working = fer_bar(350);
    printf("%.3f mm\n", fer_to_mm(outside));
    printf("%.0f psi\n", fer_to_psi(working));
    printf("%.1f %%\n", fer_to_percent(fer_fraction(0.2)));
    return 0;
}
