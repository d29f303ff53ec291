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

/* A mean, and the form of its tail. */
typedef struct {
    const fer_tail_mean *mean;
    fer_tail_form form;
} working;

/* Share and slope at one z. */
static double weighted_tail(const working *w, double z, double *slope)
{
    double rate = 0.0, fall = 0.0;
    const double x = w->mean->argument(z, w->mean->context, &rate), density = fer_normal_density(z);
    if (!(x > 0.0)) {
        *slope = 0.0;
        return density;
    }
    const double tail = fer_tail_above(&w->form, 0.5 * x, &fall);
    *slope = -density * rate * fall;
    return density * tail;
}

/* The step resolves the integrand, which is the steeper the better the standard deviation is known beside the mean. */
static double smooth_mean(const working *w, double *slope)
{
    const fer_tail_mean *mean = w->mean;
    const double fine = 1.2 * sqrt(mean->pieces / mean->degrees), step = fine < 0.3 ? fine : 0.3;
    const int count = (int)(farthest / step) + 1;
    double sum = 0.0, slopes = 0.0;
    for (int i = -count; i <= count; i++) {
        double part = 0.0;
        sum += weighted_tail(w, step * i, &part);
        slopes += part;
    }
    *slope = step * slopes;
    return step * sum;
}

static double tail_at(double z, const void *context)
{
    double slope = 0.0;
    return weighted_tail((const working *)context, z, &slope);
}

static double slope_at(double z, const void *context)
{
    double slope = 0.0;
    (void)weighted_tail((const working *)context, z, &slope);
    return slope;
}

/* Enough from one end of the normal distribution to the other, and for four bends. */
enum { pieces_maximum = 64 };

/* Pieces get shorter towards the end, where the integrand is like a power, and part at a bend. */
static double broken_mean(const working *w, double *slope)
{
    const fer_tail_mean *mean = w->mean;
    double breaks[pieces_maximum], length = mean->end < farthest ? 0.05 : 1.5;
    const double from = mean->folded ? 0.0 : -farthest, end = mean->end < farthest ? mean->end : farthest;
    const double times = mean->folded ? 2.0 : 1.0;
    /* where a bend is near the middle the integrand mostly rises steeply beside it */
    static const double around[7] = {-0.3, -0.1, -0.03, 0.0, 0.03, 0.1, 0.3};
    double place = end;
    int count = 0;
    while (place > from) {
        breaks[count++] = place -= length;
        length = length < 1.2 ? 2.0 * length : 1.5;
    }
    for (int i = 0; i < 4 * 7; i++) {
        breaks[count++] = mean->bends[i / 7] + around[i % 7];
    }
    *slope = times * fer_integrate_pieces(slope_at, w, from, end, breaks, (size_t)count);
    return times *
           (fer_normal_cdf(-end) + fer_integrate_pieces(tail_at, w, from, end, breaks, (size_t)count));
}

static double nearest_bend(const fer_tail_mean *mean)
{
    const double *at = mean->bends;
    return fmin(fmin(fabs(at[0]), fabs(at[1])), fmin(fabs(at[2]), fabs(at[3])));
}

double fer_mean_tail(const fer_tail_mean *mean, double *slope)
{
    const working w = {mean, fer_tail_form_of(mean->degrees)};
    const double whole = mean->degrees >= 2.0 ? light : farthest;
    const int is_smooth = mean->end >= whole && nearest_bend(mean) >= light;
    return is_smooth && !mean->folded ? smooth_mean(&w, slope) : broken_mean(&w, slope);
}
