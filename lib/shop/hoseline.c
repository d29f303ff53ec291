/* SPDX-License-Identifier: MIT */
/* Lengths of an assembly and their limits, bends, pressures, thrust and grip, verdicts on length and orientation.
 * Method: sums in double-double arithmetic, rounded once; closed formulas.
 * Formulas: include/ferrule/hoseline.h; docs/hoseline.md. */
#include <ferrule/hoseline.h>

#include "base/acceptance_private.h"
#include "base/value_private.h"
#include "shop/hoseline_private.h"
#include "base/numeric/pair.h"
#include "base/numeric/pi.h"

/* ---- length ------------------------------------------------------------------------------------------------- */

static fer_status check_end(const fer_hose_end *end)
{
    FER_TRY(fer_check_length(end->cut_off, FER_CUT_OFF_MISSING, FER_CUT_OFF_OUT_OF_RANGE));
    FER_REQUIRE(fabs(end->growth.mm) <= 100.0, FER_HOSE_GROWTH_OUT_OF_RANGE);
    return FER_OK;
}

/* What both ends add to the hose. */
static fer_status add_ends(const fer_hose_end *first, const fer_hose_end *second, fer_pair *sum)
{
    FER_REQUIRE(first && second, FER_ARGUMENT_MISSING);
    FER_TRY(check_end(first));
    FER_TRY(check_end(second));
    *sum = fer_pair_add(fer_pair_sum(first->cut_off.mm, first->growth.mm),
                        fer_pair_sum(second->cut_off.mm, second->growth.mm));
    return FER_OK;
}

static fer_status find_cut_length(fer_length overall, const fer_hose_end *first, const fer_hose_end *second,
                                  fer_length *length)
{
    fer_pair ends;
    FER_TRY(add_ends(first, second, &ends));
    FER_TRY(fer_check_length(overall, FER_OVERALL_LENGTH_MISSING, FER_OVERALL_LENGTH_OUT_OF_RANGE));
    const double cut = fer_pair_value(fer_pair_subtract(fer_pair_of(overall.mm), ends));
    FER_REQUIRE(cut >= FER_LENGTH_MINIMUM_MM, FER_CUT_LENGTH_NOT_POSITIVE);
    length->mm = cut;
    return FER_OK;
}

fer_status fer_cut_length(fer_length overall, const fer_hose_end *first, const fer_hose_end *second,
                          fer_length *length)
{
    FER_REQUIRE(length, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*length);
    return find_cut_length(overall, first, second, length);
}

static fer_status check_hose_length(fer_length length)
{
    return fer_check_length(length, FER_CUT_LENGTH_MISSING, FER_CUT_LENGTH_OUT_OF_RANGE);
}

static fer_status find_overall_length(fer_length cut, const fer_hose_end *first, const fer_hose_end *second,
                                      fer_length *overall)
{
    fer_pair ends;
    FER_TRY(add_ends(first, second, &ends));
    FER_TRY(check_hose_length(cut));
    const fer_length sum = {fer_pair_value(fer_pair_add(fer_pair_of(cut.mm), ends))};
    FER_REQUIRE(fer_is_length(sum), FER_OVERALL_LENGTH_OUT_OF_RANGE);
    *overall = sum;
    return FER_OK;
}

fer_status fer_overall_length(fer_length cut, const fer_hose_end *first, const fer_hose_end *second,
                              fer_length *overall)
{
    FER_REQUIRE(overall, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*overall);
    return find_overall_length(cut, first, second, overall);
}

static fer_status check_change(fer_length length, fer_ratio_range change)
{
    FER_TRY(check_hose_length(length));
    FER_REQUIRE(fabs(change.lower.fraction) <= 0.5 && fabs(change.upper.fraction) <= 0.5,
                FER_LENGTH_CHANGE_OUT_OF_RANGE);
    FER_REQUIRE(change.lower.fraction <= change.upper.fraction, FER_LENGTH_CHANGE_WRONG_ORDER);
    return FER_OK;
}

fer_status fer_length_under_pressure(fer_length length, fer_ratio_range change, fer_length_range *lengths)
{
    FER_REQUIRE(lengths, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*lengths);
    FER_TRY(check_change(length, change));
    lengths->lower.mm = length.mm * (1.0 + change.lower.fraction);
    lengths->upper.mm = length.mm * (1.0 + change.upper.fraction);
    return FER_OK;
}

fer_status fer_length_before_pressure(fer_length shortest, fer_ratio_range change, fer_length *length)
{
    FER_REQUIRE(length, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*length);
    FER_TRY(check_change(shortest, change));
    length->mm = shortest.mm / (1.0 + fmin(change.lower.fraction, 0.0));
    return FER_OK;
}

/* ---- tolerance of the length -------------------------------------------------------------------------------- */

static int is_tolerance(fer_length amount, fer_ratio share)
{
    return fer_is_deviation(amount.mm) && share.fraction >= 0.0 && share.fraction <= 1.0;
}

static fer_status check_length_row(const fer_length_row *row)
{
    FER_REQUIRE(fer_is_length_or_none(row->bore_maximum) && fer_is_length_or_none(row->length_maximum) &&
                    is_tolerance(row->plus, row->plus_share) && is_tolerance(row->minus, row->minus_share),
                FER_LENGTH_ROW_OUT_OF_RANGE);
    FER_REQUIRE(row->plus.mm == 0.0 || row->plus_share.fraction == 0.0, FER_LENGTH_ROW_TWO_TOLERANCES);
    FER_REQUIRE(row->minus.mm == 0.0 || row->minus_share.fraction == 0.0, FER_LENGTH_ROW_TWO_TOLERANCES);
    return FER_OK;
}

static int is_row_for(const fer_length_row *row, fer_length bore, fer_length length)
{
    return (row->bore_maximum.mm == 0.0 || bore.mm <= row->bore_maximum.mm) &&
           (row->length_maximum.mm == 0.0 || length.mm <= row->length_maximum.mm);
}

static fer_status limits_by(const fer_length_row *row, double length, fer_length_range *limits)
{
    const double lower = length - (row->minus.mm + row->minus_share.fraction * length);
    FER_REQUIRE(lower > 0.0, FER_LENGTH_LIMITS_NOT_POSITIVE);
    limits->lower.mm = lower;
    limits->upper.mm = length + (row->plus.mm + row->plus_share.fraction * length);
    return FER_OK;
}

static fer_status find_length_limits(const fer_length_row *rows, size_t count, fer_length bore,
                                     fer_length length, fer_length_range *limits)
{
    const fer_length_row *row = NULL;
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_REQUIRE(rows, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_length(bore, FER_HOSE_BORE_MISSING, FER_HOSE_BORE_OUT_OF_RANGE));
    FER_TRY(fer_check_length(length, FER_OVERALL_LENGTH_MISSING, FER_OVERALL_LENGTH_OUT_OF_RANGE));
    for (size_t i = 0; i < count; i++) { /* an error in a row counts, whether it is needed or not */
        FER_TRY(check_length_row(&rows[i]));
        if (!row && is_row_for(&rows[i], bore, length)) {
            row = &rows[i];
        }
    }
    FER_REQUIRE(row, FER_LENGTH_ROW_MISSING);
    return limits_by(row, length.mm, limits);
}

fer_status fer_find_length_limits(const fer_length_row *rows, size_t count, fer_length bore,
                                  fer_length length, fer_length_range *limits)
{
    FER_REQUIRE(limits, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*limits);
    return find_length_limits(rows, count, bore, length, limits);
}

/* ---- bends -------------------------------------------------------------------------------------------------- */

fer_status fer_check_bend(fer_length bend_radius, fer_length hose_outside)
{
    FER_TRY(fer_check_length(bend_radius, FER_BEND_RADIUS_MISSING, FER_BEND_RADIUS_OUT_OF_RANGE));
    return fer_check_length(hose_outside, FER_HOSE_OUTSIDE_MISSING, FER_HOSE_OUTSIDE_OUT_OF_RANGE);
}

fer_status fer_bend_length(fer_length bend_radius, fer_length hose_outside, fer_angle angle,
                           fer_length *length)
{
    FER_REQUIRE(length, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*length);
    FER_TRY(fer_check_bend(bend_radius, hose_outside));
    FER_REQUIRE(angle.rad >= 0.0 && angle.rad <= 2.0 * pi, FER_BEND_ANGLE_OUT_OF_RANGE);
    length->mm = fer_centre_radius(bend_radius, hose_outside) * angle.rad;
    return FER_OK;
}

fer_status fer_find_offset_bend(fer_length bend_radius, fer_length hose_outside, fer_length offset,
                                fer_offset_bend *bend)
{
    FER_REQUIRE(bend, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*bend);
    FER_TRY(fer_check_bend(bend_radius, hose_outside));
    FER_TRY(fer_check_length(offset, FER_BEND_OFFSET_MISSING, FER_BEND_OFFSET_OUT_OF_RANGE));
    const double radius = fer_centre_radius(bend_radius, hose_outside);
    const double left = 4.0 * radius - offset.mm; /* with the offset the squares of both halves of a chord */
    FER_REQUIRE(left >= 0.0, FER_BEND_OFFSET_OUT_OF_RANGE);
    bend->angle.rad = 2.0 * atan2(sqrt(offset.mm), sqrt(left));
    bend->run.mm = sqrt(offset.mm) * sqrt(left);
    bend->length.mm = 2.0 * radius * bend->angle.rad;
    return FER_OK;
}

fer_status fer_moving_bend_length(fer_length bend_radius, fer_length hose_outside, fer_length stroke,
                                  fer_length straight, fer_length *length)
{
    FER_REQUIRE(length, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*length);
    FER_TRY(fer_check_bend(bend_radius, hose_outside));
    FER_REQUIRE(fer_is_deviation(stroke.mm), FER_STROKE_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_deviation(straight.mm), FER_STRAIGHT_OUT_OF_RANGE);
    length->mm = pi * fer_centre_radius(bend_radius, hose_outside) + 2.0 * straight.mm + stroke.mm / 2.0;
    return FER_OK;
}

/* ---- pressures ---------------------------------------------------------------------------------------------- */

static fer_status check_rating(fer_pressure rating)
{
    FER_REQUIRE(rating.mpa != 0.0, FER_RATING_MISSING);
    FER_REQUIRE(rating.mpa >= 0.001 && rating.mpa <= 1000.0, FER_RATING_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_ratings(const fer_ratings *ratings)
{
    const double asked = ratings->asked.mpa, allowed = ratings->allowed.mpa;
    FER_TRY(check_rating(ratings->hose));
    FER_TRY(check_rating(ratings->first));
    FER_TRY(check_rating(ratings->second));
    FER_REQUIRE(asked == 0.0 || (asked >= 0.001 && asked <= 1000.0), FER_RATING_OUT_OF_RANGE);
    FER_REQUIRE(allowed == 0.0 || (allowed >= 0.001 && allowed <= 4000.0), FER_RATING_OUT_OF_RANGE);
    return FER_OK;
}

/* A factor, or the usual one where it is not given. */
static fer_status take_factor(double given, double highest, double usual, double *factor)
{
    FER_REQUIRE(given == 0.0 || (given >= 1.0 && given <= highest), FER_PROOF_FACTOR_OUT_OF_RANGE);
    *factor = given == 0.0 ? usual : given;
    return FER_OK;
}

static fer_status find_proof_pressure(const fer_ratings *ratings, fer_proof_factors factors,
                                      fer_proof_pressures *pressures)
{
    double times, burst;
    FER_REQUIRE(ratings, FER_ARGUMENT_MISSING);
    FER_TRY(check_ratings(ratings));
    FER_TRY(take_factor(factors.proof_pressure, 10.0, FER_PROOF_FACTOR_USUAL, &times));
    FER_TRY(take_factor(factors.burst, 100.0, FER_BURST_FACTOR_USUAL, &burst));
    const double rated = fmin(ratings->hose.mpa, fmin(ratings->first.mpa, ratings->second.mpa));
    const double working = ratings->asked.mpa == 0.0 ? rated : ratings->asked.mpa;
    FER_REQUIRE(working <= rated, FER_RATING_BELOW_ASKED);
    FER_REQUIRE(ratings->allowed.mpa == 0.0 || times * working <= ratings->allowed.mpa,
                FER_PROOF_ABOVE_ALLOWED);
    pressures->working.mpa = working;
    pressures->proof_pressure.mpa = times * working;
    pressures->burst.mpa = burst * working;
    return FER_OK;
}

/* Whatever a call on pressure says, pressure follows. */
static fer_cautions cautions_of_pressure(void)
{
    fer_cautions cautions = fer_stage_cautions(FER_STAGE_PRESSURE);
    cautions.bits |= UINT64_C(1) << FER_CAUTION_APPROVED_PARTS_ONLY |
                     UINT64_C(1) << FER_CAUTION_LAW_AND_LICENCE | UINT64_C(1) << FER_CAUTION_SCRAP_NOT_REPAIR;
    return cautions;
}

fer_status fer_find_proof_pressure(const fer_ratings *ratings, fer_proof_factors factors,
                                   fer_proof_pressures *pressures)
{
    FER_REQUIRE(pressures, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT_FROM(fer_proof_pressures, *pressures, working, burst);
    pressures->cautions.bits = 0;
    FER_TRY(find_proof_pressure(ratings, factors, pressures));
    pressures->cautions = cautions_of_pressure();
    return FER_OK;
}

/* ---- thrust and grip ---------------------------------------------------------------------------------------- */

static fer_force thrust_of(fer_pressure pressure, double diameter)
{
    const fer_force force = {pressure.mpa * (pi / 4.0 * diameter * diameter)};
    return force;
}

fer_status fer_end_thrust(fer_pressure pressure, fer_length seal_diameter, fer_force *thrust)
{
    FER_REQUIRE(thrust, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*thrust);
    FER_REQUIRE(pressure.mpa >= 0.0 && pressure.mpa <= 4000.0, FER_LINE_PRESSURE_OUT_OF_RANGE);
    FER_TRY(fer_check_length(seal_diameter, FER_SEAL_DIAMETER_MISSING, FER_SEAL_DIAMETER_OUT_OF_RANGE));
    *thrust = thrust_of(pressure, seal_diameter.mm);
    return FER_OK;
}

/* Of a pressure that is needed, up to a highest one. */
static fer_status check_pressure(fer_pressure pressure, double highest, fer_status missing,
                                 fer_status out_of_range)
{
    FER_REQUIRE(pressure.mpa != 0.0, missing);
    FER_REQUIRE(pressure.mpa >= 0.001 && pressure.mpa <= highest, out_of_range);
    return FER_OK;
}

/* What may be left out: 0, or from lowest to highest. */
static int is_left_out_or_within(double x, double lowest, double highest)
{
    return x == 0.0 || (x >= lowest && x <= highest);
}

/* A diameter that may be left out, and is above another one where it is given. */
static fer_status check_above_or_none(fer_length x, fer_length other, fer_status out_of_range,
                                      fer_status not_above)
{
    FER_REQUIRE(fer_is_length_or_none(x), out_of_range);
    FER_REQUIRE(x.mm == 0.0 || x.mm > other.mm, not_above);
    return FER_OK;
}

static fer_status check_holding(const fer_holding *h)
{
    FER_TRY(check_pressure(h->pressure, 4000.0, FER_LINE_PRESSURE_MISSING, FER_LINE_PRESSURE_OUT_OF_RANGE));
    FER_TRY(fer_check_length(h->stem_outside, FER_STEM_OUTSIDE_MISSING, FER_STEM_OUTSIDE_OUT_OF_RANGE));
    FER_REQUIRE(fer_is_length_or_none(h->hose_inside), FER_HOSE_INSIDE_OUT_OF_RANGE);
    FER_TRY(fer_check_length(h->length, FER_SQUEEZE_LENGTH_MISSING, FER_SQUEEZE_LENGTH_OUT_OF_RANGE));
    FER_TRY(check_pressure(h->squeeze, 1000.0, FER_SQUEEZE_MISSING, FER_SQUEEZE_OUT_OF_RANGE));
    FER_TRY(check_above_or_none(h->ferrule_bore, h->stem_outside, FER_FERRULE_BORE_OUT_OF_RANGE,
                                FER_FERRULE_BORE_NOT_ABOVE_STEM));
    FER_REQUIRE(is_left_out_or_within(h->friction.fraction, 0.001, 2.0), FER_FRICTION_OUT_OF_RANGE);
    FER_TRY(check_above_or_none(h->ferrule_outside, h->ferrule_bore, FER_FERRULE_OUTSIDE_OUT_OF_RANGE,
                                FER_FERRULE_OUTSIDE_NOT_ABOVE_BORE));
    FER_REQUIRE(is_left_out_or_within(h->yield_strength.mpa, 0.001, 10000.0),
                FER_MATERIAL_YIELD_STRENGTH_OUT_OF_RANGE);
    return FER_OK;
}

/* Writes a value that was found, or why it was not. */
#define FOUND_OR_NOT(found, why, unit, number)                                                               \
    do {                                                                                                     \
        (found).status = (why);                                                                              \
        if ((found).status == FER_OK) {                                                                      \
            (found).value.unit = (number);                                                                   \
        } else {                                                                                             \
            FER_LEAVE_OUT((found).value);                                                                    \
        }                                                                                                    \
    } while (0)

static fer_status missing_for_squeeze(const fer_holding *h)
{
    FER_REQUIRE(h->ferrule_bore.mm > 0.0, FER_FERRULE_BORE_MISSING);
    FER_REQUIRE(h->ferrule_outside.mm > 0.0, FER_FERRULE_OUTSIDE_MISSING);
    FER_REQUIRE(h->yield_strength.mpa > 0.0, FER_MATERIAL_YIELD_STRENGTH_MISSING);
    return FER_OK;
}

/* ln(b/a), also of a thin ferrule. */
static double log_of_ratio(fer_length outside, fer_length bore)
{
    return log1p((outside.mm - bore.mm) / bore.mm);
}

static void find_squeeze_maximum(const fer_holding *h, fer_grip *grip)
{
    FOUND_OR_NOT(grip->squeeze_maximum, missing_for_squeeze(h), mpa,
                 2.0 / sqrt(3.0) * h->yield_strength.mpa * log_of_ratio(h->ferrule_outside, h->ferrule_bore));
}

/* The grips, with the squeeze that the ferrule keeps up at most. */
static void find_grips(const fer_holding *h, double squeeze, fer_grip *grip)
{
    const fer_status friction = h->friction.fraction > 0.0 ? FER_OK : FER_FRICTION_MISSING;
    const fer_status most = grip->squeeze_maximum.status == FER_OK ? friction : grip->squeeze_maximum.status;
    const double by_squeeze = h->friction.fraction * grip->area.mm2;
    FOUND_OR_NOT(grip->friction_grip, friction, newton, squeeze * by_squeeze);
    FOUND_OR_NOT(grip->margin, friction, fraction, squeeze * by_squeeze / grip->thrust.newton);
    FOUND_OR_NOT(grip->grip_maximum, most, newton, grip->squeeze_maximum.value.mpa * by_squeeze);
    grip->below_thrust =
        grip->friction_grip.value.newton < grip->thrust.newton; /* NaN where not found: not below */
    grip->cannot_hold = grip->grip_maximum.value.newton < grip->thrust.newton;
}

static void find_grip(const fer_holding *h, fer_grip *grip)
{
    const double bore = h->ferrule_bore.mm;
    const double face = h->stem_outside.mm + (h->ferrule_fixed ? bore : 0.0);
    grip->thrust = thrust_of(h->pressure, fmax(h->stem_outside.mm, h->hose_inside.mm));
    grip->area.mm2 = pi * face * h->length.mm;
    FOUND_OR_NOT(grip->unsealed, bore > 0.0 ? FER_OK : FER_FERRULE_BORE_MISSING, newton,
                 thrust_of(h->pressure, fmax(bore, h->hose_inside.mm)).newton);
    find_squeeze_maximum(h, grip);
    const double squeeze = fmin(h->squeeze.mpa, grip->squeeze_maximum.value.mpa); /* fmin passes NaN by */
    grip->friction_needed.fraction = grip->thrust.newton / (squeeze * grip->area.mm2);
    find_grips(h, squeeze, grip);
}

static void leave_out_grip(fer_grip *grip, fer_status why)
{
    FER_LEAVE_OUT_FROM(fer_grip, *grip, thrust, friction_needed);
    FER_NOT_FOUND(grip->unsealed, why);
    FER_NOT_FOUND(grip->friction_grip, why);
    FER_NOT_FOUND(grip->margin, why);
    FER_NOT_FOUND(grip->squeeze_maximum, why);
    FER_NOT_FOUND(grip->grip_maximum, why);
}

fer_status fer_find_grip(const fer_holding *holding, fer_grip *grip)
{
    FER_REQUIRE(grip, FER_ARGUMENT_MISSING);
    FER_EMPTY(*grip);
    const fer_status status = holding ? check_holding(holding) : FER_ARGUMENT_MISSING;
    if (status != FER_OK) {
        leave_out_grip(grip, status);
        return status;
    }
    find_grip(holding, grip);
    grip->cautions = cautions_of_pressure();
    return FER_OK;
}

/* ---- verdicts ------------------------------------------------------------------------------------------------ */

/* A verdict as an outcome. A measurement whose uncertainty nobody knows decides nothing, unless it is to do without. */
static fer_status judge(double value, double standard_uncertainty, fer_length_range limits, fer_guard guard,
                        fer_outcome *outcome)
{
    const fer_process nothing_known = {{0.0}, {0.0}};
    fer_verdict verdict;
    FER_TRY(fer_judge(fer_mm(value), fer_mm(standard_uncertainty), limits, guard, nothing_known, &verdict));
    *outcome = verdict.decision == FER_DECISION_ACCEPT   ? FER_OUTCOME_PASSED
               : verdict.decision == FER_DECISION_REJECT ? FER_OUTCOME_FAILED
                                                         : FER_OUTCOME_UNDECIDED;
    if (standard_uncertainty == 0.0 && !guard.without) {
        *outcome = FER_OUTCOME_UNDECIDED;
    }
    return FER_OK;
}

fer_status fer_check_assembly_length(fer_length measured, fer_length standard_uncertainty,
                                     fer_length_range limits, fer_guard guard, fer_outcome *outcome)
{
    FER_REQUIRE(outcome, FER_ARGUMENT_MISSING);
    *outcome = FER_OUTCOME_NOT_DONE;
    FER_TRY(fer_check_length(measured, FER_OVERALL_LENGTH_MISSING, FER_OVERALL_LENGTH_OUT_OF_RANGE));
    return judge(measured.mm, standard_uncertainty.mm, limits, guard, outcome);
}

/* Angle a minus angle b, the smaller way round: above -pi to pi. */
static double turn_between(fer_angle a, fer_angle b)
{
    const double turn = remainder(a.rad - b.rad, 2.0 * pi);
    return turn <= -pi ? turn + 2.0 * pi : turn;
}

static fer_status check_elbow_angles(fer_angle a, fer_angle b)
{
    FER_REQUIRE(fabs(a.rad) <= 10.0 && fabs(b.rad) <= 10.0, FER_ELBOW_ANGLE_OUT_OF_RANGE);
    return FER_OK;
}

fer_status fer_check_orientation(fer_angle measured, fer_angle standard_uncertainty, fer_angle ordered,
                                 fer_angle tolerance, fer_guard guard, fer_outcome *outcome)
{
    FER_REQUIRE(outcome, FER_ARGUMENT_MISSING);
    *outcome = FER_OUTCOME_NOT_DONE;
    FER_TRY(check_elbow_angles(measured, ordered));
    FER_REQUIRE(standard_uncertainty.rad >= 0.0 && standard_uncertainty.rad <= 3.0,
                FER_ELBOW_TOLERANCE_OUT_OF_RANGE);
    FER_REQUIRE(tolerance.rad != 0.0, FER_ELBOW_TOLERANCE_MISSING);
    FER_REQUIRE(tolerance.rad >= 0.0001 && tolerance.rad <= 3.0, FER_ELBOW_TOLERANCE_OUT_OF_RANGE);
    const fer_length_range limits = {{-tolerance.rad},
                                     {tolerance.rad}}; /* a verdict is about numbers of any unit */
    return judge(turn_between(measured, ordered), standard_uncertainty.rad, limits, guard, outcome);
}

fer_status fer_find_twist(fer_angle made, fer_angle ordered, fer_length length, fer_twist *twist)
{
    FER_REQUIRE(twist, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*twist);
    FER_TRY(check_elbow_angles(made, ordered));
    FER_TRY(check_hose_length(length));
    twist->angle.rad = turn_between(made, ordered);
    twist->per_metre.rad = twist->angle.rad / (length.mm / 1000.0);
    return FER_OK;
}
