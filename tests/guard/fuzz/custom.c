/* SPDX-License-Identifier: MIT */
/* Gives libFuzzer the changes that know what quantities look like, beside its own. */
#include "mutate.h"

size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t capacity);
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t capacity, unsigned seed);

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t capacity, unsigned seed)
{
    uint64_t state = (uint64_t)seed << 1 | 1;
    if (seed % 2 == 0) {
        return LLVMFuzzerMutate(data, size, capacity);
    }
    return seed % 16 == 1 && capacity >= 64 ? fuzz_make(data, capacity, &state)
                                            : fuzz_mutate(data, size, capacity, &state);
}
