/* SPDX-License-Identifier: MIT */
/* What the modules that compute with uncertainties share. */
#ifndef FER_UNCERTAINTIES_PRIVATE_H
#define FER_UNCERTAINTIES_PRIVATE_H

#include "base/numeric/strict.h"

#include <ferrule/uncertainties.h>

#include "base/faults.h"
#include "base/numeric/mixture.h"

#include <math.h>

/* Inputs stand in the order of the members of fer_uncertainties: hose inside, hose outside, stem, wall, ferrule outside,
 * crimp diameter. */
enum { FER_INPUTS = 6 };

/* At the limit x: the diameter with compression x by the plain formula, and the distribution of
 * D - 2w - s - (1 - x)(do - di) about its mean; mixture has parts only where not all inputs are normal. */
typedef struct {
    double diameter, rest; /* the rest: what the diameter's double leaves out */
    double deviation;
    fer_mixture mixture;
} fer_limit_margin;

/* A limit of compression that no joint can reach is as good as any beyond it, and its square is still a double. */
static inline double fer_reachable(fer_ratio limit)
{
    return fmin(fmax(limit.fraction, -1e30), 1e30);
}

/* Uncertainties that were checked, as the formulas need it. */
typedef struct {
    double value[FER_INPUTS];                   /* standard uncertainties */
    double correlation[FER_INPUTS][FER_INPUTS]; /* 1 on the diagonal; filled only where correlated */
    int correlated;                             /* a correlation is not 0 */
    int mixed;                                  /* an input is not normal */
} fer_standard_uncertainties;

/* Amounts, distributions, degrees of freedom and correlations are possible. */
fer_status fer_check_uncertainties(const fer_uncertainties *uncertainties,
                                   fer_standard_uncertainties *standard);

/* The same for all faults. */
fer_status fer_check_uncertainty_rules(const fer_uncertainties *uncertainties,
                                       fer_standard_uncertainties *standard, fer_fault_visitor *faults);

/* Rectangular and triangular inputs are independent of all others. */
fer_status fer_check_shapes(const fer_uncertainties *uncertainties,
                            const fer_standard_uncertainties *standard);

/* Both limits of compression are finite and in order. */
fer_status fer_check_range(fer_ratio_range range);

/* Standard uncertainty of a sum of the inputs, each times its slope. */
double fer_combined_uncertainty(const fer_standard_uncertainties *standard, const double slope[FER_INPUTS]);

/* Both margins, for the exact conforming share. */
fer_status fer_find_limit_margins(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  fer_ratio_range range, fer_limit_margin *lower, fer_limit_margin *upper);

/* The same from a joint, uncertainties and a range that were checked. */
fer_status fer_limit_margins_checked(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                     const fer_standard_uncertainties *standard, fer_ratio_range range,
                                     fer_limit_margin *lower, fer_limit_margin *upper);

/* What fer_uncertainty_budget() begins with, from a joint, uncertainties and a model that were checked: slope times standard
 * uncertainty of each input, and the combined standard uncertainty. */
typedef struct {
    double part[FER_INPUTS], standard_uncertainty;
} fer_contributions;

fer_status fer_find_contributions(const fer_joint *joint, const fer_uncertainties *uncertainties,
                                  const fer_standard_uncertainties *standard, fer_length diameter,
                                  fer_model model, fer_contributions *found);

/* How uncertain the diameter with a compression is by the measurements of the joint alone: the standard uncertainty of
 * the compression there, apart from the crimp diameter's own part, by its slope against the diameter. */
fer_status fer_diameter_uncertainty_checked(const fer_joint *joint,
                                            const fer_standard_uncertainties *standard, fer_length diameter,
                                            fer_model model, fer_length *uncertainty);

/* Shares at a mean crimp diameter between the two margins. */
fer_shares fer_shares_between(double diameter, const fer_limit_margin *lower, const fer_limit_margin *upper);

/* What fer_conforming_share() computes of uncertainties and range, once for many joints. Returned is 0 where it refuses every
 * joint with them, and nothing was planned. */
typedef struct {
    double lower_limit, upper_limit, wall_deviation;
    fer_limit_margin lower, upper; /* placed anew for each joint */
} fer_share_plan;

int fer_plan_shares(const fer_uncertainties *uncertainties, fer_ratio_range range, fer_share_plan *plan);

/* fer_conforming_share() by a plan: the same bits and statuses. */
fer_status fer_planned_share(const fer_joint *joint, fer_length diameter, fer_share_plan *plan,
                             fer_shares *shares);

/* The input's error as a sum: scale[i][j] times the standard deviate of input j (normal: deviation 1; otherwise half
 * width 1), j <= i. The uncertainties are such that fer_check_uncertainties() and fer_check_shapes() accept. */
void fer_find_scales(const fer_uncertainties *uncertainties, double scale[FER_INPUTS][FER_INPUTS]);

/* Uncertainties in the order of the inputs. */
void fer_list_uncertainties(const fer_uncertainties *uncertainties, fer_uncertainty list[FER_INPUTS]);

#endif
