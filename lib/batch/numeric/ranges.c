/* SPDX-License-Identifier: MIT */
/* Distribution of the range of normal numbers, and the constants d2, d3, c4.
 * Method: trapezoidal rule over the smallest number, which converges geometrically; 16 points a piece for the second moment.
 * Formulas: Tippett, Biometrika 17 (1925) 364-387 (from memory); batch/numeric/ranges.h. */
#include "batch/numeric/ranges.h"

#include <math.h>
#include <stddef.h>

#include "base/numeric/pi.h"
#include "base/numeric/quadrature.h"
#include "base/numeric/root.h"
#include "base/numeric/special.h"
#include "batch/numeric/gamma.h"

/* Nodes from -8.5 to 6: from there on the smallest of two has no share of 1e-16. Of many numbers the integrand is narrow: its step is
 * halved. */
enum { nodes_maximum = 2 * 58 + 1, many = 12 };

/* Powers by squaring: pow() differs between libraries. */
static double power(double x, int n)
{
    double result = 1.0;
    for (; n > 0; n /= 2) {
        result *= n % 2 == 1 ? x : 1.0;
        x *= x;
    }
    return result;
}

/* Normal density and the smaller tail at the nodes. */
typedef struct {
    double density[nodes_maximum], tail[nodes_maximum], step;
    int n, below, count; /* nodes below 0, and in all */
} grid;

static void fill_grid(grid *g, int n)
{
    const int finer = n > many ? 2 : 1;
    g->n = n;
    g->step = 0.25 / finer;
    g->below = 34 * finer;
    g->count = 58 * finer + 1;
    for (int i = 0; i < g->count; i++) {
        const double x = g->step * (i - g->below);
        g->density[i] = fer_normal_density(x);
        g->tail[i] = fer_normal_cdf(-fabs(x));
    }
}

/* Probability that another number is in the range that begins at a node. */
static double inside_of(const grid *g, int i, double w)
{
    const double x = g->step * (i - g->below);
    return x > 0.0 ? g->tail[i] - fer_normal_cdf(-x - w) : fer_normal_cdf(x + w) - g->tail[i];
}

static double grid_cdf(const grid *g, double w, double *density)
{
    double sum = 0.0, slope = 0.0;
    for (int i = 0; i < g->count; i++) {
        const double inside = inside_of(g, i, w), one_less = power(inside, g->n - 2);
        sum += g->density[i] * one_less * inside;
        slope += g->density[i] * one_less * fer_normal_density(g->step * (i - g->below) + w);
    }
    *density = g->step * g->n * (g->n - 1) * slope;
    return g->step * g->n * sum;
}

double fer_range_cdf(double w, int n, double *density)
{
    grid g;
    fill_grid(&g, n);
    return grid_cdf(&g, w, density);
}

typedef struct {
    grid g;
    double p;
} range_point;

static double share_excess(double w, const void *context, double *slope)
{
    const range_point *point = (const range_point *)context;
    return grid_cdf(&point->g, w, slope) - point->p;
}

double fer_range_quantile(double p, int n)
{
    range_point point;
    fill_grid(&point.g, n);
    point.p = p;
    return fer_rising_root(share_excess, &point, 0.0, 24.0, fer_range_mean(n), 1e-13);
}

typedef struct {
    grid g;
    fer_chi_square_grid over;
    double p, degrees;
} studentized_point;

static double studentized_excess(double q, const void *context, double *slope)
{
    const studentized_point *point = (const studentized_point *)context;
    double share = 0.0;
    *slope = 0.0;
    for (int i = 0; i < point->over.count; i++) {
        double weight = 0.0, density = 0.0;
        const double found = sqrt(fer_grid_point(&point->over, i, &weight) / point->degrees);
        share += weight * grid_cdf(&point->g, q * found, &density);
        *slope += weight * found * density;
    }
    return share - point->p;
}

double fer_studentized_range_quantile(double p, int n, double degrees)
{
    studentized_point point;
    double low = 0.0, high = 4.0 * fer_range_mean(n), slope = 0.0;
    fill_grid(&point.g, n);
    point.over = fer_grid_of_chi_square(degrees, 2.0);
    point.p = p;
    point.degrees = degrees;
    while (studentized_excess(high, &point, &slope) < 0.0) {
        low = high;
        high *= 4.0;
    }
    return fer_rising_root(studentized_excess, &point, low, high, low, DBL_EPSILON);
}

/* Twice the half of an even integrand; log1p and expm1 keep what the n-th power leaves of 1. */
double fer_range_mean(int n)
{
    double sum = 0.5 * (1.0 - 2.0 * power(0.5, n));
    for (int i = 1; i <= 60; i++) {
        const double tail = fer_normal_cdf(-0.2 * i);
        sum += -expm1(n * log1p(-tail)) - power(tail, n);
    }
    return 0.4 * sum;
}

static double square_share(double w, const void *context)
{
    const grid *g = (const grid *)context;
    double sum = 0.0;
    for (int i = 0; i < g->count; i++) {
        sum += g->density[i] * power(inside_of(g, i, w), g->n - 1);
    }
    return 2.0 * w * (1.0 - g->step * g->n * sum);
}

/* Of many numbers the distribution is narrow: pieces are short about its mean, and nothing lies below the first. */
static double mean_square(const grid *g, double mean)
{
    double few[4] = {1.5, 3.0, 4.5, 6.5};
    double more[6] = {mean - 2.0, mean - 1.0, mean, mean + 1.0, mean + 2.0, mean + 4.0};
    const double from = mean - 3.2;
    if (g->n > many) {
        return from * from + fer_integrate_pieces(square_share, g, from, mean + 9.5, more, 6);
    }
    return fer_integrate_pieces(square_share, g, 0.0, 11.5, few, 4);
}

double fer_range_deviation(int n)
{
    const double mean = fer_range_mean(n);
    grid g;
    fill_grid(&g, n);
    return sqrt(mean_square(&g, mean) - mean * mean);
}

double fer_deviation_mean(double n)
{
    return sqrt(2.0 * pi / (n - 1.0)) * exp(-fer_log_beta(0.5, 0.5 * (n - 1.0)));
}
