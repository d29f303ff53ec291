/* SPDX-License-Identifier: MIT */
/* Whether values look normal.
 * Method: Shapiro and Wilk's W by Royston's approximations, Anderson and Darling's A²; equal readings laid out over their step.
 * Formulas: Royston, Appl. Statist. 44 (1995) 547-551; D'Agostino and Stephens, 1986, table 4.9 (both from memory). */
#include <ferrule/capability.h>

#include "base/numeric/moments.h"
#include "base/numeric/special.h"
#include "base/value_private.h"
#include "batch/sample_private.h"

static void sort(fer_length *values, size_t count)
{
    for (size_t gap = count / 2; gap > 0; gap = fer_next_gap(gap)) {
        for (size_t i = gap; i < count; i++) {
            const fer_length moving = values[i];
            size_t j = i;
            for (; j >= gap && values[j - gap].mm > moving.mm; j -= gap) {
                values[j] = values[j - gap];
            }
            values[j] = moving;
        }
    }
}

/* Readings that are equal to a millionth of the step. */
static size_t count_equal(const fer_length *values, size_t count, size_t first, double step)
{
    size_t next = first + 1;
    while (next < count && values[next].mm - values[first].mm <= 1e-6 * step) {
        next++;
    }
    return next - first;
}

static int lay_out(fer_length *values, size_t count, double step)
{
    int laid_out = 0;
    for (size_t first = 0; first < count;) {
        const size_t equal = count_equal(values, count, first, step);
        for (size_t i = 0; step > 0.0 && equal > 1 && i < equal; i++) {
            values[first + i].mm += step * (((double)i + 0.5) / (double)equal - 0.5);
            laid_out = 1;
        }
        first += equal;
    }
    sort(values, count); /* where readings stood nearer to each other than a step */
    return laid_out;
}

static double polynomial(const double *coefficients, int count, double x)
{
    double sum = coefficients[0];
    for (int i = 1; i < count; i++) {
        sum = sum * x + coefficients[i];
    }
    return sum;
}

static double expected(size_t i, size_t count)
{
    return -fer_normal_quantile(((double)i + 0.625) / ((double)count + 0.25));
}

static double spacing(const fer_length *x, size_t count, size_t i)
{
    return x[count - 1 - i].mm - x[i].mm;
}

/* Normal quantiles of the upper half, each found once: of both ends, all squared, the others times what they weigh. */
typedef struct {
    double first, second, squares, inner;
} quantiles;

static quantiles quantiles_of(const fer_length *x, size_t count)
{
    quantiles q = {expected(0, count), expected(1, count), 0.0, 0.0};
    q.squares = 2.0 * (q.first * q.first + q.second * q.second);
    for (size_t i = 2; i < count / 2; i++) {
        const double m = expected(i, count);
        q.squares += 2.0 * m * m;
        q.inner += m * spacing(x, count, i);
    }
    return q;
}

/* Weights of both ends by polynomials, the others like normal quantiles; all squared together 1. */
static double weighted_spacings(const fer_length *x, size_t count)
{
    static const double ends[6] = {-2.706056, 4.434685, -2.07119, -0.147981, 0.221157, 0.0};
    static const double next[6] = {-3.582633, 5.682633, -1.752461, -0.293762, 0.042981, 0.0};
    if (count == 3) {
        return sqrt(0.5) * spacing(x, count, 0);
    }
    const quantiles q = quantiles_of(x, count);
    const double small = 1.0 / sqrt((double)count), length = sqrt(q.squares);
    const double first = polynomial(ends, 6, small) + q.first / length, left = 1.0 - 2.0 * first * first;
    const double squares = q.squares - 2.0 * q.first * q.first, one = first * spacing(x, count, 0);
    if (count < 6) {
        return one + q.second / sqrt(squares / left) * spacing(x, count, 1);
    }
    const double second = polynomial(next, 6, small) + q.second / length;
    const double scale = sqrt((squares - 2.0 * q.second * q.second) / (left - 2.0 * second * second));
    return one + second * spacing(x, count, 1) + q.inner / scale;
}

static double shapiro(const fer_length *x, size_t count, double squares)
{
    const double sum = weighted_spacings(x, count);
    return fmin(sum * sum / squares, 1.0); /* not above it by a rounding */
}

static double shapiro_p(double w, size_t count)
{
    static const double few_mean[4] = {-6.714e-4, 0.025054, -0.39978, 0.544};
    static const double few_deviation[4] = {-0.0020322, 0.062767, -0.77857, 1.3822};
    static const double mean[4] = {0.0038915, -0.083751, -0.31082, -1.5861};
    static const double deviation[3] = {0.0030302, -0.082676, -0.4803};
    const double n = (double)count, left = log1p(-w);
    if (count == 3) { /* exact */
        return fmax(0.0, 1.9098593171027440292 * (asin(sqrt(w)) - 1.0471975511965977462));
    }
    if (count < 12) {
        const double beyond = 0.459 * n - 2.273 - left; /* above 0 for the smallest W, too */
        return fer_normal_cdf((polynomial(few_mean, 4, n) + log(beyond)) /
                              exp(polynomial(few_deviation, 4, n)));
    }
    const double size = log(n);
    return fer_normal_cdf((polynomial(mean, 4, size) - left) / exp(polynomial(deviation, 3, size)));
}

/* The smaller tail gives both logarithms of a value: how often it counts as one from below and as one from above. */
static double anderson(const fer_length *x, size_t count, double mean, double deviation)
{
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double away = (x[i].mm - mean) / deviation, tail = fer_normal_cdf(-fabs(away));
        const double small = log(tail), large = log1p(-tail);
        const double from_below = 2.0 * (double)i + 1.0, from_above = 2.0 * (double)count - from_below;
        sum += away < 0.0 ? from_below * small + from_above * large : from_below * large + from_above * small;
    }
    return -(double)count - sum / (double)count;
}

static double anderson_p(double a, size_t count)
{
    const double n = (double)count, x = a * (1.0 + 0.75 / n + 2.25 / (n * n));
    if (x < 0.2) {
        return -expm1(-13.436 + 101.14 * x - 223.73 * x * x);
    }
    if (x < 0.34) {
        return -expm1(-8.318 + 42.796 * x - 59.938 * x * x);
    }
    if (x < 0.6) {
        return exp(0.9177 - 4.279 * x - 1.38 * x * x);
    }
    return x < 10.0 ? exp(1.2937 - 5.709 * x + 0.0186 * x * x) : 3.7e-24;
}

static fer_status test_values(fer_length *sorted, size_t count, double step, fer_normality *normality)
{
    fer_sum sum = {0}, squares = {0};
    sort(sorted, count);
    FER_REQUIRE(sorted[count - 1].mm > sorted[0].mm, FER_SAMPLE_WITHOUT_SCATTER);
    normality->laid_out = lay_out(sorted, count, step);
    for (size_t i = 0; i < count; i++) {
        fer_sum_add(&sum, sorted[i].mm);
    }
    const fer_pair mean = fer_sum_mean(&sum);
    for (size_t i = 0; i < count; i++) {
        fer_square_add(&squares, sorted[i].mm, mean);
    }
    normality->shapiro = shapiro(sorted, count, fer_pair_value(squares.total));
    normality->shapiro_p.fraction = shapiro_p(normality->shapiro, count);
    normality->anderson = anderson(sorted, count, fer_pair_value(mean), fer_square_deviation(&squares));
    normality->anderson_p.value.fraction = anderson_p(normality->anderson, count);
    normality->anderson_p.status = FER_OK;
    if (count < 8) {
        FER_NOT_FOUND(normality->anderson_p, FER_SAMPLE_TOO_FEW);
    }
    return FER_OK;
}

static fer_status take_values(const fer_sample_piece *pieces, size_t count, const fer_measuring *measuring,
                              fer_length *sorted, size_t capacity)
{
    FER_REQUIRE(sorted, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_pieces(pieces, count, 3));
    FER_REQUIRE(measuring->resolution.mm >= 0.0 && measuring->resolution.mm <= 10.0,
                FER_MEASURING_RESOLUTION_OUT_OF_RANGE);
    FER_REQUIRE(capacity >= count, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    for (size_t i = 0; i < count; i++) {
        sorted[i] = pieces[i].diameter;
    }
    return FER_OK;
}

static void leave_out_normality(fer_status why, fer_normality *normality)
{
    FER_EMPTY(*normality);
    FER_LEAVE_OUT_FROM(fer_normality, *normality, shapiro, anderson);
    FER_NOT_FOUND(normality->anderson_p, why);
}

fer_status fer_test_normality(const fer_sample_piece *pieces, size_t count, fer_measuring measuring,
                              fer_normality *normality, fer_length *sorted, size_t capacity, size_t *found)
{
    if (found) {
        *found = 0;
    }
    if (normality) {
        leave_out_normality(FER_ARGUMENT_MISSING, normality);
    }
    FER_REQUIRE(normality && found, FER_ARGUMENT_MISSING);
    fer_status status = take_values(pieces, count, &measuring, sorted, capacity);
    FER_EMPTY(*normality);
    if (status == FER_OK) {
        status = test_values(sorted, count, measuring.resolution.mm, normality);
    }
    if (status == FER_OK) {
        *found = count;
    } else {
        leave_out_normality(status, normality);
    }
    return status;
}
