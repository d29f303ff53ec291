/* SPDX-License-Identifier: MIT */
/* Binomial and hypergeometric distribution.
 * Method: incomplete beta function; Loader's binomial probabilities, summed from the one at the end on, where they fall.
 * Formulas: DLMF 8.17; Loader, Fast and accurate computation of binomial probabilities, 2000 (from memory). */
#include "batch/numeric/counts.h"

#include <float.h>
#include <math.h>

#include "base/numeric/special.h"
#include "base/numeric/strict.h"
#include "batch/numeric/gamma.h"

double fer_binomial_cdf(double c, double n, double p)
{
    if (p == 0.0) {
        return 1.0;
    }
    return p < 1.0 ? fer_incomplete_beta(n - c, c + 1.0, 1.0 - p) : 0.0;
}

/* P(X = x) of m pieces, x from 0 to m, 0 < p < 1, q = 1 - p. */
static double binomial_probability(double x, double m, double p, double q)
{
    if (x == 0.0) {
        return exp(m * log(q));
    }
    return fer_beta_step(x, m - x + 1.0, p, q) / q;
}

typedef struct {
    double n, bad, good;
} urn;

/* A ratio of binomials, whose share p drops out: with n/lot none of them is extreme. Neither all nor none are drawn. */
static double probability(const urn *u, double x)
{
    const double lot = u->bad + u->good, p = u->n / lot, q = (lot - u->n) / lot;
    return binomial_probability(x, u->bad, p, q) * binomial_probability(u->n - x, u->good, p, q) /
           binomial_probability(u->n, lot, p, q);
}

/* P(X <= x), where probabilities fall from x downwards. */
static double sum_downwards(const urn *u, double x, double least)
{
    double term = probability(u, x), sum = term;
    while (x > least && term > 0.25 * DBL_EPSILON * sum) {
        term *= x * (u->good - u->n + x) / ((u->bad - x + 1.0) * (u->n - x + 1.0));
        x -= 1.0;
        sum += term;
    }
    return sum;
}

double fer_hypergeometric_cdf(double c, double n, double bad, double lot)
{
    const urn drawn = {n, bad, lot - bad}, other = {n, lot - bad, bad};
    const double least = fmax(0.0, n + bad - lot), most = fmin(n, bad);
    if (c >= most || c < least) {
        return c >= most ? 1.0 : 0.0;
    }
    if (c * (lot + 2.0) <= (n + 1.0) * (bad + 1.0) - lot - 2.0) { /* below the likeliest number */
        return sum_downwards(&drawn, c, least);
    }
    return 1.0 - sum_downwards(&other, n - c - 1.0, n - most); /* the good ones, counted instead */
}
