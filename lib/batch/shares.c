/* SPDX-License-Identifier: MIT */
/* Shares outside the limits.
 * Method: incomplete beta function; mean of a chi-square tail; trapezoidal rule over mean and standard deviation.
 * Formulas: include/ferrule/capability.h, fer_find_share_outside() and fer_find_rest_inside(); docs/capability.md. */
#include "batch/capability_private.h"

#include "base/numeric/root.h"
#include "base/numeric/special.h"
#include "base/value_private.h"
#include "batch/numeric/gamma.h"
#include "batch/numeric/mean_tail.h"
#include "batch/sample_private.h"

/* Distances of the limits from the mean, infinite where one does not count. */
typedef struct {
    double below, above, deviation, own, pieces, degrees, confidence;
    fer_gauge_part gauge;
} sample;

static fer_status take_sample(const fer_sample_summary *summary, const fer_wanted *wanted,
                              const fer_measuring *measuring, sample *s)
{
    fer_aim aim = {0};
    FER_TRY(fer_check_summary(summary));
    FER_REQUIRE(wanted, FER_ARGUMENT_MISSING);
    const fer_wanted limits = {wanted->limits, {0.0}, wanted->side};
    FER_TRY(fer_take_wanted(&limits, &aim));
    FER_TRY(fer_check_measuring(measuring));
    s->below = summary->mean.mm - aim.lower;
    s->above = aim.upper - summary->mean.mm;
    s->deviation = summary->scatter.value.mm;
    s->pieces = (double)summary->count;
    s->degrees = s->pieces - 1.0;
    s->gauge = fer_part_of_gauge(measuring);
    FER_REQUIRE(s->deviation > 0.0, FER_SAMPLE_WITHOUT_SCATTER);
    FER_REQUIRE(s->deviation * s->deviation > s->gauge.variance, FER_MEASURING_COVERS_SCATTER);
    s->own = sqrt(s->deviation * s->deviation - s->gauge.variance);
    return FER_OK;
}

/* ---- one limit ------------------------------------------------------------------------------------------- */

static double estimated_share(const sample *s, double distance)
{
    const double half = 0.5 * s->pieces - 1.0;
    const double x = 0.5 - distance / s->own * sqrt(s->pieces) / (2.0 * (s->pieces - 1.0));
    return fer_incomplete_beta(half, half, fmin(fmax(x, 0.0), 1.0));
}

static double next_share(const sample *s, double distance)
{
    const double variance = s->own * s->own + s->deviation * s->deviation / s->pieces + s->gauge.common;
    return fer_student_cdf(-distance / sqrt(variance), s->degrees);
}

/* Where no index can be shown, everything may lie beyond the limit. */
static double upper_share(const sample *s, double distance)
{
    const fer_index_basis basis = {distance, s->deviation, s->pieces, s->degrees, s->gauge};
    const double index = fer_index_limit(&basis, s->confidence);
    return index - index == 0.0 ? fer_normal_cdf(-3.0 * index) : 1.0;
}

/* ---- both limits ----------------------------------------------------------------------------------------- */

/* The share outside that is wanted where the mean is off by z, and its score on one side. */
typedef struct {
    const sample *s;
    double z, gauge, root, score; /* root: of minus twice its logarithm */
} outside_point;

static const double nearly_all = 1.0 - 1e-15; /* of the pieces: the logarithm may not be 0 */

/* By the inverse of an own deviation of the pieces, in which the root of twice a small share's logarithm is nearly straight. */
static double outside_missing(double inverse, const void *context, double *slope)
{
    const outside_point *point = (const outside_point *)context;
    const sample *s = point->s;
    const double own = 1.0 / inverse, off = sqrt((own * own + point->gauge) / s->pieces + s->gauge.common);
    const double below = -(s->below + point->z * off) / own, above = -(s->above - point->z * off) / own;
    const double moves = point->z * own / (s->pieces * off); /* of the mean, with the deviation */
    const double share = fer_normal_cdf(below) + fer_normal_cdf(above);
    const double root = sqrt(-2.0 * log(fmin(share, nearly_all)));
    *slope = (fer_normal_density(below) * (-below - moves) + fer_normal_density(above) * (-above + moves)) /
             (share * root * inverse);
    return root - point->root;
}

/* chi-square of the deviation that gives the share. Each limit alone would leave a
 * greater deviation, and mostly the smaller of both is the root nearly. */
static double outside_argument(double z, const void *context, double *rate)
{
    outside_point point = *(const outside_point *)context;
    const sample *s = point.s;
    const double off = z * sqrt(point.gauge / s->pieces + s->gauge.common);
    const double nearest = fmin(s->below + off, s->above - off),
                 chi = s->degrees * s->deviation * s->deviation;
    *rate = 0.0;
    point.z = z;
    if (!(nearest > 0.0)) { /* below the gauge's own variance the mean decides alone */
        const double away = (z < 0.0 ? s->below : s->above) / z;
        return chi / fmax(s->pieces * (away * away - s->gauge.common), chi * 1e-300);
    }
    const fer_gauge_part gauge = {point.gauge, 0.0, s->gauge.common};
    double width = 0.0, slope = 0.0;
    const double one = fmin(fer_own_deviation(s->below, z, point.score, s->pieces, &gauge, &width),
                            fer_own_deviation(s->above, -z, point.score, s->pieces, &gauge, &width));
    const double most = fmin(one, 1e6 * (s->below + s->above));
    const double near =
        fer_rising_root(outside_missing, &point, 0.999999 / most, 60.0 / nearest, 1.0 / most, 1e-6);
    const double inverse = near - outside_missing(near, &point, &slope) / slope;
    const double own = 1.0 / inverse, variance = own * own + point.gauge;
    *rate = -2.0 * own * own * own / (variance * slope * point.root);
    return chi / variance;
}

static double outside_confidence(double log_share, double gauge, const void *context, double *slope)
{
    const sample *s = (const sample *)context;
    const outside_point point = {s, 0.0, gauge, sqrt(-2.0 * log_share), -fer_normal_quantile(exp(log_share))};
    fer_tail_mean mean = {outside_argument, &point, s->degrees, s->pieces, INFINITY, 0, {0.0}};
    fer_bends_of(s->below, s->pieces, gauge, s->gauge.common, mean.bends);
    fer_bends_of(s->above, s->pieces, gauge, s->gauge.common, mean.bends + 2);
    mean.bends[2] = -mean.bends[2];
    mean.bends[3] = -mean.bends[3];
    return fer_mean_tail(&mean, slope);
}

static double confidence_excess(double log_share, const void *context, double *slope)
{
    const sample *s = (const sample *)context;
    return fer_mean_over_gauge(outside_confidence, log_share, &s->gauge, s, slope) - s->confidence;
}

/* Not below the limit of one side, and mostly near the sum of both. */
static double upper_outside(const sample *s, double below, double above)
{
    const double largest = fmax(below, above), start = fmin(below + above, 0.5 + 0.5 * largest);
    const int both = fer_is_finite(s->below) && fer_is_finite(s->above) && s->below > 0.0 && s->above > 0.0;
    if (!both || largest == 0.0 || largest == 1.0) {
        return largest;
    }
    return exp(fer_rising_root(confidence_excess, s, log(largest), -1e-9, log(start), 1e-11));
}

/* ---- functions ------------------------------------------------------------------------------------------- */

static fer_status find_share(const fer_sample_summary *summary, const fer_wanted *wanted,
                             fer_ratio confidence, const fer_measuring *measuring, fer_share_outside *share)
{
    sample s = {0};
    FER_TRY(take_sample(summary, wanted, measuring, &s));
    FER_TRY(fer_take_confidence(&confidence));
    FER_REQUIRE(summary->count > 2, FER_SAMPLE_TOO_FEW);
    s.confidence = confidence.fraction;
    share->below.fraction = estimated_share(&s, s.below);
    share->above.fraction = estimated_share(&s, s.above);
    share->outside.fraction = fmin(share->below.fraction + share->above.fraction, 1.0);
    share->next_below.fraction = next_share(&s, s.below);
    share->next_above.fraction = next_share(&s, s.above);
    share->below_upper.fraction = fer_is_finite(s.below) ? upper_share(&s, s.below) : 0.0;
    share->above_upper.fraction = fer_is_finite(s.above) ? upper_share(&s, s.above) : 0.0;
    share->outside_upper.fraction =
        upper_outside(&s, share->below_upper.fraction, share->above_upper.fraction);
    return FER_OK;
}

fer_status fer_find_share_outside(const fer_sample_summary *summary, const fer_wanted *wanted,
                                  fer_ratio confidence, fer_measuring measuring, fer_share_outside *share)
{
    FER_REQUIRE(share, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*share);
    return find_share(summary, wanted, confidence, &measuring, share);
}

/* Steps of the mean, in its standard deviations, and of the logarithm of chi-square. */
typedef struct {
    double mean, chi;
} rest_steps;

/* Of m pieces all are inside as exp(-m p) says: between nearly surely and hardly where p, the share outside, is 1/m, that is where
 * the nearer limit is `score` own deviations away. In z and in the logarithm of chi-square the exponent there changes by so many
 * times itself, `by_mean` and `by_chi`, so the integrand is analytic up to pi/2 over these from the axis, and the rule's error
 * is exp(-2 pi times that over the step): 3e-10 here, and mostly less. Steps are not shorter than a call may take time. */
static rest_steps steps_of_rest(const sample *s, double further)
{
    const double score = fmax(1.0, -fer_normal_quantile(1.0 / (further + 1.0)));
    const double nearest = fmax(fmin(s->below, s->above), 0.01 * s->own);
    const double own = fmin(nearest / score, 1e3 * s->own), variance = own * own + s->gauge.variance;
    const double by_mean = score * sqrt(variance / s->pieces + s->gauge.common) / own;
    const double by_chi = 0.5 * score * score * variance / (own * own);
    const rest_steps steps = {fmin(fmax(0.45 / by_mean, 0.1), 0.5), fmax(0.45 / by_chi, 0.02)};
    return steps;
}

/* Probability of all inside, at one standard deviation, over the mean. */
static double all_inside(const sample *s, double variance, double further, double step)
{
    const double own = sqrt(fmax(variance - s->gauge.variance, 0.0));
    const int count = (int)(8.5 / step) + 1;
    const double off = sqrt(variance / s->pieces + s->gauge.common);
    double sum = 0.0;
    for (int i = -count; i <= count; i++) {
        const double z = step * i, tiny = 1e-300;
        const double below = -(s->below + z * off) / fmax(own, tiny),
                     above = -(s->above - z * off) / fmax(own, tiny);
        const double outside = fer_normal_cdf(below) + fer_normal_cdf(above);
        sum += fer_normal_density(z) * (outside < 1.0 ? exp(further * log1p(-outside)) : further == 0.0);
    }
    return step * sum;
}

static fer_status find_rest(const fer_sample_summary *summary, const fer_wanted *wanted, int further,
                            const fer_measuring *measuring, fer_ratio *probability)
{
    sample s = {0};
    double sum = 0.0;
    FER_TRY(take_sample(summary, wanted, measuring, &s));
    FER_REQUIRE(further >= 0 && further <= 1000000, FER_SAMPLE_FURTHER_OUT_OF_RANGE);
    const rest_steps steps = steps_of_rest(&s, (double)further);
    fer_chi_square_grid grid = fer_grid_of_chi_square(s.degrees, 2.0);
    fer_refine_grid(&grid, steps.chi);
    for (int i = 0; i < grid.count; i++) {
        double weight = 0.0;
        const double x = fer_grid_point(&grid, i, &weight);
        sum +=
            weight * all_inside(&s, s.degrees * s.deviation * s.deviation / x, (double)further, steps.mean);
    }
    probability->fraction = fmin(sum, 1.0);
    return FER_OK;
}

fer_status fer_find_rest_inside(const fer_sample_summary *summary, const fer_wanted *wanted, int further,
                                fer_measuring measuring, fer_ratio *probability)
{
    FER_REQUIRE(probability, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*probability);
    return find_rest(summary, wanted, further, &measuring, probability);
}
