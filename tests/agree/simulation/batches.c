/* SPDX-License-Identifier: MIT */
/* Coverage of the limits in modules `capability` and `gauge`: in how many of so many samples a limit kept the truth, beside what was
 * asked. Writes tables; ends with 1 where a limit holds by more than four standard errors less than was asked (with the gauge taken off, which is
 * fiducial, by 0.015 more).
 *
 * simulate_batches [SAMPLES]; without a number 10,000. Pieces are normal, all invented. Seed 20261201, for every line anew.
 */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "random.h"

enum { pieces_maximum = 50, readings_maximum = 60 };
static const uint64_t first_seed = 20261201u;
static int failed = 0;

/* One line: how often it was kept. `allowed` is what a limit that is not exact may fall short of. */
static void say(const char *what, double asked, long kept, long samples, double allowed)
{
    const double reached = (double)kept / (double)samples,
                 error = sqrt(asked * (1.0 - asked) / (double)samples);
    const int good = reached >= asked - allowed - 4.0 * error;
    printf("%-72s %6.3f %8.4f %8.4f%s\n", what, asked, reached, error, good ? "" : "  TOO LOW");
    failed |= !good;
}

static fer_sample_summary summary_of(const double *values, size_t n)
{
    fer_sample_piece pieces[pieces_maximum];
    fer_sample_summary summary;
    memset(pieces, 0, sizeof pieces);
    for (size_t i = 0; i < n; i++) {
        pieces[i].diameter.mm = values[i];
    }
    if (fer_summarise_sample(pieces, n, &summary) != FER_OK) {
        exit(2);
    }
    return summary;
}

/* A sample of mean 100 + off and this standard deviation. */
static fer_sample_summary draw_sample(size_t n, double off, double deviation, uint64_t *seed)
{
    double values[pieces_maximum];
    for (size_t i = 0; i < n; i++) {
        values[i] = 100.0 + off + deviation * next_normal(seed);
    }
    return summary_of(values, n);
}

/* ---- capability ------------------------------------------------------------------------------------------ */

typedef struct {
    size_t pieces;
    double share, degrees,
        common; /* of the gauge: of the observed variance; 0: known; in observed deviations */
    double off; /* mean from the middle, in the pieces' own deviations */
} scene;

/* The gauge's repeatability as a study with so many degrees of freedom found it. */
static double found_repeatability(double gauge, double degrees, uint64_t *seed)
{
    double squares = 0.0;
    for (int i = 0; i < (int)degrees; i++) {
        const double x = next_normal(seed);
        squares += x * x;
    }
    return degrees > 0.0 ? gauge * sqrt(squares / degrees) : gauge;
}

/* Own deviation 1, limits 4 and off + 4 away: index 4/3 to the nearer one. */
static void try_index(scene s, long samples)
{
    const double gauge = sqrt(s.share / (1.0 - s.share)), observed = hypot(1.0, gauge),
                 common = s.common * observed;
    const fer_wanted wanted = {{{100.0 - 4.0 - 2.0 * s.off}, {104.0}}, {0.0}, FER_SIDE_BOTH};
    const fer_ratio confidence = {0.9};
    uint64_t seed = first_seed;
    long lower = 0, potential = 0, outside = 0;
    for (long k = 0; k < samples; k++) {
        fer_capability c;
        fer_share_outside share;
        fer_capability_settings settings;
        memset(&settings, 0, sizeof settings);
        const double shift = common * next_normal(&seed);
        const fer_sample_summary summary = draw_sample(s.pieces, shift, observed, &seed);
        settings.measuring.repeatability.mm = found_repeatability(gauge, s.degrees, &seed);
        settings.measuring.repeatability_degrees = s.degrees;
        settings.measuring.common.mm = common;
        if (fer_find_capability(&summary, &wanted, confidence, settings, &c) != FER_OK) {
            exit(2);
        }
        const double truth = 0.5 * erfc(4.0 / sqrt(2.0)) + 0.5 * erfc((4.0 + 2.0 * s.off) / sqrt(2.0));
        /* a sample that shows the gauge only, or no index above 0, says nothing: that is no wrong limit */
        lower += !(c.nearer.lower > 4.0 / 3.0);
        potential += !(c.potential.lower > (8.0 + 2.0 * s.off) / 6.0);
        if (s.degrees == 0.0) {
            const fer_status status =
                fer_find_share_outside(&summary, &wanted, confidence, settings.measuring, &share);
            outside += status != FER_OK || share.outside_upper.fraction >= truth;
        }
    }
    char what[96];
    const double allowed = s.share > 0.0 ? 0.015 : 0.0;
    const int length =
        snprintf(what, sizeof what,
                 "%2d pieces, gauge %.1f of variance, degrees %2.0f, common %.1f, off %.1f: ", (int)s.pieces,
                 s.share, s.degrees, s.common, s.off);
    snprintf(what + length, sizeof what - (size_t)length, "nearer");
    say(what, 0.9, lower, samples, allowed);
    snprintf(what + length, sizeof what - (size_t)length, "potential");
    say(what, 0.9, potential, samples, allowed);
    if (s.degrees == 0.0) {
        snprintf(what + length, sizeof what - (size_t)length, "outside");
        say(what, 0.9, outside, samples, allowed);
    }
}

static void try_indices(long samples)
{
    static const size_t pieces[4] = {5, 10, 30, 50};
    static const double shares[4] = {0.0, 0.1, 0.3, 0.6};
    printf("Lower limits of indices, upper limit of the share outside         asked  reached    error\n");
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            const scene known = {pieces[i], shares[j], 0.0, 0.0, 1.0},
                        common = {pieces[i], shares[j], 0.0, 0.5, 1.0};
            const scene found = {pieces[i], shares[j], 20.0, 0.0, 1.0},
                        middle = {pieces[i], shares[j], 0.0, 0.0, 0.0};
            try_index(known, samples);
            try_index(middle, samples);
            try_index(common, samples);
            if (shares[j] > 0.0) {
                try_index(found, samples > 500 ? samples / 20 : 25);
            }
        }
    }
}

/* Upper limit of the smaller index, limit about the target, tolerance factors, the next piece; without gauge. */
static void try_plain(size_t n, double off, long samples)
{
    const fer_wanted wanted = {{{96.0}, {104.0}}, {0.0}, FER_SIDE_BOTH};
    const fer_ratio confidence = {0.9}, content = {0.95};
    fer_capability_settings settings;
    uint64_t seed = first_seed;
    long upper = 0, about = 0, both = 0, one = 0;
    char what[96];
    memset(&settings, 0, sizeof settings);
    for (long k = 0; k < samples; k++) {
        fer_capability c;
        fer_tolerance_limits two, high;
        const fer_sample_summary summary = draw_sample(n, off, 1.0, &seed);
        if (fer_find_capability(&summary, &wanted, confidence, settings, &c) != FER_OK ||
            fer_find_tolerance_limits(&summary, content, confidence, FER_SIDE_BOTH, &two) != FER_OK ||
            fer_find_tolerance_limits(&summary, content, confidence, FER_SIDE_UPPER, &high) != FER_OK) {
            exit(2);
        }
        const double low_end = two.lower.mm - 100.0 - off, high_end = two.upper.mm - 100.0 - off;
        upper += c.nearer.upper >= (4.0 - fabs(off)) / 3.0;
        about += c.about_target.lower <= 8.0 / (6.0 * hypot(1.0, off));
        both += 0.5 * erfc(-high_end / sqrt(2.0)) - 0.5 * erfc(-low_end / sqrt(2.0)) >= 0.95;
        one += high.upper.mm - 100.0 - off >= 1.6448536269514722;
    }
    snprintf(what, sizeof what, "%2d pieces, off %.1f: nearer, upper", (int)n, off);
    say(what, 0.9, upper, samples, 0.0);
    snprintf(what, sizeof what, "%2d pieces, off %.1f: about target, lower", (int)n, off);
    say(what, 0.9, about, samples, 0.0);
    snprintf(what, sizeof what, "%2d pieces: tolerance limits, both", (int)n);
    say(what, 0.9, both, samples, 0.0);
    snprintf(what, sizeof what, "%2d pieces: tolerance limits, one", (int)n);
    say(what, 0.9, one, samples, 0.0);
}

/* Normal samples with a step: how many are not refused at 5 %. */
static void try_normality(size_t n, double step, long samples)
{
    fer_measuring measuring;
    uint64_t seed = first_seed;
    long shapiro = 0, anderson = 0;
    char what[96];
    memset(&measuring, 0, sizeof measuring);
    measuring.resolution.mm = step;
    for (long k = 0; k < samples; k++) {
        fer_sample_piece pieces[pieces_maximum];
        fer_length sorted[pieces_maximum];
        fer_normality normality;
        size_t found;
        memset(pieces, 0, sizeof pieces);
        for (size_t i = 0; i < n; i++) {
            const double x = 100.0 + next_normal(&seed);
            pieces[i].diameter.mm = step > 0.0 ? step * floor(x / step + 0.5) : x;
        }
        const fer_status status =
            fer_test_normality(pieces, n, measuring, &normality, sorted, pieces_maximum, &found);
        shapiro += status != FER_OK || normality.shapiro_p.fraction >= 0.05;
        anderson += status != FER_OK || normality.anderson_p.value.fraction >= 0.05;
    }
    snprintf(what, sizeof what, "%2d pieces, step %.2f deviations: not refused, Shapiro and Wilk", (int)n,
             step);
    say(what, 0.95, shapiro, samples, 0.003); /* the probabilities are approximations */
    snprintf(what, sizeof what, "%2d pieces, step %.2f deviations: not refused, Anderson and Darling", (int)n,
             step);
    say(what, 0.95, anderson, samples, 0.003);
}

/* ---- gauge ----------------------------------------------------------------------------------------------- */

typedef struct {
    int parts, people, repeats;
    double of_parts, of_people, of_both; /* standard deviations, repeatability 1 */
} design;

static void draw_study(const design *d, fer_study_reading *readings, uint64_t *seed)
{
    double people[8], both;
    int count = 0;
    for (int j = 0; j < d->people; j++) {
        people[j] = d->of_people * next_normal(seed);
    }
    for (int i = 0; i < d->parts; i++) {
        const double part = d->of_parts * next_normal(seed);
        for (int j = 0; j < d->people; j++) {
            both = d->of_both * next_normal(seed);
            for (int k = 0; k < d->repeats; k++) {
                readings[count].part = i;
                readings[count].person = j;
                readings[count++].diameter.mm = 100.0 + part + people[j] + both + next_normal(seed);
            }
        }
    }
}

static void try_study(design d, long samples)
{
    const fer_study_settings settings = {{0.0}, 1, {0.0}, {0.0}};
    const fer_ratio confidence = {0.95};
    const double gauge = sqrt(1.0 + d.of_people * d.of_people + d.of_both * d.of_both);
    uint64_t seed = first_seed;
    long kept[6] = {0};
    char what[96];
    for (long k = 0; k < samples; k++) {
        fer_study_reading readings[readings_maximum];
        fer_gauge_study study;
        const fer_length none = {0.0};
        draw_study(&d, readings, &seed);
        if (fer_study_gauge(readings, (size_t)(d.parts * d.people * d.repeats), none, confidence, settings,
                            &study) != FER_OK) {
            exit(2);
        }
        kept[0] += study.repeatability.lower.mm <= 1.0;
        kept[1] += study.repeatability.upper.mm >= 1.0;
        kept[2] += study.gauge.lower.mm <= gauge;
        kept[3] += study.gauge.upper.mm >= gauge;
        kept[4] += study.parts.lower.mm <= d.of_parts;
        kept[5] += study.parts.upper.mm >= d.of_parts;
    }
    static const char *const names[6] = {"repeatability, lower", "repeatability, upper", "gauge, lower",
                                         "gauge, upper",         "parts, lower",         "parts, upper"};
    for (int i = 0; i < 6; i++) {
        snprintf(what, sizeof what, "%2d parts, %d people, %d readings, people %.1f: %s", d.parts, d.people,
                 d.repeats, d.of_people, names[i]);
        say(what, 0.95, kept[i], samples, i < 2 ? 0.0 : 0.01);
    }
}

/* Bad pieces passed: exact, so never below what is asked; kappa of two people: approximate. */
static void try_opinions(int pieces, double wrong, long samples)
{
    const fer_ratio confidence = {0.95};
    const double agree = wrong * wrong + (1.0 - wrong) * (1.0 - wrong), kappa = 2.0 * agree - 1.0;
    uint64_t seed = first_seed;
    long upper = 0, low = 0;
    char what[96];
    for (long k = 0; k < samples; k++) {
        fer_opinion opinions[400];
        fer_agreement agreement;
        for (int i = 0; i < 2 * pieces; i++) {
            opinions[i].piece = i / 2;
            opinions[i].person = i % 2;
            opinions[i].truth = i / 2 % 2 + 1;
            opinions[i].said = next_uniform(&seed) < wrong ? 3 - opinions[i].truth : opinions[i].truth;
        }
        if (fer_find_agreement(opinions, (size_t)(2 * pieces), confidence, &agreement) != FER_OK) {
            exit(2);
        }
        upper += agreement.bad_passed_upper.fraction >= wrong;
        low += !(agreement.kappa_lower > kappa);
    }
    snprintf(what, sizeof what, "%3d pieces, %.2f wrong: bad passed, upper", pieces, wrong);
    say(what, 0.95, upper, samples, 0.0);
    snprintf(what, sizeof what, "%3d pieces, %.2f wrong: kappa of two people, lower", pieces, wrong);
    say(what, 0.95, low, samples, 0.03);
}

int main(int count, char **arguments)
{
    const long samples = count > 1 ? atol(arguments[1]) : 10000;
    static const design designs[4] = {{5, 2, 2, 3.0, 0.5, 0.3},
                                      {10, 3, 2, 3.0, 0.5, 0.3},
                                      {10, 3, 2, 3.0, 2.0, 0.3},
                                      {5, 4, 3, 3.0, 1.0, 0.0}};
    printf("Limits of samples and gauge studies: %ld samples a line (a twentieth, at least 25, with degrees "
           "of freedom), "
           "seed %d\n\n",
           samples, (int)first_seed);
    try_indices(samples);
    printf("\nOther limits without gauge                                        asked  reached    error\n");
    for (int i = 0; i < 4; i++) {
        static const size_t pieces[4] = {5, 10, 30, 50};
        try_plain(pieces[i], 0.0, samples);
        try_plain(pieces[i], 1.0, samples);
    }
    printf("\nNormal values, equal readings laid out                            asked  reached    error\n");
    for (int i = 0; i < 4; i++) {
        static const double steps[4] = {0.0, 0.25, 0.5, 1.0};
        try_normality(10, steps[i], samples);
        try_normality(50, steps[i], samples);
    }
    printf("\nGauge studies                                                     asked  reached    error\n");
    for (int i = 0; i < 4; i++) {
        try_study(designs[i], samples);
    }
    printf("\nOpinions                                                          asked  reached    error\n");
    try_opinions(50, 0.1, samples);
    try_opinions(200, 0.1, samples / 5);
    return failed;
}
