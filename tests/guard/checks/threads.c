/* SPDX-License-Identifier: MIT */
/* Many threads call every public function at once, on the same const inputs, and find the bits that one thread alone has
 * found. Under the thread sanitizer: nothing that one of them writes is seen by another.
 *
 * Usage: threads [THREADS [ROUNDS]] */
#define _POSIX_C_SOURCE 200809L /* barriers */

#include "everything.h"

#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { threads_maximum = 64 };

typedef struct {
    const answers *expected;
    pthread_barrier_t *start;
    int number, rounds, wrong;
} worker;

static void *work(void *argument)
{
    worker *w = argument;
    answers *found = malloc(sizeof *found);
    memory_for_rows *r = calloc(1, sizeof *r);
    if (!found || !r) {
        w->wrong = -1;
    }
    pthread_barrier_wait(w->start);
    for (int i = 0; i < w->rounds && w->wrong == 0; i++) {
        call_everything(found, r);
        w->wrong += memcmp(found, w->expected, sizeof *found) != 0;
    }
    free(found);
    free(r);
    return NULL;
}

/* Runs the threads; how many of them found other bits. */
static int run(worker *workers, int threads, const answers *expected, int rounds)
{
    pthread_t ids[threads_maximum];
    pthread_barrier_t start;
    int wrong = 0;
    pthread_barrier_init(&start, NULL, (unsigned)threads);
    for (int i = 0; i < threads; i++) {
        workers[i] = (worker){expected, &start, i, rounds, 0};
        if (pthread_create(&ids[i], NULL, work, &workers[i]) != 0) {
            fputs("no thread\n", stderr);
            exit(2);
        }
    }
    for (int i = 0; i < threads; i++) {
        pthread_join(ids[i], NULL);
        wrong += workers[i].wrong != 0;
    }
    pthread_barrier_destroy(&start);
    return wrong;
}

int main(int count, char **arguments)
{
    static worker workers[threads_maximum];
    static answers expected;
    static memory_for_rows r;
    const int wanted = count > 1 ? atoi(arguments[1]) : 8, rounds = count > 2 ? atoi(arguments[2]) : 2;
    const int threads = wanted < 1 ? 1 : wanted > threads_maximum ? threads_maximum : wanted;
    fill_inputs();
    call_everything(&expected, &r);
    if (expected.count >= values_maximum || expected.count < 400) {
        fprintf(stderr, "%zu figures\n", expected.count);
        return 2;
    }
    const int wrong = run(workers, threads, &expected, rounds);
    printf("%d threads, %d rounds, %zu figures and the rows: %d threads with other bits\n", threads, rounds,
           expected.count, wrong);
    return wrong != 0;
}
