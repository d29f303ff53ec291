/* SPDX-License-Identifier: MIT */
#include "check.h"

enum { words = 300000, most_jobs = 60 };
static fer_work work[words];
static const fer_schedule_aim any_die = {0}, nearest = {.nearest_only = 1};

/* The depot's rack, press and day: invented, as are the times: adapter 8 min, die 4, dial 3, reel 1.5, bin 0.5. */
static const fer_die rack[12] = {{{8}, {3}, 1, {0}},  {{10}, {3}, 1, {0}}, {{13}, {4}, 1, {0}},
                                 {{16}, {5}, 0, {0}}, {{19}, {7}, 0, {0}}, {{22}, {7}, 0, {0}},
                                 {{25}, {7}, 0, {0}}, {{28}, {7}, 0, {0}}, {{31}, {7}, 0, {0}},
                                 {{36}, {7}, 0, {0}}, {{41}, {7}, 0, {0}}, {{46}, {7}, 0, {0}}};
static const fer_change_times usual = {480, 240, 180, 90, 30};
static const fer_press stepless = {0}, depot_press = {.graduation = {0.05}, .correction = {-0.15}};
static const fer_mounted nothing = {0}, depot_mounted = {1, 5, {1.35}, 0, 1, 1};

static fer_job job_of(double target, int reel, int bin)
{
    const fer_job job = {.target = {target}, .reel = reel, .bin = bin};
    return job;
}

static void fill_day(fer_job jobs[6])
{
    jobs[0] = job_of(23.51, 1, 1);
    jobs[1] = job_of(27.30, 2, 2);
    jobs[2] = job_of(15.32, 3, 3);
    jobs[3] = job_of(29.60, 4, 4);
    jobs[4] = job_of(48.5608, 5, 5);
    jobs[5] = job_of(23.495, 1, 6);
}

/* What a schedule says of itself is what its turns say. */
static void check_turns(const fer_job *jobs, const fer_turn *turns, size_t count, const fer_schedule *s)
{
    int change = 0, end = 0, late = 0;
    size_t dials = 0, left_out = 0, seen[most_jobs] = {0};
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(seen[turns[i].job]++, 0);
        if (!turns[i].found) {
            left_out++;
            CHECK_NAN(turns[i].setting.mm);
            CHECK_NAN(turns[i].offset.mm);
            CHECK_NAN(turns[i].lobe_height.mm);
            continue;
        }
        assert_int_equal(left_out, 0);
        assert_int_equal(turns[i].start_seconds, end);
        end += turns[i].change_seconds + jobs[turns[i].job].work_seconds;
        assert_int_equal(turns[i].end_seconds, end);
        assert_true(!turns[i].die_changes || turns[i].dial_changes);
        change += turns[i].change_seconds;
        dials += (size_t)turns[i].dial_changes;
        late = turns[i].late_seconds > late ? turns[i].late_seconds : late;
    }
    assert_int_equal(s->change_seconds, change);
    assert_int_equal(s->end_seconds, end);
    assert_int_equal(s->late_seconds, late);
    assert_int_equal(s->dials, dials);
    assert_int_equal(s->left_out, left_out);
    assert_true(s->late_bound <= late && (s->late_bound < late || s->end_bound <= end));
    assert_int_equal(s->optimal, s->late_bound == late && s->end_bound == end);
}

static void plan_with(const fer_die dies[12], const fer_job *jobs, size_t count, fer_mounted mounted,
                      fer_schedule_aim aim, size_t memory, fer_turn *turns, fer_schedule *s)
{
    size_t found;
    CHECK_OK(fer_plan_schedule(jobs, count, &stepless, dies, 12, &usual, mounted, aim, work, memory, turns,
                               most_jobs, &found, s));
    assert_int_equal(found, count);
    check_turns(jobs, turns, count, s);
}

static void plan(const fer_job *jobs, size_t count, fer_mounted mounted, fer_schedule_aim aim, size_t memory,
                 fer_turn *turns, fer_schedule *s)
{
    plan_with(rack, jobs, count, mounted, aim, memory, turns, s);
}

static void the_depots_day_takes_forty_minutes_of_changes(void **state)
{
    (void)state;
    fer_job jobs[6];
    fer_turn turns[6];
    fer_schedule s;
    size_t found;
    fill_day(jobs);
    CHECK_OK(fer_plan_schedule(jobs, 6, &depot_press, rack, 12, &usual, depot_mounted, any_die, work, words,
                               turns, 6, &found, &s));
    /* figures of another program, and the minimum that any order needs, counted by hand: adapter 8, dies 3 × 4, dials 4 × 3, reels
     * 4 × 1.5, bins 5 × 0.5 min */
    assert_int_equal(s.change_seconds, 2430);
    assert_int_equal(s.end_bound, 2430);
    assert_true(s.optimal && s.complete);
    assert_int_equal(s.adapters, 1);
    assert_int_equal(s.dies, 3);
    assert_int_equal(s.dials, 4);
    assert_int_equal(s.reels, 4);
    assert_int_equal(s.bins, 5);
    assert_int_equal(s.kinds, 6);
    assert_int_equal(turns[0].job, 0);
    CHECK_NEAR(turns[0].setting.mm, 1.35, 0.0); /* 23.51 − 22 − 0.15 = 1.36, and 23.495 gives 1.345 */
    assert_int_equal(turns[0].change_seconds, 0);
    CHECK_NEAR(turns[1].setting.mm, 1.35, 0.0);
    assert_int_equal(turns[1].change_seconds, 30);
    check_turns(jobs, turns, 6, &s);
    CHECK_OK(fer_plan_schedule(jobs, 6, &depot_press, rack, 12, &usual, depot_mounted, nearest, work, words,
                               turns, 6, &found, &s));
    assert_int_equal(s.change_seconds, 2670);
    CHECK_NEAR(s.offset_maximum.mm, 2.5608, 1e-13);
    CHECK_NEAR(s.lobe_maximum.mm, 0.0925012, 5e-8);
    CHECK_OK(fer_time_schedule(jobs, 6, &depot_press, rack, 12, &usual, depot_mounted, nearest, work, words,
                               turns, 6, &found, &s));
    assert_int_equal(s.change_seconds, 3660);
    assert_int_equal(s.end_bound, 2670);
    assert_false(s.optimal);
    for (size_t i = 0; i < 6; i++) {
        assert_int_equal(turns[i].job, i);
    }
    check_turns(jobs, turns, 6, &s);
}

static void one_die_serves_both_reels(void **state)
{
    (void)state;
    /* By hand: die 20 with reels 1 and 2, die 30 with reel 2; 20 at its setting and reel 1 are there. Reel 2 (90 s), then the die (420 s). */
    const fer_die dies[] = {{{20}, {3}, 0, {0}}, {{30}, {3}, 0, {0}}};
    const fer_job jobs[] = {job_of(21, 1, 0), job_of(31, 2, 0), job_of(21, 2, 0)};
    const fer_mounted mounted = {1, 0, {1.0}, 0, 1, 0};
    fer_turn turns[3];
    fer_schedule s;
    size_t found;
    CHECK_OK(fer_plan_schedule(jobs, 3, &stepless, dies, 2, &usual, mounted, any_die, work, words, turns, 3,
                               &found, &s));
    assert_int_equal(s.change_seconds, 510);
    assert_int_equal(turns[0].job, 0);
    assert_int_equal(turns[1].job, 2);
    assert_int_equal(turns[2].job, 1);
}

static void jobs_are_done_in_time_if_they_can_be(void **state)
{
    (void)state;
    fer_job jobs[] = {job_of(23, 1, 1), job_of(23, 1, 1), job_of(40, 2, 2), job_of(23, 1, 1)};
    fer_turn turns[4];
    fer_schedule s;
    const fer_mounted mounted = {1, 5, {1.0}, 0, 1, 1};
    for (size_t i = 0; i < 4; i++) {
        jobs[i].work_seconds = 600;
    }
    jobs[3].due_seconds = 600;
    /* By hand: job 3 first, jobs 0 and 1 of its kind with it, then 40 with die, dial, reel and bin (540 s). */
    plan(jobs, 4, mounted, any_die, words, turns, &s);
    assert_int_equal(turns[0].job, 3);
    assert_int_equal(s.end_seconds, 2400 + 540);
    assert_true(s.optimal && s.late_seconds == 0 && s.kinds == 2);
    /* 40 is due before the others can be done: the die changes twice */
    jobs[2].due_seconds = 1740;
    plan(jobs, 4, mounted, any_die, words, turns, &s);
    assert_int_equal(turns[1].job, 2);
    assert_int_equal(s.end_seconds, 2400 + 540 + 540);
    assert_true(s.optimal && s.late_seconds == 0);
    /* neither can be in time: job 3 first, 600 s late, and 40 as well: 600 + 540 + 600 - 1140 */
    jobs[3].due_seconds = 1;
    jobs[2].due_seconds = 1140;
    plan(jobs, 4, mounted, any_die, words, turns, &s);
    assert_int_equal(s.late_seconds, 600);
    assert_int_equal(s.late_bound, 600);
    assert_true(s.optimal);
    assert_int_equal(turns[1].late_seconds, 600);
    /* as they come */
    size_t found;
    CHECK_OK(fer_time_schedule(jobs, 4, &stepless, rack, 12, &usual, mounted, any_die, work, words, turns, 4,
                               &found, &s));
    assert_int_equal(s.late_seconds, 2400 + 540 + 540 - 1);
    assert_int_equal(s.late_bound, 600);
    assert_false(s.optimal);
    check_turns(jobs, turns, 4, &s);
}

static void a_die_has_to_do_what_is_asked(void **state)
{
    (void)state;
    const fer_die dies[] = {
        {{20}, {0}, 0, {40}}, {{22}, {7}, 0, {30}}, {{23}, {7}, 0, {0}}, {{24}, {7}, 0, {0}}};
    const fer_press press = {.opening = {4}, .dial_maximum = {3}, .segments = 8};
    fer_job jobs[] = {job_of(23.5, 0, 0), job_of(23.5, 0, 0), job_of(23.5, 0, 0), job_of(19, 0, 0),
                      job_of(30.5, 0, 0)};
    fer_turn turns[5];
    fer_schedule s;
    size_t found;
    jobs[1].ferrule_length.mm = 50;
    jobs[1].widest.mm = 27.5; /* 23 + 4 is too narrow, and so is 22 + 4 */
    jobs[2].lobe_maximum.mm = 0.001;
    CHECK_OK(fer_plan_schedule(jobs, 5, &press, dies, 4, &usual, nothing, any_die, work, words, turns, 5,
                               &found, &s));
    check_turns(jobs, turns, 5, &s);
    assert_int_equal(s.left_out, 4);
    assert_int_equal(s.kinds, 1);
    assert_int_equal(turns[0].job, 0);
    assert_int_equal(turns[0].die, 2); /* the nearest of those that take as long */
    assert_int_equal(turns[4].die, 4);
    jobs[1].widest.mm = 27;
    jobs[2].lobe_maximum.mm =
        0.05; /* 23.5 in 23 leaves 0.0187 mm, in 22 0.0536 mm, by the formula of fer_lobe_height() */
    CHECK_OK(fer_plan_schedule(jobs, 3, &press, dies, 4, &usual, nothing, any_die, work, words, turns, 3,
                               &found, &s));
    assert_int_equal(s.left_out, 0);
    assert_int_equal(s.dies, 1);
    assert_int_equal(turns[2].die, 2);
    /* of eleven dies a job takes the eight nearest */
    static const double tenths[] = {5, 1, 8, 4, 3, 7, 6, 10, 9, 2, 0};
    fer_die many[11];
    for (size_t i = 0; i < 11; i++) {
        many[i] = (fer_die){{20 + 0.1 * tenths[i]}, {7}, 0, {0}};
    }
    const fer_mounted farthest = {1, 10, {2.5}, 0, 0, 0}; /* 20: it is the eleventh */
    const fer_job one = job_of(22.5, 0, 0);
    CHECK_OK(fer_plan_schedule(&one, 1, &stepless, many, 11, &usual, farthest, any_die, work, words, turns, 1,
                               &found, &s));
    assert_int_equal(s.dies, 1);
    CHECK_NEAR(turns[0].offset.mm, 1.5, 1e-12);
    const fer_mounted eighth = {1, 4, {2.2}, 0, 0, 0}; /* 20.3 */
    CHECK_OK(fer_plan_schedule(&one, 1, &stepless, many, 11, &usual, eighth, any_die, work, words, turns, 1,
                               &found, &s));
    assert_int_equal(s.dies, 0);
}

static void no_jobs_take_no_time(void **state)
{
    (void)state;
    fer_turn turns[2];
    fer_schedule s;
    const fer_job too_large[] = {job_of(90, 1, 1), job_of(5, 1, 1)};
    for (size_t count = 0; count < 3; count += 2) {
        for (size_t memory = 250; memory < 1000; memory += 500) {
            plan(too_large, count, nothing, any_die, memory, turns, &s);
            assert_int_equal(s.left_out, count);
            assert_int_equal(s.end_seconds, 0);
            assert_true(s.optimal);
            CHECK_NAN(s.offset_maximum.mm);
            CHECK_NAN(s.lobe_maximum.mm);
        }
    }
}

/* Whole numbers from 0 to below a limit, drawn. */
static uint64_t drawn;

static int draw(int limit)
{
    drawn = drawn * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (int)(drawn >> 33) % limit;
}

static void fill_random_day(fer_job *jobs, size_t count, int crossing, int due)
{
    static const double diameters[] = {12.2, 15.3, 16.6, 20.5, 22.6, 24.1, 27.3, 29.9, 33.0, 48.6};
    for (size_t i = 0; i < count; i++) {
        const int which = draw(10);
        jobs[i] = job_of(diameters[which] + 0.4 * draw(2), crossing ? draw(6) : which,
                         crossing ? draw(8) : 4 * which + draw(4));
        jobs[i].work_seconds = due ? 60 * draw(10) : 0;
        jobs[i].due_seconds = due && draw(3) ? 1800 * (1 + draw(due)) : 0;
    }
}

/* With memory for no programme the order is improved instead: it is not better than the best one, and its bound is not above it. */
static void bounds_hold_and_orders_are_good(void **state)
{
    (void)state;
    /* Long dies and short ones by turns, not by size, with two of one size: for a long ferrule the dies are not neighbours. */
    static const fer_die mixed[12] = {{{46}, {7}, 0, {0}},  {{19}, {9}, 0, {30}}, {{16}, {7}, 1, {60}},
                                      {{22}, {8}, 0, {60}}, {{20}, {9}, 2, {60}}, {{24}, {7}, 0, {60}},
                                      {{23}, {7}, 0, {30}}, {{28}, {7}, 0, {60}}, {{28}, {5}, 0, {60}},
                                      {{28}, {9}, 0, {30}}, {{13}, {4}, 1, {0}},  {{10}, {4}, 1, {60}}};
    fer_job jobs[most_jobs];
    fer_turn turns[most_jobs];
    fer_schedule best, good;
    int same = 0, proven = 0;
    drawn = 17;
    for (int i = 0; i < 100; i++) {
        const size_t count = (size_t)(3 + draw(8));
        fill_random_day(jobs, count, i % 2, i % 4 < 2 ? 0 : 3);
        const fer_mounted mounted = {i % 3 > 0, (size_t)draw(12), {1.5}, draw(2), draw(6), draw(8)};
        const fer_die *const dies = i % 5 < 2 ? mixed : rack;
        for (size_t j = 0; j < count && dies == mixed; j++) {
            jobs[j].ferrule_length.mm = draw(2) ? 50.0 : 0.0;
            jobs[j].lobe_maximum.mm = draw(3) ? 0.0 : 0.1;
        }
        plan_with(dies, jobs, count, mounted, any_die, words, turns, &best);
        assert_true(best.optimal);
        plan_with(dies, jobs, count, mounted, any_die, (i % 7 ? 64 : 53) * count + 6, turns, &good);
        assert_true(good.late_bound <= best.late_seconds && good.end_bound <= best.end_seconds);
        assert_true(good.late_seconds > best.late_seconds ||
                    (good.late_seconds == best.late_seconds && good.end_seconds >= best.end_seconds));
        same += good.late_seconds == best.late_seconds && good.end_seconds == best.end_seconds;
        proven += good.optimal;
    }
    assert_true(same > 65);
    assert_true(proven > 40);
}

static void large_days_have_bounds_near_by(void **state)
{
    (void)state;
    fer_job jobs[most_jobs];
    fer_turn turns[most_jobs];
    fer_schedule s, listed;
    size_t found;
    drawn = 3;
    for (int i = 0; i < 4; i++) {
        fill_random_day(jobs, most_jobs, i % 2, i < 2 ? 0 : 20);
        plan(jobs, most_jobs, depot_mounted, any_die, words, turns, &s);
        assert_true(s.complete && s.kinds > 20);
        assert_true(i > 1 || s.end_seconds <= 1.1 * s.end_bound);
        CHECK_OK(fer_time_schedule(jobs, most_jobs, &stepless, rack, 12, &usual, depot_mounted, any_die, work,
                                   words, turns, most_jobs, &found, &listed));
        check_turns(jobs, turns, most_jobs, &listed);
        assert_int_equal(listed.end_bound, s.end_bound);
        assert_true(listed.end_seconds > s.end_seconds);
    }
}

static void a_search_that_ends_early_says_so(void **state)
{
    (void)state;
    fer_job jobs[most_jobs];
    fer_turn turns[most_jobs];
    fer_schedule s;
    int ends = 0;
    drawn = 5;
    for (int due = 0; due < 40; due += 20) {
        fill_random_day(jobs, most_jobs, 1, due);
        s.complete = 0;
        for (double steps = 1.0; !s.complete; steps *= 4.0, ends++) {
            const fer_schedule_aim aim = {.steps = steps};
            plan(jobs, most_jobs, depot_mounted, aim, words, turns, &s);
        }
    }
    assert_true(ends > 12);
    /* too few for the programme, enough for the rest: the same order, but nothing says that the search was whole */
    const fer_schedule_aim few = {.steps = 3000.0};
    fill_day(jobs);
    plan(jobs, 6, depot_mounted, few, words, turns, &s);
    assert_true(s.optimal && !s.complete);
}

/* More adapter sets than covers are looked for count as free: the bound holds all the same. */
static void many_adapters_keep_the_bound(void **state)
{
    (void)state;
    fer_die dies[9];
    fer_job jobs[9];
    fer_turn turns[9];
    fer_schedule s;
    size_t found;
    for (size_t i = 0; i < 9; i++) {
        dies[i] = (fer_die){{20 + 2 * (double)i}, {1.5}, (int)i, {0}};
        jobs[i] = job_of(21 + 2 * (double)i, 0, 0);
    }
    for (size_t adapters = 5; adapters <= 9; adapters++) {
        CHECK_OK(fer_plan_schedule(jobs, adapters, &stepless, dies, 9, &usual, nothing, any_die, work,
                                   70 * adapters, turns, 9, &found, &s));
        assert_int_equal(s.change_seconds, (adapters - 1) * 480 + adapters * 420);
        assert_true(s.end_bound <= s.end_seconds);
        assert_true(s.optimal); /* with more than six by the trees */
    }
}

/* Twenty kinds with ten due times each have more states than can be counted. */
static void states_beyond_all_numbers_are_not_tried(void **state)
{
    (void)state;
    static fer_job jobs[200];
    static fer_turn turns[200];
    fer_schedule s;
    size_t found;
    const fer_schedule_aim aim = {.steps = 1e6};
    for (size_t i = 0; i < 200; i++) {
        jobs[i] = job_of(23, 0, (int)(i % 20));
        jobs[i].due_seconds = 1000 * (1 + (int)(i / 20));
    }
    CHECK_OK(fer_plan_schedule(jobs, 200, &stepless, rack, 12, &usual, nothing, aim, work, words, turns, 200,
                               &found, &s));
    assert_int_equal(s.kinds, 20);
    assert_int_equal(s.left_out, 0);
}

#define PLAN(jobs, count, press, dies, die_count, times, mounted, aim)                                       \
    fer_plan_schedule(jobs, count, press, dies, die_count, times, mounted, aim, work, words, turns, 2,       \
                      &found, &s)

static void bad_input_has_its_status(void **state)
{
    (void)state;
    static fer_job many[FER_SCHEDULE_JOBS_MAXIMUM + 1];
    static fer_die many_dies[FER_SCHEDULE_DIES_MAXIMUM + 1];
    const fer_job one = job_of(23, 0, 0), pair[] = {job_of(23, 0, 0), job_of(23, 0, 0), job_of(23, 0, 0)};
    fer_turn turns[2];
    fer_schedule s;
    size_t found = 7;
    for (size_t i = 0; i <= FER_SCHEDULE_JOBS_MAXIMUM; i++) {
        many[i] = one;
    }
    for (size_t i = 0; i <= FER_SCHEDULE_DIES_MAXIMUM; i++) {
        many_dies[i] = rack[5];
    }
    CHECK_STATUS(PLAN(NULL, 1, &stepless, rack, 12, &usual, nothing, any_die), FER_ARGUMENT_MISSING);
    assert_int_equal(found, 0);
    CHECK_STATUS(PLAN(&one, 1, NULL, rack, 12, &usual, nothing, any_die), FER_ARGUMENT_MISSING);
    CHECK_STATUS(PLAN(&one, 1, &stepless, NULL, 12, &usual, nothing, any_die), FER_ARGUMENT_MISSING);
    CHECK_STATUS(PLAN(&one, 1, &stepless, rack, 12, NULL, nothing, any_die), FER_ARGUMENT_MISSING);
    CHECK_STATUS(PLAN(many, FER_SCHEDULE_JOBS_MAXIMUM + 1, &stepless, rack, 12, &usual, nothing, any_die),
                 FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(PLAN(&one, 1, &stepless, many_dies, FER_SCHEDULE_DIES_MAXIMUM + 1, &usual, nothing, any_die),
                 FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(PLAN(pair, 3, &stepless, rack, 12, &usual, nothing, any_die),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    CHECK_STATUS(fer_time_schedule(pair, 3, &stepless, rack, 12, &usual, nothing, any_die, work, words, turns,
                                   2, &found, &s),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    CHECK_STATUS(fer_time_schedule(pair, 3, &stepless, rack, 12, &usual, nothing, any_die, NULL, 9, turns, 2,
                                   &found, &s),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_plan_schedule(&one, 1, &stepless, rack, 12, &usual, nothing, any_die, work, words, turns,
                                   2, NULL, &s),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_plan_schedule(&one, 1, &stepless, rack, 12, &usual, nothing, any_die, work, words, turns,
                                   2, &found, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_plan_schedule(&one, 1, &stepless, rack, 12, &usual, nothing, any_die, work, words, NULL,
                                   2, &found, &s),
                 FER_ARGUMENT_MISSING);
    CHECK_OK(fer_plan_schedule(NULL, 0, &stepless, NULL, 0, &usual, nothing, any_die, work, words, NULL, 0,
                               &found, &s));
    const struct {
        fer_job job;
        fer_status status;
    } rows[] = {{{.target = {0.0}}, FER_TARGET_MISSING},
                {{.target = {-1.0}}, FER_TARGET_OUT_OF_RANGE},
                {{.target = {23.0}, .ferrule_length = {-1.0}}, FER_FERRULE_LENGTH_OUT_OF_RANGE},
                {{.target = {23.0}, .widest = {-1.0}}, FER_WIDEST_DIAMETER_OUT_OF_RANGE},
                {{.target = {23.0}, .lobe_maximum = {-1.0}}, FER_JOB_LOBE_OUT_OF_RANGE},
                {{.target = {23.0}, .reel = -1}, FER_JOB_REEL_OUT_OF_RANGE},
                {{.target = {23.0}, .bin = -1}, FER_JOB_BIN_OUT_OF_RANGE},
                {{.target = {23.0}, .work_seconds = -1}, FER_JOB_WORK_OUT_OF_RANGE},
                {{.target = {23.0}, .work_seconds = 1000001}, FER_JOB_WORK_OUT_OF_RANGE},
                {{.target = {23.0}, .due_seconds = -1}, FER_JOB_DUE_OUT_OF_RANGE},
                {{.target = {23.0}, .due_seconds = 1000001}, FER_JOB_DUE_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        CHECK_STATUS(PLAN(&rows[i].job, 1, &stepless, rack, 12, &usual, nothing, any_die), rows[i].status);
    }
    const fer_press bad_press = {.segments = 2};
    const fer_die no_size = {{0}, {0}, 0, {0}};
    CHECK_STATUS(PLAN(&one, 1, &bad_press, rack, 12, &usual, nothing, any_die),
                 FER_PRESS_SEGMENTS_OUT_OF_RANGE);
    CHECK_STATUS(PLAN(&one, 1, &stepless, &no_size, 1, &usual, nothing, any_die), FER_DIE_SIZE_MISSING);
    for (size_t i = 0; i < 5; i++) {
        fer_change_times times = usual;
        int *const each[] = {&times.adapter_seconds, &times.die_seconds, &times.dial_seconds,
                             &times.reel_seconds, &times.bin_seconds};
        *each[i] = i % 2 ? -1 : 100001;
        CHECK_STATUS(PLAN(&one, 1, &stepless, rack, 12, &times, nothing, any_die),
                     FER_CHANGE_TIME_OUT_OF_RANGE);
    }
    const struct {
        fer_mounted mounted;
        fer_status status;
    } wrong[] = {{{.die_mounted = 1, .die = 12}, FER_MOUNTED_DIE_UNKNOWN},
                 {{.die = FER_SCHEDULE_DIES_MAXIMUM}, FER_MOUNTED_DIE_UNKNOWN},
                 {{.setting = {-1.0}}, FER_MOUNTED_SETTING_OUT_OF_RANGE},
                 {{.setting = {2e6}}, FER_MOUNTED_SETTING_OUT_OF_RANGE},
                 {{.adapter = -1}, FER_MOUNTED_NUMBER_OUT_OF_RANGE},
                 {{.reel = -1}, FER_MOUNTED_NUMBER_OUT_OF_RANGE},
                 {{.bin = -1}, FER_MOUNTED_NUMBER_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        CHECK_STATUS(PLAN(&one, 1, &stepless, rack, 12, &usual, wrong[i].mounted, any_die), wrong[i].status);
    }
    const fer_schedule_aim negative = {.steps = -1.0}, endless = {.steps = 2e15};
    CHECK_STATUS(PLAN(&one, 1, &stepless, rack, 12, &usual, nothing, negative),
                 FER_SCHEDULE_STEPS_OUT_OF_RANGE);
    CHECK_STATUS(PLAN(&one, 1, &stepless, rack, 12, &usual, nothing, endless),
                 FER_SCHEDULE_STEPS_OUT_OF_RANGE);
}

/* With each number of words from none on a call says that they are too few, until it gives a schedule; with ever more it gets no worse. */
static void too_little_memory_is_said(void **state)
{
    (void)state;
    fer_job jobs[6];
    fer_turn turns[6];
    fer_schedule s;
    size_t found, enough = 0;
    fill_day(jobs);
    CHECK_STATUS(fer_plan_schedule(jobs, 6, &stepless, rack, 12, &usual, nothing, any_die, NULL, 0, turns, 6,
                                   &found, &s),
                 FER_ARGUMENT_WORK_TOO_SMALL);
    for (size_t few = 0; few < 3000; few++) {
        const fer_status status = fer_plan_schedule(jobs, 6, &depot_press, rack, 12, &usual, depot_mounted,
                                                    any_die, work, few, turns, 6, &found, &s);
        if (enough == 0 && status == FER_ARGUMENT_WORK_TOO_SMALL) {
            assert_int_equal(found, 0);
            continue;
        }
        CHECK_OK(status);
        enough = enough == 0 ? few : enough;
        check_turns(jobs, turns, 6, &s);
        assert_int_equal(s.change_seconds, 2430);
    }
    assert_in_range(enough, 100, 6 * 60 + 200);
}

/* Times that are all 0, and the same for all: nothing has to be divided by nothing. */
static void changes_may_take_no_time(void **state)
{
    (void)state;
    const fer_change_times no_time = {0}, only_reels = {.reel_seconds = 90};
    fer_job jobs[6];
    fer_turn turns[6];
    fer_schedule s;
    size_t found;
    fill_day(jobs);
    for (size_t memory = 420; memory < 5000; memory += 2000) {
        CHECK_OK(fer_plan_schedule(jobs, 6, &stepless, rack, 12, &no_time, nothing, any_die, work, memory,
                                   turns, 6, &found, &s));
        assert_true(s.optimal && s.end_seconds == 0);
        CHECK_OK(fer_plan_schedule(jobs, 6, &stepless, rack, 12, &only_reels, nothing, any_die, work, memory,
                                   turns, 6, &found, &s));
        assert_true(s.optimal && s.end_seconds == 5 * 90);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_depots_day_takes_forty_minutes_of_changes),
        cmocka_unit_test(one_die_serves_both_reels),
        cmocka_unit_test(jobs_are_done_in_time_if_they_can_be),
        cmocka_unit_test(a_die_has_to_do_what_is_asked),
        cmocka_unit_test(no_jobs_take_no_time),
        cmocka_unit_test(bounds_hold_and_orders_are_good),
        cmocka_unit_test(large_days_have_bounds_near_by),
        cmocka_unit_test(a_search_that_ends_early_says_so),
        cmocka_unit_test(many_adapters_keep_the_bound),
        cmocka_unit_test(states_beyond_all_numbers_are_not_tried),
        cmocka_unit_test(bad_input_has_its_status),
        cmocka_unit_test(too_little_memory_is_said),
        cmocka_unit_test(changes_may_take_no_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
