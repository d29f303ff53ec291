/* SPDX-License-Identifier: MIT */
/* Which values are accepted and which rejected, given the limits and what is known of the measurement: the mathematics
 * of verdicts, zones on a card, and limits that are uncertain themselves. Plain numbers; all have been checked. */
#ifndef FER_NUMERIC_ZONE_H
#define FER_NUMERIC_ZONE_H

/* A value that was measured, and the rule that judges it. */
typedef struct {
    double value, u;       /* u: its standard uncertainty; 0: exact */
    double lower, upper;   /* limits; infinite where one does not count */
    double factor, normal; /* guard band in u, and in standard uncertainties of a normal distribution */
    double degrees;        /* of freedom of u; 0: known exactly, normal distribution */
    int without;           /* 1: no guard band */
} fer_judging;

/* Where acceptance and rejection end. Where acceptance is empty its ends are crossed: the other limit each. */
typedef struct {
    double accept_lower, accept_upper, reject_lower, reject_upper;
    int by_probability, empty;
} fer_bands;

/* Fills factor, normal, degrees and without. Factor: in normal standard uncertainties; with degrees of freedom it
 * becomes Student's at the same probability. */
void fer_set_guard(fer_judging *judging, double factor, int without, double degrees);

/* P(true value <= x) and P(true value >= x) where `value` was measured; 0 beyond a limit that does not count. */
double fer_judged_below(const fer_judging *judging, double x, double value);
double fer_judged_above(const fer_judging *judging, double x, double value);

/* By guard band, or by both tails where the tolerance is too narrow for it. Where not even the middle would be
 * accepted acceptance is empty, and rejected is what lies a guard band outside. */
void fer_find_bands(const fer_judging *q, fer_bands *b);

/* Degrees of freedom with which Student's factor times u gives the guard band of a sum: the part u_known with the
 * normal factor, the part u_estimated with Student's, added in quadrature. 0: infinitely many. u^2 is the sum of both
 * squares. */
double fer_combined_degrees(double factor, double u_known, double u_estimated, double degrees);

/* Standard uncertainty of one reading of a gauge: its own, and the rectangular share of its step. */
double fer_reading_uncertainty(double gauge_uncertainty, double step);

/* A zone of true values as what a gauge shows: the correction taken off, ends rounded inwards to its step (0: none). */
double fer_shown_lower(double lower, double correction, double step);
double fer_shown_upper(double upper, double correction, double step);

#endif
