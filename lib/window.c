/* SPDX-License-Identifier: MIT */
#include <ferrule/window.h>

#include "limit_margin.h"
#include "numeric/check.h"

static fer_status find_window(const fer_joint *joint, fer_ratio_range range, fer_model model,
                              fer_length_range *window)
{
    fer_length least, most;
    FER_TRY(fer_crimp_diameter(joint, range.most, model, &least));
    FER_TRY(fer_crimp_diameter(joint, range.least, model, &most));
    FER_REQUIRE(range.least.fraction < range.most.fraction, FER_COMPRESSION_RANGE_WRONG_ORDER);
    window->least = least;
    window->most = most;
    return FER_OK;
}

fer_status fer_crimp_window(const fer_joint *joint, fer_ratio_range range, fer_model model,
                            fer_length_range *window)
{
    FER_REQUIRE(window, FER_ARGUMENT_MISSING);
    window->least.mm = window->most.mm = NAN;
    return find_window(joint, range, model, window);
}

/* Stationary point of the expected cost: the two normal densities, weighted, are equal. Of the two roots of that
 * quadratic this is the one with the least cost; `log_ratio` is ln of the square of deviation times the other's cost. */
static fer_status find_stationary(const fer_limit_margin *least, const fer_limit_margin *most,
                                  double log_ratio, double *diameter)
{
    const double width = least->diameter - most->diameter;
    const double variance = least->deviation * least->deviation;
    const double ratio = variance / (most->deviation * most->deviation);
    const double under_root = ratio * width * width + (ratio - 1.0) * variance * log_ratio;
    FER_REQUIRE(under_root >= 0.0, FER_TARGET_DOES_NOT_EXIST);
    *diameter = most->diameter + (width * width + variance * log_ratio) / (width + sqrt(under_root));
    FER_REQUIRE(*diameter >= FER_LENGTH_LEAST_MM && *diameter <= FER_LENGTH_MOST_MM,
                FER_TARGET_DOES_NOT_EXIST);
    return FER_OK;
}

static fer_status find_target(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                              double cost_too_loose, double cost_too_tight, fer_length *target,
                              fer_yield *yield)
{
    fer_limit_margin least, most;
    double diameter;
    FER_TRY(fer_find_limit_margins(joint, spread, range, &least, &most));
    FER_REQUIRE(cost_too_loose > 0.0 && fer_is_finite(cost_too_loose), FER_COST_OUT_OF_RANGE);
    FER_REQUIRE(cost_too_tight > 0.0 && fer_is_finite(cost_too_tight), FER_COST_OUT_OF_RANGE);
    const double log_ratio =
        2.0 * (log(least.deviation / most.deviation) + log(cost_too_tight) - log(cost_too_loose));
    FER_TRY(find_stationary(&least, &most, log_ratio, &diameter));
    target->mm = diameter;
    *yield = fer_yield_between(diameter, &least, &most);
    return FER_OK;
}

fer_status fer_cheapest_target(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                               double cost_too_loose, double cost_too_tight, fer_length *target,
                               fer_yield *yield)
{
    const fer_yield none = {{NAN}, {NAN}, {NAN}};
    if (target) {
        target->mm = NAN;
    }
    if (yield) {
        *yield = none;
    }
    FER_REQUIRE(target && yield, FER_ARGUMENT_MISSING);
    return find_target(joint, spread, range, cost_too_loose, cost_too_tight, target, yield);
}

fer_status fer_best_target(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                           fer_length *target, fer_yield *yield)
{
    return fer_cheapest_target(joint, spread, range, 1.0, 1.0, target, yield);
}
