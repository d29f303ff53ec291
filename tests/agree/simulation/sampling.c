/* SPDX-License-Identifier: MIT */
/* Coverage of the bounds of burst pressures in module `sampling`: in how many of so many samples a bound kept the truth, beside what was
 * asked; and plans in stages, how often they accept. Writes tables; ends with 1 where a bound holds by more than four standard errors less than
 * was asked (where the pump's limit stops the test, for which it is not exact, by 0.02 more).
 *
 * simulate_sampling [SAMPLES]; without a number 6000. All invented. Seed 20261201, for every line anew.
 */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "random.h"

enum { pieces_maximum = 50 };
static const uint64_t first_seed = 20261201u;
static int failed = 0;

static void say(const char *what, double asked, long kept, long samples, double allowed)
{
    const double reached = (double)kept / (double)samples,
                 error = sqrt(asked * (1.0 - asked) / (double)samples);
    const int good = reached >= asked - allowed - 4.0 * error;
    printf("%-66s %6.3f %8.4f %8.4f%s\n", what, asked, reached, error, good ? "" : "  TOO LOW");
    failed |= !good;
}

/* A burst pressure with the median at 100 MPa or so, by the distribution. */
static double draw(fer_strength strength, double shape, uint64_t *seed)
{
    switch (strength) {
    case FER_STRENGTH_WEIBULL:
        return 100.0 * pow(-log(1.0 - next_uniform(seed)), 1.0 / shape);
    case FER_STRENGTH_LOGNORMAL:
        return 100.0 * exp(next_normal(seed) / shape);
    default:
        return 100.0 + 100.0 / shape * next_normal(seed);
    }
}

/* What 95 % hold in truth. */
static double truth(fer_strength strength, double shape)
{
    const double z = 1.6448536269514722;
    switch (strength) {
    case FER_STRENGTH_WEIBULL:
        return 100.0 * pow(-log(0.95), 1.0 / shape);
    case FER_STRENGTH_LOGNORMAL:
        return 100.0 * exp(-z / shape);
    default:
        return 100.0 - 100.0 / shape * z;
    }
}

static int in_order(const void *a, const void *b)
{
    const double x = ((const fer_burst *)a)->pressure.mpa, y = ((const fer_burst *)b)->pressure.mpa;
    return (x > y) - (x < y);
}

/* Stopped at the burst of this number, or at a pressure; 0: not. */
typedef struct {
    fer_strength drawn, judged;
    size_t pieces, stop_at_burst;
    double stop_at, shape;
} scene;

static void stop_tests(const scene *s, fer_burst *bursts)
{
    qsort(bursts, s->pieces, sizeof *bursts, in_order);
    for (size_t i = 0; i < s->pieces; i++) {
        if (s->stop_at_burst > 0 && i >= s->stop_at_burst) {
            bursts[i].pressure = bursts[s->stop_at_burst - 1].pressure;
            bursts[i].stopped = 1;
        }
        if (s->stop_at > 0.0 && bursts[i].pressure.mpa > s->stop_at) {
            bursts[i].pressure.mpa = s->stop_at;
            bursts[i].stopped = 1;
        }
    }
}

/* A sample that the library refuses, or that shows no bound, makes no wrong statement: it counts as kept, and is counted beside. */
static void try_bound(scene s, double confidence, long samples)
{
    static const char *const names[] = {"Weibull", "normal", "lognormal", "without a shape"};
    const fer_burst_aim aim = {{0.001}, 1.0, {0.95}, {confidence}};
    const double true_bound = truth(s.drawn, s.shape);
    uint64_t seed = first_seed;
    long kept = 0, refused = 0;
    char what[96];
    for (long k = 0; k < samples; k++) {
        fer_burst bursts[pieces_maximum];
        fer_burst_verdict verdict;
        memset(bursts, 0, sizeof bursts);
        for (size_t i = 0; i < s.pieces; i++) {
            bursts[i].pressure.mpa = draw(s.drawn, s.shape, &seed);
        }
        stop_tests(&s, bursts);
        const fer_status status = fer_judge_bursts(bursts, s.pieces, &aim, s.judged, &verdict);
        refused += status != FER_OK;
        kept += status != FER_OK || !(verdict.bound.mpa > true_bound);
    }
    snprintf(what, sizeof what, "%s, %d pieces, shape %.0f, stop at %d, at %.0f MPa; refused %ld",
             names[s.judged], (int)s.pieces, s.shape, (int)s.stop_at_burst, s.stop_at, refused);
    say(what, confidence, kept, samples, s.stop_at > 0.0 ? 0.02 : 0.0);
}

static void try_bounds(long samples)
{
    static const scene scenes[] = {{FER_STRENGTH_WEIBULL, FER_STRENGTH_WEIBULL, 3, 0, 0.0, 20.0},
                                   {FER_STRENGTH_WEIBULL, FER_STRENGTH_WEIBULL, 5, 0, 0.0, 20.0},
                                   {FER_STRENGTH_WEIBULL, FER_STRENGTH_WEIBULL, 10, 0, 0.0, 20.0},
                                   {FER_STRENGTH_WEIBULL, FER_STRENGTH_WEIBULL, 20, 0, 0.0, 20.0},
                                   {FER_STRENGTH_WEIBULL, FER_STRENGTH_WEIBULL, 10, 5, 0.0, 20.0},
                                   {FER_STRENGTH_WEIBULL, FER_STRENGTH_WEIBULL, 8, 3, 0.0, 20.0},
                                   {FER_STRENGTH_WEIBULL, FER_STRENGTH_WEIBULL, 10, 0, 100.0, 20.0},
                                   {FER_STRENGTH_WEIBULL, FER_STRENGTH_WEIBULL, 5, 0, 102.0, 20.0},
                                   {FER_STRENGTH_NORMAL, FER_STRENGTH_NORMAL, 3, 0, 0.0, 25.0},
                                   {FER_STRENGTH_NORMAL, FER_STRENGTH_NORMAL, 5, 0, 0.0, 25.0},
                                   {FER_STRENGTH_NORMAL, FER_STRENGTH_NORMAL, 20, 0, 0.0, 25.0},
                                   {FER_STRENGTH_LOGNORMAL, FER_STRENGTH_LOGNORMAL, 5, 0, 0.0, 25.0},
                                   {FER_STRENGTH_LOGNORMAL, FER_STRENGTH_LOGNORMAL, 20, 0, 0.0, 25.0},
                                   {FER_STRENGTH_WEIBULL, FER_STRENGTH_ANY, 45, 0, 0.0, 20.0},
                                   {FER_STRENGTH_NORMAL, FER_STRENGTH_ANY, 45, 0, 0.0, 25.0},
                                   /* judged by Weibull where they are normal: the cautious side */
                                   {FER_STRENGTH_NORMAL, FER_STRENGTH_WEIBULL, 5, 0, 0.0, 25.0},
                                   {FER_STRENGTH_LOGNORMAL, FER_STRENGTH_WEIBULL, 10, 0, 0.0, 25.0}};
    for (size_t i = 0; i < sizeof scenes / sizeof *scenes; i++) {
        try_bound(scenes[i], 0.9, samples);
    }
    try_bound(scenes[1], 0.6, samples);
    try_bound(scenes[1], 0.99, samples);
}

/* Pieces one after the other, as a person takes them: accepted as often as the exact figure says. */
static void try_stages(double bad, long samples)
{
    static fer_plan_stage stages[FER_PLAN_PIECES_MAXIMUM];
    const fer_plan_aim aim = {{0.01}, {0.1}, {0.05}, {0.1}, 0};
    const fer_ratio share = {bad};
    fer_stages_risk risk;
    uint64_t seed = first_seed;
    size_t count;
    long accepted = 0, pieces = 0;
    if (fer_choose_stages(&aim, stages, FER_PLAN_PIECES_MAXIMUM, &count) != FER_OK ||
        fer_find_stages_risk(stages, count, 0, share, &risk) != FER_OK) {
        exit(2);
    }
    for (long k = 0; k < samples; k++) {
        int wrong = 0;
        for (size_t i = 0; i < count; i++) {
            wrong += next_uniform(&seed) < bad;
            pieces++;
            if (wrong <= stages[i].accept || wrong >= stages[i].refuse) {
                accepted += wrong <= stages[i].accept;
                break;
            }
        }
    }
    const double p = risk.accepted.fraction, reached = (double)accepted / (double)samples;
    const double error = sqrt(p * (1.0 - p) / (double)samples);
    const int good = fabs(reached - p) <= 4.0 * error;
    printf("%.0f %% bad: pieces %.2f, exact %.2f %40s %6.3f %8.4f %8.4f%s\n", 100.0 * bad,
           (double)pieces / (double)samples, risk.pieces, "", p, reached, error, good ? "" : "  NOT SO");
    failed |= !good;
}

int main(int count, char **arguments)
{
    const long samples = count > 1 ? atol(arguments[1]) : 6000;
    printf("Bounds of bursts, and plans in stages: %ld samples a line, seed %d\n\n", samples,
           (int)first_seed);
    printf("Pressure that 95 %% hold                                             asked  reached    error\n");
    try_bounds(samples);
    printf("\nStages of 1 %%, 5 %% against 10 %%, 10 %%: accepted                      exact  reached    "
           "error\n");
    try_stages(0.01, samples);
    try_stages(0.05, samples);
    try_stages(0.1, samples);
    return failed;
}
