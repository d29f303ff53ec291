/* SPDX-License-Identifier: MIT */
/* Gauges, limits and guards as they come from a caller, and the acceptance zone that they leave: what planning and judging
 * share, so that card and verdict use one zone. */
#ifndef FER_ACCEPTANCE_PRIVATE_H
#define FER_ACCEPTANCE_PRIVATE_H

#include <ferrule/value.h>

#include "base/faults.h"
#include "base/numeric/zone.h"

static inline int fer_is_place(double x)
{
    return x >= -FER_LENGTH_MAXIMUM_MM && x <= FER_LENGTH_MAXIMUM_MM;
}

static inline int fer_is_deviation(double x)
{
    return x >= 0.0 && x <= FER_LENGTH_MAXIMUM_MM;
}

/* The figures of a gauge and of a guard are possible; members are theirs. */
fer_status fer_check_gauge_rules(const fer_gauge *gauge, fer_fault_visitor *faults);
fer_status fer_check_guard_rules(const fer_guard *guard, fer_fault_visitor *faults);

/* The same of a gauge, up to the first fault. */
fer_status fer_check_gauge(const fer_gauge *gauge);

fer_status fer_check_side(fer_side side);

/* Guard band in standard uncertainties; not given: the usual one. */
static inline double fer_guard_factor(const fer_guard *guard)
{
    return guard->factor == 0.0 ? FER_GUARD_USUAL : guard->factor;
}

/* Limits, and a guard that was checked, as the mathematics needs them. */
fer_status fer_take_limits(fer_length_range limits, fer_side side, fer_judging *judging);
void fer_take_guard(fer_guard guard, fer_judging *judging);

/* Ends of acceptance or rejection; of a limit that does not count, what was given. */
fer_length_range fer_ends_of(double lower, double upper, fer_length_range given);
double fer_guard_of(const fer_judging *judging, fer_side side, const fer_bands *bands);

void fer_leave_out_zone(fer_acceptance_zone *zone);

/* fer_find_acceptance_zone() of a deviation and a guard that were checked; written in any case. */
fer_status fer_zone_of(fer_length_range limits, fer_length standard_uncertainty, fer_guard guard,
                       fer_acceptance_zone *zone);

/* The readings of a gauge that these limits accept, as it shows them: what stands on a card, and what a reading is compared
 * with. Gauge and guard have been checked. */
fer_status fer_gauge_zone(fer_length_range limits, const fer_gauge *gauge, fer_guard guard,
                          fer_acceptance_zone *zone);

/* fer_find_shown_zone() with a side and a gauge that were checked; both zones may be one. */
fer_status fer_show_zone(const fer_acceptance_zone *zone, const fer_gauge *gauge, fer_acceptance_zone *shown);

#endif
