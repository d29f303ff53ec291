/* SPDX-License-Identifier: MIT */
#include "mutate.h"

#include <stdio.h>
#include <string.h>

#include <ferrule/ferrule.h>

typedef struct {
    const char *bytes;
    size_t size;
} piece;

static const piece units[] = {
#define UNIT_PIECE(kind, field, unit, numerator, denominator, zero, symbols) {symbols, sizeof(symbols) - 1},
    FER_UNIT_LIST(UNIT_PIECE)};

static const char *const pieces[] = {" ",
                                     "\t",
                                     "\xC2\xA0",
                                     "\xE2\x80\xAF",
                                     "\xE2\x80\x89",
                                     "-",
                                     "+",
                                     "\xE2\x88\x92",
                                     ".",
                                     ",",
                                     "/",
                                     "e",
                                     "E-",
                                     "e+",
                                     "0",
                                     "00",
                                     "1/4",
                                     " 1/4",
                                     "-3/8",
                                     "\xC2\xBD",
                                     " \xE2\x85\x9D",
                                     "\xE2\x81\x84",
                                     "MM",
                                     "Mp",
                                     "1/0",
                                     "e308",
                                     "e-308",
                                     "e-324",
                                     "e400",
                                     "5e-1",
                                     "1e23",
                                     "9007199254740993",
                                     "\xE2\x80",
                                     "\xC2",
                                     "nan",
                                     "inf",
                                     "0x"};

enum { UNIT_PIECES = sizeof units / sizeof *units, PIECES = sizeof pieces / sizeof *pieces };

uint32_t fuzz_random(uint64_t *state, uint32_t below)
{
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return (uint32_t)((*state * UINT64_C(0x2545F4914F6CDD1D) >> 32) % below);
}

/* One symbol of a unit. */
static piece some_symbol(uint64_t *state)
{
    const piece all = units[fuzz_random(state, UNIT_PIECES)];
    size_t start = fuzz_random(state, (uint32_t)all.size), end = start;
    while (start > 0 && all.bytes[start - 1] != ' ' && all.bytes[start - 1] != '\0') {
        start--;
    }
    while (end < all.size && all.bytes[end] != ' ' && all.bytes[end] != '\0') {
        end++;
    }
    return (piece){all.bytes + start, end > start ? end - start : 0};
}

static piece some_piece(uint64_t *state)
{
    const char *const bytes = pieces[fuzz_random(state, PIECES)];
    return fuzz_random(state, 3) == 0 ? some_symbol(state) : (piece){bytes, strlen(bytes)};
}

static size_t insert(uint8_t *data, size_t size, size_t capacity, size_t at, const char *bytes, size_t count)
{
    if (size + count > capacity) {
        return size;
    }
    memmove(data + at + count, data + at, size - at);
    memcpy(data + at, bytes, count);
    return size + count;
}

static size_t insert_digits(uint8_t *data, size_t size, size_t capacity, size_t at, uint64_t *state)
{
    char digits[420];
    const uint32_t maximum = fuzz_random(state, 40) == 0 ? sizeof digits : 24;
    const size_t count = fuzz_random(state, maximum) + 1;
    for (size_t i = 0; i < count; i++) {
        digits[i] = (char)('0' + fuzz_random(state, 10));
    }
    return insert(data, size, capacity, at, digits, count);
}

static size_t erase(uint8_t *data, size_t size, size_t at, size_t count)
{
    if (at + count > size) {
        return size;
    }
    memmove(data + at, data + at + count, size - at - count);
    return size - count;
}

size_t fuzz_mutate(uint8_t *data, size_t size, size_t capacity, uint64_t *state)
{
    const size_t at = fuzz_random(state, (uint32_t)size + 1);
    const piece new_piece = some_piece(state);
    switch (fuzz_random(state, 6)) {
    case 0:
        return insert(data, size, capacity, at, new_piece.bytes, new_piece.size);
    case 1:
        return insert_digits(data, size, capacity, at, state);
    case 2:
        return erase(data, size, at, 1 + fuzz_random(state, 4));
    case 3:
        if (at < size) {
            data[at] = (uint8_t)fuzz_random(state, 256);
        }
        return size;
    case 4:
        if (at < size) {
            data[at] ^= (uint8_t)(1U << fuzz_random(state, 8));
        }
        return size;
    default:
        return at; /* cut off */
    }
}

static size_t add(uint8_t *data, size_t size, size_t capacity, const char *text)
{
    return insert(data, size, capacity, size, text, strlen(text));
}

/* Two bytes that choose what is done (see fuzz_text.c), then the text. */
size_t fuzz_make(uint8_t *data, size_t capacity, uint64_t *state)
{
    static const char *const signs[] = {"", "", "", "-", "+", "\xE2\x88\x92"};
    static const char *const blanks[] = {"", " ", " ", "\t", "\xC2\xA0", "\xE2\x80\xAF"};
    char exponent[20];
    size_t size = 2;
    data[0] = (uint8_t)fuzz_random(state, 256);
    data[1] = (uint8_t)fuzz_random(state, 256);
    size = add(data, size, capacity, signs[fuzz_random(state, 6)]);
    size = insert_digits(data, size, capacity, size, state);
    const uint32_t form = fuzz_random(state, 5);
    if (form == 1 || form == 2) {
        size = add(data, size, capacity, ".");
        size = insert_digits(data, size, capacity, size, state);
    }
    if (form == 2) {
        (void)snprintf(exponent, sizeof exponent, "e%d", (int)fuzz_random(state, 820) - 410);
        size = add(data, size, capacity, exponent);
    }
    if (form == 3) {
        size = add(data, size, capacity, fuzz_random(state, 2) ? " 1" : "-3");
    }
    if (form >= 3) {
        size = add(data, size, capacity, "/");
        size = insert_digits(data, size, capacity, size, state);
    }
    size = add(data, size, capacity, blanks[fuzz_random(state, 6)]);
    const piece symbol = some_symbol(state);
    return insert(data, size, capacity, size, symbol.bytes, symbol.size);
}
