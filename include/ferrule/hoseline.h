/* SPDX-License-Identifier: MIT */
/** @file
 * Module `hoseline`: the assembly as a whole: cut length, tolerance of the length, bends, orientation of elbows, proof pressure,
 * thrust and grip.
 *
 * The hose manufacturer's data and the standard of the hose come first: minimum bend radius, change of length under pressure,
 * tolerance of the length, proof pressure and its time. Nothing here replaces a proof test, and a grip that was computed is a
 * margin on paper: a coupling that comes off under pressure can kill.
 */
#ifndef FERRULE_HOSELINE_H
#define FERRULE_HOSELINE_H

#include <ferrule/release.h>

/** Usual proof pressure by the working pressure: 2 (hydraulic hose assemblies, ISO 6605; from memory). */
#define FER_PROOF_FACTOR_USUAL 2.0

/** Usual minimum burst pressure by the working pressure: 4 (EN 853, ISO 1436; from memory). */
#define FER_BURST_FACTOR_USUAL 4.0

/** Greatest number of corner points of a route. */
#define FER_ROUTE_POINTS_MAXIMUM 1000

/** What a coupling adds to the hose at one end. */
typedef struct fer_hose_end {
    /** from the end of the hose to the point that the overall length is measured from: the sealing face, or the axis of an elbow's
     * end @label cut-off @range 0.001 mm to 1,000,000 mm */
    fer_length cut_off;
    /** by how much the hose becomes longer when this end is crimped, measured by the shop @label growth @range -100 mm to 100 mm
     * @optional none */
    fer_length growth;
} fer_hose_end;

/** A row of a table of length tolerances; give the table's rows in rising order of bore and length. */
typedef struct fer_length_row {
    /** the row is for bores up to this @label bore up to @range 0.001 mm to 1,000,000 mm @optional any bore */
    fer_length bore_maximum;
    /** the row is for lengths up to this @label length up to @range 0.001 mm to 1,000,000 mm @optional any length */
    fer_length length_maximum;
    fer_length plus; /**< upper tolerance @range 0 mm to 1,000,000 mm @optional plus_share counts */
    fer_length
        minus; /**< lower tolerance, without sign @range 0 mm to 1,000,000 mm @optional minus_share counts */
    fer_ratio plus_share; /**< upper tolerance by the length @range 0 to 1 @optional plus counts */
    fer_ratio
        minus_share; /**< lower tolerance by the length, without sign @range 0 to 1 @optional minus counts */
} fer_length_row;

/** Two bends of equal radius that carry a hose sideways, without a straight between them. */
typedef struct fer_offset_bend {
    fer_angle angle;   /**< of each bend */
    fer_length run;    /**< how far the hose gets in its first direction */
    fer_length length; /**< of the centre line */
} fer_offset_bend;

/** A point in space; its three coordinates are in one right-handed frame. */
typedef struct fer_point {
    fer_length x; /**< first coordinate @range -1,000,000 mm to 1,000,000 mm */
    fer_length y; /**< second coordinate @range -1,000,000 mm to 1,000,000 mm */
    fer_length z; /**< third coordinate @range -1,000,000 mm to 1,000,000 mm */
} fer_point;

/** A route with rounded corners, and how its elbows stand to each other. */
typedef struct fer_orientation {
    fer_length length; /**< of the hose's centre line from the first point to the last, corners rounded */
    /** seen along the hose from the first end to the last, clockwise from the first elbow to the last one, 0 to below 360°; the
     * same figure from either end */
    fer_angle angle;
    fer_length straight_minimum; /**< shortest straight left between bends, or between a bend and an end */
} fer_orientation;

/** By how much an assembly is twisted on its ports. */
typedef struct fer_twist {
    fer_angle angle;     /**< angle as made minus angle as needed, above -180° to 180° */
    fer_angle per_metre; /**< by the free length of the hose: so much for each metre */
} fer_twist;

/** What each part of an assembly is rated for, by its manufacturer. */
typedef struct fer_ratings {
    /** working pressure of the hose @label working pressure of the hose @range 0.001 MPa to 1,000 MPa */
    fer_pressure hose;
    /** working pressure of the first coupling @label working pressure of the first coupling @range 0.001 MPa to 1,000 MPa */
    fer_pressure first;
    /** working pressure of the second coupling @label working pressure of the second coupling @range 0.001 MPa to 1,000 MPa */
    fer_pressure second;
    /** working pressure that the order asks for @label working pressure asked for @range 0.001 MPa to 1,000 MPa
     * @optional the lowest rating */
    fer_pressure asked;
    /** no part may ever see more, by its manufacturer @label greatest pressure allowed @range 0.001 MPa to 4,000 MPa
     * @optional not stated */
    fer_pressure allowed;
} fer_ratings;

/** Multiples of the working pressure, as the standard of the hose has them; all zero: the usual. */
typedef struct fer_proof_factors {
    /** proof pressure by working pressure @label factor of the proof pressure @range 1 to 10 @optional the usual 2, see
     * #FER_PROOF_FACTOR_USUAL */
    double proof_pressure;
    /** minimum burst pressure by working pressure @label factor of the burst pressure @range 1 to 100 @optional the usual 4, see
     * #FER_BURST_FACTOR_USUAL */
    double burst;
} fer_proof_factors;

/** Pressures of an assembly. */
typedef struct fer_proof_pressures {
    fer_pressure working;        /**< of the assembly: to be marked on it */
    fer_pressure proof_pressure; /**< of the proof test */
    fer_pressure
        burst; /**< below it no assembly of this kind may burst; tested on assemblies that are scrapped */
    fer_cautions cautions; /**< which cautions apply */
} fer_proof_pressures;

/** What holds a coupling in the hose. */
typedef struct fer_holding {
    /** at which the coupling has to hold, usually the proof pressure @label pressure @range 0.001 MPa to 4,000 MPa */
    fer_pressure pressure;
    fer_length stem_outside; /**< stem outside diameter @range 0.001 mm to 1,000,000 mm */
    /** length of hose that is squeezed @label squeezed length @range 0.001 mm to 1,000,000 mm */
    fer_length length;
    /** of the hose between ferrule and stem, as it is when it has to hold: rubber relaxes, so hours and years later it is less than
     * in the crimp @label squeeze @range 0.001 MPa to 1,000 MPa */
    fer_pressure squeeze;
    /** hose inside diameter @range 0.001 mm to 1,000,000 mm @optional not above the stem */
    fer_length hose_inside;
    /** bore of the crimped ferrule @label ferrule bore @range 0.001 mm to 1,000,000 mm @above stem_outside
     * @optional not known, its face holds nothing */
    fer_length ferrule_bore;
    /** the ferrule is fixed to the stem, so that its face holds, too @label ferrule fixed to the stem @flag @optional it is not */
    int ferrule_fixed;
    /** of hose on metal, measured by pulling couplings off @label friction @range 0.001 to 2 @optional not measured, no grip is
     * computed */
    fer_ratio friction;
    /** outside diameter of the crimped ferrule @label ferrule outside diameter @range 0.001 mm to 1,000,000 mm @above ferrule_bore
     * @optional the greatest grip is not computed */
    fer_length ferrule_outside;
    /** of the ferrule's metal as crimped, hardening included @label yield strength @range 0.001 MPa to 10,000 MPa
     * @optional the greatest grip is not computed */
    fer_pressure yield_strength;
} fer_holding;

/** Thrust of the pressure on a coupling, and what holds it. */
typedef struct fer_grip {
    fer_force thrust;          /**< while the hose seals on the stem */
    fer_area area;             /**< of the faces that hold */
    fer_ratio friction_needed; /**< with which the squeeze just holds the thrust */
    fer_found_force
        unsealed; /**< thrust where it does not seal there, and the pressure gets under the ferrule */
    fer_found_force friction_grip;      /**< grip of the friction that was measured */
    fer_found_ratio margin;             /**< grip by thrust; not a promise */
    fer_found_pressure squeeze_maximum; /**< that the ferrule can keep up */
    fer_found_force grip_maximum;       /**< of that squeeze */
    int below_thrust;                   /**< the grip is below the thrust: do not use it like this @flag */
    int cannot_hold;       /**< the greatest grip is below the thrust, so no squeeze helps @flag */
    fer_cautions cautions; /**< which cautions apply */
} fer_grip;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Length to cut the hose to.
 *
 * @formula \f$ C = L - c_1 - c_2 - g_1 - g_2 \f$: overall length minus cut-offs and growths of both ends.
 *
 * @param[in] overall  overall length of the assembly @range 0.001 mm to 1,000,000 mm
 * @param[in] first  one end
 * @param[in] second  the other end
 * @param[out] length  to cut; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_OVERALL_LENGTH_MISSING  not given
 * @retval FER_OVERALL_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_CUT_OFF_MISSING  not given
 * @retval FER_CUT_OFF_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_HOSE_GROWTH_OUT_OF_RANGE  not a number from -100 mm to 100 mm
 * @retval FER_CUT_LENGTH_NOT_POSITIVE  the ends alone are as long as the assembly
 * @accuracy 1 unit in the last place
 * @source geometry; common practice, no source
 */
FER_API fer_status fer_cut_length(fer_length overall, const fer_hose_end *first, const fer_hose_end *second,
                                  fer_length *length);

/**
 * Overall length of an assembly whose hose was cut to a length: the inverse of fer_cut_length().
 *
 * @formula \f$ L = C + c_1 + c_2 + g_1 + g_2 \f$
 *
 * @param[in] cut  length that the hose was cut to @range 0.001 mm to 1,000,000 mm
 * @param[in] first  one end
 * @param[in] second  the other end
 * @param[out] overall  overall length; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CUT_LENGTH_MISSING  not given
 * @retval FER_CUT_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_CUT_OFF_MISSING  not given
 * @retval FER_CUT_OFF_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_HOSE_GROWTH_OUT_OF_RANGE  not a number from -100 mm to 100 mm
 * @retval FER_OVERALL_LENGTH_OUT_OF_RANGE  the sum is not from 0.001 mm to 1,000,000 mm
 * @accuracy 1 unit in the last place
 * @source geometry; common practice, no source
 */
FER_API fer_status fer_overall_length(fer_length cut, const fer_hose_end *first, const fer_hose_end *second,
                                      fer_length *overall);

/**
 * Lengths that a hose may have under pressure.
 *
 * Braided and spiralled hoses become shorter or longer; -4 to +2 % for many (EN 853 and its like, from memory): the manufacturer of the
 * hose says how much. A hose that is just long enough without pressure pulls at its couplings under it.
 *
 * @formula \f$ L(1 + \varepsilon) \f$ for both ends of the range
 *
 * @param[in] length  of the hose without pressure @range 0.001 mm to 1,000,000 mm
 * @param[in] change  of the length under pressure, lower not above upper @range -0.5 to 0.5
 * @param[out] lengths  shortest and longest; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_CUT_LENGTH_MISSING  not given
 * @retval FER_CUT_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_LENGTH_CHANGE_OUT_OF_RANGE  not a number from -0.5 to 0.5
 * @retval FER_LENGTH_CHANGE_WRONG_ORDER  the lower end is above the upper one
 * @accuracy 2 units in the last place
 * @source definition
 */
FER_API fer_status fer_length_under_pressure(fer_length length, fer_ratio_range change,
                                             fer_length_range *lengths);

/**
 * Length without pressure that a hose needs to be long enough when it is at its shortest: the inverse of
 * fer_length_under_pressure().
 *
 * @formula \f$ L/(1 + \min(\varepsilon, 0)) \f$: a hose that only grows is still as long as needed when the pressure is off.
 *
 * @param[in] shortest  length that has to be left at its shortest @range 0.001 mm to 1,000,000 mm
 * @param[in] change  of the length under pressure, lower not above upper @range -0.5 to 0.5
 * @param[out] length  without pressure; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_CUT_LENGTH_MISSING  not given
 * @retval FER_CUT_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_LENGTH_CHANGE_OUT_OF_RANGE  not a number from -0.5 to 0.5
 * @retval FER_LENGTH_CHANGE_WRONG_ORDER  the lower end is above the upper one
 * @accuracy 2 units in the last place
 * @source definition
 */
FER_API fer_status fer_length_before_pressure(fer_length shortest, fer_ratio_range change,
                                              fer_length *length);

/**
 * Limits of the length by a table of tolerances: the first row for this bore and length counts.
 *
 * The tables of the standards are the caller's, no standard's figures are in the library. Either tolerance is an amount or a share of
 * the length; one of both is 0, or both are.
 *
 * @param[in] rows  the table, in its order
 * @param[in] count  number of rows
 * @param[in] bore  nominal bore of the hose @range 0.001 mm to 1,000,000 mm
 * @param[in] length  nominal length of the assembly @range 0.001 mm to 1,000,000 mm
 * @param[out] limits  shortest and longest length; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no rows
 * @retval FER_HOSE_BORE_MISSING  not given
 * @retval FER_HOSE_BORE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_OVERALL_LENGTH_MISSING  not given
 * @retval FER_OVERALL_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_LENGTH_ROW_OUT_OF_RANGE  a number of a row is not in its range
 * @retval FER_LENGTH_ROW_TWO_TOLERANCES  a tolerance is both an amount and a share
 * @retval FER_LENGTH_ROW_MISSING  no row is for this bore and length
 * @retval FER_LENGTH_LIMITS_NOT_POSITIVE  the lower tolerance is not below the length
 * @accuracy 2 units in the last place
 * @source definition; tables: DIN 20066, EN 853, SAE J517
 */
FER_API fer_status fer_find_length_limits(const fer_length_row *rows, size_t count, fer_length bore,
                                          fer_length length, fer_length_range *limits);

/**
 * Length of the hose in a bend of its minimum bend radius.
 *
 * The minimum bend radius is measured at the inside of the bend; the centre line is half a hose further out.
 *
 * @formula \f$ (R + d/2)\,\theta \f$
 *
 * @param[in] bend_radius  minimum bend radius, at the inside of the bend @range 0.001 mm to 1,000,000 mm
 * @param[in] hose_outside  outside diameter of the hose @range 0.001 mm to 1,000,000 mm
 * @param[in] angle  by which the hose turns @range 0 rad to 2 * pi
 * @param[out] length  of the centre line; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_BEND_RADIUS_MISSING  not given
 * @retval FER_BEND_RADIUS_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_HOSE_OUTSIDE_MISSING  not given
 * @retval FER_HOSE_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_BEND_ANGLE_OUT_OF_RANGE  not a number from 0° to 360°
 * @accuracy 2 units in the last place
 * @source SAE J343: length of a test piece (from memory)
 */
FER_API fer_status fer_bend_length(fer_length bend_radius, fer_length hose_outside, fer_angle angle,
                                   fer_length *length);

/**
 * Two bends of minimum radius that carry the hose sideways by an offset, without a straight between them.
 *
 * @formula \f$ \theta = 2\arcsin\sqrt{h/(4 r)},\ r = R + d/2 \f$; run \f$ 2 r\sin\theta \f$; length \f$ 2 r\theta \f$
 *
 * @param[in] bend_radius  minimum bend radius, at the inside of the bend @range 0.001 mm to 1,000,000 mm
 * @param[in] hose_outside  outside diameter of the hose @range 0.001 mm to 1,000,000 mm
 * @param[in] offset  sideways, at most as far as two half circles reach @range 0.001 mm to 4 * bend_radius + 2 * hose_outside
 * @param[out] bend  angle, run, length; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_BEND_RADIUS_MISSING  not given
 * @retval FER_BEND_RADIUS_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_HOSE_OUTSIDE_MISSING  not given
 * @retval FER_HOSE_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_BEND_OFFSET_MISSING  not given
 * @retval FER_BEND_OFFSET_OUT_OF_RANGE  not from 0.001 mm to four radii of the centre line
 * @accuracy 4 units in the last place; the run 1e-15 of the radius of the centre line besides
 * @source geometry
 */
FER_API fer_status fer_find_offset_bend(fer_length bend_radius, fer_length hose_outside, fer_length offset,
                                        fer_offset_bend *bend);

/**
 * Minimum length of a hose that hangs in a U between a fixed end and one that moves along it.
 *
 * @formula \f$ \pi(R + d/2) + 2a + T/2 \f$: the legs differ by up to half of the stroke.
 *
 * @param[in] bend_radius  minimum bend radius, at the inside of the bend @range 0.001 mm to 1,000,000 mm
 * @param[in] hose_outside  outside diameter of the hose @range 0.001 mm to 1,000,000 mm
 * @param[in] stroke  of the end that moves @range 0 mm to 1,000,000 mm
 * @param[in] straight  that has to stay straight at each end @range 0 mm to 1,000,000 mm
 * @param[out] length  of the centre line; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_BEND_RADIUS_MISSING  not given
 * @retval FER_BEND_RADIUS_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_HOSE_OUTSIDE_MISSING  not given
 * @retval FER_HOSE_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_STROKE_OUT_OF_RANGE  not a number from 0 mm to 1,000,000 mm
 * @retval FER_STRAIGHT_OUT_OF_RANGE  not a number from 0 mm to 1,000,000 mm
 * @accuracy 3 units in the last place
 * @source geometry
 */
FER_API fer_status fer_moving_bend_length(fer_length bend_radius, fer_length hose_outside, fer_length stroke,
                                          fer_length straight, fer_length *length);

/**
 * Length of a route with rounded corners in space, and how the elbows at its ends have to stand to each other.
 *
 * An elbow points from its end of the hose to its tip, and what counts is its direction square to the hose. A hose that is not twisted
 * carries that direction along by the smallest turn at each corner. Make the assembly with this angle, and it lies on its ports without
 * twist.
 *
 * @formula Length \f$ \sum |P_{i+1} - P_i| - r\sum (2\tan(\theta_i/2) - \theta_i) \f$, \f$ r = R + d/2 \f$, \f$\theta_i\f$ the
 * turn at a corner. Angle: the first elbow's direction after the product of the rotations at the corners (parallel transport), to
 * the last elbow's.
 *
 * @param[in] points  the first end, corners of the centre line, the last end
 * @param[in] count  2 to 1000
 * @param[in] bend_radius  of all corners, at the inside of the bend, not below the minimum bend radius @range 0.001 mm to 1,000,000 mm
 * @param[in] hose_outside  outside diameter of the hose @range 0.001 mm to 1,000,000 mm
 * @param[in] first_tip  a point to which the first elbow points
 * @param[in] last_tip  a point to which the last elbow points
 * @param[out] orientation  length, angle, shortest straight; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 1000 points
 * @retval FER_ROUTE_POINTS_TOO_FEW  fewer than two points
 * @retval FER_ROUTE_POINT_OUT_OF_RANGE  a coordinate is not a number from -1,000,000 mm to 1,000,000 mm
 * @retval FER_BEND_RADIUS_MISSING  not given
 * @retval FER_BEND_RADIUS_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_HOSE_OUTSIDE_MISSING  not given
 * @retval FER_HOSE_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_ROUTE_POINTS_TOO_CLOSE  neighbours are less than 0.001 mm apart
 * @retval FER_ROUTE_TURNS_BACK  a corner turns by more than 179°
 * @retval FER_ROUTE_STRAIGHT_TOO_SHORT  the bends of neighbouring corners do not fit on the straight between them
 * @retval FER_ELBOW_ALONG_HOSE  an elbow points along the hose within 0.1°, so it has no direction
 * @accuracy length 1e-13 relative; angle 1e-11 rad where the elbows are square to the hose
 * @source parallel transport: Bishop, Amer. Math. Monthly 82 (1975) 246 (from memory); geometry
 */
FER_API fer_status fer_find_orientation(const fer_point *points, size_t count, fer_length bend_radius,
                                        fer_length hose_outside, const fer_point *first_tip,
                                        const fer_point *last_tip, fer_orientation *orientation);

/**
 * Twist of an assembly on its ports, where its elbows do not stand to each other as they have to.
 *
 * @param[in] made  angle of the elbows as made, as in #fer_orientation @range -10 rad to 10 rad
 * @param[in] ordered  angle as ordered, that the ports need @range -10 rad to 10 rad
 * @param[in] length  free length of the hose @range 0.001 mm to 1,000,000 mm
 * @param[out] twist  the smaller way round; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_ELBOW_ANGLE_OUT_OF_RANGE  not a number from -10 rad to 10 rad
 * @retval FER_CUT_LENGTH_MISSING  not given
 * @retval FER_CUT_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @accuracy 4e-15 rad; the rate 4e-15 relative besides
 * @source definition
 */
FER_API fer_status fer_find_twist(fer_angle made, fer_angle ordered, fer_length length, fer_twist *twist);

/**
 * Working pressure, proof pressure and minimum burst pressure of an assembly.
 *
 * The part with the lowest rating decides; a rating that is not known is an error, never "no limit". The test itself is done as the
 * standard of the hose says (ISO 6605: kept up for 30 s to 60 s; from memory): with liquid, air bled out, behind a guard.
 *
 * @formula \f$ p = \min(p_h, p_1, p_2) \f$ or what is asked for; proof pressure \f$ k p \f$, burst pressure \f$ m p \f$
 *
 * @param[in] ratings  of hose and couplings
 * @param[in] factors  multiples of the working pressure @optional the usual 2 and 4
 * @param[out] pressures  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_RATING_MISSING  the working pressure of hose or coupling is not given
 * @retval FER_RATING_OUT_OF_RANGE  a pressure is not in its range
 * @retval FER_PROOF_FACTOR_OUT_OF_RANGE  given, and not 1 to 10, or 1 to 100 for the burst
 * @retval FER_RATING_BELOW_ASKED  more is asked for than hose or coupling is rated for
 * @retval FER_PROOF_ABOVE_ALLOWED  the proof pressure is above what a part may ever see
 * @accuracy 1 unit in the last place
 * @source ISO 6605, EN 853 (factors, from memory)
 */
FER_API fer_status fer_find_proof_pressure(const fer_ratings *ratings, fer_proof_factors factors,
                                           fer_proof_pressures *pressures);

/**
 * Force with which a pressure pushes the coupling out of the hose.
 *
 * @formula \f$ F = p\,\pi d^2/4 \f$
 *
 * @param[in] pressure  in the hose @range 0 MPa to 4,000 MPa
 * @param[in] seal_diameter  of the circle that it seals on: of the stem, or of the hose inside where that is larger
 *            @range 0.001 mm to 1,000,000 mm
 * @param[out] thrust  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_LINE_PRESSURE_OUT_OF_RANGE  not a number from 0 MPa to 4,000 MPa
 * @retval FER_SEAL_DIAMETER_MISSING  not given
 * @retval FER_SEAL_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @accuracy 3 units in the last place
 * @source equilibrium
 */
FER_API fer_status fer_end_thrust(fer_pressure pressure, fer_length seal_diameter, fer_force *thrust);

/**
 * What holds a coupling against the thrust of the pressure: the friction that is needed, and the grip where friction was measured.
 *
 * Left out, each on the safe side: what the pressure adds to the squeeze, and ridges of stem and ferrule beyond their effect on the
 * friction that was measured. Not covered: relaxation beyond the squeeze that is given, impulses, heat, bending at the coupling.
 *
 * @formula Thrust \f$ F = p\,\pi\max(s, d_i)^2/4 \f$; unsealed, with the ferrule bore \f$B\f$ for \f$s\f$. Faces
 * \f$ A = \pi s\ell \f$, and \f$ \pi B\ell \f$ besides where the ferrule is fixed to the stem. Friction needed \f$ F/(qA) \f$,
 * grip \f$ \mu qA \f$. The ferrule keeps up a squeeze of \f$ (2/\sqrt3)\,Y\ln(b/a) \f$ at most, \f$b/a\f$ its outside by its bore;
 * where that is known, no more than it counts as squeeze.
 *
 * @param[in] holding  what holds
 * @param[out] grip  numbers NaN on failure
 * @retval FER_OK  done; figures that were not found say why: FRICTION_MISSING, FERRULE_BORE_MISSING, FERRULE_OUTSIDE_MISSING,
 *         MATERIAL_YIELD_STRENGTH_MISSING
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_LINE_PRESSURE_MISSING  not given
 * @retval FER_LINE_PRESSURE_OUT_OF_RANGE  not a number from 0.001 MPa to 4,000 MPa
 * @retval FER_STEM_OUTSIDE_MISSING  not given
 * @retval FER_STEM_OUTSIDE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_HOSE_INSIDE_OUT_OF_RANGE  given, and not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_SQUEEZE_LENGTH_MISSING  not given
 * @retval FER_SQUEEZE_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_SQUEEZE_MISSING  not given
 * @retval FER_SQUEEZE_OUT_OF_RANGE  not a number from 0.001 MPa to 1,000 MPa
 * @retval FER_FERRULE_BORE_OUT_OF_RANGE  given, and not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_BORE_NOT_ABOVE_STEM  given, and not above the stem
 * @retval FER_FRICTION_OUT_OF_RANGE  given, and not from 0.001 to 2
 * @retval FER_FERRULE_OUTSIDE_OUT_OF_RANGE  given, and not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_OUTSIDE_NOT_ABOVE_BORE  given, and not above the bore
 * @retval FER_MATERIAL_YIELD_STRENGTH_OUT_OF_RANGE  given, and not from 0.001 MPa to 10,000 MPa
 * @accuracy 8 units in the last place. None against a real coupling
 * @source equilibrium, Coulomb friction; ring in plane strain at full yield: Hill, The Mathematical Theory of Plasticity (1950), ch. V
 *         (from memory)
 */
FER_API fer_status fer_find_grip(const fer_holding *holding, fer_grip *grip);

/**
 * Whether the length of an assembly is within its limits: what fer_release_assembly() wants to know of it.
 *
 * Accepted by fer_judge() passes, rejected fails, undecided stays so. A tape or rule without a standard uncertainty decides
 * nothing unless the guard says that it is to do without.
 *
 * @param[in] measured  overall length @range 0.001 mm to 1,000,000 mm
 * @param[in] standard_uncertainty  of that @range 0 mm to 1,000,000 mm
 * @param[in] limits  of the length, in order, such as those of fer_find_length_limits() @range -1,000,000 mm to 1,000,000 mm
 * @param[in] guard  how to decide @optional guard band of 1.65 standard uncertainties
 * @param[out] outcome  not done on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_OVERALL_LENGTH_MISSING  not given
 * @retval FER_OVERALL_LENGTH_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_LIMIT_OUT_OF_RANGE  and the other statuses of fer_judge() that concern limits, uncertainty and guard
 * @accuracy the decision is that of fer_judge()
 * @source as fer_judge()
 */
FER_API fer_status fer_check_assembly_length(fer_length measured, fer_length standard_uncertainty,
                                             fer_length_range limits, fer_guard guard, fer_outcome *outcome);

/**
 * Whether two elbows stand to each other as they have to: what fer_release_assembly() wants to know of it.
 *
 * Decided as fer_check_assembly_length() does, on the smaller way round from the angle needed to the angle measured.
 *
 * @param[in] measured  angle between the elbows, as in #fer_orientation @range -10 rad to 10 rad
 * @param[in] standard_uncertainty  of that @range 0 rad to 3 rad
 * @param[in] ordered  angle as ordered @range -10 rad to 10 rad
 * @param[in] tolerance  either way, of the drawing @range 0.0001 rad to 3 rad
 * @param[in] guard  how to decide @optional guard band of 1.65 standard uncertainties
 * @param[out] outcome  not done on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_ELBOW_ANGLE_OUT_OF_RANGE  an angle is not a number from -10 rad to 10 rad
 * @retval FER_ELBOW_TOLERANCE_MISSING  not given
 * @retval FER_ELBOW_TOLERANCE_OUT_OF_RANGE  tolerance not from 0.0001 rad to 3 rad, or uncertainty not from 0 to 3 rad
 * @retval FER_GUARD_OUT_OF_RANGE  and the other statuses of fer_judge() that concern the guard
 * @accuracy the decision is that of fer_judge() on an angle right to 4e-15 rad
 * @source as fer_judge()
 */
FER_API fer_status fer_check_orientation(fer_angle measured, fer_angle standard_uncertainty,
                                         fer_angle ordered, fer_angle tolerance, fer_guard guard,
                                         fer_outcome *outcome);

#ifdef __cplusplus
}
#endif

#endif
