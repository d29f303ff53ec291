/* SPDX-License-Identifier: MIT */
/* The sum of two doubles, rightly rounded, in place of the one that GCC 12's own library (libgcc) has for Arm cores of the
 * architectures 7-M and before without a unit for double precision: that one loses bits far below the last digit, so that
 * a difference that lies next to the middle between two doubles can come out one unit off. */
#include <stdint.h>
#include <string.h>

enum { GUARD = 3, FRACTION = 52, EXPONENT_MAXIMUM = 0x7ff };

static const uint64_t hidden = UINT64_C(1) << FRACTION;

static double of_bits(uint64_t bits)
{
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

static uint64_t bits_of(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

static int exponent_of(uint64_t bits)
{
    return (int)(bits >> FRACTION & EXPONENT_MAXIMUM);
}

/* Digits with three more below them; a number too small for a hidden digit has the exponent 1. */
static uint64_t digits_of(uint64_t bits)
{
    return ((bits & (hidden - 1)) | (exponent_of(bits) ? hidden : 0)) << GUARD;
}

/* What falls off below is kept as one last bit that is not 0. */
static uint64_t shifted(uint64_t digits, int places)
{
    if (places > 60) {
        return digits != 0;
    }
    return digits >> places | ((digits & ((UINT64_C(1) << places) - 1)) != 0);
}

static uint64_t rounded(uint64_t sign, int exponent, uint64_t digits)
{
    const uint64_t rest = digits & ((1u << GUARD) - 1);
    digits >>= GUARD;
    digits += rest > 4 || (rest == 4 && (digits & 1));
    exponent -= digits < hidden; /* too small for a hidden digit */
    /* a carry out of the digits makes the exponent one larger by itself */
    const uint64_t bits = ((uint64_t)exponent << FRACTION) + (digits < hidden ? digits : digits - hidden);
    return sign | (bits >> FRACTION >= EXPONENT_MAXIMUM ? (uint64_t)EXPONENT_MAXIMUM << FRACTION : bits);
}

static double sum(double a, double b)
{
    const uint64_t sign_bit = UINT64_C(1) << 63;
    uint64_t large = bits_of(a), small = bits_of(b);
    if ((large & ~sign_bit) < (small & ~sign_bit)) {
        const uint64_t other = large;
        large = small;
        small = other;
    }
    const uint64_t sign = large & sign_bit, differ = (large ^ small) & sign_bit;
    int exponent = exponent_of(large);
    if (exponent == EXPONENT_MAXIMUM) { /* infinite, or not a number */
        const int none = (large & (hidden - 1)) != 0 || (exponent_of(small) == EXPONENT_MAXIMUM && differ);
        return of_bits(none ? UINT64_C(0x7ff8) << 48 : large);
    }
    exponent += exponent == 0;
    const int places = exponent - (exponent_of(small) + (exponent_of(small) == 0));
    const uint64_t part = shifted(digits_of(small), places);
    uint64_t digits = differ ? digits_of(large) - part : digits_of(large) + part;
    if (digits == 0) {
        return of_bits(differ ? 0 : sign);
    }
    if (digits >= hidden << (GUARD + 1)) {
        digits = shifted(digits, 1);
        exponent++;
    }
    for (; digits < hidden << GUARD && exponent > 1; exponent--) {
        digits <<= 1;
    }
    return of_bits(rounded(sign, exponent, digits));
}

#define BASE __attribute__((pcs("aapcs")))

BASE double __wrap___aeabi_dadd(double a, double b);
BASE double __wrap___aeabi_dsub(double a, double b);
BASE double __wrap___aeabi_drsub(double a, double b);

BASE double __wrap___aeabi_dadd(double a, double b)
{
    return sum(a, b);
}

BASE double __wrap___aeabi_dsub(double a, double b)
{
    return sum(a, of_bits(bits_of(b) ^ UINT64_C(1) << 63));
}

BASE double __wrap___aeabi_drsub(double a, double b)
{
    return sum(b, of_bits(bits_of(a) ^ UINT64_C(1) << 63));
}
