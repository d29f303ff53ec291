/* SPDX-License-Identifier: MIT */
/* Plans by measuring.
 * Method: normal quantiles; noncentral t; the number of pieces by doubling and halving.
 * Formulas: include/ferrule/sampling.h; docs/sampling.md. */
#include "batch/sampling_private.h"

#include "base/numeric/special.h"
#include "base/value_private.h"
#include "batch/numeric/noncentral.h"
#include "batch/sample_private.h"

/* The factor is that of the number before it was rounded up, so that both risks become smaller with it. */
static fer_status find_known(const fer_risk_question *question, double deviation,
                             const fer_measuring *measuring, fer_measured_choice *choice)
{
    const double zp = -fer_normal_quantile(question->producer), zc = -fer_normal_quantile(question->consumer);
    const double good = -fer_normal_quantile(question->good), bad = -fer_normal_quantile(question->bad);
    const double root = (zp + zc) / (good - bad), common = measuring->common.mm / deviation;
    const double within = 1.0 + fer_gauge_variance(measuring) / (deviation * deviation);
    const double room = 1.0 / (root * root) - common * common; /* of the variance of the mean */
    const double pieces = within / room;
    FER_REQUIRE(room > 0.0 && pieces <= (double)FER_PLAN_PIECES_MAXIMUM, FER_PLAN_NOT_REACHABLE);
    const double whole = fmax(ceil(pieces), 1.0);
    choice->plan.pieces = (size_t)whole;
    choice->pieces_exact = pieces;
    choice->plan.factor = (good * zc + bad * zp) / (zp + zc);
    choice->plan.deviation_known = 1;
    choice->plan.mean_deviation = sqrt(within / whole + common * common);
    return FER_OK;
}

/* P(T > k root n), where a mean is so many deviations inside the limit. */
static double sample_acceptance(double pieces, double factor, double inside)
{
    const double root = sqrt(pieces);
    return 1.0 - fer_noncentral_cdf(factor * root, pieces - 1.0, inside * root);
}

static double sample_factor(const fer_risk_question *question, double pieces)
{
    const double root = sqrt(pieces);
    return fer_noncentral_quantile(1.0 - question->consumer, pieces - 1.0,
                                   -root * fer_normal_quantile(question->bad)) /
           root;
}

static int keeps_producer(const fer_risk_question *question, size_t pieces)
{
    const double n = (double)pieces;
    return sample_acceptance(n, sample_factor(question, n), -fer_normal_quantile(question->good)) >=
           1.0 - question->producer;
}

/* Greatest share outside that is accepted where both limits count. */
static double share_limit(double n, double factor)
{
    const double half = 0.5 * n - 1.0, x = 0.5 - factor * sqrt(n) / (2.0 * (n - 1.0));
    return fer_incomplete_beta(half, half, fmin(fmax(x, 0.0), 1.0));
}

static fer_status find_of_sample(const fer_risk_question *question, fer_measured_choice *choice)
{
    size_t low = 2, high = 3;
    while (!keeps_producer(question, high)) {
        FER_REQUIRE(high < FER_PLAN_PIECES_MAXIMUM, FER_PLAN_NOT_REACHABLE);
        low = high;
        high = 2 * high < FER_PLAN_PIECES_MAXIMUM ? 2 * high : FER_PLAN_PIECES_MAXIMUM;
    }
    while (high - low > 1) {
        const size_t middle = low + (high - low) / 2;
        if (keeps_producer(question, middle)) {
            high = middle;
        } else {
            low = middle;
        }
    }
    choice->plan.pieces = high;
    choice->pieces_exact = (double)high;
    choice->plan.factor = sample_factor(question, choice->pieces_exact);
    choice->share_limit.fraction = share_limit(choice->pieces_exact, choice->plan.factor);
    return FER_OK;
}

static double measured_acceptance(const fer_measured_plan *plan, double bad)
{
    const double n = (double)plan->pieces, inside = -fer_normal_quantile(bad);
    if (!plan->deviation_known) {
        return sample_acceptance(n, plan->factor, inside);
    }
    const double deviation = plan->mean_deviation == 0.0 ? 1.0 / sqrt(n) : plan->mean_deviation;
    return fer_normal_cdf((inside - plan->factor) / deviation);
}

/* Without the degrees of freedom, which no plan looks at. */
static fer_status check_gauge(fer_measuring measuring)
{
    measuring.repeatability_degrees = 0.0;
    return fer_check_measuring(&measuring);
}

static fer_status choose_measured(const fer_plan_aim *aim, double deviation, const fer_measuring *measuring,
                                  fer_measured_choice *choice)
{
    fer_risk_question question = {0};
    FER_TRY(fer_take_plan_aim(aim, 1e-6, &question));
    FER_TRY(check_gauge(*measuring));
    if (deviation == 0.0) {
        FER_REQUIRE(fer_gauge_variance(measuring) == 0.0 && measuring->common.mm == 0.0,
                    FER_PLAN_DEVIATION_MISSING);
        FER_TRY(find_of_sample(&question, choice));
    } else {
        FER_REQUIRE(deviation >= 1e-6 && deviation <= FER_LENGTH_MAXIMUM_MM, FER_PLAN_DEVIATION_OUT_OF_RANGE);
        FER_TRY(find_known(&question, deviation, measuring, choice));
    }
    choice->producer_risk.fraction = 1.0 - measured_acceptance(&choice->plan, question.good);
    choice->consumer_risk.fraction = measured_acceptance(&choice->plan, question.bad);
    return FER_OK;
}

/* A plan by the sample has no deviation of its mean; one that was not found is NaN there, too. */
fer_status fer_choose_measured_plan(const fer_plan_aim *aim, fer_length deviation, fer_measuring measuring,
                                    fer_measured_choice *measured)
{
    FER_REQUIRE(measured, FER_ARGUMENT_MISSING);
    FER_EMPTY(*measured);
    FER_LEAVE_OUT_FROM(fer_measured_choice, *measured, pieces_exact, consumer_risk);
    const fer_status status = choose_measured(aim, deviation.mm, &measuring, measured);
    if (status != FER_OK) {
        FER_LEAVE_OUT(measured->plan.factor);
        FER_LEAVE_OUT(measured->plan.mean_deviation);
    }
    return status;
}

static fer_status find_measured(const fer_measured_plan *plan, fer_ratio bad, fer_ratio *probability)
{
    FER_REQUIRE(plan, FER_ARGUMENT_MISSING);
    const double deviation = plan->mean_deviation;
    FER_REQUIRE(plan->pieces >= 1 && plan->pieces <= FER_PLAN_PIECES_MAXIMUM, FER_PLAN_PIECES_OUT_OF_RANGE);
    FER_REQUIRE(plan->factor >= -1000.0 && plan->factor <= 1000.0, FER_PLAN_FACTOR_OUT_OF_RANGE);
    if (plan->deviation_known) {
        FER_REQUIRE(deviation == 0.0 || (deviation >= 1e-6 && deviation <= 1000.0),
                    FER_PLAN_DEVIATION_OUT_OF_RANGE);
    } else {
        FER_REQUIRE(plan->pieces >= 2, FER_PLAN_PIECES_OUT_OF_RANGE);
    }
    FER_REQUIRE(bad.fraction >= 1e-6 && bad.fraction <= 0.999999, FER_PLAN_SHARE_OUT_OF_RANGE);
    probability->fraction = measured_acceptance(plan, bad.fraction);
    return FER_OK;
}

fer_status fer_find_measured_acceptance(const fer_measured_plan *plan, fer_ratio bad, fer_ratio *probability)
{
    FER_REQUIRE(probability, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*probability);
    return find_measured(plan, bad, probability);
}
