/* SPDX-License-Identifier: MIT */
/* Module sampling. R: 4.2.2, SciPy: 1.10.1. */
#include "check.h"

#define CHECK_RELATIVE(actual, expected, tolerance) CHECK_NEAR(actual, expected, (tolerance)*fabs(expected))

static fer_ratio share(double fraction)
{
    const fer_ratio ratio = {fraction};
    return ratio;
}

static fer_pressure mpa(double number)
{
    const fer_pressure pressure = {number};
    return pressure;
}

static fer_plan plan_of(size_t pieces, size_t accept, size_t lot)
{
    const fer_plan plan = {pieces, accept, lot};
    return plan;
}

static fer_plan_aim aim_of(double good, double producer, double bad, double consumer, size_t lot)
{
    const fer_plan_aim aim = {{good}, {bad}, {producer}, {consumer}, lot};
    return aim;
}

/* ---- plans by counting ----------------------------------------------------------------------------------- */

static double choose(int n, int k)
{
    double product = 1.0;
    for (int i = 1; i <= k; i++) {
        product = product * (n - k + i) / i;
    }
    return k < 0 || k > n ? 0.0 : product;
}

/* Each term by hand, for all small plans. */
static void a_plan_accepts_as_often_as_its_terms_say(void **state)
{
    (void)state;
    for (int n = 1; n <= 12; n++) {
        for (int c = 0; c < n; c++) {
            for (int tenths = 0; tenths <= 10; tenths++) {
                const double p = tenths / 10.0;
                double sum = 0.0;
                for (int x = 0; x <= c; x++) {
                    sum += choose(n, x) * pow(p, x) * pow(1.0 - p, n - x);
                }
                const fer_plan plan = plan_of((size_t)n, (size_t)c, 0);
                fer_ratio found;
                CHECK_OK(fer_find_acceptance(&plan, share(p), &found));
                CHECK_NEAR(found.fraction, sum, 1e-14);
            }
        }
    }
}

static void a_plan_of_a_lot_accepts_as_often_as_its_terms_say(void **state)
{
    (void)state;
    const int lot = 15;
    for (int n = 1; n <= lot; n++) {
        for (int c = 0; c < n; c++) {
            for (int bad = 0; bad <= lot; bad++) {
                double sum = 0.0;
                for (int x = 0; x <= c; x++) {
                    sum += choose(bad, x) * choose(lot - bad, n - x) / choose(lot, n);
                }
                const fer_plan plan = plan_of((size_t)n, (size_t)c, (size_t)lot);
                fer_ratio found;
                CHECK_OK(fer_find_acceptance(&plan, share(bad / 15.0), &found));
                CHECK_NEAR(found.fraction, sum, 1e-14);
            }
        }
    }
}

/* Shares of whole pieces but for their rounding; others are rounded down, since more bad ones are accepted more seldom. */
static void a_share_of_a_lot_is_rounded_down(void **state)
{
    (void)state;
    const fer_plan plan = plan_of(20, 1, 100);
    fer_ratio found, more;
    CHECK_OK(fer_find_acceptance(&plan, share(0.29), &found)); /* 0.29 * 100 is below 29 */
    CHECK_NEAR(found.fraction, 0.00511041463600283, 1e-15);    /* SciPy, hypergeom */
    CHECK_OK(fer_find_acceptance(&plan, share(0.2999), &more));
    CHECK_NEAR(more.fraction, found.fraction, 0.0);
}

/* A large lot, both tails: SciPy, hypergeom. */
static void large_lots_keep_their_digits(void **state)
{
    (void)state;
    fer_ratio found;
    const fer_plan rare = plan_of(2000, 60, 1000000), often = plan_of(2000, 140, 1000000);
    CHECK_OK(fer_find_acceptance(&rare, share(0.05), &found));
    CHECK_RELATIVE(found.fraction, 6.89947059437e-06, 1e-9);
    CHECK_OK(fer_find_acceptance(&often, share(0.05), &found));
    CHECK_NEAR(1.0 - found.fraction, 3.9801314959e-05, 1e-12);
}

static void plans_for_two_risks(void **state)
{
    (void)state;
    fer_plan_choice choice;
    const fer_plan_aim wide = aim_of(0.05, 0.05, 0.15, 0.075, 0), close = aim_of(0.01, 0.0, 0.05, 0.0, 0);
    const fer_plan_aim far = aim_of(0.01, 0.05, 0.1, 0.1, 0), lot = aim_of(0.05, 0.05, 0.15, 0.075, 100);
    CHECK_OK(fer_choose_plan(&wide, &choice));
    assert_int_equal(choice.plan.pieces, 80);
    assert_int_equal(choice.plan.accept, 7);
    assert_int_equal(choice.plan.lot, 0);
    CHECK_NEAR(choice.producer_risk.fraction, 0.046592, 5e-7);
    CHECK_NEAR(choice.consumer_risk.fraction, 0.072717, 5e-7);
    CHECK_OK(fer_choose_plan(&close, &choice)); /* the usual risks; R, pbinom */
    assert_int_equal(choice.plan.pieces, 132);
    assert_int_equal(choice.plan.accept, 3);
    CHECK_OK(fer_choose_plan(&far, &choice)); /* R, pbinom */
    assert_int_equal(choice.plan.pieces, 52);
    assert_int_equal(choice.plan.accept, 2);
    CHECK_OK(fer_choose_plan(&lot, &choice)); /* R, phyper */
    assert_int_equal(choice.plan.pieces, 47);
    assert_int_equal(choice.plan.accept, 4);
    assert_int_equal(choice.plan.lot, 100);
    CHECK_NEAR(choice.producer_risk.fraction, 0.020374, 5e-7);
    CHECK_NEAR(choice.consumer_risk.fraction, 0.074802, 5e-7);
}

/* Of all plans that keep both risks none accepts fewer, and none with as many has fewer pieces: tried one after the other. */
static void no_smaller_plan_does(void **state)
{
    (void)state;
    static const double goods[] = {0.0, 0.01, 0.04, 0.1}, bads[] = {0.12, 0.2, 0.4, 0.8};
    for (size_t i = 0; i < 64; i++) {
        const size_t lot = i % 2 ? 60 : 0;
        const fer_plan_aim aim = aim_of(goods[i / 2 % 4], 0.1, bads[i / 8 % 4], i / 32 ? 0.02 : 0.1, lot);
        fer_plan_choice choice;
        CHECK_OK(fer_choose_plan(&aim, &choice));
        assert_true(choice.producer_risk.fraction <= 0.1 &&
                    choice.consumer_risk.fraction <= aim.consumer_risk.fraction);
        for (size_t c = 0; c <= choice.plan.accept; c++) {
            const size_t last = c == choice.plan.accept ? choice.plan.pieces - 1 : lot ? lot : 300;
            for (size_t n = c + 1; n <= last; n++) {
                const fer_plan plan = plan_of(n, c, lot);
                fer_ratio good, bad;
                CHECK_OK(fer_find_acceptance(&plan, aim.good, &good));
                CHECK_OK(fer_find_acceptance(&plan, aim.bad, &bad));
                assert_false(good.fraction >= 0.9 && bad.fraction <= aim.consumer_risk.fraction);
            }
        }
    }
}

/* All pieces of a lot are looked at where nothing else does; a probability that is the risk but for its rounding keeps it. */
static void the_ends_of_plans(void **state)
{
    (void)state;
    fer_plan_choice choice;
    const fer_plan_aim whole = aim_of(0.1, 1e-6, 0.2, 1e-6, 10), half = aim_of(0.0, 0.0, 0.5, 0.5, 0);
    CHECK_OK(fer_choose_plan(&whole, &choice));
    assert_int_equal(choice.plan.pieces, 10);
    assert_int_equal(choice.plan.accept, 1);
    CHECK_NEAR(choice.producer_risk.fraction, 0.0, 0.0);
    CHECK_NEAR(choice.consumer_risk.fraction, 0.0, 0.0);
    CHECK_OK(fer_choose_plan(&half, &choice));
    assert_int_equal(choice.plan.pieces, 1);
    const fer_plan_aim tenth = aim_of(0.0, 0.0, 0.1, 0.81, 0), rounded = aim_of(0.0, 0.0, 0.9, 0.1, 0);
    CHECK_STATUS(fer_choose_plan(&tenth, &choice), FER_PLAN_RISK_OUT_OF_RANGE);
    CHECK_OK(fer_choose_plan(&rounded, &choice)); /* 1 - 0.9 is above 0.1 as doubles are */
    assert_int_equal(choice.plan.pieces, 1);
    const fer_plan_aim large = aim_of(0.0, 0.05, 0.01, 0.1, 1000000);
    CHECK_OK(fer_choose_plan(&large, &choice)); /* 230 of an endless lot: ln 0.1/ln 0.99 = 229.1 */
    assert_int_equal(choice.plan.pieces, 230);
    const fer_plan_aim last = aim_of(0.0, 0.05, 2.3024e-4, 0.1, 0),
                       beyond = aim_of(0.0, 0.05, 2.3022e-4, 0.1, 0);
    CHECK_OK(fer_choose_plan(&last, &choice)); /* ln 0.1/ln(1 - p) is 9999.6, and 10000.4 */
    assert_int_equal(choice.plan.pieces, 10000);
    CHECK_STATUS(fer_choose_plan(&beyond, &choice), FER_PLAN_NOT_REACHABLE);
    assert_int_equal(choice.plan.pieces, 0);
    CHECK_NAN(choice.producer_risk.fraction);
    CHECK_NAN(choice.consumer_risk.fraction);
}

static void plans_that_are_refused(void **state)
{
    (void)state;
    fer_plan_choice choice;
    fer_ratio found;
    const fer_plan good = plan_of(10, 1, 0);
    const fer_plan none = plan_of(0, 0, 0), many = plan_of(10001, 0, 0), above = plan_of(10, 0, 9);
    const fer_plan all = plan_of(10, 10, 0), large = plan_of(10, 1, 1000001);
    CHECK_STATUS(fer_find_acceptance(&good, share(0.1), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_acceptance(NULL, share(0.1), &found), FER_ARGUMENT_MISSING);
    CHECK_NAN(found.fraction);
    CHECK_STATUS(fer_find_acceptance(&none, share(0.1), &found), FER_PLAN_PIECES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_acceptance(&many, share(0.1), &found), FER_PLAN_PIECES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_acceptance(&above, share(0.1), &found), FER_PLAN_PIECES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_acceptance(&all, share(0.1), &found), FER_PLAN_ACCEPT_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_acceptance(&large, share(0.1), &found), FER_PLAN_LOT_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_acceptance(&good, share(-1e-9), &found), FER_PLAN_SHARE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_acceptance(&good, share(1.0001), &found), FER_PLAN_SHARE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_acceptance(&good, share(NAN), &found), FER_PLAN_SHARE_OUT_OF_RANGE);
    CHECK_NAN(found.fraction);
    static const struct {
        double good, producer, bad, consumer;
        size_t lot;
        fer_status status;
    } cases[] = {{-0.01, 0, 0.1, 0, 0, FER_PLAN_SHARE_OUT_OF_RANGE},
                 {0.901, 0, 0.99, 0, 0, FER_PLAN_SHARE_OUT_OF_RANGE},
                 {0.01, 0, 0.991, 0, 0, FER_PLAN_SHARE_OUT_OF_RANGE},
                 {0.0, 0, 0.99e-4, 0, 0, FER_PLAN_SHARE_OUT_OF_RANGE},
                 {0.1, 0, 0.1, 0, 0, FER_PLAN_SHARES_WRONG_ORDER},
                 {0.1, 0.51, 0.2, 0, 0, FER_PLAN_RISK_OUT_OF_RANGE},
                 {0.1, 0, 0.2, 0.51, 0, FER_PLAN_RISK_OUT_OF_RANGE},
                 {0.1, 0.9e-6, 0.2, 0, 0, FER_PLAN_RISK_OUT_OF_RANGE},
                 {0.1, 0, 0.2, 0.9e-6, 0, FER_PLAN_RISK_OUT_OF_RANGE},
                 {0.1, 0, 0.2, 0, 1000001, FER_PLAN_LOT_OUT_OF_RANGE},
                 {0.1, 0, 0.2, 0, 4, FER_PLAN_LOT_TOO_SMALL},
                 {0.45, 0, 0.451, 0, 0, FER_PLAN_NOT_REACHABLE}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const fer_plan_aim aim =
            aim_of(cases[i].good, cases[i].producer, cases[i].bad, cases[i].consumer, cases[i].lot);
        CHECK_STATUS(fer_choose_plan(&aim, &choice), cases[i].status);
        CHECK_NAN(choice.consumer_risk.fraction);
    }
    CHECK_STATUS(fer_choose_plan(NULL, &choice), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_plan(NULL, NULL), FER_ARGUMENT_MISSING);
}

/* Arithmetic, and R, phyper. */
static void pieces_without_a_bad_one(void **state)
{
    (void)state;
    static const struct {
        double share, confidence;
        size_t lot, pieces;
    } cases[] = {{0.0, 0.0, 0, 45},     {0.9, 0.9, 0, 22},   {0.99, 0.95, 0, 299},
                 {0.1, 0.9, 0, 1},      {0.94, 0.9, 50, 27}, {0.95, 0.9, 100, 37},
                 {0.95, 0.9, 1000, 44}, {0.99, 0.9, 10, 9},  {0.95, 0.9, 20, 18},
                 {0.95, 0.9, 1, 1},     {0.01, 0.51, 1, 1},  {0.3162277660168379, 0.9, 0, 2}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        fer_pieces_needed needed;
        CHECK_OK(
            fer_find_clean_pieces(share(cases[i].share), share(cases[i].confidence), cases[i].lot, &needed));
        assert_int_equal(needed.pieces, cases[i].pieces);
        assert_true(needed.reached.fraction >= 0.9 - 1e-12 || cases[i].confidence < 0.9);
    }
    fer_pieces_needed needed;
    CHECK_OK(fer_find_clean_pieces(share(0.95), share(0.9), 0, &needed));
    CHECK_NEAR(needed.reached.fraction, 1.0 - pow(0.95, 45), 1e-14);
    CHECK_OK(
        fer_find_clean_pieces(share(0.9), share(0.9), 10, &needed)); /* one bad of ten: nine of ten find it */
    assert_int_equal(needed.pieces, 9);
    CHECK_NEAR(needed.reached.fraction, 0.9, 1e-14);
    CHECK_STATUS(fer_find_clean_pieces(share(0.95), share(0.9), 0, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_clean_pieces(share(0.009), share(0.9), 0, &needed), FER_CONTENT_OUT_OF_RANGE);
    assert_int_equal(needed.pieces, 0);
    CHECK_NAN(needed.reached.fraction);
    CHECK_STATUS(fer_find_clean_pieces(share(0.95), share(0.5), 0, &needed), FER_CONFIDENCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_clean_pieces(share(0.95), share(0.9), 1000001, &needed), FER_PLAN_LOT_OUT_OF_RANGE);
}

/* ---- stages ---------------------------------------------------------------------------------------------- */

enum { stages_maximum = 10000 };
static fer_plan_stage stages[stages_maximum];

/* Wald's lines of 1 %, 5 % against 10 %, 10 % (NIST/SEMATECH e-Handbook 7.2.6.2: 0.0397, 0.939, 1.205; from memory): s 0.0397474, h0 0.9388616, h1 1.2053786. The first that accepts is the 24th piece, since
 * 23 s is below h0 and 24 s above it; two bad ones refuse up to the 19th, three from the 20th on. */
static void walds_lines_of_a_handbook(void **state)
{
    (void)state;
    const fer_plan_aim aim = aim_of(0.01, 0.05, 0.1, 0.1, 0);
    size_t found;
    CHECK_OK(fer_choose_stages(&aim, stages, stages_maximum, &found));
    assert_int_equal(stages[22].accept, -1);
    assert_int_equal(stages[23].accept, 0);
    assert_int_equal(stages[0].refuse, 2);
    assert_int_equal(stages[18].refuse, 2);
    assert_int_equal(stages[19].refuse, 3);
    fer_stages_risk risk;
    CHECK_OK(fer_find_stages_risk(stages, found, 0, share(0.01), &risk));
    assert_true(risk.accepted.fraction >= 0.95);
    CHECK_NEAR(risk.pieces, 29.6,
               0.05); /* a program in Python that carries the distribution on in a dictionary */
    CHECK_OK(fer_find_stages_risk(stages, found, 0, share(0.1), &risk));
    assert_true(risk.accepted.fraction <= 0.1);
    CHECK_NEAR(risk.pieces, 21.5, 0.05);
    /* one piece fewer does not keep the consumer's risk */
    stages[found - 2].accept = stages[found - 1].accept;
    CHECK_OK(fer_find_stages_risk(stages, found - 1, 0, share(0.1), &risk));
    assert_true(risk.accepted.fraction > 0.1);
}

/* What is left out can change nothing: the same probability as that of the plan; with no bad one accepted (1 - q^n)/p pieces. */
static void a_curtailed_plan_keeps_its_risks(void **state)
{
    (void)state;
    static const fer_plan plans[] = {{52, 2, 0}, {20, 0, 0}, {30, 4, 100}, {12, 11, 12}, {1, 0, 0}};
    for (size_t i = 0; i < sizeof plans / sizeof *plans; i++) {
        size_t found;
        CHECK_OK(fer_curtail_plan(&plans[i], stages, plans[i].pieces, &found));
        assert_int_equal(found, plans[i].pieces);
        for (int percent = 0; percent <= 100; percent += 5) {
            fer_stages_risk risk;
            fer_ratio accepted;
            CHECK_OK(fer_find_stages_risk(stages, found, plans[i].lot, share(percent / 100.0), &risk));
            CHECK_OK(fer_find_acceptance(&plans[i], share(percent / 100.0), &accepted));
            CHECK_NEAR(risk.accepted.fraction, accepted.fraction, 2e-14);
            assert_true(risk.pieces <= (double)found * (1.0 + 1e-14));
        }
    }
    const fer_plan clean = plan_of(20, 0, 0);
    size_t found;
    fer_stages_risk risk;
    CHECK_OK(fer_curtail_plan(&clean, stages, 20, &found));
    CHECK_OK(fer_find_stages_risk(stages, 20, 0, share(0.1), &risk));
    CHECK_RELATIVE(risk.pieces, (1.0 - pow(0.9, 20)) / 0.1, 1e-14);
    assert_int_equal(stages[18].accept, -1);
    assert_int_equal(stages[19].accept, 0);
    assert_int_equal(stages[0].refuse, 1);
    /* one bad of a lot of two, one of them looked at: by hand */
    const fer_plan pair = plan_of(1, 0, 2);
    CHECK_OK(fer_curtail_plan(&pair, stages, 20, &found));
    CHECK_OK(fer_find_stages_risk(stages, 1, 2, share(0.5), &risk));
    CHECK_NEAR(risk.accepted.fraction, 0.5, 0.0);
    CHECK_NEAR(risk.pieces, 1.0, 0.0);
}

/* Every result of up to twelve pieces, each path by itself. */
static void stages_agree_with_all_paths(void **state)
{
    (void)state;
    static const fer_plan_stage own[12] = {{-1, 2}, {-1, 3}, {-1, 3}, {0, 3}, {0, 3}, {0, 4},
                                           {0, 4},  {1, 4},  {1, 4},  {1, 4}, {2, 4}, {2, 3}};
    const double p = 0.3;
    double accepted = 0.0, pieces = 0.0;
    for (int path = 0; path < 4096; path++) {
        double probability = 1.0;
        int bad = 0, decided = 0;
        for (int i = 0; i < 12; i++) {
            const int is_bad = path >> i & 1;
            probability *= is_bad ? p : 1.0 - p;
            if (decided) {
                continue;
            }
            bad += is_bad;
            decided = bad <= own[i].accept ? 1 : bad >= own[i].refuse ? 2 : 0;
            if (decided) { /* how, and after how many */
                bad = decided == 1 ? -100 - i : 100 + i;
            }
        }
        assert_true(decided);
        accepted += bad < 0 ? probability : 0.0;
        pieces += probability * ((bad < 0 ? -100 - bad : bad - 100) + 1);
    }
    fer_stages_risk risk;
    CHECK_OK(fer_find_stages_risk(own, 12, 0, share(p), &risk));
    CHECK_NEAR(risk.accepted.fraction, accepted, 1e-14);
    CHECK_RELATIVE(risk.pieces, pieces, 1e-13);
}

/* Each choice keeps both risks, by its own exact figures, and takes fewer pieces on average than the plan that looks at all. */
static void stages_keep_the_risks(void **state)
{
    (void)state;
    static const double cases[][4] = {
        {0.01, 0.05, 0.1, 0.1},   {0.02, 0.05, 0.2, 0.1}, {0.05, 0.05, 0.3, 0.1},  {0.01, 0.05, 0.05, 0.1},
        {0.3, 0.2, 0.6, 0.3},     {0.1, 0.5, 0.3, 0.5},   {0.01, 1e-6, 0.1, 1e-6}, {0.001, 0.5, 0.5, 0.5},
        {0.04, 0.02, 0.06, 0.02}, {0.5, 0.4, 0.6, 0.45},  {0.9, 0.05, 0.99, 0.1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const fer_plan_aim aim = aim_of(cases[i][0], cases[i][1], cases[i][2], cases[i][3], 0);
        fer_stages_risk good, bad;
        fer_plan_choice choice;
        size_t found;
        CHECK_OK(fer_choose_stages(&aim, stages, stages_maximum, &found));
        CHECK_OK(fer_choose_plan(&aim, &choice));
        CHECK_OK(fer_find_stages_risk(stages, found, 0, aim.good, &good));
        CHECK_OK(fer_find_stages_risk(stages, found, 0, aim.bad, &bad));
        assert_true(good.accepted.fraction >= 1.0 - cases[i][1] - 1e-12);
        assert_true(bad.accepted.fraction <= cases[i][3] + 1e-12);
        assert_true(good.pieces <= (double)choice.plan.pieces && bad.pieces <= (double)choice.plan.pieces);
    }
}

static void stages_that_are_refused(void **state)
{
    (void)state;
    const fer_plan_aim aim = aim_of(0.01, 0.05, 0.1, 0.1, 0), none = aim_of(0.0, 0.05, 0.1, 0.1, 0);
    const fer_plan_aim far = aim_of(0.0495, 0.05, 0.055, 0.05, 0), close = aim_of(0.45, 0.05, 0.451, 0.05, 0);
    const fer_plan plan = plan_of(10, 1, 0), many = plan_of(1000, 500, 0), most = plan_of(1000, 499, 0);
    fer_stages_risk risk;
    size_t found = 7;
    CHECK_STATUS(fer_choose_stages(&aim, stages, stages_maximum, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_stages(&aim, NULL, stages_maximum, &found), FER_ARGUMENT_MISSING);
    assert_int_equal(found, 0);
    CHECK_STATUS(fer_choose_stages(NULL, stages, stages_maximum, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_stages(&none, stages, stages_maximum, &found), FER_PLAN_SHARE_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_stages(&aim, stages, 10, &found), FER_ARGUMENT_CAPACITY_TOO_SMALL);
    CHECK_STATUS(fer_choose_stages(&close, stages, stages_maximum, &found), FER_PLAN_NOT_REACHABLE);
    CHECK_STATUS(fer_choose_stages(&far, stages, stages_maximum, &found), FER_PLAN_NOT_REACHABLE);
    const fer_plan_aim many_bad =
        aim_of(0.1, 0.1, 0.11, 0.1, 0); /* 6000 pieces or so, more than 500 of them bad */
    CHECK_STATUS(fer_choose_stages(&many_bad, stages, stages_maximum, &found), FER_PLAN_NOT_REACHABLE);
    assert_int_equal(found, 0);
    CHECK_STATUS(fer_curtail_plan(&plan, stages, 10, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_curtail_plan(NULL, stages, 10, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_curtail_plan(&plan, NULL, 10, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_curtail_plan(&plan, stages, 9, &found), FER_ARGUMENT_CAPACITY_TOO_SMALL);
    CHECK_STATUS(fer_curtail_plan(&many, stages, stages_maximum, &found), FER_PLAN_ACCEPT_OUT_OF_RANGE);
    CHECK_OK(fer_curtail_plan(&most, stages, stages_maximum, &found));
    CHECK_OK(fer_find_stages_risk(stages, found, 0, share(0.499), &risk));
    CHECK_NEAR(risk.accepted.fraction, 0.512620935928872, 1e-12); /* SciPy, binom */
    const fer_plan wrong = plan_of(0, 0, 0);
    CHECK_STATUS(fer_curtail_plan(&wrong, stages, stages_maximum, &found), FER_PLAN_PIECES_OUT_OF_RANGE);
    static const fer_plan_stage low[1] = {{-2, 1}}, order[2] = {{0, 0}, {0, 1}}, zero[1] = {{-1, 0}};
    static const fer_plan_stage high[1] = {{500, 501}}, open[2] = {{-1, 2}, {0, 2}},
                                good[2] = {{-1, 2}, {0, 1}};
    CHECK_STATUS(fer_find_stages_risk(good, 2, 0, share(0.1), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_stages_risk(NULL, 2, 0, share(0.1), &risk), FER_ARGUMENT_MISSING);
    CHECK_NAN(risk.accepted.fraction);
    CHECK_NAN(risk.pieces);
    CHECK_STATUS(fer_find_stages_risk(good, 0, 0, share(0.1), &risk), FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(fer_find_stages_risk(good, 10001, 0, share(0.1), &risk), FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(fer_find_stages_risk(low, 1, 0, share(0.1), &risk), FER_STAGES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_stages_risk(order, 2, 0, share(0.1), &risk), FER_STAGES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_stages_risk(zero, 1, 0, share(0.1), &risk), FER_STAGES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_stages_risk(high, 1, 0, share(0.1), &risk), FER_STAGES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_stages_risk(open, 2, 0, share(0.1), &risk), FER_STAGES_NEVER_END);
    CHECK_STATUS(fer_find_stages_risk(good, 2, 1, share(0.1), &risk), FER_PLAN_PIECES_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_stages_risk(good, 2, 1000001, share(0.1), &risk), FER_PLAN_LOT_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_stages_risk(good, 2, 0, share(-0.1), &risk), FER_PLAN_SHARE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_stages_risk(good, 2, 0, share(1.1), &risk), FER_PLAN_SHARE_OUT_OF_RANGE);
}

/* ---- plans by measuring ---------------------------------------------------------------------------------- */

static const fer_measuring exact = {{0.0}, 0.0, {0.0}, {0.0}};

/* Formula, and noncentral t in SciPy and R. */
static void plans_by_measuring(void **state)
{
    (void)state;
    const fer_plan_aim aim = aim_of(0.01, 0.0, 0.05, 0.0, 0);
    const fer_length known = {0.03}, of_sample = {0.0};
    fer_measured_choice choice;
    CHECK_OK(fer_choose_measured_plan(&aim, known, exact, &choice));
    assert_int_equal(choice.plan.pieces, 19);
    assert_int_equal(choice.plan.deviation_known, 1);
    CHECK_NEAR(choice.pieces_exact, 18.4393, 5e-5);
    CHECK_NEAR(choice.plan.factor, 1.943298, 5e-7);
    CHECK_RELATIVE(choice.plan.mean_deviation, 1.0 / sqrt(19.0), 1e-15);
    assert_true(choice.producer_risk.fraction < 0.05 && choice.consumer_risk.fraction < 0.1);
    CHECK_NAN(choice.share_limit.fraction);
    CHECK_OK(fer_choose_measured_plan(&aim, of_sample, exact, &choice));
    assert_int_equal(choice.plan.pieces, 55);
    assert_int_equal(choice.plan.deviation_known, 0);
    CHECK_NEAR(choice.pieces_exact, 55.0, 0.0);
    CHECK_NEAR(choice.plan.factor, 1.948071, 5e-7);
    CHECK_NEAR(choice.plan.mean_deviation, 0.0, 0.0);
    CHECK_NEAR(choice.consumer_risk.fraction, 0.1, 1e-12);
    assert_true(choice.producer_risk.fraction <= 0.05);
    CHECK_NEAR(choice.share_limit.fraction, 0.0241492010149, 1e-11); /* SciPy, betainc */
    /* one piece fewer would refuse too many good lots: SciPy, nct */
    const fer_measured_plan fewer = {54, 1.95130207044, 0, 0.0};
    fer_ratio accepted;
    CHECK_OK(fer_find_measured_acceptance(&fewer, share(0.05), &accepted));
    CHECK_NEAR(accepted.fraction, 0.1, 1e-6);
    CHECK_OK(fer_find_measured_acceptance(&fewer, share(0.01), &accepted));
    assert_true(accepted.fraction < 0.95);
}

/* The gauge's variance within makes the number larger by 1 + g²/s²; what is common to all pieces no number takes away. By hand. */
static void a_gauge_takes_pieces(void **state)
{
    (void)state;
    const fer_plan_aim aim = aim_of(0.01, 0.05, 0.05, 0.1, 0);
    const fer_length known = {0.03};
    fer_measuring gauge = {{0.015}, 20.0, {0.0}, {0.01}};
    fer_measured_choice plain, choice;
    fer_ratio accepted;
    CHECK_OK(fer_choose_measured_plan(&aim, known, exact, &plain));
    CHECK_OK(fer_choose_measured_plan(&aim, known, gauge, &choice));
    CHECK_RELATIVE(choice.pieces_exact, 1.25 * plain.pieces_exact, 1e-14);
    assert_int_equal(choice.plan.pieces, 24);
    CHECK_RELATIVE(choice.plan.mean_deviation, sqrt(1.25 / 24.0), 1e-14);
    CHECK_NEAR(choice.plan.factor, plain.plan.factor, 0.0);
    gauge.common.mm = 0.003;
    CHECK_OK(fer_choose_measured_plan(&aim, known, gauge, &choice));
    CHECK_RELATIVE(choice.pieces_exact, 1.25 / (1.0 / plain.pieces_exact - 0.01), 1e-13);
    CHECK_RELATIVE(choice.plan.mean_deviation, sqrt(1.25 / (double)choice.plan.pieces + 0.01), 1e-14);
    CHECK_OK(fer_find_measured_acceptance(&choice.plan, share(0.05), &accepted));
    CHECK_NEAR(accepted.fraction, choice.consumer_risk.fraction, 0.0);
    assert_true(accepted.fraction <= 0.1);
    /* one without a deviation of its mean has 1/root n: for k 1.6448536 half of 5 % are accepted */
    fer_measured_plan half = {10, 1.6448536269514722, 1, 0.0};
    CHECK_OK(fer_find_measured_acceptance(&half, share(0.05), &accepted));
    CHECK_NEAR(accepted.fraction, 0.5, 1e-14);
    CHECK_OK(fer_find_measured_acceptance(&half, share(0.025),
                                          &accepted)); /* (1.9599640 - 1.6448536) root 10 = 0.9964667 */
    CHECK_NEAR(accepted.fraction, 0.840488, 1e-5);
    half.pieces = 1;
    CHECK_OK(fer_find_measured_acceptance(&half, share(0.5), &accepted));
    CHECK_NEAR(accepted.fraction, 0.05, 1e-14);
    gauge.common.mm = 0.03 / sqrt(18.0);
    CHECK_STATUS(fer_choose_measured_plan(&aim, known, gauge, &choice), FER_PLAN_NOT_REACHABLE);
    assert_int_equal(choice.plan.pieces, 0);
    CHECK_NAN(choice.plan.factor);
    CHECK_NAN(choice.plan.mean_deviation);
    CHECK_NAN(choice.pieces_exact);
}

static void measured_plans_that_are_refused(void **state)
{
    (void)state;
    const fer_plan_aim aim = aim_of(0.01, 0.05, 0.05, 0.1, 0), none = aim_of(0.0, 0.05, 0.05, 0.1, 0);
    const fer_plan_aim close = aim_of(0.05, 0.05, 0.0505, 0.05, 0), easy = aim_of(0.001, 0.5, 0.9, 0.5, 0);
    const fer_length zero = {0.0}, one = {1.0}, tiny = {0.9e-6}, huge = {1.1e6}, nan = {NAN};
    fer_measured_choice choice;
    fer_ratio found;
    fer_measuring wrong = exact, gauge = exact, common = exact;
    gauge.resolution.mm = 0.01;
    common.common.mm = 0.01;
    CHECK_STATUS(fer_choose_measured_plan(&aim, one, exact, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_measured_plan(NULL, one, exact, &choice), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_choose_measured_plan(&none, one, exact, &choice), FER_PLAN_SHARE_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_measured_plan(&close, one, exact, &choice), FER_PLAN_NOT_REACHABLE);
    CHECK_STATUS(fer_choose_measured_plan(&close, zero, exact, &choice), FER_PLAN_NOT_REACHABLE);
    CHECK_STATUS(fer_choose_measured_plan(&aim, tiny, exact, &choice), FER_PLAN_DEVIATION_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_measured_plan(&aim, huge, exact, &choice), FER_PLAN_DEVIATION_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_measured_plan(&aim, nan, exact, &choice), FER_PLAN_DEVIATION_OUT_OF_RANGE);
    CHECK_STATUS(fer_choose_measured_plan(&aim, zero, gauge, &choice), FER_PLAN_DEVIATION_MISSING);
    CHECK_STATUS(fer_choose_measured_plan(&aim, zero, common, &choice), FER_PLAN_DEVIATION_MISSING);
    wrong.repeatability.mm = -1.0;
    CHECK_STATUS(fer_choose_measured_plan(&aim, one, wrong, &choice),
                 FER_MEASURING_REPEATABILITY_OUT_OF_RANGE);
    wrong = exact;
    wrong.common.mm = NAN;
    CHECK_STATUS(fer_choose_measured_plan(&aim, one, wrong, &choice), FER_MEASURING_COMMON_OUT_OF_RANGE);
    wrong = exact;
    wrong.repeatability_degrees = -5.0; /* not looked at */
    CHECK_OK(fer_choose_measured_plan(&aim, one, wrong, &choice));
    CHECK_OK(fer_choose_measured_plan(&easy, one, exact, &choice));
    assert_int_equal(choice.plan.pieces, 1);
    CHECK_OK(fer_choose_measured_plan(&easy, zero, exact, &choice));
    assert_int_equal(choice.plan.pieces, 3);
    fer_measured_plan plan = {10, 2.0, 0, 0.0};
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(0.1), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_measured_acceptance(NULL, share(0.1), &found), FER_ARGUMENT_MISSING);
    CHECK_NAN(found.fraction);
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(0.9e-6), &found), FER_PLAN_SHARE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(1.0), &found), FER_PLAN_SHARE_OUT_OF_RANGE);
    plan.pieces = 1;
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(0.1), &found), FER_PLAN_PIECES_OUT_OF_RANGE);
    plan.pieces = 0;
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(0.1), &found), FER_PLAN_PIECES_OUT_OF_RANGE);
    plan.pieces = 10001;
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(0.1), &found), FER_PLAN_PIECES_OUT_OF_RANGE);
    plan.pieces = 10;
    plan.factor = 1001.0;
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(0.1), &found), FER_PLAN_FACTOR_OUT_OF_RANGE);
    plan.factor = -1001.0;
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(0.1), &found), FER_PLAN_FACTOR_OUT_OF_RANGE);
    plan.factor = 2.0;
    plan.mean_deviation = 0.9e-6; /* not looked at */
    CHECK_OK(fer_find_measured_acceptance(&plan, share(0.1), &found));
    plan.deviation_known = 1;
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(0.1), &found), FER_PLAN_DEVIATION_OUT_OF_RANGE);
    plan.mean_deviation = 1001.0;
    CHECK_STATUS(fer_find_measured_acceptance(&plan, share(0.1), &found), FER_PLAN_DEVIATION_OUT_OF_RANGE);
}

/* ---- bursts ---------------------------------------------------------------------------------------------- */

static fer_burst_aim burst_aim(double working, double multiple, double held, double confidence)
{
    const fer_burst_aim aim = {{working}, multiple, {held}, {confidence}};
    return aim;
}

static void fill(fer_burst *bursts, const double *pressures, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        bursts[i].pressure.mpa = pressures[i];
        bursts[i].stopped = 0;
    }
}

/* Five bursts, invented; integrals in Python and in R, noncentral t. */
static const double five[5] = {118.0, 122.0, 124.5, 126.2, 129.0};

static void five_bursts_by_each_shape(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(27.5, 0.0, 0.0, 0.0);
    fer_burst bursts[5];
    fer_burst_verdict verdict;
    fill(bursts, five, 5);
    CHECK_OK(fer_judge_bursts(bursts, 5, &aim, FER_STRENGTH_WEIBULL, &verdict));
    CHECK_NEAR(verdict.limit.mpa, 110.0, 0.0);
    CHECK_NEAR(verdict.bound.mpa, 105.3003500, 5e-8);
    CHECK_NEAR(verdict.confidence_reached.fraction, 0.77346922, 5e-9);
    assert_int_equal(verdict.decision, FER_DECISION_UNDECIDED);
    assert_int_equal(verdict.burst, 5);
    assert_int_equal(verdict.stopped, 0);
    assert_int_equal(verdict.never_shown, 0);
    assert_int_equal(verdict.more, 4);
    CHECK_OK(fer_judge_bursts(bursts, 5, &aim, FER_STRENGTH_NORMAL, &verdict));
    CHECK_NEAR(verdict.bound.mpa, 109.710, 5e-4);
    CHECK_NEAR(verdict.confidence_reached.fraction, 0.893, 5e-4);
    assert_int_equal(verdict.decision, FER_DECISION_UNDECIDED);
    assert_int_equal(verdict.more, 1);
    CHECK_OK(fer_judge_bursts(bursts, 5, &aim, FER_STRENGTH_LOGNORMAL, &verdict));
    CHECK_NEAR(verdict.bound.mpa, 110.382, 5e-4);
    assert_int_equal(verdict.decision, FER_DECISION_ACCEPT);
    assert_int_equal(verdict.more, 0);
    assert_int_equal(verdict.never_shown, 0);
    CHECK_OK(fer_judge_bursts(bursts, 5, &aim, FER_STRENGTH_ANY, &verdict));
    CHECK_NAN(verdict.bound.mpa);
    CHECK_NEAR(verdict.confidence_reached.fraction, 1.0 - pow(0.95, 5), 1e-14);
    CHECK_NEAR(verdict.share_shown.fraction, pow(0.1, 0.2), 1e-14);
    assert_int_equal(verdict.decision, FER_DECISION_UNDECIDED);
    assert_int_equal(verdict.more, 40);
    const uint64_t cautions =
        fer_stage_cautions(FER_STAGE_PRESSURE).bits | fer_stage_cautions(FER_STAGE_FAILURE).bits;
    assert_true(verdict.cautions.bits == cautions);
}

/* The share that is shown, asked for, has its bound at the limit, and the confidence that is reached, asked for, too. */
static void bound_share_and_confidence_agree(void **state)
{
    (void)state;
    for (int strength = FER_STRENGTH_WEIBULL; strength <= FER_STRENGTH_LOGNORMAL; strength++) {
        fer_burst bursts[5];
        fer_burst_verdict first, again;
        const fer_burst_aim aim = burst_aim(27.5, 4.0, 0.95, 0.7);
        fill(bursts, five, 5);
        CHECK_OK(fer_judge_bursts(bursts, 5, &aim, (fer_strength)strength, &first));
        const fer_burst_aim shown = burst_aim(27.5, 4.0, first.share_shown.fraction, 0.7);
        CHECK_OK(fer_judge_bursts(bursts, 5, &shown, (fer_strength)strength, &again));
        CHECK_RELATIVE(again.bound.mpa, 110.0, 1e-11);
        assert_true(again.bound.mpa <= 110.0 * (1.0 + 1e-13)); /* rounded down */
        const fer_burst_aim reached = burst_aim(27.5, 4.0, 0.95, first.confidence_reached.fraction);
        CHECK_OK(fer_judge_bursts(bursts, 5, &reached, (fer_strength)strength, &again));
        CHECK_RELATIVE(again.bound.mpa, 110.0, 1e-11);
    }
}

/* Ball bearings of Lieblein and Zelen, as in Lawless; integrals in R, and in Python. The unit does not matter. */
static void a_sample_of_a_textbook(void **state)
{
    (void)state;
    static const double endurance[23] = {17.88, 28.92, 33.00,  41.52,  42.12,  45.60,  48.48, 51.84,
                                         51.96, 54.12, 55.56,  67.80,  68.64,  68.64,  68.88, 84.12,
                                         93.12, 98.64, 105.12, 105.84, 127.92, 128.04, 173.40};
    const fer_burst_aim aim = burst_aim(1.0, 1.0, 0.9, 0.95);
    fer_burst bursts[23];
    fer_burst_verdict verdict;
    fill(bursts, endurance, 23);
    CHECK_OK(fer_judge_bursts(bursts, 23, &aim, FER_STRENGTH_WEIBULL, &verdict));
    CHECK_NEAR(verdict.bound.mpa, 16.947735, 6e-7);
    assert_int_equal(verdict.decision, FER_DECISION_ACCEPT);
}

/* Two of four burst, two were stopped at 60 MPa by the pump: integrals by mpmath. */
static void pieces_that_were_stopped(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(10.0, 4.0, 0.9, 0.9);
    fer_burst bursts[4] = {{{52.0}, 0}, {{57.0}, 0}, {{60.0}, 1}, {{60.0}, 1}};
    fer_burst_verdict verdict;
    CHECK_OK(fer_judge_bursts(bursts, 4, &aim, FER_STRENGTH_WEIBULL, &verdict));
    CHECK_NEAR(verdict.bound.mpa, 11.15459089441714, 2e-10);
    CHECK_NEAR(verdict.confidence_reached.fraction, 0.6267372647292263, 1e-11);
    assert_int_equal(verdict.burst, 2);
    assert_int_equal(verdict.stopped, 2);
    CHECK_STATUS(fer_judge_bursts(bursts, 4, &aim, FER_STRENGTH_NORMAL, &verdict), FER_BURST_NOT_ALL_BURST);
    CHECK_STATUS(fer_judge_bursts(bursts, 4, &aim, FER_STRENGTH_LOGNORMAL, &verdict),
                 FER_BURST_NOT_ALL_BURST);
    bursts[1].stopped = 1;
    CHECK_STATUS(fer_judge_bursts(bursts, 4, &aim, FER_STRENGTH_WEIBULL, &verdict), FER_BURST_TOO_FEW);
    CHECK_NAN(verdict.bound.mpa);
    CHECK_OK(fer_judge_bursts(bursts, 4, &aim, FER_STRENGTH_ANY, &verdict));
    CHECK_NEAR(verdict.confidence_reached.fraction, 1.0 - pow(0.9, 4), 1e-14);
    assert_int_equal(verdict.more, 22 - 4);
}

/* As many more as are said show it, if the bursts at hand are repeated so often; one fewer does not. */
static void as_many_more_as_are_said(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(27.5, 4.0, 0.95, 0.9);
    fer_burst bursts[45];
    fer_burst_verdict verdict;
    for (size_t i = 0; i < 45; i++) {
        bursts[i].pressure.mpa = 111.0 + (double)(i % 3);
        bursts[i].stopped = 0;
    }
    for (size_t count = 43; count <= 45; count++) {
        CHECK_OK(fer_judge_bursts(bursts, count, &aim, FER_STRENGTH_ANY, &verdict));
        assert_int_equal(verdict.more, 45 - count);
        assert_int_equal(verdict.decision, count == 45 ? FER_DECISION_ACCEPT : FER_DECISION_UNDECIDED);
    }
    CHECK_NEAR(verdict.bound.mpa, 111.0, 0.0);
    /* five of each: the bound of the doubled sample stands for that of ten like these */
    fer_burst_verdict doubled;
    const double pressures[10] = {118.0, 122.0, 124.5, 126.2, 129.0, 118.0, 122.0, 124.5, 126.2, 129.0};
    fill(bursts, pressures, 10);
    for (double working = 27.4; working < 28.6; working += 0.1) {
        const fer_burst_aim near_it = burst_aim(working, 4.0, 0.95, 0.9);
        CHECK_OK(fer_judge_bursts(bursts, 5, &near_it, FER_STRENGTH_WEIBULL, &verdict));
        CHECK_OK(fer_judge_bursts(bursts, 10, &near_it, FER_STRENGTH_WEIBULL, &doubled));
        assert_int_equal(verdict.decision == FER_DECISION_ACCEPT || (verdict.more > 0 && verdict.more <= 5),
                         doubled.decision == FER_DECISION_ACCEPT);
    }
    /* normal: k(9) is 2.6498 and k(8) 2.7549 (95 %/90 %, tables from memory: 2.755 2.649), so that 2.7 needs nine */
    const double pair[2] = {100.0, 100.0 + sqrt(2.0)}; /* deviation 1 */
    fill(bursts, pair, 2);
    const fer_burst_aim between = burst_aim(100.0 + sqrt(0.5) - 2.7, 1.0, 0.95, 0.9);
    CHECK_OK(fer_judge_bursts(bursts, 2, &between, FER_STRENGTH_NORMAL, &verdict));
    assert_int_equal(verdict.more, 7);
}

static void what_no_number_will_show(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(29.4, 4.0, 0.95, 0.9);
    fer_burst bursts[5];
    fer_burst_verdict verdict;
    fill(bursts, five, 5);
    for (int strength = FER_STRENGTH_WEIBULL; strength <= FER_STRENGTH_LOGNORMAL; strength++) {
        CHECK_OK(fer_judge_bursts(bursts, 5, &aim, (fer_strength)strength, &verdict));
        assert_int_equal(verdict.decision, FER_DECISION_UNDECIDED);
        assert_int_equal(verdict.never_shown, 1);
        assert_int_equal(verdict.more, 0);
    }
    const fer_burst_aim extreme = burst_aim(27.5, 4.0, 0.999, 0.9); /* 2302 without a shape */
    CHECK_OK(fer_judge_bursts(bursts, 5, &extreme, FER_STRENGTH_ANY, &verdict));
    assert_int_equal(verdict.never_shown, 1);
    const fer_burst_aim last = burst_aim(27.5, 4.0, 0.9977, 0.9),
                        beyond = burst_aim(27.5, 4.0, 0.9977003, 0.9);
    CHECK_OK(fer_judge_bursts(bursts, 5, &last, FER_STRENGTH_ANY,
                              &verdict)); /* ln 0.1/ln 0.9977 is 999.97; of 0.9977003 1000.10 */
    assert_int_equal(verdict.more, 995);
    CHECK_OK(fer_judge_bursts(bursts, 5, &beyond, FER_STRENGTH_ANY, &verdict));
    assert_int_equal(verdict.never_shown, 1);
}

/* One burst below the limit rejects, by every shape; one at it does not. */
static void one_burst_below_the_limit_rejects(void **state)
{
    (void)state;
    for (int strength = FER_STRENGTH_WEIBULL; strength <= FER_STRENGTH_ANY; strength++) {
        const fer_burst_aim aim = burst_aim(29.5, 4.0, 0.5, 0.6); /* 118 MPa, easily shown */
        const fer_burst_aim above = burst_aim(29.525, 4.0, 0.5, 0.6);
        fer_burst bursts[5];
        fer_burst_verdict verdict;
        fill(bursts, five, 5);
        CHECK_OK(fer_judge_bursts(bursts, 5, &aim, (fer_strength)strength, &verdict));
        assert_int_equal(verdict.decision, FER_DECISION_ACCEPT);
        CHECK_OK(fer_judge_bursts(bursts, 5, &above, (fer_strength)strength, &verdict));
        assert_int_equal(verdict.decision, FER_DECISION_REJECT);
        assert_int_equal(verdict.more, 0);
        assert_int_equal(verdict.never_shown, 0);
    }
    /* one that was stopped below it did not burst: it counts as one that did not hold it, and rejects nothing */
    const fer_burst_aim aim = burst_aim(30.0, 4.0, 0.5, 0.6);
    fer_burst bursts[5];
    fer_burst_verdict verdict;
    fill(bursts, five, 5);
    bursts[0].stopped = 1;
    bursts[0].pressure.mpa = 119.0;
    CHECK_OK(fer_judge_bursts(bursts, 5, &aim, FER_STRENGTH_ANY, &verdict));
    assert_int_equal(verdict.decision, FER_DECISION_ACCEPT);
    CHECK_NEAR(verdict.confidence_reached.fraction, 1.0 - 6.0 / 32.0,
               1e-14); /* 1 of 5 below, shares of one half */
    CHECK_NEAR(verdict.bound.mpa, 122.0, 0.0);
    fer_burst one = {{100.0}, 1};
    CHECK_OK(fer_judge_bursts(&one, 1, &aim, FER_STRENGTH_ANY, &verdict));
    assert_int_equal(verdict.decision, FER_DECISION_UNDECIDED);
    CHECK_NEAR(verdict.confidence_reached.fraction, 0.0, 0.0);
    CHECK_NEAR(verdict.share_shown.fraction, 0.0, 0.0);
    assert_int_equal(verdict.more, 3); /* of four, one below: 1 - 5/16 is 0.69; of three 0.5 */
}

/* Order statistics: the 2nd of 77 from below with 95 %/90 % (the smallest of 45): binomial. */
static void bounds_without_a_shape(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(1.0, 1.0, 0.95, 0.9);
    static const size_t counts[] = {44, 45,  76,
                                    77, 104, 105}; /* P(X >= j) is 0.9 or more from there: SciPy, binom */
    static const double bounds[] = {NAN, 101.0, 101.0, 102.0, 102.0, 104.0};
    for (size_t i = 0; i < 6; i++) {
        fer_burst bursts[105];
        fer_burst_verdict verdict;
        for (size_t j = 0; j < counts[i]; j++) { /* in falling order, one value twice */
            const size_t k = counts[i] - j;
            bursts[j].pressure.mpa = 100.0 + (double)(k == 3 ? 4 : k);
            bursts[j].stopped = 0;
        }
        CHECK_OK(fer_judge_bursts(bursts, counts[i], &aim, FER_STRENGTH_ANY, &verdict));
        if (isnan(bounds[i])) {
            CHECK_NAN(verdict.bound.mpa);
        } else {
            CHECK_NEAR(verdict.bound.mpa, bounds[i], 0.0);
        }
    }
}

/* One burst shows that one in a hundred holds it, or more: 1 - 0.01 is 0.99. */
static void one_burst_shows_a_small_share(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(10.0, 4.0, 0.01, 0.9);
    const fer_burst one = {{50.0}, 0};
    fer_burst_verdict verdict;
    CHECK_OK(fer_judge_bursts(&one, 1, &aim, FER_STRENGTH_ANY, &verdict));
    CHECK_NEAR(verdict.bound.mpa, 50.0, 0.0);
    CHECK_NEAR(verdict.confidence_reached.fraction, 0.99, 1e-15);
    assert_int_equal(verdict.decision, FER_DECISION_ACCEPT);
}

/* Stopped far above, and far below, what burst: the mode of the shape is far from its start. */
static void stopped_far_from_the_bursts(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(1.0, 1.0, 0.9, 0.9);
    fer_burst bursts[6] = {{{100.0}, 0},   {{101.0}, 0},   {{10000.0}, 1},
                           {{10000.0}, 1}, {{10000.0}, 1}, {{10000.0}, 1}};
    fer_burst_verdict verdict;
    CHECK_OK(fer_judge_bursts(bursts, 6, &aim, FER_STRENGTH_WEIBULL, &verdict));
    assert_true(verdict.bound.mpa < 101.0);
    for (size_t i = 2; i < 6; i++) {
        bursts[i].pressure.mpa = 0.001; /* they say next to nothing */
    }
    CHECK_OK(fer_judge_bursts(bursts, 6, &aim, FER_STRENGTH_WEIBULL, &verdict));
    const double with = verdict.bound.mpa;
    fer_burst many[100];
    for (size_t i = 0; i < 100; i++) {
        many[i].pressure.mpa = i < 99 ? 100.0 + 0.01 * (double)i : 10000.0;
        many[i].stopped = i == 99;
    }
    CHECK_OK(fer_judge_bursts(many, 100, &aim, FER_STRENGTH_WEIBULL, &verdict));
    assert_true(verdict.bound.mpa < 101.0);
    CHECK_OK(fer_judge_bursts(bursts, 2, &aim, FER_STRENGTH_WEIBULL, &verdict));
    CHECK_RELATIVE(with, verdict.bound.mpa, 1e-3);
}

static void limits_never_say_certain(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(0.001, 1.0, 0.5, 0.6);
    fer_burst bursts[200];
    fer_burst_verdict verdict;
    for (size_t i = 0; i < 200; i++) {
        bursts[i].pressure.mpa = 5000.0 + (double)i;
        bursts[i].stopped = 0;
    }
    for (int strength = FER_STRENGTH_WEIBULL; strength <= FER_STRENGTH_ANY; strength++) {
        CHECK_OK(fer_judge_bursts(bursts, 200, &aim, (fer_strength)strength, &verdict));
        assert_int_equal(verdict.decision, FER_DECISION_ACCEPT);
        assert_true(verdict.confidence_reached.fraction < 1.0 && verdict.confidence_reached.fraction > 0.999);
        assert_true(verdict.share_shown.fraction < 1.0 && verdict.share_shown.fraction > 0.99);
    }
    /* a bound below 0 is none */
    const double wide[2] = {1.0, 100.0};
    fill(bursts, wide, 2);
    CHECK_OK(fer_judge_bursts(bursts, 2, &aim, FER_STRENGTH_NORMAL, &verdict));
    const fer_burst_aim more = burst_aim(0.001, 1.0, 0.95, 0.9);
    CHECK_OK(fer_judge_bursts(bursts, 2, &more, FER_STRENGTH_NORMAL, &verdict));
    CHECK_NEAR(verdict.bound.mpa, 0.0, 0.0);
    /* scatter of a millionth is none, somewhat more is */
    fer_burst close[3] = {{{100.0}, 0}, {{100.00005}, 0}, {{100.0001}, 0}};
    CHECK_STATUS(fer_judge_bursts(close, 3, &more, FER_STRENGTH_WEIBULL, &verdict), FER_BURST_ALL_EQUAL);
    CHECK_STATUS(fer_judge_bursts(close, 3, &more, FER_STRENGTH_NORMAL, &verdict), FER_BURST_ALL_EQUAL);
    CHECK_STATUS(fer_judge_bursts(close, 3, &more, FER_STRENGTH_LOGNORMAL, &verdict), FER_BURST_ALL_EQUAL);
    close[2].pressure.mpa = 100.0004;
    for (int strength = FER_STRENGTH_WEIBULL; strength <= FER_STRENGTH_LOGNORMAL; strength++) {
        CHECK_OK(fer_judge_bursts(close, 3, &more, (fer_strength)strength, &verdict));
        assert_true(verdict.bound.mpa > 99.99 && verdict.bound.mpa < 100.0);
    }
    /* equal ones that burst, and one that went on: what is known of the scatter is that */
    fer_burst held[3] = {{{100.0}, 0}, {{100.0}, 0}, {{120.0}, 1}};
    CHECK_OK(fer_judge_bursts(held, 3, &more, FER_STRENGTH_WEIBULL, &verdict));
    assert_true(verdict.bound.mpa < 100.0);
    held[2].pressure.mpa = 90.0;
    CHECK_STATUS(fer_judge_bursts(held, 3, &more, FER_STRENGTH_WEIBULL, &verdict), FER_BURST_ALL_EQUAL);
}

static void bursts_that_are_refused(void **state)
{
    (void)state;
    const fer_burst_aim good = burst_aim(27.5, 4.0, 0.95, 0.9);
    fer_burst bursts[5];
    fer_burst_verdict verdict;
    fill(bursts, five, 5);
    CHECK_STATUS(fer_judge_bursts(bursts, 5, &good, FER_STRENGTH_WEIBULL, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_judge_bursts(NULL, 5, &good, FER_STRENGTH_WEIBULL, &verdict), FER_ARGUMENT_MISSING);
    assert_int_equal(verdict.decision, FER_DECISION_UNDECIDED);
    CHECK_NAN(verdict.limit.mpa);
    CHECK_NAN(verdict.bound.mpa);
    CHECK_NAN(verdict.confidence_reached.fraction);
    CHECK_NAN(verdict.share_shown.fraction);
    assert_int_equal(verdict.burst, 0);
    CHECK_STATUS(fer_judge_bursts(bursts, 5, NULL, FER_STRENGTH_WEIBULL, &verdict), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_judge_bursts(bursts, 0, &good, FER_STRENGTH_WEIBULL, &verdict), FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(fer_judge_bursts(bursts, 201, &good, FER_STRENGTH_WEIBULL, &verdict),
                 FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(fer_judge_bursts(bursts, 1, &good, FER_STRENGTH_WEIBULL, &verdict), FER_BURST_TOO_FEW);
    CHECK_STATUS(fer_judge_bursts(bursts, 1, &good, FER_STRENGTH_NORMAL, &verdict), FER_BURST_TOO_FEW);
    CHECK_STATUS(fer_judge_bursts(bursts, 5, &good, (fer_strength)4, &verdict), FER_BURST_STRENGTH_UNKNOWN);
    static const struct {
        double working, multiple, share, confidence;
        fer_status status;
    } aims[] = {{0.0, 4.0, 0.95, 0.9, FER_BURST_WORKING_MISSING},
                {0.0009, 4.0, 0.95, 0.9, FER_BURST_WORKING_OUT_OF_RANGE},
                {1001.0, 4.0, 0.95, 0.9, FER_BURST_WORKING_OUT_OF_RANGE},
                {27.5, 0.99, 0.95, 0.9, FER_BURST_MULTIPLE_OUT_OF_RANGE},
                {27.5, 101.0, 0.95, 0.9, FER_BURST_MULTIPLE_OUT_OF_RANGE},
                {27.5, 4.0, 0.009, 0.9, FER_CONTENT_OUT_OF_RANGE},
                {27.5, 4.0, 0.95, 0.5, FER_CONFIDENCE_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof aims / sizeof *aims; i++) {
        const fer_burst_aim aim =
            burst_aim(aims[i].working, aims[i].multiple, aims[i].share, aims[i].confidence);
        fer_pieces_needed needed;
        CHECK_STATUS(fer_judge_bursts(bursts, 5, &aim, FER_STRENGTH_ANY, &verdict), aims[i].status);
        CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(130.0), share(0.04), share(0.9), &needed),
                     aims[i].status);
        CHECK_STATUS(fer_find_bursts_without_failure(&aim, 1.0, 0.0, &needed), aims[i].status);
        assert_int_equal(needed.pieces, 0);
        CHECK_NAN(needed.reached.fraction);
    }
    bursts[3].pressure.mpa = 0.0;
    CHECK_STATUS(fer_judge_bursts(bursts, 5, &good, FER_STRENGTH_ANY, &verdict), FER_BURST_PRESSURE_MISSING);
    bursts[3].pressure.mpa = 0.0009;
    CHECK_STATUS(fer_judge_bursts(bursts, 5, &good, FER_STRENGTH_ANY, &verdict),
                 FER_BURST_PRESSURE_OUT_OF_RANGE);
    bursts[3].pressure.mpa = 10001.0;
    CHECK_STATUS(fer_judge_bursts(bursts, 5, &good, FER_STRENGTH_ANY, &verdict),
                 FER_BURST_PRESSURE_OUT_OF_RANGE);
}

/* ---- how many bursts ------------------------------------------------------------------------------------- */

/* Mean 1.24 times the limit, 4 % scatter, 95 %/90 %: SciPy's noncentral t, power 0.899893 with five, 0.959212 with six. */
static void bursts_that_are_needed(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(25.0, 0.0, 0.0, 0.0), small = burst_aim(1.0, 1.0, 0.0, 0.0);
    fer_pieces_needed needed;
    CHECK_OK(fer_find_bursts_needed(&aim, mpa(124.0), share(0.04), share(0.0), &needed));
    assert_int_equal(needed.pieces, 6);
    CHECK_NEAR(needed.reached.fraction, 0.959212, 5e-7);
    CHECK_OK(fer_find_bursts_needed(&aim, mpa(124.0), share(0.04), share(0.8998), &needed));
    assert_int_equal(needed.pieces, 5);
    CHECK_NEAR(needed.reached.fraction, 0.899893, 5e-7);
    CHECK_OK(fer_find_bursts_needed(&small, mpa(1000.0), share(0.005), share(0.0), &needed));
    assert_int_equal(needed.pieces, 2);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(124.0), share(0.04), share(0.9), NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_bursts_needed(NULL, mpa(124.0), share(0.04), share(0.9), &needed),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(100.0), share(0.04), share(0.9), &needed),
                 FER_PLAN_NOT_REACHABLE);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(106.0), share(0.04), share(0.9), &needed),
                 FER_PLAN_NOT_REACHABLE);
    assert_int_equal(needed.pieces, 0);
    CHECK_NAN(needed.reached.fraction);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(0.0), share(0.04), share(0.9), &needed),
                 FER_BURST_MEAN_MISSING);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(124.0), share(0.0), share(0.9), &needed),
                 FER_BURST_VARIATION_MISSING);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(0.0009), share(0.04), share(0.9), &needed),
                 FER_BURST_MEAN_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(10001.0), share(0.04), share(0.9), &needed),
                 FER_BURST_MEAN_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(124.0), share(0.0049), share(0.9), &needed),
                 FER_BURST_VARIATION_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(124.0), share(0.501), share(0.9), &needed),
                 FER_BURST_VARIATION_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_bursts_needed(&aim, mpa(124.0), share(0.04), share(0.009), &needed),
                 FER_POWER_OUT_OF_RANGE);
}

/* Arithmetic: ln 0.1/(1.1^20 ln 0.95) = 6.6727. */
static void bursts_without_a_failure(void **state)
{
    (void)state;
    const fer_burst_aim aim = burst_aim(25.0, 0.0, 0.0, 0.0);
    fer_pieces_needed needed;
    CHECK_OK(fer_find_bursts_without_failure(&aim, 1.1, 20.0, &needed));
    assert_int_equal(needed.pieces, 7);
    CHECK_NEAR(needed.reached.fraction, 1.0 - pow(0.1, 7.0 / 6.6727), 1e-5);
    CHECK_OK(fer_find_bursts_without_failure(&aim, 0.0, 20.0, &needed));
    assert_int_equal(needed.pieces, 45);
    CHECK_OK(fer_find_bursts_without_failure(&aim, 1.1, 0.0, &needed));
    assert_int_equal(needed.pieces, 45);
    CHECK_OK(fer_find_bursts_without_failure(&aim, 2.0, 100.0, &needed));
    assert_int_equal(needed.pieces, 1);
    assert_true(needed.reached.fraction < 1.0);
    CHECK_STATUS(fer_find_bursts_without_failure(&aim, 1.1, 20.0, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_bursts_without_failure(NULL, 1.1, 20.0, &needed), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_bursts_without_failure(&aim, 0.99, 20.0, &needed), FER_BURST_RAISED_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_bursts_without_failure(&aim, 2.01, 20.0, &needed), FER_BURST_RAISED_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_bursts_without_failure(&aim, 1.1, -0.1, &needed), FER_BURST_RAISED_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_bursts_without_failure(&aim, 1.1, 100.1, &needed), FER_BURST_RAISED_OUT_OF_RANGE);
}

/* None of five holds the limit by far: what is shown stays below what five failures leave without any shape, 1 - 0.1^(1/5). */
static void bursts_far_below_the_limit_show_next_to_nothing(void **state)
{
    (void)state;
    static const double pressures[] = {60.0, 61.0, 62.0, 63.0, 64.0};
    const fer_burst_aim aim = burst_aim(27.5, 4.0, 0.95, 0.9);
    fer_burst bursts[5];
    fer_burst_verdict verdict;
    memset(bursts, 0, sizeof bursts);
    for (int i = 0; i < 5; i++) {
        bursts[i].pressure.mpa = pressures[i];
    }
    CHECK_OK(fer_judge_bursts(bursts, 5, &aim, FER_STRENGTH_WEIBULL, &verdict));
    assert_true(verdict.share_shown.fraction >= 0.0 && verdict.share_shown.fraction < 1.0 - pow(0.1, 0.2));
    assert_int_equal(verdict.decision, FER_DECISION_REJECT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bursts_far_below_the_limit_show_next_to_nothing),
        cmocka_unit_test(a_plan_accepts_as_often_as_its_terms_say),
        cmocka_unit_test(a_plan_of_a_lot_accepts_as_often_as_its_terms_say),
        cmocka_unit_test(a_share_of_a_lot_is_rounded_down),
        cmocka_unit_test(large_lots_keep_their_digits),
        cmocka_unit_test(plans_for_two_risks),
        cmocka_unit_test(no_smaller_plan_does),
        cmocka_unit_test(the_ends_of_plans),
        cmocka_unit_test(plans_that_are_refused),
        cmocka_unit_test(pieces_without_a_bad_one),
        cmocka_unit_test(walds_lines_of_a_handbook),
        cmocka_unit_test(a_curtailed_plan_keeps_its_risks),
        cmocka_unit_test(stages_agree_with_all_paths),
        cmocka_unit_test(stages_keep_the_risks),
        cmocka_unit_test(stages_that_are_refused),
        cmocka_unit_test(plans_by_measuring),
        cmocka_unit_test(a_gauge_takes_pieces),
        cmocka_unit_test(measured_plans_that_are_refused),
        cmocka_unit_test(five_bursts_by_each_shape),
        cmocka_unit_test(bound_share_and_confidence_agree),
        cmocka_unit_test(a_sample_of_a_textbook),
        cmocka_unit_test(pieces_that_were_stopped),
        cmocka_unit_test(as_many_more_as_are_said),
        cmocka_unit_test(what_no_number_will_show),
        cmocka_unit_test(one_burst_below_the_limit_rejects),
        cmocka_unit_test(bounds_without_a_shape),
        cmocka_unit_test(one_burst_shows_a_small_share),
        cmocka_unit_test(stopped_far_from_the_bursts),
        cmocka_unit_test(limits_never_say_certain),
        cmocka_unit_test(bursts_that_are_refused),
        cmocka_unit_test(bursts_that_are_needed),
        cmocka_unit_test(bursts_without_a_failure),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
