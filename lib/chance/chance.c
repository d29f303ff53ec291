/* SPDX-License-Identifier: MIT */
/* Monte Carlo trials of crimps and set-ups, their counts, tallies and figures.
 * Method: blocks of numbered trials, summed in whole numbers so that any order of merging gives the same bits.
 * Formulas: include/ferrule/chance.h; docs/chance.md. */
#include <ferrule/chance.h>

#include "crimp/uncertainties_private.h"
#include "base/value_private.h"
#include "base/numeric/special.h"
#include "chance/random.h"
#include "crimp/compression_private.h"
#include "crimp/die_private.h"
#include "crimp/press_private.h"
#include "crimp/setup_private.h"

#include <assert.h>
#include <string.h>

static_assert(FER_TRIALS_A_BLOCK == FER_BLOCK, "one size of a block");
static_assert((int)FER_INPUTS == (int)FER_UNIFORMS, "a uniform number an input");
static const uint64_t blocks_maximum = UINT64_C(1) << 40;

fer_status fer_find_random_words(const fer_random_words *counter, uint64_t key, fer_random_words *words)
{
    FER_REQUIRE(words, FER_ARGUMENT_MISSING);
    if (!counter) {
        FER_EMPTY(*words);
        return FER_ARGUMENT_MISSING;
    }
    *words = *counter;
    fer_philox(words->word, key);
    return FER_OK;
}

/* ---- drawing ------------------------------------------------------------------------------------------ */

/* What the errors of the inputs are made of. */
typedef struct {
    uint64_t seed;
    fer_sequence sequence;
    int wide; /* whole rows may be made by the wide functions */
    fer_distribution shape[FER_INPUTS];
    int used[FER_INPUTS];
    double scale[FER_INPUTS][FER_INPUTS];
    fer_standard_uncertainties uncertainties;
} drawing;

static fer_status check_trials(const fer_trials *trials)
{
    FER_REQUIRE((unsigned)trials->sequence <= FER_SEQUENCE_SOBOL, FER_TRIALS_SEQUENCE_UNKNOWN);
    FER_REQUIRE(trials->first_block <= blocks_maximum &&
                    trials->blocks <= blocks_maximum - trials->first_block,
                FER_TRIALS_BLOCKS_OUT_OF_RANGE);
    FER_REQUIRE(trials->coverage.fraction == 0.0 ||
                    (trials->coverage.fraction > 0.0 && trials->coverage.fraction <= 0.999),
                FER_TRIALS_COVERAGE_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status start_drawing(const fer_uncertainties *uncertainties, const fer_trials *trials, drawing *d)
{
    fer_uncertainty list[FER_INPUTS];
    FER_TRY(check_trials(trials));
    FER_TRY(fer_check_uncertainties(uncertainties, &d->uncertainties));
    FER_TRY(fer_check_shapes(uncertainties, &d->uncertainties));
    d->seed = trials->seed;
    d->sequence = trials->sequence;
    d->wide = 0;
    fer_list_uncertainties(uncertainties, list);
    fer_find_scales(uncertainties, d->scale);
    for (size_t i = 0; i < FER_INPUTS; i++) {
        d->shape[i] = list[i].distribution;
        d->used[i] = list[i].amount.mm > 0.0;
    }
    return FER_OK;
}

static void draw_normals(const drawing *d, const uint64_t uniform[FER_ROW], unsigned count,
                         double deviate[FER_ROW])
{
    if (d->wide) {
        fer_normal_row_wide(uniform, deviate);
    } else {
        fer_normal_row(uniform, count, deviate);
    }
}

/* Standard deviates of up to a row of trials; 0 for inputs that are known exactly. */
static void draw_deviates(const drawing *d, uint64_t first, unsigned count,
                          double deviate[FER_INPUTS][FER_ROW])
{
    uint64_t uniform[FER_UNIFORMS][FER_ROW];
    if (d->sequence == FER_SEQUENCE_SOBOL) {
        fer_even_row(d->seed, first, count, uniform);
    } else if (d->wide) {
        fer_random_row_wide(d->seed, first, uniform);
    } else {
        fer_random_row(d->seed, first, count, uniform);
    }
    for (size_t i = 0; i < FER_INPUTS; i++) {
        if (!d->used[i]) {
            memset(deviate[i], 0, sizeof deviate[i]);
        } else if (d->shape[i] == FER_DISTRIBUTION_RECTANGULAR) {
            fer_rectangular_row(uniform[i], count, deviate[i]);
        } else if (d->shape[i] == FER_DISTRIBUTION_TRIANGULAR) {
            fer_triangular_row(uniform[i], count, deviate[i]);
        } else {
            draw_normals(d, uniform[i], count, deviate[i]);
        }
    }
}

static double error_of(const drawing *d, double deviate[FER_INPUTS][FER_ROW], size_t input, size_t trial)
{
    double sum = 0.0;
    for (size_t j = 0; j <= input; j++) {
        if (d->used[j]) {
            sum += d->scale[input][j] * deviate[j][trial];
        }
    }
    return sum;
}

static void move_joint(const drawing *d, double deviate[FER_INPUTS][FER_ROW], size_t trial,
                       const fer_joint *joint, double diameter, fer_joint *moved, fer_length *at)
{
    *moved = *joint;
    moved->hose.inside.mm += error_of(d, deviate, 0, trial);
    moved->hose.outside.mm += error_of(d, deviate, 1, trial);
    moved->stem.outside.mm += error_of(d, deviate, 2, trial);
    moved->ferrule.wall.mm += error_of(d, deviate, 3, trial);
    if (joint->ferrule.outside.mm > 0.0) {
        moved->ferrule.outside.mm += error_of(d, deviate, 4, trial);
    }
    at->mm = diameter + error_of(d, deviate, 5, trial);
}

static fer_status draw_joint(const fer_joint *joint, const fer_uncertainties *uncertainties,
                             fer_length diameter, uint64_t number, const fer_trials *trials, fer_joint *drawn,
                             fer_length *drawn_diameter)
{
    drawing d;
    double deviate[FER_INPUTS][FER_ROW];
    FER_REQUIRE(joint && uncertainties, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_joint(joint));
    FER_TRY(fer_check_length(diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_REQUIRE(number >> FER_BLOCK_BITS < blocks_maximum, FER_TRIALS_BLOCKS_OUT_OF_RANGE);
    FER_TRY(start_drawing(uncertainties, trials, &d));
    draw_deviates(&d, number, 1, deviate);
    move_joint(&d, deviate, 0, joint, diameter.mm, drawn, drawn_diameter);
    return FER_OK;
}

fer_status fer_draw_joint(const fer_joint *joint, const fer_uncertainties *uncertainties, fer_length diameter,
                          uint64_t number, fer_trials trials, fer_joint *drawn, fer_length *drawn_diameter)
{
    if (drawn) {
        FER_LEAVE_OUT(*drawn);
    }
    if (drawn_diameter) {
        FER_LEAVE_OUT(*drawn_diameter);
    }
    FER_REQUIRE(drawn && drawn_diameter, FER_ARGUMENT_MISSING);
    return draw_joint(joint, uncertainties, diameter, number, &trials, drawn, drawn_diameter);
}

/* ---- compressions of a row ---------------------------------------------------------------------------- */

/* A linear form of the deviates; its constant comes last. */
typedef struct {
    double factor[FER_INPUTS + 1];
} form;

/* sum(slope x) with the inputs' errors in terms of the deviates. */
static form form_of(const drawing *d, double constant, const double slope[FER_INPUTS])
{
    form f = {{0.0}};
    f.factor[FER_INPUTS] = constant;
    for (size_t j = 0; j < FER_INPUTS; j++) {
        for (size_t i = j; i < FER_INPUTS; i++) {
            f.factor[j] += slope[i] * d->scale[i][j];
        }
    }
    return f;
}

static void apply(const form *f, double deviate[FER_INPUTS][FER_ROW], double value[FER_ROW])
{
    for (size_t k = 0; k < FER_ROW; k++) {
        value[k] = f->factor[FER_INPUTS];
    }
    for (size_t i = 0; i < FER_INPUTS; i++) {
        const double factor = f->factor[i];
        if (factor != 0.0) {
            for (size_t k = 0; k < FER_ROW; k++) {
                value[k] += factor * deviate[i][k];
            }
        }
    }
}

/* All that the trials of a simulation share. */
typedef struct {
    drawing draws;
    fer_joint joint;
    fer_length diameter;
    fer_model model;
    fer_ratio_range range;
    form gap, wall, below, above; /* plain formula: gap, hose wall, and what is above 0 beyond a limit */
    /* of the main job only */
    const fer_order *order;
    const fer_press *press;
    const fer_die *dies;
    size_t count;
    uint64_t *uses;
} question;

static void find_forms(question *q)
{
    const double gap = q->diameter.mm - 2.0 * q->joint.ferrule.wall.mm - q->joint.stem.outside.mm;
    const double wall = q->joint.hose.outside.mm - q->joint.hose.inside.mm;
    const double lower = 1.0 - fer_reachable(q->range.lower), upper = 1.0 - fer_reachable(q->range.upper);
    const double gap_slope[FER_INPUTS] = {0.0, 0.0, -1.0, -2.0, 0.0, 1.0};
    const double wall_slope[FER_INPUTS] = {-1.0, 1.0, 0.0, 0.0, 0.0, 0.0};
    const double below_slope[FER_INPUTS] = {lower, -lower, -1.0, -2.0, 0.0, 1.0};
    const double above_slope[FER_INPUTS] = {-upper, upper, 1.0, 2.0, 0.0, -1.0};
    q->gap = form_of(&q->draws, gap, gap_slope);
    q->wall = form_of(&q->draws, wall, wall_slope);
    q->below = form_of(&q->draws, gap - lower * wall, below_slope);
    q->above = form_of(&q->draws, upper * wall - gap, above_slope);
}

/* A compression that was found with this status; without one the side where the joint is, or NaN. */
static double compression_or_side(fer_status status, fer_ratio compression)
{
    if (status == FER_DIAMETER_WITHOUT_TOUCH || status == FER_DIAMETER_ABOVE_FERRULE) {
        return -INFINITY;
    }
    if (status == FER_DIAMETER_CLOSES_ON_STEM || status == FER_DIAMETER_WITHOUT_BORE) {
        return INFINITY;
    }
    return compression.fraction;
}

/* One set-up: what is measured decides the target, the die and the dial; the joint as it is gets crimped. */
static double crimp_anew(const question *q, double deviate[FER_INPUTS][FER_ROW], size_t trial)
{
    fer_order measured = *q->order;
    fer_length target, scatter;
    fer_die_choice choice;
    fer_dial dial;
    const fer_die_needs needs = {q->order->adapter_mounted, q->order->joint.ferrule.length};
    move_joint(&q->draws, deviate, trial, &q->order->joint, 0.0, &measured.joint, &scatter);
    (void)fer_order_target(&measured, &target);
    (void)fer_choose_die_checked(q->dies, q->count, target, needs,
                                 &choice); /* none is found for a target that is none */
    if (!choice.found || fer_dial_setting_checked(q->press, choice.die.size, target, &dial) != FER_OK) {
        q->uses[q->count]++;
        return NAN;
    }
    q->uses[choice.index]++;
    const fer_length made = {dial.expected.mm + scatter.mm};
    fer_ratio compression;
    FER_LEAVE_OUT(compression);
    const fer_status status = fer_compression_checked(&q->order->joint, made, q->model, &compression);
    return compression_or_side(status, compression);
}

static void compressions_of_row(const question *q, uint64_t first, double compression[FER_ROW])
{
    double deviate[FER_INPUTS][FER_ROW], wall[FER_ROW];
    draw_deviates(&q->draws, first, FER_ROW, deviate);
    if (q->order || !fer_is_plain(q->model)) {
        for (size_t k = 0; k < FER_ROW; k++) {
            fer_joint moved;
            fer_length at;
            if (q->order) {
                compression[k] = crimp_anew(q, deviate, k);
            } else {
                move_joint(&q->draws, deviate, k, &q->joint, q->diameter.mm, &moved, &at);
                fer_ratio found;
                const fer_status status = fer_compression(&moved, at, q->model, &found);
                compression[k] = compression_or_side(status, found);
            }
        }
        return;
    }
    apply(&q->gap, deviate, compression);
    apply(&q->wall, deviate, wall);
    for (size_t k = 0; k < FER_ROW; k++) {
        const double share = (wall[k] - compression[k]) / wall[k];
        compression[k] = wall[k] > 0.0 ? share : NAN;
    }
}

/* ---- counts ------------------------------------------------------------------------------------------- */

static void count_row(const fer_ratio_range *range, const double compression[FER_ROW], fer_crimp_count *count)
{
    for (size_t k = 0; k < FER_ROW; k++) {
        count->below += compression[k] < range->lower.fraction;
        count->above += compression[k] > range->upper.fraction;
        count->impossible += !(compression[k] == compression[k]);
    }
}

/* The plain formula's limits need no division. */
static void count_plain_row(const question *q, uint64_t first, fer_crimp_count *count)
{
    double deviate[FER_INPUTS][FER_ROW];
    draw_deviates(&q->draws, first, FER_ROW, deviate);
    /* GCOVR_EXCL_BR_START: the processor decides; the numeric test compares both bit for bit */
    (q->draws.wide ? fer_count_row_wide : fer_count_row)(q->below.factor, q->above.factor, deviate,
                                                         &count->below, &count->above);
    /* GCOVR_EXCL_BR_STOP */
}

static void end_block(fer_crimp_count *count)
{
    count->blocks = 1;
    count->trials = FER_BLOCK;
    const uint64_t inside = FER_BLOCK - count->below - count->above - count->impossible;
    count->inside_squares = inside * inside;
}

/* Nothing spoils the evenness of Sobol's points; a sequence that is not in the list does. */
static int is_even(const fer_crimp_count *count)
{
    return count->trials == 0 || count->sequence == FER_SEQUENCE_SOBOL;
}

/* Sobol's points are even only as long as all of them are. */
static fer_sequence sequence_of_both(const fer_crimp_count *one, const fer_crimp_count *other)
{
    const int any = (one->trials | other->trials) != 0;
    return any && is_even(one) && is_even(other) ? FER_SEQUENCE_SOBOL : FER_SEQUENCE_RANDOM;
}

static void add_count(fer_crimp_count *sum, const fer_crimp_count *count)
{
    sum->sequence = sequence_of_both(sum, count);
    sum->blocks += count->blocks;
    sum->trials += count->trials;
    sum->below += count->below;
    sum->above += count->above;
    sum->impossible += count->impossible;
    sum->inside_squares += count->inside_squares;
}

static fer_status ask(const fer_joint *joint, const fer_uncertainties *uncertainties, fer_ratio_range range,
                      fer_length diameter, fer_model model, const fer_trials *trials, question *q)
{
    fer_ratio compression;
    int used = 0;
    FER_EMPTY(*q);
    FER_REQUIRE(joint && uncertainties, FER_ARGUMENT_MISSING);
    FER_TRY(fer_compression(joint, diameter, model, &compression));
    FER_TRY(fer_check_range(range));
    FER_TRY(start_drawing(uncertainties, trials, &q->draws));
    for (size_t i = 0; i < FER_INPUTS; i++) {
        used |= q->draws.used[i];
    }
    FER_REQUIRE(used, FER_UNCERTAINTY_EMPTY);
    q->draws.wide = fer_is_wide();
    q->joint = *joint;
    q->diameter = diameter;
    q->model = model;
    q->range = range;
    find_forms(q);
    return FER_OK;
}

/* Whether a hose without a wall can be left out of account: as in fer_conforming_share(). */
static int has_sure_wall(const question *q)
{
    double squares = 0.0;
    for (size_t i = 0; i < FER_INPUTS; i++) {
        squares += q->wall.factor[i] * q->wall.factor[i];
    }
    return 8.0 * sqrt(squares) <= q->wall.factor[FER_INPUTS];
}

static fer_status simulate_shares(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  fer_ratio_range range, fer_length diameter, fer_model model,
                                  const fer_trials *trials, fer_crimp_count *count)
{
    question q;
    FER_TRY(ask(joint, uncertainties, range, diameter, model, trials, &q));
    const uint64_t blocks = trials->blocks > 0 ? trials->blocks : 1;
    const int plain = fer_is_plain(model) && has_sure_wall(&q);
    for (uint64_t b = trials->first_block; b < trials->first_block + blocks; b++) {
        fer_crimp_count block = {0};
        double compression[FER_ROW];
        for (uint64_t first = b * FER_BLOCK; first < (b + 1) * FER_BLOCK; first += FER_ROW) {
            if (plain) {
                count_plain_row(&q, first, &block);
            } else {
                compressions_of_row(&q, first, compression);
                count_row(&range, compression, &block);
            }
        }
        end_block(&block);
        block.sequence = trials->sequence;
        add_count(count, &block);
    }
    return FER_OK;
}

fer_status fer_simulate_shares(const fer_joint *joint, const fer_uncertainties *uncertainties,
                               fer_ratio_range range, fer_length diameter, fer_model model, fer_trials trials,
                               fer_crimp_count *count)
{
    FER_REQUIRE(count, FER_ARGUMENT_MISSING);
    FER_EMPTY(*count);
    return simulate_shares(joint, uncertainties, range, diameter, model, &trials, count);
}

fer_status fer_merge_counts(const fer_crimp_count *one, const fer_crimp_count *other, fer_crimp_count *sum)
{
    FER_REQUIRE(sum, FER_ARGUMENT_MISSING);
    if (!one || !other) {
        FER_EMPTY(*sum);
        return FER_ARGUMENT_MISSING;
    }
    fer_crimp_count both = *one; /* the sum may be one of the two */
    add_count(&both, other);
    *sum = both;
    return FER_OK;
}

/* Whether the parts are no more than the whole; sums that run over are seen too. */
static int is_possible_count(const fer_crimp_count *count)
{
    const uint64_t maximum = count->trials;
    return count->below <= maximum && count->above <= maximum - count->below &&
           count->impossible <= maximum - count->below - count->above;
}

/* Scatter of the blocks' shares; the squares are whole numbers, so that nothing cancels until the end. Widened to
 * Student's at 95 %: the scatter of few blocks is itself an estimate. */
static double error_by_blocks(const fer_crimp_count *count, double inside)
{
    const double blocks = (double)count->blocks, mean = inside / blocks;
    const double variance = ((double)count->inside_squares / blocks - mean * mean) / (blocks - 1.0);
    const double few = fer_student_quantile(0.975, blocks - 1.0) / fer_normal_quantile(0.975);
    return few * sqrt(fmax(0.0, variance)) / FER_BLOCK;
}

fer_status fer_find_simulated_shares(const fer_crimp_count *count, fer_simulated_shares *shares)
{
    FER_REQUIRE(shares, FER_ARGUMENT_MISSING);
    FER_EMPTY(*shares);
    FER_LEAVE_OUT_FROM(fer_simulated_shares, *shares, shares, standard_error);
    FER_REQUIRE(count, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count->trials > 0 && count->blocks > 0, FER_TALLY_EMPTY);
    FER_REQUIRE(is_possible_count(count), FER_TALLY_IMPOSSIBLE);
    const double trials = (double)count->trials;
    const double inside = (double)(count->trials - count->below - count->above - count->impossible);
    const double share = inside / trials;
    shares->trials = count->trials;
    shares->shares.inside.fraction = share;
    shares->shares.below.fraction = (double)count->below / trials;
    shares->shares.above.fraction = (double)count->above / trials;
    shares->standard_error.fraction = sqrt(share * (1.0 - share) / trials);
    if (count->sequence == FER_SEQUENCE_SOBOL && count->blocks > 9) {
        shares->standard_error.fraction = error_by_blocks(count, inside);
    }
    return FER_OK;
}

/* ---- tallies ------------------------------------------------------------------------------------------ */

static void add_exact(fer_exact_sum *sum, const fer_exact_sum *other)
{
    sum->parts += other->parts;
    /* without a sign: sums that no simulation gives may run over, and end as TALLY_IMPOSSIBLE or not at all */
    sum->whole = (int64_t)((uint64_t)sum->whole + (uint64_t)other->whole + (sum->parts < other->parts));
}

/* What is beyond 1e9 standard uncertainties counts as that. */
static fer_exact_sum exact_of(double x)
{
    fer_exact_sum exact;
    x = fmax(-1e9, fmin(1e9, x));
    const double whole = floor(x), parts = (x - whole) * 0x1p64;
    exact.whole = (int64_t)whole;
    /* GCOVR_EXCL_BR_START: it is all of 2^64 parts only where x is less than a rounding below a whole number */
    exact.parts = parts < 0x1p64 ? (uint64_t)parts : UINT64_MAX;
    /* GCOVR_EXCL_BR_STOP */
    return exact;
}

static double exact_value(const fer_exact_sum *sum)
{
    return (double)sum->whole + (double)sum->parts * 0x1p-64;
}

static fer_block_figure figure_of(double x)
{
    const fer_block_figure figure = {exact_of(x), exact_of(x * x)};
    return figure;
}

static void add_figure(fer_block_figure *sum, const fer_block_figure *other)
{
    add_exact(&sum->sum, &other->sum);
    add_exact(&sum->squares, &other->squares);
}

static void add_tally(fer_tally *sum, const fer_tally *other)
{
    add_count(&sum->count, &other->count);
    add_figure(&sum->mean, &other->mean);
    add_figure(&sum->deviation, &other->deviation);
    add_figure(&sum->low, &other->low);
    add_figure(&sum->high, &other->high);
    for (size_t i = 0; i < FER_TALLY_CLASSES; i++) {
        sum->classes[i] += other->classes[i];
    }
}

static const double classes_from = -8.0, classes_a_unit = FER_TALLY_CLASSES / 16.0;

/* Standardised quantile: straight between the ends of its class. */
static double quantile_of(const uint64_t classes[FER_TALLY_CLASSES], double probability)
{
    uint64_t total = 0;
    double below = 0.0;
    size_t i = 0;
    for (size_t k = 0; k < FER_TALLY_CLASSES; k++) {
        total += classes[k];
    }
    const double wanted = probability * (double)total;
    while (i < FER_TALLY_CLASSES - 1 && below + (double)classes[i] < wanted) {
        below += (double)classes[i++];
    }
    const double share = classes[i] > 0 ? (wanted - below) / (double)classes[i] : 0.5;
    return classes_from + ((double)i + share) / classes_a_unit;
}

/* Sums over a block; eight at a time, so that a processor need not wait for each. */
typedef struct {
    double sum[8], squares[8];
    uint64_t number;
} block_sums;

static void sum_row(const fer_tally *tally, const double compression[FER_ROW], block_sums *sums,
                    uint64_t classes[FER_TALLY_CLASSES])
{
    const double centre = tally->centre.fraction, scale = 1.0 / tally->scale.fraction;
    for (size_t k = 0; k < FER_ROW; k++) {
        const double x = (compression[k] - centre) * scale;
        if (!fer_is_finite(x)) {
            continue;
        }
        const double class_number = (x - classes_from) * classes_a_unit;
        const double kept = fmax(0.0, fmin(FER_TALLY_CLASSES - 1.0, class_number));
        sums->sum[k % 8] += x;
        sums->squares[k % 8] += x * x;
        sums->number++;
        classes[(size_t)kept]++;
    }
}

static double sum_of_eight(const double part[8])
{
    return ((part[0] + part[1]) + (part[2] + part[3])) + ((part[4] + part[5]) + (part[6] + part[7]));
}

static fer_status tally_block(const question *q, uint64_t block, fer_tally *tally)
{
    block_sums sums = {{0.0}, {0.0}, 0};
    double compression[FER_ROW];
    for (uint64_t first = block * FER_BLOCK; first < (block + 1) * FER_BLOCK; first += FER_ROW) {
        compressions_of_row(q, first, compression);
        count_row(&q->range, compression, &tally->count);
        sum_row(tally, compression, &sums, tally->classes);
    }
    FER_REQUIRE(sums.number > 1, FER_UNCERTAINTY_LEAVES_DOMAIN);
    const double number = (double)sums.number, mean = sum_of_eight(sums.sum) / number;
    const double variance = (sum_of_eight(sums.squares) - number * mean * mean) / (number - 1.0);
    const double tail = 0.5 - 0.5 * tally->coverage.fraction;
    end_block(&tally->count);
    tally->mean = figure_of(mean);
    tally->deviation = figure_of(sqrt(fmax(0.0, variance)));
    tally->low = figure_of(quantile_of(tally->classes, tail));
    tally->high = figure_of(quantile_of(tally->classes, 1.0 - tail));
    return FER_OK;
}

/* An empty tally for a question: centre and scale are the same for everybody who asks it. */
static fer_status start_tally(const question *q, const fer_uncertainties *uncertainties,
                              const fer_trials *trials, fer_tally *empty)
{
    fer_uncertainties known = *uncertainties;
    fer_contributions found;
    fer_uncertainty *const inputs[FER_INPUTS] = {&known.hose_inside,     &known.hose_outside,
                                                 &known.stem_outside,    &known.ferrule_wall,
                                                 &known.ferrule_outside, &known.diameter};
    for (size_t i = 0; i < FER_INPUTS; i++) {
        inputs[i]->degrees_of_freedom = 0.0;
    }
    /* it compresses there, as ask() has seen */
    (void)fer_find_contributions(&q->joint, &known, &q->draws.uncertainties, q->diameter, q->model, &found);
    FER_REQUIRE(found.standard_uncertainty > 0.0, FER_UNCERTAINTY_EMPTY);
    FER_EMPTY(*empty);
    (void)fer_compression_checked(&q->joint, q->diameter, q->model, &empty->centre);
    empty->scale.fraction = found.standard_uncertainty;
    empty->coverage.fraction = trials->coverage.fraction > 0.0 ? trials->coverage.fraction : 0.95;
    empty->range = q->range;
    return FER_OK;
}

static fer_status run_blocks(const question *q, const fer_trials *trials, fer_tally *tally)
{
    const uint64_t blocks = trials->blocks > 0 ? trials->blocks : 1;
    const fer_tally empty = *tally;
    for (uint64_t b = 0; b < blocks; b++) {
        fer_tally block = empty;
        FER_TRY(tally_block(q, trials->first_block + b, &block));
        add_tally(tally, &block);
    }
    return FER_OK;
}

fer_status fer_simulate_compression(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                    fer_ratio_range range, fer_length diameter, fer_model model,
                                    fer_trials trials, fer_tally *tally)
{
    question q;
    FER_REQUIRE(tally, FER_ARGUMENT_MISSING);
    FER_EMPTY(*tally);
    FER_TRY(ask(joint, uncertainties, range, diameter, model, &trials, &q));
    FER_TRY(start_tally(&q, uncertainties, &trials, tally));
    const fer_status status = run_blocks(&q, &trials, tally);
    if (status != FER_OK) {
        FER_EMPTY(*tally);
    }
    return status;
}

static int is_same_question(const fer_tally *one, const fer_tally *other)
{
    return one->centre.fraction == other->centre.fraction && one->scale.fraction == other->scale.fraction &&
           one->coverage.fraction == other->coverage.fraction &&
           one->range.lower.fraction == other->range.lower.fraction &&
           one->range.upper.fraction == other->range.upper.fraction;
}

fer_status fer_merge_tallies(const fer_tally *one, const fer_tally *other, fer_tally *sum)
{
    FER_REQUIRE(sum, FER_ARGUMENT_MISSING);
    if (!one || !other || !is_same_question(one, other)) {
        FER_EMPTY(*sum);
        return one && other ? FER_TALLY_OF_ANOTHER_QUESTION : FER_ARGUMENT_MISSING;
    }
    fer_tally both = *one;
    add_tally(&both, other);
    *sum = both;
    return FER_OK;
}

/* ---- what a tally says -------------------------------------------------------------------------------- */

typedef struct {
    double mean, error; /* over the blocks */
} block_mean;

static block_mean mean_over_blocks(const fer_block_figure *figure, double blocks)
{
    const double mean = exact_value(&figure->sum) / blocks;
    const double variance = (exact_value(&figure->squares) / blocks - mean * mean) / (blocks - 1.0);
    const block_mean found = {mean, blocks > 1.0 ? sqrt(fmax(0.0, variance)) : NAN};
    return found;
}

/* Half a unit of the last digit (JCGM 101, 7.9.2). */
static double tolerance_of(double uncertainty, int digits)
{
    return 0.5 * pow(10.0, floor(log10(uncertainty)) - (digits - 1));
}

static fer_status summarise(const fer_tally *tally, int digits, fer_simulation *simulation)
{
    FER_REQUIRE(tally, FER_ARGUMENT_MISSING);
    FER_REQUIRE(tally->count.blocks > 0, FER_TALLY_EMPTY);
    FER_REQUIRE(digits >= 1 && digits <= 6, FER_TALLY_DIGITS_OUT_OF_RANGE);
    const double blocks = (double)tally->count.blocks, scale = tally->scale.fraction;
    const double tail = 0.5 - 0.5 * tally->coverage.fraction, size = FER_BLOCK;
    const block_mean mean = mean_over_blocks(&tally->mean, blocks);
    const block_mean deviation = mean_over_blocks(&tally->deviation, blocks);
    const block_mean low = mean_over_blocks(&tally->low, blocks),
                     high = mean_over_blocks(&tally->high, blocks);
    /* within the blocks and between them */
    const double within = exact_value(&tally->deviation.squares) * (size - 1.0);
    const double between = blocks > 1.0 ? size * blocks * (blocks - 1.0) * mean.error * mean.error : 0.0;
    const double uncertainty = scale * sqrt((within + between) / (size * blocks - 1.0));
    const double largest = fmax(fmax(mean.error, deviation.error), fmax(low.error, high.error));
    simulation->mean.fraction = tally->centre.fraction + scale * mean.mean;
    simulation->standard_uncertainty.fraction = uncertainty;
    simulation->interval.lower.fraction = tally->centre.fraction + scale * quantile_of(tally->classes, tail);
    simulation->interval.upper.fraction =
        tally->centre.fraction + scale * quantile_of(tally->classes, 1.0 - tail);
    simulation->mean_error.fraction = scale * mean.error;
    simulation->uncertainty_error.fraction = scale * deviation.error;
    simulation->lower_error.fraction = scale * low.error;
    simulation->upper_error.fraction = scale * high.error;
    simulation->tolerance.fraction = tolerance_of(uncertainty, digits);
    /* the errors of a single block are NaN */
    simulation->settled = 2.0 * scale * largest < simulation->tolerance.fraction;
    simulation->trials = tally->count.trials;
    return FER_OK;
}

/* A tally comes from outside, too: what no simulation can have counted shows in its figures. */
static int is_possible(const fer_simulation *s)
{
    return fer_is_finite(s->mean.fraction) && s->standard_uncertainty.fraction > 0.0 &&
           fer_is_finite(s->standard_uncertainty.fraction) && fer_is_finite(s->interval.lower.fraction) &&
           fer_is_finite(s->interval.upper.fraction);
}

static void leave_out_simulation(fer_simulation *simulation)
{
    FER_EMPTY(*simulation);
    FER_LEAVE_OUT_FROM(fer_simulation, *simulation, mean, tolerance);
}

fer_status fer_summarise_tally(const fer_tally *tally, int digits, fer_simulation *simulation)
{
    FER_REQUIRE(simulation, FER_ARGUMENT_MISSING);
    leave_out_simulation(simulation);
    fer_status status = summarise(tally, digits, simulation);
    if (status == FER_OK && !is_possible(simulation)) {
        leave_out_simulation(simulation);
        status = FER_TALLY_IMPOSSIBLE;
    }
    return status;
}

fer_status fer_find_tally_quantile(const fer_tally *tally, fer_ratio probability, fer_ratio *quantile)
{
    FER_REQUIRE(quantile, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*quantile);
    FER_REQUIRE(tally, FER_ARGUMENT_MISSING);
    FER_REQUIRE(tally->count.blocks > 0, FER_TALLY_EMPTY);
    FER_REQUIRE(probability.fraction > 0.0 && probability.fraction < 1.0, FER_TALLY_PROBABILITY_OUT_OF_RANGE);
    const double found =
        tally->centre.fraction + tally->scale.fraction * quantile_of(tally->classes, probability.fraction);
    FER_REQUIRE(fer_is_finite(found), FER_TALLY_IMPOSSIBLE);
    quantile->fraction = found;
    return FER_OK;
}

static fer_status simulate_to_digits(const question *q, int digits, const fer_trials *trials,
                                     fer_tally *tally, fer_simulation *simulation)
{
    const uint64_t maximum = trials->blocks > 0 ? trials->blocks : 1000;
    fer_trials next = *trials;
    for (next.blocks = 1; tally->count.blocks < maximum && !simulation->settled; next.first_block++) {
        fer_tally block = *tally;
        memset((char *)&block + offsetof(fer_tally, count), 0, sizeof block - offsetof(fer_tally, count));
        FER_TRY(run_blocks(q, &next, &block));
        add_tally(tally, &block);
        (void)summarise(tally, digits, simulation); /* it has a block, and the digits have been checked */
    }
    return FER_OK;
}

fer_status fer_simulate_to_digits(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  fer_ratio_range range, fer_length diameter, int digits, fer_model model,
                                  fer_trials trials, fer_tally *tally, fer_simulation *simulation)
{
    question q;
    if (tally) {
        FER_EMPTY(*tally);
    }
    if (simulation) {
        leave_out_simulation(simulation);
    }
    FER_REQUIRE(tally && simulation, FER_ARGUMENT_MISSING);
    FER_REQUIRE(digits >= 1 && digits <= 6, FER_TALLY_DIGITS_OUT_OF_RANGE);
    FER_TRY(ask(joint, uncertainties, range, diameter, model, &trials, &q));
    FER_TRY(start_tally(&q, uncertainties, &trials, tally));
    const fer_status status = simulate_to_digits(&q, digits, &trials, tally, simulation);
    if (status != FER_OK) {
        FER_EMPTY(*tally);
        leave_out_simulation(simulation);
    }
    return status;
}

/* ---- the main job -------------------------------------------------------------------------------------- */

static fer_status simulate_setups(const fer_order *order, const fer_press *press, const fer_die *dies,
                                  size_t count, const fer_trials *trials, fer_tally *tally, uint64_t *uses)
{
    fer_setup setup;
    question q;
    FER_TRY(fer_plan_setup(order, press, dies, count, &setup));
    FER_TRY(ask(&order->joint, &order->uncertainties, setup.range, setup.target, order->model, trials, &q));
    q.order = order;
    q.press = press;
    q.dies = dies;
    q.count = count;
    q.uses = uses;
    FER_TRY(start_tally(&q, &order->uncertainties, trials, tally));
    return run_blocks(&q, trials, tally);
}

fer_status fer_simulate_setups(const fer_order *order, const fer_press *press, const fer_die *dies,
                               size_t count, fer_trials trials, fer_tally *tally, uint64_t *uses,
                               size_t capacity, size_t *found)
{
    if (tally) {
        FER_EMPTY(*tally);
    }
    if (found) {
        *found = 0;
    }
    FER_REQUIRE(tally && uses && found && order, FER_ARGUMENT_MISSING);
    FER_REQUIRE(capacity > count, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    memset(uses, 0, (count + 1) * sizeof *uses);
    const fer_status status = simulate_setups(order, press, dies, count, &trials, tally, uses);
    if (status != FER_OK) {
        FER_EMPTY(*tally);
        return status;
    }
    *found = count + 1;
    return FER_OK;
}
