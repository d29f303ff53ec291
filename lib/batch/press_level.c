/* SPDX-License-Identifier: MIT */
/* Level of a press that wanders.
 * Method: Kalman's filter of a random walk with noise, its ratio of variances averaged out; the likeliest ratio by the likelihood's slope.
 * Formulas: include/ferrule/chart.h; docs/chart.md; Durbin and Koopman, Time series analysis by state space methods, 2001 (from memory). */
#include <ferrule/chart.h>

#include "base/acceptance_private.h"
#include "base/numeric/root.h"
#include "base/numeric/special.h"
#include "base/value_private.h"
#include "judge/adjust_private.h"

enum { places = 25, ten_years = 3652 };

/* The checks, and a day's share of the median gap. */
typedef struct {
    const fer_drift_point *checks;
    size_t count;
    double gap, floor_squares; /* the latter: below which the sum of squares does not count */
} record;

/* What the filter says at one ratio of variances: level after the last check, its variance in units of the noise, sum of
 * squares, sum of ln F; and how the last three change with the logarithm of the ratio. */
typedef struct {
    double level, variance, squares, logs;
    double level_slope, variance_slope, squares_slope, logs_slope;
} filtered;

static filtered filter(const record *r, double ratio)
{
    filtered f = {r->checks[0].deviation.mm, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    for (size_t i = 1; i < r->count; i++) {
        const double step = ratio * (r->checks[i].day - r->checks[i - 1].day) / r->gap;
        const double ahead = f.variance + step, ahead_slope = f.variance_slope + step, total = ahead + 1.0;
        const double away = r->checks[i].deviation.mm - f.level, share = ahead / total;
        const double share_slope = ahead_slope / (total * total);
        f.squares += away * away / total;
        f.squares_slope -= (2.0 * away * f.level_slope + away * away * ahead_slope / total) / total;
        f.logs += log(total);
        f.logs_slope += ahead_slope / total;
        f.level += away * share;
        f.level_slope += away * share_slope - share * f.level_slope;
        f.variance = share;
        f.variance_slope = share_slope;
    }
    return f;
}

/* Log-likelihood with the noise averaged out. */
static double weight_of(const record *r, const filtered *f)
{
    const double degrees = (double)(r->count - 1);
    return -0.5 * (degrees * log(fmax(f->squares, r->floor_squares)) + f->logs);
}

/* ---- the ratio averaged out ------------------------------------------------------------------------------ */

/* A mixture of Student's distributions: place, scale without a walk ahead, what a median gap adds to the square of it, weight. */
typedef struct {
    double level[places], square[places], gap_square[places], weight[places];
    double degrees;
} mixture;

static const double places_apart = 0.50056197673783; /* ln 1e5 by 23 */

static double ratio_of(int place)
{
    return place == 0 ? 0.0 : 0.001 * exp(places_apart * (place - 1));
}

/* Place of the likeliest ratio. */
static int fill(const record *r, mixture *m)
{
    double logs[places], sum = 0.0;
    int likeliest = 0;
    m->degrees = (double)(r->count - 1);
    for (int i = 0; i < places; i++) {
        const double ratio = ratio_of(i);
        const filtered f = filter(r, ratio);
        const double noise = fmax(f.squares, r->floor_squares) / m->degrees;
        logs[i] = weight_of(r, &f);
        likeliest = logs[i] > logs[likeliest] ? i : likeliest;
        m->level[i] = f.level;
        m->square[i] = f.variance * noise;
        m->gap_square[i] = ratio * noise;
    }
    for (int i = 0; i < places; i++) {
        m->weight[i] = exp(logs[i] - logs[likeliest]);
        sum += m->weight[i];
    }
    for (int i = 0; i < places; i++) {
        m->weight[i] /= sum;
    }
    return likeliest;
}

static double scale_at(const mixture *m, int place, double gaps)
{
    return sqrt(m->square[place] + m->gap_square[place] * gaps);
}

static double share_outside(const mixture *m, double gaps, double limit)
{
    double sum = 0.0;
    for (int i = 0; i < places; i++) {
        const double scale = scale_at(m, i, gaps);
        sum += m->weight[i] * (fer_student_cdf((-limit - m->level[i]) / scale, m->degrees) +
                               fer_student_cdf((m->level[i] - limit) / scale, m->degrees));
    }
    return sum;
}

typedef struct {
    const mixture *m;
    double gaps, share, front; /* front: of Student's density */
} end_question;

static double end_excess(double x, const void *context, double *slope)
{
    const end_question *q = (const end_question *)context;
    const double v = q->m->degrees;
    double sum = 0.0;
    *slope = 0.0;
    for (int i = 0; i < places; i++) {
        const double scale = scale_at(q->m, i, q->gaps), t = (x - q->m->level[i]) / scale;
        sum += q->m->weight[i] * fer_student_cdf(t, v);
        *slope += q->m->weight[i] / scale * q->front * exp(-0.5 * (v + 1.0) * log1p(t * t / v));
    }
    return sum - q->share;
}

/* Quantile of the mixture: between the smallest and the greatest of its parts. */
static double end_of(const mixture *m, double gaps, double share)
{
    const double front = exp(-fer_log_beta(0.5, 0.5 * m->degrees)) / sqrt(m->degrees);
    const end_question question = {m, gaps, share, front};
    const double t = fer_student_quantile(share, m->degrees);
    double low = INFINITY, high = -INFINITY, sum = 0.0;
    for (int i = 0; i < places; i++) {
        const double end = m->level[i] + t * scale_at(m, i, gaps);
        low = fmin(low, end);
        high = fmax(high, end);
        sum += m->weight[i] * end;
    }
    return fer_rising_root(end_excess, &question, low, high, sum, DBL_EPSILON);
}

static void describe_level(const mixture *m, double gaps, double coverage, fer_press_level *level)
{
    const double inflated = m->degrees / (m->degrees - 2.0), tail = 0.5 - 0.5 * coverage;
    double mean = 0.0, variance = 0.0;
    for (int i = 0; i < places; i++) {
        mean += m->weight[i] * m->level[i];
    }
    for (int i = 0; i < places; i++) {
        const double scale = scale_at(m, i, gaps), away = m->level[i] - mean;
        variance += m->weight[i] * (scale * scale * inflated + away * away);
    }
    level->level.mm = mean;
    level->uncertainty.mm = sqrt(variance);
    level->lower.mm = end_of(m, gaps, tail);
    level->upper.mm = end_of(m, gaps, 1.0 - tail);
}

/* ---- the likeliest ratio --------------------------------------------------------------------------------- */

/* How the log-likelihood falls at a ratio by that of a place, as a logarithm with 1 added. No slope is given: halving is quick enough. */
typedef struct {
    const record *r;
    double near;
} ratio_question;

static double ratio_at(const ratio_question *q, double x)
{
    return q->near * exp(x - 1.0);
}

static double likelihood_fall(double x, const void *context, double *slope)
{
    const ratio_question *q = (const ratio_question *)context;
    const filtered f = filter(q->r, ratio_at(q, x));
    const double degrees = (double)(q->r->count - 1);
    *slope = 0.0;
    return (f.squares > q->r->floor_squares ? degrees * f.squares_slope / f.squares : 0.0) + f.logs_slope;
}

static void describe_walk(const record *r, int likeliest, fer_press_level *level)
{
    const ratio_question question = {r, ratio_of(likeliest)};
    const double ratio =
        likeliest == 0 ? 0.0
                       : ratio_at(&question, fer_rising_root(likelihood_fall, &question, 1.0 - places_apart,
                                                             1.0 + places_apart, 1.0, 1e-13));
    const filtered f = filter(r, ratio);
    const double noise = fmax(f.squares, r->floor_squares) / (double)(r->count - 1);
    level->crimp_deviation.mm = sqrt(noise);
    level->walk_per_root_day.mm = sqrt(ratio * noise / r->gap);
    level->weight = 0.5 * (sqrt(ratio * ratio + 4.0 * ratio) - ratio);
}

/* ---- press ----------------------------------------------------------------------------------------------- */

/* Gaps of at least one day that are not longer than this. */
static size_t gaps_up_to(const fer_drift_point *checks, size_t count, int longest)
{
    size_t gaps = 0;
    for (size_t i = 1; i < count; i++) {
        const int gap = checks[i].day - checks[i - 1].day;
        gaps += gap > 0 && gap <= longest;
    }
    return gaps;
}

/* Median of the gaps of at least one day, of two the shorter; there is one. */
static int median_gap(const fer_drift_point *checks, size_t count)
{
    int low = 0, high = 2000000;
    const size_t all = gaps_up_to(checks, count, high);
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        if (2 * gaps_up_to(checks, count, middle) >= all) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return high;
}

/* The probability of being outside rises with the days ahead. */
static void find_due_day(const mixture *m, const record *r, int today, double limit, double coverage,
                         fer_press_level *level)
{
    const int last = r->checks[r->count - 1].day;
    int low = today - 1, high = today + ten_years;
    level->due = share_outside(m, (today - last) / r->gap, limit) > 1.0 - coverage;
    level->due_found = level->due || share_outside(m, (high - last) / r->gap, limit) > 1.0 - coverage;
    if (!level->due_found) {
        return;
    }
    while (!level->due && high - low > 1) {
        const int middle = low + (high - low) / 2;
        if (share_outside(m, (middle - last) / r->gap, limit) > 1.0 - coverage) {
            high = middle;
        } else {
            low = middle;
        }
    }
    level->due_day = level->due ? today : high;
}

static fer_status check_checks(const fer_drift_point *checks, size_t count, int today)
{
    FER_REQUIRE(checks, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 3, FER_PRESS_CHECKS_TOO_FEW);
    FER_REQUIRE(count <= FER_SAMPLE_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    for (size_t i = 0; i < count; i++) {
        FER_TRY(fer_check_drift_point(&checks[i]));
        FER_REQUIRE(i == 0 || checks[i].day >= checks[i - 1].day, FER_PRESS_CHECKS_NOT_IN_ORDER);
    }
    FER_REQUIRE(today >= checks[count - 1].day, FER_PRESS_CHECKS_NOT_IN_ORDER);
    FER_REQUIRE(checks[count - 1].day > checks[0].day, FER_PRESS_CHECKS_TOO_FEW);
    return FER_OK;
}

static fer_status track(const fer_drift_point *checks, size_t count, int today, double limit, double coverage,
                        const fer_gauge *gauge, fer_press_level *level)
{
    mixture m;
    FER_TRY(fer_check_drift_question(today, limit, coverage));
    FER_TRY(check_checks(checks, count, today));
    FER_TRY(fer_check_gauge(gauge));
    const double floor = fer_usual_floor(gauge);
    const record r = {checks, count, (double)median_gap(checks, count), (double)(count - 1) * floor * floor};
    const int likeliest = fill(&r, &m);
    describe_level(&m, (today - checks[count - 1].day) / r.gap, coverage, level);
    describe_walk(&r, likeliest, level);
    find_due_day(&m, &r, today, limit, coverage, level);
    return FER_OK;
}

fer_status fer_track_press(const fer_drift_point *checks, size_t count, int today, fer_length limit,
                           fer_ratio coverage, fer_gauge gauge, fer_press_level *level)
{
    FER_REQUIRE(level, FER_ARGUMENT_MISSING);
    FER_EMPTY(*level);
    FER_LEAVE_OUT_FROM(fer_press_level, *level, level, weight);
    return track(checks, count, today, limit.mm, coverage.fraction, &gauge, level);
}
