/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

/* A depot's day with numbers for reels and bins, its dies, and what changes take: invented. */
static const fer_job jobs[] = {
    {.target = {23.51}, .reel = 1, .bin = 1},   {.target = {27.30}, .reel = 2, .bin = 2},
    {.target = {15.32}, .reel = 3, .bin = 3},   {.target = {29.60}, .reel = 4, .bin = 4},
    {.target = {48.5608}, .reel = 5, .bin = 5}, {.target = {23.495}, .reel = 1, .bin = 6}};
static const fer_die dies[] = {{.size = {13}, .reach = {4}, .adapter = 1},
                               {.size = {19}},
                               {.size = {22}},
                               {.size = {25}},
                               {.size = {28}},
                               {.size = {46}}};
static const fer_press press = {.graduation = {0.05}, .correction = {-0.15}};
static const fer_change_times times = {480, 240, 180, 90, 30};
static const fer_mounted mounted = {1, 2, {1.35}, 0, 1, 1};
static fer_work work[100000];

int main(void)
{
    fer_turn turns[6];
    fer_schedule schedule, as_came;
    size_t count;
    const fer_schedule_aim any_die = {0}, nearest = {.nearest_only = 1};
    if (fer_plan_schedule(jobs, 6, &press, dies, 6, &times, mounted, any_die, work, 100000, turns, 6, &count,
                          &schedule) != FER_OK) {
        return 1;
    }
    for (size_t i = 0; i < count; i++) {
        printf("%zu: die %g, dial %.2f, %s%s%s%s%s%d s\n", turns[i].job + 1, dies[turns[i].die].size.mm,
               turns[i].setting.mm, turns[i].adapter_changes ? "adapter, " : "",
               turns[i].die_changes ? "die, " : "", turns[i].dial_changes ? "dial, " : "",
               turns[i].reel_changes ? "reel, " : "", turns[i].bin_changes ? "bin, " : "",
               turns[i].change_seconds);
    }
    printf("changes %.1f min%s\n", schedule.change_seconds / 60.0,
           schedule.optimal ? "; no order takes less" : "");
    if (fer_time_schedule(jobs, 6, &press, dies, 6, &times, mounted, nearest, work, 100000, turns, 6, &count,
                          &as_came) != FER_OK) {
        return 1;
    }
    printf("as they came, nearest dies: %.1f min\n", as_came.change_seconds / 60.0);
    return 0;
}
