/* SPDX-License-Identifier: MIT */
/* What the arithmetic has to be. Without NaN every check of an argument would be gone, and reassociated sums have no last
 * digits: a build with -ffast-math, -Ofast or one of their parts is refused. */
#ifndef FER_NUMERIC_STRICT_H
#define FER_NUMERIC_STRICT_H

#if defined(__FAST_MATH__) || defined(__ASSOCIATIVE_MATH__) || defined(__RECIPROCAL_MATH__)
#error                                                                                                       \
    "ferrule needs IEEE arithmetic: do not build it with -Ofast, -ffast-math or -funsafe-math-optimizations"
#endif
#if defined(__FINITE_MATH_ONLY__) && __FINITE_MATH_ONLY__
#error "ferrule refuses NaN and infinity: do not build it with -ffinite-math-only"
#endif

#endif
