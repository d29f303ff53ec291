/* SPDX-License-Identifier: MIT */
/* Run lengths of charts with a memory.
 * Method: Nyström's method for integral equations, 16 points on each of two or three panels; elimination with pivots.
 * Formulas: Crowder, Technometrics 29 (1987) 401-407; Kemp, J. Roy. Statist. Soc. B 23 (1961) 149-153 (both from memory). */
#include "batch/numeric/run_length.h"

#include <math.h>

#include "base/numeric/quadrature.h"
#include "base/numeric/special.h"
#include "base/numeric/strict.h"

enum { unknowns_maximum = 3 * FER_GAUSS_POINTS + 1, columns = unknowns_maximum + 1 };
static const double panels_of_two =
    18.0; /* interval in widths of the kernel that 32 points resolve to 1e-9 */
static const double panels_of_three = 24.4; /* the same of 48 points to 1e-8 */

/* Equations, each with its right side behind it. */
typedef struct {
    double row[unknowns_maximum][columns];
    int count;
} equations;

/* Points of the integral, and its weights. */
typedef struct {
    double point[3 * FER_GAUSS_POINTS], weight[3 * FER_GAUSS_POINTS];
    int count;
} panels;

static void lay_panels(double from, double to, double kernel_width, panels *p)
{
    const int count = to - from < panels_of_two * kernel_width ? 2 : 3;
    for (int i = 0; i < count; i++) {
        const int first = FER_GAUSS_POINTS * i;
        fer_gauss_points(from + (to - from) * i / count, from + (to - from) * (i + 1) / count,
                         p->point + first, p->weight + first);
    }
    p->count = FER_GAUSS_POINTS * count;
}

static void swap_rows(double *a, double *b)
{
    for (int i = 0; i < columns; i++) {
        const double moving = a[i];
        a[i] = b[i];
        b[i] = moving;
    }
}

static int greatest_below(const equations *e, int column)
{
    int greatest = column;
    for (int i = column + 1; i < e->count; i++) {
        if (fabs(e->row[i][column]) > fabs(e->row[greatest][column])) {
            greatest = i;
        }
    }
    return greatest;
}

/* Elimination; the solution stands in the right sides. */
static void solve(equations *e)
{
    const int n = e->count;
    for (int i = 0; i < n; i++) {
        swap_rows(e->row[i], e->row[greatest_below(e, i)]);
        for (int j = i + 1; j < n; j++) {
            const double factor = e->row[j][i] / e->row[i][i];
            for (int k = i + 1; k <= n; k++) {
                e->row[j][k] -= factor * e->row[i][k];
            }
        }
    }
    for (int i = n - 1; i >= 0; i--) {
        double right = e->row[i][n];
        for (int k = i + 1; k < n; k++) {
            right -= e->row[i][k] * e->row[k][n];
        }
        e->row[i][n] = right / e->row[i][i];
    }
}

double fer_widest_limit(double weight)
{
    return 0.5 * panels_of_three * sqrt(weight * (2.0 - weight));
}

/* Probability, by the weight of a point, of getting there; of there or to its mirror image where the two are alike. */
static double reaching(double point, double begin, double weight, double shift)
{
    const double there = fer_normal_density((point - begin) / weight - shift);
    return (shift == 0.0 ? there + fer_normal_density((point + begin) / weight) : there) / weight;
}

/* Without a shift the upper half of the points is enough. */
double fer_ewma_run_length(double weight, double limit, double shift)
{
    const double end = limit * sqrt(weight / (2.0 - weight));
    equations e;
    panels p;
    lay_panels(-end, end, weight, &p);
    const int first = shift == 0.0 ? p.count / 2 : 0;
    e.count = p.count - first;
    for (int i = 0; i < e.count; i++) {
        const double begin = (1.0 - weight) * p.point[first + i];
        for (int j = 0; j < e.count; j++) {
            e.row[i][j] = (i == j) - p.weight[first + j] * reaching(p.point[first + j], begin, weight, shift);
        }
        e.row[i][e.count] = 1.0;
    }
    solve(&e);
    double length = 1.0;
    for (int j = 0; j < e.count; j++) {
        length += e.row[j][e.count] * p.weight[first + j] * reaching(p.point[first + j], 0.0, weight, shift);
    }
    return length;
}

/* One side, begun at 0, which is the last unknown. */
static double one_sided_length(double allowance, double decision, double shift)
{
    const double off = allowance - shift;
    equations e;
    panels p;
    lay_panels(0.0, decision, 1.0, &p);
    e.count = p.count + 1;
    for (int i = 0; i < e.count; i++) {
        const double begin = i < p.count ? p.point[i] : 0.0;
        for (int j = 0; j < p.count; j++) {
            e.row[i][j] = (i == j) - p.weight[j] * fer_normal_density(p.point[j] + off - begin);
        }
        e.row[i][p.count] = (i == p.count) - fer_normal_cdf(off - begin);
        e.row[i][e.count] = 1.0;
    }
    solve(&e);
    return e.row[p.count][e.count];
}

/* A side that never signals has no share in the signals; its length is then lost in rounding. */
static double signals_per_number(double allowance, double decision, double shift)
{
    return fmax(0.0, 1.0 / one_sided_length(allowance, decision, shift));
}

double fer_cusum_run_length(double allowance, double decision, double shift)
{
    const double above = signals_per_number(allowance, decision, shift);
    return 1.0 / (above + (shift == 0.0 ? above : signals_per_number(allowance, decision, -shift)));
}

/* What has converged to an end where the function is not 0 has no root. */
double fer_secant_root(fer_secant_function *function, const void *context, double low, double high,
                       double start)
{
    double x = start, value = function(x, context), below = value <= 0.0 ? x : low,
           above = value <= 0.0 ? high : x;
    double next = 0.98 * x + 0.02 * (value <= 0.0 ? high : low);
    while (fabs(next - x) > 1e-10 * x) {
        const double last = x, last_value = value;
        x = next;
        value = function(x, context);
        if (value <= 0.0) {
            below = x;
        } else {
            above = x;
        }
        next = x - value * (x - last) / (value - last_value);
        if (!(next >= below && next <= above)) {
            next = 0.5 * (below + above);
        }
    }
    return fabs(value) < 1e-6 ? next : NAN;
}
