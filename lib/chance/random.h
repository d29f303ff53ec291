/* SPDX-License-Identifier: MIT */
/* Random numbers by counting: number i of a seed is a function of i and the seed, so that any part of a sequence can be
 * made anywhere. Philox 4x32-10: Salmon, Moraes, Dror, Shaw, Parallel random numbers: as easy as 1, 2, 3, SC11 (2011).
 *
 * A trial takes two calls of Philox, eight words of 32 bits: six words are the upper bits of six uniform numbers of 42
 * bits, the last two words give ten lower bits to each of them. What a row holds above these 42 bits counts for nothing. */
#ifndef FER_NUMERIC_RANDOM_H
#define FER_NUMERIC_RANDOM_H

#include "base/numeric/unroll.h"

#include <stddef.h>
#include <stdint.h>

/* Trials are made in rows of this many; a block is a whole number of rows. */
enum { FER_ROW = 128, FER_BLOCK_BITS = 14, FER_BLOCK = 1 << FER_BLOCK_BITS, FER_UNIFORM_BITS = 42 };

/* How many uniform numbers a trial has. */
enum { FER_UNIFORMS = 6 };

/* Ten rounds; words in place. */
void fer_philox(uint32_t word[4], uint64_t key);

/* Uniform numbers of up to FER_ROW trials from number `first` on. */
void fer_random_row(uint64_t seed, uint64_t first, unsigned count, uint64_t uniform[FER_UNIFORMS][FER_ROW]);

/* The same from Sobol's sequence: the points of a block are all 2^14 first points, moved by a random amount of the
 * block's own (digital shift), so that each block is an estimate without bias and blocks are independent. Direction
 * numbers: Joe and Kuo, SIAM J. Sci. Comput. 30 (2008) 2635-2654, new-joe-kuo-6 (from memory; against SciPy in
 * tests/agree/python). */
void fer_even_row(uint64_t seed, uint64_t first, unsigned count, uint64_t uniform[FER_UNIFORMS][FER_ROW]);

/* Standard normal deviates by inverse distribution; error below 1.3e-10. */
void fer_normal_row(const uint64_t uniform[FER_ROW], unsigned count, double deviate[FER_ROW]);

/* Rectangular and triangular deviates from -1 to 1 by inverse distribution. */
void fer_rectangular_row(const uint64_t uniform[FER_ROW], unsigned count, double deviate[FER_ROW]);
void fer_triangular_row(const uint64_t uniform[FER_ROW], unsigned count, double deviate[FER_ROW]);

/* Counts in how many trials of a row the linear forms are above 0: form[FER_UNIFORMS] + sum(form[i] deviate[i]). */
void fer_count_row(const double one[FER_UNIFORMS + 1], const double other[FER_UNIFORMS + 1],
                   double deviate[FER_UNIFORMS][FER_ROW], uint64_t *ones, uint64_t *others);

/* Whether this processor has vectors of eight doubles; asking is slow. If so, these do a whole row, to the same bits. */
int fer_is_wide(void);
void fer_random_row_wide(uint64_t seed, uint64_t first, uint64_t uniform[FER_UNIFORMS][FER_ROW]);
void fer_normal_row_wide(const uint64_t uniform[FER_ROW], double deviate[FER_ROW]);
void fer_count_row_wide(const double one[FER_UNIFORMS + 1], const double other[FER_UNIFORMS + 1],
                        double deviate[FER_UNIFORMS][FER_ROW], uint64_t *ones, uint64_t *others);

#endif
