/* SPDX-License-Identifier: MIT */
/* The promises of module `text` for any bytes. The first byte says what is done, the second with what kind or unit;
 * the rest is a text to read, or a double and a number of decimals to write. */
#include "mutate.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <ferrule/ferrule.h>

#define REQUIRE(condition)                                                                                   \
    do {                                                                                                     \
        if (!(condition)) {                                                                                  \
            (void)fprintf(stderr, "%s:%d: broken: %s\n", __FILE__, __LINE__, #condition);                    \
            abort();                                                                                         \
        }                                                                                                    \
    } while (0)

enum {
#define KIND_NUMBER(kind, field, words) kind_##kind,
    FER_KIND_LIST(KIND_NUMBER) kind_count
};

static const int kind_of_unit[] = {
#define UNIT_KIND(kind, field, unit, numerator, denominator, zero, symbols) kind_##kind,
    FER_UNIT_LIST(UNIT_KIND)};

static fer_status parse(int kind, const char *text, size_t length, double *number, size_t *stop)
{
    switch (kind) {
#define PARSE_CASE(name, field, words)                                                                       \
    case kind_##name: {                                                                                      \
        fer_##name quantity = {0.0};                                                                         \
        const fer_status status = fer_parse_##name(text, length, &quantity, stop);                           \
        *number = quantity.field;                                                                            \
        return status;                                                                                       \
    }
        FER_KIND_LIST(PARSE_CASE)
    default:
        abort();
    }
}

static fer_status parse_comma(int kind, const char *text, size_t length, double *number, size_t *stop)
{
    switch (kind) {
#define PARSE_COMMA_CASE(name, field, words)                                                                 \
    case kind_##name: {                                                                                      \
        fer_##name quantity = {0.0};                                                                         \
        const fer_status status = fer_parse_comma_##name(text, length, &quantity, stop);                     \
        *number = quantity.field;                                                                            \
        return status;                                                                                       \
    }
        FER_KIND_LIST(PARSE_COMMA_CASE)
    default:
        abort();
    }
}

static fer_status format(int unit, double number, int decimals, char *text, size_t capacity, size_t *length)
{
    switch (kind_of_unit[unit]) {
#define FORMAT_CASE(name, field, words)                                                                      \
    case kind_##name: {                                                                                      \
        const fer_##name quantity = {number};                                                                \
        return fer_format_##name(quantity, (fer_unit)unit, decimals, text, capacity, length);                \
    }
        FER_KIND_LIST(FORMAT_CASE)
    default:
        abort();
    }
}

/* Writes to a block of exactly the size that is needed, and reads it back. */
static void check_written(int unit, double number, int decimals)
{
    char text[FER_TEXT_CAPACITY];
    size_t length, again, stop;
    double back;
    const fer_status status = format(unit, number, decimals, text, sizeof text, &length);
    const int parts = FER_FRACTION(0) - decimals; /* a power of two? */
    const int is_fraction = parts >= 2 && parts <= 128 && (parts & (parts - 1)) == 0;
    REQUIRE(status == FER_OK || !isfinite(number) || (decimals < FER_SHORTEST && !is_fraction) ||
            decimals > 30);
    REQUIRE(status != FER_OK || decimals >= FER_SHORTEST || is_fraction);
    REQUIRE(strlen(text) == length && (status == FER_OK) == (length > 0));
    if (status != FER_OK) {
        return;
    }
    char *const block = malloc(length + 1);
    REQUIRE(block);
    REQUIRE(format(unit, number, decimals, block, length + 1, &again) == FER_OK);
    REQUIRE(again == length && memcmp(block, text, length + 1) == 0);
    REQUIRE(format(unit, number, decimals, block, length, &again) == FER_TEXT_CAPACITY_TOO_SMALL);
    REQUIRE(again == 0 && block[0] == '\0');
    memcpy(block, text, length);
    const fer_status read = parse(kind_of_unit[unit], block, length, &back, &stop);
    REQUIRE(read == FER_OK ||
            (read == FER_TEXT_NUMBER_TOO_LARGE && decimals != FER_SHORTEST && fabs(number) > 1e307));
    REQUIRE(decimals != FER_SHORTEST || back == number);
    free(block);
}

/* With comma and point exchanged the text means the same to the function that takes the comma for the decimal sign. */
static void check_exchanged(int kind, char *block, size_t length, fer_status expected, double number,
                            size_t stop)
{
    double other = -7.0;
    size_t where = 12345;
    for (size_t i = 0; i < length; i++) {
        block[i] = block[i] == '.' ? ',' : block[i] == ',' ? '.' : block[i];
    }
    const fer_status status = parse_comma(kind, block, length, &other, &where);
    REQUIRE(status == (expected == FER_TEXT_COMMA ? FER_TEXT_POINT : expected) && where == stop);
    REQUIRE(memcmp(&other, &number, sizeof other) == 0 || (isnan(other) && isnan(number)));
}

static void check_read(int kind, const uint8_t *bytes, size_t length)
{
    double number = -7.0;
    size_t stop = 12345;
    char *const block = malloc(length > 0 ? length : 1);
    REQUIRE(block);
    memcpy(block, bytes, length);
    const fer_status status = parse(kind, length > 0 ? block : block + 1, length, &number, &stop);
    check_exchanged(kind, length > 0 ? block : block + 1, length, status, number, stop);
    free(block);
    REQUIRE(stop <= length);
    REQUIRE(status == FER_OK ? isfinite(number) && stop == length : isnan(number));
    REQUIRE(status == FER_OK || (status >= FER_TEXT_EMPTY && status <= FER_TEXT_FRACTION_IMPROPER));
    REQUIRE(!(number == 0.0 && signbit(number)));
    if (status == FER_OK) {
        for (int unit = 0; unit < FER_UNIT_COUNT; unit++) {
            if (kind_of_unit[unit] == kind) {
                check_written(unit, number, FER_SHORTEST);
            }
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size < 2) {
        return 0;
    }
    if (data[0] % 8 == 0 && size >= 11) {
        double number;
        memcpy(&number, data + 2, sizeof number);
        const int decimals = data[10] % 34 - 2, parts = 1 << data[10] % 9;
        check_written(data[1] % FER_UNIT_COUNT, number, data[10] < 128 ? decimals : FER_FRACTION(parts));
    } else if (data[0] % 2 == 0) {
        check_read(data[1] % kind_count, data + 2, size - 2);
    } else {
        for (int kind = 0; kind < kind_count; kind++) {
            check_read(kind, data + 2, size - 2);
        }
    }
    return 0;
}
