/* SPDX-License-Identifier: MIT */
/* Decimal text <-> double through a unit's exact factor, correctly rounded (ties to even) both ways.
 *
 * base number = (number - zero) * numerator / denominator
 *
 * Everything is exact in large whole numbers until the one rounding at the end; where all whole numbers are
 * below 2^53, one double division is that rounding (Clinger, How to read floating point numbers accurately,
 * 1990; from memory). Pi is taken to 256 bits, 77 digits, so that degrees are correctly rounded unless a number
 * agrees with a tie to more than 75 digits; a text with more digits than that is wrong beyond them. Needs IEEE
 * doubles, as pair.h does.
 */
#ifndef FER_NUMERIC_DECIMAL_H
#define FER_NUMERIC_DECIMAL_H

#include <stdint.h>

/* Longest number in digits and largest exponent that fer_written_value takes. */
enum { FER_WRITTEN_DIGITS = 400, FER_WRITTEN_EXPONENT = 400 };

/* Most digits of a formatted number: 1.8e308 mm in micrometres with 30 decimals has 342. */
enum { FER_DECIMAL_DIGITS = 360 };

/* All whole numbers below 2^53, but for a numerator that is not whole: that one means pi. For fer_decimal_fixed
 * denominator and zero may be such numbers times up to 2^7. */
typedef struct {
    double numerator, denominator, zero;
} fer_factor;

/* Digits in a text, from the first that is not 0; a decimal sign between them is skipped. */
typedef struct {
    const char *first; /* looked at where there are more than 19 */
    int digits;        /* 0: the number is 0 */
    uint64_t value;    /* the whole number, where it has at most 19 digits */
} fer_digits;

/* (whole + numerator / denominator) * 10^exponent, with a sign. */
typedef struct {
    fer_digits whole, numerator, denominator; /* denominator 0: no fraction */
    int exponent;
    int negative;
} fer_written;

/* 0.DIGITS * 10^point, with a sign; no digits: 0. */
typedef struct {
    char digits[FER_DECIMAL_DIGITS];
    int count, point, negative;
} fer_decimal;

/* The double nearest to the base number; infinity where it is beyond all doubles. No negative zero. */
double fer_written_value(const fer_written *written, const fer_factor *factor);

/* Number in the unit, rounded to so many decimals, 0 to 30; half to even on the exact value. */
void fer_decimal_fixed(double base, const fer_factor *factor, int decimals, fer_decimal *decimal);

/* Number in the unit with the fewest digits that read back to the same double. */
void fer_decimal_shortest(double base, const fer_factor *factor, fer_decimal *decimal);

#endif
