/* SPDX-License-Identifier: MIT */
/* Tolerance factors of the normal distribution.
 * Method: noncentral t; mean of a chi-square tail by the trapezoidal rule, half of its nodes kept, guarded Newton roots.
 * Formulas: ISO 16269-6 (from memory); include/ferrule/capability.h, fer_find_tolerance_factor(). */
#include "batch/numeric/tolerance.h"

#include <math.h>

#include "base/numeric/root.h"
#include "base/numeric/special.h"
#include "batch/numeric/gamma.h"
#include "batch/numeric/noncentral.h"

double fer_one_sided_factor(double pieces, double degrees, double content, double confidence)
{
    const double root = sqrt(pieces);
    return fer_noncentral_quantile(confidence, degrees, root * fer_normal_quantile(content)) / root;
}

typedef struct {
    double away, content;
} reach_point;

static double content_excess(double r, const void *context, double *slope)
{
    const reach_point *point = (const reach_point *)context;
    *slope = fer_normal_density(point->away + r) + fer_normal_density(point->away - r);
    return fer_normal_cdf(point->away + r) - fer_normal_cdf(point->away - r) - point->content;
}

/* How far an interval must reach either way of a mean that is off by so many standard deviations, to hold the content. */
static double reach(double away, double content)
{
    const reach_point point = {away, content};
    const double centred = fer_normal_quantile(0.5 + 0.5 * content);
    return fer_rising_root(content_excess, &point, 0.0, away + centred,
                           fmax(centred, away + fer_normal_quantile(content)), 1e-13);
}

enum { nodes_maximum = 143 }; /* of the smallest step, with 100 degrees a piece */

typedef struct {
    double squares[nodes_maximum], weights[nodes_maximum]; /* of the reach; the sum of the weights is 1 */
    double degrees, confidence;
    int count;
} nodes;

/* Few pieces make the reach steep, many degrees of freedom the tail. */
static void fill_nodes(nodes *n, double pieces, double content)
{
    const double step = fmin(0.3, fmin(0.12 * sqrt(pieces), 0.6 * sqrt(pieces / n->degrees)));
    n->count = (int)(8.5 / step) + 1;
    for (int i = 0; i < n->count; i++) {
        const double r = reach(step * i / sqrt(pieces), content);
        n->squares[i] = r * r;
        n->weights[i] = (i == 0 ? step : 2.0 * step) * fer_normal_density(step * i);
    }
}

static double confidence_excess(double factor, const void *context, double *slope)
{
    const nodes *n = (const nodes *)context;
    const fer_tail_form form = fer_tail_form_of(n->degrees);
    const double a = 0.5 * n->degrees;
    double sum = 0.0, slopes = 0.0;
    for (int i = 0; i < n->count; i++) {
        double fall = 0.0;
        sum += n->weights[i] * fer_tail_above(&form, a * n->squares[i] / (factor * factor), &fall);
        slopes += n->weights[i] * fall;
    }
    *slope = 2.0 * slopes / factor;
    return sum - n->confidence;
}

/* The start is Howe's approximation; the true factor is never far from it. */
double fer_two_sided_factor(double pieces, double degrees, double content, double confidence)
{
    nodes n;
    n.degrees = degrees;
    n.confidence = confidence;
    fill_nodes(&n, pieces, content);
    const double known = fer_normal_quantile(0.5 + 0.5 * content) * sqrt(1.0 + 1.0 / pieces);
    const double start = known * sqrt(degrees / fer_chi_square_quantile(1.0 - confidence, degrees));
    return fer_rising_root(confidence_excess, &n, 0.25 * start, 4.0 * start, start, 1e-13);
}
