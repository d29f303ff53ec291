/* SPDX-License-Identifier: MIT */
/* Distribution of a sum of independent normal, rectangular and triangular numbers, all with mean 0. */
#ifndef FER_NUMERIC_MIXTURE_H
#define FER_NUMERIC_MIXTURE_H

enum { FER_MIXTURE_PARTS = 6 };

/* A rectangular (order 1) or triangular (order 2) number. */
typedef struct {
    double half_width; /* above 0 */
    int order;
} fer_mixture_part;

typedef struct {
    double deviation; /* of the normal number; 0: there is none */
    fer_mixture_part parts[FER_MIXTURE_PARTS];
    int count; /* parts; without any the sum is normal */
} fer_mixture;

/* P(sum <= x); 1e-12 absolute. A sum without anything is 0. */
double fer_mixture_cdf(const fer_mixture *mixture, double x);

#endif
