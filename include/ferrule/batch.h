/* SPDX-License-Identifier: MIT */
/** @file
 * Module `batch`: the diameters of a batch in one call: accept, reject, or find out first.
 *
 * The decision is on diameters, never on assemblies: these are released one by one, by fer_release_assembly(), which takes a diameter
 * that was passed by sample as such. Where anything has to be done first the batch is not accepted.
 */
#ifndef FERRULE_BATCH_H
#define FERRULE_BATCH_H

#include <ferrule/capability.h>
#include <ferrule/caution.h>
#include <ferrule/chart.h>
#include <ferrule/conformity.h>
#include <ferrule/sampling.h>

/** Greatest number of pieces that are judged together. */
#define FER_BATCH_MAXIMUM 500

/** What is asked of a batch; all zero but the limits: the pieces measured are all there are. */
typedef struct fer_batch_question {
    fer_wanted wanted; /**< limits and target of the diameter */
    /** how the pieces are measured @optional not known: nothing is accepted, unless the guard says that it is to do without */
    fer_measuring measuring;
    /** how a single piece is judged; the side is that of the limits @optional guard band of 1.65 standard uncertainties */
    fer_guard guard;
    /** pieces of the batch, those measured among them @label pieces of the batch @range 1 to 1,000,000 @optional those measured
     * are all */
    size_t lot;
    /** share outside the limits that is allowed where not all are measured @label share allowed outside @range 0.0001 % to 50 %
     * @optional the usual 1 % (common practice, no source) */
    fer_ratio allowed;
    /** of what a sample shows, one-sided @label confidence @range above 50 % to 99.9999 % @optional the usual 90 % */
    fer_ratio confidence;
    /** index that the sample has to show as well @label index to be shown @range 0.01 to 10 @decimals 2 @optional none */
    double index;
    /** which signals of the chart count @optional a piece beyond 3.5 standard deviations, sums with an allowance of 0.5 and a
     * decision limit of 5: a false signal in one of fifteen good batches of thirty */
    fer_charting charting;
    /** pressure that the assemblies have to withstand, for the number of bursts @label burst pressure asked @optional no bursts are asked for */
    fer_burst_aim burst_aim;
} fer_batch_question;

/** @def FER_BATCH_FINDING_LIST
 * The one list of findings on a batch, in the order in which to look at them: X(name, number, severity, sentence). Numbers may have
 * gaps. */
#define FER_BATCH_FINDING_LIST(X)                                                                            \
    X(PIECE_OUTSIDE, 0, STOP,                                                                                \
      "a measured piece is outside its limits: measure every piece, and scrap what is outside")              \
    X(GAUGE_NOT_KNOWN, 8, CONFIRM,                                                                           \
      "nothing is known of the gauge: nothing can be accepted with it, unless somebody answers for it")      \
    X(NOT_NORMAL, 9, CONFIRM,                                                                                \
      "the diameters do not look normal: what a sample shows of the rest does not hold, look for two "       \
      "streams, or measure all")                                                                             \
    X(CANNOT_BE_SHOWN, 10, CONFIRM,                                                                          \
      "at this level and scatter no number of pieces will show it: move the mean, lower the scatter, or "    \
      "measure all")                                                                                         \
    X(PIECES_UNDECIDED, 16, DO_FIRST,                                                                        \
      "a measured piece is too near to a limit to decide: measure it again, with more readings or a better " \
      "gauge")                                                                                               \
    X(CHART_SIGNAL, 17, DO_FIRST,                                                                            \
      "the chart signals: find the cause at the piece reported before the rest is judged by the sample")     \
    X(LEVEL_CHANGED, 18, DO_FIRST,                                                                           \
      "the level changed after the piece reported: look for what was touched there")                         \
    X(GROUPS_DIFFER, 19, DO_FIRST,                                                                           \
      "groups differ more than their pieces do: dies, presses or people are not alike")                      \
    X(NO_SCATTER, 20, DO_FIRST,                                                                              \
      "all pieces read the same: the gauge is too coarse to show how they scatter")                          \
    X(GAUGE_COVERS_SCATTER, 21, DO_FIRST,                                                                    \
      "the pieces scatter no more than the gauge does: use a better gauge")                                  \
    X(SHARE_NOT_SHOWN, 22, DO_FIRST,                                                                         \
      "so few pieces do not show that the rest is inside the limits: measure as many more as are reported")  \
    X(INDEX_NOT_SHOWN, 23, DO_FIRST,                                                                         \
      "so few pieces do not show the index that is asked: measure as many more as are reported")             \
    X(OFF_TARGET, 32, KNOW,                                                                                  \
      "the mean is off the target by more than chance: correct the dial by the amount reported")             \
    X(GAUGE_WIDE, 33, KNOW, "more than half of the variance is the gauge's")                                 \
    X(STEP_TOO_COARSE, 34, KNOW, "the gauge's step is above a quarter of the standard deviation")            \
    X(OUTLIER, 35, KNOW, "one piece is far from the others: look at it; it counts all the same")             \
    X(BURSTS_NEEDED, 36, KNOW,                                                                               \
      "diameters say nothing about bursts: so many pieces as are reported, none of which bursts, show it")   \
    X(DIAMETERS_ONLY, 37, KNOW,                                                                              \
      "diameters say nothing about leaks: check and proof test every assembly before it is released")

/** A finding of #FER_BATCH_FINDING_LIST. */
typedef enum fer_batch_finding {
#define FER_BATCH_FINDING_ENUMERATOR(name, number, severity, sentence) FER_BATCH_FINDING_##name = number,
    FER_BATCH_FINDING_LIST(FER_BATCH_FINDING_ENUMERATOR)
#undef FER_BATCH_FINDING_ENUMERATOR
        FER_BATCH_FINDING_COUNT /**< above every number of a finding; not a finding */
} fer_batch_finding;

/** A set of findings: bit n stands for finding number n. */
typedef struct fer_batch_findings {
    uint64_t bits; /**< bit n is set where finding n applies */
} fer_batch_findings;

/** What is to be done with the diameters of a batch, and why. */
typedef struct fer_batch_answer {
    /** on the diameters, never on assemblies; undecided: find out first, see the findings */
    fer_decision decision;
    fer_batch_findings findings; /**< which findings apply */
    fer_cautions cautions;       /**< which cautions apply */
    size_t outside;              /**< measured pieces that are rejected */
    size_t undecided;            /**< measured pieces that are neither accepted nor rejected */
    fer_length mean;             /**< mean diameter */
    fer_length deviation; /**< standard deviation of the pieces, without the gauge's; NaN: it is not seen */
    double index;         /**< nearer index, without the gauge; NaN: it is not seen */
    double index_lower;   /**< its lower limit with the confidence; NaN: there is none above 0 */
    fer_ratio
        outside_share; /**< share outside the limits, estimated; NaN: fewer than three pieces, or not seen */
    fer_ratio outside_upper; /**< its upper limit with the confidence; NaN: as above */
    /** probability that all pieces that were not measured are inside; 100 %: none is left; NaN: as above */
    fer_ratio rest_inside;
    /** to be added to the dial: target minus mean; NaN: no target */
    fer_length correction;
    size_t
        signal_at; /**< place of the first piece at which the chart signals, from 0; 0 without a signal, see the findings */
    size_t
        change_after; /**< place of the last piece before the level changed, from 0; 0 without a change, see the findings */
    size_t
        more_pieces; /**< so many more would show it if they came out as these did; 0: none are needed, or none will do */
    size_t to_burst; /**< pieces to burst without a failure, at the limit; 0: no bursts are asked for */
} fer_batch_answer;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Diameters of a batch: accept, reject, or find out first.
 *
 * The first that applies: a piece that fer_judge() rejects: reject. All are measured and each is accepted: accept. Otherwise the rest
 * is judged by the sample: accepted where the upper limit of the share outside is not above what is allowed, the index asked is
 * shown, and no finding asks for anything first, such as a signal of the chart, a change of the level (p below 1 %), groups that differ
 * (p below 1 %), values that do not look normal (p below 1 %, eight pieces). What else applies: undecided.
 *
 * @formula uncertainty of a piece \f$ u^2 = \sigma_g^2 + u_c^2 \f$; more pieces: the smallest number whose limits would do with the
 * mean and the standard deviation found; off target: \f$ |\bar x - t| > 2\sqrt{s^2/n + u_c^2} \f$
 *
 * @param[in] pieces  of one kind, in the order they were made
 * @param[in] count  number of pieces, 1 to 500
 * @param[in] question  what is asked
 * @param[out] answer  undecided, NaN and 0 on failure
 * @retval FER_OK  done; see the decision
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no pieces
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 500
 * @retval FER_SAMPLE_PIECE_MISSING  a diameter is not given
 * @retval FER_SAMPLE_PIECE_OUT_OF_RANGE  a diameter is not 0.001 mm to 1,000,000 mm
 * @retval FER_SAMPLE_GROUP_OUT_OF_RANGE  not 0 to 1,000,000
 * @retval FER_SAMPLE_KIND_OUT_OF_RANGE  not 0 to 63
 * @retval FER_CHART_KINDS_SEVERAL  the pieces are not all of one kind
 * @retval FER_LIMIT_OUT_OF_RANGE  a limit that counts is not -1,000,000 mm to 1,000,000 mm
 * @retval FER_LIMIT_WRONG_ORDER  lower limit not below the upper
 * @retval FER_GUARD_SIDE_UNKNOWN  not in #fer_side
 * @retval FER_TARGET_OUTSIDE_LIMITS  given, and not between the limits and above 0
 * @retval FER_MEASURING_REPEATABILITY_OUT_OF_RANGE  and the other statuses of fer_find_capability() on the gauge
 * @retval FER_MEASURING_DEGREES_OUT_OF_RANGE  neither 0 nor 1 to 1,000,000
 * @retval FER_MEASURING_COMMON_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_MEASURING_RESOLUTION_OUT_OF_RANGE  negative, above 10 mm or not a number
 * @retval FER_GUARD_OUT_OF_RANGE  factor negative, above 10 or not a number
 * @retval FER_GUARD_DEGREES_OUT_OF_RANGE  given, and not at least 1 and finite
 * @retval FER_BATCH_LOT_OUT_OF_RANGE  given, and not the number of pieces to 1,000,000
 * @retval FER_BATCH_ALLOWED_OUT_OF_RANGE  given, and not 0.0001 % to 50 %
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_INDEX_OUT_OF_RANGE  given, and not 0.01 to 10
 * @retval FER_CHART_WEIGHT_OUT_OF_RANGE  and the other statuses of fer_next_point() on the charting
 * @retval FER_CHART_LIMIT_OUT_OF_RANGE  given, and not 0.5 to 6
 * @retval FER_CHART_ALLOWANCE_OUT_OF_RANGE  given, and not 0.1 to 3
 * @retval FER_CHART_DECISION_OUT_OF_RANGE  given, and not 0.5 to 20
 * @retval FER_CHART_BEYOND_OUT_OF_RANGE  given, and not 1 to 6
 * @retval FER_CHART_RULE_OUT_OF_RANGE  the length of a rule is given, and not in its range
 * @retval FER_CHART_DEVIATION_OUT_OF_RANGE  given, and not 0.000001 mm to 1,000,000 mm
 * @retval FER_CHART_CENTRE_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm, or without a standard deviation
 * @retval FER_CHART_RESOLUTION_OUT_OF_RANGE  not 0 to 10 mm
 * @retval FER_BURST_WORKING_OUT_OF_RANGE  given, and not 0.001 MPa to 1,000 MPa
 * @retval FER_BURST_MULTIPLE_OUT_OF_RANGE  given, and not 1 to 100
 * @retval FER_CONTENT_OUT_OF_RANGE  the share of the bursts is given, and not 1 % to 99.9999 %
 * @accuracy as the functions that it calls
 * @source common practice, no source; the parts as in fer_judge(), fer_find_share_outside(), fer_find_capability(), fer_next_point(),
 *         fer_find_change(), fer_test_normality()
 */
FER_API fer_status fer_judge_batch(const fer_sample_piece *pieces, size_t count,
                                   const fer_batch_question *question, fer_batch_answer *answer);

/**
 * Name of a finding on a batch, such as "LEVEL_CHANGED".
 *
 * @param[in] finding  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_batch_finding_name(fer_batch_finding finding);

/**
 * Sentence of a finding on a batch in English.
 *
 * @param[in] finding  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_batch_finding_sentence(fer_batch_finding finding);

/**
 * Severity of a finding on a batch.
 *
 * @param[in] finding  any number
 * @return the severity; STOP for a number that is not in the list
 */
FER_API fer_severity fer_batch_finding_severity(fer_batch_finding finding);

#ifdef __cplusplus
}
#endif

#endif
