/* SPDX-License-Identifier: MIT */
/* Run lengths of charts, and the chart that has a wanted one.
 * Method: integral equations, a Markov chain; secant method on the logarithm; halving in steps of a hundredth.
 * Formulas: include/ferrule/chart.h; docs/chart.md. */
#include <ferrule/chart.h>

#include "base/numeric/special.h"
#include "base/value_private.h"
#include "batch/chart_private.h"
#include "batch/numeric/rule_chain.h"
#include "batch/numeric/run_length.h"

static const double run_length_maximum = 1e5, run_length_minimum = 10.0;

/* ---- which one ------------------------------------------------------------------------------------------- */

typedef enum { of_ewma, of_cusum, of_rules } memory;

static int has_rules(const fer_charting *c)
{
    return c->beyond > 0.0 || c->two_of_three || c->four_of_five || c->same_side > 0;
}

/* The charting has been checked. */
static fer_status take_memory(const fer_charting *c, memory *m)
{
    const int ewma = c->weight > 0.0, cusum = c->allowance > 0.0, rules = has_rules(c);
    FER_REQUIRE(c->rising == 0 && c->alternating == 0 && c->inside == 0 && c->outside == 0,
                FER_CHART_RULE_WITHOUT_RUN_LENGTH);
    FER_REQUIRE(ewma + cusum + rules == 1, FER_CHART_METHOD_NOT_ONE);
    *m = ewma ? of_ewma : cusum ? of_cusum : of_rules;
    return FER_OK;
}

/* NaN where a set of rules has too many histories. */
static double length_of(const fer_charting *c, memory m, double shift)
{
    const fer_run_rules rules = {c->beyond > 0.0 ? c->beyond : INFINITY, c->two_of_three != 0,
                                 c->four_of_five != 0, c->same_side};
    switch (m) {
    case of_ewma:
        return fer_ewma_run_length(c->weight, fer_ewma_limit_of(c), shift);
    case of_cusum:
        return fer_cusum_run_length(c->allowance, fer_decision_of(c), shift);
    default:
        return fer_rules_run_length(&rules, shift);
    }
}

static int is_resolved(const fer_charting *c, memory m)
{
    return m != of_ewma || fer_ewma_limit_of(c) <= fer_widest_limit(c->weight);
}

/* ---- run length ------------------------------------------------------------------------------------------ */

static fer_status find_length(const fer_charting *c, double shift, fer_run_length *length)
{
    memory m;
    FER_REQUIRE(c, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_charting(c));
    FER_TRY(take_memory(c, &m));
    FER_REQUIRE(shift >= 0.0 && shift <= 6.0, FER_CHART_SHIFT_OUT_OF_RANGE);
    FER_REQUIRE(is_resolved(c, m), FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    const double unshifted = length_of(c, m, 0.0);
    FER_REQUIRE(m != of_rules || unshifted == unshifted, FER_CHART_STATES_TOO_MANY);
    FER_REQUIRE(unshifted <= run_length_maximum, FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    length->mean_unshifted = unshifted;
    length->mean = shift == 0.0 ? unshifted : length_of(c, m, shift);
    length->false_alarms.fraction = 1.0 / unshifted;
    return FER_OK;
}

fer_status fer_find_run_length(const fer_charting *charting, double shift, fer_run_length *length)
{
    FER_REQUIRE(length, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*length);
    return find_length(charting, shift, length);
}

/* ---- limit for a run length ------------------------------------------------------------------------------ */

typedef struct {
    fer_charting charting;
    double log_wanted;
    memory m;
} wish;

static void set_limit(fer_charting *c, memory m, double x)
{
    double *const limit = m == of_ewma ? &c->limit : m == of_cusum ? &c->decision : &c->beyond;
    *limit = x;
}

static double length_excess(double x, const void *context)
{
    wish w = *(const wish *)context;
    set_limit(&w.charting, w.m, x);
    return log(length_of(&w.charting, w.m, 0.0)) - w.log_wanted;
}

/* Good to a few hundredths. Sums: what Brownian motion takes with the limit 1.166 further away; weighted mean and rules: as if each piece
 * decided alone, with fewer such pieces where the weight is small. */
static double likely_limit(const fer_charting *c, memory m, double wanted)
{
    const double k = c->allowance;
    if (m == of_cusum) {
        const double first = log1p(4.0 * k * k * wanted) / (2.0 * k);
        return log1p(4.0 * k * k * wanted + 2.0 * k * first) / (2.0 * k) - 1.166;
    }
    return -fer_normal_quantile(0.5 * (m == of_ewma ? 1.0 + 0.15 / c->weight : 1.0) / wanted);
}

static double between(double low, double x, double high)
{
    return fmin(fmax(x, low), high);
}

/* NaN where there is none. */
static double limit_for(const fer_charting *c, memory m, double wanted)
{
    const wish w = {*c, log(wanted), m};
    const double low = m == of_rules ? 1.0 : 0.5;
    const double high = m == of_cusum ? 20.0 : m == of_ewma ? fmin(6.0, fer_widest_limit(c->weight)) : 6.0;
    return fer_secant_root(length_excess, &w, low, high,
                           between(1.02 * low, likely_limit(c, m, wanted), 0.98 * high));
}

static fer_status take_wanted_length(double wanted)
{
    FER_REQUIRE(wanted >= run_length_minimum && wanted <= run_length_maximum,
                FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status find_limit(double wanted, const fer_charting *given, fer_charting *complete)
{
    fer_charting c;
    memory m;
    FER_REQUIRE(given, FER_ARGUMENT_MISSING);
    FER_TRY(take_wanted_length(wanted));
    c = *given;
    c.limit = c.decision = 0.0;
    FER_TRY(fer_check_charting(&c));
    FER_TRY(take_memory(&c, &m));
    FER_REQUIRE(m != of_rules || c.beyond > 0.0, FER_CHART_BEYOND_OUT_OF_RANGE);
    FER_REQUIRE(m != of_rules || length_of(&c, m, 0.0) > 0.0, FER_CHART_STATES_TOO_MANY);
    const double limit = limit_for(&c, m, wanted);
    FER_REQUIRE(limit > 0.0, FER_CHART_RUN_LENGTH_NOT_REACHABLE);
    set_limit(&c, m, limit);
    *complete = c;
    return FER_OK;
}

static void leave_out_charting(fer_charting *c)
{
    FER_EMPTY(*c);
    FER_LEAVE_OUT_FROM(fer_charting, *c, weight, beyond);
    FER_LEAVE_OUT_FROM(fer_charting, *c, deviation, resolution);
}

fer_status fer_find_charting_limit(double run_length, const fer_charting *charting, fer_charting *complete)
{
    FER_REQUIRE(complete, FER_ARGUMENT_MISSING);
    const fer_status status = find_limit(run_length, charting, complete);
    if (status != FER_OK) {
        leave_out_charting(complete);
    }
    return status;
}

/* ---- choosing -------------------------------------------------------------------------------------------- */

/* With a weight or an allowance of so many hundredths; mean run length after the shift, infinite where no limit does. */
static double length_with(int hundredths, memory m, double wanted, double shift, fer_charting *c)
{
    FER_EMPTY(*c);
    if (m == of_ewma) {
        c->weight = hundredths / 100.0;
    } else {
        c->allowance = hundredths / 100.0;
    }
    const double limit = limit_for(c, m, wanted);
    set_limit(c, m, limit);
    return limit > 0.0 ? length_of(c, m, shift) : INFINITY;
}

/* The length falls to its minimum and rises behind it; where none can be reached, the hundredths are too few. */
static fer_charting best_charting(memory m, double wanted, double shift)
{
    fer_charting c;
    int low = m == of_ewma ? 5 : 10, high = m == of_ewma ? 100 : 300;
    while (low < high) {
        const int middle = low + (high - low) / 2;
        const double here = length_with(middle, m, wanted, shift, &c),
                     beside = length_with(middle + 1, m, wanted, shift, &c);
        if (here < beside) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    (void)length_with(low, m, wanted, shift, &c);
    return c;
}

static fer_status choose(double wanted, double shift, fer_chart_method which, fer_charting *charting)
{
    FER_TRY(take_wanted_length(wanted));
    FER_REQUIRE(shift >= 0.2 && shift <= 6.0, FER_CHART_SHIFT_OUT_OF_RANGE);
    FER_REQUIRE((unsigned)which < FER_CHART_METHOD_COUNT, FER_CHART_METHOD_UNKNOWN);
    *charting = best_charting(which == FER_CHART_METHOD_EWMA ? of_ewma : of_cusum, wanted, shift);
    return FER_OK;
}

fer_status fer_choose_charting(double run_length, double shift, fer_chart_method method,
                               fer_charting *charting)
{
    FER_REQUIRE(charting, FER_ARGUMENT_MISSING);
    leave_out_charting(charting);
    return choose(run_length, shift, method, charting);
}
