/* SPDX-License-Identifier: MIT */
/* Work for an instruction counter: scalar calls, rows in bulk, exact share, trials. See profile.sh. */
#include <ferrule/ferrule.h>

#include <stddef.h>

enum { rows = 100000, calls = 100000, share_calls = 10000, trial_blocks = 4 };

static fer_length stems[rows], diameters[rows];
static fer_row_status statuses[rows];

static const fer_ratio_range usual = {{0.15}, {0.25}};
static const fer_joint joint = {{{12.7}, {19.9}, {0}}, {{12.95}, {0}}, {{2.4}, {25.6}, {0}}}; /* invented */

static fer_joint_columns columns_of_rows(void)
{
    fer_joint_columns columns = {0};
    columns.hose_inside = fer_same_length(&joint.hose.inside);
    columns.hose_outside = fer_same_length(&joint.hose.outside);
    columns.stem_outside = fer_length_rows(stems);
    columns.ferrule_wall = fer_same_length(&joint.ferrule.wall);
    columns.ferrule_outside = fer_same_length(&joint.ferrule.outside);
    return columns;
}

static size_t in_bulk(fer_flow flow)
{
    const fer_ratio compression = fer_percent(20);
    const fer_model model = {FER_BASIS_WALL, flow};
    const fer_joint_columns columns = columns_of_rows();
    return fer_crimp_diameters(rows, &columns, fer_same_ratio(&compression), model, diameters, statuses);
}

/* Lines of their own in the profile. */
__attribute__((noinline)) static size_t plain_in_bulk(void)
{
    return in_bulk(FER_FLOW_NONE);
}

__attribute__((noinline)) static size_t ends_free_in_bulk(void)
{
    return in_bulk(FER_FLOW_ENDS_FREE);
}

__attribute__((noinline)) static size_t shares_in_bulk(const fer_uncertainties *uncertainties)
{
    static fer_shares found[share_calls];
    const fer_joint_columns columns = columns_of_rows();
    const fer_length diameter = {23.51};
    return fer_conforming_shares(share_calls, &columns, uncertainties, usual, fer_same_length(&diameter),
                                 found, statuses);
}

int main(void)
{
    const fer_trials trials = {1, 0, trial_blocks, FER_SEQUENCE_RANDOM, {0}};
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_uncertainties uncertainties = {0};
    fer_shares shares;
    fer_crimp_count counts;
    size_t failed = 0;
    uncertainties.hose_inside.amount = fer_mm(0.08);
    uncertainties.hose_outside.amount = fer_mm(0.10);
    uncertainties.stem_outside.amount = fer_mm(0.02);
    uncertainties.ferrule_wall.amount = fer_mm(0.03);
    uncertainties.diameter.amount = fer_mm(0.05);
    for (size_t i = 0; i < rows; i++) {
        stems[i] = fer_mm(12.9 + 1e-6 * (double)i);
    }
    for (int i = 0; i < calls; i++) {
        failed += fer_crimp_diameter(&joint, fer_percent(20), plain, &diameters[0]) != FER_OK;
    }
    failed += plain_in_bulk() + ends_free_in_bulk() + shares_in_bulk(&uncertainties);
    for (int i = 0; i < share_calls; i++) {
        failed += fer_conforming_share(&joint, &uncertainties, usual, fer_mm(23.51), &shares) != FER_OK;
    }
    failed +=
        fer_simulate_shares(&joint, &uncertainties, usual, fer_mm(23.51), plain, trials, &counts) != FER_OK;
    return failed != 0;
}
