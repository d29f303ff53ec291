/* SPDX-License-Identifier: MIT */
#include "check.h"

static const fer_die die = {{22.0}, {0.0}, 0, {0.0}};

static fer_dial dial_of(const fer_press *press, double target)
{
    fer_dial dial;
    CHECK_OK(fer_dial_setting(press, &die, fer_mm(target), &dial));
    return dial;
}

static void a_stepless_dial_leaves_no_remainder(void **state)
{
    (void)state;
    const fer_press press = {0};
    const fer_dial dial = dial_of(&press, 23.51);
    CHECK_NEAR(dial.exact.mm, 1.51, 1e-14);
    CHECK_NEAR(dial.setting.mm, dial.exact.mm, 0.0);
    CHECK_NEAR(dial.remainder.mm, 0.0, 1e-16);
    CHECK_NEAR(dial.expected.mm, 23.51, 1e-14);
}

/* The setting is a whole number of steps, and no other step is nearer. */
static void the_setting_is_the_nearest_step(void **state)
{
    (void)state;
    const double graduations[] = {0.1, 0.05, 0.01, 0.025, 0.0254, 1.0};
    for (int g = 0; g < 6; g++) {
        fer_press press = {0};
        press.graduation = fer_mm(graduations[g]);
        for (double target = 22.0; target < 24.0; target += 0.0137) {
            const fer_dial dial = dial_of(&press, target);
            const double steps = dial.setting.mm / graduations[g];
            CHECK_NEAR(steps, floor(steps + 0.5), 1e-9);
            assert_true(fabs(dial.remainder.mm) <= graduations[g] / 2.0 + 1e-9);
            CHECK_NEAR(dial.remainder.mm, dial.setting.mm - dial.exact.mm, 1e-15);
            CHECK_NEAR(dial.expected.mm, target + dial.remainder.mm, 4e-15);
        }
    }
}

static void halves_go_to_the_larger_diameter(void **state)
{
    (void)state;
    fer_press press = {0};
    press.graduation = fer_mm(0.1);
    for (int i = 0; i < 30; i++) {
        CHECK_NEAR(dial_of(&press, 22.0 + 0.1 * i + 0.05).setting.mm, 0.1 * (i + 1), 1e-12);
    }
}

static void the_correction_shifts_the_setting_not_the_diameter(void **state)
{
    (void)state;
    fer_press press = {0};
    fer_length diameter;
    press.correction = fer_mm(-0.12);
    const fer_dial dial = dial_of(&press, 23.51);
    CHECK_NEAR(dial.setting.mm, 1.39, 1e-14);
    CHECK_NEAR(dial.expected.mm, 23.51, 1e-14);
    CHECK_OK(fer_dialled_diameter(&press, &die, dial.setting, &diameter));
    CHECK_NEAR(diameter.mm, 23.51, 1e-14);
}

static void the_dial_ends_where_it_ends(void **state)
{
    (void)state;
    fer_press press = {0};
    fer_dial dial;
    fer_length diameter = {1.0};
    press.dial_maximum = fer_mm(1.5);
    CHECK_OK(fer_dial_setting(&press, &die, fer_mm(23.5), &dial));
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(23.51), &dial), FER_DIAL_SETTING_ABOVE_RANGE);
    CHECK_NAN(dial.setting.mm);
    CHECK_STATUS(fer_dialled_diameter(&press, &die, fer_mm(1.51), &diameter), FER_DIAL_SETTING_ABOVE_RANGE);
    CHECK_NAN(diameter.mm);
    press.correction = fer_mm(-1.6);
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(23.51), &dial), FER_DIAL_SETTING_BELOW_ZERO);
    CHECK_NAN(dial.exact.mm);
    CHECK_STATUS(fer_dialled_diameter(&press, &die, fer_mm(-0.1), &diameter), FER_DIAL_SETTING_OUT_OF_RANGE);
    CHECK_STATUS(fer_dialled_diameter(&press, &die, fer_mm(NAN), &diameter), FER_DIAL_SETTING_OUT_OF_RANGE);
    press.correction = fer_mm(30.0);
    press.dial_maximum = fer_mm(0.0);
    CHECK_STATUS(fer_dialled_diameter(&press, &die, fer_mm(1.0), &diameter), FER_DIAMETER_OUT_OF_RANGE);
    CHECK_NAN(diameter.mm);
}

/* What the dial is set to has to be on it, not what was computed: a setting that is rounded to an end of the dial can be
 * set, and one that is rounded beyond it cannot. */
static void the_rounded_setting_has_to_be_on_the_dial(void **state)
{
    (void)state;
    fer_press press = {0};
    fer_dial dial;
    press.graduation = fer_mm(0.1);
    press.dial_maximum = fer_mm(1.5);
    CHECK_NEAR(dial_of(&press, 23.54).setting.mm, 1.5, 1e-12);
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(23.56), &dial), FER_DIAL_SETTING_ABOVE_RANGE);
    press.dial_maximum = fer_mm(1.54); /* between two graduations */
    CHECK_NEAR(dial_of(&press, 23.53).setting.mm, 1.5, 1e-12);
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(23.552), &dial), FER_DIAL_SETTING_ABOVE_RANGE);
    press.correction = fer_mm(-1.0);
    CHECK_NEAR(dial_of(&press, 22.96).setting.mm, 0.0, 0.0);
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(22.94), &dial), FER_DIAL_SETTING_BELOW_ZERO);
}

static void the_coupling_passes_or_not(void **state)
{
    (void)state;
    fer_press press = {0};
    fer_length clearance = {1.0};
    CHECK_STATUS(fer_opening_clearance(&press, &die, fer_mm(30.0), &clearance), FER_PRESS_OPENING_MISSING);
    CHECK_NAN(clearance.mm);
    press.opening = fer_mm(18.0);
    CHECK_OK(fer_opening_clearance(&press, &die, fer_mm(40.0), &clearance));
    CHECK_NEAR(clearance.mm, 0.0, 0.0);
    CHECK_OK(fer_opening_clearance(&press, &die, fer_mm(41.5), &clearance));
    CHECK_NEAR(clearance.mm, -1.5, 0.0);
    CHECK_STATUS(fer_opening_clearance(&press, &die, fer_mm(0.0), &clearance), FER_WIDEST_DIAMETER_MISSING);
    CHECK_STATUS(fer_opening_clearance(&press, &die, fer_mm(NAN), &clearance),
                 FER_WIDEST_DIAMETER_OUT_OF_RANGE);
}

static void check_bad_press(fer_press press, fer_status expected)
{
    fer_dial dial;
    fer_length result;
    CHECK_STATUS(fer_check_press(&press), expected);
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(23.51), &dial), expected);
    CHECK_NAN(dial.setting.mm);
    CHECK_STATUS(fer_dialled_diameter(&press, &die, fer_mm(1.5), &result), expected);
    CHECK_STATUS(fer_opening_clearance(&press, &die, fer_mm(30.0), &result), expected);
    CHECK_NAN(result.mm);
}

static void a_bad_press_has_its_status(void **state)
{
    (void)state;
    const double bad_graduations[] = {-0.1, 0.00009, 10.1, NAN, INFINITY};
    for (int i = 0; i < 5; i++) {
        fer_press press = {0};
        press.graduation = fer_mm(bad_graduations[i]);
        check_bad_press(press, FER_PRESS_GRADUATION_OUT_OF_RANGE);
    }
    const double not_numbers[] = {NAN, INFINITY, -INFINITY};
    for (int i = 0; i < 3; i++) {
        fer_press correction = {0}, upper = {0}, opening = {0}, capacity = {0};
        correction.correction = fer_mm(not_numbers[i]);
        check_bad_press(correction, FER_PRESS_CORRECTION_OUT_OF_RANGE);
        upper.dial_maximum = fer_mm(not_numbers[i]);
        check_bad_press(upper, FER_PRESS_DIAL_RANGE_OUT_OF_RANGE);
        opening.opening = fer_mm(not_numbers[i]);
        check_bad_press(opening, FER_PRESS_OPENING_OUT_OF_RANGE);
        capacity.capacity = fer_newton(not_numbers[i]);
        check_bad_press(capacity, FER_PRESS_CAPACITY_OUT_OF_RANGE);
    }
    fer_press below = {0};
    below.capacity = fer_newton(-1.0);
    check_bad_press(below, FER_PRESS_CAPACITY_OUT_OF_RANGE);
    const int bad_segments[] = {-1, 1, 2, 65};
    for (int i = 0; i < 4; i++) {
        fer_press press = {0};
        press.segments = bad_segments[i];
        check_bad_press(press, FER_PRESS_SEGMENTS_OUT_OF_RANGE);
    }
    CHECK_STATUS(fer_check_press(NULL), FER_ARGUMENT_MISSING);
}

static void the_ends_of_what_a_press_may_be_belong_to_it(void **state)
{
    (void)state;
    const double graduations[] = {0.0001, 10.0}, corrections[] = {100.0, -100.0};
    for (int i = 0; i < 2; i++) {
        fer_press graduation = {0}, correction = {0};
        graduation.graduation = fer_mm(graduations[i]);
        CHECK_OK(fer_check_press(&graduation));
        correction.correction = fer_mm(corrections[i]);
        CHECK_OK(fer_check_press(&correction));
        correction.correction = fer_mm(corrections[i] * (1.0 + 0x1p-52));
        check_bad_press(correction, FER_PRESS_CORRECTION_OUT_OF_RANGE);
    }
}

static void the_use_of_the_capacity_may_exceed_it(void **state)
{
    (void)state;
    fer_press press = {0};
    fer_ratio use = {1.0};
    CHECK_STATUS(fer_capacity_use(&press, fer_kn(300.0), &use), FER_PRESS_CAPACITY_MISSING);
    CHECK_NAN(use.fraction);
    press.capacity = fer_kn(1200.0);
    CHECK_OK(fer_capacity_use(&press, fer_kn(300.0), &use));
    CHECK_NEAR(use.fraction, 0.25, 0.0);
    CHECK_OK(fer_capacity_use(&press, fer_kn(1800.0), &use));
    CHECK_NEAR(use.fraction, 1.5, 0.0);
    CHECK_STATUS(fer_capacity_use(&press, fer_newton(-1.0), &use), FER_FORCE_OUT_OF_RANGE);
    CHECK_NAN(use.fraction);
    CHECK_STATUS(fer_capacity_use(&press, fer_newton(INFINITY), &use), FER_FORCE_OUT_OF_RANGE);
    press.capacity = fer_newton(5e-324);
    CHECK_STATUS(fer_capacity_use(&press, fer_newton(1.0), &use), FER_FORCE_OUT_OF_RANGE);
    CHECK_NAN(use.fraction);
    CHECK_STATUS(fer_capacity_use(NULL, fer_newton(1.0), &use), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_capacity_use(&press, fer_newton(1.0), NULL), FER_ARGUMENT_MISSING);
}

static void other_bad_input_has_its_status(void **state)
{
    (void)state;
    const fer_press press = {0};
    const fer_die no_die = {{0.0}, {0.0}, 0, {0.0}};
    fer_dial dial;
    fer_length result;
    CHECK_STATUS(fer_dial_setting(&press, &no_die, fer_mm(23.51), &dial), FER_DIE_SIZE_MISSING);
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(0.0), &dial), FER_TARGET_MISSING);
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(NAN), &dial), FER_TARGET_OUT_OF_RANGE);
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(21.99), &dial), FER_DIE_ABOVE_DIAMETER);
    CHECK_STATUS(fer_dial_setting(NULL, &die, fer_mm(23.51), &dial), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_dial_setting(&press, NULL, fer_mm(23.51), &dial), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_dial_setting(&press, &die, fer_mm(23.51), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_dialled_diameter(&press, NULL, fer_mm(1.5), &result), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_dialled_diameter(&press, &die, fer_mm(1.5), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_opening_clearance(NULL, &die, fer_mm(30), &result), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_opening_clearance(&press, &die, fer_mm(30), NULL), FER_ARGUMENT_MISSING);
}

static void numbers_beyond_their_range_have_their_status(void **state)
{
    (void)state;
    fer_press press = {0};
    fer_length diameter = {1.0};
    press.segments = 65;
    CHECK_STATUS(fer_check_press(&press), FER_PRESS_SEGMENTS_OUT_OF_RANGE);
    press.segments = 64;
    CHECK_OK(fer_check_press(&press));
    CHECK_STATUS(fer_dialled_diameter(&press, &die, fer_mm(1000000.1), &diameter),
                 FER_DIAL_SETTING_OUT_OF_RANGE);
    CHECK_NAN(diameter.mm);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_stepless_dial_leaves_no_remainder),
        cmocka_unit_test(the_setting_is_the_nearest_step),
        cmocka_unit_test(halves_go_to_the_larger_diameter),
        cmocka_unit_test(the_correction_shifts_the_setting_not_the_diameter),
        cmocka_unit_test(the_dial_ends_where_it_ends),
        cmocka_unit_test(the_rounded_setting_has_to_be_on_the_dial),
        cmocka_unit_test(the_coupling_passes_or_not),
        cmocka_unit_test(a_bad_press_has_its_status),
        cmocka_unit_test(the_ends_of_what_a_press_may_be_belong_to_it),
        cmocka_unit_test(the_use_of_the_capacity_may_exceed_it),
        cmocka_unit_test(other_bad_input_has_its_status),
        cmocka_unit_test(numbers_beyond_their_range_have_their_status),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
