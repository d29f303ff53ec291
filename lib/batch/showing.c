/* SPDX-License-Identifier: MIT */
/* Tolerance factors and limits, and how many pieces it takes to show something.
 * Method: noncentral t, incomplete beta function; whole numbers by doubling and halving.
 * Formulas: include/ferrule/capability.h; docs/capability.md. */
#include "batch/capability_private.h"

#include "base/numeric/special.h"
#include "base/value_private.h"
#include "base/acceptance_private.h"
#include "batch/numeric/noncentral.h"
#include "batch/numeric/smallest.h"
#include "batch/numeric/tolerance.h"
#include "batch/sample_private.h"

/* ---- tolerance factors and limits ------------------------------------------------------------------------ */

static fer_status take_content(fer_ratio *content, fer_ratio *confidence, fer_side side)
{
    FER_TRY(fer_take_share(content, 0.95, FER_CONTENT_OUT_OF_RANGE));
    FER_TRY(fer_take_confidence(confidence));
    return fer_check_side(side);
}

static fer_status find_factor(double pieces, double degrees, fer_ratio content, fer_ratio confidence,
                              fer_side side, double *factor)
{
    FER_REQUIRE(pieces >= 2.0 && pieces <= 10000.0, FER_TOLERANCE_PIECES_OUT_OF_RANGE);
    FER_REQUIRE(degrees == 0.0 || (degrees >= 1.0 && degrees <= 100.0 * pieces),
                FER_TOLERANCE_DEGREES_OUT_OF_RANGE);
    FER_TRY(take_content(&content, &confidence, side));
    const double v = degrees == 0.0 ? pieces - 1.0 : degrees;
    *factor = side == FER_SIDE_BOTH ? fer_two_sided_factor(pieces, v, content.fraction, confidence.fraction)
                                    : fer_one_sided_factor(pieces, v, content.fraction, confidence.fraction);
    return FER_OK;
}

fer_status fer_find_tolerance_factor(double pieces, double degrees_of_freedom, fer_ratio content,
                                     fer_ratio confidence, fer_side side, double *factor)
{
    FER_REQUIRE(factor, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*factor);
    return find_factor(pieces, degrees_of_freedom, content, confidence, side, factor);
}

static fer_status find_limits(const fer_sample_summary *summary, fer_ratio content, fer_ratio confidence,
                              fer_side side, fer_tolerance_limits *limits)
{
    double factor = 0.0;
    FER_TRY(fer_check_summary(summary));
    FER_TRY(find_factor((double)summary->count, 0.0, content, confidence, side, &factor));
    const double reach = factor * summary->scatter.value.mm;
    if (side != FER_SIDE_UPPER) {
        limits->lower.mm = summary->mean.mm - reach;
    }
    if (side != FER_SIDE_LOWER) {
        limits->upper.mm = summary->mean.mm + reach;
    }
    return FER_OK;
}

fer_status fer_find_tolerance_limits(const fer_sample_summary *summary, fer_ratio content,
                                     fer_ratio confidence, fer_side side, fer_tolerance_limits *limits)
{
    FER_REQUIRE(limits, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*limits);
    return find_limits(summary, content, confidence, side, limits);
}

/* ---- without a shape ------------------------------------------------------------------------------------- */

/* Confidence that the share lies inside where so many ends of the sorted values are cut off. */
static double free_confidence(double pieces, double cut, double content)
{
    return 1.0 - fer_incomplete_beta(pieces - cut + 1.0, cut, content);
}

typedef struct {
    double cut, content, confidence;
} free_case;

/* What a number misses by less than a rounding it has: shares such as 0.9 are no doubles. */
static int free_does(size_t number, const void *context)
{
    const free_case *f = (const free_case *)context;
    return !(free_confidence((double)number, f->cut, f->content) < f->confidence - 1e-12);
}

enum { free_maximum = 100000000 }; /* a share and a confidence of 99.9999 % ask for 17 million */

/* Number of pieces with which the smallest, or the smallest and the greatest, value will do. */
static size_t pieces_needed(double cut, double content, double confidence)
{
    const free_case f = {cut, content, confidence};
    return fer_smallest_number(free_does, &f, 1, free_maximum);
}

static fer_status find_free(size_t count, fer_ratio content, fer_ratio confidence, fer_side side,
                            fer_free_tolerance *tolerance)
{
    FER_TRY(take_content(&content, &confidence, side));
    FER_REQUIRE(count >= 2 && count <= 10000, FER_TOLERANCE_PIECES_OUT_OF_RANGE);
    const double cut = side == FER_SIDE_BOTH ? 2.0 : 1.0, n = (double)count;
    size_t low = 0, high = (side == FER_SIDE_BOTH ? count / 2 : count) + 1;
    while (high - low > 1) {
        const size_t middle = low + (high - low) / 2;
        if (free_confidence(n, cut * (double)middle, content.fraction) < confidence.fraction - 1e-12) {
            high = middle;
        } else {
            low = middle;
        }
    }
    tolerance->rank = low;
    tolerance->needed = pieces_needed(cut, content.fraction, confidence.fraction);
    tolerance->reached.fraction = free_confidence(n, cut * (double)(low > 0 ? low : 1), content.fraction);
    return FER_OK;
}

fer_status fer_find_free_tolerance(size_t count, fer_ratio content, fer_ratio confidence, fer_side side,
                                   fer_free_tolerance *tolerance)
{
    FER_REQUIRE(tolerance, FER_ARGUMENT_MISSING);
    FER_EMPTY(*tolerance);
    FER_LEAVE_OUT(tolerance->reached);
    return find_free(count, content, confidence, side, tolerance);
}

/* ---- showing an index ------------------------------------------------------------------------------------ */

static int is_index(double index)
{
    return index >= 0.01 && index <= 10.0;
}

static double index_required(size_t count, double index, double confidence)
{
    const double root = 3.0 * sqrt((double)count);
    return fer_noncentral_quantile(confidence, (double)(count - 1), root * index) / root;
}

static fer_status find_index(size_t count, double index, fer_ratio confidence, double *required)
{
    FER_REQUIRE(count >= 2 && count <= 10000, FER_TOLERANCE_PIECES_OUT_OF_RANGE);
    FER_REQUIRE(is_index(index), FER_INDEX_OUT_OF_RANGE);
    FER_TRY(fer_take_confidence(&confidence));
    *required = index_required(count, index, confidence.fraction);
    return FER_OK;
}

fer_status fer_find_index_to_show(size_t count, double index, fer_ratio confidence, double *required)
{
    FER_REQUIRE(required, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*required);
    return find_index(count, index, confidence, required);
}

static void show(size_t count, double index, double confidence, double expected, fer_showing *showing)
{
    const double root = 3.0 * sqrt((double)count);
    showing->pieces = count;
    showing->required = index_required(count, index, confidence);
    showing->power.fraction =
        1.0 - fer_noncentral_cdf(root * showing->required, (double)(count - 1), root * expected);
}

typedef struct {
    double index, confidence, expected, power;
} showing_case;

/* The power rises with the number of pieces. */
static int has_power(size_t number, const void *context)
{
    const showing_case *s = (const showing_case *)context;
    fer_showing showing;
    show(number, s->index, s->confidence, s->expected, &showing);
    return !(showing.power.fraction < s->power);
}

static fer_status find_pieces(double index, double confidence, double expected, double power,
                              fer_showing *showing)
{
    const showing_case s = {index, confidence, expected, power};
    FER_REQUIRE(expected > index, FER_INDEX_NOT_REACHABLE);
    const size_t number = fer_smallest_number(has_power, &s, 1, 10000);
    FER_REQUIRE(number > 0, FER_INDEX_NOT_REACHABLE);
    show(number, index, confidence, expected, showing);
    return FER_OK;
}

static fer_status take_showing(double index, fer_ratio *confidence, double expected, fer_ratio *power)
{
    FER_REQUIRE(is_index(index) && is_index(expected), FER_INDEX_OUT_OF_RANGE);
    FER_TRY(fer_take_confidence(confidence));
    return fer_take_share(power, 0.9, FER_POWER_OUT_OF_RANGE);
}

fer_status fer_find_pieces_to_show(double index, fer_ratio confidence, double expected, fer_ratio power,
                                   fer_showing *showing)
{
    FER_REQUIRE(showing, FER_ARGUMENT_MISSING);
    fer_status status = take_showing(index, &confidence, expected, &power);
    if (status == FER_OK) {
        status = find_pieces(index, confidence.fraction, expected, power.fraction, showing);
    }
    if (status != FER_OK) {
        FER_EMPTY(*showing);
        FER_LEAVE_OUT_FROM(fer_showing, *showing, required, power);
    }
    return status;
}
