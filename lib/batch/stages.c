/* SPDX-License-Identifier: MIT */
/* Plans that stop as soon as they can.
 * Method: the distribution of the number of bad pieces carried on from stage to stage; the cut by doubling and halving.
 * Formulas: include/ferrule/sampling.h; docs/sampling.md. */
#include "batch/sampling_private.h"

#include "base/value_private.h"

/* ---- risks ----------------------------------------------------------------------------------------------- */

/* The pieces that are drawn from: endless with a share of bad ones, or a lot with so many. */
typedef struct {
    double share, bad, lot;
} source;

/* Probability that piece number i (from 0 on) is bad, where x bad ones came before it; no piece beyond what the lot has. */
static double next_bad(const source *s, double i, double x)
{
    return s->lot == 0.0 ? s->share : fmin(fmax((s->bad - x) / (s->lot - i), 0.0), 1.0);
}

/* Probabilities of 0, 1, ... bad ones among the undecided. */
typedef struct {
    double of[FER_PLAN_REFUSE_MAXIMUM + 1];
    int from, to; /* the numbers that are undecided, ends included */
} undecided;

/* One more piece; returns what is accepted by it. From the top down, so that each number still has its old value when it is needed. */
static double take_piece(undecided *u, fer_plan_stage stage, const source *s, double i)
{
    double accepted = 0.0;
    for (int x = u->to + 1; x >= u->from; x--) {
        const double good = x <= u->to ? u->of[x] * (1.0 - next_bad(s, i, x)) : 0.0;
        u->of[x] = good + (x > u->from ? u->of[x - 1] * next_bad(s, i, x - 1.0) : 0.0);
        if (x <= stage.accept) {
            accepted += u->of[x];
        }
    }
    u->to = u->to + 1 < stage.refuse ? u->to + 1 : stage.refuse - 1;
    u->from = u->from > stage.accept ? u->from : stage.accept + 1;
    return accepted;
}

static double still_undecided(const undecided *u)
{
    double sum = 0.0;
    for (int x = u->from; x <= u->to; x++) {
        sum += u->of[x];
    }
    return sum;
}

/* Stages come from a list or from a rule. */
typedef fer_plan_stage stage_at(const void *context, size_t i);

static fer_stages_risk carry_on(stage_at *stage, const void *context, size_t count, const source *s)
{
    fer_stages_risk risk = {{0.0}, 0.0};
    undecided u = {{1.0}, 0, 0};
    for (size_t i = 0; i < count && u.from <= u.to; i++) {
        risk.pieces += still_undecided(&u);
        risk.accepted.fraction += take_piece(&u, stage(context, i), s, (double)i);
    }
    return risk;
}

static fer_plan_stage listed_stage(const void *context, size_t i)
{
    return ((const fer_plan_stage *)context)[i];
}

static fer_status check_stages(const fer_plan_stage *stages, size_t count)
{
    FER_REQUIRE(stages, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_REQUIRE(count <= FER_PLAN_PIECES_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    for (size_t i = 0; i < count; i++) {
        FER_REQUIRE(stages[i].accept >= -1 && stages[i].refuse > stages[i].accept, FER_STAGES_OUT_OF_RANGE);
        FER_REQUIRE(stages[i].refuse >= 1 && stages[i].refuse <= FER_PLAN_REFUSE_MAXIMUM,
                    FER_STAGES_OUT_OF_RANGE);
    }
    FER_REQUIRE(stages[count - 1].refuse == stages[count - 1].accept + 1, FER_STAGES_NEVER_END);
    return FER_OK;
}

static fer_status find_risk(const fer_plan_stage *stages, size_t count, size_t lot, fer_ratio bad,
                            fer_stages_risk *risk)
{
    FER_TRY(check_stages(stages, count));
    FER_TRY(fer_check_lot(lot));
    FER_REQUIRE(lot == 0 || count <= lot, FER_PLAN_PIECES_OUT_OF_RANGE);
    FER_REQUIRE(bad.fraction >= 0.0 && bad.fraction <= 1.0, FER_PLAN_SHARE_OUT_OF_RANGE);
    const source s = {bad.fraction, fer_whole_pieces(bad.fraction, lot), (double)lot};
    *risk = carry_on(listed_stage, stages, count, &s);
    return FER_OK;
}

fer_status fer_find_stages_risk(const fer_plan_stage *stages, size_t count, size_t lot, fer_ratio bad,
                                fer_stages_risk *risk)
{
    FER_REQUIRE(risk, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*risk);
    return find_risk(stages, count, lot, bad, risk);
}

/* ---- stages of a plan ------------------------------------------------------------------------------------ */

/* Wald's lines, cut off after so many pieces; lines that are infinitely far apart leave the plan that is only curtailed. */
typedef struct {
    double slope, below, above;
    size_t pieces;
    int accept;
} lines;

static fer_plan_stage line_stage(const void *context, size_t i)
{
    const lines *l = (const lines *)context;
    const double n = (double)(i + 1), left = (double)(l->pieces - i - 1);
    const double last = (double)l->accept - left; /* from here on no more can become bad than are accepted */
    const double accept = fmax(fmax(floor(l->slope * n - l->below), last), -1.0);
    const double refuse = fmin(ceil(l->slope * n + l->above), (double)l->accept + 1.0);
    const fer_plan_stage stage = {(int)fmin(accept, refuse - 1.0), (int)refuse};
    return stage;
}

static fer_status write_stages(const lines *l, fer_plan_stage *stages, size_t capacity, size_t *found)
{
    FER_REQUIRE(capacity >= l->pieces, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    for (size_t i = 0; i < l->pieces; i++) {
        stages[i] = line_stage(l, i);
    }
    *found = l->pieces;
    return FER_OK;
}

/* Stages that only leave out what can change nothing. */
static lines curtailed(const fer_plan *plan)
{
    const lines l = {0.0, INFINITY, INFINITY, plan->pieces, (int)plan->accept};
    return l;
}

static fer_status curtail(const fer_plan *plan, fer_plan_stage *stages, size_t capacity, size_t *found)
{
    FER_REQUIRE(plan && stages, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_plan(plan));
    FER_REQUIRE(plan->accept < FER_PLAN_REFUSE_MAXIMUM, FER_PLAN_ACCEPT_OUT_OF_RANGE);
    const lines l = curtailed(plan);
    return write_stages(&l, stages, capacity, found);
}

fer_status fer_curtail_plan(const fer_plan *plan, fer_plan_stage *stages, size_t capacity, size_t *found)
{
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    return curtail(plan, stages, capacity, found);
}

static lines wald_lines(const fer_risk_question *question)
{
    const double rest = log1p(-question->good) - log1p(-question->bad);
    const double g = log(question->bad / question->good) + rest;
    const lines l = {rest / g, log((1.0 - question->producer) / question->consumer) / g,
                     log((1.0 - question->consumer) / question->producer) / g, 0, 0};
    return l;
}

static double acceptance(const lines *l, double share)
{
    const source s = {share, 0.0, 0.0};
    return carry_on(line_stage, l, l->pieces, &s).accepted.fraction;
}

/* Smallest cut that keeps the consumer's risk: a plan that is cut off later accepts more seldom. Below `pieces` none does; 0: none does
 * up to three times that. */
static size_t cut_for(lines l, const fer_risk_question *question, size_t pieces)
{
    size_t low = pieces - 1,
           high = 3 * pieces < FER_PLAN_PIECES_MAXIMUM ? 3 * pieces : FER_PLAN_PIECES_MAXIMUM;
    l.pieces = high;
    if (acceptance(&l, question->bad) > question->consumer) {
        return 0;
    }
    while (high - low > 1) {
        l.pieces = low + (high - low) / 2;
        if (acceptance(&l, question->bad) > question->consumer) {
            low = l.pieces;
        } else {
            high = l.pieces;
        }
    }
    return high;
}

enum { tries = 10 }; /* of numbers that are accepted */

/* Accepting more costs pieces, and refuses fewer good lots. Wald's lines keep the risks nearly, so that there may be no cut. */
static fer_status find_lines(const fer_risk_question *question, lines *l)
{
    fer_plan plan = {0};
    FER_TRY(fer_find_plan(question, 0, &plan));
    FER_REQUIRE(plan.accept + tries <= FER_PLAN_REFUSE_MAXIMUM, FER_PLAN_NOT_REACHABLE);
    for (size_t more = 0; more < tries; more++) {
        *l = wald_lines(question);
        l->accept = (int)(plan.accept + more);
        l->pieces = cut_for(*l, question, plan.pieces);
        if (l->pieces > 0 && acceptance(l, question->good) >= 1.0 - question->producer) {
            return FER_OK;
        }
    }
    *l = curtailed(&plan);
    return FER_OK;
}

static fer_status choose_stages(const fer_plan_aim *aim, fer_plan_stage *stages, size_t capacity,
                                size_t *found)
{
    fer_risk_question question = {0};
    lines l = {0};
    FER_REQUIRE(stages, FER_ARGUMENT_MISSING);
    FER_TRY(fer_take_plan_aim(aim, 1e-6, &question));
    FER_TRY(find_lines(&question, &l));
    return write_stages(&l, stages, capacity, found);
}

fer_status fer_choose_stages(const fer_plan_aim *aim, fer_plan_stage *stages, size_t capacity, size_t *found)
{
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    return choose_stages(aim, stages, capacity, found);
}
