/* SPDX-License-Identifier: MIT */
/* Agreement of opinions: good or bad.
 * Method: counts over a list in any order; exact limits by the beta distribution; kappa with its error.
 * Formulas: include/ferrule/gauge.h; docs/gauge.md. */
#include <ferrule/gauge.h>

#include "base/numeric/special.h"
#include "base/value_private.h"
#include "batch/numeric/beta.h"
#include "batch/sample_private.h"

typedef struct {
    const fer_opinion *opinions;
    size_t count;
} list;

enum { good = 1, bad = 2 };

static fer_status check_opinion(const list *l, size_t index)
{
    const fer_opinion *o = &l->opinions[index];
    FER_REQUIRE(o->piece >= 0 && o->piece <= 1000000 && o->person >= 0 && o->person <= 63,
                FER_OPINION_OUT_OF_RANGE);
    FER_REQUIRE((o->said == good || o->said == bad) && o->truth >= 0 && o->truth <= bad,
                FER_OPINION_OUT_OF_RANGE);
    for (size_t i = 0; i < index; i++) {
        FER_REQUIRE(l->opinions[i].piece != o->piece || l->opinions[i].truth == o->truth,
                    FER_OPINION_OUT_OF_RANGE);
    }
    return FER_OK;
}

/* Opinions on the same piece, of the same person where that is asked: how many, and how many of them say good. */
typedef struct {
    size_t all, good;
    int first; /* none of them stands before */
} tally;

static tally tally_of(const list *l, size_t index, int same_person)
{
    tally t = {0, 0, 1};
    for (size_t i = 0; i < l->count; i++) {
        const fer_opinion *a = &l->opinions[i], *b = &l->opinions[index];
        if (a->piece == b->piece && (!same_person || a->person == b->person)) {
            t.all++;
            t.good += a->said == good;
            t.first &= i >= index;
        }
    }
    return t;
}

/* Share of the pieces, or of pieces and people, with more than one opinion, that all say the same. */
static double share_alike(const list *l, int same_person)
{
    size_t alike = 0, all = 0;
    for (size_t i = 0; i < l->count; i++) {
        const tally t = tally_of(l, i, same_person);
        if (t.first && t.all > 1) {
            all++;
            alike += t.good == 0 || t.good == t.all;
        }
    }
    return all > 0 ? (double)alike / (double)all : NAN;
}

static size_t count_people(const list *l)
{
    size_t people = 0;
    for (size_t i = 0; i < l->count; i++) {
        int first = 1;
        for (size_t j = 0; j < i; j++) {
            first &= l->opinions[j].person != l->opinions[i].person;
        }
        people += (size_t)first;
    }
    return people;
}

static size_t count_pieces(const list *l)
{
    size_t pieces = 0;
    for (size_t i = 0; i < l->count; i++) {
        pieces += (size_t)tally_of(l, i, 0).first;
    }
    return pieces;
}

/* ---- against the truth ----------------------------------------------------------------------------------- */

/* wrong of all, with its exact upper limit. */
static void describe_errors(double wrong, double all, double confidence, fer_ratio *share, fer_ratio *upper)
{
    share->fraction = all > 0.0 ? wrong / all : NAN;
    upper->fraction = wrong < all ? fer_beta_quantile(confidence, wrong + 1.0, all - wrong) : 1.0;
}

/* Cohen's kappa of a table of two by two: a both good, d both bad. */
static double cohen(double a, double b, double c, double d)
{
    const double n = a + b + c + d, by_chance = ((a + b) * (a + c) + (c + d) * (b + d)) / (n * n);
    return ((a + d) / n - by_chance) / (1.0 - by_chance);
}

static void describe_truth(const list *l, double confidence, fer_agreement *agreement)
{
    double counts[3][3] = {{0}}; /* truth, said */
    for (size_t i = 0; i < l->count; i++) {
        counts[l->opinions[i].truth][l->opinions[i].said] += 1.0;
    }
    const double passed = counts[bad][good], refused = counts[good][bad], a = counts[good][good],
                 d = counts[bad][bad];
    describe_errors(passed, passed + d, confidence, &agreement->bad_passed, &agreement->bad_passed_upper);
    describe_errors(refused, refused + a, confidence, &agreement->good_refused,
                    &agreement->good_refused_upper);
    agreement->kappa_truth = cohen(a, refused, passed, d);
}

/* ---- with each other ------------------------------------------------------------------------------------- */

/* Fleiss' kappa: of the opinions on all pieces, without those on one. */
typedef struct {
    double pieces, agreeing, opinions, good;
} sums;

static double fleiss(const sums *s)
{
    const double share = s->good / s->opinions, by_chance = share * share + (1.0 - share) * (1.0 - share);
    return (s->agreeing / s->pieces - by_chance) / (1.0 - by_chance);
}

static void add_piece(sums *s, const tally *t, double times)
{
    const double all = (double)t->all, yes = (double)t->good, no = all - yes;
    s->pieces += times;
    s->opinions += times * all;
    s->good += times * yes;
    s->agreeing += times * (yes * (yes - 1.0) + no * (no - 1.0)) / (all * (all - 1.0));
}

/* Standard error by leaving out one piece at a time. */
static double error_of_fleiss(const list *l, const sums *all)
{
    double mean = 0.0, squares = 0.0;
    for (int pass = 0; pass < 2; pass++) {
        for (size_t i = 0; i < l->count; i++) {
            const tally t = tally_of(l, i, 0);
            if (t.first && t.all > 1) {
                sums without = *all;
                add_piece(&without, &t, -1.0);
                const double kappa = fleiss(&without);
                mean += pass == 0 ? kappa / all->pieces : 0.0;
                squares += pass == 1 ? (kappa - mean) * (kappa - mean) : 0.0;
            }
        }
    }
    return sqrt(squares * (all->pieces - 1.0) / all->pieces);
}

static void describe_several(const list *l, fer_agreement *agreement)
{
    sums s = {0.0, 0.0, 0.0, 0.0};
    for (size_t i = 0; i < l->count; i++) {
        const tally t = tally_of(l, i, 0);
        if (t.first && t.all > 1) {
            add_piece(&s, &t, 1.0);
        }
    }
    agreement->kappa = fleiss(&s);
    agreement->kappa_error = error_of_fleiss(l, &s);
}

static double squared(double x)
{
    return x * x;
}

/* Fleiss, Cohen and Everitt's error of it. */
static double error_of_cohen(double a, double b, double c, double d, double kappa)
{
    const double n = a + b + c + d, row = (a + b) / n, column = (a + c) / n, left = 1.0 - kappa;
    const double by_chance = row * column + (1.0 - row) * (1.0 - column);
    const double same =
        a * squared(1.0 - (row + column) * left) + d * squared(1.0 - (2.0 - row - column) * left);
    const double other = b * squared(column + 1.0 - row) + c * squared(row + 1.0 - column);
    const double variance = (same + left * left * other) / n - squared(kappa - by_chance * left);
    return sqrt(fmax(variance, 0.0) / n) /
           (1.0 - by_chance); /* nothing is left but a rounding where all agree */
}

/* Two people, one opinion each on every piece that counts. */
static void describe_two(const list *l, fer_agreement *agreement)
{
    double counts[3][3] = {{0}}; /* one, other */
    const int one = l->opinions[0].person;
    for (size_t i = 0; i < l->count; i++) {
        for (size_t j = 0; j < l->count; j++) {
            const fer_opinion *a = &l->opinions[i], *b = &l->opinions[j];
            if (a->piece == b->piece && a->person == one && b->person != one) {
                counts[a->said][b->said] += 1.0;
            }
        }
    }
    const double a = counts[good][good], b = counts[good][bad], c = counts[bad][good], d = counts[bad][bad];
    agreement->kappa = cohen(a, b, c, d);
    agreement->kappa_error = error_of_cohen(a, b, c, d, agreement->kappa);
}

/* No piece has two opinions of one person. */
static int is_once_each(const list *l)
{
    for (size_t i = 0; i < l->count; i++) {
        if (tally_of(l, i, 1).all > 1) {
            return 0;
        }
    }
    return 1;
}

static void describe_kappa(const list *l, double confidence, fer_agreement *agreement)
{
    if (agreement->people == 2 && is_once_each(l)) {
        describe_two(l, agreement);
    } else {
        describe_several(l, agreement);
    }
    const double width = fer_normal_quantile(confidence) * agreement->kappa_error;
    agreement->kappa_lower = fmax(agreement->kappa - width, -1.0);
    agreement->kappa_upper = fmin(agreement->kappa + width, 1.0);
    if (!fer_is_finite(agreement->kappa)) {
        FER_LEAVE_OUT_FROM(fer_agreement, *agreement, kappa, kappa_upper);
        agreement->kappa_status = FER_AGREEMENT_UNDEFINED;
    } else if (!fer_is_finite(agreement->kappa_error)) {
        FER_LEAVE_OUT_FROM(fer_agreement, *agreement, kappa_error, kappa_upper);
    }
}

static fer_status find_agreement(const fer_opinion *opinions, size_t count, fer_ratio confidence,
                                 fer_agreement *agreement)
{
    const list l = {opinions, count};
    FER_REQUIRE(opinions, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_REQUIRE(count <= FER_STUDY_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    for (size_t i = 0; i < count; i++) {
        FER_TRY(check_opinion(&l, i));
    }
    FER_TRY(fer_take_confidence(&confidence));
    agreement->people = count_people(&l);
    agreement->pieces = count_pieces(&l);
    FER_REQUIRE(agreement->pieces < count, FER_OPINION_TOO_FEW);
    agreement->within.fraction = share_alike(&l, 1);
    agreement->between.fraction = share_alike(&l, 0);
    describe_truth(&l, confidence.fraction, agreement);
    describe_kappa(&l, confidence.fraction, agreement);
    return FER_OK;
}

fer_status fer_find_agreement(const fer_opinion *opinions, size_t count, fer_ratio confidence,
                              fer_agreement *agreement)
{
    FER_REQUIRE(agreement, FER_ARGUMENT_MISSING);
    FER_EMPTY(*agreement);
    const fer_status status = find_agreement(opinions, count, confidence, agreement);
    if (status != FER_OK) {
        FER_EMPTY(*agreement);
        FER_LEAVE_OUT_FROM(fer_agreement, *agreement, bad_passed, kappa_upper);
        agreement->kappa_status = status;
        FER_LEAVE_OUT(agreement->kappa_truth);
    }
    return status;
}
