/* SPDX-License-Identifier: MIT */
/* Module chart. R: 4.2.2 with spc 0.6.7, SciPy: 1.10.1. */
#include "check.h"

#define CHECK_RELATIVE(actual, expected, tolerance) CHECK_NEAR(actual, expected, (tolerance)*fabs(expected))

static const fer_limit_rule plain = {FER_LIMIT_BASIS_PLAIN, {0.0}, {0.0}};
static const fer_charting nothing = {0};
static const fer_chart_point empty = {0};
static const fer_gauge no_gauge = {{0.0}, {0.0}, {0.0}};

static fer_length mm(double number)
{
    const fer_length length = {number};
    return length;
}

static fer_ratio share(double fraction)
{
    const fer_ratio ratio = {fraction};
    return ratio;
}

static fer_limit_rule rule_of(fer_limit_basis basis, double false_alarms, double assurance)
{
    const fer_limit_rule rule = {basis, {false_alarms}, {assurance}};
    return rule;
}

static void fill(fer_sample_piece *pieces, const double *values, size_t count)
{
    memset(pieces, 0, count * sizeof *pieces);
    for (size_t i = 0; i < count; i++) {
        pieces[i].diameter.mm = values[i];
    }
}

/* ---- constants ------------------------------------------------------------------------------------------- */

/* d2, d3, c4 by mpmath 1.2.1; printed tables have them to four figures (from memory). */
static void constants_of_groups(void **state)
{
    (void)state;
    static const double rows[][4] = {{12, 3.25845528, 0.77847834, 0.97755935},
                                     {15, 3.47182689, 0.75621143, 0.98231618},
                                     {20, 3.73495012, 0.72868635, 0.98693427},
                                     {25, 3.93062922, 0.70844077, 0.98964038}};
    fer_chart_constants c;
    for (size_t i = 0; i < 4; i++) {
        CHECK_OK(fer_find_chart_constants((int)rows[i][0], 0, &c));
        CHECK_NEAR(c.range_mean, rows[i][1], 5e-9);
        CHECK_NEAR(c.range_deviation, rows[i][2], 5e-9);
        CHECK_NEAR(c.deviation_mean, rows[i][3], 5e-9);
    }
    CHECK_OK(fer_find_chart_constants(12, 0, &c));
    CHECK_NEAR(c.means_by_range, 0.26578, 5e-6);
    CHECK_NEAR(c.range_lower, 0.28327, 5e-6);
    CHECK_NEAR(c.range_upper, 1.71673, 5e-6);
    CHECK_NEAR(c.means_by_deviation, 0.88591, 5e-6);
    CHECK_NEAR(c.deviation_lower, 0.35351, 5e-6);
    CHECK_NEAR(c.deviation_upper, 1.64649, 5e-6);
    CHECK_NEAR(c.singles_by_range, 3.0 * sqrt(3.14159265358979323846) / 2.0, 1e-15);
}

/* Of two pieces all are closed: d2 2/sqrt(pi), d3^2 2 - 4/pi, c4 sqrt(2/pi); of many groups d2* tends to d2. d2* and degrees of five
 * pieces: Duncan's table (from memory: 2.48, 3.8; 2.33). */
static void constants_in_closed_form(void **state)
{
    (void)state;
    const double pi_ = 3.14159265358979323846;
    fer_chart_constants c;
    CHECK_OK(fer_find_chart_constants(2, 1, &c));
    CHECK_RELATIVE(c.range_mean, 2.0 / sqrt(pi_), 1e-13);
    CHECK_RELATIVE(c.range_deviation, sqrt(2.0 - 4.0 / pi_), 1e-11);
    CHECK_RELATIVE(c.deviation_mean, sqrt(2.0 / pi_), 1e-13);
    CHECK_RELATIVE(c.range_root_mean_square, sqrt(2.0), 1e-11);
    CHECK_NEAR(c.range_lower, 0.0, 0.0);
    CHECK_NEAR(c.deviation_lower, 0.0, 0.0);
    CHECK_OK(fer_find_chart_constants(5, 1, &c));
    CHECK_NEAR(c.range_root_mean_square, 2.481246, 5e-7);
    CHECK_NEAR(c.range_degrees, 3.86, 5e-3);
    CHECK_OK(fer_find_chart_constants(5, 20, &c));
    CHECK_NEAR(c.range_root_mean_square, 2.333940, 5e-7);
    CHECK_NEAR(c.range_degrees, 72.71, 5e-3);
    CHECK_OK(fer_find_chart_constants(100, 5000, &c));
    CHECK_RELATIVE(c.range_root_mean_square, c.range_mean, 1e-5);
}

static void bad_constants(void **state)
{
    (void)state;
    fer_chart_constants c;
    CHECK_STATUS(fer_find_chart_constants(5, 1, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_chart_constants(1, 1, &c), FER_CHART_PIECES_OUT_OF_RANGE);
    CHECK_NAN(c.range_mean);
    CHECK_NAN(c.range_degrees);
    CHECK_STATUS(fer_find_chart_constants(101, 1, &c), FER_CHART_PIECES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_chart_constants(5, -1, &c), FER_CHART_GROUPS_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_chart_constants(5, 5001, &c), FER_CHART_GROUPS_OUT_OF_RANGE);
    CHECK_OK(fer_find_chart_constants(100, 5000, &c));
    CHECK_OK(fer_find_chart_constants(2, 0, &c));
}

/* ---- limits ---------------------------------------------------------------------------------------------- */

static fer_chart_limits limits_of(double mean, double scatter, int pieces, int groups, fer_chart_kind kind,
                                  fer_limit_rule rule)
{
    const fer_chart_figures figures = {{mean}, {scatter}, groups, pieces};
    fer_chart_limits limits;
    CHECK_OK(fer_find_limits_from_figures(&figures, kind, rule, &limits));
    return limits;
}

/* Quantiles of the range: Harter 1960 (from memory), R's ptukey. */
static void limits_of_ranges_by_probability(void **state)
{
    (void)state;
    fer_chart_limits l = limits_of(10.0, 2.32592895, 5, 20, FER_CHART_KIND_MEANS_BY_RANGE,
                                   rule_of(FER_LIMIT_BASIS_PLAIN, 0.1, 0.0));
    CHECK_NEAR(l.deviation.mm, 1.0, 5e-9);
    CHECK_NEAR(l.scatter.upper.mm, 3.857656, 1e-6);
    CHECK_NEAR(l.scatter_centre.mm, 2.32592895, 1e-8);
    CHECK_NEAR(l.degrees_of_freedom, 72.71, 5e-3);
    l = limits_of(10.0, 2.32592895, 5, 20, FER_CHART_KIND_MEANS_BY_RANGE,
                  rule_of(FER_LIMIT_BASIS_PLAIN, 0.0027, 0.0));
    CHECK_NEAR(l.scatter.lower.mm, 0.396528, 1e-6);
    CHECK_NEAR(l.scatter.upper.mm, 5.377402, 1e-6);
    CHECK_NEAR(l.factor, 2.999976992703, 1e-11); /* R: qnorm(0.99865) */
    l = limits_of(10.0, 2.32592895, 5, 20, FER_CHART_KIND_MEANS_BY_RANGE, plain);
    CHECK_NEAR(l.factor, 3.0, 1e-14);
    CHECK_NEAR(l.level.upper.mm, 10.0 + 3.0 / sqrt(5.0), 1e-8);
    CHECK_NEAR(l.level.lower.mm, 10.0 - 3.0 / sqrt(5.0), 1e-8);
    CHECK_NEAR(l.level_centre.mm, 10.0, 0.0);
}

/* Expected: Student, mpmath 1.2.1 (SciPy's quantile is good to 1e-10) and SciPy; the ranges: SciPy's studentized range; standard deviations: F. Assured: the tolerance factor
 * computed by two programs. */
static void limits_that_allow_for_the_study(void **state)
{
    (void)state;
    fer_chart_limits l = limits_of(23.5, 0.03, 1, 20, FER_CHART_KIND_SINGLES_BY_DEVIATION,
                                   rule_of(FER_LIMIT_BASIS_EXPECTED, 0.0, 0.0));
    CHECK_RELATIVE(l.factor, 3.5323628373020063, 1e-12);
    CHECK_NEAR(l.level.upper.mm - l.level.lower.mm, 2.0 * 3.5323628373020063 * 0.03, 1e-13);
    CHECK_NEAR(l.degrees_of_freedom, 19.0, 0.0);
    l = limits_of(23.5, 0.03, 4, 8, FER_CHART_KIND_MEANS_BY_DEVIATION,
                  rule_of(FER_LIMIT_BASIS_EXPECTED, 0.01, 0.0));
    CHECK_RELATIVE(l.factor, 2.9666023355900903, 1e-9);
    CHECK_RELATIVE(l.scatter.lower.mm, 0.03 * 0.15317290171864, 1e-12);
    CHECK_RELATIVE(l.scatter.upper.mm, 0.03 * 2.349255027166045, 1e-12);
    CHECK_RELATIVE(l.scatter_centre.mm, 0.03 * 0.9213177319235613, 1e-12); /* c4 of four, any table */
    l = limits_of(23.5, 0.03, 4, 20, FER_CHART_KIND_MEANS_BY_DEVIATION,
                  rule_of(FER_LIMIT_BASIS_ASSURED, 0.0027, 0.9));
    CHECK_NEAR(l.factor, 3.498079589, 5e-10);
    CHECK_NEAR(l.level.upper.mm, 23.5 + 0.015 * 3.498079589, 1e-11);
    l = limits_of(23.5, 0.03, 4, 20, FER_CHART_KIND_SINGLES_BY_DEVIATION,
                  rule_of(FER_LIMIT_BASIS_ASSURED, 0.0027, 0.0));
    CHECK_NEAR(l.factor, 3.922, 1e-3); /* tolerance factor for 20 pieces, 99.73 %, 90 %: r-cran-spc */
}

/* Two pieces, moving ranges: |x - y| of a standard deviation; its own quantiles are normal ones times sqrt(2). Assured: chi-square of 3
 * degrees has 0.584374 below which 10 % lie and 6.251389 above which 10 % lie (any table). */
static void limits_of_moving_ranges(void **state)
{
    (void)state;
    fer_chart_limits l = limits_of(23.5, 0.03, 0, 4, FER_CHART_KIND_SINGLES_BY_DEVIATION,
                                   rule_of(FER_LIMIT_BASIS_PLAIN, 0.02, 0.0));
    CHECK_RELATIVE(l.scatter.upper.mm, 0.03 * sqrt(2.0) * 2.5758293035489, 1e-11);
    CHECK_RELATIVE(l.scatter.lower.mm, 0.03 * sqrt(2.0) * 0.01253346951, 1e-8);
    CHECK_RELATIVE(l.scatter_centre.mm, 0.03 * 1.1283791670955126, 1e-12);
    l = limits_of(23.5, 0.03, 0, 4, FER_CHART_KIND_SINGLES_BY_DEVIATION,
                  rule_of(FER_LIMIT_BASIS_ASSURED, 0.02, 0.9));
    CHECK_RELATIVE(l.scatter.upper.mm, 0.03 * sqrt(2.0) * 2.5758293035489 * sqrt(3.0 / 0.58437437415518),
                   1e-8);
    CHECK_RELATIVE(l.scatter.lower.mm, 0.03 * sqrt(2.0) * 0.01253346951 * sqrt(3.0 / 6.25138863117), 1e-8);
    l = limits_of(23.5, 0.03, 2, 4, FER_CHART_KIND_MEANS_BY_DEVIATION,
                  rule_of(FER_LIMIT_BASIS_ASSURED, 0.02, 0.9));
    CHECK_NEAR(l.degrees_of_freedom, 4.0, 0.0);
    CHECK_RELATIVE(l.scatter.upper.mm, 0.03 * 2.5758293035489 * sqrt(4.0 / 1.0636232167), 1e-8);
    CHECK_RELATIVE(l.scatter.lower.mm, 0.03 * 0.01253346951 * sqrt(4.0 / 7.7794403397), 1e-8);
}

/* Studentized ranges: SciPy; degrees chosen so that they are whole. */
static void limits_of_ranges_over_the_deviation(void **state)
{
    (void)state;
    fer_chart_limits l = limits_of(23.5, 0.03, 0, 5, FER_CHART_KIND_SINGLES_BY_DEVIATION,
                                   rule_of(FER_LIMIT_BASIS_EXPECTED, 0.01, 0.0));
    CHECK_RELATIVE(l.scatter.upper.mm, 0.03 * 7.916157101028736, 1e-9);
    CHECK_RELATIVE(l.scatter.lower.mm, 0.03 * 0.009428177714361, 1e-8);
}

/* Mean moving range: variance by the square of the mean for two pieces pi/2 - 1, as one range of two has; degrees fall with overlap. */
static void degrees_of_moving_ranges(void **state)
{
    (void)state;
    fer_chart_constants c;
    fer_chart_limits l = limits_of(23.5, 0.03, 0, 2, FER_CHART_KIND_SINGLES_BY_RANGE,
                                   rule_of(FER_LIMIT_BASIS_EXPECTED, 0.0, 0.0));
    CHECK_OK(fer_find_chart_constants(2, 1, &c));
    CHECK_RELATIVE(l.degrees_of_freedom, c.range_degrees, 1e-10);
    CHECK_RELATIVE(l.deviation.mm, 0.03 / c.range_root_mean_square, 1e-11);
    l = limits_of(23.5, 0.03, 0, 100, FER_CHART_KIND_SINGLES_BY_RANGE, plain);
    CHECK_RELATIVE(l.deviation.mm, 0.03 / c.range_mean, 1e-12);
    /* 0.8264 n - 1.082 by (n - 1)^2: Cryer and Ryan, J. Qual. Technol. 22 (1990) (from memory) */
    const double variance = (0.8264 * 100.0 - 1.082) / (99.0 * 99.0);
    CHECK_NEAR(l.degrees_of_freedom, 0.5 / (sqrt(1.0 + 2.0 * variance) - 1.0), 0.01);
}

/* Twelve pieces in four groups: by hand, ranges 3, 3, 3, 4 hundredths; s_w 0.0165831240 and s 0.02137330536 by SciPy and R. */
static void limits_from_pieces(void **state)
{
    (void)state;
    static const double values[12] = {23.50, 23.52, 23.49, 23.53, 23.55, 23.52,
                                      23.49, 23.48, 23.51, 23.52, 23.50, 23.54};
    fer_sample_piece pieces[12];
    fer_chart_limits l;
    fill(pieces, values, 12);
    for (int i = 0; i < 12; i++) {
        pieces[i].group = i / 3;
    }
    CHECK_OK(fer_find_chart_limits(pieces, 12, FER_CHART_KIND_MEANS_BY_RANGE, plain, &l));
    CHECK_NEAR(l.level_centre.mm, 282.15 / 12.0, 1e-13);
    CHECK_NEAR(l.scatter_centre.mm, 0.0325, 1e-13);
    CHECK_NEAR(l.level.upper.mm, 282.15 / 12.0 + 1.0233 * 0.0325, 2e-6); /* A2 of three, any table */
    CHECK_OK(fer_find_chart_limits(pieces, 12, FER_CHART_KIND_MEANS_BY_DEVIATION, plain, &l));
    CHECK_NEAR(l.deviation.mm, 0.0165831240, 5e-11);
    CHECK_NEAR(l.degrees_of_freedom, 8.0, 0.0);
    CHECK_OK(fer_find_chart_limits(pieces, 12, FER_CHART_KIND_SINGLES_BY_DEVIATION, plain, &l));
    CHECK_NEAR(l.deviation.mm, 0.0213733053555, 5e-14);
    CHECK_NEAR(l.degrees_of_freedom, 11.0, 0.0);
    CHECK_OK(fer_find_chart_limits(pieces, 12, FER_CHART_KIND_SINGLES_BY_RANGE, plain, &l));
    CHECK_NEAR(l.scatter_centre.mm, 0.28 / 11.0, 1e-13); /* 2 3 4 2 3 3 1 3 1 2 4 hundredths */
}

static void bad_limits(void **state)
{
    (void)state;
    static const double values[6] = {1.0, 2.0, 3.0, 4.0, 5.0, 7.0};
    static const fer_chart_kind kind = FER_CHART_KIND_MEANS_BY_RANGE;
    fer_sample_piece pieces[202];
    fer_chart_limits l;
    memset(pieces, 0, sizeof pieces);
    fill(pieces, values, 6);
    CHECK_STATUS(fer_find_chart_limits(pieces, 6, kind, plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_chart_limits(NULL, 6, kind, plain, &l), FER_ARGUMENT_MISSING);
    CHECK_NAN(l.level.lower.mm);
    CHECK_NAN(l.degrees_of_freedom);
    CHECK_STATUS(fer_find_chart_limits(pieces, 1, kind, plain, &l), FER_SAMPLE_TOO_FEW);
    CHECK_STATUS(fer_find_chart_limits(pieces, 6, kind, plain, &l), FER_CHART_GROUPS_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_chart_limits(pieces, 6, FER_CHART_KIND_COUNT, plain, &l), FER_CHART_KIND_UNKNOWN);
    CHECK_STATUS(fer_find_chart_limits(pieces, 6, kind, rule_of(FER_LIMIT_BASIS_COUNT, 0.0, 0.0), &l),
                 FER_CHART_BASIS_UNKNOWN);
    pieces[5].group = 1;
    CHECK_STATUS(fer_find_chart_limits(pieces, 6, kind, plain, &l), FER_CHART_GROUPS_DIFFER);
    for (int i = 0; i < 6; i++) {
        pieces[i].group = i;
    }
    CHECK_STATUS(fer_find_chart_limits(pieces, 6, kind, plain, &l), FER_CHART_PIECES_OUT_OF_RANGE);
    pieces[1].kind = 1; /* the others are like the first */
    CHECK_STATUS(fer_find_chart_limits(pieces, 6, kind, plain, &l), FER_CHART_KINDS_SEVERAL);
    for (int i = 0; i < 202; i++) {
        pieces[i].group = i % 2;
        pieces[i].kind = 0;
        pieces[i].diameter.mm = 1.0 + i % 3;
    }
    CHECK_STATUS(fer_find_chart_limits(pieces, 202, kind, plain, &l), FER_CHART_PIECES_OUT_OF_RANGE);
    CHECK_OK(fer_find_chart_limits(pieces, 200, kind, plain, &l));
    for (int i = 0; i < 6; i++) {
        pieces[i].diameter.mm = 23.5;
    }
    for (int k = 0; k < FER_CHART_KIND_COUNT; k++) {
        CHECK_STATUS(fer_find_chart_limits(pieces, 6, (fer_chart_kind)k, plain, &l),
                     FER_SAMPLE_WITHOUT_SCATTER);
    }
    pieces[1].diameter.mm += 1e-9;
    CHECK_STATUS(fer_find_chart_limits(pieces, 6, FER_CHART_KIND_SINGLES_BY_RANGE, plain, &l),
                 FER_CHART_FIGURES_OUT_OF_RANGE);
}

static void bad_figures(void **state)
{
    (void)state;
    static const fer_chart_kind means = FER_CHART_KIND_MEANS_BY_RANGE,
                                singles = FER_CHART_KIND_SINGLES_BY_RANGE;
    const fer_chart_figures good = {{23.5}, {0.03}, 20, 5};
    fer_chart_figures f = good;
    fer_chart_limits l;
    CHECK_STATUS(fer_find_limits_from_figures(&f, means, plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_limits_from_figures(NULL, means, plain, &l), FER_ARGUMENT_MISSING);
    CHECK_NAN(l.factor);
    CHECK_STATUS(fer_find_limits_from_figures(&f, (fer_chart_kind)-1, plain, &l), FER_CHART_KIND_UNKNOWN);
    static const double bad_alarms[] = {-0.1, 0.9e-5, 0.51, NAN},
                        bad_assurance[] = {-0.9, 0.5, 0.9999999, NAN};
    for (int i = 0; i < 4; i++) {
        CHECK_STATUS(
            fer_find_limits_from_figures(&f, means, rule_of(FER_LIMIT_BASIS_PLAIN, bad_alarms[i], 0.0), &l),
            FER_CHART_FALSE_ALARMS_OUT_OF_RANGE);
        CHECK_STATUS(fer_find_limits_from_figures(&f, means,
                                                  rule_of(FER_LIMIT_BASIS_PLAIN, 0.0, bad_assurance[i]), &l),
                     FER_CHART_ASSURANCE_OUT_OF_RANGE);
    }
    CHECK_OK(fer_find_limits_from_figures(&f, means, rule_of(FER_LIMIT_BASIS_ASSURED, 1e-5, 0.999999), &l));
    CHECK_OK(fer_find_limits_from_figures(&f, means, rule_of(FER_LIMIT_BASIS_EXPECTED, 0.5, 0.0), &l));
    f.mean = mm(0.0);
    CHECK_STATUS(fer_find_limits_from_figures(&f, means, plain, &l), FER_CHART_FIGURES_MISSING);
    f = good;
    f.scatter = mm(0.0);
    CHECK_STATUS(fer_find_limits_from_figures(&f, means, plain, &l), FER_CHART_FIGURES_MISSING);
    f = good;
    f.mean = mm(0.0009);
    CHECK_STATUS(fer_find_limits_from_figures(&f, means, plain, &l), FER_CHART_FIGURES_OUT_OF_RANGE);
    f = good;
    f.scatter = mm(0.9e-6);
    CHECK_STATUS(fer_find_limits_from_figures(&f, means, plain, &l), FER_CHART_FIGURES_OUT_OF_RANGE);
    f.scatter = mm(1.1e6);
    CHECK_STATUS(fer_find_limits_from_figures(&f, means, plain, &l), FER_CHART_FIGURES_OUT_OF_RANGE);
    f = good;
    f.pieces = 1;
    CHECK_STATUS(fer_find_limits_from_figures(&f, means, plain, &l), FER_CHART_PIECES_OUT_OF_RANGE);
    CHECK_OK(fer_find_limits_from_figures(&f, singles, plain, &l));
    f.pieces = 101;
    CHECK_STATUS(fer_find_limits_from_figures(&f, means, plain, &l), FER_CHART_PIECES_OUT_OF_RANGE);
    f = good;
    f.groups = 1;
    CHECK_STATUS(fer_find_limits_from_figures(&f, singles, plain, &l), FER_CHART_GROUPS_OUT_OF_RANGE);
    f.groups = 5001;
    CHECK_STATUS(fer_find_limits_from_figures(&f, singles, plain, &l), FER_CHART_GROUPS_OUT_OF_RANGE);
    f.groups = 5000;
    CHECK_OK(fer_find_limits_from_figures(&f, singles, plain, &l));
}

/* ---- scores ---------------------------------------------------------------------------------------------- */

static const double six[6] = {23.51, 23.49, 23.52, 23.50, 23.53, 23.58};

/* SciPy and R. */
static void scores_of_short_runs(void **state)
{
    (void)state;
    static const double expected[4] = {0.74814774, -0.32946915, 1.33556923, 2.41848472};
    fer_sample_piece pieces[6];
    fer_chart_point points[6];
    size_t found;
    fill(pieces, six, 6);
    CHECK_OK(fer_chart_points(pieces, 6, nothing, points, 6, &found));
    assert_int_equal(found, 6);
    CHECK_NAN(points[0].score);
    CHECK_NAN(points[1].score);
    for (int i = 0; i < 4; i++) {
        CHECK_NEAR(points[2 + i].score, expected[i], 5e-9);
        assert_int_equal(points[2 + i].scored, i + 1);
        CHECK_NEAR(points[2 + i].last_score, points[2 + i].score, 0.0);
        CHECK_NEAR(points[2 + i].ewma + points[2 + i].ewma_limit + points[2 + i].up + points[2 + i].down, 0.0,
                   0.0);
        assert_int_equal(points[2 + i].signals.bits, 0);
    }
    CHECK_NEAR(points[5].mean.mm, 141.13 / 6.0, 1e-13);
    CHECK_NEAR(points[5].scatter.mm, 0.0318852107828, 1e-12); /* SciPy */
    assert_int_equal(points[5].count, 6);
    CHECK_NEAR(points[1].last_score, 0.0, 0.0);
}

/* Two kinds in turn have the scores that each has by itself, on one sheet. */
static void two_kinds_on_one_sheet(void **state)
{
    (void)state;
    fer_sample_piece pieces[12], alone[6];
    fer_chart_point points[12], one[6];
    size_t found;
    fill(alone, six, 6);
    CHECK_OK(fer_chart_points(alone, 6, nothing, one, 6, &found));
    for (int i = 0; i < 12; i++) {
        pieces[i] = alone[i / 2];
        pieces[i].kind = i % 2 == 0 ? 0 : 63;
        pieces[i].diameter.mm += i % 2 == 0 ? 0.0 : 10.0;
    }
    CHECK_OK(fer_chart_points(pieces, 12, nothing, points, 12, &found));
    for (int i = 4; i < 12; i++) {
        CHECK_NEAR(points[i].score, one[i / 2].score, 1e-9);
        assert_int_equal(points[i].scored, i - 3);
        assert_int_equal(points[i].kind, i % 2 == 0 ? 0 : 63);
        assert_int_equal(points[i].count, i / 2 + 1);
    }
}

/* Known standard deviation: from the second piece, by hand; known level, too: from the first. */
static void scores_with_what_is_known(void **state)
{
    (void)state;
    fer_sample_piece pieces[6];
    fer_chart_point points[6];
    fer_charting c = nothing;
    size_t found;
    fill(pieces, six, 6);
    c.deviation = mm(0.02);
    CHECK_OK(fer_chart_points(pieces, 6, c, points, 6, &found));
    CHECK_NAN(points[0].score);
    CHECK_NEAR(points[1].score, -0.02 / (0.02 * sqrt(2.0)), 1e-12);
    CHECK_NEAR(points[2].score, 0.02 / (0.02 * sqrt(1.5)), 1e-12);
    c.centre = mm(23.5);
    CHECK_OK(fer_chart_points(pieces, 6, c, points, 6, &found));
    CHECK_NEAR(points[0].score, 0.5, 1e-12);
    CHECK_NEAR(points[5].score, 4.0, 1e-12);
    c.deviation = mm(1e-6);
    CHECK_OK(fer_chart_points(pieces, 6, c, points, 6, &found));
    CHECK_NEAR(points[5].score, 37.0, 0.0);
    CHECK_NEAR(points[1].score, -37.0, 0.0);
    c.centre = mm(0.0);
    CHECK_OK(fer_chart_points(pieces, 6, c, points, 6, &found));
    CHECK_NEAR(points[5].score, 37.0, 0.0);
}

/* The tail of so many standard deviations is no number any more. */
static void a_jump_beyond_all_measure(void **state)
{
    (void)state;
    static fer_sample_piece pieces[300];
    static fer_chart_point points[300];
    size_t found;
    memset(pieces, 0, sizeof pieces);
    for (int i = 0; i < 300; i++) {
        pieces[i].diameter.mm = 23.5 + 0.001 * (i % 2);
    }
    pieces[298].diameter.mm = 900.0;
    pieces[299].diameter.mm = 0.01;
    CHECK_OK(fer_chart_points(pieces, 299, nothing, points, 300, &found));
    CHECK_NEAR(points[298].score, 37.0, 0.0);
    pieces[298] = pieces[299];
    CHECK_OK(fer_chart_points(pieces, 299, nothing, points, 300, &found));
    CHECK_NEAR(points[298].score, -37.0, 0.0);
}

/* Equal pieces show no scatter, so there is no score before one differs; with a step it is the step's own. */
static void equal_pieces_wait(void **state)
{
    (void)state;
    static const double values[5] = {23.5, 23.5, 23.5, 23.51, 23.51};
    fer_sample_piece pieces[5];
    fer_chart_point points[5];
    fer_charting c = nothing;
    size_t found;
    fill(pieces, values, 5);
    CHECK_OK(fer_chart_points(pieces, 5, c, points, 5, &found));
    CHECK_NAN(points[3].score);
    assert_int_equal(points[3].scored, 0);
    CHECK_NEAR(points[4].score, 1.0979452410004, 1e-9); /* SciPy */
    c.resolution = mm(0.01);
    CHECK_OK(fer_chart_points(pieces, 5, c, points, 5, &found));
    CHECK_NEAR(points[2].score, 0.0, 0.0);
    CHECK_NEAR(points[3].score, 1.6672436508059, 1e-9); /* SciPy, standard deviation 0.01/sqrt(12) */
}

/* ---- signals --------------------------------------------------------------------------------------------- */

static fer_charting known(void)
{
    fer_charting c = {0};
    c.deviation = mm(0.01);
    c.centre = mm(23.5);
    return c;
}

/* Which of the scores, the first is 1, give a signal; as bits. */
static unsigned long signals_of(const double *scores, int count, fer_charting c, fer_chart_signal number)
{
    fer_sample_piece pieces[40];
    fer_chart_point points[40];
    size_t found;
    unsigned long given = 0;
    memset(pieces, 0, sizeof pieces);
    for (int i = 0; i < count; i++) {
        pieces[i].diameter.mm = 23.5 + 0.01 * scores[i];
    }
    CHECK_OK(fer_chart_points(pieces, (size_t)count, c, points, 40, &found));
    for (int i = 0; i < count; i++) {
        given |= (unsigned long)(points[i].signals.bits >> number & 1) << (i + 1);
        assert_int_equal(points[i].signals.bits & ~(UINT64_C(1) << number), 0);
    }
    return given;
}

static void a_piece_beyond_the_limit(void **state)
{
    (void)state;
    static const double scores[5] = {2.9, 3.1, -2.9, -3.1, 0.0};
    fer_charting c = known();
    c.beyond = 3.0;
    assert_int_equal(signals_of(scores, 5, c, FER_CHART_SIGNAL_BEYOND), 1u << 2 | 1u << 4);
    c.beyond = 0.0;
    assert_int_equal(signals_of(scores, 5, c, FER_CHART_SIGNAL_BEYOND), 0);
}

/* The present piece is one of the two; the sides do not mix; the third back counts, the fourth does not. */
static void two_of_three_beyond_two(void **state)
{
    (void)state;
    static const double above[8] = {2.1, 0.0, 2.1, 1.5, 1.9, 2.1, -2.1, 2.1},
                        below[4] = {-2.1, -2.1, 0.0, 0.0};
    static const double mixed[5] = {2.1, -2.1, 1.0, 0.0, 2.1};
    fer_charting c = known();
    c.two_of_three = 1;
    assert_int_equal(signals_of(above, 8, c, FER_CHART_SIGNAL_TWO_OF_THREE), 1u << 3 | 1u << 8);
    assert_int_equal(signals_of(below, 4, c, FER_CHART_SIGNAL_TWO_OF_THREE), 1u << 2);
    assert_int_equal(signals_of(mixed, 5, c, FER_CHART_SIGNAL_TWO_OF_THREE), 0);
}

static void four_of_five_beyond_one(void **state)
{
    (void)state;
    static const double above[8] = {1.1, 2.5, 0.0, 1.1, 1.1, 1.1, 0.5, 1.1};
    static const double below[7] = {-1.1, -1.1, 1.1, -2.5, -1.1, -0.9, -1.1};
    static const double mixed[6] = {1.1, 1.1, 1.1, -1.1, -1.1, 1.1};
    fer_charting c = known();
    c.four_of_five = 1;
    assert_int_equal(signals_of(above, 8, c, FER_CHART_SIGNAL_FOUR_OF_FIVE), 1u << 5 | 1u << 6 | 1u << 8);
    assert_int_equal(signals_of(below, 7, c, FER_CHART_SIGNAL_FOUR_OF_FIVE), 1u << 5);
    assert_int_equal(signals_of(mixed, 6, c, FER_CHART_SIGNAL_FOUR_OF_FIVE), 0);
}

static void many_on_one_side(void **state)
{
    (void)state;
    static const double scores[13] = {0.1, 0.1, 0.1, -0.1, -0.1, -0.1, -0.1, -0.1, 0.0, 0.1, 0.1, 0.1, 0.1};
    fer_charting c = known();
    c.same_side = 4;
    assert_int_equal(signals_of(scores, 13, c, FER_CHART_SIGNAL_SAME_SIDE), 1u << 7 | 1u << 8 | 1u << 13);
}

/* Four points rising are three steps; equal ones begin anew. */
static void rising_and_falling(void **state)
{
    (void)state;
    static const double scores[13] = {0.0, 0.1, 0.2, 0.3, 0.4, 0.3, 0.2, 0.1, 0.1, 0.2, 0.3, 0.2, 0.4};
    fer_charting c = known();
    c.rising = 4;
    assert_int_equal(signals_of(scores, 13, c, FER_CHART_SIGNAL_RISING), 1u << 4 | 1u << 5 | 1u << 8);
    c.rising = 3;
    assert_int_equal(signals_of(scores, 13, c, FER_CHART_SIGNAL_RISING),
                     1u << 3 | 1u << 4 | 1u << 5 | 1u << 7 | 1u << 8 | 1u << 11);
}

static void up_and_down_in_turn(void **state)
{
    (void)state;
    static const double scores[12] = {0.1, 0.0, 0.2, 0.1, 0.3, 0.4, 0.2, 0.3, 0.3, 0.2, 0.4, 0.1};
    fer_charting c = known();
    c.alternating = 4;
    assert_int_equal(signals_of(scores, 12, c, FER_CHART_SIGNAL_ALTERNATING),
                     1u << 4 | 1u << 5 | 1u << 8 | 1u << 12);
}

static void within_and_outside_one(void **state)
{
    (void)state;
    static const double scores[11] = {0.9, -0.9, 0.1, 1.1, -1.1, 2.2, -3.3, 0.5, 0.6, -0.7, 0.8};
    fer_charting c = known();
    c.inside = 3;
    assert_int_equal(signals_of(scores, 11, c, FER_CHART_SIGNAL_INSIDE), 1u << 3 | 1u << 10 | 1u << 11);
    c.inside = 0;
    c.outside = 3;
    assert_int_equal(signals_of(scores, 11, c, FER_CHART_SIGNAL_OUTSIDE), 1u << 6 | 1u << 7);
}

/* By hand: weight 0.2; limits 2.7 times the root of (0.2/1.8)(1 - 0.8^(2i)). */
static void the_weighted_mean(void **state)
{
    (void)state;
    static const double scores[4] = {1.0, 2.0, 2.0, -9.0};
    fer_sample_piece pieces[4];
    fer_chart_point points[4];
    fer_charting c = known();
    double ewma = 0.0;
    size_t found;
    memset(pieces, 0, sizeof pieces);
    for (int i = 0; i < 4; i++) {
        pieces[i].diameter.mm = 23.5 + 0.01 * scores[i];
    }
    c.weight = 0.2;
    c.limit = 2.7;
    CHECK_OK(fer_chart_points(pieces, 4, c, points, 4, &found));
    for (int i = 0; i < 4; i++) {
        ewma = 0.2 * scores[i] + 0.8 * ewma;
        CHECK_NEAR(points[i].ewma, ewma, 1e-11);
        CHECK_NEAR(points[i].ewma_limit, 2.7 * sqrt(0.2 / 1.8 * (1.0 - pow(0.8, 2.0 * (i + 1)))), 1e-13);
        assert_int_equal(points[i].signals.bits != 0, i == 2 ? ewma > points[i].ewma_limit : i == 3);
    }
    assert_int_equal(points[3].signals.bits, 1u << FER_CHART_SIGNAL_EWMA);
    c.limit = 0.0; /* the usual 3 */
    CHECK_OK(fer_chart_points(pieces, 4, c, points, 4, &found));
    CHECK_NEAR(points[0].ewma_limit, 0.6, 1e-13);
    c.weight = 1.0;
    CHECK_OK(fer_chart_points(pieces, 4, c, points, 4, &found));
    CHECK_NEAR(points[3].ewma_limit, 3.0, 1e-13);
    CHECK_NEAR(points[3].ewma, -9.0, 1e-10);
}

static void the_sums_of_both_sides(void **state)
{
    (void)state;
    static const double scores[6] = {2.0, 2.5, -0.5, 2.0, -4.0, -4.0}, up[6] = {1.5, 3.5, 2.5, 4.0, 0.0, 0.0},
                        down[6] = {0.0, 0.0, 0.0, 0.0, 3.5, 7.0};
    fer_sample_piece pieces[6];
    fer_chart_point points[6];
    fer_charting c = known();
    size_t found;
    memset(pieces, 0, sizeof pieces);
    for (int i = 0; i < 6; i++) {
        pieces[i].diameter.mm = 23.5 + 0.01 * scores[i];
    }
    c.allowance = 0.5;
    c.decision = 3.75;
    CHECK_OK(fer_chart_points(pieces, 6, c, points, 6, &found));
    for (int i = 0; i < 6; i++) {
        CHECK_NEAR(points[i].up, up[i], 1e-10);
        CHECK_NEAR(points[i].down, down[i], 1e-10);
        assert_int_equal(points[i].signals.bits, i == 3   ? 1u << FER_CHART_SIGNAL_CUSUM_UP
                                                 : i == 5 ? 1u << FER_CHART_SIGNAL_CUSUM_DOWN
                                                          : 0u);
    }
    c.decision = 0.0; /* the usual 5 */
    CHECK_OK(fer_chart_points(pieces, 6, c, points, 6, &found));
    assert_int_equal(points[3].signals.bits, 0);
    assert_int_equal(points[5].signals.bits, 1u << FER_CHART_SIGNAL_CUSUM_DOWN);
}

static fer_charting everything_on(void)
{
    fer_charting c = {0};
    c.weight = 0.3;
    c.limit = 1.0;
    c.allowance = 0.5;
    c.decision = 1.0;
    c.beyond = 1.5;
    c.two_of_three = c.four_of_five = 1;
    c.same_side = c.rising = c.alternating = c.inside = c.outside = 3;
    return c;
}

/* One at a time has the same bits; a sheet that begins anew keeps what is known of the kinds. */
static void one_piece_at_a_time(void **state)
{
    (void)state;
    const fer_charting c = everything_on();
    fer_sample_piece pieces[30];
    fer_chart_point points[30], last = empty, of_kind[3], next;
    size_t found;
    memset(pieces, 0, sizeof pieces);
    memset(of_kind, 0, sizeof of_kind);
    for (int i = 0; i < 30; i++) {
        pieces[i].kind = i * i % 3;
        pieces[i].diameter.mm = 20.0 + 5.0 * pieces[i].kind + 0.03 * sin(2.9 * i);
    }
    CHECK_OK(fer_chart_points(pieces, 30, c, points, 30, &found));
    for (int i = 0; i < 30; i++) {
        fer_chart_point *const own = &of_kind[pieces[i].kind];
        CHECK_OK(fer_next_point(&pieces[i], last, *own, c, &next));
        assert_memory_equal(&next, &points[i], sizeof next);
        last = *own = next;
    }
    CHECK_OK(fer_next_point(&pieces[0], empty, of_kind[0], c, &next));
    assert_int_equal(next.scored, 1);
    assert_int_equal(next.count, of_kind[0].count + 1);
}

static void bad_charting(void **state)
{
    (void)state;
    fer_sample_piece pieces[6];
    fer_chart_point points[6], point;
    size_t found;
    fill(pieces, six, 6);
    struct {
        fer_charting charting;
        fer_status status;
    } bad[40];
    int n = 0;
#define BAD(member, value, expected)                                                                         \
    do {                                                                                                     \
        bad[n].charting = known();                                                                           \
        bad[n].charting.member = (value);                                                                    \
        bad[n++].status = (expected);                                                                        \
    } while (0)
    BAD(weight, 0.04, FER_CHART_WEIGHT_OUT_OF_RANGE);
    BAD(weight, 1.01, FER_CHART_WEIGHT_OUT_OF_RANGE);
    BAD(weight, NAN, FER_CHART_WEIGHT_OUT_OF_RANGE);
    BAD(limit, 0.4, FER_CHART_LIMIT_OUT_OF_RANGE);
    BAD(limit, 6.1, FER_CHART_LIMIT_OUT_OF_RANGE);
    BAD(allowance, 0.09, FER_CHART_ALLOWANCE_OUT_OF_RANGE);
    BAD(allowance, 3.1, FER_CHART_ALLOWANCE_OUT_OF_RANGE);
    BAD(decision, 0.4, FER_CHART_DECISION_OUT_OF_RANGE);
    BAD(decision, 20.1, FER_CHART_DECISION_OUT_OF_RANGE);
    BAD(beyond, 0.9, FER_CHART_BEYOND_OUT_OF_RANGE);
    BAD(beyond, 6.1, FER_CHART_BEYOND_OUT_OF_RANGE);
    BAD(same_side, 1, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(same_side, 21, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(same_side, -1, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(rising, 2, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(rising, 21, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(alternating, 2, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(alternating, 31, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(inside, 2, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(inside, 31, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(outside, 1, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(outside, 31, FER_CHART_RULE_OUT_OF_RANGE);
    BAD(deviation.mm, 0.9e-6, FER_CHART_DEVIATION_OUT_OF_RANGE);
    BAD(deviation.mm, 1.1e6, FER_CHART_DEVIATION_OUT_OF_RANGE);
    BAD(deviation.mm, 0.0, FER_CHART_CENTRE_OUT_OF_RANGE);
    BAD(centre.mm, 0.0009, FER_CHART_CENTRE_OUT_OF_RANGE);
    BAD(centre.mm, 1.1e6, FER_CHART_CENTRE_OUT_OF_RANGE);
    BAD(resolution.mm, -0.01, FER_CHART_RESOLUTION_OUT_OF_RANGE);
    BAD(resolution.mm, 10.1, FER_CHART_RESOLUTION_OUT_OF_RANGE);
    BAD(same_side, 2, FER_OK);
    BAD(same_side, 20, FER_OK);
    BAD(outside, 2, FER_OK);
    BAD(weight, 0.05, FER_OK);
    BAD(resolution.mm, 10.0, FER_OK);
    for (int i = 0; i < n; i++) {
        CHECK_STATUS(fer_chart_points(pieces, 6, bad[i].charting, points, 6, &found), bad[i].status);
        assert_int_equal(found, bad[i].status == FER_OK ? 6 : 0);
        CHECK_STATUS(fer_next_point(pieces, empty, empty, bad[i].charting, &point), bad[i].status);
    }
}

static void bad_points(void **state)
{
    (void)state;
    fer_sample_piece pieces[6];
    fer_chart_point points[6], point;
    size_t found;
    fill(pieces, six, 6);
    CHECK_STATUS(fer_chart_points(pieces, 6, nothing, points, 6, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_chart_points(NULL, 6, nothing, points, 6, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_chart_points(pieces, 6, nothing, NULL, 6, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_chart_points(pieces, 0, nothing, points, 6, &found), FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(fer_chart_points(pieces, 6, nothing, points, 5, &found), FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
    CHECK_STATUS(fer_next_point(pieces, empty, empty, nothing, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_next_point(NULL, empty, empty, nothing, &point), FER_ARGUMENT_MISSING);
    CHECK_NAN(point.score);
    CHECK_NAN(point.down);
    CHECK_NAN(point.mean.mm);
    CHECK_NAN(point.scatter.mm);
    CHECK_NAN(point.last_score);
    assert_int_equal(point.count, 0);
    CHECK_OK(fer_chart_points(pieces, 6, everything_on(), points, 6, &found));
    fer_sample_piece other = pieces[0];
    other.kind = 1;
    CHECK_OK(fer_next_point(&other, points[5], empty, nothing, &point));
    CHECK_STATUS(fer_next_point(&other, points[5], empty, known(), &point), FER_CHART_KINDS_SEVERAL);
    CHECK_STATUS(fer_next_point(&other, empty, points[5], nothing, &point), FER_CHART_KINDS_SEVERAL);
    pieces[5].kind = 1;
    CHECK_STATUS(fer_chart_points(pieces, 6, known(), points, 6, &found), FER_CHART_KINDS_SEVERAL);
    pieces[5].kind = 0;
    CHECK_OK(fer_next_point(pieces, points[5], points[5], known(), &point));
#define BROKEN(member, value)                                                                                \
    do {                                                                                                     \
        fer_chart_point broken = points[5];                                                                  \
        broken.member = (value);                                                                             \
        CHECK_STATUS(fer_next_point(pieces, broken, empty, nothing, &point), FER_CHART_POINT_INCOMPLETE);    \
        CHECK_STATUS(fer_next_point(pieces, empty, broken, nothing, &point), FER_CHART_POINT_INCOMPLETE);    \
    } while (0)
    BROKEN(scored, -1);
    BROKEN(scored, 1000000000);
    BROKEN(count, -1);
    BROKEN(count, 1000000000);
    BROKEN(mean.mm, NAN);
    BROKEN(scatter.mm, -0.1);
    BROKEN(scatter.mm, 1.1e6);
    BROKEN(ewma, NAN);
    BROKEN(up, -0.1);
    BROKEN(up, INFINITY);
    BROKEN(down, -0.1);
    BROKEN(down, INFINITY);
    BROKEN(last_score, 37.1);
    BROKEN(ewma_limit, -0.1);
    BROKEN(ewma_limit, 6.1);
    BROKEN(kind, -1);
    BROKEN(kind, 64);
    BROKEN(history, -1);
    BROKEN(history, 4096);
    BROKEN(side_run, 5);
    BROKEN(side_run, -5);
    BROKEN(trend_run, 6);
    BROKEN(alternating_run, 6);
    BROKEN(inside_run, 5);
    BROKEN(outside_run, -5);
}

static void words_of_the_signals(void **state)
{
    (void)state;
    assert_string_equal(fer_chart_signal_name(FER_CHART_SIGNAL_SAME_SIDE), "SAME_SIDE");
    assert_non_null(strstr(fer_chart_signal_sentence(FER_CHART_SIGNAL_CUSUM_DOWN), "fallen"));
    assert_string_equal(fer_chart_signal_name((fer_chart_signal)99), "UNKNOWN");
    assert_string_equal(fer_chart_signal_sentence((fer_chart_signal)99), "");
}

/* ---- run lengths ----------------------------------------------------------------------------------------- */

static fer_charting ewma_of(double weight, double limit)
{
    fer_charting c = {0};
    c.weight = weight;
    c.limit = limit;
    return c;
}

static fer_charting cusum_of(double allowance, double decision)
{
    fer_charting c = {0};
    c.allowance = allowance;
    c.decision = decision;
    return c;
}

static fer_charting rules_of(double beyond, int two, int four, int side)
{
    fer_charting c = {0};
    c.beyond = beyond;
    c.two_of_three = two;
    c.four_of_five = four;
    c.same_side = side;
    return c;
}

static fer_status run_length_with(fer_charting c, double shift, fer_run_length *length)
{
    return fer_find_run_length(&c, shift, length);
}

static fer_status limit_with(double run_length, fer_charting c, fer_charting *complete)
{
    return fer_find_charting_limit(run_length, &c, complete);
}

static void check_run_length(fer_charting c, double shift, double unshifted, double shifted, double tolerance)
{
    fer_run_length length;
    CHECK_OK(fer_find_run_length(&c, shift, &length));
    CHECK_RELATIVE(length.mean_unshifted, unshifted, tolerance);
    CHECK_RELATIVE(length.mean, shifted, tolerance);
    CHECK_NEAR(length.false_alarms.fraction * length.mean_unshifted, 1.0, 1e-15);
    CHECK_OK(fer_find_run_length(&c, 0.0, &length));
    CHECK_NEAR(length.mean, length.mean_unshifted, 0.0);
}

/* Lucas and Saccucci, Technometrics 32 (1990) (from memory: 500; 11.4, 10.3, 11.1, 17.5, 30.6), digits by r-cran-spc. */
static void run_lengths_of_the_weighted_mean(void **state)
{
    (void)state;
    static const double rows[5][4] = {{0.05, 2.615, 499.933006, 11.382804},
                                      {0.1, 2.814, 499.579550, 10.330665},
                                      {0.25, 2.998, 499.836004, 11.135502},
                                      {0.5, 3.071, 499.906014, 17.476629},
                                      {0.75, 3.087, 499.252328, 30.590345}};
    for (int i = 0; i < 5; i++) {
        check_run_length(ewma_of(rows[i][0], rows[i][1]), 1.0, rows[i][2], rows[i][3], 5e-8);
    }
    /* with the weight 1 each piece decides alone: 1/(2 P(Z < -3)), and with its shift */
    check_run_length(ewma_of(1.0, 0.0), 1.0, 370.39834734495, 43.894681719, 1e-9);
}

/* r-cran-spc. */
static void run_lengths_of_the_sums(void **state)
{
    (void)state;
    check_run_length(cusum_of(0.25, 8.0), 1.0, 368.393873, 11.393208, 5e-8);
    check_run_length(cusum_of(1.0, 2.5), 1.0, 358.001939, 13.430968, 5e-8);
}

/* Champ and Woodall, Technometrics 29 (1987) (from memory: 370.40 225.44 166.05 152.73 91.75; 9.22), digits by r-cran-spc. */
static void run_lengths_of_rules(void **state)
{
    (void)state;
    check_run_length(rules_of(3.0, 0, 0, 0), 1.0, 370.398347, 43.894682, 6e-8);
    check_run_length(rules_of(3.0, 1, 0, 0), 1.0, 225.438407, 20.005036, 6e-8);
    check_run_length(rules_of(3.0, 0, 1, 0), 1.0, 166.054517, 12.664386, 6e-8);
    check_run_length(rules_of(3.0, 0, 0, 8), 1.0, 152.730065, 14.578129, 6e-8);
    check_run_length(rules_of(3.0, 1, 1, 8), 1.0, 91.750773, 9.221860, 6e-8);
    check_run_length(rules_of(3.0, 1, 1, 8), 6.0, 91.750773, 1.001349983, 6e-8);
    /* alone they are as with a limit that is met once in a million */
    for (int rule = 0; rule < 2; rule++) {
        fer_run_length alone, with;
        CHECK_OK(run_length_with(rules_of(0.0, rule == 0, rule == 1, 0), 1.0, &alone));
        CHECK_OK(run_length_with(rules_of(5.5, rule == 0, rule == 1, 0), 1.0, &with));
        CHECK_RELATIVE(with.mean, alone.mean, 1e-4);
        assert_true(with.mean < alone.mean && with.mean_unshifted < alone.mean_unshifted);
    }
    /* so many on one side alone: 2^m - 1 for m in a row, which is what a fair coin needs */
    check_run_length(rules_of(0.0, 0, 0, 8), 0.0, 255.0, 255.0, 1e-12);
    check_run_length(rules_of(0.0, 0, 0, 2), 0.0, 3.0, 3.0, 1e-12);
    check_run_length(rules_of(1.0, 0, 0, 0), 6.0, 1.0 / 0.31731050786291, 1.0000002867, 1e-9);
    /* beyond one is tighter than the zones: two of three beyond two never comes first */
    check_run_length(rules_of(1.0, 1, 0, 0), 1.0, 3.1514871875, 1.0 / (0.5 + 0.02275013194818), 1e-9);
}

static void bad_run_lengths(void **state)
{
    (void)state;
    fer_run_length length;
    fer_charting c = ewma_of(0.2, 2.8);
    CHECK_STATUS(fer_find_run_length(&c, 1.0, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_run_length(NULL, 1.0, &length), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_run_length(&c, -0.1, &length), FER_CHART_SHIFT_OUT_OF_RANGE);
    CHECK_NAN(length.mean);
    CHECK_NAN(length.false_alarms.fraction);
    CHECK_STATUS(fer_find_run_length(&c, 6.1, &length), FER_CHART_SHIFT_OUT_OF_RANGE);
    CHECK_OK(fer_find_run_length(&c, 6.0, &length));
    c.allowance = 0.5;
    CHECK_STATUS(fer_find_run_length(&c, 1.0, &length), FER_CHART_METHOD_NOT_ONE);
    CHECK_STATUS(fer_find_run_length(&nothing, 1.0, &length), FER_CHART_METHOD_NOT_ONE);
    c = rules_of(3.0, 0, 0, 0);
    c.rising = 6;
    CHECK_STATUS(fer_find_run_length(&c, 1.0, &length), FER_CHART_RULE_WITHOUT_RUN_LENGTH);
    c.rising = 0;
    c.alternating = 14;
    CHECK_STATUS(fer_find_run_length(&c, 1.0, &length), FER_CHART_RULE_WITHOUT_RUN_LENGTH);
    c.alternating = 0;
    c.inside = 15;
    CHECK_STATUS(fer_find_run_length(&c, 1.0, &length), FER_CHART_RULE_WITHOUT_RUN_LENGTH);
    c.inside = 0;
    c.outside = 8;
    CHECK_STATUS(fer_find_run_length(&c, 1.0, &length), FER_CHART_RULE_WITHOUT_RUN_LENGTH);
    CHECK_STATUS(run_length_with(rules_of(3.0, 1, 1, 20), 1.0, &length), FER_CHART_STATES_TOO_MANY);
    CHECK_STATUS(run_length_with(ewma_of(0.05, 3.9), 1.0, &length), FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    CHECK_STATUS(run_length_with(ewma_of(1.0, 4.5), 1.0, &length), FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    CHECK_STATUS(run_length_with(cusum_of(3.0, 20.0), 1.0, &length), FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    CHECK_STATUS(run_length_with(rules_of(6.0, 0, 0, 0), 1.0, &length), FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    CHECK_STATUS(run_length_with(ewma_of(2.0, 3.0), 1.0, &length), FER_CHART_WEIGHT_OUT_OF_RANGE);
}

/* r-cran-spc. The result may be what was given. */
static void limits_for_a_run_length(void **state)
{
    (void)state;
    fer_charting c = ewma_of(0.1, 0.0);
    CHECK_OK(fer_find_charting_limit(500.0, &c, &c));
    CHECK_NEAR(c.limit, 2.81431000, 1e-8);
    CHECK_OK(limit_with(500.0, ewma_of(0.1, 0.0), &c));
    CHECK_NEAR(c.limit, 2.81431000, 1e-8);
    CHECK_NEAR(c.weight, 0.1, 0.0);
    CHECK_OK(limit_with(370.4, ewma_of(0.2, NAN), &c));
    CHECK_NEAR(c.limit, 2.85933781, 1e-8);
    CHECK_OK(limit_with(500.0, cusum_of(0.5, 0.0), &c));
    CHECK_NEAR(c.decision, 5.07070385, 1e-8);
    CHECK_OK(limit_with(370.4, cusum_of(0.5, 0.0), &c));
    CHECK_NEAR(c.decision, 4.77489704, 1e-8);
    CHECK_OK(limit_with(370.39834734495, rules_of(2.0, 0, 0, 0), &c));
    CHECK_NEAR(c.beyond, 3.0, 1e-9);
    CHECK_OK(limit_with(91.750773, rules_of(2.0, 1, 1, 8), &c));
    CHECK_NEAR(c.beyond, 3.0, 1e-6);
}

/* Every limit that is found has the run length asked. */
static void limits_and_run_lengths_agree(void **state)
{
    (void)state;
    static const double wanted[5] = {10.0, 50.0, 500.0, 20000.0, 100000.0 * (1.0 - 1e-9)};
    for (int i = 0; i < 5; i++) {
        for (int k = 1; k <= 10; k++) {
            fer_charting c;
            fer_run_length length;
            if (limit_with(wanted[i], ewma_of(0.1 * k, 0.0), &c) == FER_OK) {
                CHECK_OK(fer_find_run_length(&c, 0.0, &length));
                CHECK_RELATIVE(length.mean, wanted[i], 1e-8);
            } else {
                fail_msg("weight %g, run length %g", 0.1 * k, wanted[i]);
            }
            CHECK_OK(limit_with(wanted[i], cusum_of(0.1 * k + (wanted[i] > 1e4 ? 0.15 : 0.0), 0.0), &c));
            CHECK_OK(fer_find_run_length(&c, 0.0, &length));
            CHECK_RELATIVE(length.mean, wanted[i], 1e-8);
        }
    }
}

static void limits_that_cannot_be_reached(void **state)
{
    (void)state;
    fer_charting c;
    CHECK_STATUS(limit_with(500.0, ewma_of(0.1, 0.0), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_charting_limit(500.0, NULL, &c), FER_ARGUMENT_MISSING);
    CHECK_STATUS(limit_with(9.9, ewma_of(0.1, 0.0), &c), FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    CHECK_NAN(c.weight);
    CHECK_NAN(c.beyond);
    CHECK_NAN(c.deviation.mm);
    CHECK_NAN(c.resolution.mm);
    CHECK_STATUS(limit_with(1.1e5, ewma_of(0.1, 0.0), &c), FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    CHECK_STATUS(limit_with(500.0, ewma_of(1.1, 0.0), &c), FER_CHART_WEIGHT_OUT_OF_RANGE);
    CHECK_STATUS(limit_with(500.0, nothing, &c), FER_CHART_METHOD_NOT_ONE);
    CHECK_STATUS(limit_with(500.0, rules_of(0.0, 1, 0, 0), &c), FER_CHART_BEYOND_OUT_OF_RANGE);
    CHECK_STATUS(limit_with(500.0, rules_of(3.0, 1, 1, 20), &c), FER_CHART_STATES_TOO_MANY);
    /* eight on one side come after 255 in the mean */
    CHECK_STATUS(limit_with(260.0, rules_of(3.0, 0, 0, 8), &c), FER_CHART_RUN_LENGTH_NOT_REACHABLE);
    CHECK_OK(limit_with(250.0, rules_of(3.0, 0, 0, 8), &c));
    CHECK_STATUS(limit_with(1e5, cusum_of(0.1, 0.0), &c), FER_CHART_RUN_LENGTH_NOT_REACHABLE);
    CHECK_STATUS(limit_with(1e5, ewma_of(0.05, 0.0), &c), FER_CHART_RUN_LENGTH_NOT_REACHABLE);
    /* at two in the mean the limit would be below its range */
    CHECK_STATUS(limit_with(10.0, cusum_of(3.0, 0.0), &c), FER_CHART_RUN_LENGTH_NOT_REACHABLE);
}

/* No neighbour is better. */
static void the_chart_for_a_shift(void **state)
{
    (void)state;
    static const double shifts[4] = {0.2, 0.5, 1.0, 3.0};
    for (int i = 0; i < 4; i++) {
        for (int method = 0; method < FER_CHART_METHOD_COUNT; method++) {
            fer_charting best, other;
            fer_run_length there, beside;
            CHECK_OK(fer_choose_charting(370.0, shifts[i], (fer_chart_method)method, &best));
            CHECK_OK(fer_find_run_length(&best, shifts[i], &there));
            CHECK_RELATIVE(there.mean_unshifted, 370.0, 1e-8);
            for (int way = -1; way <= 1; way += 2) {
                fer_charting near = {0};
                near.weight = best.weight > 0.0 ? best.weight + 0.01 * way : 0.0;
                near.allowance = best.allowance > 0.0 ? best.allowance + 0.01 * way : 0.0;
                if (limit_with(370.0, near, &other) == FER_OK) {
                    CHECK_OK(fer_find_run_length(&other, shifts[i], &beside));
                    assert_true(beside.mean >= there.mean);
                }
            }
        }
    }
    fer_charting c;
    CHECK_OK(fer_choose_charting(500.0, 1.0, FER_CHART_METHOD_CUSUM, &c));
    CHECK_NEAR(c.allowance, 0.5, 0.03); /* half the shift, as every text has it */
    CHECK_OK(fer_choose_charting(1e5, 0.2, FER_CHART_METHOD_CUSUM, &c));
    CHECK_OK(fer_choose_charting(1e5, 0.2, FER_CHART_METHOD_EWMA, &c));
    CHECK_STATUS(fer_choose_charting(500.0, 1.0, FER_CHART_METHOD_EWMA, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_charting(9.0, 1.0, FER_CHART_METHOD_EWMA, &c), FER_CHART_RUN_LENGTH_OUT_OF_RANGE);
    CHECK_NAN(c.weight);
    CHECK_STATUS(fer_choose_charting(500.0, 0.19, FER_CHART_METHOD_EWMA, &c), FER_CHART_SHIFT_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_charting(500.0, 6.1, FER_CHART_METHOD_EWMA, &c), FER_CHART_SHIFT_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_charting(500.0, 1.0, FER_CHART_METHOD_COUNT, &c), FER_CHART_METHOD_UNKNOWN);
}

/* ---- change ---------------------------------------------------------------------------------------------- */

/* Flow of the Nile at Aswan, 1871 to 1970: the data set of R (Cobb, Biometrika 65 (1978) 243-251). */
static const double nile[100] = {
    1120, 1160, 963,  1210, 1160, 1160, 813,  1230, 1370, 1140, 995,  935,  1110, 994, 1020, 960,  1180,
    799,  958,  1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774,  840,  874, 694,  940,  833,
    701,  916,  692,  1020, 1050, 969,  831,  726,  456,  824,  702,  1120, 1100, 832, 764,  821,  768,
    845,  864,  862,  698,  845,  744,  796,  1040, 759,  781,  865,  845,  944,  984, 897,  822,  1010,
    771,  676,  649,  846,  812,  742,  801,  1040, 860,  874,  848,  890,  744,  749, 838,  1050, 918,
    986,  797,  923,  975,  815,  1020, 906,  901,  1170, 912,  746,  919,  718,  714, 740};

/* After 1898 (Cobb 1978, from memory); figures by R and SciPy. */
static void the_nile_changed_after_1898(void **state)
{
    (void)state;
    fer_sample_piece pieces[100];
    fer_level_change change;
    fer_ratio places[99];
    size_t found;
    fill(pieces, nile, 100);
    CHECK_OK(fer_find_change(pieces, 100, &change, places, 99, &found));
    assert_int_equal(found, 99);
    assert_int_equal(change.found, 1);
    assert_int_equal(1871 + change.last_before, 1898);
    CHECK_NEAR(places[27].fraction, 0.764344370, 5e-10);
    CHECK_NEAR(change.probability.fraction, places[27].fraction, 0.0);
    CHECK_NEAR(change.t_statistic, 8.713768957, 5e-10);
    CHECK_NEAR(change.before.mm, 1097.75, 1e-10);
    CHECK_NEAR(change.after.mm, 849.9722222222222, 1e-10);
    CHECK_NEAR(change.uncertainty.mm, (1097.75 - 849.9722222222222) / 8.713768957, 1e-8);
    CHECK_NEAR(change.p_upper.fraction, 5.448e-12, 1e-14);
    assert_int_equal(change.earliest, 25);
    assert_int_equal(change.latest, 27);
    double sum = 0.0;
    for (int i = 0; i < 99; i++) {
        sum += places[i].fraction;
    }
    CHECK_NEAR(sum, 1.0, 1e-13);
}

/* mpmath 1.2.1, 30 digits: the pairs by quadrature over the angle. */
static void changes_of_few_pieces(void **state)
{
    (void)state;
    static const double weak[12] = {23.50, 23.53, 23.49, 23.51, 23.52, 23.48,
                                    23.53, 23.50, 23.52, 23.51, 23.50, 23.54};
    static const double four[4] = {1.0, 2.0, 4.0, 7.0}, step[6] = {2.0, 2.0, 2.0, 2.0, 3.0, 3.0};
    static const double five[5] = {23.50, 23.53, 23.49, 23.51, 23.54};
    static const double twenty[20] = {23.51, 23.48, 23.49, 23.51, 23.48, 23.5,  23.5,  23.49, 23.48, 23.5,
                                      23.51, 23.49, 23.49, 23.52, 23.49, 23.49, 23.54, 23.48, 23.51, 23.47};
    fer_sample_piece pieces[20];
    fer_level_change change;
    fer_ratio places[19];
    size_t found;
    fill(pieces, six, 6);
    CHECK_OK(fer_find_change(pieces, 6, &change, places, 11, &found));
    CHECK_NEAR(change.p_upper.fraction, 0.07739783564547994, 1e-11);
    assert_int_equal(change.found, 0);
    assert_int_equal(change.last_before, 4);
    CHECK_NEAR(places[4].fraction, 0.708481127313335, 1e-11);
    fill(pieces, weak, 12);
    CHECK_OK(fer_find_change(pieces, 12, &change, places, 11, &found));
    CHECK_NEAR(change.p_upper.fraction, 0.573026846551567295, 1e-11);
    CHECK_NEAR(change.t_statistic, 1.9026235464098087, 1e-9);
    fill(pieces, five, 5);
    CHECK_OK(fer_find_change(pieces, 5, &change, places, 4, &found));
    CHECK_NEAR(change.p_upper.fraction, 0.5888727443524813, 1e-11);
    fill(pieces, twenty, 20); /* both caps have a second common part */
    CHECK_OK(fer_find_change(pieces, 20, &change, places, 19, &found));
    CHECK_NEAR(change.p_upper.fraction, 0.923064995202173678, 1e-9);
    fill(pieces, four, 4);
    CHECK_OK(fer_find_change(pieces, 4, &change, places, 3, &found));
    CHECK_NEAR(change.p_upper.fraction, 0.352923144165197278, 1e-12);
    CHECK_NEAR(change.t_statistic, sqrt(7.0), 1e-12);
    /* two parts without scatter: as sure as doubles can say */
    fill(pieces, step, 6);
    CHECK_OK(fer_find_change(pieces, 6, &change, places, 5, &found));
    assert_int_equal(change.last_before, 3);
    CHECK_NEAR(places[3].fraction, 1.0, 1e-12);
    assert_true(change.t_statistic > 1e11 && change.t_statistic < 1e13);
    assert_int_equal(change.earliest, 3);
    assert_int_equal(change.latest, 3);
}

static void bad_changes(void **state)
{
    (void)state;
    fer_sample_piece pieces[6];
    fer_level_change change;
    fer_ratio places[5];
    size_t found;
    fill(pieces, six, 6);
    found = 7;
    change.before.mm = 1.0;
    CHECK_STATUS(fer_find_change(pieces, 6, NULL, places, 5, &found), FER_ARGUMENT_MISSING);
    assert_int_equal(found, 0);
    CHECK_STATUS(fer_find_change(pieces, 6, &change, places, 5, NULL), FER_ARGUMENT_MISSING);
    CHECK_NAN(change.before.mm);
    CHECK_STATUS(fer_find_change(pieces, 6, &change, NULL, 5, &found), FER_ARGUMENT_MISSING);
    CHECK_NAN(change.before.mm);
    CHECK_NAN(change.probability.fraction);
    CHECK_NAN(change.p_upper.fraction);
    assert_int_equal(change.latest, 0);
    CHECK_STATUS(fer_find_change(pieces, 3, &change, places, 5, &found), FER_SAMPLE_TOO_FEW);
    CHECK_STATUS(fer_find_change(pieces, 6, &change, places, 4, &found), FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
    pieces[2].kind = 1;
    CHECK_STATUS(fer_find_change(pieces, 6, &change, places, 5, &found), FER_CHART_KINDS_SEVERAL);
    for (int i = 0; i < 6; i++) {
        pieces[i].kind = 0;
        pieces[i].diameter = mm(23.51);
    }
    CHECK_STATUS(fer_find_change(pieces, 6, &change, places, 5, &found), FER_SAMPLE_WITHOUT_SCATTER);
}

/* ---- press ----------------------------------------------------------------------------------------------- */

static fer_press_level level_of(const fer_drift_point *checks, size_t count, int today, double limit,
                                double coverage, fer_gauge gauge)
{
    fer_press_level level;
    CHECK_OK(fer_track_press(checks, count, today, mm(limit), share(coverage), gauge, &level));
    return level;
}

/* Variances of walk and noise: Durbin and Koopman 2001 (from memory: 1469.1, 15098.5), R's StructTS, statsmodels; mixture: SciPy. */
static void the_level_of_the_nile(void **state)
{
    (void)state;
    fer_drift_point checks[100];
    for (int i = 0; i < 100; i++) {
        checks[i].day = i;
        checks[i].deviation.mm = nile[i] - 900.0;
    }
    fer_press_level l = level_of(checks, 100, 99, 900.0, 0.95, no_gauge);
    CHECK_RELATIVE(l.walk_per_root_day.mm, sqrt(1469.1764), 2e-7);
    CHECK_RELATIVE(l.crimp_deviation.mm, sqrt(15098.5182), 2e-8);
    CHECK_RELATIVE(l.weight, 0.267057493, 1e-7);
    CHECK_NEAR(l.level.mm, 800.5744305589707 - 900.0, 1e-7);
    CHECK_RELATIVE(l.uncertainty.mm, 69.28666203236057, 1e-9);
    CHECK_NEAR(l.lower.mm, 656.6591326646408 - 900.0, 1e-6);
    CHECK_NEAR(l.upper.mm, 928.1699827236355 - 900.0, 1e-6);
    l = level_of(checks, 100, 109, 900.0, 0.95, no_gauge);
    CHECK_NEAR(l.level.mm, 800.5744305589707 - 900.0, 1e-7);
    CHECK_RELATIVE(l.uncertainty.mm, 151.84402784421727, 1e-9);
    CHECK_NEAR(l.lower.mm, 470.8751499783403 - 900.0, 1e-6);
}

static const fer_drift_point wandering[8] = {{0, {0.02}},  {30, {0.05}},  {61, {0.01}},  {61, {0.06}},
                                             {90, {0.09}}, {121, {0.07}}, {150, {0.12}}, {181, {0.10}}};

/* SciPy: mixture and likelihood by an own program; the median of the gaps of a day and more is 30. */
static void a_press_that_wanders(void **state)
{
    (void)state;
    fer_press_level l = level_of(wandering, 8, 181, 0.25, 0.9, no_gauge);
    CHECK_NEAR(l.level.mm, 0.08721176670813101, 1e-11);
    CHECK_NEAR(l.uncertainty.mm, 0.02450042904971683, 1e-11);
    CHECK_NEAR(l.lower.mm, 0.04886424826127705, 1e-10);
    CHECK_NEAR(l.upper.mm, 0.1268546696660761, 1e-10);
    CHECK_RELATIVE(l.crimp_deviation.mm, 0.024318462977681927, 1e-7);
    CHECK_RELATIVE(l.walk_per_root_day.mm, 0.003923721893495722, 1e-6);
    CHECK_RELATIVE(l.weight, 0.5756707849520428, 1e-6);
    assert_int_equal(l.due, 0);
    assert_int_equal(l.due_found, 1);
    assert_int_equal(l.due_day, 1051);
    l = level_of(wandering, 8, 1050, 0.25, 0.9, no_gauge);
    assert_int_equal(l.due, 0);
    assert_int_equal(l.due_day, 1051);
    l = level_of(wandering, 8, 1051, 0.25, 0.9, no_gauge);
    assert_int_equal(l.due, 1);
    assert_int_equal(l.due_found, 1);
    assert_int_equal(l.due_day, 1051);
}

/* Where the gauge scatters as much as the checks, or these show no walk, none is reported. */
static void a_press_that_does_not_wander(void **state)
{
    (void)state;
    static const fer_drift_point still[6] = {{0, {0.02}},   {10, {-0.01}}, {20, {0.01}},
                                             {30, {-0.02}}, {40, {0.015}}, {50, {-0.005}}};
    const fer_gauge coarse = {{0.05}, {0.0}, {0.0}};
    fer_press_level l = level_of(still, 6, 60, 0.08, 0.95, no_gauge);
    CHECK_NEAR(l.weight, 0.0, 0.0);
    CHECK_NEAR(l.walk_per_root_day.mm, 0.0, 0.0);
    CHECK_RELATIVE(l.crimp_deviation.mm, 0.015705625319186328, 1e-11);
    CHECK_NEAR(l.level.mm, 0.0005508072879022565, 1e-11);
    CHECK_NEAR(l.uncertainty.mm, 0.015349840425098921, 1e-11);
    CHECK_NEAR(l.lower.mm, -0.032165966012360526, 1e-10);
    assert_int_equal(l.due_day, 157);
    l = level_of(wandering, 8, 200, 0.25, 0.9, coarse);
    CHECK_NEAR(l.level.mm, 0.07168359251262485, 1e-11);
    CHECK_NEAR(l.uncertainty.mm, 0.03079884415036234, 1e-11);
    CHECK_NEAR(l.crimp_deviation.mm, 0.05, 1e-15);
    assert_int_equal(l.due, 0);
    assert_int_equal(l.due_found, 0);
    assert_int_equal(l.due_day, 0);
}

/* Equal checks: the step of a usual caliper is left, 0.01/sqrt(12). A walk without noise follows the last check. */
static void checks_that_say_little(void **state)
{
    (void)state;
    fer_drift_point checks[12];
    for (int i = 0; i < 12; i++) {
        checks[i].day = 7 * i;
        checks[i].deviation.mm = 0.02;
    }
    fer_press_level l = level_of(checks, 12, 77, 0.1, 0.95, no_gauge);
    CHECK_RELATIVE(l.crimp_deviation.mm, 0.01 / sqrt(12.0), 1e-12);
    CHECK_NEAR(l.level.mm, 0.02, 1e-15);
    assert_true(l.uncertainty.mm > 0.0007 && l.upper.mm > l.lower.mm);
    for (int i = 0; i < 12; i++) {
        checks[i].deviation.mm = 0.01 * i * i;
    }
    l = level_of(checks, 12, 77, 10.0, 0.95, no_gauge);
    assert_true(l.weight > 0.95 && l.weight <= 1.0);
    CHECK_NEAR(l.level.mm, 1.21, 0.02);
    /* a gauge that is coarser than the likeliest noise: the walk is what leaves as much */
    static const double walk[12] = {0.08, 0.16,  0.17,  0.12,  0.06,  0.06,
                                    -0.0, -0.09, -0.08, -0.07, -0.04, -0.09};
    const fer_gauge gauge = {{0.02}, {0.0}, {0.0}};
    for (int i = 0; i < 12; i++) {
        checks[i].deviation.mm = walk[i];
    }
    l = level_of(checks, 12, 77, 10.0, 0.95, gauge);
    CHECK_NEAR(l.crimp_deviation.mm, 0.02, 1e-7);
    assert_true(l.weight > 0.3);
}

/* Hand-over: the figures go into the calls as they come. The level is taken off, and the first trial corrects the rest by the share of
 * the setting's variance: y tau^2/(tau^2 + sigma^2). */
static void what_the_dial_takes_of_a_press(void **state)
{
    (void)state;
    const fer_press_level l = level_of(wandering, 8, 190, 0.25, 0.9, no_gauge);
    const fer_dial_scale stepless = {{0.0}, {0.0}};
    const fer_length_range limits = {{23.3}, {23.7}};
    fer_adjusting adjusting;
    fer_adjustment adjustment;
    fer_trial trial = {{1.5}, {23.58}};
    memset(&adjusting, 0, sizeof adjusting);
    adjusting.crimp_deviation = l.crimp_deviation;
    adjusting.setting_deviation = l.uncertainty;
    trial.setting.mm = 1.5 - l.level.mm; /* the level is off the first setting */
    CHECK_OK(fer_correct_dial(&stepless, &trial, 1, mm(23.5), limits, adjusting, &adjustment));
    const double u = l.uncertainty.mm * l.uncertainty.mm, s = l.crimp_deviation.mm * l.crimp_deviation.mm;
    CHECK_NEAR(adjustment.move.mm, -0.08 * u / (u + s), 1e-12);
    CHECK_NEAR(adjustment.crimp_deviation.value.mm, l.crimp_deviation.mm, 0.0);
}

/* A deviation of three of its uncertainties is put down to the press where the diagnosis knows that the press wanders so far, and is
 * less likely to be where it does not. */
static void what_a_diagnosis_takes_of_a_press(void **state)
{
    (void)state;
    fer_drift_point far_ahead[8];
    memcpy(far_ahead, wandering, sizeof far_ahead);
    const fer_press_level soon = level_of(far_ahead, 8, 182, 1.0, 0.9, no_gauge),
                          late = level_of(far_ahead, 8, 1500, 1.0, 0.9, no_gauge);
    const fer_press_level *const levels[2] = {&soon, &late};
    fer_order order;
    fer_press press;
    fer_setup setup;
    const fer_die die = {{22.0}, {0.0}, 0, {0.0}};
    memset(&order, 0, sizeof order);
    memset(&press, 0, sizeof press);
    order.joint = worked_joint();
    order.published = mm(23.5);
    order.tolerance = mm(0.1);
    CHECK_OK(fer_plan_setup(&order, &press, &die, 1, &setup));
    double probability[2] = {0.0, 0.0};
    for (int k = 0; k < 2; k++) {
        const fer_piece piece = {{setup.target.mm + 0.3}, {0.0}};
        fer_diagnosing diagnosing;
        fer_suspect suspects[FER_CAUSE_COUNT];
        fer_diagnosis diagnosis;
        size_t found;
        memset(&diagnosing, 0, sizeof diagnosing);
        diagnosing.crimp_deviation = levels[k]->crimp_deviation;
        diagnosing.drift_deviation = levels[k]->uncertainty;
        CHECK_OK(fer_diagnose_diameter(&setup, &press, &die, 1, &piece, 1, NULL, 0, diagnosing, suspects,
                                       FER_CAUSE_COUNT, &found, &diagnosis));
        for (size_t i = 0; i < found; i++) {
            probability[k] +=
                suspects[i].cause == FER_CAUSE_PRESS_DRIFT ? suspects[i].probability.fraction : 0.0;
        }
    }
    assert_true(late.uncertainty.mm > 4.0 * soon.uncertainty.mm);
    assert_true(probability[1] > 2.0 * probability[0]);
}

static void bad_checks(void **state)
{
    (void)state;
    fer_drift_point checks[8];
    fer_press_level level;
    const fer_gauge bad_gauge = {{-0.1}, {0.0}, {0.0}};
    memcpy(checks, wandering, sizeof checks);
#define TRACK(count, today, limit, coverage)                                                                 \
    fer_track_press(checks, count, today, mm(limit), share(coverage), no_gauge, &level)
    CHECK_STATUS(fer_track_press(checks, 8, 181, mm(0.2), share(0.9), no_gauge, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_track_press(NULL, 8, 181, mm(0.2), share(0.9), no_gauge, &level), FER_ARGUMENT_MISSING);
    CHECK_NAN(level.level.mm);
    CHECK_NAN(level.weight);
    CHECK_STATUS(TRACK(3, 181, 0.2, 0.9), FER_PRESS_CHECKS_TOO_FEW);
    CHECK_STATUS(TRACK(5001, 181, 0.2, 0.9), FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(TRACK(8, 180, 0.2, 0.9), FER_PRESS_CHECKS_NOT_IN_ORDER);
    CHECK_STATUS(TRACK(8, 1000001, 0.2, 0.9), FER_DRIFT_DAY_OUT_OF_RANGE);
    CHECK_STATUS(TRACK(8, 181, 0.0, 0.9), FER_DRIFT_LIMIT_OUT_OF_RANGE);
    CHECK_STATUS(TRACK(8, 181, 0.2, 1.0), FER_COVERAGE_OUT_OF_RANGE);
    CHECK_STATUS(fer_track_press(checks, 8, 181, mm(0.2), share(0.9), bad_gauge, &level),
                 FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE);
    checks[3].deviation.mm = 1001.0;
    CHECK_STATUS(TRACK(8, 181, 0.2, 0.9), FER_DRIFT_DEVIATION_OUT_OF_RANGE);
    checks[3].deviation.mm = 0.0;
    checks[3].day = 60;
    CHECK_STATUS(TRACK(8, 181, 0.2, 0.9), FER_PRESS_CHECKS_NOT_IN_ORDER);
    for (int i = 0; i < 8; i++) {
        checks[i].day = 10;
    }
    CHECK_STATUS(TRACK(8, 181, 0.2, 0.9), FER_PRESS_CHECKS_TOO_FEW);
    CHECK_STATUS(TRACK(8, 10, 0.2, 0.9), FER_PRESS_CHECKS_TOO_FEW);
    checks[7].day = 11;
    CHECK_OK(TRACK(8, 11, 0.2, 0.9));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(constants_of_groups),
        cmocka_unit_test(constants_in_closed_form),
        cmocka_unit_test(bad_constants),
        cmocka_unit_test(limits_of_ranges_by_probability),
        cmocka_unit_test(limits_that_allow_for_the_study),
        cmocka_unit_test(limits_of_moving_ranges),
        cmocka_unit_test(limits_of_ranges_over_the_deviation),
        cmocka_unit_test(degrees_of_moving_ranges),
        cmocka_unit_test(limits_from_pieces),
        cmocka_unit_test(bad_limits),
        cmocka_unit_test(bad_figures),
        cmocka_unit_test(scores_of_short_runs),
        cmocka_unit_test(two_kinds_on_one_sheet),
        cmocka_unit_test(scores_with_what_is_known),
        cmocka_unit_test(a_jump_beyond_all_measure),
        cmocka_unit_test(equal_pieces_wait),
        cmocka_unit_test(a_piece_beyond_the_limit),
        cmocka_unit_test(two_of_three_beyond_two),
        cmocka_unit_test(four_of_five_beyond_one),
        cmocka_unit_test(many_on_one_side),
        cmocka_unit_test(rising_and_falling),
        cmocka_unit_test(up_and_down_in_turn),
        cmocka_unit_test(within_and_outside_one),
        cmocka_unit_test(the_weighted_mean),
        cmocka_unit_test(the_sums_of_both_sides),
        cmocka_unit_test(one_piece_at_a_time),
        cmocka_unit_test(bad_charting),
        cmocka_unit_test(bad_points),
        cmocka_unit_test(words_of_the_signals),
        cmocka_unit_test(run_lengths_of_the_weighted_mean),
        cmocka_unit_test(run_lengths_of_the_sums),
        cmocka_unit_test(run_lengths_of_rules),
        cmocka_unit_test(bad_run_lengths),
        cmocka_unit_test(limits_for_a_run_length),
        cmocka_unit_test(limits_and_run_lengths_agree),
        cmocka_unit_test(limits_that_cannot_be_reached),
        cmocka_unit_test(the_chart_for_a_shift),
        cmocka_unit_test(the_nile_changed_after_1898),
        cmocka_unit_test(changes_of_few_pieces),
        cmocka_unit_test(bad_changes),
        cmocka_unit_test(the_level_of_the_nile),
        cmocka_unit_test(a_press_that_wanders),
        cmocka_unit_test(a_press_that_does_not_wander),
        cmocka_unit_test(checks_that_say_little),
        cmocka_unit_test(what_the_dial_takes_of_a_press),
        cmocka_unit_test(what_a_diagnosis_takes_of_a_press),
        cmocka_unit_test(bad_checks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
