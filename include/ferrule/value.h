/* SPDX-License-Identifier: MIT */
/** @file
 * Module `value`: ranges, values that may not be there, severities, gauges and guard bands: what many headers use and none owns.
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

/** Usual guard band in standard uncertainties: 95 % on one side (ISO 14253-1:2017). */
#define FER_GUARD_USUAL 1.65

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

/** A pressure that may not be there. */
typedef struct fer_found_pressure {
    fer_pressure value; /**< the pressure; NaN where status is not FER_OK */
    fer_status status;  /**< why it is not there; FER_OK: it is */
} fer_found_pressure;

/** How much a remark, a finding or an open point asks of the person who reads it, the gravest first. */
typedef enum fer_severity {
    FER_SEVERITY_STOP, /**< impossible, contradictory or dangerous: other inputs or other parts, nothing else */
    FER_SEVERITY_CONFIRM,  /**< somebody who may decide has to look and answer for it */
    FER_SEVERITY_DO_FIRST, /**< something has to be done first */
    FER_SEVERITY_KNOW      /**< good to know */
} fer_severity;

/** Words of working memory that other languages give to a call that needs some: 8 MB. */
#define FER_WORK_USUAL 1048576

/** A word of working memory, which some calls need from their caller: (fer_work *work, size_t words). */
typedef union fer_work {
    double number;    /**< a number */
    uint64_t bits;    /**< a set */
    uint32_t pair[2]; /**< two whole numbers */
} fer_work;

/** Scale of a dial that stops a stroke; all zero: stepless and without an end. */
typedef struct fer_dial_scale {
    /** smallest step of the dial @label graduation of the dial @range 0.0001 mm to 10 mm @decimals 4
     * @optional stepless */
    fer_length graduation;
    /** maximum dial setting @range 0 mm to 1,000,000 mm @optional not known */
    fer_length maximum;
} fer_dial_scale;

/** What is known of the gauge; all zero: a gauge without error. */
typedef struct fer_gauge {
    /** of one reading, common to all readings (calibration) @label standard uncertainty @range 0 mm to
     * 1,000,000 mm @decimals 4 @optional none */
    fer_length standard_uncertainty;
    /** added to each reading @label correction @range -100 mm to 100 mm @optional none */
    fer_length correction;
    /** smallest step that it shows @label resolution @range 0 mm to 10 mm @decimals 4 @optional stepless */
    fer_length resolution;
} fer_gauge;

/** Which limits count. */
typedef enum fer_side {
    FER_SIDE_BOTH,  /**< both limits */
    FER_SIDE_LOWER, /**< only the lower limit; the upper one is not looked at */
    FER_SIDE_UPPER  /**< only the upper limit; the lower one is not looked at */
} fer_side;

/** How a verdict is reached; all zero: guard band of 1.65 standard uncertainties inside both limits. */
typedef struct fer_guard {
    /** guard band in standard uncertainties @label guard band @range 0 to 10 @decimals 2 @optional the usual
     * 1.65 */
    double factor;
    int without; /**< no guard band, the limits themselves decide @label no guard band @flag @optional with */
    fer_side side; /**< which limits count @optional both */
    /** of the standard uncertainty @label degrees of freedom @range 1 or more @decimals 0 @optional it is
     * known exactly */
    double degrees_of_freedom;
} fer_guard;

/** Which measured values are accepted. */
typedef struct fer_acceptance_zone {
    /** values that are accepted, ends included; crossed where empty; a limit that does not count is
     * repeated as given */
    fer_length_range accept;
    fer_length guard;   /**< how far inside a limit acceptance ends; where empty: the whole tolerance */
    fer_side side;      /**< which limits count @optional both */
    int by_probability; /**< tolerance so narrow that both tails count @flag @optional by guard band */
    /** nothing can be accepted, the measurement is too uncertain @flag @optional something can */
    int empty;
} fer_acceptance_zone;

/** An acceptance zone that may not be there. */
typedef struct fer_found_zone {
    fer_acceptance_zone value; /**< the zone; NaN where status is not FER_OK */
    fer_status status;         /**< why it is not there; FER_OK: it is */
} fer_found_zone;

#endif
