/* SPDX-License-Identifier: MIT */
/* A set-up, the readings of a piece and the verdict on it.
 * Method: the readings are summed up and judged against the limits of the set-up.
 * Formulas: those of reading and conformity; include/ferrule/inspection.h. */
#include <ferrule/inspection.h>

#include "base/value_private.h"
#include "judge/conformity_private.h"
#include "judge/reading_private.h"

#include <string.h>

static fer_status inspect(const fer_setup *setup, const fer_reading *readings, size_t count,
                          const fer_gauge *gauge, fer_marks marks, fer_guard guard,
                          const fer_process *process, fer_inspection *inspection)
{
    FER_REQUIRE(setup, FER_ARGUMENT_MISSING);
    FER_REQUIRE(strcmp(fer_status_name(setup->limits.status), "UNKNOWN") != 0, FER_SETUP_INCOMPLETE);
    FER_TRY(setup->limits.status);
    FER_REQUIRE(fer_is_length(setup->target), FER_SETUP_INCOMPLETE);
    FER_REQUIRE(fer_is_length(setup->limits.value.lower) && fer_is_length(setup->limits.value.upper),
                FER_SETUP_INCOMPLETE);
    marks.segments = marks.segments == 0 ? setup->segments : marks.segments;
    fer_reading_summary summary;
    fer_verdict verdict;
    FER_TRY(fer_summarise_readings(readings, count, gauge, marks, &summary));
    FER_TRY(fer_judge(summary.mean, summary.standard_uncertainty, setup->limits.value, guard, *process,
                      &verdict));
    inspection->summary = summary;
    inspection->verdict = verdict;
    inspection->limits = setup->limits.value;
    inspection->deviation.mm = summary.mean.mm - setup->target.mm;
    inspection->cautions.bits = 1u << FER_CAUTION_LAW_AND_LICENCE;
    if (verdict.decision != FER_DECISION_ACCEPT) {
        inspection->cautions.bits |=
            1u << FER_CAUTION_SCRAP_NOT_REPAIR | 1u << FER_CAUTION_APPROVED_PARTS_ONLY;
    }
    return FER_OK;
}

static void leave_out_inspection(fer_status why, fer_inspection *inspection)
{
    FER_EMPTY(*inspection);
    fer_leave_out_summary(why, &inspection->summary);
    fer_leave_out_verdict(&inspection->verdict);
    FER_LEAVE_OUT_FROM(fer_inspection, *inspection, limits, deviation);
}

fer_status fer_inspect_crimp(const fer_setup *setup, const fer_reading *readings, size_t count,
                             const fer_gauge *gauge, fer_marks marks, fer_guard guard, fer_process process,
                             fer_inspection *inspection)
{
    FER_REQUIRE(inspection, FER_ARGUMENT_MISSING);
    leave_out_inspection(FER_OK, inspection);
    const fer_status status = inspect(setup, readings, count, gauge, marks, guard, &process, inspection);
    if (status != FER_OK) {
        leave_out_inspection(status, inspection);
    }
    return status;
}
