/* SPDX-License-Identifier: MIT */
/* What the arithmetic has to be. Without NaN every check of an argument would be gone, and reassociated sums have no last
 * digits: a build with -ffast-math, -Ofast or one of their parts is refused. */
#ifndef FER_NUMERIC_STRICT_H
#define FER_NUMERIC_STRICT_H

#if defined(__FAST_MATH__) || (defined(__FINITE_MATH_ONLY__) && __FINITE_MATH_ONLY__) || defined(_M_FP_FAST)
#error "ferrule needs IEEE arithmetic: do not build it with -Ofast, -ffast-math or -ffinite-math-only"
#endif

#endif
