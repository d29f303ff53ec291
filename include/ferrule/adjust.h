/* SPDX-License-Identifier: MIT */
/** @file
 * Module `adjust`: how far to correct the dial after a trial, when to stop, and what a press does over the months.
 *
 * A trial crimp's deviation is the error of the setting plus the scatter from crimp to crimp. Moving the dial by the
 * whole deviation each time chases that scatter and never settles; the rules here move by a share that falls with the
 * number of trials.
 */
#ifndef FERRULE_ADJUST_H
#define FERRULE_ADJUST_H

#include <ferrule/caution.h>
#include <ferrule/value.h>

/** Step of the gauge where nothing is known of it, in mm: a usual caliper's (common practice, no source). */
#define FER_GAUGE_STEP_USUAL_MM 0.01

/** One trial crimp. */
typedef struct fer_trial {
    fer_length setting; /**< what the dial was set to @label dial setting @range 0 mm to 1,000,000 mm */
    /** mean crimp diameter that was measured @label crimp diameter @range 0.001 mm to 1,000,000 mm */
    fer_length diameter;
} fer_trial;

/** What is known before the first trial; all zero: nothing, which is the harmonic rule. */
typedef struct fer_adjusting {
    /** standard deviation from crimp to crimp, gauge included @label deviation from crimp to crimp @range 0 mm
     * to 1000 mm @optional from the trials */
    fer_length crimp_deviation;
    /** standard deviation of the setting's error before trials, needs crimp_deviation @label deviation of the
     * setting @range 0 mm to 1000 mm @optional not known */
    fer_length setting_deviation;
    /** change of the diameter for a change of the dial @label gain of the dial @range 0.01 to 100 @optional
     * the usual 1 */
    fer_ratio gain;
    /** probability of being inside the limits that ends the trials @label probability asked for @range 0 to
     * below 1 @optional the usual 95 % */
    fer_ratio asked;
    /** with which the diameters were measured @optional not known, see #FER_GAUGE_STEP_USUAL_MM */
    fer_gauge gauge;
} fer_adjusting;

/** What to do with the dial after the last trial. */
typedef struct fer_adjustment {
    /** expected deviation from the target if the dial stays: estimate, not last reading */
    fer_length deviation;
    fer_found_length uncertainty; /**< standard uncertainty of that */
    /** standard deviation from crimp to crimp, as given or from the trials */
    fer_found_length crimp_deviation;
    fer_length exact;                 /**< best setting before rounding */
    fer_length setting;               /**< best setting that the dial can show */
    fer_length move;                  /**< setting minus the last one */
    fer_length expected;              /**< crimp diameter to expect at the new setting */
    fer_found_ratio probability_now;  /**< that the next crimp is inside the limits if the dial stays */
    fer_found_ratio probability_next; /**< that it is inside after the move */
    /** that it is inside with a setting without error: more no trial can give */
    fer_found_ratio probability_best;
    int leave;             /**< leave the dial as it is @flag @optional move it */
    fer_cautions cautions; /**< which cautions apply */
} fer_adjustment;

/** Deviation to expect after a number of trials. */
typedef struct fer_outlook {
    fer_length setting;  /**< root mean square of the setting's error */
    fer_length diameter; /**< root mean square of the next crimp's deviation */
} fer_outlook;

/** One point of a press's calibration. */
typedef struct fer_calibration_point {
    /** diameter that the dial stands for: setting and die size @range 0 mm to 1,000,000 mm */
    fer_length set;
    fer_length measured; /**< crimp diameter measured @range 0.001 mm to 1,000,000 mm */
    /** of the measured diameter @label standard uncertainty @range 0.000000001 mm to 1,000,000 mm @decimals
     * 4 @optional all points alike */
    fer_length standard_uncertainty;
} fer_calibration_point;

/** Straight line through calibration points: measured = intercept + slope × set. */
typedef struct fer_calibration {
    fer_length intercept;             /**< measured diameter at set 0 */
    fer_length intercept_uncertainty; /**< standard uncertainty of the intercept */
    fer_ratio slope;                  /**< mm measured per mm set */
    fer_ratio slope_uncertainty;      /**< standard uncertainty of the slope */
    /** standard deviation of a point of mean weight about the line, not below what the gauge leaves */
    fer_length scatter;
    size_t count;             /**< number of points */
    fer_length set_mean;      /**< weighted mean of what was set */
    fer_length measured_mean; /**< weighted mean of what was measured */
    fer_area set_squares;     /**< weighted sum of squares of set minus its mean, weights of mean 1 */
} fer_calibration;

/** A value read off a straight line, with its limits. */
typedef struct fer_prediction {
    fer_length value; /**< best value */
    fer_length lower; /**< lower limit */
    fer_length upper; /**< upper limit */
} fer_prediction;

/** One check of a press. */
typedef struct fer_drift_point {
    int day;              /**< day of the check, in whole days from any day @range -1,000,000 to 1,000,000 */
    fer_length deviation; /**< measured minus target diameter @range -1000 mm to 1000 mm */
} fer_drift_point;

/** How a press drifts. */
typedef struct fer_drift {
    fer_length deviation;       /**< deviation that the line gives for today */
    fer_length uncertainty;     /**< standard uncertainty of it */
    fer_length change_per_year; /**< change in 365.25 days */
    fer_length scatter;         /**< standard deviation of a check about the line, not below the gauge's */
    int drifting;               /**< the change is significant @flag @optional it may be chance */
    int due;       /**< that the press is within the limit today is not assured: adjust it @flag */
    int due_found; /**< within ten years it becomes due, see due_day @flag */
    int due_day;   /**< first day from today on which it is due */
} fer_drift;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Correct the dial after trials: where to set it, what to expect, and whether to leave it.
 *
 * @formula with \f$ y_i \f$ the deviations from the target and \f$ x_i \f$ the total of moves before trial \f$i\f$ on
 * the diameter, the total after \f$n\f$ trials is \f$ x_{n+1} = -\sum(y_i - x_i)/(n + \sigma^2/\tau^2) \f$, crimp
 * standard deviation \f$\sigma\f$, of the setting \f$\tau\f$; without \f$\tau\f$: Grubbs' harmonic rule, moves of
 * \f$ -y_1,\ -y_2/2,\ -y_3/3,\ \ldots \f$ The setting is rounded, the total is not: rounded moves would stall. The
 * next crimp deviates by the estimate with variance \f$ \sigma^2(1 + 1/(n + \sigma^2/\tau^2)) \f$: normal where
 * \f$\sigma\f$ is given, Student's with \f$ n - 1 \f$ degrees of freedom where it comes from the trials. It is never
 * below what the gauge leaves, \f$ \sqrt{u_g^2 + q^2/12} \f$ with its standard uncertainty and step: equal trials do
 * not show that crimps do not scatter. Where nothing is known of the gauge that holds for a standard deviation from the trials, with
 * a step of #FER_GAUGE_STEP_USUAL_MM.
 *
 * The dial is left where the probability asked is reached, or where the best setting that it can show is where it
 * stands. All trials are of one press, die and kind of joint.
 *
 * @param[in] scale  of the press's dial: graduation and maximum setting
 * @param[in] trials  in the order they were made
 * @param[in] count  number of trials
 * @param[in] target  crimp diameter @range 0.001 mm to 1,000,000 mm
 * @param[in] limits  crimp diameters to accept, in order @range 0 mm to 1,000,000 mm @optional none, then no
 *            probability is computed
 * @param[in] adjusting  what is known before @optional nothing, the harmonic rule
 * @param[out] adjustment  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no trials
 * @retval FER_TRIAL_SETTING_OUT_OF_RANGE  not 0 to 1,000,000 mm
 * @retval FER_TRIAL_DIAMETER_MISSING  not given
 * @retval FER_TRIAL_DIAMETER_OUT_OF_RANGE  not 0.001 mm to 1,000,000 mm
 * @retval FER_TARGET_MISSING  not given
 * @retval FER_TARGET_OUT_OF_RANGE  not 0.001 mm to 1,000,000 mm
 * @retval FER_LIMIT_OUT_OF_RANGE  a limit is not 0 to 1,000,000 mm
 * @retval FER_LIMIT_WRONG_ORDER  lower limit not below the upper
 * @retval FER_ADJUSTING_DEVIATION_OUT_OF_RANGE  a standard deviation negative, above 1000 mm or not a number
 * @retval FER_ADJUSTING_DEVIATION_MISSING  setting_deviation without crimp_deviation
 * @retval FER_ADJUSTING_GAIN_OUT_OF_RANGE  given, and not 0.01 to 100
 * @retval FER_ADJUSTING_PROBABILITY_OUT_OF_RANGE  not below 1, or negative
 * @retval FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE  and the other statuses of fer_summarise_readings() on the gauge
 * @retval FER_DIAL_SETTING_BELOW_ZERO  the best setting is below zero
 * @retval FER_DIAL_SETTING_ABOVE_RANGE  the best setting is beyond the greatest of the dial
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  given, and not 0.0001 mm to 10 mm
 * @retval FER_PRESS_DIAL_RANGE_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @accuracy 1e-12 relative; rounding of the setting as fer_dial_setting()
 * @source Grubbs, An optimum procedure for setting machines or adjusting processes, 1954 (from memory); with a prior:
 *         normal distributions (JCGM 106:2012, A.4.4)
 */
FER_API fer_status fer_correct_dial(const fer_dial_scale *scale, const fer_trial *trials, size_t count,
                                    fer_length target, fer_length_range limits, fer_adjusting adjusting,
                                    fer_adjustment *adjustment);

/**
 * Deviation to expect after a number of trials, corrected by fer_correct_dial().
 *
 * @formula setting \f$ \sigma/\sqrt{n + \sigma^2/\tau^2} \f$, with the rounding of the dial \f$ q^2/12 \f$ more on its
 * square; next crimp: \f$\sigma^2\f$ more. \f$\sigma\f$ is never below what a gauge that is given leaves, as in
 * fer_correct_dial().
 *
 * @param[in] scale  of the press's dial; its graduation counts
 * @param[in] trials  number of trials; 0 only with setting_deviation @range 0 to 1,000,000
 * @param[in] adjusting  crimp_deviation is needed
 * @param[out] outlook  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TRIAL_COUNT_OUT_OF_RANGE  negative, above 1,000,000, or 0 where nothing is known before
 * @retval FER_ADJUSTING_DEVIATION_MISSING  no crimp_deviation
 * @retval FER_ADJUSTING_DEVIATION_OUT_OF_RANGE  and the other statuses of fer_correct_dial() on what is known before
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  given, and not 0.0001 mm to 10 mm
 * @retval FER_PRESS_DIAL_RANGE_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @accuracy 2 units in the last place; against simulation in tests/agree/simulation
 * @source as fer_correct_dial()
 */
FER_API fer_status fer_expected_deviation(const fer_dial_scale *scale, int trials, fer_adjusting adjusting,
                                          fer_outlook *outlook);

/**
 * Straight line through a press's calibration: measured against set.
 *
 * @formula weighted least squares, weights \f$ 1/u_i^2 \f$ scaled to a mean of 1; the scatter about the line, with
 * \f$ n - 2 \f$ degrees of freedom, gives the uncertainties. It is never below what the gauge leaves, as in
 * fer_correct_dial(), nor below the uncertainty of a point of mean weight: points on a line do not show that nothing
 * scatters.
 *
 * @param[in] points  at least three, at two different settings at least
 * @param[in] count  number of points
 * @param[in] gauge  with which they were measured @optional not known, where the points have no uncertainties a step of 0.01 mm
 * @param[out] calibration  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CALIBRATION_TOO_FEW_POINTS  fewer than three, or all at one setting
 * @retval FER_CALIBRATION_MEASURED_MISSING  not given
 * @retval FER_CALIBRATION_POINT_OUT_OF_RANGE  set not 0 to 1,000,000 mm or measured not 0.001 mm to 1,000,000 mm
 * @retval FER_CALIBRATION_UNCERTAINTY_OUT_OF_RANGE  given, and not 0.000000001 mm to 1,000,000 mm; or 0 for some points only
 * @retval FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE  and the other statuses of fer_summarise_readings() on the gauge
 * @accuracy 1e-12 relative on NIST StRD Norris
 * @source NIST StRD, Linear regression, Norris
 */
FER_API fer_status fer_fit_calibration(const fer_calibration_point *points, size_t count, fer_gauge gauge,
                                       fer_calibration *calibration);

/**
 * Crimp diameter that a press will make where the dial stands for a diameter: prediction for one crimp.
 *
 * @formula \f$ a + bx \pm t\,s\sqrt{1 + 1/n + (x - \bar x)^2/S_{xx}} \f$, \f$ n - 2 \f$ degrees of freedom
 *
 * @param[in] calibration  @from fer_fit_calibration()
 * @param[in] set  diameter that the dial stands for @range 0 to 1,000,000 mm
 * @param[in] coverage  probability that the limits hold the next crimp @range above 0 to below 1
 * @param[out] prediction  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CALIBRATION_INCOMPLETE  not from fer_fit_calibration()
 * @retval FER_CALIBRATION_POINT_OUT_OF_RANGE  set is not 0 to 1,000,000 mm
 * @retval FER_COVERAGE_OUT_OF_RANGE  not between 0 and 1
 * @accuracy 1e-12 relative
 * @source Draper and Smith, Applied Regression Analysis, 3rd ed. (1998), ch. 1 (from memory); against SciPy in tests
 */
FER_API fer_status fer_predict_diameter(const fer_calibration *calibration, fer_length set,
                                        fer_ratio coverage, fer_prediction *prediction);

/**
 * What the dial has to stand for so that the press makes a diameter: inverse prediction with Fieller's limits.
 *
 * The value minus the diameter is the correction of the press (module `press`) at this diameter.
 *
 * @formula \f$ x = \bar x + d/b \f$, \f$ d = y - \bar y \f$; limits: the roots of
 * \f$ (d - b(x - \bar x))^2 = t^2s^2(1 + 1/n + (x - \bar x)^2/S_{xx}) \f$
 *
 * @param[in] calibration  @from fer_fit_calibration()
 * @param[in] diameter  wanted @range 0.001 mm to 1,000,000 mm
 * @param[in] coverage  probability of the limits @range above 0 to below 1
 * @param[out] prediction  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CALIBRATION_INCOMPLETE  not from fer_fit_calibration()
 * @retval FER_CALIBRATION_SLOPE_NOT_SIGNIFICANT  the slope could be 0: there are no limits
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not 0.001 mm to 1,000,000 mm
 * @retval FER_COVERAGE_OUT_OF_RANGE  not between 0 and 1
 * @accuracy 1e-12 relative
 * @source Fieller, J. Roy. Statist. Soc. B 16 (1954) 175-185 (from memory)
 */
FER_API fer_status fer_find_set(const fer_calibration *calibration, fer_length diameter, fer_ratio coverage,
                                fer_prediction *prediction);

/**
 * Drift of a press over its checks, and whether it is due for adjustment.
 *
 * @formula straight line of deviation against day; the change is significant where \f$ |b| > t\,s_b \f$; due where
 * \f$ |a + bx| + t\,s\sqrt{1/n + (x - \bar x)^2/S_{xx}} \f$ is above the limit. The scatter \f$s\f$ is never below what
 * the gauge leaves, as in fer_correct_dial().
 *
 * @param[in] checks  at least three, on two different days at least
 * @param[in] count  number of checks
 * @param[in] today  day to judge @range -1,000,000 to 1,000,000
 * @param[in] limit  greatest deviation allowed either way @range above 0 mm to 1000 mm
 * @param[in] coverage  probability of the limits @range above 0 to below 1
 * @param[in] gauge  with which the checks were measured @optional not known, a step of 0.01 mm
 * @param[out] drift  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CALIBRATION_TOO_FEW_POINTS  fewer than three, or all on one day
 * @retval FER_DRIFT_DAY_OUT_OF_RANGE  a day is not -1,000,000 to 1,000,000
 * @retval FER_DRIFT_DEVIATION_OUT_OF_RANGE  not -1000 mm to 1000 mm
 * @retval FER_DRIFT_LIMIT_OUT_OF_RANGE  not above 0 and up to 1000 mm
 * @retval FER_COVERAGE_OUT_OF_RANGE  not between 0 and 1
 * @retval FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE  and the other statuses of fer_summarise_readings() on the gauge
 * @accuracy 1e-12 relative
 * @source Draper and Smith, Applied Regression Analysis, 3rd ed. (1998), ch. 1 (from memory)
 */
FER_API fer_status fer_check_drift(const fer_drift_point *checks, size_t count, int today, fer_length limit,
                                   fer_ratio coverage, fer_gauge gauge, fer_drift *drift);

#ifdef __cplusplus
}
#endif

#endif
