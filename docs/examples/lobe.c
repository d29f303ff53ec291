/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

static void show(double diameter, double die_size)
{
    fer_shape shape;
    if (fer_crimp_shape(fer_mm(diameter), fer_mm(die_size), FER_SEGMENTS_USUAL, &shape) == FER_OK) {
        printf("%.2f on a %g mm die: lobe %.5f, gap %.5f, tape %.5f mm\n", diameter, die_size,
               fer_to_mm(shape.lobe_height), fer_to_mm(shape.gap), fer_to_mm(shape.tape_diameter));
    }
}

int main(void)
{
    show(23.51, 22);
    show(29, 22);
    return 0;
}
