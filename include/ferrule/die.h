/* SPDX-License-Identifier: MIT */
/** @file
 * Module `die`: which die to use, which diameters the rack leaves out, which dies to buy.
 */
#ifndef FERRULE_DIE_H
#define FERRULE_DIE_H

#include <ferrule/value.h>

/** Usual reach of a die in mm (common practice, no source). */
#define FER_DIE_REACH_USUAL_MM 7.0

/** One set of segments. */
typedef struct fer_die {
    /** diameter of the circle that it forms when fully closed @label size @range 0.001 mm to 1,000,000 mm */
    fer_length size;
    /** greatest offset that it may be used with @label reach @range 0 mm to 1,000,000 mm @optional the usual
     * 7 mm */
    fer_length reach;
    /** number of the adapter set that it needs @label adapter set @range 1 or more @optional goes into the
     * press without one */
    int adapter;
    /** length along the axis @label length @range 0.001 mm to 1,000,000 mm @optional not known */
    fer_length length;
} fer_die;

/** What else counts when a die is chosen; all zero: nothing. */
typedef struct fer_die_needs {
    /** number of the adapter set that is in the press @label adapter set in the press @range 1 or more
     * @optional none */
    int adapter_mounted;
    /** dies shorter than this are left out, dies of unknown length not @label ferrule length @range 0.001 mm
     * to 1,000,000 mm @optional any */
    fer_length ferrule_length;
} fer_die_needs;

/** Which die to use, or which to buy. */
typedef struct fer_die_choice {
    int found;            /**< a die was found @flag @optional none is near enough */
    size_t index;         /**< place of the die in the list; the length of the list where none was found */
    fer_die die;          /**< the die itself; empty where none was found */
    fer_length offset;    /**< crimp diameter minus die size; 0 where none was found */
    int adapter_change;   /**< the adapter in the press has to be put in, taken out or changed @flag */
    fer_length_range buy; /**< sizes of a usual reach that would do; both 0 where a die was found */
    int nearest_found;    /**< the list has a die below the target or above it; see nearest_index @flag */
    size_t nearest_index; /**< where none was found: the die whose range ends nearest to the target */
    fer_length nearest_distance; /**< where none was found: how far the target is outside that die's range */
} fer_die_choice;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Die for a target: the same size or the nearest below it, within its reach.
 *
 * Among the dies with size ≤ target ≤ size + reach (a target of exactly size + reach is taken) that are long enough,
 * the largest size; of equal sizes the one that leaves the adapter in the press as it is; of those the first.
 * That no die is near enough is an answer, not an error: `found` is 0 and `buy` says which sizes would do.
 *
 * @param[in] dies  the rack, in any order; may be empty
 * @param[in] count  number of dies
 * @param[in] target  crimp diameter @range 0.001 mm to 1,000,000 mm
 * @param[in] needs  adapter in the press, ferrule length @optional nothing else counts
 * @param[out] choice  the die or what to buy; empty on failure
 * @retval FER_OK  done, with or without a die
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TARGET_MISSING  not given
 * @retval FER_TARGET_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIE_SIZE_MISSING  a die's size is not given
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  a die's size is not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIE_REACH_OUT_OF_RANGE  a die's reach is negative, above 1,000,000 mm or not a number
 * @retval FER_DIE_ADAPTER_OUT_OF_RANGE  a negative number of an adapter
 * @retval FER_DIE_LENGTH_OUT_OF_RANGE  a die's length is given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_LENGTH_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @accuracy exact; the offset within 1 unit in the last place
 * @source common practice, no source: die equal to or nearest below the crimp diameter, at most about 7 mm below
 */
FER_API fer_status fer_choose_die(const fer_die *dies, size_t count, fer_length target, fer_die_needs needs,
                                  fer_die_choice *choice);

/**
 * Diameters that no die of the rack reaches: the gaps between lower and upper.
 *
 * @param[in] dies  the rack, in any order; may be empty
 * @param[in] count  number of dies, at most 10,000
 * @param[in] over  diameters to look at, in order @range 0.001 mm to 1,000,000 mm
 * @param[out] gaps  the gaps in rising order; the ends themselves are covered where they belong to a die's range,
 *            and not where they are the ends of `over`
 * @param[in] capacity  number of elements in gaps; count + 1 is always enough
 * @param[out] found  number of gaps written; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 10,000 dies
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  more gaps than capacity
 * @retval FER_DIAMETER_MISSING  an end is not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  an end is not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIAMETER_RANGE_WRONG_ORDER  lower limit not below upper
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  and the other statuses of fer_choose_die() that concern a die
 * @accuracy exact but for the sum size + reach
 * @source union of intervals
 */
FER_API fer_status fer_find_coverage_gaps(const fer_die *dies, size_t count, fer_length_range over,
                                          fer_length_range *gaps, size_t capacity, size_t *found);

/**
 * Fewest dies to buy so that every target has a die.
 *
 * Targets that the rack reaches are dropped; then for the smallest target left the offer with the greatest
 * size + reach is taken, again and again: no smaller number does, for unequal reaches too. Without offers the
 * dies are free: the size of the target itself with the usual reach.
 *
 * @param[in] dies  the rack, in any order; may be empty
 * @param[in] count  number of dies
 * @param[in] targets  crimp diameters to be made, in any order; may be empty @range 0.001 mm to 1,000,000 mm
 * @param[in] target_count  number of targets
 * @param[in] offers  dies that can be bought, in any order; may be empty
 * @param[in] offer_count  number of offers
 * @param[out] purchases  the dies to buy, in rising order of the targets that asked for them
 * @param[in] capacity  number of elements in purchases; the number of targets is always enough
 * @param[out] found  number of dies written; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  more purchases than capacity
 * @retval FER_TARGET_MISSING  a target is not given
 * @retval FER_TARGET_OUT_OF_RANGE  a target is not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_TARGET_WITHOUT_DIE  no offer reaches a target
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  and the other statuses of fer_choose_die() that concern a die
 * @accuracy exact; against brute force in tests/agree/python
 * @source greedy stabbing of intervals; derivation: manual, page Dies
 */
FER_API fer_status fer_choose_purchases(const fer_die *dies, size_t count, const fer_length *targets,
                                        size_t target_count, const fer_die *offers, size_t offer_count,
                                        fer_die *purchases, size_t capacity, size_t *found);

#ifdef __cplusplus
}
#endif

#endif
