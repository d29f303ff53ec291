/* SPDX-License-Identifier: MIT */
/* Verdict on a measured value, and risks over all pieces.
 * Method: guard bands, both tails where the tolerance is narrow, Gauss and Legendre's rule for the risks.
 * Formulas: include/ferrule/conformity.h; docs/conformity.md. */
#include <ferrule/conformity.h>

#include "base/value_private.h"
#include "judge/conformity_private.h"
#include "base/numeric/quadrature.h"
#include "base/numeric/special.h"

#include <string.h>

/* The question with its defaults filled in. */
typedef struct {
    double value, u;            /* u 0: exact */
    double lower, upper;        /* infinite where a limit does not count */
    double factor, probability; /* guard band in u, and the probability that it stands for */
    double degrees;             /* 0: normal */
    int without;
    fer_side side;
} question;

static int is_place(double x)
{
    return x >= -FER_LENGTH_MAXIMUM_MM && x <= FER_LENGTH_MAXIMUM_MM;
}

static int is_deviation(double x)
{
    return x >= 0.0 && x <= FER_LENGTH_MAXIMUM_MM;
}

static fer_status take_limits(fer_length_range limits, fer_guard guard, question *q)
{
    FER_REQUIRE(guard.side == FER_SIDE_BOTH || guard.side == FER_SIDE_LOWER || guard.side == FER_SIDE_UPPER,
                FER_GUARD_SIDE_UNKNOWN);
    FER_REQUIRE(guard.side == FER_SIDE_UPPER || is_place(limits.lower.mm), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(guard.side == FER_SIDE_LOWER || is_place(limits.upper.mm), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(guard.side != FER_SIDE_BOTH || limits.lower.mm < limits.upper.mm, FER_LIMIT_WRONG_ORDER);
    q->side = guard.side;
    q->lower = guard.side == FER_SIDE_UPPER ? -INFINITY : limits.lower.mm;
    q->upper = guard.side == FER_SIDE_LOWER ? INFINITY : limits.upper.mm;
    return FER_OK;
}

static fer_status take_guard(fer_guard guard, question *q)
{
    FER_REQUIRE(guard.factor >= 0.0 && guard.factor <= 10.0, FER_GUARD_OUT_OF_RANGE);
    FER_REQUIRE(guard.degrees_of_freedom == 0.0 ||
                    (guard.degrees_of_freedom >= 1.0 && fer_is_finite(guard.degrees_of_freedom)),
                FER_GUARD_DEGREES_OUT_OF_RANGE);
    q->factor = guard.factor == 0.0 ? FER_GUARD_USUAL : guard.factor;
    q->probability = fer_normal_cdf(q->factor);
    q->without = guard.without;
    q->degrees = guard.degrees_of_freedom;
    if (q->degrees > 0.0) {
        q->factor = -fer_student_quantile(fer_normal_cdf(-q->factor), q->degrees); /* the tail is never 0 */
    }
    return FER_OK;
}

static fer_status check_process(const fer_process *process, fer_guard guard)
{
    FER_REQUIRE(is_place(process->mean.mm), FER_PROCESS_MEAN_OUT_OF_RANGE);
    FER_REQUIRE(is_deviation(process->standard_deviation.mm), FER_PROCESS_DEVIATION_OUT_OF_RANGE);
    FER_REQUIRE(process->standard_deviation.mm > 0.0 || process->mean.mm == 0.0,
                FER_PROCESS_DEVIATION_MISSING);
    FER_REQUIRE(process->standard_deviation.mm == 0.0 || guard.degrees_of_freedom == 0.0,
                FER_PROCESS_WITH_DEGREES);
    return FER_OK;
}

/* Draws the value towards what the process usually makes. */
static void weigh_process(const fer_process *process, question *q)
{
    if (process->standard_deviation.mm > 0.0) {
        const double both = hypot(process->standard_deviation.mm, q->u);
        const double share = (q->u / both) * (q->u / both);
        q->value += share * (process->mean.mm - q->value);
        q->u *= process->standard_deviation.mm / both;
    }
}

/* P(X <= x) where the value is x0; nothing is beyond a limit that does not count, which is infinite. */
static double below(const question *q, double x, double value)
{
    if (!fer_is_finite(x)) {
        return 0.0;
    }
    if (q->u == 0.0) {
        return value <= x;
    }
    const double deviate = (x - value) / q->u;
    return q->degrees > 0.0 ? fer_student_cdf(deviate, q->degrees) : fer_normal_cdf(deviate);
}

/* P(X >= x), without the loss that 1 - P has. */
static double above(const question *q, double x, double value)
{
    if (!fer_is_finite(x)) {
        return 0.0;
    }
    if (q->u == 0.0) {
        return value >= x;
    }
    const double deviate = (value - x) / q->u;
    return q->degrees > 0.0 ? fer_student_cdf(deviate, q->degrees) : fer_normal_cdf(deviate);
}

/* Conformity probability of a value that lies `away` from the middle of both limits. */
static double conforming_at(const question *q, double away)
{
    const double half = 0.5 * (q->upper - q->lower);
    return below(q, half, away) - below(q, -half, away);
}

/* Distance from the middle at which the conformity probability has fallen to p, which is not below one minus that of the
 * middle. As far away as both limits are from each other it is below p: with h half of that distance in u, the middle
 * has 2 F(h) - 1, the far place F(3h) - F(h), which is at most 1 - F(h): half of what the middle lacks to 1. */
static double distance_of(const question *q, double p)
{
    double near = 0.0, far = q->upper - q->lower;
    for (int i = 0; i < 100; i++) {
        const double middle = 0.5 * (near + far);
        if (conforming_at(q, middle) >= p) {
            near = middle;
        } else {
            far = middle;
        }
    }
    return near;
}

typedef struct {
    double accept_lower, accept_upper, reject_lower, reject_upper;
    int by_probability;
} bands;

static fer_status bands_by_probability(const question *q, bands *b)
{
    const double middle = q->lower + 0.5 * (q->upper - q->lower);
    FER_REQUIRE(conforming_at(q, 0.0) >= q->probability, FER_TOLERANCE_BELOW_UNCERTAINTY);
    const double accept = distance_of(q, q->probability), reject = distance_of(q, 1.0 - q->probability);
    b->accept_lower = middle - accept;
    b->accept_upper = middle + accept;
    b->reject_lower = middle - reject;
    b->reject_upper = middle + reject;
    b->by_probability = 1;
    return FER_OK;
}

static fer_status find_bands(const question *q, bands *b)
{
    const double guard = q->without ? 0.0 : q->factor * q->u;
    const double tail = q->degrees > 0.0 ? INFINITY : 1.7; /* Student's far tail always counts */
    if (guard > 0.0 && !(q->upper - q->lower >= (2.0 * q->factor + tail) * q->u)) {
        return bands_by_probability(q, b);
    }
    b->accept_lower = q->lower + guard;
    b->accept_upper = q->upper - guard;
    b->reject_lower = q->lower - guard;
    b->reject_upper = q->upper + guard;
    b->by_probability = 0;
    return FER_OK;
}

static fer_decision decide(const question *q, const bands *b)
{
    if (q->value >= b->accept_lower && q->value <= b->accept_upper) {
        return FER_DECISION_ACCEPT;
    }
    if (q->value < b->reject_lower || q->value > b->reject_upper) {
        return FER_DECISION_REJECT;
    }
    return FER_DECISION_UNDECIDED;
}

/* A range with the limits that do not count as they were given. */
static fer_length_range range_of(double lower, double upper, fer_length_range given)
{
    fer_length_range range = given;
    if (fer_is_finite(lower)) {
        range.lower.mm = lower;
    }
    if (fer_is_finite(upper)) {
        range.upper.mm = upper;
    }
    return range;
}

static fer_verdict verdict_of(const question *q, const bands *b, fer_length_range limits)
{
    fer_verdict v;
    FER_EMPTY(v);
    v.decision = decide(q, b);
    v.below.fraction = q->u == 0.0 ? q->value < q->lower : below(q, q->lower, q->value);
    v.above.fraction = q->u == 0.0 ? q->value > q->upper : above(q, q->upper, q->value);
    v.conforming.fraction = q->value - q->lower < q->upper - q->value
                                ? above(q, q->lower, q->value) - v.above.fraction
                                : below(q, q->upper, q->value) - v.below.fraction;
    v.guard.mm = q->side == FER_SIDE_UPPER ? q->upper - b->accept_upper : b->accept_lower - q->lower;
    v.accept = range_of(b->accept_lower, b->accept_upper, limits);
    v.reject = range_of(b->reject_lower, b->reject_upper, limits);
    v.value.mm = q->value;
    v.standard_uncertainty.mm = q->u;
    v.by_probability = b->by_probability;
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
    question q = {0};
    bands b;
    FER_TRY(take_limits(limits, guard, &q));
    FER_REQUIRE(is_place(value.mm), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(is_deviation(standard_uncertainty.mm), FER_UNCERTAINTY_OUT_OF_RANGE);
    FER_TRY(take_guard(guard, &q));
    FER_TRY(check_process(process, guard));
    q.value = value.mm;
    q.u = standard_uncertainty.mm;
    weigh_process(process, &q);
    FER_TRY(find_bands(&q, &b));
    *verdict = verdict_of(&q, &b, limits);
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

static void sum_risks(const fer_process *process, const question *q, const bands *b, fer_risks *risks)
{
    const pieces p = {process->mean.mm, process->standard_deviation.mm, q->u, b->accept_lower,
                      b->accept_upper};
    const double measured = hypot(p.standard_deviation, p.u);
    risks->conforming.fraction = normal_between(p.mean, p.standard_deviation, q->lower, q->upper);
    risks->accepted.fraction = normal_between(p.mean, measured, b->accept_lower, b->accept_upper);
    risks->rejected.fraction = fer_normal_cdf((b->reject_lower - p.mean) / measured) +
                               fer_normal_cdf((p.mean - b->reject_upper) / measured);
    risks->undecided.fraction = fmax(0.0, 1.0 - risks->accepted.fraction - risks->rejected.fraction);
    risks->consumer.fraction =
        accepted_between(&p, -INFINITY, q->lower) + accepted_between(&p, q->upper, INFINITY);
    risks->producer.fraction =
        fmax(0.0, risks->conforming.fraction - accepted_between(&p, q->lower, q->upper));
}

static fer_status find_risks(const fer_process *process, fer_length standard_uncertainty,
                             fer_length_range limits, fer_guard guard, fer_risks *risks)
{
    question q = {0};
    bands b;
    FER_REQUIRE(process, FER_ARGUMENT_MISSING);
    FER_REQUIRE(guard.degrees_of_freedom == 0.0, FER_PROCESS_WITH_DEGREES);
    FER_TRY(take_limits(limits, guard, &q));
    FER_REQUIRE(is_deviation(standard_uncertainty.mm), FER_UNCERTAINTY_OUT_OF_RANGE);
    FER_TRY(take_guard(guard, &q));
    FER_TRY(check_process(process, guard));
    FER_REQUIRE(process->standard_deviation.mm > 0.0, FER_PROCESS_DEVIATION_MISSING);
    q.u = standard_uncertainty.mm;
    FER_TRY(find_bands(&q, &b));
    sum_risks(process, &q, &b, risks);
    return FER_OK;
}

fer_status fer_find_risks(const fer_process *process, fer_length standard_uncertainty,
                          fer_length_range limits, fer_guard guard, fer_risks *risks)
{
    FER_REQUIRE(risks, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*risks);
    return find_risks(process, standard_uncertainty, limits, guard, risks);
}
