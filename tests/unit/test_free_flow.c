/* SPDX-License-Identifier: MIT */
/* The quick way to the wall of a ferrule that lengthens freely, against the same equation solved in long doubles, with
 * the library's own logarithm. lib/ is private, so the test looks inside. */
#include "check.h"

#include "crimp/compression_private.h"
#include "bulk/plain_rows.h"

#include <float.h>

/* Newton's iteration on ln(w'/w) = ln(mean before / mean after) (1 - 2 thin)/(2 - thin), thin = w'/D. */
static long double reference_growth(double wall, double less, double mean, double diameter, double direction)
{
    const long double w = wall;
    long double growth = 0.0L;
    for (int i = 0; i < 60; i++) {
        const long double thicker = w * growth, now = w + thicker,
                          outside = diameter + (direction + 1.0L) * thicker;
        const long double mean_now = mean + direction * thicker, thin = now / outside, rest = 2.0L - thin;
        const long double strain = log1pl((less - direction * thicker) / mean_now),
                          share = (1.0L - 2.0L * thin) / rest;
        const long double open = direction < 0.0 ? 1.0L : 1.0L - 2.0L * thin;
        const long double slope =
            1.0L / (1.0L + growth) +
            w * (direction * share / mean_now + 3.0L / (rest * rest) * strain * open / outside);
        growth -= (log1pl(growth) - strain * share) / slope;
    }
    return growth;
}

/* The worst difference over a grid of walls and reductions, by the growth; counts what is given up. */
static double worst_difference(double thickest, double greatest, double direction, int *given_up)
{
    double worst = 0.0;
    for (int i = 1; i <= 60; i++) {
        for (int j = 0; j <= 120; j++) {
            const double outside = 25.6, wall = outside * thickest * i / 60.0;
            const double reduction = outside * greatest * pow(10.0, -0.06 * j),
                         diameter = outside - reduction;
            if (diameter <= 2.1 * wall) {
                continue;
            }
            const double less = outside - diameter, mean = diameter - wall;
            const double growth = fer_free_growth(wall, less, mean, diameter, direction);
            if (isnan(growth)) {
                *given_up += 1;
                continue;
            }
            const long double expected = reference_growth(wall, less, mean, diameter, direction);
            worst = fmax(worst, (double)fabsl(growth / expected - 1.0L));
        }
    }
    return worst;
}

static void crimps_are_right_and_never_given_up(void **test_state)
{
    (void)test_state;
    for (int known = -1; known <= 1; known += 2) {
        const double direction = known;
        int given_up = 0;
        CHECK_NEAR(worst_difference(0.11, 0.22, direction, &given_up), 0.0, 8.0 * DBL_EPSILON);
        assert_int_equal(given_up, 0);
    }
}

static void what_is_far_beyond_is_right_or_given_up(void **test_state)
{
    (void)test_state;
    for (int known = -1; known <= 1; known += 2) {
        const double direction = known;
        int given_up = 0;
        CHECK_NEAR(worst_difference(0.45, 0.8, direction, &given_up), 0.0, 2.5e-15);
        assert_in_range(given_up, 1, 3000);
    }
}

/* The quick logarithm against the C library's, in long doubles. */
static void series_of_the_logarithm(void **test_state)
{
    (void)test_state;
    for (int i = -180; i <= 180; i++) {
        const double z = i * 0.001;
        const long double exact = log1pl(2.0L * z / (1.0L - z));
        CHECK_NEAR(fer_log_series(z, 8), (double)exact, 1.5 * DBL_EPSILON * fabs(z) * 2.0);
        CHECK_NEAR(fer_log_series(z, 4), (double)exact, 1e-6 * fabs(z) * 2.0);
    }
}

static void nothing_reduced_grows_nothing(void **test_state)
{
    (void)test_state;
    assert_true(fer_free_growth(2.4, 0.0, 23.2, 25.6, -1.0) == 0.0);
    assert_true(isnan(fer_free_growth(2.4, NAN, 23.2, 25.6, 1.0)));
    assert_true(isnan(fer_free_growth(NAN, 1.0, 23.2, 25.6, 1.0)));
    assert_true(isnan(fer_free_growth(2.4, -1.0, 23.2, 25.6, 1.0)));
}

/* A kernel gives NaN where it is not sure, and the function on one row then takes a second look, which costs the time that
 * the kernel was to save. It has to be sure of ordinary joints: a stem wider than the hose inside or not, a ferrule
 * outside diameter or none, compressions from 15 to 21 %. */
static void ordinary_rows_need_no_second_look(void **state)
{
    (void)state;
    static double column[FER_BLOCK_INPUTS][FER_BLOCK_ROWS], found[FER_BLOCK_ROWS];
    const double *const input[FER_BLOCK_INPUTS] = {column[0], column[1], column[2],
                                                   column[3], column[4], column[5]};
    for (int question = FER_PLAIN_DIAMETER; question <= FER_PLAIN_COMPRESSION; question++) {
        const fer_model model = {FER_BASIS_WALL,
                                 question == FER_FREE_DIAMETER ? FER_FLOW_ENDS_FREE : FER_FLOW_NONE};
        fer_block_kernel *const kernel = fer_pick_kernel((fer_plain_question)question, 32768);
        double expected[FER_BLOCK_ROWS];
        for (int i = 0; i < FER_BLOCK_ROWS; i++) {
            fer_joint joint = worked_joint();
            fer_length diameter;
            fer_ratio compression = {0.15 + 0.0005 * i};
            joint.stem.outside.mm = i % 2 == 0 ? 12.95 : 12.6;
            joint.ferrule.outside.mm = i % 4 < 2 || question == FER_FREE_DIAMETER ? 25.6 : 0.0;
            CHECK_OK(fer_crimp_diameter(&joint, compression, model, &diameter));
            CHECK_OK(fer_compression(&joint, diameter, model, &compression));
            column[0][i] = joint.hose.inside.mm;
            column[1][i] = joint.hose.outside.mm;
            column[2][i] = joint.stem.outside.mm;
            column[3][i] = joint.ferrule.wall.mm;
            column[4][i] = joint.ferrule.outside.mm;
            column[5][i] = question == FER_PLAIN_COMPRESSION ? diameter.mm : 0.15 + 0.0005 * i;
            expected[i] = question == FER_PLAIN_COMPRESSION ? compression.fraction : diameter.mm;
        }
        if (kernel) {
            assert_int_equal(kernel(input, found), 0);
            assert_memory_equal(found, expected, sizeof found);
            column[3][77] = 0.0; /* a wall that none can have */
            assert_int_not_equal(kernel(input, found), 0);
            CHECK_NAN(found[77]);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(crimps_are_right_and_never_given_up),
        cmocka_unit_test(what_is_far_beyond_is_right_or_given_up),
        cmocka_unit_test(series_of_the_logarithm),
        cmocka_unit_test(nothing_reduced_grows_nothing),
        cmocka_unit_test(ordinary_rows_need_no_second_look),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
