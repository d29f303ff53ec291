/* SPDX-License-Identifier: MIT */
/* Processor time of calls of module `sampling`: name and microseconds a line. bench_sampling.py compiles and runs it. */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <string.h>
#include <time.h>

static const fer_plan_aim aim = {{0.05}, {0.15}, {0.05}, {0.075}, 0};
static const fer_burst_aim burst_aim = {{27.5}, 4.0, {0.95}, {0.9}};
static const fer_burst bursts[5] = {{{128.0}, 0}, {{132.0}, 0}, {{134.5}, 0}, {{136.2}, 0}, {{139.0}, 0}};
static fer_plan_stage stages[FER_PLAN_PIECES_MAXIMUM];
static double sum; /* of results, so that no call is left out */

static void plan(void)
{
    fer_plan_choice choice;
    (void)fer_choose_plan(&aim, &choice);
    sum += choice.consumer_risk.fraction;
}

static void plan_in_stages(void)
{
    size_t found;
    (void)fer_choose_stages(&aim, stages, FER_PLAN_PIECES_MAXIMUM, &found);
    sum += (double)found;
}

static void measured_plan(void)
{
    const fer_measuring exact = {{0.0}, 0.0, {0.0}, {0.0}};
    const fer_length of_sample = {0.0};
    fer_measured_choice choice;
    (void)fer_choose_measured_plan(&aim, of_sample, exact, &choice);
    sum += choice.plan.factor;
}

static void weibull(void)
{
    fer_burst_verdict verdict;
    (void)fer_judge_bursts(bursts, 5, &burst_aim, FER_STRENGTH_WEIBULL, &verdict);
    sum += verdict.bound.mpa;
}

static double best_of_rounds(void (*call)(void), int count)
{
    double best = 1e300;
    call();
    for (int round = 0; round < 7; round++) {
        const clock_t start = clock();
        for (int i = 0; i < count; i++) {
            call();
        }
        const double each = 1e6 * (double)(clock() - start) / CLOCKS_PER_SEC / count;
        best = each < best ? each : best;
    }
    return best;
}

int main(void)
{
    printf("plan_5_15 %.3f\n", best_of_rounds(plan, 300));
    printf("stages_5_15 %.3f\n", best_of_rounds(plan_in_stages, 30));
    printf("measured_plan_of_sample %.3f\n", best_of_rounds(measured_plan, 30));
    printf("weibull_verdict_n5 %.3f\n", best_of_rounds(weibull, 100));
    return sum == 0.0;
}
