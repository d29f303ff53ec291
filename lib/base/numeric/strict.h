/* SPDX-License-Identifier: MIT */
/* What the arithmetic has to be, in every source that computes, before its first function. Without NaN every check of an
 * argument would be gone, and reassociated sums have no last digits: a build with -ffast-math, -Ofast or one of their parts
 * is refused. */
#ifndef FER_NUMERIC_STRICT_H
#define FER_NUMERIC_STRICT_H

#if defined(__FAST_MATH__) || defined(__ASSOCIATIVE_MATH__) || defined(__RECIPROCAL_MATH__)
#error                                                                                                       \
    "ferrule needs IEEE arithmetic: do not build it with -Ofast, -ffast-math or -funsafe-math-optimizations"
#endif
#if defined(__FINITE_MATH_ONLY__) && __FINITE_MATH_ONLY__
#error "ferrule refuses NaN and infinity: do not build it with -ffinite-math-only"
#endif

#include <float.h>

#if FLT_EVAL_METHOD != 0 && FLT_EVAL_METHOD != 1 && FLT_EVAL_METHOD != 16
#error "ferrule needs doubles without extended precision: on i386, build it with -msse2 -mfpmath=sse"
#endif

/* A product and a sum in one rounding give other bits than two. The library's own build says so by -ffp-contract=off; this
 * is for those who put the sources into a build of their own. */
#if defined(__clang__)
#pragma STDC FP_CONTRACT OFF
#elif defined(__GNUC__)
#pragma GCC optimize("fp-contract=off")
#endif

/* On cores like the Cortex-M0, gcc 12 with -Os gives a function its stack by pushing registers of its arguments, spoils them
 * by that, and tells callers in the same file that they are as before: add_tally in chance.c then read from nowhere. */
#if defined(__GNUC__) && !defined(__clang__) && defined(__thumb__) && !defined(__thumb2__)
#pragma GCC optimize("no-ipa-ra")
#endif

#endif
