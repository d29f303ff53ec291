/* SPDX-License-Identifier: MIT */
#include "vector_rows.h"

#include <stdlib.h>
#include <string.h>

enum { maximum_dies = 120, maximum_items = 120, cell_count = 6 };

typedef struct {
    fer_joint joint;
    fer_model model;
    fer_uncertainties uncertainties;
    fer_ratio_range range;
    fer_ratio compression, coverage;
    fer_length diameter, die_size, target, setting, widest;
    fer_angle angle;
    int segments;
    fer_press press;
    fer_die die;
    fer_die dies[maximum_dies];
    fer_reading readings[maximum_items];
    fer_calibration_point points[maximum_items];
    fer_length value, standard_uncertainty, inside, outside;
    fer_length_range limits;
    fer_gauge gauge;
    fer_pressure inner_pressure, outer_pressure;
    fer_force force;
    fer_stem stem;
    fer_material material;
    fer_forming_load load;
    fer_ferrule ferrule;
    fer_closing closing, bare;
    fer_closing_uncertainties closing_uncertainties;
    fer_pressure hose_pressure;
    fer_length reduction;
    fer_sample_piece sample[maximum_items];
    fer_study_reading study[maximum_items];
    fer_block_reading blocks[maximum_items];
    fer_opinion opinions[maximum_items];
    size_t list_count; /* of whichever of them the row has */
    fer_study_settings study_settings;
    fer_length tolerance;
    fer_sample_summary summary;
    fer_wanted wanted;
    fer_capability_settings settings;
    fer_ratio content, confidence, power;
    double pieces, degrees_of_freedom, index, expected;
    fer_side side;
    int further;
    size_t count;
    int groups;
    fer_chart_kind chart;
    fer_chart_method method;
    fer_limit_rule rule;
    fer_chart_figures figures;
    fer_charting charting;
    fer_chart_point last, last_of_kind;
    fer_sample_piece piece;
    fer_drift_point checks[maximum_items];
    double shift, run_length;
    int today;
    fer_length limit;
    fer_demand demands[maximum_items];
    fer_offer offers[maximum_items];
    fer_adapter_offer adapters[maximum_items];
    fer_rack_aim rack_aim;
    fer_job jobs[maximum_items];
    fer_change_times times;
    fer_mounted mounted;
    fer_plan plan;
    fer_plan_aim plan_aim;
    fer_plan_stage stages[maximum_items];
    fer_burst bursts[maximum_items];
    fer_burst_aim burst_aim;
    fer_ratio bad, share, variation;
    fer_length deviation;
    fer_measuring measuring;
    fer_pressure mean;
    double raised, weibull_shape;
    fer_strength strength;
    size_t lot;
    fer_length overall, cut, shortest, length, bore, bend_radius, hose_outside, offset, stroke, straight,
        seal_diameter;
    fer_hose_end first, second;
    fer_ratio_range change;
    fer_length_row rows[maximum_items];
    fer_point corners[maximum_items], first_tip, last_tip;
    fer_angle made, ordered;
    fer_ratings ratings;
    fer_proof_factors factors;
    fer_pressure pressure;
    fer_holding holding;
} arguments;

typedef struct {
    fer_length outside, diameter, wall, length, height, radius, reading, clearance, target;
    fer_ratio compression, use;
    fer_length_range window;
    fer_shape shape;
    fer_shares shares;
    fer_budget budget;
    fer_die_choice choice;
    fer_dial dial;
    fer_verdict verdict;
    fer_reading_summary summary;
    fer_calibration calibration;
    fer_tube_change change;
    fer_stem_strength strength;
    fer_hose_squeeze squeeze;
    fer_pressure pressure, yield_strength;
    fer_ratio restraint;
    fer_sample_summary sample;
    fer_normality normality;
    fer_capability capability;
    fer_share_outside share;
    fer_free_tolerance tolerance;
    fer_showing showing;
    fer_plan_choice plan_choice;
    fer_measured_choice measured;
    fer_pieces_needed needed;
    fer_stages_risk risk;
    fer_burst_verdict bursts;
    fer_gauge_study study;
    fer_gauge_check check;
    fer_agreement agreement;
    fer_ratio probability;
    double factor, required;
    fer_chart_constants constants;
    fer_chart_limits chart_limits;
    fer_run_length run_length;
    fer_charting complete, charting;
    fer_chart_point point;
    fer_level_change level_change;
    fer_press_level level;
    fer_rack rack;
    fer_schedule schedule;
    double minimum;
    fer_length overall;
    fer_length_range lengths, length_limits;
    fer_offset_bend bend;
    fer_orientation orientation;
    fer_twist twist;
    fer_proof_pressures pressures;
    fer_force thrust;
    fer_grip grip;
} results;

typedef struct {
    const char *path;
    size_t offset;
    vector_kind kind;
} member_place;

#define IN(path, kind)                                                                                       \
    {                                                                                                        \
#path, offsetof(arguments, path), kind                                                               \
    }
#define OUT(path, kind)                                                                                      \
    {                                                                                                        \
#path, offsetof(results, path), kind                                                                 \
    }

/* A result whose name another function's result has, too. */
#define AS(path, member, kind)                                                                               \
    {                                                                                                        \
        path, offsetof(results, member), kind                                                                \
    }

static const member_place argument_places[] = {
    IN(overall, a_length),
    IN(cut, a_length),
    IN(shortest, a_length),
    IN(length, a_length),
    IN(bore, a_length),
    IN(bend_radius, a_length),
    IN(hose_outside, a_length),
    IN(offset, a_length),
    IN(stroke, a_length),
    IN(straight, a_length),
    IN(seal_diameter, a_length),
    IN(first.cut_off, a_length),
    IN(first.growth, a_length),
    IN(second.cut_off, a_length),
    IN(second.growth, a_length),
    IN(change.lower, a_ratio),
    IN(change.upper, a_ratio),
    IN(first_tip.x, a_length),
    IN(first_tip.y, a_length),
    IN(first_tip.z, a_length),
    IN(last_tip.x, a_length),
    IN(last_tip.y, a_length),
    IN(last_tip.z, a_length),
    IN(made, an_angle),
    IN(ordered, an_angle),
    IN(ratings.hose, a_pressure),
    IN(ratings.first, a_pressure),
    IN(ratings.second, a_pressure),
    IN(ratings.asked, a_pressure),
    IN(ratings.allowed, a_pressure),
    IN(factors.proof_pressure, a_number),
    IN(factors.burst, a_number),
    IN(pressure, a_pressure),
    IN(holding.pressure, a_pressure),
    IN(holding.stem_outside, a_length),
    IN(holding.hose_inside, a_length),
    IN(holding.length, a_length),
    IN(holding.squeeze, a_pressure),
    IN(holding.ferrule_bore, a_length),
    IN(holding.ferrule_fixed, a_flag),
    IN(holding.friction, a_ratio),
    IN(holding.ferrule_outside, a_length),
    IN(holding.yield_strength, a_pressure),
    IN(joint.hose.inside, a_length),
    IN(joint.hose.outside, a_length),
    IN(joint.hose.reinforcement, a_length),
    IN(joint.stem.outside, a_length),
    IN(joint.stem.bore, a_length),
    IN(joint.ferrule.wall, a_length),
    IN(joint.ferrule.outside, a_length),
    IN(joint.ferrule.length, a_length),
    IN(model.basis, a_basis),
    IN(model.flow, a_flow),
    IN(uncertainties.hose_inside.amount, a_length),
    IN(uncertainties.hose_outside.amount, a_length),
    IN(uncertainties.stem_outside.amount, a_length),
    IN(uncertainties.ferrule_wall.amount, a_length),
    IN(uncertainties.diameter.amount, a_length),
    IN(uncertainties.diameter.distribution, a_distribution),
    IN(uncertainties.diameter.degrees_of_freedom, a_number),
    IN(uncertainties.correlations.hose_inside_hose_outside, a_ratio),
    IN(range.lower, a_ratio),
    IN(range.upper, a_ratio),
    IN(compression, a_ratio),
    IN(coverage, a_ratio),
    IN(diameter, a_length),
    IN(die_size, a_length),
    IN(target, a_length),
    IN(setting, a_length),
    IN(widest, a_length),
    IN(angle, an_angle),
    IN(segments, an_int),
    IN(press.graduation, a_length),
    IN(press.correction, a_length),
    IN(press.dial_maximum, a_length),
    IN(press.opening, a_length),
    IN(die.size, a_length),
    IN(press.capacity, a_force),
    IN(force, a_force),
    IN(value, a_length),
    IN(standard_uncertainty, a_length),
    IN(gauge.standard_uncertainty, a_length),
    IN(limits.lower, a_length),
    IN(limits.upper, a_length),
    IN(inside, a_length),
    IN(outside, a_length),
    IN(inner_pressure, a_pressure),
    IN(outer_pressure, a_pressure),
    IN(stem.outside, a_length),
    IN(stem.bore, a_length),
    IN(material.elastic_modulus, a_pressure),
    IN(material.poisson, a_ratio),
    IN(material.yield_strength, a_pressure),
    IN(material.hardening, a_pressure),
    IN(load.restraint, a_ratio),
    IN(ferrule.wall, a_length),
    IN(ferrule.outside, a_length),
    IN(closing.force, a_force),
    IN(closing.diameter, a_length),
    IN(closing.before, a_length),
    IN(closing.after, a_length),
    IN(bare.force, a_force),
    IN(bare.diameter, a_length),
    IN(bare.before, a_length),
    IN(bare.after, a_length),
    {"uncertainties.force", offsetof(arguments, closing_uncertainties.force), a_ratio},
    {"uncertainties.scale", offsetof(arguments, closing_uncertainties.scale), a_ratio},
    {"uncertainties.yield_strength", offsetof(arguments, closing_uncertainties.yield_strength), a_ratio},
    {"uncertainties.diameter", offsetof(arguments, closing_uncertainties.diameter), a_length},
    {"uncertainties.wall", offsetof(arguments, closing_uncertainties.wall), a_length},
    {"uncertainties.length", offsetof(arguments, closing_uncertainties.length), a_length},
    IN(hose_pressure, a_pressure),
    IN(reduction, a_length),
    IN(summary.count, a_size),
    IN(summary.mean, a_length),
    IN(summary.scatter.value, a_length),
    IN(wanted.limits.lower, a_length),
    IN(wanted.limits.upper, a_length),
    IN(wanted.side, a_side),
    IN(settings.measuring.repeatability, a_length),
    IN(settings.measuring.common, a_length),
    {"settings.never_pool", offsetof(arguments, study_settings.never_pool), a_flag},
    IN(tolerance, a_length),
    IN(content, a_ratio),
    IN(confidence, a_ratio),
    IN(power, a_ratio),
    IN(pieces, a_number),
    IN(degrees_of_freedom, a_number),
    IN(index, a_number),
    IN(expected, a_number),
    IN(side, a_side),
    IN(further, an_int),
    IN(count, a_size),
    IN(groups, an_int),
    IN(chart, a_chart),
    IN(method, a_chart_method),
    IN(rule.basis, a_limit_basis),
    IN(rule.false_alarms, a_ratio),
    IN(figures.mean, a_length),
    IN(figures.scatter, a_length),
    IN(figures.pieces, an_int),
    IN(figures.groups, an_int),
    IN(charting.weight, a_number),
    IN(charting.limit, a_number),
    IN(charting.allowance, a_number),
    IN(charting.decision, a_number),
    IN(charting.beyond, a_number),
    IN(charting.two_of_three, a_flag),
    IN(charting.four_of_five, a_flag),
    IN(charting.same_side, an_int),
    IN(charting.rising, an_int),
    IN(last.count, an_int),
    IN(last.mean, a_length),
    IN(last.scatter, a_length),
    IN(last_of_kind.count, an_int),
    IN(last_of_kind.mean, a_length),
    IN(last_of_kind.scatter, a_length),
    IN(piece.diameter, a_length),
    IN(shift, a_number),
    IN(run_length, a_number),
    IN(today, an_int),
    IN(limit, a_length),
    IN(plan.pieces, a_size),
    IN(plan.accept, a_size),
    IN(plan.lot, a_size),
    {"aim.good", offsetof(arguments, plan_aim.good), a_ratio},
    {"aim.producer_risk", offsetof(arguments, plan_aim.producer_risk), a_ratio},
    {"aim.bad", offsetof(arguments, plan_aim.bad), a_ratio},
    {"aim.consumer_risk", offsetof(arguments, plan_aim.consumer_risk), a_ratio},
    {"aim.lot", offsetof(arguments, plan_aim.lot), a_size},
    IN(times.adapter_seconds, an_int),
    IN(times.die_seconds, an_int),
    IN(times.dial_seconds, an_int),
    IN(times.reel_seconds, an_int),
    IN(times.bin_seconds, an_int),
    IN(mounted.die_mounted, a_flag),
    IN(mounted.die, a_size),
    IN(mounted.setting, a_length),
    IN(mounted.reel, an_int),
    IN(mounted.bin, an_int),
    {"aim.price_maximum", offsetof(arguments, rack_aim.price_maximum), a_number},
    {"aim.rank", offsetof(arguments, rack_aim.rank), an_int},
    {"aim.steps", offsetof(arguments, rack_aim.steps), a_number},
    {"aim.working", offsetof(arguments, burst_aim.working), a_pressure},
    {"aim.multiple", offsetof(arguments, burst_aim.multiple), a_number},
    {"aim.share", offsetof(arguments, burst_aim.share), a_ratio},
    {"aim.confidence", offsetof(arguments, burst_aim.confidence), a_ratio},
    IN(bad, a_ratio),
    IN(share, a_ratio),
    IN(variation, a_ratio),
    IN(deviation, a_length),
    IN(measuring.repeatability, a_length),
    IN(mean, a_pressure),
    IN(raised, a_number),
    {"shape", offsetof(arguments, weibull_shape), a_number},
    IN(strength, a_strength),
    IN(lot, a_size),
};

static const member_place result_places[] = {
    OUT(overall, a_length),
    OUT(lengths.lower, a_length),
    OUT(lengths.upper, a_length),
    AS("limits.lower", length_limits.lower, a_length),
    AS("limits.upper", length_limits.upper, a_length),
    OUT(bend.angle, an_angle),
    OUT(bend.run, a_length),
    OUT(bend.length, a_length),
    OUT(orientation.length, a_length),
    OUT(orientation.angle, an_angle),
    OUT(orientation.straight_minimum, a_length),
    OUT(twist.angle, an_angle),
    OUT(twist.per_metre, an_angle),
    OUT(pressures.working, a_pressure),
    OUT(pressures.proof_pressure, a_pressure),
    OUT(pressures.burst, a_pressure),
    OUT(thrust, a_force),
    OUT(grip.thrust, a_force),
    OUT(grip.friction_needed, a_ratio),
    AS("grip.friction_grip.value", grip.friction_grip.value, a_force),
    AS("grip.margin.value", grip.margin.value, a_ratio),
    AS("grip.squeeze_maximum.value", grip.squeeze_maximum.value, a_pressure),
    AS("grip.unsealed.value", grip.unsealed.value, a_force),
    OUT(outside, a_length),
    OUT(diameter, a_length),
    OUT(wall, a_length),
    OUT(length, a_length),
    OUT(height, a_length),
    OUT(radius, a_length),
    OUT(reading, a_length),
    OUT(clearance, a_length),
    OUT(target, a_length),
    OUT(compression, a_ratio),
    OUT(window.lower, a_length),
    OUT(window.upper, a_length),
    OUT(shape.lobe_height, a_length),
    OUT(shape.gap, a_length),
    OUT(shape.edge_radius, a_length),
    OUT(shape.arcs_diameter, a_length),
    OUT(shape.chords_diameter, a_length),
    OUT(shape.tape_diameter, a_length),
    OUT(shares.inside, a_ratio),
    OUT(shares.below, a_ratio),
    OUT(shares.above, a_ratio),
    OUT(budget.standard_uncertainty, a_ratio),
    OUT(budget.expanded_uncertainty, a_ratio),
    OUT(choice.found, an_int),
    OUT(choice.index, a_size),
    OUT(choice.offset, a_length),
    OUT(choice.buy.lower, a_length),
    OUT(choice.buy.upper, a_length),
    OUT(choice.nearest_index, a_size),
    OUT(choice.nearest_distance, a_length),
    OUT(dial.exact, a_length),
    OUT(dial.setting, a_length),
    OUT(dial.remainder, a_length),
    OUT(use, a_ratio),
    OUT(verdict.conforming, a_ratio),
    OUT(verdict.value, a_length),
    OUT(summary.mean, a_length),
    OUT(summary.scatter.value, a_length),
    OUT(summary.standard_uncertainty, a_length),
    OUT(calibration.intercept, a_length),
    OUT(calibration.intercept_uncertainty, a_length),
    OUT(calibration.slope, a_ratio),
    OUT(calibration.slope_uncertainty, a_ratio),
    OUT(calibration.scatter, a_length),
    OUT(change.hoop_inside, a_pressure),
    OUT(change.hoop_outside, a_pressure),
    OUT(strength.full_yield_pressure, a_pressure),
    OUT(squeeze.pressure, a_pressure),
    OUT(squeeze.standard_uncertainty, a_pressure),
    OUT(squeeze.restraint, a_ratio),
    OUT(squeeze.stem_maximum, a_pressure),
    OUT(squeeze.yield_strength, a_pressure),
    OUT(pressure, a_pressure),
    OUT(yield_strength, a_pressure),
    OUT(restraint, a_ratio),
    OUT(normality.shapiro, a_number),
    OUT(normality.shapiro_p, a_ratio),
    OUT(normality.anderson, a_number),
    OUT(capability.nearer.value, a_number),
    OUT(capability.nearer.lower, a_number),
    OUT(capability.nearer.upper, a_number),
    OUT(capability.text_lower, a_number),
    OUT(capability.text_upper, a_number),
    OUT(share.below, a_ratio),
    OUT(share.above, a_ratio),
    OUT(share.outside_upper, a_ratio),
    OUT(share.next_below, a_ratio),
    OUT(share.next_above, a_ratio),
    OUT(tolerance.needed, a_size),
    OUT(tolerance.rank, a_size),
    OUT(showing.pieces, a_size),
    OUT(showing.power, a_ratio),
    OUT(showing.required, a_number),
    {"choice.plan.pieces", offsetof(results, plan_choice.plan.pieces), a_size},
    {"choice.plan.accept", offsetof(results, plan_choice.plan.accept), a_size},
    {"choice.producer_risk", offsetof(results, plan_choice.producer_risk), a_ratio},
    {"choice.consumer_risk", offsetof(results, plan_choice.consumer_risk), a_ratio},
    OUT(measured.plan.pieces, a_size),
    OUT(measured.plan.factor, a_number),
    OUT(measured.pieces_exact, a_number),
    OUT(needed.pieces, a_size),
    OUT(needed.reached, a_ratio),
    OUT(risk.accepted, a_ratio),
    OUT(risk.pieces, a_number),
    {"verdict.bound", offsetof(results, bursts.bound), a_pressure},
    {"verdict.confidence_reached", offsetof(results, bursts.confidence_reached), a_ratio},
    {"verdict.share_shown", offsetof(results, bursts.share_shown), a_ratio},
    {"verdict.more", offsetof(results, bursts.more), a_size},
    OUT(study.interaction_p, a_ratio),
    OUT(study.repeatability.value, a_length),
    OUT(study.gauge.value, a_length),
    OUT(study.gauge.lower, a_length),
    OUT(study.gauge.upper, a_length),
    OUT(study.parts.value, a_length),
    OUT(study.parts.lower, a_length),
    OUT(study.parts.upper, a_length),
    OUT(check.slope, a_ratio),
    OUT(check.intercept, a_length),
    OUT(check.scatter, a_length),
    OUT(check.explained, a_ratio),
    OUT(agreement.kappa, a_number),
    OUT(agreement.kappa_error, a_number),
    OUT(agreement.bad_passed, a_ratio),
    OUT(agreement.bad_passed_upper, a_ratio),
    OUT(probability, a_ratio),
    OUT(factor, a_number),
    OUT(required, a_number),
    OUT(constants.range_mean, a_number),
    OUT(constants.range_deviation, a_number),
    OUT(constants.deviation_mean, a_number),
    OUT(constants.means_by_range, a_number),
    OUT(constants.means_by_deviation, a_number),
    OUT(constants.range_lower, a_number),
    OUT(constants.range_upper, a_number),
    OUT(constants.deviation_lower, a_number),
    OUT(constants.deviation_upper, a_number),
    OUT(constants.range_root_mean_square, a_number),
    OUT(constants.range_degrees, a_number),
    OUT(schedule.change_seconds, an_int),
    OUT(schedule.end_seconds, an_int),
    OUT(schedule.late_seconds, an_int),
    OUT(schedule.end_bound, an_int),
    OUT(schedule.late_bound, an_int),
    OUT(schedule.left_out, a_size),
    OUT(rack.price, a_number),
    OUT(rack.reached, a_ratio),
    OUT(rack.left_out, a_size),
    OUT(minimum, a_number),
    AS("limits.scatter.lower", chart_limits.scatter.lower, a_length),
    AS("limits.scatter.upper", chart_limits.scatter.upper, a_length),
    AS("limits.factor", chart_limits.factor, a_number),
    AS("length.mean", run_length.mean, a_number),
    OUT(complete.limit, a_number),
    OUT(complete.decision, a_number),
    OUT(charting.weight, a_number),
    OUT(point.score, a_number),
    AS("change.last_before", level_change.last_before, a_size),
    AS("change.probability", level_change.probability, a_ratio),
    AS("change.t_statistic", level_change.t_statistic, a_number),
    OUT(level.level, a_length),
    OUT(level.walk_per_root_day, a_length),
    OUT(level.crimp_deviation, a_length),
    OUT(level.weight, a_number),
};

/* The summary of a sample has the name of that of readings. */
#define OF_SAMPLE(member, kind)                                                                              \
    {                                                                                                        \
        "summary." #member, offsetof(results, sample.member), kind                                           \
    }
static const member_place sample_places[] = {
    OF_SAMPLE(scatter.value, a_length),  OF_SAMPLE(within.value, a_length),
    OF_SAMPLE(within_degrees, a_number), OF_SAMPLE(groups_p.value, a_ratio),
    OF_SAMPLE(groups, a_size),
};

static void require(int condition, const char *word)
{
    if (!condition) {
        vector_refuse("not understood", word);
    }
}

static const member_place *find_place(const member_place *places, size_t count, const char *path)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(places[i].path, path) == 0) {
            return &places[i];
        }
    }
    vector_refuse("a name that is not known here", path);
}

/* ---- values --------------------------------------------------------------------------------------------- */

static int word_number(const char *word, const char *const words[], int count)
{
    for (int i = 0; i < count; i++) {
        if (strcmp(word, words[i]) == 0) {
            return i;
        }
    }
    vector_refuse("not an enumerator", word);
}

double vector_number(const char *text, vector_kind kind)
{
    fer_length length;
    fer_ratio ratio;
    fer_angle angle;
    fer_force force;
    fer_pressure pressure;
    size_t stop;
    switch (kind) {
    case a_length:
        require(fer_parse_length(text, strlen(text), &length, &stop) == FER_OK, text);
        return length.mm;
    case a_ratio:
        require(fer_parse_ratio(text, strlen(text), &ratio, &stop) == FER_OK, text);
        return ratio.fraction;
    case an_angle:
        require(fer_parse_angle(text, strlen(text), &angle, &stop) == FER_OK, text);
        return angle.rad;
    case a_force:
        require(fer_parse_force(text, strlen(text), &force, &stop) == FER_OK, text);
        return force.newton;
    case a_pressure:
        require(fer_parse_pressure(text, strlen(text), &pressure, &stop) == FER_OK, text);
        return pressure.mpa;
    default:
        return atof(text);
    }
}

static int is_whole(vector_kind kind)
{
    return kind == an_int || kind == a_basis || kind == a_flow || kind == a_distribution || kind == a_side ||
           kind == a_strength || kind == a_flag || kind == a_chart || kind == a_limit_basis ||
           kind == a_chart_method;
}

static int whole_number(const char *text, vector_kind kind)
{
    static const char *const bases[] = {"wall", "fitted wall", "area", "soft wall"};
    static const char *const flows[] = {"none", "ends_fixed", "ends_free"};
    static const char *const sides[] = {"both", "lower", "upper"};
    static const char *const charts[] = {"means by range", "means by deviation", "singles by range",
                                         "singles by deviation"};
    static const char *const bases_of_limits[] = {"plain", "expected", "assured"};
    static const char *const methods[] = {"EWMA", "CUSUM"};
    static const char *const strengths[] = {"weibull", "normal", "lognormal", "any"};
    static const char *const distributions[] = {"normal", "rectangular", "triangular"};
    switch (kind) {
    case a_basis:
        return word_number(text, bases, 4);
    case a_flow:
        return word_number(text, flows, 3);
    case a_distribution:
        return word_number(text, distributions, 3);
    case a_flag:
        return strcmp(text, "true") == 0;
    case a_side:
        return word_number(text, sides, 3);
    case a_chart:
        return word_number(text, charts, 4);
    case a_limit_basis:
        return word_number(text, bases_of_limits, 3);
    case a_chart_method:
        return word_number(text, methods, 2);
    case a_strength:
        return word_number(text, strengths, 4);
    default:
        return atoi(text);
    }
}

static void store(void *base, const member_place *place, const char *text)
{
    char *at = (char *)base + place->offset;
    if (place->kind == a_size) {
        const size_t number = (size_t)atoi(text);
        memcpy(at, &number, sizeof number);
        return;
    }
    if (is_whole(place->kind)) {
        const int number = whole_number(text, place->kind);
        memcpy(at, &number, sizeof number);
        return;
    }
    const double number = vector_number(text, place->kind);
    memcpy(at, &number, sizeof number);
}

static double load(const void *base, const member_place *place)
{
    const char *at = (const char *)base + place->offset;
    double number;
    int whole;
    size_t size;
    if (place->kind == an_int) {
        memcpy(&whole, at, sizeof whole);
        return whole;
    }
    if (place->kind == a_size) {
        memcpy(&size, at, sizeof size);
        return (double)size;
    }
    memcpy(&number, at, sizeof number);
    return number;
}

/* ---- one line ------------------------------------------------------------------------------------------- */

#define ITEM(path, list, member, kind)                                                                       \
    {                                                                                                        \
        path, offsetof(arguments, list[0].member), kind, sizeof(((arguments *)0)->list[0])                   \
    }

/* Members of lists: `pieces.N.diameter=…`; the path is written without the number. */
static const struct {
    const char *path;
    size_t offset;
    vector_kind kind;
    size_t size; /* of an item */
} item_places[] = {
    ITEM("dies.size", dies, size, a_length),
    ITEM("dies.reach", dies, reach, a_length),
    ITEM("dies.adapter", dies, adapter, an_int),
    ITEM("jobs.target", jobs, target, a_length),
    ITEM("jobs.reel", jobs, reel, an_int),
    ITEM("jobs.bin", jobs, bin, an_int),
    ITEM("jobs.work_seconds", jobs, work_seconds, an_int),
    ITEM("jobs.due_seconds", jobs, due_seconds, an_int),
    ITEM("demands.target", demands, target, a_length),
    ITEM("demands.weight", demands, weight, a_number),
    ITEM("demands.margin", demands, margin, a_length),
    ITEM("demands.lobe_maximum", demands, lobe_maximum, a_length),
    ITEM("offers.die.size", offers, die.size, a_length),
    ITEM("offers.die.reach", offers, die.reach, a_length),
    ITEM("offers.die.adapter", offers, die.adapter, an_int),
    ITEM("offers.price", offers, price, a_number),
    ITEM("adapters.adapter", adapters, adapter, an_int),
    ITEM("adapters.price", adapters, price, a_number),
    ITEM("points.set", points, set, a_length),
    ITEM("points.measured", points, measured, a_length),
    ITEM("readings.diameter", readings, diameter, a_length),
    ITEM("pieces.diameter", sample, diameter, a_length),
    ITEM("pieces.group", sample, group, an_int),
    ITEM("checks.day", checks, day, an_int),
    ITEM("checks.deviation", checks, deviation, a_length),
    ITEM("readings.part", study, part, an_int),
    ITEM("readings.person", study, person, an_int),
    ITEM("readings.diameter", study, diameter, a_length),
    ITEM("readings.block", blocks, block, a_length),
    ITEM("readings.reading", blocks, reading, a_length),
    ITEM("opinions.piece", opinions, piece, an_int),
    ITEM("opinions.person", opinions, person, an_int),
    ITEM("opinions.said", opinions, said, an_int),
    ITEM("opinions.truth", opinions, truth, an_int),
    ITEM("stages.accept", stages, accept, an_int),
    ITEM("stages.refuse", stages, refuse, an_int),
    ITEM("bursts.pressure", bursts, pressure, a_pressure),
    ITEM("bursts.stopped", bursts, stopped, a_flag),
    ITEM("rows.bore_maximum", rows, bore_maximum, a_length),
    ITEM("rows.length_maximum", rows, length_maximum, a_length),
    ITEM("rows.plus", rows, plus, a_length),
    ITEM("rows.minus", rows, minus, a_length),
    ITEM("rows.plus_share", rows, plus_share, a_ratio),
    ITEM("rows.minus_share", rows, minus_share, a_ratio),
    ITEM("points.x", corners, x, a_length),
    ITEM("points.y", corners, y, a_length),
    ITEM("points.z", corners, z, a_length),
};

/* Whether it is a member of an item; then it is stored, in each list that has such a member. */
static int read_item(const char *path, const char *text, arguments *in)
{
    const char *number = strchr(path, '.'), *member = number ? strchr(number + 1, '.') : NULL;
    const size_t index = number ? (size_t)atoi(number + 1) : 0;
    int found = 0;
    for (size_t i = 0; member && i < sizeof item_places / sizeof *item_places; i++) {
        const size_t list = (size_t)(number - path);
        if (strncmp(path, item_places[i].path, list) == 0 &&
            strcmp(member, item_places[i].path + list) == 0) {
            const member_place place = {path, item_places[i].offset + index * item_places[i].size,
                                        item_places[i].kind};
            require(index < maximum_items, path);
            store(in, &place, text);
            in->list_count = index + 1;
            found = 1;
        }
    }
    return found;
}

static void read_arguments(char *cell, arguments *in)
{
    memset(in, 0, sizeof *in);
    for (char *item = cell; item;) {
        char *next = strstr(item, "; ");
        if (next) {
            *next = '\0';
            next += 2;
        }
        char *equals = strchr(item, '=');
        require(equals != NULL, item);
        *equals = '\0';
        if (!read_item(item, equals + 1, in)) {
            store(in, find_place(argument_places, sizeof argument_places / sizeof *argument_places, item),
                  equals + 1);
        }
        item = next;
    }
}

static fer_status call_burst_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "judge_bursts") == 0) {
        return fer_judge_bursts(in->bursts, in->list_count, &in->burst_aim, in->strength, &out->bursts);
    }
    if (strcmp(function, "find_bursts_needed") == 0) {
        return fer_find_bursts_needed(&in->burst_aim, in->mean, in->variation, in->power, &out->needed);
    }
    if (strcmp(function, "find_bursts_without_failure") == 0) {
        return fer_find_bursts_without_failure(&in->burst_aim, in->raised, in->weibull_shape, &out->needed);
    }
    vector_refuse("a function that is not known here", function);
}

static fer_status call_plan_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "find_acceptance") == 0) {
        return fer_find_acceptance(&in->plan, in->bad, &out->probability);
    }
    if (strcmp(function, "choose_plan") == 0) {
        return fer_choose_plan(&in->plan_aim, &out->plan_choice);
    }
    if (strcmp(function, "find_clean_pieces") == 0) {
        return fer_find_clean_pieces(in->share, in->confidence, in->lot, &out->needed);
    }
    if (strcmp(function, "find_stages_risk") == 0) {
        return fer_find_stages_risk(in->stages, in->list_count, in->lot, in->bad, &out->risk);
    }
    if (strcmp(function, "choose_measured_plan") == 0) {
        return fer_choose_measured_plan(&in->plan_aim, in->deviation, in->measuring, &out->measured);
    }
    return call_burst_functions(function, in, out);
}

static fer_status call_tolerance_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "find_tolerance_factor") == 0) {
        return fer_find_tolerance_factor(in->pieces, in->degrees_of_freedom, in->content, in->confidence,
                                         in->side, &out->factor);
    }
    if (strcmp(function, "find_free_tolerance") == 0) {
        return fer_find_free_tolerance(in->count, in->content, in->confidence, in->side, &out->tolerance);
    }
    if (strcmp(function, "find_index_to_show") == 0) {
        return fer_find_index_to_show(in->count, in->index, in->confidence, &out->required);
    }
    if (strcmp(function, "find_pieces_to_show") == 0) {
        return fer_find_pieces_to_show(in->index, in->confidence, in->expected, in->power, &out->showing);
    }
    return call_plan_functions(function, in, out);
}

enum { word_count = 100000 };

/* Lists of a rack end before their first item without a size or a target. */
static fer_status call_shop_functions(const char *function, const arguments *in, results *out)
{
    static fer_work work[word_count];
    size_t dies = 0, jobs = 0, demands = 0, offers = 0, found;
    size_t purchases[maximum_items];
    double prices[maximum_items];
    fer_turn turns[maximum_items];
    for (; in->dies[dies].size.mm != 0.0; dies++) {
    }
    for (; in->jobs[jobs].target.mm != 0.0; jobs++) {
    }
    for (; in->demands[demands].target.mm != 0.0; demands++) {
    }
    for (; in->offers[offers].die.size.mm != 0.0; offers++) {
    }
    if (strcmp(function, "choose_rack") == 0) {
        return fer_choose_rack(in->dies, dies, in->demands, demands, in->offers, offers, in->adapters, 1,
                               in->rack_aim, work, word_count, purchases, maximum_items, &found, &out->rack);
    }
    if (strcmp(function, "plan_schedule") == 0 || strcmp(function, "time_schedule") == 0) {
        const fer_schedule_aim aim = {0, in->rack_aim.steps};
        return (function[0] == 'p' ? fer_plan_schedule : fer_time_schedule)(
            in->jobs, jobs, &in->press, in->dies, dies, &in->times, in->mounted, aim, work, word_count, turns,
            maximum_items, &found, &out->schedule);
    }
    if (strcmp(function, "find_demand_prices") == 0) {
        return fer_find_demand_prices(in->dies, dies, in->demands, demands, in->offers, offers, in->segments,
                                      work, word_count, prices, maximum_items, &found, &out->minimum);
    }
    return call_tolerance_functions(function, in, out);
}

static fer_status call_hose_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "find_hose_pressure") == 0) {
        return fer_find_hose_pressure(&in->ferrule, &in->closing, &in->material, in->bare,
                                      in->closing_uncertainties, &out->squeeze);
    }
    if (strcmp(function, "find_effective_yield_strength") == 0) {
        return fer_find_effective_yield_strength(&in->ferrule, &in->bare, &in->material,
                                                 &out->yield_strength);
    }
    if (strcmp(function, "find_restraint") == 0) {
        return fer_find_restraint(&in->ferrule, &in->closing, &in->material, in->hose_pressure,
                                  &out->restraint);
    }
    if (strcmp(function, "hose_pressure_from_bore") == 0) {
        return fer_hose_pressure_from_bore(&in->stem, in->reduction, &in->material, in->load, &out->pressure);
    }
    return call_shop_functions(function, in, out);
}

static fer_status call_metal_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "load_tube") == 0) {
        return fer_load_tube(in->inside, in->outside, in->inner_pressure, in->outer_pressure, &in->material,
                             in->load, &out->change);
    }
    if (strcmp(function, "find_stem_strength") == 0) {
        return fer_find_stem_strength(&in->stem, &in->material, in->load, &out->strength);
    }
    return call_hose_functions(function, in, out);
}

static fer_status call_chart_functions(const char *function, const arguments *in, results *out)
{
    fer_ratio places[maximum_items];
    size_t found;
    if (strcmp(function, "find_chart_constants") == 0) {
        return fer_find_chart_constants((int)in->pieces, in->groups, &out->constants);
    }
    if (strcmp(function, "find_limits_from_figures") == 0) {
        return fer_find_limits_from_figures(&in->figures, in->chart, in->rule, &out->chart_limits);
    }
    if (strcmp(function, "next_point") == 0) {
        return fer_next_point(&in->piece, in->last, in->last_of_kind, in->charting, &out->point);
    }
    if (strcmp(function, "find_run_length") == 0) {
        return fer_find_run_length(&in->charting, in->shift, &out->run_length);
    }
    if (strcmp(function, "find_charting_limit") == 0) {
        return fer_find_charting_limit(in->run_length, &in->charting, &out->complete);
    }
    if (strcmp(function, "choose_charting") == 0) {
        return fer_choose_charting(in->run_length, in->shift, in->method, &out->charting);
    }
    if (strcmp(function, "find_change") == 0) {
        return fer_find_change(in->sample, in->list_count, &out->level_change, places, maximum_items, &found);
    }
    if (strcmp(function, "track_press") == 0) {
        return fer_track_press(in->checks, in->list_count, in->today, in->limit, in->coverage, in->gauge,
                               &out->level);
    }
    return call_metal_functions(function, in, out);
}

static fer_status call_gauge_functions(const char *function, const arguments *in, results *out)
{
    const fer_block blocks = {{0}, {0}, {0}, {0}};
    if (strcmp(function, "study_gauge") == 0) {
        return fer_study_gauge(in->study, in->list_count, in->tolerance, in->confidence, in->study_settings,
                               &out->study);
    }
    if (strcmp(function, "calibrate_gauge") == 0) {
        return fer_calibrate_gauge(in->blocks, in->list_count, in->confidence, blocks, &out->check);
    }
    if (strcmp(function, "find_agreement") == 0) {
        return fer_find_agreement(in->opinions, in->list_count, in->confidence, &out->agreement);
    }
    return call_chart_functions(function, in, out);
}

static fer_status call_sample_functions(const char *function, const arguments *in, results *out)
{
    fer_length sorted[maximum_items];
    size_t found;
    if (strcmp(function, "summarise_sample") == 0) {
        return fer_summarise_sample(in->sample, in->list_count, &out->sample);
    }
    if (strcmp(function, "test_normality") == 0) {
        return fer_test_normality(in->sample, in->list_count, in->settings.measuring, &out->normality, sorted,
                                  maximum_items, &found);
    }
    if (strcmp(function, "find_capability") == 0) {
        return fer_find_capability(&in->summary, &in->wanted, in->confidence, in->settings, &out->capability);
    }
    if (strcmp(function, "find_share_outside") == 0) {
        return fer_find_share_outside(&in->summary, &in->wanted, in->confidence, in->settings.measuring,
                                      &out->share);
    }
    if (strcmp(function, "find_rest_inside") == 0) {
        return fer_find_rest_inside(&in->summary, &in->wanted, in->further, in->settings.measuring,
                                    &out->probability);
    }
    return call_gauge_functions(function, in, out);
}

static fer_status call_measuring_functions(const char *function, const arguments *in, results *out)
{
    fer_guard usual;
    const fer_process unknown = {{0.0}, {0.0}};
    fer_marks no_marks;
    memset(&usual, 0, sizeof usual);
    memset(&no_marks, 0, sizeof no_marks);
    if (strcmp(function, "judge") == 0) {
        return fer_judge(in->value, in->standard_uncertainty, in->limits, usual, unknown, &out->verdict);
    }
    if (strcmp(function, "summarise_readings") == 0) {
        return fer_summarise_readings(in->readings, in->list_count, &in->gauge, no_marks, &out->summary);
    }
    if (strcmp(function, "fit_calibration") == 0) {
        return fer_fit_calibration(in->points, in->list_count, in->gauge, &out->calibration);
    }
    return call_sample_functions(function, in, out);
}

static fer_status call_shape_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "lobe_height") == 0) {
        return fer_lobe_height(in->diameter, in->die_size, in->segments, &out->height);
    }
    if (strcmp(function, "crimp_shape") == 0) {
        return fer_crimp_shape(in->diameter, in->die_size, in->segments, &out->shape);
    }
    if (strcmp(function, "arc_radius") == 0) {
        return fer_arc_radius(in->diameter, in->die_size, in->segments, in->angle, &out->radius);
    }
    if (strcmp(function, "jaws_reading") == 0) {
        return fer_jaws_reading(in->diameter, in->die_size, in->segments, in->angle, &out->reading);
    }
    return call_measuring_functions(function, in, out);
}

static fer_status call_press_functions(const char *function, const arguments *in, results *out)
{
    const fer_die_needs nothing_else = {0};
    if (strcmp(function, "choose_die") == 0) {
        return fer_choose_die(in->dies, in->list_count, in->target, nothing_else, &out->choice);
    }
    if (strcmp(function, "dial_setting") == 0) {
        return fer_dial_setting(&in->press, &in->die, in->target, &out->dial);
    }
    if (strcmp(function, "dialled_diameter") == 0) {
        return fer_dialled_diameter(&in->press, &in->die, in->setting, &out->diameter);
    }
    if (strcmp(function, "capacity_use") == 0) {
        return fer_capacity_use(&in->press, in->force, &out->use);
    }
    if (strcmp(function, "opening_clearance") == 0) {
        return fer_opening_clearance(&in->press, &in->die, in->widest, &out->clearance);
    }
    return call_shape_functions(function, in, out);
}

static fer_status call_joint_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "crimp_diameter") == 0) {
        return fer_crimp_diameter(&in->joint, in->compression, in->model, &out->diameter);
    }
    if (strcmp(function, "compression") == 0) {
        return fer_compression(&in->joint, in->diameter, in->model, &out->compression);
    }
    if (strcmp(function, "crimped_wall") == 0) {
        return fer_crimped_wall(&in->joint, in->diameter, in->model, &out->wall);
    }
    if (strcmp(function, "crimped_length") == 0) {
        return fer_crimped_length(&in->joint, in->diameter, in->model, &out->length);
    }
    if (strcmp(function, "fitted_outside") == 0) {
        return fer_fitted_outside(&in->joint, &out->outside);
    }
    if (strcmp(function, "crimp_window") == 0) {
        return fer_crimp_window(&in->joint, in->range, in->model, &out->window);
    }
    if (strcmp(function, "conforming_share") == 0) {
        return fer_conforming_share(&in->joint, &in->uncertainties, in->range, in->diameter, &out->shares);
    }
    if (strcmp(function, "best_target") == 0) {
        return fer_best_target(&in->joint, &in->uncertainties, in->range, &out->target, &out->shares);
    }
    if (strcmp(function, "uncertainty_budget") == 0) {
        return fer_uncertainty_budget(&in->joint, &in->uncertainties, in->diameter, in->coverage, in->model,
                                      &out->budget);
    }
    return call_press_functions(function, in, out);
}

static fer_status call_grip_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "find_twist") == 0) {
        return fer_find_twist(in->made, in->ordered, in->length, &out->twist);
    }
    if (strcmp(function, "find_proof_pressure") == 0) {
        return fer_find_proof_pressure(&in->ratings, in->factors, &out->pressures);
    }
    if (strcmp(function, "end_thrust") == 0) {
        return fer_end_thrust(in->pressure, in->seal_diameter, &out->thrust);
    }
    if (strcmp(function, "find_grip") == 0) {
        return fer_find_grip(&in->holding, &out->grip);
    }
    return call_joint_functions(function, in, out);
}

static fer_status call_bend_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "bend_length") == 0) {
        return fer_bend_length(in->bend_radius, in->hose_outside, in->angle, &out->length);
    }
    if (strcmp(function, "find_offset_bend") == 0) {
        return fer_find_offset_bend(in->bend_radius, in->hose_outside, in->offset, &out->bend);
    }
    if (strcmp(function, "moving_bend_length") == 0) {
        return fer_moving_bend_length(in->bend_radius, in->hose_outside, in->stroke, in->straight,
                                      &out->length);
    }
    if (strcmp(function, "find_orientation") == 0) {
        return fer_find_orientation(in->corners, in->list_count, in->bend_radius, in->hose_outside,
                                    &in->first_tip, &in->last_tip, &out->orientation);
    }
    return call_grip_functions(function, in, out);
}

static fer_status call_hoseline_functions(const char *function, const arguments *in, results *out)
{
    if (strcmp(function, "cut_length") == 0) {
        return fer_cut_length(in->overall, &in->first, &in->second, &out->length);
    }
    if (strcmp(function, "overall_length") == 0) {
        return fer_overall_length(in->cut, &in->first, &in->second, &out->overall);
    }
    if (strcmp(function, "length_under_pressure") == 0) {
        return fer_length_under_pressure(in->length, in->change, &out->lengths);
    }
    if (strcmp(function, "length_before_pressure") == 0) {
        return fer_length_before_pressure(in->shortest, in->change, &out->length);
    }
    if (strcmp(function, "find_length_limits") == 0) {
        return fer_find_length_limits(in->rows, in->list_count, in->bore, in->length, &out->length_limits);
    }
    return call_bend_functions(function, in, out);
}

/* ---- the row -------------------------------------------------------------------------------------------- */

/* Splits a line of CSV in place; a quoted cell may hold commas. */
static void split_cells(char *line, char *cells[cell_count])
{
    line[strcspn(line, "\r\n")] = '\0';
    for (int i = 0; i < cell_count; i++) {
        require(line != NULL, "too few cells");
        const int quoted = *line == '"';
        cells[i] = line + quoted;
        char *end = quoted ? strchr(line + 1, '"') : strchr(line, ',');
        if (end) {
            *end = '\0';
        }
        line = end ? end + 1 + quoted : NULL;
    }
}

void vector_run(char *line, vector_row *row)
{
    char *cells[cell_count];
    arguments in;
    results out;
    split_cells(line, cells);
    memset(&out, 0x55, sizeof out);
    const member_place *place =
        strcmp(cells[0], "summarise_sample") == 0
            ? find_place(sample_places, sizeof sample_places / sizeof *sample_places, cells[2])
            : find_place(result_places, sizeof result_places / sizeof *result_places, cells[2]);
    read_arguments(cells[1], &in);
    row->function = cells[0];
    row->result = cells[2];
    row->expected = cells[3];
    row->tolerance = cells[4];
    row->kind = place->kind;
    row->status = call_hoseline_functions(cells[0], &in, &out);
    row->actual = load(&out, place);
}
