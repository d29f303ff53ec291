/* SPDX-License-Identifier: MIT */
/* Mean of a chi-square tail over a normal number.
 * Method: trapezoidal rule, which converges geometrically for an analytic integrand; in pieces where its argument ends.
 * Formulas: Trefethen and Weideman, SIAM Review 56 (2014) 385-458 (from memory); batch/numeric/mean_tail.h. */
#include "batch/numeric/mean_tail.h"

#include <math.h>

#include "base/numeric/quadrature.h"
#include "base/numeric/special.h"
#include "base/numeric/strict.h"
#include "batch/numeric/gamma.h"

static const double farthest = 8.5; /* beyond it the normal distribution has 2e-17 */
static const double light =
    6.5; /* an end beyond it is so light that the integrand is smooth to 12 digits there */

/* Share and slope at one z. */
static double weighted_tail(const fer_tail_mean *mean, double z, double *slope)
{
    double rate = 0.0;
    const double x = mean->argument(z, mean->context, &rate), density = fer_normal_density(z);
    if (!(x > 0.0)) {
        *slope = 0.0;
        return density;
    }
    const double a = 0.5 * mean->degrees;
    *slope = -density * rate * a * fer_gamma_front(a, 0.5 * x);
    return density * fer_gamma_above(a, 0.5 * x);
}

/* The step resolves the integrand, which is the steeper the better the standard deviation is known beside the mean. */
static double smooth_mean(const fer_tail_mean *mean, double *slope)
{
    const double fine = 1.2 * sqrt(mean->pieces / mean->degrees), step = fine < 0.3 ? fine : 0.3;
    const int count = (int)(farthest / step) + 1;
    double sum = 0.0, slopes = 0.0;
    for (int i = -count; i <= count; i++) {
        double part = 0.0;
        sum += weighted_tail(mean, step * i, &part);
        slopes += part;
    }
    *slope = step * slopes;
    return step * sum;
}

static double tail_at(double z, const void *context)
{
    double slope = 0.0;
    return weighted_tail((const fer_tail_mean *)context, z, &slope);
}

static double slope_at(double z, const void *context)
{
    double slope = 0.0;
    (void)weighted_tail((const fer_tail_mean *)context, z, &slope);
    return slope;
}

enum { pieces_maximum = 36 }; /* enough from one end of the normal distribution to the other */

/* Pieces get shorter towards the end, where the integrand is like a power. */
static double broken_mean(const fer_tail_mean *mean, double *slope)
{
    double breaks[pieces_maximum], length = 0.05;
    const double from = mean->folded ? 0.0 : -farthest, end = mean->end < farthest ? mean->end : farthest;
    const double times = mean->folded ? 2.0 : 1.0;
    double place = end;
    int count = 0;
    while (place > from) {
        breaks[count++] = place -= length;
        length = length < 1.2 ? 2.0 * length : 1.5;
    }
    *slope = times * fer_integrate_pieces(slope_at, mean, from, end, breaks, (size_t)count);
    return times *
           (fer_normal_cdf(-end) + fer_integrate_pieces(tail_at, mean, from, end, breaks, (size_t)count));
}

double fer_mean_tail(const fer_tail_mean *mean, double *slope)
{
    return mean->folded || mean->end < (mean->degrees >= 2.0 ? light : farthest) ? broken_mean(mean, slope)
                                                                                 : smooth_mean(mean, slope);
}
