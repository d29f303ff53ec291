/* SPDX-License-Identifier: MIT */
/* Beta and F distribution.
 * Method: incomplete beta function, a guarded Newton root.
 * Formulas: DLMF 8.17; batch/numeric/beta.h. */
#include "batch/numeric/beta.h"

#include <math.h>

#include "base/numeric/root.h"
#include "base/numeric/special.h"

typedef struct {
    double p, a, b, log_beta;
} beta_point;

static double share_excess(double x, const void *context, double *slope)
{
    const beta_point *point = (const beta_point *)context;
    const double front = exp(point->a * log(x) + point->b * log1p(-x) - point->log_beta);
    *slope = front / (x * (1.0 - x));
    return fer_incomplete_beta_by(point->a, point->b, x, 1.0 - x, front) - point->p;
}

double fer_beta_quantile(double p, double a, double b)
{
    const beta_point point = {p, a, b, fer_log_beta(a, b)};
    return fer_rising_root(share_excess, &point, 0.0, 1.0, a / (a + b), 1e-13);
}

double fer_f_above(double f, double v, double w)
{
    return fer_incomplete_beta(0.5 * w, 0.5 * v, w / (w + v * f));
}

/* The smaller of x and 1 - x is found, so that neither end loses digits. */
double fer_f_quantile(double p, double v, double w)
{
    if (p < 0.5) {
        const double x = fer_beta_quantile(p, 0.5 * v, 0.5 * w);
        return w * x / (v * (1.0 - x));
    }
    const double y = fer_beta_quantile(1.0 - p, 0.5 * w, 0.5 * v);
    return w * (1.0 - y) / (v * y);
}
