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

/** Usual guard band in standard uncertainties: 95 % on one side (ISO 14253-1:2017). */
#define FER_GUARD_USUAL 1.65

/** What is done with a piece. */
typedef enum fer_decision {
    FER_DECISION_UNDECIDED, /**< the measurement cannot tell; also what is left after a failure */
    FER_DECISION_ACCEPT,    /**< conforms, with the probability asked for */
    FER_DECISION_REJECT     /**< does not conform, with the probability asked for */
} fer_decision;

/** Which limits count. */
typedef enum fer_side {
    FER_SIDE_BOTH,  /**< both limits */
    FER_SIDE_LOWER, /**< only the lower limit; the upper one is not looked at */
    FER_SIDE_UPPER  /**< only the upper limit; the lower one is not looked at */
} fer_side;

/** How a verdict is reached; all zero: guard band of 1.65 standard uncertainties inside both limits. */
typedef struct fer_guard {
    /** guard band in standard uncertainties @label guard band @range 0 to 10 @decimals 2 @optional the usual
     * 1.65 */
    double factor;
    int without; /**< no guard band, the limits themselves decide @label no guard band @flag @optional with */
    fer_side side; /**< which limits count @optional both */
    /** of the standard uncertainty @label degrees of freedom @range 1 or more @decimals 0 @optional it is
     * known exactly */
    double degrees_of_freedom;
} fer_guard;

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
 * \f$ P < 1 - \Phi(k) \f$. With a process of standard deviation \f$\tau\f$ about \f$\mu\f$ the value becomes
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
 * @retval FER_TOLERANCE_BELOW_UNCERTAINTY  not even the middle of the limits would be accepted
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

#ifdef __cplusplus
}
#endif

#endif
