/* SPDX-License-Identifier: MIT */
/* The smallest number of pieces that does. */
#ifndef FER_BATCH_SMALLEST_H
#define FER_BATCH_SMALLEST_H

#include <stddef.h>

/* Not 0: so many pieces do. With each number that does, all greater ones do. */
typedef int fer_number_does(size_t number, const void *context);

/* Smallest number above `low`, which is known not to do; 0: none up to `greatest`, which is above `low`. */
size_t fer_smallest_number(fer_number_does *does, const void *context, size_t low, size_t greatest);

#endif
