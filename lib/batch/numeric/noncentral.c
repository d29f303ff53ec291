/* SPDX-License-Identifier: MIT */
/* Noncentral t distribution, its quantile, and the shift that gives a probability.
 * Method: Poisson-weighted incomplete beta functions summed downwards, so that nothing cancels; guarded Newton roots.
 * Formulas: Lenth, Algorithm AS 243, Appl. Statist. 38 (1989) 185-189 (from memory); batch/numeric/noncentral.h. */
#include "batch/numeric/noncentral.h"

#include <math.h>

#include "base/numeric/root.h"
#include "base/numeric/special.h"
#include "batch/numeric/gamma.h"

typedef struct {
    double cdf, density, shift_slope; /* the last: how the cdf falls with the shift */
} noncentral;

/* Terms at whole j: weight, incomplete beta function, its step to the next. */
typedef struct {
    double a, weight, beta, step;
} term;

static term first_term(double j, double half, double m, double b, double x, double y, double sign)
{
    term t = {j + half, sign * fer_gamma_front(j + half - 0.5, m), 0.0, 0.0};
    t.step = fer_beta_step(t.a, b, x, y);
    t.beta = fer_incomplete_beta_by(t.a, b, x, y, t.a * t.step);
    return t;
}

/* From j to j - 1; by the inverses of m and x. */
static void step_down(term *t, double by_m, double b, double by_x)
{
    t->weight *= (t->a - 0.5) * by_m;
    t->step *= t->a / (t->a + b - 1.0) * by_x;
    t->a -= 1.0;
    t->beta += t->step;
}

/* Weights beyond it are below 1e-17, or terms below 1e-250: these fall like powers of m and of (a + b) x where these are small, and
 * summed from farther they would begin with 0. */
static double first_index(double m, double b, double x)
{
    const double weights = m + 8.5 * sqrt(m) + 30.0, power = x * (b + weights) < m ? x * (b + weights) : m;
    return floor(power < 0.1 ? fmin(575.0 / -log(power), weights) : weights);
}

/* For t > 0 and a shift that is not 0; density and slope by the shift come out of the same sum. */
static noncentral sum_terms(double t, double v, double delta)
{
    const double x = t * t / (v + t * t), y = v / (v + t * t), b = 0.5 * v, m = 0.5 * delta * delta;
    const double top = first_index(m, b, x), end = m - 8.5 * sqrt(m) - 2.0, by_m = 1.0 / m, by_x = 1.0 / x;
    term half = first_term(top, 0.5, m, b, x, y, 1.0);
    term whole = first_term(top, 1.0, m, b, x, y, delta < 0.0 ? -1.0 : 1.0);
    double cdf = 0.0, density = 0.0, steps = 0.0, j = top;
    for (;;) {
        cdf += half.weight * half.beta + whole.weight * whole.beta;
        density += half.weight * half.step * half.a + whole.weight * whole.step * whole.a;
        steps += half.weight * half.step + whole.weight * whole.step;
        if (j < 1.0 || j < end) {
            break;
        }
        j -= 1.0;
        step_down(&half, by_m, b, by_x);
        step_down(&whole, by_m, b, by_x);
    }
    const noncentral n = {fer_normal_cdf(-delta) + 0.5 * cdf, density / t,
                          0.5 * delta * steps + fer_normal_density(delta) * exp(b * log(y))};
    return n;
}

/* For t >= 0. The density at 0 is not needed: it is far from every root. */
static noncentral upper_half(double t, double v, double delta)
{
    if (t < 1e-150) {
        const noncentral n = {fer_normal_cdf(-delta), 0.0, fer_normal_density(delta)};
        return n;
    }
    return sum_terms(t, v, fabs(delta) < 1e-100 ? 1e-100 : delta);
}

double fer_noncentral_cdf(double t, double v, double delta)
{
    return t < 0.0 ? 1.0 - upper_half(-t, v, -delta).cdf : upper_half(t, v, delta).cdf;
}

typedef struct {
    double p, v, known; /* shift, or t */
} noncentral_point;

static double share_excess(double t, const void *context, double *slope)
{
    const noncentral_point *point = (const noncentral_point *)context;
    const noncentral n = upper_half(t, point->v, point->known);
    *slope = n.density;
    return n.cdf - point->p;
}

/* For p of at least P(T <= 0). */
static double upper_quantile(double p, double v, double delta)
{
    const noncentral_point point = {p, v, delta};
    const double z = fer_normal_quantile(p), fall = 1.0 - z * z / (2.0 * v);
    double low = 0.0, slope = 0.0;
    double high = (delta + z * sqrt(1.0 + delta * delta / (2.0 * v))) / (fall > 0.25 ? fall : 0.25);
    high = high > 0.1 ? high : 0.1;
    const double start = high;
    while (share_excess(high, &point, &slope) < 0.0) {
        low = high;
        high *= 2.0;
    }
    return fer_rising_root(share_excess, &point, low, high, start, 1e-13);
}

double fer_noncentral_quantile(double p, double v, double delta)
{
    return p < fer_normal_cdf(-delta) ? -upper_quantile(1.0 - p, v, -delta) : upper_quantile(p, v, delta);
}

static double share_missing(double delta, const void *context, double *slope)
{
    const noncentral_point *point = (const noncentral_point *)context;
    const noncentral n = upper_half(point->known, point->v, delta);
    *slope = n.shift_slope;
    return point->p - n.cdf;
}

/* For t >= 0: the cdf is not below that at t = 0, which is the low end's, and next to nothing at the high end. */
static double shift_above(double p, double t, double v)
{
    const noncentral_point point = {p, v, t};
    const double z = fer_normal_quantile(1.0 - p), scatter = sqrt(1.0 + t * t / (2.0 * v));
    return fer_rising_root(share_missing, &point, z, t + 12.0 * scatter, t + z * scatter, 1e-13);
}

double fer_noncentral_shift(double p, double t, double v)
{
    return t < 0.0 ? -shift_above(1.0 - p, -t, v) : shift_above(p, t, v);
}
