/* SPDX-License-Identifier: MIT */
/** @file
 * Module `diagnosis`: which causes explain a crimp that came out wrong.
 *
 * Each cause predicts something for this set-up: a deviation of the measured diameter, or, where the diameter is right
 * and the crimp looks wrong, a compression. Bayes' rule weighs them; "none of these" is always among them. Causes that
 * predict the same share the probability: then the measurement cannot decide, and the next check has to.
 */
#ifndef FERRULE_DIAGNOSIS_H
#define FERRULE_DIAGNOSIS_H

#include <ferrule/setup.h>

/** @def FER_CAUSE_LIST
 * The one list of causes: X(name, number, sentence). Up to GAUGE_ZERO they concern a wrong diameter, after it a wrong
 * look; HEALTHY and NONE_OF_THESE both. */
#define FER_CAUSE_LIST(X)                                                                                    \
    X(HEALTHY, 0, "nothing is wrong: this is the usual scatter of crimps")                                   \
    X(NONE_OF_THESE, 1, "none of these: look for something that is not on this list")                        \
    X(OTHER_DIE, 2,                                                                                          \
      "another die of the rack was in the press: isolate the press and read the size on the die")            \
    X(DIAL_ONE_STEP, 3, "the dial was set one graduation wrong: read it again")                              \
    X(DIAL_ONE_TURN, 4, "the dial was set one turn wrong: count its turns from zero")                        \
    X(DIAL_DECIMAL, 5, "the decimal point of the setting was misplaced on the dial")                         \
    X(DIAL_TARGET, 6, "the target itself was dialled: dial the target minus the die size")                   \
    X(INCH_FOR_MM, 7, "inches and millimetres were mixed when the setting was worked out")                   \
    X(ADAPTER_MISSING, 8, "the adapter set was left out: isolate the press and put it in")                   \
    X(ADAPTER_LEFT_IN, 9,                                                                                    \
      "an adapter set that this die does not need was in the press: isolate the press and take it out")      \
    X(CORRECTION_LEFT_OUT, 10, "the press's correction was left out of the setting")                         \
    X(CORRECTION_WRONG_WAY, 11, "the press's correction was taken with the wrong sign")                      \
    X(SPRINGBACK_LEFT_OUT, 12, "the springback was left out of the setting")                                 \
    X(PRESS_DRIFT, 13, "the zero of the press has drifted: check it as the manual of the press says")        \
    X(OVER_GAPS, 14, "the piece was measured over the gaps: measure over the middles of the segments")       \
    X(GAUGE_ZERO, 15, "the zero of the gauge is off: check it on a setting ring")                            \
    X(HOSE_OVER_COVER, 16, "the hose was measured over its cover and crimped on the skived end")             \
    X(HOSE_SKIVED, 17, "the hose was measured on the skived end and crimped over its cover")                 \
    X(HOSE_INSIDE_NOMINAL, 18, "the hose inside diameter is the nominal size: measure it")                   \
    X(STEM_BETWEEN_RIDGES, 19, "the stem was measured between its ridges: measure over them")                \
    X(WALL_TWICE, 20, "both walls of the ferrule were entered as one")                                       \
    X(WALL_ON_RIDGE, 21, "the ferrule wall was measured on a ridge inside: measure beside it")               \
    X(OTHER_HOSE, 22, "the hose is not the one that was measured: read its print")                           \
    X(OTHER_COUPLING, 23, "the published diameter is for another coupling: read the mark on this one")

/** A cause of #FER_CAUSE_LIST. */
typedef enum fer_cause {
#define FER_CAUSE_ENUMERATOR(name, number, sentence) FER_CAUSE_##name = number,
    FER_CAUSE_LIST(FER_CAUSE_ENUMERATOR)
#undef FER_CAUSE_ENUMERATOR
        FER_CAUSE_COUNT /**< number of causes; not a cause */
} fer_cause;

/** @def FER_CHECK_LIST
 * The one list of checks: X(name, number, sentence). */
#define FER_CHECK_LIST(X)                                                                                    \
    X(MEASURE_ANOTHER, 0, "crimp another piece with the same setting and measure it")                        \
    X(READ_DIE, 1, "isolate the press, then read the size on the die in it")                                 \
    X(READ_DIAL, 2, "read the dial as it stands, including full turns, and compare it with the sheet")       \
    X(WORK_OUT_AGAIN, 3, "work the setting out again: target minus die size plus correction, with units")    \
    X(LOOK_FOR_ADAPTER, 4, "isolate the press, then look whether the adapter set is in it")                  \
    X(GAUGE_ON_RING, 5, "measure a setting ring or a gauge block with the gauge")                            \
    X(MEASURE_OVER_MIDDLES, 6, "measure again, over the middles of the segments")                            \
    X(PRESS_ON_BAR, 7,                                                                                       \
      "check the zero as the manual of the press says; where it allows closing on a bar of known size: the " \
      "bar in a holder, hands clear, lowest pressure, then read the dial")                                   \
    X(MEASURE_HOSE, 8, "measure the hose again, inside and outside, on the end that goes into the ferrule")  \
    X(MEASURE_STEM, 9, "measure the stem again, over its ridges")                                            \
    X(MEASURE_FERRULE, 10, "measure the ferrule wall again, one wall, beside the ridges")                    \
    X(READ_MARKS, 11,                                                                                        \
      "read the print on the hose and the mark on the coupling, and compare them with the chart")

/** A check of #FER_CHECK_LIST. */
typedef enum fer_check {
#define FER_CHECK_ENUMERATOR(name, number, sentence) FER_CHECK_##name = number,
    FER_CHECK_LIST(FER_CHECK_ENUMERATOR)
#undef FER_CHECK_ENUMERATOR
        FER_CHECK_COUNT /**< number of checks; not a check */
} fer_check;

/** One measured piece. */
typedef struct fer_piece {
    /** mean of its readings, corrected @label diameter @range 0.001 mm to 1,000,000 mm */
    fer_length diameter;
    /** of it, apart from what is common to all pieces @label standard uncertainty @range 0 mm to 1000 mm
     * @decimals 4 @optional none */
    fer_length standard_uncertainty;
} fer_piece;

/** How likely a cause is before anything is measured. */
typedef struct fer_prior {
    fer_cause cause; /**< the cause */
    /** weight against the other causes' weights @label weight @range 0 to 1,000,000 @optional left out */
    fer_ratio weight;
} fer_prior;

/** How often a cause was found to be the right one. */
typedef struct fer_recorded_cause {
    fer_cause cause; /**< the cause */
    int pieces;      /**< pieces that turned out to have it @label pieces @range 0 or more */
} fer_recorded_cause;

/** What is known of press, dial and gauge; all zero: the usual (common practice, from memory). */
typedef struct fer_diagnosing {
    /** standard deviation from crimp to crimp @label deviation from crimp to crimp @range 0.000001 mm to
     * 1,000,000 mm @optional the usual 0.03 mm */
    fer_length crimp_deviation;
    /** standard deviation of a setting that is right @label deviation of the setting @range 0.000001 mm to
     * 1,000,000 mm @optional the usual 0.02 mm */
    fer_length setting_deviation;
    /** standard uncertainty common to all pieces @label uncertainty of the gauge @range 0.000001 mm to
     * 1,000,000 mm @optional none */
    fer_length gauge_uncertainty;
    /** standard deviation of a drifted press @label deviation of a drifted press @range 0.000001 mm to
     * 1,000,000 mm @optional the usual 0.15 mm */
    fer_length drift_deviation;
    /** standard deviation of a wrong zero of the gauge @label deviation of the gauge's zero @range 0.000001 mm
     * to 1,000,000 mm @optional the usual 0.10 mm */
    fer_length gauge_zero_deviation;
    /** half-width of "none of these" @label half-width of none of these @range 0.000001 mm to 1,000,000 mm
     * @optional the usual 1 mm */
    fer_length none_half_width;
    /** change of the diameter for one turn of the dial @label one turn of the dial @range 0.000001 mm to
     * 1,000,000 mm @optional the dial has no turns */
    fer_length dial_turn;
    /** change of the diameter that the adapter set makes @label change by the adapter set @range 0.000001 mm
     * to 1,000,000 mm @optional not known, left out */
    fer_length adapter;
    /** of this coupling, on the diameter @label springback @range 0.000001 mm to 1,000,000 mm @optional not
     * known, left out */
    fer_length springback;
    /** ferrule outside diameter: no reading can be larger @label ferrule outside diameter @range 0.000001 mm
     * to 1,000,000 mm @optional not known */
    fer_length uncrimped;
    fer_ratio asked; /**< probability that decides @range 0 to below 1 @optional the usual 95 % */
} fer_diagnosing;

/** How a crimp looks. */
typedef enum fer_look_kind {
    FER_LOOK_TOO_TIGHT, /**< too much compression: bore closed up, hose cut or pushed out */
    FER_LOOK_TOO_LOOSE, /**< too little compression: hose turns or slides in the ferrule, gap to be seen */
    FER_LOOK_GOOD,      /**< as it should */
    FER_LOOK_MEASURED   /**< compression found on the piece, for example sawn open */
} fer_look_kind;

/** One piece, looked at. */
typedef struct fer_look {
    fer_look_kind kind; /**< what is seen */
    /** found on the piece; only with FER_LOOK_MEASURED @label compression @range any finite number @optional
     * otherwise */
    fer_ratio compression;
    /** of eye or measurement @label standard uncertainty @range 0.0001 to 1 @decimals 4 @optional the usual
     * 2 % of the hose wall */
    fer_ratio standard_uncertainty;
} fer_look;

/** What is known of hose and coupling; all zero: the usual (common practice, from memory). */
typedef struct fer_looking {
    /** thickness of the hose cover that skiving takes off @label thickness of the cover @range 0.000001 mm
     * to 1,000,000 mm @optional the usual 1 mm */
    fer_length cover;
    /** height of a ridge of stem or ferrule @label height of a ridge @range 0.000001 mm to 1,000,000 mm
     * @optional the usual 0.5 mm */
    fer_length ridge;
    /** standard deviation of other hoses outside @label deviation of other hoses @range 0.000001 mm to
     * 1,000,000 mm @optional the usual 1.2 mm */
    fer_length other_hose;
    /** standard uncertainty of the compression as measured @label uncertainty of the compression @range 0 to
     * below 1 @decimals 4 @optional the usual 1.8 % */
    fer_ratio uncertainty;
    fer_ratio asked; /**< probability that decides @range 0 to below 1 @optional the usual 95 % */
} fer_looking;

/** One cause, weighed. */
typedef struct fer_suspect {
    fer_cause cause;       /**< the cause */
    fer_ratio probability; /**< of it, after the pieces; all causes together 1 */
    fer_ratio prior;       /**< of it, before */
    /** deviation from the target that it predicts best; NaN where a look is diagnosed */
    fer_length predicted;
    fer_ratio compression; /**< compression that it predicts; NaN where a diameter is diagnosed */
    size_t die_index; /**< OTHER_DIE: place of the likeliest die in the list; otherwise the number of dies */
} fer_suspect;

/** What the suspects amount to. */
typedef struct fer_diagnosis {
    fer_length deviation; /**< mean deviation of the pieces from the target; NaN where a look is diagnosed */
    fer_length standard_uncertainty; /**< of it, for a set-up that is right; NaN where a look is diagnosed */
    fer_cause first;                 /**< likeliest cause */
    fer_cause second;                /**< the next; NONE_OF_THESE where there is no other */
    int decided;                     /**< the first reaches the probability asked @flag */
    int undecidable;      /**< not decided, and the first two predict the same: only a check can tell @flag */
    fer_check next_check; /**< check that separates the first from the second best */
    double bits;          /**< information to expect from it on those two, in bits, 0 to 1 */
    double bits_all;      /**< information to expect from it on all causes, in bits */
    fer_cautions cautions; /**< which cautions apply: what follows is another crimp */
} fer_diagnosis;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Causes of a crimp diameter, ranked by probability.
 *
 * @formula \f$ P(c) \propto w_c \sum_k q_k\,N(\bar y;\ m_k,\ v_k^2 + s^2) \f$ with the weight \f$w_c\f$ of the cause,
 * the deviations \f$m_k\f$ that it can predict with shares \f$q_k\f$ and standard deviations \f$v_k\f$, the mean deviation
 * \f$\bar y\f$ of the pieces, weighted by \f$ 1/(\sigma^2 + u_i^2) \f$, and its variance \f$s^2\f$: one over the sum of
 * those weights, setting and gauge added. What scatters from piece to piece cancels; that is how several pieces are
 * weighed together. Where \f$ \sum (y_i - \bar y)^2/(\sigma^2 + u_i^2) \f$ is above the 99.9 % point of chi-squared with
 * \f$ n - 1 \f$ degrees of freedom they do not come from one setting, and nothing is weighed. None of these: Cauchy's distribution, which no deviation makes impossible. Dies: the nearer the
 * likelier, share \f$ 1/(1 + |\Delta|/\mathrm{mm}) \f$. No reading is larger than the ferrule that was not crimped.
 *
 * @param[in] setup  @from fer_plan_setup(), with die and dial setting
 * @param[in] press  the press that was used, see fer_check_press()
 * @param[in] dies  the rack, in the order that the set-up was planned with
 * @param[in] die_count  number of dies
 * @param[in] pieces  measured pieces of this set-up
 * @param[in] piece_count  number of pieces, at least 1
 * @param[in] priors  weights that differ from the usual ones, see fer_usual_weight(); may be empty
 * @param[in] prior_count  number of priors
 * @param[in] diagnosing  what is known @optional the usual
 * @param[out] suspects  causes that are possible here, the likeliest first
 * @param[in] capacity  number of elements in suspects; FER_CAUSE_COUNT is always enough
 * @param[out] found  number of suspects; 0 on failure
 * @param[out] diagnosis  what they amount to; NaN and NONE_OF_THESE on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no pieces
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  more suspects than capacity
 * @retval FER_SETUP_INCOMPLETE  no target, no die, or no dial setting
 * @retval FER_PIECE_DIAMETER_MISSING  not given
 * @retval FER_PIECE_DIAMETER_OUT_OF_RANGE  not 0.001 mm to 1,000,000 mm
 * @retval FER_PIECE_UNCERTAINTY_OUT_OF_RANGE  negative, above 1000 mm or not a number
 * @retval FER_DIAGNOSING_LENGTH_OUT_OF_RANGE  a length of what is known negative, above 1,000,000 mm or not a number
 * @retval FER_DIAGNOSING_PROBABILITY_OUT_OF_RANGE  negative, not below 1
 * @retval FER_PRIOR_CAUSE_UNKNOWN  not in #FER_CAUSE_LIST
 * @retval FER_PRIOR_WEIGHT_OUT_OF_RANGE  not 0 to 1,000,000
 * @retval FER_PRIOR_ALL_ZERO  the weights leave no cause
 * @retval FER_DIAGNOSIS_NOTHING_FITS  no cause that has a weight explains what was measured; only without "none of these"
 * @retval FER_DIAGNOSIS_MORE_THAN_ONE_CAUSE  the pieces differ by more than crimps scatter
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  and the other statuses of fer_check_press()
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  and the other statuses of fer_choose_die() that concern a die
 * @accuracy Bayes' rule 1e-12 absolute; calibrated in simulation: tests/agree/simulation/diagnosis.txt
 * @source Bayes' rule; what the causes predict: common practice, no source; hull of a lobed piece: module `lobe`
 */
FER_API fer_status fer_diagnose_diameter(const fer_setup *setup, const fer_press *press, const fer_die *dies,
                                         size_t die_count, const fer_piece *pieces, size_t piece_count,
                                         const fer_prior *priors, size_t prior_count,
                                         fer_diagnosing diagnosing, fer_suspect *suspects, size_t capacity,
                                         size_t *found, fer_diagnosis *diagnosis);

/**
 * Causes of a wrong look where the diameter is right, ranked by probability.
 *
 * @formula each cause changes one measurement back in the usual way it goes wrong and so predicts a compression by the
 * plain formula, with a standard deviation \f$v\f$; \f$ P(c) \propto w_c \int N(x; m, v^2) \prod_i L_i(x)\,dx \f$. Likelihood of a
 * look: \f$ \Phi((x - c_{upper})/u) \f$ too tight, \f$ \Phi((c_{lower} - x)/u) \f$ too loose, the rest of 1 good,
 * \f$ N(c_i; x, u^2) \f$ measured. A published target tells the compression, too: about the middle of the range, a
 * quarter of its width as standard deviation; the joint, with the measurement changed back, has to agree with it. So a published
 * figure outside the window is either for another coupling, or one of the measurements is wrong, and the look tells
 * which. Another coupling is possible with a published target only. Looks that no single compression explains (likelihood
 * ratio against one compression each, at 99.9 %) are not weighed, nor are looks at a piece whose diameter is wrong.
 *
 * @param[in] joint  as it was measured, see fer_check_joint()
 * @param[in] setup  @from fer_plan_setup(); its range of compression and the source of its target count
 * @param[in] diameter  crimp diameter as measured @range 0.001 mm to 1,000,000 mm
 * @param[in] looks  pieces of this set-up, looked at
 * @param[in] look_count  number of looks, 1 to 100
 * @param[in] priors  weights that differ from the usual ones, see fer_usual_weight(); may be empty
 * @param[in] prior_count  number of priors
 * @param[in] looking  what is known @optional the usual
 * @param[out] suspects  causes that are possible here, the likeliest first
 * @param[in] capacity  number of elements in suspects; FER_CAUSE_COUNT is always enough
 * @param[out] found  number of suspects; 0 on failure
 * @param[out] diagnosis  what they amount to; NaN and NONE_OF_THESE on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no looks
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 100 looks
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  more suspects than capacity
 * @retval FER_SETUP_INCOMPLETE  no range of compression, or no source of the target
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not 0.001 mm to 1,000,000 mm
 * @retval FER_LOOK_UNKNOWN  not in #fer_look_kind
 * @retval FER_LOOK_COMPRESSION_NOT_A_NUMBER  measured, and not a finite number
 * @retval FER_LOOK_UNCERTAINTY_OUT_OF_RANGE  given, and not 0.0001 to 1
 * @retval FER_DIAGNOSING_LENGTH_OUT_OF_RANGE  a length of what is known negative, above 1,000,000 mm or not a number
 * @retval FER_DIAGNOSING_PROBABILITY_OUT_OF_RANGE  uncertainty or probability negative, or not below 1
 * @retval FER_PRIOR_CAUSE_UNKNOWN  not in #FER_CAUSE_LIST
 * @retval FER_PRIOR_WEIGHT_OUT_OF_RANGE  not 0 to 1,000,000
 * @retval FER_PRIOR_ALL_ZERO  the weights leave no cause
 * @retval FER_DIAGNOSIS_NOTHING_FITS  no cause that has a weight explains what was seen; only without "none of these"
 * @retval FER_DIAGNOSIS_MORE_THAN_ONE_CAUSE  the looks contradict each other
 * @retval FER_DIAGNOSIS_DIAMETER_WRONG  the diameter is outside the set-up's limits
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @accuracy Bayes' rule and integrals 1e-10 absolute; calibrated in simulation: tests/agree/simulation/diagnosis.txt
 * @source Bayes' rule; what the causes predict: common practice, from memory; bores against nominal sizes: common practice, no source
 */
FER_API fer_status fer_diagnose_look(const fer_joint *joint, const fer_setup *setup, fer_length diameter,
                                     const fer_look *looks, size_t look_count, const fer_prior *priors,
                                     size_t prior_count, fer_looking looking, fer_suspect *suspects,
                                     size_t capacity, size_t *found, fer_diagnosis *diagnosis);

/**
 * Usual weight of a cause before anything is measured (common practice, from memory): an opinion to begin with, to be
 * replaced by the shop's own counts, see fer_learn_priors().
 *
 * @param[in] cause  any number
 * @return weight against the others'; 0 for a number that is not in the list
 */
FER_API fer_ratio fer_usual_weight(fer_cause cause);

/**
 * Weights of the causes from a shop's own record: how often which cause was found to be the right one.
 *
 * @formula posterior mean of a Dirichlet distribution, but for a common factor: \f$ w_c = t\,w_{c,0} + n_c \f$ with the usual
 * weights \f$w_{c,0}\f$, the recorded pieces \f$n_c\f$ and the trust \f$t\f$
 *
 * Record every piece, those too that had nothing wrong (HEALTHY), and those whose cause is not in the list (NONE_OF_THESE);
 * a record of wrong pieces only makes every piece look wrong.
 *
 * @param[in] records  in any order; several of one cause are added up; may be empty
 * @param[in] count  number of records
 * @param[in] trust  recorded pieces that one unit of usual weight is worth @range 0.001 to 1000 @optional the usual 1
 * @param[out] priors  one for each cause, for fer_diagnose_diameter() and fer_diagnose_look()
 * @param[in] capacity  number of elements in priors; FER_CAUSE_COUNT is needed
 * @param[out] found  FER_CAUSE_COUNT; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  capacity below FER_CAUSE_COUNT
 * @retval FER_PRIOR_CAUSE_UNKNOWN  not in #FER_CAUSE_LIST
 * @retval FER_RECORD_PIECES_OUT_OF_RANGE  negative
 * @retval FER_RECORD_TRUST_OUT_OF_RANGE  given, and not 0.001 to 1000
 * @retval FER_PRIOR_WEIGHT_OUT_OF_RANGE  a weight comes out above 1,000,000
 * @accuracy 1 unit in the last place
 * @source Dirichlet distribution: Gelman et al., Bayesian Data Analysis, 3rd ed. (2013), 3.4 (from memory)
 */
FER_API fer_status fer_learn_priors(const fer_recorded_cause *records, size_t count, fer_ratio trust,
                                    fer_prior *priors, size_t capacity, size_t *found);

/**
 * Name of a cause, such as "OTHER_DIE".
 *
 * @param[in] cause  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_cause_name(fer_cause cause);

/**
 * Sentence of a cause for the operator, in English.
 *
 * @param[in] cause  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_cause_sentence(fer_cause cause);

/**
 * Name of a check, such as "READ_DIE".
 *
 * @param[in] check  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_check_name(fer_check check);

/**
 * Sentence of a check for the operator, in English.
 *
 * @param[in] check  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_check_sentence(fer_check check);

#ifdef __cplusplus
}
#endif

#endif
