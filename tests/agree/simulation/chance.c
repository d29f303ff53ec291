/* SPDX-License-Identifier: MIT */
/* Normal deviates against the normal distribution, and simulated shares against the exact ones. Writes a table; ends with
 * 1 where a claim of module `chance` does not hold. All invented. Seed 20240611, beyond the blocks of other tests.
 *
 * Usage: simulate_chance [TRIALS]   default 100,000,000; the committed table is of that many, ctest makes fewer.
 */
#include <ferrule/ferrule.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { cells = 1000, fine = 100000, tails = 5 };
static const uint64_t seed = 20240611;
static int failed;

static void claim(int holds, const char *what)
{
    printf("%s: %s\n", holds ? "holds" : "FAILS", what);
    failed |= !holds;
}

static double below(double x)
{
    return 0.5 * erfc(-x * sqrt(0.5));
}

/* Standard score of a chi-square number with n degrees of freedom: Wilson and Hilferty (from memory). */
static double score(double chi_square, double n)
{
    return (cbrt(chi_square / n) - (1.0 - 2.0 / (9.0 * n))) / sqrt(2.0 / (9.0 * n));
}

typedef struct {
    uint64_t equal[cells];  /* cells of equal probability */
    uint64_t lattice[fine]; /* cells of equal width from -7 to 7 */
    uint64_t beyond[tails]; /* beyond 2, 3, 4, 5, 6 either way */
    double power[4];        /* sums of powers */
    uint64_t pairs[16][16]; /* successive deviates in 16 cells of equal probability each */
} tally;

static tally *draw(uint64_t number)
{
    static tally t;
    fer_joint joint = {0};
    fer_uncertainties uncertainties = {0};
    const fer_trials trials = {seed, 0, 0, FER_SEQUENCE_RANDOM, {0}};
    int last = 0;
    joint.hose.inside = fer_mm(12.7);
    joint.hose.outside = fer_mm(19.9);
    joint.stem.outside = fer_mm(12.95);
    joint.ferrule.wall = fer_mm(2.4);
    uncertainties.diameter.amount = fer_mm(1.0);
    for (uint64_t i = 0; i < number; i++) {
        fer_joint drawn;
        fer_length diameter;
        if (fer_draw_joint(&joint, &uncertainties, fer_mm(1024.0), i, trials, &drawn, &diameter) != FER_OK) {
            exit(1);
        }
        const double x = diameter.mm - 1024.0, p = below(x);
        const int cell = (int)(16.0 * p);
        t.equal[(int)(cells * p)]++;
        t.lattice[(int)fmax(0.0, fmin(fine - 1.0, (x + 7.0) / 14.0 * fine))]++;
        for (int k = 0; k < tails; k++) {
            t.beyond[k] += fabs(x) > k + 2.0;
        }
        t.power[0] += x;
        t.power[1] += x * x;
        t.power[2] += x * x * x;
        t.power[3] += x * x * x * x;
        t.pairs[last][cell] += i > 0;
        last = cell;
    }
    return &t;
}

static double chi_square(const uint64_t *counts, int number, double expected)
{
    double sum = 0.0;
    for (int i = 0; i < number; i++) {
        const double miss = (double)counts[i] - expected;
        sum += miss * miss / expected;
    }
    return sum;
}

static double kolmogorov(const tally *t, double number)
{
    double worst = 0.0, sum = 0.0;
    for (int i = 0; i < fine - 1; i++) {
        sum += (double)t->lattice[i];
        worst = fmax(worst, fabs(sum / number - below(-7.0 + 14.0 * (i + 1) / fine)));
    }
    return worst * sqrt(number);
}

/* Limits: each claim fails by chance about once in 10,000 seeds. */
static void fit(uint64_t number)
{
    const tally *t = draw(number);
    const double n = (double)number, limit = 3.9;
    const double z = score(chi_square(t->equal, cells, n / cells), cells - 1);
    const double pairs = score(chi_square(&t->pairs[0][0], 256, (n - 1.0) / 256.0), 255);
    const double distance = kolmogorov(t, n);
    static const double moment[4] = {0, 1, 0, 3}, variance[4] = {1, 2, 15, 96};
    printf("Normal deviates: %.0f draws\n", n);
    printf("  chi-square, %d cells, standard score     %6.2f\n", cells, z);
    printf("  chi-square, 256 pairs, standard score     %6.2f\n", pairs);
    printf("  Kolmogorov's distance times sqrt(n)       %6.2f\n", distance);
    int moments_fit = 1, tails_fit = 1;
    for (int k = 0; k < 4; k++) {
        const double miss = (t->power[k] / n - moment[k]) / sqrt(variance[k] / n);
        printf("  moment %d, standard score                  %6.2f\n", k + 1, miss);
        moments_fit &= fabs(miss) < limit;
    }
    for (int k = 0; k < tails; k++) {
        const double expected = 2.0 * n * below(-(k + 2.0));
        const double miss = ((double)t->beyond[k] - expected) / sqrt(expected);
        printf("  beyond %d: %9llu, expected %11.1f, score %5.2f\n", k + 2, (unsigned long long)t->beyond[k],
               expected, miss);
        tails_fit &= fabs(miss) < limit + 1.0 / sqrt(expected);
    }
    claim(fabs(z) < limit, "cells of equal probability are equally full");
    claim(fabs(pairs) < limit, "successive deviates are independent");
    claim(distance < 2.2, "the distribution is normal everywhere");
    claim(moments_fit, "four moments");
    claim(tails_fit, "tails as far as 6 standard deviations");
}

static fer_uncertainties uncertainties_of(int number)
{
    static const fer_distribution shapes[3][5] = {{0}, {1, 0, 2, 0, 1}, {2, 2, 1, 1, 2}};
    static const double amounts[2][5] = {{0.08, 0.10, 0.02, 0.03, 0.05}, {0.15, 0.2, 0.05, 0.06, 0.1}};
    fer_uncertainties s = {0};
    fer_uncertainty *const inputs[5] = {&s.hose_inside, &s.hose_outside, &s.stem_outside, &s.ferrule_wall,
                                        &s.diameter};
    for (int i = 0; i < 5; i++) {
        inputs[i]->amount.mm = amounts[number == 1 || number == 2][i];
        inputs[i]->distribution = number < 3 ? shapes[number][i] : FER_DISTRIBUTION_NORMAL;
    }
    if (number == 3) {
        s.correlations.hose_inside_hose_outside.fraction = 0.5;
        s.correlations.stem_outside_ferrule_wall.fraction = -0.7;
    }
    return s;
}

static void compare(uint64_t number)
{
    static const char *const names[4] = {"five normal inputs", "normal, rectangular, triangular",
                                         "rectangular and triangular", "normal, correlated"};
    const fer_ratio_range usual = {{0.15}, {0.25}};
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_joint joint = {0};
    joint.hose.inside = fer_mm(12.7);
    joint.hose.outside = fer_mm(19.9);
    joint.stem.outside = fer_mm(12.95);
    joint.ferrule.wall = fer_mm(2.4);
    printf("\nYield: %.0f trials each, 23.51 mm\n  %-32s %11s %11s %7s\n", (double)number, "", "exact %",
           "simulated %", "score");
    int fits = 1;
    for (int i = 0; i < 8; i++) {
        const fer_uncertainties uncertainties = uncertainties_of(i % 4);
        const fer_trials trials = {seed + 1, 0, number / FER_TRIALS_A_BLOCK, (fer_sequence)(i / 4), {0}};
        fer_shares exact;
        fer_crimp_count count;
        fer_simulated_shares found;
        if (fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &exact) != FER_OK ||
            fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &count) !=
                FER_OK ||
            fer_find_simulated_shares(&count, &found) != FER_OK) {
            exit(1);
        }
        const double score_of =
            (found.shares.inside.fraction - exact.inside.fraction) / found.standard_error.fraction;
        const double p = exact.inside.fraction,
                     gain = p * (1 - p) / (double)count.trials /
                            (found.standard_error.fraction * found.standard_error.fraction);
        printf("  %-32s %11.6f %11.6f %7.2f", names[i % 4], 100.0 * p, 100.0 * found.shares.inside.fraction,
               score_of);
        if (i >= 4) {
            printf("   Sobol, worth %.0f times the trials", gain);
        }
        printf("\n");
        fits &= fabs(score_of) < 3.9;
    }
    claim(fits, "simulated shares agree with the exact ones within 3.9 standard errors");
}

/* How often 1.96 standard errors hold the exact share, over so many simulations of twelve blocks each. */
static void cover(uint64_t simulations)
{
    static const char *const names[2] = {"random numbers", "Sobol's points"};
    const fer_ratio_range usual = {{0.15}, {0.25}};
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    const fer_uncertainties uncertainties = uncertainties_of(1);
    fer_joint joint = {0};
    fer_shares exact;
    joint.hose.inside = fer_mm(12.7);
    joint.hose.outside = fer_mm(19.9);
    joint.stem.outside = fer_mm(12.95);
    joint.ferrule.wall = fer_mm(2.4);
    if (fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &exact) != FER_OK) {
        exit(1);
    }
    printf("\nCoverage of 1.96 standard errors: %.0f simulations of 12 blocks each, 23.51 mm\n",
           (double)simulations);
    for (int kind = 0; kind < 2; kind++) {
        uint64_t covered = 0;
        for (uint64_t i = 0; i < simulations; i++) {
            const fer_trials trials = {seed + 1000 + i, 0, 12, (fer_sequence)kind, {0}};
            fer_crimp_count count;
            fer_simulated_shares found;
            if (fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &count) !=
                    FER_OK ||
                fer_find_simulated_shares(&count, &found) != FER_OK) {
                exit(1);
            }
            covered += fabs(found.shares.inside.fraction - exact.inside.fraction) <=
                       1.959963984540054 * found.standard_error.fraction;
        }
        const double share = (double)covered / (double)simulations;
        printf("  %-32s %11.2f %%\n", names[kind], 100.0 * share);
        claim(fabs(share - 0.95) <= 3.0 * sqrt(0.95 * 0.05 / (double)simulations) + 0.5 / (double)simulations,
              "95 % within three standard errors");
    }
}

int main(int count, char **words)
{
    const uint64_t number = count > 1 ? strtoull(words[1], NULL, 10) : 100000000u;
    fit(number);
    compare(number);
    cover(number / 50000);
    return failed;
}
