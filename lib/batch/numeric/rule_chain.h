/* SPDX-License-Identifier: MIT */
/* Mean run lengths of run rules on independent normal numbers. */
#ifndef FER_BATCH_RULE_CHAIN_H
#define FER_BATCH_RULE_CHAIN_H

/* Rules on one side of the centre, in standard deviations. */
typedef struct {
    double beyond;                  /* one beyond so many, 1 to 6; infinite: off */
    int two_of_three, four_of_five; /* beyond 2 and 1 */
    int same_side;                  /* so many in a row, 2 to 20; 0: off */
} fer_run_rules;

/* Numbers up to the first signal, shifted by 0 to 6 standard deviations; NaN where there are too many histories. One rule or more. */
double fer_rules_run_length(const fer_run_rules *rules, double shift);

#endif
