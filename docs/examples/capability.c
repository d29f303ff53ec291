/* SPDX-License-Identifier: MIT */
/* Ten crimps of one press, caliper of 0.01 mm: what they show. The readings are invented. */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const double diameters[] = {23.51, 23.49, 23.52, 23.50, 23.53, 23.48, 23.51, 23.50, 23.54, 23.49};
    const fer_wanted wanted = {.limits = {fer_mm(23.40), fer_mm(23.60)}};
    const fer_ratio confidence = fer_percent(90);
    fer_capability_settings settings = {.measuring = {.resolution = fer_mm(0.01)}};
    fer_sample_piece pieces[10] = {0};
    fer_sample_summary summary;
    fer_capability capability;
    fer_share_outside share;
    fer_showing showing;
    for (int i = 0; i < 10; i++) {
        pieces[i].diameter = fer_mm(diameters[i]);
    }
    if (fer_summarise_sample(pieces, 10, &summary) != FER_OK ||
        fer_find_capability(&summary, &wanted, confidence, settings, &capability) != FER_OK ||
        fer_find_share_outside(&summary, &wanted, confidence, settings.measuring, &share) != FER_OK ||
        fer_find_pieces_to_show(1.33, confidence, capability.nearer.value, fer_percent(80), &showing) !=
            FER_OK) {
        return 1;
    }
    printf("mean %.3f mm, standard deviation %.4f mm\n", summary.mean.mm, summary.scatter.value.mm);
    printf("index %.2f, at least %.2f with 90 %%\n", capability.nearer.value, capability.nearer.lower);
    printf("outside: at most %.2f %% with 90 %%\n", 100.0 * share.outside_upper.fraction);
    printf("to show 1.33: %d pieces, which must have %.2f\n", (int)showing.pieces, showing.required);
    return 0;
}
