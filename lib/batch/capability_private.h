/* SPDX-License-Identifier: MIT */
/* What the parts of module capability share. All arguments have been checked. */
#ifndef FER_CAPABILITY_PRIVATE_H
#define FER_CAPABILITY_PRIVATE_H

#include <ferrule/capability.h>

/* Gauge within a sample: variance and its degrees of freedom, 0: known; variance common to all pieces. */
typedef struct {
    double variance, degrees, common;
} fer_gauge_part;

/* Which index is to be limited: distance of a limit from the mean, or half the distance of both limits. */
typedef struct {
    double distance, deviation; /* of the values, gauge included */
    double pieces;              /* behind the mean; 0: it does not count */
    double degrees;
    fer_gauge_part gauge;
} fer_index_basis;

fer_gauge_part fer_part_of_gauge(const fer_measuring *measuring);

/* Own deviation of the pieces at which a limit so far from the mean is `score` own deviations away from a mean that is off by z standard
 * deviations of the mean, towards the limit where z is negative. Infinite: any deviation leaves it farther; the deviation would be
 * below 0: not above 0. Writes the root of the quadratic equation's discriminant. */
double fer_own_deviation(double distance, double z, double score, double pieces, const fer_gauge_part *gauge,
                         double *width);

/* The z below which the mean decides alone, since the deviation would be below the gauge's own, and that below which even a mean
 * known exactly but for the common part does. */
void fer_bends_of(double distance, double pieces, double gauge, double common, double bends[2]);

/* Index that the process has at least with the probability given; NaN where that cannot be said. */
double fer_index_limit(const fer_index_basis *basis, double probability);

/* The summary comes from a sample. */
fer_status fer_check_summary(const fer_sample_summary *summary);

/* Wanted limits and gauge are possible, and the pieces scatter more than the gauge; fills what is needed of both. */
fer_status fer_take_share_question(const fer_sample_summary *summary, const fer_wanted *wanted,
                                   const fer_measuring *measuring, fer_gauge_part *gauge);

/* A number that depends on the gauge's variance, averaged where that is not known exactly; both write their slopes. */
typedef double fer_gauge_function(double x, double gauge_variance, const void *context, double *slope);
double fer_mean_over_gauge(fer_gauge_function *function, double x, const fer_gauge_part *gauge,
                           const void *context, double *slope);

#endif
