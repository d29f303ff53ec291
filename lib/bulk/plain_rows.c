/* SPDX-License-Identifier: MIT */
/* The plain formula on a block of rows, checks included.
 * Method: loops without branches that compilers make vector instructions of; a doubtful row becomes NaN.
 * Formulas: crimp/compression_private.h. */
#include "bulk/plain_rows.h"

#include "crimp/compression_private.h"
#include "base/value_private.h"
#include "base/numeric/processor.h"
#include "base/numeric/unroll.h"

#include <stddef.h>
#include <stdint.h>

static inline double lesser(double a, double b)
{
    return a < b ? a : b;
}

static inline double greater(double a, double b)
{
    return a > b ? a : b;
}

/* The checks of fer_check_joint() on what the plain formula uses, in fewer comparisons: inside < outside <= most
 * leaves nothing to ask of the inside's upper end, and so on. */
static inline int is_possible(double inside, double outside, double stem, double wall)
{
    const double lower = lesser(lesser(inside, stem), wall), upper = greater(outside, wall);
    const int thick_enough = lower >= FER_LENGTH_MINIMUM_MM, in_order = greater(inside, stem) < outside;
    return thick_enough & in_order & (upper <= FER_LENGTH_MAXIMUM_MM);
}

/* What a ferrule outside diameter has to keep to where it is given; above the stem it is above the smallest length. */
static inline int fits_ferrule(double ferrule, double stem, double wall, double diameter)
{
    const int fits =
        (ferrule <= FER_LENGTH_MAXIMUM_MM) & (ferrule - 2.0 * wall > stem) & (diameter <= ferrule);
    return (ferrule == 0.0) | fits;
}

/* Enough for a joint and a plain crimp to be possible, in as few comparisons as that takes; the few rows that are possible
 * without it go to the function on one row. A bore below the hose as it is touches it on any stem, and is above the stem
 * where there is a gap. A gap above rounding leaves the ferrule's own bore above the stem, too, and two walls are below
 * the diameter. */
static inline int is_surely_right(double inside, double outside, double stem, double wall, double ferrule,
                                  fer_plain_crimp crimp)
{
    const double lower = lesser(lesser(inside, stem), wall);
    const double limit = ferrule == 0.0 ? FER_LENGTH_MAXIMUM_MM : ferrule;
    return (lower >= FER_LENGTH_MINIMUM_MM) & (crimp.left > 0.0) & (crimp.gap > 1e-12 * crimp.diameter) &
           (crimp.bore < outside) & (crimp.diameter <= limit) &
           (greater(outside, limit) <= FER_LENGTH_MAXIMUM_MM);
}

/* A processor with wider vectors gets the same loops once more for these, and a quicker one for blocks of which every row is
 * right; results come of the same operations, and so have the same bits. FER_NARROW leaves that out, for tests. */
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__AVX2__) && !defined(FER_NARROW)
#include <immintrin.h>
#define FER_WIDE        __attribute__((target("avx2,fma")))
#define FER_WIDE_INLINE FER_WIDE static inline __attribute__((always_inline))
#define FER_KERNEL      static inline __attribute__((always_inline))
#else
#define FER_KERNEL static inline
#endif

/* A loop of its own: the others would not become vector instructions where these are narrow. */
FER_KERNEL int any_nan(const double *result)
{
    int64_t found = 0;
    for (size_t i = 0; i < FER_BLOCK_ROWS; i++) {
        found |= result[i] != result[i] ? -1 : 0;
    }
    return found != 0;
}

FER_KERNEL int diameters(const double *const input[FER_BLOCK_INPUTS], double *FER_ALONE result)
{
    const double *inside = input[0], *outside = input[1], *stem = input[2], *wall = input[3],
                 *ferrule = input[4], *compression = input[5];
    for (size_t i = 0; i < FER_BLOCK_ROWS; i++) {
        const fer_plain_crimp crimp =
            fer_plain_forward(inside[i], outside[i], stem[i], wall[i], compression[i]);
        const int right = is_surely_right(inside[i], outside[i], stem[i], wall[i], ferrule[i], crimp);
        result[i] = right ? crimp.diameter : NAN;
    }
    return any_nan(result);
}

/* Rows that go through the loops of the flow with ends free together: what these hand on stays in the nearest memory. */
enum { steps = 64 };

/* With the ends free the ferrule outside diameter is needed: less than nothing is lost from 0, and the result is NaN. */
FER_KERNEL void let_flow(const double *wall, const double *ferrule, double *FER_ALONE diameter)
{
    double part[steps], rise[steps], start[steps], grown[steps], lost[steps], e[steps], g[steps];
    for (size_t i = 0; i < steps; i++) {
        const fer_free_flow flow =
            fer_free_begin(wall[i], ferrule[i] - diameter[i], diameter[i] - wall[i], diameter[i], 1.0);
        part[i] = flow.part;
        rise[i] = flow.rise;
        start[i] = flow.start;
    }
    for (size_t i = 0; i < steps; i++) {
        const fer_free_flow flow = {part[i], 0.0, rise[i], 0, start[i]};
        const fer_free_point point =
            fer_free_at(flow, wall[i], ferrule[i] - diameter[i], diameter[i] - wall[i], 1.0);
        grown[i] = point.grown;
        lost[i] = point.lost;
        e[i] = point.e;
        g[i] = point.g;
    }
    for (size_t i = 0; i < steps; i++) {
        const fer_free_flow flow = {part[i], 0.0, rise[i], 0, start[i]};
        const fer_free_point point = {grown[i], lost[i], e[i], g[i]};
        diameter[i] += 2.0 * (wall[i] * fer_free_finish(flow, point, 1.0));
    }
}

FER_KERNEL int free_diameters(const double *const input[FER_BLOCK_INPUTS], double *FER_ALONE result)
{
    for (size_t i = 0; i < FER_BLOCK_ROWS; i += steps) {
        let_flow(input[3] + i, input[4] + i, result + i);
    }
    return any_nan(result);
}

FER_KERNEL int compressions(const double *const input[FER_BLOCK_INPUTS], double *FER_ALONE result)
{
    const double *inside = input[0], *outside = input[1], *stem = input[2], *wall = input[3],
                 *ferrule = input[4], *diameter = input[5];
    /* a gap above the stem says that the diameter is above two walls */
    for (size_t i = 0; i < FER_BLOCK_ROWS; i++) {
        const fer_pair bore = fer_plain_bore(diameter[i], wall[i]);
        const fer_pair gap = fer_pair_subtract(bore, fer_pair_of(stem[i]));
        const fer_pair over = fer_pair_subtract(bore, fer_pair_of(outside[i]));
        const fer_squares squares = fer_widened_squares(bore.high, inside[i], outside[i], stem[i]);
        const int widened = stem[i] > inside[i], as_it_is = !(stem[i] > inside[i]);
        const int touches = (widened & fer_squares_tell(squares) & (squares.left < squares.area)) |
                            (as_it_is & (over.high < 0.0));
        const int right = is_possible(inside[i], outside[i], stem[i], wall[i]) &
                          fits_ferrule(ferrule[i], stem[i], wall[i], diameter[i]) &
                          (diameter[i] <= FER_LENGTH_MAXIMUM_MM) & (gap.high > 0.0) & touches;
        const double found = fer_plain_share(fer_pair_sum(outside[i], -inside[i]), gap);
        result[i] = right ? found : NAN;
    }
    return any_nan(result);
}

#define BOTH(width, attribute, name)                                                                         \
    attribute static int width##_##name(const double *const input[FER_BLOCK_INPUTS],                         \
                                        double *FER_ALONE result)                                            \
    {                                                                                                        \
        return name(input, result);                                                                          \
    }

BOTH(narrow, , diameters)
#ifdef FER_WIDE
BOTH(wide, FER_WIDE, diameters)
BOTH(wide, FER_WIDE, compressions)

/* What has been seen of the rows, by lane: minimum and maximum of what has a lower or an upper limit, and whether each diameter
 * is below its limits. */
typedef struct {
    __m256d low, high, right;
} lanes;

/* fer_plain_forward() on four rows, and stricter checks than is_surely_right() in fewer instructions, which give one answer for
 * all rows. `limit`: of the diameter, for all rows, unless each has its own. The one product that is fused with its sum is part
 * of a check, which leaves more than all roundings, and of no result. */
FER_WIDE_INLINE lanes four_diameters(const double *inside_at, const double *outside_at, const double *stem_at,
                                     const double *wall_at, const double *limit_at,
                                     const double *compression_at, __m256d limit, double *result, lanes seen)
{
    const __m256d one = _mm256_set1_pd(1.0), nearly_two = _mm256_set1_pd(2.0 - 1.0 / 1024.0);
    const __m256d inside = _mm256_loadu_pd(inside_at), outside = _mm256_loadu_pd(outside_at);
    const __m256d stem = _mm256_loadu_pd(stem_at), wall = _mm256_loadu_pd(wall_at);
    const __m256d compression = _mm256_loadu_pd(compression_at);
    const __m256d walls = _mm256_sub_pd(outside, inside), left = _mm256_sub_pd(one, compression);
    const __m256d walls_low = _mm256_sub_pd(_mm256_sub_pd(outside, walls), inside);
    const __m256d left_low = _mm256_sub_pd(_mm256_sub_pd(one, left), compression);
    const __m256d lost = _mm256_add_pd(_mm256_mul_pd(walls, left_low), _mm256_mul_pd(walls_low, left));
    const __m256d gap = _mm256_mul_pd(walls, left), metal = _mm256_add_pd(wall, wall);
    const __m256d smaller = _mm256_min_pd(stem, metal), larger = _mm256_max_pd(metal, stem);
    const __m256d diameter = _mm256_add_pd(_mm256_add_pd(larger, _mm256_add_pd(smaller, lost)), gap);
    const __m256d touch = _mm256_fmadd_pd(wall, nearly_two, outside);
    _mm256_storeu_pd(result, diameter);
    seen.low =
        _mm256_min_pd(_mm256_min_pd(seen.low, inside), _mm256_min_pd(smaller, _mm256_min_pd(left, gap)));
    seen.high = _mm256_max_pd(seen.high, outside);
    /* GCOVR_EXCL_BR_START: inlined twice, with limits and without */
    if (limit_at) {
        /* GCOVR_EXCL_BR_STOP */
        limit = _mm256_loadu_pd(limit_at);
        seen.high = _mm256_max_pd(seen.high, limit);
    }
    seen.right = _mm256_and_pd(seen.right, _mm256_cmp_pd(diameter, _mm256_min_pd(touch, limit), _CMP_LT_OQ));
    return seen;
}

/* Whether every row of the block is surely right. What is NaN makes the diameter or its limit NaN (a minimum of which either is
 * NaN is the second), and is below nothing. */
FER_WIDE_INLINE int all_are_right(const double *const input[FER_BLOCK_INPUTS], double *FER_ALONE result,
                                  const double *limits, __m256d limit)
{
    const double *inside = input[0], *outside = input[1], *stem = input[2], *wall = input[3],
                 *compression = input[5];
    const __m256d zero = _mm256_setzero_pd();
    lanes seen = {_mm256_set1_pd(1.0), zero, _mm256_cmp_pd(zero, zero, _CMP_EQ_OQ)};
    for (size_t block = 0; block < FER_BLOCK_ROWS; block += 32) {
        FER_UNROLL(8)
        for (size_t i = block; i < block + 32; i += 4) {
            /* GCOVR_EXCL_BR_START: inlined twice, with limits and without */
            seen = four_diameters(inside + i, outside + i, stem + i, wall + i, limits ? limits + i : NULL,
                                  compression + i, limit, result + i, seen);
            /* GCOVR_EXCL_BR_STOP */
        }
    }
    const __m256d low = _mm256_cmp_pd(seen.low, _mm256_set1_pd(2.0 * FER_LENGTH_MINIMUM_MM), _CMP_GE_OQ);
    const __m256d high = _mm256_cmp_pd(seen.high, _mm256_set1_pd(FER_LENGTH_MAXIMUM_MM), _CMP_LE_OQ);
    return _mm256_movemask_pd(_mm256_and_pd(seen.right, _mm256_and_pd(low, high))) == 15;
}

FER_WIDE static int quick_diameters(const double *const input[FER_BLOCK_INPUTS], double *FER_ALONE result)
{
    return !all_are_right(input, result, input[4], _mm256_setzero_pd()) && wide_diameters(input, result);
}

FER_WIDE static int quick_one_ferrule(const double *const input[FER_BLOCK_INPUTS], double *FER_ALONE result)
{
    const double ferrule = input[4][0], limit = ferrule == 0.0 ? FER_LENGTH_MAXIMUM_MM : ferrule;
    const int right =
        limit <= FER_LENGTH_MAXIMUM_MM && all_are_right(input, result, NULL, _mm256_set1_pd(limit));
    return !right && wide_diameters(input, result);
}

FER_WIDE static int quick_free_diameters(const double *const input[FER_BLOCK_INPUTS],
                                         double *FER_ALONE result)
{
    (void)quick_diameters(input, result);
    return free_diameters(input, result);
}

/* The longer two gain little from narrow vectors, and are left to the functions on one row, to save code. */
static fer_block_kernel *const wide_kernels[] = {quick_diameters, quick_one_ferrule, quick_free_diameters,
                                                 wide_compressions};
static fer_block_kernel *const narrow_kernels[] = {narrow_diameters, narrow_diameters, NULL, NULL};
#else
static int narrow_free_diameters(const double *const input[FER_BLOCK_INPUTS], double *FER_ALONE result)
{
    (void)narrow_diameters(input, result);
    return free_diameters(input, result);
}

BOTH(narrow, , compressions)

static fer_block_kernel *const narrow_kernels[] = {narrow_diameters, narrow_diameters, narrow_free_diameters,
                                                   narrow_compressions};
#endif

/* A virtual machine takes microseconds to say what its processor has: few rows do without. */
fer_block_kernel *fer_pick_kernel(fer_plain_question question, size_t rows)
{
#ifdef FER_WIDE
    /* GCOVR_EXCL_BR_START: the processor decides; both ways are compared with single rows where it has both */
    if (rows >= 16384 && fer_processor_has(FER_VECTORS_256, FER_SAVED_256)) {
        /* GCOVR_EXCL_BR_STOP */
        return wide_kernels[question];
    }
#else
    (void)rows;
#endif
    return narrow_kernels[question];
}
