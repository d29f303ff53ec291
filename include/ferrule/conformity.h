/* SPDX-License-Identifier: MIT */
/** @file
 * Module `conformity`: is the crimp right, given how well it was measured?
 *
 * Between acceptance and rejection lies a band in which the measurement cannot tell: undecided. The band comes from
 * the standard uncertainty of the measured diameter; a better gauge or more readings make it narrower.
 */
#ifndef FERRULE_CONFORMITY_H
#define FERRULE_CONFORMITY_H

#include <ferrule/value.h>

/** What is done with a piece. */
typedef enum fer_decision {
    FER_DECISION_UNDECIDED, /**< the measurement cannot tell; also what is left after a failure */
    FER_DECISION_ACCEPT,    /**< conforms, with the probability asked for */
    FER_DECISION_REJECT     /**< does not conform, with the probability asked for */
} fer_decision;

/** What is known of the pieces before one is measured; all zero: nothing. */
typedef struct fer_process {
    /** mean diameter of the pieces that the process makes @label mean of the process @range -1,000,000 mm to
     * 1,000,000 mm @optional with standard deviation 0 not known */
    fer_length mean;
    /** their standard deviation, without the gauge's @label deviation of the process @range 0 mm to 1,000,000
     * mm @optional not known */
    fer_length standard_deviation;
} fer_process;

/** Verdict on one measured value. */
typedef struct fer_verdict {
    fer_decision decision; /**< accept, reject or undecided */
    fer_ratio conforming;  /**< probability that the true value lies inside the limits that count */
    fer_ratio below;       /**< probability that it lies below the lower limit */
    fer_ratio above;       /**< probability that it lies above the upper limit */
    fer_length guard;      /**< how far inside a limit acceptance ends */
    /** values that are accepted; a limit that does not count is repeated as given */
    fer_length_range accept;
    /** values outside it are rejected; a limit that does not count is repeated as given */
    fer_length_range reject;
    fer_length value; /**< value that was judged: as measured, or drawn towards the process mean */
    fer_length standard_uncertainty; /**< of that value */
    int by_probability; /**< tolerance so narrow that both tails count @flag @optional by guard band */
    /** so uncertain that nothing can be accepted; the ends of `accept` are crossed @flag @optional
     * something can */
    int zone_empty;
} fer_verdict;

/** What a rule of acceptance costs consumer and producer of the pieces, as shares of all pieces. */
typedef struct fer_risks {
    fer_ratio conforming; /**< pieces whose true value lies inside the limits */
    fer_ratio accepted;   /**< pieces that are accepted */
    fer_ratio rejected;   /**< pieces that are rejected */
    fer_ratio undecided;  /**< pieces that are neither */
    fer_ratio consumer;   /**< consumer's risk: outside the limits and accepted */
    fer_ratio producer;   /**< producer's risk: inside the limits and not accepted */
} fer_risks;

/** Crimp diameters whose compression is in its range, by a joint whose measurements are uncertain. */
typedef struct fer_uncertain_window {
    /** the window as computed, in order @label window @range -1,000,000 mm to 1,000,000 mm */
    fer_length_range range;
    /** standard uncertainty of its lower end @label uncertainty of its lower end @range 0 mm to 1,000,000
     * mm @optional it is exact */
    fer_length lower_uncertainty;
    /** standard uncertainty of its upper end @label uncertainty of its upper end @range 0 mm to 1,000,000
     * mm @optional it is exact */
    fer_length upper_uncertainty;
} fer_uncertain_window;

/** Greatest number of pieces in a sample. */
#define FER_SAMPLE_MAXIMUM 5000

/** One measured piece of a sample. */
typedef struct fer_sample_piece {
    /** mean of its readings, corrected @label diameter of the piece @range 0.001 mm to 1,000,000 mm */
    fer_length diameter;
    /** pieces that were made together have the same number @label group @range 0 to 1,000,000 @optional all one */
    int group;
    /** die, size or coupling @label kind @range 0 to 63 @optional all one */
    int kind;
} fer_sample_piece;

/** What the pieces ought to be. */
typedef struct fer_wanted {
    /** of the diameter, in order where both count @label limits @range -1,000,000 mm to 1,000,000 mm */
    fer_length_range limits;
    /** diameter to aim at, between the limits @label target @range 0 mm to 1,000,000 mm @optional the middle of the limits */
    fer_length target;
    fer_side side; /**< which limits count @optional both */
} fer_wanted;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Verdict on a measured value: accept, reject or undecided, and the probability that the piece conforms.
 *
 * @formula \f$ P = F((T_u - y)/u) - F((T_l - y)/u) \f$, \f$F\f$ the normal distribution, or Student's where the
 * uncertainty has degrees of freedom. Accepted inside \f$ T_l + g,\ T_u - g \f$, rejected outside
 * \f$ T_l - g,\ T_u + g \f$, \f$ g = k u \f$ (with degrees of freedom \f$k\f$ is Student's quantile at
 * \f$\Phi(k)\f$). Where the tolerance \f$ T_u - T_l \f$ is below \f$ (2k + 1.7)u \f$ (5 u for the usual factor), or the
 * uncertainty has degrees of freedom, both tails count: accepted while \f$ P \ge \Phi(k) \f$, rejected while
 * \f$ P < 1 - \Phi(k) \f$. Where not even the middle of the limits would be accepted, nothing is: a value is rejected
 * outside \f$ T_l - g,\ T_u + g \f$, and undecided otherwise. With a process of standard deviation \f$\tau\f$ about
 * \f$\mu\f$ the value becomes
 * \f$ (y\tau^2 + \mu u^2)/(\tau^2 + u^2) \f$ and its variance \f$ \tau^2u^2/(\tau^2 + u^2) \f$.
 *
 * @param[in] value  measured @range -1,000,000 mm to 1,000,000 mm
 * @param[in] standard_uncertainty  of the value @range 0 to 1,000,000 mm @optional the limits themselves decide
 * @param[in] limits  lower below upper where both count @range -1,000,000 mm to 1,000,000 mm
 * @param[in] guard  how to decide @optional guard band of 1.65 standard uncertainties, both limits
 * @param[in] process  what is known of the pieces @optional nothing
 * @param[out] verdict  undecided, numbers NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_LIMIT_OUT_OF_RANGE  value or a limit that counts is not -1,000,000 mm to 1,000,000 mm
 * @retval FER_LIMIT_WRONG_ORDER  lower limit not below the upper
 * @retval FER_UNCERTAINTY_OUT_OF_RANGE  not 0 to 1,000,000 mm
 * @retval FER_GUARD_OUT_OF_RANGE  factor negative, above 10 or not a number
 * @retval FER_GUARD_SIDE_UNKNOWN  not in #fer_side
 * @retval FER_GUARD_DEGREES_OUT_OF_RANGE  given, and not at least 1 and finite
 * @retval FER_PROCESS_MEAN_OUT_OF_RANGE  not -1,000,000 mm to 1,000,000 mm
 * @retval FER_PROCESS_DEVIATION_OUT_OF_RANGE  not 0 to 1,000,000 mm
 * @retval FER_PROCESS_DEVIATION_MISSING  a mean without a standard deviation
 * @retval FER_PROCESS_WITH_DEGREES  a process together with degrees of freedom
 * @accuracy probabilities 1e-14 absolute
 * @source ISO 14253-1:2017 (guard band); JCGM 106:2012, 7.2 to 7.4, 8.3, A.4.4 (probability, process)
 */
FER_API fer_status fer_judge(fer_length value, fer_length standard_uncertainty, fer_length_range limits,
                             fer_guard guard, fer_process process, fer_verdict *verdict);

/**
 * Consumer's and producer's risk over all pieces that a process makes.
 *
 * @formula consumer \f$ \int_{y \notin T} f(y)\,A(y)\,dy \f$, producer \f$ \int_{y \in T} f(y)(1 - A(y))\,dy \f$ with the
 * normal density \f$f\f$ of the process and the probability \f$ A(y) = \Phi((A_u - y)/u) - \Phi((A_l - y)/u) \f$ of
 * accepting a piece of the true value \f$y\f$; \f$A_l, A_u\f$ from the guard as in fer_judge().
 *
 * @param[in] process  mean and standard deviation of the true values; the latter above 0
 * @param[in] standard_uncertainty  of a measured value @range 0 to 1,000,000 mm
 * @param[in] limits  lower below upper where both count @range -1,000,000 mm to 1,000,000 mm
 * @param[in] guard  how to decide, without degrees of freedom @optional guard band of 1.65, both limits
 * @param[out] risks  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_PROCESS_DEVIATION_MISSING  the standard deviation is 0
 * @retval FER_PROCESS_WITH_DEGREES  degrees of freedom are given
 * @retval FER_LIMIT_OUT_OF_RANGE  and the other statuses of fer_judge()
 * @accuracy 1e-13 absolute; composite Gauss-Legendre rule; against SciPy, Monte Carlo and Sheppard's formula
 * @source JCGM 106:2012, 9.5
 */
FER_API fer_status fer_find_risks(const fer_process *process, fer_length standard_uncertainty,
                                  fer_length_range limits, fer_guard guard, fer_risks *risks);

/**
 * Acceptance zone: which measured values are accepted, before anything is measured.
 *
 * The same rule as in fer_judge(). That nothing can be accepted is an answer, not an error: such a measurement can only
 * reject, or leave open.
 *
 * @param[in] limits  lower below upper where both count @range -1,000,000 mm to 1,000,000 mm
 * @param[in] standard_uncertainty  of a measured value @range 0 to 1,000,000 mm @optional the limits themselves decide
 * @param[in] guard  how to decide @optional guard band of 1.65 standard uncertainties, both limits
 * @param[out] zone  NaN and 0 on failure
 * @retval FER_OK  done, empty or not
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_LIMIT_OUT_OF_RANGE  a limit that counts is not -1,000,000 mm to 1,000,000 mm
 * @retval FER_LIMIT_WRONG_ORDER  lower limit not below the upper
 * @retval FER_UNCERTAINTY_OUT_OF_RANGE  not 0 to 1,000,000 mm
 * @retval FER_GUARD_OUT_OF_RANGE  and the other statuses of fer_judge() on the guard
 * @accuracy 1e-12 of the distance between the limits
 * @source ISO 14253-1:2017; JCGM 106:2012, 8.3
 */
FER_API fer_status fer_find_acceptance_zone(fer_length_range limits, fer_length standard_uncertainty,
                                            fer_guard guard, fer_acceptance_zone *zone);

/**
 * Acceptance zone as a gauge shows it: what stands on a card, and what a reading is compared with.
 *
 * The gauge's correction is taken off, and each end is rounded inwards to the gauge's step; an end that stands on a
 * step within a millionth of it stays. Where no step is left between the ends the zone is empty.
 *
 * @param[in] zone  @from fer_find_acceptance_zone(), for the uncertainty of this gauge
 * @param[in] gauge  its correction and its step count @unused standard_uncertainty @optional the zone as it is
 * @param[out] shown  readings that are accepted, as they are read; may be the zone itself; NaN and 0 on failure
 * @retval FER_OK  done, empty or not
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_GAUGE_CORRECTION_OUT_OF_RANGE  not -100 mm to 100 mm
 * @retval FER_GAUGE_RESOLUTION_OUT_OF_RANGE  negative, above 10 mm or not a number
 * @retval FER_GUARD_SIDE_UNKNOWN  the zone's side is not in #fer_side
 * @retval FER_LIMIT_OUT_OF_RANGE  an end that counts is not -1,000,000 mm to 1,000,000 mm, or the zone's guard band is
 *         not a number
 * @accuracy exact where a whole number of steps makes a millimetre; otherwise 1 unit in the last place
 * @source none needed
 */
FER_API fer_status fer_find_shown_zone(const fer_acceptance_zone *zone, const fer_gauge *gauge,
                                       fer_acceptance_zone *shown);

/**
 * Probability that the compression is in its range where a diameter was measured, given how well the joint is known.
 *
 * @formula \f$ P = \Phi\big((W_u - y)/\sqrt{u_u^2 + u^2}\big) - \Phi\big((W_l - y)/\sqrt{u_l^2 + u^2}\big) \f$ with
 * the ends \f$W_l, W_u\f$ of the window, their standard uncertainties \f$u_l, u_u\f$ from the joint's measurements
 * alone, and the diameter's \f$u\f$
 *
 * @param[in] diameter  measured @range -1,000,000 mm to 1,000,000 mm
 * @param[in] standard_uncertainty  of it @range 0 to 1,000,000 mm @optional it is exact
 * @param[in] window  from a set-up, or any other
 * @param[out] share  the probability; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_LIMIT_OUT_OF_RANGE  the diameter or an end is not -1,000,000 mm to 1,000,000 mm
 * @retval FER_LIMIT_WRONG_ORDER  lower end not below the upper
 * @retval FER_UNCERTAINTY_OUT_OF_RANGE  an uncertainty is not 0 to 1,000,000 mm
 * @accuracy 1e-14 absolute; for the plain formula with normal inputs it is fer_conforming_share() of the joint at this diameter
 * @source as fer_conforming_share()
 */
FER_API fer_status fer_find_compression_share(fer_length diameter, fer_length standard_uncertainty,
                                              const fer_uncertain_window *window, fer_ratio *share);

#ifdef __cplusplus
}
#endif

#endif
