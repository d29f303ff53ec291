/* SPDX-License-Identifier: MIT */
/* Factors by which mean and standard deviation hold a share of all pieces. Arguments have been checked: pieces 2 to 10,000, degrees
 * 1 to 100 times that, content above 0 and at most 0.999999, confidence above 0.5 and at most 0.999999. */
#ifndef FER_BATCH_TOLERANCE_H
#define FER_BATCH_TOLERANCE_H

double fer_one_sided_factor(double pieces, double degrees, double content, double confidence);
double fer_two_sided_factor(double pieces, double degrees, double content, double confidence);

#endif
