/* SPDX-License-Identifier: MIT */
#include <ferrule/spread.h>

#include "limit_margin.h"
#include "numeric/check.h"
#include "numeric/pair.h"
#include "numeric/special.h"

#include <assert.h>
#include <string.h>

/* The inputs in the order of the members of fer_spread. */
enum { hose_inside, hose_outside, stem_outside, ferrule_wall, ferrule_outside, crimp_diameter, input_count };
enum { pair_count = input_count * (input_count - 1) / 2 };
static_assert(sizeof(fer_correlations) == pair_count * sizeof(double), "one correlation a pair of inputs");

typedef struct {
    double value[input_count];                    /* standard uncertainties */
    double correlation[input_count][input_count]; /* 1 on the diagonal */
} standard_spread;

static void list_uncertainties(const fer_spread *spread, fer_uncertainty list[input_count])
{
    list[hose_inside] = spread->hose_inside;
    list[hose_outside] = spread->hose_outside;
    list[stem_outside] = spread->stem_outside;
    list[ferrule_wall] = spread->ferrule_wall;
    list[ferrule_outside] = spread->ferrule_outside;
    list[crimp_diameter] = spread->diameter;
}

static double standard_uncertainty(const fer_uncertainty *uncertainty)
{
    switch (uncertainty->distribution) {
    case FER_DISTRIBUTION_RECTANGULAR:
        return uncertainty->amount.mm / sqrt(3.0);
    case FER_DISTRIBUTION_TRIANGULAR:
        return uncertainty->amount.mm / sqrt(6.0);
    case FER_DISTRIBUTION_NORMAL:
        break;
    }
    return uncertainty->amount.mm;
}

static void standardise(const fer_spread *spread, standard_spread *standard)
{
    fer_uncertainty list[input_count];
    double pairs[pair_count];
    size_t next = 0;
    list_uncertainties(spread, list);
    memcpy(pairs, &spread->correlations, sizeof pairs);
    for (size_t i = 0; i < input_count; i++) {
        standard->value[i] = standard_uncertainty(&list[i]);
        standard->correlation[i][i] = 1.0;
        for (size_t j = i + 1; j < input_count; j++) {
            standard->correlation[i][j] = standard->correlation[j][i] = pairs[next++];
        }
    }
}

/* ---- checks ------------------------------------------------------------------------------------------- */

static fer_status check_uncertainty(const fer_uncertainty *uncertainty)
{
    const double degrees = uncertainty->degrees_of_freedom;
    FER_REQUIRE(uncertainty->amount.mm >= 0.0 && uncertainty->amount.mm <= FER_LENGTH_MOST_MM,
                FER_SPREAD_AMOUNT_OUT_OF_RANGE);
    FER_REQUIRE((unsigned)uncertainty->distribution <= FER_DISTRIBUTION_TRIANGULAR,
                FER_SPREAD_DISTRIBUTION_UNKNOWN);
    FER_REQUIRE(degrees == 0.0 || (degrees >= 1.0 && fer_is_finite(degrees)),
                FER_SPREAD_DEGREES_OUT_OF_RANGE);
    return FER_OK;
}

/* Cholesky's decomposition of the correlations; a pivot that rounding made slightly negative counts as 0, and then
 * the rest of its column must be 0, too. */
static int is_possible(const standard_spread *standard)
{
    const double slack = 1e-12;
    double lower[input_count][input_count] = {{0.0}};
    for (size_t j = 0; j < input_count; j++) {
        double pivot = 1.0;
        for (size_t k = 0; k < j; k++) {
            pivot -= lower[j][k] * lower[j][k];
        }
        if (pivot < -slack) {
            return 0;
        }
        lower[j][j] = pivot > slack ? sqrt(pivot) : 0.0;
        for (size_t i = j + 1; i < input_count; i++) {
            double rest = standard->correlation[i][j];
            for (size_t k = 0; k < j; k++) {
                rest -= lower[i][k] * lower[j][k];
            }
            if (lower[j][j] == 0.0 && fabs(rest) > 1e-6) {
                return 0;
            }
            lower[i][j] = lower[j][j] == 0.0 ? 0.0 : rest / lower[j][j];
        }
    }
    return 1;
}

fer_status fer_check_spread(const fer_spread *spread)
{
    fer_uncertainty list[input_count];
    standard_spread standard;
    list_uncertainties(spread, list);
    for (size_t i = 0; i < input_count; i++) {
        FER_TRY(check_uncertainty(&list[i]));
    }
    standardise(spread, &standard);
    for (size_t i = 0; i < input_count; i++) {
        for (size_t j = 0; j < i; j++) {
            FER_REQUIRE(fabs(standard.correlation[i][j]) <= 1.0, FER_SPREAD_CORRELATION_OUT_OF_RANGE);
        }
    }
    FER_REQUIRE(is_possible(&standard), FER_SPREAD_CORRELATION_IMPOSSIBLE);
    return FER_OK;
}

/* ---- budget ------------------------------------------------------------------------------------------- */

/* Variance of sum(a[i] x[i]): a' R a with the standard uncertainties taken into a. */
static double variance(const standard_spread *standard, const double a[input_count])
{
    double sum = 0.0;
    for (size_t i = 0; i < input_count; i++) {
        for (size_t j = 0; j < input_count; j++) {
            sum += a[i] * standard->value[i] * a[j] * standard->value[j] * standard->correlation[i][j];
        }
    }
    return sum > 0.0 ? sum : 0.0;
}

static int is_correlated(const standard_spread *standard)
{
    for (size_t i = 0; i < input_count; i++) {
        for (size_t j = 0; j < i; j++) {
            if (standard->correlation[i][j] != 0.0) {
                return 1;
            }
        }
    }
    return 0;
}

/* Welch-Satterthwaite; 0 stands for infinitely many. */
static double effective_degrees(const fer_uncertainty list[input_count],
                                const double contribution[input_count], double uncertainty)
{
    double sum = 0.0;
    for (size_t i = 0; i < input_count; i++) {
        if (list[i].degrees_of_freedom > 0.0 && uncertainty > 0.0) {
            const double share = contribution[i] / uncertainty;
            sum += share * share * share * share / list[i].degrees_of_freedom;
        }
    }
    return sum > 0.0 ? 1.0 / sum : 0.0;
}

/* Two-sided; degrees of freedom are truncated to a whole number (GUM G.4.1). */
static double find_coverage_factor(double coverage, double degrees)
{
    const double tail = 0.5 * (1.0 - coverage);
    if (degrees == 0.0) {
        return -fer_normal_quantile(tail);
    }
    return -fer_student_quantile(tail, floor(degrees));
}

static void write_contributions(const double contribution[input_count], fer_budget *budget)
{
    budget->hose_inside.fraction = contribution[hose_inside];
    budget->hose_outside.fraction = contribution[hose_outside];
    budget->stem_outside.fraction = contribution[stem_outside];
    budget->ferrule_wall.fraction = contribution[ferrule_wall];
    budget->ferrule_outside.fraction = contribution[ferrule_outside];
    budget->diameter.fraction = contribution[crimp_diameter];
}

static void combine(const fer_spread *spread, const double slope[input_count], double coverage,
                    fer_budget *budget)
{
    fer_uncertainty list[input_count];
    standard_spread standard;
    double contribution[input_count];
    list_uncertainties(spread, list);
    standardise(spread, &standard);
    for (size_t i = 0; i < input_count; i++) {
        contribution[i] = slope[i] * standard.value[i];
    }
    const double uncertainty = sqrt(variance(&standard, slope));
    write_contributions(contribution, budget);
    budget->standard_uncertainty.fraction = uncertainty;
    budget->degrees_of_freedom = effective_degrees(list, contribution, uncertainty);
    budget->coverage_factor = find_coverage_factor(coverage, budget->degrees_of_freedom);
    budget->expanded_uncertainty.fraction = budget->coverage_factor * uncertainty;
}

static fer_status check_degrees(const fer_spread *spread)
{
    fer_uncertainty list[input_count];
    standard_spread standard;
    list_uncertainties(spread, list);
    standardise(spread, &standard);
    for (size_t i = 0; i < input_count; i++) {
        FER_REQUIRE(list[i].degrees_of_freedom == 0.0 || !is_correlated(&standard),
                    FER_SPREAD_CORRELATED_DEGREES);
    }
    return FER_OK;
}

static fer_status find_budget(const fer_joint *joint, const fer_spread *spread, fer_length diameter,
                              double coverage, fer_model model, fer_budget *budget)
{
    fer_compression_slopes slopes;
    fer_ratio compression;
    FER_REQUIRE(joint && spread, FER_ARGUMENT_MISSING);
    FER_TRY(fer_find_compression_slopes(joint, diameter, model, &slopes));
    FER_TRY(fer_compression(joint, diameter, model, &compression));
    FER_TRY(fer_check_spread(spread));
    FER_TRY(check_degrees(spread));
    FER_REQUIRE(coverage > 0.0 && coverage < 1.0, FER_SPREAD_COVERAGE_OUT_OF_RANGE);
    const double slope[input_count] = {slopes.hose_inside.per_mm,     slopes.hose_outside.per_mm,
                                       slopes.stem_outside.per_mm,    slopes.ferrule_wall.per_mm,
                                       slopes.ferrule_outside.per_mm, slopes.diameter.per_mm};
    budget->compression = compression;
    combine(spread, slope, coverage, budget);
    return FER_OK;
}

fer_status fer_uncertainty_budget(const fer_joint *joint, const fer_spread *spread, fer_length diameter,
                                  fer_ratio coverage, fer_model model, fer_budget *budget)
{
    const fer_budget none = {{NAN}, {NAN}, {NAN}, {NAN}, {NAN}, {NAN}, {NAN}, {NAN}, NAN, NAN, {NAN}};
    FER_REQUIRE(budget, FER_ARGUMENT_MISSING);
    *budget = none;
    return find_budget(joint, spread, diameter, coverage.fraction, model, budget);
}

/* ---- worst case ----------------------------------------------------------------------------------------- */

static fer_status list_half_widths(const fer_spread *spread, double half_width[input_count])
{
    fer_uncertainty list[input_count];
    list_uncertainties(spread, list);
    for (size_t i = 0; i < input_count; i++) {
        half_width[i] = list[i].amount.mm;
        FER_REQUIRE(half_width[i] == 0.0 || list[i].distribution != FER_DISTRIBUTION_NORMAL,
                    FER_SPREAD_NORMAL_WITHOUT_LIMITS);
    }
    return FER_OK;
}

/* Compression at a corner: `tight` is +1 where stem, wall, ferrule and diameter all raise it, `thick` is +1 where the
 * hose wall is at its thickest. */
static fer_status corner(const fer_joint *joint, const double half_width[input_count], double diameter,
                         fer_model model, double tight, double thick, double *compression)
{
    fer_joint moved = *joint;
    fer_ratio found;
    moved.hose.inside.mm -= thick * half_width[hose_inside];
    moved.hose.outside.mm += thick * half_width[hose_outside];
    moved.stem.outside.mm += tight * half_width[stem_outside];
    moved.stem.bore.mm = 0.0;
    moved.ferrule.wall.mm += tight * half_width[ferrule_wall];
    moved.ferrule.outside.mm += tight * half_width[ferrule_outside];
    const fer_length at = {diameter - tight * half_width[crimp_diameter]};
    FER_REQUIRE(fer_compression(&moved, at, model, &found) == FER_OK, FER_SPREAD_LEAVES_DOMAIN);
    *compression = found.fraction;
    return FER_OK;
}

/* Compression is monotone in every measurement, so the extremes are corners. A thicker hose wall raises it, but for
 * the soft wall where it is above 100 %: both are tried. */
static fer_status find_worst_case(const fer_joint *joint, const fer_spread *spread, fer_length diameter,
                                  fer_model model, fer_ratio_range *range)
{
    double half_width[input_count], thin, thick, low, high;
    fer_ratio middle;
    FER_REQUIRE(joint && spread, FER_ARGUMENT_MISSING);
    FER_TRY(fer_compression(joint, diameter, model, &middle));
    FER_TRY(fer_check_spread(spread));
    FER_TRY(list_half_widths(spread, half_width));
    FER_TRY(corner(joint, half_width, diameter.mm, model, -1.0, -1.0, &thin));
    FER_TRY(corner(joint, half_width, diameter.mm, model, -1.0, 1.0, &thick));
    low = fmin(thin, thick);
    FER_TRY(corner(joint, half_width, diameter.mm, model, 1.0, -1.0, &thin));
    FER_TRY(corner(joint, half_width, diameter.mm, model, 1.0, 1.0, &thick));
    high = fmax(thin, thick);
    range->least.fraction = low;
    range->most.fraction = high;
    return FER_OK;
}

fer_status fer_worst_case(const fer_joint *joint, const fer_spread *spread, fer_length diameter,
                          fer_model model, fer_ratio_range *range)
{
    FER_REQUIRE(range, FER_ARGUMENT_MISSING);
    range->least.fraction = range->most.fraction = NAN;
    return find_worst_case(joint, spread, diameter, model, range);
}

/* ---- yield -------------------------------------------------------------------------------------------- */

static fer_limit_margin margin_at(const fer_joint *joint, const standard_spread *standard, double limit)
{
    const double left = 1.0 - limit;
    const double slope[input_count] = {left, -left, -1.0, -2.0, 0.0, 1.0};
    const fer_pair walls = fer_pair_sum(joint->hose.outside.mm, -joint->hose.inside.mm);
    const fer_pair metal = fer_pair_sum(2.0 * joint->ferrule.wall.mm, joint->stem.outside.mm);
    const fer_pair gap = fer_pair_multiply(walls, fer_pair_sum(1.0, -limit));
    const fer_limit_margin margin = {fer_pair_value(fer_pair_add(metal, gap)),
                                     sqrt(variance(standard, slope))};
    return margin;
}

static fer_status check_normal(const fer_spread *spread)
{
    fer_uncertainty list[input_count];
    list_uncertainties(spread, list);
    for (size_t i = 0; i < input_count; i++) {
        FER_REQUIRE(list[i].distribution == FER_DISTRIBUTION_NORMAL || list[i].amount.mm == 0.0,
                    FER_SPREAD_NOT_NORMAL);
    }
    return FER_OK;
}

static fer_status check_hose_wall(const fer_joint *joint, const standard_spread *standard)
{
    const double wall[input_count] = {-1.0, 1.0, 0.0, 0.0, 0.0, 0.0};
    const double deviation = sqrt(variance(standard, wall));
    FER_REQUIRE(8.0 * deviation <= joint->hose.outside.mm - joint->hose.inside.mm, FER_SPREAD_TOO_WIDE);
    return FER_OK;
}

fer_status fer_find_limit_margins(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                                  fer_limit_margin *least, fer_limit_margin *most)
{
    standard_spread standard;
    FER_REQUIRE(joint && spread, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_joint(joint));
    FER_REQUIRE(fer_is_finite(range.least.fraction) && fer_is_finite(range.most.fraction),
                FER_COMPRESSION_NOT_A_NUMBER);
    FER_REQUIRE(range.least.fraction < range.most.fraction, FER_COMPRESSION_RANGE_WRONG_ORDER);
    FER_TRY(fer_check_spread(spread));
    FER_TRY(check_normal(spread));
    standardise(spread, &standard);
    FER_TRY(check_hose_wall(joint, &standard));
    *least = margin_at(joint, &standard, range.least.fraction);
    *most = margin_at(joint, &standard, range.most.fraction);
    FER_REQUIRE(least->deviation > 0.0 && most->deviation > 0.0, FER_SPREAD_EMPTY);
    return FER_OK;
}

fer_yield fer_yield_between(double diameter, const fer_limit_margin *least, const fer_limit_margin *most)
{
    fer_yield yield;
    yield.below.fraction = fer_normal_cdf((diameter - least->diameter) / least->deviation);
    yield.above.fraction = fer_normal_cdf((most->diameter - diameter) / most->deviation);
    /* both shares together cannot exceed 1 but by rounding */
    yield.inside.fraction = fmax(0.0, 1.0 - yield.below.fraction - yield.above.fraction);
    return yield;
}

static fer_status find_yield(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                             fer_length diameter, fer_yield *yield)
{
    fer_limit_margin least, most;
    FER_TRY(fer_find_limit_margins(joint, spread, range, &least, &most));
    FER_REQUIRE(fer_is_length(diameter), FER_DIAMETER_OUT_OF_RANGE);
    *yield = fer_yield_between(diameter.mm, &least, &most);
    return FER_OK;
}

fer_status fer_crimp_yield(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                           fer_length diameter, fer_yield *yield)
{
    const fer_yield none = {{NAN}, {NAN}, {NAN}};
    FER_REQUIRE(yield, FER_ARGUMENT_MISSING);
    *yield = none;
    return find_yield(joint, spread, range, diameter, yield);
}
