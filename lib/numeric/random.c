/* SPDX-License-Identifier: MIT */
#include "numeric/random.h"

#include "numeric/normal_table.h"
#include "numeric/special.h"

#include <math.h>
#include <string.h>

/* ---- Philox ------------------------------------------------------------------------------------------- */

void fer_philox(uint32_t word[4], uint64_t key)
{
    uint32_t low = (uint32_t)key, high = (uint32_t)(key >> 32);
    for (int round = 0; round < 10; round++) {
        const uint64_t first = (uint64_t)word[0] * UINT32_C(0xD2511F53);
        const uint64_t second = (uint64_t)word[2] * UINT32_C(0xCD9E8D57);
        word[0] = (uint32_t)(second >> 32) ^ word[1] ^ low;
        word[2] = (uint32_t)(first >> 32) ^ word[3] ^ high;
        word[1] = (uint32_t)second;
        word[3] = (uint32_t)first;
        low += UINT32_C(0x9E3779B9);
        high += UINT32_C(0xBB67AE85);
    }
}

/* Word `which` on top of ten bits of one of the last two words. */
static inline uint64_t compose(const uint32_t word[8], unsigned which)
{
    const uint32_t rest = word[which < 3 ? 6 : 7] >> (10 * (which % 3));
    return (uint64_t)word[which] << 10 | (rest & 1023u);
}

/* Six uniform numbers of one counter. */
static inline void draw(uint64_t seed, uint64_t number, uint32_t stream, uint64_t uniform[FER_UNIFORMS])
{
    uint32_t word[8] = {(uint32_t)number, (uint32_t)(number >> 32), 0, stream,
                        (uint32_t)number, (uint32_t)(number >> 32), 1, stream};
    fer_philox(word, seed);
    fer_philox(word + 4, seed);
    for (unsigned i = 0; i < FER_UNIFORMS; i++) {
        uniform[i] = compose(word, i);
    }
}

void fer_random_row(uint64_t seed, uint64_t first, unsigned count, uint64_t uniform[FER_UNIFORMS][FER_ROW])
{
    for (unsigned k = 0; k < count; k++) {
        uint64_t numbers[FER_UNIFORMS];
        draw(seed, first + k, 0, numbers);
        for (unsigned i = 0; i < FER_UNIFORMS; i++) {
            uniform[i][k] = numbers[i];
        }
    }
}

/* ---- Sobol' ------------------------------------------------------------------------------------------- */

/* A dimension after the first: degree of its polynomial, its inner coefficients, first direction numbers. */
typedef struct {
    uint8_t degree, inner, start[4];
} sobol_dimension;

static const sobol_dimension dimensions[FER_UNIFORMS - 1] = {{1, 0, {1, 0, 0, 0}},
                                                             {2, 1, {1, 3, 0, 0}},
                                                             {3, 1, {1, 3, 1, 0}},
                                                             {3, 2, {1, 1, 1, 0}},
                                                             {4, 1, {1, 1, 3, 3}}};

/* The numbers m of a dimension: m(k) = 2 a(1) m(k-1) + 4 a(2) m(k-2) + ... + 2^s m(k-s) + m(k-s), without carry. */
static void find_directions(const sobol_dimension *dimension, uint64_t direction[FER_BLOCK_BITS])
{
    const unsigned degree = dimension->degree;
    uint64_t m[FER_BLOCK_BITS];
    for (unsigned k = 0; k < FER_BLOCK_BITS; k++) {
        if (k < degree) {
            m[k] = dimension->start[k];
        } else {
            m[k] = m[k - degree] ^ m[k - degree] << degree;
            for (unsigned j = 1; j < degree; j++) {
                m[k] ^= (dimension->inner >> (degree - 1 - j) & 1u) * (m[k - j] << j);
            }
        }
        direction[k] = m[k] << (FER_UNIFORM_BITS - 1 - k);
    }
}

static void find_all_directions(uint64_t direction[FER_UNIFORMS][FER_BLOCK_BITS])
{
    for (unsigned k = 0; k < FER_BLOCK_BITS; k++) {
        direction[0][k] = UINT64_C(1) << (FER_UNIFORM_BITS - 1 - k);
    }
    for (unsigned i = 1; i < FER_UNIFORMS; i++) {
        find_directions(&dimensions[i - 1], direction[i]);
    }
}

/* Point by its number in Gray's code: each next one differs by one direction. */
void fer_even_row(uint64_t seed, uint64_t first, unsigned count, uint64_t uniform[FER_UNIFORMS][FER_ROW])
{
    uint64_t direction[FER_UNIFORMS][FER_BLOCK_BITS], point[FER_UNIFORMS];
    unsigned number = (unsigned)(first & (FER_BLOCK - 1));
    const unsigned gray = number ^ number >> 1;
    find_all_directions(direction);
    draw(seed, first >> FER_BLOCK_BITS, 1, point); /* the block's shift */
    for (unsigned i = 0; i < FER_UNIFORMS; i++) {
        for (unsigned k = 0; k < FER_BLOCK_BITS; k++) {
            point[i] ^= (gray >> k & 1u) * direction[i][k];
        }
    }
    for (unsigned k = 0; k < count; k++) {
        unsigned changed = 0;
        for (number++; changed < FER_BLOCK_BITS - 1 && !(number >> changed & 1u);) {
            changed++;
        }
        for (unsigned i = 0; i < FER_UNIFORMS; i++) {
            uniform[i][k] = point[i];
            point[i] ^= direction[i][changed];
        }
    }
}

/* ---- deviates ----------------------------------------------------------------------------------------- */

static inline double from_bits(uint64_t bits)
{
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

static inline uint64_t to_bits(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

/* Twice the uniform number without its top bit, plus 1: tail probability times 2^43, exact, below 2^42. */
static inline double tail_of(uint64_t uniform)
{
    return (double)(int64_t)((uniform << 1 & ((UINT64_C(1) << FER_UNIFORM_BITS) - 1)) | 1);
}

static double far_quantile(double tail)
{
    return -fer_normal_quantile(tail * 0x1p-43);
}

/* The double's exponent and first digit choose the piece, the other digits are the place in it. */
static inline double near_quantile(uint64_t bits, int64_t piece)
{
    const uint64_t digits = UINT64_C(0x7ffffffffffff);
    const double t = from_bits((bits & digits) | UINT64_C(0x3ff0000000000000)) - 1.25;
    double sum = fer_normal_table[FER_NORMAL_DEGREE][piece];
    for (int k = FER_NORMAL_DEGREE - 1; k >= 0; k--) {
        sum = sum * t + fer_normal_table[k][piece];
    }
    return sum;
}

void fer_normal_row(const uint64_t uniform[FER_ROW], unsigned count, double deviate[FER_ROW])
{
    for (unsigned k = 0; k < count; k++) {
        const double tail = tail_of(uniform[k]);
        const uint64_t bits = to_bits(tail);
        const uint64_t sign = (~uniform[k] >> (FER_UNIFORM_BITS - 1) & 1u) << 63;
        const int64_t piece = (int64_t)(bits >> 51) - ((1023 + FER_UNIFORM_BITS - FER_NORMAL_OCTAVES) << 1);
        const double quantile = piece < 0 ? far_quantile(tail) : near_quantile(bits, piece);
        deviate[k] = from_bits(to_bits(quantile) ^ sign);
    }
}

/* From -1 to 1, never 0: the uniform number in the middle of its step. */
static inline double centred(uint64_t uniform)
{
    return (double)(int64_t)(2 * uniform + 1) * 0x1p-42 - 1.0;
}

void fer_rectangular_row(const uint64_t uniform[FER_ROW], unsigned count, double deviate[FER_ROW])
{
    for (unsigned k = 0; k < count; k++) {
        deviate[k] = centred(uniform[k]);
    }
}

void fer_triangular_row(const uint64_t uniform[FER_ROW], unsigned count, double deviate[FER_ROW])
{
    for (unsigned k = 0; k < count; k++) {
        const double x = centred(uniform[k]);
        deviate[k] = copysign(1.0 - sqrt(1.0 - fabs(x)), x);
    }
}
