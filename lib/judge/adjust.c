/* SPDX-License-Identifier: MIT */
/* How far to correct the dial, calibration line and drift of a press.
 * Method: a Bayesian estimate of the setting's error; weighted least squares (base/numeric/line.c).
 * Formulas: include/ferrule/adjust.h; docs/adjust.md. */
#include <ferrule/adjust.h>

#include "base/value_private.h"
#include "base/acceptance_private.h"
#include "base/numeric/line.h"
#include "base/numeric/moments.h"
#include "base/numeric/pair.h"
#include "base/numeric/special.h"
#include "base/numeric/zone.h"
#include "judge/adjust_private.h"
#include "judge/reading_private.h"

static const double asked_usual = 0.95;
static const int trials_maximum = 1000000;

/* What is known before the trials, defaults filled in. */
typedef struct {
    double standard_deviation, ratio, gain,
        asked;    /* ratio: sigma^2/tau^2, 0 where nothing is known of the setting */
    double floor; /* of a standard deviation that the trials show */
} known;

/* What a gauge leaves of any scatter, 0 where nothing is known of it. Rounding alone makes crimps that scatter look
 * equal. */
static double gauge_floor(const fer_gauge *gauge)
{
    return fer_reading_uncertainty(gauge->standard_uncertainty.mm, gauge->resolution.mm);
}

/* The same for a scatter that is estimated: a gauge of which nothing is known has steps, too. */
double fer_usual_floor(const fer_gauge *gauge)
{
    const double floor = gauge_floor(gauge);
    return floor > 0.0 ? floor : fer_reading_uncertainty(0.0, FER_GAUGE_STEP_USUAL_MM);
}

static int is_deviation(double x)
{
    return x >= 0.0 && x <= 1000.0;
}

static fer_status take_known(fer_adjusting adjusting, known *k)
{
    const double crimp = adjusting.crimp_deviation.mm, setting = adjusting.setting_deviation.mm;
    FER_REQUIRE(is_deviation(crimp) && is_deviation(setting), FER_ADJUSTING_DEVIATION_OUT_OF_RANGE);
    FER_REQUIRE(setting == 0.0 || crimp > 0.0, FER_ADJUSTING_DEVIATION_MISSING);
    FER_REQUIRE(adjusting.gain.fraction == 0.0 ||
                    (adjusting.gain.fraction >= 0.01 && adjusting.gain.fraction <= 100.0),
                FER_ADJUSTING_GAIN_OUT_OF_RANGE);
    FER_REQUIRE(adjusting.asked.fraction >= 0.0 && adjusting.asked.fraction < 1.0,
                FER_ADJUSTING_PROBABILITY_OUT_OF_RANGE);
    FER_TRY(fer_check_gauge(&adjusting.gauge));
    k->standard_deviation = crimp > 0.0 ? fmax(crimp, gauge_floor(&adjusting.gauge)) : 0.0;
    k->floor = fer_usual_floor(&adjusting.gauge);
    k->ratio = setting > 0.0 ? (k->standard_deviation / setting) * (k->standard_deviation / setting) : 0.0;
    k->gain = adjusting.gain.fraction == 0.0 ? 1.0 : adjusting.gain.fraction;
    k->asked = adjusting.asked.fraction == 0.0 ? asked_usual : adjusting.asked.fraction;
    return FER_OK;
}

static fer_status check_scale(const fer_dial_scale *scale)
{
    FER_REQUIRE(scale, FER_ARGUMENT_MISSING);
    FER_REQUIRE(fer_is_graduation_or_none(scale->graduation), FER_PRESS_GRADUATION_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_dial_end_or_none(scale->maximum), FER_PRESS_DIAL_RANGE_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_trials(const fer_trial *trials, size_t count)
{
    FER_REQUIRE(trials, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    for (size_t i = 0; i < count; i++) {
        FER_REQUIRE(trials[i].setting.mm >= 0.0 && trials[i].setting.mm <= FER_LENGTH_MAXIMUM_MM,
                    FER_TRIAL_SETTING_OUT_OF_RANGE);
        FER_TRY(fer_check_length(trials[i].diameter, FER_TRIAL_DIAMETER_MISSING,
                                 FER_TRIAL_DIAMETER_OUT_OF_RANGE));
    }
    return FER_OK;
}

static int are_given(fer_length_range limits)
{
    return !(limits.lower.mm == 0.0 && limits.upper.mm == 0.0);
}

static fer_status check_limits(fer_length_range limits)
{
    const double lower = limits.lower.mm, upper = limits.upper.mm;
    FER_REQUIRE(lower >= 0.0 && lower <= FER_LENGTH_MAXIMUM_MM, FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(upper >= 0.0 && upper <= FER_LENGTH_MAXIMUM_MM, FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(!are_given(limits) || lower < upper, FER_LIMIT_WRONG_ORDER);
    return FER_OK;
}

/* What the trials say of the setting's error, had the dial stayed where it was first set. */
typedef struct {
    double error;              /* best estimate */
    double standard_deviation; /* from crimp to crimp, NaN: not known */
    double share;              /* variance of the estimate by that of a crimp: 1/(n + ratio) */
    double degrees;            /* of the standard deviation, 0: known */
} estimate;

/* A trial's deviation, minus what the moves before it did. */
static double unmoved(const fer_trial *trials, size_t i, double target, double gain)
{
    return trials[i].diameter.mm - target - gain * (trials[i].setting.mm - trials[0].setting.mm);
}

static double deviation_from_trials(const fer_trial *trials, size_t count, double target, double gain)
{
    fer_sum sum = {0}, squares = {0};
    for (size_t i = 0; i < count; i++) {
        fer_sum_add(&sum, unmoved(trials, i, target, gain));
    }
    const fer_pair mean = fer_sum_mean(&sum);
    for (size_t i = 0; i < count; i++) {
        fer_square_add(&squares, unmoved(trials, i, target, gain), mean);
    }
    return fer_square_deviation(&squares);
}

static estimate estimate_error(const fer_trial *trials, size_t count, double target, const known *k)
{
    fer_sum sum = {0};
    for (size_t i = 0; i < count; i++) {
        fer_sum_add(&sum, unmoved(trials, i, target, k->gain));
    }
    const double share = 1.0 / ((double)count + k->ratio);
    estimate e = {fer_pair_value(sum.total) * share, k->standard_deviation, share, 0.0};
    if (k->standard_deviation == 0.0) {
        e.standard_deviation =
            count > 1 ? fmax(k->floor, deviation_from_trials(trials, count, target, k->gain)) : NAN;
        e.degrees = (double)count - 1.0;
    }
    return e;
}

/* P(X <= x) of a crimp about its mean. */
static double crimp_cdf(const estimate *e, double x, double standard_deviation)
{
    return e->degrees > 0.0 ? fer_student_cdf(x / standard_deviation, e->degrees)
                            : fer_normal_cdf(x / standard_deviation);
}

/* Probability that the next crimp is inside the limits. */
static fer_found_ratio probability_inside(const estimate *e, double mean, double share,
                                          fer_length_range limits)
{
    fer_found_ratio found;
    FER_NOT_FOUND(found, FER_OK);
    if (!are_given(limits)) {
        found.status = FER_TOLERANCE_MISSING;
    } else if (!fer_is_finite(e->standard_deviation)) {
        found.status = FER_READING_TOO_FEW;
    } else {
        const double standard_deviation = e->standard_deviation * sqrt(1.0 + share);
        found.value.fraction = crimp_cdf(e, limits.upper.mm - mean, standard_deviation) -
                               crimp_cdf(e, limits.lower.mm - mean, standard_deviation);
    }
    return found;
}

static void find_probabilities(const estimate *e, double stays, double target, fer_length_range limits,
                               fer_adjustment *adjustment)
{
    adjustment->probability_now = probability_inside(e, stays, e->share, limits);
    adjustment->probability_next = probability_inside(e, adjustment->expected.mm, e->share, limits);
    adjustment->probability_best = probability_inside(e, target, 0.0, limits);
}

static fer_status correct(const fer_dial_scale *scale, const fer_trial *trials, size_t count, double target,
                          fer_length_range limits, const known *k, fer_adjustment *adjustment)
{
    const estimate e = estimate_error(trials, count, target, k);
    const double first = trials[0].setting.mm, last = trials[count - 1].setting.mm;
    const double exact = first - e.error / k->gain;
    const double setting = fer_round_to_graduation(exact, scale->graduation.mm);
    const fer_status deviation_status = fer_is_finite(e.standard_deviation) ? FER_OK : FER_READING_TOO_FEW;
    FER_TRY(fer_check_setting(scale, setting));
    adjustment->exact.mm = exact;
    adjustment->setting.mm = setting;
    adjustment->move.mm = setting - last;
    adjustment->deviation.mm = e.error + k->gain * (last - first);
    adjustment->expected.mm = target + e.error + k->gain * (setting - first);
    adjustment->uncertainty.value.mm = e.standard_deviation * sqrt(e.share);
    adjustment->crimp_deviation.value.mm = e.standard_deviation;
    adjustment->uncertainty.status = adjustment->crimp_deviation.status = deviation_status;
    find_probabilities(&e, target + adjustment->deviation.mm, target, limits, adjustment);
    const int reached = adjustment->probability_now.value.fraction >= k->asked; /* NaN: not reached */
    adjustment->cautions = fer_stage_cautions(FER_STAGE_TRIAL);
    adjustment->leave = reached || fabs(adjustment->move.mm) <= 1e-9 * scale->graduation.mm;
    return FER_OK;
}

static fer_status correct_dial(const fer_dial_scale *scale, const fer_trial *trials, size_t count,
                               fer_length target, fer_length_range limits, fer_adjusting adjusting,
                               fer_adjustment *adjustment)
{
    known k;
    FER_TRY(check_scale(scale));
    FER_TRY(check_trials(trials, count));
    FER_TRY(fer_check_length(target, FER_TARGET_MISSING, FER_TARGET_OUT_OF_RANGE));
    FER_TRY(check_limits(limits));
    FER_TRY(take_known(adjusting, &k));
    return correct(scale, trials, count, target.mm, limits, &k, adjustment);
}

static void leave_out_adjustment(fer_status why, fer_adjustment *adjustment)
{
    FER_EMPTY(*adjustment);
    FER_LEAVE_OUT(adjustment->deviation);
    FER_NOT_FOUND(adjustment->uncertainty, why);
    FER_NOT_FOUND(adjustment->crimp_deviation, why);
    FER_LEAVE_OUT_FROM(fer_adjustment, *adjustment, exact, expected);
    FER_NOT_FOUND(adjustment->probability_now, why);
    FER_NOT_FOUND(adjustment->probability_next, why);
    FER_NOT_FOUND(adjustment->probability_best, why);
}

fer_status fer_correct_dial(const fer_dial_scale *scale, const fer_trial *trials, size_t count,
                            fer_length target, fer_length_range limits, fer_adjusting adjusting,
                            fer_adjustment *adjustment)
{
    FER_REQUIRE(adjustment, FER_ARGUMENT_MISSING);
    leave_out_adjustment(FER_OK, adjustment);
    const fer_status status = correct_dial(scale, trials, count, target, limits, adjusting, adjustment);
    if (status != FER_OK) {
        leave_out_adjustment(status, adjustment);
    }
    return status;
}

/* Variance of the setting after so many trials: sigma^2/(n + ratio), or tau^2 where trials cannot tell more. */
static fer_pair variance_left(const known *k, double setting_deviation, int trials)
{
    if (trials == 0 || k->ratio > 1e24) {
        return fer_pair_product(setting_deviation, setting_deviation);
    }
    fer_pair ratio = fer_pair_of(0.0);
    if (setting_deviation > 0.0) {
        const fer_pair root =
            fer_pair_divide(fer_pair_of(k->standard_deviation), fer_pair_of(setting_deviation));
        ratio = fer_pair_multiply(root, root);
    }
    return fer_pair_divide(fer_pair_product(k->standard_deviation, k->standard_deviation),
                           fer_pair_add(fer_pair_of(trials), ratio));
}

static fer_status expect(const fer_dial_scale *scale, int trials, fer_adjusting adjusting,
                         fer_outlook *outlook)
{
    known k;
    FER_TRY(check_scale(scale));
    FER_TRY(take_known(adjusting, &k));
    FER_REQUIRE(k.standard_deviation > 0.0, FER_ADJUSTING_DEVIATION_MISSING);
    FER_REQUIRE(trials >= (k.ratio > 0.0 ? 0 : 1) && trials <= trials_maximum, FER_TRIAL_COUNT_OUT_OF_RANGE);
    const fer_pair variance = fer_pair_product(k.standard_deviation, k.standard_deviation);
    fer_pair setting = variance_left(&k, adjusting.setting_deviation.mm, trials);
    if (trials > 0) { /* before the first trial nothing was corrected */
        const fer_pair step = fer_pair_product(scale->graduation.mm, k.gain);
        setting = fer_pair_add(setting, fer_pair_divide(fer_pair_multiply(step, step), fer_pair_of(12.0)));
    }
    outlook->setting.mm = fer_pair_value(fer_pair_root(setting));
    outlook->diameter.mm = fer_pair_value(fer_pair_root(fer_pair_add(setting, variance)));
    return FER_OK;
}

fer_status fer_expected_deviation(const fer_dial_scale *scale, int trials, fer_adjusting adjusting,
                                  fer_outlook *outlook)
{
    FER_REQUIRE(outlook, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*outlook);
    return expect(scale, trials, adjusting, outlook);
}

static fer_status check_points(const fer_calibration_point *points, size_t count, int *weighted)
{
    size_t with = 0;
    for (size_t i = 0; i < count; i++) {
        const double set = points[i].set.mm, u = points[i].standard_uncertainty.mm;
        FER_REQUIRE(set >= 0.0 && set <= FER_LENGTH_MAXIMUM_MM, FER_CALIBRATION_POINT_OUT_OF_RANGE);
        FER_TRY(fer_check_length(points[i].measured, FER_CALIBRATION_MEASURED_MISSING,
                                 FER_CALIBRATION_POINT_OUT_OF_RANGE));
        FER_REQUIRE(u == 0.0 || (u >= 1e-9 && u <= FER_LENGTH_MAXIMUM_MM),
                    FER_CALIBRATION_UNCERTAINTY_OUT_OF_RANGE);
        with += u > 0.0;
    }
    FER_REQUIRE(with == 0 || with == count, FER_CALIBRATION_UNCERTAINTY_OUT_OF_RANGE);
    *weighted = with > 0;
    return FER_OK;
}

/* Weight of a point before scaling. */
static double raw_weight(const fer_calibration_point *point, int weighted)
{
    const double u = point->standard_uncertainty.mm;
    return weighted ? 1.0 / (u * u) : 1.0;
}

static fer_status finish_calibration(const fer_line *line, double floor, fer_calibration *c)
{
    const double squares = fer_pair_value(line->x_squares), mean = fer_pair_value(line->x_mean);
    c->count = line->count;
    c->scatter.mm = fmax(floor, fer_line_scatter(line));
    c->slope.fraction = fer_pair_value(line->slope);
    c->slope_uncertainty.fraction = c->scatter.mm / sqrt(squares);
    c->intercept.mm =
        fer_pair_value(fer_pair_subtract(line->y_mean, fer_pair_multiply(line->slope, line->x_mean)));
    c->intercept_uncertainty.mm = c->scatter.mm * sqrt(1.0 / (double)line->count + mean * mean / squares);
    c->set_mean.mm = mean;
    c->measured_mean.mm = fer_pair_value(line->y_mean);
    c->set_squares.mm2 = squares;
    return FER_OK;
}

static fer_status fit_calibration(const fer_calibration_point *points, size_t count, const fer_gauge *gauge,
                                  fer_calibration *calibration)
{
    fer_line line = {0};
    int weighted = 0;
    double total = 0.0;
    FER_REQUIRE(points, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 2, FER_CALIBRATION_TOO_FEW_POINTS);
    FER_TRY(check_points(points, count, &weighted));
    FER_TRY(fer_check_gauge(gauge));
    for (size_t i = 0; i < count; i++) {
        total += raw_weight(&points[i], weighted);
    }
    const double scale = (double)count / total;
    for (size_t i = 0; i < count; i++) {
        fer_line_add(&line, points[i].set.mm, points[i].measured.mm,
                     scale * raw_weight(&points[i], weighted));
    }
    fer_line_centre(&line);
    for (size_t i = 0; i < count; i++) {
        fer_line_add_squares(&line, points[i].set.mm, points[i].measured.mm,
                             scale * raw_weight(&points[i], weighted));
    }
    FER_REQUIRE(fer_pair_value(line.x_squares) > 1e-12, FER_CALIBRATION_TOO_FEW_POINTS);
    fer_line_fit(&line);
    for (size_t i = 0; i < count; i++) {
        fer_line_add_rest(&line, points[i].set.mm, points[i].measured.mm,
                          scale * raw_weight(&points[i], weighted));
    }
    const double floor = weighted ? fmax(sqrt(scale), gauge_floor(gauge)) : fer_usual_floor(gauge);
    return finish_calibration(&line, floor, calibration);
}

fer_status fer_fit_calibration(const fer_calibration_point *points, size_t count, fer_gauge gauge,
                               fer_calibration *calibration)
{
    FER_REQUIRE(calibration, FER_ARGUMENT_MISSING);
    FER_EMPTY(*calibration);
    FER_LEAVE_OUT_FROM(fer_calibration, *calibration, intercept, scatter);
    FER_LEAVE_OUT_FROM(fer_calibration, *calibration, set_mean, set_squares);
    return fit_calibration(points, count, &gauge, calibration);
}

static fer_status check_calibration(const fer_calibration *c, fer_ratio coverage)
{
    FER_REQUIRE(c, FER_ARGUMENT_MISSING);
    FER_REQUIRE(c->count > 2 && c->set_squares.mm2 > 0.0 && c->scatter.mm >= 0.0, FER_CALIBRATION_INCOMPLETE);
    FER_REQUIRE(fer_is_finite(c->set_squares.mm2) && fer_is_finite(c->scatter.mm),
                FER_CALIBRATION_INCOMPLETE);
    FER_REQUIRE(fer_is_finite(c->slope.fraction), FER_CALIBRATION_INCOMPLETE);
    FER_REQUIRE(coverage.fraction > 0.0 && coverage.fraction < 1.0, FER_COVERAGE_OUT_OF_RANGE);
    return FER_OK;
}

static double student_factor(double coverage, size_t count)
{
    return -fer_student_quantile(0.5 - 0.5 * coverage, (double)count - 2.0);
}

/* A line from outside may have any numbers in it: such as give no finite limits are none that was fitted. */
static fer_status give_prediction(double value, double lower, double upper, fer_prediction *prediction)
{
    FER_REQUIRE(fer_is_finite(value) && fer_is_finite(lower) && fer_is_finite(upper),
                FER_CALIBRATION_INCOMPLETE);
    prediction->value.mm = value;
    prediction->lower.mm = lower;
    prediction->upper.mm = upper;
    return FER_OK;
}

static fer_status predict_diameter(const fer_calibration *c, fer_length set, fer_ratio coverage,
                                   fer_prediction *prediction)
{
    FER_TRY(check_calibration(c, coverage));
    FER_REQUIRE(set.mm >= 0.0 && set.mm <= FER_LENGTH_MAXIMUM_MM, FER_CALIBRATION_POINT_OUT_OF_RANGE);
    const double away = set.mm - c->set_mean.mm;
    const double value = c->measured_mean.mm + c->slope.fraction * away;
    const double half = student_factor(coverage.fraction, c->count) * c->scatter.mm *
                        sqrt(1.0 + 1.0 / (double)c->count + away * away / c->set_squares.mm2);
    return give_prediction(value, value - half, value + half, prediction);
}

fer_status fer_predict_diameter(const fer_calibration *calibration, fer_length set, fer_ratio coverage,
                                fer_prediction *prediction)
{
    FER_REQUIRE(prediction, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*prediction);
    return predict_diameter(calibration, set, coverage, prediction);
}

static fer_status find_set(const fer_calibration *c, fer_length diameter, fer_ratio coverage,
                           fer_prediction *prediction)
{
    FER_TRY(check_calibration(c, coverage));
    FER_TRY(fer_check_length(diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    const double slope = c->slope.fraction;
    const double half = student_factor(coverage.fraction, c->count) * c->scatter.mm;
    const double left = slope * slope - half * half / c->set_squares.mm2; /* Fieller: b^2 (1 - g) */
    FER_REQUIRE(left > 0.0, FER_CALIBRATION_SLOPE_NOT_SIGNIFICANT);
    const double away = diameter.mm - c->measured_mean.mm;
    const double root = half * sqrt(left * (1.0 + 1.0 / (double)c->count) + away * away / c->set_squares.mm2);
    return give_prediction(c->set_mean.mm + away / slope, c->set_mean.mm + (slope * away - root) / left,
                           c->set_mean.mm + (slope * away + root) / left, prediction);
}

fer_status fer_find_set(const fer_calibration *calibration, fer_length diameter, fer_ratio coverage,
                        fer_prediction *prediction)
{
    FER_REQUIRE(prediction, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*prediction);
    return find_set(calibration, diameter, coverage, prediction);
}

static int is_day(int day)
{
    return day >= -1000000 && day <= 1000000;
}

fer_status fer_check_drift_point(const fer_drift_point *check)
{
    FER_REQUIRE(is_day(check->day), FER_DRIFT_DAY_OUT_OF_RANGE);
    FER_REQUIRE(fabs(check->deviation.mm) <= 1000.0, FER_DRIFT_DEVIATION_OUT_OF_RANGE);
    return FER_OK;
}

fer_status fer_check_drift_question(int today, double limit, double coverage)
{
    FER_REQUIRE(is_day(today), FER_DRIFT_DAY_OUT_OF_RANGE);
    FER_REQUIRE(limit > 0.0 && limit <= 1000.0, FER_DRIFT_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(coverage > 0.0 && coverage < 1.0, FER_COVERAGE_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status fit_drift(const fer_drift_point *checks, size_t count, fer_line *line)
{
    for (size_t i = 0; i < count; i++) {
        FER_TRY(fer_check_drift_point(&checks[i]));
        fer_line_add(line, checks[i].day, checks[i].deviation.mm, 1.0);
    }
    fer_line_centre(line);
    for (size_t i = 0; i < count; i++) {
        fer_line_add_squares(line, checks[i].day, checks[i].deviation.mm, 1.0);
    }
    FER_REQUIRE(fer_pair_value(line->x_squares) > 0.1, FER_CALIBRATION_TOO_FEW_POINTS);
    fer_line_fit(line);
    for (size_t i = 0; i < count; i++) {
        fer_line_add_rest(line, checks[i].day, checks[i].deviation.mm, 1.0);
    }
    return FER_OK;
}

/* Deviation by the line on a day, and its standard uncertainty. */
static double deviation_on(const fer_line *line, double day, double scatter, double *uncertainty)
{
    const double away = day - fer_pair_value(line->x_mean);
    *uncertainty = scatter * sqrt(1.0 / (double)line->count + away * away / fer_pair_value(line->x_squares));
    return fer_pair_value(line->y_mean) + fer_pair_value(line->slope) * away;
}

static int is_due(const fer_line *line, double day, double scatter, double factor, double limit)
{
    double uncertainty;
    const double deviation = deviation_on(line, day, scatter, &uncertainty);
    return fabs(deviation) + factor * uncertainty > limit;
}

static void find_due_day(const fer_line *line, int today, double scatter, double factor, double limit,
                         fer_drift *drift)
{
    enum { ten_years = 3652 };
    for (int day = today; day <= today + ten_years; day++) {
        if (is_due(line, day, scatter, factor, limit)) {
            drift->due_found = 1;
            drift->due_day = day;
            return;
        }
    }
}

static fer_status check_drift(const fer_drift_point *checks, size_t count, int today, double limit,
                              double coverage, const fer_gauge *gauge, fer_drift *drift)
{
    fer_line line = {0};
    FER_REQUIRE(checks, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 2, FER_CALIBRATION_TOO_FEW_POINTS);
    FER_TRY(fer_check_drift_question(today, limit, coverage));
    FER_TRY(fer_check_gauge(gauge));
    FER_TRY(fit_drift(checks, count, &line));
    const double factor = student_factor(coverage, count),
                 scatter = fmax(fer_usual_floor(gauge), fer_line_scatter(&line));
    const double slope = fer_pair_value(line.slope);
    drift->deviation.mm = deviation_on(&line, today, scatter, &drift->uncertainty.mm);
    drift->change_per_year.mm = 365.25 * slope;
    drift->scatter.mm = scatter;
    drift->drifting = fabs(slope) > factor * scatter / sqrt(fer_pair_value(line.x_squares));
    drift->due = is_due(&line, today, scatter, factor, limit);
    find_due_day(&line, today, scatter, factor, limit, drift);
    return FER_OK;
}

fer_status fer_check_drift(const fer_drift_point *checks, size_t count, int today, fer_length limit,
                           fer_ratio coverage, fer_gauge gauge, fer_drift *drift)
{
    FER_REQUIRE(drift, FER_ARGUMENT_MISSING);
    FER_EMPTY(*drift);
    FER_LEAVE_OUT_FROM(fer_drift, *drift, deviation, scatter);
    return check_drift(checks, count, today, limit.mm, coverage.fraction, &gauge, drift);
}
