/* SPDX-License-Identifier: MIT */
/* Distributions and special functions. All return NaN outside their domain. */
#ifndef FER_NUMERIC_SPECIAL_H
#define FER_NUMERIC_SPECIAL_H

/* P(Z <= x) of the standard normal distribution; 1e-15 relative in both tails. */
double fer_normal_cdf(double x);

/* Density of the standard normal distribution. */
double fer_normal_density(double x);

/* x with fer_normal_cdf(x) = p, 0 < p < 1. Wichura, Algorithm AS 241, Appl. Statist. 37 (1988) 477-484. */
double fer_normal_quantile(double p);

/* ln Gamma(x) minus Stirling's formula, x >= 10. */
double fer_stirling_rest(double x);

/* ln B(a, b) for a, b > 0, without the loss that differences of log-gamma have for large arguments. */
double fer_log_beta(double a, double b);

/* Regularised incomplete beta function I_x(a, b), a, b > 0, 0 <= x <= 1. By a continued fraction. */
double fer_incomplete_beta(double a, double b, double x);

/* The same where x, y = 1 - x, both above 0, and front = x^a y^b/B(a, b) are there already. */
double fer_incomplete_beta_by(double a, double b, double x, double y, double front);

/* P(T <= t) of Student's t with v > 0 degrees of freedom. */
double fer_student_cdf(double t, double v);

/* The same for many t, and the density: degrees of freedom above 0, with ln B(1/2, v/2). */
typedef struct {
    double degrees, log_beta;
} fer_student;

fer_student fer_student_of(double degrees);
double fer_student_below(double t, const fer_student *student);
double fer_student_density(double t, const fer_student *student);

/* t with fer_student_cdf(t, v) = p, 0 < p < 1; v infinite: normal. */
double fer_student_quantile(double p, double v);

#endif
