/* SPDX-License-Identifier: MIT */
#include "kinds.h"

#define UNIT_FUNCTIONS(kind, field, unit, numerator, denominator, zero, symbols)                             \
    static double make_##unit(double number)                                                                 \
    {                                                                                                        \
        return fer_##unit(number).field;                                                                     \
    }                                                                                                        \
    static double read_##unit(double base)                                                                   \
    {                                                                                                        \
        const fer_##kind quantity = {base};                                                                  \
        return fer_to_##unit(quantity);                                                                      \
    }
FER_UNIT_LIST(UNIT_FUNCTIONS)

#define UNIT_ROW(kind, field, unit, numerator, denominator, zero, symbols)                                   \
    [FER_UNIT_##unit] = {#unit,       symbols,     sizeof(symbols), &bind_kinds[BIND_fer_##kind],            \
                         make_##unit, read_##unit, (zero) != 0.0},
const bind_unit bind_units[FER_UNIT_COUNT] = {FER_UNIT_LIST(UNIT_ROW)};

#define TEXT_FUNCTIONS(kind, field, words)                                                                   \
    static fer_status parse_##kind(const char *text, size_t length, double *base, size_t *stop)              \
    {                                                                                                        \
        fer_##kind quantity;                                                                                 \
        const fer_status status = fer_parse_##kind(text, length, &quantity, stop);                           \
        *base = quantity.field;                                                                              \
        return status;                                                                                       \
    }                                                                                                        \
    static fer_status format_##kind(double base, fer_unit unit, int decimals, char *text, size_t capacity,   \
                                    size_t *length)                                                          \
    {                                                                                                        \
        const fer_##kind quantity = {base};                                                                  \
        return fer_format_##kind(quantity, unit, decimals, text, capacity, length);                          \
    }
FER_KIND_LIST(TEXT_FUNCTIONS)

#define TEXT_ROW(kind, field, words) [BIND_fer_##kind] = {parse_##kind, format_##kind, FER_UNIT_##field},
const bind_text bind_texts[BIND_COUNT] = {FER_KIND_LIST(TEXT_ROW)};

#define STATUS_ROW(name, number, sentence) {#name, sentence, FER_##name},
const bind_status bind_statuses[] = {FER_STATUS_LIST(STATUS_ROW)};
const size_t bind_status_count = sizeof bind_statuses / sizeof bind_statuses[0];
