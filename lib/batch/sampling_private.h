/* SPDX-License-Identifier: MIT */
/* What the parts of module sampling share. */
#ifndef FER_SAMPLING_PRIVATE_H
#define FER_SAMPLING_PRIVATE_H

#include <ferrule/sampling.h>

/* Shares and risks, those that are not given the usual ones. */
typedef struct {
    double good, producer, bad, consumer;
} fer_risk_question;

fer_status fer_check_lot(size_t lot);
fer_status fer_check_plan(const fer_plan *plan);
fer_status fer_take_plan_aim(const fer_plan_aim *aim, double least_good, fer_risk_question *question);

/* The rest takes what has been checked. */

/* Whole pieces of a share of a lot, rounded down. */
double fer_whole_pieces(double share, size_t lot);

double fer_plan_acceptance(size_t pieces, size_t accept, size_t lot, double bad);

/* The plan that looks at all its pieces. */
fer_status fer_find_plan(const fer_risk_question *question, size_t lot, fer_plan *plan);

/* Smallest number of pieces, each good with the share of this logarithm, of which not all are good with the confidence asked. */
size_t fer_clean_pieces(double log_share, double confidence);

#endif
