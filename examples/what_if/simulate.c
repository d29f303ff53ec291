/* SPDX-License-Identifier: MIT */
/* Blocks of trials in threads of one's own, with a progress bar: the library starts no thread, and the counts are the same
 * for any number of them. The joint is invented.
 *
 * Usage: simulate [MILLION_TRIALS [THREADS]]
 */
#define _POSIX_C_SOURCE 200809L
#include <ferrule/ferrule.h>

#include <pthread.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { threads_maximum = 64, blocks_at_once = 16 };

/* What the threads share: the next block that nobody has taken. */
typedef struct {
    fer_joint joint;
    fer_uncertainties uncertainties;
    fer_ratio_range range;
    fer_length diameter;
    uint64_t blocks;
    atomic_ullong next, done;
} work;

typedef struct {
    work *shared;
    fer_crimp_count count;
    fer_status status;
} worker;

static void *run(void *argument)
{
    worker *self = argument;
    work *w = self->shared;
    const fer_model free_flow = {.flow = FER_FLOW_ENDS_FREE};
    for (;;) {
        const uint64_t first = atomic_fetch_add(&w->next, blocks_at_once);
        if (first >= w->blocks) {
            return NULL;
        }
        const uint64_t left = w->blocks - first, blocks = left < blocks_at_once ? left : blocks_at_once;
        const fer_trials trials = {.seed = 1, .first_block = first, .blocks = blocks};
        fer_crimp_count count;
        const fer_status status = fer_simulate_shares(&w->joint, &w->uncertainties, w->range, w->diameter,
                                                      free_flow, trials, &count);
        if (status != FER_OK) {
            self->status = status;
            return NULL;
        }
        (void)fer_merge_counts(&self->count, &count, &self->count);
        atomic_fetch_add(&w->done, blocks);
    }
}

static void show(const work *w, uint64_t done)
{
    char bar[41];
    const int full = (int)(40 * done / w->blocks);
    memset(bar, ' ', sizeof bar - 1);
    memset(bar, '#', (size_t)full);
    bar[40] = '\0';
    fprintf(stderr, "\r[%s] %3d %%", bar, (int)(100 * done / w->blocks));
}

/* The calling thread shows how far the others are. */
static fer_status simulate(work *w, int threads, int quiet, fer_crimp_count *count)
{
    static worker workers[threads_maximum];
    pthread_t ids[threads_maximum];
    int started = 0;
    fer_status status = FER_OK;
    for (; started < threads; started++) {
        workers[started].shared = w;
        if (pthread_create(&ids[started], NULL, run, &workers[started]) != 0) {
            break;
        }
    }
    for (int i = 0; i < started; i++) {
        const struct timespec tenth = {0, 100000000};
        while (!quiet && atomic_load(&w->next) < w->blocks && workers[i].status == FER_OK) {
            show(w, atomic_load(&w->done));
            nanosleep(&tenth, NULL);
        }
        pthread_join(ids[i], NULL);
        (void)fer_merge_counts(count, &workers[i].count, count);
        status = workers[i].status != FER_OK ? workers[i].status : status;
    }
    if (!quiet) {
        show(w, w->blocks);
        fprintf(stderr, "\n");
    }
    return status;
}

int main(int arguments, char **words)
{
    static work w = {
        .joint = {.hose = {{12.7}, {19.9}, {0}}, .stem = {{12.95}, {0}}, .ferrule = {{2.4}, {25.6}, {0}}},
        .range = {{0.15}, {0.25}},
        .diameter = {23.69}};
    const long millions = arguments > 1 ? strtol(words[1], NULL, 10) : 10;
    const long threads = arguments > 2 ? strtol(words[2], NULL, 10) : 2;
    fer_crimp_count count = {0};
    fer_simulated_shares shares;
    w.uncertainties.hose_inside.amount = fer_mm(0.08);
    w.uncertainties.hose_outside.amount = fer_mm(0.10);
    w.uncertainties.stem_outside.amount = fer_mm(0.02);
    w.uncertainties.ferrule_wall.amount = fer_mm(0.03);
    w.uncertainties.diameter.amount = fer_mm(0.05);
    if (millions < 1 || millions > 1000000 || threads < 1 || threads > threads_maximum) {
        fprintf(stderr, "usage: simulate [MILLION_TRIALS [THREADS]]: 1 to 1000000, 1 to %d\n",
                threads_maximum);
        return 2;
    }
    w.blocks = (uint64_t)millions * 1000000u / FER_TRIALS_A_BLOCK;
    const fer_status status = simulate(&w, (int)threads, getenv("QUIET") != NULL, &count);
    if (status != FER_OK || fer_find_simulated_shares(&count, &shares) != FER_OK) {
        fprintf(stderr, "simulate: %s\n", fer_status_sentence(status));
        return 1;
    }
    printf("ferrule lengthens freely, 23.69 mm: inside %.4f %% +- %.4f, below %.4f %%, above %.4f %%, %llu "
           "trials\n",
           fer_to_percent(shares.shares.inside), fer_to_percent(shares.standard_error),
           fer_to_percent(shares.shares.below), fer_to_percent(shares.shares.above),
           (unsigned long long)shares.trials);
    return 0;
}
