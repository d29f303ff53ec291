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
    setup = setup_with(23.51, 23.505, 23.515);
    CHECK_STATUS(fer_inspect_crimp(&setup, &reading, 1, &gauge, marks, usual, unknown, &inspection),
                 FER_TOLERANCE_BELOW_UNCERTAINTY);
    check_failed(&inspection);
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_inspection_joins_set_up_readings_and_verdict),
        cmocka_unit_test(an_inspection_without_limits_has_its_status),
        cmocka_unit_test(the_segments_of_the_marks_come_first),
        cmocka_unit_test(a_setup_with_a_status_of_nobody_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
