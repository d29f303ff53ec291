/* SPDX-License-Identifier: MIT */
/* Zones of acceptance and rejection about limits.
 * Method: a guard band on each side, or bisection of the probability where both tails count; regula falsi for degrees.
 * Formulas: ISO 14253-1:2017; JCGM 106:2012, 7.2 to 7.4, 8.3; include/ferrule/conformity.h, inspection.h. */
#include "base/numeric/zone.h"

#include "base/numeric/root.h"
#include "base/numeric/special.h"
#include "base/numeric/strict.h"

#include <math.h>

static int is_a_number(double x)
{
    return x - x == 0.0;
}

void fer_set_guard(fer_judging *judging, double factor, int without, double degrees)
{
    judging->factor = judging->normal = factor;
    judging->without = without;
    judging->degrees = degrees;
    if (degrees > 0.0) {
        judging->factor = -fer_student_quantile(fer_normal_cdf(-factor), degrees); /* the tail is never 0 */
    }
}

double fer_judged_below(const fer_judging *judging, double x, double value)
{
    if (!is_a_number(x)) {
        return 0.0;
    }
    if (judging->u == 0.0) {
        return value <= x;
    }
    const double deviate = (x - value) / judging->u;
    return judging->degrees > 0.0 ? fer_student_cdf(deviate, judging->degrees) : fer_normal_cdf(deviate);
}

/* Not by 1 - P: that would lose the small tail. */
double fer_judged_above(const fer_judging *judging, double x, double value)
{
    if (!is_a_number(x)) {
        return 0.0;
    }
    if (judging->u == 0.0) {
        return value >= x;
    }
    const double deviate = (value - x) / judging->u;
    return judging->degrees > 0.0 ? fer_student_cdf(deviate, judging->degrees) : fer_normal_cdf(deviate);
}

/* The distribution of the measurement, found once for all places, and what is looked for. */
typedef struct {
    const fer_judging *judging;
    fer_student student; /* where it has degrees of freedom */
    double probability;
} zone_edge;

static double below_in(const zone_edge *edge, double deviate)
{
    return edge->judging->degrees > 0.0 ? fer_student_below(deviate, &edge->student)
                                        : fer_normal_cdf(deviate);
}

static double density_in(const zone_edge *edge, double deviate)
{
    return edge->judging->degrees > 0.0 ? fer_student_density(deviate, &edge->student)
                                        : fer_normal_density(deviate);
}

/* What the conformity probability of a value that lies `away` from the middle of both limits lacks to the one that is looked
 * for: rises with the distance. */
static double conforming_lacks(double away, const void *context, double *slope)
{
    const zone_edge *edge = (const zone_edge *)context;
    const double u = edge->judging->u, half = 0.5 * (edge->judging->upper - edge->judging->lower);
    const double near = (half - away) / u, far = (-half - away) / u;
    *slope = (density_in(edge, near) - density_in(edge, far)) / u;
    return edge->probability - (below_in(edge, near) - below_in(edge, far));
}

/* Distance from the middle at which the conformity probability has fallen to p, which is not above that of the
 * middle. As far away as both limits are from each other it is below p: with h half of that distance in u, the middle
 * has 2 F(h) - 1, the far place F(3h) - F(h), which is at most 1 - F(h): half of what the middle lacks to 1. It begins where
 * the nearer tail alone would have it. */
static double distance_of(zone_edge *edge, double p, double guard)
{
    const double width = edge->judging->upper - edge->judging->lower;
    edge->probability = p;
    return fer_rising_root(conforming_lacks, edge, 0.0, width, 0.5 * width - guard, DBL_EPSILON);
}

static void bands_by_probability(const fer_judging *q, zone_edge *edge, fer_bands *b)
{
    const double middle = q->lower + 0.5 * (q->upper - q->lower), p = edge->probability;
    const double guard = q->factor * q->u;
    const double accept = distance_of(edge, p, guard), reject = distance_of(edge, 1.0 - p, -guard);
    b->accept_lower = middle - accept;
    b->accept_upper = middle + accept;
    b->reject_lower = middle - reject;
    b->reject_upper = middle + reject;
    b->by_probability = 1;
    b->empty = 0;
}

/* A measurement so poor never rejects for that alone: a value has to lie a guard band outside. */
static void bands_without_acceptance(const fer_judging *q, fer_bands *b)
{
    const double guard = q->factor * q->u;
    b->accept_lower = q->upper;
    b->accept_upper = q->lower;
    b->reject_lower = q->lower - guard;
    b->reject_upper = q->upper + guard;
    b->by_probability = b->empty = 1;
}

/* Where the tolerance is too narrow for a guard band on each side: the guard band stands for a probability. */
static void narrow_bands(const fer_judging *q, fer_bands *b)
{
    double slope;
    zone_edge edge = {q, {0.0, 0.0}, fer_normal_cdf(q->normal)};
    if (q->degrees > 0.0) {
        edge.student = fer_student_of(q->degrees);
    }
    if (conforming_lacks(0.0, &edge, &slope) <= 0.0) {
        bands_by_probability(q, &edge, b);
    } else {
        bands_without_acceptance(q, b);
    }
}

void fer_find_bands(const fer_judging *q, fer_bands *b)
{
    const double guard = q->without ? 0.0 : q->factor * q->u;
    const double tail = q->degrees > 0.0 ? INFINITY : 1.7; /* Student's far tail always counts */
    if (!(guard > 0.0) || q->upper - q->lower >= (2.0 * q->factor + tail) * q->u) {
        b->accept_lower = q->lower + guard;
        b->accept_upper = q->upper - guard;
        b->reject_lower = q->lower - guard;
        b->reject_upper = q->upper + guard;
        b->by_probability = b->empty = 0;
    } else {
        narrow_bands(q, b);
    }
}

double fer_combined_degrees(double factor, double u_known, double u_estimated, double degrees)
{
    const double tail = fer_normal_cdf(-factor);
    if (!(u_estimated > 0.0)) {
        return 0.0;
    }
    if (!(u_known > 0.0)) {
        return degrees;
    }
    const double wanted = hypot(factor * u_known, fer_student_quantile(tail, degrees) * u_estimated) /
                          hypot(u_known, u_estimated);
    /* by the inverse, in which the factor is all but straight: regula falsi with Illinois' halving */
    double many = 0.0, above = fer_normal_cdf(-wanted) - tail;
    double few = 1.0 / degrees, below = fmax(0.0, fer_student_cdf(-wanted, degrees) - tail);
    if (!(above < 0.0)) {
        return 0.0; /* what was estimated is too small to show in doubles */
    }
    for (int i = 0, last = 0; i < 60 && few - many > 1e-12 * few; i++) {
        const double next = few - below * (few - many) / (below - above);
        const double there = fer_student_cdf(-wanted, 1.0 / next) - tail;
        if (there > 0.0) {
            few = next;
            below = there;
            above *= last == 1 ? 0.5 : 1.0; /* the end that stays twice counts half */
            last = 1;
        } else {
            many = next;
            above = there;
            below *= last == -1 ? 0.5 : 1.0;
            last = -1;
        }
    }
    return 1.0 / few;
}

double fer_reading_uncertainty(double gauge_uncertainty, double step)
{
    return hypot(gauge_uncertainty, step / sqrt(12.0));
}

/* Whole steps as a double: exact where a whole number of steps makes a millimetre. */
static double steps_of(double count, double step)
{
    const double inverse = floor(1.0 / step + 0.5);
    return fabs(inverse * step - 1.0) < 1e-9 ? count / inverse : count * step;
}

/* A millionth of a step decides nothing, so that an end that stands on a step in decimals stays there. What is no number or
 * infinite stays so. */
double fer_shown_lower(double lower, double correction, double step)
{
    const double shown = lower - correction;
    return step > 0.0 ? steps_of(ceil(shown / step - 1e-6), step) : shown;
}

double fer_shown_upper(double upper, double correction, double step)
{
    const double shown = upper - correction;
    return step > 0.0 ? steps_of(floor(shown / step + 1e-6), step) : shown;
}
