/* SPDX-License-Identifier: MIT */
/* Known answers, the same bits for any split and any number of threads, exact shares, statuses. Goodness of fit over 10^8
 * draws and 10^8 trials against the exact share: tests/agree/simulation. */
#include "check.h"

#include <float.h>
#include "chance/random.h"

#include <pthread.h>

static const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE},
                       ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED};
static const fer_ratio_range usual = {{0.15}, {0.25}};

static fer_uncertainty uncertainty(double amount, fer_distribution distribution)
{
    const fer_uncertainty u = {{amount}, distribution, 0.0};
    return u;
}

static fer_uncertainties worked_uncertainties(void)
{
    fer_uncertainties uncertainties = {0};
    uncertainties.hose_inside = uncertainty(0.08, FER_DISTRIBUTION_NORMAL);
    uncertainties.hose_outside = uncertainty(0.10, FER_DISTRIBUTION_NORMAL);
    uncertainties.stem_outside = uncertainty(0.02, FER_DISTRIBUTION_NORMAL);
    uncertainties.ferrule_wall = uncertainty(0.03, FER_DISTRIBUTION_NORMAL);
    uncertainties.diameter = uncertainty(0.05, FER_DISTRIBUTION_NORMAL);
    return uncertainties;
}

static fer_trials blocks(uint64_t first, uint64_t count)
{
    const fer_trials trials = {42, first, count, FER_SEQUENCE_RANDOM, {0}};
    return trials;
}

/* Known answers of philox4x32-10 as published with Random123, the program of Salmon et al. 2011 (from memory; the
 * structure is checked against NumPy's Philox 4x64 in tests/agree/python). */
static void known_answers(void **state)
{
    (void)state;
    static const struct {
        fer_random_words counter;
        uint64_t key;
        uint32_t expected[4];
    } rows[] = {
        {{{0, 0, 0, 0}},
         0,
         {PUBLISHED(0x6627e8d5, "Salmon et al. (2011), Parallel random numbers: as easy as 1, 2, 3; known "
                                "answer of philox4x32-10 of zeros: first word; from memory"),
          0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}},
        {{{0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}},
         UINT64_MAX,
         {PUBLISHED(0x408f276d, "Salmon et al. (2011), Parallel random numbers: as easy as 1, 2, 3; known "
                                "answer of philox4x32-10 of ones: first word; from memory"),
          0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}},
        {{{0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}},
         UINT64_C(0x299f31d0a4093822),
         {PUBLISHED(0xd16cfe09, "Salmon et al. (2011), Parallel random numbers: as easy as 1, 2, 3; known "
                                "answer of philox4x32-10 of the digits of pi: first word; from memory"),
          0x94fdcceb, 0x5001e420, 0x24126ea1}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        fer_random_words words;
        CHECK_OK(fer_find_random_words(&rows[i].counter, rows[i].key, &words));
        assert_memory_equal(words.word, rows[i].expected, sizeof words.word);
    }
}

/* Bit for bit, where the processor has the vectors. */
static void wide_rows_are_the_narrow_ones(void **state)
{
    (void)state;
    static uint64_t narrow[FER_UNIFORMS][FER_ROW], wide[FER_UNIFORMS][FER_ROW];
    static double narrow_deviate[FER_UNIFORMS][FER_ROW], wide_deviate[FER_UNIFORMS][FER_ROW];
    const double one[FER_UNIFORMS + 1] = {0.3, -0.4, 0.1, 0.0, 0.2, -0.1, 0.05};
    const double other[FER_UNIFORMS + 1] = {-0.3, 0.5, 0.1, 0.7, 0.2, -0.1, -0.2};
    uint64_t narrow_count[2] = {0}, wide_count[2] = {0};
    if (!fer_is_wide()) {
        skip();
    }
    for (uint64_t row = 0; row < 300; row++) {
        const uint64_t first = row < 200 ? FER_ROW * row : (UINT64_C(1) << 32) + FER_ROW * (row - 250);
        fer_random_row(row, first, FER_ROW, narrow);
        fer_random_row_wide(row, first, wide);
        for (size_t i = 0; i < FER_UNIFORMS; i++) {
            for (size_t k = 0; k < FER_ROW; k++) {
                assert_int_equal(narrow[i][k], wide[i][k] & ((UINT64_C(1) << FER_UNIFORM_BITS) - 1));
            }
            fer_normal_row(narrow[i], FER_ROW, narrow_deviate[i]);
            fer_normal_row_wide(wide[i], wide_deviate[i]);
        }
        assert_memory_equal(narrow_deviate, wide_deviate, sizeof wide_deviate);
        fer_count_row(one, other, narrow_deviate, &narrow_count[0], &narrow_count[1]);
        fer_count_row_wide(one, other, wide_deviate, &wide_count[0], &wide_count[1]);
    }
    assert_memory_equal(narrow_count, wide_count, sizeof wide_count);
    assert_true(narrow_count[0] > 10000 && narrow_count[1] > 10000);
}

static void any_split_gives_the_same_bits(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = worked_uncertainties();
    static fer_tally whole, part, sum;
    CHECK_OK(fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), ends_fixed, blocks(3, 7),
                                      &whole));
    /* backwards, in pieces of 1, 2 and 4 */
    CHECK_OK(fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), ends_fixed, blocks(9, 1),
                                      &sum));
    CHECK_OK(fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), ends_fixed, blocks(3, 4),
                                      &part));
    CHECK_OK(fer_merge_tallies(&sum, &part, &sum));
    CHECK_OK(fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), ends_fixed, blocks(7, 2),
                                      &part));
    CHECK_OK(fer_merge_tallies(&part, &sum, &sum));
    assert_memory_equal(&whole, &sum, sizeof sum);
}

typedef struct {
    fer_trials trials;
    fer_crimp_count count;
    fer_tally tally;
} share;

static void *run_share(void *argument)
{
    share *s = argument;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = worked_uncertainties();
    if (fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, s->trials, &s->count) !=
            FER_OK ||
        fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), plain, s->trials, &s->tally) !=
            FER_OK) {
        memset(s, 0, sizeof *s);
    }
    return NULL;
}

static void any_number_of_threads_gives_the_same_bits(void **state)
{
    (void)state;
    if (draws_are_few()) {
        skip();
    }
    static share all, shares[6];
    for (int sequence = 0; sequence < 2; sequence++) {
        all.trials = blocks(0, 30);
        all.trials.sequence = (fer_sequence)sequence;
        run_share(&all);
        assert_int_equal(all.count.blocks, 30);
        for (uint64_t threads = 1; threads <= 6; threads++) {
            pthread_t thread[6];
            fer_crimp_count count = {0};
            static fer_tally tally;
            for (uint64_t t = 0; t < threads; t++) {
                const uint64_t from = 30 * t / threads, to = 30 * (t + 1) / threads;
                shares[t].trials = all.trials;
                shares[t].trials.first_block = from;
                shares[t].trials.blocks = to - from;
                assert_int_equal(pthread_create(&thread[t], NULL, run_share, &shares[t]), 0);
            }
            for (uint64_t t = 0; t < threads; t++) {
                assert_int_equal(pthread_join(thread[t], NULL), 0);
                CHECK_OK(fer_merge_counts(&shares[t].count, &count, &count));
                if (t == 0) {
                    tally = shares[t].tally;
                } else {
                    CHECK_OK(fer_merge_tallies(&tally, &shares[t].tally, &tally));
                }
            }
            assert_memory_equal(&count, &all.count, sizeof count);
            assert_memory_equal(&tally, &all.tally, sizeof tally);
        }
    }
}

/* An exact input has no error that another could share: whatever is said of its correlations changes no draw, those of the
 * others among themselves do. */
static void a_correlation_with_an_exact_input_changes_no_draw(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    for (int exact = 0; exact < 6; exact++) {
        fer_uncertainties alone = worked_uncertainties(), related;
        alone.ferrule_outside = uncertainty(0.07, FER_DISTRIBUTION_NORMAL);
        fer_uncertainty *const inputs[] = {&alone.hose_inside,  &alone.hose_outside,    &alone.stem_outside,
                                           &alone.ferrule_wall, &alone.ferrule_outside, &alone.diameter};
        double among[15], all[15]; /* the pairs in the order of fer_correlations */
        int pair = 0;
        for (int i = 0; i < 6; i++) {
            for (int k = i + 1; k < 6; k++, pair++) {
                among[pair] = i == exact || k == exact ? 0.0 : 0.4;
                all[pair] = 0.4;
            }
        }
        inputs[exact]->amount.mm = 0.0;
        memcpy(&alone.correlations, among, sizeof among);
        related = alone;
        memcpy(&related.correlations, all, sizeof all);
        for (uint64_t i = 0; i < 20; i++) {
            fer_joint one, other;
            fer_length diameter, other_diameter;
            CHECK_OK(fer_draw_joint(&joint, &alone, fer_mm(23.51), i, blocks(0, 1), &one, &diameter));
            CHECK_OK(
                fer_draw_joint(&joint, &related, fer_mm(23.51), i, blocks(0, 1), &other, &other_diameter));
            assert_memory_equal(&other, &one, sizeof one);
            CHECK_NEAR(other_diameter.mm, diameter.mm, 0.0);
        }
    }
}

/* The joint that is drawn alone is the one in the tally: counted by hand over a block. */
static void a_joint_drawn_alone_is_that_of_the_simulation(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    uncertainties.hose_inside.distribution = FER_DISTRIBUTION_RECTANGULAR;
    uncertainties.ferrule_outside = uncertainty(0.1, FER_DISTRIBUTION_TRIANGULAR);
    uncertainties.correlations.hose_outside_diameter = fer_fraction(0.5);
    fer_crimp_count count, by_hand = {0};
    fer_trials trials = blocks(5, 1);
    for (int sequence = 0; sequence < 2; sequence++) {
        trials.sequence = (fer_sequence)sequence;
        for (int m = 0; m < 2; m++) {
            const fer_model model = m == 0 ? plain : ends_fixed;
            memset(&by_hand, 0, sizeof by_hand);
            for (uint64_t i = 0; i < FER_TRIALS_A_BLOCK; i++) {
                fer_joint drawn;
                fer_length diameter;
                fer_ratio c;
                CHECK_OK(fer_draw_joint(&joint, &uncertainties, fer_mm(23.51), 5 * FER_TRIALS_A_BLOCK + i,
                                        trials, &drawn, &diameter));
                CHECK_OK(fer_compression(&drawn, diameter, model, &c));
                by_hand.below += c.fraction < 0.15;
                by_hand.above += c.fraction > 0.25;
            }
            CHECK_OK(
                fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), model, trials, &count));
            assert_int_equal(count.below, by_hand.below);
            assert_int_equal(count.above, by_hand.above);
            assert_int_equal(count.impossible, 0);
        }
    }
}

/* Largest distance of the drawn shares from the distribution, by sqrt(n): Kolmogorov; beyond 2.2 with probability 1e-4. */
static double distance_of(fer_distribution shape, double (*share_below)(double))
{
    enum { number = 200000, cells = 4000 };
    static int counts[cells + 1];
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    double worst = 0.0, sum = 0.0;
    memset(counts, 0, sizeof counts);
    uncertainties.diameter = uncertainty(1.0, shape);
    for (uint64_t i = 0; i < number; i++) {
        fer_joint drawn;
        fer_length diameter;
        CHECK_OK(fer_draw_joint(&joint, &uncertainties, fer_mm(100), i, blocks(0, 0), &drawn, &diameter));
        const double cell = (diameter.mm - 100.0 + 8.0) / 16.0 * cells;
        assert_true(cell > 0.0 && cell < cells);
        counts[(int)cell]++;
    }
    for (int i = 0; i < cells; i++) {
        sum += counts[i];
        worst = fmax(worst, fabs(sum / number - share_below(-8.0 + 16.0 * (i + 1) / cells)));
    }
    return worst * sqrt(number);
}

static double below_normal(double x)
{
    return 0.5 * erfc(-x * sqrt(0.5));
}

static double below_rectangular(double x)
{
    return fmax(0.0, fmin(1.0, 0.5 + 0.5 * x));
}

static double below_triangular(double x)
{
    return x <= -1 ? 0 : x >= 1 ? 1 : x < 0 ? 0.5 * (1 + x) * (1 + x) : 1 - 0.5 * (1 - x) * (1 - x);
}

static void deviates_follow_their_distributions(void **state)
{
    (void)state;
    if (draws_are_few()) {
        skip();
    }
    assert_true(distance_of(FER_DISTRIBUTION_NORMAL, below_normal) < 2.2);
    assert_true(distance_of(FER_DISTRIBUTION_RECTANGULAR, below_rectangular) < 2.2);
    assert_true(distance_of(FER_DISTRIBUTION_TRIANGULAR, below_triangular) < 2.2);
}

/* 64 blocks, a million trials, against fer_conforming_share(): within 4 standard errors, for each shape and correlated. */
static void simulated_shares_are_the_exact_ones(void **state)
{
    (void)state;
    if (draws_are_few()) {
        skip();
    }
    const fer_joint joint = worked_joint();
    for (int i = 0; i < 8; i++) {
        fer_uncertainties uncertainties = worked_uncertainties();
        fer_trials trials = blocks(0, 64);
        fer_crimp_count count;
        fer_simulated_shares simulated;
        fer_shares exact;
        trials.sequence = (fer_sequence)(i / 4);
        if (i % 4 == 3) {
            uncertainties.correlations.hose_inside_hose_outside = fer_fraction(0.5);
            uncertainties.correlations.stem_outside_diameter = fer_fraction(-0.9);
        } else {
            uncertainties.hose_outside = uncertainty(0.2, (fer_distribution)(i % 4));
        }
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &exact));
        CHECK_OK(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &count));
        CHECK_OK(fer_find_simulated_shares(&count, &simulated));
        assert_int_equal(simulated.trials, 64 * FER_TRIALS_A_BLOCK);
        CHECK_NEAR(simulated.shares.inside.fraction, exact.inside.fraction,
                   4 * simulated.standard_error.fraction);
        const double wide = 4 * sqrt(exact.below.fraction / (double)simulated.trials) + 1e-9;
        CHECK_NEAR(simulated.shares.below.fraction, exact.below.fraction, wide);
        CHECK_NEAR(simulated.shares.above.fraction, exact.above.fraction, wide);
    }
}

/* Only the crimp diameter varies, plain formula: c is normal with u/W. JCGM 101 asks for the stated digits. */
static void a_simulation_settles_to_its_digits(void **state)
{
    (void)state;
    if (draws_are_few()) {
        skip();
    }
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    static fer_tally tally;
    fer_simulation found;
    fer_ratio quantile;
    uncertainties.diameter = uncertainty(0.072, FER_DISTRIBUTION_NORMAL);
    CHECK_OK(fer_simulate_to_digits(&joint, &uncertainties, usual, fer_mm(23.51), 2, plain, blocks(0, 0),
                                    &tally, &found));
    assert_true(found.settled && found.trials >= 2 * FER_TRIALS_A_BLOCK);
    CHECK_NEAR(found.tolerance.fraction, 0.0005,
               1e-15); /* u is 10 in units of 0.001, or 9.99 in units of 0.0001 */
    CHECK_NEAR(found.mean.fraction, 0.2, 0.0005);
    CHECK_NEAR(found.standard_uncertainty.fraction, 0.01, 0.0005);
    CHECK_NEAR(found.interval.lower.fraction, 0.2 - 0.01959964, 0.0005);
    CHECK_NEAR(found.interval.upper.fraction, 0.2 + 0.01959964, 0.0005);
    CHECK_OK(fer_simulate_to_digits(&joint, &uncertainties, usual, fer_mm(23.51), 6, plain, blocks(0, 3),
                                    &tally, &found));
    assert_true(!found.settled && found.trials == 3 * FER_TRIALS_A_BLOCK);
    CHECK_OK(fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), plain, blocks(0, 200),
                                      &tally));
    CHECK_OK(fer_summarise_tally(&tally, 3, &found));
    CHECK_NEAR(found.mean.fraction, 0.2, 4 * found.mean_error.fraction);
    CHECK_NEAR(found.mean_error.fraction, 0.01 / sqrt(200.0 * FER_TRIALS_A_BLOCK),
               0.2 * found.mean_error.fraction);
    CHECK_NEAR(found.standard_uncertainty.fraction, 0.01, 4 * found.uncertainty_error.fraction);
    CHECK_OK(fer_find_tally_quantile(&tally, fer_percent(75), &quantile));
    CHECK_NEAR(quantile.fraction,
               0.2 + 0.01 * PUBLISHED(0.67449, "Abramowitz and Stegun, Handbook of Mathematical Functions "
                                               "(1964); table 26.5: quantile for Q 0.25; from memory"),
               3e-5);
}

static fer_order worked_order(void)
{
    fer_order order = {0};
    order.joint = worked_joint();
    order.uncertainties = worked_uncertainties();
    return order;
}

/* The same by hand: draw, measure, choose, dial, crimp. */
static void the_main_job_by_hand(void **state)
{
    (void)state;
    const fer_order order = worked_order();
    const fer_die dies[] = {{{22}, {0}, 0, {0}}, {{23.5}, {0}, 0, {0}}, {{16}, {0}, 0, {0}}};
    fer_press press = {0};
    static fer_tally tally;
    uint64_t uses[4], by_hand[4] = {0}, below = 0, above = 0;
    size_t found;
    press.graduation = fer_mm(0.1);
    CHECK_OK(fer_simulate_setups(&order, &press, dies, 3, blocks(2, 1), &tally, uses, 4, &found));
    assert_int_equal(found, 4);
    for (uint64_t i = 0; i < FER_TRIALS_A_BLOCK; i++) {
        fer_joint measured;
        fer_length target, made, scatter;
        fer_die_choice choice;
        fer_dial dial;
        fer_ratio c;
        const fer_die_needs none = {0, {0}};
        CHECK_OK(fer_draw_joint(&order.joint, &order.uncertainties, fer_mm(100), 2 * FER_TRIALS_A_BLOCK + i,
                                blocks(0, 0), &measured, &scatter));
        CHECK_OK(fer_crimp_diameter(&measured, fer_percent(20), plain, &target));
        CHECK_OK(fer_choose_die(dies, 3, target, none, &choice));
        CHECK_OK(fer_dial_setting(&press, &choice.die, target, &dial));
        by_hand[choice.index]++;
        made.mm = dial.expected.mm + (scatter.mm - 100.0);
        CHECK_OK(fer_compression(&order.joint, made, plain, &c));
        below += c.fraction < 0.15;
        above += c.fraction > 0.25;
    }
    assert_memory_equal(uses, by_hand, sizeof uses);
    assert_true(uses[0] > 0 && uses[1] > 0 && uses[2] == 0);
    assert_int_equal(tally.count.below, below);
    assert_int_equal(tally.count.above, above);
    /* without a die that is near enough nothing can be crimped */
    CHECK_STATUS(fer_simulate_setups(&order, &press, dies + 2, 1, blocks(0, 1), &tally, uses, 2, &found),
                 FER_UNCERTAINTY_LEAVES_DOMAIN);
    assert_int_equal(tally.count.blocks, 0);
    assert_int_equal(found, 0);
    CHECK_STATUS(fer_simulate_setups(&order, &press, dies, 3, blocks(0, 1), &tally, uses, 3, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
}

/* A dial of whole millimetres misses 23.51 mm by 0.41 mm on a die of 22.1, by 0.49 mm the other way on 22: hundreds of
 * standard uncertainties. Such trials count in the first and last class, and in the mean. */
static void trials_far_from_the_plan_count_at_the_ends(void **state)
{
    (void)state;
    const double size[] = {22.1, 22.0}, made[] = {23.1, 24.0};
    const size_t class[] = {FER_TALLY_CLASSES - 1, 0};
    fer_order order = worked_order();
    fer_press press = {0};
    const fer_uncertainties narrow = {.diameter = uncertainty(0.001, FER_DISTRIBUTION_NORMAL)};
    order.uncertainties = narrow;
    press.graduation = fer_mm(1.0);
    for (int i = 0; i < 2; i++) {
        static fer_tally tally;
        uint64_t uses[2];
        size_t found;
        fer_simulation simulation;
        const fer_die die = {{size[i]}, {0}, 0, {0}};
        CHECK_OK(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), &tally, uses, 2, &found));
        assert_int_equal(tally.classes[class[i]], FER_TRIALS_A_BLOCK);
        CHECK_OK(fer_summarise_tally(&tally, 2, &simulation));
        CHECK_NEAR(simulation.mean.fraction, (7.2 - made[i] + 4.8 + 12.95) / 7.2, 1e-5);
    }
}

static void bad_input_has_its_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties none = {0};
    const fer_ratio_range backward = {{0.25}, {0.15}};
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_trials trials = blocks(0, 1);
    fer_crimp_count count = {1, 1, 1, 1, 1, 1, FER_SEQUENCE_SOBOL};
    fer_joint drawn;
    fer_length diameter = {1.0};
    static fer_tally tally, other;
    fer_simulation simulation;
    fer_simulated_shares shares;
    fer_ratio quantile;
    CHECK_STATUS(fer_simulate_shares(&joint, &none, usual, fer_mm(23.51), plain, trials, &count),
                 FER_UNCERTAINTY_EMPTY);
    assert_int_equal(count.blocks, 0);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, backward, fer_mm(23.51), plain, trials, &count),
                 FER_COMPRESSION_RANGE_WRONG_ORDER);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(NAN), plain, trials, &count),
                 FER_DIAMETER_OUT_OF_RANGE);
    trials.sequence = (fer_sequence)2;
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &count),
                 FER_TRIALS_SEQUENCE_UNKNOWN);
    trials = blocks(UINT64_C(1) << 40, 1);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &count),
                 FER_TRIALS_BLOCKS_OUT_OF_RANGE);
    trials = blocks(1, UINT64_MAX);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &count),
                 FER_TRIALS_BLOCKS_OUT_OF_RANGE);
    trials = blocks(0, 1);
    trials.coverage = fer_fraction(NAN);
    CHECK_STATUS(
        fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &tally),
        FER_TRIALS_COVERAGE_OUT_OF_RANGE);
    assert_int_equal(tally.count.blocks, 0);
    trials.coverage = fer_fraction(0.9);
    CHECK_OK(fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &tally));
    CHECK_OK(
        fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), plain, blocks(1, 1), &other));
    CHECK_STATUS(fer_merge_tallies(&tally, &other, &other), FER_TALLY_OF_ANOTHER_QUESTION);
    CHECK_STATUS(fer_summarise_tally(&other, 2, &simulation), FER_TALLY_EMPTY);
    CHECK_NAN(simulation.mean.fraction);
    CHECK_STATUS(fer_summarise_tally(&tally, 0, &simulation), FER_TALLY_DIGITS_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_tally_quantile(&tally, fer_fraction(1.0), &quantile),
                 FER_TALLY_PROBABILITY_OUT_OF_RANGE);
    CHECK_NAN(quantile.fraction);
    memset(&count, 0, sizeof count);
    CHECK_STATUS(fer_find_simulated_shares(&count, &shares), FER_TALLY_EMPTY);
    CHECK_STATUS(
        fer_draw_joint(&joint, &uncertainties, fer_mm(23.51), UINT64_MAX, blocks(0, 0), &drawn, &diameter),
        FER_TRIALS_BLOCKS_OUT_OF_RANGE);
    CHECK_NAN(diameter.mm);
    CHECK_NAN(drawn.hose.inside.mm);
    uncertainties.diameter.distribution = FER_DISTRIBUTION_RECTANGULAR;
    uncertainties.correlations.hose_inside_diameter = fer_fraction(0.1);
    CHECK_STATUS(
        fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, blocks(0, 1), &count),
        FER_UNCERTAINTY_NOT_NORMAL);
    CHECK_STATUS(fer_simulate_shares(NULL, &uncertainties, usual, fer_mm(23.51), plain, blocks(0, 1), &count),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_simulate_shares(&joint, NULL, usual, fer_mm(23.51), plain, blocks(0, 1), &count),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, blocks(0, 1), NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_random_words(NULL, 0, NULL), FER_ARGUMENT_MISSING);
}

/* Joints that leave the domain on either side, and joints that are none, counted by hand over a block. */
static void every_joint_is_counted_somewhere(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    const fer_model models[] = {{FER_BASIS_WALL, FER_FLOW_ENDS_FIXED}, {FER_BASIS_AREA, FER_FLOW_NONE}};
    fer_uncertainties uncertainties = {0};
    fer_crimp_count count;
    uncertainties.diameter = uncertainty(8.0, FER_DISTRIBUTION_NORMAL);
    uncertainties.hose_outside = uncertainty(3.0, FER_DISTRIBUTION_RECTANGULAR);
    uncertainties.hose_inside = uncertainty(5.0, FER_DISTRIBUTION_TRIANGULAR);
    for (int m = 0; m < 3; m++) {
        const fer_model model = models[m > 0];
        fer_crimp_count by_hand = {0};
        unsigned seen[5] = {0};
        joint.ferrule.outside = fer_mm(m == 2 ? 0.0 : 25.6);
        for (uint64_t i = 0; i < FER_TRIALS_A_BLOCK; i++) {
            fer_joint drawn;
            fer_length diameter;
            fer_ratio c;
            CHECK_OK(
                fer_draw_joint(&joint, &uncertainties, fer_mm(23.51), i, blocks(0, 0), &drawn, &diameter));
            const fer_status status = fer_compression(&drawn, diameter, model, &c);
            const int loose = status == FER_DIAMETER_WITHOUT_TOUCH || status == FER_DIAMETER_ABOVE_FERRULE;
            const int tight = status == FER_DIAMETER_CLOSES_ON_STEM || status == FER_DIAMETER_WITHOUT_BORE;
            by_hand.below += loose || c.fraction < 0.15;
            by_hand.above += tight || c.fraction > 0.25;
            by_hand.impossible += status != FER_OK && !loose && !tight;
            seen[0] += status == FER_DIAMETER_WITHOUT_TOUCH;
            seen[1] += status == FER_DIAMETER_ABOVE_FERRULE;
            seen[2] += status == FER_DIAMETER_CLOSES_ON_STEM;
            seen[3] += status == FER_DIAMETER_WITHOUT_BORE;
            seen[4] += status == FER_OK;
        }
        assert_true(seen[0] > 10 && seen[2] > 10 && seen[4] > 10 && by_hand.impossible > 10);
        assert_true(m != 0 || (seen[1] > 10 && seen[3] > 10));
        CHECK_OK(
            fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), model, blocks(0, 0), &count));
        assert_int_equal(count.blocks, 1); /* none asked: one */
        assert_int_equal(count.below, by_hand.below);
        assert_int_equal(count.above, by_hand.above);
        assert_int_equal(count.impossible, by_hand.impossible);
    }
}

/* Plain formula where the hose may have no wall at all. */
static void a_hose_without_a_wall_is_impossible(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_crimp_count count, by_hand = {0};
    uncertainties.hose_outside = uncertainty(6.0, FER_DISTRIBUTION_NORMAL);
    for (uint64_t i = 0; i < FER_TRIALS_A_BLOCK; i++) {
        fer_joint drawn;
        fer_length diameter;
        CHECK_OK(fer_draw_joint(&joint, &uncertainties, fer_mm(23.51), i, blocks(0, 0), &drawn, &diameter));
        const double wall = drawn.hose.outside.mm - 12.7, c = (wall - 5.76) / wall;
        by_hand.impossible += !(wall > 0.0);
        by_hand.below += wall > 0.0 && c < 0.15;
        by_hand.above += wall > 0.0 && c > 0.25;
    }
    CHECK_OK(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, blocks(0, 1), &count));
    assert_true(by_hand.impossible > 1000); /* Phi(-1.2) of 16384 is 1885 */
    assert_int_equal(count.impossible, by_hand.impossible);
    assert_int_equal(count.below, by_hand.below);
    assert_int_equal(count.above, by_hand.above);
}

/* Few blocks cannot tell their own scatter: the binomial one. */
static void a_single_block_has_the_binomial_error(void **state)
{
    (void)state;
    const fer_crimp_count count = {
        .trials = 1000, .blocks = 1, .below = 90, .above = 10, .inside_squares = 810000};
    fer_crimp_count many = {
        .trials = 10000, .blocks = 10, .below = 900, .above = 100, .inside_squares = 8100000};
    const fer_crimp_count none = {.blocks = 1}, empty = {.trials = 5};
    fer_simulated_shares shares;
    CHECK_OK(fer_find_simulated_shares(&count, &shares));
    CHECK_NEAR(shares.shares.inside.fraction, 0.9, 1e-15);
    CHECK_NEAR(shares.standard_error.fraction, sqrt(0.9 * 0.1 / 1000.0), 1e-15);
    CHECK_OK(
        fer_find_simulated_shares(&many, &shares)); /* ten blocks that agree: by chance, if they are random */
    CHECK_NEAR(shares.standard_error.fraction, sqrt(0.9 * 0.1 / 10000.0), 1e-15);
    many.sequence = FER_SEQUENCE_SOBOL;
    CHECK_OK(fer_find_simulated_shares(&many, &shares));
    CHECK_NEAR(shares.standard_error.fraction, 0.0, 1e-15);
    CHECK_STATUS(fer_find_simulated_shares(&none, &shares), FER_TALLY_EMPTY);
    CHECK_STATUS(fer_find_simulated_shares(&empty, &shares), FER_TALLY_EMPTY);
    CHECK_STATUS(fer_find_simulated_shares(NULL, &shares), FER_ARGUMENT_MISSING);
    CHECK_NAN(shares.standard_error.fraction);
    CHECK_STATUS(fer_find_simulated_shares(&count, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_merge_counts(&count, NULL, &many), FER_ARGUMENT_MISSING);
    assert_int_equal(many.trials, 0);
    CHECK_STATUS(fer_merge_counts(NULL, &count, &many), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_merge_counts(&count, &count, NULL), FER_ARGUMENT_MISSING);
}

/* Classes from -8 to 8 standard uncertainties: half of a class that holds all is its middle. */
static void quantiles_at_the_ends_of_a_tally(void **state)
{
    (void)state;
    static fer_tally tally;
    fer_ratio quantile;
    tally.centre = fer_fraction(0.2);
    tally.scale = fer_fraction(0.01);
    tally.count.blocks = 1;
    const double half_class = 0.5 * 16.0 / FER_TALLY_CLASSES;
    CHECK_OK(fer_find_tally_quantile(&tally, fer_fraction(0.5), &quantile)); /* nothing in it */
    CHECK_NEAR(quantile.fraction, 0.2 - 0.01 * (8.0 - half_class), 1e-15);
    tally.classes[FER_TALLY_CLASSES - 1] = 100;
    CHECK_OK(fer_find_tally_quantile(&tally, fer_fraction(0.5), &quantile));
    CHECK_NEAR(quantile.fraction, 0.2 + 0.01 * (8.0 - half_class), 1e-15);
    tally.classes[FER_TALLY_CLASSES - 1] = 0;
    tally.classes[FER_TALLY_CLASSES / 2] = 100; /* from 0 to one class above: a quarter of it */
    CHECK_OK(fer_find_tally_quantile(&tally, fer_fraction(0.25), &quantile));
    CHECK_NEAR(quantile.fraction, 0.2 + 0.01 * 0.5 * half_class, 1e-15);
    CHECK_STATUS(fer_find_tally_quantile(&tally, fer_fraction(0.0), &quantile),
                 FER_TALLY_PROBABILITY_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_tally_quantile(NULL, fer_fraction(0.5), &quantile), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_tally_quantile(&tally, fer_fraction(0.5), NULL), FER_ARGUMENT_MISSING);
    tally.count.blocks = 0;
    CHECK_STATUS(fer_find_tally_quantile(&tally, fer_fraction(0.5), &quantile), FER_TALLY_EMPTY);
    CHECK_NAN(quantile.fraction);
}

static void tallies_of_different_questions_are_not_merged(void **state)
{
    (void)state;
    static fer_tally one, other, sum;
    fer_simulation simulation;
    const fer_tally question = {
        .centre = {0.2}, .scale = {0.01}, .coverage = {0.95}, .range = {{0.15}, {0.25}}};
    one = question;
    for (int i = 0; i < 5; i++) {
        other = question;
        double *const members[] = {&other.centre.fraction, &other.scale.fraction, &other.coverage.fraction,
                                   &other.range.lower.fraction, &other.range.upper.fraction};
        *members[i] *= 1.01;
        CHECK_STATUS(fer_merge_tallies(&one, &other, &sum), FER_TALLY_OF_ANOTHER_QUESTION);
    }
    CHECK_OK(fer_merge_tallies(&one, &question, &sum));
    CHECK_STATUS(fer_merge_tallies(NULL, &one, &sum), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_merge_tallies(&one, NULL, &sum), FER_ARGUMENT_MISSING);
    CHECK_NEAR(sum.scale.fraction, 0.0, 0.0);
    CHECK_STATUS(fer_merge_tallies(&one, &one, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_summarise_tally(NULL, 2, &simulation), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_summarise_tally(&one, 2, NULL), FER_ARGUMENT_MISSING);
    one.count.blocks = 1;
    CHECK_STATUS(fer_summarise_tally(&one, 7, &simulation), FER_TALLY_DIGITS_OUT_OF_RANGE);
}

/* Ferrule outside without flow: uncertain, but the compression is not. A wall uncertain by a million: no joint at all. */
/* Two joints that are possible have a standard deviation, one has none: an uncertainty so large that next to no wall is
 * one, and what is left is counted by hand. */
static void two_possible_joints_have_a_deviation(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties wild = {0};
    static fer_tally tally;
    int with_two = 0, with_one = 0;
    wild.ferrule_wall = uncertainty(1e4, FER_DISTRIBUTION_NORMAL);
    for (uint64_t seed = 0; seed < 4; seed++) {
        const fer_trials trials = {seed, 0, 1, FER_SEQUENCE_RANDOM, {0}};
        int possible = 0;
        for (uint64_t i = 0; i < FER_TRIALS_A_BLOCK; i++) {
            fer_joint drawn;
            fer_length diameter;
            fer_ratio c;
            CHECK_OK(fer_draw_joint(&joint, &wild, fer_mm(23.51), i, trials, &drawn, &diameter));
            possible += fer_compression(&drawn, diameter, ends_fixed, &c) == FER_OK;
        }
        CHECK_STATUS(
            fer_simulate_compression(&joint, &wild, usual, fer_mm(23.51), ends_fixed, trials, &tally),
            possible >= 2 ? FER_OK : FER_UNCERTAINTY_LEAVES_DOMAIN);
        with_two += possible == 2;
        with_one += possible == 1;
    }
    assert_true(with_one > 0 && with_two > 0);
}

static void deviations_that_leave_nothing_have_their_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_die die = {{22}, {0}, 0, {0}};
    const fer_press press = {0};
    fer_order order = worked_order();
    fer_uncertainties outside = {0}, wild = {0}, bad = {0};
    static fer_tally tally;
    fer_simulation simulation;
    uint64_t uses[2];
    size_t found;
    outside.ferrule_outside = uncertainty(0.1, FER_DISTRIBUTION_NORMAL);
    wild.ferrule_wall = uncertainty(1e6, FER_DISTRIBUTION_NORMAL);
    bad.diameter = uncertainty(-0.1, FER_DISTRIBUTION_NORMAL);
    CHECK_STATUS(
        fer_simulate_compression(&joint, &outside, usual, fer_mm(23.51), plain, blocks(0, 1), &tally),
        FER_UNCERTAINTY_EMPTY);
    CHECK_STATUS(
        fer_simulate_compression(&joint, &wild, usual, fer_mm(23.51), ends_fixed, blocks(0, 0), &tally),
        FER_UNCERTAINTY_LEAVES_DOMAIN);
    assert_int_equal(tally.count.blocks, 0);
    CHECK_STATUS(
        fer_simulate_compression(&joint, &bad, usual, fer_mm(23.51), ends_fixed, blocks(0, 1), &tally),
        FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE);
    CHECK_STATUS(
        fer_simulate_compression(&joint, &wild, usual, fer_mm(23.51), ends_fixed, blocks(0, 1), NULL),
        FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_simulate_to_digits(&joint, &outside, usual, fer_mm(23.51), 2, plain, blocks(0, 1),
                                        &tally, &simulation),
                 FER_UNCERTAINTY_EMPTY);
    CHECK_STATUS(fer_simulate_to_digits(&joint, &bad, usual, fer_mm(23.51), 2, plain, blocks(0, 1), &tally,
                                        &simulation),
                 FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE);
    CHECK_STATUS(fer_simulate_to_digits(&joint, &wild, usual, fer_mm(23.51), 2, ends_fixed, blocks(0, 1),
                                        &tally, &simulation),
                 FER_UNCERTAINTY_LEAVES_DOMAIN);
    CHECK_NAN(simulation.mean.fraction);
    for (int digits = 0; digits <= 7; digits += 7) {
        CHECK_STATUS(fer_simulate_to_digits(&joint, &wild, usual, fer_mm(23.51), digits, ends_fixed,
                                            blocks(0, 1), &tally, &simulation),
                     FER_TALLY_DIGITS_OUT_OF_RANGE);
    }
    CHECK_STATUS(fer_simulate_to_digits(&joint, &wild, usual, fer_mm(23.51), 2, ends_fixed, blocks(0, 1),
                                        NULL, &simulation),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_simulate_to_digits(&joint, &wild, usual, fer_mm(23.51), 2, ends_fixed, blocks(0, 1),
                                        &tally, NULL),
                 FER_ARGUMENT_MISSING);
    order.uncertainties = outside;
    CHECK_STATUS(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), &tally, uses, 2, &found),
                 FER_UNCERTAINTY_EMPTY);
    memset(&order.uncertainties, 0, sizeof order.uncertainties);
    CHECK_STATUS(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), &tally, uses, 2, &found),
                 FER_UNCERTAINTY_EMPTY);
    order.uncertainties = worked_uncertainties();
    fer_trials unknown = blocks(0, 1);
    unknown.sequence = (fer_sequence)2;
    CHECK_STATUS(fer_simulate_setups(&order, &press, &die, 1, unknown, &tally, uses, 2, &found),
                 FER_TRIALS_SEQUENCE_UNKNOWN);
    order.joint.hose.outside = fer_mm(1.0);
    CHECK_STATUS(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), &tally, uses, 2, &found),
                 FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE);
    assert_int_equal(found, 0);
}

/* A dial that ends at 1.5 mm has no setting for targets above 23.5 mm, about half of them; the last of the uses counts
 * those that could not be made. */
static void set_ups_beyond_the_dial_are_not_made(void **state)
{
    (void)state;
    const fer_order order = worked_order();
    const fer_die die = {{22}, {0}, 0, {0}};
    fer_press press = {0};
    static fer_tally tally;
    uint64_t uses[2], beyond = 0;
    size_t found;
    press.dial_maximum = fer_mm(1.5);
    CHECK_OK(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), &tally, uses, 2, &found));
    for (uint64_t i = 0; i < FER_TRIALS_A_BLOCK; i++) {
        fer_joint measured;
        fer_length target, scatter;
        CHECK_OK(fer_draw_joint(&order.joint, &order.uncertainties, fer_mm(100), i, blocks(0, 0), &measured,
                                &scatter));
        CHECK_OK(fer_crimp_diameter(&measured, fer_percent(20), plain, &target));
        beyond += target.mm - 22.0 > 1.5;
    }
    assert_int_equal(uses[1], beyond);
    assert_int_equal(uses[0] + uses[1], FER_TRIALS_A_BLOCK);
    assert_true(beyond > 1000 && beyond < 15000);
    CHECK_STATUS(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), NULL, uses, 2, &found),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), &tally, NULL, 2, &found),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), &tally, uses, 2, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_simulate_setups(NULL, &press, &die, 1, blocks(0, 1), &tally, uses, 2, &found),
                 FER_ARGUMENT_MISSING);
    assert_int_equal(tally.count.trials, 0);
}

static void the_arguments_of_a_single_joint(void **state)
{
    (void)state;
    fer_joint joint = worked_joint(), drawn;
    const fer_uncertainties uncertainties = worked_uncertainties();
    const fer_ratio_range no_lower = {{NAN}, {0.25}}, no_upper = {{0.15}, {INFINITY}};
    const fer_uncertainties bad = {.diameter = {{-1.0}, FER_DISTRIBUTION_NORMAL, 0.0}};
    fer_length at = {1.0};
    fer_trials trials = blocks(0, 1);
    fer_crimp_count count;
    fer_random_words words = {{1, 2, 3, 4}};
    CHECK_STATUS(fer_find_random_words(NULL, 0, &words), FER_ARGUMENT_MISSING);
    assert_int_equal(words.word[3], 0);
    CHECK_STATUS(fer_draw_joint(NULL, &uncertainties, fer_mm(23), 0, trials, &drawn, &at),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_draw_joint(&joint, NULL, fer_mm(23), 0, trials, &drawn, &at), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_draw_joint(&joint, &uncertainties, fer_mm(23), 0, trials, NULL, &at),
                 FER_ARGUMENT_MISSING);
    CHECK_NAN(at.mm);
    CHECK_STATUS(fer_draw_joint(&joint, &uncertainties, fer_mm(23), 0, trials, &drawn, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_NAN(drawn.stem.bore.mm);
    CHECK_STATUS(fer_draw_joint(&joint, &uncertainties, fer_mm(0), 0, trials, &drawn, &at),
                 FER_DIAMETER_MISSING);
    CHECK_STATUS(fer_draw_joint(&joint, &uncertainties, fer_mm(-1), 0, trials, &drawn, &at),
                 FER_DIAMETER_OUT_OF_RANGE);
    CHECK_STATUS(fer_draw_joint(&joint, &bad, fer_mm(23), 0, trials, &drawn, &at),
                 FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, no_lower, fer_mm(23.51), plain, trials, &count),
                 FER_COMPRESSION_NOT_A_NUMBER);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, no_upper, fer_mm(23.51), plain, trials, &count),
                 FER_COMPRESSION_NOT_A_NUMBER);
    trials.coverage = fer_fraction(0.9995);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &count),
                 FER_TRIALS_COVERAGE_OUT_OF_RANGE);
    trials.coverage = fer_fraction(-0.1);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &count),
                 FER_TRIALS_COVERAGE_OUT_OF_RANGE);
    trials = blocks((UINT64_C(1) << 40) + 1, 0);
    CHECK_STATUS(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &count),
                 FER_TRIALS_BLOCKS_OUT_OF_RANGE);
    joint.stem.outside = fer_mm(30.0);
    CHECK_STATUS(fer_draw_joint(&joint, &uncertainties, fer_mm(23), 0, blocks(0, 1), &drawn, &at),
                 FER_STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE);
}

/* Mean and deviation of a block by hand from joints that are drawn alone; two blocks tell their own scatter: half the
 * difference of two figures is the standard error of their mean. */
enum { some = 3 };

/* Standard error of the mean of some numbers. */
static double error_of_mean(const double number[some])
{
    double mean = 0.0, squares = 0.0;
    for (int i = 0; i < some; i++) {
        mean += number[i] / some;
    }
    for (int i = 0; i < some; i++) {
        squares += (number[i] - mean) * (number[i] - mean);
    }
    return sqrt(squares / (some * (some - 1.0)));
}

/* Compressions of a block, drawn one by one: their mean, and the sum of the squares of what is away from it. */
static void find_block(uint64_t block, double *mean, double *squares)
{
    static double c[FER_TRIALS_A_BLOCK];
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = worked_uncertainties();
    *mean = *squares = 0.0;
    for (uint64_t i = 0; i < FER_TRIALS_A_BLOCK; i++) {
        fer_joint drawn;
        fer_length diameter;
        fer_ratio compression;
        CHECK_OK(fer_draw_joint(&joint, &uncertainties, fer_mm(23.51), block * FER_TRIALS_A_BLOCK + i,
                                blocks(0, 0), &drawn, &diameter));
        CHECK_OK(fer_compression(&drawn, diameter, ends_fixed, &compression));
        c[i] = compression.fraction;
        *mean += c[i] / FER_TRIALS_A_BLOCK;
    }
    for (uint64_t i = 0; i < FER_TRIALS_A_BLOCK; i++) {
        *squares += (c[i] - *mean) * (c[i] - *mean);
    }
}

static void the_figures_of_a_tally_by_hand(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = worked_uncertainties();
    static fer_tally tally, all;
    fer_simulation each, sum;
    double mean[some], squares[some], deviation[some], lower[some], upper[some], middle = 0.0, total = 0.0;
    for (unsigned b = 0; b < some; b++) {
        find_block(b, &mean[b], &squares[b]);
        CHECK_OK(fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), ends_fixed,
                                          blocks(b, 1), &tally));
        CHECK_OK(fer_summarise_tally(&tally, 2, &each));
        CHECK_NEAR(each.mean.fraction, mean[b], 1e-13);
        CHECK_NEAR(each.standard_uncertainty.fraction, sqrt(squares[b] / (FER_TRIALS_A_BLOCK - 1.0)), 1e-13);
        CHECK_NAN(each.mean_error.fraction);
        assert_false(each.settled);
        deviation[b] = each.standard_uncertainty.fraction;
        lower[b] = each.interval.lower.fraction;
        upper[b] = each.interval.upper.fraction;
        middle += mean[b] / some;
        if (b == 0) {
            all = tally;
        } else {
            CHECK_OK(fer_merge_tallies(&all, &tally, &all));
        }
    }
    for (int b = 0; b < some; b++) {
        total += squares[b] + FER_TRIALS_A_BLOCK * (mean[b] - middle) * (mean[b] - middle);
    }
    CHECK_OK(fer_summarise_tally(&all, 2, &sum));
    CHECK_NEAR(sum.mean.fraction, middle, 1e-13);
    CHECK_NEAR(sum.standard_uncertainty.fraction, sqrt(total / (some * FER_TRIALS_A_BLOCK - 1.0)), 1e-12);
    CHECK_NEAR(sum.mean_error.fraction, error_of_mean(mean), 1e-12);
    CHECK_NEAR(sum.uncertainty_error.fraction, error_of_mean(deviation), 1e-12);
    CHECK_NEAR(sum.lower_error.fraction, error_of_mean(lower), 1e-12);
    CHECK_NEAR(sum.upper_error.fraction, error_of_mean(upper), 1e-12);
    assert_int_equal(sum.trials, some * FER_TRIALS_A_BLOCK);
}

/* By the plain formula one measurement alone shifts the compression by its own slope, with walls of 7.2 mm. */
static void each_measurement_has_its_slope(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const double slope[] = {1.0 / 7.2, 2.0 / 7.2, 1.0 / 7.2}, amount[] = {0.05, 0.05, 1.0};
    for (int i = 0; i < 3; i++) {
        static fer_tally tally;
        fer_uncertainties uncertainties = {0};
        fer_simulation found;
        *(i == 0   ? &uncertainties.stem_outside
          : i == 1 ? &uncertainties.ferrule_wall
                   : &uncertainties.diameter) = uncertainty(amount[i], FER_DISTRIBUTION_NORMAL);
        CHECK_OK(fer_simulate_compression(&joint, &uncertainties, usual, fer_mm(23.51), plain, blocks(0, 4),
                                          &tally));
        CHECK_OK(fer_summarise_tally(&tally, 2, &found));
        CHECK_NEAR(found.standard_uncertainty.fraction, amount[i] * slope[i], 0.02 * amount[i] * slope[i]);
        CHECK_NEAR(found.mean.fraction, 0.2, 0.05 * amount[i] * slope[i]);
    }
}

/* What was not measured is not drawn. */
static void an_outside_that_is_not_known_stays_so(void **state)
{
    (void)state;
    fer_joint joint = worked_joint(), drawn;
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_length diameter;
    joint.ferrule.outside = fer_mm(0.0);
    uncertainties.ferrule_outside = uncertainty(0.05, FER_DISTRIBUTION_NORMAL);
    for (uint64_t i = 0; i < 8; i++) {
        CHECK_OK(fer_draw_joint(&joint, &uncertainties, fer_mm(23.51), i, blocks(0, 0), &drawn, &diameter));
        CHECK_NEAR(drawn.ferrule.outside.mm, 0.0, 0.0);
    }
}

/* What comes from a file or a network may hold anything. */
static void what_no_simulation_counted_is_refused(void **state)
{
    (void)state;
    const fer_crimp_count counts[] = {
        {.trials = 100, .blocks = 1, .below = 101},
        {.trials = 100, .blocks = 1, .below = 60, .above = 41},
        {.trials = 100, .blocks = 1, .below = 50, .above = 50, .impossible = 1},
        {.trials = 100, .blocks = 1, .below = UINT64_MAX, .above = 2},
        {.trials = 100, .blocks = 1, .above = UINT64_MAX - 5, .impossible = 106}};
    fer_simulated_shares shares;
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        CHECK_STATUS(fer_find_simulated_shares(&counts[i], &shares), FER_TALLY_IMPOSSIBLE);
        CHECK_NAN(shares.shares.inside.fraction);
    }
    fer_tally tally = {
        .scale = {0.01}, .centre = {0.2}, .coverage = {0.95}, .count = {.blocks = 1, .trials = 16384}};
    fer_simulation simulation;
    fer_ratio quantile;
    CHECK_STATUS(fer_summarise_tally(&tally, 2, &simulation), FER_TALLY_IMPOSSIBLE); /* no scatter */
    CHECK_NAN(simulation.mean.fraction);
    assert_int_equal(simulation.trials, 0);
    tally.deviation.squares.whole = -5;
    CHECK_STATUS(fer_summarise_tally(&tally, 2, &simulation), FER_TALLY_IMPOSSIBLE);
    tally.deviation.squares.whole = 1;
    CHECK_OK(fer_summarise_tally(&tally, 2, &simulation));
    CHECK_OK(fer_find_tally_quantile(&tally, fer_percent(10), &quantile));
    double *const members[] = {&tally.centre.fraction, &tally.scale.fraction};
    fer_tally large = tally, sum; /* sums that run over are no trouble for the compiler */
    large.mean.sum.whole = large.deviation.squares.whole = INT64_MAX;
    CHECK_OK(fer_merge_tallies(&large, &large, &sum));
    CHECK_STATUS(fer_summarise_tally(&sum, 2, &simulation), FER_TALLY_IMPOSSIBLE);
    for (size_t i = 0; i < 2; i++) {
        const double before = *members[i];
        *members[i] = i == 0 ? NAN : INFINITY;
        CHECK_STATUS(fer_summarise_tally(&tally, 2, &simulation), FER_TALLY_IMPOSSIBLE);
        CHECK_NAN(simulation.standard_uncertainty.fraction);
        CHECK_STATUS(fer_find_tally_quantile(&tally, fer_percent(10), &quantile), FER_TALLY_IMPOSSIBLE);
        CHECK_NAN(quantile.fraction);
        *members[i] = before;
    }
}

/* "No upper limit" may be written as the largest double. */
static void limits_beyond_reach_count_as_none(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = {.hose_outside = {{0.1}, FER_DISTRIBUTION_NORMAL, 0.0}};
    const fer_ratio_range open = {{0.2}, {DBL_MAX}}, far = {{0.2}, {1e12}};
    const fer_trials trials = {0};
    fer_crimp_count one, other;
    CHECK_OK(fer_simulate_shares(&joint, &uncertainties, open, fer_mm(23.51), plain, trials, &one));
    CHECK_OK(fer_simulate_shares(&joint, &uncertainties, far, fer_mm(23.51), plain, trials, &other));
    assert_memory_equal(&one, &other, sizeof one);
    assert_true(one.below > 0 && one.below < one.trials && one.above == 0);
}

/* Nine blocks are too few for their scatter, ten are enough. */
static void nine_blocks_have_the_binomial_error(void **state)
{
    (void)state;
    const fer_crimp_count nine = {.trials = 9000,
                                  .blocks = 9,
                                  .below = 810,
                                  .above = 90,
                                  .inside_squares = 9 * 810000,
                                  .sequence = FER_SEQUENCE_SOBOL};
    fer_simulated_shares shares;
    CHECK_OK(fer_find_simulated_shares(&nine, &shares));
    CHECK_NEAR(shares.standard_error.fraction, sqrt(0.9 * 0.1 / 9000.0), 1e-15);
    /* ten blocks with 899 and 901 of 1000 in turn: scatter 1.0541, of the mean 0.33333, by a block of 16384; Student's
     * factor t(0.975; 9) = 2.262157162740992 */
    const fer_crimp_count ten = {.trials = 10000,
                                 .blocks = 10,
                                 .below = 1000,
                                 .inside_squares = 5 * (899 * 899 + 901 * 901),
                                 .sequence = FER_SEQUENCE_SOBOL};
    CHECK_OK(fer_find_simulated_shares(&ten, &shares));
    CHECK_NEAR(shares.standard_error.fraction,
               2.262157162740992 / 1.959963984540054 * (1.0 / 3.0) / FER_TRIALS_A_BLOCK, 1e-14);
}

/* A ferrule of less than a millimetre has its error as any other; 0 blocks are one block. */
static void small_joints_and_no_number_of_blocks(void **state)
{
    (void)state;
    const fer_joint small = {{{0.2}, {0.4}, {0}}, {{0.21}, {0}}, {{0.1}, {0.7}, {0}}};
    fer_uncertainties uncertainties = {0};
    uncertainties.ferrule_outside = uncertainty(0.01, FER_DISTRIBUTION_RECTANGULAR);
    fer_joint drawn;
    fer_length diameter;
    CHECK_OK(fer_draw_joint(&small, &uncertainties, fer_mm(0.55), 1, blocks(0, 0), &drawn, &diameter));
    assert_true(drawn.ferrule.outside.mm != 0.7 && fabs(drawn.ferrule.outside.mm - 0.7) < 0.01);
    const fer_joint joint = worked_joint();
    const fer_uncertainties usual_uncertainties = worked_uncertainties();
    fer_tally tally;
    CHECK_OK(fer_simulate_compression(&joint, &usual_uncertainties, usual, fer_mm(23.51), plain, blocks(0, 0),
                                      &tally));
    assert_true(tally.count.blocks == 1 && tally.count.trials == FER_TRIALS_A_BLOCK);
}

/* More than all: these counts were not counted. */
static void counts_that_nobody_counted(void **state)
{
    (void)state;
    const fer_crimp_count counts[] = {{.trials = 10, .blocks = 1, .below = 11},
                                      {.trials = 10, .blocks = 1, .below = 6, .above = 5},
                                      {.trials = 10, .blocks = 1, .below = 6, .above = 2, .impossible = 3}};
    fer_simulated_shares shares;
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        CHECK_STATUS(fer_find_simulated_shares(&counts[i], &shares), FER_TALLY_IMPOSSIBLE);
        CHECK_NAN(shares.shares.inside.fraction);
    }
}

static void tallies_that_no_simulation_made(void **state)
{
    (void)state;
    fer_tally good = {0};
    fer_simulation simulation;
    fer_ratio quantile;
    good.count.blocks = 1;
    good.count.trials = FER_TRIALS_A_BLOCK;
    good.centre.fraction = 0.2;
    good.scale.fraction = 0.01;
    good.coverage.fraction = 0.95;
    good.deviation.squares.whole = 1;
    good.classes[FER_TALLY_CLASSES / 2] = FER_TRIALS_A_BLOCK;
    CHECK_OK(fer_summarise_tally(&good, 2, &simulation));
    CHECK_NEAR(simulation.standard_uncertainty.fraction, 0.01, 1e-17);
    for (int i = 0; i < 5; i++) {
        fer_tally bad = good;
        bad.centre.fraction = i == 0 ? NAN : 0.2;
        bad.scale.fraction = i == 0 ? 0.01 : i == 2 ? 1e300 : 1e308; /* times 8 it is infinite */
        bad.deviation.squares.whole = i == 2 ? INT64_MAX : 0;
        bad.deviation.squares.parts = i == 1 ? 0 : UINT64_C(1) << 62;
        bad.classes[FER_TALLY_CLASSES / 2] = FER_TRIALS_A_BLOCK / 2;
        bad.classes[i == 3 ? 0 : FER_TALLY_CLASSES - 1] = i < 3 ? 0 : FER_TRIALS_A_BLOCK / 2;
        CHECK_STATUS(fer_summarise_tally(&bad, 2, &simulation), FER_TALLY_IMPOSSIBLE);
        CHECK_NAN(simulation.mean.fraction);
        assert_int_equal(simulation.trials, 0);
    }
    fer_tally far = good; /* a mean of 1e18 times a scale of 1e295; the quantiles are finite */
    far.scale.fraction = 1e295;
    far.mean.sum.whole = INT64_C(1000000000000000000);
    CHECK_STATUS(fer_summarise_tally(&far, 2, &simulation), FER_TALLY_IMPOSSIBLE);
    CHECK_NAN(simulation.mean.fraction);
    good.centre.fraction = INFINITY;
    CHECK_STATUS(fer_find_tally_quantile(&good, fer_percent(50), &quantile), FER_TALLY_IMPOSSIBLE);
    CHECK_NAN(quantile.fraction);
}

/* 2^60 joints in the lowest class and some in others: their sum as a double leaves the others out, so that the search
 * for the highest quantile passes them all. It ends in the middle of the last class, half a 1024th of 16 units below 8. */
static void a_tally_that_runs_over_a_doubles_digits_stays_in_its_classes(void **state)
{
    (void)state;
    fer_tally tally = {0};
    fer_simulation simulation;
    tally.count.blocks = 1;
    tally.centre.fraction = 0.2;
    tally.scale.fraction = 0.01;
    tally.coverage.fraction = 1.0;
    tally.deviation.squares.whole = 1;
    tally.classes[0] = UINT64_C(1) << 60;
    for (int i = 1; i < FER_TALLY_CLASSES - 1; i++) {
        tally.classes[i] = 100;
    }
    CHECK_OK(fer_summarise_tally(&tally, 2, &simulation));
    CHECK_NEAR(simulation.interval.lower.fraction, 0.2 - 0.01 * 8.0, 1e-15);
    CHECK_NEAR(simulation.interval.upper.fraction, 0.2 + 0.01 * (8.0 - 0.5 * 16.0 / FER_TALLY_CLASSES),
               1e-15);
}

/* Correlation 1: both hose diameters are off by the same number of their own standard uncertainties, 0.08 and 0.10 mm. */
static void fully_correlated_inputs_move_together(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    uncertainties.correlations.hose_inside_hose_outside = fer_fraction(1.0);
    for (uint64_t i = 0; i < 100; i++) {
        fer_joint drawn;
        fer_length diameter;
        CHECK_OK(fer_draw_joint(&joint, &uncertainties, fer_mm(23.51), i, blocks(0, 0), &drawn, &diameter));
        const double inside = (drawn.hose.inside.mm - 12.7) / uncertainties.hose_inside.amount.mm;
        const double outside = (drawn.hose.outside.mm - 19.9) / uncertainties.hose_outside.amount.mm;
        CHECK_NEAR(outside, inside, 1e-12);
    }
}

/* A hose that is measured as thin as the stem is no joint, and no die is chosen for it: of a rectangular error of 8 mm
 * either way the share (12.95 - 11.9)/16. The die reaches every target that there is. */
static void measurements_that_are_no_joint_choose_no_die(void **state)
{
    (void)state;
    const fer_die die = {{0.001}, {1e6}, 0, {0}};
    const fer_press press = {0};
    const fer_uncertainties wide = {.hose_outside = uncertainty(8.0, FER_DISTRIBUTION_RECTANGULAR)};
    static fer_tally tally;
    fer_order order = worked_order();
    uint64_t uses[2];
    size_t found;
    order.joint.ferrule.outside.mm = 0.0;
    order.uncertainties = wide;
    CHECK_OK(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), &tally, uses, 2, &found));
    assert_int_equal(uses[0] + uses[1], FER_TRIALS_A_BLOCK);
    const double none = 1.05 / 16.0;
    CHECK_NEAR((double)uses[1] / FER_TRIALS_A_BLOCK, none,
               4.0 * sqrt(none * (1.0 - none) / FER_TRIALS_A_BLOCK));
}

/* Sobol's points are even only where all of them are: a mixture, and a count of nothing, as they are merged. */
static void counts_remember_their_sequence(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = worked_uncertainties();
    fer_trials even = blocks(0, 1);
    fer_crimp_count sobol, random, sum = {0};
    even.sequence = FER_SEQUENCE_SOBOL;
    CHECK_OK(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, even, &sobol));
    CHECK_OK(fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, blocks(0, 1), &random));
    assert_int_equal(sobol.sequence, FER_SEQUENCE_SOBOL);
    assert_int_equal(random.sequence, FER_SEQUENCE_RANDOM);
    CHECK_OK(fer_merge_counts(&sum, &sobol, &sum));
    assert_int_equal(sum.sequence, FER_SEQUENCE_SOBOL);
    CHECK_OK(fer_merge_counts(&sobol, &sum, &sum));
    assert_int_equal(sum.sequence, FER_SEQUENCE_SOBOL);
    CHECK_OK(fer_merge_counts(&sobol, &random, &sum));
    assert_int_equal(sum.sequence, FER_SEQUENCE_RANDOM);
    const fer_crimp_count nothing = {0};
    CHECK_OK(fer_merge_counts(&sobol, &nothing, &sum));
    assert_int_equal(sum.sequence, FER_SEQUENCE_SOBOL);
    random.sequence = (fer_sequence)-1; /* of a count that was made by hand */
    CHECK_OK(fer_merge_counts(&random, &random, &sum));
    assert_int_equal(sum.sequence, FER_SEQUENCE_RANDOM);
    CHECK_OK(fer_merge_counts(&nothing, &nothing, &sum));
    assert_int_equal(sum.sequence, FER_SEQUENCE_RANDOM);
}

/* The nearest die is shorter than the ferrule: it is used in no trial, as fer_plan_setup() would not take it. */
static void a_die_that_is_too_short_is_used_by_no_trial(void **state)
{
    (void)state;
    const fer_die dies[] = {{{23}, {0}, 0, {20}}, {{21}, {0}, 0, {40}}};
    const fer_press press = {0};
    fer_order order = {0};
    static fer_tally tally;
    uint64_t uses[3];
    size_t found;
    order.joint = worked_joint();
    order.joint.ferrule.length = fer_mm(30.0);
    order.uncertainties = worked_uncertainties();
    CHECK_OK(fer_simulate_setups(&order, &press, dies, 2, blocks(0, 1), &tally, uses, 3, &found));
    assert_int_equal(uses[0], 0);
    assert_int_equal(uses[1], FER_TRIALS_A_BLOCK);
}

/* A hose that is measured no thicker than the stem (6.95 mm away, standard uncertainty 7.2 mm: the normal tail beyond
 * 0.9653 deviations is 0.1672) is no joint, and nothing is crimped by the published figure alone. */
static void what_is_measured_as_no_joint_is_not_crimped(void **state)
{
    (void)state;
    fer_order order = {0};
    const fer_press press = {0};
    const fer_die die = {{22.0}, {0}, 0, {0}};
    static fer_tally tally;
    uint64_t uses[2];
    size_t found;
    order.joint = worked_joint();
    order.published = fer_mm(23.51);
    order.uncertainties.hose_outside.amount = fer_mm(7.2);
    CHECK_OK(fer_simulate_setups(&order, &press, &die, 1, blocks(0, 1), &tally, uses, 2, &found));
    CHECK_NEAR((double)uses[1] / (double)(uses[0] + uses[1]), 0.1672, 0.02);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(counts_remember_their_sequence),
        cmocka_unit_test(what_is_measured_as_no_joint_is_not_crimped),
        cmocka_unit_test(a_die_that_is_too_short_is_used_by_no_trial),
        cmocka_unit_test(known_answers),
        cmocka_unit_test(wide_rows_are_the_narrow_ones),
        cmocka_unit_test(any_split_gives_the_same_bits),
        cmocka_unit_test(any_number_of_threads_gives_the_same_bits),
        cmocka_unit_test(a_correlation_with_an_exact_input_changes_no_draw),
        cmocka_unit_test(a_joint_drawn_alone_is_that_of_the_simulation),
        cmocka_unit_test(deviates_follow_their_distributions),
        cmocka_unit_test(simulated_shares_are_the_exact_ones),
        cmocka_unit_test(a_simulation_settles_to_its_digits),
        cmocka_unit_test(the_main_job_by_hand),
        cmocka_unit_test(trials_far_from_the_plan_count_at_the_ends),
        cmocka_unit_test(bad_input_has_its_status),
        cmocka_unit_test(every_joint_is_counted_somewhere),
        cmocka_unit_test(a_hose_without_a_wall_is_impossible),
        cmocka_unit_test(a_single_block_has_the_binomial_error),
        cmocka_unit_test(quantiles_at_the_ends_of_a_tally),
        cmocka_unit_test(tallies_of_different_questions_are_not_merged),
        cmocka_unit_test(two_possible_joints_have_a_deviation),
        cmocka_unit_test(deviations_that_leave_nothing_have_their_status),
        cmocka_unit_test(set_ups_beyond_the_dial_are_not_made),
        cmocka_unit_test(the_arguments_of_a_single_joint),
        cmocka_unit_test(the_figures_of_a_tally_by_hand),
        cmocka_unit_test(each_measurement_has_its_slope),
        cmocka_unit_test(an_outside_that_is_not_known_stays_so),
        cmocka_unit_test(what_no_simulation_counted_is_refused),
        cmocka_unit_test(limits_beyond_reach_count_as_none),
        cmocka_unit_test(nine_blocks_have_the_binomial_error),
        cmocka_unit_test(small_joints_and_no_number_of_blocks),
        cmocka_unit_test(counts_that_nobody_counted),
        cmocka_unit_test(tallies_that_no_simulation_made),
        cmocka_unit_test(a_tally_that_runs_over_a_doubles_digits_stays_in_its_classes),
        cmocka_unit_test(fully_correlated_inputs_move_together),
        cmocka_unit_test(measurements_that_are_no_joint_choose_no_die),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
