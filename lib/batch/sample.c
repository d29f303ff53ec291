/* SPDX-License-Identifier: MIT */
/* Checks of samples, gauges and wishes.
 * Method: comparisons only.
 * Formulas: none but the gauge's variance, include/ferrule/capability.h. */
#include "batch/sample_private.h"

#include <math.h>

#include "base/value_private.h"
#include "base/acceptance_private.h"

static fer_status check_piece(const fer_sample_piece *piece)
{
    FER_TRY(fer_check_length(piece->diameter, FER_SAMPLE_PIECE_MISSING, FER_SAMPLE_PIECE_OUT_OF_RANGE));
    FER_REQUIRE(piece->group >= 0 && piece->group <= 1000000, FER_SAMPLE_GROUP_OUT_OF_RANGE);
    FER_REQUIRE(piece->kind >= 0 && piece->kind <= 63, FER_SAMPLE_KIND_OUT_OF_RANGE);
    return FER_OK;
}

fer_status fer_check_pieces(const fer_sample_piece *pieces, size_t count, size_t minimum)
{
    FER_REQUIRE(pieces, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_REQUIRE(count <= FER_SAMPLE_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    for (size_t i = 0; i < count; i++) {
        FER_TRY(check_piece(&pieces[i]));
    }
    FER_REQUIRE(count >= minimum, FER_SAMPLE_TOO_FEW);
    return FER_OK;
}

static int is_later(const fer_sample_piece *pieces, size_t a, size_t b)
{
    const int first = pieces[a].group, second = pieces[b].group;
    return first > second || (first == second && a > b);
}

void fer_order_by_group(const fer_sample_piece *pieces, size_t count, fer_group_order *order)
{
    for (size_t i = 0; i < count; i++) {
        order->place[i] = (uint16_t)i;
    }
    for (size_t gap = count / 2; gap > 0; gap = fer_next_gap(gap)) {
        for (size_t i = gap; i < count; i++) {
            const uint16_t moving = order->place[i];
            size_t j = i;
            for (; j >= gap && is_later(pieces, order->place[j - gap], moving); j -= gap) {
                order->place[j] = order->place[j - gap];
            }
            order->place[j] = moving;
        }
    }
}

size_t fer_end_of_group(const fer_sample_piece *pieces, size_t count, const fer_group_order *order,
                        size_t begin)
{
    const int group = pieces[order->place[begin]].group;
    size_t end = begin + 1;
    while (end < count && pieces[order->place[end]].group == group) {
        end++;
    }
    return end;
}

fer_status fer_check_measuring(const fer_measuring *measuring)
{
    const double degrees = measuring->repeatability_degrees, step = measuring->resolution.mm;
    FER_REQUIRE(fer_is_deviation(measuring->repeatability.mm), FER_MEASURING_REPEATABILITY_OUT_OF_RANGE);
    FER_REQUIRE(degrees == 0.0 || (degrees >= 1.0 && degrees <= 1e6), FER_MEASURING_DEGREES_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_deviation(measuring->common.mm), FER_MEASURING_COMMON_OUT_OF_RANGE);
    FER_REQUIRE(step >= 0.0 && step <= 10.0, FER_MEASURING_RESOLUTION_OUT_OF_RANGE);
    return FER_OK;
}

fer_status fer_take_confidence(fer_ratio *confidence)
{
    confidence->fraction = confidence->fraction == 0.0 ? 0.9 : confidence->fraction;
    FER_REQUIRE(confidence->fraction > 0.5 && confidence->fraction <= 0.999999, FER_CONFIDENCE_OUT_OF_RANGE);
    return FER_OK;
}

fer_status fer_take_share(fer_ratio *share, double usual, fer_status out_of_range)
{
    share->fraction = share->fraction == 0.0 ? usual : share->fraction;
    FER_REQUIRE(share->fraction >= 0.01 && share->fraction <= 0.999999, out_of_range);
    return FER_OK;
}

double fer_gauge_variance(const fer_measuring *measuring)
{
    const double repeatability = measuring->repeatability.mm, step = measuring->resolution.mm;
    return fmax(repeatability * repeatability, step * step / 12.0);
}

fer_status fer_take_wanted(const fer_wanted *wanted, fer_aim *aim)
{
    const double target = wanted->target.mm;
    fer_judging limits = {0};
    FER_TRY(fer_take_limits(wanted->limits, wanted->side, &limits));
    aim->lower = limits.lower;
    aim->upper = limits.upper;
    aim->target = wanted->side == FER_SIDE_BOTH ? 0.5 * (limits.lower + limits.upper) : NAN;
    if (target != 0.0) {
        FER_REQUIRE(target > 0.0 && target > limits.lower && target < limits.upper &&
                        target <= FER_LENGTH_MAXIMUM_MM,
                    FER_TARGET_OUTSIDE_LIMITS);
        aim->target = target;
    }
    return FER_OK;
}
