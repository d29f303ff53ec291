/* SPDX-License-Identifier: MIT */
/** @file
 * Module `gauge`: is the gauge good enough, how far off is it, and do people agree?
 *
 * What a study finds goes to the other modules as #fer_measuring (many pieces) or #fer_gauge (one piece). Confidence is always
 * one-sided: for two-sided 95 % ask for 97.5 % and take both ends.
 */
#ifndef FERRULE_GAUGE_H
#define FERRULE_GAUGE_H

#include <ferrule/adjust.h>
#include <ferrule/conformity.h>
#include <ferrule/reading.h>

/** Greatest number of readings, or of opinions, in a study. */
#define FER_STUDY_MAXIMUM 2000

/** @def FER_STUDY_FINDING_LIST
 * The one list of findings of a gauge study, the gravest first: X(name, number, severity, sentence). */
#define FER_STUDY_FINDING_LIST(X)                                                                            \
    X(GAUGE_TOO_WIDE, 0, CONFIRM,                                                                            \
      "the gauge takes more than 30 % of the tolerance: use a better one, or agree on the guard band")       \
    X(CATEGORIES_TOO_FEW, 1, CONFIRM, "the gauge tells fewer than five categories of these parts apart")     \
    X(PEOPLE_DIFFER, 10, DO_FIRST,                                                                           \
      "people read differently by more than chance: agree how to measure, and repeat the study")             \
    X(PARTS_DIVIDE_PEOPLE, 11, DO_FIRST,                                                                     \
      "people differ on some parts more than on others: look at these parts together")                       \
    X(PEOPLE_TOO_FEW, 20, KNOW,                                                                              \
      "two or three people say little of how people differ: more people narrow the limits, more readings "   \
      "do not")                                                                                              \
    X(GAUGE_WIDE, 21, KNOW, "the gauge takes more than 10 % of the tolerance")                               \
    X(ESTIMATE_BELOW_ZERO, 22, KNOW, "the estimate of a variance is below 0 and counts as 0")                \
    X(SCATTER_BELOW_STEP, 23, KNOW,                                                                          \
      "repeated readings scatter less than the gauge's step lets them: the step counts")

/** A finding of #FER_STUDY_FINDING_LIST. */
typedef enum fer_study_finding {
#define FER_STUDY_FINDING_ENUMERATOR(name, number, severity, sentence) FER_STUDY_FINDING_##name = number,
    FER_STUDY_FINDING_LIST(FER_STUDY_FINDING_ENUMERATOR)
#undef FER_STUDY_FINDING_ENUMERATOR
        FER_STUDY_FINDING_COUNT /**< above every number of a finding; not a finding */
} fer_study_finding;

/** A set of findings: bit n stands for finding number n. */
typedef struct fer_study_findings {
    uint64_t bits; /**< bit n is set where finding n applies */
} fer_study_findings;

/** One reading of a gauge study. */
typedef struct fer_study_reading {
    int part;            /**< number of the part @range 0 to 999 */
    int person;          /**< number of the person @range 0 to 63 */
    fer_length diameter; /**< as read @label diameter @range 0.001 mm to 1,000,000 mm */
} fer_study_reading;

/** How a study is taken; all zero: interaction pooled above 5 %, nothing known of step and calibration. */
typedef struct fer_study_settings {
    /** the interaction counts as chance where its probability is above this @label pool above @range 0 % to 100 % @optional 5 % */
    fer_ratio pool_above;
    int never_pool; /**< the interaction always counts @flag @optional it is pooled where it may be chance */
    /** of the gauge's calibration, common to all readings @label uncertainty of the calibration @range 0 mm to 1,000,000 mm
     * @decimals 4 @optional none */
    fer_length calibration;
    /** smallest step that the gauge shows @label resolution @range 0 mm to 10 mm @decimals 4 @optional stepless */
    fer_length resolution;
} fer_study_settings;

/** A standard deviation with the limits that it keeps with the confidence asked, each one-sided. */
typedef struct fer_deviation_limits {
    fer_length value;          /**< as estimated */
    fer_length lower;          /**< lower limit */
    fer_length upper;          /**< upper limit */
    double degrees_of_freedom; /**< of the estimate; exact for repeatability, otherwise by Satterthwaite */
    fer_ratio of_total;        /**< by the total standard deviation */
    fer_ratio of_tolerance;    /**< six of it by the tolerance; NaN where none is given */
} fer_deviation_limits;

/** What a gauge study says. */
typedef struct fer_gauge_study {
    fer_deviation_limits repeatability; /**< same part, same person */
    fer_deviation_limits people;        /**< from person to person */
    fer_deviation_limits interaction;   /**< people on different parts; 0 where pooled */
    fer_deviation_limits gauge;         /**< all three together */
    fer_deviation_limits parts;         /**< from part to part */
    fer_deviation_limits total;         /**< gauge and parts */
    double categories;                  /**< that the gauge tells apart: 1.41 times parts by gauge */
    fer_ratio interaction_p;            /**< probability of an interaction as large where there is none */
    fer_ratio people_p;                 /**< probability of people as different where they are alike */
    int pooled; /**< the interaction was pooled with the repeatability @flag @optional it counts */
    fer_study_findings findings; /**< which findings apply */
    fer_measuring measuring;     /**< for samples of pieces that one of these people measures */
    fer_gauge one_piece;         /**< for a single piece, read by one of these people */
} fer_gauge_study;

/** What a gauge study says by ranges, as sheets for pencil and paper do. */
typedef struct fer_range_study {
    fer_length repeatability; /**< mean range of a cell by its expectation */
    fer_length people;        /**< from the range of the people's means; 0 where below 0 */
    fer_length gauge;         /**< both together */
    fer_length parts;         /**< from the range of the parts' means */
    fer_length total;         /**< gauge and parts */
    double categories;        /**< that the gauge tells apart: 1.41 times parts by gauge */
    fer_ratio of_tolerance;   /**< six of the gauge by the tolerance; NaN where none is given */
} fer_range_study;

/** One reading of a gauge block. */
typedef struct fer_block_reading {
    fer_length
        block; /**< length of the block, from its certificate @label block @range 0.001 mm to 1,000,000 mm */
    fer_length reading; /**< as read @label reading @range 0.001 mm to 1,000,000 mm */
} fer_block_reading;

/** What is known of blocks and gauge; all zero: exact blocks, stepless, no expansion. */
typedef struct fer_block {
    /** of a block's length @label uncertainty of the blocks @range 0 mm to 1,000,000 mm @decimals 5 @optional none */
    fer_length standard_uncertainty;
    /** smallest step that the gauge shows @label resolution @range 0 mm to 10 mm @decimals 4 @optional stepless */
    fer_length resolution;
    /** half width of expansion times difference in temperature, such as 5.8e-5 for steel at 20 ± 5 °C @label expansion @range 0 % to
     * 1 % @optional none */
    fer_ratio expansion;
    /** length at which the gauge is going to be used @label used at @range 0 mm to 1,000,000 mm @optional the mean of the blocks */
    fer_length used_at;
} fer_block;

/** What readings of gauge blocks say. */
typedef struct fer_gauge_check {
    fer_length bias;             /**< mean of reading minus block */
    fer_length bias_uncertainty; /**< standard uncertainty of it, from the scatter */
    fer_ratio bias_p;            /**< probability of a bias as large where there is none, two-sided */
    fer_ratio slope;             /**< change of the deviation per length; NaN: all blocks are alike */
    fer_ratio slope_uncertainty; /**< standard uncertainty of it; NaN: all blocks are alike */
    fer_ratio
        slope_p; /**< probability of a slope as large where there is none, two-sided; NaN: all blocks are alike */
    fer_length intercept; /**< deviation of the line at length 0; NaN: all blocks are alike */
    /** standard uncertainty of it; NaN: all blocks are alike */
    fer_length intercept_uncertainty;
    fer_length
        scatter; /**< standard deviation of a reading about the line, or about the bias where no line is used */
    fer_ratio
        explained; /**< share of the deviations' squares that the line explains; NaN: all blocks are alike */
    int corrected_by_line; /**< the slope is significant: correct by the line @flag @optional by the bias */
    fer_gauge gauge;       /**< correction and uncertainty where the gauge is used */
} fer_gauge_check;

/** How good a way of measuring is for a tolerance. */
typedef struct fer_measuring_rate {
    fer_ratio system;  /**< Q of the gauge alone: four of its standard uncertainties by the tolerance */
    fer_ratio process; /**< Q with what is common to all pieces */
    /** C of the gauge alone: 0.3 T by six of its standard uncertainties; NaN: the gauge is without error */
    double system_index;
    /** C with what is common to all: 0.3 T by three; NaN: all is without error */
    double process_index;
    fer_length smallest_tolerance; /**< smallest tolerance for which Q is at most 15 % and 30 % */
} fer_measuring_rate;

/** A guard band that keeps a risk. */
typedef struct fer_guard_choice {
    fer_guard guard; /**< the smallest that keeps it */
    fer_risks risks; /**< what it costs consumer and producer */
} fer_guard_choice;

/** One opinion on a piece. */
typedef struct fer_opinion {
    int piece;  /**< number of the piece @range 0 to 1,000,000 */
    int person; /**< number of the person @range 0 to 63 */
    int said;   /**< 1 good, 2 bad @label said @range 1 to 2 */
    int truth;  /**< 1 good, 2 bad @label truth @range 1 to 2 @optional not known */
} fer_opinion;

/** How people agree. */
typedef struct fer_agreement {
    size_t pieces; /**< number of pieces */
    size_t people; /**< number of people */
    fer_ratio
        bad_passed; /**< share of the opinions on bad pieces that say good; NaN: no piece is known as bad */
    fer_ratio bad_passed_upper; /**< upper limit of it, exact; 100 % where no piece is known as bad */
    fer_ratio
        good_refused; /**< share of the opinions on good pieces that say bad; NaN: no piece is known as good */
    fer_ratio good_refused_upper; /**< upper limit of it, exact; 100 % where no piece is known as good */
    fer_ratio within;  /**< share of the pieces, person by person, on which a person always said the same */
    fer_ratio between; /**< share of the pieces on which all said the same */
    double
        kappa; /**< agreement beyond chance: Cohen's for two people with one opinion each, otherwise Fleiss'; NaN: none */
    double kappa_error;      /**< standard error of it; NaN: no kappa */
    double kappa_lower;      /**< lower limit of it, at most as good as the error; NaN: no kappa */
    double kappa_upper;      /**< upper limit of it; NaN: no kappa */
    fer_status kappa_status; /**< why there is no kappa; FER_OK: there is */
    double kappa_truth;      /**< Cohen's between all opinions and the truth; NaN: not defined */
} fer_agreement;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Gauge study: parts, people, repeated readings; which share of the scatter is the gauge's, with limits.
 *
 * @formula two-way analysis of variance, \f$p\f$ parts, \f$o\f$ people, \f$r\f$ readings: \f$ \sigma_e^2 = MS_e \f$,
 * \f$ \sigma_{po}^2 = (MS_{po} - MS_e)/r \f$, \f$ \sigma_o^2 = (MS_o - MS_{po})/(pr) \f$, \f$ \sigma_p^2 = (MS_p - MS_{po})/(or) \f$,
 * below 0 counts as 0; gauge \f$ (MS_o + (p - 1)MS_{po} + p(r - 1)MS_e)/(pr) \f$. Where the interaction's probability is above
 * `pool_above`, \f$ MS_{po} \f$ and \f$ MS_e \f$ are one. Limits: repeatability by chi-square, exact; sums
 * \f$ \hat\gamma \mp \sqrt{\sum(G_i c_i MS_i)^2} \f$ (modified large-sample), differences by Ting's form of it. By simulation 0.946 to
 * 0.963 where 0.95 are asked. Satterthwaite's degrees of freedom are for budgets, not for limits.
 *
 * @param[in] readings  in any order; each person reads each part equally often, at least twice
 * @param[in] count  number of readings, at most 2000
 * @param[in] tolerance  upper minus lower limit @range 0.000001 mm to 1,000,000 mm @optional no share of it
 * @param[in] confidence  of each limit, one-sided @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[in] settings  pooling, calibration, step @optional as usual
 * @param[out] study  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no readings
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 2000
 * @retval FER_STUDY_READING_MISSING  a diameter is not given
 * @retval FER_STUDY_READING_OUT_OF_RANGE  a diameter is not 0.001 mm to 1,000,000 mm
 * @retval FER_STUDY_NUMBER_OUT_OF_RANGE  a part is not 0 to 999, or a person not 0 to 63
 * @retval FER_STUDY_TOO_SMALL  fewer than two parts, people or readings of each
 * @retval FER_STUDY_NOT_BALANCED  not every person has read every part equally often
 * @retval FER_STUDY_TOLERANCE_OUT_OF_RANGE  given, and not 0.000001 mm to 1,000,000 mm
 * @retval FER_STUDY_SETTINGS_OUT_OF_RANGE  pool_above not 0 % to 100 %, or calibration or step negative or too large
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_SAMPLE_WITHOUT_SCATTER  repeated readings never differ, and no step is given
 * @accuracy mean squares 1e-13, limits 1e-11 relative
 * @source Montgomery, Introduction to statistical quality control; Burdick, Borror and Montgomery, Design and analysis of gauge
 *         R&R studies, 2005; Ting et al., J. Statist. Comput. Simul. 35 (1990) (all from memory)
 */
FER_API fer_status fer_study_gauge(const fer_study_reading *readings, size_t count, fer_length tolerance,
                                   fer_ratio confidence, fer_study_settings settings, fer_gauge_study *study);

/**
 * The same study by ranges: for those who must follow a sheet. It has no limits, and knows no interaction.
 *
 * @formula \f$ EV = \bar R/d_2^*(r, po) \f$, \f$ AV^2 = (\bar X_{diff}/d_2^*(o, 1))^2 - EV^2/(pr) \f$,
 * \f$ PV = R_p/d_2^*(p, 1) \f$, \f$ d_2^*(n, g) = \sqrt{d_2^2 + d_3^2/g} \f$
 *
 * @param[in] readings  in any order; each person reads each part equally often, at least twice; at most 100 parts
 * @param[in] count  number of readings, at most 2000
 * @param[in] tolerance  upper minus lower limit @range 0.000001 mm to 1,000,000 mm @optional no share of it
 * @param[out] study  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 2000 readings, more than 100 parts, or more than 100 readings of each
 * @retval FER_SAMPLE_WITHOUT_SCATTER  repeated readings never differ
 * @retval FER_STUDY_READING_MISSING  a diameter is not given
 * @retval FER_STUDY_NOT_BALANCED  and the other statuses of fer_study_gauge()
 * @accuracy 1e-11 relative
 * @source Duncan, Quality control and industrial statistics (from memory)
 */
FER_API fer_status fer_study_gauge_by_ranges(const fer_study_reading *readings, size_t count,
                                             fer_length tolerance, fer_range_study *study);

/**
 * Bias and linearity of a gauge from readings of gauge blocks: its correction and standard uncertainty.
 *
 * @formula deviations \f$ d = \f$ reading minus block; mean \f$ \bar d \f$ and straight line \f$ a + bx \f$. Correction
 * \f$ -\bar d \f$, or minus the line where its slope is significant; at the length \f$x\f$
 * \f$ u^2 = s^2(1/n + (x - \bar x)^2/S_{xx}) + u_b^2 + \max(0, q^2/12 - s^2/n) + (xe)^2/3 \f$, without the middle term where no line is
 * used
 *
 * @param[in] readings  of one block or several, each several times
 * @param[in] count  number of readings, 3 to 2000
 * @param[in] confidence  a slope is significant below one minus it @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[in] blocks  their uncertainty, the gauge's step, temperature, where it is used @optional exact, stepless, none
 * @param[out] check  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no readings
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 2000
 * @retval FER_STUDY_TOO_SMALL  fewer than three readings
 * @retval FER_STUDY_READING_MISSING  a block or a reading is not given
 * @retval FER_BLOCK_OUT_OF_RANGE  a block or reading is not 0.001 mm to 1,000,000 mm, or what is known of the blocks is out of its range
 * @retval FER_GAUGE_CORRECTION_OUT_OF_RANGE  the correction would not be -100 mm to 100 mm
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @accuracy 1e-12 relative
 * @source JCGM 100:2008, 4.3, F.2.2.1, H.3
 */
FER_API fer_status fer_calibrate_gauge(const fer_block_reading *readings, size_t count, fer_ratio confidence,
                                       fer_block blocks, fer_gauge_check *check);

/**
 * How good a way of measuring is for a tolerance, as ISO 22514-7 has it (from memory).
 *
 * @formula gauge alone \f$ u_s^2 = \max(r^2, q^2/12) + b^2/3 \f$ with repeatability, step and a bias that is not corrected; with
 * what is common \f$ u_p^2 = u_s^2 + u^2 \f$; \f$ Q = 4u/T \f$, \f$ C_s = 0.3T/(6u_s) \f$, \f$ C_p = 0.3T/(3u_p) \f$. Usual limits: Q 15 %
 * and 30 %, which are indices of 1.33.
 *
 * @param[in] tolerance  upper minus lower limit @range 0.000001 mm to 1,000,000 mm
 * @param[in] bias  that is not corrected, either way @range -1,000,000 mm to 1,000,000 mm @optional none
 * @param[in] measuring  repeatability, step and what is common @unused repeatability_degrees @optional without error
 * @param[out] rate  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_STUDY_TOLERANCE_MISSING  it is 0
 * @retval FER_STUDY_TOLERANCE_OUT_OF_RANGE  not 0.000001 mm to 1,000,000 mm
 * @retval FER_STUDY_SETTINGS_OUT_OF_RANGE  the bias is not -1,000,000 mm to 1,000,000 mm
 * @retval FER_MEASURING_REPEATABILITY_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_MEASURING_DEGREES_OUT_OF_RANGE  neither 0 nor 1 to 1,000,000
 * @retval FER_MEASURING_COMMON_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_MEASURING_RESOLUTION_OUT_OF_RANGE  negative, above 10 mm or not a number
 * @accuracy 4 units in the last place
 * @source ISO 22514-7 (from memory)
 */
FER_API fer_status fer_rate_measuring(fer_length tolerance, fer_length bias, fer_measuring measuring,
                                      fer_measuring_rate *rate);

/**
 * Smallest guard band that keeps the consumer's risk, and what it costs the producer.
 *
 * @param[in] process  mean and standard deviation of the true values; the latter above 0
 * @param[in] standard_uncertainty  of a measured value @range 0 to 1,000,000 mm
 * @param[in] limits  in order @range -1,000,000 mm to 1,000,000 mm
 * @param[in] consumer  risk that is kept @range above 0 % to 50 %
 * @param[out] choice  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_STUDY_SETTINGS_OUT_OF_RANGE  the risk is not above 0 % and at most 50 %
 * @retval FER_GUARD_OUT_OF_RANGE  not even ten standard uncertainties keep it
 * @retval FER_PROCESS_DEVIATION_MISSING  and the other statuses of fer_find_risks()
 * @accuracy factor 1e-9
 * @source JCGM 106:2012, 9.5
 */
FER_API fer_status fer_choose_guard(const fer_process *process, fer_length standard_uncertainty,
                                    fer_length_range limits, fer_ratio consumer, fer_guard_choice *choice);

/**
 * How people agree who say good or bad: against the truth, with themselves, with each other.
 *
 * @formula exact upper limits (Clopper and Pearson) by the beta distribution; Cohen's
 * \f$ \kappa = (p_o - p_e)/(1 - p_e) \f$ with the standard error of Fleiss, Cohen and Everitt; of several people Fleiss'
 * \f$ \kappa \f$ with a standard error by leaving out one piece at a time; limits \f$ \kappa \pm z \f$ standard errors
 *
 * @param[in] opinions  in any order
 * @param[in] count  number of opinions, 2 to 2000
 * @param[in] confidence  of each limit, one-sided @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[out] agreement  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no opinions
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 2000
 * @retval FER_OPINION_OUT_OF_RANGE  piece, person, what was said or the truth is not in its range, or a piece is good and bad
 * @retval FER_OPINION_TOO_FEW  no piece has two opinions
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @accuracy 1e-12 relative; limits of shares 1e-11
 * @source Clopper and Pearson, Biometrika 26 (1934) 404-413; Cohen, Educ. Psychol. Meas. 20 (1960) 37-46; Fleiss, Cohen and
 *         Everitt, Psychol. Bull. 72 (1969) 323-327; Fleiss, Psychol. Bull. 76 (1971) 378-382 (all from memory)
 */
FER_API fer_status fer_find_agreement(const fer_opinion *opinions, size_t count, fer_ratio confidence,
                                      fer_agreement *agreement);

/**
 * Name of a finding, such as "PEOPLE_DIFFER".
 *
 * @param[in] finding  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_study_finding_name(fer_study_finding finding);

/**
 * Sentence of a finding in English.
 *
 * @param[in] finding  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_study_finding_sentence(fer_study_finding finding);

/**
 * Severity of a finding.
 *
 * @param[in] finding  any number
 * @return its severity; FER_SEVERITY_STOP for a number that is not in the list
 */
FER_API fer_severity fer_study_finding_severity(fer_study_finding finding);

#ifdef __cplusplus
}
#endif

#endif
