/* SPDX-License-Identifier: MIT */
/* Double-double arithmetic: a number as the unevaluated sum of two doubles, about 31 digits.
 *
 * Used where a difference of nearly equal numbers would lose the last digits. Error-free sums and products:
 * Knuth, The Art of Computer Programming, vol. 2, 4.2.2; Dekker, Numer. Math. 18 (1971) 224-242 (from memory).
 * Needs strict double arithmetic: no contraction, no extended precision, no reassociation.
 */
#ifndef FER_NUMERIC_PAIR_H
#define FER_NUMERIC_PAIR_H

#include <math.h>

#include "base/numeric/strict.h"

typedef struct {
    double high, low;
} fer_pair;

static inline fer_pair fer_pair_of(double x)
{
    const fer_pair p = {x, 0.0};
    return p;
}

/* Sum of two doubles with its rounding error, |a| >= |b|. */
static inline fer_pair fer_pair_quick_sum(double a, double b)
{
    const double sum = a + b;
    const fer_pair p = {sum, b - (sum - a)};
    return p;
}

/* Difference of two doubles with its rounding error, |a| >= |b|. */
static inline fer_pair fer_pair_quick_difference(double a, double b)
{
    const double difference = a - b;
    const fer_pair p = {difference, (a - difference) - b};
    return p;
}

/* Sum of two doubles with its rounding error. */
static inline fer_pair fer_pair_sum(double a, double b)
{
    const double sum = a + b;
    const double part = sum - a;
    const fer_pair p = {sum, (a - (sum - part)) + (b - part)};
    return p;
}

/* Product of two doubles with its rounding error; exact below 1e300. */
static inline fer_pair fer_pair_product(double a, double b)
{
    const double split = 134217729.0; /* 2^27 + 1 */
    const double a_scaled = split * a, b_scaled = split * b;
    const double a_high = a_scaled - (a_scaled - a), b_high = b_scaled - (b_scaled - b);
    const double a_low = a - a_high, b_low = b - b_high;
    const double product = a * b;
    const fer_pair p = {product,
                        ((a_high * b_high - product) + a_high * b_low + a_low * b_high) + a_low * b_low};
    return p;
}

static inline fer_pair fer_pair_add(fer_pair a, fer_pair b)
{
    const fer_pair s = fer_pair_sum(a.high, b.high), t = fer_pair_sum(a.low, b.low);
    const fer_pair u = fer_pair_quick_sum(s.high, s.low + t.high);
    return fer_pair_quick_sum(u.high, u.low + t.low);
}

static inline fer_pair fer_pair_negate(fer_pair a)
{
    const fer_pair p = {-a.high, -a.low};
    return p;
}

static inline fer_pair fer_pair_subtract(fer_pair a, fer_pair b)
{
    return fer_pair_add(a, fer_pair_negate(b));
}

static inline fer_pair fer_pair_multiply(fer_pair a, fer_pair b)
{
    const fer_pair p = fer_pair_product(a.high, b.high);
    return fer_pair_quick_sum(p.high, p.low + (a.high * b.low + a.low * b.high));
}

/* Multiplies by a power of two. */
static inline fer_pair fer_pair_scale(fer_pair a, double power_of_two)
{
    const fer_pair p = {a.high * power_of_two, a.low * power_of_two};
    return p;
}

static inline fer_pair fer_pair_divide(fer_pair a, fer_pair b)
{
    const double first = a.high / b.high;
    const fer_pair rest = fer_pair_subtract(a, fer_pair_multiply(b, fer_pair_of(first)));
    const double second = rest.high / b.high;
    const fer_pair rest2 = fer_pair_subtract(rest, fer_pair_multiply(b, fer_pair_of(second)));
    return fer_pair_add(fer_pair_quick_sum(first, second), fer_pair_of(rest2.high / b.high));
}

/* Quotient as a double, right to a unit in its last place. */
static inline double fer_pair_ratio(fer_pair a, fer_pair b)
{
    const double first = a.high / b.high;
    return first + (a.low - first * b.low) / b.high;
}

/* Product with a double that may be of any size, as a double, right to a unit in its last place. */
static inline double fer_pair_times(fer_pair a, double b)
{
    return a.high * b + a.low * b;
}

/* Square root of a pair that is not negative. */
static inline fer_pair fer_pair_root(fer_pair a)
{
    if (!(a.high > 0.0)) {
        return fer_pair_of(0.0);
    }
    const double root = sqrt(a.high);
    const fer_pair rest = fer_pair_subtract(a, fer_pair_product(root, root));
    return fer_pair_quick_sum(root, rest.high / (2.0 * root));
}

static inline double fer_pair_value(fer_pair a)
{
    return a.high + a.low;
}

#endif
