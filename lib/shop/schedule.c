/* SPDX-License-Identifier: MIT */
/* The order of the day's jobs at one press: jobs into kinds, and an order into turns.
 * Method: jobs that cannot be distinguished by what has to be changed are one kind; see schedule_search.c and schedule_bound.c.
 * Formulas: include/ferrule/schedule.h; docs/schedule.md. */
#include <ferrule/schedule.h>

#include "crimp/die_private.h"
#include "crimp/lobe_private.h"
#include "crimp/press_private.h"
#include "shop/schedule_private.h"

/* ---- a day, checked ------------------------------------------------------------------------------------------ */

static int is_seconds(int seconds, int maximum)
{
    return seconds >= 0 && seconds <= maximum;
}

static fer_status check_job(const fer_job *job)
{
    FER_TRY(fer_check_length(job->target, FER_TARGET_MISSING, FER_TARGET_OUT_OF_RANGE));
    FER_REQUIRE(fer_is_length_or_none(job->ferrule_length), FER_FERRULE_LENGTH_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_length_or_none(job->widest), FER_WIDEST_DIAMETER_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_length_or_none(job->lobe_maximum), FER_JOB_LOBE_OUT_OF_RANGE);
    FER_REQUIRE(job->reel >= 0, FER_JOB_REEL_OUT_OF_RANGE);
    FER_REQUIRE(job->bin >= 0, FER_JOB_BIN_OUT_OF_RANGE);
    FER_REQUIRE(is_seconds(job->work_seconds, 1000000), FER_JOB_WORK_OUT_OF_RANGE);
    FER_REQUIRE(is_seconds(job->due_seconds, 1000000), FER_JOB_DUE_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_jobs(const fer_day *day)
{
    FER_REQUIRE(day->jobs || day->count == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(day->count <= FER_SCHEDULE_JOBS_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    for (size_t i = 0; i < day->count; i++) {
        FER_TRY(check_job(&day->jobs[i]));
    }
    return FER_OK;
}

static fer_status check_times(const fer_change_times *times)
{
    const int all[] = {times->adapter_seconds, times->die_seconds, times->dial_seconds, times->reel_seconds,
                       times->bin_seconds};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        FER_REQUIRE(is_seconds(all[i], 100000), FER_CHANGE_TIME_OUT_OF_RANGE);
    }
    return FER_OK;
}

static fer_status check_mounted(const fer_day *day)
{
    const fer_mounted *const mounted = &day->mounted;
    FER_REQUIRE(mounted->die < (mounted->die_mounted ? day->die_count : FER_SCHEDULE_DIES_MAXIMUM),
                FER_MOUNTED_DIE_UNKNOWN);
    FER_REQUIRE(mounted->setting.mm >= 0.0 && mounted->setting.mm <= FER_LENGTH_MAXIMUM_MM,
                FER_MOUNTED_SETTING_OUT_OF_RANGE);
    FER_REQUIRE(mounted->adapter >= 0 && mounted->reel >= 0 && mounted->bin >= 0,
                FER_MOUNTED_NUMBER_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_day(const fer_day *day)
{
    FER_TRY(check_jobs(day));
    FER_TRY(fer_check_press(day->press));
    FER_REQUIRE(day->die_count <= FER_SCHEDULE_DIES_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    FER_TRY(fer_check_dies(day->dies, day->die_count));
    FER_TRY(check_times(&day->times));
    FER_TRY(check_mounted(day));
    FER_REQUIRE(day->aim.steps == 0.0 || (day->aim.steps >= 1.0 && day->aim.steps <= 1e15),
                FER_SCHEDULE_STEPS_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status take(fer_day *day, size_t words, fer_work **taken)
{
    FER_REQUIRE(words <= day->words, FER_ARGUMENT_WORK_TOO_SMALL);
    *taken = day->left;
    day->left += words;
    day->words -= words;
    return FER_OK;
}

static fer_status take_memory(fer_day *day)
{
    const size_t modes = day->count * FER_SCHEDULE_CHOICES_MAXIMUM + 1;
    FER_TRY(take(day, modes * mode_words, &day->modes));
    FER_TRY(take(day, modes, &day->settings));
    FER_TRY(take(day, modes, &day->marks));
    FER_TRY(take(day, day->count * kind_words, &day->kinds));
    FER_TRY(take(day, day->count * batch_words, &day->batches));
    FER_TRY(take(day, day->count, &day->sorted));
    FER_TRY(take(day, day->count, &day->path));
    FER_TRY(take(day, day->count, &day->other));
    FER_TRY(take(day, day->count, &day->trial));
    FER_TRY(take(day, day->count * FER_SCHEDULE_CHOICES_MAXIMUM / 2, &day->from));
    return FER_OK;
}

/* ---- jobs into kinds ----------------------------------------------------------------------------------------- */

/* The dies that do a job, the nearest below its target first. */
typedef struct {
    size_t count;
    uint32_t die[FER_SCHEDULE_CHOICES_MAXIMUM];
    double setting[FER_SCHEDULE_CHOICES_MAXIMUM];
} choices;

static int does(const fer_day *day, const fer_die *die, const fer_job *job, fer_dial *dial)
{
    const int segments = day->press->segments == 0 ? 8 : day->press->segments;
    if (die->size.mm > job->target.mm || job->target.mm > fer_die_end(die) ||
        !fer_is_die_long_enough(die, job->ferrule_length) ||
        fer_dial_setting_checked(day->press, die->size, job->target, dial) != FER_OK) {
        return 0;
    }
    if (day->press->opening.mm > 0.0 && job->widest.mm > 0.0 &&
        fer_opening_clearance_checked(day->press, die->size, job->widest).mm < 0.0) {
        return 0;
    }
    return job->lobe_maximum.mm == 0.0 ||
           fer_lobe_height_checked(job->target, die->size, segments).mm <= job->lobe_maximum.mm;
}

static void find_choices(const fer_day *day, const fer_job *job, choices *of)
{
    const size_t most = day->aim.nearest_only ? 1 : FER_SCHEDULE_CHOICES_MAXIMUM;
    fer_dial dial;
    of->count = 0;
    for (size_t i = 0; i < day->die_count; i++) {
        if (!does(day, &day->dies[i], job, &dial)) {
            continue;
        }
        size_t place = of->count;
        while (place > 0 && day->dies[of->die[place - 1]].size.mm < day->dies[i].size.mm) {
            place--;
        }
        of->count += of->count < most;
        for (size_t behind = of->count; behind-- > place + 1;) {
            of->die[behind] = of->die[behind - 1];
            of->setting[behind] = of->setting[behind - 1];
        }
        if (place < of->count) {
            of->die[place] = (uint32_t)i;
            of->setting[place] = dial.setting.mm;
        }
    }
}

static int is_same_kind(const fer_day *day, size_t kind, const fer_job *job, const choices *of)
{
    const size_t first = fer_first_mode(day, kind);
    const fer_job *const other = &day->jobs[day->kinds[kind * kind_words + 1].pair[0]];
    if (fer_modes_of(day, kind) != of->count || other->reel != job->reel || other->bin != job->bin) {
        return 0;
    }
    for (size_t i = 0; i < of->count; i++) {
        if (fer_mode_at(day, first + i)[0].pair[1] != of->die[i] ||
            day->settings[first + i].number != of->setting[i]) {
            return 0;
        }
    }
    return 1;
}

/* The first mode with this die at this setting of the dial; FER_NONE where there is none. */
static uint32_t find_dial(const fer_day *day, uint32_t die, double setting)
{
    for (size_t mode = 0; mode < day->mode_count; mode++) {
        if (fer_mode_at(day, mode)[0].pair[1] == die && fabs(day->settings[mode].number - setting) <= 1e-9) {
            return (uint32_t)mode;
        }
    }
    return FER_NONE;
}

/* The first kind with a reel or with a bin, which stands for all that have it; FER_NONE where there is none. */
static uint32_t find_reel(const fer_day *day, int reel)
{
    for (size_t kind = 0; kind < day->kind_count; kind++) {
        if (day->jobs[day->kinds[kind * kind_words + 1].pair[0]].reel == reel) {
            return (uint32_t)kind;
        }
    }
    return FER_NONE;
}

static uint32_t find_bin(const fer_day *day, int bin)
{
    for (size_t kind = 0; kind < day->kind_count; kind++) {
        if (day->jobs[day->kinds[kind * kind_words + 1].pair[0]].bin == bin) {
            return (uint32_t)kind;
        }
    }
    return FER_NONE;
}

static void write_mode(const fer_day *day, size_t mode, uint32_t die, double setting, size_t kind)
{
    fer_work *const at = fer_mode_at(day, mode);
    const uint32_t dial = find_dial(day, die, setting);
    at[0].pair[0] = (uint32_t)day->dies[die].adapter;
    at[0].pair[1] = die;
    at[1].pair[0] = dial == FER_NONE ? (uint32_t)mode : dial;
    at[2].pair[1] = (uint32_t)kind;
    day->settings[mode].number = setting;
}

/* Until the batches are made, the second word of a kind has its first job. */
static size_t add_kind(fer_day *day, size_t job, const choices *of)
{
    const size_t kind = day->kind_count++, first = day->mode_count;
    fer_work *const at = &day->kinds[kind * kind_words];
    at[0].pair[0] = (uint32_t)first;
    at[0].pair[1] = (uint32_t)of->count;
    at[1].pair[0] = (uint32_t)job;
    const uint32_t reel = find_reel(day, day->jobs[job].reel), bin = find_bin(day, day->jobs[job].bin);
    for (size_t i = 0; i < of->count; i++, day->mode_count++) {
        write_mode(day, first + i, of->die[i], of->setting[i], kind);
        fer_mode_at(day, first + i)[1].pair[1] = reel;
        fer_mode_at(day, first + i)[2].pair[0] = bin;
    }
    return kind;
}

static size_t find_kind(fer_day *day, size_t job, const choices *of)
{
    for (size_t kind = 0; kind < day->kind_count; kind++) {
        if (is_same_kind(day, kind, &day->jobs[job], of)) {
            return kind;
        }
    }
    return add_kind(day, job, of);
}

/* A job's due time; without one: never. */
static uint32_t due_time(const fer_job *job)
{
    return job->due_seconds > 0 ? (uint32_t)job->due_seconds : FER_NONE;
}

/* Puts a job behind those of its kind that are due as early; `pair[1]` of a job is its kind. */
static void sort_in(fer_day *day, size_t job, size_t kind)
{
    const uint32_t due = due_time(&day->jobs[job]);
    size_t place = day->done++;
    for (; place > 0; place--) {
        const fer_work before = day->sorted[place - 1];
        if (before.pair[1] < kind ||
            (before.pair[1] == kind && due_time(&day->jobs[before.pair[0]]) <= due)) {
            break;
        }
        day->sorted[place] = before;
    }
    day->sorted[place].pair[0] = (uint32_t)job;
    day->sorted[place].pair[1] = (uint32_t)kind;
}

/* Jobs that are sorted into batches. */
static void make_batches(fer_day *day)
{
    for (size_t i = 0; i < day->done; i++) {
        const size_t kind = day->sorted[i].pair[1];
        const fer_job *const job = &day->jobs[day->sorted[i].pair[0]];
        const uint32_t due = due_time(job);
        const int is_new_kind = i == 0 || day->sorted[i - 1].pair[1] != kind;
        fer_work *const at = &day->kinds[kind * kind_words + 1];
        if (is_new_kind) {
            at->pair[0] = (uint32_t)day->batch_count;
            at->pair[1] = 0;
        }
        if (is_new_kind || fer_due_of(day, day->batch_count - 1) != due) {
            fer_work *const batch = &day->batches[day->batch_count++ * batch_words];
            batch[0].pair[0] = 0;
            batch[0].pair[1] = due;
            batch[1].pair[0] = (uint32_t)i;
            batch[1].pair[1] = 0;
            at->pair[1]++;
        }
        fer_work *const batch = &day->batches[(day->batch_count - 1) * batch_words];
        batch[0].pair[0] += (uint32_t)job->work_seconds;
        batch[1].pair[1]++;
        day->work += job->work_seconds;
        day->has_due |= due != FER_NONE;
    }
}

/* What is mounted is the mode behind the last. */
static void add_mounted(const fer_day *day)
{
    const fer_mounted *const mounted = &day->mounted;
    const uint32_t die = mounted->die_mounted ? (uint32_t)mounted->die : FER_NONE;
    fer_work *const at = fer_mode_at(day, day->mode_count);
    at[0].pair[0] = (uint32_t)(mounted->die_mounted ? day->dies[mounted->die].adapter : mounted->adapter);
    at[0].pair[1] = die;
    at[1].pair[0] = find_dial(day, die, mounted->setting.mm);
    at[1].pair[1] = find_reel(day, mounted->reel);
    at[2].pair[0] = find_bin(day, mounted->bin);
    at[2].pair[1] = FER_NONE;
}

static fer_status begin_day(fer_day *day, fer_work *work, size_t words)
{
    choices of;
    FER_TRY(check_day(day));
    FER_REQUIRE(work || words == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(words > 0, FER_ARGUMENT_WORK_TOO_SMALL);
    day->left = work;
    day->words = words;
    day->steps = day->aim.steps > 0.0 ? day->aim.steps : INFINITY;
    FER_TRY(take_memory(day));
    for (size_t i = 0; i < day->count; i++) {
        find_choices(day, &day->jobs[i], &of);
        if (of.count > 0) {
            sort_in(day, i, find_kind(day, i, &of));
        }
    }
    add_mounted(day);
    make_batches(day);
    return FER_OK;
}

/* ---- an order into turns ------------------------------------------------------------------------------------- */

static void count_changes(const fer_turn *turn, fer_schedule *schedule)
{
    schedule->change_seconds += turn->change_seconds;
    schedule->adapters += (size_t)turn->adapter_changes;
    schedule->dies += (size_t)turn->die_changes;
    schedule->dials += (size_t)turn->dial_changes;
    schedule->reels += (size_t)turn->reel_changes;
    schedule->bins += (size_t)turn->bin_changes;
    schedule->late_seconds =
        turn->late_seconds > schedule->late_seconds ? turn->late_seconds : schedule->late_seconds;
}

static void write_changes(const fer_day *day, size_t before, size_t mode, fer_turn *turn)
{
    const fer_work *const a = fer_mode_at(day, before), *const b = fer_mode_at(day, mode);
    turn->adapter_changes = a[0].pair[0] != b[0].pair[0];
    turn->die_changes = a[0].pair[1] != b[0].pair[1];
    turn->dial_changes = a[1].pair[0] != b[1].pair[0];
    turn->reel_changes = a[1].pair[1] != b[1].pair[1];
    turn->bin_changes = a[2].pair[0] != b[2].pair[0];
    turn->change_seconds = (int)fer_change_between(day, before, mode);
}

/* The turn of a job with a mode, behind another. */
static void add_turn(const fer_day *day, size_t job, size_t before, size_t mode, fer_turn *turn,
                     fer_schedule *schedule)
{
    const fer_job *const of = &day->jobs[job];
    const int segments = day->press->segments == 0 ? 8 : day->press->segments;
    FER_EMPTY(*turn);
    turn->job = job;
    turn->found = 1;
    turn->die = fer_mode_at(day, mode)[0].pair[1];
    turn->setting.mm = day->settings[mode].number;
    turn->offset.mm = of->target.mm - day->dies[turn->die].size.mm;
    turn->lobe_height = fer_lobe_height_checked(of->target, day->dies[turn->die].size, segments);
    write_changes(day, before, mode, turn);
    turn->start_seconds = schedule->end_seconds;
    schedule->end_seconds += turn->change_seconds + of->work_seconds;
    turn->end_seconds = schedule->end_seconds;
    if (of->due_seconds > 0 && turn->end_seconds > of->due_seconds) {
        turn->late_seconds = turn->end_seconds - of->due_seconds;
    }
    count_changes(turn, schedule);
    schedule->offset_maximum.mm = fmax(schedule->offset_maximum.mm, turn->offset.mm);
    schedule->lobe_maximum.mm = fmax(schedule->lobe_maximum.mm, turn->lobe_height.mm);
}

/* Jobs that no die does come behind the others. */
static void add_left_out(const fer_day *day, fer_turn *turns, fer_schedule *schedule)
{
    size_t place = day->done;
    choices of;
    for (size_t i = 0; i < day->count; i++) {
        find_choices(day, &day->jobs[i], &of);
        if (of.count == 0) {
            fer_turn *const turn = &turns[place++];
            FER_EMPTY(*turn);
            turn->job = i;
            turn->die = day->die_count;
            FER_LEAVE_OUT(turn->setting);
            FER_LEAVE_OUT(turn->offset);
            FER_LEAVE_OUT(turn->lobe_height);
            schedule->left_out++;
        }
    }
}

/* The turns of a path of batches, or of jobs where `by_jobs` is set and `pair[1]` is the job. */
static void write_turns(const fer_day *day, const fer_work *path, int by_jobs, fer_turn *turns,
                        fer_schedule *schedule)
{
    size_t before = day->mode_count, place = 0;
    memset(day->marks, 0, day->kind_count * sizeof *day->marks);
    for (size_t i = 0; place < day->done; i++) {
        const size_t mode = path[i].pair[0], kind = fer_kind_of(day, mode);
        if (by_jobs) {
            add_turn(day, path[i].pair[1], before, mode, &turns[place++], schedule);
            before = mode;
            continue;
        }
        const fer_work jobs =
            day->batches[(fer_first_batch(day, kind) + (size_t)day->marks[kind].bits++) * batch_words + 1];
        for (size_t job = 0; job < jobs.pair[1]; job++, before = mode) {
            add_turn(day, day->sorted[jobs.pair[0] + job].pair[0], before, mode, &turns[place++], schedule);
        }
    }
    add_left_out(day, turns, schedule);
    schedule->kinds = day->kind_count;
    if (day->done == 0) {
        FER_LEAVE_OUT(schedule->offset_maximum);
        FER_LEAVE_OUT(schedule->lobe_maximum);
    }
}

/* The bounds of all orders beside what this one takes. */
static void write_bounds(fer_day *day, int is_solved, fer_day_outcome best, fer_schedule *schedule)
{
    if (is_solved) {
        schedule->end_bound = (int)best.end;
        schedule->late_bound = (int)best.late;
    } else {
        schedule->end_bound = (int)(day->work + fer_bound_changes(day, best.end - day->work));
        schedule->late_bound = day->has_due ? (int)fer_bound_lateness(day) : 0;
    }
    schedule->optimal =
        schedule->late_bound == schedule->late_seconds && schedule->end_bound == schedule->end_seconds;
    schedule->complete = day->steps > 0.0 && !day->is_cut;
}

static fer_status plan(fer_day *day, fer_work *work, size_t words, fer_turn *turns, size_t capacity,
                       size_t *found, fer_schedule *schedule)
{
    fer_day_outcome best;
    FER_TRY(begin_day(day, work, words));
    FER_REQUIRE(capacity >= day->count, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    const int is_solved = fer_solve_day(day, &best);
    if (!is_solved) {
        best = fer_improve_day(day);
    }
    write_turns(day, day->path, 0, turns, schedule);
    write_bounds(day, is_solved, best, schedule);
    *found = day->count;
    return FER_OK;
}

static fer_status time_as_listed(fer_day *day, fer_work *work, size_t words, fer_turn *turns, size_t capacity,
                                 size_t *found, fer_schedule *schedule)
{
    fer_day_outcome best;
    FER_TRY(begin_day(day, work, words));
    FER_REQUIRE(capacity >= day->count, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    for (size_t i = 0; i < day->done; i++) {
        const fer_work job = day->sorted[i];
        size_t place = i;
        for (; place > 0 && day->other[place - 1].pair[1] > job.pair[0]; place--) {
            day->other[place] = day->other[place - 1];
        }
        day->other[place].pair[0] = (uint32_t)fer_first_mode(day, job.pair[1]);
        day->other[place].pair[1] = job.pair[0];
    }
    (void)fer_choose_dies_along(day, day->other, day->done);
    write_turns(day, day->other, 1, turns, schedule);
    const int is_solved = fer_solve_day(day, &best);
    if (!is_solved) {
        best = fer_improve_day(day);
    }
    write_bounds(day, is_solved, best, schedule);
    *found = day->count;
    return FER_OK;
}

static fer_status make_schedule(int as_listed, fer_day *day, const fer_change_times *times, fer_work *work,
                                size_t words, fer_turn *turns, size_t capacity, size_t *found,
                                fer_schedule *schedule)
{
    if (found) {
        *found = 0;
    }
    if (schedule) {
        FER_EMPTY(*schedule);
    }
    FER_REQUIRE(found && schedule, FER_ARGUMENT_MISSING);
    FER_REQUIRE(times && (turns || capacity == 0), FER_ARGUMENT_MISSING);
    day->times = *times;
    return (as_listed ? time_as_listed : plan)(day, work, words, turns, capacity, found, schedule);
}

fer_status fer_plan_schedule(const fer_job *jobs, size_t count, const fer_press *press, const fer_die *dies,
                             size_t die_count, const fer_change_times *times, fer_mounted mounted,
                             fer_schedule_aim aim, fer_work *work, size_t words, fer_turn *turns,
                             size_t capacity, size_t *found, fer_schedule *schedule)
{
    fer_day day = {.jobs = jobs,
                   .count = count,
                   .press = press,
                   .dies = dies,
                   .die_count = die_count,
                   .mounted = mounted,
                   .aim = aim};
    return make_schedule(0, &day, times, work, words, turns, capacity, found, schedule);
}

fer_status fer_time_schedule(const fer_job *jobs, size_t count, const fer_press *press, const fer_die *dies,
                             size_t die_count, const fer_change_times *times, fer_mounted mounted,
                             fer_schedule_aim aim, fer_work *work, size_t words, fer_turn *turns,
                             size_t capacity, size_t *found, fer_schedule *schedule)
{
    fer_day day = {.jobs = jobs,
                   .count = count,
                   .press = press,
                   .dies = dies,
                   .die_count = die_count,
                   .mounted = mounted,
                   .aim = aim};
    return make_schedule(1, &day, times, work, words, turns, capacity, found, schedule);
}
