/* SPDX-License-Identifier: MIT */
#include "check.h"

enum { words = 200000 };
static fer_work work[words];
static const fer_rack_aim any_price = {0};

static fer_die die_of(double size, double reach)
{
    const fer_die die = {{size}, {reach}, 0, {0.0}};
    return die;
}

static fer_demand demand_of(double target, double weight)
{
    const fer_demand demand = {{target}, weight, {0.0}, {0.0}, {0.0}};
    return demand;
}

static fer_offer offer_of(double size, double reach, double price)
{
    const fer_offer offer = {die_of(size, reach), price};
    return offer;
}

/* The depot's rack and a year's targets with weights: invented data. */
static const double sizes[12] = {8, 10, 13, 16, 19, 22, 25, 28, 31, 36, 41, 46}, reaches[12] = {3, 3, 4, 5};
static const double targets[7] = {23.51, 27.30, 15.32, 29.60, 48.5608, 55.92, 23.495},
                    weights[7] = {6, 4, 10, 2, 2, 1, 4};

static void fill_depot(fer_die dies[12], fer_demand demands[7])
{
    for (size_t i = 0; i < 12; i++) {
        dies[i] = die_of(sizes[i], reaches[i]);
    }
    for (size_t i = 0; i < 7; i++) {
        demands[i] = demand_of(targets[i], weights[i]);
    }
}

static void the_rack_that_is_owned_is_the_first_point(void **state)
{
    (void)state;
    fer_die dies[12];
    fer_demand demands[7];
    fer_rack rack;
    size_t found;
    fill_depot(dies, demands);
    CHECK_OK(fer_find_rack_curve(dies, 12, demands, 7, NULL, 0, NULL, 0, any_price, work, words, &rack, 1,
                                 &found));
    assert_int_equal(found, 1);
    /* by hand: 55.92 alone has no die; 28 of 29 pieces; (6 1.51 + 4 2.3 + 10 2.32 + 2 1.6 + 2 2.5608 + 4 1.495)/28 */
    CHECK_NEAR(rack.price, 0.0, 0.0);
    assert_int_equal(rack.bought, 0);
    CHECK_NEAR(rack.reached.fraction, 28.0 / 29.0, 1e-15);
    CHECK_NEAR(rack.value.fraction, 28.0 / 29.0, 1e-15);
    CHECK_NEAR(rack.bound.fraction, 28.0 / 29.0, 1e-15);
    CHECK_NEAR(rack.offset_mean.mm, 55.7616 / 28.0, 1e-13);
    CHECK_NEAR(rack.offset_maximum.mm, 2.5608, 1e-13);
    CHECK_NEAR(rack.lobe_maximum.mm, 0.0925012,
               5e-8); /* 48.5608 on 46, by the formula of fer_lobe_height() in another program */
    assert_int_equal(rack.left_out, 1);
    assert_true(rack.optimal && rack.in_order);
}

static void the_curve_reaches_more_for_more(void **state)
{
    (void)state;
    fer_die dies[12];
    fer_demand demands[7];
    fer_offer offers[12];
    fer_rack points[8];
    size_t found;
    fill_depot(dies, demands);
    for (size_t i = 0; i < 12; i++) {
        offers[i] = offer_of(sizes[i], reaches[i], 0.0);
    }
    CHECK_OK(fer_find_rack_curve(NULL, 0, demands, 7, offers, 12, NULL, 0, any_price, work, words, points, 8,
                                 &found));
    assert_int_equal(found, 5);
    const double reached[5] = {
        0, 14, 24, 26, 28}; /* the best of all sets of 1, 2, 3 and 4 dies, counted in another program */
    for (size_t i = 0; i < 5; i++) {
        CHECK_NEAR(points[i].price, (double)i, 0.0);
        assert_int_equal(points[i].bought, i);
        CHECK_NEAR(points[i].reached.fraction, reached[i] / 29.0, 1e-15);
        assert_true(points[i].optimal);
    }
    CHECK_NAN(points[0].offset_mean.mm);
    CHECK_NAN(points[0].offset_maximum.mm);
    CHECK_NAN(points[0].lobe_maximum.mm);
    CHECK_STATUS(fer_find_rack_curve(NULL, 0, demands, 7, offers, 12, NULL, 0, any_price, work, words, points,
                                     4, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
}

static void four_targets_need_four_dies(void **state)
{
    (void)state;
    fer_die dies[12];
    fer_demand demands[7];
    fer_offer offers[12];
    double prices[7], minimum;
    size_t found;
    fill_depot(dies, demands);
    for (size_t i = 0; i < 12; i++) {
        offers[i] = offer_of(sizes[i], reaches[i], 0.0);
    }
    CHECK_OK(
        fer_find_demand_prices(NULL, 0, demands, 7, offers, 12, 8, work, words, prices, 7, &found, &minimum));
    assert_int_equal(found, 7);
    CHECK_NEAR(minimum, 4.0, 0.0);
    /* no die does two of 15.32, 23.5, 29.60, 48.5608; of 23.51 and 23.495, which the same dies do, one has the price; by hand */
    CHECK_NEAR(prices[2], 1.0, 0.0);
    CHECK_NEAR(prices[0] + prices[6], 1.0, 0.0);
    CHECK_NEAR(prices[3], 1.0, 0.0);
    CHECK_NEAR(prices[4], 1.0, 0.0);
    CHECK_NEAR(prices[1], 0.0, 0.0);
    CHECK_NEAR(prices[5], 0.0, 0.0); /* no die does it */
    CHECK_OK(fer_find_demand_prices(dies, 12, demands, 7, offers, 12, 8, work, words, prices, 7, &found,
                                    &minimum));
    CHECK_NEAR(minimum, 0.0, 0.0);
    CHECK_STATUS(
        fer_find_demand_prices(NULL, 0, demands, 7, offers, 12, 8, work, words, prices, 6, &found, &minimum),
        FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
    CHECK_NAN(minimum);
}

static void greatest_size_plus_reach_reaches_both(void **state)
{
    (void)state;
    const fer_demand demands[] = {demand_of(20, 0), demand_of(25, 0)};
    const fer_offer offers[] = {offer_of(18, 5, 0), offer_of(17, 8, 0)};
    size_t purchases[2], found;
    double prices[2], minimum;
    fer_rack rack;
    CHECK_OK(fer_choose_rack(NULL, 0, demands, 2, offers, 2, NULL, 0, any_price, work, words, purchases, 2,
                             &found, &rack));
    assert_int_equal(found, 1); /* by hand: 17 + 8 reaches 25 */
    assert_int_equal(purchases[0], 1);
    CHECK_NEAR(rack.reached.fraction, 1.0, 0.0);
    CHECK_OK(
        fer_find_demand_prices(NULL, 0, demands, 2, offers, 2, 8, work, words, prices, 2, &found, &minimum));
    CHECK_NEAR(prices[0], 1.0 - prices[1], 0.0);
    CHECK_NEAR(minimum, 1.0, 0.0);
    CHECK_STATUS(fer_choose_rack(NULL, 0, demands, 2, offers, 2, NULL, 0, any_price, work, words, purchases,
                                 0, &found, &rack),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
    CHECK_NEAR(rack.price, 0.0, 0.0);
    CHECK_NEAR(rack.reached.fraction, 0.0, 0.0);
}

static void money_is_spent_where_it_reaches_most(void **state)
{
    (void)state;
    /* 20 and 40 by two dies of 3 each, or 20, 24 and 40 by one more of 5; by hand */
    const fer_demand demands[] = {demand_of(20, 5), demand_of(24, 1), demand_of(40, 4)};
    const fer_offer offers[] = {offer_of(19, 2, 3), offer_of(38, 7, 3), offer_of(18, 7, 5)};
    const double expected[][2] = {{0, 0}, {3, 5}, {5, 6}, {6, 9}, {8, 10}};
    fer_rack points[8], rack;
    size_t found, purchases[3];
    fer_rack_aim aim = {0};
    CHECK_OK(
        fer_find_rack_curve(NULL, 0, demands, 3, offers, 3, NULL, 0, aim, work, words, points, 8, &found));
    assert_int_equal(found, 5);
    for (size_t i = 0; i < found; i++) {
        CHECK_NEAR(points[i].price, expected[i][0], 0.0);
        CHECK_NEAR(points[i].reached.fraction, expected[i][1] / 10.0, 1e-15);
    }
    aim.price_maximum = 7.5;
    CHECK_OK(fer_choose_rack(NULL, 0, demands, 3, offers, 3, NULL, 0, aim, work, words, purchases, 3, &found,
                             &rack));
    assert_int_equal(found, 2);
    assert_int_equal(purchases[0], 0);
    assert_int_equal(purchases[1], 1);
    CHECK_NEAR(rack.price, 6.0, 0.0);
}

static void a_limit_that_is_a_sum_is_not_missed_by_rounding(void **state)
{
    (void)state;
    const fer_demand demands[] = {demand_of(10, 1), demand_of(20, 1), demand_of(30, 1)};
    const fer_offer offers[] = {offer_of(9, 2, 0.1), offer_of(19, 2, 0.1), offer_of(29, 2, 0.1)};
    size_t purchases[3], found;
    fer_rack rack;
    fer_rack_aim aim = {0};
    aim.price_maximum = 0.3; /* 0.1 + 0.1 + 0.1 is above it in doubles */
    CHECK_OK(fer_choose_rack(NULL, 0, demands, 3, offers, 3, NULL, 0, aim, work, words, purchases, 3, &found,
                             &rack));
    assert_int_equal(found, 3);
}

static void offset_costs(void **state)
{
    (void)state;
    const fer_demand demands[] = {demand_of(24, 2)};
    const fer_die owned[] = {die_of(18, 7)};
    const fer_offer offers[] = {offer_of(23, 2, 0)};
    fer_rack points[2];
    size_t found;
    fer_rack_aim aim = {0};
    aim.offset_cost.per_mm = 0.125;
    CHECK_OK(
        fer_find_rack_curve(owned, 1, demands, 1, offers, 1, NULL, 0, aim, work, words, points, 2, &found));
    assert_int_equal(found, 2);
    CHECK_NEAR(points[0].value.fraction, 0.25, 1e-15); /* 1 - 0.125 6 */
    CHECK_NEAR(points[1].value.fraction, 0.875, 1e-15);
    CHECK_NEAR(points[0].reached.fraction, 1.0, 0.0);
    aim.offset_cost.per_mm = 0.0;
    CHECK_OK(
        fer_find_rack_curve(owned, 1, demands, 1, offers, 1, NULL, 0, aim, work, words, points, 2, &found));
    assert_int_equal(found, 1);
    aim.offset_cost.per_mm = 0.25; /* 1 - 0.25 6 is below 0 and counts as nothing; 1 - 0.25 */
    CHECK_OK(
        fer_find_rack_curve(owned, 1, demands, 1, offers, 1, NULL, 0, aim, work, words, points, 2, &found));
    CHECK_NEAR(points[0].value.fraction, 0.0, 0.0);
    CHECK_NEAR(points[1].value.fraction, 0.75, 1e-15);
}

static void a_die_has_to_do_what_is_asked(void **state)
{
    (void)state;
    const fer_die dies[] = {{{20.0}, {5.0}, 0, {30.0}}};
    fer_demand demand = demand_of(22.0, 1);
    fer_rack rack;
    size_t found;
    const struct {
        double target, margin, length, lobe;
        int does;
    } cases[] = {{20.0, 0, 0, 0, 1},
                 {19.999, 0, 0, 0, 0},
                 {25.0, 0, 0, 0, 1},
                 {25.001, 0, 0, 0, 0},
                 {22.0, 2.0, 0, 0, 1},
                 {22.0, 2.001, 0, 0, 0},
                 {23.0, 2.001, 0, 0, 0},
                 {22.0, 0, 30.0, 0, 1},
                 {22.0, 0, 30.1, 0, 0},
                 /* the lobe of 22 on 20 by its formula in another program: 0.06942 mm */
                 {22.0, 0, 0, 0.0695, 1},
                 {22.0, 0, 0, 0.0694, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        demand.target.mm = cases[i].target;
        demand.margin.mm = cases[i].margin;
        demand.ferrule_length.mm = cases[i].length;
        demand.lobe_maximum.mm = cases[i].lobe;
        CHECK_OK(fer_find_rack_curve(dies, 1, &demand, 1, NULL, 0, NULL, 0, any_price, work, words, &rack, 1,
                                     &found));
        CHECK_NEAR(rack.reached.fraction, (double)cases[i].does, 0.0);
    }
}

static void adapters_are_bought_where_they_pay(void **state)
{
    (void)state;
    const fer_demand demands[] = {demand_of(10, 3), demand_of(30, 1)};
    const fer_die owned[] = {{{9.0}, {3.0}, 2, {0.0}}}; /* needs adapter 2, which is on offer */
    fer_offer offers[] = {offer_of(29, 3, 4)};
    const fer_adapter_offer adapters[] = {{2, 3.0}, {1, 1.0}};
    fer_rack points[4];
    size_t found;
    const double expected[][2] = {
        {0, 0}, {3, 3}, {7, 4}}; /* by hand: 4 for the die alone reaches 1 of 4, and 3 reach more */
    CHECK_OK(fer_find_rack_curve(owned, 1, demands, 2, offers, 1, adapters, 2, any_price, work, words, points,
                                 4, &found));
    assert_int_equal(found, 3);
    for (size_t i = 0; i < found; i++) {
        CHECK_NEAR(points[i].price, expected[i][0], 0.0);
        CHECK_NEAR(points[i].reached.fraction, expected[i][1] / 4.0, 1e-15);
    }
    offers[0].die.adapter = 1;
    CHECK_OK(fer_find_rack_curve(owned, 1, demands, 2, offers, 1, adapters, 2, any_price, work, words, points,
                                 4, &found));
    CHECK_NEAR(points[found - 1].price, 8.0, 0.0);
    /* a price limit below that of every adapter */
    const fer_rack_aim aim = {.price_maximum = 0.5};
    CHECK_OK(fer_find_rack_curve(owned, 1, demands, 2, offers, 1, adapters, 2, aim, work, words, points, 4,
                                 &found));
    assert_int_equal(found, 1);
}

static void a_rack_out_of_order_has_a_bound(void **state)
{
    (void)state;
    /* The long dies of 20 and 24 do the long ferrule at 25, the short one of 22 between them does not: the sum counts it twice. */
    const fer_demand demands[] = {{{25.0}, 10, {0.0}, {50.0}, {0.0}}, demand_of(23, 1), demand_of(21, 1)};
    const fer_offer offers[] = {{{{20.0}, {7.0}, 0, {60.0}}, 1.0},
                                {{{22.0}, {7.0}, 0, {30.0}}, 1.0},
                                {{{24.0}, {7.0}, 0, {60.0}}, 1.0}};
    fer_rack points[4];
    size_t found;
    const fer_rack_aim aim = {.offset_cost = {0.02}};
    CHECK_OK(
        fer_find_rack_curve(NULL, 0, demands, 3, offers, 3, NULL, 0, aim, work, words, points, 4, &found));
    assert_false(points[0].in_order);
    assert_true(found >= 3);
    for (size_t i = 0; i < found; i++) {
        assert_true(points[i].bound.fraction >= points[i].value.fraction);
    }
    /* by hand: all three: (10 + 1 + 1) (1 - 0.02) of 12; the sum has the 25 twice: 9 + 0.94 + 0.98, + 0.04, + 9.8 */
    CHECK_NEAR(points[found - 1].value.fraction, 0.98, 1e-14);
    CHECK_NEAR(points[found - 1].bound.fraction, 20.76 / 12.0, 1e-14);
    assert_false(points[found - 1].optimal);
    /* without the third demand all three dies reach no more than 22 and 24 do, whatever their sum says */
    CHECK_OK(
        fer_find_rack_curve(NULL, 0, demands, 2, offers, 3, NULL, 0, aim, work, words, points, 4, &found));
    assert_int_equal(found, 3);
    CHECK_NEAR(points[2].value.fraction, 0.98, 1e-14);
    assert_true(points[2].optimal);
}

static void a_die_within_anothers_reach_hides_nothing(void **state)
{
    (void)state;
    /* 19 lies within the reach of 18. The sum along 18, 19, 23 has the target of 24 twice, which would hide 18, 23, 40; by hand */
    const fer_demand demands[] = {demand_of(20, 1), demand_of(24, 10), demand_of(27, 1), demand_of(41, 1)};
    const fer_offer offers[] = {offer_of(18, 7, 0), offer_of(19, 2, 0), offer_of(23, 5, 0),
                                offer_of(40, 5, 0)};
    const double reached[] = {0, 11, 12, 13};
    fer_rack points[5];
    size_t found;
    CHECK_OK(fer_find_rack_curve(NULL, 0, demands, 4, offers, 4, NULL, 0, any_price, work, words, points, 5,
                                 &found));
    assert_int_equal(found, 4);
    for (size_t i = 0; i < found; i++) {
        CHECK_NEAR(points[i].price, (double)i, 0.0);
        CHECK_NEAR(points[i].reached.fraction, reached[i] / 13.0, 1e-15);
        assert_true(points[i].optimal);
    }
    assert_false(points[0].in_order);
}

static void the_die_most_missed_comes_first(void **state)
{
    (void)state;
    fer_die dies[12];
    fer_demand demands[7];
    fer_die_worth worths[12];
    size_t found;
    fill_depot(dies, demands);
    CHECK_OK(fer_rank_dies(dies, 12, demands, 7, 8, work, words, worths, 12, &found));
    assert_int_equal(found, 12);
    /* by hand: 13 loses 10, 46 loses 2; without 22 the die of 19 takes 10 pieces over, 3 mm more offset each */
    assert_int_equal(worths[0].index, 2);
    CHECK_NEAR(worths[0].lost, 10.0, 0.0);
    assert_int_equal(worths[0].substitute, 12);
    assert_int_equal(worths[1].index, 11);
    CHECK_NEAR(worths[1].lost, 2.0, 0.0);
    assert_int_equal(worths[2].index, 5);
    CHECK_NEAR(worths[2].serves, 10.0, 0.0);
    CHECK_NEAR(worths[2].lost, 0.0, 0.0);
    CHECK_NEAR(worths[2].offset_more.mm, 3.0, 1e-13);
    assert_int_equal(worths[2].substitute, 4);
    assert_int_equal(worths[11].index, 10);
    CHECK_NEAR(worths[11].serves, 0.0, 0.0);
    CHECK_STATUS(fer_rank_dies(dies, 12, demands, 7, 8, work, words, worths, 11, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
}

static void of_dies_that_stand_in_for_each_other_the_busier_comes_first(void **state)
{
    (void)state;
    const fer_die dies[] = {die_of(20, 5), die_of(20, 5), die_of(30, 5), die_of(30, 5)};
    const fer_demand demands[] = {demand_of(22, 2), demand_of(32, 5)};
    fer_die_worth worths[4];
    size_t found;
    CHECK_OK(fer_rank_dies(dies, 4, demands, 2, 8, work, words, worths, 4, &found));
    CHECK_NEAR(worths[0].serves, 5.0, 0.0);
    CHECK_NEAR(worths[1].serves, 2.0, 0.0);
    CHECK_NEAR(worths[0].offset_more.mm, 0.0, 0.0);
    CHECK_NEAR(worths[0].lost + worths[1].lost + worths[2].serves + worths[3].serves, 0.0, 0.0);
    assert_true(worths[2].index < worths[3].index);
}

static void demands_with_fewer_dies_take_their_price_first(void **state)
{
    (void)state;
    /* 24 has both dies and 27 the larger alone; 21 has the smaller alone. In order 21, then 27 or 24: by hand 3 + 5 */
    const fer_demand demands[] = {demand_of(27, 1), demand_of(24, 1), demand_of(21, 1)};
    const fer_offer offers[] = {offer_of(23, 5, 5), offer_of(20, 5, 3)};
    double prices[3], minimum;
    size_t found;
    CHECK_OK(
        fer_find_demand_prices(NULL, 0, demands, 3, offers, 2, 8, work, words, prices, 3, &found, &minimum));
    CHECK_NEAR(minimum, 8.0, 0.0);
    CHECK_NEAR(prices[2], 3.0, 0.0);
    CHECK_NEAR(prices[1], 0.0, 0.0);
    CHECK_NEAR(prices[0], 5.0, 0.0);
}

static void the_offer_to_buy_next_comes_first(void **state)
{
    (void)state;
    const fer_die owned[] = {die_of(19, 5)};
    const fer_demand demands[] = {demand_of(22, 4), demand_of(30, 6), demand_of(40, 5)};
    const fer_offer offers[] = {offer_of(21, 2, 1), offer_of(39, 3, 2), offer_of(29, 3, 3),
                                offer_of(18, 5, 1), offer_of(50, 5, 1), offer_of(28, 3, 3)};
    fer_offer_worth worths[6];
    size_t found;
    CHECK_OK(fer_rank_offers(owned, 1, demands, 3, offers, 6, 8, work, words, worths, 6, &found));
    assert_int_equal(found, 6);
    const size_t order[6] = {1, 2, 5,
                             0, 3, 4}; /* by hand: 5/2, 6/3, 6/3; then nothing gained: 4 served, none, none */
    for (size_t i = 0; i < 6; i++) {
        assert_int_equal(worths[i].index, order[i]);
    }
    CHECK_NEAR(worths[0].gain, 5.0, 0.0);
    CHECK_NEAR(worths[0].by_price, 2.5, 0.0);
    CHECK_NEAR(worths[3].gain, 0.0, 0.0);
    CHECK_NEAR(worths[3].serves, 4.0, 0.0);
    CHECK_NEAR(worths[4].serves, 0.0, 0.0);
    CHECK_STATUS(fer_rank_offers(owned, 1, demands, 3, offers, 6, 8, work, words, worths, 5, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
}

static void bad_input_has_its_status(void **state)
{
    (void)state;
    static fer_die many[FER_RACK_DIES_MAXIMUM + 1];
    static fer_demand demands[FER_RACK_DEMANDS_MAXIMUM + 1];
    const fer_die dies[] = {die_of(20, 0)};
    const fer_adapter_offer no_adapters[FER_RACK_ADAPTERS_MAXIMUM + 1] = {{0, 0.0}};
    fer_rack points[4];
    size_t found;
    for (size_t i = 0; i < FER_RACK_DIES_MAXIMUM + 1; i++) {
        many[i] = die_of(20, 0);
    }
    for (size_t i = 0; i < FER_RACK_DEMANDS_MAXIMUM + 1; i++) {
        demands[i] = demand_of(22, 0);
    }
#define CURVE(d, n, m, k, o, l, a, b, aim, w, s)                                                             \
    fer_find_rack_curve(d, n, m, k, o, l, a, b, aim, w, s, points, 4, &found)
    CHECK_STATUS(CURVE(NULL, 1, demands, 1, NULL, 0, NULL, 0, any_price, work, words), FER_ARGUMENT_MISSING);
    CHECK_STATUS(CURVE(dies, 1, NULL, 1, NULL, 0, NULL, 0, any_price, work, words), FER_ARGUMENT_MISSING);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, NULL, 1, NULL, 0, any_price, work, words), FER_ARGUMENT_MISSING);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, NULL, 0, NULL, 1, any_price, work, words), FER_ARGUMENT_MISSING);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, NULL, 0, NULL, 0, any_price, NULL, words), FER_ARGUMENT_MISSING);
    CHECK_STATUS(CURVE(dies, 1, demands, 0, NULL, 0, NULL, 0, any_price, work, words),
                 FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(CURVE(many, FER_RACK_DIES_MAXIMUM + 1, demands, 1, NULL, 0, NULL, 0, any_price, work, words),
                 FER_ARGUMENT_COUNT_TOO_LARGE);
    /* Refused before a die is read: there are not as many as the count says. */
    CHECK_STATUS(CURVE(dies, SIZE_MAX, demands, 1, NULL, 0, NULL, 0, any_price, work, words),
                 FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(
        CURVE(dies, 1, demands, FER_RACK_DEMANDS_MAXIMUM + 1, NULL, 0, NULL, 0, any_price, work, words),
        FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, NULL, 0, no_adapters, FER_RACK_ADAPTERS_MAXIMUM + 1, any_price,
                       work, words),
                 FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, NULL, 0, no_adapters, 1, any_price, work, words),
                 FER_DIE_ADAPTER_OUT_OF_RANGE);
    CHECK_STATUS(
        fer_find_rack_curve(dies, 1, demands, 1, NULL, 0, NULL, 0, any_price, work, words, NULL, 4, &found),
        FER_ARGUMENT_MISSING);
    CHECK_STATUS(
        fer_find_rack_curve(dies, 1, demands, 1, NULL, 0, NULL, 0, any_price, work, words, points, 4, NULL),
        FER_ARGUMENT_MISSING);
    CHECK_STATUS(CURVE(NULL, 0, NULL, 0, NULL, 0, NULL, 0, any_price, NULL, 0), FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, NULL, 0, NULL, 0, any_price, NULL, 0),
                 FER_ARGUMENT_WORK_TOO_SMALL);
    CHECK_STATUS(CURVE(NULL, 0, demands, 1, NULL, 0, NULL, 0, any_price, work, 1),
                 FER_ARGUMENT_WORK_TOO_SMALL);
    CHECK_STATUS(CURVE(NULL, 0, demands, 1, NULL, 0, NULL, 0, any_price, NULL, 0),
                 FER_ARGUMENT_WORK_TOO_SMALL);
    CHECK_STATUS(
        fer_find_rack_curve(dies, 1, demands, 1, NULL, 0, NULL, 0, any_price, work, words, NULL, 0, &found),
        FER_ARGUMENT_CAPACITY_TOO_SMALL);
    const fer_adapter_offer dear[] = {{1, 2e9}}, paid_for[] = {{1, -1.0}};
    CHECK_STATUS(CURVE(dies, 1, demands, 1, NULL, 0, paid_for, 1, any_price, work, words),
                 FER_ADAPTER_PRICE_OUT_OF_RANGE);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, NULL, 0, dear, 1, any_price, work, words),
                 FER_ADAPTER_PRICE_OUT_OF_RANGE);
    const struct {
        fer_demand demand;
        fer_status status;
    } rows[] = {{{{0.0}, 0, {0}, {0}, {0}}, FER_TARGET_MISSING},
                {{{-1.0}, 0, {0}, {0}, {0}}, FER_TARGET_OUT_OF_RANGE},
                {{{22.0}, -1.0, {0}, {0}, {0}}, FER_DEMAND_WEIGHT_OUT_OF_RANGE},
                {{{22.0}, 2e9, {0}, {0}, {0}}, FER_DEMAND_WEIGHT_OUT_OF_RANGE},
                {{{22.0}, NAN, {0}, {0}, {0}}, FER_DEMAND_WEIGHT_OUT_OF_RANGE},
                {{{22.0}, 0, {-1.0}, {0}, {0}}, FER_DEMAND_MARGIN_OUT_OF_RANGE},
                {{{22.0}, 0, {2e6}, {0}, {0}}, FER_DEMAND_MARGIN_OUT_OF_RANGE},
                {{{22.0}, 0, {0}, {-1.0}, {0}}, FER_FERRULE_LENGTH_OUT_OF_RANGE},
                {{{22.0}, 0, {0}, {0}, {-1.0}}, FER_DEMAND_LOBE_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        CHECK_STATUS(CURVE(dies, 1, &rows[i].demand, 1, NULL, 0, NULL, 0, any_price, work, words),
                     rows[i].status);
    }
    const fer_offer half[] = {offer_of(20, 0, 3), offer_of(21, 0, 0)}, wrong[] = {offer_of(20, 0, -1)},
                    dearest[] = {offer_of(20, 0, 2e9)}, no_die[] = {offer_of(0, 0, 0)};
    CHECK_STATUS(CURVE(dies, 1, demands, 1, half, 2, NULL, 0, any_price, work, words),
                 FER_OFFER_PRICE_MISSING);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, wrong, 1, NULL, 0, any_price, work, words),
                 FER_OFFER_PRICE_OUT_OF_RANGE);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, dearest, 1, NULL, 0, any_price, work, words),
                 FER_OFFER_PRICE_OUT_OF_RANGE);
    CHECK_STATUS(CURVE(dies, 1, demands, 1, no_die, 1, NULL, 0, any_price, work, words),
                 FER_DIE_SIZE_MISSING);
    CHECK_STATUS(CURVE(many, FER_RACK_DIES_MAXIMUM, demands, 1, half, 1, NULL, 0, any_price, work, words),
                 FER_ARGUMENT_COUNT_TOO_LARGE);
    const fer_rack_aim aims[] = {{.price_maximum = -1.0},
                                 {.price_maximum = 2e15},
                                 {.offset_cost = {-1.0}},
                                 {.offset_cost = {1001.0}},
                                 {.segments = 2},
                                 {.rank = -1},
                                 {.rank = FER_RACK_RANK_MAXIMUM + 1},
                                 {.steps = -1.0},
                                 {.steps = 2e15}};
    const fer_status statuses[] = {
        FER_RACK_PRICE_OUT_OF_RANGE,       FER_RACK_PRICE_OUT_OF_RANGE, FER_RACK_OFFSET_COST_OUT_OF_RANGE,
        FER_RACK_OFFSET_COST_OUT_OF_RANGE, FER_SEGMENTS_OUT_OF_RANGE,   FER_RACK_RANK_OUT_OF_RANGE,
        FER_RACK_RANK_OUT_OF_RANGE,        FER_RACK_STEPS_OUT_OF_RANGE, FER_RACK_STEPS_OUT_OF_RANGE};
    for (size_t i = 0; i < sizeof aims / sizeof aims[0]; i++) {
        size_t purchases[1];
        CHECK_STATUS(CURVE(dies, 1, demands, 1, NULL, 0, NULL, 0, aims[i], work, words), statuses[i]);
        CHECK_STATUS(fer_choose_rack(dies, 1, demands, 1, NULL, 0, NULL, 0, aims[i], work, words, purchases,
                                     1, &found, points),
                     statuses[i]);
    }
    CHECK_STATUS(
        fer_choose_rack(dies, 1, demands, 1, NULL, 0, NULL, 0, any_price, work, words, NULL, 0, &found, NULL),
        FER_ARGUMENT_MISSING);
    CHECK_STATUS(
        fer_choose_rack(dies, 1, demands, 1, NULL, 0, NULL, 0, any_price, work, words, NULL, 0, NULL, points),
        FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_rack(dies, 1, demands, 1, NULL, 0, NULL, 0, any_price, work, words, NULL, 1,
                                 &found, points),
                 FER_ARGUMENT_MISSING);
    double prices[1], minimum;
    fer_die_worth worths[1];
    fer_offer_worth offers[1];
    CHECK_STATUS(
        fer_find_demand_prices(dies, 1, demands, 1, NULL, 0, 8, work, words, NULL, 1, &found, &minimum),
        FER_ARGUMENT_MISSING);
    CHECK_STATUS(
        fer_find_demand_prices(dies, 1, demands, 1, NULL, 0, 8, work, words, prices, 1, NULL, &minimum),
        FER_ARGUMENT_MISSING);
    CHECK_STATUS(
        fer_find_demand_prices(dies, 1, demands, 1, NULL, 0, 8, work, words, prices, 1, &found, NULL),
        FER_ARGUMENT_MISSING);
    CHECK_STATUS(
        fer_find_demand_prices(dies, 1, demands, 1, NULL, 0, 2, work, words, prices, 1, &found, &minimum),
        FER_SEGMENTS_OUT_OF_RANGE);
    CHECK_STATUS(
        fer_find_demand_prices(dies, 1, demands, 1, NULL, 0, 8, work, words, NULL, 0, &found, &minimum),
        FER_ARGUMENT_CAPACITY_TOO_SMALL);
    CHECK_STATUS(fer_rank_dies(dies, 1, demands, 1, 8, work, words, NULL, 0, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    CHECK_OK(fer_rank_dies(NULL, 0, demands, 1, 8, work, words, NULL, 0, &found));
    CHECK_OK(fer_rank_offers(dies, 1, demands, 1, NULL, 0, 8, work, words, NULL, 0, &found));
    CHECK_OK(fer_choose_rack(dies, 1, demands, 1, NULL, 0, NULL, 0, any_price, work, words, NULL, 0, &found,
                             points));
    CHECK_STATUS(fer_rank_dies(dies, 1, demands, 1, 8, work, words, NULL, 1, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_rank_dies(dies, 1, demands, 1, 8, work, words, worths, 1, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_rank_dies(dies, 1, demands, 1, 65, work, words, worths, 1, &found),
                 FER_SEGMENTS_OUT_OF_RANGE);
    CHECK_STATUS(fer_rank_offers(dies, 1, demands, 1, half, 1, 8, work, words, NULL, 1, &found),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_rank_offers(dies, 1, demands, 1, half, 1, 8, work, words, offers, 1, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_rank_offers(dies, 1, demands, 1, half, 1, 2, work, words, offers, 1, &found),
                 FER_SEGMENTS_OUT_OF_RANGE);
}

static void the_second_best_rack_is_the_next_one(void **state)
{
    (void)state;
    /* By hand: 18 to 23 does 20 and 22 (weight 5), 17 to 25 all three (6), 24 to 31 only 25 (1). Of racks within a price of 2: 17 alone
     * (6, price 1), then 17 with another and 18 with 24 (6, price 2), 18 alone (5), 24 alone (1), none. */
    const fer_demand demands[] = {demand_of(20, 2), demand_of(22, 3), demand_of(25, 1)};
    const fer_offer offers[] = {offer_of(18, 5, 1), offer_of(17, 8, 1), offer_of(24, 7, 1)};
    const double reached[] = {6, 6, 6, 6, 5, 1, 0};
    size_t purchases[3], found;
    fer_rack rack;
    fer_rack_aim aim = {.price_maximum = 2.0};
    for (int rank = 1; rank <= 7; rank++) {
        aim.rank = rank;
        CHECK_OK(fer_choose_rack(NULL, 0, demands, 3, offers, 3, NULL, 0, aim, work, words, purchases, 3,
                                 &found, &rack));
        CHECK_NEAR(rack.reached.fraction, reached[rank - 1] / 6.0, 1e-15);
        assert_int_equal(found, rank == 7 ? 0 : rank == 1 || rank > 4 ? 1 : 2);
        assert_true(rack.optimal && rack.searched.fraction == 1.0);
    }
    aim.rank = 8;
    CHECK_STATUS(fer_choose_rack(NULL, 0, demands, 3, offers, 3, NULL, 0, aim, work, words, purchases, 3,
                                 &found, &rack),
                 FER_RACK_RANK_ABOVE_ALL);
    /* one that is owned is in every rack: with 17 all are worth the same, and the cheapest comes first */
    const fer_die owned[] = {die_of(17, 8)};
    aim.rank = 2;
    CHECK_OK(fer_choose_rack(owned, 1, demands, 3, offers, 3, NULL, 0, aim, work, words, purchases, 3, &found,
                             &rack));
    CHECK_NEAR(rack.price, 1.0, 0.0);
    CHECK_NEAR(rack.value.fraction, 1.0,
               0.0); /* 18 and 24 with 17 are counted once too often: not in order */
    CHECK_NEAR(rack.bound.fraction, 1.0, 0.0);
    assert_true(rack.optimal && !rack.in_order);
    aim.rank = 8;
    CHECK_STATUS(fer_choose_rack(owned, 1, demands, 3, offers, 3, NULL, 0, aim, work, words, purchases, 3,
                                 &found, &rack),
                 FER_RACK_RANK_ABOVE_ALL); /* 1 + 3 + 3 racks */
    aim.rank = 7;
    CHECK_OK(fer_choose_rack(owned, 1, demands, 3, offers, 3, NULL, 0, aim, work, words, purchases, 3, &found,
                             &rack));
    /* one that is owned between two on offer: by hand, 22 alone, 22 with 18 (2 more for 1), with 24 (1 more for 1), with both */
    const fer_die middle[] = {die_of(21, 2)};
    const double with_middle[] = {6, 5, 4, 3};
    aim.price_maximum = 0.0;
    for (int rank = 1; rank <= 4; rank++) {
        const fer_offer two[] = {offers[0], offers[2]};
        aim.rank = rank;
        CHECK_OK(fer_choose_rack(middle, 1, demands, 3, two, 2, NULL, 0, aim, work, words, purchases, 3,
                                 &found, &rack));
        CHECK_NEAR(rack.reached.fraction, with_middle[rank - 1] / 6.0, 1e-15);
    }
    aim.rank = 2;
    aim.steps = 1.0;
    CHECK_OK(fer_choose_rack(NULL, 0, demands, 3, offers, 3, NULL, 0, aim, work, words, purchases, 3, &found,
                             &rack));
    assert_true(rack.searched.fraction < 1.0 && rack.bound.fraction == 1.0);
    aim.steps = 0.0;
    const fer_adapter_offer adapter = {1, 1.0};
    CHECK_STATUS(fer_choose_rack(owned, 1, demands, 3, offers, 3, &adapter, 1, aim, work, words, purchases, 3,
                                 &found, &rack),
                 FER_RACK_RANK_OUT_OF_RANGE);
    size_t points_found;
    fer_rack points[4];
    CHECK_STATUS(fer_find_rack_curve(owned, 1, demands, 3, offers, 3, NULL, 0, aim, work, words, points, 4,
                                     &points_found),
                 FER_RACK_RANK_OUT_OF_RANGE);
    aim.rank = 1;
    CHECK_OK(fer_find_rack_curve(owned, 1, demands, 3, offers, 3, NULL, 0, aim, work, words, points, 4,
                                 &points_found));
}

static void a_search_that_ends_early_says_how_far_it_came(void **state)
{
    (void)state;
    fer_die dies[12];
    fer_demand demands[7];
    fer_offer offers[12];
    fer_rack whole, rack;
    size_t purchases[12], found;
    const fer_adapter_offer adapter = {1, 1.0};
    fill_depot(dies, demands);
    for (size_t i = 0; i < 12; i++) {
        offers[i] = offer_of(sizes[i], reaches[i], 1.0 + (double)(i % 5));
    }
    CHECK_OK(fer_choose_rack(NULL, 0, demands, 7, offers, 12, &adapter, 1, any_price, work, words, purchases,
                             12, &found, &whole));
    CHECK_NEAR(whole.searched.fraction, 1.0, 0.0);
    double before = 0.0;
    size_t early = 0;
    for (double steps = 1.0; before < 1.0; steps *= 1.5, early++) {
        const fer_rack_aim aim = {.steps = steps};
        CHECK_OK(fer_choose_rack(NULL, 0, demands, 7, offers, 12, &adapter, 1, aim, work, words, purchases,
                                 12, &found, &rack));
        assert_true(rack.searched.fraction >= before && rack.reached.fraction <= whole.reached.fraction);
        assert_true(rack.bound.fraction >= whole.value.fraction); /* 28 of 29 at any time */
        assert_true(rack.searched.fraction == 1.0 ||
                    rack.optimal == (rack.value.fraction == whole.value.fraction));
        before = rack.searched.fraction;
    }
    assert_true(early > 4);
    assert_memory_equal(&rack, &whole, sizeof rack);
}

/* With each number of words from none on a call says that they are too few, until it gives what it gives with plenty. */
static void too_little_memory_is_said(void **state)
{
    (void)state;
    fer_die dies[12];
    fer_demand demands[7];
    fer_offer offers[12];
    fer_rack points[16], again[16];
    fer_die_worth worths[12];
    fer_offer_worth bought[12];
    double prices[7], minimum;
    size_t found, found_again, enough = 0;
    fill_depot(dies, demands);
    for (size_t i = 0; i < 12; i++) {
        offers[i] = offer_of(sizes[i], reaches[i], 1.0 + (double)(i % 5));
    }
    CHECK_OK(fer_find_rack_curve(NULL, 0, demands, 7, offers, 12, NULL, 0, any_price, work, words, points, 16,
                                 &found));
    fer_status status = FER_ARGUMENT_WORK_TOO_SMALL;
    for (; status != FER_OK; enough++) {
        assert_true(enough < 10000);
        status = fer_find_rack_curve(NULL, 0, demands, 7, offers, 12, NULL, 0, any_price, work, enough, again,
                                     16, &found_again);
        if (status != FER_OK) {
            assert_int_equal(status, FER_ARGUMENT_WORK_TOO_SMALL);
            assert_int_equal(found_again, 0);
        }
    }
    assert_int_equal(found_again, found);
    assert_memory_equal(again, points, found * sizeof points[0]);
    for (size_t few = 0; few < 24; few++) {
        CHECK_STATUS(fer_rank_dies(dies, 12, demands, 7, 8, work, few, worths, 12, &found),
                     FER_ARGUMENT_WORK_TOO_SMALL);
        CHECK_STATUS(fer_rank_offers(NULL, 0, demands, 7, offers, 12, 8, work, few, bought, 12, &found),
                     FER_ARGUMENT_WORK_TOO_SMALL);
        CHECK_STATUS(fer_find_demand_prices(NULL, 0, demands, 7, offers, 12, 8, work, few, prices, 7, &found,
                                            &minimum),
                     FER_ARGUMENT_WORK_TOO_SMALL);
    }
    for (size_t few = 24; few < 50; few++) {
        (void)fer_rank_dies(dies, 12, demands, 7, 8, work, few, worths, 12, &found);
        (void)fer_find_demand_prices(NULL, 0, demands, 7, offers, 12, 8, work, few, prices, 7, &found,
                                     &minimum);
    }
    CHECK_OK(fer_rank_dies(dies, 12, demands, 7, 8, work, 43, worths, 12, &found)); /* 12 + 12 + 7 + 12 */
    CHECK_STATUS(fer_rank_dies(dies, 12, demands, 7, 8, work, 42, worths, 12, &found),
                 FER_ARGUMENT_WORK_TOO_SMALL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_rack_that_is_owned_is_the_first_point),
        cmocka_unit_test(the_curve_reaches_more_for_more),
        cmocka_unit_test(four_targets_need_four_dies),
        cmocka_unit_test(greatest_size_plus_reach_reaches_both),
        cmocka_unit_test(money_is_spent_where_it_reaches_most),
        cmocka_unit_test(a_limit_that_is_a_sum_is_not_missed_by_rounding),
        cmocka_unit_test(offset_costs),
        cmocka_unit_test(a_die_has_to_do_what_is_asked),
        cmocka_unit_test(adapters_are_bought_where_they_pay),
        cmocka_unit_test(a_rack_out_of_order_has_a_bound),
        cmocka_unit_test(a_die_within_anothers_reach_hides_nothing),
        cmocka_unit_test(the_die_most_missed_comes_first),
        cmocka_unit_test(of_dies_that_stand_in_for_each_other_the_busier_comes_first),
        cmocka_unit_test(demands_with_fewer_dies_take_their_price_first),
        cmocka_unit_test(the_offer_to_buy_next_comes_first),
        cmocka_unit_test(bad_input_has_its_status),
        cmocka_unit_test(the_second_best_rack_is_the_next_one),
        cmocka_unit_test(a_search_that_ends_early_says_how_far_it_came),
        cmocka_unit_test(too_little_memory_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
