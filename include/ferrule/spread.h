/* SPDX-License-Identifier: MIT */
/** @file
 * Room `spread`: what the uncertainty of the measurements does to the compression.
 */
#ifndef FERRULE_SPREAD_H
#define FERRULE_SPREAD_H

#include <ferrule/compression.h>

/** Shape of the distribution of a measurement's error. */
typedef enum fer_distribution {
    FER_DISTRIBUTION_NORMAL,      /**< amount is the standard uncertainty */
    FER_DISTRIBUTION_RECTANGULAR, /**< amount is the half-width; standard uncertainty amount/√3 */
    FER_DISTRIBUTION_TRIANGULAR   /**< amount is the half-width; standard uncertainty amount/√6 */
} fer_distribution;

/** How well one measurement is known. */
typedef struct fer_uncertainty {
    fer_length amount;             /**< standard uncertainty or half-width, not negative */
    fer_distribution distribution; /**< 0: normal */
    double degrees_of_freedom;     /**< at least 1; 0: the uncertainty itself is known exactly */
} fer_uncertainty;

/** Correlation of the errors of two measurements, each from -1 to 1. */
typedef struct fer_correlations {
    fer_ratio hose_inside_hose_outside;     /**< 0: independent */
    fer_ratio hose_inside_stem_outside;     /**< 0: independent */
    fer_ratio hose_inside_ferrule_wall;     /**< 0: independent */
    fer_ratio hose_inside_ferrule_outside;  /**< 0: independent */
    fer_ratio hose_inside_diameter;         /**< 0: independent */
    fer_ratio hose_outside_stem_outside;    /**< 0: independent */
    fer_ratio hose_outside_ferrule_wall;    /**< 0: independent */
    fer_ratio hose_outside_ferrule_outside; /**< 0: independent */
    fer_ratio hose_outside_diameter;        /**< 0: independent */
    fer_ratio stem_outside_ferrule_wall;    /**< 0: independent */
    fer_ratio stem_outside_ferrule_outside; /**< 0: independent */
    fer_ratio stem_outside_diameter;        /**< 0: independent */
    fer_ratio ferrule_wall_ferrule_outside; /**< 0: independent */
    fer_ratio ferrule_wall_diameter;        /**< 0: independent */
    fer_ratio ferrule_outside_diameter;     /**< 0: independent */
} fer_correlations;

/** How well a joint and its crimp diameter are known; all zero: exactly. */
typedef struct fer_spread {
    fer_uncertainty hose_inside;     /**< 0: known exactly */
    fer_uncertainty hose_outside;    /**< 0: known exactly */
    fer_uncertainty stem_outside;    /**< 0: known exactly */
    fer_uncertainty ferrule_wall;    /**< 0: known exactly */
    fer_uncertainty ferrule_outside; /**< 0: known exactly */
    fer_uncertainty diameter;        /**< of the crimp diameter, from crimp to crimp; 0: known exactly */
    fer_correlations correlations;   /**< 0: all independent */
} fer_spread;

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
    double degrees_of_freedom;      /**< effective, by Welch-Satterthwaite; 0: infinitely many */
    double
        coverage_factor; /**< Student's t for the coverage; degrees of freedom truncated to a whole number */
    fer_ratio expanded_uncertainty; /**< coverage factor times standard uncertainty */
} fer_budget;

/** Where the compressions of many joints fall. */
typedef struct fer_yield {
    fer_ratio inside; /**< share with a compression inside the range */
    fer_ratio below;  /**< share with too little compression */
    fer_ratio above;  /**< share with too much compression */
} fer_yield;

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
 * @param[in] joint  as fer_compression()
 * @param[in] spread  uncertainties and correlations; degrees of freedom only together with independent inputs
 * @param[in] diameter  as fer_compression()
 * @param[in] coverage  probability that the expanded uncertainty covers; above 0, below 1; 0.95 is usual
 * @param[in] model  basis and flow; all zero: plain formula
 * @param[out] budget  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_SPREAD_AMOUNT_OUT_OF_RANGE  negative, NaN or infinite
 * @retval FER_SPREAD_DISTRIBUTION_UNKNOWN  not in #fer_distribution
 * @retval FER_SPREAD_DEGREES_OUT_OF_RANGE  between 0 and 1, negative or not finite
 * @retval FER_SPREAD_CORRELATION_OUT_OF_RANGE  not from -1 to 1
 * @retval FER_SPREAD_CORRELATION_IMPOSSIBLE  no such set of correlations can be
 * @retval FER_SPREAD_CORRELATED_DEGREES  correlations together with degrees of freedom
 * @retval FER_SPREAD_COVERAGE_OUT_OF_RANGE  not between 0 and 1
 * @retval FER_DIAMETER_WITHOUT_TOUCH  and the other statuses of fer_compression()
 * @accuracy 1e-12 relative; first order: the plain formula is linear but in the hose wall
 * @source JCGM 100:2008, 5.1.2, 5.2.2, G.4
 */
FER_API fer_status fer_uncertainty_budget(const fer_joint *joint, const fer_spread *spread,
                                          fer_length diameter, fer_ratio coverage, fer_model model,
                                          fer_budget *budget);

/**
 * Least and most compression that a joint can have when every measurement keeps to its limits.
 *
 * @formula compression at the two worst corners; exact, since it is monotone in each measurement.
 *
 * @param[in] joint  as fer_compression()
 * @param[in] spread  rectangular or triangular half-widths; correlations are not used
 * @param[in] diameter  as fer_compression()
 * @param[in] model  basis and flow; all zero: plain formula
 * @param[out] range  least and most compression; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_SPREAD_NORMAL_WITHOUT_LIMITS  a normal uncertainty that is not 0
 * @retval FER_SPREAD_LEAVES_DOMAIN  a corner is not a possible joint, or the ferrule does not touch there
 * @retval FER_SPREAD_AMOUNT_OUT_OF_RANGE  and the statuses of fer_uncertainty_budget() that concern the spread
 * @retval FER_DIAMETER_WITHOUT_TOUCH  and the other statuses of fer_compression()
 * @accuracy as fer_compression()
 * @source monotonicity: manual, page Compression
 */
FER_API fer_status fer_worst_case(const fer_joint *joint, const fer_spread *spread, fer_length diameter,
                                  fer_model model, fer_ratio_range *range);

/**
 * Share of joints whose compression falls inside a range: exact for normal errors and the plain formula.
 *
 * @formula \f$ c < x \Leftrightarrow \Lambda(x) > 0 \f$, \f$ \Lambda(x) = D - 2w - s - (1-x)(d_o - d_i) \f$, so
 * \f$ P(c < x) = \Phi(\bar\Lambda(x)/\sigma(x)) \f$ with \f$ \sigma^2 = a^T\Sigma a \f$,
 * \f$ a = (1, -2, -1, -(1-x), 1-x) \f$ for \f$(D, w, s, d_o, d_i)\f$.
 *
 * @param[in] joint  a possible joint, see fer_check_joint()
 * @param[in] spread  normal uncertainties and correlations; at least one above 0; that of the hose wall at most an
 *            eighth of the wall, which keeps the error of the formula below 1e-15
 * @param[in] range  least and most compression allowed, in order
 * @param[in] diameter  mean crimp diameter; 0.001 mm to 1,000,000 mm
 * @param[out] yield  shares inside, below and above; they sum to 1; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_COMPRESSION_NOT_A_NUMBER  a limit is NaN or infinite
 * @retval FER_COMPRESSION_RANGE_WRONG_ORDER  least not below most
 * @retval FER_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_SPREAD_EMPTY  every uncertainty is 0
 * @retval FER_SPREAD_NOT_NORMAL  a rectangular or triangular uncertainty that is not 0
 * @retval FER_SPREAD_TOO_WIDE  uncertainty of the hose wall above an eighth of the wall
 * @retval FER_SPREAD_AMOUNT_OUT_OF_RANGE  and the statuses of fer_uncertainty_budget() that concern the spread
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @accuracy 1e-13 absolute
 * @source derivation: manual, page Spread; normal distribution of a linear form
 */
FER_API fer_status fer_crimp_yield(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                                   fer_length diameter, fer_yield *yield);

#ifdef __cplusplus
}
#endif

#endif
