/* SPDX-License-Identifier: MIT */
/* Verdict on a measured value, acceptance zones, shares, and risks over all pieces.
 * Method: guard bands, both tails where the tolerance is narrow, Gauss and Legendre's rule for the risks.
 * Formulas: include/ferrule/conformity.h; docs/conformity.md. */
#include <ferrule/conformity.h>

#include "base/value_private.h"
#include "base/acceptance_private.h"
#include "judge/conformity_private.h"
#include "base/numeric/quadrature.h"
#include "base/numeric/special.h"

#include <string.h>

static fer_status check_process(const fer_process *process, fer_guard guard)
{
    FER_REQUIRE(fer_is_place(process->mean.mm), FER_PROCESS_MEAN_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_deviation(process->standard_deviation.mm), FER_PROCESS_DEVIATION_OUT_OF_RANGE);
    FER_REQUIRE(process->standard_deviation.mm > 0.0 || process->mean.mm == 0.0,
                FER_PROCESS_DEVIATION_MISSING);
    FER_REQUIRE(process->standard_deviation.mm == 0.0 || guard.degrees_of_freedom == 0.0,
                FER_PROCESS_WITH_DEGREES);
    return FER_OK;
}

/* Draws the value towards what the process usually makes. */
static void weigh_process(const fer_process *process, fer_judging *q)
{
    if (process->standard_deviation.mm > 0.0) {
        const double both = hypot(process->standard_deviation.mm, q->u);
        const double share = (q->u / both) * (q->u / both);
        q->value += share * (process->mean.mm - q->value);
        q->u *= process->standard_deviation.mm / both;
    }
}

static fer_decision decide(const fer_judging *q, const fer_bands *b)
{
    if (q->value >= b->accept_lower && q->value <= b->accept_upper) {
        return FER_DECISION_ACCEPT;
    }
    if (q->value < b->reject_lower || q->value > b->reject_upper) {
        return FER_DECISION_REJECT;
    }
    return FER_DECISION_UNDECIDED;
}

static fer_verdict verdict_of(const fer_judging *q, fer_side side, const fer_bands *b,
                              fer_length_range limits)
{
    fer_verdict v;
    FER_EMPTY(v);
    v.decision = decide(q, b);
    v.below.fraction = q->u == 0.0 ? q->value < q->lower : fer_judged_below(q, q->lower, q->value);
    v.above.fraction = q->u == 0.0 ? q->value > q->upper : fer_judged_above(q, q->upper, q->value);
    v.conforming.fraction = q->value - q->lower < q->upper - q->value
                                ? fer_judged_above(q, q->lower, q->value) - v.above.fraction
                                : fer_judged_below(q, q->upper, q->value) - v.below.fraction;
    v.guard.mm = fer_guard_of(q, side, b);
    v.accept = fer_ends_of(b->accept_lower, b->accept_upper, limits);
    v.reject = fer_ends_of(b->reject_lower, b->reject_upper, limits);
    v.value.mm = q->value;
    v.standard_uncertainty.mm = q->u;
    v.by_probability = b->by_probability;
    v.zone_empty = b->empty;
    return v;
}

void fer_leave_out_verdict(fer_verdict *verdict)
{
    FER_EMPTY(*verdict);
    FER_LEAVE_OUT_FROM(fer_verdict, *verdict, conforming, standard_uncertainty);
}

static fer_status judge(fer_length value, fer_length standard_uncertainty, fer_length_range limits,
                        fer_guard guard, const fer_process *process, fer_verdict *verdict)
{
    fer_judging q = {0};
    fer_bands b;
    FER_TRY(fer_check_guard_rules(&guard, NULL));
    FER_TRY(fer_take_limits(limits, guard.side, &q));
    FER_REQUIRE(fer_is_place(value.mm), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_deviation(standard_uncertainty.mm), FER_UNCERTAINTY_OUT_OF_RANGE);
    fer_take_guard(guard, &q);
    FER_TRY(check_process(process, guard));
    q.value = value.mm;
    q.u = standard_uncertainty.mm;
    weigh_process(process, &q);
    fer_find_bands(&q, &b);
    *verdict = verdict_of(&q, guard.side, &b, limits);
    return FER_OK;
}

fer_status fer_judge(fer_length value, fer_length standard_uncertainty, fer_length_range limits,
                     fer_guard guard, fer_process process, fer_verdict *verdict)
{
    FER_REQUIRE(verdict, FER_ARGUMENT_MISSING);
    fer_leave_out_verdict(verdict);
    return judge(value, standard_uncertainty, limits, guard, &process, verdict);
}

/* What the integrals need. */
typedef struct {
    double mean, standard_deviation, u, accept_lower, accept_upper;
} pieces;

/* Density of the true value, z standard deviations from the mean, times the probability that a piece with it is accepted. */
static double accepted_density(double z, const void *context)
{
    const pieces *p = (const pieces *)context;
    const double low = p->accept_lower - p->mean - z * p->standard_deviation,
                 high = p->accept_upper - p->mean - z * p->standard_deviation;
    if (p->u == 0.0) {
        return low <= 0.0 && high >= 0.0 ? fer_normal_density(z) : 0.0;
    }
    /* by the tail on the far side of the middle, so that small differences keep their digits */
    return low > 0.0 ? fer_normal_density(z) * (fer_normal_cdf(-low / p->u) - fer_normal_cdf(-high / p->u))
                     : fer_normal_density(z) * (fer_normal_cdf(high / p->u) - fer_normal_cdf(low / p->u));
}

/* Integral of the accepted density between two places, in standard deviations from the mean: one may be so small that its
 * inverse is beyond all doubles. The integrand changes on the scale of the deviation about the mean and on that of the
 * uncertainty about the ends of acceptance: each gets break points of its own. */
static double accepted_between(const pieces *p, double from, double to)
{
    enum { steps = 10, maximum = 3 * (2 * steps + 1) };
    const double reach = 40.0; /* beyond, the density is 0 in doubles */
    double breaks[maximum];
    size_t count = 0;
    for (int i = -steps; i <= steps; i++) {
        breaks[count++] = i;
        breaks[count++] = (p->accept_lower - p->mean + i * p->u) / p->standard_deviation;
        breaks[count++] = (p->accept_upper - p->mean + i * p->u) / p->standard_deviation;
    }
    return fer_integrate_pieces(accepted_density, p, fmax((from - p->mean) / p->standard_deviation, -reach),
                                fmin((to - p->mean) / p->standard_deviation, reach), breaks, count);
}

/* Share of a normal distribution between two places. */
static double normal_between(double mean, double standard_deviation, double from, double to)
{
    const double low = (from - mean) / standard_deviation, high = (to - mean) / standard_deviation;
    return low > 0.0 ? fer_normal_cdf(-low) - fer_normal_cdf(-high)
                     : fer_normal_cdf(high) - fer_normal_cdf(low);
}

static void sum_risks(const fer_process *process, const fer_judging *q, const fer_bands *b, fer_risks *risks)
{
    const pieces p = {process->mean.mm, process->standard_deviation.mm, q->u, b->accept_lower,
                      b->accept_upper};
    const double measured = hypot(p.standard_deviation, p.u);
    const double accepted = b->empty ? 0.0 : normal_between(p.mean, measured, p.accept_lower, p.accept_upper);
    risks->conforming.fraction = normal_between(p.mean, p.standard_deviation, q->lower, q->upper);
    risks->accepted.fraction = accepted;
    risks->rejected.fraction = fer_normal_cdf((b->reject_lower - p.mean) / measured) +
                               fer_normal_cdf((p.mean - b->reject_upper) / measured);
    risks->undecided.fraction = fmax(0.0, 1.0 - accepted - risks->rejected.fraction);
    risks->consumer.fraction =
        b->empty ? 0.0 : accepted_between(&p, -INFINITY, q->lower) + accepted_between(&p, q->upper, INFINITY);
    risks->producer.fraction =
        fmax(0.0, risks->conforming.fraction - (b->empty ? 0.0 : accepted_between(&p, q->lower, q->upper)));
}

fer_status fer_take_risks(const fer_process *process, fer_length standard_uncertainty,
                          fer_length_range limits, fer_guard guard, fer_judging *judging)
{
    FER_REQUIRE(process, FER_ARGUMENT_MISSING);
    FER_REQUIRE(guard.degrees_of_freedom == 0.0, FER_PROCESS_WITH_DEGREES);
    FER_TRY(fer_check_guard_rules(&guard, NULL));
    FER_TRY(fer_take_limits(limits, guard.side, judging));
    FER_REQUIRE(fer_is_deviation(standard_uncertainty.mm), FER_UNCERTAINTY_OUT_OF_RANGE);
    fer_take_guard(guard, judging);
    FER_TRY(check_process(process, guard));
    FER_REQUIRE(process->standard_deviation.mm > 0.0, FER_PROCESS_DEVIATION_MISSING);
    judging->u = standard_uncertainty.mm;
    return FER_OK;
}

void fer_risks_of(const fer_process *process, const fer_judging *judging, fer_risks *risks)
{
    fer_bands bands;
    fer_find_bands(judging, &bands);
    sum_risks(process, judging, &bands, risks);
}

fer_status fer_find_risks(const fer_process *process, fer_length standard_uncertainty,
                          fer_length_range limits, fer_guard guard, fer_risks *risks)
{
    FER_REQUIRE(risks, FER_ARGUMENT_MISSING);
    fer_judging judging = {0};
    FER_LEAVE_OUT(*risks);
    FER_TRY(fer_take_risks(process, standard_uncertainty, limits, guard, &judging));
    fer_risks_of(process, &judging, risks);
    return FER_OK;
}

fer_status fer_find_acceptance_zone(fer_length_range limits, fer_length standard_uncertainty, fer_guard guard,
                                    fer_acceptance_zone *zone)
{
    FER_REQUIRE(zone, FER_ARGUMENT_MISSING);
    fer_leave_out_zone(zone);
    FER_TRY(fer_check_guard_rules(&guard, NULL));
    FER_REQUIRE(fer_is_deviation(standard_uncertainty.mm), FER_UNCERTAINTY_OUT_OF_RANGE);
    return fer_zone_of(limits, standard_uncertainty, guard, zone);
}

static fer_status find_shown_zone(const fer_acceptance_zone *zone, const fer_gauge *gauge,
                                  fer_acceptance_zone *shown)
{
    const fer_gauge exact = {
        {0.0}, gauge->correction, gauge->resolution}; /* what does not count is not looked at */
    FER_TRY(fer_check_gauge(&exact));
    FER_TRY(fer_check_side(zone->side));
    return fer_show_zone(zone, &exact, shown);
}

fer_status fer_find_shown_zone(const fer_acceptance_zone *zone, const fer_gauge *gauge,
                               fer_acceptance_zone *shown)
{
    FER_REQUIRE(shown, FER_ARGUMENT_MISSING);
    const fer_status status = zone && gauge ? find_shown_zone(zone, gauge, shown) : FER_ARGUMENT_MISSING;
    if (status != FER_OK) {
        fer_leave_out_zone(shown);
    }
    return status;
}

static fer_status find_compression_share(fer_length diameter, fer_length standard_uncertainty,
                                         const fer_uncertain_window *window, fer_ratio *share)
{
    FER_REQUIRE(window, FER_ARGUMENT_MISSING);
    const double at_lower = hypot(window->lower_uncertainty.mm, standard_uncertainty.mm),
                 at_upper = hypot(window->upper_uncertainty.mm, standard_uncertainty.mm);
    FER_REQUIRE(fer_is_place(window->range.lower.mm) && fer_is_place(window->range.upper.mm) &&
                    fer_is_place(diameter.mm),
                FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(window->range.lower.mm < window->range.upper.mm, FER_LIMIT_WRONG_ORDER);
    FER_REQUIRE(fer_is_deviation(window->lower_uncertainty.mm) &&
                    fer_is_deviation(window->upper_uncertainty.mm) &&
                    fer_is_deviation(standard_uncertainty.mm),
                FER_UNCERTAINTY_OUT_OF_RANGE);
    const fer_judging lower = {0.0, at_lower, 0.0, 0.0, 0.0, 0.0, 0.0, 0},
                      upper = {0.0, at_upper, 0.0, 0.0, 0.0, 0.0, 0.0, 0};
    /* by the tails, so that a share near 1 or near 0 keeps its digits; different widths may cross in them */
    const double inside = diameter.mm - window->range.lower.mm < window->range.upper.mm - diameter.mm
                              ? fer_judged_above(&lower, window->range.lower.mm, diameter.mm) -
                                    fer_judged_above(&upper, window->range.upper.mm, diameter.mm)
                              : fer_judged_below(&upper, window->range.upper.mm, diameter.mm) -
                                    fer_judged_below(&lower, window->range.lower.mm, diameter.mm);
    share->fraction = fmax(0.0, inside);
    return FER_OK;
}

fer_status fer_find_compression_share(fer_length diameter, fer_length standard_uncertainty,
                                      const fer_uncertain_window *window, fer_ratio *share)
{
    FER_REQUIRE(share, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*share);
    return find_compression_share(diameter, standard_uncertainty, window, share);
}
