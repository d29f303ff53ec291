/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

/* Invented readings of a twin crimp: one ferrule on its hose, one without, closed by the same dies on the same press. */
static const fer_ferrule ferrule = {{2.4}, {25.6}, {0}};
static const fer_material steel = {{206000}, {0.3}, {300}, {700}};
static const fer_closing joint = {{187900}, {23.55}, {24.0}, {25.21}},
                         bare = {{146600}, {23.55}, {24.0}, {25.39}}, none = {{0}, {0}, {0}, {0}};

static void show(const char *words, fer_closing without_hose)
{
    const fer_closing_uncertainties known = {fer_percent(1), fer_percent(8), fer_percent(11),
                                             fer_mm(0.03),   fer_mm(0.02),   fer_mm(0.02)};
    fer_hose_squeeze squeeze;
    const fer_status status = fer_find_hose_pressure(&ferrule, &joint, &steel, without_hose, known, &squeeze);
    if (status != FER_OK) {
        printf("%s: %s\n", words, fer_status_sentence(status));
        return;
    }
    printf("%s: squeeze of the hose in the crimp %.0f MPa, standard uncertainty %.0f MPa;\n  restraint %.0f "
           "%%, yield strength %.0f MPa, "
           "on the middle of the stem at most %.0f MPa\n",
           words, fer_to_mpa(squeeze.pressure), fer_to_mpa(squeeze.standard_uncertainty),
           fer_to_percent(squeeze.restraint), fer_to_mpa(squeeze.yield_strength),
           fer_to_mpa(squeeze.stem_maximum));
}

int main(void)
{
    show("by the twin crimp", bare);
    show("by the certificate alone", none);
    return 0;
}
