/* SPDX-License-Identifier: MIT */
/* The trade's plain formula on a block of rows, all checks included, in vector instructions; and the same with a ferrule
 * that lengthens freely.
 *
 * The whole block is computed in any case, so that the loop has a fixed length. A row that is not surely right becomes
 * NaN: the function on one row then says what is wrong with it. Returned is 0 where no row of the block is NaN.
 */
#ifndef FER_PLAIN_ROWS_H
#define FER_PLAIN_ROWS_H

#include <stddef.h>

enum {
    FER_BLOCK_ROWS = 512,
    /* hose inside, outside, stem outside, ferrule wall, ferrule outside (0: not measured), and compression or diameter */
    FER_BLOCK_INPUTS = 6
};

/* Nothing else is written through another pointer meanwhile: C's restrict, which C++ has under this name only. */
#ifdef __cplusplus
#define FER_ALONE __restrict
#else
#define FER_ALONE restrict
#endif

typedef int fer_block_kernel(const double *const input[FER_BLOCK_INPUTS], double *FER_ALONE result);

/* ONE_FERRULE: all rows have the same ferrule outside diameter, or none. */
typedef enum {
    FER_PLAIN_DIAMETER,
    FER_PLAIN_DIAMETER_ONE_FERRULE,
    FER_FREE_DIAMETER,
    FER_PLAIN_COMPRESSION
} fer_plain_question;

/* The quickest kernel on this processor for so many rows; NULL: the function on one row is as good. */
fer_block_kernel *fer_pick_kernel(fer_plain_question question, size_t rows);

#endif
