/* SPDX-License-Identifier: MIT */
/* Inputs from a fixed seed, the same bits on every machine: whole numbers times a power of two, which no precision and no
 * rounding can change. */
#ifndef FER_TEST_DRAW_H
#define FER_TEST_DRAW_H

#include <stdint.h>

/* SplitMix64: Steele, Lea, Flood, Fast splittable pseudorandom number generators, OOPSLA (2014) (from memory). */
static inline uint64_t next_word(uint64_t *state)
{
    uint64_t word = *state += UINT64_C(0x9e3779b97f4a7c15);
    word = (word ^ word >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
    word = (word ^ word >> 27) * UINT64_C(0x94d049bb133111eb);
    return word ^ word >> 31;
}

/* A whole number from low to high. */
static inline int draw_whole(uint64_t *state, int low, int high)
{
    return low + (int)(next_word(state) % (uint64_t)(high - low + 1));
}

/* A number in steps of 2^-40, between two ends that are cut to steps of 2^-10. */
static inline double draw_between(uint64_t *state, double low, double high)
{
    const int64_t from = (int64_t)(low * 1024.0), to = (int64_t)(high * 1024.0);
    const int64_t part = (int64_t)(next_word(state) >> 34);
    return (double)(from * (INT64_C(1) << 30) + part * (to - from)) * 0x1p-40;
}

/* A number over orders of magnitude: from 1 to 2, times a power of two, such that it lies between the ends. */
static inline double draw_wide(uint64_t *state, double low, double high)
{
    int doublings = 0;
    double start = 0x1p-40;
    while (start < low) {
        start *= 2.0;
    }
    for (double end = 4.0 * start; end <= high; end *= 2.0) {
        doublings++;
    }
    for (int times = draw_whole(state, 0, doublings); times > 0; times--) {
        start *= 2.0;
    }
    return 2.0 * start > high ? start : start * draw_between(state, 1.0, 2.0);
}

/* The same out of one sequence, for calls in a fixed order. */
static uint64_t all_draws = 20261126;

static inline uint64_t draw_word(void)
{
    return next_word(&all_draws);
}

static inline int draw_int(int low, int high)
{
    return draw_whole(&all_draws, low, high);
}

static inline double between(double low, double high)
{
    return draw_between(&all_draws, low, high);
}

/* The nearest number below in steps of 2^-10: an input that a last digit of another result seldom changes. */
static inline double cut(double x)
{
    return x == x && x > -1e6 && x < 1e6 ? (double)(int64_t)(x * 1024.0) * 0x1p-10 : 1.0;
}

#endif
