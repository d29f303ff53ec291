/* SPDX-License-Identifier: MIT */
#include <ferrule/setup.h>

#include "limit_margin.h"
#include "numeric/check.h"
#include "order_target.h"

#include <string.h>

/* Yield below which a set-up is remarked as uncertain. */
static const double yield_wanted = 0.95;

/* ---- what the order asks for -------------------------------------------------------------------------- */

static fer_ratio_range range_of(const fer_order *order)
{
    const fer_ratio_range usual = {{FER_COMPRESSION_USUAL_LEAST}, {FER_COMPRESSION_USUAL_MOST}};
    const int none_given = order->range.least.fraction == 0.0 && order->range.most.fraction == 0.0;
    return none_given ? usual : order->range;
}

static fer_ratio aim_of(const fer_order *order, fer_ratio_range range)
{
    const fer_ratio middle = {0.5 * range.least.fraction + 0.5 * range.most.fraction};
    return order->aim.fraction == 0.0 ? middle : order->aim;
}

/* A metal is given as soon as any of its figures is. */
static int is_given(const fer_material *metal)
{
    return !(metal->elastic_modulus.mpa == 0.0 && metal->poisson.fraction == 0.0 && metal->yield.mpa == 0.0 &&
             metal->hardening.mpa == 0.0);
}

static fer_status check_metals(const fer_order *order)
{
    const double restraint = order->load.restraint.fraction, pressure = order->load.hose_pressure.mpa;
    if (is_given(&order->ferrule_metal)) {
        FER_TRY(fer_check_material(&order->ferrule_metal));
    }
    if (is_given(&order->stem_metal)) {
        FER_TRY(fer_check_material(&order->stem_metal));
    }
    FER_REQUIRE(restraint >= 0.0 && restraint <= 1.0, FER_RESTRAINT_OUT_OF_RANGE);
    FER_REQUIRE(pressure >= 0.0 && fer_is_finite(pressure), FER_HOSE_PRESSURE_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_length_or_none(order->least_bore), FER_BORE_LIMIT_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_order(const fer_order *order)
{
    const fer_ratio_range range = range_of(order);
    const double aim = aim_of(order, range).fraction;
    FER_TRY(fer_check_joint(&order->joint));
    FER_REQUIRE(fer_is_length_or_none(order->published), FER_PUBLISHED_DIAMETER_OUT_OF_RANGE);
    FER_REQUIRE(order->tolerance.mm >= 0.0 && order->tolerance.mm <= FER_LENGTH_MOST_MM,
                FER_TOLERANCE_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_length_or_none(order->widest), FER_WIDEST_DIAMETER_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_finite(range.least.fraction) && fer_is_finite(range.most.fraction) &&
                    fer_is_finite(aim),
                FER_COMPRESSION_NOT_A_NUMBER);
    FER_REQUIRE(range.least.fraction < range.most.fraction, FER_COMPRESSION_RANGE_WRONG_ORDER);
    FER_REQUIRE(range.least.fraction <= aim && aim <= range.most.fraction, FER_COMPRESSION_AIM_OUTSIDE_RANGE);
    FER_REQUIRE((unsigned)order->applies_to <= FER_APPLIES_TO_MEAN, FER_APPLIES_TO_UNKNOWN);
    FER_TRY(check_metals(order));
    return fer_check_spread(&order->spread);
}

fer_status fer_order_target(const fer_order *order, fer_length *target)
{
    if (order->published.mm > 0.0) {
        *target = order->published;
        return FER_OK;
    }
    return fer_crimp_diameter(&order->joint, aim_of(order, range_of(order)), order->model, target);
}

static fer_status find_target(const fer_order *order, fer_setup *setup)
{
    setup->range = range_of(order);
    setup->source = order->published.mm > 0.0 ? FER_TARGET_PUBLISHED : FER_TARGET_COMPUTED;
    return fer_order_target(order, &setup->target);
}

/* ---- figures of the joint ----------------------------------------------------------------------------- */

static void find_window_and_limits(const fer_order *order, fer_setup *setup)
{
    setup->window.status = fer_crimp_window(&order->joint, setup->range, order->model, &setup->window.value);
    setup->limits = setup->window;
    if (order->tolerance.mm > 0.0) {
        setup->limits.value.least.mm = setup->target.mm - order->tolerance.mm;
        setup->limits.value.most.mm = setup->target.mm + order->tolerance.mm;
        setup->limits.status = FER_OK;
    } else if (setup->source == FER_TARGET_PUBLISHED) {
        setup->limits.value.least.mm = setup->limits.value.most.mm = NAN;
        setup->limits.status = FER_TOLERANCE_MISSING;
    }
}

/* Standard uncertainty of an end of the window by the joint's measurements: that of the compression there, apart from
 * the crimp diameter's own part, by its slope against the diameter. */
static fer_status find_end_uncertainty(const fer_order *order, const fer_found_range *window, fer_length end,
                                       fer_length *uncertainty)
{
    const fer_uncertainty exact = {{0.0}, FER_DISTRIBUTION_NORMAL, 0.0};
    const fer_ratio usual_coverage = {0.95};
    fer_spread joint = order->spread;
    fer_compression_slopes slopes;
    fer_budget budget;
    uncertainty->mm = NAN;
    FER_TRY(window->status);
    joint.diameter = exact;
    FER_TRY(fer_uncertainty_budget(&order->joint, &joint, end, usual_coverage, order->model, &budget));
    FER_REQUIRE(budget.standard_uncertainty.fraction > 0.0, FER_SPREAD_EMPTY);
    FER_TRY(fer_find_compression_slopes(&order->joint, end, order->model, &slopes));
    uncertainty->mm = budget.standard_uncertainty.fraction / fabs(slopes.diameter.per_mm);
    return FER_OK;
}

static void find_window_uncertainty(const fer_order *order, fer_setup *setup)
{
    fer_found_length *lower = &setup->window_lower_uncertainty, *upper = &setup->window_upper_uncertainty;
    lower->status = find_end_uncertainty(order, &setup->window, setup->window.value.least, &lower->value);
    upper->status = find_end_uncertainty(order, &setup->window, setup->window.value.most, &upper->value);
}

static void find_compressions(const fer_order *order, fer_setup *setup)
{
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE}, free = {FER_BASIS_WALL, FER_FLOW_FREE},
                    held = {FER_BASIS_WALL, FER_FLOW_HELD};
    setup->plain.status = fer_compression(&order->joint, setup->target, plain, &setup->plain.value);
    setup->free.status = fer_compression(&order->joint, setup->target, free, &setup->free.value);
    setup->held.status = fer_compression(&order->joint, setup->target, held, &setup->held.value);
}

static void find_uncertainty(const fer_order *order, fer_setup *setup)
{
    const fer_ratio usual_coverage = {0.95};
    fer_budget budget;
    setup->uncertainty.status = fer_uncertainty_budget(&order->joint, &order->spread, setup->target,
                                                       usual_coverage, order->model, &budget);
    setup->uncertainty.value = budget.standard_uncertainty;
    if (budget.standard_uncertainty.fraction == 0.0) {
        setup->uncertainty.status = FER_SPREAD_EMPTY;
        setup->uncertainty.value.fraction = NAN;
    }
}

static void find_yield(const fer_order *order, fer_setup *setup)
{
    const int plain = order->model.basis == FER_BASIS_WALL && order->model.flow == FER_FLOW_NONE;
    fer_yield yield_there;
    setup->yield.status =
        fer_crimp_yield(&order->joint, &order->spread, setup->range, setup->target, &setup->yield.value);
    setup->best_target.status =
        fer_best_target(&order->joint, &order->spread, setup->range, &setup->best_target.value, &yield_there);
    if (!plain) {
        const fer_yield none = {{NAN}, {NAN}, {NAN}};
        setup->yield.status = setup->best_target.status = FER_MODEL_NOT_PLAIN;
        setup->yield.value = none;
        setup->best_target.value.mm = NAN;
    }
}

/* ---- figures of die and press --------------------------------------------------------------------------- */

static fer_status find_clearance(const fer_order *order, const fer_press *press, const fer_die *die,
                                 fer_length *clearance)
{
    const fer_length widest = order->widest.mm > 0.0 ? order->widest : order->joint.ferrule.outside;
    clearance->mm = NAN;
    FER_REQUIRE(press->opening.mm > 0.0, FER_PRESS_OPENING_MISSING);
    FER_REQUIRE(widest.mm > 0.0, FER_WIDEST_DIAMETER_MISSING);
    return fer_opening_clearance(press, die, widest, clearance);
}

/* Without a die none of the figures exists that belong to it. */
static void leave_out_die_figures(fer_setup *setup)
{
    const fer_dial no_dial = {{NAN}, {NAN}, {NAN}, {NAN}};
    const fer_shape no_shape = {{NAN}, {NAN}, {NAN}, {NAN}, {NAN}, {NAN}, {NAN}, {NAN}, {NAN}};
    setup->dial.value = no_dial;
    setup->shape.value = no_shape;
    setup->clearance.value.mm = NAN;
    setup->equivalent.value.fraction = NAN;
    setup->dial.status = setup->shape.status = setup->clearance.status = FER_DIE_NONE_NEAR_ENOUGH;
    setup->equivalent.status = FER_DIE_NONE_NEAR_ENOUGH;
}

/* The diameter at which the dies stand when they shape the ferrule: the target where nothing better is known. */
static fer_length shaping_diameter(const fer_setup *setup, const fer_die *die)
{
    const fer_length *diameter = setup->closing.status == FER_OK ? &setup->closing.value : &setup->target;
    return diameter->mm < die->size.mm ? die->size : *diameter;
}

static void find_shape(const fer_order *order, const fer_die *die, fer_setup *setup)
{
    fer_equivalent_crimp equivalent;
    setup->shape.status =
        fer_crimp_shape(shaping_diameter(setup, die), die->size, setup->segments, &setup->shape.value);
    setup->equivalent.status = fer_find_equivalent_crimp(&order->joint, setup->target, die->size,
                                                         setup->segments, order->model, &equivalent);
    setup->equivalent.value = equivalent.compression;
}

static fer_status find_die_figures(const fer_order *order, const fer_press *press, const fer_die *dies,
                                   size_t count, fer_setup *setup)
{
    const fer_die_needs needs = {order->adapter_mounted, order->joint.ferrule.length};
    FER_TRY(fer_choose_die(dies, count, setup->target, needs, &setup->die));
    if (!setup->die.found) {
        leave_out_die_figures(setup);
        return FER_OK;
    }
    const fer_die *die = &setup->die.die;
    setup->dial.status = fer_dial_setting(press, die, setup->target, &setup->dial.value);
    find_shape(order, die, setup);
    setup->clearance.status = find_clearance(order, press, die, &setup->clearance.value);
    return FER_OK;
}

/* ---- figures of the metal -------------------------------------------------------------------------------- */

static fer_status form(const fer_order *order, const fer_setup *setup, fer_length *closing,
                       fer_forming *forming)
{
    closing->mm = forming->springback.mm = NAN;
    FER_REQUIRE(is_given(&order->ferrule_metal), FER_MATERIAL_MISSING);
    FER_TRY(fer_closing_diameter(&order->joint.ferrule, setup->target, &order->ferrule_metal, order->load,
                                 closing));
    return fer_form_ferrule(&order->joint.ferrule, *closing, &order->ferrule_metal, order->load, forming);
}

/* Force on the ferrule as long as it has become. */
static fer_status find_force(const fer_order *order, const fer_setup *setup, const fer_forming *forming,
                             fer_force *total)
{
    fer_die_force force;
    total->newton = NAN;
    FER_TRY(setup->springback.status);
    const fer_length length = {order->joint.ferrule.length.mm * forming->stretch.fraction};
    FER_TRY(fer_find_die_force(forming->pressure, setup->closing.value, length, setup->segments, &force));
    *total = force.total;
    return FER_OK;
}

static void find_springback_and_force(const fer_order *order, fer_setup *setup)
{
    fer_forming forming;
    setup->closing.status = setup->springback.status = form(order, setup, &setup->closing.value, &forming);
    setup->springback.value = forming.springback;
    setup->force.status = find_force(order, setup, &forming, &setup->force.value);
}

static void find_capacity_use(const fer_press *press, fer_setup *setup)
{
    setup->capacity_use.status = setup->force.status;
    setup->capacity_use.value.fraction = NAN;
    if (setup->force.status == FER_OK) {
        setup->capacity_use.status = fer_capacity_use(press, setup->force.value, &setup->capacity_use.value);
    }
}

static fer_status find_bore_reduction(const fer_order *order, fer_length *reduction)
{
    fer_stem_change change;
    reduction->mm = NAN;
    FER_REQUIRE(order->joint.stem.bore.mm > 0.0, FER_STEM_BORE_MISSING);
    FER_REQUIRE(is_given(&order->stem_metal), FER_MATERIAL_MISSING);
    FER_REQUIRE(order->load.hose_pressure.mpa > 0.0, FER_HOSE_PRESSURE_MISSING);
    FER_TRY(fer_load_stem(&order->joint.stem, &order->stem_metal, order->load, &change));
    *reduction = change.bore_reduction;
    return FER_OK;
}

static fer_status find_bore_margin(const fer_order *order, const fer_setup *setup, fer_length *margin)
{
    margin->mm = NAN;
    FER_TRY(setup->bore_reduction.status);
    FER_REQUIRE(order->least_bore.mm > 0.0, FER_BORE_LIMIT_MISSING);
    return fer_bore_margin(&order->joint.stem, setup->bore_reduction.value, order->least_bore, margin);
}

static void find_bore(const fer_order *order, fer_setup *setup)
{
    setup->bore_reduction.status = find_bore_reduction(order, &setup->bore_reduction.value);
    setup->bore_margin.status = find_bore_margin(order, setup, &setup->bore_margin.value);
}

/* ---- remarks ------------------------------------------------------------------------------------------ */

/* A figure that could not be found is NaN, and no comparison with it makes a remark. */

static void remark_if(fer_setup *setup, int applies, fer_remark remark)
{
    if (applies) {
        setup->remarks.bits |= UINT32_C(1) << remark;
    }
}

static int is_outside(fer_length value, const fer_found_range *range)
{
    return value.mm < range->value.least.mm || value.mm > range->value.most.mm;
}

/* The hose on the stem does not go into the ferrule. */
static int is_too_narrow(const fer_joint *joint)
{
    fer_length fitted;
    (void)fer_fitted_outside(joint, &fitted); /* the joint has been checked */
    return joint->ferrule.outside.mm > 0.0 &&
           joint->ferrule.outside.mm - 2.0 * joint->ferrule.wall.mm < fitted.mm;
}

static void remark_on_joint(const fer_order *order, fer_setup *setup)
{
    const int plain = order->model.flow == FER_FLOW_NONE;
    remark_if(setup, setup->source == FER_TARGET_PUBLISHED && is_outside(setup->target, &setup->window),
              FER_REMARK_PUBLISHED_OUTSIDE_WINDOW);
    remark_if(setup, is_too_narrow(&order->joint), FER_REMARK_FERRULE_TOO_NARROW);
    remark_if(setup, setup->plain.status != FER_OK, FER_REMARK_TARGET_NOT_TOUCHING);
    remark_if(setup, plain && setup->free.value.fraction > setup->range.most.fraction,
              FER_REMARK_WALL_GROWTH_LEAVES_RANGE);
    remark_if(setup, setup->yield.value.inside.fraction < yield_wanted, FER_REMARK_UNCERTAIN);
    remark_if(setup, order->joint.ferrule.outside.mm == 0.0, FER_REMARK_FERRULE_OUTSIDE_NOT_KNOWN);
    remark_if(setup, setup->limits.status == FER_TOLERANCE_MISSING, FER_REMARK_NO_TOLERANCE);
}

static void remark_on_die(const fer_order *order, fer_setup *setup)
{
    const fer_die_choice *choice = &setup->die;
    const double tolerance = order->tolerance.mm;
    remark_if(setup, !choice->found, FER_REMARK_NO_DIE);
    if (!choice->found) {
        return;
    }
    remark_if(setup, choice->adapter_change && choice->die.adapter > 0, FER_REMARK_ADAPTER_GOES_IN);
    remark_if(setup, choice->adapter_change && choice->die.adapter == 0, FER_REMARK_ADAPTER_COMES_OUT);
    remark_if(setup, setup->dial.status != FER_OK, FER_REMARK_DIAL_OUT_OF_RANGE);
    remark_if(setup, is_outside(setup->dial.value.expected, &setup->limits),
              FER_REMARK_REMAINDER_ABOVE_TOLERANCE);
    remark_if(setup, tolerance > 0.0 && 2.0 * setup->shape.value.lobe_height.mm > tolerance,
              FER_REMARK_LOBE_ABOVE_TOLERANCE);
    remark_if(setup, setup->clearance.value.mm < 0.0, FER_REMARK_DOES_NOT_PASS);
    remark_if(setup, setup->clearance.status != FER_OK, FER_REMARK_OPENING_NOT_KNOWN);
    remark_if(setup, order->joint.ferrule.length.mm > 0.0 && choice->die.length.mm == 0.0,
              FER_REMARK_DIE_LENGTH_NOT_KNOWN);
}

static int stem_yields(const fer_order *order)
{
    fer_stem_strength strength;
    return fer_find_stem_strength(&order->joint.stem, &order->stem_metal, order->load, &strength) == FER_OK &&
           order->load.hose_pressure.mpa > strength.first_yield.mpa;
}

static void remark_on_metal(const fer_order *order, fer_setup *setup)
{
    remark_if(setup, setup->capacity_use.value.fraction > 1.0, FER_REMARK_FORCE_ABOVE_CAPACITY);
    remark_if(setup, setup->die.found && setup->closing.value.mm < setup->die.die.size.mm,
              FER_REMARK_CLOSES_BELOW_DIE);
    remark_if(setup, setup->bore_margin.value.mm < 0.0, FER_REMARK_BORE_BELOW_LIMIT);
    remark_if(setup, stem_yields(order), FER_REMARK_STEM_YIELDS);
    remark_if(setup, setup->springback.status == FER_OK && order->load.hose_pressure.mpa == 0.0,
              FER_REMARK_HOSE_PRESSURE_NOT_KNOWN);
}

static void add_cautions(fer_setup *setup)
{
    const fer_caution at_the_press[] = {FER_CAUTION_MAKERS_DATA_FIRST, FER_CAUTION_APPROVED_PARTS_ONLY,
                                        FER_CAUTION_CLOSING_DIES, FER_CAUTION_LAW_AND_LICENCE};
    for (size_t i = 0; i < sizeof at_the_press / sizeof *at_the_press; i++) {
        setup->cautions.bits |= UINT32_C(1) << at_the_press[i];
    }
}

/* ---- the call ----------------------------------------------------------------------------------------- */

static fer_status plan(const fer_order *order, const fer_press *press, const fer_die *dies, size_t count,
                       fer_setup *setup)
{
    FER_REQUIRE(order && press, FER_ARGUMENT_MISSING);
    FER_TRY(check_order(order));
    FER_TRY(fer_check_press(press));
    FER_TRY(find_target(order, setup));
    setup->applies_to = order->applies_to;
    find_window_and_limits(order, setup);
    find_window_uncertainty(order, setup);
    find_compressions(order, setup);
    find_uncertainty(order, setup);
    find_yield(order, setup);
    setup->segments = press->segments > 0 ? press->segments : FER_SEGMENTS_USUAL;
    find_springback_and_force(order, setup);
    find_capacity_use(press, setup);
    find_bore(order, setup);
    FER_TRY(find_die_figures(order, press, dies, count, setup));
    remark_on_joint(order, setup);
    remark_on_die(order, setup);
    remark_on_metal(order, setup);
    add_cautions(setup);
    return FER_OK;
}

fer_status fer_plan_setup(const fer_order *order, const fer_press *press, const fer_die *dies, size_t count,
                          fer_setup *setup)
{
    FER_REQUIRE(setup, FER_ARGUMENT_MISSING);
    memset(setup, 0, sizeof *setup);
    const fer_status status = plan(order, press, dies, count, setup);
    if (status != FER_OK) {
        memset(setup, 0, sizeof *setup);
    }
    return status;
}

const char *fer_remark_name(fer_remark remark)
{
    switch (remark) {
#define FER_REMARK_NAME(name, number, sentence)                                                              \
    case FER_REMARK_##name:                                                                                  \
        return #name;
        FER_REMARK_LIST(FER_REMARK_NAME)
#undef FER_REMARK_NAME
    case FER_REMARK_COUNT:
        break;
    }
    return "UNKNOWN";
}

const char *fer_remark_sentence(fer_remark remark)
{
    switch (remark) {
#define FER_REMARK_SENTENCE(name, number, sentence)                                                          \
    case FER_REMARK_##name:                                                                                  \
        return sentence;
        FER_REMARK_LIST(FER_REMARK_SENTENCE)
#undef FER_REMARK_SENTENCE
    case FER_REMARK_COUNT:
        break;
    }
    return "";
}
