/* SPDX-License-Identifier: MIT */
/* Quantities from text and to text, in any unit of the list.
 * Method: a parser without backtracking over bytes, and exact decimal conversion (base/numeric/decimal.c).
 * Formulas: include/ferrule/quantity.h has the factors, docs/text.md the grammar. */
#include <ferrule/text.h>

#include <string.h>

#include "base/value_private.h"
#include "base/numeric/decimal.h"

enum { TEXT_MOST = 1000, DECIMALS_MOST = 30, END = -1 };

typedef enum {
#define FER_KIND_ENUMERATOR(kind, field, words) KIND_##kind,
    FER_KIND_LIST(FER_KIND_ENUMERATOR)
#undef FER_KIND_ENUMERATOR
} text_kind;

typedef struct {
    text_kind kind;
    fer_factor factor;
    const char *symbols; /* with a zero byte or a space after each but the last */
    size_t size;         /* of all of them, without the closing zero */
} text_unit;

static const text_unit units[FER_UNIT_COUNT] = {
#define FER_UNIT_ROW(kind, field, unit, numerator, denominator, zero, symbols)                               \
    {KIND_##kind, {numerator, denominator, zero}, symbols, sizeof(symbols) - 1},
    FER_UNIT_LIST(FER_UNIT_ROW)
#undef FER_UNIT_ROW
};

/* ---- reading ---- */

typedef struct {
    const char *text;
    size_t length, at;
    int digits; /* of the number so far, leading zeros included */
} reader;

static int byte_at(const reader *r, size_t at)
{
    return at < r->length ? (unsigned char)r->text[at] : (int)END;
}

static int is_digit(int byte)
{
    return byte >= '0' && byte <= '9';
}

/* Bytes of `what` at `at`; 0 where the text has something else there. */
static size_t match(const reader *r, size_t at, const char *what)
{
    size_t i = 0;
    while (what[i] != '\0') {
        if (byte_at(r, at + i) != (unsigned char)what[i]) {
            return 0;
        }
        i++;
    }
    return i;
}

/* Bytes of the blank at `at`: space, tab, no-break space, thin space, narrow no-break space. */
static size_t blank_size(const reader *r, size_t at)
{
    switch (byte_at(r, at)) {
    case ' ':
    case '\t':
        return 1;
    case 0xC2:
        return match(r, at, "\xC2\xA0");
    case 0xE2:
        return match(r, at, "\xE2\x80\x89") + match(r, at, "\xE2\x80\xAF");
    default:
        return 0;
    }
}

static size_t skip_blanks(const reader *r, size_t at)
{
    for (size_t size = blank_size(r, at); size > 0; size = blank_size(r, at)) {
        at += size;
    }
    return at;
}

/* Bytes of the sign at `at`: plus, hyphen-minus, typographic minus. */
static size_t sign_size(const reader *r, size_t at, int *negative)
{
    const int byte = byte_at(r, at);
    const size_t minus = byte == '-' ? 1 : match(r, at, "\xE2\x88\x92");
    *negative = minus > 0;
    return byte == '+' ? 1 : minus;
}

static fer_status take_digits(reader *r, fer_digits *digits)
{
    for (int byte = byte_at(r, r->at); is_digit(byte); byte = byte_at(r, ++r->at)) {
        FER_REQUIRE(++r->digits <= FER_WRITTEN_DIGITS, FER_TEXT_NUMBER_TOO_LONG);
        if (digits->digits == 0) {
            if (byte == '0') {
                continue;
            }
            digits->first = r->text + r->at;
        }
        if (++digits->digits <= 19) {
            digits->value = 10 * digits->value + (uint64_t)(byte - '0');
        }
    }
    return FER_OK;
}

/* An exponent, where a digit follows the letter or its sign. */
static fer_status take_exponent(reader *r, int *exponent)
{
    int negative, sum = 0;
    const int letter = byte_at(r, r->at);
    size_t at = r->at + 1 + sign_size(r, r->at + 1, &negative);
    if ((letter != 'e' && letter != 'E') || !is_digit(byte_at(r, at))) {
        return FER_OK;
    }
    for (; is_digit(byte_at(r, at)); at++) {
        sum = 10 * sum + byte_at(r, at) - '0';
        FER_REQUIRE(sum <= FER_WRITTEN_EXPONENT, FER_TEXT_NUMBER_TOO_LONG);
    }
    r->at = at;
    *exponent += negative ? -sum : sum;
    return FER_OK;
}

/* A decimal; `whole` says that it had neither point nor exponent. */
static fer_status take_decimal(reader *r, fer_written *written, int *whole)
{
    FER_TRY(take_digits(r, &written->whole));
    const int before = r->digits;
    const size_t point = r->at;
    if (byte_at(r, point) == '.' && (before > 0 || is_digit(byte_at(r, point + 1)))) {
        r->at++;
        FER_TRY(take_digits(r, &written->whole));
        written->exponent = before - r->digits;
    }
    FER_REQUIRE(byte_at(r, r->at) != ',', FER_TEXT_COMMA);
    FER_REQUIRE(r->digits > 0, FER_TEXT_NUMBER_MISSING);
    FER_TRY(take_exponent(r, &written->exponent));
    *whole = point == r->at;
    return FER_OK;
}

/* Whether a fraction bar is at `at`: not that of a unit such as /mm. */
static int is_bar(const reader *r, size_t at)
{
    int negative;
    const int next = byte_at(r, at + 1);
    return byte_at(r, at) == '/' && (is_digit(next) || next == '.' || sign_size(r, at + 1, &negative) > 0);
}

/* Where the fraction after a whole number begins, with a blank or a hyphen between; 0: none follows. */
static size_t mixed_fraction(const reader *r)
{
    const size_t blanks = skip_blanks(r, r->at);
    const size_t start = blanks > r->at ? blanks : byte_at(r, r->at) == '-' ? r->at + 1 : 0;
    size_t at = start;
    while (is_digit(byte_at(r, at))) { /* from 0 where nothing is between: 0 then, whatever it finds */
        at++;
    }
    return at > start && is_bar(r, at) ? start : 0;
}

/* For b above 0. */
static int is_below(const fer_digits *a, const fer_digits *b)
{
    if (a->digits != b->digits) {
        return a->digits < b->digits;
    }
    return memcmp(a->first, b->first, (size_t)a->digits) < 0;
}

/* The bar and the number under it. */
static fer_status take_denominator(reader *r, fer_digits *denominator)
{
    const size_t start = ++r->at;
    FER_REQUIRE(is_digit(byte_at(r, start)), FER_TEXT_FRACTION_WRONG);
    FER_TRY(take_digits(r, denominator));
    FER_REQUIRE(byte_at(r, r->at) != ',', FER_TEXT_COMMA);
    FER_REQUIRE(byte_at(r, r->at) != '.', FER_TEXT_FRACTION_WRONG);
    if (denominator->digits == 0) {
        r->at = start;
        return FER_TEXT_FRACTION_WRONG;
    }
    return FER_OK;
}

static fer_status take_number(reader *r, fer_written *written)
{
    int whole;
    FER_TRY(take_decimal(r, written, &whole));
    const size_t mixed = mixed_fraction(r);
    if (mixed > 0) {
        r->at = mixed;
        FER_REQUIRE(whole, FER_TEXT_FRACTION_WRONG);
        FER_TRY(take_digits(r, &written->numerator));
        FER_TRY(take_denominator(r, &written->denominator));
        if (!is_below(&written->numerator, &written->denominator)) {
            r->at = mixed;
            return FER_TEXT_FRACTION_IMPROPER;
        }
    } else if (is_bar(r, r->at)) {
        FER_REQUIRE(whole, FER_TEXT_FRACTION_WRONG);
        written->numerator = written->whole;
        written->whole = (fer_digits){0};
        FER_TRY(take_denominator(r, &written->denominator));
    }
    return FER_OK;
}

static int is_symbol(const text_unit *unit, const char *word, size_t size)
{
    const char *const end = unit->symbols + unit->size;
    for (const char *symbol = unit->symbols; symbol < end; symbol++) {
        const char *const start = symbol;
        while (symbol < end && *symbol != ' ' && *symbol != '\0') {
            symbol++;
        }
        if ((size_t)(symbol - start) == size && memcmp(start, word, size) == 0) {
            return 1;
        }
    }
    return 0;
}

/* The unit of that symbol; where it is not of that kind, one of any kind; else FER_UNIT_COUNT. */
static int find_unit(text_kind kind, const char *word, size_t size)
{
    int other = FER_UNIT_COUNT;
    for (int i = 0; i < FER_UNIT_COUNT; i++) {
        if (units[i].kind == kind && is_symbol(&units[i], word, size)) {
            return i;
        }
    }
    for (int i = 0; i < FER_UNIT_COUNT && other == FER_UNIT_COUNT; i++) {
        other = is_symbol(&units[i], word, size) ? i : other;
    }
    return other;
}

/* The unit, which is all up to the next blank, and what must be the end. */
static fer_status take_unit(reader *r, text_kind kind, int *unit)
{
    r->at = skip_blanks(r, r->at);
    size_t end = r->at;
    while (end < r->length && blank_size(r, end) == 0) {
        end++;
    }
    FER_REQUIRE(end > r->at, FER_TEXT_UNIT_MISSING);
    *unit = find_unit(kind, r->text + r->at, end - r->at);
    FER_REQUIRE(*unit < FER_UNIT_COUNT, FER_TEXT_UNIT_UNKNOWN);
    FER_REQUIRE(units[*unit].kind == kind, FER_TEXT_UNIT_OTHER_KIND);
    r->at = skip_blanks(r, end);
    FER_REQUIRE(r->at == r->length, FER_TEXT_UNIT_UNKNOWN);
    return FER_OK;
}

static fer_status take_quantity(reader *r, text_kind kind, double *number)
{
    fer_written written = {0};
    int unit;
    r->at = skip_blanks(r, 0);
    FER_REQUIRE(r->at < r->length, FER_TEXT_EMPTY);
    r->at += sign_size(r, r->at, &written.negative);
    const size_t start = r->at;
    FER_TRY(take_number(r, &written));
    FER_TRY(take_unit(r, kind, &unit));
    const double value = fer_written_value(&written, &units[unit].factor);
    if (!fer_is_finite(value)) {
        r->at = start;
        return FER_TEXT_NUMBER_TOO_LARGE;
    }
    *number = value;
    return FER_OK;
}

static fer_status parse(text_kind kind, const char *text, size_t length, double *number, size_t *stop)
{
    reader r = {text, length, 0, 0};
    if (number) {
        FER_LEAVE_OUT(*number);
    }
    if (stop) {
        *stop = 0;
    }
    FER_REQUIRE(text && number && stop, FER_ARGUMENT_MISSING);
    *stop = TEXT_MOST;
    FER_REQUIRE(length <= TEXT_MOST, FER_TEXT_TOO_LONG);
    const fer_status status = take_quantity(&r, kind, number);
    *stop = r.at;
    return status;
}

/* ---- writing ---- */

static void append(char **end, const char *what, size_t size)
{
    memcpy(*end, what, size);
    *end += size;
}

static void append_zeros(char **end, int count)
{
    if (count > 0) {
        memset(*end, '0', (size_t)count);
        *end += count;
    }
}

/* Digits without an exponent. At most 345 bytes: see FER_DECIMAL_DIGITS and the test of the longest texts. */
static void append_decimal(char **end, const fer_decimal *decimal)
{
    const int before = decimal->point > 0 ? decimal->point : 0;
    const int whole = before < decimal->count ? before : decimal->count;
    append(end, "-", decimal->negative ? 1 : 0);
    append(end, decimal->digits, (size_t)whole);
    append_zeros(end, before > 0 ? before - whole : 1);
    if (decimal->count > before || decimal->point < 0) {
        append(end, ".", 1);
        append_zeros(end, -decimal->point);
        append(end, decimal->digits + whole, (size_t)(decimal->count - whole));
    }
}

static fer_status write_quantity(text_kind kind, double number, fer_unit unit, int decimals, char *text,
                                 size_t capacity, size_t *length)
{
    char buffer[FER_TEXT_CAPACITY], *end = buffer;
    fer_decimal decimal;
    FER_REQUIRE((unsigned)unit < FER_UNIT_COUNT, FER_UNIT_UNKNOWN);
    FER_REQUIRE(units[unit].kind == kind, FER_UNIT_WRONG_KIND);
    FER_REQUIRE(decimals >= FER_SHORTEST && decimals <= DECIMALS_MOST, FER_TEXT_DECIMALS_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_finite(number), FER_TEXT_VALUE_NOT_FINITE);
    if (decimals == FER_SHORTEST) {
        fer_decimal_shortest(number, &units[unit].factor, &decimal);
    } else {
        fer_decimal_fixed(number, &units[unit].factor, decimals, &decimal);
    }
    append_decimal(&end, &decimal);
    append(&end, " ", 1);
    append(&end, units[unit].symbols, strlen(units[unit].symbols));
    FER_REQUIRE((size_t)(end - buffer) < capacity, FER_TEXT_ROOM_TOO_SMALL);
    memcpy(text, buffer, (size_t)(end - buffer));
    text[end - buffer] = '\0';
    *length = (size_t)(end - buffer);
    return FER_OK;
}

static fer_status format(text_kind kind, double number, fer_unit unit, int decimals, char *text,
                         size_t capacity, size_t *length)
{
    if (text && capacity > 0) {
        text[0] = '\0';
    }
    if (length) {
        *length = 0;
    }
    FER_REQUIRE(text && length, FER_ARGUMENT_MISSING);
    return write_quantity(kind, number, unit, decimals, text, capacity, length);
}

/* ---- a pair for each kind ---- */

#define FER_DEFINE_TEXT(kind, field, words)                                                                  \
    fer_status fer_parse_##kind(const char *text, size_t length, fer_##kind *quantity, size_t *stop)         \
    {                                                                                                        \
        return parse(KIND_##kind, text, length, quantity ? &quantity->field : NULL, stop);                   \
    }                                                                                                        \
    fer_status fer_format_##kind(fer_##kind quantity, fer_unit unit, int decimals, char *text,               \
                                 size_t capacity, size_t *length)                                            \
    {                                                                                                        \
        return format(KIND_##kind, quantity.field, unit, decimals, text, capacity, length);                  \
    }
FER_KIND_LIST(FER_DEFINE_TEXT)

const char *fer_unit_symbol(fer_unit unit)
{
    return (unsigned)unit < FER_UNIT_COUNT ? units[unit].symbols : "";
}
