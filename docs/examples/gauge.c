/* SPDX-License-Identifier: MIT */
/* Three people, five crimps, two readings each with one caliper: is it good enough for 0.2 mm? The readings are invented. */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    static const double read[3][10] = {
        {23.41, 23.42, 23.48, 23.47, 23.53, 23.53, 23.57, 23.58, 23.62, 23.61},
        {23.42, 23.42, 23.48, 23.49, 23.53, 23.54, 23.58, 23.58, 23.62, 23.63},
        {23.41, 23.41, 23.47, 23.47, 23.52, 23.53, 23.57, 23.56, 23.61, 23.61}};
    const fer_study_settings settings = {.calibration = fer_mm(0.005), .resolution = fer_mm(0.01)};
    fer_study_reading readings[30];
    fer_gauge_study study;
    for (int i = 0; i < 30; i++) {
        readings[i] = (fer_study_reading){
            .part = i % 10 / 2, .person = i / 10, .diameter = fer_mm(read[i / 10][i % 10])};
    }
    if (fer_study_gauge(readings, 30, fer_mm(0.2), fer_percent(95), settings, &study) != FER_OK) {
        return 1;
    }
    printf("repeatability %.4f mm, people %.4f mm\n", study.repeatability.value.mm, study.people.value.mm);
    printf("gauge %.4f mm, at most %.4f mm with 95 %%\n", study.gauge.value.mm, study.gauge.upper.mm);
    printf("%.0f %% of the tolerance, tells %d categories apart\n", 100.0 * study.gauge.of_tolerance.fraction,
           (int)study.categories);
    printf("hand on: repeatability %.4f mm, common %.4f mm\n", study.measuring.repeatability.mm,
           study.measuring.common.mm);
    for (int i = 0; i < FER_STUDY_FINDING_COUNT; i++) {
        if (study.findings.bits >> i & 1u) {
            printf("- %s\n", fer_study_finding_sentence((fer_study_finding)i));
        }
    }
    return 0;
}
