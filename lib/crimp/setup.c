/* SPDX-License-Identifier: MIT */
/* The whole set-up from an order, a press and a rack.
 * Method: one check of all arguments, then the functions of the other modules that take checked input.
 * Formulas: those of the modules; docs/setup.md has the order of the figures and remarks. */
#include <ferrule/setup.h>

#include "base/value_private.h"
#include "base/words.h"
#include "crimp/compression_private.h"
#include "crimp/die_private.h"
#include "crimp/forming_private.h"
#include "crimp/joint_private.h"
#include "crimp/lobe_private.h"
#include "crimp/press_private.h"
#include "crimp/setup_private.h"
#include "crimp/uncertainties_private.h"
#include "crimp/window_private.h"

/* Yield below which a set-up is remarked as uncertain. */
static const double share_wanted = 0.95;

/* ---- what the order asks for -------------------------------------------------------------------------- */

static fer_ratio_range range_of(const fer_order *order)
{
    const fer_ratio_range usual = {{FER_COMPRESSION_USUAL_LOWER}, {FER_COMPRESSION_USUAL_UPPER}};
    const int none_given = order->range.lower.fraction == 0.0 && order->range.upper.fraction == 0.0;
    return none_given ? usual : order->range;
}

static fer_ratio aim_of(const fer_order *order, fer_ratio_range range)
{
    const fer_ratio middle = {0.5 * range.lower.fraction + 0.5 * range.upper.fraction};
    return order->aim.fraction == 0.0 ? middle : order->aim;
}

/* A metal is given as soon as any of its figures is. */
static int is_given(const fer_material *metal)
{
    return !(metal->elastic_modulus.mpa == 0.0 && metal->poisson.fraction == 0.0 &&
             metal->yield_strength.mpa == 0.0 && metal->hardening.mpa == 0.0);
}

static fer_status check_metal(const fer_material *metal, fer_fault_visitor *faults)
{
    return is_given(metal) ? fer_check_material_rules(metal, faults) : FER_OK;
}

static fer_status check_metals(const fer_order *order, fer_fault_visitor *faults)
{
    FER_RULES_INSIDE(faults, offsetof(fer_order, ferrule_metal), check_metal(&order->ferrule_metal, faults));
    FER_RULES_INSIDE(faults, offsetof(fer_order, stem_metal), check_metal(&order->stem_metal, faults));
    FER_RULES_INSIDE(faults, offsetof(fer_order, load), fer_check_load(order->load, faults));
    FER_RULE(faults, fer_order, minimum_bore,
             fer_unless(fer_is_length_or_none(order->minimum_bore), FER_BORE_LIMIT_OUT_OF_RANGE));
    return FER_OK;
}

static fer_status check_range_and_aim(const fer_order *order, fer_fault_visitor *faults)
{
    const fer_ratio_range range = range_of(order);
    const double lower = range.lower.fraction, upper = range.upper.fraction,
                 aim = aim_of(order, range).fraction;
    FER_RULE(faults, fer_order, range,
             fer_unless(fer_is_finite(lower) && fer_is_finite(upper), FER_COMPRESSION_NOT_A_NUMBER));
    FER_RULE_BETWEEN(faults, fer_order, aim, range, range,
                     fer_unless(fer_is_finite(aim), FER_COMPRESSION_NOT_A_NUMBER));
    FER_RULE(faults, fer_order, range, fer_unless(lower < upper, FER_COMPRESSION_RANGE_WRONG_ORDER));
    FER_RULE_BETWEEN(faults, fer_order, aim, range, range,
                     fer_unless(lower <= aim && aim <= upper, FER_COMPRESSION_AIM_OUTSIDE_RANGE));
    return FER_OK;
}

/* An order that was checked, with what the checks have found. The model fits the joint where basis and flow are FER_OK;
 * where one is not, it is the status of all figures that need the model. */
typedef struct {
    const fer_order *order;
    const fer_joint *joint;
    fer_standard_uncertainties standard_deviation;
    fer_status basis, flow;
} job;

/* Every rule of an order alone, as a row. */
static fer_status check_order(const fer_order *order, fer_fault_visitor *faults, job *j)
{
    FER_RULES_INSIDE(faults, offsetof(fer_order, joint), fer_check_joint_rules(&order->joint, faults));
    FER_RULE(faults, fer_order, published,
             fer_unless(fer_is_length_or_none(order->published), FER_PUBLISHED_DIAMETER_OUT_OF_RANGE));
    FER_RULE(faults, fer_order, tolerance,
             fer_unless(order->tolerance.mm >= 0.0 && order->tolerance.mm <= FER_LENGTH_MAXIMUM_MM,
                        FER_TOLERANCE_OUT_OF_RANGE));
    FER_RULE(faults, fer_order, widest,
             fer_unless(fer_is_length_or_none(order->widest), FER_WIDEST_DIAMETER_OUT_OF_RANGE));
    FER_TRY(check_range_and_aim(order, faults));
    FER_RULE(faults, fer_order, applies_to,
             fer_unless((unsigned)order->applies_to <= FER_APPLIES_TO_MEAN, FER_APPLIES_TO_UNKNOWN));
    FER_TRY(check_metals(order, faults));
    FER_RULES_INSIDE(faults, offsetof(fer_order, uncertainties),
                     fer_check_uncertainty_rules(&order->uncertainties, &j->standard_deviation, faults));
    FER_RULE(faults, fer_order, adapter_mounted,
             fer_unless(order->adapter_mounted >= 0, FER_DIE_ADAPTER_OUT_OF_RANGE));
    j->order = order;
    j->joint = &order->joint;
    j->basis = fer_check_basis(j->joint, order->model.basis);
    j->flow = fer_check_flow(j->joint, order->model.flow);
    return FER_OK;
}

fer_status fer_check_order_rules(const fer_order *order, fer_fault_visitor *faults)
{
    job j;
    return check_order(order, faults, &j);
}

static fer_status model_status(const job *j)
{
    return j->basis != FER_OK ? j->basis : j->flow;
}

/* Published, or computed by a model of this status. */
static fer_status target_of(const fer_order *order, fer_status model, fer_length *target)
{
    if (order->published.mm > 0.0) {
        *target = order->published;
        return FER_OK;
    }
    FER_TRY(model);
    return fer_crimp_diameter_checked(&order->joint, aim_of(order, range_of(order)), order->model, target);
}

fer_status fer_order_target(const fer_order *order, fer_length *target)
{
    FER_LEAVE_OUT(*target);
    FER_TRY(fer_check_joint(&order->joint));
    return target_of(order, fer_check_model(&order->joint, order->model), target);
}

static fer_status find_target(const job *j, fer_setup *setup)
{
    setup->range = range_of(j->order);
    setup->source = j->order->published.mm > 0.0 ? FER_TARGET_PUBLISHED : FER_TARGET_COMPUTED;
    return target_of(j->order, model_status(j), &setup->target);
}

/* All figures, before they are found. */
static void leave_out_figures(fer_setup *setup)
{
    FER_NOT_FOUND(setup->window, FER_OK);
    FER_NOT_FOUND(setup->plain, FER_OK);
    FER_NOT_FOUND(setup->ends_free, FER_OK);
    FER_NOT_FOUND(setup->ends_fixed, FER_OK);
    FER_NOT_FOUND(setup->uncertainty, FER_UNCERTAINTY_EMPTY);
    FER_NOT_FOUND(setup->shares, FER_MODEL_NOT_PLAIN);
    FER_NOT_FOUND(setup->best_target, FER_MODEL_NOT_PLAIN);
    FER_NOT_FOUND(setup->dial, FER_DIE_NONE_NEAR_ENOUGH);
    FER_NOT_FOUND(setup->shape, FER_DIE_NONE_NEAR_ENOUGH);
    FER_NOT_FOUND(setup->clearance, FER_DIE_NONE_NEAR_ENOUGH);
    FER_NOT_FOUND(setup->equivalent, FER_DIE_NONE_NEAR_ENOUGH);
    FER_NOT_FOUND(setup->closing, FER_OK);
    FER_NOT_FOUND(setup->springback, FER_OK);
    FER_NOT_FOUND(setup->force, FER_OK);
    FER_NOT_FOUND(setup->capacity_use, FER_OK);
    FER_NOT_FOUND(setup->bore_reduction, FER_OK);
    FER_NOT_FOUND(setup->bore_margin, FER_OK);
    FER_NOT_FOUND(setup->window_lower_uncertainty, FER_OK);
    FER_NOT_FOUND(setup->window_upper_uncertainty, FER_OK);
}

/* ---- figures of the joint ----------------------------------------------------------------------------- */

static fer_status find_window(const job *j, fer_setup *setup)
{
    FER_TRY(model_status(j));
    return fer_crimp_window_checked(j->joint, setup->range, j->order->model, &setup->window.value);
}

static void find_window_and_limits(const job *j, fer_setup *setup)
{
    const double tolerance = j->order->tolerance.mm;
    setup->window.status = find_window(j, setup);
    setup->limits = setup->window;
    if (tolerance > 0.0) {
        setup->limits.value.lower.mm = setup->target.mm - tolerance;
        setup->limits.value.upper.mm = setup->target.mm + tolerance;
        setup->limits.status = FER_OK;
    } else if (setup->source == FER_TARGET_PUBLISHED) {
        FER_NOT_FOUND(setup->limits, FER_TOLERANCE_MISSING);
    }
}

static fer_status find_end_uncertainty(const job *j, const fer_found_range *window, fer_length end,
                                       fer_length *uncertainty)
{
    FER_TRY(window->status);
    return fer_diameter_uncertainty_checked(j->joint, &j->standard_deviation, end, j->order->model,
                                            uncertainty);
}

static void find_window_uncertainty(const job *j, fer_setup *setup)
{
    fer_found_length *lower = &setup->window_lower_uncertainty, *upper = &setup->window_upper_uncertainty;
    lower->status = find_end_uncertainty(j, &setup->window, setup->window.value.lower, &lower->value);
    upper->status = find_end_uncertainty(j, &setup->window, setup->window.value.upper, &upper->value);
}

/* Compression at the target, of the hose's wall. */
static void find_compression(const job *j, const fer_setup *setup, fer_flow flow, fer_found_ratio *found)
{
    const fer_model model = {FER_BASIS_WALL, flow};
    found->status = fer_check_flow(j->joint, flow);
    if (found->status == FER_OK) {
        found->status = fer_compression_checked(j->joint, setup->target, model, &found->value);
    }
}

static fer_status find_budget(const job *j, const fer_setup *setup, fer_ratio *uncertainty)
{
    const fer_ratio usual_coverage = {0.95};
    fer_budget budget;
    FER_TRY(model_status(j));
    FER_TRY(fer_uncertainty_budget_checked(j->joint, &j->order->uncertainties, &j->standard_deviation,
                                           setup->target, usual_coverage, j->order->model, &budget));
    FER_REQUIRE(budget.standard_uncertainty.fraction != 0.0, FER_UNCERTAINTY_EMPTY);
    *uncertainty = budget.standard_uncertainty;
    return FER_OK;
}

/* By the plain formula only. */
static void find_shares(const job *j, fer_setup *setup)
{
    fer_limit_margin lower, upper;
    if (j->order->model.basis != FER_BASIS_WALL || j->order->model.flow != FER_FLOW_NONE) {
        return;
    }
    const fer_status status = fer_limit_margins_checked(j->joint, &j->order->uncertainties,
                                                        &j->standard_deviation, setup->range, &lower, &upper);
    setup->shares.status = setup->best_target.status = status;
    if (status != FER_OK) {
        return;
    }
    setup->shares.value = fer_shares_between(setup->target.mm, &lower, &upper);
    setup->best_target.status = fer_target_between(&lower, &upper, 1.0, 1.0, &setup->best_target.value);
}

/* ---- figures of die and press --------------------------------------------------------------------------- */

static fer_status find_clearance(const fer_order *order, const fer_press *press, const fer_die *die,
                                 fer_length *clearance)
{
    const fer_length widest = order->widest.mm > 0.0 ? order->widest : order->joint.ferrule.outside;
    FER_REQUIRE(press->opening.mm > 0.0, FER_PRESS_OPENING_MISSING);
    FER_REQUIRE(widest.mm > 0.0, FER_WIDEST_DIAMETER_MISSING);
    *clearance = fer_opening_clearance_checked(press, die->size, widest);
    return FER_OK;
}

/* The diameter at which the dies stand when they shape the ferrule: the target where nothing better is known. */
static fer_length shaping_diameter(const fer_setup *setup, const fer_die *die)
{
    const fer_length *diameter = setup->closing.status == FER_OK ? &setup->closing.value : &setup->target;
    return diameter->mm < die->size.mm ? die->size : *diameter;
}

static fer_status find_equivalent(const job *j, const fer_die *die, const fer_setup *setup,
                                  fer_ratio *compression)
{
    fer_shape shape;
    fer_equivalent_crimp equivalent;
    FER_TRY(j->flow);
    fer_crimp_shape_checked(setup->target, die->size, setup->segments, &shape);
    FER_TRY(fer_equivalent_crimp_checked(j->joint, &shape, j->order->model, j->basis, &equivalent));
    *compression = equivalent.compression;
    return FER_OK;
}

static fer_status find_die_figures(const job *j, const fer_press *press, const fer_die *dies, size_t count,
                                   fer_setup *setup)
{
    const fer_die_needs needs = {j->order->adapter_mounted, j->joint->ferrule.length};
    FER_TRY(fer_check_dies(dies, count));
    /* GCOVR_EXCL_BR_START: target, adapter and length were checked with the order */
    FER_TRY(fer_choose_die_checked(dies, count, setup->target, needs, &setup->die));
    /* GCOVR_EXCL_BR_STOP */
    if (!setup->die.found) {
        return FER_OK;
    }
    const fer_die *die = &setup->die.die;
    setup->dial.status = fer_dial_setting_checked(press, die->size, setup->target, &setup->dial.value);
    setup->shape.status = FER_OK;
    fer_crimp_shape_checked(shaping_diameter(setup, die), die->size, setup->segments, &setup->shape.value);
    setup->equivalent.status = find_equivalent(j, die, setup, &setup->equivalent.value);
    setup->clearance.status = find_clearance(j->order, press, die, &setup->clearance.value);
    return FER_OK;
}

/* ---- figures of the metal -------------------------------------------------------------------------------- */

static fer_status form(const fer_order *order, fer_length target, fer_length *closing, fer_forming *forming)
{
    const fer_ferrule *ferrule = &order->joint.ferrule;
    FER_REQUIRE(is_given(&order->ferrule_metal), FER_MATERIAL_MISSING);
    FER_TRY(fer_check_formable(ferrule, &order->ferrule_metal, order->load));
    FER_TRY(fer_closing_diameter_checked(ferrule, target, &order->ferrule_metal, order->load, closing));
    return fer_form_ferrule_checked(ferrule, *closing, &order->ferrule_metal, order->load, forming);
}

/* Force on the ferrule as long as it has become. */
static fer_status find_force(const fer_order *order, const fer_setup *setup, const fer_forming *forming,
                             fer_force *total)
{
    fer_die_force force;
    FER_TRY(setup->springback.status);
    const fer_length length = {order->joint.ferrule.length.mm * forming->stretch.fraction};
    FER_TRY(fer_find_die_force(forming->pressure, setup->closing.value, length, setup->segments, &force));
    *total = force.total;
    return FER_OK;
}

static void find_springback_and_force(const fer_order *order, fer_setup *setup)
{
    fer_forming forming;
    const fer_status status = form(order, setup->target, &setup->closing.value, &forming);
    setup->closing.status = setup->springback.status = status;
    if (status == FER_OK) {
        setup->springback.value = forming.springback;
    }
    setup->force.status = find_force(order, setup, &forming, &setup->force.value);
}

static void find_capacity_use(const fer_press *press, fer_setup *setup)
{
    setup->capacity_use.status = setup->force.status;
    if (setup->force.status == FER_OK) {
        setup->capacity_use.status =
            fer_capacity_use_checked(press, setup->force.value, &setup->capacity_use.value);
    }
}

static fer_status find_bore_reduction(const fer_order *order, fer_length *reduction)
{
    fer_stem_change change;
    FER_REQUIRE(order->joint.stem.bore.mm > 0.0, FER_STEM_BORE_MISSING);
    FER_REQUIRE(is_given(&order->stem_metal), FER_MATERIAL_MISSING);
    FER_REQUIRE(order->load.hose_pressure.mpa > 0.0, FER_HOSE_PRESSURE_MISSING);
    FER_TRY(fer_load_stem_checked(&order->joint.stem, &order->stem_metal, order->load, &change));
    *reduction = change.bore_reduction;
    return FER_OK;
}

static fer_status find_bore_margin(const fer_order *order, const fer_setup *setup, fer_length *margin)
{
    FER_TRY(setup->bore_reduction.status);
    FER_REQUIRE(order->minimum_bore.mm > 0.0, FER_BORE_LIMIT_MISSING);
    return fer_bore_margin_checked(&order->joint.stem, setup->bore_reduction.value, order->minimum_bore,
                                   margin);
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
    return value.mm < range->value.lower.mm || value.mm > range->value.upper.mm;
}

/* The hose on the stem does not go into the ferrule. */
static int is_too_narrow(const fer_joint *joint)
{
    const double bore = joint->ferrule.outside.mm - 2.0 * joint->ferrule.wall.mm;
    return joint->ferrule.outside.mm > 0.0 && bore < fer_pair_value(fer_fitted_outside_pair(joint));
}

static void remark_on_joint(const fer_order *order, fer_setup *setup)
{
    const int plain = order->model.flow == FER_FLOW_NONE;
    remark_if(setup, setup->source == FER_TARGET_PUBLISHED && is_outside(setup->target, &setup->window),
              FER_REMARK_PUBLISHED_OUTSIDE_WINDOW);
    remark_if(setup, is_too_narrow(&order->joint), FER_REMARK_FERRULE_TOO_NARROW);
    remark_if(setup, setup->plain.status != FER_OK, FER_REMARK_TARGET_NOT_TOUCHING);
    remark_if(setup, plain && setup->ends_free.value.fraction > setup->range.upper.fraction,
              FER_REMARK_WALL_GROWTH_LEAVES_RANGE);
    remark_if(setup, setup->shares.value.inside.fraction < share_wanted, FER_REMARK_UNCERTAIN);
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
    if (!(order->joint.stem.bore.mm > 0.0) || !is_given(&order->stem_metal)) {
        return 0;
    }
    const fer_stem_strength strength =
        fer_stem_strength_checked(&order->joint.stem, &order->stem_metal, order->load);
    return order->load.hose_pressure.mpa > strength.first_yield_pressure.mpa;
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

/* ---- the call ----------------------------------------------------------------------------------------- */

static fer_status plan(const fer_order *order, const fer_press *press, const fer_die *dies, size_t count,
                       fer_setup *setup)
{
    job j;
    FER_REQUIRE(order && press, FER_ARGUMENT_MISSING);
    FER_TRY(check_order(order, NULL, &j));
    FER_TRY(fer_check_press(press));
    FER_TRY(find_target(&j, setup));
    leave_out_figures(setup);
    setup->applies_to = order->applies_to;
    find_window_and_limits(&j, setup);
    find_window_uncertainty(&j, setup);
    find_compression(&j, setup, FER_FLOW_NONE, &setup->plain);
    find_compression(&j, setup, FER_FLOW_ENDS_FREE, &setup->ends_free);
    find_compression(&j, setup, FER_FLOW_ENDS_FIXED, &setup->ends_fixed);
    setup->uncertainty.status = find_budget(&j, setup, &setup->uncertainty.value);
    find_shares(&j, setup);
    setup->segments = press->segments > 0 ? press->segments : FER_SEGMENTS_USUAL;
    find_springback_and_force(order, setup);
    find_capacity_use(press, setup);
    find_bore(order, setup);
    FER_TRY(find_die_figures(&j, press, dies, count, setup));
    remark_on_joint(order, setup);
    remark_on_die(order, setup);
    remark_on_metal(order, setup);
    setup->cautions = fer_stage_cautions(FER_STAGE_PLANNING);
    return FER_OK;
}

fer_status fer_plan_setup(const fer_order *order, const fer_press *press, const fer_die *dies, size_t count,
                          fer_setup *setup)
{
    FER_REQUIRE(setup, FER_ARGUMENT_MISSING);
    FER_EMPTY(*setup);
    const fer_status status = plan(order, press, dies, count, setup);
    if (status != FER_OK) {
        FER_EMPTY(*setup);
    }
    return status;
}

/* ---- words of the remarks -------------------------------------------------------------------------------- */

typedef struct {
    FER_REMARK_LIST(FER_WORDS_MEMBERS)
} remark_words;

static const remark_words words = {FER_REMARK_LIST(FER_WORDS_TEXT)};

#define PLACE(name, number, sentence) FER_WORDS_PLACE(remark_words, name, number)
static const fer_word_place places[] = {FER_REMARK_LIST(PLACE)};
enum { place_count = sizeof places / sizeof *places };

const char *fer_remark_name(fer_remark remark)
{
    const char *name = fer_name_among((const char *)&words, places, place_count, (int)remark);
    return name ? name : "UNKNOWN";
}

const char *fer_remark_sentence(fer_remark remark)
{
    const char *sentence = fer_sentence_among((const char *)&words, places, place_count, (int)remark);
    return sentence ? sentence : "";
}
