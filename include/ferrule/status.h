/* SPDX-License-Identifier: MIT */
/** @file
 * Room `status`: what a call says about its own success.
 *
 * Every function that can fail returns a #fer_status. Results come through pointers at the end of the
 * argument list and are written on every path: on failure a number is NaN, a count 0 and a struct empty.
 */
#ifndef FERRULE_STATUS_H
#define FERRULE_STATUS_H

#include <stddef.h>
#include <stdint.h>

/** @def FER_API
 * Marks what the shared library exports. */
#if defined(_WIN32) && !defined(FER_STATIC)
#ifdef FER_BUILDING
#define FER_API __declspec(dllexport)
#else
#define FER_API __declspec(dllimport)
#endif
#elif defined(__GNUC__)
#define FER_API __attribute__((visibility("default")))
#else
#define FER_API
#endif

/** @def FER_DEPRECATED
 * Marks an old name that is kept for one more minor version, after FER_API: the compiler warns where it is used.
 * FER_DEPRECATED("fer_new_name") says what to use instead; the name's comment says the same after `@outdated`. */
#if defined(__GNUC__)
#define FER_DEPRECATED(instead) __attribute__((deprecated("use " instead)))
#elif defined(_MSC_VER)
#define FER_DEPRECATED(instead) __declspec(deprecated("use " instead))
#else
#define FER_DEPRECATED(instead)
#endif

/** @def FER_STATUS_LIST
 * The one list of statuses: X(name, number, sentence).
 *
 * The first word of a name is the quantity at fault, and in the bindings the name of the exception class
 * (`HOSE_…` is `HoseError`). The sentence says which rule was broken. Numbers never change their meaning;
 * each room has a range of its own.
 */
#define FER_STATUS_LIST(X)                                                                                   \
    X(OK, 0, "no error")                                                                                     \
    /* the call itself */                                                                                    \
    X(ARGUMENT_MISSING, 1, "a pointer that must not be null is null")                                        \
    X(ARGUMENT_COUNT_ZERO, 2, "a list that must not be empty is empty")                                      \
    X(ARGUMENT_COUNT_TOO_LARGE, 3, "a list is longer than this function can take")                           \
    X(ARGUMENT_ROOM_TOO_SMALL, 4, "the array for the results is too small")                                  \
    /* quantity, text */                                                                                     \
    X(UNIT_UNKNOWN, 10, "the unit is not one of the list")                                                   \
    X(UNIT_WRONG_KIND, 11, "the unit belongs to another kind of quantity")                                   \
    X(TEXT_EMPTY, 20, "there is no text")                                                                    \
    X(TEXT_NUMBER_MISSING, 21, "the text does not begin with a number")                                      \
    X(TEXT_NUMBER_TOO_LONG, 22, "the number has more digits than 400, or an exponent beyond 400")            \
    X(TEXT_NUMBER_TOO_LARGE, 23, "the number is larger than a double can hold")                              \
    X(TEXT_COMMA, 24,                                                                                        \
      "a comma in a number can mean two things: write a point for decimals and nothing for thousands")       \
    X(TEXT_FRACTION_WRONG, 25, "the fraction is not a whole number over another that is not zero")           \
    X(TEXT_UNIT_MISSING, 26, "a number without a unit: write the unit after it")                             \
    X(TEXT_UNIT_UNKNOWN, 27, "the unit is not one of those known for this quantity")                         \
    X(TEXT_UNIT_OTHER_KIND, 28, "the unit belongs to another kind of quantity")                              \
    X(TEXT_TOO_LONG, 29, "the text is longer than 1000 bytes")                                               \
    X(TEXT_ROOM_TOO_SMALL, 30, "the buffer is too small for the text")                                       \
    X(TEXT_DECIMALS_OUT_OF_RANGE, 31,                                                                        \
      "the number of decimals is not between 0 and 30, nor the word for shortest")                           \
    X(TEXT_VALUE_NOT_FINITE, 32, "the value is not a finite number")                                         \
    X(TEXT_FRACTION_IMPROPER, 33, "the fraction after a whole number is not below one")                      \
    /* joint */                                                                                              \
    X(HOSE_INSIDE_OUT_OF_RANGE, 100, "hose inside diameter is not between 0.001 mm and 1,000,000 mm")        \
    X(HOSE_OUTSIDE_OUT_OF_RANGE, 101, "hose outside diameter is not between 0.001 mm and 1,000,000 mm")      \
    X(HOSE_OUTSIDE_NOT_ABOVE_INSIDE, 102, "hose outside diameter is not above its inside diameter")          \
    X(HOSE_REINFORCEMENT_OUT_OF_RANGE, 103,                                                                  \
      "hose reinforcement is neither 0 (not known) nor a thickness between 0.001 mm and the hose wall")      \
    X(HOSE_REINFORCEMENT_MISSING, 104, "hose reinforcement is not given, and this basis needs it")           \
    X(STEM_OUTSIDE_OUT_OF_RANGE, 110, "stem outside diameter is not between 0.001 mm and 1,000,000 mm")      \
    X(STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE, 111,                                                              \
      "stem outside diameter is not below the hose outside diameter")                                        \
    X(STEM_BORE_OUT_OF_RANGE, 112,                                                                           \
      "stem bore is neither 0 (not measured) nor between 0.001 mm and the stem outside diameter")            \
    X(STEM_BORE_MISSING, 113, "stem bore is not given, and this function needs it")                          \
    X(FERRULE_WALL_OUT_OF_RANGE, 120, "ferrule wall is not between 0.001 mm and 1,000,000 mm")               \
    X(FERRULE_OUTSIDE_OUT_OF_RANGE, 121,                                                                     \
      "ferrule outside diameter is neither 0 (not measured) nor between 0.001 mm and 1,000,000 mm")          \
    X(FERRULE_OUTSIDE_MISSING, 122, "ferrule outside diameter is not given, and this function needs it")     \
    X(FERRULE_BORE_NOT_ABOVE_STEM, 123,                                                                      \
      "ferrule bore (outside diameter less two walls) is not above the stem outside diameter")               \
    X(FERRULE_LENGTH_OUT_OF_RANGE, 124,                                                                      \
      "ferrule length is neither 0 (not measured) nor between 0.001 mm and 1,000,000 mm")                    \
    X(FERRULE_LENGTH_MISSING, 125, "ferrule length is not given, and this function needs it")                \
    /* compression, window */                                                                                \
    X(MODEL_BASIS_UNKNOWN, 200, "the basis of compression is not one of the list")                           \
    X(MODEL_FLOW_UNKNOWN, 201, "the ferrule flow is not one of the list")                                    \
    X(MODEL_NOT_PLAIN, 202, "this function is exact for the plain formula only (wall basis, no flow)")       \
    X(COMPRESSION_NOT_A_NUMBER, 210, "compression is not a finite number")                                   \
    X(COMPRESSION_CLOSES_ON_STEM, 211,                                                                       \
      "this compression leaves no gap between ferrule and stem for the hose")                                \
    X(COMPRESSION_WITHOUT_TOUCH, 212, "at this compression the ferrule does not yet touch the hose")         \
    X(COMPRESSION_ABOVE_FERRULE, 213,                                                                        \
      "this compression needs a crimp diameter above the ferrule outside diameter")                          \
    X(COMPRESSION_RANGE_WRONG_ORDER, 214, "the least compression is not below the most")                     \
    X(COMPRESSION_AIM_OUTSIDE_RANGE, 215, "the compression aimed at is outside the range allowed")           \
    X(DIAMETER_OUT_OF_RANGE, 220, "crimp diameter is not between 0.001 mm and 1,000,000 mm")                 \
    X(DIAMETER_ABOVE_FERRULE, 221, "crimp diameter is above the ferrule outside diameter")                   \
    X(DIAMETER_WITHOUT_BORE, 222, "crimp diameter is so small that the ferrule has no bore left")            \
    X(DIAMETER_CLOSES_ON_STEM, 223, "crimp diameter leaves no gap between ferrule and stem for the hose")    \
    X(DIAMETER_WITHOUT_TOUCH, 224, "at this crimp diameter the ferrule does not yet touch the hose")         \
    X(DIAMETER_RANGE_WRONG_ORDER, 225, "the least diameter is not below the most")                           \
    /* lobe */                                                                                               \
    X(SEGMENTS_OUT_OF_RANGE, 300, "the number of segments is not between 3 and 64")                          \
    X(ANGLE_OUT_OF_RANGE, 301, "the angle is not on the arc of the segment")                                 \
    X(LOBE_HEIGHT_OUT_OF_RANGE, 302,                                                                         \
      "lobe height is negative, or higher than any offset of this die leaves")                               \
    X(GAP_SHARE_OUT_OF_RANGE, 303, "the gap allowed is not between 0 and 100 walls")                         \
    /* spread */                                                                                             \
    X(SPREAD_AMOUNT_OUT_OF_RANGE, 320, "an uncertainty is negative or not a finite number")                  \
    X(SPREAD_DISTRIBUTION_UNKNOWN, 321, "a distribution is not one of the list")                             \
    X(SPREAD_DEGREES_OUT_OF_RANGE, 322, "degrees of freedom are neither 0 (known exactly) nor at least 1")   \
    X(SPREAD_CORRELATION_OUT_OF_RANGE, 323, "a correlation is not between -1 and 1")                         \
    X(SPREAD_CORRELATION_IMPOSSIBLE, 324,                                                                    \
      "the correlations contradict each other (not positive semidefinite)")                                  \
    X(SPREAD_CORRELATED_DEGREES, 325,                                                                        \
      "effective degrees of freedom are defined for independent inputs only (Welch-Satterthwaite)")          \
    X(SPREAD_EMPTY, 326, "no uncertainty is given, and this function needs one")                             \
    X(SPREAD_NOT_NORMAL, 327,                                                                                \
      "a rectangular or triangular input that is correlated, or this function takes normal inputs only")     \
    X(SPREAD_NORMAL_WITHOUT_LIMITS, 328, "a normal input has no limits: a worst case needs half-widths")     \
    X(SPREAD_TOO_WIDE, 329, "the uncertainty of the hose wall is above an eighth of the wall")               \
    X(SPREAD_COVERAGE_OUT_OF_RANGE, 330, "the coverage probability is not between 0 and 1")                  \
    X(SPREAD_LEAVES_DOMAIN, 331,                                                                             \
      "a corner of the worst case, a step of the derivatives, or every trial is not a possible joint")       \
    X(SPREAD_CORRELATED_SECOND_ORDER, 332, "the second order is defined for independent inputs only")        \
    X(SPREAD_AT_KINK, 333,                                                                                   \
      "the fitted wall has no second order where the stem is as thick as the hose inside diameter")          \
    X(COST_OUT_OF_RANGE, 340, "a cost is not above 0 and finite")                                            \
    X(TARGET_DOES_NOT_EXIST, 341,                                                                            \
      "no best target exists: the uncertainties at the two limits differ too much")                          \
    X(TRIALS_SEQUENCE_UNKNOWN, 350, "the sequence of trials is not one of the list")                         \
    X(TRIALS_BLOCKS_OUT_OF_RANGE, 351, "blocks of trials go beyond number 2^40")                             \
    X(TRIALS_COVERAGE_OUT_OF_RANGE, 352,                                                                     \
      "coverage of the trials is neither 0 (the usual 95 %) nor between 0 and 0.999")                        \
    X(TALLY_OF_ANOTHER_QUESTION, 353, "the two tallies were not made for the same question")                 \
    X(TALLY_EMPTY, 354, "the tally holds no trials")                                                         \
    X(TALLY_DIGITS_OUT_OF_RANGE, 355, "the number of digits is not between 1 and 6")                         \
    X(TALLY_PROBABILITY_OUT_OF_RANGE, 356, "the probability is not between 0 and 1")                         \
    X(TALLY_IMPOSSIBLE, 357, "no simulation can have counted what this tally holds")                         \
    /* die, press */                                                                                         \
    X(DIE_SIZE_OUT_OF_RANGE, 400, "die size is not between 0.001 mm and 1,000,000 mm")                       \
    X(DIE_REACH_OUT_OF_RANGE, 401, "die reach is neither 0 (the usual 7 mm) nor between 0 and 1,000,000 mm") \
    X(DIE_ADAPTER_OUT_OF_RANGE, 402, "the number of an adapter is negative")                                 \
    X(DIE_LENGTH_OUT_OF_RANGE, 403,                                                                          \
      "die length is neither 0 (not known) nor between 0.001 mm and 1,000,000 mm")                           \
    X(DIE_ABOVE_DIAMETER, 404, "die size is above the crimp diameter")                                       \
    X(DIE_NONE_NEAR_ENOUGH, 405, "no die is near enough below the target")                                   \
    X(TARGET_OUT_OF_RANGE, 410, "target diameter is not between 0.001 mm and 1,000,000 mm")                  \
    X(TARGET_WITHOUT_DIE, 411, "no size on offer reaches a target")                                          \
    X(PRESS_GRADUATION_OUT_OF_RANGE, 420,                                                                    \
      "dial graduation is neither 0 (stepless) nor between 0.0001 mm and 10 mm")                             \
    X(PRESS_CORRECTION_OUT_OF_RANGE, 421, "press correction is not between -100 mm and 100 mm")              \
    X(PRESS_SEGMENTS_OUT_OF_RANGE, 422,                                                                      \
      "the press's number of segments is neither 0 (the usual 8) nor between 3 and 64")                      \
    X(PRESS_CAPACITY_OUT_OF_RANGE, 423,                                                                      \
      "press capacity is neither 0 (not known) nor a positive, finite force")                                \
    X(PRESS_OPENING_OUT_OF_RANGE, 424,                                                                       \
      "press opening is neither 0 (not known) nor between 0.001 mm and 1,000,000 mm")                        \
    X(PRESS_OPENING_MISSING, 425, "the press's opening is not given, and this function needs it")            \
    X(PRESS_DIAL_RANGE_OUT_OF_RANGE, 426,                                                                    \
      "greatest dial setting is neither 0 (not known) nor between 0 and 1,000,000 mm")                       \
    X(PRESS_CAPACITY_MISSING, 427, "the press's capacity is not given, and this function needs it")          \
    X(FORCE_OUT_OF_RANGE, 428, "the force is negative or not a finite number")                               \
    X(DIAL_SETTING_BELOW_ZERO, 430, "the dial would have to be set below zero")                              \
    X(DIAL_SETTING_ABOVE_RANGE, 431, "the dial would have to be set beyond its greatest setting")            \
    X(DIAL_SETTING_OUT_OF_RANGE, 432, "dial setting is not between 0 and 1,000,000 mm")                      \
    /* setup */                                                                                              \
    X(PUBLISHED_DIAMETER_OUT_OF_RANGE, 500,                                                                  \
      "published crimp diameter is neither 0 (none) nor between 0.001 mm and 1,000,000 mm")                  \
    X(WIDEST_DIAMETER_OUT_OF_RANGE, 501,                                                                     \
      "widest diameter of the coupling is neither 0 (not measured) nor between 0.001 mm and 1,000,000 mm")   \
    X(TOLERANCE_OUT_OF_RANGE, 502, "tolerance of the crimp diameter is negative or above 1,000,000 mm")      \
    X(SETUP_INCOMPLETE, 503, "the set-up holds no target or no limits")                                      \
    X(TOLERANCE_MISSING, 504, "no tolerance came with the published diameter, and it is not the window's")   \
    X(WIDEST_DIAMETER_MISSING, 505,                                                                          \
      "neither the widest diameter of the coupling nor the ferrule outside diameter is given")               \
    /* reading */                                                                                            \
    X(READING_OUT_OF_RANGE, 600,                                                                             \
      "a measured diameter is neither 0 (not taken) nor between 0.001 mm and 1,000,000 mm")                  \
    X(READING_ANGLE_NOT_A_NUMBER, 601, "the angle of a reading is not a finite number")                      \
    X(READING_SECTION_OUT_OF_RANGE, 602, "the section of a reading is not between 0 and 15")                 \
    X(READING_TOO_FEW, 603, "scatter needs at least two readings")                                           \
    X(READING_NONE_LEFT, 604, "no reading is left: all are missing or over gaps")                            \
    X(READING_ANGLE_NOT_MARKED, 605, "a reading has an angle and does not say that the angle is known")      \
    X(READING_ANGLES_TOO_FEW, 606, "the angles of the readings cannot tell ovality and lobes apart")         \
    X(READING_TOO_FEW_FOR_OUTLIERS, 607, "a search for outliers needs at least three readings")              \
    X(READING_SECTIONS_TOO_FEW, 608, "taper needs readings at two sections at least")                        \
    X(GAUGE_UNCERTAINTY_OUT_OF_RANGE, 610, "gauge uncertainty is negative or not a finite number")           \
    X(GAUGE_CORRECTION_OUT_OF_RANGE, 611, "gauge correction is not a number between -100 mm and 100 mm")     \
    X(GAUGE_RESOLUTION_OUT_OF_RANGE, 612,                                                                    \
      "gauge resolution is neither 0 (stepless) nor between 0 and 10 mm")                                    \
    X(MARKS_GAP_NOT_A_NUMBER, 615, "the angle of a gap is not a finite number")                              \
    X(MARKS_GAP_NOT_MARKED, 616, "the marks have the angle of a gap and do not say that it is known")        \
    X(MARKS_GAP_WIDTH_OUT_OF_RANGE, 617,                                                                     \
      "the half width of a gap is not between 0 and half the angle between gaps")                            \
    /* conformity */                                                                                         \
    X(LIMIT_OUT_OF_RANGE, 620,                                                                               \
      "a limit or the value to be judged is not between -1,000,000 mm and 1,000,000 mm")                     \
    X(LIMIT_WRONG_ORDER, 621, "the lower limit is not below the upper limit")                                \
    X(UNCERTAINTY_OUT_OF_RANGE, 622, "the standard uncertainty is negative or not a finite number")          \
    X(GUARD_OUT_OF_RANGE, 624, "the guard band factor is neither 0 (the usual 1.65) nor between 0 and 10")   \
    X(GUARD_SIDE_UNKNOWN, 625, "which limits count is not one of the list")                                  \
    X(GUARD_DEGREES_OUT_OF_RANGE, 626, "degrees of freedom are neither 0 (known exactly) nor at least 1")    \
    X(PROCESS_SPREAD_OUT_OF_RANGE, 627, "the spread of the process is negative or not a finite number")      \
    X(PROCESS_SPREAD_MISSING, 628, "the spread of the process is not given, and this function needs it")     \
    X(PROCESS_MEAN_OUT_OF_RANGE, 629,                                                                        \
      "the mean of the process is not between -1,000,000 mm and 1,000,000 mm")                               \
    X(PROCESS_WITH_DEGREES, 630,                                                                             \
      "a process spread can be combined with an uncertainty that is known exactly only")                     \
    X(APPLIES_TO_UNKNOWN, 631, "what the limits apply to is not one of the list")                            \
    /* adjust */                                                                                             \
    X(TRIAL_SETTING_OUT_OF_RANGE, 640, "a trial's dial setting is not between 0 and 1,000,000 mm")           \
    X(TRIAL_DIAMETER_OUT_OF_RANGE, 641, "a trial's crimp diameter is not between 0.001 mm and 1,000,000 mm") \
    X(TRIAL_COUNT_OUT_OF_RANGE, 642,                                                                         \
      "the number of trials is not between 1 (0 where the setting's spread is known) and 1,000,000")         \
    X(ADJUSTING_SPREAD_OUT_OF_RANGE, 643,                                                                    \
      "the spread of crimps or of the setting is negative, above 1000 mm or not a number")                   \
    X(ADJUSTING_SPREAD_MISSING, 644, "the spread from crimp to crimp is not given, and is needed here")      \
    X(ADJUSTING_GAIN_OUT_OF_RANGE, 645,                                                                      \
      "the gain of the dial is neither 0 (the usual 1) nor between 0.01 and 100")                            \
    X(ADJUSTING_PROBABILITY_OUT_OF_RANGE, 646,                                                               \
      "the probability asked for is neither 0 (the usual 95 %) nor between 0 and 1")                         \
    X(CALIBRATION_TOO_FEW_POINTS, 650, "a line needs at least three points, at two different places")        \
    X(CALIBRATION_POINT_OUT_OF_RANGE, 651, "a point of the calibration is not between 0 and 1,000,000 mm")   \
    X(CALIBRATION_UNCERTAINTY_OUT_OF_RANGE, 652,                                                             \
      "an uncertainty of the calibration is negative, too large, or 0 for some points only")                 \
    X(CALIBRATION_INCOMPLETE, 653, "the calibration does not come from a fit")                               \
    X(CALIBRATION_SLOPE_NOT_SIGNIFICANT, 654,                                                                \
      "the slope of the calibration could be 0: nothing can be read off backwards")                          \
    X(COVERAGE_OUT_OF_RANGE, 655, "the coverage probability is not between 0 and 1")                         \
    X(DRIFT_DAY_OUT_OF_RANGE, 656, "a day is not between -1,000,000 and 1,000,000")                          \
    X(DRIFT_DEVIATION_OUT_OF_RANGE, 657, "a deviation of the press is not between -1000 mm and 1000 mm")     \
    X(DRIFT_LIMIT_OUT_OF_RANGE, 658, "the limit of the drift is not above 0 and up to 1000 mm")              \
    /* diagnosis */                                                                                          \
    X(PIECE_DIAMETER_OUT_OF_RANGE, 660, "the diameter of a piece is not between 0.001 mm and 1,000,000 mm")  \
    X(PIECE_UNCERTAINTY_OUT_OF_RANGE, 661,                                                                   \
      "the uncertainty of a piece is negative, above 1000 mm or not a number")                               \
    X(DIAGNOSING_LENGTH_OUT_OF_RANGE, 662,                                                                   \
      "a length for a diagnosis is neither 0 nor between 0.000001 mm and 1,000,000 mm")                      \
    X(DIAGNOSING_PROBABILITY_OUT_OF_RANGE, 663,                                                              \
      "a probability or ratio for a diagnosis is negative or not below 1")                                   \
    X(PRIOR_CAUSE_UNKNOWN, 664, "a cause is not one of the list")                                            \
    X(PRIOR_WEIGHT_OUT_OF_RANGE, 665, "the weight of a cause is not between 0 and 1,000,000")                \
    X(PRIOR_ALL_ZERO, 666, "the weights leave no cause that is possible here")                               \
    X(LOOK_UNKNOWN, 667, "how a crimp looks is not one of the list")                                         \
    X(LOOK_COMPRESSION_NOT_A_NUMBER, 668, "the compression found on a piece is not a finite number")         \
    X(LOOK_UNCERTAINTY_OUT_OF_RANGE, 669,                                                                    \
      "the uncertainty of a look is neither 0 (the usual 2 %) nor between 0.01 % and 100 %")                 \
    X(DIAGNOSIS_NOTHING_FITS, 670, "no cause that has a weight explains what was seen")                      \
    X(DIAGNOSIS_MORE_THAN_ONE_CAUSE, 671,                                                                    \
      "no single cause explains all of it, since pieces or looks contradict each other: more than one "      \
      "cause, one that comes and goes, or more scatter than was stated")                                     \
    X(DIAGNOSIS_DIAMETER_WRONG, 672,                                                                         \
      "the diameter is outside its limits: find the cause of that before that of the look")                  \
    X(RECORD_PIECES_OUT_OF_RANGE, 673, "a number of recorded pieces is negative")                            \
    X(RECORD_TRUST_OUT_OF_RANGE, 674,                                                                        \
      "the trust in the usual weights is neither 0 (the usual 1) nor between 0.001 and 1000")                \
    /* forming */                                                                                            \
    X(MATERIAL_MODULUS_OUT_OF_RANGE, 800, "elastic modulus is not between 1,000 MPa and 1,000,000 MPa")      \
    X(MATERIAL_POISSON_OUT_OF_RANGE, 801, "Poisson's ratio is not from 0 to below 0.5")                      \
    X(MATERIAL_YIELD_OUT_OF_RANGE, 802, "yield is not between 0.001 MPa and 1/200 of the elastic modulus")   \
    X(MATERIAL_HARDENING_OUT_OF_RANGE, 803, "hardening is not between 0 and 5 times the yield")              \
    X(MATERIAL_MISSING, 804, "the metal is not given, and this figure needs it")                             \
    X(RESTRAINT_OUT_OF_RANGE, 810, "restraint is not between 0 (free) and 1 (held)")                         \
    X(HOSE_PRESSURE_OUT_OF_RANGE, 811, "pressure of the hose is negative or not a finite number")            \
    X(HOSE_PRESSURE_ABOVE_LIMIT, 812, "pressure of the hose is above 0.3 of the ferrule's yield")            \
    X(HOSE_PRESSURE_MISSING, 813, "pressure of the hose is not given, and this figure needs it")             \
    X(FERRULE_WITHOUT_BORE, 820, "ferrule wall is not below half the ferrule outside diameter")              \
    X(FERRULE_WALL_TOO_THICK, 821, "ferrule wall is above 0.18 of the ferrule outside diameter")             \
    X(DIAMETER_REDUCED_TOO_LITTLE, 830,                                                                      \
      "the ferrule is reduced so little that its wall has hardly begun to yield throughout")                 \
    X(DIAMETER_REDUCED_TOO_FAR, 831, "this diameter is more than 30 % below the ferrule outside diameter")   \
    X(DIAMETER_YIELDS_ON_RELEASE, 832,                                                                       \
      "at this diameter the ferrule's bore yields the other way when the dies open")                         \
    X(DIE_PRESSURE_OUT_OF_RANGE, 840, "pressure of the dies is not above 0 and at most 1,000,000 MPa")       \
    X(TUBE_OUTSIDE_OUT_OF_RANGE, 850, "tube outside diameter is not between 0.001 mm and 1,000,000 mm")      \
    X(TUBE_INSIDE_OUT_OF_RANGE, 851,                                                                         \
      "tube inside diameter is neither 0 (solid) nor between 0.001 mm and the tube outside diameter")        \
    X(TUBE_PRESSURE_OUT_OF_RANGE, 852, "a pressure on the tube is not between 0 and 1,000,000 MPa")          \
    X(STEM_YIELDS_THROUGH, 860,                                                                              \
      "under this pressure the whole wall of the stem yields and its bore closes up")                        \
    X(STEM_YIELDS_NOT_HELD, 861,                                                                             \
      "the stem yields in part, and that is reckoned for held ends only (restraint 1)")                      \
    X(STEM_YIELDS_ON_RELEASE, 862, "the bore of the stem yields the other way when the pressure goes")       \
    X(STEM_YIELDS_TOO_DEEP, 863,                                                                             \
      "the stem yields so deep into its wall that its bore is no longer reckoned")                           \
    X(BORE_REDUCTION_OUT_OF_RANGE, 870, "reduction of the bore is not from 0 to below the bore")             \
    X(BORE_LIMIT_OUT_OF_RANGE, 871, "least bore allowed is not between 0.001 mm and 1,000,000 mm")           \
    X(BORE_LIMIT_MISSING, 872, "no least bore is given, and this figure needs it")

/** What a call says about its own success: FER_OK is 0, everything else names the quantity and the rule. */
typedef enum fer_status {
#define FER_STATUS_ENUMERATOR(name, number, sentence) FER_##name = number,
    FER_STATUS_LIST(FER_STATUS_ENUMERATOR)
#undef FER_STATUS_ENUMERATOR
} fer_status;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Name of a status, such as "HOSE_OUTSIDE_NOT_ABOVE_INSIDE".
 *
 * @param[in] status  any number
 * @return the name without the prefix FER_; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_status_name(fer_status status);

/**
 * The rule that was broken, as one English sentence without a full stop.
 *
 * @param[in] status  any number
 * @return a sentence such as "hose outside diameter is not above its inside diameter"; for a number that is
 *         not in the list a sentence that says so; never NULL
 */
FER_API const char *fer_status_sentence(fer_status status);

#ifdef __cplusplus
}
#endif

#endif
