/* SPDX-License-Identifier: MIT */
/* Samples and capability indices.
 * Method: sums in double-double; exact limits by noncentral t and chi-square, the smaller index's upper one by Pearn and Lin's integral.
 * Formulas: include/ferrule/capability.h; docs/capability.md. */
#include "batch/capability_private.h"

#include "base/numeric/moments.h"
#include "base/numeric/root.h"
#include "base/numeric/special.h"
#include "base/value_private.h"
#include "base/acceptance_private.h"
#include "batch/numeric/beta.h"
#include "batch/numeric/gamma.h"
#include "batch/numeric/mean_tail.h"
#include "batch/sample_private.h"
#include "judge/reading_private.h"

/* ---- summary of a sample --------------------------------------------------------------------------------- */

/* Sum of squares and degrees of freedom within groups, and between them. */
typedef struct {
    fer_pair within, between;
    double within_degrees, between_degrees;
} groups;

static void add_group(const fer_sample_piece *pieces, const uint16_t *places, size_t count, fer_pair mean,
                      groups *g)
{
    fer_sum sum = {0}, squares = {0};
    for (size_t i = 0; i < count; i++) {
        fer_sum_add(&sum, pieces[places[i]].diameter.mm);
    }
    const fer_pair own = fer_sum_mean(&sum), away = fer_pair_subtract(own, mean);
    for (size_t i = 0; i < count; i++) {
        fer_square_add(&squares, pieces[places[i]].diameter.mm, own);
    }
    g->within = fer_pair_add(g->within, squares.total);
    g->between = fer_pair_add(
        g->between, fer_pair_multiply(fer_pair_of((double)sum.count), fer_pair_multiply(away, away)));
    g->within_degrees += (double)(sum.count - 1);
    g->between_degrees += 1.0;
}

static size_t add_groups(const fer_sample_piece *pieces, size_t count, fer_pair mean, groups *g)
{
    fer_group_order order;
    size_t number = 0, end = 0;
    fer_order_by_group(pieces, count, &order);
    for (size_t begin = 0; begin < count; begin = end) {
        end = fer_end_of_group(pieces, count, &order, begin);
        add_group(pieces, order.place + begin, end - begin, mean, g);
        number++;
    }
    return number;
}

/* Sums about the mean, of neighbours, and of logarithms. */
typedef struct {
    fer_sum squares, log_squares;
    fer_pair mean, steps, lagged;
} sums;

static void add_neighbours(const fer_sample_piece *pieces, size_t count, sums *s)
{
    for (size_t i = 1; i < count; i++) {
        const fer_pair before = fer_pair_subtract(fer_pair_of(pieces[i - 1].diameter.mm), s->mean);
        const fer_pair after = fer_pair_subtract(fer_pair_of(pieces[i].diameter.mm), s->mean);
        const fer_pair step = fer_pair_subtract(after, before);
        s->steps = fer_pair_add(s->steps, fer_pair_multiply(step, step));
        s->lagged = fer_pair_add(s->lagged, fer_pair_multiply(before, after));
    }
}

/* Equal values leave nothing but a rounding of the last digits of the sums. */
static double settled(double deviation, const sums *s)
{
    return deviation > 1e-25 * fer_pair_value(s->mean) ? deviation : 0.0;
}

static void add_all(const fer_sample_piece *pieces, size_t count, sums *s, fer_sample_summary *summary)
{
    fer_sum sum = {0}, logs = {0};
    summary->minimum = summary->maximum = pieces[0].diameter;
    for (size_t i = 0; i < count; i++) {
        const double x = pieces[i].diameter.mm;
        fer_sum_add(&sum, x);
        fer_sum_add(&logs, log(x));
        summary->minimum.mm = fmin(summary->minimum.mm, x);
        summary->maximum.mm = fmax(summary->maximum.mm, x);
    }
    const fer_pair log_mean = fer_sum_mean(&logs);
    s->mean = fer_sum_mean(&sum);
    for (size_t i = 0; i < count; i++) {
        fer_square_add(&s->squares, pieces[i].diameter.mm, s->mean);
        fer_square_add(&s->log_squares, log(pieces[i].diameter.mm), log_mean);
    }
    summary->log_mean = fer_pair_value(log_mean);
    summary->log_deviation = settled(fer_square_deviation(&s->log_squares), s);
    summary->mean.mm = fer_pair_value(s->mean);
    summary->scatter.value.mm = settled(fer_square_deviation(&s->squares), s);
    add_neighbours(pieces, count, s);
}

static void describe_within(const groups *g, const sums *s, fer_sample_summary *summary)
{
    const double n = (double)summary->count;
    if (summary->groups > 1 && g->within_degrees > 0.0) {
        const double within = settled(sqrt(fer_pair_value(g->within) / g->within_degrees), s);
        const double between = fer_pair_value(g->between) / (g->between_degrees - 1.0);
        summary->within.value.mm = within;
        summary->within_degrees = g->within_degrees;
        if (within > 0.0) {
            summary->groups_p.value.fraction =
                fer_f_above(between / (within * within), g->between_degrees - 1.0, g->within_degrees);
        } else {
            summary->groups_p.value.fraction = summary->scatter.value.mm > 0.0 ? 0.0 : 1.0;
        }
        summary->groups_p.status = FER_OK;
        return;
    }
    summary->within.value.mm = sqrt(fer_pair_value(s->steps) / (2.0 * (n - 1.0)));
    summary->within_degrees = 2.0 * (n - 1.0) * (n - 1.0) / (3.0 * n - 4.0);
}

static void describe_order(const sums *s, fer_sample_summary *summary)
{
    summary->lag =
        summary->scatter.value.mm > 0.0 ? fer_pair_value(s->lagged) / fer_pair_value(s->squares.total) : 0.0;
    summary->lag_found = fabs(summary->lag) > 2.0 / sqrt((double)summary->count);
}

static void describe_outlier(const fer_sample_piece *pieces, const sums *s, fer_sample_summary *summary)
{
    double greatest = -1.0;
    for (size_t i = 0; i < summary->count; i++) {
        const double away =
            fabs(fer_pair_value(fer_pair_subtract(fer_pair_of(pieces[i].diameter.mm), s->mean)));
        if (away > greatest) {
            greatest = away;
            summary->outlier_index = i;
        }
    }
    /* the critical value of two pieces is NaN */
    summary->outlier_found =
        summary->scatter.value.mm > 0.0 &&
        greatest > fer_critical_deviate((double)summary->count) * summary->scatter.value.mm;
}

static fer_status summarise(const fer_sample_piece *pieces, size_t count, fer_sample_summary *summary)
{
    groups g = {0};
    sums s = {0};
    FER_TRY(fer_check_pieces(pieces, count, 2));
    FER_EMPTY(*summary);
    FER_NOT_FOUND(summary->groups_p, FER_SAMPLE_GROUPS_TOO_FEW);
    summary->count = count;
    add_all(pieces, count, &s, summary);
    summary->groups = add_groups(pieces, count, s.mean, &g);
    describe_within(&g, &s, summary);
    describe_order(&s, summary);
    describe_outlier(pieces, &s, summary);
    return FER_OK;
}

static void leave_out_sample(fer_status why, fer_sample_summary *summary)
{
    FER_EMPTY(*summary);
    FER_LEAVE_OUT(summary->mean);
    FER_LEAVE_OUT_FROM(fer_sample_summary, *summary, minimum, maximum);
    FER_NOT_FOUND(summary->scatter, why);
    FER_NOT_FOUND(summary->within, why);
    FER_NOT_FOUND(summary->groups_p, why);
    FER_LEAVE_OUT(summary->within_degrees);
    FER_LEAVE_OUT(summary->lag);
    FER_LEAVE_OUT_FROM(fer_sample_summary, *summary, log_mean, log_deviation);
}

fer_status fer_summarise_sample(const fer_sample_piece *pieces, size_t count, fer_sample_summary *summary)
{
    FER_REQUIRE(summary, FER_ARGUMENT_MISSING);
    const fer_status status = summarise(pieces, count, summary);
    if (status != FER_OK) {
        leave_out_sample(status, summary);
    }
    return status;
}

fer_status fer_check_summary(const fer_sample_summary *summary)
{
    FER_REQUIRE(summary, FER_ARGUMENT_MISSING);
    FER_REQUIRE(summary->count >= 2 && summary->count <= FER_SAMPLE_MAXIMUM, FER_SAMPLE_INCOMPLETE);
    FER_REQUIRE(fer_is_length(summary->mean) && fer_is_deviation(summary->scatter.value.mm),
                FER_SAMPLE_INCOMPLETE);
    return FER_OK;
}

/* ---- indices --------------------------------------------------------------------------------------------- */

/* What the indices are made of; of the logarithms where the shape is lognormal. */
typedef struct {
    double mean, deviation, pieces, degrees; /* deviation of the values, gauge included */
    double own;                              /* deviation without the gauge; NaN: the gauge covers it */
    double confidence;
    fer_aim aim;
    fer_gauge_part gauge;
} basis;

/* The overall standard deviation has one degree of freedom fewer than pieces. */
static fer_status take_normal(const fer_sample_summary *summary, const fer_capability_settings *settings,
                              basis *b)
{
    b->mean = summary->mean.mm;
    b->deviation = summary->scatter.value.mm;
    b->degrees = (double)(summary->count - 1);
    if (settings->scatter == FER_SCATTER_WITHIN) {
        b->deviation = summary->within.value.mm;
        b->degrees = summary->within_degrees;
        FER_REQUIRE(fer_is_deviation(b->deviation), FER_SAMPLE_INCOMPLETE);
        FER_REQUIRE(b->degrees >= 1.0 && b->degrees <= (double)summary->count, FER_SAMPLE_INCOMPLETE);
    }
    return FER_OK;
}

static fer_status take_lognormal(const fer_sample_summary *summary, const fer_capability_settings *settings,
                                 basis *b)
{
    const fer_measuring *m = &settings->measuring;
    FER_REQUIRE(settings->scatter == FER_SCATTER_OVERALL && m->repeatability.mm == 0.0 &&
                    m->common.mm == 0.0 && m->resolution.mm == 0.0,
                FER_VALUES_SHAPE_OVERALL_ONLY);
    FER_REQUIRE(fabs(summary->log_mean) <= 14.0 && fer_is_deviation(summary->log_deviation),
                FER_SAMPLE_INCOMPLETE);
    FER_REQUIRE(b->aim.lower > 0.0 || b->aim.lower < -FER_LENGTH_MAXIMUM_MM, FER_VALUES_LIMIT_NOT_POSITIVE);
    FER_REQUIRE(b->aim.upper > 0.0, FER_VALUES_LIMIT_NOT_POSITIVE);
    b->mean = summary->log_mean;
    b->deviation = summary->log_deviation;
    b->aim.lower = b->aim.lower > 0.0 ? log(b->aim.lower) : b->aim.lower;
    b->aim.upper = log(b->aim.upper);
    return FER_OK;
}

static fer_status take_basis(const fer_sample_summary *summary, const fer_wanted *wanted,
                             fer_ratio confidence, const fer_capability_settings *settings, basis *b)
{
    FER_TRY(fer_check_summary(summary));
    FER_REQUIRE(wanted, FER_ARGUMENT_MISSING);
    FER_TRY(fer_take_wanted(wanted, &b->aim));
    FER_TRY(fer_take_confidence(&confidence));
    FER_TRY(fer_check_measuring(&settings->measuring));
    FER_REQUIRE((unsigned)settings->scatter <= FER_SCATTER_WITHIN, FER_SCATTER_UNKNOWN);
    FER_REQUIRE((unsigned)settings->shape <= FER_VALUES_SHAPE_ANY, FER_VALUES_SHAPE_UNKNOWN);
    FER_REQUIRE(settings->shape != FER_VALUES_SHAPE_ANY, FER_VALUES_SHAPE_WITHOUT_INDEX);
    FER_TRY(take_normal(summary, settings, b));
    if (settings->shape == FER_VALUES_SHAPE_LOGNORMAL) {
        FER_TRY(take_lognormal(summary, settings, b));
    }
    FER_REQUIRE(b->deviation > 0.0, FER_SAMPLE_WITHOUT_SCATTER);
    b->pieces = (double)summary->count;
    b->confidence = confidence.fraction;
    b->gauge = fer_part_of_gauge(&settings->measuring);
    const double rest = b->deviation * b->deviation - b->gauge.variance;
    b->own = rest > 0.0 ? sqrt(rest) : NAN;
    return FER_OK;
}

static void leave_out_index(fer_status why, fer_capability_index *index)
{
    FER_LEAVE_OUT_FROM(fer_capability_index, *index, value, upper);
    index->status = why;
}

/* Index of a distance by three standard deviations, with its limits; pieces 0: the mean does not count. */
static fer_capability_index index_of(const basis *b, double distance, double pieces,
                                     const fer_gauge_part *gauge)
{
    const fer_index_basis part = {distance, b->deviation, pieces, b->degrees, *gauge};
    const double own = gauge->variance > 0.0 ? b->own : b->deviation;
    const fer_capability_index index = {distance / (3.0 * own), fer_index_limit(&part, b->confidence),
                                        fer_index_limit(&part, 1.0 - b->confidence), FER_OK};
    return index;
}

/* Pearn and Lin's distribution of the smaller index for a mean in the middle: chi-square of the deviation with which a mean that is
 * off by z would show the index found. */
typedef struct {
    double index, found, pieces, degrees, tail;
} middle_point;

static double middle_argument(double z, const void *context, double *rate)
{
    const middle_point *point = (const middle_point *)context;
    const double wanted = 3.0 * point->index - z / sqrt(point->pieces);
    const double ratio = wanted / (3.0 * point->found);
    *rate = 6.0 / wanted;
    return point->degrees * ratio * ratio;
}

static double middle_excess(double index, const void *context, double *slope)
{
    middle_point point = *(const middle_point *)context;
    point.index = index;
    const fer_tail_mean mean = {middle_argument,
                                &point,
                                point.degrees,
                                point.pieces,
                                3.0 * index * sqrt(point.pieces),
                                1,
                                {INFINITY, INFINITY, INFINITY, INFINITY}};
    const double shown = fer_mean_tail(&mean, slope);
    *slope = -*slope;
    return point.tail - shown;
}

/* Upper limit of the smaller index: above that of the potential one, which it cannot exceed, by less than nine standard deviations
 * of the mean can do. */
static double upper_of_nearer(const basis *b, double found)
{
    const middle_point point = {0.0, found, b->pieces, b->degrees, 1.0 - b->confidence};
    const fer_index_basis potential = {
        3.0 * b->deviation * found, b->deviation, 0.0, b->degrees, {0.0, 0.0, 0.0}};
    const double low = fer_index_limit(&potential, point.tail), high = low + 3.0 / sqrt(b->pieces);
    return fer_rising_root(middle_excess, &point, low, high, low, 1e-13);
}

static int has_gauge(const basis *b)
{
    return b->gauge.variance > 0.0 || b->gauge.common > 0.0;
}

static int has_both(const basis *b)
{
    return fer_is_finite(b->aim.upper - b->aim.lower);
}

/* The smaller one with the gauge left in; without gauge it is there already. */
static void describe_observed(const basis *b, fer_capability *c)
{
    static const fer_gauge_part none = {0.0, 0.0, 0.0};
    const double distance = fmin(b->mean - b->aim.lower, b->aim.upper - b->mean);
    c->observed = has_gauge(b) ? index_of(b, distance, b->pieces, &none) : c->nearer;
    if (distance > 0.0 && has_both(b)) {
        c->observed.upper = upper_of_nearer(b, c->observed.value);
    }
    if (b->own > 0.0 && has_both(b)) {
        c->nearer.upper = has_gauge(b) ? NAN : c->observed.upper;
    }
}

static void describe_sides(const basis *b, fer_capability *c)
{
    const double below = b->mean - b->aim.lower, above = b->aim.upper - b->mean;
    if (fer_is_finite(below)) {
        c->to_lower = index_of(b, below, b->pieces, &b->gauge);
    }
    if (fer_is_finite(above)) {
        c->to_upper = index_of(b, above, b->pieces, &b->gauge);
    }
    c->nearer = below < above ? c->to_lower : c->to_upper;
    if (has_both(b)) {
        c->potential = index_of(b, 0.5 * (below + above), 0.0, &b->gauge);
    }
}

/* Root mean square about the target: overall, with as many degrees of freedom as pieces, which is exact for a mean on target, the
 * worst case. */
static void describe_target(const basis *b, const fer_sample_summary *summary, fer_capability *c)
{
    const double n = (double)summary->count, s = summary->scatter.value.mm, off = b->mean - b->aim.target;
    basis about = *b;
    about.deviation = sqrt((n - 1.0) / n * s * s + off * off);
    about.degrees = n;
    const double rest = about.deviation * about.deviation - b->gauge.variance;
    about.own = rest > 0.0 ? sqrt(rest) : NAN;
    if (about.own > 0.0) {
        c->about_target = index_of(&about, 0.5 * (b->aim.upper - b->aim.lower), 0.0, &b->gauge);
        FER_LEAVE_OUT(c->about_target.upper);
    } else {
        leave_out_index(FER_MEASURING_COVERS_SCATTER, &c->about_target);
    }
}

/* As texts have it: Bissell's approximation. */
static void describe_text(const basis *b, fer_capability *c)
{
    const double z = fer_normal_quantile(b->confidence), index = c->observed.value;
    const double width = z * sqrt(1.0 / (9.0 * b->pieces) + index * index / (2.0 * b->degrees));
    c->text_lower = index - width;
    c->text_upper = index + width;
}

/* ISO 22514-2's index by quantiles (from memory), from those of the lognormal distribution. */
static double index_by_quantiles(const basis *b)
{
    const double below = expm1(b->aim.lower - b->mean) / expm1(-3.0 * b->deviation);
    const double above = expm1(b->aim.upper - b->mean) / expm1(3.0 * b->deviation);
    return fer_is_finite(b->aim.lower) ? (fer_is_finite(b->aim.upper) ? fmin(below, above) : below) : above;
}

static void leave_out_indices(fer_status why, fer_capability *c)
{
    FER_EMPTY(*c);
    leave_out_index(why, &c->potential);
    leave_out_index(why, &c->to_lower);
    leave_out_index(why, &c->to_upper);
    leave_out_index(why, &c->nearer);
    leave_out_index(why, &c->about_target);
    leave_out_index(why, &c->observed);
    FER_LEAVE_OUT_FROM(fer_capability, *c, text_lower, gauge_share);
}

static void describe(const basis *b, const fer_sample_summary *summary,
                     const fer_capability_settings *settings, fer_capability *c)
{
    const int normal = settings->shape == FER_VALUES_SHAPE_NORMAL;
    leave_out_indices(b->own > 0.0 ? FER_INDEX_WITHOUT_LIMIT : FER_MEASURING_COVERS_SCATTER, c);
    if (b->own > 0.0) {
        describe_sides(b, c);
    }
    describe_observed(b, c);
    if (b->own > 0.0 && normal && has_both(b)) {
        describe_target(b, summary, c);
    }
    describe_text(b, c);
    if (!normal) {
        c->quantile_index = index_by_quantiles(b);
    }
    c->deviation_used = b->own;
    c->degrees_of_freedom = b->degrees;
    c->gauge_share.fraction = b->gauge.variance / (b->deviation * b->deviation);
    c->stable = settings->stable != 0;
}

fer_status fer_find_capability(const fer_sample_summary *summary, const fer_wanted *wanted,
                               fer_ratio confidence, fer_capability_settings settings,
                               fer_capability *capability)
{
    basis b = {0};
    FER_REQUIRE(capability, FER_ARGUMENT_MISSING);
    const fer_status status = take_basis(summary, wanted, confidence, &settings, &b);
    leave_out_indices(status, capability);
    if (status == FER_OK) {
        describe(&b, summary, &settings, capability);
    }
    return status;
}
