/* SPDX-License-Identifier: MIT */
/* Incomplete gamma function and chi-square distribution.
 * Method: front factor by tgamma or by Loader's deviance and Stirling's series; power series below a + 1, Lentz's fraction above.
 * Formulas: DLMF 8.11.4, 8.9.2; Loader, Fast and accurate computation of binomial probabilities, 2000 (from memory). */
#include "batch/numeric/gamma.h"

#include <float.h>
#include <math.h>

#include "base/numeric/pi.h"
#include "base/numeric/root.h"
#include "base/numeric/special.h"

/* a ln(a/x) + x - a, which is not negative, without the loss near a = x. */
static double deviance(double a, double x)
{
    const double away = (a - x) / (a + x), square = away * away;
    if (!(fabs(away) < 0.1)) {
        return a * log(a / x) + x - a;
    }
    double sum = (a - x) * away, power = 2.0 * a * away;
    for (int i = 3; i < 31; i += 2) { /* 0.1^29 is below the last place */
        power *= square;
        sum += power / i;
    }
    return sum;
}

/* ln Gamma(a + 1) minus Stirling's formula for it. */
static double stirling_rest(double a)
{
    if (a >= 10.0) {
        return fer_stirling_rest(a);
    }
    return log(tgamma(a + 1.0) / sqrt(2.0 * pi * a)) + a - a * log(a);
}

double fer_gamma_front(double a, double x)
{
    if (a < 10.0) {
        return exp(a * log(x) - x) / tgamma(a + 1.0);
    }
    return exp(-deviance(a, x) - fer_stirling_rest(a)) / sqrt(2.0 * pi * a);
}

double fer_beta_step(double a, double b, double x, double y)
{
    const double n = a + b;
    return exp(stirling_rest(n) - stirling_rest(a) - stirling_rest(b) - deviance(a, n * x) -
               deviance(b, n * y)) *
           sqrt(b / (2.0 * pi * a * n));
}

/* P(a, x)/front. Terms fall from the first one on. */
static double series(double a, double x)
{
    double term = 1.0, sum = 1.0, n = a;
    while (term > DBL_EPSILON * sum) {
        n += 1.0;
        term *= x / n;
        sum += term;
    }
    return sum;
}

/* Q(a, x)/(a front) for x >= a + 1: no term of the fraction is below its number there, so none is 0. */
static double fraction(double a, double x)
{
    double term = x + 1.0 - a, value = term, c = term, d = 0.0, change = 0.0, i = 0.0;
    while (fabs(change - 1.0) > DBL_EPSILON) {
        i += 1.0;
        const double over = i * (a - i);
        term += 2.0;
        d = 1.0 / (term + over * d);
        c = term + over / c;
        change = c * d;
        value *= change;
    }
    return 1.0 / value;
}

static double below_by(double a, double x, double front)
{
    return x < a + 1.0 ? front * series(a, x) : 1.0 - a * front * fraction(a, x);
}

static double above_by(double a, double x, double front)
{
    return x < a + 1.0 ? 1.0 - front * series(a, x) : a * front * fraction(a, x);
}

double fer_gamma_below(double a, double x)
{
    return below_by(a, x, fer_gamma_front(a, x));
}

double fer_gamma_above(double a, double x)
{
    return above_by(a, x, fer_gamma_front(a, x));
}

/* Beyond it the tail of so few degrees of freedom is below 1e-170, and its sum might be too large. */
static const double last_place = 700.0;
enum { degrees_maximum = 200 }; /* of a sum that is shorter than series and fraction are */

fer_tail_form fer_tail_form_of(double v)
{
    const fer_tail_form form = {0.5 * v, v <= degrees_maximum && v == floor(v) ? (int)v : 0};
    return form;
}

/* e^-x times the sum of x^k/k!, k from 0 to below a. */
static double even_tail(int degrees, double x, double *fall)
{
    const double at = exp(-x);
    double term = 1.0, sum = 1.0;
    for (int k = 1; k < degrees / 2; k++) {
        term *= x / k;
        sum += term;
    }
    *fall = at * term * x;
    return at * sum;
}

/* erfc(sqrt x) and e^-x times the sum of x^(k - 1/2)/Gamma(k + 1/2), k from 1 to below a. */
static double odd_tail(int degrees, double x, double *fall)
{
    const double root = sqrt(x), at = exp(-x), first = 2.0 * root / sqrt(pi);
    double term = first, sum = 0.0;
    for (int k = 1; k < (degrees + 1) / 2; k++) {
        sum += term;
        term *= x / (k + 0.5);
    }
    /* the next term, which is what the integrand has there */
    *fall = at * term * (0.5 * degrees);
    return erfc(root) + at * sum;
}

double fer_tail_above(const fer_tail_form *form, double x, double *fall)
{
    if (form->degrees == 0) {
        const double front = fer_gamma_front(form->a, x);
        *fall = form->a * front;
        return above_by(form->a, x, front);
    }
    if (x > last_place) {
        *fall = 0.0;
        return 0.0;
    }
    return form->degrees % 2 == 0 ? even_tail(form->degrees, x, fall) : odd_tail(form->degrees, x, fall);
}

double fer_chi_square_above(double x, double v)
{
    return x > 0.0 ? fer_gamma_above(0.5 * v, 0.5 * x) : 1.0;
}

typedef struct {
    double a, tail, unit; /* tail: wanted, the smaller one; unit: where the logarithm is 0 */
    int upper;
} gamma_point;

/* Logarithm of the tail over the tail that is wanted, so that it rises with the logarithm of x. */
static double tail_excess(double log_x, const void *context, double *slope)
{
    const gamma_point *point = (const gamma_point *)context;
    const double x = point->unit * exp(log_x), front = fer_gamma_front(point->a, x);
    const double tail = point->upper ? above_by(point->a, x, front) : below_by(point->a, x, front);
    *slope = point->a * front / tail;
    return point->upper ? log(point->tail / tail) : log(tail / point->tail);
}

double fer_chi_square_quantile(double p, double v)
{
    gamma_point point = {0.5 * v, p < 0.5 ? p : 1.0 - p, 0.0, p >= 0.5};
    const double small = 2.0 / (9.0 * v),
                 cube = fmax(1.0 - small + fer_normal_quantile(p) * sqrt(small), 0.01);
    /* the start of Wilson and Hilferty is at 1 then, where a tolerance means what it does for x */
    point.unit = point.a * cube * cube * cube * exp(-1.0);
    return 2.0 * point.unit * exp(fer_rising_root(tail_excess, &point, -149.0, 11.0, 1.0, 1e-12));
}

/* Ends beyond which 1e-12 of the distribution lies. */
fer_chi_square_grid fer_grid_of_chi_square(double v, double finer)
{
    const double low = log(fer_chi_square_quantile(1e-12, v)),
                 high = log(fer_chi_square_quantile(1.0 - 1e-12, v));
    const double step = (v > 6.25 ? 1.0 / sqrt(v) : 0.4) / finer;
    const fer_chi_square_grid grid = {low, step, 0.5 * v, (int)((high - low) / step) + 2};
    return grid;
}

void fer_refine_grid(fer_chi_square_grid *grid, double longest)
{
    if (grid->step > longest) {
        const int times = (int)ceil(grid->step / longest);
        grid->step /= times;
        grid->count *= times;
    }
}

double fer_grid_point(const fer_chi_square_grid *grid, int i, double *weight)
{
    const double x = exp(grid->start + grid->step * i);
    *weight = grid->step * grid->half_degrees * fer_gamma_front(grid->half_degrees, 0.5 * x);
    return x;
}
