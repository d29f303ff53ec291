/* SPDX-License-Identifier: MIT */
/* Long calls block by block (bindings/runtime/parts.h) give the very bits of the library's own calls, refuse what these refuse, and
 * end where somebody asks for it. */
#include "parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define REQUIRE(condition)                                                                                   \
    do {                                                                                                     \
        if (!(condition)) {                                                                                  \
            fprintf(stderr, "line %d: not so: %s\n", __LINE__, #condition);                                  \
            exit(1);                                                                                         \
        }                                                                                                    \
    } while (0)

enum { DIES = 4, USES = 8 };

typedef struct results {
    fer_status status[4];
    fer_crimp_count count;
    fer_tally compression, to_digits, setups;
    fer_simulation simulation;
    uint64_t uses[USES];
    size_t found;
} results;

static const fer_joint joint = {.hose = {{12.7}, {19.9}, {0.0}},
                                .stem = {.outside = {12.95}},
                                .ferrule = {.wall = {2.4}, .outside = {25.6}}};
static const fer_press press = {.graduation = {0.05}};
static const fer_die dies[DIES] = {{.size = {16.0}}, {.size = {19.0}}, {.size = {22.0}}, {.size = {25.0}}};

/* Answers after so many times that it was asked. */
typedef struct patience {
    int left, asked;
} patience;

static int is_asked(void *with)
{
    patience *p = with;
    p->asked++;
    return p->left-- <= 0;
}

static fer_uncertainties make_uncertainties(double hose)
{
    fer_uncertainties uncertainties = {0};
    uncertainties.hose_inside.amount.mm = hose;
    uncertainties.hose_outside.amount.mm = 1.25 * hose;
    return uncertainties;
}

static fer_order make_order(const fer_uncertainties *uncertainties)
{
    fer_order order = {0};
    order.joint = joint;
    order.uncertainties = *uncertainties;
    return order;
}

static const fer_ratio_range range = {{0.15}, {0.25}};
static const fer_length diameter = {23.5};
static const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};

static void call_whole(const fer_uncertainties *u, int digits, fer_trials trials, results *r)
{
    const fer_order order = make_order(u);
    r->status[0] = fer_simulate_shares(&joint, u, range, diameter, plain, trials, &r->count);
    r->status[1] = fer_simulate_compression(&joint, u, range, diameter, plain, trials, &r->compression);
    r->status[2] = fer_simulate_to_digits(&joint, u, range, diameter, digits, plain, trials, &r->to_digits,
                                          &r->simulation);
    r->status[3] =
        fer_simulate_setups(&order, &press, dies, DIES, trials, &r->setups, r->uses, USES, &r->found);
}

static void call_in_parts(const fer_uncertainties *u, int digits, fer_trials trials, patience *p, results *r)
{
    const fer_order order = make_order(u);
    bind_stop stop = {is_asked, p, 0};
    r->status[0] = bind_simulate_shares(&stop, &joint, u, range, diameter, plain, trials, &r->count);
    r->status[1] =
        bind_simulate_compression(&stop, &joint, u, range, diameter, plain, trials, &r->compression);
    r->status[2] = bind_simulate_to_digits(&stop, &joint, u, range, diameter, digits, plain, trials,
                                           &r->to_digits, &r->simulation);
    r->status[3] =
        bind_simulate_setups(&stop, &order, &press, dies, DIES, trials, &r->setups, r->uses, USES, &r->found);
    REQUIRE(!stop.stopped);
}

/* Results begin as the same bytes, so that what neither writes is equal, too. */
static void check_same(double hose, int digits, fer_trials trials)
{
    static results whole, parts;
    const fer_uncertainties uncertainties = make_uncertainties(hose);
    patience patient = {1000000, 0};
    memset(&whole, 0, sizeof whole);
    memset(&parts, 0, sizeof parts);
    call_whole(&uncertainties, digits, trials, &whole);
    call_in_parts(&uncertainties, digits, trials, &patient, &parts);
    if (whole.status[3] != FER_OK) { /* the library leaves what is in it */
        memset(whole.uses, 0, sizeof whole.uses);
        memset(parts.uses, 0, sizeof parts.uses);
    }
    REQUIRE(memcmp(&whole, &parts, sizeof whole) == 0);
}

/* So many blocks are made before the question is answered by yes; it is put between two blocks only. */
static void check_stopped(int left)
{
    static results r;
    const fer_uncertainties u = make_uncertainties(0.08);
    const fer_order order = make_order(&u);
    const fer_trials many = {.blocks = UINT64_C(1) << 40};
    for (int i = 0; i < 4; i++) {
        patience p = {left, 0};
        bind_stop stop = {is_asked, &p, 0};
        switch (i) {
        case 0:
            (void)bind_simulate_shares(&stop, &joint, &u, range, diameter, plain, many, &r.count);
            REQUIRE(r.count.blocks == (uint64_t)left + 1);
            break;
        case 1:
            (void)bind_simulate_compression(&stop, &joint, &u, range, diameter, plain, many, &r.compression);
            break;
        case 2:
            (void)bind_simulate_to_digits(&stop, &joint, &u, range, diameter, 6, plain, many, &r.to_digits,
                                          &r.simulation);
            break;
        default:
            (void)bind_simulate_setups(&stop, &order, &press, dies, DIES, many, &r.setups, r.uses, USES,
                                       &r.found);
        }
        REQUIRE(stop.stopped && p.asked == left + 1);
    }
}

int main(void)
{
    const uint64_t maximum = UINT64_C(1) << 40;
    const fer_trials trials[] = {{0},
                                 {.blocks = 1},
                                 {.blocks = 2},
                                 {.blocks = 7, .seed = 5, .first_block = 100},
                                 {.blocks = 3, .sequence = FER_SEQUENCE_SOBOL},
                                 {.blocks = 2, .first_block = maximum - 2},
                                 {.blocks = 2, .first_block = maximum - 1},
                                 {.blocks = maximum + 1},
                                 {.first_block = maximum + 1},
                                 {.blocks = UINT64_MAX, .first_block = 3},
                                 {.blocks = 2, .sequence = (fer_sequence)9},
                                 {.blocks = 2, .coverage = {1.0}}};
    for (size_t i = 0; i < sizeof trials / sizeof *trials; i++) {
        for (int digits = 0; digits <= 2; digits++) {
            check_same(0.08, digits, trials[i]);
        }
        check_same(0.0, 1, trials[i]);
        check_same(1000.0, 1, trials[i]);
        check_same(-1.0, 1, trials[i]);
    }
    check_stopped(0);
    check_stopped(3);
    puts("the same in parts");
    return 0;
}
