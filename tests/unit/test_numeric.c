/* SPDX-License-Identifier: MIT */
/* lib/numeric, which is private, where the modules do not reach all of it. */
#include "check.h"

#include "base/numeric/angle.h"
#include "base/numeric/mixture.h"
#include "base/numeric/pair.h"
#include "chance/random.h"
#include "base/numeric/root.h"
#include "base/numeric/special.h"
#include "base/numeric/whole.h"
#include "base/numeric/zone.h"
#include "base/value_private.h"

#define CHECK_RELATIVE(actual, expected, tolerance) CHECK_NEAR(actual, expected, (tolerance)*fabs(expected))

/* Values here and below: mpmath 1.2.1 with 40 digits. */
static void the_normal_quantile_in_all_its_parts(void **state)
{
    (void)state;
    CHECK_RELATIVE(fer_normal_quantile(0.3), -0.52440051270804081597, 1e-15);   /* middle */
    CHECK_RELATIVE(fer_normal_quantile(0.975), 1.9599639845400538556, 1e-15);   /* upper tail */
    CHECK_RELATIVE(fer_normal_quantile(0.001), -3.0902323061678135354, 1e-15);  /* lower tail */
    CHECK_RELATIVE(fer_normal_quantile(1e-20), -9.2623400897984075796, 1e-15);  /* far tail */
    CHECK_RELATIVE(fer_normal_quantile(1e-300), -37.047096299361199237, 1e-15); /* farthest */
    CHECK_NEAR(fer_normal_quantile(0.5), 0.0, 0.0);
    CHECK_NAN(fer_normal_quantile(0.0));
    CHECK_NAN(fer_normal_quantile(1.0));
    CHECK_NAN(fer_normal_quantile(NAN));
}

static void the_beta_function_for_small_and_large_arguments(void **state)
{
    (void)state;
    CHECK_RELATIVE(fer_log_beta(0.5, 0.5), 1.1447298858494001741, 1e-15);
    CHECK_RELATIVE(fer_log_beta(2.0, 3.0), -2.4849066497880003102, 1e-15); /* ln(1/12) */
    CHECK_RELATIVE(fer_log_beta(0.5, 20.0), -0.91925184440660398648, 1e-14);
    CHECK_RELATIVE(fer_log_beta(1e6, 3.0), -40.753387493330377006, 1e-14);
    CHECK_RELATIVE(fer_log_beta(15.0, 40.0), -32.497130819813040786, 1e-14);
    CHECK_RELATIVE(fer_log_beta(2000.0, 1000.0), -1911.8746142144515688, 1e-14);
    CHECK_NAN(fer_log_beta(0.0, 1.0));
    CHECK_NAN(fer_log_beta(1.0, -1.0));
    CHECK_NAN(fer_log_beta(NAN, 1.0));
}

static void the_incomplete_beta_function(void **state)
{
    (void)state;
    CHECK_RELATIVE(fer_incomplete_beta(2.0, 3.0, 0.25), 0.26171875, 1e-14); /* a polynomial: 67/256 */
    CHECK_RELATIVE(fer_incomplete_beta(0.5, 7.0, 0.9), 0.99999997807021574813, 1e-14);
    CHECK_RELATIVE(fer_incomplete_beta(30.0, 20.0, 0.6), 0.49229980034235199456, 1e-13);
    CHECK_RELATIVE(fer_incomplete_beta(500.0, 0.5, 0.999), 0.31731044730971715469, 1e-13);
    CHECK_NEAR(fer_incomplete_beta(2.0, 3.0, 0.0), 0.0, 0.0);
    CHECK_NEAR(fer_incomplete_beta(2.0, 3.0, 1.0), 1.0, 0.0);
    /* by symmetry 1/2; more terms than it takes: what is left out shows */
    CHECK_NEAR(fer_incomplete_beta(1e12, 1e12, 0.5), 0.5, 1e-3);
    CHECK_NAN(fer_incomplete_beta(0.0, 3.0, 0.5));
    CHECK_NAN(fer_incomplete_beta(2.0, 0.0, 0.5));
    CHECK_NAN(fer_incomplete_beta(2.0, 3.0, -0.1));
    CHECK_NAN(fer_incomplete_beta(2.0, 3.0, 1.1));
    CHECK_NAN(fer_incomplete_beta(2.0, 3.0, NAN));
}

static void students_distribution_from_one_tail_to_the_other(void **state)
{
    (void)state;
    CHECK_RELATIVE(fer_student_cdf(-2.5, 3.0), 0.043853323504032773625, 1e-14);
    CHECK_RELATIVE(fer_student_cdf(1.3, 0.7), 0.76083734896041008409, 1e-14);
    CHECK_RELATIVE(fer_student_cdf(-40.0, 12.0), 1.9256147903860169062e-14, 1e-13);
    CHECK_RELATIVE(fer_student_cdf(-5.0, 1e10), 2.8665157671103237e-7, 1e-13); /* nearly normal */
    CHECK_RELATIVE(fer_student_cdf(-5.0, 1e14), 2.866515718796771e-7, 1e-13);
    CHECK_NEAR(fer_student_cdf(0.0, 3.0), 0.5, 0.0);
    CHECK_NEAR(fer_student_cdf(-1e200, 3.0), 0.0, 0.0);
    CHECK_NEAR(fer_student_cdf(-1.5, 1e16), 0.5 * erfc(1.5 / sqrt(2.0)), 1e-16); /* normal */
    CHECK_NAN(fer_student_cdf(1.0, 0.0));
    CHECK_NAN(fer_student_cdf(1.0, NAN));
    CHECK_NAN(fer_student_cdf(NAN, 3.0));
    CHECK_RELATIVE(fer_student_quantile(0.975, 10.0), 2.2281388519862742245, 1e-14);
    CHECK_RELATIVE(fer_student_quantile(1e-12, 3.0), -10331.108244292486204, 1e-13);
    CHECK_RELATIVE(fer_student_quantile(0.3, 2.5), -0.59730773825231749483, 1e-13);
    CHECK_NEAR(fer_student_quantile(0.5, 3.0), 0.0, 0.0);
    CHECK_RELATIVE(fer_student_quantile(0.001, 1e16), -3.0902323061678135354, 1e-15);
    CHECK_NAN(fer_student_quantile(0.0, 3.0));
    CHECK_NAN(fer_student_quantile(1.0, 3.0));
    CHECK_NAN(fer_student_quantile(0.5, 0.0));
    CHECK_NAN(fer_student_quantile(NAN, 3.0));
}

static void a_pair_has_a_root_from_zero_on(void **state)
{
    (void)state;
    CHECK_NEAR(fer_pair_value(fer_pair_root(fer_pair_of(0.0))), 0.0, 0.0);
    const fer_pair root = fer_pair_root(fer_pair_of(2.0));
    CHECK_NEAR(root.high, 1.41421356237309504880, 0.0);
    CHECK_NEAR(root.low, -9.6672933134529135e-17, 1e-31); /* square root of 2 minus its double */
}

/* x^3 - 2 and, with a root of ninth order, a function for which Newton's steps creep. */
static double cube_less_two(double x, const void *context, double *slope)
{
    (void)context;
    *slope = 3.0 * x * x;
    return x * x * x - 2.0;
}

static double ninth_power(double x, const void *context, double *slope)
{
    (void)context;
    *slope = 9.0 * pow(x - 0.25, 8.0);
    return pow(x - 0.25, 9.0);
}

static void a_root_is_found_from_any_start(void **state)
{
    (void)state;
    const double starts[] = {1.5, 0.0, 1.0, 3.0, 7.0, NAN};
    for (int i = 0; i < 6; i++) {
        CHECK_NEAR(fer_rising_root(cube_less_two, NULL, 1.0, 3.0, starts[i], DBL_EPSILON),
                   1.25992104989487316477, 4e-16);
    }
}

/* The turns are counted where the test has its context. */
static void count_turn(const void *context)
{
    int *const *turns = (int *const *)context;
    ++**turns;
}

/* Rises in one step at a place so small that halving needs 664 turns and the 53 of its digits; without a slope. */
static double step_at_1e_minus_200(double x, const void *context, double *slope)
{
    count_turn(context);
    *slope = 0.0;
    return x < 1e-200 ? -1.0 : 1.0;
}

static double not_a_number(double x, const void *context, double *slope)
{
    (void)x;
    count_turn(context);
    *slope = NAN;
    return NAN;
}

/* Its slope is infinite wherever it is asked for: a step of nothing, which is no root. */
static double without_end(double x, const void *context, double *slope)
{
    (void)context;
    *slope = INFINITY;
    return x - 0.3;
}

/* However the function creeps, jumps or has no value, the search ends, and only at the root where there is one. */
static void a_root_is_found_however_long_it_takes(void **state)
{
    (void)state;
    int turns = 0, *const counter = &turns;
    /* each of Newton's steps takes off a ninth of what is missing: a hundred would leave (8/9)^100 = 7.7e-6 */
    CHECK_NEAR(fer_rising_root(ninth_power, NULL, -1.0, 2.0, 1.25, DBL_EPSILON), 0.25, 1e-15);
    CHECK_NEAR(fer_rising_root(step_at_1e_minus_200, &counter, 0.0, 1.0, 0.5, DBL_EPSILON), 1e-200, 4e-216);
    assert_in_range(turns, 700, 720);
    turns = 0;
    CHECK_NEAR(fer_rising_root(without_end, NULL, 0.0, 1.0, 0.5, DBL_EPSILON), 0.3, 1e-15);
    CHECK_NEAR(fer_rising_root(not_a_number, &counter, 0.0, 1.0, 0.5, DBL_EPSILON), 0.0, 1e-300);
    assert_in_range(turns, 1000, 1100);
}

static void whole_numbers_at_their_ends(void **state)
{
    (void)state;
    fer_whole a, one;
    fer_whole_set(&a, 0);
    assert_int_equal(fer_whole_bits(&a), 0);
    assert_true(fer_whole_low(&a) == 0);
    fer_whole_set(&a, UINT32_MAX);
    fer_whole_set(&one, 1);
    fer_whole_add(&a, &one); /* carries beyond the last limb */
    assert_int_equal(a.count, 2);
    assert_true(fer_whole_low(&a) == (uint64_t)1 << 32);
    assert_int_equal(fer_whole_bits(&a), 33);
    fer_whole_subtract(&a, &one); /* and borrows back */
    assert_int_equal(a.count, 1);
    assert_true(fer_whole_low(&a) == UINT32_MAX);
}

/* Values by the integral of the characteristic function: P = 1/2 + 1/pi int sin(tx)/t phi(t) dt. */
static void sums_of_normal_and_other_numbers(void **state)
{
    (void)state;
    const fer_mixture normal = {2.0, {{0.0, 0}}, 0}, narrow = {1.0, {{0.9, 2}}, 1},
                      both = {1.0, {{0.5, 1}, {3.0, 1}}, 2}, nothing = {1.0, {{5e-324, 2}}, 1},
                      many = {0.1, {{1.0, 2}, {1.0, 2}, {1.0, 2}, {1.0, 2}, {1.0, 2}}, 5};
    CHECK_NEAR(fer_mixture_cdf(&normal, 1.5), 0.77337264762313180067, 1e-15);
    CHECK_NEAR(fer_mixture_cdf(&narrow, 0.75), 0.75907587878769066392, 1e-12);
    CHECK_NEAR(fer_mixture_cdf(&both, 1.25), 0.70502416143675788233, 1e-12);
    CHECK_NEAR(fer_mixture_cdf(&many, 0.75), 0.79022439451108723732, 1e-12);
    const fer_mixture six = {
        1.0, {{1.125, 2}, {1.125, 2}, {1.125, 2}, {1.125, 2}, {1.125, 2}, {1.125, 2}}, 6};
    /* one triangular number, whose density has its corner in the middle; closed form with 40 digits by mpmath: with
     * G(z) = ((z^2 + s^2) Phi(z/s) + z s phi(z/s))/2, (G(x + h) - 2 G(x) + G(x - h))/h^2 */
    const fer_mixture corner = {0.1, {{1.0, 2}}, 1}, sharp = {0.01, {{1.0, 2}}, 1};
    CHECK_NEAR(fer_mixture_cdf(&corner, 0.03), 0.52757060205175884284, 1e-13);
    CHECK_NEAR(fer_mixture_cdf(&sharp, 0.003), 0.50297570602051758850, 1e-13);
    const fer_mixture zero = {0.0, {{0.0, 0}}, 0};
    CHECK_NEAR(fer_mixture_cdf(&six, 1.5), 0.83986294729155263881,
               1e-12); /* 729 places where polynomials meet */
    CHECK_NEAR(fer_mixture_cdf(&zero, 1.0), 1.0, 0.0);
    CHECK_NEAR(fer_mixture_cdf(&zero, -1.0), 0.0, 0.0);
    CHECK_NEAR(fer_mixture_cdf(&nothing, 0.75), 0.77337264762313180067, 1e-12);
}

/* Counted by hand, and by both ways of counting where the processor has both. */
static void rows_are_counted_alike(void **state)
{
    (void)state;
    static double deviate[FER_UNIFORMS][FER_ROW];
    const double one[FER_UNIFORMS + 1] = {1.0, -0.5, 0.25, 0.0, 0.0, 0.0, -0.1},
                                    other[FER_UNIFORMS + 1] = {0.0, 0.0, 0.0, -1.0, 1.0, 2.0, 0.3};
    uint64_t first = 0, second = 0, ones = 3, others = 4;
    for (int k = 0; k < FER_ROW; k++) {
        for (int i = 0; i < FER_UNIFORMS; i++) {
            deviate[i][k] = sin(1.0 + 7.0 * k + 100.0 * i);
        }
        first += deviate[0][k] - 0.5 * deviate[1][k] + 0.25 * deviate[2][k] > 0.1;
        second += -deviate[3][k] + deviate[4][k] + 2.0 * deviate[5][k] > -0.3;
    }
    fer_count_row(one, other, deviate, &ones, &others);
    assert_true(ones == first + 3 && others == second + 4 && first > 20 && second > 20);
    if (fer_is_wide()) {
        fer_count_row_wide(one, other, deviate, &ones, &others);
        assert_true(ones == 2 * first + 3 && others == 2 * second + 4);
    }
}

/* SciPy 1.10.1, stats.qmc.Sobol(6, scramble=False): the first sixteen points, times 64. What moves a block's points is the
 * same for all of them. */
static void sobols_points_are_those_of_scipy(void **state)
{
    (void)state;
    static const unsigned char points[16][FER_UNIFORMS] = {
        {0, 0, 0, 0, 0, 0},       {32, 32, 32, 32, 32, 32}, {48, 16, 16, 16, 48, 48},
        {16, 48, 48, 48, 16, 16}, {24, 24, 40, 56, 24, 8},  {56, 56, 8, 24, 56, 40},
        {40, 8, 56, 40, 40, 56},  {8, 40, 24, 8, 8, 24},    {12, 20, 60, 28, 36, 20},
        {44, 52, 28, 60, 4, 52},  {60, 4, 44, 12, 20, 36},  {28, 36, 12, 44, 52, 4},
        {20, 12, 20, 36, 60, 28}, {52, 44, 52, 4, 28, 60},  {36, 28, 4, 52, 12, 44},
        {4, 60, 36, 20, 44, 12},
    };
    static uint64_t uniform[FER_UNIFORMS][FER_ROW];
    fer_even_row(7, 0, 16, uniform);
    for (int point = 0; point < 16; point++) {
        for (int i = 0; i < FER_UNIFORMS; i++) {
            const uint64_t unmoved =
                (uniform[i][point] ^ uniform[i][0]) & ((UINT64_C(1) << FER_UNIFORM_BITS) - 1);
            assert_true(unmoved == (uint64_t)points[point][i] << (FER_UNIFORM_BITS - 6));
        }
    }
}

/* mpmath with 40 digits. */
static void sines_and_quotients_keep_their_digits(void **state)
{
    (void)state;
    const fer_pair sine =
        fer_sine_pair(fer_half_angle_pair(7)); /* 0.43388373911755812047576833284835875461 */
    CHECK_NEAR(sine.high, 0.43388373911755812, 0.0);
    CHECK_NEAR(sine.low, 7.407189078946677e-20, 1e-17);            /* of the sine minus its double */
    const fer_pair widest = fer_sine_pair(fer_half_angle_pair(3)); /* root of 3/4 */
    CHECK_NEAR(widest.high + widest.low, 0.86602540378443864676, 1.2e-16);
    const fer_pair third = fer_pair_divide(fer_pair_of(1.0), fer_pair_of(3.0));
    CHECK_NEAR(fer_pair_ratio(fer_pair_of(1.0), third), 3.0, 0.0);
    CHECK_NEAR(fer_pair_ratio(third, fer_pair_of(1.0 / 3.0)), 1.0, 0.0); /* 1 + 5.6e-17 */
    const fer_pair more = {1.0, 1.5e-16};
    CHECK_NEAR(fer_pair_times(more, 4503599627370497.0), 4503599627370498.0, 0.0);
    CHECK_NEAR(fer_pair_times(more, 1e307), 1e307, 2e291);
}

/* The arc tangent of x - 1: Newton's step from afar leaves any ends. Counts its calls, and those beyond -10 and 13. */
typedef struct {
    int calls, beyond;
} asked;

static double arc(double x, const void *context, double *slope)
{
    asked *const count = *(asked *const *)context;
    count->calls++;
    count->beyond += !(x >= -10.0 && x <= 13.0);
    *slope = 1.0 / (1.0 + (x - 1.0) * (x - 1.0));
    return atan(x - 1.0);
}

static void a_root_is_looked_for_between_the_ends_only(void **state)
{
    (void)state;
    const double starts[] = {-9.0, 11.0, -20.0, 20.0, 1.25, 1.0};
    for (int i = 0; i < 6; i++) {
        asked count = {0, 0};
        asked *const place = &count;
        CHECK_NEAR(fer_rising_root(arc, &place, -10.0, 13.0, starts[i], DBL_EPSILON), 1.0, 4.0 * DBL_EPSILON);
        assert_int_equal(count.beyond, 0);
        /* near the root the steps are Newton's: his error is cubed where the curve has no bend; at it there is none */
        assert_true(i != 4 || count.calls <= 6);
        assert_true(i != 5 || count.calls == 1);
    }
}

/* mpmath at 40 digits. Divided by the square root of 2 in doubles, -36.4 gives a tail that is off by 1.8e-13 of it. */
static void a_far_tail_keeps_its_digits(void **state)
{
    (void)state;
    CHECK_NEAR(fer_normal_cdf(-36.4) / 2.1284975164260574148e-290, 1.0, 1e-14);
}

static void a_beta_function_has_parameters_above_zero(void **state)
{
    (void)state;
    const double bad[] = {0.0, -0.5, -1.5, NAN};
    for (int i = 0; i < 4; i++) {
        CHECK_NAN(fer_incomplete_beta(bad[i], 1.0, 0.5));
        CHECK_NAN(fer_incomplete_beta(1.0, bad[i], 0.5));
    }
}

static void nothing_shifted_is_nothing(void **state)
{
    (void)state;
    fer_whole zero, shifted;
    fer_whole_set(&zero, 0);
    fer_whole_set(&shifted, 0);
    fer_whole_shift_left(&shifted, 65);
    assert_int_equal(fer_whole_compare(&shifted, &zero), 0);
}

/* Degrees of freedom by which Student's factor gives the band of both parts, added in quadrature: findroot of mpmath, 30 digits. */
static void degrees_of_two_parts(void **state)
{
    (void)state;
    CHECK_RELATIVE(fer_combined_degrees(1.65, 1.0, 1.0, 1.0), 1.23472921006063625, 1e-10);
    CHECK_RELATIVE(fer_combined_degrees(1.65, 3.0, 1.0, 4.0), 28.5897341389717293, 1e-9);
    CHECK_RELATIVE(fer_combined_degrees(1.65, 1.0, 2.0, 7.0), 8.42831637992655002, 1e-10);
    /* one part alone */
    CHECK_NEAR(fer_combined_degrees(1.65, 1.0, 0.0, 3.0), 0.0, 0.0);
    CHECK_NEAR(fer_combined_degrees(1.65, 0.0, 1.0, 3.0), 3.0, 0.0);
    CHECK_RELATIVE(fer_combined_degrees(1.65, 1e-12, 1.0, 3.0), 3.0, 1e-9);
    CHECK_NEAR(fer_combined_degrees(1.65, 1.0, 1e-12, 3.0), 0.0, 0.0);
    /* and where the tail is as small as a guard's can be */
    const double degrees = fer_combined_degrees(10.0, 1.0, 1.0, 1.0);
    assert_true(degrees >= 1.0 && degrees < 1.1);
}

/* A set of bits has the numbers 0 to 63: any other number has the gravest severity, whatever the set holds. */
static void a_number_that_is_in_no_set_has_the_gravest_severity(void **state)
{
    (void)state;
    const fer_severities mild = {{0, 0, 0, UINT64_MAX}};
    const int outside[] = {-1, 64, 65, 1000, -1000};
    for (int i = 0; i < 5; i++) {
        assert_int_equal(fer_severity_among(&mild, outside[i]), FER_SEVERITY_STOP);
    }
    assert_int_equal(fer_severity_among(&mild, 0), FER_SEVERITY_KNOW);
    assert_int_equal(fer_severity_among(&mild, 63), FER_SEVERITY_KNOW);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(degrees_of_two_parts),
        cmocka_unit_test(a_number_that_is_in_no_set_has_the_gravest_severity),
        cmocka_unit_test(the_normal_quantile_in_all_its_parts),
        cmocka_unit_test(the_beta_function_for_small_and_large_arguments),
        cmocka_unit_test(the_incomplete_beta_function),
        cmocka_unit_test(students_distribution_from_one_tail_to_the_other),
        cmocka_unit_test(a_pair_has_a_root_from_zero_on),
        cmocka_unit_test(a_root_is_found_from_any_start),
        cmocka_unit_test(a_root_is_found_however_long_it_takes),
        cmocka_unit_test(whole_numbers_at_their_ends),
        cmocka_unit_test(sums_of_normal_and_other_numbers),
        cmocka_unit_test(rows_are_counted_alike),
        cmocka_unit_test(sobols_points_are_those_of_scipy),
        cmocka_unit_test(sines_and_quotients_keep_their_digits),
        cmocka_unit_test(a_root_is_looked_for_between_the_ends_only),
        cmocka_unit_test(a_far_tail_keeps_its_digits),
        cmocka_unit_test(a_beta_function_has_parameters_above_zero),
        cmocka_unit_test(nothing_shifted_is_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
