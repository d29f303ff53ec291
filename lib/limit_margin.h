/* SPDX-License-Identifier: MIT */
/* What yield and best target share: how far a mean joint is from a limit of compression, in its own scatter. */
#ifndef FER_LIMIT_MARGIN_H
#define FER_LIMIT_MARGIN_H

#include <ferrule/spread.h>

/* At the limit x: the diameter with compression x by the plain formula, and the standard deviation of
 * D - 2w - s - (1 - x)(do - di). */
typedef struct {
    double diameter, deviation;
} fer_limit_margin;

/* Checks joint, spread and range for the exact yield, and finds both margins. */
fer_status fer_find_limit_margins(const fer_joint *joint, const fer_spread *spread, fer_ratio_range range,
                                  fer_limit_margin *least, fer_limit_margin *most);

/* Yield at a mean crimp diameter between the two margins. */
fer_yield fer_yield_between(double diameter, const fer_limit_margin *least, const fer_limit_margin *most);

/* Amounts, distributions, degrees of freedom and correlations are possible. */
fer_status fer_check_spread(const fer_spread *spread);

#endif
