/* SPDX-License-Identifier: MIT */
/* The plain formula on a block of rows, checks included.
 * Method: loops without branches that compilers make vector instructions of; a doubtful row becomes NaN.
 * Formulas: crimp/compression_private.h. */
#include "bulk/plain_rows.h"

#include "crimp/compression_private.h"
#include "base/value_private.h"
#include "base/numeric/processor.h"

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

/* A processor with wider vectors gets the same loop once more for these; no other instruction differs, and so no bit.
 * FER_NARROW leaves that out, for tests. */
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__AVX2__) && !defined(FER_NARROW)
#define FER_WIDE   __attribute__((target("avx2")))
#define FER_KERNEL static inline __attribute__((always_inline))
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

/* With the ends free the ferrule outside diameter is needed: a strain from 0 is NaN. A row that is wrong goes on as NaN. */
FER_KERNEL int free_diameters(const double *const input[FER_BLOCK_INPUTS], double *FER_ALONE result)
{
    const double *inside = input[0], *outside = input[1], *stem = input[2], *wall = input[3],
                 *ferrule = input[4], *compression = input[5];
    double mean[FER_BLOCK_ROWS], diameter[FER_BLOCK_ROWS], strain[FER_BLOCK_ROWS], start[FER_BLOCK_ROWS];
    for (size_t i = 0; i < FER_BLOCK_ROWS; i++) {
        const fer_plain_crimp crimp =
            fer_plain_forward(inside[i], outside[i], stem[i], wall[i], compression[i]);
        const int right = is_surely_right(inside[i], outside[i], stem[i], wall[i], ferrule[i], crimp);
        diameter[i] = right ? crimp.diameter : NAN;
        mean[i] = crimp.bore + wall[i];
    }
    for (size_t i = 0; i < FER_BLOCK_ROWS; i++) {
        strain[i] = fer_free_strain(ferrule[i] - diameter[i], mean[i]);
    }
    for (size_t i = 0; i < FER_BLOCK_ROWS; i++) {
        start[i] = fer_free_start(wall[i], mean[i], diameter[i], 1.0, strain[i]);
    }
    for (size_t i = 0; i < FER_BLOCK_ROWS; i++) {
        const double growth = fer_free_finish(wall[i], mean[i], diameter[i], 1.0, strain[i], start[i]);
        result[i] = diameter[i] + 2.0 * (wall[i] * growth);
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
BOTH(wide, FER_WIDE, free_diameters)
BOTH(wide, FER_WIDE, compressions)

/* The longer two gain little from narrow vectors, and are left to the functions on one row, to save code. */
static fer_block_kernel *const wide_kernels[] = {wide_diameters, wide_free_diameters, wide_compressions};
static fer_block_kernel *const narrow_kernels[] = {narrow_diameters, NULL, NULL};
#else
BOTH(narrow, , free_diameters)
BOTH(narrow, , compressions)

static fer_block_kernel *const narrow_kernels[] = {narrow_diameters, narrow_free_diameters,
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
