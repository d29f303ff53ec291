/* SPDX-License-Identifier: MIT */
#include "check.h"

static const double bad_numbers[] = {0.0, -1.0, 0.0009, 1000000.5, NAN, INFINITY, -INFINITY};
enum { bad_count = sizeof bad_numbers / sizeof *bad_numbers };

static void the_worked_joint_is_possible(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    CHECK_OK(fer_check_joint(&joint));
}

/* Puts each bad number into one member and expects the status each time. */
#define CHECK_MEMBER(path, at_zero, expected)                                                                \
    do {                                                                                                     \
        fer_joint joint = worked_joint();                                                                    \
        for (int i = 0; i < bad_count; i++) {                                                                \
            joint.path.mm = bad_numbers[i];                                                                  \
            CHECK_STATUS(fer_check_joint(&joint), bad_numbers[i] == 0.0 ? (at_zero) : (expected));           \
        }                                                                                                    \
    } while (0)

static void each_member_out_of_range_has_its_status(void **state)
{
    (void)state;
    CHECK_MEMBER(hose.inside, FER_HOSE_INSIDE_MISSING, FER_HOSE_INSIDE_OUT_OF_RANGE);
    CHECK_MEMBER(hose.outside, FER_HOSE_OUTSIDE_MISSING, FER_HOSE_OUTSIDE_OUT_OF_RANGE);
    CHECK_MEMBER(hose.reinforcement, FER_OK, FER_HOSE_REINFORCEMENT_OUT_OF_RANGE);
    CHECK_MEMBER(stem.outside, FER_STEM_OUTSIDE_MISSING, FER_STEM_OUTSIDE_OUT_OF_RANGE);
    CHECK_MEMBER(stem.bore, FER_OK, FER_STEM_BORE_OUT_OF_RANGE);
    CHECK_MEMBER(ferrule.wall, FER_FERRULE_WALL_MISSING, FER_FERRULE_WALL_OUT_OF_RANGE);
    CHECK_MEMBER(ferrule.outside, FER_OK, FER_FERRULE_OUTSIDE_OUT_OF_RANGE);
    CHECK_MEMBER(ferrule.length, FER_OK, FER_FERRULE_LENGTH_OUT_OF_RANGE);
}

static void members_that_contradict_each_other_have_their_status(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    joint.hose.outside = joint.hose.inside;
    CHECK_STATUS(fer_check_joint(&joint), FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE);
    joint = worked_joint();
    joint.hose.reinforcement = fer_mm(3.6000001);
    CHECK_STATUS(fer_check_joint(&joint), FER_HOSE_REINFORCEMENT_OUT_OF_RANGE);
    joint.hose.reinforcement = fer_mm(3.5);
    CHECK_OK(fer_check_joint(&joint));
    joint = worked_joint();
    joint.stem.outside = joint.hose.outside;
    CHECK_STATUS(fer_check_joint(&joint), FER_STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE);
    joint = worked_joint();
    joint.stem.bore = joint.stem.outside;
    CHECK_STATUS(fer_check_joint(&joint), FER_STEM_BORE_OUT_OF_RANGE);
    joint = worked_joint();
    joint.ferrule.outside = fer_mm(12.95 + 2.0 * 2.4);
    CHECK_STATUS(fer_check_joint(&joint), FER_FERRULE_BORE_NOT_ABOVE_STEM);
    CHECK_STATUS(fer_check_joint(NULL), FER_ARGUMENT_MISSING);
}

static void the_stem_widens_the_hose_at_constant_cross_section(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    fer_length outside = {0};
    CHECK_OK(fer_fitted_outside(&joint, &outside));
    /* cross-section before and after, 4/pi times: do^2 - di^2 = 234.72 mm2 */
    CHECK_NEAR(outside.mm * outside.mm - 12.95 * 12.95, 19.9 * 19.9 - 12.7 * 12.7, 1e-12);
    joint.stem.outside = fer_mm(12.0);
    CHECK_OK(fer_fitted_outside(&joint, &outside));
    CHECK_NEAR(outside.mm, 19.9, 0.0);
}

static void a_failure_writes_the_result(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    fer_length outside = {1.0};
    joint.hose.inside = fer_mm(NAN);
    CHECK_STATUS(fer_fitted_outside(&joint, &outside), FER_HOSE_INSIDE_OUT_OF_RANGE);
    CHECK_NAN(outside.mm);
    outside.mm = 1.0;
    CHECK_STATUS(fer_fitted_outside(NULL, &outside), FER_ARGUMENT_MISSING);
    CHECK_NAN(outside.mm);
    CHECK_STATUS(fer_fitted_outside(&joint, NULL), FER_ARGUMENT_MISSING);
}

/* Half the hose wall each side would leave nothing to squeeze. */
static void reinforcement_leaves_something_of_the_wall(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    joint.hose.inside = fer_mm(8.0);
    joint.hose.outside = fer_mm(16.0);
    joint.stem.outside = fer_mm(8.0);
    joint.hose.reinforcement = fer_mm(4.0);
    CHECK_STATUS(fer_check_joint(&joint), FER_HOSE_REINFORCEMENT_OUT_OF_RANGE);
    joint.hose.reinforcement = fer_mm(4.0 - 1e-9);
    CHECK_OK(fer_check_joint(&joint));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_worked_joint_is_possible),
        cmocka_unit_test(each_member_out_of_range_has_its_status),
        cmocka_unit_test(members_that_contradict_each_other_have_their_status),
        cmocka_unit_test(the_stem_widens_the_hose_at_constant_cross_section),
        cmocka_unit_test(a_failure_writes_the_result),
        cmocka_unit_test(reinforcement_leaves_something_of_the_wall),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
