/* SPDX-License-Identifier: MIT */
/* Ten crimps of a lot of 200: what is to be done with the diameters. The readings are invented. */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const double diameters[] = {23.512, 23.491, 23.523, 23.504, 23.534,
                                23.483, 23.517, 23.498, 23.529, 23.489};
    const fer_batch_question question = {
        .wanted = {.limits = {fer_mm(23.40), fer_mm(23.60)}},
        .measuring = {.repeatability = fer_mm(0.004), .common = fer_mm(0.003)},
        .lot = 200,
        .allowed = fer_percent(0.01)};
    const char *const decisions[] = {"find out first", "accept", "reject"};
    fer_sample_piece pieces[10] = {0};
    fer_batch_answer answer;
    for (int i = 0; i < 10; i++) {
        pieces[i].diameter = fer_mm(diameters[i]);
    }
    if (fer_judge_batch(pieces, 10, &question, &answer) != FER_OK) {
        return 1;
    }
    printf("diameters: %s\n", decisions[answer.decision]);
    printf("outside: at most %.2f %% with 90 %%; measure %d more\n", 100.0 * answer.outside_upper.fraction,
           (int)answer.more_pieces);
    for (int i = 0; i < FER_BATCH_FINDING_COUNT; i++) {
        if (answer.findings.bits >> i & 1) {
            printf("- %s\n", fer_batch_finding_sentence((fer_batch_finding)i));
        }
    }
    return 0;
}
