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

static fer_setup setup_with(double target, double lower, double upper)
{
    fer_setup setup = {0};
    setup.target = fer_mm(target);
    setup.limits.value = limits_of(lower, upper);
    setup.segments = 8;
    return setup;
}

static void an_inspection_joins_set_up_readings_and_verdict(void **state)
{
    (void)state;
    const fer_setup setup = setup_with(23.51, 23.41, 23.61);
    const fer_gauge gauge = {{0.01}, {0}, {0.01}};
    const fer_marks marks = {{0}, 1, {0}, 0};
    fer_reading readings[] = {
        {{23.52}, 0, {0}, 0}, {{23.50}, 0, {0}, 0}, {{23.54}, 1, {0}, 0}, {{23.7}, 0, {0}, 1}};
    fer_inspection inspection;
    readings[3].angle = fer_deg(90.0); /* a gap of eight segments, not of seven */
    CHECK_OK(fer_inspect_crimp(&setup, readings, 4, &gauge, marks, usual, unknown, &inspection));
    CHECK_NEAR(inspection.summary.mean.mm, 23.52, 1e-14);
    assert_int_equal(inspection.summary.over_gaps, 1); /* the set-up's eight segments */
    CHECK_NEAR(inspection.deviation.mm, 0.01, 1e-13);
    CHECK_NEAR(inspection.limits.lower.mm, 23.41, 0.0);
    CHECK_NEAR(inspection.verdict.value.mm, 23.52, 1e-14);
    CHECK_NEAR(inspection.verdict.standard_uncertainty.mm, sqrt(1e-4 + 4e-4 / 3.0), 1e-13);
    assert_int_equal(inspection.verdict.decision, FER_DECISION_ACCEPT);
    assert_int_equal(inspection.decision, FER_DECISION_ACCEPT);
    assert_int_equal(inspection.cautions.bits & 1u << FER_CAUTION_SCRAP_NOT_REPAIR, 0);
    readings[0].diameter = readings[1].diameter = readings[2].diameter = fer_mm(23.68);
    CHECK_OK(fer_inspect_crimp(&setup, readings, 3, &gauge, marks, usual, unknown, &inspection));
    assert_int_equal(inspection.verdict.decision, FER_DECISION_REJECT);
    assert_int_not_equal(inspection.cautions.bits & 1u << FER_CAUTION_SCRAP_NOT_REPAIR, 0);
}

static void check_failed(const fer_inspection *inspection)
{
    CHECK_NAN(inspection->summary.mean.mm);
    CHECK_NAN(inspection->verdict.conforming.fraction);
    CHECK_NAN(inspection->deviation.mm);
    CHECK_NAN(inspection->limits.lower.mm);
    assert_int_equal(inspection->verdict.decision, FER_DECISION_UNDECIDED);
    assert_int_equal(inspection->cautions.bits, 0);
    assert_int_equal(inspection->decision, FER_DECISION_UNDECIDED);
    assert_int_equal(inspection->findings.bits, 0);
    assert_false(inspection->zone.empty);
    CHECK_NAN(inspection->zone.accept.lower.mm);
    CHECK_NAN(inspection->worst.mm);
    CHECK_NAN(inspection->compression_conforming.value.fraction);
}

static void an_inspection_without_limits_has_its_status(void **state)
{
    (void)state;
    fer_setup setup = setup_with(23.51, 23.41, 23.61);
    const fer_reading reading = {{23.5}, 0, {0}, 0};
    const fer_gauge gauge = {{0.01}, {0}, {0}};
    const fer_marks marks = {0};
    fer_inspection inspection;
    setup.limits.status = FER_TOLERANCE_MISSING;
    CHECK_STATUS(fer_inspect_crimp(&setup, &reading, 1, &gauge, marks, usual, unknown, &inspection),
                 FER_TOLERANCE_MISSING);
    check_failed(&inspection);
    assert_int_equal(inspection.summary.scatter.status, FER_TOLERANCE_MISSING);
    setup = setup_with(0.0, 23.41, 23.61);
    CHECK_STATUS(fer_inspect_crimp(&setup, &reading, 1, &gauge, marks, usual, unknown, &inspection),
                 FER_SETUP_INCOMPLETE);
    setup = setup_with(23.51, 23.41, 23.61);
    setup.limits.status = (fer_status)4242; /* none that there is */
    CHECK_STATUS(fer_inspect_crimp(&setup, &reading, 1, &gauge, marks, usual, unknown, &inspection),
                 FER_SETUP_INCOMPLETE);
    setup = setup_with(23.51, NAN, 23.61);
    CHECK_STATUS(fer_inspect_crimp(&setup, &reading, 1, &gauge, marks, usual, unknown, &inspection),
                 FER_SETUP_INCOMPLETE);
    setup = setup_with(23.51, 23.41, 23.61);
    setup.applies_to = (fer_applies_to)4;
    CHECK_STATUS(fer_inspect_crimp(&setup, &reading, 1, &gauge, marks, usual, unknown, &inspection),
                 FER_APPLIES_TO_UNKNOWN);
    check_failed(&inspection);
    setup = setup_with(23.51, 23.41, 23.61);
    CHECK_STATUS(fer_inspect_crimp(&setup, &reading, 0, &gauge, marks, usual, unknown, &inspection),
                 FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(fer_inspect_crimp(NULL, &reading, 1, &gauge, marks, usual, unknown, &inspection),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_inspect_crimp(&setup, &reading, 1, &gauge, marks, usual, unknown, NULL),
                 FER_ARGUMENT_MISSING);
    check_failed(&inspection);
}

/* Gaps of seven segments are elsewhere than those of the set-up's eight. */
static void the_segments_of_the_marks_come_first(void **state)
{
    (void)state;
    fer_setup setup = setup_with(23.51, 23.41, 23.61);
    const fer_reading readings[] = {{{23.5}, 0, {PI / 4.0}, 1}, {{23.54}, 0, {PI / 14.0}, 1}};
    const fer_gauge gauge = {{0.01}, {0}, {0}};
    fer_marks marks = {{0}, 1, {0.01}, 0};
    fer_inspection inspection;
    setup.segments = 8;
    CHECK_OK(fer_inspect_crimp(&setup, readings, 2, &gauge, marks, usual, unknown, &inspection));
    CHECK_NEAR(inspection.summary.mean.mm, 23.54, 1e-14);
    marks.segments = 7;
    CHECK_OK(fer_inspect_crimp(&setup, readings, 2, &gauge, marks, usual, unknown, &inspection));
    CHECK_NEAR(inspection.summary.mean.mm, 23.52, 1e-14);
    setup.segments = 7; /* and without any in the marks those of the set-up count, not the usual eight */
    marks.segments = 0;
    CHECK_OK(fer_inspect_crimp(&setup, readings, 2, &gauge, marks, usual, unknown, &inspection));
    CHECK_NEAR(inspection.summary.mean.mm, 23.52, 1e-14);
    setup.limits.value.upper.mm = NAN;
    CHECK_STATUS(fer_inspect_crimp(&setup, readings, 2, &gauge, marks, usual, unknown, &inspection),
                 FER_SETUP_INCOMPLETE);
}

static void a_setup_with_a_status_of_nobody_is_refused(void **state)
{
    (void)state;
    const fer_reading reading = {{23.5}, 0, {0.0}, 0};
    const fer_gauge gauge = {{0.0}, {0.0}, {0.0}};
    const fer_marks marks = {{0.0}, 0, {0.0}, 0};
    const fer_process nothing = {{0.0}, {0.0}};
    fer_setup setup = {0};
    fer_inspection inspection;
    const int number = 987654;
    memcpy(&setup.limits.status, &number, sizeof number);
    CHECK_STATUS(fer_inspect_crimp(&setup, &reading, 1, &gauge, marks, usual, nothing, &inspection),
                 FER_SETUP_INCOMPLETE);
    CHECK_NAN(inspection.deviation.mm);
}

/* ---- what the limits apply to ------------------------------------------------------------------------------ */

enum { readings_most = 20 };

/* Readings at one section, by a gauge with the standard uncertainty 0.01 mm and steps of 0.01 mm. */
static fer_inspection inspect(const fer_setup *setup, const double *diameters, size_t count, fer_guard guard,
                              fer_process process)
{
    const fer_gauge gauge = {{0.01}, {0}, {0.01}};
    const fer_marks marks = {0};
    fer_reading readings[readings_most] = {0};
    fer_inspection inspection;
    for (size_t i = 0; i < count; i++) {
        readings[i].diameter.mm = diameters[i];
    }
    CHECK_OK(fer_inspect_crimp(setup, readings, count, &gauge, marks, guard, process, &inspection));
    return inspection;
}

static int has(const fer_inspection *inspection, fer_finding finding)
{
    return (int)(inspection->findings.bits >> finding & 1u);
}

/* Only what the limits apply to decides about a mean in the middle with every reading outside. */
static void a_mean_inside_with_readings_outside_is_not_accepted(void **state)
{
    (void)state;
    const double d[] = {23.28, 23.72, 23.28, 23.72, 23.28, 23.72, 23.28, 23.72};
    const fer_decision decisions[] = {FER_DECISION_UNDECIDED, FER_DECISION_REJECT, FER_DECISION_UNDECIDED,
                                      FER_DECISION_UNDECIDED};
    fer_setup setup = setup_with(23.5, 23.3, 23.7);
    for (int to = 0; to < 4; to++) {
        setup.applies_to = (fer_applies_to)to;
        const fer_inspection i = inspect(&setup, d, 8, usual, unknown);
        assert_int_equal(i.decision, to == 3 || to == 2 ? i.verdict.decision : decisions[to]);
        assert_true(i.decision != FER_DECISION_ACCEPT || to == 3 || to == 2);
        assert_true(has(&i, FER_FINDING_READING_OUTSIDE_ZONE));
    }
}

/* Readings of 23.43 and 23.57 for 23.42 to 23.58 in the zone, then one reading just beyond it. u^2 = 0.01^2 + 0.01^2/12,
 * 1.65 u = 0.01717: ends 23.4172 and 23.5828, in steps of the gauge 23.42 and 23.58. */
static void every_reading_has_to_be_in_the_zone(void **state)
{
    (void)state;
    const double good[] = {23.45, 23.55, 23.58, 23.42, 23.50, 23.49, 23.51, 23.48};
    const double bad[] = {23.45, 23.55, 23.59, 23.42, 23.50, 23.49, 23.51, 23.48};
    const double worse[] = {23.45, 23.55, 23.62, 23.42, 23.50, 23.49, 23.51, 23.48};
    fer_setup setup = setup_with(23.5, 23.4, 23.6);
    fer_inspection i = inspect(&setup, good, 8, usual, unknown);
    CHECK_NEAR(i.zone.accept.lower.mm, 23.42, 0.0);
    CHECK_NEAR(i.zone.accept.upper.mm, 23.58, 0.0);
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_int_equal(i.findings.bits, 0);
    assert_int_equal(i.worst_index, 2);
    CHECK_NEAR(i.worst.mm, 23.58, 0.0);
    i = inspect(&setup, bad, 8, usual, unknown);
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_int_equal(i.verdict.decision, FER_DECISION_UNDECIDED);
    assert_true(has(&i, FER_FINDING_LIMITS_NOT_STATED));
    assert_int_equal(i.worst_index, 2);
    setup.applies_to = FER_APPLIES_TO_MEAN; /* then the same readings are good */
    i = inspect(&setup, bad, 8, usual, unknown);
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_false(has(&i, FER_FINDING_LIMITS_NOT_STATED));
    assert_true(has(&i, FER_FINDING_READING_OUTSIDE_ZONE));
    setup.applies_to = FER_APPLIES_TO_EVERY_READING; /* beyond the limit by 0.02 > 0.01717: proved */
    assert_int_equal(inspect(&setup, bad, 8, usual, unknown).decision, FER_DECISION_UNDECIDED);
    assert_int_equal(inspect(&setup, worse, 8, usual, unknown).decision, FER_DECISION_REJECT);
    setup.applies_to = FER_APPLIES_TO_NOT_STATED;
    assert_int_equal(inspect(&setup, worse, 8, usual, unknown).decision, FER_DECISION_UNDECIDED);
    /* the same at the lower end */
    const double low[] = {23.45, 23.55, 23.41, 23.58, 23.50, 23.49, 23.51, 23.48};
    i = inspect(&setup, low, 8, usual, unknown);
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_true(has(&i, FER_FINDING_READING_OUTSIDE_ZONE));
    assert_true(has(&i, FER_FINDING_LIMITS_NOT_STATED));
    /* asked what they apply to is only where that decides: not of a mean that is not acceptable itself */
    const double at_limit[] = {23.60, 23.61, 23.60, 23.59}, beyond[] = {23.70, 23.71, 23.70, 23.71};
    i = inspect(&setup, at_limit, 4, usual, unknown);
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_false(has(&i, FER_FINDING_LIMITS_NOT_STATED));
    i = inspect(&setup, beyond, 4, usual, unknown);
    assert_int_equal(i.decision, FER_DECISION_REJECT);
    assert_false(has(&i, FER_FINDING_LIMITS_NOT_STATED));
}

static fer_inspection inspect_sections(fer_setup *setup, const double *d, const int *sections, size_t count)
{
    const fer_gauge gauge = {{0.01}, {0}, {0.01}};
    const fer_marks marks = {0};
    fer_reading readings[readings_most] = {0};
    fer_inspection inspection;
    for (size_t i = 0; i < count; i++) {
        readings[i].diameter.mm = d[i];
        readings[i].section = sections[i];
    }
    CHECK_OK(fer_inspect_crimp(setup, readings, count, &gauge, marks, usual, unknown, &inspection));
    return inspection;
}

/* Scatter pooled within the sections: 0.01414 with 2 degrees of freedom; guard band of a section's mean with SciPy
 * 1.10.1: sqrt((1.65 * 0.01)^2 + (2.93817 * 0.01)^2) = 0.03370. */
static void each_section_mean_is_judged(void **state)
{
    (void)state;
    const int sections[] = {0, 0, 3, 3};
    const double good[] = {23.50, 23.52, 23.435, 23.455}, taper[] = {23.50, 23.52, 23.42, 23.44},
                 outside[] = {23.50, 23.52, 23.34, 23.36};
    fer_setup setup = setup_with(23.5, 23.4, 23.6);
    setup.applies_to = FER_APPLIES_TO_SECTION_MEANS;
    assert_int_equal(inspect_sections(&setup, good, sections, 4).decision, FER_DECISION_ACCEPT);
    fer_inspection i = inspect_sections(&setup, taper, sections, 4); /* 23.43: by 0.03 inside */
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_true(has(&i, FER_FINDING_NEAR_LIMIT));
    assert_int_equal(i.worst_section, 3);
    const double just[] = {23.50, 23.52, 23.428, 23.448}; /* 23.438: by 0.038 inside, more than 0.0337 */
    assert_int_equal(inspect_sections(&setup, just, sections, 4).decision, FER_DECISION_ACCEPT);
    i = inspect_sections(&setup, outside, sections, 4);
    assert_int_equal(i.decision, FER_DECISION_REJECT);
    /* two readings at one section alone: their scatter of 0.00707 counts for the single reading at the other, too, with
     * Student's t for one degree of freedom, tan(pi (Phi(1.65) - 1/2)) = 6.383: guard band 0.0480, by hand, and both tails count */
    const double nearly[] = {23.50, 23.51, 23.56}, enough[] = {23.50, 23.51, 23.52};
    const int two_and_one[] = {0, 0, 3};
    assert_int_equal(inspect_sections(&setup, nearly, two_and_one, 3).decision, FER_DECISION_UNDECIDED);
    assert_int_equal(inspect_sections(&setup, enough, two_and_one, 3).decision, FER_DECISION_ACCEPT);
    /* one reading at each section shows no scatter */
    const int apart[] = {0, 1, 2, 3};
    const double equal[] = {23.50, 23.50, 23.51, 23.50};
    i = inspect_sections(&setup, equal, apart, 4);
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_true(has(&i, FER_FINDING_TOO_FEW_READINGS));
}

/* ---- what stands in the way of acceptance --------------------------------------------------------------------- */

/* Guard band of the mean of three readings that scatter by 0.02 mm, gauge 0.01 mm; SciPy 1.10.1:
 * sqrt((1.65 * 0.01)^2 + (2.938173 * 0.02)^2/3). */
static void the_scatter_has_the_degrees_of_its_readings(void **state)
{
    (void)state;
    const double d[] = {23.52, 23.50, 23.54};
    const fer_guard upper = {0, 0, FER_SIDE_UPPER, 0}, known = {0, 0, FER_SIDE_UPPER, 1e9};
    const fer_setup setup = setup_with(23.5, 23.3, 23.7);
    CHECK_NEAR(inspect(&setup, d, 3, upper, unknown).verdict.guard.mm, 0.03772661987136773, 1e-12);
    /* the guard's own degrees of freedom come first */
    CHECK_NEAR(inspect(&setup, d, 3, known, unknown).verdict.guard.mm, 1.65 * sqrt(1e-4 + 4e-4 / 3.0), 1e-8);
    /* two equal readings: the scatter is the rectangular share of a step, with one degree of freedom */
    const double equal[] = {23.5, 23.5};
    CHECK_NEAR(inspect(&setup, equal, 2, upper, unknown).verdict.guard.mm, 0.021291286058392297, 1e-12);
}

static void one_reading_is_never_accepted(void **state)
{
    (void)state;
    const double middle = 23.5, outside = 23.8;
    const fer_guard without = {0, 1, FER_SIDE_BOTH, 0};
    fer_setup setup = setup_with(23.5, 23.3, 23.7);
    for (int to = 0; to < 4; to++) {
        setup.applies_to = (fer_applies_to)to;
        const fer_inspection i = inspect(&setup, &middle, 1, usual, unknown);
        assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
        assert_true(has(&i, FER_FINDING_TOO_FEW_READINGS));
        assert_int_equal(inspect(&setup, &middle, 1, without, unknown).decision, FER_DECISION_ACCEPT);
        assert_int_equal(inspect(&setup, &outside, 1, usual, unknown).decision, FER_DECISION_REJECT);
    }
}

static void a_gauge_of_which_nothing_is_known_accepts_nothing(void **state)
{
    (void)state;
    const fer_setup setup = setup_with(23.5, 23.3, 23.7);
    const fer_reading readings[] = {{{23.5}, 0, {0}, 0}, {{23.51}, 0, {0}, 0}};
    const fer_gauge exact = {{0}, {0}, {0.01}};
    const fer_guard without = {0, 1, FER_SIDE_BOTH, 0};
    const fer_marks marks = {0};
    fer_inspection i;
    CHECK_OK(fer_inspect_crimp(&setup, readings, 2, &exact, marks, usual, unknown, &i));
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_true(has(&i, FER_FINDING_GAUGE_TAKEN_AS_EXACT));
    CHECK_OK(fer_inspect_crimp(&setup, readings, 2, &exact, marks, without, unknown, &i));
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_false(has(&i, FER_FINDING_GAUGE_TAKEN_AS_EXACT));
}

/* Four readings far outside, and a process that would draw them inside. */
static void a_process_that_contradicts_the_readings_is_not_used(void **state)
{
    (void)state;
    const double outside[] = {26.0, 26.0, 26.0, 26.0}, inside[] = {23.60, 23.61, 23.59, 23.60};
    const fer_process narrow = {{23.5}, {0.005}}, wide = {{23.5}, {0.1}};
    const fer_setup setup = setup_with(23.5, 23.3, 23.7);
    fer_inspection i = inspect(&setup, outside, 4, usual, narrow);
    assert_int_equal(i.decision, FER_DECISION_REJECT);
    assert_true(has(&i, FER_FINDING_PROCESS_NOT_USED));
    CHECK_NEAR(i.verdict.value.mm, 26.0, 1e-14);
    i = inspect(&setup, inside, 4, usual, narrow); /* good by itself, and nine deviates from the process */
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_true(has(&i, FER_FINDING_PROCESS_NOT_USED));
    i = inspect(&setup, inside, 4, usual, wide);
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_false(has(&i, FER_FINDING_PROCESS_NOT_USED));
    assert_true(i.verdict.value.mm < 23.60); /* drawn towards the process */
}

/* A process may take an acceptance away, and never gives one. */
static void a_process_never_gives_an_acceptance(void **state)
{
    (void)state;
    const double near_limit[] = {23.69, 23.69, 23.69, 23.68}, good[] = {23.67, 23.67, 23.67, 23.67};
    const fer_process inside = {{23.66}, {0.01}}, outside = {{23.71}, {0.008}};
    fer_setup setup = setup_with(23.5, 23.3, 23.7);
    setup.applies_to = FER_APPLIES_TO_MEAN;
    assert_int_equal(inspect(&setup, near_limit, 4, usual, unknown).decision, FER_DECISION_UNDECIDED);
    assert_int_equal(inspect(&setup, near_limit, 4, usual, inside).decision, FER_DECISION_UNDECIDED);
    assert_int_equal(inspect(&setup, good, 4, usual, unknown).decision, FER_DECISION_ACCEPT);
    const fer_inspection i = inspect(&setup, good, 4, usual, outside);
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_false(has(&i, FER_FINDING_PROCESS_NOT_USED));
}

/* Far outside, or a gauge that can do nothing: a verdict, never an error. */
static void readings_far_outside_are_a_verdict(void **state)
{
    (void)state;
    const double wild[] = {20.0, 27.0, 21.0, 26.5}, far[] = {40.0, 40.01}, absurd[] = {0.001, 1e6};
    const fer_setup setup = setup_with(23.51, 23.505, 23.515), wide = setup_with(23.5, 23.3, 23.7);
    fer_inspection i = inspect(&wide, wild, 4, usual, unknown);
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_true(has(&i, FER_FINDING_READINGS_SCATTER));
    assert_true(i.verdict.zone_empty);
    assert_int_equal(inspect(&wide, far, 2, usual, unknown).decision, FER_DECISION_REJECT);
    assert_int_equal(inspect(&wide, absurd, 2, usual, unknown).decision, FER_DECISION_UNDECIDED);
    i = inspect(&setup, far, 2, usual, unknown); /* tolerance 0.01, gauge 0.01 */
    assert_int_equal(i.decision, FER_DECISION_REJECT);
    assert_true(has(&i, FER_FINDING_GAUGE_CANNOT_ACCEPT));
    assert_false(has(&i, FER_FINDING_READINGS_SCATTER));
    const double middle[] = {23.51, 23.51};
    assert_int_equal(inspect(&setup, middle, 2, usual, unknown).decision, FER_DECISION_UNDECIDED);
    const fer_guard strict = {10.0, 0, FER_SIDE_BOTH, 0};
    const fer_process made = {{23.5}, {0.1}};
    assert_int_equal(inspect(&wide, absurd, 2, strict, made).decision, FER_DECISION_UNDECIDED);
}

/* ---- the joint ---------------------------------------------------------------------------------------------------- */

static fer_setup worked_setup(int with_spread)
{
    const fer_press press = {{0}, {0}, {0}, {0}, {0}, 0, 0};
    const fer_die die = {{22.0}, {0}, 0, {0}};
    fer_order order = {0};
    fer_setup setup;
    order.joint = worked_joint();
    if (with_spread) { /* those of the manual */
        order.uncertainties.hose_outside.amount = fer_mm(0.10);
        order.uncertainties.hose_inside.amount = fer_mm(0.08);
        order.uncertainties.stem_outside.amount = fer_mm(0.02);
        order.uncertainties.ferrule_wall.amount = fer_mm(0.03);
        order.uncertainties.diameter.amount = fer_mm(0.05);
    }
    CHECK_OK(fer_plan_setup(&order, &press, &die, 1, &setup));
    return setup;
}

/* The window's ends by the joint's measurements alone: sqrt(4 u_w^2 + u_s^2 + (1 - c)^2 (u_do^2 + u_di^2)) at 15 and at
 * 25 %, by hand. */
static void a_set_up_knows_how_uncertain_its_window_is(void **state)
{
    (void)state;
    const fer_setup setup = worked_setup(1), none = worked_setup(0);
    CHECK_OK(setup.window_lower_uncertainty.status);
    CHECK_NEAR(setup.window_upper_uncertainty.value.mm, 0.12589281155014373, 1e-14);
    CHECK_NEAR(setup.window_lower_uncertainty.value.mm, 0.115, 1e-14);
    assert_int_equal(none.window_lower_uncertainty.status, FER_UNCERTAINTY_EMPTY);
    CHECK_NAN(none.window_upper_uncertainty.value.mm);
}

/* A mean of 23.82 is inside the window of 23.15 to 23.87, and the joint's compression with 65 % in its range: normal
 * distribution, SciPy 1.10.1. */
static void limits_from_measurements_are_narrowed(void **state)
{
    (void)state;
    const double high[] = {23.82, 23.82}, middle[] = {23.5, 23.5};
    const fer_guard without = {0, 1, FER_SIDE_BOTH, 0};
    const fer_setup setup = worked_setup(1), exact = worked_setup(0);
    fer_inspection i = inspect(&setup, high, 2, usual, unknown);
    assert_int_not_equal(i.decision, FER_DECISION_ACCEPT);
    assert_true(has(&i, FER_FINDING_LIMITS_NARROWED));
    assert_true(has(&i, FER_FINDING_COMPRESSION_UNCERTAIN));
    CHECK_NEAR(i.compression_conforming.value.fraction, 0.654, 1e-3);
    CHECK_NEAR(i.limits.upper.mm, 23.87 - 1.65 * 0.12589281155014373, 1e-12);
    CHECK_NEAR(i.limits.lower.mm, 23.15 + 1.65 * 0.12589281155014373, 1e-12);
    i = inspect(&setup, middle, 2, usual, unknown);
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_false(has(&i, FER_FINDING_COMPRESSION_UNCERTAIN));
    i = inspect(&setup, high, 2, without, unknown); /* the limits themselves decide */
    CHECK_NEAR(i.limits.upper.mm, setup.window.value.upper.mm, 0.0);
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    i = inspect(&exact, high, 2, usual, unknown);
    assert_true(has(&i, FER_FINDING_LIMITS_TAKEN_AS_EXACT));
    assert_int_equal(i.compression_conforming.status, FER_UNCERTAINTY_EMPTY);
    /* a published figure with its tolerance is not narrowed */
    fer_setup published = setup;
    published.source = FER_TARGET_PUBLISHED;
    i = inspect(&published, high, 2, usual, unknown);
    CHECK_NEAR(i.limits.upper.mm, setup.window.value.upper.mm, 0.0);
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_true(has(&i, FER_FINDING_COMPRESSION_UNCERTAIN));
    /* nothing is left between limits that are so uncertain */
    fer_setup vague = setup;
    vague.window_lower_uncertainty.value.mm = 0.3;
    i = inspect(&vague, middle, 2, usual, unknown);
    assert_true(has(&i, FER_FINDING_LIMITS_TOO_UNCERTAIN));
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
}

/* Only limits that are the computed window are narrowed: of others it is not known where they come from. */
static void limits_of_other_origin_are_not_narrowed(void **state)
{
    (void)state;
    const double middle[] = {23.5, 23.5};
    for (int changed = 0; changed < 3; changed++) {
        fer_setup setup = worked_setup(1);
        setup.limits.value.lower.mm +=
            changed == 0 ? 0.01 : 0.0; /* a tolerance that meets the window at one end */
        setup.limits.value.upper.mm -= changed == 1 ? 0.01 : 0.0;
        setup.window.status = changed == 2 ? FER_COMPRESSION_WITHOUT_TOUCH : FER_OK;
        const fer_inspection i = inspect(&setup, middle, 2, usual, unknown);
        assert_false(has(&i, FER_FINDING_LIMITS_NARROWED));
        CHECK_NEAR(i.limits.lower.mm, setup.limits.value.lower.mm, 0.0);
        CHECK_NEAR(i.limits.upper.mm, setup.limits.value.upper.mm, 0.0);
        CHECK_STATUS(i.compression_conforming.status, setup.window.status);
    }
}

/* What is not known of one end is not known of the window, and 0 is not an uncertainty of limits from measurements. */
static void a_window_known_at_one_end_is_taken_as_exact(void **state)
{
    (void)state;
    const double middle[] = {23.5, 23.5};
    for (int end = 0; end < 4; end++) {
        fer_setup setup = worked_setup(1);
        fer_found_length *u = end % 2 ? &setup.window_upper_uncertainty : &setup.window_lower_uncertainty;
        u->status = end < 2 ? FER_UNCERTAINTY_EMPTY : FER_OK;
        u->value.mm = end < 2 ? 0.1 : 0.0; /* where it has a status, that counts */
        const fer_inspection i = inspect(&setup, middle, 2, usual, unknown);
        assert_true(has(&i, FER_FINDING_LIMITS_TAKEN_AS_EXACT));
        assert_false(has(&i, FER_FINDING_LIMITS_NARROWED));
        CHECK_NEAR(i.limits.upper.mm, setup.window.value.upper.mm, 0.0);
        CHECK_STATUS(i.compression_conforming.status, u->status);
    }
}

/* A range that ends a rounding below 100 %: the diameter to it may already close on the stem. */
static void a_window_that_ends_on_the_stem_has_its_status(void **state)
{
    (void)state;
    const fer_press press = {{0}, {0}, {0}, {0}, {0}, 0, 0};
    fer_order order = {0};
    fer_setup setup;
    order.joint.hose.inside = fer_mm(42.81);
    order.joint.hose.outside = fer_mm(48.75);
    order.joint.stem.outside = fer_mm(43.38);
    order.joint.ferrule.wall = fer_mm(3.4);
    order.uncertainties.hose_outside.amount = fer_mm(0.1);
    order.range.lower = fer_fraction(0.2);
    order.range.upper = fer_fraction(nextafter(1.0, 0.0));
    CHECK_OK(fer_plan_setup(&order, &press, NULL, 0, &setup));
    CHECK_OK(setup.window.status);
    CHECK_STATUS(setup.window_lower_uncertainty.status, FER_DIAMETER_CLOSES_ON_STEM);
    CHECK_NAN(setup.window_lower_uncertainty.value.mm);
    CHECK_OK(setup.window_upper_uncertainty.status);
}

/* Whichever way an inspection takes, a rule of guard, process or gauge that is broken is never passed over. */
static void a_broken_rule_is_never_passed_over(void **state)
{
    (void)state;
    const fer_setup given = setup_with(23.5, 23.3, 23.7), computed = worked_setup(1),
                    largest = setup_with(999950.0, 999900.0, 1e6);
    const fer_guard plain = {0}, strict = {11.0, 0, FER_SIDE_BOTH, 0}, no_number = {NAN, 0, FER_SIDE_BOTH, 0},
                    negative = {0, 0, FER_SIDE_BOTH, -1.0}, no_degrees = {0, 0, FER_SIDE_BOTH, NAN},
                    aside = {0, 0, (fer_side)3, 0};
    const fer_gauge good = {{0.01}, {0}, {0.01}}, vague = {{1e6}, {0}, {10.0}},
                    low = {{0.01}, {-100.0}, {0.01}};
    const struct {
        const fer_setup *setup;
        double reading;
        fer_gauge gauge;
        fer_guard guard;
        fer_process process;
        fer_status expected;
    } cases[] = {
        {&given, 23.5, good, strict, {{0}, {0}}, FER_GUARD_OUT_OF_RANGE},
        {&given, 23.5, good, no_number, {{0}, {0}}, FER_GUARD_OUT_OF_RANGE},
        {&computed, 23.5, good, strict, {{0}, {0}}, FER_GUARD_OUT_OF_RANGE},
        {&given, 23.5, good, negative, {{0}, {0}}, FER_GUARD_DEGREES_OUT_OF_RANGE},
        {&given, 23.5, good, no_degrees, {{0}, {0}}, FER_GUARD_DEGREES_OUT_OF_RANGE},
        {&given, 23.5, good, aside, {{0}, {0}}, FER_GUARD_SIDE_UNKNOWN},
        {&given, 23.5, good, plain, {{2e6}, {0.1}}, FER_PROCESS_MEAN_OUT_OF_RANGE},
        {&given, 23.5, good, plain, {{23.5}, {NAN}}, FER_PROCESS_DEVIATION_OUT_OF_RANGE},
        {&given, 23.5, good, plain, {{23.5}, {0}}, FER_PROCESS_DEVIATION_MISSING},
        {&given, 23.5, vague, plain, {{0}, {0}}, FER_UNCERTAINTY_OUT_OF_RANGE},
        /* what this gauge would show at the upper end is no length any more */
        {&largest, 1e6, low, plain, {{0}, {0}}, FER_LIMIT_OUT_OF_RANGE},
    };
    for (size_t k = 0; k < sizeof cases / sizeof *cases; k++) {
        const fer_reading readings[] = {{{cases[k].reading}, 0, {0}, 0}, {{cases[k].reading}, 0, {0}, 0}};
        const fer_marks marks = {0};
        fer_inspection inspection;
        CHECK_STATUS(fer_inspect_crimp(cases[k].setup, readings, 2, &cases[k].gauge, marks, cases[k].guard,
                                       cases[k].process, &inspection),
                     cases[k].expected);
        check_failed(&inspection);
    }
}

/* The deviation is from the target, which need not be in the middle of the limits. */
static void the_deviation_is_from_the_target(void **state)
{
    (void)state;
    const double d[] = {23.50, 23.52};
    const fer_setup setup = setup_with(23.45, 23.4, 23.7);
    CHECK_NEAR(inspect(&setup, d, 2, usual, unknown).deviation.mm, 0.06, 1e-13);
}

/* "Cut up" belongs to a piece that is rejected; what is undecided waits. Never crimp twice is said of all. */
static void cautions_follow_the_decision(void **state)
{
    (void)state;
    const unsigned scrap = 1u << FER_CAUTION_SCRAP_NOT_REPAIR, apart = 1u << FER_CAUTION_KEEP_APART;
    const unsigned always = 1u << FER_CAUTION_CLOSING_DIES | 1u << FER_CAUTION_LAW_AND_LICENCE |
                            1u << FER_CAUTION_NEVER_CRIMP_TWICE | 1u << FER_CAUTION_NEW_PIECE_EACH_TRIAL |
                            1u << FER_CAUTION_OTHERS_AWAY;
    const double good[] = {23.50, 23.51}, near_limit[] = {23.70, 23.70}, bad[] = {23.90, 23.91};
    const fer_setup setup = setup_with(23.5, 23.3, 23.7);
    assert_int_equal(inspect(&setup, good, 2, usual, unknown).cautions.bits, always);
    assert_int_equal(inspect(&setup, near_limit, 2, usual, unknown).cautions.bits, always | apart);
    assert_int_equal(inspect(&setup, bad, 2, usual, unknown).cautions.bits, always | scrap);
}

/* Across a reading over a gap nothing is judged; a gauge's correction is in the worst reading and not in the zone. */
static void readings_over_gaps_are_left_out(void **state)
{
    (void)state;
    const fer_setup setup = setup_with(23.5, 23.4, 23.6);
    const fer_gauge gauge = {{0.01}, {0.003}, {0.01}};
    const fer_marks marks = {{0}, 1, {0}, 0};
    const double middle = PI / 8.0;
    const fer_reading readings[] = {{{23.50}, 0, {middle}, 1},
                                    {{23.30}, 0, {0}, 1},
                                    {{0}, 2, {0}, 0},
                                    {{23.52}, 1, {middle}, 1},
                                    {{23.49}, 2, {middle}, 1}};
    fer_inspection i;
    CHECK_OK(fer_inspect_crimp(&setup, readings, 5, &gauge, marks, usual, unknown, &i));
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_int_equal(i.summary.over_gaps, 1);
    assert_int_equal(i.worst_index, 3);
    assert_int_equal(i.worst_section, 1);
    CHECK_NEAR(i.worst.mm, 23.523, 1e-12);
    /* 23.4172 - 0.003 up to 23.42, 23.5828 - 0.003 = 23.5798 down to 23.57 */
    CHECK_NEAR(i.zone.accept.lower.mm, 23.42, 0.0);
    CHECK_NEAR(i.zone.accept.upper.mm, 23.57, 0.0);
}

/* The side of the guard is the side of every rule. */
static void one_limit_alone(void **state)
{
    (void)state;
    const double low[] = {22.0, 22.01, 22.0}, high[] = {24.0, 24.01, 24.0};
    const fer_guard lower = {0, 0, FER_SIDE_LOWER, 0}, upper = {0, 0, FER_SIDE_UPPER, 0};
    fer_setup setup = setup_with(23.5, 23.4, 23.6);
    fer_inspection i = inspect(&setup, low, 3, upper, unknown);
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_int_equal(i.worst_index, 1);
    i = inspect(&setup, high, 3, lower, unknown);
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_int_equal(i.worst_index, 0);
    assert_int_equal(inspect(&setup, low, 3, lower, unknown).decision, FER_DECISION_REJECT);
}

static void an_outlier_is_named(void **state)
{
    (void)state;
    const double d[] = {23.50, 23.51, 23.50, 23.51, 23.50, 23.51, 23.50, 23.56};
    const fer_setup setup = setup_with(23.5, 23.3, 23.7);
    const fer_inspection i = inspect(&setup, d, 8, usual, unknown);
    assert_true(has(&i, FER_FINDING_OUTLIER));
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
}

static void findings_have_names_sentences_and_severities(void **state)
{
    (void)state;
    int count = 0, before = -1;
    for (int n = -1; n <= FER_FINDING_COUNT; n++) {
        const fer_finding finding = (fer_finding)n;
        if (strcmp(fer_finding_name(finding), "UNKNOWN") == 0) {
            assert_string_equal(fer_finding_sentence(finding), "");
            assert_int_equal(fer_finding_severity(finding), FER_SEVERITY_STOP);
            continue;
        }
        assert_true(strlen(fer_finding_sentence(finding)) > 20);
        assert_true((int)fer_finding_severity(finding) >= before); /* numbers are in the order of severity */
        before = (int)fer_finding_severity(finding);
        count++;
    }
    assert_int_equal(count, 15);
    assert_string_equal(fer_finding_name(FER_FINDING_GAUGE_CANNOT_ACCEPT), "GAUGE_CANNOT_ACCEPT");
    assert_int_equal(fer_finding_severity(FER_FINDING_GAUGE_CANNOT_ACCEPT), FER_SEVERITY_STOP);
    assert_int_equal(fer_finding_severity(FER_FINDING_TOO_FEW_READINGS), FER_SEVERITY_DO_FIRST);
    assert_int_equal(fer_finding_severity(FER_FINDING_LIMITS_NARROWED), FER_SEVERITY_KNOW);
}

/* ---- the promised share, short form of tests/simulation/judging.c ------------------------------------------------ */

static double next_uniform(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u; /* Knuth's MMIX constants */
    return ((double)(*seed >> 11) + 0.5) * 0x1p-53;
}

static double next_normal(uint64_t *seed)
{
    const double r = sqrt(-2.0 * log(next_uniform(seed)));
    return r * cos(2.0 * PI * next_uniform(seed));
}

/* Share of pieces at the upper limit that are accepted, of so many; gauge: share of the gauge in the variance of the
 * mean, which is 0.01 mm squared. */
static double accepted_at_limit(int n, double gauge_share, fer_process process, int pieces)
{
    const fer_gauge gauge = {{fmax(1e-7, 0.01 * sqrt(gauge_share))}, {0}, {0}};
    const fer_marks marks = {0};
    fer_setup setup = setup_with(23.5, 23.0, 24.0);
    uint64_t seed = 20261201u + (uint64_t)n;
    int accepted = 0;
    setup.applies_to = FER_APPLIES_TO_MEAN;
    for (int k = 0; k < pieces; k++) {
        fer_reading readings[readings_most] = {0};
        fer_inspection inspection;
        const double truth = 24.0 + gauge.standard_uncertainty.mm * next_normal(&seed);
        for (int i = 0; i < n; i++) {
            readings[i].diameter.mm = truth + 0.01 * sqrt((1.0 - gauge_share) * n) * next_normal(&seed);
        }
        CHECK_OK(fer_inspect_crimp(&setup, readings, (size_t)n, &gauge, marks, usual, process, &inspection));
        accepted += inspection.decision == FER_DECISION_ACCEPT;
    }
    return (double)accepted / pieces;
}

static void at_most_the_promised_share_at_a_limit_is_accepted(void **state)
{
    (void)state;
    enum { pieces = 500 };
    const double promised = 0.5 * erfc(1.65 / sqrt(2.0)); /* 4.95 % */
    const double upper = promised + 3.0 * sqrt(promised * (1.0 - promised) / pieces);
    const int counts[] = {1, 2, 3, 8};
    const fer_process process = {{23.9}, {0.1}};
    for (int i = 0; i < 4; i++) {
        for (int share = 0; share <= 9; share += 3) {
            const double alone = accepted_at_limit(counts[i], 0.1 * share, unknown, pieces);
            assert_true(alone <= upper);
            assert_true(counts[i] == 1 ? alone == 0.0 : alone > 0.2 * promised); /* and not by refusing all */
        }
        assert_true(accepted_at_limit(counts[i], 0.3, process, pieces) <= upper);
    }
}

/* Published 21 mm on the worked joint is 54.9 % of compression, and readings of 21 mm do not make it right. */
static void what_was_not_to_be_crimped_is_not_accepted(void **state)
{
    (void)state;
    const double good[] = {21.0, 21.0}, small[] = {20.7, 20.7}, middle[] = {23.51, 23.51};
    fer_setup setup = worked_setup(1);
    fer_inspection i = inspect(&setup, middle, 2, usual, unknown);
    assert_int_equal(i.decision, FER_DECISION_ACCEPT);
    assert_true(has(&i, FER_FINDING_SETUP_NOT_CONFIRMED)); /* the target is computed */
    assert_false(has(&i, FER_FINDING_SETUP_STOPPED));
    setup.confirmed = setup.remarks;
    i = inspect(&setup, middle, 2, usual, unknown);
    assert_false(has(&i, FER_FINDING_SETUP_NOT_CONFIRMED));
    setup.target = fer_mm(21.0);
    setup.source = FER_TARGET_PUBLISHED;
    setup.limits.value.lower = fer_mm(20.85);
    setup.limits.value.upper = fer_mm(21.15);
    assert_int_equal(inspect(&setup, good, 2, usual, unknown).decision, FER_DECISION_ACCEPT);
    setup.remarks.bits |= UINT64_C(1) << FER_REMARK_COMPRESSION_TOO_HIGH;
    i = inspect(&setup, good, 2, usual, unknown);
    assert_int_equal(i.decision, FER_DECISION_UNDECIDED);
    assert_int_equal(i.verdict.decision, FER_DECISION_UNDECIDED);
    assert_true(has(&i, FER_FINDING_SETUP_STOPPED));
    assert_int_equal(inspect(&setup, small, 2, usual, unknown).decision, FER_DECISION_REJECT);
}

/* Two readings, so one degree of freedom: Student's quantile is Cauchy's, tan(pi (p - 1/2)). The band
 * hypot(1.65 u_gauge, t u_A) as one of a normal distribution is what is weighed with the process; of one reading, which shows no
 * scatter, the gauge's uncertainty itself. */
static void a_process_is_weighed_with_what_the_scatter_makes_of_it(void **state)
{
    (void)state;
    const fer_setup setup = setup_with(23.5, 23.0, 24.0);
    const fer_gauge gauge = {{0.01}, {0}, {0}};
    const fer_marks marks = {0};
    const fer_process process = {{23.5}, {0.05}};
    const fer_reading readings[] = {{{23.49}, 0, {0}, 0}, {{23.51}, 0, {0}, 0}};
    fer_inspection i;
    CHECK_OK(fer_inspect_crimp(&setup, readings, 2, &gauge, marks, usual, process, &i));
    const double p = 0.5 * erfc(-1.65 / sqrt(2.0)), t = tan(3.14159265358979324 * (p - 0.5));
    const double own = 0.01414213562373095 / sqrt(2.0); /* standard deviation of 23.49 and 23.51, of two */
    const double wide = hypot(1.65 * 0.01, t * own) / 1.65;
    CHECK_NEAR(i.verdict.standard_uncertainty.mm, wide * 0.05 / hypot(wide, 0.05), 1e-8);
    CHECK_OK(fer_inspect_crimp(&setup, readings, 1, &gauge, marks, usual, process, &i));
    CHECK_NEAR(i.verdict.standard_uncertainty.mm, 0.01 * 0.05 / hypot(0.01, 0.05), 1e-12);
}

/* A set-up that was put together by hand, its window the wrong way round. */
static void a_window_in_the_wrong_order_has_its_status(void **state)
{
    (void)state;
    fer_setup setup = worked_setup(1);
    const fer_gauge gauge = {{0.02}, {0.0}, {0.01}};
    const fer_reading readings[2] = {{{23.5}, 0, {0.0}, 0}, {{23.52}, 0, {0.0}, 0}};
    const fer_marks marks = {0};
    const fer_process nothing = {{0.0}, {0.0}};
    fer_inspection inspection;
    setup.window.value.lower = fer_mm(23.87);
    setup.window.value.upper = fer_mm(23.15);
    setup.limits = setup.window;
    CHECK_STATUS(fer_inspect_crimp(&setup, readings, 2, &gauge, marks, usual, nothing, &inspection),
                 FER_LIMIT_WRONG_ORDER);
}

/* Three people, of whom one reads 0.025 mm larger and one 0.025 mm smaller: standard deviation 0.025 mm, so that u is the root of
 * 0.01² + 0.025² = 0.0269 mm and the zone of 23.7 mm ends at 23.656 mm; the certificate's alone at 23.684 mm (1.65 times u each). */
static void the_gauge_of_a_study_judges_otherwise_than_its_certificate(void **state)
{
    (void)state;
    static const double offsets[3] = {0.0, 0.025, -0.025};
    const fer_study_settings settings = {{0.0}, 0, {0.01}, {0.01}};
    const fer_setup setup = setup_with(23.5, 23.3, 23.7);
    const fer_marks marks = {0};
    const fer_reading piece[] = {
        {{23.67}, 0, {0}, 0}, {{23.66}, 0, {0}, 0}, {{23.67}, 0, {0}, 0}, {{23.67}, 0, {0}, 0}};
    fer_study_reading readings[30];
    fer_gauge_study study;
    for (int i = 0; i < 30; i++) {
        readings[i].part = i / 6;
        readings[i].person = i / 2 % 3;
        readings[i].diameter.mm = 23.4 + 0.05 * (i / 6) + offsets[i / 2 % 3] + 0.001 * (i % 2);
    }
    CHECK_OK(fer_study_gauge(readings, 30, fer_mm(0.4), (fer_ratio){0.9}, settings, &study));
    CHECK_NEAR(study.one_piece.standard_uncertainty.mm, 0.0269, 1e-4);
    const fer_gauge gauges[2] = {{{0.01}, {0}, {0.01}}, study.one_piece};
    const fer_decision decisions[2] = {FER_DECISION_ACCEPT, FER_DECISION_UNDECIDED};
    const fer_disposition dispositions[2] = {FER_DISPOSITION_RELEASED, FER_DISPOSITION_HOLD};
    for (int i = 0; i < 2; i++) {
        fer_inspection inspection;
        fer_assembly_checks checks = {0};
        fer_release release;
        CHECK_OK(fer_inspect_crimp(&setup, piece, 4, &gauges[i], marks, usual, unknown, &inspection));
        assert_int_equal(inspection.decision, decisions[i]);
        CHECK_OK(fer_enter_inspection(&inspection, &checks.first.diameter));
        checks.first.looks = FER_END_LOOK_GOOD;
        checks.first.insertion = checks.first.bore = FER_OUTCOME_PASSED;
        checks.second = checks.first;
        checks.parts = checks.length = checks.cleanliness = checks.marking = FER_OUTCOME_PASSED;
        checks.proof.pressure = checks.proof.leak = checks.proof.movement = FER_OUTCOME_PASSED;
        checks.straight = 1;
        checks.hose_age = 9;
        CHECK_OK(fer_release_assembly(&checks, (fer_release_needs){{0}, 0}, &release));
        assert_int_equal(release.decision, dispositions[i]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_inspection_joins_set_up_readings_and_verdict),
        cmocka_unit_test(an_inspection_without_limits_has_its_status),
        cmocka_unit_test(the_segments_of_the_marks_come_first),
        cmocka_unit_test(a_setup_with_a_status_of_nobody_is_refused),
        cmocka_unit_test(a_mean_inside_with_readings_outside_is_not_accepted),
        cmocka_unit_test(every_reading_has_to_be_in_the_zone),
        cmocka_unit_test(each_section_mean_is_judged),
        cmocka_unit_test(the_scatter_has_the_degrees_of_its_readings),
        cmocka_unit_test(one_reading_is_never_accepted),
        cmocka_unit_test(a_gauge_of_which_nothing_is_known_accepts_nothing),
        cmocka_unit_test(a_process_that_contradicts_the_readings_is_not_used),
        cmocka_unit_test(a_process_never_gives_an_acceptance),
        cmocka_unit_test(readings_far_outside_are_a_verdict),
        cmocka_unit_test(a_set_up_knows_how_uncertain_its_window_is),
        cmocka_unit_test(limits_from_measurements_are_narrowed),
        cmocka_unit_test(limits_of_other_origin_are_not_narrowed),
        cmocka_unit_test(a_window_known_at_one_end_is_taken_as_exact),
        cmocka_unit_test(a_window_that_ends_on_the_stem_has_its_status),
        cmocka_unit_test(a_broken_rule_is_never_passed_over),
        cmocka_unit_test(the_deviation_is_from_the_target),
        cmocka_unit_test(cautions_follow_the_decision),
        cmocka_unit_test(readings_over_gaps_are_left_out),
        cmocka_unit_test(one_limit_alone),
        cmocka_unit_test(an_outlier_is_named),
        cmocka_unit_test(findings_have_names_sentences_and_severities),
        cmocka_unit_test(at_most_the_promised_share_at_a_limit_is_accepted),
        cmocka_unit_test(a_process_is_weighed_with_what_the_scatter_makes_of_it),
        cmocka_unit_test(what_was_not_to_be_crimped_is_not_accepted),
        cmocka_unit_test(a_window_in_the_wrong_order_has_its_status),
        cmocka_unit_test(the_gauge_of_a_study_judges_otherwise_than_its_certificate),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
