/* SPDX-License-Identifier: MIT */
/* Uniform, normal, rectangular and triangular numbers by the number of the trial.
 * Method: Philox 4x32-10 or Sobol's points; the normal quantile by a table of polynomials.
 * Formulas: chance/random.h; docs/chance.md. */
#include "chance/random.h"

#include "base/numeric/strict.h"
#include "chance/normal_table.h"
#include "base/numeric/special.h"

#include <math.h>
#include <string.h>

/* ---- Philox ------------------------------------------------------------------------------------------- */

static const uint32_t first_factor = UINT32_C(0xD2511F53), second_factor = UINT32_C(0xCD9E8D57);
static const uint32_t low_step = UINT32_C(0x9E3779B9), high_step = UINT32_C(0xBB67AE85);

void fer_philox(uint32_t word[4], uint64_t key)
{
    uint32_t a = word[0], b = word[1], c = word[2], d = word[3];
    uint32_t low = (uint32_t)key, high = (uint32_t)(key >> 32);
    for (int round = 0; round < 10; round++) {
        const uint64_t first = (uint64_t)a * first_factor, second = (uint64_t)c * second_factor;
        a = (uint32_t)(second >> 32) ^ b ^ low;
        c = (uint32_t)(first >> 32) ^ d ^ high;
        b = (uint32_t)second;
        d = (uint32_t)first;
        low += low_step;
        high += high_step;
    }
    word[0] = a;
    word[1] = b;
    word[2] = c;
    word[3] = d;
}

/* A word on top of ten bits of one of the last two words. */
static inline uint64_t compose(uint32_t word, uint32_t rest, unsigned shift)
{
    return (uint64_t)word << 10 | (rest >> shift & 1023u);
}

/* Six uniform numbers of one counter, each `stride` apart: both calls of Philox in step, so that a processor need not
 * wait for one of them. */
static inline void draw(uint64_t seed, uint64_t number, uint32_t stream, uint64_t *uniform, size_t stride)
{
    uint32_t a = (uint32_t)number, b = (uint32_t)(number >> 32), c = 0, d = stream;
    uint32_t e = a, f = b, g = 1, h = stream;
    uint32_t low = (uint32_t)seed, high = (uint32_t)(seed >> 32);
    FER_UNROLL(10)
    for (int round = 0; round < 10; round++) {
        const uint64_t ap = (uint64_t)a * first_factor, cp = (uint64_t)c * second_factor;
        const uint64_t ep = (uint64_t)e * first_factor, gp = (uint64_t)g * second_factor;
        a = (uint32_t)(cp >> 32) ^ b ^ low;
        c = (uint32_t)(ap >> 32) ^ d ^ high;
        b = (uint32_t)cp;
        d = (uint32_t)ap;
        e = (uint32_t)(gp >> 32) ^ f ^ low;
        g = (uint32_t)(ep >> 32) ^ h ^ high;
        f = (uint32_t)gp;
        h = (uint32_t)ep;
        low += low_step;
        high += high_step;
    }
    uniform[0] = compose(a, g, 0);
    uniform[stride] = compose(b, g, 10);
    uniform[2 * stride] = compose(c, g, 20);
    uniform[3 * stride] = compose(d, h, 0);
    uniform[4 * stride] = compose(e, h, 10);
    uniform[5 * stride] = compose(f, h, 20);
}

/* Not inline, so that there is one of it. */
static void draw_row(uint64_t seed, uint64_t first, uint32_t stream, unsigned count, uint64_t *uniform,
                     size_t stride)
{
    for (unsigned k = 0; k < count; k++) {
        draw(seed, first + k, stream, uniform + k, stride);
    }
}

void fer_random_row(uint64_t seed, uint64_t first, unsigned count, uint64_t uniform[FER_UNIFORMS][FER_ROW])
{
    draw_row(seed, first, 0, count, &uniform[0][0], FER_ROW);
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
    uint64_t m[FER_BLOCK_BITS] = {0};
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
    draw_row(seed, first >> FER_BLOCK_BITS, 1, 1, point, 1); /* the block's shift */
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

/* Twice the distance from the nearer end, plus 1: tail probability times 2^43, exact, below 2^42. */
static inline double tail_of(uint64_t uniform)
{
    const uint64_t distance = uniform ^ (0 - (uniform >> (FER_UNIFORM_BITS - 1) & 1u));
    return (double)(int64_t)((distance << 1 & ((UINT64_C(1) << FER_UNIFORM_BITS) - 1)) | 1);
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
    FER_UNROLL(8)
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
    const uint64_t number = uniform & ((UINT64_C(1) << FER_UNIFORM_BITS) - 1);
    return (double)(int64_t)(2 * number + 1) * 0x1p-42 - 1.0;
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

void fer_count_row(const double one[FER_UNIFORMS + 1], const double other[FER_UNIFORMS + 1],
                   double deviate[FER_UNIFORMS][FER_ROW], uint64_t *ones, uint64_t *others)
{
    for (unsigned k = 0; k < FER_ROW; k++) {
        double first = one[FER_UNIFORMS], second = other[FER_UNIFORMS];
        for (unsigned i = 0; i < FER_UNIFORMS; i++) {
            first += one[i] * deviate[i][k];
            second += other[i] * deviate[i][k];
        }
        *ones += first > 0.0;
        *others += second > 0.0;
    }
}
