/* SPDX-License-Identifier: MIT */
/* math.h for Eva. Each function takes any argument and may return anything, NaN and infinities included: what Frama-C's own
 * says of them holds for finite arguments only, and Eva would leave out all other paths. Exact by C11, F.10, are fabs, fmin and
 * fmax, which are written out, and ceil, floor, fmod, round, sqrt and trunc, for which Eva has its own (run.py). Nothing is asked
 * of a caller: no argument makes a call undefined. */
#ifndef PROOF_MATH_H
#define PROOF_MATH_H
#define __FC_MATH /* Frama-C's own is not read as well */

#define NAN         (0.0f / 0.0f) /* constants, as initialisers need them */
#define INFINITY    (1.0f / 0.0f)
#define HUGE_VAL    ((double)INFINITY)
#define isnan(x)    ((x) != (x))
#define isfinite(x) ((x) - (x) == 0)
#define isinf(x)    ((x) == (x) && !isfinite(x))

static inline double fabs(double x)
{
    return x <= 0.0 ? 0.0 - x : x;
}

static inline double fmin(double x, double y)
{
    return x != x ? y : y != y ? x : x < y ? x : y;
}

static inline double fmax(double x, double y)
{
    return x != x ? y : y != y ? x : x > y ? x : y;
}

/*@ assigns \result \from x, n; */
extern double ldexp(double x, int n);
/*@ assigns \result, *p \from x; */
extern double frexp(double x, int *p);
/*@ assigns \result, *p \from x; */
extern double modf(double x, double *p);

/*@ assigns \result \from x; */
extern double acos(double x);
/*@ assigns \result \from x; */
extern double asin(double x);
/*@ assigns \result \from x; */
extern double atan(double x);
/*@ assigns \result \from x; */
extern double cbrt(double x);
/*@ assigns \result \from x; */
extern double ceil(double x);
/*@ assigns \result \from x; */
extern double cos(double x);
/*@ assigns \result \from x; */
extern double cosh(double x);
/*@ assigns \result \from x; */
extern double erf(double x);
/*@ assigns \result \from x; */
extern double erfc(double x);
/*@ assigns \result \from x; */
extern double exp(double x);
/*@ assigns \result \from x; */
extern double exp2(double x);
/*@ assigns \result \from x; */
extern double expm1(double x);
/*@ assigns \result \from x; */
extern double floor(double x);
/*@ assigns \result \from x; */
extern double lgamma(double x);
/*@ assigns \result \from x; */
extern double log(double x);
/*@ assigns \result \from x; */
extern double log10(double x);
/*@ assigns \result \from x; */
extern double log1p(double x);
/*@ assigns \result \from x; */
extern double log2(double x);
/*@ assigns \result \from x; */
extern double rint(double x);
/*@ assigns \result \from x; */
extern double round(double x);
/*@ assigns \result \from x; */
extern double sin(double x);
/*@ assigns \result \from x; */
extern double sinh(double x);
/*@ assigns \result \from x; */
extern double sqrt(double x);
/*@ assigns \result \from x; */
extern double tan(double x);
/*@ assigns \result \from x; */
extern double tanh(double x);
/*@ assigns \result \from x; */
extern double tgamma(double x);
/*@ assigns \result \from x; */
extern double trunc(double x);

/*@ assigns \result \from x, y; */
extern double atan2(double x, double y);
/*@ assigns \result \from x, y; */
extern double copysign(double x, double y);
/*@ assigns \result \from x, y; */
extern double fmod(double x, double y);
/*@ assigns \result \from x, y; */
extern double hypot(double x, double y);
/*@ assigns \result \from x, y; */
extern double nextafter(double x, double y);
/*@ assigns \result \from x, y; */
extern double pow(double x, double y);
/*@ assigns \result \from x, y; */
extern double remainder(double x, double y);
#endif
