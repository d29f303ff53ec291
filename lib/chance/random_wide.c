/* SPDX-License-Identifier: MIT */
/* The rows of random.c, eight trials at a time.
 * Method: the same operations in the same order in 512-bit vectors, without contraction: the same bits.
 * Formulas: as chance/random.c. */
/* For processors with AVX-512 F and DQ. Elsewhere fer_is_wide() says no, and nothing here is called. */
#include "chance/random.h"

#include "base/numeric/strict.h"

#if defined(__x86_64__) && defined(__GNUC__)

#include "chance/normal_table.h"
#include "base/numeric/processor.h"

#include <immintrin.h>

#define WIDE __attribute__((target("avx512f,avx512dq")))

int fer_is_wide(void)
{
    return fer_processor_has(FER_VECTORS_512, FER_SAVED_512);
}

/* Functions of three bits, as truth tables. */
enum { exclusive_or_of_three = 0x96, first_or_both_others = 0xf8 };

/* Pieces start at this double's exponent and first digit. */
static const int64_t first_piece = (INT64_C(1023) + FER_UNIFORM_BITS - FER_NORMAL_OCTAVES) * 2;

typedef struct {
    __m512i a, b, c, d;
} words;

WIDE static inline words next_round(words w, __m512i low, __m512i high)
{
    const __m512i first = _mm512_mul_epu32(w.a, _mm512_set1_epi64(0xD2511F53));
    const __m512i second = _mm512_mul_epu32(w.c, _mm512_set1_epi64(0xCD9E8D57));
    const words next = {
        _mm512_ternarylogic_epi64(_mm512_srli_epi64(second, 32), w.b, low, exclusive_or_of_three), second,
        _mm512_ternarylogic_epi64(_mm512_srli_epi64(first, 32), w.d, high, exclusive_or_of_three), first};
    return next;
}

/* The bits above the uniform number are left as they are. */
WIDE static inline void store(__m512i word, __m512i rest, unsigned shift, uint64_t *to)
{
    _mm512_storeu_si512(to,
                        _mm512_ternarylogic_epi64(_mm512_slli_epi64(word, 10), _mm512_srli_epi64(rest, shift),
                                                  _mm512_set1_epi64(1023), first_or_both_others));
}

WIDE void fer_random_row_wide(uint64_t seed, uint64_t first, uint64_t uniform[FER_UNIFORMS][FER_ROW])
{
    const __m512i step = _mm512_set_epi64(7, 6, 5, 4, 3, 2, 1, 0), none = _mm512_setzero_si512();
    int64_t key[10][2];
    for (unsigned round = 0; round < 10; round++) {
        key[round][0] = (uint32_t)seed + round * UINT32_C(0x9E3779B9);
        key[round][1] = (uint32_t)(seed >> 32) + round * UINT32_C(0xBB67AE85);
    }
    for (unsigned k = 0; k < FER_ROW; k += 8) {
        const __m512i number = _mm512_add_epi64(_mm512_set1_epi64((int64_t)(first + k)), step);
        words one = {number, _mm512_srli_epi64(number, 32), none, none};
        words two = {number, one.b, _mm512_set1_epi64(1), none};
        FER_UNROLL(10)
        for (int round = 0; round < 10; round++) {
            const __m512i low = _mm512_set1_epi64(key[round][0]), high = _mm512_set1_epi64(key[round][1]);
            one = next_round(one, low, high);
            two = next_round(two, low, high);
        }
        store(one.a, two.c, 0, &uniform[0][k]);
        store(one.b, two.c, 10, &uniform[1][k]);
        store(one.c, two.c, 20, &uniform[2][k]);
        store(one.d, two.d, 0, &uniform[3][k]);
        store(two.a, two.d, 10, &uniform[4][k]);
        store(two.b, two.d, 20, &uniform[5][k]);
    }
}

/* Quantiles far out are left to the caller: bit k of the result for trial k. */
WIDE static unsigned eight_normals(__m512d table[FER_NORMAL_DEGREE + 1][2], const uint64_t uniform[8],
                                   double deviate[8])
{
    const __m512i number = _mm512_slli_epi64(_mm512_loadu_si512(uniform), 64 - FER_UNIFORM_BITS);
    const __m512i distance =
        _mm512_xor_si512(number, _mm512_srai_epi64(number, 63)); /* from the nearer end */
    const __m512i twice = _mm512_srli_epi64(_mm512_slli_epi64(distance, 1), 64 - FER_UNIFORM_BITS);
    const __m512i bits =
        _mm512_castpd_si512(_mm512_cvtepi64_pd(_mm512_or_si512(twice, _mm512_set1_epi64(1))));
    const __m512i piece = _mm512_sub_epi64(_mm512_srli_epi64(bits, 51), _mm512_set1_epi64(first_piece));
    const __m512i digits = _mm512_and_si512(bits, _mm512_set1_epi64(INT64_C(0x7ffffffffffff)));
    const __m512d t = _mm512_sub_pd(
        _mm512_castsi512_pd(_mm512_or_si512(digits, _mm512_set1_epi64(INT64_C(0x3ff0000000000000)))),
        _mm512_set1_pd(1.25));
    __m512d sum = _mm512_permutex2var_pd(table[FER_NORMAL_DEGREE][0], piece, table[FER_NORMAL_DEGREE][1]);
    FER_UNROLL(8)
    for (int k = FER_NORMAL_DEGREE - 1; k >= 0; k--) {
        sum = _mm512_add_pd(_mm512_mul_pd(sum, t), _mm512_permutex2var_pd(table[k][0], piece, table[k][1]));
    }
    const __m512i sign = _mm512_andnot_si512(number, _mm512_set1_epi64(INT64_MIN));
    _mm512_storeu_si512(deviate, _mm512_xor_si512(_mm512_castpd_si512(sum), sign));
    return _mm512_movepi64_mask(piece);
}

WIDE void fer_normal_row_wide(const uint64_t uniform[FER_ROW], double deviate[FER_ROW])
{
    __m512d table[FER_NORMAL_DEGREE + 1][2];
    for (int k = 0; k <= FER_NORMAL_DEGREE; k++) {
        table[k][0] = _mm512_loadu_pd(fer_normal_table[k]);
        table[k][1] = _mm512_loadu_pd(fer_normal_table[k] + 8);
    }
    for (unsigned k = 0; k < FER_ROW; k += 8) {
        unsigned far = eight_normals(table, uniform + k, deviate + k);
        for (; __builtin_expect(far != 0, 0); far &= far - 1) {
            const unsigned i = k + (unsigned)__builtin_ctz(far);
            fer_normal_row(uniform + i, 1, deviate + i);
        }
    }
}

WIDE void fer_count_row_wide(const double one[FER_UNIFORMS + 1], const double other[FER_UNIFORMS + 1],
                             double deviate[FER_UNIFORMS][FER_ROW], uint64_t *ones, uint64_t *others)
{
    for (unsigned k = 0; k < FER_ROW; k += 8) {
        __m512d first = _mm512_set1_pd(one[FER_UNIFORMS]), second = _mm512_set1_pd(other[FER_UNIFORMS]);
        for (unsigned i = 0; i < FER_UNIFORMS; i++) {
            const __m512d x = _mm512_loadu_pd(&deviate[i][k]);
            first = _mm512_add_pd(first, _mm512_mul_pd(_mm512_set1_pd(one[i]), x));
            second = _mm512_add_pd(second, _mm512_mul_pd(_mm512_set1_pd(other[i]), x));
        }
        *ones += (unsigned)__builtin_popcount(_mm512_cmp_pd_mask(first, _mm512_setzero_pd(), _CMP_GT_OQ));
        *others += (unsigned)__builtin_popcount(_mm512_cmp_pd_mask(second, _mm512_setzero_pd(), _CMP_GT_OQ));
    }
}

#else

int fer_is_wide(void)
{
    return 0;
}

void fer_random_row_wide(uint64_t seed, uint64_t first, uint64_t uniform[FER_UNIFORMS][FER_ROW])
{
    fer_random_row(seed, first, FER_ROW, uniform);
}

void fer_normal_row_wide(const uint64_t uniform[FER_ROW], double deviate[FER_ROW])
{
    fer_normal_row(uniform, FER_ROW, deviate);
}

void fer_count_row_wide(const double one[FER_UNIFORMS + 1], const double other[FER_UNIFORMS + 1],
                        double deviate[FER_UNIFORMS][FER_ROW], uint64_t *ones, uint64_t *others)
{
    fer_count_row(one, other, deviate, ones, others);
}

#endif
