/* SPDX-License-Identifier: MIT */
/* What charts and levels of module `chart` keep: false alarms of limits from few pieces, run lengths, the bound of a change, coverage of a
 * press's level. Each line has what was asked, what was reached, and its standard error; ends with 1 where a line is off by more than
 * four of these and what is said to be allowed.
 *
 * simulate_charts [STUDIES]; without a number 4000. Pieces are normal, all invented. Seed 20261201, for every line anew.
 */
#include <ferrule/ferrule.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "random.h"

enum { pieces_maximum = 200, checks_maximum = 50 };
static const uint64_t first_seed = 20261201u;
static int failed = 0;

static void say(const char *what, double asked, double reached, double error, double below, double above)
{
    const int good = reached >= asked - below - 4.0 * error && reached <= asked + above + 4.0 * error;
    printf("%-66s %10.4f %10.4f %9.4f%s\n", what, asked, reached, error, good ? "" : "  OFF");
    failed |= !good;
}

static double upper_tail(double x)
{
    return 0.5 * erfc(x / sqrt(2.0));
}

/* ---- limits ---------------------------------------------------------------------------------------------- */

/* Share of means outside limits, where the pieces have mean 100 and standard deviation 1. */
static double alarms_of(const fer_chart_limits *l, int size)
{
    const double root = sqrt((double)size);
    return upper_tail((l->level.upper.mm - 100.0) * root) + upper_tail((100.0 - l->level.lower.mm) * root);
}

/* Mean rate of false alarms (expected), or share of studies that keep it (assured). */
static void try_limits(fer_chart_kind chart, int groups, int size, fer_limit_basis basis, long studies)
{
    static const char *const names[] = {"means by range", "means by deviation", "singles by range",
                                        "singles by deviation"};
    const fer_limit_rule rule = {basis, {0.01}, {0.9}};
    uint64_t seed = first_seed;
    double sum = 0.0, squares = 0.0;
    char what[120];
    for (long i = 0; i < studies; i++) {
        fer_sample_piece pieces[pieces_maximum];
        fer_chart_limits limits;
        memset(pieces, 0, sizeof pieces);
        for (int k = 0; k < groups * size; k++) {
            pieces[k].diameter.mm = 100.0 + next_normal(&seed);
            pieces[k].group = k / size;
        }
        if (fer_find_chart_limits(pieces, (size_t)(groups * size), chart, rule, &limits) != FER_OK) {
            exit(2);
        }
        const double rate = alarms_of(&limits, size);
        const double counted = basis == FER_LIMIT_BASIS_ASSURED ? rate <= 0.01 : rate;
        sum += counted;
        squares += counted * counted;
    }
    const double mean = sum / (double)studies;
    const double error = sqrt(fmax(squares / (double)studies - mean * mean, 1e-12) / (double)studies);
    if (basis == FER_LIMIT_BASIS_ASSURED) {
        snprintf(what, sizeof what, "%s, %2d of %d: 1 %% kept with assurance", names[chart], groups, size);
        say(what, 0.9, mean, error, 0.02, chart == FER_CHART_KIND_SINGLES_BY_RANGE ? 0.03 : 0.02);
    } else {
        const int plain = basis == FER_LIMIT_BASIS_PLAIN;
        snprintf(what, sizeof what, "%s, %2d of %d: false alarms, %s, in %%", names[chart], groups, size,
                 plain ? "plain" : "expected");
        say(what, 1.0, 100.0 * mean, 100.0 * error, 0.1, plain ? 9.0 : 0.1);
    }
}

/* ---- run lengths ----------------------------------------------------------------------------------------- */

/* Scores of a known level and deviation, up to the first signal. The limits of the weighted mean widen at first in the chart and are fixed in the
 * run length, so its signals are counted here. */
static long run_of(fer_charting c, double shift, uint64_t *seed)
{
    fer_chart_point point;
    fer_sample_piece piece;
    const double fixed = c.weight > 0.0 ? c.limit * sqrt(c.weight / (2.0 - c.weight)) : 0.0;
    memset(&point, 0, sizeof point);
    memset(&piece, 0, sizeof piece);
    c.deviation.mm = 1.0;
    c.centre.mm = 100.0;
    for (long n = 1;; n++) {
        piece.diameter.mm = 100.0 + shift + next_normal(seed);
        if (fer_next_point(&piece, point, point, c, &point) != FER_OK) {
            exit(2);
        }
        if (c.weight > 0.0 ? fabs(point.ewma) > fixed : point.signals.bits != 0) {
            return n;
        }
    }
}

static void try_run(const char *name, fer_charting c, double shift, long runs)
{
    fer_run_length length;
    uint64_t seed = first_seed;
    double sum = 0.0, squares = 0.0;
    char what[120];
    if (fer_find_run_length(&c, shift, &length) != FER_OK) {
        exit(2);
    }
    for (long i = 0; i < runs; i++) {
        const double n = (double)run_of(c, shift, &seed);
        sum += n;
        squares += n * n;
    }
    const double mean = sum / (double)runs;
    snprintf(what, sizeof what, "%s, shift %.1f", name, shift);
    say(what, length.mean, mean, sqrt((squares / (double)runs - mean * mean) / (double)runs), 0.0, 0.0);
}

static void try_runs(long runs)
{
    fer_charting ewma = {0}, cusum = {0}, rules = {0};
    ewma.weight = 0.2;
    ewma.limit = 2.4;
    cusum.allowance = 0.5;
    cusum.decision = 3.5;
    rules.beyond = 3.0;
    rules.two_of_three = rules.four_of_five = 1;
    rules.same_side = 8;
    for (int shift = 0; shift < 2; shift++) {
        try_run("weighted mean, weight 0.2, limit 2.4", ewma, shift, runs);
        try_run("sums, allowance 0.5, limit 3.5", cusum, shift, runs);
        try_run("four rules", rules, shift, runs);
    }
}

/* ---- scores ---------------------------------------------------------------------------------------------- */

/* Nothing known: three kinds in turn, 12 pieces each; score beyond 2 and signals of the sums as if level and deviation were known. */
static void try_scores(long studies)
{
    uint64_t seed = first_seed;
    double beyond = 0.0, scores = 0.0;
    for (long i = 0; i < studies; i++) {
        fer_sample_piece pieces[36];
        fer_chart_point points[36];
        const fer_charting nothing = {0};
        size_t found;
        memset(pieces, 0, sizeof pieces);
        for (int k = 0; k < 36; k++) {
            pieces[k].kind = k % 3;
            pieces[k].diameter.mm =
                20.0 + 5.0 * pieces[k].kind + 0.02 * (1 + pieces[k].kind) * next_normal(&seed);
        }
        if (fer_chart_points(pieces, 36, nothing, points, 36, &found) != FER_OK) {
            exit(2);
        }
        for (int k = 6; k < 36; k++) {
            beyond += fabs(points[k].score) > 2.0;
            scores += 1.0;
        }
    }
    const double asked = 2.0 * upper_tail(2.0);
    say("scores beyond 2, three kinds of 12 pieces, in %", 100.0 * asked, 100.0 * beyond / scores,
        100.0 * sqrt(asked * (1.0 - asked) / scores), 0.0, 0.0);
}

/* ---- change ---------------------------------------------------------------------------------------------- */

static void try_change(int n, long studies)
{
    uint64_t seed = first_seed;
    long signals = 0, held = 0;
    char what[120];
    for (long i = 0; i < studies; i++) {
        fer_sample_piece pieces[pieces_maximum];
        fer_ratio places[pieces_maximum];
        fer_level_change change;
        size_t found;
        memset(pieces, 0, sizeof pieces);
        for (int k = 0; k < n; k++) {
            pieces[k].diameter.mm = 100.0 + next_normal(&seed);
        }
        if (fer_find_change(pieces, (size_t)n, &change, places, pieces_maximum, &found) != FER_OK) {
            exit(2);
        }
        signals += change.p_upper.fraction <= 0.05;
        const int place = (int)(next_uniform(&seed) * (n - 1)); /* the last before */
        for (int k = place + 1; k < n; k++) {
            pieces[k].diameter.mm += 2.0;
        }
        if (fer_find_change(pieces, (size_t)n, &change, places, pieces_maximum, &found) != FER_OK) {
            exit(2);
        }
        held += (size_t)place >= change.earliest && (size_t)place <= change.latest;
    }
    const double rate = (double)signals / (double)studies, kept = (double)held / (double)studies;
    snprintf(what, sizeof what, "%2d pieces without a change: bound at most 5 %%, in %%", n);
    say(what, 5.0, 100.0 * rate, 100.0 * sqrt(0.0475 / (double)studies), 2.0, 0.0);
    snprintf(what, sizeof what, "%2d pieces, change by 2: place in the range, in %%", n);
    say(what, 90.0, 100.0 * kept, 100.0 * sqrt(0.09 / (double)studies), 0.0, 10.0);
}

/* ---- press ----------------------------------------------------------------------------------------------- */

/* Noise 0.03 mm, checks every 30 days, judged 15 days later; walk by its standard deviation from check to check over the noise. */
static void try_press(int n, double walk, long studies)
{
    uint64_t seed = first_seed;
    const fer_length limit = {0.2};
    const fer_ratio coverage = {0.95};
    const fer_gauge gauge = {{0.0}, {0.0}, {0.001}};
    long held = 0;
    char what[120];
    for (long i = 0; i < studies; i++) {
        fer_drift_point checks[checks_maximum];
        fer_press_level level;
        double now = 0.0;
        for (int k = 0; k < n; k++) {
            now += k > 0 ? 0.03 * walk * next_normal(&seed) : 0.0;
            checks[k].day = 30 * k;
            checks[k].deviation.mm = now + 0.03 * next_normal(&seed);
        }
        now += 0.03 * walk * sqrt(0.5) * next_normal(&seed);
        if (fer_track_press(checks, (size_t)n, 30 * (n - 1) + 15, limit, coverage, gauge, &level) != FER_OK) {
            exit(2);
        }
        held += now >= level.lower.mm && now <= level.upper.mm;
    }
    snprintf(what, sizeof what, "%2d checks, walk %.2f of the noise: level in its limits", n, walk);
    say(what, 0.95, (double)held / (double)studies, sqrt(0.0475 / (double)studies), 0.07, 0.05);
}

int main(int count, char **arguments)
{
    const long studies = count > 1 ? atol(arguments[1]) : 4000;
    static const int sizes[3] = {6, 20, 50}, numbers[4] = {6, 12, 24, 50};
    static const double walks[4] = {0.0, 0.1, 0.3, 1.0};
    printf("Charts and levels: %ld studies a line, seed %d\n\n", studies, (int)first_seed);
    printf("%-66s %10s %10s %9s\n", "Limits from few pieces", "asked", "reached", "error");
    for (int basis = 0; basis < FER_LIMIT_BASIS_COUNT; basis++) {
        try_limits(FER_CHART_KIND_MEANS_BY_RANGE, 5, 4, (fer_limit_basis)basis, studies);
        try_limits(FER_CHART_KIND_MEANS_BY_RANGE, 20, 5, (fer_limit_basis)basis, studies);
        try_limits(FER_CHART_KIND_MEANS_BY_DEVIATION, 5, 4, (fer_limit_basis)basis, studies);
        try_limits(FER_CHART_KIND_SINGLES_BY_DEVIATION, 10, 1, (fer_limit_basis)basis, studies);
        try_limits(FER_CHART_KIND_SINGLES_BY_DEVIATION, 20, 1, (fer_limit_basis)basis, studies);
        try_limits(FER_CHART_KIND_SINGLES_BY_RANGE, 20, 1, (fer_limit_basis)basis, studies);
    }
    printf("\n%-66s %10s %10s %9s\n", "Pieces up to a signal", "computed", "reached", "error");
    try_runs(studies);
    printf("\n%-66s %10s %10s %9s\n", "Scores and changes", "asked", "reached", "error");
    try_scores(studies);
    for (int i = 0; i < 3; i++) {
        try_change(sizes[i], studies);
    }
    printf("\n%-66s %10s %10s %9s\n", "Level of a press", "asked", "reached", "error");
    for (int i = 0; i < 4; i++) {
        for (int k = 0; k < 4; k++) {
            try_press(numbers[i], walks[k], studies);
        }
    }
    return failed;
}
