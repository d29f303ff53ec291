/* SPDX-License-Identifier: MIT */
#include "check.h"

#define PI 3.14159265358979323846

static const fer_guard usual = {0};
static const fer_process unknown = {0};

static fer_length_range limits_of(double lower, double upper)
{
    const fer_length_range limits = {{lower}, {upper}};
    return limits;
}

static fer_verdict verdict_of(double value, double u, double lower, double upper, fer_guard guard)
{
    fer_verdict verdict;
    CHECK_OK(fer_judge(fer_mm(value), fer_mm(u), limits_of(lower, upper), guard, unknown, &verdict));
    return verdict;
}

/* JCGM 106:2012, 7.3 examples (from memory, reproduced): one upper limit -5.40 and one lower limit 490. */
static void the_examples_of_jcgm_106(void **state)
{
    (void)state;
    const fer_guard upper = {0, 0, FER_SIDE_UPPER, 0}, lower = {0, 0, FER_SIDE_LOWER, 0};
    const fer_verdict a = verdict_of(-5.47, 0.05, NAN, -5.40, upper);
    CHECK_NEAR(a.conforming.fraction, 0.919243, 5e-7);
    CHECK_NEAR(a.above.fraction, 1.0 - 0.919243, 5e-7);
    CHECK_NEAR(a.below.fraction, 0.0, 0.0);
    assert_int_equal(a.decision, FER_DECISION_UNDECIDED);
    const fer_verdict b = verdict_of(509.7, 8.6, 490.0, NAN, lower);
    CHECK_NEAR(b.conforming.fraction, 0.989010, 5e-7);
    assert_int_equal(b.decision, FER_DECISION_ACCEPT);
    CHECK_NEAR(b.accept.lower.mm, 490.0 + 1.65 * 8.6, 1e-12);
}

/* ISO 14253-1:2017: guard band 1.65 u inside for acceptance, outside for rejection. */
static void the_guard_band_divides_three_ways(void **state)
{
    (void)state;
    const double u = 0.02, g = 1.65 * u;
    const double values[] = {23.0 - g - 1e-9, 23.0 - g + 1e-9, 23.0 + g - 1e-9, 23.0 + g + 1e-9,
                             24.0 - g - 1e-9, 24.0 - g + 1e-9, 24.0 + g - 1e-9, 24.0 + g + 1e-9};
    const fer_decision decisions[] = {FER_DECISION_REJECT,    FER_DECISION_UNDECIDED, FER_DECISION_UNDECIDED,
                                      FER_DECISION_ACCEPT,    FER_DECISION_ACCEPT,    FER_DECISION_UNDECIDED,
                                      FER_DECISION_UNDECIDED, FER_DECISION_REJECT};
    for (int i = 0; i < 8; i++) {
        const fer_verdict v = verdict_of(values[i], u, 23.0, 24.0, usual);
        assert_int_equal(v.decision, decisions[i]);
        CHECK_NEAR(v.guard.mm, g, 1e-12);
        CHECK_NEAR(v.conforming.fraction + v.below.fraction + v.above.fraction, 1.0, 1e-15);
        assert_false(v.by_probability);
    }
}

static void without_uncertainty_or_guard_the_limits_decide(void **state)
{
    (void)state;
    const fer_guard none = {0, 1, FER_SIDE_BOTH, 0};
    assert_int_equal(verdict_of(24.0, 0.0, 23.0, 24.0, usual).decision, FER_DECISION_ACCEPT);
    assert_int_equal(verdict_of(23.0, 0.0, 23.0, 24.0, usual).decision, FER_DECISION_ACCEPT);
    const fer_verdict outside = verdict_of(24.000001, 0.0, 23.0, 24.0, usual);
    assert_int_equal(outside.decision, FER_DECISION_REJECT);
    CHECK_NEAR(outside.above.fraction, 1.0, 0.0);
    CHECK_NEAR(outside.conforming.fraction, 0.0, 0.0);
    const fer_verdict edge = verdict_of(24.0, 0.1, 23.0, 24.0, none);
    assert_int_equal(edge.decision, FER_DECISION_ACCEPT);
    CHECK_NEAR(edge.conforming.fraction, 0.5, 1e-15);
    assert_int_equal(verdict_of(24.000001, 0.1, 23.0, 24.0, none).decision, FER_DECISION_REJECT);
    /* however wide the uncertainty, and whatever is known of it where there is none */
    const fer_guard by_few = {0, 0, FER_SIDE_BOTH, 4.0};
    const fer_verdict limits_alone[] = {verdict_of(23.1, 5.0, 23.0, 24.0, none),
                                        verdict_of(23.1, 0.0, 23.0, 24.0, by_few)};
    for (int i = 0; i < 2; i++) {
        assert_int_equal(limits_alone[i].decision, FER_DECISION_ACCEPT);
        assert_int_equal(limits_alone[i].by_probability, 0);
        CHECK_NEAR(limits_alone[i].accept.lower.mm, 23.0, 0.0);
        CHECK_NEAR(limits_alone[i].reject.upper.mm, 24.0, 0.0);
    }
}

/* Tolerance 4 u: by the guard band alone a piece at its edge would conform with 0.9411 only (normal distribution,
 * Phi(1.65) - Phi(-2.35)); so the probability decides. */
static void a_narrow_tolerance_is_judged_by_both_tails(void **state)
{
    (void)state;
    const double at_edge = 0.5 * erfc(-1.65 / sqrt(2.0)) - 0.5 * erfc(2.35 / sqrt(2.0));
    CHECK_NEAR(at_edge, 0.9411, 5e-5);
    const fer_verdict v = verdict_of(23.0 + 1.65, 1.0, 23.0, 27.0, usual);
    assert_true(v.by_probability);
    CHECK_NEAR(v.conforming.fraction, at_edge, 1e-14);
    assert_int_equal(v.decision, FER_DECISION_UNDECIDED);
    /* at the end of acceptance and of rejection the probability is what was asked */
    const double asked = 0.5 * erfc(-1.65 / sqrt(2.0));
    CHECK_NEAR(verdict_of(v.accept.lower.mm, 1.0, 23.0, 27.0, usual).conforming.fraction, asked, 1e-12);
    CHECK_NEAR(verdict_of(v.accept.upper.mm, 1.0, 23.0, 27.0, usual).conforming.fraction, asked, 1e-12);
    CHECK_NEAR(verdict_of(v.reject.upper.mm, 1.0, 23.0, 27.0, usual).conforming.fraction, 1.0 - asked, 1e-12);
    /* the two ways meet at a tolerance of five uncertainties: the second tail there is Phi(-3.35) = 0.0004 */
    CHECK_NEAR(verdict_of(25.0, 1.0, 23.0, 27.999, usual).accept.lower.mm, 24.65, 5e-3);
    CHECK_NEAR(verdict_of(25.0, 1.0, 23.0, 28.001, usual).accept.lower.mm, 24.65, 1e-12);
}

/* Nothing accepted, and rejected only what lies a guard band outside: a poor measurement shows nothing. */
static void a_tolerance_that_accepts_nothing_is_a_verdict(void **state)
{
    (void)state;
    /* the middle conforms with 2 Phi(h/u) - 1; Phi(1.65) is reached at h = 1.9645 u */
    const double u = 0.5 / 1.96;
    const double values[] = {23.0 - 1.65 * u - 1e-9, 23.0 - 1.65 * u + 1e-9, 23.5, 24.0 + 1.65 * u - 1e-9,
                             24.0 + 1.65 * u + 1e-9};
    for (int i = 0; i < 5; i++) {
        const fer_verdict v = verdict_of(values[i], u, 23.0, 24.0, usual);
        assert_int_equal(v.decision, i == 0 || i == 4 ? FER_DECISION_REJECT : FER_DECISION_UNDECIDED);
        assert_true(v.zone_empty);
        CHECK_NEAR(v.accept.lower.mm, 24.0, 0.0); /* crossed: no value is between them */
        CHECK_NEAR(v.accept.upper.mm, 23.0, 0.0);
        CHECK_NEAR(v.guard.mm, 1.0, 0.0);
        CHECK_NEAR(v.conforming.fraction + v.below.fraction + v.above.fraction, 1.0, 1e-15);
    }
    const fer_verdict enough = verdict_of(23.5, 0.5 / 1.97, 23.0, 24.0, usual);
    assert_int_equal(enough.decision, FER_DECISION_ACCEPT);
    assert_false(enough.zone_empty);
    /* a hundred times worse still */
    assert_int_equal(verdict_of(23.5, 50.0, 23.0, 24.0, usual).decision, FER_DECISION_UNDECIDED);
}

/* Nothing is accepted, so nothing wrongly: the producer bears all of it. */
static void risks_where_nothing_is_accepted(void **state)
{
    (void)state;
    const fer_process process = {{23.5}, {0.1}};
    fer_risks risks;
    CHECK_OK(fer_find_risks(&process, fer_mm(0.5), limits_of(23.0, 24.0), usual, &risks));
    CHECK_NEAR(risks.accepted.fraction, 0.0, 0.0);
    CHECK_NEAR(risks.consumer.fraction, 0.0, 0.0);
    CHECK_NEAR(risks.producer.fraction, risks.conforming.fraction, 0.0);
    /* rejected beyond 1.65 * 0.5 outside, by measured values of standard deviation sqrt(0.26) */
    CHECK_NEAR(risks.rejected.fraction, erfc((0.5 + 0.825) / sqrt(0.26) / sqrt(2.0)), 1e-15);
    CHECK_NEAR(risks.undecided.fraction, 1.0 - risks.rejected.fraction, 1e-15);
}

/* The zone is what fer_judge() accepts, whichever rule decides. */
static void the_zone_is_where_judge_accepts(void **state)
{
    (void)state;
    const double uncertainties[] = {0.0, 0.02, 0.22, 0.25};
    for (int i = 0; i < 4; i++) {
        fer_acceptance_zone zone;
        CHECK_OK(fer_find_acceptance_zone(limits_of(23.0, 24.0), fer_mm(uncertainties[i]), usual, &zone));
        assert_false(zone.empty);
        assert_int_equal(zone.by_probability, i > 1);
        const fer_verdict v = verdict_of(zone.accept.upper.mm, uncertainties[i], 23.0, 24.0, usual);
        assert_int_equal(v.decision, FER_DECISION_ACCEPT);
        CHECK_NEAR(v.accept.lower.mm, zone.accept.lower.mm, 0.0);
        CHECK_NEAR(zone.guard.mm, zone.accept.lower.mm - 23.0, 1e-15);
        assert_int_equal(
            verdict_of(zone.accept.upper.mm + 1e-9, uncertainties[i], 23.0, 24.0, usual).decision ==
                FER_DECISION_ACCEPT,
            0);
    }
    CHECK_NEAR(1.65 * 0.02, 0.033, 1e-15);
    fer_acceptance_zone zone;
    CHECK_OK(fer_find_acceptance_zone(limits_of(23.0, 24.0), fer_mm(0.02), usual, &zone));
    CHECK_NEAR(zone.accept.lower.mm, 23.033, 1e-13);
    CHECK_NEAR(zone.accept.upper.mm, 23.967, 1e-13);
}

static void an_empty_zone_is_an_answer(void **state)
{
    (void)state;
    const fer_gauge caliper = {{0.3}, {0}, {0.01}};
    fer_acceptance_zone zone;
    CHECK_OK(fer_find_acceptance_zone(limits_of(23.0, 24.0), fer_mm(0.3), usual, &zone));
    assert_true(zone.empty);
    CHECK_NEAR(zone.accept.lower.mm, 24.0, 0.0);
    CHECK_NEAR(zone.guard.mm, 1.0, 0.0);
    CHECK_OK(fer_find_shown_zone(&zone, &caliper, &zone));
    assert_true(zone.empty);
    CHECK_NEAR(zone.accept.upper.mm, 23.0, 0.0);
}

static fer_acceptance_zone shown(double lower, double upper, fer_side side, double correction, double step)
{
    const fer_acceptance_zone zone = {{{lower}, {upper}}, {0.01}, side, 0, 0};
    const fer_gauge gauge = {{0.01}, {correction}, {step}};
    fer_acceptance_zone seen;
    CHECK_OK(fer_find_shown_zone(&zone, &gauge, &seen));
    return seen;
}

/* Inwards to whole steps, by hand; an end that is a whole number of steps in decimals stays where it is. */
static void a_zone_is_shown_in_steps_of_the_gauge(void **state)
{
    (void)state;
    fer_acceptance_zone z = shown(23.4171, 23.5829, FER_SIDE_BOTH, 0.0, 0.01);
    CHECK_NEAR(z.accept.lower.mm, 23.42, 0.0);
    CHECK_NEAR(z.accept.upper.mm, 23.58, 0.0);
    z = shown(23.37, 23.63, FER_SIDE_BOTH, 0.0, 0.01);
    CHECK_NEAR(z.accept.lower.mm, 23.37, 0.0);
    CHECK_NEAR(z.accept.upper.mm, 23.63, 0.0);
    z = shown(23.4171, 23.5829, FER_SIDE_BOTH, -0.02, 0.05); /* the gauge shows 0.02 too much */
    CHECK_NEAR(z.accept.lower.mm, 23.45, 0.0);
    CHECK_NEAR(z.accept.upper.mm, 23.60, 0.0);
    z = shown(23.4171, 23.5829, FER_SIDE_BOTH, 0.02, 0.0);
    CHECK_NEAR(z.accept.lower.mm, 23.3971, 1e-13);
    z = shown(23.4171, 23.5829, FER_SIDE_BOTH, 0.0,
              0.03); /* 781 and 786 steps; 0.03 goes into no whole number */
    CHECK_NEAR(z.accept.lower.mm, 23.43, 1e-12);
    CHECK_NEAR(z.accept.upper.mm, 23.58, 1e-12);
    z = shown(23.41, 23.44, FER_SIDE_BOTH, 0.0, 0.05); /* no step between them */
    assert_true(z.empty);
    assert_true(z.accept.lower.mm > z.accept.upper.mm);
    z = shown(NAN, 23.5829, FER_SIDE_UPPER, 0.0, 0.01);
    assert_false(z.empty);
    CHECK_NEAR(z.accept.upper.mm, 23.58, 0.0);
    z = shown(23.4171, NAN, FER_SIDE_LOWER, 0.0, 0.01);
    CHECK_NEAR(z.accept.lower.mm, 23.42, 0.0);
}

/* A flag is any number but 0, and comes out as 1; an empty zone stays as it is, whatever the gauge shows. */
static void flags_of_a_shown_zone_are_flags(void **state)
{
    (void)state;
    const fer_gauge gauge = {{0.01}, {0.5}, {0.01}};
    const fer_acceptance_zone by_both = {{{23.4}, {23.6}}, {0.01}, FER_SIDE_BOTH, 2, 0},
                              nothing = {{{23.6}, {23.4}}, {0.2}, FER_SIDE_BOTH, -1, 2};
    fer_acceptance_zone zone;
    CHECK_OK(fer_find_shown_zone(&by_both, &gauge, &zone));
    assert_int_equal(zone.by_probability, 1);
    assert_int_equal(zone.empty, 0);
    CHECK_NEAR(zone.accept.lower.mm, 22.9, 0.0);
    CHECK_OK(fer_find_shown_zone(&nothing, &gauge, &zone));
    assert_int_equal(zone.by_probability, 1);
    assert_int_equal(zone.empty, 1);
    CHECK_NEAR(zone.accept.lower.mm, 23.6, 0.0);
    CHECK_NEAR(zone.accept.upper.mm, 23.4, 0.0);
}

static void bad_input_of_zones_has_its_status(void **state)
{
    (void)state;
    const fer_acceptance_zone good = {{{23.4}, {23.6}}, {0.01}, FER_SIDE_BOTH, 0, 0};
    const fer_gauge gauge = {{0.01}, {0}, {0.01}}, corrected = {{0.01}, {101.0}, {0.01}},
                    coarse = {{0.01}, {0}, {11.0}};
    fer_acceptance_zone zone, wrong = good;
    fer_guard guard = {0};
    CHECK_STATUS(fer_find_acceptance_zone(limits_of(24.0, 23.0), fer_mm(0.01), guard, &zone),
                 FER_LIMIT_WRONG_ORDER);
    assert_false(zone.empty); /* that is an answer, and this is a failure */
    CHECK_NAN(zone.accept.lower.mm);
    CHECK_STATUS(fer_find_acceptance_zone(limits_of(23.0, 24.0), fer_mm(-0.01), guard, &zone),
                 FER_UNCERTAINTY_OUT_OF_RANGE);
    guard.factor = NAN;
    CHECK_STATUS(fer_find_acceptance_zone(limits_of(23.0, 24.0), fer_mm(0.01), guard, &zone),
                 FER_GUARD_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_acceptance_zone(limits_of(23.0, 24.0), fer_mm(0.01), usual, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_shown_zone(&good, &gauge, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_shown_zone(NULL, &gauge, &zone), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_shown_zone(&good, NULL, &zone), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_shown_zone(&good, &corrected, &zone), FER_GAUGE_CORRECTION_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_shown_zone(&good, &coarse, &zone), FER_GAUGE_RESOLUTION_OUT_OF_RANGE);
    const fer_gauge below = {{0.01}, {-101.0}, {0.01}}, negative = {{0.01}, {0}, {-0.01}};
    CHECK_STATUS(fer_find_shown_zone(&good, &below, &zone), FER_GAUGE_CORRECTION_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_shown_zone(&good, &negative, &zone), FER_GAUGE_RESOLUTION_OUT_OF_RANGE);
    CHECK_NAN(zone.accept.lower.mm);
    wrong.side = (fer_side)3;
    CHECK_STATUS(fer_find_shown_zone(&wrong, &gauge, &zone), FER_GUARD_SIDE_UNKNOWN);
    wrong = good;
    wrong.accept.lower.mm = NAN;
    CHECK_STATUS(fer_find_shown_zone(&wrong, &gauge, &zone), FER_LIMIT_OUT_OF_RANGE);
    wrong = good;
    wrong.accept.upper.mm = 1e7;
    CHECK_STATUS(fer_find_shown_zone(&wrong, &gauge, &zone), FER_LIMIT_OUT_OF_RANGE);
    wrong.empty = 1; /* the same where nothing is in it */
    CHECK_STATUS(fer_find_shown_zone(&wrong, &gauge, &zone), FER_LIMIT_OUT_OF_RANGE);
    wrong = good;
    wrong.guard.mm = NAN;
    CHECK_STATUS(fer_find_shown_zone(&wrong, &gauge, &zone), FER_LIMIT_OUT_OF_RANGE);
    CHECK_NAN(zone.accept.lower.mm);
}

/* The worked joint at 23.82 mm with the manual's uncertainties: SciPy 1.10.1, and the exact share of fer_conforming_share(). */
static void the_compression_has_a_probability_of_its_own(void **state)
{
    (void)state;
    const fer_uncertain_window window = {limits_of(23.15, 23.87), {0.115}, {0.12589281155014373}};
    const fer_joint joint = worked_joint();
    const fer_ratio_range range = {{0.15}, {0.25}};
    fer_uncertainties uncertainties = {0};
    fer_shares shares;
    fer_ratio share;
    CHECK_OK(fer_find_compression_share(fer_mm(23.82), fer_mm(0.0), &window, &share));
    CHECK_NEAR(share.fraction, 0.6543764622355657, 1e-14);
    CHECK_OK(fer_find_compression_share(fer_mm(23.82), fer_mm(0.02), &window, &share));
    CHECK_NEAR(share.fraction, 0.6525611525061484, 1e-14);
    uncertainties.hose_outside.amount = fer_mm(0.10);
    uncertainties.hose_inside.amount = fer_mm(0.08);
    uncertainties.stem_outside.amount = fer_mm(0.02);
    uncertainties.ferrule_wall.amount = fer_mm(0.03);
    uncertainties.diameter.amount = fer_mm(0.02);
    for (int i = 0; i < 5; i++) {
        const fer_length diameter = fer_mm(23.0 + 0.3 * i);
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, range, diameter, &shares));
        CHECK_OK(fer_find_compression_share(diameter, fer_mm(0.02), &window, &share));
        CHECK_NEAR(share.fraction, shares.inside.fraction, 1e-13);
    }
}

static void bad_input_of_a_compression_share_has_its_status(void **state)
{
    (void)state;
    const fer_uncertain_window good = {limits_of(23.15, 23.87), {0.1}, {0.1}};
    fer_uncertain_window wrong = good;
    fer_ratio share;
    CHECK_STATUS(fer_find_compression_share(fer_mm(23.5), fer_mm(0.01), &good, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_compression_share(fer_mm(23.5), fer_mm(0.01), NULL, &share), FER_ARGUMENT_MISSING);
    CHECK_NAN(share.fraction);
    CHECK_STATUS(fer_find_compression_share(fer_mm(NAN), fer_mm(0.01), &good, &share),
                 FER_LIMIT_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_compression_share(fer_mm(23.5), fer_mm(-0.01), &good, &share),
                 FER_UNCERTAINTY_OUT_OF_RANGE);
    wrong.range = limits_of(23.87, 23.15);
    CHECK_STATUS(fer_find_compression_share(fer_mm(23.5), fer_mm(0.01), &wrong, &share),
                 FER_LIMIT_WRONG_ORDER);
    wrong.range = limits_of(NAN, 23.15);
    CHECK_STATUS(fer_find_compression_share(fer_mm(23.5), fer_mm(0.01), &wrong, &share),
                 FER_LIMIT_OUT_OF_RANGE);
    wrong.range = limits_of(23.15, INFINITY);
    CHECK_STATUS(fer_find_compression_share(fer_mm(23.5), fer_mm(0.01), &wrong, &share),
                 FER_LIMIT_OUT_OF_RANGE);
    wrong = good;
    wrong.lower_uncertainty.mm = NAN;
    CHECK_STATUS(fer_find_compression_share(fer_mm(23.5), fer_mm(0.01), &wrong, &share),
                 FER_UNCERTAINTY_OUT_OF_RANGE);
    wrong = good;
    wrong.upper_uncertainty.mm = -1.0;
    CHECK_STATUS(fer_find_compression_share(fer_mm(23.5), fer_mm(0.01), &wrong, &share),
                 FER_UNCERTAINTY_OUT_OF_RANGE);
}

/* Without uncertainty a value on its limit lies inside, as with the limits of any drawing (common practice, no source). */
/* A value far outside conforms with a probability that keeps its digits, on either side: the tail of the nearer limit. */
static void far_outside_a_small_probability_keeps_its_digits(void **state)
{
    (void)state;
    for (double away = 1.0; away < 30.0; away += 1.0) {
        const double tail = 0.5 * erfc(away / sqrt(2.0));
        const fer_verdict above = verdict_of(24.0 + 0.0078125 * away, 0.0078125, 23.0, 24.0, usual),
                          below = verdict_of(23.0 - 0.0078125 * away, 0.0078125, 23.0, 24.0, usual);
        CHECK_NEAR(above.conforming.fraction, tail, 1e-12 * tail);
        CHECK_NEAR(below.conforming.fraction, tail, 1e-12 * tail);
    }
}

static void a_value_on_its_limit_lies_inside(void **state)
{
    (void)state;
    const fer_guard none = {0, 1, FER_SIDE_BOTH, 0};
    for (int maximum = 0; maximum < 2; maximum++) {
        const fer_verdict v = verdict_of(maximum ? 24.0 : 23.0, 0.0, 23.0, 24.0, none);
        CHECK_NEAR(v.conforming.fraction, 1.0, 0.0);
        assert_int_equal(v.decision, FER_DECISION_ACCEPT);
    }
}

/* Student's t: 5 % beyond 2.132 for 4 degrees of freedom (any printed table), at either limit. */
static void both_tails_are_those_of_student(void **state)
{
    (void)state;
    const fer_guard few = {0, 0, FER_SIDE_BOTH, 4.0};
    const double u = 0.02, inside = 2.132 * u;
    const fer_verdict high = verdict_of(24.0 - inside, u, 23.0, 24.0, few);
    const fer_verdict low = verdict_of(23.0 + inside, u, 23.0, 24.0, few);
    CHECK_NEAR(high.above.fraction, 0.05, 2e-5);
    CHECK_NEAR(low.below.fraction, 0.05, 2e-5);
    CHECK_NEAR(high.conforming.fraction, low.conforming.fraction, 1e-13);
}

/* Student's t, 95 % one-sided: 2.132 for 4 degrees of freedom (any printed table). */
static void degrees_of_freedom_widen_the_guard(void **state)
{
    (void)state;
    const double factor = 1.6448536269514722; /* Phi = 0.95 */
    const fer_guard four = {factor, 0, FER_SIDE_UPPER, 4.0};
    const fer_verdict v = verdict_of(22.0, 0.1, 0.0, 24.0, four);
    CHECK_NEAR(v.guard.mm, 0.2132, 5e-5);
    const fer_verdict edge = verdict_of(24.0 - 0.21318, 0.1, 0.0, 24.0, four);
    CHECK_NEAR(edge.conforming.fraction, 0.95, 1e-5);
    const fer_guard both = {factor, 0, FER_SIDE_BOTH, 4.0};
    const fer_verdict wide = verdict_of(23.5, 0.05, 23.0, 24.0, both);
    assert_true(wide.by_probability);
    assert_true(wide.guard.mm > 0.05 * 2.1318);
    assert_true(wide.guard.mm < 0.05 * 2.1318 * 1.01);
}

/* Known process: normal prior and normal likelihood (JCGM 106:2012, A.4.4), by hand for equal standard deviations. */
static void a_known_process_draws_the_value(void **state)
{
    (void)state;
    const fer_process process = {{23.5}, {0.1}};
    fer_verdict v;
    CHECK_OK(fer_judge(fer_mm(23.9), fer_mm(0.1), limits_of(23.0, 24.0), usual, process, &v));
    CHECK_NEAR(v.value.mm, 23.7, 1e-14);
    CHECK_NEAR(v.standard_uncertainty.mm, 0.1 / sqrt(2.0), 1e-16);
    CHECK_NEAR(v.above.fraction, 0.5 * erfc(0.3 / 0.1), 1e-12);
    assert_int_equal(v.decision, FER_DECISION_ACCEPT);
    CHECK_OK(fer_judge(fer_mm(23.9), fer_mm(0.05), limits_of(23.0, 24.0), usual, process, &v));
    CHECK_NEAR(v.value.mm, (23.9 * 0.01 + 23.5 * 0.0025) / 0.0125, 1e-13); /* the formula of JCGM 106 */
    CHECK_NEAR(v.standard_uncertainty.mm, sqrt(0.01 * 0.0025 / 0.0125), 1e-16);
}

static fer_risks risks_of(double mean, double standard_deviation, double u, double lower, double upper,
                          fer_guard guard)
{
    const fer_process process = {{mean}, {standard_deviation}};
    fer_risks risks;
    CHECK_OK(fer_find_risks(&process, fer_mm(u), limits_of(lower, upper), guard, &risks));
    return risks;
}

/* Limit at the mean, one-sided, no guard: quadrants of the bivariate normal distribution (Sheppard 1899). */
static void risks_by_sheppards_formula(void **state)
{
    (void)state;
    const fer_guard one = {0, 1, FER_SIDE_UPPER, 0};
    for (int i = 0; i < 6; i++) {
        const double u = 0.1 * pow(10.0, i - 3.0);
        const double wrong = atan(u / 0.1) / (2.0 * PI); /* 1/4 - asin(rho)/(2 pi), without its loss */
        const fer_risks r = risks_of(23.5, 0.1, u, NAN, 23.5, one);
        CHECK_NEAR(r.consumer.fraction, wrong, 1e-14);
        CHECK_NEAR(r.producer.fraction, wrong, 1e-14);
        CHECK_NEAR(r.conforming.fraction, 0.5, 1e-15);
        CHECK_NEAR(r.accepted.fraction, 0.5, 1e-15);
        CHECK_NEAR(r.undecided.fraction, 0.0, 1e-15);
    }
}

/* Values by scipy.integrate.quad (SciPy 1.10.1) of the double integral: mean 1500, deviation 0.12, u 0.04, limits
 * 1499.8 and 1500.2, guard 0, u and 2 u. */
static void risks_by_scipy(void **state)
{
    (void)state;
    const double factors[] = {0.0, 1.0, 2.0};
    const double consumer[] = {0.018942206716910277, 0.004334072221789128, 0.00046863359886739294};
    const double producer[] = {0.037207800178469586, 0.11465657840757204, 0.24766964020013793};
    for (int i = 0; i < 3; i++) {
        /* the tolerance is 10 u: the guard band decides for all three */
        const fer_guard guard = {factors[i], i == 0, FER_SIDE_BOTH, 0};
        const fer_risks r = risks_of(0.0, 0.12, 0.04, -0.2, 0.2, guard);
        CHECK_NEAR(r.consumer.fraction, consumer[i], 1e-11);
        CHECK_NEAR(r.producer.fraction, producer[i], 1e-11);
        CHECK_NEAR(r.conforming.fraction, 0.9044192954543706, 1e-14); /* 2 Phi(5/3) - 1 */
    }
}

/* Uniform numbers by a linear congruence (Knuth's MMIX constants), normal ones by Box and Muller. */
static double next_uniform(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return ((double)(*seed >> 11) + 0.5) * 0x1p-53;
}

static double next_normal(uint64_t *seed)
{
    const double r = sqrt(-2.0 * log(next_uniform(seed)));
    return r * cos(2.0 * PI * next_uniform(seed));
}

static void risks_by_monte_carlo(void **state)
{
    (void)state;
    enum { trials = 400000 };
    uint64_t seed = 20240611;
    int consumer = 0, producer = 0, rejected = 0, undecided = 0;
    for (int i = 0; i < trials; i++) {
        const double truth = 23.55 + 0.08 * next_normal(&seed);
        const double measured = truth + 0.03 * next_normal(&seed);
        const fer_decision d = verdict_of(measured, 0.03, 23.4, 23.65, usual).decision;
        const int good = truth >= 23.4 && truth <= 23.65;
        consumer += d == FER_DECISION_ACCEPT && !good;
        producer += d != FER_DECISION_ACCEPT && good;
        rejected += d == FER_DECISION_REJECT;
        undecided += d == FER_DECISION_UNDECIDED;
    }
    const fer_risks r = risks_of(23.55, 0.08, 0.03, 23.4, 23.65, usual);
    const double expected[] = {r.consumer.fraction, r.producer.fraction, r.rejected.fraction,
                               r.undecided.fraction};
    const int counted[] = {consumer, producer, rejected, undecided};
    for (int i = 0; i < 4; i++) {
        const double p = expected[i];
        CHECK_NEAR(counted[i] / (double)trials, p, 4.0 * sqrt(p * (1.0 - p) / trials));
    }
}

static void risks_without_uncertainty_vanish(void **state)
{
    (void)state;
    const fer_risks r = risks_of(23.55, 0.08, 0.0, 23.4, 23.65, usual);
    CHECK_NEAR(r.consumer.fraction, 0.0, 1e-15);
    CHECK_NEAR(r.producer.fraction, 0.0, 1e-15);
    CHECK_NEAR(r.accepted.fraction, r.conforming.fraction, 1e-15);
}

#define CHECK_BAD(change, expected)                                                                          \
    do {                                                                                                     \
        double value = 23.5, u = 0.01;                                                                       \
        fer_length_range limits = limits_of(23.0, 24.0);                                                     \
        fer_guard guard = {0};                                                                               \
        fer_process process = {0};                                                                           \
        fer_verdict verdict;                                                                                 \
        change;                                                                                              \
        CHECK_STATUS(fer_judge(fer_mm(value), fer_mm(u), limits, guard, process, &verdict), expected);       \
        CHECK_NAN(verdict.conforming.fraction);                                                              \
        CHECK_NAN(verdict.guard.mm);                                                                         \
        CHECK_NAN(verdict.reject.upper.mm);                                                                  \
    } while (0)

static void bad_input_has_its_status(void **state)
{
    (void)state;
    CHECK_BAD(value = NAN, FER_LIMIT_OUT_OF_RANGE);
    CHECK_BAD(value = INFINITY, FER_LIMIT_OUT_OF_RANGE);
    CHECK_BAD(limits.lower.mm = NAN, FER_LIMIT_OUT_OF_RANGE);
    CHECK_BAD(limits.upper.mm = INFINITY, FER_LIMIT_OUT_OF_RANGE);
    CHECK_BAD(limits.lower.mm = -INFINITY; guard.side = FER_SIDE_LOWER, FER_LIMIT_OUT_OF_RANGE);
    CHECK_BAD(limits.lower.mm = 24.0, FER_LIMIT_WRONG_ORDER);
    CHECK_BAD(u = -0.01, FER_UNCERTAINTY_OUT_OF_RANGE);
    CHECK_BAD(u = NAN, FER_UNCERTAINTY_OUT_OF_RANGE);
    CHECK_BAD(guard.factor = -1.0, FER_GUARD_OUT_OF_RANGE);
    CHECK_BAD(guard.factor = 10.1, FER_GUARD_OUT_OF_RANGE);
    CHECK_BAD(guard.factor = NAN, FER_GUARD_OUT_OF_RANGE);
    CHECK_BAD(guard.side = (fer_side)3, FER_GUARD_SIDE_UNKNOWN);
    CHECK_BAD(guard.degrees_of_freedom = 0.5, FER_GUARD_DEGREES_OUT_OF_RANGE);
    CHECK_BAD(guard.degrees_of_freedom = INFINITY, FER_GUARD_DEGREES_OUT_OF_RANGE);
    CHECK_BAD(process.mean.mm = NAN, FER_PROCESS_MEAN_OUT_OF_RANGE);
    CHECK_BAD(process.standard_deviation.mm = -0.1, FER_PROCESS_DEVIATION_OUT_OF_RANGE);
    CHECK_BAD(process.standard_deviation.mm = NAN, FER_PROCESS_DEVIATION_OUT_OF_RANGE);
    CHECK_BAD(process.mean.mm = 23.5, FER_PROCESS_DEVIATION_MISSING);
    CHECK_BAD(process.standard_deviation.mm = 0.1; guard.degrees_of_freedom = 3.0, FER_PROCESS_WITH_DEGREES);
}

static void bad_input_of_risks_has_its_status(void **state)
{
    (void)state;
    fer_process process = {{23.5}, {0}};
    fer_guard guard = {0};
    fer_risks risks = {0};
    CHECK_STATUS(fer_find_risks(&process, fer_mm(0.01), limits_of(23.0, 24.0), guard, &risks),
                 FER_PROCESS_DEVIATION_MISSING);
    CHECK_NAN(risks.consumer.fraction);
    process.mean.mm = 0.0;
    CHECK_STATUS(fer_find_risks(&process, fer_mm(0.01), limits_of(23.0, 24.0), guard, &risks),
                 FER_PROCESS_DEVIATION_MISSING);
    process.standard_deviation.mm = 0.1;
    process.mean.mm = NAN;
    CHECK_STATUS(fer_find_risks(&process, fer_mm(0.01), limits_of(23.0, 24.0), guard, &risks),
                 FER_PROCESS_MEAN_OUT_OF_RANGE);
    CHECK_NAN(risks.accepted.fraction);
    process.mean.mm = 23.5;
    process.standard_deviation.mm = INFINITY;
    CHECK_STATUS(fer_find_risks(&process, fer_mm(0.01), limits_of(23.0, 24.0), guard, &risks),
                 FER_PROCESS_DEVIATION_OUT_OF_RANGE);
    process.standard_deviation.mm = 0.1;
    guard.degrees_of_freedom = 4.0;
    CHECK_STATUS(fer_find_risks(&process, fer_mm(0.01), limits_of(23.0, 24.0), guard, &risks),
                 FER_PROCESS_WITH_DEGREES);
    guard.degrees_of_freedom = 0.0;
    CHECK_STATUS(fer_find_risks(NULL, fer_mm(0.01), limits_of(23.0, 24.0), guard, &risks),
                 FER_ARGUMENT_MISSING);
    CHECK_NAN(risks.producer.fraction);
    CHECK_STATUS(fer_find_risks(&process, fer_mm(0.01), limits_of(23.0, 24.0), guard, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_judge(fer_mm(23.5), fer_mm(0.01), limits_of(23.0, 24.0), guard, unknown, NULL),
                 FER_ARGUMENT_MISSING);
}

/* Beside the lower limit, exact: the whole of it is below. */
static void an_exact_value_below_the_limit_does_not_conform(void **state)
{
    (void)state;
    const fer_verdict v = verdict_of(22.9, 0.0, 23.0, 24.0, usual);
    assert_int_equal(v.decision, FER_DECISION_REJECT);
    CHECK_NEAR(v.below.fraction, 1.0, 0.0);
    CHECK_NEAR(v.above.fraction, 0.0, 0.0);
    CHECK_NEAR(v.conforming.fraction, 0.0, 0.0);
}

/* Normal distribution by the C library's own erfc; nothing is lost in the tail. */
static void a_process_beside_the_limits(void **state)
{
    (void)state;
    const fer_process process = {{22.0}, {0.1}};
    fer_risks risks;
    CHECK_OK(fer_find_risks(&process, fer_mm(0.0), limits_of(23.0, 24.0), usual, &risks));
    const double inside = 0.5 * erfc(10.0 / sqrt(2.0)); /* ten deviations away */
    CHECK_NEAR(risks.conforming.fraction, inside, 1e-12 * inside);
    CHECK_NEAR(risks.accepted.fraction, inside, 1e-12 * inside);
    /* with an uncertainty: accepted above 23.165, deviation of the measured sqrt(0.02) */
    CHECK_OK(fer_find_risks(&process, fer_mm(0.1), limits_of(23.0, 24.0), usual, &risks));
    const double accepted = 0.5 * erfc(1.165 / sqrt(0.02) / sqrt(2.0)) - 0.5 * erfc(1.835 / 0.2);
    CHECK_NEAR(risks.accepted.fraction, accepted, 1e-11 * accepted);
    /* wrongly accepted and wrongly rejected balance: accepted - consumer = conforming - producer */
    CHECK_NEAR(risks.accepted.fraction - risks.consumer.fraction,
               risks.conforming.fraction - risks.producer.fraction, 1e-12 * accepted);
}

static void numbers_beyond_their_range_have_their_status(void **state)
{
    (void)state;
    const fer_process made = {{23.5}, {0.1}};
    fer_guard band = {0};
    fer_risks risks;
    CHECK_BAD(value = 1000000.1, FER_LIMIT_OUT_OF_RANGE);
    CHECK_BAD(u = 1000000.1, FER_UNCERTAINTY_OUT_OF_RANGE);
    CHECK_BAD(process.standard_deviation.mm = 1000000.1, FER_PROCESS_DEVIATION_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_risks(&made, fer_mm(0.01), limits_of(24.0, 23.0), band, &risks),
                 FER_LIMIT_WRONG_ORDER);
    CHECK_NAN(risks.accepted.fraction);
    CHECK_STATUS(fer_find_risks(&made, fer_mm(-0.01), limits_of(23.0, 24.0), band, &risks),
                 FER_UNCERTAINTY_OUT_OF_RANGE);
    band.factor = 11.0;
    CHECK_STATUS(fer_find_risks(&made, fer_mm(0.01), limits_of(23.0, 24.0), band, &risks),
                 FER_GUARD_OUT_OF_RANGE);
}

/* Five uncertainties are just enough for the guard band alone. */
static void the_edge_of_a_narrow_tolerance(void **state)
{
    (void)state;
    assert_false(verdict_of(23.5, 0.25, 23.0, 24.25, usual).by_probability);
    assert_true(verdict_of(23.5, 0.25, 23.0, 24.2499, usual).by_probability);
}

/* A gauge that is 64 times finer than the process: acceptance is all but a step. Integral by mpmath, 30 digits. */
static void risks_of_a_fine_gauge(void **state)
{
    (void)state;
    const fer_process processes[] = {{{23.875}, {0.125}},
                                     {{23.125}, {0.125}}}; /* mirrored about the middle */
    fer_risks risks;
    for (int i = 0; i < 2; i++) {
        CHECK_OK(fer_find_risks(&processes[i], fer_mm(0.001953125), limits_of(23.0, 24.0), usual, &risks));
        CHECK_NEAR(risks.consumer.fraction, 7.7568769513079494e-5, 1e-15);
    }
}

/* The inverse of such a deviation is beyond all doubles. All pieces are at the mean: inside, none accepted wrongly. */
static void a_deviation_near_nothing_has_risks(void **state)
{
    (void)state;
    const double standard_deviations[] = {5e-324, 1e-310, 1e-300, 1e-20};
    for (size_t i = 0; i < sizeof standard_deviations / sizeof *standard_deviations; i++) {
        const fer_process process = {{23.5}, {standard_deviations[i]}};
        fer_risks risks;
        CHECK_OK(fer_find_risks(&process, fer_mm(0.01), limits_of(23.0, 24.0), usual, &risks));
        CHECK_NEAR(risks.conforming.fraction, 1.0, 1e-15);
        CHECK_NEAR(risks.accepted.fraction, 1.0, 1e-15);
        CHECK_NEAR(risks.consumer.fraction, 0.0, 1e-15);
        CHECK_NEAR(risks.producer.fraction, 0.0, 1e-13);
    }
}

/* From factor 8.3 on the normal distribution is 1 in doubles; its tail is not. */
static void a_wide_guard_with_degrees_is_a_number(void **state)
{
    (void)state;
    const fer_guard guard = {10.0, 0, FER_SIDE_LOWER, 120.0};
    const fer_process nothing = {{0.0}, {0.0}};
    fer_verdict v;
    CHECK_OK(fer_judge(fer_mm(24.0), fer_mm(0.001), limits_of(23.5, 24.5), guard, nothing, &v));
    assert_true(v.guard.mm > 0.010 && v.guard.mm < 0.1);
    assert_int_equal(v.decision, FER_DECISION_ACCEPT);
    CHECK_NEAR(v.accept.lower.mm, 23.5 + v.guard.mm, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_examples_of_jcgm_106),
        cmocka_unit_test(the_guard_band_divides_three_ways),
        cmocka_unit_test(without_uncertainty_or_guard_the_limits_decide),
        cmocka_unit_test(a_narrow_tolerance_is_judged_by_both_tails),
        cmocka_unit_test(a_tolerance_that_accepts_nothing_is_a_verdict),
        cmocka_unit_test(risks_where_nothing_is_accepted),
        cmocka_unit_test(the_zone_is_where_judge_accepts),
        cmocka_unit_test(an_empty_zone_is_an_answer),
        cmocka_unit_test(a_zone_is_shown_in_steps_of_the_gauge),
        cmocka_unit_test(flags_of_a_shown_zone_are_flags),
        cmocka_unit_test(bad_input_of_zones_has_its_status),
        cmocka_unit_test(the_compression_has_a_probability_of_its_own),
        cmocka_unit_test(bad_input_of_a_compression_share_has_its_status),
        cmocka_unit_test(degrees_of_freedom_widen_the_guard),
        cmocka_unit_test(far_outside_a_small_probability_keeps_its_digits),
        cmocka_unit_test(a_value_on_its_limit_lies_inside),
        cmocka_unit_test(both_tails_are_those_of_student),
        cmocka_unit_test(a_known_process_draws_the_value),
        cmocka_unit_test(risks_by_sheppards_formula),
        cmocka_unit_test(risks_by_scipy),
        cmocka_unit_test(risks_by_monte_carlo),
        cmocka_unit_test(risks_without_uncertainty_vanish),
        cmocka_unit_test(bad_input_has_its_status),
        cmocka_unit_test(bad_input_of_risks_has_its_status),
        cmocka_unit_test(an_exact_value_below_the_limit_does_not_conform),
        cmocka_unit_test(a_process_beside_the_limits),
        cmocka_unit_test(numbers_beyond_their_range_have_their_status),
        cmocka_unit_test(the_edge_of_a_narrow_tolerance),
        cmocka_unit_test(risks_of_a_fine_gauge),
        cmocka_unit_test(a_deviation_near_nothing_has_risks),
        cmocka_unit_test(a_wide_guard_with_degrees_is_a_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
