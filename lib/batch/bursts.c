/* SPDX-License-Identifier: MIT */
/* What bursts show, and how many it takes.
 * Method: exact conditional limits of Weibull's distribution; tolerance factors by noncentral t; order statistics.
 * Formulas: include/ferrule/sampling.h; docs/sampling.md. */
#include "batch/sampling_private.h"

#include <float.h>

#include "base/numeric/moments.h"
#include "base/numeric/special.h"
#include "base/value_private.h"
#include "batch/numeric/beta.h"
#include "batch/numeric/noncentral.h"
#include "batch/numeric/smallest.h"
#include "batch/numeric/tolerance.h"
#include "batch/numeric/weibull.h"
#include "batch/sample_private.h"

enum { pieces_maximum = 1000 }; /* that are asked for */

/* Below this the logarithms of the pressures are alike. */
static const double least_scatter = 1e-6;

/* What is known of the bursts and asked of them; the limit is in MPa. */
typedef struct {
    const fer_burst *bursts;
    size_t count, burst;
    double limit, share, confidence;
} burst_question;

/* What a model says; the number is that of all pieces that would show it, 0: none will. */
typedef struct {
    double bound, confidence, share;
    size_t number;
} burst_answer;

/* ---- checks ---------------------------------------------------------------------------------------------- */

static int is_pressure(double mpa)
{
    return mpa >= 0.001 && mpa <= 10000.0;
}

static fer_status take_aim(const fer_burst_aim *aim, burst_question *question)
{
    FER_REQUIRE(aim, FER_ARGUMENT_MISSING);
    fer_ratio share = aim->share, confidence = aim->confidence;
    const double multiple = aim->multiple == 0.0 ? FER_BURST_MULTIPLE_USUAL : aim->multiple;
    FER_REQUIRE(aim->working.mpa != 0.0, FER_BURST_WORKING_MISSING);
    FER_REQUIRE(aim->working.mpa >= 0.001 && aim->working.mpa <= 1000.0, FER_BURST_WORKING_OUT_OF_RANGE);
    FER_REQUIRE(multiple >= 1.0 && multiple <= 100.0, FER_BURST_MULTIPLE_OUT_OF_RANGE);
    FER_TRY(fer_take_share(&share, 0.95, FER_CONTENT_OUT_OF_RANGE));
    FER_TRY(fer_take_confidence(&confidence));
    question->limit = multiple * aim->working.mpa;
    question->share = share.fraction;
    question->confidence = confidence.fraction;
    return FER_OK;
}

static fer_status take_bursts(const fer_burst *bursts, size_t count, burst_question *question)
{
    FER_REQUIRE(bursts, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_REQUIRE(count <= FER_BURSTS_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    question->bursts = bursts;
    question->count = count;
    for (size_t i = 0; i < count; i++) {
        FER_REQUIRE(bursts[i].pressure.mpa != 0.0, FER_BURST_PRESSURE_MISSING);
        FER_REQUIRE(is_pressure(bursts[i].pressure.mpa), FER_BURST_PRESSURE_OUT_OF_RANGE);
        question->burst += !bursts[i].stopped;
    }
    return FER_OK;
}

/* ---- Weibull --------------------------------------------------------------------------------------------- */

typedef struct {
    const burst_question *question;
    fer_weibull_sample sample;
    double w, t; /* of the share asked, of the limit */
} weibull_case;

static double confidence_of(const weibull_case *w, double weight)
{
    fer_weibull_sample sample = w->sample;
    fer_weibull_nodes nodes;
    double by_w = 0.0, by_t = 0.0;
    sample.weight = weight;
    fer_find_weibull_nodes(&sample, &nodes);
    return fer_weibull_confidence(&nodes, w->w, w->t, &by_w, &by_t);
}

static int weibull_does(size_t number, const void *context)
{
    const weibull_case *w = (const weibull_case *)context;
    return confidence_of(w, (double)number / (double)w->sample.count) >= w->question->confidence;
}

static void answer_by_weibull(const weibull_case *w, double centre, burst_answer *answer)
{
    fer_weibull_nodes nodes;
    double by_w = 0.0, by_t = 0.0;
    fer_find_weibull_nodes(&w->sample, &nodes);
    answer->bound = exp(centre + fer_weibull_bound(&nodes, w->w, w->question->confidence));
    answer->confidence = fer_weibull_confidence(&nodes, w->w, w->t, &by_w, &by_t);
    answer->share = exp(-exp(fer_weibull_share(&nodes, w->t, w->question->confidence)));
}

static fer_status judge_by_weibull(const burst_question *question, burst_answer *answer)
{
    double y[FER_BURSTS_MAXIMUM], centre = 0.0, sum = 0.0, largest = 0.0;
    FER_REQUIRE(question->burst >= 2, FER_BURST_TOO_FEW);
    for (size_t i = 0; i < question->count; i++) {
        y[i] = log(question->bursts[i].pressure.mpa);
        centre += question->bursts[i].stopped ? 0.0 : y[i] / (double)question->burst;
    }
    for (size_t i = 0; i < question->count; i++) {
        y[i] -= centre;
        sum += question->bursts[i].stopped ? 0.0 : y[i];
        largest = fmax(largest, y[i]);
    }
    FER_REQUIRE(largest > least_scatter, FER_BURST_ALL_EQUAL);
    const weibull_case w = {question,
                            {y, question->count, (double)question->burst, sum, 1.0},
                            log(-log(question->share)),
                            log(question->limit) - centre};
    answer_by_weibull(&w, centre, answer);
    answer->number = answer->confidence < question->confidence
                         ? fer_smallest_number(weibull_does, &w, question->count, pieces_maximum)
                         : question->count;
    return FER_OK;
}

/* ---- normal and lognormal -------------------------------------------------------------------------------- */

typedef struct {
    const burst_question *question;
    double above; /* standard deviations from the limit up to the mean */
} normal_case;

static int normal_does(size_t number, const void *context)
{
    const normal_case *n = (const normal_case *)context;
    const double pieces = (double)number;
    return fer_one_sided_factor(pieces, pieces - 1.0, n->question->share, n->question->confidence) <=
           n->above;
}

/* Greatest argument with which the shift stays where the noncentral t is computed; a smaller one shows less. */
static const double greatest_t = 1000.0;

static fer_status judge_by_normal(const burst_question *question, int by_logarithms, burst_answer *answer)
{
    fer_sum sum = {0}, squares = {0};
    const double pieces = (double)question->count, root = sqrt(pieces);
    FER_REQUIRE(question->burst >= 2, FER_BURST_TOO_FEW);
    FER_REQUIRE(question->burst == question->count, FER_BURST_NOT_ALL_BURST);
    for (size_t i = 0; i < question->count; i++) {
        const double x = question->bursts[i].pressure.mpa;
        fer_sum_add(&sum, by_logarithms ? log(x) : x);
    }
    const fer_pair mean = fer_sum_mean(&sum);
    for (size_t i = 0; i < question->count; i++) {
        const double x = question->bursts[i].pressure.mpa;
        fer_square_add(&squares, by_logarithms ? log(x) : x, mean);
    }
    const double deviation = fer_square_deviation(&squares), centre = fer_pair_value(mean);
    FER_REQUIRE(deviation > (by_logarithms ? least_scatter : least_scatter * centre), FER_BURST_ALL_EQUAL);
    const double limit = by_logarithms ? log(question->limit) : question->limit;
    const normal_case n = {question, (centre - limit) / deviation};
    const double t = fmin(n.above * root, greatest_t);
    const double bound = centre - deviation * fer_one_sided_factor(pieces, pieces - 1.0, question->share,
                                                                   question->confidence);
    answer->bound = by_logarithms ? exp(bound) : fmax(bound, 0.0);
    answer->confidence =
        fer_noncentral_cdf(n.above * root, pieces - 1.0, root * fer_normal_quantile(question->share));
    answer->share = fer_normal_cdf(fer_noncentral_shift(question->confidence, t, pieces - 1.0) / root);
    answer->number = normal_does(question->count, &n)
                         ? question->count
                         : fer_smallest_number(normal_does, &n, question->count, pieces_maximum);
    return FER_OK;
}

/* ---- without a shape ------------------------------------------------------------------------------------- */

/* Confidence that the share lies above the value that has so many below it. */
static double free_confidence(double pieces, double below, double share)
{
    return 1.0 - fer_incomplete_beta(pieces - below, below + 1.0, share);
}

typedef struct {
    const burst_question *question;
    double below; /* pieces below the limit */
} free_case;

/* What a confidence misses by less than this it has: shares such as 0.9 are no doubles. */
static int free_does(size_t number, const void *context)
{
    const free_case *f = (const free_case *)context;
    return free_confidence((double)number, f->below, f->question->share) >= f->question->confidence - 1e-12;
}

/* The smallest pressure above `before`, and how many lie there. */
static double next_pressure(const burst_question *question, double before, size_t *equal)
{
    double least = INFINITY;
    *equal = 0;
    for (size_t i = 0; i < question->count; i++) {
        const double x = question->bursts[i].pressure.mpa;
        if (x > before && x < least) {
            least = x;
            *equal = 0;
        }
        *equal += x == least;
    }
    return least;
}

/* The greatest pressure below which so few lie that the share is above it; NaN: not even the smallest is one. */
static double free_bound(const burst_question *question)
{
    double bound = NAN, pressure = 0.0;
    for (size_t below = 0, equal = 0; below < question->count; below += equal) {
        const free_case f = {question, (double)below};
        if (!free_does(question->count, &f)) {
            break;
        }
        pressure = bound = next_pressure(question, pressure, &equal);
    }
    return bound;
}

static fer_status judge_without_shape(const burst_question *question, burst_answer *answer)
{
    free_case f = {question, 0.0};
    const double pieces = (double)question->count;
    for (size_t i = 0; i < question->count; i++) {
        f.below += question->bursts[i].pressure.mpa < question->limit;
    }
    answer->bound = free_bound(question);
    answer->confidence = f.below < pieces ? free_confidence(pieces, f.below, question->share) : 0.0;
    answer->share = f.below < pieces
                        ? fer_beta_quantile(1.0 - question->confidence, pieces - f.below, f.below + 1.0)
                        : 0.0;
    answer->number = f.below < pieces && free_does(question->count, &f)
                         ? question->count
                         : fer_smallest_number(free_does, &f, question->count, pieces_maximum);
    return FER_OK;
}

/* ---- the verdict ----------------------------------------------------------------------------------------- */

static fer_status judge_by(fer_strength strength, const burst_question *question, burst_answer *answer)
{
    switch (strength) {
    case FER_STRENGTH_WEIBULL:
        return judge_by_weibull(question, answer);
    case FER_STRENGTH_NORMAL:
    case FER_STRENGTH_LOGNORMAL:
        return judge_by_normal(question, strength == FER_STRENGTH_LOGNORMAL, answer);
    case FER_STRENGTH_ANY:
        return judge_without_shape(question, answer);
    }
    return FER_BURST_STRENGTH_UNKNOWN;
}

static int one_failed(const burst_question *question)
{
    int failed = 0;
    for (size_t i = 0; i < question->count; i++) {
        failed |= !question->bursts[i].stopped && question->bursts[i].pressure.mpa < question->limit;
    }
    return failed;
}

/* A lower limit never says that something is certain. */
static double below_one(double x)
{
    return fmin(x, 1.0 - DBL_EPSILON);
}

static void fill_verdict(const burst_question *question, fer_strength strength, const burst_answer *answer,
                         fer_burst_verdict *verdict)
{
    const int shown = answer->number == question->count;
    const double rounded_down = strength == FER_STRENGTH_ANY ? 1.0 : 1.0 - 1e-12;
    verdict->limit.mpa = question->limit;
    verdict->bound.mpa = answer->bound * rounded_down;
    verdict->confidence_reached.fraction = below_one(answer->confidence);
    verdict->share_shown.fraction = below_one(answer->share);
    verdict->burst = question->burst;
    verdict->stopped = question->count - question->burst;
    verdict->cautions.bits =
        fer_stage_cautions(FER_STAGE_PRESSURE).bits | fer_stage_cautions(FER_STAGE_FAILURE).bits;
    if (one_failed(question)) {
        verdict->decision = FER_DECISION_REJECT;
    } else if (shown && verdict->bound.mpa >= question->limit) {
        verdict->decision = FER_DECISION_ACCEPT;
    } else {
        verdict->more = answer->number > question->count ? answer->number - question->count : 0;
        verdict->never_shown = answer->number == 0;
    }
}

static fer_status judge_bursts(const fer_burst *bursts, size_t count, const fer_burst_aim *aim,
                               fer_strength strength, fer_burst_verdict *verdict)
{
    burst_question question = {0};
    burst_answer answer = {0};
    FER_TRY(take_bursts(bursts, count, &question));
    FER_TRY(take_aim(aim, &question));
    FER_TRY(judge_by(strength, &question, &answer));
    fill_verdict(&question, strength, &answer, verdict);
    return FER_OK;
}

fer_status fer_judge_bursts(const fer_burst *bursts, size_t count, const fer_burst_aim *aim,
                            fer_strength strength, fer_burst_verdict *verdict)
{
    FER_REQUIRE(verdict, FER_ARGUMENT_MISSING);
    FER_EMPTY(*verdict);
    FER_LEAVE_OUT_FROM(fer_burst_verdict, *verdict, limit, share_shown);
    return judge_bursts(bursts, count, aim, strength, verdict);
}

/* ---- how many -------------------------------------------------------------------------------------------- */

typedef struct {
    burst_question question;
    double above, power; /* the mean above the limit, in standard deviations */
} expected_case;

static double power_of(size_t number, const expected_case *e)
{
    const double pieces = (double)number, root = sqrt(pieces);
    const double t =
        root * fer_one_sided_factor(pieces, pieces - 1.0, e->question.share, e->question.confidence);
    return 1.0 - fer_noncentral_cdf(t, pieces - 1.0, fmin(root * e->above, 1000.0));
}

static int expected_does(size_t number, const void *context)
{
    const expected_case *e = (const expected_case *)context;
    return power_of(number, e) >= e->power;
}

static fer_status find_needed(const fer_burst_aim *aim, double mean, double variation, fer_ratio power,
                              fer_pieces_needed *needed)
{
    expected_case e = {{0}, 0.0, 0.0};
    FER_TRY(take_aim(aim, &e.question));
    FER_REQUIRE(mean != 0.0, FER_BURST_MEAN_MISSING);
    FER_REQUIRE(variation != 0.0, FER_BURST_VARIATION_MISSING);
    FER_REQUIRE(is_pressure(mean), FER_BURST_MEAN_OUT_OF_RANGE);
    FER_REQUIRE(variation >= 0.005 && variation <= 0.5, FER_BURST_VARIATION_OUT_OF_RANGE);
    FER_TRY(fer_take_share(&power, 0.9, FER_POWER_OUT_OF_RANGE));
    e.above = (mean - e.question.limit) / (variation * mean);
    e.power = power.fraction;
    FER_REQUIRE(e.above > 0.0, FER_PLAN_NOT_REACHABLE);
    const size_t number = fer_smallest_number(expected_does, &e, 1, pieces_maximum);
    FER_REQUIRE(number > 0, FER_PLAN_NOT_REACHABLE);
    needed->pieces = number;
    needed->reached.fraction = power_of(number, &e);
    return FER_OK;
}

fer_status fer_find_bursts_needed(const fer_burst_aim *aim, fer_pressure mean, fer_ratio variation,
                                  fer_ratio power, fer_pieces_needed *needed)
{
    FER_REQUIRE(needed, FER_ARGUMENT_MISSING);
    FER_EMPTY(*needed);
    FER_LEAVE_OUT(needed->reached);
    return find_needed(aim, mean.mpa, variation.fraction, power, needed);
}

static fer_status find_without(const fer_burst_aim *aim, double raised, double shape,
                               fer_pieces_needed *needed)
{
    burst_question question = {0};
    FER_TRY(take_aim(aim, &question));
    FER_REQUIRE(raised == 0.0 || (raised >= 1.0 && raised <= 2.0), FER_BURST_RAISED_OUT_OF_RANGE);
    FER_REQUIRE(shape >= 0.0 && shape <= 100.0, FER_BURST_RAISED_OUT_OF_RANGE);
    const double log_share = log(question.share) * (raised == 0.0 ? 1.0 : exp(shape * log(raised)));
    needed->pieces = fer_clean_pieces(log_share, question.confidence);
    needed->reached.fraction = below_one(-expm1((double)needed->pieces * log_share));
    return FER_OK;
}

fer_status fer_find_bursts_without_failure(const fer_burst_aim *aim, double raised, double shape,
                                           fer_pieces_needed *needed)
{
    FER_REQUIRE(needed, FER_ARGUMENT_MISSING);
    FER_EMPTY(*needed);
    FER_LEAVE_OUT(needed->reached);
    return find_without(aim, raised, shape, needed);
}
