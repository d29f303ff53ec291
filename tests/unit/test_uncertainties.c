/* SPDX-License-Identifier: MIT */
/* Values of the share: tests/agree/vectors. Here: budget against hand sums and GUM rules, worst case, bad input. */
#include "check.h"

#include "crimp/uncertainties_private.h"

#include <float.h>

static const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
static const fer_ratio_range usual = {{0.15}, {0.25}};

static fer_uncertainty normal(double amount)
{
    const fer_uncertainty u = {{amount}, FER_DISTRIBUTION_NORMAL, 0.0};
    return u;
}

static fer_uncertainty rectangular(double amount)
{
    const fer_uncertainty u = {{amount}, FER_DISTRIBUTION_RECTANGULAR, 0.0};
    return u;
}

static fer_uncertainties worked_uncertainties(void)
{
    fer_uncertainties uncertainties = {0};
    uncertainties.hose_inside = normal(0.08);
    uncertainties.hose_outside = normal(0.10);
    uncertainties.stem_outside = normal(0.02);
    uncertainties.ferrule_wall = normal(0.03);
    uncertainties.diameter = normal(0.05);
    return uncertainties;
}

static fer_budget budget_of(const fer_uncertainties *uncertainties, double coverage)
{
    const fer_joint joint = worked_joint();
    fer_budget budget;
    CHECK_OK(
        fer_uncertainty_budget(&joint, uncertainties, fer_mm(23.51), fer_fraction(coverage), plain, &budget));
    return budget;
}

/* c = 1 - G/W with G = D - 2w - s = 5.76, W = 7.2: slopes 1/W = 0.13889 and G/W^2 = 0.11111, by hand. */
static void the_budget_is_the_sum_of_its_contributions(void **state)
{
    (void)state;
    const fer_uncertainties uncertainties = worked_uncertainties();
    const fer_budget budget = budget_of(&uncertainties, 0.95);
    CHECK_NEAR(budget.compression.fraction, 0.2, 1e-15);
    CHECK_NEAR(budget.hose_inside.fraction, -0.08 / 9.0, 1e-14);
    CHECK_NEAR(budget.hose_outside.fraction, 0.10 / 9.0, 1e-14);
    CHECK_NEAR(budget.stem_outside.fraction, 0.02 / 7.2, 1e-15);
    CHECK_NEAR(budget.ferrule_wall.fraction, 0.06 / 7.2, 1e-15);
    CHECK_NEAR(budget.ferrule_outside.fraction, 0.0, 0.0);
    CHECK_NEAR(budget.diameter.fraction, -0.05 / 7.2, 1e-15);
    const double sum = (0.0064 + 0.01) / 81.0 + (0.0004 + 0.0036 + 0.0025) / (7.2 * 7.2);
    CHECK_NEAR(budget.standard_uncertainty.fraction, sqrt(sum), 1e-15);
    CHECK_NEAR(budget.degrees_of_freedom, 0.0, 0.0);
    /* normal quantile 0.975: 1.95996 in Abramowitz and Stegun, table 26.5 (from memory) */
    CHECK_NEAR(budget.coverage_factor, 1.959964, 5e-7);
    CHECK_NEAR(budget.expanded_uncertainty.fraction, 1.959964 * sqrt(sum), 1e-8);
}

static void half_widths_count_by_their_distribution(void **state)
{
    (void)state;
    fer_uncertainties uncertainties = {0};
    uncertainties.diameter = rectangular(0.3);
    CHECK_NEAR(budget_of(&uncertainties, 0.95).standard_uncertainty.fraction, 0.3 / sqrt(3.0) / 7.2, 1e-15);
    uncertainties.diameter.distribution = FER_DISTRIBUTION_TRIANGULAR;
    CHECK_NEAR(budget_of(&uncertainties, 0.95).standard_uncertainty.fraction, 0.3 / sqrt(6.0) / 7.2, 1e-15);
}

static void correlation_of_both_hose_diameters_narrows_the_wall(void **state)
{
    (void)state;
    fer_uncertainties uncertainties = {0};
    uncertainties.hose_inside = normal(0.1);
    uncertainties.hose_outside = normal(0.1);
    uncertainties.correlations.hose_inside_hose_outside =
        fer_fraction(1.0); /* the wall does not vary at all */
    CHECK_NEAR(budget_of(&uncertainties, 0.95).standard_uncertainty.fraction, 0.0, 1e-9);
    uncertainties.correlations.hose_inside_hose_outside = fer_fraction(-1.0);
    CHECK_NEAR(budget_of(&uncertainties, 0.95).standard_uncertainty.fraction, 0.2 / 9.0, 1e-14);
}

/* Each pair's place in the struct: u^2 changes by 2 r c_i c_j u_i u_j for that pair only. */
static void every_correlation_belongs_to_its_pair(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_model ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED};
    fer_uncertainties uncertainties = worked_uncertainties();
    uncertainties.ferrule_outside = normal(0.07);
    fer_budget base, with;
    CHECK_OK(
        fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23.51), fer_percent(95), ends_fixed, &base));
    const double c[6] = {base.hose_inside.fraction,     base.hose_outside.fraction,
                         base.stem_outside.fraction,    base.ferrule_wall.fraction,
                         base.ferrule_outside.fraction, base.diameter.fraction};
    fer_ratio *const pairs[15] = {&uncertainties.correlations.hose_inside_hose_outside,
                                  &uncertainties.correlations.hose_inside_stem_outside,
                                  &uncertainties.correlations.hose_inside_ferrule_wall,
                                  &uncertainties.correlations.hose_inside_ferrule_outside,
                                  &uncertainties.correlations.hose_inside_diameter,
                                  &uncertainties.correlations.hose_outside_stem_outside,
                                  &uncertainties.correlations.hose_outside_ferrule_wall,
                                  &uncertainties.correlations.hose_outside_ferrule_outside,
                                  &uncertainties.correlations.hose_outside_diameter,
                                  &uncertainties.correlations.stem_outside_ferrule_wall,
                                  &uncertainties.correlations.stem_outside_ferrule_outside,
                                  &uncertainties.correlations.stem_outside_diameter,
                                  &uncertainties.correlations.ferrule_wall_ferrule_outside,
                                  &uncertainties.correlations.ferrule_wall_diameter,
                                  &uncertainties.correlations.ferrule_outside_diameter};
    const double before = base.standard_uncertainty.fraction * base.standard_uncertainty.fraction;
    int pair = 0;
    for (int i = 0; i < 6; i++) {
        for (int j = i + 1; j < 6; j++, pair++) {
            *pairs[pair] = fer_fraction(0.5);
            CHECK_OK(fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23.51), fer_percent(95),
                                            ends_fixed, &with));
            *pairs[pair] = fer_fraction(0.0);
            const double after = with.standard_uncertainty.fraction * with.standard_uncertainty.fraction;
            CHECK_NEAR(after - before, c[i] * c[j], 1e-15);
        }
    }
}

/* GUM G.4.1 and table G.2: t for 95 % at 10 degrees of freedom is 2.23, at 16 it is 2.12 (JCGM 100:2008, table G.2,
 * from memory; agrees with the table of the NIST/SEMATECH e-Handbook, 1.3.6.7.2). */
static void effective_degrees_follow_welch_and_satterthwaite(void **state)
{
    (void)state;
    fer_uncertainties uncertainties = {0};
    uncertainties.diameter = normal(0.05);
    uncertainties.diameter.degrees_of_freedom = 10.0;
    CHECK_NEAR(budget_of(&uncertainties, 0.95).degrees_of_freedom, 10.0, 1e-12);
    CHECK_NEAR(budget_of(&uncertainties, 0.95).coverage_factor, 2.23, 5e-3);
    /* two equal contributions with 8.3 each: 16.6 effective, truncated to 16 for t */
    uncertainties.stem_outside = uncertainties.diameter;
    uncertainties.diameter.degrees_of_freedom = uncertainties.stem_outside.degrees_of_freedom = 8.3;
    CHECK_NEAR(budget_of(&uncertainties, 0.95).degrees_of_freedom, 16.6, 1e-12);
    CHECK_NEAR(budget_of(&uncertainties, 0.95).coverage_factor, 2.12, 5e-3);
    CHECK_NEAR(budget_of(&uncertainties, 0.99).coverage_factor, 2.92, 5e-3);
}

static void the_worst_case_is_at_the_corners(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_ratio_range range;
    uncertainties.hose_inside = uncertainties.hose_outside = rectangular(0.1);
    uncertainties.stem_outside = uncertainties.ferrule_wall = uncertainties.diameter = rectangular(0.05);
    CHECK_OK(fer_worst_case(&joint, &uncertainties, fer_mm(23.51), plain, &range));
    /* by hand: W 7.2 -+ 0.2, G = D - 2w - s = 5.76 +- 0.2 */
    CHECK_NEAR(range.lower.fraction, 1.0 - 5.96 / 7.0, 1e-14);
    CHECK_NEAR(range.upper.fraction, 1.0 - 5.56 / 7.4, 1e-14);
}

/* No joint inside the limits may leave the range: tried at all corners and at random. */
static void no_joint_inside_the_limits_leaves_the_worst_case(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_joint reinforced = joint;
    reinforced.hose.reinforcement = fer_mm(0.7);
    fer_uncertainties uncertainties = {0};
    uncertainties.hose_inside = uncertainties.hose_outside = rectangular(0.1);
    uncertainties.stem_outside = uncertainties.ferrule_wall = uncertainties.ferrule_outside =
        uncertainties.diameter = rectangular(0.05);
    for (int m = 0; m < 12; m++) {
        const fer_model model = {(fer_basis)(m / 3), (fer_flow)(m % 3)};
        fer_ratio_range range;
        int touched_lower = 0, touched_upper = 0;
        CHECK_OK(fer_worst_case(&reinforced, &uncertainties, fer_mm(23.51), model, &range));
        for (unsigned corner = 0; corner < 64; corner++) {
            fer_joint moved = reinforced;
            fer_ratio c;
            moved.hose.inside.mm += corner & 1u ? 0.1 : -0.1;
            moved.hose.outside.mm += corner & 2u ? 0.1 : -0.1;
            moved.stem.outside.mm += corner & 4u ? 0.05 : -0.05;
            moved.ferrule.wall.mm += corner & 8u ? 0.05 : -0.05;
            moved.ferrule.outside.mm += corner & 16u ? 0.05 : -0.05;
            CHECK_OK(fer_compression(&moved, fer_mm(corner & 32u ? 23.56 : 23.46), model, &c));
            assert_true(c.fraction >= range.lower.fraction - 1e-13 &&
                        c.fraction <= range.upper.fraction + 1e-13);
            touched_lower |= c.fraction < range.lower.fraction + 1e-13;
            touched_upper |= c.fraction > range.upper.fraction - 1e-13;
        }
        assert_true(touched_lower && touched_upper);
    }
}

/* The stem's bore is no measurement of the compression: a stem so thin that its smallest outside diameter is below its
 * bore has the worst case and the second order of any other. */
static void the_bore_does_not_count_for_the_compression(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_ratio_range range, with_bore;
    fer_second_order order, order_with_bore;
    uncertainties.stem_outside = rectangular(0.05);
    CHECK_OK(fer_worst_case(&joint, &uncertainties, fer_mm(23.51), plain, &range));
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &order));
    joint.stem.bore.mm = joint.stem.outside.mm - 0.001;
    CHECK_OK(fer_worst_case(&joint, &uncertainties, fer_mm(23.51), plain, &with_bore));
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &order_with_bore));
    assert_memory_equal(&with_bore, &range, sizeof range);
    assert_memory_equal(&order_with_bore, &order, sizeof order);
}

static void a_corner_outside_the_domain_has_its_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_ratio_range range = {{1.0}, {1.0}};
    uncertainties.diameter = rectangular(6.0);
    CHECK_STATUS(fer_worst_case(&joint, &uncertainties, fer_mm(23.51), plain, &range),
                 FER_UNCERTAINTY_LEAVES_DOMAIN);
    CHECK_NAN(range.lower.fraction);
    CHECK_NAN(range.upper.fraction);
    uncertainties.diameter = normal(0.01);
    CHECK_STATUS(fer_worst_case(&joint, &uncertainties, fer_mm(23.51), plain, &range),
                 FER_UNCERTAINTY_NORMAL_WITHOUT_LIMITS);
}

static void shares_sum_to_one(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = worked_uncertainties();
    for (double d = 22.0; d < 25.0; d += 0.1) {
        fer_shares shares;
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(d), &shares));
        CHECK_NEAR(shares.inside.fraction + shares.below.fraction + shares.above.fraction, 1.0, 1e-15);
        assert_true(shares.inside.fraction >= 0.0);
    }
}

/* Sets one thing wrong and expects the same status from every function that takes the uncertainties. */
static void check_bad_uncertainties(fer_uncertainties uncertainties, fer_status expected)
{
    const fer_joint joint = worked_joint();
    fer_budget budget;
    fer_shares shares;
    fer_ratio_range range;
    memset(&budget, 0, sizeof budget);
    CHECK_STATUS(
        fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23.51), fer_percent(95), plain, &budget),
        expected);
    CHECK_NAN(budget.compression.fraction);
    CHECK_NAN(budget.coverage_factor);
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares), expected);
    CHECK_NAN(shares.inside.fraction);
    CHECK_STATUS(fer_worst_case(&joint, &uncertainties, fer_mm(23.51), plain, &range), expected);
}

static void bad_uncertainties_have_their_status(void **state)
{
    (void)state;
    fer_uncertainties uncertainties = worked_uncertainties();
    uncertainties.ferrule_outside.amount = fer_mm(-0.1);
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE);
    uncertainties.ferrule_outside.amount = fer_mm(NAN);
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE);
    uncertainties = worked_uncertainties();
    uncertainties.diameter.distribution = (fer_distribution)3;
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_DISTRIBUTION_UNKNOWN);
    uncertainties = worked_uncertainties();
    uncertainties.hose_inside.degrees_of_freedom = 0.5;
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_DEGREES_OUT_OF_RANGE);
    uncertainties.hose_inside.degrees_of_freedom = INFINITY;
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_DEGREES_OUT_OF_RANGE);
    uncertainties = worked_uncertainties();
    uncertainties.correlations.hose_inside_diameter = fer_fraction(1.01);
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_CORRELATION_OUT_OF_RANGE);
    uncertainties.correlations.hose_inside_diameter = fer_fraction(NAN);
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_CORRELATION_OUT_OF_RANGE);
}

/* Three inputs cannot all be opposite to each other. */
static void impossible_correlations_have_their_status(void **state)
{
    (void)state;
    fer_uncertainties uncertainties = worked_uncertainties();
    uncertainties.correlations.hose_inside_hose_outside = fer_fraction(-0.9);
    uncertainties.correlations.hose_inside_stem_outside = fer_fraction(-0.9);
    uncertainties.correlations.hose_outside_stem_outside = fer_fraction(-0.9);
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_CORRELATION_IMPOSSIBLE);
    /* exactly opposite and exactly equal to the same third one */
    uncertainties = worked_uncertainties();
    uncertainties.correlations.hose_inside_hose_outside = fer_fraction(1.0);
    uncertainties.correlations.hose_inside_stem_outside = fer_fraction(1.0);
    uncertainties.correlations.hose_outside_stem_outside = fer_fraction(0.0);
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_CORRELATION_IMPOSSIBLE);
    /* the second is the first, and the third is correlated with each of them otherwise */
    uncertainties.correlations.hose_inside_stem_outside = fer_fraction(0.5);
    uncertainties.correlations.hose_outside_stem_outside = fer_fraction(0.4);
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_CORRELATION_IMPOSSIBLE);
    uncertainties.correlations.hose_inside_stem_outside = fer_fraction(1.0);
    uncertainties.correlations.hose_outside_stem_outside = fer_fraction(1.0);
    fer_shares shares;
    const fer_joint joint = worked_joint();
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares));
}

static void what_the_functions_need_has_its_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_budget budget;
    fer_shares shares;
    uncertainties.hose_inside.degrees_of_freedom = 9.0;
    uncertainties.correlations.hose_inside_hose_outside = fer_fraction(0.1);
    CHECK_STATUS(
        fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23.51), fer_percent(95), plain, &budget),
        FER_UNCERTAINTY_CORRELATED_DEGREES);
    uncertainties = worked_uncertainties();
    CHECK_STATUS(
        fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23.51), fer_percent(100), plain, &budget),
        FER_UNCERTAINTY_COVERAGE_OUT_OF_RANGE);
    CHECK_STATUS(
        fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23.51), fer_percent(NAN), plain, &budget),
        FER_UNCERTAINTY_COVERAGE_OUT_OF_RANGE);
    uncertainties.diameter = rectangular(0.1);
    uncertainties.correlations.hose_inside_diameter = fer_fraction(0.1);
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares),
                 FER_UNCERTAINTY_NOT_NORMAL);
    uncertainties.hose_inside.amount = fer_mm(0.0); /* a correlation with what does not vary means nothing */
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares));
    uncertainties = worked_uncertainties();
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(NAN), &shares),
                 FER_DIAMETER_OUT_OF_RANGE);
    const fer_ratio_range backward = {{0.25}, {0.15}}, endless = {{0.15}, {INFINITY}};
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, backward, fer_mm(23.51), &shares),
                 FER_COMPRESSION_RANGE_WRONG_ORDER);
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, endless, fer_mm(23.51), &shares),
                 FER_COMPRESSION_NOT_A_NUMBER);
    uncertainties.hose_outside = normal(0.9001); /* an eighth of 7.2 is 0.9 */
    uncertainties.hose_inside = normal(0.0);
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares),
                 FER_UNCERTAINTY_TOO_WIDE);
    uncertainties.hose_outside = normal(0.8999);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares));
}

static void null_pointers_and_joints_upside_down_have_their_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = worked_uncertainties();
    fer_budget budget;
    fer_shares shares;
    fer_ratio_range range;
    fer_joint upside_down = joint;
    upside_down.hose.inside = joint.hose.outside;
    upside_down.hose.outside = joint.hose.inside;
    CHECK_STATUS(
        fer_uncertainty_budget(&upside_down, &uncertainties, fer_mm(23), fer_percent(95), plain, &budget),
        FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE);
    CHECK_NAN(budget.compression.fraction);
    CHECK_STATUS(fer_uncertainty_budget(NULL, &uncertainties, fer_mm(23), fer_percent(95), plain, &budget),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_uncertainty_budget(&joint, NULL, fer_mm(23), fer_percent(95), plain, &budget),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23), fer_percent(95), plain, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_worst_case(NULL, &uncertainties, fer_mm(23), plain, &range), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_worst_case(&joint, NULL, fer_mm(23), plain, &range), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_worst_case(&joint, &uncertainties, fer_mm(23), plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_conforming_share(NULL, &uncertainties, usual, fer_mm(23), &shares),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_conforming_share(&joint, NULL, usual, fer_mm(23), &shares), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23), NULL), FER_ARGUMENT_MISSING);
}

/* GUM H.1 (JCGM 100:2008): contributions 25, 9.7, 2.9 and 16.7 nm with 18, 25.6, 50 and 2 degrees of freedom give
 * u 32 nm (31.71), 16 effective degrees of freedom (16.66, truncated), t99 2.92, U99 93 nm. Here the four are those of
 * D, s, w and do: slopes 1/W, 1/W, 2/W, and G/W^2 with G = D - 2w - s. Unit: 1e-6 of compression a nm. */
static void the_end_gauge_of_the_gum(void **state)
{
    (void)state;
    fer_uncertainties uncertainties = {0};
    const double wall = 7.2, unit = 1e-6;
    uncertainties.diameter = normal(25.0 * unit * wall);
    uncertainties.diameter.degrees_of_freedom = 18.0;
    uncertainties.stem_outside = normal(9.7 * unit * wall);
    uncertainties.stem_outside.degrees_of_freedom = 25.6;
    uncertainties.ferrule_wall = normal(0.58e-6 * 50000623.0 * 0.1 * unit * wall / 2.0);
    uncertainties.ferrule_wall.degrees_of_freedom = 50.0;
    uncertainties.hose_outside = normal(0.029 * 50000623.0 * 11.5e-6 * unit * wall * wall / 5.76);
    uncertainties.hose_outside.degrees_of_freedom = 2.0;
    const fer_budget budget = budget_of(&uncertainties, 0.99);
    CHECK_NEAR(budget.standard_uncertainty.fraction / unit, 31.71, 0.005);
    CHECK_NEAR(budget.degrees_of_freedom, 16.66, 0.1);
    CHECK_NEAR(floor(budget.degrees_of_freedom),
               PUBLISHED(16.0, "JCGM 100:2008 (GUM); H.1.6: effective degrees of freedom; from memory"), 0.0);
    CHECK_NEAR(
        budget.coverage_factor,
        PUBLISHED(2.92, "JCGM 100:2008 (GUM); H.1.6: factor for 99 % and 16 degrees of freedom; from memory"),
        0.005);
    CHECK_NEAR(budget.expanded_uncertainty.fraction / unit,
               PUBLISHED(93.0, "JCGM 100:2008 (GUM); H.1.6: expanded uncertainty in nm; from memory"), 0.5);
}

/* A joint whose limit 0 % adds up the errors of four diameters: D - s - do + di. */
static double share_above(double distance, fer_uncertainty three, fer_uncertainty one)
{
    fer_joint joint = {0};
    fer_uncertainties uncertainties = {0};
    fer_shares shares;
    const fer_ratio_range range = {{0.0}, {1.0}};
    joint.hose.inside = fer_mm(1000.0);
    joint.hose.outside = fer_mm(2000.0);
    joint.stem.outside = fer_mm(1500.0);
    joint.ferrule.wall = fer_mm(10.0);
    uncertainties.hose_inside = uncertainties.hose_outside = uncertainties.stem_outside = three;
    uncertainties.diameter = one;
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, range, fer_mm(2520.0 - distance), &shares));
    return shares.below.fraction;
}

/* JCGM 101:2008, 9.2.2 to 9.2.4 (from memory): 95 % intervals of a sum of four numbers with mean 0: normal, u 1 each:
 * +-3.92; rectangular, u 1 each: +-3.88; rectangular, one with u 10: +-17.0. */
static void sums_of_four_numbers(void **state)
{
    (void)state;
    CHECK_NEAR(share_above(3.92, normal(1.0), normal(1.0)), 0.025, 2e-5);
    const fer_uncertainty one = rectangular(sqrt(3.0)), ten = rectangular(10.0 * sqrt(3.0));
    const double equal = PUBLISHED(3.88, "JCGM 101:2008; 9.2.3: sum of four rectangular numbers and 95 % "
                                         "interval 3.88 either way; from memory"),
                 wide = PUBLISHED(17.0, "JCGM 101:2008; 9.2.4: sum of four rectangular numbers of which one "
                                        "is tenfold and 95 % interval 17.0 either way; from memory");
    assert_true(share_above(equal - 0.005, one, one) > 0.025 && share_above(equal + 0.005, one, one) < 0.025);
    assert_true(share_above(wide - 0.05, one, ten) > 0.025 && share_above(wide + 0.05, one, ten) < 0.025);
}

/* By hand: two rectangular numbers of half-width 1 have a triangular sum, P(sum > x) = (2 - x)^2/8; a triangular number
 * of half-width 2 is the same sum; with widths 3 and 1 the sum is a trapezium with the corners 4 and 2. */
static void sums_by_hand(void **state)
{
    (void)state;
    fer_uncertainty triangular = {{2.0}, FER_DISTRIBUTION_TRIANGULAR, 0.0};
    fer_joint joint = worked_joint();
    const fer_ratio_range range = {{0.2}, {0.9}};
    for (int scale = 0; scale < 6; scale++) {
        const double unit = 0.01 * pow(10.0, -scale), x = 0.75;
        fer_uncertainties uncertainties = {0};
        fer_shares shares;
        uncertainties.diameter = uncertainties.stem_outside = rectangular(unit);
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, range, fer_mm(23.51 - x * unit), &shares));
        CHECK_NEAR(shares.below.fraction, (2.0 - x) * (2.0 - x) / 8.0, 1e-9 + 1e-14 / unit);
        uncertainties.stem_outside = normal(0.0);
        triangular.amount = fer_mm(2.0 * unit);
        uncertainties.diameter = triangular;
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, range, fer_mm(23.51 - x * unit), &shares));
        CHECK_NEAR(shares.below.fraction, (2.0 - x) * (2.0 - x) / 8.0, 1e-9 + 1e-14 / unit);
        uncertainties.diameter = rectangular(3.0 * unit);
        uncertainties.stem_outside = rectangular(unit);
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, range, fer_mm(23.51 - 3.0 * unit), &shares));
        CHECK_NEAR(shares.below.fraction, 1.0 / 24.0, 1e-9 + 1e-14 / unit);
    }
}

/* c = 1 - G/W: second and third derivatives by hand in the GUM's formula, for G (D, s and w) and W (do and di). */
static void the_second_order_of_a_quotient(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const double g = 5.76, w = 7.2;
    const double ug2 = 0.0025 + 0.0004 + 4 * 0.0009, uw2 = 0.01 + 0.0064;
    const double fw = g / (w * w), fww = -2 * g / pow(w, 3), fwww = 6 * g / pow(w, 4), fgw = 1 / (w * w),
                 fg = -1 / w, fgww = -2 / pow(w, 3);
    const double first = fg * fg * ug2 + fw * fw * uw2;
    const double rest =
        (0.5 * fww * fww + fw * fwww) * uw2 * uw2 + fgw * fgw * ug2 * uw2 + fg * fgww * ug2 * uw2;
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_second_order order;
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &order));
    CHECK_NEAR(order.compression.fraction, 0.2, 1e-15);
    CHECK_NEAR(order.first_order.fraction, sqrt(first), 1e-15);
    CHECK_NEAR(order.second_order.fraction - order.first_order.fraction, sqrt(first + rest) - sqrt(first),
               1e-12);
    CHECK_NEAR(order.shift.fraction, 0.5 * fww * uw2, 1e-12);
    /* a rectangular hose outside alone: fourth moment 9/5 of the square of the variance */
    const double v = 0.01 / 3.0, only = fw * fw * v + (0.2 * fww * fww + 0.6 * fw * fwww) * v * v;
    memset(&uncertainties, 0, sizeof uncertainties);
    uncertainties.hose_outside = rectangular(0.1);
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &order));
    CHECK_NEAR(order.second_order.fraction - fw * sqrt(v), sqrt(only) - fw * sqrt(v), 1e-12);
}

static void where_there_is_no_second_order_there_is_a_status(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_second_order order;
    const fer_model fitted = {FER_BASIS_FITTED_WALL, FER_FLOW_NONE};
    uncertainties.hose_inside = normal(0.05);
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), fitted, &order));
    joint.stem.outside = fer_mm(12.75);
    CHECK_STATUS(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), fitted, &order),
                 FER_UNCERTAINTY_AT_KINK);
    CHECK_NAN(order.second_order.fraction);
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &order));
    CHECK_STATUS(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(24.9), plain, &order),
                 FER_DIAMETER_WITHOUT_TOUCH);
    uncertainties.correlations.hose_inside_diameter = fer_fraction(0.1);
    CHECK_STATUS(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &order),
                 FER_UNCERTAINTY_CORRELATED_SECOND_ORDER);
    CHECK_STATUS(fer_second_order_uncertainty(NULL, &uncertainties, fer_mm(23.51), plain, &order),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, NULL),
                 FER_ARGUMENT_MISSING);
}

/* At the limit that is nearer the variance is left^2 (0.08^2 + 0.10^2) + 0.02^2 + 4 0.03^2 + 0.05^2, where `left` is what the
 * limit leaves of the wall: 85 % towards loose crimps, 75 % towards tight ones. */
static void shares_belong_to_the_nearer_limit(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = worked_uncertainties();
    const double diameter[] = {23.7, 23.3}, left[] = {0.85, 0.75};
    for (int i = 0; i < 2; i++) {
        fer_improvement list[5];
        size_t found;
        const double square = left[i] * left[i], rest = 0.02 * 0.02 + 4.0 * 0.03 * 0.03 + 0.05 * 0.05;
        const double variance = square * (0.08 * 0.08 + 0.10 * 0.10) + rest;
        CHECK_OK(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(diameter[i]), list, 5, &found));
        for (size_t k = 0; k < found; k++) {
            const fer_measurement m = list[k].measurement;
            const double own = m == FER_MEASUREMENT_HOSE_INSIDE    ? square * 0.08 * 0.08
                               : m == FER_MEASUREMENT_HOSE_OUTSIDE ? square * 0.10 * 0.10
                               : m == FER_MEASUREMENT_STEM_OUTSIDE ? 0.02 * 0.02
                               : m == FER_MEASUREMENT_FERRULE_WALL ? 4.0 * 0.03 * 0.03
                                                                   : 0.05 * 0.05;
            CHECK_NEAR(list[k].share.fraction, own / variance, 1e-13);
        }
    }
}

/* Each gain is the difference of two yields, and the list falls. */
static void the_measurement_worth_improving_comes_first(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_improvement list[5];
    fer_shares before, after;
    size_t found;
    double shares = 0.0;
    uncertainties.diameter = rectangular(0.09);
    CHECK_OK(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(23.6), list, 5, &found));
    assert_int_equal(found, 5);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.6), &before));
    assert_int_equal(list[0].measurement, FER_MEASUREMENT_HOSE_OUTSIDE);
    for (size_t i = 0; i < found; i++) {
        assert_true(i == 0 || list[i].exact.fraction <= list[i - 1].exact.fraction);
        assert_true(list[i].halved.fraction > 0.0 && list[i].halved.fraction < list[i].exact.fraction);
        shares += list[i].share.fraction;
    }
    CHECK_NEAR(shares, 1.0, 1e-12);
    uncertainties.hose_outside = normal(0.05);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.6), &after));
    CHECK_NEAR(list[0].halved.fraction, after.inside.fraction - before.inside.fraction, 1e-14);
    uncertainties.hose_outside = normal(0.0);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.6), &after));
    CHECK_NEAR(list[0].exact.fraction, after.inside.fraction - before.inside.fraction, 1e-14);
    memset(&uncertainties, 0, sizeof uncertainties);
    uncertainties.diameter = normal(0.5); /* the only one: known exactly, every joint is inside */
    CHECK_OK(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(23.51), list, 5, &found));
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &before));
    assert_int_equal(found, 1);
    CHECK_NEAR(list[0].exact.fraction, 1.0 - before.inside.fraction, 1e-15);
    CHECK_STATUS(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(23.51), list, 4, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    CHECK_STATUS(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(23.51), NULL, 5, &found),
                 FER_ARGUMENT_MISSING);
    assert_int_equal(found, 0);
}

static void nothing_uncertain_has_no_degrees(void **state)
{
    (void)state;
    fer_uncertainties uncertainties = {0};
    uncertainties.diameter.degrees_of_freedom = 5.0;
    const fer_budget budget = budget_of(&uncertainties, 0.95);
    CHECK_NEAR(budget.standard_uncertainty.fraction, 0.0, 0.0);
    CHECK_NEAR(budget.degrees_of_freedom, 0.0, 0.0);
}

/* A single input hands its degrees on unchanged: 93 must not be truncated to 92. Any table: t(0.975; 93) = 1.9858. */
static void whole_degrees_stay_whole(void **state)
{
    (void)state;
    fer_uncertainties uncertainties = {0};
    uncertainties.diameter = normal(0.1);
    for (int degrees = 1; degrees <= 300; degrees++) {
        fer_uncertainties fewer = uncertainties, more = uncertainties;
        uncertainties.diameter.degrees_of_freedom = degrees;
        fewer.diameter.degrees_of_freedom = degrees - 0.5 < 1.0 ? 1.0 : degrees - 0.5;
        more.diameter.degrees_of_freedom = degrees + 0.5;
        const double factor = budget_of(&uncertainties, 0.95).coverage_factor;
        CHECK_NEAR(budget_of(&more, 0.95).coverage_factor, factor, 0.0);
        assert_true(degrees == 1 || budget_of(&fewer, 0.95).coverage_factor > factor);
        if (degrees == 93) {
            CHECK_NEAR(factor, 1.9858, 5e-5);
        }
    }
}

/* c = 1 - G/(W + x) with G = 5.76, W = 7.2; kurtosis 1.8, 2.4 and 3. */
static void the_second_order_follows_the_distribution(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const double kurtosis[] = {3.0, 1.8, 2.4}, divisor[] = {1.0, 3.0, 6.0}, g = 5.76, w = 7.2;
    for (int i = 0; i < 3; i++) {
        fer_uncertainties uncertainties = {0};
        fer_second_order order;
        uncertainties.hose_outside.amount = fer_mm(0.5);
        uncertainties.hose_outside.distribution = (fer_distribution)i;
        uncertainties.ferrule_outside = normal(1.0); /* without flow it does not count */
        CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &order));
        const double v = 0.25 / divisor[i], f1 = g / (w * w), f2 = -2.0 * g / (w * w * w),
                     f3 = 6.0 * g / (w * w * w * w);
        const double square =
            f1 * f1 * v + v * v * ((kurtosis[i] - 1.0) / 4.0 * f2 * f2 + kurtosis[i] / 3.0 * f1 * f3);
        CHECK_NEAR(order.first_order.fraction, f1 * sqrt(v), 1e-14);
        CHECK_NEAR(order.second_order.fraction, sqrt(square), 1e-8);
        CHECK_NEAR(order.shift.fraction, 0.5 * f2 * v, 1e-9);
    }
}

static void the_second_order_counts_the_ferrule_where_it_flows(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_model ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED};
    fer_uncertainties uncertainties = {0};
    fer_second_order order;
    fer_compression_slopes slopes;
    uncertainties.ferrule_outside = normal(0.1);
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), ends_fixed, &order));
    CHECK_OK(fer_find_compression_slopes(&joint, fer_mm(23.51), ends_fixed, &slopes));
    CHECK_NEAR(order.first_order.fraction, 0.1 * slopes.ferrule_outside.per_mm, 1e-14);
    assert_true(order.second_order.fraction != order.first_order.fraction);
    /* 0.01 mm below touch, a step of 7.2/1024 mm twice leads beyond it */
    uncertainties.diameter = normal(0.01);
    fer_length touch;
    CHECK_OK(fer_touch_diameter(&joint, plain, &touch));
    CHECK_STATUS(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(touch.mm - 0.01), plain, &order),
                 FER_UNCERTAINTY_LEAVES_DOMAIN);
    CHECK_NAN(order.shift.fraction);
    CHECK_STATUS(fer_second_order_uncertainty(&joint, NULL, fer_mm(23.51), plain, &order),
                 FER_ARGUMENT_MISSING);
    uncertainties.diameter = normal(-0.01);
    CHECK_STATUS(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &order),
                 FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE);
}

static void numbers_beyond_their_range_have_their_status(void **state)
{
    (void)state;
    const fer_ratio_range no_lower = {{NAN}, {0.25}}, to_the_stem = {{0.2}, {1.0}};
    fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties(), hose_only = {0};
    fer_ratio_range range;
    fer_shares shares;
    uncertainties.diameter.amount = fer_mm(1000000.1);
    check_bad_uncertainties(uncertainties, FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE);
    uncertainties = worked_uncertainties();
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, no_lower, fer_mm(23.51), &shares),
                 FER_COMPRESSION_NOT_A_NUMBER);
    hose_only.hose_inside = normal(0.1); /* at 100 % it does not count */
    CHECK_STATUS(fer_conforming_share(&joint, &hose_only, to_the_stem, fer_mm(23.51), &shares),
                 FER_UNCERTAINTY_EMPTY);
    hose_only.hose_inside = rectangular(0.1);
    CHECK_STATUS(fer_worst_case(&joint, &hose_only, fer_mm(25.0), plain, &range), FER_DIAMETER_WITHOUT_TOUCH);
    joint.hose.outside = fer_mm(12.0);
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares),
                 FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE);
    CHECK_NAN(shares.above.fraction);
}

/* The ferrule's outside diameter is not in the plain formula, however it is distributed. */
static void an_input_that_does_not_count_changes_no_share(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_shares before, after;
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &before));
    uncertainties.ferrule_outside = rectangular(0.5);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &after));
    CHECK_NEAR(after.inside.fraction, before.inside.fraction, 0.0);
    uncertainties.ferrule_outside = rectangular(0.0);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(24.6), &before));
    uncertainties.ferrule_outside = rectangular(0.5);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(24.6), &after));
    assert_true(before.above.fraction > 0.0 && before.above.fraction < 1e-12); /* all digits of a far tail */
    CHECK_NEAR(after.above.fraction, before.above.fraction, 0.0);
}

/* The only uncertain input known exactly: what was inside by chance is outside for good. */
static void an_exact_measurement_may_show_that_all_are_outside(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const double diameters[] = {23.0, 24.2, 24.9}; /* 27 %, 10 %, no touch */
    fer_improvement list[5];
    fer_shares before;
    fer_uncertainties uncertainties = {0};
    size_t found;
    uncertainties.diameter = normal(0.5);
    for (int i = 0; i < 3; i++) {
        CHECK_OK(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(diameters[i]), list, 5, &found));
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(diameters[i]), &before));
        assert_int_equal(found, 1);
        CHECK_NEAR(list[0].exact.fraction, -before.inside.fraction, 1e-15);
        CHECK_NEAR(list[0].share.fraction, 1.0, 1e-15);
    }
    uncertainties.diameter = normal(-0.5);
    CHECK_STATUS(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(23.0), list, 5, &found),
                 FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE);
    CHECK_STATUS(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(23.0), list, 5, NULL),
                 FER_ARGUMENT_MISSING);
}

/* Numbers that doubles hold exactly: a hose wall of 8 mm, an uncertainty of an eighth of it. */
static void an_eighth_of_the_hose_wall_is_allowed(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_shares shares;
    joint.hose.inside = fer_mm(12.0);
    joint.hose.outside = fer_mm(20.0);
    uncertainties.hose_outside = normal(1.0);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares));
    uncertainties.hose_outside = normal(1.0000001);
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares),
                 FER_UNCERTAINTY_TOO_WIDE);
}

/* At the double nearest to the limit, with a scatter of 1e-15 mm, what the double leaves out decides: mpmath. */
static void the_shares_keep_the_digits_of_the_limit(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_budget budget;
    fer_shares shares;
    uncertainties.diameter = normal(1e-15);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.869999999999997), &shares));
    CHECK_NEAR(shares.below.fraction, 0.13441041519891212, 1e-12);
    CHECK_STATUS(
        fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23.51), fer_percent(0), plain, &budget),
        FER_UNCERTAINTY_COVERAGE_OUT_OF_RANGE);
}

/* "No upper limit" may be written as the largest double: then nothing is above, with every distribution. */
static void limits_beyond_reach_count_as_none(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_ratio_range open = {{0.2}, {DBL_MAX}}, below = {{-DBL_MAX}, {0.2}},
                          nowhere = {{1e300}, {DBL_MAX}};
    for (int shape = FER_DISTRIBUTION_NORMAL; shape <= FER_DISTRIBUTION_TRIANGULAR; shape++) {
        const fer_uncertainties uncertainties = {.hose_inside = {{0.1}, (fer_distribution)shape, 0.0},
                                                 .stem_outside = {{0.05}, FER_DISTRIBUTION_NORMAL, 0.0}};
        fer_improvement improvements[5];
        fer_shares one, other;
        size_t found;
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, open, fer_mm(23.51), &one));
        CHECK_NEAR(one.above.fraction, 0.0, 0.0);
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, below, fer_mm(23.51), &other));
        CHECK_NEAR(other.below.fraction, 0.0, 0.0);
        CHECK_NEAR(other.above.fraction + one.below.fraction, 1.0, 1e-11);
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, nowhere, fer_mm(23.51), &one));
        CHECK_NEAR(one.below.fraction, 1.0, 0.0);
        CHECK_OK(fer_rank_measurements(&joint, &uncertainties, open, fer_mm(23.51), improvements, 5, &found));
        assert_true(improvements[0].share.fraction >= 0.0 && improvements[0].share.fraction <= 1.0);
    }
}

/* Far from both limits the sums of a mixture end next to 0 and 1, and may not end beyond. */
static void a_share_is_a_share(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    uncertainties.hose_inside = rectangular(0.1);
    uncertainties.stem_outside = rectangular(0.06);
    uncertainties.ferrule_wall.distribution = FER_DISTRIBUTION_TRIANGULAR;
    for (int i = 0; i <= 400; i++) {
        fer_shares shares;
        CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(22.51 + 0.005 * i), &shares));
        assert_true(shares.below.fraction >= 0.0 && shares.below.fraction <= 1.0);
        assert_true(shares.above.fraction >= 0.0 && shares.above.fraction <= 1.0);
        assert_true(shares.inside.fraction >= 0.0 && shares.inside.fraction <= 1.0);
    }
}

/* More degrees of freedom than a double holds are infinitely many: the normal factor. */
static void the_largest_degrees_are_infinitely_many(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = {.hose_inside = {{0.05}, FER_DISTRIBUTION_NORMAL, DBL_MAX}};
    fer_budget budget;
    CHECK_OK(fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23.51), fer_percent(95), plain, &budget));
    CHECK_NEAR(budget.degrees_of_freedom, 0.0, 0.0);
    CHECK_NEAR(budget.coverage_factor, 1.959963984540054,
               1e-14); /* NIST/SEMATECH e-Handbook, 1.3.6.7.1: 1.96 */
}

/* Only an input that scatters can be correlated with another: what is exact may be called rectangular all the same. */
/* Sums of independent deviates with these scales have the variances and covariances that were given; exact inputs have none. */
static void scales_give_the_covariances(void **state)
{
    (void)state;
    for (int exact = -1; exact < FER_INPUTS; exact++) {
        fer_uncertainties u = {0};
        fer_uncertainty *const inputs[FER_INPUTS] = {&u.hose_inside,  &u.hose_outside,    &u.stem_outside,
                                                     &u.ferrule_wall, &u.ferrule_outside, &u.diameter};
        double pairs[15], scale[FER_INPUTS][FER_INPUTS];
        for (int i = 0; i < FER_INPUTS; i++) {
            *inputs[i] = normal(i == exact ? 0.0 : 0.02 + 0.01 * i);
        }
        for (int i = 0; i < 15; i++) {
            pairs[i] = 0.3 + 0.01 * i; /* in the order of fer_correlations */
        }
        memcpy(&u.correlations, pairs, sizeof pairs);
        fer_find_scales(&u, scale);
        for (int i = 0; exact >= 0 && i < FER_INPUTS; i++) {
            CHECK_NEAR(scale[i][exact], 0.0, 0.0); /* it is not drawn, so nothing may hang on it */
        }
        for (int i = 0, pair = 0; i < FER_INPUTS; i++) {
            double variance = 0.0;
            for (int k = 0; k <= i; k++) {
                variance += scale[i][k] * scale[i][k];
            }
            CHECK_NEAR(variance, inputs[i]->amount.mm * inputs[i]->amount.mm, 1e-17);
            for (int j = i + 1; j < FER_INPUTS; j++, pair++) {
                double covariance = 0.0;
                for (int k = 0; k <= i; k++) {
                    covariance += scale[i][k] * scale[j][k];
                }
                CHECK_NEAR(covariance, pairs[pair] * inputs[i]->amount.mm * inputs[j]->amount.mm, 1e-17);
            }
        }
    }
}

static void an_exact_input_may_have_any_distribution_and_correlation(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_shares without, with;
    uncertainties.hose_inside = rectangular(0.0);
    uncertainties.stem_outside = rectangular(0.02);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &without));
    uncertainties.correlations.hose_inside_hose_outside = fer_fraction(0.5);
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &with));
    CHECK_NEAR(with.inside.fraction, without.inside.fraction, 1e-12);
    uncertainties.hose_inside = normal(0.08); /* as may two that are normal, whatever the third is */
    CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &with));
    uncertainties.hose_inside = rectangular(0.08);
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &with),
                 FER_UNCERTAINTY_NOT_NORMAL);
}

/* The plain formula has no ferrule outside diameter: it is not moved, and so may be 0, "not measured". */
static void a_ferrule_that_was_not_measured_may_be_uncertain(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_second_order with, without;
    joint.ferrule.outside = fer_mm(0.0);
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &without));
    uncertainties.ferrule_outside = normal(0.1);
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), plain, &with));
    CHECK_NEAR(with.second_order.fraction, without.second_order.fraction, 0.0);
    CHECK_NEAR(with.first_order.fraction, without.first_order.fraction, 0.0);
}

/* Compression 1: the gap is 0 whatever the hose wall is. With the hose alone uncertain nothing is, there. */
static void at_a_limit_of_100_percent_the_hose_does_not_count(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_shares shares;
    uncertainties.hose_outside = normal(0.1);
    const fer_ratio_range above = {{1.0}, {1.1}}, below = {{0.9}, {1.0}};
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, above, fer_mm(17.6), &shares),
                 FER_UNCERTAINTY_EMPTY);
    CHECK_STATUS(fer_conforming_share(&joint, &uncertainties, below, fer_mm(18.0), &shares),
                 FER_UNCERTAINTY_EMPTY);
    uncertainties.hose_outside = rectangular(0.1);
    uncertainties.stem_outside = normal(0.02);
    fer_length target;
    CHECK_STATUS(fer_best_target(&joint, &uncertainties, above, &target, &shares),
                 FER_UNCERTAINTY_NOT_NORMAL);
    CHECK_STATUS(fer_best_target(&joint, &uncertainties, below, &target, &shares),
                 FER_UNCERTAINTY_NOT_NORMAL);
}

/* The crimp touches below sqrt(19.9^2 + 12.95^2 - 12.7^2) + 4.8 = 24.8605 mm. Two steps of a 512th of the hose wall each way,
 * 0.014 mm, on the hose inside change that by 0.009 mm; on the crimp diameter, which is exact, they would lose touch. */
static void what_is_exact_is_not_moved(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_second_order order;
    uncertainties.hose_inside = normal(0.001);
    CHECK_OK(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(24.849), plain, &order));
    uncertainties.diameter = normal(0.001);
    CHECK_STATUS(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(24.849), plain, &order),
                 FER_UNCERTAINTY_LEAVES_DOMAIN);
}

static void the_ferrule_outside_is_no_measurement_to_improve(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = worked_uncertainties();
    fer_improvement list[6];
    size_t found;
    uncertainties.ferrule_outside = normal(0.1);
    CHECK_OK(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(23.51), list, 6, &found));
    assert_int_equal(found, 5);
    for (size_t i = 0; i < found; i++) {
        assert_true(list[i].measurement != FER_MEASUREMENT_FERRULE_OUTSIDE);
    }
}

static void joints_and_models_that_cannot_be_have_their_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = worked_uncertainties();
    const fer_model unknown = {(fer_basis)9, FER_FLOW_NONE};
    fer_joint bad = joint;
    fer_budget budget;
    fer_second_order order;
    bad.stem.outside.mm = 0.0;
    CHECK_STATUS(
        fer_uncertainty_budget(&joint, &uncertainties, fer_mm(23.51), fer_percent(95), unknown, &budget),
        FER_MODEL_BASIS_UNKNOWN);
    CHECK_STATUS(
        fer_uncertainty_budget(&joint, &uncertainties, fer_mm(17.0), fer_percent(95), plain, &budget),
        FER_DIAMETER_CLOSES_ON_STEM);
    CHECK_NAN(budget.compression.fraction);
    CHECK_STATUS(fer_second_order_uncertainty(&bad, &uncertainties, fer_mm(23.51), plain, &order),
                 FER_STEM_OUTSIDE_MISSING);
    CHECK_STATUS(fer_second_order_uncertainty(&joint, &uncertainties, fer_mm(23.51), unknown, &order),
                 FER_MODEL_BASIS_UNKNOWN);
    CHECK_NAN(order.compression.fraction);
}

/* Both hose diameters move together, and so the wall is sure; if one of them were known better alone, it would not be. */
static void a_gain_that_cannot_be_computed_is_not_a_number(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_improvement list[5];
    size_t found;
    uncertainties.hose_inside = uncertainties.hose_outside = normal(2.0);
    uncertainties.correlations.hose_inside_hose_outside.fraction = 0.95;
    CHECK_OK(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(23.51), list, 5, &found));
    assert_int_equal(found, 2);
    CHECK_NAN(list[0].halved.fraction);
    CHECK_NAN(list[1].exact.fraction);
    CHECK_STATUS(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(0.0), list, 5, &found),
                 FER_DIAMETER_MISSING);
    CHECK_STATUS(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(-1.0), list, 5, &found),
                 FER_DIAMETER_OUT_OF_RANGE);
    assert_int_equal(found, 0);
    uncertainties.correlations.hose_inside_hose_outside.fraction = 0.0;
    CHECK_STATUS(fer_rank_measurements(&joint, &uncertainties, usual, fer_mm(23.51), list, 5, &found),
                 FER_UNCERTAINTY_TOO_WIDE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_budget_is_the_sum_of_its_contributions),
        cmocka_unit_test(half_widths_count_by_their_distribution),
        cmocka_unit_test(correlation_of_both_hose_diameters_narrows_the_wall),
        cmocka_unit_test(every_correlation_belongs_to_its_pair),
        cmocka_unit_test(effective_degrees_follow_welch_and_satterthwaite),
        cmocka_unit_test(the_worst_case_is_at_the_corners),
        cmocka_unit_test(no_joint_inside_the_limits_leaves_the_worst_case),
        cmocka_unit_test(the_bore_does_not_count_for_the_compression),
        cmocka_unit_test(a_corner_outside_the_domain_has_its_status),
        cmocka_unit_test(shares_sum_to_one),
        cmocka_unit_test(bad_uncertainties_have_their_status),
        cmocka_unit_test(impossible_correlations_have_their_status),
        cmocka_unit_test(what_the_functions_need_has_its_status),
        cmocka_unit_test(null_pointers_and_joints_upside_down_have_their_status),
        cmocka_unit_test(the_end_gauge_of_the_gum),
        cmocka_unit_test(sums_of_four_numbers),
        cmocka_unit_test(sums_by_hand),
        cmocka_unit_test(the_second_order_of_a_quotient),
        cmocka_unit_test(where_there_is_no_second_order_there_is_a_status),
        cmocka_unit_test(the_measurement_worth_improving_comes_first),
        cmocka_unit_test(shares_belong_to_the_nearer_limit),
        cmocka_unit_test(nothing_uncertain_has_no_degrees),
        cmocka_unit_test(whole_degrees_stay_whole),
        cmocka_unit_test(the_second_order_follows_the_distribution),
        cmocka_unit_test(the_second_order_counts_the_ferrule_where_it_flows),
        cmocka_unit_test(numbers_beyond_their_range_have_their_status),
        cmocka_unit_test(an_input_that_does_not_count_changes_no_share),
        cmocka_unit_test(an_exact_measurement_may_show_that_all_are_outside),
        cmocka_unit_test(an_eighth_of_the_hose_wall_is_allowed),
        cmocka_unit_test(the_shares_keep_the_digits_of_the_limit),
        cmocka_unit_test(limits_beyond_reach_count_as_none),
        cmocka_unit_test(a_share_is_a_share),
        cmocka_unit_test(the_largest_degrees_are_infinitely_many),
        cmocka_unit_test(scales_give_the_covariances),
        cmocka_unit_test(an_exact_input_may_have_any_distribution_and_correlation),
        cmocka_unit_test(a_ferrule_that_was_not_measured_may_be_uncertain),
        cmocka_unit_test(at_a_limit_of_100_percent_the_hose_does_not_count),
        cmocka_unit_test(what_is_exact_is_not_moved),
        cmocka_unit_test(the_ferrule_outside_is_no_measurement_to_improve),
        cmocka_unit_test(joints_and_models_that_cannot_be_have_their_status),
        cmocka_unit_test(a_gain_that_cannot_be_computed_is_not_a_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
