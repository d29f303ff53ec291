/* SPDX-License-Identifier: MIT */
/** @file
 * Module `press`: the dial and the opening.
 *
 * The dial stops the stroke; it is set to crimp diameter minus die size, corrected for this press. A correction that
 * was found on finished crimps already contains the springback: it is not added again.
 */
#ifndef FERRULE_PRESS_H
#define FERRULE_PRESS_H

#include <ferrule/die.h>

/** One press; all zero: a stepless dial without error, eight segments, nothing else known. */
typedef struct fer_press {
    /** smallest step of the dial @label graduation of the dial @range 0.0001 mm to 10 mm @decimals 4
     * @optional stepless */
    fer_length graduation;
    /** added to the setting, found on finished crimps @label correction @range -100 mm to 100 mm @optional
     * none */
    fer_length correction;
    fer_length dial_maximum; /**< maximum dial setting @range 0 mm to 1,000,000 mm @optional not known */
    /** how far the circle of a die grows from fully closed to fully open, on the diameter @label opening
     * @range 0.001 mm to 1,000,000 mm @optional not known */
    fer_length opening;
    /** rated force: the sum over the segments of their radial forces @range 0 N or more @optional not known
     * */
    fer_force capacity;
    int segments; /**< number of segments @range 3 to 64 @optional the usual 8 */
    /** the correction was measured, also where it is 0; one that is not 0 was @label correction measured @flag
     * @optional a correction of 0 was not measured */
    int correction_measured;
} fer_press;

/** What the dial is set to. */
typedef struct fer_dial {
    fer_length exact;   /**< setting before rounding to the graduation */
    fer_length setting; /**< setting that the dial can show */
    /** setting minus exact: above 0 the crimp comes out so much larger than the target */
    fer_length remainder;
    fer_length expected; /**< crimp diameter to expect: target plus remainder */
} fer_dial;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Whether the data of a press are possible.
 *
 * @param[in] press  any values
 * @retval FER_OK  possible
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  given, and not 0.0001 mm to 10 mm
 * @retval FER_PRESS_CORRECTION_OUT_OF_RANGE  not -100 mm to 100 mm
 * @retval FER_PRESS_DIAL_RANGE_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_PRESS_OPENING_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_PRESS_CAPACITY_OUT_OF_RANGE  negative or not finite
 * @retval FER_PRESS_SEGMENTS_OUT_OF_RANGE  given, and not 3 to 64
 */
FER_API fer_status fer_check_press(const fer_press *press);

/**
 * Dial setting for a target with a die on a press.
 *
 * @formula setting = target − die size + correction, rounded to the graduation. Halfway goes up, to the larger
 * diameter: the side on which hose and stem are stressed less.
 *
 * @param[in] press  see fer_check_press()
 * @param[in] die  its size counts
 * @param[in] target  crimp diameter @range die.size to 1,000,000 mm
 * @param[out] dial  exact, as it can be dialled, remainder and what to expect; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  and the other statuses of fer_check_press()
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  and the other statuses of fer_choose_die() that concern a die
 * @retval FER_TARGET_MISSING  not given
 * @retval FER_TARGET_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIE_ABOVE_DIAMETER  the target is smaller than the die
 * @retval FER_DIAL_SETTING_BELOW_ZERO  the correction takes the setting below zero
 * @retval FER_DIAL_SETTING_ABOVE_RANGE  beyond the maximum setting of the dial
 * @accuracy exact value 2 units in the last place; the rounded setting is the double nearest to a whole number of steps
 * @source common practice, no source: dial = crimp diameter minus die size
 */
FER_API fer_status fer_dial_setting(const fer_press *press, const fer_die *die, fer_length target,
                                    fer_dial *dial);

/**
 * Crimp diameter that a dial setting gives: the inverse of fer_dial_setting().
 *
 * @formula diameter = setting − correction + die size
 *
 * @param[in] press  see fer_check_press()
 * @param[in] die  its size counts
 * @param[in] setting  what the dial is set to @range 0 to 1,000,000 mm
 * @param[out] diameter  crimp diameter to expect; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_DIAL_SETTING_OUT_OF_RANGE  not a number from 0 to 1,000,000 mm
 * @retval FER_DIAL_SETTING_ABOVE_RANGE  beyond the maximum setting of the dial
 * @retval FER_DIAMETER_OUT_OF_RANGE  the correction takes the diameter below 0.001 mm
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  and the other statuses of fer_check_press()
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  and the other statuses of fer_choose_die() that concern a die
 * @accuracy 2 units in the last place
 * @source as fer_dial_setting()
 */
FER_API fer_status fer_dialled_diameter(const fer_press *press, const fer_die *die, fer_length setting,
                                        fer_length *diameter);

/**
 * How much clearance a coupling has in the fully open dies.
 *
 * @formula clearance = die size + opening − widest diameter; negative: it does not pass
 *
 * @param[in] press  with its opening, see fer_check_press()
 * @param[in] die  its size counts
 * @param[in] widest  widest diameter of the coupling that has to pass @range 0.001 mm to 1,000,000 mm
 * @param[out] clearance  on the diameter; NaN on failure
 * @retval FER_OK  done, whether it passes or not
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_PRESS_OPENING_MISSING  not given
 * @retval FER_WIDEST_DIAMETER_MISSING  not given
 * @retval FER_WIDEST_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  and the other statuses of fer_check_press()
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  and the other statuses of fer_choose_die() that concern a die
 * @accuracy 2 units in the last place
 * @source geometry
 */
FER_API fer_status fer_opening_clearance(const fer_press *press, const fer_die *die, fer_length widest,
                                         fer_length *clearance);

/**
 * Share of the press's capacity that a crimp uses.
 *
 * @formula use = force / capacity; above 1: the press is too weak
 *
 * @param[in] press  with its capacity, see fer_check_press(); rated as the sum over the segments of their radial forces
 * @param[in] force  by the same convention: `total` of fer_find_die_force() @range 0 N or more
 * @param[out] use  share; NaN on failure
 * @retval FER_OK  done, whether the press is strong enough or not
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_PRESS_CAPACITY_MISSING  not given
 * @retval FER_FORCE_OUT_OF_RANGE  negative, not a number, or more than a double can count in capacities
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  and the other statuses of fer_check_press()
 * @accuracy 1 unit in the last place
 * @source none needed
 */
FER_API fer_status fer_capacity_use(const fer_press *press, fer_force force, fer_ratio *use);

#ifdef __cplusplus
}
#endif

#endif
