/* SPDX-License-Identifier: MIT */
/** @file
 * Module `window`: which crimp diameters a range of compression allows, and which of them is best.
 */
#ifndef FERRULE_WINDOW_H
#define FERRULE_WINDOW_H

#include <ferrule/uncertainties.h>

/** Usual lower limit of compression for the plain formula (common practice, no source). */
#define FER_COMPRESSION_USUAL_LOWER 0.15
/** Usual upper limit of compression for the plain formula (common practice, no source). */
#define FER_COMPRESSION_USUAL_UPPER 0.25

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Window of crimp diameters that a range of compression allows.
 *
 * @formula from \f$ D(c_{upper}) \f$ to \f$ D(c_{lower}) \f$, see fer_crimp_diameter().
 *
 * The usual range of 15 to 25 % belongs to the plain formula: with a flow or another basis the same joint has
 * other numbers.
 *
 * @param[in] joint  @as fer_crimp_diameter()
 * @param[in] range  lower and upper limit of compression, in order; both ends as fer_crimp_diameter() takes them @range any
 *            finite number
 * @param[in] model  basis and flow @optional plain formula
 * @param[out] window  minimum and maximum crimp diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_COMPRESSION_RANGE_WRONG_ORDER  lower limit not below upper
 * @retval FER_COMPRESSION_WITHOUT_TOUCH  and the other statuses of fer_crimp_diameter()
 * @accuracy as fer_crimp_diameter()
 * @source common practice, no source
 */
FER_API fer_status fer_crimp_window(const fer_joint *joint, fer_ratio_range range, fer_model model,
                                    fer_length_range *window);

/**
 * Crimp diameter that leaves the fewest joints outside a range of compression, and the shares inside, below and above.
 *
 * @formula With \f$ A = D(c_{lower}) \f$, \f$ C = D(c_{upper}) \f$ by the plain formula, \f$ \Delta = A - C \f$,
 * \f$ \rho = \sigma^2(c_{lower})/\sigma^2(c_{upper}) \f$, see fer_conforming_share():
 * \f$ D^* = C + (\Delta^2 + \sigma^2(c_{lower})\ln\rho)/(\Delta + \sqrt{\rho\Delta^2 +
 * (\rho - 1)\sigma^2(c_{lower})\ln\rho}) \f$.
 *
 * The gain over the middle of the window is often tiny: compare the shares.
 *
 * @param[in] joint  @as fer_conforming_share()
 * @param[in] uncertainties  @as fer_conforming_share(); the uncertainty of the diameter counts at every target
 * @param[in] range  @as fer_conforming_share()
 * @param[out] target  best crimp diameter; NaN on failure
 * @param[out] shares  shares at that diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TARGET_DOES_NOT_EXIST  the argument of the root is negative
 * @retval FER_UNCERTAINTY_NOT_NORMAL  an uncertainty that is not 0 is rectangular or triangular
 * @retval FER_UNCERTAINTY_EMPTY  and the other statuses of fer_conforming_share()
 * @accuracy 1e-12 relative; against numerical maximising in tests/agree/python
 * @source derivation: manual, page Window
 */
FER_API fer_status fer_best_target(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                   fer_ratio_range range, fer_length *target, fer_shares *shares);

/**
 * Crimp diameter with the lowest expected cost where too loose and too tight do not cost the same.
 *
 * @formula as fer_best_target() with \f$ \ln\rho \f$ replaced by
 * \f$ 2\ln\!\left(\sigma(c_{lower})\,k_2/(\sigma(c_{upper})\,k_1)\right) \f$.
 *
 * @param[in] joint  @as fer_conforming_share()
 * @param[in] uncertainties  @as fer_conforming_share()
 * @param[in] range  @as fer_conforming_share()
 * @param[in] cost_too_loose  cost of a joint below the range, in any unit @range above 0
 * @param[in] cost_too_tight  cost of a joint above the range, in the same unit @range above 0
 * @param[out] target  best crimp diameter; NaN on failure
 * @param[out] shares  shares at that diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_COST_OUT_OF_RANGE  not above 0, or not finite
 * @retval FER_TARGET_DOES_NOT_EXIST  the argument of the root is negative
 * @retval FER_UNCERTAINTY_NOT_NORMAL  an uncertainty that is not 0 is rectangular or triangular
 * @retval FER_UNCERTAINTY_EMPTY  and the other statuses of fer_conforming_share()
 * @accuracy 1e-12 relative; against numerical minimising in tests/agree/python
 * @source derivation: manual, page Window
 */
FER_API fer_status fer_cheapest_target(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                       fer_ratio_range range, double cost_too_loose, double cost_too_tight,
                                       fer_length *target, fer_shares *shares);

/**
 * Crimp diameter that leaves the fewest joints outside a range of compression, among those that a dial can show.
 *
 * @formula the diameters are anchor + n × graduation; the one with the greatest fer_conforming_share()
 *
 * @param[in] joint  @as fer_conforming_share()
 * @param[in] uncertainties  @as fer_conforming_share(), with rectangular and triangular uncertainties too
 * @param[in] range  @as fer_conforming_share()
 * @param[in] anchor  crimp diameter at dial setting 0: die size minus the press's correction @range -1,000,000 mm to
 *            1,000,000 mm
 * @param[in] graduation  smallest step of the dial @range 0.0001 mm to 10 mm
 * @param[out] target  best crimp diameter; NaN on failure
 * @param[out] shares  shares at that diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TARGET_OUT_OF_RANGE  the anchor is not a number from -1,000,000 mm to 1,000,000 mm
 * @retval FER_TARGET_DOES_NOT_EXIST  the best of them is not a length
 * @retval FER_PRESS_GRADUATION_MISSING  not given
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  not 0.0001 mm to 10 mm
 * @retval FER_UNCERTAINTY_EMPTY  and the other statuses of fer_conforming_share()
 * @accuracy the best step; its shares as fer_conforming_share()
 * @source none needed
 */
FER_API fer_status fer_best_graduated_target(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                             fer_ratio_range range, fer_length anchor, fer_length graduation,
                                             fer_length *target, fer_shares *shares);

#ifdef __cplusplus
}
#endif

#endif
