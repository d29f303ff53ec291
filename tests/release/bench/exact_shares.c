/* SPDX-License-Identifier: MIT */
/* Nanoseconds of processor time for one exact share: normal inputs, correlated ones, one rectangular input; a row in bulk with
 * normal inputs. */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <time.h>

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e9 + (double)t.tv_nsec;
}

enum { rows = 20000 };

/* Rows with a diameter of their own. */
static double in_bulk(const fer_joint *joint, const fer_uncertainties *uncertainties, fer_ratio_range range)
{
    static fer_length diameters[rows];
    static fer_shares shares[rows];
    const fer_joint_columns columns = {.hose_inside = fer_same_length(&joint->hose.inside),
                                       .hose_outside = fer_same_length(&joint->hose.outside),
                                       .stem_outside = fer_same_length(&joint->stem.outside),
                                       .ferrule_wall = fer_same_length(&joint->ferrule.wall)};
    double best = 1e9;
    for (int i = 0; i < rows; i++) {
        diameters[i] = fer_mm(23.5 + 1e-6 * i);
    }
    for (int repeat = 0; repeat < 21; repeat++) {
        const double from = now();
        const size_t failed = fer_conforming_shares(rows, &columns, uncertainties, range,
                                                    fer_length_rows(diameters), shares, NULL);
        const double took = failed > 0 ? 1e9 : (now() - from) / rows;
        best = took < best ? took : best;
    }
    return best;
}

int main(void)
{
    fer_joint joint = {0};
    fer_uncertainties uncertainties = {0};
    const fer_ratio_range range = {{0.15}, {0.25}};
    double sum = 0.0;
    joint.hose.inside = fer_mm(12.7);
    joint.hose.outside = fer_mm(19.9);
    joint.stem.outside = fer_mm(12.95);
    joint.ferrule.wall = fer_mm(2.4);
    uncertainties.hose_inside.amount = fer_mm(0.08);
    uncertainties.hose_outside.amount = fer_mm(0.10);
    uncertainties.stem_outside.amount = fer_mm(0.02);
    uncertainties.ferrule_wall.amount = fer_mm(0.03);
    uncertainties.diameter.amount = fer_mm(0.05);
    for (int row = 0; row < 3; row++) {
        const int number = row == 2 ? 2000 : 200000;
        double best = 1e9;
        uncertainties.correlations.hose_inside_hose_outside.fraction = row == 1 ? 0.5 : 0.0;
        uncertainties.diameter.distribution =
            row == 2 ? FER_DISTRIBUTION_RECTANGULAR : FER_DISTRIBUTION_NORMAL;
        for (int repeat = 0; repeat < 7; repeat++) {
            const double from = now();
            for (int i = 0; i < number; i++) {
                fer_shares shares;
                sum += fer_conforming_share(&joint, &uncertainties, range, fer_mm(23.5 + 1e-8 * i),
                                            &shares) == FER_OK;
            }
            const double took = (now() - from) / number;
            best = took < best ? took : best;
        }
        printf("%.1f\n", best);
    }
    uncertainties.diameter.distribution = FER_DISTRIBUTION_NORMAL;
    uncertainties.correlations.hose_inside_hose_outside.fraction = 0.0;
    printf("%.1f\n", in_bulk(&joint, &uncertainties, range));
    return sum == 0.0;
}
