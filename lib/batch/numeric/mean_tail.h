/* SPDX-License-Identifier: MIT */
/* The engine of the limits in module capability: the mean, over a standard normal Z, of a chi-square tail whose argument depends on Z. */
#ifndef FER_BATCH_MEAN_TAIL_H
#define FER_BATCH_MEAN_TAIL_H

/* Argument of chi-square at z, 0 where its tail is 1; writes how fast its logarithm rises with the number that is looked for. */
typedef double fer_tail_argument(double z, const void *context, double *rate);

typedef struct {
    fer_tail_argument *argument;
    const void *context;
    double degrees, pieces; /* of freedom of chi-square; behind the mean: at least 2, which sets the step */
    double end;             /* the argument is 0 from this z on; infinite: nowhere */
    int folded;             /* the argument is one of |z|, given for z >= 0 */
    double bends[4];        /* where the argument has a bend; infinite: nowhere */
} fer_tail_mean;

/* E[P(X > argument(Z))]; writes how fast it rises with the number that is looked for. */
double fer_mean_tail(const fer_tail_mean *mean, double *slope);

#endif
