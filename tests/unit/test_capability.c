/* SPDX-License-Identifier: MIT */
/* Module capability. R: 4.2.2, SciPy: 1.10.1; "two programs": computed independently in Python and R, no published table. */
#include "check.h"

#define CHECK_RELATIVE(actual, expected, tolerance) CHECK_NEAR(actual, expected, (tolerance)*fabs(expected))

static const fer_measuring exact = {{0.0}, 0.0, {0.0}, {0.0}};
static const fer_capability_settings plain = {
    FER_SCATTER_OVERALL, FER_VALUES_SHAPE_NORMAL, {{0.0}, 0.0, {0.0}, {0.0}}, 0};

static fer_ratio share(double fraction)
{
    const fer_ratio ratio = {fraction};
    return ratio;
}

/* Fills pieces, all of one group. */
static void fill(fer_sample_piece *pieces, const double *diameters, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        pieces[i].diameter.mm = diameters[i];
        pieces[i].group = 0;
        pieces[i].kind = 0;
    }
}

/* A summary as a sample of this size, mean and standard deviation would have it. */
static fer_sample_summary summary_of(size_t count, double mean, double deviation)
{
    fer_sample_summary summary;
    memset(&summary, 0, sizeof summary);
    summary.count = count;
    summary.groups = 1;
    summary.mean.mm = mean;
    summary.scatter.value.mm = deviation;
    summary.within.value.mm = deviation;
    summary.within_degrees = (double)(count - 1);
    return summary;
}

static fer_wanted between(double lower, double upper)
{
    fer_wanted wanted;
    memset(&wanted, 0, sizeof wanted);
    wanted.limits.lower.mm = lower;
    wanted.limits.upper.mm = upper;
    return wanted;
}

static fer_wanted below(double upper)
{
    fer_wanted wanted = between(0.0, upper);
    wanted.side = FER_SIDE_UPPER;
    return wanted;
}

static fer_wanted above(double lower)
{
    fer_wanted wanted = between(lower, 0.0);
    wanted.side = FER_SIDE_LOWER;
    return wanted;
}

/* ---- summary --------------------------------------------------------------------------------------------- */

static const double grouped[12] = {23.50, 23.52, 23.49, 23.53, 23.55, 23.52,
                                   23.49, 23.48, 23.51, 23.52, 23.50, 23.54};

static void fill_groups(fer_sample_piece pieces[12])
{
    fill(pieces, grouped, 12);
    for (int i = 0; i < 12; i++) {
        pieces[i].group = i / 3;
    }
}

/* SciPy and R. */
static void a_sample_in_groups(void **state)
{
    (void)state;
    fer_sample_piece pieces[12];
    fer_sample_summary summary;
    fill_groups(pieces);
    CHECK_OK(fer_summarise_sample(pieces, 12, &summary));
    assert_int_equal(summary.count, 12);
    assert_int_equal(summary.groups, 4);
    CHECK_NEAR(summary.mean.mm, 23.5125, 1e-14);
    CHECK_NEAR(summary.minimum.mm, 23.48, 0.0);
    CHECK_NEAR(summary.maximum.mm, 23.55, 0.0);
    CHECK_NEAR(summary.scatter.value.mm, 0.0213733055, 2e-10);
    CHECK_NEAR(summary.within.value.mm, 0.0165831240, 5e-11);
    CHECK_NEAR(summary.within_degrees, 8.0, 0.0);
    CHECK_NEAR(summary.groups_p.value.fraction, 0.07277, 1e-5);
    assert_int_equal(summary.groups_p.status, FER_OK);
    assert_int_equal(summary.outlier_found, 0);
    assert_int_equal(summary.outlier_index, 4);
    /* the same pieces in another order of making have the same groups */
    const fer_sample_piece first = pieces[0];
    pieces[0] = pieces[11];
    pieces[11] = first;
    fer_sample_summary other;
    CHECK_OK(fer_summarise_sample(pieces, 12, &other));
    assert_int_equal(other.groups, 4);
    CHECK_NEAR(other.within.value.mm, summary.within.value.mm, 1e-15);
    CHECK_NEAR(other.groups_p.value.fraction, summary.groups_p.value.fraction, 1e-13);
}

/* By hand: differences 1 and -2 and 3 hundredths. */
static void one_group_scatters_by_neighbours(void **state)
{
    (void)state;
    static const double diameters[4] = {1.00, 1.01, 0.99, 1.02};
    fer_sample_piece pieces[4];
    fer_sample_summary summary;
    fill(pieces, diameters, 4);
    CHECK_OK(fer_summarise_sample(pieces, 4, &summary));
    CHECK_NEAR(summary.within.value.mm, sqrt(14e-4 / 6.0), 1e-15);
    CHECK_NEAR(summary.within_degrees, 18.0 / 8.0, 0.0);
    assert_int_equal(summary.groups_p.status, FER_SAMPLE_GROUPS_TOO_FEW);
    CHECK_NAN(summary.groups_p.value.fraction);
    /* mean 1.005; deviations -0.5 0.5 -1.5 1.5 hundredths: products -0.25 -0.75 -2.25, squares 5 */
    CHECK_NEAR(summary.lag, -3.25 / 5.0, 1e-13);
    assert_int_equal(summary.lag_found, 0);
    CHECK_NEAR(summary.log_mean, 0.25 * (log(1.01) + log(0.99) + log(1.02)), 1e-16);
    const double m = summary.log_mean;
    CHECK_NEAR(summary.log_deviation,
               sqrt((m * m + pow(log(1.01) - m, 2) + pow(log(0.99) - m, 2) + pow(log(1.02) - m, 2)) / 3.0),
               1e-15);
    /* groups of one: the same */
    for (int i = 0; i < 4; i++) {
        pieces[i].group = i;
    }
    CHECK_OK(fer_summarise_sample(pieces, 4, &summary));
    assert_int_equal(summary.groups, 4);
    CHECK_NEAR(summary.within_degrees, 18.0 / 8.0, 0.0);
    assert_int_equal(summary.groups_p.status, FER_SAMPLE_GROUPS_TOO_FEW);
}

static void what_follows_on_each_other_and_what_lies_apart(void **state)
{
    (void)state;
    fer_sample_piece pieces[30];
    fer_sample_summary summary;
    double rising[30];
    for (int i = 0; i < 30; i++) {
        rising[i] = 23.5 + 0.01 * i;
    }
    fill(pieces, rising, 30);
    CHECK_OK(fer_summarise_sample(pieces, 30, &summary));
    assert_int_equal(summary.lag_found, 1);
    /* one piece far off: it is named */
    for (int i = 0; i < 30; i++) {
        rising[i] = 23.5 + 0.01 * (i % 3) + (i == 17 ? 0.2 : 0.0);
    }
    fill(pieces, rising, 30);
    CHECK_OK(fer_summarise_sample(pieces, 30, &summary));
    assert_int_equal(summary.outlier_found, 1);
    assert_int_equal(summary.outlier_index, 17);
    assert_int_equal(summary.lag_found, 0);
    /* two equally far: the first */
    const double apart[4] = {20.5, 21.0, 20.0, 20.5};
    fill(pieces, apart, 4);
    CHECK_OK(fer_summarise_sample(pieces, 4, &summary));
    assert_int_equal(summary.outlier_index, 1);
    /* all equal: nothing scatters, nothing is an outlier */
    for (int i = 0; i < 30; i++) {
        rising[i] = 23.7; /* 30 times it, and its logarithm, are no doubles */
    }
    fill(pieces, rising, 30);
    CHECK_OK(fer_summarise_sample(pieces, 30, &summary));
    CHECK_NEAR(summary.scatter.value.mm, 0.0, 0.0);
    CHECK_NEAR(summary.log_deviation, 0.0, 0.0);
    assert_int_equal(summary.outlier_found, 0);
    assert_int_equal(summary.lag_found, 0);
    for (int i = 0; i < 30; i++) {
        pieces[i].group = i / 10;
    }
    CHECK_OK(fer_summarise_sample(pieces, 30, &summary));
    CHECK_NEAR(summary.groups_p.value.fraction, 1.0, 0.0); /* groups are alike */
    for (int i = 0; i < 30; i++) {
        pieces[i].diameter.mm = 23.5 + 0.1 * pieces[i].group;
    }
    CHECK_OK(fer_summarise_sample(pieces, 30, &summary));
    CHECK_NEAR(summary.groups_p.value.fraction, 0.0, 0.0); /* nothing scatters within */
}

static void bad_samples(void **state)
{
    (void)state;
    fer_sample_piece pieces[12];
    fer_sample_summary summary;
    fill_groups(pieces);
    CHECK_STATUS(fer_summarise_sample(pieces, 12, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_summarise_sample(NULL, 12, &summary), FER_ARGUMENT_MISSING);
    CHECK_NAN(summary.mean.mm);
    CHECK_NAN(summary.lag);
    CHECK_NAN(summary.log_deviation);
    CHECK_NAN(summary.within_degrees);
    assert_int_equal(summary.scatter.status, FER_ARGUMENT_MISSING);
    assert_int_equal(summary.count, 0);
    CHECK_STATUS(fer_summarise_sample(pieces, 0, &summary), FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(fer_summarise_sample(pieces, 5001, &summary), FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(fer_summarise_sample(pieces, 1, &summary), FER_SAMPLE_TOO_FEW);
    CHECK_OK(fer_summarise_sample(pieces, 2, &summary));
    pieces[3].diameter.mm = 0.0;
    CHECK_STATUS(fer_summarise_sample(pieces, 12, &summary), FER_SAMPLE_PIECE_MISSING);
    pieces[3].diameter.mm = NAN;
    CHECK_STATUS(fer_summarise_sample(pieces, 12, &summary), FER_SAMPLE_PIECE_OUT_OF_RANGE);
    pieces[3].diameter.mm = 23.5;
    pieces[5].group = -1;
    CHECK_STATUS(fer_summarise_sample(pieces, 12, &summary), FER_SAMPLE_GROUP_OUT_OF_RANGE);
    pieces[5].group = 1000001;
    CHECK_STATUS(fer_summarise_sample(pieces, 12, &summary), FER_SAMPLE_GROUP_OUT_OF_RANGE);
    pieces[5].group = 1000000;
    pieces[5].kind = 64;
    CHECK_STATUS(fer_summarise_sample(pieces, 12, &summary), FER_SAMPLE_KIND_OUT_OF_RANGE);
    pieces[5].kind = -1;
    CHECK_STATUS(fer_summarise_sample(pieces, 12, &summary), FER_SAMPLE_KIND_OUT_OF_RANGE);
    pieces[5].kind = 63;
    CHECK_OK(fer_summarise_sample(pieces, 12, &summary));
}

/* ---- normality ------------------------------------------------------------------------------------------- */

/* Shapiro and Wilk 1965, weights of men (W 0.79, from memory); more digits: R's shapiro.test and nortest's ad.test. */
static void the_weights_of_eleven_men(void **state)
{
    (void)state;
    static const double weights[11] = {148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236};
    fer_sample_piece pieces[11];
    fer_length sorted[11];
    fer_normality n;
    size_t found = 0;
    fill(pieces, weights, 11);
    const fer_sample_piece first = pieces[0];
    pieces[0] = pieces[7];
    pieces[7] = first;
    CHECK_OK(fer_test_normality(pieces, 11, exact, &n, sorted, 11, &found));
    assert_int_equal(found, 11);
    CHECK_NEAR(sorted[0].mm, 148.0, 0.0);
    CHECK_NEAR(sorted[10].mm, 236.0, 0.0);
    CHECK_RELATIVE(n.shapiro, 0.788814694835, 1e-9);
    CHECK_RELATIVE(n.shapiro_p.fraction, 0.0067038141, 1e-7);
    CHECK_RELATIVE(n.anderson, 0.946771879599, 1e-11);
    CHECK_RELATIVE(n.anderson_p.value.fraction, 0.010454024005, 1e-9);
    assert_int_equal(n.laid_out, 0);
}

/* SciPy's shapiro, which gives seven figures; A² from its anderson, with D'Agostino's formulas by hand. */
static void tests_of_other_samples(void **state)
{
    (void)state;
    static const double values[16] = {2.1, 3.4, 2.9, 5.8, 1.2, 4.4, 3.1, 2.7,
                                      9.5, 3.3, 2.2, 4.1, 3.9, 6.6, 2.5, 3.7};
    static const double known[][3] = {{3, 0.98255825, 0.74702972}, {4, 0.90619141, 0.46245801},
                                      {5, 0.94482642, 0.70023012}, {6, 0.98692626, 0.98036379},
                                      {11, 0.8149122, 0.01478283}, {12, 0.82876903, 0.02027481},
                                      {16, 0.86360240, 0.02173705}};
    fer_sample_piece pieces[102];
    fer_length sorted[102];
    fer_normality n;
    size_t found = 0;
    fill(pieces, values, 16);
    for (size_t i = 0; i < 7; i++) {
        CHECK_OK(fer_test_normality(pieces, (size_t)known[i][0], exact, &n, sorted, 102, &found));
        CHECK_NEAR(n.shapiro, known[i][1], 3e-7);
        CHECK_NEAR(n.shapiro_p.fraction, known[i][2], 1e-5);
        assert_int_equal(n.anderson_p.status, known[i][0] < 8 ? FER_SAMPLE_TOO_FEW : FER_OK);
    }
    static const double nearly[20] = {23.441, 23.457, 23.465, 23.472, 23.477, 23.482, 23.486,
                                      23.49,  23.494, 23.498, 23.502, 23.506, 23.51,  23.514,
                                      23.518, 23.523, 23.528, 23.535, 23.543, 23.559};
    fill(pieces, nearly, 20);
    CHECK_OK(fer_test_normality(pieces, 20, exact, &n, sorted, 102, &found));
    CHECK_NEAR(n.anderson, 0.04518103426679687, 1e-12);
    CHECK_NEAR(n.anderson_p.value.fraction, 0.9998954946037842, 1e-12);
    CHECK_NEAR(n.shapiro_p.fraction, 1.0, 1e-4);
    double counted[10] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 14};
    fill(pieces, counted, 10);
    CHECK_OK(fer_test_normality(pieces, 10, exact, &n, sorted, 102, &found));
    CHECK_NEAR(n.anderson_p.value.fraction, 0.7889350148242761, 1e-11);
    CHECK_NEAR(n.shapiro, 0.95083946, 3e-7);
    CHECK_NEAR(n.shapiro_p.fraction, 0.67843986, 1e-5);
    counted[9] = 16;
    fill(pieces, counted, 10);
    CHECK_OK(fer_test_normality(pieces, 10, exact, &n, sorted, 102, &found));
    CHECK_NEAR(n.anderson_p.value.fraction, 0.38616525235216836, 1e-11);
    fill(pieces, values, 12);
    CHECK_OK(fer_test_normality(pieces, 12, exact, &n, sorted, 102, &found));
    CHECK_NEAR(n.anderson, 0.7961201709318022, 1e-12);
    CHECK_NEAR(n.anderson_p.value.fraction, 0.027523108463093405, 1e-12);
    double far[102];
    for (int i = 0; i < 102; i++) {
        far[i] = i < 99 ? i + 1.0 : i == 99 ? 9000.0 : i == 100 ? 9500.0 : 9900.0;
    }
    fill(pieces, far, 102);
    CHECK_OK(fer_test_normality(pieces, 102, exact, &n, sorted, 102, &found));
    CHECK_NEAR(n.anderson, 36.371247184406684, 1e-10);
    CHECK_NEAR(n.anderson_p.value.fraction, 3.7e-24, 0.0);
    CHECK_NEAR(n.shapiro, 0.17339259, 3e-7);
    CHECK_RELATIVE(n.shapiro_p.fraction, 2.356346e-21, 1e-4);
    /* ten equal and one apart: W so small that nothing is left of the probability */
    const double apart[11] = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 2};
    fill(pieces, apart, 11);
    CHECK_OK(fer_test_normality(pieces, 11, exact, &n, sorted, 102, &found));
    CHECK_NEAR(n.shapiro_p.fraction, 0.0, 1e-6);
    /* three values of which two are equal: the smallest W there is */
    fill(pieces, apart + 8, 3);
    CHECK_OK(fer_test_normality(pieces, 3, exact, &n, sorted, 102, &found));
    CHECK_NEAR(n.shapiro, 0.75, 1e-15);
    CHECK_NEAR(n.shapiro_p.fraction, 0.0, 1e-7);
}

/* By hand: steps of 0.02, the three in the middle go to -1/3, 0 and 1/3 of it, the two above to -1/4 and 1/4. */
static void equal_readings_are_laid_out(void **state)
{
    (void)state;
    static const double values[6] = {23.54, 23.52, 23.50, 23.52, 23.54, 23.52};
    fer_sample_piece pieces[6];
    fer_length sorted[6];
    fer_normality n;
    size_t found = 0;
    fer_measuring measuring = exact;
    measuring.resolution.mm = 0.02;
    fill(pieces, values, 6);
    CHECK_OK(fer_test_normality(pieces, 6, measuring, &n, sorted, 6, &found));
    assert_int_equal(n.laid_out, 1);
    static const double places[6] = {0.0, 0.02 - 0.02 / 3.0, 0.02, 0.02 + 0.02 / 3.0, 0.035, 0.045};
    for (size_t i = 0; i < 6; i++) {
        CHECK_NEAR(sorted[i].mm, 23.5 + places[i], 1e-13);
    }
    measuring.resolution.mm = 0.0;
    CHECK_OK(fer_test_normality(pieces, 6, measuring, &n, sorted, 6, &found));
    assert_int_equal(n.laid_out, 0);
    CHECK_NEAR(sorted[1].mm, 23.52, 0.0);
}

static void bad_values_for_normality(void **state)
{
    (void)state;
    static const double values[3] = {23.5, 23.5, 23.5};
    fer_sample_piece pieces[3];
    fer_length sorted[3];
    fer_normality n;
    size_t found = 7;
    fer_measuring measuring = exact;
    fill(pieces, values, 3);
    found = 3;
    CHECK_STATUS(fer_test_normality(pieces, 3, exact, NULL, sorted, 3, &found), FER_ARGUMENT_MISSING);
    assert_int_equal(found, 0);
    n.shapiro = 1.0;
    CHECK_STATUS(fer_test_normality(pieces, 3, exact, &n, sorted, 3, NULL), FER_ARGUMENT_MISSING);
    CHECK_NAN(n.shapiro);
    CHECK_STATUS(fer_test_normality(pieces, 3, exact, &n, NULL, 3, &found), FER_ARGUMENT_MISSING);
    assert_int_equal(found, 0);
    CHECK_NAN(n.shapiro);
    CHECK_NAN(n.shapiro_p.fraction);
    CHECK_NAN(n.anderson);
    assert_int_equal(n.anderson_p.status, FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_test_normality(pieces, 2, exact, &n, sorted, 3, &found), FER_SAMPLE_TOO_FEW);
    CHECK_STATUS(fer_test_normality(pieces, 3, exact, &n, sorted, 2, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    CHECK_STATUS(fer_test_normality(pieces, 3, exact, &n, sorted, 3, &found), FER_SAMPLE_WITHOUT_SCATTER);
    CHECK_NAN(n.shapiro);
    measuring.resolution.mm = 10.5;
    CHECK_STATUS(fer_test_normality(pieces, 3, measuring, &n, sorted, 3, &found),
                 FER_MEASURING_RESOLUTION_OUT_OF_RANGE);
    measuring.resolution.mm = -0.1;
    CHECK_STATUS(fer_test_normality(pieces, 3, measuring, &n, sorted, 3, &found),
                 FER_MEASURING_RESOLUTION_OUT_OF_RANGE);
}

/* ---- indices --------------------------------------------------------------------------------------------- */

/* SciPy and R. */
static void indices_of_a_sample_in_groups(void **state)
{
    (void)state;
    fer_sample_piece pieces[12];
    fer_sample_summary summary;
    fer_capability c;
    fer_capability_settings within = plain;
    const fer_wanted wanted = between(23.40, 23.60);
    within.scatter = FER_SCATTER_WITHIN;
    within.stable = 2;
    fill_groups(pieces);
    CHECK_OK(fer_summarise_sample(pieces, 12, &summary));
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    CHECK_NEAR(c.potential.value, 1.559578, 5e-7);
    CHECK_NEAR(c.nearer.value, 1.364631, 5e-7);
    CHECK_NEAR(c.observed.value, 1.364631, 5e-7);
    CHECK_NEAR(c.deviation_used, 0.0213733055, 2e-10);
    CHECK_NEAR(c.degrees_of_freedom, 11.0, 0.0);
    CHECK_NEAR(c.gauge_share.fraction, 0.0, 0.0);
    CHECK_NAN(c.quantile_index);
    assert_int_equal(c.stable, 0);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), within, &c));
    assert_int_equal(c.stable, 1);
    CHECK_NEAR(c.potential.value, 2.010076, 5e-7);
    CHECK_NEAR(c.nearer.value, 1.758816, 5e-7);
    CHECK_NEAR(c.nearer.lower, 1.147771205, 1e-9);
    CHECK_NEAR(c.to_upper.lower, 1.147771205, 1e-9);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.95), within, &c));
    CHECK_NEAR(c.potential.lower, 1.174785, 5e-7);
    CHECK_NEAR(c.potential.upper, 2.798567, 5e-7);
    /* the distances themselves: 0.1125 and 0.0875 mm */
    CHECK_RELATIVE(c.to_lower.value, 0.1125 / (3.0 * summary.within.value.mm), 1e-13);
    CHECK_RELATIVE(c.to_upper.value, 0.0875 / (3.0 * summary.within.value.mm), 1e-13);
}

/* R, SciPy, and the mean of a chi-square tail. */
static void limits_without_gauge(void **state)
{
    (void)state;
    fer_capability c;
    fer_sample_summary summary = summary_of(10, 20.0, 1.0);
    fer_wanted wanted = below(24.0);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    CHECK_NEAR(c.to_upper.lower, 0.884532634, 1e-9);
    assert_int_equal(c.potential.status, FER_INDEX_WITHOUT_LIMIT);
    assert_int_equal(c.to_lower.status, FER_INDEX_WITHOUT_LIMIT);
    assert_int_equal(c.about_target.status, FER_INDEX_WITHOUT_LIMIT);
    CHECK_NAN(c.potential.value);
    CHECK_NEAR(c.nearer.lower, 0.884532634, 1e-9);
    CHECK_NEAR(c.observed.upper, c.to_upper.upper, 0.0);
    wanted = above(16.0);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    CHECK_NEAR(c.to_lower.lower, 0.884532634, 1e-9);
    CHECK_NEAR(c.nearer.lower, 0.884532634, 1e-9);
    CHECK_NEAR(c.nearer.upper, c.to_lower.upper, 0.0);
    summary = summary_of(25, 20.0, 1.0);
    wanted = between(16.4, 24.0);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.975), plain, &c));
    CHECK_NEAR(c.nearer.value, 1.2, 1e-14);
    CHECK_NEAR(c.nearer.lower, 0.836448437, 1e-9);
    CHECK_NEAR(c.nearer.upper, 1.599449837, 1e-9);
    CHECK_NEAR(c.observed.lower, 0.836448437, 1e-9);
    CHECK_NEAR(c.observed.upper, 1.599449837, 1e-9);
    CHECK_NEAR(c.text_lower, 0.83625, 5e-6);
    CHECK_NEAR(c.text_upper, 1.56375, 5e-6);
    assert_int_equal(c.nearer.status, FER_OK);
    /* chi-square of 24 degrees at 2.5 and 97.5 %: 12.401, 39.364 (any table) */
    CHECK_NEAR(c.potential.lower / c.potential.value, sqrt(12.401 / 24.0), 1e-4);
    CHECK_NEAR(c.potential.upper / c.potential.value, sqrt(39.364 / 24.0), 1e-4);
}

/* About the target: by hand; chi-square of 10 degrees at 10 %: 4.865 (any table). */
static void index_about_the_target(void **state)
{
    (void)state;
    fer_capability c;
    const fer_sample_summary summary = summary_of(10, 20.0, 1.0);
    fer_wanted wanted = between(16.0, 24.0);
    const double squares = 0.9;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    CHECK_RELATIVE(c.about_target.value, 8.0 / (6.0 * sqrt(squares)), 1e-14);
    CHECK_NEAR(c.about_target.lower / c.about_target.value, sqrt(4.865 / 10.0), 1e-4);
    CHECK_NAN(c.about_target.upper);
    wanted.target.mm = 20.5;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    CHECK_RELATIVE(c.about_target.value, 8.0 / (6.0 * sqrt(squares + 0.25)), 1e-14);
}

/* A mean outside a limit, and far away. */
static void means_outside_and_far_away(void **state)
{
    (void)state;
    fer_capability c;
    fer_sample_summary summary = summary_of(10, 25.0, 1.0);
    fer_wanted wanted = between(16.0, 24.0);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    CHECK_NEAR(c.nearer.value, -1.0 / 3.0, 1e-14);
    assert_true(c.nearer.lower < -1.0 / 3.0 && c.nearer.upper > -1.0 / 3.0 && c.nearer.upper < 0.0);
    CHECK_NEAR(c.nearer.upper, c.to_upper.upper, 0.0);
    wanted = between(16.0, 1e6); /* so far that no digits of the limits would be kept */
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    assert_true(c.to_upper.lower > 100.0 && c.to_upper.lower < c.to_upper.value);
    CHECK_NAN(c.to_upper.upper);
    wanted = between(-1e6, 16.0);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    wanted = between(-1e6, -9e5);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), plain, &c));
    CHECK_NAN(c.to_upper.lower);
    assert_true(c.to_upper.upper > c.to_upper.value && c.to_upper.upper < -100.0);
}

/* Two integrals in R. */
static void the_gauge_taken_off(void **state)
{
    (void)state;
    fer_capability c;
    fer_capability_settings settings = plain;
    const fer_sample_summary summary = summary_of(10, 23.52, 0.031);
    const fer_wanted wanted = below(23.60), both = between(23.40, 23.60);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_NEAR(c.nearer.lower, 0.551212728, 1e-9);
    settings.measuring.repeatability.mm = 0.012;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_NEAR(c.nearer.lower, 0.574021801, 1e-9);
    CHECK_RELATIVE(c.nearer.value, 0.08 / (3.0 * sqrt(0.031 * 0.031 - 0.012 * 0.012)), 1e-12);
    CHECK_NEAR(c.observed.lower, 0.551212728, 1e-9);
    CHECK_RELATIVE(c.gauge_share.fraction, 144.0 / 961.0, 1e-13);
    settings.measuring.common.mm = 0.008;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_NEAR(c.nearer.lower, 0.558833533, 1e-9);
    const double with_known = c.nearer.lower, upper_known = c.nearer.upper;
    /* degrees of freedom without end are a repeatability that is known; few ones make the limits wider */
    settings.measuring.repeatability_degrees = 1e6;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_NEAR(c.nearer.lower, with_known, 1e-6);
    settings.measuring.repeatability_degrees = 5.0;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    assert_true(c.nearer.lower > 0.55 && c.nearer.lower != with_known && c.nearer.upper > upper_known);
    settings.measuring.repeatability_degrees = 1.0;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_NAN(c.nearer.upper); /* one degree of freedom allows a gauge that covers everything */
    /* a step of 0.012 root 12 is the same, and known exactly */
    settings.measuring.repeatability.mm = 0.0;
    settings.measuring.resolution.mm = 0.012 * sqrt(12.0);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_NEAR(c.nearer.lower, with_known, 1e-12);
    /* only what is common to all */
    settings.measuring.resolution.mm = 0.0;
    CHECK_OK(fer_find_capability(&summary, &both, share(0.9), settings, &c));
    assert_true(c.nearer.lower < 0.551212728 && c.nearer.lower > 0.5);
    CHECK_NAN(c.nearer.upper);
    CHECK_NEAR(c.potential.lower, c.potential.value * sqrt(4.16815901 / 9.0), 1e-8); /* R: qchisq(0.1, 9) */
}

/* In closed form: chi-square of 9 degrees at 10 and 90 % is 4.16815901 and 14.68365657 (R). */
static void potential_index_with_the_gauge_taken_off(void **state)
{
    (void)state;
    fer_capability c;
    fer_capability_settings settings = plain;
    fer_sample_summary summary = summary_of(10, 23.5, 0.03);
    const fer_wanted wanted = between(23.40, 23.60);
    settings.measuring.repeatability.mm = 0.02;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_RELATIVE(c.potential.value, 0.2 / (6.0 * sqrt(0.0009 - 0.0004)), 1e-12);
    CHECK_RELATIVE(c.potential.lower, 0.2 / (6.0 * sqrt(0.0009 * 9.0 / 4.16815901 - 0.0004)), 1e-8);
    CHECK_RELATIVE(c.potential.upper, 0.2 / (6.0 * sqrt(0.0009 * 9.0 / 14.68365657 - 0.0004)), 1e-8);
    CHECK_RELATIVE(c.about_target.value, 0.2 / (6.0 * sqrt(0.00081 - 0.0004)), 1e-12);
    settings.measuring.repeatability.mm =
        0.025; /* what the pieces may scatter without the gauge goes down to nothing */
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_NAN(c.potential.upper);
    settings.measuring.repeatability.mm =
        0.029; /* about the target, n in the place of n - 1 leaves nothing */
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    assert_int_equal(c.about_target.status, FER_MEASURING_COVERS_SCATTER);
    assert_int_equal(c.potential.status, FER_OK);
    settings.measuring.repeatability.mm = 0.03;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    assert_int_equal(c.nearer.status, FER_MEASURING_COVERS_SCATTER);
    assert_int_equal(c.potential.status, FER_MEASURING_COVERS_SCATTER);
    assert_int_equal(c.about_target.status, FER_MEASURING_COVERS_SCATTER);
    CHECK_NAN(c.nearer.value);
    CHECK_NAN(c.deviation_used);
    CHECK_RELATIVE(c.observed.value, 0.1 / 0.09, 1e-12);
    /* with the mean on the limit or so near that an index above 0 cannot be shown there is none */
    settings.measuring.repeatability.mm = 0.02;
    summary.mean.mm = 23.6;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_NAN(c.nearer.lower);
    assert_int_equal(c.nearer.status, FER_OK);
    summary.mean.mm = 23.595;
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.99), settings, &c));
    CHECK_NAN(c.nearer.lower);
}

/* A lognormal distribution: as a normal one of the logarithms; the quantiles by their definition. */
static void values_that_cannot_be_below_zero(void **state)
{
    (void)state;
    fer_capability c, d;
    fer_capability_settings settings = plain;
    fer_sample_summary summary = summary_of(12, 0.05, 0.02), logs = summary_of(12, 100.0 - 3.0, 0.4);
    summary.log_mean = -3.0;
    summary.log_deviation = 0.4;
    settings.shape = FER_VALUES_SHAPE_LOGNORMAL;
    fer_wanted wanted = between(0.01, 0.2), same = between(100.0 + log(0.01), 100.0 + log(0.2));
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_OK(fer_find_capability(&logs, &same, share(0.9), plain, &d));
    CHECK_RELATIVE(c.nearer.value, d.nearer.value, 1e-12);
    CHECK_RELATIVE(c.nearer.lower, d.nearer.lower, 1e-11);
    CHECK_RELATIVE(c.nearer.upper, d.nearer.upper, 1e-11);
    assert_int_equal(c.about_target.status, FER_INDEX_WITHOUT_LIMIT);
    const double middle = exp(-3.0), high = (0.2 - middle) / (exp(-1.8) - middle);
    const double low = (middle - 0.01) / (middle - exp(-4.2));
    CHECK_RELATIVE(c.quantile_index, fmin(low, high), 1e-13);
    wanted = below(0.2);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_RELATIVE(c.quantile_index, high, 1e-13);
    wanted = above(0.01);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.9), settings, &c));
    CHECK_RELATIVE(c.quantile_index, low, 1e-13);
    wanted = between(0.0, 0.2);
    CHECK_STATUS(fer_find_capability(&summary, &wanted, share(0.9), settings, &c),
                 FER_VALUES_LIMIT_NOT_POSITIVE);
    wanted = below(-0.2);
    CHECK_STATUS(fer_find_capability(&summary, &wanted, share(0.9), settings, &c),
                 FER_VALUES_LIMIT_NOT_POSITIVE);
    wanted = below(0.2);
    settings.scatter = FER_SCATTER_WITHIN;
    CHECK_STATUS(fer_find_capability(&summary, &wanted, share(0.9), settings, &c),
                 FER_VALUES_SHAPE_OVERALL_ONLY);
    settings.scatter = FER_SCATTER_OVERALL;
    settings.measuring.resolution.mm = 0.01;
    CHECK_STATUS(fer_find_capability(&summary, &wanted, share(0.9), settings, &c),
                 FER_VALUES_SHAPE_OVERALL_ONLY);
    settings.measuring = exact;
    settings.measuring.common.mm = 0.01;
    CHECK_STATUS(fer_find_capability(&summary, &wanted, share(0.9), settings, &c),
                 FER_VALUES_SHAPE_OVERALL_ONLY);
    settings.measuring = exact;
    settings.measuring.repeatability.mm = 0.01;
    CHECK_STATUS(fer_find_capability(&summary, &wanted, share(0.9), settings, &c),
                 FER_VALUES_SHAPE_OVERALL_ONLY);
    settings.measuring = exact;
    settings.shape = FER_VALUES_SHAPE_ANY;
    CHECK_STATUS(fer_find_capability(&summary, &wanted, share(0.9), settings, &c),
                 FER_VALUES_SHAPE_WITHOUT_INDEX);
}

static void check_bad(const fer_sample_summary *summary, const fer_wanted *wanted, double confidence,
                      fer_capability_settings settings, fer_status status)
{
    fer_capability c;
    CHECK_STATUS(fer_find_capability(summary, wanted, share(confidence), settings, &c), status);
    CHECK_NAN(c.nearer.value);
    CHECK_NAN(c.text_lower);
    CHECK_NAN(c.gauge_share.fraction);
    assert_int_equal(c.potential.status, status);
}

static void bad_questions_about_capability(void **state)
{
    (void)state;
    const fer_sample_summary good = summary_of(10, 23.5, 0.03);
    const fer_wanted wanted = between(23.40, 23.60);
    fer_sample_summary bad = good;
    fer_wanted other = wanted;
    fer_capability_settings settings = plain;
    CHECK_STATUS(fer_find_capability(&good, &wanted, share(0.9), plain, NULL), FER_ARGUMENT_MISSING);
    check_bad(NULL, &wanted, 0.9, plain, FER_ARGUMENT_MISSING);
    check_bad(&good, NULL, 0.9, plain, FER_ARGUMENT_MISSING);
    check_bad(&good, &wanted, 0.5, plain, FER_CONFIDENCE_OUT_OF_RANGE);
    check_bad(&good, &wanted, 0.9999991, plain, FER_CONFIDENCE_OUT_OF_RANGE);
    bad.count = 1;
    check_bad(&bad, &wanted, 0.9, plain, FER_SAMPLE_INCOMPLETE);
    bad.count = 5001;
    check_bad(&bad, &wanted, 0.9, plain, FER_SAMPLE_INCOMPLETE);
    bad = good;
    bad.mean.mm = NAN;
    check_bad(&bad, &wanted, 0.9, plain, FER_SAMPLE_INCOMPLETE);
    bad = good;
    bad.scatter.value.mm = -1.0;
    check_bad(&bad, &wanted, 0.9, plain, FER_SAMPLE_INCOMPLETE);
    bad = good;
    settings.scatter = FER_SCATTER_WITHIN;
    check_bad(&good, NULL, 0.9, settings, FER_ARGUMENT_MISSING);
    bad.within.value.mm = NAN;
    check_bad(&bad, &wanted, 0.9, settings, FER_SAMPLE_INCOMPLETE);
    bad = good;
    bad.within_degrees = 0.9;
    check_bad(&bad, &wanted, 0.9, settings, FER_SAMPLE_INCOMPLETE);
    bad.within_degrees = 11.0;
    check_bad(&bad, &wanted, 0.9, settings, FER_SAMPLE_INCOMPLETE);
    settings = plain;
    settings.shape = FER_VALUES_SHAPE_LOGNORMAL;
    bad = good;
    bad.log_mean = 15.0;
    check_bad(&bad, &wanted, 0.9, settings, FER_SAMPLE_INCOMPLETE);
    bad = good;
    bad.log_deviation = NAN;
    check_bad(&bad, &wanted, 0.9, settings, FER_SAMPLE_INCOMPLETE);
    settings = plain;
    bad = good;
    bad.scatter.value.mm = 0.0;
    check_bad(&bad, &wanted, 0.9, plain, FER_SAMPLE_WITHOUT_SCATTER);
    other.limits.upper.mm = 23.4;
    check_bad(&good, &other, 0.9, plain, FER_LIMIT_WRONG_ORDER);
    other.limits.upper.mm = 2e6;
    check_bad(&good, &other, 0.9, plain, FER_LIMIT_OUT_OF_RANGE);
    other = wanted;
    other.target.mm = 23.4;
    check_bad(&good, &other, 0.9, plain, FER_TARGET_OUTSIDE_LIMITS);
    other.target.mm = 23.6;
    check_bad(&good, &other, 0.9, plain, FER_TARGET_OUTSIDE_LIMITS);
    other = below(23.6);
    other.target.mm = -1.0;
    check_bad(&good, &other, 0.9, plain, FER_TARGET_OUTSIDE_LIMITS);
    other = above(23.4);
    other.target.mm = 1000001.0;
    check_bad(&good, &other, 0.9, plain, FER_TARGET_OUTSIDE_LIMITS);
    settings.scatter = (fer_scatter)2;
    check_bad(&good, &wanted, 0.9, settings, FER_SCATTER_UNKNOWN);
    settings = plain;
    settings.shape = (fer_values_shape)3;
    check_bad(&good, &wanted, 0.9, settings, FER_VALUES_SHAPE_UNKNOWN);
    settings = plain;
    settings.measuring.repeatability.mm = -1.0;
    check_bad(&good, &wanted, 0.9, settings, FER_MEASURING_REPEATABILITY_OUT_OF_RANGE);
    settings = plain;
    settings.measuring.repeatability_degrees = 0.5;
    check_bad(&good, &wanted, 0.9, settings, FER_MEASURING_DEGREES_OUT_OF_RANGE);
    settings.measuring.repeatability_degrees = 1000001.0;
    check_bad(&good, &wanted, 0.9, settings, FER_MEASURING_DEGREES_OUT_OF_RANGE);
    settings = plain;
    settings.measuring.common.mm = NAN;
    check_bad(&good, &wanted, 0.9, settings, FER_MEASURING_COMMON_OUT_OF_RANGE);
    settings = plain;
    settings.measuring.resolution.mm = -0.1;
    check_bad(&good, &wanted, 0.9, settings, FER_MEASURING_RESOLUTION_OUT_OF_RANGE);
    settings.measuring.resolution.mm = 10.1;
    check_bad(&good, &wanted, 0.9, settings, FER_MEASURING_RESOLUTION_OUT_OF_RANGE);
}

/* ---- shares ---------------------------------------------------------------------------------------------- */

/* z outside in Python, sigma outside in R; next piece: Student's distribution in R. */
static void shares_outside(void **state)
{
    (void)state;
    fer_share_outside found;
    fer_sample_summary summary = summary_of(10, 23.505, 0.03);
    const fer_wanted wanted = between(23.40, 23.60);
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.9), exact, &found));
    CHECK_NEAR(found.next_below.fraction, 0.0043499780, 5e-11);
    CHECK_NEAR(found.next_above.fraction, 0.0072478935, 5e-11);
    CHECK_NEAR(found.outside_upper.fraction, 0.0316765125, 5e-10);
    assert_true(found.above_upper.fraction < found.outside_upper.fraction);
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.95), exact, &found));
    CHECK_NEAR(found.outside_upper.fraction, 0.0557661728, 5e-10);
    summary = summary_of(30, 23.505, 0.04);
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.9), exact, &found));
    CHECK_NEAR(found.below.fraction, 0.0026673713, 5e-11); /* R: pbeta */
    CHECK_NEAR(found.above.fraction, 0.0064555886, 5e-11);
    CHECK_NEAR(found.outside.fraction, 0.0026673713 + 0.0064555886, 1e-10);
}

/* What one limit alone says: the index's limit, as shares. */
static void shares_beyond_one_limit(void **state)
{
    (void)state;
    fer_share_outside found;
    fer_capability c;
    fer_capability_settings settings = plain;
    const fer_sample_summary summary = summary_of(10, 23.52, 0.031);
    const fer_wanted high = below(23.60), low = above(23.44);
    settings.measuring.repeatability.mm = 0.012;
    CHECK_OK(fer_find_share_outside(&summary, &high, share(0.9), exact, &found));
    CHECK_NEAR(found.above_upper.fraction, 0.5 * erfc(3.0 * 0.551212728 / sqrt(2.0)), 1e-9);
    CHECK_NEAR(found.outside_upper.fraction, found.above_upper.fraction, 0.0);
    CHECK_NEAR(found.below.fraction, 0.0, 0.0);
    CHECK_NEAR(found.below_upper.fraction, 0.0, 0.0);
    CHECK_NEAR(found.next_below.fraction, 0.0, 0.0);
    CHECK_OK(fer_find_share_outside(&summary, &high, share(0.9), settings.measuring, &found));
    CHECK_NEAR(found.above_upper.fraction, 0.5 * erfc(3.0 * 0.574021801 / sqrt(2.0)), 1e-9);
    CHECK_OK(fer_find_share_outside(&summary, &low, share(0.9), settings.measuring, &found));
    CHECK_NEAR(found.below_upper.fraction, 0.5 * erfc(3.0 * 0.574021801 / sqrt(2.0)), 1e-9);
    CHECK_NEAR(found.outside_upper.fraction, found.below_upper.fraction, 0.0);
    CHECK_OK(fer_find_capability(&summary, &low, share(0.9), settings, &c));
    CHECK_NEAR(c.nearer.lower, 0.574021801, 1e-9);
}

/* SciPy 1.10.1, quad and brentq over the pieces between the bends: the mean is so near to a limit, and the gauge so much of what
 * scatters, that the mean decides alone where the deviation is small. */
static void shares_outside_where_the_mean_decides_alone(void **state)
{
    (void)state;
    static const struct {
        double below, above, deviation, repeatability, common, confidence, expected, tolerance;
        size_t count;
    } rows[] = {{0.0175, 0.1825, 0.023, 0.0225, 0.0, 0.6, 0.12083090996361477, 1e-9, 5},
                {0.1825, 0.0175, 0.023, 0.0225, 0.0, 0.6, 0.12083090996361477, 1e-9, 5},
                {0.012, 0.188, 0.065, 0.061, 0.042, 0.6, 0.49374229239629797, 1e-9, 17},
                {0.05, 0.15, 0.03, 0.0, 0.0006, 0.9, 0.3369667067260771, 1e-8, 4}};
    fer_capability_settings settings = plain;
    fer_capability c;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const fer_sample_summary summary = summary_of(rows[i].count, 23.5, rows[i].deviation);
        const fer_wanted wanted = between(23.5 - rows[i].below, 23.5 + rows[i].above);
        fer_share_outside found;
        settings.measuring.repeatability.mm = rows[i].repeatability;
        settings.measuring.common.mm = rows[i].common;
        CHECK_OK(
            fer_find_share_outside(&summary, &wanted, share(rows[i].confidence), settings.measuring, &found));
        CHECK_NEAR(found.outside_upper.fraction, rows[i].expected, rows[i].tolerance);
    }
    const fer_sample_summary summary = summary_of(17, 23.5, 0.065);
    settings.measuring.repeatability.mm = 0.061;
    settings.measuring.common.mm = 0.042;
    const fer_wanted wanted = between(23.488, 23.688);
    CHECK_OK(fer_find_capability(&summary, &wanted, share(0.6), settings, &c));
    CHECK_NEAR(c.to_lower.upper, 0.31877090009120135, 1e-10);
    CHECK_NEAR(c.to_upper.lower, 1.885711642457352, 1e-9);
}

/* With a gauge the limit of both lies between that of the nearer side and the sum; a very wide far limit leaves the nearer alone. */
static void shares_outside_both_with_the_gauge_taken_off(void **state)
{
    (void)state;
    fer_share_outside found, plainly;
    fer_measuring measuring = exact;
    fer_sample_summary summary = summary_of(10, 23.505, 0.03);
    const fer_wanted wanted = between(23.40, 23.60), wide = between(20.0, 23.60);
    measuring.repeatability.mm = 0.012;
    measuring.common.mm = 0.004;
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.9), exact, &plainly));
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.9), measuring, &found));
    assert_true(found.outside_upper.fraction > found.above_upper.fraction &&
                found.outside_upper.fraction < plainly.outside_upper.fraction);
    measuring.repeatability_degrees = 1e6;
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.9), measuring, &plainly));
    CHECK_NEAR(plainly.outside_upper.fraction, found.outside_upper.fraction, 1e-6);
    measuring.repeatability_degrees = 0.0;
    CHECK_OK(fer_find_share_outside(&summary, &wide, share(0.9), measuring, &found));
    CHECK_NEAR(found.outside_upper.fraction, found.above_upper.fraction, 1e-9);
    /* the mean so near to a limit that the gauge alone may have it outside */
    summary.mean.mm = 23.59;
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.6), measuring, &found));
    assert_true(found.outside_upper.fraction >= found.above_upper.fraction &&
                found.outside_upper.fraction < 0.6);
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.99), measuring, &found));
    CHECK_NEAR(found.outside_upper.fraction, 1.0, 0.0); /* nothing can be shown */
    summary.mean.mm = 23.62;
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.9), exact, &found));
    CHECK_NEAR(found.outside_upper.fraction, found.above_upper.fraction, 0.0); /* that side alone */
    assert_true(found.outside_upper.fraction > 0.75 && found.above.fraction > 0.5);
    summary.mean.mm = 23.38;
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.9), exact, &found));
    CHECK_NEAR(found.outside_upper.fraction, found.below_upper.fraction, 0.0);
    /* so few and so wide that the sum of both is everything */
    summary = summary_of(3, 23.5, 3.0);
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.99), exact, &found));
    assert_true(found.outside_upper.fraction >= found.above_upper.fraction &&
                found.outside_upper.fraction <= 1.0);
    CHECK_NEAR(found.outside.fraction, found.below.fraction + found.above.fraction, 1e-15);
    /* pieces far inside: nothing is left of the estimates */
    summary = summary_of(10, 23.5, 0.001);
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.9), exact, &found));
    CHECK_NEAR(found.outside.fraction, 0.0, 0.0);
    CHECK_NEAR(found.outside_upper.fraction, 0.0, 0.0);
    summary = summary_of(10, 23.5, 0.003);
    CHECK_OK(fer_find_share_outside(&summary, &wanted, share(0.9), exact, &found));
    assert_true(found.outside_upper.fraction > 1e-200 && found.outside_upper.fraction < 1e-80);
}

/* First: Student's distribution in R; all: nested integrals in R. */
static void further_pieces(void **state)
{
    (void)state;
    static const double known[4][2] = {{1, 0.988402}, {10, 0.910984}, {40, 0.777793}, {200, 0.553804}};
    const fer_sample_summary summary = summary_of(10, 23.505, 0.03);
    const fer_wanted wanted = between(23.40, 23.60), high = below(23.60);
    fer_measuring measuring = exact;
    fer_ratio found;
    for (int i = 0; i < 4; i++) {
        CHECK_OK(fer_find_rest_inside(&summary, &wanted, (int)known[i][0], exact, &found));
        CHECK_NEAR(found.fraction, known[i][1], 5e-7);
    }
    CHECK_OK(fer_find_rest_inside(&summary, &wanted, 0, exact, &found));
    CHECK_NEAR(found.fraction, 1.0, 1e-11);
    CHECK_OK(fer_find_rest_inside(&summary, &high, 1, exact, &found));
    CHECK_NEAR(found.fraction, 1.0 - 0.0072478935, 1e-10);
    /* the gauge's part taken off, more are inside; an uncertainty common to all, fewer */
    measuring.repeatability.mm = 0.02;
    CHECK_OK(fer_find_rest_inside(&summary, &wanted, 40, measuring, &found));
    const double without = found.fraction;
    assert_true(without > 0.8 && without < 1.0);
    measuring.common.mm = 0.02;
    CHECK_OK(fer_find_rest_inside(&summary, &wanted, 40, measuring, &found));
    assert_true(found.fraction < without);
    CHECK_OK(fer_find_rest_inside(&summary, &wanted, 0, measuring, &found));
    CHECK_NEAR(found.fraction, 1.0, 1e-9);
}

/* One limit, without gauge: the greatest of m normal numbers stays below it, an integral over its density of noncentral t,
 * P = E[F(q sqrt n; n - 1, Y sqrt n)], by mpmath with 20 digits. Many pieces are hard: they are inside or not within a small part of
 * the standard deviation. */
static void many_further_pieces(void **state)
{
    (void)state;
    static const struct {
        int pieces, further;
        double away, inside;
    } known[] = {{5, 1000, 5.5, 0.83484989419413},     {5, 1000000, 5.5, 0.53752013905074},
                 {3, 1000, 4.0, 0.52280241782143},     {10, 100000, 5.0, 0.63945905041281},
                 {30, 100000, 4.75, 0.67672098691354}, {10, 1, 4.0, 0.99793566711411}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        const fer_sample_summary summary = summary_of((size_t)known[i].pieces, 100.0, 1.0);
        const fer_wanted wanted = below(100.0 + known[i].away);
        fer_ratio found;
        CHECK_OK(fer_find_rest_inside(&summary, &wanted, known[i].further, exact, &found));
        CHECK_NEAR(found.fraction, known[i].inside, 1e-10);
    }
}

static void bad_questions_about_shares(void **state)
{
    (void)state;
    fer_sample_summary summary = summary_of(10, 23.505, 0.03);
    const fer_wanted wanted = between(23.40, 23.60), crossed = between(23.60, 23.40);
    fer_measuring measuring = exact;
    fer_share_outside found;
    fer_ratio rest;
    CHECK_STATUS(fer_find_share_outside(&summary, &wanted, share(0.9), exact, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_share_outside(NULL, &wanted, share(0.9), exact, &found), FER_ARGUMENT_MISSING);
    CHECK_NAN(found.below.fraction);
    CHECK_NAN(found.next_above.fraction);
    CHECK_STATUS(fer_find_share_outside(&summary, NULL, share(0.9), exact, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_share_outside(&summary, &crossed, share(0.9), exact, &found),
                 FER_LIMIT_WRONG_ORDER);
    CHECK_STATUS(fer_find_share_outside(&summary, &wanted, share(0.4), exact, &found),
                 FER_CONFIDENCE_OUT_OF_RANGE);
    measuring.common.mm = -1.0;
    CHECK_STATUS(fer_find_share_outside(&summary, &wanted, share(0.9), measuring, &found),
                 FER_MEASURING_COMMON_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_rest_inside(&summary, &wanted, 3, exact, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_rest_inside(&summary, &wanted, 1000001, exact, &rest),
                 FER_SAMPLE_FURTHER_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_rest_inside(&summary, &wanted, -1, exact, &rest), FER_SAMPLE_FURTHER_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_rest_inside(&summary, &wanted, 3, measuring, &rest),
                 FER_MEASURING_COMMON_OUT_OF_RANGE);
    CHECK_NAN(rest.fraction);
    measuring.common.mm = 0.0;
    measuring.repeatability.mm = 0.03;
    CHECK_STATUS(fer_find_rest_inside(&summary, &wanted, 3, measuring, &rest), FER_MEASURING_COVERS_SCATTER);
    CHECK_STATUS(fer_find_share_outside(&summary, &wanted, share(0.9), measuring, &found),
                 FER_MEASURING_COVERS_SCATTER);
    summary.count = 2;
    summary.within_degrees = 1.0;
    CHECK_STATUS(fer_find_share_outside(&summary, &wanted, share(0.9), exact, &found), FER_SAMPLE_TOO_FEW);
    summary.scatter.value.mm = 0.0;
    CHECK_STATUS(fer_find_share_outside(&summary, &wanted, share(0.9), exact, &found),
                 FER_SAMPLE_WITHOUT_SCATTER);
}

/* ---- tolerance ------------------------------------------------------------------------------------------- */

static double factor(double pieces, double degrees, double content, double confidence, fer_side side)
{
    double found = 0.0;
    CHECK_OK(fer_find_tolerance_factor(pieces, degrees, share(content), share(confidence), side, &found));
    return found;
}

/* Natrella; Odeh and Owen; ISO 16269-6 (printed tables, from memory). */
static void printed_tolerance_factors(void **state)
{
    (void)state;
    static const double one[][2] = {{3, 7.6559},  {4, 5.1439},  {5, 4.2027},  {6, 3.7077},
                                    {10, 2.9110}, {20, 2.3960}, {30, 2.2198}, {50, 2.0650}};
    static const double lax[][2] = {{3, 5.3115}, {5, 3.3998}, {10, 2.5684}, {20, 2.2078}, {50, 1.9653}};
    static const double two[][2] = {{2, 36.5192}, {3, 9.7888},  {4, 6.3411},  {5, 5.0769},
                                    {6, 4.4222},  {20, 2.7603}, {50, 2.3816}, {100, 2.2339}};
    for (size_t i = 0; i < sizeof one / sizeof *one; i++) {
        CHECK_NEAR(factor(one[i][0], 0.0, 0.95, 0.95, FER_SIDE_UPPER), one[i][1], 6e-5);
    }
    for (size_t i = 0; i < sizeof lax / sizeof *lax; i++) {
        CHECK_NEAR(factor(lax[i][0], 0.0, 0.95, 0.90, FER_SIDE_LOWER), lax[i][1], 6e-5);
    }
    for (size_t i = 0; i < sizeof two / sizeof *two; i++) {
        CHECK_NEAR(factor(two[i][0], 0.0, 0.95, 0.95, FER_SIDE_BOTH), two[i][1], 6e-5);
    }
    /* mpmath, 30 digits; two programs */
    CHECK_NEAR(factor(10.0, 0.0, 0.99, 0.95, FER_SIDE_BOTH), 4.436908729, 5e-10);
    CHECK_NEAR(factor(2.0, 0.0, 0.90, 0.90, FER_SIDE_BOTH), 15.51232598, 5e-9);
    CHECK_NEAR(factor(20.0, 60.0, 0.9973, 0.90, FER_SIDE_BOTH), 3.498079589, 5e-10);
    /* a share of 1 %: hardly anything; many degrees of freedom: as if the standard deviation were known */
    assert_true(factor(2.0, 1.0, 0.01, 0.51, FER_SIDE_BOTH) < 0.03);
    CHECK_NEAR(factor(2.0, 200.0, 0.95, 0.95, FER_SIDE_BOTH), factor(2.0, 190.0, 0.95, 0.95, FER_SIDE_BOTH),
               3e-3);
}

static void tolerance_limits(void **state)
{
    (void)state;
    const fer_sample_summary summary = summary_of(10, 23.5, 0.01);
    fer_sample_summary bad = summary;
    fer_tolerance_limits limits;
    double found = 0.0;
    CHECK_OK(fer_find_tolerance_limits(&summary, share(0.99), share(0.95), FER_SIDE_BOTH, &limits));
    CHECK_NEAR(limits.lower.mm, 23.5 - 0.04436908729, 1e-11);
    CHECK_NEAR(limits.upper.mm, 23.5 + 0.04436908729, 1e-11);
    CHECK_OK(fer_find_tolerance_limits(&summary, share(0.95), share(0.95), FER_SIDE_UPPER, &limits));
    CHECK_NEAR(limits.upper.mm, 23.52911, 1e-6);
    CHECK_NAN(limits.lower.mm);
    CHECK_OK(fer_find_tolerance_limits(&summary, share(0.95), share(0.95), FER_SIDE_LOWER, &limits));
    CHECK_NEAR(limits.lower.mm, 23.47089, 1e-6);
    CHECK_NAN(limits.upper.mm);
    bad.count = 0;
    CHECK_STATUS(fer_find_tolerance_limits(&bad, share(0.95), share(0.95), FER_SIDE_BOTH, &limits),
                 FER_SAMPLE_INCOMPLETE);
    CHECK_NAN(limits.lower.mm);
    CHECK_STATUS(fer_find_tolerance_limits(&summary, share(0.95), share(0.95), FER_SIDE_BOTH, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_tolerance_limits(&summary, share(1.0), share(0.95), FER_SIDE_BOTH, &limits),
                 FER_CONTENT_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_tolerance_factor(10.0, 0.0, share(0.9), share(0.9), FER_SIDE_BOTH, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_tolerance_factor(1.9, 0.0, share(0.9), share(0.9), FER_SIDE_BOTH, &found),
                 FER_TOLERANCE_PIECES_OUT_OF_RANGE);
    CHECK_NAN(found);
    CHECK_STATUS(fer_find_tolerance_factor(10001.0, 0.0, share(0.9), share(0.9), FER_SIDE_BOTH, &found),
                 FER_TOLERANCE_PIECES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_tolerance_factor(10.0, 0.5, share(0.9), share(0.9), FER_SIDE_BOTH, &found),
                 FER_TOLERANCE_DEGREES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_tolerance_factor(10.0, 1001.0, share(0.9), share(0.9), FER_SIDE_BOTH, &found),
                 FER_TOLERANCE_DEGREES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_tolerance_factor(10.0, 0.0, share(0.009), share(0.9), FER_SIDE_BOTH, &found),
                 FER_CONTENT_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_tolerance_factor(10.0, 0.0, share(0.9), share(0.5), FER_SIDE_BOTH, &found),
                 FER_CONFIDENCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_tolerance_factor(10.0, 0.0, share(0.9), share(0.9), (fer_side)3, &found),
                 FER_GUARD_SIDE_UNKNOWN);
}

/* Binomial: 0.9^22 = 0.0985, 0.9^21 = 0.109; 45, 77, 93: ISO 16269-6 (from memory). */
static void tolerance_without_a_shape(void **state)
{
    (void)state;
    fer_free_tolerance t;
    CHECK_OK(fer_find_free_tolerance(10, share(0.95), share(0.90), FER_SIDE_LOWER, &t));
    assert_int_equal(t.needed, 45);
    assert_int_equal(t.rank, 0);
    CHECK_NEAR(t.reached.fraction, 1.0 - pow(0.95, 10), 1e-12);
    CHECK_OK(fer_find_free_tolerance(44, share(0.95), share(0.90), FER_SIDE_LOWER, &t));
    assert_int_equal(t.rank, 0);
    CHECK_OK(fer_find_free_tolerance(45, share(0.95), share(0.90), FER_SIDE_UPPER, &t));
    assert_int_equal(t.rank, 1);
    CHECK_OK(fer_find_free_tolerance(77, share(0.95), share(0.90), FER_SIDE_BOTH, &t));
    assert_int_equal(t.needed, 77);
    assert_int_equal(t.rank, 1);
    CHECK_NEAR(t.reached.fraction, 1.0 - 77.0 * pow(0.95, 76) + 76.0 * pow(0.95, 77), 1e-12);
    CHECK_OK(fer_find_free_tolerance(76, share(0.95), share(0.90), FER_SIDE_BOTH, &t));
    assert_int_equal(t.rank, 0);
    CHECK_OK(fer_find_free_tolerance(93, share(0.95), share(0.95), FER_SIDE_BOTH, &t));
    assert_int_equal(t.needed, 93);
    CHECK_OK(fer_find_free_tolerance(22, share(0.90), share(0.90), FER_SIDE_LOWER, &t));
    assert_int_equal(t.needed, 22);
    /* more pieces: farther in. Binomial, 59 of 95/95 lose none; 93 one more: (1 - 0.05)^93 + 93 0.05 0.95^92 = 0.0499 */
    CHECK_OK(fer_find_free_tolerance(93, share(0.95), share(0.95), FER_SIDE_LOWER, &t));
    assert_int_equal(t.rank, 2);
    /* what is so easily shown that all pieces lie beyond it */
    CHECK_OK(fer_find_free_tolerance(2, share(0.01), share(0.51), FER_SIDE_LOWER, &t));
    assert_int_equal(t.rank, 2);
    assert_int_equal(t.needed, 2);
    /* half of the values with so many: 1/2 needs two pieces, 0.5^2 = 0.25 to the last bit */
    CHECK_OK(fer_find_free_tolerance(2, share(0.5), share(0.75), FER_SIDE_LOWER, &t));
    assert_int_equal(t.needed, 2);
    CHECK_STATUS(fer_find_free_tolerance(2, share(0.5), share(0.75), FER_SIDE_LOWER, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_free_tolerance(1, share(0.5), share(0.75), FER_SIDE_LOWER, &t),
                 FER_TOLERANCE_PIECES_OUT_OF_RANGE);
    CHECK_NAN(t.reached.fraction);
    assert_int_equal(t.rank, 0);
    CHECK_STATUS(fer_find_free_tolerance(10001, share(0.5), share(0.75), FER_SIDE_LOWER, &t),
                 FER_TOLERANCE_PIECES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_free_tolerance(9, share(0.001), share(0.75), FER_SIDE_LOWER, &t),
                 FER_CONTENT_OUT_OF_RANGE);
}

/* SciPy, R; where R's pt is wrong (index 5/3): SciPy alone. */
static void what_it_takes_to_show_an_index(void **state)
{
    (void)state;
    static const double known[3][2] = {{10, 1.982152}, {30, 1.628407}, {50, 1.548611}};
    double required = 0.0;
    fer_showing showing;
    for (int i = 0; i < 3; i++) {
        CHECK_OK(fer_find_index_to_show((size_t)known[i][0], 4.0 / 3.0, share(0.9), &required));
        CHECK_NEAR(required, known[i][1], 5e-7);
    }
    CHECK_OK(fer_find_pieces_to_show(1.33, share(0.9), 1.67, share(0.9), &showing));
    assert_int_equal(showing.pieces, 72);
    CHECK_NEAR(showing.power.fraction, 0.902294, 5e-7);
    CHECK_NEAR(showing.required, 1.503347, 5e-7);
    CHECK_OK(fer_find_pieces_to_show(1.33, share(0.9), 2.0, share(0.9), &showing));
    assert_int_equal(showing.pieces, 24);
    CHECK_NEAR(showing.power.fraction, 0.911233, 5e-7);
    CHECK_NEAR(showing.required, 1.670382, 5e-7);
    CHECK_OK(fer_find_pieces_to_show(0.5, share(0.6), 9.0, share(0.01), &showing));
    assert_int_equal(showing.pieces, 2);
    CHECK_OK(fer_find_pieces_to_show(1.33, share(0.0), 2.0, share(0.0), &showing)); /* the usual ones */
    assert_int_equal(showing.pieces, 24);
    CHECK_NEAR(factor(6.0, 0.0, 0.0, 0.95, FER_SIDE_BOTH), 4.4222, 6e-5);
    CHECK_STATUS(fer_find_pieces_to_show(1.33, share(0.9), 1.3301, share(0.9), &showing),
                 FER_INDEX_NOT_REACHABLE);
    CHECK_NAN(showing.required);
    assert_int_equal(showing.pieces, 0);
    CHECK_STATUS(fer_find_pieces_to_show(1.33, share(0.9), 1.33, share(0.9), &showing),
                 FER_INDEX_NOT_REACHABLE);
    CHECK_STATUS(fer_find_pieces_to_show(1.33, share(0.9), 1.67, share(0.9), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_pieces_to_show(0.0, share(0.9), 1.67, share(0.9), &showing),
                 FER_INDEX_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_pieces_to_show(1.33, share(0.9), 11.0, share(0.9), &showing),
                 FER_INDEX_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_pieces_to_show(1.33, share(0.2), 1.67, share(0.9), &showing),
                 FER_CONFIDENCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_pieces_to_show(1.33, share(0.9), 1.67, share(0.001), &showing),
                 FER_POWER_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_index_to_show(10, 1.33, share(0.9), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_index_to_show(1, 1.33, share(0.9), &required), FER_TOLERANCE_PIECES_OUT_OF_RANGE);
    CHECK_NAN(required);
    CHECK_STATUS(fer_find_index_to_show(10001, 1.33, share(0.9), &required),
                 FER_TOLERANCE_PIECES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_index_to_show(10, 10.1, share(0.9), &required), FER_INDEX_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_index_to_show(10, 1.33, share(1.0), &required), FER_CONFIDENCE_OUT_OF_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sample_in_groups),
        cmocka_unit_test(one_group_scatters_by_neighbours),
        cmocka_unit_test(what_follows_on_each_other_and_what_lies_apart),
        cmocka_unit_test(bad_samples),
        cmocka_unit_test(the_weights_of_eleven_men),
        cmocka_unit_test(tests_of_other_samples),
        cmocka_unit_test(equal_readings_are_laid_out),
        cmocka_unit_test(bad_values_for_normality),
        cmocka_unit_test(indices_of_a_sample_in_groups),
        cmocka_unit_test(limits_without_gauge),
        cmocka_unit_test(index_about_the_target),
        cmocka_unit_test(means_outside_and_far_away),
        cmocka_unit_test(the_gauge_taken_off),
        cmocka_unit_test(potential_index_with_the_gauge_taken_off),
        cmocka_unit_test(values_that_cannot_be_below_zero),
        cmocka_unit_test(bad_questions_about_capability),
        cmocka_unit_test(shares_outside),
        cmocka_unit_test(shares_beyond_one_limit),
        cmocka_unit_test(shares_outside_where_the_mean_decides_alone),
        cmocka_unit_test(shares_outside_both_with_the_gauge_taken_off),
        cmocka_unit_test(further_pieces),
        cmocka_unit_test(many_further_pieces),
        cmocka_unit_test(bad_questions_about_shares),
        cmocka_unit_test(printed_tolerance_factors),
        cmocka_unit_test(tolerance_limits),
        cmocka_unit_test(tolerance_without_a_shape),
        cmocka_unit_test(what_it_takes_to_show_an_index),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
