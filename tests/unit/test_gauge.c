/* SPDX-License-Identifier: MIT */
/* Module gauge. R: 4.2.2, SciPy: 1.10.1. */
#include "check.h"

#define CHECK_RELATIVE(actual, expected, tolerance) CHECK_NEAR(actual, expected, (tolerance)*fabs(expected))

static const fer_study_settings usual = {{0.0}, 0, {0.0}, {0.0}};

static fer_ratio share(double fraction)
{
    const fer_ratio ratio = {fraction};
    return ratio;
}

static fer_length mm(double number)
{
    const fer_length length = {number};
    return length;
}

/* Twenty parts, three people, two readings: Montgomery, Introduction to statistical quality control (from memory). */
static const int panel[3][40] = {
    {21, 20, 24, 23, 20, 21, 27, 27, 19, 18, 23, 21, 22, 21, 19, 17, 24, 23, 25, 23,
     21, 20, 18, 19, 23, 25, 24, 24, 29, 30, 26, 26, 20, 20, 19, 21, 25, 26, 19, 19},
    {20, 20, 24, 24, 19, 21, 28, 26, 19, 18, 24, 21, 22, 24, 18, 20, 25, 23, 26, 25,
     20, 20, 17, 19, 25, 25, 23, 25, 30, 28, 25, 26, 19, 20, 19, 19, 25, 24, 18, 17},
    {19, 21, 23, 24, 20, 22, 27, 28, 18, 21, 23, 22, 22, 20, 19, 18, 24, 24, 24, 25,
     21, 20, 18, 19, 25, 25, 24, 25, 31, 30, 25, 27, 20, 20, 21, 23, 25, 25, 19, 17}};

static void fill_panel(fer_study_reading readings[120])
{
    for (int i = 0; i < 120; i++) {
        readings[i].person = i / 40;
        readings[i].part = i % 40 / 2;
        readings[i].diameter.mm = panel[i / 40][i % 40];
    }
}

static int has(const fer_gauge_study *study, fer_study_finding finding)
{
    return (int)(study->findings.bits >> finding & 1);
}

/* Mean squares 62.390789, 1.308333, 0.711842, 0.991667; pooled by hand: (27.05 + 59.5)/98 = 0.883163. */
static void the_study_of_twenty_parts_pooled(void **state)
{
    (void)state;
    fer_study_reading readings[120];
    fer_gauge_study study;
    fill_panel(readings);
    CHECK_OK(fer_study_gauge(readings, 120, mm(53.0), share(0.975), usual, &study));
    assert_int_equal(study.pooled, 1);
    CHECK_NEAR(study.interaction_p.fraction, 0.861434, 5e-7);
    CHECK_NEAR(study.repeatability.value.mm, sqrt(0.883163), 5e-7);
    CHECK_NEAR(study.people.value.mm, sqrt(0.010629), 5e-5);
    CHECK_NEAR(study.parts.value.mm, sqrt(10.251271), 5e-7);
    CHECK_NEAR(study.gauge.value.mm, sqrt(0.883163 + 0.010629), 1e-6);
    CHECK_NEAR(study.total.value.mm, sqrt(0.883163 + 0.010629 + 10.251271), 1e-6);
    CHECK_NEAR(study.interaction.value.mm, 0.0, 0.0);
    CHECK_NEAR(study.repeatability.degrees_of_freedom, 98.0, 1e-10);
    CHECK_NEAR(study.categories, 1.41 * sqrt(10.251271 / 0.893793), 1e-5);
    CHECK_NEAR(study.gauge.of_tolerance.fraction, 6.0 * sqrt(0.893793) / 53.0, 1e-6);
    CHECK_NEAR(study.gauge.of_total.fraction, sqrt(0.893793 / 11.145064), 1e-6);
    /* F of people against the pooled error: 1.308333/0.883163 with 2 and 98 degrees: (1 + F/49)^-49 in closed form */
    CHECK_NEAR(study.people_p.fraction, pow(1.0 + 1.308333 / 0.883163 / 49.0, -49.0), 1e-6);
    assert_true(has(&study, FER_STUDY_FINDING_PEOPLE_TOO_FEW));
    assert_true(has(&study, FER_STUDY_FINDING_CATEGORIES_TOO_FEW)); /* 4.78 */
    assert_true(has(&study, FER_STUDY_FINDING_GAUGE_WIDE));
    assert_false(has(&study, FER_STUDY_FINDING_GAUGE_TOO_WIDE));
    assert_false(has(&study, FER_STUDY_FINDING_PEOPLE_DIFFER));
    assert_false(has(&study, FER_STUDY_FINDING_PARTS_DIVIDE_PEOPLE));
    assert_false(has(&study, FER_STUDY_FINDING_ESTIMATE_BELOW_ZERO));
    assert_false(has(&study, FER_STUDY_FINDING_SCATTER_BELOW_STEP));
    CHECK_NEAR(study.measuring.repeatability.mm, study.repeatability.value.mm, 0.0);
    CHECK_NEAR(study.measuring.repeatability_degrees, 98.0, 1e-10);
    CHECK_NEAR(study.measuring.common.mm, study.people.value.mm, 1e-15);
    CHECK_NEAR(study.one_piece.standard_uncertainty.mm, study.people.value.mm, 1e-15);
}

/* SciPy and R; exact limits of the repeatability: chi-square of 60 degrees, 40.4817 and 83.2977 (any table). */
static void the_study_of_twenty_parts_not_pooled(void **state)
{
    (void)state;
    fer_study_reading readings[120];
    fer_gauge_study study;
    fer_study_settings settings = usual;
    settings.never_pool = 1;
    settings.calibration.mm = 0.3;
    settings.resolution.mm = 1.0;
    fill_panel(readings);
    CHECK_OK(fer_study_gauge(readings, 120, mm(0.0), share(0.975), settings, &study));
    assert_int_equal(study.pooled, 0);
    CHECK_RELATIVE(study.repeatability.value.mm, sqrt(0.991667), 1e-6);
    CHECK_RELATIVE(study.repeatability.lower.mm, sqrt(0.991667 * 60.0 / 83.2977), 1e-6);
    CHECK_RELATIVE(study.repeatability.upper.mm, sqrt(0.991667 * 60.0 / 40.4817), 1e-6);
    CHECK_NEAR(study.gauge.value.mm, sqrt(0.866667), 5e-7);
    CHECK_NEAR(study.gauge.lower.mm, sqrt(0.686637), 5e-7);
    CHECK_NEAR(study.gauge.upper.mm, sqrt(2.167700), 5e-7);
    CHECK_NEAR(study.parts.value.mm, sqrt(10.279825), 5e-7);
    CHECK_NEAR(study.parts.lower.mm, sqrt(5.894698), 5e-7);
    CHECK_NEAR(study.parts.upper.mm, sqrt(22.062214), 5e-7);
    CHECK_NEAR(study.people.value.mm, sqrt((1.308333 - 0.711842) / 40.0), 1e-5);
    CHECK_NEAR(study.interaction.value.mm, 0.0, 0.0); /* below 0 */
    CHECK_NEAR(study.interaction.lower.mm, 0.0, 0.0);
    CHECK_NEAR(study.total.value.mm, sqrt(0.866667 + 10.279825), 1e-6);
    assert_true(has(&study, FER_STUDY_FINDING_ESTIMATE_BELOW_ZERO));
    CHECK_NAN(study.gauge.of_tolerance.fraction);
    CHECK_NEAR(study.measuring.common.mm, sqrt(0.09 + (1.308333 - 0.711842) / 40.0), 1e-5);
    CHECK_NEAR(study.measuring.resolution.mm, 1.0, 0.0);
    CHECK_NEAR(study.one_piece.resolution.mm, 1.0, 0.0);
    /* Satterthwaite of the gauge, by hand */
    const double o = 1.308333 / 40.0, b = 19.0 / 40.0 * 0.711842, e = 0.991667 / 2.0;
    CHECK_NEAR(study.gauge.degrees_of_freedom,
               (o + b + e) * (o + b + e) / (o * o / 2.0 + b * b / 38.0 + e * e / 60.0), 1e-4);
    /* pooled where its probability is above 90 %: it is not */
    settings.never_pool = 0;
    settings.pool_above.fraction = 0.9;
    CHECK_OK(fer_study_gauge(readings, 120, mm(0.0), share(0.975), settings, &study));
    assert_int_equal(study.pooled, 0);
}

/* Two parts, two people who differ by 2, one of whom reads the second part 2 higher: by hand. */
static void people_who_differ(void **state)
{
    (void)state;
    static const double values[8] = {10.0, 10.1, 12.0, 12.1, 20.0, 20.1, 24.0, 24.1};
    fer_study_reading readings[8];
    fer_gauge_study study;
    fer_study_settings settings = usual;
    for (int i = 0; i < 8; i++) {
        readings[7 - i].part = i / 4 * 5;
        readings[7 - i].person = i / 2 % 2 * 7;
        readings[7 - i].diameter.mm = values[i];
    }
    CHECK_OK(fer_study_gauge(readings, 8, mm(60.0), share(0.9), settings, &study));
    assert_int_equal(study.pooled, 0);
    /* means 10.05 12.05 20.05 24.05: interaction +-0.5, people +-1.5, parts +-5.5 */
    CHECK_RELATIVE(study.repeatability.value.mm, sqrt(0.005), 1e-12);
    CHECK_RELATIVE(study.interaction.value.mm, sqrt((2.0 - 0.005) / 2.0), 1e-12);
    CHECK_RELATIVE(study.people.value.mm, sqrt((18.0 - 2.0) / 4.0), 1e-12);
    CHECK_RELATIVE(study.parts.value.mm, sqrt((242.0 - 2.0) / 4.0), 1e-12);
    assert_true(has(&study, FER_STUDY_FINDING_PARTS_DIVIDE_PEOPLE));
    assert_false(has(&study, FER_STUDY_FINDING_PEOPLE_DIFFER)); /* F 9 with 1 and 1 degrees */
    assert_false(has(&study, FER_STUDY_FINDING_ESTIMATE_BELOW_ZERO));
    /* F with 1 and 1 degrees is Cauchy's squared: 1 - 2/pi atan 3 */
    CHECK_NEAR(study.people_p.fraction, 1.0 - 2.0 / 3.14159265358979324 * atan(3.0), 1e-12);
    CHECK_RELATIVE(study.measuring.common.mm, sqrt(4.0 + (2.0 - 0.005) / 2.0), 1e-12);
    CHECK_OK(fer_study_gauge(readings, 8, mm(20.0), share(0.9), settings, &study));
    assert_true(has(&study, FER_STUDY_FINDING_GAUGE_TOO_WIDE));
    assert_false(has(&study, FER_STUDY_FINDING_GAUGE_WIDE));
    CHECK_OK(fer_study_gauge(readings, 8, mm(1000.0), share(0.9), settings, &study));
    assert_false(has(&study, FER_STUDY_FINDING_GAUGE_WIDE));
    /* without the second person's difference on the second part: people differ, and nothing divides them */
    for (int i = 0; i < 8; i++) {
        readings[7 - i].diameter.mm = values[i] - (i >= 6 ? 2.0 : 0.0);
    }
    settings.never_pool = 1;
    CHECK_OK(fer_study_gauge(readings, 8, mm(60.0), share(0.9), settings, &study));
    assert_true(has(&study, FER_STUDY_FINDING_PEOPLE_DIFFER)); /* the interaction is 0, but for a rounding */
    settings.never_pool = 0;
    CHECK_OK(fer_study_gauge(readings, 8, mm(60.0), share(0.9), settings, &study));
    assert_int_equal(study.pooled, 1);
    assert_true(has(&study, FER_STUDY_FINDING_PEOPLE_DIFFER));
    /* people who read alike: their estimate is below 0 */
    for (int i = 0; i < 8; i++) {
        readings[7 - i].diameter.mm = 10.0 + i / 4 + 0.1 * (i % 2);
    }
    CHECK_OK(fer_study_gauge(readings, 8, mm(60.0), share(0.9), settings, &study));
    assert_true(has(&study, FER_STUDY_FINDING_ESTIMATE_BELOW_ZERO));
    CHECK_NEAR(study.people.value.mm, 0.0, 0.0);
    /* parts that are alike: below 0, too */
    for (int i = 0; i < 8; i++) {
        readings[7 - i].diameter.mm = 10.0 + i / 2 % 2 + 0.1 * (i % 2);
    }
    CHECK_OK(fer_study_gauge(readings, 8, mm(60.0), share(0.9), settings, &study));
    assert_true(has(&study, FER_STUDY_FINDING_ESTIMATE_BELOW_ZERO));
    CHECK_NEAR(study.parts.value.mm, 0.0, 0.0);
    /* four people */
    fer_study_reading sixteen[16];
    for (int i = 0; i < 16; i++) {
        sixteen[i].part = i / 8;
        sixteen[i].person = i / 2 % 4;
        sixteen[i].diameter.mm = 10.0 + i / 8 + 0.1 * (i % 2) + 0.01 * (i / 2 % 4);
    }
    CHECK_OK(fer_study_gauge(sixteen, 16, mm(60.0), share(0.9), settings, &study));
    assert_false(has(&study, FER_STUDY_FINDING_PEOPLE_TOO_FEW));
    assert_false(has(&study, FER_STUDY_FINDING_CATEGORIES_TOO_FEW));
}

static void readings_that_do_not_differ(void **state)
{
    (void)state;
    fer_study_reading readings[8];
    fer_gauge_study study;
    fer_study_settings settings = usual;
    for (int i = 0; i < 8; i++) {
        readings[i].part = i / 4;
        readings[i].person = i / 2 % 2;
        readings[i].diameter.mm = 23.7 + 0.1 * (i / 4);
    }
    CHECK_STATUS(fer_study_gauge(readings, 8, mm(0.0), share(0.9), settings, &study),
                 FER_SAMPLE_WITHOUT_SCATTER);
    settings.resolution.mm = 0.02;
    settings.never_pool = 1;
    CHECK_OK(fer_study_gauge(readings, 8, mm(0.0), share(0.9), settings, &study));
    assert_true(has(&study, FER_STUDY_FINDING_SCATTER_BELOW_STEP));
    CHECK_RELATIVE(study.repeatability.value.mm, 0.02 / sqrt(12.0), 1e-12);
}

/* By ranges: mean range 1.0333, people 22.3 22.275 22.6 (Montgomery, from memory); d2 1.128, 1.693, 3.735 (any table). */
static void the_study_by_ranges(void **state)
{
    (void)state;
    fer_study_reading readings[120];
    fer_range_study study;
    double ranges = 0.0;
    fill_panel(readings);
    for (int i = 0; i < 60; i++) {
        ranges += fabs((double)(panel[i / 20][i % 20 * 2] - panel[i / 20][i % 20 * 2 + 1])) / 60.0;
    }
    CHECK_OK(fer_study_gauge_by_ranges(readings, 120, mm(53.0), &study));
    /* d2* of two readings, sixty groups: root of 1.12838^2 + 0.8525^2/60 */
    const double repeat = ranges / sqrt(1.1283791671 * 1.1283791671 + 0.8525024664 * 0.8525024664 / 60.0);
    CHECK_NEAR(study.repeatability.mm, repeat, 1e-9);
    /* three people: d2 1.69257, d3 0.88837 */
    const double people = (22.6 - 22.275) / sqrt(1.6925687506 * 1.6925687506 + 0.88836800 * 0.88836800);
    CHECK_NEAR(study.people.mm, sqrt(fmax(0.0, people * people - repeat * repeat / 40.0)), 1e-7);
    CHECK_NEAR(study.gauge.mm, hypot(study.repeatability.mm, study.people.mm), 1e-12);
    CHECK_NEAR(study.total.mm, hypot(study.gauge.mm, study.parts.mm), 1e-12);
    CHECK_NEAR(study.categories, 1.41 * study.parts.mm / study.gauge.mm, 1e-12);
    CHECK_NEAR(study.of_tolerance.fraction, 6.0 * study.gauge.mm / 53.0, 1e-14);
    /* part 15 has the mean 29.667, part 8 18.5: 20 parts, d2 3.73495, d3 0.72869 */
    double low = 100.0, high = 0.0;
    for (int part = 0; part < 20; part++) {
        double mean = 0.0;
        for (int i = 0; i < 6; i++) {
            mean += panel[i / 2][2 * part + i % 2] / 6.0;
        }
        low = fmin(low, mean);
        high = fmax(high, mean);
    }
    CHECK_NEAR(study.parts.mm, (high - low) / hypot(3.73495012, 0.72868635), 1e-7);
    CHECK_OK(fer_study_gauge_by_ranges(readings, 120, mm(0.0), &study));
    CHECK_NAN(study.of_tolerance.fraction);
    for (int i = 0; i < 120; i++) { /* readings that never differ */
        readings[i].diameter.mm = 20.0 + readings[i].part;
    }
    CHECK_STATUS(fer_study_gauge_by_ranges(readings, 120, mm(0.0), &study), FER_SAMPLE_WITHOUT_SCATTER);
    /* people whose means differ by less than the readings explain */
    for (int i = 0; i < 120; i++) {
        readings[i].diameter.mm = 20.0 + readings[i].part + i % 2;
    }
    CHECK_OK(fer_study_gauge_by_ranges(readings, 120, mm(0.0), &study));
    CHECK_NEAR(study.people.mm, 0.0, 0.0);
}

static void check_study(const fer_study_reading *readings, size_t count, fer_status status)
{
    fer_gauge_study study;
    fer_range_study ranges;
    CHECK_STATUS(fer_study_gauge(readings, count, mm(1.0), share(0.9), usual, &study), status);
    CHECK_NAN(study.gauge.value.mm);
    CHECK_NAN(study.people_p.fraction);
    CHECK_NAN(study.measuring.common.mm);
    CHECK_NAN(study.one_piece.resolution.mm);
    assert_int_equal(study.findings.bits, 0);
    CHECK_STATUS(fer_study_gauge_by_ranges(readings, count, mm(1.0), &ranges), status);
    CHECK_NAN(ranges.categories);
}

static void bad_studies(void **state)
{
    (void)state;
    fer_study_reading readings[120], many[404];
    fer_gauge_study study;
    fer_range_study ranges;
    fer_study_settings settings = usual;
    fill_panel(readings);
    CHECK_STATUS(fer_study_gauge(readings, 120, mm(1.0), share(0.9), usual, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_study_gauge_by_ranges(readings, 120, mm(1.0), NULL), FER_ARGUMENT_MISSING);
    check_study(NULL, 120, FER_ARGUMENT_MISSING);
    check_study(readings, 0, FER_ARGUMENT_COUNT_ZERO);
    check_study(readings, 2001, FER_ARGUMENT_COUNT_TOO_LARGE);
    check_study(readings, 40, FER_STUDY_TOO_SMALL);  /* one person */
    check_study(readings, 119, FER_STUDY_TOO_SMALL); /* one read only once */
    for (int i = 0; i < 9; i++) {
        many[i].part = i / 4 % 2;
        many[i].person = i / 2 % 2;
        many[i].diameter.mm = 20.0 + i;
    }
    check_study(many, 4, FER_STUDY_TOO_SMALL); /* one part */
    check_study(many, 9, FER_STUDY_NOT_BALANCED);
    many[0].part = 1; /* two cells of one and three */
    check_study(many, 8, FER_STUDY_NOT_BALANCED);
    many[1].part = 1; /* a cell without a reading */
    check_study(many, 8, FER_STUDY_NOT_BALANCED);
    readings[7].part = 1000;
    check_study(readings, 120, FER_STUDY_NUMBER_OUT_OF_RANGE);
    readings[7].part = -1;
    check_study(readings, 120, FER_STUDY_NUMBER_OUT_OF_RANGE);
    readings[7].part = 3;
    readings[7].person = 64;
    check_study(readings, 120, FER_STUDY_NUMBER_OUT_OF_RANGE);
    readings[7].person = -1;
    check_study(readings, 120, FER_STUDY_NUMBER_OUT_OF_RANGE);
    readings[7].person = 0;
    readings[7].diameter.mm = 0.0;
    check_study(readings, 120, FER_STUDY_READING_MISSING);
    readings[7].diameter.mm = -1.0;
    check_study(readings, 120, FER_STUDY_READING_OUT_OF_RANGE);
    fill_panel(readings);
    CHECK_STATUS(fer_study_gauge(readings, 120, mm(-1.0), share(0.9), usual, &study),
                 FER_STUDY_TOLERANCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_study_gauge(readings, 120, mm(1.0), share(0.5), usual, &study),
                 FER_CONFIDENCE_OUT_OF_RANGE);
    settings.pool_above.fraction = 1.1;
    CHECK_STATUS(fer_study_gauge(readings, 120, mm(1.0), share(0.9), settings, &study),
                 FER_STUDY_SETTINGS_OUT_OF_RANGE);
    settings.pool_above.fraction = -0.1;
    CHECK_STATUS(fer_study_gauge(readings, 120, mm(1.0), share(0.9), settings, &study),
                 FER_STUDY_SETTINGS_OUT_OF_RANGE);
    settings = usual;
    settings.calibration.mm = -0.1;
    CHECK_STATUS(fer_study_gauge(readings, 120, mm(1.0), share(0.9), settings, &study),
                 FER_STUDY_SETTINGS_OUT_OF_RANGE);
    settings = usual;
    settings.resolution.mm = 10.1;
    CHECK_STATUS(fer_study_gauge(readings, 120, mm(1.0), share(0.9), settings, &study),
                 FER_STUDY_SETTINGS_OUT_OF_RANGE);
    settings.resolution.mm = -0.1;
    CHECK_STATUS(fer_study_gauge(readings, 120, mm(1.0), share(0.9), settings, &study),
                 FER_STUDY_SETTINGS_OUT_OF_RANGE);
    for (int i = 0; i < 404; i++) { /* 101 parts, and 101 readings of each */
        many[i].part = i / 4;
        many[i].person = i / 2 % 2;
        many[i].diameter.mm = 20.0 + i % 2;
    }
    CHECK_STATUS(fer_study_gauge_by_ranges(many, 404, mm(0.0), &ranges), FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_OK(fer_study_gauge_by_ranges(many, 400, mm(0.0), &ranges));
    for (int i = 0; i < 404; i++) {
        many[i].part = i % 2;
    }
    CHECK_STATUS(fer_study_gauge_by_ranges(many, 404, mm(0.0), &ranges), FER_ARGUMENT_COUNT_TOO_LARGE);
}

static void words_of_the_findings(void **state)
{
    (void)state;
    assert_string_equal(fer_study_finding_name(FER_STUDY_FINDING_PEOPLE_DIFFER), "PEOPLE_DIFFER");
    assert_string_equal(fer_study_finding_name((fer_study_finding)9), "UNKNOWN");
    assert_string_equal(fer_study_finding_sentence(FER_STUDY_FINDING_GAUGE_WIDE),
                        "the gauge takes more than 10 % of the tolerance");
    assert_string_equal(fer_study_finding_sentence((fer_study_finding)9), "");
    assert_int_equal(fer_study_finding_severity(FER_STUDY_FINDING_GAUGE_TOO_WIDE), FER_SEVERITY_CONFIRM);
    assert_int_equal(fer_study_finding_severity(FER_STUDY_FINDING_PEOPLE_DIFFER), FER_SEVERITY_DO_FIRST);
    assert_int_equal(fer_study_finding_severity(FER_STUDY_FINDING_PEOPLE_TOO_FEW), FER_SEVERITY_KNOW);
}

/* ---- gauge blocks ---------------------------------------------------------------------------------------- */

/* Linearity example of the measurement-systems manual (from memory): 0.7367 - 0.1317 x; more digits: SciPy. */
static const double linearity[60] = {
    2.7, 2.5, 2.4, 2.5, 2.7, 2.3, 2.5, 2.5, 2.4, 2.4, 2.6, 2.4, 5.1, 3.9, 4.2, 5.0, 3.8, 3.9, 3.9, 3.9,
    3.9, 4.0, 4.1, 3.8, 5.8, 5.7, 5.9, 5.9, 6.0, 6.1, 6.0, 6.1, 6.4, 6.3, 6.0, 6.1, 7.6, 7.7, 7.8, 7.7,
    7.8, 7.8, 7.8, 7.7, 7.8, 7.5, 7.6, 7.7, 9.1, 9.3, 9.5, 9.3, 9.4, 9.5, 9.5, 9.5, 9.6, 9.2, 9.3, 9.4};

static void fill_blocks(fer_block_reading readings[60])
{
    for (int i = 0; i < 60; i++) {
        readings[i].block.mm = 2.0 + 2.0 * (i / 12);
        readings[i].reading.mm = linearity[i];
    }
}

static const fer_block exactly = {{0.0}, {0.0}, {0.0}, {0.0}};

static void linearity_of_a_gauge(void **state)
{
    (void)state;
    fer_block_reading readings[60];
    fer_gauge_check check;
    fer_block blocks = exactly;
    fill_blocks(readings);
    CHECK_OK(fer_calibrate_gauge(readings, 60, share(0.95), blocks, &check));
    CHECK_NEAR(check.slope.fraction, -0.131667, 5e-7);
    CHECK_NEAR(check.intercept.mm, 0.736667, 5e-7);
    CHECK_NEAR(check.scatter.mm, 0.23954, 5e-6);
    CHECK_NEAR(check.explained.fraction, 0.7143, 5e-5);
    CHECK_NEAR(check.intercept.mm / check.intercept_uncertainty.mm, 10.158, 5e-4);
    CHECK_NEAR(check.slope.fraction / check.slope_uncertainty.fraction, -12.043, 5e-4);
    assert_int_equal(check.corrected_by_line, 1);
    assert_true(check.slope_p.fraction < 1e-16);
    CHECK_NEAR(check.bias.mm, 0.736667 - 6.0 * 0.131667, 5e-6);
    CHECK_NEAR(check.gauge.correction.mm, 0.053333, 5e-6);
    CHECK_NEAR(check.gauge.standard_uncertainty.mm, 0.23954 / sqrt(60.0), 1e-6);
    /* at 9 mm, with everything: by hand; squares of the blocks about their mean 480 */
    blocks.used_at.mm = 9.0;
    blocks.standard_uncertainty.mm = 0.01;
    blocks.resolution.mm = 0.5;
    blocks.expansion.fraction = 0.005;
    CHECK_OK(fer_calibrate_gauge(readings, 60, share(0.95), blocks, &check));
    CHECK_NEAR(check.gauge.correction.mm, -(0.736667 - 9.0 * 0.131667), 5e-6);
    const double s2 = 0.23954 * 0.23954;
    CHECK_NEAR(check.gauge.standard_uncertainty.mm,
               sqrt(s2 * (1.0 / 60.0 + 9.0 / 480.0) + 1e-4 + 0.25 / 12.0 - s2 / 60.0 + 0.045 * 0.045 / 3.0),
               1e-6);
    CHECK_NEAR(check.gauge.resolution.mm, 0.5, 0.0);
}

/* By hand: deviations 1, 2 and 3 hundredths. */
static void bias_on_one_block(void **state)
{
    (void)state;
    fer_block_reading readings[3] = {{{20.0}, {20.01}}, {{20.0}, {20.02}}, {{20.0}, {20.03}}};
    fer_gauge_check check;
    fer_block blocks = exactly;
    CHECK_OK(fer_calibrate_gauge(readings, 3, share(0.95), exactly, &check));
    CHECK_NEAR(check.bias.mm, 0.02, 1e-13);
    CHECK_NEAR(check.scatter.mm, 0.01, 1e-13);
    CHECK_NEAR(check.bias_uncertainty.mm, 0.01 / sqrt(3.0), 1e-13);
    /* Student's t of 2 sqrt 3 with 2 degrees: 1 - t/sqrt(2 + t^2) */
    CHECK_NEAR(check.bias_p.fraction, 1.0 - sqrt(12.0 / 14.0), 1e-12);
    CHECK_NAN(check.slope.fraction);
    CHECK_NAN(check.slope_p.fraction);
    CHECK_NAN(check.intercept.mm);
    CHECK_NAN(check.explained.fraction);
    assert_int_equal(check.corrected_by_line, 0);
    CHECK_NEAR(check.gauge.correction.mm, -0.02, 1e-13);
    CHECK_NEAR(check.gauge.standard_uncertainty.mm, 0.01 / sqrt(3.0), 1e-13);
    blocks.resolution.mm = 0.002; /* less than the scatter shows */
    blocks.used_at.mm = 40.0;
    CHECK_OK(fer_calibrate_gauge(readings, 3, share(0.95), blocks, &check));
    CHECK_NEAR(check.gauge.standard_uncertainty.mm, 0.01 / sqrt(3.0), 1e-13);
    /* readings that do not differ: the bias is certain, or there is none */
    readings[1].reading.mm = readings[2].reading.mm = 20.01;
    CHECK_OK(fer_calibrate_gauge(readings, 3, share(0.95), exactly, &check));
    CHECK_NEAR(check.bias_p.fraction, 0.0, 0.0);
    readings[0].reading.mm = readings[1].reading.mm = readings[2].reading.mm = 20.0;
    CHECK_OK(fer_calibrate_gauge(readings, 3, share(0.95), exactly, &check));
    CHECK_NEAR(check.bias_p.fraction, 1.0, 0.0);
    readings[1].block.mm = readings[1].reading.mm = 30.0; /* on two blocks: no slope, nothing to explain */
    CHECK_OK(fer_calibrate_gauge(readings, 3, share(0.95), exactly, &check));
    CHECK_NEAR(check.slope.fraction, 0.0, 0.0);
    CHECK_NEAR(check.slope_p.fraction, 1.0, 0.0);
    CHECK_NAN(check.explained.fraction);
    assert_int_equal(check.corrected_by_line, 0);
}

static void check_bad_blocks(const fer_block_reading *readings, size_t count, double confidence,
                             fer_block blocks, fer_status status)
{
    fer_gauge_check check;
    CHECK_STATUS(fer_calibrate_gauge(readings, count, share(confidence), blocks, &check), status);
    CHECK_NAN(check.bias.mm);
    CHECK_NAN(check.explained.fraction);
    CHECK_NAN(check.gauge.correction.mm);
}

static void bad_blocks(void **state)
{
    (void)state;
    fer_block_reading readings[60];
    fer_block blocks = exactly;
    fill_blocks(readings);
    CHECK_STATUS(fer_calibrate_gauge(readings, 60, share(0.95), exactly, NULL), FER_ARGUMENT_MISSING);
    check_bad_blocks(NULL, 60, 0.95, exactly, FER_ARGUMENT_MISSING);
    check_bad_blocks(readings, 0, 0.95, exactly, FER_ARGUMENT_COUNT_ZERO);
    check_bad_blocks(readings, 2001, 0.95, exactly, FER_ARGUMENT_COUNT_TOO_LARGE);
    check_bad_blocks(readings, 2, 0.95, exactly, FER_STUDY_TOO_SMALL);
    check_bad_blocks(readings, 60, 0.5, exactly, FER_CONFIDENCE_OUT_OF_RANGE);
    blocks.standard_uncertainty.mm = -1.0;
    check_bad_blocks(readings, 60, 0.95, blocks, FER_BLOCK_OUT_OF_RANGE);
    blocks = exactly;
    blocks.used_at.mm = NAN;
    check_bad_blocks(readings, 60, 0.95, blocks, FER_BLOCK_OUT_OF_RANGE);
    blocks = exactly;
    blocks.resolution.mm = -1.0;
    check_bad_blocks(readings, 60, 0.95, blocks, FER_BLOCK_OUT_OF_RANGE);
    blocks.resolution.mm = 10.1;
    check_bad_blocks(readings, 60, 0.95, blocks, FER_BLOCK_OUT_OF_RANGE);
    blocks = exactly;
    blocks.expansion.fraction = 0.011;
    check_bad_blocks(readings, 60, 0.95, blocks, FER_BLOCK_OUT_OF_RANGE);
    blocks.expansion.fraction = -0.1;
    check_bad_blocks(readings, 60, 0.95, blocks, FER_BLOCK_OUT_OF_RANGE);
    readings[3].reading.mm = 0.0;
    check_bad_blocks(readings, 60, 0.95, exactly, FER_STUDY_READING_MISSING);
    readings[3].reading.mm = -2.0;
    check_bad_blocks(readings, 60, 0.95, exactly, FER_BLOCK_OUT_OF_RANGE);
    readings[3].reading.mm = 2.0;
    readings[3].block.mm = NAN;
    check_bad_blocks(readings, 60, 0.95, exactly, FER_BLOCK_OUT_OF_RANGE);
    for (int i = 0; i < 60; i++) {
        readings[i].block.mm = 20.0;
        readings[i].reading.mm = 121.0;
    }
    check_bad_blocks(readings, 60, 0.95, exactly, FER_GAUGE_CORRECTION_OUT_OF_RANGE);
}

/* ---- a gauge and a tolerance ----------------------------------------------------------------------------- */

/* By hand. ISO 22514-7 (from memory): Q of 15 % and 30 % are indices of 1.33. */
static void a_gauge_for_a_tolerance(void **state)
{
    (void)state;
    fer_measuring measuring = {{0.003}, 0.0, {0.004}, {0.0}};
    fer_measuring_rate rate;
    CHECK_OK(fer_rate_measuring(mm(0.2), mm(0.0), measuring, &rate));
    CHECK_NEAR(rate.system.fraction, 0.06, 1e-15);
    CHECK_NEAR(rate.process.fraction, 0.1, 1e-15);
    CHECK_NEAR(rate.system_index, 0.06 / 0.018, 1e-13);
    CHECK_NEAR(rate.process_index, 0.06 / 0.015, 1e-13);
    CHECK_NEAR(rate.smallest_tolerance.mm, 0.012 / 0.15, 1e-15);
    CHECK_OK(fer_rate_measuring(rate.smallest_tolerance, mm(0.0), measuring, &rate));
    CHECK_NEAR(rate.system.fraction, 0.15, 1e-14);
    CHECK_NEAR(rate.system_index, 4.0 / 3.0, 1e-13);
    measuring.repeatability.mm = 0.0;
    CHECK_OK(fer_rate_measuring(mm(0.2), mm(-0.003), measuring, &rate));
    CHECK_NEAR(rate.system.fraction, 4.0 * 0.003 / sqrt(3.0) / 0.2, 1e-15);
    CHECK_OK(fer_rate_measuring(mm(0.2), mm(0.0), measuring, &rate));
    CHECK_NEAR(rate.smallest_tolerance.mm, 0.016 / 0.3, 1e-15);
    CHECK_NAN(rate.system_index);
    measuring.common.mm = 0.0;
    CHECK_OK(fer_rate_measuring(mm(0.2), mm(0.0), measuring, &rate));
    CHECK_NAN(rate.process_index);
    CHECK_NEAR(rate.process.fraction, 0.0, 0.0);
    CHECK_STATUS(fer_rate_measuring(mm(0.2), mm(0.0), measuring, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_rate_measuring(mm(0.0), mm(0.0), measuring, &rate), FER_STUDY_TOLERANCE_MISSING);
    CHECK_NAN(rate.system.fraction);
    CHECK_STATUS(fer_rate_measuring(mm(9e-7), mm(0.0), measuring, &rate), FER_STUDY_TOLERANCE_OUT_OF_RANGE);
    CHECK_NAN(rate.system.fraction);
    CHECK_STATUS(fer_rate_measuring(mm(1000001.0), mm(0.0), measuring, &rate),
                 FER_STUDY_TOLERANCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_rate_measuring(mm(NAN), mm(0.0), measuring, &rate), FER_STUDY_TOLERANCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_rate_measuring(mm(0.2), mm(2e6), measuring, &rate), FER_STUDY_SETTINGS_OUT_OF_RANGE);
    measuring.common.mm = -1.0;
    CHECK_STATUS(fer_rate_measuring(mm(0.2), mm(0.0), measuring, &rate), FER_MEASURING_COMMON_OUT_OF_RANGE);
}

/* The risk at the factor found is the one asked, a little smaller a guard has more. */
static void the_smallest_guard(void **state)
{
    (void)state;
    const fer_process process = {{23.5}, {0.06}};
    const fer_length_range limits = {{23.4}, {23.6}};
    fer_guard guard = {0.0, 0, FER_SIDE_BOTH, 0.0};
    fer_guard_choice choice;
    fer_risks risks;
    CHECK_OK(fer_choose_guard(&process, mm(0.015), limits, share(0.001), &choice));
    CHECK_NEAR(choice.risks.consumer.fraction, 0.001, 1e-10);
    assert_true(choice.guard.factor > 0.5 && choice.guard.factor < 3.0 && !choice.guard.without);
    guard.factor = choice.guard.factor - 1e-3;
    CHECK_OK(fer_find_risks(&process, mm(0.015), limits, guard, &risks));
    assert_true(risks.consumer.fraction > 0.001 && risks.producer.fraction < choice.risks.producer.fraction);
    CHECK_OK(fer_choose_guard(&process, mm(0.015), limits, share(0.05), &choice));
    assert_int_equal(choice.guard.without, 1); /* the limits themselves will do */
    CHECK_NEAR(choice.guard.factor, 0.0, 0.0);
    CHECK_STATUS(fer_choose_guard(&process, mm(0.001), limits, share(1e-300), &choice),
                 FER_GUARD_OUT_OF_RANGE);
    CHECK_NAN(choice.guard.factor);
    CHECK_NAN(choice.risks.consumer.fraction);
    CHECK_STATUS(fer_choose_guard(&process, mm(0.015), limits, share(0.0), &choice),
                 FER_STUDY_SETTINGS_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_guard(&process, mm(0.015), limits, share(0.51), &choice),
                 FER_STUDY_SETTINGS_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_guard(NULL, mm(0.015), limits, share(0.05), &choice), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_guard(&process, mm(0.015), limits, share(0.05), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_guard(&process, mm(-1.0), limits, share(0.05), &choice),
                 FER_UNCERTAINTY_OUT_OF_RANGE);
}

/* ---- opinions -------------------------------------------------------------------------------------------- */

static size_t add_opinions(fer_opinion *opinions, size_t count, int pieces, int first, int second)
{
    for (int i = 0; i < pieces; i++) {
        const int piece = (int)(count / 2);
        const fer_opinion one = {piece, 3, first, 0}, other = {piece, 5, second, 0};
        opinions[count++] = one;
        opinions[count++] = other;
    }
    return count;
}

/* Tables of two people: r-cran-vcd's Kappa, with its asymptotic standard error. */
static void kappa_of_two_people(void **state)
{
    (void)state;
    static const int tables[3][4] = {{20, 5, 10, 15}, {45, 15, 25, 15}, {25, 35, 5, 35}};
    static const double known[3][2] = {
        {0.4, 0.126996063}, {0.130434783, 0.098661538}, {0.259259259, 0.077159732}};
    fer_opinion opinions[200];
    fer_agreement agreement;
    for (int k = 0; k < 3; k++) {
        size_t count = add_opinions(opinions, 0, tables[k][0], 1, 1);
        count = add_opinions(opinions, count, tables[k][1], 1, 2);
        count = add_opinions(opinions, count, tables[k][2], 2, 1);
        count = add_opinions(opinions, count, tables[k][3], 2, 2);
        CHECK_OK(fer_find_agreement(opinions, count, share(0.975), &agreement));
        CHECK_NEAR(agreement.kappa, known[k][0], 1e-9);
        CHECK_NEAR(agreement.kappa_error, known[k][1], 1e-9);
        CHECK_NEAR(agreement.kappa_lower, known[k][0] - 1.959963985 * known[k][1], 1e-8);
        CHECK_NEAR(agreement.kappa_upper, known[k][0] + 1.959963985 * known[k][1], 1e-8);
        assert_int_equal(agreement.kappa_status, FER_OK);
        assert_int_equal(agreement.people, 2);
        assert_int_equal(agreement.pieces, count / 2);
        CHECK_NEAR(agreement.between.fraction, 2.0 * (tables[k][0] + tables[k][3]) / (double)count, 1e-15);
        CHECK_NAN(agreement.within.fraction);
        CHECK_NAN(agreement.kappa_truth);
        CHECK_NAN(agreement.bad_passed.fraction);
        CHECK_NEAR(agreement.bad_passed_upper.fraction, 1.0, 0.0);
    }
    /* one of them says it of a piece again: Fleiss' formula, by hand, pieces with 3 of 3, 1 of 2 and 0 of 2 good */
    fer_opinion again[7] = {{0, 3, 1, 0}, {0, 5, 1, 0}, {1, 3, 1, 0}, {1, 5, 2, 0},
                            {2, 3, 2, 0}, {2, 5, 2, 0}, {0, 3, 1, 0}};
    CHECK_OK(fer_find_agreement(again, 7, share(0.975), &agreement));
    const double by_chance = (16.0 + 9.0) / 49.0;
    CHECK_NEAR(agreement.kappa, (2.0 / 3.0 - by_chance) / (1.0 - by_chance), 1e-14);
    CHECK_NEAR(agreement.within.fraction, 1.0, 0.0);
    /* all agree: kappa is 1 and has no error */
    size_t count = add_opinions(opinions, 0, 10, 1, 1);
    count = add_opinions(opinions, count, 10, 2, 2);
    CHECK_OK(fer_find_agreement(opinions, count, share(0.975), &agreement));
    CHECK_NEAR(agreement.kappa, 1.0, 1e-15);
    CHECK_NEAR(agreement.kappa_error, 0.0, 1e-7);
    /* all say the same: nothing beyond chance */
    CHECK_OK(fer_find_agreement(opinions, 20, share(0.975), &agreement));
    assert_int_equal(agreement.kappa_status, FER_AGREEMENT_UNDEFINED);
    CHECK_NAN(agreement.kappa);
    CHECK_NAN(agreement.kappa_upper);
    CHECK_NEAR(agreement.between.fraction, 1.0, 0.0);
}

/* Exact limits of 2 of 25 and 0 of 25: R's binom.test. */
static void opinions_against_the_truth(void **state)
{
    (void)state;
    fer_opinion opinions[52];
    fer_agreement agreement;
    for (int i = 0; i < 50; i++) {
        const int truth = i < 25 ? 2 : 1, said = i < 2 ? 1 : truth;
        const fer_opinion opinion = {i, 0, said, truth};
        opinions[i] = opinion;
    }
    opinions[50] = opinions[0]; /* the same again: there are two on this piece */
    opinions[50].said = 2;
    opinions[51] = opinions[0];
    opinions[51].piece = 60;
    opinions[51].truth = 0; /* counts for nothing here */
    CHECK_STATUS(fer_find_agreement(opinions, 50, share(0.975), &agreement), FER_OPINION_TOO_FEW);
    CHECK_OK(fer_find_agreement(opinions, 52, share(0.975), &agreement));
    CHECK_NEAR(agreement.bad_passed.fraction, 2.0 / 26.0, 1e-15);
    CHECK_NEAR(agreement.good_refused.fraction, 0.0, 0.0);
    CHECK_NEAR(agreement.good_refused_upper.fraction, 0.137185172, 5e-10);
    CHECK_NEAR(agreement.within.fraction, 0.0, 0.0);
    /* 25 good as good, 24 bad as bad, 2 bad as good: kappa by its definition */
    const double observed = 49.0 / 51.0, chance = (27.0 * 25.0 + 24.0 * 26.0) / (51.0 * 51.0);
    CHECK_NEAR(agreement.kappa_truth, (observed - chance) / (1.0 - chance), 1e-14);
    opinions[50].piece = 61; /* 2 of 25 */
    opinions[50].said = 1;
    opinions[50].truth = 1;
    opinions[51] = opinions[50];
    CHECK_OK(fer_find_agreement(opinions, 52, share(0.975), &agreement));
    CHECK_NEAR(agreement.bad_passed.fraction, 0.08, 1e-15);
    CHECK_NEAR(agreement.bad_passed_upper.fraction, 0.260305842, 5e-10);
    CHECK_NEAR(agreement.within.fraction, 1.0, 0.0);
    /* one piece alone has two opinions: kappa's error is not to be had by leaving it out */
    assert_int_equal(agreement.kappa_status, FER_AGREEMENT_UNDEFINED);
}

/* Fleiss 1971's formula by hand: three people, pieces with 3, 3, 2, 0 and 1 of them saying good. */
static void kappa_of_three_people(void **state)
{
    (void)state;
    static const int good[5] = {3, 3, 2, 0, 1};
    fer_opinion opinions[15];
    fer_agreement agreement;
    for (int i = 0; i < 15; i++) {
        const fer_opinion opinion = {i / 3, i % 3, i % 3 < good[i / 3] ? 1 : 2, 0};
        opinions[i] = opinion;
    }
    CHECK_OK(fer_find_agreement(opinions, 15, share(0.9), &agreement));
    const double agreeing = (1.0 + 1.0 + 1.0 / 3.0 + 1.0 + 1.0 / 3.0) / 5.0, yes = 9.0 / 15.0;
    const double chance = yes * yes + (1.0 - yes) * (1.0 - yes);
    CHECK_NEAR(agreement.kappa, (agreeing - chance) / (1.0 - chance), 1e-14);
    CHECK_NEAR(agreement.between.fraction, 0.6, 1e-15);
    /* leaving out one piece at a time, by hand */
    double kappas[5], mean = 0.0, squares = 0.0;
    for (int k = 0; k < 5; k++) {
        double same = 0.0, all = 0.0;
        for (int i = 0; i < 5; i++) {
            same += i == k ? 0.0 : (good[i] % 3 == 0 ? 1.0 : 1.0 / 3.0) / 4.0;
            all += i == k ? 0.0 : good[i] / 12.0;
        }
        const double by_chance = all * all + (1.0 - all) * (1.0 - all);
        kappas[k] = (same - by_chance) / (1.0 - by_chance);
        mean += kappas[k] / 5.0;
    }
    for (int k = 0; k < 5; k++) {
        squares += (kappas[k] - mean) * (kappas[k] - mean);
    }
    CHECK_NEAR(agreement.kappa_error, sqrt(0.8 * squares), 1e-13);
    CHECK_NEAR(agreement.kappa_lower, fmax(-1.0, agreement.kappa - 1.2815515655446 * agreement.kappa_error),
               1e-12);
    CHECK_NEAR(agreement.kappa_upper, fmin(1.0, agreement.kappa + 1.2815515655446 * agreement.kappa_error),
               1e-12);
    /* two pieces, of which one alone is left: no error */
    CHECK_OK(fer_find_agreement(opinions + 6, 6, share(0.9), &agreement));
    assert_int_equal(agreement.kappa_status, FER_OK);
    CHECK_NAN(agreement.kappa_error);
    CHECK_NAN(agreement.kappa_lower);
    assert_true(agreement.kappa < 1.0);
}

static void bad_opinions(void **state)
{
    (void)state;
    static const fer_opinion sound[3] = {{0, 0, 1, 1}, {0, 1, 2, 1}, {1, 0, 2, 2}};
    static const fer_opinion wrong[9] = {{-1, 0, 1, 1}, {1000001, 0, 1, 1}, {0, -1, 1, 1},
                                         {0, 64, 1, 1}, {0, 0, 0, 1},       {0, 0, 3, 1},
                                         {0, 0, 1, -1}, {0, 0, 1, 3},       {0, 2, 1, 2}};
    fer_opinion opinions[3];
    fer_agreement agreement;
    CHECK_STATUS(fer_find_agreement(sound, 3, share(0.9), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_agreement(NULL, 3, share(0.9), &agreement), FER_ARGUMENT_MISSING);
    CHECK_NAN(agreement.bad_passed.fraction);
    CHECK_NAN(agreement.kappa_upper);
    CHECK_NAN(agreement.kappa_truth);
    assert_int_equal(agreement.kappa_status, FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_agreement(sound, 0, share(0.9), &agreement), FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(fer_find_agreement(sound, 2001, share(0.9), &agreement), FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(fer_find_agreement(sound, 3, share(0.5), &agreement), FER_CONFIDENCE_OUT_OF_RANGE);
    CHECK_OK(fer_find_agreement(sound, 3, share(0.9), &agreement));
    for (int i = 0; i < 9; i++) {
        memcpy(opinions, sound, sizeof sound);
        opinions[2] = wrong[i];
        CHECK_STATUS(fer_find_agreement(opinions, 3, share(0.9), &agreement), FER_OPINION_OUT_OF_RANGE);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_study_of_twenty_parts_pooled),
        cmocka_unit_test(the_study_of_twenty_parts_not_pooled),
        cmocka_unit_test(people_who_differ),
        cmocka_unit_test(readings_that_do_not_differ),
        cmocka_unit_test(the_study_by_ranges),
        cmocka_unit_test(bad_studies),
        cmocka_unit_test(words_of_the_findings),
        cmocka_unit_test(linearity_of_a_gauge),
        cmocka_unit_test(bias_on_one_block),
        cmocka_unit_test(bad_blocks),
        cmocka_unit_test(a_gauge_for_a_tolerance),
        cmocka_unit_test(the_smallest_guard),
        cmocka_unit_test(kappa_of_two_people),
        cmocka_unit_test(opinions_against_the_truth),
        cmocka_unit_test(kappa_of_three_people),
        cmocka_unit_test(bad_opinions),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
