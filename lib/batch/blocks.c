/* SPDX-License-Identifier: MIT */
/* Gauge blocks, and how good a gauge is for a tolerance.
 * Method: straight line in double-double; Student's distribution; halving for the guard band.
 * Formulas: include/ferrule/gauge.h; JCGM 100:2008, 4.3 and H.3. */
#include <ferrule/gauge.h>

#include "base/numeric/line.h"
#include "base/numeric/root.h"
#include "base/numeric/special.h"
#include "base/value_private.h"
#include "base/acceptance_private.h"
#include "batch/sample_private.h"
#include "judge/conformity_private.h"

/* ---- gauge blocks ---------------------------------------------------------------------------------------- */

static fer_status check_blocks(const fer_block_reading *readings, size_t count, const fer_block *blocks)
{
    FER_REQUIRE(readings, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_REQUIRE(count <= FER_STUDY_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    FER_REQUIRE(fer_is_deviation(blocks->standard_uncertainty.mm) && fer_is_deviation(blocks->used_at.mm),
                FER_BLOCK_OUT_OF_RANGE);
    FER_REQUIRE(blocks->resolution.mm >= 0.0 && blocks->resolution.mm <= 10.0, FER_BLOCK_OUT_OF_RANGE);
    FER_REQUIRE(blocks->expansion.fraction >= 0.0 && blocks->expansion.fraction <= 0.01,
                FER_BLOCK_OUT_OF_RANGE);
    for (size_t i = 0; i < count; i++) {
        FER_TRY(fer_check_length(readings[i].block, FER_STUDY_READING_MISSING, FER_BLOCK_OUT_OF_RANGE));
        FER_TRY(fer_check_length(readings[i].reading, FER_STUDY_READING_MISSING, FER_BLOCK_OUT_OF_RANGE));
    }
    FER_REQUIRE(count >= 3, FER_STUDY_TOO_SMALL);
    return FER_OK;
}

/* What the readings say as they are: deviations about their mean and about a line. */
typedef struct {
    double n, mean, squares, scatter;              /* of the deviations: about the mean */
    double x_mean, x_squares, slope, line_scatter; /* of the blocks; NaN where all are alike */
} deviations;

static double deviation_of(const fer_block_reading *reading)
{
    return reading->reading.mm - reading->block.mm;
}

static void fit_line(const fer_block_reading *readings, size_t count, fer_line *line, deviations *d)
{
    fer_line_fit(line);
    for (size_t i = 0; i < count; i++) {
        fer_line_add_rest(line, readings[i].block.mm, deviation_of(&readings[i]), 1.0);
    }
    d->slope = fer_pair_value(line->slope);
    d->line_scatter = fer_line_scatter(line);
}

static void sum_deviations(const fer_block_reading *readings, size_t count, deviations *d)
{
    fer_line line = {0};
    fer_pair squares = {0};
    for (size_t i = 0; i < count; i++) {
        fer_line_add(&line, readings[i].block.mm, deviation_of(&readings[i]), 1.0);
    }
    fer_line_centre(&line);
    for (size_t i = 0; i < count; i++) {
        const double y = deviation_of(&readings[i]);
        const fer_pair away = fer_pair_subtract(fer_pair_of(y), line.y_mean);
        squares = fer_pair_add(squares, fer_pair_multiply(away, away));
        fer_line_add_squares(&line, readings[i].block.mm, y, 1.0);
    }
    d->n = (double)count;
    d->mean = fer_pair_value(line.y_mean);
    d->squares = fer_pair_value(squares);
    d->scatter = sqrt(d->squares / (d->n - 1.0));
    d->x_mean = fer_pair_value(line.x_mean);
    d->x_squares = fer_pair_value(line.x_squares);
    FER_LEAVE_OUT(d->slope);
    FER_LEAVE_OUT(d->line_scatter);
    if (d->x_squares > 1e-25 * d->x_mean * d->x_mean) { /* more than a rounding of equal blocks */
        fit_line(readings, count, &line, d);
    }
}

/* Probability of a figure as large where it is truly 0; a figure without scatter is either 0 or certain. */
static double two_sided(double figure, double error, double degrees)
{
    if (error > 0.0) {
        return 2.0 * fer_student_cdf(-fabs(figure) / error, degrees);
    }
    return figure == 0.0 ? 1.0 : 0.0;
}

static void describe_line(const deviations *d, fer_gauge_check *check)
{
    const double s = d->line_scatter;
    check->slope.fraction = d->slope;
    check->slope_uncertainty.fraction = s / sqrt(d->x_squares);
    check->intercept.mm = d->mean - d->slope * d->x_mean;
    check->intercept_uncertainty.mm = s * sqrt(1.0 / d->n + d->x_mean * d->x_mean / d->x_squares);
    check->slope_p.fraction = two_sided(d->slope, check->slope_uncertainty.fraction, d->n - 2.0);
    check->explained.fraction = d->squares > 0.0 ? fmax(0.0, 1.0 - s * s * (d->n - 2.0) / d->squares) : NAN;
}

/* Correction and its uncertainty at the length where the gauge is used. */
static void describe_gauge(const deviations *d, const fer_block *blocks, fer_gauge_check *check)
{
    const double x = blocks->used_at.mm == 0.0 ? d->x_mean : blocks->used_at.mm, away = x - d->x_mean;
    const double warm = x * blocks->expansion.fraction, step = blocks->resolution.mm, s = check->scatter.mm;
    const double along = check->corrected_by_line ? away * away / d->x_squares : 0.0;
    const double variance = s * s * (1.0 / d->n + along) + fmax(0.0, step * step / 12.0 - s * s / d->n) +
                            blocks->standard_uncertainty.mm * blocks->standard_uncertainty.mm +
                            warm * warm / 3.0;
    check->gauge.correction.mm = -(d->mean + (check->corrected_by_line ? d->slope * away : 0.0));
    check->gauge.standard_uncertainty.mm = sqrt(variance);
    check->gauge.resolution = blocks->resolution;
}

static fer_status calibrate(const fer_block_reading *readings, size_t count, fer_ratio confidence,
                            const fer_block *blocks, fer_gauge_check *check)
{
    deviations d;
    FER_TRY(check_blocks(readings, count, blocks));
    FER_TRY(fer_take_confidence(&confidence));
    sum_deviations(readings, count, &d);
    check->bias.mm = d.mean;
    check->bias_uncertainty.mm = d.scatter / sqrt(d.n);
    check->bias_p.fraction = two_sided(d.mean, check->bias_uncertainty.mm, d.n - 1.0);
    if (fer_is_finite(d.slope)) {
        describe_line(&d, check);
    }
    check->corrected_by_line = check->slope_p.fraction < 1.0 - confidence.fraction;
    check->scatter.mm = check->corrected_by_line ? d.line_scatter : d.scatter;
    describe_gauge(&d, blocks, check);
    FER_REQUIRE(fabs(check->gauge.correction.mm) <= 100.0, FER_GAUGE_CORRECTION_OUT_OF_RANGE);
    return FER_OK;
}

static void leave_out_check(fer_gauge_check *check)
{
    FER_EMPTY(*check);
    FER_LEAVE_OUT_FROM(fer_gauge_check, *check, bias, explained);
    FER_LEAVE_OUT(check->gauge);
}

fer_status fer_calibrate_gauge(const fer_block_reading *readings, size_t count, fer_ratio confidence,
                               fer_block blocks, fer_gauge_check *check)
{
    FER_REQUIRE(check, FER_ARGUMENT_MISSING);
    leave_out_check(check);
    const fer_status status = calibrate(readings, count, confidence, &blocks, check);
    if (status != FER_OK) {
        leave_out_check(check);
    }
    return status;
}

/* ---- a gauge and a tolerance ----------------------------------------------------------------------------- */

static fer_status rate(fer_length tolerance, fer_length bias, const fer_measuring *measuring,
                       fer_measuring_rate *rate)
{
    FER_REQUIRE(tolerance.mm != 0.0, FER_STUDY_TOLERANCE_MISSING);
    FER_REQUIRE(fer_is_study_tolerance(tolerance.mm), FER_STUDY_TOLERANCE_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_place(bias.mm), FER_STUDY_SETTINGS_OUT_OF_RANGE);
    FER_TRY(fer_check_measuring(measuring));
    const double gauge = sqrt(fer_gauge_variance(measuring) + bias.mm * bias.mm / 3.0);
    const double all = hypot(gauge, measuring->common.mm), width = tolerance.mm;
    rate->system.fraction = 4.0 * gauge / width;
    rate->process.fraction = 4.0 * all / width;
    rate->system_index = gauge > 0.0 ? 0.3 * width / (6.0 * gauge) : NAN;
    rate->process_index = all > 0.0 ? 0.3 * width / (3.0 * all) : NAN;
    rate->smallest_tolerance.mm = fmax(4.0 * gauge / 0.15, 4.0 * all / 0.3);
    return FER_OK;
}

fer_status fer_rate_measuring(fer_length tolerance, fer_length bias, fer_measuring measuring,
                              fer_measuring_rate *result)
{
    FER_REQUIRE(result, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*result);
    return rate(tolerance, bias, &measuring, result);
}

typedef struct {
    const fer_process *process;
    fer_judging judging;
    double consumer;
} guard_point;

static void judge_with(const guard_point *point, double factor, fer_risks *risks)
{
    fer_judging judging = point->judging;
    fer_set_guard(&judging, factor, factor == 0.0, 0.0);
    fer_risks_of(point->process, &judging, risks);
}

/* The slope is not known, so the root is found by halving. */
static double risk_kept(double factor, const void *context, double *slope)
{
    const guard_point *point = (const guard_point *)context;
    fer_risks risks;
    judge_with(point, factor, &risks);
    *slope = 0.0;
    return point->consumer - risks.consumer.fraction;
}

static fer_status choose_guard(const fer_process *process, fer_length standard_uncertainty,
                               fer_length_range limits, fer_ratio consumer, fer_guard_choice *choice)
{
    const fer_guard none = {0.0, 1, FER_SIDE_BOTH, 0.0};
    guard_point point;
    double slope = 0.0, factor = 0.0;
    FER_EMPTY(point);
    FER_TRY(fer_take_risks(process, standard_uncertainty, limits, none, &point.judging));
    point.process = process;
    point.consumer = consumer.fraction;
    FER_REQUIRE(consumer.fraction > 0.0 && consumer.fraction <= 0.5, FER_STUDY_SETTINGS_OUT_OF_RANGE);
    if (risk_kept(0.0, &point, &slope) < 0.0) {
        FER_REQUIRE(risk_kept(10.0, &point, &slope) >= 0.0, FER_GUARD_OUT_OF_RANGE);
        factor = fer_rising_root(risk_kept, &point, 0.0, 10.0, 1.0, 1e-13);
    }
    judge_with(&point, factor, &choice->risks);
    choice->guard.factor = factor;
    choice->guard.without = factor == 0.0;
    return FER_OK;
}

fer_status fer_choose_guard(const fer_process *process, fer_length standard_uncertainty,
                            fer_length_range limits, fer_ratio consumer, fer_guard_choice *choice)
{
    FER_REQUIRE(choice, FER_ARGUMENT_MISSING);
    FER_EMPTY(*choice);
    FER_LEAVE_OUT(choice->risks);
    const fer_status status = choose_guard(process, standard_uncertainty, limits, consumer, choice);
    if (status != FER_OK) {
        FER_LEAVE_OUT(choice->guard.factor);
    }
    return status;
}
