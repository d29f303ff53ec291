/* SPDX-License-Identifier: MIT */
/* Quantities from text and to text, in any unit of the list.
 * Method: a parser without backtracking over bytes, and exact decimal conversion (base/numeric/decimal.c).
 * Formulas: include/ferrule/quantity.h has the factors, docs/text.md the grammar. */
#include <ferrule/text.h>

#include <string.h>

#include "base/value_private.h"
#include "base/numeric/decimal.h"

enum { TEXT_MAXIMUM = 1000, DECIMALS_MAXIMUM = 30, PARTS_MAXIMUM = 128, END = -1 };

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
    char mark;  /* decimal sign: a point or a comma */
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

/* The sign that separates thousands where the other one is the decimal sign. */
static fer_status refuse_other_mark(const reader *r)
{
    const int is_comma = r->mark == ',';
    FER_REQUIRE(byte_at(r, r->at) != (is_comma ? '.' : ','), is_comma ? FER_TEXT_POINT : FER_TEXT_COMMA);
    return FER_OK;
}

/* A decimal; `whole` says that it had neither decimal sign nor exponent. */
static fer_status take_decimal(reader *r, fer_written *written, int *whole)
{
    FER_TRY(take_digits(r, &written->whole));
    const int before = r->digits;
    const size_t point = r->at;
    if (byte_at(r, point) == r->mark && (before > 0 || is_digit(byte_at(r, point + 1)))) {
        r->at++;
        FER_TRY(take_digits(r, &written->whole));
        written->exponent = before - r->digits;
    }
    FER_TRY(refuse_other_mark(r));
    FER_REQUIRE(r->digits > 0, FER_TEXT_NUMBER_MISSING);
    FER_TRY(take_exponent(r, &written->exponent));
    *whole = point == r->at;
    return FER_OK;
}

/* Bytes of the fraction bar at `at`, typographic or not; 0: none, or that of a unit such as /mm. */
static size_t bar_size(const reader *r, size_t at)
{
    int negative;
    const size_t size = byte_at(r, at) == '/' ? 1 : match(r, at, "\xE2\x81\x84");
    const int next = byte_at(r, at + size);
    return is_digit(next) || next == r->mark || sign_size(r, at + size, &negative) > 0 ? size : 0;
}

/* Fractions of one character; Unicode 15, blocks Latin-1 Supplement and Number Forms. */
typedef struct {
    char bytes[4];
    uint8_t numerator, denominator;
} vulgar_fraction;

static const vulgar_fraction vulgar_fractions[] = {
    {"\xC2\xBC", 1, 4},     {"\xC2\xBD", 1, 2},      {"\xC2\xBE", 3, 4},     {"\xE2\x85\x90", 1, 7},
    {"\xE2\x85\x91", 1, 9}, {"\xE2\x85\x92", 1, 10}, {"\xE2\x85\x93", 1, 3}, {"\xE2\x85\x94", 2, 3},
    {"\xE2\x85\x95", 1, 5}, {"\xE2\x85\x96", 2, 5},  {"\xE2\x85\x97", 3, 5}, {"\xE2\x85\x98", 4, 5},
    {"\xE2\x85\x99", 1, 6}, {"\xE2\x85\x9A", 5, 6},  {"\xE2\x85\x9B", 1, 8}, {"\xE2\x85\x9C", 3, 8},
    {"\xE2\x85\x9D", 5, 8}, {"\xE2\x85\x9E", 7, 8},
};

/* The fraction of one character at `at`; NULL: there is none. */
static const vulgar_fraction *find_vulgar(const reader *r, size_t at)
{
    enum { COUNT = sizeof vulgar_fractions / sizeof *vulgar_fractions };
    const int byte = byte_at(r, at);
    for (int i = 0; (byte == 0xC2 || byte == 0xE2) && i < COUNT; i++) {
        if (match(r, at, vulgar_fractions[i].bytes) > 0) {
            return &vulgar_fractions[i];
        }
    }
    return NULL;
}

static void take_vulgar(reader *r, const vulgar_fraction *vulgar, fer_written *written)
{
    const fer_digits numerator = {vulgar->bytes, 1, vulgar->numerator};
    const fer_digits denominator = {vulgar->bytes, 2, vulgar->denominator};
    written->numerator = numerator;
    written->denominator = denominator;
    r->at += strlen(vulgar->bytes);
}

/* Where a fraction after a whole number would begin: behind blanks or a hyphen, else at once. */
static size_t behind_whole(const reader *r)
{
    const size_t blanks = skip_blanks(r, r->at);
    return blanks == r->at && byte_at(r, r->at) == '-' ? r->at + 1 : blanks;
}

/* Whether a fraction stands at `start`. No digit stands at once behind a whole number. */
static int is_mixed(const reader *r, size_t start)
{
    size_t at = start;
    while (is_digit(byte_at(r, at))) {
        at++;
    }
    return at > start && bar_size(r, at) > 0;
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
    const size_t start = r->at += bar_size(r, r->at);
    FER_REQUIRE(is_digit(byte_at(r, start)), FER_TEXT_FRACTION_WRONG);
    FER_TRY(take_digits(r, denominator));
    FER_TRY(refuse_other_mark(r));
    FER_REQUIRE(byte_at(r, r->at) != r->mark, FER_TEXT_FRACTION_WRONG);
    if (denominator->digits == 0) {
        r->at = start;
        return FER_TEXT_FRACTION_WRONG;
    }
    return FER_OK;
}

/* The fraction behind a whole number. */
static fer_status take_mixed(reader *r, fer_written *written)
{
    const size_t start = r->at;
    FER_TRY(take_digits(r, &written->numerator));
    FER_TRY(take_denominator(r, &written->denominator));
    if (!is_below(&written->numerator, &written->denominator)) {
        r->at = start;
        return FER_TEXT_FRACTION_IMPROPER;
    }
    return FER_OK;
}

/* What may follow a decimal: a fraction behind it, or a bar that makes it one. */
static fer_status take_fraction(reader *r, int whole, fer_written *written)
{
    const size_t start = behind_whole(r);
    const vulgar_fraction *const vulgar = find_vulgar(r, start);
    if (vulgar || is_mixed(r, start)) {
        r->at = start;
        FER_REQUIRE(whole, FER_TEXT_FRACTION_WRONG);
        if (!vulgar) {
            return take_mixed(r, written);
        }
        take_vulgar(r, vulgar, written);
    } else if (bar_size(r, r->at) > 0) {
        FER_REQUIRE(whole, FER_TEXT_FRACTION_WRONG);
        written->numerator = written->whole;
        written->whole = (fer_digits){0};
        FER_TRY(take_denominator(r, &written->denominator));
    }
    return FER_OK;
}

static fer_status take_number(reader *r, fer_written *written)
{
    const vulgar_fraction *const vulgar = find_vulgar(r, r->at);
    int whole;
    if (vulgar) {
        take_vulgar(r, vulgar, written);
        return FER_OK;
    }
    FER_TRY(take_decimal(r, written, &whole));
    return take_fraction(r, whole, written);
}

/* A letter without its case where that says nothing: not where it is all of the word, nor M before P or m, which is
 * mega. So MPA is MPa and mPa is not; MM is mm and Mm is not. */
static int fold(const char *word, size_t size, size_t at)
{
    const int letter = (unsigned char)word[at], next = at + 1 < size ? (unsigned char)word[at + 1] : (int)END;
    const int is_mega = letter == 'M' && (next == 'P' || next == 'p' || next == 'm');
    return letter >= 'A' && letter <= 'Z' && size > 1 && !is_mega ? letter - 'A' + 'a' : letter;
}

static int is_same_word(const char *a, const char *b, size_t size)
{
    size_t i = 0;
    while (i < size && fold(a, size, i) == fold(b, size, i)) {
        i++;
    }
    return i == size;
}

static int is_symbol(const text_unit *unit, const char *word, size_t size)
{
    const char *const end = unit->symbols + unit->size;
    for (const char *symbol = unit->symbols; symbol < end; symbol++) {
        const char *const start = symbol;
        while (symbol < end && *symbol != ' ' && *symbol != '\0') {
            symbol++;
        }
        if ((size_t)(symbol - start) == size && is_same_word(start, word, size)) {
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

static fer_status parse(text_kind kind, char mark, const char *text, size_t length, double *number,
                        size_t *stop)
{
    reader r = {text, length, 0, mark, 0};
    if (number) {
        FER_LEAVE_OUT(*number);
    }
    if (stop) {
        *stop = 0;
    }
    FER_REQUIRE(text && number && stop, FER_ARGUMENT_MISSING);
    *stop = TEXT_MAXIMUM;
    FER_REQUIRE(length <= TEXT_MAXIMUM, FER_TEXT_TOO_LONG);
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

/* The digits of a whole number divided by a small one, in place; returns the rest. */
static int divide_digits(fer_decimal *decimal, int divisor)
{
    int rest = 0, count = 0;
    for (int i = 0; i < decimal->count; i++) {
        rest = 10 * rest + (decimal->digits[i] - '0');
        decimal->digits[count] = (char)('0' + rest / divisor);
        count += count > 0 || rest >= divisor;
        rest %= divisor;
    }
    decimal->count = decimal->point = count;
    return rest;
}

/* A number below 1000 that is not 0. */
static void append_small(char **end, int number)
{
    for (int power = 100; power > 0; power /= 10) {
        const char digit = (char)('0' + number / power % 10);
        append(end, &digit, number >= power ? 1 : 0);
    }
}

/* Whole numbers and a fraction in lowest terms: the number of parts is rounded, as any other number is. */
static void append_fraction(char **end, double number, const fer_factor *factor, int parts)
{
    const fer_factor in_parts = {factor->numerator, factor->denominator * parts, factor->zero * parts};
    fer_decimal decimal;
    fer_decimal_fixed(number, &in_parts, 0, &decimal);
    int rest = divide_digits(&decimal, parts);
    if (decimal.count > 0 || rest == 0) {
        append_decimal(end, &decimal);
        append(end, " ", rest > 0 ? 1 : 0);
    } else {
        append(end, "-", decimal.negative ? 1 : 0);
    }
    if (rest > 0) {
        for (; rest % 2 == 0; rest /= 2) {
            parts /= 2;
        }
        append_small(end, rest);
        append(end, "/", 1);
        append_small(end, parts);
    }
}

/* Parts of a fraction that `decimals` asks for; 0: it asks for none. */
static int fraction_parts(int decimals)
{
    int parts = PARTS_MAXIMUM;
    while (parts > 1 && decimals != FER_FRACTION(parts)) {
        parts /= 2;
    }
    return parts > 1 ? parts : 0;
}

static void append_number(char **end, double number, const fer_factor *factor, int decimals)
{
    fer_decimal decimal;
    if (decimals < FER_SHORTEST) {
        append_fraction(end, number, factor, fraction_parts(decimals));
        return;
    }
    if (decimals == FER_SHORTEST) {
        fer_decimal_shortest(number, factor, &decimal);
    } else {
        fer_decimal_fixed(number, factor, decimals, &decimal);
    }
    append_decimal(end, &decimal);
}

static fer_status write_quantity(text_kind kind, double number, fer_unit unit, int decimals, char *text,
                                 size_t capacity, size_t *length)
{
    char buffer[FER_TEXT_CAPACITY], *end = buffer;
    FER_REQUIRE((unsigned)unit < FER_UNIT_COUNT, FER_UNIT_UNKNOWN);
    FER_REQUIRE(units[unit].kind == kind, FER_UNIT_WRONG_KIND);
    const int parts = fraction_parts(decimals);
    FER_REQUIRE(parts > 0 || (decimals >= FER_SHORTEST && decimals <= DECIMALS_MAXIMUM),
                FER_TEXT_DECIMALS_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_finite(number), FER_TEXT_VALUE_NOT_FINITE);
    append_number(&end, number, &units[unit].factor, decimals);
    append(&end, " ", 1);
    append(&end, units[unit].symbols, strlen(units[unit].symbols));
    FER_REQUIRE((size_t)(end - buffer) < capacity, FER_TEXT_CAPACITY_TOO_SMALL);
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

/* ---- for each kind ---- */

#define FER_DEFINE_TEXT(kind, field, words)                                                                  \
    fer_status fer_parse_##kind(const char *text, size_t length, fer_##kind *quantity, size_t *stop)         \
    {                                                                                                        \
        return parse(KIND_##kind, '.', text, length, quantity ? &quantity->field : NULL, stop);              \
    }                                                                                                        \
    fer_status fer_parse_comma_##kind(const char *text, size_t length, fer_##kind *quantity, size_t *stop)   \
    {                                                                                                        \
        return parse(KIND_##kind, ',', text, length, quantity ? &quantity->field : NULL, stop);              \
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
