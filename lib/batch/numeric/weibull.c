/* SPDX-License-Identifier: MIT */
/* Exact conditional limits of a Weibull distribution.
 * Method: trapezoidal rule over the logarithm of the shape, from the mode as far as it counts; guarded Newton roots.
 * Formulas: Lawless, Technometrics 20 (1978) 355-364 (from memory); include/ferrule/sampling.h, fer_judge_bursts(). */
#include "batch/numeric/weibull.h"

#include <float.h>
#include <math.h>

#include "base/numeric/root.h"
#include "batch/numeric/gamma.h"

/* ---- density of the logarithm of the shape --------------------------------------------------------------- */

/* Sums of exp(z y) times 1, y, y², the largest exponent taken out. */
typedef struct {
    double largest, of_one, of_y, of_squares;
} sums;

static sums sum_powers(const fer_weibull_sample *sample, double z)
{
    sums s = {-INFINITY, 0.0, 0.0, 0.0};
    for (size_t i = 0; i < sample->count; i++) {
        s.largest = fmax(s.largest, z * sample->y[i]);
    }
    for (size_t i = 0; i < sample->count; i++) {
        const double y = sample->y[i], power = exp(z * y - s.largest);
        s.of_one += power;
        s.of_y += power * y;
        s.of_squares += power * y * y;
    }
    return s;
}

static double log_density(const fer_weibull_sample *sample, double x, double *log_sum)
{
    const double z = exp(x), number = sample->weight * sample->reached;
    const sums s = sum_powers(sample, z);
    *log_sum = s.largest + log(s.of_one);
    return (number - 1.0) * x + sample->weight * z * sample->sum_reached - number * *log_sum;
}

/* How fast the density falls, which rises. */
static double falls(double x, const void *context, double *slope)
{
    const fer_weibull_sample *sample = (const fer_weibull_sample *)context;
    const double z = exp(x), number = sample->weight * sample->reached;
    const sums s = sum_powers(sample, z);
    const double mean = s.of_y / s.of_one;
    const double rate = number * mean - sample->weight * sample->sum_reached;
    *slope = z * rate + z * z * number * (s.of_squares / s.of_one - mean * mean);
    return z * rate - (number - 1.0);
}

/* The start is the shape of so much scatter. */
static double find_mode(const fer_weibull_sample *sample)
{
    double squares = 0.0, slope = 0.0;
    for (size_t i = 0; i < sample->count; i++) {
        squares += sample->y[i] * sample->y[i];
    }
    const double start = log(1.28) - 0.5 * log(squares / (double)sample->count);
    double low = start - 1.0, high = start + 1.0;
    while (falls(low, sample, &slope) > 0.0) {
        low -= 1.0;
    }
    while (falls(high, sample, &slope) <= 0.0) {
        high += 1.0;
    }
    return fer_rising_root(falls, sample, low, high, start, 1e-6);
}

/* Adds nodes from x on by steps, until the density is below 1e-12 of its top. */
static void add_nodes(const fer_weibull_sample *sample, fer_weibull_nodes *nodes, double x, double step,
                      double top)
{
    for (;;) {
        double log_sum = 0.0;
        const double log_weight = log_density(sample, x, &log_sum) - top;
        const int counts = log_weight >= -28.0, has_room = nodes->count < FER_WEIBULL_NODES;
        if (!(counts & has_room)) {
            break;
        }
        nodes->shape[nodes->count] = exp(x);
        nodes->weight[nodes->count] = exp(log_weight);
        nodes->log_sum[nodes->count++] = log_sum + log(sample->weight);
        x += step;
    }
}

void fer_find_weibull_nodes(const fer_weibull_sample *sample, fer_weibull_nodes *nodes)
{
    double log_sum = 0.0, total = 0.0;
    const double mode = find_mode(sample), top = log_density(sample, mode, &log_sum);
    nodes->number = sample->weight * sample->reached;
    nodes->count = 0;
    const double step = 0.09 / sqrt(nodes->number);
    add_nodes(sample, nodes, mode, step, top);
    add_nodes(sample, nodes, mode - step, -step, top);
    for (int i = 0; i < nodes->count; i++) {
        total += nodes->weight[i];
    }
    for (int i = 0; i < nodes->count; i++) {
        nodes->weight[i] /= total;
    }
}

/* ---- confidence ------------------------------------------------------------------------------------------ */

/* P(a, x), and how fast it rises with the logarithm of x. Of whole numbers, which are all but copies, it is a short sum. */
static double gamma_below(double a, double x, double *rise)
{
    if (a > 30.0 || a != floor(a)) {
        *rise = a * fer_gamma_front(a, x);
        return fer_gamma_below(a, x);
    }
    double term = exp(-x), sum = 0.0;
    for (int k = 1; k <= a; k++) {
        sum += term;
        term *= x / k;
    }
    *rise = a * term;
    return 1.0 - sum;
}

double fer_weibull_confidence(const fer_weibull_nodes *nodes, double w, double t, double *by_w, double *by_t)
{
    const double a = nodes->number;
    double sum = 0.0;
    *by_w = *by_t = 0.0;
    for (int i = 0; i < nodes->count; i++) {
        const double z = nodes->shape[i], x = exp(w + nodes->log_sum[i] - z * t);
        if (x > a + 40.0 * sqrt(a) + 200.0) { /* nothing is left above it */
            sum += nodes->weight[i];
        } else if (x > 0.0) {
            double rise = 0.0;
            sum += nodes->weight[i] * gamma_below(a, x, &rise);
            *by_w += nodes->weight[i] * rise;
            *by_t -= nodes->weight[i] * rise * z;
        }
    }
    return sum;
}

typedef struct {
    const fer_weibull_nodes *nodes;
    double known, confidence;
} confidence_point;

static double confidence_missing(double t, const void *context, double *slope)
{
    const confidence_point *point = (const confidence_point *)context;
    double by_w = 0.0;
    const double confidence = fer_weibull_confidence(point->nodes, point->known, t, &by_w, slope);
    *slope = -*slope;
    return point->confidence - confidence;
}

static double confidence_excess(double w, const void *context, double *slope)
{
    const confidence_point *point = (const confidence_point *)context;
    double by_t = 0.0;
    return fer_weibull_confidence(point->nodes, w, point->known, slope, &by_t) - point->confidence;
}

/* The root of a rising function, near a start whose distance from it has a known scale. */
static double root_near(fer_root_function *function, const confidence_point *point, double start,
                        double scale)
{
    double low = start - scale, high = start + scale, slope = 0.0;
    /* GCOVR_EXCL_BR_START: no bursts are known for which the root is farther above its start than the scale */
    while (function(low, point, &slope) > 0.0 ||
           function(high, point, &slope) <= 0.0) { /* GCOVR_EXCL_BR_STOP */
        low -= scale;
        high += scale;
        scale *= 2.0;
    }
    return fer_rising_root(function, point, low, high, start, 4.0 * DBL_EPSILON);
}

/* Where the likeliest shape alone, the first node, gives the median of what is known; twice its standard deviation is the scale. */
double fer_weibull_bound(const fer_weibull_nodes *nodes, double w, double confidence)
{
    const confidence_point point = {nodes, w, confidence};
    const double z = nodes->shape[0], root = sqrt(nodes->number);
    return root_near(confidence_missing, &point, (w + nodes->log_sum[0] - log(nodes->number)) / z,
                     (4.0 + 2.0 * fabs(w)) / (z * root));
}

double fer_weibull_share(const fer_weibull_nodes *nodes, double t, double confidence)
{
    const confidence_point point = {nodes, t, confidence};
    const double w = nodes->shape[0] * t - nodes->log_sum[0] + log(nodes->number);
    return root_near(confidence_excess, &point, w, (4.0 + 2.0 * fabs(w)) / sqrt(nodes->number));
}
