/* SPDX-License-Identifier: MIT */
/* Constants and limits of control charts.
 * Method: integrals of the range, Student's and chi-square's quantiles, tolerance factors; sums in double-double.
 * Formulas: include/ferrule/chart.h; docs/chart.md. */
#include <ferrule/chart.h>

#include "base/numeric/moments.h"
#include "base/numeric/pi.h"
#include "base/numeric/special.h"
#include "base/value_private.h"
#include "batch/chart_private.h"
#include "batch/numeric/beta.h"
#include "batch/numeric/gamma.h"
#include "batch/numeric/ranges.h"
#include "batch/numeric/tolerance.h"
#include "batch/sample_private.h"

/* ---- constants ------------------------------------------------------------------------------------------- */

/* Degrees of freedom of chi-square that scatters as much, by the square of a deviation's relative error (Patnaik). */
static double degrees_of(double relative_variance)
{
    return 0.5 / (sqrt(1.0 + 2.0 * relative_variance) - 1.0);
}

static fer_status find_constants(int pieces, int groups, fer_chart_constants *c)
{
    FER_REQUIRE(pieces >= 2 && pieces <= 100, FER_CHART_PIECES_OUT_OF_RANGE);
    FER_REQUIRE(groups >= 0 && groups <= FER_SAMPLE_MAXIMUM, FER_CHART_GROUPS_OUT_OF_RANGE);
    const double d2 = fer_range_mean(pieces), d3 = fer_range_deviation(pieces),
                 c4 = fer_deviation_mean(pieces);
    const double root = sqrt((double)pieces), rest = sqrt(1.0 - c4 * c4) / c4,
                 count = groups > 0 ? (double)groups : 1.0;
    c->range_mean = d2;
    c->range_deviation = d3;
    c->deviation_mean = c4;
    c->means_by_range = 3.0 / (d2 * root);
    c->means_by_deviation = 3.0 / (c4 * root);
    c->range_lower = fmax(0.0, 1.0 - 3.0 * d3 / d2);
    c->range_upper = 1.0 + 3.0 * d3 / d2;
    c->deviation_lower = fmax(0.0, 1.0 - 3.0 * rest);
    c->deviation_upper = 1.0 + 3.0 * rest;
    c->singles_by_range = 1.5 * sqrt(pi);
    c->range_root_mean_square = sqrt(d2 * d2 + d3 * d3 / count);
    c->range_degrees = degrees_of(d3 * d3 / (count * d2 * d2));
    return FER_OK;
}

fer_status fer_find_chart_constants(int pieces, int groups, fer_chart_constants *constants)
{
    FER_REQUIRE(constants, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*constants);
    return find_constants(pieces, groups, constants);
}

/* ---- rule ------------------------------------------------------------------------------------------------ */

typedef struct {
    double tail, assurance; /* the former: half the rate of false alarms */
    fer_limit_basis basis;
} limit_rule;

static fer_status take_rule(const fer_limit_rule *given, limit_rule *rule)
{
    const double rate = given->false_alarms.fraction, assurance = given->assurance.fraction;
    FER_REQUIRE((unsigned)given->basis < FER_LIMIT_BASIS_COUNT, FER_CHART_BASIS_UNKNOWN);
    FER_REQUIRE(rate == 0.0 || (rate >= 1e-5 && rate <= 0.5), FER_CHART_FALSE_ALARMS_OUT_OF_RANGE);
    FER_REQUIRE(assurance == 0.0 || (assurance > 0.5 && assurance <= 0.999999),
                FER_CHART_ASSURANCE_OUT_OF_RANGE);
    rule->basis = given->basis;
    rule->tail = rate == 0.0 ? fer_normal_cdf(-3.0) : 0.5 * rate;
    rule->assurance = assurance == 0.0 ? 0.9 : assurance;
    return FER_OK;
}

/* ---- limits ---------------------------------------------------------------------------------------------- */

/* What is charted: means of `size` pieces, or single ones; deviation of a piece as the rule takes it. */
typedef struct {
    double mean, deviation, degrees, count;
    int size;
} basis;

static int is_of_means(fer_chart_kind kind)
{
    return kind == FER_CHART_KIND_MEANS_BY_RANGE || kind == FER_CHART_KIND_MEANS_BY_DEVIATION;
}

/* Plain limits take the unbiased deviation, as texts do; the others the one whose square is. */
static void take_ranges(double mean_range, double d2, double relative_variance, const limit_rule *rule,
                        basis *b)
{
    const double scale = rule->basis == FER_LIMIT_BASIS_PLAIN ? 1.0 : sqrt(1.0 + relative_variance);
    b->deviation = mean_range / (d2 * scale);
    b->degrees = degrees_of(relative_variance);
}

/* Variance of a mean moving range by the square of its mean: neighbours share a piece. Of two normal numbers with the correlation -1/2
 * E|xy| is 2/pi (sqrt(3)/2 + pi/12) times their variance. */
static double moving_range_variance(double pieces)
{
    const double own = 0.5 * pi - 1.0, shared = 0.5 * sqrt(3.0) + pi / 12.0 - 1.0, ranges = pieces - 1.0;
    return (own + 2.0 * shared * (ranges - 1.0) / ranges) / ranges;
}

static void take_basis(const fer_chart_figures *f, fer_chart_kind kind, const limit_rule *rule, basis *b)
{
    b->mean = f->mean.mm;
    b->count = (double)f->groups;
    b->size = is_of_means(kind) ? f->pieces : 1;
    b->deviation = f->scatter.mm;
    b->degrees = kind == FER_CHART_KIND_MEANS_BY_DEVIATION ? b->count * (b->size - 1) : b->count - 1.0;
    if (kind == FER_CHART_KIND_MEANS_BY_RANGE) {
        const double d2 = fer_range_mean(b->size), d3 = fer_range_deviation(b->size);
        take_ranges(f->scatter.mm, d2, d3 * d3 / (b->count * d2 * d2), rule, b);
    } else if (kind == FER_CHART_KIND_SINGLES_BY_RANGE) {
        take_ranges(f->scatter.mm, 2.0 / sqrt(pi), moving_range_variance(b->count), rule, b);
    }
}

static double level_factor(const basis *b, const limit_rule *rule)
{
    switch (rule->basis) {
    case FER_LIMIT_BASIS_EXPECTED:
        return -fer_student_quantile(rule->tail, b->degrees) * sqrt(1.0 + 1.0 / b->count);
    case FER_LIMIT_BASIS_ASSURED:
        return fer_two_sided_factor(b->count, b->degrees, 1.0 - 2.0 * rule->tail, rule->assurance);
    default:
        return -fer_normal_quantile(rule->tail);
    }
}

/* Limits of the true deviation by the one found, each with the assurance; 1 where it counts as known. */
static double deviation_end(const basis *b, const limit_rule *rule, int upper)
{
    if (rule->basis != FER_LIMIT_BASIS_ASSURED) {
        return 1.0;
    }
    const double p = upper ? 1.0 - rule->assurance : rule->assurance;
    return sqrt(b->degrees / fer_chi_square_quantile(p, b->degrees));
}

/* Quantile of a range of so many pieces, by the deviation found. */
static double range_end(const basis *b, const limit_rule *rule, int size, int upper)
{
    const double p = upper ? 1.0 - rule->tail : rule->tail;
    return rule->basis == FER_LIMIT_BASIS_EXPECTED
               ? fer_studentized_range_quantile(p, size, b->degrees)
               : fer_range_quantile(p, size) * deviation_end(b, rule, upper);
}

/* The same of a group's standard deviation. */
static double deviation_quantile(const basis *b, const limit_rule *rule, int upper)
{
    const double own = b->size - 1, p = upper ? 1.0 - rule->tail : rule->tail;
    return rule->basis == FER_LIMIT_BASIS_EXPECTED
               ? sqrt(fer_f_quantile(p, own, b->degrees))
               : sqrt(fer_chi_square_quantile(p, own) / own) * deviation_end(b, rule, upper);
}

static void describe_scatter(const basis *b, fer_chart_kind kind, const limit_rule *rule,
                             fer_chart_limits *limits)
{
    if (kind == FER_CHART_KIND_MEANS_BY_DEVIATION) {
        limits->scatter.lower.mm = b->deviation * deviation_quantile(b, rule, 0);
        limits->scatter.upper.mm = b->deviation * deviation_quantile(b, rule, 1);
        limits->scatter_centre.mm = b->deviation * fer_deviation_mean(b->size);
        return;
    }
    const int size = kind == FER_CHART_KIND_MEANS_BY_RANGE ? b->size : 2;
    limits->scatter.lower.mm = b->deviation * range_end(b, rule, size, 0);
    limits->scatter.upper.mm = b->deviation * range_end(b, rule, size, 1);
    limits->scatter_centre.mm = b->deviation * fer_range_mean(size);
}

static fer_status find_limits(const fer_chart_figures *figures, fer_chart_kind kind, const limit_rule *rule,
                              fer_chart_limits *limits)
{
    basis b;
    FER_REQUIRE(figures->mean.mm != 0.0 && figures->scatter.mm != 0.0, FER_CHART_FIGURES_MISSING);
    FER_REQUIRE(fer_is_length(figures->mean) && fer_is_chart_deviation(figures->scatter),
                FER_CHART_FIGURES_OUT_OF_RANGE);
    FER_REQUIRE(!is_of_means(kind) || (figures->pieces >= 2 && figures->pieces <= 100),
                FER_CHART_PIECES_OUT_OF_RANGE);
    FER_REQUIRE(figures->groups >= 2 && figures->groups <= FER_SAMPLE_MAXIMUM, FER_CHART_GROUPS_OUT_OF_RANGE);
    take_basis(figures, kind, rule, &b);
    const double factor = level_factor(&b, rule), reach = factor * b.deviation / sqrt((double)b.size);
    limits->level.lower.mm = b.mean - reach;
    limits->level.upper.mm = b.mean + reach;
    limits->level_centre.mm = b.mean;
    limits->deviation.mm = b.deviation;
    limits->factor = factor;
    limits->degrees_of_freedom = b.degrees;
    describe_scatter(&b, kind, rule, limits);
    return FER_OK;
}

static fer_status check_kind_and_rule(fer_chart_kind kind, const fer_limit_rule *given, limit_rule *rule)
{
    FER_REQUIRE((unsigned)kind < FER_CHART_KIND_COUNT, FER_CHART_KIND_UNKNOWN);
    return take_rule(given, rule);
}

static fer_status limits_from_figures(const fer_chart_figures *figures, fer_chart_kind kind,
                                      const fer_limit_rule *given, fer_chart_limits *limits)
{
    limit_rule rule;
    FER_REQUIRE(figures, FER_ARGUMENT_MISSING);
    FER_TRY(check_kind_and_rule(kind, given, &rule));
    return find_limits(figures, kind, &rule, limits);
}

fer_status fer_find_limits_from_figures(const fer_chart_figures *figures, fer_chart_kind chart,
                                        fer_limit_rule rule, fer_chart_limits *limits)
{
    FER_REQUIRE(limits, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*limits);
    return limits_from_figures(figures, chart, &rule, limits);
}

/* ---- figures from pieces --------------------------------------------------------------------------------- */

fer_status fer_check_one_kind(const fer_sample_piece *pieces, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        FER_REQUIRE(pieces[i].kind == pieces[0].kind, FER_CHART_KINDS_SEVERAL);
    }
    return FER_OK;
}

static fer_pair mean_of(const fer_sample_piece *pieces, size_t count)
{
    fer_sum sum = {0};
    for (size_t i = 0; i < count; i++) {
        fer_sum_add(&sum, pieces[i].diameter.mm);
    }
    return fer_sum_mean(&sum);
}

/* What the groups amount to so far. */
typedef struct {
    fer_pair ranges, squares;
    size_t groups, size;
} groups;

static void add_group(const fer_sample_piece *pieces, const uint16_t *places, groups *g)
{
    fer_sum sum = {0};
    double smallest = pieces[places[0]].diameter.mm, greatest = smallest;
    for (size_t i = 0; i < g->size; i++) {
        const double x = pieces[places[i]].diameter.mm;
        fer_sum_add(&sum, x);
        smallest = fmin(smallest, x);
        greatest = fmax(greatest, x);
    }
    fer_sum squares = {0};
    const fer_pair mean = fer_sum_mean(&sum);
    for (size_t i = 0; i < g->size; i++) {
        fer_square_add(&squares, pieces[places[i]].diameter.mm, mean);
    }
    g->ranges = fer_pair_add(g->ranges, fer_pair_sum(greatest, -smallest));
    g->squares = fer_pair_add(g->squares, squares.total);
    g->groups++;
}

static fer_status find_groups(const fer_sample_piece *pieces, size_t count, groups *g)
{
    fer_group_order order;
    fer_order_by_group(pieces, count, &order);
    g->size = fer_end_of_group(pieces, count, &order, 0);
    for (size_t begin = 0; begin < count; begin += g->size) {
        FER_REQUIRE(fer_end_of_group(pieces, count, &order, begin) == begin + g->size,
                    FER_CHART_GROUPS_DIFFER);
        add_group(pieces, order.place + begin, g);
    }
    return FER_OK;
}

static double mean_moving_range(const fer_sample_piece *pieces, size_t count)
{
    fer_pair sum = {0.0, 0.0};
    for (size_t i = 1; i < count; i++) {
        const fer_pair step = fer_pair_sum(pieces[i].diameter.mm, -pieces[i - 1].diameter.mm);
        sum = fer_pair_add(sum, step.high < 0.0 ? fer_pair_negate(step) : step);
    }
    return fer_pair_value(sum) / (double)(count - 1);
}

static fer_status find_figures(const fer_sample_piece *pieces, size_t count, fer_chart_kind kind,
                               fer_chart_figures *f)
{
    const fer_pair mean = mean_of(pieces, count);
    groups g = {0};
    f->mean.mm = fer_pair_value(mean);
    f->groups = (int)count;
    if (is_of_means(kind)) {
        FER_TRY(find_groups(pieces, count, &g));
        FER_REQUIRE(g.size > 1 && g.size <= 100, FER_CHART_PIECES_OUT_OF_RANGE);
        FER_REQUIRE(g.groups > 1, FER_CHART_GROUPS_OUT_OF_RANGE);
        f->pieces = (int)g.size;
        f->groups = (int)g.groups;
        f->scatter.mm = kind == FER_CHART_KIND_MEANS_BY_RANGE
                            ? fer_pair_value(g.ranges) / (double)g.groups
                            : sqrt(fer_pair_value(g.squares) / (double)(g.groups * (g.size - 1)));
    } else if (kind == FER_CHART_KIND_SINGLES_BY_RANGE) {
        f->scatter.mm = mean_moving_range(pieces, count);
    } else {
        fer_sum squares = {0};
        for (size_t i = 0; i < count; i++) {
            fer_square_add(&squares, pieces[i].diameter.mm, mean);
        }
        f->scatter.mm = fer_square_deviation(&squares);
    }
    FER_REQUIRE(f->scatter.mm > 1e-12 * f->mean.mm, FER_SAMPLE_WITHOUT_SCATTER);
    return FER_OK;
}

static fer_status limits_from_pieces(const fer_sample_piece *pieces, size_t count, fer_chart_kind kind,
                                     const fer_limit_rule *given, fer_chart_limits *limits)
{
    limit_rule rule;
    fer_chart_figures figures;
    FER_TRY(fer_check_pieces(pieces, count, 2));
    FER_TRY(fer_check_one_kind(pieces, count));
    FER_TRY(check_kind_and_rule(kind, given, &rule));
    FER_TRY(find_figures(pieces, count, kind, &figures));
    return find_limits(&figures, kind, &rule, limits);
}

fer_status fer_find_chart_limits(const fer_sample_piece *pieces, size_t count, fer_chart_kind chart,
                                 fer_limit_rule rule, fer_chart_limits *limits)
{
    FER_REQUIRE(limits, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*limits);
    return limits_from_pieces(pieces, count, chart, &rule, limits);
}
