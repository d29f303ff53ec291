/* SPDX-License-Identifier: MIT */
/* How many of the pieces that are drawn are bad. Arguments have been checked: whole numbers from 0 on, n and c below 1e6, c below n, n at most the
 * lot, p from 0 to 1. */
#ifndef FER_BATCH_COUNTS_H
#define FER_BATCH_COUNTS_H

/* P(X <= c), n pieces of an endless lot with the share p of bad ones. */
double fer_binomial_cdf(double c, double n, double p);

/* P(X <= c), n pieces of a lot with so many bad ones. */
double fer_hypergeometric_cdf(double c, double n, double bad, double lot);

#endif
