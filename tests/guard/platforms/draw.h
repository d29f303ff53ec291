/* SPDX-License-Identifier: MIT */
/* Inputs from a fixed seed, the same bits on every machine: whole numbers times a power of two, which no precision and no
 * rounding can change. */
#ifndef FER_TEST_DRAW_H
#define FER_TEST_DRAW_H

#include <stdint.h>

/* SplitMix64: Steele, Lea, Flood, Fast splittable pseudorandom number generators, OOPSLA (2014) (from memory). */
static uint64_t draw_word(void)
{
    static uint64_t state = 20261126;
    state += UINT64_C(0x9e3779b97f4a7c15);
    uint64_t word = state;
    word = (word ^ word >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
    word = (word ^ word >> 27) * UINT64_C(0x94d049bb133111eb);
    return word ^ word >> 31;
}

/* A whole number from low to high. */
static int draw_int(int low, int high)
{
    return low + (int)(draw_word() % (uint64_t)(high - low + 1));
}

/* A number in steps of 2^-40, between two ends that are cut to steps of 2^-10. */
static double between(double low, double high)
{
    const int64_t from = (int64_t)(low * 1024.0), to = (int64_t)(high * 1024.0);
    const int64_t part = (int64_t)(draw_word() >> 34);
    return (double)(from * (INT64_C(1) << 30) + part * (to - from)) * 0x1p-40;
}

/* The nearest number below in steps of 2^-10: an input that a last digit of another result seldom changes. */
static double cut(double x)
{
    return x == x && x > -1e6 && x < 1e6 ? (double)(int64_t)(x * 1024.0) * 0x1p-10 : 1.0;
}

#endif
