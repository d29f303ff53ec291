/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

static const fer_ferrule ferrule = {{2.4}, {25.6}, {28.0}};
static const fer_material steel = {{206000.0}, {0.3}, {300.0}, {0.0}};

static void show(const char *words, double restraint)
{
    const fer_forming_load load = {fer_fraction(restraint), fer_mpa(30)};
    fer_length closing;
    fer_forming formed;
    fer_die_force force;
    if (fer_closing_diameter(&ferrule, fer_mm(23.51), &steel, load, &closing) == FER_OK &&
        fer_form_ferrule(&ferrule, closing, &steel, load, &formed) == FER_OK &&
        fer_find_die_force(formed.pressure, closing, ferrule.length, FER_SEGMENTS_USUAL, &force) == FER_OK) {
        printf("%s: close to %.3f mm, springs back by %.3f; wall %.3f, length by %.1f %%, force %.0f kN\n",
               words, fer_to_mm(closing), fer_to_mm(formed.springback), fer_to_mm(formed.crimp_wall),
               fer_to_percent(formed.crimp_stretch) - 100, fer_to_kn(force.total));
    }
}

int main(void)
{
    const fer_stem stem = {{12.95}, {9.5}};
    const fer_forming_load hose = {fer_fraction(0), fer_mpa(30)};
    fer_stem_change change;
    fer_stem_strength strength;
    show("ends free", 0.0);
    show("ends fixed", 1.0);
    if (fer_load_stem(&stem, &steel, hose, &change) == FER_OK &&
        fer_find_stem_strength(&stem, &steel, hose, &strength) == FER_OK) {
        printf("stem: bore smaller by %.4f mm, yields from %.0f MPa on\n", fer_to_mm(change.bore_reduction),
               fer_to_mpa(strength.first_yield_pressure));
    }
    return 0;
}
