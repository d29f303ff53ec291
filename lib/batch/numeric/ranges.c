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

enum { nodes_each_side = 34 };
static const double step = 0.25;

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
    double density[2 * nodes_each_side + 1], tail[2 * nodes_each_side + 1];
    int n;
} grid;

static void fill_grid(grid *g, int n)
{
    g->n = n;
    for (int i = -nodes_each_side; i <= nodes_each_side; i++) {
        g->density[i + nodes_each_side] = fer_normal_density(step * i);
        g->tail[i + nodes_each_side] = fer_normal_cdf(-step * (i < 0 ? -i : i));
    }
}

static double grid_cdf(const grid *g, double w, double *density)
{
    double sum = 0.0, slope = 0.0;
    for (int i = 0; i <= 2 * nodes_each_side; i++) {
        const double x = step * (i - nodes_each_side);
        const double inside =
            x > 0.0 ? g->tail[i] - fer_normal_cdf(-x - w) : fer_normal_cdf(x + w) - g->tail[i];
        const double one_less = power(inside, g->n - 2);
        sum += g->density[i] * one_less * inside;
        slope += g->density[i] * one_less * fer_normal_density(x + w);
    }
    *density = step * g->n * (g->n - 1) * slope;
    return step * g->n * sum;
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
    double density = 0.0;
    return 2.0 * w * (1.0 - grid_cdf((const grid *)context, w, &density));
}

double fer_range_deviation(int n)
{
    double breaks[5] = {2.0, 4.0, 6.0, 8.0, 10.0};
    const double mean = fer_range_mean(n);
    grid g;
    fill_grid(&g, n);
    return sqrt(fer_integrate_pieces(square_share, &g, 0.0, 12.0, breaks, 5) - mean * mean);
}

double fer_deviation_mean(double n)
{
    return sqrt(2.0 * pi / (n - 1.0)) * exp(-fer_log_beta(0.5, 0.5 * (n - 1.0)));
}
