/* SPDX-License-Identifier: MIT */
/* Orders of a day: the best one where the working memory holds all states, a good one otherwise.
 * Method: dynamic programming over what is done and the last mode; from two beginnings, runs turned and moved, dies along the order.
 * Formulas: docs/schedule.md. */
#include <ferrule/schedule.h>

#include "shop/schedule_private.h"

/* ---- dies along an order ------------------------------------------------------------------------------------- */

/* Shortest time of each mode of one kind, behind those of another with their times. */
static void add_layer(const fer_day *day, const uint32_t *time, size_t before, size_t modes_before,
                      size_t first, size_t modes, uint32_t *least, fer_work *from)
{
    for (size_t i = 0; i < modes; i++) {
        least[i] = FER_NONE;
        for (size_t j = 0; j < modes_before; j++) {
            const uint32_t here = time[j] + fer_change_between(day, before + j, first + i);
            if (here < least[i]) {
                least[i] = here;
                from[i / 2].pair[i % 2] = (uint32_t)j;
            }
        }
    }
}

double fer_choose_dies_along(fer_day *day, fer_work *path, size_t count)
{
    uint32_t time[FER_SCHEDULE_CHOICES_MAXIMUM] = {0}, least[FER_SCHEDULE_CHOICES_MAXIMUM] = {0};
    enum { row = FER_SCHEDULE_CHOICES_MAXIMUM / 2 };
    size_t before = day->mode_count, modes = 1;
    for (size_t i = 0; i < count; i++) {
        const size_t kind = fer_kind_of(day, path[i].pair[0]);
        add_layer(day, time, before, modes, fer_first_mode(day, kind), fer_modes_of(day, kind), least,
                  &day->from[i * row]);
        day->steps -= (double)(modes * fer_modes_of(day, kind));
        before = fer_first_mode(day, kind);
        modes = fer_modes_of(day, kind);
        memcpy(time, least, sizeof time);
    }
    size_t best = 0;
    for (size_t i = 1; i < modes; i++) {
        best = time[i] < time[best] ? i : best;
    }
    const double whole = time[best];
    for (size_t i = count; i > 0; i--) {
        fer_work *const at = &path[i - 1];
        at->pair[0] = (uint32_t)(fer_first_mode(day, fer_kind_of(day, at->pair[0])) + best);
        best = day->from[(i - 1) * row + best / 2].pair[best % 2];
    }
    return whole;
}

/* ---- the programme ------------------------------------------------------------------------------------------- */

/* The states are how many batches of each kind are done; for each the shortest time by the mode of the last. Two modes share a word. */
enum { most_kinds = 32, most_modes = most_kinds * FER_SCHEDULE_CHOICES_MAXIMUM };

typedef struct {
    size_t kinds;
    size_t kind[most_kinds], batches[most_kinds], stride[most_kinds];
    size_t first[most_kinds]; /* of a kind's modes, among those of the programme */
    size_t modes;
    uint32_t mode[most_modes], kind_of[most_modes];
    size_t row; /* words of a state */
    size_t states;
    size_t whole;      /* number of all batches */
    fer_work *changes; /* by mode and mode */
    fer_work *times;   /* by state and mode */
} programme;

static int add_to_programme(const fer_day *day, programme *p, size_t kind, size_t batches)
{
    const size_t modes = fer_modes_of(day, kind);
    if (p->kinds == most_kinds || p->states > SIZE_MAX / 16 / (batches + 1)) {
        return 0;
    }
    p->kind[p->kinds] = kind;
    p->batches[p->kinds] = batches;
    p->stride[p->kinds] = p->states;
    p->first[p->kinds] = p->modes;
    for (size_t i = 0; i < modes; i++, p->modes++) {
        p->mode[p->modes] = (uint32_t)(fer_first_mode(day, kind) + i);
        p->kind_of[p->modes] = (uint32_t)p->kinds;
    }
    p->kinds++;
    p->states *= batches + 1;
    p->whole += batches;
    return 1;
}

/* Takes the memory for the programme; 0: there is too little, or too few steps are left. */
static int begin_programme(fer_day *day, programme *p)
{
    p->row = (p->modes + 1) / 2;
    if (p->row * p->modes > day->words ||
        p->states > (day->words - p->row * p->modes) / (p->row > 0 ? p->row : 1)) {
        return 0;
    }
    if ((double)p->states * (double)p->modes * (double)(2 * p->row) > day->steps) {
        day->is_cut = 1;
        return 0;
    }
    p->changes = day->left;
    p->times = day->left + p->row * p->modes;
    for (size_t to = 0; to < p->modes; to++) {
        for (size_t from = 0; from < 2 * p->row; from++) {
            p->changes[to * p->row + from / 2].pair[from % 2] =
                from < p->modes ? fer_change_between(day, p->mode[from], p->mode[to]) : 0;
        }
    }
    return 1;
}

static uint32_t time_at(const programme *p, size_t state, size_t mode)
{
    return p->times[state * p->row + mode / 2].pair[mode % 2];
}

static size_t done_of(const programme *p, size_t state, size_t kind)
{
    return state / p->stride[kind] % (p->batches[kind] + 1);
}

/* Shortest time to get from a state to a mode. */
static uint32_t reach_mode(const programme *p, size_t state, size_t mode)
{
    const fer_work *const times = &p->times[state * p->row], *const changes = &p->changes[mode * p->row];
    uint32_t least = FER_NONE;
    for (size_t i = 0; i < p->row; i++) {
        const uint32_t a = times[i].pair[0] + changes[i].pair[0], b = times[i].pair[1] + changes[i].pair[1];
        least = a < least ? a : least;
        least = b < least ? b : least;
    }
    return least;
}

/* When a batch may be done at the latest, if it may be late by some slack. */
static uint32_t last_end(const fer_day *day, size_t batch, double slack)
{
    const double due = fer_due_of(day, batch);
    return due == FER_NONE || due + slack >= FER_NONE ? FER_NONE - 1 : (uint32_t)(due + slack);
}

/* Fills the table of times, from a mode that is mounted. */
static void run_programme(fer_day *day, const programme *p, size_t mounted, double slack)
{
    for (size_t i = 0; i < p->states * p->row; i++) {
        p->times[i].pair[0] = p->times[i].pair[1] = FER_NONE;
    }
    for (size_t state = 0; state + 1 < p->states; state++) {
        for (size_t k = 0; k < p->kinds; k++) {
            const size_t done = done_of(p, state, k);
            if (done == p->batches[k]) {
                continue;
            }
            const size_t batch = fer_first_batch(day, p->kind[k]) + done, to = state + p->stride[k];
            const uint32_t last = last_end(day, batch, slack), work = fer_work_of(day, batch);
            for (size_t mode = p->first[k]; mode < p->first[k] + fer_modes_of(day, p->kind[k]); mode++) {
                const uint32_t reached =
                    state == 0 ? fer_change_between(day, mounted, p->mode[mode]) : reach_mode(p, state, mode);
                if (reached < FER_NONE && reached + work <= last) {
                    p->times[to * p->row + mode / 2].pair[mode % 2] = reached + work;
                }
            }
        }
    }
    day->steps -= (double)p->states * (double)p->modes * (double)(2 * p->row);
}

/* The mode with which the programme ends first, and the time, with the change to a mode that follows, if one does. */
static size_t best_last(const fer_day *day, const programme *p, size_t follower, uint32_t *time)
{
    size_t best = 0;
    *time = p->states == 1 ? 0 : FER_NONE;
    for (size_t mode = 0; p->states > 1 && mode < p->modes; mode++) {
        const uint32_t here = time_at(p, p->states - 1, mode) +
                              (follower != FER_NONE ? fer_change_between(day, p->mode[mode], follower) : 0);
        if (here < *time) {
            *time = here;
            best = mode;
        }
    }
    return best;
}

/* The way to the last state and a mode, found back by looking again. */
static void write_path(const fer_day *day, const programme *p, size_t mode, fer_work *path)
{
    size_t state = p->states - 1;
    for (size_t i = p->whole; i > 0; i--) {
        const size_t k = p->kind_of[mode], before = state - p->stride[k];
        const size_t batch = fer_first_batch(day, p->kind[k]) + done_of(p, before, k);
        const uint32_t reached = time_at(p, state, mode) - fer_work_of(day, batch);
        path[i - 1].pair[0] = p->mode[mode];
        size_t from = 0;
        while (i > 1 &&
               time_at(p, before, from) + p->changes[mode * p->row + from / 2].pair[from % 2] != reached) {
            from++;
        }
        mode = from;
        state = before;
    }
}

/* Lateness and end of a path of batches. */
static fer_day_outcome judge(const fer_day *day, const fer_work *path)
{
    size_t before = day->mode_count;
    fer_day_outcome outcome = {0.0, 0.0};
    memset(day->marks, 0, day->kind_count * sizeof *day->marks);
    for (size_t i = 0; i < day->batch_count; before = path[i++].pair[0]) {
        const size_t kind = fer_kind_of(day, path[i].pair[0]),
                     batch = fer_first_batch(day, kind) + (size_t)day->marks[kind].bits++;
        outcome.end += fer_change_between(day, before, path[i].pair[0]) + (double)fer_work_of(day, batch);
        if (fer_due_of(day, batch) != FER_NONE) {
            outcome.late = fmax(outcome.late, outcome.end - fer_due_of(day, batch));
        }
    }
    return outcome;
}

/* One run; 0: no order keeps to this lateness. */
static int solve_with(fer_day *day, const programme *p, double slack)
{
    uint32_t time;
    run_programme(day, p, day->mode_count, slack);
    const size_t last = best_last(day, p, FER_NONE, &time);
    if (time == FER_NONE) {
        return 0;
    }
    write_path(day, p, last, day->path);
    return 1;
}

int fer_solve_day(fer_day *day, fer_day_outcome *outcome)
{
    programme p = {.states = 1};
    for (size_t kind = 0; kind < day->kind_count; kind++) {
        if (!add_to_programme(day, &p, kind, fer_batches_of(day, kind))) {
            return 0;
        }
    }
    if (!begin_programme(day, &p)) {
        return 0;
    }
    if (!solve_with(day, &p, 0.0)) {
        /* smaller and smaller lateness, until there is no order; then the order of the last that there was, which ends first */
        double slack = FER_NONE;
        while (solve_with(day, &p, slack)) {
            slack = judge(day, day->path).late - 1.0;
        }
        (void)solve_with(day, &p, slack + 1.0);
    }
    *outcome = judge(day, day->path);
    return 1;
}

/* ---- improving ------------------------------------------------------------------------------------------------ */

/* The modes at two neighbouring places, 0 being what is mounted; behind the last nothing changes. */
static double link_time(const fer_day *day, const fer_work *path, size_t count, size_t place)
{
    return place == count ? 0.0
                          : fer_change_between(day, place == 0 ? day->mode_count : path[place - 1].pair[0],
                                               path[place].pair[0]);
}

static double between(const fer_day *day, const fer_work *path, size_t count, size_t before, size_t behind)
{
    if (behind == count) {
        return 0.0;
    }
    return fer_change_between(day, before == 0 ? day->mode_count : path[before - 1].pair[0],
                              path[behind].pair[0]);
}

static void turn_round(fer_work *path, size_t first, size_t last)
{
    for (; first < last; first++, last--) {
        const fer_work kept = path[first];
        path[first] = path[last];
        path[last] = kept;
    }
}

/* Turns runs round wherever that is shorter; whether one was. */
static int turn_runs(fer_day *day, fer_work *path, size_t count)
{
    int is_shorter = 0;
    for (size_t i = 0; i + 1 < count && day->steps > 0.0; i++) {
        for (size_t j = i + 1; j < count; j++) {
            const double now = link_time(day, path, count, i) + link_time(day, path, count, j + 1);
            const double then =
                fer_change_between(day, i == 0 ? day->mode_count : path[i - 1].pair[0], path[j].pair[0]) +
                (j + 1 == count ? 0.0 : fer_change_between(day, path[i].pair[0], path[j + 1].pair[0]));
            if (then < now) {
                turn_round(path, i, j);
                is_shorter = 1;
            }
        }
        day->steps -= 4.0 * (double)(count - i);
    }
    return is_shorter;
}

/* Moves a run of `length` from `first` to before `to`, which is not in it. */
static void move_run(fer_work *path, size_t first, size_t length, size_t to)
{
    /* three turns make a move */
    if (to > first) {
        turn_round(path, first, first + length - 1);
        turn_round(path, first + length, to - 1);
        turn_round(path, first, to - 1);
    } else {
        turn_round(path, to, first - 1);
        turn_round(path, first, first + length - 1);
        turn_round(path, to, first + length - 1);
    }
}

/* Moves runs of up to three wherever that is shorter; whether one was. */
static int move_runs(fer_day *day, fer_work *path, size_t count)
{
    int is_shorter = 0;
    for (size_t length = 1; length <= 3; length++) {
        for (size_t i = 0; i + length <= count && day->steps > 0.0; i++) {
            for (size_t to = 0; to <= count; to++) {
                const size_t end = i + length;
                if (to >= i && to <= end) {
                    continue;
                }
                const double now = link_time(day, path, count, i) + link_time(day, path, count, end) +
                                   link_time(day, path, count, to);
                const double then =
                    between(day, path, count, i, end) + between(day, path, count, to, i) +
                    (to == count ? 0.0 : fer_change_between(day, path[end - 1].pair[0], path[to].pair[0]));
                if (then < now) {
                    move_run(path, i, length, to);
                    is_shorter = 1;
                }
            }
            day->steps -= 6.0 * (double)count;
        }
    }
    return is_shorter;
}

/* The programme on a few neighbours, between what comes before and behind them; whether it is shorter. */
static int solve_window(fer_day *day, fer_work *path, size_t count, size_t first, size_t length)
{
    programme p = {.states = 1};
    uint32_t time;
    for (size_t i = first; i < first + length; i++) {
        (void)add_to_programme(day, &p, fer_kind_of(day, path[i].pair[0]), 1);
    }
    if (!begin_programme(day, &p)) {
        return 0;
    }
    double now = link_time(day, path, count, first + length), work = 0.0;
    for (size_t i = first; i < first + length; i++) {
        now += link_time(day, path, count, i);
        work += fer_work_of(day, fer_first_batch(day, fer_kind_of(day, path[i].pair[0])));
    }
    run_programme(day, &p, first == 0 ? day->mode_count : path[first - 1].pair[0], FER_NONE);
    const size_t last =
        best_last(day, &p, first + length < count ? path[first + length].pair[0] : FER_NONE, &time);
    if (time - work >= now) {
        return 0;
    }
    write_path(day, &p, last, &path[first]);
    return 1;
}

enum { window = 8, window_step = 2 };

static int solve_windows(fer_day *day, fer_work *path, size_t count)
{
    int is_shorter = 0;
    for (size_t first = 0; first + window < count + window_step; first += window_step) {
        const size_t end = first + window, length = (end < count ? end : count) - first;
        is_shorter |= solve_window(day, path, count, first, length);
    }
    return is_shorter;
}

/* A path with each kind once, until nothing makes it shorter. */
static double improve(fer_day *day, fer_work *path)
{
    const size_t count = day->kind_count;
    double now = fer_choose_dies_along(day, path, count), before;
    do {
        before = now;
        while (turn_runs(day, path, count) || move_runs(day, path, count)) {
        }
        now = fer_choose_dies_along(day, path, count);
        if (now == before && solve_windows(day, path, count)) {
            now = fer_choose_dies_along(day, path, count);
        }
    } while (now < before && day->steps > 0.0);
    return now;
}

/* ---- beginnings ------------------------------------------------------------------------------------------------ */

/* Whether a mode comes before another: what is mounted first, then in turn by adapter, die, dial, reel and bin. */
static int comes_before(const fer_day *day, size_t a, size_t b)
{
    const fer_work *const x = fer_mode_at(day, a), *const y = fer_mode_at(day, b),
                          *const mounted = fer_mode_at(day, day->mode_count);
    for (size_t i = 0; i < 5; i++) {
        const uint32_t p = x[i / 2].pair[i % 2], q = y[i / 2].pair[i % 2], m = mounted[i / 2].pair[i % 2];
        if (p != q) {
            return p == m || (q != m && p < q);
        }
    }
    return 0;
}

/* Each kind with the nearest die of the cover, sorted. */
static void begin_with_cover(const fer_day *day, fer_work *path)
{
    uint64_t chosen[FER_SCHEDULE_DIES_MAXIMUM / 64];
    (void)fer_find_cover(day, FER_NONE, chosen);
    for (size_t kind = 0; kind < day->kind_count; kind++) {
        size_t mode = fer_first_mode(day, kind), place = kind;
        while (
            !(chosen[fer_mode_at(day, mode)[0].pair[1] / 64] >> fer_mode_at(day, mode)[0].pair[1] % 64 & 1)) {
            mode++;
        }
        for (; place > 0 && comes_before(day, mode, path[place - 1].pair[0]); place--) {
            path[place] = path[place - 1];
        }
        path[place].pair[0] = (uint32_t)mode;
    }
}

/* Always the shortest change. */
static void begin_with_nearest(fer_day *day, fer_work *path)
{
    size_t here = day->mode_count;
    memset(day->marks, 0, day->kind_count * sizeof *day->marks);
    for (size_t i = 0; i < day->kind_count; i++) {
        uint32_t least = FER_NONE;
        for (size_t mode = 0; mode < day->mode_count; mode++) {
            const uint32_t time = fer_change_between(day, here, mode);
            if (time < least && day->marks[fer_kind_of(day, mode)].bits == 0) {
                least = time;
                path[i].pair[0] = (uint32_t)mode;
            }
        }
        here = path[i].pair[0];
        day->marks[fer_kind_of(day, here)].bits = 1;
        day->steps -= (double)day->mode_count;
    }
}

/* ---- due times -------------------------------------------------------------------------------------------------- */

static int is_better(fer_day_outcome a, fer_day_outcome b)
{
    return a.late < b.late || (a.late == b.late && a.end < b.end);
}

/* A path of kinds into one of batches, those of a kind together. */
static void spread(const fer_day *day, const fer_work *kinds, fer_work *path)
{
    size_t place = 0;
    for (size_t i = 0; i < day->kind_count; i++) {
        for (size_t j = 0; j < fer_batches_of(day, fer_kind_of(day, kinds[i].pair[0])); j++) {
            path[place++] = kinds[i];
        }
    }
}

/* Batches by due time, those without one last, with the best dies. */
static void begin_with_due(fer_day *day, fer_work *path)
{
    size_t count = 0;
    for (size_t kind = 0; kind < day->kind_count; kind++) {
        for (size_t j = 0; j < fer_batches_of(day, kind); j++, count++) {
            const uint32_t due = fer_due_of(day, fer_first_batch(day, kind) + j);
            size_t place = count;
            for (; place > 0 && path[place - 1].pair[1] > due; place--) {
                path[place] = path[place - 1];
            }
            path[place].pair[0] = (uint32_t)fer_first_mode(day, kind);
            path[place].pair[1] = due;
        }
    }
    (void)fer_choose_dies_along(day, path, count);
}

/* Moves one batch at a time while that is better. */
static fer_day_outcome move_batches(fer_day *day, fer_work *path, fer_day_outcome best)
{
    const size_t count = day->batch_count;
    for (int is_better_now = 1; is_better_now && day->steps > 0.0;) {
        is_better_now = 0;
        for (size_t i = 0; i < count && day->steps > 0.0; i++) {
            for (size_t to = 0; to <= count; to++) {
                if (to == i || to == i + 1) {
                    continue;
                }
                memcpy(day->trial, path, count * sizeof *path);
                move_run(day->trial, i, 1, to);
                const fer_day_outcome outcome = judge(day, day->trial);
                if (is_better(outcome, best)) {
                    memcpy(path, day->trial, count * sizeof *path);
                    best = outcome;
                    is_better_now = 1;
                }
            }
            day->steps -= (double)count * (double)count;
        }
    }
    return best;
}

/* From the order with the shortest changes and from that by due times the better one, improved. */
static fer_day_outcome improve_due(fer_day *day)
{
    memcpy(day->trial, day->path, day->kind_count * sizeof *day->path);
    spread(day, day->trial, day->path);
    begin_with_due(day, day->other);
    const fer_day_outcome short_one = judge(day, day->path), early_one = judge(day, day->other);
    if (is_better(early_one, short_one)) {
        memcpy(day->path, day->other, day->batch_count * sizeof *day->path);
        return move_batches(day, day->path, early_one);
    }
    return move_batches(day, day->path, short_one);
}

fer_day_outcome fer_improve_day(fer_day *day)
{
    begin_with_cover(day, day->path);
    begin_with_nearest(day, day->other);
    const double first = improve(day, day->path), second = improve(day, day->other);
    if (second < first) {
        memcpy(day->path, day->other, day->kind_count * sizeof *day->path);
    }
    return day->has_due ? improve_due(day) : judge(day, day->path);
}
