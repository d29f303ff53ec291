/* SPDX-License-Identifier: MIT */
/* lib/batch/numeric, which is private. Values, where nothing else is said: mpmath 1.2.1, 40 digits, noncentral t by
 * integration over the scale with 30. */
#include "check.h"

#include "base/numeric/special.h"
#include "batch/numeric/beta.h"
#include "batch/numeric/gamma.h"
#include "batch/numeric/mean_tail.h"
#include "batch/numeric/noncentral.h"
#include "batch/numeric/ranges.h"

#define CHECK_RELATIVE(actual, expected, tolerance) CHECK_NEAR(actual, expected, (tolerance)*fabs(expected))

static void the_smaller_tail_of_the_incomplete_gamma_function(void **state)
{
    (void)state;
    CHECK_RELATIVE(fer_gamma_below(0.5, 0.3), 0.56142197391900013648, 1e-14);
    CHECK_RELATIVE(fer_gamma_above(3.0, 10.0), 0.0027693957155115759437, 1e-14);
    CHECK_RELATIVE(fer_gamma_below(20.0, 15.0), 0.1247812150325248227, 1e-14);
    CHECK_RELATIVE(fer_gamma_above(20.0, 40.0), 0.0001763028977385682789, 1e-14);
    CHECK_RELATIVE(fer_gamma_above(1000.0, 1100.0), 0.0010593232539299773489, 1e-13);
    CHECK_RELATIVE(fer_gamma_below(1000.0, 900.0), 0.00054990226571178291, 1e-13);
    CHECK_RELATIVE(fer_gamma_above(50000.0, 50400.0), 0.037082350495348334771, 1e-13);
    CHECK_NEAR(fer_gamma_above(20.0, 15.0), 1.0 - 0.1247812150325248227, 1e-15);
    CHECK_NEAR(fer_gamma_below(20.0, 40.0), 1.0 - 0.0001763028977385682789, 1e-15);
    CHECK_NEAR(fer_chi_square_above(0.0, 3.0), 1.0, 0.0);
    CHECK_RELATIVE(fer_chi_square_above(20.0, 6.0), 0.0027693957155115759437, 1e-14);
    CHECK_RELATIVE(fer_gamma_front(0.0, 2.0), exp(-2.0), 1e-15); /* Poisson: none where 2 are expected */
    CHECK_RELATIVE(fer_gamma_front(2.0, 2.0), 2.0 * exp(-2.0), 1e-15);
}

/* The closed form and the general one are two ways to the same tail; the slope is the density times the place. */
static void a_tail_by_its_form(void **state)
{
    (void)state;
    static const double degrees[] = {1.0, 2.0, 3.0, 9.0, 10.0, 49.0, 199.0, 200.0, 201.0, 7.5};
    for (size_t i = 0; i < sizeof degrees / sizeof *degrees; i++) {
        const fer_tail_form form = fer_tail_form_of(degrees[i]);
        const double a = 0.5 * degrees[i];
        for (double x = 0.01 * a; x < 5.0 * a; x *= 1.7) {
            double fall = 0.0;
            CHECK_NEAR(fer_tail_above(&form, x, &fall), fer_gamma_above(a, x), 1e-14);
            CHECK_RELATIVE(fall, a * fer_gamma_front(a, x), 1e-12);
        }
    }
    const fer_tail_form few = fer_tail_form_of(4.0);
    double fall = 1.0;
    CHECK_RELATIVE(fer_tail_above(&few, 3.0, &fall), 4.0 * exp(-3.0), 1e-15); /* (1 + x) e^-x */
    CHECK_RELATIVE(fall, 9.0 * exp(-3.0), 1e-15);
    CHECK_NEAR(fer_tail_above(&few, 1e300, &fall), 0.0, 0.0);
    CHECK_NEAR(fall, 0.0, 0.0);
}

static void chi_square_quantiles(void **state)
{
    (void)state;
    CHECK_RELATIVE(fer_chi_square_quantile(0.975, 9.0), 19.022767798641635213, 1e-14);
    CHECK_RELATIVE(fer_chi_square_quantile(0.025, 9.0), 2.7003894999803579164, 1e-14);
    CHECK_RELATIVE(fer_chi_square_quantile(0.1, 1.0), 0.015790774093431224868, 1e-14);
    CHECK_RELATIVE(fer_chi_square_quantile(0.9, 60.0), 74.397005719368589177, 1e-14);
    CHECK_RELATIVE(fer_chi_square_quantile(1e-9, 1.0), 1.5707963267948966201e-18, 1e-13);
    CHECK_RELATIVE(fer_chi_square_quantile(0.001, 5000.0), 4696.6673817357985851, 1e-14);
    CHECK_RELATIVE(fer_chi_square_quantile(0.5, 2.0), 2.0 * log(2.0), 1e-14); /* closed for two degrees */
    CHECK_RELATIVE(fer_chi_square_quantile(0.999999, 2.0), 27.631021115928548, 1e-10);
}

static void the_noncentral_t_distribution(void **state)
{
    (void)state;
    CHECK_NEAR(fer_noncentral_cdf(2.0, 5.0, 1.0), 0.778074662616214871, 1e-13);
    CHECK_NEAR(fer_noncentral_cdf(-1.0, 7.0, 2.0), 0.00202771599164927555, 1e-14);
    CHECK_NEAR(fer_noncentral_cdf(1.5, 9.0, -2.0), 0.99948274711428618, 1e-13);
    CHECK_NEAR(fer_noncentral_cdf(42.0, 71.0, 37.7), 0.872554256238251957, 1e-13); /* R's pt gives 0.87146 */
    CHECK_NEAR(fer_noncentral_cdf(20.0, 9.0, 12.5), 0.935020405667965244, 1e-13);
    CHECK_NEAR(fer_noncentral_cdf(0.25, 3.0, 4.0), 0.000088060057842156502, 1e-15);
    CHECK_NEAR(fer_noncentral_cdf(200.0, 999.0, 189.0), 0.991922899297361076, 2e-13);
    CHECK_NEAR(fer_noncentral_cdf(1.0, 1.0, 1e-3), 0.749717825654275736, 1e-13);
    CHECK_NEAR(fer_noncentral_cdf(1e-3, 10.0, 0.5), 0.308881013638698404, 1e-13);
    CHECK_NEAR(fer_noncentral_cdf(0.0, 10.0, 0.5), fer_normal_cdf(-0.5), 1e-16);
    CHECK_NEAR(fer_noncentral_cdf(2.0, 4.0, 0.0), fer_student_cdf(2.0, 4.0), 1e-13);
    CHECK_NEAR(fer_noncentral_cdf(1e-9, 3.0, 3.0), fer_normal_cdf(-3.0), 1e-11); /* few terms count */
    CHECK_NEAR(fer_noncentral_cdf(300.0, 1e5, 300.0), 0.49972581791, 1e-11);     /* SciPy 1.10.1 */
}

/* Forward and backward agree; 24.0, 0.99 and 0.9: known to the distribution's own tests above. */
static void quantile_and_shift_of_noncentral_t(void **state)
{
    (void)state;
    static const double rows[][3] = {{9.0, 12.6, 0.9},   {1.0, 0.0, 0.95},    {1.0, 0.0, 0.05},
                                     {3.0, -1.0, 0.3},   {9.0, 0.5, 0.01},    {2.0, 5.0, 0.999},
                                     {500.0, 90.0, 0.9}, {1.0, 0.3, 0.7},     {4.0, 30.0, 0.05},
                                     {50.0, -4.0, 0.02}, {7.0, 0.0, 0.50001}, {1.0, 3.0, 0.9999}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const double v = rows[i][0], delta = rows[i][1], p = rows[i][2];
        const double t = fer_noncentral_quantile(p, v, delta);
        CHECK_NEAR(fer_noncentral_cdf(t, v, delta), p, 1e-13);
        CHECK_NEAR(fer_noncentral_shift(p, t, v), delta, 1e-9); /* the last row: 1e-13 of p */
    }
    /* ISO 16269-6, Odeh and Owen (from memory): one-sided tolerance factor 95/95, ten pieces */
    CHECK_NEAR(fer_noncentral_quantile(0.95, 9.0, sqrt(10.0) * fer_normal_quantile(0.95)) / sqrt(10.0),
               2.9110, 5e-5);
    CHECK_NEAR(fer_noncentral_quantile(0.975, 10.0, 0.0), 2.2281388519862742245, 1e-12); /* Student's */
    CHECK_NEAR(fer_noncentral_shift(0.9, 0.0, 5.0), fer_normal_quantile(0.1), 1e-14);
}

static void ranges_and_their_constants(void **state)
{
    (void)state;
    double density = 0.0, more = 0.0;
    CHECK_RELATIVE(fer_range_mean(2), 2.0 / sqrt(3.14159265358979323846), 1e-14); /* closed */
    CHECK_RELATIVE(fer_range_mean(3), 3.0 / sqrt(3.14159265358979323846), 1e-14); /* closed */
    CHECK_RELATIVE(fer_range_deviation(2), sqrt(2.0 - 4.0 / 3.14159265358979323846), 1e-11);
    /* printed tables (from memory), more digits: mpmath */
    CHECK_NEAR(fer_range_mean(12), 3.25845528, 5e-9);
    CHECK_NEAR(fer_range_deviation(12), 0.77847834, 5e-9);
    CHECK_NEAR(fer_deviation_mean(12.0), 0.97755935, 5e-9);
    CHECK_NEAR(fer_range_mean(25), 3.93062922, 5e-9);
    CHECK_NEAR(fer_range_deviation(25), 0.70844077, 5e-9);
    CHECK_NEAR(fer_deviation_mean(25.0), 0.98964038, 5e-9);
    /* Harter 1960 (from memory: 3.86 4.60 2.77 4.12), more digits: R's ptukey */
    CHECK_NEAR(fer_range_quantile(0.95, 5), 3.857656, 5e-7);
    CHECK_NEAR(fer_range_quantile(0.99, 5), 4.602821, 5e-7);
    CHECK_NEAR(fer_range_quantile(0.95, 2), 2.771808, 5e-7);
    CHECK_NEAR(fer_range_quantile(0.99, 3), 4.120303, 5e-7);
    CHECK_NEAR(fer_range_quantile(0.00135, 5), 0.396528, 5e-7);
    CHECK_NEAR(fer_range_quantile(0.99865, 5), 5.377402, 5e-7);
    CHECK_NEAR(fer_range_cdf(1.3, 2, &density), 1.0 - erfc(0.65), 1e-14); /* closed for two */
    CHECK_NEAR(density, exp(-0.4225) / sqrt(3.14159265358979323846), 1e-13);
    CHECK_NEAR(fer_range_cdf(0.0, 7, &density), 0.0, 0.0);
    CHECK_NEAR((fer_range_cdf(3.0001, 100, &more) - fer_range_cdf(2.9999, 100, &density)) / 2e-4,
               0.5 * (more + density), 1e-9);
}

static void beta_and_f_quantiles(void **state)
{
    (void)state;
    /* exact limits of 2 of 25: R's binom.test */
    CHECK_NEAR(fer_beta_quantile(0.025, 2.0, 24.0), 0.009839590, 5e-10);
    CHECK_NEAR(fer_beta_quantile(0.975, 3.0, 23.0), 0.260305842, 5e-10);
    CHECK_RELATIVE(fer_beta_quantile(0.3, 1.0, 4.0), 1.0 - pow(0.7, 0.25), 1e-14); /* closed */
    /* closed for two degrees above: 1 - (1 + 2 f/w)^(-w/2) */
    CHECK_RELATIVE(fer_f_above(3.0, 2.0, 10.0), pow(1.6, -5.0), 1e-14);
    CHECK_RELATIVE(fer_f_quantile(0.9, 2.0, 10.0), 5.0 * (pow(0.1, -0.2) - 1.0), 1e-13);
    CHECK_RELATIVE(fer_f_quantile(0.1, 2.0, 10.0), 5.0 * (pow(0.9, -0.2) - 1.0), 1e-13);
}

/* With x = 3 c - z/sqrt(n), the index c of one limit: what the noncentral t distribution gives in closed form. */
typedef struct {
    double index, found, pieces, degrees;
} one_limit;

static double index_argument(double z, const void *context, double *rate)
{
    const one_limit *limit = (const one_limit *)context;
    const double wanted = 3.0 * limit->index - z / sqrt(limit->pieces), ratio = wanted / (3.0 * limit->found);
    *rate = 6.0 / wanted;
    return wanted > 0.0 ? limit->degrees * ratio * ratio : 0.0;
}

static double confidence(const one_limit *limit, double *slope)
{
    const fer_tail_mean mean = {index_argument,
                                limit,
                                limit->degrees,
                                limit->pieces,
                                3.0 * limit->index * sqrt(limit->pieces),
                                0,
                                {INFINITY, INFINITY, INFINITY, INFINITY}};
    return fer_mean_tail(&mean, slope);
}

static void the_mean_of_a_chi_square_tail_is_noncentral_t(void **state)
{
    (void)state;
    static const double rows[][4] = {
        /* index, found, pieces, degrees; the first ones end within the normal distribution */
        {0.3, 0.6, 5.0, 4.0},    {0.8, 1.1, 10.0, 9.0},  {0.01, 0.2, 3.0, 2.0},
        {1.33, 1.5, 10.0, 9.0},  {1.33, 1.8, 4.0, 3.0},  {2.0, 2.4, 2.0, 1.0},
        {1.67, 1.8, 5.0, 400.0}, {1.0, 1.2, 20.0, 60.0}, {0.9065, 1.2, 10.0, 9.0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        one_limit limit = {rows[i][0], rows[i][1], rows[i][2], rows[i][3]};
        const double root = 3.0 * sqrt(limit.pieces);
        double slope = 0.0, other = 0.0;
        CHECK_NEAR(confidence(&limit, &slope),
                   fer_noncentral_cdf(root * limit.found, limit.degrees, root * limit.index), 2e-12);
        limit.index += 1e-5;
        const double above = confidence(&limit, &other);
        limit.index -= 2e-5;
        CHECK_NEAR((above - confidence(&limit, &other)) / 2e-5, slope, 1e-6);
    }
}

/* Nothing is left where the end lies below the whole distribution. */
static void an_end_beyond_the_normal_distribution(void **state)
{
    (void)state;
    const one_limit limit = {-10.0, 1.0, 10.0, 9.0};
    double slope = 0.0;
    CHECK_NEAR(confidence(&limit, &slope), 1.0, 1e-15);
    CHECK_NEAR(slope, 0.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_smaller_tail_of_the_incomplete_gamma_function),
        cmocka_unit_test(a_tail_by_its_form),
        cmocka_unit_test(chi_square_quantiles),
        cmocka_unit_test(the_noncentral_t_distribution),
        cmocka_unit_test(quantile_and_shift_of_noncentral_t),
        cmocka_unit_test(ranges_and_their_constants),
        cmocka_unit_test(beta_and_f_quantiles),
        cmocka_unit_test(the_mean_of_a_chi_square_tail_is_noncentral_t),
        cmocka_unit_test(an_end_beyond_the_normal_distribution),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
