/* SPDX-License-Identifier: MIT */
/* Decimal digits to the nearest double in a unit, and back.
 * Method: whole numbers of many limbs (base/numeric/whole.h), rounded once, ties to even; short cuts only where they are exact.
 * Formulas: base/numeric/decimal.h; IEEE 754-2019, clause 5.12. */
#include "base/numeric/decimal.h"

#include "base/numeric/strict.h"

#include <math.h>
#include <string.h>

#include "base/numeric/whole.h"

#define BELOW_2_53(x) (fabs(x) < 9007199254740992.0)

/* pi = pi_whole / 2^254 to 256 bits. */
enum { PI_SHIFT = 254 };
static const fer_whole pi_whole = {
    8, {0x3b139b22, 0x020bbea6, 0x8a67cc74, 0x29024e08, 0x80dc1cd1, 0xc4c6628b, 0x2168c234, 0xc90fdaa2}};

static int has_pi(const fer_factor *factor)
{
    return factor->numerator != floor(factor->numerator);
}

/* a = a * numerator, without pi's power of two */
static void multiply_by_numerator(fer_whole *a, const fer_factor *factor)
{
    fer_whole numerator;
    fer_whole_set(&numerator, (uint64_t)factor->numerator);
    fer_whole_multiply(a, has_pi(factor) ? &pi_whole : &numerator);
}

/* a = a * denominator, with pi's power of two */
static void multiply_by_denominator(fer_whole *a, const fer_factor *factor)
{
    fer_whole denominator;
    fer_whole_set(&denominator, (uint64_t)factor->denominator);
    fer_whole_multiply(a, &denominator);
    fer_whole_shift_left(a, has_pi(factor) ? PI_SHIFT : 0);
}

/* Adds more, with its sign, to a, which has a sign too. */
static void add_signed(fer_whole *a, int *negative, const fer_whole *more, int more_negative)
{
    fer_whole difference;
    if (*negative == more_negative) {
        fer_whole_add(a, more);
    } else if (fer_whole_compare(a, more) >= 0) {
        fer_whole_subtract(a, more);
    } else {
        fer_whole_copy(&difference, more);
        fer_whole_subtract(&difference, a);
        fer_whole_copy(a, &difference);
        *negative = more_negative;
    }
}

/* a = a + sign * zero * unit: moves the zero of the scale. */
static void add_zero(fer_whole *a, int *negative, const fer_factor *factor, int sign, const fer_whole *unit)
{
    if (factor->zero != 0.0) {
        fer_whole zero;
        fer_whole_set(&zero, (uint64_t)factor->zero);
        fer_whole_multiply(&zero, unit);
        add_signed(a, negative, &zero, sign < 0);
    }
}

/* ---- text to double ---- */

/* (quotient + something below 1 if sticky) * 2^exponent as a double; quotient has 63 or 64 bits. */
static double round_to_double(uint64_t quotient, int sticky, int exponent)
{
    const int bits = fer_bit_length(quotient), minimum = -1074;
    const int drop = bits - 53 > minimum - exponent ? bits - 53 : minimum - exponent;
    if (drop > 64) {
        return 0.0;
    }
    const uint64_t half = (uint64_t)1 << (drop - 1);
    const uint64_t kept = drop == 64 ? 0 : quotient >> drop, rest = quotient & (half | (half - 1));
    const int up = rest > half || (rest == half && (sticky || (kept & 1)));
    const uint64_t rounded = kept + (uint64_t)up;
    if (fer_bit_length(rounded) + exponent + drop > 1024) {
        return INFINITY;
    }
    return ldexp((double)rounded, exponent + drop);
}

/* a / b as a double; changes both. */
static double divide_to_double(fer_whole *a, fer_whole *b)
{
    if (a->count == 0) {
        return 0.0;
    }
    const int level = 32 * b->count - fer_whole_bits(b);
    fer_whole_shift_left(b, level);
    const int shift = 63 + fer_whole_bits(b) - fer_whole_bits(a);
    if (shift >= 0) {
        fer_whole_shift_left(a, shift);
    } else {
        const int limbs = (31 - shift) / 32; /* whole limbs, so that b stays level */
        fer_whole_shift_left(b, 32 * limbs);
        fer_whole_shift_left(a, 32 * limbs + shift);
    }
    fer_whole quotient;
    fer_whole_divide(a, b, &quotient);
    return round_to_double(fer_whole_low(&quotient), a->count > 0, level - shift);
}

static void read_digits(const fer_digits *digits, fer_whole *a)
{
    if (digits->digits <= 19) {
        fer_whole_set(a, digits->value);
        return;
    }
    fer_whole_set(a, 0);
    const char *next = digits->first;
    for (int i = 0; i < digits->digits; next++) {
        if (*next >= '0') { /* points and commas are below */
            fer_whole_multiply_small(a, 10, (uint32_t)(*next - '0'));
            i++;
        }
    }
}

static double exact_value(const fer_written *written, const fer_factor *factor)
{
    fer_whole top, bottom, part;
    int negative = written->negative;
    read_digits(&written->whole, &top);
    fer_whole_set(&bottom, 1);
    if (written->denominator.digits > 0) {
        read_digits(&written->denominator, &bottom);
        fer_whole_multiply(&top, &bottom);
        read_digits(&written->numerator, &part);
        fer_whole_add(&top, &part);
    }
    fer_whole_multiply_power_of_ten(&top, written->exponent);
    fer_whole_multiply_power_of_ten(&bottom, -written->exponent);
    add_zero(&top, &negative, factor, -1, &bottom);
    multiply_by_numerator(&top, factor);
    multiply_by_denominator(&bottom, factor);
    const double value = divide_to_double(&top, &bottom);
    return negative && value > 0.0 ? -value : value;
}

/* Base number of top / bottom in one rounding; 0 where the whole numbers are not all below 2^53. */
static int quick_quotient(double top, double bottom, const fer_factor *factor, double *value)
{
    const double zero = factor->zero * bottom, shifted = top - zero;
    const double above = shifted * factor->numerator, below = bottom * factor->denominator;
    *value = above / below + 0.0; /* no negative zero */
    /* no numerator is below 1, so what is shifted is no larger than what is above */
    return BELOW_2_53(top) && BELOW_2_53(zero) && BELOW_2_53(above) && BELOW_2_53(below) && !has_pi(factor);
}

static const double powers_of_ten[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                       1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
enum { POWER_MAXIMUM = 15 };

static int quick_value(const fer_written *written, const fer_factor *factor, double *value)
{
    const int exponent = written->exponent, fraction = written->denominator.digits > 0;
    /* with more digits than a value holds it is not below 2^53, and then top or bottom is not */
    if (exponent > POWER_MAXIMUM || exponent < -POWER_MAXIMUM) {
        return 0;
    }
    double top = (double)written->whole.value, bottom = 1.0;
    if (fraction) {
        bottom = (double)written->denominator.value;
        top = top * bottom;
        if (!BELOW_2_53(top)) {
            return 0;
        }
        top += (double)written->numerator.value;
    } else if (exponent >= 0) {
        top *= powers_of_ten[exponent];
    } else {
        bottom = powers_of_ten[-exponent];
    }
    return quick_quotient(written->negative ? -top : top, bottom, factor, value);
}

double fer_written_value(const fer_written *written, const fer_factor *factor)
{
    double value;
    if (!quick_value(written, factor, &value)) {
        value = exact_value(written, factor);
    }
    return value;
}

/* ---- double to text ---- */

/* |x| = mantissa * 2^exponent, the spacing of the doubles near x being 2^exponent. */
static void take_apart(double x, uint64_t *mantissa, int *exponent)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    const int field = (int)(bits >> 52 & 0x7ff);
    const uint64_t fraction = bits & (((uint64_t)1 << 52) - 1);
    *mantissa = field == 0 ? fraction : fraction | (uint64_t)1 << 52;
    *exponent = (field == 0 ? 1 : field) - 1075;
}

/* Number in the unit of base = (-1)^negative * mantissa * 2^exponent, as top / bottom with a sign. */
static void number_in_unit(uint64_t mantissa, int exponent, const fer_factor *factor, fer_whole *top,
                           fer_whole *bottom, int *negative)
{
    fer_whole_set(top, mantissa);
    fer_whole_set(bottom, 1);
    fer_whole_shift_left(top, exponent > 0 ? exponent : 0);
    fer_whole_shift_left(bottom, exponent < 0 ? -exponent : 0);
    multiply_by_denominator(top, factor);
    multiply_by_numerator(bottom, factor);
    add_zero(top, negative, factor, 1, bottom);
}

static void set_zero(fer_decimal *decimal, int decimals)
{
    decimal->count = 0;
    decimal->negative = 0;
    decimal->point = -decimals;
}

/* The digits of a whole number that is not 0, at the end of the buffer. Changes it. */
static int write_whole(fer_whole *a, char *end)
{
    char *next = end;
    while (a->count > 0) {
        uint32_t part = fer_whole_divide_small(a, 1000000000);
        for (int i = 0; i < 9 && (part > 0 || a->count > 0); i++) {
            *--next = (char)('0' + part % 10);
            part /= 10;
        }
    }
    return (int)(end - next);
}

static void set_whole(fer_decimal *decimal, fer_whole *a, int negative, int decimals)
{
    set_zero(decimal, decimals);
    if (a->count > 0) {
        char *const end = decimal->digits + FER_DECIMAL_DIGITS;
        decimal->count = write_whole(a, end);
        decimal->point = decimal->count - decimals;
        decimal->negative = negative;
        memmove(decimal->digits, end - decimal->count, (size_t)decimal->count);
    }
}

static void exact_fixed(double base, const fer_factor *factor, int decimals, fer_decimal *decimal)
{
    fer_whole top, bottom, quotient;
    uint64_t mantissa;
    int exponent, negative = base < 0.0;
    take_apart(base, &mantissa, &exponent);
    number_in_unit(mantissa, exponent, factor, &top, &bottom, &negative);
    fer_whole_multiply_power_of_ten(&top, decimals);
    const int level = 32 * bottom.count - fer_whole_bits(&bottom);
    fer_whole_shift_left(&top, level);
    fer_whole_shift_left(&bottom, level);
    fer_whole_divide(&top, &bottom, &quotient);
    fer_whole_shift_left(&top, 1);
    const int half = fer_whole_compare(&top, &bottom);
    if (half > 0 || (half == 0 && (fer_whole_low(&quotient) & 1))) {
        fer_whole one;
        fer_whole_set(&one, 1);
        fer_whole_add(&quotient, &one);
    }
    set_whole(decimal, &quotient, negative, decimals);
}

/* The number in the unit times a power of ten as the nearest whole double, and how far that is away. 0 where the
 * product is not below most; else it is off by less than 6e-16 most (five roundings). */
static int quick_whole(double base, const fer_factor *factor, double power, double upper, double *whole,
                       double *rest)
{
    const double number = base * factor->denominator / factor->numerator;
    const double scaled = (number + factor->zero) * power;
    *whole = rint(scaled);
    *rest = fabs(scaled - *whole);
    return (fabs(number) + factor->zero) * power < upper;
}

void fer_decimal_fixed(double base, const fer_factor *factor, int decimals, fer_decimal *decimal)
{
    double number, rest;
    if (decimals <= POWER_MAXIMUM &&
        quick_whole(base, factor, powers_of_ten[decimals], 1e12, &number, &rest) && rest < 0.49) {
        fer_whole whole;
        fer_whole_set(&whole, (uint64_t)fabs(number));
        set_whole(decimal, &whole, number < 0.0, decimals);
    } else {
        exact_fixed(base, factor, decimals, decimal);
    }
}

/* All that reads back to one double: from (rest - low) / bottom to (rest + high) / bottom, the ends included
 * where the double is even. */
typedef struct {
    fer_whole rest, low, high, bottom;
    int even;
} interval;

static int reaches_low(const interval *in)
{
    const int order = fer_whole_compare(&in->rest, &in->low);
    return order < 0 || (order == 0 && in->even);
}

static int reaches_high(const interval *in)
{
    fer_whole sum;
    fer_whole_copy(&sum, &in->rest);
    fer_whole_add(&sum, &in->high);
    const int order = fer_whole_compare(&sum, &in->bottom);
    return order > 0 || (order == 0 && in->even);
}

static void set_interval(double base, const fer_factor *factor, interval *in, int *negative)
{
    uint64_t mantissa;
    int exponent;
    take_apart(base, &mantissa, &exponent);
    in->even = (mantissa & 1) == 0;
    /* In quarters of the spacing; below a power of two the spacing is half as wide. */
    const int power_of_two = mantissa == (uint64_t)1 << 52 && exponent > -1074;
    const int sign = *negative = base < 0.0;
    number_in_unit(4 * mantissa, exponent - 2, factor, &in->rest, &in->bottom, negative);
    fer_whole step;
    fer_whole_set(&step, 1);
    fer_whole_shift_left(&step, exponent > 2 ? exponent - 2 : 0);
    multiply_by_denominator(&step, factor);
    fer_whole *const outward = sign == *negative ? &in->high : &in->low;
    fer_whole *const inward = sign == *negative ? &in->low : &in->high;
    fer_whole_copy(outward, &step);
    fer_whole_shift_left(outward, 1);
    fer_whole_copy(inward, &step);
    fer_whole_shift_left(inward, power_of_two ? 0 : 1);
}

static void multiply_rest(interval *in, int power)
{
    fer_whole_multiply_power_of_ten(&in->rest, power);
    fer_whole_multiply_power_of_ten(&in->low, power);
    fer_whole_multiply_power_of_ten(&in->high, power);
}

/* Scales to an interval whose upper end is just below 1; the power of ten taken out. */
static int scale_interval(interval *in)
{
    const int bits = fer_whole_bits(&in->rest) - fer_whole_bits(&in->bottom);
    int point = (int)ceil((bits - 1) * 0.30102999566398120);
    fer_whole_multiply_power_of_ten(&in->bottom, point);
    multiply_rest(in, -point);
    while (reaches_high(in)) {
        fer_whole_multiply_power_of_ten(&in->bottom, 1);
        point++;
    }
    return point;
}

static int next_digit(interval *in)
{
    int digit = 0;
    multiply_rest(in, 1);
    while (fer_whole_compare(&in->rest, &in->bottom) >= 0) {
        fer_whole_subtract(&in->rest, &in->bottom);
        digit++;
    }
    return digit;
}

/* Whether the last digit is nearer to the exact value one higher; a tie goes to the even digit. */
static int rounds_up(interval *in, int digit, int low, int high)
{
    if (low != high) {
        return high;
    }
    fer_whole_shift_left(&in->rest, 1);
    const int half = fer_whole_compare(&in->rest, &in->bottom);
    return half > 0 || (half == 0 && digit % 2 == 1);
}

/* Digits until the rest lies in the interval: Steele and White, How to print floating-point numbers accurately,
 * 1990; scaling after Burger and Dybvig 1996 (from memory). */
static void exact_shortest(double base, const fer_factor *factor, fer_decimal *decimal)
{
    interval in;
    int low, high, digit, negative;
    set_interval(base, factor, &in, &negative);
    set_zero(decimal, 0);
    if (reaches_low(&in)) {
        return; /* 0 reads back to the same double */
    }
    decimal->negative = negative;
    decimal->point = scale_interval(&in);
    do {
        digit = next_digit(&in);
        low = reaches_low(&in);
        high = reaches_high(&in);
        decimal->digits[decimal->count++] = (char)('0' + digit);
        /* GCOVR_EXCL_BR_START: no double needs more than 18 digits; the bound keeps the buffer safe whatever happens */
    } while (!low && !high && decimal->count < FER_DECIMAL_DIGITS);
    /* GCOVR_EXCL_BR_STOP */
    if (rounds_up(&in, digit, low, high)) {
        decimal->digits[decimal->count - 1]++;
    }
}

/* Tries up to 6 decimals: a decimal of at most 14 digits that reads back to the same bits is the only one of its
 * length, and one with fewer decimals would have been found before. */
static int quick_shortest(double base, const fer_factor *factor, fer_decimal *decimal)
{
    for (int decimals = 0; decimals <= 6; decimals++) {
        double number, rest, value;
        if (!quick_whole(base, factor, powers_of_ten[decimals], 1e14, &number, &rest)) {
            return 0;
        }
        if (quick_quotient(number, powers_of_ten[decimals], factor, &value) && value == base) {
            fer_whole whole;
            fer_whole_set(&whole, (uint64_t)fabs(number));
            set_whole(decimal, &whole, number < 0.0, decimals);
            return 1;
        }
    }
    return 0;
}

void fer_decimal_shortest(double base, const fer_factor *factor, fer_decimal *decimal)
{
    if (!quick_shortest(base, factor, decimal)) {
        exact_shortest(base, factor, decimal);
    }
}
