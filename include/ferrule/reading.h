/* SPDX-License-Identifier: MIT */
/** @file
 * Module `reading`: diameters as they are measured on a crimped piece.
 *
 * A reading is one diameter across the piece, at a section along the axis and, where it was noted, at an angle.
 * Across two points an even harmonic of the radius shows and an odd one does not; a harmonic with the amplitude
 * \f$a\f$ on the radius gives a range of \f$4a\f$ on the diameter. A die with an odd number of segments \f$N\f$ still
 * shows its harmonic \f$2N\f$.
 */
#ifndef FERRULE_READING_H
#define FERRULE_READING_H

#include <ferrule/value.h>

/** Number of sections that readings can be taken at: 0 to 15. */
#define FER_SECTIONS_MAXIMUM 16

/** Greatest number of readings among which fer_find_outliers() looks. */
#define FER_READINGS_MAXIMUM 1000

/** One measured diameter. */
typedef struct fer_reading {
    /** as the gauge shows it @label diameter @range 0.001 mm to 1,000,000 mm @optional not taken */
    fer_length diameter;
    /** place along the axis, in the order along it @label section @range 0 to 15 @optional the first, or the
     * only one */
    int section;
    /** of the jaws, from one mark for all readings of the piece @label angle @range any finite number
     * @optional with angle_known 0 not noted */
    fer_angle angle;
    int angle_known; /**< the angle holds @flag @optional not noted */
} fer_reading;

/** Where the segments stood on the piece; all zero: not known. */
typedef struct fer_marks {
    /** middle of a gap, from the same mark as the readings @label angle of a gap @range any finite number
     * @optional with gap_known 0 not known */
    fer_angle gap;
    int gap_known; /**< the angle of a gap holds @flag @optional not known */
    /** readings nearer to a gap than this are left out @label half width of a gap @range above 0 rad to pi /
     * segments @optional an eighth of that angle (5.6° for eight segments) */
    fer_angle gap_half_width;
    int segments; /**< number of segments @range 3 to 64 @optional the usual 8 */
} fer_marks;

/** How the value of a piece scatters when it is measured again, and what is common to all pieces; all zero: without error. */
typedef struct fer_measuring {
    /** standard deviation of a piece's value when it is measured again @label repeatability @range 0 mm to
     * 1,000,000 mm @decimals 4 @optional none */
    fer_length repeatability;
    /** degrees of freedom of the repeatability @label degrees of freedom of the repeatability @range 1 to 1,000,000
     * @decimals 0 @optional it is known exactly */
    double repeatability_degrees;
    /** standard uncertainty common to all pieces: calibration, person @label uncertainty common to all pieces @range 0 mm to
     * 1,000,000 mm @decimals 4 @optional none */
    fer_length common;
    /** smallest step of a value @label resolution of a value @range 0 mm to 10 mm @decimals 4 @optional stepless */
    fer_length resolution;
} fer_measuring;

/** What a set of readings says. */
typedef struct fer_reading_summary {
    size_t count;                    /**< readings that count */
    size_t missing;                  /**< readings that were not taken */
    size_t over_gaps;                /**< readings over a gap, left out */
    fer_length mean;                 /**< mean of the readings that count, corrected */
    fer_length minimum;              /**< the smallest of them */
    fer_length maximum;              /**< the greatest of them */
    fer_length range;                /**< maximum minus minimum */
    fer_found_length scatter;        /**< standard deviation of a single reading */
    fer_length standard_uncertainty; /**< of the mean, from gauge, scatter and resolution */
    double degrees_of_freedom; /**< of that uncertainty, by Welch-Satterthwaite @optional infinitely many */
    int sections;              /**< number of sections with a reading that counts */
    fer_found_length ovality;  /**< largest ovality of a section: maximum minus minimum reading there */
    int ovality_section;       /**< section of the greatest ovality; -1: none has two readings */
    fer_found_length taper;    /**< mean of the last section minus mean of the first */
    fer_found_length section_range; /**< maximum minus minimum of the sections' means */
    /** the reading that is farthest from the mean is an outlier; it counts all the same @flag */
    int outlier_found;
    size_t outlier_index; /**< place of that reading in the list; of two equally far, of the first */
} fer_reading_summary;

/** What the readings of one section say. */
typedef struct fer_section_summary {
    int section;              /**< number of the section */
    size_t count;             /**< readings that count */
    fer_length mean;          /**< mean of them, corrected */
    fer_length minimum;       /**< the smallest of them */
    fer_length maximum;       /**< the greatest of them */
    fer_found_length ovality; /**< maximum minus minimum; needs two */
} fer_section_summary;

/** Shape that was fitted to readings with angles. */
typedef struct fer_lobe_fit {
    fer_length mean;             /**< mean diameter round the piece, over all sections with a reading */
    fer_length mean_uncertainty; /**< standard uncertainty of it, from gauge and scatter */
    fer_length ovality;          /**< range of the harmonic 2 on the diameter */
    fer_angle ovality_angle;     /**< where the diameter is greatest by it, 0 to below 180° */
    fer_length lobe; /**< range of the segments' harmonic on the diameter; below 0 with a known gap: the
                                      metal bulges there */
    /** mean and half of that range: over the middles of facing segments, no ovality */
    fer_length over_lobes;
    fer_angle lobes_angle;     /**< where that is, 0 to below one repetition */
    int harmonic;              /**< segments' harmonic: their number, or twice it where that is odd */
    fer_found_length scatter;  /**< standard deviation of the readings about the fit */
    size_t degrees_of_freedom; /**< readings minus fitted numbers */
} fer_lobe_fit;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Summary of a set of readings: mean, range, ovality, taper, uncertainty of the mean.
 *
 * @formula mean \f$ \bar x \f$; scatter \f$ s^2 = \sum (x_i - \bar x)^2/(n - 1) \f$; standard uncertainty of the mean
 * \f$ u^2 = u_g^2 + \max(s^2/n,\ q^2/12) \f$ with the gauge's \f$u_g\f$ and resolution \f$q\f$: the rounding of equal
 * readings does not average out. Degrees of freedom \f$ (n-1)\,u^4/(s^2/n)^2 \f$ where the scatter is the larger.
 * Outlier: Grubbs' test on the reading farthest from the mean, two-sided, 5 %, at least three readings; a deviation of
 * up to one step of the gauge is none.
 *
 * The readings of a round of a lobed piece scatter by the lobes: see fer_fit_lobes() for the diameter over the
 * middles.
 *
 * @param[in] readings  in any order; each may be missing
 * @param[in] count  number of readings
 * @param[in] gauge  what is known of the gauge @optional without error
 * @param[in] marks  where the segments stood @optional not known
 * @param[out] summary  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no readings
 * @retval FER_READING_OUT_OF_RANGE  a diameter, or what it is after the correction, is not 0.001 mm to 1,000,000 mm
 * @retval FER_READING_SECTION_OUT_OF_RANGE  not 0 to 15
 * @retval FER_READING_ANGLE_NOT_A_NUMBER  NaN or infinite
 * @retval FER_READING_ANGLE_NOT_MARKED  an angle is given and angle_known is 0
 * @retval FER_READING_NONE_LEFT  all readings are missing or over gaps
 * @retval FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE  negative or not finite
 * @retval FER_GAUGE_CORRECTION_OUT_OF_RANGE  not -100 mm to 100 mm
 * @retval FER_GAUGE_RESOLUTION_OUT_OF_RANGE  negative, above 10 mm or not a number
 * @retval FER_MARKS_GAP_NOT_A_NUMBER  NaN or infinite
 * @retval FER_MARKS_GAP_NOT_MARKED  the angle of a gap is given and gap_known is 0
 * @retval FER_MARKS_GAP_WIDTH_OUT_OF_RANGE  negative or above half the angle between two gaps
 * @retval FER_SEGMENTS_OUT_OF_RANGE  given, and not 3 to 64
 * @accuracy mean 1e-15, scatter 1e-11 relative on NIST StRD data
 * @source JCGM 100:2008, 4.2, G.4, F.2.2.1; the larger of scatter and resolution: ISO 14253-2 (from memory); Grubbs,
 *         Technometrics 11 (1969) 1-21
 */
FER_API fer_status fer_summarise_readings(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                          fer_marks marks, fer_reading_summary *summary);

/**
 * Summary of each section.
 *
 * @param[in] readings  in any order; each may be missing
 * @param[in] count  number of readings
 * @param[in] gauge  what is known of the gauge @optional without error
 * @param[in] marks  where the segments stood @optional not known
 * @param[out] sections  those with a reading that counts, in rising order
 * @param[in] capacity  number of elements in sections; 16 is always enough
 * @param[out] found  number of sections written; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  more sections than capacity
 * @retval FER_READING_OUT_OF_RANGE  and the other statuses of fer_summarise_readings()
 * @accuracy as fer_summarise_readings()
 * @source as fer_summarise_readings()
 */
FER_API fer_status fer_summarise_sections(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                          fer_marks marks, fer_section_summary *sections, size_t capacity,
                                          size_t *found);

/**
 * Outliers among the readings, by name: their places in the list. None is dropped.
 *
 * @formula generalised extreme studentized deviate test, two-sided, 5 %, for up to a fifth of the readings, at least
 * one: \f$ R_i = \max|x - \bar x|/s \f$ of what is left, against
 * \f$ \lambda_i = (m-1)t/\sqrt{m(m - 2 + t^2)} \f$, \f$ m = n - i + 1 \f$, \f$ t = t_{1-0.05/(2m),\,m-2} \f$. A deviation
 * of up to one step of the gauge is never an outlier.
 *
 * @param[in] readings  in any order; each may be missing; at least three must be left
 * @param[in] count  number of readings, at most 1000
 * @param[in] gauge  what is known of the gauge @optional without error
 * @param[in] marks  where the segments stood @optional not known
 * @param[out] indices  places of the outliers, the farthest first
 * @param[in] capacity  number of elements in indices; a fifth of count, at least 1, is needed for the working
 * @param[out] found  number of outliers; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 1000 readings
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  capacity below a fifth of the readings that count, or below 1
 * @retval FER_READING_TOO_FEW_FOR_OUTLIERS  fewer than three readings count
 * @retval FER_READING_OUT_OF_RANGE  and the other statuses of fer_summarise_readings()
 * @accuracy deviates and critical values to the six decimals of the source's example
 * @source Rosner, Technometrics 25 (1983) 165-172; NIST/SEMATECH e-Handbook 1.3.5.17.3
 */
FER_API fer_status fer_find_outliers(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                     fer_marks marks, size_t *indices, size_t capacity, size_t *found);

/**
 * Fit of the even lobes: ovality and the segments' harmonic from readings with angles.
 *
 * @formula least squares of \f$ x = m_j + a_2\cos 2\theta + b_2\sin 2\theta + a_h\cos h\theta + b_h\sin h\theta \f$ with
 * a mean \f$m_j\f$ for each section and \f$ h = N \f$ (even) or \f$ 2N \f$ (odd). Range of a harmonic on the diameter
 * \f$ 2\sqrt{a^2 + b^2} \f$. Where the angle of a gap is known the phase of the lobes is, too: then one number fewer is
 * fitted, and the lobe has a sign. Flat jaws on arcs of the half angle \f$\alpha\f$ read a
 * cosine with kinks: of its range the harmonic shows \f$ 8/\pi^2 \f$, and the diameter over the lobes comes out
 * \f$ (2/\pi^2 - 1/6)\alpha^2(D - d) \f$ high (even number of segments).
 *
 * Readings over gaps are left out as in fer_summarise_readings(); readings without an angle are, too. Even spacing can
 * hide a harmonic: eight segments read every 45° always show the same place of the lobe.
 *
 * @param[in] readings  in any order; each may be missing
 * @param[in] count  number of readings
 * @param[in] gauge  what is known of the gauge @optional without error
 * @param[in] marks  where the segments stood, and how many @optional not known, eight segments
 * @param[out] fit  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_READING_ANGLES_TOO_FEW  the angles do not distinguish ovality from lobes
 * @retval FER_READING_OUT_OF_RANGE  and the other statuses of fer_summarise_readings()
 * @accuracy 1e-13 of the readings' range; 1e-9 where the angles hardly distinguish the harmonics
 * @source least squares by Cholesky's method; harmonics across two points: geometry
 */
FER_API fer_status fer_fit_lobes(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                 fer_marks marks, fer_lobe_fit *fit);

#ifdef __cplusplus
}
#endif

#endif
