/* SPDX-License-Identifier: MIT */
/** @file
 * Module `uncertainties`: what the uncertainty of the measurements does to the compression.
 */
#ifndef FERRULE_UNCERTAINTIES_H
#define FERRULE_UNCERTAINTIES_H

#include <ferrule/compression.h>

/** Shape of the distribution of a measurement's error. */
typedef enum fer_distribution {
    FER_DISTRIBUTION_NORMAL,      /**< amount is the standard uncertainty */
    FER_DISTRIBUTION_RECTANGULAR, /**< amount is the half-width; standard uncertainty amount/√3 */
    FER_DISTRIBUTION_TRIANGULAR   /**< amount is the half-width; standard uncertainty amount/√6 */
} fer_distribution;

/** How well one measurement is known. */
typedef struct fer_uncertainty {
    fer_length amount;             /**< standard uncertainty or half-width @range 0 mm or more @decimals 4 */
    fer_distribution distribution; /**< shape of the distribution @label distribution @optional normal */
    /** degrees of freedom @range 1 or more @decimals 0 @optional the uncertainty itself is known exactly */
    double degrees_of_freedom;
} fer_uncertainty;

/** Correlation of the errors of two measurements, each from -1 to 1. */
typedef struct fer_correlations {
    /** hose inside and hose outside @range -1 to 1 @optional independent */
    fer_ratio hose_inside_hose_outside;
    /** hose inside and stem outside @range -1 to 1 @optional independent */
    fer_ratio hose_inside_stem_outside;
    /** hose inside and ferrule wall @range -1 to 1 @optional independent */
    fer_ratio hose_inside_ferrule_wall;
    /** hose inside and ferrule outside @range -1 to 1 @optional independent */
    fer_ratio hose_inside_ferrule_outside;
    /** hose inside and crimp diameter @range -1 to 1 @optional independent */
    fer_ratio hose_inside_diameter;
    /** hose outside and stem outside @range -1 to 1 @optional independent */
    fer_ratio hose_outside_stem_outside;
    /** hose outside and ferrule wall @range -1 to 1 @optional independent */
    fer_ratio hose_outside_ferrule_wall;
    /** hose outside and ferrule outside @range -1 to 1 @optional independent */
    fer_ratio hose_outside_ferrule_outside;
    /** hose outside and crimp diameter @range -1 to 1 @optional independent */
    fer_ratio hose_outside_diameter;
    /** stem outside and ferrule wall @range -1 to 1 @optional independent */
    fer_ratio stem_outside_ferrule_wall;
    /** stem outside and ferrule outside @range -1 to 1 @optional independent */
    fer_ratio stem_outside_ferrule_outside;
    /** stem outside and crimp diameter @range -1 to 1 @optional independent */
    fer_ratio stem_outside_diameter;
    /** ferrule wall and ferrule outside @range -1 to 1 @optional independent */
    fer_ratio ferrule_wall_ferrule_outside;
    /** ferrule wall and crimp diameter @range -1 to 1 @optional independent */
    fer_ratio ferrule_wall_diameter;
    /** ferrule outside and crimp diameter @range -1 to 1 @optional independent */
    fer_ratio ferrule_outside_diameter;
} fer_correlations;

/** How well a joint and its crimp diameter are known; all zero: exactly. */
typedef struct fer_uncertainties {
    /** of the hose inside diameter @label hose inside diameter @optional known exactly */
    fer_uncertainty hose_inside;
    /** of the hose outside diameter @label hose outside diameter @optional known exactly */
    fer_uncertainty hose_outside;
    /** of the stem outside diameter @label stem outside diameter @optional known exactly */
    fer_uncertainty stem_outside;
    fer_uncertainty ferrule_wall; /**< of the ferrule wall @label ferrule wall @optional known exactly */
    /** of the ferrule outside diameter @label ferrule outside diameter @optional known exactly */
    fer_uncertainty ferrule_outside;
    /** of the crimp diameter, from crimp to crimp @label crimp diameter @optional known exactly */
    fer_uncertainty diameter;
    /** of the errors of two measurements each @label correlations @optional all independent */
    fer_correlations correlations;
} fer_uncertainties;

/** Uncertainty budget of a compression, first order. */
typedef struct fer_budget {
    fer_ratio compression;          /**< compression of the joint as measured */
    fer_ratio standard_uncertainty; /**< combined standard uncertainty of the compression */
    fer_ratio hose_inside;          /**< contribution: slope times standard uncertainty, with its sign */
    fer_ratio hose_outside;         /**< contribution */
    fer_ratio stem_outside;         /**< contribution */
    fer_ratio ferrule_wall;         /**< contribution */
    fer_ratio ferrule_outside;      /**< contribution */
    fer_ratio diameter;             /**< contribution */
    double degrees_of_freedom;      /**< effective, by Welch-Satterthwaite @optional infinitely many */
    double
        coverage_factor; /**< Student's t for the coverage; degrees of freedom truncated to a whole number */
    fer_ratio expanded_uncertainty; /**< coverage factor times standard uncertainty */
} fer_budget;

/** Uncertainty of a compression by first and second order. */
typedef struct fer_second_order {
    fer_ratio compression;  /**< compression of the joint as measured */
    fer_ratio first_order;  /**< combined standard uncertainty, first order, as in the budget */
    fer_ratio second_order; /**< combined standard uncertainty with the terms of second order */
    fer_ratio shift;        /**< mean of the compressions minus the compression of the mean joint */
} fer_second_order;

/** A measurement that has an uncertainty. */
typedef enum fer_measurement {
    FER_MEASUREMENT_HOSE_INSIDE,     /**< hose inside diameter */
    FER_MEASUREMENT_HOSE_OUTSIDE,    /**< hose outside diameter */
    FER_MEASUREMENT_STEM_OUTSIDE,    /**< stem outside diameter */
    FER_MEASUREMENT_FERRULE_WALL,    /**< ferrule wall */
    FER_MEASUREMENT_FERRULE_OUTSIDE, /**< ferrule outside diameter */
    FER_MEASUREMENT_DIAMETER         /**< crimp diameter */
} fer_measurement;

/** What it would bring to know one measurement better. */
typedef struct fer_improvement {
    fer_measurement measurement; /**< which one */
    fer_ratio share;  /**< own part of all variance at the nearer limit; correlated: may exceed 1 */
    fer_ratio halved; /**< gain in the conforming share if its uncertainty were half as large */
    fer_ratio exact;  /**< gain in the conforming share if it were known exactly */
} fer_improvement;

/** Where the compressions of many joints fall. */
typedef struct fer_shares {
    fer_ratio inside; /**< share with a compression inside the range */
    fer_ratio below;  /**< share with too little compression */
    fer_ratio above;  /**< share with too much compression */
} fer_shares;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Uncertainty budget of a compression: contributions, combined and expanded uncertainty.
 *
 * @formula \f$ u^2 = \sum_i\sum_j c_i c_j u_i u_j r_{ij} \f$ with the slopes of fer_find_compression_slopes();
 * effective degrees of freedom \f$ \nu = u^4/\sum_i (c_i u_i)^4/\nu_i \f$, truncated to a whole number for the
 * coverage factor (GUM G.4.1).
 *
 * @param[in] joint  @as fer_compression()
 * @param[in] uncertainties  uncertainties and correlations; degrees of freedom only together with independent inputs
 * @param[in] diameter  @as fer_compression()
 * @param[in] coverage  probability that the expanded uncertainty covers; 0.95 is usual @range above 0 to below 1
 * @param[in] model  basis and flow @optional plain formula
 * @param[out] budget  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE  negative, NaN or infinite
 * @retval FER_UNCERTAINTY_DISTRIBUTION_UNKNOWN  not in #fer_distribution
 * @retval FER_UNCERTAINTY_DEGREES_OUT_OF_RANGE  between 0 and 1, negative or not finite
 * @retval FER_UNCERTAINTY_CORRELATION_OUT_OF_RANGE  not from -1 to 1
 * @retval FER_UNCERTAINTY_CORRELATION_IMPOSSIBLE  no such set of correlations can be
 * @retval FER_UNCERTAINTY_CORRELATED_DEGREES  correlations together with degrees of freedom
 * @retval FER_UNCERTAINTY_COVERAGE_OUT_OF_RANGE  not between 0 and 1
 * @retval FER_DIAMETER_WITHOUT_TOUCH  and the other statuses of fer_compression()
 * @accuracy 1e-12 relative; first order: the plain formula is linear but in the hose wall
 * @source JCGM 100:2008, 5.1.2, 5.2.2, G.4
 */
FER_API fer_status fer_uncertainty_budget(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                          fer_length diameter, fer_ratio coverage, fer_model model,
                                          fer_budget *budget);

/**
 * Uncertainty of a compression by first and second order, and the shift of its mean.
 *
 * @formula \f$ u^2 = \sum_i c_i^2 u_i^2 + \sum_i\sum_j\left[\tfrac12 c_{ij}^2 + c_i c_{ijj}\right]u_i^2 u_j^2 \f$, where
 * the terms \f$i = j\f$ have \f$ \tfrac14(k - 1)c_{ii}^2 + \tfrac13 k\,c_i c_{iii} \f$ with the kurtosis \f$k\f$ of the
 * distribution (normal 3, triangular 2.4, rectangular 1.8); shift \f$ \tfrac12\sum_i c_{ii} u_i^2 \f$.
 *
 * Where both orders differ by more than the digits that count, use fer_simulate_compression().
 *
 * @param[in] joint  @as fer_compression()
 * @param[in] uncertainties  independent inputs
 * @param[in] diameter  @as fer_compression(); 1/512 of the hose wall away from the ends of what it takes
 * @param[in] model  basis and flow @optional plain formula
 * @param[out] order  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_UNCERTAINTY_CORRELATED_SECOND_ORDER  a correlation is not 0
 * @retval FER_UNCERTAINTY_AT_KINK  fitted wall, and the stem is as thick as the hose inside diameter, to within 1/512 of the
 *         hose wall or three standard uncertainties: its slope jumps there, and there is no second order
 * @retval FER_UNCERTAINTY_LEAVES_DOMAIN  a step of the derivatives is not a possible joint, or the ferrule does not touch there
 * @retval FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE  and the statuses of fer_uncertainty_budget() that concern the uncertainties
 * @retval FER_DIAMETER_WITHOUT_TOUCH  and the other statuses of fer_compression()
 * @accuracy terms of second order 1e-6 relative
 * @source JCGM 100:2008, note to 5.1.2; fourth moments: Taylor's series
 */
FER_API fer_status fer_second_order_uncertainty(const fer_joint *joint,
                                                const fer_uncertainties *uncertainties, fer_length diameter,
                                                fer_model model, fer_second_order *order);

/**
 * Minimum and maximum compression that a joint can have when every measurement keeps to its limits.
 *
 * @formula compression at the two worst corners; exact, since it is monotone in each measurement.
 *
 * @param[in] joint  @as fer_compression()
 * @param[in] uncertainties  rectangular or triangular half-widths; correlations are not used
 * @param[in] diameter  @as fer_compression()
 * @param[in] model  basis and flow @optional plain formula
 * @param[out] range  minimum and maximum compression; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_UNCERTAINTY_NORMAL_WITHOUT_LIMITS  a normal uncertainty that is not 0
 * @retval FER_UNCERTAINTY_LEAVES_DOMAIN  a corner is not a possible joint, or the ferrule does not touch there
 * @retval FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE  and the statuses of fer_uncertainty_budget() that concern the uncertainties
 * @retval FER_DIAMETER_WITHOUT_TOUCH  and the other statuses of fer_compression()
 * @accuracy as fer_compression()
 * @source monotonicity: manual, page Compression
 */
FER_API fer_status fer_worst_case(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  fer_length diameter, fer_model model, fer_ratio_range *range);

/**
 * Share of joints whose compression falls inside a range: exact for the plain formula.
 *
 * @formula \f$ c < x \Leftrightarrow \Lambda(x) > 0 \f$, \f$ \Lambda(x) = D - 2w - s - (1-x)(d_o - d_i) \f$, so
 * \f$ P(c < x) = \Phi(\bar\Lambda(x)/\sigma(x)) \f$ with \f$ \sigma^2 = a^T\Sigma a \f$,
 * \f$ a = (1, -2, -1, -(1-x), 1-x) \f$ for \f$(D, w, s, d_o, d_i)\f$. With rectangular and triangular errors \f$\Phi\f$
 * is the distribution of the sum of independent normal, rectangular and triangular numbers.
 *
 * @param[in] joint  a possible joint, see fer_check_joint()
 * @param[in] uncertainties  uncertainties; correlations between normal ones; at least one amount above 0; that of the hose
 *            wall at most an eighth of the wall, which keeps the error of the formula below 1e-15
 * @param[in] range  lower and upper limit of compression, in order @range any finite number
 * @param[in] diameter  mean crimp diameter @range 0.001 mm to 1,000,000 mm
 * @param[out] shares  shares inside, below and above; they sum to 1; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_COMPRESSION_NOT_A_NUMBER  a limit is NaN or infinite
 * @retval FER_COMPRESSION_RANGE_WRONG_ORDER  lower limit not below upper
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_UNCERTAINTY_EMPTY  every uncertainty is 0
 * @retval FER_UNCERTAINTY_NOT_NORMAL  a rectangular or triangular input that is correlated with another
 * @retval FER_UNCERTAINTY_TOO_WIDE  uncertainty of the hose wall above an eighth of the wall
 * @retval FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE  and the statuses of fer_uncertainty_budget() that concern the uncertainties
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @accuracy normal 1e-13 absolute; with other distributions 1e-11 absolute (tests/agree/python against mpmath)
 * @source derivation: manual, page Uncertainties; distribution of a linear form
 */
FER_API fer_status fer_conforming_share(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                        fer_ratio_range range, fer_length diameter, fer_shares *shares);

/**
 * Which measurement is worth improving: what each would add to the conforming share, the greatest gain first.
 *
 * @param[in] joint  @as fer_conforming_share()
 * @param[in] uncertainties  @as fer_conforming_share(); measurements with an uncertainty of 0 are left out
 * @param[in] range  @as fer_conforming_share()
 * @param[in] diameter  @as fer_conforming_share()
 * @param[out] improvements  in falling order of the gain if known exactly
 * @param[in] capacity  number of elements in improvements; 5 is always enough and at least needed
 * @param[out] found  number of measurements; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  capacity below 5
 * @retval FER_UNCERTAINTY_EMPTY  and the other statuses of fer_conforming_share()
 * @accuracy as fer_conforming_share()
 * @source differences of fer_conforming_share()
 */
FER_API fer_status fer_rank_measurements(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                         fer_ratio_range range, fer_length diameter,
                                         fer_improvement *improvements, size_t capacity, size_t *found);

#ifdef __cplusplus
}
#endif

#endif
