/* SPDX-License-Identifier: MIT */
/** @file
 * Module `rack`: which dies to own for the work to come, and what each of them is worth.
 *
 * A die *does* a demand where its size is not above the target minus margin, the target plus margin within its reach, its length
 * enough for the ferrule, and the lobe at the target plus margin within the demand's limit. Of the dies that do, the nearest to
 * the target is used, as fer_choose_die() chooses. Dies are bought once and owned dies stay: prices and weights are bare numbers,
 * in any currency and any count, the same in all of a call.
 *
 * The calls need working memory from their caller (#fer_work); other languages give #FER_WORK_USUAL by themselves.
 */
#ifndef FERRULE_RACK_H
#define FERRULE_RACK_H

#include <ferrule/die.h>
#include <ferrule/lobe.h>

/** Greatest number of dies, owned and on offer together. */
#define FER_RACK_DIES_MAXIMUM 512

/** Greatest number of demands. */
#define FER_RACK_DEMANDS_MAXIMUM 10000

/** Greatest number of adapter sets on offer. */
#define FER_RACK_ADAPTERS_MAXIMUM 6

/** Greatest rank of a rack. */
#define FER_RACK_RANK_MAXIMUM 16

/** A target that has to be crimped. */
typedef struct fer_demand {
    /** crimp diameter @label target @range 0.001 mm to 1,000,000 mm */
    fer_length target;
    /** pieces, or set-ups, in the time that is looked at @label weight @range 0 to 1000000000 @optional 1 */
    double weight;
    /** how far the target may still move either way @label margin @range 0 mm to 1,000,000 mm @optional not at all */
    fer_length margin;
    /** dies shorter than this do not do, dies of unknown length do @label ferrule length @range 0.001 mm to 1,000,000 mm
     * @optional any */
    fer_length ferrule_length;
    /** greatest lobe height allowed @label greatest lobe height @range 0.001 mm to 1,000,000 mm @optional any */
    fer_length lobe_maximum;
} fer_demand;

/** A die that can be bought. */
typedef struct fer_offer {
    fer_die die; /**< the die */
    double
        price; /**< what it costs @label price @range 0 to 1000000000 @optional 1, and then for every offer */
} fer_offer;

/** An adapter set that can be bought; those that no adapter offer names are owned. */
typedef struct fer_adapter_offer {
    int adapter;  /**< number of the adapter set @label adapter set @range 1 or more */
    double price; /**< what it costs @label price @range 0 to 1000000000 */
} fer_adapter_offer;

/** What is wanted of a rack; all zero: as much weight as possible, at any price. */
typedef struct fer_rack_aim {
    double
        price_maximum; /**< what may be spent @label price limit @range 0 to 1000000000000000 @optional no limit */
    /** how much of a demand's weight is lost with each millimetre of offset: weight × (1 − cost × offset) counts, and
     * nothing where that is below 0
     * @label cost of offset @range 0/mm to 1000/mm @optional reach alone counts */
    fer_per_length offset_cost;
    int segments; /**< of the dies, for lobe heights @label segments @range 3 to 64 @optional the usual 8 */
    /** 2: the second best rack, and so on; not for a curve, and not with adapter sets on offer
     * @label rank @range 1 to 16 @optional the best */
    int rank;
    /** after so many steps the search ends, with the racks that it found: fer_rack::searched says how far it came. A step
     * is a pair of price and value that is looked at; some ten million take a second @label steps
     * @range 1 to 1000000000000000 @optional to the end */
    double steps;
} fer_rack_aim;

/** A rack: all dies that are owned, and some of those on offer. */
typedef struct fer_rack {
    double price;      /**< of the dies and adapters bought */
    size_t bought;     /**< number of dies bought */
    fer_ratio reached; /**< weight of the demands that a die of the rack does, by all weight */
    fer_ratio value;   /**< the same with the cost of offset taken off */
    fer_ratio
        bound; /**< no rack of this price has a higher value; with a rank: no more than the better ranks have */
    fer_ratio searched; /**< how far the search came; 1: to the end */
    int optimal;        /**< value and bound agree: no rack is better @flag */
    int in_order; /**< for each demand the dies that do it are neighbours by size; always optimal then @flag */
    fer_length offset_mean;    /**< by weight, of what is reached; NaN where nothing is */
    fer_length offset_maximum; /**< of what is reached; NaN where nothing is */
    fer_length lobe_maximum;   /**< highest lobe of what is reached; NaN where nothing is */
    size_t left_out;           /**< demands that no die does, owned or on offer */
} fer_rack;

/** What a die that is owned is worth to the work. */
typedef struct fer_die_worth {
    size_t index;           /**< place of the die in the list */
    double serves;          /**< weight of the demands it is the nearest die for */
    double lost;            /**< weight that no other die does */
    fer_length offset_more; /**< mean growth of the offset where others take over; 0 where none does */
    size_t substitute;      /**< die that takes over most weight; the length of the list where none does */
} fer_die_worth;

/** What a die on offer would bring, bought alone. */
typedef struct fer_offer_worth {
    size_t index;    /**< place of the offer in the list */
    double gain;     /**< weight that no die owned does, and this one would */
    double serves;   /**< weight it would be the nearest die for */
    double by_price; /**< gain by price */
} fer_offer_worth;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * The curve of price against reach: for each price at which more can be reached, the best rack.
 *
 * In order of size, what a die \f$k\f$ adds behind a smaller die \f$j\f$ is \f$ G_{jk} = \sum_i \max(0, v_{ik} - v_{ij}) \f$,
 * with \f$ v_{ik} = w_i\max(0, 1 - \kappa(t_i - d_k)) \f$ where the die does the demand and 0 where it does not. Where the dies that do
 * a demand are neighbours by size (`in_order`), the value of a rack is the sum of these along it, and the best racks are found by
 * one pass that keeps, for each last die, the pairs of price and value that no other betters. Where they are not, the sum is a
 * bound, the rack is valued as it is, and `optimal` says whether both agree; where reach alone counts and neither lengths nor
 * lobes do, that is always so. Each set of adapters on offer is tried.
 *
 * @param[in] dies  dies that are owned, in any order; may be empty
 * @param[in] count  number of dies; with the offers at most 512
 * @param[in] demands  work to come, in any order
 * @param[in] demand_count  1 to 10,000
 * @param[in] offers  dies that can be bought, in any order; may be empty
 * @param[in] offer_count  number of offers
 * @param[in] adapters  adapter sets that can be bought; may be empty
 * @param[in] adapter_count  at most 6
 * @param[in] aim  price limit, cost of offset, segments @optional reach at any price
 * @param[in] work  working memory; what it holds before and after means nothing
 * @param[in] words  of it; #FER_WORK_USUAL is enough for 512 dies where all prices are alike and for 100 with several prices
 * @param[out] points  racks in rising order of price and value; the first is the one that is owned
 * @param[in] capacity  number of elements in points
 * @param[out] found  number of points written; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no demands
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more dies, demands or adapters than it takes
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  more points than capacity
 * @retval FER_ARGUMENT_WORK_TOO_SMALL  more words are needed
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  and the other statuses of fer_choose_die() that concern a die
 * @retval FER_TARGET_MISSING  a demand's target is not given
 * @retval FER_TARGET_OUT_OF_RANGE  a demand's target is not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DEMAND_WEIGHT_OUT_OF_RANGE  negative, above 1e9 or not a number
 * @retval FER_DEMAND_MARGIN_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_DEMAND_LOBE_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_LENGTH_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_OFFER_PRICE_OUT_OF_RANGE  negative, above 1e9 or not a number
 * @retval FER_OFFER_PRICE_MISSING  some offers have a price and some have none
 * @retval FER_DIE_ADAPTER_OUT_OF_RANGE  an adapter's number is below 1 on offer, or negative
 * @retval FER_ADAPTER_PRICE_OUT_OF_RANGE  negative, above 1e9 or not a number
 * @retval FER_RACK_PRICE_OUT_OF_RANGE  the price limit is negative, above 1e15 or not a number
 * @retval FER_RACK_OFFSET_COST_OUT_OF_RANGE  not 0 to 1000 per mm
 * @retval FER_RACK_RANK_OUT_OF_RANGE  neither 0 nor 1: a curve has the best racks
 * @retval FER_RACK_STEPS_OUT_OF_RANGE  negative, above 1e15 or not a number
 * @retval FER_SEGMENTS_OUT_OF_RANGE  not 3 to 64
 * @accuracy the racks are the best ones within 1e-9 of all weight: exact where weights are whole numbers and reach alone counts;
 *           against all sets of up to 9 dies and against linear programmes in tests/agree/python
 * @source longest paths over dies in order of size; derivation: manual, page Rack
 */
FER_API fer_status fer_find_rack_curve(const fer_die *dies, size_t count, const fer_demand *demands,
                                       size_t demand_count, const fer_offer *offers, size_t offer_count,
                                       const fer_adapter_offer *adapters, size_t adapter_count,
                                       fer_rack_aim aim, fer_work *work, size_t words, fer_rack *points,
                                       size_t capacity, size_t *found);

/**
 * The best rack within a price: which of the dies on offer to buy.
 *
 * It is the last point of fer_find_rack_curve(), with the dies that make it. Of racks of equal price and value the one with fewer
 * dies is taken. With a rank, it is the second best rack of that price limit, and so on up to the sixteenth: what a planner looks at
 * when the best cannot be delivered. Racks of other ranks are exact where the dies are in order, and have a bound where not.
 *
 * @param[in] dies  dies that are owned, in any order; may be empty
 * @param[in] count  number of dies; with the offers at most 512
 * @param[in] demands  work to come, in any order
 * @param[in] demand_count  1 to 10,000
 * @param[in] offers  dies that can be bought, in any order; may be empty
 * @param[in] offer_count  number of offers
 * @param[in] adapters  adapter sets that can be bought; may be empty
 * @param[in] adapter_count  at most 6
 * @param[in] aim  price limit, cost of offset, segments @optional reach at any price
 * @param[in] work  working memory; what it holds before and after means nothing
 * @param[in] words  of it, as for fer_find_rack_curve()
 * @param[out] purchases  places of the dies to buy in the list of offers, in rising order of size
 * @param[in] capacity  number of elements in purchases; offer_count is always enough
 * @param[out] found  number of purchases; 0 on failure
 * @param[out] rack  the rack that they make with those owned; empty on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  more purchases than capacity
 * @retval FER_ARGUMENT_WORK_TOO_SMALL  and the other statuses of fer_find_rack_curve()
 * @retval FER_RACK_RANK_OUT_OF_RANGE  not 0 to 16, or above 1 with adapter sets on offer
 * @retval FER_RACK_RANK_ABOVE_ALL  there are fewer racks within the price limit
 * @accuracy as fer_find_rack_curve()
 * @source as fer_find_rack_curve()
 */
FER_API fer_status fer_choose_rack(const fer_die *dies, size_t count, const fer_demand *demands,
                                   size_t demand_count, const fer_offer *offers, size_t offer_count,
                                   const fer_adapter_offer *adapters, size_t adapter_count, fer_rack_aim aim,
                                   fer_work *work, size_t words, size_t *purchases, size_t capacity,
                                   size_t *found, fer_rack *rack);

/**
 * Why fewer dies will not do: prices of the demands, which together are the minimum that reaching all of them costs.
 *
 * No die does demands whose prices add up to more than its own, so any rack that reaches all costs at least their sum. Demands in
 * the order of the largest die that does them (then of the smallest) take what is left of the price of the cheapest of their dies.
 * Where the dies are in order (fer_rack::in_order) the sum equals the minimum cost; otherwise it is a bound. With prices of 1 the
 * demands with a price are the witness: no die does two of them. Adapters count as owned.
 *
 * @param[in] dies  dies that are owned, in any order; may be empty
 * @param[in] count  number of dies; with the offers at most 512
 * @param[in] demands  work to come, in any order
 * @param[in] demand_count  1 to 10,000
 * @param[in] offers  dies that can be bought, in any order; may be empty
 * @param[in] offer_count  number of offers
 * @param[in] segments  of the dies, for lobe heights @range 3 to 64
 * @param[in] work  working memory; what it holds before and after means nothing
 * @param[in] words  of it, as for fer_find_rack_curve()
 * @param[out] prices  price of each demand, in the order of the demands; 0 where a die owned does it, or where none does
 * @param[in] capacity  number of elements in prices; demand_count is always enough
 * @param[out] found  number of prices written; 0 on failure
 * @param[out] minimum  sum of the prices; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  fewer elements than demands
 * @retval FER_ARGUMENT_WORK_TOO_SMALL  and the other statuses of fer_find_rack_curve() but those of adapters and aim
 * @accuracy 1e-12 of the sum; the bound against brute force in tests/agree/python
 * @source duality of linear programmes; equal for totally balanced matrices: Hoffman, Kolen, Sakarovitch, SIAM J. Alg. Disc.
 *         Meth. 6 (1985) (from memory)
 */
FER_API fer_status fer_find_demand_prices(const fer_die *dies, size_t count, const fer_demand *demands,
                                          size_t demand_count, const fer_offer *offers, size_t offer_count,
                                          int segments, fer_work *work, size_t words, double *prices,
                                          size_t capacity, size_t *found, double *minimum);

/**
 * What each die is worth: taken away by itself, what would be lost and who would take over.
 *
 * The most missed comes first: by weight lost, then by offset gained times weight taken over, then by weight served; dies that
 * serve nothing come last and can be sold. Worths are those of one die: two dies that stand in for each other both lose nothing.
 *
 * @param[in] dies  dies that are owned, in any order; may be empty
 * @param[in] count  number of dies, at most 512
 * @param[in] demands  work to come, in any order
 * @param[in] demand_count  1 to 10,000
 * @param[in] segments  of the dies, for lobe heights @range 3 to 64
 * @param[in] work  working memory; what it holds before and after means nothing
 * @param[in] words  of it, as for fer_find_rack_curve()
 * @param[out] worths  a row for each die
 * @param[in] capacity  number of elements in worths; count is always enough
 * @param[out] found  number of rows written; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  fewer elements than dies
 * @retval FER_ARGUMENT_WORK_TOO_SMALL  and the other statuses of fer_find_rack_curve() but those of offers, adapters and aim
 * @accuracy sums within 1e-12; the order is exact where they are
 * @source definition
 */
FER_API fer_status fer_rank_dies(const fer_die *dies, size_t count, const fer_demand *demands,
                                 size_t demand_count, int segments, fer_work *work, size_t words,
                                 fer_die_worth *worths, size_t capacity, size_t *found);

/**
 * What each die on offer would bring, bought alone: the best to buy next, if only one is bought.
 *
 * By gain per price, then by weight served per price. Buying so again and again can fall behind the best rack of the same price:
 * fer_choose_rack() has that.
 *
 * @param[in] dies  dies that are owned, in any order; may be empty
 * @param[in] count  number of dies; with the offers at most 512
 * @param[in] demands  work to come, in any order
 * @param[in] demand_count  1 to 10,000
 * @param[in] offers  dies that can be bought, in any order; may be empty
 * @param[in] offer_count  number of offers
 * @param[in] segments  of the dies, for lobe heights @range 3 to 64
 * @param[in] work  working memory; what it holds before and after means nothing
 * @param[in] words  of it, as for fer_find_rack_curve()
 * @param[out] worths  a row for each offer
 * @param[in] capacity  number of elements in worths; offer_count is always enough
 * @param[out] found  number of rows written; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  fewer elements than offers
 * @retval FER_ARGUMENT_WORK_TOO_SMALL  and the other statuses of fer_find_rack_curve() but those of adapters and aim
 * @accuracy sums within 1e-12; the order is exact where they are
 * @source definition
 */
FER_API fer_status fer_rank_offers(const fer_die *dies, size_t count, const fer_demand *demands,
                                   size_t demand_count, const fer_offer *offers, size_t offer_count,
                                   int segments, fer_work *work, size_t words, fer_offer_worth *worths,
                                   size_t capacity, size_t *found);

#ifdef __cplusplus
}
#endif

#endif
