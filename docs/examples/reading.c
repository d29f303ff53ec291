/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    /* two sections, four readings each; one was not taken */
    const fer_reading readings[] = {
        {.diameter = {23.50}, .section = 0},
        {.diameter = {23.53}, .section = 0},
        {.diameter = {23.49}, .section = 0},
        {.diameter = {23.52}, .section = 0},
        {.diameter = {23.57}, .section = 1},
        {.diameter = {23.56}, .section = 1},
        {.section = 1},
        {.diameter = {23.55}, .section = 1},
    };
    const fer_gauge gauge = {.standard_uncertainty = {0.01}, .correction = {-0.01}, .resolution = {0.01}};
    fer_reading_summary said;
    if (fer_summarise_readings(readings, 8, &gauge, (fer_marks){0}, &said) != FER_OK) {
        return 1;
    }
    printf("mean %.3f mm, standard uncertainty %.3f mm\n", said.mean.mm, said.standard_uncertainty.mm);
    printf("ovality %.2f mm in section %d, taper %.3f mm\n", said.ovality.value.mm, said.ovality_section,
           said.taper.value.mm);
    printf("%zu readings count, %zu was not taken\n", said.count, said.missing);
    return 0;
}
