/* SPDX-License-Identifier: MIT */
/* Module batch. The rules are those of the header; figures of SciPy 1.10.1 where they are not by hand. */
#include "check.h"

enum { most_pieces = 500 };

/* Thirty scores of mean 0 and standard deviation 0.853, invented, without a trend. */
static const double scores[30] = {0.1,  -0.8, 1.2,  0.4, -0.3, 0.9, -1.4, 0.2,  0.6,  -0.5,
                                  -1.1, 1.6,  -0.2, 0.3, -0.7, 0.8, -0.1, -1.8, 0.5,  1.0,
                                  -0.6, 0.0,  -0.9, 1.3, -0.4, 0.7, -1.2, 0.15, 0.35, -0.25};

static fer_sample_piece pieces[most_pieces];
static fer_batch_question question;
static fer_batch_answer answer;

static void fill(size_t count, double mean, double deviation)
{
    memset(pieces, 0, sizeof pieces);
    for (size_t i = 0; i < count; i++) {
        pieces[i].diameter.mm = mean + deviation * scores[i % 30];
    }
}

/* 23.4 to 23.6 mm, a lot of 200, a gauge of which something is known. */
static void ask(void)
{
    memset(&question, 0, sizeof question);
    question.wanted.limits.lower.mm = 23.4;
    question.wanted.limits.upper.mm = 23.6;
    question.measuring.repeatability.mm = 0.003;
    question.lot = 200;
}

static int has(fer_batch_finding finding)
{
    return (int)(answer.findings.bits >> finding & 1);
}

static void check(size_t count, fer_decision decision, uint64_t findings)
{
    CHECK_OK(fer_judge_batch(pieces, count, &question, &answer));
    const uint64_t always = UINT64_C(1) << FER_BATCH_FINDING_DIAMETERS_ONLY;
    if (answer.findings.bits != (findings | always) || answer.decision != decision) {
        for (int i = 0; i < FER_BATCH_FINDING_COUNT; i++) {
            if (has((fer_batch_finding)i)) {
                print_message("%s\n", fer_batch_finding_name((fer_batch_finding)i));
            }
        }
        fail_msg("decision %d, findings %llx", (int)answer.decision,
                 (unsigned long long)answer.findings.bits);
    }
}

#define BIT(name) (UINT64_C(1) << FER_BATCH_FINDING_##name)

static void a_good_sample_is_accepted(void **state)
{
    (void)state;
    ask();
    fill(30, 23.505, 0.02);
    check(30, FER_DECISION_ACCEPT, 0);
    fer_sample_summary summary;
    fer_share_outside share;
    fer_ratio rest;
    CHECK_OK(fer_summarise_sample(pieces, 30, &summary));
    CHECK_OK(
        fer_find_share_outside(&summary, &question.wanted, question.confidence, question.measuring, &share));
    CHECK_OK(fer_find_rest_inside(&summary, &question.wanted, 170, question.measuring, &rest));
    CHECK_NEAR(answer.mean.mm, summary.mean.mm, 0.0);
    CHECK_NEAR(answer.outside_share.fraction, share.outside.fraction, 0.0);
    CHECK_NEAR(answer.outside_upper.fraction, share.outside_upper.fraction, 0.0);
    CHECK_NEAR(answer.rest_inside.fraction, rest.fraction, 0.0);
    const double own = sqrt(summary.scatter.value.mm * summary.scatter.value.mm - 9e-6);
    CHECK_NEAR(answer.deviation.mm, own, 1e-15);
    CHECK_NEAR(answer.index, (23.6 - summary.mean.mm) / (3.0 * own), 1e-12);
    assert_true(answer.index_lower > 1.33 && answer.index_lower < answer.index);
    CHECK_NEAR(answer.correction.mm, 23.5 - summary.mean.mm, 1e-12);
    assert_int_equal(answer.more_pieces, 0);
    assert_int_equal(answer.to_burst, 0);
    assert_true(answer.cautions.bits == fer_stage_cautions(FER_STAGE_PRESSURE).bits);
}

static void one_piece_outside_rejects(void **state)
{
    (void)state;
    ask();
    fill(30, 23.505, 0.02);
    pieces[12].diameter.mm = 23.7;
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_int_equal(answer.decision, FER_DECISION_REJECT);
    assert_int_equal(answer.outside, 1);
    assert_true(has(FER_BATCH_FINDING_PIECE_OUTSIDE));
    assert_int_equal(answer.more_pieces, 0);
    assert_true(answer.cautions.bits ==
                (fer_stage_cautions(FER_STAGE_PRESSURE).bits | fer_stage_cautions(FER_STAGE_FAILURE).bits));
    question.lot = 0; /* also where all are measured */
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_int_equal(answer.decision, FER_DECISION_REJECT);
    question.wanted.side = FER_SIDE_LOWER; /* 23.7 is not below 23.4 */
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_int_equal(answer.decision, FER_DECISION_ACCEPT);
    CHECK_NAN(answer.correction.mm); /* one limit has no middle */
}

/* In the guard band of 1.65 times 0.003 mm either way of 23.6 mm nothing is decided. */
static void a_piece_at_a_limit_is_undecided(void **state)
{
    (void)state;
    static const double places[] = {23.594, 23.596, 23.604, 23.606};
    static const fer_decision decisions[] = {FER_DECISION_ACCEPT, FER_DECISION_UNDECIDED,
                                             FER_DECISION_UNDECIDED, FER_DECISION_REJECT};
    for (size_t i = 0; i < 4; i++) {
        ask();
        question.lot = 0;
        fill(30, 23.505, 0.02);
        pieces[0].diameter.mm = places[i];
        CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
        assert_int_equal(answer.decision, decisions[i]);
        assert_int_equal(answer.undecided, decisions[i] == FER_DECISION_UNDECIDED);
        assert_int_equal(has(FER_BATCH_FINDING_PIECES_UNDECIDED), decisions[i] == FER_DECISION_UNDECIDED);
        if (decisions[i] == FER_DECISION_UNDECIDED) {
            assert_true(answer.cautions.bits == (fer_stage_cautions(FER_STAGE_PRESSURE).bits |
                                                 fer_stage_cautions(FER_STAGE_HOLD).bits));
        }
    }
    question.measuring.common.mm = 0.004; /* 1.65 times 0.005 */
    pieces[0].diameter.mm = 23.592;
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_int_equal(answer.decision, FER_DECISION_UNDECIDED);
    question.guard.factor = 1.5;
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_int_equal(answer.decision, FER_DECISION_ACCEPT);
}

static void a_gauge_of_which_nothing_is_known_accepts_nothing(void **state)
{
    (void)state;
    ask();
    fill(30, 23.505, 0.02);
    question.measuring.repeatability.mm = 0.0;
    check(30, FER_DECISION_UNDECIDED, BIT(GAUGE_NOT_KNOWN));
    question.lot = 0;
    check(30, FER_DECISION_UNDECIDED, BIT(GAUGE_NOT_KNOWN));
    question.guard.without = 1;
    check(30, FER_DECISION_ACCEPT, 0);
    question.guard.without = 0;
    question.measuring.resolution.mm = 0.001;
    check(30, FER_DECISION_ACCEPT, 0);
    question.measuring.resolution.mm = 0.0;
    question.measuring.common.mm = 0.001;
    check(30, FER_DECISION_ACCEPT, 0);
}

/* More pieces: with as many as are reported the limit does, with one fewer it does not. */
static void few_pieces_show_little(void **state)
{
    (void)state;
    ask();
    question.allowed.fraction = 0.001;
    question.lot = 10000;
    fill(5, 23.5, 0.025);
    check(5, FER_DECISION_UNDECIDED, BIT(SHARE_NOT_SHOWN));
    const size_t number = 5 + answer.more_pieces;
    fer_sample_summary summary;
    fer_share_outside share;
    CHECK_OK(fer_summarise_sample(pieces, 5, &summary));
    summary.count = number;
    CHECK_OK(
        fer_find_share_outside(&summary, &question.wanted, question.confidence, question.measuring, &share));
    assert_true(share.outside_upper.fraction <= 0.001);
    summary.count = number - 1;
    CHECK_OK(
        fer_find_share_outside(&summary, &question.wanted, question.confidence, question.measuring, &share));
    assert_true(share.outside_upper.fraction > 0.001);
    question.lot = number - 2; /* no more than there are */
    check(5, FER_DECISION_UNDECIDED, BIT(SHARE_NOT_SHOWN));
    assert_int_equal(answer.more_pieces, number - 7);
    question.lot = 0;
    check(5, FER_DECISION_ACCEPT, 0);
    CHECK_NEAR(answer.rest_inside.fraction, 1.0, 0.0);
    /* the allowed share is not given: 1 % */
    question.lot = 10000;
    question.allowed.fraction = 0.0;
    CHECK_OK(fer_judge_batch(pieces, 5, &question, &answer));
    assert_int_equal(answer.decision,
                     answer.outside_upper.fraction <= 0.01 ? FER_DECISION_ACCEPT : FER_DECISION_UNDECIDED);
}

static void one_or_two_pieces(void **state)
{
    (void)state;
    ask();
    fill(2, 23.5, 0.02);
    check(1, FER_DECISION_UNDECIDED, BIT(SHARE_NOT_SHOWN));
    CHECK_NEAR(answer.mean.mm, pieces[0].diameter.mm, 0.0);
    CHECK_NAN(answer.deviation.mm);
    CHECK_NAN(answer.outside_upper.fraction);
    CHECK_NAN(answer.rest_inside.fraction);
    assert_int_equal(answer.more_pieces, 0);
    question.lot = 1;
    check(1, FER_DECISION_ACCEPT, 0);
    CHECK_NEAR(answer.rest_inside.fraction, 1.0, 0.0);
    question.lot = 200;
    check(2, FER_DECISION_UNDECIDED, BIT(SHARE_NOT_SHOWN));
    CHECK_NAN(answer.outside_upper.fraction);
    assert_true(answer.index > 0.0 && answer.more_pieces > 0);
}

static void an_index_that_is_asked(void **state)
{
    (void)state;
    ask();
    fill(30, 23.505, 0.02);
    question.index = 1.5;
    check(30, FER_DECISION_ACCEPT, 0);
    question.index = answer.index_lower + 0.01;
    check(30, FER_DECISION_UNDECIDED, BIT(INDEX_NOT_SHOWN));
    assert_true(answer.more_pieces > 0 && answer.more_pieces < 10);
    question.index = answer.index - 0.15; /* many more: one fewer does not do */
    question.lot = 100000;
    check(30, FER_DECISION_UNDECIDED, BIT(INDEX_NOT_SHOWN));
    assert_true(answer.more_pieces > 40 && answer.more_pieces < 200);
    question.index = answer.index + 0.01; /* more than the process has */
    question.lot = 100000;
    check(30, FER_DECISION_UNDECIDED, BIT(INDEX_NOT_SHOWN) | BIT(CANNOT_BE_SHOWN));
    assert_int_equal(answer.more_pieces, 0);
    question.lot = 0; /* the pieces are accepted, and the finding stays */
    check(30, FER_DECISION_ACCEPT, BIT(INDEX_NOT_SHOWN));
}

static void a_level_that_changed(void **state)
{
    (void)state;
    ask();
    fill(30, 23.48, 0.01);
    for (size_t i = 15; i < 30; i++) {
        pieces[i].diameter.mm += 0.04;
    }
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_int_equal(answer.decision, FER_DECISION_UNDECIDED);
    assert_true(has(FER_BATCH_FINDING_LEVEL_CHANGED) && has(FER_BATCH_FINDING_CHART_SIGNAL));
    assert_int_equal(answer.change_after, 14);
    assert_true(answer.signal_at >= 15 && answer.signal_at <= 20);
    question.lot = 0; /* all are measured, and each is good */
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_int_equal(answer.decision, FER_DECISION_ACCEPT);
    assert_true(has(FER_BATCH_FINDING_LEVEL_CHANGED));
    /* rules of one's own: none that this signals */
    question.lot = 200;
    question.charting.alternating = 30;
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_false(has(FER_BATCH_FINDING_CHART_SIGNAL));
    assert_true(has(FER_BATCH_FINDING_LEVEL_CHANGED));
}

static void groups_that_differ(void **state)
{
    (void)state;
    ask();
    question.charting.alternating = 30;
    fill(30, 23.5, 0.01);
    for (size_t i = 0; i < 30; i++) {
        pieces[i].group = (int)(i % 3);
        pieces[i].diameter.mm += 0.01 * ((double)(i % 3) - 1.0);
    }
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_true(has(FER_BATCH_FINDING_GROUPS_DIFFER));
    assert_int_equal(answer.decision, FER_DECISION_UNDECIDED);
    for (size_t i = 0; i < 30; i++) {
        pieces[i].group = 0;
    }
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_false(has(FER_BATCH_FINDING_GROUPS_DIFFER));
}

/* Two streams 0.06 mm apart, in turn; eight pieces are looked at for it, seven are not. */
static void values_that_are_not_normal(void **state)
{
    (void)state;
    ask();
    question.charting.alternating = 30;
    fill(30, 23.5, 0.002);
    for (size_t i = 0; i < 30; i++) {
        pieces[i].diameter.mm += i % 2 ? 0.03 : -0.03;
    }
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_true(has(FER_BATCH_FINDING_NOT_NORMAL));
    assert_int_equal(answer.decision, FER_DECISION_UNDECIDED);
    fill(8, 23.5, 0.0001);
    pieces[3].diameter.mm = 23.55;
    CHECK_OK(fer_judge_batch(pieces, 8, &question, &answer));
    assert_true(has(FER_BATCH_FINDING_NOT_NORMAL) && has(FER_BATCH_FINDING_OUTLIER));
    CHECK_OK(fer_judge_batch(pieces, 7, &question, &answer));
    assert_false(has(FER_BATCH_FINDING_NOT_NORMAL));
}

static void scatter_that_is_not_seen(void **state)
{
    (void)state;
    ask();
    fill(10, 23.5, 0.0);
    check(10, FER_DECISION_UNDECIDED, BIT(NO_SCATTER) | BIT(SHARE_NOT_SHOWN));
    CHECK_NAN(answer.deviation.mm);
    CHECK_NAN(answer.index);
    question.lot = 0;
    check(10, FER_DECISION_ACCEPT, BIT(NO_SCATTER));
    ask();
    fill(30, 23.5, 0.003); /* 0.0026 mm, where the gauge has 0.003 */
    check(30, FER_DECISION_UNDECIDED, BIT(GAUGE_COVERS_SCATTER) | BIT(SHARE_NOT_SHOWN));
    CHECK_NAN(answer.index_lower);
    fill(30, 23.5, 0.0045); /* 0.0038: the gauge has 0.61 of the variance */
    check(30, FER_DECISION_ACCEPT, BIT(GAUGE_WIDE));
    fill(30, 23.5, 0.006); /* 0.0051: 0.34 */
    check(30, FER_DECISION_ACCEPT, 0);
    question.measuring.resolution.mm = 0.0012;
    check(30, FER_DECISION_ACCEPT, 0);
    question.measuring.resolution.mm = 0.0014;
    check(30, FER_DECISION_ACCEPT, BIT(STEP_TOO_COARSE));
    question.charting.resolution.mm = 0.5; /* one of its own: with it no score is large */
    pieces[20].diameter.mm = 23.55;
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_false(has(FER_BATCH_FINDING_CHART_SIGNAL));
}

/* 2 times 0.0171/root 30 = 0.0062, and with 0.004 common to all 2 root(0.0031² + 0.004²) = 0.0101. */
static void a_mean_off_the_target(void **state)
{
    (void)state;
    ask();
    fill(30, 23.5, 0.02);
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    const double mean = answer.mean.mm;
    question.wanted.target.mm = mean + 0.0058;
    check(30, FER_DECISION_ACCEPT, 0);
    question.wanted.target.mm = mean + 0.0070;
    check(30, FER_DECISION_ACCEPT, BIT(OFF_TARGET));
    CHECK_NEAR(answer.correction.mm, 0.0070, 1e-12);
    question.wanted.target.mm = mean - 0.0070;
    check(30, FER_DECISION_ACCEPT, BIT(OFF_TARGET));
    question.measuring.common.mm = 0.004;
    check(30, FER_DECISION_ACCEPT, 0);
}

static void no_number_of_pieces_shows_it(void **state)
{
    (void)state;
    ask();
    question.lot = 100000;
    fill(30, 23.575, 0.012); /* 2.4 standard deviations from the limit: 0.8 %, 0.5 % allowed */
    question.allowed.fraction = 0.005;
    CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
    assert_true(has(FER_BATCH_FINDING_CANNOT_BE_SHOWN));
    assert_int_equal(answer.decision, FER_DECISION_UNDECIDED);
    assert_int_equal(answer.more_pieces, 0);
}

static void bursts_are_asked_for(void **state)
{
    (void)state;
    ask();
    fill(30, 23.505, 0.02);
    question.burst_aim.working.mpa = 27.5;
    check(30, FER_DECISION_ACCEPT, BIT(BURSTS_NEEDED));
    assert_int_equal(answer.to_burst, 45); /* ln 0.1/ln 0.95 = 44.9 */
}

static void check_refused(size_t count, fer_status status)
{
    memset(&answer, 0x55, sizeof answer);
    CHECK_STATUS(fer_judge_batch(pieces, count, &question, &answer), status);
    assert_int_equal(answer.decision, FER_DECISION_UNDECIDED);
    assert_true(answer.findings.bits == 0 && answer.cautions.bits == 0);
    assert_int_equal(answer.outside + answer.undecided + answer.more_pieces + answer.to_burst, 0);
    CHECK_NAN(answer.mean.mm);
    CHECK_NAN(answer.rest_inside.fraction);
    CHECK_NAN(answer.correction.mm);
}

static void questions_that_are_refused(void **state)
{
    (void)state;
    ask();
    fill(30, 23.5, 0.02);
    CHECK_STATUS(fer_judge_batch(pieces, 30, &question, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_judge_batch(NULL, 30, &question, &answer), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_judge_batch(pieces, 30, NULL, &answer), FER_ARGUMENT_MISSING);
    check_refused(0, FER_ARGUMENT_COUNT_ZERO);
    check_refused(501, FER_ARGUMENT_COUNT_TOO_LARGE);
    question.lot = 29;
    check_refused(30, FER_BATCH_LOT_OUT_OF_RANGE);
    question.lot = 1000001;
    check_refused(30, FER_BATCH_LOT_OUT_OF_RANGE);
    ask();
    question.allowed.fraction = 0.51;
    check_refused(30, FER_BATCH_ALLOWED_OUT_OF_RANGE);
    question.allowed.fraction = 0.9e-6;
    check_refused(30, FER_BATCH_ALLOWED_OUT_OF_RANGE);
    ask();
    question.confidence.fraction = 0.5;
    check_refused(30, FER_CONFIDENCE_OUT_OF_RANGE);
    ask();
    question.index = 0.009;
    check_refused(30, FER_INDEX_OUT_OF_RANGE);
    question.index = 10.1;
    check_refused(30, FER_INDEX_OUT_OF_RANGE);
    ask();
    question.wanted.limits.upper.mm = 23.3;
    check_refused(30, FER_LIMIT_WRONG_ORDER);
    ask();
    question.wanted.target.mm = 23.7;
    check_refused(30, FER_TARGET_OUTSIDE_LIMITS);
    ask();
    question.measuring.common.mm = -1.0;
    check_refused(30, FER_MEASURING_COMMON_OUT_OF_RANGE);
    ask();
    question.guard.factor = 11.0;
    check_refused(30, FER_GUARD_OUT_OF_RANGE);
    ask();
    question.charting.weight = 0.01;
    check_refused(30, FER_CHART_WEIGHT_OUT_OF_RANGE);
    ask();
    question.burst_aim.working.mpa = 0.0001;
    check_refused(30, FER_BURST_WORKING_OUT_OF_RANGE);
    ask();
    pieces[7].kind = 1;
    check_refused(30, FER_CHART_KINDS_SEVERAL);
    pieces[7].kind = 64;
    check_refused(30, FER_SAMPLE_KIND_OUT_OF_RANGE);
    fill(30, 23.5, 0.02);
    pieces[29].diameter.mm = 0.0;
    check_refused(30, FER_SAMPLE_PIECE_MISSING);
}

/* Each member alone turns the usual signals off. */
static void charting_of_ones_own(void **state)
{
    (void)state;
    for (int i = 0; i < 11; i++) {
        ask();
        fill(30, 23.48, 0.01);
        pieces[20].diameter.mm = 23.523; /* five standard deviations: seen by the usual ones */
        if (i > 0) {
            fer_charting *c = &question.charting;
            double *const numbers[3] = {&c->weight, &c->allowance, &c->beyond};
            int *const lengths[7] = {&c->two_of_three, &c->four_of_five, &c->same_side, &c->rising,
                                     &c->alternating,  &c->inside,       &c->outside};
            if (i <= 3) {
                *numbers[i - 1] = i == 1 ? 0.05 : i == 2 ? 3.0 : 6.0;
                c->limit = i == 1 ? 6.0 : 0.0;
                c->decision = i == 2 ? 20.0 : 0.0;
            } else {
                *lengths[i - 4] = i <= 5 ? 1 : i <= 7 ? 20 : 30;
            }
        }
        CHECK_OK(fer_judge_batch(pieces, 30, &question, &answer));
        assert_int_equal(has(FER_BATCH_FINDING_CHART_SIGNAL), i == 0);
    }
}

static void findings_have_words(void **state)
{
    (void)state;
    assert_string_equal(fer_batch_finding_name(FER_BATCH_FINDING_LEVEL_CHANGED), "LEVEL_CHANGED");
    assert_string_equal(fer_batch_finding_name((fer_batch_finding)7), "UNKNOWN");
    assert_non_null(strstr(fer_batch_finding_sentence(FER_BATCH_FINDING_PIECE_OUTSIDE), "scrap"));
    assert_string_equal(fer_batch_finding_sentence((fer_batch_finding)7), "");
    static const uint64_t severities[4] = {
        BIT(PIECE_OUTSIDE), BIT(GAUGE_NOT_KNOWN) | BIT(NOT_NORMAL) | BIT(CANNOT_BE_SHOWN),
        BIT(PIECES_UNDECIDED) | BIT(CHART_SIGNAL) | BIT(LEVEL_CHANGED) | BIT(GROUPS_DIFFER) |
            BIT(NO_SCATTER) | BIT(GAUGE_COVERS_SCATTER) | BIT(SHARE_NOT_SHOWN) | BIT(INDEX_NOT_SHOWN),
        BIT(OFF_TARGET) | BIT(GAUGE_WIDE) | BIT(STEP_TOO_COARSE) | BIT(OUTLIER) | BIT(BURSTS_NEEDED) |
            BIT(DIAMETERS_ONLY)};
    for (int i = 0; i < FER_BATCH_FINDING_COUNT; i++) {
        for (int severity = FER_SEVERITY_STOP; severity <= FER_SEVERITY_KNOW; severity++) {
            if (severities[severity] >> i & 1) {
                assert_int_equal(fer_batch_finding_severity((fer_batch_finding)i), severity);
            }
        }
    }
    assert_int_equal(fer_batch_finding_severity((fer_batch_finding)7), FER_SEVERITY_STOP);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_good_sample_is_accepted),
        cmocka_unit_test(one_piece_outside_rejects),
        cmocka_unit_test(a_piece_at_a_limit_is_undecided),
        cmocka_unit_test(a_gauge_of_which_nothing_is_known_accepts_nothing),
        cmocka_unit_test(few_pieces_show_little),
        cmocka_unit_test(one_or_two_pieces),
        cmocka_unit_test(an_index_that_is_asked),
        cmocka_unit_test(a_level_that_changed),
        cmocka_unit_test(groups_that_differ),
        cmocka_unit_test(values_that_are_not_normal),
        cmocka_unit_test(scatter_that_is_not_seen),
        cmocka_unit_test(a_mean_off_the_target),
        cmocka_unit_test(no_number_of_pieces_shows_it),
        cmocka_unit_test(bursts_are_asked_for),
        cmocka_unit_test(questions_that_are_refused),
        cmocka_unit_test(charting_of_ones_own),
        cmocka_unit_test(findings_have_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
