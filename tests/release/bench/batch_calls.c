/* SPDX-License-Identifier: MIT */
/* Processor time of calls of modules `capability` and `gauge`: name and microseconds a line. bench_batch.py compiles and runs it. */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <string.h>
#include <time.h>

static const fer_ratio confidence = {0.95};
static fer_sample_summary summary;
static fer_wanted wanted;
static fer_capability_settings settings;
static fer_sample_piece pieces[11];
static fer_study_reading readings[120];
static double sum; /* of results, so that no call is left out */

static void two_sided(void)
{
    double factor;
    (void)fer_find_tolerance_factor(10, 0, confidence, confidence, FER_SIDE_BOTH, &factor);
    sum += factor;
}

static void quantile(void)
{
    double required;
    (void)fer_find_index_to_show(10, 4.0 / 3.0, confidence, &required);
    sum += required;
}

static void capability(void)
{
    fer_capability c;
    (void)fer_find_capability(&summary, &wanted, confidence, settings, &c);
    sum += c.nearer.lower;
}

static void share(void)
{
    fer_share_outside s;
    (void)fer_find_share_outside(&summary, &wanted, confidence, settings.measuring, &s);
    sum += s.outside_upper.fraction;
}

static void normality(void)
{
    fer_normality n;
    fer_length sorted[11];
    size_t found;
    (void)fer_test_normality(pieces, 11, settings.measuring, &n, sorted, 11, &found);
    sum += n.shapiro;
}

static void study(void)
{
    const fer_study_settings usual = {{0}, 0, {0}, {0}};
    const fer_length tolerance = {1.0};
    fer_gauge_study s;
    (void)fer_study_gauge(readings, 120, tolerance, confidence, usual, &s);
    sum += s.gauge.upper.mm;
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
    static const double weights[11] = {148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236};
    summary.count = 10;
    summary.mean.mm = 23.52;
    summary.scatter.value.mm = 0.02;
    wanted.limits.lower.mm = 23.4;
    wanted.limits.upper.mm = 23.6;
    for (int i = 0; i < 11; i++) {
        pieces[i].diameter.mm = weights[(i * 4) % 11];
    }
    for (int i = 0; i < 120; i++) {
        readings[i].part = i / 6;
        readings[i].person = i / 2 % 3;
        readings[i].diameter.mm = 20.0 + (i * 7919 % 101) * 0.001 + i / 6 * 0.1;
    }
    measure("tolerance_factor_both_n10", two_sided, 1000);
    measure("noncentral_t_quantile_n10", quantile, 3000);
    measure("share_outside_n10", share, 200);
    wanted.side = FER_SIDE_UPPER;
    measure("capability_one_limit_n10", capability, 500);
    summary.count = 50;
    measure("capability_one_limit_n50", capability, 500);
    summary.count = 10;
    wanted.side = FER_SIDE_BOTH;
    measure("capability_both_limits_n10", capability, 200);
    settings.measuring.repeatability.mm = 0.008;
    wanted.side = FER_SIDE_UPPER;
    measure("capability_one_limit_gauge_off_n10", capability, 200);
    settings.measuring.repeatability.mm = 0.0;
    measure("normality_n11", normality, 20000);
    measure("gauge_study_20_3_2", study, 300);
    return sum == 0.0;
}
