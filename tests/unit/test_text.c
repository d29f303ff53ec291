/* SPDX-License-Identifier: MIT */
#include "check.h"

#include <float.h>
#include <limits.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

/* ---- every kind through one pair of pointers ---- */

typedef fer_status parse_function(const char *text, size_t length, double *number, size_t *stop);
typedef fer_status format_function(double number, fer_unit unit, int decimals, char *text, size_t capacity,
                                   size_t *length);

#define DEFINE_PLAIN(kind, field, words)                                                                     \
    static fer_status parse_##kind(const char *text, size_t length, double *number, size_t *stop)            \
    {                                                                                                        \
        fer_##kind quantity = {0.0};                                                                         \
        const fer_status status = fer_parse_##kind(text, length, &quantity, stop);                           \
        *number = quantity.field;                                                                            \
        return status;                                                                                       \
    }                                                                                                        \
    static fer_status parse_comma_##kind(const char *text, size_t length, double *number, size_t *stop)      \
    {                                                                                                        \
        fer_##kind quantity = {0.0};                                                                         \
        const fer_status status = fer_parse_comma_##kind(text, length, &quantity, stop);                     \
        *number = quantity.field;                                                                            \
        return status;                                                                                       \
    }                                                                                                        \
    static fer_status format_##kind(double number, fer_unit unit, int decimals, char *text, size_t capacity, \
                                    size_t *length)                                                          \
    {                                                                                                        \
        const fer_##kind quantity = {number};                                                                \
        return fer_format_##kind(quantity, unit, decimals, text, capacity, length);                          \
    }
FER_KIND_LIST(DEFINE_PLAIN)

enum {
#define KIND_NUMBER(kind, field, words) kind_##kind,
    FER_KIND_LIST(KIND_NUMBER) kind_count
};

static const struct {
    parse_function *parse, *parse_comma;
    format_function *format;
} kinds[] = {
#define KIND_ROW(kind, field, words) {parse_##kind, parse_comma_##kind, format_##kind},
    FER_KIND_LIST(KIND_ROW)};

static const struct {
    int kind;
    double numerator, denominator, zero;
    const char *symbols;
    size_t size;
} units[] = {
#define UNIT_ROW(kind, field, unit, numerator, denominator, zero, symbols)                                   \
    {kind_##kind, numerator, denominator, zero, symbols, sizeof(symbols)},
    FER_UNIT_LIST(UNIT_ROW)};

/* The text with comma and point exchanged, read where the comma is the decimal sign, means the same. */
static void check_exchanged(int kind, const char *text, size_t length, fer_status status, double number,
                            size_t stop)
{
    char exchanged[1300];
    double other = -7.0;
    size_t where = 12345;
    assert_true(length < sizeof exchanged);
    for (size_t i = 0; i < length; i++) {
        exchanged[i] = text[i];
        if (text[i] == '.' || text[i] == ',') {
            exchanged[i] = text[i] == '.' ? ',' : '.';
        }
    }
    const fer_status found = kinds[kind].parse_comma(exchanged, length, &other, &where);
    assert_int_equal(found, status == FER_TEXT_COMMA ? FER_TEXT_POINT : status);
    assert_int_equal(where, stop);
    assert_memory_equal(&other, &number, sizeof other);
}

/* Reads text from a heap block of exactly its size, so that the address sanitizer sees a byte read beyond. */
static fer_status parse_block(int kind, const char *text, size_t length, double *number, size_t *stop)
{
    char *const block = malloc(length > 0 ? length : 1);
    assert_non_null(block);
    memcpy(block, text, length);
    *number = -7.0;
    *stop = 12345;
    const fer_status status = kinds[kind].parse(length > 0 ? block : block + 1, length, number, stop);
    free(block);
    check_exchanged(kind, text, length, status, *number, *stop);
    return status;
}

static double value_of(int kind, const char *text)
{
    double number;
    size_t stop;
    const fer_status status = parse_block(kind, text, strlen(text), &number, &stop);
    if (status != FER_OK || stop != strlen(text)) {
        fail_msg("\"%s\" gives %s at %zu", text, fer_status_name(status), stop);
    }
    return number;
}

static void check_value(int kind, const char *text, double expected)
{
    const double number = value_of(kind, text);
    if (memcmp(&number, &expected, sizeof number) != 0) {
        fail_msg("\"%s\" gives %.17g, not %.17g", text, number, expected);
    }
}

static void check_bytes(int kind, const char *text, size_t length, fer_status expected, size_t where)
{
    double number;
    size_t stop;
    const fer_status status = parse_block(kind, text, length, &number, &stop);
    if (status != expected || stop != where) {
        fail_msg("\"%s\" gives %s at %zu, not %s at %zu", text, fer_status_name(status), stop,
                 fer_status_name(expected), where);
    }
    CHECK_NAN(number);
}

static void check_refused(int kind, const char *text, fer_status expected, size_t where)
{
    check_bytes(kind, text, strlen(text), expected, where);
}

/* Writes to a heap block that is exactly large enough, and checks that one byte fewer is refused. */
static void write_block(fer_unit unit, double number, int decimals, char *text)
{
    char *block = malloc(FER_TEXT_CAPACITY);
    size_t length = 0;
    assert_non_null(block);
    CHECK_OK(kinds[units[unit].kind].format(number, unit, decimals, block, FER_TEXT_CAPACITY, &length));
    assert_int_equal(length, strlen(block));
    memcpy(text, block, length + 1);
    free(block);
    block = malloc(length + 1);
    assert_non_null(block);
    CHECK_OK(kinds[units[unit].kind].format(number, unit, decimals, block, length + 1, &length));
    assert_string_equal(block, text);
    CHECK_STATUS(kinds[units[unit].kind].format(number, unit, decimals, block, strlen(text), &length),
                 FER_TEXT_CAPACITY_TOO_SMALL);
    assert_int_equal(length, 0);
    assert_string_equal(block, "");
    free(block);
}

static void check_written(fer_unit unit, double number, int decimals, const char *expected)
{
    char text[FER_TEXT_CAPACITY];
    write_block(unit, number, decimals, text);
    if (strcmp(text, expected) != 0) {
        fail_msg("%.17g gives \"%s\", not \"%s\"", number, text, expected);
    }
}

/* ---- random numbers, the same in each run ---- */

static uint64_t random_state;

static uint64_t random_bits(void)
{
    random_state ^= random_state << 13;
    random_state ^= random_state >> 7;
    random_state ^= random_state << 17;
    return random_state * UINT64_C(0x2545F4914F6CDD1D);
}

static int restart_random(void **state)
{
    (void)state;
    random_state = 20240229;
    return 0;
}

/* Any finite double: each exponent is as likely as another, denormals included. */
static double random_double(void)
{
    double x;
    do {
        const uint64_t bits = random_bits();
        memcpy(&x, &bits, sizeof x);
    } while (!isfinite(x) || x == 0.0);
    return x;
}

/* ---- the grammar ---- */

static void numbers_are_understood_as_people_write_them(void **state)
{
    (void)state;
    check_value(kind_length, "41 mm", 41.0);
    check_value(kind_length, "41mm", 41.0);
    check_value(kind_length, " \t 41 \t mm \t ", 41.0);
    check_value(kind_length,
                "\xC2\xA0"
                "41\xE2\x80\xAF"
                "mm\xE2\x80\x89",
                41.0);
    check_value(kind_length, "041 mm", 41.0);
    check_value(kind_length, "12.7 mm", 12.7);
    check_value(kind_length, ".5 mm", 0.5);
    check_value(kind_length, "5. mm", 5.0);
    check_value(kind_length, "00.050 mm", 0.05);
    check_value(kind_length, "1.2e3 mm", 1200.0);
    check_value(kind_length, "1.2E+3mm", 1200.0);
    check_value(kind_length, "1200e-2 mm", 12.0);
    check_value(kind_length,
                "1200e\xE2\x88\x92"
                "2 mm",
                12.0);
    check_value(kind_length, "+41 mm", 41.0);
    check_value(kind_length, "-0.05 mm", -0.05);
    check_value(kind_length,
                "\xE2\x88\x92"
                "0.05 mm",
                -0.05);
    check_value(kind_length, "0 mm", 0.0);
    check_value(kind_length, "-0 mm", 0.0);
    check_value(kind_length, "0e400 mm", 0.0);
    check_value(kind_length, "1e-400 mm", 0.0);
    check_value(kind_length, "-1e-400 mm", 0.0);
}

static void fractions_are_understood(void **state)
{
    (void)state;
    check_value(kind_length, "3/4 mm", 0.75);
    check_value(kind_length, "5/4 mm", 1.25);
    check_value(kind_length, "0/4 mm", 0.0);
    check_value(kind_length, "003/004 mm", 0.75);
    check_value(kind_length, "1 1/4 in", 31.75);
    check_value(kind_length, "1-1/4\"", 31.75);
    check_value(kind_length, "1 \xC2\xA0 1/4in", 31.75);
    check_value(kind_length, "-1 1/4 in", -31.75);
    check_value(kind_length, "-1-1/4 in", -31.75);
    check_value(kind_length, "1 0/4 mm", 1.0);
    check_value(kind_length, "0 1/4 mm", 0.25);
    check_value(kind_length, "1/3 mm", 1.0 / 3.0);
    check_value(kind_length, "2 2/3 mm", 8.0 / 3.0);
    check_value(kind_length, "3/12345678901234567890123 mm", 3.0 / 12345678901234567890123.0);
    check_value(kind_length, "1 1/100000000000000000000 mm", 1.0);
    check_value(kind_length, "123456789012345 75/100 mm", 123456789012345.75);
}

/* Unicode 15, UnicodeData.txt: the characters whose names begin with VULGAR FRACTION, with their numeric values
 * (from memory). U+2189, nought thirds, is none that anybody measures. */
static void fractions_of_one_character_are_understood(void **state)
{
    (void)state;
    static const struct {
        unsigned code;
        double numerator, denominator;
    } fractions[] = {{0xBC, 1, 4},    {0xBD, 1, 2},   {0xBE, 3, 4},   {0x2150, 1, 7}, {0x2151, 1, 9},
                     {0x2152, 1, 10}, {0x2153, 1, 3}, {0x2154, 2, 3}, {0x2155, 1, 5}, {0x2156, 2, 5},
                     {0x2157, 3, 5},  {0x2158, 4, 5}, {0x2159, 1, 6}, {0x215A, 5, 6}, {0x215B, 1, 8},
                     {0x215C, 3, 8},  {0x215D, 5, 8}, {0x215E, 7, 8}};
    static const char *const before[] = {"", "2", "2 ", "2-", "-2 \t"};
    for (size_t i = 0; i < sizeof fractions / sizeof *fractions; i++) {
        const unsigned code = fractions[i].code;
        const char two[] = {(char)(0xC0 | code >> 6), (char)(0x80 | (code & 63)), 0};
        const char three[] = {(char)(0xE0 | code >> 12), (char)(0x80 | (code >> 6 & 63)),
                              (char)(0x80 | (code & 63)), 0};
        for (size_t j = 0; j < sizeof before / sizeof *before; j++) {
            char text[40];
            (void)snprintf(text, sizeof text, "%s%s mm", before[j], code < 0x800 ? two : three);
            const double whole = j > 0 ? 2.0 : 0.0, sign = before[j][0] == '-' ? -1.0 : 1.0;
            const double top = whole * fractions[i].denominator + fractions[i].numerator;
            check_value(kind_length, text, sign * top / fractions[i].denominator);
        }
    }
    check_value(kind_length, "\xC2\xBD in", 12.7);
    check_value(kind_length, "1\xE2\x85\x9C\"", 34.925);
    check_value(kind_length, "\xC2\xBDin", 12.7);
    check_value(kind_per_length, "\xC2\xBD/mm", 0.5);
    check_value(kind_length,
                "5\xE2\x81\x84"
                "16 in",
                7.9375);
    check_value(kind_length,
                "1 5\xE2\x81\x84"
                "16 in",
                33.3375);
    check_refused(kind_length, "1.5\xC2\xBD mm", FER_TEXT_FRACTION_WRONG, 3);
    check_refused(kind_length, "1e3 \xC2\xBD mm", FER_TEXT_FRACTION_WRONG, 4);
    check_refused(kind_length, "\xC2\xBD\xC2\xBD mm", FER_TEXT_UNIT_UNKNOWN, 2);
    check_refused(kind_length, "1 -\xC2\xBD mm", FER_TEXT_UNIT_UNKNOWN, 2);
    check_refused(kind_length, "1/\xC2\xBD mm", FER_TEXT_UNIT_UNKNOWN, 1);
    check_refused(kind_length, "\xC2\xBD/2 mm", FER_TEXT_UNIT_UNKNOWN, 2);
    check_refused(kind_length, "\xC2\xBD", FER_TEXT_UNIT_MISSING, 2);
    check_refused(kind_length, "\xE2\x86\x89 mm", FER_TEXT_NUMBER_MISSING, 0);
    check_refused(kind_length, "\xC2\xBB mm", FER_TEXT_NUMBER_MISSING, 0);
}

/* "1/mm" is a unit, "1/4" a number. */
static void a_bar_may_belong_to_the_unit(void **state)
{
    (void)state;
    check_value(kind_per_length, "5 1/mm", 5.0);
    check_value(kind_per_length, "5/mm", 5.0);
    check_value(kind_per_length, "5 /mm", 5.0);
    check_value(kind_per_length, "1.5 1/mm", 1.5);
    check_value(kind_per_length, "1/mm", 1.0);
    check_value(kind_per_length, "3/4 1/mm", 0.75);
    check_value(kind_per_length, "3/4/mm", 0.75);
    check_value(kind_per_length, "1 1/4 1/mm", 1.25);
    check_value(kind_per_length, "1-1/4/mm", 1.25);
    check_value(kind_per_length, "127 1/in", 5.0);
    check_value(kind_pressure, "5 N/mm2", 5.0);
}

static void what_is_not_a_number_is_refused(void **state)
{
    (void)state;
    check_refused(kind_length, "", FER_TEXT_EMPTY, 0);
    check_refused(kind_length, " \t\xC2\xA0", FER_TEXT_EMPTY, 4);
    check_refused(kind_length, "mm", FER_TEXT_NUMBER_MISSING, 0);
    check_refused(kind_length, "  mm", FER_TEXT_NUMBER_MISSING, 2);
    check_refused(kind_length, "-", FER_TEXT_NUMBER_MISSING, 1);
    check_refused(kind_length, "--1 mm", FER_TEXT_NUMBER_MISSING, 1);
    check_refused(kind_length, "- 1 mm", FER_TEXT_NUMBER_MISSING, 1);
    check_refused(kind_length, ". mm", FER_TEXT_NUMBER_MISSING, 0);
    check_refused(kind_length, "e3 mm", FER_TEXT_NUMBER_MISSING, 0);
    check_refused(kind_length, "/4 mm", FER_TEXT_NUMBER_MISSING, 0);
    check_refused(kind_length, "nan mm", FER_TEXT_NUMBER_MISSING, 0);
    check_refused(kind_length, "inf mm", FER_TEXT_NUMBER_MISSING, 0);
    check_refused(kind_length, "\xE2\x88", FER_TEXT_NUMBER_MISSING, 0);
    check_refused(kind_length, "12,7 mm", FER_TEXT_COMMA, 2);
    check_refused(kind_length, "1,234.5 mm", FER_TEXT_COMMA, 1);
    check_refused(kind_length, ",5 mm", FER_TEXT_COMMA, 0);
    check_refused(kind_length, "-,5 mm", FER_TEXT_COMMA, 1);
    check_refused(kind_length, "1.234,5 mm", FER_TEXT_COMMA, 5);
    check_refused(kind_length, "3/4,5 mm", FER_TEXT_COMMA, 3);
    check_refused(kind_length, "1e999999999999999999999 mm", FER_TEXT_NUMBER_TOO_LONG, 1);
    check_refused(kind_length, "1e401 mm", FER_TEXT_NUMBER_TOO_LONG, 1);
    check_refused(kind_length, "1e-401 mm", FER_TEXT_NUMBER_TOO_LONG, 1);
}

static void fractions_that_are_none_are_refused(void **state)
{
    (void)state;
    check_refused(kind_length, "3/0 mm", FER_TEXT_FRACTION_WRONG, 2);
    check_refused(kind_length, "1 1/00 mm", FER_TEXT_FRACTION_WRONG, 4);
    check_refused(kind_length, "3/-4 mm", FER_TEXT_FRACTION_WRONG, 2);
    check_refused(kind_length, "3/+4 mm", FER_TEXT_FRACTION_WRONG, 2);
    check_refused(kind_length,
                  "3/\xE2\x88\x92"
                  "4 mm",
                  FER_TEXT_FRACTION_WRONG, 2);
    check_refused(kind_length, "3/.5 mm", FER_TEXT_FRACTION_WRONG, 2);
    check_refused(kind_length, "3/4.5 mm", FER_TEXT_FRACTION_WRONG, 3);
    check_refused(kind_length, "1.5/4 mm", FER_TEXT_FRACTION_WRONG, 3);
    check_refused(kind_length, "1./4 mm", FER_TEXT_FRACTION_WRONG, 2);
    check_refused(kind_length, "1e3/4 mm", FER_TEXT_FRACTION_WRONG, 3);
    check_refused(kind_length, "1.5 1/4 mm", FER_TEXT_FRACTION_WRONG, 4);
    check_refused(kind_length, "1e0-1/4 mm", FER_TEXT_FRACTION_WRONG, 4);
    check_refused(kind_length, "1 1/-4 mm", FER_TEXT_FRACTION_WRONG, 4);
    check_refused(kind_length, "1 5/4 mm", FER_TEXT_FRACTION_IMPROPER, 2);
    check_refused(kind_length, "1-4/4 mm", FER_TEXT_FRACTION_IMPROPER, 2);
    check_refused(kind_length, "1 10/9 mm", FER_TEXT_FRACTION_IMPROPER, 2);
    check_refused(kind_length, "1--1/4 mm", FER_TEXT_UNIT_UNKNOWN, 1);
    check_refused(kind_length, "1 -1/4 mm", FER_TEXT_UNIT_UNKNOWN, 2);
    check_refused(kind_length, "1/4 1/4 mm", FER_TEXT_UNIT_UNKNOWN, 4);
    check_refused(kind_length, "1/4/5 mm", FER_TEXT_UNIT_UNKNOWN, 3);
}

static void the_unit_is_never_guessed(void **state)
{
    (void)state;
    check_refused(kind_length, "12", FER_TEXT_UNIT_MISSING, 2);
    check_refused(kind_length, "12 ", FER_TEXT_UNIT_MISSING, 3);
    check_refused(kind_ratio, "0.2", FER_TEXT_UNIT_MISSING, 3);
    check_refused(kind_length, "1 1/4", FER_TEXT_UNIT_MISSING, 5);
    check_refused(kind_pressure, "12 mPa", FER_TEXT_UNIT_UNKNOWN, 3);
    check_refused(kind_length, "12 m m", FER_TEXT_UNIT_UNKNOWN, 5);
    check_refused(kind_length, "12 mm x", FER_TEXT_UNIT_UNKNOWN, 6);
    check_refused(kind_length, "12 mmx", FER_TEXT_UNIT_UNKNOWN, 3);
    check_refused(kind_length, "12 mm mm", FER_TEXT_UNIT_UNKNOWN, 6);
    check_refused(kind_length, "12 13 mm", FER_TEXT_UNIT_UNKNOWN, 3);
    check_refused(kind_length, "1.2.3 mm", FER_TEXT_UNIT_UNKNOWN, 3);
    check_refused(kind_length, "12 mm,", FER_TEXT_UNIT_UNKNOWN, 3);
    check_refused(kind_length, "12 millimetr", FER_TEXT_UNIT_UNKNOWN, 3);
    check_refused(kind_length, "12 mm\n", FER_TEXT_UNIT_UNKNOWN, 3);
    check_refused(kind_length, "1e", FER_TEXT_UNIT_UNKNOWN, 1);
    check_refused(kind_length, "1e+ mm", FER_TEXT_UNIT_UNKNOWN, 1);
    check_refused(kind_length, "0x10 mm", FER_TEXT_UNIT_UNKNOWN, 1);
    check_refused(kind_length, "12 \xC2", FER_TEXT_UNIT_UNKNOWN, 3);
    check_refused(kind_length, "12 bar", FER_TEXT_UNIT_OTHER_KIND, 3);
    check_refused(kind_length, "12 bar x", FER_TEXT_UNIT_OTHER_KIND, 3);
    check_refused(kind_area, "12 mm", FER_TEXT_UNIT_OTHER_KIND, 3);
    check_refused(kind_ratio, "12 mm", FER_TEXT_UNIT_OTHER_KIND, 3);
}

/* Case is only read where another case is another unit: SI brochure (9th edition), tables 7 and 4, has M for mega and
 * m for milli, so that mPa and Mm are units, which nobody means here. */
static void units_may_be_in_capitals(void **state)
{
    (void)state;
    static const struct {
        int kind;
        const char *text;
        double expected;
    } same[] = {
        {kind_length, "12 MM", 12.0},
        {kind_length, "12 mM", 12.0},
        {kind_length, "2 IN", 50.8},
        {kind_length, "2In", 50.8},
        {kind_length, "2 INCHES", 50.8},
        {kind_length, "2 Ft", 609.6},
        {kind_length, "12 CM", 120.0},
        {kind_length, "12 Millimeters", 12.0},
        {kind_length, "12 millimetres", 12.0},
        {kind_length, "1 Metre", 1000.0},
        {kind_length, "1 meter", 1000.0},
        {kind_length, "1 centimeter", 10.0},
        {kind_length, "500 mils", 12.7},
        {kind_length, "500 mil", 12.7},
        {kind_length, "500 Mils", 12.7},
        {kind_length, "5 UM", 0.005},
        {kind_area, "5 MM2", 5.0},
        {kind_pressure, "5 MPa", 5.0},
        {kind_pressure, "5 MPA", 5.0},
        {kind_pressure, "5 Mpa", 5.0},
        {kind_pressure, "5 N/MM2", 5.0},
        {kind_pressure, "5 BAR", 0.5},
        {kind_pressure, "5 kpa", 0.005},
        {kind_pressure, "5 GPA", 5000.0},
        {kind_force, "5 KN", 5000.0},
        {kind_force, "5 kn", 5000.0},
        {kind_angle, "180 DEG", 3.14159265358979323846},
        {kind_ratio, "20 PERCENT", 0.2},
        {kind_temperature,
         "20 \xC2\xB0"
         "c",
         20.0},
        {kind_per_length, "5 1/MM", 5.0},
    };
    static const struct {
        int kind;
        const char *text;
    } other[] = {
        {kind_pressure, "5 mPa"},  {kind_pressure, "5 mpa"},    {kind_pressure, "5 mPA"},
        {kind_length, "5 Mm"},     {kind_area, "5 Mm2"},        {kind_pressure, "5 N/Mm2"},
        {kind_length, "5 M"},      {kind_force, "5 n"},         {kind_temperature, "5 c"},
        {kind_temperature, "5 f"}, {kind_per_length, "5 1/Mm"},
    };
    for (size_t i = 0; i < sizeof same / sizeof *same; i++) {
        check_value(same[i].kind, same[i].text, same[i].expected);
    }
    for (size_t i = 0; i < sizeof other / sizeof *other; i++) {
        check_refused(other[i].kind, other[i].text, FER_TEXT_UNIT_UNKNOWN, 2);
    }
}

/* The other tests read every text with comma and point exchanged as well: check_exchanged(). */
static void a_comma_is_a_decimal_sign_where_the_caller_says_so(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        fer_status status;
        double expected;
        size_t stop;
    } rows[] = {
        {"12,7 mm", FER_OK, 12.7, 7},
        {",5 in", FER_OK, 12.7, 5},
        {"-0,05 mm", FER_OK, -0.05, 8},
        {"1,2e3 mm", FER_OK, 1200.0, 8},
        {"12 mm", FER_OK, 12.0, 5},
        {"1 1/4 in", FER_OK, 31.75, 8},
        {"1\xC2\xBD in", FER_OK, 38.1, 6},
        {"12.7 mm", FER_TEXT_POINT, 0.0, 2},
        {"1.234 mm", FER_TEXT_POINT, 0.0, 1},
        {"1.234,5 mm", FER_TEXT_POINT, 0.0, 1},
        {"1,234.5 mm", FER_TEXT_POINT, 0.0, 5},
        {"1,234,5 mm", FER_TEXT_UNIT_UNKNOWN, 0.0, 5},
        {"3/4,5 mm", FER_TEXT_FRACTION_WRONG, 0.0, 3},
        {"3/4.5 mm", FER_TEXT_POINT, 0.0, 3},
        {"12,7", FER_TEXT_UNIT_MISSING, 0.0, 4},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        fer_length length;
        size_t stop;
        CHECK_STATUS(fer_parse_comma_length(rows[i].text, strlen(rows[i].text), &length, &stop),
                     rows[i].status);
        assert_int_equal(stop, rows[i].stop);
        assert_true(rows[i].status == FER_OK ? length.mm == rows[i].expected : isnan(length.mm));
    }
}

static void a_zero_byte_is_a_byte_like_others(void **state)
{
    (void)state;
    check_bytes(kind_length, "12 mm\0", 6, FER_TEXT_UNIT_UNKNOWN, 3);
    check_bytes(kind_length, "12 \0mm", 6, FER_TEXT_UNIT_UNKNOWN, 3);
    check_bytes(kind_length, "\0", 1, FER_TEXT_NUMBER_MISSING, 0);
    check_bytes(kind_length, "12 mm\0millimetre", 16, FER_TEXT_UNIT_UNKNOWN, 3);
    check_bytes(kind_length, "12 mm \0", 7, FER_TEXT_UNIT_UNKNOWN, 6);
}

/* Each beginning of a text, alone in its block. */
static void nothing_beyond_the_length_is_read(void **state)
{
    (void)state;
    static const char *const texts[] = {"-12345.678e-12 millimetres",
                                        "1-1/4\xE2\x80\xB3 ",
                                        ("1\xC2\xA0"
                                         "1/4 in"),
                                        "\xE2\x88\x92.5\xE2\x80\xAF\xC2\xB5m",
                                        "3/4e",
                                        "1 \xE2\x85\x9E in",
                                        ("5\xE2\x81\x84"
                                         "16 in"),
                                        "1.e+1"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        for (size_t length = 0; length <= strlen(texts[i]); length++) {
            double number;
            size_t stop;
            const fer_status status = parse_block(kind_length, texts[i], length, &number, &stop);
            assert_true(stop <= length);
            assert_true(status == FER_OK ? isfinite(number) && stop == length : isnan(number));
        }
    }
}

static void long_texts_have_their_limits(void **state)
{
    (void)state;
    char text[1200];
    memset(text, '9', sizeof text);
    memcpy(text + 400, "e-399 mm", 9);
    check_value(kind_length, text, 10.0);
    memcpy(text + 400, "9 mm", 5);
    check_refused(kind_length, text, FER_TEXT_NUMBER_TOO_LONG, 400);
    memset(text, '0', 401);
    check_refused(kind_length, text, FER_TEXT_NUMBER_TOO_LONG, 400);
    memset(text, '9', 401);
    text[200] = '/';
    check_value(kind_length, text, 1.0);
    text[200] = '.';
    check_value(kind_length, text, 1e200);
}

/* What needs most space on the stack, in every unit: 400 nines with the largest exponents. Beside 1 or 0 they
 * differ by less than any double shows. */
static void the_longest_numbers_fit(void **state)
{
    (void)state;
    char nines[401], text[440], plain[40];
    memset(nines, '9', 400);
    nines[400] = '\0';
    for (int unit = 0; unit < FER_UNIT_COUNT; unit++) {
        const int kind = units[unit].kind;
        for (int one = 0; one <= 1; one++) {
            const char *const start = one ? "-" : "-.";
            (void)snprintf(plain, sizeof plain, "-%d %s", one, units[unit].symbols);
            (void)snprintf(text, sizeof text, "%s%se-400 %s", start, nines, units[unit].symbols);
            check_value(kind, text, value_of(kind, plain));
            (void)snprintf(text, sizeof text, "%s%se400 %s", start, nines, units[unit].symbols);
            check_refused(kind, text, FER_TEXT_NUMBER_TOO_LARGE, 1);
        }
    }
}

static void texts_above_1000_bytes_are_refused(void **state)
{
    (void)state;
    char text[1200];
    memset(text, ' ', sizeof text);
    memcpy(text, "41 mm", 5);
    text[1000] = '\0';
    check_value(kind_length, text, 41.0);
    text[1000] = ' ';
    text[1001] = '\0';
    check_refused(kind_length, text, FER_TEXT_TOO_LONG, 1000);
}

static void numbers_beyond_all_doubles_are_refused(void **state)
{
    (void)state;
    check_value(kind_length, "1.7976931348623157e308 mm", DBL_MAX);
    check_value(kind_length, "1.7976931348623158e308 mm", DBL_MAX);
    check_refused(kind_length, "1.7976931348623159e308 mm", FER_TEXT_NUMBER_TOO_LARGE, 0);
    check_refused(kind_length, "  -1e309 mm", FER_TEXT_NUMBER_TOO_LARGE, 3);
    check_refused(kind_length, "1e308 m", FER_TEXT_NUMBER_TOO_LARGE, 0);
    check_value(kind_length, "1e310 um", 1e307);
    check_refused(kind_length, "1e400 mm", FER_TEXT_NUMBER_TOO_LARGE, 0);
}

static void null_pointers_are_refused_and_the_rest_is_written(void **state)
{
    (void)state;
    fer_length length = {1.0};
    size_t stop = 9, written = 9;
    char text[20] = "x";
    CHECK_STATUS(fer_parse_length(NULL, 5, &length, &stop), FER_ARGUMENT_MISSING);
    CHECK_NAN(length.mm);
    assert_int_equal(stop, 0);
    CHECK_STATUS(fer_parse_comma_length("41 mm", 5, NULL, &stop), FER_ARGUMENT_MISSING);
    stop = 9;
    CHECK_STATUS(fer_parse_length("41 mm", 5, NULL, &stop), FER_ARGUMENT_MISSING);
    assert_int_equal(stop, 0);
    length.mm = 1.0;
    CHECK_STATUS(fer_parse_length("41 mm", 5, &length, NULL), FER_ARGUMENT_MISSING);
    CHECK_NAN(length.mm);
    CHECK_STATUS(fer_format_length(fer_mm(1.0), FER_UNIT_mm, 1, NULL, 20, &written), FER_ARGUMENT_MISSING);
    assert_int_equal(written, 0);
    CHECK_STATUS(fer_format_length(fer_mm(1.0), FER_UNIT_mm, 1, text, sizeof text, NULL),
                 FER_ARGUMENT_MISSING);
    assert_string_equal(text, "");
}

/* ---- units ---- */

static void every_symbol_is_understood_and_belongs_to_one_unit(void **state)
{
    (void)state;
    for (int i = 0; i < FER_UNIT_COUNT; i++) {
        assert_string_equal(fer_unit_symbol((fer_unit)i), units[i].symbols);
        for (size_t at = 0; at < units[i].size;) {
            const size_t size = strcspn(units[i].symbols + at, " ");
            char text[60] = "7 ";
            double number;
            size_t stop;
            memcpy(text + 2, units[i].symbols + at, size);
            text[2 + size] = '\0';
            for (int kind = 0; kind < kind_count; kind++) {
                const fer_status status = parse_block(kind, text, strlen(text), &number, &stop);
                assert_int_equal(status, kind == units[i].kind ? FER_OK : FER_TEXT_UNIT_OTHER_KIND);
            }
            const double expected = (7.0 - units[i].zero) * units[i].numerator / units[i].denominator;
            CHECK_NEAR(value_of(units[i].kind, text), expected, 2e-16 * fabs(expected));
            at += size + 1;
        }
    }
    assert_string_equal(fer_unit_symbol(FER_UNIT_COUNT), "");
    assert_string_equal(fer_unit_symbol((fer_unit)-1), "");
}

/* NIST SP 811 (2008), appendix B.8 and B.9, from memory; to the digits given there. */
static void units_agree_with_nist_sp_811(void **state)
{
    (void)state;
    check_value(kind_length, "1 in", 25.4);
    check_value(kind_length, "1 ft", 304.8);
    check_value(kind_length, "1 thou", 0.0254);
    check_value(kind_area, "1 in2",
                PUBLISHED(645.16, "NIST SP 811 (2008); B.8: square inch in mm²; from memory"));
    check_value(
        kind_force, "1 lbf",
        PUBLISHED(4.4482216152605, "NIST SP 811 (2008); B.8: pound-force in N (footnote); from memory"));
    check_value(kind_force, "1 tf", 9806.65);
    CHECK_NEAR(value_of(kind_pressure, "1 psi"), 6894.75729317e-6, 0.5e-14);
    CHECK_NEAR(value_of(kind_pressure, "1000 psi"),
               PUBLISHED(6.894757, "NIST SP 811 (2008); B.8: psi in kPa; from memory"), 0.5e-6);
    check_value(kind_pressure, "1 bar", 0.1);
    CHECK_NEAR(value_of(kind_pressure, "14.503773773 psi"), 0.1, 0.5e-11);
    CHECK_NEAR(value_of(kind_angle, "1 deg"),
               PUBLISHED(1.745329251994e-2, "NIST SP 811 (2008); B.8: degree of angle in rad (1.745 329 E-02 "
                                            "there); from memory; the further digits are those of pi/180"),
               0.5e-14);
    check_value(kind_angle, "180\xC2\xB0", 3.14159265358979323846);
    check_value(kind_angle, "90 deg", 1.57079632679489661923);
    check_value(kind_temperature,
                "32 \xC2\xB0"
                "F",
                0.0);
    check_value(kind_temperature, "212 degF",
                PUBLISHED(100.0, "NIST SP 811 (2008); B.8: degree Fahrenheit (boiling water by the formula); "
                                 "the formula from memory and worked out by hand"));
    check_value(kind_temperature, "-40 F", -40.0);
    CHECK_NEAR(value_of(kind_temperature, "98.6 F"), 37.0, 1e-14);
    check_value(kind_ratio, "20 %", 0.2);
    check_value(kind_ratio, "0.2 fraction", 0.2);
    check_value(kind_length, "4.96 in", 125.984);
    check_value(kind_length, "1 \xC2\xB5m", 0.001);
    check_value(kind_length, "1 \xCE\xBCm", 0.001);
}

/* A pressure is a force by an area, in every way to write the square. */
static void a_pressure_may_be_written_as_force_by_area(void **state)
{
    (void)state;
    const char *const forces[] = {"N", "kN", "lbf"}, *const lengths[] = {"mm", "mm", "in"},
                      *const squares[] = {"2", "^2", "\xC2\xB2"};
    for (int i = 0; i < 3; i++) {
        for (int k = 0; k < 3; k++) {
            char force[16], area[16], pressure[32];
            (void)snprintf(force, sizeof force, "3 %s", forces[i]);
            (void)snprintf(area, sizeof area, "1 %s%s", lengths[i], squares[k]);
            (void)snprintf(pressure, sizeof pressure, "3 %s/%s%s", forces[i], lengths[i], squares[k]);
            const double expected = value_of(kind_force, force) / value_of(kind_area, area);
            CHECK_NEAR(value_of(kind_pressure, pressure), expected, 4e-16 * expected);
        }
    }
}

/* i thousandths of an inch are 254 i / 10^4 mm exactly; multiplying by 25.4 would be two roundings and miss some. */
static void inches_are_rounded_once(void **state)
{
    (void)state;
    for (int i = 1; i < 20000; i++) {
        char inches[40], millimetres[40];
        (void)snprintf(inches, sizeof inches, "%d.%03d in", i / 1000, i % 1000);
        (void)snprintf(millimetres, sizeof millimetres, "%de-4", 254 * i);
        check_value(kind_length, inches, strtod(millimetres, NULL));
    }
}

/* ---- writing ---- */

static void numbers_are_written_with_the_decimals_asked_for(void **state)
{
    (void)state;
    check_written(FER_UNIT_mm, 41.0, FER_SHORTEST, "41 mm");
    check_written(FER_UNIT_mm, 41.0, 0, "41 mm");
    check_written(FER_UNIT_mm, 41.0, 2, "41.00 mm");
    check_written(FER_UNIT_mm, -41.0, 2, "-41.00 mm");
    check_written(FER_UNIT_mm, 0.05, 1, "0.1 mm"); /* the double 0.05 is above 0.05 */
    check_written(FER_UNIT_mm, 0.05, 3, "0.050 mm");
    check_written(FER_UNIT_mm, 0.05, FER_SHORTEST, "0.05 mm");
    check_written(FER_UNIT_inch, 125.984, 2, "4.96 in");
    check_written(FER_UNIT_inch, 125.984, FER_SHORTEST, "4.96 in");
    check_written(FER_UNIT_inch, 25.4, 4, "1.0000 in");
    check_written(FER_UNIT_percent, 0.2, 0, "20 %");
    check_written(FER_UNIT_percent, 0.2, FER_SHORTEST, "20 %");
    check_written(FER_UNIT_fahrenheit, 0.0, 1,
                  "32.0 \xC2\xB0"
                  "F");
    check_written(FER_UNIT_fahrenheit, -40.0, FER_SHORTEST,
                  "-40 \xC2\xB0"
                  "F");
    check_written(FER_UNIT_deg, 3.14159265358979323846, FER_SHORTEST, "180 \xC2\xB0");
    check_written(FER_UNIT_deg, 1.57079632679489661923, 3, "90.000 \xC2\xB0");
    check_written(FER_UNIT_mm, 1e22, FER_SHORTEST, "10000000000000000000000 mm");
    check_written(FER_UNIT_mm, 1e-10, FER_SHORTEST, "0.0000000001 mm");
    check_written(FER_UNIT_mm, 0.1, 30, "0.100000000000000005551115123126 mm");
    check_written(FER_UNIT_mm, 999.9996, 3, "1000.000 mm");
}

/* Sixty-fourths of an inch are 127/320 mm exactly; what lies half between two goes to the even one. */
static void inches_are_written_as_fractions(void **state)
{
    (void)state;
    check_written(FER_UNIT_inch, 31.75, FER_FRACTION(64), "1 1/4 in");
    check_written(FER_UNIT_inch, -31.75, FER_FRACTION(64), "-1 1/4 in");
    check_written(FER_UNIT_inch, 22.225, FER_FRACTION(64), "7/8 in");
    check_written(FER_UNIT_inch, -22.225, FER_FRACTION(64), "-7/8 in");
    check_written(FER_UNIT_inch, 50.8, FER_FRACTION(64), "2 in");
    check_written(FER_UNIT_inch, 508.0, FER_FRACTION(64), "20 in");
    check_written(FER_UNIT_inch, 0.0, FER_FRACTION(64), "0 in");
    check_written(FER_UNIT_inch, -0.19, FER_FRACTION(64), "0 in");
    check_written(FER_UNIT_inch, 0.396875, FER_FRACTION(64), "1/64 in");
    check_written(FER_UNIT_inch, 23.5, FER_FRACTION(64), "59/64 in");
    check_written(FER_UNIT_inch, 23.5, FER_FRACTION(128), "59/64 in");
    check_written(FER_UNIT_inch, 23.3, FER_FRACTION(128), "117/128 in");
    check_written(FER_UNIT_inch, 23.5, FER_FRACTION(16), "15/16 in");
    check_written(FER_UNIT_inch, 23.5, FER_FRACTION(2), "1 in");
    check_written(FER_UNIT_inch, 25.3, FER_FRACTION(64), "1 in");
    check_written(FER_UNIT_inch, 25.4 * 127, FER_FRACTION(64), "127 in");
    check_written(FER_UNIT_inch, 6.35, FER_FRACTION(2), "0 in");
    check_written(FER_UNIT_inch, 19.05, FER_FRACTION(2), "1 in");
    check_written(FER_UNIT_inch, 44.45, FER_FRACTION(4), "1 3/4 in");
    check_written(FER_UNIT_inch, 31.75, FER_FRACTION(2), "1 in");
    check_written(FER_UNIT_inch, 57.15, FER_FRACTION(2), "2 in");
    check_written(FER_UNIT_mm, 0.5, FER_FRACTION(2), "1/2 mm");
    check_written(FER_UNIT_fahrenheit, -40.0, FER_FRACTION(8),
                  "-40 \xC2\xB0"
                  "F");
    check_written(FER_UNIT_fahrenheit, 0.3125, FER_FRACTION(16),
                  "32 9/16 \xC2\xB0"
                  "F");
    check_written(FER_UNIT_deg, 3.14159265358979323846, FER_FRACTION(128), "180 \xC2\xB0");
    check_written(FER_UNIT_mm, 1e22, FER_FRACTION(64), "10000000000000000000000 mm");
    check_written(FER_UNIT_mm, 4503599627370495.5, FER_FRACTION(128), "4503599627370495 1/2 mm");
}

/* Each of them reads back to the bits that it came from. */
static void sixty_fourths_read_back(void **state)
{
    (void)state;
    for (int i = -64 * 20; i <= 64 * 20; i++) {
        char text[FER_TEXT_CAPACITY];
        const double mm = i * 127.0 / 320.0;
        write_block(FER_UNIT_inch, mm, FER_FRACTION(64), text);
        check_value(kind_length, text, mm);
        assert_true((strchr(text, '/') == NULL) == (i % 64 == 0));
    }
}

static void ties_go_to_even(void **state)
{
    (void)state;
    check_written(FER_UNIT_mm, 0.5, 0, "0 mm");
    check_written(FER_UNIT_mm, 1.5, 0, "2 mm");
    check_written(FER_UNIT_mm, 2.5, 0, "2 mm");
    check_written(FER_UNIT_mm, -2.5, 0, "-2 mm");
    check_written(FER_UNIT_mm, -3.5, 0, "-4 mm");
    check_written(FER_UNIT_mm, 0.125, 2, "0.12 mm");
    check_written(FER_UNIT_mm, 0.375, 2, "0.38 mm");
    check_written(FER_UNIT_inch, 12.7, 0, "0 in"); /* the double 12.7 is below 12.7 */
    check_written(FER_UNIT_metre, 500.0, 0, "0 m");
    check_written(FER_UNIT_metre, 1500.0, 0, "2 m");
    check_written(FER_UNIT_cm, 25.0, 0, "2 cm");
    check_written(FER_UNIT_inch, 63.5, 0, "2 in");
    check_written(FER_UNIT_fahrenheit, 2.5, 0,
                  "36 \xC2\xB0"
                  "F");
    check_written(FER_UNIT_fahrenheit, 7.5, 0,
                  "46 \xC2\xB0"
                  "F");
}

static void zero_has_no_sign(void **state)
{
    (void)state;
    check_written(FER_UNIT_mm, 0.0, 2, "0.00 mm");
    check_written(FER_UNIT_mm, -0.0, 2, "0.00 mm");
    check_written(FER_UNIT_mm, -0.0, FER_SHORTEST, "0 mm");
    check_written(FER_UNIT_mm, -0.001, 2, "0.00 mm");
    check_written(FER_UNIT_mm, -1e-300, 30, "0.000000000000000000000000000000 mm");
    check_written(FER_UNIT_deg, -0.0, FER_SHORTEST, "0 \xC2\xB0");
    check_written(FER_UNIT_fahrenheit, -160.0 / 9.0, FER_SHORTEST,
                  "0 \xC2\xB0"
                  "F");
}

static void what_cannot_be_written_is_refused(void **state)
{
    (void)state;
    static const struct {
        double number;
        int unit, decimals;
        fer_status expected;
    } cases[] = {
        {NAN, FER_UNIT_mm, 1, FER_TEXT_VALUE_NOT_FINITE},
        {INFINITY, FER_UNIT_mm, FER_SHORTEST, FER_TEXT_VALUE_NOT_FINITE},
        {-INFINITY, FER_UNIT_mm, 1, FER_TEXT_VALUE_NOT_FINITE},
        {1.0, FER_UNIT_mm, -2, FER_TEXT_DECIMALS_OUT_OF_RANGE},
        {1.0, FER_UNIT_mm, 31, FER_TEXT_DECIMALS_OUT_OF_RANGE},
        {1.0, FER_UNIT_mm, FER_FRACTION(1), FER_TEXT_DECIMALS_OUT_OF_RANGE},
        {1.0, FER_UNIT_mm, FER_FRACTION(3), FER_TEXT_DECIMALS_OUT_OF_RANGE},
        {1.0, FER_UNIT_mm, FER_FRACTION(256), FER_TEXT_DECIMALS_OUT_OF_RANGE},
        {1.0, FER_UNIT_mm, INT_MIN, FER_TEXT_DECIMALS_OUT_OF_RANGE},
        {NAN, FER_UNIT_mm, FER_FRACTION(64), FER_TEXT_VALUE_NOT_FINITE},
        {1.0, FER_UNIT_bar, 1, FER_UNIT_WRONG_KIND},
        {1.0, FER_UNIT_COUNT, 1, FER_UNIT_UNKNOWN},
        {1.0, -1, 1, FER_UNIT_UNKNOWN},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[40] = "x";
        size_t length = 9;
        CHECK_STATUS(fer_format_length(fer_mm(cases[i].number), (fer_unit)cases[i].unit, cases[i].decimals,
                                       text, sizeof text, &length),
                     cases[i].expected);
        assert_string_equal(text, "");
        assert_int_equal(length, 0);
    }
    char text[2] = "x";
    size_t length = 9;
    CHECK_STATUS(fer_format_length(fer_mm(1.0), FER_UNIT_mm, 0, text, 0, &length),
                 FER_TEXT_CAPACITY_TOO_SMALL);
    assert_int_equal(length, 0);
    assert_int_equal(text[0], 'x');
}

static void the_longest_texts_fit(void **state)
{
    (void)state;
    static const double extremes[] = {DBL_MAX,
                                      -DBL_MAX,
                                      DBL_MIN,
                                      -DBL_MIN,
                                      5e-324,
                                      -5e-324,
                                      -2.2250738585072019e-308,
                                      -1.2345678901234567e-307,
                                      1.2345678901234567e308};
    for (size_t i = 0; i < sizeof extremes / sizeof *extremes; i++) {
        for (int unit = 0; unit < FER_UNIT_COUNT; unit++) {
            for (int decimals = FER_SHORTEST; decimals <= 30; decimals++) {
                char text[FER_TEXT_CAPACITY];
                write_block((fer_unit)unit, extremes[i], decimals, text);
                assert_true(strlen(text) + 40 < FER_TEXT_CAPACITY);
                if (decimals == FER_SHORTEST) {
                    check_value(units[unit].kind, text, extremes[i]);
                }
            }
        }
    }
}

/* ---- correct rounding ---- */

static void every_unit_reads_back_to_the_same_bits(void **state)
{
    (void)state;
    for (int unit = 0; unit < FER_UNIT_COUNT; unit++) {
        for (int i = 0, many = draws(1000); i < many; i++) {
            const double x =
                i % 2 ? random_double() : (double)(int64_t)(random_bits() >> 34) / 1048576.0 - 512.0;
            char text[FER_TEXT_CAPACITY];
            size_t length;
            CHECK_OK(
                kinds[units[unit].kind].format(x, (fer_unit)unit, FER_SHORTEST, text, sizeof text, &length));
            check_value(units[unit].kind, text, x);
        }
    }
}

/* Hard cases: exact ties between two doubles and their neighbours, borders of the denormals and of overflow,
 * and numbers known from the literature on conversion (from memory). glibc's strtod is correctly rounded. */
static void hard_decimals_agree_with_strtod(void **state)
{
    (void)state;
    static const char *const numbers[] = {
        "9007199254740993",
        "9007199254740993.00000000000000000000000000000000000000000000000000000000000000000000000001",
        "9007199254740992.99999999999999999999999999999999999999999999999999999999999999999999999999",
        "9007199254740995",
        "9007199254740994.99999999999999999999",
        "9007199254740995.00000000000000000001",
        "0.500000000000000166533453693773481063544750213623046875",
        "0.500000000000000166533453693773481063544750213623046876",
        "3.518437208883201171875e13",
        "62.5364939768271845828",
        "8.10109172351e-10",
        "1.50000000000000011102230246251565",
        "6.9294956446009195e15",
        "3.7455744005952583e15",
        "2.2250738585072011e-308",
        "2.2250738585072012e-308",
        "2.2250738585072014e-308",
        "2.4703282292062327e-324",
        "2.4703282292062328e-324",
        "4.9406564584124654e-324",
        "7.4109846876186981e-324",
        "7.4109846876186982e-324",
        "1.7976931348623157e308",
        "1.7976931348623158e308",
        "1.797693134862315807e308",
        "1e23",
        "8.5e22",
        "5e-324",
        "2e-324",
        "123456789012345678901234567890e-29",
        "1.797693134862315807937289714053e308",
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        char text[500];
        (void)snprintf(text, sizeof text, "%s mm", numbers[i]);
        check_value(kind_length, text, strtod(numbers[i], NULL));
    }
}

/* The exact tie above a random double, as printf writes it (a long double holds it exactly on this machine), and
 * that number with its last digit changed. */
static void exact_ties_agree_with_strtod(void **state)
{
    (void)state;
    for (int i = 0, many = draws(3000); i < many; i++) {
        double x = ldexp((double)(random_bits() >> 11 | (uint64_t)1 << 52), (int)(random_bits() % 300) - 200);
        const long double tie = ((long double)x + (long double)nextafter(x, INFINITY)) / 2.0L;
        char text[900];
        int length = snprintf(text, sizeof text, "%.250Lf", tie);
        if (length > 390 || tie == (long double)x) {
            continue;
        }
        for (int last = -1; last <= 1; last++) {
            char changed[910];
            (void)snprintf(changed, sizeof changed, "%s%s mm", text, last > 0 ? "1" : "");
            if (last < 0) {
                int at = length - 1;
                while (changed[at] == '0' || changed[at] == '.') {
                    at--;
                }
                changed[at]--;
            }
            check_value(kind_length, changed, strtod(changed, NULL));
        }
    }
}

static void random_decimals_agree_with_strtod(void **state)
{
    (void)state;
    for (int i = 0, many = draws(100000); i < many; i++) {
        char text[400];
        const int digits = 1 + (int)(random_bits() % (i % 50 == 0 ? 300 : 25));
        for (int j = 0; j < digits; j++) {
            text[j] = (char)('0' + random_bits() % 10);
        }
        if (digits > 2) {
            text[random_bits() % (uint64_t)digits] = '.';
        }
        (void)snprintf(text + digits, 20, "e%d", (int)(random_bits() % 660) - 340);
        const double expected = strtod(text, NULL);
        (void)snprintf(text + strlen(text), 10, " mm");
        if (isinf(expected)) {
            check_refused(kind_length, text, FER_TEXT_NUMBER_TOO_LARGE, 0);
        } else {
            check_value(kind_length, text, expected);
        }
    }
}

static void fixed_decimals_agree_with_printf(void **state)
{
    (void)state;
    for (int i = 0, many = draws(100000); i < many; i++) {
        const double x =
            i % 2 ? random_double() : (double)(int64_t)random_bits() / ldexp(1.0, (int)(random_bits() % 64));
        const int decimals = (int)(random_bits() % 31);
        char expected[FER_TEXT_CAPACITY], text[FER_TEXT_CAPACITY];
        size_t length;
        (void)snprintf(expected, sizeof expected, "%.*f mm", decimals, x);
        const size_t sign = strspn(expected, "-0. m") == strlen(expected) && x < 0.0; /* no negative zero */
        CHECK_OK(fer_format_length(fer_mm(x), FER_UNIT_mm, decimals, text, sizeof text, &length));
        if (strcmp(text, expected + sign) != 0) {
            fail_msg("%.17g with %d decimals gives \"%s\", not \"%s\"", x, decimals, text, expected + sign);
        }
    }
}

/* The digits of a text without sign, point, exponent, and zeros at either end. */
static void take_digits(const char *text, char *digits)
{
    size_t count = 0;
    for (; *text != '\0' && *text != 'e' && *text != ' '; text++) {
        if (*text >= '0' && *text <= '9' && (*text != '0' || count > 0)) {
            digits[count++] = *text;
        }
    }
    while (count > 0 && digits[count - 1] == '0') {
        count--;
    }
    digits[count] = '\0';
}

/* Printf with ever more digits until strtod reads the same double again. The shortest can only be shorter where
 * the nearest of that length does not read back but another does, which happens at powers of two. */
static void the_shortest_agrees_with_printf_and_strtod(void **state)
{
    (void)state;
    for (int i = 0, many = draws(60000); i < many; i++) {
        const double x = i % 8 == 0 ? ldexp(1.0, (int)(random_bits() % 2098) - 1074) : random_double();
        char text[FER_TEXT_CAPACITY], other[60], digits[FER_TEXT_CAPACITY], expected[60];
        size_t length;
        int precision = 0;
        do {
            (void)snprintf(other, sizeof other, "%.*e", precision++, x);
        } while (strtod(other, NULL) != x);
        CHECK_OK(fer_format_length(fer_mm(x), FER_UNIT_mm, FER_SHORTEST, text, sizeof text, &length));
        take_digits(text, digits);
        take_digits(other, expected);
        assert_true(strtod(text, NULL) == x);
        if (strcmp(digits, expected) != 0 && !(i % 8 == 0 && strlen(digits) < strlen(expected))) {
            fail_msg("%.17g gives %s, not %s", x, digits, expected);
        }
    }
}

/* Where a locale with a decimal comma is installed. */
static void the_locale_does_not_matter(void **state)
{
    (void)state;
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "C"};
    const char *set = NULL;
    for (size_t i = 0; i < sizeof names / sizeof *names && !set; i++) {
        set = setlocale(LC_ALL, names[i]);
    }
    check_value(kind_length, "12.7 mm", 12.7);
    check_written(FER_UNIT_mm, 12.7, 1, "12.7 mm");
    check_refused(kind_length, "12,7 mm", FER_TEXT_COMMA, 2);
    (void)setlocale(LC_ALL, "C");
}

/* Whole numbers from 2^53 on take the long way; expected values by the compiler. */
static void large_whole_numbers_are_exact(void **state)
{
    (void)state;
    check_value(kind_length, "123456789012345e3 mm", 123456789012345e3);
    check_value(kind_length, "999999999999999e15 mm", 999999999999999e15);
    check_value(kind_temperature, "32.000000000000001 degF", 5.5555555555555555556e-16);
    check_value(kind_temperature, "0.000000000000001 degF", -17.77777777777777722222);
    check_value(kind_temperature, "-70 1/99999999999999 degF", -56.66666666666667222222);
    check_value(kind_length, "999999999999999 1/999999999999999 mm", 999999999999999.0);
}

/* All numbers of a text together have at most 400 digits. */
static void fractions_have_as_many_digits_as_a_number(void **state)
{
    (void)state;
    char text[420];
    memset(text, '1', 402);
    memcpy(text + 402, "/3 mm", 6);
    check_refused(kind_length, text, FER_TEXT_NUMBER_TOO_LONG, 400);
    memcpy(text, "2.", 2);
    check_refused(kind_length, text, FER_TEXT_NUMBER_TOO_LONG, 401);
    memcpy(text, "2 ", 2);
    check_refused(kind_length, text, FER_TEXT_NUMBER_TOO_LONG, 401);
    memcpy(text, "2/", 2);
    memcpy(text + 402, " mm", 4);
    check_refused(kind_length, text, FER_TEXT_NUMBER_TOO_LONG, 401);
}

/* Expected values by Python's exact fractions. (33 270000000000001 + 200000000000000) has no double, though 32 times the
 * denominator less it has one; and 205 lbf is 911.8854311284025 N, while its two products in doubles have the quotient
 * 911.8854311284024, which so must not be written as 205 lbf. */
static void where_doubles_cannot_do_it_whole_numbers_do(void **state)
{
    (void)state;
    const char fraction[] = "33 200000000000000/270000000000001 degF";
    fer_temperature temperature;
    fer_force force;
    size_t stop, length;
    char text[64];
    CHECK_OK(fer_parse_temperature(fraction, sizeof fraction - 1, &temperature, &stop));
    CHECK_NEAR(temperature.celsius, 0.96707818930041, 0.0);
    const fer_force near = {0x1.c7f155cea5acap+9}, exact = {911.8854311284025};
    CHECK_OK(fer_format_force(exact, FER_UNIT_lbf, FER_SHORTEST, text, sizeof text, &length));
    assert_string_equal(text, "205 lbf");
    CHECK_OK(fer_format_force(near, FER_UNIT_lbf, FER_SHORTEST, text, sizeof text, &length));
    assert_string_not_equal(text, "205 lbf");
    CHECK_OK(fer_parse_force(text, length, &force, &stop));
    CHECK_NEAR(force.newton, near.newton, 0.0);
    /* a product of powers of five that no double has; counters and denominators of 24 digits */
    const char small[] = "0.000003 psi", over[] = "100000000000000000000001/8 mm",
               under[] = "1/100000000000000000000001 mm";
    fer_pressure pressure;
    fer_length found;
    CHECK_OK(fer_parse_pressure(small, sizeof small - 1, &pressure, &stop));
    CHECK_NEAR(pressure.mpa, 2.0684271879505082e-08, 0.0);
    CHECK_OK(fer_parse_length(over, sizeof over - 1, &found, &stop));
    CHECK_NEAR(found.mm, 1.2500000000000001e+22, 0.0);
    CHECK_OK(fer_parse_length(under, sizeof under - 1, &found, &stop));
    CHECK_NEAR(found.mm, 1e-23, 0.0);
    /* the smallest normal double is a power of two, but the doubles below it are as far apart as those above */
    const fer_pressure minimum = {DBL_MIN};
    char tiny[400];
    CHECK_OK(fer_format_pressure(minimum, FER_UNIT_psi, FER_SHORTEST, tiny, sizeof tiny, &length));
    assert_string_equal(tiny + strspn(tiny, "0."), "3227196787205121 psi");
}

/* A bar without a number before it begins no fraction: 1 with nothing over 2 is not 1. */
static void a_fraction_has_a_counter(void **state)
{
    (void)state;
    const char *const bad[] = {"1 /2 mm", "1-/2 mm"};
    for (int i = 0; i < 2; i++) {
        fer_length length;
        size_t stop;
        CHECK_STATUS(fer_parse_length(bad[i], strlen(bad[i]), &length, &stop), FER_TEXT_UNIT_UNKNOWN);
        CHECK_NAN(length.mm);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_understood_as_people_write_them),
        cmocka_unit_test(fractions_are_understood),
        cmocka_unit_test(fractions_of_one_character_are_understood),
        cmocka_unit_test(a_bar_may_belong_to_the_unit),
        cmocka_unit_test(what_is_not_a_number_is_refused),
        cmocka_unit_test(fractions_that_are_none_are_refused),
        cmocka_unit_test(the_unit_is_never_guessed),
        cmocka_unit_test(units_may_be_in_capitals),
        cmocka_unit_test(a_comma_is_a_decimal_sign_where_the_caller_says_so),
        cmocka_unit_test(a_zero_byte_is_a_byte_like_others),
        cmocka_unit_test(nothing_beyond_the_length_is_read),
        cmocka_unit_test(long_texts_have_their_limits),
        cmocka_unit_test(the_longest_numbers_fit),
        cmocka_unit_test(texts_above_1000_bytes_are_refused),
        cmocka_unit_test(numbers_beyond_all_doubles_are_refused),
        cmocka_unit_test(null_pointers_are_refused_and_the_rest_is_written),
        cmocka_unit_test(every_symbol_is_understood_and_belongs_to_one_unit),
        cmocka_unit_test(units_agree_with_nist_sp_811),
        cmocka_unit_test(a_pressure_may_be_written_as_force_by_area),
        cmocka_unit_test(inches_are_rounded_once),
        cmocka_unit_test(numbers_are_written_with_the_decimals_asked_for),
        cmocka_unit_test(inches_are_written_as_fractions),
        cmocka_unit_test(sixty_fourths_read_back),
        cmocka_unit_test(ties_go_to_even),
        cmocka_unit_test(zero_has_no_sign),
        cmocka_unit_test(what_cannot_be_written_is_refused),
        cmocka_unit_test(the_longest_texts_fit),
        cmocka_unit_test_setup(every_unit_reads_back_to_the_same_bits, restart_random),
        cmocka_unit_test(hard_decimals_agree_with_strtod),
        cmocka_unit_test_setup(exact_ties_agree_with_strtod, restart_random),
        cmocka_unit_test_setup(random_decimals_agree_with_strtod, restart_random),
        cmocka_unit_test_setup(fixed_decimals_agree_with_printf, restart_random),
        cmocka_unit_test_setup(the_shortest_agrees_with_printf_and_strtod, restart_random),
        cmocka_unit_test(the_locale_does_not_matter),
        cmocka_unit_test(large_whole_numbers_are_exact),
        cmocka_unit_test(fractions_have_as_many_digits_as_a_number),
        cmocka_unit_test(where_doubles_cannot_do_it_whole_numbers_do),
        cmocka_unit_test(a_fraction_has_a_counter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
