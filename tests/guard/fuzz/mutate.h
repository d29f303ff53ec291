/* SPDX-License-Identifier: MIT */
/* Changes that know what quantities look like: numbers, blanks, units of the list, and their bytes. */
#ifndef FER_FUZZ_MUTATE_H
#define FER_FUZZ_MUTATE_H

#include <stddef.h>
#include <stdint.h>

/* The next random number of a sequence, below `below`; state is not 0. */
uint32_t fuzz_random(uint64_t *state, uint32_t below);

/* One change to the input in data; its new size, at most capacity. */
size_t fuzz_mutate(uint8_t *data, size_t size, size_t capacity, uint64_t *state);

/* A new input: a text that is almost always right. */
size_t fuzz_make(uint8_t *data, size_t capacity, uint64_t *state);

/* What is checked: ends the program where the library breaks a promise. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#endif
