/* SPDX-License-Identifier: MIT */
/* A loop with so many turns that the compiler is to write out. */
#ifndef FER_NUMERIC_UNROLL_H
#define FER_NUMERIC_UNROLL_H

/* Clang unrolls by itself. */
#if defined(__GNUC__) && !defined(__clang__)
#define FER_PRAGMA(text)  _Pragma(#text)
#define FER_UNROLL(times) FER_PRAGMA(GCC unroll times)
#else
#define FER_UNROLL(times)
#endif

#endif
