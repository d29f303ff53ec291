/* SPDX-License-Identifier: MIT */
/* What is accepted of pieces that lie exactly at a limit: at most the share that the guard band promises, 4.95 % for the
 * usual factor 1.65. Writes tables; ends with 1 where a claim of module `inspection` does not hold.
 *
 * simulate_judging [PIECES]; without a number 20,000. Every piece is a fresh one: its gauge has one error for all
 * readings, each reading one of its own. Their sum has a standard deviation of 0.01 mm on the mean; of its variance the
 * gauge has a share from 0 to 0.9. Limits 23 and 24 mm, truth 24 mm. What the library is given: the gauge's uncertainty
 * and the readings. All invented. Seed 20261201.
 */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <stdlib.h>

#include "random.h"

enum { counts = 6, shares = 4, readings_most = 20 };
static const int reading_counts[counts] = {1, 2, 3, 4, 8, 20};
static const double gauge_shares[shares] = {0.0, 0.3, 0.6, 0.9};
static const double upper_limit = 24.0, spread_of_mean = 0.01;

/* A way to judge. */
typedef struct {
    const char *name;
    fer_applies_to applies_to;
    fer_process process;
    double step;    /* of the gauge, by which readings are rounded */
    int by_formula; /* 1: by fer_judge() alone with the degrees of freedom of the summary: Welch-Satterthwaite */
    int bounded;    /* 1: promised for this way */
} rule;

static int decide(const rule *r, const fer_reading *readings, size_t n, const fer_gauge *gauge,
                  fer_decision *d)
{
    const fer_marks marks = {0};
    fer_guard guard = {0, 0, FER_SIDE_UPPER, 0}; /* the other limit is so far away that it would only help */
    if (r->by_formula) {
        const fer_length_range limits = {{23.0}, {upper_limit}};
        fer_reading_summary summary;
        fer_verdict verdict;
        if (fer_summarise_readings(readings, n, gauge, marks, &summary) != FER_OK) {
            return 1;
        }
        /* a process and degrees of freedom cannot be combined there */
        guard.degrees_of_freedom = r->process.standard_deviation.mm > 0.0 ? 0.0 : summary.degrees_of_freedom;
        const fer_status status =
            fer_judge(summary.mean, summary.standard_uncertainty, limits, guard, r->process, &verdict);
        *d = verdict.decision;
        return status != FER_OK;
    }
    fer_setup setup = {0};
    fer_inspection inspection;
    setup.target.mm = 23.5;
    setup.limits.value.lower.mm = 23.0;
    setup.limits.value.upper.mm = upper_limit;
    setup.applies_to = r->applies_to;
    setup.segments = 8;
    const fer_status status =
        fer_inspect_crimp(&setup, readings, n, gauge, marks, guard, r->process, &inspection);
    *d = inspection.decision;
    return status != FER_OK;
}

/* Share of the pieces with this truth that are accepted; NaN: a call failed. */
static double accepted(const rule *r, int n, double gauge_share, double truth, long pieces, uint64_t seed)
{
    const double gauge_error = spread_of_mean * sqrt(gauge_share);
    /* a gauge without uncertainty accepts nothing, so that of share 0 is said to have next to none */
    const fer_gauge gauge = {{fmax(1e-9, gauge_error)}, {0}, {r->step}};
    const double own = spread_of_mean * sqrt((1.0 - gauge_share) * n);
    long count = 0;
    for (long k = 0; k < pieces; k++) {
        fer_reading readings[readings_most] = {0};
        const double seen = truth + gauge_error * next_normal(&seed);
        fer_decision d;
        /* where a limit lies between two steps is not known: anywhere, for the rectangular share of a step */
        const double offset = r->step > 0.0 ? r->step * next_uniform(&seed) : 0.0;
        for (int i = 0; i < n; i++) {
            const double x = seen + own * next_normal(&seed);
            readings[i].diameter.mm =
                r->step > 0.0 ? offset + floor((x - offset) / r->step + 0.5) * r->step : x;
        }
        if (decide(r, readings, (size_t)n, &gauge, &d)) {
            return NAN;
        }
        count += d == FER_DECISION_ACCEPT;
    }
    return (double)count / (double)pieces;
}

static double promised_share(void)
{
    return 0.5 * erfc(FER_GUARD_USUAL / sqrt(2.0));
}

/* Prints one table; whether every share is at most the promised one, three standard errors allowed for. */
static int table_of(const rule *r, long pieces)
{
    const double promised = promised_share();
    const double upper = promised + 3.0 * sqrt(promised * (1.0 - promised) / (double)pieces);
    int holds = 1;
    printf("%s\n  gauge's share of variance       0     0.3     0.6     0.9\n", r->name);
    for (int i = 0; i < counts; i++) {
        printf("  %2d reading%s                ", reading_counts[i], reading_counts[i] > 1 ? "s" : " ");
        for (int k = 0; k < shares; k++) {
            const uint64_t seed = 20261201u + (uint64_t)(100 * reading_counts[i] + k);
            const double share = accepted(r, reading_counts[i], gauge_shares[k], upper_limit, pieces, seed);
            holds &= share <= upper;
            printf("  %5.2f%%", 100.0 * share);
        }
        printf("\n");
    }
    printf("\n");
    return holds;
}

/* And how often a piece well inside is accepted: the rules are not kept by accepting nothing. */
static void inside_table(long pieces)
{
    const rule r = {"", FER_APPLIES_TO_NOT_STATED, {{0}, {0}}, 0.0, 0, 0};
    printf("Accepted of pieces inside by four and by ten standard deviations, gauge's share 0.6, not stated "
           "what the limits "
           "apply to\n");
    for (int i = 1; i < counts; i++) {
        const double near_limit = accepted(&r, reading_counts[i], 0.6, upper_limit - 0.04, pieces, 7),
                     far_inside = accepted(&r, reading_counts[i], 0.6, upper_limit - 0.10, pieces, 8);
        printf("  %2d readings                 %5.1f%%  %5.1f%%\n", reading_counts[i], 100.0 * near_limit,
               100.0 * far_inside);
    }
    printf("\n");
}

static int say(int holds, const char *claim)
{
    printf("%s: %s\n", holds ? "holds" : "FAILS", claim);
    return holds;
}

int main(int argc, char **argv)
{
    const long pieces = argc > 1 ? atol(argv[1]) : 20000;
    const fer_process none = {{0}, {0}}, near_limit = {{23.98}, {0.03}}, middle = {{23.9}, {0.1}};
    const rule rules[] = {
        {"Limits apply to the mean, or to section means at one section", FER_APPLIES_TO_MEAN, none, 0.0, 0,
         1},
        {"Limits apply to every reading, or it is not stated what to", FER_APPLIES_TO_NOT_STATED, none, 0.0,
         0, 1},
        {"The mean, with a process of 23.98 mm and 0.03 mm", FER_APPLIES_TO_MEAN, near_limit, 0.0, 0, 1},
        {"The mean, with a process of 23.9 mm and 0.1 mm", FER_APPLIES_TO_MEAN, middle, 0.0, 0, 1},
        {"The mean, read in steps of 0.02 mm that lie anywhere about the limit", FER_APPLIES_TO_MEAN, none,
         0.02, 0, 1},
        {"For comparison: the mean by fer_judge() with Welch-Satterthwaite's degrees of freedom", 0, none,
         0.0, 1, 0},
        {"For comparison: the mean by fer_judge() with the process of 23.9 mm, by JCGM 106", 0, middle, 0.0,
         1, 0}};
    int all = 1, beyond = 0;
    printf("Judging: accepted of %ld pieces at the upper limit, seed 20261201; promised at most %.2f %%\n\n",
           pieces, 100.0 * promised_share());
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++) {
        const int holds = table_of(&rules[i], pieces);
        all &= holds || !rules[i].bounded;
        beyond += !holds && !rules[i].bounded;
    }
    inside_table(pieces);
    all &= say(all,
               "at most the promised share of pieces at a limit is accepted, by each rule of an inspection");
    all &= say(beyond == 2, "by Welch-Satterthwaite, or drawn towards a process, it would be more");
    return !all;
}
