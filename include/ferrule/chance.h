/* SPDX-License-Identifier: MIT */
/** @file
 * Module `chance`: Monte Carlo trials, for what has no closed formula.
 *
 * Trials come in blocks of #FER_TRIALS_A_BLOCK and are numbered from 0. Trial i of a seed is always the same, on any
 * machine: blocks may be shared out between any number of threads, processes or machines, and the merged counts and
 * tallies have the same bits, in whatever order they are merged (they hold whole numbers only). The library starts no
 * thread itself.
 */
#ifndef FERRULE_CHANCE_H
#define FERRULE_CHANCE_H

#include <ferrule/setup.h>

/** Trials in a block. */
#define FER_TRIALS_A_BLOCK 16384
/** Classes of a tally: standardised compressions from -8 to 8. */
#define FER_TALLY_CLASSES 512

/** Where the numbers of the trials come from. */
typedef enum fer_sequence {
    FER_SEQUENCE_RANDOM, /**< Philox 4x32-10: as good as random */
    FER_SEQUENCE_SOBOL /**< Sobol's points, in each block moved by a random amount: more even, fewer trials needed */
} fer_sequence;

/** Which trials to make; all zero: the first block of seed 0. */
typedef struct fer_trials {
    /** number that all trials depend on @label seed @range any whole number @optional a seed like any other
     * */
    uint64_t seed;
    /** number of the first block @range 0 to 1,099,511,627,776 - blocks @optional from the beginning */
    uint64_t first_block;
    uint64_t blocks;       /**< number of blocks @range 0 to 1,099,511,627,776 - first_block @optional one */
    fer_sequence sequence; /**< where the numbers come from @label sequence @optional random */
    /** share that the coverage interval holds @label coverage @range above 0 to 0.999 @optional the usual 95
     * % */
    fer_ratio coverage;
} fer_trials;

/** Four words of 32 bits. */
typedef struct fer_random_words {
    uint32_t word[4]; /**< the words @range any whole number */
} fer_random_words;

/** How many crimps of a simulation fell where. */
typedef struct fer_crimp_count {
    uint64_t blocks;         /**< number of blocks */
    uint64_t trials;         /**< number of trials */
    uint64_t below;          /**< with too little compression, or not touching */
    uint64_t above;          /**< with too much compression, or closed on the stem */
    uint64_t impossible;     /**< that are no joint */
    uint64_t inside_squares; /**< sum over the blocks of the square of the number inside */
    fer_sequence sequence;   /**< of all blocks; random where they are of both kinds @optional random */
} fer_crimp_count;

/** A sum without rounding: whole + parts/2^64. */
typedef struct fer_exact_sum {
    int64_t whole;  /**< whole part, rounded down */
    uint64_t parts; /**< parts of 2^-64 */
} fer_exact_sum;

/** A figure of each block, summed over the blocks. */
typedef struct fer_block_figure {
    fer_exact_sum sum;     /**< of the figure */
    fer_exact_sum squares; /**< of its square */
} fer_block_figure;

/** Compressions of a simulation, in a form that can be merged. Standardised: minus centre, divided by scale. */
typedef struct fer_tally {
    fer_ratio centre;           /**< compression of the mean joint */
    fer_ratio scale;            /**< its standard uncertainty, first order */
    fer_ratio coverage;         /**< share that the coverage interval holds */
    fer_ratio_range range;      /**< compression allowed */
    fer_crimp_count count;      /**< how many fell where */
    fer_block_figure mean;      /**< standardised mean of a block */
    fer_block_figure deviation; /**< standardised standard deviation of a block */
    fer_block_figure low;       /**< standardised lower end of a block's coverage interval */
    fer_block_figure high;      /**< standardised upper end */
    uint64_t
        classes[FER_TALLY_CLASSES]; /**< how many fell into each class; the outer two hold what is beyond */
} fer_tally;

/** Conforming share by simulation. */
typedef struct fer_simulated_shares {
    fer_shares shares;        /**< shares inside, below and above; impossible joints are in none of them */
    fer_ratio standard_error; /**< of the share inside: binomial, or for Sobol's points from the blocks */
    uint64_t trials;          /**< number of trials */
} fer_simulated_shares;

/** Compression by simulation. */
typedef struct fer_simulation {
    fer_ratio mean;                 /**< mean compression */
    fer_ratio standard_uncertainty; /**< standard deviation of the compressions */
    fer_ratio_range interval;       /**< coverage interval, the same share left out on either side */
    /** standard error of the mean, from the scatter of the blocks; NaN for one block */
    fer_ratio mean_error;
    fer_ratio uncertainty_error; /**< standard error of the standard uncertainty; NaN for one block */
    fer_ratio lower_error;       /**< standard error of the lower end of the interval; NaN for one block */
    fer_ratio upper_error;       /**< standard error of the upper end of the interval; NaN for one block */
    fer_ratio tolerance;         /**< half a unit of the last of the digits asked for */
    int settled;                 /**< twice each standard error is below the tolerance @flag */
    uint64_t trials;             /**< number of trials */
} fer_simulation;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Random numbers by counting: Philox 4x32-10.
 *
 * For those who need random numbers of their own that are the same wherever they are made. The trials of this module use
 * counters {trial, trial >> 32, 0 or 1, 0}, and {block, block >> 32, 0 or 1, 1} for what moves Sobol's points.
 *
 * @param[in] counter  any four words
 * @param[in] key  second number that the words depend on @range any whole number
 * @param[out] words  four random words
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @accuracy exact
 * @source Salmon, Moraes, Dror, Shaw, Parallel random numbers: as easy as 1, 2, 3, SC11 (2011)
 */
FER_API fer_status fer_find_random_words(const fer_random_words *counter, uint64_t key,
                                         fer_random_words *words);

/**
 * Joint of one trial: measurements and crimp diameter, each with its error.
 *
 * For figures of your own: draw the joints, work out the figure of each. The joint need not be a possible one.
 *
 * @param[in] joint  mean joint, see fer_check_joint()
 * @param[in] uncertainties  uncertainties; correlations between normal ones
 * @param[in] diameter  mean crimp diameter @range 0.001 mm to 1,000,000 mm
 * @param[in] number  number of the trial @range 0 to 18,014,398,509,481,983
 * @param[in] trials  seed and sequence count @optional random, seed 0
 * @param[out] drawn  joint with its errors; a ferrule outside diameter that is not measured stays so; NaN on failure
 * @param[out] drawn_diameter  crimp diameter with its error; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_TRIALS_SEQUENCE_UNKNOWN  not in #fer_sequence
 * @retval FER_TRIALS_BLOCKS_OUT_OF_RANGE  a number of a block beyond 2^40
 * @retval FER_TRIALS_COVERAGE_OUT_OF_RANGE  given, and not above 0 and up to 0.999
 * @retval FER_UNCERTAINTY_NOT_NORMAL  a rectangular or triangular input that is correlated with another
 * @retval FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE  and the statuses of fer_uncertainty_budget() that concern the uncertainties
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @accuracy deviates by inverse distribution from 42 bits; normal ones 1.2e-10, up to 7.2 standard deviations
 * @source JCGM 101:2008, 6.4, C
 */
FER_API fer_status fer_draw_joint(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  fer_length diameter, uint64_t number, fer_trials trials, fer_joint *drawn,
                                  fer_length *drawn_diameter);

/**
 * Conforming share by simulation: counts that can be merged.
 *
 * Needed where fer_conforming_share() is not exact: another basis, a flow. For the plain formula both agree.
 *
 * @param[in] joint  @as fer_compression()
 * @param[in] uncertainties  uncertainties; correlations between normal ones
 * @param[in] range  lower and upper limit of compression, in order @range any finite number
 * @param[in] diameter  @as fer_compression()
 * @param[in] model  basis and flow @optional plain formula
 * @param[in] trials  seed, blocks, sequence @optional the first block of seed 0
 * @param[out] count  how many fell where; all 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_COMPRESSION_NOT_A_NUMBER  a limit is NaN or infinite
 * @retval FER_COMPRESSION_RANGE_WRONG_ORDER  lower limit not below upper
 * @retval FER_UNCERTAINTY_EMPTY  every uncertainty is 0
 * @retval FER_TRIALS_SEQUENCE_UNKNOWN  and the other statuses of fer_draw_joint()
 * @retval FER_DIAMETER_WITHOUT_TOUCH  and the other statuses of fer_compression()
 * @accuracy within its standard error of fer_conforming_share() at 10^8 trials (tests/agree/simulation)
 * @source JCGM 101:2008
 */
FER_API fer_status fer_simulate_shares(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                       fer_ratio_range range, fer_length diameter, fer_model model,
                                       fer_trials trials, fer_crimp_count *count);

/**
 * Two counts of the same question together.
 *
 * @param[in] one  count of some blocks, @from fer_simulate_shares()
 * @param[in] other  count of other blocks, @from fer_simulate_shares()
 * @param[out] sum  both; all 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @accuracy exact
 * @source none needed
 */
FER_API fer_status fer_merge_counts(const fer_crimp_count *one, const fer_crimp_count *other,
                                    fer_crimp_count *sum);

/**
 * Conforming share out of counts, with its standard error.
 *
 * @formula \f$ s = \sqrt{p(1-p)/n} \f$; for Sobol's points, with more than nine blocks, from the scatter of the blocks'
 * shares, times \f$ t_{0.975,\,b-1}/1.96 \f$ for \f$b\f$ blocks. 1.96 standard errors hold the true share in 95 % of all
 * simulations.
 *
 * @param[in] count  @from fer_simulate_shares()
 * @param[out] shares  shares and standard error; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TALLY_EMPTY  no trials
 * @retval FER_TALLY_IMPOSSIBLE  not from a simulation: its parts are more than the whole, or a figure is not finite
 * @accuracy exact but for the standard error; its 95 % by 2000 simulations: tests/simulation/chance.txt
 * @source binomial distribution
 */
FER_API fer_status fer_find_simulated_shares(const fer_crimp_count *count, fer_simulated_shares *shares);

/**
 * Compression by simulation: a tally that can be merged.
 *
 * @param[in] joint  @as fer_simulate_shares()
 * @param[in] uncertainties  @as fer_simulate_shares()
 * @param[in] range  @as fer_simulate_shares()
 * @param[in] diameter  @as fer_simulate_shares()
 * @param[in] model  basis and flow @optional plain formula
 * @param[in] trials  seed, blocks, sequence, coverage @optional the first block of seed 0
 * @param[out] tally  empty on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_UNCERTAINTY_LEAVES_DOMAIN  a block without a single compression
 * @retval FER_UNCERTAINTY_EMPTY  and the other statuses of fer_simulate_shares()
 * @accuracy ends of the interval are interpolated in classes 1/32 of the standard uncertainty wide: 1/1000 of it
 * @source JCGM 101:2008, 7
 */
FER_API fer_status fer_simulate_compression(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                            fer_ratio_range range, fer_length diameter, fer_model model,
                                            fer_trials trials, fer_tally *tally);

/**
 * Two tallies of the same question together.
 *
 * @param[in] one  tally of some blocks, @from fer_simulate_compression()
 * @param[in] other  tally of other blocks, @from fer_simulate_compression()
 * @param[out] sum  both; empty on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TALLY_OF_ANOTHER_QUESTION  centre, scale, coverage or range differ
 * @accuracy exact
 * @source none needed
 */
FER_API fer_status fer_merge_tallies(const fer_tally *one, const fer_tally *other, fer_tally *sum);

/**
 * What a tally says: mean, standard uncertainty, coverage interval, and whether they have settled to a number of digits.
 *
 * @formula Each block gives the four figures; twice the standard error of each one's mean has to be below
 * \f$ \tfrac12 10^l \f$, where the standard uncertainty is \f$ c\,10^l \f$ with the digits asked for in \f$c\f$.
 *
 * @param[in] tally  @from fer_simulate_compression()
 * @param[in] digits  of the standard uncertainty that shall not change any more @range 1 to 6
 * @param[out] simulation  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TALLY_EMPTY  no trials
 * @retval FER_TALLY_IMPOSSIBLE  not from a simulation: its parts are more than the whole, or a figure is not finite
 * @retval FER_TALLY_DIGITS_OUT_OF_RANGE  not 1 to 6
 * @accuracy as fer_simulate_compression()
 * @source JCGM 101:2008, 7.9
 */
FER_API fer_status fer_summarise_tally(const fer_tally *tally, int digits, fer_simulation *simulation);

/**
 * Compression below which a share of all compressions of a tally lies.
 *
 * @param[in] tally  @from fer_simulate_compression()
 * @param[in] probability  the share @range above 0 to below 1
 * @param[out] quantile  compression; at most 8 standard uncertainties from the centre; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TALLY_EMPTY  no trials
 * @retval FER_TALLY_IMPOSSIBLE  not from a simulation: its parts are more than the whole, or a figure is not finite
 * @retval FER_TALLY_PROBABILITY_OUT_OF_RANGE  not between 0 and 1
 * @accuracy interpolated in classes 1/32 of the standard uncertainty wide
 * @source none needed
 */
FER_API fer_status fer_find_tally_quantile(const fer_tally *tally, fer_ratio probability,
                                           fer_ratio *quantile);

/**
 * Compression by simulation, block by block until it has settled.
 *
 * @param[in] joint  @as fer_simulate_compression()
 * @param[in] uncertainties  @as fer_simulate_compression()
 * @param[in] range  @as fer_simulate_compression()
 * @param[in] diameter  @as fer_simulate_compression()
 * @param[in] digits  @as fer_summarise_tally()
 * @param[in] model  basis and flow @optional plain formula
 * @param[in] trials  `blocks` is the maximum @optional 1000
 * @param[out] tally  all blocks made; empty on failure
 * @param[out] simulation  @as fer_summarise_tally(), `settled` says whether the blocks were enough; NaN on failure
 * @retval FER_OK  done, settled or not
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_TALLY_DIGITS_OUT_OF_RANGE  not 1 to 6
 * @retval FER_UNCERTAINTY_EMPTY  and the other statuses of fer_simulate_compression()
 * @accuracy as fer_simulate_compression()
 * @source JCGM 101:2008, 7.9.4; at least two blocks
 */
FER_API fer_status fer_simulate_to_digits(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                          fer_ratio_range range, fer_length diameter, int digits,
                                          fer_model model, fer_trials trials, fer_tally *tally,
                                          fer_simulation *simulation);

/**
 * The main job by simulation: each trial measures the joint again, works out the target, chooses the die, rounds the
 * dial, and crimps.
 *
 * The joint of the order is what the parts really are; the uncertainties of the order are the errors of measuring it, and for
 * the diameter the scatter of crimps about what the dial says. A trial's measurements give the target (where nothing is
 * published), the die and the dial setting; then the real joint is crimped with them.
 *
 * @param[in] order  @as fer_plan_setup(), with uncertainties
 * @param[in] press  @as fer_plan_setup()
 * @param[in] dies  the rack, in any order
 * @param[in] count  number of dies
 * @param[in] trials  seed, blocks, sequence, coverage @optional the first block of seed 0
 * @param[out] tally  compressions of the real joint by the order's model; a trial without die or dial setting counts as
 *             impossible; empty on failure
 * @param[out] uses  for each die how many trials chose it; then one number more: trials without die or dial setting
 * @param[in] capacity  number of elements in uses; count + 1 is needed
 * @param[out] found  count + 1; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  capacity below count + 1
 * @retval FER_UNCERTAINTY_LEAVES_DOMAIN  a block without a single compression
 * @retval FER_UNCERTAINTY_EMPTY  and the other statuses of fer_simulate_compression()
 * @retval FER_COMPRESSION_WITHOUT_TOUCH  and the other statuses of fer_plan_setup()
 * @accuracy as fer_simulate_compression()
 * @source as the functions that it calls
 */
FER_API fer_status fer_simulate_setups(const fer_order *order, const fer_press *press, const fer_die *dies,
                                       size_t count, fer_trials trials, fer_tally *tally, uint64_t *uses,
                                       size_t capacity, size_t *found);

#ifdef __cplusplus
}
#endif

#endif
