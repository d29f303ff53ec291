/* SPDX-License-Identifier: MIT */
/** @file
 * Module `inspection`: a set-up, the readings of a piece, and the verdict on it.
 */
#ifndef FERRULE_INSPECTION_H
#define FERRULE_INSPECTION_H

#include <ferrule/conformity.h>
#include <ferrule/reading.h>
#include <ferrule/setup.h>

/** A measured crimp, judged. */
typedef struct fer_inspection {
    fer_reading_summary summary; /**< what the readings say */
    fer_verdict verdict;         /**< verdict on their mean */
    fer_length_range limits;     /**< limits that were used, from the set-up */
    fer_length deviation;        /**< mean minus target */
    fer_cautions cautions;       /**< which cautions apply */
} fer_inspection;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Inspection of a crimp: joins a set-up, the readings of a piece and the verdict on it.
 *
 * The mean of the readings is judged against the limits of the set-up, with the standard uncertainty of
 * fer_summarise_readings(), taken as known exactly; see there for its degrees of freedom.
 *
 * @param[in] setup  @from fer_plan_setup(), with limits
 * @param[in] readings  in any order; each may be missing
 * @param[in] count  number of readings
 * @param[in] gauge  what is known of the gauge @optional without error
 * @param[in] marks  where the segments stood; segments 0: those of the set-up @optional not known
 * @param[in] guard  how to decide @optional guard band of 1.65 standard uncertainties, both limits
 * @param[in] process  what is known of the pieces @optional nothing
 * @param[out] inspection  undecided, numbers NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_SETUP_INCOMPLETE  the set-up has no target or no limits
 * @retval FER_TOLERANCE_MISSING  the set-up says so of its limits; also any other status that it gives for them
 * @retval FER_READING_OUT_OF_RANGE  and the other statuses of fer_summarise_readings()
 * @retval FER_TOLERANCE_BELOW_UNCERTAINTY  and the other statuses of fer_judge()
 * @accuracy as fer_summarise_readings() and fer_judge()
 * @source as fer_summarise_readings() and fer_judge()
 */
FER_API fer_status fer_inspect_crimp(const fer_setup *setup, const fer_reading *readings, size_t count,
                                     const fer_gauge *gauge, fer_marks marks, fer_guard guard,
                                     fer_process process, fer_inspection *inspection);

#ifdef __cplusplus
}
#endif

#endif
