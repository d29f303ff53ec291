/* SPDX-License-Identifier: MIT */
/* Linked with the components base and judge alone: readings are summed up and judged, and the dial is corrected, without a
 * hose, a die or a press. The figures can be worked out by hand. */
#include <ferrule/adjust.h>
#include <ferrule/conformity.h>
#include <ferrule/reading.h>

#include <math.h>
#include <stdio.h>

static int holds(int true_here, const char *what)
{
    if (!true_here) {
        printf("not so: %s\n", what);
    }
    return true_here;
}

int main(void)
{
    const fer_reading readings[] = {{{23.50}, 0, {0}, 0}, {{23.52}, 0, {0}, 0}, {{23.54}, 0, {0}, 0}};
    const fer_gauge gauge = {{0.01}, {0}, {0}};
    const fer_marks marks = {0};
    const fer_guard guard = {0};
    const fer_process process = {0};
    const fer_length_range limits = {{23.41}, {23.61}}, none = {{0}, {0}};
    const fer_trial trial = {{1.51}, {23.61}};
    const fer_dial_scale scale = {{0.05}, {0}};
    const fer_adjusting nothing_known = {0};
    fer_reading_summary summary;
    fer_verdict verdict;
    fer_adjustment adjustment;
    int good = holds(fer_summarise_readings(readings, 3, &gauge, marks, &summary) == FER_OK, "summary");
    good &= holds(fabs(summary.mean.mm - 23.52) < 1e-12, "mean");
    good &= holds(fabs(summary.standard_uncertainty.mm - sqrt(1e-4 + 4e-4 / 3.0)) < 1e-12, "uncertainty");
    good &= holds(fer_judge(summary.mean, summary.standard_uncertainty, limits, guard, process, &verdict) ==
                          FER_OK &&
                      verdict.decision == FER_DECISION_ACCEPT,
                  "verdict");
    good &= holds(fer_correct_dial(&scale, &trial, 1, fer_mm(23.51), none, nothing_known, &adjustment) ==
                          FER_OK &&
                      fabs(adjustment.setting.mm - 1.40) < 1e-12,
                  "dial");
    return good ? 0 : 1;
}
