/* SPDX-License-Identifier: MIT */
/* Samples, gauges and wishes as they come from a caller: what all modules of this component check in the same way. */
#ifndef FER_SAMPLE_PRIVATE_H
#define FER_SAMPLE_PRIVATE_H

#include <ferrule/conformity.h>
#include <ferrule/reading.h>

#include "base/numeric/strict.h"

/* Each piece is possible, and there are at least so many. */
fer_status fer_check_pieces(const fer_sample_piece *pieces, size_t count, size_t minimum);

/* Shell's method sorts without memory of its own: distances of what is compared, from this one of the list down to 0. */
static inline size_t fer_next_gap(size_t gap)
{
    return gap == 2 ? 1 : gap * 5 / 11;
}

/* The places of the pieces, those of a group one after the other in the order in which they were made; at most FER_SAMPLE_MAXIMUM. */
typedef struct {
    uint16_t place[FER_SAMPLE_MAXIMUM];
} fer_group_order;

void fer_order_by_group(const fer_sample_piece *pieces, size_t count, fer_group_order *order);

/* Where the group ends that begins there in the order. */
size_t fer_end_of_group(const fer_sample_piece *pieces, size_t count, const fer_group_order *order,
                        size_t begin);

fer_status fer_check_measuring(const fer_measuring *measuring);

/* Confidence above one half, shares from 1 %; both up to 99.9999 %. One that is 0 becomes the usual one: 90 %, 95 % as a content. */
fer_status fer_take_confidence(fer_ratio *confidence);
fer_status fer_take_share(fer_ratio *share, double usual, fer_status out_of_range);

/* A tolerance that anything can be compared with: a nanometre or more. */
static inline int fer_is_study_tolerance(double mm)
{
    return mm >= 1e-6 && mm <= FER_LENGTH_MAXIMUM_MM;
}

double fer_gauge_variance(const fer_measuring *measuring);

/* Limits, infinite where one does not count, and the target: the middle where none is given and both count, otherwise NaN. */
typedef struct {
    double lower, upper, target;
} fer_aim;

fer_status fer_take_wanted(const fer_wanted *wanted, fer_aim *aim);

#endif
