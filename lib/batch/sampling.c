/* SPDX-License-Identifier: MIT */
/* Plans by counting, and how many pieces without a bad one.
 * Method: binomial and hypergeometric distribution; whole numbers by doubling and halving.
 * Formulas: include/ferrule/sampling.h; docs/sampling.md. */
#include "batch/sampling_private.h"

#include "base/value_private.h"
#include "batch/numeric/counts.h"
#include "batch/sample_private.h"

enum { lot_maximum = 1000000 };

/* What a number misses by less than this it has: shares such as 0.9 are no doubles. */
static const double rounding = 1e-12;

/* ---- checks ---------------------------------------------------------------------------------------------- */

fer_status fer_check_lot(size_t lot)
{
    FER_REQUIRE(lot <= lot_maximum, FER_PLAN_LOT_OUT_OF_RANGE);
    return FER_OK;
}

fer_status fer_check_plan(const fer_plan *plan)
{
    FER_TRY(fer_check_lot(plan->lot));
    FER_REQUIRE(plan->pieces >= 1 && plan->pieces <= FER_PLAN_PIECES_MAXIMUM, FER_PLAN_PIECES_OUT_OF_RANGE);
    FER_REQUIRE(plan->lot == 0 || plan->pieces <= plan->lot, FER_PLAN_PIECES_OUT_OF_RANGE);
    FER_REQUIRE(plan->accept < plan->pieces, FER_PLAN_ACCEPT_OUT_OF_RANGE);
    return FER_OK;
}

static int is_risk(double x)
{
    return x >= 1e-6 && x <= 0.5;
}

fer_status fer_take_plan_aim(const fer_plan_aim *aim, double least_good, fer_risk_question *question)
{
    FER_REQUIRE(aim, FER_ARGUMENT_MISSING);
    question->good = aim->good.fraction;
    question->bad = aim->bad.fraction;
    question->producer = aim->producer_risk.fraction == 0.0 ? 0.05 : aim->producer_risk.fraction;
    question->consumer = aim->consumer_risk.fraction == 0.0 ? 0.1 : aim->consumer_risk.fraction;
    FER_REQUIRE(question->good >= least_good && question->good <= 0.9, FER_PLAN_SHARE_OUT_OF_RANGE);
    FER_REQUIRE(question->bad >= 1e-4 && question->bad <= 0.99, FER_PLAN_SHARE_OUT_OF_RANGE);
    FER_REQUIRE(question->good < question->bad, FER_PLAN_SHARES_WRONG_ORDER);
    FER_REQUIRE(is_risk(question->producer) && is_risk(question->consumer), FER_PLAN_RISK_OUT_OF_RANGE);
    return FER_OK;
}

/* ---- plans ----------------------------------------------------------------------------------------------- */

/* A product such as 0.15 * 100 that is a whole number but for its rounding is that number. */
double fer_whole_pieces(double share, size_t lot)
{
    return floor(share * (double)lot + 1e-9);
}

double fer_plan_acceptance(size_t pieces, size_t accept, size_t lot, double bad)
{
    return lot == 0 ? fer_binomial_cdf((double)accept, (double)pieces, bad)
                    : fer_hypergeometric_cdf((double)accept, (double)pieces, fer_whole_pieces(bad, lot),
                                             (double)lot);
}

static fer_status find_acceptance(const fer_plan *plan, fer_ratio bad, fer_ratio *probability)
{
    FER_REQUIRE(plan, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_plan(plan));
    FER_REQUIRE(bad.fraction >= 0.0 && bad.fraction <= 1.0, FER_PLAN_SHARE_OUT_OF_RANGE);
    probability->fraction = fer_plan_acceptance(plan->pieces, plan->accept, plan->lot, bad.fraction);
    return FER_OK;
}

fer_status fer_find_acceptance(const fer_plan *plan, fer_ratio bad, fer_ratio *probability)
{
    FER_REQUIRE(probability, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*probability);
    return find_acceptance(plan, bad, probability);
}

static int keeps_consumer(const fer_risk_question *question, size_t pieces, size_t accept, size_t lot)
{
    return fer_plan_acceptance(pieces, accept, lot, question->bad) <= question->consumer + rounding;
}

/* Smallest number of pieces above `low` that keeps the consumer's risk; 0: none up to the greatest. Accepting one more bad piece takes
 * about as many pieces more as the one before did, which is the first step. */
static size_t pieces_for(const fer_risk_question *question, size_t accept, size_t lot, size_t low,
                         size_t step)
{
    const size_t greatest = lot > 0 && lot < FER_PLAN_PIECES_MAXIMUM ? lot : FER_PLAN_PIECES_MAXIMUM;
    size_t high = low + step < greatest ? low + step : greatest;
    while (!keeps_consumer(question, high, accept, lot)) {
        if (high == greatest) {
            return 0;
        }
        low = high;
        step *= 2;
        high = low + step < greatest ? low + step : greatest;
    }
    while (high - low > 1) {
        const size_t middle = low + (high - low) / 2;
        if (keeps_consumer(question, middle, accept, lot)) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return high;
}

fer_status fer_find_plan(const fer_risk_question *question, size_t lot, fer_plan *plan)
{
    size_t pieces = 0, step = 8;
    for (size_t accept = 0;; accept++) {
        const size_t before = pieces;
        pieces = pieces_for(question, accept, lot, before > accept ? before : accept, step);
        FER_REQUIRE(pieces > 0, FER_PLAN_NOT_REACHABLE);
        step = pieces - before;
        plan->pieces = pieces;
        plan->accept = accept;
        plan->lot = lot;
        if (fer_plan_acceptance(pieces, accept, lot, question->good) >= 1.0 - question->producer - rounding) {
            return FER_OK;
        }
    }
}

static fer_status choose_plan(const fer_plan_aim *aim, fer_plan_choice *choice)
{
    fer_risk_question question = {0};
    fer_plan plan = {0};
    FER_TRY(fer_take_plan_aim(aim, 0.0, &question));
    FER_TRY(fer_check_lot(aim->lot));
    FER_REQUIRE(aim->lot == 0 ||
                    fer_whole_pieces(question.good, aim->lot) < fer_whole_pieces(question.bad, aim->lot),
                FER_PLAN_LOT_TOO_SMALL);
    FER_TRY(fer_find_plan(&question, aim->lot, &plan));
    choice->plan = plan;
    choice->producer_risk.fraction =
        1.0 - fer_plan_acceptance(plan.pieces, plan.accept, plan.lot, question.good);
    choice->consumer_risk.fraction = fer_plan_acceptance(plan.pieces, plan.accept, plan.lot, question.bad);
    return FER_OK;
}

fer_status fer_choose_plan(const fer_plan_aim *aim, fer_plan_choice *choice)
{
    FER_REQUIRE(choice, FER_ARGUMENT_MISSING);
    FER_EMPTY(*choice);
    FER_LEAVE_OUT_FROM(fer_plan_choice, *choice, producer_risk, consumer_risk);
    return choose_plan(aim, choice);
}

/* ---- none bad -------------------------------------------------------------------------------------------- */

size_t fer_clean_pieces(double log_share, double confidence)
{
    const double pieces = ceil(log1p(-confidence) / log_share);
    const double fewer = pieces - 1.0;
    return (size_t)(fewer > 0.0 && exp(fewer * log_share) <= 1.0 - confidence + rounding ? fewer : pieces);
}

/* Probability that none of so many pieces is bad: it falls with each of them, and so many that no good piece is left will do. */
static size_t clean_pieces_of_lot(double bad, size_t lot, double confidence)
{
    size_t low = 0, high = lot - (size_t)bad + 1;
    while (high - low > 1) {
        const size_t middle = low + (high - low) / 2;
        if (fer_hypergeometric_cdf(0.0, (double)middle, bad, (double)lot) <= 1.0 - confidence + rounding) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return high;
}

static fer_status find_clean(fer_ratio share, fer_ratio confidence, size_t lot, fer_pieces_needed *needed)
{
    FER_TRY(fer_take_share(&share, 0.95, FER_CONTENT_OUT_OF_RANGE));
    FER_TRY(fer_take_confidence(&confidence));
    FER_TRY(fer_check_lot(lot));
    if (lot == 0) {
        const double log_share = log(share.fraction);
        needed->pieces = fer_clean_pieces(log_share, confidence.fraction);
        needed->reached.fraction = -expm1((double)needed->pieces * log_share);
    } else {
        const double bad = fmax(1.0, fer_whole_pieces(1.0 - share.fraction, lot));
        needed->pieces = clean_pieces_of_lot(bad, lot, confidence.fraction);
        needed->reached.fraction =
            1.0 - fer_hypergeometric_cdf(0.0, (double)needed->pieces, bad, (double)lot);
    }
    return FER_OK;
}

fer_status fer_find_clean_pieces(fer_ratio share, fer_ratio confidence, size_t lot, fer_pieces_needed *needed)
{
    FER_REQUIRE(needed, FER_ARGUMENT_MISSING);
    FER_EMPTY(*needed);
    FER_LEAVE_OUT(needed->reached);
    return find_clean(share, confidence, lot, needed);
}
