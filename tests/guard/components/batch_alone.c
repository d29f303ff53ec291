/* SPDX-License-Identifier: MIT */
/* Linked with the components base, judge and batch alone: a sample and a gauge study, without a hose, a die or a press. Figures: by
 * hand, and R's noncentral t. */
#include <ferrule/capability.h>
#include <ferrule/gauge.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

static int holds(int true_here, const char *what)
{
    if (!true_here) {
        printf("not so: %s\n", what);
    }
    return true_here;
}

int main(void)
{
    const fer_wanted wanted = {{{23.4}, {23.6}}, {0.0}, FER_SIDE_BOTH};
    const fer_ratio confidence = {0.9};
    const fer_length tolerance = {0.2};
    const fer_study_settings study_settings = {{0.0}, 1, {0.0}, {0.0}};
    fer_capability_settings settings;
    fer_sample_summary summary;
    fer_capability capability;
    fer_study_reading readings[8];
    fer_gauge_study study;
    memset(&settings, 0, sizeof settings);
    memset(&summary, 0, sizeof summary);
    summary.count = 10;
    summary.mean.mm = 23.5;
    summary.scatter.value.mm = 0.025;
    int good = holds(fer_find_capability(&summary, &wanted, confidence, settings, &capability) == FER_OK,
                     "capability");
    good &= holds(fabs(capability.nearer.lower - 0.884532634) < 1e-9, "limit of the index");
    for (int i = 0; i < 8; i++) {
        readings[i].part = i / 4;
        readings[i].person = i / 2 % 2;
        readings[i].diameter.mm = 23.0 + i / 4 + 0.02 * (i % 2);
    }
    good &=
        holds(fer_study_gauge(readings, 8, tolerance, confidence, study_settings, &study) == FER_OK, "study");
    good &= holds(fabs(study.repeatability.value.mm - 0.02 / sqrt(2.0)) < 1e-12, "repeatability");
    return good ? 0 : 1;
}
