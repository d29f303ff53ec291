/* SPDX-License-Identifier: MIT */
/* One change of the level among pieces.
 * Method: cumulative sums about the mean in double-double; improved Bonferroni bound, its pairs by an integral; Bayes' rule for the place.
 * Formulas: include/ferrule/chart.h; docs/chart.md; Worsley, Biometrika 69 (1982) 297-302 (from memory). */
#include <ferrule/chart.h>

#include "base/numeric/moments.h"
#include "base/numeric/pi.h"
#include "base/numeric/quadrature.h"
#include "base/numeric/special.h"
#include "base/value_private.h"
#include "batch/chart_private.h"
#include "batch/sample_private.h"

/* ---- probability by chance ------------------------------------------------------------------------------- */

/* Two neighbouring t statistics are two directions, `angle` apart, of a point on a sphere; both are beyond where the point is within the
 * caps of both. */
typedef struct {
    double cosine, angle, power; /* smallest cosine to a direction; power of the density: pieces minus 3 */
    double farthest;             /* distance from the plane of both beyond which they have no common part */
} caps;

/* Angles of the plane in which both are beyond, at s = -ln((x / farthest)^power), by the weight e^-s. */
static double common_angle(double s, const void *context)
{
    const caps *c = (const caps *)context;
    const double x = c->farthest * exp(-s / c->power), radius = sqrt(1.0 - x * x);
    const double half = atan2(sqrt(fmax(0.0, radius * radius - c->cosine * c->cosine)), c->cosine);
    return exp(-s) * (fmax(0.0, 2.0 * half - c->angle) + fmax(0.0, 2.0 * half - pi + c->angle)) / pi;
}

/* Probability that both neighbours are beyond. The second common part begins where the first one is long there. */
static double both_beyond(double cosine, double angle, double power)
{
    const double touching = cosine / cos(0.5 * angle), second = cosine / sin(0.5 * angle);
    double breaks[5] = {1.0, 3.0, 7.0, 15.0, 0.0};
    if (!(touching < 1.0)) {
        return 0.0;
    }
    const caps c = {cosine, angle, power, sqrt(1.0 - touching * touching)};
    if (second < 1.0) {
        breaks[4] = -power * log(sqrt(1.0 - second * second) / c.farthest);
    }
    return exp(power * log(c.farthest)) * fer_integrate_pieces(common_angle, &c, 0.0, 40.0, breaks, 5);
}

/* The pairs are the same from both ends. */
static double bound_of(double t, size_t count)
{
    const double n = (double)count, cosine = t / sqrt(n - 2.0 + t * t);
    double sum = (n - 1.0) * 2.0 * fer_student_cdf(-t, n - 2.0);
    for (size_t j = 1; 2 * j < count; j++) {
        const double i = (double)j, times = 2 * j == count - 1 ? 1.0 : 2.0;
        const double angle = atan2(sqrt(n), sqrt(i * (n - i - 1.0)));
        sum -= times * both_beyond(cosine, angle, n - 3.0);
    }
    return fmax(0.0, fmin(sum, 1.0));
}

/* ---- place ----------------------------------------------------------------------------------------------- */

/* Sums of squares: in all, between the two parts and within them at the likeliest place. */
typedef struct {
    fer_pair mean, squares;
    double between, within, difference;
    size_t place; /* last piece before the change */
} parts;

static fer_pair deviation_at(const fer_sample_piece *pieces, size_t i, const parts *p)
{
    return fer_pair_subtract(fer_pair_of(pieces[i].diameter.mm), p->mean);
}

static void add_all(const fer_sample_piece *pieces, size_t count, parts *p)
{
    fer_sum sum = {0}, squares = {0};
    for (size_t i = 0; i < count; i++) {
        fer_sum_add(&sum, pieces[i].diameter.mm);
    }
    p->mean = fer_sum_mean(&sum);
    for (size_t i = 0; i < count; i++) {
        fer_square_add(&squares, pieces[i].diameter.mm, p->mean);
    }
    p->squares = squares.total;
}

/* Two parts without scatter would make t infinite: what is left of the squares then is rounding. */
static double within_of(const parts *p, fer_pair between)
{
    return fmax(fer_pair_value(fer_pair_subtract(p->squares, between)), 1e-24 * fer_pair_value(p->squares));
}

/* Writes the logarithm of each place's weight, and finds where the part between is the greatest. */
static void weigh_places(const fer_sample_piece *pieces, size_t count, parts *p, fer_ratio *places)
{
    const double n = (double)count;
    fer_pair sum = {0.0, 0.0};
    for (size_t i = 0; i + 1 < count; i++) {
        const double before = (double)(i + 1), product = before * (n - before);
        sum = fer_pair_add(sum, deviation_at(pieces, i, p));
        const fer_pair between = fer_pair_divide(
            fer_pair_multiply(fer_pair_of(n), fer_pair_multiply(sum, sum)), fer_pair_of(product));
        const double within = within_of(p, between);
        places[i].fraction = -0.5 * (log(product) + (n - 2.0) * log(within));
        if (i == 0 || fer_pair_value(between) > p->between) {
            p->between = fer_pair_value(between);
            p->within = within;
            p->difference = -fer_pair_value(sum) * n / product;
            p->place = i;
        }
    }
}

static void make_probabilities(fer_ratio *places, size_t count)
{
    double greatest = places[0].fraction, sum = 0.0;
    for (size_t i = 1; i < count; i++) {
        greatest = fmax(greatest, places[i].fraction);
    }
    for (size_t i = 0; i < count; i++) {
        places[i].fraction = exp(places[i].fraction - greatest);
        sum += places[i].fraction;
    }
    for (size_t i = 0; i < count; i++) {
        places[i].fraction /= sum;
    }
}

/* The shortest range that holds 90 %, the first of these. */
static void find_range(const fer_ratio *places, size_t count, fer_level_change *change)
{
    double held = 0.0;
    size_t from = 0;
    change->latest = count - 1;
    for (size_t i = 0; i < count; i++) {
        held += places[i].fraction;
        while (held - places[from].fraction >= 0.9) {
            held -= places[from++].fraction;
        }
        if (held >= 0.9 && i - from < change->latest - change->earliest) {
            change->earliest = from;
            change->latest = i;
        }
    }
}

static double mean_between(const fer_sample_piece *pieces, size_t from, size_t to)
{
    fer_sum sum = {0};
    for (size_t i = from; i < to; i++) {
        fer_sum_add(&sum, pieces[i].diameter.mm);
    }
    return fer_pair_value(fer_sum_mean(&sum));
}

static fer_status find_change(const fer_sample_piece *pieces, size_t count, fer_level_change *change,
                              fer_ratio *places, size_t capacity)
{
    parts p = {{0.0, 0.0}, {0.0, 0.0}, 0.0, 0.0, 0.0, 0};
    FER_TRY(fer_check_pieces(pieces, count, 4));
    FER_TRY(fer_check_one_kind(pieces, count));
    FER_REQUIRE(places, FER_ARGUMENT_MISSING);
    FER_REQUIRE(capacity >= count - 1, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    add_all(pieces, count, &p);
    const double mean = fer_pair_value(p.mean);
    FER_REQUIRE(fer_pair_value(p.squares) > 1e-28 * mean * mean, FER_SAMPLE_WITHOUT_SCATTER);
    weigh_places(pieces, count, &p, places);
    make_probabilities(places, count - 1);
    change->t_statistic = sqrt((double)(count - 2) * p.between / p.within);
    change->uncertainty.mm = fabs(p.difference) / change->t_statistic;
    change->p_upper.fraction = bound_of(change->t_statistic, count);
    change->found = change->p_upper.fraction <= 0.05;
    change->last_before = p.place;
    change->probability = places[p.place];
    change->before.mm = mean_between(pieces, 0, p.place + 1);
    change->after.mm = mean_between(pieces, p.place + 1, count);
    find_range(places, count - 1, change);
    return FER_OK;
}

static void leave_out_change(fer_level_change *change)
{
    FER_EMPTY(*change);
    FER_LEAVE_OUT_FROM(fer_level_change, *change, probability, p_upper);
}

fer_status fer_find_change(const fer_sample_piece *pieces, size_t count, fer_level_change *change,
                           fer_ratio *places, size_t capacity, size_t *found)
{
    if (found) {
        *found = 0;
    }
    if (change) {
        leave_out_change(change);
    }
    FER_REQUIRE(change && found, FER_ARGUMENT_MISSING);
    FER_EMPTY(*change);
    const fer_status status = find_change(pieces, count, change, places, capacity);
    if (status == FER_OK) {
        *found = count - 1;
    } else {
        leave_out_change(change);
    }
    return status;
}
