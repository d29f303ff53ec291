/* SPDX-License-Identifier: MIT */
/** @file
 * Module `status`: what a call says about its own success.
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
 * The one list of statuses: X(name, number, about, sentence).
 *
 * The first word of a name is the quantity at fault, and in the bindings the name of the exception class
 * (`HOSE_…` is `HoseError`). `about` says what may be at fault, the likeliest first: a member as struct.member, a whole
 * struct, or an argument by its name. The sentence says which rule was broken. Numbers never change their meaning;
 * each module has a range of its own.
 */
#define FER_STATUS_LIST(X)                                                                                   \
    X(OK, 0, "", "no error")                                                                                 \
    /* the call itself */                                                                                    \
    X(ARGUMENT_MISSING, 1, "", "a pointer that must not be null is null")                                    \
    X(ARGUMENT_COUNT_ZERO, 2, "", "a list that must not be empty is empty")                                  \
    X(ARGUMENT_COUNT_TOO_LARGE, 3, "", "a list is longer than this function can take")                       \
    X(ARGUMENT_CAPACITY_TOO_SMALL, 4, "capacity", "the array for the results is too small")                  \
    X(ARGUMENT_WORK_TOO_SMALL, 6, "words", "this case needs more working memory than it was given")          \
    X(ARGUMENT_UNREADABLE, 5, "", "an argument cannot be read: it is of another kind, or has other members") \
    /* quantity, text */                                                                                     \
    X(UNIT_UNKNOWN, 10, "unit", "the unit is not in the list")                                               \
    X(UNIT_WRONG_KIND, 11, "unit", "the unit belongs to another kind of quantity")                           \
    X(QUANTITY_MISSING, 12, "", "a quantity that is needed is not given")                                    \
    X(QUANTITY_NOT_A_NUMBER, 13, "", "a quantity is not a number")                                           \
    X(TEXT_EMPTY, 20, "text", "there is no text")                                                            \
    X(TEXT_NUMBER_MISSING, 21, "text", "the text does not begin with a number")                              \
    X(TEXT_NUMBER_TOO_LONG, 22, "text", "the number has more than 400 digits, or an exponent beyond 400")    \
    X(TEXT_NUMBER_TOO_LARGE, 23, "text", "the number is larger than a double can hold")                      \
    X(TEXT_COMMA, 24, "text",                                                                                \
      "a comma in a number can mean two things: write a point for decimals and nothing for thousands, or "   \
      "say that the comma is the decimal sign")                                                              \
    X(TEXT_FRACTION_WRONG, 25, "text", "the fraction is not a whole number over another that is not zero")   \
    X(TEXT_UNIT_MISSING, 26, "text", "a number without a unit: write the unit after it")                     \
    X(TEXT_UNIT_UNKNOWN, 27, "text", "the unit is not one of those known for this quantity")                 \
    X(TEXT_UNIT_OTHER_KIND, 28, "text", "the unit belongs to another kind of quantity")                      \
    X(TEXT_TOO_LONG, 29, "text", "the text is longer than 1000 bytes")                                       \
    X(TEXT_CAPACITY_TOO_SMALL, 30, "capacity", "the buffer is too small for the text")                       \
    X(TEXT_DECIMALS_OUT_OF_RANGE, 31, "decimals",                                                            \
      "the number of decimals is not between 0 and 30, nor the word for shortest or for a fraction of 2, "   \
      "4, "                                                                                                  \
      "8, 16, 32, 64 or 128 parts")                                                                          \
    X(TEXT_VALUE_NOT_FINITE, 32, "quantity", "the value is not a finite number")                             \
    X(TEXT_FRACTION_IMPROPER, 33, "text", "the fraction after a whole number is not below one")              \
    X(TEXT_POINT, 34, "text",                                                                                \
      "a point in a number whose decimal sign is the comma: it might separate thousands, which are not "     \
      "separated here")                                                                                      \
    /* joint */                                                                                              \
    X(HOSE_INSIDE_OUT_OF_RANGE, 100, "hose.inside holding.hose_inside",                                      \
      "hose inside diameter is not between 0.001 mm and 1,000,000 mm")                                       \
    X(HOSE_OUTSIDE_OUT_OF_RANGE, 101, "hose.outside hose_outside",                                           \
      "hose outside diameter is not between 0.001 mm and 1,000,000 mm")                                      \
    X(HOSE_OUTSIDE_NOT_ABOVE_INSIDE, 102, "hose.outside hose.inside",                                        \
      "hose outside diameter is not above its inside diameter")                                              \
    X(HOSE_REINFORCEMENT_OUT_OF_RANGE, 103, "hose.reinforcement",                                            \
      "hose reinforcement is neither 0 (not known) nor a thickness between 0.001 mm and the hose wall")      \
    X(HOSE_REINFORCEMENT_MISSING, 104, "hose.reinforcement",                                                 \
      "hose reinforcement is not given, and this basis needs it")                                            \
    X(HOSE_INSIDE_MISSING, 105, "hose.inside", "hose inside diameter is not given")                          \
    X(HOSE_OUTSIDE_MISSING, 106, "hose.outside hose_outside", "hose outside diameter is not given")          \
    X(STEM_OUTSIDE_OUT_OF_RANGE, 110, "stem.outside holding.stem_outside",                                   \
      "stem outside diameter is not between 0.001 mm and 1,000,000 mm")                                      \
    X(STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE, 111, "stem.outside hose.outside",                                 \
      "stem outside diameter is not below the hose outside diameter")                                        \
    X(STEM_BORE_OUT_OF_RANGE, 112, "stem.bore",                                                              \
      "stem bore is neither 0 (not measured) nor between 0.001 mm and the stem outside diameter")            \
    X(STEM_BORE_MISSING, 113, "stem.bore", "stem bore is not given, and this function needs it")             \
    X(STEM_OUTSIDE_MISSING, 114, "stem.outside holding.stem_outside", "stem outside diameter is not given")  \
    X(FERRULE_WALL_OUT_OF_RANGE, 120, "ferrule.wall wall",                                                   \
      "ferrule wall is not between 0.001 mm and 1,000,000 mm")                                               \
    X(FERRULE_OUTSIDE_OUT_OF_RANGE, 121, "ferrule.outside holding.ferrule_outside",                          \
      "ferrule outside diameter is neither 0 (not measured) nor between 0.001 mm and 1,000,000 mm")          \
    X(FERRULE_OUTSIDE_MISSING, 122, "ferrule.outside holding.ferrule_outside",                               \
      "ferrule outside diameter is not given, and this function needs it")                                   \
    X(FERRULE_BORE_NOT_ABOVE_STEM, 123, "ferrule.outside ferrule.wall stem.outside holding.ferrule_bore",    \
      "ferrule bore (outside diameter minus two walls) is not above the stem outside diameter")              \
    X(FERRULE_LENGTH_OUT_OF_RANGE, 124,                                                                      \
      "ferrule.length die_needs.ferrule_length demand.ferrule_length job.ferrule_length length",             \
      "ferrule length is neither 0 (not measured) nor between 0.001 mm and 1,000,000 mm")                    \
    X(FERRULE_LENGTH_MISSING, 125, "ferrule.length length",                                                  \
      "ferrule length is not given, and this function needs it")                                             \
    X(FERRULE_WALL_MISSING, 126, "ferrule.wall wall", "ferrule wall is not given")                           \
    /* compression, window */                                                                                \
    X(MODEL_BASIS_UNKNOWN, 200, "model.basis", "the basis of compression is not in the list")                \
    X(MODEL_FLOW_UNKNOWN, 201, "model.flow", "the ferrule flow is not in the list")                          \
    X(MODEL_NOT_PLAIN, 202, "model",                                                                         \
      "this function is exact for the plain formula only (wall basis, no flow)")                             \
    X(COMPRESSION_NOT_A_NUMBER, 210, "compression range order.range order.aim",                              \
      "compression is not a finite number")                                                                  \
    X(COMPRESSION_CLOSES_ON_STEM, 211, "compression range",                                                  \
      "this compression leaves no gap between ferrule and stem for the hose")                                \
    X(COMPRESSION_WITHOUT_TOUCH, 212, "compression range",                                                   \
      "at this compression the ferrule does not yet touch the hose")                                         \
    X(COMPRESSION_ABOVE_FERRULE, 213, "compression range",                                                   \
      "this compression needs a crimp diameter above the ferrule outside diameter")                          \
    X(COMPRESSION_RANGE_WRONG_ORDER, 214, "range order.range",                                               \
      "the lower limit of compression is not below the upper")                                               \
    X(COMPRESSION_AIM_OUTSIDE_RANGE, 215, "order.aim",                                                       \
      "the compression aimed at is outside the range allowed")                                               \
    X(DIAMETER_OUT_OF_RANGE, 220, "diameter crimp_diameter over closing.diameter",                           \
      "crimp diameter is not between 0.001 mm and 1,000,000 mm")                                             \
    X(DIAMETER_ABOVE_FERRULE, 221, "diameter crimp_diameter closing.diameter",                               \
      "crimp diameter is above the ferrule outside diameter")                                                \
    X(DIAMETER_WITHOUT_BORE, 222, "diameter crimp_diameter closing.diameter",                                \
      "crimp diameter is so small that the ferrule has no bore left")                                        \
    X(DIAMETER_CLOSES_ON_STEM, 223, "diameter crimp_diameter",                                               \
      "crimp diameter leaves no gap between ferrule and stem for the hose")                                  \
    X(DIAMETER_WITHOUT_TOUCH, 224, "diameter crimp_diameter",                                                \
      "at this crimp diameter the ferrule does not yet touch the hose")                                      \
    X(DIAMETER_RANGE_WRONG_ORDER, 225, "over", "the lower limit of diameter is not below the upper")         \
    X(DIAMETER_MISSING, 226, "diameter crimp_diameter over closing.diameter", "crimp diameter is not given") \
    /* lobe */                                                                                               \
    X(SEGMENTS_OUT_OF_RANGE, 300, "segments marks.segments rack_aim.segments",                               \
      "the number of segments is not between 3 and 64")                                                      \
    X(ANGLE_OUT_OF_RANGE, 301, "angle", "the angle is not on the arc of the segment")                        \
    X(LOBE_HEIGHT_OUT_OF_RANGE, 302, "height",                                                               \
      "lobe height is negative, or higher than any offset of this die leaves")                               \
    X(GAP_SHARE_OUT_OF_RANGE, 303, "share", "the gap allowed is not between 0 and 100 walls")                \
    /* uncertainties */                                                                                      \
    X(UNCERTAINTY_AMOUNT_OUT_OF_RANGE, 320, "uncertainty.amount",                                            \
      "an uncertainty is negative or not a finite number")                                                   \
    X(UNCERTAINTY_DISTRIBUTION_UNKNOWN, 321, "uncertainty.distribution",                                     \
      "a distribution is not in the list")                                                                   \
    X(UNCERTAINTY_DEGREES_OUT_OF_RANGE, 322, "uncertainty.degrees_of_freedom",                               \
      "degrees of freedom are neither 0 (known exactly) nor at least 1")                                     \
    X(UNCERTAINTY_CORRELATION_OUT_OF_RANGE, 323, "correlations", "a correlation is not between -1 and 1")    \
    X(UNCERTAINTY_CORRELATION_IMPOSSIBLE, 324, "correlations",                                               \
      "the correlations contradict each other (not positive semidefinite)")                                  \
    X(UNCERTAINTY_CORRELATED_DEGREES, 325, "uncertainty.degrees_of_freedom correlations",                    \
      "effective degrees of freedom are defined for independent inputs only (Welch-Satterthwaite)")          \
    X(UNCERTAINTY_EMPTY, 326, "uncertainties", "no uncertainty is given, and this function needs one")       \
    X(UNCERTAINTY_NOT_NORMAL, 327, "uncertainty.distribution",                                               \
      "a rectangular or triangular input is correlated, or this function takes normal inputs only")          \
    X(UNCERTAINTY_NORMAL_WITHOUT_LIMITS, 328, "uncertainty.distribution",                                    \
      "a normal input has no limits: a worst case needs half-widths")                                        \
    X(UNCERTAINTY_TOO_WIDE, 329, "uncertainties",                                                            \
      "the uncertainty of the hose wall is above an eighth of the wall")                                     \
    X(UNCERTAINTY_COVERAGE_OUT_OF_RANGE, 330, "coverage", "the coverage probability is not between 0 and 1") \
    X(UNCERTAINTY_LEAVES_DOMAIN, 331, "uncertainties",                                                       \
      "a corner of the worst case or a step of the derivatives is not a possible joint, or no trial is")     \
    X(UNCERTAINTY_CORRELATED_SECOND_ORDER, 332, "correlations",                                              \
      "the second order is defined for independent inputs only")                                             \
    X(UNCERTAINTY_AT_KINK, 333, "stem.outside",                                                              \
      "the fitted wall has no second order where the stem is as thick as the hose inside diameter")          \
    X(COST_OUT_OF_RANGE, 340, "cost_too_loose cost_too_tight", "a cost is not above 0 and finite")           \
    X(TARGET_DOES_NOT_EXIST, 341, "uncertainties",                                                           \
      "no best target exists: the uncertainties at the two limits differ too much")                          \
    X(TRIALS_SEQUENCE_UNKNOWN, 350, "trials.sequence", "the sequence of trials is not in the list")          \
    X(TRIALS_BLOCKS_OUT_OF_RANGE, 351, "trials.blocks trials.first_block number",                            \
      "a block of trials has a number above 2^40")                                                           \
    X(TRIALS_COVERAGE_OUT_OF_RANGE, 352, "trials.coverage",                                                  \
      "coverage of the trials is neither 0 (the usual 95 %) nor between 0 and 0.999")                        \
    X(TALLY_OF_ANOTHER_QUESTION, 353, "other", "the two tallies were not made for the same question")        \
    X(TALLY_EMPTY, 354, "tally count", "the tally has no trials")                                            \
    X(TALLY_DIGITS_OUT_OF_RANGE, 355, "digits", "the number of digits is not between 1 and 6")               \
    X(TALLY_PROBABILITY_OUT_OF_RANGE, 356, "probability", "the probability is not between 0 and 1")          \
    X(TALLY_IMPOSSIBLE, 357, "tally count", "no simulation can have counted what this tally contains")       \
    /* die, press */                                                                                         \
    X(DIE_SIZE_OUT_OF_RANGE, 400, "die.size die_size", "die size is not between 0.001 mm and 1,000,000 mm")  \
    X(DIE_REACH_OUT_OF_RANGE, 401, "die.reach",                                                              \
      "die reach is neither 0 (the usual 7 mm) nor between 0 and 1,000,000 mm")                              \
    X(DIE_ADAPTER_OUT_OF_RANGE, 402,                                                                         \
      "die.adapter die_needs.adapter_mounted order.adapter_mounted adapter_offer.adapter",                   \
      "the number of an adapter is negative, or 0 for one on offer")                                         \
    X(DIE_LENGTH_OUT_OF_RANGE, 403, "die.length",                                                            \
      "die length is neither 0 (not known) nor between 0.001 mm and 1,000,000 mm")                           \
    X(DIE_ABOVE_DIAMETER, 404, "die.size die_size diameter target", "die size is above the crimp diameter")  \
    X(DIE_NONE_NEAR_ENOUGH, 405, "dies", "no die is near enough below the target")                           \
    X(DIE_SIZE_MISSING, 406, "die.size die_size", "die size is not given")                                   \
    X(TARGET_OUT_OF_RANGE, 410, "target targets anchor demand.target job.target",                            \
      "target diameter is not between 0.001 mm and 1,000,000 mm")                                            \
    X(TARGET_WITHOUT_DIE, 411, "targets", "no size on offer reaches a target")                               \
    X(TARGET_MISSING, 412, "target targets demand.target job.target", "target diameter is not given")        \
    X(PRESS_GRADUATION_OUT_OF_RANGE, 420, "press.graduation dial_scale.graduation graduation",               \
      "dial graduation is neither 0 (stepless) nor between 0.0001 mm and 10 mm")                             \
    X(PRESS_CORRECTION_OUT_OF_RANGE, 421, "press.correction",                                                \
      "press correction is not between -100 mm and 100 mm")                                                  \
    X(PRESS_SEGMENTS_OUT_OF_RANGE, 422, "press.segments",                                                    \
      "the press's number of segments is neither 0 (the usual 8) nor between 3 and 64")                      \
    X(PRESS_CAPACITY_OUT_OF_RANGE, 423, "press.capacity",                                                    \
      "press capacity is neither 0 (not known) nor a positive, finite force")                                \
    X(PRESS_OPENING_OUT_OF_RANGE, 424, "press.opening",                                                      \
      "press opening is neither 0 (not known) nor between 0.001 mm and 1,000,000 mm")                        \
    X(PRESS_OPENING_MISSING, 425, "press.opening",                                                           \
      "the press's opening is not given, and this function needs it")                                        \
    X(PRESS_DIAL_RANGE_OUT_OF_RANGE, 426, "press.dial_maximum dial_scale.maximum",                           \
      "maximum dial setting is neither 0 (not known) nor between 0 and 1,000,000 mm")                        \
    X(PRESS_CAPACITY_MISSING, 427, "press.capacity",                                                         \
      "the press's capacity is not given, and this function needs it")                                       \
    X(FORCE_OUT_OF_RANGE, 428, "force", "the force is negative or not a finite number")                      \
    X(PRESS_GRADUATION_MISSING, 429, "graduation",                                                           \
      "dial graduation is not given, and this function needs it")                                            \
    X(DIAL_SETTING_BELOW_ZERO, 430, "press.correction", "the dial would have to be set below zero")          \
    X(DIAL_SETTING_ABOVE_RANGE, 431, "setting press.dial_maximum",                                           \
      "the dial would have to be set beyond its maximum")                                                    \
    X(DIAL_SETTING_OUT_OF_RANGE, 432, "setting", "dial setting is not between 0 and 1,000,000 mm")           \
    /* setup */                                                                                              \
    X(PUBLISHED_DIAMETER_OUT_OF_RANGE, 500, "order.published",                                               \
      "published crimp diameter is neither 0 (none) nor between 0.001 mm and 1,000,000 mm")                  \
    X(WIDEST_DIAMETER_OUT_OF_RANGE, 501, "order.widest job.widest widest",                                   \
      "widest diameter of the coupling is neither 0 (not measured) nor between 0.001 mm and 1,000,000 mm")   \
    X(TOLERANCE_OUT_OF_RANGE, 502, "order.tolerance",                                                        \
      "tolerance of the crimp diameter is negative or above 1,000,000 mm")                                   \
    X(SETUP_INCOMPLETE, 503, "setup", "the set-up has no target or no limits")                               \
    X(TOLERANCE_MISSING, 504, "order.tolerance",                                                             \
      "no tolerance came with the published diameter, and it is not the window's")                           \
    X(WIDEST_DIAMETER_MISSING, 505, "order.widest job.widest widest",                                        \
      "neither the widest diameter of the coupling nor the ferrule outside diameter is given")               \
    X(APPROVAL_UNKNOWN, 506, "order.approval",                                                               \
      "the approval of the combination of parts is not in the list")                                         \
    X(INSERTION_OUT_OF_RANGE, 507, "order.insertion",                                                        \
      "insertion depth is neither 0 (not given) nor between 0.001 mm and 1,000,000 mm")                      \
    X(SKIVE_OUT_OF_RANGE, 508, "order.skive_outside order.skive_inside",                                     \
      "a skive length is neither 0 (none) nor between 0.001 mm and 1,000,000 mm")                            \
    X(LOBE_LIMIT_OUT_OF_RANGE, 509, "order.lobe_maximum",                                                    \
      "greatest lobe height is neither 0 (none given) nor between 0.001 mm and 1,000,000 mm")                \
    X(REMARK_NOT_TO_CONFIRM, 510, "remark confirmation.remark",                                              \
      "only a remark with the severity CONFIRM can be confirmed, and this is none")                          \
    X(REMARK_NOT_MADE, 511, "remark",                                                                        \
      "the set-up does not make this remark, so there is nothing to confirm")                                \
    X(COMPRESSION_RANGE_MISSING, 512, "order.range",                                                         \
      "a model other than the plain formula needs a range of compression of its own: the usual 15 to 25 % "  \
      "belongs to the plain formula")                                                                        \
    X(CORRECTION_HAS_SPRINGBACK, 513, "press.correction",                                                    \
      "a correction of the press was measured, and it contains the springback")                              \
    X(CONFIRMATION_NOT_A_NUMBER, 514,                                                                        \
      "confirmation.target confirmation.tolerance confirmation.die confirmation.compression",                \
      "a figure that was confirmed is not a finite number")                                                  \
    X(WORKPLACE_UNKNOWN, 519, "workplace", "there is no workplace of this number in the list")               \
    /* reading */                                                                                            \
    X(READING_OUT_OF_RANGE, 600, "reading.diameter",                                                         \
      "a measured diameter is neither 0 (not taken) nor between 0.001 mm and 1,000,000 mm")                  \
    X(READING_ANGLE_NOT_A_NUMBER, 601, "reading.angle", "the angle of a reading is not a finite number")     \
    X(READING_SECTION_OUT_OF_RANGE, 602, "reading.section",                                                  \
      "the section of a reading is not between 0 and 15")                                                    \
    X(READING_TOO_FEW, 603, "readings", "scatter needs at least two readings")                               \
    X(READING_NONE_LEFT, 604, "readings", "no reading is left: all are missing or over gaps")                \
    X(READING_ANGLE_NOT_MARKED, 605, "reading.angle_known",                                                  \
      "a reading has an angle and does not say that the angle is known")                                     \
    X(READING_ANGLES_TOO_FEW, 606, "readings",                                                               \
      "the angles of the readings do not distinguish ovality from lobes")                                    \
    X(READING_TOO_FEW_FOR_OUTLIERS, 607, "readings", "a search for outliers needs at least three readings")  \
    X(READING_SECTIONS_TOO_FEW, 608, "readings", "taper needs readings at two sections or more")             \
    X(GAUGE_UNCERTAINTY_OUT_OF_RANGE, 610, "gauge.standard_uncertainty",                                     \
      "gauge uncertainty is negative or not a finite number")                                                \
    X(GAUGE_CORRECTION_OUT_OF_RANGE, 611, "gauge.correction",                                                \
      "gauge correction is not a number between -100 mm and 100 mm")                                         \
    X(GAUGE_RESOLUTION_OUT_OF_RANGE, 612, "gauge.resolution",                                                \
      "gauge resolution is neither 0 (stepless) nor between 0 and 10 mm")                                    \
    X(MARKS_GAP_NOT_A_NUMBER, 615, "marks.gap", "the angle of a gap is not a finite number")                 \
    X(MARKS_GAP_NOT_MARKED, 616, "marks.gap_known",                                                          \
      "the marks have the angle of a gap and do not say that it is known")                                   \
    X(MARKS_GAP_WIDTH_OUT_OF_RANGE, 617, "marks.gap_half_width",                                             \
      "the half width of a gap is not between 0 and half the angle between gaps")                            \
    /* conformity */                                                                                         \
    X(LIMIT_OUT_OF_RANGE, 620, "limits wanted.limits value uncertain_window.range diameter",                 \
      "a limit or the value to be judged is not between -1,000,000 mm and 1,000,000 mm")                     \
    X(LIMIT_WRONG_ORDER, 621, "limits", "the lower limit is not below the upper limit")                      \
    X(UNCERTAINTY_OUT_OF_RANGE, 622, "standard_uncertainty uncertain_window",                                \
      "the standard uncertainty is negative or not a finite number")                                         \
    X(GUARD_OUT_OF_RANGE, 624, "guard.factor",                                                               \
      "the guard band factor is neither 0 (the usual 1.65) nor between 0 and 10")                            \
    X(GUARD_SIDE_UNKNOWN, 625, "guard.side", "the choice of limits is not in the list")                      \
    X(GUARD_DEGREES_OUT_OF_RANGE, 626, "guard.degrees_of_freedom",                                           \
      "degrees of freedom are neither 0 (known exactly) nor at least 1")                                     \
    X(PROCESS_DEVIATION_OUT_OF_RANGE, 627, "process.standard_deviation",                                     \
      "the standard deviation of the process is negative or not a finite number")                            \
    X(PROCESS_DEVIATION_MISSING, 628, "process.standard_deviation",                                          \
      "the standard deviation of the process is not given, and this function needs it")                      \
    X(PROCESS_MEAN_OUT_OF_RANGE, 629, "process.mean",                                                        \
      "the mean of the process is not between -1,000,000 mm and 1,000,000 mm")                               \
    X(PROCESS_WITH_DEGREES, 630, "guard.degrees_of_freedom",                                                 \
      "the standard deviation of a process can be combined only with an uncertainty that is known exactly")  \
    X(APPLIES_TO_UNKNOWN, 631, "order.applies_to setup.applies_to",                                          \
      "what the limits apply to is not in the list")                                                         \
    /* adjust */                                                                                             \
    X(TRIAL_SETTING_OUT_OF_RANGE, 640, "trial.setting",                                                      \
      "a trial's dial setting is not between 0 and 1,000,000 mm")                                            \
    X(TRIAL_DIAMETER_OUT_OF_RANGE, 641, "trial.diameter",                                                    \
      "a trial's crimp diameter is not between 0.001 mm and 1,000,000 mm")                                   \
    X(TRIAL_COUNT_OUT_OF_RANGE, 642, "trials",                                                               \
      "the number of trials is not between 1 (0 where the setting's deviation is known) and 1,000,000")      \
    X(ADJUSTING_DEVIATION_OUT_OF_RANGE, 643, "adjusting.crimp_deviation adjusting.setting_deviation",        \
      "the standard deviation of crimps or of the setting is negative, above 1000 mm or not a number")       \
    X(ADJUSTING_DEVIATION_MISSING, 644, "adjusting.crimp_deviation",                                         \
      "the standard deviation from crimp to crimp is not given, and is needed here")                         \
    X(ADJUSTING_GAIN_OUT_OF_RANGE, 645, "adjusting.gain",                                                    \
      "the gain of the dial is neither 0 (the usual 1) nor between 0.01 and 100")                            \
    X(ADJUSTING_PROBABILITY_OUT_OF_RANGE, 646, "adjusting.asked",                                            \
      "the probability asked for is neither 0 (the usual 95 %) nor between 0 and 1")                         \
    X(TRIAL_DIAMETER_MISSING, 647, "trial.diameter", "a trial's crimp diameter is not given")                \
    X(CALIBRATION_TOO_FEW_POINTS, 650, "points checks",                                                      \
      "a line needs at least three points, at two different places")                                         \
    X(CALIBRATION_POINT_OUT_OF_RANGE, 651, "calibration_point.set calibration_point.measured set",           \
      "a point of the calibration is not between 0 and 1,000,000 mm")                                        \
    X(CALIBRATION_UNCERTAINTY_OUT_OF_RANGE, 652, "calibration_point.standard_uncertainty",                   \
      "an uncertainty of the calibration is negative, too large, or 0 for some points only")                 \
    X(CALIBRATION_INCOMPLETE, 653, "calibration", "the calibration does not come from a fit")                \
    X(CALIBRATION_SLOPE_NOT_SIGNIFICANT, 654, "calibration",                                                 \
      "the slope of the calibration could be 0: nothing can be read off backwards")                          \
    X(COVERAGE_OUT_OF_RANGE, 655, "coverage", "the coverage probability is not between 0 and 1")             \
    X(DRIFT_DAY_OUT_OF_RANGE, 656, "drift_point.day today", "a day is not between -1,000,000 and 1,000,000") \
    X(DRIFT_DEVIATION_OUT_OF_RANGE, 657, "drift_point.deviation",                                            \
      "a deviation of the press is not between -1000 mm and 1000 mm")                                        \
    X(DRIFT_LIMIT_OUT_OF_RANGE, 658, "limit", "the limit of the drift is not above 0 and at most 1000 mm")   \
    X(CALIBRATION_MEASURED_MISSING, 659, "calibration_point.measured",                                       \
      "the measured diameter of a point of the calibration is not given")                                    \
    /* diagnosis */                                                                                          \
    X(PIECE_DIAMETER_OUT_OF_RANGE, 660, "piece.diameter",                                                    \
      "the diameter of a piece is not between 0.001 mm and 1,000,000 mm")                                    \
    X(PIECE_UNCERTAINTY_OUT_OF_RANGE, 661, "piece.standard_uncertainty",                                     \
      "the uncertainty of a piece is negative, above 1000 mm or not a number")                               \
    X(DIAGNOSING_LENGTH_OUT_OF_RANGE, 662, "diagnosing looking",                                             \
      "a length for a diagnosis is neither 0 nor between 0.000001 mm and 1,000,000 mm")                      \
    X(DIAGNOSING_PROBABILITY_OUT_OF_RANGE, 663, "diagnosing.asked looking.asked looking.uncertainty",        \
      "a probability or ratio for a diagnosis is negative or not below 1")                                   \
    X(PRIOR_CAUSE_UNKNOWN, 664, "prior.cause", "a cause is not in the list")                                 \
    X(PRIOR_WEIGHT_OUT_OF_RANGE, 665, "prior.weight",                                                        \
      "the weight of a cause is not between 0 and 1,000,000")                                                \
    X(PRIOR_ALL_ZERO, 666, "priors", "the weights leave no cause that is possible here")                     \
    X(LOOK_UNKNOWN, 667, "look.kind end_checks.looks", "the look of a crimp is not in the list")             \
    X(LOOK_COMPRESSION_NOT_A_NUMBER, 668, "look.compression",                                                \
      "the compression found on a piece is not a finite number")                                             \
    X(LOOK_UNCERTAINTY_OUT_OF_RANGE, 669, "look.standard_uncertainty",                                       \
      "the uncertainty of a look is neither 0 (the usual 2 %) nor between 0.01 % and 100 %")                 \
    X(DIAGNOSIS_NOTHING_FITS, 670, "priors", "no cause that has a weight explains what was seen")            \
    X(DIAGNOSIS_MORE_THAN_ONE_CAUSE, 671, "pieces looks",                                                    \
      "no single cause explains all of it, since pieces or looks contradict each other: more than one "      \
      "cause, one that comes and goes, or more scatter than was stated")                                     \
    X(DIAGNOSIS_DIAMETER_WRONG, 672, "diameter",                                                             \
      "the diameter is outside its limits: find the cause of that before that of the look")                  \
    X(RECORD_PIECES_OUT_OF_RANGE, 673, "recorded_cause.pieces", "a number of recorded pieces is negative")   \
    X(RECORD_TRUST_OUT_OF_RANGE, 674, "trust",                                                               \
      "the trust in the usual weights is neither 0 (the usual 1) nor between 0.001 and 1000")                \
    X(PIECE_DIAMETER_MISSING, 675, "piece.diameter", "the diameter of a piece is not given")                 \
    /* release */                                                                                            \
    X(OUTCOME_UNKNOWN, 680,                                                                                  \
      "end_checks.insertion end_checks.bore diameter_check.outcome assembly_checks proof_test",              \
      "the outcome of a check is not in the list")                                                           \
    X(LIMIT_SIDE_UNKNOWN, 681, "diameter_check.limit",                                                       \
      "the limit that a diameter missed is not in the list")                                                 \
    X(LIMIT_WITHOUT_FAILURE, 682, "diameter_check.limit",                                                    \
      "a diameter is said to have missed a limit, and has not failed")                                       \
    X(DECISION_UNKNOWN, 683, "inspection.decision", "the decision of an inspection is not in the list")      \
    X(NEED_UNKNOWN, 684, "release_needs.needed", "a check that is needed is not in the list")                \
    X(HOSE_AGE_OUT_OF_RANGE, 685, "assembly_checks.hose_age",                                                \
      "age of the hose is neither 0 (date not read) nor between 1 and 1200 months")                          \
    X(HOSE_AGE_LIMIT_OUT_OF_RANGE, 686, "release_needs.hose_age_limit",                                      \
      "greatest age of the hose is neither 0 (the usual 48 months) nor between 1 and 1200 months")           \
    X(CHANGE_UNKNOWN, 687, "first_piece_checks.changed", "a change is not in the list")                      \
    /* capability */                                                                                         \
    X(SAMPLE_TOO_FEW, 700, "pieces", "there are too few pieces for what is asked")                           \
    X(SAMPLE_PIECE_MISSING, 701, "sample_piece.diameter",                                                    \
      "the diameter of a piece of the sample is not given")                                                  \
    X(SAMPLE_PIECE_OUT_OF_RANGE, 702, "sample_piece.diameter",                                               \
      "the diameter of a piece of the sample is not between 0.001 mm and 1,000,000 mm")                      \
    X(SAMPLE_GROUP_OUT_OF_RANGE, 703, "sample_piece.group",                                                  \
      "the number of a group is not between 0 and 1,000,000")                                                \
    X(SAMPLE_KIND_OUT_OF_RANGE, 704, "sample_piece.kind", "the number of a kind is not between 0 and 63")    \
    X(SAMPLE_WITHOUT_SCATTER, 705, "pieces summary",                                                         \
      "all pieces have the same value: nothing shows how they scatter")                                      \
    X(SAMPLE_GROUPS_TOO_FEW, 706, "sample_piece.group",                                                      \
      "groups can be compared only where there are two, and one of them has two pieces")                     \
    X(SAMPLE_INCOMPLETE, 707, "summary",                                                                     \
      "figures of the sample that are needed here are not given, or not possible")                           \
    X(MEASURING_REPEATABILITY_OUT_OF_RANGE, 708, "measuring.repeatability",                                  \
      "the repeatability is negative, above 1,000,000 mm or not a number")                                   \
    X(MEASURING_DEGREES_OUT_OF_RANGE, 709, "measuring.repeatability_degrees",                                \
      "degrees of freedom of the repeatability are neither 0 (known exactly) nor between 1 and 1,000,000")   \
    X(MEASURING_COMMON_OUT_OF_RANGE, 710, "measuring.common",                                                \
      "the uncertainty common to all pieces is negative, above 1,000,000 mm or not a number")                \
    X(MEASURING_RESOLUTION_OUT_OF_RANGE, 711, "measuring.resolution",                                        \
      "the resolution of a value is neither 0 (stepless) nor between 0 and 10 mm")                           \
    X(MEASURING_COVERS_SCATTER, 712, "measuring.repeatability",                                              \
      "the pieces scatter no more than the gauge does: the sample shows the gauge only")                     \
    X(CONFIDENCE_OUT_OF_RANGE, 713, "confidence burst_aim.confidence batch_question.confidence",             \
      "the confidence is neither 0 (the usual 90 %) nor above 50 % and at most 99.9999 %")                   \
    X(CONTENT_OUT_OF_RANGE, 714, "content share burst_aim.share",                                            \
      "the share of pieces is neither 0 (the usual 95 %) nor between 1 % and 99.9999 %")                     \
    X(POWER_OUT_OF_RANGE, 715, "power",                                                                      \
      "the probability of showing it is neither 0 (the usual 90 %) nor between 1 % and 99.9999 %")           \
    X(INDEX_OUT_OF_RANGE, 716, "index expected batch_question.index", "an index is not between 0.01 and 10") \
    X(INDEX_NOT_REACHABLE, 717, "expected", "no number of pieces up to 10,000 shows this index")             \
    X(INDEX_WITHOUT_LIMIT, 718, "wanted.side", "the index needs a limit that does not count")                \
    X(INDEX_NOT_ABOVE_ZERO, 719, "wanted.limits",                                                            \
      "with the gauge taken off, an index is limited only where its limit is above 0")                       \
    X(TARGET_OUTSIDE_LIMITS, 720, "wanted.target", "the target is not between the limits")                   \
    X(VALUES_SHAPE_UNKNOWN, 721, "capability_settings.shape",                                                \
      "the shape of the distribution is not in the list")                                                    \
    X(VALUES_SHAPE_WITHOUT_INDEX, 722, "capability_settings.shape",                                          \
      "without a shape of the distribution there is no index")                                               \
    X(VALUES_LIMIT_NOT_POSITIVE, 723, "wanted.limits",                                                       \
      "values with a lognormal distribution need a limit above 0")                                           \
    X(VALUES_SHAPE_OVERALL_ONLY, 724, "settings",                                                            \
      "only values with a normal distribution can be taken within groups, or have the gauge taken off")      \
    X(SCATTER_UNKNOWN, 725, "capability_settings.scatter",                                                   \
      "the choice of the standard deviation is not in the list")                                             \
    X(TOLERANCE_PIECES_OUT_OF_RANGE, 726, "pieces count",                                                    \
      "the number of pieces is not between 2 and 10,000")                                                    \
    X(TOLERANCE_DEGREES_OUT_OF_RANGE, 727, "degrees_of_freedom",                                             \
      "degrees of freedom are not between 1 and 100 for each piece")                                         \
    X(SAMPLE_FURTHER_OUT_OF_RANGE, 728, "further",                                                           \
      "the number of further pieces is not between 0 and 1,000,000")                                         \
    /* gauge */                                                                                              \
    X(STUDY_READING_OUT_OF_RANGE, 729, "study_reading.diameter",                                             \
      "a reading of the study is not between 0.001 mm and 1,000,000 mm")                                     \
    X(STUDY_NUMBER_OUT_OF_RANGE, 730, "study_reading.part study_reading.person",                             \
      "a part is not between 0 and 999, or a person not between 0 and 63")                                   \
    X(STUDY_TOO_SMALL, 731, "readings",                                                                      \
      "a study needs two parts, two people, and two readings of each; a calibration three readings")         \
    X(STUDY_NOT_BALANCED, 732, "readings", "not every person has read every part equally often")             \
    X(STUDY_TOLERANCE_OUT_OF_RANGE, 733, "tolerance",                                                        \
      "the tolerance is not between 0.000001 mm and 1,000,000 mm")                                           \
    X(STUDY_TOLERANCE_MISSING, 799, "tolerance",                                                             \
      "the tolerance is not given, and nothing is compared without it")                                      \
    X(STUDY_SETTINGS_OUT_OF_RANGE, 734, "study_settings bias consumer",                                      \
      "a setting of the study, a bias or a risk is out of its range")                                        \
    X(BLOCK_OUT_OF_RANGE, 735, "block_reading block",                                                        \
      "a block, its reading or what is known of it is out of its range")                                     \
    X(STUDY_READING_MISSING, 736, "study_reading.diameter block_reading",                                    \
      "a reading or a block is not given")                                                                   \
    X(OPINION_OUT_OF_RANGE, 737, "opinion",                                                                  \
      "an opinion has a number that is out of its range, or the truth of a piece differs")                   \
    X(OPINION_TOO_FEW, 738, "opinions", "no piece has two opinions")                                         \
    X(AGREEMENT_UNDEFINED, 739, "opinions", "where all say the same there is no agreement beyond chance")    \
    /* chart */                                                                                              \
    X(CHART_PIECES_OUT_OF_RANGE, 740, "pieces chart_figures.pieces sample_piece.group",                      \
      "a group of a chart does not have 2 to 100 pieces")                                                    \
    X(CHART_GROUPS_OUT_OF_RANGE, 741, "groups chart_figures.groups sample_piece.group",                      \
      "the number of groups is out of its range: limits need two of them")                                   \
    X(CHART_GROUPS_DIFFER, 742, "sample_piece.group",                                                        \
      "the groups of a chart do not all have equally many pieces")                                           \
    X(CHART_KIND_UNKNOWN, 743, "chart", "the kind of chart is not in the list")                              \
    X(CHART_BASIS_UNKNOWN, 744, "limit_rule.basis", "what the limits of a chart keep is not in the list")    \
    X(CHART_FALSE_ALARMS_OUT_OF_RANGE, 745, "limit_rule.false_alarms",                                       \
      "the rate of false alarms is neither 0 (that of three standard deviations) nor between 0.001 % "       \
      "and 50 %")                                                                                            \
    X(CHART_ASSURANCE_OUT_OF_RANGE, 746, "limit_rule.assurance",                                             \
      "the assurance is neither 0 (the usual 90 %) nor above 50 % and at most 99.9999 %")                    \
    X(CHART_FIGURES_OUT_OF_RANGE, 747, "chart_figures.mean chart_figures.scatter pieces",                    \
      "the mean is not between 0.001 mm and 1,000,000 mm, or the scatter not between 0.000001 mm and "       \
      "1,000,000 mm")                                                                                        \
    X(CHART_KINDS_SEVERAL, 748, "sample_piece.kind last_of_kind",                                            \
      "pieces of several kinds have levels of their own")                                                    \
    X(CHART_WEIGHT_OUT_OF_RANGE, 749, "charting.weight",                                                     \
      "the weight of the newest piece is neither 0 (no weighted mean) nor between 0.05 and 1")               \
    X(CHART_LIMIT_OUT_OF_RANGE, 750, "charting.limit",                                                       \
      "the limit of the weighted mean is neither 0 (the usual 3) nor between 0.5 and 6")                     \
    X(CHART_ALLOWANCE_OUT_OF_RANGE, 751, "charting.allowance",                                               \
      "the allowance of the sums is neither 0 (no sums) nor between 0.1 and 3")                              \
    X(CHART_DECISION_OUT_OF_RANGE, 752, "charting.decision",                                                 \
      "the decision limit of the sums is neither 0 (the usual 5) nor between 0.5 and 20")                    \
    X(CHART_BEYOND_OUT_OF_RANGE, 753, "charting.beyond",                                                     \
      "what a single piece must be beyond is neither 0 (off) nor between 1 and 6 standard "                  \
      "deviations, or is needed here")                                                                       \
    X(CHART_RULE_OUT_OF_RANGE, 754,                                                                          \
      "charting.same_side charting.rising charting.alternating charting.inside charting.outside",            \
      "the length of a rule is neither 0 (off) nor in its range")                                            \
    X(CHART_DEVIATION_OUT_OF_RANGE, 755, "charting.deviation",                                               \
      "the known standard deviation is neither 0 (from the pieces) nor between 0.000001 mm and "             \
      "1,000,000 mm")                                                                                        \
    X(CHART_CENTRE_OUT_OF_RANGE, 756, "charting.centre",                                                     \
      "the known level is neither 0 (from the pieces) nor between 0.001 mm and 1,000,000 mm, or "            \
      "needs a known standard deviation")                                                                    \
    X(CHART_RESOLUTION_OUT_OF_RANGE, 757, "charting.resolution",                                             \
      "the resolution of the diameters is neither 0 (stepless) nor between 0 and 10 mm")                     \
    X(CHART_POINT_INCOMPLETE, 758, "last last_of_kind", "the last point is none that a chart gave")          \
    X(CHART_METHOD_NOT_ONE, 759, "charting",                                                                 \
      "a run length belongs to one of weighted mean, sums and rules, not to none or to several")             \
    X(CHART_METHOD_UNKNOWN, 760, "method", "the method of the chart is not in the list")                     \
    X(CHART_RULE_WITHOUT_RUN_LENGTH, 761,                                                                    \
      "charting.rising charting.alternating charting.inside charting.outside",                               \
      "for rising, alternating, inside and outside no run length is computed")                               \
    X(CHART_STATES_TOO_MANY, 762, "charting.same_side",                                                      \
      "these rules together have more histories than can be computed: shorten the run on one side")          \
    X(CHART_SHIFT_OUT_OF_RANGE, 763, "shift",                                                                \
      "the shift is not in its range of standard deviations, up to 6")                                       \
    X(CHART_RUN_LENGTH_OUT_OF_RANGE, 764, "run_length",                                                      \
      "the mean number of pieces between false alarms is above 100,000 or below 10, or cannot be "           \
      "computed at this limit")                                                                              \
    X(CHART_RUN_LENGTH_NOT_REACHABLE, 765, "run_length charting",                                            \
      "no limit in its range gives this mean number of pieces between false alarms")                         \
    X(PRESS_CHECKS_TOO_FEW, 766, "checks",                                                                   \
      "the level of a press needs four checks, on two different days at least")                              \
    X(PRESS_CHECKS_NOT_IN_ORDER, 767, "checks today",                                                        \
      "the checks of the press are not in the order of their days, or today is before the last")             \
    X(CHART_FIGURES_MISSING, 768, "chart_figures.mean chart_figures.scatter",                                \
      "the mean or the scatter of a chart is not given")                                                     \
    /* sampling */                                                                                           \
    X(PLAN_PIECES_OUT_OF_RANGE, 770, "plan.pieces measured_plan.pieces count",                               \
      "the number of pieces is not between 1 and 10,000 or what the plan needs, or is above that of the "    \
      "lot")                                                                                                 \
    X(PLAN_ACCEPT_OUT_OF_RANGE, 771, "plan.accept",                                                          \
      "the number of bad pieces that are accepted is not below the number of pieces, or too large for "      \
      "stages")                                                                                              \
    X(PLAN_LOT_OUT_OF_RANGE, 772, "plan.lot plan_aim.lot lot",                                               \
      "the number of pieces of the lot is neither 0 (endless) nor between 1 and 1,000,000")                  \
    X(PLAN_SHARE_OUT_OF_RANGE, 773, "plan_aim.good plan_aim.bad bad",                                        \
      "a share of bad pieces is not in the range that is taken here")                                        \
    X(PLAN_SHARES_WRONG_ORDER, 774, "plan_aim.good plan_aim.bad", "the good share is not below the bad one") \
    X(PLAN_RISK_OUT_OF_RANGE, 775, "plan_aim.producer_risk plan_aim.consumer_risk",                          \
      "a risk is neither 0 (the usual) nor between 0.0001 % and 50 %")                                       \
    X(PLAN_LOT_TOO_SMALL, 776, "plan_aim.lot",                                                               \
      "of so small a lot the two shares are the same number of whole pieces")                                \
    X(PLAN_NOT_REACHABLE, 777, "aim mean deviation",                                                         \
      "no number of pieces that the library looks at keeps what is asked")                                   \
    X(PLAN_DEVIATION_OUT_OF_RANGE, 778, "deviation measured_plan.mean_deviation",                            \
      "the known standard deviation is out of its range")                                                    \
    X(PLAN_DEVIATION_MISSING, 779, "deviation",                                                              \
      "the error of a gauge counts only where the standard deviation of the pieces is known")                \
    X(PLAN_FACTOR_OUT_OF_RANGE, 780, "measured_plan.factor", "the factor is not between -1000 and 1000")     \
    X(STAGES_OUT_OF_RANGE, 781, "plan_stage.accept plan_stage.refuse",                                       \
      "a stage accepts up to -1 to 499 bad pieces, and refuses from above that, 1 to 500")                   \
    X(STAGES_NEVER_END, 782, "stages",                                                                       \
      "the last stage does not refuse from one above what it accepts: it leaves the lot undecided")          \
    X(BURST_PRESSURE_MISSING, 783, "burst.pressure", "the pressure of a burst test is not given")            \
    X(BURST_PRESSURE_OUT_OF_RANGE, 784, "burst.pressure",                                                    \
      "the pressure of a burst test is not between 0.001 MPa and 10,000 MPa")                                \
    X(BURST_WORKING_MISSING, 785, "burst_aim.working", "the working pressure is not given")                  \
    X(BURST_WORKING_OUT_OF_RANGE, 786, "burst_aim.working",                                                  \
      "the working pressure is not between 0.001 MPa and 1,000 MPa")                                         \
    X(BURST_MULTIPLE_OUT_OF_RANGE, 787, "burst_aim.multiple",                                                \
      "the multiple of the working pressure is neither 0 (the usual 4) nor between 1 and 100")               \
    X(BURST_TOO_FEW, 788, "bursts",                                                                          \
      "fewer than two pieces burst: only order and number of the tests count (strength any)")                \
    X(BURST_ALL_EQUAL, 789, "bursts",                                                                        \
      "all burst at the same pressure: nothing shows how burst pressures scatter")                           \
    X(BURST_STRENGTH_UNKNOWN, 790, "strength", "the distribution of burst pressures is not in the list")     \
    X(BURST_NOT_ALL_BURST, 791, "burst.stopped strength",                                                    \
      "with a normal or lognormal distribution every piece has to burst")                                    \
    X(BURST_MEAN_MISSING, 797, "mean", "the burst pressure that is expected is not given")                   \
    X(BURST_VARIATION_MISSING, 798, "variation",                                                             \
      "the standard deviation of burst pressures by their mean is not given")                                \
    X(BURST_MEAN_OUT_OF_RANGE, 792, "mean",                                                                  \
      "the mean burst pressure that is expected is not between 0.001 MPa and 10,000 MPa")                    \
    X(BURST_VARIATION_OUT_OF_RANGE, 793, "variation",                                                        \
      "standard deviation by mean is not between 0.5 % and 50 %")                                            \
    X(BURST_RAISED_OUT_OF_RANGE, 794, "raised shape",                                                        \
      "test pressure by limit is neither 0 (1) nor between 1 and 2, or the shape not between 0 and 100")     \
    /* batch */                                                                                              \
    X(BATCH_LOT_OUT_OF_RANGE, 795, "batch_question.lot",                                                     \
      "the number of pieces of the batch is neither 0 (those measured) nor between that of the measured "    \
      "pieces and 1,000,000")                                                                                \
    X(BATCH_ALLOWED_OUT_OF_RANGE, 796, "batch_question.allowed",                                             \
      "the share allowed outside is neither 0 (the usual 1 %) nor between 0.0001 % and 50 %")                \
    /* forming */                                                                                            \
    X(MATERIAL_MODULUS_OUT_OF_RANGE, 800, "material.elastic_modulus",                                        \
      "elastic modulus is not between 1,000 MPa and 1,000,000 MPa")                                          \
    X(MATERIAL_POISSON_OUT_OF_RANGE, 801, "material.poisson", "Poisson's ratio is not from 0 to below 0.5")  \
    X(MATERIAL_YIELD_STRENGTH_OUT_OF_RANGE, 802, "material.yield_strength holding.yield_strength",           \
      "yield strength is not between 0.001 MPa and 1/200 of the elastic modulus")                            \
    X(MATERIAL_HARDENING_OUT_OF_RANGE, 803, "material.hardening",                                            \
      "hardening is not between 0 and 5 times the yield strength")                                           \
    X(MATERIAL_MISSING, 804, "material", "the metal is not given, and this figure needs it")                 \
    X(MATERIAL_MODULUS_MISSING, 805, "material.elastic_modulus", "elastic modulus is not given")             \
    X(MATERIAL_YIELD_STRENGTH_MISSING, 806, "material.yield_strength holding.yield_strength",                \
      "yield strength is not given")                                                                         \
    X(RESTRAINT_OUT_OF_RANGE, 810, "forming_load.restraint",                                                 \
      "restraint is not between 0 (free) and 1 (fixed)")                                                     \
    X(HOSE_PRESSURE_OUT_OF_RANGE, 811, "forming_load.hose_pressure hose_pressure",                           \
      "squeeze of the hose is negative or not a finite number")                                              \
    X(HOSE_PRESSURE_ABOVE_LIMIT, 812, "forming_load.hose_pressure hose_pressure",                            \
      "squeeze of the hose is above 0.5 of the ferrule's yield strength")                                    \
    X(HOSE_PRESSURE_MISSING, 813, "forming_load.hose_pressure",                                              \
      "squeeze of the hose is not given, and this figure needs it")                                          \
    X(FERRULE_WITHOUT_BORE, 820, "ferrule.wall ferrule.outside",                                             \
      "ferrule wall is not below half the ferrule outside diameter")                                         \
    X(FERRULE_WALL_TOO_THICK, 821, "ferrule.wall",                                                           \
      "ferrule wall is above 0.18 of the ferrule outside diameter")                                          \
    X(DIAMETER_REDUCED_TOO_LITTLE, 830, "diameter crimp_diameter closing.diameter",                          \
      "the ferrule is reduced so little that its wall has not yielded through its thickness")                \
    X(DIAMETER_REDUCED_TOO_FAR, 831, "diameter crimp_diameter closing.diameter",                             \
      "this diameter is more than 30 % below the ferrule outside diameter")                                  \
    X(DIAMETER_YIELDS_ON_RELEASE, 832, "diameter crimp_diameter",                                            \
      "at this diameter the ferrule's bore yields the other way when the dies open")                         \
    X(DIE_PRESSURE_OUT_OF_RANGE, 840, "pressure",                                                            \
      "pressure of the dies is not above 0 and at most 1,000,000 MPa")                                       \
    X(TUBE_OUTSIDE_OUT_OF_RANGE, 850, "outside",                                                             \
      "tube outside diameter is not between 0.001 mm and 1,000,000 mm")                                      \
    X(TUBE_INSIDE_OUT_OF_RANGE, 851, "inside",                                                               \
      "tube inside diameter is neither 0 (solid) nor between 0.001 mm and the tube outside diameter")        \
    X(TUBE_PRESSURE_OUT_OF_RANGE, 852, "inner_pressure outer_pressure",                                      \
      "a pressure on the tube is not between 0 and 1,000,000 MPa")                                           \
    X(TUBE_OUTSIDE_MISSING, 853, "outside", "tube outside diameter is not given")                            \
    X(STEM_YIELDS_THROUGH, 860, "forming_load.hose_pressure",                                                \
      "under this pressure the whole wall of the stem yields and its bore closes up")                        \
    X(STEM_YIELDS_ENDS_NOT_FIXED, 861, "forming_load.restraint",                                             \
      "the stem yields in part, and that is computed for fixed ends only (restraint 1)")                     \
    X(STEM_YIELDS_ON_RELEASE, 862, "forming_load.hose_pressure",                                             \
      "the bore of the stem yields the other way when the pressure is released")                             \
    X(STEM_YIELDS_TOO_DEEP, 863, "forming_load.hose_pressure",                                               \
      "the stem yields so deep into its wall that its bore is no longer computed")                           \
    X(BORE_REDUCTION_OUT_OF_RANGE, 870, "reduction",                                                         \
      "reduction of the bore is not from 0 to below the bore")                                               \
    X(BORE_LIMIT_OUT_OF_RANGE, 871, "order.minimum_bore gauge",                                              \
      "smallest bore allowed is not between 0.001 mm and 1,000,000 mm")                                      \
    X(BORE_LIMIT_MISSING, 872, "order.minimum_bore gauge",                                                   \
      "no smallest bore is given, and this figure needs it")                                                 \
    /* hose */                                                                                               \
    X(CLOSING_FORCE_OUT_OF_RANGE, 880, "closing.force",                                                      \
      "force of a closing is not a number above 0 that a metal of this modulus can take")                    \
    X(CLOSING_FORCE_MISSING, 881, "closing.force", "force of a closing is not given")                        \
    X(CLOSING_LENGTH_OUT_OF_RANGE, 882, "closing.before closing.after",                                      \
      "a length of a closing is not between 0.001 mm and 1,000,000 mm")                                      \
    X(CLOSING_LENGTH_MISSING, 883, "closing.before closing.after",                                           \
      "a length of a closing is not given, and this figure needs it")                                        \
    X(CLOSING_STRETCH_OUT_OF_RANGE, 884, "closing.before closing.after",                                     \
      "the ferrule has become shorter, or longer than ends free and a dragging hose can make it: measure "   \
      "both lengths again")                                                                                  \
    X(CLOSING_UNCERTAINTY_OUT_OF_RANGE, 885, "closing_uncertainties",                                        \
      "an uncertainty of a closing is negative, above 1 or 1,000,000 mm, or not a number")                   \
    X(FORCE_BELOW_METAL, 886, "closing.force press.capacity",                                                \
      "the ferrule's metal alone needs more than this force: check force, yield strength and diameter")      \
    X(BORE_REDUCTION_ABOVE_FULL_YIELD, 887, "reduction",                                                     \
      "the bore is reduced by more than a stem bears whose whole wall yields")                               \
    /* rack */                                                                                               \
    X(DEMAND_WEIGHT_OUT_OF_RANGE, 900, "demand.weight", "a weight is not between 0 and 1,000,000,000")       \
    X(DEMAND_MARGIN_OUT_OF_RANGE, 901, "demand.margin", "a margin is not between 0 and 1,000,000 mm")        \
    X(DEMAND_LOBE_OUT_OF_RANGE, 902, "demand.lobe_maximum",                                                  \
      "the greatest lobe height allowed is not between 0.001 mm and 1,000,000 mm")                           \
    X(OFFER_PRICE_OUT_OF_RANGE, 903, "offer.price", "a price is not between 0 and 1,000,000,000")            \
    X(OFFER_PRICE_MISSING, 904, "offer.price", "some offers have a price and some have none")                \
    X(ADAPTER_PRICE_OUT_OF_RANGE, 905, "adapter_offer.price",                                                \
      "the price of an adapter set is not between 0 and 1,000,000,000")                                      \
    X(RACK_PRICE_OUT_OF_RANGE, 906, "rack_aim.price_maximum", "the price limit is not between 0 and 1e15")   \
    X(RACK_OFFSET_COST_OUT_OF_RANGE, 907, "rack_aim.offset_cost",                                            \
      "the cost of offset is not between 0 and 1000 per mm")                                                 \
    X(RACK_RANK_OUT_OF_RANGE, 908, "rack_aim.rank",                                                          \
      "the rank is not between 0 and 16, or is above 1 for a curve or with adapter sets on offer")           \
    X(RACK_RANK_ABOVE_ALL, 909, "rack_aim.rank", "there are fewer racks within the price limit than that")   \
    X(RACK_STEPS_OUT_OF_RANGE, 910, "rack_aim.steps",                                                        \
      "the number of steps is neither 0 nor between 1 and 1e15")                                             \
    /* schedule */                                                                                           \
    X(JOB_LOBE_OUT_OF_RANGE, 920, "job.lobe_maximum",                                                        \
      "the greatest lobe height allowed is not between 0.001 mm and 1,000,000 mm")                           \
    X(JOB_REEL_OUT_OF_RANGE, 921, "job.reel", "the number of a reel is negative")                            \
    X(JOB_BIN_OUT_OF_RANGE, 922, "job.bin", "the number of a bin is negative")                               \
    X(JOB_WORK_OUT_OF_RANGE, 923, "job.work_seconds", "the work of a job is not between 0 and 1,000,000 s")  \
    X(JOB_DUE_OUT_OF_RANGE, 924, "job.due_seconds",                                                          \
      "the due time of a job is neither 0 (none) nor between 1 and 1,000,000 s")                             \
    X(CHANGE_TIME_OUT_OF_RANGE, 925, "change_times", "the time of a change is not between 0 and 100,000 s")  \
    X(MOUNTED_DIE_UNKNOWN, 926, "mounted.die", "there is no die at this place of the list")                  \
    X(MOUNTED_SETTING_OUT_OF_RANGE, 927, "mounted.setting",                                                  \
      "the dial setting is not between 0 and 1,000,000 mm")                                                  \
    X(MOUNTED_NUMBER_OUT_OF_RANGE, 928, "mounted.adapter mounted.reel mounted.bin",                          \
      "the number of an adapter set, reel or bin is negative")                                               \
    X(SCHEDULE_STEPS_OUT_OF_RANGE, 929, "schedule_aim.steps",                                                \
      "the number of steps is neither 0 nor between 1 and 1e15")                                             \
    /* hoseline */                                                                                           \
    X(OVERALL_LENGTH_OUT_OF_RANGE, 950, "overall length measured",                                           \
      "overall length is not between 0.001 mm and 1,000,000 mm")                                             \
    X(OVERALL_LENGTH_MISSING, 951, "overall length measured", "overall length of the assembly is not given") \
    X(CUT_OFF_OUT_OF_RANGE, 952, "hose_end.cut_off", "a cut-off is not between 0.001 mm and 1,000,000 mm")   \
    X(CUT_OFF_MISSING, 953, "hose_end.cut_off", "the cut-off of a coupling is not given")                    \
    X(HOSE_GROWTH_OUT_OF_RANGE, 954, "hose_end.growth",                                                      \
      "growth of the hose at an end is not between -100 mm and 100 mm")                                      \
    X(CUT_LENGTH_NOT_POSITIVE, 955, "overall hose_end.cut_off",                                              \
      "the ends alone are as long as the assembly: nothing is left to cut")                                  \
    X(CUT_LENGTH_OUT_OF_RANGE, 956, "cut length shortest",                                                   \
      "length of the hose is not between 0.001 mm and 1,000,000 mm")                                         \
    X(CUT_LENGTH_MISSING, 957, "cut length shortest", "length of the hose is not given")                     \
    X(LENGTH_CHANGE_OUT_OF_RANGE, 958, "change",                                                             \
      "change of length under pressure is not between -50 % and 50 %")                                       \
    X(LENGTH_CHANGE_WRONG_ORDER, 959, "change", "lower end of the change of length is above its upper end")  \
    X(LENGTH_ROW_OUT_OF_RANGE, 960, "length_row",                                                            \
      "a number in the table of length tolerances is out of its range")                                      \
    X(LENGTH_ROW_MISSING, 961, "rows",                                                                       \
      "no row of the table of length tolerances is for this bore and length")                                \
    X(LENGTH_LIMITS_NOT_POSITIVE, 962, "length_row.minus length_row.minus_share",                            \
      "the lower tolerance is not below the length")                                                         \
    X(HOSE_BORE_OUT_OF_RANGE, 963, "bore",                                                                   \
      "nominal bore of the hose is not between 0.001 mm and 1,000,000 mm")                                   \
    X(HOSE_BORE_MISSING, 964, "bore", "nominal bore of the hose is not given")                               \
    X(BEND_RADIUS_OUT_OF_RANGE, 965, "bend_radius", "bend radius is not between 0.001 mm and 1,000,000 mm")  \
    X(BEND_RADIUS_MISSING, 966, "bend_radius", "bend radius is not given")                                   \
    X(BEND_ANGLE_OUT_OF_RANGE, 967, "angle", "angle of a bend is not between 0 and 360 degrees")             \
    X(BEND_OFFSET_OUT_OF_RANGE, 968, "offset",                                                               \
      "offset is not between 0.001 mm and what two half circles of this radius reach")                       \
    X(BEND_OFFSET_MISSING, 969, "offset", "offset of the bend is not given")                                 \
    X(STROKE_OUT_OF_RANGE, 970, "stroke", "stroke is not between 0 and 1,000,000 mm")                        \
    X(STRAIGHT_OUT_OF_RANGE, 971, "straight",                                                                \
      "length that has to stay straight is not between 0 and 1,000,000 mm")                                  \
    X(ROUTE_POINTS_TOO_FEW, 972, "points", "a route has two points at least: its ends")                      \
    X(ROUTE_POINT_OUT_OF_RANGE, 973, "point", "a coordinate is not between -1,000,000 mm and 1,000,000 mm")  \
    X(ROUTE_POINTS_TOO_CLOSE, 974, "points",                                                                 \
      "neighbouring points of the route are less than 0.001 mm apart")                                       \
    X(ROUTE_TURNS_BACK, 975, "points", "the route turns by more than 179 degrees at a corner")               \
    X(ROUTE_STRAIGHT_TOO_SHORT, 976, "points bend_radius",                                                   \
      "the bends of neighbouring corners do not fit on the straight between them")                           \
    X(ELBOW_ALONG_HOSE, 977, "first_tip last_tip",                                                           \
      "an elbow points along the hose, so it has no direction about it")                                     \
    X(ELBOW_ANGLE_OUT_OF_RANGE, 978, "made ordered measured",                                                \
      "angle of the elbows is not between -10 rad and 10 rad")                                               \
    X(ELBOW_TOLERANCE_OUT_OF_RANGE, 979, "tolerance standard_uncertainty",                                   \
      "tolerance of the elbows' angle is not from 0.0001 rad to 3 rad, or its standard uncertainty not "     \
      "from 0 to 3 rad")                                                                                     \
    X(RATING_OUT_OF_RANGE, 980, "ratings",                                                                   \
      "a rated pressure is not between 0.001 MPa and 1,000 MPa (4,000 MPa for the greatest allowed)")        \
    X(RATING_MISSING, 981, "ratings", "the rated working pressure of hose or coupling is not given")         \
    X(RATING_BELOW_ASKED, 982, "ratings.asked",                                                              \
      "the order asks for more pressure than hose or coupling is rated for")                                 \
    X(PROOF_FACTOR_OUT_OF_RANGE, 983, "proof_factors",                                                       \
      "a factor of the proof pressure is not between 1 and 10, or one of the burst pressure not between 1 "  \
      "and 100")                                                                                             \
    X(PROOF_ABOVE_ALLOWED, 984, "ratings.allowed proof_factors.proof_pressure",                              \
      "the proof pressure is above the greatest pressure that a part may ever see")                          \
    X(LINE_PRESSURE_OUT_OF_RANGE, 985, "pressure holding.pressure",                                          \
      "pressure in the hose is not between 0 and 4,000 MPa")                                                 \
    X(LINE_PRESSURE_MISSING, 986, "holding.pressure", "pressure in the hose is not given")                   \
    X(SEAL_DIAMETER_OUT_OF_RANGE, 987, "seal_diameter",                                                      \
      "diameter that the hose seals on is not between 0.001 mm and 1,000,000 mm")                            \
    X(SEAL_DIAMETER_MISSING, 988, "seal_diameter", "diameter that the hose seals on is not given")           \
    X(SQUEEZE_OUT_OF_RANGE, 989, "holding.squeeze",                                                          \
      "squeeze of the hose is not between 0.001 MPa and 1,000 MPa")                                          \
    X(SQUEEZE_MISSING, 990, "holding.squeeze", "squeeze of the hose is not given")                           \
    X(SQUEEZE_LENGTH_OUT_OF_RANGE, 991, "holding.length",                                                    \
      "squeezed length is not between 0.001 mm and 1,000,000 mm")                                            \
    X(SQUEEZE_LENGTH_MISSING, 992, "holding.length", "squeezed length is not given")                         \
    X(FERRULE_BORE_OUT_OF_RANGE, 993, "holding.ferrule_bore",                                                \
      "bore of the crimped ferrule is not between 0.001 mm and 1,000,000 mm")                                \
    X(FERRULE_BORE_MISSING, 994, "holding.ferrule_bore",                                                     \
      "bore of the crimped ferrule is not given, and this figure needs it")                                  \
    X(FRICTION_OUT_OF_RANGE, 995, "holding.friction",                                                        \
      "friction is neither 0 (not measured) nor between 0.001 and 2")                                        \
    X(FRICTION_MISSING, 996, "holding.friction",                                                             \
      "friction was not measured, and no grip is computed without it")                                       \
    X(LENGTH_ROW_TWO_TOLERANCES, 997, "length_row",                                                          \
      "a tolerance of the length is both an amount and a share: which of them counts?")                      \
    X(FERRULE_OUTSIDE_NOT_ABOVE_BORE, 998, "holding.ferrule_outside holding.ferrule_bore",                   \
      "outside diameter of the crimped ferrule is not above its bore")                                       \
    X(ELBOW_TOLERANCE_MISSING, 999, "tolerance", "tolerance of the elbows' angle is not given")

/** What a call says about its own success: FER_OK is 0, everything else names the quantity and the rule. */
typedef enum fer_status {
#define FER_STATUS_ENUMERATOR(name, number, about, sentence) FER_##name = number,
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
