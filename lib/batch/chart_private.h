/* SPDX-License-Identifier: MIT */
/* What the parts of module chart share. */
#ifndef FER_CHART_PRIVATE_H
#define FER_CHART_PRIVATE_H

#include <ferrule/chart.h>

#include "base/numeric/strict.h"

/* All pieces, which have been checked, are of one kind. */
fer_status fer_check_one_kind(const fer_sample_piece *pieces, size_t count);

/* The figures of a charting are possible. */
fer_status fer_check_charting(const fer_charting *charting);

/* Limits where none are given. */
static inline double fer_ewma_limit_of(const fer_charting *charting)
{
    return charting->limit == 0.0 ? 3.0 : charting->limit;
}

static inline double fer_decision_of(const fer_charting *charting)
{
    return charting->decision == 0.0 ? 5.0 : charting->decision;
}

static inline int fer_is_chart_deviation(fer_length x)
{
    return x.mm >= 1e-6 && x.mm <= FER_LENGTH_MAXIMUM_MM;
}

#endif
