/* SPDX-License-Identifier: MIT */
/** @file
 * Room `window`: which crimp diameters a range of compression allows, and which of them is best.
 */
#ifndef FERRULE_WINDOW_H
#define FERRULE_WINDOW_H

#include <ferrule/spread.h>

/** Usual least compression for the plain formula (common practice, no source). */
#define FER_COMPRESSION_USUAL_LEAST 0.15
/** Usual most compression for the plain formula (common practice, no source). */
#define FER_COMPRESSION_USUAL_MOST 0.25

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Window of crimp diameters that a range of compression allows.
 *
 * @formula from \f$ D(c_{most}) \f$ to \f$ D(c_{least}) \f$, see fer_crimp_diameter().
 *
 * The usual range of 15 to 25 % belongs to the plain formula: with a flow or another basis the same joint has
 * other numbers.
 *
 * @param[in] joint  @as fer_crimp_diameter()
 * @param[in] range  least and most compression, in order; both ends as fer_crimp_diameter() takes them @range any
 *            finite number
 * @param[in] model  basis and flow @optional plain formula
 * @param[out] window  least and most crimp diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_COMPRESSION_RANGE_WRONG_ORDER  least not below most
 * @retval FER_COMPRESSION_WITHOUT_TOUCH  and the other statuses of fer_crimp_diameter()
 * @accuracy as fer_crimp_diameter()
 * @source common practice, no source
 */
FER_API fer_status fer_crimp_window(const fer_joint *joint, fer_ratio_range range, fer_model model,
                                    fer_length_range *window);

/**
 * Crimp diameter that leaves the fewest joints outside a range of compression, and its yield.
 *
 * @formula With \f$ A = D(c_{least}) \f$, \f$ C = D(c_{most}) \f$ by the plain formula, \f$ \Delta = A - C \f$,
 * \f$ \rho = \sigma^2(c_{least})/\sigma^2(c_{most}) \f$, see fer_crimp_yield():
 * \f$ D^* = C + (\Delta^2 + \sigma^2(c_{least})\ln\rho)/(\Delta + \sqrt{\rho\Delta^2 +
 * (\rho - 1)\sigma^2(c_{least})\ln\rho}) \f$.
 *
 * The gain over the middle of the window is often tiny: compare the yields.
 *
 * @param[in] joint  @as fer_crimp_yield()
 * @param[in] spread  @as fer_crimp_yield(); the uncertainty of the diameter counts at every target
 * @param[in] range  @as fer_crimp_yield()
 * @param[out] target  best crimp diameter; NaN on failure
 * @param[out] yield  yield at that diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TARGET_DOES_NOT_EXIST  the argument of the root is negative
 * @retval FER_SPREAD_NOT_NORMAL  an uncertainty that is not 0 is rectangular or triangular
 * @retval FER_SPREAD_EMPTY  and the other statuses of fer_crimp_yield()
 * @accuracy 1e-12 relative; against numerical maximising in tests/agree/python
 * @source derivation: manual, page Window
 */
FER_API fer_status fer_best_target(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                                   fer_length *target, fer_yield *yield);

/**
 * Crimp diameter with the least expected cost where too loose and too tight do not cost the same.
 *
 * @formula as fer_best_target() with \f$ \ln\rho \f$ replaced by
 * \f$ 2\ln\!\left(\sigma(c_{least})\,k_2/(\sigma(c_{most})\,k_1)\right) \f$.
 *
 * @param[in] joint  @as fer_crimp_yield()
 * @param[in] spread  @as fer_crimp_yield()
 * @param[in] range  @as fer_crimp_yield()
 * @param[in] cost_too_loose  cost of a joint below the range, in any unit @range above 0
 * @param[in] cost_too_tight  cost of a joint above the range, in the same unit @range above 0
 * @param[out] target  best crimp diameter; NaN on failure
 * @param[out] yield  yield at that diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_COST_OUT_OF_RANGE  not above 0, or not finite
 * @retval FER_TARGET_DOES_NOT_EXIST  the argument of the root is negative
 * @retval FER_SPREAD_NOT_NORMAL  an uncertainty that is not 0 is rectangular or triangular
 * @retval FER_SPREAD_EMPTY  and the other statuses of fer_crimp_yield()
 * @accuracy 1e-12 relative; against numerical minimising in tests/agree/python
 * @source derivation: manual, page Window
 */
FER_API fer_status fer_cheapest_target(const fer_joint *joint, const fer_spread *spread,
                                       fer_ratio_range range, double cost_too_loose, double cost_too_tight,
                                       fer_length *target, fer_yield *yield);

/**
 * Crimp diameter that leaves the fewest joints outside a range of compression, among those that a dial can show.
 *
 * @formula the diameters are anchor + n × graduation; the one with the greatest fer_crimp_yield()
 *
 * @param[in] joint  @as fer_crimp_yield()
 * @param[in] spread  @as fer_crimp_yield(), with rectangular and triangular uncertainties too
 * @param[in] range  @as fer_crimp_yield()
 * @param[in] anchor  crimp diameter at dial setting 0: die size less the press's correction @range -1,000,000 mm to
 *            1,000,000 mm
 * @param[in] graduation  smallest step of the dial @range 0.0001 mm to 10 mm
 * @param[out] target  best crimp diameter; NaN on failure
 * @param[out] yield  yield at that diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TARGET_OUT_OF_RANGE  the anchor is not a number from -1,000,000 mm to 1,000,000 mm
 * @retval FER_TARGET_DOES_NOT_EXIST  the best of them is not a length
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  not 0.0001 mm to 10 mm
 * @retval FER_SPREAD_EMPTY  and the other statuses of fer_crimp_yield()
 * @accuracy the best step; its yield as fer_crimp_yield()
 * @source none needed
 */
FER_API fer_status fer_best_graduated_target(const fer_joint *joint, const fer_spread *spread,
                                             fer_ratio_range range, fer_length anchor, fer_length graduation,
                                             fer_length *target, fer_yield *yield);

#ifdef __cplusplus
}
#endif

#endif
