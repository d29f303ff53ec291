/* SPDX-License-Identifier: MIT */
/** @file
 * Module `hose`: what the hose presses in the crimp, from measured forces and lengths.
 *
 * People call it the squeeze of the hose in the crimp: "hose pressure" reads as oil pressure. It is not computed from hardness and
 * layers of the hose, which a shop does not know well enough. It is found from a *twin crimp*: two ferrules closed by the
 * same dies on the same press to the same diameter, one of them without a hose. Both are cut up afterwards.
 * Symbols as in module `forming`; \f$F\f$ total force of the dies at the stop, \f$D\f$ closing diameter, \f$L, L'\f$ length of the
 * ferrule before and after, \f$s = L'/L\f$.
 */
#ifndef FERRULE_HOSE_H
#define FERRULE_HOSE_H

#include <ferrule/forming.h>

/** By how much a hose with reinforcement presses the middle of the stem harder than the ferrule, at most. */
#define FER_HOSE_PEAK 2.5

/** A ferrule as the dies closed on it and as it came out. */
typedef struct fer_closing {
    /** total of the dies at the stop, the sum over the segments of their radial forces @label force at the stop
     * @range above 0 N */
    fer_force force;
    fer_length
        diameter; /**< crimp diameter, measured after the dies have opened @range 0.001 mm to 1,000,000 mm */
    /** length that the dies press on, before @label length before @range 0.001 mm to 1,000,000 mm */
    fer_length before;
    /** the same length after the dies have opened @label length after @range 0.001 mm to 1,000,000 mm @optional not
     * measured, ends taken as free */
    fer_length after;
} fer_closing;

/** Standard uncertainties of what is known of a closing; each of both closings alike, but independent. */
typedef struct fer_closing_uncertainties {
    /** of the force from one reading to the next, by the reading @label force from reading to reading @range 0 to 1
     * @optional none */
    fer_ratio force;
    /** of all readings of the force alike: oil pressure, levers, friction of the press @label scale of the force @range 0 to 1
     * @optional none */
    fer_ratio scale;
    /** of the yield strength at the strain of the crimp, by it; not used with a bare ferrule @label yield strength
     * @range 0 to 1 @optional none */
    fer_ratio yield_strength;
    /** of the outside diameter before and of the crimp diameter, each @label diameters @range 0 mm to 1,000,000 mm @optional none */
    fer_length diameter;
    fer_length wall; /**< of the wall before @label wall @range 0 mm to 1,000,000 mm @optional none */
    /** of the length before and of the length after, each @label lengths @range 0 mm to 1,000,000 mm @optional none */
    fer_length length;
} fer_closing_uncertainties;

/** What the hose presses. */
typedef struct fer_hose_squeeze {
    fer_pressure
        pressure; /**< of the hose on the ferrule's bore while the dies are closed, mean over the length */
    fer_pressure standard_uncertainty; /**< of that pressure, first order */
    fer_ratio restraint; /**< of the ends, by the length; below 0: the hose drags the ferrule longer */
    fer_pressure
        stem_maximum; /**< at most so much on the middle of the stem: #FER_HOSE_PEAK times the pressure */
    fer_pressure
        yield_strength; /**< that the ferrule is taken to have: by the bare one with hardening none, or the metal's */
} fer_hose_squeeze;

/** Which limit of the squeeze is the smallest. */
typedef enum fer_hose_limit {
    FER_HOSE_LIMIT_NONE,     /**< none could be found */
    FER_HOSE_LIMIT_CAPACITY, /**< the press is rated for no more */
    FER_HOSE_LIMIT_BORE,     /**< the bore of the stem gets as small as its gauge */
    FER_HOSE_LIMIT_STEM,     /**< the stem begins to yield */
    FER_HOSE_LIMIT_FORMULA   /**< nothing else, but beyond it there is no number */
} fer_hose_limit;

/** How much the hose may press on the ferrule; each limit stands on metal and press alone. */
typedef struct fer_hose_limits {
    fer_found_pressure capacity; /**< at which the dies need the rated force of the press */
    fer_found_pressure
        bore; /**< at which the bore of the stem has gone down to its limit where the hose presses most */
    fer_found_pressure stem;    /**< at which the stem begins to yield where the hose presses most */
    fer_found_pressure formula; /**< half of the ferrule's yield strength: beyond it nothing is computed */
    fer_found_pressure
        smallest; /**< the smallest of them; not there where one is passed without a hose, or none is there */
    fer_hose_limit which; /**< which one is the smallest */
} fer_hose_limits;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Yield strength of a ferrule that was closed without a hose.
 *
 * It contains the hardening up to the strain of this crimp, and the error of the press's reading as far as that is proportional to the
 * force (oil pressure, levers, friction of the cones): what is found with it from another reading of the same press is free of both.
 *
 * @formula The \f$Y\f$ at which fer_form_ferrule() without hardening and without a hose has \f$P\,\pi D L s = F\f$ at the closing diameter
 * \f$D\f$ that springs back to the crimp diameter, with the restraint at which the length after opening is that measured.
 *
 * @param[in] ferrule  wall and outside diameter before crimping; wall at most 0.18 of the outside diameter @unused length
 * @param[in] bare  closing of that ferrule without a hose
 * @param[in] material  see fer_check_material() @unused yield_strength hardening
 * @param[out] yield_strength  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_FERRULE_WALL_TOO_THICK  and the other statuses of fer_form_ferrule() on ferrule, elastic constants and diameter
 * @retval FER_CLOSING_FORCE_MISSING  not given
 * @retval FER_CLOSING_FORCE_OUT_OF_RANGE  not a number above 0, or no metal of this modulus takes it
 * @retval FER_CLOSING_LENGTH_MISSING  the length before is not given
 * @retval FER_CLOSING_LENGTH_OUT_OF_RANGE  a length is not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_CLOSING_STRETCH_OUT_OF_RANGE  the ferrule has become shorter, or longer than a restraint of -0.3 gives
 * @accuracy the model itself: 1e-6 relative; against fer_form_ferrule() 1e-9; finite elements 0.1 %
 * @source as fer_form_ferrule()
 */
FER_API fer_status fer_find_effective_yield_strength(const fer_ferrule *ferrule, const fer_closing *bare,
                                                     const fer_material *material,
                                                     fer_pressure *yield_strength);

/**
 * Pressure of the hose in the crimp from the force of the dies, with its uncertainty.
 *
 * With a bare ferrule its effective yield strength stands for the metal's, without hardening. Without one the result has the whole
 * uncertainty of the certificate's yield strength and of the press's reading: more than half of the pressure below 30 MPa.
 * Where the length after is not measured the ends are taken as free, which makes the pressure too large; the uncertainty allows for any
 * restraint. The force sees the mean of the pressure along the ferrule, whatever its shape.
 *
 * @formula The \f$q\f$ at which fer_form_ferrule() has \f$P\,\pi D L s = F\f$ at the closing diameter \f$D\f$ that springs back (elastically) to
 * the crimp diameter, with the restraint (-0.3 to 1) at which the length after opening is that measured. Uncertainty: first order
 * \f$ u^2(q) = \sum (\partial q/\partial x_i)^2 u_i^2 \f$ over both closings, the scale of the force acting on both at once; restraint not
 * measured: \f$ u_r = 1/\sqrt3 \f$.
 *
 * @param[in] ferrule  of both closings, wall and outside diameter before crimping; wall at most 0.18 of the outside diameter @unused length
 * @param[in] closing  of the ferrule on its hose
 * @param[in] material  see fer_check_material(); yield strength and hardening are not used with a bare ferrule
 * @param[in] bare  closing of such a ferrule without a hose @optional only the metal's yield strength and hardening are known
 * @param[in] uncertainties  of what was measured @optional everything is exact
 * @param[out] squeeze  all NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CLOSING_FORCE_MISSING  and the other statuses of fer_find_effective_yield_strength()
 * @retval FER_MATERIAL_YIELD_STRENGTH_MISSING  and the other statuses of fer_check_material(), without a bare ferrule
 * @retval FER_CLOSING_UNCERTAINTY_OUT_OF_RANGE  negative, above 1 or 1,000,000 mm, or not a number
 * @retval FER_FORCE_BELOW_METAL  the metal alone needs more force: reading, yield strength or diameter is wrong
 * @retval FER_HOSE_PRESSURE_ABOVE_LIMIT  above 0.5 of the yield strength
 * @accuracy the model itself: 1e-3 of the pressure of the dies with hardening, 1e-6 without; against fer_form_ferrule() 1e-9;
 *         uncertainty 1e-2. Finite elements (tests/agree/finite_element): without friction 0.5 %, with friction of the hose on the bore
 *         up to 0.4 from -6 to +1 %. Against simulation (tests/agree/simulation) the uncertainty is right within a tenth where
 *         it is below a quarter of the pressure. Not tried: a real press, friction under the dies, gaps between them, ridges inside
 *         the ferrule
 * @source as fer_form_ferrule(); JCGM 100:2008, 5.1.2 (from memory)
 */
FER_API fer_status fer_find_hose_pressure(const fer_ferrule *ferrule, const fer_closing *closing,
                                          const fer_material *material, fer_closing bare,
                                          fer_closing_uncertainties uncertainties, fer_hose_squeeze *squeeze);

/**
 * Restraint of the ends from the length that a ferrule has after crimping.
 *
 * @formula The \f$r\f$ from -0.3 to 1 at which `crimp_stretch` of fer_form_ferrule() is \f$L'/L\f$. Below 0 the squeezed hose drags the ferrule
 * longer: friction on its bore points outwards.
 *
 * @param[in] ferrule  wall and outside diameter before crimping; wall at most 0.18 of the outside diameter @unused length
 * @param[in] closing  crimp diameter and both lengths, which are needed here @unused force
 * @param[in] material  see fer_check_material()
 * @param[in] hose_pressure  on the bore; 0: none @range 0 MPa to material.yield_strength / 2
 * @param[out] restraint  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CLOSING_LENGTH_MISSING  a length is not given
 * @retval FER_CLOSING_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_CLOSING_STRETCH_OUT_OF_RANGE  the ferrule has become shorter, or longer than a restraint of -0.3 gives
 * @retval FER_HOSE_PRESSURE_OUT_OF_RANGE  negative, or not a number
 * @retval FER_HOSE_PRESSURE_ABOVE_LIMIT  above 0.5 of the yield strength
 * @retval FER_FERRULE_WALL_TOO_THICK  and the other statuses of fer_form_ferrule() on ferrule, metal and diameter
 * @accuracy the model itself: 1e-6 of ends fixed; against fer_form_ferrule() 1e-9
 * @source as fer_form_ferrule()
 */
FER_API fer_status fer_find_restraint(const fer_ferrule *ferrule, const fer_closing *closing,
                                      const fer_material *material, fer_pressure hose_pressure,
                                      fer_ratio *restraint);

/**
 * Pressure of the hose on the middle of a stem from what its bore has become smaller by: the inverse of fer_load_stem().
 *
 * A second opinion, not the way: elastic stems give a few tenths of a micrometre per MPa. The pressure is that under the middle of
 * the stem, as it stays after the dies have opened. A bore that stays smaller after the hose was cut off says that it was above first
 * yielding, one that has not closed that it was below full yielding: see fer_find_stem_strength().
 *
 * @formula Elastic \f$ q = \Delta E (r_s^2 - r_i^2)/(4 r_s^2 r_i (1 - r\nu^2)) \f$; beyond first yielding, ends fixed:
 * \f$ c^2 = \Delta E r_i/(4 (1 - \nu^2) k) \f$, \f$ q = k[2\ln(c/r_i) + 1 - c^2/r_s^2] \f$ with the reduction \f$\Delta\f$ and \f$k\f$ of
 * fer_load_stem().
 *
 * @param[in] stem  outside diameter and bore; the hose does not matter
 * @param[in] reduction  of the bore's diameter under the hose @range 0 mm to below stem.bore
 * @param[in] material  see fer_check_material(); hardening is left out
 * @param[in] load  its restraint counts @unused hose_pressure @optional ends free
 * @param[out] pressure  on the outside of the stem; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_BORE_REDUCTION_OUT_OF_RANGE  negative, not below the bore, or not a number
 * @retval FER_BORE_REDUCTION_ABOVE_FULL_YIELD  the whole wall would have yielded: the bore closes up
 * @retval FER_STEM_YIELDS_ENDS_NOT_FIXED  and the other statuses of fer_load_stem()
 * @accuracy 1e-13 relative, elastic; that of fer_load_stem() beyond
 * @source as fer_load_stem()
 */
FER_API fer_status fer_hose_pressure_from_bore(const fer_stem *stem, fer_length reduction,
                                               const fer_material *material, fer_forming_load load,
                                               fer_pressure *pressure);

#ifdef __cplusplus
}
#endif

#endif
