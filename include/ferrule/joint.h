/* SPDX-License-Identifier: MIT */
/** @file
 * Module `joint`: hose, stem and ferrule as measured, and when they can be a joint.
 */
#ifndef FERRULE_JOINT_H
#define FERRULE_JOINT_H

#include <ferrule/value.h>

/** Hose end as it goes into the ferrule; skived hose is measured on the skived part. */
typedef struct fer_hose {
    fer_length inside;  /**< inside diameter @range 0.001 mm to 1,000,000 mm */
    fer_length outside; /**< outside diameter @range 0.001 mm to 1,000,000 mm @above inside */
    /** radial thickness of the reinforcement @label reinforcement thickness @range 0.001 mm to below
     * (outside - inside) / 2 @optional not known */
    fer_length reinforcement;
} fer_hose;

/** Stem of the coupling: the part that goes into the hose. */
typedef struct fer_stem {
    fer_length outside; /**< outside diameter @range 0.001 mm to 1,000,000 mm @below hose.outside */
    /** bore that carries the fluid @label bore @range 0.001 mm to below outside @optional not measured */
    fer_length bore;
} fer_stem;

/** Ferrule before crimping. */
typedef struct fer_ferrule {
    fer_length wall; /**< thickness of its metal @label wall @range 0.001 mm to 1,000,000 mm */
    /** outside diameter @range 0.001 mm to 1,000,000 mm @above stem.outside + 2 * wall @optional not
     * measured */
    fer_length outside;
    /** length that the dies press on @label length @range 0.001 mm to 1,000,000 mm @optional not measured */
    fer_length length;
} fer_ferrule;

/** One hose end with its stem and ferrule. */
typedef struct fer_joint {
    fer_hose hose;       /**< hose end */
    fer_stem stem;       /**< stem of the coupling */
    fer_ferrule ferrule; /**< ferrule before crimping */
} fer_joint;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Whether hose, stem and ferrule can be a joint: each measurement in its range and in order.
 *
 * Every function that takes a joint makes the same check first and returns the same status.
 *
 * @param[in] joint  any values
 * @retval FER_OK  the joint is possible
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_HOSE_INSIDE_MISSING  not given
 * @retval FER_HOSE_INSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_HOSE_OUTSIDE_MISSING  not given
 * @retval FER_HOSE_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  no wall
 * @retval FER_HOSE_REINFORCEMENT_OUT_OF_RANGE  given, and not below half of outside minus inside
 * @retval FER_STEM_OUTSIDE_MISSING  not given
 * @retval FER_STEM_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE  a stem as thick as the whole hose
 * @retval FER_STEM_BORE_OUT_OF_RANGE  given, and not below the stem outside diameter
 * @retval FER_FERRULE_WALL_MISSING  not given
 * @retval FER_FERRULE_WALL_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_OUTSIDE_OUT_OF_RANGE  given, and not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_BORE_NOT_ABOVE_STEM  outside minus two walls is not above the stem
 * @retval FER_FERRULE_LENGTH_OUT_OF_RANGE  given, and not a number from 0.001 mm to 1,000,000 mm
 * @source geometry
 */
FER_API fer_status fer_check_joint(const fer_joint *joint);

/**
 * Outside diameter of the hose once it is pushed over the stem.
 *
 * @formula \f$ \sqrt{d_o^2 - d_i^2 + s^2} \f$ where the stem is thicker than the hose inside diameter (constant
 * volume, no change of length), otherwise \f$ d_o \f$.
 *
 * @param[in] joint  a possible joint, see fer_check_joint()
 * @param[out] outside  outside diameter on the stem; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @accuracy 1 unit in the last place
 * @source geometry: constant cross-section
 */
FER_API fer_status fer_fitted_outside(const fer_joint *joint, fer_length *outside);

#ifdef __cplusplus
}
#endif

#endif
