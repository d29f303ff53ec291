/* SPDX-License-Identifier: MIT */
/* Large whole numbers on the stack, for the exact conversions of decimal.c.
 *
 * Schoolbook methods: Knuth, The Art of Computer Programming, vol. 2, 4.3.1 (from memory).
 */
#ifndef FER_NUMERIC_WHOLE_H
#define FER_NUMERIC_WHOLE_H

#include <stdint.h>
#include <string.h>

/* 3200 bits. The largest that occur: 10^800 times a unit's factor of at most 256 bits, shifted by 63 bits. */
enum { FER_WHOLE_LIMBS = 100 };

/* limb[0] is the lowest; limb[count - 1] is not 0; nothing beyond count is ever read. */
typedef struct {
    int count;
    uint32_t limb[FER_WHOLE_LIMBS];
} fer_whole;

static inline void fer_whole_trim(fer_whole *a)
{
    while (a->count > 0 && a->limb[a->count - 1] == 0) {
        a->count--;
    }
}

static inline void fer_whole_set(fer_whole *a, uint64_t value)
{
    a->limb[0] = (uint32_t)value;
    a->limb[1] = (uint32_t)(value >> 32);
    a->count = 2;
    fer_whole_trim(a);
}

static inline void fer_whole_copy(fer_whole *a, const fer_whole *b)
{
    a->count = b->count;
    memcpy(a->limb, b->limb, (size_t)b->count * sizeof *b->limb);
}

static inline int fer_bit_length(uint64_t value)
{
    int length = 0;
    for (int step = 32; step > 0; step /= 2) {
        if (value >> step) {
            value >>= step;
            length += step;
        }
    }
    return length + (value != 0);
}

static inline int fer_whole_bits(const fer_whole *a)
{
    return a->count == 0 ? 0 : 32 * (a->count - 1) + fer_bit_length(a->limb[a->count - 1]);
}

/* The lowest 64 bits. */
static inline uint64_t fer_whole_low(const fer_whole *a)
{
    const uint64_t low = a->count > 0 ? a->limb[0] : 0, high = a->count > 1 ? a->limb[1] : 0;
    return high << 32 | low;
}

/* a = a factor + more */
static inline void fer_whole_multiply_small(fer_whole *a, uint32_t factor, uint32_t more)
{
    uint64_t carry = more;
    for (int i = 0; i < a->count; i++) {
        carry += (uint64_t)a->limb[i] * factor;
        a->limb[i] = (uint32_t)carry;
        carry >>= 32;
    }
    if (carry) {
        a->limb[a->count++] = (uint32_t)carry;
    }
}

static inline void fer_whole_multiply(fer_whole *a, const fer_whole *b)
{
    fer_whole left;
    fer_whole_copy(&left, a);
    a->count = left.count + b->count;
    memset(a->limb, 0, (size_t)a->count * sizeof *a->limb);
    for (int i = 0; i < left.count; i++) {
        uint64_t carry = 0;
        for (int j = 0; j < b->count; j++) {
            carry += (uint64_t)left.limb[i] * b->limb[j] + a->limb[i + j];
            a->limb[i + j] = (uint32_t)carry;
            carry >>= 32;
        }
        a->limb[i + b->count] = (uint32_t)carry;
    }
    fer_whole_trim(a);
}

/* a = a * 10^power; a itself where the power is below 0. */
static inline void fer_whole_multiply_power_of_ten(fer_whole *a, int power)
{
    for (; power >= 9; power -= 9) {
        fer_whole_multiply_small(a, 1000000000, 0);
    }
    uint32_t rest = 1;
    for (; power > 0; power--) {
        rest *= 10;
    }
    if (rest > 1) {
        fer_whole_multiply_small(a, rest, 0);
    }
}

static inline void fer_whole_shift_left(fer_whole *a, int bits)
{
    if (a->count == 0 || bits == 0) {
        return;
    }
    const int limbs = bits / 32;
    memmove(a->limb + limbs, a->limb, (size_t)a->count * sizeof *a->limb);
    memset(a->limb, 0, (size_t)limbs * sizeof *a->limb);
    a->count += limbs;
    fer_whole_multiply_small(a, (uint32_t)1 << bits % 32, 0);
}

/* Below, at or above 0 as a is below, equal to or above b. */
static inline int fer_whole_compare(const fer_whole *a, const fer_whole *b)
{
    if (a->count != b->count) {
        return a->count - b->count;
    }
    for (int i = a->count - 1; i >= 0; i--) {
        if (a->limb[i] != b->limb[i]) {
            return a->limb[i] < b->limb[i] ? -1 : 1;
        }
    }
    return 0;
}

static inline void fer_whole_add(fer_whole *a, const fer_whole *b)
{
    uint64_t carry = 0;
    for (int i = 0; i < b->count || (carry && i < a->count); i++) {
        carry += (uint64_t)(i < a->count ? a->limb[i] : 0) + (i < b->count ? b->limb[i] : 0);
        a->limb[i] = (uint32_t)carry;
        carry >>= 32;
    }
    a->count = a->count > b->count ? a->count : b->count;
    if (carry) {
        a->limb[a->count++] = (uint32_t)carry;
    }
}

/* limbs = limbs - b factor for the lowest b->count limbs and one more; the borrow beyond, 0 or 1. */
static inline int fer_limbs_subtract(uint32_t *limbs, const fer_whole *b, uint32_t factor)
{
    uint64_t carry = 0, borrow = 0;
    for (int i = 0; i <= b->count; i++) {
        carry += i < b->count ? (uint64_t)b->limb[i] * factor : 0;
        const uint64_t difference = (uint64_t)limbs[i] - (uint32_t)carry - borrow;
        limbs[i] = (uint32_t)difference;
        borrow = difference >> 63;
        carry >>= 32;
    }
    return (int)borrow;
}

/* a = a - b for a >= b, so that nothing is left to borrow beyond a. */
static inline void fer_whole_subtract(fer_whole *a, const fer_whole *b)
{
    uint64_t borrow = 0;
    for (int i = 0; i < b->count || borrow; i++) {
        const uint64_t difference = (uint64_t)a->limb[i] - (i < b->count ? b->limb[i] : 0) - borrow;
        a->limb[i] = (uint32_t)difference;
        borrow = difference >> 63;
    }
    fer_whole_trim(a);
}

/* Undoes one subtraction of b too many. */
static inline void fer_limbs_add_back(uint32_t *limbs, const fer_whole *b)
{
    uint64_t carry = 0;
    for (int i = 0; i <= b->count; i++) {
        carry += (uint64_t)limbs[i] + (i < b->count ? b->limb[i] : 0);
        limbs[i] = (uint32_t)carry;
        carry >>= 32;
    }
}

/* One limb of the quotient; limbs has b->count + 1 limbs and becomes the rest. The top bit of b is set. */
static inline uint32_t fer_limbs_divide(uint32_t *limbs, const fer_whole *b)
{
    const int n = b->count;
    const uint64_t top = (uint64_t)limbs[n] << 32 | limbs[n - 1];
    const uint64_t most = UINT32_MAX, guess = top / b->limb[n - 1];
    uint32_t digit = (uint32_t)(guess < most ? guess : most);
    int below_zero = fer_limbs_subtract(limbs, b, digit);
    while (below_zero) { /* at most twice, since the top bit of b is set */
        fer_limbs_add_back(limbs, b);
        digit--;
        below_zero = limbs[n] != 0;
    }
    return digit;
}

/* quotient = a / b, a = rest. The top bit of b's highest limb must be set (both may be shifted for that). */
static inline void fer_whole_divide(fer_whole *a, const fer_whole *b, fer_whole *quotient)
{
    const int n = b->count, digits = a->count - n + 1;
    quotient->count = 0;
    if (digits <= 0) {
        return;
    }
    a->limb[a->count] = 0;
    for (int i = digits - 1; i >= 0; i--) {
        quotient->limb[i] = fer_limbs_divide(a->limb + i, b);
    }
    quotient->count = digits;
    a->count = n;
    fer_whole_trim(quotient);
    fer_whole_trim(a);
}

/* a = a / divisor; the rest. */
static inline uint32_t fer_whole_divide_small(fer_whole *a, uint32_t divisor)
{
    uint64_t rest = 0;
    for (int i = a->count - 1; i >= 0; i--) {
        rest = rest << 32 | a->limb[i];
        a->limb[i] = (uint32_t)(rest / divisor);
        rest %= divisor;
    }
    fer_whole_trim(a);
    return (uint32_t)rest;
}

#endif
