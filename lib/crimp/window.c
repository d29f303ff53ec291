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
    fer_length least, most;
    FER_TRY(fer_crimp_diameter_checked(joint, range.most, model, &least));
    FER_TRY(fer_crimp_diameter_checked(joint, range.least, model, &most));
    FER_REQUIRE(range.least.fraction < range.most.fraction, FER_COMPRESSION_RANGE_WRONG_ORDER);
    window->least = least;
    window->most = most;
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
 * quadratic this is the one with the least cost; `log_ratio` is ln of the square of deviation times the other's cost. */
static fer_status find_stationary(const fer_limit_margin *least, const fer_limit_margin *most,
                                  double log_ratio, fer_length *target)
{
    const double width = least->diameter - most->diameter;
    const double variance = least->deviation * least->deviation;
    const double ratio = variance / (most->deviation * most->deviation);
    const double under_root = ratio * width * width + (ratio - 1.0) * variance * log_ratio;
    FER_REQUIRE(under_root >= 0.0, FER_TARGET_DOES_NOT_EXIST);
    const fer_length found = {most->diameter +
                              (width * width + variance * log_ratio) / (width + sqrt(under_root))};
    FER_REQUIRE(fer_is_length(found), FER_TARGET_DOES_NOT_EXIST);
    *target = found;
    return FER_OK;
}

fer_status fer_target_between(const fer_limit_margin *least, const fer_limit_margin *most,
                              double cost_too_loose, double cost_too_tight, fer_length *target)
{
    FER_REQUIRE(least->mixture.count == 0 && most->mixture.count == 0, FER_SPREAD_NOT_NORMAL);
    FER_REQUIRE(cost_too_loose > 0.0 && fer_is_finite(cost_too_loose), FER_COST_OUT_OF_RANGE);
    FER_REQUIRE(cost_too_tight > 0.0 && fer_is_finite(cost_too_tight), FER_COST_OUT_OF_RANGE);
    const double log_ratio =
        2.0 * (log(least->deviation / most->deviation) + log(cost_too_tight) - log(cost_too_loose));
    return find_stationary(least, most, log_ratio, target);
}

static fer_status find_target(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                              double cost_too_loose, double cost_too_tight, fer_length *target,
                              fer_yield *yield)
{
    fer_limit_margin least, most;
    FER_TRY(fer_find_limit_margins(joint, spread, range, &least, &most));
    FER_TRY(fer_target_between(&least, &most, cost_too_loose, cost_too_tight, target));
    *yield = fer_yield_between(target->mm, &least, &most);
    return FER_OK;
}

/* The results before anything is known, each that is wanted. */
static fer_status leave_out(fer_length *target, fer_yield *yield)
{
    if (target) {
        FER_LEAVE_OUT(*target);
    }
    if (yield) {
        FER_LEAVE_OUT(*yield);
    }
    return target && yield ? FER_OK : FER_ARGUMENT_MISSING;
}

fer_status fer_cheapest_target(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                               double cost_too_loose, double cost_too_tight, fer_length *target,
                               fer_yield *yield)
{
    FER_TRY(leave_out(target, yield));
    return find_target(joint, spread, range, cost_too_loose, cost_too_tight, target, yield);
}

fer_status fer_best_target(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                           fer_length *target, fer_yield *yield)
{
    return fer_cheapest_target(joint, spread, range, 1.0, 1.0, target, yield);
}

static double outside(const fer_yield *yield)
{
    return yield->below.fraction + yield->above.fraction;
}

/* Share outside at a step of the dial. */
static double outside_at(double anchor, double graduation, double step, const fer_limit_margin *least,
                         const fer_limit_margin *most)
{
    const fer_yield yield = fer_yield_between(anchor + step * graduation, least, most);
    return outside(&yield);
}

/* Number of the step at which the yield has its one top. The strides double as long as that helps, since a fine dial may
 * have millions of steps between here and there, and halve then. */
static double climb(double anchor, double graduation, double step, const fer_limit_margin *least,
                    const fer_limit_margin *most)
{
    double best = outside_at(anchor, graduation, step, least, most), stride = 1.0, change = 2.0;
    while (stride >= 1.0) {
        const double up = outside_at(anchor, graduation, step + stride, least, most);
        const double down = up < best ? up : outside_at(anchor, graduation, step - stride, least, most);
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

/* From the middle of the window: the yield has one top. */
static fer_status find_best_step(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                                 fer_length anchor, fer_length graduation, fer_length *target,
                                 fer_yield *yield)
{
    fer_limit_margin least, most;
    FER_TRY(fer_find_limit_margins(joint, spread, range, &least, &most));
    FER_REQUIRE(fabs(anchor.mm) <= FER_LENGTH_MOST_MM, FER_TARGET_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_graduation(graduation), FER_PRESS_GRADUATION_OUT_OF_RANGE);
    double step = floor((0.5 * (least.diameter + most.diameter) - anchor.mm) / graduation.mm + 0.5);
    step = climb(anchor.mm, graduation.mm, step, &least, &most);
    const fer_length found = {anchor.mm + step * graduation.mm};
    FER_REQUIRE(fer_is_length(found), FER_TARGET_DOES_NOT_EXIST);
    *target = found;
    *yield = fer_yield_between(found.mm, &least, &most);
    return FER_OK;
}

fer_status fer_best_graduated_target(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                                     fer_length anchor, fer_length graduation, fer_length *target,
                                     fer_yield *yield)
{
    FER_TRY(leave_out(target, yield));
    return find_best_step(joint, spread, range, anchor, graduation, target, yield);
}
