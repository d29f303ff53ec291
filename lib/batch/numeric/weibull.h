/* SPDX-License-Identifier: MIT */
/* What a sample shows of a Weibull distribution, also where some values are only known to be above something: exact conditional
 * inference, by one integral over the shape. */
#ifndef FER_BATCH_WEIBULL_H
#define FER_BATCH_WEIBULL_H

#include <stddef.h>

/* y: natural logarithms, minus the mean of those that were reached; two were reached at least, and one value lies clearly above that mean.
 * A weight above 1 stands for that many copies of the sample. */
typedef struct {
    const double *y;
    size_t count;
    double reached, sum_reached, weight;
} fer_weibull_sample;

enum { FER_WEIBULL_NODES = 512 };

/* Shapes, their weights (the sum is 1), and the logarithms of the sums of exp(shape y), copies counted. */
typedef struct {
    double shape[FER_WEIBULL_NODES], weight[FER_WEIBULL_NODES], log_sum[FER_WEIBULL_NODES];
    double number; /* values that were reached, copies counted */
    int count;
} fer_weibull_nodes;

void fer_find_weibull_nodes(const fer_weibull_sample *sample, fer_weibull_nodes *nodes);

/* Confidence that the share exp(-exp(w)) lies above the logarithm t; writes how fast it rises with w and with t. */
double fer_weibull_confidence(const fer_weibull_nodes *nodes, double w, double t, double *by_w, double *by_t);

/* t, and w, at which that confidence is reached. */
double fer_weibull_bound(const fer_weibull_nodes *nodes, double w, double confidence);
double fer_weibull_share(const fer_weibull_nodes *nodes, double t, double confidence);

#endif
