/* SPDX-License-Identifier: MIT */
#include "check.h"

static const fer_ratio_range usual = {{0.15}, {0.25}};

static fer_uncertainties uncertainties_of(double hose, double metal)
{
    fer_uncertainties uncertainties = {0};
    uncertainties.hose_inside.amount = uncertainties.hose_outside.amount = fer_mm(hose);
    uncertainties.stem_outside.amount = uncertainties.ferrule_wall.amount = uncertainties.diameter.amount =
        fer_mm(metal);
    return uncertainties;
}

static void the_window_is_where_the_compression_is_in_the_range(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    for (int flow = 0; flow <= FER_FLOW_ENDS_FREE; flow++) {
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        fer_length_range window;
        fer_ratio compression;
        CHECK_OK(fer_crimp_window(&joint, usual, model, &window));
        assert_true(window.lower.mm < window.upper.mm);
        CHECK_OK(fer_compression(&joint, window.lower, model, &compression));
        CHECK_NEAR(compression.fraction, 0.25, 2e-15);
        CHECK_OK(fer_compression(&joint, window.upper, model, &compression));
        CHECK_NEAR(compression.fraction, 0.15, 2e-15);
    }
}

static double cost_at(const fer_joint *joint, const fer_uncertainties *uncertainties, double diameter,
                      double loose, double tight)
{
    fer_shares shares;
    CHECK_OK(fer_conforming_share(joint, uncertainties, usual, fer_mm(diameter), &shares));
    return loose * shares.below.fraction + tight * shares.above.fraction;
}

/* Golden-section search of the cost round the middle of the window. */
static double search_target(const fer_joint *joint, const fer_uncertainties *uncertainties, double loose,
                            double tight)
{
    const double golden = 0.6180339887498949;
    double low = 23.15, high = 23.87;
    for (int i = 0; i < 80; i++) {
        const double a = high - golden * (high - low), b = low + golden * (high - low);
        if (cost_at(joint, uncertainties, a, loose, tight) < cost_at(joint, uncertainties, b, loose, tight)) {
            high = b;
        } else {
            low = a;
        }
    }
    return 0.5 * (low + high);
}

static void no_other_target_is_better(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const double costs[][2] = {{1, 1}, {1, 3}, {5, 1}, {1, 20}};
    const double standard_deviations[][2] = {{0.08, 0.03}, {0.05, 0.05}, {0.10, 0.01}};
    for (int s = 0; s < 3; s++) {
        const fer_uncertainties uncertainties =
            uncertainties_of(standard_deviations[s][0], standard_deviations[s][1]);
        for (int i = 0; i < 4; i++) {
            fer_length target;
            fer_shares shares;
            CHECK_OK(fer_cheapest_target(&joint, &uncertainties, usual, costs[i][0], costs[i][1], &target,
                                         &shares));
            CHECK_NEAR(target.mm, search_target(&joint, &uncertainties, costs[i][0], costs[i][1]), 1e-6);
            const double best = cost_at(&joint, &uncertainties, target.mm, costs[i][0], costs[i][1]);
            assert_true(best <= cost_at(&joint, &uncertainties, target.mm + 1e-3, costs[i][0], costs[i][1]));
            assert_true(best <= cost_at(&joint, &uncertainties, target.mm - 1e-3, costs[i][0], costs[i][1]));
            CHECK_NEAR(shares.below.fraction * costs[i][0] + shares.above.fraction * costs[i][1], best,
                       1e-16);
        }
    }
}

static void equal_costs_give_the_best_share(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = uncertainties_of(0.08, 0.03);
    fer_length best, cheapest;
    fer_shares shares, same;
    CHECK_OK(fer_best_target(&joint, &uncertainties, usual, &best, &shares));
    CHECK_OK(fer_cheapest_target(&joint, &uncertainties, usual, 7.0, 7.0, &cheapest, &same));
    CHECK_NEAR(best.mm, cheapest.mm, 1e-13);
    CHECK_NEAR(shares.inside.fraction, same.inside.fraction, 1e-14);
}

/* With the same scatter at both limits the best target is the middle of the window. */
static void equal_scatter_puts_the_target_into_the_middle(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_length target;
    fer_shares shares;
    uncertainties.diameter.amount = fer_mm(0.1);
    CHECK_OK(fer_best_target(&joint, &uncertainties, usual, &target, &shares));
    CHECK_NEAR(target.mm, 23.51, 1e-13);
}

static void bad_input_has_its_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = uncertainties_of(0.08, 0.03), none = {0};
    const fer_ratio_range backward = {{0.25}, {0.15}}, same = {{0.2}, {0.2}}, nothing = {{0.15}, {NAN}};
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    const double bad_costs[] = {0.0, -1.0, NAN, INFINITY};
    fer_length_range window = {{1.0}, {1.0}};
    fer_length target = {1.0};
    fer_shares shares = {{1.0}, {1.0}, {1.0}};
    CHECK_STATUS(fer_crimp_window(&joint, backward, plain, &window), FER_COMPRESSION_RANGE_WRONG_ORDER);
    CHECK_NAN(window.lower.mm);
    CHECK_NAN(window.upper.mm);
    CHECK_STATUS(fer_crimp_window(&joint, same, plain, &window), FER_COMPRESSION_RANGE_WRONG_ORDER);
    CHECK_STATUS(fer_crimp_window(&joint, nothing, plain, &window), FER_COMPRESSION_NOT_A_NUMBER);
    CHECK_STATUS(fer_best_target(&joint, &none, usual, &target, &shares), FER_UNCERTAINTY_EMPTY);
    CHECK_NAN(target.mm);
    CHECK_NAN(shares.inside.fraction);
    for (int i = 0; i < 4; i++) {
        CHECK_STATUS(fer_cheapest_target(&joint, &uncertainties, usual, bad_costs[i], 1.0, &target, &shares),
                     FER_COST_OUT_OF_RANGE);
        CHECK_STATUS(fer_cheapest_target(&joint, &uncertainties, usual, 1.0, bad_costs[i], &target, &shares),
                     FER_COST_OUT_OF_RANGE);
    }
    CHECK_STATUS(fer_crimp_window(NULL, usual, plain, &window), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_crimp_window(&joint, usual, plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_best_target(NULL, &uncertainties, usual, &target, &shares), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_best_target(&joint, &uncertainties, usual, NULL, &shares), FER_ARGUMENT_MISSING);
    target.mm = 1.0;
    CHECK_STATUS(fer_best_target(&joint, &uncertainties, usual, &target, NULL), FER_ARGUMENT_MISSING);
    CHECK_NAN(target.mm);
}

/* Too tight is a million times dearer and the scatter is as wide as the window: the cost has no minimum any more. */
/* A model that is none, or that needs a measurement which the joint has not, has no window. */
static void a_window_needs_a_model_that_the_joint_has(void **state)
{
    (void)state;
    const struct {
        fer_model model;
        fer_status expected;
    } cases[] = {
        {{(fer_basis)9, FER_FLOW_NONE}, FER_MODEL_BASIS_UNKNOWN},
        {{FER_BASIS_WALL, (fer_flow)9}, FER_MODEL_FLOW_UNKNOWN},
        {{FER_BASIS_SOFT_WALL, FER_FLOW_NONE}, FER_HOSE_REINFORCEMENT_MISSING},
        {{FER_BASIS_WALL, FER_FLOW_ENDS_FREE}, FER_FERRULE_OUTSIDE_MISSING},
    };
    fer_joint joint = worked_joint();
    joint.ferrule.outside = fer_mm(0.0);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        fer_length_range window = {{1.0}, {1.0}};
        CHECK_STATUS(fer_crimp_window(&joint, usual, cases[i].model, &window), cases[i].expected);
        CHECK_NAN(window.lower.mm);
        CHECK_NAN(window.upper.mm);
    }
}

static void where_no_best_target_exists_there_is_a_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = uncertainties_of(0.6, 0.0);
    fer_length target = {1.0};
    fer_shares shares;
    CHECK_STATUS(fer_cheapest_target(&joint, &uncertainties, usual, 1e12, 1.0, &target, &shares),
                 FER_TARGET_DOES_NOT_EXIST);
    CHECK_NAN(target.mm);
}

static void both_ends_of_the_range_must_touch(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_ratio_range range = {{0.0}, {0.25}};
    const fer_model model = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_length_range window = {{1.0}, {1.0}};
    CHECK_STATUS(fer_crimp_window(&joint, range, model, &window), FER_COMPRESSION_WITHOUT_TOUCH);
    CHECK_NAN(window.lower.mm);
    CHECK_NAN(window.upper.mm);
}

/* Every diameter that the dial can show within reach is tried. */
static void no_other_dial_setting_is_better(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const double graduations[] = {0.1, 0.05, 0.3, 0.001}, anchor = 21.987;
    for (size_t i = 0; i < 4; i++) {
        for (int shape = 0; shape < 3; shape++) {
            fer_uncertainties uncertainties = uncertainties_of(0.3, 0.03);
            fer_length target;
            fer_shares best, other;
            uncertainties.stem_outside.amount = fer_mm(0.2);
            uncertainties.stem_outside.distribution = (fer_distribution)shape;
            CHECK_OK(fer_best_graduated_target(&joint, &uncertainties, usual, fer_mm(anchor),
                                               fer_mm(graduations[i]), &target, &best));
            const double steps = (target.mm - anchor) / graduations[i];
            CHECK_NEAR(steps, floor(steps + 0.5), 1e-9);
            for (int n = -30; n <= 30; n++) {
                const fer_length at = {target.mm + n * graduations[i]};
                if (at.mm < 20.0) {
                    continue;
                }
                CHECK_OK(fer_conforming_share(&joint, &uncertainties, usual, at, &other));
                assert_true(other.inside.fraction <= best.inside.fraction + 1e-12);
            }
        }
    }
    fer_length target = {1.0};
    fer_shares shares;
    const fer_uncertainties uncertainties = uncertainties_of(0.08, 0.03);
    CHECK_STATUS(
        fer_best_graduated_target(&joint, &uncertainties, usual, fer_mm(22), fer_mm(0), &target, &shares),
        FER_PRESS_GRADUATION_MISSING);
    CHECK_STATUS(
        fer_best_graduated_target(&joint, &uncertainties, usual, fer_mm(22), fer_mm(-1), &target, &shares),
        FER_PRESS_GRADUATION_OUT_OF_RANGE);
    CHECK_NAN(target.mm);
    CHECK_STATUS(
        fer_best_graduated_target(&joint, &uncertainties, usual, fer_mm(NAN), fer_mm(0.1), &target, &shares),
        FER_TARGET_OUT_OF_RANGE);
    CHECK_STATUS(
        fer_best_graduated_target(NULL, &uncertainties, usual, fer_mm(22), fer_mm(0.1), &target, &shares),
        FER_ARGUMENT_MISSING);
}

static void a_best_target_needs_normal_inputs(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = uncertainties_of(0.08, 0.03);
    fer_length target = {1.0};
    fer_shares shares;
    uncertainties.diameter.amount = fer_mm(0.1);
    uncertainties.diameter.distribution = FER_DISTRIBUTION_TRIANGULAR;
    CHECK_STATUS(fer_best_target(&joint, &uncertainties, usual, &target, &shares),
                 FER_UNCERTAINTY_NOT_NORMAL);
    CHECK_NAN(target.mm);
}

/* Only the crimp diameter varies, so the target is C + (D^2 + s^2 L)/(2 D) with D = 0.72 and L = 2 ln(cost ratio):
 * with costs 300 powers of ten apart it is no length any more. */
static void extreme_costs_leave_no_target(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_uncertainties uncertainties = {0};
    fer_length target = {1.0};
    fer_shares shares;
    uncertainties.diameter.amount = fer_mm(0.5);
    CHECK_STATUS(fer_cheapest_target(&joint, &uncertainties, usual, 1.0, 1e-300, &target, &shares),
                 FER_TARGET_DOES_NOT_EXIST);
    CHECK_NAN(target.mm);
    uncertainties.diameter.amount = fer_mm(50.0);
    CHECK_STATUS(fer_cheapest_target(&joint, &uncertainties, usual, 1.0, 1e300, &target, &shares),
                 FER_TARGET_DOES_NOT_EXIST);
    CHECK_NAN(shares.inside.fraction);
}

/* At 100 % the hose's uncertainty does not count, beyond it does. */
static void a_range_beyond_the_stem_needs_normal_inputs_too(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_ratio_range range = {{1.0}, {1.2}};
    fer_uncertainties uncertainties = {0};
    fer_length target = {1.0};
    fer_shares shares;
    uncertainties.diameter.amount = fer_mm(0.1);
    CHECK_OK(fer_best_target(&joint, &uncertainties, range, &target, &shares));
    uncertainties.hose_inside.amount = fer_mm(0.1);
    uncertainties.hose_inside.distribution = FER_DISTRIBUTION_RECTANGULAR;
    CHECK_STATUS(fer_best_target(&joint, &uncertainties, range, &target, &shares),
                 FER_UNCERTAINTY_NOT_NORMAL);
}

/* Steps of 10 mm from 0: the nearest to a target of 2.9 mm is no diameter. */
static void a_dial_may_have_no_setting_for_a_small_joint(void **state)
{
    (void)state;
    fer_joint joint = {0};
    fer_uncertainties uncertainties = {0};
    fer_length target = {1.0};
    fer_shares shares;
    joint.hose.inside = fer_mm(1.0);
    joint.hose.outside = fer_mm(2.0);
    joint.stem.outside = fer_mm(1.1);
    joint.ferrule.wall = fer_mm(0.5);
    uncertainties.diameter.amount = fer_mm(0.01);
    CHECK_STATUS(
        fer_best_graduated_target(&joint, &uncertainties, usual, fer_mm(0), fer_mm(10), &target, &shares),
        FER_TARGET_DOES_NOT_EXIST);
    CHECK_NAN(target.mm);
    CHECK_STATUS(
        fer_best_graduated_target(&joint, &uncertainties, usual, fer_mm(0), fer_mm(10.1), &target, &shares),
        FER_PRESS_GRADUATION_OUT_OF_RANGE);
    CHECK_STATUS(
        fer_best_graduated_target(&joint, &uncertainties, usual, fer_mm(0), fer_mm(0.1), NULL, &shares),
        FER_ARGUMENT_MISSING);
    CHECK_STATUS(
        fer_best_graduated_target(&joint, &uncertainties, usual, fer_mm(0), fer_mm(0.1), &target, NULL),
        FER_ARGUMENT_MISSING);
    CHECK_NAN(target.mm);
}

/* A window of hundreds of millimetres on a dial with 0.0001 mm: millions of steps, and the best is still the one beside
 * the exact best target. */
static void a_fine_dial_finds_its_best_step_soon(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_uncertainties uncertainties = {.hose_outside = {{0.3}, FER_DISTRIBUTION_NORMAL, 0.0},
                                             .stem_outside = {{0.1}, FER_DISTRIBUTION_NORMAL, 0.0}};
    const double minima[] = {-128.0, -3.0, 0.1, 0.24};
    for (size_t i = 0; i < sizeof minima / sizeof *minima; i++) {
        const fer_ratio_range range = {{minima[i]}, {0.25}};
        fer_length exact, target;
        fer_shares best, shares;
        CHECK_OK(fer_best_target(&joint, &uncertainties, range, &exact, &best));
        CHECK_OK(fer_best_graduated_target(&joint, &uncertainties, range, fer_mm(0.00003), fer_mm(0.0001),
                                           &target, &shares));
        CHECK_NEAR(shares.inside.fraction, best.inside.fraction, 1e-8); /* half a step beside the top */
        if (minima[i] > -3.0) { /* farther out the top is flat in doubles */
            CHECK_NEAR(target.mm, exact.mm, 0.0001);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_window_is_where_the_compression_is_in_the_range),
        cmocka_unit_test(no_other_target_is_better),
        cmocka_unit_test(equal_costs_give_the_best_share),
        cmocka_unit_test(equal_scatter_puts_the_target_into_the_middle),
        cmocka_unit_test(bad_input_has_its_status),
        cmocka_unit_test(a_window_needs_a_model_that_the_joint_has),
        cmocka_unit_test(where_no_best_target_exists_there_is_a_status),
        cmocka_unit_test(both_ends_of_the_range_must_touch),
        cmocka_unit_test(no_other_dial_setting_is_better),
        cmocka_unit_test(a_best_target_needs_normal_inputs),
        cmocka_unit_test(extreme_costs_leave_no_target),
        cmocka_unit_test(a_range_beyond_the_stem_needs_normal_inputs_too),
        cmocka_unit_test(a_dial_may_have_no_setting_for_a_small_joint),
        cmocka_unit_test(a_fine_dial_finds_its_best_step_soon),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
