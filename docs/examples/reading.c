/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const fer_reading readings[] = {
        {.diameter = {23.50}}, {.diameter = {23.54}}, {.diameter = {23.52}}, {.diameter = {23.56}}};
    const fer_gauge gauge = {.standard_uncertainty = {0.01}};
    fer_reading_summary summary;
    if (fer_summarise_readings(readings, 4, &gauge, (fer_marks){0}, &summary) != FER_OK) {
        return 1;
    }
    printf("mean %.2f mm, range %.2f mm\n", summary.mean.mm, summary.range.mm);
    printf("scatter %.4f mm, standard uncertainty of the mean %.4f mm\n", summary.scatter.value.mm,
           summary.standard_uncertainty.mm);
    return 0;
}
