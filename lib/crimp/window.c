/* SPDX-License-Identifier: MIT */
/* Crimp diameters that a range of compression allows, and the best of them.
 * Method: closed formulas; the best step of a dial by strides that double and halve.
 * Formulas: include/ferrule/window.h; docs/window.md. */
#include <ferrule/window.h>

#include "crimp/compression_private.h"
#include "crimp/window_private.h"
#include "base/value_private.h"

fer_status fer_crimp_window_checked(const fer_joint *joint, fer_ratio_range range, fer_model model,
                                    fer_length_range *window)
{
    fer_length lower, upper;
    FER_TRY(fer_crimp_diameter_checked(joint, range.upper, model, &lower));
    FER_TRY(fer_crimp_diameter_checked(joint, range.lower, model, &upper));
    FER_REQUIRE(range.lower.fraction < range.upper.fraction, FER_COMPRESSION_RANGE_WRONG_ORDER);
    window->lower = lower;
    window->upper = upper;
    return FER_OK;
}

fer_status fer_crimp_window(const fer_joint *joint, fer_ratio_range range, fer_model model,
                            fer_length_range *window)
{
    FER_REQUIRE(window, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*window);
    FER_TRY(fer_check_joint(joint));
    FER_TRY(fer_check_model(joint, model));
    return fer_crimp_window_checked(joint, range, model, window);
}

/* Stationary point of the expected cost: the two normal densities, weighted, are equal. Of the two roots of that
 * quadratic this is the one with the lowest cost; `log_ratio` is ln of the square of deviation times the other's cost. */
static fer_status find_stationary(const fer_limit_margin *lower, const fer_limit_margin *upper,
                                  double log_ratio, fer_length *target)
{
    const double width = lower->diameter - upper->diameter;
    const double variance = lower->deviation * lower->deviation;
    const double ratio = variance / (upper->deviation * upper->deviation);
    const double under_root = ratio * width * width + (ratio - 1.0) * variance * log_ratio;
    FER_REQUIRE(under_root >= 0.0, FER_TARGET_DOES_NOT_EXIST);
    const fer_length found = {upper->diameter +
                              (width * width + variance * log_ratio) / (width + sqrt(under_root))};
    FER_REQUIRE(fer_is_length(found), FER_TARGET_DOES_NOT_EXIST);
    *target = found;
    return FER_OK;
}

fer_status fer_target_between(const fer_limit_margin *lower, const fer_limit_margin *upper,
                              double cost_too_loose, double cost_too_tight, fer_length *target)
{
    FER_REQUIRE(lower->mixture.count == 0 && upper->mixture.count == 0, FER_UNCERTAINTY_NOT_NORMAL);
    FER_REQUIRE(cost_too_loose > 0.0 && fer_is_finite(cost_too_loose), FER_COST_OUT_OF_RANGE);
    FER_REQUIRE(cost_too_tight > 0.0 && fer_is_finite(cost_too_tight), FER_COST_OUT_OF_RANGE);
    const double log_ratio =
        2.0 * (log(lower->deviation / upper->deviation) + log(cost_too_tight) - log(cost_too_loose));
    return find_stationary(lower, upper, log_ratio, target);
}

static fer_status find_target(const fer_joint *joint, const fer_uncertainties *uncertainties,
                              fer_ratio_range range, double cost_too_loose, double cost_too_tight,
                              fer_length *target, fer_shares *shares)
{
    fer_limit_margin lower, upper;
    FER_TRY(fer_find_limit_margins(joint, uncertainties, range, &lower, &upper));
    FER_TRY(fer_target_between(&lower, &upper, cost_too_loose, cost_too_tight, target));
    *shares = fer_shares_between(target->mm, &lower, &upper);
    return FER_OK;
}

/* The results before anything is known, each that is wanted. */
static fer_status leave_out(fer_length *target, fer_shares *shares)
{
    if (target) {
        FER_LEAVE_OUT(*target);
    }
    if (shares) {
        FER_LEAVE_OUT(*shares);
    }
    return target && shares ? FER_OK : FER_ARGUMENT_MISSING;
}

fer_status fer_cheapest_target(const fer_joint *joint, const fer_uncertainties *uncertainties,
                               fer_ratio_range range, double cost_too_loose, double cost_too_tight,
                               fer_length *target, fer_shares *shares)
{
    FER_TRY(leave_out(target, shares));
    return find_target(joint, uncertainties, range, cost_too_loose, cost_too_tight, target, shares);
}

fer_status fer_best_target(const fer_joint *joint, const fer_uncertainties *uncertainties,
                           fer_ratio_range range, fer_length *target, fer_shares *shares)
{
    return fer_cheapest_target(joint, uncertainties, range, 1.0, 1.0, target, shares);
}

static double share_outside(const fer_shares *shares)
{
    return shares->below.fraction + shares->above.fraction;
}

/* Share outside at a step of the dial. */
static double outside_at(double anchor, double graduation, double step, const fer_limit_margin *lower,
                         const fer_limit_margin *upper)
{
    const fer_shares shares = fer_shares_between(anchor + step * graduation, lower, upper);
    return share_outside(&shares);
}

/* Number of the step at which the conforming share has its one top. The strides double as long as that helps, since a fine
 * dial may
 * have millions of steps between here and there, and halve then. */
static double climb(double anchor, double graduation, double step, const fer_limit_margin *lower,
                    const fer_limit_margin *upper)
{
    double best = outside_at(anchor, graduation, step, lower, upper), stride = 1.0, change = 2.0;
    while (stride >= 1.0) {
        const double up = outside_at(anchor, graduation, step + stride, lower, upper);
        const double down = up < best ? up : outside_at(anchor, graduation, step - stride, lower, upper);
        if (!(down < best)) {
            change = 0.5;
        } else {
            step += up < best ? stride : -stride;
            best = down;
        }
        stride *= change;
    }
    return step;
}

/* From the middle of the window: the conforming share has one top. */
static fer_status find_best_step(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                 fer_ratio_range range, fer_length anchor, fer_length graduation,
                                 fer_length *target, fer_shares *shares)
{
    fer_limit_margin lower, upper;
    FER_TRY(fer_find_limit_margins(joint, uncertainties, range, &lower, &upper));
    FER_REQUIRE(fabs(anchor.mm) <= FER_LENGTH_MAXIMUM_MM, FER_TARGET_OUT_OF_RANGE);
    FER_REQUIRE(graduation.mm != 0.0, FER_PRESS_GRADUATION_MISSING);
    FER_REQUIRE(fer_is_graduation(graduation), FER_PRESS_GRADUATION_OUT_OF_RANGE);
    double step = floor((0.5 * (lower.diameter + upper.diameter) - anchor.mm) / graduation.mm + 0.5);
    step = climb(anchor.mm, graduation.mm, step, &lower, &upper);
    const fer_length found = {anchor.mm + step * graduation.mm};
    FER_REQUIRE(fer_is_length(found), FER_TARGET_DOES_NOT_EXIST);
    *target = found;
    *shares = fer_shares_between(found.mm, &lower, &upper);
    return FER_OK;
}

fer_status fer_best_graduated_target(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                     fer_ratio_range range, fer_length anchor, fer_length graduation,
                                     fer_length *target, fer_shares *shares)
{
    FER_TRY(leave_out(target, shares));
    return find_best_step(joint, uncertainties, range, anchor, graduation, target, shares);
}
