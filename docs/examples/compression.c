/* SPDX-License-Identifier: MIT */
#include "worked.h"

#include <stdio.h>

static void show(const char *words, fer_model model)
{
    fer_ratio compression;
    fer_length diameter;
    if (fer_compression(&worked, fer_mm(23.51), model, &compression) == FER_OK &&
        fer_crimp_diameter(&worked, fer_percent(20), model, &diameter) == FER_OK) {
        printf("%-12s %6.3f %%   %.4f mm\n", words, fer_to_percent(compression), fer_to_mm(diameter));
    }
}

int main(void)
{
    printf("             at 23.51   for 20 %%\n");
    show("plain", (fer_model){0});
    show("ends free", (fer_model){.flow = FER_FLOW_ENDS_FREE});
    show("ends fixed", (fer_model){.flow = FER_FLOW_ENDS_FIXED});
    show("fitted wall", (fer_model){.basis = FER_BASIS_FITTED_WALL});
    show("area", (fer_model){.basis = FER_BASIS_AREA});
    return 0;
}
