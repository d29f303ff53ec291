/* SPDX-License-Identifier: MIT */
/* Gauges, limits and guards as a caller gives them, and the zone of readings that they accept.
 * Method: checks, then the mathematics of base/numeric/zone.h.
 * Formulas: include/ferrule/conformity.h; docs/conformity.md. */
#include "base/acceptance_private.h"

fer_status fer_check_gauge_rules(const fer_gauge *gauge, fer_fault_visitor *faults)
{
    FER_RULE(
        faults, fer_gauge, standard_uncertainty,
        fer_unless(fer_is_deviation(gauge->standard_uncertainty.mm), FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE));
    FER_RULE(faults, fer_gauge, correction,
             fer_unless(fabs(gauge->correction.mm) <= 100.0, FER_GAUGE_CORRECTION_OUT_OF_RANGE));
    FER_RULE(faults, fer_gauge, resolution,
             fer_unless(gauge->resolution.mm >= 0.0 && gauge->resolution.mm <= 10.0,
                        FER_GAUGE_RESOLUTION_OUT_OF_RANGE));
    return FER_OK;
}

fer_status fer_check_gauge(const fer_gauge *gauge)
{
    return fer_check_gauge_rules(gauge, NULL);
}

fer_status fer_check_side(fer_side side)
{
    return fer_unless((unsigned)side <= FER_SIDE_UPPER, FER_GUARD_SIDE_UNKNOWN);
}

fer_status fer_check_guard_rules(const fer_guard *guard, fer_fault_visitor *faults)
{
    const double degrees = guard->degrees_of_freedom;
    FER_RULE(faults, fer_guard, side, fer_check_side(guard->side));
    FER_RULE(faults, fer_guard, factor,
             fer_unless(guard->factor >= 0.0 && guard->factor <= 10.0, FER_GUARD_OUT_OF_RANGE));
    FER_RULE(faults, fer_guard, degrees_of_freedom,
             fer_unless(degrees == 0.0 || (degrees >= 1.0 && fer_is_finite(degrees)),
                        FER_GUARD_DEGREES_OUT_OF_RANGE));
    return FER_OK;
}

fer_status fer_take_limits(fer_length_range limits, fer_side side, fer_judging *judging)
{
    FER_REQUIRE(side == FER_SIDE_UPPER || fer_is_place(limits.lower.mm), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(side == FER_SIDE_LOWER || fer_is_place(limits.upper.mm), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(side != FER_SIDE_BOTH || limits.lower.mm < limits.upper.mm, FER_LIMIT_WRONG_ORDER);
    judging->lower = side == FER_SIDE_UPPER ? -INFINITY : limits.lower.mm;
    judging->upper = side == FER_SIDE_LOWER ? INFINITY : limits.upper.mm;
    return FER_OK;
}

void fer_take_guard(fer_guard guard, fer_judging *judging)
{
    fer_set_guard(judging, fer_guard_factor(&guard), guard.without, guard.degrees_of_freedom);
}

static fer_length end_of(double end, fer_length given)
{
    fer_length length = given;
    if (end != INFINITY && end != -INFINITY) {
        length.mm = end;
    }
    return length;
}

fer_length_range fer_ends_of(double lower, double upper, fer_length_range given)
{
    const fer_length_range range = {end_of(lower, given.lower), end_of(upper, given.upper)};
    return range;
}

double fer_guard_of(const fer_judging *judging, fer_side side, const fer_bands *bands)
{
    return side == FER_SIDE_UPPER ? judging->upper - bands->accept_upper
                                  : bands->accept_lower - judging->lower;
}

void fer_leave_out_zone(fer_acceptance_zone *zone)
{
    FER_EMPTY(*zone);
    FER_LEAVE_OUT_FROM(fer_acceptance_zone, *zone, accept, guard);
}

static fer_status find_zone(fer_length_range limits, fer_length standard_uncertainty, fer_guard guard,
                            fer_acceptance_zone *zone)
{
    fer_judging q = {0.0, standard_uncertainty.mm, 0.0, 0.0, 0.0, 0.0, 0.0, 0};
    fer_bands b;
    FER_TRY(fer_take_limits(limits, guard.side, &q));
    fer_take_guard(guard, &q);
    fer_find_bands(&q, &b);
    zone->accept = fer_ends_of(b.accept_lower, b.accept_upper, limits);
    zone->guard.mm = fer_guard_of(&q, guard.side, &b);
    zone->side = guard.side;
    zone->by_probability = b.by_probability;
    zone->empty = b.empty;
    return FER_OK;
}

fer_status fer_zone_of(fer_length_range limits, fer_length standard_uncertainty, fer_guard guard,
                       fer_acceptance_zone *zone)
{
    fer_leave_out_zone(zone);
    return find_zone(limits, standard_uncertainty, guard, zone);
}

static fer_status show(const fer_acceptance_zone *zone, const fer_gauge *gauge, fer_acceptance_zone *shown)
{
    const double correction = gauge->correction.mm, step = gauge->resolution.mm;
    FER_REQUIRE(fer_is_finite(zone->guard.mm), FER_LIMIT_OUT_OF_RANGE);
    const int as_given = zone->empty != 0; /* no reading is in it, whatever the gauge shows */
    const double from = zone->accept.lower.mm, to = zone->accept.upper.mm,
                 lower = as_given ? from : fer_shown_lower(from, correction, step),
                 upper = as_given ? to : fer_shown_upper(to, correction, step);
    FER_REQUIRE(zone->side == FER_SIDE_UPPER || fer_is_place(lower), FER_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(zone->side == FER_SIDE_LOWER || fer_is_place(upper), FER_LIMIT_OUT_OF_RANGE);
    shown->side = zone->side;
    shown->guard = zone->guard;
    shown->by_probability = zone->by_probability != 0;
    shown->accept.lower.mm = zone->side == FER_SIDE_UPPER ? from : lower;
    shown->accept.upper.mm = zone->side == FER_SIDE_LOWER ? to : upper;
    shown->empty = as_given || (zone->side == FER_SIDE_BOTH && lower > upper); /* crossed: no step between */
    return FER_OK;
}

fer_status fer_show_zone(const fer_acceptance_zone *zone, const fer_gauge *gauge, fer_acceptance_zone *shown)
{
    const fer_acceptance_zone given = *zone; /* both may be one */
    fer_leave_out_zone(shown);
    return show(&given, gauge, shown);
}

fer_status fer_gauge_zone(fer_length_range limits, const fer_gauge *gauge, fer_guard guard,
                          fer_acceptance_zone *zone)
{
    const fer_length u = {fer_reading_uncertainty(gauge->standard_uncertainty.mm, gauge->resolution.mm)};
    FER_TRY(fer_zone_of(limits, u, guard, zone));
    return fer_show_zone(zone, gauge, zone);
}
