/* SPDX-License-Identifier: MIT */
/* Times of calls of modules `rack` and `schedule` on shops and days that bench_shop.py writes to a file: name and milliseconds a line, lowest
 * of rounds of processor time. */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { most = 4096 };
static fer_work work[FER_WORK_USUAL];
static fer_offer offers[FER_RACK_DIES_MAXIMUM];
static fer_die dies[FER_SCHEDULE_DIES_MAXIMUM];
static fer_demand demands[most];
static fer_job jobs[FER_SCHEDULE_JOBS_MAXIMUM];
static fer_rack points[most];
static fer_turn turns[FER_SCHEDULE_JOBS_MAXIMUM];
static size_t offer_count, die_count, demand_count, job_count;
static fer_schedule schedule;
static size_t found;

static void curve(void)
{
    const fer_rack_aim aim = {0};
    if (fer_find_rack_curve(NULL, 0, demands, demand_count, offers, offer_count, NULL, 0, aim, work,
                            FER_WORK_USUAL, points, most, &found) != FER_OK) {
        abort();
    }
}

static void day(void)
{
    const fer_press press = {0};
    const fer_change_times times = {480, 240, 180, 90, 30};
    const fer_mounted mounted = {1, 5, {1.51}, 0, 4, 33};
    const fer_schedule_aim aim = {0};
    if (fer_plan_schedule(jobs, job_count, &press, dies, die_count, &times, mounted, aim, work,
                          FER_WORK_USUAL, turns, FER_SCHEDULE_JOBS_MAXIMUM, &found, &schedule) != FER_OK) {
        abort();
    }
}

static void time_call(const char *name, void (*call)(void))
{
    double best = 1e300;
    for (int round = 0; round < 5; round++) {
        const clock_t start = clock();
        call();
        const double each = 1e3 * (double)(clock() - start) / CLOCKS_PER_SEC;
        best = each < best ? each : best;
    }
    printf("%s %.4f %zu %d %d\n", name, best, found, schedule.change_seconds, schedule.end_bound);
}

/* Lines: `offer SIZE REACH PRICE`, `demand TARGET WEIGHT`, `die SIZE REACH ADAPTER`, `job TARGET REEL BIN DUE`, `curve NAME`, `day NAME`; the
 * last two time a call, and empty the lists. */
int main(void)
{
    char word[16], name[64];
    double a, b, c, d;
    while (scanf("%15s", word) == 1) {
        if (strcmp(word, "offer") == 0 && scanf("%lf %lf %lf", &a, &b, &c) == 3) {
            offers[offer_count++] = (fer_offer){{{a}, {b}, 0, {0}}, c};
        } else if (strcmp(word, "demand") == 0 && scanf("%lf %lf", &a, &b) == 2) {
            demands[demand_count++] = (fer_demand){{a}, b, {0}, {0}, {0}};
        } else if (strcmp(word, "die") == 0 && scanf("%lf %lf %lf", &a, &b, &c) == 3) {
            dies[die_count++] = (fer_die){{a}, {b}, (int)c, {0}};
        } else if (strcmp(word, "job") == 0 && scanf("%lf %lf %lf %lf", &a, &b, &c, &d) == 4) {
            jobs[job_count++] = (fer_job){{a}, {0}, {0}, {0}, (int)b, (int)c, 0, (int)d};
        } else if (scanf("%63s", name) == 1) {
            time_call(name, strcmp(word, "curve") == 0 ? curve : day);
            offer_count = demand_count = die_count = job_count = 0;
        } else {
            return 1;
        }
    }
    return 0;
}
