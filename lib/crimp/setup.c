/* SPDX-License-Identifier: MIT */
/* The whole set-up from an order, a press and a rack.
 * Method: one check of all arguments, then the functions of the other modules that take checked input.
 * Formulas: those of the modules; docs/setup.md has the order of the figures and remarks. */
#include <ferrule/setup.h>

#include "base/value_private.h"
#include "base/acceptance_private.h"
#include "crimp/compression_private.h"
#include "crimp/die_private.h"
#include "crimp/forming_private.h"
#include "crimp/hose_private.h"
#include "crimp/joint_private.h"
#include "crimp/lobe_private.h"
#include "crimp/press_private.h"
#include "crimp/setup_private.h"
#include "crimp/uncertainties_private.h"
#include "crimp/window_private.h"
#include "base/numeric/pi.h"
#include "base/numeric/special.h"

/* ---- what the order asks for -------------------------------------------------------------------------- */

static int is_range_given(const fer_order *order)
{
    return !(order->range.lower.fraction == 0.0 && order->range.upper.fraction == 0.0);
}

static fer_ratio_range range_of(const fer_order *order)
{
    const fer_ratio_range usual = {{FER_COMPRESSION_USUAL_LOWER}, {FER_COMPRESSION_USUAL_UPPER}};
    return is_range_given(order) ? order->range : usual;
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
    FER_RULE(faults, fer_order, aim,
             fer_unless(fer_is_finite(order->aim.fraction), FER_COMPRESSION_NOT_A_NUMBER));
    FER_RULE(faults, fer_order, range,
             fer_unless(is_range_given(order) || fer_is_plain(order->model), FER_COMPRESSION_RANGE_MISSING));
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
    const fer_standard_uncertainties *standard_deviation;
    int is_uncertain; /* any of them is above 0 */
    fer_status basis, flow;
} job;

/* What is done with the piece before and after: how it is pushed in, and how it will be measured. */
static fer_status check_handling(const fer_order *order, fer_fault_visitor *faults)
{
    FER_RULE(faults, fer_order, applies_to,
             fer_unless((unsigned)order->applies_to <= FER_APPLIES_TO_MEAN, FER_APPLIES_TO_UNKNOWN));
    FER_RULE(faults, fer_order, approval,
             fer_unless((unsigned)order->approval <= FER_APPROVAL_NOT_APPROVED, FER_APPROVAL_UNKNOWN));
    FER_RULE(faults, fer_order, insertion,
             fer_unless(fer_is_length_or_none(order->insertion), FER_INSERTION_OUT_OF_RANGE));
    FER_RULE(faults, fer_order, skive_outside,
             fer_unless(fer_is_length_or_none(order->skive_outside), FER_SKIVE_OUT_OF_RANGE));
    FER_RULE(faults, fer_order, skive_inside,
             fer_unless(fer_is_length_or_none(order->skive_inside), FER_SKIVE_OUT_OF_RANGE));
    FER_RULE(faults, fer_order, lobe_maximum,
             fer_unless(fer_is_length_or_none(order->lobe_maximum), FER_LOBE_LIMIT_OUT_OF_RANGE));
    FER_RULES_INSIDE(faults, offsetof(fer_order, gauge), fer_check_gauge_rules(&order->gauge, faults));
    FER_RULES_INSIDE(faults, offsetof(fer_order, guard), fer_check_guard_rules(&order->guard, faults));
    return FER_OK;
}

/* Rules of an order that are asked before those of its uncertainties; one comes after them. */
static fer_status check_before_uncertainties(const fer_order *order, fer_fault_visitor *faults)
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
    FER_TRY(check_handling(order, faults));
    return check_metals(order, faults);
}

static fer_status check_adapter(const fer_order *order, fer_fault_visitor *faults)
{
    FER_RULE(faults, fer_order, adapter_mounted,
             fer_unless(order->adapter_mounted >= 0, FER_DIE_ADAPTER_OUT_OF_RANGE));
    return FER_OK;
}

void fer_visit_order_rules(const fer_order *order, fer_fault_visitor *faults)
{
    fer_standard_uncertainties standard;
    (void)check_before_uncertainties(order, faults);
    fer_shift(faults, offsetof(fer_order, uncertainties));
    (void)fer_check_uncertainty_rules(&order->uncertainties, &standard, faults);
    fer_shift_back(faults, offsetof(fer_order, uncertainties));
    (void)check_adapter(order, faults);
}

fer_checked_uncertainties fer_check_orders_uncertainties(const fer_uncertainties *uncertainties)
{
    fer_checked_uncertainties checked;
    checked.status = fer_check_uncertainties(uncertainties, &checked.standard);
    checked.is_any = 0;
    for (int i = 0; checked.status == FER_OK && i < FER_INPUTS; i++) {
        checked.is_any |= checked.standard.value[i] > 0.0;
    }
    return checked;
}

static fer_status check_order(const fer_order *order, const fer_checked_uncertainties *uncertainties, job *j)
{
    FER_TRY(check_before_uncertainties(order, NULL));
    FER_TRY(uncertainties->status);
    FER_TRY(check_adapter(order, NULL));
    j->order = order;
    j->joint = &order->joint;
    j->standard_deviation = &uncertainties->standard;
    j->is_uncertain = uncertainties->is_any;
    j->basis = fer_check_basis(j->joint, order->model.basis);
    j->flow = fer_check_flow(j->joint, order->model.flow);
    return FER_OK;
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

/* All figures, before they are found. */
static void leave_out_figures(fer_setup *setup)
{
    fer_hose_limits *limits = &setup->hose_limits;
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
    fer_leave_out_zone(&setup->zone.value);
    FER_NOT_FOUND(setup->compression.value, FER_OK);
    FER_NOT_FOUND(setup->compression.standard_uncertainty, FER_UNCERTAINTY_EMPTY);
    FER_LEAVE_OUT(setup->largest.value.share);
    FER_NOT_FOUND(setup->springback_dial, FER_DIE_NONE_NEAR_ENOUGH);
    FER_NOT_FOUND(limits->capacity, FER_OK);
    FER_NOT_FOUND(limits->bore, FER_OK);
    FER_NOT_FOUND(limits->stem, FER_OK);
    FER_NOT_FOUND(limits->formula, FER_OK);
    FER_NOT_FOUND(limits->smallest, FER_OK);
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
    FER_REQUIRE(j->is_uncertain, FER_UNCERTAINTY_EMPTY);
    return fer_diameter_uncertainty_checked(j->joint, j->standard_deviation, end, j->order->model,
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

/* Of the hose's wall by any flow it is found already. */
static fer_found_ratio find_by_model(const job *j, const fer_setup *setup)
{
    const fer_found_ratio *by_flow[] = {&setup->plain, &setup->ends_fixed, &setup->ends_free};
    fer_found_ratio found;
    FER_NOT_FOUND(found, model_status(j));
    if (found.status == FER_OK && j->order->model.basis == FER_BASIS_WALL) {
        return *by_flow[j->order->model.flow];
    }
    if (found.status == FER_OK) {
        found.status = fer_compression_checked(j->joint, setup->target, j->order->model, &found.value);
    }
    return found;
}

static fer_status find_contributions(const job *j, const fer_setup *setup, fer_model model,
                                     fer_contributions *found)
{
    FER_REQUIRE(j->is_uncertain, FER_UNCERTAINTY_EMPTY);
    FER_TRY(fer_find_contributions(j->joint, &j->order->uncertainties, j->standard_deviation, setup->target,
                                   model, found));
    FER_REQUIRE(found->standard_uncertainty != 0.0, FER_UNCERTAINTY_EMPTY);
    return FER_OK;
}

static void find_largest(const double part[FER_INPUTS], fer_largest_part *largest)
{
    double sum = 0.0;
    int first = 0;
    for (int i = 0; i < FER_INPUTS; i++) {
        sum += part[i] * part[i];
        first = fabs(part[i]) > fabs(part[first]) ? i : first;
    }
    largest->measurement = (fer_measurement)first;
    largest->share.fraction = part[first] * part[first] / sum;
}

/* Where there is no compression there is no uncertainty of it. */
static void find_uncertainty(const job *j, const fer_found_ratio *by_model, fer_setup *setup)
{
    fer_contributions found;
    fer_status status = by_model->status;
    if (status == FER_OK) {
        status = find_contributions(j, setup, j->order->model, &found);
    }
    setup->uncertainty.status = setup->largest.status = status;
    if (status == FER_OK) {
        setup->uncertainty.value.fraction = found.standard_uncertainty;
        find_largest(found.part, &setup->largest.value);
    }
}

/* By the plain formula only. */
static void find_shares(const job *j, fer_setup *setup)
{
    fer_limit_margin lower, upper;
    if (!fer_is_plain(j->order->model)) {
        return;
    }
    fer_status status = FER_UNCERTAINTY_EMPTY;
    if (j->is_uncertain) {
        status = fer_limit_margins_checked(j->joint, &j->order->uncertainties, j->standard_deviation,
                                           setup->range, &lower, &upper);
    }
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
    const fer_length widest = {fmax(order->widest.mm, order->joint.ferrule.outside.mm)};
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

/* At the target; the set-up's own shape is often the same. */
static fer_status find_equivalent(const job *j, const fer_segment_angles *angles, const fer_setup *setup,
                                  fer_ratio *compression)
{
    const fer_die *die = &setup->die.die;
    fer_shape shape = setup->shape.value;
    fer_equivalent_crimp equivalent;
    FER_TRY(j->flow);
    if (shaping_diameter(setup, die).mm != setup->target.mm) {
        fer_crimp_shape_checked(setup->target, die->size, angles, &shape);
    }
    FER_TRY(fer_equivalent_crimp_checked(j->joint, &shape, j->order->model, j->basis, &equivalent));
    *compression = equivalent.compression;
    return FER_OK;
}

static void find_die_figures(const job *j, const fer_checked_workplace *at, fer_setup *setup)
{
    const fer_die_needs needs = {j->order->adapter_mounted, j->joint->ferrule.length};
    /* target, adapter and length were checked with the order */
    (void)fer_choose_die_checked(at->dies, at->count, setup->target, needs, &setup->die);
    if (!setup->die.found) {
        return;
    }
    const fer_die *die = &setup->die.die;
    setup->dial.status = fer_dial_setting_checked(at->press, die->size, setup->target, &setup->dial.value);
    setup->shape.status = FER_OK;
    fer_crimp_shape_checked(shaping_diameter(setup, die), die->size, &at->angles, &setup->shape.value);
    setup->equivalent.status = find_equivalent(j, &at->angles, setup, &setup->equivalent.value);
    setup->clearance.status = find_clearance(j->order, at->press, die, &setup->clearance.value);
}

/* ---- figures of the metal -------------------------------------------------------------------------------- */

/* What the dies make of the ferrule at the target; the status says why it is not known. */
typedef struct {
    fer_forming forming;
    fer_length closing;  /* by the elastic springback: no larger where the bore yields on release */
    fer_status formable; /* of its metal and sizes alone, whatever the hose does */
    fer_status status;
} formed_ferrule;

static fer_status check_formable(const fer_order *order)
{
    FER_REQUIRE(is_given(&order->ferrule_metal), FER_MATERIAL_MISSING);
    return fer_check_formable(&order->joint.ferrule);
}

static fer_status form(const fer_order *order, fer_length target, formed_ferrule *formed)
{
    FER_TRY(formed->formable);
    FER_TRY(fer_check_hose_limit(&order->ferrule_metal, order->load));
    return fer_form_crimp_checked(&order->joint.ferrule, target, &order->ferrule_metal, order->load,
                                  &formed->closing, &formed->forming);
}

/* Force on the ferrule as long as it has become. */
static fer_status find_force(const fer_order *order, const formed_ferrule *formed, int segments,
                             fer_force *total)
{
    fer_die_force force;
    FER_TRY(formed->status);
    const fer_forming *forming = &formed->forming;
    const fer_length length = {order->joint.ferrule.length.mm * forming->stretch.fraction};
    FER_TRY(fer_find_die_force(forming->pressure, formed->closing, length, segments, &force));
    *total = force.total;
    return FER_OK;
}

static void find_springback_and_force(const fer_order *order, fer_setup *setup, formed_ferrule *formed)
{
    FER_LEAVE_OUT_FROM(fer_forming, formed->forming, wall, effective_yield_strength);
    FER_LEAVE_OUT(formed->closing);
    formed->formable = check_formable(order);
    formed->status = form(order, setup->target, formed);
    setup->closing.status = formed->status == FER_OK ? formed->forming.release_status : formed->status;
    setup->springback.status = setup->closing.status;
    if (setup->springback.status == FER_OK) {
        setup->closing.value = formed->closing;
        setup->springback.value = formed->forming.springback;
    }
    setup->force.status = find_force(order, formed, setup->segments, &setup->force.value);
    setup->force_at_least = setup->force.status == FER_OK &&
                            !(order->load.hose_pressure.mpa > 0.0 && order->load.restraint.fraction > 0.0);
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

/* ---- how much the hose may press --------------------------------------------------------------------------- */

/* Twice or more what the dies can need of a hose up to the limit of the closed forms. The metal adds no more than (2/root 3) Y ln(b/a),
 * as if all of it flowed with the ends fixed and had hardened as much as at the bore; by volume it gets no longer than the square
 * of the reduction. Taken at the crimp diameter: twice is for the springback. Only of what is well inside the closed forms. */
static int is_far_above_need(fer_force capacity, const fer_ferrule *ferrule, double diameter,
                             const fer_material *material)
{
    const double before = ferrule->outside.mm, wall = ferrule->wall.mm, shorter = before / diameter;
    const double bore_square = diameter * diameter - 4.0 * wall * (before - wall);
    if (!(bore_square >= 0.16 * diameter * diameter && shorter <= 1.4 &&
          before - diameter >= 1.1 * fer_reduction_needed(ferrule, material))) {
        return 0;
    }
    const double bore = sqrt(bore_square), two_by_root_three = 1.1547005383792517;
    const double strain = two_by_root_three * (log((before - 2.0 * wall) / bore) + 2.0 * log(shorter));
    const double strongest = material->yield_strength.mpa + material->hardening.mpa * strain;
    const double pressure = FER_STRONGEST_HOSE * material->yield_strength.mpa +
                            two_by_root_three * strongest * log(diameter / bore);
    return capacity.newton >= 2.0 * pressure * pi * diameter * ferrule->length.mm * shorter * shorter;
}

/* Where no restraint is given the ends are taken as fixed: then the dies need most. */
static fer_status find_capacity_limit(const fer_order *order, const fer_press *press,
                                      const formed_ferrule *formed, fer_length target, fer_pressure *limit)
{
    const fer_ferrule *ferrule = &order->joint.ferrule;
    const fer_ratio restraint = {order->load.restraint.fraction > 0.0 ? order->load.restraint.fraction : 1.0};
    FER_TRY(formed->formable);
    FER_REQUIRE(press->capacity.newton > 0.0, FER_PRESS_CAPACITY_MISSING);
    FER_REQUIRE(ferrule->length.mm > 0.0, FER_FERRULE_LENGTH_MISSING);
    FER_REQUIRE(!is_far_above_need(press->capacity, ferrule, target.mm, &order->ferrule_metal),
                FER_HOSE_PRESSURE_ABOVE_LIMIT);
    return fer_hose_pressure_at_force(ferrule, press->capacity, target, &order->ferrule_metal, restraint,
                                      limit);
}

static fer_status check_limited_stem(const fer_order *order)
{
    FER_REQUIRE(order->joint.stem.bore.mm > 0.0, FER_STEM_BORE_MISSING);
    return fer_unless(is_given(&order->stem_metal), FER_MATERIAL_MISSING);
}

static fer_status find_bore_limit(const fer_order *order, fer_status of_stem, fer_pressure *limit)
{
    const fer_stem *stem = &order->joint.stem;
    fer_pressure at_most;
    FER_TRY(of_stem);
    FER_REQUIRE(order->minimum_bore.mm > 0.0, FER_BORE_LIMIT_MISSING);
    const fer_length reduction = {stem->bore.mm - order->minimum_bore.mm};
    FER_REQUIRE(reduction.mm >= 0.0, FER_BORE_REDUCTION_OUT_OF_RANGE);
    FER_TRY(fer_hose_pressure_from_bore_checked(stem, reduction, &order->stem_metal, order->load, &at_most));
    limit->mpa = at_most.mpa / FER_HOSE_PEAK;
    return FER_OK;
}

static fer_status find_stem_limit(const fer_order *order, fer_status of_stem, fer_pressure *limit)
{
    FER_TRY(of_stem);
    const fer_stem_strength strength =
        fer_stem_strength_checked(&order->joint.stem, &order->stem_metal, order->load);
    limit->mpa = strength.first_yield_pressure.mpa / FER_HOSE_PEAK;
    return FER_OK;
}

static fer_status find_formula_limit(const fer_order *order, const formed_ferrule *formed,
                                     fer_pressure *limit)
{
    FER_TRY(formed->formable);
    limit->mpa = FER_STRONGEST_HOSE * order->ferrule_metal.yield_strength.mpa;
    return FER_OK;
}

/* One that is passed without a hose leaves nothing to be pressed. */
static void find_smallest_limit(fer_hose_limits *limits)
{
    const fer_found_pressure *const in_order[] = {&limits->capacity, &limits->bore, &limits->stem,
                                                  &limits->formula};
    limits->smallest.status = limits->capacity.status;
    for (int i = 0; i < 4; i++) {
        if (in_order[i]->status == FER_OK && !(in_order[i]->value.mpa >= limits->smallest.value.mpa)) {
            limits->smallest = *in_order[i];
            limits->which = (fer_hose_limit)(i + 1);
        }
    }
    if (limits->capacity.status == FER_FORCE_BELOW_METAL ||
        limits->bore.status == FER_BORE_REDUCTION_OUT_OF_RANGE) {
        limits->which =
            limits->capacity.status == FER_FORCE_BELOW_METAL ? FER_HOSE_LIMIT_CAPACITY : FER_HOSE_LIMIT_BORE;
        FER_NOT_FOUND(limits->smallest, in_order[limits->which - 1]->status);
    }
}

static void find_hose_limits(const fer_order *order, const fer_press *press, const formed_ferrule *formed,
                             fer_setup *setup)
{
    const fer_status of_stem = check_limited_stem(order);
    fer_hose_limits *limits = &setup->hose_limits;
    limits->capacity.status =
        find_capacity_limit(order, press, formed, setup->target, &limits->capacity.value);
    limits->bore.status = find_bore_limit(order, of_stem, &limits->bore.value);
    limits->stem.status = find_stem_limit(order, of_stem, &limits->stem.value);
    limits->formula.status = find_formula_limit(order, formed, &limits->formula.value);
    find_smallest_limit(limits);
}

/* ---- dial and springback --------------------------------------------------------------------------------- */

static int is_correction_measured(const fer_press *press)
{
    return press->correction_measured || press->correction.mm != 0.0;
}

/* The dial with the springback taken off. */
static fer_status find_springback_dial(const fer_press *press, const fer_setup *setup, fer_dial *dial)
{
    const fer_length size = setup->die.die.size, closing = setup->closing.value;
    FER_REQUIRE(setup->die.found, FER_DIE_NONE_NEAR_ENOUGH);
    FER_REQUIRE(!is_correction_measured(press), FER_CORRECTION_HAS_SPRINGBACK);
    FER_TRY(setup->closing.status);
    FER_REQUIRE(closing.mm >= size.mm, FER_DIE_ABOVE_DIAMETER);
    FER_TRY(fer_dial_setting_checked(press, size, closing, dial));
    dial->expected.mm = setup->target.mm + dial->remainder.mm;
    return FER_OK;
}

/* That no correction was measured is not a correction of 0: the crimp comes out larger by the springback. */
static void find_springback_of_dial(const fer_press *press, fer_setup *setup)
{
    if (setup->springback.status == FER_OK && !is_correction_measured(press)) {
        setup->dial.value.expected.mm += setup->springback.value.mm;
    }
    setup->springback_dial.status = find_springback_dial(press, setup, &setup->springback_dial.value);
}

/* ---- acceptance zone ------------------------------------------------------------------------------------- */

static int are_from_measurements(const fer_setup *setup)
{
    const fer_found_range *window = &setup->window, *limits = &setup->limits;
    return setup->source == FER_TARGET_COMPUTED && window->status == FER_OK &&
           window->value.lower.mm == limits->value.lower.mm &&
           window->value.upper.mm == limits->value.upper.mm;
}

/* A limit that was computed from measurements is as uncertain as they are. */
fer_limits_kind fer_judging_limits(const fer_setup *setup, fer_guard guard, fer_length_range *limits,
                                   fer_acceptance_zone *narrowed)
{
    const fer_found_length *lower = &setup->window_lower_uncertainty,
                           *upper = &setup->window_upper_uncertainty;
    const fer_guard normal = {guard.factor, 0, guard.side, 0.0};
    *limits = setup->limits.value;
    fer_leave_out_zone(narrowed);
    if (!are_from_measurements(setup) || guard.without) {
        return FER_LIMITS_GIVEN;
    }
    if (!(lower->status == FER_OK && upper->status == FER_OK && lower->value.mm > 0.0 &&
          upper->value.mm > 0.0)) {
        return FER_LIMITS_TAKEN_AS_EXACT;
    }
    const fer_length larger = {fmax(lower->value.mm, upper->value.mm)};
    if (fer_zone_of(*limits, larger, normal, narrowed) != FER_OK) {
        return FER_LIMITS_GIVEN; /* of a set-up that was put together by hand: judging by it says why */
    }
    if (narrowed->empty) {
        return FER_LIMITS_TOO_UNCERTAIN;
    }
    *limits = narrowed->accept;
    return FER_LIMITS_NARROWED;
}

static fer_status find_zone(const fer_order *order, const fer_setup *setup, fer_limits_kind *kind,
                            fer_acceptance_zone *zone)
{
    const fer_gauge *gauge = &order->gauge;
    fer_length_range limits;
    *kind = FER_LIMITS_GIVEN;
    FER_TRY(setup->limits.status);
    *kind = fer_judging_limits(setup, order->guard, &limits, zone);
    return *kind == FER_LIMITS_TOO_UNCERTAIN ? fer_show_zone(zone, gauge, zone)
                                             : fer_gauge_zone(limits, gauge, order->guard, zone);
}

/* ---- the compression to look at first -------------------------------------------------------------------- */

/* Ends of a ferrule that are said to be kept from moving: without that, ends free are one of two extremes. */
static int is_restrained(const fer_order *order)
{
    return order->load.restraint.fraction > 0.0;
}

/* Of the bore that the metal leaves, by the plain formula's share: what the two walls of the hose have lost. */
static fer_status find_formed_compression(const job *j, const fer_forming *forming, fer_ratio *compression)
{
    const fer_joint *joint = j->joint;
    const double gap = forming->crimp_bore.mm - joint->stem.outside.mm,
                 walls = joint->hose.outside.mm - joint->hose.inside.mm;
    FER_REQUIRE(gap > 0.0, FER_DIAMETER_CLOSES_ON_STEM);
    compression->fraction = (walls - gap) / walls;
    return FER_OK;
}

/* The metal knows best where it is given with the restraint of its ends; without that it is one of two extremes. */
static void find_best_compression(const job *j, const fer_forming *forming, const fer_found_ratio *by_model,
                                  fer_setup *setup)
{
    fer_best_compression *best = &setup->compression;
    fer_found_ratio formed;
    FER_LEAVE_OUT(formed.value);
    formed.status = setup->springback.status == FER_OK && is_restrained(j->order)
                        ? find_formed_compression(j, forming, &formed.value)
                        : FER_MATERIAL_MISSING;
    best->standard_uncertainty = setup->uncertainty;
    best->value = formed.status == FER_OK ? formed : fer_is_plain(j->order->model) ? setup->plain : *by_model;
    best->source = formed.status == FER_OK         ? FER_COMPRESSION_SOURCE_FORMING
                   : fer_is_plain(j->order->model) ? FER_COMPRESSION_SOURCE_PLAIN
                                                   : FER_COMPRESSION_SOURCE_MODEL;
}

/* ---- what remarks need ------------------------------------------------------------------------------------ */

static double plain_uncertainty(const job *j, const fer_setup *setup)
{
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_contributions found;
    if (fer_is_plain(j->order->model)) {
        return setup->uncertainty.status == FER_OK ? setup->uncertainty.value.fraction : 0.0;
    }
    return find_contributions(j, setup, plain, &found) == FER_OK ? found.standard_uncertainty : 0.0;
}

/* A compression that cannot be computed does not say that uncertainties are given. */
static int is_uncertainty_given(const job *j, const fer_setup *setup)
{
    return setup->uncertainty.status == FER_OK ||
           (setup->uncertainty.status != FER_UNCERTAINTY_EMPTY && j->is_uncertain);
}

/* Exact for the plain formula, otherwise by a normal distribution. */
static double share_inside(const fer_setup *setup, const fer_found_ratio *by_model)
{
    const double c = by_model->value.fraction, u = setup->uncertainty.value.fraction;
    return setup->shares.status == FER_OK ? setup->shares.value.inside.fraction
                                          : fer_normal_cdf((setup->range.upper.fraction - c) / u) -
                                                fer_normal_cdf((setup->range.lower.fraction - c) / u);
}

/* Hose on the stem minus ferrule bore, and its standard uncertainty; NaN where the ferrule was not measured outside. */
static void find_narrowness(const job *j, fer_plan_facts *facts)
{
    const fer_joint *joint = j->joint;
    FER_LEAVE_OUT(facts->too_narrow);
    facts->narrow_uncertainty = 0.0;
    if (joint->ferrule.outside.mm == 0.0) {
        return;
    }
    const double hose = fer_pair_value(fer_fitted_outside_pair(joint)), stem = joint->stem.outside.mm;
    const int widened = stem > joint->hose.inside.mm;
    const double slope[FER_INPUTS] = {widened ? -joint->hose.inside.mm / hose : 0.0,
                                      widened ? joint->hose.outside.mm / hose : 1.0,
                                      widened ? stem / hose : 0.0,
                                      2.0,
                                      -1.0,
                                      0.0};
    facts->too_narrow = hose - (joint->ferrule.outside.mm - 2.0 * joint->ferrule.wall.mm);
    facts->narrow_uncertainty =
        j->is_uncertain ? fer_combined_uncertainty(j->standard_deviation, slope) : 0.0;
}

static void find_stem(const fer_order *order, fer_plan_facts *facts)
{
    fer_stem_change change;
    fer_forming_load peak = order->load;
    FER_LEAVE_OUT(facts->strength);
    facts->peak_bore_fails = 0;
    if (!(order->joint.stem.bore.mm > 0.0) || !is_given(&order->stem_metal)) {
        return;
    }
    facts->strength = fer_stem_strength_checked(&order->joint.stem, &order->stem_metal, order->load);
    if (order->minimum_bore.mm > 0.0 && order->load.hose_pressure.mpa > 0.0) {
        peak.hose_pressure.mpa *= FER_HOSE_PEAK;
        const fer_status status =
            fer_load_stem_checked(&order->joint.stem, &order->stem_metal, peak, &change);
        facts->peak_bore_fails =
            status != FER_OK || order->joint.stem.bore.mm - change.bore_reduction.mm < order->minimum_bore.mm;
    }
}

static void find_facts(const job *j, const fer_press *press, const fer_found_ratio *by_model,
                       const formed_ferrule *formed, fer_setup *setup)
{
    const fer_forming *forming = &formed->forming;
    fer_plan_facts facts;
    facts.order = j->order;
    facts.press = press;
    facts.by_model = *by_model;
    facts.plain_uncertainty = plain_uncertainty(j, setup);
    facts.is_uncertainty_given = is_uncertainty_given(j, setup);
    facts.share_inside = share_inside(setup, &facts.by_model);
    facts.formed = formed->status;
    facts.closing = formed->closing;
    facts.formed_closes = setup->ends_free.status == FER_DIAMETER_CLOSES_ON_STEM ||
                          (is_restrained(j->order) && forming->crimp_bore.mm <= j->joint->stem.outside.mm);
    facts.formed_length = j->joint->ferrule.length.mm * forming->stretch.fraction;
    find_narrowness(j, &facts);
    find_stem(j->order, &facts);
    find_best_compression(j, forming, &facts.by_model, setup);
    setup->zone.status = find_zone(j->order, setup, &facts.limits_kind, &setup->zone.value);
    fer_make_remarks(&facts, setup);
}

/* ---- the call ----------------------------------------------------------------------------------------- */

static void repeat_order(const fer_order *order, fer_setup *setup)
{
    setup->range = range_of(order);
    setup->source = order->published.mm > 0.0 ? FER_TARGET_PUBLISHED : FER_TARGET_COMPUTED;
    setup->applies_to = order->applies_to;
    setup->tolerance = order->tolerance;
    setup->insertion = order->insertion;
    setup->skive_outside = order->skive_outside;
    setup->skive_inside = order->skive_inside;
}

/* Whether there is anything to plan, and for which target. */
static fer_status begin(const fer_order *order, const fer_checked_uncertainties *uncertainties,
                        const fer_checked_workplace *at, job *j, fer_length *target)
{
    FER_TRY(check_order(order, uncertainties, j));
    FER_TRY(at->of_press);
    FER_TRY(target_of(order, model_status(j), target));
    return at->of_dies;
}

static void plan(const job *j, const fer_checked_workplace *at, fer_setup *setup)
{
    formed_ferrule formed;
    repeat_order(j->order, setup);
    find_window_and_limits(j, setup);
    find_window_uncertainty(j, setup);
    find_compression(j, setup, FER_FLOW_NONE, &setup->plain);
    find_compression(j, setup, FER_FLOW_ENDS_FREE, &setup->ends_free);
    find_compression(j, setup, FER_FLOW_ENDS_FIXED, &setup->ends_fixed);
    const fer_found_ratio by_model = find_by_model(j, setup);
    find_uncertainty(j, &by_model, setup);
    find_shares(j, setup);
    find_springback_and_force(j->order, setup, &formed);
    find_capacity_use(at->press, setup);
    find_bore(j->order, setup);
    find_hose_limits(j->order, at->press, &formed, setup);
    find_die_figures(j, at, setup);
    find_springback_of_dial(at->press, setup);
    find_facts(j, at->press, &by_model, &formed, setup);
}

fer_checked_workplace fer_check_workplace(const fer_press *press, const fer_die *dies, size_t count)
{
    fer_checked_workplace at;
    FER_EMPTY(at);
    at.press = press;
    at.dies = dies;
    at.count = count;
    at.of_press = fer_check_press(press);
    at.of_dies = fer_check_dies(dies, count);
    if (at.of_press == FER_OK) {
        at.angles = fer_find_segment_angles(press->segments > 0 ? press->segments : FER_SEGMENTS_USUAL);
    }
    leave_out_figures(&at.nothing);
    at.nothing.segments = at.angles.segments;
    at.nothing.cautions = fer_stage_cautions(FER_STAGE_PLANNING);
    return at;
}

fer_status fer_plan_setup_at(const fer_order *order, const fer_checked_uncertainties *uncertainties,
                             const fer_checked_workplace *at, fer_setup *setup)
{
    job j;
    fer_length target;
    const fer_status status = begin(order, uncertainties, at, &j, &target);
    if (status != FER_OK) {
        FER_EMPTY(*setup);
        return status;
    }
    *setup = at->nothing;
    setup->target = target;
    plan(&j, at, setup);
    return FER_OK;
}

fer_status fer_plan_setup(const fer_order *order, const fer_press *press, const fer_die *dies, size_t count,
                          fer_setup *setup)
{
    FER_REQUIRE(setup, FER_ARGUMENT_MISSING);
    FER_EMPTY(*setup);
    FER_REQUIRE(order && press, FER_ARGUMENT_MISSING);
    const fer_checked_uncertainties uncertainties = fer_check_orders_uncertainties(&order->uncertainties);
    const fer_checked_workplace at = fer_check_workplace(press, dies, count);
    return fer_plan_setup_at(order, &uncertainties, &at, setup);
}
