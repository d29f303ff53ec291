/* SPDX-License-Identifier: MIT */
/* What the sources of module schedule share: a day that was checked, with its kinds of jobs in the caller's working memory.
 *
 * A *mode* is a kind with one of its dies. A *batch* is the jobs of a kind with one due time. A *path* is an order: a mode in
 * `pair[0]` of a word for each batch; the n-th time that a kind comes is its n-th batch. */
#ifndef FER_SCHEDULE_PRIVATE_H
#define FER_SCHEDULE_PRIVATE_H

#include <ferrule/schedule.h>

#include "base/value_private.h"

/* Words of a mode: adapter and die, dial and reel, bin and kind. Of a kind: first mode and their number, first batch and their number.
 * Of a batch: work and due time, first job and their number. */
enum { mode_words = 3, kind_words = 2, batch_words = 2 };

/* No such thing; as a time: never. */
#define FER_NONE UINT32_C(0x80000000)

typedef struct {
    const fer_job *jobs;
    size_t count;
    const fer_press *press;
    const fer_die *dies;
    size_t die_count;
    fer_change_times times;
    fer_mounted mounted;
    fer_schedule_aim aim;
    fer_work *left;     /* working memory that is left */
    size_t words;       /* of it */
    fer_work *modes;    /* what is mounted comes behind the last */
    fer_work *settings; /* of each mode, in mm */
    size_t mode_count;
    fer_work *kinds;
    size_t kind_count;
    fer_work *batches;
    size_t batch_count;
    fer_work *sorted; /* jobs that have a die, by kind and due time */
    size_t done;      /* how many they are */
    fer_work *path, *other, *trial;
    fer_work *from;  /* four words for each turn, to find back the best dies */
    fer_work *marks; /* one for each mode, or for each kind */
    double work;     /* of all jobs that have a die */
    int has_due;     /* a batch has a due time */
    double steps;    /* that may still be made */
    int is_cut;      /* something was left out since it takes more steps than there are */
} fer_day;

/* An order's figures: the smaller lateness is better, then the earlier end. */
typedef struct {
    double late, end;
} fer_day_outcome;

static inline fer_work *fer_mode_at(const fer_day *day, size_t mode)
{
    return &day->modes[mode * mode_words];
}

static inline uint32_t fer_kind_of(const fer_day *day, size_t mode)
{
    return fer_mode_at(day, mode)[2].pair[1];
}

/* Time of the changes from one mode to another; the same in both directions. */
static inline uint32_t fer_change_between(const fer_day *day, size_t a, size_t b)
{
    const fer_work *const x = fer_mode_at(day, a), *const y = fer_mode_at(day, b);
    const fer_change_times *const times = &day->times;
    return (uint32_t)((x[0].pair[0] != y[0].pair[0] ? times->adapter_seconds : 0) +
                      (x[0].pair[1] != y[0].pair[1] ? times->die_seconds : 0) +
                      (x[1].pair[0] != y[1].pair[0] ? times->dial_seconds : 0) +
                      (x[1].pair[1] != y[1].pair[1] ? times->reel_seconds : 0) +
                      (x[2].pair[0] != y[2].pair[0] ? times->bin_seconds : 0));
}

/* First mode of a kind, and how many it has. */
static inline size_t fer_first_mode(const fer_day *day, size_t kind)
{
    return day->kinds[kind * kind_words].pair[0];
}

static inline size_t fer_modes_of(const fer_day *day, size_t kind)
{
    return day->kinds[kind * kind_words].pair[1];
}

static inline size_t fer_first_batch(const fer_day *day, size_t kind)
{
    return day->kinds[kind * kind_words + 1].pair[0];
}

static inline size_t fer_batches_of(const fer_day *day, size_t kind)
{
    return day->kinds[kind * kind_words + 1].pair[1];
}

static inline uint32_t fer_work_of(const fer_day *day, size_t batch)
{
    return day->batches[batch * batch_words].pair[0];
}

static inline uint32_t fer_due_of(const fer_day *day, size_t batch)
{
    return day->batches[batch * batch_words].pair[1];
}

/* The best dies of each kind along a path, in its place; time of the changes. */
double fer_choose_dies_along(fer_day *day, fer_work *path, size_t count);

/* The best order by the programme over all states, in day->path; 0: the working memory or the steps do not do. */
int fer_solve_day(fer_day *day, fer_day_outcome *outcome);

/* A good order, in day->path. */
fer_day_outcome fer_improve_day(fer_day *day);

/* Dies that together do all kinds with a batch due until then, for the shortest time of dies and adapters that they need: a bound of that
 * time. `chosen` has a bit for each die of such a set; NULL: not asked. */
double fer_find_cover(const fer_day *day, uint32_t until, uint64_t *chosen);

/* What no order of all kinds takes less than, in changes; `upper`: an order's. */
double fer_bound_changes(fer_day *day, double upper);

/* What no order's lateness is below. */
double fer_bound_lateness(const fer_day *day);

#endif
