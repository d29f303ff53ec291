/* SPDX-License-Identifier: MIT */
/** @file
 * Module `sampling`: how many pieces have to be looked at, measured or burst, and what they show.
 *
 * A test that destroys the piece, or takes long, is made on a sample. A plan is chosen by the risks that it has: how often a batch
 * that is good is refused (producer's risk), and how often one that is bad is accepted (consumer's risk). The risks that are reached
 * are computed exactly, and where something has to be rounded it is rounded to the side that shows less.
 */
#ifndef FERRULE_SAMPLING_H
#define FERRULE_SAMPLING_H

#include <ferrule/caution.h>
#include <ferrule/conformity.h>
#include <ferrule/reading.h>

/** Greatest number of pieces of a plan. */
#define FER_PLAN_PIECES_MAXIMUM 10000

/** Greatest number of bad pieces at which a plan in stages refuses. */
#define FER_PLAN_REFUSE_MAXIMUM 500

/** Greatest number of bursts that are judged together. */
#define FER_BURSTS_MAXIMUM 200

/** Usual multiple of the working pressure that a hose assembly has to hold without bursting: 4 (ISO 1436, EN 853; from memory). */
#define FER_BURST_MULTIPLE_USUAL 4.0

/** A plan by counting: so many pieces are looked at, accepted where no more than so many are bad. */
typedef struct fer_plan {
    size_t pieces; /**< pieces that are looked at @label pieces @range 1 to 10,000 */
    /** accepted where so many or fewer of them are bad @label accept up to @range 0 to 9,999 @below pieces @optional none */
    size_t accept;
    /** pieces of the lot that they are drawn from @label pieces of the lot @range 1 to 1,000,000 @optional endless */
    size_t lot;
} fer_plan;

/** What a plan has to keep; shares are of bad pieces. */
typedef struct fer_plan_aim {
    fer_ratio good; /**< a lot with this share of bad pieces is good @label good share @range 0 % to 90 % */
    /** a lot with this share of bad pieces is bad @label bad share @range 0.01 % to 99 % @above good */
    fer_ratio bad;
    /** at most so often a good lot is refused @label producer's risk @range 0.0001 % to 50 % @optional the usual 5 % */
    fer_ratio producer_risk;
    /** at most so often a bad lot is accepted @label consumer's risk @range 0.0001 % to 50 % @optional the usual 10 % */
    fer_ratio consumer_risk;
    /** pieces of the lot; of a share the whole pieces count, rounded down @label pieces of the lot @range 1 to 1,000,000
     * @optional endless */
    size_t lot;
} fer_plan_aim;

/** A plan, and the risks that it has. */
typedef struct fer_plan_choice {
    fer_plan plan;           /**< the plan */
    fer_ratio producer_risk; /**< how often a good lot is refused */
    fer_ratio consumer_risk; /**< how often a bad lot is accepted */
} fer_plan_choice;

/** How many pieces it takes, and what they reach. */
typedef struct fer_pieces_needed {
    size_t pieces;     /**< number of pieces */
    fer_ratio reached; /**< confidence, or probability of showing it, that they reach */
} fer_pieces_needed;

/** What becomes of the lot after one more piece. */
typedef struct fer_plan_stage {
    int accept; /**< accepted where so many or fewer are bad; -1: not yet @label accept up to @range -1 to 499 */
    int refuse; /**< refused where so many or more are bad @label refuse from @range 1 to 500 @above accept */
} fer_plan_stage;

/** What a plan in stages does. */
typedef struct fer_stages_risk {
    fer_ratio accepted; /**< probability that the lot is accepted */
    double pieces;      /**< mean number of pieces that are looked at */
} fer_stages_risk;

/** A plan by measuring: accepted where the mean is at least so many standard deviations inside the limit. */
typedef struct fer_measured_plan {
    size_t pieces; /**< pieces that are measured @label pieces @range 1 to 10,000 */
    /** number of standard deviations between mean and limit @label factor @range -1000 to 1000 */
    double factor;
    /** the standard deviation is known, otherwise it is that of the sample @label deviation known @flag @optional of the sample */
    int deviation_known;
    /** standard deviation of the mean of the pieces, in those of a piece, gauge included; only where that is known
     * @label deviation of the mean @range 0.000001 to 1000 @optional 1 by the root of pieces */
    double mean_deviation;
} fer_measured_plan;

/** A plan by measuring, and the risks that it has where one limit counts. */
typedef struct fer_measured_choice {
    fer_measured_plan plan; /**< the plan */
    double pieces_exact;    /**< number of pieces before it was rounded up */
    /** both limits: accepted where the share outside that fer_find_share_outside() estimates is no more; NaN where the standard
     * deviation is known */
    fer_ratio share_limit;
    fer_ratio producer_risk; /**< how often a good lot is refused */
    fer_ratio consumer_risk; /**< how often a bad lot is accepted */
} fer_measured_choice;

/** One burst test. */
typedef struct fer_burst {
    /** pressure at which it burst, or at which the test stopped @label pressure @range 0.001 MPa to 10,000 MPa */
    fer_pressure pressure;
    int stopped; /**< it had not burst when the test stopped there @label stopped before it burst @flag @optional it burst */
} fer_burst;

/** What bursts have to show; all zero but the working pressure: 95 % of the assemblies hold four times it, with 90 % confidence. */
typedef struct fer_burst_aim {
    fer_pressure working; /**< working pressure @label working pressure @range 0.001 MPa to 1,000 MPa */
    /** so many times the working pressure has to be withstood @label multiple @range 1 to 100 @optional the usual 4, see
     * #FER_BURST_MULTIPLE_USUAL */
    double multiple;
    fer_ratio share; /**< share that holds it @label share @range 1 % to 99.9999 % @optional the usual 95 % */
    /** confidence, one-sided @label confidence @range above 50 % to 99.9999 % @optional the usual 90 % */
    fer_ratio confidence;
} fer_burst_aim;

/** Which distribution burst pressures have. */
typedef enum fer_strength {
    FER_STRENGTH_WEIBULL,   /**< Weibull: the weakest place bursts; the most cautious of the three */
    FER_STRENGTH_NORMAL,    /**< normal */
    FER_STRENGTH_LOGNORMAL, /**< their logarithms are normal */
    FER_STRENGTH_ANY        /**< not known: only order and number of the bursts count */
} fer_strength;

/** What bursts show. */
typedef struct fer_burst_verdict {
    /** accept: the share holds the limit with the confidence asked; reject: one burst below the limit */
    fer_decision decision;
    fer_pressure limit; /**< pressure that has to be withstood */
    /** pressure that the share holds with the confidence asked; NaN: without a shape, so few show none */
    fer_pressure bound;
    fer_ratio confidence_reached; /**< confidence that the share holds the limit */
    fer_ratio share_shown;        /**< share that holds the limit with the confidence asked */
    size_t burst;                 /**< pieces that burst */
    size_t stopped;               /**< pieces that had not burst when the test stopped */
    /** so many more would show it if they burst as these did, up to 1000 in all; 0: none are needed, or none will do */
    size_t more;
    /** bursts like these will never show it @flag @optional more of them may */
    int never_shown;
    fer_cautions cautions; /**< which cautions apply */
} fer_burst_verdict;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Probability that a plan accepts.
 *
 * @formula endless: \f$ P(X \le c) = 1 - I_p(c + 1, n - c) \f$, binomial; a lot of \f$N\f$ with \f$ D = \lfloor Np\rfloor \f$ bad ones:
 * hypergeometric \f$ \sum_{x \le c}\binom Dx\binom{N - D}{n - x}/\binom Nn \f$
 *
 * @param[in] plan  the plan
 * @param[in] bad  share of bad pieces; of a lot the whole pieces count, rounded down, so that the probability is not below the true one
 *            @range 0 % to 100 %
 * @param[out] probability  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_PLAN_PIECES_OUT_OF_RANGE  not 1 to 10,000, or more than the lot has
 * @retval FER_PLAN_ACCEPT_OUT_OF_RANGE  not below the number of pieces
 * @retval FER_PLAN_LOT_OUT_OF_RANGE  given, and not 1 to 1,000,000
 * @retval FER_PLAN_SHARE_OUT_OF_RANGE  not 0 % to 100 %
 * @accuracy 1e-12 absolute
 * @source ISO 2859-1 (from memory); DLMF 8.17; Loader, Fast and accurate computation of binomial probabilities, 2000 (from memory)
 */
FER_API fer_status fer_find_acceptance(const fer_plan *plan, fer_ratio bad, fer_ratio *probability);

/**
 * Smallest plan by counting that keeps both risks.
 *
 * @formula for \f$ c = 0, 1, \dots \f$ the smallest \f$n\f$ with \f$ P(X \le c) \le \beta \f$ at the bad share; the first that has
 * \f$ P(X \le c) \ge 1 - \alpha \f$ at the good one
 *
 * @param[in] aim  what it has to keep
 * @param[out] choice  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_PLAN_SHARE_OUT_OF_RANGE  the good share is not 0 % to 90 %, or the bad one not 0.01 % to 99 %
 * @retval FER_PLAN_SHARES_WRONG_ORDER  the good share is not below the bad one
 * @retval FER_PLAN_RISK_OUT_OF_RANGE  a risk is given, and not 0.0001 % to 50 %
 * @retval FER_PLAN_LOT_OUT_OF_RANGE  given, and not 1 to 1,000,000
 * @retval FER_PLAN_LOT_TOO_SMALL  of the lot the two shares are the same number of whole pieces
 * @retval FER_PLAN_NOT_REACHABLE  no plan up to 10,000 pieces keeps both
 * @accuracy whole numbers exact; risks 1e-12 absolute
 * @source Guenther, J. Qual. Technol. 1 (1969) 127-132 (from memory)
 */
FER_API fer_status fer_choose_plan(const fer_plan_aim *aim, fer_plan_choice *choice);

/**
 * How many pieces, none of them bad, show that a share of all is good.
 *
 * @formula endless: smallest \f$n\f$ with \f$ \beta^n \le 1 - \gamma \f$; a lot of \f$N\f$: smallest \f$n\f$ with
 * \f$ \prod_{i < n}(N - D - i)/(N - i) \le 1 - \gamma \f$, \f$ D = \max(1, \lfloor N(1 - \beta)\rfloor) \f$ bad ones
 *
 * @param[in] share  of good pieces @range 1 % to 99.9999 % @optional the usual 95 %
 * @param[in] confidence  that it is there @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[in] lot  pieces of the lot @range 1 to 1,000,000 @optional endless
 * @param[out] needed  pieces, and the confidence that they reach; NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_CONTENT_OUT_OF_RANGE  the share is given, and not 1 % to 99.9999 %
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_PLAN_LOT_OUT_OF_RANGE  given, and not 1 to 1,000,000
 * @accuracy whole numbers exact; confidence 1e-12 absolute
 * @source common knowledge: the binomial and the hypergeometric distribution
 */
FER_API fer_status fer_find_clean_pieces(fer_ratio share, fer_ratio confidence, size_t lot,
                                         fer_pieces_needed *needed);

/**
 * A plan that stops as soon as it can: Wald's lines, cut off where the exact risks are still kept.
 *
 * @formula after \f$i\f$ pieces accepted at or below \f$ si - h_0 \f$ bad ones, refused at or above \f$ si + h_1 \f$, with
 * \f$ h_0 = \ln((1 - \alpha)/\beta)/g \f$, \f$ h_1 = \ln((1 - \beta)/\alpha)/g \f$, \f$ s = \ln((1 - p_0)/(1 - p_1))/g \f$,
 * \f$ g = \ln(p_1/p_0) + \ln((1 - p_0)/(1 - p_1)) \f$; cut off after \f$n\f$ pieces at \f$c\f$, and decided before where nothing can
 * change any more. The first \f$c\f$ from that of fer_choose_plan() on for which an \f$n\f$ keeps both risks, and the smallest such
 * \f$n\f$, up to three times that plan's; where there is none, that plan by fer_curtail_plan(). Risks as for an endless lot.
 *
 * @param[in] aim  what it has to keep; a good share of 0 does not do; the lot is not looked at @unused lot
 * @param[out] stages  one for each piece
 * @param[in] capacity  number of elements in stages
 * @param[out] found  number of stages; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  found would be above capacity
 * @retval FER_PLAN_SHARE_OUT_OF_RANGE  the good share is not 0.0001 % to 90 %, or the bad one not 0.01 % to 99 %
 * @retval FER_PLAN_SHARES_WRONG_ORDER  the good share is not below the bad one
 * @retval FER_PLAN_RISK_OUT_OF_RANGE  a risk is given, and not 0.0001 % to 50 %
 * @retval FER_PLAN_NOT_REACHABLE  no plan up to 10,000 pieces and 490 bad ones keeps both
 * @accuracy exact: whole numbers; the lines 1e-13 relative
 * @source Wald, Sequential analysis, 1947; NIST/SEMATECH e-Handbook 7.1.3.2 (both from memory)
 */
FER_API fer_status fer_choose_stages(const fer_plan_aim *aim, fer_plan_stage *stages, size_t capacity,
                                     size_t *found);

/**
 * The stages of a plan by counting that stops as soon as nothing can change any more; its risks stay the same.
 *
 * @formula after \f$i\f$ pieces accepted at or below \f$ c - (n - i) \f$ bad ones, refused at \f$ c + 1 \f$
 *
 * @param[in] plan  accepting at most 499 bad ones
 * @param[out] stages  one for each piece
 * @param[in] capacity  number of elements in stages
 * @param[out] found  number of stages; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  found would be above capacity
 * @retval FER_PLAN_PIECES_OUT_OF_RANGE  not 1 to 10,000, or more than the lot has
 * @retval FER_PLAN_ACCEPT_OUT_OF_RANGE  not below the number of pieces, or above 499
 * @retval FER_PLAN_LOT_OUT_OF_RANGE  given, and not 1 to 1,000,000
 * @accuracy exact: whole numbers
 * @source common knowledge
 */
FER_API fer_status fer_curtail_plan(const fer_plan *plan, fer_plan_stage *stages, size_t capacity,
                                    size_t *found);

/**
 * Probability that a plan in stages accepts, and how many pieces it looks at on average.
 *
 * @formula the distribution of the number of bad ones among the undecided is carried on from piece to piece
 *
 * @param[in] stages  one for each piece; the last one decides: it refuses from one above what it accepts
 * @param[in] count  number of stages, 1 to 10,000
 * @param[in] lot  pieces of the lot @range 1 to 1,000,000 @optional endless
 * @param[in] bad  share of bad pieces; of a lot the whole pieces count, rounded down @range 0 % to 100 %
 * @param[out] risk  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no stages
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 10,000
 * @retval FER_STAGES_OUT_OF_RANGE  accept is not -1 to 499, refuse not above it and 1 to 500
 * @retval FER_STAGES_NEVER_END  the last stage leaves it undecided
 * @retval FER_PLAN_PIECES_OUT_OF_RANGE  more stages than the lot has pieces
 * @retval FER_PLAN_LOT_OUT_OF_RANGE  given, and not 1 to 1,000,000
 * @retval FER_PLAN_SHARE_OUT_OF_RANGE  not 0 % to 100 %
 * @accuracy 1e-12 absolute; pieces 1e-12 relative
 * @source common knowledge: sums of probabilities
 */
FER_API fer_status fer_find_stages_risk(const fer_plan_stage *stages, size_t count, size_t lot, fer_ratio bad,
                                        fer_stages_risk *risk);

/**
 * Smallest plan by measuring that keeps both risks: fewer pieces than by counting, where values are normal.
 *
 * @formula standard deviation known: \f$ n = ((z_\alpha + z_\beta)/(z_0 - z_1))^2 \f$,
 * \f$ k = (z_0z_\beta + z_1z_\alpha)/(z_\alpha + z_\beta) \f$, with \f$z\f$ the upper quantiles of the normal distribution; a gauge of
 * variance \f$\sigma_g^2\f$ within and \f$u^2\f$ common makes it \f$ (1 + \sigma_g^2/\sigma^2)/(1/n - u^2/\sigma^2) \f$. Of the sample:
 * \f$k\f$ with \f$ P(T_{n-1}(\sqrt nz_1) > k\sqrt n) = \beta \f$, noncentral t, the smallest \f$n\f$ of 3 or more that has
 * \f$ P(T_{n-1}(\sqrt nz_0) > k\sqrt n) \ge 1 - \alpha \f$. Both limits: accepted where the share outside is estimated at
 * \f$ I_x(n/2 - 1, n/2 - 1) \f$ or less, \f$ x = \max(0, 1/2 - k\sqrt n/(2(n - 1))) \f$.
 *
 * @param[in] aim  what it has to keep; a good share of 0 does not do, the lot is endless @unused lot
 * @param[in] deviation  standard deviation of the pieces without the gauge's, where it is known
 *            @range 0.000001 mm to 1,000,000 mm @optional that of the sample counts
 * @param[in] measuring  how the pieces are measured; only where the deviation is known: a gauge that is not, makes the plan refuse more,
 *            see fer_find_share_outside() @unused repeatability_degrees @optional without error
 * @param[out] measured  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_PLAN_SHARE_OUT_OF_RANGE  the good share is not 0.0001 % to 90 %, or the bad one not 0.01 % to 99 %
 * @retval FER_PLAN_SHARES_WRONG_ORDER  the good share is not below the bad one
 * @retval FER_PLAN_RISK_OUT_OF_RANGE  a risk is given, and not 0.0001 % to 50 %
 * @retval FER_PLAN_DEVIATION_OUT_OF_RANGE  given, and not 0.000001 mm to 1,000,000 mm
 * @retval FER_PLAN_DEVIATION_MISSING  a gauge with an error, and the deviation is not known
 * @retval FER_PLAN_NOT_REACHABLE  no plan up to 10,000 pieces keeps both
 * @retval FER_MEASURING_REPEATABILITY_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_MEASURING_COMMON_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_MEASURING_RESOLUTION_OUT_OF_RANGE  negative, above 10 mm or not a number
 * @accuracy factor 1e-10 relative; number of pieces exact
 * @source ISO 3951-1, ISO 3951-2 (from memory)
 */
FER_API fer_status fer_choose_measured_plan(const fer_plan_aim *aim, fer_length deviation,
                                            fer_measuring measuring, fer_measured_choice *measured);

/**
 * Probability that a plan by measuring accepts, one limit.
 *
 * @formula known: \f$ \Phi((z_p - k)/\sigma_m) \f$, \f$\sigma_m\f$ the standard deviation of the mean; of the sample:
 * \f$ P(T_{n-1}(\sqrt nz_p) > k\sqrt n) \f$
 *
 * @param[in] plan  from fer_choose_measured_plan(), or any other
 * @param[in] bad  share of bad pieces @range 0.0001 % to 99.9999 %
 * @param[out] probability  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_PLAN_PIECES_OUT_OF_RANGE  not 1 to 10,000; not 2 or more where the deviation is that of the sample
 * @retval FER_PLAN_FACTOR_OUT_OF_RANGE  not -1000 to 1000
 * @retval FER_PLAN_DEVIATION_OUT_OF_RANGE  the deviation of the mean is given, and not 0.000001 to 1000
 * @retval FER_PLAN_SHARE_OUT_OF_RANGE  not 0.0001 % to 99.9999 %
 * @accuracy 1e-12 absolute
 * @source ISO 3951-1 (from memory)
 */
FER_API fer_status fer_find_measured_acceptance(const fer_measured_plan *plan, fer_ratio bad,
                                                fer_ratio *probability);

/**
 * What bursts show: does the share asked hold the limit, with the confidence asked?
 *
 * One burst below the limit rejects, whatever the others show. Lower bound of the pressure that the share \f$\beta\f$ holds:
 *
 * @formula Weibull, \f$r\f$ of \f$n\f$ burst: \f$ \int h(z)\,P\big(r, e^w\sum_{all} e^{z(y - t)}\big)dz/\int h = \gamma \f$ with
 * \f$ h(z) = z^{r-2}e^{z\sum_{burst}y}/\big(\sum_{all} e^{zy}\big)^r \f$, \f$y\f$ the logarithms of the pressures,
 * \f$ w = \ln(-\ln\beta) \f$, \f$P\f$ the incomplete gamma function, \f$t\f$ the logarithm of the bound; exact where the test ends with
 * the \f$r\f$th burst. Normal, lognormal, all burst: \f$ \bar x - ks \f$ with the one-sided tolerance factor, exact. Without a shape: the
 * \f$j\f$th smallest pressure, \f$j\f$ the greatest with \f$ 1 - I_\beta(n - j + 1, j) \ge \gamma \f$; a piece that was stopped counts as if it had
 * burst there. A bound that was fitted is rounded down by 1e-12 of it.
 *
 * How many more: by the same formulas with the bursts at hand repeated.
 *
 * @param[in] bursts  one for each piece
 * @param[in] count  number of pieces, 1 to 200
 * @param[in] aim  what they have to show
 * @param[in] strength  which distribution burst pressures have @optional Weibull
 * @param[out] verdict  undecided, NaN and 0 on failure
 * @retval FER_OK  done; see the decision
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no bursts
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 200
 * @retval FER_BURST_PRESSURE_MISSING  the pressure of a burst is not given
 * @retval FER_BURST_PRESSURE_OUT_OF_RANGE  not 0.001 MPa to 10,000 MPa
 * @retval FER_BURST_WORKING_MISSING  the working pressure is not given
 * @retval FER_BURST_WORKING_OUT_OF_RANGE  not 0.001 MPa to 1,000 MPa
 * @retval FER_BURST_MULTIPLE_OUT_OF_RANGE  given, and not 1 to 100
 * @retval FER_CONTENT_OUT_OF_RANGE  the share is given, and not 1 % to 99.9999 %
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_BURST_STRENGTH_UNKNOWN  not in #fer_strength
 * @retval FER_BURST_TOO_FEW  with a shape: fewer than two burst
 * @retval FER_BURST_ALL_EQUAL  with a shape: no scatter to go by
 * @retval FER_BURST_NOT_ALL_BURST  normal or lognormal, and not all burst
 * @accuracy bound 1e-11 relative, confidence 1e-11 absolute; number of more pieces exact
 * @source Lawless, Technometrics 20 (1978) 355-364, and Statistical models and methods for lifetime data, 1982; Wilks, Ann. Math. Statist. 12
 *         (1941) 91-96 (all from memory)
 */
FER_API fer_status fer_judge_bursts(const fer_burst *bursts, size_t count, const fer_burst_aim *aim,
                                    fer_strength strength, fer_burst_verdict *verdict);

/**
 * How many bursts will show it, where the mean and the scatter of the burst pressures are as expected and normal.
 *
 * @formula smallest \f$n\f$ with \f$ 1 - F(k\sqrt n; n - 1, \sqrt n(m - l)/\sigma) \ge P \f$, noncentral t, \f$k\f$ the one-sided
 * tolerance factor
 *
 * @param[in] aim  what they have to show
 * @param[in] mean  burst pressure that is expected @range 0.001 MPa to 10,000 MPa
 * @param[in] variation  standard deviation by mean @range 0.5 % to 50 %
 * @param[in] power  probability of showing it @range 1 % to 99.9999 % @optional the usual 90 %
 * @param[out] needed  bursts, and the probability that they show it; NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_BURST_WORKING_MISSING  the working pressure is not given
 * @retval FER_BURST_WORKING_OUT_OF_RANGE  not 0.001 MPa to 1,000 MPa
 * @retval FER_BURST_MULTIPLE_OUT_OF_RANGE  given, and not 1 to 100
 * @retval FER_CONTENT_OUT_OF_RANGE  the share is given, and not 1 % to 99.9999 %
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_BURST_MEAN_MISSING  not given
 * @retval FER_BURST_VARIATION_MISSING  not given
 * @retval FER_BURST_MEAN_OUT_OF_RANGE  not 0.001 MPa to 10,000 MPa
 * @retval FER_BURST_VARIATION_OUT_OF_RANGE  not 0.5 % to 50 %
 * @retval FER_POWER_OUT_OF_RANGE  not 1 % to 99.9999 %
 * @retval FER_PLAN_NOT_REACHABLE  no number up to 1000 does
 * @accuracy whole numbers exact; probability 1e-11 absolute
 * @source as fer_judge_bursts(), normal
 */
FER_API fer_status fer_find_bursts_needed(const fer_burst_aim *aim, fer_pressure mean, fer_ratio variation,
                                          fer_ratio power, fer_pieces_needed *needed);

/**
 * How many pieces, none of which bursts at a pressure somewhat above the limit, show it.
 *
 * @formula smallest \f$ n \ge \ln(1 - \gamma)/(k^b\ln\beta) \f$, \f$k\f$ the test pressure by the limit, \f$b\f$ a Weibull shape that the burst
 * pressures are known to have at least
 *
 * @param[in] aim  what they have to show
 * @param[in] raised  test pressure by the limit @range 1 to 2 @optional 1, at the limit
 * @param[in] shape  of Weibull's distribution at least, known from other bursts @range 0 to 100 @optional not known: a raised pressure
 *            counts as the limit
 * @param[out] needed  pieces, and the confidence that they reach; NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_BURST_WORKING_MISSING  the working pressure is not given
 * @retval FER_BURST_WORKING_OUT_OF_RANGE  not 0.001 MPa to 1,000 MPa
 * @retval FER_BURST_MULTIPLE_OUT_OF_RANGE  given, and not 1 to 100
 * @retval FER_CONTENT_OUT_OF_RANGE  the share is given, and not 1 % to 99.9999 %
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_BURST_RAISED_OUT_OF_RANGE  raised is given, and not 1 to 2, or the shape not 0 to 100
 * @accuracy whole numbers exact; confidence 1e-12 absolute
 * @source common knowledge: the binomial and Weibull's distribution
 */
FER_API fer_status fer_find_bursts_without_failure(const fer_burst_aim *aim, double raised, double shape,
                                                   fer_pieces_needed *needed);

#ifdef __cplusplus
}
#endif

#endif
