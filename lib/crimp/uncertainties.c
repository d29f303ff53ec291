/* SPDX-License-Identifier: MIT */
/* What uncertain measurements do to compression and to the share of crimps in a range.
 * Method: propagation by exact slopes (first and second order), corners, and exact distributions at both limits.
 * Formulas: include/ferrule/uncertainties.h; docs/uncertainties.md. */
#include <ferrule/uncertainties.h>

#include "crimp/uncertainties_private.h"
#include "base/value_private.h"
#include "crimp/compression_private.h"
#include "base/numeric/pair.h"
#include "base/numeric/special.h"

#include <assert.h>
#include <string.h>

/* The inputs in the order of the members of fer_uncertainties. */
enum { hose_inside, hose_outside, stem_outside, ferrule_wall, ferrule_outside, crimp_diameter, input_count };
enum { pair_count = input_count * (input_count - 1) / 2 };
static_assert(sizeof(fer_correlations) == pair_count * sizeof(double), "one correlation a pair of inputs");

static_assert((int)input_count == (int)FER_INPUTS, "as the private header says");

void fer_list_uncertainties(const fer_uncertainties *uncertainties, fer_uncertainty list[FER_INPUTS])
{
    list[hose_inside] = uncertainties->hose_inside;
    list[hose_outside] = uncertainties->hose_outside;
    list[stem_outside] = uncertainties->stem_outside;
    list[ferrule_wall] = uncertainties->ferrule_wall;
    list[ferrule_outside] = uncertainties->ferrule_outside;
    list[crimp_diameter] = uncertainties->diameter;
}

static double standard_uncertainty(const fer_uncertainty *uncertainty)
{
    if (uncertainty->distribution == FER_DISTRIBUTION_NORMAL) {
        return uncertainty->amount.mm;
    }
    return uncertainty->amount.mm /
           sqrt(uncertainty->distribution == FER_DISTRIBUTION_RECTANGULAR ? 3.0 : 6.0);
}

static void fill_correlations(const double pairs[pair_count], fer_standard_uncertainties *standard)
{
    size_t next = 0;
    for (size_t i = 0; i < input_count; i++) {
        standard->correlation[i][i] = 1.0;
        for (size_t j = i + 1; j < input_count; j++) {
            standard->correlation[i][j] = standard->correlation[j][i] = pairs[next++];
        }
    }
}

static void standardise(const fer_uncertainty list[input_count], const fer_correlations *correlations,
                        fer_standard_uncertainties *standard)
{
    double pairs[pair_count];
    standard->mixed = 0;
    memcpy(pairs, correlations, sizeof pairs);
    for (size_t i = 0; i < input_count; i++) {
        standard->value[i] = standard_uncertainty(&list[i]);
        standard->mixed |= list[i].distribution != FER_DISTRIBUTION_NORMAL && list[i].amount.mm > 0.0;
    }
    double sum = 0.0; /* 0 where all are, NaN where one is */
    for (size_t i = 0; i < pair_count; i++) {
        sum += fabs(pairs[i]);
    }
    standard->correlated = !(sum == 0.0);
    if (standard->correlated) {
        fill_correlations(pairs, standard);
    }
}

/* ---- checks ------------------------------------------------------------------------------------------- */

static fer_status check_uncertainty(const fer_uncertainty *uncertainty, fer_fault_visitor *faults)
{
    const double degrees = uncertainty->degrees_of_freedom;
    FER_RULE(faults, fer_uncertainty, amount,
             fer_unless(uncertainty->amount.mm >= 0.0 && uncertainty->amount.mm <= FER_LENGTH_MAXIMUM_MM,
                        FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE));
    FER_RULE(faults, fer_uncertainty, distribution,
             fer_unless((unsigned)uncertainty->distribution <= FER_DISTRIBUTION_TRIANGULAR,
                        FER_UNCERTAINTY_DISTRIBUTION_UNKNOWN));
    FER_RULE(faults, fer_uncertainty, degrees_of_freedom,
             fer_unless(degrees == 0.0 || (degrees >= 1.0 && fer_is_finite(degrees)),
                        FER_UNCERTAINTY_DEGREES_OUT_OF_RANGE));
    return FER_OK;
}

/* Cholesky's decomposition of the correlations, 0 where it fails; a pivot that rounding made slightly negative counts
 * as 0, and then the rest of its column must be 0, too. */
static int decompose(const fer_standard_uncertainties *standard, double lower[input_count][input_count])
{
    const double slack = 1e-12;
    memset(lower, 0, sizeof(double[input_count][input_count]));
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

static fer_status check_correlations(const fer_standard_uncertainties *standard, fer_fault_visitor *faults)
{
    double lower[input_count][input_count];
    for (size_t i = 0; i < input_count; i++) {
        for (size_t j = 0; j < i; j++) {
            FER_RULE(faults, fer_uncertainties, correlations,
                     fer_unless(fabs(standard->correlation[i][j]) <= 1.0,
                                FER_UNCERTAINTY_CORRELATION_OUT_OF_RANGE));
        }
    }
    FER_RULE(faults, fer_uncertainties, correlations,
             fer_unless(decompose(standard, lower), FER_UNCERTAINTY_CORRELATION_IMPOSSIBLE));
    return FER_OK;
}

static fer_status check_list(const fer_uncertainty list[input_count], const fer_correlations *correlations,
                             fer_standard_uncertainties *standard, fer_fault_visitor *faults)
{
    for (size_t i = 0; i < input_count; i++) {
        FER_RULES_INSIDE(faults, i * sizeof *list, check_uncertainty(&list[i], faults));
    }
    standardise(list, correlations, standard);
    return standard->correlated ? check_correlations(standard, faults) : FER_OK;
}

fer_status fer_check_uncertainty_rules(const fer_uncertainties *uncertainties,
                                       fer_standard_uncertainties *standard, fer_fault_visitor *faults)
{
    fer_uncertainty list[input_count];
    fer_list_uncertainties(uncertainties, list);
    return check_list(list, &uncertainties->correlations, standard, faults);
}

fer_status fer_check_uncertainties(const fer_uncertainties *uncertainties,
                                   fer_standard_uncertainties *standard)
{
    return fer_check_uncertainty_rules(uncertainties, standard, NULL);
}

/* ---- budget ------------------------------------------------------------------------------------------- */

/* Variance of sum(a[i] x[i]): a' R a with the standard uncertainties taken into a. */
static double variance(const fer_standard_uncertainties *standard, const double a[input_count])
{
    double sum = 0.0;
    if (!standard->correlated) {
        for (size_t i = 0; i < input_count; i++) {
            sum += a[i] * standard->value[i] * (a[i] * standard->value[i]);
        }
        return sum;
    }
    for (size_t i = 0; i < input_count; i++) {
        for (size_t j = 0; j < input_count; j++) {
            sum += a[i] * standard->value[i] * a[j] * standard->value[j] * standard->correlation[i][j];
        }
    }
    return sum > 0.0 ? sum : 0.0;
}

/* Welch-Satterthwaite; 0 stands for infinitely many. */
static double effective_degrees(const fer_uncertainty list[input_count],
                                const double contribution[input_count], double uncertainty)
{
    double sum = 0.0;
    for (size_t i = 0; i < input_count; i++) {
        if (list[i].degrees_of_freedom > 0.0) { /* NaN, and so 0 in the end, where nothing is uncertain */
            const double share = contribution[i] / uncertainty;
            sum += share * share * share * share / list[i].degrees_of_freedom;
        }
    }
    return sum > 1e-300 ? 1.0 / sum : 0.0; /* more than a double holds are infinitely many */
}

/* Two-sided; degrees of freedom are truncated to a whole number (GUM G.4.1). */
static double find_coverage_factor(double coverage, double degrees)
{
    const double tail = 0.5 * (1.0 - coverage);
    if (degrees == 0.0) {
        return -fer_normal_quantile(tail);
    }
    return -fer_student_quantile(tail, floor(degrees * (1.0 + 1e-12))); /* 93 may have come out just below */
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

static void combine(const fer_uncertainty list[input_count], const fer_standard_uncertainties *standard,
                    const double slope[input_count], double coverage, fer_budget *budget)
{
    double contribution[input_count];
    for (size_t i = 0; i < input_count; i++) {
        contribution[i] = slope[i] * standard->value[i];
    }
    const double uncertainty = sqrt(variance(standard, slope));
    write_contributions(contribution, budget);
    budget->standard_uncertainty.fraction = uncertainty;
    budget->degrees_of_freedom = effective_degrees(list, contribution, uncertainty);
    budget->coverage_factor = find_coverage_factor(coverage, budget->degrees_of_freedom);
    budget->expanded_uncertainty.fraction = budget->coverage_factor * uncertainty;
}

static fer_status check_degrees(const fer_uncertainty list[input_count],
                                const fer_standard_uncertainties *standard)
{
    for (size_t i = 0; standard->correlated && i < input_count; i++) {
        FER_REQUIRE(list[i].degrees_of_freedom == 0.0, FER_UNCERTAINTY_CORRELATED_DEGREES);
    }
    return FER_OK;
}

/* The slopes in the order of the inputs. */
static void list_slopes(const fer_compression_slopes *slopes, double list[input_count])
{
    list[hose_inside] = slopes->hose_inside.per_mm;
    list[hose_outside] = slopes->hose_outside.per_mm;
    list[stem_outside] = slopes->stem_outside.per_mm;
    list[ferrule_wall] = slopes->ferrule_wall.per_mm;
    list[ferrule_outside] = slopes->ferrule_outside.per_mm;
    list[crimp_diameter] = slopes->diameter.per_mm;
}

double fer_combined_uncertainty(const fer_standard_uncertainties *standard, const double slope[FER_INPUTS])
{
    return sqrt(variance(standard, slope));
}

static fer_status give_budget(const fer_uncertainty list[input_count],
                              const fer_standard_uncertainties *standard,
                              const fer_compression_slopes *slopes, double coverage, fer_budget *budget)
{
    double slope[input_count];
    FER_TRY(check_degrees(list, standard));
    FER_REQUIRE(coverage > 0.0 && coverage < 1.0, FER_UNCERTAINTY_COVERAGE_OUT_OF_RANGE);
    list_slopes(slopes, slope);
    combine(list, standard, slope, coverage, budget);
    return FER_OK;
}

fer_status fer_find_contributions(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  const fer_standard_uncertainties *standard, fer_length diameter,
                                  fer_model model, fer_contributions *found)
{
    fer_uncertainty list[input_count];
    fer_compression_slopes slopes;
    double slope[input_count];
    FER_TRY(fer_compression_slopes_checked(joint, diameter, model, &slopes));
    fer_list_uncertainties(uncertainties, list);
    FER_TRY(check_degrees(list, standard));
    list_slopes(&slopes, slope);
    for (size_t i = 0; i < input_count; i++) {
        found->part[i] = slope[i] * standard->value[i];
    }
    found->standard_uncertainty = fer_combined_uncertainty(standard, slope);
    return FER_OK;
}

fer_status fer_diameter_uncertainty_checked(const fer_joint *joint,
                                            const fer_standard_uncertainties *standard, fer_length diameter,
                                            fer_model model, fer_length *uncertainty)
{
    fer_compression_slopes slopes;
    double slope[input_count];
    FER_TRY(fer_compression_slopes_checked(joint, diameter, model, &slopes));
    list_slopes(&slopes, slope);
    slope[crimp_diameter] = 0.0;
    const double combined = sqrt(variance(standard, slope));
    FER_REQUIRE(combined > 0.0, FER_UNCERTAINTY_EMPTY);
    uncertainty->mm = combined / fabs(slopes.diameter.per_mm);
    return FER_OK;
}

static fer_status find_budget(const fer_joint *joint, const fer_uncertainties *uncertainties,
                              fer_length diameter, double coverage, fer_model model, fer_budget *budget)
{
    fer_compression_slopes slopes;
    fer_ratio compression;
    fer_uncertainty list[input_count];
    fer_standard_uncertainties standard;
    FER_REQUIRE(joint && uncertainties, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_joint(joint));
    FER_TRY(fer_check_model(joint, model));
    FER_TRY(fer_compression_and_slopes(joint, diameter, model, &compression, &slopes));
    fer_list_uncertainties(uncertainties, list);
    FER_TRY(check_list(list, &uncertainties->correlations, &standard, NULL));
    FER_TRY(give_budget(list, &standard, &slopes, coverage, budget));
    budget->compression = compression;
    return FER_OK;
}

fer_status fer_uncertainty_budget(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  fer_length diameter, fer_ratio coverage, fer_model model,
                                  fer_budget *budget)
{
    FER_REQUIRE(budget, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*budget);
    return find_budget(joint, uncertainties, diameter, coverage.fraction, model, budget);
}

/* ---- second order -------------------------------------------------------------------------------------- */

/* Slopes at the joint with one input moved. */
static fer_status slopes_at(const fer_joint *joint, double diameter, fer_model model, size_t input,
                            double step, double slope[input_count])
{
    fer_joint moved = *joint;
    fer_length at = {diameter};
    double *const inputs[input_count] = {&moved.hose.inside.mm,     &moved.hose.outside.mm,
                                         &moved.stem.outside.mm,    &moved.ferrule.wall.mm,
                                         &moved.ferrule.outside.mm, &at.mm};
    fer_compression_slopes slopes;
    *inputs[input] += step;
    moved.stem.bore.mm = 0.0;
    FER_REQUIRE(fer_find_compression_slopes(&moved, at, model, &slopes) == FER_OK,
                FER_UNCERTAINTY_LEAVES_DOMAIN);
    list_slopes(&slopes, slope);
    return FER_OK;
}

/* Derivatives of all slopes against one input, by five points: error of the order of step^4. */
static fer_status curvatures_against(const fer_joint *joint, double diameter, fer_model model, size_t input,
                                     double step, double second[input_count], double third[input_count])
{
    double at[5][input_count];
    for (int place = 0; place < 5; place++) {
        FER_TRY(slopes_at(joint, diameter, model, input, (place - 2) * step, at[place]));
    }
    for (size_t i = 0; i < input_count; i++) {
        second[i] = (8.0 * (at[3][i] - at[1][i]) - (at[4][i] - at[0][i])) / (12.0 * step);
        third[i] =
            (16.0 * (at[3][i] + at[1][i]) - (at[4][i] + at[0][i]) - 30.0 * at[2][i]) / (12.0 * step * step);
    }
    return FER_OK;
}

/* Fourth moment by the square of the variance. */
static double kurtosis(fer_distribution distribution)
{
    return distribution == FER_DISTRIBUTION_RECTANGULAR  ? 1.8
           : distribution == FER_DISTRIBUTION_TRIANGULAR ? 2.4
                                                         : 3.0;
}

/* The second-order part of the variance that belongs to input j with all others: GUM's sum over i, where the term i = j
 * follows the distribution's fourth moment. */
static double second_order_part(const fer_uncertainty *list, const double value[input_count], size_t j,
                                const double slope[input_count], const double second[input_count],
                                const double third[input_count])
{
    const double square = value[j] * value[j], fourth = kurtosis(list[j].distribution);
    double sum =
        square * square * ((fourth - 1.0) / 4.0 * second[j] * second[j] + fourth / 3.0 * slope[j] * third[j]);
    for (size_t i = 0; i < input_count; i++) {
        if (i != j) {
            sum += value[i] * value[i] * square * (0.5 * second[i] * second[i] + slope[i] * third[i]);
        }
    }
    return sum;
}

/* The fitted wall has a kink where the stem is as thick as the hose inside. */
static fer_status check_kink(const fer_joint *joint, const fer_standard_uncertainties *standard,
                             fer_model model, double step)
{
    const double difference[input_count] = {-1.0, 0.0, 1.0, 0.0, 0.0, 0.0};
    const double reach = fmax(2.0 * step, 3.0 * sqrt(variance(standard, difference)));
    FER_REQUIRE(model.basis != FER_BASIS_FITTED_WALL ||
                    fabs(joint->stem.outside.mm - joint->hose.inside.mm) > reach,
                FER_UNCERTAINTY_AT_KINK);
    return FER_OK;
}

static fer_status find_second_order(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                    fer_length diameter, fer_model model, fer_second_order *order)
{
    fer_uncertainty list[input_count];
    fer_standard_uncertainties standard;
    fer_compression_slopes slopes;
    fer_ratio compression;
    double slope[input_count], second[input_count], third[input_count], rest = 0.0, shift = 0.0;
    FER_REQUIRE(joint && uncertainties, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_joint(joint));
    FER_TRY(fer_check_model(joint, model));
    FER_TRY(fer_compression_and_slopes(joint, diameter, model, &compression, &slopes));
    FER_TRY(fer_check_uncertainties(uncertainties, &standard));
    fer_list_uncertainties(uncertainties, list);
    list_slopes(&slopes, slope);
    FER_REQUIRE(!standard.correlated, FER_UNCERTAINTY_CORRELATED_SECOND_ORDER);
    const double step = (joint->hose.outside.mm - joint->hose.inside.mm) / 1024.0;
    FER_TRY(check_kink(joint, &standard, model, step));
    for (size_t j = 0; j < input_count; j++) {
        if (standard.value[j] > 0.0 && (j != ferrule_outside || model.flow != FER_FLOW_NONE)) {
            FER_TRY(curvatures_against(joint, diameter.mm, model, j, step, second, third));
            rest += second_order_part(list, standard.value, j, slope, second, third);
            shift += 0.5 * second[j] * standard.value[j] * standard.value[j];
        }
    }
    const double first = variance(&standard, slope);
    order->compression = compression;
    order->first_order.fraction = sqrt(first);
    order->second_order.fraction = sqrt(fmax(0.0, first + rest));
    order->shift.fraction = shift;
    return FER_OK;
}

fer_status fer_second_order_uncertainty(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                        fer_length diameter, fer_model model, fer_second_order *order)
{
    FER_REQUIRE(order, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*order);
    return find_second_order(joint, uncertainties, diameter, model, order);
}

/* ---- worst case ----------------------------------------------------------------------------------------- */

static fer_status list_half_widths(const fer_uncertainties *uncertainties, double half_width[input_count])
{
    fer_uncertainty list[input_count];
    fer_list_uncertainties(uncertainties, list);
    for (size_t i = 0; i < input_count; i++) {
        half_width[i] = list[i].amount.mm;
        FER_REQUIRE(half_width[i] == 0.0 || list[i].distribution != FER_DISTRIBUTION_NORMAL,
                    FER_UNCERTAINTY_NORMAL_WITHOUT_LIMITS);
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
    FER_REQUIRE(fer_compression(&moved, at, model, &found) == FER_OK, FER_UNCERTAINTY_LEAVES_DOMAIN);
    *compression = found.fraction;
    return FER_OK;
}

/* Compression is monotone in every measurement, so the extremes are corners. A thicker hose wall raises it, but for
 * the soft wall where it is above 100 %: both are tried. */
static fer_status find_worst_case(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  fer_length diameter, fer_model model, fer_ratio_range *range)
{
    double half_width[input_count], low = INFINITY, high = -INFINITY;
    fer_standard_uncertainties standard;
    fer_ratio middle;
    FER_REQUIRE(joint && uncertainties, FER_ARGUMENT_MISSING);
    FER_TRY(fer_compression(joint, diameter, model, &middle));
    FER_TRY(fer_check_uncertainties(uncertainties, &standard));
    FER_TRY(list_half_widths(uncertainties, half_width));
    for (int i = 0; i < 4; i++) {
        double found;
        FER_TRY(corner(joint, half_width, diameter.mm, model, i < 2 ? -1.0 : 1.0, i % 2 == 0 ? -1.0 : 1.0,
                       &found));
        low = fmin(low, found);
        high = fmax(high, found);
    }
    range->lower.fraction = low;
    range->upper.fraction = high;
    return FER_OK;
}

fer_status fer_worst_case(const fer_joint *joint, const fer_uncertainties *uncertainties, fer_length diameter,
                          fer_model model, fer_ratio_range *range)
{
    FER_REQUIRE(range, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*range);
    return find_worst_case(joint, uncertainties, diameter, model, range);
}

/* ---- conforming share -------------------------------------------------------------------------------- */

/* Share of the inputs that are not normal in sum(slope x); the normal ones count together. */
static fer_mixture mixture_of(const fer_uncertainties *uncertainties,
                              const fer_standard_uncertainties *standard, const double slope[input_count])
{
    fer_uncertainty list[input_count];
    fer_mixture mixture = {0.0, {{0.0, 0}}, 0};
    double normal[input_count];
    if (!standard->mixed) {
        return mixture;
    }
    fer_list_uncertainties(uncertainties, list);
    for (size_t i = 0; i < input_count; i++) {
        const double half_width = fabs(slope[i]) * list[i].amount.mm;
        normal[i] = list[i].distribution == FER_DISTRIBUTION_NORMAL ? slope[i] : 0.0;
        if (list[i].distribution != FER_DISTRIBUTION_NORMAL && half_width > 0.0) {
            mixture.parts[mixture.count].half_width = half_width;
            mixture.parts[mixture.count++].order =
                list[i].distribution == FER_DISTRIBUTION_RECTANGULAR ? 1 : 2;
        }
    }
    mixture.deviation = mixture.count > 0 ? sqrt(variance(standard, normal)) : 0.0;
    return mixture;
}

/* What of a limit's margin no joint changes. */
static fer_limit_margin spread_at(const fer_uncertainties *uncertainties,
                                  const fer_standard_uncertainties *standard, double limit)
{
    const double left = 1.0 - limit;
    const double slope[input_count] = {left, -left, -1.0, -2.0, 0.0, 1.0};
    fer_limit_margin margin;
    margin.diameter = margin.rest = 0.0;
    margin.deviation = sqrt(variance(standard, slope));
    margin.mixture =
        mixture_of(uncertainties, standard, slope); /* gcc -ftrivial-auto-var-init spoils it in a list */
    return margin;
}

static fer_pair diameter_at(const fer_joint *joint, double limit)
{
    const fer_pair walls = fer_pair_sum(joint->hose.outside.mm, -joint->hose.inside.mm);
    const fer_pair metal = fer_pair_sum(2.0 * joint->ferrule.wall.mm, joint->stem.outside.mm);
    const fer_pair gap = fer_pair_multiply(walls, fer_pair_sum(1.0, -limit));
    return fer_pair_add(metal, gap);
}

static void place_margin(const fer_joint *joint, double limit, fer_limit_margin *margin)
{
    const fer_pair diameter = diameter_at(joint, limit);
    margin->diameter = diameter.high;
    margin->rest = diameter.low;
}

fer_status fer_check_shapes(const fer_uncertainties *uncertainties,
                            const fer_standard_uncertainties *standard)
{
    fer_uncertainty list[input_count];
    if (!standard->mixed || !standard->correlated) {
        return FER_OK;
    }
    fer_list_uncertainties(uncertainties, list);
    for (size_t i = 0; i < input_count; i++) {
        for (size_t j = 0; j < input_count; j++) {
            const int counts = i != j && list[i].amount.mm > 0.0 && list[j].amount.mm > 0.0;
            FER_REQUIRE(list[i].distribution == FER_DISTRIBUTION_NORMAL || !counts ||
                            standard->correlation[i][j] == 0.0,
                        FER_UNCERTAINTY_NOT_NORMAL);
        }
    }
    return FER_OK;
}

void fer_find_scales(const fer_uncertainties *uncertainties, double scale[FER_INPUTS][FER_INPUTS])
{
    fer_uncertainty list[input_count];
    fer_standard_uncertainties standard;
    double pairs[pair_count];
    fer_list_uncertainties(uncertainties, list);
    memcpy(pairs, &uncertainties->correlations, sizeof pairs);
    fill_correlations(pairs, &standard);
    for (size_t i = 0; i < input_count; i++) {
        if (list[i].amount.mm == 0.0) { /* correlations with it mean nothing */
            for (size_t j = 0; j < input_count; j++) {
                standard.correlation[i][j] = standard.correlation[j][i] = i == j;
            }
        }
    }
    (void)decompose(&standard, scale);
    for (size_t i = 0; i < input_count; i++) {
        for (size_t j = 0; j <= i; j++) {
            scale[i][j] *= list[i].amount.mm;
        }
    }
}

static double wall_deviation(const fer_standard_uncertainties *standard)
{
    const double wall[input_count] = {-1.0, 1.0, 0.0, 0.0, 0.0, 0.0};
    return sqrt(variance(standard, wall));
}

static fer_status check_hose_wall(const fer_joint *joint, double deviation)
{
    FER_REQUIRE(8.0 * deviation <= joint->hose.outside.mm - joint->hose.inside.mm, FER_UNCERTAINTY_TOO_WIDE);
    return FER_OK;
}

fer_status fer_check_range(fer_ratio_range range)
{
    FER_REQUIRE(fer_is_finite(range.lower.fraction) && fer_is_finite(range.upper.fraction),
                FER_COMPRESSION_NOT_A_NUMBER);
    FER_REQUIRE(range.lower.fraction < range.upper.fraction, FER_COMPRESSION_RANGE_WRONG_ORDER);
    return FER_OK;
}

fer_status fer_limit_margins_checked(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                     const fer_standard_uncertainties *standard, fer_ratio_range range,
                                     fer_limit_margin *lower, fer_limit_margin *upper)
{
    FER_TRY(fer_check_shapes(uncertainties, standard));
    FER_TRY(check_hose_wall(joint, wall_deviation(standard)));
    *lower = spread_at(uncertainties, standard, fer_reachable(range.lower));
    *upper = spread_at(uncertainties, standard, fer_reachable(range.upper));
    place_margin(joint, fer_reachable(range.lower), lower);
    place_margin(joint, fer_reachable(range.upper), upper);
    FER_REQUIRE(lower->deviation > 0.0 && upper->deviation > 0.0, FER_UNCERTAINTY_EMPTY);
    return FER_OK;
}

static fer_status check_for_yield(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  fer_ratio_range range, fer_standard_uncertainties *standard)
{
    FER_REQUIRE(joint && uncertainties, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_joint(joint));
    FER_TRY(fer_check_range(range));
    return fer_check_uncertainties(uncertainties, standard);
}

fer_status fer_find_limit_margins(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  fer_ratio_range range, fer_limit_margin *lower, fer_limit_margin *upper)
{
    fer_standard_uncertainties standard;
    FER_TRY(check_for_yield(joint, uncertainties, range, &standard));
    return fer_limit_margins_checked(joint, uncertainties, &standard, range, lower, upper);
}

/* The sums of a mixture end near 0 and 1, on either side of them. */
static double share_below(const fer_limit_margin *margin, double distance)
{
    return margin->mixture.count == 0 ? fer_normal_cdf(distance / margin->deviation)
                                      : fmin(1.0, fmax(0.0, fer_mixture_cdf(&margin->mixture, distance)));
}

fer_shares fer_shares_between(double diameter, const fer_limit_margin *lower, const fer_limit_margin *upper)
{
    fer_shares shares;
    shares.below.fraction = share_below(lower, diameter - lower->diameter - lower->rest);
    shares.above.fraction = share_below(upper, upper->diameter - diameter + upper->rest);
    /* both shares together cannot exceed 1 but by rounding */
    shares.inside.fraction = fmax(0.0, 1.0 - shares.below.fraction - shares.above.fraction);
    return shares;
}

int fer_plan_shares(const fer_uncertainties *uncertainties, fer_ratio_range range, fer_share_plan *plan)
{
    fer_standard_uncertainties standard;
    if (!uncertainties || fer_check_range(range) != FER_OK ||
        fer_check_uncertainties(uncertainties, &standard) != FER_OK ||
        fer_check_shapes(uncertainties, &standard) != FER_OK) {
        return 0;
    }
    plan->lower_limit = fer_reachable(range.lower);
    plan->upper_limit = fer_reachable(range.upper);
    plan->wall_deviation = wall_deviation(&standard);
    plan->lower = spread_at(uncertainties, &standard, plan->lower_limit);
    plan->upper = spread_at(uncertainties, &standard, plan->upper_limit);
    return fmin(plan->lower.deviation, plan->upper.deviation) > 0.0;
}

static fer_status find_planned_shares(const fer_joint *joint, fer_length diameter, fer_share_plan *plan,
                                      fer_shares *shares)
{
    FER_TRY(fer_check_joint(joint));
    FER_TRY(check_hose_wall(joint, plan->wall_deviation));
    FER_TRY(fer_check_length(diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    place_margin(joint, plan->lower_limit, &plan->lower);
    place_margin(joint, plan->upper_limit, &plan->upper);
    *shares = fer_shares_between(diameter.mm, &plan->lower, &plan->upper);
    return FER_OK;
}

fer_status fer_planned_share(const fer_joint *joint, fer_length diameter, fer_share_plan *plan,
                             fer_shares *shares)
{
    FER_LEAVE_OUT(*shares);
    return find_planned_shares(joint, diameter, plan, shares);
}

static fer_status find_shares(const fer_joint *joint, const fer_uncertainties *uncertainties,
                              fer_ratio_range range, fer_length diameter, fer_shares *shares)
{
    fer_limit_margin lower, upper;
    FER_TRY(fer_find_limit_margins(joint, uncertainties, range, &lower, &upper));
    FER_TRY(fer_check_length(diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    *shares = fer_shares_between(diameter.mm, &lower, &upper);
    return FER_OK;
}

fer_status fer_conforming_share(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                fer_ratio_range range, fer_length diameter, fer_shares *shares)
{
    FER_REQUIRE(shares, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*shares);
    return find_shares(joint, uncertainties, range, diameter, shares);
}

/* ---- which measurement to improve ---------------------------------------------------------------------- */

/* Yield inside with one amount multiplied; without any uncertainty left a joint is inside or it is not. */
static double share_with(const fer_joint *joint, const fer_uncertainties *uncertainties,
                         fer_ratio_range range, fer_length diameter, size_t input, double factor)
{
    fer_uncertainties changed = *uncertainties;
    fer_uncertainty *const inputs[input_count] = {&changed.hose_inside,     &changed.hose_outside,
                                                  &changed.stem_outside,    &changed.ferrule_wall,
                                                  &changed.ferrule_outside, &changed.diameter};
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_uncertainty list[input_count];
    fer_standard_uncertainties standard;
    fer_limit_margin lower, upper;
    inputs[input]->amount.mm *= factor;
    fer_list_uncertainties(&changed, list);
    standardise(list, &changed.correlations, &standard);
    const fer_status status = fer_limit_margins_checked(joint, &changed, &standard, range, &lower, &upper);
    if (status == FER_OK) {
        return fer_shares_between(diameter.mm, &lower, &upper).inside.fraction;
    }
    fer_ratio compression;
    FER_LEAVE_OUT(compression); /* is not inside */
    if (status == FER_UNCERTAINTY_EMPTY) {
        (void)fer_compression_checked(joint, diameter, plain, &compression);
        return compression.fraction >= range.lower.fraction && compression.fraction <= range.upper.fraction;
    }
    return NAN;
}

/* Share of the variance at the limit that is missed more often. */
static double share_of(const fer_joint *joint, const fer_standard_uncertainties *standard,
                       fer_ratio_range range, fer_length diameter, size_t input)
{
    const double gap = diameter.mm - 2.0 * joint->ferrule.wall.mm - joint->stem.outside.mm;
    const double wall = joint->hose.outside.mm - joint->hose.inside.mm;
    const double lower = fer_reachable(range.lower), upper = fer_reachable(range.upper);
    const double left = 1.0 - (wall - gap > 0.5 * (lower + upper) * wall ? upper : lower);
    const double slope[input_count] = {left, -left, -1.0, -2.0, 0.0, 1.0};
    const double own = slope[input] * standard->value[input];
    return own * own / variance(standard, slope);
}

static void insert_by_gain(fer_improvement *list, size_t count, fer_improvement one)
{
    for (; count > 0 && list[count - 1].exact.fraction < one.exact.fraction; count--) {
        list[count] = list[count - 1];
    }
    list[count] = one;
}

static fer_status rank_measurements(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                    fer_ratio_range range, fer_length diameter, fer_improvement *improvements,
                                    size_t capacity, size_t *found)
{
    fer_standard_uncertainties standard;
    fer_limit_margin lower, upper;
    FER_TRY(check_for_yield(joint, uncertainties, range, &standard));
    FER_TRY(fer_limit_margins_checked(joint, uncertainties, &standard, range, &lower, &upper));
    FER_TRY(fer_check_length(diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_REQUIRE(capacity >= input_count - 1, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    const fer_shares shares = fer_shares_between(diameter.mm, &lower, &upper);
    for (size_t i = 0; i < input_count; i++) {
        if (i == ferrule_outside || standard.value[i] == 0.0) {
            continue;
        }
        const double halved = share_with(joint, uncertainties, range, diameter, i, 0.5);
        const double exact = share_with(joint, uncertainties, range, diameter, i, 0.0);
        const fer_improvement one = {(fer_measurement)i,
                                     {share_of(joint, &standard, range, diameter, i)},
                                     {halved - shares.inside.fraction},
                                     {exact - shares.inside.fraction}};
        insert_by_gain(improvements, (*found)++, one);
    }
    return FER_OK;
}

fer_status fer_rank_measurements(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                 fer_ratio_range range, fer_length diameter, fer_improvement *improvements,
                                 size_t capacity, size_t *found)
{
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    FER_REQUIRE(improvements, FER_ARGUMENT_MISSING);
    const fer_status status =
        rank_measurements(joint, uncertainties, range, diameter, improvements, capacity, found);
    if (status != FER_OK) {
        *found = 0;
    }
    return status;
}
