/* SPDX-License-Identifier: MIT */
/** @file
 * Module `value`: ranges, values that may not be there, limits of lengths: what many headers use and none owns.
 */
#ifndef FERRULE_VALUE_H
#define FERRULE_VALUE_H

#include <ferrule/quantity.h>
#include <ferrule/status.h>

/** Smallest length that the library takes as a diameter or a thickness, in mm. */
#define FER_LENGTH_MINIMUM_MM 0.001
/** Largest length that the library takes, in mm. */
#define FER_LENGTH_MAXIMUM_MM 1000000.0

/** Usual number of segments of a die set (common practice, no source). */
#define FER_SEGMENTS_USUAL 8

/** Lower and upper limit of a ratio. */
typedef struct fer_ratio_range {
    fer_ratio lower; /**< lower end */
    fer_ratio upper; /**< upper end */
} fer_ratio_range;

/** Lower and upper limit of a length. */
typedef struct fer_length_range {
    fer_length lower; /**< lower end */
    fer_length upper; /**< upper end */
} fer_length_range;

/** A ratio that may not be there. */
typedef struct fer_found_ratio {
    fer_ratio value;   /**< the ratio; NaN where status is not FER_OK */
    fer_status status; /**< why it is not there; FER_OK: it is */
} fer_found_ratio;

/** A length that may not be there. */
typedef struct fer_found_length {
    fer_length value;  /**< the length; NaN where status is not FER_OK */
    fer_status status; /**< why it is not there; FER_OK: it is */
} fer_found_length;

/** A range of lengths that may not be there. */
typedef struct fer_found_range {
    fer_length_range value; /**< the range; NaN where status is not FER_OK */
    fer_status status;      /**< why it is not there; FER_OK: it is */
} fer_found_range;

/** A force that may not be there. */
typedef struct fer_found_force {
    fer_force value;   /**< the force; NaN where status is not FER_OK */
    fer_status status; /**< why it is not there; FER_OK: it is */
} fer_found_force;

/** Scale of a dial that stops a stroke; all zero: stepless and without an end. */
typedef struct fer_dial_scale {
    /** smallest step of the dial @label graduation of the dial @range 0.0001 mm to 10 mm @decimals 4
     * @optional stepless */
    fer_length graduation;
    /** maximum dial setting @range 0 mm to 1,000,000 mm @optional not known */
    fer_length maximum;
} fer_dial_scale;

#endif
