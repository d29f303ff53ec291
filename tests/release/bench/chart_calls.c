/* SPDX-License-Identifier: MIT */
/* Processor time of calls of module `chart`: name and microseconds a line. bench_chart.py compiles and runs it. */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <string.h>
#include <time.h>

static fer_sample_piece pieces[30];
static fer_drift_point checks[24];
static double sum; /* of results, so that no call is left out */

static fer_charting charting_of(double weight, double limit, double allowance, double decision)
{
    fer_charting c = {0};
    c.weight = weight;
    c.limit = limit;
    c.allowance = allowance;
    c.decision = decision;
    return c;
}

static void run(fer_charting c, double shift)
{
    fer_run_length length;
    (void)fer_find_run_length(&c, shift, &length);
    sum += length.mean;
}

static void ewma_32(void)
{
    run(charting_of(0.1, 2.814, 0.0, 0.0), 0.0);
}

static void ewma_48(void)
{
    run(charting_of(0.05, 3.0, 0.0, 0.0), 0.0);
}

static void ewma_shifted(void)
{
    run(charting_of(0.1, 2.814, 0.0, 0.0), 1.0);
}

static void cusum_32(void)
{
    run(charting_of(0.0, 0.0, 0.5, 4.77), 0.0);
}

static void cusum_48(void)
{
    run(charting_of(0.0, 0.0, 0.1, 18.5), 0.0);
}

static void rules(void)
{
    fer_charting c = {0};
    c.beyond = 3.0;
    c.two_of_three = c.four_of_five = 1;
    c.same_side = 8;
    run(c, 0.0);
}

static void ewma_limit(void)
{
    const fer_charting c = charting_of(0.1, 0.0, 0.0, 0.0);
    fer_charting complete;
    (void)fer_find_charting_limit(500.0, &c, &complete);
    sum += complete.limit;
}

static void choice(void)
{
    fer_charting c;
    (void)fer_choose_charting(370.0, 1.0, FER_CHART_METHOD_EWMA, &c);
    sum += c.weight;
}

/* d2, d3, c4 and what follows from them; d2 alone is a part of the limits of means by ranges that is not reached by itself. */
static void constants(void)
{
    fer_chart_constants c;
    (void)fer_find_chart_constants(12, 0, &c);
    sum += c.range_deviation;
}

static void points(void)
{
    const fer_charting c = charting_of(0.2, 2.8, 0.5, 4.0);
    fer_chart_point found[30];
    size_t count;
    (void)fer_chart_points(pieces, 30, c, found, 30, &count);
    sum += found[29].score;
}

static void change(void)
{
    fer_level_change found;
    fer_ratio places[30];
    size_t count;
    (void)fer_find_change(pieces, 30, &found, places, 30, &count);
    sum += found.t_statistic;
}

static void press(void)
{
    const fer_length limit = {0.2};
    const fer_ratio coverage = {0.95};
    const fer_gauge gauge = {{0.0}, {0.0}, {0.0}};
    fer_press_level level;
    (void)fer_track_press(checks, 24, 720, limit, coverage, gauge, &level);
    sum += level.level.mm;
}

static void measure(const char *name, void (*call)(void), int times)
{
    double best = 1e30;
    for (int round = 0; round < 7; round++) {
        const clock_t start = clock();
        for (int i = 0; i < times; i++) {
            call();
        }
        const double each = 1e6 * (double)(clock() - start) / CLOCKS_PER_SEC / times;
        best = each < best ? each : best;
    }
    printf("%s %.3f\n", name, best);
}

int main(void)
{
    for (int i = 0; i < 30; i++) {
        pieces[i].diameter.mm = 23.5 + (i * 7919 % 101) * 0.001;
    }
    for (int i = 0; i < 24; i++) {
        checks[i].day = 30 * i;
        checks[i].deviation.mm = (i * 7919 % 101) * 0.001;
    }
    measure("run_length_ewma_32", ewma_32, 2000);
    measure("run_length_ewma_48", ewma_48, 1000);
    measure("run_length_ewma_shift_1", ewma_shifted, 1000);
    measure("run_length_cusum_32", cusum_32, 1000);
    measure("run_length_cusum_48", cusum_48, 500);
    measure("run_length_rules", rules, 100);
    measure("ewma_limit_for_500", ewma_limit, 300);
    measure("choose_charting_ewma", choice, 20);
    measure("chart_constants_n12", constants, 200);
    measure("chart_points_30", points, 500);
    measure("find_change_30", change, 200);
    measure("track_press_24", press, 50);
    return sum == 0.0;
}
