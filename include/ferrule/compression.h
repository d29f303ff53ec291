/* SPDX-License-Identifier: MIT */
/** @file
 * Module `compression`: from a compression to a crimp diameter and back.
 *
 * All diameters here are crimp diameters: measured after the dies have opened.
 * Symbols: hose inside \f$d_i\f$, outside \f$d_o\f$, \f$W = d_o - d_i\f$, stem outside \f$s\f$; ferrule wall
 * \f$w\f$, outside \f$F_o\f$; crimp diameter \f$D\f$; wall after crimping \f$w'\f$; bore of the crimped ferrule
 * \f$B = D - 2w'\f$; gap left for the hose \f$g = (B - s)/2\f$; compression \f$c\f$.
 */
#ifndef FERRULE_COMPRESSION_H
#define FERRULE_COMPRESSION_H

#include <ferrule/joint.h>

/** What the compression is a share of. */
typedef enum fer_basis {
    FER_BASIS_WALL,        /**< wall of the free hose: \f$c = 1 - 2g/W\f$; the trade's plain formula */
    FER_BASIS_FITTED_WALL, /**< wall once pushed over the stem: \f$c = 1 - g/t'\f$,
                                \f$t' = (\sqrt{d_o^2 - d_i^2 + s^2} - s)/2\f$ for a stem thicker than the hose
                                inside diameter, otherwise the free wall */
    FER_BASIS_AREA,        /**< cross-section of the hose: \f$c = 1 - (B^2 - s^2)/(d_o^2 - d_i^2)\f$ */
    FER_BASIS_SOFT_WALL /**< what can be squeezed: \f$c = (W - 2g)/(W - 2a)\f$, reinforcement \f$a\f$ left out */
} fer_basis;

/** What the metal of the ferrule does while it is crimped. */
typedef enum fer_flow {
    FER_FLOW_NONE,       /**< the wall stays as it was, \f$w' = w\f$: the trade's plain formula */
    FER_FLOW_ENDS_FIXED, /**< the ferrule cannot lengthen, all metal goes into the wall:
                        \f$B^2 = D^2 - 4w(F_o - w)\f$ */
    FER_FLOW_ENDS_FREE   /**< the ferrule lengthens freely: \f$w' = w\,e^{\varepsilon h}\f$,
                        \f$\varepsilon = \ln[(F_o - w)/(D - w')]\f$,
                        \f$h = (1 - 2\lambda)/(2 - \lambda)\f$, \f$\lambda = w'/D\f$ */
} fer_flow;

/** How compression is computed; all zero is the trade's plain formula. */
typedef struct fer_model {
    /** what the compression is a share of @label basis of compression @optional the free hose's wall */
    fer_basis basis;
    fer_flow flow; /**< what the ferrule metal does @label flow of the ferrule @optional nothing */
} fer_model;

/** Partial derivatives of compression at one joint and crimp diameter. */
typedef struct fer_compression_slopes {
    fer_per_length hose_inside;  /**< against hose inside diameter */
    fer_per_length hose_outside; /**< against hose outside diameter */
    /** against reinforcement thickness; 0 unless the basis is soft wall */
    fer_per_length hose_reinforcement;
    fer_per_length stem_outside;    /**< against stem outside diameter */
    fer_per_length ferrule_wall;    /**< against ferrule wall */
    fer_per_length ferrule_outside; /**< against ferrule outside diameter; 0 without flow */
    fer_per_length diameter;        /**< against crimp diameter */
} fer_compression_slopes;

/** Partial derivatives of crimp diameter at one joint and compression. */
typedef struct fer_diameter_slopes {
    fer_ratio hose_inside;        /**< against hose inside diameter, mm per mm */
    fer_ratio hose_outside;       /**< against hose outside diameter, mm per mm */
    fer_ratio hose_reinforcement; /**< against reinforcement thickness, mm per mm */
    fer_ratio stem_outside;       /**< against stem outside diameter, mm per mm */
    fer_ratio ferrule_wall;       /**< against ferrule wall, mm per mm */
    fer_ratio ferrule_outside;    /**< against ferrule outside diameter, mm per mm */
    fer_length compression;       /**< against compression, per 100 % */
} fer_diameter_slopes;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Crimp diameter that gives a compression.
 *
 * @formula Plain: \f$ D = s + 2w + W(1 - c) \f$. Otherwise the bore \f$B\f$ follows from the basis (#fer_basis) and
 * \f$ D = B + 2w' \f$ from the flow (#fer_flow): ends fixed \f$ D = \sqrt{B^2 + 4w(F_o - w)} \f$; ends free: the one root
 * of the wall equation with \f$D = B + 2w'\f$.
 *
 * @param[in] joint  a possible joint, see fer_check_joint(); with a flow the ferrule outside diameter too; with
 *            basis soft wall the reinforcement too
 * @param[in] compression  below the value that closes the gap, above the value at which the ferrule touches @range any
 *            finite number
 * @param[in] model  basis and flow @optional plain formula
 * @param[out] diameter  crimp diameter, measured after the dies have opened; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @retval FER_MODEL_BASIS_UNKNOWN  basis not in #fer_basis
 * @retval FER_MODEL_FLOW_UNKNOWN  flow not in #fer_flow
 * @retval FER_HOSE_REINFORCEMENT_MISSING  basis soft wall without reinforcement
 * @retval FER_FERRULE_OUTSIDE_MISSING  a flow without ferrule outside diameter
 * @retval FER_COMPRESSION_NOT_A_NUMBER  NaN or infinite
 * @retval FER_COMPRESSION_CLOSES_ON_STEM  no gap would be left
 * @retval FER_COMPRESSION_ABOVE_FERRULE  the diameter would be above the ferrule as it is
 * @retval FER_COMPRESSION_WITHOUT_TOUCH  the ferrule would not touch the hose
 * @accuracy plain and ends fixed: 2 units in the last place (plain: 1.51, proven with Gappa); ends free: 1e-14
 *         relative (tests/unit, tests/agree/python against mpmath)
 * @source plain: common practice, no source; ends fixed: constant volume, plane strain; ends free: mean-wall tube sinking
 *         (manual, page Compression); how near both come to the metal: fer_crimped_wall()
 */
FER_API fer_status fer_crimp_diameter(const fer_joint *joint, fer_ratio compression, fer_model model,
                                      fer_length *diameter);

/**
 * Compression at a crimp diameter: the inverse of fer_crimp_diameter().
 *
 * @formula Plain: \f$ c = (W - D + 2w + s)/W \f$; otherwise #fer_flow gives \f$B\f$ and #fer_basis gives \f$c\f$.
 *
 * @param[in] joint  a possible joint, see fer_check_joint(); with a flow the ferrule outside diameter too; with
 *            basis soft wall the reinforcement too
 * @param[in] diameter  crimp diameter, measured after the dies have opened; above two walls, at most the ferrule
 *            outside diameter where that is given @range 0.001 mm to 1,000,000 mm
 * @param[in] model  basis and flow @optional plain formula
 * @param[out] compression  share of the hose taken up by the crimp; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @retval FER_MODEL_BASIS_UNKNOWN  basis not in #fer_basis
 * @retval FER_MODEL_FLOW_UNKNOWN  flow not in #fer_flow
 * @retval FER_HOSE_REINFORCEMENT_MISSING  basis soft wall without reinforcement
 * @retval FER_FERRULE_OUTSIDE_MISSING  a flow without ferrule outside diameter
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIAMETER_ABOVE_FERRULE  larger than the ferrule as it is
 * @retval FER_DIAMETER_WITHOUT_BORE  the wall would fill the ferrule
 * @retval FER_DIAMETER_CLOSES_ON_STEM  no gap would be left
 * @retval FER_DIAMETER_WITHOUT_TOUCH  the ferrule does not touch the hose
 * @accuracy plain: 2 units in the last place (1.52, proven with Gappa). Ends fixed or another basis: 2 units in the last place where the
 *         hose walls are above 1/10,000 of the diameter and the compression above 1e-9 in size; ends free: 1e-14 of the whole
 * @source as fer_crimp_diameter()
 */
FER_API fer_status fer_compression(const fer_joint *joint, fer_length diameter, fer_model model,
                                   fer_ratio *compression);

/**
 * Wall of the ferrule after crimping.
 *
 * @formula see #fer_flow; the basis of the model does not matter.
 *
 * @param[in] joint  a possible joint; with a flow the ferrule outside diameter too
 * @param[in] diameter  crimp diameter; above two walls, at most the ferrule outside diameter where that is given
 *            @range 0.001 mm to 1,000,000 mm
 * @param[in] model  its flow counts
 * @param[out] wall  wall after crimping; NaN on failure
 * @retval FER_OK  done, and the ferrule need not touch the hose
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @retval FER_MODEL_FLOW_UNKNOWN  flow not in #fer_flow
 * @retval FER_FERRULE_OUTSIDE_MISSING  a flow without ferrule outside diameter
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIAMETER_ABOVE_FERRULE  larger than the ferrule as it is
 * @retval FER_DIAMETER_WITHOUT_BORE  the wall would fill the ferrule
 * @accuracy ends fixed: 2 units in the last place; ends free: 1e-14 relative. Against fer_form_ferrule() without pressure of the hose:
 *         ends free 0.2 % for a reduction of the diameter up to 10 %, 0.8 % up to 20 %, 2 % up to 30 %; with 0.1 of the yield strength
 *         as pressure of the hose 0.7 %, 1 %, 1.2 %; ends fixed up to 0.3 % too thick for a yield strength of 1/700 of the elastic
 *         modulus, 1 % for 1/200
 * @source as fer_crimp_diameter()
 */
FER_API fer_status fer_crimped_wall(const fer_joint *joint, fer_length diameter, fer_model model,
                                    fer_length *wall);

/**
 * Length of the ferrule after crimping.
 *
 * @formula ends fixed, none: \f$L\f$ as it was; ends free: \f$ L' = L\,e^{\varepsilon(1 + \lambda)/(2 - \lambda)} \f$.
 *
 * @param[in] joint  a possible joint with ferrule length; with a flow the ferrule outside diameter too
 * @param[in] diameter  crimp diameter; above two walls, at most the ferrule outside diameter where that is given
 *            @range 0.001 mm to 1,000,000 mm
 * @param[in] model  its flow counts
 * @param[out] length  length after crimping; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_FERRULE_LENGTH_MISSING  no length given
 * @retval FER_DIAMETER_ABOVE_FERRULE  and the other statuses of fer_crimped_wall()
 * @accuracy 1e-13 relative. Against fer_form_ferrule(), pressure of the hose up to 0.1 of the yield strength: ends free 0.4 % for a
 *         reduction of the diameter up to 10 %, 0.8 % up to 20 %, 1.6 % up to 30 %
 * @source as fer_crimp_diameter()
 */
FER_API fer_status fer_crimped_length(const fer_joint *joint, fer_length diameter, fer_model model,
                                      fer_length *length);

/**
 * Greatest crimp diameter at which the ferrule touches the hose.
 *
 * @formula the diameter at which the bore is fer_fitted_outside(). With a given ferrule outside diameter whose
 * bore is already smaller than that, the ferrule outside diameter itself.
 *
 * @param[in] joint  a possible joint; with a flow the ferrule outside diameter too
 * @param[in] model  its flow counts
 * @param[out] diameter  at and above it the ferrule does not touch; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @retval FER_MODEL_FLOW_UNKNOWN  flow not in #fer_flow
 * @retval FER_FERRULE_OUTSIDE_MISSING  a flow without ferrule outside diameter
 * @accuracy 1e-14 relative
 * @source geometry
 */
FER_API fer_status fer_touch_diameter(const fer_joint *joint, fer_model model, fer_length *diameter);

/**
 * How compression changes with each measurement: partial derivatives.
 *
 * @formula analytic; flow with ends free by implicit differentiation of the wall equation. With basis fitted wall the
 * slope jumps where the stem is as thick as the hose inside diameter; there the slope for a thinner stem is given.
 *
 * @param[in] joint  @as fer_compression()
 * @param[in] diameter  @as fer_compression()
 * @param[in] model  @as fer_compression()
 * @param[out] slopes  per mm of each measurement; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_DIAMETER_WITHOUT_TOUCH  and the other statuses of fer_compression()
 * @accuracy 1e-14 of the largest slope, times ferrule outside by both hose walls
 * @source derivation: manual, page Compression
 */
FER_API fer_status fer_find_compression_slopes(const fer_joint *joint, fer_length diameter, fer_model model,
                                               fer_compression_slopes *slopes);

/**
 * How the crimp diameter for a compression changes with each measurement: partial derivatives.
 *
 * @formula \f$ \partial D/\partial x = -(\partial c/\partial x)/(\partial c/\partial D) \f$,
 * \f$ \partial D/\partial c = 1/(\partial c/\partial D) \f$.
 *
 * @param[in] joint  @as fer_crimp_diameter()
 * @param[in] compression  @as fer_crimp_diameter()
 * @param[in] model  @as fer_crimp_diameter()
 * @param[out] slopes  mm per mm of each measurement, and mm per 100 % of compression; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_DIAMETER_OUT_OF_RANGE  the crimp diameter would be above 1,000,000 mm
 * @retval FER_COMPRESSION_WITHOUT_TOUCH  and the other statuses of fer_crimp_diameter()
 * @accuracy 1e-14 of the largest slope, times ferrule outside by both hose walls
 * @source derivation: manual, page Compression
 */
FER_API fer_status fer_find_diameter_slopes(const fer_joint *joint, fer_ratio compression, fer_model model,
                                            fer_diameter_slopes *slopes);

#ifdef __cplusplus
}
#endif

#endif
