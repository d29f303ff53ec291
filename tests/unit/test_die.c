/* SPDX-License-Identifier: MIT */
#include "check.h"

#include <time.h>

static const fer_die_needs nothing_else = {0};

static fer_die die_of(double size, double reach, int adapter, double length)
{
    const fer_die die = {{size}, {reach}, adapter, {length}};
    return die;
}

static void the_nearest_die_below_is_taken(void **state)
{
    (void)state;
    const fer_die rack[] = {die_of(25, 0, 0, 0), die_of(16, 0, 0, 0), die_of(22, 0, 0, 0),
                            die_of(19, 0, 0, 0)};
    fer_die_choice choice;
    CHECK_OK(fer_choose_die(rack, 4, fer_mm(23.51), nothing_else, &choice));
    assert_int_equal(choice.found, 1);
    assert_int_equal(choice.index, 2);
    CHECK_NEAR(choice.die.size.mm, 22.0, 0.0);
    CHECK_NEAR(choice.offset.mm, 1.51, 1e-14);
    CHECK_NEAR(choice.buy.upper.mm, 0.0, 0.0);
}

static void the_reach_belongs_to_the_die(void **state)
{
    (void)state;
    const fer_die rack[] = {die_of(18, 5, 0, 0), die_of(17, 8, 0, 0)};
    fer_die_choice choice;
    CHECK_OK(fer_choose_die(rack, 2, fer_mm(23.0), nothing_else, &choice));
    assert_int_equal(choice.index, 0); /* exactly size + reach */
    CHECK_OK(fer_choose_die(rack, 2, fer_mm(23.001), nothing_else, &choice));
    assert_int_equal(choice.index, 1);
    CHECK_OK(fer_choose_die(rack, 2, fer_mm(25.5), nothing_else, &choice));
    assert_int_equal(choice.found, 0);
    assert_int_equal(choice.index, 2);
    assert_int_equal(choice.nearest_index, 1);
    CHECK_NEAR(choice.nearest_distance.mm, 0.5, 1e-14);
    CHECK_NEAR(choice.buy.lower.mm, 18.5, 0.0);
    CHECK_NEAR(choice.buy.upper.mm, 25.5, 0.0);
    /* dies of 18 and 17 mm are above */
    CHECK_OK(fer_choose_die(rack, 2, fer_mm(16.0), nothing_else, &choice));
    assert_int_equal(choice.nearest_index, 1);
    const fer_die above[] = {die_of(17, 5, 0, 0), die_of(18, 5, 0, 0), die_of(17, 5, 0, 0)};
    CHECK_OK(fer_choose_die(above, 3, fer_mm(16.0), nothing_else, &choice));
    assert_int_equal(choice.found, 0);
    assert_int_equal(choice.nearest_index, 0); /* of equally near ones the first */
    CHECK_NEAR(choice.nearest_distance.mm, 1.0, 1e-14);
}

static void of_equal_sizes_the_adapter_in_the_press_decides(void **state)
{
    (void)state;
    const fer_die rack[] = {die_of(22, 0, 0, 0), die_of(22, 0, 1, 0), die_of(22, 0, 2, 0),
                            die_of(20, 0, 2, 0)};
    fer_die_choice choice;
    for (int mounted = 0; mounted <= 3; mounted++) {
        const fer_die_needs needs = {mounted, {0}};
        CHECK_OK(fer_choose_die(rack, 4, fer_mm(23.0), needs, &choice));
        assert_int_equal(choice.index, mounted == 3 ? 0 : mounted);
        assert_int_equal(choice.adapter_change, mounted == 3);
    }
}

static void a_die_that_is_too_short_is_left_out(void **state)
{
    (void)state;
    const fer_die rack[] = {die_of(22, 0, 0, 25), die_of(20, 0, 0, 40), die_of(19, 0, 0, 0)};
    const fer_die_needs needs = {0, {30.0}}, just = {0, {25.0}};
    fer_die_choice choice;
    CHECK_OK(fer_choose_die(rack, 3, fer_mm(23.0), needs, &choice));
    assert_int_equal(choice.index, 1);
    CHECK_OK(fer_choose_die(rack, 3, fer_mm(23.0), just, &choice));
    assert_int_equal(choice.index, 0);
    CHECK_OK(fer_choose_die(rack + 2, 1, fer_mm(23.0), needs, &choice)); /* length not known: taken */
    assert_int_equal(choice.found, 1);
}

static void an_empty_rack_says_what_to_buy(void **state)
{
    (void)state;
    fer_die_choice choice;
    CHECK_OK(fer_choose_die(NULL, 0, fer_mm(5.0), nothing_else, &choice));
    assert_int_equal(choice.found, 0);
    assert_int_equal(choice.nearest_found, 0);
    CHECK_NEAR(choice.buy.lower.mm, 0.001, 0.0);
    CHECK_NEAR(choice.buy.upper.mm, 5.0, 0.0);
}

static void gaps_are_what_no_die_reaches(void **state)
{
    (void)state;
    const fer_die rack[] = {die_of(40, 0, 0, 0), die_of(16, 0, 0, 0), die_of(19, 0, 0, 0),
                            die_of(30, 2, 0, 0)};
    const fer_length_range over = {{10.0}, {60.0}};
    fer_length_range gaps[5];
    size_t found;
    CHECK_OK(fer_find_coverage_gaps(rack, 4, over, gaps, 5, &found));
    assert_int_equal(found, 4);
    const double expected[4][2] = {
        {10, 16}, {26, 30}, {32, 40}, {47, 60}}; /* by hand: 16-26, 30-32, 40-47 are reached */
    for (size_t i = 0; i < 4; i++) {
        CHECK_NEAR(gaps[i].lower.mm, expected[i][0], 0.0);
        CHECK_NEAR(gaps[i].upper.mm, expected[i][1], 0.0);
    }
    CHECK_STATUS(fer_find_coverage_gaps(rack, 4, over, gaps, 3, &found), FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
    const fer_length_range inside = {{17.0}, {25.0}};
    CHECK_OK(fer_find_coverage_gaps(rack, 4, inside, gaps, 0, &found));
    assert_int_equal(found, 0);
}

static void greatest_size_plus_reach_buys_fewest(void **state)
{
    (void)state;
    /* "largest size" would take 18, which does not reach 25 */
    const fer_die offers[] = {die_of(18, 5, 0, 0), die_of(17, 8, 0, 0)};
    const fer_length targets[] = {{25.0}, {20.0}};
    fer_die purchases[2];
    size_t found;
    CHECK_OK(fer_choose_purchases(NULL, 0, targets, 2, offers, 2, purchases, 2, &found));
    assert_int_equal(found, 1);
    CHECK_NEAR(purchases[0].size.mm, 17.0, 0.0);
}

static void what_the_rack_reaches_is_not_bought(void **state)
{
    (void)state;
    const fer_die rack[] = {die_of(16, 0, 0, 0)};
    const fer_length targets[] = {{16.0}, {40.0}, {23.0}, {46.0}};
    fer_die purchases[4];
    size_t found;
    CHECK_OK(fer_choose_purchases(rack, 1, targets, 4, NULL, 0, purchases, 4, &found));
    assert_int_equal(found, 1);
    CHECK_NEAR(purchases[0].size.mm, 40.0, 0.0);
    CHECK_STATUS(fer_choose_purchases(rack, 1, targets, 4, NULL, 0, purchases, 0, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
    CHECK_STATUS(fer_choose_purchases(rack, 1, targets, 4, rack, 1, purchases, 4, &found),
                 FER_TARGET_WITHOUT_DIE);
}

/* Small whole numbers from a fixed seed. */
static unsigned next_number(unsigned *state, unsigned below)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 16) % below;
}

static int reaches_all(const fer_die *offers, unsigned chosen, const fer_length *targets, int target_count)
{
    for (int t = 0; t < target_count; t++) {
        int reached = 0;
        for (int i = 0; i < 8; i++) {
            const double end = offers[i].size.mm + offers[i].reach.mm;
            reached |= (chosen >> i & 1u) && offers[i].size.mm <= targets[t].mm && targets[t].mm <= end;
        }
        if (!reached) {
            return 0;
        }
    }
    return 1;
}

static int fewest_by_trying_all(const fer_die *offers, const fer_length *targets, int target_count)
{
    int fewest = 99;
    for (unsigned chosen = 0; chosen < 256; chosen++) {
        int size = 0;
        for (int i = 0; i < 8; i++) {
            size += (int)(chosen >> i & 1u);
        }
        if (size < fewest && reaches_all(offers, chosen, targets, target_count)) {
            fewest = size;
        }
    }
    return fewest;
}

static void no_smaller_purchase_does(void **state)
{
    (void)state;
    unsigned seed = 1;
    int solved = 0;
    for (int round = 0; round < 2000; round++) {
        fer_die offers[8], purchases[6];
        fer_length targets[6];
        size_t found;
        for (int i = 0; i < 8; i++) {
            offers[i] = die_of(10 + next_number(&seed, 30), 1 + next_number(&seed, 9), 0, 0);
        }
        for (int i = 0; i < 6; i++) {
            targets[i].mm = 10 + next_number(&seed, 38);
        }
        const int fewest = fewest_by_trying_all(offers, targets, 6);
        const fer_status status = fer_choose_purchases(NULL, 0, targets, 6, offers, 8, purchases, 6, &found);
        assert_int_equal(status == FER_OK, fewest < 99);
        if (fewest < 99) {
            assert_int_equal((int)found, fewest);
            solved++;
        }
    }
    assert_true(solved > 100);
}

static void bad_dies_have_their_status(void **state)
{
    (void)state;
    const struct {
        fer_die die;
        fer_status status;
    } bad[] = {
        {{{0.0}, {0}, 0, {0}}, FER_DIE_SIZE_MISSING},
        {{{NAN}, {0}, 0, {0}}, FER_DIE_SIZE_OUT_OF_RANGE},
        {{{22.0}, {-1.0}, 0, {0}}, FER_DIE_REACH_OUT_OF_RANGE},
        {{{22.0}, {NAN}, 0, {0}}, FER_DIE_REACH_OUT_OF_RANGE},
        {{{22.0}, {0}, -1, {0}}, FER_DIE_ADAPTER_OUT_OF_RANGE},
        {{{22.0}, {0}, 0, {-3}}, FER_DIE_LENGTH_OUT_OF_RANGE},
    };
    const fer_length_range over = {{10.0}, {60.0}};
    const fer_length target = {23.0};
    fer_die_choice choice;
    fer_length_range gaps[2];
    fer_die purchases[1];
    size_t found;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        choice.found = 7;
        CHECK_STATUS(fer_choose_die(&bad[i].die, 1, target, nothing_else, &choice), bad[i].status);
        assert_int_equal(choice.found, 0);
        CHECK_STATUS(fer_find_coverage_gaps(&bad[i].die, 1, over, gaps, 2, &found), bad[i].status);
        CHECK_STATUS(fer_choose_purchases(&bad[i].die, 1, &target, 1, NULL, 0, purchases, 1, &found),
                     bad[i].status);
        CHECK_STATUS(fer_choose_purchases(NULL, 0, &target, 1, &bad[i].die, 1, purchases, 1, &found),
                     bad[i].status);
    }
}

static void other_bad_input_has_its_status(void **state)
{
    (void)state;
    const fer_die die = die_of(22, 0, 0, 0);
    const fer_die_needs no_adapter = {-1, {0}}, no_length = {0, {-1.0}};
    const fer_length_range backward = {{60.0}, {10.0}}, endless = {{10.0}, {INFINITY}},
                           good = {{10.0}, {60.0}};
    const fer_length nan_target = {NAN};
    fer_die_choice choice;
    fer_length_range gaps[2];
    fer_die purchases[1];
    size_t found;
    CHECK_STATUS(fer_choose_die(&die, 1, fer_mm(NAN), nothing_else, &choice), FER_TARGET_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_die(&die, 1, fer_mm(23), no_adapter, &choice), FER_DIE_ADAPTER_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_die(&die, 1, fer_mm(23), no_length, &choice), FER_FERRULE_LENGTH_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_die(NULL, 1, fer_mm(23), nothing_else, &choice), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_die(&die, 1, fer_mm(23), nothing_else, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_coverage_gaps(&die, 1, backward, gaps, 2, &found), FER_DIAMETER_RANGE_WRONG_ORDER);
    CHECK_STATUS(fer_find_coverage_gaps(&die, 1, endless, gaps, 2, &found), FER_DIAMETER_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_coverage_gaps(&die, 10001, good, gaps, 2, &found), FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(fer_find_coverage_gaps(&die, 1, good, NULL, 2, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_coverage_gaps(&die, 1, good, gaps, 2, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_purchases(&die, 1, &nan_target, 1, NULL, 0, purchases, 1, &found),
                 FER_TARGET_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_purchases(&die, 1, NULL, 1, NULL, 0, purchases, 1, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_purchases(&die, 1, &nan_target, 1, NULL, 0, NULL, 1, &found),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_purchases(&die, 1, &nan_target, 1, NULL, 0, purchases, 1, NULL),
                 FER_ARGUMENT_MISSING);
}

/* Two of the same size and adapter: the first of them. */
static void of_equal_dies_the_first_is_taken(void **state)
{
    (void)state;
    const fer_die rack[] = {die_of(22, 0, 1, 0), die_of(22, 0, 1, 0), die_of(22, 0, 0, 0)};
    const fer_die_needs needs = {1, {0}};
    fer_die_choice choice;
    CHECK_OK(fer_choose_die(rack, 3, fer_mm(23.0), needs, &choice));
    assert_int_equal(choice.index, 0);
}

static void nothing_asked_is_nothing_found(void **state)
{
    (void)state;
    const fer_die die = die_of(22, 0, 0, 0);
    const fer_length_range inside = {{22.0}, {25.0}};
    size_t found = 7;
    CHECK_OK(fer_find_coverage_gaps(&die, 1, inside, NULL, 0, &found));
    assert_int_equal(found, 0);
    found = 7;
    CHECK_OK(fer_choose_purchases(&die, 1, NULL, 0, NULL, 0, NULL, 0, &found));
    assert_int_equal(found, 0);
}

static void sizes_beyond_their_range_have_their_status(void **state)
{
    (void)state;
    const fer_die far = die_of(22, 1000000.1, 0, 0), die = die_of(22, 0, 0, 0);
    const fer_length_range over = {{0.0}, {10.0}}, no_end = {{10.0}, {0.0}}, wrong = {{-1.0}, {10.0}};
    fer_die_choice choice;
    fer_length_range gaps[2];
    size_t found;
    CHECK_STATUS(fer_choose_die(&far, 1, fer_mm(23), nothing_else, &choice), FER_DIE_REACH_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_die(&die, 1, fer_mm(1000000.1), nothing_else, &choice), FER_TARGET_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_die(&die, 1, fer_mm(0), nothing_else, &choice), FER_TARGET_MISSING);
    CHECK_STATUS(fer_find_coverage_gaps(&die, 1, over, gaps, 2, &found), FER_DIAMETER_MISSING);
    CHECK_STATUS(fer_find_coverage_gaps(&die, 1, no_end, gaps, 2, &found), FER_DIAMETER_MISSING);
    CHECK_STATUS(fer_find_coverage_gaps(&die, 1, wrong, gaps, 2, &found), FER_DIAMETER_OUT_OF_RANGE);
}

/* Looking for the smallest of all that is left, each time anew over all purchases, would take a long time. */
static void twenty_thousand_targets_take_no_time(void **state)
{
    (void)state;
    enum { count = 20000 };
    static fer_length targets[count];
    static fer_die purchases[count];
    size_t found;
    for (int i = 0; i < count; i++) {
        targets[i].mm =
            10.0 + 8.0 * (i * 7919 % count); /* in disorder, none within the reach of another's die */
    }
    const clock_t begin = clock();
    CHECK_OK(fer_choose_purchases(NULL, 0, targets, count, NULL, 0, purchases, count, &found));
    assert_int_equal(found, count);
    CHECK_NEAR(purchases[count - 1].size.mm, 10.0 + 8.0 * (count - 1), 0.0);
    assert_true((double)(clock() - begin) / CLOCKS_PER_SEC < 5.0);
}

/* Thousands of targets, more than are sorted at a time, doubled and in disorder: the same purchases as by the rule itself,
 * the smallest target that nothing reaches, again and again. */
static void thousands_of_targets(void **state)
{
    (void)state;
    enum { count = 6000 };
    static fer_length targets[count];
    static fer_die purchases[count], expected[count];
    static int reached[count];
    const fer_die rack[] = {{{30}, {2.0}, 0, {0}}, {{31}, {3.0}, 0, {0}}};
    size_t found, wanted = 0;
    uint64_t number = 7;
    for (int i = 0; i < count; i++) {
        number = number * 6364136223846793005u + 1442695040888963407u;
        targets[i].mm = i % 3 == 0 && i > 0 ? targets[i / 2].mm : 20.0 + (double)(number >> 40) / 2000.0;
        reached[i] = targets[i].mm >= 30.0 && targets[i].mm <= 34.0;
    }
    for (;;) { /* by the rule, reach 7 mm where nothing is offered */
        double smallest = INFINITY;
        for (int i = 0; i < count; i++) {
            smallest = reached[i] ? smallest : fmin(smallest, targets[i].mm);
        }
        if (smallest == INFINITY) {
            break;
        }
        expected[wanted++].size.mm = smallest;
        for (int i = 0; i < count; i++) {
            reached[i] |= targets[i].mm >= smallest && targets[i].mm <= smallest + 7.0;
        }
    }
    assert_true(wanted > 1000 / 2);
    CHECK_OK(fer_choose_purchases(rack, 2, targets, count, NULL, 0, purchases, count, &found));
    assert_int_equal(found, wanted);
    for (size_t k = 0; k < wanted; k++) {
        CHECK_NEAR(purchases[k].size.mm, expected[k].size.mm, 0.0);
    }
    CHECK_STATUS(fer_choose_purchases(rack, 2, targets, count, NULL, 0, purchases, wanted - 1, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(thousands_of_targets),
        cmocka_unit_test(twenty_thousand_targets_take_no_time),
        cmocka_unit_test(the_nearest_die_below_is_taken),
        cmocka_unit_test(the_reach_belongs_to_the_die),
        cmocka_unit_test(of_equal_sizes_the_adapter_in_the_press_decides),
        cmocka_unit_test(a_die_that_is_too_short_is_left_out),
        cmocka_unit_test(an_empty_rack_says_what_to_buy),
        cmocka_unit_test(gaps_are_what_no_die_reaches),
        cmocka_unit_test(greatest_size_plus_reach_buys_fewest),
        cmocka_unit_test(what_the_rack_reaches_is_not_bought),
        cmocka_unit_test(no_smaller_purchase_does),
        cmocka_unit_test(bad_dies_have_their_status),
        cmocka_unit_test(other_bad_input_has_its_status),
        cmocka_unit_test(of_equal_dies_the_first_is_taken),
        cmocka_unit_test(nothing_asked_is_nothing_found),
        cmocka_unit_test(sizes_beyond_their_range_have_their_status),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
