/* SPDX-License-Identifier: MIT */
/* Pieces of two dies as they come, one at a time: sums that find a shift of one standard deviation soonest. The diameters are invented. */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    static const double made[2][12] = {
        {23.51, 23.49, 23.52, 23.50, 23.48, 23.51, 23.53, 23.55, 23.54, 23.56, 23.55, 23.57},
        {31.02, 31.00, 31.03, 31.01, 31.02, 30.99, 31.05, 31.06, 31.04, 31.07, 31.06, 31.08}};
    fer_charting charting;
    fer_run_length length;
    fer_chart_point sheet = {0}, of_die[2] = {0};
    if (fer_choose_charting(370, 1.0, FER_CHART_METHOD_CUSUM, &charting) != FER_OK ||
        fer_find_run_length(&charting, 1.0, &length) != FER_OK) {
        return 1;
    }
    printf("allowance %.2f, limit %.2f: %.0f pieces between false alarms, %.1f until a shift shows\n",
           charting.allowance, charting.decision, length.mean_unshifted, length.mean);
    for (int i = 0; i < 24; i++) {
        const int die = i / 3 % 2, place = i / 6 * 3 + i % 3; /* three pieces of each die in turn */
        const fer_sample_piece piece = {.diameter = fer_mm(made[die][place]), .kind = die};
        if (fer_next_point(&piece, sheet, of_die[die], charting, &sheet) != FER_OK) {
            return 1;
        }
        of_die[die] = sheet;
        if (sheet.signals.bits != 0) {
            for (int s = 0; s < FER_CHART_SIGNAL_COUNT; s++) {
                if (sheet.signals.bits >> s & 1u) {
                    printf("piece %d, die %d, score %.2f: %s\n", i + 1, die + 1, sheet.score,
                           fer_chart_signal_sentence((fer_chart_signal)s));
                }
            }
            break; /* look for the cause, then begin the sheet anew */
        }
    }
    return 0;
}
