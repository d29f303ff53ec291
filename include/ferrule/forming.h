/* SPDX-License-Identifier: MIT */
/** @file
 * Module `forming`: what the metal of ferrule and stem does under the dies.
 *
 * Two diameters: the *closing diameter* is what the dies form at the stop, the *crimp diameter* what is measured after
 * they have opened; the difference is the springback. Each function says which one it takes.
 * Symbols: \f$b, a\f$ outside and inside radius of the ferrule while the dies are closed, \f$b_0, a_0\f$ before;
 * \f$E, \nu, Y, H\f$ elastic modulus, Poisson's ratio, yield strength, hardening; \f$q\f$ pressure of the hose on the bore,
 * \f$P\f$ pressure of the dies on the outside; \f$r\f$ restraint; \f$\alpha = (a/b)^2\f$.
 * Not covered: friction under the dies, dies shorter than the ferrule, ridges inside the ferrule.
 */
#ifndef FERRULE_FORMING_H
#define FERRULE_FORMING_H

#include <ferrule/joint.h>

/** Metal of a ferrule or a stem. */
typedef struct fer_material {
    fer_pressure elastic_modulus; /**< elastic modulus @range 1,000 MPa to 1,000,000 MPa @decimals 0 */
    fer_ratio poisson;            /**< Poisson's ratio @range 0 to below 0.5 @decimals 3 */
    fer_pressure
        yield_strength; /**< yield strength in tension @label yield strength @range 0.001 MPa to elastic_modulus / 200 */
    /** rise of the yield strength by plastic strain @label hardening @range 0 MPa to 5 * yield_strength @decimals 0 @optional
     * none */
    fer_pressure hardening;
} fer_material;

/** What works on a ferrule besides the dies, or on a stem besides its own metal; all zero: nothing. */
typedef struct fer_forming_load {
    /** how far the ends are kept from moving; 1: fixed @label restraint of the ends @range 0 to 1 @decimals 2
     * @optional free */
    fer_ratio restraint;
    /** pressure of the squeezed hose @label pressure of the hose @range 0 MPa or more @optional none */
    fer_pressure hose_pressure;
} fer_forming_load;

/** What the dies have made of a ferrule. */
typedef struct fer_forming {
    fer_length wall;       /**< wall while the dies are closed */
    fer_length bore;       /**< bore while the dies are closed */
    fer_ratio stretch;     /**< length while the dies are closed by length before */
    fer_pressure pressure; /**< of the dies on the outside */
    fer_ratio hose_share;  /**< share of that pressure that only passes through to the hose */
    /** growth of the diameter when the dies open; the hose's pressure stays; NaN: see release_status */
    fer_length springback;
    fer_length crimp_diameter; /**< outside diameter after the dies have opened; NaN: see release_status */
    fer_length crimp_bore;     /**< bore after the dies have opened; NaN: see release_status */
    fer_length crimp_wall;     /**< wall after the dies have opened; NaN: see release_status */
    /** length after the dies have opened by length before; NaN: see release_status */
    fer_ratio crimp_stretch;
    fer_ratio plastic_strain;              /**< plastic strain, mean over the wall */
    fer_pressure effective_yield_strength; /**< yield strength at that strain */
    /** why springback, crimp_diameter, crimp_bore, crimp_wall and crimp_stretch are not there; FER_OK: they are */
    fer_status release_status;
} fer_forming;

/** Force of the dies. */
typedef struct fer_die_force {
    fer_force total;             /**< sum over the segments of their radial forces */
    fer_force segment;           /**< one segment's share of the total */
    fer_force segment_resultant; /**< of one segment's pressure, along the segment's own direction */
    fer_force resultants;        /**< sum of the resultants: what a rating by that convention means */
} fer_die_force;

/** What an elastic tube does under pressure. */
typedef struct fer_tube_change {
    fer_length inside;         /**< change of the inside diameter; above 0: grows */
    fer_length outside;        /**< change of the outside diameter; above 0: grows */
    fer_ratio stretch;         /**< change of length by length */
    fer_pressure hoop_inside;  /**< stress round the circumference at the inside; above 0: tension */
    fer_pressure hoop_outside; /**< stress round the circumference at the outside; above 0: tension */
} fer_tube_change;

/** What the hose's pressure does to a stem. */
typedef struct fer_stem_change {
    fer_length bore_reduction;     /**< of the bore's diameter while the pressure is on */
    fer_length residual_reduction; /**< what is left of it when the pressure has gone */
    fer_length plastic_diameter;   /**< up to which the metal has yielded; 0 where the stem stays elastic */
    fer_pressure residual_hoop;    /**< stress round the bore when the pressure has gone */
} fer_stem_change;

/** Pressures at which a stem yields. */
typedef struct fer_stem_strength {
    fer_pressure first_yield_pressure; /**< the metal at the bore begins to yield */
    fer_pressure full_yield_pressure;  /**< the whole wall yields: the bore closes up */
} fer_stem_strength;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Whether the data of a metal are possible.
 *
 * @param[in] material  any values
 * @retval FER_OK  possible
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_MATERIAL_MODULUS_MISSING  not given
 * @retval FER_MATERIAL_MODULUS_OUT_OF_RANGE  not a number from 1,000 MPa to 1,000,000 MPa
 * @retval FER_MATERIAL_POISSON_OUT_OF_RANGE  not a number from 0 to below 0.5
 * @retval FER_MATERIAL_YIELD_STRENGTH_MISSING  not given
 * @retval FER_MATERIAL_YIELD_STRENGTH_OUT_OF_RANGE  not a number from 0.001 MPa to 1/200 of the elastic modulus
 * @retval FER_MATERIAL_HARDENING_OUT_OF_RANGE  negative, above 5 times the yield strength, or not a number
 */
FER_API fer_status fer_check_material(const fer_material *material);

/**
 * Wall, length, bore, pressure and springback of a ferrule that dies close to a diameter.
 *
 * Exact rigid-plastic flow of a thick tube (von Mises) with the same axial strain everywhere, elastic strains added.
 * The hose's pressure grows in proportion to the reduction. Restraint \f$r\f$ means: at each moment the ferrule
 * lengthens by \f$1 - r\f$ times what it would with the ends free.
 *
 * @formula With \f$m = b^2/k\f$, \f$S = \sqrt{1 + m^2}\f$, \f$S_\alpha = \sqrt{1 + \alpha^2 m^2}\f$:
 * ends free \f$ \frac{m(1-\alpha^2)}{S + S_\alpha} - \frac{q}{Y}(1-\alpha) =
 * \frac{1}{\sqrt3}\left[-\ln\alpha + \ln\frac{1 + S_\alpha}{1 + S}\right] \f$; with restraint
 * \f$ m_r = \sqrt3\,x/(1 - x),\ x = (1 - r)\,m/(m + \sqrt3) \f$. Lengthening
 * \f$ \mathrm{d}\ln L/\mathrm{d}\ln b = -2 m_r/(m_r + \sqrt3) \f$, constant volume, mean elastic strains of the section
 * added; \f$ P = q + \frac{Y}{\sqrt3}\left[-\ln\alpha + \ln\frac{1 + S_\alpha}{1 + S}\right]_{m_r} \f$ (ends fixed:
 * \f$ q + \frac{2}{\sqrt3} Y \ln\frac{b}{a} \f$). Springback
 * \f$ \frac{2Pb}{E}\left[\frac{b^2 + a^2}{b^2 - a^2} - \nu - \frac{2\nu^2 r b^2}{b^2 - a^2}\right] \f$. Hardening:
 * \f$ Y + H\bar\varepsilon \f$ with the plastic strain at the middle of the wall.
 *
 * @param[in] ferrule  wall and outside diameter before crimping; wall at most 0.18 of the outside diameter @unused
 *            length
 * @param[in] diameter  closing diameter; reduced by at least fer_minimum_reduction(), at most by 30 % @range 0.001 mm to
 *            1,000,000 mm
 * @param[in] material  see fer_check_material()
 * @param[in] load  restraint 0 to 1, pressure of the hose at most 0.5 of the yield strength @optional ends free, no hose
 * @param[out] forming  all NaN on failure; what stands on the release NaN where the
 *             bore would yield the other way when the dies open, from some 0.15 of the yield strength as hose pressure on:
 *             wall, length and pressure in the closed dies are there all the same
 * @retval FER_OK  done; release_status is FER_DIAMETER_YIELDS_ON_RELEASE where the sizes after opening are not there
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_FERRULE_WALL_MISSING  not given
 * @retval FER_FERRULE_WALL_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_OUTSIDE_MISSING  not given
 * @retval FER_FERRULE_WITHOUT_BORE  the wall is not below half the outside diameter
 * @retval FER_FERRULE_WALL_TOO_THICK  the wall is above 0.18 of the outside diameter
 * @retval FER_MATERIAL_MODULUS_OUT_OF_RANGE  and the other statuses of fer_check_material()
 * @retval FER_RESTRAINT_OUT_OF_RANGE  not a number from 0 to 1
 * @retval FER_HOSE_PRESSURE_OUT_OF_RANGE  negative, or not a number
 * @retval FER_HOSE_PRESSURE_ABOVE_LIMIT  above 0.5 of the yield strength
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIAMETER_ABOVE_FERRULE  larger than the ferrule as it is
 * @retval FER_DIAMETER_WITHOUT_BORE  the bore would close
 * @retval FER_DIAMETER_REDUCED_TOO_LITTLE  less than fer_minimum_reduction(): the wall has not yielded through its thickness
 * @retval FER_DIAMETER_REDUCED_TOO_FAR  reduced by more than 30 %
 * @accuracy the model itself: 1e-4 relative with hardening, 1e-5 without. Where the bore is down to a quarter of
 *         the closing diameter: 1e-3 with hardening, 5e-4 without (the plastic strain); worse as it closes.
 *         Finite elements of a round die that closes everywhere
 *         at once (tests/agree/finite_element), no hardening: pressure 0.05 % with ends fixed, 0.1 % with ends free, wall and length 0.05 %
 *         (0.1 % with a pressure of the hose above 0.3 of the yield strength, where the springback was not compared),
 *         springback 0.15 % up to a yield strength of 1/500
 *         of the elastic modulus, 0.3 % up to 1/200. With hardening: pressure and springback 0.5 %, wall and length 0.1 %
 * @source Hill, The Mathematical Theory of Plasticity, ch. V (from memory); springback: Lamé
 */
FER_API fer_status fer_form_ferrule(const fer_ferrule *ferrule, fer_length diameter,
                                    const fer_material *material, fer_forming_load load,
                                    fer_forming *forming);

/**
 * Closing diameter that gives a crimp diameter: the inverse of fer_form_ferrule().
 *
 * @formula the one diameter that is as much smaller as the ferrule springs back from it
 *
 * @param[in] ferrule  @as fer_form_ferrule()
 * @param[in] crimp_diameter  what is to be measured after the dies have opened @range 0.001 mm to 1,000,000 mm
 * @param[in] material  @as fer_form_ferrule()
 * @param[in] load  @as fer_form_ferrule()
 * @param[out] diameter  closing diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_DIAMETER_YIELDS_ON_RELEASE  the bore would yield the other way when the dies open
 * @retval FER_DIAMETER_REDUCED_TOO_LITTLE  and the other statuses of fer_form_ferrule()
 * @accuracy 1e-8 relative, with hardening 1e-7, both against fer_form_ferrule(), whose own the springback has
 * @source as fer_form_ferrule()
 */
FER_API fer_status fer_closing_diameter(const fer_ferrule *ferrule, fer_length crimp_diameter,
                                        const fer_material *material, fer_forming_load load,
                                        fer_length *diameter);

/**
 * Smallest reduction of the diameter for which fer_form_ferrule() holds.
 *
 * @formula \f$ 5\sqrt3\,(Y/E)\,b_0 \f$: the wall yields throughout from about a fifth of it on, and from here on the
 * closed forms have their accuracy.
 *
 * @param[in] ferrule  outside diameter counts; its wall is checked @unused length
 * @param[in] material  see fer_check_material()
 * @param[out] reduction  on the diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_FERRULE_WALL_OUT_OF_RANGE  and the other statuses of fer_form_ferrule() that concern the ferrule
 * @retval FER_MATERIAL_MODULUS_OUT_OF_RANGE  and the other statuses of fer_check_material()
 * @accuracy 2 units in the last place; the factor was found by finite elements, see tests/agree/finite_element
 * @source theory of the first yielding of a thick tube (Hill, ch. V, from memory)
 */
FER_API fer_status fer_minimum_reduction(const fer_ferrule *ferrule, const fer_material *material,
                                         fer_length *reduction);

/**
 * Force of the dies.
 *
 * @formula total \f$ P \pi D L \f$; segment \f$ P \pi D L/N \f$; resultant \f$ P D L \sin(\pi/N) \f$.
 *
 * @param[in] pressure  of the dies on the ferrule, such as fer_forming has it @range above 0 to 1,000,000 MPa
 * @param[in] diameter  closing diameter @range 0.001 mm to 1,000,000 mm
 * @param[in] length  of the ferrule that the dies press on @range 0.001 mm to 1,000,000 mm
 * @param[in] segments  number of segments @range 3 to 64
 * @param[out] force  all NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_DIE_PRESSURE_OUT_OF_RANGE  not a number above 0 and at most 1,000,000 MPa
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_LENGTH_MISSING  0
 * @retval FER_FERRULE_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_SEGMENTS_OUT_OF_RANGE  not 3 to 64
 * @accuracy 2 units in the last place
 * @source equilibrium; finite elements: force of a segment of eight dies in contact with a ferrule whose ends are fixed within 2 %
 *         (tests/agree/finite_element); with ends free 1.3 to 2.1 % in a separate computation that is not among the tests
 */
FER_API fer_status fer_find_die_force(fer_pressure pressure, fer_length diameter, fer_length length,
                                      int segments, fer_die_force *force);

/**
 * Elastic tube under pressure inside and outside.
 *
 * @formula Lamé: \f$ u(\varrho) = \frac{\varrho}{E}\left[(1-\nu)\frac{p_i a^2 - p_o b^2}{b^2 - a^2} +
 * (1+\nu)\frac{(p_i - p_o)a^2b^2}{(b^2 - a^2)\varrho^2} + \nu r E \varepsilon_z\right] \f$ with the axial strain of a
 * tube whose ends are free \f$ \varepsilon_z = -2\nu(p_i a^2 - p_o b^2)/(E(b^2 - a^2)) \f$.
 *
 * @param[in] inside  inside diameter @range 0.001 mm to below outside @optional a solid bar
 * @param[in] outside  outside diameter @range 0.001 mm to 1,000,000 mm
 * @param[in] inner_pressure  on the inside; 0 where there is none @range 0 MPa to 1,000,000 MPa
 * @param[in] outer_pressure  on the outside; 0 where there is none @range 0 MPa to 1,000,000 MPa
 * @param[in] material  see fer_check_material() @unused yield_strength hardening
 * @param[in] load  its restraint counts @unused hose_pressure @optional ends free
 * @param[out] change  all NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TUBE_INSIDE_OUT_OF_RANGE  not 0 and not from 0.001 mm up to below the outside diameter
 * @retval FER_TUBE_OUTSIDE_MISSING  not given
 * @retval FER_TUBE_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_TUBE_PRESSURE_OUT_OF_RANGE  not a number from 0 to 1,000,000 MPa
 * @retval FER_MATERIAL_MODULUS_OUT_OF_RANGE  and the other statuses of fer_check_material()
 * @retval FER_RESTRAINT_OUT_OF_RANGE  not a number from 0 to 1
 * @accuracy 1e-13 relative; finite elements within 0.01 %
 * @source Lamé: Timoshenko and Goodier, Theory of Elasticity, 2nd ed. (1951), art. 26 (from memory)
 */
FER_API fer_status fer_load_tube(fer_length inside, fer_length outside, fer_pressure inner_pressure,
                                 fer_pressure outer_pressure, const fer_material *material,
                                 fer_forming_load load, fer_tube_change *change);

/**
 * Pressures at which a stem yields under its hose.
 *
 * @formula First yielding \f$ Y(r_s^2 - r_i^2)/(2 r_s^2\sqrt{1 - r\nu + r^2\nu^2}) \f$. Full yielding: ends fixed
 * \f$ \frac{2}{\sqrt3} Y\ln(r_s/r_i) \f$, for at collapse the elastic constants drop out; otherwise the pressure of
 * fer_form_ferrule() on a tube of the stem's size.
 *
 * @param[in] stem  outside diameter and bore; the hose does not matter
 * @param[in] material  see fer_check_material(); hardening is left out, on the safe side
 * @param[in] load  its restraint counts @unused hose_pressure @optional ends free
 * @param[out] strength  all NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_STEM_OUTSIDE_MISSING  not given
 * @retval FER_STEM_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_STEM_BORE_MISSING  not given
 * @retval FER_STEM_BORE_OUT_OF_RANGE  not from 0.001 mm up to below the outside diameter
 * @retval FER_MATERIAL_MODULUS_OUT_OF_RANGE  and the other statuses of fer_check_material()
 * @retval FER_RESTRAINT_OUT_OF_RANGE  not a number from 0 to 1
 * @accuracy 1e-13 relative; finite elements: the bore runs away between 0.99 and 1.01 of full yielding, ends fixed and free
 * @source Lamé with von Mises; Hill, ch. V (from memory)
 */
FER_API fer_status fer_find_stem_strength(const fer_stem *stem, const fer_material *material,
                                          fer_forming_load load, fer_stem_strength *strength);

/**
 * How much the bore of a stem shrinks under its hose, and how much of that stays.
 *
 * @formula Elastic, ends free: \f$ 4 q r_s^2 r_i/(E(r_s^2 - r_i^2)) \f$, with restraint times \f$ 1 - r\nu^2 \f$. Partly
 * plastic up to radius \f$c\f$, ends fixed: \f$ q = k[2\ln(c/r_i) + 1 - c^2/r_s^2] \f$, bore
 * \f$ 4(1-\nu^2)kc^2/(E r_i) \f$; on release the elastic reduction goes back. A hose pressure of 0 changes nothing.
 *
 * @param[in] stem  outside diameter and bore; the hose does not matter
 * @param[in] material  see fer_check_material(); hardening is left out, on the safe side
 * @param[in] load  restraint, and the pressure of the hose; beyond first yielding there is a closed form for fixed ends only
 * @param[out] change  all NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_STEM_BORE_MISSING  and the other statuses of fer_find_stem_strength()
 * @retval FER_HOSE_PRESSURE_OUT_OF_RANGE  negative, or not a number
 * @retval FER_STEM_YIELDS_THROUGH  the pressure is at or above the pressure of full yielding: the bore closes up
 * @retval FER_STEM_YIELDS_ENDS_NOT_FIXED  the bore yields, and the restraint is not 1
 * @retval FER_STEM_YIELDS_TOO_DEEP  the plastic zone is deeper than 0.8 of the wall, or the pressure too near full yielding for
 *         the closed form; with Poisson's ratio below 0.2 deeper than \f$ 0.01/(1/2 - \nu)^2 \f$ of the wall
 * @retval FER_STEM_YIELDS_ON_RELEASE  the bore would yield the other way when the pressure is released
 * @accuracy finite elements: elastic 0.01 %. Partly plastic, Poisson's ratio 0.2 to 0.45, bore at least two thirds of the outside
 *         diameter, yield strength up to 1/680 of the elastic modulus: the reduction under load is too large, the safe way, by
 *         at most 1 % to a quarter of the wall, 1.5 % to half of it, 3 % to 0.8 of it; bore a third of the outside diameter 3.5 %, 4 %
 *         and 6 %; yield strength 1/206 of the modulus 6.5 % more. The residual reduction is wrong by as many mm
 * @source Lamé; Hill, ch. V (from memory), with elastic compressibility
 */
FER_API fer_status fer_load_stem(const fer_stem *stem, const fer_material *material, fer_forming_load load,
                                 fer_stem_change *change);

/**
 * What is left between the bore of a stem and a go/no-go gauge.
 *
 * @formula margin = bore − reduction − gauge; negative: the gauge does not pass
 *
 * @param[in] stem  its bore counts @unused outside
 * @param[in] reduction  of the bore's diameter, see fer_load_stem() @range 0 mm to below stem.bore
 * @param[in] gauge  smallest bore allowed @range 0.001 mm to 1,000,000 mm
 * @param[out] margin  on the diameter; NaN on failure
 * @retval FER_OK  done, whether it passes or not
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_STEM_BORE_MISSING  not given
 * @retval FER_STEM_BORE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_BORE_REDUCTION_OUT_OF_RANGE  negative, not below the bore, or not a number
 * @retval FER_BORE_LIMIT_MISSING  not given
 * @retval FER_BORE_LIMIT_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @accuracy 1 unit in the last place of the bore, or of the gauge where that is larger than two bores
 * @source geometry
 */
FER_API fer_status fer_bore_margin(const fer_stem *stem, fer_length reduction, fer_length gauge,
                                   fer_length *margin);

#ifdef __cplusplus
}
#endif

#endif
