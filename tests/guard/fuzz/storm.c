/* SPDX-License-Identifier: MIT */
/* The fuzz target without libFuzzer: so many made and changed inputs from a fixed seed.
 * Use: storm_text COUNT [SEED] */
#include "mutate.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CAPACITY = 1100, POOL = 64 };

typedef struct {
    uint8_t data[CAPACITY];
    size_t size;
} input;

/* One input in four is made, the others are changed up to four times from one of the last 64. */
static void next_input(input *pool, input *next, uint64_t *state)
{
    if (fuzz_random(state, 4) == 0) {
        next->size = fuzz_make(next->data, CAPACITY, state);
    } else {
        const input *const from = &pool[fuzz_random(state, POOL)];
        memcpy(next->data, from->data, from->size);
        next->size = from->size;
        for (uint32_t times = 1 + fuzz_random(state, 4); times > 0; times--) {
            next->size = fuzz_mutate(next->data, next->size, CAPACITY, state);
        }
    }
}

int main(int count, char **arguments)
{
    static input pool[POOL];
    static input next;
    const long inputs = count > 1 ? strtol(arguments[1], NULL, 10) : 200000;
    uint64_t state = count > 2 ? strtoull(arguments[2], NULL, 10) | 1 : 20240229;
    for (int i = 0; i < POOL; i++) {
        pool[i].size = fuzz_make(pool[i].data, CAPACITY, &state);
    }
    for (long i = 0; i < inputs; i++) {
        next_input(pool, &next, &state);
        (void)LLVMFuzzerTestOneInput(next.data, next.size);
        if (next.size < 200 || i % 16 == 0) {
            pool[fuzz_random(&state, POOL)] = next;
        }
    }
    printf("%ld inputs, every promise kept\n", inputs);
    return 0;
}
