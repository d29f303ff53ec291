/* SPDX-License-Identifier: MIT */
/* Limits of an index: with which confidence a process has it, gauge taken off.
 * Method: noncentral t without gauge; with it the mean of a chi-square tail, averaged over the gauge's variance; guarded Newton roots.
 * Formulas: include/ferrule/capability.h, fer_find_capability(); docs/capability.md. */
#include "batch/capability_private.h"

#include <math.h>

#include "base/numeric/root.h"
#include "batch/numeric/gamma.h"
#include "batch/numeric/mean_tail.h"
#include "batch/numeric/noncentral.h"
#include "batch/sample_private.h"

fer_gauge_part fer_part_of_gauge(const fer_measuring *measuring)
{
    const double variance = fer_gauge_variance(measuring), common = measuring->common.mm;
    const double repeated = measuring->repeatability.mm * measuring->repeatability.mm;
    /* what comes from the step alone is known exactly */
    const fer_gauge_part part = {variance, variance > repeated ? 0.0 : measuring->repeatability_degrees,
                                 common * common};
    return part;
}

double fer_mean_over_gauge(fer_gauge_function *function, double x, const fer_gauge_part *gauge,
                           const void *context, double *slope)
{
    if (gauge->degrees == 0.0) {
        return function(x, gauge->variance, context, slope);
    }
    const fer_chi_square_grid grid = fer_grid_of_chi_square(gauge->degrees, 1.0);
    double sum = 0.0, slopes = 0.0;
    for (int i = 0; i < grid.count; i++) {
        double weight = 0.0, part = 0.0;
        const double scale = gauge->degrees / fer_grid_point(&grid, i, &weight);
        sum += weight * function(x, gauge->variance * scale, context, &part);
        slopes += weight * part;
    }
    *slope = slopes;
    return sum;
}

/* An index at one variance of the gauge. */
typedef struct {
    const fer_index_basis *basis;
    double index, gauge;
} index_point;

/* distance + z sqrt((own^2 + gauge)/n + common) = score own, solved for own without a difference of nearly equal numbers. */
double fer_own_deviation(double distance, double z, double score, double pieces, const fer_gauge_part *gauge,
                         double *width)
{
    const double mean_variance = gauge->variance / pieces + gauge->common;
    const double squares = score * score - z * z / pieces, square = distance * distance;
    *width = sqrt(square / pieces + squares * mean_variance);
    if (z < 0.0) {
        const double rest = square - z * z * mean_variance, falls = score * distance - z * *width;
        return rest <= 0.0 ? 0.0 : falls > 0.0 ? rest / falls : INFINITY;
    }
    return squares > 0.0 && score > 0.0 ? (score * distance + z * *width) / squares : INFINITY;
}

void fer_bends_of(double distance, double pieces, double gauge, double common, double bends[2])
{
    bends[0] = -distance / sqrt(gauge / pieces + common);
    bends[1] = -distance / sqrt(common);
}

/* chi-square of the greatest standard deviation with which a process that has the mean off by z has the index. Below the gauge's own
 * variance there is none, and the mean decides alone. */
static double index_argument(double z, const void *context, double *rate)
{
    const index_point *point = (const index_point *)context;
    const fer_index_basis *b = point->basis;
    const fer_gauge_part gauge = {point->gauge, 0.0, b->gauge.common};
    const double n = b->pieces, chi = b->degrees * b->deviation * b->deviation;
    double width = 0.0;
    const double own = fer_own_deviation(b->distance, z, 3.0 * point->index, n, &gauge, &width);
    *rate = 0.0;
    if (own == INFINITY) {
        return 0.0;
    }
    if (!(own > 0.0)) {
        return chi / fmax(n * (b->distance * b->distance / (z * z) - b->gauge.common), chi * 1e-300);
    }
    const double variance = own * own + point->gauge;
    *rate = 6.0 * own * own * sqrt(variance / n + b->gauge.common) / (width * variance);
    return chi / variance;
}

/* Probability that the process has the index, at one variance of the gauge. */
static double confidence_at(double index, double gauge, const void *context, double *slope)
{
    const fer_index_basis *b = (const fer_index_basis *)context;
    if (b->pieces == 0.0) {
        const double own = b->distance / (3.0 * index), variance = own * own + gauge, a = 0.5 * b->degrees;
        const double half = a * b->deviation * b->deviation / variance;
        *slope = -2.0 * own * own / (index * variance) * a * fer_gamma_front(a, half);
        return fer_gamma_above(a, half);
    }
    const index_point point = {b, index, gauge};
    fer_tail_mean mean = {index_argument,
                          &point,
                          b->degrees,
                          b->pieces,
                          3.0 * index * sqrt(b->pieces),
                          0,
                          {0.0, 0.0, INFINITY, INFINITY}};
    fer_bends_of(b->distance, b->pieces, gauge, b->gauge.common, mean.bends);
    return fer_mean_tail(&mean, slope);
}

typedef struct {
    const fer_index_basis *basis;
    double probability;
} limit_point;

/* Rises with the index. */
static double confidence_missing(double index, const void *context, double *slope)
{
    const limit_point *point = (const limit_point *)context;
    double falls = 0.0;
    const double confidence =
        fer_mean_over_gauge(confidence_at, index, &point->basis->gauge, point->basis, &falls);
    *slope = -falls;
    return point->probability - confidence;
}

static const double t_maximum = 2000.0; /* of the noncentral t distribution: beyond it no digits are kept */

/* Without gauge. A statistic that is farther off counts as the farthest where that is on the safe side. */
static double plain_limit(const fer_index_basis *b, double probability)
{
    if (b->pieces == 0.0) {
        return b->distance / (3.0 * b->deviation) *
               sqrt(fer_chi_square_quantile(1.0 - probability, b->degrees) / b->degrees);
    }
    const double root = 3.0 * sqrt(b->pieces), t = sqrt(b->pieces) * b->distance / b->deviation;
    const double counted = probability > 0.5 ? fmin(t, t_maximum) : fmax(t, -t_maximum);
    return fabs(counted) <= t_maximum ? fer_noncentral_shift(probability, counted, b->degrees) / root : NAN;
}

/* With gauge: the index is above 0, and where not even a very small or a very large one does, there is none. */
double fer_index_limit(const fer_index_basis *basis, double probability)
{
    const limit_point point = {basis, probability};
    const double plain = plain_limit(basis, probability);
    if (basis->gauge.variance == 0.0 && (basis->gauge.common == 0.0 || basis->pieces == 0.0)) {
        return plain;
    }
    if (!(basis->distance > 0.0)) {
        return NAN;
    }
    const double start = plain > 1e-3 ? plain : 1e-3;
    const double smallest = 1e-6, largest = 1e6 * start;
    const double index = fer_rising_root(confidence_missing, &point, smallest, largest, start, 1e-13);
    /* the search ends at an end where there is no root */
    return index > 1.01 * smallest && index < 0.99 * largest ? index : NAN;
}
