/* SPDX-License-Identifier: MIT */
/* Normal and Student's distribution, their quantiles, the incomplete beta function.
 * Method: erfc, rational approximations (Wichura, AS 241), a continued fraction, a guarded Newton root.
 * Formulas: base/numeric/special.h; DLMF 5.11 and 8.17. */
#include "base/numeric/special.h"

#include "base/numeric/pair.h"
#include "base/numeric/root.h"

#include <float.h>
#include <stddef.h>

static const double root_half = 0.70710678118654752440;
static const double root_half_rest = -4.8336466567264567e-17; /* 1/sqrt(2) minus its double */

double fer_normal_density(double x)
{
    return 0.39894228040143267794 * exp(-0.5 * x * x);
}

/* The tail is so steep that the rounding of x/sqrt(2) shows: add the first-order term of what it dropped, at most some 1e-13 of
 * the tail. That takes the density, by the tail itself: exp(-a^2) is erfc(a) sqrt(pi) (a + sqrt(a^2 + c))/2 with c between 4/pi
 * and 2 (Abramowitz and Stegun 7.1.13, from memory), which is near enough with any of these. Beyond the middle
 * nothing shows. */
double fer_normal_cdf(double x)
{
    const fer_pair scaled = fer_pair_product(-x, root_half);
    const double a = scaled.high, dropped = scaled.low - x * root_half_rest;
    if (!(x > -38.0 && x < 38.0)) {
        return 0.5 * erfc(-x * root_half);
    }
    const double share = 0.5 * erfc(a);
    return a > 0.0 ? share - share * (a + sqrt(a * a + 1.6)) * dropped : share;
}

/* Polynomial by Horner's rule, highest coefficient first. */
static double polynomial(const double *coefficients, size_t count, double x)
{
    double sum = coefficients[0];
    for (size_t i = 1; i < count; i++) {
        sum = sum * x + coefficients[i];
    }
    return sum;
}

static double rational(const double numerator[8], const double denominator[8], double x)
{
    return polynomial(numerator, 8, x) / polynomial(denominator, 8, x);
}

/* Quantile by the distance r = sqrt(-ln p) of a small tail. */
static double tail_quantile(double r)
{
    static const double near_numerator[8] = {
        7.74545014278341407640e-4, 0.0227238449892691845833, 0.241780725177450611770, 1.27045825245236838258,
        3.64784832476320460504,    5.76949722146069140550,   4.63033784615654529590,  1.42343711074968357734};
    static const double near_denominator[8] = {1.05075007164441684324e-9, 5.47593808499534494600e-4,
                                               0.0151986665636164571966,  0.148103976427480074590,
                                               0.689767334985100004550,   1.67638483018380384940,
                                               2.05319162663775882187,    1.0};
    static const double far_numerator[8] = {2.01033439929228813265e-7, 2.71155556874348757815e-5,
                                            0.00124266094738807843860, 0.0265321895265761230930,
                                            0.296560571828504891230,   1.78482653991729133580,
                                            5.46378491116411436990,    6.65790464350110377720};
    static const double far_denominator[8] = {2.04426310338993978564e-15, 1.42151175831644588870e-7,
                                              1.84631831751005468180e-5,  7.86869131145613259100e-4,
                                              0.0148753612908506148525,   0.136929880922735805310,
                                              0.599832206555887937690,    1.0};
    return r <= 5.0 ? rational(near_numerator, near_denominator, r - 1.6)
                    : rational(far_numerator, far_denominator, r - 5.0);
}

double fer_normal_quantile(double p)
{
    static const double numerator[8] = {2509.0809287301226727, 33430.575583588128105, 67265.770927008700853,
                                        45921.953931549871457, 13731.693765509461125, 1971.5909503065514427,
                                        133.14166789178437745, 3.3871328727963666080};
    static const double denominator[8] = {
        5226.4952788528545610, 28729.085735721942674, 39307.895800092710610, 21213.794301586595867,
        5394.1960214247511077, 687.18700749205790830, 42.313330701600911252, 1.0};
    const double from_middle = p - 0.5;
    if (!(p > 0.0 && p < 1.0)) {
        return NAN;
    }
    if (fabs(from_middle) <= 0.425) {
        return from_middle * rational(numerator, denominator, 0.180625 - from_middle * from_middle);
    }
    const double tail = from_middle < 0.0 ? p : 1.0 - p;
    const double distance = tail_quantile(sqrt(-log(tail)));
    return from_middle < 0.0 ? -distance : distance;
}

/* DLMF 5.11.1. */
double fer_stirling_rest(double x)
{
    static const double coefficients[7] = {1.0 / 156.0,  -691.0 / 360360.0, 1.0 / 1188.0, -1.0 / 1680.0,
                                           1.0 / 1260.0, -1.0 / 360.0,      1.0 / 12.0};
    return polynomial(coefficients, 7, 1.0 / (x * x)) / x;
}

double fer_log_beta(double a, double b)
{
    const double small = a < b ? a : b, large = a < b ? b : a, sum = a + b;
    if (!(small > 0.0)) {
        return NAN;
    }
    if (large < 10.0) {
        return log(tgamma(small) * (tgamma(large) / tgamma(sum)));
    }
    if (small < 10.0) {
        return log(tgamma(small)) + fer_stirling_rest(large) - fer_stirling_rest(sum) + small -
               small * log(sum) + (large - 0.5) * log1p(-small / sum);
    }
    return 0.91893853320467274178 - 0.5 * log(large) + fer_stirling_rest(small) + fer_stirling_rest(large) -
           fer_stirling_rest(sum) + (small - 0.5) * log(small / sum) + large * log1p(-small / sum);
}

/* Lentz's guard: a term of the fraction that cancels to nothing is taken as very small. */
static double away_from_zero(double x)
{
    return fabs(x) < 1e-300 ? 1e-300 : x; /* GCOVR_EXCL_BR_LINE: no a, b, x are known for which a term is 0 */
}

/* I_x(a, b) by x^a y^b/B(a, b): the even part of its continued fraction, by the modified Lentz method, in terms of
 * y = 1 - x, so that x near 1 loses nothing (Didonato and Morris, ACM Trans. Math. Softw. 18 (1992) 360-373, from
 * memory). Quick for x below (a + 1)/(a + b + 2). */
static double beta_fraction(double a, double b, double x, double y)
{
    const double past = a * y - b * x + 1.0;
    double fraction = away_from_zero(a * past / (a + 1.0)), c = fraction, d = 0.0;
    for (int i = 1; i < 20000; i++) {
        const double n = i, odd = a + 2.0 * n - 1.0, part = n * (b - n) * x / odd;
        const double over = part * x * ((a + n - 1.0) / odd) * (a + b + n - 1.0);
        const double under = n + part + (a + n) / (a + 2.0 * n + 1.0) * (past + n * (1.0 + y));
        d = 1.0 / away_from_zero(under + over * d);
        c = away_from_zero(under + over / c);
        fraction *= c * d;
        if (fabs(c * d - 1.0) <= DBL_EPSILON) {
            break;
        }
    }
    return 1.0 / fraction;
}

double fer_incomplete_beta_by(double a, double b, double x, double y, double front)
{
    if (x < (a + 1.0) / (a + b + 2.0)) {
        return front * beta_fraction(a, b, x, y);
    }
    return 1.0 - front * beta_fraction(b, a, y, x);
}

/* I_x(a, b) with y = 1 - x given apart, so that neither end loses digits, by the logarithm of B(a, b). */
static double incomplete_beta(double a, double b, double x, double y, double log_beta)
{
    if (x <= 0.0) {
        return 0.0;
    }
    if (y <= 0.0) {
        return 1.0;
    }
    const double front =
        exp(a * (x < 0.5 ? log(x) : log1p(-y)) + b * (y < 0.5 ? log(y) : log1p(-x)) - log_beta);
    return fer_incomplete_beta_by(a, b, x, y, front);
}

double fer_incomplete_beta(double a, double b, double x)
{
    if (!(a > 0.0 && b > 0.0 && x >= 0.0 && x <= 1.0)) {
        return NAN;
    }
    return incomplete_beta(a, b, x, 1.0 - x, fer_log_beta(a, b));
}

fer_student fer_student_of(double degrees)
{
    const fer_student student = {degrees, degrees > 1e15 ? 0.0 : fer_log_beta(0.5, 0.5 * degrees)};
    return student;
}

/* P(T > t) for t >= 0. */
static double student_tail(double t, const fer_student *student)
{
    const double v = student->degrees, x = v / (v + t * t), y = t * t / (v + t * t);
    return 0.5 * incomplete_beta(0.5 * v, 0.5, x, y, student->log_beta);
}

double fer_student_below(double t, const fer_student *student)
{
    if (student->degrees > 1e15) {
        return fer_normal_cdf(t);
    }
    return t < 0.0 ? student_tail(-t, student) : 1.0 - student_tail(t, student);
}

double fer_student_density(double t, const fer_student *student)
{
    const double v = student->degrees;
    if (v > 1e15) {
        return fer_normal_density(t);
    }
    return exp(-0.5 * (v + 1.0) * log1p(t * t / v) - student->log_beta) / sqrt(v);
}

double fer_student_cdf(double t, double v)
{
    if (!(v > 0.0)) {
        return NAN;
    }
    const fer_student student = fer_student_of(v);
    return fer_student_below(t, &student);
}

typedef struct {
    double tail;
    fer_student student;
} student_point;

/* Tail wanted minus the tail beyond t: rises with t. */
static double tail_missing(double t, const void *context, double *slope)
{
    const student_point *point = (const student_point *)context;
    *slope = fer_student_density(t, &point->student);
    return point->tail - student_tail(t, &point->student);
}

static double student_tail_quantile(double tail, double v)
{
    const student_point point = {tail, fer_student_of(v)};
    double low = 0.0, high = 1.0;
    while (student_tail(high, &point.student) > tail) { /* ends: from 1e154 on the tail is 0 in doubles */
        low = high;
        high *= 4.0;
    }
    return fer_rising_root(tail_missing, &point, low, high, 0.5 * (low + high), DBL_EPSILON);
}

double fer_student_quantile(double p, double v)
{
    if (!(p > 0.0 && p < 1.0 && v > 0.0)) {
        return NAN;
    }
    if (v > 1e15) {
        return fer_normal_quantile(p);
    }
    if (p == 0.5) {
        return 0.0;
    }
    return p < 0.5 ? -student_tail_quantile(p, v) : student_tail_quantile(1.0 - p, v);
}
