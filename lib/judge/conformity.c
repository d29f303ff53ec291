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
    double least, most;         /* infinite where a limit does not count */
    double factor, probability; /* guard band in u, and the probability that it stands for */
    double degrees;             /* 0: normal */
    int without;
    fer_side side;
} question;

static int is_place(double x)
{
    return x >= -FER_LENGTH_MOST_MM && x <= FER_LENGTH_MOST_MM;
}

static int is_spread(double x)
{
    return x >= 0.0 && x <= FER_LENGTH_MOST_MM;
}

static fer_status take_limits(fer_length_range limits, fer_guard guard, question *q)
{
    FER_REQUIRE(guard.side == FER_SIDE_BOTH || guard.side == FER_SIDE_LEAST || guard.side == FER_SIDE_MOST,
                FER_GUARD_SIDE_UNKNOWN);
    FER_REQUIRE(guard.side == FER_SIDE_MOST || is_place(limits.least.mm), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(guard.side == FER_SIDE_LEAST || is_place(limits.most.mm), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(guard.side != FER_SIDE_BOTH || limits.least.mm < limits.most.mm, FER_LIMIT_WRONG_ORDER);
    q->side = guard.side;
    q->least = guard.side == FER_SIDE_MOST ? -INFINITY : limits.least.mm;
    q->most = guard.side == FER_SIDE_LEAST ? INFINITY : limits.most.mm;
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
    FER_REQUIRE(is_spread(process->spread.mm), FER_PROCESS_SPREAD_OUT_OF_RANGE);
    FER_REQUIRE(process->spread.mm > 0.0 || process->mean.mm == 0.0, FER_PROCESS_SPREAD_MISSING);
    FER_REQUIRE(process->spread.mm == 0.0 || guard.degrees_of_freedom == 0.0, FER_PROCESS_WITH_DEGREES);
    return FER_OK;
}

/* Draws the value towards what the process usually makes. */
static void weigh_process(const fer_process *process, question *q)
{
    if (process->spread.mm > 0.0) {
        const double both = hypot(process->spread.mm, q->u);
        const double share = (q->u / both) * (q->u / both);
        q->value += share * (process->mean.mm - q->value);
        q->u *= process->spread.mm / both;
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
    const double half = 0.5 * (q->most - q->least);
    return below(q, half, away) - below(q, -half, away);
}

/* Distance from the middle at which the conformity probability has fallen to p, which is not below one less that of the
 * middle. As far away as both limits are from each other it is below p: with h half of that distance in u, the middle
 * has 2 F(h) - 1, the far place F(3h) - F(h), which is at most 1 - F(h): half of what the middle lacks to 1. */
static double distance_of(const question *q, double p)
{
    double near = 0.0, far = q->most - q->least;
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
    double accept_least, accept_most, reject_least, reject_most;
    int by_probability;
} bands;

static fer_status bands_by_probability(const question *q, bands *b)
{
    const double middle = q->least + 0.5 * (q->most - q->least);
    FER_REQUIRE(conforming_at(q, 0.0) >= q->probability, FER_TOLERANCE_BELOW_UNCERTAINTY);
    const double accept = distance_of(q, q->probability), reject = distance_of(q, 1.0 - q->probability);
    b->accept_least = middle - accept;
    b->accept_most = middle + accept;
    b->reject_least = middle - reject;
    b->reject_most = middle + reject;
    b->by_probability = 1;
    return FER_OK;
}

static fer_status find_bands(const question *q, bands *b)
{
    const double guard = q->without ? 0.0 : q->factor * q->u;
    const double tail = q->degrees > 0.0 ? INFINITY : 1.7; /* Student's far tail always counts */
    if (guard > 0.0 && !(q->most - q->least >= (2.0 * q->factor + tail) * q->u)) {
        return bands_by_probability(q, b);
    }
    b->accept_least = q->least + guard;
    b->accept_most = q->most - guard;
    b->reject_least = q->least - guard;
    b->reject_most = q->most + guard;
    b->by_probability = 0;
    return FER_OK;
}

static fer_decision decide(const question *q, const bands *b)
{
    if (q->value >= b->accept_least && q->value <= b->accept_most) {
        return FER_DECISION_ACCEPT;
    }
    if (q->value < b->reject_least || q->value > b->reject_most) {
        return FER_DECISION_REJECT;
    }
    return FER_DECISION_UNDECIDED;
}

/* A range with the limits that do not count as they were given. */
static fer_length_range range_of(double least, double most, fer_length_range given)
{
    fer_length_range range = given;
    if (fer_is_finite(least)) {
        range.least.mm = least;
    }
    if (fer_is_finite(most)) {
        range.most.mm = most;
    }
    return range;
}

static fer_verdict verdict_of(const question *q, const bands *b, fer_length_range limits)
{
    fer_verdict v;
    FER_EMPTY(v);
    v.decision = decide(q, b);
    v.below.fraction = q->u == 0.0 ? q->value < q->least : below(q, q->least, q->value);
    v.above.fraction = q->u == 0.0 ? q->value > q->most : above(q, q->most, q->value);
    v.conforming.fraction = q->value - q->least < q->most - q->value
                                ? above(q, q->least, q->value) - v.above.fraction
                                : below(q, q->most, q->value) - v.below.fraction;
    v.guard.mm = q->side == FER_SIDE_MOST ? q->most - b->accept_most : b->accept_least - q->least;
    v.accept = range_of(b->accept_least, b->accept_most, limits);
    v.reject = range_of(b->reject_least, b->reject_most, limits);
    v.value.mm = q->value;
    v.standard_uncertainty.mm = q->u;
    v.by_probability = b->by_probability;
    return v;
}

void fer_leave_out_verdict(fer_verdict *verdict)
{
    FER_EMPTY(*verdict);
    FER_LEAVE_OUT_FROM(*verdict, conforming, standard_uncertainty);
}

static fer_status judge(fer_length value, fer_length standard_uncertainty, fer_length_range limits,
                        fer_guard guard, const fer_process *process, fer_verdict *verdict)
{
    question q = {0};
    bands b;
    FER_TRY(take_limits(limits, guard, &q));
    FER_REQUIRE(is_place(value.mm), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(is_spread(standard_uncertainty.mm), FER_UNCERTAINTY_OUT_OF_RANGE);
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
    double mean, spread, u, accept_least, accept_most;
} pieces;

/* Density of the true value, z spreads from the mean, times the probability that a piece with it is accepted. */
static double accepted_density(double z, const void *context)
{
    const pieces *p = (const pieces *)context;
    const double low = p->accept_least - p->mean - z * p->spread,
                 high = p->accept_most - p->mean - z * p->spread;
    if (p->u == 0.0) {
        return low <= 0.0 && high >= 0.0 ? fer_normal_density(z) : 0.0;
    }
    /* by the tail on the far side of the middle, so that small differences keep their digits */
    return low > 0.0 ? fer_normal_density(z) * (fer_normal_cdf(-low / p->u) - fer_normal_cdf(-high / p->u))
                     : fer_normal_density(z) * (fer_normal_cdf(high / p->u) - fer_normal_cdf(low / p->u));
}

/* Integral of the accepted density between two places, in spreads from the mean: a spread may be so small that its
 * inverse is beyond all doubles. The integrand changes on the scale of the spread about the mean and on that of the
 * uncertainty about the ends of acceptance: each gets break points of its own. */
static double accepted_between(const pieces *p, double from, double to)
{
    enum { steps = 10, most = 3 * (2 * steps + 1) };
    const double reach = 40.0; /* beyond, the density is 0 in doubles */
    double breaks[most];
    size_t count = 0;
    for (int i = -steps; i <= steps; i++) {
        breaks[count++] = i;
        breaks[count++] = (p->accept_least - p->mean + i * p->u) / p->spread;
        breaks[count++] = (p->accept_most - p->mean + i * p->u) / p->spread;
    }
    return fer_integrate_pieces(accepted_density, p, fmax((from - p->mean) / p->spread, -reach),
                                fmin((to - p->mean) / p->spread, reach), breaks, count);
}

/* Share of a normal distribution between two places. */
static double normal_between(double mean, double spread, double from, double to)
{
    const double low = (from - mean) / spread, high = (to - mean) / spread;
    return low > 0.0 ? fer_normal_cdf(-low) - fer_normal_cdf(-high)
                     : fer_normal_cdf(high) - fer_normal_cdf(low);
}

static void sum_risks(const fer_process *process, const question *q, const bands *b, fer_risks *risks)
{
    const pieces p = {process->mean.mm, process->spread.mm, q->u, b->accept_least, b->accept_most};
    const double measured = hypot(p.spread, p.u);
    risks->conforming.fraction = normal_between(p.mean, p.spread, q->least, q->most);
    risks->accepted.fraction = normal_between(p.mean, measured, b->accept_least, b->accept_most);
    risks->rejected.fraction = fer_normal_cdf((b->reject_least - p.mean) / measured) +
                               fer_normal_cdf((p.mean - b->reject_most) / measured);
    risks->undecided.fraction = fmax(0.0, 1.0 - risks->accepted.fraction - risks->rejected.fraction);
    risks->user.fraction =
        accepted_between(&p, -INFINITY, q->least) + accepted_between(&p, q->most, INFINITY);
    risks->maker.fraction = fmax(0.0, risks->conforming.fraction - accepted_between(&p, q->least, q->most));
}

static fer_status find_risks(const fer_process *process, fer_length standard_uncertainty,
                             fer_length_range limits, fer_guard guard, fer_risks *risks)
{
    question q = {0};
    bands b;
    FER_REQUIRE(process, FER_ARGUMENT_MISSING);
    FER_REQUIRE(guard.degrees_of_freedom == 0.0, FER_PROCESS_WITH_DEGREES);
    FER_TRY(take_limits(limits, guard, &q));
    FER_REQUIRE(is_spread(standard_uncertainty.mm), FER_UNCERTAINTY_OUT_OF_RANGE);
    FER_TRY(take_guard(guard, &q));
    FER_TRY(check_process(process, guard));
    FER_REQUIRE(process->spread.mm > 0.0, FER_PROCESS_SPREAD_MISSING);
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
