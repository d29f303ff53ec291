/* SPDX-License-Identifier: MIT */
/* The mathematical functions that IEEE 754 leaves to the system, in place of the system's: plain series out of sums,
 * products, quotients and square roots, which are exact to the bit everywhere. What two machines print with these must be
 * the same, so that whatever else differs between them comes from their own mathematical functions.
 * Good to about 1e-14, for comparing machines and for nothing else. */
#include <math.h>

#undef log2 /* newlib has a macro for it, of the same meaning */

static const double log_two = 0.69314718055994530942, log_two_rest = 2.3190468138462996e-17;
static const double half_pi = 1.57079632679489661923, half_pi_rest = 6.123233995736766e-17;
static const double half_pi_times_two = 3.14159265358979323846;

/* sum of x^k/k! from k = 1 */
static double exponential_less_one(double x)
{
    double sum = 0.0;
    for (int k = 22; k > 0; k--) {
        sum = (sum + 1.0) * x / k;
    }
    return sum;
}

double exp(double x)
{
    if (!(x < 710.0)) {
        return x != x ? x : INFINITY;
    }
    if (x < -760.0) {
        return 0.0;
    }
    const double whole = rint(x / log_two);
    const double rest = (x - whole * log_two) - whole * log_two_rest;
    return ldexp(1.0 + exponential_less_one(rest), (int)whole);
}

double expm1(double x)
{
    return x > -0.5 && x < 0.5 ? exponential_less_one(x) : exp(x) - 1.0;
}

/* ln((1 + s)/(1 - s)) */
static double logarithm_by(double s)
{
    double sum = 0.0;
    for (int k = 41; k > 0; k -= 2) {
        sum = sum * s * s + 2.0 / k;
    }
    return sum * s;
}

double log(double x)
{
    int exponent;
    if (!(x > 0.0)) {
        return x == 0.0 ? -INFINITY : NAN;
    }
    if (x - x != 0.0) {
        return x;
    }
    double part = frexp(x, &exponent);
    if (part < 0.7071) {
        part *= 2.0;
        exponent--;
    }
    return logarithm_by((part - 1.0) / (part + 1.0)) + exponent * log_two;
}

double log1p(double x)
{
    return x > -0.25 && x < 0.5 ? logarithm_by(x / (2.0 + x)) : log(1.0 + x);
}

double log2(double x)
{
    return log(x) / log_two;
}

double log10(double x)
{
    return log(x) / 2.30258509299404568402;
}

double pow(double x, double y)
{
    return exp(y * log(x));
}

/* sum of (-1)^k x^(2k + first)/(2k + first)! */
static double wave(double x, int first)
{
    double sum = 0.0;
    for (int k = 20 + first; k > first; k -= 2) {
        sum = (1.0 - sum) * x * x / (k * (k - 1));
    }
    return (1.0 - sum) * (first ? x : 1.0);
}

static double turned(double x, int quarters)
{
    const double whole = rint(x / half_pi);
    const double rest = (x - whole * half_pi) - whole * half_pi_rest;
    switch (((int)whole + quarters) & 3) {
    case 0:
        return wave(rest, 1);
    case 1:
        return wave(rest, 0);
    case 2:
        return -wave(rest, 1);
    default:
        return -wave(rest, 0);
    }
}

double sin(double x)
{
    return turned(x, 0);
}

double cos(double x)
{
    return turned(x, 1);
}

/* What some compilers make of the two above. */
void sincos(double x, double *sine, double *cosine);
void sincos(double x, double *sine, double *cosine)
{
    *sine = turned(x, 0);
    *cosine = turned(x, 1);
}

double hypot(double x, double y)
{
    return sqrt(x * x + y * y);
}

double atan2(double y, double x)
{
    const double sign = y < 0.0 ? -1.0 : 1.0;
    double angle = 0.0, t = fabs(x) < fabs(y) ? fabs(x) / fabs(y) : fabs(y) / fabs(x);
    for (int halving = 0; halving < 3; halving++) {
        t = t / (1.0 + sqrt(1.0 + t * t));
    }
    for (int k = 21; k > 0; k -= 2) {
        angle = 1.0 / k - angle * t * t;
    }
    angle *= 8.0 * t;
    if (fabs(x) < fabs(y)) {
        angle = half_pi - angle;
    }
    return sign * (x < 0.0 ? half_pi_times_two - angle : angle);
}

/* Series where the argument is small, continued fraction where it is large. */
double erfc(double x)
{
    if (x < 2.0) {
        double sum = 0.0;
        if (x < -6.0) {
            return 2.0;
        }
        for (int k = 120; k > 0; k--) {
            sum = (sum + 1.0) * 2.0 * x * x / (2 * k + 1);
        }
        return 1.0 - 1.12837916709551257390 * x * exp(-x * x) * (1.0 + sum);
    }
    double fraction = x;
    for (int k = 120; k > 0; k--) {
        fraction = x + 0.5 * k / fraction;
    }
    return exp(-x * x) * 0.56418958354775628695 / fraction;
}

/* Stirling's series, after steps up to where it is good. */
double tgamma(double x)
{
    double below = 1.0;
    while (x < 15.0) {
        below *= x;
        x += 1.0;
    }
    const double square = x * x;
    const double rest =
        (1.0 / 12.0 - (1.0 / 360.0 - (1.0 / 1260.0 - 1.0 / 1680.0 / square) / square) / square) / x;
    return exp((x - 0.5) * log(x) - x + 0.91893853320467274178 + rest) / below;
}
