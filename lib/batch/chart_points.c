/* SPDX-License-Identifier: MIT */
/* Charts of short runs: scores, weighted mean, sums and run rules, one piece at a time.
 * Method: Welford's updating; Student's distribution by its smaller tail; counters of runs.
 * Formulas: include/ferrule/chart.h; docs/chart.md. */
#include <ferrule/chart.h>

#include "base/numeric/special.h"
#include "base/value_private.h"
#include "base/words.h"
#include "batch/chart_private.h"
#include "batch/sample_private.h"

/* ---- charting -------------------------------------------------------------------------------------------- */

static int is_off_or(double x, double low, double high)
{
    return x == 0.0 || (x >= low && x <= high);
}

static fer_status check_rules(const fer_charting *c)
{
    FER_REQUIRE(is_off_or(c->same_side, 2, 20) && is_off_or(c->rising, 3, 20) &&
                    is_off_or(c->alternating, 3, 30),
                FER_CHART_RULE_OUT_OF_RANGE);
    FER_REQUIRE(is_off_or(c->inside, 3, 30) && is_off_or(c->outside, 2, 30), FER_CHART_RULE_OUT_OF_RANGE);
    return FER_OK;
}

fer_status fer_check_charting(const fer_charting *c)
{
    FER_REQUIRE(is_off_or(c->weight, 0.05, 1.0), FER_CHART_WEIGHT_OUT_OF_RANGE);
    FER_REQUIRE(is_off_or(c->limit, 0.5, 6.0), FER_CHART_LIMIT_OUT_OF_RANGE);
    FER_REQUIRE(is_off_or(c->allowance, 0.1, 3.0), FER_CHART_ALLOWANCE_OUT_OF_RANGE);
    FER_REQUIRE(is_off_or(c->decision, 0.5, 20.0), FER_CHART_DECISION_OUT_OF_RANGE);
    FER_REQUIRE(is_off_or(c->beyond, 1.0, 6.0), FER_CHART_BEYOND_OUT_OF_RANGE);
    return check_rules(c);
}

static fer_status check_known(const fer_charting *c)
{
    FER_REQUIRE(c->deviation.mm == 0.0 || fer_is_chart_deviation(c->deviation),
                FER_CHART_DEVIATION_OUT_OF_RANGE);
    FER_REQUIRE(c->centre.mm == 0.0 || (fer_is_length(c->centre) && c->deviation.mm > 0.0),
                FER_CHART_CENTRE_OUT_OF_RANGE);
    FER_REQUIRE(c->resolution.mm >= 0.0 && c->resolution.mm <= 10.0, FER_CHART_RESOLUTION_OUT_OF_RANGE);
    return FER_OK;
}

/* ---- score ----------------------------------------------------------------------------------------------- */

static const double score_maximum = 37.0; /* the tail beyond it is the smallest number of full precision */

/* Score with the tail of Student's distribution. */
static double score_of(double t, double degrees)
{
    const double tail = fer_student_cdf(-fabs(t), degrees);
    const double score = tail > 1e-300 ? -fer_normal_quantile(tail) : score_maximum;
    return t < 0.0 ? -score : score;
}

static double capped(double score)
{
    return fmax(-score_maximum, fmin(score_maximum, score));
}

/* NaN where nothing can be said yet. */
static double find_score(const fer_chart_point *before, double x, const fer_charting *c)
{
    const double known = c->deviation.mm, count = before->count;
    if (c->centre.mm > 0.0) {
        return capped((x - c->centre.mm) / known);
    }
    const double shrunk = (x - before->mean.mm) * sqrt(count / (count + 1.0));
    if (known > 0.0) {
        return before->count > 0 ? capped(shrunk / known) : NAN;
    }
    const double scatter = fmax(before->scatter.mm, c->resolution.mm / sqrt(12.0));
    return before->count > 1 && scatter > 0.0 ? score_of(shrunk / scatter, count - 1.0) : NAN;
}

/* Mean and standard deviation with one piece more. */
static void add_to_kind(const fer_chart_point *before, double x, fer_chart_point *point)
{
    const double count = before->count, away = x - before->mean.mm, s = before->scatter.mm;
    point->count = before->count + 1;
    point->mean.mm = before->mean.mm + away / (count + 1.0);
    point->scatter.mm =
        count > 0.0 ? sqrt((count - 1.0) / count * s * s + away * (away / (count + 1.0))) : 0.0;
}

/* ---- runs ------------------------------------------------------------------------------------------------ */

enum { zone_bits = 3, zone_mask = 7, history_mask = (1 << (4 * zone_bits)) - 1 };

/* 0 within one standard deviation, 1 and 2 beyond one and two above, 3 and 4 below. */
static int zone_of(double score)
{
    const double away = fabs(score);
    if (!(away > 1.0)) {
        return 0;
    }
    return (away > 2.0 ? 2 : 1) + (score < 0.0 ? 2 : 0);
}

/* A run goes on in its own direction, and begins anew otherwise; 0 ends it. */
static int go_on(int run, int way, int first)
{
    if (way == 0) {
        return first - 1;
    }
    return run * way > 0 ? run + way : first * way;
}

static int way_of(double x)
{
    return (x > 0.0) - (x < 0.0);
}

/* A piece that goes neither up nor down begins both anew. The runs of a trend count their first piece. */
static void follow_trend(const fer_chart_point *last, double score, fer_chart_point *point)
{
    const int way = last->scored > 0 ? way_of(score - last->last_score) : 0;
    const int turned = last->trend_run * way < 0 && last->alternating_run > 1;
    point->trend_run = go_on(last->trend_run, way, 2);
    point->alternating_run = turned ? last->alternating_run + 1 : (way == 0 ? 1 : 2);
}

static void follow_runs(const fer_chart_point *last, double score, fer_chart_point *point)
{
    const int zone = zone_of(score);
    point->history = (last->history << zone_bits | zone) & history_mask;
    point->side_run = go_on(last->side_run, way_of(score), 1);
    point->inside_run = zone == 0 ? last->inside_run + 1 : 0;
    point->outside_run = zone == 0 ? 0 : last->outside_run + 1;
    follow_trend(last, score, point);
}

/* How many of the last so many zones, the present one and up to four before, are beyond on its side. */
static int beyond_among(int before, int zone, int nearest, int points)
{
    const int below = zone > 2, mine = below ? zone - 2 : zone;
    int among = mine >= nearest;
    if (!among) {
        return 0;
    }
    for (int i = 1; i < points; i++, before >>= zone_bits) {
        const int other = before & zone_mask;
        among += below ? other >= 2 + nearest : other >= nearest && other <= 2;
    }
    return among;
}

static void give(fer_chart_point *point, int given, fer_chart_signal number)
{
    point->signals.bits |= given ? UINT64_C(1) << number : 0;
}

static int is_long(int run, int wanted)
{
    return wanted > 0 && (run < 0 ? -run : run) >= wanted;
}

static void signal_runs(const fer_chart_point *last, double score, const fer_charting *c,
                        fer_chart_point *point)
{
    const int zone = zone_of(score);
    give(point, c->beyond > 0.0 && fabs(score) > c->beyond, FER_CHART_SIGNAL_BEYOND);
    give(point, c->two_of_three && beyond_among(last->history, zone, 2, 3) >= 2,
         FER_CHART_SIGNAL_TWO_OF_THREE);
    give(point, c->four_of_five && beyond_among(last->history, zone, 1, 5) >= 4,
         FER_CHART_SIGNAL_FOUR_OF_FIVE);
    give(point, is_long(point->side_run, c->same_side), FER_CHART_SIGNAL_SAME_SIDE);
    give(point, is_long(point->trend_run, c->rising), FER_CHART_SIGNAL_RISING);
    give(point, is_long(point->alternating_run, c->alternating), FER_CHART_SIGNAL_ALTERNATING);
    give(point, is_long(point->inside_run, c->inside), FER_CHART_SIGNAL_INSIDE);
    give(point, is_long(point->outside_run, c->outside), FER_CHART_SIGNAL_OUTSIDE);
}

/* ---- weighted mean and sums ------------------------------------------------------------------------------ */

/* (1 - weight)^(2 n), by squaring: libraries differ in pow(). */
static double forgotten(double weight, int n)
{
    double power = 1.0, square = (1.0 - weight) * (1.0 - weight);
    for (; n > 0; n /= 2) {
        power *= n % 2 == 1 ? square : 1.0;
        square *= square;
    }
    return power;
}

static void follow_ewma(const fer_chart_point *last, double score, const fer_charting *c,
                        fer_chart_point *point)
{
    const double weight = c->weight;
    point->ewma = weight * score + (1.0 - weight) * last->ewma;
    point->ewma_limit =
        fer_ewma_limit_of(c) * sqrt(weight / (2.0 - weight) * (1.0 - forgotten(weight, point->scored)));
    give(point, fabs(point->ewma) > point->ewma_limit, FER_CHART_SIGNAL_EWMA);
}

static void follow_cusum(const fer_chart_point *last, double score, const fer_charting *c,
                         fer_chart_point *point)
{
    point->up = fmax(0.0, last->up + score - c->allowance);
    point->down = fmax(0.0, last->down - score - c->allowance);
    give(point, point->up > fer_decision_of(c), FER_CHART_SIGNAL_CUSUM_UP);
    give(point, point->down > fer_decision_of(c), FER_CHART_SIGNAL_CUSUM_DOWN);
}

/* ---- points ---------------------------------------------------------------------------------------------- */

static void follow_score(const fer_chart_point *last, double score, const fer_charting *c,
                         fer_chart_point *point)
{
    point->scored = last->scored + 1;
    point->last_score = score;
    follow_runs(last, score, point);
    signal_runs(last, score, c, point);
    if (c->weight > 0.0) {
        follow_ewma(last, score, c, point);
    }
    if (c->allowance > 0.0) {
        follow_cusum(last, score, c, point);
    }
}

/* Both points before have been checked; empty where there is none. */
static void add_piece(const fer_chart_point *last, const fer_chart_point *last_of_kind,
                      const fer_sample_piece *piece, const fer_charting *c, fer_chart_point *point)
{
    const double score = find_score(last_of_kind, piece->diameter.mm, c);
    fer_chart_point next = *last;
    next.signals.bits = 0;
    next.score = score;
    next.kind = piece->kind;
    add_to_kind(last_of_kind, piece->diameter.mm, &next);
    if (fer_is_finite(score)) {
        follow_score(last, score, c, &next);
    }
    *point = next;
}

static int is_run(int run, int scored)
{
    return run >= -scored && run <= scored;
}

/* Whatever a caller hands over, nothing may overflow; a run of a trend counts its first piece. */
static fer_status check_point(const fer_chart_point *p)
{
    const int scored = p->scored;
    FER_REQUIRE(scored >= 0 && scored < 1000000000 && p->count > 0 && p->count < 1000000000,
                FER_CHART_POINT_INCOMPLETE);
    FER_REQUIRE(fer_is_length(p->mean) && p->scatter.mm >= 0.0 && p->scatter.mm <= FER_LENGTH_MAXIMUM_MM,
                FER_CHART_POINT_INCOMPLETE);
    FER_REQUIRE(fabs(p->ewma) <= score_maximum && p->up >= 0.0 && p->down >= 0.0 && p->up <= 1e12 &&
                    p->down <= 1e12 && fabs(p->last_score) <= score_maximum,
                FER_CHART_POINT_INCOMPLETE);
    FER_REQUIRE(p->ewma_limit >= 0.0 && p->ewma_limit <= 6.0 && p->kind >= 0 && p->kind <= 63,
                FER_CHART_POINT_INCOMPLETE);
    FER_REQUIRE(p->history >= 0 && p->history <= history_mask && is_run(p->side_run, scored) &&
                    is_run(p->trend_run, scored + 1) && is_run(p->alternating_run, scored + 1) &&
                    is_run(p->inside_run, scored) && is_run(p->outside_run, scored),
                FER_CHART_POINT_INCOMPLETE);
    return FER_OK;
}

/* A point without a piece is none. */
static fer_status take_point(const fer_chart_point *given, fer_chart_point *taken)
{
    FER_EMPTY(*taken);
    if (given->count != 0) {
        FER_TRY(check_point(given));
        *taken = *given;
    }
    return FER_OK;
}

static fer_status next_point(const fer_sample_piece *piece, const fer_chart_point *given_last,
                             const fer_chart_point *given_of_kind, const fer_charting *c,
                             fer_chart_point *point)
{
    fer_chart_point last, last_of_kind;
    FER_TRY(fer_check_pieces(piece, 1, 1));
    FER_TRY(fer_check_charting(c));
    FER_TRY(check_known(c));
    FER_TRY(take_point(given_last, &last));
    FER_TRY(take_point(given_of_kind, &last_of_kind));
    FER_REQUIRE(c->centre.mm == 0.0 || last.count == 0 || last.kind == piece->kind, FER_CHART_KINDS_SEVERAL);
    FER_REQUIRE(last_of_kind.count == 0 || last_of_kind.kind == piece->kind, FER_CHART_KINDS_SEVERAL);
    add_piece(&last, &last_of_kind, piece, c, point);
    return FER_OK;
}

static void leave_out_point(fer_chart_point *point)
{
    FER_EMPTY(*point);
    FER_LEAVE_OUT_FROM(fer_chart_point, *point, score, down);
    FER_LEAVE_OUT_FROM(fer_chart_point, *point, mean, scatter);
    FER_LEAVE_OUT(point->last_score);
}

fer_status fer_next_point(const fer_sample_piece *piece, fer_chart_point last, fer_chart_point last_of_kind,
                          fer_charting charting, fer_chart_point *point)
{
    FER_REQUIRE(point, FER_ARGUMENT_MISSING);
    leave_out_point(point);
    return next_point(piece, &last, &last_of_kind, &charting, point);
}

static fer_status chart(const fer_sample_piece *pieces, size_t count, const fer_charting *c,
                        fer_chart_point *points, size_t capacity)
{
    static const fer_chart_point none = {0};
    size_t last_of[64] = {0}; /* place of the last of a kind, counted from 1 */
    FER_TRY(fer_check_pieces(pieces, count, 1));
    FER_TRY(fer_check_charting(c));
    FER_TRY(check_known(c));
    if (c->centre.mm > 0.0) {
        FER_TRY(fer_check_one_kind(pieces, count));
    }
    FER_REQUIRE(points, FER_ARGUMENT_MISSING);
    FER_REQUIRE(capacity >= count, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    for (size_t i = 0; i < count; i++) {
        size_t *const before = &last_of[pieces[i].kind];
        add_piece(i > 0 ? &points[i - 1] : &none, *before > 0 ? &points[*before - 1] : &none, &pieces[i], c,
                  &points[i]);
        *before = i + 1;
    }
    return FER_OK;
}

fer_status fer_chart_points(const fer_sample_piece *pieces, size_t count, fer_charting charting,
                            fer_chart_point *points, size_t capacity, size_t *found)
{
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    const fer_status status = chart(pieces, count, &charting, points, capacity);
    *found = status == FER_OK ? count : 0;
    return status;
}

/* ---- words of the signals -------------------------------------------------------------------------------- */

typedef struct {
    FER_CHART_SIGNAL_LIST(FER_WORDS_MEMBERS)
} signal_words;

static const signal_words words = {FER_CHART_SIGNAL_LIST(FER_WORDS_TEXT)};

#define PLACE(name, number, sentence) FER_WORDS_PLACE(signal_words, name, number)
static const fer_word_place places[] = {FER_CHART_SIGNAL_LIST(PLACE)};
enum { place_count = sizeof places / sizeof *places };

const char *fer_chart_signal_name(fer_chart_signal signal)
{
    const char *name = fer_name_among((const char *)&words, places, place_count, (int)signal);
    return name ? name : "UNKNOWN";
}

const char *fer_chart_signal_sentence(fer_chart_signal signal)
{
    const char *sentence = fer_sentence_among((const char *)&words, places, place_count, (int)signal);
    return sentence ? sentence : "";
}
