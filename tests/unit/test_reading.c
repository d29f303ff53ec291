/* SPDX-License-Identifier: MIT */
#include "check.h"

#define PI 3.14159265358979323846

static const fer_gauge plain_gauge = {0};
static const fer_marks no_marks = {0};

enum { maximum = 1001 };

static size_t fill(fer_reading *readings, const double *diameters, size_t count)
{
    memset(readings, 0, count * sizeof *readings);
    for (size_t i = 0; i < count; i++) {
        readings[i].diameter = fer_mm(diameters[i]);
    }
    return count;
}

static fer_reading_summary summary_of(const double *diameters, size_t count)
{
    static fer_reading readings[maximum];
    fer_reading_summary summary;
    fill(readings, diameters, count);
    CHECK_OK(fer_summarise_readings(readings, count, &plain_gauge, no_marks, &summary));
    return summary;
}

/* NIST StRD, Univariate, Michelso: mean 299.852400000000, standard deviation 0.0790105478190518. Measurements from
 * memory; they reproduce both figures. In hundredths of 1000 km/s above 299. */
static void nist_michelson(void **state)
{
    (void)state;
    static const int hundredths[100] = {
        85, 74, 90, 107, 93, 85, 95, 98, 98, 88, 100, 98, 93, 65, 76, 81, 100, 100, 96, 96,
        96, 94, 96, 94,  88, 80, 85, 88, 90, 84, 83,  79, 81, 88, 88, 83, 80,  79,  76, 80,
        88, 88, 88, 86,  72, 72, 62, 86, 97, 95, 88,  91, 85, 87, 84, 84, 85,  84,  84, 84,
        89, 81, 81, 82,  80, 77, 76, 74, 75, 76, 91,  92, 89, 86, 88, 72, 84,  85,  85, 78,
        89, 84, 78, 81,  76, 81, 79, 81, 82, 85, 87,  87, 81, 74, 81, 94, 95,  80,  81, 87};
    double data[100];
    for (int i = 0; i < 100; i++) {
        data[i] = (29900 + hundredths[i]) / 100.0;
    }
    const fer_reading_summary summary = summary_of(data, 100);
    CHECK_NEAR(
        summary.mean.mm,
        PUBLISHED(299.852400000000,
                  "NIST StRD; univariate summary statistics of Michelso: mean; data and value from memory"),
        3e-13);
    CHECK_NEAR(summary.scatter.value.mm,
               PUBLISHED(0.0790105478190518, "NIST StRD; univariate summary statistics of Michelso: standard "
                                             "deviation; data and value from memory"),
               1e-12);
}

/* NIST StRD, Univariate, Lottery: mean 518.958715596330, standard deviation 291.699727470969. */
static void nist_lottery(void **state)
{
    (void)state;
    static const double data[218] = {
        162, 671, 933, 414, 788, 730, 817, 33,  536, 875, 670, 236, 473, 167, 877, 980, 316, 950, 456, 92,
        517, 557, 956, 954, 104, 178, 794, 278, 147, 773, 437, 435, 502, 610, 582, 780, 689, 562, 964, 791,
        28,  97,  848, 281, 858, 538, 660, 972, 671, 613, 867, 448, 738, 966, 139, 636, 847, 659, 754, 243,
        122, 455, 195, 968, 793, 59,  730, 361, 574, 522, 97,  762, 431, 158, 429, 414, 22,  629, 788, 999,
        187, 215, 810, 782, 47,  34,  108, 986, 25,  644, 829, 630, 315, 567, 919, 331, 207, 412, 242, 607,
        668, 944, 749, 168, 864, 442, 533, 805, 372, 63,  458, 777, 416, 340, 436, 140, 919, 350, 510, 572,
        905, 900, 85,  389, 473, 758, 444, 169, 625, 692, 140, 897, 672, 288, 312, 860, 724, 226, 884, 508,
        976, 741, 476, 417, 831, 15,  318, 432, 241, 114, 799, 955, 833, 358, 935, 146, 630, 830, 440, 642,
        356, 373, 271, 715, 367, 393, 190, 669, 8,   861, 108, 795, 269, 590, 326, 866, 64,  523, 862, 840,
        219, 382, 998, 4,   628, 305, 747, 247, 34,  747, 729, 645, 856, 974, 24,  568, 24,  694, 608, 480,
        410, 729, 947, 293, 53,  930, 223, 203, 677, 227, 62,  455, 387, 318, 562, 242, 428, 968};
    const fer_reading_summary summary = summary_of(data, 218);
    CHECK_NEAR(
        summary.mean.mm,
        PUBLISHED(518.958715596330,
                  "NIST StRD; univariate summary statistics of Lottery: mean; data and value from memory"),
        1e-12);
    CHECK_NEAR(summary.scatter.value.mm,
               PUBLISHED(291.699727470969, "NIST StRD; univariate summary statistics of Lottery: standard "
                                           "deviation; data and value from memory"),
               1e-12);
}

/* NIST StRD, Univariate, NumAcc2: 1.2, then 500 pairs of 1.1 and 1.3: mean 1.2, standard deviation 0.1. */
static void nist_numacc2(void **state)
{
    (void)state;
    double data[1001] = {1.2};
    for (int i = 1; i < 1001; i++) {
        data[i] = i % 2 ? 1.1 : 1.3;
    }
    const fer_reading_summary summary = summary_of(data, 1001);
    CHECK_NEAR(summary.mean.mm,
               PUBLISHED(1.2, "NIST StRD; univariate summary statistics of NumAcc2: mean; from memory"),
               3e-16);
    CHECK_NEAR(
        summary.scatter.value.mm,
        PUBLISHED(0.1,
                  "NIST StRD; univariate summary statistics of NumAcc2: standard deviation; from memory"),
        1e-15);
}

/* As NIST StRD, NumAcc4, with a smaller mean: digits beyond those of the doubles are not lost. */
static void a_small_scatter_on_a_large_mean(void **state)
{
    (void)state;
    double data[1001] = {524288.5};
    for (int i = 1; i < 1001; i++) {
        data[i] = 524288.5 + (i % 2 ? -0x1p-30 : 0x1p-30);
    }
    const fer_reading_summary summary = summary_of(data, 1001);
    CHECK_NEAR(summary.mean.mm, 524288.5, 0.0);
    CHECK_NEAR(summary.scatter.value.mm, 0x1p-30, 1e-24);
}

static const double round_of_eight[] = {23.50, 23.52, 23.49, 23.51, 23.50, 23.53, 23.48, 23.51};

/* Worked by hand: sum of deviations in hundredths 0 2 -1 1 0 3 -2 1 from 23.50. */
static void the_summary_of_one_section(void **state)
{
    (void)state;
    fer_reading readings[8];
    fer_reading_summary summary;
    const fer_gauge gauge = {{0.01}, {-0.02}, {0.01}};
    fill(readings, round_of_eight, 8);
    CHECK_OK(fer_summarise_readings(readings, 8, &gauge, no_marks, &summary));
    const double squares = (20.0 - 8.0 * 0.25) * 1e-4; /* 20 minus n times the square of the mean 0.5 */
    CHECK_NEAR(summary.mean.mm, 23.505 - 0.02, 1e-14);
    CHECK_NEAR(summary.minimum.mm, 23.46, 1e-14);
    CHECK_NEAR(summary.maximum.mm, 23.51, 1e-14);
    CHECK_NEAR(summary.range.mm, 0.05, 1e-14);
    CHECK_NEAR(summary.scatter.value.mm, sqrt(squares / 7.0), 1e-13);
    const double from_scatter = squares / 7.0 / 8.0, all = 1e-4 + from_scatter;
    CHECK_NEAR(summary.standard_uncertainty.mm, sqrt(all), 1e-13);
    CHECK_NEAR(summary.degrees_of_freedom, 7.0 * all * all / (from_scatter * from_scatter), 1e-7);
    assert_int_equal(summary.count, 8);
    assert_int_equal(summary.sections, 1);
    CHECK_NEAR(summary.ovality.value.mm, 0.05, 1e-14);
    assert_int_equal(summary.taper.status, FER_READING_SECTIONS_TOO_FEW);
    CHECK_NAN(summary.taper.value.mm);
    assert_false(summary.outlier_found);
}

static void sections_give_ovality_and_taper(void **state)
{
    (void)state;
    const fer_reading readings[] = {
        {{23.60}, 7, {0}, 0}, {{23.50}, 2, {0}, 0}, {{0}, 2, {0}, 0},     {{23.56}, 2, {0}, 0},
        {{23.40}, 4, {0}, 0}, {{23.66}, 7, {0}, 0}, {{23.48}, 4, {0}, 0}, {{23.53}, 2, {0}, 0},
    };
    fer_reading_summary summary;
    fer_section_summary sections[3];
    size_t found;
    CHECK_OK(fer_summarise_readings(readings, 8, &plain_gauge, no_marks, &summary));
    assert_int_equal(summary.count, 7);
    assert_int_equal(summary.missing, 1);
    assert_int_equal(summary.sections, 3);
    CHECK_NEAR(summary.ovality.value.mm, 0.08, 1e-14);
    assert_int_equal(summary.ovality_section, 4);
    CHECK_NEAR(summary.taper.value.mm, 0.10, 1e-14); /* 23.63 minus 23.53: section 7 minus section 2 */
    CHECK_NEAR(summary.section_range.value.mm, 0.19, 1e-14);
    CHECK_OK(fer_summarise_sections(readings, 8, &plain_gauge, no_marks, sections, 3, &found));
    assert_int_equal(found, 3);
    assert_int_equal(sections[0].section, 2);
    assert_int_equal(sections[0].count, 3);
    CHECK_NEAR(sections[0].mean.mm, 23.53, 1e-14);
    CHECK_NEAR(sections[0].ovality.value.mm, 0.06, 1e-14);
    assert_int_equal(sections[2].section, 7);
    CHECK_NEAR(sections[2].minimum.mm, 23.60, 0.0);
    CHECK_NEAR(sections[2].maximum.mm, 23.66, 0.0);
    CHECK_STATUS(fer_summarise_sections(readings, 8, &plain_gauge, no_marks, sections, 2, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
}

/* Two sections have a taper, wherever they are. */
static void two_sections_have_a_taper(void **state)
{
    (void)state;
    const fer_reading readings[] = {{{23.50}, 2, {0}, 0}, {{23.56}, 7, {0}, 0}};
    fer_reading_summary summary;
    CHECK_OK(fer_summarise_readings(readings, 2, &plain_gauge, no_marks, &summary));
    assert_int_equal(summary.sections, 2);
    CHECK_OK(summary.taper.status);
    CHECK_NEAR(summary.taper.value.mm, 0.06, 1e-13);
    CHECK_NEAR(summary.section_range.value.mm, 0.06, 1e-13);
}

/* A reading was taken or is missing, wherever the missing ones stand in the list. */
static void missing_readings_are_counted_wherever_they_are(void **state)
{
    (void)state;
    for (unsigned there = 1; there < 16; there++) {
        double diameters[4];
        size_t count = 0;
        for (unsigned i = 0; i < 4; i++) {
            diameters[i] = there >> i & 1u ? 23.5 : 0.0;
            count += there >> i & 1u;
        }
        const fer_reading_summary summary = summary_of(diameters, 4);
        assert_int_equal(summary.count, count);
        assert_int_equal(summary.missing, 4 - count);
        assert_int_equal(summary.over_gaps, 0);
    }
}

static void the_order_does_not_matter(void **state)
{
    (void)state;
    fer_reading readings[8], reversed[8];
    fer_reading_summary a, b;
    fill(readings, round_of_eight, 8);
    for (int i = 0; i < 8; i++) {
        readings[i].section = i % 3;
        reversed[7 - i] = readings[i];
        reversed[7 - i].section = i % 3;
    }
    CHECK_OK(fer_summarise_readings(readings, 8, &plain_gauge, no_marks, &a));
    CHECK_OK(fer_summarise_readings(reversed, 8, &plain_gauge, no_marks, &b));
    CHECK_NEAR(a.mean.mm, b.mean.mm, 0.0);
    CHECK_NEAR(a.scatter.value.mm, b.scatter.value.mm, 0.0);
    CHECK_NEAR(a.taper.value.mm, b.taper.value.mm, 0.0);
    CHECK_NEAR(a.ovality.value.mm, b.ovality.value.mm, 0.0);
}

static void one_reading_has_no_scatter(void **state)
{
    (void)state;
    const fer_reading reading = {{23.5}, 0, {0}, 0};
    const fer_gauge gauge = {{0.01}, {0}, {0.012}};
    fer_reading_summary summary;
    CHECK_OK(fer_summarise_readings(&reading, 1, &gauge, no_marks, &summary));
    assert_int_equal(summary.scatter.status, FER_READING_TOO_FEW);
    CHECK_NAN(summary.scatter.value.mm);
    assert_int_equal(summary.ovality.status, FER_READING_TOO_FEW);
    assert_int_equal(summary.ovality_section, -1);
    CHECK_NEAR(summary.standard_uncertainty.mm, sqrt(1e-4 + 0.012 * 0.012 / 12.0), 1e-16);
    assert_true(summary.degrees_of_freedom == 0.0);
    CHECK_STATUS(fer_summarise_readings(&reading, 0, &gauge, no_marks, &summary), FER_ARGUMENT_COUNT_ZERO);
    assert_int_equal(summary.ovality_section, -1);
}

/* Equal readings: the gauge's step keeps the uncertainty up. */
static void equal_readings_do_not_average_the_step_out(void **state)
{
    (void)state;
    const double equal[] = {23.5, 23.5, 23.5, 23.5};
    fer_reading readings[4];
    const fer_gauge gauge = {{0}, {0}, {0.1}};
    fer_reading_summary summary;
    fill(readings, equal, 4);
    CHECK_OK(fer_summarise_readings(readings, 4, &gauge, no_marks, &summary));
    CHECK_NEAR(summary.standard_uncertainty.mm, 0.1 / sqrt(12.0), 1e-16);
    CHECK_NEAR(summary.scatter.value.mm, 0.0, 0.0);
    assert_false(summary.outlier_found);
}

static void readings_over_gaps_are_left_out(void **state)
{
    (void)state;
    fer_reading readings[4] = {
        {{23.5}, 0, {0}, 1}, {{23.6}, 0, {0}, 1}, {{23.7}, 0, {0}, 0}, {{23.8}, 0, {0}, 1}};
    fer_marks marks = {{0.1}, 1, {0}, 8};
    fer_reading_summary summary;
    readings[0].angle.rad = 0.1 + 3.0 * PI / 4.0;    /* over the gap three segments on */
    readings[1].angle.rad = 0.1 + PI / 8.0;          /* over a middle */
    readings[3].angle.rad = 0.1 - PI / 32.0 + 0.001; /* just inside an eighth of the 45 degrees */
    CHECK_OK(fer_summarise_readings(readings, 4, &plain_gauge, marks, &summary));
    assert_int_equal(summary.over_gaps, 2);
    CHECK_NEAR(summary.mean.mm, 23.65, 1e-14); /* the one without an angle counts */
    readings[3].angle.rad -= 0.002;
    CHECK_OK(fer_summarise_readings(readings, 4, &plain_gauge, marks, &summary));
    assert_int_equal(summary.over_gaps, 1);
    marks.gap_half_width = fer_deg(0.1);
    readings[0].angle.rad += PI; /* the other jaw is the same reading */
    CHECK_OK(fer_summarise_readings(readings, 4, &plain_gauge, marks, &summary));
    assert_int_equal(summary.over_gaps, 1);
    marks.segments = 7; /* odd: a gap faces the middle of a segment, either jaw over a gap counts */
    readings[0].angle.rad = 0.1;
    CHECK_STATUS(fer_summarise_readings(readings, 1, &plain_gauge, marks, &summary), FER_READING_NONE_LEFT);
    readings[0].angle.rad = 0.1 + PI / 7.0;
    CHECK_OK(fer_summarise_readings(readings, 1, &plain_gauge, no_marks, &summary));
    CHECK_STATUS(fer_summarise_readings(readings, 1, &plain_gauge, marks, &summary), FER_READING_NONE_LEFT);
    CHECK_NAN(summary.mean.mm);
    assert_int_equal(summary.scatter.status, FER_READING_NONE_LEFT);
}

/* NIST/SEMATECH e-Handbook 1.3.5.17.3, data of Rosner (1983), shifted by 10 to be diameters: three outliers, the last
 * three of the list. Step 1 alone (Grubbs' test) does not find them: 3.118906 against 3.158794. */
static void rosners_outliers_are_named(void **state)
{
    (void)state;
    static const double rosner[54] = {-0.25, 0.68, 0.94, 1.15, 1.20, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49,
                                      1.49,  1.55, 1.56, 1.58, 1.65, 1.69, 1.70, 1.76, 1.77, 1.81, 1.91,
                                      1.94,  1.96, 1.99, 2.06, 2.09, 2.10, 2.14, 2.15, 2.23, 2.24, 2.26,
                                      2.35,  2.37, 2.40, 2.47, 2.54, 2.62, 2.64, 2.90, 2.92, 2.92, 2.93,
                                      3.21,  3.26, 3.30, 3.59, 3.68, 4.30, 4.64, 5.34, 5.42, 6.01};
    double shifted[54];
    fer_reading readings[54];
    size_t indices[10], found;
    fer_reading_summary summary;
    for (int i = 0; i < 54; i++) {
        shifted[i] = rosner[i] + 10.0;
    }
    fill(readings, shifted, 54);
    CHECK_OK(fer_find_outliers(readings, 54, &plain_gauge, no_marks, indices, 10, &found));
    assert_int_equal(found,
                     PUBLISHED(3, "NIST/SEMATECH e-Handbook of Statistical Methods; 1.3.5.17.3: outliers in "
                                  "the data of Rosner (1983); data and value from memory"));
    assert_int_equal(indices[0], 53);
    assert_int_equal(indices[1], 52);
    assert_int_equal(indices[2], 51);
    CHECK_STATUS(fer_find_outliers(readings, 54, &plain_gauge, no_marks, indices, 9, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
    CHECK_OK(fer_summarise_readings(readings, 54, &plain_gauge, no_marks, &summary));
    assert_false(summary.outlier_found);
    assert_int_equal(summary.outlier_index, 53);
}

/* Critical values of Grubbs' test, two-sided 5 %, from printed tables (Grubbs and Beck, Technometrics 14 (1972) 847,
 * from memory: 1.715 for 5, 2.290 for 10): data whose farthest deviate lies just on either side of 2.290. */
static void grubbs_critical_value_for_ten(void **state)
{
    (void)state;
    for (int above = 0; above < 2; above++) {
        double data[10];
        fer_reading_summary summary;
        double standard_deviation = 1.0,
               deviate = PUBLISHED(2.290, "Grubbs and Beck (1972), Technometrics 14, 847; critical value of "
                                          "ten for 5 % two-sided; from memory") +
                         (above ? 0.001 : -0.001);
        for (int i = 0; i < 9; i++) {
            data[i] = i % 3 - 1.0;
        }
        /* nine numbers -1, 0, 1 and one at h: deviate (0.9 h)/sqrt((6 + 0.9 h^2)/9); solve for h */
        const double square = deviate * deviate / 9.0;
        const double h = sqrt(6.0 * square / (0.81 - 0.9 * square));
        data[9] = h;
        for (int i = 0; i < 10; i++) {
            data[i] = 50.0 + standard_deviation * data[i];
        }
        summary = summary_of(data, 10);
        assert_int_equal(summary.outlier_index, 9);
        assert_int_equal(summary.outlier_found, above);
    }
}

static void a_single_step_of_the_gauge_is_no_outlier(void **state)
{
    (void)state;
    const double data[] = {23.5, 23.5, 23.5, 23.5, 23.5, 23.6, 23.5, 23.5};
    fer_reading readings[8];
    fer_gauge gauge = {{0}, {0}, {0.11}};
    fer_reading_summary summary;
    size_t index, found;
    fill(readings, data, 8);
    CHECK_OK(fer_summarise_readings(readings, 8, &gauge, no_marks, &summary));
    assert_false(summary.outlier_found);
    CHECK_OK(fer_find_outliers(readings, 8, &gauge, no_marks, &index, 1, &found));
    assert_int_equal(found, 0);
    gauge.resolution = fer_mm(0.01);
    CHECK_OK(fer_summarise_readings(readings, 8, &gauge, no_marks, &summary));
    assert_true(summary.outlier_found);
    assert_int_equal(summary.outlier_index, 5);
    CHECK_OK(fer_find_outliers(readings, 8, &gauge, no_marks, &index, 1, &found));
    assert_int_equal(found, 1);
    assert_int_equal(index, 5);
    CHECK_STATUS(fer_find_outliers(readings, 2, &gauge, no_marks, &index, 1, &found),
                 FER_READING_TOO_FEW_FOR_OUTLIERS);
    CHECK_STATUS(fer_find_outliers(readings, 1001, &gauge, no_marks, &index, 1, &found),
                 FER_ARGUMENT_COUNT_TOO_LARGE);
}

/* Readings of a shape with known harmonics, at given angles. */
static void shape_readings(fer_reading *readings, size_t count, int harmonic, double peak, double step)
{
    for (size_t i = 0; i < count; i++) {
        const double angle = 0.2 + step * (double)i;
        const int section = (int)(i % 2);
        readings[i].section = section;
        readings[i].angle.rad = angle;
        readings[i].angle_known = 1;
        readings[i].diameter.mm = 23.5 + (section ? 0.03 : -0.03) + 0.02 * cos(2.0 * (angle - 0.7)) +
                                  0.05 * cos(harmonic * (angle - peak));
    }
}

static void the_fit_finds_the_harmonics(void **state)
{
    (void)state;
    fer_reading readings[20];
    fer_lobe_fit fit;
    const fer_marks eight = {{0}, 0, {0}, 8}, seven = {{0}, 0, {0}, 7};
    shape_readings(readings, 20, 8, 0.11, 0.37);
    CHECK_OK(fer_fit_lobes(readings, 20, &plain_gauge, eight, &fit));
    CHECK_NEAR(fit.mean.mm, 23.5, 1e-13);
    CHECK_NEAR(fit.ovality.mm, 0.04, 1e-13);
    CHECK_NEAR(fit.ovality_angle.rad, 0.7, 1e-12);
    CHECK_NEAR(fit.lobe.mm, 0.10, 1e-13);
    CHECK_NEAR(fit.over_lobes.mm, 23.55, 1e-13);
    CHECK_NEAR(fit.lobes_angle.rad, 0.11, 1e-12);
    CHECK_NEAR(fit.scatter.value.mm, 0.0, 1e-13);
    assert_int_equal(fit.harmonic, 8);
    assert_int_equal(fit.degrees_of_freedom, 14); /* two sections, two harmonics of two */
    shape_readings(readings, 20, 14, 0.11, 0.37); /* an odd number shows twice its harmonic */
    CHECK_OK(fer_fit_lobes(readings, 20, &plain_gauge, seven, &fit));
    assert_int_equal(fit.harmonic, 14);
    CHECK_NEAR(fit.lobe.mm, 0.10, 1e-13);
}

/* Angles over an eighth of a radian hardly tell ovality from mean: the digits that the header promises are there. */
static void hardly_distinguished(void **state)
{
    (void)state;
    fer_reading readings[20];
    fer_lobe_fit fit;
    const fer_marks eight = {{0}, 0, {0}, 8};
    shape_readings(readings, 20, 8, 0.11, 0.007);
    CHECK_OK(fer_fit_lobes(readings, 20, &plain_gauge, eight, &fit));
    CHECK_NEAR(fit.mean.mm, 23.5, 1e-9);
    CHECK_NEAR(fit.ovality.mm, 0.04, 1e-9);
    CHECK_NEAR(fit.lobe.mm, 0.10, 1e-9);
}

/* What flat jaws read comes from module lobe: the fit's harmonic against the series of a cosine with kinks. */
static void the_fit_of_what_jaws_read(void **state)
{
    (void)state;
    for (int segments = 7; segments <= 8; segments++) {
        fer_reading readings[64] = {0};
        fer_lobe_fit fit;
        const fer_marks marks = {{PI / segments}, 1, {1e-9}, segments}; /* middle of a segment at angle 0 */
        for (int i = 0; i < 64; i++) {
            readings[i].angle.rad = 0.001 + 2.0 * PI / 64.0 * 1.0123 * i;
            readings[i].angle_known = 1;
            CHECK_OK(fer_jaws_reading(fer_mm(46.0), fer_mm(39.0), segments, readings[i].angle,
                                      &readings[i].diameter));
        }
        CHECK_OK(fer_fit_lobes(readings, 64, &plain_gauge, marks, &fit));
        fer_shape shape;
        CHECK_OK(fer_crimp_shape(fer_mm(46.0), fer_mm(39.0), segments, &shape));
        const double range = shape.jaws_maximum.mm - shape.jaws_minimum.mm;
        CHECK_NEAR(fit.lobe.mm / range, 8.0 / (PI * PI), 0.03);
        const double high = (2.0 / (PI * PI) - 1.0 / 6.0) * 2.0 * range;
        CHECK_NEAR(fit.over_lobes.mm - shape.jaws_maximum.mm, high, 0.02);
        CHECK_NEAR(fit.ovality.mm, 0.0, 0.01);
    }
}

static void a_known_gap_fixes_the_phase(void **state)
{
    (void)state;
    fer_reading readings[20];
    fer_lobe_fit fit;
    fer_marks marks = {{0.11 + PI / 8.0}, 1, {1e-6}, 8};
    shape_readings(readings, 20, 8, 0.11, 0.37);
    CHECK_OK(fer_fit_lobes(readings, 20, &plain_gauge, marks, &fit));
    CHECK_NEAR(fit.lobe.mm, 0.10, 1e-13);
    CHECK_NEAR(fit.lobes_angle.rad, 0.11, 1e-12);
    assert_int_equal(fit.degrees_of_freedom, 15);
    marks.gap.rad = 0.11; /* gap where the diameter is greatest: bulges */
    CHECK_OK(fer_fit_lobes(readings, 20, &plain_gauge, marks, &fit));
    CHECK_NEAR(fit.lobe.mm, -0.10, 1e-13);
    CHECK_NEAR(fit.over_lobes.mm, 23.45, 1e-13);
    shape_readings(readings, 20, 8, 0.11, 0.29);
    marks.gap.rad = 0.11 + PI / 16.0; /* in between: the lobes are scatter */
    CHECK_OK(fer_fit_lobes(readings, 20, &plain_gauge, marks, &fit));
    CHECK_NEAR(fit.lobe.mm, 0.0, 0.02);
    assert_true(fit.scatter.value.mm > 0.03);
    assert_true(fit.mean_uncertainty.mm > 0.006);
}

static void angles_that_cannot_tell_have_their_status(void **state)
{
    (void)state;
    fer_reading readings[20];
    fer_lobe_fit fit;
    shape_readings(readings, 20, 8, 0.11, PI / 4.0); /* always the same place of a lobe */
    CHECK_STATUS(fer_fit_lobes(readings, 20, &plain_gauge, no_marks, &fit), FER_READING_ANGLES_TOO_FEW);
    CHECK_NAN(fit.mean.mm);
    CHECK_NAN(fit.lobe.mm);
    assert_int_equal(fit.scatter.status, FER_READING_ANGLES_TOO_FEW);
    shape_readings(readings, 20, 8, 0.11, 0.37);
    CHECK_STATUS(fer_fit_lobes(readings, 5, &plain_gauge, no_marks, &fit), FER_READING_ANGLES_TOO_FEW);
    CHECK_OK(fer_fit_lobes(readings, 6, &plain_gauge, no_marks, &fit));
    assert_int_equal(fit.scatter.status, FER_READING_TOO_FEW); /* six unknowns: nothing is left for scatter */
    fill(readings, round_of_eight, 8);
    CHECK_STATUS(fer_fit_lobes(readings, 8, &plain_gauge, no_marks, &fit), FER_READING_ANGLES_TOO_FEW);
}

#define CHECK_BAD(change, expected)                                                                          \
    do {                                                                                                     \
        fer_reading readings[2] = {{{23.5}, 0, {0}, 0}, {{23.6}, 1, {0}, 0}};                                \
        fer_gauge gauge = {{0.01}, {0}, {0.01}};                                                             \
        fer_marks marks = {0};                                                                               \
        fer_reading_summary summary;                                                                         \
        change;                                                                                              \
        CHECK_STATUS(fer_summarise_readings(readings, 2, &gauge, marks, &summary), expected);                \
        CHECK_NAN(summary.mean.mm);                                                                          \
        CHECK_NAN(summary.standard_uncertainty.mm);                                                          \
        assert_int_equal(summary.count, 0);                                                                  \
        assert_int_equal(summary.ovality.status, expected);                                                  \
    } while (0)

static void bad_input_has_its_status(void **state)
{
    (void)state;
    CHECK_BAD(readings[1].diameter.mm = NAN, FER_READING_OUT_OF_RANGE);
    CHECK_BAD(readings[1].diameter.mm = -23.5, FER_READING_OUT_OF_RANGE);
    CHECK_BAD(readings[1].diameter.mm = INFINITY, FER_READING_OUT_OF_RANGE);
    CHECK_BAD(readings[0].diameter.mm = 2.0; gauge.correction.mm = -2.0, FER_READING_OUT_OF_RANGE);
    CHECK_BAD(readings[1].section = 16, FER_READING_SECTION_OUT_OF_RANGE);
    CHECK_BAD(readings[1].section = -1, FER_READING_SECTION_OUT_OF_RANGE);
    CHECK_BAD(readings[1].angle.rad = NAN, FER_READING_ANGLE_NOT_A_NUMBER);
    CHECK_BAD(readings[1].angle.rad = 0.1, FER_READING_ANGLE_NOT_MARKED);
    CHECK_BAD(readings[0].diameter.mm = readings[1].diameter.mm = 0.0, FER_READING_NONE_LEFT);
    CHECK_BAD(gauge.standard_uncertainty.mm = -0.01, FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE);
    CHECK_BAD(gauge.standard_uncertainty.mm = NAN, FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE);
    CHECK_BAD(gauge.correction.mm = INFINITY, FER_GAUGE_CORRECTION_OUT_OF_RANGE);
    CHECK_BAD(gauge.resolution.mm = 10.1, FER_GAUGE_RESOLUTION_OUT_OF_RANGE);
    CHECK_BAD(gauge.resolution.mm = NAN, FER_GAUGE_RESOLUTION_OUT_OF_RANGE);
    CHECK_BAD(marks.gap.rad = NAN, FER_MARKS_GAP_NOT_A_NUMBER);
    CHECK_BAD(marks.gap.rad = 0.1, FER_MARKS_GAP_NOT_MARKED);
    CHECK_BAD(marks.gap_half_width.rad = -0.1, FER_MARKS_GAP_WIDTH_OUT_OF_RANGE);
    CHECK_BAD(marks.gap_half_width.rad = 0.4, FER_MARKS_GAP_WIDTH_OUT_OF_RANGE);
    CHECK_BAD(marks.segments = 2, FER_SEGMENTS_OUT_OF_RANGE);
}

static void missing_pointers_and_empty_lists(void **state)
{
    (void)state;
    const fer_reading reading = {{23.5}, 0, {0}, 0};
    fer_reading_summary summary;
    fer_lobe_fit fit;
    fer_section_summary section;
    size_t found = 7, index;
    CHECK_STATUS(fer_summarise_readings(&reading, 1, &plain_gauge, no_marks, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_summarise_readings(NULL, 1, &plain_gauge, no_marks, &summary), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_summarise_readings(&reading, 1, NULL, no_marks, &summary), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_summarise_readings(&reading, 0, &plain_gauge, no_marks, &summary),
                 FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(fer_fit_lobes(&reading, 1, &plain_gauge, no_marks, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_fit_lobes(NULL, 1, &plain_gauge, no_marks, &fit), FER_ARGUMENT_MISSING);
    CHECK_NAN(fit.over_lobes.mm);
    CHECK_STATUS(fer_summarise_sections(&reading, 1, &plain_gauge, no_marks, &section, 1, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_summarise_sections(&reading, 1, &plain_gauge, no_marks, NULL, 1, &found),
                 FER_ARGUMENT_MISSING);
    assert_int_equal(found, 0);
    found = 7;
    CHECK_STATUS(fer_find_outliers(&reading, 1, &plain_gauge, no_marks, NULL, 1, &found),
                 FER_ARGUMENT_MISSING);
    assert_int_equal(found, 0);
    CHECK_STATUS(fer_find_outliers(&reading, 1, &plain_gauge, no_marks, &index, 1, NULL),
                 FER_ARGUMENT_MISSING);
}

static void numbers_beyond_their_range_have_their_status(void **state)
{
    (void)state;
    fer_reading bad = {{-1.0}, 0, {0}, 0};
    fer_section_summary section;
    size_t found = 7, index;
    CHECK_BAD(gauge.standard_uncertainty.mm = 1000000.1, FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE);
    CHECK_BAD(gauge.correction.mm = -100.1, FER_GAUGE_CORRECTION_OUT_OF_RANGE);
    CHECK_BAD(gauge.resolution.mm = -0.1, FER_GAUGE_RESOLUTION_OUT_OF_RANGE);
    CHECK_BAD(marks.segments = 65, FER_SEGMENTS_OUT_OF_RANGE);
    CHECK_STATUS(fer_summarise_sections(&bad, 1, &plain_gauge, no_marks, &section, 1, &found),
                 FER_READING_OUT_OF_RANGE);
    assert_int_equal(found, 0);
    CHECK_STATUS(fer_find_outliers(&bad, 1, &plain_gauge, no_marks, &index, 1, &found),
                 FER_READING_OUT_OF_RANGE);
}

/* Of eight readings one is missing and one is far off. */
static void a_missing_reading_is_no_outlier(void **state)
{
    (void)state;
    const double data[] = {23.50, 0.0, 23.52, 23.49, 29.00, 23.51, 23.50, 23.52};
    fer_reading readings[8];
    size_t index[1], found;
    fill(readings, data, 8);
    CHECK_OK(fer_find_outliers(readings, 8, &plain_gauge, no_marks, index, 1, &found));
    assert_int_equal(found, 1);
    assert_int_equal(index[0], 4);
}

/* Readings that are missing or have no angle do not change the fit. */
static void the_fit_leaves_out_what_has_no_angle(void **state)
{
    (void)state;
    fer_reading readings[22];
    fer_lobe_fit fit;
    const fer_marks eight = {{0}, 0, {0}, 8};
    shape_readings(readings, 22, 8, 0.11, 0.37);
    readings[5].diameter.mm = 0.0;
    readings[8].diameter.mm = 30.0;
    readings[8].angle.rad = 0.0;
    readings[8].angle_known = 0;
    CHECK_OK(fer_fit_lobes(readings, 22, &plain_gauge, eight, &fit));
    CHECK_NEAR(fit.mean.mm, 23.5, 1e-13);
    CHECK_NEAR(fit.lobe.mm, 0.10, 1e-13);
    CHECK_NEAR(fit.ovality.mm, 0.04, 1e-13);
    assert_int_equal(fit.degrees_of_freedom, 14); /* 20 minus two sections and two harmonics of two */
}

/* An angle a rounding below 0 is 0, not one repetition: with seven segments the lobes are a quarter of a segment from
 * a gap, and the gap is as much below 0. */
static void an_angle_just_below_zero_is_zero(void **state)
{
    (void)state;
    fer_reading readings[20];
    fer_lobe_fit fit;
    fer_marks marks = {{0}, 1, {1e-6}, 7};
    marks.gap.rad = nextafter(-2.0 * PI / 7.0 / 4.0, -1.0);
    shape_readings(readings, 20, 14, 0.0, 0.37);
    CHECK_OK(fer_fit_lobes(readings, 20, &plain_gauge, marks, &fit));
    CHECK_NEAR(fit.lobes_angle.rad, 0.0, 0.0);
    CHECK_NEAR(fit.lobe.mm, 0.10, 1e-12);
}

/* Grubbs' value for four readings is 1.481 (Grubbs and Beck, Technometrics 14 (1972) 847, from memory); the first of these has 1.5. */
static void the_first_of_four_readings_may_be_the_outlier(void **state)
{
    (void)state;
    const double data[] = {29.00, 23.50, 23.51, 23.50};
    fer_reading readings[4];
    size_t index = 9, found;
    fill(readings, data, 4);
    const fer_reading_summary summary = summary_of(data, 4);
    assert_true(summary.outlier_found);
    assert_int_equal(summary.outlier_index, 0);
    CHECK_OK(fer_find_outliers(readings, 4, &plain_gauge, no_marks, &index, 1, &found));
    assert_int_equal(found, 1);
    assert_int_equal(index, 0);
}

/* As many sections as there may be, each with a step of its own: twenty unknowns. */
static void the_fit_of_all_sections(void **state)
{
    (void)state;
    fer_reading readings[64] = {0};
    fer_lobe_fit fit;
    const fer_marks eight = {{0}, 0, {0}, 8};
    for (int i = 0; i < 64; i++) {
        const double angle = 0.2 + 0.37 * i;
        readings[i].section = i % 16;
        readings[i].angle.rad = angle;
        readings[i].angle_known = 1;
        readings[i].diameter.mm =
            23.5 + 0.01 * (i % 16 - 7.5) + 0.02 * cos(2.0 * (angle - 0.7)) + 0.05 * cos(8.0 * (angle - 0.11));
    }
    CHECK_OK(fer_fit_lobes(readings, 64, &plain_gauge, eight, &fit));
    CHECK_NEAR(fit.mean.mm, 23.5, 1e-13);
    CHECK_NEAR(fit.ovality.mm, 0.04, 1e-13);
    CHECK_NEAR(fit.lobe.mm, 0.10, 1e-13);
    assert_int_equal(fit.degrees_of_freedom, 44);
}

/* Twenty readings of 20 mm and two half a millimetre off, exact in binary: deviates of 0.5/sqrt(0.5/21) = 3.24, above the
 * 2.76 that the table of Grubbs and Beck (1972; from memory) has for 22 readings at 5 %, two-sided. */
static void of_two_equally_far_the_first_is_named(void **state)
{
    (void)state;
    double data[22];
    fer_reading readings[22];
    size_t indices[10], found;
    for (int i = 0; i < 22; i++) {
        data[i] = i == 3 ? 19.5 : i == 17 ? 20.5 : 20.0;
    }
    const fer_reading_summary summary = summary_of(data, 22);
    assert_true(summary.outlier_found);
    assert_int_equal(summary.outlier_index, 3);
    fill(readings, data, 22);
    CHECK_OK(fer_find_outliers(readings, 22, &plain_gauge, no_marks, indices, 10, &found));
    assert_int_equal(found, 2);
    assert_int_equal(indices[0], 3);
    assert_int_equal(indices[1], 17);
}

static void a_missing_reading_is_not_the_farthest(void **state)
{
    (void)state;
    const double data[] = {23.5, 23.5, 0.0, 23.5, 23.5, 23.6, 23.5, 23.5, 0.0};
    const fer_reading_summary summary = summary_of(data, 9);
    assert_int_equal(summary.missing, 2);
    assert_int_equal(summary.outlier_index, 5);
}

/* A gap is as wide as it is said: an eighth of the angle between two gaps either way unless it is given, 5.625 degrees for
 * eight segments and 6.43 for seven, and at most half of it. */
static void a_gap_is_as_wide_as_it_is_said(void **state)
{
    (void)state;
    const struct {
        int segments;
        double given, angle;
        size_t left_out;
    } cases[] = {{0, 0, 5.62, 1},   {0, 0, 5.63, 0},    {8, 0, 50.62, 1},   {8, 0, 50.63, 0},
                 {7, 0, 6.42, 1},   {7, 0, 6.44, 0},    {0, 2.0, 1.99, 1},  {0, 2.0, 2.01, 0},
                 {0, 10.0, 9.9, 1}, {0, 10.0, 10.1, 0}, {0, 22.5, 22.4, 1}, {0, 22.5, 11.0, 1}};
    const fer_gauge gauge = {0};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const fer_marks marks = {{0}, 1, fer_deg(cases[i].given), cases[i].segments};
        const fer_reading readings[] = {{{23.5}, 0, {0}, 0}, {{23.6}, 0, fer_deg(cases[i].angle), 1}};
        fer_reading_summary summary;
        CHECK_OK(fer_summarise_readings(readings, 2, &gauge, marks, &summary));
        assert_int_equal(summary.over_gaps, cases[i].left_out);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_gap_is_as_wide_as_it_is_said),
        cmocka_unit_test(nist_michelson),
        cmocka_unit_test(nist_lottery),
        cmocka_unit_test(nist_numacc2),
        cmocka_unit_test(a_small_scatter_on_a_large_mean),
        cmocka_unit_test(the_summary_of_one_section),
        cmocka_unit_test(sections_give_ovality_and_taper),
        cmocka_unit_test(two_sections_have_a_taper),
        cmocka_unit_test(missing_readings_are_counted_wherever_they_are),
        cmocka_unit_test(the_order_does_not_matter),
        cmocka_unit_test(one_reading_has_no_scatter),
        cmocka_unit_test(equal_readings_do_not_average_the_step_out),
        cmocka_unit_test(readings_over_gaps_are_left_out),
        cmocka_unit_test(rosners_outliers_are_named),
        cmocka_unit_test(grubbs_critical_value_for_ten),
        cmocka_unit_test(a_single_step_of_the_gauge_is_no_outlier),
        cmocka_unit_test(the_fit_finds_the_harmonics),
        cmocka_unit_test(hardly_distinguished),
        cmocka_unit_test(the_fit_of_what_jaws_read),
        cmocka_unit_test(a_known_gap_fixes_the_phase),
        cmocka_unit_test(angles_that_cannot_tell_have_their_status),
        cmocka_unit_test(bad_input_has_its_status),
        cmocka_unit_test(missing_pointers_and_empty_lists),
        cmocka_unit_test(numbers_beyond_their_range_have_their_status),
        cmocka_unit_test(a_missing_reading_is_no_outlier),
        cmocka_unit_test(the_fit_leaves_out_what_has_no_angle),
        cmocka_unit_test(an_angle_just_below_zero_is_zero),
        cmocka_unit_test(the_first_of_four_readings_may_be_the_outlier),
        cmocka_unit_test(the_fit_of_all_sections),
        cmocka_unit_test(of_two_equally_far_the_first_is_named),
        cmocka_unit_test(a_missing_reading_is_not_the_farthest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
