/* SPDX-License-Identifier: MIT */
/* Random numbers of the simulations: the same on every machine up to the last digits of log and cos. */
#ifndef FER_SIMULATION_RANDOM_H
#define FER_SIMULATION_RANDOM_H

#include <math.h>
#include <stdint.h>

/* Uniform between 0 and 1: linear congruence with Knuth's MMIX constants, upper bits. */
static inline double next_uniform(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return ((double)(*seed >> 11) + 0.5) * 0x1p-53;
}

/* Standard normal: Box and Muller. */
static inline double next_normal(uint64_t *seed)
{
    const double r = sqrt(-2.0 * log(next_uniform(seed)));
    return r * cos(6.28318530717958647693 * next_uniform(seed));
}

#endif
