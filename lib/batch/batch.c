/* SPDX-License-Identifier: MIT */
/* The diameters of a batch in one call.
 * Method: verdicts of single pieces, then limits of the sample; more pieces by doubling and halving.
 * Formulas: include/ferrule/batch.h; docs/batch.md. */
#include <ferrule/batch.h>

#include "base/numeric/special.h"
#include "base/value_private.h"
#include "base/words.h"
#include "batch/capability_private.h"
#include "batch/chart_private.h"
#include "batch/numeric/smallest.h"
#include "batch/sample_private.h"

/* By chance rarer than this it counts as no chance; the tests are several, so that 5 % would be too often. */
static const double rare = 0.01;

enum { pieces_to_ask_for = 5000, pieces_for_shape = 8 };

/* What is asked, those members that are not given the usual ones, and what the sample says. */
typedef struct {
    const fer_sample_piece *pieces;
    size_t count;
    fer_batch_question question;
    fer_aim aim;
    fer_gauge_part gauge;
    fer_sample_summary summary;
    int all_measured, scatter_seen; /* the latter: beyond that of the gauge */
} batch;

static void find(fer_batch_answer *answer, int applies, fer_batch_finding finding)
{
    if (applies) {
        fer_set_add(&answer->findings.bits, (int)finding);
    }
}

/* ---- the question ---------------------------------------------------------------------------------------- */

static int has_signals(const fer_charting *c)
{
    return c->weight != 0.0 || c->allowance != 0.0 || c->beyond != 0.0 || c->two_of_three ||
           c->four_of_five || c->same_side || c->rising || c->alternating || c->inside || c->outside;
}

static void take_charting(fer_batch_question *question)
{
    fer_charting *charting = &question->charting;
    if (!has_signals(charting)) {
        charting->beyond = 3.5;
        charting->allowance = 0.5;
        charting->decision = 5.0;
    }
    if (charting->resolution.mm == 0.0) {
        charting->resolution = question->measuring.resolution;
    }
}

static fer_status take_figures(batch *b)
{
    fer_batch_question *question = &b->question;
    question->lot = question->lot == 0 ? b->count : question->lot;
    question->allowed.fraction = question->allowed.fraction == 0.0 ? 0.01 : question->allowed.fraction;
    FER_REQUIRE(question->lot >= b->count && question->lot <= 1000000, FER_BATCH_LOT_OUT_OF_RANGE);
    FER_REQUIRE(question->allowed.fraction >= 1e-6 && question->allowed.fraction <= 0.5,
                FER_BATCH_ALLOWED_OUT_OF_RANGE);
    FER_TRY(fer_take_confidence(&question->confidence));
    FER_REQUIRE(question->index == 0.0 || (question->index >= 0.01 && question->index <= 10.0),
                FER_INDEX_OUT_OF_RANGE);
    question->guard.side = question->wanted.side;
    b->all_measured = question->lot == b->count;
    return FER_OK;
}

static fer_status take_question(const fer_sample_piece *pieces, size_t count,
                                const fer_batch_question *question, batch *b)
{
    FER_REQUIRE(count <= FER_BATCH_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    FER_TRY(fer_check_pieces(pieces, count, 1));
    FER_TRY(fer_check_one_kind(pieces, count));
    FER_REQUIRE(question, FER_ARGUMENT_MISSING);
    b->pieces = pieces;
    b->count = count;
    b->question = *question;
    FER_TRY(fer_take_wanted(&question->wanted, &b->aim));
    FER_TRY(fer_check_measuring(&question->measuring));
    FER_TRY(take_figures(b));
    take_charting(&b->question);
    b->gauge = fer_part_of_gauge(&question->measuring);
    return FER_OK;
}

/* ---- single pieces --------------------------------------------------------------------------------------- */

static fer_status judge_pieces(const batch *b, fer_batch_answer *answer)
{
    const fer_process unknown = {{0.0}, {0.0}};
    const fer_length uncertainty = {sqrt(b->gauge.variance + b->gauge.common)};
    for (size_t i = 0; i < b->count; i++) {
        fer_verdict verdict;
        FER_TRY(fer_judge(b->pieces[i].diameter, uncertainty, b->question.wanted.limits, b->question.guard,
                          unknown, &verdict));
        answer->outside += verdict.decision == FER_DECISION_REJECT;
        answer->undecided += verdict.decision == FER_DECISION_UNDECIDED;
    }
    find(answer, answer->outside > 0, FER_BATCH_FINDING_PIECE_OUTSIDE);
    find(answer, answer->undecided > 0, FER_BATCH_FINDING_PIECES_UNDECIDED);
    find(answer, uncertainty.mm == 0.0 && !b->question.guard.without, FER_BATCH_FINDING_GAUGE_NOT_KNOWN);
    return FER_OK;
}

/* ---- order of the pieces --------------------------------------------------------------------------------- */

static fer_status look_at_chart(const batch *b, fer_batch_answer *answer)
{
    const fer_chart_point none = {0};
    fer_chart_point point = none;
    for (size_t i = 0; i < b->count; i++) {
        const fer_chart_point last = point;
        FER_TRY(fer_next_point(&b->pieces[i], last, last, b->question.charting, &point));
        if (point.signals.bits && !fer_set_has(answer->findings.bits, FER_BATCH_FINDING_CHART_SIGNAL)) {
            answer->signal_at = i;
            find(answer, 1, FER_BATCH_FINDING_CHART_SIGNAL);
        }
    }
    return FER_OK;
}

/* Too few pieces, or pieces that are all equal, have no change: that is no failure. */
static void look_for_change(const batch *b, fer_batch_answer *answer)
{
    fer_ratio chances[FER_BATCH_MAXIMUM];
    fer_level_change change;
    size_t found = 0;
    if (fer_find_change(b->pieces, b->count, &change, chances, FER_BATCH_MAXIMUM, &found) == FER_OK &&
        change.p_upper.fraction < rare) {
        answer->change_after = change.last_before;
        find(answer, 1, FER_BATCH_FINDING_LEVEL_CHANGED);
    }
}

static void look_at_shape(const batch *b, fer_batch_answer *answer)
{
    fer_length sorted[FER_BATCH_MAXIMUM];
    fer_normality normality;
    size_t found = 0;
    if (b->count >= pieces_for_shape &&
        fer_test_normality(b->pieces, b->count, b->question.measuring, &normality, sorted, FER_BATCH_MAXIMUM,
                           &found) == FER_OK) {
        find(answer, normality.shapiro_p.fraction < rare, FER_BATCH_FINDING_NOT_NORMAL);
    }
}

/* ---- level and scatter ----------------------------------------------------------------------------------- */

static void describe_level(const batch *b, fer_batch_answer *answer)
{
    const double deviation = b->summary.scatter.value.mm, off = b->aim.target - b->summary.mean.mm;
    const double error = sqrt(deviation * deviation / (double)b->count + b->gauge.common);
    answer->correction.mm = off;
    find(answer, fabs(off) > 2.0 * error, FER_BATCH_FINDING_OFF_TARGET);
    find(answer, b->summary.outlier_found, FER_BATCH_FINDING_OUTLIER);
    find(answer, b->summary.groups_p.value.fraction < rare, FER_BATCH_FINDING_GROUPS_DIFFER);
}

static void describe_scatter(batch *b, fer_batch_answer *answer)
{
    const double deviation = b->summary.scatter.value.mm, variance = deviation * deviation;
    b->scatter_seen = deviation > 0.0 && variance > b->gauge.variance;
    find(answer, deviation == 0.0, FER_BATCH_FINDING_NO_SCATTER);
    find(answer, deviation > 0.0 && !b->scatter_seen, FER_BATCH_FINDING_GAUGE_COVERS_SCATTER);
    find(answer, b->scatter_seen && b->gauge.variance > 0.5 * variance, FER_BATCH_FINDING_GAUGE_WIDE);
    find(answer, deviation > 0.0 && b->question.measuring.resolution.mm > 0.25 * deviation,
         FER_BATCH_FINDING_STEP_TOO_COARSE);
    if (b->scatter_seen) {
        answer->deviation.mm = sqrt(variance - b->gauge.variance);
    }
}

/* ---- what the sample shows ------------------------------------------------------------------------------- */

static double nearer_distance(const batch *b)
{
    return fmin(b->summary.mean.mm - b->aim.lower, b->aim.upper - b->summary.mean.mm);
}

/* Lower limit of the nearer index that so many pieces like these would show. */
static double index_shown(const batch *b, size_t number)
{
    const fer_index_basis basis = {nearer_distance(b), b->summary.scatter.value.mm, (double)number,
                                   (double)(number - 1), b->gauge};
    return fer_index_limit(&basis, b->question.confidence.fraction);
}

static double share_shown(const batch *b, size_t number)
{
    fer_sample_summary summary = b->summary;
    fer_share_outside share;
    summary.count = number;
    (void)fer_find_share_outside(&summary, &b->question.wanted, b->question.confidence, b->question.measuring,
                                 &share);
    return share.outside_upper.fraction;
}

/* The nearer limit alone is quick, and what does not do for it does not do for both. */
static int shows(size_t number, const void *context)
{
    const batch *b = (const batch *)context;
    const double index = index_shown(b, number);
    if (!(index >= b->question.index && fer_normal_cdf(-3.0 * index) <= b->question.allowed.fraction)) {
        return 0;
    }
    return share_shown(b, number) <= b->question.allowed.fraction;
}

/* No more than there are: then all are measured. */
static void ask_for_more(const batch *b, fer_batch_answer *answer)
{
    const size_t number = fer_smallest_number(shows, b, b->count < 2 ? 2 : b->count, pieces_to_ask_for);
    find(answer, number == 0, FER_BATCH_FINDING_CANNOT_BE_SHOWN);
    if (number > 0) {
        answer->more_pieces = (number < b->question.lot ? number : b->question.lot) - b->count;
    }
}

/* Figures that a sample without scatter, or of so few pieces, does not have stay NaN. */
static void describe_shown(const batch *b, fer_batch_answer *answer)
{
    fer_share_outside share;
    answer->index = nearer_distance(b) / (3.0 * answer->deviation.mm);
    answer->index_lower = index_shown(b, b->count);
    if (fer_find_share_outside(&b->summary, &b->question.wanted, b->question.confidence,
                               b->question.measuring, &share) == FER_OK) {
        answer->outside_share = share.outside;
        answer->outside_upper = share.outside_upper;
    }
    if (!b->all_measured) {
        (void)fer_find_rest_inside(&b->summary, &b->question.wanted, (int)(b->question.lot - b->count),
                                   b->question.measuring, &answer->rest_inside);
    }
}

static void judge_sample(const batch *b, fer_batch_answer *answer)
{
    const int share_open =
        !b->all_measured && !(answer->outside_upper.fraction <= b->question.allowed.fraction);
    const int index_open = b->question.index > 0.0 && !(answer->index_lower >= b->question.index);
    find(answer, share_open, FER_BATCH_FINDING_SHARE_NOT_SHOWN);
    find(answer, index_open, FER_BATCH_FINDING_INDEX_NOT_SHOWN);
    if ((share_open || index_open) && !b->all_measured && b->scatter_seen && answer->outside == 0) {
        ask_for_more(b, answer);
    }
}

/* ---- the answer ------------------------------------------------------------------------------------------ */

static const fer_severities severities = FER_SEVERITIES_OF(FER_BATCH_FINDING_LIST);

/* What stands in the way of accepting. Where all are measured the rest is no matter. */
static uint64_t in_the_way(const batch *b)
{
    const uint64_t of_pieces =
        UINT64_C(1) << FER_BATCH_FINDING_PIECES_UNDECIDED | UINT64_C(1) << FER_BATCH_FINDING_GAUGE_NOT_KNOWN;
    return b->all_measured ? of_pieces
                           : severities.of[FER_SEVERITY_STOP] | severities.of[FER_SEVERITY_CONFIRM] |
                                 severities.of[FER_SEVERITY_DO_FIRST];
}

static void decide(const batch *b, fer_batch_answer *answer)
{
    answer->cautions = fer_stage_cautions(FER_STAGE_PRESSURE);
    if (answer->outside > 0) {
        answer->decision = FER_DECISION_REJECT;
        answer->cautions.bits |= fer_stage_cautions(FER_STAGE_FAILURE).bits;
    } else if (answer->findings.bits & in_the_way(b)) {
        answer->decision = FER_DECISION_UNDECIDED;
        answer->cautions.bits |= fer_stage_cautions(FER_STAGE_HOLD).bits;
    } else {
        answer->decision = FER_DECISION_ACCEPT;
    }
    find(answer, 1, FER_BATCH_FINDING_DIAMETERS_ONLY);
}

static fer_status ask_for_bursts(const batch *b, fer_batch_answer *answer)
{
    const fer_burst_aim *aim = &b->question.burst_aim;
    fer_pieces_needed needed = {0};
    if (aim->working.mpa != 0.0) {
        FER_TRY(fer_find_bursts_without_failure(aim, 1.0, 0.0, &needed));
        answer->to_burst = needed.pieces;
        find(answer, 1, FER_BATCH_FINDING_BURSTS_NEEDED);
    }
    return FER_OK;
}

/* One piece has no scatter: its sample says nothing. */
static void describe_sample(batch *b, fer_batch_answer *answer)
{
    answer->rest_inside.fraction = b->all_measured ? 1.0 : answer->rest_inside.fraction;
    if (b->count < 2) {
        answer->mean = b->pieces[0].diameter;
        answer->correction.mm = b->aim.target - answer->mean.mm;
        return;
    }
    (void)fer_summarise_sample(b->pieces, b->count, &b->summary); /* all of it was checked */
    answer->mean = b->summary.mean;
    describe_level(b, answer);
    describe_scatter(b, answer);
    look_for_change(b, answer);
    look_at_shape(b, answer);
    if (b->scatter_seen) {
        describe_shown(b, answer);
    }
}

static fer_status judge_batch(const fer_sample_piece *pieces, size_t count,
                              const fer_batch_question *question, fer_batch_answer *answer)
{
    batch b = {0};
    FER_TRY(take_question(pieces, count, question, &b));
    FER_TRY(judge_pieces(&b, answer));
    FER_TRY(look_at_chart(&b, answer));
    FER_TRY(ask_for_bursts(&b, answer));
    describe_sample(&b, answer);
    judge_sample(&b, answer);
    decide(&b, answer);
    return FER_OK;
}

static void leave_out_answer(fer_batch_answer *answer)
{
    FER_EMPTY(*answer);
    FER_LEAVE_OUT_FROM(fer_batch_answer, *answer, mean, correction);
}

fer_status fer_judge_batch(const fer_sample_piece *pieces, size_t count, const fer_batch_question *question,
                           fer_batch_answer *answer)
{
    FER_REQUIRE(answer, FER_ARGUMENT_MISSING);
    leave_out_answer(answer);
    const fer_status status = judge_batch(pieces, count, question, answer);
    if (status != FER_OK) {
        leave_out_answer(answer);
    }
    return status;
}

/* ---- words of the findings ------------------------------------------------------------------------------- */

typedef struct {
    FER_BATCH_FINDING_LIST(FER_WORDS_MEMBERS_OF_FOUR)
} finding_words;

static const finding_words words = {FER_BATCH_FINDING_LIST(FER_WORDS_TEXT_OF_FOUR)};

#define PLACE(name, number, severity, sentence) FER_WORDS_PLACE(finding_words, name, number)
static const fer_word_place places[] = {FER_BATCH_FINDING_LIST(PLACE)};
enum { place_count = sizeof places / sizeof *places };

const char *fer_batch_finding_name(fer_batch_finding finding)
{
    const char *name = fer_name_among((const char *)&words, places, place_count, (int)finding);
    return name ? name : "UNKNOWN";
}

const char *fer_batch_finding_sentence(fer_batch_finding finding)
{
    const char *sentence = fer_sentence_among((const char *)&words, places, place_count, (int)finding);
    return sentence ? sentence : "";
}

fer_severity fer_batch_finding_severity(fer_batch_finding finding)
{
    return fer_severity_among(&severities, (int)finding);
}
