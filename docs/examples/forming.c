/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const fer_ferrule ferrule = {.wall = {3}, .outside = {50}};
    const fer_material steel = {.elastic_modulus = {206000}, .poisson = {0.3}, .yield = {300}};
    const fer_forming_load held = {.restraint = {1}};
    fer_forming forming;
    if (fer_form_ferrule(&ferrule, fer_mm(46), &steel, held, &forming) != FER_OK) {
        return 1;
    }
    printf("pressure %.1f MPa, wall %.3f mm, springback %.4f mm\n", forming.pressure.mpa, forming.wall.mm,
           forming.springback.mm);
    return 0;
}
